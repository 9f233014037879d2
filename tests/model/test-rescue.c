/* test-rescue.c - work that cannot be saved is kept; what another program changed is left alone; the clock set back
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/rescue.h"
#include "files/save.h"
#include "room-fixture.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

/* ---- an open project ---- */

static void
save (const char     *path,
      const char     *title,
      HwProjectPlace *place,
      gboolean        changed)
{
  g_autoptr (HwProject) project = hw_project_new ("skirt", title);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (hw_project_save (project, path, place, &error), ==, !changed);
  if (!changed)
    {
      g_assert_no_error (error);
      return;
    }
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED);
  g_assert_nonnull (strstr (error->message, "changed by another program"));
  g_assert_nonnull (strstr (error->message, place->rescued));
}

static void
assert_title (const char *path,
              const char *title)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = hw_project_read (path, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (project->title, ==, title);
}

static void
write_other (const char *path)
{
  g_autoptr (HwProject) other = hw_project_new ("skirt", "By another program");

  g_assert_true (hw_project_write (other, path, NULL));
}

/* One copy beside, kept up to date; once the person has looked at the file again, the next save removes it. */
static void
test_changed (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "skirt.handwheel", NULL);
  g_autofree char *copy = NULL;
  g_autofree char *mark = NULL;
  HwProjectPlace place = { NULL, NULL };

  save (path, "First", &place, FALSE);
  save (path, "Second", &place, FALSE);
  write_other (path);
  save (path, "Third", &place, TRUE);
  assert_title (path, "By another program");
  assert_title (place.rescued, "Third");
  copy = g_strdup (place.rescued);
  save (path, "Fourth", &place, TRUE);
  g_assert_cmpstr (place.rescued, ==, copy);
  assert_title (copy, "Fourth");
  g_assert_cmpint (temp_folder_count (fixture->folder, "skirt (rescued "), ==, 2);       /* it, and its last version */
  mark = hw_mark_file (path);
  g_free (place.mark);
  place.mark = g_steal_pointer (&mark);
  save (path, "Fifth", &place, FALSE);
  g_assert_null (place.rescued);
  g_assert_cmpint (temp_folder_count (fixture->folder, "skirt (rescued "), ==, 0);
  hw_project_place_clear (&place);
}

/* A file that is gone is not in the way; one that was changed back is the same. */
static void
test_removed (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "skirt.handwheel", NULL);
  HwProjectPlace place = { NULL, NULL };

  save (path, "First", &place, FALSE);
  g_unlink (path);
  save (path, "Second", &place, FALSE);
  assert_title (path, "Second");
  write_other (path);
  hw_project_place_look (&place, path);
  save (path, "Third", &place, FALSE);
  assert_title (path, "Third");
  hw_project_place_clear (&place);
}

/* ---- where it goes ---- */

static void
test_names (RoomFixture   *fixture,
            gconstpointer  data)
{
  g_autofree char *first = hw_rescue_bytes ("/nowhere/cape.handwheel", fixture->folder, "one", 3);
  g_autofree char *second = hw_rescue_bytes ("/nowhere/cape.handwheel", fixture->folder, "two", 3);
  g_autofree char *plain = hw_rescue_bytes ("/nowhere/.cape", fixture->folder, "", 0);
  g_autofree char *name = g_path_get_basename (second);
  g_autofree char *kept = temp_folder_read (fixture->folder, name);

  g_assert_nonnull (strstr (first, "/cape (rescued "));
  g_assert_true (g_str_has_suffix (first, ").handwheel"));
  g_assert_true (g_str_has_suffix (second, ", 2).handwheel"));
  g_assert_nonnull (strstr (plain, "/.cape (rescued "));
  g_assert_cmpstr (kept, ==, "two");
}

/* Each folder that cannot be written leads to the next; none is said, too. */
static void
test_folders (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autofree char *before = g_strdup (g_getenv ("HANDWHEEL_RESCUE"));
  g_autofree char *none = g_build_filename (fixture->folder, "needles.xml", "inside-a-file", NULL);
  g_autofree char *target = g_build_filename (none, "a.xml", NULL);
  g_autofree char *own = hw_rescue_folder ();
  g_autofree char *rescued = NULL;
  g_autoptr (GError) error = NULL;

  temp_folder_write (fixture->folder, "needles.xml", "", 0);
  g_assert_cmpstr (own, ==, before);
  g_assert_false (hw_save_or_rescue (target, "work", 4, &error));
  g_assert_nonnull (strstr (error->message, own));
  g_clear_error (&error);
  g_setenv ("HANDWHEEL_RESCUE", none, TRUE);
  rescued = hw_rescue_bytes (target, none, "work", 4);
  g_assert_true (g_str_has_prefix (rescued, g_get_tmp_dir ()));
  g_unlink (rescued);
  g_setenv ("HANDWHEEL_RESCUE", "", TRUE);
  g_free (own);
  own = hw_rescue_folder ();
  g_assert_true (g_str_has_suffix (own, "handwheel/rescue"));
  g_setenv ("HANDWHEEL_RESCUE", before, TRUE);
  g_set_error_literal (&error, G_FILE_ERROR, G_FILE_ERROR_NOSPC, "No room");
  hw_rescue_tell (&error, NULL);
  g_assert_cmpstr (error->message, ==, "No room; nor could what you did be kept anywhere else");
  hw_rescue_tell (NULL, NULL);
}

static void
test_shown (void)
{
  static const struct { const char *path, *shown, *name; } cases[] = {
    { "/a/b c.xml", "/a/b c.xml", "b c.xml" },
    { "/a/line\nbreak.xml", "/a/line�break.xml", "line�break.xml" },
    { "/a/\xe2\x80\xaetxt.xml", "/a/�txt.xml", "�txt.xml" },
    { "/a/\xff.xml", "/a/�.xml", "�.xml" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *shown = hw_show_path (cases[i].path);
      g_autofree char *name = hw_show_name (cases[i].path);

      g_assert_cmpstr (shown, ==, cases[i].shown);
      g_assert_cmpstr (name, ==, cases[i].name);
    }
}

/* ---- the clock ---- */

static HwRoom *
append (HwRoom     *room,
        const char *time,
        const char *task)
{
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_CARE, "m");
  g_autoptr (GError) error = NULL;
  HwRoom *next;

  entry->task = g_strdup (task);
  if (time != NULL)
    {
      g_free (entry->time);
      entry->time = g_strdup (time);
    }
  next = hw_room_append (room, entry, &error);
  g_assert_no_error (error);
  hw_room_unref (room);
  return next;
}

/* What is done now comes last; what a person says was done then, stays then. */
static void
test_clock (RoomFixture   *fixture,
            gconstpointer  data)
{
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwJournalEntry) now = hw_journal_entry_new (HW_ENTRY_CARE, "m");
  g_autoptr (HwJournalEntry) elsewhere = hw_journal_entry_new (HW_ENTRY_CARE, "hand");

  temp_folder_write (fixture->folder, "machines/m.xml", MACHINE "</machine>", -1);
  room = room_fixture_open (fixture->folder);
  g_assert_null (hw_room_clock_behind (room, now));
  room = append (g_steal_pointer (&room), "2099-05-09T10:00:00Z", "dust");
  g_assert_cmpstr (hw_room_clock_behind (room, now), ==, "2099-05-09T10:00:00Z");
  g_assert_null (hw_room_clock_behind (room, elsewhere));
  room = append (g_steal_pointer (&room), NULL, "oil");
  room = append (g_steal_pointer (&room), "2021-05-09T10:00:00Z", "service");
  g_assert_cmpuint (room->entries->len, ==, 3);
  g_assert_cmpstr (((HwJournalEntry *) room->entries->pdata[0])->task, ==, "service");
  g_assert_cmpstr (((HwJournalEntry *) room->entries->pdata[2])->task, ==, "oil");
  g_assert_cmpstr (((HwJournalEntry *) room->entries->pdata[2])->time, ==, "2099-05-09T10:00:01Z");
}

int
main (int    argc,
      char **argv)
{
  char *rescue;
  int status;

  g_test_init (&argc, &argv, NULL);
  rescue = temp_folder_new ();
  g_setenv ("HANDWHEEL_RESCUE", rescue, TRUE);
  ADD ("/rescue/changed", test_changed);
  ADD ("/rescue/removed", test_removed);
  ADD ("/rescue/names", test_names);
  ADD ("/rescue/folders", test_folders);
  g_test_add_func ("/rescue/shown", test_shown);
  ADD ("/rescue/clock", test_clock);
  status = g_test_run ();
  temp_folder_remove (rescue);
  return status;
}
