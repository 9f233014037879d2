/* test-cloth.c - published figures for cloth, against the handbook's fabrics
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Mass classes differ between lists, so a cloth is only asked for where several lists agree. A fabric's whole range,
 * not just its typical mass, has to meet what is published: its ends are what a person sees as ordinary for that
 * cloth.
 */

#include "config.h"

#include "published.h"
#include "shop.h"
#include "trade/units.h"

#define CHART    "R external: aaenterprises.in fabric GSM chart"
#define LISTS_L  "R external: pksews, fabric-online.co.uk and Sewing Gem lists of fabric weights (light: all three)"
#define LISTS_H  "R external: four lists of fabric weights (heavy: all four from 350)"
#define LISTS_M  "R external: four lists of fabric weights (medium: all four from 170 to 220)"
#define EXAMPLES "P external: pksews, weights of fabrics (example of its class)"
#define MOMME    "R external: silk merchants' momme tables, several agree"
#define LEATHER  "R external: leather thickness charts (gnninternational, leathercircle, maverick): 1 oz is 0.4 mm"
#define LEATHER_G "R external: leatherimpact 2016 (0.7 to 0.9 mm) and a leather Q&A page (0.5 to 0.9)"
#define LEATHER_U "R external: leatherimpact 2016 (upholstery and accessories 0.9 to 1.2 mm)"
#define KNITS    "P external: notes on basic weft-knit structures (scribd 96678743)"

static double
get_mass (const Shop *shop, const char *fabric)
{
  return shop_find_fabric (shop, fabric)->mass_g_m2.prefer;
}

static double
get_momme (const Shop *shop, const char *fabric)
{
  return get_mass (shop, fabric) / hw_gsm_from_momme (1);
}

static double
get_mm (const Shop *shop, const char *fabric)
{
  return shop_find_fabric (shop, fabric)->thickness_mm.prefer;
}

static double
get_leather_oz (const Shop *shop, const char *fabric)
{
  return get_mm (shop, fabric) / hw_mm_from_leather_oz (1);
}

static double
compare_stretch (const Shop *shop, const char *fabric, const char *other)
{
  return shop_find_fabric (shop, fabric)->stretch_percent / shop_find_fabric (shop, other)->stretch_percent;
}

/* Ordinary limits: no typical value lies outside its own range, no cloth is heavier than it is thick for its fibre. */
static void
test_fabrics_are_possible (gconstpointer data)
{
  const HwHandbook *handbook = ((const Shop *) data)->handbook;

  for (gsize i = 0; i < handbook->n_fabrics; i++)
    {
      const HwFabric *fabric = &handbook->fabrics[i];
      double bulk = fabric->mass_g_m2.prefer / (fabric->thickness_mm.prefer * 1000);

      g_test_message ("%s: %g g/cm3", fabric->entry.id, bulk);
      g_assert_cmpfloat (bulk, <, 1.52);      /* solid cotton: Morton and Hearle, table 5.1 */
      g_assert_cmpfloat (bulk, >, 0.02);
      g_assert_cmpfloat (fabric->mass_g_m2.low, <=, fabric->mass_g_m2.prefer);
      g_assert_cmpfloat (fabric->mass_g_m2.prefer, <=, fabric->mass_g_m2.high);
      g_assert_cmpfloat (fabric->thickness_mm.low, <=, fabric->thickness_mm.prefer);
      g_assert_cmpfloat (fabric->thickness_mm.prefer, <=, fabric->thickness_mm.high);
    }
}

int
main (int argc, char **argv)
{
  Shop s = { NULL, NULL };

  g_test_init (&argc, &argv, NULL);
  shop_open (&s);
  {
    const PublishedRow rows[] = {
      /* percale to terry: what the chart prints as ordinary */
      { "/published/B/percale", CHART, get_mass (&s, "percale"), WITHIN (100, 150) },
      { "/published/B/poplin", CHART, get_mass (&s, "poplin"), WITHIN (110, 160) },
      { "/published/B/t-shirt-jersey", CHART, get_mass (&s, "single-jersey"), WITHIN (140, 200) },
      { "/published/B/interlock", CHART, get_mass (&s, "interlock"), WITHIN (180, 260) },
      { "/published/B/pique", CHART, get_mass (&s, "pique"), WITHIN (180, 260) },
      { "/published/B/sweatshirt", CHART, get_mass (&s, "sweatshirt"), WITHIN (260, 360) },
      { "/published/B/terry", CHART, get_mass (&s, "terry-towelling"), WITHIN (300, 600) },
      { "/published/B/canvas", CHART, get_mass (&s, "canvas"), WITHIN (300, 500) },
      /* 6 to 8 oz, 12 to 15 oz of denim */
      { "/published/B/denim-light", CHART, hw_oz_yd2_from_gsm (get_mass (&s, "denim-light")), WITHIN (6, 8) },
      { "/published/B/denim-heavy", CHART, hw_oz_yd2_from_gsm (get_mass (&s, "denim")), WITHIN (12, 15) },

      { "/published/B9/lawn-typical", EXAMPLES, get_mass (&s, "lawn"), NEAR (70, 0) },
      { "/published/B9/lawn-lightest", LISTS_L, shop_find_fabric (&s, "lawn")->mass_g_m2.low, WITHIN (30, 110) },
      { "/published/B9/lawn-heaviest", LISTS_L, shop_find_fabric (&s, "lawn")->mass_g_m2.high, WITHIN (30, 110) },
      { "/published/B9/double-gauze", EXAMPLES, get_mass (&s, "double-gauze"), NEAR (130, 0) },
      { "/published/B10/denim-lightest", LISTS_H, shop_find_fabric (&s, "denim")->mass_g_m2.low, WITHIN (350, 500) },
      { "/published/B10/denim-heaviest", LISTS_H, shop_find_fabric (&s, "denim")->mass_g_m2.high, WITHIN (350, 500) },
      { "/published/B11/linen-medium", LISTS_M, get_mass (&s, "linen-medium"), WITHIN (170, 220) },

      { "/published/B5/crepe-de-chine-momme", MOMME, get_momme (&s, "crepe-de-chine"), NEAR (16, 0.2) },
      { "/published/B5/charmeuse-momme", MOMME, get_momme (&s, "charmeuse"), WITHIN (16, 19.6) },
      { "/published/B8/bag-leather-oz", LEATHER, get_leather_oz (&s, "leather-bag"), WITHIN (2, 3.5) },
      { "/published/B8/garment-leather", LEATHER_G, get_mm (&s, "leather-garment"), WITHIN (0.5, 0.9) },
      { "/published/B8/bag-leather", LEATHER_U, get_mm (&s, "leather-bag"), WITHIN (0.9, 1.2) },

      /* Rib is about twice as thick as single jersey and stretches twice as far; typical values, so a third passes. */
      { "/published/B/rib-is-thicker", KNITS, get_mm (&s, "rib-1x1") / get_mm (&s, "single-jersey"), NEAR (2, 0.67) },
      { "/published/B/rib-stretches-twice", KNITS, compare_stretch (&s, "rib-1x1", "single-jersey"), NEAR (2, 0.67) },
      { "/published/B/interlock-stretches-as-jersey", KNITS, compare_stretch (&s, "interlock", "single-jersey"),
        NEAR (1, 0.33) },
      { "/published/B/jersey-curls", KNITS, shop_has_trait (&s, "single-jersey", "curls"), NEAR (1, 0) },
      { "/published/B/interlock-lies-flat", KNITS, shop_has_trait (&s, "interlock", "curls"), NEAR (0, 0) },
      { "/published/B/rib-lies-flat", KNITS, shop_has_trait (&s, "rib-1x1", "curls"), NEAR (0, 0) },
    };
    int result;

    published_add_rows (rows, G_N_ELEMENTS (rows));
    g_test_add_data_func ("/published/B/fabrics-are-possible", &s, test_fabrics_are_possible);
    result = g_test_run ();
    shop_close (&s);
    return result;
  }
}
