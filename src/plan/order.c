/* order.c - the order of work with the least change time
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * With one machine this is the sequential ordering problem: a shortest asymmetric tour, open at its
 * end, with precedence. With several machines each keeps what is mounted on it, so that a state is the
 * set of operations done, the set-up mounted on every machine and the machine one sits at.
 *
 * Closure. Both matrices, set-up to set-up on one machine and machine to machine, are first closed under
 * shortest paths. Then an operation that may be done and whose set-up is mounted on the machine one sits
 * at is done at once; that is never wrong, for in any other order it can be moved here without adding to
 * the cost. Hence a move of the search is "take this set-up" and does all the operations that then follow
 * for nothing; operations of equal set-up are as identical jobs (Psaraftis, Operations Research 28, 1980;
 * Monma and Potts, Operations Research 37, 1989). The rule holds neither for operations mounted on
 * another machine nor for open matrices.
 *
 * Bound. What is left must be sewn on each machine, whatever happens on the others. There the set-ups
 * still needed are each entered once from another: at least a spanning tree from what is mounted. A
 * set-up that comes up in r separate runs on one chain of that machine's operations is entered r - 1
 * times more. The dearest chain of changes along the arrows is a second bound; the larger counts. To the
 * sum over machines comes a walk for each other machine with work left, or the dearest chain of walks.
 *
 * Search. A beam search (levels of moves, the best few of each kept) gives a first order; best-first
 * search over hashed states then proves it or finds a better one: dynamic programming over the states in
 * the manner of Held and Karp (J. SIAM 10, 1962) and Schrage and Baker (Operations Research 26, 1978), with
 * states of equal key merged as in prefix dominance (Libralesso et al., ECAI 2020, arXiv 1911.12427). The
 * effort is counted in states, not by the clock, so that the answer does not depend on the computer; when
 * the count runs out, the least value still open remains a valid bound.
 *
 * Choice. An operation may accept several set-ups of its machine, some nearer to what it prefers than others; which it
 * takes is decided together with the order: least cost, then least distance. The closure rule carries over: what may
 * be done and accepts what is mounted where one sits is done at once, for in any other order it can be moved here, and
 * to leave out a set-up adds nothing when the matrices are closed. So does the bound, with classes of operations that
 * accept the same in place of set-ups: between a set-up of one class and one of another lies at least the cheapest
 * change from any to any. Its tree is taken over classes with no set-up in common, the choosiest first, for only
 * there is each first entry a change of its own; further entries are counted where an arrow leads out of a class and
 * back. The search for the cost needs no more set-ups than n_core (share.c says which suffice). In the order found the
 * set-ups are then chosen anew among all, exactly (order-choose.c). The distance is settled by the same best-first
 * search with pairs (cost, distance): now only what prefers the mounted set-up is done at once, what merely accepts it
 * may also wait. It closes on small projects; on larger ones its count runs out, and single operations are moved to
 * where something nearer is mounted, as long as that helps. So the cost is proved least, and the distance is when
 * `nearest` says so.
 *
 * Ties. The result is at last moved towards the person's own order where that costs nothing.
 */

#include "config.h"

#include "plan/order-private.h"

#include <string.h>

#define NEAREST_STATES 20000             /* of the search for the least distance, */
#define NEAREST_SHARE 5                  /* and this part at most of those for the cost */

void
hw_order_result_free (HwOrderResult *self)
{
  if (self == NULL)
    return;
  g_free (self->order);
  g_free (self->setup);
  g_free (self);
}

int
hw_order_cost (const HwOrderProblem *problem, const int *order)
{
  g_autoptr (HwOrderFacts) facts = hw_order_facts_new (problem, problem->n_setups);
  g_autofree int *setup = g_new0 (int, problem->n_operations + 1);

  g_return_val_if_fail (facts != NULL, -1);
  return hw_order_choose (facts, order, setup).cost;
}

static gboolean
keeps_to_arrows (const HwOrderFacts *facts, const int *order)
{
  g_autofree guint64 *done = g_new0 (guint64, facts->n_words + 1);

  for (gsize i = 0; i < facts->n; i++)
    {
      if (!hw_order_set_holds (done, facts->before + (gsize) order[i] * facts->n_words, facts->n_words))
        return FALSE;
      hw_order_set_add (done, (gsize) order[i]);
    }
  return TRUE;
}

/* @order with the set-ups that suit it, when that is better than what there is. */
static gboolean
offer_order (const HwOrderFacts *facts, const int *order, HwOrderResult *result)
{
  g_autofree int *setup = g_new0 (int, facts->n + 1);
  HwOrderScore score = hw_order_choose (facts, order, setup);

  if (!hw_order_score_less (score, (HwOrderScore) { result->cost, result->distance }))
    return FALSE;
  memmove (result->order, order, facts->n * sizeof (int));
  memcpy (result->setup, setup, facts->n * sizeof (int));
  result->cost = score.cost;
  result->distance = score.distance;
  return TRUE;
}

/* The least cost. Of orders that cost as little, the person's own. */
static void
find_least_cost (const HwOrderFacts *facts, const HwOrderLimits *limits, HwOrderResult *result)
{
  int listed;

  result->cost = result->distance = G_MAXINT;
  offer_order (facts, facts->sequence, result);
  listed = result->cost;
  if (facts->problem->first != NULL)
    offer_order (facts, facts->problem->first, result);
  hw_order_search (facts, limits, result);
  if (result->cost >= listed)
    {
      result->cost = result->distance = G_MAXINT;
      offer_order (facts, facts->sequence, result);
    }
}

/* The least distance without adding to the cost. */
static void
find_nearest (const HwOrderFacts *facts, const HwOrderLimits *limits, HwOrderResult *result)
{
  result->distance = G_MAXINT;           /* of the set-ups that suffice for the cost; there may be nearer ones */
  offer_order (facts, result->order, result);
  hw_order_draw_nearer (facts, result);
  result->nearest = hw_order_search_nearest (facts, MIN (limits->max_states / NEAREST_SHARE, NEAREST_STATES), limits,
                                             result);
}

static void
settle (const HwOrderFacts *facts, const HwOrderLimits *limits, HwOrderResult *result)
{
  if (hw_order_is_cancelled (limits))
    return;
  if (facts->problem->accept != NULL)
    find_nearest (facts, limits, result);
  if (memcmp (result->order, facts->sequence, facts->n * sizeof (int)) != 0)
    hw_order_settle_ties (facts, result->order, result->setup);
  /* Where something moved, others may lie nearer; and of equals the same are taken as when the order is kept. */
  if (facts->problem->accept != NULL)
    hw_order_choose (facts, result->order, result->setup);
  result->cost = hw_order_facts_cost (facts, result->order, result->setup);
}

static int
sum_distance (const HwOrderFacts *facts, const int *setup)
{
  int distance = 0;

  for (gsize i = 0; i < facts->n; i++)
    distance += hw_order_distance (facts, i, (gsize) setup[i]);
  return distance;
}

gboolean
hw_order_keep (const HwOrderProblem *problem, const int *order, HwOrderResult *result)
{
  g_autoptr (HwOrderFacts) facts = hw_order_facts_new (problem, problem->n_setups);
  g_autofree int *setup = g_new0 (int, problem->n_operations + 1);
  HwOrderScore score;

  g_return_val_if_fail (facts != NULL, FALSE);

  if (!keeps_to_arrows (facts, order))
    return FALSE;
  score = hw_order_choose (facts, order, setup);
  if (score.cost > result->cost)
    return FALSE;
  memcpy (result->order, order, facts->n * sizeof (int));
  memcpy (result->setup, setup, facts->n * sizeof (int));
  result->cost = hw_order_facts_cost (facts, order, setup);
  result->distance = sum_distance (facts, setup);
  result->proved = result->bound >= result->cost;
  return TRUE;
}

HwOrderResult *
hw_order_solve (const HwOrderProblem *problem, guint max_states)
{
  return hw_order_solve_within (problem, &(HwOrderLimits) { .max_states = max_states });
}

HwOrderResult *
hw_order_solve_within (const HwOrderProblem *problem, const HwOrderLimits *limits)
{
  gsize n_core = problem->accept != NULL && problem->n_core > 0 ? problem->n_core : problem->n_setups;
  g_autoptr (HwOrderFacts) core = hw_order_facts_new (problem, n_core);
  g_autoptr (HwOrderFacts) all = NULL;
  HwOrderResult *result = NULL;

  if (core == NULL)
    return NULL;

  result = g_new0 (HwOrderResult, 1);
  result->n_operations = core->n;
  result->order = g_new0 (int, core->n + 1);
  result->setup = g_new0 (int, core->n + 1);
  result->nearest = problem->accept == NULL;
  find_least_cost (core, limits, result);
  if (n_core < problem->n_setups)
    all = hw_order_facts_new (problem, problem->n_setups);
  settle (all != NULL ? all : core, limits, result);
  result->distance = sum_distance (core, result->setup);
  result->proved = result->bound >= result->cost;
  result->nearest = result->nearest && result->proved;
  return result;
}
