/* test-data.c - the handbook that is shipped
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ids are what projects and rooms refer to: one that goes missing breaks people's files.
 */


#include "config.h"

#include "handbook/handbook.h"

#include <math.h>

static HwHandbook *
load (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  HwHandbook *book = hw_handbook_load (folder, &error);

  g_assert_no_error (error);
  g_assert_nonnull (book);
  return book;
}

static void
test_size (void)
{
  g_autoptr (HwHandbook) book = load ();

  g_assert_cmpuint (book->n_fabrics, >=, 80);
  g_assert_cmpuint (book->n_points, >=, 10);
  g_assert_cmpuint (book->n_threads, >=, 20);
  g_assert_cmpuint (book->n_purposes, >=, 12);
  g_assert_cmpuint (book->n_stitches, >=, 20);
  g_assert_cmpuint (book->n_seams, >=, 40);
  g_assert_cmpuint (book->n_care, >=, 5);
}

typedef struct
{
  const char *path;
  const char *table;
  const char *ids;
} Ids;

static const Ids agreed[] = {
  { "/data/ids/systems", "system", "household household-special overlock" },
  { "/data/ids/points", "point",
    "universal sharp light-ball medium-ball heavy-ball stretch jeans topstitch leather quilting embroidery" },
  { "/data/ids/stitches", "stitch",
    "301 301-twin 301-stretch 304 304-buttonhole 304-bar-tack 304-satin 308 313 101 401 406 407 503 504 512 514 516 "
    "602 605" },
  { "/data/ids/purposes", "purpose",
    "seam staystitch dart ease gather baste topstitch understitch hem blind-hem bind zip buttonhole bar-tack neaten "
    "decorate elastic quilt" },
  { "/data/ids/seams", "seam",
    "plain french felled bound-raw bound-folded hem-double hem-single hem-blind edge-finished lapped enclosed tuck "
    "belt-loop strap dart zip-set waistband elastic-edge butt piped row buttonhole bar-tack" },
  { "/data/ids/feet", "foot",
    "all-purpose straight edge zip concealed-zip blind-hem buttonhole walking roller satin overcast rolled-hem "
    "gathering overlock coverstitch" },
  { "/data/ids/plates", "plate", "zigzag single-hole" },
  { "/data/ids/constructions", "construction",
    "plain basket crepe gauze twill satin jacquard velvet corduroy terry woollen milled single-jersey rib interlock "
    "double-knit sweatshirt fleece-knit pile-knit warp-knit mesh spacer felted-knit coated-woven coated-knit laminate "
    "nonwoven felt suede-nonwoven leather net lace tape elastic wadding" },
  { "/data/ids/traits", "trait",
    "sheds lofty pile slippery delicate abrasive coated melts ravels curls elastic sticks sheer dense slippage stiff "
    "keeps-holes skips" },
  { "/data/ids/threads", "thread",
    "polyester-18 polyester-24 polyester-27 polyester-30 polyester-40 polyester-60 polyester-80 polyester-105 "
    "cotton-30 cotton-tacking silk-18 silk-27 overlock-27 textured-27 core-24 rayon-25 monofilament-15 metallic-30 "
    "elastic nylon-70" },
  { "/data/ids/fabrics", "fabric",
    "cotton-twill fusible-woven single-jersey rib-1x1 stay-tape denim pocketing zip-tape cotton-velvet silk-organza "
    "acetate-binding poplin lawn voile linen-light linen-medium crepe-de-chine lining satin chiffon flannel corduroy "
    "melton tweed gabardine canvas waxed-cotton fleece sweatshirt french-terry interlock ponte swim-tricot "
    "leather-garment faux-leather minky terry-towelling quilting-cotton wadding tulle lace elastic-band" },
  { "/data/ids/care", "care", "dust deep-clean oil needle service discs" },
};

static void
test_ids (gconstpointer data)
{
  const Ids *c = data;
  g_autoptr (HwHandbook) book = load ();
  g_auto (GStrv) ids = g_strsplit (c->ids, " ", -1);

  for (char **id = ids; *id != NULL; id++)
    {
      g_autofree char *path = g_strdup_printf ("%s/%s", c->table, *id);
      if (hw_handbook_find_entry (book, path, NULL) != NULL)
        continue;
      g_test_message ("no %s", path);
      g_test_fail ();
    }
}

static void
assert_source (const HwEntry *entry)
{
  g_assert_nonnull (entry->source);
  g_assert_cmpstr (entry->source->title, !=, "");
  g_assert_true (g_unichar_isupper (g_utf8_get_char (entry->name)) || g_ascii_isdigit (*entry->name));
}

#define ASSERT_SOURCES(array, n) \
  for (gsize i = 0; i < (n); i++) \
    assert_source (&(array)[i].entry)

/* Every figure says where it is from, and every name begins as a sentence does. */
static void
test_sources (void)
{
  g_autoptr (HwHandbook) book = load ();

  ASSERT_SOURCES (book->constructions, book->n_constructions);
  ASSERT_SOURCES (book->traits, book->n_traits);
  ASSERT_SOURCES (book->fabrics, book->n_fabrics);
  ASSERT_SOURCES (book->systems, book->n_systems);
  ASSERT_SOURCES (book->points, book->n_points);
  ASSERT_SOURCES (book->threads, book->n_threads);
  ASSERT_SOURCES (book->stitches, book->n_stitches);
  ASSERT_SOURCES (book->seams, book->n_seams);
  ASSERT_SOURCES (book->purposes, book->n_purposes);
  ASSERT_SOURCES (book->feet, book->n_feet);
  ASSERT_SOURCES (book->plates, book->n_plates);
  ASSERT_SOURCES (book->care, book->n_care);
  for (int subject = 0; subject < HW_N_RULE_SUBJECTS; subject++)
    for (gsize i = 0; i < book->n_rules[subject]; i++)
      g_assert_nonnull (book->rules[subject][i].source);
}

static gboolean
is_open (HwRange range)
{
  return isinf (range.low) && isinf (range.high);
}

static gboolean
asks_nothing (const HwRule *rule)
{
  return is_open (rule->mass) && is_open (rule->thickness) && is_open (rule->stretch) && is_open (rule->tex)
         && is_open (rule->plies) && rule->constructions == 0 && rule->traits == 0 && rule->without == 0
         && rule->purposes == 0 && rule->seams == 0 && rule->stitches == 0 && rule->families == 0
         && rule->machines == 0 && rule->forms == 0;
}

static gboolean
range_covers (HwRange outer,
              HwRange inner)
{
  return outer.low <= inner.low && outer.high >= inner.high;
}

/* Of sets any member of which will do; 0 asks nothing. */
static gboolean
set_covers (HwSet outer,
            HwSet inner)
{
  return outer == 0 || (inner != 0 && (inner & ~outer) == 0);
}

/* Whether all that @inner fits, @outer fits too. */
static gboolean
rule_covers (const HwRule *outer,
             const HwRule *inner)
{
  return range_covers (outer->mass, inner->mass) && range_covers (outer->thickness, inner->thickness)
         && range_covers (outer->stretch, inner->stretch) && range_covers (outer->tex, inner->tex)
         && range_covers (outer->plies, inner->plies)
         && set_covers (outer->constructions, inner->constructions) && set_covers (outer->traits, inner->traits)
         && set_covers (outer->purposes, inner->purposes) && set_covers (outer->seams, inner->seams)
         && set_covers (outer->stitches, inner->stitches)
         && set_covers (outer->families, inner->families) && set_covers (outer->machines, inner->machines)
         && set_covers (outer->forms, inner->forms)
         && (outer->without & ~inner->without) == 0 && (!outer->all || inner->all);
}

/* Where the first row that fits decides, a row that asks less hides those below it that ask more. */
static void
test_every_row_is_reached (void)
{
  g_autoptr (HwHandbook) book = load ();

  for (int subject = 0; subject < HW_N_RULE_SUBJECTS; subject++)
    for (gsize i = 0; subject != HW_RULES_STACK_SIZE && i < book->n_rules[subject]; i++)
      for (gsize j = 0; j < i; j++)
        {
          const HwRule *above = &book->rules[subject][j];
          const HwRule *row = &book->rules[subject][i];
          if (!rule_covers (above, row))
            continue;
          g_test_message ("table “%s”: the row at line %d is never reached, for the one at line %d fits all it fits",
                          hw_rule_subject_ids[subject], row->line, above->line);
          g_test_fail ();
        }
}

/* A plan always finds an answer: the last row fits everything. (An overlocker has no plate, a dart no allowance.) */
static void
test_tables_end_open (void)
{
  static const HwRuleSubject subjects[] = { HW_RULES_THREAD, HW_RULES_BOBBIN, HW_RULES_POINT, HW_RULES_CLOTH_SIZE,
                                            HW_RULES_LENGTH, HW_RULES_FOOT, HW_RULES_PRESSURE,
                                            HW_RULES_ENDS };
  g_autoptr (HwHandbook) book = load ();

  for (gsize s = 0; s < G_N_ELEMENTS (subjects); s++)
    {
      gsize n = book->n_rules[subjects[s]];

      g_assert_cmpuint (n, >, 0);
      if (asks_nothing (&book->rules[subjects[s]][n - 1]))
        continue;
      g_test_message ("table “%s”: the last row does not fit everything", hw_rule_subject_ids[subjects[s]]);
      g_test_fail ();
    }
}

/* Every seam can be drawn, and its rows of stitches can be seen. */
static void
test_drawings (void)
{
  g_autoptr (HwHandbook) book = load ();

  for (gsize i = 0; i < book->n_seams; i++)
    {
      const HwSeam *seam = &book->seams[i];
      g_assert_cmpuint (seam->n_plies, >=, 1);
      for (gsize j = 0; j < seam->n_stitches; j++)
        {
          const HwSeamStitch *stitch = &seam->stitches[j];
          if (hypot (stitch->x2 - stitch->x1, stitch->y2 - stitch->y1) >= 2)
            continue;
          g_test_message ("seam “%s”, stitch %d: too short to be seen", seam->entry.id, (int) j + 1);
          g_test_fail ();
        }
    }
}

/* ---- layers under the needle ---- */

/* These rows are drawn as they go over an edge, or beside layers that end short of them. */
static const char * const drawn_otherwise[] = {
  "overlocked", "edge-finished", "rib-band", "french-second", "bound-first", "bound-folded", "zip-concealed",
  "zip-fly", "row-fly", "applied-band", NULL
};

static gboolean
do_cross (const HwSeamStitch *row,
          const double       *from)
{
  const double *to = from + 2;
  double        dx = row->x2 - row->x1;
  double        dy = row->y2 - row->y1;
  double        a = dx * (from[1] - row->y1) - dy * (from[0] - row->x1);
  double        b = dx * (to[1] - row->y1) - dy * (to[0] - row->x1);
  double        c = (to[0] - from[0]) * (row->y1 - from[1]) - (to[1] - from[1]) * (row->x1 - from[0]);
  double        d = (to[0] - from[0]) * (row->y2 - from[1]) - (to[1] - from[1]) * (row->x2 - from[0]);

  return a * b < 0 && c * d < 0;
}

static int
count_crossed (const HwSeam       *seam,
               const HwSeamStitch *row)
{
  int n = 0;

  for (gsize i = 0; i < seam->n_plies; i++)
    for (gsize j = 0; j + 1 < seam->plies[i].n_points; j++)
      n += do_cross (row, &seam->plies[i].xy[2 * j]) ? 1 : 0;
  return n;
}

/* One of its rows passes through @low to @high lines: interfacing need not be drawn. */
static gboolean
shows_layers (const HwSeam *seam,
              int           low,
              int           high)
{
  for (gsize i = 0; i < seam->n_stitches; i++)
    {
      int n = count_crossed (seam, &seam->stitches[i]);

      if (seam->stacked ? n == 1 : n >= low && n <= high)
        return TRUE;
    }
  return FALSE;
}

static void
check_step_is_drawn (const HwHandbook    *book,
                     const HwGarment     *garment,
                     const HwGarmentStep *step)
{
  const HwSeam *seam = &book->seams[step->seam];
  int           layers = 0;
  int           cloth = 0;

  if (g_strv_contains (drawn_otherwise, seam->entry.id))
    return;
  for (gsize i = 0; i < step->n_plies; i++)
    {
      layers += step->plies[i].count;
      if (!g_str_equal (garment->roles[step->plies[i].role].id, "interfacing"))
        cloth += step->plies[i].count;
    }
  if (shows_layers (seam, cloth, layers))
    return;
  g_test_message ("%s, step %s: %d layers, and none of the rows of “%s” passes through as many", garment->entry.id,
                  step->number, layers, seam->entry.id);
  g_test_fail ();
}

/* A picture of two layers beside the words “5 layers” makes one doubt both. */
static void
test_drawings_show_the_layers (void)
{
  g_autoptr (HwHandbook) book = load ();

  for (gsize i = 0; i < book->n_garments; i++)
    for (gsize j = 0; j < book->garments[i].n_steps; j++)
      if (!book->garments[i].steps[j].by_hand && book->garments[i].steps[j].seam >= 0)
        check_step_is_drawn (book, &book->garments[i], &book->garments[i].steps[j]);
}

/* Work inside a machine can hurt: no task without its caution. */
static void
test_care_has_cautions (void)
{
  g_autoptr (HwHandbook) book = load ();

  for (gsize i = 0; i < book->n_care; i++)
    {
      const HwCareTask *task = &book->care[i];
      g_assert_cmpuint (g_strv_length (task->steps), >=, 1);
      if (g_strv_length (task->cautions) > 0)
        continue;
      g_test_message ("care “%s” has no caution", task->entry.id);
      g_test_fail ();
    }
}

/* Masks and indices mean the same from one start of the program to the next. */
static void
test_same_each_time (void)
{
  g_autoptr (HwHandbook) first = load ();
  g_autoptr (HwHandbook) second = load ();

  g_assert_cmpuint (first->n_fabrics, ==, second->n_fabrics);
  for (gsize i = 0; i < first->n_fabrics; i++)
    g_assert_cmpstr (first->fabrics[i].entry.id, ==, second->fabrics[i].entry.id);
}

/* The last step of @garment whose name begins so; -1: none. */
static int
find_last_step (const HwGarment *garment, const char *begins)
{
  for (gsize i = garment->n_steps; i > 0; i--)
    if (g_str_has_prefix (garment->steps[i - 1].name, begins))
      return (int) i - 1;
  return -1;
}

static gboolean
comes_after (const HwGarment *garment, int step, int before)
{
  gboolean comes = FALSE;

  for (char **number = garment->steps[step].after; *number != NULL && !comes; number++)
    for (int i = before; i < step && !comes; i++)
      comes = g_str_equal (garment->steps[i].number, *number) && (i == before || comes_after (garment, i, before));
  return comes;
}

/* Buttonholes are cut open, with a word on how not to cut too far, and the garment pressed before buttons are in the
 * way. */
static void
test_buttons_come_last (void)
{
  g_autoptr (HwHandbook) book = load ();
  int n = 0;

  for (gsize i = 0; i < book->n_garments; i++)
    {
      const HwGarment *garment = &book->garments[i];
      int buttons = find_last_step (garment, "Sew the button");
      int cut = find_last_step (garment, "Cut the buttonhole");
      int pressed = find_last_step (garment, "Press the ");

      g_assert_true ((buttons >= 0) == (cut >= 0));
      if (buttons < 0)
        continue;
      g_assert_nonnull (garment->steps[cut].note);
      g_assert_true (comes_after (garment, cut, find_last_step (garment, "Buttonhole")));
      g_assert_true (comes_after (garment, pressed, cut));
      g_assert_true (comes_after (garment, buttons, pressed));
      n++;
    }
  g_assert_cmpint (n, >=, 3);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/data/size", test_size);
  for (gsize i = 0; i < G_N_ELEMENTS (agreed); i++)
    g_test_add_data_func (agreed[i].path, &agreed[i], test_ids);
  g_test_add_func ("/data/sources", test_sources);
  g_test_add_func ("/data/every-row-is-reached", test_every_row_is_reached);
  g_test_add_func ("/data/tables-end-open", test_tables_end_open);
  g_test_add_func ("/data/drawings", test_drawings);
  g_test_add_func ("/data/drawings-show-the-layers", test_drawings_show_the_layers);
  g_test_add_func ("/data/care-has-cautions", test_care_has_cautions);
  g_test_add_func ("/data/buttons-come-last", test_buttons_come_last);
  g_test_add_func ("/data/same-each-time", test_same_each_time);
  return g_test_run ();
}
