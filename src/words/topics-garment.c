/* topics-garment.c - what the handbook says of garments, sizes, stitch faults and terms
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/topics-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define MM_PER_CM 10.0

/* ---- sizes and garments ---- */

void
hw_tell_sizes (HwTeller      *self,
               const HwSizes *sizes)
{
  hw_tell (self, C_("of a body", "Sizes"), g_strjoinv (" ", sizes->names));
  for (gsize i = 0; i < sizes->n_bodies; i++)
    {
      g_autoptr (GString) values = g_string_new (NULL);

      for (gsize j = 0; j < sizes->n_sizes; j++)
        {
          g_autofree char *value = hw_words_number (sizes->bodies[i].values[j] / MM_PER_CM, 1);

          g_string_append_printf (values, "%s ", value);
        }
      g_string_append (values, "cm");
      hw_tell (self, sizes->bodies[i].name, g_strdup (values->str));
    }
}

static void
tell_measurement (HwTeller            *self,
                  const HwMeasurement *measurement,
                  double               value)
{
  double unit = measurement->counts ? 1 : MM_PER_CM;
  g_autofree char *is = hw_words_number (value / unit, 1);
  g_autofree char *low = hw_words_number (measurement->low / unit, 1);
  g_autofree char *high = hw_words_number (measurement->high / unit, 1);

  if (measurement->counts)
    /* Translators: a number of things, and between which it may lie */
    hw_tell (self, measurement->name, g_strdup_printf (_("%s (%s to %s)"), is, low, high));
  else
    /* Translators: a measurement, and between which it may lie */
    hw_tell (self, measurement->name, g_strdup_printf (_("%s cm (%s to %s)"), is, low, high));
}

static char *
say_figure (const HwGarmentStep   *step,
            const HwGarmentFigure *figure)
{
  g_autofree char *length = NULL;

  if (step->by_hand)
    {
      g_autofree char *minutes = hw_words_number (figure->minutes, 1);

      /* Translators: a hand step's time */
      return g_strdup_printf (_("by hand, %s min"), minutes);
    }
  length = hw_words_cm (figure->length_mm / MM_PER_CM, 0);
  if (figure->pieces == 1)
    return g_steal_pointer (&length);
  /* Translators: how much is sewn in a step, such as “48 cm”, and in how many pieces */
  return g_strdup_printf (ngettext ("%s in %d piece", "%s in %d pieces", (gulong) figure->pieces), length,
                          figure->pieces);
}

/* "4  Darts", "48 cm in 4 pieces; after 2; = 4 * $dart" */
static void
tell_step (HwTeller              *self,
           const HwGarmentStep   *step,
           const HwGarmentFigure *figure)
{
  g_autofree char    *name = g_strdup_printf ("%s  %s", step->number, step->name);
  g_autofree char    *says = say_figure (step, figure);
  g_autofree char    *after = g_strjoinv (" ", step->after);
  g_autoptr (GString) value = g_string_new (says);
  const char         *formula = step->by_hand ? step->minutes : step->length;

  if (*after != '\0')
    /* Translators: the numbers of the steps that come before this one */
    g_string_append_printf (value, _("; after %s"), after);
  if (strchr (formula, '$') != NULL)
    /* Translators: how a length is reckoned, such as 2 * $side */
    g_string_append_printf (value, _(" (%s)"), formula);
  hw_tell_line (self, name, g_strdup (value->str), NULL);
}

static double
sum_lengths (const HwGarment       *garment,
             const HwGarmentFigure *figures)
{
  double sum = 0;

  for (gsize i = 0; i < garment->n_steps; i++)
    sum += figures[i].length_mm;
  return sum;
}

static gboolean
has_seam (const HwGarment *garment,
          gsize            seam)
{
  for (gsize i = 0; i < garment->n_steps; i++)
    if (!garment->steps[i].by_hand && garment->steps[i].seam == (int) seam)
      return TRUE;
  return FALSE;
}

static void
tell_seams (HwTeller        *self,
            const HwGarment *garment)
{
  gboolean first = TRUE;

  for (gsize i = 0; i < self->handbook->n_seams; i++)
    if (has_seam (garment, i))
      {
        hw_tell_entry (self, first ? _("Seams") : NULL, "seam", (int) i);
        first = FALSE;
      }
}

static void
tell_parts (HwTeller        *self,
            const HwGarment *garment)
{
  HwSet purposes = 0;

  for (gsize i = 0; i < garment->n_roles; i++)
    hw_tell_entry (self, garment->roles[i].name, "fabric", garment->roles[i].fabric);
  for (gsize i = 0; i < garment->n_threads; i++)
    hw_tell_entry (self, i == 0 ? _("Thread") : NULL, "thread", garment->threads[i].thread);
  for (gsize i = 0; i < garment->n_steps; i++)
    if (!garment->steps[i].by_hand)
      purposes |= HW_SET (garment->steps[i].purpose);
  hw_tell_set (self, _("Purposes"), "purpose", purposes);
  tell_seams (self, garment);
}

void
hw_tell_garment (HwTeller        *self,
                 const HwGarment *garment)
{
  g_autofree double *values = hw_garment_dup_values (garment, garment->size);
  /* Whoever loaded the handbook has reckoned with these before. */
  g_autofree HwGarmentFigure *figures = hw_garment_reckon (garment, values, NULL);
  g_autofree char *sewn = NULL;

  g_return_if_fail (figures != NULL);

  if (garment->sizes != NULL)
    hw_tell_linked (self, C_("of a body", "Sizes"),
                    g_strdup_printf (_("%s; this is %s"), garment->sizes->entry.name,
                                     garment->sizes->names[garment->size]),
                    g_strdup_printf ("sizes/%s", garment->sizes->entry.id));
  for (gsize i = 0; i < garment->n_measurements; i++)
    tell_measurement (self, &garment->measurements[i], values[i]);
  tell_parts (self, garment);
  sewn = hw_words_metres (sum_lengths (garment, figures) / 1000);
  hw_tell (self, _("Sewn in all"), g_strdup (sewn));
  for (gsize i = 0; i < garment->n_lets; i++)
    {
      g_autofree char *name = g_strdup_printf ("$%s", garment->lets[i].id);

      hw_tell (self, name, g_strdup (garment->lets[i].value));
    }
  for (gsize i = 0; i < garment->n_steps; i++)
    tell_step (self, &garment->steps[i], &figures[i]);
}

/* ---- stitch faults ---- */

static void
tell_cause (HwTeller      *self,
            const HwCause *cause)
{
  g_autofree char *weight = hw_words_number (cause->weight, 0);
  g_autofree char *minutes = hw_words_number (cause->minutes, 1);

  /* Translators: a cause of a fault, how often it is the one, how long it takes to find out */
  hw_tell_line (self, NULL, g_strdup_printf (_("%s %%  %s (%s min)"), weight, cause->name, minutes),
                cause->source);
  hw_tell_line (self, NULL, g_strdup_printf ("     %s", cause->check), NULL);
  hw_tell_line (self, NULL, g_strdup_printf ("     → %s", cause->action), NULL);
}

void
hw_tell_fault (HwTeller      *self,
               const HwFault *fault)
{
  hw_tell_line (self, NULL, g_strdup (fault->sign), NULL);
  hw_tell_machines (self, fault->machines);
  for (char **caution = fault->cautions; *caution != NULL; caution++)
    hw_tell_line (self, _("Caution"), g_strdup (*caution), NULL);
  for (gsize i = 0; i < fault->n_causes; i++)
    tell_cause (self, &fault->causes[i]);
}

void
hw_tell_closing (HwTeller        *self,
                 const HwClosing *closing)
{
  hw_tell_machines (self, closing->machines);
}

static void
tell_factor (HwTeller   *self,
             const char *name,
             double      factor)
{
  g_autofree char *number = hw_words_number (factor, 2);

  hw_tell (self, name, g_strdup_printf ("× %s", number));
}

void
hw_tell_clue (HwTeller          *self,
              const HwClueEntry *clue)
{
  tell_factor (self, _("Speaks against it"), clue->clear);
  tell_factor (self, _("At its limit"), clue->at_limit);
  tell_factor (self, _("At most"), clue->most);
}

/* ---- terms ---- */

void
hw_tell_word (HwTeller     *self,
              const HwTerm *term)
{
  for (gsize i = 0; i < term->n_see; i++)
    hw_tell_entry (self, i == 0 ? _("See also") : NULL, "term", term->see[i]);
}
