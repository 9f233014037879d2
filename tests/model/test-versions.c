/* test-versions.c - files of earlier, of later and of newer versions
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The folders in versions/ hold a sewing room as each version wrote it: "first" the format as it began, "1.0" with all
 * that it can say by now.
 */

#include "config.h"

#include "files/save.h"
#include "model/formats.h"
#include "room-fixture.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <libxml/parser.h>
#include <string.h>

static const char * const roots[] = { "project", "machine", "needles", "threads", "fabrics", "preferences", "journal" };

static const char *
file_of (const char *root)
{
  if (strcmp (root, "project") == 0)
    return "projects/skirt.handwheel";
  if (strcmp (root, "machine") == 0)
    return "machines/lockstitch.xml";
  if (strcmp (root, "journal") == 0)
    return "journal/lockstitch-2031.xml";
  return strcmp (root, "needles") == 0 ? "needles.xml" : strcmp (root, "threads") == 0 ? "threads.xml"
         : strcmp (root, "fabrics") == 0 ? "fabrics.xml" : "preferences.xml";
}

/* ---- the tables that say what is known, and the schemas ---- */

static xmlNode *
find_define (const xmlNode *grammar,
             const char    *name)
{
  for (xmlNode *node = hw_xml_first (grammar, "define"); node != NULL; node = hw_xml_next (node, "define"))
    {
      g_autofree char *own = hw_xml_dup_attr (node, "name");
      if (strcmp (own, name) == 0)
        return node;
    }
  return NULL;
}

typedef struct
{
  const xmlNode *grammar;
  GHashTable    *shapes;                 /* element -> GString " attribute/child …" */
} Walk;

static void walk_element (Walk *walk, const xmlNode *element);

/* What may stand directly in the element whose content @node is part of. */
static void
walk_content (Walk          *walk,
              const xmlNode *node,
              GString       *found)
{
  for (const xmlNode *child = hw_xml_first (node, NULL); child != NULL; child = hw_xml_next (child, NULL))
    {
      g_autofree char *name = hw_xml_dup_attr (child, "name");

      if (hw_xml_is (child, "attribute"))
        g_string_append_printf (found, "%s\n", name);
      else if (hw_xml_is (child, "element"))
        {
          g_string_append_printf (found, "<%s>\n", name);
          walk_element (walk, child);
        }
      else if (hw_xml_is (child, "ref"))
        walk_content (walk, find_define (walk->grammar, name), found);
      else
        walk_content (walk, child, found);
    }
}

static void
walk_element (Walk          *walk,
              const xmlNode *element)
{
  char *name = hw_xml_dup_attr (element, "name");
  GString *found = g_string_new (NULL);

  if (g_hash_table_contains (walk->shapes, name))
    {
      g_free (name);
      g_string_free (found, TRUE);
      return;
    }
  g_hash_table_insert (walk->shapes, name, found);
  walk_content (walk, element, found);
}

static xmlNode *
find_root_element (const xmlNode *node,
                   const char    *root)
{
  for (xmlNode *child = hw_xml_first (node, NULL); child != NULL; child = hw_xml_next (child, NULL))
    {
      g_autofree char *name = hw_xml_dup_attr (child, "name");
      xmlNode *inner = hw_xml_is (child, "element") && g_strcmp0 (name, root) == 0 ? child
                       : hw_xml_is (child, "element") ? NULL : find_root_element (child, root);
      if (inner != NULL)
        return inner;
    }
  return NULL;
}

static int
compare_text (gconstpointer a,
              gconstpointer b)
{
  return strcmp (*(const char * const *) a, *(const char * const *) b);
}

/* Each once, sorted, in one line. */
static char *
tidy (char **words)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new ();
  GString *text = g_string_new (NULL);

  for (; *words != NULL; words++)
    if (**words != '\0' && strcmp (*words, "minor") != 0)
      g_ptr_array_add (list, *words);
  g_ptr_array_sort (list, compare_text);
  for (guint i = 0; i < list->len; i++)
    if (i == 0 || strcmp (list->pdata[i], list->pdata[i - 1]) != 0)
      g_string_append_printf (text, "%s ", (const char *) list->pdata[i]);
  return g_string_free (text, FALSE);
}

static char *
describe_shape (const HwXmlShape *shape)
{
  g_auto (GStrv) attributes = g_strsplit (shape->attributes, " ", -1);
  g_auto (GStrv) children = g_strsplit (shape->children, " ", -1);
  g_autoptr (GStrvBuilder) all = g_strv_builder_new ();
  g_auto (GStrv) words = NULL;

  g_strv_builder_addv (all, (const char **) attributes);
  for (char **child = children; *child != NULL; child++)
    {
      g_autofree char *tag = **child != '\0' ? g_strdup_printf ("<%s>", *child) : g_strdup ("");
      g_strv_builder_add (all, tag);
    }
  words = g_strv_builder_end (all);
  return tidy (words);
}

static void
free_found (gpointer data)
{
  g_string_free (data, TRUE);
}

static void
check_shapes (const char *root)
{
  const HwXmlFormat *format = hw_format_find (root);
  g_autofree char *path = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "schema",
                                            strcmp (root, "project") == 0 ? "project.rng" : "room.rng", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) schema = hw_xml_read_file (path, 1 << 20, "grammar", "http://relaxng.org/ns/structure/1.0", &error);
  g_autoptr (GHashTable) shapes = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, free_found);
  Walk walk = { NULL, shapes };
  guint n = 0;

  g_assert_no_error (error);
  walk.grammar = hw_xml_root (schema);
  walk_element (&walk, find_root_element (walk.grammar, root));
  for (const HwXmlShape *shape = format->shapes; shape->element != NULL; shape++)
    {
      GString *found = g_hash_table_lookup (shapes, shape->element);
      g_autofree char *here = describe_shape (shape);
      g_auto (GStrv) words = found != NULL ? g_strsplit (found->str, "\n", -1) : NULL;
      g_autofree char *there = words != NULL ? tidy (words) : NULL;

      g_test_message ("<%s> of %s", shape->element, root);
      g_assert_cmpstr (here, ==, there);
      n++;
    }
  g_assert_cmpuint (n, ==, g_hash_table_size (shapes));
}

static void
test_shapes (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (roots); i++)
    check_shapes (roots[i]);
  g_assert_null (hw_format_find ("garment"));
}

/* ---- folders ---- */

static char *
new_folder (const char *version)
{
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "model", "versions", version, NULL);
  char *folder = temp_folder_new ();

  temp_folder_copy_tree (from, folder);
  return folder;
}

static void
replace_in (const char *folder,
            const char *name,
            const char *from,
            const char *to)
{
  g_autofree char *text = temp_folder_read (folder, name);
  g_auto (GStrv) parts = g_strsplit (text, from, 2);
  g_autofree char *next = NULL;

  g_assert_cmpuint (g_strv_length (parts), ==, 2);
  next = g_strjoinv (to, parts);
  temp_folder_write (folder, name, next, -1);
}

/* ---- earlier versions ---- */

/* Every element and attribute of @before stands in @after too. */
static void
assert_nothing_lost (const xmlNode *before,
                     const xmlNode *after)
{
  g_autoptr (GHashTable) index = hw_xml_index (after);

  for (const xmlAttr *attribute = before->properties; attribute != NULL; attribute = attribute->next)
    {
      g_autofree char *was = hw_xml_dup_attr (before, (const char *) attribute->name);
      g_autofree char *is = hw_xml_dup_attr (after, (const char *) attribute->name);

      if (is == NULL && strcmp (was, "0") == 0)
        continue;                        /* what stands at its ordinary value is left out */
      if (is == NULL || strspn (was, "0123456789.-") < strlen (was)
          || g_ascii_strtod (was, NULL) != g_ascii_strtod (is, NULL))
        g_assert_cmpstr (is, ==, was);
    }
  for (const xmlNode *child = hw_xml_first (before, NULL); child != NULL; child = hw_xml_next (child, NULL))
    {
      g_autofree char *key = hw_xml_dup_key (child);
      const xmlNode *same = g_hash_table_lookup (index, key);

      if (same == NULL)
        g_error ("<%s> is gone", key);
      assert_nothing_lost (child, same);
    }
}

static void
assert_file_kept (const char *before,
                  const char *after,
                  const char *name,
                  const char *root)
{
  const HwXmlFormat *format = hw_format_find (root);
  g_autofree char *first = g_build_filename (before, name, NULL);
  g_autofree char *second = g_build_filename (after, name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) was = hw_xml_read_file (first, 1 << 20, root, format->ns, &error);
  g_autoptr (HwXml) is = NULL;

  g_assert_no_error (error);
  is = hw_xml_read_file (second, 1 << 20, root, format->ns, &error);
  g_assert_no_error (error);
  assert_nothing_lost (hw_xml_root (was), hw_xml_root (is));
}

/* Every file is written anew: an entry more, another speed, one needle, spool and fabric more, other hours. */
static void
write_all_anew (const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = hw_room_open (folder, &error);
  g_autoptr (HwRoom) next = NULL;
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_CARE, "lockstitch");
  g_autoptr (HwMachine) machine = NULL;
  g_autoptr (HwPreferences) preferences = NULL;
  g_autoptr (GPtrArray) list = g_ptr_array_new ();

  g_assert_no_error (error);
  entry->task = g_strdup ("oil");
  g_free (entry->time);
  entry->time = g_strdup ("2031-12-30T10:00:00Z");
  next = hw_room_append (room, entry, &error);
  g_assert_no_error (error);
  hw_room_unref (room);
  machine = hw_machine_copy (hw_room_find_machine (next, "lockstitch"));
  machine->speed_spm += 1;
  room = hw_room_with_machine (next, machine, &error);
  g_assert_no_error (error);
  hw_room_unref (next);
  preferences = hw_preferences_copy (room->preferences);
  preferences->hours_a_week += 1;
  next = hw_room_with_preferences (room, preferences, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < next->packets->len; i++)
    g_ptr_array_add (list, next->packets->pdata[i]);
  hw_room_unref (room);
  room = hw_room_with_packets (next, list, &error);
  g_assert_no_error (error);
  hw_room_unref (g_steal_pointer (&next));
  next = hw_room_with_spools (room, room->spools, &error);
  g_assert_no_error (error);
  hw_room_unref (room);
  room = hw_room_with_cloths (next, next->cloths, &error);
  g_assert_no_error (error);
}

static void
write_project_anew (const char *folder,
                    const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = hw_project_read (path, &error);

  g_assert_no_error (error);
  hw_project_write (project, path, &error);
  g_assert_no_error (error);
}

static void
test_first (void)
{
  g_autofree char *before = g_test_build_filename (G_TEST_DIST, "model", "versions", "first", NULL);
  char *folder = new_folder ("first");

  write_all_anew (folder);
  write_project_anew (folder, "projects/stage-cape.handwheel");
  assert_file_kept (before, folder, "needles.xml", "needles");
  assert_file_kept (before, folder, "machines/overlocker.xml", "machine");
  assert_file_kept (before, folder, "journal/lockstitch-2026.xml", "journal");
  assert_file_kept (before, folder, "journal/overlocker-2026.xml", "journal");
  assert_file_kept (before, folder, "projects/stage-cape.handwheel", "project");
  temp_folder_remove (folder);
}

/* Written anew, the files hold what they held, but for the speed and the hours that write_all_anew() changes. */
static void
test_present (void)
{
  g_autofree char *before = g_test_build_filename (G_TEST_DIST, "model", "versions", "1.0", NULL);
  char *folder = new_folder ("1.0");

  write_all_anew (folder);
  write_project_anew (folder, "projects/skirt.handwheel");
  replace_in (folder, "machines/lockstitch.xml", "speed=\"801\"", "speed=\"800\"");
  replace_in (folder, "preferences.xml", "hours-a-week=\"8.5\"", "hours-a-week=\"7.5\"");
  for (gsize i = 0; i < G_N_ELEMENTS (roots); i++)
    assert_file_kept (before, folder, file_of (roots[i]), roots[i]);
  temp_folder_remove (folder);
}

/* ---- a later minor version ---- */

/* An attribute at the root and at an element, an element of its own with one inside, one of another namespace. */
static void
make_later (const char *folder)
{
  for (gsize i = 0; i < G_N_ELEMENTS (roots); i++)
    {
      const char *file = file_of (roots[i]);
      g_autofree char *root = g_strdup_printf ("<%s xmlns=", roots[i]);
      g_autofree char *later = g_strdup_printf ("<%s minor=\"7\" weather=\"fair &amp; dry\" xmlns=", roots[i]);
      g_autofree char *end = g_strdup_printf ("</%s>", roots[i]);
      g_autofree char *more = g_strdup_printf ("<moon phase=\"full\"><crater/>Bright</moon>"
                                               "<x:moon xmlns:x=\"urn:other\" x:a=\"1\"/></%s>", roots[i]);

      replace_in (folder, file, root, later);
      replace_in (folder, file, end, more);
    }
  replace_in (folder, "projects/skirt.handwheel", "number=\"1\"",
              "mood=\"calm\" w:tide=\"low\" xmlns:w=\"urn:other\" number=\"1\"");
  replace_in (folder, "projects/skirt.handwheel", "<ply fabric=\"shell\" count=\"2\"/>",
              "<ply fabric=\"shell\" count=\"2\" side=\"left\"/><star>Polaris</star>");
  replace_in (folder, "machines/lockstitch.xml", "<foot id=\"edge\"/>", "<foot id=\"edge\" colour=\"red\"/>");
  replace_in (folder, "journal/lockstitch-2031.xml", "<cancel ", "<photo id=\"b1\" of=\"a2\"/><cancel mood=\"sad\" ");
  replace_in (folder, "threads.xml", "<thread id=\"navy\"", "<thread shelf=\"3\" id=\"navy\"");
}

static void
assert_holds (const char *folder,
              const char *name,
              const char *text)
{
  g_autofree char *bytes = temp_folder_read (folder, name);

  if (strstr (bytes, text) == NULL)
    g_error ("%s lost: %s\n%s", name, text, bytes);
}

static void
assert_holds_later (const char *folder)
{
  for (gsize i = 0; i < G_N_ELEMENTS (roots); i++)
    {
      assert_holds (folder, file_of (roots[i]), "minor=\"7\"");
      assert_holds (folder, file_of (roots[i]), "weather=\"fair &amp; dry\"");
      assert_holds (folder, file_of (roots[i]), "<moon phase=\"full\"><crater/>Bright</moon>");
      assert_holds (folder, file_of (roots[i]), "x:a=\"1\"");
    }
  assert_holds (folder, "projects/skirt.handwheel", "mood=\"calm\"");
  assert_holds (folder, "projects/skirt.handwheel", "w:tide=\"low\"");
  assert_holds (folder, "projects/skirt.handwheel", "side=\"left\"");
  assert_holds (folder, "projects/skirt.handwheel", "<star>Polaris</star>");
  assert_holds (folder, "machines/lockstitch.xml", "<foot id=\"edge\" colour=\"red\"/>");
  assert_holds (folder, "journal/lockstitch-2031.xml", "<photo id=\"b1\" of=\"a2\"/>");
  assert_holds (folder, "journal/lockstitch-2031.xml", "mood=\"sad\"");
  assert_holds (folder, "threads.xml", "shelf=\"3\"");
}

static void
test_later (void)
{
  char *folder = new_folder ("1.0");
  g_autofree char *once = NULL;
  g_autofree char *twice = NULL;
  g_autofree char *path = g_build_filename (folder, "projects/skirt.handwheel", NULL);
  g_autoptr (HwProject) project = NULL;

  make_later (folder);
  write_all_anew (folder);
  write_project_anew (folder, "projects/skirt.handwheel");
  assert_holds_later (folder);
  once = temp_folder_read (folder, "projects/skirt.handwheel");
  write_project_anew (folder, "projects/skirt.handwheel");
  twice = temp_folder_read (folder, "projects/skirt.handwheel");
  g_assert_cmpstr (once, ==, twice);
  project = hw_project_read (path, NULL);
  g_assert_cmpuint (project->steps->len, ==, 3);
  g_assert_cmpuint (hw_project_get_step (project, 0)->n_plies, ==, 1);
  temp_folder_remove (folder);
}

/* What stands in a file of the version known here is a mistake, and so is a "minor" that is no number. */
static void
test_strict (void)
{
  static const char * const minors[] = { "", "minor=\"0\" ", "minor=\"-1\" ", "minor=\"x\" ", "minor=\"\" ",
                                         "minor=\"99999999999\" " };

  for (gsize i = 0; i < G_N_ELEMENTS (minors); i++)
    {
      g_autofree char *text = g_strdup_printf ("<project xmlns=\"urn:handwheel:project:1\" %sid=\"a\" title=\"A\">"
                                               "<moon/></project>", minors[i]);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwProject) project = hw_project_parse ("a.handwheel", text, strlen (text), &error);

      g_assert_null (project);
      g_assert_true (error->domain == HW_XML_ERROR || error->domain == HW_MODEL_ERROR);
    }
}

/* ---- a newer version ---- */

static void
test_newer (gconstpointer data)
{
  const char *root = data;
  const char *file = file_of (root);
  char *folder = new_folder ("1.0");
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autofree char *base = g_path_get_basename (file);
  g_autoptr (GError) error = NULL;

  if (strcmp (root, "project") == 0)
    {
      g_autoptr (HwProject) project = hw_project_read (path, &error);

      replace_in (folder, file, "urn:handwheel:project:1", "urn:handwheel:project:2");
      before = temp_folder_read (folder, file);
      g_assert_false (hw_project_write (project, path, &error));
      g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE);
      g_clear_error (&error);
      g_assert_null (hw_project_read (path, &error));
    }
  else
    {
      replace_in (folder, file, "urn:handwheel:room:1", "urn:handwheel:room:2");
      before = temp_folder_read (folder, file);
      g_assert_null (hw_room_open (folder, &error));
    }
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE);
  g_assert_true (g_str_has_prefix (error->message, base));
  g_assert_nonnull (strstr (error->message, "newer version; update Handwheel"));
  after = temp_folder_read (folder, file);
  g_assert_cmpstr (before, ==, after);
  temp_folder_remove (folder);
}

/* The file became a newer one while the room was open: nothing is written over it. */
static void
test_newer_meanwhile (void)
{
  char *folder = new_folder ("1.0");
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) room = hw_room_open (folder, &error);
  g_autoptr (HwMachine) machine = NULL;
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_CARE, "lockstitch");
  static const char * const changed[] = { "machines/lockstitch.xml", "journal/lockstitch-2031.xml", "threads.xml" };
  g_autofree char *before[G_N_ELEMENTS (changed)] = { NULL };

  g_assert_no_error (error);
  for (gsize i = 0; i < G_N_ELEMENTS (changed); i++)
    {
      replace_in (folder, changed[i], "urn:handwheel:room:1", "urn:handwheel:room:2");
      before[i] = temp_folder_read (folder, changed[i]);
    }
  machine = hw_machine_copy (hw_room_find_machine (room, "lockstitch"));
  machine->speed_spm = 700;
  g_assert_null (hw_room_with_machine (room, machine, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE);
  g_clear_error (&error);
  g_assert_null (hw_room_with_spools (room, room->spools, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE);
  g_clear_error (&error);
  entry->task = g_strdup ("oil");
  g_free (entry->time);
  entry->time = g_strdup ("2031-12-30T10:00:00Z");
  g_assert_null (hw_room_append (room, entry, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE);
  for (gsize i = 0; i < G_N_ELEMENTS (changed); i++)
    {
      g_autofree char *after = temp_folder_read (folder, changed[i]);
      g_assert_cmpstr (before[i], ==, after);
      g_free (g_steal_pointer (&before[i]));
    }
  temp_folder_remove (folder);
}

int
main (int    argc,
      char **argv)
{
  char *rescue = NULL;
  int status;

  g_test_init (&argc, &argv, NULL);
  rescue = temp_folder_new ();
  g_setenv ("HANDWHEEL_RESCUE", rescue, TRUE);
  g_test_add_func ("/versions/tables-follow-schemas", test_shapes);
  g_test_add_func ("/versions/first", test_first);
  g_test_add_func ("/versions/present", test_present);
  g_test_add_func ("/versions/later", test_later);
  g_test_add_func ("/versions/strict", test_strict);
  g_test_add_func ("/versions/newer-meanwhile", test_newer_meanwhile);
  for (gsize i = 0; i < G_N_ELEMENTS (roots); i++)
    {
      g_autofree char *path = g_strdup_printf ("/versions/newer/%s", roots[i]);
      g_test_add_data_func (path, roots[i], test_newer);
    }
  status = g_test_run ();
  temp_folder_remove (rescue);
  return status;
}
