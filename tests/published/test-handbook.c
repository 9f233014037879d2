/* test-handbook.c - published figures that the shipped handbook answers
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Set-ups of two plies in a plain seam on a household machine, and what the tables say of themselves. Figures for
 * factory work that a home machine is not sewn by are left out: 14 to 20 stitches to the inch in dress shirts, 3 to 5
 * of the blind-stitch machine, needles of 110 to 140 in heavy denim.
 */

#include "config.h"

#include "published.h"
#include "plan/pairing.h"
#include "trade/units.h"
#include "workroom.h"

#include <math.h>

#define SHEET     "R external: Needles for stitching textiles, a needle-maker's sheet reproduced by Texpedia, 2013"
#define MANUALS   "R external: Siruba household manual, p. 17, and Janome 415 manual, p. 6 (US 11 to 14)"
#define TEACHING  "P external: easysewingtechniques.blogspot.com, needles by fabric (one size passes)"
#define LENGTHS   "R external: American & Efird Technical Bulletin, Stitches per inch"
#define TEACHING_R "R external: teaching tables of stitch lengths, three that agree"
#define RATIOS    "P external: Estimation of thread consumption of a garment, quoting a Coats table"
#define DENSITIES "P external: Physical Properties of Textile Fibres, table 5.1 (65 % relative humidity)"
#define CLASSES   "E external: ISO 4915 in a national edition (GB 4515-84)"
#define SEAMS     "E external: BS 3870-2:1991 = ISO 4916:1991, as quoted in Essential garment construction"

/* ---- set-ups ---- */

typedef struct
{
  HwHandbook *handbook;
  HwRoom     *room;
} Shop;

/* One operation in one fabric; @rest: its attributes but for number, name and length. */
static double
ask_setup (const Shop *shop, const char *fabric, int plies, const char *rest, HwField field)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *xml = g_strdup_printf ("<fabrics><fabric id='cloth' handbook='%s'/></fabrics><threads/><steps>"
                                          "<operation number='1' name='Step' length-cm='50' %s>"
                                          "<ply fabric='cloth' count='%d'/></operation></steps>", fabric, rest, plies);
  g_autoptr (HwProject) project = workroom_parse (xml);
  g_autoptr (GArray) cloths = hw_cloths_resolve (shop->handbook, project, &error);
  g_autoptr (HwSetup) setup = NULL;

  g_assert_no_error (error);
  setup = hw_pair (shop->handbook, project, cloths, shop->room, hw_project_get_step (project, 0), &error);
  g_assert_no_error (error);
  g_assert_true (setup->values[field].applies);
  return setup->values[field].value;
}

static double
ask_size (const Shop *shop, const char *fabric)
{
  return ask_setup (shop, fabric, 2, "purpose='seam'", HW_FIELD_SIZE);
}

static HwPointForm
ask_form (const Shop *shop, const char *fabric)
{
  return shop->handbook->points[(gsize) ask_setup (shop, fabric, 2, "purpose='seam'", HW_FIELD_POINT)].form;
}

static double
ask_spi (const Shop *shop, const char *fabric, const char *rest)
{
  return hw_spi_from_length (ask_setup (shop, fabric, 2, rest, HW_FIELD_LENGTH));
}

/* ---- tables ---- */

static const HwStitch *
find_stitch (const Shop *shop, const char *id)
{
  int index = hw_handbook_find_stitch (shop->handbook, id);

  g_assert_cmpint (index, >=, 0);
  return &shop->handbook->stitches[index];
}

static double
get_ratio (const Shop *shop, const char *id)
{
  g_assert_cmpint (find_stitch (shop, id)->shape, ==, HW_THREAD_USE_RATIO);
  return find_stitch (shop, id)->ratio;
}

static double
count_threads (const Shop *shop, const char *id)
{
  const HwStitch *stitch = find_stitch (shop, id);

  return stitch->needles + stitch->loopers + (stitch->bobbin ? 1 : 0);
}

static double
get_class (const Shop *shop, const char *id)
{
  return floor (g_ascii_strtod (find_stitch (shop, id)->iso, NULL) / 100) * 100;
}

static double
get_seam_class (const Shop *shop, const char *id)
{
  int index = hw_handbook_find_seam (shop->handbook, id);

  g_assert_cmpint (index, >=, 0);
  return shop->handbook->seams[index].iso_class;
}

/* Threads of one fibre have one density: the first that has it answers, the others must agree. */
static double
get_density (const Shop *shop, const char *fibre)
{
  double density = NAN;

  for (gsize i = 0; i < shop->handbook->n_threads; i++)
    {
      const HwThreadEntry *thread = &shop->handbook->threads[i];

      if (g_strcmp0 (thread->fibre, fibre) != 0 || thread->form == HW_THREAD_METALLIC)
        continue;
      if (!isnan (density))
        g_assert_cmpfloat (thread->density, ==, density);
      density = thread->density;
    }
  return density;
}

static const HwCareTask *
find_care (const Shop *shop, const char *id)
{
  int index = hw_handbook_find_care (shop->handbook, id);

  g_assert_cmpint (index, >=, 0);
  return &shop->handbook->care[index];
}

/* The needle's part and the loopers' make the whole. */
static void
test_shares (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();

  for (gsize i = 0; i < handbook->n_stitches; i++)
    {
      const HwStitch *stitch = &handbook->stitches[i];
      HwThreadUse use = hw_thread_use_per_metre (stitch->shape, 1, 2.5, stitch->width_mm.low, stitch->ratio,
                                                 stitch->needle_share);

      g_test_message ("%s", stitch->entry.id);
      g_assert_cmpfloat (use.needle, >, 0);
      g_assert_true (use.under > 0 || (stitch->loopers == 0 && !stitch->bobbin));
      if (stitch->shape == HW_THREAD_USE_RATIO)
        g_assert_cmpfloat_with_epsilon (use.needle + use.under, stitch->ratio, 1e-9);
    }
}

/* Class and family as printed; the last pair of digits differs between summaries and is left out. */
static void
test_seam_codes (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  gsize n_families = 0;

  for (gsize i = 0; i < handbook->n_seams; i++)
    {
      const HwSeam *seam = &handbook->seams[i];

      g_test_message ("%s", seam->entry.id);
      g_assert_cmpint (seam->iso_class, >=, 1);
      g_assert_cmpint (seam->iso_class, <=, 8);
      if (seam->iso_family == NULL || *seam->iso_family == '\0')
        continue;
      g_assert_true (g_regex_match_simple ("^[1-8]\\.\\d\\d$", seam->iso_family, 0, 0));
      g_assert_cmpint (seam->iso_family[0] - '0', ==, seam->iso_class);
      n_families++;
    }
  g_assert_cmpuint (n_families, >, 10);
}

int
main (int argc, char **argv)
{
  Shop s = { NULL, NULL };

  g_test_init (&argc, &argv, NULL);
  s.handbook = workroom_handbook ();
  s.room = workroom_new (&workroom_usual, "household", 3);
  {
    const PublishedRow rows[] = {
      { "/published/C17/shirting", SHEET, ask_size (&s, "poplin"), WITHIN (65, 75) },
      { "/published/C17/shirting-point-is-slim", SHEET, ask_form (&s, "poplin"), NEAR (HW_POINT_ROUND, 0) },
      { "/published/C18/suiting", SHEET, ask_size (&s, "worsted"), WITHIN (80, 90) },
      { "/published/C22/linen", MANUALS, ask_size (&s, "linen-medium"), WITHIN (75, 90) },
      { "/published/C22/wool", MANUALS, ask_size (&s, "wool-flannel"), WITHIN (75, 90) },
      { "/published/C22/double-knit", MANUALS, ask_size (&s, "ponte"), WITHIN (75, 90) },
      { "/published/C23/wool-coating", TEACHING, ask_size (&s, "coating"), NEAR (100, 10) },
      { "/published/C25/velvet", TEACHING, ask_size (&s, "cotton-velvet"), NEAR (80, 10) },
      { "/published/C25/brocade", TEACHING, ask_size (&s, "brocade"), NEAR (90, 10) },
      { "/published/C25/two-way-stretch", TEACHING, ask_size (&s, "swim-tricot"), NEAR (75, 5) },
      { "/published/C27/jersey-ball", "R external: Groz-Beckert, Technical Information Sewing 15, 2007",
        ask_form (&s, "single-jersey"), NEAR (HW_POINT_BALL, 0) },
      { "/published/C32/needle-life", "R external: makers, shops and mechanics, 4 to 16 hours of sewing",
        s.handbook->needle_life.running_hours, WITHIN (4, 16) },
      { "/published/C32/needle-life-8", "P external: Schmetz, Change your needle (8 hours of sewing)",
        s.handbook->needle_life.running_hours, NEAR (8, 0) },

      { "/published/D4/cotton", DENSITIES, get_density (&s, "cotton"), NEAR (1.52, 0) },
      { "/published/D4/polyester", DENSITIES, get_density (&s, "polyester"), NEAR (1.39, 0) },
      { "/published/D4/polyamide", DENSITIES, get_density (&s, "polyamide"), NEAR (1.14, 0) },
      { "/published/D4/silk", DENSITIES, get_density (&s, "silk"), NEAR (1.34, 0) },
      { "/published/D4/viscose", DENSITIES, get_density (&s, "viscose"), NEAR (1.49, 0) },

      { "/published/E11/jeans-spi", LENGTHS, ask_spi (&s, "denim", "purpose='topstitch'"), WITHIN (7, 8) },
      { "/published/E11/t-shirt-spi", LENGTHS, ask_spi (&s, "single-jersey", "purpose='seam' stitch='504'"),
        WITHIN (10, 12) },
      { "/published/E14/basting", TEACHING_R,
        ask_setup (&s, "cotton-twill", 2, "purpose='baste'", HW_FIELD_LENGTH), WITHIN (4, 5) },
      { "/published/E15/medium-seam", TEACHING_R,
        ask_setup (&s, "cotton-twill", 2, "purpose='seam'", HW_FIELD_LENGTH), WITHIN (2, 3) },
      { "/published/E15/medium-seam-2.5", TEACHING_R,
        ask_setup (&s, "cotton-twill", 2, "purpose='seam'", HW_FIELD_LENGTH), NEAR (2.5, 0) },

      { "/published/F21/503", RATIOS, get_ratio (&s, "503"), NEAR (12, 0) },
      { "/published/F21/512", RATIOS, get_ratio (&s, "512"), NEAR (18, 0) },
      { "/published/F21/516", RATIOS, get_ratio (&s, "516"), NEAR (20, 0) },
      { "/published/F21/406", RATIOS, get_ratio (&s, "406"), NEAR (18, 0) },
      { "/published/F21/602", RATIOS, get_ratio (&s, "602"), NEAR (25, 0) },
      { "/published/F21/605", RATIOS, get_ratio (&s, "605"), NEAR (28, 0) },

      { "/published/H9/overlock-start", "P external: Janome Air Thread 2000D manual, p. 37 (all dials at 3)",
        ask_setup (&s, "cotton-twill", 1, "purpose='neaten' stitch='504'", HW_FIELD_DIAL), NEAR (3, 0) },
      { "/published/H13/knit-differential", "R external: baby lock UK 2025; Bernina, Mastering your sergers, p. 40",
        ask_setup (&s, "single-jersey", 2, "purpose='seam' stitch='504'", HW_FIELD_DIFFERENTIAL), WITHIN (1.3, 1.5) },

      /* 8 hours of use, the needle moving, are more hours at the machine than dusting waits for. */
      { "/published/J1/dusting", "R external: lovetosew.com, Clean your sewing machine (every 8 hours of use)",
        find_care (&s, "dust")->limit * s.handbook->running_share, WITHIN (0, 8) },
      { "/published/J2/oil", "R external: singertreadle.wordpress.com, maintenance (every 8 hours)",
        find_care (&s, "oil")->limit, WITHIN (0, 8) },
      { "/published/J4/service", "R external: Sewing Machines Institute; Bernina of America (yearly)",
        find_care (&s, "service")->clock == HW_CLOCK_MONTHS ? find_care (&s, "service")->limit
                                                            : find_care (&s, "service")->or_months, NEAR (12, 0) },

      { "/published/K1/301", CLASSES, get_class (&s, "301"), NEAR (300, 0) },
      { "/published/K1/406", CLASSES, get_class (&s, "406"), NEAR (400, 0) },
      { "/published/K1/504", CLASSES, get_class (&s, "504"), NEAR (500, 0) },
      { "/published/K1/605", CLASSES, get_class (&s, "605"), NEAR (600, 0) },
      { "/published/K2/101", CLASSES, count_threads (&s, "101"), NEAR (1, 0) },
      { "/published/K2/301", CLASSES, count_threads (&s, "301"), NEAR (2, 0) },
      { "/published/K2/401", CLASSES, count_threads (&s, "401"), NEAR (2, 0) },
      { "/published/K2/504", CLASSES, count_threads (&s, "504"), NEAR (3, 0) },
      { "/published/K2/514", CLASSES, count_threads (&s, "514"), NEAR (4, 0) },
      { "/published/K2/516", CLASSES, count_threads (&s, "516"), NEAR (5, 0) },
      { "/published/K2/605", "E external: NIMI, Sewing Technology Trade Practical, volume 2", count_threads (&s, "605"),
        NEAR (5, 0) },
      { "/published/K3/plain", SEAMS, get_seam_class (&s, "plain"), NEAR (1, 0) },
      { "/published/K3/lapped", SEAMS, get_seam_class (&s, "lapped"), NEAR (2, 0) },
      { "/published/K3/felled", SEAMS, get_seam_class (&s, "felled"), NEAR (2, 0) },
      { "/published/K3/bound", SEAMS, get_seam_class (&s, "bound-raw"), NEAR (3, 0) },
      { "/published/K3/flat", SEAMS, get_seam_class (&s, "butt"), NEAR (4, 0) },
      { "/published/K3/decorative", SEAMS, get_seam_class (&s, "row"), NEAR (5, 0) },
      { "/published/K3/edge", SEAMS, get_seam_class (&s, "edge-finished"), NEAR (6, 0) },
      { "/published/K3/hem", SEAMS, get_seam_class (&s, "hem-double"), NEAR (6, 0) },
      { "/published/K3/attached", SEAMS, get_seam_class (&s, "elastic-edge"), NEAR (7, 0) },
      { "/published/K3/single-item", SEAMS, get_seam_class (&s, "belt-loop"), NEAR (8, 0) },
    };
    int result;

    published_add_rows (rows, G_N_ELEMENTS (rows));
    g_test_add_func ("/published/F23/shares", test_shares);
    g_test_add_func ("/published/K4/seam-codes", test_seam_codes);
    result = g_test_run ();
    hw_room_unref (s.room);
    hw_handbook_unref (s.handbook);
    return result;
  }
}
