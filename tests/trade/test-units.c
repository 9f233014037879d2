/* test-units.c - conversions between the trade's units
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Worked by hand from the definitions (ISO 1144 for tex; inch, yard and pound by the 1959 agreement). Figures that
 * stand in outside documents are in tests/published.
 */

#include "config.h"

#include "trade/units.h"

#include <math.h>

typedef struct
{
  const char *path;
  double    (*convert) (double);
  double      value;
  double      expected;
} Case;

static const Case cases[] = {
  { "/units/tex-to-dtex", hw_dtex_from_tex, 40, 400 },
  { "/units/dtex-to-tex", hw_tex_from_dtex, 400, 40 },
  { "/units/tex-to-denier", hw_denier_from_tex, 40, 360 },
  { "/units/denier-to-tex", hw_tex_from_denier, 360, 40 },
  { "/units/tex-to-nm", hw_nm_from_tex, 40, 25 },
  { "/units/nm-to-tex", hw_tex_from_nm, 25, 40 },
  { "/units/tex-to-ne", hw_ne_from_tex, 40, 590.5412475 / 40 },
  { "/units/ne-to-tex", hw_tex_from_ne, 20, 590.5412475 / 20 },
  { "/units/tex-to-ticket", hw_ticket_from_tex, 40, 75 },
  { "/units/ticket-to-tex", hw_tex_from_ticket, 75, 40 },
  { "/units/tex-to-cotton-ticket", hw_cotton_ticket_from_tex, 40, 44.2905936 },
  { "/units/wt-to-tex", hw_tex_from_wt, 40, 25 },
  { "/units/ounces-to-grams", hw_gsm_from_oz_yd2, 12, 406.8689 },
  { "/units/grams-to-ounces", hw_oz_yd2_from_gsm, 406.8689, 12 },
  { "/units/momme-to-grams", hw_gsm_from_momme, 16, 69.43897 },
  { "/units/leather-ounces", hw_mm_from_leather_oz, 2.5, 0.9921875 },
  { "/units/length-to-spi", hw_spi_from_length, 2.54, 10 },
  { "/units/spi-to-length", hw_length_from_spi, 10, 2.54 },
  { "/units/stitches-per-cm", hw_stitches_per_cm, 2.5, 4 },
};

static void
test_convert (gconstpointer data)
{
  const Case *wanted = data;

  g_assert_cmpfloat_with_epsilon (wanted->convert (wanted->value), wanted->expected, 1e-6 * wanted->expected);
}

/* Indirect counts of nothing, of less than nothing, or of no number have no answer. */
static void
test_refuses (void)
{
  static double (* const counts[]) (double) = {
    hw_nm_from_tex, hw_tex_from_nm, hw_ne_from_tex, hw_tex_from_ne, hw_ticket_from_tex, hw_tex_from_ticket,
    hw_cotton_ticket_from_tex, hw_tex_from_wt, hw_spi_from_length, hw_length_from_spi, hw_stitches_per_cm,
  };
  static const double senseless[] = { 0, -1, -INFINITY, INFINITY, NAN };

  for (gsize i = 0; i < G_N_ELEMENTS (counts); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (senseless); j++)
      g_assert_true (isnan (counts[i] (senseless[j])));
  g_assert_true (isnan (hw_resultant_nm (80, 0)));
}

static void
test_plies (void)
{
  g_assert_cmpfloat (hw_resultant_nm (80, 2), ==, 40);
  g_assert_cmpfloat (hw_resultant_nm (120, 3), ==, 40);
  g_assert_cmpfloat (hw_resultant_nm (60, 1), ==, 60);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_test_add_data_func (cases[i].path, &cases[i], test_convert);
  g_test_add_func ("/units/refuses", test_refuses);
  g_test_add_func ("/units/plies", test_plies);
  return g_test_run ();
}
