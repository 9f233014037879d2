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
           int          weight,
           gboolean     slanted)
{
  PangoFontDescription *font = pango_font_description_new ();
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_font_description_set_family_static (font, HW_CARD_FONTS);
  pango_font_description_set_size (font, (int) lround (pt * PANGO_SCALE));
  pango_font_description_set_weight (font, (PangoWeight) weight);
  if (slanted)
    pango_font_description_set_style (font, PANGO_STYLE_ITALIC);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);

  /* Figures of one width, so that columns of numbers stand straight; the one big figure stands alone and closer. */
  if (pt < BIG_PT)
    pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
}

void
hw_card_prepare_text (PangoLayout *layout,
                      const HwBox *box)
{
  set_style (layout, box->font_pt, box->weight, box->slanted);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_width (layout, isnan (box->width) ? -1 : (int) ceil (box->width * PANGO_SCALE));
  pango_layout_set_height (layout, -box->lines);
  pango_layout_set_text (layout, box->text, -1);
}

/* ---- measuring ---- */

/* @width: NAN for a single line, however long. */
static const HwCardMeasure *
measure (HwCardBuilder *self,
         const char    *text,
         double         width,
         int            lines,
         HwTextStyle    style)
{
  HwBox box = { .text = text, .width = width, .font_pt = style.pt, .weight = style.weight,
                .slanted = style.look == HW_LOOK_HAND, .lines = lines };

  return hw_card_cache_measure (self->card->cache, &box);
}

double
hw_card_line_height (HwCardBuilder *self,
                     double         pt)
{
  const HwTextStyle style = { pt, PANGO_WEIGHT_MEDIUM, HW_LOOK_PLAIN, 1, FALSE };

  return measure (self, "8", NAN, 1, style)->height;
}

double
hw_card_text_width (HwCardBuilder *self,
                    const char    *text,
                    HwTextStyle    style)
{
  return measure (self, text, NAN, 1, style)->width + SLACK_PT;
}

static gboolean
does_fit (HwCardBuilder *self,
          const char    *text,
          double         width,
          HwTextStyle    style)
{
  return !measure (self, text, width, MAX (style.lines, 1), style)->is_cut;
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

void
hw_card_set_from_right (HwCard     *card,
                        HwBox      *box,
                        const char *text)
{
  HwBox line = *box;

  line.text = text;
  line.width = NAN;
  line.lines = 1;
  box->text = hw_card_cache_keep (card->cache, text);
  box->x += box->width;
  box->width = hw_card_cache_measure (card->cache, &line)->width + SLACK_PT;
  box->x -= box->width;
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
  HwTextStyle style = { self->type.label, PANGO_WEIGHT_SEMIBOLD, HW_LOOK_MUTED, 1, FALSE };

  style.pt = hw_card_fit_text (self, text, width, style, 7);
  style.lines = 2;
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

  measured = measure (self, text, width, MAX (style.lines, 1), style);
  box = hw_card_add_box (self, HW_BOX_TEXT, role, x, y, MIN (width, measured->width + SLACK_PT), measured->height);
  box->text = measured->text;
  box->font_pt = style.pt;
  box->weight = style.weight;
  box->muted = style.look != HW_LOOK_PLAIN;
  box->slanted = style.look == HW_LOOK_HAND;
  box->lines = measured->n_lines == 1 ? 1 : MAX (style.lines, 1);
  box->cut = measured->is_cut;
  if (box->cut && !is_dispensable (role))
    self->lost += MAX (1, hw_card_text_width (self, text, style) - box->lines * width);
  if (style.from_right)
    box->x = x - box->width;
  return box->height;
}
