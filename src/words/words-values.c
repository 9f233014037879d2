/* words-values.c - the values of a set-up and their bands
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <math.h>

static const char * const field_names[HW_N_FIELDS] = {
  [HW_FIELD_MACHINE] = N_("Machine"),
  [HW_FIELD_STITCH] = N_("Stitch"),
  [HW_FIELD_SYSTEM] = N_("Needle system"),
  [HW_FIELD_POINT] = N_("Needle point"),
  [HW_FIELD_SIZE] = N_("Needle size"),
  [HW_FIELD_TWIN] = N_("Between the needles"),
  [HW_FIELD_NEEDLE_TEX] = N_("Needle thread"),
  [HW_FIELD_BOBBIN_TEX] = N_("Bobbin thread"),
  [HW_FIELD_LENGTH] = N_("Stitch length"),
  [HW_FIELD_WIDTH] = N_("Stitch width"),
  [HW_FIELD_FOOT] = N_("Foot"),
  [HW_FIELD_PLATE] = N_("Plate"),
  [HW_FIELD_PRESSURE] = N_("Foot pressure"),
  [HW_FIELD_DIAL] = N_("Needle thread tension"),
  [HW_FIELD_ENDS] = N_("Ends"),
  [HW_FIELD_ALLOWANCE] = N_("Seam allowance"),
  [HW_FIELD_DIFFERENTIAL] = N_("Differential feed"),
  [HW_FIELD_CUTTING_WIDTH] = N_("Cutting width"),
};

char *
hw_words_field (HwField field)
{
  g_return_val_if_fail (field < HW_N_FIELDS, g_strdup (""));

  return g_strdup (_(field_names[field]));
}

/* ISO 4916: classes 1, 2 and 4 join pieces at an allowance; the others sew along an edge. */
static gboolean
is_from_edge (const HwSetup *setup)
{
  int class = setup->seam != NULL ? setup->seam->iso_class : 1;

  return class == 3 || class > 4 || g_str_equal (setup->purpose->entry.id, "topstitch")
         || g_str_equal (setup->purpose->entry.id, "understitch");
}

char *
hw_words_field_of (const HwSetup *setup, HwField field)
{
  g_return_val_if_fail (setup != NULL, g_strdup (""));

  if (field != HW_FIELD_ALLOWANCE)
    return hw_words_field (field);
  switch (setup->line_from)
    {
    case HW_FROM_FOLD:
      return g_strdup (_("From the fold"));
    case HW_FROM_SEAM:
      return g_strdup (_("From the seam"));
    case HW_FROM_CENTRE_FRONT:
      return g_strdup (_("From the centre front"));
    case HW_FROM_EDGE:
    case HW_N_LINES_FROM:
    default:
      return is_from_edge (setup) ? g_strdup (_("From the edge")) : hw_words_field (field);
    }
}

char *
hw_words_line (HwLineFrom from, const char *distance)
{
  switch (from)
    {
    case HW_FROM_FOLD:
      /* Translators: how far the row of stitches runs from it, such as "20 mm"; so below */
      return g_strdup_printf (_("%s from the fold"), distance);
    case HW_FROM_SEAM:
      return g_strdup_printf (_("%s from the seam"), distance);
    case HW_FROM_CENTRE_FRONT:
      return g_strdup_printf (_("%s from the centre front"), distance);
    case HW_FROM_EDGE:
    case HW_N_LINES_FROM:
    default:
      return g_strdup_printf (_("%s from the edge"), distance);
    }
}

/* ---- a value of any field ---- */

/* The handbook's entry that a choice names; NULL for fields whose choices stand elsewhere or for none at all. */
static const HwEntry *
find_choice (const HwPlan *plan, HwField field, int index)
{
  const HwHandbook *handbook = plan->handbook;

  if (index < 0)
    return NULL;
  switch ((int) field)
    {
    case HW_FIELD_STITCH:
      return (gsize) index < handbook->n_stitches ? &handbook->stitches[index].entry : NULL;
    case HW_FIELD_POINT:
      return (gsize) index < handbook->n_points ? &handbook->points[index].entry : NULL;
    case HW_FIELD_SYSTEM:
      return (gsize) index < handbook->n_systems ? &handbook->systems[index].entry : NULL;
    case HW_FIELD_FOOT:
      return (gsize) index < handbook->n_feet ? &handbook->feet[index].entry : NULL;
    case HW_FIELD_PLATE:
      return (gsize) index < handbook->n_plates ? &handbook->plates[index].entry : NULL;
    default:
      return NULL;
    }
}

/* Without the letters, which stand beside the name on their own. */
static char *
name_choice (const HwPlan *plan, HwField field, int index)
{
  const HwEntry *entry = find_choice (plan, field, index);

  return entry != NULL ? hw_words_inside (entry->name) : g_strdup (_("none"));
}

static char *
name_machine (const HwPlan *plan, int index)
{
  if (index < 0 || (guint) index >= plan->room->machines->len)
    return g_strdup (_("none"));
  return g_strdup (((const HwMachine *) g_ptr_array_index (plan->room->machines, (guint) index))->name);
}

static char *
say_tex (double tex)
{
  g_autofree char *number = hw_words_number (tex, 0);

  /* Translators: a thread's size */
  return g_strdup_printf (_("tex %s"), number);
}

char *
hw_words_quantity (const HwPlan *plan, const HwSetup *setup, HwField field, double value)
{
  switch (field)
    {
    case HW_FIELD_MACHINE:
      return name_machine (plan, (int) value);
    case HW_FIELD_STITCH:
    case HW_FIELD_SYSTEM:
    case HW_FIELD_POINT:
    case HW_FIELD_FOOT:
    case HW_FIELD_PLATE:
      return name_choice (plan, field, (int) value);
    case HW_FIELD_SIZE:
      return hw_words_setup_size (setup, value);
    case HW_FIELD_NEEDLE_TEX:
    case HW_FIELD_BOBBIN_TEX:
      return say_tex (value);
    case HW_FIELD_TWIN:
    case HW_FIELD_LENGTH:
    case HW_FIELD_WIDTH:
    case HW_FIELD_CUTTING_WIDTH:
      return hw_words_mm (value);
    case HW_FIELD_ALLOWANCE:
      return hw_words_allowance (value);
    case HW_FIELD_PRESSURE:
      return hw_words_pressure (value);
    case HW_FIELD_DIAL:
      return hw_words_half (value);
    case HW_FIELD_ENDS:
      return hw_words_ends ((HwEnds) value);
    case HW_FIELD_DIFFERENTIAL:
      return hw_words_fixed (value, 1);            /* machines print 1.0 */
    case HW_N_FIELDS:
    default:
      g_return_val_if_reached (g_strdup (""));
    }
}

/* ---- what the side panel says ---- */

static char *
say_stitch (const HwSetup *setup)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (parts, hw_words_stitch (setup));
  if (*setup->stitch->iso != '\0')
    g_ptr_array_add (parts, g_strdup (setup->stitch->iso));
  return hw_words_list (g_steal_pointer (&parts));
}

static char *
say_system (const HwPlan *plan, int index)
{
  const HwNeedleSystem *system = &plan->handbook->systems[index];

  if (system->also == NULL || *system->also == '\0')
    return g_strdup (system->entry.name);
  /* Translators: a needle system, other names of the same system */
  return g_strdup_printf (_("%s, also %s"), system->entry.name, system->also);
}

static char *
say_bobbin_thread (const HwSetup *setup)
{
  const HwThreadChoice *needle = &setup->needle_thread;
  const HwThreadChoice *bobbin = &setup->bobbin_thread;

  if (needle->thread == bobbin->thread && needle->entry == bobbin->entry && ABS (needle->tex - bobbin->tex) < 1e-6)
    return g_strdup (_("the same"));
  return hw_words_thread (bobbin);
}

static char *
say_dial (const HwSetup *setup)
{
  g_autofree char *start = hw_words_half (setup->values[HW_FIELD_DIAL].value);
  g_autofree char *low = hw_words_half (setup->dial_likely_low);
  g_autofree char *high = hw_words_half (setup->dial_likely_high);

  if (setup->stitch->dials > 1)
    /* Translators: overlocker: the number for every dial, and where the scrap is likely to leave them, low and high */
    return g_strdup_printf (_("start all dials at %s, likely to end between %s and %s"), start, low, high);
  /* Translators: the dial to start with, and where the scrap is likely to leave it, low and high */
  return g_strdup_printf (_("start at %s, likely to end between %s and %s"), start, low, high);
}

char *
hw_words_value (const HwPlan *plan, const HwSetup *setup, HwField field)
{
  const HwValue *value;

  g_return_val_if_fail (field < HW_N_FIELDS, g_strdup (""));

  value = &setup->values[field];
  if (field == HW_FIELD_MACHINE)
    return g_strdup (setup->machine->name);
  if (field == HW_FIELD_STITCH)
    return say_stitch (setup);
  if (!value->applies)
    return g_strdup (_("none"));
  switch ((int) field)
    {
    case HW_FIELD_SYSTEM:
      return say_system (plan, (int) value->value);
    case HW_FIELD_POINT:
      return hw_words_point (&plan->handbook->points[(gsize) value->value]);
    case HW_FIELD_NEEDLE_TEX:
      return hw_words_thread (&setup->needle_thread);
    case HW_FIELD_BOBBIN_TEX:
      return say_bobbin_thread (setup);
    case HW_FIELD_DIAL:
      return say_dial (setup);
    default:
      return hw_words_quantity (plan, setup, field, value->value);
    }
}

/* ---- bands ---- */

/* Some names hold commas, so choices are parted by more than that. */
static char *
list_accepted (const HwPlan *plan, const HwSetup *setup, HwField field)
{
  const HwValue *value = &setup->values[field];
  g_autoptr (GString) out = g_string_new (NULL);

  for (int i = 0; i < 64; i++)
    if ((value->accept & HW_SET (i)) != 0)
      {
        g_autofree char *name = hw_words_quantity (plan, setup, field, i);

        if (out->len > 0)
          /* Translators: stands between choices of which each may hold a comma */
          g_string_append (out, C_("list of choices", "; "));
        g_string_append (out, name);
      }
  if (out->len == 0)
    return hw_words_quantity (plan, setup, field, value->prefer);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static char *
say_range (char *low, char *high)
{
  g_autofree char *low_words = low;
  g_autofree char *high_words = high;

  if (low == NULL && high == NULL)
    return g_strdup (_("any"));
  if (low == NULL)
    /* Translators: the highest value that passes */
    return g_strdup_printf (_("up to %s"), high_words);
  if (high == NULL)
    /* Translators: the lowest value that passes */
    return g_strdup_printf (_("%s or more"), low_words);
  if (g_str_equal (low_words, high_words))
    return g_steal_pointer (&low_words);
  /* Translators: the lowest and the highest value that pass */
  return g_strdup_printf (_("%s to %s"), low_words, high_words);
}

static char *
say_bound (const HwPlan *plan, const HwSetup *setup, HwField field, double bound)
{
  return isfinite (bound) ? hw_words_quantity (plan, setup, field, bound) : NULL;
}

/* Needles come in sizes: the finest and the coarsest sold between the bounds, for the point that is set. */
static char *
say_sizes (const HwPlan *plan, const HwSetup *setup)
{
  const HwValue *value = &setup->values[HW_FIELD_SIZE];
  const HwPoint *point = &plan->handbook->points[(gsize) setup->values[HW_FIELD_POINT].value];
  int low = 0;
  int high = 0;

  for (gsize i = 0; i < point->n_sizes; i++)
    if (point->sizes[i] >= value->low && point->sizes[i] <= value->high)
      {
        low = low == 0 ? point->sizes[i] : low;
        high = point->sizes[i];
      }
  if (low == 0)
    return hw_words_setup_size (setup, value->prefer);
  return say_range (hw_words_setup_size (setup, low), hw_words_setup_size (setup, high));
}

/* A unit is said once: "2 to 3 mm", "tex 27 to 35". */
static char *
say_measured (const HwSetup *setup, HwField field, const char *one, const char *two)
{
  const HwValue *value = &setup->values[field];
  g_autofree char *low = hw_words_number (value->low, 2);
  g_autofree char *high = hw_words_number (value->high, 2);

  return g_str_equal (low, high) ? g_strdup_printf (one, low) : g_strdup_printf (two, low, high);
}

/**
 * hw_words_band:
 *
 * Returns: (transfer full): what still passes in @field: "2 to 3 mm",
 *   "75/11 to 90/14", or the choices that do
 */
char *
hw_words_band (const HwPlan *plan, const HwSetup *setup, HwField field)
{
  const HwValue *value;
  gboolean open;

  g_return_val_if_fail (field < HW_N_FIELDS, g_strdup (""));

  value = &setup->values[field];
  open = !isfinite (value->low) || !isfinite (value->high);
  if (!value->applies || field == HW_FIELD_MACHINE || field == HW_FIELD_STITCH || field == HW_FIELD_SYSTEM)
    return g_strdup ("");
  switch ((int) field)
    {
    case HW_FIELD_POINT:
    case HW_FIELD_FOOT:
    case HW_FIELD_PLATE:
    case HW_FIELD_ENDS:
      return list_accepted (plan, setup, field);
    case HW_FIELD_SIZE:
      return say_sizes (plan, setup);
    case HW_FIELD_NEEDLE_TEX:
    case HW_FIELD_BOBBIN_TEX:
      if (!open)
        /* Translators: sizes of thread, low and high */
        return say_measured (setup, field, _("tex %s"), _("tex %s to %s"));
      break;
    case HW_FIELD_TWIN:
    case HW_FIELD_LENGTH:
    case HW_FIELD_WIDTH:
    case HW_FIELD_ALLOWANCE:
    case HW_FIELD_CUTTING_WIDTH:
      if (!open)
        /* Translators: millimetres, low and high */
        return say_measured (setup, field, _("%s mm"), _("%s to %s mm"));
      break;
    default:
      break;
    }
  return say_range (say_bound (plan, setup, field, value->low), say_bound (plan, setup, field, value->high));
}

char *
hw_words_setup_text (const HwPlan     *plan,
                     const HwPlanStep *step)
{
  const HwSetup *setup;
  GString *text;

  g_return_val_if_fail (plan != NULL && step != NULL, NULL);

  setup = plan->setups[step->step];
  if (setup == NULL)
    return NULL;
  text = g_string_new (plan->project->title);
  g_string_append_printf (text, "\n%s  %s\n", hw_project_get_step (plan->project, step->step)->number,
                          hw_project_get_step (plan->project, step->step)->name);
  for (HwField field = 0; field < HW_N_FIELDS; field++)
    {
      g_autofree char *name = setup->values[field].applies ? hw_words_field_of (setup, field) : NULL;
      g_autofree char *value = name != NULL ? hw_words_value (plan, setup, field) : NULL;

      if (name == NULL)
        continue;
      /* Translators: a line of a set-up: what it is, how it is set */
      g_string_append_printf (text, _("%s: %s"), name, value);
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}
