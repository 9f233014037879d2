/* test-agree.c - agreeing on set-ups against every choice there is
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/agree.h"

#include <string.h>

#define MAX_N 100
#define MAX_KINDS 4

typedef struct
{
  HwAgreeProblem   problem;
  HwAgreeOperation operations[MAX_N];
  int              kind_cost[MAX_KINDS * MAX_KINDS];
} Case;

static void
draw_operation (HwAgreeOperation *op, GRand *random, const int *n_values)
{
  for (int p = 0; p < HW_AGREE_N_PARTS; p++)
    {
      op->prefer[p] = g_rand_int_range (random, 0, n_values[p]);
      op->accept[p] = (guint64) 1 << op->prefer[p];
      for (int v = 0; v < n_values[p]; v++)
        {
          op->distance[p][v] = v == op->prefer[p] ? 0 : g_rand_int_range (random, 1, 4);
          if (g_rand_double (random) < 0.45)
            op->accept[p] |= (guint64) 1 << v;
        }
    }
}

static void
draw_case (Case *c, GRand *random, gsize n, int n_machines, const int *n_values)
{
  memset (c, 0, sizeof *c);
  c->problem.n_operations = n;
  c->problem.operations = c->operations;
  c->problem.n_kinds = (gsize) g_rand_int_range (random, 1, MAX_KINDS + 1);
  c->problem.kind_cost = c->kind_cost;
  for (int p = 0; p < HW_AGREE_N_PARTS; p++)
    c->problem.cost[p] = g_rand_int_range (random, 1, 20) * 100;
  for (gsize a = 0; a < c->problem.n_kinds; a++)
    for (gsize b = 0; b < a; b++)
      {
        int cost = g_rand_int_range (random, 1, 3000);

        c->kind_cost[a * c->problem.n_kinds + b] = cost;
        c->kind_cost[b * c->problem.n_kinds + a] = cost;
      }
  for (gsize i = 0; i < n; i++)
    {
      c->operations[i].machine = g_rand_int_range (random, 0, n_machines);
      c->operations[i].kind = g_rand_int_range (random, 0, (int) c->problem.n_kinds);
      draw_operation (&c->operations[i], random, n_values);
    }
}

/* ---- our own score: Kruskal's method, groups counted by comparing pairs ---- */

static gboolean
same_group (const HwAgreeProblem *p, const HwAgreeChoice *choices, gsize a, gsize b)
{
  return p->operations[a].machine == p->operations[b].machine && p->operations[a].kind == p->operations[b].kind
         && memcmp (&choices[a], &choices[b], sizeof choices[a]) == 0;
}

static int
change_between (const HwAgreeProblem *p, const HwAgreeChoice *choices, gsize a, gsize b)
{
  int change = p->kind_cost[(gsize) p->operations[a].kind * p->n_kinds + (gsize) p->operations[b].kind];

  for (int part = 0; part < HW_AGREE_N_PARTS; part++)
    if (choices[a].value[part] != choices[b].value[part])
      change += p->cost[part];
  return change;
}

static HwAgreeScore
score (const HwAgreeProblem *p, const HwAgreeChoice *choices)
{
  HwAgreeScore result = { 0, 0, 0 };
  gsize tree[MAX_N];

  for (gsize i = 0; i < p->n_operations; i++)
    {
      gboolean first = TRUE;

      tree[i] = i;
      for (gsize k = 0; k < i; k++)
        if (same_group (p, choices, i, k))
          {
            first = FALSE;
            tree[i] = tree[k];
          }
      result.groups += first ? 1 : 0;
      for (int part = 0; part < HW_AGREE_N_PARTS; part++)
        result.distance += p->operations[i].distance[part][choices[i].value[part]];
    }
  for (;;)
    {
      int cheapest = G_MAXINT;
      gsize from = 0, to = 0;

      for (gsize a = 0; a < p->n_operations; a++)
        for (gsize b = 0; b < p->n_operations; b++)
          if (tree[a] != tree[b] && p->operations[a].machine == p->operations[b].machine
              && change_between (p, choices, a, b) < cheapest)
            {
              cheapest = change_between (p, choices, a, b);
              from = tree[a];
              to = tree[b];
            }
      if (cheapest == G_MAXINT)
        return result;
      result.change += cheapest;
      for (gsize i = 0; i < p->n_operations; i++)
        if (tree[i] == from)
          tree[i] = to;
    }
}

static void
assert_same_score (HwAgreeScore a, HwAgreeScore b)
{
  g_assert_cmpint (a.groups, ==, b.groups);
  g_assert_cmpint (a.change, ==, b.change);
  g_assert_cmpint (a.distance, ==, b.distance);
}

static gboolean
accepted (const HwAgreeProblem *p, const HwAgreeChoice *choices)
{
  for (gsize i = 0; i < p->n_operations; i++)
    for (int part = 0; part < HW_AGREE_N_PARTS; part++)
      if (!(p->operations[i].accept[part] >> choices[i].value[part] & 1))
        return FALSE;
  return TRUE;
}

/* Counts through every combination of accepted values like an odometer. */
static HwAgreeScore
best_of_all (const HwAgreeProblem *p)
{
  HwAgreeChoice choices[MAX_N] = { 0 };
  HwAgreeScore best = { G_MAXINT, G_MAXINT, G_MAXINT };
  gsize wheel = 0;

  while (wheel < p->n_operations * HW_AGREE_N_PARTS)
    {
      if (accepted (p, choices))
        {
          HwAgreeScore found = score (p, choices);

          if (hw_agree_score_compare (&found, &best) < 0)
            best = found;
        }
      for (wheel = 0; wheel < p->n_operations * HW_AGREE_N_PARTS; wheel++)
        {
          int *value = &choices[wheel / HW_AGREE_N_PARTS].value[wheel % HW_AGREE_N_PARTS];
          guint64 accept = p->operations[wheel / HW_AGREE_N_PARTS].accept[wheel % HW_AGREE_N_PARTS];

          do
            (*value)++;
          while (*value < 4 && !(accept >> *value & 1));
          if (*value < 4)
            break;
          *value = 0;
          while (!(accept >> *value & 1))
            (*value)++;
        }
    }
  return best;
}

static void
test_every_choice (void)
{
  static const int n_values[HW_AGREE_N_PARTS] = { 3, 2, 1 };
  g_autoptr (GRand) random = g_rand_new_with_seed (99);

  for (int round = 0; round < 300; round++)
    {
      Case c;
      HwAgreeChoice choices[MAX_N];

      draw_case (&c, random, (gsize) g_rand_int_range (random, 1, 8), g_rand_int_range (random, 1, 3), n_values);
      g_assert_true (hw_agree (&c.problem, choices));
      g_assert_true (accepted (&c.problem, choices));
      assert_same_score (hw_agree_score (&c.problem, choices), score (&c.problem, choices));
      assert_same_score (score (&c.problem, choices), best_of_all (&c.problem));
    }
}

/* Large cases: never worse than what everyone prefers, and the same each time. */
static void
test_large (void)
{
  static const int n_values[HW_AGREE_N_PARTS] = { 9, 5, 2 };
  g_autoptr (GRand) random = g_rand_new_with_seed (5);

  for (int round = 0; round < 20; round++)
    {
      Case c;
      HwAgreeChoice choices[MAX_N], again[MAX_N], preferred[MAX_N];
      HwAgreeScore agreed, alone;

      draw_case (&c, random, MAX_N, 2, n_values);
      hw_agree (&c.problem, choices);
      hw_agree (&c.problem, again);
      for (gsize i = 0; i < MAX_N; i++)
        {
          memcpy (preferred[i].value, c.operations[i].prefer, sizeof preferred[i].value);
          g_assert_cmpint (memcmp (&choices[i], &again[i], sizeof again[i]), ==, 0);
        }
      g_assert_true (accepted (&c.problem, choices));
      agreed = score (&c.problem, choices);
      alone = score (&c.problem, preferred);
      g_assert_cmpint (agreed.groups, <=, alone.groups);
    }
}

/* Many operations of few sorts: the choice is that of one of each sort, counted as often. */
static void
test_many_alike (void)
{
  static const int n_values[HW_AGREE_N_PARTS] = { 3, 2, 1 };
  g_autoptr (GRand) random = g_rand_new_with_seed (64);

  for (int round = 0; round < 20; round++)
    {
      Case few, many;
      HwAgreeChoice few_choices[MAX_N], many_choices[MAX_N];
      HwAgreeScore few_score, many_score;

      draw_case (&few, random, 5, 1, n_values);
      many = few;
      many.problem.operations = many.operations;
      many.problem.kind_cost = many.kind_cost;
      many.problem.n_operations = MAX_N;
      for (gsize i = 5; i < MAX_N; i++)
        many.operations[i] = few.operations[i % 5];
      g_assert_true (hw_agree (&few.problem, few_choices));
      g_assert_true (hw_agree (&many.problem, many_choices));
      few_score = score (&few.problem, few_choices);
      many_score = score (&many.problem, many_choices);
      few_score.distance *= MAX_N / 5;
      assert_same_score (few_score, many_score);
    }
}

/* Two operations that accept nothing but their own keep it; a third between them joins the nearer. */
static void
test_nearer_is_joined (void)
{
  static const int kind_cost[] = { 0 };
  static HwAgreeOperation ops[3];
  HwAgreeProblem problem = { 3, ops, { 1000, 500, 2000 }, 1, kind_cost };
  HwAgreeChoice choices[3];

  for (int i = 0; i < 3; i++)
    {
      ops[i].prefer[HW_AGREE_NEEDLE] = i;
      ops[i].accept[HW_AGREE_NEEDLE] = i == 2 ? 7u : 1u << i;
      ops[i].accept[HW_AGREE_FOOT] = ops[i].accept[HW_AGREE_PLATE] = 1;
    }
  ops[2].distance[HW_AGREE_NEEDLE][0] = 20;
  ops[2].distance[HW_AGREE_NEEDLE][1] = 10;
  g_assert_true (hw_agree (&problem, choices));
  g_assert_cmpint (choices[0].value[HW_AGREE_NEEDLE], ==, 0);
  g_assert_cmpint (choices[1].value[HW_AGREE_NEEDLE], ==, 1);
  g_assert_cmpint (choices[2].value[HW_AGREE_NEEDLE], ==, 1);
}

/* Topstitching in its own thread takes the needle that the seams need anyway: one change less. */
static void
test_needle_shared_across_threads (void)
{
  static const int kind_cost[] = { 0, 1500, 1500, 0 };
  static HwAgreeOperation ops[2];
  HwAgreeProblem problem = { 2, ops, { 1000, 500, 2000 }, 2, kind_cost };
  HwAgreeChoice choices[2];

  for (int i = 0; i < 2; i++)
    {
      ops[i].kind = i;
      ops[i].prefer[HW_AGREE_NEEDLE] = i;
      ops[i].accept[HW_AGREE_NEEDLE] = i == 1 ? 3u : 1u;
      ops[i].accept[HW_AGREE_FOOT] = ops[i].accept[HW_AGREE_PLATE] = 1;
    }
  ops[1].distance[HW_AGREE_NEEDLE][0] = 10;
  g_assert_true (hw_agree (&problem, choices));
  g_assert_cmpint (choices[1].value[HW_AGREE_NEEDLE], ==, 0);
  g_assert_cmpint (hw_agree_score (&problem, choices).change, ==, 1500);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/agree/every-choice", test_every_choice);
  g_test_add_func ("/agree/large", test_large);
  g_test_add_func ("/agree/many-alike", test_many_alike);
  g_test_add_func ("/agree/nearer-is-joined", test_nearer_is_joined);
  g_test_add_func ("/agree/needle-shared-across-threads", test_needle_shared_across_threads);
  return g_test_run ();
}
