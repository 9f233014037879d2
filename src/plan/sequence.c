/* sequence.c - puts the steps of a project in order, with the changes between them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Steps done come first, as the journal has them. The operations left are ordered by order.h; a hand
 * step costs no change, so arrows are drawn through it and it is put in afterwards (hand-steps.c). Where the
 * person wants pressing gathered, the iron is one machine more, with nothing to change on it, and pressing an
 * operation. What the person wishes is arrows and steps kept together (wish-arrows.c).
 */

#include "config.h"

#include "plan/order-together.h"
#include "plan/plan-private.h"
#include "plan/sequence-private.h"
#include "plan/share.h"

#include <string.h>

#define ISO_DAY 10                       /* letters of 2031-05-09 */

typedef HwSequence Sequence;

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

static gboolean
is_ironing (const Sequence *self, const char *number)
{
  int step = number != NULL ? hw_project_find_step (self->plan->project, number) : -1;

  return step >= 0 && hw_sequence_is_ironing (hw_project_get_step (self->plan->project, (gsize) step));
}

/* The machine of the last of the first @n_entries that happened at one of the project's machines, or at the iron where
 * that counts. */
static int
find_place (const Sequence *self, guint n_entries)
{
  const HwRoom *room = self->plan->room;

  for (guint i = n_entries; i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if ((entry->kind != HW_ENTRY_SEWING && entry->kind != HW_ENTRY_LOAD)
          || g_hash_table_contains (room->cancelled, entry->id))
        continue;
      if (g_strcmp0 (entry->machine, HW_HAND) == 0)
        {
          if (self->plan->project->gather_hand && is_ironing (self, entry->step)
              && g_strcmp0 (entry->project, self->plan->project->id) == 0)
            return (int) self->machines->len;
          continue;
        }
      for (guint m = 0; m < self->machines->len; m++)
        if (g_strcmp0 (((const HwMachine *) g_ptr_array_index (self->machines, m))->id, entry->machine) == 0)
          return (int) m;
      return -1;
    }
  return -1;
}

/* @places: number of a step -> its index */
static GArray *
list_after (GHashTable *places, const HwStep *step)
{
  GArray *after = g_array_new (FALSE, FALSE, sizeof (int));

  for (char **number = step->after; number != NULL && *number != NULL; number++)
    {
      gpointer place;

      if (g_hash_table_lookup_extended (places, *number, NULL, &place))
        {
          int index = GPOINTER_TO_INT (place);
          g_array_append_val (after, index);
        }
    }
  return after;
}

/* (transfer full): the first of a number counts. */
static GHashTable *
list_places (const HwProject *project)
{
  GHashTable *places = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = project->steps->len; i-- > 0;)
    g_hash_table_insert (places, hw_project_get_step (project, i)->number, GINT_TO_POINTER ((int) i));
  return places;
}

/* As the first @n_entries of the journal have it; steps done are left to do where those are not all. */
static void
sequence_init (Sequence *self, HwPlan *plan, guint n_entries)
{
  g_autoptr (GHashTable) places = list_places (plan->project);
  gboolean is_now = n_entries == plan->room->entries->len;

  memset (self, 0, sizeof *self);
  self->plan = plan;
  self->done = g_new0 (gboolean, plan->n_steps + 1);
  self->after = g_new0 (GArray *, plan->n_steps + 1);
  self->waits = g_new0 (gboolean, plan->n_steps + 1);
  self->numbers = g_new0 (int, plan->n_steps + 1);
  self->unit = g_new0 (int, plan->n_steps + 1);
  self->units = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  self->operations = g_array_new (FALSE, FALSE, sizeof (gsize));
  self->machines = g_ptr_array_new ();
  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwStep *step = hw_project_get_step (plan->project, i);

      self->done[i] = is_now && hw_room_step_done (plan->room, plan->project->id, step->number) != NULL;
      self->after[i] = list_after (places, step);
      self->waits[i] = self->after[i]->len > 0;
      self->numbers[i] = -1;
      self->unit[i] = -1;
      if (plan->setups[i] == NULL && !(plan->project->gather_hand && hw_sequence_is_ironing (step)))
        continue;
      if (plan->setups[i] != NULL)
        number_machine (self, plan->setups[i]->machine);
      if (self->done[i])
        continue;
      self->numbers[i] = (int) self->operations->len;
      g_array_append_val (self->operations, i);
    }
  self->standing = g_new0 (HwMounted, self->machines->len + 1);
  for (guint m = 0; m < self->machines->len; m++)
    self->standing[m] = hw_mounted_then (plan, g_ptr_array_index (self->machines, m), n_entries);
  self->at = find_place (self, n_entries);
}

static void
sequence_clear (Sequence *self)
{
  for (gsize i = 0; i < self->plan->n_steps; i++)
    g_array_unref (self->after[i]);
  g_free (self->after);
  g_free (self->done);
  g_free (self->waits);
  g_free (self->numbers);
  g_free (self->unit);
  g_ptr_array_unref (self->units);
  g_free (self->standing);
  g_free (self->keep);
  g_array_unref (self->operations);
  g_ptr_array_unref (self->machines);
}

/* ---- the problem for the solver ---- */

/* Arrows to operation @number from every operation it comes after, also through hand steps. @seen: for whom each step
 * was met last, as number + 1. */
static void
draw_arrows (const Sequence *self, int number, int *seen, GArray *arrows)
{
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

          if (seen[before] == number + 1 || self->done[before])
            continue;
          seen[before] = number + 1;
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
  g_autofree int *seen = g_new0 (int, self->plan->n_steps + 1);
  GArray *arrows = g_array_new (FALSE, FALSE, sizeof (HwOrderArrow));

  for (guint i = 0; i < self->operations->len; i++)
    draw_arrows (self, (int) i, seen, arrows);
  return arrows;
}

/* What step @index wants on its machine; without a machine: the iron. */
static HwMounted
wanted_at (const Sequence *self, gsize index)
{
  const HwSetup *setup = self->plan->setups[index];

  return setup != NULL ? hw_mounted_from_setup (setup) : (HwMounted) { .machine = NULL };
}

static int
place_of (Sequence *self, const HwMounted *mounted)
{
  return mounted->machine != NULL ? number_machine (self, mounted->machine) : (int) self->machines->len;
}

static gboolean
is_same (const HwMounted *a, const HwMounted *b)
{
  return a->machine == NULL || b->machine == NULL ? a->machine == b->machine : hw_mounted_same (a, b);
}

/* Set-ups that differ in any part, hard or soft; writes the one of each operation. */
static GArray *
list_setups (const Sequence *self, int *setup_of)
{
  GArray *setups = g_array_new (FALSE, FALSE, sizeof (HwMounted));

  for (guint i = 0; i < self->operations->len; i++)
    {
      HwMounted mounted = wanted_at (self, g_array_index (self->operations, gsize, i));
      guint known = 0;

      while (known < setups->len && !is_same (&g_array_index (setups, HwMounted, known), &mounted))
        known++;
      if (known == setups->len)
        g_array_append_val (setups, mounted);
      setup_of[i] = (int) known;
    }
  return setups;
}

/* The operations of each unit, for the solver; @members holds them. */
static GArray *
list_runs (const Sequence *self, int *members)
{
  GArray *runs = g_array_new (FALSE, FALSE, sizeof (HwOrderRun));

  for (guint u = 0; u < self->units->len; u++)
    {
      const GArray *unit = g_ptr_array_index (self->units, u);
      HwOrderRun run = { 0, members };

      for (guint i = 0; i < unit->len; i++)
        if (self->numbers[g_array_index (unit, gsize, i)] >= 0)
          members[run.n_members++] = self->numbers[g_array_index (unit, gsize, i)];
      members += run.n_members;
      if (run.n_members > 1)
        g_array_append_val (runs, run);
    }
  return runs;
}

/* What the solver is asked, and the arrays that it borrows. */
typedef struct
{
  HwOrderProblem problem;
  GArray *arrows, *runs;
  int    *members, *machine, *entry, *change, *walk;
} Question;

static void
question_clear (Question *self)
{
  g_array_unref (self->arrows);
  g_array_unref (self->runs);
  g_free (self->members);
  g_free (self->machine);
  g_free (self->entry);
  g_free (self->change);
  g_free (self->walk);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Question, question_clear)

static void
fill_costs (Sequence *self, Question *question, const GArray *setups)
{
  const HwChangeCosts *costs = &self->plan->costs;
  gsize n = setups->len;

  for (gsize to = 0; to < n; to++)
    {
      const HwMounted *mounted = &g_array_index (setups, HwMounted, to);

      question->machine[to] = place_of (self, mounted);
      if (mounted->machine == NULL)
        continue;
      question->entry[to] = hw_changes_cost (costs, &self->standing[question->machine[to]], mounted);
      for (gsize from = 0; from < n; from++)
        if (g_array_index (setups, HwMounted, from).machine == mounted->machine)
          question->change[from * n + to] = hw_changes_cost (costs, &g_array_index (setups, HwMounted, from), mounted);
    }
  for (gsize i = 0; i < question->problem.n_machines * question->problem.n_machines; i++)
    question->walk[i] = hw_changes_walk (costs);
}

/* @setup: which of @setups each operation prefers. */
static void
question_init (Question *self, Sequence *sequence, const GArray *setups, const int *setup)
{
  gsize n = setups->len;
  gsize n_machines = sequence->machines->len + (sequence->plan->project->gather_hand ? 1 : 0);

  self->arrows = list_arrows (sequence);
  self->members = g_new0 (int, sequence->operations->len + 1);
  self->runs = list_runs (sequence, self->members);
  self->machine = g_new0 (int, n + 1);
  self->entry = g_new0 (int, n + 1);
  self->change = g_new0 (int, n * n + 1);
  self->walk = g_new0 (int, n_machines * n_machines + 1);
  self->problem = (HwOrderProblem) {
    .n_operations = sequence->operations->len,
    .setup = setup,
    .n_arrows = self->arrows->len,
    .arrows = (const HwOrderArrow *) (const void *) self->arrows->data,
    .n_setups = n,
    .machine = self->machine,
    .change = self->change,
    .entry = self->entry,
    .n_machines = n_machines,
    .walk = self->walk,
    .at = sequence->at,
    .closed = TRUE,                      /* a change is the sum of its parts */
  };
  fill_costs (sequence, self, setups);
}

/* Would all the effort that a proof is allowed find the same? A search that closed early went the same way as a longer
 * one does; with runs it is begun anew with more effort. */
static gboolean
is_final (const Question *question, const HwPlanEffort *effort, const HwOrderResult *result)
{
  if (!result->proved || (effort->cancelled != NULL && g_atomic_int_get (effort->cancelled) != 0))
    return FALSE;
  return effort->max_states >= HW_PLAN_PROOF_STATES || (result->nearest && question->runs->len == 0);
}

/* Searches, or remembers; the order of @keep stays where no other is cheaper. Writes whether more effort would find the
 * same. */
static HwOrderResult *
ask (const Question *question, HwPlan *plan, const int *keep, const HwPlanEffort *effort, gboolean *final)
{
  const HwOrderRun *runs = (const HwOrderRun *) (const void *) question->runs->data;
  HwOrderLimits limits = { .max_states = effort->max_states, .cancelled = effort->cancelled };
  g_autoptr (GBytes) key = effort->memory == NULL
                             ? NULL : hw_order_question (&question->problem, runs, question->runs->len, keep);
  HwOrderResult *result = key != NULL ? hw_order_memory_recall (effort->memory, key) : NULL;

  *final = result != NULL;
  if (result != NULL)
    return result;
  result = hw_order_solve_together (&question->problem, runs, question->runs->len, &limits);
  if (result == NULL)
    return NULL;
  plan->n_states += result->n_states;
  *final = is_final (question, effort, result);
  if (keep != NULL)
    hw_order_keep (&question->problem, keep, result);
  if (*final && key != NULL)
    hw_order_memory_keep (effort->memory, key, result);
  return result;
}

/* The best order of the preferred set-ups. */
static HwOrderResult *
order_unshared (Sequence *self, const HwPlanEffort *effort, gboolean *final)
{
  g_auto (Question) question = { .arrows = NULL };
  g_autofree int *setup = g_new0 (int, self->operations->len + 1);
  g_autoptr (GArray) setups = list_setups (self, setup);

  question_init (&question, self, setups, setup);
  return ask (&question, self->plan, self->keep, effort, final);
}

/* The best order with set-ups shared inside their bands; NULL when @unshared is as good. */
static HwOrderResult *
order_shared (Sequence *self, const HwSharing *sharing, const HwOrderResult *unshared, const HwPlanEffort *effort,
              gboolean *final)
{
  g_auto (Question) question = { .arrows = NULL };
  HwOrderResult *result;

  question_init (&question, self, sharing->setups, sharing->prefer);
  question.problem.accept = sharing->accept;
  question.problem.distance = sharing->distance;
  question.problem.n_core = sharing->n_core;
  question.problem.first = unshared->order;
  result = ask (&question, self->plan, self->keep, effort, final);
  if (result != NULL && result->cost <= unshared->cost)
    return result;
  g_clear_pointer (&result, hw_order_result_free);
  return NULL;
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
  const HwChangeCosts *costs = &self->sequence->plan->costs;
  int machine = place_of ((Sequence *) self->sequence, next);
  guint changes = next->machine != NULL ? hw_changes_between (&self->mounted[machine], next) : 0;
  int cost = next->machine != NULL ? hw_changes_cost (costs, &self->mounted[machine], next) : 0;

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

  if (plan->setups[index] != NULL
      || (plan->project->gather_hand && hw_sequence_is_ironing (hw_project_get_step (plan->project, index))))
    {
      HwMounted mounted = wanted_at (walk->sequence, index);

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

/* What @order comes to with the set-ups as they are. */
static HwChangeTotals
total_of (Sequence *self, const int *order)
{
  Walk walk;

  walk_init (&walk, self, self->standing, self->at);
  for (guint i = 0; i < self->operations->len; i++)
    {
      HwMounted mounted = wanted_at (self, g_array_index (self->operations, gsize, order[i]));
      double minutes;

      walk_to (&walk, &mounted, &minutes);
    }
  g_free (walk.mounted);
  return walk.totals;
}

static void
total_as_listed (Sequence *self)
{
  g_autoptr (GArray) arrows = list_arrows (self);
  const HwOrderArrow *arrow_list = (const HwOrderArrow *) (const void *) arrows->data;
  g_autofree int *order = hw_order_as_listed (self->operations->len, arrow_list, arrows->len);

  g_return_if_fail (order != NULL);
  self->plan->as_listed = total_of (self, order);
}

/* ---- the best order ---- */

/* Done steps as the journal says that they were sewn, not as they might be shared now. */
static void
take_sewn (HwPlan *plan)
{
  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwStep *step = hw_project_get_step (plan->project, i);
      const HwJournalEntry *entry = plan->setups[i] == NULL
                                      ? NULL : hw_room_step_done (plan->room, plan->project->id, step->number);

      if (entry != NULL)
        hw_setup_take_sewn (plan, i, entry);
    }
}

static void
take_choices (Sequence *self, HwSharing *sharing, const HwOrderResult *result)
{
  for (guint i = 0; i < self->operations->len; i++)
    hw_sharing_take (sharing, i, result->setup[i]);
  /* What stands on a machine is told by the threads of the set-ups, which may be others now. */
  for (guint m = 0; m < self->machines->len; m++)
    self->standing[m] = hw_mounted_now (self->plan, g_ptr_array_index (self->machines, m));
  hw_sequence_settle_dials (self, result->order);
}

static void
note_proof (HwPlan *plan, const HwOrderResult *result, gboolean final)
{
  plan->proved = result->proved;
  plan->settled = final;
  plan->bound_minutes = result->bound / 1000.0;
}

/* (transfer full): the operations in order; the plan's set-ups are moved to those shared. */
static int *
find_order (Sequence *self, const HwPlanEffort *effort)
{
  HwPlan *plan = self->plan;
  gboolean final, shared_final;
  g_autoptr (HwOrderResult) unshared = order_unshared (self, effort, &final);
  g_autoptr (HwSharing) sharing = NULL;
  g_autoptr (HwOrderResult) shared = NULL;

  g_return_val_if_fail (unshared != NULL, NULL);    /* a project has no circles */
  plan->as_ordered_unshared = total_of (self, unshared->order);
  note_proof (plan, unshared, final);
  if (!plan->project->share)
    return g_steal_pointer (&unshared->order);

  sharing = hw_sharing_new (plan, self->operations, self->machines, self->standing);
  if (sharing != NULL)
    shared = order_shared (self, sharing, unshared, effort, &shared_final);
  if (shared == NULL)
    {
      plan->proved = plan->settled = FALSE;    /* of the set-ups preferred, not of all that their bands allow */
      plan->bound_minutes = 0;
      return g_steal_pointer (&unshared->order);
    }
  note_proof (plan, shared, final && shared_final);
  take_choices (self, sharing, shared);
  return g_steal_pointer (&shared->order);
}

/* ---- the order once begun ---- */

/* The place in the journal of the first of this project's sewing that stands. */
static guint
find_begun (const HwPlan *plan)
{
  const HwRoom *room = plan->room;

  for (guint i = 0; i < room->entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if (entry->kind == HW_ENTRY_SEWING && g_strcmp0 (entry->project, plan->project->id) == 0
          && !g_hash_table_contains (room->cancelled, entry->id))
        return i;
    }
  return room->entries->len;
}

/* How many entries there were before this project was begun: before its first sewing, and what was loaded for it, right
 * before it and on the same day. */
static guint
count_before_begun (const HwPlan *plan)
{
  const GPtrArray *entries = plan->room->entries;
  guint            n = find_begun (plan);

  if (n == entries->len)
    return n;
  for (const char *day = ((const HwJournalEntry *) g_ptr_array_index (entries, n))->time; n > 0; n--)
    {
      const HwJournalEntry *before = g_ptr_array_index (entries, n - 1);

      if (before->kind != HW_ENTRY_LOAD || strncmp (before->time, day, ISO_DAY) != 0)
        break;
    }
  return n;
}

/* The steps in the order that they had before anything was sewn. What is left of it is kept where no other order takes
 * less changing, so that work goes on as it was begun and cards stay true. To be asked before sewn steps take what they
 * were sewn with. (transfer full) (element-type gsize); NULL: nothing was sewn. */
static GArray *
find_order_begun (HwPlan *plan, const HwPlanEffort *effort)
{
  guint n_entries;
  GArray *steps = NULL;
  Sequence self;
  gboolean final;
  g_autoptr (HwOrderResult) unshared = NULL;
  g_autoptr (HwOrderResult) shared = NULL;
  g_autoptr (HwSharing) sharing = NULL;
  const HwOrderResult *result;

  if (hw_room_count_done (plan->room, plan->project) == 0)
    return NULL;                         /* without a look through the whole journal */
  n_entries = count_before_begun (plan);
  if (n_entries == plan->room->entries->len)
    return NULL;
  sequence_init (&self, plan, n_entries);
  hw_sequence_add_wishes (&self);
  unshared = order_unshared (&self, effort, &final);
  if (unshared != NULL && plan->project->share)
    sharing = hw_sharing_new (plan, self.operations, self.machines, self.standing);
  if (sharing != NULL)
    shared = order_shared (&self, sharing, unshared, effort, &final);
  result = shared != NULL ? shared : unshared;
  steps = g_array_new (FALSE, FALSE, sizeof (gsize));
  for (guint i = 0; result != NULL && i < self.operations->len; i++)
    g_array_append_val (steps, g_array_index (self.operations, gsize, result->order[i]));
  sequence_clear (&self);
  return steps;
}

/* @begun, steps, as operations that are left. */
static void
keep_order (Sequence *self, const GArray *begun)
{
  guint n = 0;

  if (begun == NULL)
    return;
  self->keep = g_new0 (int, self->operations->len + 1);
  for (guint i = 0; i < begun->len; i++)
    {
      int number = self->numbers[g_array_index (begun, gsize, i)];

      if (number >= 0)
        self->keep[n++] = number;
    }
  g_return_if_fail (n == self->operations->len);
}

void
hw_plan_put_in_order (HwPlan *plan, const HwPlanEffort *effort)
{
  Sequence self;
  Walk walk;
  g_autofree int *order = NULL;
  g_autoptr (GArray) begun = find_order_begun (plan, effort);
  g_autoptr (GArray) steps = NULL;

  take_sewn (plan);
  sequence_init (&self, plan, plan->room->entries->len);
  keep_order (&self, begun);
  append_done (&self);
  total_as_listed (&self);
  hw_sequence_add_wishes (&self);
  order = find_order (&self, effort);
  steps = hw_sequence_merge (&self, order);
  plan->next = steps->len > 0 ? (int) plan->order->len : -1;
  walk_init (&walk, &self, self.standing, self.at);
  for (guint i = 0; i < steps->len; i++)
    append_step (&walk, g_array_index (steps, gsize, i), FALSE);
  plan->as_ordered = walk.totals;
  g_free (walk.mounted);
  sequence_clear (&self);
}
