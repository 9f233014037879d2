/* test-earlier.c - earlier versions of a project: kept, thinned with age, bounded, compared
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/edit.h"
#include "model/versions.h"
#include "room-fixture.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

#define T G_GINT64_CONSTANT (1935583380)         /* 3 May 2031, 14:03 UTC */
#define HOUR 3600
#define DAY (24 * HOUR)

static HwProject *
make_project (const char *id,
              const char *title)
{
  return hw_project_new (id, title);
}

static void
keep (RoomFixture *fixture,
      const char  *title,
      gint64       now)
{
  g_autoptr (HwProject) project = make_project ("cape", title);
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_versions_keep (fixture->folder, project, now, &error));
  g_assert_no_error (error);
}

static GPtrArray *
list (RoomFixture *fixture)
{
  return hw_versions_list (fixture->folder, "cape");
}

static void
assert_title (const GPtrArray *versions,
              guint            index,
              const char      *title)
{
  g_autoptr (HwProject) now = make_project ("cape", "Now");
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;

  g_assert_cmpuint (index, <, versions->len);
  project = hw_version_read (versions->pdata[index], now, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (project->title, ==, title);
}

/* ---- keeping ---- */

static void
test_keep (RoomFixture   *fixture,
           gconstpointer  data)
{
  g_autoptr (GPtrArray) none = list (fixture);
  g_autoptr (GPtrArray) versions = NULL;

  g_assert_cmpuint (none->len, ==, 0);
  keep (fixture, "First", T);
  keep (fixture, "First", T + 60);               /* it is there already */
  keep (fixture, "Second", T + HOUR);
  keep (fixture, "First", T + 2 * HOUR);         /* it is not the newest */
  versions = list (fixture);
  g_assert_cmpuint (versions->len, ==, 3);
  assert_title (versions, 0, "First");
  assert_title (versions, 1, "Second");
  assert_title (versions, 2, "First");
  g_assert_cmpint (((HwVersion *) versions->pdata[2])->time, ==, T);
  g_assert_cmpint (temp_folder_count (fixture->folder, "versions"), ==, 1);
}

/* A clock that was set back does not put what is newer behind what is older. */
static void
test_clock_put_back (RoomFixture   *fixture,
                     gconstpointer  data)
{
  g_autoptr (GPtrArray) versions = NULL;

  keep (fixture, "First", T);
  keep (fixture, "Second", T - 10 * DAY);
  versions = list (fixture);
  g_assert_cmpuint (versions->len, ==, 2);
  assert_title (versions, 0, "Second");
  g_assert_cmpint (((HwVersion *) versions->pdata[0])->time, ==, T + 1);
}

/* Other files are none of ours: left alone, and not taken for versions. */
static void
test_others (RoomFixture   *fixture,
             gconstpointer  data)
{
  static const char * const names[] = {
    "note.txt", "20310502T230300Z-1a2b3c4d.handwheel~", ".20310502T230300Z-1a2b3c4d.handwheel.hwAbCdEf",
    "20310532T230300Z-1a2b3c4d.handwheel", "20310502T230300Z_1a2b3c4d.handwheel", "2031.handwheel",
  };
  g_autofree char *folder = g_build_filename (fixture->folder, "versions", "cape", NULL);
  g_autofree char *inside = g_build_filename (folder, "20310502T230300Z-00000000.handwheel", NULL);
  g_autoptr (GPtrArray) versions = NULL;

  g_assert_cmpint (g_mkdir_with_parents (inside, 0700), ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    temp_folder_write (folder, names[i], "not a project", -1);
  keep (fixture, "First", T);
  versions = list (fixture);
  g_assert_cmpuint (versions->len, ==, 1);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    g_assert_cmpint (temp_folder_count (folder, names[i]), >=, 1);
}

/* An id that is a way out of the folder is none. */
static void
test_ids (RoomFixture   *fixture,
          gconstpointer  data)
{
  static const char * const ids[] = { "..", ".", "a:b", "\303\244rmel" };

  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      g_autoptr (HwProject) project = make_project (ids[i], "Odd");
      g_autoptr (GPtrArray) versions = NULL;
      g_autofree char *within = g_build_filename (fixture->folder, "versions", NULL);
      g_autoptr (GError) error = NULL;

      g_assert_true (hw_versions_keep (fixture->folder, project, T, &error));
      g_assert_no_error (error);
      versions = hw_versions_list (fixture->folder, ids[i]);
      g_assert_cmpuint (versions->len, ==, 1);
      g_assert_true (g_str_has_prefix (((HwVersion *) versions->pdata[0])->path, within));
      g_assert_null (strstr (((HwVersion *) versions->pdata[0])->path, "/../"));
      g_assert_cmpint (temp_folder_count (within, ""), ==, (int) i + 1);
    }
}

/* ---- what stays ---- */

/* Edited every six hours of forty days: the last day whole, before it the first of each day. */
static void
test_thinned (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) versions = NULL;
  gint64 start = T - T % DAY;
  guint  n_last_day = 0;

  for (int hour = 0; hour < 40 * 24; hour += 6)
    {
      g_autofree char *title = g_strdup_printf ("Hour %d", hour);
      keep (fixture, title, start + hour * HOUR);
    }
  versions = list (fixture);
  for (guint i = 0; i < versions->len; i++)
    {
      const HwVersion *version = versions->pdata[i];
      gint64 age = start + (40 * 24 - 6) * HOUR - version->time;

      if (age < DAY)
        n_last_day++;
      else
        g_assert_cmpint (version->time % DAY, ==, 0);
      g_assert_true (i == 0 || version->time < ((HwVersion *) versions->pdata[i - 1])->time);
    }
  g_assert_cmpuint (n_last_day, ==, 4);
  g_assert_cmpuint (versions->len - n_last_day, >=, 30);
  g_assert_cmpuint (versions->len - n_last_day, <=, 34);
  assert_title (versions, 0, "Hour 954");
  assert_title (versions, versions->len - 1, "Hour 0");         /* the very first stays */
}

static void
test_number (RoomFixture   *fixture,
             gconstpointer  data)
{
  g_autoptr (GPtrArray) versions = NULL;

  for (int i = 0; i < HW_VERSIONS_MAX + 20; i++)
    {
      g_autofree char *title = g_strdup_printf ("Minute %d", i);
      keep (fixture, title, T + i * 60);
    }
  versions = list (fixture);
  g_assert_cmpuint (versions->len, ==, HW_VERSIONS_MAX);
  assert_title (versions, 0, "Minute 119");
  assert_title (versions, HW_VERSIONS_MAX - 1, "Minute 20");
}

static HwProject *
make_big (guint n_steps)
{
  HwProject *project = make_project ("cape", "Big");
  g_autofree char *note = g_strnfill (3900, 'n');

  for (guint i = 0; i < n_steps; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      HwStep *step = hw_step_new (HW_STEP_HAND, number, "Press");

      step->note = g_strdup (note);
      step->minutes = 1;
      g_ptr_array_add (project->steps, step);
    }
  return project;
}

/* Six of some 4 MB each do not fit; the newest is kept whatever it weighs. */
static void
test_bytes (RoomFixture   *fixture,
            gconstpointer  data)
{
  g_autoptr (GPtrArray) versions = NULL;
  guint64 bytes = 0;

  for (guint i = 0; i < 6; i++)
    {
      g_autoptr (HwProject) project = make_big (1000 + i);
      g_autoptr (GError) error = NULL;

      g_assert_true (hw_versions_keep (fixture->folder, project, T + i * HOUR, &error));
      g_assert_no_error (error);
    }
  versions = list (fixture);
  for (guint i = 0; i < versions->len; i++)
    bytes += ((HwVersion *) versions->pdata[i])->bytes;
  g_assert_cmpuint (bytes, <=, HW_VERSIONS_MAX_BYTES);
  g_assert_cmpuint (versions->len, ==, 4);
  g_assert_cmpint (((HwVersion *) versions->pdata[0])->time, ==, T + 5 * HOUR);
}

/* ---- what goes wrong ---- */

static void
test_cannot_write (RoomFixture   *fixture,
                   gconstpointer  data)
{
  g_autoptr (HwProject) project = make_project ("cape", "First");
  g_autoptr (GError) error = NULL;

  temp_folder_write (fixture->folder, "versions", "a file in the way", -1);
  g_assert_false (hw_versions_keep (fixture->folder, project, T, &error));
  g_assert_nonnull (error);
  g_assert_nonnull (strstr (error->message, "versions"));
  g_assert_null (strchr (error->message, '\n'));
}

/* A damaged version is told with its file, and the others can still be read. */
static void
test_damaged (RoomFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (HwProject) now = make_project ("cape", "Now");
  g_autoptr (GPtrArray) versions = NULL;
  g_autoptr (HwProject) read = NULL;
  g_autoptr (GError) error = NULL;

  keep (fixture, "First", T);
  keep (fixture, "Second", T + HOUR);
  versions = list (fixture);
  g_assert_true (g_file_set_contents (((HwVersion *) versions->pdata[0])->path, "<project", -1, NULL));
  read = hw_version_read (versions->pdata[0], now, &error);
  g_assert_null (read);
  g_assert_nonnull (strstr (error->message, ".handwheel"));
  assert_title (versions, 1, "First");
}

/* A project of the same name that lies elsewhere may have another id: its version takes this one's. */
static void
test_id_of_now (RoomFixture   *fixture,
                gconstpointer  data)
{
  g_autoptr (HwProject) now = make_project ("cloak", "Now");
  g_autoptr (GPtrArray) versions = NULL;
  g_autoptr (HwProject) read = NULL;

  keep (fixture, "First", T);
  versions = list (fixture);
  read = hw_version_read (versions->pdata[0], now, NULL);
  g_assert_cmpstr (read->id, ==, "cloak");
}

/* ---- what differs ---- */

static HwProject *
make_steps (const char * const *names)
{
  HwProject *project = make_project ("cape", "Cape");

  for (gsize i = 0; names[i] != NULL; i += 2)
    {
      HwStep *step = hw_step_new (HW_STEP_HAND, names[i], names[i + 1]);

      step->minutes = 1;
      g_ptr_array_add (project->steps, step);
    }
  return project;
}

static void
test_steps_differ (void)
{
  static const char * const before[] = { "1", "Cut", "2", "Press", "3", "Turn", NULL };
  static const char * const after[] = { "3", "Turn", "1", "Cut out", "4", "Hang", NULL };
  g_autoptr (HwProject) earlier = make_steps (before);
  g_autoptr (HwProject) later = make_steps (after);
  g_autoptr (HwDifference) differs = hw_project_compare (earlier, later);
  g_autoptr (HwDifference) same = hw_project_compare (earlier, earlier);

  g_assert_cmpuint (differs->added->len, ==, 1);
  g_assert_cmpstr (((HwStep *) differs->added->pdata[0])->number, ==, "4");
  g_assert_cmpuint (differs->removed->len, ==, 1);
  g_assert_cmpstr (((HwStep *) differs->removed->pdata[0])->number, ==, "2");
  g_assert_cmpuint (differs->changed->len, ==, 1);
  g_assert_cmpstr (((HwStep *) differs->changed->pdata[0])->name, ==, "Cut out");
  g_assert_true (differs->reordered);
  g_assert_false (differs->fabrics || differs->threads || differs->title);
  g_assert_false (hw_difference_is_none (differs));
  g_assert_true (hw_difference_is_none (same));
}

/* One put between, or one taken out, is no other order of the rest. */
static void
test_order_stays (void)
{
  static const char * const before[] = { "1", "Cut", "2", "Press", "3", "Turn", NULL };
  static const char * const after[] = { "1", "Cut", "4", "Hang", "3", "Turn", NULL };
  g_autoptr (HwProject) earlier = make_steps (before);
  g_autoptr (HwProject) later = make_steps (after);
  g_autoptr (HwDifference) differs = hw_project_compare (earlier, later);

  g_assert_false (differs->reordered);
  g_assert_cmpuint (differs->changed->len, ==, 0);
}

static void
test_rest_differs (void)
{
  g_autoptr (HwProject) earlier = make_project ("cape", "Cape");
  g_autoptr (HwProject) titled = hw_edit_set_title (earlier, "Cloak", NULL);
  g_autoptr (HwProject) due = hw_edit_set_due (titled, "2031-06-01", NULL);
  g_autoptr (HwProject) gathered = hw_edit_set_gather_hand (due, TRUE);
  HwProjectFabric *fabric = hw_project_fabric_new ("wool", "Wool");
  HwProjectThread *thread = hw_project_thread_new ("navy", "polyester-27");
  g_autoptr (HwProject) clothed = NULL;
  g_autoptr (HwProject) later = NULL;
  g_autoptr (HwDifference) differs = NULL;

  fabric->handbook = g_strdup ("wool-coating");
  clothed = hw_edit_put_fabric (gathered, fabric, NULL);
  later = hw_edit_put_thread (clothed, thread, NULL);
  differs = hw_project_compare (earlier, later);
  g_assert_true (differs->title && differs->due && differs->settings && differs->fabrics && differs->threads);
  g_assert_false (differs->note || differs->wishes || differs->reordered);
  hw_project_fabric_unref (fabric);
  hw_project_thread_unref (thread);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/earlier/keep", test_keep);
  ADD ("/earlier/clock-put-back", test_clock_put_back);
  ADD ("/earlier/others", test_others);
  ADD ("/earlier/ids", test_ids);
  ADD ("/earlier/thinned", test_thinned);
  ADD ("/earlier/number", test_number);
  ADD ("/earlier/bytes", test_bytes);
  ADD ("/earlier/cannot-write", test_cannot_write);
  ADD ("/earlier/damaged", test_damaged);
  ADD ("/earlier/id-of-now", test_id_of_now);
  g_test_add_func ("/earlier/steps-differ", test_steps_differ);
  g_test_add_func ("/earlier/order-stays", test_order_stays);
  g_test_add_func ("/earlier/rest-differs", test_rest_differs);
  return g_test_run ();
}
