/* test-garments.c - whole garments through handbook and planner to cards on every paper, in the language of the process
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card-checks.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <string.h>

#include "model/project-translate.h"
#include "words/words.h"

/* Every project in these folders, save one that is there to be refused. */
static const char * const folders[] = { "tests/plan/garments", "tests/plan/garments/far", "data/demo/projects" };

#define REFUSED "unknown-cloth"
#define LONG_LIST 10

/* With NARROWEST_SHEETS set, as for other languages, only the narrowest of the large and of the small ones. */
static const struct { HwPaper paper; int per_sheet; gboolean is_narrowest; } sheets_tried[] = {
  { HW_PAPER_A5, 1, FALSE }, { HW_PAPER_A6, 1, FALSE }, { HW_PAPER_A4, 2, FALSE }, { HW_PAPER_A4, 4, FALSE },
  { HW_PAPER_LETTER, 2, TRUE }, { HW_PAPER_LETTER, 4, TRUE },
};

/* Other languages are longer than ours: names of steps may be shortened in them, and lists. */
static gboolean
is_english (void)
{
  return g_str_equal (_("Needle"), "Needle");
}

static HwPlan *
make_plan (const char *path)
{
  const char *data = g_getenv ("HANDWHEEL_DATA_DIR");
  g_autofree char *handbook_folder = g_build_filename (data, "handbook", NULL);
  g_autofree char *room_folder = g_build_filename (data, "demo", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) handbook = hw_handbook_load_with_overlay (handbook_folder, NULL, hw_words_translate, NULL,
                                                                   &error);
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwProject) read = NULL;
  g_autoptr (HwProject) project = NULL;
  HwPlan *plan = NULL;

  g_assert_no_error (error);
  room = hw_room_open (room_folder, &error);
  g_assert_no_error (error);
  read = hw_project_read (path, &error);
  g_assert_no_error (error);
  project = hw_project_translate (read, hw_words_translate);
  hw_words_take_style (room->preferences);
  plan = hw_plan_new (handbook, project, room, &error);
  g_assert_no_error (error);
  return plan;
}

static guint
count_step_boxes (const HwCard *card,
                  const char   *role)
{
  const GArray *boxes = hw_card_get_boxes (card);
  guint n = 0;

  for (guint i = 0; i < boxes->len; i++)
    n += g_str_equal (g_array_index (boxes, HwBox, i).role, role) ? 1 : 0;
  return n;
}

static void
check_sheets (const HwPlan *plan,
              gsize         which)
{
  const HwSheetOptions options = { sheets_tried[which].paper, sheets_tried[which].per_sheet, NULL, 0 };
  g_autoptr (HwSheets) sheets = hw_sheets_new (plan, &options);
  gboolean is_small = options.paper == HW_PAPER_A6 || options.per_sheet == 4;

  for (guint i = 0; i < plan->groups->len; i++)
    {
      const HwGroup *group = plan->groups->pdata[i];
      const HwCard *card = hw_sheets_get_card (sheets, i);
      g_autofree char *what = g_strdup_printf ("%s %s, %d a sheet, card %s", plan->project->title,
                                               hw_paper_ids[options.paper],
                                               options.per_sheet, group->letter);

      g_assert_nonnull (card);
      card_check_room (card, what);
      card_check_uncut (card, what);
      card_check_sizes (card, is_small);
      /* Every step of a real garment finds its place, on an A5 card with its whole name unless there are many. */
      if (count_step_boxes (card, "step-name") != group->members->len
          && (is_english () || count_step_boxes (card, "steps-more") != 1))
        {
          g_test_message ("%s: %u of %u steps", what, count_step_boxes (card, "step-name"), group->members->len);
          g_test_fail ();
        }
      for (guint j = 0; j < hw_card_get_boxes (card)->len; j++)
        {
          const HwBox *box = &g_array_index (hw_card_get_boxes (card), HwBox, j);

          if (!is_english () || is_small || options.paper == HW_PAPER_LETTER || group->members->len > LONG_LIST
              || !g_str_equal (box->role, "step-name") || !box->cut)
            continue;
          g_test_message ("%s: “%s” is cut", what, box->text);
          g_test_fail ();
        }
    }
  g_assert_null (hw_sheets_get_card (sheets, plan->groups->len));
}

static void
test_garment (gconstpointer data)
{
  g_autoptr (HwPlan) plan = make_plan (data);

  for (gsize i = 0; i < G_N_ELEMENTS (sheets_tried); i++)
    if (g_getenv ("NARROWEST_SHEETS") == NULL || sheets_tried[i].is_narrowest)
      check_sheets (plan, i);
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
      g_autofree char *test = g_strdup_printf ("/garments/%s", stem);

      if (!g_str_has_suffix (name, ".handwheel") || g_str_equal (stem, REFUSED))
        continue;
      g_test_add_data_func_full (test, g_build_filename (path, name, NULL), test_garment, g_free);
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
  return g_test_run ();
}
