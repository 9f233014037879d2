/* test-setups.c - published figures that set-ups answer: needles, stitch lengths, feet, dials
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Set-ups on a household machine and a home overlocker with the shipped handbook, no thread chosen unless said. Rows
 * marked C are common practice or household manuals in general, without a document to name: regressions, not proof.
 */

#include "config.h"

#include "published.h"
#include "shop.h"
#include "trade/needle.h"

#include <math.h>

#define SHEET     "R external: Needles for stitching textiles, a needle-maker's sheet reproduced by Texpedia, 2013"
#define MANUALS   "R external: Siruba household manual, p. 17, and Janome 415 manual, p. 6 (US 11 to 14)"
#define MANUAL_L  "R external: Janome 415 manual, p. 6 (light cloth, US 9 to 11)"
#define MANUAL_M  "R external: Janome 415 manual, p. 6 (medium cloth, US 11 to 14)"
#define MANUAL_H  "R external: Janome 415 manual, p. 6 (heavy cloth, US 14 to 16)"
#define SIRUBA    "R external: Siruba household manual, p. 17 (light cloth 70 to 80)"
#define GLOSSARY_M "R external: American & Efird, A Thread of Truth, glossary, p. 14 (medium cloth 75 to 110)"
#define GLOSSARY_H "R external: American & Efird, A Thread of Truth, glossary, p. 14 (heavy cloth 100 to 120)"
#define TEACHING  "P external: easysewingtechniques.blogspot.com, needles by fabric (one size passes)"
#define EMBROIDERY "R external: Mardock Designs, needle information"
#define LEATHER   "R external: Groz-Beckert, Technical Information Sewing 15, Needles for leather, 2007"
#define TWINS     "R external: sewing.org, twin needles on knits (ball or stretch points, 70 to 90)"
#define LENGTHS   "R external: American & Efird Technical Bulletin, Stitches per inch"
#define RETAIL    "R external: Ladies Clothing Technology Digest (overlocking 10 to 12 in 2.5 cm)"
#define TEACHING_R "R external: teaching tables of stitch lengths, three that agree"
#define BY_FABRIC "R external: easysewingtechniques.blogspot.com, stitch lengths by fabric"
#define FINE      "R external: a beginners' book, quoted (2 mm in fine cloth), and a table by fabric (1 to 2 mm)"
#define TABLE     "R external: stitch-length table repeated on Q&A pages"
#define FEET      "R external: treadleyardgoods 2023, presser feet"
#define MANUAL_COMMON "C regression: household manuals in general, common practice, no source"

#define SEAM      "purpose='seam'"
#define TOPSTITCH "purpose='topstitch'"
#define OVERLOCK  "purpose='seam' stitch='504'"

static double
ask_dial (const Shop *shop, const char *fabrics, const char *rest)
{
  return shop_ask (shop, fabrics, rest, HW_FIELD_DIAL);
}

/* Could the balanced dial of that set-up be @dial, by the card? */
static double
may_end_at (const Shop *shop, const char *fabrics, const char *thread, double dial)
{
  g_auto (ShopSetup) made = shop_pair (shop, fabrics, SEAM, thread);

  return dial >= made.setup->dial_likely_low && dial <= made.setup->dial_likely_high ? 1 : 0;
}

static double
count_warnings (const Shop *shop, const char *fabrics, const char *rest, const char *thread, HwWarningCode code)
{
  g_auto (ShopSetup) made = shop_pair (shop, fabrics, rest, thread);
  int n = 0;

  for (guint i = 0; i < made.setup->warnings->len; i++)
    n += g_array_index (made.setup->warnings, HwWarning, i).code == code;
  return n;
}

static const char *
get_point (const Shop *shop, const char *fabrics)
{
  return shop->handbook->points[(gsize) shop_ask (shop, fabrics, SEAM, HW_FIELD_POINT)].entry.id;
}

/* C27, R external: Needles for stitching textiles, a needle-maker's sheet (ball points for knits); Technical
 * Information Sewing 15 (cutting points for leather). Every knit of the handbook; sewn to a woven it gets a point that
 * it would bear by itself, which for brushed and felted knits may be a universal one. */
static void
test_knits_want_balls (gconstpointer data)
{
  const Shop *shop = data;
  gsize n_knits = 0;

  for (gsize i = 0; i < shop->handbook->n_fabrics; i++)
    {
      const HwFabric *fabric = &shop->handbook->fabrics[i];
      g_autofree char *alone = g_strconcat (fabric->entry.id, " 2", NULL);
      g_autofree char *mixed = g_strconcat (fabric->entry.id, " 1 poplin 1", NULL);

      if (shop->handbook->constructions[fabric->construction].family != HW_FAMILY_KNIT
          || shop_has_trait (shop, fabric->entry.id, "backing") > 0)
        continue;
      g_test_message ("%s", fabric->entry.id);
      g_assert_cmpint (shop_ask_form (shop, alone), ==, HW_POINT_BALL);
      g_assert_cmpfloat (shop_accepts_point (shop, alone, get_point (shop, mixed)), ==, 1);
      g_assert_cmpfloat (shop_accepts_point (shop, alone, "sharp"), ==, 0);
      g_assert_cmpfloat (shop_accepts_point (shop, alone, "leather"), ==, 0);
      n_knits++;
    }
  g_assert_cmpuint (n_knits, >=, 15);
}

/* R external: Technology of Clothing Manufacture, p. 100. No cutting point where any ply is cloth. */
static void
test_cloth_is_not_cut (gconstpointer data)
{
  const Shop *shop = data;

  for (gsize i = 0; i < shop->handbook->n_fabrics; i++)
    {
      const HwFabric *fabric = &shop->handbook->fabrics[i];
      g_autofree char *alone = g_strconcat (fabric->entry.id, " 2", NULL);
      g_autofree char *mixed = g_strconcat (fabric->entry.id, " 1 leather-garment 1", NULL);
      gboolean is_skin = shop->handbook->constructions[fabric->construction].family == HW_FAMILY_SKIN;

      g_test_message ("%s", fabric->entry.id);
      g_assert_cmpint (shop_ask_form (shop, alone) == HW_POINT_CUTTING, ==, is_skin);
      g_assert_cmpint (shop_ask_form (shop, mixed) == HW_POINT_CUTTING, ==, is_skin);
    }
}

static void
add_needle_rows (const Shop *s)
{
  const PublishedRow rows[] = {
    { "/published/C17/shirting", SHEET, shop_ask_size (s, "poplin"), WITHIN (65, 75) },
    { "/published/C17/shirting-point-is-slim", SHEET, shop_ask_form (s, "poplin 2"), NEAR (HW_POINT_ROUND, 0) },
    { "/published/C17/percale", SHEET, shop_ask_size (s, "percale"), WITHIN (65, 75) },
    { "/published/C17/gingham", SHEET, shop_ask_size (s, "gingham"), WITHIN (65, 75) },
    { "/published/C17/oxford", SHEET, shop_ask_size (s, "oxford"), WITHIN (65, 75) },
    { "/published/C17/dense-and-fine", SHEET, shop_ask_size (s, "habotai"), WITHIN (65, 70) },
    { "/published/C17/dense-and-fine-sharp", SHEET, shop_chooses (s, "habotai 2", SEAM, HW_FIELD_POINT, "sharp"),
      NEAR (1, 0) },
    { "/published/C18/suiting", SHEET, shop_ask_size (s, "worsted"), WITHIN (80, 90) },
    { "/published/C18/suiting-light-ball-would-do", SHEET, shop_accepts_point (s, "worsted 2", "light-ball"),
      NEAR (1, 0) },
    { "/published/C18/gabardine", SHEET, shop_ask_size (s, "gabardine"), WITHIN (80, 90) },
    { "/published/C20/heavy-denim", GLOSSARY_H, shop_ask_size (s, "denim"), WITHIN (100, 120) },
    { "/published/C20/heavy-canvas", GLOSSARY_H, shop_ask_size (s, "canvas"), WITHIN (100, 120) },
    { "/published/C20/medium-twill", GLOSSARY_M, shop_ask_size (s, "cotton-twill"), WITHIN (75, 110) },
    { "/published/C20/denim-topstitching", SHEET, shop_ask (s, "denim 3", TOPSTITCH, HW_FIELD_SIZE),
      WITHIN (110, 120) },
    { "/published/C22/linen", MANUALS, shop_ask_size (s, "linen-medium"), WITHIN (75, 90) },
    { "/published/C22/wool", MANUALS, shop_ask_size (s, "wool-flannel"), WITHIN (75, 90) },
    { "/published/C22/double-knit", MANUALS, shop_ask_size (s, "ponte"), WITHIN (75, 90) },
    { "/published/C22/light-lawn", MANUAL_L, shop_ask_size (s, "lawn"), WITHIN (65, 75) },
    { "/published/C22/light-crepe-de-chine", MANUAL_L, shop_ask_size (s, "crepe-de-chine"), WITHIN (65, 75) },
    { "/published/C22/light-taffeta", MANUAL_L, shop_ask_size (s, "taffeta"), WITHIN (65, 75) },
    { "/published/C22/medium-calico", MANUAL_M, shop_ask_size (s, "calico"), WITHIN (75, 90) },
    { "/published/C22/medium-twill", MANUAL_M, shop_ask_size (s, "cotton-twill"), WITHIN (75, 90) },
    { "/published/C22/medium-flannel", MANUAL_M, shop_ask_size (s, "flannel"), WITHIN (75, 90) },
    { "/published/C22/heavy-denim", MANUAL_H, shop_ask_size (s, "denim"), WITHIN (90, 100) },
    { "/published/C22/heavy-tweed", MANUAL_H, shop_ask_size (s, "tweed"), WITHIN (90, 100) },
    { "/published/C22/light-chambray", SIRUBA, shop_ask_size (s, "chambray"), WITHIN (70, 80) },
    { "/published/C22/light-seersucker", SIRUBA, shop_ask_size (s, "seersucker"), WITHIN (70, 80) },
    { "/published/C22/light-challis", SIRUBA, shop_ask_size (s, "viscose-challis"), WITHIN (70, 80) },
    { "/published/C23/wool-coating", TEACHING, shop_ask_size (s, "coating"), NEAR (100, 10) },
    { "/published/C23/coat", SHEET, shop_ask_size (s, "melton"), WITHIN (100, 110) },
    { "/published/C25/velvet", TEACHING, shop_ask_size (s, "cotton-velvet"), NEAR (80, 10) },
    { "/published/C25/brocade", TEACHING, shop_ask_size (s, "brocade"), NEAR (90, 10) },
    { "/published/C25/two-way-stretch", TEACHING, shop_ask_size (s, "swim-tricot"), NEAR (75, 5) },
    { "/published/C25/two-way-stretch-point", TEACHING,
      shop_chooses (s, "swim-tricot 2", SEAM, HW_FIELD_POINT, "stretch"), NEAR (1, 0) },
    { "/published/C25/microfibre-suede", TEACHING, shop_ask_size (s, "microfibre-suede"), NEAR (75, 5) },
    { "/published/C25/microfibre-suede-point", TEACHING,
      shop_chooses (s, "microfibre-suede 2", SEAM, HW_FIELD_POINT, "stretch"), NEAR (1, 0) },
    { "/published/C27/jersey-ball", SHEET, shop_ask_form (s, "single-jersey 2"), NEAR (HW_POINT_BALL, 0) },
    { "/published/C27/leather-cutting", LEATHER, shop_ask_form (s, "leather-garment 2"), NEAR (HW_POINT_CUTTING, 0) },
    { "/published/C27/twin-knit-hem", TWINS,
      shop_ask (s, "single-jersey 2", "purpose='hem' stitch='301-twin'", HW_FIELD_SIZE), WITHIN (70, 90) },
    { "/published/C27/twin-heavy-knit-hem", TWINS,
      shop_ask (s, "ponte 2", "purpose='hem' stitch='301-twin'", HW_FIELD_SIZE), WITHIN (70, 90) },

    /* threads named */
    { "/published/C10/rayon-40-wt", "P external: Schmetz, Sewing machine thread sizing guide (75; one size passes)",
      shop_ask_in (s, "calico 1", "purpose='decorate'", "rayon-25", HW_FIELD_SIZE), NEAR (75, 5) },
    { "/published/C10/metallic", EMBROIDERY,
      shop_ask_in (s, "poplin 1", "purpose='decorate'", "metallic-30", HW_FIELD_SIZE), WITHIN (75, 80) },
    { "/published/C10/12-wt", EMBROIDERY, shop_ask_in (s, "cotton-twill 2", TOPSTITCH, "polyester-80", HW_FIELD_SIZE),
      WITHIN (100, 120) },
    { "/published/C10/60-wt", EMBROIDERY, shop_ask_in (s, "lawn 2", SEAM, "polyester-18", HW_FIELD_SIZE),
      WITHIN (60, 70) },
    { "/published/C10/all-purpose", "R external: Siruba household manual, p. 17 (70 to 90)",
      shop_ask_in (s, "calico 2", SEAM, "polyester-30", HW_FIELD_SIZE), WITHIN (70, 90) },

    /* without a document */
    { "/published/C11/georgette", MANUAL_COMMON, shop_ask_size (s, "georgette"), WITHIN (65, 75) },
    { "/published/C11/lawn", MANUAL_COMMON, shop_ask_size (s, "lawn"), WITHIN (65, 75) },
    { "/published/C12/gabardine", MANUAL_COMMON, shop_ask_size (s, "gabardine"), WITHIN (75, 90) },
    { "/published/C12/flannel", MANUAL_COMMON, shop_ask_size (s, "flannel"), WITHIN (75, 90) },
    { "/published/C14/topstitch-thread", MANUAL_COMMON,
      shop_ask_in (s, "cotton-twill 3", TOPSTITCH, "polyester-60", HW_FIELD_SIZE), WITHIN (90, 100) },
    { "/published/C26/coarser-than-90-warned", MANUAL_COMMON,
      count_warnings (s, "denim 3", TOPSTITCH, "polyester-105", HW_WARN_COARSE_THREAD), NEAR (1, 0) },
    { "/published/C26/tex-80-not-warned", MANUAL_COMMON,
      count_warnings (s, "denim 3", TOPSTITCH, "polyester-80", HW_WARN_COARSE_THREAD), NEAR (0, 0) },
  };

  published_add_rows (rows, G_N_ELEMENTS (rows));
}

static void
add_length_rows (const Shop *s)
{
  const PublishedRow rows[] = {
    { "/published/E11/jeans-spi", LENGTHS, shop_ask_spi (s, "denim 2", TOPSTITCH), WITHIN (7, 8) },
    { "/published/E11/t-shirt-spi", LENGTHS, shop_ask_spi (s, "single-jersey 2", OVERLOCK), WITHIN (10, 12) },
    { "/published/E11/polo-spi", LENGTHS, shop_ask_spi (s, "pique 2", OVERLOCK), WITHIN (10, 12) },
    { "/published/E11/casual-shirt-spi", LENGTHS, shop_ask_spi (s, "poplin 2", SEAM), WITHIN (10, 14) },
    { "/published/E11/casual-top-spi", LENGTHS, shop_ask_spi (s, "chambray 2", SEAM), WITHIN (10, 14) },
    { "/published/E11/dress-trousers-spi", LENGTHS, shop_ask_spi (s, "worsted 2", SEAM), WITHIN (10, 12) },
    { "/published/E11/dress-spi", LENGTHS, shop_ask_spi (s, "wool-crepe 2", SEAM), WITHIN (10, 12) },
    { "/published/E11/skirt-spi", LENGTHS, shop_ask_spi (s, "gabardine 2", SEAM), WITHIN (10, 12) },
    /* The bulletin counts whole stitches: 2.5 mm are 10.16. */
    { "/published/E11/twill-trousers-spi", LENGTHS, round (shop_ask_spi (s, "cotton-twill 2", SEAM)), WITHIN (8, 10) },
    { "/published/E11/overlocked-edge", RETAIL, 25 / shop_ask (s, "cotton-twill 1", "purpose='neaten' stitch='504'",
                                                              HW_FIELD_LENGTH), WITHIN (10, 12) },
    { "/published/E14/basting", TEACHING_R, shop_ask (s, "cotton-twill 2", "purpose='baste'", HW_FIELD_LENGTH),
      WITHIN (4, 5) },
    { "/published/E14/basting-velvet", TEACHING_R,
      shop_ask (s, "cotton-velvet 2", "purpose='baste'", HW_FIELD_LENGTH), WITHIN (3, 7) },
    { "/published/E14/basting-silk", TEACHING_R,
      shop_ask (s, "crepe-de-chine 2", "purpose='baste'", HW_FIELD_LENGTH), WITHIN (3, 7) },
    { "/published/E14/basting-coating", TEACHING_R, shop_ask (s, "coating 2", "purpose='baste'", HW_FIELD_LENGTH),
      WITHIN (3, 7) },
    { "/published/E15/medium-seam", TEACHING_R, shop_ask (s, "cotton-twill 2", SEAM, HW_FIELD_LENGTH),
      WITHIN (2, 3) },
    { "/published/E15/medium-seam-2.5", TEACHING_R, shop_ask (s, "cotton-twill 2", SEAM, HW_FIELD_LENGTH),
      NEAR (2.5, 0) },
    { "/published/E15/fine-seam-lawn", FINE, shop_ask (s, "lawn 2", SEAM, HW_FIELD_LENGTH), WITHIN (1, 2) },
    { "/published/E15/fine-seam-silk", FINE, shop_ask (s, "habotai 2", SEAM, HW_FIELD_LENGTH), WITHIN (1, 2) },
    { "/published/E15/heavy-coating", BY_FABRIC, shop_ask (s, "coating 2", SEAM, HW_FIELD_LENGTH), NEAR (3, 0) },
    { "/published/E15/microfibre-suede", BY_FABRIC, shop_ask (s, "microfibre-suede 2", SEAM, HW_FIELD_LENGTH),
      NEAR (3, 0) },
    { "/published/E15/velvet", "P external: easysewingtechniques.blogspot.com, 2.5 mm (half a millimetre passes)",
      shop_ask (s, "cotton-velvet 2", SEAM, HW_FIELD_LENGTH), NEAR (2.5, 0.5) },
    { "/published/E15/easing", "R external: teaching slides and a table by fabric (2.5 to 4 mm)",
      shop_ask (s, "gabardine 1", "purpose='ease'", HW_FIELD_LENGTH), WITHIN (2.5, 4) },
    { "/published/E15/staystitching", TABLE, shop_ask (s, "cotton-twill 1", "purpose='staystitch'", HW_FIELD_LENGTH),
      WITHIN (1.5, 2) },
    { "/published/E15/topstitching-light", TABLE, shop_ask (s, "poplin 3", TOPSTITCH, HW_FIELD_LENGTH),
      WITHIN (3, 3.5) },
    { "/published/E15/topstitching-medium", TABLE, shop_ask (s, "cotton-twill 3", TOPSTITCH, HW_FIELD_LENGTH),
      WITHIN (3, 3.5) },
  };

  published_add_rows (rows, G_N_ELEMENTS (rows));
}

static void
add_machine_rows (const Shop *s)
{
  const PublishedRow rows[] = {
    { "/published/H5/measured-dial", "P external: Partlan Pattern Designs (tex 30 in 3 plies balanced at 5)",
      may_end_at (s, "calico 3", "polyester-30", 5), NEAR (1, 0) },
    { "/published/H7/dial-of-twill", "R external: Elna 5200 manual, p. 16 (2 to 6)",
      ask_dial (s, "cotton-twill 2", SEAM), WITHIN (2, 6) },
    { "/published/H7/dial-of-poplin", "R external: cherryblossomlove straight stitch Q&A (4 to 4.5 on most machines)",
      ask_dial (s, "poplin 2", SEAM), WITHIN (4, 4.5) },
    { "/published/H7/zigzag-needs-less", "R external: Singer 1263 manual, p. 39 (straight needs more than zigzag)",
      ask_dial (s, "calico 1", "purpose='topstitch'")
      - ask_dial (s, "calico 1", "purpose='topstitch' stitch='304'"), WITHIN (0.5, 2) },
    { "/published/H7/satin-needs-less", "R external: Elna eXcellence 720 manual, p. 38 (looser for satin stitch)",
      ask_dial (s, "calico 2", SEAM) - ask_dial (s, "calico 1 tear-away 1", "purpose='decorate'"), WITHIN (0.5, 3) },
    { "/published/H7/buttonhole-needs-less", "R external: Elna eXcellence 720 manual, p. 38 (looser for buttonholes)",
      ask_dial (s, "poplin 2", SEAM) - ask_dial (s, "poplin 2", "purpose='buttonhole'"), WITHIN (0.5, 3) },
    { "/published/H9/overlock-start", "P external: Janome Air Thread 2000D manual, p. 37 (all dials at 3)",
      ask_dial (s, "cotton-twill 1", "purpose='neaten' stitch='504'"), NEAR (3, 0) },
    { "/published/H13/knit-differential", "R external: baby lock UK 2025; Bernina, Mastering your sergers, p. 40",
      shop_ask (s, "single-jersey 2", OVERLOCK, HW_FIELD_DIFFERENTIAL), WITHIN (1.3, 1.5) },
    { "/published/H13/interlock-differential", "R external: baby lock UK 2025; Bernina, Mastering your sergers, p. 40",
      shop_ask (s, "interlock 2", OVERLOCK, HW_FIELD_DIFFERENTIAL), WITHIN (1.3, 1.5) },
    { "/published/H13/sheer-differential", "R external: Medion overlock SO90 manual, p. 249 (0.7 to 1)",
      shop_ask (s, "chiffon 2", OVERLOCK, HW_FIELD_DIFFERENTIAL), WITHIN (0.7, 0.99) },
    { "/published/H13/firm-differential", "P external: baby lock UK 2025 (1.0 is neutral)",
      shop_ask (s, "cotton-twill 2", OVERLOCK, HW_FIELD_DIFFERENTIAL), NEAR (1, 0) },

    /* which foot, which plate */
    { "/published/feet/zip", FEET, shop_chooses (s, "gabardine 2", "purpose='zip'", HW_FIELD_FOOT, "zip"),
      NEAR (1, 0) },
    { "/published/feet/blind-hem", FEET,
      shop_chooses (s, "gabardine 3", "purpose='blind-hem'", HW_FIELD_FOOT, "blind-hem"), NEAR (1, 0) },
    { "/published/feet/oilcloth", FEET, shop_chooses (s, "oilcloth 2", SEAM, HW_FIELD_FOOT, "roller"),
      NEAR (1, 0) },
    { "/published/feet/leather", FEET, shop_chooses (s, "leather-garment 2", SEAM, HW_FIELD_FOOT, "roller"),
      NEAR (1, 0) },
    { "/published/feet/quilting", FEET,
      shop_chooses (s, "quilting-cotton 2 wadding 1", "purpose='quilt'", HW_FIELD_FOOT, "walking"), NEAR (1, 0) },
    { "/published/feet/pile", FEET, shop_chooses (s, "cotton-velvet 2", SEAM, HW_FIELD_FOOT, "walking"),
      NEAR (1, 0) },
    { "/published/feet/edge", "R external: Iowa Living Magazines 2012, presser feet",
      shop_chooses (s, "cotton-twill 1", "purpose='neaten'", HW_FIELD_FOOT, "overcast"), NEAR (1, 0) },
    { "/published/feet/plate-for-twin", "R external: Twin-needle sheet 11.227; Bernina, Exploring twin needles, 2020",
      shop_chooses (s, "single-jersey 2", "purpose='hem' stitch='301-twin'", HW_FIELD_PLATE, "zigzag"), NEAR (1, 0) },
    { "/published/feet/lighter-on-organza", "R external: Janome Australia, Under pressure (least for organza)",
      shop_ask (s, "cotton-twill 2", SEAM, HW_FIELD_PRESSURE) - shop_ask (s, "silk-organza 2", SEAM, HW_FIELD_PRESSURE),
      WITHIN (1, 2) },
  };

  published_add_rows (rows, G_N_ELEMENTS (rows));
}

int
main (int argc, char **argv)
{
  Shop shop = { NULL, NULL };
  int result;

  g_test_init (&argc, &argv, NULL);
  shop_open (&shop);
  add_needle_rows (&shop);
  add_length_rows (&shop);
  add_machine_rows (&shop);
  g_test_add_data_func ("/published/C27/knits-want-balls", &shop, test_knits_want_balls);
  g_test_add_data_func ("/published/C27/cloth-is-not-cut", &shop, test_cloth_is_not_cut);
  result = g_test_run ();
  shop_close (&shop);
  return result;
}
