/* groups.c - the distinct hard parts of a plan, lettered
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/plan-private.h"

#include <string.h>

void
hw_group_free (HwGroup *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->members);
  g_free (self);
}

/* A to Z, then AA, AB and so on. */
static void
write_letter (char letter[4], guint index)
{
  char backwards[4];
  int n = 0;

  for (guint rest = index + 1; rest > 0 && n < 3; rest = (rest - 1) / 26)
    backwards[n++] = (char) ('A' + (rest - 1) % 26);
  for (int i = 0; i < n; i++)
    letter[i] = backwards[n - 1 - i];
  letter[n] = '\0';
}

static HwGroup *
make_group (const HwMounted *mounted, guint index)
{
  HwGroup *self = g_new0 (HwGroup, 1);

  write_letter (self->letter, index);
  self->machine = mounted->machine;
  self->system = mounted->system;
  self->point = mounted->point;
  self->size_nm = mounted->size_nm;
  self->twin_mm = mounted->twin / 100.0;
  self->stitch = mounted->stitch;
  self->needle_thread = mounted->needle_thread;
  self->bobbin_thread = mounted->bobbin_thread;
  self->foot = mounted->foot;
  self->plate = mounted->plate;
  self->members = g_array_new (FALSE, FALSE, sizeof (gsize));
  return self;
}

void
hw_plan_make_groups (HwPlan *self)
{
  g_autoptr (GArray) seen = g_array_new (FALSE, FALSE, sizeof (HwMounted));

  for (gsize i = 0; i < self->order->len; i++)
    {
      HwPlanStep *step = hw_plan_step_at (self, i);
      const HwSetup *setup = self->setups[step->step];
      HwMounted mounted;
      guint group = 0;

      step->group = -1;
      if (setup == NULL)
        continue;
      mounted = hw_mounted_from_setup (setup);
      while (group < seen->len && !hw_mounted_same_hard (&g_array_index (seen, HwMounted, group), &mounted))
        group++;
      if (group == seen->len)
        {
          g_array_append_val (seen, mounted);
          g_ptr_array_add (self->groups, make_group (&mounted, group));
        }
      step->group = (int) group;
      g_array_append_val (((HwGroup *) g_ptr_array_index (self->groups, group))->members, step->step);
    }
}
