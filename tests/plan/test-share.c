/* test-share.c - set-ups shared inside their bands: what whole garments save by it, and what stays as it is
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/edit.h"
#include "model/garment-project.h"
#include "plan/changes.h"
#include "plan/plan.h"
#include "plan/share.h"
#include "workroom.h"

#include <math.h>
#include <string.h>

#define STATES 200000

static HwPlan *
make_plan (const HwHandbook *handbook, const HwProject *project, const HwRoom *room, guint states)
{
  g_autoptr (GError) error = NULL;
  HwPlan *plan = hw_plan_new_within (handbook, project, room, states, &error);

  g_assert_no_error (error);
  return plan;
}

/* Minutes and times that hard parts change. Not a standard: what the plan came to when this was written, so that it
 * shows when a change of handbook or solver makes it other. */
static const struct
{
  const char *garment;
  double listed, unshared, shared;
  int listed_changes, unshared_changes, shared_changes;
} regression[] = {
  { "wrap-skirt", 23.3, 22.4, 20.9, 7, 6, 6 },
  { "t-shirt", 15.95, 14.45, 13.35, 4, 4, 3 },
  { "jeans", 55.6, 37.8, 33.1, 19, 13, 12 },
  { "velvet-jacket", 13.6, 12.5, 9.3, 10, 8, 7 },
};

static void
test_regression (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);

  for (gsize i = 0; i < G_N_ELEMENTS (regression); i++)
    {
      g_autoptr (HwProject) project = workroom_garment (regression[i].garment);
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room, STATES);

      g_test_message ("%s: %.2f %.2f %.2f, %d %d %d", regression[i].garment, plan->as_listed.change_minutes,
                      plan->as_ordered_unshared.change_minutes, plan->as_ordered.change_minutes,
                      plan->as_listed.changes, plan->as_ordered_unshared.changes, plan->as_ordered.changes);
      g_assert_true (plan->proved && plan->settled);
      g_assert_cmpfloat_with_epsilon (plan->as_listed.change_minutes, regression[i].listed, 1e-6);
      g_assert_cmpfloat_with_epsilon (plan->as_ordered_unshared.change_minutes, regression[i].unshared, 1e-6);
      g_assert_cmpfloat_with_epsilon (plan->as_ordered.change_minutes, regression[i].shared, 1e-6);
      g_assert_cmpint (plan->as_listed.changes, ==, regression[i].listed_changes);
      g_assert_cmpint (plan->as_ordered_unshared.changes, ==, regression[i].unshared_changes);
      g_assert_cmpint (plan->as_ordered.changes, ==, regression[i].shared_changes);
    }
}

static const char * const garments[] = {
  "wrap-skirt", "t-shirt", "jeans", "velvet-jacket", "unknown-cloth", "far/sheer-blouse", "far/rain-hat",
  "far/fleece-hoodie", "far/swimsuit", "far/quilt", "far/melton-coat",
};

/* Whatever the effort: never dearer than unshared, never below the bound; the bound is below every plan's minutes. */
static void
test_never_dearer (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  static const guint efforts[] = { 0, 20, HW_PLAN_QUICK_STATES, STATES };

  for (gsize i = 0; i < G_N_ELEMENTS (garments); i++)
    {
      g_autoptr (HwProject) project = workroom_garment (garments[i]);
      double before = INFINITY;

      for (gsize e = 0; e < G_N_ELEMENTS (efforts); e++)
        {
          g_autoptr (HwPlan) plan = make_plan (handbook, project, room, efforts[e]);
          double shared = plan->as_ordered.change_minutes;

          g_assert_cmpfloat (shared, <=, plan->as_ordered_unshared.change_minutes + 1e-6);
          g_assert_cmpfloat (plan->as_ordered_unshared.change_minutes, <=, plan->as_listed.change_minutes + 1e-6);
          g_assert_cmpfloat (plan->bound_minutes, <=, shared + 1e-6);
          g_assert_cmpfloat (shared, <=, before + 1e-6);
          g_assert_true (!plan->proved || fabs (plan->bound_minutes - shared) < 1e-6);
          before = shared;
        }
    }
}

/* No detour over a third set-up is cheaper than the change itself: what order.h is told of sums of parts. */
static void
test_no_detour (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);

  for (gsize g = 0; g < G_N_ELEMENTS (garments); g++)
    {
      g_autoptr (HwProject) project = workroom_garment (garments[g]);
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room, 0);
      g_autoptr (GArray) mounted = g_array_new (FALSE, FALSE, sizeof (HwMounted));

      for (gsize i = 0; i < plan->n_steps; i++)
        if (plan->setups[i] != NULL)
          {
            HwMounted one = hw_mounted_from_setup (plan->setups[i]);

            g_array_append_val (mounted, one);
          }
      for (guint a = 0; a < mounted->len; a++)
        for (guint b = 0; b < mounted->len; b++)
          for (guint c = 0; c < mounted->len; c++)
            {
              const HwMounted *from = &g_array_index (mounted, HwMounted, a);
              const HwMounted *via = &g_array_index (mounted, HwMounted, b);
              const HwMounted *to = &g_array_index (mounted, HwMounted, c);

              if (from->machine == via->machine && via->machine == to->machine)
                g_assert_cmpint (hw_changes_cost (&plan->costs, from, to), <=,
                                 hw_changes_cost (&plan->costs, from, via) + hw_changes_cost (&plan->costs, via, to));
            }
    }
}

static int
count_agreed (const HwPlan *plan, gsize step)
{
  int n = 0;

  for (int field = 0; plan->setups[step] != NULL && field < HW_N_FIELDS; field++)
    n += plan->setups[step]->values[field].origin == HW_ORIGIN_AGREED ? 1 : 0;
  return n;
}

/* Refused for the project, nothing is moved; refused for one step, that one is not. */
static void
test_refused (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwProject) project = workroom_garment ("jeans");
  g_autoptr (HwProject) refused = hw_edit_set_share (project, FALSE);
  g_autoptr (HwPlan) shared = make_plan (handbook, project, room, STATES);
  g_autoptr (HwPlan) alone = make_plan (handbook, refused, room, STATES);
  gsize moved = 0;

  g_assert_cmpfloat (alone->as_ordered.change_minutes, ==, alone->as_ordered_unshared.change_minutes);
  g_assert_cmpfloat_with_epsilon (shared->as_ordered_unshared.change_minutes, alone->as_ordered.change_minutes, 1e-6);
  g_assert_true (alone->proved && alone->settled);
  for (gsize i = 0; i < alone->n_steps; i++)
    {
      g_assert_cmpint (count_agreed (alone, i), ==, 0);
      if (count_agreed (shared, i) > 0)
        moved = i;
    }
  g_assert_cmpint (count_agreed (shared, moved), >, 0);
  {
    HwStep *step = hw_step_copy (hw_project_get_step (project, moved));
    g_autoptr (HwProject) one = NULL;
    g_autoptr (HwPlan) plan = NULL;

    step->share = FALSE;
    one = hw_edit_put_step (project, step, &error);
    g_assert_no_error (error);
    hw_step_unref (step);
    plan = make_plan (handbook, one, room, STATES);
    g_assert_cmpint (count_agreed (plan, moved), ==, 0);
    g_assert_cmpfloat (plan->as_ordered.change_minutes, >=, shared->as_ordered.change_minutes - 1e-6);
  }
}

/* The person's own minutes stand in for the handbook's. */
static void
test_own_minutes (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwProject) project = workroom_garment ("jeans");
  g_autoptr (HwPlan) usual = make_plan (handbook, project, room, STATES);
  g_autoptr (HwPlan) own = NULL;

  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    room->preferences->change_minutes[part] = part == HW_CHANGE_PART_FOOT ? 0.12345 : 0;
  own = make_plan (handbook, project, room, STATES);
  g_assert_cmpfloat (usual->costs.needle, ==, handbook->changes.needle);
  g_assert_cmpfloat_with_epsilon (own->costs.foot, 0.123, 1e-9);      /* whole thousandths */
  g_assert_cmpfloat_with_epsilon (own->as_ordered.change_minutes, 0.123 * own->as_ordered.foot_changes, 1e-6);
  g_assert_cmpint (own->as_ordered.foot_changes, <=, usual->as_ordered.foot_changes);
}

static HwPlan *
plan_threads (const HwHandbook *handbook, const HwRoom *room, const char *colour, const char *attributes)
{
  g_autofree char *inside = g_strdup_printf (
    "<fabrics><fabric id='cloth' name='Cloth' handbook='cotton-twill'/></fabrics><threads>"
    "<thread id='main' handbook='polyester-30' colour='red'/>"
    "<thread id='other' handbook='polyester-30' tex='27' colour='%s'/></threads><steps>"
    "<operation number='1' name='Seam' purpose='seam' length-cm='50' needle-thread='other'>"
    "<ply fabric='cloth' count='2'/></operation>"
    "<operation number='2' name='Seam' purpose='seam' length-cm='50'%s><ply fabric='cloth' count='2'/></operation>"
    "</steps>", colour, attributes);
  g_autoptr (HwProject) project = workroom_parse (inside);

  return make_plan (handbook, project, room, STATES);
}

/* A seam takes the thread that another must have: of its colour, in its band, unless the person named its own. */
static void
test_threads (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, NULL, 3);
  g_autoptr (HwPlan) same = plan_threads (handbook, room, "red", "");
  g_autoptr (HwPlan) green = plan_threads (handbook, room, "green", "");
  g_autoptr (HwPlan) named = plan_threads (handbook, room, "red", " needle-thread='main'");
  g_autoptr (HwPlan) refused = plan_threads (handbook, room, "red", " share='no'");
  const HwSetup *moved = same->setups[1];
  gboolean told = FALSE;

  g_assert_cmpstr (moved->needle_thread.thread->id, ==, "other");
  g_assert_cmpint (moved->values[HW_FIELD_NEEDLE_TEX].origin, ==, HW_ORIGIN_AGREED);
  for (guint i = 0; i < moved->reasons->len; i++)
    {
      const HwReason *reason = &g_array_index (moved->reasons, HwReason, i);

      told |= reason->field == HW_FIELD_NEEDLE_TEX && reason->code == HW_REASON_AGREED
              && fabs (reason->v[0] - 30) < 1;
    }
  g_assert_true (told);
  g_assert_true (moved->step == hw_project_get_step (same->project, 1));
  g_assert_cmpfloat (same->as_ordered.change_minutes, <, same->as_ordered_unshared.change_minutes - 1);
  g_assert_cmpstr (green->setups[1]->needle_thread.thread->id, ==, "main");
  g_assert_cmpstr (named->setups[1]->needle_thread.thread->id, ==, "main");
  g_assert_cmpstr (refused->setups[1]->needle_thread.thread->id, ==, "main");
}

/* Of two threads alike an overlocker takes the cones, wherever they stand in the list; the other machine the first. */
static void
test_cones (void)
{
  static const char * const lists[] = {
    "<thread id='spool' handbook='polyester-27'/><thread id='cones' handbook='overlock-27'/>",
    "<thread id='cones' handbook='overlock-27'/><thread id='spool' handbook='polyester-27'/>",
  };
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);

  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autofree char *inside = g_strdup_printf (
        "<fabrics><fabric id='cloth' name='Cloth' handbook='poplin'/></fabrics><threads>%s</threads><steps>"
        "<operation number='1' name='Seam' purpose='seam' length-cm='50'><ply fabric='cloth' count='2'/></operation>"
        "<operation number='2' name='Edges' purpose='neaten' stitch='504' length-cm='50'><ply fabric='cloth'/>"
        "</operation></steps>", lists[i]);
      g_autoptr (HwProject) project = workroom_parse (inside);
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room, STATES);

      g_assert_cmpstr (plan->setups[0]->needle_thread.thread->id, ==, i == 0 ? "spool" : "cones");
      g_assert_cmpstr (plan->setups[1]->needle_thread.thread->id, ==, "cones");
      g_assert_cmpstr (plan->setups[1]->bobbin_thread.thread->id, ==, "cones");
    }
}

/* Tex that differs by what rounding leaves is the same thread; tex that differs by what can be bought is another. */
static void
test_same_thread (void)
{
  const HwThreadChoice one = { .tex = 30 };
  const HwThreadChoice rounded = { .tex = 30 + 5e-10 };
  const HwThreadChoice other = { .tex = 30.1 };

  g_assert_true (hw_thread_choice_same (&one, &one));
  g_assert_true (hw_thread_choice_same (&one, &rounded));
  g_assert_false (hw_thread_choice_same (&one, &other));
  g_assert_false (hw_thread_choice_same (&one, NULL));
  g_assert_true (hw_thread_choice_same (NULL, NULL));
}

/* What a step was sewn with stays so, however the rest is shared afterwards. */
static void
test_sewn_stays (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwProject) project = workroom_garment ("jeans");
  HwRoom *room = workroom_new (&workroom_usual, "overlock", 3);

  for (int n = 0; n < 12; n++)
    {
      g_autoptr (HwPlan) before = make_plan (handbook, project, room, HW_PLAN_QUICK_STATES);
      g_autoptr (HwPlan) after = NULL;
      gsize step = g_array_index (before->order, HwPlanStep, (gsize) before->next).step;
      const char *number = hw_project_get_step (project, step)->number;
      g_autoptr (HwJournalEntry) entry = hw_plan_entry_for_step (before, number, 0);
      HwRoom *next;

      g_free (entry->time);
      entry->time = g_strdup_printf ("2024-05-02T10:%02d:00Z", n);
      next = hw_room_append (room, entry, &error);
      g_assert_no_error (error);
      hw_room_unref (room);
      room = next;
      after = make_plan (handbook, project, room, HW_PLAN_QUICK_STATES);
      if (before->setups[step] == NULL)
        continue;
      for (int field = 0; field < HW_N_FIELDS; field++)
        if (before->setups[step]->values[field].applies)
          g_assert_cmpfloat_with_epsilon (after->setups[step]->values[field].value,
                                          before->setups[step]->values[field].value, 1e-6);
    }
  hw_room_unref (room);
}

/* A number that every step of @group admits; NaN: there is none. */
static double
find_common_dial (const HwPlan *plan, const HwGroup *group)
{
  double low = 0;
  double high = INFINITY;

  for (guint i = 0; i < group->members->len; i++)
    {
      const HwValue *dial = &plan->setups[g_array_index (group->members, gsize, i)]->values[HW_FIELD_DIAL];

      low = MAX (low, dial->low);
      high = MIN (high, dial->high);
    }
  return low <= high ? low : NAN;
}

static guint
count_turns (const HwPlan *plan, const HwGroup *group)
{
  guint  turns = 0;
  double before = NAN;

  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = &g_array_index (plan->order, HwPlanStep, i);
      double            dial;

      if (hw_plan_get_group (plan, step->group) != group || plan->setups[step->step] == NULL)
        continue;
      dial = plan->setups[step->step]->values[HW_FIELD_DIAL].value;
      turns += !isnan (before) && fabs (dial - before) > 1e-6 ? 1 : 0;
      before = dial;
    }
  return turns;
}

static void
check_dials (const HwPlan *plan)
{
  for (guint g = 0; g < plan->groups->len; g++)
    {
      const HwGroup *group = hw_plan_get_group (plan, (int) g);

      for (guint i = 0; i < group->members->len; i++)
        {
          const HwValue *dial = &plan->setups[g_array_index (group->members, gsize, i)]->values[HW_FIELD_DIAL];

          g_assert_true (!dial->applies || (dial->value >= dial->low - 1e-6 && dial->value <= dial->high + 1e-6));
        }
      /* One turn: where the dial comes from one number and goes on to another. */
      if (plan->project->share && !isnan (find_common_dial (plan, group)))
        g_assert_cmpuint (count_turns (plan, group), <=, 1);
    }
}

/* Where one dial is good for all of a set-up, it is not turned to and fro with each length. */
static void
test_one_dial (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);

  for (gsize i = 0; i < handbook->n_garments; i++)
    {
      const HwGarment *garment = &handbook->garments[i];
      g_autoptr (HwProject) project = hw_garment_make (handbook, garment, NULL, NULL, NULL, "made", NULL);
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room, HW_PLAN_QUICK_STATES);

      g_test_message ("%s", garment->entry.id);
      check_dials (plan);
    }
}

/* ---- the order once begun ---- */

/* The numbers of what is left, in its order. (transfer full) */
static char *
list_left (const HwPlan *plan)
{
  GString *numbers = g_string_new (NULL);

  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = &g_array_index (plan->order, HwPlanStep, i);

      if (!step->done)
        g_string_append_printf (numbers, "%s ", hw_project_get_step (plan->project, step->step)->number);
    }
  return g_string_free (numbers, FALSE);
}

/* @room with the next step of @plan noted as sewn, in the minute @n. (transfer full) */
static HwRoom *
sew_next (const HwPlan *plan, HwRoom *room, guint n)
{
  g_autoptr (GError) error = NULL;
  gsize step = g_array_index (plan->order, HwPlanStep, (gsize) plan->next).step;
  g_autoptr (GPtrArray) entries = hw_plan_entries_for_step (plan, hw_project_get_step (plan->project, step)->number, 0);
  HwRoom *next;

  for (guint i = 0; i < entries->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (entries, i);

      g_free (entry->time);
      entry->time = g_strdup_printf ("2024-05-02T%02u:%02u:%02uZ", 8 + n / 60, n % 60, i);
    }
  next = hw_room_append_all (room, (const HwJournalEntry * const *) entries->pdata, entries->len, &error);
  g_assert_no_error (error);
  return next;
}

static gboolean
is_done (const HwPlan *plan, gsize step)
{
  return hw_plan_find_step (plan, hw_project_get_step (plan->project, step)->number)->done;
}

/* Of the first step left that is set otherwise than in @first. (transfer full); NULL: all is as it was. */
static char *
find_other (const HwPlan *first, const HwPlan *plan)
{
  for (gsize i = 0; i < plan->n_steps; i++)
    for (int field = 0; plan->setups[i] != NULL && !is_done (plan, i) && field < HW_N_FIELDS; field++)
      {
        const HwValue *was = &first->setups[i]->values[field];
        const HwValue *is = &plan->setups[i]->values[field];

        if (was->applies && fabs (was->value - is->value) > 1e-6)
          return g_strdup_printf ("step %s, field %d: %g was %g", plan->setups[i]->step->number, field, is->value,
                                  was->value);
      }
  return NULL;
}

/* A room with a packet of every needle that @project wants there. (transfer full) */
static HwRoom *
buy_needles (const HwHandbook *handbook, const HwProject *project)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room, STATES);
  g_autoptr (GPtrArray) packets = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_packet_free);
  HwRoom *stocked;

  for (guint g = 0; g < plan->groups->len; g++)
    {
      const HwGroup *group = g_ptr_array_index (plan->groups, g);
      g_autofree char *id = g_strdup_printf ("packet-%u", g);
      HwPacket *packet;

      if (group->size_nm <= 0)
        continue;
      packet = hw_packet_new (id, handbook->systems[group->system].entry.id, handbook->points[group->point].entry.id,
                              group->size_nm);
      packet->twin_mm = group->twin_mm;
      packet->count = 9;
      g_ptr_array_add (packets, packet);
    }
  stocked = hw_room_with_packets (room, packets, &error);
  g_assert_no_error (error);
  return stocked;
}

/* Sewn step by step, as planned: what is left stays as it was planned and as its cards were printed. */
static void
check_order_stays (const HwHandbook *handbook, const HwProject *project, const char *name)
{
  HwRoom *room = buy_needles (handbook, project);
  g_autoptr (HwPlan) first = make_plan (handbook, project, room, STATES);
  g_autoptr (HwPlan) plan = hw_plan_ref (first);
  g_autofree char *left = list_left (plan);
  const char *rest = left;

  for (guint n = 0; plan->next >= 0; n++)
    {
      HwRoom *next = sew_next (plan, room, n);
      g_autofree char *now = NULL;
      g_autofree char *other = NULL;

      hw_room_unref (room);
      room = next;
      g_clear_pointer (&plan, hw_plan_unref);
      plan = make_plan (handbook, project, room, STATES);
      now = list_left (plan);
      rest = strchr (rest, ' ') + 1;
      other = find_other (first, plan);
      if (strcmp (now, rest) == 0 && other == NULL)
        continue;
      g_test_message ("%s, after %u steps: “%s” was “%s”; %s", name, n + 1, now, rest, other != NULL ? other : "");
      g_test_fail ();
      break;
    }
  hw_room_unref (room);
}

static void
test_order_stays (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();

  for (gsize i = 0; i < handbook->n_garments; i++)
    {
      const HwGarment *garment = &handbook->garments[i];
      g_autoptr (HwProject) project = hw_garment_make (handbook, garment, NULL, NULL, NULL, "made", NULL);

      check_order_stays (handbook, project, garment->entry.id);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (garments); i++)
    {
      g_autoptr (HwProject) project = workroom_garment (garments[i]);

      check_order_stays (handbook, project, garments[i]);
    }
}

static void
check_nearest (const char *second, const char *third)
{
  g_autoptr (HwHandbook) handbook = workroom_small ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, NULL, 3);
  g_autofree char *inside = g_strdup_printf (
    "<fabrics><fabric id='cloth' handbook='cotton'/></fabrics><threads><thread id='usual' handbook='usual'/></threads>"
    "<steps>"
    "<operation number='1' name='Seam' purpose='seam' length-cm='50'><ply fabric='cloth' count='2'/></operation>"
    "<operation number='2' name='Seam' purpose='seam' length-cm='50'><ply fabric='cloth' count='2'/>"
    "<set field='length' value='%s'/></operation>"
    "<operation number='3' name='Seam' purpose='seam' length-cm='50'><ply fabric='cloth' count='2'/>"
    "<set field='length' value='%s'/></operation></steps>", second, third);
  g_autoptr (HwProject) project = workroom_parse (inside);
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room, STATES);

  g_assert_cmpfloat_with_epsilon (plan->setups[0]->values[HW_FIELD_LENGTH].prefer, 2.5, 1e-6);
  g_assert_cmpfloat_with_epsilon (plan->setups[0]->values[HW_FIELD_LENGTH].value, 2.6, 1e-6);
  g_assert_cmpfloat_with_epsilon (plan->setups[1]->values[HW_FIELD_LENGTH].value, g_ascii_strtod (second, NULL), 1e-6);
  g_assert_cmpfloat_with_epsilon (plan->setups[2]->values[HW_FIELD_LENGTH].value, g_ascii_strtod (third, NULL), 1e-6);
}

/* Two others each offer a length inside the band, and either saves one change: the nearer one is taken, also where the
 * farther one is the smaller number, and whichever comes first. */
static void
test_nearest (void)
{
  check_nearest ("2.6", "2.3");
  check_nearest ("2.3", "2.6");
}

/* Another foot counts as much as another plate, and as much as half a millimetre of length. */
static void
test_distances (void)
{
  HwShareValues values = { .soft = { [1] = { [HW_SOFT_LENGTH] = 50 } } };
  g_autoptr (GPtrArray) machines = g_ptr_array_new ();
  g_autoptr (GArray) variants = g_array_new (FALSE, TRUE, sizeof (HwShareVariant));
  HwShareOperation operation = { .variants = variants };
  HwSharing sharing = { .n_operations = 1, .operations = &operation, .machines = machines };
  HwShareVariant preferred = { .distance = 0 };
  HwShareNumbers numbers = { .value = { 0 } };
  int length;

  g_ptr_array_add (machines, &values);
  g_array_append_val (variants, preferred);
  numbers.value[HW_SHARE_SOFT] = 1;
  length = hw_sharing_measure (&sharing, 0, &preferred, &numbers);
  g_assert_cmpint (length, >, 1);
  for (int part = HW_SHARE_FOOT; part <= HW_SHARE_PLATE; part++)
    {
      numbers = (HwShareNumbers) { .value = { 0 } };
      numbers.value[part] = 1;
      g_assert_cmpint (hw_sharing_measure (&sharing, 0, &preferred, &numbers), ==, length);
      numbers.value[HW_SHARE_SOFT] = 1;
      g_assert_cmpint (hw_sharing_measure (&sharing, 0, &preferred, &numbers), ==, 2 * length);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/regression", test_regression);
  g_test_add_func ("/share/never-dearer", test_never_dearer);
  g_test_add_func ("/share/no-detour", test_no_detour);
  g_test_add_func ("/share/refused", test_refused);
  g_test_add_func ("/share/own-minutes", test_own_minutes);
  g_test_add_func ("/share/threads", test_threads);
  g_test_add_func ("/share/cones", test_cones);
  g_test_add_func ("/share/same-thread", test_same_thread);
  g_test_add_func ("/share/one-dial", test_one_dial);
  g_test_add_func ("/share/order-stays", test_order_stays);
  g_test_add_func ("/share/nearest", test_nearest);
  g_test_add_func ("/share/distances", test_distances);
  g_test_add_func ("/share/sewn-stays", test_sewn_stays);
  return g_test_run ();
}
