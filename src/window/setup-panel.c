/* setup-panel.c - the selected step's set-up: drawing, values with their reasons, the person's own
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rows are made once and shown or hidden, so that what is being typed keeps the focus while the plan is made anew.
 */

#include "config.h"

#include "window/setup-panel.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/dial.h"
#include "window/form.h"
#include "window/motif.h"
#include "window/override-editor.h"
#include "window/test-seam-panel.h"
#include "window/value-row.h"
#include "window/watch.h"
#include "words/words-room.h"
#include "words/words.h"

#define N_GROUPS 8
#define GROUP_FIELDS 5
#define TENSION_GROUP 6

/* Values that are set together on the machine are read together. */
typedef struct
{
  const char *title;
  HwField     fields[GROUP_FIELDS];
  int         n_fields;
  char     *(* words) (const HwPlan *plan, const HwSetup *setup);
} Group;

struct _HwSetupPanel
{
  GtkBox            parent_instance;
  HwWorkspace      *workspace;
  GtkWidget        *title, *letter_slot, *letter, *drawing_slot, *drawing, *dial, *layers;
  GtkWidget        *rows_box, *share, *note, *hand_box, *hand_kind, *minutes, *problem, *change, *test_seam;
  GtkWidget        *noted_box, *noted, *fault;
  HwValueRow       *rows[N_GROUPS];
  HwOverrideEditor *editors[HW_N_FIELDS];
  gboolean          showing;
  char             *shown;              /* the step's number; NULL none */
};

G_DEFINE_FINAL_TYPE (HwSetupPanel, hw_setup_panel, GTK_TYPE_BOX)

/* ---- words of the groups ---- */

static char *
say_machine (const HwPlan  *plan,
             const HwSetup *setup)
{
  return g_strdup (setup->machine->name);
}

static char *
say_needle (const HwPlan  *plan,
            const HwSetup *setup)
{
  const HwValue *twin = &setup->values[HW_FIELD_TWIN];

  return hw_words_needle (plan->handbook, (int) setup->values[HW_FIELD_POINT].value,
                          (int) setup->values[HW_FIELD_SIZE].value, twin->applies ? twin->value : 0);
}

static char *
say_needle_thread (const HwPlan  *plan,
                   const HwSetup *setup)
{
  return hw_words_value (plan, setup, HW_FIELD_NEEDLE_TEX);
}

static char *
say_bobbin_thread (const HwPlan  *plan,
                   const HwSetup *setup)
{
  return hw_words_value (plan, setup, HW_FIELD_BOBBIN_TEX);
}

static char *
say_stitch (const HwPlan  *plan,
            const HwSetup *setup)
{
  g_autofree char *stitch = hw_words_stitch (setup);
  g_autofree char *length = hw_words_value (plan, setup, HW_FIELD_LENGTH);
  g_autofree char *width = hw_words_width (setup);
  g_autofree char *differential = hw_words_value (plan, setup, HW_FIELD_DIFFERENTIAL);

  if (setup->values[HW_FIELD_DIFFERENTIAL].applies && setup->values[HW_FIELD_WIDTH].applies)
    /* Translators: stitch, its length, “width 4 mm”, differential feed */
    return g_strdup_printf (_("%s, length %s, %s, differential %s"), stitch, length, width, differential);
  if (setup->values[HW_FIELD_DIFFERENTIAL].applies)
    /* Translators: stitch, its length, differential feed */
    return g_strdup_printf (_("%s, length %s, differential %s"), stitch, length, differential);
  if (setup->values[HW_FIELD_WIDTH].applies)
    /* Translators: stitch, its length, “width 4 mm” */
    return g_strdup_printf (_("%s, length %s, %s"), stitch, length, width);
  /* Translators: stitch, its length */
  return g_strdup_printf (_("%s, length %s"), stitch, length);
}

static char *
say_foot_alone (const HwPlan  *plan,
                const HwSetup *setup)
{
  g_autofree char *foot = hw_words_value (plan, setup, HW_FIELD_FOOT);
  g_autofree char *pressure = hw_words_value (plan, setup, HW_FIELD_PRESSURE);
  g_autofree char *plate = hw_words_value (plan, setup, HW_FIELD_PLATE);

  if (setup->values[HW_FIELD_PLATE].applies && setup->values[HW_FIELD_PLATE].value >= 0)
    /* Translators: foot, pressure ("normal"), plate */
    return g_strdup_printf (_("%s, pressure %s, %s"), foot, pressure, plate);
  /* Translators: foot, pressure ("normal") */
  return g_strdup_printf (_("%s, pressure %s"), foot, pressure);
}

static char *
say_foot (const HwPlan  *plan,
          const HwSetup *setup)
{
  g_autofree char *foot = say_foot_alone (plan, setup);
  g_autofree char *place = hw_words_needle_stands (plan, setup);

  if (place == NULL)
    return g_steal_pointer (&foot);
  /* Translators: foot, pressure and plate; where the needle stands in the foot */
  return g_strdup_printf (_("%s; needle %s"), foot, place);
}

static char *
say_dial (const HwPlan  *plan,
          const HwSetup *setup)
{
  return hw_words_value (plan, setup, HW_FIELD_DIAL);
}

static char *
say_ends (const HwPlan  *plan,
          const HwSetup *setup)
{
  g_autofree char *ends = hw_words_value (plan, setup, HW_FIELD_ENDS);
  g_autofree char *allowance = hw_words_value (plan, setup, HW_FIELD_ALLOWANCE);
  g_autofree char *line = hw_words_line (setup->line_from, allowance);

  if (!setup->values[HW_FIELD_ALLOWANCE].applies)
    return g_steal_pointer (&ends);
  /* Translators: how the ends are secured; where is sewn, such as "15 mm from the edge" */
  return g_strdup_printf (C_("where to sew", "%s; %s"), ends, line);
}

static const Group groups[N_GROUPS] = {
  { N_("Machine"), { HW_FIELD_MACHINE }, 1, say_machine },
  { N_("Needle"), { HW_FIELD_SIZE, HW_FIELD_POINT, HW_FIELD_TWIN, HW_FIELD_SYSTEM }, 4, say_needle },
  { N_("Thread"), { HW_FIELD_NEEDLE_TEX }, 1, say_needle_thread },
  { N_("Bobbin"), { HW_FIELD_BOBBIN_TEX }, 1, say_bobbin_thread },
  { N_("Stitch"), { HW_FIELD_STITCH, HW_FIELD_LENGTH, HW_FIELD_WIDTH, HW_FIELD_DIFFERENTIAL, HW_FIELD_CUTTING_WIDTH },
    5, say_stitch },
  { N_("Foot"), { HW_FIELD_FOOT, HW_FIELD_PRESSURE, HW_FIELD_PLATE }, 3, say_foot },
  { N_("Needle thread tension"), { HW_FIELD_DIAL }, 1, say_dial },
  { N_("Ends, and where to sew"), { HW_FIELD_ENDS, HW_FIELD_ALLOWANCE }, 2, say_ends },
};

static int
find_group (HwField field)
{
  for (int i = 0; i < N_GROUPS; i++)
    for (int j = 0; j < groups[i].n_fields; j++)
      if (groups[i].fields[j] == field)
        return i;
  return 0;
}

/* ---- an operation ---- */

static char *
say_origin (const HwPlan  *plan,
            const HwSetup *setup,
            HwField        field)
{
  const HwValue   *value = &setup->values[field];
  g_autofree char *usual = NULL;

  if (!value->applies || value->origin == HW_ORIGIN_PREFERRED || value->origin == HW_ORIGIN_CLAMPED)
    return NULL;
  usual = hw_words_quantity (plan, setup, field, value->prefer);
  if (value->origin == HW_ORIGIN_AT_HAND)
    /* Translators: a needle's size that is in the case; what the handbook prefers */
    return g_strdup_printf (_("you have it; %s is usual"), usual);
  if (value->origin == HW_ORIGIN_OVERRIDDEN)
    /* Translators: the person set a value; what the handbook prefers */
    return g_strdup_printf (_("yours; %s is usual"), usual);
  /* Translators: the value serves other steps too; what the handbook prefers */
  return g_strdup_printf (_("shared with other steps; %s is usual"), usual);
}

static char *
say_note (const HwPlan  *plan,
          const HwSetup *setup,
          const Group   *group,
          gboolean      *own)
{
  g_autoptr (GPtrArray) notes = g_ptr_array_new_with_free_func (g_free);
  char *ground;

  *own = FALSE;
  for (int i = 0; i < group->n_fields; i++)
    {
      char *note = say_origin (plan, setup, group->fields[i]);

      if (note == NULL)
        continue;
      g_ptr_array_add (notes, note);
      *own = *own || setup->values[group->fields[i]].origin == HW_ORIGIN_OVERRIDDEN;
    }
  if (group->fields[0] == HW_FIELD_DIAL && (ground = hw_words_dial_ground (plan, setup)) != NULL)
    g_ptr_array_add (notes, ground);
  g_ptr_array_add (notes, NULL);
  return notes->len > 1 ? g_strjoinv (" · ", (char **) notes->pdata) : NULL;
}

/* As this machine has it. */
static const char *
name_group (const HwSetup *setup,
            const Group   *group)
{
  if (group->fields[0] == HW_FIELD_BOBBIN_TEX && setup->stitch->loopers > 0 && !setup->stitch->bobbin)
    return _("Loopers");
  if (group->fields[0] == HW_FIELD_DIAL && setup->stitch->dials > 1)
    return _("Dials");
  return _(group->title);
}

static void
show_group (HwSetupPanel  *self,
            const HwPlan  *plan,
            const HwSetup *setup,
            int            index)
{
  const Group     *group = &groups[index];
  gboolean         own = FALSE;
  g_autofree char *value = group->words (plan, setup);
  g_autofree char *note = say_note (plan, setup, group, &own);

  hw_value_row_set_title (self->rows[index], name_group (setup, group));
  hw_value_row_show (self->rows[index], value, note, own);
  for (int i = 0; i < group->n_fields; i++)
    hw_override_editor_show (self->editors[group->fields[i]], plan, setup);
}

static void
show_sentences (HwSetupPanel  *self,
                const HwPlan  *plan,
                const HwSetup *setup)
{
  for (int i = 0; i < N_GROUPS; i++)
    hw_value_row_begin (self->rows[i]);
  for (guint i = 0; i < setup->reasons->len; i++)
    {
      const HwReason  *reason = &g_array_index (setup->reasons, HwReason, i);
      g_autofree char *sentence = hw_words_reason (plan, setup, reason);
      g_autofree char *source = hw_words_source (reason->source);

      hw_value_row_add_reason (self->rows[find_group (reason->field)], sentence, source);
    }
  for (guint i = 0; i < setup->warnings->len; i++)
    {
      const HwWarning *warning = &g_array_index (setup->warnings, HwWarning, i);
      g_autofree char *sentence = hw_words_warning (plan, setup, warning);

      hw_value_row_add_warning (self->rows[find_group (warning->field)], sentence);
    }
  for (int i = 0; i < N_GROUPS; i++)
    hw_value_row_end (self->rows[i]);
}

static void
show_drawing (HwSetupPanel  *self,
              const HwSetup *setup)
{
  HwMotif  *drawing = HW_MOTIF (self->drawing);
  int       plies = (int) CLAMP (hw_step_count_layers (setup->step), 1, 6);
  double    balance = hw_stitch_balance (setup, setup->values[HW_FIELD_DIAL].value);
  gboolean  straight = g_str_equal (setup->stitch->mark, "straight") || g_str_equal (setup->stitch->mark, "twin");

  if (straight)
    hw_motif_show_along (drawing, plies, balance);
  else if (setup->stitch->loopers > 0 && setup->machine->kind == HW_MACHINE_OVERLOCK)
    hw_motif_show_edge (drawing, plies, balance);
  else
    hw_motif_show_row (drawing, setup->stitch->mark);
  hw_motif_set_name (drawing, _("Drawing of the stitch along the seam"));
}

/* Drawn as this machine has it; the row beside it says the same in words. */
static void
show_dial (HwSetupPanel  *self,
           const HwSetup *setup)
{
  const HwValue   *value = &setup->values[HW_FIELD_DIAL];
  g_autofree char *start = NULL;
  g_autofree char *name = NULL;

  gtk_widget_set_visible (self->dial, value->applies);
  if (!value->applies)
    return;
  start = hw_words_half (value->value);
  /* Translators: the number to start at */
  name = g_strdup_printf (_("Dial, start at %s"), start);
  hw_dial_show (HW_DIAL (self->dial), setup->machine, value->value, setup->dial_likely_low, setup->dial_likely_high,
                name);
}

/* "2 cotton twill + 1 interfacing, 1.1 mm; 2.0 mm at the thickest crossing" */
static char *
say_layers (const HwPlan  *plan,
            const HwSetup *setup)
{
  g_autofree char *layers = hw_words_layers (plan, setup->step);
  g_autofree char *thickness = hw_words_mm (setup->thickness_mm);
  g_autofree char *crossing = setup->crossing_mm > 0 ? hw_words_mm (setup->crossing_mm) : NULL;

  if (crossing != NULL)
    /* Translators: layers, their thickness, the thickness where seams cross */
    return g_strdup_printf (_("%s, %s; %s where seams cross"), layers, thickness, crossing);
  /* Translators: layers, their thickness */
  return g_strdup_printf (_("%s, %s"), layers, thickness);
}

static void
show_letter (HwSetupPanel *self,
             const HwPlan *plan,
             const HwStep *step)
{
  const HwPlanStep *planned = hw_plan_find_step (plan, step->number);
  const HwGroup    *group = planned != NULL && planned->group >= 0 ? hw_plan_get_group (plan, planned->group) : NULL;
  g_autofree char  *name = NULL;
  g_autofree char  *meaning = NULL;

  gtk_widget_set_visible (self->letter, group != NULL);
  if (group == NULL)
    return;
  hw_motif_show_letter (HW_MOTIF (self->letter), group->letter);
  /* Translators: the letter of a set-up */
  name = g_strdup_printf (_("Set-up %s"), group->letter);
  hw_motif_set_name (HW_MOTIF (self->letter), name);
  /* Translators: the letter of a set-up */
  meaning = g_strdup_printf (_("Set-up %s: every step with this letter is sewn with it, in the order of work and on "
                               "the cards"), group->letter);
  hw_control_tell (self->letter, meaning);
}

static void
show_operation (HwSetupPanel  *self,
                const HwPlan  *plan,
                const HwSetup *setup)
{
  g_autofree char *layers = say_layers (plan, setup);

  show_letter (self, plan, setup->step);
  show_drawing (self, setup);
  show_dial (self, setup);
  gtk_label_set_text (GTK_LABEL (self->layers), layers);
  for (int i = 0; i < N_GROUPS; i++)
    show_group (self, plan, setup, i);
  show_sentences (self, plan, setup);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->share), setup->step->share);
}

/* ---- any step ---- */

static const char * const hand_names[HW_N_HAND_KINDS] = {
  [HW_HAND_PRESS] = N_("Press"),
  [HW_HAND_TRIM] = N_("Trim"),
  [HW_HAND_CLIP] = N_("Clip"),
  [HW_HAND_TURN] = N_("Turn"),
  [HW_HAND_FUSE] = N_("Fuse"),
  [HW_HAND_TACK] = N_("Tack"),
  [HW_HAND_HANG] = N_("Hang"),
  [HW_HAND_SEW] = N_("Sew by hand"),
  [HW_HAND_OTHER] = N_("Another hand step"),
};

static void
show_hand_step (HwSetupPanel *self,
                const HwStep *step)
{
  g_autofree char *minutes = hw_words_minutes (step->minutes);
  /* Translators: kind of hand step ("Press"), its minutes */
  g_autofree char *text = g_strdup_printf (_("%s, by hand: %s"), _(hand_names[step->hand]), minutes);

  gtk_label_set_text (GTK_LABEL (self->hand_kind), text);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->minutes), step->minutes);
}

static const HwStep *
peek_step (HwSetupPanel *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  const char      *number = hw_workspace_peek_selected (self->workspace);
  int              index = project != NULL && number != NULL ? hw_project_find_step (project, number) : -1;

  return index >= 0 ? hw_project_get_step (project, (gsize) index) : NULL;
}

static void
show_parts (HwSetupPanel *self,
            gboolean      operation,
            gboolean      hand,
            gboolean      problem)
{
  gtk_widget_set_visible (self->drawing, operation);
  gtk_widget_set_visible (self->layers, operation);
  gtk_widget_set_visible (self->rows_box, operation);
  gtk_widget_set_visible (self->share, operation);
  gtk_widget_set_visible (self->test_seam, operation && hw_test_seam_is_possible (self->workspace, NULL));
  gtk_widget_set_visible (self->fault, operation);
  gtk_widget_set_visible (self->hand_box, hand);
  gtk_widget_set_visible (self->problem, problem);
  if (!operation)
    gtk_widget_set_visible (self->letter, FALSE);
}

static void
show_problem (HwSetupPanel *self)
{
  const GError *error = hw_workspace_peek_plan_error (self->workspace);

  gtk_label_set_text (GTK_LABEL (self->problem), error != NULL ? error->message
                      : _("No set-up was found for this step."));
  show_parts (self, FALSE, FALSE, TRUE);
}

/* What the journal has of a step that is done; NULL: it is open. */
static const HwJournalEntry *
peek_noted (HwSetupPanel *self,
            const HwStep *step)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);

  return step != NULL ? hw_room_step_done (hw_workspace_get_room (self->workspace), project->id, step->number) : NULL;
}

static void
show_noted (HwSetupPanel *self,
            const HwStep *step)         /* (nullable) */
{
  const HwJournalEntry *entry = peek_noted (self, step);
  g_autofree char      *minutes = NULL;
  g_autofree char      *when = NULL;
  g_autofree char      *text = NULL;

  gtk_widget_set_visible (self->noted_box, entry != NULL);
  if (entry == NULL)
    return;
  minutes = hw_words_minutes (entry->minutes);
  when = hw_words_entry_time_short (entry->time);
  /* Translators: what is noted of a step that is done: when, its minutes */
  text = g_strdup_printf (_("Done %s, noted with %s."), when, minutes);
  gtk_label_set_text (GTK_LABEL (self->noted), text);
}

static void
show_step (HwSetupPanel *self,
           const HwStep *step)
{
  const HwPlan    *plan = hw_workspace_peek_plan (self->workspace);
  /* Translators: a step's number and name */
  g_autofree char *title = g_strdup_printf (_("%s  %s"), step->number, step->name);

  gtk_label_set_text (GTK_LABEL (self->title), title);
  gtk_label_set_text (GTK_LABEL (self->note), step->note != NULL ? step->note : "");
  gtk_widget_set_visible (self->note, step->note != NULL);
  if (step->kind == HW_STEP_HAND)
    {
      show_hand_step (self, step);
      show_parts (self, FALSE, TRUE, FALSE);
      return;
    }
  if (plan == NULL || plan->setups[hw_project_find_step (plan->project, step->number)] == NULL)
    {
      show_problem (self);
      return;
    }
  show_operation (self, plan, plan->setups[hw_project_find_step (plan->project, step->number)]);
  show_parts (self, TRUE, FALSE, FALSE);
}

/* Another step: its name is in sight, and no reasons stand open that were asked for the one before. */
static void
begin_at_top (HwSetupPanel *self,
              const char   *number)
{
  GtkWidget *scrolled = gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_SCROLLED_WINDOW);

  if (g_strcmp0 (number, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_strdup (number);
  for (int i = 0; i < N_GROUPS; i++)
    hw_value_row_set_open (self->rows[i], FALSE);
  if (scrolled != NULL)
    gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled)), 0);
}

static void
refresh (GtkWidget *widget)
{
  HwSetupPanel *self = HW_SETUP_PANEL (widget);
  const HwStep *step = peek_step (self);

  begin_at_top (self, step != NULL ? step->number : NULL);
  self->showing = TRUE;
  gtk_widget_set_visible (self->change, step != NULL);
  show_noted (self, step);
  if (step != NULL)
    {
      show_step (self, step);
    }
  else
    {
      gtk_label_set_text (GTK_LABEL (self->title), _("No step yet"));
      gtk_label_set_text (GTK_LABEL (self->problem), _("The set-up of the chosen step will stand here, each value "
                                                       "with its reasons."));
      gtk_widget_set_visible (self->note, FALSE);
      show_parts (self, FALSE, FALSE, TRUE);
    }
  self->showing = FALSE;
}

/* ---- what a person does ---- */

static void
put_step (HwSetupPanel *self,
          HwStep       *step,           /* (transfer full) */
          const char   *label,
          const char   *merge_key)
{
  g_autoptr (GError) error = NULL;
  HwProject         *next = hw_edit_put_step (hw_workspace_peek_project (self->workspace), step, &error);

  hw_step_unref (step);
  hw_workspace_edit (self->workspace, next, label, merge_key, error);
}

static void
share_toggled_cb (HwSetupPanel *self)
{
  const HwStep *step = peek_step (self);
  HwStep       *changed;

  if (self->showing || step == NULL)
    return;
  changed = hw_step_copy (step);
  changed->share = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->share));
  put_step (self, changed, changed->share ? _("allow a shared set-up") : _("refuse a shared set-up"), NULL);
}

static void
minutes_changed_cb (HwSetupPanel *self)
{
  const HwStep    *step = peek_step (self);
  g_autofree char *merge = NULL;
  HwStep          *changed;

  if (self->showing || step == NULL)
    return;
  merge = g_strconcat ("minutes-", step->number, NULL);
  changed = hw_step_copy (step);
  changed->minutes = gtk_spin_button_get_value (GTK_SPIN_BUTTON (self->minutes));
  put_step (self, changed, _("minutes of a hand step"), merge);
}

static void
correct_clicked_cb (HwSetupPanel *self)
{
  const HwJournalEntry *entry = peek_noted (self, peek_step (self));
  g_autofree char      *action = NULL;

  if (entry == NULL)
    return;
  action = g_strconcat ("journal.correct::", entry->id, NULL);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.on-page", "(ss)", "journal", action);
}

/* ---- the object ---- */

static void
hw_setup_panel_dispose (GObject *object)
{
  HwSetupPanel *self = HW_SETUP_PANEL (object);

  g_clear_pointer (&self->shown, g_free);
  g_clear_object (&self->workspace);
  gtk_widget_dispose_template (GTK_WIDGET (self), HW_TYPE_SETUP_PANEL);
  G_OBJECT_CLASS (hw_setup_panel_parent_class)->dispose (object);
}

static void
hw_setup_panel_class_init (HwSetupPanelClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_setup_panel_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/net/handwheel/setup-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, title);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, letter_slot);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, drawing_slot);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, layers);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, rows_box);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, share);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, note);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, fault);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, noted_box);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, noted);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, hand_box);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, hand_kind);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, problem);
  gtk_widget_class_bind_template_child (widget_class, HwSetupPanel, change);
  gtk_widget_class_bind_template_callback (widget_class, share_toggled_cb);
  gtk_widget_class_bind_template_callback (widget_class, correct_clicked_cb);
}

static void
add_group (HwSetupPanel *self,
           int           index)
{
  const Group *group = &groups[index];

  self->rows[index] = HW_VALUE_ROW (hw_value_row_new (_(group->title)));
  for (int i = 0; i < group->n_fields; i++)
    {
      GtkWidget *editor = hw_override_editor_new (self->workspace, group->fields[i]);

      self->editors[group->fields[i]] = HW_OVERRIDE_EDITOR (editor);
      hw_value_row_add_editor (self->rows[index], editor);
    }
  gtk_box_append (GTK_BOX (self->rows_box), GTK_WIDGET (self->rows[index]));
  if (index == TENSION_GROUP)
    gtk_box_append (GTK_BOX (self->rows_box), self->dial);
}

static void
hw_setup_panel_init (HwSetupPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->letter = hw_motif_new (1.7, 1.7);
  gtk_box_append (GTK_BOX (self->letter_slot), self->letter);
  self->drawing = hw_motif_new (20, 4.2);
  gtk_widget_set_hexpand (self->drawing, TRUE);
  gtk_box_append (GTK_BOX (self->drawing_slot), self->drawing);
  self->dial = hw_dial_new (20, 4.6);
  self->minutes = hw_form_spin (5, 0.5, 1440, 1, 1);
  hw_control_name (self->minutes, _("Minutes by hand"));
  gtk_box_append (GTK_BOX (self->hand_box), self->minutes);
  g_signal_connect_swapped (self->minutes, "value-changed", G_CALLBACK (minutes_changed_cb), self);
}

GtkWidget *
hw_setup_panel_new (HwWorkspace *workspace)
{
  HwSetupPanel *self = g_object_new (HW_TYPE_SETUP_PANEL, NULL);

  self->workspace = g_object_ref (workspace);
  for (int i = 0; i < N_GROUPS; i++)
    add_group (self, i);
  hw_form_tell_spin (GTK_SPIN_BUTTON (self->minutes), workspace);
  self->test_seam = hw_test_seam_button_new (workspace);
  gtk_box_insert_child_after (GTK_BOX (self), self->test_seam, self->layers);
  hw_watch (GTK_WIDGET (self), workspace, refresh);
  g_signal_connect_object (workspace, "selection", G_CALLBACK (hw_watch_stir), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

GtkWidget *
hw_setup_panel_new_scrolled (HwWorkspace *workspace)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  GtkWidget *panel = hw_setup_panel_new (workspace);

  gtk_widget_set_margin_start (panel, 18);
  gtk_widget_set_margin_end (panel, 18);
  gtk_widget_set_margin_top (panel, 14);
  gtk_widget_set_margin_bottom (panel, 14);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scrolled), 120);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), panel);
  gtk_widget_add_css_class (scrolled, "sheet");
  return scrolled;
}

void
hw_setup_panel_open (HwSetupPanel *self,
                     HwField       field)
{
  g_return_if_fail (HW_IS_SETUP_PANEL (self) && field < HW_N_FIELDS);

  begin_at_top (self, hw_workspace_peek_selected (self->workspace));
  hw_value_row_set_open (self->rows[find_group (field)], TRUE);
}
