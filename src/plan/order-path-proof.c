/* order-path-proof.c - dynamic programming over what is done, place by place
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A state is the set of operations done and the last of them. Of the ways to a state only the cheapest is
 * kept (M. Held, R. M. Karp, J. SIAM 10, 1962; over sets closed under "before": L. Schrage, K. R. Baker,
 * Operations Research 26, 1978; as prefix dominance: L. Libralesso et al., ECAI 2020, arXiv 1911.12427), and
 * none whose cost with the bound on the rest reaches what is known. All states of a place are made
 * before those of the next. When there are more than the width allows, the most promising are kept: the pass is
 * then a beam search, and the least value left out is what any order left out costs at least. A pass that left
 * nothing out is a proof.
 *
 * The same search, with sets that tell of some operations only, the tracked, makes the walks that
 * order-path-bound.c prices (decremental state space relaxation, from memory: G. Righini, M. Salani, Networks 51,
 * 2008). Whatever of them no cheap order can use has been dropped before the next search follows them.
 */

#include "config.h"

#include "plan/order-path-private.h"

#include <string.h>

#define CANCEL_EVERY 256

typedef struct
{
  gint64  cost;             /* so far, with prices */
  gint64  value;            /* with the rest */
  guint32 parent;           /* in the trail */
  guint32 walk;             /* state of the bound's track that it stands for */
  guint32 hash;             /* of its set: the sum of its operations' in Search.hashes */
  guint16 last;
} State;

typedef struct
{
  State   *states;
  guint64 *sets;            /* [size x n_words] */
  gsize    n, size;
} Layer;

typedef struct
{
  guint32 parent;
  guint16 operation;
} Footstep;

typedef struct
{
  const HwPathBound *bound;
  const HwPathFacts *facts;
  HwPathPass *pass;
  gsize    n_words;
  const guint64 *tracked;   /* set; what is not in it is never marked done */
  guint64 *needed;          /* [n x n_words] the tracked before an operation */
  guint64 *barred;          /* [n x n_words] the tracked after an operation, and itself */
  guint64 *due;             /* [n x n_words] the tracked that can stand at no place after this one */
  gsize    most_states;     /* in a layer, before it is cut to the width */
  gint64   limit;           /* values above it are of no use */
  gint64   cut;             /* values from it on were left out of the layer being made */
  Layer    here, next;
  guint64 *slots;           /* hash table over next: number + 1, above it half the hash: seldom is a state looked at
                             * that is another */
  gsize    n_slots;
  guint32 *hashes;          /* [n] random, 0 for what is not tracked */
  guint64 *done;            /* one set being made */
  GArray  *trail;           /* Footstep */
  gint64  *values;          /* working memory of cut_layer */
  GArray  *arcs;            /* guint32, of the track being made; else NULL */
  GArray  *first_arcs;      /* guint32, one for every state of it */
  guint32  base;            /* number of the first state of the next place in the track being made */
} Search;

/* ---- layers ---- */

static void
layer_clear (Layer *self)
{
  g_free (self->states);
  g_free (self->sets);
}

static void
layer_reserve (Layer *self, gsize size, gsize n_words)
{
  if (size <= self->size)
    return;
  self->size = MAX (size, MAX (64, self->size * 2));
  self->states = g_renew (State, self->states, self->size);
  self->sets = g_renew (guint64, self->sets, self->size * n_words);
}

/* G. L. Steele, D. Lea, C. H. Flood, OOPSLA 2014 (from memory): numbers that look random. */
static guint32
scatter (guint64 number)
{
  number = (number ^ (number >> 30)) * 0xbf58476d1ce4e5b9u;
  number = (number ^ (number >> 27)) * 0x94d049bb133111ebu;
  return (guint32) (number ^ (number >> 31));
}

static guint64
hash_of (const State *state)
{
  guint64 hash = (((guint64) state->last << 32) + state->hash) * 0x9e3779b97f4a7c15u;

  return hash ^ (hash >> 32);
}

#define SLOT_NUMBER G_GUINT64_CONSTANT (0xffffffff)

/* The slot of @state with @set in the next layer, or the free one where it belongs. Writes what is to stand above the
 * number there. */
static gsize
find_slot (const Search *self, const guint64 *set, const State *state, guint64 *mark)
{
  guint64 hash = hash_of (state);
  gsize slot = (gsize) hash & (self->n_slots - 1);

  *mark = hash & ~SLOT_NUMBER;
  while (self->slots[slot] != 0)
    {
      gsize index = (gsize) (self->slots[slot] & SLOT_NUMBER) - 1;

      if ((self->slots[slot] & ~SLOT_NUMBER) == *mark && self->next.states[index].last == state->last
          && memcmp (self->next.sets + index * self->n_words, set, self->n_words * sizeof (guint64)) == 0)
        break;
      slot = (slot + 1) & (self->n_slots - 1);
    }
  return slot;
}

/* Enters all states of the next layer anew, in a table large enough for one more. */
static void
rehash (Search *self)
{
  gsize wanted = 1024;

  while (wanted < 3 * (self->next.n + 1))
    wanted *= 2;
  if (wanted > self->n_slots)
    {
      g_free (self->slots);
      self->slots = g_new0 (guint64, wanted);
      self->n_slots = wanted;
    }
  else
    memset (self->slots, 0, self->n_slots * sizeof (guint64));
  for (gsize i = 0; i < self->next.n; i++)
    {
      guint64 mark;
      gsize slot = find_slot (self, self->next.sets + i * self->n_words, &self->next.states[i], &mark);

      self->slots[slot] = mark | (i + 1);
    }
}

/* The @nth smallest, by C. A. R. Hoare's method of selection. */
static gint64
select_value (gint64 *values, gsize n, gsize nth)
{
  gsize low = 0;
  gsize high = n - 1;

  while (low < high)
    {
      gint64 pivot = values[low + (high - low) / 2];
      gsize i = low;
      gsize k = high;

      for (;;)
        {
          while (values[i] < pivot)
            i++;
          while (values[k] > pivot)
            k--;
          if (i >= k)
            break;
          gint64 swap = values[i];
          values[i++] = values[k];
          values[k--] = swap;
        }
      if (nth <= k)
        high = k;
      else
        low = k + 1;
    }
  return values[nth];
}

static void
leave_out (Search *self, gint64 value)
{
  self->pass->complete = FALSE;
  self->pass->least = MIN (self->pass->least, value);
}

/* Keeps the @width most promising states of the next layer; the first made win ties. */
static void
cut_layer (Search *self, gsize width)
{
  gsize n_ties = width;
  gsize n_kept = 0;
  gint64 worst;

  if (self->next.n <= width)
    return;
  self->values = g_renew (gint64, self->values, self->next.n);
  for (gsize i = 0; i < self->next.n; i++)
    self->values[i] = self->next.states[i].value;
  worst = select_value (self->values, self->next.n, width);
  for (gsize i = 0; i < self->next.n; i++)
    n_ties -= self->next.states[i].value < worst ? 1 : 0;
  for (gsize i = 0; i < self->next.n; i++)
    {
      State *state = &self->next.states[i];

      if (state->value > worst || (state->value == worst && n_ties == 0))
        {
          leave_out (self, state->value);
          continue;
        }
      n_ties -= state->value == worst ? 1 : 0;
      self->next.states[n_kept] = *state;
      memmove (self->next.sets + n_kept++ * self->n_words, self->next.sets + i * self->n_words,
               self->n_words * sizeof (guint64));
    }
  self->next.n = n_kept;
  self->cut = worst;
  rehash (self);
}

/* ---- moves ---- */

/* Its number in the next layer. */
static guint32
keep_state (Search *self, const State *state)
{
  guint64 mark;
  gsize slot = find_slot (self, self->done, state, &mark);
  guint32 index = (guint32) (self->slots[slot] & SLOT_NUMBER);

  if (index != 0)
    {
      State *known = &self->next.states[--index];

      if (state->cost < known->cost)
        *known = *state;
      return index;
    }
  layer_reserve (&self->next, self->next.n + 1, self->n_words);
  memcpy (self->next.sets + self->next.n * self->n_words, self->done, self->n_words * sizeof (guint64));
  index = (guint32) self->next.n++;
  self->next.states[index] = *state;
  self->slots[slot] = mark | (index + 1);
  if (self->next.n >= self->most_states)
    cut_layer (self, self->pass->width);
  else if (2 * self->next.n >= self->n_slots)
    rehash (self);
  return index;
}

/* Makes the set after @operation at place @k from @done; FALSE when it cannot stand there. */
static gboolean
make_set (Search *self, const guint64 *done, gsize operation, gsize k)
{
  const guint64 *needed = self->needed + operation * self->n_words;
  const guint64 *barred = self->barred + operation * self->n_words;
  const guint64 *due = self->due + k * self->n_words;

  for (gsize w = 0; w < self->n_words; w++)
    if ((needed[w] & ~done[w]) | (barred[w] & done[w]))
      return FALSE;
  memcpy (self->done, done, self->n_words * sizeof (guint64));
  if (hw_order_set_has (self->tracked, operation))
    hw_order_set_add (self->done, operation);
  return hw_order_set_holds (self->done, due, self->n_words);
}

static void
step_to (Search *self, gsize index, gsize k, State state)
{
  guint32 kept;

  if (state.value > self->limit || !make_set (self, self->here.sets + index * self->n_words, state.last, k))
    return;
  if (state.value >= self->cut)
    {
      leave_out (self, state.value);
      return;
    }
  state.hash += self->hashes[state.last];
  kept = self->base + keep_state (self, &state);
  if (self->arcs != NULL)
    g_array_append_val (self->arcs, kept);
}

/* All that can follow state @index at place @k, along the walks of the bound. */
static void
expand (Search *self, gsize index, gsize k, guint32 footstep)
{
  const HwPathBound *bound = self->bound;
  const HwPathTrack *track = bound->track;
  State from = self->here.states[index];
  const gint64 *step = bound->step + from.last * self->facts->stride;
  gint64 cost = from.cost - bound->price_sum;

  if (track == NULL)
    for (int a = bound->first_alive[k]; a < bound->first_alive[k + 1]; a++)
      {
        guint16 i = bound->alive[a];

        step_to (self, index, k, (State) { from.cost + step[i], cost + step[i] + bound->rest[k * self->facts->n + i],
                                           footstep, 0, from.hash, i });
      }
  else
    for (guint32 a = track->first_arc[from.walk]; a < track->first_arc[from.walk + 1]; a++)
      {
        guint32 walk = track->target[a];
        guint16 i = track->last[walk];

        step_to (self, index, k, (State) { from.cost + step[i], cost + step[i] + track->rest[walk], footstep, walk,
                                           from.hash, i });
      }
}

static void
make_start (Search *self)
{
  layer_reserve (&self->here, 1, self->n_words);
  memset (self->here.sets, 0, self->n_words * sizeof (guint64));
  self->here.states[0] = (State) { .last = (guint16) self->facts->n };
  self->here.n = 1;
}

/* From the states of one place those of the next. FALSE when cancelled or the states run out. */
static gboolean
make_layer (Search *self, const HwOrderLimits *limits, gsize k)
{
  self->next.n = 0;
  self->cut = HW_PATH_ABSENT;
  rehash (self);
  for (gsize s = 0; s < self->here.n; s++)
    {
      Footstep footstep = { self->here.states[s].parent, self->here.states[s].last };

      if (s % CANCEL_EVERY == 0 && hw_order_is_cancelled (limits))
        return FALSE;
      g_array_append_val (self->trail, footstep);
      if (self->arcs != NULL)
        g_array_append_val (self->first_arcs, self->arcs->len);
      expand (self, s, k, self->trail->len - 1);
    }
  cut_layer (self, self->pass->width);
  return TRUE;
}

static void
write_order (Search *self)
{
  State best = self->here.states[0];
  guint32 index;

  for (gsize s = 1; s < self->here.n; s++)
    if (self->here.states[s].value < best.value)
      best = self->here.states[s];
  self->pass->order[self->facts->n - 1] = best.last;
  index = best.parent;
  for (gsize k = self->facts->n - 1; k-- > 0;)
    {
      const Footstep *footstep = &g_array_index (self->trail, Footstep, index);

      self->pass->order[k] = footstep->operation;
      index = footstep->parent;
    }
  self->pass->found = TRUE;
}

/* Every order cheaper than known or found goes through a state of every place, so one place left out is one for all. */
static void
search_places (Search *self, const HwOrderLimits *limits)
{
  for (gsize k = 0; k < self->facts->n && self->here.n > 0; k++)
    {
      Layer swap = self->here;

      if (!make_layer (self, limits, k))
        {
          for (gsize s = 0; s < self->here.n; s++)
            leave_out (self, self->here.states[s].value);
          return;
        }
      self->here = self->next;
      self->next = swap;
      self->pass->n_states += (guint) self->here.n;
    }
  if (self->here.n > 0)
    write_order (self);
}

static void
search_init (Search *self, const HwPathBound *bound, HwPathPass *pass, const guint64 *tracked)
{
  const HwPathFacts *facts = bound->facts;
  gsize words = facts->n_words;
  gsize size = facts->n * words;

  memset (self, 0, sizeof *self);
  *self = (Search) { .bound = bound, .facts = facts, .pass = pass, .n_words = words, .tracked = tracked };
  self->most_states = 2 * pass->width + 64;
  self->limit = HW_PATH_SCALE * (pass->known - 1);
  self->done = g_new0 (guint64, words);
  self->trail = g_array_new (FALSE, FALSE, sizeof (Footstep));
  self->needed = g_memdup2 (facts->before, size * sizeof (guint64));
  self->barred = g_memdup2 (facts->after, size * sizeof (guint64));
  self->due = g_new0 (guint64, size);
  self->hashes = g_new0 (guint32, facts->n + 1);
  for (gsize i = 0; i < facts->n; i++)
    {
      hw_order_set_add (self->barred + i * words, i);
      if (hw_order_set_has (tracked, i))
        self->hashes[i] = scatter (i + 1);
    }
  /* Due at the last place, and before it unless it can stand at the one after. */
  memcpy (self->due + (facts->n - 1) * words, tracked, words * sizeof (guint64));
  for (gsize k = facts->n - 1; k-- > 0;)
    {
      memcpy (self->due + k * words, self->due + (k + 1) * words, words * sizeof (guint64));
      for (int a = bound->first_alive[k + 1]; a < bound->first_alive[k + 2]; a++)
        hw_order_set_remove (self->due + k * words, bound->alive[a]);
    }
  for (gsize w = 0; w < size; w++)
    {
      self->needed[w] &= tracked[w % words];
      self->barred[w] &= tracked[w % words];
    }
  pass->found = FALSE;
  pass->complete = TRUE;
  pass->least = HW_PATH_ABSENT;
  pass->n_states = 0;
  make_start (self);
}

static void
search_clear (Search *self)
{
  layer_clear (&self->here);
  layer_clear (&self->next);
  g_free (self->slots);
  g_free (self->hashes);
  g_free (self->done);
  g_free (self->values);
  g_free (self->needed);
  g_free (self->barred);
  g_free (self->due);
  g_array_unref (self->trail);
}

static guint64 *
make_full_set (const HwPathFacts *facts)
{
  guint64 *set = g_new0 (guint64, facts->n_words);

  for (gsize i = 0; i < facts->n; i++)
    hw_order_set_add (set, i);
  return set;
}

void
hw_path_pass_run (const HwPathBound *bound, const HwOrderLimits *limits, HwPathPass *pass)
{
  g_autofree guint64 *all = make_full_set (bound->facts);
  Search self;

  search_init (&self, bound, pass, all);
  search_places (&self, limits);
  search_clear (&self);
}

/* ---- tracks ---- */

/* The states of the next place, from @base on, and how many arcs there are now from those of this one. */
static void
record_layer (const Search *self, GArray *lasts)
{
  for (gsize s = 0; s < self->next.n; s++)
    g_array_append_val (lasts, self->next.states[s].last);
}

/* FALSE: too many states, or cancelled. */
static gboolean
record_places (Search *self, const HwOrderLimits *limits, GArray *lasts, GArray *first_arcs, gsize max_states)
{
  for (gsize k = 0; k < self->facts->n; k++)
    {
      Layer swap = self->here;

      self->base = lasts->len;
      if (!make_layer (self, limits, k) || !self->pass->complete || lasts->len + self->next.n > max_states
          || first_arcs->len > max_states || self->arcs->len > 30 * max_states)
        return FALSE;
      record_layer (self, lasts);
      self->here = self->next;
      self->next = swap;
    }
  return TRUE;
}

HwPathTrack *
hw_path_track_new (const HwPathBound *bound, const HwOrderLimits *limits, const guint64 *tracked, gint64 known,
                   gsize max_states, guint *n_made)
{
  HwPathTrack *track = NULL;
  HwPathPass pass = { .width = max_states, .known = known };
  guint16 start = (guint16) bound->facts->n;
  g_autoptr (GArray) lasts = g_array_new (FALSE, FALSE, sizeof (guint16));
  g_autoptr (GArray) first_arcs = g_array_new (FALSE, FALSE, sizeof (guint32));
  Search self;

  search_init (&self, bound, &pass, tracked);
  self.arcs = g_array_new (FALSE, FALSE, sizeof (guint32));
  self.first_arcs = first_arcs;
  g_array_append_val (lasts, start);
  if (record_places (&self, limits, lasts, first_arcs, max_states))
    {
      track = g_new0 (HwPathTrack, 1);
      track->n = bound->facts->n;
      track->n_states = lasts->len;
      track->first_final = lasts->len - (guint32) self.here.n;
      track->tracked = g_memdup2 (tracked, self.n_words * sizeof (guint64));
      track->rest = g_new0 (gint64, lasts->len);
      while (first_arcs->len <= lasts->len)
        g_array_append_val (first_arcs, self.arcs->len);
      track->first_arc = (guint32 *) (void *) g_array_free (g_steal_pointer (&first_arcs), FALSE);
      track->last = (guint16 *) (void *) g_array_free (g_steal_pointer (&lasts), FALSE);
      track->target = (guint32 *) (void *) g_array_free (g_steal_pointer (&self.arcs), FALSE);
    }
  *n_made += track != NULL ? (guint) track->n_states : lasts->len;
  g_clear_pointer (&self.arcs, g_array_unref);
  search_clear (&self);
  return track;
}
