/* one-dial.c - one dial for steps that differ in length alone
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A longer stitch wants a little less tension, but where the bands of two steps meet one dial does for both: it is not
 * turned to and fro with every length (common practice). Each step takes one of the dials that the machine's steps
 * have, or the one at which it stands, inside its band, so that the dial is turned least often, and then so that they
 * lie nearest to what is preferred. Found by dynamic programming along the order. Where two steps in turn differ in the
 * dial alone, or in no soft part, that stays so: the minutes for which the order was proved best are not touched.
 */

#include "config.h"

#include "plan/sequence-private.h"
#include "plan/share.h"

#include <math.h>

#define MAX_DIALS 32
#define TURN 10000                       /* against hundredths of a number beside the preferred dial; own judgement */
#define NEVER (G_MAXINT64 / 4)

typedef struct
{
  HwPlan *plan;
  GArray *steps;                         /* gsize: one machine's, in order */
  HwMounted standing;
  int     dials[MAX_DIALS];              /* hundredths */
  int     n_dials;
} Row;

static int
get_hundredths (const HwSetup *setup)
{
  return (int) lround (setup->values[HW_FIELD_DIAL].value * 100);
}

static gboolean
add_dial (Row *self, int dial)
{
  for (int i = 0; i < self->n_dials; i++)
    if (self->dials[i] == dial)
      return TRUE;
  if (self->n_dials == MAX_DIALS)
    return FALSE;
  self->dials[self->n_dials++] = dial;
  return TRUE;
}

static const HwSetup *
get_setup (const Row *self, guint i)
{
  return self->plan->setups[g_array_index (self->steps, gsize, i)];
}

static gboolean
admits (const HwSetup *setup, int dial)
{
  const HwValue *own = &setup->values[HW_FIELD_DIAL];

  if (dial == get_hundredths (setup))
    return TRUE;
  return own->origin != HW_ORIGIN_OVERRIDDEN && setup->step->share
         && hw_value_accepts (own, HW_FIELD_DIAL, dial / 100.0);
}

static gboolean
differ_beside_dial (const HwMounted *a, const HwMounted *b)
{
  for (int i = 0; i < HW_N_SOFT_PARTS; i++)
    if (i != HW_SOFT_DIAL && a->soft[i] != b->soft[i])
      return TRUE;
  return FALSE;
}

/* From @from with the dial @before to @to with the dial @after. */
static gint64
weigh (const HwMounted *from, const HwMounted *to, int before, int after)
{
  gboolean was_same = from->soft[HW_SOFT_DIAL] == to->soft[HW_SOFT_DIAL];

  if (!from->soft_known)
    return 0;
  if (!differ_beside_dial (from, to) && (before == after) != was_same)
    return NEVER;
  return before == after ? 0 : TURN;
}

/* What it costs to have each dial at step @i, the cheapest way there; @came: from which dial of the step before. */
static void
advance (const Row *self, guint i, const gint64 *before, gint64 *after, gint8 *came)
{
  const HwSetup *setup = get_setup (self, i);
  HwMounted      to = hw_mounted_from_setup (setup);
  HwMounted      from = i > 0 ? hw_mounted_from_setup (get_setup (self, i - 1)) : self->standing;
  double         preferred = hw_setup_get_preferred_dial (setup);

  for (int d = 0; d < self->n_dials; d++)
    {
      gint64 best = NEVER;

      for (int b = 0; b < (i > 0 ? self->n_dials : 1) && admits (setup, self->dials[d]); b++)
        {
          int    dial = i > 0 ? self->dials[b] : from.soft[HW_SOFT_DIAL];
          gint64 cost = before[b] + weigh (&from, &to, dial, self->dials[d]);

          if (cost >= best)
            continue;
          best = cost;
          came[d] = (gint8) b;
        }
      after[d] = MIN (NEVER, best + llabs (lround (preferred * 100) - self->dials[d]));
    }
}

/* (transfer full): the dial of each step, as its place among the dials. */
static gint8 *
choose_dials (const Row *self)
{
  guint             n = self->steps->len;
  gint8            *chosen = g_new0 (gint8, n + 1);
  g_autofree gint8 *came = g_new0 (gint8, (gsize) n * MAX_DIALS);
  gint64            costs[2][MAX_DIALS] = { { 0 } };
  int               last = 0;

  for (guint i = 0; i < n; i++)
    advance (self, i, costs[i % 2], costs[(i + 1) % 2], came + (gsize) i * MAX_DIALS);
  for (int d = 1; d < self->n_dials; d++)
    if (costs[n % 2][d] < costs[n % 2][last])
      last = d;
  for (guint i = n; i-- > 0;)
    {
      chosen[i] = (gint8) last;
      last = came[(gsize) i * MAX_DIALS + (gsize) last];
    }
  return chosen;
}

static void
settle (Row *self)
{
  g_autofree gint8 *chosen = NULL;

  if (self->standing.soft_known)
    add_dial (self, self->standing.soft[HW_SOFT_DIAL]);
  for (guint i = 0; i < self->steps->len; i++)
    if (!add_dial (self, get_hundredths (get_setup (self, i))))
      return;                            /* each has its own, as preferred */
  chosen = choose_dials (self);
  for (guint i = 0; i < self->steps->len; i++)
    hw_setup_agree_dial (self->plan, self->plan->setups[g_array_index (self->steps, gsize, i)],
                         self->dials[chosen[i]] / 100.0);
}

void
hw_sequence_settle_dials (HwSequence *self, const int *order)
{
  for (guint m = 0; m < self->machines->len; m++)
    {
      g_autoptr (GArray) steps = g_array_new (FALSE, FALSE, sizeof (gsize));
      Row row = { .plan = self->plan, .steps = steps, .standing = self->standing[m] };

      for (guint i = 0; i < self->operations->len; i++)
        {
          gsize          step = g_array_index (self->operations, gsize, order[i]);
          const HwSetup *setup = self->plan->setups[step];

          if (setup != NULL && setup->machine == g_ptr_array_index (self->machines, m)
              && setup->values[HW_FIELD_DIAL].applies)
            g_array_append_val (steps, step);
        }
      settle (&row);
    }
}
