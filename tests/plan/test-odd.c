/* test-odd.c - four things further off than a dressmaker's usual work, against what a good teacher would accept
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A corset, a bag in faux leather and clear vinyl, underwear in stretch lace and an awning. The tables are common
 * practice, no source: written down with the projects, before the plan was looked at. Each operation and value is a
 * test of its own, as in test-far.c; the machine is the same one, not yet taught.
 */

#include "config.h"

#include "bands.h"

#define R(low, high) { low, high }
#define STRAIGHT     { 0, 0 }
#define NORMAL       { 0, 0 }
#define LIGHTER      { -2, 0 }

#define ROW(step, points, sizes, tex, lengths, feet, pressure, dial, lift) \
  { step, points, sizes, ABSENT, tex, tex, "301", lengths, STRAIGHT, feet, pressure, dial, ABSENT, lift }
#define SWING(step, points, sizes, tex, stitch, lengths, widths, feet, pressure, dial, lift) \
  { step, points, sizes, ABSENT, tex, tex, stitch, lengths, widths, feet, pressure, dial, ABSENT, lift }

/* ---- the corset: 310 g/m2 coutil behind brocade; what is strained is sewn short and in a strong thread ---- */

#define FIRM          "round universal sharp light-ball jeans topstitch"
#define STRAIGHT_FEET "all-purpose straight"
#define CORSET_ROW(step, shortest, longest, feet) \
  ROW (step, FIRM, R (80, 100), R (30, 48), R (shortest, longest), feet, NORMAL, R (2.5, 4), FALSE)

static const Row corset[] = {
  ROW ("1", FIRM, R (70, 90), R (20, 30), R (4, 6), STRAIGHT_FEET " walking", R (-1, 0), R (0, 2), FALSE),
  CORSET_ROW ("2", 2, 2.5, STRAIGHT_FEET),
  CORSET_ROW ("3", 2.5, 3.5, "zip edge"),
  CORSET_ROW ("4", 2, 2.5, STRAIGHT_FEET),
  ROW ("5", FIRM, R (70, 90), R (20, 30), R (4, 6), STRAIGHT_FEET " walking", R (-1, 0), R (0, 2), FALSE),
  CORSET_ROW ("6", 2.5, 3, "edge " STRAIGHT_FEET),
  CORSET_ROW ("7", 2.5, 3.5, "edge " STRAIGHT_FEET),
  ROW ("8", FIRM, R (75, 90), R (24, 30), R (2, 2.8), STRAIGHT_FEET " walking", R (-1, 0), R (3, 4.5), FALSE),
};

/* ---- the bag: 400 g/m2 faux leather on a knit, which keeps every hole and sticks; no cutting point, no short stitch,
 * no blade over 90 but where webbing wants it ---- */

#define COATED      "sharp round universal jeans topstitch"
#define STICKY_FEET "roller walking"
#define BAG_ROW(step, finest, coarsest, feet) \
  ROW (step, COATED, R (80, 90), R (finest, coarsest), R (3, 4), feet, R (-1, 0), R (2.5, 4.5), FALSE)

static const Row vinyl_bag[] = {
  BAG_ROW ("1", 27, 60, STICKY_FEET),
  ROW ("2", COATED, R (90, 110), R (45, 80), R (3, 4), STICKY_FEET " edge", R (-1, 0), R (2, 4.5), FALSE),
  BAG_ROW ("3", 27, 45, "zip concealed-zip"),
  BAG_ROW ("4", 27, 60, "zip edge"),
  BAG_ROW ("5", 27, 60, STICKY_FEET),
  BAG_ROW ("6", 27, 60, STICKY_FEET),
  BAG_ROW ("7", 27, 60, STICKY_FEET " edge all-purpose"),
  SWING ("8", COATED, R (90, 110), R (40, 80), "304-bar-tack", R (0.3, 0.6), R (2, 4), "all-purpose satin", LIGHTER,
         R (1.5, 3.5), FALSE),
  ROW ("9", "sharp round universal", R (60, 80), R (24, 30), R (2, 3), STRAIGHT_FEET " edge", R (-1, 1), R (3, 4.5),
       FALSE),
};

/* ---- the underwear: 95 g/m2 lace that stretches, over 45 g/m2 tricot that does not ---- */

#define LACE       "stretch light-ball medium-ball"
#define LACE_FEET  "all-purpose satin"
#define LACE_ROW(step, shortest, longest) \
  ROW (step, LACE, R (65, 80), R (18, 27), R (shortest, longest), STRAIGHT_FEET " edge", LIGHTER, R (2, 4), FALSE)
#define LACE_SWING(step, stitch, shortest, longest, narrowest, widest, dial_low, dial_high) \
  SWING (step, LACE, R (65, 80), R (18, 27), stitch, R (shortest, longest), R (narrowest, widest), LACE_FEET, \
         LIGHTER, R (dial_low, dial_high), FALSE)
#define LACE_EDGE(step, feed_low, feed_high) \
  { step, LACE, { 65, 80 }, ABSENT, { 18, 27 }, { 12, 27 }, "504", { 2, 3 }, { 3.5, 6 }, "overlock", LIGHTER, \
    { 2.5, 4 }, { feed_low, feed_high }, FALSE }

static const Row lace_set[] = {
  LACE_SWING ("1", "304", 4, 6, 1, 4, 0, 2),
  LACE_ROW ("2", 2, 2.5),
  LACE_ROW ("3", 2, 2.8),
  LACE_SWING ("4", "304", 2, 3, 0.5, 2, 2.5, 4),
  LACE_SWING ("5", "304", 2, 3, 0.5, 2, 2, 4),
  LACE_ROW ("6", 2, 3),
  LACE_SWING ("7", "304", 2, 3, 3, 5, 2, 3.5),
  LACE_SWING ("8", "308", 1, 2, 4, 6, 2.5, 3.5),
  LACE_SWING ("9", "304-bar-tack", 0.3, 0.5, 2, 3, 1.5, 3),
  LACE_EDGE ("10", 1, 1.4),
  LACE_EDGE ("11", 1, 1.5),
  LACE_SWING ("12", "308", 1, 2, 4, 6, 2.5, 4),
};

/* ---- the awning: 460 g/m2 canvas, as much as a home machine sews, and at its crossings more ---- */

#define CANVAS "jeans topstitch round universal"
#define CANVAS_ROW(step, shortest, longest, feet, dial_low, lift) \
  ROW (step, CANVAS, R (100, 110), R (55, 80), R (shortest, longest), feet, R (-1, 0), R (dial_low, 4), lift)

static const Row awning[] = {
  CANVAS_ROW ("1a", 3, 4, STRAIGHT_FEET, 3, FALSE),
  CANVAS_ROW ("1b", 3, 4.5, "edge all-purpose", 2, FALSE),
  CANVAS_ROW ("2", 3, 4.5, "edge all-purpose", 2, TRUE),
  CANVAS_ROW ("3", 3, 4.5, "edge all-purpose", 2, TRUE),
  CANVAS_ROW ("4", 3, 4.5, "edge all-purpose", 1.5, FALSE),
  SWING ("5", CANVAS, R (100, 110), R (40, 80), "304-bar-tack", R (0.3, 0.6), R (2, 4), "all-purpose satin", LIGHTER,
         R (1, 3), FALSE),
  CANVAS_ROW ("6", 2.5, 4, "edge all-purpose", 2.5, FALSE),
};

static const Garment garments[] = {
  { "far/corset", corset, G_N_ELEMENTS (corset) },
  { "far/vinyl-bag", vinyl_bag, G_N_ELEMENTS (vinyl_bag) },
  { "far/lace-set", lace_set, G_N_ELEMENTS (lace_set) },
  { "far/awning", awning, G_N_ELEMENTS (awning) },
};

enum { CORSET, BAG, LACE_SET, AWNING };

/* ---- lines to follow and ends to secure ---- */

static const struct { gsize garment; const char *number; Range mm; } allowances[] = {
  { CORSET, "1", { 10, 16 } },
  { CORSET, "4", { 10, 20 } },
  { CORSET, "8", { 5, 10 } },
  { BAG, "3", { 5, 10 } },               /* near the teeth, not on the seam line */
  { BAG, "6", { 10, 16 } },
  { BAG, "7", { 1, 3 } },                /* along the fold of the binding */
  { LACE_SET, "2", { 5, 8 } },            /* wider would show through */
  { LACE_SET, "10", { 4, 6 } },          /* what the knife leaves: as wide as it cuts */
  { AWNING, "1a", { 12, 20 } },
  { AWNING, "6", { 1, 3 } },
};

static void
test_allowances (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (allowances); i++)
    {
      double mm = bands_number (allowances[i].garment, allowances[i].number, HW_FIELD_ALLOWANCE);

      if (mm < allowances[i].mm.low || mm > allowances[i].mm.high)
        {
          g_test_message ("%s %s: %g mm, accepted %g to %g", garments[allowances[i].garment].name, allowances[i].number,
                          mm, allowances[i].mm.low, allowances[i].mm.high);
          g_test_fail ();
        }
    }
}

#define TIED (1u << HW_ENDS_TAILS | 1u << HW_ENDS_KNOT)
#define SEWN_BACK (1u << HW_ENDS_BACK_TACK | 1u << HW_ENDS_LOCK)

static const struct { gsize garment; const char *number; guint accepted; } ends[] = {
  { CORSET, "1", 1u << HW_ENDS_NONE },
  { CORSET, "4", SEWN_BACK },
  { CORSET, "6", SEWN_BACK | 1u << HW_ENDS_TAILS },
  { BAG, "1", TIED },                    /* a back-tack perforates */
  { BAG, "3", TIED },
  { BAG, "6", TIED },
  { LACE_SET, "2", SEWN_BACK },
  { LACE_SET, "10", 1u << HW_ENDS_CHAIN_OFF },
  { AWNING, "1a", SEWN_BACK },
  { AWNING, "4", SEWN_BACK },            /* it carries the awning */
};

static void
test_ends (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      int set = (int) bands_number (ends[i].garment, ends[i].number, HW_FIELD_ENDS);

      if ((ends[i].accepted & (1u << set)) == 0)
        {
          g_test_message ("%s %s: %s", garments[ends[i].garment].name, ends[i].number, hw_ends_ids[set]);
          g_test_fail ();
        }
    }
}

/* ---- across operations ---- */

static void
test_threads_are_the_projects (void)
{
  for (gsize g = 0; g < G_N_ELEMENTS (garments); g++)
    for (gsize i = 0; i < garments[g].n; i++)
      g_assert_nonnull (bands_setup (g, garments[g].rows[i].number)->needle_thread.thread);
}

/* Faux leather is cloth under its coating, and lace is cut by anything that cuts. */
static void
test_nothing_is_cut (void)
{
  for (gsize g = 0; g < G_N_ELEMENTS (garments); g++)
    for (gsize i = 0; i < garments[g].n; i++)
      g_assert_cmpint (bands_handbook->points[(int) bands_number (g, garments[g].rows[i].number, HW_FIELD_POINT)].form,
                       !=, HW_POINT_CUTTING);
}

/* The thread passes every needle, and no needle is warned of that a teacher would take. */
static void
test_needles_are_not_warned_of (void)
{
  for (gsize g = 0; g < G_N_ELEMENTS (garments); g++)
    for (gsize i = 0; i < garments[g].n; i++)
      {
        const HwSetup *setup = bands_setup (g, garments[g].rows[i].number);

        for (guint w = 0; w < setup->warnings->len; w++)
          {
            const HwWarning *warning = &g_array_index (setup->warnings, HwWarning, w);

            if (warning->field != HW_FIELD_SIZE)
              continue;
            g_test_message ("%s %s: warning %d", garments[g].name, garments[g].rows[i].number, warning->code);
            g_test_fail ();
          }
      }
}

static void
test_order_of_dials (void)
{
  g_assert_cmpfloat (bands_number (CORSET, "1", HW_FIELD_DIAL), <, bands_number (CORSET, "4", HW_FIELD_DIAL));
  g_assert_cmpfloat (bands_number (BAG, "2", HW_FIELD_DIAL), <, bands_number (BAG, "9", HW_FIELD_DIAL));
  g_assert_cmpfloat (bands_number (AWNING, "3", HW_FIELD_DIAL), <, bands_number (AWNING, "1a", HW_FIELD_DIAL));
}

static const AcrossTest across[] = {
  { "/odd/across/allowances", test_allowances },
  { "/odd/across/ends", test_ends },
  { "/odd/across/threads-are-the-projects", test_threads_are_the_projects },
  { "/odd/across/nothing-is-cut", test_nothing_is_cut },
  { "/odd/across/needles-are-not-warned-of", test_needles_are_not_warned_of },
  { "/odd/across/order-of-dials", test_order_of_dials },
};

int
main (int argc, char **argv)
{
  return bands_run (argc, argv, "odd", garments, G_N_ELEMENTS (garments), across, G_N_ELEMENTS (across));
}
