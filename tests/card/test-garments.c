/* test-garments.c - whole garments through handbook and planner to cards on every paper, in the language of the process
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card-checks.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <string.h>

#include "model/garment-project.h"
#include "model/project-translate.h"
#include "words/words.h"

/* Every project in these folders, save one that is there to be refused. */
static const char * const folders[] = { "tests/plan/garments", "tests/plan/garments/far", "data/demo/projects" };

#define REFUSED "unknown-cloth"
/* With NARROWEST_SHEETS set, as for other languages, only the narrowest of the large and of the small ones. */
static const struct { HwPaper paper; int per_sheet; gboolean is_narrowest; } sheets_tried[] = {
  { HW_PAPER_A5, 1, FALSE }, { HW_PAPER_A6, 1, FALSE }, { HW_PAPER_A4, 2, FALSE }, { HW_PAPER_A4, 4, FALSE },
  { HW_PAPER_LETTER, 2, TRUE }, { HW_PAPER_LETTER, 4, TRUE },
};

static HwHandbook *
load_handbook (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autoptr (GError) error = NULL;
  HwHandbook *handbook = hw_handbook_load_with_overlay (folder, NULL, hw_words_translate, NULL, &error);

  g_assert_no_error (error);
  return handbook;
}

static HwPlan *
make_plan (const HwHandbook *handbook,
           const HwProject  *project)
{
  g_autofree char *room_folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "demo", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = hw_room_open (room_folder, &error);
  HwPlan *plan;

  g_assert_no_error (error);
  hw_words_take_style (room->preferences);
  plan = hw_plan_new (handbook, project, room, &error);
  g_assert_no_error (error);
  return plan;
}

static guint
find_place (HwSheets *sheets,
            int       group)
{
  guint place = 0;

  while (hw_sheets_get_card (sheets, place) != NULL && hw_card_get_group (hw_sheets_get_card (sheets, place)) < group)
    place++;
  return place;
}

/* The cards of one set-up; returns how many. */
static guint
check_group (const HwPlan         *plan,
             HwSheets             *sheets,
             const HwSheetOptions *options,
             int                   group)
{
  g_autofree char *what = g_strdup_printf ("%s %s, %d a sheet, set-up %s", plan->project->title,
                                           hw_paper_ids[options->paper], options->per_sheet,
                                           hw_plan_get_group (plan, group)->letter);
  gboolean is_small = options->paper == HW_PAPER_A6 || options->per_sheet == 4;
  guint first = find_place (sheets, group);
  g_autoptr (GPtrArray) cards = g_ptr_array_new ();
  const HwCard *card;

  while ((card = hw_sheets_get_card (sheets, first + cards->len)) != NULL && hw_card_get_group (card) == group)
    {
      g_autofree char *which = g_strdup_printf ("%s, card %u", what, cards->len + 1);

      card_check_room (card, which);
      card_check_uncut (card, which);
      card_check_sizes (card, is_small);
      g_ptr_array_add (cards, (HwCard *) card);
    }
  g_assert_cmpuint (cards->len, >=, 1);
  card_check_list (plan, group, (HwCard * const *) cards->pdata, cards->len, is_small, what);
  if (!is_small)
    card_check_seams (plan, (HwCard * const *) cards->pdata, cards->len, what);
  card_check_changes (plan, group, (HwCard * const *) cards->pdata, cards->len, what);
  for (guint i = 0; i < cards->len; i++)
    {
      const GArray *steps = hw_card_get_steps (cards->pdata[i]);

      for (guint j = 0; j < steps->len; j++)
        g_assert_cmpint (hw_sheets_find_page (sheets, plan, group, g_array_index (steps, gsize, j)), ==,
                         (int) (first + i) / MAX (options->per_sheet, 1));
    }
  return cards->len;
}

static void
check_sheets (const HwPlan *plan,
              gsize         which)
{
  const HwSheetOptions options = { sheets_tried[which].paper, sheets_tried[which].per_sheet, NULL, 0 };
  g_autoptr (HwSheets) sheets = hw_sheets_new (plan, &options);
  guint n_cards = 0;

  for (guint i = 0; i < plan->groups->len; i++)
    n_cards += check_group (plan, sheets, &options, (int) i);
  g_assert_null (hw_sheets_get_card (sheets, n_cards));
  g_assert_cmpint (hw_sheets_get_n_pages (sheets), ==,
                   ((int) n_cards + options.per_sheet - 1) / options.per_sheet);
}

/* The steps of each card, card after card. (transfer full) */
static char *
list_by_card (const HwPlan         *plan,
              const HwSheetOptions *options)
{
  g_autoptr (HwSheets) sheets = hw_sheets_new (plan, options);
  g_autoptr (GString) list = g_string_new (NULL);
  const HwCard *card;

  for (guint i = 0; (card = hw_sheets_get_card (sheets, i)) != NULL; i++)
    {
      g_autofree char *what = g_strdup_printf ("%s %s, card %u", plan->project->title, hw_paper_ids[options->paper], i);
      const GArray *steps = hw_card_get_steps (card);

      card_check_room (card, what);
      card_check_uncut (card, what);
      card_check_sizes (card, options->paper == HW_PAPER_A6);
      for (guint j = 0; j < steps->len; j++)
        g_string_append_printf (list, "%s ",
                                hw_project_get_step (plan->project, g_array_index (steps, gsize, j))->number);
      g_string_append (list, "| ");
    }
  return g_string_free (g_steal_pointer (&list), FALSE);
}

static void
mark_sewn (const HwPlan *plan,
           guint         n)
{
  for (guint i = 0; i < n; i++)
    g_array_index (plan->order, HwPlanStep, i).done = TRUE;
}

/* Its set-up is left so often that the next step's large values, once others were, leave no room: what is other than
 * those is said each time that it is come back to. */
static gboolean
is_full (const HwPlan *plan,
         HwPaper       paper)
{
  return paper == HW_PAPER_A5 && g_str_equal (plan->project->id, "jeans");
}

/* Printed again in the middle of the work, the cards have the same rows. */
static void
check_printed_again (const HwPlan *plan)
{
  static const HwPaper papers[] = { HW_PAPER_A5, HW_PAPER_A6 };
  g_autoptr (GPtrArray) before = g_ptr_array_new_with_free_func (g_free);

  for (gsize i = 0; i < G_N_ELEMENTS (papers); i++)
    g_ptr_array_add (before, list_by_card (plan, &(HwSheetOptions) { papers[i], 1, NULL, 0 }));
  for (guint part = 1; part <= 3; part++)
    {
      mark_sewn (plan, plan->order->len * part / 4);
      for (gsize i = 0; i < G_N_ELEMENTS (papers); i++)
        {
          g_autofree char *again = list_by_card (plan, &(HwSheetOptions) { papers[i], 1, NULL, 0 });

          if (is_full (plan, papers[i]) || g_str_equal (again, before->pdata[i]))
            continue;
          g_test_message ("%s %s, %u quarters sewn: %s, not %s", plan->project->title, hw_paper_ids[papers[i]], part,
                          again, (char *) before->pdata[i]);
          g_test_fail ();
        }
    }
}

static void
check_plan (const HwPlan *plan)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sheets_tried); i++)
    if (g_getenv ("NARROWEST_SHEETS") == NULL || sheets_tried[i].is_narrowest)
      check_sheets (plan, i);
}

static void
test_project (gconstpointer data)
{
  g_autoptr (HwHandbook) handbook = load_handbook ();
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) read = hw_project_read (data, &error);
  g_autoptr (HwProject) project = NULL;
  g_autoptr (HwPlan) plan = NULL;

  g_assert_no_error (error);
  project = hw_project_translate (read, hw_words_translate);
  plan = make_plan (handbook, project);
  check_plan (plan);
  if (g_getenv ("NARROWEST_SHEETS") == NULL)
    check_printed_again (plan);
}

/* ---- every garment of the handbook ---- */

static void
test_garment (gconstpointer data)
{
  g_autoptr (HwHandbook) handbook = load_handbook ();
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = hw_garment_make (handbook, &handbook->garments[GPOINTER_TO_SIZE (data)], NULL, NULL,
                                                   NULL, "made", &error);
  g_autoptr (HwPlan) plan = NULL;

  g_assert_no_error (error);
  plan = make_plan (handbook, project);
  check_plan (plan);
  if (g_getenv ("NARROWEST_SHEETS") == NULL)
    check_printed_again (plan);
}

/* Where another set-up comes in between, a later card has the test seam, in smaller type if need be. */
static void
test_come_back (void)
{
  g_autoptr (HwHandbook) handbook = load_handbook ();
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) cards = NULL;
  HwProjectFabric *cloth;
  const char * const fabrics[] = { "flannel", NULL, NULL, NULL };
  guint n = 0;

  for (gsize i = 0; i < handbook->n_garments && project == NULL; i++)
    if (g_str_equal (handbook->garments[i].entry.id, "shirt"))
      project = hw_garment_make (handbook, &handbook->garments[i], NULL, fabrics, NULL, "made", &error);
  g_assert_no_error (error);
  cloth = project->fabrics->pdata[0];
  cloth->mass_g_m2 = 150;
  cloth->thickness_mm = 0.45;
  plan = make_plan (handbook, project);
  cards = hw_card_layout (plan, 0, HW_PAPER_A5, NULL);
  for (guint i = 1; i < cards->len; i++)
    if (card_count_boxes (cards->pdata[i], "step-then") > 0)
      {
        n++;
        g_assert_cmpuint (card_count_boxes (cards->pdata[i], "test-label"), ==, 1);
      }
  g_assert_cmpuint (n, >=, 1);
}

static void
add_garments (void)
{
  g_autoptr (HwHandbook) handbook = load_handbook ();

  for (gsize i = 0; i < handbook->n_garments; i++)
    {
      g_autofree char *test = g_strdup_printf ("/garments/handbook/%s", handbook->garments[i].entry.id);

      g_test_add_data_func (test, GSIZE_TO_POINTER (i), test_garment);
    }
  /* Longer languages may have no room for it in any type. */
  if (g_getenv ("NARROWEST_SHEETS") == NULL)
    g_test_add_func ("/garments/come-back", test_come_back);
}

static guint
add_folder (const char *folder)
{
  g_autofree char *path = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "..", folder, NULL);
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *stem = g_strndup (name, strcspn (name, "."));
      g_autofree char *test = g_strdup_printf ("/garments/project/%s", stem);

      if (!g_str_has_suffix (name, ".handwheel") || g_str_equal (stem, REFUSED))
        continue;
      g_test_add_data_func_full (test, g_build_filename (path, name, NULL), test_project, g_free);
      n++;
    }
  return n;
}

int
main (int    argc,
      char **argv)
{
  guint n = 0;

  g_test_init (&argc, &argv, NULL);
  g_assert_nonnull (setlocale (LC_ALL, ""));
  if (g_getenv ("HANDWHEEL_LOCALE_DIR") != NULL)
    bindtextdomain (GETTEXT_PACKAGE, g_getenv ("HANDWHEEL_LOCALE_DIR"));
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    n += add_folder (folders[i]);
  g_assert_cmpuint (n, >=, 5);
  add_garments ();
  return g_test_run ();
}
