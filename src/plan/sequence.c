/* sequence.c - puts the steps of a project in order, with the changes between them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Steps done come first, as the journal has them. The operations left are ordered by order.h; a hand
 * step costs no change, so arrows are drawn through it and it is put in afterwards: as soon as what it
 * comes after is done (a seam is pressed when it is sewn), or, when it comes after nothing, before the
 * first step that stands below it in the person's list; in any case before what waits for it.
 */

#include "config.h"

#include "plan/order.h"
#include "plan/plan-private.h"

#include <string.h>

typedef struct
{
  HwPlan    *plan;
  gboolean  *done;           /* [n_steps] */
  GArray   **after;          /* [n_steps] int: steps that must come before */
  GArray    *operations;     /* gsize: steps not done that are sewn */
  int       *numbers;        /* [n_steps] place in operations; -1 */
  GPtrArray *machines;       /* (element-type HwMachine) that the project uses, by first use */
  HwMounted *standing;       /* [machines] what stands on them now */
  int        at;             /* machine sat at; -1 */
} Sequence;

/* ---- what is given ---- */

static int
number_machine (Sequence *self, const HwMachine *machine)
{
  guint index;

  if (g_ptr_array_find (self->machines, machine, &index))
    return (int) index;
  g_ptr_array_add (self->machines, (gpointer) machine);
  return (int) self->machines->len - 1;
}

/* The machine of the last thing noted that happened at one of the project's machines. */
static int
find_place (const Sequence *self)
{
  const HwRoom *room = self->plan->room;

  for (guint i = room->entries->len; i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if ((entry->kind != HW_ENTRY_SEWING && entry->kind != HW_ENTRY_LOAD)
          || g_hash_table_contains (room->cancelled, entry->id) || g_strcmp0 (entry->machine, "hand") == 0)
        continue;
      for (guint m = 0; m < self->machines->len; m++)
        if (g_strcmp0 (((const HwMachine *) g_ptr_array_index (self->machines, m))->id, entry->machine) == 0)
          return (int) m;
      return -1;
    }
  return -1;
}

static GArray *
list_after (const HwProject *project, const HwStep *step)
{
  GArray *after = g_array_new (FALSE, FALSE, sizeof (int));

  for (char **number = step->after; number != NULL && *number != NULL; number++)
    {
      int index = hw_project_find_step (project, *number);

      if (index >= 0)
        g_array_append_val (after, index);
    }
  return after;
}

static void
sequence_init (Sequence *self, HwPlan *plan)
{
  memset (self, 0, sizeof *self);
  self->plan = plan;
  self->done = g_new0 (gboolean, plan->n_steps + 1);
  self->after = g_new0 (GArray *, plan->n_steps + 1);
  self->numbers = g_new0 (int, plan->n_steps + 1);
  self->operations = g_array_new (FALSE, FALSE, sizeof (gsize));
  self->machines = g_ptr_array_new ();
  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwStep *step = hw_project_get_step (plan->project, i);

      self->done[i] = hw_room_step_done (plan->room, plan->project->id, step->number) != NULL;
      self->after[i] = list_after (plan->project, step);
      self->numbers[i] = -1;
      if (plan->setups[i] == NULL)
        continue;
      number_machine (self, plan->setups[i]->machine);
      if (self->done[i])
        continue;
      self->numbers[i] = (int) self->operations->len;
      g_array_append_val (self->operations, i);
    }
  self->standing = g_new0 (HwMounted, self->machines->len + 1);
  for (guint m = 0; m < self->machines->len; m++)
    self->standing[m] = hw_mounted_now (plan, g_ptr_array_index (self->machines, m));
  self->at = find_place (self);
}

static void
sequence_clear (Sequence *self)
{
  for (gsize i = 0; i < self->plan->n_steps; i++)
    g_array_unref (self->after[i]);
  g_free (self->after);
  g_free (self->done);
  g_free (self->numbers);
  g_free (self->standing);
  g_array_unref (self->operations);
  g_ptr_array_unref (self->machines);
}

/* ---- the problem for the solver ---- */

/* Arrows to operation @number from every operation it comes after, also through hand steps. */
static void
draw_arrows (const Sequence *self, int number, GArray *arrows)
{
  g_autofree gboolean *seen = g_new0 (gboolean, self->plan->n_steps);
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (int));
  int step = (int) g_array_index (self->operations, gsize, number);

  g_array_append_val (open, step);
  while (open->len > 0)
    {
      int current = g_array_index (open, int, open->len - 1);

      g_array_set_size (open, open->len - 1);
      for (guint i = 0; i < self->after[current]->len; i++)
        {
          int before = g_array_index (self->after[current], int, i);

          if (seen[before] || self->done[before])
            continue;
          seen[before] = TRUE;
          if (self->numbers[before] < 0)
            g_array_append_val (open, before);
          else
            g_array_append_val (arrows, ((HwOrderArrow) { self->numbers[before], number }));
        }
    }
}

static GArray *
list_arrows (const Sequence *self)
{
  GArray *arrows = g_array_new (FALSE, FALSE, sizeof (HwOrderArrow));

  for (guint i = 0; i < self->operations->len; i++)
    draw_arrows (self, (int) i, arrows);
  return arrows;
}

/* Set-ups that differ in any part, hard or soft; writes the one of each operation. */
static GArray *
list_setups (const Sequence *self, int *setup_of)
{
  GArray *setups = g_array_new (FALSE, FALSE, sizeof (HwMounted));

  for (guint i = 0; i < self->operations->len; i++)
    {
      HwMounted mounted = hw_mounted_from_setup (self->plan->setups[g_array_index (self->operations, gsize, i)]);
      guint known = 0;

      while (known < setups->len && !hw_mounted_same (&g_array_index (setups, HwMounted, known), &mounted))
        known++;
      if (known == setups->len)
        g_array_append_val (setups, mounted);
      setup_of[i] = (int) known;
    }
  return setups;
}

static int *
solve_order (Sequence *self, guint max_states)
{
  const HwChangeCosts *costs = &self->plan->handbook->changes;
  gsize n_machines = self->machines->len;
  g_autoptr (GArray) arrows = list_arrows (self);
  g_autofree int *setup_of = g_new0 (int, self->operations->len + 1);
  g_autoptr (GArray) setups = list_setups (self, setup_of);
  gsize n = setups->len;
  g_autofree int *machine = g_new0 (int, n + 1);
  g_autofree int *entry = g_new0 (int, n + 1);
  g_autofree int *change = g_new0 (int, n * n + 1);
  g_autofree int *walk = g_new0 (int, n_machines * n_machines + 1);
  g_autoptr (HwOrderResult) result = NULL;
  const HwOrderArrow *arrow_list = (const HwOrderArrow *) (const void *) arrows->data;
  HwOrderProblem problem = { self->operations->len, setup_of, arrows->len, arrow_list, n, machine, change, entry,
                             n_machines, walk, self->at, NULL, NULL, 0, NULL };

  for (gsize to = 0; to < n; to++)
    {
      const HwMounted *mounted = &g_array_index (setups, HwMounted, to);

      machine[to] = number_machine (self, mounted->machine);
      entry[to] = hw_changes_cost (costs, &self->standing[machine[to]], mounted);
      for (gsize from = 0; from < n; from++)
        change[from * n + to] = hw_changes_cost (costs, &g_array_index (setups, HwMounted, from), mounted);
    }
  for (gsize i = 0; i < n_machines * n_machines; i++)
    walk[i] = hw_changes_walk (costs);
  result = hw_order_solve (&problem, max_states);
  g_return_val_if_fail (result != NULL, NULL);      /* a project has no circles */
  self->plan->proved = result->proved;
  return g_steal_pointer (&result->order);
}

/* ---- hand steps in their places ---- */

static gboolean
may_follow (const Sequence *self, gsize step, const gboolean *placed)
{
  for (guint i = 0; i < self->after[step]->len; i++)
    {
      int before = g_array_index (self->after[step], int, i);

      if (!placed[before] && !self->done[before])
        return FALSE;
    }
  return TRUE;
}

static void
place_step (gsize step, gboolean *placed, GArray *steps)
{
  placed[step] = TRUE;
  g_array_append_val (steps, step);
}

/* Hand steps that may be done now: those that come after something, and of the others those listed
 * before @next. One may let another follow, so the list is gone through until nothing is added. */
static void
place_hand_steps (const Sequence *self, gsize next, gboolean *placed, GArray *steps)
{
  gboolean added = TRUE;

  while (added)
    {
      added = FALSE;
      for (gsize i = 0; i < self->plan->n_steps; i++)
        if (self->plan->setups[i] == NULL && !self->done[i] && !placed[i] && may_follow (self, i, placed)
            && (self->after[i]->len > 0 || i < next))
          {
            place_step (i, placed, steps);
            added = TRUE;
          }
    }
}

/* What @next still waits for, hand steps all, earliest first. */
static void
place_needed (const Sequence *self, gsize next, gboolean *placed, GArray *steps)
{
  while (!may_follow (self, next, placed))
    {
      gsize current = next;

      /* Down the arrows to a step that can be done at once. */
      do
        {
          gsize waits_for = current;

          for (guint i = 0; i < self->after[current]->len; i++)
            {
              gsize before = (gsize) g_array_index (self->after[current], int, i);

              if (!placed[before] && !self->done[before])
                waits_for = MIN (waits_for == current ? G_MAXSIZE : waits_for, before);
            }
          current = waits_for;
        }
      while (!may_follow (self, current, placed));
      place_step (current, placed, steps);
    }
}

/* All steps not done, hand steps among the operations in @order. */
static GArray *
merge_hand_steps (const Sequence *self, const int *order)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (gsize));
  g_autofree gboolean *placed = g_new0 (gboolean, self->plan->n_steps + 1);

  for (guint i = 0; i < self->operations->len; i++)
    {
      gsize next = g_array_index (self->operations, gsize, order[i]);

      place_hand_steps (self, next, placed, steps);
      place_needed (self, next, placed, steps);
      place_step (next, placed, steps);
    }
  place_hand_steps (self, self->plan->n_steps, placed, steps);
  return steps;
}

/* ---- walking along an order ---- */

typedef struct
{
  const Sequence *sequence;
  HwMounted      *mounted;     /* [machines] */
  int             at;
  HwChangeTotals  totals;
} Walk;

static void
walk_init (Walk *self, Sequence *sequence, const HwMounted *standing, int at)
{
  *self = (Walk) { .sequence = sequence, .at = at };
  self->mounted = g_new0 (HwMounted, sequence->machines->len + 1);
  for (guint m = 0; m < sequence->machines->len; m++)
    self->mounted[m] = standing != NULL ? standing[m]
                                        : (HwMounted) { .machine = g_ptr_array_index (sequence->machines, m) };
}

/* Mounts @next; returns the changes and adds them up. */
static guint
walk_to (Walk *self, const HwMounted *next, double *minutes)
{
  const HwChangeCosts *costs = &self->sequence->plan->handbook->changes;
  int machine = number_machine ((Sequence *) self->sequence, next->machine);
  guint changes = hw_changes_between (&self->mounted[machine], next);
  int cost = hw_changes_cost (costs, &self->mounted[machine], next);

  if (self->at >= 0 && self->at != machine)
    {
      changes |= HW_CHANGE_MACHINE;
      cost += hw_changes_walk (costs);
    }
  self->at = machine;
  self->mounted[machine] = *next;
  *minutes = cost / 1000.0;
  self->totals.change_minutes += *minutes;
  self->totals.needle_changes += changes & HW_CHANGE_NEEDLE ? 1 : 0;
  self->totals.thread_changes += changes & (HW_CHANGE_THREAD | HW_CHANGE_BOBBIN) ? 1 : 0;
  self->totals.foot_changes += changes & HW_CHANGE_FOOT ? 1 : 0;
  self->totals.machine_changes += changes & HW_CHANGE_MACHINE ? 1 : 0;
  self->totals.changes += changes & ~(guint) (HW_CHANGE_SOFT | HW_CHANGE_MACHINE) ? 1 : 0;
  return changes;
}

static void
append_step (Walk *walk, gsize index, gboolean done)
{
  HwPlan *plan = walk->sequence->plan;
  HwPlanStep step = { .step = index, .group = -1, .done = done };

  if (plan->setups[index] != NULL)
    {
      HwMounted mounted = hw_mounted_from_setup (plan->setups[index]);

      step.changes = walk_to (walk, &mounted, &step.change_minutes);
    }
  g_array_append_val (plan->order, step);
}

/* ---- done steps ---- */

typedef struct { gsize step; const char *time; } Done;

static int
compare_done_cb (gconstpointer a, gconstpointer b)
{
  const Done *x = a;
  const Done *y = b;
  int times = g_strcmp0 (x->time, y->time);

  return times != 0 ? times : x->step < y->step ? -1 : x->step > y->step;
}

static void
append_done (Sequence *self)
{
  HwPlan *plan = self->plan;
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (Done));
  Walk walk;

  for (gsize i = 0; i < plan->n_steps; i++)
    if (self->done[i])
      {
        const HwStep *step = hw_project_get_step (plan->project, i);
        Done done = { i, hw_room_step_done (plan->room, plan->project->id, step->number)->time };

        g_array_append_val (list, done);
      }
  g_array_sort (list, compare_done_cb);
  walk_init (&walk, self, NULL, -1);
  for (guint i = 0; i < list->len; i++)
    append_step (&walk, g_array_index (list, Done, i).step, TRUE);
  g_free (walk.mounted);
}

static void
total_as_listed (Sequence *self, const HwMounted *preferred)
{
  g_autoptr (GArray) arrows = list_arrows (self);
  const HwOrderArrow *arrow_list = (const HwOrderArrow *) (const void *) arrows->data;
  g_autofree int *order = hw_order_as_listed (self->operations->len, arrow_list, arrows->len);
  Walk walk;

  g_return_if_fail (order != NULL);
  walk_init (&walk, self, self->standing, self->at);
  for (guint i = 0; i < self->operations->len; i++)
    {
      double minutes;

      walk_to (&walk, &preferred[g_array_index (self->operations, gsize, order[i])], &minutes);
    }
  self->plan->as_listed = walk.totals;
  g_free (walk.mounted);
}

void
hw_plan_put_in_order (HwPlan *plan, const HwMounted *preferred, guint max_states)
{
  Sequence self;
  Walk walk;
  g_autofree int *order = NULL;
  g_autoptr (GArray) steps = NULL;

  sequence_init (&self, plan);
  append_done (&self);
  total_as_listed (&self, preferred);
  order = solve_order (&self, max_states);
  steps = merge_hand_steps (&self, order);
  plan->next = steps->len > 0 ? (int) plan->order->len : -1;
  walk_init (&walk, &self, self.standing, self.at);
  for (guint i = 0; i < steps->len; i++)
    append_step (&walk, g_array_index (steps, gsize, i), FALSE);
  plan->as_ordered = walk.totals;
  g_free (walk.mounted);
  sequence_clear (&self);
}
