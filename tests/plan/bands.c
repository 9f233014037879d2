/* bands.c - garments paired with the shipped handbook, each value against the band that a teacher accepts
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "bands.h"

#include <string.h>

/* ---- the garments, paired once ---- */

typedef struct
{
  HwProject *project;
  GArray    *cloths;
  GPtrArray *setups;                     /* one a step; NULL for a hand step */
  HwPlan    *plan;                       /* with --planned: lends the set-ups, as the cards print them */
} Paired;

HwHandbook *bands_handbook;
HwRoom *bands_room;
gboolean bands_planned;

static const Garment *garments;
static gsize n_garments;
static Paired *paired;

static HwSetup *
pair_step (const Paired *garment, const HwStep *step)
{
  g_autoptr (GError) error = NULL;
  HwSetup *setup;

  if (step->kind == HW_STEP_HAND)
    return NULL;
  setup = hw_pair (bands_handbook, garment->project, garment->cloths, bands_room, step, &error);
  g_assert_no_error (error);
  return setup;
}

static void
free_setup (gpointer setup)
{
  hw_setup_free (setup);
}

static void
pair_garment (Paired *garment, const char *name)
{
  g_autoptr (GError) error = NULL;

  garment->project = workroom_garment (name);
  if (bands_planned)
    {
      garment->plan = hw_plan_new (bands_handbook, garment->project, bands_room, &error);
      g_assert_no_error (error);
      garment->setups = g_ptr_array_new ();
      for (gsize i = 0; i < garment->plan->n_steps; i++)
        g_ptr_array_add (garment->setups, garment->plan->setups[i]);
      return;
    }
  garment->cloths = hw_cloths_resolve (bands_handbook, garment->project, &error);
  g_assert_no_error (error);
  garment->setups = g_ptr_array_new_with_free_func (free_setup);
  for (guint i = 0; i < garment->project->steps->len; i++)
    g_ptr_array_add (garment->setups, pair_step (garment, hw_project_get_step (garment->project, i)));
}

static void
clear_garment (Paired *garment)
{
  g_ptr_array_unref (garment->setups);
  g_clear_pointer (&garment->cloths, g_array_unref);
  g_clear_pointer (&garment->plan, hw_plan_unref);
  hw_project_unref (garment->project);
}

const HwSetup *
bands_setup (gsize garment, const char *number)
{
  int index = hw_project_find_step (paired[garment].project, number);

  g_assert_cmpint (index, >=, 0);
  g_assert_nonnull (g_ptr_array_index (paired[garment].setups, (guint) index));
  return g_ptr_array_index (paired[garment].setups, (guint) index);
}

/* ---- a value against its band ---- */

typedef struct
{
  gsize      garment;
  const Row *row;
} Case;

static void
check_number (const Case *c, HwField field, Range accepted)
{
  const HwValue *value = &bands_setup (c->garment, c->row->number)->values[field];

  if (isnan (accepted.low))
    {
      g_assert_false (value->applies);
      return;
    }
  g_assert_true (value->applies);
  if (value->value < accepted.low - 1e-9 || value->value > accepted.high + 1e-9)
    {
      g_test_message ("%s of %s %s: %g, accepted %g to %g", hw_field_ids[field], garments[c->garment].name,
                      c->row->number, value->value, accepted.low, accepted.high);
      g_test_fail ();
    }
}

static void
check_word (const Case *c, const char *what, const char *id, const char *accepted)
{
  g_auto (GStrv) words = g_strsplit (accepted, " ", -1);

  if (!g_strv_contains ((const char * const *) words, id))
    {
      g_test_message ("%s of %s %s: %s, accepted %s", what, garments[c->garment].name, c->row->number, id, accepted);
      g_test_fail ();
    }
}

static int
get_choice (const Case *c, HwField field)
{
  const HwValue *value = &bands_setup (c->garment, c->row->number)->values[field];

  g_assert_true (value->applies);
  return (int) value->value;
}

static void
test_point (gconstpointer data)
{
  const Case *c = data;

  check_word (c, "point", bands_handbook->points[get_choice (c, HW_FIELD_POINT)].entry.id, c->row->points);
}

static void
test_size (gconstpointer data)
{
  const Case *c = data;

  check_number (c, HW_FIELD_SIZE, c->row->size);
}

static void
test_twin (gconstpointer data)
{
  const Case *c = data;

  check_number (c, HW_FIELD_TWIN, c->row->twin);
}

static void
test_needle_thread (gconstpointer data)
{
  const Case *c = data;

  check_number (c, HW_FIELD_NEEDLE_TEX, c->row->needle_tex);
}

static void
test_under_thread (gconstpointer data)
{
  const Case *c = data;

  check_number (c, HW_FIELD_BOBBIN_TEX, c->row->under_tex);
}

static void
test_stitch (gconstpointer data)
{
  const Case *c = data;

  check_word (c, "stitch", bands_handbook->stitches[get_choice (c, HW_FIELD_STITCH)].entry.id, c->row->stitch);
}

static void
test_length (gconstpointer data)
{
  const Case *c = data;

  check_number (c, HW_FIELD_LENGTH, c->row->length);
}

static void
test_width (gconstpointer data)
{
  const Case *c = data;
  gboolean overlock = bands_setup (c->garment, c->row->number)->machine->kind == HW_MACHINE_OVERLOCK;

  check_number (c, overlock ? HW_FIELD_CUTTING_WIDTH : HW_FIELD_WIDTH, c->row->width);
}

static void
test_foot (gconstpointer data)
{
  const Case *c = data;

  check_word (c, "foot", bands_handbook->feet[get_choice (c, HW_FIELD_FOOT)].entry.id, c->row->feet);
}

static void
test_pressure (gconstpointer data)
{
  const Case *c = data;

  check_number (c, HW_FIELD_PRESSURE, c->row->pressure);
}

static void
test_dial (gconstpointer data)
{
  const Case *c = data;

  check_number (c, HW_FIELD_DIAL, c->row->dial);
}

static void
test_differential (gconstpointer data)
{
  const Case *c = data;

  check_number (c, HW_FIELD_DIFFERENTIAL, c->row->differential);
}

/* Warnings: the foot's lift where the table has one, and nothing else, for these are ordinary garments. */
static void
test_warnings (gconstpointer data)
{
  const Case *c = data;
  const GArray *warnings = bands_setup (c->garment, c->row->number)->warnings;
  gboolean lift = FALSE;

  for (guint i = 0; i < warnings->len; i++)
    {
      const HwWarning *warning = &g_array_index (warnings, HwWarning, i);

      if (warning->code == HW_WARN_FOOT_LIFT)
        lift = TRUE;
      else if (warning->code != HW_WARN_ESTIMATED)
        {
          g_test_message ("%s %s warns with code %d of %s: %g, %g, %g", garments[c->garment].name, c->row->number,
                          (int) warning->code, hw_field_ids[warning->field], warning->v[0], warning->v[1],
                          warning->v[2]);
          g_test_fail ();
        }
    }
  g_assert_cmpint (lift, ==, c->row->foot_lift);
}

static const struct { const char *name; GTestDataFunc run; } values[] = {
  { "point", test_point },
  { "size", test_size },
  { "twin", test_twin },
  { "needle-thread", test_needle_thread },
  { "under-thread", test_under_thread },
  { "stitch", test_stitch },
  { "length", test_length },
  { "width", test_width },
  { "foot", test_foot },
  { "pressure", test_pressure },
  { "dial", test_dial },
  { "differential", test_differential },
  { "warnings", test_warnings },
};

double
bands_number (gsize garment, const char *number, HwField field)
{
  return bands_setup (garment, number)->values[field].value;
}

const GPtrArray *
bands_setups (gsize garment)
{
  return paired[garment].setups;
}

/* Every row of a table is an operation of the file and the other way round: nothing is left out. */
static void
test_complete (void)
{
  for (gsize g = 0; g < n_garments; g++)
    {
      gsize n_operations = 0;

      for (guint i = 0; i < paired[g].setups->len; i++)
        n_operations += g_ptr_array_index (paired[g].setups, i) != NULL;
      g_assert_cmpuint (n_operations, ==, garments[g].n);
    }
}

static void
add_row (const char *prefix, gsize garment, const Row *row)
{
  for (gsize v = 0; v < G_N_ELEMENTS (values); v++)
    {
      g_autofree char *path = g_strdup_printf ("/%s%s/%s/%s/%s", prefix, bands_planned ? "-planned" : "",
                                               garments[garment].name, row->number, values[v].name);
      Case *c = g_new0 (Case, 1);

      *c = (Case) { garment, row };
      g_test_add_data_func_full (path, c, values[v].run, g_free);
    }
}

static void
add_tests (const char *prefix, const AcrossTest *across, gsize n_across)
{
  g_autofree char *complete = g_strdup_printf ("/%s/complete", prefix);

  for (gsize g = 0; g < n_garments; g++)
    for (gsize i = 0; i < garments[g].n; i++)
      add_row (prefix, g, &garments[g].rows[i]);
  g_test_add_func (complete, test_complete);
  for (gsize i = 0; i < n_across; i++)
    g_test_add_func (across[i].path, across[i].run);
}

int
bands_run (int               argc,
           char            **argv,
           const char       *prefix,
           const Garment    *tables,
           gsize             n_tables,
           const AcrossTest *across,
           gsize             n_across)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  bands_planned = argc > 1 && g_str_equal (argv[1], "--planned");
  bands_handbook = workroom_handbook ();
  bands_room = workroom_new (&workroom_usual, "household", 3);
  garments = tables;
  n_garments = n_tables;
  paired = g_new0 (Paired, n_garments);
  for (gsize g = 0; g < n_garments; g++)
    pair_garment (&paired[g], garments[g].name);
  add_tests (prefix, across, n_across);

  status = g_test_run ();
  for (gsize g = 0; g < n_garments; g++)
    clear_garment (&paired[g]);
  g_free (paired);
  hw_room_unref (bands_room);
  hw_handbook_unref (bands_handbook);
  return status;
}
