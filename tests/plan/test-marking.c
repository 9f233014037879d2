/* test-marking.c - what the journal notes when steps are marked as sewn, and when a mark is taken back
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <string.h>

#include "plan/plan.h"
#include "workroom.h"

static HwPlan *
make_plan (const HwHandbook *handbook, const HwProject *project, const HwRoom *room)
{
  g_autoptr (GError) error = NULL;
  HwPlan *plan = hw_plan_new (handbook, project, room, &error);

  g_assert_no_error (error);
  return plan;
}

static HwRoom *
append_all (HwRoom *room, GPtrArray *entries)
{
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_room_append_all (room, (const HwJournalEntry * const *) entries->pdata, entries->len, &error);

  g_assert_no_error (error);
  hw_room_unref (room);
  g_ptr_array_unref (entries);
  return next;
}

static guint
count_loads (const HwRoom *room)
{
  guint n = 0;

  for (guint i = 0; i < room->entries->len; i++)
    n += ((HwJournalEntry *) g_ptr_array_index (room->entries, i))->kind == HW_ENTRY_LOAD;
  return n;
}

/* The needle in the machine is of the kind that the step was set up for, and its hours are those of its steps. */
static void
check_needle (const HwPlan *plan, const HwPlanStep *step, const HwRoom *after, GHashTable *minutes)
{
  const HwSetup *setup = plan->setups[step->step];
  const HwGroup *group = hw_plan_get_group (plan, step->group);
  const HwNeedle *needle = hw_room_get_state (after, setup->machine)->needle;
  double *sewn;

  g_assert_nonnull (needle);
  g_assert_cmpint (needle->nm, ==, group->size_nm);
  g_assert_cmpint (hw_handbook_find_point (plan->handbook, needle->point), ==, group->point);
  sewn = g_hash_table_lookup (minutes, needle->id);
  if (sewn == NULL)
    {
      sewn = g_new0 (double, 1);
      g_hash_table_insert (minutes, g_strdup (needle->id), sewn);
    }
  *sewn += step->minutes / setup->needle_life;
  g_assert_cmpfloat_with_epsilon (needle->at_machine_hours, *sewn / 60, 1e-6);
}

/* A garment sewn by marking its steps alone. */
static void
test_marks_alone (gconstpointer garment)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_garment (garment);
  HwRoom *room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (GHashTable) minutes = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  guint wanted = 0;

  for (gsize n = 0; n < project->steps->len; n++)
    {
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room);
      const HwPlanStep *step = &g_array_index (plan->order, HwPlanStep, n);

      if (n == 0)
        wanted = plan->needles->len;
      room = append_all (room, hw_plan_entries_for_step (plan, hw_project_get_step (project, step->step)->number, 0));
      if (plan->setups[step->step] != NULL)
        check_needle (plan, step, room, minutes);
    }
  g_assert_cmpuint (wanted, >, 0);
  g_assert_cmpuint (count_loads (room), ==, wanted);
  hw_room_unref (room);
}

/* What was said to be loaded is not noted again. */
static void
test_loaded_before (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_parse (
    "<fabrics><fabric id='poplin' name='Poplin' handbook='poplin'/></fabrics>"
    "<threads><thread id='t' handbook='polyester-30'/></threads><steps>"
    "<operation number='1' name='Side' purpose='seam' length-cm='100'><ply fabric='poplin' count='2'/></operation>"
    "<hand number='2' name='Press' after='1' kind='press' minutes='3'/></steps>");
  HwRoom *room = workroom_new (&workroom_usual, NULL, 3);
  g_autoptr (HwPlan) before = make_plan (handbook, project, room);
  g_autoptr (GPtrArray) by_hand = hw_plan_entries_for_step (before, "2", 0);
  HwNow now = hw_plan_now (before, NULL);
  GPtrArray *load = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  g_autoptr (HwPlan) loaded = NULL;
  g_autoptr (GPtrArray) entries = NULL;

  g_assert_cmpuint (by_hand->len, ==, 1);
  g_ptr_array_add (load, hw_plan_entry_for_load (before, now.next_group, now.next));
  room = append_all (room, load);
  loaded = make_plan (handbook, project, room);
  entries = hw_plan_entries_for_step (loaded, "1", 0);
  g_assert_cmpuint (entries->len, ==, 1);
  g_assert_cmpstr (((HwJournalEntry *) entries->pdata[0])->needle, ==,
                   hw_room_get_state (room, hw_room_find_machine (room, "home"))->needle->id);
  hw_room_unref (room);
}

#define TWO "<fabrics><fabric id='poplin' name='Poplin' handbook='poplin'/></fabrics>" \
  "<threads><thread id='t' handbook='polyester-30'/></threads><steps>" \
  "<operation number='1' name='Side' purpose='seam' length-cm='100'><ply fabric='poplin' count='2'/></operation>" \
  "<operation number='2' name='Other side' purpose='seam' length-cm='90'><ply fabric='poplin' count='2'/>" \
  "</operation></steps>"

static HwRoom *
mark (HwRoom *room, const HwHandbook *handbook, const HwProject *project, const char *number, gboolean sewn)
{
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

  return append_all (room, sewn ? hw_plan_entries_for_step (plan, number, 0)
                                : hw_plan_entries_to_unmark (plan, number));
}

/* A slip of the finger leaves nothing behind; a needle that was sewn with since stays in the machine. */
static void
test_taken_back (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_parse (TWO);
  HwRoom *room = workroom_new (&workroom_usual, NULL, 3);
  const HwMachineState *state;

  room = mark (room, handbook, project, "1", TRUE);
  g_assert_nonnull (hw_room_get_state (room, hw_room_find_machine (room, "home"))->needle);
  room = mark (room, handbook, project, "1", FALSE);
  g_assert_null (hw_room_step_done (room, project->id, "1"));
  g_assert_null (hw_room_get_state (room, hw_room_find_machine (room, "home"))->needle);

  room = mark (room, handbook, project, "1", TRUE);
  room = mark (room, handbook, project, "2", TRUE);
  room = mark (room, handbook, project, "1", FALSE);
  state = hw_room_get_state (room, hw_room_find_machine (room, "home"));
  g_assert_null (hw_room_step_done (room, project->id, "1"));
  g_assert_nonnull (state->needle);
  g_assert_cmpstr (hw_room_step_done (room, project->id, "2")->needle, ==, state->needle->id);
  hw_room_unref (room);
}

/* A new needle that nobody said the kind of: machine, order and needles to load agree that none is known. */
static void
test_changed_unsaid (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_parse (TWO);
  HwRoom *room = workroom_new (&workroom_usual, NULL, 3);
  GPtrArray *care = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_CARE, "home");
  g_autoptr (HwPlan) plan = NULL;
  HwNow now;

  entry->task = g_strdup (HW_NEEDLE_TASK);
  g_ptr_array_add (care, entry);
  room = mark (room, handbook, project, "1", TRUE);
  room = append_all (room, care);
  plan = make_plan (handbook, project, room);
  now = hw_plan_now (plan, NULL);
  g_assert_null (now.needle);
  g_assert_nonnull (now.next);
  g_assert_cmpint (now.next_step, ==, plan->next);
  g_assert_true (g_array_index (plan->order, HwPlanStep, plan->next).changes & HW_CHANGE_NEEDLE);
  hw_room_unref (room);
}

#define POPLIN "<fabrics><fabric id='poplin' name='Poplin' handbook='poplin'/></fabrics><threads>"
#define SIDE "</threads><steps><operation number='1' name='Side' purpose='seam' length-cm='100'>" \
  "<ply fabric='poplin' count='2'/></operation><operation number='2' name='Other side' purpose='seam' length-cm='90'>" \
  "<ply fabric='poplin' count='2'/></operation></steps>"

static HwRoom *
load_needle (HwRoom *room, int nm)
{
  GPtrArray *load = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_LOAD, "home");

  entry->needle = g_uuid_string_random ();
  entry->system = g_strdup ("household");
  entry->point = g_strdup ("universal");
  entry->nm = nm;
  g_ptr_array_add (load, entry);
  return append_all (room, load);
}

static guint
next_changes (const HwHandbook *handbook, const HwProject *project, HwRoom *room)
{
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

  return g_array_index (plan->order, HwPlanStep, plan->next).changes;
}

/* A new needle leaves thread, foot, stitch and lengths as they were last sewn with, not as an older load set them. */
static void
test_only_needle (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) older = workroom_parse (POPLIN "<thread id='t' colour='navy' handbook='polyester-30'/>" SIDE);
  g_autoptr (HwProject) project = workroom_parse (POPLIN "<thread id='t' colour='red' handbook='polyester-27'/>" SIDE);
  HwRoom *room = workroom_new (&workroom_usual, NULL, 3);
  const HwMachineState *state;
  g_autofree char *thread = NULL;
  int size;

  room = mark (room, handbook, older, "1", TRUE);
  size = hw_room_get_state (room, hw_room_find_machine (room, "home"))->needle->nm;
  room = mark (room, handbook, project, "1", TRUE);
  thread = g_strdup (hw_room_step_done (room, project->id, "1")->needle_thread);
  g_assert_nonnull (strstr (thread, "red"));
  room = load_needle (room, size);
  state = hw_room_get_state (room, hw_room_find_machine (room, "home"));
  g_assert_cmpstr (state->needle_thread, ==, thread);
  g_assert_nonnull (state->foot);
  g_assert_cmpuint (next_changes (handbook, project, room), ==, 0);
  room = load_needle (room, size + 10);
  g_assert_cmpuint (next_changes (handbook, project, room) & ~(guint) HW_CHANGE_NEEDLE, ==, 0);
  hw_room_unref (room);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/marking/t-shirt", "t-shirt", test_marks_alone);
  g_test_add_data_func ("/marking/wrap-skirt", "wrap-skirt", test_marks_alone);
  g_test_add_func ("/marking/loaded-before", test_loaded_before);
  g_test_add_func ("/marking/taken-back", test_taken_back);
  g_test_add_func ("/marking/changed-unsaid", test_changed_unsaid);
  g_test_add_func ("/marking/only-needle", test_only_needle);
  return g_test_run ();
}
