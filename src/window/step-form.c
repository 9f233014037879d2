/* step-form.c - the form of a step: an operation or a hand step
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/forms.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"
#include "window/step-choices.h"
#include "words/quick.h"
#include "words/words.h"

#define CM_PER_INCH 2.54
#define USUAL_LAYERS 2
#define LENGTH_STEP 0.1                  /* of the number as it is shown */

typedef struct
{
  HwWorkspace *workspace;
  char        *number;                  /* NULL: a new step */
  GtkWidget   *kind, *by_machine, *by_hand;      /* which it is, and the rows of either */
  GtkWidget   *number_entry, *name, *after, *note;
  GtkWidget   *purpose, *seam, *stitch, *machine, *length, *pieces, *needle_thread, *bobbin_thread;
  GPtrArray   *plies, *crossing;        /* spin buttons, one a fabric of the project */
  GtkWidget   *hand, *minutes;
  GtkWidget   *by_hand_only;            /* said where the name is known as work by hand */
  gboolean     guessed;                 /* purpose and layers, or they were the person's own before */
} StepForm;

static void
free_form (gpointer data)
{
  StepForm *self = data;

  g_object_unref (self->workspace);
  g_free (self->number);
  g_clear_pointer (&self->plies, g_ptr_array_unref);
  g_clear_pointer (&self->crossing, g_ptr_array_unref);
  g_free (self);
}

/* ---- lengths ---- */

static double
cm_per_unit (void)
{
  return hw_words_are_inches () ? CM_PER_INCH : 1;
}

/* A length that was only shown stays as it was, to the last digit. */
static void
take_length (const StepForm *self,
             HwStep         *step)
{
  double entered_cm = gtk_spin_button_get_value (GTK_SPIN_BUTTON (self->length)) * cm_per_unit ();

  if (fabs (entered_cm - step->length_cm) > LENGTH_STEP / 2 * cm_per_unit () + 1e-9)
    step->length_cm = entered_cm;
}

/* ---- saving ---- */

static void
replace (char      **field,
         const char *value)
{
  char *copy = g_strdup (value);

  g_free (*field);
  *field = copy;
}

static char **
split_numbers (const char *text)
{
  g_autofree char   *spaced = g_strdelimit (g_strdup (text), ",;", ' ');
  g_auto (GStrv)     words = g_strsplit (spaced, " ", -1);
  g_autoptr (GStrvBuilder) numbers = g_strv_builder_new ();

  for (char **word = words; *word != NULL; word++)
    if (**word != '\0')
      g_strv_builder_add (numbers, *word);
  return g_strv_builder_end (numbers);
}

static void
free_plies (HwPly *plies,
            gsize  n)
{
  for (gsize i = 0; i < n; i++)
    g_free (plies[i].fabric);
  g_free (plies);
}

static void
read_plies (const HwProject *project,
            GPtrArray       *spins,
            HwPly          **plies,
            gsize           *n_plies)
{
  free_plies (*plies, *n_plies);
  *plies = g_new0 (HwPly, MAX (spins->len, 1));
  *n_plies = 0;
  for (guint i = 0; i < spins->len; i++)
    {
      int count = gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (spins->pdata[i]));

      if (count > 0)
        (*plies)[(*n_plies)++] = (HwPly) { g_strdup (((HwProjectFabric *) project->fabrics->pdata[i])->id), count };
    }
}

static void
read_operation (StepForm        *self,
                const HwProject *project,
                HwStep          *step)
{
  replace (&step->purpose, hw_choice_peek (GTK_DROP_DOWN (self->purpose)));
  replace (&step->seam, hw_choice_peek (GTK_DROP_DOWN (self->seam)));
  replace (&step->stitch, hw_choice_peek (GTK_DROP_DOWN (self->stitch)));
  replace (&step->machine, hw_choice_peek (GTK_DROP_DOWN (self->machine)));
  replace (&step->needle_thread, hw_choice_peek (GTK_DROP_DOWN (self->needle_thread)));
  replace (&step->bobbin_thread, hw_choice_peek (GTK_DROP_DOWN (self->bobbin_thread)));
  take_length (self, step);
  step->pieces = gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (self->pieces));
  read_plies (project, self->plies, &step->plies, &step->n_plies);
  read_plies (project, self->crossing, &step->crossing, &step->n_crossing);
}

static HwStepKind
get_kind (const StepForm *self)
{
  return (HwStepKind) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->kind));
}

/* What only the other kind of step has is not taken along. */
static HwStep *
begin_step (const StepForm  *self,
            const HwProject *project,
            const char      *number,
            const char      *name)
{
  int           index = self->number != NULL ? hw_project_find_step (project, self->number) : -1;
  const HwStep *present = index >= 0 ? hw_project_get_step (project, (gsize) index) : NULL;

  return present != NULL && present->kind == get_kind (self) ? hw_step_copy (present)
                                                             : hw_step_new (get_kind (self), number, name);
}

static HwStep *
read_step (StepForm        *self,
           const HwProject *project,
           const char      *number)
{
  const char *name = gtk_editable_get_text (GTK_EDITABLE (self->name));
  HwStep     *step = begin_step (self, project, number, name);

  replace (&step->number, number);
  g_free (step->name);
  step->name = g_strstrip (g_strdup (name));
  g_strfreev (step->after);
  step->after = split_numbers (gtk_editable_get_text (GTK_EDITABLE (self->after)));
  g_free (step->note);
  step->note = hw_form_get_note (self->note);
  if (step->kind == HW_STEP_OPERATION)
    {
      read_operation (self, project, step);
    }
  else
    {
      step->hand = (HwHandKind) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->hand));
      step->minutes = gtk_spin_button_get_value (GTK_SPIN_BUTTON (self->minutes));
    }
  return step;
}

static HwProject *
insert_new (StepForm        *self,
            const HwProject *project,
            const HwStep    *step,
            GError         **error)
{
  const char *selected = hw_workspace_peek_selected (self->workspace);
  int         index = selected != NULL ? hw_project_find_step (project, selected) : -1;

  if (hw_project_find_step (project, step->number) >= 0)
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                   _("There is a step %s already; give this one another number"), step->number);
      return NULL;
    }
  return hw_edit_insert_step (project, index >= 0 ? (gsize) index + 1 : project->steps->len, step, error);
}

static HwProject *
change_present (StepForm        *self,
                const HwProject *project,
                const HwStep    *step,
                GError         **error)
{
  g_autoptr (HwProject) renamed = NULL;

  if (hw_project_find_step (project, self->number) < 0)
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN,
                   _("Step %s is no longer there; cancel, and add it anew"), self->number);
      return NULL;
    }
  if (g_str_equal (self->number, step->number))
    return hw_edit_put_step (project, step, error);
  renamed = hw_edit_rename_step (project, self->number, step->number, error);
  return renamed != NULL ? hw_edit_put_step (renamed, step, error) : NULL;
}

static HwProject *
put_step (StepForm        *self,
          const HwProject *project,
          const HwStep    *step,
          GError         **error)
{
  if (step->kind == HW_STEP_OPERATION && step->n_plies == 0)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("An operation joins layers: give how many of each fabric lie under the needle"));
      return NULL;
    }
  return self->number == NULL ? insert_new (self, project, step, error) : change_present (self, project, step, error);
}

static gboolean
save (gpointer data,
      GError **error)
{
  StepForm           *self = data;
  const HwProject    *project = hw_workspace_peek_project (self->workspace);
  g_autofree char    *number = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->number_entry))));
  HwStep             *step = read_step (self, project, number);
  gboolean            is_new = self->number == NULL;
  HwProject          *next = put_step (self, project, step, error);
  /* Translators: in “Undo: …”; the step's number and name */
  g_autofree char    *label = g_strdup_printf (is_new ? _("add step %s, %s") : _("change step %s, %s"), number,
                                               step->name);
  g_autoptr (HwWorkspace) workspace = g_object_ref (self->workspace);

  hw_step_unref (step);
  if (next == NULL)
    return FALSE;
  hw_workspace_edit (workspace, next, label, NULL, NULL);
  hw_workspace_select (workspace, number);
  return TRUE;
}

/* ---- filling ---- */

static GtkWidget *
make_choice (HwForm     *form,
             const char *label)
{
  GtkWidget *choice = hw_choice_new ();

  gtk_widget_set_hexpand (choice, TRUE);
  hw_form_add (form, label, choice);
  return choice;
}

static GtkWidget *
make_choice_or (HwForm     *form,
                const char *label,
                const char *none)
{
  GtkWidget *choice = make_choice (form, label);

  hw_choice_add (GTK_DROP_DOWN (choice), NULL, none);
  return choice;
}

static int
ply_count (const HwPly *plies,
           gsize        n,
           const char  *fabric)
{
  int count = 0;

  for (gsize i = 0; i < n; i++)
    if (g_str_equal (plies[i].fabric, fabric))
      count += plies[i].count;
  return count;
}

/* One spin button a fabric: how many layers of it. */
static GPtrArray *
add_plies (GtkWidget       *box,
           const HwProject *project,
           const HwPly     *plies,
           gsize            n_plies,
           const char      *naming)
{
  GtkWidget *grid = gtk_grid_new ();
  GPtrArray *spins = g_ptr_array_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 4);
  for (guint i = 0; i < project->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = project->fabrics->pdata[i];
      GtkWidget             *spin = hw_form_spin (ply_count (plies, n_plies, fabric->id), 0, 64, 1, 0);
      GtkWidget             *label = hw_label_new (fabric->name, NULL);
      g_autofree char       *name = g_strdup_printf (naming, fabric->name);

      gtk_widget_set_hexpand (label, TRUE);
      hw_control_name (spin, name);
      gtk_grid_attach (GTK_GRID (grid), label, 0, (int) i, 1, 1);
      gtk_grid_attach (GTK_GRID (grid), spin, 1, (int) i, 1, 1);
      g_ptr_array_add (spins, spin);
    }
  if (project->fabrics->len == 0)
    gtk_grid_attach (GTK_GRID (grid), hw_label_new (_("Add a fabric first: cancel, then + above the list."), "rust"),
                     0, 0, 2, 1);
  gtk_box_append (GTK_BOX (box), grid);
  return spins;
}

static void
add_layers (StepForm        *self,
            HwForm          *form,
            const HwProject *project,
            const HwStep    *step)
{
  GtkWidget *layers = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *crossing = gtk_expander_new (_("Layers where seams cross"));
  GtkWidget *inside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *heading = hw_label_new (_("Layers"), "small");

  gtk_widget_add_css_class (heading, "mute");
  gtk_box_append (GTK_BOX (layers), heading);
  /* Translators: a fabric's name */
  self->plies = add_plies (layers, project, step->plies, step->n_plies, _("Layers of %s"));
  /* Translators: a fabric's name */
  self->crossing = add_plies (inside, project, step->crossing, step->n_crossing, _("Layers of %s where seams cross"));
  hw_control_name (crossing, _("Layers where seams cross"));
  gtk_expander_set_child (GTK_EXPANDER (crossing), inside);
  gtk_expander_set_expanded (GTK_EXPANDER (crossing), step->n_crossing > 0);
  hw_form_add_wide (form, layers);
  hw_form_add_wide (form, crossing);
}

static void
add_operation (StepForm        *self,
               HwForm          *form,
               const HwProject *project,
               const HwStep    *step)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  self->purpose = make_choice (form, _("_Purpose"));
  hw_choice_add_purposes (self->purpose, handbook);
  hw_choice_select (GTK_DROP_DOWN (self->purpose), step->purpose != NULL ? step->purpose : "seam");
  self->by_hand_only = hw_label_new (_("The handbook knows a step of this name by hand only, so it has no set-up of "
                                       "its own: choose the purpose that comes nearest."), "small");
  gtk_widget_set_visible (self->by_hand_only, FALSE);
  hw_form_add_wide (form, self->by_hand_only);
  self->seam = make_choice_or (form, _("S_eam"), _("as usual for this purpose"));
  hw_choice_add_seams (self->seam, handbook);
  hw_choice_select (GTK_DROP_DOWN (self->seam), step->seam);
  self->stitch = make_choice_or (form, _("S_titch"), _("as usual for this purpose"));
  hw_choice_add_stitches (self->stitch, handbook);
  hw_choice_select (GTK_DROP_DOWN (self->stitch), step->stitch);
  add_layers (self, form, project, step);
  self->length = hw_form_spin ((step->length_cm > 0 ? step->length_cm : 50) / cm_per_unit (), 0.1, 100000, 1, 1);
  hw_form_add (form, hw_words_are_inches () ? _("_Length of all pieces together, inches")
                                            : _("_Length of all pieces together, cm"), self->length);
  if (g_strcmp0 (step->purpose, "buttonhole") == 0)
    hw_form_add_hint (form, _("Of a buttonhole both sides count: 14 mm long is 28 mm sewn."));
  self->pieces = hw_form_spin (MAX (step->pieces, 1), 1, 1000, 1, 0);
  hw_form_add (form, _("Pieces, each started _anew"), self->pieces);
  self->needle_thread = make_choice_or (form, _("Needle t_hread"), _("the first that fits"));
  hw_choice_add_threads (self->needle_thread, handbook, project);
  hw_choice_select (GTK_DROP_DOWN (self->needle_thread), step->needle_thread);
  self->bobbin_thread = make_choice_or (form, _("_Bobbin or looper thread"), _("as the handbook says"));
  hw_choice_add_threads (self->bobbin_thread, handbook, project);
  hw_choice_select (GTK_DROP_DOWN (self->bobbin_thread), step->bobbin_thread);
  self->machine = make_choice_or (form, _("_Machine"), _("the first that forms the stitch"));
  hw_choice_add_machines (self->machine, hw_workspace_get_room (self->workspace));
  hw_choice_select (GTK_DROP_DOWN (self->machine), step->machine);
}

static const char * const hand_labels[HW_N_HAND_KINDS] = {
  N_("press"), N_("trim"), N_("clip"), N_("turn"), N_("fuse"), N_("tack"), N_("hang"), N_("sew by hand"), N_("another"),
};

static void
add_hand_step (StepForm     *self,
               HwForm       *form,
               const HwStep *step)
{
  self->hand = make_choice (form, _("_What is done"));
  for (int i = 0; i < HW_N_HAND_KINDS; i++)
    hw_choice_add (GTK_DROP_DOWN (self->hand), hw_hand_kind_ids[i], _(hand_labels[i]));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->hand), (guint) step->hand);
  self->minutes = hw_form_spin (step->minutes > 0 ? step->minutes : 5, 0.5, 1440, 1, 1);
  hw_form_add (form, _("M_inutes"), self->minutes);
}

/* ---- which kind ---- */

/* The first time that a step by hand goes to a machine its name says what is sewn, and through how many layers. */
static void
guess_operation (StepForm *self)
{
  const HwHandbook    *handbook = hw_workspace_get_handbook (self->workspace);
  const HwProject     *project = hw_workspace_peek_project (self->workspace);
  g_autoptr (HwQuick)  quick = hw_quick_new (handbook);
  HwQuickGuess         guess;

  self->guessed = TRUE;
  hw_quick_guess (quick, project, gtk_editable_get_text (GTK_EDITABLE (self->name)), "", &guess);
  gtk_widget_set_visible (self->by_hand_only, guess.by_hand);
  if (!guess.by_hand)
    hw_choice_select (GTK_DROP_DOWN (self->purpose), handbook->purposes[guess.purpose].entry.id);
  if (self->plies->len > 0)
    gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->plies->pdata[0]), !guess.by_hand ? MAX (guess.layers, 1)
                                                                                       : USUAL_LAYERS);
}

static void
kind_changed_cb (StepForm *self)
{
  if (get_kind (self) == HW_STEP_OPERATION && !self->guessed)
    guess_operation (self);
  gtk_widget_set_visible (self->by_machine, get_kind (self) == HW_STEP_OPERATION);
  gtk_widget_set_visible (self->by_hand, get_kind (self) == HW_STEP_HAND);
}

/* The rows of both kinds stand in the form, those of the other out of sight. */
static void
add_kinds (StepForm        *self,
           HwForm          *form,
           const HwProject *project,
           const HwStep    *step)
{
  GtkWidget *rest = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);

  self->kind = make_choice (form, _("_Done"));
  hw_choice_add (GTK_DROP_DOWN (self->kind), "operation", _("at a machine"));
  hw_choice_add (GTK_DROP_DOWN (self->kind), "hand", _("by hand"));
  self->by_machine = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  self->by_hand = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  hw_form_add_wide (form, self->by_machine);
  hw_form_add_wide (form, self->by_hand);
  hw_form_add_wide (form, rest);
  hw_form_add_into (form, self->by_machine);
  add_operation (self, form, project, step);
  hw_form_add_into (form, self->by_hand);
  add_hand_step (self, form, step);
  hw_form_add_into (form, rest);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->kind), (guint) step->kind);
  g_signal_connect_swapped (self->kind, "notify::selected", G_CALLBACK (kind_changed_cb), self);
  kind_changed_cb (self);
}

static HwStep *
make_template (const HwProject *project,
               const char      *number,
               HwStepKind       kind)
{
  int              index = number != NULL ? hw_project_find_step (project, number) : -1;
  g_autofree char *free_number = NULL;

  if (index >= 0)
    return hw_step_copy (hw_project_get_step (project, (gsize) index));
  free_number = hw_project_free_number (project);
  return hw_step_new (kind, free_number, "");
}

static char *
make_title (const HwStep *step,
            gboolean      is_new)
{
  if (!is_new)
    /* Translators: a step's number */
    return g_strdup_printf (_("Change step %s"), step->number);
  return g_strdup (step->kind == HW_STEP_OPERATION ? _("New operation") : _("New hand step"));
}

GtkWidget *
hw_step_form_new (HwWorkspace *workspace,
                  const char  *number,
                  HwStepKind   kind)
{
  const HwProject *project = hw_workspace_peek_project (workspace);
  HwStep          *step = make_template (project, number, kind);
  g_autofree char *title = make_title (step, number == NULL);
  g_autofree char *after = g_strjoinv (" ", step->after);
  GtkWidget       *form = hw_form_new (title, number == NULL ? _("Add the step") : _("Save the step"));
  StepForm        *self = g_new0 (StepForm, 1);

  self->workspace = g_object_ref (workspace);
  self->number = g_strdup (number);
  self->guessed = step->kind == HW_STEP_OPERATION;
  self->name = hw_form_entry (step->name, step->kind == HW_STEP_OPERATION ? _("Side seams")
                              : _("Press the side seams open"));
  hw_form_add (HW_FORM (form), _("_Name"), self->name);
  add_kinds (self, HW_FORM (form), project, step);
  self->after = hw_form_entry (after, _("numbers, such as 2 4"));
  hw_form_add (HW_FORM (form), _("_Comes after steps"), self->after);
  self->number_entry = hw_form_entry (step->number, NULL);
  hw_form_add (HW_FORM (form), _("N_umber"), self->number_entry);
  self->note = hw_form_note (step->note);
  hw_form_add (HW_FORM (form), _("N_ote for the card"), self->note);
  hw_form_set_save (HW_FORM (form), save, self, free_form);
  hw_step_unref (step);
  return form;
}
