/* test-needles.c - published figures: needle sizes and thread room
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "published.h"
#include "trade/needle.h"
#include "trade/thread.h"
#include "trade/time.h"

#define RULE "E external: apparelscience.com, Needle number system (Nm = 60 + 5 (US - 8))"

/* 350 x diameter there, diameter / 0.28 here: the eye's 1.4 and the groove's 0.40 make 0.286, rounded down. */
#define MODEL "M regression: own model, thread 28 % of the blade"

static double
get_suggested_nm (double tex)
{
  return hw_needle_suggested_nm (hw_thread_diameter_mm (tex, 1.39, 0.6), 1);
}

int
main (int argc, char **argv)
{
  const PublishedRow rows[] = {
    { "/published/C1/blade-110", "E external: apparelscience.com, Needle number system", hw_needle_blade_mm (110),
      NEAR (1.10, 0) },
    { "/published/C1/blade-50", "E external: apparelscience.com, Needle number system", hw_needle_blade_mm (50),
      NEAR (0.50, 0) },
    { "/published/C2/blade-75", "E external: Schmetz, household needle anatomy (DIN 5325, 1953)",
      hw_needle_blade_mm (75), NEAR (0.75, 0) },
    { "/published/C3/us-12", RULE, hw_nm_from_us (12), NEAR (80, 0) },
    { "/published/C4/us-8", RULE, hw_nm_from_us (8), NEAR (60, 0) },
    { "/published/C4/us-9", RULE, hw_nm_from_us (9), NEAR (65, 0) },
    { "/published/C4/us-10", RULE, hw_nm_from_us (10), NEAR (70, 0) },
    { "/published/C4/us-11", RULE, hw_nm_from_us (11), NEAR (75, 0) },
    { "/published/C4/us-14", RULE, hw_nm_from_us (14), NEAR (90, 0) },
    { "/published/C4/us-16", RULE, hw_nm_from_us (16), NEAR (100, 0) },
    { "/published/C4/us-18", RULE, hw_nm_from_us (18), NEAR (110, 0) },
    /* The rule would say 115, which is not sold. */
    { "/published/C5/us-19", "P external: UK Sewing Services, sewing guide", hw_nm_from_us (19), NEAR (120, 0) },
    { "/published/C7/groove-100", "E external: Klasse Needles, Choosing the right needle (groove 40 % of the blade)",
      HW_NEEDLE_THREAD_SHARE_LIMIT * hw_needle_blade_mm (100), NEAR (0.40, 0) },
    { "/published/C8/thickest-thread-80", "E: Schmetz Needle Dictionary, long groove (thread at most 40 %)",
      hw_needle_smallest_nm (0.32, 1), NEAR (80, 0) },
    /* The groove of the needle chosen for a 0.20 mm thread has room for 0.28 mm. */
    { "/published/C9/eye-for-0.20-mm", "E: Schmetz, Sewing machine thread sizing guide (eye 40 % over the thread)",
      HW_NEEDLE_THREAD_SHARE_LIMIT * hw_needle_suggested_nm (0.20, 1) / 100, WITHIN (0.28, 0.29) },
    { "/published/C10/tex-25", "P external: Schmetz, Sewing machine thread sizing guide (75; one size less passes)",
      get_suggested_nm (25), WITHIN (67.5, 77.5) },
    { "/published/C29/tex-18", MODEL, get_suggested_nm (18), NEAR (58, 2) },
    { "/published/C29/tex-27", MODEL, get_suggested_nm (27), NEAR (71, 2) },
    { "/published/C29/tex-30", MODEL, get_suggested_nm (30), NEAR (75, 2) },
    { "/published/C29/tex-40", MODEL, get_suggested_nm (40), NEAR (86, 3) },
    { "/published/C29/tex-60", MODEL, get_suggested_nm (60), NEAR (106, 3) },
    { "/published/C29/tex-80", MODEL, get_suggested_nm (80), NEAR (122, 3) },
    { "/published/C30/twin-4-on-7-mm", "M regression: own model, half a millimetre clear on each side",
      hw_twin_allowed_width_mm (4, 7), NEAR (2, 0) },
    { "/published/C30/twin-2-on-5-mm", "C regression: at most 3 mm beside a 2 mm twin on a 5 mm machine, no source",
      hw_twin_allowed_width_mm (2, 5), WITHIN (0, 3) },
    { "/published/C31/penetrations-in-6-h", "E external: prettysimplesara.com, when to change a needle",
      hw_running_minutes (360000, 1000, 1) / 60, NEAR (6, 0) },
  };

  g_test_init (&argc, &argv, NULL);
  published_add_rows (rows, G_N_ELEMENTS (rows));
  return g_test_run ();
}
