/* garments.c - what a garment's steps come to in given measurements
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

/* As a project takes them: from a millimetre to a kilometre of seam. */
#define SHORTEST_MM 1
#define LONGEST_MM 1e6
#define MOST_PIECES 10000
#define MOST_MINUTES 100000

int
hw_garment_find_measurement (const HwGarment *self,
                             const char      *id)
{
  g_return_val_if_fail (self != NULL && id != NULL, -1);

  for (gsize i = 0; i < self->n_measurements; i++)
    if (strcmp (self->measurements[i].id, id) == 0)
      return (int) i;
  return -1;
}

int
hw_garment_find_role (const HwGarment *self,
                      const char      *id)
{
  g_return_val_if_fail (self != NULL && id != NULL, -1);

  for (gsize i = 0; i < self->n_roles; i++)
    if (strcmp (self->roles[i].id, id) == 0)
      return (int) i;
  return -1;
}

int
hw_garment_find_size (const HwGarment *self,
                      const char      *name)
{
  g_return_val_if_fail (self != NULL && name != NULL, -1);

  for (gsize i = 0; self->sizes != NULL && i < self->sizes->n_sizes; i++)
    if (strcmp (self->sizes->names[i], name) == 0)
      return (int) i;
  return -1;
}

double *
hw_garment_dup_values (const HwGarment *self,
                       int              size)
{
  double *values;

  g_return_val_if_fail (self != NULL, NULL);
  g_return_val_if_fail (size < 0 || (self->sizes != NULL && (gsize) size < self->sizes->n_sizes), NULL);

  values = g_new (double, MAX (self->n_measurements, 1));
  for (gsize i = 0; i < self->n_measurements; i++)
    {
      const HwMeasurement *measurement = &self->measurements[i];
      values[i] = size >= 0 && measurement->body >= 0 ? self->sizes->bodies[measurement->body].values[size]
                                                      : measurement->usual;
    }
  return values;
}

/* Lengths are told in centimetres, as they are shown and asked for. */
static gboolean
check_value (const HwGarment     *self,
             const HwMeasurement *measurement,
             double               value,
             GError             **error)
{
  double unit = measurement->counts ? 1 : 10;

  if (value >= measurement->low && value <= measurement->high
      && (!measurement->counts || value == floor (value)))       /* not so for NAN */
    return TRUE;
  g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_INVALID,
               measurement->counts ? _("%s:%d: “%s” must be a whole number from %g to %g; it is %g")
                                   : _("%s:%d: “%s” must be from %g to %g cm; it is %g"),
               self->entry.file, self->entry.line, measurement->name, measurement->low / unit,
               measurement->high / unit, value / unit);
  return FALSE;
}

static gboolean
set_measurements (const HwGarment *self,
                  const double    *values,
                  HwFormulas      *formulas,
                  GError         **error)
{
  for (gsize i = 0; i < self->n_measurements; i++)
    {
      if (!check_value (self, &self->measurements[i], values[i], error))
        return FALSE;
      hw_formulas_set (formulas, self->measurements[i].id, values[i]);
    }
  return TRUE;
}

static gboolean
set_lets (const HwGarment *self,
          HwFormulas      *formulas,
          GError         **error)
{
  for (gsize i = 0; i < self->n_lets; i++)
    {
      const HwLet *let = &self->lets[i];
      double value;

      if (!hw_formulas_reckon (formulas, let->value, &value, error))
        {
          /* Translators: a file, a line, a length that a garment reckons with */
          g_prefix_error (error, _("%s:%d: “%s”: "), self->entry.file, let->line, let->id);
          return FALSE;
        }
      hw_formulas_set (formulas, let->id, value);
    }
  return TRUE;
}

typedef struct
{
  const char *attr;
  const char *text;                      /* NULL: not written */
  double      low, high;
  gboolean    rounds;
} Reckoning;

static gboolean
reckon (const HwGarment     *self,
        const HwGarmentStep *step,
        const Reckoning     *what,
        HwFormulas          *formulas,
        double              *value,
        GError             **error)
{
  if (what->text == NULL)
    return TRUE;
  if (!hw_formulas_reckon (formulas, what->text, value, error))
    {
      /* Translators: a file, a line, a step's number, an attribute */
      g_prefix_error (error, _("%s:%d: step %s, “%s”: "), self->entry.file, step->line, step->number, what->attr);
      return FALSE;
    }
  if (what->rounds)
    *value = round (*value);
  if (*value >= what->low && *value <= what->high)
    return TRUE;
  g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_INVALID,
               _("%s:%d: step %s, “%s” comes to %g; it must be from %g to %g"),
               self->entry.file, step->line, step->number, what->attr, *value, what->low, what->high);
  return FALSE;
}

static gboolean
reckon_step (const HwGarment     *self,
             const HwGarmentStep *step,
             HwFormulas          *formulas,
             HwGarmentFigure     *figure,
             GError             **error)
{
  const Reckoning length = { "length", step->length, SHORTEST_MM, LONGEST_MM, FALSE };
  const Reckoning pieces = { "pieces", step->pieces, 1, MOST_PIECES, TRUE };
  const Reckoning minutes = { "minutes", step->minutes, 0, MOST_MINUTES, FALSE };
  double n_pieces = step->by_hand ? 0 : 1;

  if (!reckon (self, step, &length, formulas, &figure->length_mm, error)
      || !reckon (self, step, &pieces, formulas, &n_pieces, error)
      || !reckon (self, step, &minutes, formulas, &figure->minutes, error))
    return FALSE;
  figure->pieces = (int) n_pieces;
  return TRUE;
}

HwGarmentFigure *
hw_garment_reckon_with (const HwGarment *self,
                        HwFormulas      *formulas,
                        const double    *values,
                        GError         **error)
{
  g_autofree HwGarmentFigure *figures = NULL;

  hw_formulas_clear (formulas);
  if (!set_measurements (self, values, formulas, error) || !set_lets (self, formulas, error))
    return NULL;
  figures = g_new0 (HwGarmentFigure, MAX (self->n_steps, 1));
  for (gsize i = 0; i < self->n_steps; i++)
    if (!reckon_step (self, &self->steps[i], formulas, &figures[i], error))
      return NULL;
  return g_steal_pointer (&figures);
}

/**
 * hw_garment_reckon:
 * @values: (array): one for each measurement, in millimetres or as a number
 *
 * Returns: (transfer full) (array): a figure for each step, or %NULL with a %HW_HANDBOOK_ERROR
 */
HwGarmentFigure *
hw_garment_reckon (const HwGarment *self,
                   const double    *values,
                   GError         **error)
{
  g_autoptr (HwFormulas) formulas = NULL;

  g_return_val_if_fail (self != NULL && values != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  formulas = hw_formulas_new ();
  return hw_garment_reckon_with (self, formulas, values, error);
}
