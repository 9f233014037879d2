/* test-wishes.c - the order of work with wishes, against every order of the steps that there is
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Here a wish is taken at its word: of all orders that keep the arrows those are kept in which it holds; "first"
 * keeps those in which nothing stands before the step but what does so in all of them. What an order costs is added up
 * from the changes between its steps. The solver knows neither.
 */

#include "config.h"

#include "model/edit.h"
#include "plan/changes.h"
#include "plan/wish.h"
#include "workroom.h"

#include <string.h>

#define MAX_STEPS 8
#define STATES 200000

typedef struct { guint8 step[MAX_STEPS]; } Order;

/* What the orders are reckoned from. */
typedef struct
{
  const HwPlan *plan;
  gsize n;
  int   place[MAX_STEPS];            /* machine; -1 by hand */
  int   change[MAX_STEPS + 1][MAX_STEPS];    /* the last row from what stands on its machine now */
  int   walk;
} Work;

static HwPlan *
make_plan (const HwHandbook *handbook, const HwProject *project, const HwRoom *room)
{
  g_autoptr (GError) error = NULL;
  HwPlan *plan = hw_plan_new_within (handbook, project, room, STATES, &error);

  g_assert_no_error (error);
  return plan;
}

/* ---- random projects ---- */

static const char * const sewing[] = {
  "purpose=\"seam\" stitch=\"301\"", "purpose=\"hem\" stitch=\"301\"",
  "purpose=\"topstitch\" stitch=\"301\" needle-thread=\"thick\"",
  "purpose=\"seam\" stitch=\"504\"", "purpose=\"neaten\" stitch=\"504\"", "purpose=\"staystitch\" stitch=\"301\"",
};
static const char * const by_hand[] = { "press", "press", "fuse", "trim", "turn" };
static const char * const cloths[] = { "denim", "voile" };

static HwProject *
draw_project (GRand *random, gsize n, gboolean gather)
{
  g_autoptr (GString) text = g_string_new ("<fabrics><fabric id=\"denim\" handbook=\"denim\"/>"
                                           "<fabric id=\"voile\" handbook=\"voile\"/></fabrics>"
                                           "<threads><thread id=\"thin\" handbook=\"polyester-30\"/>"
                                           "<thread id=\"thick\" handbook=\"polyester-60\"/></threads><steps>");
  HwProject *project;

  for (gsize i = 1; i <= n; i++)
    {
      gboolean hand = g_rand_double (random) < 0.3;
      g_autoptr (GString) after = g_string_new (NULL);

      for (gsize k = 1; k < i; k++)
        if (g_rand_double (random) < 0.18)
          g_string_append_printf (after, "%zu ", k);
      if (hand)
        g_string_append_printf (text, "<hand number=\"%zu\" name=\"h\" kind=\"%s\" minutes=\"1\" after=\"%s\"/>", i,
                                by_hand[g_rand_int_range (random, 0, G_N_ELEMENTS (by_hand))], after->str);
      else
        g_string_append_printf (text, "<operation number=\"%zu\" name=\"o\" %s length-cm=\"20\" share=\"no\""
                                " after=\"%s\"><ply fabric=\"%s\" count=\"2\"/></operation>", i,
                                sewing[g_rand_int_range (random, 0, G_N_ELEMENTS (sewing))], after->str,
                                cloths[g_rand_int_range (random, 0, G_N_ELEMENTS (cloths))]);
    }
  g_string_append (text, "</steps>");
  project = workroom_parse (text->str);
  project->gather_hand = gather;
  return project;
}

static HwWish *
draw_wish (GRand *random, gsize n)
{
  HwWishKind kind = (HwWishKind) g_rand_int_range (random, 0, HW_N_WISH_KINDS);
  gsize n_steps = kind == HW_WISH_BEFORE ? 2 : kind == HW_WISH_TOGETHER ? (gsize) g_rand_int_range (random, 2, 4) : 1;
  g_auto (GStrv) steps = g_new0 (char *, n_steps + 1);

  for (gsize i = 0; i < n_steps; i++)
    steps[i] = g_strdup_printf ("%d", g_rand_int_range (random, 1, (int) n + 1));
  return hw_wish_new (kind, (const char * const *) steps);
}

/* Up to @n_wishes of those drawn that can be; the project is taken over. */
static HwProject *
draw_wishes (GRand *random, HwProject *project, int n_wishes)
{
  for (int tries = 0; tries < 40 && (int) project->wishes->len < n_wishes; tries++)
    {
      g_autoptr (HwWish) wish = draw_wish (random, project->steps->len);
      HwProject *next = hw_edit_add_wish (project, wish, NULL);

      if (next == NULL)
        continue;
      hw_project_unref (project);
      project = next;
    }
  return project;
}

/* ---- every order ---- */

static int
index_of (const HwProject *project, const char *number)
{
  return hw_project_find_step (project, number);
}

static int
place_in (const Order *order, int step)
{
  int place = 0;

  while (order->step[place] != step)
    place++;
  return place;
}

static gboolean
may_follow (const HwProject *project, gsize step, guint done)
{
  for (char **number = hw_project_get_step (project, step)->after; *number != NULL; number++)
    if ((done >> index_of (project, *number) & 1) == 0)
      return FALSE;
  return TRUE;
}

/* At most MAX_STEPS deep. */
static void
list_orders (const HwProject *project, Order *order, gsize filled, guint done, GArray *orders)
{
  if (filled == project->steps->len)
    g_array_append_vals (orders, order, 1);
  for (gsize i = 0; i < project->steps->len; i++)
    if ((done >> i & 1) == 0 && may_follow (project, i, done))
      {
        order->step[filled] = (guint8) i;
        list_orders (project, order, filled + 1, done | 1u << i, orders);
      }
}

static gboolean
keeps (const HwProject *project, const HwWish *wish, const Order *order)
{
  int first = place_in (order, index_of (project, wish->steps[0]));

  if (wish->kind == HW_WISH_BEFORE)
    return first < place_in (order, index_of (project, wish->steps[1]));
  for (int i = 1; wish->kind == HW_WISH_TOGETHER && wish->steps[i] != NULL; i++)
    if (place_in (order, index_of (project, wish->steps[i])) != first + i)
      return FALSE;
  return TRUE;
}

/* The steps that @step is kept together with, itself among them, as bits. */
static guint
get_unit (const HwProject *project, int step)
{
  for (guint w = 0; w < project->wishes->len; w++)
    {
      const HwWish *wish = g_ptr_array_index (project->wishes, w);
      guint bits = 0;

      for (char **number = wish->steps; *number != NULL; number++)
        bits |= 1u << index_of (project, *number);
      if (wish->kind == HW_WISH_TOGETHER && (bits >> step & 1) != 0)
        return bits;
    }
  return 1u << step;
}

/* The steps on one side of @unit in @order, as bits. */
static guint
beside (const Order *order, gsize n, guint unit, gboolean before)
{
  guint bits = 0;
  gsize i = 0;

  for (; (unit >> order->step[i] & 1) == 0; i++)
    bits |= before ? 1u << order->step[i] : 0;
  for (; !before && i < n; i++)
    bits |= 1u << order->step[i];
  return bits & ~unit;
}

/* Keeps those of @orders in which nothing is on that side of the step but what is there in all of them. */
static void
keep_ends (const HwProject *project, const HwWish *wish, GArray *orders)
{
  guint unit = get_unit (project, index_of (project, wish->steps[0]));
  gboolean before = wish->kind == HW_WISH_FIRST;
  gsize n = project->steps->len;
  guint always = ~0u;
  guint kept = 0;

  for (guint i = 0; i < orders->len; i++)
    always &= beside (&g_array_index (orders, Order, i), n, unit, before);
  for (guint i = 0; i < orders->len; i++)
    if (beside (&g_array_index (orders, Order, i), n, unit, before) == always)
      g_array_index (orders, Order, kept++) = g_array_index (orders, Order, i);
  g_array_set_size (orders, kept);
}

/* (transfer full): all orders of the steps that keep arrows and wishes. */
static GArray *
list_wished (const HwProject *project)
{
  GArray *orders = g_array_new (FALSE, FALSE, sizeof (Order));
  Order order;

  list_orders (project, &order, 0, 0, orders);
  for (guint w = 0; w < project->wishes->len; w++)
    {
      guint kept = 0;

      for (guint i = 0; i < orders->len; i++)
        if (keeps (project, g_ptr_array_index (project->wishes, w), &g_array_index (orders, Order, i)))
          g_array_index (orders, Order, kept++) = g_array_index (orders, Order, i);
      g_array_set_size (orders, kept);
    }
  for (guint w = 0; w < project->wishes->len; w++)
    {
      const HwWish *wish = g_ptr_array_index (project->wishes, w);

      if (wish->kind == HW_WISH_FIRST || wish->kind == HW_WISH_LAST)
        keep_ends (project, wish, orders);
    }
  return orders;
}

/* ---- what an order costs ---- */

static void
work_init (Work *self, const HwPlan *plan)
{
  const HwChangeCosts *costs = &plan->handbook->changes;

  memset (self, 0, sizeof *self);
  self->plan = plan;
  self->n = plan->n_steps;
  self->walk = hw_changes_walk (costs);
  for (gsize i = 0; i < self->n; i++)
    {
      const HwStep *step = hw_project_get_step (plan->project, i);
      gboolean iron = step->kind == HW_STEP_HAND && (step->hand == HW_HAND_PRESS || step->hand == HW_HAND_FUSE);
      HwMounted to;
      HwMounted now;

      self->place[i] = iron && plan->project->gather_hand ? 2 : -1;
      if (plan->setups[i] == NULL)
        continue;
      self->place[i] = g_str_equal (plan->setups[i]->machine->id, "home") ? 0 : 1;
      to = hw_mounted_from_setup (plan->setups[i]);
      now = hw_mounted_now (plan, plan->setups[i]->machine);
      self->change[MAX_STEPS][i] = hw_changes_cost (costs, &now, &to);
      for (gsize k = 0; k < self->n; k++)
        if (plan->setups[k] != NULL && plan->setups[k]->machine == plan->setups[i]->machine)
          {
            HwMounted from = hw_mounted_from_setup (plan->setups[k]);

            self->change[k][i] = hw_changes_cost (costs, &from, &to);
          }
    }
}

static int
cost_of (const Work *self, const Order *order)
{
  int mounted[3] = { MAX_STEPS, MAX_STEPS, MAX_STEPS };
  int at = -1;
  int cost = 0;

  for (gsize i = 0; i < self->n; i++)
    {
      int step = order->step[i];
      int place = self->place[step];

      if (place < 0)
        continue;
      cost += at >= 0 && at != place ? self->walk : 0;
      cost += place < 2 ? self->change[mounted[place]][step] : 0;
      mounted[place] = step;
      at = place;
    }
  return cost;
}

static int
cheapest_of (const Work *self, const GArray *orders)
{
  int cheapest = G_MAXINT;

  for (guint i = 0; i < orders->len; i++)
    cheapest = MIN (cheapest, cost_of (self, &g_array_index (orders, Order, i)));
  return cheapest;
}

static int
thousandths (double minutes)
{
  return (int) (minutes * 1000 + 0.5);
}

static gboolean
holds (const GArray *orders, const Order *order, gsize n)
{
  for (guint i = 0; i < orders->len; i++)
    if (memcmp (&g_array_index (orders, Order, i), order, n) == 0)
      return TRUE;
  return FALSE;
}

/* The plan's order is one of those that keep all wishes, and none is cheaper. Returns its cost. */
static int
check_plan (const HwPlan *plan)
{
  g_autoptr (GArray) orders = list_wished (plan->project);
  Order order = { { 0 } };
  Work work;
  int cost;

  work_init (&work, plan);
  g_assert_true (plan->proved);
  for (gsize i = 0; i < plan->n_steps; i++)
    order.step[i] = (guint8) g_array_index (plan->order, HwPlanStep, i).step;
  g_assert_true (holds (orders, &order, plan->n_steps));
  cost = cost_of (&work, &order);
  g_assert_cmpint (thousandths (plan->as_ordered.change_minutes), ==, cost);
  g_assert_cmpint (cost, ==, cheapest_of (&work, orders));
  return cost;
}

typedef struct { const char *path; guint32 seed; gboolean gather; int n_wishes; } Every;

static const Every every[] = {
  { "/wishes/every-order/none", 1, FALSE, 0 }, { "/wishes/every-order/gathered", 2, TRUE, 0 },
  { "/wishes/every-order/one", 3, FALSE, 1 },  { "/wishes/every-order/two", 4, FALSE, 2 },
  { "/wishes/every-order/four", 5, FALSE, 4 }, { "/wishes/every-order/gathered-two", 6, TRUE, 2 },
  { "/wishes/every-order/gathered-four", 7, TRUE, 4 },
};

static void
test_every_order (gconstpointer data)
{
  const Every *self = data;
  g_autoptr (GRand) random = g_rand_new_with_seed (self->seed);
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "household", 3);
  int n_dearer = 0;

  for (int i = 0; i < 60; i++)
    {
      gsize n = (gsize) g_rand_int_range (random, 3, i % 12 == 0 ? MAX_STEPS + 1 : MAX_STEPS);
      g_autoptr (HwProject) plain = draw_project (random, n, self->gather);
      g_autoptr (HwProject) project = draw_wishes (random, hw_project_ref (plain), self->n_wishes);
      g_autoptr (HwPlan) plan = make_plan (handbook, project, room);
      g_autoptr (HwPlan) without = make_plan (handbook, plain, room);
      int cost = check_plan (plan);

      g_assert_cmpint (cost, >=, thousandths (without->as_ordered.change_minutes));
      n_dearer += cost > thousandths (without->as_ordered.change_minutes) ? 1 : 0;
    }
  g_test_message ("%d dearer for their wishes", n_dearer);
  g_assert_true (n_dearer > 0 || self->n_wishes == 0);
}

/* What a wish costs is the difference of the two, tried or taken in; one that cannot be names a chain of arrows. */
static void
test_cost_and_chain (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (8);
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "household", 3);
  int n_chains = 0;

  for (int i = 0; i < 200; i++)
    {
      g_autoptr (HwProject) plain = draw_project (random, 6, i % 2);
      g_autoptr (HwWish) wish = draw_wish (random, 6);
      g_autoptr (HwPlan) without = make_plan (handbook, plain, room);
      g_autoptr (HwWishAnswer) tried = hw_wish_try (without, wish, STATES);
      g_autoptr (HwProject) project = hw_edit_add_wish (plain, wish, NULL);
      g_autoptr (HwPlan) with = NULL;
      g_autoptr (HwWishAnswer) cost = NULL;

      g_assert_true (tried->possible == (project != NULL));
      g_assert_true (tried->possible == (tried->refusal == NULL));
      for (char **number = tried->chain; number != NULL && number[1] != NULL; number++)
        {
          const HwStep *step = hw_project_get_step (plain, (gsize) index_of (plain, number[0]));

          g_assert_true (g_strv_contains ((const char * const *) step->after, number[1]));
          g_assert_false (tried->by_wishes);
        }
      n_chains += tried->chain != NULL ? 1 : 0;
      if (project == NULL)
        continue;
      with = make_plan (handbook, project, room);
      cost = hw_wish_cost (with, 0, STATES);
      g_assert_true (cost->possible && cost->proved && tried->proved);
      g_assert_cmpfloat (cost->minutes, ==, tried->minutes);
      g_assert_cmpint (thousandths (cost->minutes), ==, check_plan (with) - check_plan (without));
    }
  g_assert_cmpint (n_chains, >, 10);
}

/* ---- by hand ---- */

#define STEP(number, after, what) "<operation number=\"" number "\" name=\"o\" " what " length-cm=\"20\"" \
                                  " after=\"" after "\"><ply fabric=\"denim\" count=\"2\"/></operation>"
#define SEAM "purpose=\"seam\" stitch=\"301\""
#define TOP "purpose=\"topstitch\" stitch=\"301\" needle-thread=\"thick\""

static HwProject *
make_project (const char *steps, const char *wishes)
{
  g_autofree char *inside = g_strconcat ("<fabrics><fabric id=\"denim\" handbook=\"denim\"/></fabrics><threads>"
                                         "<thread id=\"thin\" handbook=\"polyester-30\"/>"
                                         "<thread id=\"thick\" handbook=\"polyester-60\"/></threads><steps>", steps,
                                         "</steps><wishes>", wishes, "</wishes>", NULL);

  return workroom_parse (inside);
}

static char *
describe_order (const HwPlan *plan)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < plan->order->len; i++)
    {
      gsize step = g_array_index (plan->order, HwPlanStep, i).step;

      g_string_append_printf (text, "%s%s", i > 0 ? " " : "", hw_project_get_step (plan->project, step)->number);
    }
  return g_string_free (text, FALSE);
}

typedef struct { const char *path; const char *steps; const char *wishes; const char *order; } ByHand;

static const ByHand by_hand_cases[] = {
  { "/wishes/order/none", STEP ("1", "", SEAM) STEP ("2", "", TOP) STEP ("3", "", SEAM) STEP ("4", "", TOP), "",
    "1 3 2 4" },
  { "/wishes/order/before", STEP ("1", "", SEAM) STEP ("2", "", TOP) STEP ("3", "", SEAM),
    "<wish kind=\"before\" steps=\"2 1\"/>", "2 1 3" },
  { "/wishes/order/first", STEP ("1", "", SEAM) STEP ("2", "1", TOP) STEP ("3", "", SEAM),
    "<wish kind=\"first\" steps=\"2\"/>", "1 2 3" },
  { "/wishes/order/last", STEP ("1", "", SEAM) STEP ("2", "1", SEAM) STEP ("3", "", SEAM),
    "<wish kind=\"last\" steps=\"1\"/>", "3 1 2" },
  { "/wishes/order/two-first", STEP ("1", "", SEAM) STEP ("2", "", SEAM) STEP ("3", "", SEAM),
    "<wish kind=\"first\" steps=\"3\"/><wish kind=\"first\" steps=\"2\"/>", "3 2 1" },
  { "/wishes/order/together", STEP ("1", "", SEAM) STEP ("2", "", TOP) STEP ("3", "", SEAM) STEP ("4", "", TOP),
    "<wish kind=\"together\" steps=\"3 4\"/><wish kind=\"together\" steps=\"2 1\"/>", "2 1 3 4" },
  /* What is done by hand stays out of a run, or in it. */
  { "/wishes/order/hand-outside",
    STEP ("1", "", SEAM) "<hand number=\"2\" name=\"h\" kind=\"trim\" minutes=\"1\" after=\"1\"/>" STEP ("3", "", SEAM),
    "<wish kind=\"together\" steps=\"1 3\"/>", "1 3 2" },
  { "/wishes/order/hand-inside",
    "<hand number=\"2\" name=\"h\" kind=\"trim\" minutes=\"1\"/>" STEP ("1", "", SEAM) STEP ("3", "", SEAM),
    "<wish kind=\"together\" steps=\"1 2 3\"/>", "1 2 3" },
  { "/wishes/order/hand-only",
    "<hand number=\"2\" name=\"h\" kind=\"trim\" minutes=\"1\" after=\"1\"/>" STEP ("1", "", SEAM)
    "<hand number=\"4\" name=\"h\" kind=\"trim\" minutes=\"1\"/>" STEP ("3", "", SEAM),
    "<wish kind=\"together\" steps=\"4 2\"/>", "1 4 2 3" },
};

static void
test_by_hand (gconstpointer data)
{
  const ByHand *self = data;
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, NULL, 0);
  g_autoptr (HwProject) project = make_project (self->steps, self->wishes);
  g_autoptr (HwPlan) plan = make_plan (handbook, project, room);
  g_autofree char *order = describe_order (plan);

  g_assert_cmpstr (order, ==, self->order);
}

/* What is begun is finished: the rest of the steps kept together comes next, whatever is cheaper. */
static void
test_partly_done (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, NULL, 0);
  g_autoptr (HwProject) project = make_project (STEP ("1", "", SEAM) STEP ("2", "", TOP) STEP ("3", "", SEAM),
                                                "<wish kind=\"together\" steps=\"1 2\"/>");
  g_autoptr (HwPlan) before = make_plan (handbook, project, room);
  g_autoptr (HwJournalEntry) entry = hw_plan_entry_for_step (before, "1", 0);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) sewn = NULL;
  g_autoptr (HwPlan) after = NULL;
  g_autofree char *order = NULL;

  g_free (entry->time);
  entry->time = g_strdup ("2024-05-02T10:00:00Z");
  sewn = hw_room_append (room, entry, &error);
  g_assert_no_error (error);
  after = make_plan (handbook, project, sewn);
  order = describe_order (after);
  g_assert_cmpstr (order, ==, "1 2 3");
}

static gsize
find_place (const HwPlan *plan, const char *number)
{
  return (gsize) (hw_plan_find_step (plan, number) - &g_array_index (plan->order, HwPlanStep, 0));
}

/* On whole garments: no wish and no arrow is broken, and the plan stays the same from one time to the next. */
static void
test_garments (void)
{
  static const char * const names[] = { "jeans", "t-shirt", "wrap-skirt", "velvet-jacket" };
  g_autoptr (GRand) random = g_rand_new_with_seed (9);
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "household", 3);
  int n_proved = 0;

  for (gsize g = 0; g < G_N_ELEMENTS (names); g++)
    for (int round = 0; round < 4; round++)
      {
        g_autoptr (HwProject) project = workroom_garment (names[g]);
        g_autoptr (HwPlan) plan = NULL;
        g_autoptr (HwPlan) again = NULL;
        g_autofree char *order = NULL;
        g_autofree char *order_again = NULL;

        for (int w = 0; w < 1 + round; w++)
          {
            gsize a = (gsize) g_rand_int_range (random, 0, (int) project->steps->len);
            gsize b = (gsize) g_rand_int_range (random, 0, (int) project->steps->len);
            const char *steps[] = { hw_project_get_step (project, a)->number, hw_project_get_step (project, b)->number,
                                    NULL };
            g_autoptr (HwWish) wish = hw_wish_new (w % 2 ? HW_WISH_TOGETHER : HW_WISH_BEFORE, steps);
            HwProject *next = hw_edit_add_wish (project, wish, NULL);

            if (next == NULL)
              continue;
            hw_project_unref (project);
            project = next;
          }
        project->gather_hand = round % 2;
        plan = make_plan (handbook, project, room);
        again = make_plan (handbook, project, room);
        order = describe_order (plan);
        order_again = describe_order (again);
        g_assert_cmpstr (order, ==, order_again);
        n_proved += plan->proved ? 1 : 0;
        for (guint w = 0; w < project->wishes->len; w++)
          {
            const HwWish *wish = g_ptr_array_index (project->wishes, w);
            gsize first = find_place (plan, wish->steps[0]);

            for (gsize k = 1; wish->steps[k] != NULL; k++)
              {
                gsize place = find_place (plan, wish->steps[k]);

                g_assert_true (wish->kind == HW_WISH_BEFORE ? place > first : place == first + k);
              }
          }
      }
  g_test_message ("%d of 16 proved", n_proved);
  g_assert_cmpint (n_proved, >=, 14);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (every); i++)
    g_test_add_data_func (every[i].path, &every[i], test_every_order);
  for (gsize i = 0; i < G_N_ELEMENTS (by_hand_cases); i++)
    g_test_add_data_func (by_hand_cases[i].path, &by_hand_cases[i], test_by_hand);
  g_test_add_func ("/wishes/cost-and-chain", test_cost_and_chain);
  g_test_add_func ("/wishes/partly-done", test_partly_done);
  g_test_add_func ("/wishes/garments", test_garments);
  return g_test_run ();
}
