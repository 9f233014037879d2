/* words-warnings.c - what does not agree, both sides of it, and the way out
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <math.h>

/* The finest needle sold that is not finer than @nm. */
static double
find_sold (const HwPlan *plan, const HwSetup *setup, double nm)
{
  const HwPoint *point = &plan->handbook->points[(gsize) setup->values[HW_FIELD_POINT].value];

  for (gsize i = 0; i < point->n_sizes; i++)
    if (point->sizes[i] >= nm)
      return point->sizes[i];
  return ceil (nm);
}

static char *
say_bounds_cross (const HwPlan *plan, const HwSetup *setup, const HwWarning *warning)
{
  g_autofree char *low = hw_words_setup_size (setup, find_sold (plan, setup, warning->v[0]));
  g_autofree char *high = hw_words_setup_size (setup, warning->v[1]);
  g_autofree char *cloth = hw_words_cloth (warning->cloth);
  g_autofree char *tex = NULL;

  if (!(warning->v[2] > 0))
    /* Translators: smallest needle for thread and layers, largest for the cloth, name of the cloth */
    return g_strdup_printf (_("Thread and layers want a needle of %s or more, and %s is the largest for %s: try it "
                              "on a scrap, and if it leaves holes, choose another point."), low, high, cloth);
  tex = hw_words_number (warning->v[2], 0);
  /* Translators: smallest needle for the thread, largest for the cloth, name of the cloth, thread size */
  return g_strdup_printf (_("The thread wants a needle of %s or more, and %s is the largest for %s: take thread of "
                            "tex %s or finer."), low, high, cloth, tex);
}

static char *
say_thread_limit (const HwSetup *setup, const HwWarning *warning)
{
  g_autofree char *share = hw_words_number (warning->v[0], 0);
  g_autofree char *size = hw_words_setup_size (setup, setup->values[HW_FIELD_SIZE].value);

  /* Translators: share of the needle's blade, needle's size */
  return g_strdup_printf (_("The thread fills %s %% of the blade of this %s needle and its groove holds 40 %%: take a "
                            "larger needle, a point with a large eye, or a finer thread."), share, size);
}

static char *
say_clamped (const HwPlan *plan, const HwSetup *setup, const HwWarning *warning)
{
  g_autofree char *wanted = hw_words_quantity (plan, setup, warning->field, warning->v[0]);
  g_autofree char *set = hw_words_quantity (plan, setup, warning->field, warning->v[1]);
  g_autofree char *field = hw_words_field_of (setup, warning->field);

  /* Translators: a field such as "Stitch length", the value wanted, the value set */
  return g_strdup_printf (_("%s: %s is wanted and this machine reaches %s. Try it on a scrap, or sew the step on a "
                            "machine that reaches further."), field, wanted, set);
}

/* Beaten flat, a stack loses a quarter or so. */
#define TOO_HIGH_TO_FLATTEN 1.4

/* The crossing, where there is one, is what the foot has to climb. */
static char *
say_foot_lift (const HwWarning *warning)
{
  gboolean crossing = warning->v[2] > warning->v[0];
  g_autofree char *stack = hw_words_number (MAX (warning->v[0], warning->v[2]), 1);
  g_autofree char *lift = hw_words_number (warning->v[1], 1);

  if (crossing && warning->v[2] > TOO_HIGH_TO_FLATTEN * warning->v[1])
    /* Translators: thickness of the crossing, lift of the foot, in mm */
    return g_strdup_printf (_("The thickest crossing is %s mm under the foot, and the foot lifts %s mm, which no "
                              "hammering makes good: cut the allowances back in steps, stop on either side of it, and "
                              "sew the gap by hand."), stack, lift);
  if (crossing)
    /* Translators: thickness of the crossing, lift of the foot, in mm */
    return g_strdup_printf (_("The thickest crossing is %s mm under the foot, and the foot lifts %s mm: flatten it "
                              "with a hammer or a clapper, lay a shim behind the foot, and go over it by hand wheel."),
                            stack, lift);
  /* Translators: thickness of the layers, lift of the foot, in mm */
  return g_strdup_printf (_("The layers are %s mm under the foot, and the foot lifts %s mm: trim layers out of the "
                            "seam, press it flat, or sew this one by hand."), stack, lift);
}

static char *
say_twin_wide (const HwWarning *warning)
{
  g_autofree char *twin = hw_words_mm (warning->v[0]);
  g_autofree char *room = hw_words_mm (warning->v[1]);
  g_autofree char *widest = hw_words_mm (warning->v[2]);

  if (warning->v[2] <= 0)
    /* Translators: twin spacing, room in the plate */
    return g_strdup_printf (_("A twin needle of %s does not pass this machine, whose plate and swing give %s: sew "
                              "two rows with a single needle, in a knit with a stretch stitch or a narrow zigzag."),
                            twin, room);
  /* Translators: twin spacing wanted, room in the plate, widest twin that passes */
  return g_strdup_printf (_("A twin needle of %s is too wide for this machine, whose plate and swing give %s: take "
                            "one of %s or less, and turn the first stitches by hand."), twin, room, widest);
}

static char *
say_override_outside (const HwPlan *plan, const HwSetup *setup, const HwWarning *warning)
{
  g_autofree char *yours = hw_words_quantity (plan, setup, warning->field, warning->v[0]);
  g_autofree char *band = hw_words_band (plan, setup, warning->field);
  g_autofree char *field = hw_words_field_of (setup, warning->field);

  /* Translators: a field such as "Stitch length", the person's own value, what passes */
  return g_strdup_printf (_("%s: yours is %s; what passes here is %s. Try it on a scrap, or take it back."),
                          field, yours, band);
}

static char *
say_not_owned (const HwPlan *plan, const HwSetup *setup, const HwWarning *warning)
{
  g_autofree char *wanted = hw_words_quantity (plan, setup, warning->field, warning->v[0]);

  if (warning->field == HW_FIELD_PLATE)
    /* Translators: a needle plate */
    return g_strdup_printf (_("This step wants the %s, and none of this machine’s plates can stand in for it: note "
                              "the plate if you have it, or choose another stitch."), wanted);
  /* Translators: a presser foot */
  return g_strdup_printf (_("This step wants the %s, and none of this machine’s feet can stand in for it: note the "
                            "foot if you have it, or choose another stitch."), wanted);
}

static char *
say_size_not_sold (const HwSetup *setup, const HwWarning *warning)
{
  g_autofree char *wanted = hw_words_setup_size (setup, round (warning->v[0]));
  g_autofree char *nearest = hw_words_setup_size (setup, warning->v[1]);

  /* Translators: the size wanted, the nearest size sold */
  return g_strdup_printf (_("A needle of %s is wanted, and this point is not sold so: %s is the nearest. Try it on "
                            "a scrap, or choose another point."), wanted, nearest);
}

static char *
say_coarse_thread (const HwWarning *warning)
{
  g_autofree char *tex = hw_words_number (warning->v[0], 0);
  g_autofree char *limit = hw_words_number (warning->v[1] > 0 ? warning->v[1] : 90, 0);

  /* Translators: the thread's size, the size up to which machines usually go */
  return g_strdup_printf (_("Tex %s in the needle is coarser than the tex %s many household machines stop at: look "
                            "in its manual, or take a finer thread twice."), tex, limit);
}

static char *
say_estimated (const HwWarning *warning)
{
  g_autofree char *cloth = hw_words_cloth (warning->cloth);
  g_autofree char *thickness = hw_words_mm (warning->v[0]);

  /* Translators: a fabric, its thickness */
  return g_strdup_printf (_("The thickness of %s was guessed from its mass as %s, and the start depends on it: "
                            "measure several layers together and note it."), cloth, thickness);
}

/**
 * hw_words_warning:
 *
 * Returns: (transfer full): both sides of what does not agree, and the way out
 */
char *
hw_words_warning (const HwPlan *plan, const HwSetup *setup, const HwWarning *warning)
{
  switch (warning->code)
    {
    case HW_WARN_BOUNDS_CROSS:
      return say_bounds_cross (plan, setup, warning);
    case HW_WARN_THREAD_LIMIT:
      return say_thread_limit (setup, warning);
    case HW_WARN_CLAMPED:
      return say_clamped (plan, setup, warning);
    case HW_WARN_FOOT_LIFT:
      return say_foot_lift (warning);
    case HW_WARN_TWIN_WIDE:
      return say_twin_wide (warning);
    case HW_WARN_OVERRIDE_OUTSIDE:
      return say_override_outside (plan, setup, warning);
    case HW_WARN_NOT_OWNED:
      return say_not_owned (plan, setup, warning);
    case HW_WARN_SIZE_NOT_SOLD:
      return say_size_not_sold (setup, warning);
    case HW_WARN_COARSE_THREAD:
      return say_coarse_thread (warning);
    case HW_WARN_ESTIMATED:
      return say_estimated (warning);
    default:
      g_return_val_if_reached (g_strdup (""));
    }
}
