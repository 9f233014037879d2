/* notions.c - thread, bobbins and cones to have ready
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Of the whole project, done steps included: it is what the thing takes.
 */

#include "config.h"

#include "plan/bobbins.h"
#include "plan/plan-private.h"
#include "plan/times.h"

#include <math.h>
#include <string.h>

void
hw_notion_free (HwNotion *self)
{
  if (self == NULL)
    return;
  g_free (self->colour);
  g_free (self);
}

static HwNotion *
find_notion (HwPlan *self, const HwThreadChoice *choice)
{
  HwNotion *notion;

  for (guint i = 0; i < self->notions->len; i++)
    {
      notion = g_ptr_array_index (self->notions, i);
      if (notion->thread == choice->thread && notion->entry == choice->entry && fabs (notion->tex - choice->tex) < 1e-9)
        return notion;
    }
  notion = g_new0 (HwNotion, 1);
  notion->thread = choice->thread;
  notion->entry = choice->entry;
  notion->tex = choice->tex;
  notion->colour = choice->thread != NULL ? g_strdup (choice->thread->colour) : NULL;
  g_ptr_array_add (self->notions, notion);
  return notion;
}

/* Is the bobbin's thread seen where this is sewn? */
static gboolean
is_seen (const HwSetup *setup)
{
  return strcmp (setup->purpose->entry.id, "topstitch") == 0;
}

static void
add_rows (GArray *rows, const HwSetup *setup, double metres)
{
  HwBobbinRow row = { metres / MAX (setup->step->pieces, 1), is_seen (setup) };

  for (int piece = 0; piece < MAX (setup->step->pieces, 1); piece++)
    g_array_append_val (rows, row);
}

/* Bobbins of one thread, in the order sewn; machines with other bobbins are wound for apart. */
static void
count_bobbins (HwPlan *self, HwNotion *notion)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (HwBobbinRow));

  for (guint m = 0; m < self->hours->len; m++)
    {
      const HwMachine *machine = g_array_index (self->hours, HwMachineHours, m).machine;
      double capacity_m;

      g_array_set_size (rows, 0);
      for (gsize i = 0; i < self->order->len; i++)
        {
          const HwSetup *setup = hw_plan_setup_at (self, i);

          if (setup != NULL && setup->machine == machine && setup->stitch->bobbin
              && find_notion (self, &setup->bobbin_thread) == notion)
            add_rows (rows, setup, hw_plan_step_at (self, i)->under_m);
        }
      if (rows->len == 0)
        continue;
      capacity_m = hw_bobbin_metres (machine->bobbin_cm3, HW_BOBBIN_BULK, notion->tex);
      notion->bobbins += hw_bobbins_for_rows ((const HwBobbinRow *) (const void *) rows->data, rows->len, capacity_m);
      if (!(notion->bobbin_capacity_m > 0))
        notion->bobbin_capacity_m = capacity_m;
    }
}

/* Paths that each thread feeds at once where there is no bobbin. */
static void
count_cones (HwPlan *self, const HwSetup *setup)
{
  HwNotion *needle = find_notion (self, &setup->needle_thread);
  HwNotion *looper = find_notion (self, &setup->bobbin_thread);
  int needles = MAX (setup->stitch->needles, 1);

  if (needle == looper)
    needle->cones = MAX (needle->cones, needles + setup->stitch->loopers);
  else
    {
      needle->cones = MAX (needle->cones, needles);
      looper->cones = MAX (looper->cones, setup->stitch->loopers);
    }
}

static void
count_buttonholes (HwPlan *self, const HwSetup *setup)
{
  if (strcmp (setup->purpose->entry.id, "buttonhole") == 0)
    self->buttonholes += MAX (setup->step->pieces, 1);
}

/* Thread off cones, or off spools in their place. */
static void
add_cone_metres (HwPlan *self, const HwSetup *setup, const HwPlanStep *step)
{
  find_notion (self, &setup->needle_thread)->cone_m += step->needle_m;
  if (setup->stitch->loopers > 0)
    find_notion (self, &setup->bobbin_thread)->cone_m += step->under_m;
  count_cones (self, setup);
}

void
hw_plan_count_notions (HwPlan *self)
{
  for (gsize i = 0; i < self->order->len; i++)
    {
      const HwPlanStep *step = hw_plan_step_at (self, i);
      const HwSetup *setup = self->setups[step->step];

      if (setup == NULL)
        continue;
      find_notion (self, &setup->needle_thread)->needle_m += step->needle_m;
      if (setup->stitch->bobbin)
        find_notion (self, &setup->bobbin_thread)->bobbin_m += step->under_m;
      else if (setup->stitch->loopers > 0)
        find_notion (self, &setup->bobbin_thread)->needle_m += step->under_m;
      if (setup->machine->kind != HW_MACHINE_LOCKSTITCH)
        add_cone_metres (self, setup, step);
      count_buttonholes (self, setup);
    }
  for (guint i = 0; i < self->notions->len; i++)
    count_bobbins (self, g_ptr_array_index (self->notions, i));
}
