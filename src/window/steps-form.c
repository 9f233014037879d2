/* steps-form.c - the form for several steps: what is to be the same in all of them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is not touched stays as each step has it.
 */

#include "config.h"

#include "window/forms.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/step-choices.h"
#include "words/words.h"

#define CM_PER_INCH 2.54

typedef struct
{
  HwWorkspace *workspace;
  char       **numbers;
  GtkWidget   *fabric, *instead_of, *seam, *stitch, *needle_thread, *machine;
  GtkWidget   *length, *stitch_length;
} StepsForm;

static void
free_form (gpointer data)
{
  StepsForm *self = data;

  g_object_unref (self->workspace);
  g_strfreev (self->numbers);
  g_free (self);
}

static gboolean
read_change (StepsForm    *self,
             HwStepChange *change,
             GError      **error)
{
  *change = (HwStepChange) {
    .fabric = hw_choice_peek (GTK_DROP_DOWN (self->fabric)),
    .instead_of = hw_choice_peek (GTK_DROP_DOWN (self->instead_of)),
    .seam = hw_choice_peek (GTK_DROP_DOWN (self->seam)),
    .stitch = hw_choice_peek (GTK_DROP_DOWN (self->stitch)),
    .needle_thread = hw_choice_peek (GTK_DROP_DOWN (self->needle_thread)),
    .machine = hw_choice_peek (GTK_DROP_DOWN (self->machine)),
  };
  if (!hw_form_get_number (self->length, _("The length"), 0, &change->length_cm, error))
    return FALSE;
  change->length_cm *= hw_words_are_inches () ? CM_PER_INCH : 1;
  return hw_form_get_number (self->stitch_length, _("The stitch length"), 0, &change->stitch_length_mm, error);
}

static gboolean
save (gpointer data,
      GError **error)
{
  StepsForm         *self = data;
  const char * const *numbers = (const char * const *) self->numbers;
  int                n = (int) g_strv_length (self->numbers);
  HwStepChange       change;
  HwProject         *next;
  /* Translators: in “Undo: …” */
  g_autofree char   *label = g_strdup_printf (ngettext ("change %d step", "change %d steps", (gulong) n), n);

  if (!read_change (self, &change, error))
    return FALSE;
  next = hw_edit_change_steps (hw_workspace_peek_project (self->workspace), numbers, &change, error);
  if (next == NULL)
    return FALSE;
  hw_workspace_edit (self->workspace, next, label, NULL, NULL);
  return TRUE;
}

static GtkWidget *
make_choice (const char *untouched)
{
  GtkWidget *choice = hw_choice_new ();

  gtk_widget_set_hexpand (choice, TRUE);
  hw_choice_add (GTK_DROP_DOWN (choice), NULL, untouched);
  return choice;
}

/* @own: what "" stands for. */
static GtkWidget *
add_choice (HwForm     *form,
            const char *label,
            const char *untouched,
            const char *own)
{
  GtkWidget *choice = make_choice (untouched);

  hw_choice_add (GTK_DROP_DOWN (choice), "", own);
  hw_form_add (form, label, choice);
  return choice;
}

/* Which layers is asked only of a person who changes some. */
static void
fabric_chosen_cb (GtkDropDown *fabric,
                  GParamSpec  *pspec,
                  GtkWidget   *instead_row)
{
  gtk_widget_set_visible (instead_row, hw_choice_peek (fabric) != NULL);
}

static void
add_fabrics (StepsForm  *self,
             HwForm     *form,
             const char *untouched)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  GtkWidget       *instead_row;

  self->fabric = make_choice (untouched);
  hw_choice_add_fabrics (self->fabric, project);
  hw_form_add (form, _("_Fabric"), self->fabric);
  self->instead_of = make_choice (_("every layer"));
  hw_choice_add_fabrics (self->instead_of, project);
  instead_row = hw_form_add (form, _("_In the place of"), self->instead_of);
  gtk_widget_set_visible (instead_row, FALSE);
  g_signal_connect_object (self->fabric, "notify::selected", G_CALLBACK (fabric_chosen_cb), instead_row, 0);
}

static void
add_rows (StepsForm *self,
          HwForm    *form)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  const HwProject  *project = hw_workspace_peek_project (self->workspace);
  const char       *untouched = _("as each has it");

  add_fabrics (self, form, untouched);
  self->seam = add_choice (form, _("S_eam"), untouched, _("as usual for this purpose"));
  hw_choice_add_seams (self->seam, handbook);
  self->stitch = add_choice (form, _("S_titch"), untouched, _("as usual for this purpose"));
  hw_choice_add_stitches (self->stitch, handbook);
  self->stitch_length = hw_form_entry (NULL, untouched);
  hw_form_add (form, _("Stitch lengt_h, mm"), self->stitch_length);
  self->length = hw_form_entry (NULL, untouched);
  hw_form_add (form, hw_words_are_inches () ? _("_Length of each step, inches") : _("_Length of each step, cm"),
               self->length);
  self->needle_thread = add_choice (form, _("_Needle thread"), untouched, _("the first that fits"));
  hw_choice_add_threads (self->needle_thread, handbook, project);
  self->machine = add_choice (form, _("_Machine"), untouched, _("the first that forms the stitch"));
  hw_choice_add_machines (self->machine, hw_workspace_get_room (self->workspace));
}

GtkWidget *
hw_steps_form_new (HwWorkspace        *workspace,
                   const char * const *numbers)
{
  StepsForm       *self = g_new0 (StepsForm, 1);
  int              n = (int) g_strv_length ((char **) numbers);
  g_autofree char *title = g_strdup_printf (ngettext ("%d step chosen", "%d steps chosen", (gulong) n), n);
  g_autofree char *joined = g_strjoinv (" ", (char **) numbers);
  GtkWidget       *form = hw_form_new (title, _("Change them"));

  self->workspace = g_object_ref (workspace);
  self->numbers = g_strdupv ((char **) numbers);
  hw_form_add_wide (HW_FORM (form), hw_label_new (joined, "mute"));
  add_rows (self, HW_FORM (form));
  hw_form_set_save (HW_FORM (form), save, self, free_form);
  return form;
}
