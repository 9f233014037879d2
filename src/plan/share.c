/* share.c - moves set-ups inside their bands so that fewer serve
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Turns set-ups into the plain arrays of agree.h and its choice back into values and reasons. What may
 * be shared is what some operation on the machine prefers; thread, stitch, length and dial stay each
 * operation's own. A value the person set, and a step whose person refused, stay as they are.
 */

#include "config.h"

#include "plan/agree.h"
#include "plan/plan-private.h"
#include "trade/needle.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

typedef struct { int system, point, size_nm, twin; } Needle;

/* The values seen on one machine, numbered in the order met. */
typedef struct
{
  const HwMachine *machine;
  Needle needles[HW_AGREE_MAX_VALUES];
  int    feet[HW_AGREE_MAX_VALUES];
  int    plates[HW_AGREE_MAX_VALUES];
  int    n[HW_AGREE_N_PARTS];
} Values;

typedef struct
{
  HwPlan    *plan;
  GArray    *steps;          /* gsize: the operations */
  GPtrArray *values;         /* (element-type Values) one a machine */
  GArray    *kinds;          /* HwMounted: a stitch and threads each */
  HwAgreeOperation *operations;
} Sharing;

static HwSetup *
setup_at (const Sharing *self, gsize operation)
{
  return self->plan->setups[g_array_index (self->steps, gsize, operation)];
}

/* ---- numbering ---- */

static int
number_needle (Values *values, Needle needle)
{
  int n = values->n[HW_AGREE_NEEDLE];

  for (int i = 0; i < n; i++)
    if (memcmp (&values->needles[i], &needle, sizeof needle) == 0)
      return i;
  if (n == HW_AGREE_MAX_VALUES)
    return -1;
  values->needles[n] = needle;
  return values->n[HW_AGREE_NEEDLE]++;
}

static int
number_plain (int *list, int *n, int value)
{
  for (int i = 0; i < *n; i++)
    if (list[i] == value)
      return i;
  if (*n == HW_AGREE_MAX_VALUES)
    return -1;
  list[*n] = value;
  return (*n)++;
}

static int
number_machine (Sharing *self, const HwMachine *machine)
{
  Values *values;

  for (guint i = 0; i < self->values->len; i++)
    if (((const Values *) g_ptr_array_index (self->values, i))->machine == machine)
      return (int) i;
  values = g_new0 (Values, 1);
  values->machine = machine;
  g_ptr_array_add (self->values, values);
  return (int) self->values->len - 1;
}

static int
number_kind (Sharing *self, const HwMounted *mounted)
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

/* FALSE: more different values than can be numbered; nothing is shared then. */
static gboolean
number_operation (Sharing *self, gsize index)
{
  HwAgreeOperation *op = &self->operations[index];
  HwMounted mounted = hw_mounted_from_setup (setup_at (self, index));
  Values *values;

  op->machine = number_machine (self, mounted.machine);
  op->kind = number_kind (self, &mounted);
  values = g_ptr_array_index (self->values, (guint) op->machine);
  op->prefer[HW_AGREE_NEEDLE] = number_needle (values, (Needle) { mounted.system, mounted.point, mounted.size_nm,
                                                                  mounted.twin });
  op->prefer[HW_AGREE_FOOT] = number_plain (values->feet, &values->n[HW_AGREE_FOOT], mounted.foot);
  op->prefer[HW_AGREE_PLATE] = number_plain (values->plates, &values->n[HW_AGREE_PLATE], mounted.plate);
  for (int p = 0; p < HW_AGREE_N_PARTS; p++)
    if (op->prefer[p] < 0)
      return FALSE;
  return TRUE;
}

/* ---- what an operation accepts ---- */

static gboolean
admits (const HwSetup *setup, HwField field, double value)
{
  const HwValue *own = &setup->values[field];

  if (!own->applies)
    return value < 0 || (field == HW_FIELD_TWIN && value <= 0);
  if (value < 0)
    return FALSE;
  if (fabs (own->value - value) < 1e-6)
    return TRUE;
  if (own->origin == HW_ORIGIN_OVERRIDDEN || !setup->step->share)
    return FALSE;
  return hw_value_accepts (own, field, value);
}

/* Would the thread still run well in the eye and groove of that needle? A band of sizes was made for the preferred
 * point; another point with a smaller eye takes less thread at the same size. */
static gboolean
passes_thread (const HwPlan *plan, const HwSetup *setup, const Needle *needle)
{
  double diameter = setup->needle_thread.diameter_mm;
  double blade;

  if (needle->point < 0 || !(diameter > 0))
    return TRUE;
  blade = hw_needle_blade_mm (needle->size_nm) * plan->handbook->points[needle->point].eye_factor;
  return diameter <= HW_NEEDLE_THREAD_SHARE_SHARED * blade;
}

static gboolean
accepts_needle (const HwPlan *plan, const HwSetup *setup, const Needle *needle)
{
  gboolean twin = setup->values[HW_FIELD_TWIN].applies && setup->values[HW_FIELD_TWIN].value > 0;

  return twin == (needle->twin > 0) && admits (setup, HW_FIELD_SYSTEM, needle->system)
         && admits (setup, HW_FIELD_POINT, needle->point) && admits (setup, HW_FIELD_SIZE, needle->size_nm)
         && (!twin || admits (setup, HW_FIELD_TWIN, needle->twin / 100.0)) && passes_thread (plan, setup, needle);
}

/* Ten for a size step, which is 5 to 20 in Nm; another point weighs as two sizes. */
static int
measure_needle (const Needle *a, const Needle *b)
{
  return ABS (a->size_nm - b->size_nm) + (a->point != b->point ? 20 : 0) + ABS (a->twin - b->twin) / 10
         + (a->system != b->system ? 40 : 0);
}

static void
fill_accepted (const Sharing *self, gsize index)
{
  HwAgreeOperation *op = &self->operations[index];
  const Values *values = g_ptr_array_index (self->values, (guint) op->machine);
  const HwSetup *setup = setup_at (self, index);
  const Needle *own = &values->needles[op->prefer[HW_AGREE_NEEDLE]];

  for (int v = 0; v < values->n[HW_AGREE_NEEDLE]; v++)
    if (v == op->prefer[HW_AGREE_NEEDLE] || accepts_needle (self->plan, setup, &values->needles[v]))
      {
        op->accept[HW_AGREE_NEEDLE] |= (guint64) 1 << v;
        op->distance[HW_AGREE_NEEDLE][v] = measure_needle (own, &values->needles[v]);
      }
  for (int v = 0; v < values->n[HW_AGREE_FOOT]; v++)
    if (v == op->prefer[HW_AGREE_FOOT] || admits (setup, HW_FIELD_FOOT, values->feet[v]))
      {
        op->accept[HW_AGREE_FOOT] |= (guint64) 1 << v;
        op->distance[HW_AGREE_FOOT][v] = v == op->prefer[HW_AGREE_FOOT] ? 0 : 10;
      }
  for (int v = 0; v < values->n[HW_AGREE_PLATE]; v++)
    if (v == op->prefer[HW_AGREE_PLATE] || admits (setup, HW_FIELD_PLATE, values->plates[v]))
      {
        op->accept[HW_AGREE_PLATE] |= (guint64) 1 << v;
        op->distance[HW_AGREE_PLATE][v] = v == op->prefer[HW_AGREE_PLATE] ? 0 : 10;
      }
}

/* ---- what was agreed ---- */

static void
move_value (HwPlan *plan, HwSetup *setup, HwField field, double value)
{
  HwValue *own = &setup->values[field];
  HwReason reason = { .field = field, .code = HW_REASON_AGREED, .source = plan->handbook->changes.source };

  if (!own->applies || fabs (own->value - value) < 1e-6)
    return;
  reason.v[0] = own->value;
  own->value = value;
  own->origin = HW_ORIGIN_AGREED;
  g_array_append_val (setup->reasons, reason);
}

static void
take_choice (const Sharing *self, gsize index, const HwAgreeChoice *choice)
{
  const Values *values = g_ptr_array_index (self->values, (guint) self->operations[index].machine);
  const Needle *needle = &values->needles[choice->value[HW_AGREE_NEEDLE]];
  HwSetup *setup = setup_at (self, index);

  move_value (self->plan, setup, HW_FIELD_SYSTEM, needle->system);
  move_value (self->plan, setup, HW_FIELD_POINT, needle->point);
  move_value (self->plan, setup, HW_FIELD_SIZE, needle->size_nm);
  move_value (self->plan, setup, HW_FIELD_TWIN, needle->twin / 100.0);
  move_value (self->plan, setup, HW_FIELD_FOOT, values->feet[choice->value[HW_AGREE_FOOT]]);
  move_value (self->plan, setup, HW_FIELD_PLATE, values->plates[choice->value[HW_AGREE_PLATE]]);
}

/* Stitch and threads alone: the needle, foot and plate made equal. */
static int *
list_kind_costs (const Sharing *self)
{
  gsize n = self->kinds->len;
  int *costs = g_new0 (int, n * n + 1);

  for (gsize a = 0; a < n; a++)
    for (gsize b = 0; b < n; b++)
      {
        HwMounted from = g_array_index (self->kinds, HwMounted, a);
        HwMounted to = g_array_index (self->kinds, HwMounted, b);

        from.system = to.system;
        from.point = to.point;
        from.size_nm = to.size_nm;
        from.twin = to.twin;
        from.foot = to.foot;
        from.plate = to.plate;
        memcpy (from.soft, to.soft, sizeof from.soft);
        costs[a * n + b] = hw_changes_cost (&self->plan->handbook->changes, &from, &to);
      }
  return costs;
}

static void
agree (Sharing *self)
{
  const HwChangeCosts *costs = &self->plan->handbook->changes;
  g_autofree int *kind_costs = list_kind_costs (self);
  g_autofree HwAgreeChoice *choices = g_new0 (HwAgreeChoice, self->steps->len + 1);
  HwAgreeProblem problem = {
    .n_operations = self->steps->len,
    .operations = self->operations,
    .cost = { hw_changes_thousandths (costs->needle), hw_changes_thousandths (costs->foot),
              hw_changes_thousandths (costs->plate) },
    .n_kinds = self->kinds->len,
    .kind_cost = kind_costs,
  };

  hw_agree (&problem, choices);
  for (gsize i = 0; i < self->steps->len; i++)
    take_choice (self, i, &choices[i]);
}

void
hw_plan_share_setups (HwPlan *plan)
{
  g_autoptr (GArray) steps = g_array_new (FALSE, FALSE, sizeof (gsize));
  g_autoptr (GPtrArray) values = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GArray) kinds = g_array_new (FALSE, FALSE, sizeof (HwMounted));
  g_autofree HwAgreeOperation *operations = NULL;
  Sharing self = { plan, steps, values, kinds, NULL };
  gboolean fits = TRUE;

  for (gsize i = 0; i < plan->n_steps; i++)
    if (plan->setups[i] != NULL)
      g_array_append_val (steps, i);
  self.operations = operations = g_new0 (HwAgreeOperation, steps->len + 1);
  for (gsize i = 0; i < steps->len && fits; i++)
    fits = number_operation (&self, i);
  if (!fits)
    return;
  for (gsize i = 0; i < steps->len; i++)
    fill_accepted (&self, i);
  agree (&self);
}
