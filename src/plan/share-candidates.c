/* share-candidates.c - the set-ups among which the order of work may choose
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A candidate is a value for each part that one operation accepts together. Where a value of a part is accepted by no
 * operation that does not accept a certain other value as well, the other does as well for the change time: put it in
 * the first one's place in any plan, and no part changes more often. So the candidates made of the values that are
 * left suffice for the least change time, and are listed first. What stands on the machine now is not left out, for to
 * keep it may save a change. The argument needs a part to cost the same whatever it is changed to; thread and stitch
 * do not, and so are never left out.
 */

#include "config.h"

#include "plan/order.h"
#include "plan/share.h"

#include <string.h>

#define MAX_CORE 72                      /* more make the search slow: then only what someone prefers as a whole */
#define MAX_CANDIDATES 200

/* ---- values that suffice ---- */

/* Which operations of a machine accept each value of a part: rows of 64-bit words, one a value. */
typedef struct
{
  gsize    n_words;
  guint64 *rows;
} Acceptance;

static gsize
count_variants (const HwSharing *self, int machine)
{
  gsize n = 0;

  for (gsize i = 0; i < self->n_operations; i++)
    n += self->operations[i].machine == machine ? self->operations[i].variants->len : 0;
  return n;
}

static void
fill_rows (const HwSharing *self, int machine, int part, int n_values, Acceptance *acceptance)
{
  gsize row = 0;

  for (gsize i = 0; i < self->n_operations; i++)
    for (guint v = 0; self->operations[i].machine == machine && v < self->operations[i].variants->len; v++, row++)
      for (int value = 0; value < n_values; value++)
        if (g_array_index (self->operations[i].variants, HwShareVariant, v).accept[part] >> value & 1)
          acceptance->rows[(gsize) value * acceptance->n_words + row / 64] |= (guint64) 1 << (row % 64);
}

/* Does @other serve wherever @value does? Of equals the first is kept. */
static gboolean
is_replaced (const Acceptance *self, int value, int other)
{
  const guint64 *row = self->rows + (gsize) value * self->n_words;
  const guint64 *more = self->rows + (gsize) other * self->n_words;
  gboolean equal = TRUE;

  for (gsize w = 0; w < self->n_words; w++)
    {
      if (row[w] & ~more[w])
        return FALSE;
      equal &= row[w] == more[w];
    }
  return !equal || other < value;
}

static gboolean
stands_now (const HwShareValues *values, int part, int value, const HwMounted *standing)
{
  if (!standing->known)
    return FALSE;
  switch ((HwSharePart) part)
    {
    case HW_SHARE_NEEDLE:
      return hw_needle_kind_same (values->needles[value], hw_mounted_needle (standing));
    case HW_SHARE_FOOT:
      return values->feet[value] == standing->foot;
    case HW_SHARE_PLATE:
      return values->plates[value] == standing->plate;
    case HW_SHARE_SOFT:
      return standing->soft_known && memcmp (values->soft[value], standing->soft, sizeof standing->soft) == 0;
    case HW_SHARE_N_PARTS:
    default:
      return FALSE;
    }
}

static void
find_core (const HwSharing *self, int machine, const HwMounted *standing)
{
  HwShareValues *values = g_ptr_array_index (self->machines, (guint) machine);
  Acceptance acceptance = { count_variants (self, machine) / 64 + 1, NULL };

  for (int p = 0; p < HW_SHARE_N_PARTS; p++)
    {
      acceptance.rows = g_new0 (guint64, (gsize) values->n[p] * acceptance.n_words + 1);
      fill_rows (self, machine, p, values->n[p], &acceptance);
      for (int v = 0; v < values->n[p]; v++)
        {
          gboolean replaced = FALSE;

          for (int other = 0; other < values->n[p] && !replaced; other++)
            replaced = other != v && is_replaced (&acceptance, v, other);
          if (!replaced || stands_now (values, p, v, standing))
            values->core[p] |= (guint64) 1 << v;
        }
      g_free (acceptance.rows);
    }
}

/* ---- candidates ---- */

/* Equal numbers, equal set-up. */
static int
find_candidate (const HwSharing *self, const HwShareNumbers *numbers)
{
  for (guint i = 0; i < self->numbers->len; i++)
    if (memcmp (&g_array_index (self->numbers, HwShareNumbers, i), numbers, sizeof *numbers) == 0)
      return (int) i;
  return -1;
}

static void
add_candidate (HwSharing *self, const HwShareNumbers *numbers)
{
  HwMounted mounted;

  if (find_candidate (self, numbers) >= 0)
    return;
  g_array_append_vals (self->numbers, numbers, 1);
  if (numbers->machine < 0)
    mounted = (HwMounted) { .known = TRUE, .system = -1, .point = -1, .foot = -1, .plate = -1 };
  else
    {
      const HwShareValues *values = g_ptr_array_index (self->machines, (guint) numbers->machine);
      const HwNeedleKind *needle = &values->needles[numbers->value[HW_SHARE_NEEDLE]];

      mounted = g_array_index (self->kinds, HwMounted, numbers->kind);
      mounted.machine = values->machine;
      mounted.system = needle->system;
      mounted.point = needle->point;
      mounted.size_nm = needle->size_nm;
      mounted.twin = needle->twin;
      mounted.foot = values->feet[numbers->value[HW_SHARE_FOOT]];
      mounted.plate = values->plates[numbers->value[HW_SHARE_PLATE]];
      memcpy (mounted.soft, values->soft[numbers->value[HW_SHARE_SOFT]], sizeof mounted.soft);
    }
  g_array_append_val (self->setups, mounted);
}

static int
next_value (guint64 set, int value)
{
  for (value++; value < HW_SHARE_MAX_VALUES; value++)
    if (set >> value & 1)
      return value;
  return -1;
}

/* Every choice of a value each from @sets, as an odometer counts; at most @limit candidates in all. */
static void
add_products (HwSharing *self, int machine, int kind, const guint64 *sets, guint limit)
{
  HwShareNumbers numbers = { .machine = machine, .kind = kind };
  int part;

  for (part = 0; part < HW_SHARE_N_PARTS; part++)
    {
      numbers.value[part] = next_value (sets[part], -1);
      if (numbers.value[part] < 0)
        return;
    }
  do
    {
      add_candidate (self, &numbers);
      for (part = 0; part < HW_SHARE_N_PARTS; part++)
        {
          numbers.value[part] = next_value (sets[part], numbers.value[part]);
          if (numbers.value[part] >= 0)
            break;
          numbers.value[part] = next_value (sets[part], -1);
        }
    }
  while (part < HW_SHARE_N_PARTS && self->setups->len < limit);
}

/* Of every operation what it accepts, of the core alone or all of it. */
static void
add_accepted (HwSharing *self, gboolean core, guint limit)
{
  for (gsize i = 0; i < self->n_operations; i++)
    {
      const HwShareOperation *op = &self->operations[i];

      for (guint v = 0; op->machine >= 0 && v < op->variants->len; v++)
        {
          const HwShareVariant *variant = &g_array_index (op->variants, HwShareVariant, v);
          const HwShareValues *values = g_ptr_array_index (self->machines, (guint) op->machine);
          guint64 sets[HW_SHARE_N_PARTS];

          for (int p = 0; p < HW_SHARE_N_PARTS; p++)
            sets[p] = variant->accept[p] & (core ? values->core[p] : ~(guint64) 0);
          add_products (self, op->machine, variant->kind, sets, limit);
        }
    }
}

static HwShareNumbers
number_preferred (const HwShareOperation *op)
{
  HwShareNumbers numbers = { .machine = op->machine };

  if (op->machine < 0)
    return numbers;
  numbers.kind = g_array_index (op->variants, HwShareVariant, 0).kind;
  memcpy (numbers.value, g_array_index (op->variants, HwShareVariant, 0).prefer, sizeof numbers.value);
  return numbers;
}

static void
add_preferred (HwSharing *self, gboolean iron)
{
  for (gsize i = 0; i < self->n_operations; i++)
    {
      HwShareNumbers numbers = number_preferred (&self->operations[i]);

      if (iron == (numbers.machine < 0))
        add_candidate (self, &numbers);
    }
}

static int
compare_numbers (const HwShareNumbers *a, const HwShareNumbers *b)
{
  if (a->machine != b->machine)
    return a->machine - b->machine;
  if (a->kind != b->kind)
    return a->kind - b->kind;
  for (int p = 0; p < HW_SHARE_N_PARTS; p++)
    if (a->value[p] != b->value[p])
      return a->value[p] - b->value[p];
  return 0;
}

static void
swap_candidates (HwSharing *self, guint a, guint b)
{
  HwShareNumbers *numbers = (HwShareNumbers *) (void *) self->numbers->data;
  HwMounted *setups = (HwMounted *) (void *) self->setups->data;
  HwShareNumbers number = numbers[a];
  HwMounted setup = setups[a];

  numbers[a] = numbers[b];
  setups[a] = setups[b];
  numbers[b] = number;
  setups[b] = setup;
}

/* Of equals the solver takes the first: which that is must not depend on the steps that are left. */
static void
sort_candidates (HwSharing *self, guint from, guint to)
{
  for (guint i = from + 1; i < to; i++)
    for (guint k = i; k > from && compare_numbers (&g_array_index (self->numbers, HwShareNumbers, k),
                                                   &g_array_index (self->numbers, HwShareNumbers, k - 1)) < 0; k--)
      swap_candidates (self, k, k - 1);
}

/* ---- who takes what ---- */

static gboolean
takes (const HwShareVariant *variant, const HwShareNumbers *numbers)
{
  if (variant->kind != numbers->kind)
    return FALSE;
  for (int p = 0; p < HW_SHARE_N_PARTS; p++)
    if (!(variant->accept[p] >> numbers->value[p] & 1))
      return FALSE;
  return TRUE;
}

static void
accept_candidate (HwSharing *self, gsize operation, gsize setup)
{
  const HwShareOperation *op = &self->operations[operation];
  const HwShareNumbers *numbers = &g_array_index (self->numbers, HwShareNumbers, setup);
  gsize n = self->setups->len;
  int *distance = &self->distance[operation * n + setup];

  for (guint v = 0; v < op->variants->len; v++)
    {
      const HwShareVariant *variant = &g_array_index (op->variants, HwShareVariant, v);

      if (!takes (variant, numbers))
        continue;
      self->accept[operation * HW_ORDER_SETUP_WORDS (n) + setup / 64] |= (guint64) 1 << (setup % 64);
      *distance = hw_sharing_measure (self, operation, variant, numbers);
      return;
    }
}

static void
fill_choices (HwSharing *self)
{
  gsize n = self->setups->len;
  gsize words = HW_ORDER_SETUP_WORDS (n);

  self->prefer = g_new0 (int, self->n_operations + 1);
  self->accept = g_new0 (guint64, self->n_operations * words + 1);
  self->distance = g_new0 (int, self->n_operations * n + 1);
  for (gsize i = 0; i < self->n_operations; i++)
    {
      HwShareNumbers numbers = number_preferred (&self->operations[i]);

      self->prefer[i] = find_candidate (self, &numbers);
      self->accept[i * words + (gsize) self->prefer[i] / 64] |= (guint64) 1 << (self->prefer[i] % 64);
      for (gsize u = 0; u < n && numbers.machine >= 0; u++)
        if (g_array_index (self->numbers, HwShareNumbers, u).machine == numbers.machine && (int) u != self->prefer[i])
          accept_candidate (self, i, u);
    }
}

void
hw_sharing_list_candidates (HwSharing *self, const HwMounted *standing)
{
  for (guint m = 0; m < self->machines->len; m++)
    find_core (self, (int) m, &standing[m]);
  add_preferred (self, TRUE);
  add_accepted (self, TRUE, MAX_CORE + 1);
  self->n_core = self->setups->len;
  if (self->n_core > MAX_CORE)
    {
      g_array_set_size (self->setups, 0);
      g_array_set_size (self->numbers, 0);
      add_preferred (self, TRUE);
      self->n_core = 0;                  /* all of them */
    }
  add_preferred (self, FALSE);
  if (self->n_core > 0)
    add_accepted (self, FALSE, MAX_CANDIDATES);
  sort_candidates (self, 0, (guint) self->n_core);
  sort_candidates (self, (guint) self->n_core, self->setups->len);
  fill_choices (self);
}
