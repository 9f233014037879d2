/* faults-page.c - stitch faults: the symptom from drawings, then one check after the other
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a person answers lives here; the search is made anew from it, and from the room, after each answer and each
 * change of the workspace. What is noted goes to the journal, and can be taken back at once.
 */

#include "config.h"

#include "window/faults-page.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"
#include "window/fault-view.h"
#include "window/wrap.h"
#include "words/words.h"

struct _HwFaultsPage
{
  GtkBox         parent_instance;
  HwWorkspace   *workspace;
  GtkWidget     *machines, *steps, *back, *title, *stack, *gallery, *trace;
  char          *machine_id;            /* NULL: the room's first */
  gboolean       without_step;          /* the person said that it is not the selected step */
  gboolean       filling;
  char          *listed_machines, *listed_steps;        /* what the choices hold */
  HwMachineKind  shown_kind;            /* of the gallery */
  const HwFault *fault;                 /* the handbook outlives the page; NULL: the drawings are shown */
  const HwCause *cause;                 /* found; NULL: still looking */
  GPtrArray     *ruled_out;             /* cause ids */
  char          *noted;                 /* what was done; NULL: nothing yet */
  GPtrArray     *entries;               /* ids of what was noted, to take back */
  char          *dial_step;             /* whose dial was set by an edit; NULL none */
  double         dial_before;           /* the person's own before that; NAN none */
};

G_DEFINE_FINAL_TYPE (HwFaultsPage, hw_faults_page, GTK_TYPE_BOX)

/* ---- what it is traced for ---- */

/* The first operation that is left, in the order of work; NULL: none is. */
static const HwSetup *
find_next (const HwPlan *plan)
{
  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = &g_array_index (plan->order, HwPlanStep, i);

      if (!step->done && plan->setups[step->step] != NULL)
        return plan->setups[step->step];
    }
  return NULL;
}

/* The step chosen in the open project; where none is, or a hand step, the one to sew next. */
static const HwSetup *
peek_setup (HwFaultsPage *self)
{
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);
  const char   *number = hw_workspace_peek_selected (self->workspace);
  int           index = plan != NULL && number != NULL ? hw_project_find_step (plan->project, number) : -1;

  if (self->without_step || plan == NULL)
    return NULL;
  return index >= 0 && plan->setups[index] != NULL ? plan->setups[index] : find_next (plan);
}

static const HwMachine *
peek_machine (HwFaultsPage *self)
{
  const HwRoom    *room = hw_workspace_get_room (self->workspace);
  const HwSetup   *setup = peek_setup (self);
  const HwMachine *machine = setup != NULL ? hw_room_find_machine (room, setup->machine->id)
                             : self->machine_id != NULL ? hw_room_find_machine (room, self->machine_id) : NULL;

  if (machine == NULL && room->machines->len > 0)
    machine = g_ptr_array_index (room->machines, 0);
  return machine;
}

static void
forget_answers (HwFaultsPage *self)
{
  g_ptr_array_set_size (self->ruled_out, 0);
  g_ptr_array_set_size (self->entries, 0);
  g_clear_pointer (&self->noted, g_free);
  g_clear_pointer (&self->dial_step, g_free);
  self->cause = NULL;
}

/* ---- the choosers ---- */

/* A choice with its items as they would be filled: (element-type utf8) id, label, id, label …; "" for no id. */
static void
fill_choice (GtkWidget *choice,
             GPtrArray *items,
             char     **listed)
{
  g_autofree char *now = NULL;

  g_ptr_array_add (items, NULL);
  now = g_strjoinv ("\n", (char **) items->pdata);
  if (g_strcmp0 (now, *listed) == 0)
    return;                              /* as it stands: an open list stays open */
  g_free (*listed);
  *listed = g_steal_pointer (&now);
  hw_choice_clear (GTK_DROP_DOWN (choice));
  for (guint i = 0; i + 2 < items->len; i += 2)
    {
      const char *id = g_ptr_array_index (items, i);

      hw_choice_add (GTK_DROP_DOWN (choice), id[0] != '\0' ? id : NULL, g_ptr_array_index (items, i + 1));
    }
}

static void
fill_machines (HwFaultsPage *self)
{
  const HwRoom         *room = hw_workspace_get_room (self->workspace);
  const HwMachine      *machine = peek_machine (self);
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *one = g_ptr_array_index (room->machines, i);

      g_ptr_array_add (items, g_strdup (one->id));
      g_ptr_array_add (items, g_strdup (one->name));
    }
  fill_choice (self->machines, items, &self->listed_machines);
  if (machine != NULL)
    hw_choice_select (GTK_DROP_DOWN (self->machines), machine->id);
  gtk_widget_set_sensitive (self->machines, peek_setup (self) == NULL);
}

static void
fill_steps (HwFaultsPage *self)
{
  const HwPlan         *plan = hw_workspace_peek_plan (self->workspace);
  const HwSetup        *setup = peek_setup (self);
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (items, g_strdup (""));
  g_ptr_array_add (items, g_strdup (_("no step of a project")));
  for (gsize i = 0; plan != NULL && i < plan->n_steps; i++)
    if (plan->setups[i] != NULL)
      {
        const HwStep *step = plan->setups[i]->step;

        g_ptr_array_add (items, g_strdup (step->number));
        /* Translators: a step's number and name */
        g_ptr_array_add (items, g_strdup_printf (_("%s  %s"), step->number, step->name));
      }
  fill_choice (self->steps, items, &self->listed_steps);
  hw_choice_select (GTK_DROP_DOWN (self->steps), setup != NULL ? setup->step->number : NULL);
}

/* ---- what is shown ---- */

static void
fill_gallery (HwFaultsPage *self)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  const HwMachine  *machine = peek_machine (self);

  if (machine == NULL || machine->kind == self->shown_kind)
    return;
  self->shown_kind = machine->kind;
  hw_wrap_remove_all (HW_WRAP (self->gallery));
  for (gsize i = 0; i < handbook->n_faults; i++)
    if ((handbook->faults[i].machines & (1u << machine->kind)) != 0)
      hw_wrap_append (HW_WRAP (self->gallery), hw_fault_card_new (&handbook->faults[i]));
}

static HwFaultSearch *
make_search (HwFaultsPage *self)
{
  const HwMachine      *machine = peek_machine (self);
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char      *now_iso = g_date_time_format_iso8601 (now);
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  for (guint i = 0; i < self->ruled_out->len; i++)
    g_ptr_array_add (ids, g_ptr_array_index (self->ruled_out, i));
  g_ptr_array_add (ids, NULL);
  return hw_fault_search_new (hw_workspace_get_handbook (self->workspace), hw_workspace_get_room (self->workspace),
                              machine, peek_setup (self), self->fault, (const char * const *) ids->pdata, now_iso);
}

static HwFix
get_fix (HwFaultsPage *self)
{
  return hw_fault_fix (hw_workspace_get_handbook (self->workspace), hw_workspace_get_room (self->workspace),
                       peek_machine (self), peek_setup (self), self->cause);
}

static void
add_checks (HwFaultsPage *self,
            GtkWidget    *box)
{
  g_autoptr (HwFaultSearch) search = make_search (self);
  GtkWidget                *cautions = hw_fault_cautions_new (self->fault->cautions);

  if (cautions != NULL)
    gtk_box_append (GTK_BOX (box), cautions);
  gtk_box_append (GTK_BOX (box), search != NULL
                  ? hw_fault_checks_new (hw_workspace_get_handbook (self->workspace), search)
                  : hw_fault_unknown_new ());
  if (self->ruled_out->len > 0 && search != NULL)
    gtk_box_append (GTK_BOX (box), hw_fault_ruled_out_new (self->fault, self->ruled_out));
}

static GtkWidget *
make_answer (HwFaultsPage *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);

  gtk_widget_set_hexpand (box, TRUE);
  gtk_widget_add_css_class (box, "fault-answer");
  if (self->noted != NULL)
    {
      gtk_box_append (GTK_BOX (box), hw_fault_noted_new (self->noted));
    }
  else if (self->cause != NULL)
    {
      HwFix fix = get_fix (self);

      gtk_box_append (GTK_BOX (box), hw_fault_remedy_new (hw_workspace_get_handbook (self->workspace), self->fault,
                                                          self->cause, &fix));
    }
  else
    {
      add_checks (self, box);
    }
  return box;
}

static void
fill_trace (HwFaultsPage *self)
{
  hw_wrap_remove_all (HW_WRAP (self->trace));
  if (self->fault == NULL)
    return;
  hw_wrap_append (HW_WRAP (self->trace), hw_fault_picture_new (self->fault));
  hw_wrap_append (HW_WRAP (self->trace), make_answer (self));
}

static void
refresh (HwFaultsPage *self)
{
  const HwMachine *machine = peek_machine (self);

  if (machine == NULL || (self->fault != NULL && (self->fault->machines & (1u << machine->kind)) == 0))
    {
      forget_answers (self);
      self->fault = NULL;
    }
  self->filling = TRUE;
  fill_machines (self);
  fill_steps (self);
  self->filling = FALSE;
  fill_gallery (self);
  fill_trace (self);
  gtk_label_set_text (GTK_LABEL (self->title), self->fault != NULL ? self->fault->entry.name : _("Stitch faults"));
  gtk_widget_set_visible (self->back, self->fault != NULL);
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), self->fault != NULL ? "trace" : "gallery");
}

/* The first button of the answer, so that a keyboard goes on from there. */
static void
focus_answer (HwFaultsPage *self)
{
  GtkWidget *answer = gtk_widget_get_last_child (self->trace);

  if (answer != NULL && gtk_widget_get_mapped (GTK_WIDGET (self)))
    gtk_widget_child_focus (answer, GTK_DIR_TAB_FORWARD);
}

static void
answered (HwFaultsPage *self)
{
  refresh (self);
  focus_answer (self);
}

/* ---- what a person does ---- */

static void
machine_chosen_cb (HwFaultsPage *self)
{
  const char      *id = hw_choice_peek (GTK_DROP_DOWN (self->machines));
  const HwMachine *machine = peek_machine (self);

  /* A choice that was filled anew may tell so later; it then stands as it should. */
  if (self->filling || id == NULL || (machine != NULL && g_str_equal (id, machine->id)))
    return;
  g_free (self->machine_id);
  self->machine_id = g_strdup (id);
  forget_answers (self);
  refresh (self);
}

static void
step_chosen_cb (HwFaultsPage *self)
{
  const char    *number = hw_choice_peek (GTK_DROP_DOWN (self->steps));
  const HwSetup *setup = peek_setup (self);

  if (self->filling || g_strcmp0 (number, setup != NULL ? setup->step->number : NULL) == 0)
    return;
  forget_answers (self);
  self->without_step = number == NULL;
  if (number != NULL && g_strcmp0 (number, hw_workspace_peek_selected (self->workspace)) != 0)
    {
      g_autofree char *kept = g_strdup (number);         /* the choice is filled anew while it is told */

      hw_workspace_select (self->workspace, kept);
    }
  else
    {
      refresh (self);
    }
}

static void
choose_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  HwFaultsPage     *self = HW_FAULTS_PAGE (widget);
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  int               index = hw_handbook_find_fault (handbook, g_variant_get_string (parameter, NULL));

  if (index < 0)
    return;
  forget_answers (self);
  self->fault = &handbook->faults[index];
  answered (self);
}

static void
not_action (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  HwFaultsPage *self = HW_FAULTS_PAGE (widget);
  const char   *id = g_variant_get_string (parameter, NULL);

  if (self->fault == NULL || hw_fault_find_cause (self->fault, id) == NULL)
    return;
  g_ptr_array_add (self->ruled_out, g_strdup (id));
  answered (self);
}

static void
found_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  HwFaultsPage *self = HW_FAULTS_PAGE (widget);

  if (self->fault == NULL)
    return;
  self->cause = hw_fault_find_cause (self->fault, g_variant_get_string (parameter, NULL));
  answered (self);
}

/* Takes @entry; kept to be taken back. */
static gboolean
append (HwFaultsPage   *self,
        HwJournalEntry *entry)
{
  g_autoptr (HwJournalEntry) owned = entry;

  if (!hw_workspace_append (self->workspace, owned, NULL))
    return FALSE;
  g_ptr_array_add (self->entries, g_strdup (owned->id));
  return TRUE;
}

static HwJournalEntry *
make_entry (HwFaultsPage *self,
            double        dial)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  const HwSetup   *setup = peek_setup (self);
  HwJournalEntry  *entry = hw_fault_entry (peek_machine (self), self->fault, self->cause,
                                           setup != NULL ? project->id : NULL,
                                           setup != NULL ? setup->step->number : NULL);

  entry->dial = dial;
  return entry;
}

/* The step's dial becomes the person's own, so that plan and card have it too. */
static void
set_step_dial (HwFaultsPage *self,
               double        dial)
{
  const HwSetup     *setup = peek_setup (self);
  const HwValue     *value = setup != NULL ? &setup->values[HW_FIELD_DIAL] : NULL;
  g_autoptr (GError) error = NULL;
  HwProject         *next;

  if (value == NULL || !value->applies)
    return;
  self->dial_step = g_strdup (setup->step->number);
  self->dial_before = value->origin == HW_ORIGIN_OVERRIDDEN ? value->value : NAN;
  next = hw_edit_set_override (hw_workspace_peek_project (self->workspace), self->dial_step, HW_FIELD_DIAL, dial, NULL,
                               &error);
  if (!hw_workspace_edit (self->workspace, next, _("set the dial"), NULL, error))
    g_clear_pointer (&self->dial_step, g_free);
}

static void
put_step_dial_back (HwFaultsPage *self)
{
  const HwProject   *project = hw_workspace_peek_project (self->workspace);
  g_autofree char   *number = g_steal_pointer (&self->dial_step);
  g_autoptr (GError) error = NULL;
  HwProject         *next;

  if (number == NULL || project == NULL || hw_project_find_step (project, number) < 0)
    return;
  next = isnan (self->dial_before)
         ? hw_edit_clear_override (project, number, HW_FIELD_DIAL, &error)
         : hw_edit_set_override (project, number, HW_FIELD_DIAL, self->dial_before, NULL, &error);
  hw_workspace_edit (self->workspace, next, _("put the dial back"), NULL, error);
}

static void
take_back (HwFaultsPage *self)
{
  for (guint i = self->entries->len; i-- > 0;)
    {
      g_autoptr (HwJournalEntry) cancel = hw_journal_entry_new_cancel (peek_machine (self)->id,
                                                                       g_ptr_array_index (self->entries, i));

      hw_workspace_append (self->workspace, cancel, NULL);
    }
  g_ptr_array_set_size (self->entries, 0);
}

/* Load or care, then the fault itself; if the second cannot be written the first is taken back. */
static void
fix_action (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  HwFaultsPage     *self = HW_FAULTS_PAGE (widget);
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  g_autofree char  *done = NULL;
  HwJournalEntry   *entry, *of_fix;
  HwFix             fix;

  if (self->cause == NULL || self->noted != NULL)
    return;
  fix = get_fix (self);
  done = hw_words_fix_done (handbook, &fix);
  of_fix = hw_fault_fix_entry (handbook, hw_workspace_get_room (self->workspace), peek_machine (self), &fix);
  entry = make_entry (self, fix.kind == HW_FIX_SET_DIAL ? fix.dial : 0);
  if (of_fix != NULL && !append (self, of_fix))
    {
      hw_journal_entry_free (entry);
      return;
    }
  if (!append (self, entry))
    {
      take_back (self);
      return;
    }
  if (fix.kind == HW_FIX_SET_DIAL)
    set_step_dial (self, fix.dial);
  self->noted = g_steal_pointer (&done);
  answered (self);
}

static void
note_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwFaultsPage *self = HW_FAULTS_PAGE (widget);

  if (self->cause == NULL || self->noted != NULL || !append (self, make_entry (self, 0)))
    return;
  /* Translators: fault, cause */
  self->noted = g_strdup_printf (_("%s: %s"), self->fault->entry.name, self->cause->name);
  answered (self);
}

static void
not_found_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *parameter)
{
  HwFaultsPage *self = HW_FAULTS_PAGE (widget);

  if (self->fault == NULL || self->noted != NULL || !append (self, make_entry (self, 0)))
    return;
  /* Translators: fault */
  self->noted = g_strdup_printf (_("%s: cause not found"), self->fault->entry.name);
  answered (self);
}

static void
undo_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwFaultsPage *self = HW_FAULTS_PAGE (widget);

  if (self->noted == NULL)
    return;
  put_step_dial_back (self);
  take_back (self);
  g_clear_pointer (&self->noted, g_free);
  answered (self);
}

static void
again_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  HwFaultsPage *self = HW_FAULTS_PAGE (widget);
  gboolean      back = self->cause != NULL && self->noted == NULL;

  if (back)
    self->cause = NULL;                  /* to the checks, with what was ruled out */
  else
    forget_answers (self);
  answered (self);
}

static void
back_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwFaultsPage *self = HW_FAULTS_PAGE (widget);

  forget_answers (self);
  self->fault = NULL;
  refresh (self);
  gtk_widget_child_focus (self->gallery, GTK_DIR_TAB_FORWARD);
}

static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *arguments,
           gpointer   data)
{
  if (HW_FAULTS_PAGE (widget)->fault == NULL)
    return FALSE;
  gtk_widget_activate_action (widget, "faults.back", NULL);
  return TRUE;
}

/* Another project, or another step: what was answered was about the one before. */
static void
selection_cb (HwFaultsPage *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    self->without_step = FALSE;         /* said of the step that was chosen then */
  if (!self->without_step)
    forget_answers (self);
  refresh (self);
}

/* ---- the object ---- */

static void
hw_faults_page_dispose (GObject *object)
{
  HwFaultsPage *self = HW_FAULTS_PAGE (object);

  g_clear_object (&self->workspace);
  g_clear_pointer (&self->ruled_out, g_ptr_array_unref);
  g_clear_pointer (&self->entries, g_ptr_array_unref);
  g_clear_pointer (&self->machine_id, g_free);
  g_clear_pointer (&self->noted, g_free);
  g_clear_pointer (&self->dial_step, g_free);
  g_clear_pointer (&self->listed_machines, g_free);
  g_clear_pointer (&self->listed_steps, g_free);
  G_OBJECT_CLASS (hw_faults_page_parent_class)->dispose (object);
}

static void
hw_faults_page_class_init (HwFaultsPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_faults_page_dispose;
  gtk_widget_class_install_action (widget_class, "faults.choose", "s", choose_action);
  gtk_widget_class_install_action (widget_class, "faults.not", "s", not_action);
  gtk_widget_class_install_action (widget_class, "faults.found", "s", found_action);
  gtk_widget_class_install_action (widget_class, "faults.fix", NULL, fix_action);
  gtk_widget_class_install_action (widget_class, "faults.note", NULL, note_action);
  gtk_widget_class_install_action (widget_class, "faults.not-found", NULL, not_found_action);
  gtk_widget_class_install_action (widget_class, "faults.undo", NULL, undo_action);
  gtk_widget_class_install_action (widget_class, "faults.again", NULL, again_action);
  gtk_widget_class_install_action (widget_class, "faults.back", NULL, back_action);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
}

static GtkWidget *
make_scrolled (GtkWidget *child)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), child);
  gtk_widget_set_vexpand (scrolled, TRUE);
  return scrolled;
}

static GtkWidget *
make_choosers (HwFaultsPage *self)
{
  GtkWidget *wrap = hw_wrap_new (10, 6);
  GtkWidget *on = hw_label_new (_("Machine"), "mute");
  GtkWidget *of = hw_label_new (_("Step"), "mute");

  self->machines = hw_choice_new ();
  hw_control_name (self->machines, _("Machine on which it shows"));
  self->steps = hw_choice_new ();
  hw_control_name (self->steps, _("Step that was sewn"));
  hw_wrap_append (HW_WRAP (wrap), on);
  hw_wrap_append (HW_WRAP (wrap), self->machines);
  hw_wrap_append (HW_WRAP (wrap), of);
  hw_wrap_append (HW_WRAP (wrap), self->steps);
  g_signal_connect_swapped (self->machines, "notify::selected", G_CALLBACK (machine_chosen_cb), self);
  g_signal_connect_swapped (self->steps, "notify::selected", G_CALLBACK (step_chosen_cb), self);
  return wrap;
}

static GtkWidget *
make_head (HwFaultsPage *self)
{
  GtkWidget *head = hw_wrap_new (14, 6);

  self->back = gtk_button_new_with_label (_("All faults"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->back), "faults.back");
  gtk_widget_set_valign (self->back, GTK_ALIGN_CENTER);
  self->title = hw_label_new (_("Stitch faults"), "figure");
  gtk_label_set_width_chars (GTK_LABEL (self->title), 12);
  gtk_widget_set_hexpand (self->title, TRUE);
  hw_wrap_append (HW_WRAP (head), self->back);
  hw_wrap_append (HW_WRAP (head), self->title);
  hw_wrap_append (HW_WRAP (head), make_choosers (self));
  return head;
}

static GtkWidget *
make_gallery (HwFaultsPage *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);

  self->gallery = hw_wrap_new (10, 10);
  gtk_box_append (GTK_BOX (box),
                  hw_label_new (_("What does the stitch look like? Each is drawn from above, cut through, and from "
                                  "underneath."), "mute"));
  gtk_box_append (GTK_BOX (box), self->gallery);
  return make_scrolled (box);
}

static void
hw_faults_page_init (HwFaultsPage *self)
{
  self->ruled_out = g_ptr_array_new_with_free_func (g_free);
  self->entries = g_ptr_array_new_with_free_func (g_free);
  self->shown_kind = HW_N_MACHINE_KINDS;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 10);
  gtk_widget_add_css_class (GTK_WIDGET (self), "page");
  gtk_box_append (GTK_BOX (self), make_head (self));
  self->stack = gtk_stack_new ();
  gtk_stack_set_hhomogeneous (GTK_STACK (self->stack), FALSE);
  self->trace = hw_wrap_new (12, 12);
  g_object_set (self->trace, "shrink", TRUE, NULL);      /* sentences wrap before the picture gives way */
  gtk_stack_add_named (GTK_STACK (self->stack), make_gallery (self), "gallery");
  gtk_stack_add_named (GTK_STACK (self->stack), make_scrolled (self->trace), "trace");
  gtk_box_append (GTK_BOX (self), self->stack);
}

GtkWidget *
hw_faults_page_new (HwWorkspace *workspace)
{
  HwFaultsPage *self = g_object_new (HW_TYPE_FAULTS_PAGE, NULL);

  self->workspace = g_object_ref (workspace);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (workspace, "selection", G_CALLBACK (selection_cb), self, G_CONNECT_SWAPPED);
  refresh (self);
  return GTK_WIDGET (self);
}

void
hw_faults_page_ask (HwFaultsPage *self)
{
  g_return_if_fail (HW_IS_FAULTS_PAGE (self));

  forget_answers (self);
  self->fault = NULL;
  self->without_step = FALSE;
  refresh (self);
}
