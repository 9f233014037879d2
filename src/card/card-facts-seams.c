/* card-facts-seams.c - what one card says: which seams its pictures show
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <string.h>

static gboolean
is_same_line (const HwPolyline *a,
              const HwPolyline *b)
{
  return a->n_points == b->n_points && memcmp (a->xy, b->xy, 2 * a->n_points * sizeof *a->xy) == 0;
}

static gboolean
is_same_row (const HwSeamStitch *a,
             const HwSeamStitch *b)
{
  return a->x1 == b->x1 && a->y1 == b->y1 && a->x2 == b->x2 && a->y2 == b->y2 && a->row == b->row;
}

/* Seams that differ in width alone are drawn alike. */
static gboolean
is_drawn_alike (const HwSeam *a,
                const HwSeam *b)
{
  if (a->n_plies != b->n_plies || a->n_stitches != b->n_stitches || a->stacked != b->stacked)
    return FALSE;
  for (gsize i = 0; i < a->n_plies; i++)
    if (!is_same_line (&a->plies[i], &b->plies[i]))
      return FALSE;
  for (gsize i = 0; i < a->n_stitches; i++)
    if (!is_same_row (&a->stitches[i], &b->stitches[i]))
      return FALSE;
  return TRUE;
}

/* NULL: no seam, or none that could be drawn. */
static const HwSeam *
get_seam (const HwPlan *plan,
          gsize         step)
{
  const HwSeam *seam = plan->setups[step] != NULL ? plan->setups[step]->seam : NULL;

  return seam != NULL && seam->n_plies > 0 ? seam : NULL;
}

static gboolean
looks_like (const HwPlan *plan,
            gsize         step,
            gsize         other)
{
  const HwSeam *one = get_seam (plan, step);
  const HwSeam *two = get_seam (plan, other);

  if (one == NULL || two == NULL || !is_drawn_alike (one, two))
    return FALSE;
  return !one->stacked
         || hw_step_count_layers (plan->setups[step]->step) == hw_step_count_layers (plan->setups[other]->step);
}

/* Which of the card's steps look like @shown. */
static const char *
name_steps (HwCardFacts  *self,
            const HwPlan *plan,
            gsize         shown)
{
  g_autoptr (GString) numbers = g_string_new (NULL);
  guint n = 0;

  for (guint i = 0; i < self->told->len; i++)
    {
      gsize step = g_array_index (self->told, gsize, i);

      if (!looks_like (plan, step, shown))
        continue;
      g_string_append_printf (numbers, "%s%s", n > 0 ? " " : "", hw_project_get_step (plan->project, step)->number);
      n++;
    }
  if (n == self->told->len)
    return NULL;
  /* Translators: under the picture of a seam: the steps that are sewn so */
  return hw_card_facts_keep (self, g_strdup_printf (ngettext ("step %s", "steps %s", n), numbers->str));
}

/* Before the card's first row the set-up's list has no such seam, sewn or not: a card before has the picture. */
static gboolean
is_new (const HwPlan *plan,
        gsize         step,
        const GArray *rows,
        HwCardPart    part)
{
  for (guint i = 0; i < part.from; i++)
    if (looks_like (plan, g_array_index (plan->order, HwPlanStep, g_array_index (rows, guint, i)).step, step))
      return FALSE;
  return TRUE;
}

/* The section that shows what @step sews; NULL: none does yet. */
static HwCardSection *
find_section (HwCardFacts  *self,
              const HwPlan *plan,
              gsize         step)
{
  for (guint i = 0; i < self->sections->len; i++)
    {
      HwCardSection *section = &g_array_index (self->sections, HwCardSection, i);

      if (looks_like (plan, section->step, step))
        return section;
    }
  return NULL;
}

void
hw_card_facts_add_sections (HwCardFacts  *self,
                            const HwPlan *plan,
                            const GArray *rows,
                            HwCardPart    part)
{
  for (guint i = 0; i < self->told->len; i++)
    {
      gsize          step = g_array_index (self->told, gsize, i);
      const HwSeam  *seam = get_seam (plan, step);
      HwCardSection *known = seam != NULL ? find_section (self, plan, step) : NULL;
      HwCardSection  fresh = { step, NULL, NULL, FALSE };

      if (seam == NULL)
        continue;
      if (known == NULL)
        {
          fresh.caption = seam->entry.name;
          fresh.steps = name_steps (self, plan, step);
          fresh.is_new = is_new (plan, step, rows, part);
          g_array_append_val (self->sections, fresh);
        }
      else if (g_utf8_strlen (seam->entry.name, -1) < g_utf8_strlen (known->caption, -1))
        {
          known->caption = seam->entry.name;
        }
    }
}
