/* order-path-local.c - betters an order by exchanging neighbouring segments, with kicks
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The exchange of two neighbouring segments replaces three arcs and turns nothing round: the step of
 * SOP-3-exchange (from memory: L. M. Gambardella, M. Dorigo, INFORMS Journal on Computing 12, 2000). An arrow
 * blocks it only if it leads from the left segment to the right one; within a segment arrows are kept whatever
 * happens to it. So as one end moves away from a fixed cut the first blocked operation ends the search that way,
 * but with both outer ends fixed every cut is looked at: one that is blocked says nothing about the next.
 *
 * Of the three exchanges of arcs one at least must gain by itself, so the search starts from each
 * operation with the nearer ones among its nearest (the gain criterion of S. Lin and B. W. Kernighan, Operations
 * Research 21, 1973). Operations whose next has changed wait in a queue. When it is empty, a kick exchanges
 * a few short neighbouring segments at random and the search goes on from there (iterated local search); the
 * random numbers are our own and always the same. An outer end moves only a little way from its cut: longer
 * exchanges would take most of the time, and lead sooner into orders that kicks do not lead out of.
 */

#include "config.h"

#include "plan/order-path-private.h"

#include <string.h>

#define MAX_NEAREST 14
#define SPAN 30                  /* operations that an outer end moves from its cut */
#define KICK_REACH 10            /* operations in a segment kicked */
#define KICK_EXCHANGES 3         /* or one more; fewer are undone at once */
#define KICK_TRIES 40
#define KICKS_TO_COOL 3000

/* How much dearer an order may be to be taken up, in tenths of an average arc: one after the other. */
static const int heats[] = { 15, 5, 1 };

/* Positions run from 0, the start, to n + 1, the end; node n stands at both. */
struct _HwPathLocal
{
  const HwPathFacts *facts;
  int      *near;                /* [stride x MAX_NEAREST] nearest first; -1 ends a list */
  int      *at;                  /* [n + 2] node at a position */
  int      *place;               /* [n] position of an operation */
  gint64    cost;
  int      *kept;                /* [n + 2] the order to go back to after a kick that was in vain */
  gint64    kept_cost;
  int      *best;                /* [n + 2] */
  gint64    best_cost;
  int       low, high;           /* positions that may differ from kept */
  int      *queue;               /* [n + 1] ring of nodes to search from */
  gboolean *queued;
  gsize     queue_start, n_queued;
  int      *moved;               /* [n + 2] working memory */
  guint64   effort;
  guint64   random;
  guint     n_kicks;
};

/* ---- random numbers: G. Marsaglia's xorshift with a multiplier, J. Statistical Software 8, 2003 ---- */

static guint64
next_random (HwPathLocal *self)
{
  self->random ^= self->random >> 12;
  self->random ^= self->random << 25;
  self->random ^= self->random >> 27;
  return self->random * 0x2545f4914f6cdd1du;
}

static int
random_below (HwPathLocal *self, int end)
{
  return (int) ((next_random (self) >> 33) * (guint64) end >> 31);
}

/* ---- what is where ---- */

static int
arc (const HwPathLocal *self, int from, int to)
{
  return hw_path_cost (self->facts, (gsize) from, (gsize) to);
}

/* Of the arc that leaves position @p. */
static int
arc_after (const HwPathLocal *self, int p)
{
  return arc (self, self->at[p], self->at[p + 1]);
}

static void
enqueue (HwPathLocal *self, int node)
{
  gsize size = self->facts->stride;

  if (self->queued[node])
    return;
  self->queued[node] = TRUE;
  self->queue[(self->queue_start + self->n_queued++) % size] = node;
}

static int
dequeue (HwPathLocal *self)
{
  int node = self->queue[self->queue_start];

  self->queue_start = (self->queue_start + 1) % self->facts->stride;
  self->n_queued--;
  self->queued[node] = FALSE;
  return node;
}

/* Exchanges (@i, @j] and (@j, @k]. */
static void
exchange (HwPathLocal *self, int i, int j, int k)
{
  int n_left = j - i;
  int n_right = k - j;

  if (n_left < n_right)
    {
      memcpy (self->moved, self->at + i + 1, (gsize) n_left * sizeof (int));
      memmove (self->at + i + 1, self->at + j + 1, (gsize) n_right * sizeof (int));
      memcpy (self->at + i + 1 + n_right, self->moved, (gsize) n_left * sizeof (int));
    }
  else
    {
      memcpy (self->moved, self->at + j + 1, (gsize) n_right * sizeof (int));
      memmove (self->at + k + 1 - n_left, self->at + i + 1, (gsize) n_left * sizeof (int));
      memcpy (self->at + i + 1, self->moved, (gsize) n_right * sizeof (int));
    }
  for (int p = i + 1; p <= k; p++)
    self->place[self->at[p]] = p;
  self->low = MIN (self->low, i + 1);
  self->high = MAX (self->high, k);
  enqueue (self, self->at[i]);
  enqueue (self, self->at[i + n_right]);
  enqueue (self, self->at[k]);
}

static gint64
gain_of (const HwPathLocal *self, int i, int j, int k)
{
  return (gint64) arc_after (self, i) + arc_after (self, j) + arc_after (self, k)
         - arc (self, self->at[i], self->at[j + 1]) - arc (self, self->at[k], self->at[i + 1])
         - arc (self, self->at[j], self->at[k + 1]);
}

/* ---- arrows ---- */

/* Something that must come before @node stands in (@i, @j]. */
static gboolean
has_earlier_in (const HwPathLocal *self, int node, int i, int j)
{
  const HwPathFacts *facts = self->facts;

  for (int e = facts->first_earlier[node]; e < facts->first_earlier[node + 1]; e++)
    {
      int p = self->place[facts->earlier[e]];

      if (p > i && p <= j)
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_later_in (const HwPathLocal *self, int node, int j, int k)
{
  const HwPathFacts *facts = self->facts;

  for (int l = facts->first_later[node]; l < facts->first_later[node + 1]; l++)
    {
      int p = self->place[facts->later[l]];

      if (p > j && p <= k)
        return TRUE;
    }
  return FALSE;
}

/* The last position up to @k of what must come after @node; 0 none. */
static int
last_later (const HwPathLocal *self, int node, int k)
{
  const HwPathFacts *facts = self->facts;
  int last = 0;

  for (int l = facts->first_later[node]; l < facts->first_later[node + 1]; l++)
    {
      int p = self->place[facts->later[l]];

      if (p <= k)
        last = MAX (last, p);
    }
  return last;
}

/* ---- the three ways to find an exchange from one of its arcs ---- */

typedef struct { gint64 gain; int i, j, k; } Exchange;

static void
consider (const HwPathLocal *self, Exchange *best, int i, int j, int k)
{
  gint64 gain = gain_of (self, i, j, k);

  if (gain > best->gain)
    *best = (Exchange) { gain, i, j, k };
}

/* Start and cut fixed, the right end moves on. */
static void
try_right_ends (HwPathLocal *self, Exchange *best, int i, int j)
{
  int most = MIN ((int) self->facts->n, j + SPAN);
  int k = j + 1;

  for (; k <= most && !has_earlier_in (self, self->at[k], i, j); k++)
    consider (self, best, i, j, k);
  self->effort += (guint64) (k - j);
}

/* Cut and right end fixed, the left end moves back. */
static void
try_left_ends (HwPathLocal *self, Exchange *best, int j, int k)
{
  int least = MAX (0, j - SPAN);
  int i = j - 1;

  for (; i >= least && !has_later_in (self, self->at[i + 1], j, k); i--)
    consider (self, best, i, j, k);
  self->effort += (guint64) (j - i);
}

/* Both ends fixed, the cut moves; it may not part an arrow. */
static void
try_cuts (HwPathLocal *self, Exchange *best, int i, int k)
{
  int reach = 0;
  int j = i + 1;

  for (; j < k && reach < k; j++)
    {
      reach = MAX (reach, last_later (self, self->at[j], k));
      if (reach <= j)
        consider (self, best, i, j, k);
    }
  self->effort += (guint64) (j - i);
}

/* The best exchange that gives @node a nearer next. */
static Exchange
search_from (HwPathLocal *self, int node)
{
  int n = (int) self->facts->n;
  Exchange best = { 0, 0, 0, 0 };
  int p = node == n ? 0 : self->place[node];
  int now = arc_after (self, p);
  const int *near = self->near + (gsize) node * MAX_NEAREST;

  for (int c = 0; c < MAX_NEAREST && near[c] >= 0; c++)
    {
      int to = near[c];
      int q = to == n ? n + 1 : self->place[to];

      if (arc (self, node, to) >= now)
        break;
      if (q > p + 1 && to != n)
        try_right_ends (self, &best, p, q - 1);
      if (q > p + 1 && p > 0)
        try_left_ends (self, &best, p, q - 1);
      if (q < p)
        try_cuts (self, &best, q - 1, p);
    }
  return best;
}

/* Until no exchange from a queued node gains. */
static void
descend (HwPathLocal *self, const HwOrderLimits *limits)
{
  while (self->n_queued > 0 && !hw_order_is_cancelled (limits))
    {
      int node = dequeue (self);
      Exchange found = search_from (self, node);

      if (found.gain <= 0)
        continue;
      self->cost -= found.gain;
      exchange (self, found.i, found.j, found.k);
      enqueue (self, node);
    }
}

/* ---- kicks ---- */

static void
keep (HwPathLocal *self)
{
  if (self->high >= self->low)
    memcpy (self->kept + self->low, self->at + self->low, (gsize) (self->high - self->low + 1) * sizeof (int));
  self->kept_cost = self->cost;
  self->low = G_MAXINT;
  self->high = 0;
}

static void
go_back (HwPathLocal *self)
{
  for (int p = self->low; p <= self->high; p++)
    {
      self->at[p] = self->kept[p];
      self->place[self->at[p]] = p;
    }
  self->cost = self->kept_cost;
  self->low = G_MAXINT;
  self->high = 0;
  while (self->n_queued > 0)
    dequeue (self);
}

/* A random exchange about position @around; FALSE: an arrow is in the way. */
static gboolean
exchange_randomly (HwPathLocal *self, int around)
{
  int n = (int) self->facts->n;
  int back = random_below (self, KICK_REACH);
  int n_left = 1 + random_below (self, KICK_REACH);
  int n_right = 1 + random_below (self, KICK_REACH);
  int i = MAX (0, around - back);
  int j = MIN (n - 1, i + n_left);
  int most = MIN (n, j + n_right);
  int k = j;

  while (k < most && !has_earlier_in (self, self->at[k + 1], i, j))
    k++;
  if (k == j)
    return FALSE;
  self->cost -= gain_of (self, i, j, k);
  exchange (self, i, j, k);
  return TRUE;
}

static void
kick (HwPathLocal *self)
{
  int around = random_below (self, (int) self->facts->n);
  int n_wanted = KICK_EXCHANGES + random_below (self, 2);

  for (int attempt = 0; attempt < KICK_TRIES && n_wanted > 0; attempt++)
    n_wanted -= exchange_randomly (self, around) ? 1 : 0;
}

static void
note_best (HwPathLocal *self)
{
  if (self->cost >= self->best_cost)
    return;
  self->best_cost = self->cost;
  memcpy (self->best, self->at, (self->facts->n + 2) * sizeof (int));
}

/* Half the time none, and half as often for every further part of the heat, which cools in steps down to nothing. */
static gint64
tolerated_loss (HwPathLocal *self)
{
  gint64 heat = heats[self->n_kicks / KICKS_TO_COOL % G_N_ELEMENTS (heats)];
  gint64 left = KICKS_TO_COOL - self->n_kicks % KICKS_TO_COOL;
  gint64 average = 1024 * self->best_cost / (gint64) self->facts->n;
  guint64 random = next_random (self) >> 16;
  gint64 parts = (gint64) (random & 1023);

  /* An order with a forbidden arc is no measure. */
  if (self->best_cost >= self->facts->far)
    return 0;
  while ((random & 1024) != 0)
    {
      parts += 1024;
      random >>= 1;
    }
  return average * heat / 10 * left / KICKS_TO_COOL * parts * 7 / 10 >> 20;
}

guint
hw_path_local_kick (HwPathLocal *self, const HwOrderLimits *limits, guint64 effort, guint max_kicks)
{
  guint64 end = self->effort + effort;
  guint n_kicks = 0;

  if (self->facts->n < 3)
    return max_kicks;
  for (; n_kicks < max_kicks && self->effort < end && !hw_order_is_cancelled (limits); n_kicks++)
    {
      self->effort += 20;
      kick (self);
      descend (self, limits);
      self->n_kicks++;
      note_best (self);
      if (self->cost <= self->kept_cost + tolerated_loss (self))
        keep (self);
      else
        go_back (self);
    }
  return n_kicks;
}

/* ---- setting up ---- */

typedef struct { int cost, to; } Near;

static int
compare_near_cb (gconstpointer a, gconstpointer b)
{
  const Near *x = a;
  const Near *y = b;

  return x->cost != y->cost ? (x->cost < y->cost ? -1 : 1) : x->to < y->to ? -1 : x->to > y->to;
}

static void
list_nearest (HwPathLocal *self)
{
  const HwPathFacts *facts = self->facts;
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Near));

  for (gsize a = 0; a < facts->stride; a++)
    {
      g_array_set_size (all, 0);
      for (gsize b = 0; b < facts->stride; b++)
        if (hw_path_cost (facts, a, b) < facts->far)
          {
            Near near = { hw_path_cost (facts, a, b), (int) b };

            g_array_append_val (all, near);
          }
      g_array_sort (all, compare_near_cb);
      for (guint c = 0; c < MAX_NEAREST; c++)
        self->near[a * MAX_NEAREST + c] = c < all->len ? g_array_index (all, Near, c).to : -1;
    }
}

HwPathLocal *
hw_path_local_new (const HwPathFacts *facts)
{
  HwPathLocal *self = g_new0 (HwPathLocal, 1);
  gsize n = facts->n;

  self->facts = facts;
  self->near = g_new (int, facts->stride * MAX_NEAREST);
  self->at = g_new0 (int, n + 2);
  self->place = g_new0 (int, n + 1);
  self->kept = g_new0 (int, n + 2);
  self->best = g_new0 (int, n + 2);
  self->queue = g_new0 (int, facts->stride);
  self->queued = g_new0 (gboolean, facts->stride);
  self->moved = g_new0 (int, n + 2);
  self->random = 0x853c49e6748fea9bu;
  self->best_cost = G_MAXINT64;
  list_nearest (self);
  return self;
}

void
hw_path_local_free (HwPathLocal *self)
{
  if (self == NULL)
    return;
  g_free (self->near);
  g_free (self->at);
  g_free (self->place);
  g_free (self->kept);
  g_free (self->best);
  g_free (self->queue);
  g_free (self->queued);
  g_free (self->moved);
  g_free (self);
}

/* From every operation, again and again, until no exchange gains; only the queue would miss some. */
static void
settle (HwPathLocal *self, const HwOrderLimits *limits)
{
  gint64 cost;

  do
    {
      cost = self->cost;
      for (gsize p = 0; p <= self->facts->n; p++)
        enqueue (self, self->at[p]);
      descend (self, limits);
    }
  while (self->cost < cost && !hw_order_is_cancelled (limits));
}

void
hw_path_local_take (HwPathLocal *self, const int *order, const HwOrderLimits *limits)
{
  int n = (int) self->facts->n;

  self->at[0] = n;
  self->at[n + 1] = n;
  for (int p = 1; p <= n; p++)
    {
      self->at[p] = order[p - 1];
      self->place[order[p - 1]] = p;
    }
  self->cost = hw_path_facts_cost (self->facts, order);
  note_best (self);
  settle (self, limits);
  self->low = 0;
  self->high = n + 1;
  note_best (self);
  keep (self);
}

gint64
hw_path_local_cost (const HwPathLocal *self)
{
  return self->best_cost;
}

void
hw_path_local_best (const HwPathLocal *self, int *order)
{
  memcpy (order, self->best + 1, self->facts->n * sizeof (int));
}
