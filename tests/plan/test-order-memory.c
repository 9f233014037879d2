/* test-order-memory.c - orders proved before are remembered, and proofs that nobody wants any more are given up
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/edit.h"
#include "plan/changes.h"
#include "plan/plan.h"
#include "workroom.h"

#include <string.h>

static HwHandbook *handbook;             /* one for all plans: their set-ups point into it */

static HwPlan *
make_plan (const HwProject *project, const HwRoom *room, guint max_states, HwOrderMemory *memory, const int *cancelled)
{
  g_autoptr (GError) error = NULL;
  HwPlanEffort effort = { max_states, memory, cancelled, NULL };
  HwPlan *plan = hw_plan_new_with (handbook, project, room, &effort, &error);

  g_assert_no_error (error);
  return plan;
}

static void
assert_same_setup (const HwSetup *a, const HwSetup *b)
{
  HwMounted x, y;

  g_assert_true ((a != NULL) == (b != NULL));
  if (a == NULL)
    return;
  x = hw_mounted_from_setup (a);
  y = hw_mounted_from_setup (b);
  g_assert_true (hw_mounted_same (&x, &y));
}

static void
assert_same_plan (const HwPlan *a, const HwPlan *b)
{
  g_assert_cmpuint (a->order->len, ==, b->order->len);
  for (guint i = 0; i < a->order->len; i++)
    {
      const HwPlanStep *x = &g_array_index (a->order, HwPlanStep, i), *y = &g_array_index (b->order, HwPlanStep, i);

      g_assert_cmpuint (x->step, ==, y->step);
      g_assert_cmpint (x->group, ==, y->group);
      g_assert_cmpuint (x->changes, ==, y->changes);
      g_assert_cmpfloat (x->change_minutes, ==, y->change_minutes);
      assert_same_setup (a->setups[x->step], b->setups[y->step]);
    }
  g_assert_cmpuint (a->groups->len, ==, b->groups->len);
  g_assert_cmpuint (a->needles->len, ==, b->needles->len);
  g_assert_cmpfloat (a->as_ordered.change_minutes, ==, b->as_ordered.change_minutes);
  g_assert_cmpint (a->as_ordered.changes, ==, b->as_ordered.changes);
  g_assert_cmpfloat (a->bound_minutes, ==, b->bound_minutes);
  g_assert_true (a->proved == b->proved && a->settled == b->settled);
}

static const char * const garments[] = { "wrap-skirt", "t-shirt", "jeans", "velvet-jacket", "far/quilt" };

/* A title, a seam's length: nothing that the order depends on. */
static HwProject *
edit_idly (const HwProject *project)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) renamed = hw_edit_set_title (project, "Another title", &error);
  HwProject *edited = NULL;

  for (gsize i = 0; i < project->steps->len && edited == NULL; i++)
    {
      const HwStep *step = hw_project_get_step (project, i);
      HwStep longer = *step;

      longer.length_cm += 1;
      if (step->kind == HW_STEP_OPERATION)
        edited = hw_edit_put_step (renamed, &longer, &error);
    }
  g_assert_no_error (error);
  g_assert_nonnull (edited);
  return edited;
}

static void
test_idle_edit (void)
{
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);

  for (gsize i = 0; i < G_N_ELEMENTS (garments); i++)
    {
      g_autoptr (HwOrderMemory) memory = hw_order_memory_new ();
      g_autoptr (HwProject) project = workroom_garment (garments[i]);
      g_autoptr (HwProject) edited = edit_idly (project);
      g_autoptr (HwPlan) proof = make_plan (project, room, HW_PLAN_PROOF_STATES, memory, NULL);
      g_autoptr (HwPlan) again = make_plan (edited, room, HW_PLAN_QUICK_STATES, memory, NULL);
      g_autoptr (HwPlan) full = make_plan (edited, room, HW_PLAN_PROOF_STATES, NULL, NULL);

      g_assert_true (proof->proved && proof->settled);
      g_assert_cmpuint (proof->n_states, >, 0);
      g_assert_cmpuint (full->n_states, >, 0);
      g_assert_true (again->proved && again->settled);
      g_assert_cmpuint (again->n_states, ==, 0);
      assert_same_plan (again, full);
    }
}

/* What the order depends on is asked anew: another wish. */
static void
test_real_edit (void)
{
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  g_autoptr (HwOrderMemory) memory = hw_order_memory_new ();
  g_autoptr (HwProject) project = workroom_garment ("jeans");
  g_autoptr (HwPlan) proof = make_plan (project, room, HW_PLAN_PROOF_STATES, memory, NULL);
  static const HwWishKind kinds[] = { HW_WISH_LAST, HW_WISH_FIRST };
  int n_asked = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (GError) error = NULL;
      char *steps[] = { (char *) "1", NULL };
      HwWish wish = { .kind = kinds[i], .steps = steps };
      g_autoptr (HwProject) wished = hw_edit_add_wish (project, &wish, &error);
      g_autoptr (HwPlan) plan = NULL;
      g_autoptr (HwPlan) full = NULL;

      if (wished == NULL)                /* the making up has something before it, or after it */
        continue;
      plan = make_plan (wished, room, HW_PLAN_PROOF_STATES, memory, NULL);
      full = make_plan (wished, room, HW_PLAN_PROOF_STATES, NULL, NULL);
      g_assert_cmpuint (plan->n_states, >, 0);
      assert_same_plan (plan, full);
      n_asked++;
    }
  g_assert_cmpint (n_asked, >, 0);
}

/* Cancelled before it began: hardly a state looked at, nothing remembered, and the next proof is right. */
static void
test_cancelled (void)
{
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "overlock", 3);
  int n_open = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (garments); i++)
    {
      int cancelled = 1;
      g_autoptr (HwOrderMemory) memory = hw_order_memory_new ();
      g_autoptr (HwProject) project = workroom_garment (garments[i]);
      g_autoptr (HwPlan) stopped = make_plan (project, room, HW_PLAN_PROOF_STATES, memory, &cancelled);
      g_autoptr (HwPlan) later = make_plan (project, room, HW_PLAN_PROOF_STATES, memory, NULL);
      g_autoptr (HwPlan) full = make_plan (project, room, HW_PLAN_PROOF_STATES, NULL, NULL);

      g_assert_cmpuint (stopped->n_states, <=, 2);
      g_assert_false (stopped->settled);
      g_assert_cmpfloat (stopped->as_ordered.change_minutes, >=, full->as_ordered.change_minutes);
      g_assert_cmpfloat (stopped->bound_minutes, <=, full->as_ordered.change_minutes + 1e-9);
      g_assert_cmpuint (later->n_states, ==, full->n_states);
      assert_same_plan (later, full);
      n_open += stopped->proved ? 0 : 1;
    }
  g_assert_cmpint (n_open, >, 0);
}

/* The answer not asked for longest is forgotten first. */
static void
test_room_for (void)
{
  g_autoptr (HwOrderMemory) memory = hw_order_memory_new ();
  int order[] = { 0, 0 }, setup[] = { 0, 0 };
  HwOrderResult result = { .n_operations = 1, .order = order, .setup = setup, .n_states = 5, .proved = TRUE };
  g_autoptr (GPtrArray) questions = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_autoptr (HwOrderResult) forgotten = NULL;

  for (int i = 0; i <= HW_ORDER_MEMORY_SIZE; i++)
    {
      g_autoptr (HwOrderResult) first = NULL;

      g_ptr_array_add (questions, g_bytes_new (&i, sizeof i));
      result.cost = i;
      hw_order_memory_keep (memory, g_ptr_array_index (questions, i), &result);
      first = hw_order_memory_recall (memory, g_ptr_array_index (questions, 0));
      g_assert_nonnull (first);
      g_assert_cmpint (first->cost, ==, 0);
      g_assert_cmpuint (first->n_states, ==, 0);
    }
  forgotten = hw_order_memory_recall (memory, g_ptr_array_index (questions, 1));
  g_assert_null (forgotten);
  for (int i = 2; i <= HW_ORDER_MEMORY_SIZE; i++)
    {
      g_autoptr (HwOrderResult) kept = hw_order_memory_recall (memory, g_ptr_array_index (questions, i));

      g_assert_nonnull (kept);
      g_assert_cmpint (kept->cost, ==, i);
    }
}

/* Any number of the problem that is other makes another question. */
static void
test_question (void)
{
  int setup[] = { 0, 1, 0 }, machine[] = { 0, 0 }, change[] = { 0, 5, 5, 0 }, entry[] = { 1, 2 }, walk[] = { 0 };
  HwOrderArrow arrows[] = { { 0, 1 } };
  int members[] = { 1, 2 };
  int keep[] = { 1, 2, 0 };
  HwOrderRun run = { 2, members };
  HwOrderProblem problem = { .n_operations = 3, .setup = setup, .n_arrows = 1, .arrows = arrows, .n_setups = 2,
                             .machine = machine, .change = change, .entry = entry, .n_machines = 1, .walk = walk };
  int *numbers[] = { &setup[2], &change[1], &entry[1], &arrows[0].before, &problem.at, &members[0] };
  g_autoptr (GBytes) first = hw_order_question (&problem, &run, 1, NULL);
  g_autoptr (GBytes) without = hw_order_question (&problem, NULL, 0, NULL);

  g_autoptr (GBytes) kept = hw_order_question (&problem, &run, 1, keep);

  g_assert_false (g_bytes_equal (first, without));
  g_assert_false (g_bytes_equal (first, kept));
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autoptr (GBytes) other = NULL;
      g_autoptr (GBytes) back = NULL;

      *numbers[i] += 1;
      other = hw_order_question (&problem, &run, 1, NULL);
      g_assert_false (g_bytes_equal (first, other));
      *numbers[i] -= 1;
      back = hw_order_question (&problem, &run, 1, NULL);
      g_assert_true (g_bytes_equal (first, back));
    }
}

int
main (int argc, char *argv[])
{
  int status;

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/order-memory/idle-edit", test_idle_edit);
  g_test_add_func ("/order-memory/real-edit", test_real_edit);
  g_test_add_func ("/order-memory/cancelled", test_cancelled);
  g_test_add_func ("/order-memory/room-for", test_room_for);
  g_test_add_func ("/order-memory/question", test_question);
  handbook = workroom_handbook ();
  status = g_test_run ();
  hw_handbook_unref (handbook);
  return status;
}
