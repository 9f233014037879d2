/* card-text.c - measured text in boxes
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <math.h>
#include <pango/pangocairo.h>

#define BIG_PT 18
#define SLACK_PT 0.6              /* so that a box as wide as its text does not wrap for a rounding */

PangoContext *
hw_card_create_context (PangoFontMap  *fonts,
                        PangoLanguage *language)
{
  PangoContext *context = pango_font_map_create_context (fonts);
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
  pango_cairo_context_set_resolution (context, 72);
  pango_context_set_round_glyph_positions (context, FALSE);
  if (language != NULL)
    pango_context_set_language (context, language);
  return context;
}

static void
set_style (PangoLayout *layout,
           double       pt,
           int          weight)
{
  PangoFontDescription *font = pango_font_description_new ();
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_font_description_set_family_static (font, HW_CARD_FONTS);
  pango_font_description_set_size (font, (int) lround (pt * PANGO_SCALE));
  pango_font_description_set_weight (font, (PangoWeight) weight);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);

  /* Figures of one width, so that columns of numbers stand straight; the one big figure stands alone and closer. */
  if (pt < BIG_PT)
    pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
}

gboolean
hw_card_is_cut_in_middle (const HwBox *box)
{
  return box->lines == 1 && g_strcmp0 (box->role, "step-name") == 0;
}

/* How much wider than a sign of its own the run of the ellipsis in @layout is; 0 without one. */
static int
find_slack (PangoLayout *layout)
{
  for (GSList *l = pango_layout_get_line_readonly (layout, 0)->runs; l != NULL; l = l->next)
    {
      PangoGlyphItem *run = l->data;
      PangoRectangle  sign;

      if ((run->item->analysis.flags & PANGO_ANALYSIS_FLAG_IS_ELLIPSIS) == 0)
        continue;
      pango_font_get_glyph_extents (run->item->analysis.font, run->glyphs->glyphs[0].glyph, NULL, &sign);
      return pango_glyph_string_get_width (run->glyphs) - sign.width;
    }
  return 0;
}

/* What is left beside an ellipsis in the middle is given to it, and would stand as a gap in the name. */
static void
close_gap (PangoLayout *layout)
{
  int slack = pango_layout_is_ellipsized (layout) ? find_slack (layout) : 0;

  if (slack > 0)
    pango_layout_set_width (layout, pango_layout_get_width (layout) - slack);
}

void
hw_card_prepare_text (PangoLayout *layout,
                      const HwBox *box)
{
  set_style (layout, box->font_pt, box->weight);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_ellipsize (layout, hw_card_is_cut_in_middle (box) ? PANGO_ELLIPSIZE_MIDDLE : PANGO_ELLIPSIZE_END);
  pango_layout_set_width (layout, isnan (box->width) ? -1 : (int) ceil (box->width * PANGO_SCALE));
  pango_layout_set_height (layout, -box->lines);
  pango_layout_set_text (layout, box->text, -1);
  if (hw_card_is_cut_in_middle (box))
    close_gap (layout);
}

/* ---- measuring ---- */

/* @width: NAN for a single line, however long. */
static const HwCardMeasure *
measure (HwCardBuilder *self,
         const char    *text,
         double         width,
         int            lines,
         double         pt,
         int            weight)
{
  HwBox box = { .text = text, .width = width, .font_pt = pt, .weight = weight, .lines = lines };

  return hw_card_cache_measure (self->card->cache, &box);
}

double
hw_card_line_height (HwCardBuilder *self,
                     double         pt)
{
  return measure (self, "8", NAN, 1, pt, PANGO_WEIGHT_MEDIUM)->height;
}

double
hw_card_text_width (HwCardBuilder *self,
                    const char    *text,
                    HwTextStyle    style)
{
  return measure (self, text, NAN, 1, style.pt, style.weight)->width + SLACK_PT;
}

static gboolean
does_fit (HwCardBuilder *self,
          const char    *text,
          double         width,
          HwTextStyle    style)
{
  return !measure (self, text, width, MAX (style.lines, 1), style.pt, style.weight)->is_cut;
}

double
hw_card_fit_text (HwCardBuilder *self,
                  const char    *text,
                  double         width,
                  HwTextStyle    style,
                  double         least_pt)
{
  while (style.pt > least_pt && !does_fit (self, text, width, style))
    style.pt = MAX (least_pt, style.pt - 0.5);
  return style.pt;
}

HwBox *
hw_card_add_box (HwCardBuilder *self,
                 HwBoxKind      kind,
                 const char    *role,
                 double         x,
                 double         y,
                 double         width,
                 double         height)
{
  HwBox box = { .kind = kind, .role = role, .x = x, .y = y, .width = width, .height = height };

  g_array_append_val (self->card->boxes, box);
  return &g_array_index (self->card->boxes, HwBox, self->card->boxes->len - 1);
}

/* A heading may end in "…"; what is to be done may not. */
static gboolean
is_dispensable (const char *role)
{
  return g_str_equal (role, "title") || g_str_equal (role, "machine") || g_str_has_suffix (role, "-caption");
}

void
hw_card_move_down (HwCardBuilder *self,
                   guint          from_box,
                   double         by)
{
  for (guint i = from_box; i < self->card->boxes->len; i++)
    g_array_index (self->card->boxes, HwBox, i).y += by;
}

GArray *
hw_card_take_boxes (HwCardBuilder *self,
                    guint          from_box)
{
  GArray *boxes = self->card->boxes;
  GArray *taken = g_array_new (FALSE, TRUE, sizeof (HwBox));

  g_array_append_vals (taken, &g_array_index (boxes, HwBox, from_box), boxes->len - from_box);
  g_array_set_size (boxes, from_box);
  return taken;
}

void
hw_card_put_boxes (HwCardBuilder *self,
                   GArray        *taken)
{
  g_array_append_vals (self->card->boxes, taken->data, taken->len);
  g_array_unref (taken);
}

double
hw_card_add_heading (HwCardBuilder *self,
                     const char    *role,
                     const char    *text,
                     double         x,
                     double         y,
                     double         width)
{
  HwTextStyle style = { self->type.label, PANGO_WEIGHT_SEMIBOLD, TRUE, 1, FALSE };

  style.pt = hw_card_fit_text (self, text, width, style, 7);
  return y + hw_card_add_text (self, role, text, x, y, width, style) + 1.5;
}

double
hw_card_add_text (HwCardBuilder *self,
                  const char    *role,
                  const char    *text,
                  double         x,
                  double         y,
                  double         width,
                  HwTextStyle    style)
{
  const HwCardMeasure *measured = NULL;
  HwBox *box = NULL;

  if (text == NULL || *text == '\0')
    return 0;

  measured = measure (self, text, width, MAX (style.lines, 1), style.pt, style.weight);
  box = hw_card_add_box (self, HW_BOX_TEXT, role, x, y, MIN (width, measured->width + SLACK_PT), measured->height);
  box->text = measured->text;
  box->font_pt = style.pt;
  box->weight = style.weight;
  box->muted = style.muted;
  box->lines = measured->n_lines == 1 ? 1 : MAX (style.lines, 1);
  box->cut = measured->is_cut;
  if (box->cut && !is_dispensable (role))
    self->lost += MAX (1, hw_card_text_width (self, text, style) - box->lines * width);
  if (style.from_right)
    box->x = x - box->width;
  return box->height;
}
