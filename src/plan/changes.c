/* changes.c - what is mounted on a machine, and what it takes to mount something else
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A change costs the sum of its parts, each as the handbook gives it or the person set it. Such sums keep to the
 * triangle inequality: over a third set-up no part is changed less often.
 */

#include "config.h"

#include "plan/changes.h"

#include <math.h>
#include <string.h>

const HwField hw_soft_fields[HW_N_SOFT_PARTS] = {
  [HW_SOFT_LENGTH] = HW_FIELD_LENGTH, [HW_SOFT_WIDTH] = HW_FIELD_WIDTH, [HW_SOFT_PRESSURE] = HW_FIELD_PRESSURE,
  [HW_SOFT_DIAL] = HW_FIELD_DIAL, [HW_SOFT_DIFFERENTIAL] = HW_FIELD_DIFFERENTIAL,
  [HW_SOFT_CUTTING_WIDTH] = HW_FIELD_CUTTING_WIDTH,
};

static int
read_choice (const HwSetup *setup, HwField field)
{
  return setup->values[field].applies ? (int) lround (setup->values[field].value) : -1;
}

static int
read_hundredths (const HwSetup *setup, HwField field)
{
  return setup->values[field].applies ? (int) lround (setup->values[field].value * 100) : 0;
}

HwMounted
hw_mounted_from_setup (const HwSetup *setup)
{
  HwMounted self = {
    .machine = setup->machine,
    .known = TRUE,
    .system = read_choice (setup, HW_FIELD_SYSTEM),
    .point = read_choice (setup, HW_FIELD_POINT),
    .size_nm = read_choice (setup, HW_FIELD_SIZE),
    .twin = read_hundredths (setup, HW_FIELD_TWIN),
    .stitch = setup->stitch,
    .needle_thread = &setup->needle_thread,
    .bobbin_thread = &setup->bobbin_thread,
    .foot = read_choice (setup, HW_FIELD_FOOT),
    .plate = read_choice (setup, HW_FIELD_PLATE),
    .soft_known = TRUE,
  };

  for (int i = 0; i < HW_N_SOFT_PARTS; i++)
    self.soft[i] = read_hundredths (setup, hw_soft_fields[i]);
  return self;
}

char *
hw_thread_choice_label (const HwThreadChoice *choice)
{
  return hw_thread_label (choice->thread != NULL ? choice->thread->colour : NULL,
                          choice->entry != NULL ? choice->entry->entry.id : NULL, choice->tex);
}

/* ---- what the journal says ---- */

static gboolean
has_label (const HwThreadChoice *choice, const char *label)
{
  g_autofree char *own = hw_thread_choice_label (choice);

  return strcmp (own, label) == 0;
}

static const HwThreadChoice *
find_labelled (const HwPlan *plan, const char *label)
{
  for (gsize i = 0; label != NULL && i < plan->n_steps; i++)
    {
      const HwSetup *setup = plan->setups[i];

      if (setup == NULL)
        continue;
      if (has_label (&setup->needle_thread, label))
        return &setup->needle_thread;
      if (has_label (&setup->bobbin_thread, label))
        return &setup->bobbin_thread;
    }
  return NULL;
}

HwNeedleKind
hw_mounted_needle (const HwMounted *self)
{
  return (HwNeedleKind) { self->system, self->point, self->size_nm, self->twin };
}

HwNeedleKind
hw_needle_kind (const HwHandbook *handbook, const char *system, const char *point, int nm, double twin_mm)
{
  return (HwNeedleKind) { system != NULL ? hw_handbook_find_system (handbook, system) : -1,
                          point != NULL ? hw_handbook_find_point (handbook, point) : -1, nm,
                          (int) lround (twin_mm * 100) };
}

gboolean
hw_needle_kind_same (HwNeedleKind a, HwNeedleKind b)
{
  return a.system == b.system && a.point == b.point && a.size_nm == b.size_nm && a.twin == b.twin;
}

static HwMounted
read_load (const HwPlan *plan, const HwMachine *machine, const HwJournalEntry *load)
{
  const HwHandbook *handbook = plan->handbook;
  HwNeedleKind needle = hw_needle_kind (handbook, load->system, load->point, load->nm, load->twin_mm);
  int stitch = load->stitch != NULL ? hw_handbook_find_stitch (handbook, load->stitch) : -1;

  return (HwMounted) {
    .machine = machine,
    .known = TRUE,
    .system = needle.system,
    .point = needle.point,
    .size_nm = needle.size_nm,
    .twin = needle.twin,
    .stitch = stitch >= 0 ? &handbook->stitches[stitch] : NULL,
    .needle_thread = find_labelled (plan, load->needle_thread),
    .bobbin_thread = find_labelled (plan, load->bobbin_thread),
    .foot = load->foot != NULL ? hw_handbook_find_foot (handbook, load->foot) : -1,
    .plate = load->plate != NULL ? hw_handbook_find_plate (handbook, load->plate) : -1,
  };
}

/* The set-up of the step that @entry records, when it is one of this project sewn on this machine. */
static const HwSetup *
find_sewn (const HwPlan *plan, const HwMachine *machine, const HwJournalEntry *entry)
{
  const HwSetup *setup;
  int step;

  if (entry->kind != HW_ENTRY_SEWING || entry->step == NULL || g_strcmp0 (entry->project, plan->project->id) != 0)
    return NULL;
  step = hw_project_find_step (plan->project, entry->step);
  setup = step >= 0 ? plan->setups[step] : NULL;
  return setup != NULL && setup->machine == machine ? setup : NULL;
}

/* One that put in a needle, or changed foot or plate, and left the rest as it was. */
static gboolean
is_partial (const HwJournalEntry *entry)
{
  return entry->kind == HW_ENTRY_LOAD && entry->stitch == NULL && entry->needle_thread == NULL
         && entry->bobbin_thread == NULL;
}

/* What a later entry did not change is as @before has it. */
static HwMounted
take_rest (const HwMounted *self, const HwMounted *before)
{
  HwMounted all = *before;

  if (self->size_nm > 0)
    {
      all.system = self->system;
      all.point = self->point;
      all.size_nm = self->size_nm;
      all.twin = self->twin;
    }
  all.foot = self->foot >= 0 ? self->foot : all.foot;
  all.plate = self->plate >= 0 ? self->plate : all.plate;
  return all;
}

/* No needle: every step wants one. */
static void
remove_needle (HwMounted *self)
{
  self->system = self->point = -1;
  self->size_nm = self->twin = 0;
}

/* FALSE: @entry says nothing of what is mounted. */
static gboolean
read_entry (const HwPlan *plan, const HwMachine *machine, const HwJournalEntry *entry, HwMounted *found)
{
  const HwSetup *setup;

  if (g_strcmp0 (entry->machine, machine->id) != 0 || g_hash_table_contains (plan->room->cancelled, entry->id))
    return FALSE;
  setup = find_sewn (plan, machine, entry);
  if (setup != NULL)
    *found = hw_mounted_from_setup (setup);
  else if (entry->kind == HW_ENTRY_LOAD)
    *found = read_load (plan, machine, entry);
  return setup != NULL || entry->kind == HW_ENTRY_LOAD;
}

HwMounted
hw_mounted_now (const HwPlan *plan, const HwMachine *machine)
{
  return hw_mounted_then (plan, machine, plan->room->entries->len);
}

HwMounted
hw_mounted_then (const HwPlan *plan, const HwMachine *machine, guint n_entries)
{
  const HwRoom *room = plan->room;
  const HwJournalEntry *emptied = hw_room_get_state (room, machine)->emptied;
  HwMounted now = { .machine = machine, .system = -1, .point = -1, .foot = -1, .plate = -1 };
  gboolean whole = FALSE;
  gboolean empty = FALSE;

  for (guint i = n_entries; !whole && i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);
      HwMounted found;

      empty = empty || entry == emptied;
      if (!read_entry (plan, machine, entry, &found))
        continue;
      now = take_rest (&now, &found);
      whole = !is_partial (entry);
    }
  if (empty)
    remove_needle (&now);
  return now;
}

/* ---- comparing ---- */

gboolean
hw_thread_choice_same (const HwThreadChoice *a, const HwThreadChoice *b)
{
  if (a == b)
    return TRUE;
  return a != NULL && b != NULL && a->thread == b->thread && a->entry == b->entry && fabs (a->tex - b->tex) < 1e-9;
}

gboolean
hw_mounted_same_needle (const HwMounted *a, const HwMounted *b)
{
  return a->system == b->system && a->point == b->point && a->size_nm == b->size_nm && a->twin == b->twin;
}

gboolean
hw_mounted_same_hard (const HwMounted *a, const HwMounted *b)
{
  return a->known && b->known && a->machine == b->machine && hw_mounted_same_needle (a, b) && a->stitch == b->stitch
         && hw_thread_choice_same (a->needle_thread, b->needle_thread)
         && hw_thread_choice_same (a->bobbin_thread, b->bobbin_thread) && a->foot == b->foot && a->plate == b->plate;
}

static gboolean
same_soft (const HwMounted *a, const HwMounted *b)
{
  return a->soft_known && b->soft_known && memcmp (a->soft, b->soft, sizeof a->soft) == 0;
}

gboolean
hw_mounted_same (const HwMounted *a, const HwMounted *b)
{
  return hw_mounted_same_hard (a, b) && same_soft (a, b);
}

/* ---- changes and their cost ---- */

static int
count_needle_paths (const HwMounted *mounted)
{
  return mounted->stitch != NULL ? MAX (mounted->stitch->needles, 1) : 1;
}

/* Needle thread paths to thread: all of them for another thread, only the further ones for the same. */
static int
count_threading (const HwMounted *from, const HwMounted *to)
{
  if (from->needle_thread == NULL || !hw_thread_choice_same (from->needle_thread, to->needle_thread))
    return count_needle_paths (to);
  return MAX (count_needle_paths (to) - count_needle_paths (from), 0);
}

/* Bobbins to change or loopers to thread. */
static int
count_under (const HwMounted *from, const HwMounted *to)
{
  int wanted = to->stitch->bobbin ? 1 : to->stitch->loopers;
  int there = from->stitch == NULL ? 0 : from->stitch->bobbin ? 1 : from->stitch->loopers;

  if (from->bobbin_thread == NULL || !hw_thread_choice_same (from->bobbin_thread, to->bobbin_thread))
    return wanted;
  return MAX (wanted - there, 0);
}

static guint
list_unknown (const HwMounted *to)
{
  guint mask = HW_CHANGE_NEEDLE | HW_CHANGE_THREAD | HW_CHANGE_STITCH | HW_CHANGE_SOFT;

  if (to->stitch->bobbin || to->stitch->loopers > 0)
    mask |= HW_CHANGE_BOBBIN;
  return to->foot >= 0 ? mask | HW_CHANGE_FOOT : mask;
}

guint
hw_changes_between (const HwMounted *from, const HwMounted *to)
{
  guint mask = 0;

  if (!from->known)
    return list_unknown (to);
  if (!hw_mounted_same_needle (from, to))
    mask |= HW_CHANGE_NEEDLE;
  if (count_threading (from, to) > 0)
    mask |= HW_CHANGE_THREAD;
  if (count_under (from, to) > 0)
    mask |= HW_CHANGE_BOBBIN;
  if (to->foot >= 0 && from->foot != to->foot)
    mask |= HW_CHANGE_FOOT;
  if (to->plate >= 0 && from->plate != to->plate)
    mask |= HW_CHANGE_PLATE;
  if (from->stitch != to->stitch)
    mask |= HW_CHANGE_STITCH;
  if (!same_soft (from, to))
    mask |= HW_CHANGE_SOFT;
  return mask;
}

HwChangeCosts
hw_changes_costs (const HwHandbook *handbook, const HwRoom *room)
{
  HwChangeCosts costs = handbook->changes;
  double *parts[HW_N_CHANGE_PARTS] = {
    [HW_CHANGE_PART_WALK] = &costs.walk, [HW_CHANGE_PART_NEEDLE] = &costs.needle,
    [HW_CHANGE_PART_THREAD] = &costs.thread, [HW_CHANGE_PART_BOBBIN] = &costs.bobbin,
    [HW_CHANGE_PART_FOOT] = &costs.foot, [HW_CHANGE_PART_PLATE] = &costs.plate,
    [HW_CHANGE_PART_STITCH] = &costs.stitch, [HW_CHANGE_PART_SOFT] = &costs.soft,
    [HW_CHANGE_PART_OVERLOCK_THREAD] = &costs.overlock_thread,
  };

  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    {
      if (!isnan (room->preferences->change_minutes[part]))
        *parts[part] = room->preferences->change_minutes[part];
      /* So that sums of them are whole thousandths too, and a detour over a third set-up never seems cheaper. */
      *parts[part] = hw_changes_thousandths (*parts[part]) / 1000.0;
    }
  return costs;
}

int
hw_changes_thousandths (double minutes)
{
  return (int) lround (CLAMP (minutes, 0, 1000) * 1000);
}

/* The same for every set-up, so that not knowing what is mounted does not sway the order. */
static double
cost_unknown (const HwChangeCosts *costs, const HwMounted *to)
{
  gboolean lockstitch = to->machine->kind == HW_MACHINE_LOCKSTITCH;
  double threading = lockstitch ? costs->thread + costs->bobbin : 4 * costs->overlock_thread;

  return threading + costs->needle + costs->foot + costs->stitch + costs->soft;
}

int
hw_changes_cost (const HwChangeCosts *costs, const HwMounted *from, const HwMounted *to)
{
  guint mask = hw_changes_between (from, to);
  gboolean bobbin = to->stitch->bobbin;
  double minutes = 0;

  if (!from->known)
    return hw_changes_thousandths (cost_unknown (costs, to));
  minutes += mask & HW_CHANGE_NEEDLE ? costs->needle : 0;
  minutes += count_threading (from, to) * (bobbin ? costs->thread : costs->overlock_thread);
  minutes += count_under (from, to) * (bobbin ? costs->bobbin : costs->overlock_thread);
  minutes += mask & HW_CHANGE_FOOT ? costs->foot : 0;
  minutes += mask & HW_CHANGE_PLATE ? costs->plate : 0;
  minutes += mask & HW_CHANGE_STITCH ? costs->stitch : 0;
  minutes += mask & HW_CHANGE_SOFT ? costs->soft : 0;
  return hw_changes_thousandths (minutes);
}

int
hw_changes_walk (const HwChangeCosts *costs)
{
  return hw_changes_thousandths (costs->walk);
}
