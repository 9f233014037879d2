/* test-workspace.c - the workspace: every change one file, every file what the window shows
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gstdio.h>
#include <string.h>

#include "scene.h"
#include "temp-folder.h"
#include "window/furnish.h"
#include "window/later.h"
#include "window/project-list.h"
#include "window/step-list.h"
#include "words/words-example.h"

static gboolean
set_title (Scene      *scene,
           const char *title,
           const char *merge_key)
{
  g_autoptr (GError) error = NULL;
  HwProject *next = hw_edit_set_title (hw_workspace_peek_project (scene->workspace), title, &error);

  return hw_workspace_edit (scene->workspace, next, "title", merge_key, error);
}

static void
assert_title (Scene      *scene,
              const char *title)
{
  g_autoptr (HwProject) on_disk = scene_read_file (scene);

  g_assert_cmpstr (hw_workspace_peek_project (scene->workspace)->title, ==, title);
  g_assert_cmpstr (on_disk->title, ==, title);
  g_assert_true (hw_project_is_equal (on_disk, hw_workspace_peek_project (scene->workspace)));
  g_assert_true (hw_workspace_is_saved (scene->workspace));
}

static void
test_edit (void)
{
  Scene scene = { 0 };

  scene_open (&scene);
  g_assert_true (set_title (&scene, "Garden apron", NULL));
  g_assert_cmpstr (scene.log->str, ==, "changed\n");
  assert_title (&scene, "Garden apron");
  g_assert_cmpstr (hw_history_undo_label (hw_workspace_get_history (scene.workspace)), ==, "title");
  g_assert_true (hw_workspace_peek_plan (scene.workspace)->project == hw_workspace_peek_project (scene.workspace));

  hw_workspace_undo (scene.workspace);
  assert_title (&scene, "Workshop apron");
  hw_workspace_undo (scene.workspace);          /* nothing left to undo */
  assert_title (&scene, "Workshop apron");
  hw_workspace_redo (scene.workspace);
  assert_title (&scene, "Garden apron");
  g_assert_cmpstr (scene.log->str, ==, "changed\nchanged\nchanged\n");
  scene_close (&scene);
}

static void
test_merge (void)
{
  Scene scene = { 0 };

  scene_open (&scene);
  set_title (&scene, "A", "typing");
  set_title (&scene, "Ap", "typing");
  set_title (&scene, "Apron", "typing");
  hw_workspace_undo (scene.workspace);
  assert_title (&scene, "Workshop apron");
  scene_close (&scene);
}

static void
test_same_again (void)
{
  Scene scene = { 0 };

  scene_open (&scene);
  g_assert_false (set_title (&scene, "Workshop apron", NULL));
  g_assert_cmpstr (scene.log->str, ==, "");
  g_assert_null (hw_history_undo_label (hw_workspace_get_history (scene.workspace)));
  scene_close (&scene);
}

static void
test_refused (void)
{
  Scene scene = { 0 };
  const HwProject *before;

  scene_open (&scene);
  before = hw_workspace_peek_project (scene.workspace);
  g_assert_false (set_title (&scene, "", NULL));
  g_assert_true (g_str_has_prefix (scene.log->str, "error: "));
  g_assert_null (strstr (scene.log->str, "changed"));
  g_assert_true (hw_workspace_peek_project (scene.workspace) == before);
  scene_close (&scene);
}

static void
test_bad_file (void)
{
  Scene scene = { 0 };
  g_autofree char *bad = NULL;
  g_autoptr (GError) error = NULL;
  const HwProject *before;
  const HwPlan    *plan;

  scene_open (&scene);
  set_title (&scene, "Garden apron", NULL);
  scene_clear_log (&scene);
  before = hw_workspace_peek_project (scene.workspace);
  plan = hw_workspace_peek_plan (scene.workspace);
  temp_folder_write (scene.folder, "bad.handwheel",
                     "<project xmlns=\"urn:handwheel:project:1\" id=\"x\" title=\"X\">\n<steps>\n"
                     "<operation number=\"1\" name=\"N\" purpose=\"seam\" length-cm=\"-5\"/></steps></project>", -1);
  bad = g_build_filename (scene.folder, "bad.handwheel", NULL);

  g_assert_false (hw_workspace_open (scene.workspace, bad, &error));
  g_assert_nonnull (error);
  g_assert_nonnull (strstr (error->message, "bad.handwheel:3"));
  g_assert_true (hw_workspace_peek_project (scene.workspace) == before);
  g_assert_true (hw_workspace_peek_plan (scene.workspace) == plan);
  g_assert_cmpstr (hw_workspace_peek_path (scene.workspace), ==, scene.path);
  g_assert_cmpstr (scene.log->str, ==, "");
  hw_workspace_undo (scene.workspace);          /* the history is there too */
  assert_title (&scene, "Workshop apron");
  scene_close (&scene);
}

/* A file that names what the handbook does not know opens, without a plan, and says why. */
static void
test_unknown_fabric (void)
{
  Scene scene = { 0 };
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;

  scene_open (&scene);
  temp_folder_write (scene.folder, "moon.handwheel",
                     "<project xmlns=\"urn:handwheel:project:1\" id=\"moon\" title=\"Moon\">\n"
                     "<fabrics><fabric id=\"a\" name=\"A\" handbook=\"moon-cloth\"/></fabrics>\n"
                     "<threads/><steps/></project>", -1);
  path = g_build_filename (scene.folder, "moon.handwheel", NULL);
  g_assert_true (hw_workspace_open (scene.workspace, path, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (hw_workspace_peek_project (scene.workspace)->title, ==, "Moon");
  g_assert_null (hw_workspace_peek_plan (scene.workspace));
  g_assert_error (hw_workspace_peek_plan_error (scene.workspace), HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN);
  g_assert_false (hw_workspace_load_next (scene.workspace));
  scene_close (&scene);
}

static const HwJournalEntry *
last_entry (Scene *scene)
{
  const HwRoom *room = hw_workspace_get_room (scene->workspace);

  g_assert_cmpuint (room->entries->len, >, 0);
  return room->entries->pdata[room->entries->len - 1];
}

static void
assert_reopened_done (Scene      *scene,
                      const char *number,
                      gboolean    done)
{
  g_autoptr (GError) error = NULL;
  HwWorkspace       *again = hw_workspace_new (scene->data, scene->room, &error);
  const HwMachine   *machine = hw_room_default_machine (hw_workspace_get_room (scene->workspace),
                                                        HW_MACHINE_LOCKSTITCH);
  const HwMachine   *machine_again;

  g_assert_no_error (error);
  hw_workspace_open (again, scene->path, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hw_plan_find_step (hw_workspace_peek_plan (again), number)->done, ==, done);
  machine_again = hw_room_default_machine (hw_workspace_get_room (again), HW_MACHINE_LOCKSTITCH);
  g_assert_cmpfloat_with_epsilon (hw_room_get_state (hw_workspace_get_room (again), machine_again)->at_machine_hours,
                                  hw_room_get_state (hw_workspace_get_room (scene->workspace),
                                                     machine)->at_machine_hours,
                                  1e-9);
  g_assert_finalize_object (again);
}

static void
test_mark_done (void)
{
  Scene         scene = { 0 };
  guint         before;
  g_autofree char *sewing = NULL;

  scene_open (&scene);
  before = hw_workspace_get_room (scene.workspace)->entries->len;
  g_assert_true (hw_workspace_mark_done (scene.workspace, "1", TRUE));
  g_assert_cmpuint (hw_workspace_get_room (scene.workspace)->entries->len, ==, before + 2);
  g_assert_cmpint (last_entry (&scene)->kind, ==, HW_ENTRY_SEWING);
  g_assert_cmpstr (last_entry (&scene)->project, ==, "apron");
  g_assert_cmpstr (last_entry (&scene)->step, ==, "1");
  sewing = g_strdup (last_entry (&scene)->id);
  g_assert_true (hw_plan_find_step (hw_workspace_peek_plan (scene.workspace), "1")->done);
  g_assert_false (hw_workspace_mark_done (scene.workspace, "1", TRUE));         /* is done already */
  g_assert_cmpuint (hw_workspace_get_room (scene.workspace)->entries->len, ==, before + 2);
  g_assert_true (g_str_has_prefix (scene.log->str, "changed\n"));
  g_assert_nonnull (strstr (scene.log->str, "needle is noted as loaded"));
  assert_reopened_done (&scene, "1", TRUE);

  g_assert_true (hw_workspace_mark_done (scene.workspace, "1", FALSE));
  g_assert_cmpuint (hw_workspace_get_room (scene.workspace)->entries->len, ==, before + 4);
  g_assert_cmpint (last_entry (&scene)->kind, ==, HW_ENTRY_CANCEL);
  g_assert_true (g_hash_table_contains (hw_workspace_get_room (scene.workspace)->cancelled, sewing));
  g_assert_false (hw_plan_find_step (hw_workspace_peek_plan (scene.workspace), "1")->done);
  assert_reopened_done (&scene, "1", FALSE);
  scene_close (&scene);
}

static void
test_mark_hand_step (void)
{
  Scene scene = { 0 };

  scene_open (&scene);
  g_assert_true (hw_workspace_mark_done (scene.workspace, "2", TRUE));
  g_assert_cmpstr (last_entry (&scene)->machine, ==, "hand");
  assert_reopened_done (&scene, "2", TRUE);
  g_assert_false (hw_workspace_mark_done (scene.workspace, "no such step", TRUE));
  scene_close (&scene);
}

static void
test_load_next (void)
{
  Scene  scene = { 0 };
  HwNow  now;
  int    size;
  guint  before;
  const HwMachine *machine;

  scene_open (&scene);
  before = hw_workspace_get_room (scene.workspace)->entries->len;
  now = hw_plan_now (hw_workspace_peek_plan (scene.workspace), NULL);
  g_assert_nonnull (now.next);
  size = now.next->size_nm;
  machine = now.machine;
  g_assert_true (hw_workspace_load_next (scene.workspace));
  g_assert_cmpuint (hw_workspace_get_room (scene.workspace)->entries->len, ==, before + 1);
  g_assert_cmpint (last_entry (&scene)->kind, ==, HW_ENTRY_LOAD);
  machine = hw_room_find_machine (hw_workspace_get_room (scene.workspace), last_entry (&scene)->machine);
  g_assert_cmpint (hw_room_get_state (hw_workspace_get_room (scene.workspace), machine)->needle->nm, ==, size);
  g_assert_true (g_str_has_prefix (scene.log->str, "changed\nmessage: Noted: "));
  g_assert_true (hw_workspace_offers_undo (scene.workspace));
  g_assert_true (hw_workspace_undo_entry (scene.workspace));
  g_assert_cmpint (last_entry (&scene)->kind, ==, HW_ENTRY_CANCEL);
  scene_close (&scene);
}

static void
test_create (void)
{
  Scene scene = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *first = NULL;
  g_autoptr (GPtrArray) paths = NULL;

  scene_open (&scene);
  g_assert_true (hw_workspace_create (scene.workspace, "  Tent bag, waxed ", &error));
  g_assert_no_error (error);
  first = g_path_get_basename (hw_workspace_peek_path (scene.workspace));
  g_assert_cmpstr (first, ==, "tent-bag-waxed.handwheel");
  g_assert_cmpstr (hw_workspace_peek_project (scene.workspace)->title, ==, "Tent bag, waxed");
  g_assert_true (hw_workspace_create (scene.workspace, "Tent bag (waxed)", &error));
  g_assert_true (g_str_has_suffix (hw_workspace_peek_path (scene.workspace), "tent-bag-waxed-2.handwheel"));
  g_assert_cmpstr (hw_workspace_peek_project (scene.workspace)->id, ==, "tent-bag-waxed-2");

  g_assert_false (hw_workspace_create (scene.workspace, "   ", &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  paths = hw_workspace_list_projects (scene.workspace);
  g_assert_cmpuint (paths->len, ==, 3);
  scene_close (&scene);
}

/* A title in any script makes a file that opens again. */
static void
test_create_any_script (void)
{
  static const char * const titles[] = { "Füttern & Säumen", "ショール", "../../etc", "a/b\\c", "…", "2 cushions" };
  Scene scene = { 0 };

  scene_open (&scene);
  for (gsize i = 0; i < G_N_ELEMENTS (titles); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char   *path = NULL;
      g_autofree char   *folder = NULL;

      hw_workspace_create (scene.workspace, titles[i], &error);
      g_assert_no_error (error);
      path = g_strdup (hw_workspace_peek_path (scene.workspace));
      folder = g_path_get_dirname (path);
      g_assert_true (g_str_has_suffix (folder, "/room/projects"));
      hw_workspace_open (scene.workspace, path, &error);
      g_assert_no_error (error);
      g_assert_cmpstr (hw_workspace_peek_project (scene.workspace)->title, ==, titles[i]);
    }
  scene_close (&scene);
}

/* What cannot be written stays on screen, is told, and is written as soon as it can be. */
static void
test_unsaved (void)
{
  Scene scene = { 0 };
  g_autofree char *projects = NULL;
  g_autofree char *aside = NULL;
  g_autoptr (GError) error = NULL;

  scene_open (&scene);
  projects = g_path_get_dirname (scene.path);
  aside = g_strconcat (projects, ".aside", NULL);
  g_assert_cmpint (g_rename (projects, aside), ==, 0);
  g_assert_true (g_file_set_contents (projects, "in the way", -1, NULL));

  g_assert_true (set_title (&scene, "Garden apron", NULL));
  g_assert_nonnull (strstr (scene.log->str, "error: "));
  g_assert_nonnull (strstr (scene.log->str, "changed\n"));
  g_assert_false (hw_workspace_is_saved (scene.workspace));
  g_assert_cmpstr (hw_workspace_peek_project (scene.workspace)->title, ==, "Garden apron");
  g_assert_false (hw_workspace_create (scene.workspace, "Another", &error));    /* would lose it */
  g_assert_nonnull (error);
  g_clear_error (&error);

  g_assert_cmpint (g_unlink (projects), ==, 0);
  g_assert_cmpint (g_rename (aside, projects), ==, 0);
  g_assert_true (hw_workspace_save (scene.workspace, &error));
  assert_title (&scene, "Garden apron");
  scene_close (&scene);
}

static gboolean
remove_step (Scene      *scene,
             const char *number)
{
  g_autoptr (GError) error = NULL;
  HwProject *next = hw_edit_remove_step (hw_workspace_peek_project (scene->workspace), number, &error);

  return hw_workspace_edit (scene->workspace, next, "remove", NULL, error);
}

static void
test_selection (void)
{
  Scene scene = { 0 };

  scene_open (&scene);
  g_assert_cmpstr (hw_workspace_peek_selected (scene.workspace), ==, "1");
  hw_workspace_select (scene.workspace, "3");
  hw_workspace_select (scene.workspace, "3");
  g_assert_cmpstr (scene.log->str, ==, "selection\n");
  set_title (&scene, "Garden apron", NULL);
  g_assert_cmpstr (hw_workspace_peek_selected (scene.workspace), ==, "3");
  remove_step (&scene, "1");
  g_assert_cmpstr (hw_workspace_peek_selected (scene.workspace), ==, "3");
  remove_step (&scene, "3");                    /* the one that stands in its place */
  g_assert_cmpstr (hw_workspace_peek_selected (scene.workspace), ==, "4");
  remove_step (&scene, "4");                    /* the last: the one before it */
  g_assert_cmpstr (hw_workspace_peek_selected (scene.workspace), ==, "2");
  remove_step (&scene, "2");
  g_assert_null (hw_workspace_peek_selected (scene.workspace));
  scene_close (&scene);
}

static HwProjectSummary *
find_summary (GPtrArray  *summaries,
              const char *title)
{
  for (guint i = 0; i < summaries->len; i++)
    if (g_str_equal (((HwProjectSummary *) summaries->pdata[i])->title, title))
      return summaries->pdata[i];
  return NULL;
}

static void
test_summaries (void)
{
  Scene scene = { 0 };
  g_autofree char *projects = NULL;
  g_autoptr (GPtrArray) summaries = NULL;
  HwProjectSummary *apron;

  scene_open (&scene);
  projects = g_path_get_dirname (scene.path);
  temp_folder_write (projects, "broken.handwheel", "<project", -1);
  temp_folder_write (projects, "notes.txt", "not a project", -1);
  hw_workspace_mark_done (scene.workspace, "1", TRUE);
  hw_workspace_mark_done (scene.workspace, "2", TRUE);          /* by hand, and done too */
  summaries = hw_workspace_summarise_projects (scene.workspace);
  g_assert_cmpuint (summaries->len, ==, 2);
  apron = find_summary (summaries, "Workshop apron");
  g_assert_nonnull (apron);
  g_assert_cmpuint (apron->n_steps, ==, 4);
  g_assert_cmpuint (apron->n_done, ==, 2);
  g_assert_null (apron->problem);
  g_assert_nonnull (find_summary (summaries, "broken.handwheel")->problem);
  scene_close (&scene);
}

/* Another window changed the file of a project that is not open here. */
static void
test_summaries_follow_files (void)
{
  Scene scene = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) apron = NULL;
  g_autoptr (HwProject) other = NULL;
  g_autoptr (GPtrArray) before = NULL;
  g_autoptr (GPtrArray) after = NULL;

  scene_open (&scene);
  apron = scene_read_file (&scene);
  hw_workspace_create (scene.workspace, "Second", &error);
  g_assert_no_error (error);
  before = hw_workspace_summarise_projects (scene.workspace);
  g_assert_nonnull (find_summary (before, "Workshop apron"));
  other = hw_edit_set_title (apron, "Apron for two", &error);
  hw_project_write (other, scene.path, &error);
  g_assert_no_error (error);
  after = hw_workspace_summarise_projects (scene.workspace);
  g_assert_nonnull (find_summary (after, "Apron for two"));
  g_assert_null (find_summary (after, "Workshop apron"));
  scene_close (&scene);
}

/* ---- the first start ---- */

static void
test_furnish (void)
{
  g_autoptr (GError) error = NULL;
  const char        *data = g_getenv ("HANDWHEEL_DATA_DIR");
  char              *folder = temp_folder_new ();
  g_autofree char   *room = g_build_filename (folder, "home", "room", NULL);
  g_autofree char   *again = g_build_filename (folder, "home", NULL);
  g_autoptr (GPtrArray) paths = NULL;
  HwWorkspace       *workspace;
  guint              n_examples = 0;

  g_assert_true (hw_furnish_room (data, room, &error));
  g_assert_no_error (error);
  g_assert_cmpint (temp_folder_count (again, "room"), ==, 1);           /* nothing is left beside it */
  workspace = hw_workspace_new (data, room, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (hw_workspace_get_room (workspace)->machines->len, >=, 2);
  paths = hw_workspace_list_projects (workspace);
  g_assert_cmpuint (paths->len, >=, 1);
  for (guint i = 0; i < paths->len; i++)
    {
      g_assert_true (hw_workspace_open (workspace, paths->pdata[i], &error));
      g_assert_no_error (error);
      g_assert_no_error (hw_workspace_peek_plan_error (workspace));
      g_assert_cmpuint (hw_workspace_peek_plan (workspace)->groups->len, >, 0);         /* ready to print */
      n_examples += hw_words_is_example (hw_workspace_peek_project (workspace)) ? 1 : 0;
    }
  g_assert_cmpuint (n_examples, ==, 1);
  g_assert_finalize_object (workspace);
  temp_folder_remove (folder);
}

/* A title of the person's own makes it theirs; and a stage cape of theirs is not ours. */
static void
test_example (void)
{
  static const struct { const char *id, *title; gboolean is_example; } cases[] = {
    { "stage-cape", "Lined cape for the school play", TRUE },
    { "stage-cape", "Cape for Ada", FALSE },
    { "cape", "Lined cape for the school play", FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwProject) project = hw_project_new (cases[i].id, cases[i].title);

      g_assert_cmpint (hw_words_is_example (project), ==, cases[i].is_example);
    }
}

static void
test_furnish_keeps_a_room (void)
{
  Scene scene = { 0 };
  g_autoptr (GError) error = NULL;

  scene_open (&scene);
  g_assert_false (hw_furnish_room (scene.data, scene.room, &error));
  g_assert_nonnull (error);
  assert_title (&scene, "Workshop apron");
  scene_close (&scene);
}

static void
test_recall (void)
{
  char            *folder = temp_folder_new ();
  g_autofree char *file = g_build_filename (folder, "a.handwheel", NULL);
  g_autofree char *gone = g_build_filename (folder, "gone.handwheel", NULL);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  g_autofree char *third = NULL;

  temp_folder_write (folder, "a.handwheel", "x", -1);
  hw_remember_project ("/room/one", file);
  hw_remember_project ("/room/two", gone);
  first = hw_recall_project ("/room/one");
  second = hw_recall_project ("/room/two");
  third = hw_recall_project ("/room/three");
  g_assert_cmpstr (first, ==, file);
  g_assert_null (second);
  g_assert_null (third);
  temp_folder_remove (folder);
}

/* ---- steps as a list ---- */

static void
items_changed_cb (GListModel *model,
                  guint       position,
                  guint       removed,
                  guint       added,
                  GString    *log)
{
  g_string_append_printf (log, "%u-%u+%u ", position, removed, added);
}

static void
apply (GListStore      *list,
       const HwProject *project,
       HwProject       *next,           /* (transfer full) */
       GString         *log,
       const char      *expected)
{
  g_autoptr (HwStepItem) third = g_list_model_get_item (G_LIST_MODEL (list), 2);
  g_autofree char       *number = g_strdup (hw_step_item_get_number (third));
  int                    place;

  g_assert_nonnull (next);
  g_string_truncate (log, 0);
  hw_step_list_update (list, next, G_MAXUINT);
  g_assert_cmpstr (log->str, ==, expected);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (list)), ==, next->steps->len);
  for (guint i = 0; i < next->steps->len; i++)
    {
      g_autoptr (HwStepItem) item = g_list_model_get_item (G_LIST_MODEL (list), i);

      g_assert_true (hw_step_item_get_step (item) == hw_project_get_step (next, i));
    }
  /* The same step is the same object, wherever it went. */
  place = hw_step_list_find (G_LIST_MODEL (list), number);
  if (place >= 0)
    {
      g_autoptr (HwStepItem) moved = g_list_model_get_item (G_LIST_MODEL (list), (guint) place);

      g_assert_true (moved == third);
    }
  hw_step_list_update (list, project, G_MAXUINT);
  hw_project_unref (next);
}

/* ---- the start ---- */

static void
test_loaded (void)
{
  Scene scene = { 0 };
  g_autofree char *path = NULL;
  g_autoptr (HwWorkspace) workspace = NULL;
  g_autoptr (GError) error = NULL;
  HwLoaded *loaded;
  const HwPlan *plan;

  scene_open (&scene);
  path = g_strdup (hw_workspace_peek_path (scene.workspace));
  loaded = hw_loading_finish (hw_loading_begin (scene.data, scene.room, path));
  g_assert_nonnull (loaded);
  g_assert_nonnull (loaded->project);
  plan = loaded->plan;
  g_assert_nonnull (plan);
  workspace = hw_workspace_new_loaded (loaded);
  g_assert_null (hw_workspace_peek_project (workspace));
  g_assert_true (hw_workspace_open (workspace, path, &error));
  g_assert_no_error (error);
  g_assert_true (hw_workspace_peek_plan (workspace) == plan);
  g_assert_true (hw_workspace_open (workspace, path, &error));          /* the second time it is read anew */
  g_assert_no_error (error);
  g_assert_true (hw_workspace_peek_plan (workspace) != plan);

  g_assert_null (hw_loading_finish (hw_loading_begin ("/nowhere", scene.room, path)));
  scene_close (&scene);
}

static void
note_cb (gpointer object)
{
  GString *log = g_object_get_data (G_OBJECT (object), "log");

  g_string_append (log, g_object_get_data (G_OBJECT (object), "name"));
}

static GObject *
make_noted (GString    *log,
            const char *name)
{
  GObject *object = g_object_new (G_TYPE_OBJECT, NULL);

  g_object_set_data (object, "log", log);
  g_object_set_data (object, "name", (gpointer) name);
  return object;
}

/* No window comes: things wait their second, and then are done, but for one that is gone. */
static void
test_later (void)
{
  Scene scene = { 0 };
  GString *log = g_string_new (NULL);
  g_autoptr (GObject) first = make_noted (log, "a");
  GObject *gone = make_noted (log, "b");
  g_autoptr (GObject) last = make_noted (log, "c");

  scene_open (&scene);
  hw_later (scene.workspace, first, note_cb);
  g_assert_cmpstr (log->str, ==, "a");
  hw_later_hold (scene.workspace);
  hw_later (scene.workspace, first, note_cb);
  hw_later (scene.workspace, gone, note_cb);
  hw_later (scene.workspace, last, note_cb);
  g_object_unref (gone);
  g_assert_cmpstr (log->str, ==, "a");
  g_assert_cmpint (hw_later_height (scene.workspace), ==, 0);
  while (log->len < 3)
    g_main_context_iteration (NULL, TRUE);
  g_assert_cmpstr (log->str, ==, "aac");
  scene_settle ();
  hw_later (scene.workspace, first, note_cb);
  g_assert_cmpstr (log->str, ==, "aaca");
  scene_close (&scene);
  g_string_free (log, TRUE);
}

static void
test_step_list (void)
{
  Scene scene = { 0 };
  const HwProject *project;
  HwStep *fifth = hw_step_new (HW_STEP_HAND, "5", "Hang");
  g_autoptr (GListStore) list = hw_step_list_new ();
  GString *log = g_string_new (NULL);

  scene_open (&scene);
  project = hw_workspace_peek_project (scene.workspace);
  fifth->minutes = 4;
  g_signal_connect (list, "items-changed", G_CALLBACK (items_changed_cb), log);
  hw_step_list_update (list, project, G_MAXUINT);
  g_assert_cmpstr (log->str, ==, "0-0+4 ");
  g_string_truncate (log, 0);
  hw_step_list_update (list, project, G_MAXUINT);
  g_assert_cmpstr (log->str, ==, "");

  apply (list, project, hw_edit_insert_step (project, 1, fifth, NULL), log, "1-0+1 ");
  apply (list, project, hw_edit_remove_step (project, "2", NULL), log, "1-1+0 ");
  apply (list, project, hw_edit_move_step (project, "4", 0, NULL), log, "0-4+4 ");
  apply (list, project, hw_edit_move_step (project, "4", 2, NULL), log, "2-2+2 ");
  apply (list, project, hw_edit_set_title (project, "Other", NULL), log, "");
  apply (list, project, hw_edit_put_step (project, fifth, NULL), log, "4-0+1 ");

  g_string_truncate (log, 0);
  hw_step_list_update (list, project, 3);
  hw_step_list_update (list, project, G_MAXUINT);
  g_assert_cmpstr (log->str, ==, "3-1+0 3-0+1 ");
  g_string_free (log, TRUE);
  hw_step_unref (fifth);
  scene_close (&scene);
}

/* ---- what others write ---- */

static gboolean
has_changed (gpointer scene)
{
  return strstr (((Scene *) scene)->log->str, "changed\n") != NULL;
}

/* As another process would: with a snapshot of its own. */
static void
append_elsewhere (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = hw_room_open (scene->room, &error);
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_SEWING, "lockstitch");
  g_autoptr (HwRoom) next = NULL;

  entry->minutes = 45;
  next = hw_room_append (room, entry, &error);
  g_assert_no_error (error);
}

static double
hours_sewn (Scene *scene)
{
  const HwRoom *room = hw_workspace_get_room (scene->workspace);

  return hw_room_get_state (room, hw_room_find_machine (room, "lockstitch"))->at_machine_hours;
}

static void
test_elsewhere (void)
{
  Scene scene = { 0 };

  scene_open (&scene);
  g_assert_cmpfloat (hours_sewn (&scene), ==, 0);
  append_elsewhere (&scene);
  scene_wait (has_changed, &scene);
  g_assert_cmpfloat_with_epsilon (hours_sewn (&scene), 0.75, 1e-9);
  g_assert_cmpstr (scene.log->str, ==, "changed\n");

  scene_clear_log (&scene);                     /* and whoever writes here next keeps it */
  g_assert_true (hw_workspace_mark_done (scene.workspace, "1", TRUE));
  g_assert_cmpuint (hw_workspace_get_room (scene.workspace)->entries->len, ==, 3);     /* its needle too */
  scene_close (&scene);
}

static gboolean
has_an_entry (gpointer workspace)
{
  return hw_workspace_get_room (workspace)->entries->len == 1;
}

/* Between the reading, which is done beforehand, and the beginning of the watch. */
static void
test_elsewhere_meanwhile (void)
{
  Scene scene = { 0 };
  g_autoptr (HwWorkspace) workspace = NULL;
  HwLoaded *loaded;

  scene_open (&scene);
  loaded = hw_loading_finish (hw_loading_begin (scene.data, scene.room, NULL));
  g_assert_nonnull (loaded);
  append_elsewhere (&scene);
  workspace = hw_workspace_new_loaded (loaded);
  g_assert_cmpuint (hw_workspace_get_room (workspace)->entries->len, ==, 0);
  scene_wait (has_an_entry, workspace);
  scene_close (&scene);
}

static gboolean
is_over (gpointer end)
{
  return g_get_monotonic_time () > *(gint64 *) end;
}

static guint
count_changes (const Scene *scene)
{
  g_auto (GStrv) lines = g_strsplit (scene->log->str, "\n", -1);
  guint n = 0;

  for (char **line = lines; *line != NULL; line++)
    n += g_str_equal (*line, "changed") ? 1 : 0;
  return n;
}

/* What the workspace writes is not news to it: each change is told once, however long one waits. */
static void
test_own_writes (void)
{
  Scene  scene = { 0 };
  gint64 end;

  scene_open (&scene);
  g_assert_true (hw_workspace_mark_done (scene.workspace, "2", TRUE));
  g_assert_true (set_title (&scene, "Garden apron", NULL));
  end = g_get_monotonic_time () + 1200 * G_TIME_SPAN_MILLISECOND;
  scene_wait (is_over, &end);
  g_assert_cmpuint (count_changes (&scene), ==, 2);
  scene_close (&scene);
}

static void
test_project_elsewhere (void)
{
  Scene scene = { 0 };
  g_autofree char *projects = NULL;
  g_autoptr (GPtrArray) summaries = NULL;

  scene_open (&scene);
  projects = g_path_get_dirname (scene.path);
  temp_folder_write (projects, "bag.handwheel",
                     "<project xmlns=\"urn:handwheel:project:1\" id=\"bag\" title=\"Bag\"/>", -1);
  scene_wait (has_changed, &scene);
  summaries = hw_workspace_summarise_projects (scene.workspace);
  g_assert_cmpuint (summaries->len, ==, 2);
  scene_close (&scene);
}

static gboolean
has_error (gpointer scene)
{
  return strstr (((Scene *) scene)->log->str, "error: ") != NULL;
}

/* A file that cannot be read is told, and what is shown stays. */
static void
test_damage_elsewhere (void)
{
  Scene scene = { 0 };
  const HwRoom *before;

  scene_open (&scene);
  before = hw_workspace_get_room (scene.workspace);
  temp_folder_write (scene.room, "needles.xml", "<needles", -1);
  scene_wait (has_error, &scene);
  g_assert_nonnull (strstr (scene.log->str, "needles.xml"));
  g_assert_true (hw_workspace_get_room (scene.workspace) == before);
  scene_close (&scene);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *state = NULL;
  char            *folder;
  int              status;

  g_test_init (&argc, &argv, NULL);
  folder = temp_folder_new ();
  state = g_build_filename (folder, "state", NULL);
  g_setenv ("XDG_STATE_HOME", state, TRUE);
  g_test_add_func ("/workspace/edit-undo-redo", test_edit);
  g_test_add_func ("/workspace/merge", test_merge);
  g_test_add_func ("/workspace/same-again", test_same_again);
  g_test_add_func ("/workspace/refused-edit", test_refused);
  g_test_add_func ("/workspace/bad-file", test_bad_file);
  g_test_add_func ("/workspace/unknown-fabric", test_unknown_fabric);
  g_test_add_func ("/workspace/mark-done", test_mark_done);
  g_test_add_func ("/workspace/mark-hand-step", test_mark_hand_step);
  g_test_add_func ("/workspace/load-next", test_load_next);
  g_test_add_func ("/workspace/create", test_create);
  g_test_add_func ("/workspace/create-any-script", test_create_any_script);
  g_test_add_func ("/workspace/unsaved", test_unsaved);
  g_test_add_func ("/workspace/selection", test_selection);
  g_test_add_func ("/workspace/summaries", test_summaries);
  g_test_add_func ("/workspace/summaries-follow-files", test_summaries_follow_files);
  g_test_add_func ("/workspace/furnish", test_furnish);
  g_test_add_func ("/workspace/example", test_example);
  g_test_add_func ("/workspace/furnish-keeps-a-room", test_furnish_keeps_a_room);
  g_test_add_func ("/workspace/recall", test_recall);
  g_test_add_func ("/workspace/loaded", test_loaded);
  g_test_add_func ("/workspace/later", test_later);
  g_test_add_func ("/workspace/step-list", test_step_list);
  g_test_add_func ("/workspace/written-elsewhere", test_elsewhere);
  g_test_add_func ("/workspace/written-meanwhile", test_elsewhere_meanwhile);
  g_test_add_func ("/workspace/own-writes-are-no-news", test_own_writes);
  g_test_add_func ("/workspace/project-elsewhere", test_project_elsewhere);
  g_test_add_func ("/workspace/damage-elsewhere", test_damage_elsewhere);
  status = g_test_run ();
  temp_folder_remove (folder);
  return status;
}
