/* check-command.c - handwheel check FILE…: validates projects and folders: a room, a handbook, an overlay
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "files/save.h"
#include "files/xml.h"

/* The schema is the second fence: the typed reader has spoken first. */
static gboolean
check_schema (const char *path,
              const char *schema_name,
              const char *root,
              const char *ns,
              GError    **error)
{
  g_autofree char *data = hw_data_folder ();
  g_autofree char *schema_path = g_build_filename (data, "schema", schema_name, NULL);
  g_autoptr (HwSchema) schema = hw_schema_load (schema_path, error);
  g_autoptr (HwXml) xml = NULL;

  if (schema == NULL)
    return FALSE;
  xml = hw_xml_read_file (path, HW_PROJECT_MAX_BYTES, root, ns, error);
  return xml != NULL && hw_schema_check (schema, xml, error);
}

static gboolean
check_project (const char       *path,
               const HwHandbook *handbook,
               const HwRoom     *room,
               GError          **error)
{
  g_autoptr (HwProject) project = hw_project_read (path, error);
  g_autoptr (HwPlan) plan = NULL;

  if (project == NULL)
    return FALSE;
  plan = hw_plan_new (handbook, project, room, error);
  return plan != NULL && check_schema (path, "project.rng", "project", HW_PROJECT_NS, error);
}

static gboolean
has_entry (const char *folder,
           const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  return g_file_test (path, G_FILE_TEST_EXISTS);
}

/* Whether @path holds XML for the handbook. What cannot be read as such, but is not of another kind either, was most
 * likely meant to be. */
static gboolean
is_for_handbook (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) xml = hw_xml_read_file (path, HW_PROJECT_MAX_BYTES, "handbook", "urn:handwheel:handbook:1", &error);

  return xml != NULL || !g_error_matches (error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE);
}

/* A person's own XML over the handbook: files of the handbook without its schema, and no machines as in a room. */
static gboolean
is_overlay (const char *folder)
{
  g_autoptr (GDir) dir = has_entry (folder, "machines") ? NULL : g_dir_open (folder, 0, NULL);
  gboolean found = FALSE;
  const char *name;

  while (!found && dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (*name != '.' && g_str_has_suffix (name, ".xml"))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);

        found = is_for_handbook (path);
      }
  return found;
}

static gboolean
check_overlay (const char *overlay,
               GError    **error)
{
  g_autofree char *data = hw_data_folder ();
  g_autofree char *folder = g_build_filename (data, "handbook", NULL);
  g_autoptr (GError) refused = NULL;
  g_autoptr (HwHandbook) handbook = hw_handbook_load_with_overlay (folder, overlay, NULL, &refused, error);

  if (handbook == NULL || refused == NULL)
    return handbook != NULL;
  g_propagate_error (error, g_steal_pointer (&refused));
  return FALSE;
}

static gboolean
check_folder (const char *path,
              GError    **error)
{
  g_autoptr (HwHandbook) handbook = NULL;
  g_autoptr (HwRoom) room = NULL;

  if (has_entry (path, "handbook.rng"))
    {
      handbook = hw_handbook_load (path, error);
      return handbook != NULL;
    }
  if (is_overlay (path))
    return check_overlay (path, error);
  room = hw_room_open (path, error);
  return room != NULL;
}

int
hw_command_check (int    argc,
                  char **argv)
{
  g_autoptr (HwHandbook) handbook = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autofree char *room_folder = NULL;
  int              status = HW_EXIT_DONE;
  int              worst = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("FILE…"),
                         _("Checks project files, or the folder of a sewing room, of a handbook, or of your own XML "
                           "over the handbook. One line for each that is wrong: file, line and what to change."),
                         entries, &status))
    return status;
  if (argc < 2)
    return hw_command_usage (argv[0], _("name the files or folders to check"));

  handbook = hw_command_handbook_load (&status);
  if (handbook == NULL)
    return status;
  room = hw_command_room_open (room_folder, &status);
  if (room == NULL)
    return status;

  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GError) error = NULL;
      gboolean good = g_file_test (argv[i], G_FILE_TEST_IS_DIR) ? check_folder (argv[i], &error)
                                                                : check_project (argv[i], handbook, room, &error);

      if (good)
        {
          /* Translators: a file or folder name */
          g_autofree char *shown = hw_show_path (argv[i]);
          g_autofree char *line = g_strdup_printf (_("%s: in order\n"), shown);

          hw_command_print (line);
        }
      else
        {
          status = hw_command_fail (error);
          worst = MAX (worst, status);
        }
    }
  return worst;
}
