/* test-plan.c - whole plans of whole garments
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/garment-project.h"
#include "model/journal.h"
#include "plan/changes.h"
#include "plan/plan.h"
#include "plan/stock.h"
#include "workroom.h"

#include <math.h>
#include <string.h>

static const char * const garments[] = { "wrap-skirt", "t-shirt", "jeans", "velvet-jacket", "unknown-cloth" };

static HwPlan *
make_plan (HwHandbook *handbook, HwProject *project, HwRoom *room)
{
  g_autoptr (GError) error = NULL;
  HwPlan *plan = hw_plan_new_within (handbook, project, room, 200000, &error);

  g_assert_no_error (error);
  g_assert_nonnull (plan);
  return plan;
}

static const HwPlanStep *
step_at (const HwPlan *plan, gsize index)
{
  return &g_array_index (plan->order, HwPlanStep, index);
}

static HwRoom *
append (HwRoom *room, HwJournalEntry *entry)
{
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_room_append (room, entry, &error);

  g_assert_no_error (error);
  g_assert_nonnull (next);
  hw_room_unref (room);
  hw_journal_entry_free (entry);
  return next;
}

/* ---- what every plan must be ---- */

/* Each step once, none before what it comes after. */
static void
check_order (const HwPlan *plan)
{
  g_autofree int *place = g_new (int, plan->n_steps);

  g_assert_cmpuint (plan->order->len, ==, plan->n_steps);
  for (gsize i = 0; i < plan->n_steps; i++)
    place[i] = -1;
  for (gsize i = 0; i < plan->n_steps; i++)
    {
      g_assert_cmpint (place[step_at (plan, i)->step], ==, -1);
      place[step_at (plan, i)->step] = (int) i;
    }
  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwStep *step = hw_project_get_step (plan->project, i);

      for (char **number = step->after; *number != NULL; number++)
        {
          int before = hw_project_find_step (plan->project, *number);

          g_assert_cmpint (before, >=, 0);
          if (!step_at (plan, (gsize) place[i])->done)
            g_assert_cmpint (place[before], <, place[i]);
        }
    }
}

/* Every value within its band or among those accepted, moved or not. */
static void
check_bands (const HwPlan *plan)
{
  for (gsize i = 0; i < plan->n_steps; i++)
    for (int field = 0; plan->setups[i] != NULL && field < HW_N_FIELDS; field++)
      {
        const HwValue *value = &plan->setups[i]->values[field];
        gboolean told = FALSE;

        if (!value->applies || value->origin != HW_ORIGIN_AGREED)
          continue;
        g_assert_true (hw_value_accepts (value, (HwField) field, value->value));
        for (guint r = 0; r < plan->setups[i]->reasons->len; r++)
          {
            const HwReason *reason = &g_array_index (plan->setups[i]->reasons, HwReason, r);

            told |= reason->field == (HwField) field && reason->code == HW_REASON_AGREED
                    && fabs (reason->v[0] - value->value) > 1e-9;
            g_assert_nonnull (reason->source);
          }
        g_assert_true (told);
      }
}

static void
check_groups (const HwPlan *plan)
{
  gsize n_members = 0, n_operations = 0;
  int newest = -1;

  for (gsize i = 0; i < plan->n_steps; i++)
    {
      g_assert_cmpint (step_at (plan, i)->group, <=, newest + 1);
      newest = MAX (newest, step_at (plan, i)->group);
    }

  for (guint g = 0; g < plan->groups->len; g++)
    {
      const HwGroup *group = hw_plan_get_group (plan, (int) g);

      g_assert_cmpint (group->letter[0], ==, 'A' + (int) g);      /* in the order first used */
      g_assert_cmpstr (group->letter + 1, ==, "");
      n_members += group->members->len;
      for (guint m = 0; m < group->members->len; m++)
        {
          const HwSetup *setup = plan->setups[g_array_index (group->members, gsize, m)];

          g_assert_true (setup->machine == group->machine);
          g_assert_true (setup->stitch == group->stitch);
          g_assert_cmpint ((int) setup->values[HW_FIELD_SIZE].value, ==, group->size_nm);
          g_assert_cmpint ((int) setup->values[HW_FIELD_POINT].value, ==, group->point);
        }
    }
  for (gsize i = 0; i < plan->n_steps; i++)
    n_operations += plan->setups[i] != NULL ? 1 : 0;
  g_assert_cmpuint (n_members, ==, n_operations);
}

static void
check_sums (const HwPlan *plan)
{
  double minutes = 0, running = 0, by_hand = 0, hours = 0, thread = 0, used = 0, off_cones = 0, cones = 0;
  double left = 0, left_running = 0, hours_left = 0, running_left = 0;

  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwPlanStep *step = step_at (plan, i);

      minutes += step->minutes;
      running += step->running;
      by_hand += step->group < 0 ? step->minutes : 0;
      thread += step->needle_m + step->under_m;
      if (step->group >= 0 && plan->setups[step->step]->machine->kind != HW_MACHINE_LOCKSTITCH)
        off_cones += step->needle_m + step->under_m;
      left += step->done ? 0 : step->minutes;
      left_running += step->done ? 0 : step->running;
      if (step->group >= 0)
        {
          g_assert_cmpfloat (step->running, >, 0);
          g_assert_cmpfloat (step->running, <, step->minutes);
          g_assert_cmpfloat (step->needle_m, >, 0);
        }
    }
  for (guint i = 0; i < plan->hours->len; i++)
    {
      const HwMachineHours *of_machine = &g_array_index (plan->hours, HwMachineHours, i);

      hours += of_machine->at_machine_hours;
      hours_left += of_machine->left_at_machine;
      running_left += of_machine->left_running;
    }
  for (guint i = 0; i < plan->notions->len; i++)
    {
      const HwNotion *notion = g_ptr_array_index (plan->notions, i);

      used += notion->needle_m + notion->bobbin_m;
      cones += notion->cone_m;
      g_assert_cmpint (notion->cones > 0, ==, notion->cone_m > 0);
      g_assert_cmpint (notion->bobbins > 0, ==, notion->bobbin_m > 0);
      if (notion->bobbins > 0)
        g_assert_cmpfloat (notion->bobbins * notion->bobbin_capacity_m, >=, notion->bobbin_m - 1e-6);
    }
  g_assert_cmpfloat_with_epsilon (minutes, plan->minutes_total, 1e-6);
  g_assert_cmpfloat_with_epsilon (running, plan->running_total, 1e-6);
  g_assert_cmpfloat_with_epsilon (left, plan->minutes_left, 1e-6);
  g_assert_cmpfloat_with_epsilon (left_running, running_left * 60, 1e-6);
  g_assert_cmpfloat (hours_left * 60, <=, left + 1e-6);
  g_assert_cmpfloat_with_epsilon (by_hand, plan->hand_minutes, 1e-6);
  g_assert_cmpfloat_with_epsilon (hours * 60 + by_hand, plan->minutes_total, 1e-6);
  g_assert_cmpfloat_with_epsilon (thread, used, 1e-6);
  g_assert_cmpfloat_with_epsilon (off_cones, cones, 1e-6);
}

static void
check_changes (const HwPlan *plan)
{
  double minutes = 0;
  int needles = 0;

  for (gsize i = 0; i < plan->n_steps; i++)
    if (!step_at (plan, i)->done)
      {
        minutes += step_at (plan, i)->change_minutes;
        needles += step_at (plan, i)->changes & HW_CHANGE_NEEDLE ? 1 : 0;
      }
  g_assert_cmpfloat_with_epsilon (minutes, plan->as_ordered.change_minutes, 1e-6);
  g_assert_cmpint (needles, ==, plan->as_ordered.needle_changes);
  g_assert_cmpfloat (plan->as_ordered.change_minutes, <=, plan->as_listed.change_minutes + 1e-6);
}

static void
check_plan (const HwPlan *plan)
{
  check_order (plan);
  check_bands (plan);
  check_groups (plan);
  check_sums (plan);
  check_changes (plan);
}

/* Everything that a plan says, to compare two of them. */
static char *
write_down (const HwPlan *plan)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwPlanStep *step = step_at (plan, i);
      const HwSetup *setup = plan->setups[step->step];

      g_string_append_printf (text, "%" G_GSIZE_FORMAT " %d %x %a %a %a %a %a %" G_GINT64_MODIFIER "x %d\n", step->step,
                              step->group, step->changes, step->change_minutes, step->minutes, step->running,
                              step->needle_m, step->under_m, step->care_due, step->needle_worn);
      for (int field = 0; setup != NULL && field < HW_N_FIELDS; field++)
        g_string_append_printf (text, " %a/%d", setup->values[field].value, setup->values[field].origin);
    }
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);

      g_string_append_printf (text, "%d %d %d %s %s %d\n", pick->point, pick->size_nm, pick->before,
                              pick->worn != NULL ? pick->worn->id : "-",
                              pick->packet != NULL ? pick->packet->id : "-", pick->again);
    }
  for (guint i = 0; i < plan->notions->len; i++)
    {
      const HwNotion *notion = g_ptr_array_index (plan->notions, i);

      g_string_append_printf (text, "%s %a %a %d %d\n", notion->colour, notion->needle_m, notion->bobbin_m,
                              notion->bobbins, notion->cones);
    }
  return g_string_free (text, FALSE);
}

static void
test_garment (gconstpointer data)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_garment (data);
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room);
  g_autoptr (HwPlan) again = make_plan (handbook, project, room);
  g_autofree char *first = write_down (plan);
  g_autofree char *second = write_down (again);

  check_plan (plan);
  g_assert_true (plan->proved);
  g_assert_cmpint (plan->next, ==, 0);
  g_assert_cmpstr (first, ==, second);
  g_test_message ("%s: %u set-ups, changes %.1f min, as listed %.1f min", plan->project->id, plan->groups->len,
                  plan->as_ordered.change_minutes, plan->as_listed.change_minutes);
}

/* As the garments' tables list them: a slot for the tie; one buttonhole; five. */
static void
test_buttonholes (void)
{
  static const struct { const char *garment; int buttonholes; } cases[] = {
    { "wrap-skirt", 1 }, { "t-shirt", 0 }, { "jeans", 1 }, { "velvet-jacket", 5 },
  };
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwProject) project = workroom_garment (cases[i].garment);
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

      g_assert_cmpint (plan->buttonholes, ==, cases[i].buttonholes);
    }
}

/* Nobody buys thread for a garment that none of its steps is sewn with. */
static void
test_threads_are_used (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);

  for (gsize g = 0; g < handbook->n_garments; g++)
    {
      const HwGarment *garment = &handbook->garments[g];
      g_autoptr (HwProject) project = hw_garment_make (handbook, garment, NULL, NULL, NULL, "made", NULL);
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

      for (guint t = 0; t < project->threads->len; t++)
        {
          const HwProjectThread *thread = g_ptr_array_index (project->threads, t);
          gboolean is_used = FALSE;

          for (gsize i = 0; i < plan->n_steps && !is_used; i++)
            is_used = plan->setups[i] != NULL && (plan->setups[i]->needle_thread.thread == thread
                                                  || plan->setups[i]->bobbin_thread.thread == thread);
          g_test_message ("%s: %s", garment->entry.id, thread->id);
          g_assert_true (is_used);
        }
    }
}

/* A pouch of canvas and cotton: what joins a layer of each takes the needle of two of each, as jeans do at the pocket
 * bags. */
static void
test_pouch_takes_one_needle (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwProject) project = workroom_parse (
    "<fabrics><fabric id='canvas' name='Canvas' handbook='canvas'/>"
    "<fabric id='cotton' name='Cotton' handbook='quilting-cotton'/></fabrics>"
    "<threads><thread id='t' handbook='polyester-40'/></threads><steps>"
    "<operation number='1' name='Canvas to cotton' purpose='seam' length-cm='40'>"
    "<ply fabric='canvas'/><ply fabric='cotton'/></operation>"
    "<operation number='2' name='Sides' after='1' purpose='seam' length-cm='40'>"
    "<ply fabric='canvas' count='2'/><ply fabric='cotton' count='2'/></operation>"
    "<operation number='3' name='Top edge' after='2' purpose='seam' length-cm='40'>"
    "<ply fabric='canvas'/><ply fabric='cotton'/></operation></steps>");
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

  g_assert_cmpuint (plan->needles->len, ==, 1);
  g_assert_cmpfloat (plan->setups[0]->values[HW_FIELD_SIZE].value, ==, 100);
}

/* ---- done steps ---- */

/* Step by step as the plan says, noted in the journal each time: the plan goes on where it was, nothing done moves. */
static void
test_steps_done (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_garment ("t-shirt");
  HwRoom *room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (GPtrArray) numbers = g_ptr_array_new ();

  for (gsize n = 0; n < project->steps->len; n++)
    {
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room);
      const HwStep *step;
      HwJournalEntry *entry;

      check_plan (plan);
      g_assert_cmpint (plan->next, ==, (int) n);
      for (gsize i = 0; i < n; i++)
        {
          g_assert_true (step_at (plan, i)->done);
          g_assert_cmpstr (hw_project_get_step (project, step_at (plan, i)->step)->number, ==,
                           g_ptr_array_index (numbers, i));
        }
      step = hw_project_get_step (project, step_at (plan, n)->step);
      g_assert_false (step_at (plan, n)->done);
      g_ptr_array_add (numbers, step->number);
      entry = hw_plan_entry_for_step (plan, step->number, n == 0 ? 33 : 0);
      g_assert_cmpfloat_with_epsilon (entry->minutes, n == 0 ? 33 : step_at (plan, n)->minutes, 1e-9);
      g_assert_cmpfloat_with_epsilon (entry->running * step_at (plan, n)->minutes,
                                      entry->minutes * step_at (plan, n)->running, 1e-6);
      g_free (entry->time);
      entry->time = g_strdup_printf ("2024-05-02T10:%02d:00Z", (int) n);
      room = append (room, entry);
    }
  {
    g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

    g_assert_cmpint (plan->next, ==, -1);
    g_assert_cmpfloat (plan->minutes_left, ==, 0);
    g_assert_cmpfloat (plan->as_ordered.change_minutes, ==, 0);
    g_assert_cmpuint (plan->needles->len, ==, 0);
  }
  hw_room_unref (room);
}

/* ---- the person's own pace, thread and needles on hand ---- */

static gsize
first_operation (const HwPlan *plan)
{
  for (gsize i = 0; i < plan->order->len; i++)
    if (plan->setups[step_at (plan, i)->step] != NULL)
      return i;
  g_assert_not_reached ();
}

/* Work by hand moves nobody away from the machine that was sewn at last: the walk to the other one is still to come. */
static void
test_after_hand_work (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_parse (
    "<fabrics><fabric id='poplin' name='Poplin' handbook='poplin'/></fabrics>"
    "<threads><thread id='t' handbook='polyester-27'/></threads><steps>"
    "<operation number='1' name='Neaten the side edges' purpose='neaten' stitch='504' length-cm='90'>"
    "<ply fabric='poplin'/></operation>"
    "<hand number='2' name='Pin the sides' kind='tack' minutes='5'/>"
    "<operation number='3' name='Side seams' purpose='seam' length-cm='90'><ply fabric='poplin' count='2'/></operation>"
    "</steps>");
  HwRoom *room = workroom_new (&workroom_usual, "overlock", 3);

  for (int i = 1; i <= 2; i++)
    {
      g_autofree char *number = g_strdup_printf ("%d", i);
      g_autoptr (HwPlan) before = make_plan (handbook, project, room);
      HwJournalEntry *entry = hw_plan_entry_for_step (before, number, 5);
      g_autoptr (HwPlan) after = NULL;

      g_free (entry->time);
      entry->time = g_strdup_printf ("2031-05-09T14:0%d:00Z", i);
      room = append (room, entry);
      after = make_plan (handbook, project, room);
      g_assert_cmpint (after->as_ordered.machine_changes, ==, 1);
    }
  hw_room_unref (room);
}

/* A step that took twice the planned minutes slows the steps of its purpose down, shrunk: log 2 / 5 for all, then
 * (log 2 + 4 × that) / 5 for its own. What was only marked as sewn teaches nothing. */
static void
test_pace (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_garment ("wrap-skirt");
  HwRoom *room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwPlan) before = make_plan (handbook, project, room);
  const HwPlanStep *step = step_at (before, first_operation (before));
  const HwSetup *setup = before->setups[step->step];
  const char *number = hw_project_get_step (project, step->step)->number;
  HwJournalEntry *marked = hw_plan_entry_for_step (before, number, 0);
  HwJournalEntry *measured = hw_plan_entry_for_step (before, number, 2 * step->minutes);
  HwJournalEntry *tried;
  g_autofree char *label = hw_thread_choice_label (&setup->needle_thread);
  double expected = (3 * log (2) + 4 * (3 * log (2) / 7)) / 7;

  g_assert_cmpfloat (step->pace, ==, 1);
  g_assert_cmpfloat (marked->planned, ==, 0);
  g_assert_cmpfloat_with_epsilon (measured->planned, step->minutes, 1e-9);
  g_assert_cmpstr (measured->purpose, ==, setup->purpose->entry.id);
  g_assert_cmpstr (measured->needle_thread, ==, label);
  g_assert_cmpfloat (measured->needle_m, ==, step->needle_m);
  room = append (room, marked);
  g_assert_cmpfloat (hw_journal_time_factor (room, setup->purpose->entry.id), ==, 1);
  tried = hw_plan_entry_for_step (before, number, 0.1 * step->minutes);
  room = append (room, tried);           /* a timer that was only tried, or stopped too soon */
  g_assert_cmpfloat (hw_journal_time_factor (room, setup->purpose->entry.id), ==, 1);
  room = append (room, measured);
  room = append (room, hw_plan_entry_for_step (before, number, 2 * step->minutes));
  g_assert_cmpfloat (hw_journal_time_factor (room, setup->purpose->entry.id), ==, 1);
  room = append (room, hw_plan_entry_for_step (before, number, 2 * step->minutes));
  {
    g_autoptr (HwPlan) after = make_plan (handbook, project, room);
    const HwPlanStep *again = hw_plan_find_step (after, number);

    g_assert_cmpfloat_with_epsilon (again->pace, exp (expected), 1e-9);
    g_assert_cmpfloat_with_epsilon (again->minutes, step->minutes * exp (expected), 1e-9);
    g_assert_cmpfloat (again->running, ==, step->running);
  }
  hw_room_unref (room);
}

/* What the picks take new is wanted once a plan; what lies in the packets of that kind is on hand. */
static void
test_stock (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_garment ("wrap-skirt");
  HwRoom *room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room);
  g_autoptr (GPtrArray) plans = g_ptr_array_new ();
  g_autoptr (GPtrArray) needs = NULL;
  int wanted = 0;
  int picked = 0;

  g_ptr_array_add (plans, plan);
  g_ptr_array_add (plans, plan);
  needs = hw_stock_needs (handbook, room, plans);
  for (guint i = 0; i < needs->len; i++)
    {
      const HwStockNeed *need = needs->pdata[i];

      wanted += need->wanted;
      g_assert_cmpuint (need->projects->len, ==, 1);
      g_assert_cmpint (need->on_hand, ==, hw_stock_count (handbook, room, need->system, need->point, need->size_nm,
                                                          need->twin_mm));
    }
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = plan->needles->pdata[i];

      picked += pick->worn == NULL && pick->again < 0;
      for (guint k = 0; k < needs->len && pick->worn == NULL && pick->again < 0; k++)
        {
          const HwStockNeed *need = needs->pdata[k];

          if (need->system == pick->system && need->point == pick->point && need->size_nm == pick->size_nm
              && need->twin_mm == pick->twin_mm)
            g_assert_cmpuint (need->points & ~pick->points, ==, 0);
          g_assert_true ((need->points & HW_SET (need->point)) != 0);
        }
    }
  g_assert_cmpint (picked, >, 0);
  g_assert_cmpint (wanted, ==, 2 * picked);
  hw_room_unref (room);
}

/* ---- hand steps ---- */

/* A hand step that comes after nothing stands where it is listed, but before what waits for it, through other hand
 * steps too; one that comes after a seam follows it at once. */
static void
test_hand_steps (void)
{
  static const char inside[] =
    "<fabrics><fabric id='cloth' name='Cloth' handbook='cotton-twill'/></fabrics>"
    "<threads><thread id='thread' handbook='polyester-30' colour='red'/></threads>"
    "<steps>"
    "<operation number='1' name='Seam' purpose='seam' length-cm='50' after='5'>"
    "<ply fabric='cloth' count='2'/></operation>"
    "<hand number='2' name='Press' kind='press' minutes='1' after='1'/>"
    "<hand number='3' name='Cut the ties' kind='trim' minutes='1'/>"
    "<operation number='4' name='Another' purpose='seam' length-cm='50'><ply fabric='cloth' count='2'/></operation>"
    "<hand number='5' name='Turn' kind='turn' minutes='1' after='6'/>"
    "<hand number='6' name='Fuse' kind='fuse' minutes='1'/>"
    "<hand number='7' name='Sew on buttons' kind='sew' minutes='1'/>"
    "</steps>";
  static const char * const wanted[] = { "6", "5", "1", "2", "3", "4", "7" };
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_parse (inside);
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, NULL, 3);
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

  check_plan (plan);
  for (gsize i = 0; i < G_N_ELEMENTS (wanted); i++)
    g_assert_cmpstr (hw_project_get_step (project, step_at (plan, i)->step)->number, ==, wanted[i]);
}

/* ---- needles ---- */

static const HwNeedlePick *
first_pick (const HwPlan *plan, const char *machine)
{
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);

      if (strcmp (hw_plan_get_group (plan, pick->group)->machine->id, machine) == 0)
        return pick;
    }
  return NULL;
}

/* What the plan says to load is loaded: it is not asked for again, and costs nothing. */
static void
test_load_next (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_garment ("wrap-skirt");
  HwRoom *room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwPlan) before = make_plan (handbook, project, room);
  g_autoptr (HwPlan) after = NULL;
  const HwMachine *home = hw_room_find_machine (room, "home");
  HwNow now = hw_plan_now (before, home);
  double first_minutes = 0;

  g_assert_null (now.needle);
  g_assert_nonnull (now.next);
  g_assert_true (now.next == first_pick (before, "home"));
  g_assert_true (now.next_group->machine == home);
  g_assert_cmpint (step_at (before, (gsize) now.next_step)->group, ==, now.next->group);
  first_minutes = step_at (before, (gsize) now.next_step)->change_minutes;
  g_assert_cmpfloat (first_minutes, >, 0);

  room = append (room, hw_plan_entry_for_load (before, now.next_group, now.next));
  after = make_plan (handbook, project, room);
  check_plan (after);
  now = hw_plan_now (after, hw_room_find_machine (room, "home"));
  g_assert_nonnull (now.needle);
  g_assert_cmpint (now.needle->nm, ==, first_pick (before, "home")->size_nm);
  g_assert_cmpuint (after->needles->len, ==, before->needles->len - 1);
  g_assert_cmpint (after->as_ordered.needle_changes, ==, before->as_ordered.needle_changes - 1);
  g_assert_cmpfloat (after->as_ordered.change_minutes, <, before->as_ordered.change_minutes - 1);
  /* All that a load notes is on the machine; only length, width, pressure and dial are still to be set. */
  for (gsize i = 0; i < after->n_steps; i++)
    if (step_at (after, i)->group >= 0)
      {
        g_assert_cmphex (step_at (after, i)->changes, ==, HW_CHANGE_SOFT);
        break;
      }
  hw_room_unref (room);
}

/* At a machine that wants no more needles, the next one is told for the machine that does. */
static void
test_load_next_elsewhere (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_garment ("t-shirt");
  HwRoom *room = workroom_new (&workroom_usual, "household", 3);
  g_autoptr (HwPlan) before = make_plan (handbook, project, room);
  g_autoptr (HwPlan) after = NULL;
  const char *first = hw_project_get_step (project, step_at (before, 0)->step)->number;
  HwNow now = hw_plan_now (before, hw_room_find_machine (room, "overlocker"));

  g_assert_nonnull (now.next);
  room = append (room, hw_plan_entry_for_load (before, now.next_group, now.next));
  room = append (room, hw_plan_entry_for_step (before, first, 0));
  after = make_plan (handbook, project, room);

  now = hw_plan_now (after, hw_room_find_machine (room, "overlocker"));
  g_assert_null (now.next);
  now = hw_plan_now (after, NULL);
  g_assert_cmpstr (now.machine->id, ==, "overlocker");
  g_assert_nonnull (now.needle);
  g_assert_nonnull (now.next);
  g_assert_cmpstr (now.next_group->machine->id, ==, "home");
  g_assert_true (now.next == first_pick (after, "home"));
  g_assert_cmpint (now.next_step, ==, now.next->before);
  hw_room_unref (room);
}

/* Hours of each needle: of those in the room, then of those that the picks take new. */
typedef struct
{
  double *at_machine, *running;
} NeedleHours;

static guint
find_needle (const HwPlan *plan, const HwNeedle *needle)
{
  guint index;

  g_assert_true (g_ptr_array_find (plan->room->needles, needle, &index));
  return index;
}

static guint
number_picked (const HwPlan *plan, guint index)
{
  const HwNeedlePick *pick = g_ptr_array_index (plan->needles, index);

  if (pick->worn != NULL)
    return find_needle (plan, pick->worn);
  return plan->room->needles->len + (pick->again >= 0 ? (guint) pick->again : index);
}

/* The whole of a step that one needle lasts through; of one that outlasts a needle, an even share at least. */
static void
sew_with (const HwPlan *plan, NeedleHours *hours, guint needle, const HwPlanStep *step)
{
  const HwNeedleLife *life = &plan->handbook->needle_life;
  double factor = plan->setups[step->step]->needle_life * step->needles;

  hours->at_machine[needle] += step->minutes / 60 / factor;
  hours->running[needle] += step->running / 60 / factor;
  g_assert_cmpfloat (hours->at_machine[needle], <=, life->at_machine_hours + 1e-6);
  g_assert_cmpfloat (hours->running[needle], <=, life->running_hours + 1e-6);
}

static void
check_hours_on (const HwPlan *plan, NeedleHours *hours, const HwMachine *machine)
{
  const HwNeedleLife *life = &plan->handbook->needle_life;
  const HwNeedle *there = hw_room_get_state (plan->room, machine)->needle;
  int needle = there != NULL ? (int) find_needle (plan, there) : -1;

  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwPlanStep *step = step_at (plan, i);
      const HwSetup *setup = plan->setups[step->step];

      if (setup == NULL || setup->machine != machine || step->done)
        continue;
      /* Not changed while it would still have done. */
      if (step->needle_worn && needle >= 0)
        g_assert_true (hours->at_machine[needle] + step->minutes / 60 / setup->needle_life > life->at_machine_hours
                       || hours->running[needle] + step->running / 60 / setup->needle_life > life->running_hours);
      for (guint p = 0; p < plan->needles->len; p++)
        if (((const HwNeedlePick *) g_ptr_array_index (plan->needles, p))->before == (int) i)
          needle = (int) number_picked (plan, p);
      if (needle >= 0)
        sew_with (plan, hours, (guint) needle, step);
    }
}

static void
check_needle_hours (const HwPlan *plan)
{
  guint n = plan->room->needles->len;
  g_autofree double *at_machine = g_new0 (double, n + plan->needles->len + 1);
  g_autofree double *running = g_new0 (double, n + plan->needles->len + 1);
  NeedleHours hours = { at_machine, running };

  for (guint i = 0; i < n; i++)
    {
      at_machine[i] = ((const HwNeedle *) g_ptr_array_index (plan->room->needles, i))->at_machine_hours;
      running[i] = ((const HwNeedle *) g_ptr_array_index (plan->room->needles, i))->running_hours;
    }
  for (guint m = 0; m < plan->room->machines->len; m++)
    check_hours_on (plan, &hours, g_ptr_array_index (plan->room->machines, m));
}

/* ---- care ---- */

static void
check_care_of (const HwPlan *plan, const HwMachine *machine, gsize care)
{
  const HwCareTask *task = &plan->handbook->care[care];
  double limit = hw_room_care_limit (machine, task);
  double clock = hw_room_care_clock (plan->room, machine, task, "2024-06-01T00:00:00Z");

  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwPlanStep *step = step_at (plan, i);
      const HwSetup *setup = plan->setups[step->step];
      double hours;

      if (setup == NULL || setup->machine != machine || step->done)
        continue;
      hours = (task->clock == HW_CLOCK_RUNNING ? step->running : step->minutes) / 60;
      hours *= task->counts_lint ? setup->lint_factor : 1;
      if ((step->care_due >> care) & 1)
        {
          g_assert_cmpfloat (clock + hours, >, limit);
          clock = 0;
        }
      if (clock > 0)
        g_assert_cmpfloat (clock + hours, <=, limit + 1e-6);
      clock += hours;
    }
}

static void
check_care (const HwPlan *plan)
{
  for (guint m = 0; m < plan->room->machines->len; m++)
    for (gsize care = 0; care < plan->handbook->n_care; care++)
      {
        const HwMachine *machine = g_ptr_array_index (plan->room->machines, m);
        const HwCareTask *task = &plan->handbook->care[care];

        if (!(task->machines & (1u << machine->kind)) || task->clock == HW_CLOCK_MONTHS
            || task->clock == HW_CLOCK_SEWING_DAY || strcmp (task->entry.id, "needle") == 0
            || strcmp (task->entry.id, "oil") == 0)
          continue;
        check_care_of (plan, machine, care);
      }
}

static HwJournalEntry *
draw_sewing (GRand *random, const char *machine, int day)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_SEWING, machine);

  g_free (entry->time);
  entry->time = g_strdup_printf ("2024-05-%02dT10:00:00Z", day);
  entry->lint = g_rand_boolean (random) ? 1 : 2;
  entry->life = g_rand_boolean (random) ? 1 : 0.5;
  /* Mostly so that needle or dusting come due within the next hour at the machine. */
  entry->minutes = 15 * 60 - g_rand_double_range (random, -10, 60);
  entry->minutes *= g_rand_boolean (random) ? 1 / entry->lint : entry->life;
  entry->running = entry->minutes * g_rand_double_range (random, 0.1, 0.5);
  return entry;
}

/* Rooms with whatever hours on needle and clocks: no limit is passed inside a step that could have been
 * begun below it. */
static void
test_random_rooms (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (GRand) random = g_rand_new_with_seed (31);
  int n_due = 0, n_worn = 0;

  for (int round = 0; round < 60; round++)
    {
      g_autoptr (HwProject) project = workroom_garment (garments[round % 4]);
      HwRoom *room = workroom_new (&workroom_usual, "overlock", 3);

      {
        g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

        for (int day = 1; day < 3; day++)
          {
            const HwNeedlePick *pick = first_pick (plan, day % 2 == 1 ? "home" : "overlocker");
            g_autofree char *needle = NULL;
            HwJournalEntry *sewing = draw_sewing (random, day % 2 == 1 ? "home" : "overlocker", day + 10);

            if (pick != NULL && g_rand_boolean (random))
              {
                HwJournalEntry *load = hw_plan_entry_for_load (plan, hw_plan_get_group (plan, pick->group), pick);

                needle = g_strdup (load->needle);
                g_free (load->time);
                load->time = g_strdup_printf ("2024-05-%02dT10:00:00Z", day);
                room = append (room, load);
              }
            sewing->needle = g_steal_pointer (&needle);
            room = append (room, sewing);
          }
        /* Half of them have another needle in since, and the worn one in the case. */
        if (round % 2 == 0)
          {
            const HwNeedlePick *pick = g_ptr_array_index (plan->needles, plan->needles->len - 1);
            HwJournalEntry *load = hw_plan_entry_for_load (plan, hw_plan_get_group (plan, pick->group), pick);

            g_free (load->time);
            load->time = g_strdup ("2024-05-20T10:00:00Z");
            room = append (room, load);
          }
      }
      {
        g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

        check_plan (plan);
        check_care (plan);
        check_needle_hours (plan);
        for (gsize i = 0; i < plan->n_steps; i++)
          {
            n_due += step_at (plan, i)->care_due != 0 ? 1 : 0;
            n_worn += step_at (plan, i)->needle_worn ? 1 : 0;
          }
      }
      hw_room_unref (room);
    }
  /* The rooms drawn must have tried it. */
  g_assert_cmpint (n_due, >, 3);
  g_assert_cmpint (n_worn, >, 3);
}

/* ---- sharing ---- */

static int
count_agreed (const HwPlan *plan, int step)
{
  int n = 0;

  for (int field = 0; field < HW_N_FIELDS; field++)
    n += plan->setups[step]->values[field].origin == HW_ORIGIN_AGREED ? 1 : 0;
  return n;
}

/* Where a person refuses to share, the step keeps what the handbook prefers. */
static void
test_refused (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  int n_tried = 0;

  for (gsize g = 0; g < G_N_ELEMENTS (garments); g++)
    {
      g_autoptr (HwProject) project = workroom_garment (garments[g]);
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room);

      for (gsize i = 0; i < plan->n_steps; i++)
        {
          g_autoptr (HwPlan) refused = NULL;
          HwStep *step = g_ptr_array_index (project->steps, i);

          if (plan->setups[i] == NULL || count_agreed (plan, (int) i) == 0)
            continue;
          step->share = FALSE;
          refused = make_plan (handbook, project, room);
          step->share = TRUE;
          g_assert_cmpint (count_agreed (refused, (int) i), ==, 0);
          n_tried++;
        }
    }
  g_assert_cmpint (n_tried, >, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (garments); i++)
    {
      g_autofree char *path = g_strconcat ("/plan/", garments[i], NULL);

      g_test_add_data_func (path, garments[i], test_garment);
    }
  g_test_add_func ("/plan/threads-are-used", test_threads_are_used);
  g_test_add_func ("/plan/pouch", test_pouch_takes_one_needle);
  g_test_add_func ("/plan/buttonholes", test_buttonholes);
  g_test_add_func ("/plan/steps-done", test_steps_done);
  g_test_add_func ("/plan/after-hand-work", test_after_hand_work);
  g_test_add_func ("/plan/pace", test_pace);
  g_test_add_func ("/plan/stock", test_stock);
  g_test_add_func ("/plan/hand-steps", test_hand_steps);
  g_test_add_func ("/plan/load-next", test_load_next);
  g_test_add_func ("/plan/load-next-elsewhere", test_load_next_elsewhere);
  g_test_add_func ("/plan/random-rooms", test_random_rooms);
  g_test_add_func ("/plan/refused", test_refused);
  return g_test_run ();
}
