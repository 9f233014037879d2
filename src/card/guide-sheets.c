/* guide-sheets.c - the user guide on paper
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-card"

#include "config.h"

#include "card/guide-sheets.h"

#include <cairo-pdf.h>
#include <glib/gi18n.h>
#include <pango/pangocairo.h>

#include "card/drawing-file.h"
#include "words/words.h"
#include "words/words-picture.h"

#define MARGIN_PT 56.0
#define INDENT_PT 20.0
#define GAP_PT 7.0
#define TEXT_PT 10.5
#define HEADING_PT 12.5
#define TITLE_PT 20.0
#define SMALL_PT 8.5
#define RULE_PT 0.8

typedef struct
{
  cairo_t     *cr;
  PangoLayout *layout;
  double       width, height;            /* of the page, points */
  double       y;                        /* where the next block begins */
  int          page;                     /* from 1 */
} Paper;

static void
set_text (Paper      *self,
          const char *text,
          const char *family,
          double      size_pt,
          PangoWeight weight,
          double      width)
{
  PangoFontDescription *font = pango_font_description_from_string (family);

  pango_font_description_set_absolute_size (font, size_pt * PANGO_SCALE);
  pango_font_description_set_weight (font, weight);
  pango_layout_set_font_description (self->layout, font);
  pango_font_description_free (font);
  pango_layout_set_width (self->layout, (int) (width * PANGO_SCALE));
  pango_layout_set_text (self->layout, text, -1);
}

static double
text_height (Paper *self)
{
  int height = 0;

  pango_layout_get_size (self->layout, NULL, &height);
  return (double) height / PANGO_SCALE;
}

static void
number_page (Paper *self)
{
  g_autofree char *number = g_strdup_printf ("%d", self->page);

  set_text (self, number, "Sans", SMALL_PT, PANGO_WEIGHT_NORMAL, self->width - 2 * MARGIN_PT);
  pango_layout_set_alignment (self->layout, PANGO_ALIGN_CENTER);
  cairo_move_to (self->cr, MARGIN_PT, self->height - MARGIN_PT / 2 - SMALL_PT);
  pango_cairo_show_layout (self->cr, self->layout);
  pango_layout_set_alignment (self->layout, PANGO_ALIGN_LEFT);
}

static void
turn_page (Paper *self)
{
  number_page (self);
  cairo_show_page (self->cr);
  self->page++;
  self->y = MARGIN_PT;
}

/* A new page, unless @height still fits on this one or nothing stands on it yet. */
static void
make_room (Paper  *self,
           double  height)
{
  if (self->y + height > self->height - MARGIN_PT && self->y > MARGIN_PT)
    turn_page (self);
}

/* The layout's text line by line, so that one longer than what is left goes on overleaf. */
static void
put_lines (Paper  *self,
           double  x)
{
  PangoLayoutIter *lines = NULL;
  double height = text_height (self);

  if (height < (self->height - 2 * MARGIN_PT) / 3)
    make_room (self, height);
  lines = pango_layout_get_iter (self->layout);
  do
    {
      PangoRectangle logical;
      double         line_height, baseline;

      pango_layout_iter_get_line_extents (lines, NULL, &logical);
      line_height = (double) logical.height / PANGO_SCALE;
      baseline = (double) (pango_layout_iter_get_baseline (lines) - logical.y) / PANGO_SCALE;
      if (self->y + line_height > self->height - MARGIN_PT)
        {
          g_autoptr (PangoLayout) kept = g_object_ref (self->layout);

          self->layout = pango_cairo_create_layout (self->cr);
          turn_page (self);
          g_object_unref (self->layout);
          self->layout = g_steal_pointer (&kept);
        }
      cairo_move_to (self->cr, x + (double) logical.x / PANGO_SCALE, self->y + baseline);
      pango_cairo_show_layout_line (self->cr, pango_layout_iter_get_line_readonly (lines));
      self->y += line_height;
    }
  while (pango_layout_iter_next_line (lines));
  pango_layout_iter_free (lines);
  self->y += GAP_PT;
}

static void
put_text (Paper      *self,
          const char *text,
          double      size_pt,
          PangoWeight weight,
          double      indent)
{
  set_text (self, text, "Sans", size_pt, weight, self->width - 2 * MARGIN_PT - indent);
  put_lines (self, MARGIN_PT + indent);
}

static void
put_step (Paper              *self,
          const HwGuideBlock *block)
{
  g_autofree char *number = g_strdup_printf ("%d", block->number);
  double before;

  set_text (self, block->text, "Sans", TEXT_PT, PANGO_WEIGHT_NORMAL, self->width - 2 * MARGIN_PT - INDENT_PT);
  make_room (self, text_height (self));
  before = self->y;
  put_text (self, block->text, TEXT_PT, PANGO_WEIGHT_NORMAL, INDENT_PT);
  set_text (self, number, "Sans", TEXT_PT, PANGO_WEIGHT_BOLD, INDENT_PT);
  cairo_move_to (self->cr, MARGIN_PT, before);
  pango_cairo_show_layout (self->cr, self->layout);
}

/* Between two rules, in full ink. */
static void
put_caution (Paper              *self,
             const HwGuideBlock *block)
{
  double top;

  set_text (self, block->text, "Sans", TEXT_PT, PANGO_WEIGHT_BOLD, self->width - 2 * MARGIN_PT);
  make_room (self, text_height (self) + 2 * GAP_PT);
  top = self->y;
  self->y += GAP_PT;
  put_text (self, block->text, TEXT_PT, PANGO_WEIGHT_BOLD, 0);
  cairo_set_line_width (self->cr, RULE_PT);
  cairo_move_to (self->cr, MARGIN_PT, top);
  cairo_line_to (self->cr, self->width - MARGIN_PT, top);
  cairo_move_to (self->cr, MARGIN_PT, self->y);
  cairo_line_to (self->cr, self->width - MARGIN_PT, self->y);
  cairo_stroke (self->cr);
  self->y += GAP_PT;
}

static void
put_example (Paper              *self,
             const HwGuideBlock *block)
{
  set_text (self, block->text, "Monospace", SMALL_PT, PANGO_WEIGHT_NORMAL, self->width - 2 * MARGIN_PT - INDENT_PT);
  put_lines (self, MARGIN_PT + INDENT_PT);
}

static void
put_formula (Paper              *self,
             const HwGuideBlock *block)
{
  put_text (self, block->text, TEXT_PT, PANGO_WEIGHT_MEDIUM, INDENT_PT);
  self->y -= GAP_PT / 2;
  for (const HwSource **source = block->sources; *source != NULL; source++)
    {
      g_autofree char *where = hw_words_source (*source);

      put_text (self, where, SMALL_PT, PANGO_WEIGHT_NORMAL, INDENT_PT);
    }
}

static gboolean
put_picture (Paper               *self,
             const HwGuideBlock  *block,
             GError             **error)
{
  cairo_surface_t *picture = cairo_image_surface_create_from_png (block->file);
  cairo_status_t status = cairo_surface_status (picture);
  g_autofree char *under = NULL;
  double scale, height;

  if (status != CAIRO_STATUS_SUCCESS)
    {
      cairo_surface_destroy (picture);
      g_set_error (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING, _("Cannot read the picture “%s”: %s"), block->file,
                   cairo_status_to_string (status));
      return FALSE;
    }
  scale = (self->width - 2 * MARGIN_PT) / cairo_image_surface_get_width (picture);
  height = cairo_image_surface_get_height (picture) * scale;
  make_room (self, height + GAP_PT + 2 * SMALL_PT);
  cairo_save (self->cr);
  cairo_translate (self->cr, MARGIN_PT, self->y);
  cairo_scale (self->cr, scale, scale);
  cairo_set_source_surface (self->cr, picture, 0, 0);
  cairo_paint (self->cr);
  cairo_restore (self->cr);
  cairo_surface_destroy (picture);
  self->y += height + GAP_PT / 2;
  under = hw_words_picture (block->text);
  put_text (self, under, SMALL_PT, PANGO_WEIGHT_NORMAL, 0);
  return TRUE;
}

static gboolean
put_block (Paper               *self,
           const HwGuideBlock  *block,
           GError             **error)
{
  switch (block->kind)
    {
    case HW_GUIDE_HEADING:
      make_room (self, 6 * HEADING_PT);         /* not alone at the foot of a page */
      self->y += GAP_PT;
      put_text (self, block->text, HEADING_PT, PANGO_WEIGHT_BOLD, 0);
      return TRUE;
    case HW_GUIDE_STEP:
      put_step (self, block);
      return TRUE;
    case HW_GUIDE_EXAMPLE:
      put_example (self, block);
      return TRUE;
    case HW_GUIDE_CAUTION:
      put_caution (self, block);
      return TRUE;
    case HW_GUIDE_PICTURE:
      return put_picture (self, block, error);
    case HW_GUIDE_FORMULA:
      put_formula (self, block);
      return TRUE;
    case HW_GUIDE_PARAGRAPH:
    default:
      put_text (self, block->text, TEXT_PT, PANGO_WEIGHT_NORMAL, 0);
      return TRUE;
    }
}

static gboolean
put_chapter (Paper                 *self,
             cairo_surface_t       *surface,
             const HwGuideChapter  *chapter,
             GError               **error)
{
  g_autofree char *place = g_strdup_printf ("page=%d pos=[0 0]", self->page);

  cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT, chapter->title, place, CAIRO_PDF_OUTLINE_FLAG_OPEN);
  put_text (self, chapter->title, TITLE_PT, PANGO_WEIGHT_BOLD, 0);
  self->y += GAP_PT;
  for (guint i = 0; i < chapter->blocks->len; i++)
    if (!put_block (self, chapter->blocks->pdata[i], error))
      return FALSE;
  turn_page (self);
  return TRUE;
}

static gboolean
draw_chapters (const GPtrArray  *chapters,
               cairo_t          *cr,
               cairo_surface_t  *surface,
               double            width,
               double            height,
               GError          **error)
{
  Paper paper = { cr, pango_cairo_create_layout (cr), width, height, MARGIN_PT, 1 };
  gboolean done = TRUE;

  pango_cairo_context_set_resolution (pango_layout_get_context (paper.layout), 72);
  for (guint i = 0; done && i < chapters->len; i++)
    done = put_chapter (&paper, surface, chapters->pdata[i], error);
  g_object_unref (paper.layout);
  return done;
}

gboolean
hw_guide_write (const GPtrArray  *chapters,
                HwPaper           paper,
                const char       *path,
                const char       *date_iso,
                GError          **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_t *cr;
  double width, height;
  gboolean drawn;

  g_return_val_if_fail (chapters != NULL && path != NULL, FALSE);
  g_return_val_if_fail (paper == HW_PAPER_A4 || paper == HW_PAPER_LETTER, FALSE);

  hw_paper_size (paper, &width, &height);
  surface = hw_drawing_new_pdf (bytes, width, height, _("Handwheel: the guide"), date_iso);
  cr = cairo_create (surface);
  drawn = draw_chapters (chapters, cr, surface, width, height, error);
  return hw_drawing_finish (cr, surface, path, drawn ? error : NULL) && drawn && hw_drawing_save (path, bytes, error);
}
