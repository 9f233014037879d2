/* card-cache.c - texts measured and laid out once, for all cards of a set
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cards of a set say the same labels, checks and remedies, and the attempts at one card ask the same widths again
 * and again. Shaping a text costs more than writing it.
 */

#include "config.h"

#include "card/card-private.h"
#include "card/drawing-private.h"

#include <math.h>
#include <string.h>

/* The strings of one card are asked again and again at the same address: most are found without reading them twice. */
#define N_RECENT 2048                   /* a power of two */

struct _HwCardCache
{
  gatomicrefcount ref_count;
  PangoContext   *context;
  PangoLayout    *layout;               /* for measuring */
  PangoLayout    *plain;                /* for drawings that write a word or two */
  GStringChunk   *strings;
  GHashTable     *texts;                /* Text, its own key */
  struct _Text   *recent[N_RECENT];     /* by the address of the string that was asked for, size and width; borrowed */
};

/* What a text looks like follows from these. */
typedef struct _Text
{
  const char    *text;
  double         pt, width;             /* width: NAN for a single line, however long */
  int            weight, lines;
  gboolean       slanted;
  HwCardMeasure  measure;
  gboolean       is_measured;
  PangoLayout   *layout;                /* NULL until it is drawn */
} Text;

static gboolean
is_same_number (double a,
                double b)
{
  return memcmp (&a, &b, sizeof a) == 0;
}

/* Of all its bits: sizes and widths differ behind the point. */
static guint
hash_number (double number)
{
  guint64 bits = 0;

  memcpy (&bits, &number, sizeof bits);
  return (guint) ((bits * G_GUINT64_CONSTANT (0x9E3779B97F4A7C15)) >> 32);
}

static guint
hash_text (gconstpointer data)
{
  const Text *self = data;

  return g_str_hash (self->text) ^ hash_number (self->pt) ^ (hash_number (self->width) * 3)
         ^ ((guint) self->lines * 0x9E37u) ^ (guint) self->weight ^ (self->slanted ? 0x5A5Au : 0);
}

static gboolean
is_same_text (gconstpointer a,
              gconstpointer b)
{
  const Text *first = a;
  const Text *second = b;

  return is_same_number (first->pt, second->pt) && is_same_number (first->width, second->width)
         && first->weight == second->weight && first->lines == second->lines
         && first->slanted == second->slanted
         && (first->text == second->text || g_str_equal (first->text, second->text));
}

static void
free_text (gpointer data)
{
  Text *self = data;

  g_clear_object (&self->layout);
  g_free (self);
}

/* Drawings set only what they need of the font: family and figures from here. */
static PangoLayout *
new_plain (PangoContext *context)
{
  const HwBox  plain = { .text = "", .font_pt = 10, .weight = PANGO_WEIGHT_MEDIUM, .width = 1000, .lines = 1 };
  PangoLayout *layout = pango_layout_new (context);

  hw_card_prepare_text (layout, &plain);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_NONE);
  pango_layout_set_height (layout, 0);
  hw_keep_centred (layout);
  return layout;
}

HwCardCache *
hw_card_cache_new (PangoFontMap  *fonts,
                   PangoLanguage *language)
{
  HwCardCache *self = g_new0 (HwCardCache, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->context = hw_card_create_context (fonts, language);
  self->layout = pango_layout_new (self->context);
  self->plain = new_plain (self->context);
  self->strings = g_string_chunk_new (4096);
  self->texts = g_hash_table_new_full (hash_text, is_same_text, free_text, NULL);
  return self;
}

HwCardCache *
hw_card_cache_ref (HwCardCache *self)
{
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_card_cache_unref (HwCardCache *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_hash_table_unref (self->texts);
  g_string_chunk_free (self->strings);
  g_object_unref (self->layout);
  g_object_unref (self->plain);
  g_object_unref (self->context);
  g_free (self);
}

const char *
hw_card_cache_keep (HwCardCache *self,
                    const char  *text)
{
  return g_string_chunk_insert_const (self->strings, text);
}

static Text *
find_or_add (HwCardCache *self,
             const Text  *asked)
{
  Text *known = g_hash_table_lookup (self->texts, asked);

  if (known != NULL)
    return known;
  known = g_memdup2 (asked, sizeof *asked);
  known->text = hw_card_cache_keep (self, asked->text);
  known->measure.text = known->text;
  g_hash_table_add (self->texts, known);
  return known;
}

static Text *
find_text (HwCardCache *self,
           const HwBox *box)
{
  Text asked = { .text = box->text, .pt = box->font_pt, .width = isnan (box->width) ? NAN : box->width,
                 .weight = box->weight, .lines = box->lines, .slanted = box->slanted };
  guint hash = hash_number (asked.pt) ^ hash_number (asked.width) * 3 ^ (guint) (GPOINTER_TO_SIZE (box->text) >> 3);
  Text **recent = &self->recent[hash % N_RECENT];

  /* Another string may have come to the same address since. */
  if (*recent == NULL || !is_same_text (*recent, &asked))
    *recent = find_or_add (self, &asked);
  return *recent;
}

/* A text that fits on one line is the same in every box that is as wide: it is shaped once for all of them. */
static gboolean
measure_whole (HwCardCache   *self,
               const HwBox   *box,
               HwCardMeasure *measure)
{
  HwBox                line = { .text = box->text, .font_pt = box->font_pt, .weight = box->weight,
                                .slanted = box->slanted, .width = NAN, .lines = 1 };
  const HwCardMeasure *whole;

  if (isnan (box->width))
    return FALSE;
  whole = hw_card_cache_measure (self, &line);
  if (whole->n_lines > 1 || whole->width * PANGO_SCALE > ceil (box->width * PANGO_SCALE))
    return FALSE;
  *measure = *whole;
  return TRUE;
}

static void
measure_laid_out (HwCardCache   *self,
                  const HwBox   *box,
                  HwCardMeasure *measure)
{
  PangoRectangle logical;

  hw_card_prepare_text (self->layout, box);
  pango_layout_get_extents (self->layout, NULL, &logical);
  measure->width = (double) logical.width / PANGO_SCALE;
  measure->height = (double) logical.height / PANGO_SCALE;
  measure->n_lines = pango_layout_get_line_count (self->layout);
  measure->is_cut = pango_layout_is_ellipsized (self->layout);
}

const HwCardMeasure *
hw_card_cache_measure (HwCardCache *self,
                       const HwBox *box)
{
  Text *text = find_text (self, box);

  if (text->is_measured)
    return &text->measure;
  if (!measure_whole (self, box, &text->measure))
    measure_laid_out (self, box, &text->measure);
  text->is_measured = TRUE;
  return &text->measure;
}

PangoLayout *
hw_card_cache_lay_out (HwCardCache *self,
                       const HwBox *box)
{
  Text *text = find_text (self, box);

  if (text->layout == NULL)
    {
      text->layout = pango_layout_new (self->context);
      hw_card_prepare_text (text->layout, box);
    }
  return text->layout;
}

PangoLayout *
hw_card_cache_get_plain (HwCardCache *self)
{
  return self->plain;
}
