/* test-thread-sizes.c - published figures: linear density, tickets, cloth weights
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "published.h"
#include "trade/units.h"

#define GRAM_PER_GRAIN (HW_GRAM_PER_POUND / 7000.0)

#define TICKETS  "E external: Online Clothing Study 2013, Tex and Tkt"
#define NUMBERS  "E external: garmentsmerchandising.com, ticket number tables"
#define TABLE    "E external: The Enumerator, ticket number table"
#define BULLETIN "E external: Coats Bulletin 05, Thread Numbering"
#define FORMULA  "E: formulas of Coats Bulletin 05, Thread Numbering"
#define COTTON   "E external: Cotton Manufacturing (19th century), chapter on wrapping and counts"
#define LINEAR   "E external: Tayyon Thread, linear density conversion formulas"
#define MOMME    "P external: silk merchants' momme tables, several agree"

static double
get_ticket (double nm, int plies)
{
  return hw_ticket_from_tex (hw_tex_from_nm (hw_resultant_nm (nm, plies)));
}

/* English counts ply like metric ones: both are length per mass. */
static double
get_cotton_ticket (double ne, int plies)
{
  return hw_cotton_ticket_from_tex (hw_tex_from_ne (hw_resultant_nm (ne, plies)));
}

static double
get_tex_of_sample (double yards, double grams)
{
  return grams / (yards * HW_MM_PER_YARD * 1e-6);
}

static double
get_round_trip (double tex)
{
  double ne = hw_ne_from_tex (hw_tex_from_nm (hw_nm_from_tex (tex)));

  return hw_tex_from_ticket (hw_ticket_from_tex (hw_tex_from_denier (hw_denier_from_tex (hw_tex_from_ne (ne)))));
}

int
main (int argc, char **argv)
{
  const PublishedRow rows[] = {
    { "/published/A1/tex-40-ticket", TICKETS, hw_ticket_from_tex (40), NEAR (75, 0) },
    { "/published/A2/nm-80-2-resultant", TICKETS, hw_resultant_nm (80, 2), NEAR (40, 0) },
    { "/published/A2/nm-80-2-ticket", NUMBERS, get_ticket (80, 2), NEAR (120, 0) },
    { "/published/A2/nm-80-2-tex", TICKETS, hw_tex_from_nm (hw_resultant_nm (80, 2)), NEAR (25, 0) },
    { "/published/A3/nm-120-3-resultant", "E external: Wikipedia (German), Naehgarn: No. 120 = Nm 120/3 = Nm 80/2",
      hw_resultant_nm (120, 3), NEAR (40, 0) },
    { "/published/A3/nm-120-3-ticket", "E external: Wikipedia (German), Naehgarn: No. 120 = Nm 120/3 = Nm 80/2",
      get_ticket (120, 3), NEAR (120, 0) },
    { "/published/A4/nm-80-4-ticket", TABLE, get_ticket (80, 4), NEAR (60, 0) },
    { "/published/A4/nm-60-1-ticket", TABLE, get_ticket (60, 1), NEAR (180, 0) },
    { "/published/A4/nm-60-2-ticket", TABLE, get_ticket (60, 2), NEAR (90, 0) },
    { "/published/A4/nm-60-4-ticket", NUMBERS, get_ticket (60, 4), NEAR (45, 0) },
    { "/published/A5/ne-40-2-cotton-ticket", NUMBERS, get_cotton_ticket (40, 2), NEAR (60, 0) },
    { "/published/A5/ne-40-3-cotton-ticket", NUMBERS, get_cotton_ticket (40, 3), NEAR (40, 0) },
    { "/published/A5/ne-40-4-cotton-ticket", NUMBERS, get_cotton_ticket (40, 4), NEAR (30, 0) },
    { "/published/A5/ne-60-2-cotton-ticket", NUMBERS, get_cotton_ticket (60, 2), NEAR (90, 0) },
    { "/published/A5/ne-60-3-cotton-ticket", NUMBERS, get_cotton_ticket (60, 3), NEAR (60, 0) },
    { "/published/A5/ne-60-4-cotton-ticket", NUMBERS, get_cotton_ticket (60, 4), NEAR (45, 0) },
    { "/published/A7/tex-30-denier", FORMULA, hw_denier_from_tex (30), NEAR (270, 0) },
    { "/published/A7/tex-30-dtex", FORMULA, hw_dtex_from_tex (30), NEAR (300, 0) },
    { "/published/A7/tex-30-nm", FORMULA, hw_nm_from_tex (30), NEAR (33.33, 0.01) },
    { "/published/A7/tex-30-ne", FORMULA, hw_ne_from_tex (30), NEAR (19.68, 0.01) },
    { "/published/A8/tex-27-nm", FORMULA, hw_nm_from_tex (27), NEAR (37.04, 0.05) },
    { "/published/A8/tex-27-ne", FORMULA, hw_ne_from_tex (27), NEAR (21.87, 0.05) },
    { "/published/A8/tex-27-ticket", FORMULA, hw_ticket_from_tex (27), NEAR (111.1, 0.05) },
    { "/published/A8/tex-27-cotton-ticket", FORMULA, hw_cotton_ticket_from_tex (27), NEAR (65.6, 0.05) },
    /* The trade calls the same thread 240 denier, which would be tex 26.7: not exact, so not asserted. */
    { "/published/A10/40-wt-tex", "E: Schmetz, Sewing machine thread sizing guide (definition of weight)",
      hw_tex_from_wt (40), NEAR (25, 0) },
    { "/published/A10/40-wt-denier", "E: Schmetz, Sewing machine thread sizing guide (definition of weight)",
      hw_denier_from_tex (hw_tex_from_wt (40)), NEAR (225, 0) },
    { "/published/A11/nm-1-denier", LINEAR, hw_denier_from_tex (hw_tex_from_nm (1)), NEAR (9000, 0) },
    { "/published/A11/ne-1-denier", LINEAR, hw_denier_from_tex (hw_tex_from_ne (1)), NEAR (5315, 0.5) },
    /* A French count of 1 is one kilometre in 500 g. */
    { "/published/A13/french-1-ne", COTTON, hw_ne_from_tex (500), NEAR (1.181, 0.001) },
    { "/published/A13/ne-20-french", COTTON, 500 / hw_tex_from_ne (20), NEAR (16.93, 0.005) },
    { "/published/A16/120-yd-25-grains-ne", COTTON, hw_ne_from_tex (get_tex_of_sample (120, 25 * GRAM_PER_GRAIN)),
      NEAR (40, 0) },
    { "/published/A16/840-yd-100-grains-ne", COTTON, hw_ne_from_tex (get_tex_of_sample (840, 100 * GRAM_PER_GRAIN)),
      NEAR (70, 0) },
    { "/published/A16/9240-yd-quarter-pound-ne", COTTON,
      hw_ne_from_tex (get_tex_of_sample (9240, HW_GRAM_PER_POUND / 4)), NEAR (44, 0) },
    { "/published/A18/metres-per-gram-of-ne-1", "E external: textilecalculation.blogspot.com 2014, length of a cone",
      hw_nm_from_tex (hw_tex_from_ne (1)), NEAR (1.6933, 0.0001) },
    { "/published/A19/1000-m-of-tex-40", BULLETIN, 1000 / hw_nm_from_tex (40), NEAR (40, 0) },
    { "/published/A20/pound-of-ne-5-yards", BULLETIN,
      HW_GRAM_PER_POUND * hw_nm_from_tex (hw_tex_from_ne (5)) * 1000 / HW_MM_PER_YARD, NEAR (4200, 0) },
    { "/published/A21/round-trip-18", "E: property", get_round_trip (18), NEAR (18, 0) },
    { "/published/A21/round-trip-27", "E: property", get_round_trip (27), NEAR (27, 0) },
    { "/published/A21/round-trip-40", "E: property", get_round_trip (40), NEAR (40, 0) },
    { "/published/A21/round-trip-105", "E: property", get_round_trip (105), NEAR (105, 0) },
    { "/published/A22/ticket-60-over-120", TICKETS, hw_tex_from_ticket (60) / hw_tex_from_ticket (120), NEAR (2, 0) },

    { "/published/B1/ounce-per-square-yard", "E external: aaenterprises.in fabric GSM chart; smfabric 2023",
      hw_gsm_from_oz_yd2 (1), NEAR (33.906, 0.001) },
    { "/published/B2/180-gsm-in-ounces", "P external: aaenterprises.in fabric GSM chart", hw_oz_yd2_from_gsm (180),
      NEAR (5.3, 0.05) },
    { "/published/B4/momme", "E external: silk merchants' momme tables, several agree", hw_gsm_from_momme (1),
      NEAR (4.340, 0.001) },
    { "/published/B5/16-momme", MOMME, hw_gsm_from_momme (16), NEAR (69, 0.6) },
    { "/published/B5/19-momme", MOMME, hw_gsm_from_momme (19), NEAR (82, 0.6) },
    { "/published/B5/22-momme", MOMME, hw_gsm_from_momme (22), NEAR (95, 0.6) },
    { "/published/B5/25-momme", MOMME, hw_gsm_from_momme (25), NEAR (108, 0.6) },
    { "/published/B6/8-momme-is-an-ounce", MOMME, hw_gsm_from_momme (8) / hw_gsm_from_oz_yd2 (1), NEAR (1, 0.03) },
    { "/published/B8/leather-ounce", "E: definition, 1/64 inch", hw_mm_from_leather_oz (1), NEAR (0.3969, 1e-4) },
  };

  g_test_init (&argc, &argv, NULL);
  published_add_rows (rows, G_N_ELEMENTS (rows));
  return g_test_run ();
}
