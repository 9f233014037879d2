/* care-form.c - a care task as an illustrated checklist
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions stand before the steps. Ticking is a help to the person; what is logged is that the task was done.
 */

#include "config.h"

#include "window/forms.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/motif.h"
#include "window/needle-fields.h"
#include "window/wrap.h"
#include "words/words-room.h"
#include "words/words.h"

#define PICTURE_WIDTH_EM 12.0
#define PICTURE_HEIGHT_EM 7.2
#define TEXT_CHARS 18                    /* what the texts ask for; they have all the width that is left */

typedef struct
{
  HwWorkspace *workspace;
  char        *machine, *care;
  GtkWidget   *note;
  HwNeedleNow *needle;                  /* asked for with a new needle; NULL otherwise */
} CareForm;

static void
free_form (gpointer data)
{
  CareForm *self = data;

  g_object_unref (self->workspace);
  g_free (self->machine);
  g_free (self->care);
  hw_needle_now_free (self->needle);
  g_free (self);
}

/* The load tells that the needle was changed, and which one is in. */
static gboolean
save_needle (CareForm        *self,
             const HwMachine *machine,
             GError         **error)
{
  const HwRoom              *room = hw_workspace_get_room (self->workspace);
  g_autoptr (HwJournalEntry) entry = hw_needle_now_read (self->needle, room, machine, error);
  g_autofree char           *told = NULL;

  if (entry == NULL)
    return FALSE;
  entry->note = hw_form_get_note (self->note);
  told = hw_needle_say_load (hw_workspace_get_handbook (self->workspace), machine,
                             hw_room_get_state (room, machine)->needle, entry);
  return hw_workspace_append (self->workspace, entry, told);
}

static gboolean
save_care (gpointer data,
           GError **error)
{
  CareForm                  *self = data;
  const HwHandbook          *handbook = hw_workspace_get_handbook (self->workspace);
  const HwMachine           *machine = hw_room_find_machine (hw_workspace_get_room (self->workspace), self->machine);
  g_autoptr (HwJournalEntry) entry = NULL;
  const char                *name = handbook->care[hw_handbook_find_care (handbook, self->care)].entry.name;
  g_autofree char           *told = NULL;

  if (machine == NULL)
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("There is no machine “%s” any more"),
                   self->machine);
      return FALSE;
    }
  if (self->needle != NULL)
    return save_needle (self, machine, error);
  entry = hw_journal_entry_new (HW_ENTRY_CARE, self->machine);
  entry->task = g_strdup (self->care);
  entry->note = hw_form_get_note (self->note);
  /* Translators: a care task, a machine */
  told = g_strdup_printf (_("Noted: %s, %s"), name, machine->name);
  return hw_workspace_append (self->workspace, entry, told);
}

/* To unplug comes first; the others stand below it, in line. */
static GtkWidget *
make_cautions (const HwCareTask *task)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *plug = hw_motif_new (2.8, 1.7);
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  hw_motif_show_care (HW_MOTIF (plug), "plug");
  hw_motif_set_name (HW_MOTIF (plug), _("Plug out of its socket"));
  gtk_widget_set_valign (plug, GTK_ALIGN_START);
  gtk_widget_set_hexpand (texts, TRUE);
  for (char **caution = task->cautions; *caution != NULL; caution++)
    {
      GtkWidget *label = hw_label_new (_(*caution), "strong");

      gtk_label_set_max_width_chars (GTK_LABEL (label), TEXT_CHARS);
      gtk_box_append (GTK_BOX (texts), label);
    }
  gtk_box_append (GTK_BOX (row), plug);
  gtk_box_append (GTK_BOX (row), texts);
  return row;
}

/* What it is about, and the cautions: beside the picture where the form is wide, else below it. */
static void
add_head (HwForm           *form,
          const HwCareTask *task,
          const char       *about)
{
  GtkWidget *head = hw_wrap_new (16, 8);
  GtkWidget *picture = hw_motif_new (PICTURE_WIDTH_EM, PICTURE_HEIGHT_EM);
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *label = hw_label_new (about, "mute");

  hw_motif_show_care (HW_MOTIF (picture), task->entry.id);
  hw_motif_set_name (HW_MOTIF (picture), task->entry.name);
  gtk_widget_set_valign (picture, GTK_ALIGN_START);
  gtk_label_set_max_width_chars (GTK_LABEL (label), TEXT_CHARS);
  gtk_box_append (GTK_BOX (texts), label);
  if (task->cautions[0] != NULL)
    gtk_box_append (GTK_BOX (texts), make_cautions (task));
  gtk_widget_set_hexpand (texts, TRUE);
  hw_wrap_append (HW_WRAP (head), picture);
  hw_wrap_append (HW_WRAP (head), texts);
  hw_form_add_wide (form, head);
}

static void
add_step (HwForm     *form,
          const char *text)
{
  GtkWidget *tick = gtk_check_button_new ();
  GtkWidget *label = hw_label_new (text, NULL);

  gtk_check_button_set_child (GTK_CHECK_BUTTON (tick), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (tick), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  hw_form_add_wide (form, tick);
}

static char *
say_task (const HwHandbook *handbook,
          const HwCareTask *task,
          const HwMachine  *machine)
{
  g_autofree char *minutes = hw_words_minutes (task->minutes);
  g_autofree char *source = hw_words_source (task->entry.source);

  /* Translators: a machine, minutes the task takes, the source of both the task and its interval */
  return g_strdup_printf (_("%s, about %s. Source: %s."), machine->name, minutes, source);
}

GtkWidget *
hw_care_form_new (HwWorkspace *workspace,
                  const char  *machine_id,
                  const char  *care_id)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  const HwMachine  *machine = hw_room_find_machine (hw_workspace_get_room (workspace), machine_id);
  int               care = hw_handbook_find_care (handbook, care_id);
  const HwCareTask *task;
  HwForm           *form;
  CareForm         *self;
  g_autofree char  *about = NULL;

  g_return_val_if_fail (machine != NULL && care >= 0, NULL);

  task = &handbook->care[care];
  form = HW_FORM (hw_form_new (task->entry.name, _("Done: note it")));
  self = g_new0 (CareForm, 1);
  self->workspace = g_object_ref (workspace);
  self->machine = g_strdup (machine_id);
  self->care = g_strdup (care_id);
  about = say_task (handbook, task, machine);
  add_head (form, task, about);
  for (char **step = task->steps; *step != NULL; step++)
    add_step (form, _(*step));
  if (task->entry.note != NULL)
    hw_form_add_wide (form, hw_label_new (task->entry.note, "mute"));
  if (g_str_equal (care_id, HW_NEEDLE_TASK))
    self->needle = hw_needle_now_add (form, workspace, machine);
  self->note = hw_form_note (NULL);
  hw_form_add (form, _("N_ote"), self->note);
  hw_form_set_save (form, save_care, self, free_form);
  return GTK_WIDGET (form);
}
