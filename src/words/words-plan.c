/* words-plan.c - changes, needles to load, care that falls due
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "plan/changes.h"

/* ---- headings of blocks ---- */

static const HwPlanStep *
get_order (const HwPlan *plan, gsize index)
{
  return &g_array_index (plan->order, HwPlanStep, index);
}

/* Is it sewn on several? A heading then names its own. */
static gboolean
takes_machines (const HwPlan *plan)
{
  return plan->hours->len > 1;
}

/* The name begins the line, so that it stays as the person wrote it. */
static char *
say_on_machine (const HwPlan *plan, const HwGroup *group, const char *text)
{
  g_autofree char *inside = NULL;

  if (!takes_machines (plan))
    return g_strdup (text);
  inside = hw_words_inside (text);
  /* Translators: a machine's name, what to alter on it or what was sewn with */
  return g_strdup_printf (C_("another machine", "%s: %s"), group->machine->name, inside);
}

/* Was anything before @step in the order sewn on @machine? */
/* The set-up sewn with before @step on its machine; NULL: this is the first of the plan. */
static const HwSetup *
find_setup_before (const HwPlan *plan, const HwPlanStep *step, const HwMachine *machine)
{
  const HwSetup *before = NULL;

  for (gsize i = 0; i < plan->order->len && get_order (plan, i)->step != step->step; i++)
    {
      const HwGroup *group = hw_plan_get_group (plan, get_order (plan, i)->group);

      if (group != NULL && group->machine == machine)
        before = plan->setups[get_order (plan, i)->step];
    }
  return before;
}

static char *
say_group_foot (const HwPlan *plan, const HwGroup *group)
{
  g_autofree char *name = hw_words_foot (plan->handbook, group->foot);

  return hw_words_inside (name);
}

static char *
say_group_needle (const HwPlan *plan, const HwGroup *group)
{
  return hw_words_needle (plan->handbook, group->point, group->size_nm, group->twin_mm);
}

static char *
say_group_thread (const HwThreadChoice *thread)
{
  const char *colour = hw_words_thread_colour (thread);
  g_autofree char *tex = hw_words_number (thread->tex, 0);

  if (colour == NULL)
    return hw_words_thread (thread);
  /* Translators: a thread: colour, size */
  return g_strdup_printf (_("%s tex %s"), colour, tex);
}

/* Set otherwise than @before; NULL: all is set. */
static gboolean
is_set_anew (const HwSetup *setup, const HwSetup *before, HwField field)
{
  const HwValue *own = &setup->values[field];

  return own->applies && (before == NULL || !before->values[field].applies
                          || fabs (own->value - before->values[field].value) > 1e-6);
}

static void
add_length (GPtrArray *parts, const HwSetup *setup, gboolean named)
{
  g_autofree char *mm = hw_words_mm (setup->values[HW_FIELD_LENGTH].value);

  /* Translators: a stitch length in mm */
  g_ptr_array_add (parts, named ? g_strdup_printf (_("length %s"), mm) : g_steal_pointer (&mm));
}

static gboolean
is_any_set_anew (const HwSetup *setup, const HwSetup *before)
{
  static const HwField told[] = {
    HW_FIELD_LENGTH, HW_FIELD_WIDTH, HW_FIELD_DIFFERENTIAL, HW_FIELD_DIAL, HW_FIELD_PRESSURE
  };

  for (gsize i = 0; i < G_N_ELEMENTS (told); i++)
    if (is_set_anew (setup, before, told[i]))
      return TRUE;
  return FALSE;
}

/* @before: only what is set otherwise than there, told by name; NULL: all of it, for it is set anew. */
static void
add_length_and_dial (GPtrArray *parts, const HwSetup *setup, const HwSetup *before)
{
  const HwValue *width = &setup->values[HW_FIELD_WIDTH];
  const HwValue *differential = &setup->values[HW_FIELD_DIFFERENTIAL];
  const HwValue *dial = &setup->values[HW_FIELD_DIAL];

  if (is_set_anew (setup, before, HW_FIELD_LENGTH))
    add_length (parts, setup, before != NULL);
  if ((width->value > 0 || before != NULL) && is_set_anew (setup, before, HW_FIELD_WIDTH))
    g_ptr_array_add (parts, hw_words_width (setup));
  if (is_set_anew (setup, before, HW_FIELD_DIFFERENTIAL))
    {
      g_autofree char *feed = hw_words_fixed (differential->value, 1);

      /* Translators: the overlocker's differential feed, such as 1.0 */
      g_ptr_array_add (parts, g_strdup_printf (_("differential %s"), feed));
    }
  if (is_set_anew (setup, before, HW_FIELD_DIAL))
    {
      g_autofree char *number = hw_words_half (dial->value);

      /* Translators: the number to set on all the dials of an overlocker; the number to set on the dial */
      g_ptr_array_add (parts, g_strdup_printf (setup->stitch->dials > 1 ? _("dials %s") : _("dial %s"), number));
    }
  if (before != NULL && is_set_anew (setup, before, HW_FIELD_PRESSURE))
    {
      g_autofree char *pressure = hw_words_pressure (setup->values[HW_FIELD_PRESSURE].value);

      g_ptr_array_add (parts, g_strdup_printf (_("pressure %s"), pressure));
    }
}

static void
add_shared_parts (GPtrArray *parts, const HwPlan *plan, const HwGroup *group, guint changes, const HwSetup *setup,
                  const HwSetup *before)
{
  if ((changes & HW_CHANGE_BOBBIN) != 0 && setup->stitch->bobbin)
    {
      g_autofree char *thread = say_group_thread (group->bobbin_thread);

      /* Translators: a thread */
      g_ptr_array_add (parts, g_strdup_printf (_("bobbin %s"), thread));
    }
  if ((changes & HW_CHANGE_FOOT) != 0 && group->foot >= 0)
    g_ptr_array_add (parts, say_group_foot (plan, group));
  if ((changes & HW_CHANGE_PLATE) != 0 && group->plate >= 0)
    g_ptr_array_add (parts, hw_words_inside (plan->handbook->plates[group->plate].entry.name));
  if ((changes & HW_CHANGE_STITCH) != 0)
    g_ptr_array_add (parts, hw_words_stitch (setup));
  add_length_and_dial (parts, setup, before);
}

/* What to alter, the needle first; every change ends with length and dial, for they are set anew each time. Where they
 * are all, they are “set”, those that differ: that is no change among those that are counted. */
static char *
say_alterations (const HwPlan *plan, const HwGroup *group, const HwPlanStep *step, const HwSetup *setup)
{
  guint changes = step->changes;
  gboolean soft_alone = (changes & ~(guint) (HW_CHANGE_SOFT | HW_CHANGE_MACHINE)) == 0;
  const HwSetup *before = soft_alone ? find_setup_before (plan, step, group->machine) : NULL;
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);
  gboolean needle = (changes & HW_CHANGE_NEEDLE) != 0;
  gboolean thread = (changes & HW_CHANGE_THREAD) != 0;
  g_autofree char *list = NULL;

  if (needle)
    g_ptr_array_add (parts, say_group_needle (plan, group));
  if (thread)
    g_ptr_array_add (parts, say_group_thread (group->needle_thread));
  /* What stands on the machine may have been noted since, and be other than the step before left it. */
  if (before != NULL && !is_any_set_anew (setup, before))
    before = NULL;
  add_shared_parts (parts, plan, group, changes, setup, before);
  list = hw_words_list (g_steal_pointer (&parts));
  if (needle)
    /* Translators: needle, then what else to alter */
    return g_strdup_printf (_("Load %s"), list);
  if (thread)
    /* Translators: thread, then what else to alter */
    return g_strdup_printf (_("Thread with %s"), list);
  if (!soft_alone)
    /* Translators: what to change: bobbin, foot, plate or stitch; then the length and dial to set with it */
    return g_strdup_printf (_("Change to %s"), list);
  /* Translators: what to set: length, width, dial */
  return g_strdup_printf (_("Set %s"), list);
}

/* What is on the machine, whatever was altered to get there, but for some of it. */
static GPtrArray *
list_hard_parts (const HwPlan *plan, const HwGroup *group, guint but)
{
  GPtrArray *parts = g_ptr_array_new_with_free_func (g_free);

  if ((but & HW_CHANGE_NEEDLE) == 0)
    g_ptr_array_add (parts, say_group_needle (plan, group));
  if ((but & HW_CHANGE_THREAD) == 0)
    g_ptr_array_add (parts, say_group_thread (group->needle_thread));
  if ((but & HW_CHANGE_FOOT) == 0 && group->foot >= 0)
    g_ptr_array_add (parts, say_group_foot (plan, group));
  return parts;
}

/* (transfer full): needle, thread, foot, length, dial */
static char *
list_setup (const HwPlan *plan, const HwGroup *group, const HwSetup *setup)
{
  g_autoptr (GPtrArray) parts = list_hard_parts (plan, group, 0);

  add_length_and_dial (parts, setup, NULL);
  return hw_words_list (g_steal_pointer (&parts));
}

static char *
say_as_it_stands (const HwPlan *plan, const HwGroup *group, const HwSetup *setup, gboolean first)
{
  g_autofree char *list = list_setup (plan, group, setup);

  /* Translators: needle, thread, foot, length, dial */
  return g_strdup_printf (first ? _("In the machine now: %s") : _("As it stands: %s"), list);
}

/* The same where the plan has several machines. */
static char *
say_machine_stands (const HwPlan *plan, const HwGroup *group, const HwSetup *setup, gboolean first)
{
  g_autofree char *list = NULL;

  if (!takes_machines (plan))
    return say_as_it_stands (plan, group, setup, first);
  list = list_setup (plan, group, setup);
  /* Translators: a machine's name; needle, thread, foot, length, dial */
  return g_strdup_printf (first ? _("%s, now in it: %s") : _("%s, as it stands: %s"), group->machine->name, list);
}

static char *
say_other_machine (const HwPlan *plan, const HwPlanStep *step, const HwGroup *group, const HwSetup *setup)
{
  guint hard = step->changes & ~(guint) (HW_CHANGE_MACHINE | HW_CHANGE_SOFT);
  gboolean again = find_setup_before (plan, step, group->machine) != NULL;
  g_autofree char *alterations = NULL;
  g_autofree char *inside = NULL;

  if (hard == 0 && (step->changes & HW_CHANGE_SOFT) == 0)
    {
      inside = list_setup (plan, group, setup);
      /* Translators: a machine's name; needle, thread, foot, length, dial */
      return g_strdup_printf (again ? _("%s again, as it stands: %s") : _("%s, as it stands: %s"), group->machine->name,
                              inside);
    }
  alterations = say_alterations (plan, group, step, setup);
  inside = hw_words_inside (alterations);
  /* Translators: a machine's name, what to alter on it */
  return g_strdup_printf (again ? _("%s again: %s") : C_("another machine", "%s: %s"), group->machine->name, inside);
}

char *
hw_words_change (const HwPlan *plan, const HwPlanStep *step, const HwPlanStep *before)
{
  const HwGroup *group = hw_plan_get_group (plan, step->group);
  const HwSetup *setup = plan->setups[step->step];

  if (group == NULL || setup == NULL)
    return g_strdup (_("By hand"));
  if ((step->changes & HW_CHANGE_MACHINE) != 0 && before != NULL)
    return say_other_machine (plan, step, group, setup);
  if ((step->changes & ~(guint) HW_CHANGE_MACHINE) == 0)
    return say_as_it_stands (plan, group, setup, before == NULL);
  return say_alterations (plan, group, step, setup);
}

char *
hw_words_heading (const HwPlan *plan, const HwPlanStep *step, const HwPlanStep *before)
{
  const HwGroup *group = hw_plan_get_group (plan, step->group);
  const HwSetup *setup = plan->setups[step->step];
  g_autofree char *change = NULL;

  if (group == NULL || setup == NULL || ((step->changes & HW_CHANGE_MACHINE) != 0 && before != NULL))
    return hw_words_change (plan, step, before);
  if ((step->changes & ~(guint) HW_CHANGE_MACHINE) == 0)
    return say_machine_stands (plan, group, setup, before == NULL);
  change = hw_words_change (plan, step, before);
  return say_on_machine (plan, group, change);
}

char *
hw_words_in_machine (const HwPlan *plan, const HwPlanStep *step)
{
  const HwGroup *group = hw_plan_get_group (plan, step->group);

  g_return_val_if_fail (group != NULL && plan->setups[step->step] != NULL, NULL);

  return say_machine_stands (plan, group, plan->setups[step->step], TRUE);
}

char *
hw_words_sewn_with (const HwPlan *plan, const HwPlanStep *step)
{
  const HwGroup *group = hw_plan_get_group (plan, step->group);
  g_autofree char *list = NULL;
  g_autofree char *sewn = NULL;

  g_return_val_if_fail (group != NULL && plan->setups[step->step] != NULL, NULL);

  list = list_setup (plan, group, plan->setups[step->step]);
  /* Translators: needle, thread, length, dial of steps that are done */
  sewn = g_strdup_printf (_("Sewn with %s"), list);
  return say_on_machine (plan, group, sewn);
}

/* NULL: all of it is changed. */
static char *
say_stays (const HwPlan *plan, const HwPlanStep *step)
{
  const HwGroup *group = hw_plan_get_group (plan, step->group);
  g_autoptr (GPtrArray) parts = list_hard_parts (plan, group, step->changes);
  g_autofree char *list = NULL;

  if (parts->len == 0)
    return NULL;
  list = hw_words_list (g_steal_pointer (&parts));
  /* Translators: needle, thread and foot, such as “80/12 round point, navy tex 30, all-purpose foot” */
  return g_strdup_printf (_("in the machine: %s"), list);
}

/* Of a block that is half sewn: with what its machine stands now, which the last step sewn left so unless the next one
 * is sewn the same. */
static const HwPlanStep *
find_standing (const HwPlanStep *first, const HwPlanStep *left)
{
  const HwPlanStep *standing = first;

  if ((left->changes & HW_CHANGE_SOFT) == 0)
    return left;
  for (const HwPlanStep *step = first; step < left; step++)
    if (step->group == first->group)
      standing = step;
  return standing;
}

/* Who begins at a machine checks all of it; later what changes is enough, unless that is length and dial alone. Where
 * nothing changes the heading has it already. */
static gboolean
tells_what_stays (const HwPlan *plan, const HwPlanStep *step)
{
  const HwGroup *group = hw_plan_get_group (plan, step->group);

  if (group == NULL || (step->changes & ~(guint) HW_CHANGE_MACHINE) == 0)
    return FALSE;
  return step->changes == HW_CHANGE_SOFT || find_setup_before (plan, step, group->machine) == NULL;
}

static char *
say_with_what_stays (const HwPlan *plan, const HwPlanStep *step, const HwPlanStep *before)
{
  g_autofree char *change = hw_words_heading (plan, step, before);
  g_autofree char *stays = say_stays (plan, step);

  if (stays == NULL)
    return g_steal_pointer (&change);
  /* Translators: what to set, such as “Set length 2.2 mm, dial 4”; what is in the machine already */
  return g_strdup_printf (_("%s; %s"), change, stays);
}

/* What was done is no longer asked for; going over to another machine meanwhile takes nothing out of this one. */
char *
hw_words_block (const HwPlan *plan, const HwPlanStep *first, const HwPlanStep *before)
{
  const HwPlanStep *left = hw_plan_find_left (plan, first);

  if (left == NULL)
    return hw_words_sewn_with (plan, first);
  if (left == first && tells_what_stays (plan, left))
    return say_with_what_stays (plan, left, before);
  if (hw_words_block_changes (plan, first))
    return hw_words_heading (plan, left, before);
  return hw_words_in_machine (plan, find_standing (first, left));
}

gboolean
hw_words_block_changes (const HwPlan *plan, const HwPlanStep *first)
{
  const HwPlanStep *left = hw_plan_find_left (plan, first);

  return left != NULL
         && (left == first || (left->changes & ~(guint) (HW_CHANGE_SOFT | HW_CHANGE_MACHINE)) != 0);
}

char *
hw_words_row_amount (const HwPlan *plan, const HwPlanStep *planned, gboolean heads)
{
  g_autofree char *amount = hw_words_amount (plan, planned);
  g_autofree char *change = NULL;

  if (heads || planned->done || planned->changes != HW_CHANGE_SOFT)
    return g_steal_pointer (&amount);
  change = hw_words_change (plan, planned, NULL);
  /* Translators: what to set, such as “Set 3 mm, dial 3½”; length and minutes */
  return g_strdup_printf (_("%s; %s"), change, amount);
}

/* ---- totals ---- */

static char *
say_change_minutes (double minutes)
{
  int whole = (int) lround (minutes);

  if (whole < 1)
    return g_strdup (_("under a minute"));
  /* Translators: what the changes cost */
  return g_strdup_printf (ngettext ("%d minute", "%d minutes", (gulong) whole), whole);
}

static char *
say_totals (const HwChangeTotals *totals, const char *count)
{
  g_autofree char *minutes = say_change_minutes (totals->change_minutes);
  g_autofree char *needles = NULL;

  if (totals->changes == 0)
    return g_strdup (_("nothing to change"));
  if (totals->needle_changes == 0)
    /* Translators: how many changes, how long they take */
    return g_strdup_printf (_("%s, %s"), count, minutes);
  needles = g_strdup_printf (ngettext ("%d needle", "%d needles", (gulong) totals->needle_changes),
                             totals->needle_changes);
  /* Translators: how many changes, in how many of them a needle is changed, how long they take */
  return g_strdup_printf (_("%s (%s), %s"), count, needles, minutes);
}

char *
hw_words_totals (const HwChangeTotals *totals)
{
  g_autofree char *count = g_strdup_printf (ngettext ("%d change of needle, thread, foot or stitch",
                                                      "%d changes of needle, thread, foot or stitch",
                                                      (gulong) totals->changes), totals->changes);

  return say_totals (totals, count);
}

/* Of what is a change is said before. */
static char *
say_other_totals (const HwChangeTotals *totals)
{
  g_autofree char *count = g_strdup_printf (ngettext ("%d change", "%d changes", (gulong) totals->changes),
                                            totals->changes);

  return say_totals (totals, count);
}

char *
hw_words_proof (const HwPlan *plan)
{
  double gap = plan->as_ordered.change_minutes - plan->bound_minutes;
  g_autofree char *minutes = NULL;

  if (plan->proved)
    return g_strdup (_("no other order takes less changing"));
  if (!(plan->bound_minutes > 0))
    return NULL;
  /* Rounded up, so that it still holds. */
  minutes = hw_words_number (ceil (gap * 10) / 10, 1);
  /* Translators: minutes of changes that another order might save, at the very most */
  return g_strdup_printf (_("another order might save %s min of changing at most"), minutes);
}

char *
hw_words_compared (const HwPlan *plan)
{
  g_autofree char *listed = say_other_totals (&plan->as_listed);
  g_autofree char *unshared = say_other_totals (&plan->as_ordered_unshared);

  if (!plan->project->share)
    /* Translators: totals such as "6 changes (4 needles), 12 minutes" */
    return g_strdup_printf (_("In the order listed: %s."), listed);
  /* Translators: totals such as "6 changes (4 needles), 12 minutes"; the first as the steps are listed, the second in
   * the best order that there is when each step is sewn with what is preferred for it */
  return g_strdup_printf (_("In the order listed: %s. If no steps shared set-ups: %s at best."), listed, unshared);
}

/* ---- needles to load ---- */

static const char *
get_step_number (const HwPlan *plan, int order_index)
{
  return hw_project_get_step (plan->project, get_order (plan, (gsize) order_index)->step)->number;
}

char *
hw_words_pick (const HwPlan *plan, const HwNeedlePick *pick)
{
  g_autofree char *needle = hw_words_needle (plan->handbook, pick->point, pick->size_nm, pick->twin_mm);

  if (pick->again >= 0 || pick->worn != NULL)
    {
      g_autofree char *hours = hw_words_hours (pick->hours_left);

      /* Translators: a needle that has sewn before, the hours that it still may */
      return g_strdup_printf (pick->again >= 0 ? _("%s, again, %s left") : _("%s, %s left"), needle, hours);
    }
  /* Translators: a needle */
  return g_strdup_printf (pick->buy ? _("%s, to buy") : _("%s, new"), needle);
}

char *
hw_words_other_points (const HwHandbook *handbook, HwSet points, int system, int point, int nm, double twin_mm)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *others = NULL;

  for (gsize i = 0; i < handbook->n_points; i++)
    {
      const HwPoint *other = &handbook->points[i];

      if ((int) i != point && (points & HW_SET (i)) != 0 && (other->systems & HW_SET (system)) != 0
          && hw_point_is_sold (other, nm, twin_mm))
        g_ptr_array_add (names, hw_words_inside (other->entry.name));
    }
  others = hw_words_list (names);
  /* Translators: of a needle to buy: a list of points that may be in its stead */
  return others[0] != '\0' ? g_strdup_printf (_("%s will do too"), others) : NULL;
}

char *
hw_words_pick_others (const HwPlan *plan, const HwNeedlePick *pick)
{
  return pick->buy ? hw_words_other_points (plan->handbook, pick->points, pick->system, pick->point, pick->size_nm,
                                            pick->twin_mm)
                   : NULL;
}

static char *
say_whence (const HwPlan *plan, const HwNeedlePick *pick)
{
  g_autofree char *hours = hw_words_hours (pick->hours_left);
  g_autofree char *others = hw_words_pick_others (plan, pick);

  if (pick->again >= 0)
    {
      const HwNeedlePick *earlier = g_ptr_array_index (plan->needles, (guint) pick->again);

      /* Translators: which needle: the number of the step for which it was put in before; hours */
      return g_strdup_printf (_("the same as for step %s, %s left"), get_step_number (plan, earlier->before), hours);
    }
  if (pick->worn != NULL)
    /* Translators: a needle; hours */
    return g_strdup_printf (_("part-worn, %s left"), hours);
  if (others != NULL)
    /* Translators: “universal point will do too” */
    return g_strdup_printf (_("new, to buy: %s"), others);
  return g_strdup (pick->buy ? _("new, to buy") : _("new"));
}

char *
hw_words_pick_state (const HwPlan *plan, const HwNeedlePick *pick)
{
  char *whence = say_whence (plan, pick);
  char *state;

  if (pick->worn_before < 0)
    return whence;
  /* Translators: which needle, the number of a step */
  state = g_strdup_printf (_("%s, runs out in step %s"), whence, get_step_number (plan, pick->worn_before));
  g_free (whence);
  return state;
}

static const HwNeedlePick *
find_group_pick (const HwPlan *plan, int group)
{
  for (guint i = 0; i < plan->needles->len; i++)
    if (((const HwNeedlePick *) g_ptr_array_index (plan->needles, i))->group == group)
      return g_ptr_array_index (plan->needles, i);
  return NULL;
}

/* Is @group the first still to be sewn on its machine, with the needle that is in it? */
static gboolean
begins_as_it_stands (const HwPlan *plan, int group)
{
  const HwMachine *machine = hw_plan_get_group (plan, group)->machine;
  HwNow now = hw_plan_now (plan, machine);

  for (gsize i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = get_order (plan, i);
      const HwGroup *own = hw_plan_get_group (plan, step->group);

      if (!step->done && own != NULL && own->machine == machine)
        return step->group == group && now.needle != NULL && (now.next == NULL || now.next->before > (int) i);
    }
  return FALSE;
}

char *
hw_words_group_needle (const HwPlan *plan, int group)
{
  const HwNeedlePick *pick = find_group_pick (plan, group);
  HwNow now;
  g_autofree char *hours = NULL;

  if (!begins_as_it_stands (plan, group))
    {
      if (pick == NULL || (pick->worn == NULL && pick->again < 0 && pick->worn_before < 0))
        return NULL;
      return hw_words_pick_state (plan, pick);
    }
  now = hw_plan_now (plan, hw_plan_get_group (plan, group)->machine);
  if (!(now.hours_used > 0))
    return NULL;
  hours = hw_words_hours (MAX (now.hours_limit - now.hours_used, 0));
  if (now.worn_step >= 0)
    /* Translators: of a needle: hours, the number of a step */
    return g_strdup_printf (_("%s left, runs out in step %s"), hours, get_step_number (plan, now.worn_step));
  /* Translators: of a needle: hours */
  return g_strdup_printf (_("%s left"), hours);
}

/* The rows after which a needle is changed: "row 3, row 6". */
static char *
list_rows (const HwPlan *plan, int order_index)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);

      if (pick->before == order_index && pick->from_piece > 0)
        /* Translators: the number of a row of stitches */
        g_ptr_array_add (rows, g_strdup_printf (_("row %d"), pick->from_piece));
    }
  return hw_words_list (rows);
}

static gboolean
is_changed_mid_row (const HwPlan *plan, int order_index)
{
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);

      if (pick->before == order_index && pick->mid_row)
        return TRUE;
    }
  return FALSE;
}

char *
hw_words_needles_within (const HwPlan *plan, int order_index)
{
  int needles = get_order (plan, (gsize) order_index)->needles;
  g_autofree char *rows = NULL;

  if (needles < 2)
    return NULL;
  if (is_changed_mid_row (plan, order_index))
    /* Translators: how many needles a step takes whose single row is longer than one needle lasts; always over 1 */
    return g_strdup_printf (ngettext ("A row outlasts a needle: %d needle, changed after equal parts of it",
                                      "A row outlasts a needle: %d needles, changed after equal parts of it",
                                      (gulong) needles), needles);
  rows = list_rows (plan, order_index);
  /* Translators: a list of rows of stitches, “row 3, row 6” */
  return g_strdup_printf (_("Longer than a needle lasts: a new needle at the end of %s"), rows);
}

char *
hw_words_needle_in (const HwHandbook *handbook, const HwNow *now)
{
  g_autofree char *name = NULL;
  g_autofree char *used = NULL;
  g_autofree char *limit = NULL;
  int point;

  if (now->needle == NULL)
    return g_strdup (_("no needle noted yet"));
  point = now->needle->point != NULL ? hw_handbook_find_point (handbook, now->needle->point) : -1;
  name = hw_words_needle (handbook, point, now->needle->nm, now->needle->twin_mm);
  used = hw_words_number (now->hours_used, 1);
  limit = hw_words_hours (now->hours_limit);
  /* Translators: a needle, the hours it has sewn, the hours it may sew with their unit */
  return g_strdup_printf (_("%s, %s of %s"), name, used, limit);
}

/* A step that was sewn was sewn with its needle, whether or not anybody noted that it was put in. */
static gboolean
is_unnoted (const HwPlan *plan, const HwNow *now, const HwMounted *mounted)
{
  const HwNeedle *needle = now->needle;

  return needle != NULL && mounted->size_nm > 0
         && (needle->nm != mounted->size_nm || lround (needle->twin_mm * 100) != mounted->twin
             || (needle->point != NULL && hw_handbook_find_point (plan->handbook, needle->point) != mounted->point));
}

char *
hw_words_needle_now (const HwPlan *plan, const HwNow *now)
{
  g_autofree char *needle = NULL;
  HwMounted mounted = { .size_nm = 0 };

  if (now->machine != NULL)
    mounted = hw_mounted_now (plan, now->machine);
  if (is_unnoted (plan, now, &mounted))
    {
      needle = hw_words_needle (plan->handbook, mounted.point, mounted.size_nm, mounted.twin / 100.0);
      /* Translators: a needle */
      return g_strdup_printf (_("%s, not noted as loaded"), needle);
    }
  needle = hw_words_needle_in (plan->handbook, now);
  if (now->needle == NULL || now->worn_step < 0)
    return g_steal_pointer (&needle);
  /* Translators: a needle with its hours, “80/12 round point, 6.2 of 15 h”; the number of a step */
  return g_strdup_printf (_("%s, runs out in step %s"), needle, get_step_number (plan, now->worn_step));
}

char *
hw_words_next (const HwPlan *plan, const HwNow *now)
{
  return now->next == NULL || now->next_step < 0 ? g_strdup (_("nothing more to load"))
                                                 : hw_words_pick (plan, now->next);
}

char *
hw_words_next_when (const HwPlan *plan, const HwNow *now)
{
  if (now->next == NULL || now->next_step < 0)
    return g_strdup (_("Load next"));
  if (now->next_group != NULL && now->next_group->machine != now->machine)
    /* Translators: the name of another machine than the one before, the number of a step */
    return g_strdup_printf (_("Then at %s, before step %s"), now->next_group->machine->name,
                            get_step_number (plan, now->next_step));
  /* Translators: the number of a step */
  return g_strdup_printf (now->next_step == plan->next ? _("Load now, before step %s") : _("Load next, before step %s"),
                          get_step_number (plan, now->next_step));
}

/* ---- care ---- */

/**
 * hw_words_care_due:
 *
 * Returns: (transfer full) (nullable): the care that falls due first and in
 *   which step; %NULL when none does
 */
char *
hw_words_care_due (const HwPlan *plan, const HwNow *now)
{
  const HwCareTask *task;
  const char *name;
  const char *step;
  double limit;
  g_autofree char *hours = NULL;

  if (now->care < 0 || now->care_step < 0)
    return NULL;
  task = &plan->handbook->care[now->care];
  name = task->entry.name;
  step = get_step_number (plan, now->care_step);
  limit = hw_care_limit (now->machine, task);
  if (task->clock == HW_CLOCK_SEWING_DAY)
    /* Translators: a care task such as "Oil", the number of a step */
    return g_strdup_printf (_("%s before step %s: due every sewing day"), name, step);
  if (task->clock == HW_CLOCK_MONTHS)
    /* Translators: a care task such as "Service", the number of a step */
    return g_strdup_printf (_("%s before step %s: due by the calendar"), name, step);
  hours = hw_words_hours (limit);
  /* Translators: a care task such as "Dust", hours, the number of the step in which they are reached */
  return g_strdup_printf (_("%s first: %s in step %s"), name, hours, step);
}
