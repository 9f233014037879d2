/* test-handout.c - a set of cards for each machine of a class
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gstdio.h>
#include <string.h>

#include "card/card.h"
#include "temp-folder.h"

#define PROJECT "demo/projects/stage-cape.handwheel"
#define CARDS_A_MACHINE 8        /* set-ups of the cape at a lockstitch machine */

typedef struct
{
  char   *folder;
  HwPlan *plan;
} Fixture;

static char *
read_machine (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "demo", "machines", name, NULL);
  char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return text;
}

/* The demo's lockstitch machine once more under another name, its dial in another form. */
static void
add_machine (const char *folder,
             const char *text,
             const char *id,
             const char *dial)
{
  g_autofree char *name = g_strconcat (id, ".xml", NULL);
  g_autoptr (GString) xml = g_string_new (text);

  g_string_replace (xml, "id=\"lockstitch\" name=\"Lockstitch machine\"", "id=\"@\" name=\"Class @\"", 1);
  g_string_replace (xml, "@", id, 2);
  g_string_replace (xml, "dial=\"edge-wheel\" dial-low=\"0\" dial-high=\"9\" dial-neutral=\"4\"", dial, 1);
  temp_folder_write (folder, name, xml->str, -1);
}

static void
set_up (Fixture      *fixture,
        gconstpointer data)
{
  const char *data_folder = g_getenv ("HANDWHEEL_DATA_DIR");
  g_autofree char *handbook_folder = g_build_filename (data_folder, "handbook", NULL);
  g_autofree char *path = g_build_filename (data_folder, PROJECT, NULL);
  g_autofree char *machines = NULL;
  g_autofree char *text = read_machine ("lockstitch.xml");
  g_autofree char *overlocker = read_machine ("overlocker.xml");
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) handbook = hw_handbook_load (handbook_folder, &error);
  g_autoptr (HwProject) project = hw_project_read (path, NULL);
  g_autoptr (HwRoom) room = NULL;

  g_assert_no_error (error);
  fixture->folder = temp_folder_new ();
  machines = g_build_filename (fixture->folder, "machines", NULL);
  g_assert_cmpint (g_mkdir (machines, 0700), ==, 0);
  temp_folder_write (machines, "lockstitch.xml", text, -1);
  temp_folder_write (machines, "overlocker.xml", overlocker, -1);
  add_machine (machines, text, "blue", "dial=\"knob\" dial-low=\"0\" dial-high=\"8\" dial-neutral=\"3\"");
  add_machine (machines, text, "window-seat", "dial=\"number\" dial-low=\"1\" dial-high=\"10\" dial-neutral=\"6\"");
  room = hw_room_open (fixture->folder, &error);
  g_assert_no_error (error);
  fixture->plan = hw_plan_new (handbook, project, room, &error);
  g_assert_no_error (error);
}

static void
tear_down (Fixture      *fixture,
           gconstpointer data)
{
  hw_plan_unref (fixture->plan);
  temp_folder_remove (fixture->folder);
}

static const HwBox *
find_box (const HwCard *card,
          HwBoxKind     kind)
{
  const GArray *boxes = hw_card_get_boxes (card);

  for (guint i = 0; i < boxes->len; i++)
    if (g_array_index (boxes, HwBox, i).kind == kind)
      return &g_array_index (boxes, HwBox, i);
  return NULL;
}

static gboolean
says (const HwCard *card,
      const char   *text)
{
  const GArray *boxes = hw_card_get_boxes (card);

  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);
      if (box->kind == HW_BOX_TEXT && strstr (box->text, text) != NULL)
        return TRUE;
    }
  return FALSE;
}

/* How many cards from @from on speak of @machine. */
static guint
count_cards (HwSheets   *sheets,
             guint       from,
             const char *machine)
{
  guint n = 0;

  while (hw_sheets_get_card (sheets, from + n) != NULL && says (hw_sheets_get_card (sheets, from + n), machine))
    n++;
  return n;
}

/* Each machine's set is whole, speaks of that machine, and starts at its own number. */
static void
test_own_dials (Fixture      *fixture,
                gconstpointer data)
{
  const char * const ids[] = { "lockstitch", "blue", "window-seat", NULL };
  const char * const names[] = { "Lockstitch machine", "Class blue", "Class window-seat" };
  const HwSheetOptions options = { HW_PAPER_A5, 1, NULL, 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSheets) sheets = hw_handout_new (fixture->plan, ids, &options, &error);
  double start[3] = { 0 };
  guint from = 0;

  g_assert_no_error (error);
  for (guint i = 0; i < 3; i++)
    {
      guint n = count_cards (sheets, from, names[i]);

      g_assert_cmpuint (n, >=, CARDS_A_MACHINE);
      start[i] = find_box (hw_sheets_get_card (sheets, from), HW_BOX_DIAL)->value[0];
      from += n;
    }
  g_assert_cmpint (hw_sheets_get_n_pages (sheets), ==, (int) from);
  /* the neutral numbers 4, 3 and 6 lie as far from each other as the starts */
  g_assert_cmpfloat_with_epsilon (start[0] - start[1], 1, 0.51);
  g_assert_cmpfloat_with_epsilon (start[2] - start[0], 2, 0.51);
}

/* One student's cards are never on the same sheet as another's, however many they are. */
static void
test_sheets_are_not_shared (Fixture      *fixture,
                            gconstpointer data)
{
  const char * const ids[] = { "blue", "window-seat", NULL };

  for (guint per_sheet = 2; per_sheet <= 4; per_sheet += 2)
    {
      const HwSheetOptions options = { HW_PAPER_A4, (int) per_sheet, NULL, 0 };
      g_autoptr (HwSheets) sheets = hw_handout_new (fixture->plan, ids, &options, NULL);
      guint blue = count_cards (sheets, 0, "Class blue");
      guint second = (blue + per_sheet - 1) / per_sheet * per_sheet;
      guint seat = count_cards (sheets, second, "Class window-seat");

      g_assert_cmpuint (blue, >=, CARDS_A_MACHINE);
      g_assert_cmpuint (seat, >=, CARDS_A_MACHINE);
      for (guint i = blue; i < second; i++)
        g_assert_null (hw_sheets_get_card (sheets, i));
      g_assert_cmpint (hw_sheets_get_n_pages (sheets), ==, (int) ((second + seat + per_sheet - 1) / per_sheet));
    }
}

static void
test_machines (Fixture      *fixture,
               gconstpointer data)
{
  g_auto (GStrv) ids = hw_handout_machines (fixture->plan);
  g_autofree char *joined = g_strjoinv (" ", ids);

  g_assert_cmpstr (joined, ==, "blue lockstitch overlocker window-seat");
}

static void
test_refused (Fixture      *fixture,
              gconstpointer data)
{
  const char * const unknown[] = { "blue", "green", NULL };
  const char * const none[] = { NULL };
  const HwSheetOptions options = { HW_PAPER_A5, 1, NULL, 0 };
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_handout_new (fixture->plan, unknown, &options, &error));
  g_assert_error (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING);
  g_assert_nonnull (strstr (error->message, "“green”"));
  g_clear_error (&error);
  g_assert_null (hw_handout_new (fixture->plan, none, &options, &error));
  g_assert_error (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/handout/own-dials", Fixture, NULL, set_up, test_own_dials, tear_down);
  g_test_add ("/handout/sheets-are-not-shared", Fixture, NULL, set_up, test_sheets_are_not_shared, tear_down);
  g_test_add ("/handout/machines", Fixture, NULL, set_up, test_machines, tear_down);
  g_test_add ("/handout/refused", Fixture, NULL, set_up, test_refused, tear_down);
  return g_test_run ();
}
