/* agree-kind.c - the fewest set-ups that serve operations of one machine, stitch and thread
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A set cover: each possible set-up serves the operations that accept it. The covers of least size are
 * all listed, by depth-first search over the first operation not yet served, one size after the other.
 * Sizes and lists are small in sewing; where they are not the list is cut short and says so.
 */

#include "config.h"

#include "plan/agree-private.h"

#include <stdlib.h>
#include <string.h>

#define MAX_CLASSES 64
#define MAX_CANDIDATES 256
#define MAX_NODES 20000
#define MAX_COVERS 1024

gboolean
hw_agree_accepts (const HwAgreeOperation *operation, const HwAgreeChoice *choice)
{
  for (int p = 0; p < HW_AGREE_N_PARTS; p++)
    if (!((operation->accept[p] >> choice->value[p]) & 1))
      return FALSE;
  return TRUE;
}

int
hw_agree_distance (const HwAgreeOperation *operation, const HwAgreeChoice *choice)
{
  int distance = 0;

  for (int p = 0; p < HW_AGREE_N_PARTS; p++)
    distance += operation->distance[p][choice->value[p]];
  return distance;
}

static const HwAgreeOperation *
class_at (const HwAgreeKind *self, const HwAgreeProblem *problem, gsize class)
{
  return &problem->operations[self->classes[class]];
}

static void
add_candidate (GArray *list, const HwAgreeChoice *choice)
{
  for (guint i = 0; i < list->len; i++)
    if (memcmp (&g_array_index (list, HwAgreeChoice, i), choice, sizeof *choice) == 0)
      return;
  g_array_append_vals (list, choice, 1);
}

static gboolean
accepts_value (const HwAgreeOperation *operation, HwAgreePart part, int value)
{
  return (operation->accept[part] >> value) & 1;
}

static void
add_accepted (const HwAgreeOperation *operation, GArray *list)
{
  for (int needle = 0; needle < HW_AGREE_MAX_VALUES; needle++)
    {
      if (!accepts_value (operation, HW_AGREE_NEEDLE, needle))
        continue;
      for (int foot = 0; foot < HW_AGREE_MAX_VALUES; foot++)
        {
          if (!accepts_value (operation, HW_AGREE_FOOT, foot))
            continue;
          for (int plate = 0; plate < HW_AGREE_MAX_VALUES && list->len <= MAX_CANDIDATES; plate++)
            if (accepts_value (operation, HW_AGREE_PLATE, plate))
              add_candidate (list, &(HwAgreeChoice) { { needle, foot, plate } });
        }
    }
}

static int
compare_choices_cb (gconstpointer a, gconstpointer b)
{
  const HwAgreeChoice *x = a;
  const HwAgreeChoice *y = b;

  for (int p = 0; p < HW_AGREE_N_PARTS; p++)
    if (x->value[p] != y->value[p])
      return x->value[p] < y->value[p] ? -1 : 1;
  return 0;
}

/* All that a member accepts, or only what one prefers when that is too much. */
static void
list_candidates (HwAgreeKind *self, const HwAgreeProblem *problem)
{
  GArray *list = g_array_new (FALSE, TRUE, sizeof (HwAgreeChoice));

  for (gsize c = 0; c < self->n_classes && list->len <= MAX_CANDIDATES; c++)
    add_accepted (class_at (self, problem, c), list);
  if (list->len > MAX_CANDIDATES)
    {
      self->complete = FALSE;
      g_array_set_size (list, 0);
      for (gsize c = 0; c < self->n_classes; c++)
        {
          HwAgreeChoice choice;

          memcpy (choice.value, class_at (self, problem, c)->prefer, sizeof choice.value);
          add_candidate (list, &choice);
        }
    }
  g_array_sort (list, compare_choices_cb);
  self->candidates = (HwAgreeChoice *) (void *) g_array_steal (list, &self->n_candidates);
  g_array_unref (list);
}

static gboolean
are_alike (const HwAgreeOperation *a, const HwAgreeOperation *b)
{
  return memcmp (a->prefer, b->prefer, sizeof a->prefer) == 0 && memcmp (a->accept, b->accept, sizeof a->accept) == 0
         && memcmp (a->distance, b->distance, sizeof a->distance) == 0;
}

static int
find_class (HwAgreeKind *self, const HwAgreeProblem *problem, int operation)
{
  for (gsize c = 0; c < self->n_classes; c++)
    if (are_alike (class_at (self, problem, c), &problem->operations[operation]))
      return (int) c;
  self->classes[self->n_classes] = operation;
  return (int) self->n_classes++;
}

static void
list_members (HwAgreeKind *self, const HwAgreeProblem *problem, int machine)
{
  self->members = g_new (int, problem->n_operations + 1);
  self->alike = g_new (int, problem->n_operations + 1);
  self->classes = g_new (int, problem->n_operations + 1);
  for (gsize i = 0; i < problem->n_operations; i++)
    if (problem->operations[i].machine == machine && problem->operations[i].kind == self->kind)
      {
        self->alike[self->n_members] = find_class (self, problem, (int) i);
        self->members[self->n_members++] = (int) i;
      }
}

/* ---- covers ---- */

typedef struct
{
  const guint64 *serves;        /* classes each candidate serves */
  gsize    n_candidates;
  guint64  all;
  gsize    size;                /* how many candidates a cover may hold */
  int      path[MAX_CLASSES];
  guint64  served[MAX_CLASSES + 1];
  guint    n_nodes;
} CoverSearch;

/* The next candidate after path[depth] that serves the first class not yet served; -1 none. */
static int
next_candidate (const CoverSearch *search, gsize depth)
{
  guint64 open = search->all & ~search->served[depth];
  guint64 first = open & (~open + 1);

  for (gsize c = (gsize) (search->path[depth] + 1); c < search->n_candidates; c++)
    if (search->serves[c] & first)
      return (int) c;
  return -1;
}

/* Appends the covers of the size asked; FALSE when cut short. */
static gboolean
search_covers (CoverSearch *search, GArray *covers)
{
  gsize depth = 0;

  search->path[0] = -1;
  search->served[0] = 0;
  for (;;)
    {
      search->path[depth] = next_candidate (search, depth);
      if (search->path[depth] < 0)
        {
          if (depth == 0)
            return TRUE;
          depth--;
          continue;
        }
      if (++search->n_nodes > MAX_NODES || covers->len >= MAX_COVERS * search->size)
        return FALSE;
      search->served[depth + 1] = search->served[depth] | search->serves[search->path[depth]];
      if (search->served[depth + 1] == search->all)
        g_array_append_vals (covers, search->path, (guint) depth + 1);
      else if (depth + 1 < search->size)
        search->path[++depth] = -1;
    }
}

static guint
count_bits (guint64 set)
{
  guint n = 0;

  for (; set != 0; set &= set - 1)
    n++;
  return n;
}

/* Each time the candidate that serves the most of what is left: one cover, seldom the best. */
static gsize
cover_greedily (const CoverSearch *search, GArray *covers)
{
  guint64 open = search->all;
  gsize size = 0;

  while (open != 0)
    {
      int best = 0;

      for (gsize c = 1; c < search->n_candidates; c++)
        if (count_bits (search->serves[c] & open) > count_bits (search->serves[best] & open))
          best = (int) c;
      g_array_append_val (covers, best);
      open &= ~search->serves[best];
      size++;
    }
  return size;
}

static void
find_covers (HwAgreeKind *self, const guint64 *serves)
{
  CoverSearch search = { .serves = serves, .n_candidates = self->n_candidates };

  search.all = self->n_classes == 64 ? ~(guint64) 0 : ((guint64) 1 << self->n_classes) - 1;
  for (search.size = 1; search.size <= self->n_classes; search.size++)
    {
      gboolean complete = search_covers (&search, self->covers);

      self->complete &= complete;
      self->cover_size = search.size;
      if (self->covers->len > 0)
        return;
      if (!complete)
        break;
    }
  self->cover_size = cover_greedily (&search, self->covers);
}

/* ---- nearest first ---- */

static int
nearest_in_cover (const HwAgreeKind *self, const HwAgreeOperation *operation, gsize cover, int *distance)
{
  const int *numbers = &g_array_index (self->covers, int, cover * self->cover_size);
  int nearest = -1;

  for (gsize i = 0; i < self->cover_size; i++)
    {
      const HwAgreeChoice *choice = &self->candidates[numbers[i]];

      if (!hw_agree_accepts (operation, choice))
        continue;
      if (nearest >= 0 && hw_agree_distance (operation, choice) >= *distance)
        continue;
      nearest = numbers[i];
      *distance = hw_agree_distance (operation, choice);
    }
  return nearest;
}

static int
measure_cover (const HwAgreeKind *self, const HwAgreeProblem *problem, const int *n_alike, gsize cover)
{
  int total = 0;

  for (gsize c = 0; c < self->n_classes; c++)
    {
      int distance = 0;

      nearest_in_cover (self, class_at (self, problem, c), cover, &distance);
      total += distance * n_alike[c];
    }
  return total;
}

typedef struct { int distance; int cover; } Ranked;

static int
compare_ranked_cb (gconstpointer a, gconstpointer b)
{
  const Ranked *x = a;
  const Ranked *y = b;

  return x->distance != y->distance ? (x->distance < y->distance ? -1 : 1) : x->cover - y->cover;
}

static void
sort_covers (HwAgreeKind *self, const HwAgreeProblem *problem)
{
  gsize n = self->covers->len / self->cover_size;
  g_autofree Ranked *ranks = g_new (Ranked, n);
  g_autofree int *n_alike = g_new0 (int, self->n_classes);
  GArray *sorted = g_array_sized_new (FALSE, FALSE, sizeof (int), self->covers->len);

  for (gsize m = 0; m < self->n_members; m++)
    n_alike[self->alike[m]]++;
  for (gsize i = 0; i < n; i++)
    ranks[i] = (Ranked) { measure_cover (self, problem, n_alike, i), (int) i };
  qsort (ranks, n, sizeof *ranks, compare_ranked_cb);
  for (gsize i = 0; i < n; i++)
    {
      g_array_append_vals (sorted, &g_array_index (self->covers, int, (gsize) ranks[i].cover * self->cover_size),
                           (guint) self->cover_size);
      g_array_append_val (self->distances, ranks[i].distance);
    }
  g_array_unref (self->covers);
  self->covers = sorted;
}

HwAgreeKind *
hw_agree_kind_new (const HwAgreeProblem *problem, int machine, int kind)
{
  HwAgreeKind *self = g_new0 (HwAgreeKind, 1);
  g_autofree guint64 *serves = NULL;

  self->kind = kind;
  self->covers = g_array_new (FALSE, FALSE, sizeof (int));
  self->distances = g_array_new (FALSE, FALSE, sizeof (int));
  self->complete = TRUE;
  list_members (self, problem, machine);
  if (self->n_members == 0 || self->n_classes > MAX_CLASSES)
    {
      self->complete = self->n_members == 0;
      return self;
    }
  list_candidates (self, problem);
  serves = g_new0 (guint64, self->n_candidates);
  for (gsize c = 0; c < self->n_candidates; c++)
    for (gsize k = 0; k < self->n_classes; k++)
      if (hw_agree_accepts (class_at (self, problem, k), &self->candidates[c]))
        serves[c] |= (guint64) 1 << k;
  find_covers (self, serves);
  sort_covers (self, problem);
  return self;
}

void
hw_agree_kind_free (HwAgreeKind *self)
{
  if (self == NULL)
    return;
  g_free (self->members);
  g_free (self->alike);
  g_free (self->classes);
  g_free (self->candidates);
  g_array_unref (self->covers);
  g_array_unref (self->distances);
  g_free (self);
}

void
hw_agree_kind_take (const HwAgreeKind *self, const HwAgreeProblem *problem, gsize cover, HwAgreeChoice *choices)
{
  for (gsize m = 0; m < self->n_members; m++)
    {
      int distance = 0;
      int nearest = nearest_in_cover (self, class_at (self, problem, (gsize) self->alike[m]), cover, &distance);

      choices[self->members[m]] = self->candidates[nearest];
    }
}
