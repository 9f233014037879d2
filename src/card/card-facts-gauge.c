/* card-facts-gauge.c - what one card says: the lengths of its stitch gauge
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whoever lays the scrap beside the gauge finds the length that was set, and what a shorter or longer one would look
 * like. Where steps of the set-up want other lengths, those are the ones to compare with.
 */

#include "config.h"

#include "card/card-private.h"

#include <math.h>

#define LEAST_MM 0.15             /* shorter would be no stitch */

/* As the gauge names it, in tenths of a millimetre; @n: how many steps are sewn so. */
typedef struct { int tenths; guint n; } Used;

static int
count_tenths (double mm)
{
  return (int) lround (mm * 10);
}

/* The length of the large values first, the others in the order met. */
static GArray *
list_used (const HwCardFacts *self,
           const HwPlan      *plan,
           const HwGroup     *group)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Used));
  Used    large = { count_tenths (self->first_length_mm), 0 };

  g_array_append_val (all, large);
  for (guint i = 0; i < group->members->len; i++)
    {
      const HwValue *length = &plan->setups[g_array_index (group->members, gsize, i)]->values[HW_FIELD_LENGTH];
      Used fresh = { length->applies ? count_tenths (length->value) : 0, 1 };
      guint at = 0;

      while (at < all->len && g_array_index (all, Used, at).tenths != fresh.tenths)
        at++;
      if (at < all->len)
        g_array_index (all, Used, at).n++;
      else if (fresh.tenths > 0)
        g_array_append_val (all, fresh);
    }
  return all;
}

/* In rising order. */
static void
insert_length (HwCardFacts *self,
               double       mm,
               gboolean     is_used)
{
  int place = self->n_gauges;

  for (; place > 0 && self->gauges[place - 1].mm > mm; place--)
    self->gauges[place] = self->gauges[place - 1];
  self->gauges[place] = (HwCardGauge) { mm, is_used };
  self->n_gauges++;
}

static gboolean
has_length (const HwCardFacts *self,
            double             mm)
{
  for (int i = 0; i < self->n_gauges; i++)
    if (count_tenths (self->gauges[i].mm) == count_tenths (mm))
      return TRUE;
  return FALSE;
}

/* What most steps are sewn with beside the first one's; the one met first of as many. */
static void
insert_most_used (HwCardFacts *self,
                  GArray      *used)
{
  guint most = 1;

  for (guint i = 2; i < used->len; i++)
    if (g_array_index (used, Used, i).n > g_array_index (used, Used, most).n)
      most = i;
  insert_length (self, g_array_index (used, Used, most).tenths / 10.0, TRUE);
  g_array_remove_index (used, most);
}

/* Neighbours of the first step's length, so that it lies between two if it can; fine stitches have nearer ones. */
static void
insert_neighbours (HwCardFacts *self)
{
  double   length = self->first_length_mm;
  double   step = length < 1 ? 0.1 : 0.5;
  gboolean has_shorter = self->gauges[0].mm < length - 0.01;
  double   ways[2] = { length - step, length + step };

  for (int i = 0; i < 2 && self->n_gauges < HW_CARD_GAUGES; i++)
    {
      double mm = ways[has_shorter ? 1 - i : i];

      if (mm >= LEAST_MM && !has_length (self, mm))
        insert_length (self, mm, FALSE);
    }
}

void
hw_card_facts_add_gauges (HwCardFacts   *self,
                          const HwPlan  *plan,
                          const HwGroup *group)
{
  g_autoptr (GArray) used = NULL;

  if (self->first_length_mm <= 0)
    return;
  used = list_used (self, plan, group);
  insert_length (self, self->first_length_mm, TRUE);
  while (used->len > 1 && self->n_gauges < HW_CARD_GAUGES)
    insert_most_used (self, used);
  insert_neighbours (self);
}
