/* check-command.c - handwheel check FILE…: validates projects, a room folder or a handbook folder
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gi18n.h>

#include "command/command-private.h"
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
check_folder (const char *path,
              GError    **error)
{
  g_autofree char *sources = g_build_filename (path, "sources.xml", NULL);
  g_autoptr (HwHandbook) handbook = NULL;
  g_autoptr (HwRoom) room = NULL;

  if (g_file_test (sources, G_FILE_TEST_EXISTS))
    {
      handbook = hw_handbook_load (path, error);
      return handbook != NULL;
    }
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
                         _("Checks project files, or the folder of a sewing room or a handbook. One line for each that "
                           "is wrong: file, line and what to change."),
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
          g_autofree char *line = g_strdup_printf (_("%s: in order\n"), argv[i]);

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
