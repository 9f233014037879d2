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
 * Ties. The result is at last moved towards the person's own order where that costs nothing.
 */

#include "config.h"

#include "plan/order-private.h"

void
hw_order_result_free (HwOrderResult *self)
{
  if (self == NULL)
    return;
  g_free (self->order);
  g_free (self);
}

int
hw_order_cost (const HwOrderProblem *problem, const int *order)
{
  g_autoptr (HwOrderFacts) facts = hw_order_facts_new (problem);

  g_return_val_if_fail (facts != NULL, -1);
  return hw_order_facts_cost (facts, order);
}

static void
take_person_order (const HwOrderFacts *facts, HwOrderResult *result)
{
  memcpy (result->order, facts->sequence, facts->n * sizeof (int));
  result->cost = hw_order_facts_cost (facts, facts->sequence);
}

HwOrderResult *
hw_order_solve (const HwOrderProblem *problem, guint max_states)
{
  return hw_order_solve_within (problem, &(HwOrderLimits) { .max_states = max_states });
}

HwOrderResult *
hw_order_solve_within (const HwOrderProblem *problem, const HwOrderLimits *limits)
{
  g_autoptr (HwOrderFacts) facts = hw_order_facts_new (problem);
  HwOrderResult *result = NULL;
  int listed_cost;

  if (facts == NULL)
    return NULL;

  result = g_new0 (HwOrderResult, 1);
  result->n_operations = facts->n;
  result->order = g_new0 (int, facts->n + 1);
  take_person_order (facts, result);
  listed_cost = result->cost;
  hw_order_search (facts, limits, result);
  if (result->cost >= listed_cost)
    take_person_order (facts, result);
  else if (!hw_order_is_cancelled (limits))
    hw_order_settle_ties (facts, result->order);
  result->cost = hw_order_facts_cost (facts, result->order);
  result->proved = result->bound >= result->cost;
  return result;
}
