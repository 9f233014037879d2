/* drawing-centred.c - a word or a number in the middle of a drawing
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing-private.h"

#include <pango/pangocairo.h>
#include <string.h>

/* A word or number that was written before, with the way from its middle to its corner. */
typedef struct
{
  char        *text;
  double       size;
  int          weight;
  PangoLayout *layout;
  double       left, up;
} Centred;

static guint
hash_centred (gconstpointer data)
{
  const Centred *self = data;

  return g_str_hash (self->text) ^ g_double_hash (&self->size) ^ (guint) self->weight;
}

static gboolean
is_same_centred (gconstpointer a,
                 gconstpointer b)
{
  const Centred *first = a;
  const Centred *second = b;

  return memcmp (&first->size, &second->size, sizeof first->size) == 0 && first->weight == second->weight
         && g_str_equal (first->text, second->text);
}

static void
free_centred (gpointer data)
{
  Centred *self = data;

  g_object_unref (self->layout);
  g_free (self->text);
  g_free (self);
}

static GQuark
get_centred_quark (void)
{
  return g_quark_from_static_string ("hw-centred");
}

void
hw_keep_centred (PangoLayout *layout)
{
  g_object_set_qdata_full (G_OBJECT (layout), get_centred_quark (),
                           g_hash_table_new_full (hash_centred, is_same_centred, free_centred, NULL),
                           (GDestroyNotify) g_hash_table_unref);
}

static void
lay_out_centred (PangoLayout *layout,
                 Centred     *centred)
{
  const PangoFontDescription *current = pango_layout_get_font_description (layout);
  PangoFontDescription *font = current != NULL ? pango_font_description_copy (current) : pango_font_description_new ();
  PangoRectangle ink;
  PangoRectangle logical;

  pango_font_description_set_absolute_size (font, centred->size * PANGO_SCALE);
  pango_font_description_set_weight (font, (PangoWeight) centred->weight);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_width (layout, -1);
  pango_layout_set_text (layout, centred->text, -1);
  pango_layout_get_extents (layout, &ink, &logical);
  pango_font_description_free (font);

  /* By what is inked, not by the line: figures then sit in the middle of a disc or a wheel. */
  centred->left = ((double) logical.x + (double) logical.width / 2) / PANGO_SCALE;
  centred->up = ((double) ink.y + (double) ink.height / 2) / PANGO_SCALE;
  centred->layout = layout;
}

/* Borrowed. */
static const Centred *
find_centred (GHashTable    *kept,
              PangoLayout   *layout,
              const Centred *asked)
{
  Centred *centred = g_hash_table_lookup (kept, asked);

  if (centred != NULL)
    return centred;
  centred = g_memdup2 (asked, sizeof *asked);
  centred->text = g_strdup (asked->text);
  lay_out_centred (pango_layout_copy (layout), centred);
  g_hash_table_add (kept, centred);
  return centred;
}

void
hw_show_centred (cairo_t     *cr,
                 PangoLayout *layout,
                 const char  *text,
                 double       size,
                 int          weight,
                 double       x,
                 double       y)
{
  GHashTable *kept = g_object_get_qdata (G_OBJECT (layout), get_centred_quark ());
  Centred asked = { .text = (char *) text, .size = size, .weight = weight };
  const Centred *centred = &asked;

  if (kept != NULL)
    centred = find_centred (kept, layout, &asked);
  else
    lay_out_centred (layout, &asked);
  cairo_move_to (cr, x - centred->left, y - centred->up);
  pango_cairo_show_layout (cr, centred->layout);
}
