/* share.c - which set-ups each operation of a project would take, so that one may serve many
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What may be shared is what some operation on the machine prefers, or what is on it now: its needle (where it is that
 * of a step or the next size), foot, plate, its length with the dial that goes with it, and its threads where they are
 * the project's and of the same colour. Each is taken when it lies in the operation's own band. A needle taken only to
 * save a change keeps the thread within a third of its blade, so that a topstitching thread never moves to a seam's
 * needle. A value the person set, a thread the person named and a step whose person refused stay as they are. order.h
 * chooses among what is listed here.
 */

#include "config.h"

#include "plan/share.h"

#include <math.h>
#include <string.h>

#define NEXT_SIZE 1.126           /* at most: 80 to 90; 70 to 80 is two, with 75 between them */

/* ---- numbering ---- */

static int
number_needle (HwShareValues *values, HwNeedleKind needle)
{
  int n = values->n[HW_SHARE_NEEDLE];

  for (int i = 0; i < n; i++)
    if (memcmp (&values->needles[i], &needle, sizeof needle) == 0)
      return i;
  if (n == HW_SHARE_MAX_VALUES)
    return -1;
  values->needles[n] = needle;
  return values->n[HW_SHARE_NEEDLE]++;
}

static int
number_plain (int *list, int *n, int value)
{
  for (int i = 0; i < *n; i++)
    if (list[i] == value)
      return i;
  if (*n == HW_SHARE_MAX_VALUES)
    return -1;
  list[*n] = value;
  return (*n)++;
}

static int
number_soft (HwShareValues *values, const int *soft)
{
  int n = values->n[HW_SHARE_SOFT];

  for (int i = 0; i < n; i++)
    if (memcmp (values->soft[i], soft, sizeof values->soft[i]) == 0)
      return i;
  if (n == HW_SHARE_MAX_VALUES)
    return -1;
  memcpy (values->soft[n], soft, sizeof values->soft[n]);
  return values->n[HW_SHARE_SOFT]++;
}

static int
number_kind (HwSharing *self, const HwMounted *mounted)
{
  for (guint i = 0; i < self->kinds->len; i++)
    {
      const HwMounted *kind = &g_array_index (self->kinds, HwMounted, i);

      if (kind->stitch == mounted->stitch && hw_thread_choice_same (kind->needle_thread, mounted->needle_thread)
          && hw_thread_choice_same (kind->bobbin_thread, mounted->bobbin_thread))
        return (int) i;
    }
  g_array_append_vals (self->kinds, mounted, 1);
  return (int) self->kinds->len - 1;
}

/* FALSE: more different values than can be numbered. */
static gboolean
number_variant (HwSharing *self, HwShareValues *values, HwShareVariant *variant)
{
  HwMounted mounted = hw_mounted_from_setup (variant->setup);

  variant->kind = number_kind (self, &mounted);
  variant->prefer[HW_SHARE_NEEDLE] = number_needle (values, hw_mounted_needle (&mounted));
  variant->prefer[HW_SHARE_FOOT] = number_plain (values->feet, &values->n[HW_SHARE_FOOT], mounted.foot);
  variant->prefer[HW_SHARE_PLATE] = number_plain (values->plates, &values->n[HW_SHARE_PLATE], mounted.plate);
  variant->prefer[HW_SHARE_SOFT] = number_soft (values, mounted.soft);
  for (int p = 0; p < HW_SHARE_N_PARTS; p++)
    if (variant->prefer[p] < 0)
      return FALSE;
  return TRUE;
}

/* ---- threads ---- */

static gboolean
is_own_choice (const HwSetup *setup, HwField field)
{
  return setup->values[field].origin != HW_ORIGIN_OVERRIDDEN && setup->values[field].applies;
}

/* Nominal sizes: judged in whole tex, as they are shown. */
static gboolean
in_band (const HwValue *value, double tex)
{
  return round (tex) >= round (value->low) && round (tex) <= round (value->high);
}

/* Would @other do in place of @own: another of the project's threads, of its colour, its form and in its band? */
static gboolean
would_do (const HwThreadChoice *own, const HwThreadChoice *other, const HwValue *band)
{
  return own->thread != NULL && other->thread != NULL && own->thread != other->thread
         && own->thread->colour != NULL && g_strcmp0 (own->thread->colour, other->thread->colour) == 0
         && own->entry->form == other->entry->form && in_band (band, other->tex);
}

static gboolean
has_variant (const GArray *variants, const HwThreadChoice *needle, const HwThreadChoice *bobbin)
{
  for (guint i = 0; i < variants->len; i++)
    {
      const HwSetup *setup = g_array_index (variants, HwShareVariant, i).setup;

      if (hw_thread_choice_same (&setup->needle_thread, needle)
          && hw_thread_choice_same (&setup->bobbin_thread, bobbin))
        return TRUE;
    }
  return FALSE;
}

/* The step paired anew with these threads; NULL where that brings a warning that it has not now. */
static HwSetup *
pair_with (const HwPlan *plan, const HwSetup *setup, const char *needle, const char *bobbin)
{
  HwStep step = *setup->step;            /* for the call alone: what it points to stays the project's */
  HwSetup *other;

  step.needle_thread = (char *) needle;
  step.bobbin_thread = (char *) bobbin;
  other = hw_pair (plan->handbook, plan->project, plan->cloths, plan->room, &step, NULL);
  if (other == NULL)
    return NULL;
  other->step = setup->step;
  hw_setup_prefer_at_hand (plan, other);
  if (other->warnings->len <= setup->warnings->len && other->machine == setup->machine)
    return other;
  hw_setup_free (other);
  return NULL;
}

static void
add_variant (HwSharing *self, HwShareOperation *op, const HwThreadChoice *needle, const HwThreadChoice *bobbin)
{
  const HwSetup *setup = g_array_index (op->variants, HwShareVariant, 0).setup;
  HwShareVariant variant = { .own = TRUE };

  if (has_variant (op->variants, needle, bobbin))
    return;
  variant.setup = pair_with (self->plan, setup, needle->thread->id, bobbin->thread->id);
  if (variant.setup == NULL)
    return;
  variant.distance = (int) lround (fabs (needle->tex - setup->needle_thread.tex)
                                   + fabs (bobbin->tex - setup->bobbin_thread.tex)) + 20;
  g_array_append_val (op->variants, variant);
}

/* Threads that @other is sewn in and that would do here too. */
static void
add_variants_of (HwSharing *self, HwShareOperation *op, const HwSetup *other)
{
  const HwSetup *setup = g_array_index (op->variants, HwShareVariant, 0).setup;
  const HwStep *step = setup->step;
  gboolean needle = step->needle_thread == NULL && is_own_choice (setup, HW_FIELD_NEEDLE_TEX)
                    && would_do (&setup->needle_thread, &other->needle_thread, &setup->values[HW_FIELD_NEEDLE_TEX]);
  gboolean bobbin = step->bobbin_thread == NULL && is_own_choice (setup, HW_FIELD_BOBBIN_TEX)
                    && would_do (&setup->bobbin_thread, &other->bobbin_thread, &setup->values[HW_FIELD_BOBBIN_TEX]);

  if (setup->bobbin_thread.thread == NULL)
    return;
  if (needle && bobbin)
    add_variant (self, op, &other->needle_thread, &other->bobbin_thread);
  if (needle)
    add_variant (self, op, &other->needle_thread, &setup->bobbin_thread);
  if (bobbin && setup->needle_thread.thread != NULL)
    add_variant (self, op, &setup->needle_thread, &other->bobbin_thread);
}

/* Set-ups that differ in machine or threads: (element-type HwSetup) borrowed. */
static GPtrArray *
list_sewn (const HwSharing *self)
{
  GPtrArray *sewn = g_ptr_array_new ();

  for (gsize i = 0; i < self->n_operations; i++)
    {
      HwSetup *setup = self->plan->setups[self->operations[i].step];
      const HwSetup *other = setup;
      guint known = 0;

      if (setup == NULL)
        continue;
      for (; known < sewn->len; known++)
        {
          other = g_ptr_array_index (sewn, known);
          if (other->machine == setup->machine && hw_thread_choice_same (&other->needle_thread, &setup->needle_thread)
              && hw_thread_choice_same (&other->bobbin_thread, &setup->bobbin_thread))
            break;
        }
      if (known == sewn->len)
        g_ptr_array_add (sewn, setup);
    }
  return sewn;
}

/* @sewn: what threads there are to choose from. */
static void
list_variants (HwSharing *self, HwShareOperation *op, const GPtrArray *sewn)
{
  HwShareVariant first = { .setup = self->plan->setups[op->step] };

  op->variants = g_array_new (FALSE, TRUE, sizeof (HwShareVariant));
  g_array_append_val (op->variants, first);
  if (self->plan->project->threads->len < 2 || !first.setup->step->share)
    return;
  for (guint i = 0; i < sewn->len; i++)
    {
      const HwSetup *other = g_ptr_array_index (sewn, i);

      if (other->machine == first.setup->machine)
        add_variants_of (self, op, other);
    }
}

/* ---- what an operation accepts ---- */

static gboolean
admits (const HwSetup *setup, HwField field, double value)
{
  const HwValue *own = &setup->values[field];

  if (!own->applies)
    return value < 0 || (field == HW_FIELD_TWIN && value <= 0);
  if (value < 0 && field != HW_FIELD_PRESSURE)     /* none of a list; steps of pressure go below what is usual */
    return FALSE;
  if (fabs (own->value - value) < 1e-6)
    return TRUE;
  if (own->origin == HW_ORIGIN_OVERRIDDEN || !setup->step->share)
    return FALSE;
  return hw_value_accepts (own, field, value);
}

static gboolean
accepts_needle (const HwPlan *plan, const HwSetup *setup, const HwNeedleKind *needle)
{
  gboolean twin = setup->values[HW_FIELD_TWIN].applies && setup->values[HW_FIELD_TWIN].value > 0;

  return twin == (needle->twin > 0) && admits (setup, HW_FIELD_SYSTEM, needle->system)
         && admits (setup, HW_FIELD_POINT, needle->point) && admits (setup, HW_FIELD_SIZE, needle->size_nm)
         && (!twin || admits (setup, HW_FIELD_TWIN, needle->twin / 100.0))
         && hw_needle_takes_thread (plan, setup, needle);
}

/* The dial at that length: the band moves with it. */
static gboolean
accepts_dial (const HwPlan *plan, const HwSetup *setup, double length_mm, double dial)
{
  const HwValue *own = &setup->values[HW_FIELD_DIAL];
  HwBand band;

  if (fabs (setup->values[HW_FIELD_LENGTH].value - length_mm) < 1e-6 || own->origin == HW_ORIGIN_OVERRIDDEN)
    return admits (setup, HW_FIELD_DIAL, dial);
  band = hw_pair_dial_band (plan->handbook, plan->room, setup, length_mm);
  return dial >= band.low - 1e-6 && dial <= band.high + 1e-6;
}

/* A tenth of a minute is worth no more than half the way to the edge of the band, as for the dial. */
static gboolean
admits_near (const HwSetup *setup, HwField field, double value)
{
  const HwValue *own = &setup->values[field];

  return admits (setup, field, value) && fabs (value - own->value) * 2 <= (value < own->value ? own->value - own->low
                                                                                              : own->high - own->value)
                                                                            + 1e-6;
}

static gboolean
accepts_soft (const HwPlan *plan, const HwSetup *setup, const int *soft)
{
  for (int i = 0; i < HW_N_SOFT_PARTS; i++)
    {
      HwField field = hw_soft_fields[i];

      if (!setup->values[field].applies)
        {
          if (soft[i] != 0)
            return FALSE;
        }
      else if (field != HW_FIELD_DIAL && !admits_near (setup, field, soft[i] / 100.0))
        return FALSE;
    }
  return setup->step->share && accepts_dial (plan, setup, soft[HW_SOFT_LENGTH] / 100.0, soft[HW_SOFT_DIAL] / 100.0);
}

static gboolean
accepts (const HwPlan *plan, const HwSetup *setup, const HwShareValues *values, int part, int value)
{
  switch ((HwSharePart) part)
    {
    case HW_SHARE_NEEDLE:
      return accepts_needle (plan, setup, &values->needles[value]);
    case HW_SHARE_FOOT:
      return admits (setup, HW_FIELD_FOOT, values->feet[value]);
    case HW_SHARE_PLATE:
      return admits (setup, HW_FIELD_PLATE, values->plates[value]);
    case HW_SHARE_SOFT:
      return accepts_soft (plan, setup, values->soft[value]);
    case HW_SHARE_N_PARTS:
    default:
      return FALSE;
    }
}

static void
fill_accepted (const HwSharing *self, const HwShareOperation *op)
{
  const HwShareValues *values = g_ptr_array_index (self->machines, (guint) op->machine);

  for (guint i = 0; i < op->variants->len; i++)
    {
      HwShareVariant *variant = &g_array_index (op->variants, HwShareVariant, i);

      for (int p = 0; p < HW_SHARE_N_PARTS; p++)
        for (int v = 0; v < values->n[p]; v++)
          if (v == variant->prefer[p] || accepts (self->plan, variant->setup, values, p, v))
            variant->accept[p] |= (guint64) 1 << v;
    }
}

/* ---- all together ---- */

static HwSharing *
make_empty (HwPlan *plan, const GArray *steps, const GPtrArray *machines)
{
  HwSharing *self = g_new0 (HwSharing, 1);

  self->plan = plan;
  self->n_operations = steps->len;
  self->operations = g_new0 (HwShareOperation, steps->len + 1);
  self->machines = g_ptr_array_new_with_free_func (g_free);
  self->kinds = g_array_new (FALSE, FALSE, sizeof (HwMounted));
  self->setups = g_array_new (FALSE, FALSE, sizeof (HwMounted));
  self->numbers = g_array_new (FALSE, FALSE, sizeof (HwShareNumbers));
  for (guint m = 0; m < machines->len; m++)
    {
      HwShareValues *values = g_new0 (HwShareValues, 1);

      values->machine = g_ptr_array_index (machines, m);
      g_ptr_array_add (self->machines, values);
    }
  for (guint i = 0; i < steps->len; i++)
    {
      HwShareOperation *op = &self->operations[i];
      const HwSetup *setup = plan->setups[g_array_index (steps, gsize, i)];
      guint machine = 0;

      op->step = g_array_index (steps, gsize, i);
      op->machine = setup != NULL && g_ptr_array_find ((GPtrArray *) machines, setup->machine, &machine) ? (int) machine
                                                                                                         : -1;
    }
  return self;
}

/* A worn needle is changed anyway. */
static gboolean
is_worth_keeping (const HwPlan *plan, const HwMachine *machine)
{
  const HwNeedle *needle = hw_room_get_state (plan->room, machine)->needle;

  return needle == NULL || hw_needle_has_hours_left (plan->handbook, needle);
}

/* The size on the machine is that of a step, or the next one: a whole garment of lawn is not sewn with the needle of a
 * shirting to save a change, though its seams would hold (common practice). */
static gboolean
is_near (const HwSharing *self, int machine, HwNeedleKind standing)
{
  for (gsize i = 0; i < self->n_operations; i++)
    {
      const HwShareOperation *op = &self->operations[i];

      for (guint v = 0; op->machine == machine && v < op->variants->len; v++)
        {
          double size = g_array_index (op->variants, HwShareVariant, v).setup->values[HW_FIELD_SIZE].prefer;

          if (MAX (size, standing.size_nm) <= NEXT_SIZE * MIN (size, standing.size_nm))
            return TRUE;
        }
    }
  return FALSE;
}

/* What no operation prefers but one may take: the needle preferred where another at hand took its place, and what is on
 * the machine now. Left out where there are too many to number. */
static void
number_others (HwSharing *self, const HwMounted *standing)
{
  for (gsize i = 0; i < self->n_operations; i++)
    {
      const HwShareOperation *op = &self->operations[i];

      for (guint v = 0; op->machine >= 0 && v < op->variants->len; v++)
        {
          const HwSetup *setup = g_array_index (op->variants, HwShareVariant, v).setup;
          HwMounted mounted = hw_mounted_from_setup (setup);

          if (setup->values[HW_FIELD_SIZE].origin == HW_ORIGIN_AT_HAND
              || setup->values[HW_FIELD_POINT].origin == HW_ORIGIN_AT_HAND)
            number_needle (g_ptr_array_index (self->machines, (guint) op->machine),
                           (HwNeedleKind) { mounted.system, (int) lround (setup->values[HW_FIELD_POINT].prefer),
                                            (int) lround (setup->values[HW_FIELD_SIZE].prefer), mounted.twin });
        }
    }
  for (guint m = 0; m < self->machines->len; m++)
    {
      HwShareValues *values = g_ptr_array_index (self->machines, m);

      if (!standing[m].known)
        continue;
      if (is_worth_keeping (self->plan, values->machine) && is_near (self, (int) m, hw_mounted_needle (&standing[m])))
        number_needle (values, hw_mounted_needle (&standing[m]));
      number_plain (values->feet, &values->n[HW_SHARE_FOOT], standing[m].foot);
      number_plain (values->plates, &values->n[HW_SHARE_PLATE], standing[m].plate);
      if (standing[m].soft_known)
        number_soft (values, standing[m].soft);
    }
}

/* What every step of the project wants, sewn ones too, in the project's order: so what is left is chosen among the
 * same, numbered alike, however much is sewn. Left out where there are too many to number. */
static void
number_steps (HwSharing *self)
{
  for (gsize i = 0; i < self->plan->n_steps; i++)
    for (guint m = 0; self->plan->setups[i] != NULL && m < self->machines->len; m++)
      {
        const HwSetup *setup = self->plan->setups[i];
        HwShareValues *values = g_ptr_array_index (self->machines, m);
        HwMounted mounted = hw_mounted_from_setup (setup);

        if (values->machine != setup->machine)
          continue;
        number_needle (values, hw_mounted_needle (&mounted));
        if (setup->values[HW_FIELD_FOOT].applies)
          number_plain (values->feet, &values->n[HW_SHARE_FOOT], (int) lround (setup->values[HW_FIELD_FOOT].prefer));
        number_plain (values->plates, &values->n[HW_SHARE_PLATE], mounted.plate);
        number_soft (values, mounted.soft);
      }
}

static gboolean
number_all (HwSharing *self, const HwMounted *standing)
{
  g_autoptr (GPtrArray) sewn = list_sewn (self);

  number_steps (self);

  for (gsize i = 0; i < self->n_operations; i++)
    {
      HwShareOperation *op = &self->operations[i];

      if (op->machine < 0)
        continue;
      list_variants (self, op, sewn);
      for (guint v = 0; v < op->variants->len; v++)
        if (!number_variant (self, g_ptr_array_index (self->machines, (guint) op->machine),
                             &g_array_index (op->variants, HwShareVariant, v)))
          return FALSE;
    }
  number_others (self, standing);
  return TRUE;
}

HwSharing *
hw_sharing_new (HwPlan *plan, const GArray *steps, const GPtrArray *machines, const HwMounted *standing)
{
  g_autoptr (HwSharing) self = make_empty (plan, steps, machines);

  if (!number_all (self, standing))
    return NULL;
  for (gsize i = 0; i < self->n_operations; i++)
    if (self->operations[i].machine >= 0)
      fill_accepted (self, &self->operations[i]);
  hw_sharing_list_candidates (self, standing);
  return g_steal_pointer (&self);
}

static void
free_variants (GArray *variants)
{
  for (guint i = 0; i < variants->len; i++)
    if (g_array_index (variants, HwShareVariant, i).own)
      hw_setup_free (g_array_index (variants, HwShareVariant, i).setup);
  g_array_unref (variants);
}

void
hw_sharing_free (HwSharing *self)
{
  if (self == NULL)
    return;
  for (gsize i = 0; i < self->n_operations; i++)
    if (self->operations[i].variants != NULL)
      free_variants (self->operations[i].variants);
  g_free (self->operations);
  g_ptr_array_unref (self->machines);
  g_array_unref (self->kinds);
  g_array_unref (self->setups);
  g_array_unref (self->numbers);
  g_free (self->prefer);
  g_free (self->accept);
  g_free (self->distance);
  g_free (self);
}
