/* test-properties.c - what must hold of every pairing, over a hundred thousand random operations
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each run draws from a fixed seed, so that a failure comes back. Operations are as odd as a project file allows;
 * nothing is asked of them but what is true of any set-up at all.
 */

#include "config.h"

#include "../rounds.h"
#include "plan/pairing.h"
#include "trade/needle.h"
#include "workroom.h"

#include <math.h>
#include <string.h>
#include <time.h>

#define SEED 20240607
#define EPSILON 1e-6

typedef struct
{
  HwHandbook *handbook;
  HwRoom     *room;
  GRand      *random;
} Setting;

/* Of the handbook that is shipped a hundred thousand, or so many pairs where one is held against another; where every
 * access is watched a tenth of that, and of the small handbook, whose rules are few, still fewer. */
static gsize
n_operations (gconstpointer shipped)
{
#if defined (__SANITIZE_ADDRESS__)
  return rounds_of (GPOINTER_TO_INT (shipped) ? 10000 : 2000);
#else
  return rounds_of (GPOINTER_TO_INT (shipped) ? 100000 : 4000);
#endif
}

static double
spent_seconds (void)
{
  struct timespec now = { 0 };

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double) now.tv_sec + (double) now.tv_nsec / 1e9;
}

static void
clear_setting (Setting *self)
{
  g_clear_pointer (&self->handbook, hw_handbook_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_pointer (&self->random, g_rand_free);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Setting, clear_setting)

static Setting
make_setting (gconstpointer shipped)
{
  return (Setting) { GPOINTER_TO_INT (shipped) ? workroom_handbook () : workroom_small (),
                     workroom_new (&workroom_usual, "household", 3), g_rand_new_with_seed (SEED) };
}

static gsize
draw (Setting *self, gsize n)
{
  return (gsize) g_rand_int_range (self->random, 0, (gint32) n);
}

/* None of them, or one or two: any cloth may be slippery, coated, piled; what goes behind another is no cloth. */
static char **
draw_traits (Setting *self)
{
  g_autoptr (GStrvBuilder) traits = g_strv_builder_new ();

  for (gsize n = draw (self, 4); n > 1; n--)
    {
      const char *id = self->handbook->traits[draw (self, self->handbook->n_traits)].entry.id;

      if (!g_str_equal (id, "backing"))
        g_strv_builder_add (traits, id);
    }
  return g_strv_builder_end (traits);
}

static HwProjectFabric *
draw_fabric (Setting *self, gsize index)
{
  const HwHandbook *handbook = self->handbook;
  g_autofree char *id = g_strdup_printf ("f%" G_GSIZE_FORMAT, index);
  HwProjectFabric *fabric = hw_project_fabric_new (id, id);

  if (g_rand_boolean (self->random))
    fabric->handbook = g_strdup (handbook->fabrics[draw (self, handbook->n_fabrics)].entry.id);
  else
    {
      fabric->construction = g_strdup (handbook->constructions[draw (self, handbook->n_constructions)].entry.id);
      fabric->mass_g_m2 = g_rand_double_range (self->random, 15, 900);
      fabric->stretch_percent = g_rand_double_range (self->random, 0, 120);
      g_strfreev (fabric->traits);
      fabric->traits = draw_traits (self);
    }
  if (g_rand_boolean (self->random))
    fabric->thickness_mm = g_rand_double_range (self->random, 0.05, 4);
  return fabric;
}

/* Stitches that the room's two machines form. */
static const HwStitch *
draw_stitch (Setting *self)
{
  guint machines = 1u << HW_MACHINE_LOCKSTITCH | 1u << HW_MACHINE_OVERLOCK;
  const HwStitch *stitch;

  do
    stitch = &self->handbook->stitches[draw (self, self->handbook->n_stitches)];
  while ((stitch->machines & machines) == 0);
  return stitch;
}

static void
lay_plies (Setting *self, HwProject *project, HwStep *step)
{
  gsize n = 1 + draw (self, 3);

  step->n_plies = n;
  step->plies = g_new0 (HwPly, n);
  for (gsize i = 0; i < n; i++)
    {
      HwProjectFabric *fabric = draw_fabric (self, i);

      g_ptr_array_add (project->fabrics, fabric);
      step->plies[i] = (HwPly) { g_strdup (fabric->id), 1 + (int) draw (self, 4) };
    }
}

static void
wind_threads (Setting *self, HwProject *project, HwStep *step)
{
  gsize n = draw (self, 4);

  g_ptr_array_set_size (project->threads, 0);
  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("t%" G_GSIZE_FORMAT, i);
      const char *entry = self->handbook->threads[draw (self, self->handbook->n_threads)].entry.id;

      g_ptr_array_add (project->threads, hw_project_thread_new (id, entry));
    }
  if (n > 0 && g_rand_boolean (self->random))
    step->needle_thread = g_strdup ("t0");
  if (n > 1 && g_rand_boolean (self->random))
    step->bobbin_thread = g_strdup ("t1");
}

/* A project of one operation. */
static HwProject *
draw_project (Setting *self)
{
  HwProject *project = hw_project_new ("random", "Random");
  HwStep *step = hw_step_new (HW_STEP_OPERATION, "1", "Step");

  step->purpose = g_strdup (self->handbook->purposes[draw (self, self->handbook->n_purposes)].entry.id);
  step->stitch = g_strdup (draw_stitch (self)->entry.id);
  step->length_cm = g_rand_double_range (self->random, 1, 500);
  lay_plies (self, project, step);
  wind_threads (self, project, step);
  g_ptr_array_add (project->steps, step);
  return project;
}

typedef struct
{
  GArray  *cloths;
  HwSetup *setup;
} Pairing;

static void
clear_pairing (Pairing *self)
{
  g_clear_pointer (&self->setup, hw_setup_free);
  g_clear_pointer (&self->cloths, g_array_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Pairing, clear_pairing)

static Pairing
pair (const Setting *self, const HwProject *project)
{
  g_autoptr (GError) error = NULL;
  Pairing pairing = { 0 };

  pairing.cloths = hw_cloths_resolve (self->handbook, project, &error);
  g_assert_no_error (error);
  pairing.setup = hw_pair (self->handbook, project, pairing.cloths, self->room, hw_project_get_step (project, 0),
                           &error);
  g_assert_no_error (error);
  return pairing;
}

static double
get_value (const Pairing *self, HwField field)
{
  return self->setup->values[field].value;
}

static gboolean
warns (const HwSetup *setup, HwField field, HwWarningCode code)
{
  for (guint i = 0; i < setup->warnings->len; i++)
    {
      const HwWarning *warning = &g_array_index (setup->warnings, HwWarning, i);

      if (warning->code == code && warning->field == field)
        return TRUE;
    }
  return FALSE;
}

/* ---- of every set-up ---- */

static void
check_values (const HwSetup *setup)
{
  for (HwField field = 0; field < HW_N_FIELDS; field++)
    {
      const HwValue *value = &setup->values[field];

      g_assert_true (isfinite (value->low) && isfinite (value->prefer) && isfinite (value->high));
      g_assert_true (isfinite (value->value));
      if (!value->applies)
        continue;
      if (hw_field_is_choice (field))
        {
          g_assert_cmphex (value->accept, !=, 0);
          g_assert_true (hw_value_accepts (value, field, value->prefer));
        }
      else
        {
          g_assert_cmpfloat (value->low, <=, value->prefer + EPSILON);
          g_assert_cmpfloat (value->prefer, <=, value->high + EPSILON);
        }
      g_assert_true (hw_value_accepts (value, field, value->value)
                     || warns (setup, field, HW_WARN_OVERRIDE_OUTSIDE)
                     /* a thread that the project does not list is the nearest that the handbook has */
                     || field == HW_FIELD_NEEDLE_TEX || field == HW_FIELD_BOBBIN_TEX);
    }
  g_assert_true (isfinite (setup->under_foot_mm) && setup->under_foot_mm > 0);
  g_assert_cmpfloat (setup->under_foot_mm, <=, setup->thickness_mm + EPSILON);
  g_assert_true (isfinite (setup->dial_sd) && setup->dial_sd >= 0);
  g_assert_cmpfloat (setup->lint_factor, >=, 1);
  g_assert_cmpfloat (setup->needle_life, >, 0);
  g_assert_cmpfloat (setup->needle_life, <=, 1);
}

/* Each value says why, and who says so. */
static void
check_reasons (const HwSetup *setup)
{
  guint64 explained = 0;

  for (guint i = 0; i < setup->reasons->len; i++)
    {
      const HwReason *reason = &g_array_index (setup->reasons, HwReason, i);

      g_assert_nonnull (reason->source);
      g_assert_true ((reason->code == HW_REASON_RULE) == (reason->rule != NULL));
      explained |= (guint64) 1 << reason->field;
    }
  for (HwField field = 0; field < HW_N_FIELDS; field++)
    if (setup->values[field].applies)
      g_assert_true ((explained >> field) & 1);
}

static void
check_machine_limits (const HwSetup *setup)
{
  const HwMachine *machine = setup->machine;
  const HwValue *values = setup->values;

  g_assert_cmpuint (setup->stitch->machines & (1u << machine->kind), !=, 0);
  g_assert_cmpfloat (values[HW_FIELD_LENGTH].value, <=, machine->length_max_mm + EPSILON);
  g_assert_cmpfloat (values[HW_FIELD_LENGTH].value, >, 0);
  if (values[HW_FIELD_WIDTH].applies)
    g_assert_cmpfloat (values[HW_FIELD_WIDTH].value, <=, machine->width_max_mm + EPSILON);
  g_assert_cmpfloat (values[HW_FIELD_DIAL].value, >=, machine->dial.low - EPSILON);
  g_assert_cmpfloat (values[HW_FIELD_DIAL].value, <=, machine->dial.high + EPSILON);
  g_assert_cmpfloat (fabs (values[HW_FIELD_DIAL].value * 2 - round (values[HW_FIELD_DIAL].value * 2)), <, EPSILON);
  if (values[HW_FIELD_TWIN].applies && values[HW_FIELD_TWIN].value > machine->plate_opening_mm - 1)
    g_assert_true (warns (setup, HW_FIELD_TWIN, HW_WARN_TWIN_WIDE));
  if (machine->kind != HW_MACHINE_LOCKSTITCH)
    g_assert_false (values[HW_FIELD_PLATE].applies);
}

/* A single hole is for one needle that does not swing; no foot is narrower than the swing. */
static void
check_swing (const Setting *self, const HwSetup *setup)
{
  const HwValue *values = setup->values;
  double swing = (values[HW_FIELD_WIDTH].applies ? values[HW_FIELD_WIDTH].value : 0)
                 + (values[HW_FIELD_TWIN].applies ? values[HW_FIELD_TWIN].value : 0);

  if (values[HW_FIELD_PLATE].applies)
    g_assert_cmpfloat (self->handbook->plates[(int) values[HW_FIELD_PLATE].value].slot_mm, >=, swing - EPSILON);
  if (values[HW_FIELD_FOOT].applies)
    {
      const HwFoot *foot = &self->handbook->feet[(int) values[HW_FIELD_FOOT].value];

      g_assert_cmpfloat (foot->slot_mm, >=, swing - EPSILON);
      g_assert_cmpuint (foot->machines & (1u << setup->machine->kind), !=, 0);
    }
}

static void
check_needle (const Setting *self, const HwSetup *setup)
{
  const HwPoint *point = &self->handbook->points[(int) setup->values[HW_FIELD_POINT].value];
  const HwValue *size = &setup->values[HW_FIELD_SIZE];
  double smallest = hw_needle_smallest_nm (setup->needle_thread.diameter_mm, point->eye_factor);
  gboolean sold = FALSE;

  g_assert_true (size->value >= smallest - EPSILON || warns (setup, HW_FIELD_SIZE, HW_WARN_THREAD_LIMIT));
  if (size->value < smallest - EPSILON)          /* only where no such point is sold larger */
    g_assert_true (warns (setup, HW_FIELD_SIZE, HW_WARN_SIZE_NOT_SOLD));
  for (gsize i = 0; i < point->n_sizes; i++)
    sold = sold || fabs (point->sizes[i] - size->value) < EPSILON;
  for (gsize i = 0; i < point->n_twins; i++)
    sold = sold || (setup->values[HW_FIELD_TWIN].applies && fabs (point->twins[i].nm - size->value) < EPSILON);
  g_assert_true (sold);
  g_assert_cmphex (point->systems & HW_SET ((guint) setup->values[HW_FIELD_SYSTEM].value), !=, 0);
}

static gboolean
has_trait (const Setting *self, const HwCloth *cloth, const char *id)
{
  int trait = hw_handbook_find_trait (self->handbook, id);

  return trait >= 0 && (cloth->traits & HW_SET (trait)) != 0;
}

/* A knit whose loops no coating holds. */
static gboolean
is_bare_knit (const Setting *self, const HwCloth *cloth)
{
  return self->handbook->constructions[cloth->construction].family == HW_FAMILY_KNIT
         && !has_trait (self, cloth, "coated");
}

/* What is sewn through: a cutting point meets nothing but skin, bare knits nothing but balls. With other cloth the
 * point is one that harms neither; what goes behind a cloth takes the cloth's. */
static void
check_point (const Setting *self, const Pairing *pairing)
{
  const HwPoint *point = &self->handbook->points[(int) get_value (pairing, HW_FIELD_POINT)];
  gboolean all_skin = TRUE, all_bare_knit = TRUE, any_face = FALSE;

  for (guint i = 0; i < pairing->cloths->len; i++)
    {
      const HwCloth *cloth = &g_array_index (pairing->cloths, HwCloth, i);

      all_skin = all_skin && self->handbook->constructions[cloth->construction].family == HW_FAMILY_SKIN;
      if (has_trait (self, cloth, "backing"))
        continue;
      all_bare_knit = all_bare_knit && is_bare_knit (self, cloth);
      any_face = TRUE;
    }
  if (point->form == HW_POINT_CUTTING)
    g_assert_true (all_skin);
  if (!any_face || !all_bare_knit || point->form == HW_POINT_BALL)
    return;
  for (guint i = 0; i < pairing->cloths->len; i++)
    {
      const HwCloth *cloth = &g_array_index (pairing->cloths, HwCloth, i);

      g_test_message ("%s: %s, %s, %s, tex %g", self->handbook->constructions[cloth->construction].entry.id,
                      point->entry.id, pairing->setup->purpose->entry.id, pairing->setup->stitch->entry.id,
                      pairing->setup->needle_thread.tex);
    }
  g_test_fail ();
}

static void
test_every_set_up (gconstpointer shipped)
{
  g_auto (Setting) setting = make_setting (shipped);
  double seconds = 0;

  for (gsize n = 0; n < n_operations (shipped); n++)
    {
      g_autoptr (HwProject) project = draw_project (&setting);
      double start = spent_seconds ();
      g_auto (Pairing) pairing = pair (&setting, project);

      seconds += spent_seconds () - start;
      check_values (pairing.setup);
      check_reasons (pairing.setup);
      check_machine_limits (pairing.setup);
      check_swing (&setting, pairing.setup);
      check_needle (&setting, pairing.setup);
      check_point (&setting, &pairing);
    }
  g_test_message ("%zu pairings, %.0f a second of the processor", n_operations (shipped),
                  (double) n_operations (shipped) / seconds);
}

/* ---- the same input ---- */

static void
assert_same (const HwSetup *a, const HwSetup *b)
{
  for (HwField field = 0; field < HW_N_FIELDS; field++)
    {
      const HwValue *one = &a->values[field], *two = &b->values[field];

      g_assert_true (one->applies == two->applies && one->origin == two->origin && one->accept == two->accept);
      g_assert_true (!(one->value < two->value) && !(one->value > two->value));
      g_assert_true (!(one->low < two->low) && !(one->high > two->high) && !(one->low > two->low));
    }
  g_assert_true (a->needle_thread.entry == b->needle_thread.entry);
  g_assert_true (a->bobbin_thread.entry == b->bobbin_thread.entry);
  g_assert_cmpfloat (a->dial_sd, ==, b->dial_sd);
  g_assert_cmpuint (a->reasons->len, ==, b->reasons->len);
  g_assert_cmpuint (a->warnings->len, ==, b->warnings->len);
  for (guint i = 0; i < a->reasons->len; i++)
    g_assert_true (g_array_index (a->reasons, HwReason, i).rule == g_array_index (b->reasons, HwReason, i).rule);
}

static void
test_same_again (gconstpointer shipped)
{
  g_auto (Setting) setting = make_setting (shipped);

  for (gsize n = 0; n < n_operations (shipped); n++)
    {
      g_autoptr (HwProject) project = draw_project (&setting);
      g_auto (Pairing) one = pair (&setting, project);
      g_auto (Pairing) two = pair (&setting, project);

      assert_same (one.setup, two.setup);
    }
}

/* It does not matter in which order the plies are listed. */
static void
test_order_of_plies (gconstpointer shipped)
{
  g_auto (Setting) setting = make_setting (shipped);

  for (gsize n = 0; n < n_operations (shipped); n++)
    {
      g_autoptr (HwProject) project = draw_project (&setting);
      HwStep *step = g_ptr_array_index (project->steps, 0);
      g_auto (Pairing) one = pair (&setting, project);
      g_auto (Pairing) two = { 0 };
      HwPly first = step->plies[0];

      step->plies[0] = step->plies[step->n_plies - 1];
      step->plies[step->n_plies - 1] = first;
      two = pair (&setting, project);
      for (HwField field = 0; field < HW_N_FIELDS; field++)
        g_assert_cmpfloat_with_epsilon (get_value (&one, field), get_value (&two, field), EPSILON);
    }
}

/* ---- one thing changed ---- */

static void
set_length (HwStep *step, double length_mm)
{
  g_free (step->overrides);
  step->overrides = g_new0 (HwOverride, 1);
  step->overrides[0] = (HwOverride) { HW_FIELD_LENGTH, length_mm, NULL };
  step->n_overrides = 1;
}

static void
sew_straight (HwStep *step)
{
  g_free (step->stitch);
  step->stitch = g_strdup ("301");
}

static void
test_longer_is_no_tighter (gconstpointer shipped)
{
  g_auto (Setting) setting = make_setting (shipped);

  for (gsize n = 0; n < n_operations (shipped); n++)
    {
      g_autoptr (HwProject) project = draw_project (&setting);
      HwStep *step = g_ptr_array_index (project->steps, 0);
      double length_mm = g_rand_double_range (setting.random, 2.5, 4.5);
      g_auto (Pairing) shorter = { 0 };
      g_auto (Pairing) longer = { 0 };

      sew_straight (step);
      set_length (step, length_mm);
      shorter = pair (&setting, project);
      set_length (step, length_mm + g_rand_double_range (setting.random, 0, 1.5));
      longer = pair (&setting, project);
      g_assert_cmpfloat (get_value (&longer, HW_FIELD_DIAL), <=, get_value (&shorter, HW_FIELD_DIAL) + EPSILON);
    }
}

static void
test_more_plies_are_no_tighter (gconstpointer shipped)
{
  g_auto (Setting) setting = make_setting (shipped);

  for (gsize n = 0; n < n_operations (shipped); n++)
    {
      g_autoptr (HwProject) project = draw_project (&setting);
      HwStep *step = g_ptr_array_index (project->steps, 0);
      g_auto (Pairing) fewer = { 0 };
      g_auto (Pairing) more = { 0 };

      sew_straight (step);
      if (project->threads->len == 0)
        g_ptr_array_add (project->threads, hw_project_thread_new ("t0", setting.handbook->threads[0].entry.id));
      g_free (step->needle_thread);
      step->needle_thread = g_strdup ("t0");
      set_length (step, 2.5);
      fewer = pair (&setting, project);
      step->plies[0].count += 1 + (int) draw (&setting, 4);
      more = pair (&setting, project);
      g_assert_cmpfloat (get_value (&more, HW_FIELD_DIAL), <=, get_value (&fewer, HW_FIELD_DIAL) + EPSILON);
      g_assert_cmpfloat (get_value (&more, HW_FIELD_SIZE), >=, get_value (&fewer, HW_FIELD_SIZE) - EPSILON);
    }
}

static gboolean
is_sold_in (const Setting *self, const Pairing *pairing, double nm)
{
  const HwPoint *point = &self->handbook->points[(int) get_value (pairing, HW_FIELD_POINT)];

  for (gsize i = 0; i < point->n_sizes; i++)
    if (point->sizes[i] >= nm - EPSILON)
      return TRUE;
  return FALSE;
}

/* Two cloths of one construction that differ in mass alone; the thread is named, so that it stays. Heavier cloth may
 * want another point, and that may not be sold as thick as a very thick thread likes it. */
static void
tell_finer (const Pairing *lighter,
            const Pairing *heavier)
{
  const Pairing *both[] = { lighter, heavier };

  for (gsize i = 0; i < G_N_ELEMENTS (both); i++)
    {
      const HwCloth *cloth = &g_array_index (both[i]->cloths, HwCloth, 0);
      const HwSetup *setup = both[i]->setup;

      g_test_message ("construction %d, %g g/m2, %g mm, traits %" G_GUINT64_FORMAT ": Nm %g of %g to %g, point %g, "
                      "%s, %s, tex %g", cloth->construction, cloth->mass_g_m2, cloth->thickness_mm, cloth->traits,
                      setup->values[HW_FIELD_SIZE].value, setup->values[HW_FIELD_SIZE].low,
                      setup->values[HW_FIELD_SIZE].high, setup->values[HW_FIELD_POINT].value,
                      setup->purpose->entry.id, setup->stitch->entry.id, setup->needle_thread.tex);
    }
}

static void
test_heavier_is_no_finer (gconstpointer shipped)
{
  g_auto (Setting) setting = make_setting (shipped);

  for (gsize n = 0; n < n_operations (shipped); n++)
    {
      g_autoptr (HwProject) project = draw_project (&setting);
      HwStep *step = g_ptr_array_index (project->steps, 0);
      HwProjectFabric *fabric = g_ptr_array_index (project->fabrics, 0);
      g_auto (Pairing) lighter = { 0 };
      g_auto (Pairing) heavier = { 0 };

      step->n_plies = 1;                 /* the others' fabrics stay in the project, unsewn */
      for (guint i = 1; i < project->fabrics->len; i++)
        g_clear_pointer (&step->plies[i].fabric, g_free);
      if (project->threads->len == 0)
        g_ptr_array_add (project->threads, hw_project_thread_new ("t0", setting.handbook->threads[0].entry.id));
      g_free (step->needle_thread);
      step->needle_thread = g_strdup ("t0");
      fabric->mass_g_m2 = g_rand_double_range (setting.random, 20, 600);
      fabric->thickness_mm = 0.5;
      lighter = pair (&setting, project);
      fabric->mass_g_m2 += g_rand_double_range (setting.random, 1, 300);
      heavier = pair (&setting, project);
      if (!is_sold_in (&setting, &heavier, get_value (&lighter, HW_FIELD_SIZE)))
        continue;
      if (get_value (&heavier, HW_FIELD_SIZE) < get_value (&lighter, HW_FIELD_SIZE) - EPSILON)
        g_test_message ("%s: %g finer than %g at %g g/m2",
                        fabric->construction != NULL ? fabric->construction : fabric->handbook,
                        get_value (&heavier, HW_FIELD_SIZE), get_value (&lighter, HW_FIELD_SIZE), fabric->mass_g_m2);
      if (get_value (&heavier, HW_FIELD_SIZE) < get_value (&lighter, HW_FIELD_SIZE) - EPSILON)
        tell_finer (&lighter, &heavier);
      g_assert_cmpfloat (get_value (&heavier, HW_FIELD_SIZE), >=, get_value (&lighter, HW_FIELD_SIZE) - EPSILON);
    }
}

/* ---- overrides of every number ---- */

static void
test_overrides (gconstpointer shipped)
{
  static const struct { HwField field; double low, high; } numbers[] = {
    { HW_FIELD_SIZE, 60, 120 }, { HW_FIELD_LENGTH, 0.3, 9 }, { HW_FIELD_WIDTH, 0, 9 }, { HW_FIELD_PRESSURE, -4, 4 },
    { HW_FIELD_DIAL, 0, 9 }, { HW_FIELD_NEEDLE_TEX, 8, 200 }, { HW_FIELD_BOBBIN_TEX, 8, 200 }, { HW_FIELD_TWIN, 1, 8 },
    { HW_FIELD_ALLOWANCE, 0, 40 }, { HW_FIELD_DIFFERENTIAL, 0.5, 2.5 }, { HW_FIELD_CUTTING_WIDTH, 1, 9 },
  };
  g_auto (Setting) setting = make_setting (shipped);

  for (gsize n = 0; n < n_operations (shipped); n++)
    {
      g_autoptr (HwProject) project = draw_project (&setting);
      HwStep *step = g_ptr_array_index (project->steps, 0);
      gsize which = draw (&setting, G_N_ELEMENTS (numbers));
      HwField field = numbers[which].field;
      g_auto (Pairing) pairing = { 0 };
      const HwValue *value;

      set_length (step, 2);
      step->overrides[0].field = field;
      step->overrides[0].value = g_rand_double_range (setting.random, numbers[which].low, numbers[which].high);
      pairing = pair (&setting, project);
      value = &pairing.setup->values[field];
      check_values (pairing.setup);
      check_reasons (pairing.setup);
      if (!value->applies)
        continue;
      g_assert_cmpfloat (value->value, ==, step->overrides[0].value);
      g_assert_cmpint (value->origin, ==, HW_ORIGIN_OVERRIDDEN);
      g_assert_true (hw_value_accepts (value, field, value->value)
                     != warns (pairing.setup, field, HW_WARN_OVERRIDE_OUTSIDE));
    }
}

static const struct { const char *name; GTestDataFunc run; } properties[] = {
  { "every-set-up", test_every_set_up },
  { "same-again", test_same_again },
  { "order-of-plies", test_order_of_plies },
  { "longer-is-no-tighter", test_longer_is_no_tighter },
  { "more-plies-are-no-tighter", test_more_plies_are_no_tighter },
  { "heavier-is-no-finer", test_heavier_is_no_finer },
  { "overrides", test_overrides },
};

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (properties); i++)
    {
      g_autofree char *small = g_strconcat ("/properties/small/", properties[i].name, NULL);
      g_autofree char *shipped = g_strconcat ("/properties/shipped/", properties[i].name, NULL);

      g_test_add_data_func (small, GINT_TO_POINTER (FALSE), properties[i].run);
      g_test_add_data_func (shipped, GINT_TO_POINTER (TRUE), properties[i].run);
    }
  return g_test_run ();
}
