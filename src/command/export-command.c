/* export-command.c - a project with its test seams and fabrics as one file, written and taken in; a learned dial handed
 * on
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/command-private.h"

#include <glib/gi18n.h>
#include <stdio.h>

#include "files/save.h"
#include "model/share.h"
#include "model/test-seams.h"
#include "words/words.h"

static int
export_project (const char *file,
                const char *output,
                const char *room_folder)
{
  int status = HW_EXIT_DONE;
  g_autoptr (HwRoom) room = hw_command_room_open (room_folder, &status);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;
  g_autofree char *text = NULL;
  gsize size = 0;

  if (room == NULL)
    return status;
  project = hw_project_read (file, &error);
  text = project != NULL ? hw_share_to_xml (project, room, &size, &error) : NULL;
  if (text == NULL || !hw_save_bytes (output, text, (gssize) size, &error))
    return hw_command_fail (error);
  return HW_EXIT_DONE;
}

int
hw_command_export (int    argc,
                   char **argv)
{
  g_autofree char *output = NULL;
  g_autofree char *room_folder = NULL;
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output, N_("the file to write; it ends in .handwheel-share"),
      N_("FILE") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };
  int status = HW_EXIT_DONE;

  if (!hw_command_parse (&argc, &argv, _("FILE"),
                         _("A project with its test seams and fabrics as one file, to hand to somebody."), entries,
                         &status))
    return status;
  if (argc != 2)
    return hw_command_usage ("export", _("it takes one project file"));
  if (output == NULL || !g_str_has_suffix (output, HW_SHARE_ENDING))
    return hw_command_usage ("export", _("say with -o which file to write; its name ends in %s"), HW_SHARE_ENDING);
  return export_project (argv[1], output, room_folder);
}

static int
tell_taken (const HwShareTaken *taken)
{
  g_autofree char *text = hw_words_share_taken (taken->n_fabrics, taken->n_seams, taken->n_seams_left);

  printf ("%s\n", taken->path);
  if (*text != '\0')
    printf ("%s\n", text);
  return HW_EXIT_DONE;
}

static int
import_share (const char *file,
              const char *machine,
              const char *room_folder)
{
  int status = HW_EXIT_DONE;
  g_autoptr (HwRoom) room = hw_command_room_open (room_folder, &status);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwShare) share = NULL;
  g_autoptr (HwRoom) next = NULL;
  HwShareTaken taken = { 0 };

  if (room == NULL)
    return status;
  share = hw_share_read (file, &error);
  next = share != NULL ? hw_share_take_in (share, room, machine, &taken, &error) : NULL;
  status = next != NULL ? tell_taken (&taken) : hw_command_fail (error);
  hw_share_taken_clear (&taken);
  return status;
}

int
hw_command_import (int    argc,
                   char **argv)
{
  g_autofree char *machine = NULL;
  g_autofree char *room_folder = NULL;
  const GOptionEntry entries[] = {
    { "machine", 0, 0, G_OPTION_ARG_STRING, &machine, N_("its test seams count for this machine"), N_("ID") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };
  int status = HW_EXIT_DONE;

  if (!hw_command_parse (&argc, &argv, _("FILE"),
                         _("Takes a project that somebody exported into the sewing room, with test seams and fabrics."),
                         entries, &status))
    return status;
  if (argc != 2)
    return hw_command_usage ("import", _("it takes one file that was exported"));
  return import_share (argv[1], machine, room_folder);
}

static gboolean
teach (const HwRoom *room,
       const char   *id,
       const char   *from,
       GError      **error)
{
  const HwMachine *pupil = hw_room_find_machine (room, id);
  const HwMachine *teacher = from != NULL ? hw_room_find_machine (room, from) : NULL;
  g_autoptr (HwMachine) taught = NULL;
  g_autoptr (HwRoom) next = NULL;

  if (pupil == NULL || (from != NULL && teacher == NULL))
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("there is no machine “%s” in this sewing room"),
                   pupil == NULL ? id : from);
      return FALSE;
    }
  if (teacher != NULL && (teacher == pupil || teacher->kind != pupil->kind))
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                   _("“%s” cannot begin with what “%s” learned; name another machine of the same kind"), id, from);
      return FALSE;
    }
  taught = hw_machine_copy (pupil);
  g_free (taught->learned_from);
  taught->learned_from = g_strdup (from);
  next = hw_room_with_machine (room, taught, error);
  return next != NULL;
}

int
hw_command_teach (int    argc,
                  char **argv)
{
  g_autofree char *machine = NULL;
  g_autofree char *from = NULL;
  g_autofree char *room_folder = NULL;
  gboolean forget = FALSE;
  const GOptionEntry entries[] = {
    { "machine", 0, 0, G_OPTION_ARG_STRING, &machine, N_("the machine whose dial is to begin nearer"), N_("ID") },
    { "from", 0, 0, G_OPTION_ARG_STRING, &from, N_("the machine of the same kind that has learned"), N_("ID") },
    { "forget", 0, 0, G_OPTION_ARG_NONE, &forget, N_("begin with the handbook again"), NULL },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (GError) error = NULL;
  int status = HW_EXIT_DONE;

  if (!hw_command_parse (&argc, &argv, "", _("Lets a machine begin with what test seams taught another of its kind."),
                         entries, &status))
    return status;
  if (argc != 1 || machine == NULL || (from == NULL) != forget)
    return hw_command_usage ("teach", _("say --machine, and --from or --forget"));
  room = hw_command_room_open (room_folder, &status);
  if (room == NULL)
    return status;
  return teach (room, machine, from, &error) ? HW_EXIT_DONE : hw_command_fail (error);
}
