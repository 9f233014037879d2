/* shelf.c - thread and fabrics on hand, as values
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/shelf.h"

const char * const hw_snap_ids[] = { "untested", "good", "weak", NULL };

char *
hw_thread_label (const char *colour,
                 const char *handbook,
                 double      tex)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  if (colour == NULL)
    colour = handbook;
  g_ascii_formatd (text, sizeof text, "%.4g", tex);
  return colour != NULL ? g_strdup_printf ("%s tex %s", colour, text) : g_strdup_printf ("tex %s", text);
}

double
hw_cut_mass_g_m2 (double grams,
                  double width_cm,
                  double length_cm)
{
  return grams > 0 && width_cm > 0 && length_cm > 0 ? grams * 10000 / (width_cm * length_cm) : 0;
}

double
hw_pile_thickness_mm (double pile_mm,
                      int    layers)
{
  return pile_mm > 0 && layers > 0 ? pile_mm / layers : 0;
}

HwSpool *
hw_spool_new (const char *id,
              const char *handbook,
              const char *colour)
{
  HwSpool *self = g_new0 (HwSpool, 1);

  self->id = g_strdup (id);
  self->handbook = g_strdup (handbook);
  self->colour = g_strdup (colour);
  return self;
}

HwSpool *
hw_spool_copy (const HwSpool *self)
{
  HwSpool *copy = hw_spool_new (self->id, self->handbook, self->colour);

  copy->tex = self->tex;
  copy->metres = self->metres;
  copy->counted = g_strdup (self->counted);
  copy->snap = self->snap;
  copy->note = g_strdup (self->note);
  return copy;
}

void
hw_spool_free (HwSpool *self)
{
  if (self == NULL)
    return;
  g_free (self->id);
  g_free (self->handbook);
  g_free (self->colour);
  g_free (self->counted);
  g_free (self->note);
  g_free (self);
}

HwShelfCloth *
hw_shelf_cloth_new (const char *id,
                    const char *name)
{
  HwShelfCloth *self = g_new0 (HwShelfCloth, 1);

  self->id = g_strdup (id);
  self->name = g_strdup (name);
  self->stretch_percent = -1;
  self->traits = g_new0 (char *, 1);
  return self;
}

HwShelfCloth *
hw_shelf_cloth_copy (const HwShelfCloth *self)
{
  HwShelfCloth *copy = g_new (HwShelfCloth, 1);

  *copy = *self;                         /* the texts are replaced by copies below */
  copy->id = g_strdup (self->id);
  copy->name = g_strdup (self->name);
  copy->handbook = g_strdup (self->handbook);
  copy->construction = g_strdup (self->construction);
  copy->traits = g_strdupv (self->traits);
  copy->colour = g_strdup (self->colour);
  copy->note = g_strdup (self->note);
  return copy;
}

void
hw_shelf_cloth_free (HwShelfCloth *self)
{
  if (self == NULL)
    return;
  g_free (self->id);
  g_free (self->name);
  g_free (self->handbook);
  g_free (self->construction);
  g_strfreev (self->traits);
  g_free (self->colour);
  g_free (self->note);
  g_free (self);
}
