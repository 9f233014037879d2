/* quick-row.c - the row at the end of the making up in which steps are typed
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/quick-row.h"

#include <glib/gi18n.h>
#include <string.h>

#include "window/controls.h"
#include "window/form.h"
#include "window/quick-list.h"
#include "window/wrap.h"
#include "words/quick.h"
#include "words/words.h"

#define MOST_OFFERS 8

/* How a step is taken by its name. */
typedef enum { TAKEN_AS_NAMED, TAKEN_BY_HAND, TAKEN_AS_SEAM } Taken;

struct _HwQuickRow
{
  GtkBox       parent_instance;
  HwWorkspace *workspace;
  HwQuick     *quick;
  GtkWidget   *fields[HW_QUICK_N_FIELDS], *cells[HW_QUICK_N_FIELDS];
  GtkWidget   *length_label, *status, *list;
  Taken        taken;                    /* what the status says of the step */
  char        *guessed;                  /* in full, as the status has it; NULL: nothing */
  char        *dropped[HW_QUICK_N_FIELDS];      /* what stood in the fields when it was closed; NULL: nothing */
};

static guint closed_signal;

G_DEFINE_FINAL_TYPE (HwQuickRow, hw_quick_row, GTK_TYPE_BOX)

static const struct { const char *name; int width_chars; gboolean expand; } columns[HW_QUICK_N_FIELDS] = {
  { N_("Step"), 20, TRUE }, { N_("Seam"), 11, TRUE }, { N_("Layers"), 18, TRUE }, { N_("Stitch"), 11, TRUE },
  { N_("Length"), 6, FALSE }, { N_("After"), 5, FALSE },
};

static const HwProject *
peek_project (HwQuickRow *self)
{
  return hw_workspace_peek_project (self->workspace);
}

static const char *
peek_text (HwQuickRow   *self,
           HwQuickField  field)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->fields[field]));
}

static HwQuickField
find_field (HwQuickRow *self,
            GtkWidget  *entry)
{
  HwQuickField field = HW_QUICK_STEP;

  while (field < HW_QUICK_AFTER && self->fields[field] != entry)
    field++;
  return field;
}

/* ---- what is shown ---- */

static void
tell (HwQuickRow *self,
      const char *text,
      gboolean    is_error)
{
  gtk_label_set_text (GTK_LABEL (self->status), text);
  gtk_widget_remove_css_class (self->status, is_error ? "mute" : "rust");
  gtk_widget_add_css_class (self->status, is_error ? "rust" : "mute");
}

static void
tell_keys (HwQuickRow *self)
{
  tell (self, _("Type, Tab goes on, Down shows what it may be. Return adds the step; Escape ends."), FALSE);
}

static const char *
say_seam (void)
{
  return _("Not a name the handbook knows: taken as a plain seam. Else choose the seam.");
}

static gboolean
is_unknown (HwQuickRow *self)
{
  const char *name = peek_text (self, HW_QUICK_STEP);

  return name[strspn (name, " ")] != '\0' && peek_text (self, HW_QUICK_SEAM)[0] == '\0'
         && !hw_quick_knows (self->quick, peek_project (self), name);
}

/* While a name is being typed that may become one of the handbook's, there is nothing to tell. */
static gboolean
may_become_known (HwQuickRow *self)
{
  GtkRoot              *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget            *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  g_autoptr (GPtrArray) offers = NULL;

  if (focus == NULL || !gtk_widget_is_ancestor (focus, self->fields[HW_QUICK_STEP]))
    return FALSE;
  offers = hw_quick_offer (self->quick, peek_project (self), HW_QUICK_STEP, peek_text (self, HW_QUICK_STEP), 1);
  return offers->len > 0;
}

/* What the empty fields stand for, whole: the fields may be too narrow for it. (transfer full); NULL: nothing is known
 * of the step yet. */
static char *
say_guessed (HwQuickRow         *self,
             const HwQuickGuess *guess)
{
  const char           *name = peek_text (self, HW_QUICK_STEP);
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);
  g_autofree char      *joined = NULL;

  if (name[strspn (name, " ")] == '\0' || guess->by_hand)
    return NULL;
  for (HwQuickField field = HW_QUICK_SEAM; field < HW_QUICK_N_FIELDS; field++)
    {
      char *says = peek_text (self, field)[0] == '\0'
                   ? hw_quick_say (self->quick, peek_project (self), name, guess, field) : NULL;

      if (says == NULL || (field == HW_QUICK_AFTER && g_str_equal (says, C_("comes after", "none"))))
        g_free (says);
      else if (field == HW_QUICK_AFTER)
        {
          /* Translators: numbers of steps that come before */
          g_ptr_array_add (parts, g_strdup_printf (C_("taken as", "after %s"), says));
          g_free (says);
        }
      else
        g_ptr_array_add (parts, says);
    }
  g_ptr_array_add (parts, NULL);
  joined = g_strjoinv (C_("list of choices", "; "), (char **) parts->pdata);
  /* Translators: seam; layers; stitch; after which step */
  return joined[0] != '\0' ? g_strdup_printf (_("Taken as: %s"), joined) : NULL;
}

/* A name may only sound like work by hand, or say nothing. @guessed is taken over. */
static void
tell_taken (HwQuickRow *self,
            Taken       taken,
            char       *guessed)
{
  if (taken == self->taken && g_strcmp0 (guessed, self->guessed) == 0)
    {
      g_free (guessed);
      return;
    }
  self->taken = taken;
  g_free (self->guessed);
  self->guessed = guessed;
  if (taken == TAKEN_BY_HAND && peek_text (self, HW_QUICK_SEAM)[0] == '\0')
    tell (self, _("Taken as work by hand. If a machine sews it, say so: type its seam."), FALSE);
  else if (taken == TAKEN_AS_SEAM)
    tell (self, say_seam (), FALSE);
  else if (guessed != NULL)
    tell (self, guessed, FALSE);
  else
    tell_keys (self);
}

/* What an empty field stands for is written into it, pale. */
static void
show_guess (HwQuickRow *self)
{
  HwQuickGuess guess;
  const char  *length = NULL;
  char        *guessed;
  Taken        taken;

  hw_quick_guess (self->quick, peek_project (self), peek_text (self, HW_QUICK_STEP), peek_text (self, HW_QUICK_SEAM),
                  &guess);
  length = guess.by_hand ? _("Minutes") : hw_words_are_inches () ? _("Length, inches") : _("Length, cm");
  for (HwQuickField field = HW_QUICK_SEAM; field < HW_QUICK_N_FIELDS; field++)
    {
      g_autofree char *says = hw_quick_say (self->quick, peek_project (self), peek_text (self, HW_QUICK_STEP), &guess,
                                            field);

      gtk_entry_set_placeholder_text (GTK_ENTRY (self->fields[field]), says);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->fields[field]), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                      says != NULL ? says : "", -1);
    }
  gtk_widget_set_visible (self->cells[HW_QUICK_LAYERS], !guess.by_hand);
  gtk_widget_set_visible (self->cells[HW_QUICK_STITCH], !guess.by_hand);
  gtk_label_set_text (GTK_LABEL (self->length_label), length);
  hw_control_name (self->fields[HW_QUICK_LENGTH], length);
  taken = guess.by_hand ? TAKEN_BY_HAND
          : is_unknown (self) && !may_become_known (self) ? TAKEN_AS_SEAM : TAKEN_AS_NAMED;
  guessed = taken != TAKEN_AS_NAMED || !is_unknown (self) ? say_guessed (self, &guess) : NULL;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->fields[HW_QUICK_STEP]), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  guessed != NULL ? guessed : "", -1);
  tell_taken (self, taken, guessed);
}

static void
project_changed_cb (HwQuickRow *self)
{
  if (peek_project (self) != NULL && gtk_widget_get_mapped (GTK_WIDGET (self)))
    show_guess (self);
}

static GPtrArray *
ask_cb (gpointer   data,
        GtkWidget *entry)
{
  HwQuickRow  *self = data;
  HwQuickField field = find_field (self, entry);
  const char  *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  HwQuickGuess guess;

  if (text[strspn (text, " ")] != '\0')
    return hw_quick_offer (self->quick, peek_project (self), field, text, MOST_OFFERS);
  hw_quick_guess (self->quick, peek_project (self), peek_text (self, HW_QUICK_STEP), peek_text (self, HW_QUICK_SEAM),
                  &guess);
  return hw_quick_all (hw_workspace_get_handbook (self->workspace), peek_project (self), &guess, field);
}

/* What was meant by a few letters is written out, so that a wrong guess is seen. A step may be called anything. */
static void
write_out (HwQuickRow *self,
           GtkWidget  *entry)
{
  HwQuickField          field = find_field (self, entry);
  g_autoptr (GPtrArray) offers = NULL;

  if (field == HW_QUICK_STEP || field == HW_QUICK_LENGTH || field == HW_QUICK_AFTER
      || peek_text (self, field)[strspn (peek_text (self, field), " ")] == '\0')
    return;
  offers = ask_cb (self, entry);
  if (offers->len > 0)
    gtk_editable_set_text (GTK_EDITABLE (entry), ((HwQuickOffer *) offers->pdata[0])->text);
}

/* By now the focus is where it goes to: into the list, or away from the field. */
static gboolean
left_cb (gpointer data)
{
  GtkWidget  *entry = data;
  HwQuickRow *self = HW_QUICK_ROW (gtk_widget_get_ancestor (entry, HW_TYPE_QUICK_ROW));
  GtkRoot    *root = gtk_widget_get_root (entry);
  GtkWidget  *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (self == NULL || self->list == NULL || peek_project (self) == NULL
      || (focus != NULL && (gtk_widget_is_ancestor (focus, self->list) || gtk_widget_is_ancestor (focus, entry))))
    return G_SOURCE_REMOVE;
  hw_quick_list_leave (self->list, entry);
  write_out (self, entry);
  if (entry == self->fields[HW_QUICK_STEP] && self->taken != TAKEN_AS_SEAM && is_unknown (self))
    show_guess (self);
  return G_SOURCE_REMOVE;
}

static void
leave_cb (GtkEventControllerFocus *focus)
{
  GtkWidget *entry = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus));

  g_idle_add_full (G_PRIORITY_HIGH_IDLE, left_cb, g_object_ref (entry), g_object_unref);
}

/* ---- adding ---- */

static void
clear (HwQuickRow *self)
{
  for (HwQuickField field = HW_QUICK_STEP; field < HW_QUICK_N_FIELDS; field++)
    gtk_editable_set_text (GTK_EDITABLE (self->fields[field]), "");
  show_guess (self);
}

static gboolean
add_step (HwQuickRow   *self,
          HwQuickField *wrong,
          GError      **error)
{
  const HwProject *project = peek_project (self);
  const char      *texts[HW_QUICK_N_FIELDS];
  g_autofree char *label = NULL;
  g_autofree char *told = NULL;
  g_autofree char *number = NULL;
  HwStep          *step = NULL;
  HwProject       *next = NULL;

  for (HwQuickField field = HW_QUICK_STEP; field < HW_QUICK_N_FIELDS; field++)
    texts[field] = peek_text (self, field);
  step = hw_quick_read (self->quick, project, texts, wrong, error);
  if (step == NULL)
    return FALSE;
  *wrong = HW_QUICK_AFTER;
  next = hw_edit_insert_step (project, project->steps->len, step, error);
  number = g_strdup (step->number);
  /* Translators: in “Undo: …”; the step's number and name */
  label = g_strdup_printf (_("add step %s, %s"), step->number, step->name);
  /* Translators: a step's number and name */
  told = g_strdup_printf (_("Step %s added: %s. Type the next, or press Escape."), step->number, step->name);
  hw_step_unref (step);
  if (next == NULL)
    return FALSE;
  hw_workspace_edit (self->workspace, next, label, NULL, NULL);
  hw_workspace_select (self->workspace, number);
  clear (self);
  tell (self, told, FALSE);
  return TRUE;
}

/* With it, what the step is taken as stays in sight. */
static void
tell_wrong (HwQuickRow *self,
            const char *text,
            gboolean    is_error)
{
  g_autofree char *both = NULL;

  if (is_unknown (self))
    {
      self->taken = TAKEN_AS_SEAM;
      both = g_strjoin (" ", say_seam (), text, NULL);
    }
  tell (self, both != NULL ? both : text, is_error);
}

static void
add_action (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  HwQuickRow        *self = HW_QUICK_ROW (widget);
  g_autoptr (GError) error = NULL;
  HwQuickField       wrong = HW_QUICK_STEP;

  if (peek_project (self) == NULL)
    return;
  hw_quick_list_close (self->list);
  if (!add_step (self, &wrong, &error))                   /* what is only missing yet is asked for, not scolded */
    tell_wrong (self, error->message, wrong != HW_QUICK_LENGTH || peek_text (self, HW_QUICK_LENGTH)[0] != '\0');
  else
    wrong = HW_QUICK_STEP;
  gtk_widget_grab_focus (self->fields[wrong]);
}

/* Work by hand needs no more than its name, so that Return at the name shows what it is taken as before it is added. */
static gboolean
stop_at_minutes (HwQuickRow *self,
                 GtkWidget  *entry)
{
  if (find_field (self, entry) != HW_QUICK_STEP || self->taken != TAKEN_BY_HAND
      || peek_text (self, HW_QUICK_LENGTH)[0] != '\0')
    return FALSE;
  hw_quick_list_close (self->list);
  gtk_widget_grab_focus (self->fields[HW_QUICK_LENGTH]);
  return TRUE;
}

/* Nor is a name added as a seam that could have become another, before that is told. */
static gboolean
stop_at_seam (HwQuickRow *self,
              GtkWidget  *entry)
{
  if (find_field (self, entry) != HW_QUICK_STEP || self->taken == TAKEN_AS_SEAM || !is_unknown (self)
      || peek_text (self, HW_QUICK_LENGTH)[0] == '\0')
    return FALSE;
  hw_quick_list_close (self->list);
  tell_taken (self, TAKEN_AS_SEAM, g_strdup (self->guessed));
  gtk_widget_grab_focus (self->fields[HW_QUICK_SEAM]);
  return TRUE;
}

static void
activate_cb (GtkWidget *entry)
{
  HwQuickRow *self = HW_QUICK_ROW (gtk_widget_get_ancestor (entry, HW_TYPE_QUICK_ROW));

  if (stop_at_minutes (self, entry) || stop_at_seam (self, entry))
    return;
  gtk_widget_activate_action (entry, "quick-row.add", NULL);
}

/* What stands in the fields, put aside; FALSE: nothing. */
static gboolean
put_aside (HwQuickRow *self)
{
  gboolean any = FALSE;

  for (HwQuickField field = HW_QUICK_STEP; field < HW_QUICK_N_FIELDS; field++)
    any = any || peek_text (self, field)[0] != '\0';
  for (HwQuickField field = HW_QUICK_STEP; any && field < HW_QUICK_N_FIELDS; field++)
    {
      g_free (self->dropped[field]);
      self->dropped[field] = g_strdup (peek_text (self, field));
    }
  return any;
}

static void
close_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  HwQuickRow      *self = HW_QUICK_ROW (widget);
  gboolean         half_typed = peek_project (self) != NULL && put_aside (self);
  g_autofree char *text = NULL;

  hw_quick_list_close (self->list);
  if (half_typed)
    clear (self);
  g_signal_emit (widget, closed_signal, 0);
  if (!half_typed)
    return;
  /* Translators: what was typed as the name of a step */
  text = self->dropped[HW_QUICK_STEP][0] != '\0'
         ? g_strdup_printf (_("The step “%s” was not added yet."), self->dropped[HW_QUICK_STEP])
         : g_strdup (_("What was typed is not added yet."));
  hw_workspace_tell_way_back (self->workspace, text, "making-up", "making-up.type-again");
}

/* ---- the object ---- */

static void
hw_quick_row_dispose (GObject *object)
{
  HwQuickRow *self = HW_QUICK_ROW (object);

  g_clear_pointer (&self->list, gtk_widget_unparent);
  g_clear_pointer (&self->quick, hw_quick_free);
  for (HwQuickField field = HW_QUICK_STEP; field < HW_QUICK_N_FIELDS; field++)
    g_clear_pointer (&self->dropped[field], g_free);
  g_clear_pointer (&self->guessed, g_free);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_quick_row_parent_class)->dispose (object);
}

static void
hw_quick_row_class_init (HwQuickRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_quick_row_dispose;
  closed_signal = g_signal_new ("closed", HW_TYPE_QUICK_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_install_action (widget_class, "quick-row.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "quick-row.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "quick-row.close", NULL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_FORM);
}

static GtkWidget *
make_field (HwQuickRow   *self,
            HwQuickField  field)
{
  GtkWidget          *cell = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget          *label = hw_label_new (_(columns[field].name), "small");
  GtkWidget          *entry = hw_form_entry (NULL, NULL);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->fields[field] = entry;
  self->cells[field] = cell;
  gtk_widget_add_css_class (label, "mute");
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), columns[field].width_chars);
  gtk_widget_set_hexpand (cell, columns[field].expand);
  hw_control_name (entry, _(columns[field].name));
  gtk_box_append (GTK_BOX (cell), label);
  gtk_box_append (GTK_BOX (cell), entry);
  g_signal_connect (entry, "activate", G_CALLBACK (activate_cb), NULL);
  g_signal_connect (focus, "leave", G_CALLBACK (leave_cb), NULL);
  gtk_widget_add_controller (entry, focus);
  hw_quick_list_serve (self->list, entry);
  if (field == HW_QUICK_LENGTH)
    self->length_label = label;
  return cell;
}

static GtkWidget *
make_foot (HwQuickRow *self)
{
  GtkWidget *foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *add = gtk_button_new_with_label (_("Add the step"));
  GtkWidget *done = gtk_button_new_with_label (_("Done"));

  self->status = hw_label_new (NULL, "small");
  gtk_widget_set_hexpand (self->status, TRUE);
  gtk_widget_add_css_class (add, "suggested");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (add), "quick-row.add");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (done), "quick-row.close");
  gtk_widget_set_valign (add, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (done, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (foot), self->status);
  gtk_box_append (GTK_BOX (foot), add);
  gtk_box_append (GTK_BOX (foot), done);
  return foot;
}

static void
hw_quick_row_init (HwQuickRow *self)
{
  GtkWidget *wrap = hw_wrap_new (6, 6);

  g_object_set (wrap, "shrink", TRUE, NULL);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  gtk_widget_add_css_class (GTK_WIDGET (self), "quick-row");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("New step, typed in a row"),
                                  -1);
  self->list = hw_quick_list_new (ask_cb, self);
  gtk_widget_set_parent (self->list, GTK_WIDGET (self));
  for (HwQuickField field = HW_QUICK_STEP; field < HW_QUICK_N_FIELDS; field++)
    hw_wrap_append (HW_WRAP (wrap), make_field (self, field));
  gtk_box_append (GTK_BOX (self), wrap);
  gtk_box_append (GTK_BOX (self), make_foot (self));
}

GtkWidget *
hw_quick_row_new (HwWorkspace *workspace)
{
  static const HwQuickField guessing[] = { HW_QUICK_STEP, HW_QUICK_SEAM, HW_QUICK_LAYERS, HW_QUICK_STITCH,
                                           HW_QUICK_AFTER };
  HwQuickRow               *self = g_object_new (HW_TYPE_QUICK_ROW, NULL);

  self->workspace = g_object_ref (workspace);
  self->quick = hw_quick_new (hw_workspace_get_handbook (workspace));
  for (gsize i = 0; i < G_N_ELEMENTS (guessing); i++)
    g_signal_connect_swapped (self->fields[guessing[i]], "changed", G_CALLBACK (show_guess), self);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (project_changed_cb), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

void
hw_quick_row_begin (HwQuickRow *self)
{
  g_return_if_fail (HW_IS_QUICK_ROW (self));

  show_guess (self);
  tell_keys (self);
  gtk_widget_grab_focus (self->fields[HW_QUICK_STEP]);
}

void
hw_quick_row_begin_again (HwQuickRow *self)
{
  g_return_if_fail (HW_IS_QUICK_ROW (self));

  for (HwQuickField field = HW_QUICK_STEP; field < HW_QUICK_N_FIELDS && self->dropped[field] != NULL; field++)
    {
      gtk_editable_set_text (GTK_EDITABLE (self->fields[field]), self->dropped[field]);
      g_clear_pointer (&self->dropped[field], g_free);
    }
  hw_quick_list_close (self->list);
  show_guess (self);
  gtk_editable_set_position (GTK_EDITABLE (self->fields[HW_QUICK_STEP]), -1);
}
