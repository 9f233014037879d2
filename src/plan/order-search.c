/* order-search.c - beam search and best-first search over hashed states
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A state is kept as a fixed-size record in one block of memory: its head, then its key: the set of
 * operations done as 64-bit words, then what is mounted on each machine and where one sits.
 */

#include "config.h"

#include "plan/order-bound.h"

#include <string.h>

#define BEAM_WIDTH 24
#define NOWHERE G_MAXUINT
#define ALL_THAT_MAY G_MAXUINT16

typedef struct
{
  _Alignas (8) int cost;   /* so far */
  int     least;           /* bound on the rest */
  int     distance;        /* so far */
  guint   parent;          /* NOWHERE: the start */
  guint16 setup;           /* taken to come here */
  guint16 operation;       /* done with it, before all that may be; ALL_THAT_MAY: those alone */
  guint16 n_done;
  guint16 closed;          /* expanded at this cost and distance */
} StateHead;

typedef struct
{
  const HwOrderFacts *facts;
  HwOrderBound *bound;
  gsize    key_size;
  gsize    stride;
  guint8  *block;          /* records */
  gsize    n, size;
  guint   *slots;          /* hash table of record numbers + 1 */
  gsize    n_slots;
  guint8  *child;          /* one record being made */
  gsize    child_slot;     /* where its key is looked up */
  gboolean *open;          /* [n_setups] TRUE: an operation that takes it may be done */
  gboolean nearest;        /* distance counts too: only what prefers a set-up is done with it at once */
} Search;

typedef struct
{
  int   value;             /* cost + least */
  int   distance;
  int   n_done;
  guint state;
} Ticket;

/* ---- records ---- */

static StateHead *
head_at (const Search *self, gsize index)
{
  return (StateHead *) (void *) (self->block + index * self->stride);
}

static guint64 *
done_of (StateHead *head)
{
  return (guint64 *) (void *) (head + 1);
}

static guint16 *
mounted_of (const Search *self, StateHead *head)
{
  return (guint16 *) (void *) (done_of (head) + self->facts->n_words);
}

static void
search_init (Search *self, const HwOrderFacts *facts)
{
  gsize places = (facts->n_machines + 1 + 3) / 4 * 4;

  memset (self, 0, sizeof *self);
  self->facts = facts;
  self->bound = hw_order_bound_new (facts);
  self->key_size = facts->n_words * sizeof (guint64) + places * sizeof (guint16);
  self->stride = sizeof (StateHead) + self->key_size;
  self->size = 256;
  self->block = g_malloc (self->size * self->stride);
  self->n_slots = 1024;
  self->slots = g_new0 (guint, self->n_slots);
  self->child = g_malloc0 (self->stride);
  self->open = g_new0 (gboolean, facts->n_setups + 1);
}

static void
search_clear (Search *self)
{
  hw_order_bound_free (self->bound);
  g_free (self->block);
  g_free (self->slots);
  g_free (self->child);
  g_free (self->open);
}

static void
search_forget (Search *self)
{
  self->n = 0;
  memset (self->slots, 0, self->n_slots * sizeof (guint));
}

static guint64
hash_key (const Search *self, const guint8 *record)
{
  const guint8 *key = record + sizeof (StateHead);
  guint64 hash = 0x9e3779b97f4a7c15u;

  for (gsize i = 0; i < self->key_size; i += sizeof (guint64))
    {
      guint64 word;

      memcpy (&word, key + i, sizeof word);
      hash = (hash ^ word) * 0xff51afd7ed558ccdu;
      hash ^= hash >> 32;
    }
  return hash;
}

static gboolean
same_key (const Search *self, const guint8 *a, const guint8 *b)
{
  const guint64 *x = (const guint64 *) (const void *) (a + sizeof (StateHead));
  const guint64 *y = (const guint64 *) (const void *) (b + sizeof (StateHead));

  for (gsize i = 0; i < self->key_size / sizeof *x; i++)
    if (x[i] != y[i])
      return FALSE;
  return TRUE;
}

/* The slot that holds the key of @record, or the free one where it belongs. */
static gsize
find_slot (const Search *self, const guint8 *record)
{
  gsize slot = (gsize) hash_key (self, record) & (self->n_slots - 1);

  while (self->slots[slot] != 0
         && !same_key (self, self->block + (self->slots[slot] - 1) * self->stride, record))
    slot = (slot + 1) & (self->n_slots - 1);
  return slot;
}

/* Makes room for one more record. TRUE: the slots are others now. */
static gboolean
grow (Search *self)
{
  if (self->n == self->size)
    {
      self->size *= 2;
      self->block = g_realloc (self->block, self->size * self->stride);
    }
  if (2 * self->n < self->n_slots)
    return FALSE;
  self->n_slots *= 2;
  g_free (self->slots);
  self->slots = g_new0 (guint, self->n_slots);
  for (gsize i = 0; i < self->n; i++)
    self->slots[find_slot (self, self->block + i * self->stride)] = (guint) i + 1;
  return TRUE;
}

static HwOrderScore
score_of (const StateHead *head)
{
  return (HwOrderScore) { head->cost, head->distance };
}

static HwOrderScore
child_score (const Search *self)
{
  return score_of ((const StateHead *) (const void *) self->child);
}

/* What the record being made must cost more at least, which its key alone decides. FALSE: a state of its key is known
 * that is no worse. */
static gboolean
bound_child (Search *self)
{
  StateHead *head = (StateHead *) (void *) self->child;
  guint16 *mounted = mounted_of (self, head);
  guint known;

  self->child_slot = find_slot (self, self->child);
  known = self->slots[self->child_slot];
  if (known == 0)
    head->least = hw_order_bound_get (self->bound, done_of (head), mounted, mounted[self->facts->n_machines]);
  else if (hw_order_score_less (child_score (self), score_of (head_at (self, known - 1))))
    head->least = head_at (self, known - 1)->least;
  else
    return FALSE;
  return TRUE;
}

/* Keeps the record being made, which no state of its key betters. */
static guint
keep_child (Search *self)
{
  guint index = self->slots[self->child_slot];

  if (index == 0)
    {
      if (grow (self))
        self->child_slot = find_slot (self, self->child);
      index = (guint) self->n++;
      self->slots[self->child_slot] = index + 1;
    }
  else
    index--;
  memcpy (self->block + index * self->stride, self->child, self->stride);
  return index;
}

/* ---- moves ---- */

static gboolean
may_do (const HwOrderFacts *facts, const guint64 *done, gsize operation)
{
  HwOrderSpan span = facts->span[operation];

  return !hw_order_set_has (done, operation)
         && hw_order_set_holds (done + span.first, facts->before + operation * facts->n_words + span.first,
                                span.end - span.first);
}

/* Which set-ups are taken by an operation that may be done. */
static void
mark_open (Search *self, const guint64 *done)
{
  const HwOrderFacts *facts = self->facts;

  for (gsize u = 0; u < facts->n_setups; u++)
    {
      self->open[u] = FALSE;
      for (gsize m = facts->first_member[u]; m < facts->first_member[u + 1] && !self->open[u]; m++)
        self->open[u] = may_do (facts, done, (gsize) facts->members[m]);
    }
}

/* Does all that may be done with @setup for nothing; an operation comes after those it needs in the list of members. */
static int
do_all (const Search *self, guint64 *done, gsize setup, int *list)
{
  const HwOrderFacts *facts = self->facts;
  int n_done = 0;

  for (gsize m = facts->first_member[setup]; m < facts->first_member[setup + 1]; m++)
    {
      gsize operation = (gsize) facts->members[m];

      if (!may_do (facts, done, operation) || (self->nearest && hw_order_distance (facts, operation, setup) > 0))
        continue;
      hw_order_set_add (done, operation);
      if (list != NULL)
        list[n_done] = facts->members[m];
      n_done++;
    }
  return n_done;
}

static void
make_start (Search *self)
{
  const HwOrderFacts *facts = self->facts;
  StateHead *head = (StateHead *) (void *) self->child;
  guint16 *mounted;
  gsize at = facts->problem->at < 0 ? facts->n_machines : (gsize) facts->problem->at;

  memset (self->child, 0, self->stride);
  head->parent = NOWHERE;
  mounted = mounted_of (self, head);
  for (gsize m = 0; m < facts->n_machines; m++)
    mounted[m] = (guint16) (facts->n_setups + m);
  mounted[facts->n_machines] = (guint16) at;
  hw_order_bound_settle (self->bound, done_of (head), mounted);
  self->child_slot = find_slot (self, self->child);
  head->least = hw_order_bound_get (self->bound, done_of (head), mounted, at);
}

/* Takes @setup, does @operation first if it is one, then all that may be done with it for nothing. */
static void
make_child (Search *self, guint parent, gsize setup, guint16 operation)
{
  const HwOrderFacts *facts = self->facts;
  StateHead *head = (StateHead *) (void *) self->child;
  guint16 *mounted = mounted_of (self, head);
  gsize machine = (gsize) facts->problem->machine[setup];

  memcpy (self->child, self->block + parent * self->stride, self->stride);
  head->parent = parent;
  head->setup = (guint16) setup;
  head->operation = operation;
  head->closed = FALSE;
  head->cost += hw_order_walk (facts, mounted[facts->n_machines], machine)
                + hw_order_change (facts, mounted[machine], setup);
  if (operation != ALL_THAT_MAY)
    {
      hw_order_set_add (done_of (head), operation);
      head->distance += hw_order_distance (facts, operation, setup);
      head->n_done++;
    }
  head->n_done = (guint16) (head->n_done + do_all (self, done_of (head), setup, NULL));
  mounted[machine] = (guint16) setup;
  mounted[facts->n_machines] = (guint16) machine;
  hw_order_bound_settle (self->bound, done_of (head), mounted);
}

/* Does again what led to the state @head; returns the number of operations written to @order. */
static int
repeat_move (const Search *self, const StateHead *head, guint64 *done, HwOrderResult *result, int *order)
{
  int n_done = 0;

  if (head->operation != ALL_THAT_MAY)
    {
      order[n_done++] = head->operation;
      hw_order_set_add (done, head->operation);
    }
  n_done += do_all (self, done, head->setup, order + n_done);
  for (int i = 0; i < n_done; i++)
    result->setup[order[i]] = head->setup;
  return n_done;
}

/* Writes the order that ends in the state @index. */
static void
write_order (const Search *self, guint index, HwOrderResult *result)
{
  const HwOrderFacts *facts = self->facts;
  g_autofree guint *path = g_new (guint, self->n);
  g_autofree guint64 *done = g_new0 (guint64, facts->n_words);
  gsize n_path = 0;
  int n_done = 0;

  result->cost = head_at (self, index)->cost;
  result->distance = head_at (self, index)->distance;
  for (guint i = index; head_at (self, i)->parent != NOWHERE; i = head_at (self, i)->parent)
    path[n_path++] = i;
  while (n_path-- > 0)
    n_done += repeat_move (self, head_at (self, path[n_path]), done, result, result->order + n_done);
  g_assert ((gsize) n_done == facts->n);
}

/* ---- beam ---- */

static int
compare_tickets (const Ticket *a, const Ticket *b)
{
  if (a->value != b->value)
    return a->value < b->value ? -1 : 1;
  if (a->distance != b->distance)
    return a->distance < b->distance ? -1 : 1;
  if (a->n_done != b->n_done)
    return a->n_done > b->n_done ? -1 : 1;
  return a->state < b->state ? -1 : a->state > b->state;
}

static int
compare_tickets_cb (gconstpointer a, gconstpointer b)
{
  return compare_tickets (a, b);
}

static Ticket
make_ticket (const Search *self, guint state)
{
  const StateHead *head = head_at (self, state);

  return (Ticket) { head->cost + head->least, head->distance, head->n_done, state };
}

/* FALSE: the state was reached again since, and is better now than the ticket says. */
static gboolean
is_current (const Search *self, Ticket ticket)
{
  Ticket now = make_ticket (self, ticket.state);

  return ticket.value == now.value && ticket.distance == now.distance;
}

/* Of no use unless better than the best order. */
static gboolean
is_promising (HwOrderScore least, const HwOrderResult *result)
{
  return hw_order_score_less (least, (HwOrderScore) { result->cost, result->distance });
}

/* Keeps the child made when it may lead to something better than the best; a finished one becomes the best. */
static void
offer_child (Search *self, GArray *tickets, HwOrderResult *result)
{
  const StateHead *made = (const StateHead *) (const void *) self->child;
  guint kept;
  Ticket ticket;

  if (!is_promising (child_score (self), result) || !bound_child (self)
      || !is_promising ((HwOrderScore) { made->cost + made->least, made->distance }, result))
    return;
  kept = keep_child (self);
  if (made->n_done == self->facts->n)
    {
      write_order (self, kept, result);
      return;
    }
  ticket = make_ticket (self, kept);
  g_array_append_val (tickets, ticket);
}

/* Operations that take what is mounted where one sits without preferring it are done one by one. */
static void
expand_mounted (Search *self, guint parent, gsize setup, GArray *tickets, HwOrderResult *result)
{
  const HwOrderFacts *facts = self->facts;

  for (gsize m = facts->first_member[setup]; m < facts->first_member[setup + 1]; m++)
    if (may_do (facts, done_of (head_at (self, parent)), (gsize) facts->members[m]))
      {
        make_child (self, parent, setup, (guint16) facts->members[m]);
        offer_child (self, tickets, result);
      }
}

static void
expand (Search *self, guint parent, GArray *tickets, HwOrderResult *result)
{
  const HwOrderFacts *facts = self->facts;
  const guint16 *mounted = mounted_of (self, head_at (self, parent));
  gsize at = mounted[facts->n_machines];
  gsize present = at < facts->n_machines ? mounted[at] : G_MAXUINT16;

  mark_open (self, done_of (head_at (self, parent)));
  for (gsize u = 0; u < facts->n_setups; u++)
    {
      if (!self->open[u])
        continue;
      if (u == present)
        {
          expand_mounted (self, parent, u, tickets, result);
          continue;
        }
      make_child (self, parent, u, ALL_THAT_MAY);
      offer_child (self, tickets, result);
    }
}

static void
search_beam (Search *self, const HwOrderLimits *limits, HwOrderResult *result)
{
  g_autoptr (GArray) level = g_array_new (FALSE, FALSE, sizeof (Ticket));
  g_autoptr (GArray) next = g_array_new (FALSE, FALSE, sizeof (Ticket));
  Ticket start;

  make_start (self);
  start = make_ticket (self, keep_child (self));
  g_array_append_val (level, start);
  while (level->len > 0 && !hw_order_is_cancelled (limits))
    {
      g_array_set_size (next, 0);
      for (guint i = 0; i < level->len && i < BEAM_WIDTH; i++)
        expand (self, g_array_index (level, Ticket, i).state, next, result);
      g_array_sort (next, compare_tickets_cb);
      g_array_set_size (level, 0);
      /* A state reached again at less cost has an older ticket too, of no more use. */
      for (guint i = 0; i < next->len && level->len < BEAM_WIDTH; i++)
        {
          Ticket ticket = g_array_index (next, Ticket, i);

          if (is_current (self, ticket))
            g_array_append_val (level, ticket);
        }
    }
}

/* ---- best first ---- */

static void
heap_push (GArray *heap, Ticket ticket)
{
  guint i = heap->len;

  g_array_append_val (heap, ticket);
  while (i > 0)
    {
      guint up = (i - 1) / 2;

      if (compare_tickets (&g_array_index (heap, Ticket, up), &ticket) <= 0)
        break;
      g_array_index (heap, Ticket, i) = g_array_index (heap, Ticket, up);
      i = up;
    }
  g_array_index (heap, Ticket, i) = ticket;
}

static Ticket
heap_pop (GArray *heap)
{
  Ticket top = g_array_index (heap, Ticket, 0);
  Ticket last = g_array_index (heap, Ticket, heap->len - 1);
  guint i = 0;

  g_array_set_size (heap, heap->len - 1);
  for (;;)
    {
      guint down = 2 * i + 1;

      if (down >= heap->len)
        break;
      if (down + 1 < heap->len
          && compare_tickets (&g_array_index (heap, Ticket, down + 1), &g_array_index (heap, Ticket, down)) < 0)
        down++;
      if (compare_tickets (&last, &g_array_index (heap, Ticket, down)) <= 0)
        break;
      g_array_index (heap, Ticket, i) = g_array_index (heap, Ticket, down);
      i = down;
    }
  if (heap->len > 0)
    g_array_index (heap, Ticket, i) = last;
  return top;
}

/* The number of states that the limits allow. */
static gsize
most_states (const Search *self, const HwOrderLimits *limits)
{
  gsize a_state = self->stride + 4 * sizeof (guint) + 2 * sizeof (Ticket);

  return limits->max_bytes == 0 ? limits->max_states : MIN (limits->max_states, limits->max_bytes / a_state);
}

static HwOrderScore
least_of (const GArray *heap)
{
  return (HwOrderScore) { g_array_index (heap, Ticket, 0).value, g_array_index (heap, Ticket, 0).distance };
}

/* TRUE when nothing is left to look at: the result is the best there is. */
static gboolean
search_best_first (Search *self, const HwOrderLimits *limits, HwOrderResult *result)
{
  g_autoptr (GArray) heap = g_array_new (FALSE, FALSE, sizeof (Ticket));
  g_autoptr (GArray) children = g_array_new (FALSE, FALSE, sizeof (Ticket));
  gsize max_states = most_states (self, limits);

  make_start (self);
  heap_push (heap, make_ticket (self, keep_child (self)));
  while (heap->len > 0 && is_promising (least_of (heap), result))
    {
      Ticket ticket;
      StateHead *head;

      if (self->n >= max_states || hw_order_is_cancelled (limits))
        {
          result->bound = MIN (least_of (heap).cost, result->cost);
          return FALSE;
        }
      ticket = heap_pop (heap);
      head = head_at (self, ticket.state);
      if (head->closed || !is_current (self, ticket))
        continue;
      head->closed = TRUE;
      g_array_set_size (children, 0);
      expand (self, ticket.state, children, result);
      for (guint i = 0; i < children->len; i++)
        heap_push (heap, g_array_index (children, Ticket, i));
    }
  result->bound = result->cost;
  return TRUE;
}

void
hw_order_search (const HwOrderFacts *facts, const HwOrderLimits *limits, HwOrderResult *result)
{
  Search search;

  if (facts->n == 0)
    return;
  result->distance = 0;                  /* does not count yet */
  search_init (&search, facts);
  search_beam (&search, limits, result);
  search_forget (&search);
  search_best_first (&search, limits, result);
  result->n_states = (guint) search.n;
  search_clear (&search);
}

gboolean
hw_order_search_nearest (const HwOrderFacts *facts, guint max_states, const HwOrderLimits *limits,
                         HwOrderResult *result)
{
  HwOrderLimits less = { .max_states = max_states, .max_bytes = limits->max_bytes, .cancelled = limits->cancelled };
  int bound = result->bound;
  Search search;
  gboolean closed;

  search_init (&search, facts);
  search.nearest = TRUE;
  closed = search_best_first (&search, &less, result);
  result->bound = MAX (bound, result->bound);
  search_clear (&search);
  return closed;
}
