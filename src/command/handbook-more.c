/* handbook-more.c - garments, sizes, stitch faults and terms of the handbook, for people
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/handbook-details.h"

#include <stdio.h>

#include <glib/gi18n.h>

#include "words/words.h"

#define MM_PER_CM 10.0

/* ---- sizes and garments ---- */

void
hw_details_sizes (const HwSizes *sizes)
{
  hw_details_fact (_("Sizes"), g_strjoinv (" ", sizes->names));
  for (gsize i = 0; i < sizes->n_bodies; i++)
    {
      GString *values = g_string_new (NULL);

      for (gsize j = 0; j < sizes->n_sizes; j++)
        {
          g_autofree char *value = hw_words_number (sizes->bodies[i].values[j] / MM_PER_CM, 1);

          g_string_append_printf (values, "%s ", value);
        }
      g_string_append (values, "cm");
      hw_details_fact (_(sizes->bodies[i].name), g_string_free (values, FALSE));
    }
}

static void
print_measurement (const HwMeasurement *measurement,
                   double               value)
{
  double unit = measurement->counts ? 1 : MM_PER_CM;
  g_autofree char *is = hw_words_number (value / unit, 1);
  g_autofree char *low = hw_words_number (measurement->low / unit, 1);
  g_autofree char *high = hw_words_number (measurement->high / unit, 1);

  if (measurement->counts)
    /* Translators: a number of things, and between which it may lie */
    hw_details_fact (_(measurement->name), g_strdup_printf (_("%s (%s to %s)"), is, low, high));
  else
    /* Translators: a measurement, and between which it may lie */
    hw_details_fact (_(measurement->name), g_strdup_printf (_("%s cm (%s to %s)"), is, low, high));
}

static char *
say_figure (const HwGarmentStep   *step,
            const HwGarmentFigure *figure)
{
  g_autofree char *length = NULL;
  g_autofree char *start = NULL;

  if (step->by_hand)
    {
      g_autofree char *minutes = hw_words_number (figure->minutes, 1);

      /* Translators: a hand step's time */
      return g_strdup_printf (_("by hand, %s min"), minutes);
    }
  length = hw_words_number (figure->length_mm / MM_PER_CM, 0);
  if (figure->pieces == 1)
    /* Translators: how much is sewn in a step */
    return g_strdup_printf (_("%s cm"), length);
  /* Translators: how much is sewn in a step, and in how many pieces */
  start = g_strdup_printf (ngettext ("%s cm in %d piece", "%s cm in %d pieces", (gulong) figure->pieces), length,
                           figure->pieces);
  return g_steal_pointer (&start);
}

static void
print_steps (const HwGarment       *garment,
             const HwGarmentFigure *figures)
{
  for (gsize i = 0; i < garment->n_steps; i++)
    {
      const HwGarmentStep *step = &garment->steps[i];
      g_autofree char *figure = say_figure (step, &figures[i]);
      g_autofree char *after = g_strjoinv (" ", step->after);

      printf ("  %3s  %s: %s", step->number, _(step->name), figure);
      if (*after != '\0')
        /* Translators: the numbers of the steps that come before this one */
        printf (_("; after %s"), after);
      printf ("\n");
    }
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

void
hw_details_garment (const HwHandbook *handbook,
                    const HwGarment  *garment)
{
  g_autofree double *values = hw_garment_dup_values (garment, garment->size);
  /* Whoever loaded the handbook has reckoned with these before. */
  g_autofree HwGarmentFigure *figures = hw_garment_reckon (garment, values, NULL);

  g_return_if_fail (figures != NULL);

  if (garment->sizes != NULL)
    hw_details_fact (_("Sizes"), g_strdup_printf (_("%s; this is %s"), _(garment->sizes->entry.name),
                                                  garment->sizes->names[garment->size]));
  for (gsize i = 0; i < garment->n_measurements; i++)
    print_measurement (&garment->measurements[i], values[i]);
  for (gsize i = 0; i < garment->n_roles; i++)
    hw_details_fact (_(garment->roles[i].name), g_strdup (_(handbook->fabrics[garment->roles[i].fabric].entry.name)));
  for (gsize i = 0; i < garment->n_threads; i++)
    hw_details_fact (_("Thread"), g_strdup (_(handbook->threads[garment->threads[i].thread].entry.name)));
  hw_details_fact (_("Sewn in all"), hw_words_metres (sum_lengths (garment, figures) / 1000));
  print_steps (garment, figures);
}

/* ---- stitch faults ---- */

static void
print_cause (const HwCause *cause)
{
  g_autofree char *weight = hw_words_number (cause->weight, 0);
  g_autofree char *minutes = hw_words_number (cause->minutes, 1);
  g_autofree char *source = hw_words_source (cause->source);

  /* Translators: a cause of a fault, how often it is the one, how long it takes to find out */
  printf (_("  %s %%  %s (%s min)\n"), weight, _(cause->name), minutes);
  printf ("       %s\n", _(cause->check));
  printf ("       → %s\n", _(cause->action));
  printf ("       %s: %s\n", _("Source"), source);
}

void
hw_details_fault (const HwFault *fault)
{
  printf ("  %s\n", _(fault->sign));
  hw_details_fact (_("Machines"), hw_details_machines (fault->machines));
  for (char **caution = fault->cautions; *caution != NULL; caution++)
    printf ("  %s %s\n", _("Caution:"), _(*caution));
  for (gsize i = 0; i < fault->n_causes; i++)
    print_cause (&fault->causes[i]);
}

/* ---- terms ---- */

void
hw_details_term (const HwHandbook *handbook,
                 const HwTerm     *term)
{
  GString *see = g_string_new (NULL);

  for (gsize i = 0; i < term->n_see; i++)
    g_string_append_printf (see, "%s%s", i > 0 ? ", " : "", _(handbook->terms[term->see[i]].entry.name));
  if (see->len > 0)
    hw_details_fact (_("See also"), g_strdup (see->str));
  g_string_free (see, TRUE);
}
