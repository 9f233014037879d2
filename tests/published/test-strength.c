/* test-strength.c - published figures: thread diameter, strength, stitches in a length
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "published.h"
#include "trade/thread.h"
#include "trade/time.h"
#include "trade/units.h"

#include <math.h>

#define SPI      "E external: American & Efird Technical Bulletin, Stitches per inch"
#define SPI_P    "P external: American & Efird Technical Bulletin, Stitches per inch (printed rounded)"
#define TENACITY "E: from strengths in American & Efird Technical Bulletin, Stitches per inch"
#define CHART    "P: American & Efird thread size chart, from memory"
#define ARITHMETIC "E: arithmetic"

/* Strength of a seam in lbf per inch, as the bulletin prints it, from a thread in lbf. */
static double
get_lbf_per_inch (double spi, double thread_lbf, double loop_factor)
{
  double n_cm = hw_seam_strength_n_cm (hw_length_from_spi (spi), thread_lbf * HW_CN_PER_LBF, loop_factor);

  return n_cm * HW_MM_PER_INCH / 10 * 100 / HW_CN_PER_LBF;
}

static double
get_yards_per_minute (double spm, double spi)
{
  return 1 / hw_running_minutes (hw_stitch_count (HW_MM_PER_YARD, hw_length_from_spi (spi)), spm, 1);
}

/* A rule of the textbooks for cotton yarn: the square root of the yards in a pound, less a tenth, goes into an inch. */
static double
get_cotton_rule_mm (double tex)
{
  return HW_MM_PER_INCH / (0.9 * sqrt (840 * hw_ne_from_tex (tex)));
}

int
main (int argc, char **argv)
{
  const PublishedRow rows[] = {
    { "/published/D1/tex-27-model", "M regression: polyester packed to 0.6", hw_thread_diameter_mm (27, 1.39, 0.6),
      NEAR (0.203, 0.001) },
    { "/published/D2/unit-density", "E: geometry", hw_thread_diameter_mm (100, 1, 1), NEAR (0.3568, 1e-4) },
    { "/published/D2/tex-27", CHART, hw_thread_diameter_mm (27, 1.39, 0.6), NEAR (0.20, 0.016) },
    { "/published/D2/tex-40", CHART, hw_thread_diameter_mm (40, 1.39, 0.6), NEAR (0.25, 0.02) },
    { "/published/D2/tex-60", CHART, hw_thread_diameter_mm (60, 1.39, 0.6), NEAR (0.30, 0.024) },
    { "/published/D2/tex-135", CHART, hw_thread_diameter_mm (135, 1.39, 0.6), NEAR (0.42, 0.034) },
    { "/published/D2/cotton-27-by-rule", "P: yarn-diameter rule of the weaving textbooks, repeated on Q&A pages",
      hw_thread_diameter_mm (27, 1.52, 0.6) / get_cotton_rule_mm (27), NEAR (1, 0.08) },
    { "/published/D5/301-10-spi-4-lb", SPI, get_lbf_per_inch (10, 4.0, 1.5), NEAR (60, 0) },
    { "/published/D6/401-10-spi-4-lb", SPI, get_lbf_per_inch (10, 4.0, 1.7), NEAR (68, 0) },
    { "/published/D6/401-5-spi-35-lb", "P external: jsrz.com, industrial sewing thread strength (printed 297)",
      get_lbf_per_inch (5, 35, 1.7), NEAR (297, 0.5) },
    { "/published/D7/tex-24-6-spi", SPI, get_lbf_per_inch (6, 2.6, 1.5), NEAR (23.4, 0.05) },
    { "/published/D7/tex-24-8-spi", SPI, get_lbf_per_inch (8, 2.6, 1.5), NEAR (31.2, 0.05) },
    { "/published/D7/tex-24-10-spi", SPI, get_lbf_per_inch (10, 2.6, 1.5), NEAR (39, 0.05) },
    { "/published/D7/tex-24-12-spi", SPI, get_lbf_per_inch (12, 2.6, 1.5), NEAR (46.8, 0.05) },
    { "/published/D7/tex-27-6-spi", SPI_P, get_lbf_per_inch (6, 2.2, 1.5), NEAR (20, 0.5) },
    { "/published/D7/tex-27-8-spi", SPI_P, get_lbf_per_inch (8, 2.2, 1.5), NEAR (26, 0.5) },
    { "/published/D7/tex-27-10-spi", SPI_P, get_lbf_per_inch (10, 2.2, 1.5), NEAR (33, 0.5) },
    { "/published/D7/tex-27-12-spi", SPI_P, get_lbf_per_inch (12, 2.2, 1.5), NEAR (40, 0.5) },
    { "/published/D10/tex-24-10-spi-si", "E: conversion of D7",
      hw_seam_strength_n_cm (hw_length_from_spi (10), 2.6 * HW_CN_PER_LBF, 1.5), NEAR (68.3, 0.1) },
    { "/published/D12/tex-24", TENACITY, hw_tenacity_cn_tex (2.6 * HW_CN_PER_LBF, 24), NEAR (48.2, 0.1) },
    { "/published/D12/tex-27", TENACITY, hw_tenacity_cn_tex (2.2 * HW_CN_PER_LBF, 27), NEAR (36.2, 0.1) },
    { "/published/D12/bonded-nylon-210", "E: from a strength at jsrz.com, industrial sewing thread strength",
      hw_tenacity_cn_tex (35 * HW_CN_PER_LBF, 210), NEAR (74, 0.2) },
    { "/published/D13/core-24-plausible", "R: Wikipedia (German), Naehgarn: synthetics 30 to 75 cN/tex",
      hw_tenacity_cn_tex (2.6 * HW_CN_PER_LBF, 24), WITHIN (30, 75) },
    { "/published/D13/spun-27-plausible", "R: Wikipedia (German), Naehgarn: synthetics 30 to 75 cN/tex",
      hw_tenacity_cn_tex (2.2 * HW_CN_PER_LBF, 27), WITHIN (30, 75) },
    { "/published/D15/proportional", "E: American & Efird Technical Bulletin, Stitches per inch",
      get_lbf_per_inch (12, 2.6, 1.5) / get_lbf_per_inch (6, 2.6, 1.5), NEAR (2, 0) },

    { "/published/E1/2.5-mm", "E external: veneaistudio.com, stitch length", hw_spi_from_length (2.5),
      NEAR (10.16, 0.005) },
    { "/published/E2/2-mm", "P: veneaistudio.com, stitch length (\"about 13\")", hw_spi_from_length (2.0),
      NEAR (12.7, 0.05) },
    { "/published/E4/7-per-cm", "P: Coats bulletin, from memory (18)",
      hw_spi_from_length (10.0 / 7), NEAR (18, 0.3) },
    { "/published/E5/metre-at-2.5-mm", ARITHMETIC, hw_stitch_count (1000, 2.5), NEAR (400, 0) },
    { "/published/E6/yard-at-12-spi", ARITHMETIC, hw_stitch_count (36 * HW_MM_PER_INCH, hw_length_from_spi (12)),
      NEAR (432, 0) },
    { "/published/E7/5000-at-8-spi", SPI_P, get_yards_per_minute (5000, 8), NEAR (17.4, 0.05) },
    { "/published/E7/5000-at-14-spi", SPI_P, get_yards_per_minute (5000, 14), NEAR (9.9, 0.05) },
    { "/published/E9/200-cm-in-12-s", "E external: Online Clothing Study 2012, machine rpm (4000 a minute)",
      hw_running_minutes (hw_stitch_count (2000, 2.5), 4000, 1) * 60, NEAR (12, 0) },
    { "/published/E10/hour-at-1000", "E external: prettysimplesara.com, when to change a needle (60 000)",
      hw_running_minutes (60000, 1000, 1), NEAR (60, 0) },

    { "/published/I1/400-tmu", "E external: Online Clothing Study 2011, calculate SAM", hw_minutes_from_tmu (400),
      NEAR (0.24, 0) },
    { "/published/I2/1667-tmu", "P external: predetermined-motion-time bulletin on sewing formulae",
      hw_minutes_from_tmu (1667), NEAR (1.000, 0.001) },
    { "/published/I4/0.85-at-90-percent", "E external: costnest.com, SAM example", hw_standard_minutes (0.85, 0.90, 0),
      NEAR (0.765, 0.0005) },
    { "/published/I4/with-12-percent", "E external: costnest.com, SAM example", hw_standard_minutes (0.85, 0.90, 0.12),
      NEAR (0.857, 0.0005) },
    { "/published/I4/20-at-80-percent", "E external: dineshexports.com, SAM explanation",
      hw_standard_minutes (20, 0.80, 0.10), NEAR (17.6, 0) },
  };

  g_test_init (&argc, &argv, NULL);
  published_add_rows (rows, G_N_ELEMENTS (rows));
  return g_test_run ();
}
