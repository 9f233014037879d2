/* words-sewing.c - what stands on every card: checks, test seam, cautions
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>

/* ---- the test seam ---- */

static const char * const remedies[] = {
  N_("Needle thread loops underneath. First re-thread with the foot up. Still there: dial up half a number."),
  N_("Looks the same on both sides, flat when pulled: sew."),
  N_("Bobbin thread shows on top: dial down half a number."),
};

static const char * const short_remedies[] = {
  N_("Re-thread, foot up. Then up ½"),
  N_("Sew"),
  N_("Dial down ½"),
};

char *
hw_words_remedy (int which, gboolean short_form)
{
  g_return_val_if_fail (which >= 0 && which < (int) G_N_ELEMENTS (remedies), g_strdup (""));

  return g_strdup (_(short_form ? short_remedies[which] : remedies[which]));
}

/* ---- cautions ---- */

static const char * const cautions[] = {
  N_("Switch off and unplug before you change needle or foot, clean or oil. The machine’s manual comes first."),
  N_("Keep fingers clear of needle, knife and take-up lever, and pins out of the seam before they reach the foot."),
  N_("A bent or blunt needle goes into a closed tin at once. When one breaks, find every piece before you sew on."),
  N_("Oil only where the machine’s manual says so, with sewing-machine oil, and wipe off what is left."),
  N_("Brush lint out; blown dust goes into the works and the eyes."),
  N_("What the manual does not leave to you is for a qualified technician."),
};

/**
 * hw_words_caution:
 * @which: 0 is the one that belongs on every card
 *
 * Returns: (transfer full) (nullable): a standing caution; %NULL past the last
 */
char *
hw_words_caution (int which)
{
  g_return_val_if_fail (which >= 0, NULL);

  return which < (int) G_N_ELEMENTS (cautions) ? g_strdup (_(cautions[which])) : NULL;
}

/* ---- six checks before the first stitch ---- */

static const char * const lockstitch_checks[6] = {
  NULL,
  N_("Thread with the foot up"),
  N_("Bobbin the right way round"),
  N_("Foot, plate, stitch agree"),
  N_("One turn by hand"),
  N_("Hold both thread tails"),
};

static const char * const overlock_checks[6] = {
  NULL,
  N_("Thread in the manual’s order"),
  N_("Looper cover closed"),
  N_("Knife and stitch finger set for the stitch"),
  N_("One turn by hand"),
  N_("Hold all thread tails"),
};

static const char * const coverstitch_checks[6] = {
  NULL,
  N_("Thread in the manual’s order"),
  N_("Looper cover closed"),
  N_("Foot and stitch agree"),
  N_("One turn by hand"),
  N_("Hold all thread tails"),
};

/* Where this machine's manual has the flat of the shank. */
static const struct
{
  const char *flat;
  const char *check;
} flats[] = {
  { "back", N_("Needle fully up, flat side to the back") },
  { "front", N_("Needle fully up, flat side to the front") },
  { "left", N_("Needle fully up, flat side left") },
  { "right", N_("Needle fully up, flat side right") },
};

static char *
say_needle_check (const HwMachine *machine)
{
  for (gsize i = 0; i < G_N_ELEMENTS (flats); i++)
    if (g_strcmp0 (machine->needle_flat, flats[i].flat) == 0)
      return g_strdup (_(flats[i].check));
  if (machine->needle_flat == NULL || *machine->needle_flat == '\0')
    return g_strdup (_("Needle fully up, turned as the manual shows"));
  /* Translators: where the flat side goes, in the person's own words */
  return g_strdup_printf (_("Needle fully up, flat side: %s"), machine->needle_flat);
}

char *
hw_words_check (const HwMachine *machine, int which)
{
  g_return_val_if_fail (which >= 0 && which < 6, g_strdup (""));

  if (which == 0)
    return say_needle_check (machine);
  switch (machine->kind)
    {
    case HW_MACHINE_OVERLOCK:
      return g_strdup (_(overlock_checks[which]));
    case HW_MACHINE_COVERSTITCH:
      return g_strdup (_(coverstitch_checks[which]));
    case HW_MACHINE_LOCKSTITCH:
    case HW_N_MACHINE_KINDS:
    default:
      return g_strdup (_(lockstitch_checks[which]));
    }
}
