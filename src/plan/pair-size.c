/* pair-size.c - the needle's size
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The smallest size that the thread, the stack and the cloth allow from below, and that leaves no lasting hole in
 * the most delicate ply.
 */

#include "config.h"

#include "plan/pairing-private.h"
#include "trade/needle.h"
#include "trade/thread.h"

#include <math.h>

#define EPSILON 1e-9
#define USUAL_SIZE 80                    /* where the handbook has no row */

typedef struct
{
  const HwRule  *rule;
  const HwCloth *cloth;
  double         nm;
} Bound;

typedef struct
{
  Bound  cloth_low, cloth_prefer, cloth_high;    /* of the plies that decide each */
  Bound  stack;                                  /* the largest */
  Bound  thread;                                 /* rule, low in nm */
  double thread_prefer;
  double thread_limit;                           /* the long groove takes no more thread than this blade has */
  double low, high;
} Bounds;

static const HwPoint *
get_point (const HwPairing *self)
{
  return &self->handbook->points[(gsize) self->setup->values[HW_FIELD_POINT].value];
}

static void
ask_cloths (const HwPairing *self, Bounds *bounds)
{
  for (gsize i = 0; i < self->n_plies; i++)
    {
      const HwCloth *cloth = self->plies[i].cloth;
      const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_CLOTH_SIZE, &self->plies[i].facts);

      if (rule == NULL)
        continue;
      if (bounds->cloth_low.rule == NULL || rule->band.low > bounds->cloth_low.nm)
        bounds->cloth_low = (Bound) { rule, cloth, rule->band.low };
      if (bounds->cloth_prefer.rule == NULL || rule->band.prefer > bounds->cloth_prefer.nm)
        bounds->cloth_prefer = (Bound) { rule, cloth, rule->band.prefer };
      if (bounds->cloth_high.rule == NULL || rule->band.high < bounds->cloth_high.nm)
        bounds->cloth_high = (Bound) { rule, cloth, rule->band.high };
    }
}

static void
ask_stack (const HwPairing *self, Bounds *bounds)
{
  const HwRule *rules = self->handbook->rules[HW_RULES_STACK_SIZE];
  gsize n_rules = self->handbook->n_rules[HW_RULES_STACK_SIZE];

  for (gsize i = 0; i < n_rules; i++)
    if (rules[i].band.low > bounds->stack.nm && hw_rule_fits (&rules[i], &self->facts))
      bounds->stack = (Bound) { &rules[i], NULL, rules[i].band.low };
}

static void
ask_thread (const HwPairing *self, Bounds *bounds)
{
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_THREAD_SIZE, &self->facts);
  const HwThreadChoice *thread = &self->setup->needle_thread;

  bounds->thread_limit = hw_needle_smallest_nm (thread->diameter_mm, get_point (self)->eye_factor);
  bounds->thread_prefer = hw_needle_suggested_nm (thread->diameter_mm, get_point (self)->eye_factor);
  if (rule != NULL)
    {
      bounds->thread = (Bound) { rule, NULL, rule->band.low };
      bounds->thread_prefer = rule->band.prefer;
    }
}

/* ---- sizes sold: of the point, or of the twins of one spacing ---- */

typedef struct
{
  const HwPoint *point;
  double         spacing_mm;             /* 0: single needles */
  gsize          n;
} Sizes;

static Sizes
list_sizes (const HwPairing *self)
{
  const HwPoint *point = get_point (self);
  double spacing = self->twin ? self->setup->values[HW_FIELD_TWIN].value : 0;

  for (gsize i = 0; i < point->n_twins && spacing > 0; i++)
    if (fabs (point->twins[i].spacing_mm - spacing) < EPSILON)
      return (Sizes) { point, spacing, point->n_twins };
  return (Sizes) { point, 0, point->n_sizes };
}

/* The size at @index; NAN: a twin of another spacing. */
static double
get_size (const Sizes *sizes, gsize index)
{
  const HwTwin *twin;

  if (!(sizes->spacing_mm > 0))
    return sizes->point->sizes[index];
  twin = &sizes->point->twins[index];
  return fabs (twin->spacing_mm - sizes->spacing_mm) < EPSILON ? (double) twin->nm : NAN;
}

/* The smallest size sold from @low to @high; NAN none. */
static double
find_smallest (const Sizes *sizes, double low, double high)
{
  double found = NAN;

  for (gsize i = 0; i < sizes->n; i++)
    {
      double nm = get_size (sizes, i);

      if (nm >= low - EPSILON && nm <= high + EPSILON && !(nm >= found))
        found = nm;
    }
  return found;
}

static double
find_largest (const Sizes *sizes, double low, double high)
{
  double found = NAN;

  for (gsize i = 0; i < sizes->n; i++)
    {
      double nm = get_size (sizes, i);

      if (nm >= low - EPSILON && nm <= high + EPSILON && !(nm <= found))
        found = nm;
    }
  return found;
}

/* The smallest that is at least as large as wanted and within the band, else the largest within the band, else the
 * nearest above, else the largest sold. */
static double
snap (const Sizes *sizes, double low, double wanted, double high)
{
  double nm = find_smallest (sizes, wanted, high);

  if (isnan (nm))
    nm = find_largest (sizes, low, high);
  if (isnan (nm))
    nm = find_smallest (sizes, low, INFINITY);
  if (isnan (nm))
    nm = find_largest (sizes, 0, INFINITY);
  return nm;
}

/* ---- the bounds together ---- */

static gboolean
thread_would_do (const HwPairing *self, const HwThreadEntry *entry, double high)
{
  HwFacts facts = self->facts;
  const HwRule *rule;

  facts.tex = entry->tex;
  rule = hw_rules_first (self->handbook, HW_RULES_THREAD_SIZE, &facts);
  return (rule == NULL || rule->band.low <= high)
         && hw_needle_smallest_nm (hw_thread_diameter_mm (entry->tex, entry->density, entry->packing),
                                   get_point (self)->eye_factor) <= high;
}

/* The heaviest of the handbook's sewing threads under @limit that a needle of the cloth's largest size still takes; 0
 * none. */
static double
find_finer (const HwPairing *self, const Bounds *bounds, double limit)
{
  double tex = 0;

  for (gsize i = 0; i < self->handbook->n_threads; i++)
    {
      const HwThreadEntry *entry = &self->handbook->threads[i];

      if (entry->tex < limit && entry->tex > tex
          && (entry->form == HW_THREAD_SPUN || entry->form == HW_THREAD_CORE)
          && thread_would_do (self, entry, bounds->high))
        tex = entry->tex;
    }
  return tex;
}

/* A thread that the needle takes, and that the cloth wants too where there is one; 0 when the thread is not what
 * stands in the way. */
static double
find_way_out (const HwPairing *self, const Bounds *bounds)
{
  double tex = self->setup->needle_thread.tex;
  double wanted = self->setup->values[HW_FIELD_NEEDLE_TEX].high + 0.5;
  double finer = 0;

  if (MAX (bounds->cloth_low.nm, bounds->stack.nm) > bounds->high)
    return 0;
  if (wanted < tex)
    finer = find_finer (self, bounds, wanted);
  return finer > 0 ? finer : find_finer (self, bounds, tex);
}

/* Where the bounds cross, the thread must still pass and the needle must not bend: the lower bounds win. The next
 * size above what the cloth wants is borne in silence, as trade tables do; beyond it a warning names both sides. */
static void
join_bounds (HwPairing *self, const Sizes *sizes, Bounds *bounds)
{
  double next_size;

  bounds->low = MAX (MAX (bounds->cloth_low.nm, bounds->stack.nm), MAX (bounds->thread.nm, bounds->thread_limit));
  bounds->high = bounds->cloth_high.rule != NULL ? bounds->cloth_high.nm : INFINITY;
  if (bounds->low <= bounds->high)
    return;

  next_size = find_smallest (sizes, bounds->high + 1, INFINITY);
  if (!(bounds->low <= next_size))
    hw_pairing_add_warning (self, HW_FIELD_SIZE, HW_WARN_BOUNDS_CROSS, bounds->cloth_high.cloth,
                            bounds->low, bounds->high, find_way_out (self, bounds));
  bounds->high = bounds->low;
}

static void
add_bound (HwPairing *self, const Bound *bound)
{
  if (bound->rule != NULL)
    hw_pairing_add_rule (self, HW_FIELD_SIZE, bound->rule, bound->cloth);
}

/* The rules that shaped the size; those that asked for less than was met anyway stay silent. */
static void
explain (HwPairing *self, const Bounds *bounds, double wanted, double nm)
{
  gboolean held_down = wanted > bounds->high;

  add_bound (self, &bounds->thread);
  add_bound (self, &bounds->cloth_prefer);
  if (bounds->cloth_low.rule != bounds->cloth_prefer.rule && bounds->cloth_low.nm >= nm)
    add_bound (self, &bounds->cloth_low);
  if (bounds->stack.nm >= MAX (bounds->cloth_prefer.nm, bounds->thread_prefer))
    add_bound (self, &bounds->stack);
  if (held_down && bounds->cloth_high.rule != bounds->cloth_prefer.rule)
    add_bound (self, &bounds->cloth_high);
  if (!held_down)
    hw_pairing_add_reason (self, HW_FIELD_SIZE, HW_REASON_SMALLEST, self->practice, nm, 0, 0);
}

/* What is set decides, an override included. */
static void
check_thread_share (HwPairing *self)
{
  const HwThreadChoice *thread = &self->setup->needle_thread;
  double eye = get_point (self)->eye_factor;
  double nm = self->setup->values[HW_FIELD_SIZE].value;
  double share = thread->diameter_mm / (hw_needle_blade_mm ((int) lround (nm)) * eye);

  hw_pairing_add_reason (self, HW_FIELD_SIZE, HW_REASON_THREAD_SHARE, self->practice, thread->diameter_mm, 100 * share,
                         hw_needle_suggested_nm (thread->diameter_mm, eye));
  if (share > HW_NEEDLE_THREAD_SHARE_LIMIT)
    hw_pairing_add_warning (self, HW_FIELD_SIZE, HW_WARN_THREAD_LIMIT, NULL, 100 * share, 0, 0);
}

void
hw_pairing_settle_size (HwPairing *self)
{
  HwValue *value = &self->setup->values[HW_FIELD_SIZE];
  Sizes sizes = list_sizes (self);
  Bounds bounds = { 0 };
  double wanted, nm;

  ask_cloths (self, &bounds);
  ask_stack (self, &bounds);
  ask_thread (self, &bounds);
  join_bounds (self, &sizes, &bounds);

  wanted = MAX (MAX (bounds.thread_prefer, bounds.stack.nm),
                bounds.cloth_prefer.rule != NULL ? bounds.cloth_prefer.nm : USUAL_SIZE);
  nm = snap (&sizes, bounds.low, CLAMP (wanted, bounds.low, bounds.high), bounds.high);
  explain (self, &bounds, wanted, nm);

  *value = (HwValue) { .applies = TRUE, .low = MIN (bounds.low, nm), .prefer = nm, .value = nm,
                       .high = MAX (isfinite (bounds.high) ? bounds.high : nm, nm) };
  if (nm < bounds.low - EPSILON || nm > bounds.high + EPSILON)
    hw_pairing_add_warning (self, HW_FIELD_SIZE, HW_WARN_SIZE_NOT_SOLD, NULL,
                            CLAMP (wanted, bounds.low, bounds.high), nm, 0);
  hw_pairing_override_number (self, HW_FIELD_SIZE);
  check_thread_share (self);
}
