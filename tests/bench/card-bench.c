/* card-bench.c - a thousand setup cards as PDF, beside a bare program that draws as much
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The floor knows nothing of cards: for each it writes as many text runs of as many letters, and strokes and fills as
 * many lines and curves, as cairo's script surface counted in the real one. What the real card does beside that, words,
 * finding the size of type that fits, boxes, has to be won back by not laying the same label out again.
 */

#include "config.h"

#include "card/card.h"
#include "floor.h"
#include "model/room.h"

#include <cairo-pdf.h>
#include <cairo-script.h>
#include <glib/gstdio.h>
#include <math.h>
#include <pango/pangocairo.h>
#include <string.h>

#define N_CARDS 1000
#define FONTS "Inter, Cantarell, Noto Sans, DejaVu Sans, Sans"

/* What is drawn on one card. */
typedef struct { int runs, glyphs, strokes, fills, lines, curves; } Counts;

/* One PDF: the cards of one project, again and again. */
typedef struct
{
  HwPlan *plan;
  GArray *groups;                       /* int: of each set-up; one whose list goes on has several cards */
  GArray *counts;                       /* Counts: of each card */
} Batch;

/* ---- counting ---- */

static cairo_status_t
append_cb (void                *string,
           const unsigned char *data,
           unsigned int         length)
{
  g_string_append_len (string, (const char *) data, (gssize) length);
  return CAIRO_STATUS_SUCCESS;
}

/* Fonts are written once a device: one device for all cards. */
typedef struct { GString *script; cairo_device_t *device; } Counter;

/* The card in cairo's own words, an operator behind what it takes. */
static const char *
write_script (Counter      *counter,
              const HwCard *card)
{
  double           width, height;
  cairo_surface_t *surface;
  cairo_t         *cr;

  hw_card_get_size (card, &width, &height);
  g_string_truncate (counter->script, 0);
  surface = cairo_script_surface_create (counter->device, CAIRO_CONTENT_COLOR, width, height);
  cr = cairo_create (surface);
  hw_card_draw (card, cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  cairo_surface_destroy (surface);
  return counter->script->str;
}

/* The path that is painted next: the script does not write it again where it is kept to be painted twice, as a PDF does
 * and as any program that draws the same must. */
typedef struct { int lines, curves; } Path;

static void
count_paint (Counts     *counts,
             const Path *path,
             int        *n_painted)
{
  *n_painted += 1;
  counts->lines += path->lines;
  counts->curves += path->curves;
}

/* A path's words: what moves the pen, then how it is painted. */
static void
count_path (Counts     *counts,
            Path       *path,
            const char *line)
{
  g_auto (GStrv) words = g_strsplit (line, " ", -1);

  for (char **word = words; *word != NULL; word++)
    if (g_str_equal (*word, "n"))
      *path = (Path) { 0, 0 };
    else if (g_str_equal (*word, "l") || g_str_equal (*word, "L"))
      path->lines++;
    else if (g_str_equal (*word, "rectangle"))
      path->lines += 4;
    else if (g_str_equal (*word, "c") || g_str_equal (*word, "C"))
      path->curves++;
    else if (g_str_has_prefix (*word, "stroke"))
      count_paint (counts, path, &counts->strokes);
    else if (g_str_has_prefix (*word, "fill"))
      count_paint (counts, path, &counts->fills);
}

static Counts
count_card (Counter      *counter,
            const HwCard *card)
{
  g_auto (GStrv) lines = g_strsplit (write_script (counter, card), "\n", -1);
  Counts         counts = { 0 };
  Path           path = { 0 };

  for (char **line = lines; *line != NULL; line++)
    if (g_str_has_suffix (*line, "show-text-glyphs"))   /* "(its text) [glyphs and places] …" */
      {
        counts.runs++;
        counts.glyphs += (int) (strrchr (*line, ')') - *line) - 1;
      }
    else if (!g_str_has_prefix (*line, "<~"))
      {
        count_path (&counts, &path, *line);
      }
  return counts;
}

/* ---- the floor ---- */

static void
write_runs (cairo_t      *cr,
            PangoLayout  *layout,
            const Counts *counts)
{
  static const char letters[] = "the quick brown needle sews over the lazy seam and back again without a single stitch";
  int length = MIN (counts->glyphs / MAX (counts->runs, 1), (int) strlen (letters) / 2);

  for (int run = 0; run < counts->runs; run++)
    {
      cairo_move_to (cr, 20.31 + run % 3 * 180.173, 12.47 + run / 3 * 10.391);
      pango_layout_set_text (layout, letters + run % (int) (strlen (letters) / 2), length);
      pango_cairo_show_layout (cr, layout);
    }
}

/* @n_paths paths over which the lines and curves are spread. */
static void
draw_paths (cairo_t *cr,
            int      n_paths,
            int      n_lines,
            int      n_curves,
            void  (* paint) (cairo_t *cr))
{
  for (int path = 0; path < n_paths; path++)
    {
      double x = 10.37 + path % 50 * 11.173;
      double y = 10.59 + path / 50 * 13.719;

      cairo_move_to (cr, x, y);
      for (int i = n_lines * path / n_paths; i < n_lines * (path + 1) / n_paths; i++)
        cairo_line_to (cr, x + i % 7 * 1.313 + 1, y + i % 5 * 1.717 + 1);
      for (int i = n_curves * path / n_paths; i < n_curves * (path + 1) / n_paths; i++)
        cairo_curve_to (cr, x + 1.219, y + i % 3 * 1.531, x + 2.713, y + 3.297, x + i % 7 * 1.117, y + 5.171);
      paint (cr);
    }
}

static void
draw_bare_card (cairo_t      *cr,
                PangoLayout  *layout,
                const Counts *counts)
{
  int    n_paths = MAX (counts->strokes + counts->fills, 1);
  double stroked = (double) counts->strokes / n_paths;
  int    lines = (int) lround (counts->lines * stroked);
  int    curves = (int) lround (counts->curves * stroked);

  write_runs (cr, layout, counts);
  cairo_set_line_width (cr, 0.7);
  draw_paths (cr, counts->strokes, lines, curves, cairo_stroke);
  draw_paths (cr, counts->fills, counts->lines - lines, counts->curves - curves, cairo_fill);
}

static void
draw_bare (const Batch *batch,
           const char  *path)
{
  double                width, height;
  cairo_surface_t      *surface;
  cairo_t              *cr;
  PangoLayout          *layout;
  PangoFontDescription *font = pango_font_description_from_string (FONTS " 7");

  hw_paper_size (HW_PAPER_A5, &width, &height);
  surface = cairo_pdf_surface_create (path, width, height);
  cr = cairo_create (surface);
  layout = pango_cairo_create_layout (cr);
  pango_cairo_context_set_resolution (pango_layout_get_context (layout), 72);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  for (guint i = 0; i < batch->counts->len; i++)
    {
      draw_bare_card (cr, layout, &g_array_index (batch->counts, Counts, i));
      cairo_show_page (cr);
    }
  g_object_unref (layout);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (cairo_surface_status (surface) != CAIRO_STATUS_SUCCESS)
    g_error ("%s could not be written", path);
  cairo_surface_destroy (surface);
}

/* ---- ours ---- */

static void
write_cards (const Batch *batch,
             const char  *path)
{
  HwSheetOptions       options = { .paper = HW_PAPER_A5, .groups = (const int *) (const void *) batch->groups->data,
                                   .n_groups = batch->groups->len };
  g_autoptr (HwSheets) sheets = hw_sheets_new (batch->plan, &options);
  g_autoptr (GError)   error = NULL;

  if (!hw_sheets_write (sheets, path, 150, NULL, &error))
    g_error ("%s", error->message);
}

/* ---- what they work on ---- */

static const char * const projects[] = {
  "data/demo/projects/stage-cape.handwheel",
  "tests/plan/garments/jeans.handwheel",
  "tests/plan/garments/t-shirt.handwheel",
  "tests/plan/garments/velvet-jacket.handwheel",
  "tests/plan/garments/wrap-skirt.handwheel",
};

static HwPlan *
make_plan (const HwHandbook *handbook,
           const HwRoom     *room,
           const char       *project_path)
{
  g_autofree char       *path = g_build_filename (SOURCE_FOLDER, project_path, NULL);
  g_autoptr (GError)     error = NULL;
  g_autoptr (HwProject)  project = hw_project_read (path, &error);
  HwPlan                *plan = project != NULL ? hw_plan_new (handbook, project, room, &error) : NULL;

  if (plan == NULL)
    g_error ("%s", error->message);
  return plan;
}

/* The cards of a set-up once more. */
static void
add_setup (Batch        *batch,
           int           group,
           const GArray *counts)
{
  g_array_append_val (batch->groups, group);
  g_array_append_vals (batch->counts, counts->data, counts->len);
}

static GArray *
count_setup (Counter *counter,
             HwPlan  *plan,
             int      group)
{
  g_autoptr (GPtrArray) cards = hw_card_layout (plan, group, HW_PAPER_A5, NULL);
  GArray               *all = g_array_new (FALSE, FALSE, sizeof (Counts));

  for (guint i = 0; i < cards->len; i++)
    {
      Counts counts = count_card (counter, cards->pdata[i]);

      g_array_append_val (all, counts);
    }
  return all;
}

/* Set-ups in turn until there are @n cards. */
static Batch
make_batch (Counter *counter,
            HwPlan  *plan,              /* (transfer full) */
            guint    n)
{
  Batch                 batch = { plan, g_array_new (FALSE, FALSE, sizeof (int)),
                                  g_array_new (FALSE, FALSE, sizeof (Counts)) };
  g_autoptr (GPtrArray) counted = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);

  for (guint i = 0; i < plan->groups->len; i++)
    g_ptr_array_add (counted, count_setup (counter, plan, (int) i));
  for (guint i = 0; batch.counts->len < n; i = (i + 1) % counted->len)
    add_setup (&batch, (int) i, counted->pdata[i]);
  return batch;
}

static void
clear_batch (gpointer data)
{
  Batch *batch = data;

  hw_plan_unref (batch->plan);
  g_array_unref (batch->groups);
  g_array_unref (batch->counts);
}

static GArray *
make_batches (void)
{
  g_autofree char      *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autoptr (GError)    error = NULL;
  g_autoptr (HwHandbook) handbook = hw_handbook_load (folder, &error);
  g_autoptr (HwRoom)    room = hw_room_new_default ("/nowhere");
  GArray               *batches = g_array_new (FALSE, FALSE, sizeof (Batch));
  Counter               counter = { g_string_new (NULL), NULL };

  if (handbook == NULL)
    g_error ("%s", error->message);
  counter.device = cairo_script_create_for_stream (append_cb, counter.script);
  g_array_set_clear_func (batches, clear_batch);
  for (gsize i = 0; i < G_N_ELEMENTS (projects); i++)
    {
      Batch batch = make_batch (&counter, make_plan (handbook, room, projects[i]), N_CARDS / G_N_ELEMENTS (projects));

      g_array_append_val (batches, batch);
    }
  cairo_device_finish (counter.device);
  cairo_device_destroy (counter.device);
  g_string_free (counter.script, TRUE);
  return batches;
}

/* ---- the measure ---- */

static void
print_counts (const GArray *batches)
{
  double sum[6] = { 0 };
  guint  n = 0;

  for (guint i = 0; i < batches->len; i++)
    for (guint j = 0; j < g_array_index (batches, Batch, i).counts->len; j++, n++)
      {
        const Counts *counts = &g_array_index (g_array_index (batches, Batch, i).counts, Counts, j);
        const int     numbers[] = { counts->runs, counts->glyphs, counts->strokes, counts->fills, counts->lines,
                                    counts->curves };

        for (gsize k = 0; k < G_N_ELEMENTS (numbers); k++)
          sum[k] += numbers[k];
      }
  g_print ("%u cards of %.0f text runs of %.0f letters, %.0f strokes and %.0f fills of %.0f lines and %.0f curves\n", n,
           sum[0] / n, sum[1] / n, sum[2] / n, sum[3] / n, sum[4] / n, sum[5] / n);
}

static double
take_time (const GArray  *batches,
           const char    *path,
           void        (* write) (const Batch *batch, const char *path))
{
  double begun = floor_now_ms (CLOCK_PROCESS_CPUTIME_ID);

  for (guint i = 0; i < batches->len; i++)
    write (&g_array_index (batches, Batch, i), path);
  return floor_now_ms (CLOCK_PROCESS_CPUTIME_ID) - begun;
}

int
main (int    argc,
      char **argv)
{
  g_autofree char   *folder = g_dir_make_tmp ("card-bench-XXXXXX", NULL);
  g_autofree char   *path = g_build_filename (folder, "cards.pdf", NULL);
  g_autoptr (GArray) batches = make_batches ();
  double             ours[FLOOR_RUNS], bare[FLOOR_RUNS];

  print_counts (batches);
  for (int run = 0; run < FLOOR_RUNS; run++)
    {
      ours[run] = take_time (batches, path, write_cards);
      bare[run] = take_time (batches, path, draw_bare);
    }
  floor_report ("1,000 cards to PDF", floor_median (ours), "as much by bare cairo and pango", floor_median (bare), "ms",
                1);
  g_unlink (path);
  g_rmdir (folder);
  return floor_status ();
}
