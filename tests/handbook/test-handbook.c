/* test-handbook.c - the handbook's reader: what it takes, what it refuses and what it says then
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The folder "good" holds every element at least once, with values made up for the purpose. Each case of refusal
 * changes one piece of it and expects a message that begins with the file and the line of that piece.
 */

#include "config.h"

#include "handbook/handbook.h"
#include "temp-folder.h"

#include <math.h>
#include <string.h>

static const char * const good_files[] = { "a-cloth.xml", "b-machine.xml", "c-rules.xml" };

static char *
get_data_folder (void)
{
  const char *data = g_getenv ("HANDWHEEL_DATA_DIR");

  g_assert_nonnull (data);
  return g_build_filename (data, "handbook", NULL);
}

static void
copy_schema (const char *folder)
{
  g_autofree char *data = get_data_folder ();
  g_autofree char *schema = g_build_filename (data, "handbook.rng", NULL);

  temp_folder_copy (folder, "handbook.rng", schema);
}

static char *
make_good_folder (void)
{
  char *folder = temp_folder_new ();

  copy_schema (folder);
  for (gsize i = 0; i < G_N_ELEMENTS (good_files); i++)
    {
      g_autofree char *path = g_test_build_filename (G_TEST_DIST, "handbook", "good", good_files[i], NULL);
      temp_folder_copy (folder, good_files[i], path);
    }
  return folder;
}

static HwHandbook *
load_good (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = make_good_folder ();
  HwHandbook *book = hw_handbook_load (folder, &error);

  g_assert_no_error (error);
  g_assert_nonnull (book);
  temp_folder_remove (folder);           /* nothing of it is needed any more */
  return book;
}

/* ---- what is read ---- */

#define assert_band(band, l, p, h) \
  G_STMT_START { \
    g_assert_cmpfloat ((band).low, ==, l); \
    g_assert_cmpfloat ((band).prefer, ==, p); \
    g_assert_cmpfloat ((band).high, ==, h); \
  } G_STMT_END

#define assert_range(range, l, h) \
  G_STMT_START { \
    g_assert_cmpfloat ((range).low, ==, l); \
    g_assert_cmpfloat ((range).high, ==, h); \
  } G_STMT_END

static void
test_sources (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwSource *source = &book->sources[hw_handbook_find_source (book, "a-book")];

  g_assert_cmpuint (book->n_sources, ==, 3);
  g_assert_cmpint (source->kind, ==, HW_SOURCE_BOOK);
  g_assert_cmpstr (source->title, ==, "A book");
  g_assert_cmpstr (source->where, ==, "2nd edition, page 3");
  g_assert_null (book->sources[0].where);
  g_assert_cmpint (book->sources[0].kind, ==, HW_SOURCE_STANDARD);
  g_assert_cmpint (book->sources[2].kind, ==, HW_SOURCE_COMMON_PRACTICE);
}

static void
test_cloth (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwConstruction *twill = &book->constructions[0];
  const HwTrait *pile = &book->traits[1];
  const HwFabric *denim = &book->fabrics[0];
  const HwFabric *jersey = &book->fabrics[1];

  g_assert_cmpuint (book->n_constructions, ==, 2);
  g_assert_cmpstr (twill->entry.id, ==, "twill");
  g_assert_cmpint (twill->family, ==, HW_FAMILY_WOVEN);
  g_assert_cmpfloat (twill->bulk_density, ==, 0.4);
  g_assert_cmpfloat (twill->under_foot, ==, 0.8);
  g_assert_cmpuint (book->n_traits, ==, 2);
  g_assert_cmpfloat (book->traits[0].lint_factor, ==, 1);
  g_assert_cmpfloat (book->traits[0].needle_life, ==, 1);
  g_assert_cmpint (book->traits[0].tension_term, ==, -1);
  g_assert_null (book->traits[0].entry.note);
  g_assert_cmpfloat (pile->lint_factor, ==, 2);
  g_assert_cmpfloat (pile->needle_life, ==, 0.5);
  g_assert_cmpint (pile->tension_term, ==, HW_TENSION_PILE);
  g_assert_cmpstr (pile->entry.note, ==, "Sheds while sewn.");

  g_assert_cmpuint (book->n_fabrics, ==, 2);
  g_assert_cmpstr (denim->entry.name, ==, "Denim");
  g_assert_cmpstr (denim->entry.file, ==, "a-cloth.xml");
  g_assert_cmpint (denim->entry.line, ==, 12);
  g_assert_cmpstr (denim->entry.source->id, ==, "a-book");
  g_assert_cmpint (denim->construction, ==, 0);
  assert_band (denim->mass_g_m2, 300, 400, 500);
  assert_band (denim->thickness_mm, 0.7, 0.9, 1.1);
  g_assert_cmpfloat (denim->stretch_percent, ==, 2);
  g_assert_cmpuint (denim->traits, ==, HW_SET (0) | HW_SET (1));
  g_assert_cmpstr (denim->fibre, ==, "cotton");
  g_assert_cmpint (jersey->construction, ==, 1);
  assert_band (jersey->mass_g_m2, 150, 150, 150);
  assert_band (jersey->thickness_mm, 0.55, 0.55, 0.55);
  g_assert_cmpfloat (jersey->stretch_percent, ==, 0);
  g_assert_cmpuint (jersey->traits, ==, 0);
  g_assert_null (jersey->fibre);
}

static void
test_needles_and_threads (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwPoint *universal = &book->points[0];
  const HwPoint *jeans = &book->points[1];
  const HwThreadEntry *polyester = &book->threads[0];

  g_assert_cmpuint (book->n_systems, ==, 2);
  g_assert_cmpstr (book->systems[0].also, ==, "15x1, HAx1");
  g_assert_cmpuint (book->systems[0].machines, ==, 1u << HW_MACHINE_LOCKSTITCH | 1u << HW_MACHINE_COVERSTITCH);
  g_assert_null (book->systems[1].also);
  g_assert_cmpuint (book->systems[1].machines, ==, 1u << HW_MACHINE_OVERLOCK);

  g_assert_cmpuint (book->n_points, ==, 2);
  g_assert_null (universal->letters);
  g_assert_cmpint (universal->form, ==, HW_POINT_ROUND);
  g_assert_cmpfloat (universal->eye_factor, ==, 1);
  g_assert_cmpuint (universal->systems, ==, HW_SET (0) | HW_SET (1));
  g_assert_cmpuint (universal->n_sizes, ==, 4);
  g_assert_cmpint (universal->sizes[0], ==, 60);
  g_assert_cmpint (universal->sizes[3], ==, 90);
  g_assert_cmpuint (universal->n_twins, ==, 2);
  g_assert_cmpfloat (universal->twins[0].spacing_mm, ==, 2.5);
  g_assert_cmpint (universal->twins[0].nm, ==, 75);
  g_assert_cmpfloat (universal->twins[1].spacing_mm, ==, 4);
  g_assert_cmpstr (jeans->letters, ==, "H-J");
  g_assert_cmpfloat (jeans->eye_factor, ==, 1.2);
  g_assert_cmpuint (jeans->n_twins, ==, 0);

  g_assert_cmpuint (book->n_threads, ==, 2);
  g_assert_cmpstr (polyester->fibre, ==, "polyester");
  g_assert_cmpint (polyester->form, ==, HW_THREAD_SPUN);
  g_assert_cmpfloat (polyester->tex, ==, 27);
  g_assert_cmpfloat (polyester->density, ==, 1.38);
  g_assert_cmpfloat (polyester->packing, ==, 0.6);
  g_assert_cmpfloat (polyester->tenacity_cn_tex, ==, 35);
  g_assert_cmpuint (polyester->machines, ==, 1u << HW_MACHINE_LOCKSTITCH | 1u << HW_MACHINE_OVERLOCK);
  g_assert_cmpfloat (book->threads[1].tenacity_cn_tex, ==, 0);
  g_assert_cmpint (book->threads[1].form, ==, HW_THREAD_CORE);
}

static void
test_stitches (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwStitch *lock = &book->stitches[0];
  const HwStitch *overedge = &book->stitches[1];

  g_assert_cmpuint (book->n_stitches, ==, 2);
  g_assert_cmpstr (lock->iso, ==, "301");
  g_assert_cmpint (lock->needles, ==, 1);
  g_assert_cmpint (lock->loopers, ==, 0);
  g_assert_true (lock->bobbin);
  assert_range (lock->length_mm, 0.5, 5);
  assert_range (lock->width_mm, 0, 0);
  g_assert_cmpint (lock->shape, ==, HW_THREAD_USE_301);
  g_assert_cmpfloat (lock->needle_share, ==, 0.5);
  g_assert_cmpint (lock->tension_term, ==, -1);
  g_assert_cmpint (lock->dials, ==, 1);
  g_assert_cmpstr (lock->mark, ==, "straight");
  g_assert_cmpuint (overedge->machines, ==, 1u << HW_MACHINE_OVERLOCK);
  g_assert_cmpint (overedge->loopers, ==, 2);
  g_assert_false (overedge->bobbin);
  assert_range (overedge->width_mm, 3, 7);
  g_assert_cmpint (overedge->shape, ==, HW_THREAD_USE_RATIO);
  g_assert_cmpfloat (overedge->ratio, ==, 14);
  g_assert_cmpfloat (overedge->needle_share, ==, 0.2);
  g_assert_cmpint (overedge->tension_term, ==, HW_TENSION_STRETCH_STITCH);
  g_assert_cmpstr (overedge->mark, ==, "overlock");
  g_assert_cmpint (overedge->dials, ==, 3);
}

static void
test_seams_and_feet (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwSeam *plain = &book->seams[0];
  const HwPurpose *seam = &book->purposes[0];
  const HwFoot *straight = &book->feet[1];

  g_assert_cmpuint (book->n_seams, ==, 1);
  g_assert_cmpint (plain->iso_class, ==, 1);
  g_assert_cmpstr (plain->iso_family, ==, "1.01");
  g_assert_cmpuint (plain->n_plies, ==, 2);
  g_assert_cmpuint (plain->plies[1].n_points, ==, 3);
  g_assert_cmpfloat (plain->plies[1].xy[4], ==, 62.5);
  g_assert_cmpfloat (plain->plies[1].xy[5], ==, 29);
  g_assert_cmpuint (plain->n_stitches, ==, 2);
  g_assert_cmpfloat (plain->stitches[0].y2, ==, 31);
  g_assert_cmpint (plain->stitches[0].row, ==, 1);
  g_assert_cmpint (plain->stitches[1].row, ==, 2);

  g_assert_cmpuint (book->n_purposes, ==, 2);
  g_assert_cmpint (seam->seam, ==, 0);
  g_assert_cmpint (seam->stitch, ==, 0);
  g_assert_cmpfloat (seam->speed_share, ==, 0.6);
  g_assert_cmpfloat (seam->handling_minutes, ==, 1.5);
  g_assert_cmpfloat (seam->start_stop_minutes, ==, 0.2);
  g_assert_cmpint (seam->tension_term, ==, -1);
  g_assert_cmpint (book->purposes[1].seam, ==, -1);
  g_assert_cmpint (book->purposes[1].stitch, ==, -1);
  g_assert_cmpint (book->purposes[1].tension_term, ==, HW_TENSION_BASTE);

  g_assert_cmpuint (book->n_feet, ==, 3);
  g_assert_cmpfloat (book->feet[0].slot_mm, ==, 9);
  g_assert_cmpint (book->feet[0].fallback[0], ==, -1);
  g_assert_cmpint (straight->fallback[0], ==, 0);
  g_assert_cmpint (straight->fallback[1], ==, 2);                /* a foot further down */
  g_assert_cmpint (straight->fallback[2], ==, -1);
  g_assert_cmpuint (book->n_plates, ==, 2);
  g_assert_cmpuint (book->plates[1].machines, ==, 1u << HW_MACHINE_LOCKSTITCH);
  g_assert_cmpint (book->plates[1].fallback[0], ==, 0);
}

static void
test_care (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwCareTask *dust = &book->care[0];
  const HwCareTask *service = &book->care[1];

  g_assert_cmpuint (book->n_care, ==, 2);
  g_assert_cmpint (dust->clock, ==, HW_CLOCK_AT_MACHINE);
  g_assert_cmpfloat (dust->limit, ==, 4);
  g_assert_cmpfloat (dust->or_months, ==, 1);
  g_assert_true (dust->counts_lint);
  g_assert_cmpfloat (dust->minutes, ==, 5);
  g_assert_cmpuint (g_strv_length (dust->steps), ==, 2);
  g_assert_cmpstr (dust->steps[1], ==, "Brush the lint out.");
  g_assert_cmpuint (g_strv_length (dust->cautions), ==, 1);
  g_assert_cmpstr (dust->entry.note, ==, "More often with pile.");
  g_assert_cmpint (service->clock, ==, HW_CLOCK_MONTHS);
  g_assert_cmpfloat (service->or_months, ==, 0);
  g_assert_false (service->counts_lint);
  g_assert_cmpuint (g_strv_length (service->cautions), ==, 0);

  g_assert_cmpfloat (book->needle_life.at_machine_hours, ==, 15);
  g_assert_cmpfloat (book->needle_life.running_hours, ==, 8);
  g_assert_cmpstr (book->needle_life.source->id, ==, "practice");
  g_assert_cmpfloat (book->running_share, ==, 0.35);
  g_assert_cmpstr (book->running_source->id, ==, "practice");
  g_assert_cmpfloat (book->changes.walk, ==, 0.5);
  g_assert_cmpfloat (book->changes.needle, ==, 1);
  g_assert_cmpfloat (book->changes.thread, ==, 1.25);
  g_assert_cmpfloat (book->changes.bobbin, ==, 0.75);
  g_assert_cmpfloat (book->changes.foot, ==, 0.4);
  g_assert_cmpfloat (book->changes.plate, ==, 2);
  g_assert_cmpfloat (book->changes.stitch, ==, 0.2);
  g_assert_cmpfloat (book->changes.soft, ==, 0.1);
  g_assert_cmpfloat (book->changes.overlock_thread, ==, 1.5);
  g_assert_cmpstr (book->changes.source->id, ==, "practice");
}

static void
test_tension (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwTensionPrior *prior = &book->tension;

  /* The file gives the term in place i the mean (i - 10) / 4 and the spread (i + 1) / 8. */
  for (int i = 0; i < HW_N_TENSION_TERMS; i++)
    {
      g_assert_cmpfloat (prior->terms[i].mean, ==, (i - 10) / 4.0);
      g_assert_cmpfloat (prior->terms[i].sd, ==, (i + 1) / 8.0);
    }
  g_assert_cmpfloat (prior->reference_thickness_mm, ==, 0.8);
  g_assert_cmpfloat (prior->thickest_mm, ==, 6);
  g_assert_cmpfloat (prior->thinnest_mm, ==, 0.4);
  g_assert_cmpfloat (prior->reference_length_mm, ==, 2.5);
  g_assert_cmpfloat (prior->longest_mm, ==, 6.5);
  g_assert_cmpfloat (prior->shortest_mm, ==, 1);
  g_assert_cmpfloat (prior->reference_tex, ==, 30);
  g_assert_cmpfloat (prior->cloth_floor, ==, -0.75);
  g_assert_cmpfloat (prior->zigzag_floor, ==, -1.25);
  g_assert_cmpfloat (prior->low_limit, ==, 1);
  g_assert_cmpfloat (prior->low_limit_loose, ==, 0.5);
  g_assert_cmpfloat (prior->high_limit, ==, 8);
  g_assert_cmpfloat (prior->window_below, ==, 0.35);
  g_assert_cmpfloat (prior->window_below_per_mm, ==, 0.3);
  g_assert_cmpfloat (prior->window_thickest_mm, ==, 4);
  g_assert_cmpfloat (prior->window_above, ==, 0.55);
  g_assert_cmpfloat (prior->verdict_noise, ==, 0.4);
  g_assert_cmpstr (book->tension_source->id, ==, "a-book");
}

static void
test_rule_conditions (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwRule *rule = &book->rules[HW_RULES_THREAD][0];

  g_assert_cmpuint (book->n_rules[HW_RULES_THREAD], ==, 1);
  g_assert_cmpint (rule->subject, ==, HW_RULES_THREAD);
  g_assert_cmpint (rule->line, ==, 9);
  assert_range (rule->mass, 200, INFINITY);
  assert_range (rule->thickness, 0.5, 2);
  assert_range (rule->stretch, -INFINITY, 10);
  assert_range (rule->tex, 20, 40);
  assert_range (rule->plies, 2, 4);
  g_assert_cmpuint (rule->constructions, ==, HW_SET (0) | HW_SET (1));
  g_assert_cmpuint (rule->purposes, ==, HW_SET (0));
  g_assert_cmpuint (rule->stitches, ==, HW_SET (0));
  g_assert_cmpuint (rule->machines, ==, 1u << HW_MACHINE_LOCKSTITCH | 1u << HW_MACHINE_OVERLOCK);
  g_assert_cmpuint (rule->forms, ==, 1u << HW_THREAD_SPUN | 1u << HW_THREAD_CORE);
  g_assert_cmpuint (rule->families, ==, 0);
  g_assert_cmpuint (rule->traits, ==, 0);
  g_assert_false (rule->all);
  assert_band (rule->band, 24, 27, 40);
  g_assert_cmpint (rule->choice, ==, -1);
  g_assert_cmpstr (rule->text, ==, "For {mass}, {value} between {low} and {high}.");
  g_assert_cmpstr (rule->source->id, ==, "practice");
}

static void
test_rule_answers (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const HwRule *points = book->rules[HW_RULES_POINT];
  const HwRule *stack = book->rules[HW_RULES_STACK_SIZE];
  const HwRule *ends = book->rules[HW_RULES_ENDS];

  g_assert_cmpuint (book->n_rules[HW_RULES_POINT], ==, 2);
  g_assert_cmpint (points[0].choice, ==, 1);
  g_assert_cmpuint (points[0].accept, ==, HW_SET (0) | HW_SET (1));        /* the choice is always accepted */
  g_assert_cmpint (points[0].rank, ==, 3);
  g_assert_true (points[0].all);
  g_assert_cmpuint (points[0].traits, ==, HW_SET (0));
  g_assert_cmpuint (points[0].without, ==, HW_SET (1));
  g_assert_cmpstr (points[0].text, ==, "Dense cloth needs a strong blade.");
  g_assert_cmpstr (points[0].source->id, ==, "practice");                  /* its table's */
  g_assert_cmpstr (points[1].source->id, ==, "a-book");                    /* its own */
  g_assert_cmpuint (points[1].families, ==, 1u << HW_FAMILY_WOVEN | 1u << HW_FAMILY_KNIT);
  g_assert_cmpuint (points[1].accept, ==, HW_SET (0));
  g_assert_cmpint (points[1].rank, ==, 0);
  g_assert_true (isnan (points[0].band.low));

  g_assert_cmpfloat (stack[0].band.low, ==, 100);
  g_assert_true (isnan (stack[0].band.prefer));
  g_assert_true (isnan (stack[0].band.high));
  g_assert_cmpint (book->rules[HW_RULES_FOOT][0].choice, ==, 2);
  g_assert_cmpint (book->rules[HW_RULES_PLATE][0].choice, ==, 1);
  g_assert_cmpint (ends[0].choice, ==, HW_ENDS_NONE);
  g_assert_cmpint (ends[1].choice, ==, HW_ENDS_BACK_TACK);
  g_assert_cmpuint (ends[1].accept, ==, HW_SET (HW_ENDS_BACK_TACK) | HW_SET (HW_ENDS_KNOT) | HW_SET (HW_ENDS_TAILS));
  assert_band (book->rules[HW_RULES_PRESSURE][0].band, -2, -1, 0);
  g_assert_cmpuint (book->n_rules[HW_RULES_TWIN], ==, 0);
}

static void
test_lookup (void)
{
  g_autoptr (HwHandbook) book = load_good ();
  const char *table = NULL;
  const HwEntry *entry = hw_handbook_find_entry (book, "denim", &table);
  g_autofree char *slip = hw_handbook_nearest_id (book, "fabric", "demin");
  g_autofree char *part = hw_handbook_nearest_id (book, NULL, "jersey");
  g_autofree char *whole = hw_handbook_nearest_id (book, NULL, "fabric/demin");
  g_autofree char *elsewhere = hw_handbook_nearest_id (book, "seam", "demin");
  g_autofree char *none = hw_handbook_nearest_id (book, NULL, "parachute");

  g_assert_true (entry == &book->fabrics[0].entry);
  g_assert_cmpstr (table, ==, "fabric");
  g_assert_true (hw_handbook_find_entry (book, "fabric/denim", NULL) == entry);
  g_assert_null (hw_handbook_find_entry (book, "seam/denim", NULL));
  g_assert_null (hw_handbook_find_entry (book, "nothing/denim", NULL));
  g_assert_null (hw_handbook_find_entry (book, "a-book", NULL));           /* a source is no entry */
  g_assert_true (hw_handbook_find_entry (book, "purpose/seam", &table) == &book->purposes[0].entry);
  g_assert_cmpstr (slip, ==, "denim");
  g_assert_cmpstr (part, ==, "jersey-light");
  g_assert_cmpstr (whole, ==, "denim");
  g_assert_null (elsewhere);
  g_assert_null (none);
  g_assert_cmpint (hw_handbook_find_construction (book, "single-jersey"), ==, 1);
  g_assert_cmpint (hw_handbook_find_trait (book, "pile"), ==, 1);
  g_assert_cmpint (hw_handbook_find_fabric (book, "jersey-light"), ==, 1);
  g_assert_cmpint (hw_handbook_find_system (book, "overlock"), ==, 1);
  g_assert_cmpint (hw_handbook_find_point (book, "jeans"), ==, 1);
  g_assert_cmpint (hw_handbook_find_thread (book, "cotton-30"), ==, 1);
  g_assert_cmpint (hw_handbook_find_stitch (book, "504"), ==, 1);
  g_assert_cmpint (hw_handbook_find_seam (book, "plain"), ==, 0);
  g_assert_cmpint (hw_handbook_find_purpose (book, "baste"), ==, 1);
  g_assert_cmpint (hw_handbook_find_foot (book, "walking"), ==, 2);
  g_assert_cmpint (hw_handbook_find_plate (book, "single-hole"), ==, 1);
  g_assert_cmpint (hw_handbook_find_care (book, "service"), ==, 1);
  g_assert_cmpint (hw_handbook_find_care (book, "denim"), ==, -1);
  g_assert_cmpint (hw_handbook_find_fabric (book, ""), ==, -1);
}

static void
test_reference_count (void)
{
  HwHandbook *book = load_good ();

  g_assert_true (hw_handbook_ref (book) == book);
  hw_handbook_unref (book);
  g_assert_cmpstr (book->fabrics[0].entry.id, ==, "denim");
  hw_handbook_unref (book);
  hw_handbook_unref (NULL);
}

static void *
load_in_thread (void *folder)
{
  return hw_handbook_load (folder, NULL);
}

/* The window plans on a thread of its own; nothing behind the reader may mind. */
static void
test_threads (void)
{
  char *folder = make_good_folder ();
  GThread *threads[8];

  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("load", load_in_thread, folder);
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      HwHandbook *book = g_thread_join (threads[i]);
      g_assert_nonnull (book);
      g_assert_cmpuint (book->n_fabrics, ==, 2);
      hw_handbook_unref (book);
    }
  temp_folder_remove (folder);
}

/* ---- what is refused ---- */

typedef struct
{
  const char     *path;
  int             file;                  /* of good_files */
  const char     *from, *to;             /* the change */
  int             shift;                 /* lines from the change to the line that is blamed */
  HwHandbookError code;
  const char     *message;               /* part of what is said after FILE:LINE */
} Refused;

#define INVALID HW_HANDBOOK_ERROR_INVALID
#define UNKNOWN HW_HANDBOOK_ERROR_UNKNOWN
#define MALFORMED HW_HANDBOOK_ERROR_MALFORMED

static const Refused refused[] = {
  /* the file */
  { "/handbook/refused/cut-short", 0, "</handbook>", "", 1, MALFORMED, "close every element" },
  { "/handbook/refused/doctype", 0, "<!-- Every", "<!DOCTYPE handbook [<!ENTITY a \"b\">]><!-- Every", 0, MALFORMED,
    "take the whole <!DOCTYPE" },
  { "/handbook/refused/newer", 1, "handbook:1", "handbook:2", 0, INVALID, "update Handwheel" },
  { "/handbook/refused/root-attribute", 1, "<handbook ", "<handbook version=\"1\" ", 0, INVALID,
    "<handbook> has no attribute “version”" },
  { "/handbook/refused/element", 0, "<trait id=\"dense\"", "<triat id=\"dense\"", 0, INVALID,
    "a handbook has no <triat> (did you mean <trait>?)" },
  { "/handbook/refused/foreign-element", 0, "<trait id=\"dense\"", "<trait xmlns=\"urn:x\" id=\"dense\"", 0, INVALID,
    "a handbook has no <trait>" },
  { "/handbook/refused/garbage-element", 1, "<plate id=\"zigzag\"", "<automobile id=\"zigzag\"", 0, INVALID,
    "a handbook has no <automobile>; it may have table, source" },

  /* ids */
  { "/handbook/refused/id-missing", 0, "id=\"denim\" ", "", 0, INVALID, "“id” is missing" },
  { "/handbook/refused/id-empty", 0, "id=\"denim\"", "id=\"\"", 0, INVALID, "“id” may hold lower-case letters" },
  { "/handbook/refused/id-endless", 0, "id=\"denim\"",
    "id=\"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\"", 0, INVALID, "64 at most" },
  { "/handbook/refused/id-capitals", 0, "id=\"denim\"", "id=\"Blue Denim\"", 0, INVALID, "it is “Blue Denim”" },
  { "/handbook/refused/id-twice", 0, "id=\"jersey-light\"", "id=\"denim\"", 0, INVALID,
    "fabric “denim” is already at a-cloth.xml:12" },
  { "/handbook/refused/id-twice-elsewhere", 2, "<source id=\"a-book\"",
    "<trait id=\"dense\" name=\"D\" source=\"practice\"/><source id=\"a-book\"", 0, INVALID,
    "trait “dense” is already at a-cloth.xml:" },
  { "/handbook/refused/once-twice", 2, "<hours ", "<hours running-share=\"0.3\" source=\"practice\"/><hours ", 0,
    INVALID, "<hours> is already at c-rules.xml:" },
  { "/handbook/refused/table-twice", 2, "<table for=\"plate\"", "<table for=\"foot\"", 0, INVALID,
    "the table for “foot” is already at c-rules.xml:" },

  /* every figure says where it is from */
  { "/handbook/refused/no-source", 0, " fibre=\"cotton\" source=\"a-book\"", "", -1, INVALID,
    "fabric “denim”: “source” is missing; every figure says where it is from" },
  { "/handbook/refused/unknown-source", 0, "fibre=\"cotton\" source=\"a-book\"", "source=\"a-bok\"", -1, UNKNOWN,
    "fabric “denim”: “source” names “a-bok”, and no <source> has that id (did you mean “a-book”?)" },
  { "/handbook/refused/row-without-source", 2, "high=\"40\" source=\"practice\"", "high=\"40\"", -2, INVALID,
    "table “thread”, row 1: “source” is missing" },
  { "/handbook/refused/hours-without-source", 2, "running-share=\"0.35\" source=\"practice\"", "running-share=\"0.35\"",
    0, INVALID, "hours: “source” is missing" },
  { "/handbook/refused/source-kind", 2, "kind=\"book\"", "kind=\"boook\"", 0, INVALID,
    "source “a-book”: “kind” must be one of standard, book" },
  { "/handbook/refused/source-title", 2, "title=\"A book\"", "title=\" \"", 0, INVALID, "“title” is empty" },

  /* references */
  { "/handbook/refused/construction", 0, "construction=\"twill\"", "construction=\"twil\"", 0, UNKNOWN,
    "fabric “denim”: “construction” names “twil”, and no <construction> has that id (did you mean “twill”?)" },
  { "/handbook/refused/construction-part", 0, "construction=\"single-jersey\"", "construction=\"jersey\"", 0, UNKNOWN,
    "(did you mean “single-jersey”?)" },
  { "/handbook/refused/construction-far", 0, "construction=\"twill\"", "construction=\"parachute\"", 0, UNKNOWN,
    "add the entry or name one that there is" },
  { "/handbook/refused/trait", 0, "traits=\"dense pile\"", "traits=\"dense pil\"", -1, UNKNOWN,
    "“traits” names “pil”" },
  { "/handbook/refused/trait-construction", 0, "<trait id=\"pile\"", "<trait id=\"pile\" constructions=\"twil\"", 0,
    UNKNOWN, "trait “pile”: “constructions” names “twil”, and no <construction> has that id (did you mean “twill”?)" },
  { "/handbook/refused/trait-mass", 0, "<trait id=\"pile\"", "<trait id=\"pile\" mass=\"60\"", 0, INVALID,
    "trait “pile”: “mass”" },
  { "/handbook/refused/traits-empty", 0, "traits=\"dense pile\"", "traits=\"\"", -1, INVALID,
    "“traits” is empty; name at least one, or leave it out" },
  { "/handbook/refused/point-system", 1, "system=\"household\"", "system=\"houshold\"", 0, UNKNOWN,
    "point “jeans”: “system” names “houshold”" },
  { "/handbook/refused/purpose-seam", 1, "seam=\"plain\"", "seam=\"plane\"", 0, UNKNOWN, "(did you mean “plain”?)" },
  { "/handbook/refused/purpose-stitch", 1, "stitch=\"301\"", "stitch=\"999\"", 0, UNKNOWN, "no <stitch> has that id" },
  { "/handbook/refused/foot-fallback", 1, "fallback=\"all-purpose walking\"", "fallback=\"walkng\"", 0, UNKNOWN,
    "foot “straight”: “fallback” names “walkng”" },
  { "/handbook/refused/foot-fallbacks", 1, "fallback=\"all-purpose walking\"",
    "fallback=\"all-purpose walking all-purpose walking walking\"", 0, INVALID, "at most 4" },
  { "/handbook/refused/notch-missing", 1, "slot-mm=\"7\"", "slot-mm=\"7\" needle=\"notch\"", 0, INVALID,
    "foot “walking”: “notch-mm” is missing" },
  { "/handbook/refused/notch-alone", 1, "slot-mm=\"7\"", "slot-mm=\"7\" notch-mm=\"2\"", 0, INVALID,
    "foot “walking”: “notch-mm” stands without needle=\"notch\"" },
  { "/handbook/refused/plate-fallback", 1, "fallback=\"zigzag\"", "fallback=\"all-purpose\"", 0, UNKNOWN,
    "no <plate> has that id" },
  { "/handbook/refused/rule-purpose", 2, "purposes=\"seam\"", "purposes=\"seem\"", -1, UNKNOWN,
    "table “thread”, row 1: “purposes” names “seem”, and no <purpose> has that id (did you mean “seam”?)" },
  { "/handbook/refused/rule-choice", 2, "choice=\"jeans\"", "choice=\"jeens\"", 0, UNKNOWN,
    "table “point”, row 1: “choice” names “jeens”, and no <point>" },
  { "/handbook/refused/rule-accept", 2, "accept=\"all-purpose\"", "accept=\"allpurpose\"", 0, UNKNOWN,
    "table “foot”, row 1: “accept” names “allpurpose”" },
  { "/handbook/refused/tension-term", 0, "tension=\"pile\"", "tension=\"piel\"", 0, INVALID,
    "trait “pile”: “tension” must be one of" },

  /* names, notes, attributes */
  { "/handbook/refused/name-missing", 0, "name=\"Denim\" ", "", 0, INVALID, "fabric “denim”: “name” is missing" },
  { "/handbook/refused/name-empty", 0, "name=\"Denim\"", "name=\"\"", 0, INVALID, "fabric “denim”: “name” is empty" },
  { "/handbook/refused/attribute", 0, "mass=\"400\"", "weight=\"400\"", 0, INVALID,
    "fabric “denim”: <fabric> has no attribute “weight”" },
  { "/handbook/refused/attribute-slip", 0, "stretch=\"2\"", "strech=\"2\"", -1, INVALID, "(did you mean “stretch”?)" },
  { "/handbook/refused/child", 0, "<note>Curls.</note>", "<nota>Curls.</nota>", 0, INVALID,
    "<fabric> may hold no <nota> (did you mean <note>?)" },
  { "/handbook/refused/note-empty", 0, "<note>Curls.</note>", "<note> </note>", 0, INVALID, "<note> is empty" },
  { "/handbook/refused/two-notes", 0, "<note>Curls.</note>", "<note>Curls.</note><note>Rolls.</note>", 0, INVALID,
    "there is already a <note>, at line" },

  /* figures */
  { "/handbook/refused/mass-missing", 0, "mass=\"400\" ", "", 0, INVALID, "fabric “denim”: “mass” is missing" },
  { "/handbook/refused/mass-zero", 0, "mass=\"400\"", "mass=\"0\"", 0, INVALID, "“mass” must be a number from 0.001" },
  { "/handbook/refused/mass-comma", 0, "thickness=\"0.9\"", "thickness=\"0,9\"", 0, INVALID,
    "write it with a point, “0.9”" },
  { "/handbook/refused/mass-band", 0, "mass-low=\"300\"", "mass-low=\"450\"", 0, INVALID,
    "fabric “denim”: mass: the preferred value must lie between" },
  { "/handbook/refused/thickness-band", 0, "thickness-high=\"1.1\"", "thickness-high=\"0.8\"", -1, INVALID,
    "thickness: the preferred value" },
  { "/handbook/refused/under-foot", 0, "under-foot=\"0.8\"", "under-foot=\"1.2\"", 0, INVALID,
    "construction “twill”: “under-foot” must be a number from 0.05 to 1" },
  { "/handbook/refused/family", 0, "family=\"knit\"", "family=\"knitted\"", 0, INVALID,
    "“family” must be one of woven" },
  { "/handbook/refused/form", 1, "form=\"spun\"", "form=\"spin\"", 0, INVALID, "(did you mean “spun”?)" },
  { "/handbook/refused/machines", 1, "machines=\"overlock\" source", "machines=\"serger\" source", 0, INVALID,
    "“machines” may hold lockstitch, overlock, coverstitch; it holds “serger”" },
  { "/handbook/refused/sizes-order", 1, "sizes=\"60 70 80 90\"", "sizes=\"60 80 70 90\"", 0, INVALID,
    "point “universal”: “sizes” must be Nm numbers from 30 to 300, each larger than the one before; “70” is not" },
  { "/handbook/refused/sizes-twice", 1, "sizes=\"60 70 80 90\"", "sizes=\"60 60\"", 0, INVALID, "“60” is not" },
  { "/handbook/refused/sizes-us", 1, "sizes=\"60 70 80 90\"", "sizes=\"8 10\"", 0, INVALID, "“8” is not" },
  { "/handbook/refused/sizes-empty", 1, "sizes=\"60 70 80 90\"", "sizes=\"\"", 0, INVALID, "“sizes” is empty" },
  { "/handbook/refused/twins", 1, "twins=\"2.5/75", "twins=\"75/2.5", -1, INVALID,
    "such as “2.5/75”; “75/2.5” is not" },
  { "/handbook/refused/length", 1, "length=\"0.5 5\"", "length=\"5 0.5\"", 0, INVALID,
    "stitch “301”: “length” must be two numbers, the lower first" },
  { "/handbook/refused/length-open", 1, "length=\"0.5 5\"", "length=\"0.5 -\"", 0, INVALID, "“length” must be two" },
  { "/handbook/refused/bobbin", 1, "bobbin=\"yes\"", "bobbin=\"true\"", 0, INVALID, "“bobbin” must be one of no, yes" },
  { "/handbook/refused/ratio-missing", 1, "ratio=\"14\" ", "", -1, INVALID, "stitch “504”: “ratio” is missing" },
  { "/handbook/refused/share-missing", 1, "needle-share=\"0.2\" ", "", -1, INVALID, "“needle-share” is missing" },
  { "/handbook/refused/mark", 1, "mark=\"straight\"", "mark=\"strait\"", -1, INVALID, "“mark” must be one of" },
  { "/handbook/refused/seam-class", 1, "class=\"1\"", "class=\"9\"", 0, INVALID, "a whole number from 1 to 8" },
  { "/handbook/refused/ply", 1, "points=\"0,20 60,20\"", "points=\"0,20 60\"", 0, INVALID,
    "seam “plain”: “points” must be two or more points x,y within 0..100 and 0..60, such as “0,20 60,20”; “60” is "
    "not" },
  { "/handbook/refused/ply-single", 1, "points=\"0,20 60,20\"", "points=\"0,20\"", 0, INVALID, "two or more points" },
  { "/handbook/refused/ply-outside", 1, "points=\"0,20 60,20\"", "points=\"0,20 60,70\"", 0, INVALID,
    "“60,70” is not" },
  { "/handbook/refused/ply-dot", 1, "points=\"0,20 60,20\"", "points=\",20 60,20\"", 0, INVALID, "“,20” is not" },
  { "/handbook/refused/seam-stitch", 1, "<stitch x1=\"40\"", "<stitch x1=\"400\"", 0, INVALID,
    "“x1” must be a number from 0 to 100" },
  { "/handbook/refused/clock", 2, "clock=\"months\"", "clock=\"weeks\"", 0, INVALID,
    "care “service”: “clock” must be" },
  { "/handbook/refused/no-step", 2, "<step>Take it to a qualified technician.</step>", "", -1, INVALID,
    "care “service”: there is no <step>; say what is to be done" },
  { "/handbook/refused/step-attribute", 2, "<step>Take it", "<step n=\"1\">Take it", 0, INVALID,
    "<step> has no attribute “n”; it may have none" },
  { "/handbook/refused/changes", 2, "foot=\"0.4\" ", "", 0, INVALID, "changes: “foot” is missing" },
  { "/handbook/refused/tension-missing", 2, "<term id=\"thicker\" mean=\"-1\" sd=\"0.875\"/>", "", -10, INVALID,
    "tension: the term “thicker” is missing; add <term id=\"thicker\"" },
  { "/handbook/refused/tension-twice", 2, "<term id=\"thinner\"", "<term id=\"thicker\"", 0, INVALID,
    "the term “thicker” is already at line" },
  { "/handbook/refused/tension-unknown", 2, "<term id=\"thinner\"", "<term id=\"thiner\"", 0, INVALID,
    "(did you mean “thinner”?)" },
  { "/handbook/refused/tension-order", 2, "thickest=\"6\"", "thickest=\"0.5\"", 0, INVALID,
    "tension: thinnest, reference-thickness, thickest: the preferred value" },

  /* rules */
  { "/handbook/refused/table-subject", 2, "<table for=\"pressure\"", "<table for=\"presure\"", 0, INVALID,
    "(did you mean “pressure”?)" },
  { "/handbook/refused/table-no-subject", 2, "<table for=\"pressure\" ", "<table ", 0, INVALID, "“for” is missing" },
  { "/handbook/refused/row-band", 2, "low=\"24\"", "low=\"30\"", -1, INVALID,
    "low, prefer, high: the preferred value" },
  { "/handbook/refused/row-half-a-band", 2, "high=\"40\" ", "", -2, INVALID, "“high” is missing" },
  { "/handbook/refused/row-no-choice", 2, "choice=\"jeans\" ", "", 0, INVALID, "“choice” is missing" },
  { "/handbook/refused/row-choice-of-number", 2, "low=\"24\"", "choice=\"jeans\" low=\"24\"", -1, INVALID,
    "<row> has no attribute “choice”" },
  { "/handbook/refused/row-range", 2, "thickness=\"0.5 2\"", "thickness=\"2\"", 0, INVALID,
    "“thickness” must be two numbers, the lower first, with “-” for an open end; it is “2”" },
  { "/handbook/refused/row-range-order", 2, "thickness=\"0.5 2\"", "thickness=\"2 0.5\"", 0, INVALID,
    "the lower first" },
  { "/handbook/refused/row-form", 2, "threads=\"spun core\"", "threads=\"spun cor\"", -1, INVALID,
    "“threads” may hold spun, core" },
  { "/handbook/refused/row-text", 2, ">Light.<", "><", 0, INVALID, "<row> is empty; write the sentence" },
  { "/handbook/refused/row-place", 2, "{thickness}", "{thick}", 0, INVALID, "it holds “{thick”" },
  { "/handbook/refused/row-open-place", 2, "{thickness}", "{thickness", 0, INVALID, "the sentence may hold {value}" },
  { "/handbook/refused/row-ends", 2, "choice=\"none\"", "choice=\"nothing\"", 0, INVALID,
    "table “ends”, row 1: “choice” must be one of none, back-tack" },
  { "/handbook/refused/row-child", 2, ">Light.<", "><b>Light.</b><", 0, INVALID, "<row> may hold no <b>" },
  { "/handbook/refused/table-child", 2, "<row low=\"-2\" prefer=\"-1\" high=\"0\">Light.</row>",
    "<rwo low=\"-2\" prefer=\"-1\" high=\"0\">Light.</rwo>", 0, INVALID, "(did you mean <row>?)" },
};

/* Replaces the first @from of the file and tells the line it began on. */
static int
change_file (const char    *folder,
             const Refused *c)
{
  g_autofree char *text = temp_folder_read (folder, good_files[c->file]);
  g_autofree char *changed = NULL;
  const char *at = strstr (text, c->from);
  int line = 1;

  g_assert_nonnull (at);
  for (const char *before = text; before < at; before++)
    line += *before == '\n';
  changed = g_strdup_printf ("%.*s%s%s", (int) (at - text), text, c->to, at + strlen (c->from));
  temp_folder_write (folder, good_files[c->file], changed, -1);
  return line;
}

static void
test_refused (gconstpointer data)
{
  const Refused *c = data;
  g_autoptr (GError) error = NULL;
  char *folder = make_good_folder ();
  int line = change_file (folder, c) + c->shift;
  g_autofree char *place = g_strdup_printf ("%s:%d: ", good_files[c->file], line);
  g_autoptr (HwHandbook) book = hw_handbook_load (folder, &error);

  temp_folder_remove (folder);
  g_assert_null (book);
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  g_assert_error (error, HW_HANDBOOK_ERROR, (int) c->code);
  g_assert_null (strchr (error->message, '\n'));
  if (!g_str_has_prefix (error->message, place) || strstr (error->message, c->message) == NULL)
    {
      g_test_message ("expected “%s…%s…”", place, c->message);
      g_test_fail ();
    }
}

static void
assert_not_loaded (const char      *folder,
                   HwHandbookError  code,
                   const char      *message)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) book = hw_handbook_load (folder, &error);

  g_assert_null (book);
  g_assert_error (error, HW_HANDBOOK_ERROR, (int) code);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, message));
}

static void
test_once_missing (void)
{
  static const char * const elements[] = { "needle-life", "hours", "changes", "tension" };

  for (gsize i = 0; i < G_N_ELEMENTS (elements); i++)
    {
      char *folder = make_good_folder ();
      g_autofree char *text = temp_folder_read (folder, "c-rules.xml");
      g_autofree char *opening = g_strdup_printf ("<%s ", elements[i]);
      g_autofree char *message = g_strdup_printf ("no file has <%s>", elements[i]);
      char *start = strstr (text, opening);
      const char *closing = i == 3 ? "</tension>" : "/>";
      char *end = strstr (start, closing) + strlen (closing);

      memset (start, ' ', (gsize) (end - start));
      temp_folder_write (folder, "c-rules.xml", text, -1);
      assert_not_loaded (folder, INVALID, message);
      temp_folder_remove (folder);
    }
}

static void
test_too_many (void)
{
  char *folder = make_good_folder ();
  g_autoptr (GString) text = g_string_new ("<handbook xmlns=\"urn:handwheel:handbook:1\">");
  g_autoptr (GError) error = NULL;
  HwHandbook *book;

  for (int i = 0; i < 62; i++)           /* two are in the good folder */
    g_string_append_printf (text, "\n<trait id=\"t%d\" name=\"T\" source=\"practice\"/>", i);
  g_string_append (text, "</handbook>");
  temp_folder_write (folder, "d.xml", text->str, -1);
  book = hw_handbook_load (folder, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (book->n_traits, ==, 64);
  hw_handbook_unref (book);

  g_string_truncate (text, text->len - strlen ("</handbook>"));
  g_string_append (text, "\n<trait id=\"last\" name=\"T\" source=\"practice\"/></handbook>");
  temp_folder_write (folder, "d.xml", text->str, -1);
  assert_not_loaded (folder, INVALID, "d.xml:64: there can be at most 64 <trait>");
  temp_folder_remove (folder);
}

static void
test_folder (void)
{
  char *folder = temp_folder_new ();
  g_autofree char *absent = g_build_filename (folder, "absent", NULL);

  assert_not_loaded (absent, HW_HANDBOOK_ERROR_READ, "absent");
  assert_not_loaded (folder, HW_HANDBOOK_ERROR_READ, "this one has 0");
  temp_folder_remove (folder);

  folder = make_good_folder ();
  temp_folder_write (folder, "handbook.rng", "<grammar", -1);
  assert_not_loaded (folder, MALFORMED, "handbook.rng:1:");
  temp_folder_remove (folder);

  folder = temp_folder_new ();           /* no schema at all */
  temp_folder_write (folder, "a.xml", "<handbook xmlns=\"urn:handwheel:handbook:1\"/>", -1);
  assert_not_loaded (folder, INVALID, "no file has");
  temp_folder_remove (folder);
}

/* Copies that editors and the crash-safe writer leave behind are not part of the handbook. */
static void
test_other_files (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = make_good_folder ();
  HwHandbook *book;

  temp_folder_write (folder, "a-cloth.xml~", "<nonsense", -1);
  temp_folder_write (folder, ".a-cloth.xml", "<nonsense", -1);
  temp_folder_write (folder, "readme.txt", "nonsense", -1);
  book = hw_handbook_load (folder, &error);
  g_assert_no_error (error);
  hw_handbook_unref (book);
  temp_folder_remove (folder);
}

/* The typed reader looks at elements; stray text between them gets as far as the schema. */
static void
test_second_fence (void)
{
  static const Refused stray = { NULL, 1, "<ply points=\"0,20 60,20\"/>", "stray <ply points=\"0,20 60,20\"/>", 0,
                                 INVALID, NULL };
  char *folder = make_good_folder ();

  change_file (folder, &stray);
  assert_not_loaded (folder, INVALID, "this does not follow the schema");
  temp_folder_remove (folder);
}

static void
test_big_file (void)
{
  char *folder = make_good_folder ();
  g_autoptr (GString) text = g_string_new ("<handbook xmlns=\"urn:handwheel:handbook:1\"><!--");

  while (text->len < 5u << 20)
    g_string_append (text, " padding, more than any real file has of it, again and again ");
  g_string_append (text, "--></handbook>");
  temp_folder_write (folder, "big.xml", text->str, (gssize) text->len);
  assert_not_loaded (folder, HW_HANDBOOK_ERROR_READ, "big.xml: is too big");
  temp_folder_remove (folder);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/handbook/sources", test_sources);
  g_test_add_func ("/handbook/cloth", test_cloth);
  g_test_add_func ("/handbook/needles-and-threads", test_needles_and_threads);
  g_test_add_func ("/handbook/stitches", test_stitches);
  g_test_add_func ("/handbook/seams-and-feet", test_seams_and_feet);
  g_test_add_func ("/handbook/care", test_care);
  g_test_add_func ("/handbook/tension", test_tension);
  g_test_add_func ("/handbook/rule-conditions", test_rule_conditions);
  g_test_add_func ("/handbook/rule-answers", test_rule_answers);
  g_test_add_func ("/handbook/lookup", test_lookup);
  g_test_add_func ("/handbook/reference-count", test_reference_count);
  g_test_add_func ("/handbook/threads", test_threads);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    g_test_add_data_func (refused[i].path, &refused[i], test_refused);
  g_test_add_func ("/handbook/refused/once-missing", test_once_missing);
  g_test_add_func ("/handbook/refused/too-many", test_too_many);
  g_test_add_func ("/handbook/refused/folder", test_folder);
  g_test_add_func ("/handbook/refused/second-fence", test_second_fence);
  g_test_add_func ("/handbook/refused/big-file", test_big_file);
  g_test_add_func ("/handbook/other-files", test_other_files);
  return g_test_run ();
}
