/* test-seam-panel.c - how a scrap looked, in three presses; the dial it makes, on each machine; the bobbin's drop test
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * First press: this panel. Second: what is seen, from drawings. Third: note it, or for a pucker what cutting the
 * threads did to it. Then the panel tells the dial to try next, and the note can be taken back.
 */

#include "config.h"

#include "window/test-seam-panel.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/form.h"
#include "window/test-seam-looks.h"
#include "words/words.h"

#define COLUMNS 4
#define MOST_HEIGHT 470
#define TEXT_CHARS 36                    /* narrower than the drawings, which alone give the panel its width */

struct _HwTestSeamPanel
{
  GtkBox       parent_instance;
  HwWorkspace *workspace;
  char        *number;                   /* of the step it speaks of; NULL: the selected one */
  GtkWidget   *title, *stack, *how, *believed_slot, *ground, *dial, *wrong, *good, *more;
  GtkWidget   *answer, *noted;           /* pages of the stack; NULL: not shown yet */
  HwVerdict    seen;                     /* pressed, not noted yet */
  char        *noted_id;                 /* the entry that Undo takes back; NULL none */
  double       noted_dial;
  HwVerdict    noted_verdict;
};

G_DEFINE_FINAL_TYPE (HwTestSeamPanel, hw_test_seam_panel, GTK_TYPE_BOX)

static const HwSetup *
find_setup (HwWorkspace *workspace,
            const char  *number)
{
  const HwPlan *plan = hw_workspace_peek_plan (workspace);

  if (number == NULL)
    number = hw_workspace_peek_selected (workspace);
  return plan != NULL && number != NULL ? hw_plan_find_test_setup (plan, number) : NULL;
}

gboolean
hw_test_seam_is_possible (HwWorkspace *workspace,
                          const char  *number)
{
  return find_setup (workspace, number) != NULL;
}

static const HwSetup *
peek_setup (HwTestSeamPanel *self)
{
  return find_setup (self->workspace, self->number);
}

static void
clear_box (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

static void
add_text (GtkWidget *box, const char *text, const char *class)
{
  GtkWidget *label = hw_label_new (text, class);

  gtk_label_set_max_width_chars (GTK_LABEL (label), TEXT_CHARS);
  gtk_box_append (GTK_BOX (box), label);
}

static GtkWidget *
add_button (HwTestSeamPanel *self, GtkWidget *box, const char *label, void (* pressed) (HwTestSeamPanel *self))
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  hw_control_name_by (button, label);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (pressed), self);
  gtk_box_append (GTK_BOX (box), button);
  return button;
}

static void
show_page (HwTestSeamPanel *self, const char *name)
{
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), name);
  gtk_widget_child_focus (gtk_stack_get_visible_child (GTK_STACK (self->stack)), GTK_DIR_TAB_FORWARD);
}

/* A page is made with its rows: one that waits empty may be given the height of one line for a text that wraps. */
static void
begin_page (HwTestSeamPanel *self, GtkWidget **page)
{
  if (*page != NULL)
    gtk_stack_remove (GTK_STACK (self->stack), *page);
  *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
}

static void
finish_page (HwTestSeamPanel *self, GtkWidget *page, const char *name)
{
  gtk_stack_add_named (GTK_STACK (self->stack), page, name);
  show_page (self, name);
}

static void
go_back (HwTestSeamPanel *self)
{
  show_page (self, "looks");
}

/* ---- third: noted ---- */

static char *
say_believed (const HwSetup *setup)
{
  g_autofree char *dial = hw_words_half (setup->values[HW_FIELD_DIAL].value);
  g_autofree char *low = hw_words_half (setup->dial_likely_low);
  g_autofree char *high = hw_words_half (setup->dial_likely_high);

  /* Translators: machine's name, number on its dial, where the scrap is likely to leave it, low and high */
  return g_strdup_printf (_("%s starts at %s, likely to end between %s and %s."), setup->machine->name, dial, low,
                          high);
}

static GtkWidget *
make_believed (const HwSetup *setup)
{
  g_autofree char *words = say_believed (setup);

  return hw_believed_dial_new (setup->machine, setup->values[HW_FIELD_DIAL].value, setup->dial_likely_low,
                               setup->dial_likely_high, words);
}

static double
get_next (HwTestSeamPanel *self, const HwSetup *setup)
{
  return hw_plan_next_dial (hw_workspace_peek_plan (self->workspace), setup, self->noted_dial, self->noted_verdict,
                            TRUE);
}

static void
sew_another (HwTestSeamPanel *self)
{
  const HwSetup *setup = peek_setup (self);

  if (setup != NULL)
    gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->dial), get_next (self, setup));
  go_back (self);
}

static void
take_back (HwTestSeamPanel *self)
{
  const HwSetup *setup = peek_setup (self);
  g_autoptr (HwJournalEntry) entry = NULL;

  if (self->noted_id == NULL || setup == NULL)
    return;
  entry = hw_journal_entry_new_cancel (setup->machine->id, self->noted_id);
  g_clear_pointer (&self->noted_id, g_free);
  hw_workspace_append (self->workspace, entry, NULL);
  go_back (self);
}

static void
show_noted (HwTestSeamPanel *self)
{
  const HwSetup   *setup = peek_setup (self);
  GtkWidget       *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autofree char *look = hw_words_look (self->noted_verdict, setup != NULL ? &setup->tension : NULL);
  g_autofree char *at = hw_words_half (self->noted_dial);
  /* Translators: number on the dial, how the test seam looked */
  g_autofree char *noted = g_strdup_printf (_("Noted, at %s: %s."), at, look);
  g_autofree char *after = NULL;

  begin_page (self, &self->noted);
  add_text (self->noted, noted, NULL);
  if (setup != NULL)
    {
      after = hw_words_after_test (self->noted_verdict, self->noted_dial, get_next (self, setup), TRUE);
      add_text (self->noted, after, "strong");
      gtk_box_append (GTK_BOX (self->noted), make_believed (setup));
    }
  gtk_widget_add_css_class (add_button (self, buttons, _("Sew a_nother"), sew_another), "main-action");
  add_button (self, buttons, _("_Undo"), take_back);
  gtk_box_append (GTK_BOX (self->noted), buttons);
  finish_page (self, self->noted, "noted");
}

static void
note (HwTestSeamPanel *self, HwVerdict verdict)
{
  const HwSetup *setup = peek_setup (self);
  double         dial = gtk_spin_button_get_value (GTK_SPIN_BUTTON (self->dial));
  g_autoptr (HwJournalEntry) entry = NULL;

  if (setup == NULL)
    return;
  entry = hw_plan_entry_for_test_seam (hw_workspace_peek_plan (self->workspace), setup, dial, verdict);
  if (!hw_workspace_append (self->workspace, entry, NULL))
    return;
  g_free (self->noted_id);
  self->noted_id = g_strdup (entry->id);
  self->noted_dial = dial;
  self->noted_verdict = verdict;
  show_noted (self);
}

static void
note_seen (HwTestSeamPanel *self)
{
  note (self, self->seen);
}

static void
note_released (HwTestSeamPanel *self)
{
  note (self, HW_VERDICT_PUCKER_RELEASED);
}

static void
note_stays (HwTestSeamPanel *self)
{
  note (self, HW_VERDICT_PUCKER_STAYS);
}

/* ---- second: what is seen ---- */

static void
ask_of_pucker (HwTestSeamPanel *self, GtkWidget *buttons)
{
  add_text (self->answer, _("Puckered"), "strong");
  add_text (self->answer, _("Cut both threads every few centimetres. Does the cloth lie flat now?"), NULL);
  gtk_widget_add_css_class (add_button (self, buttons, _("It lies _flat"), note_released), "main-action");
  add_button (self, buttons, _("It stays _puckered"), note_stays);
}

static void
tell_next (HwTestSeamPanel *self, const HwSetup *setup, GtkWidget *buttons)
{
  double           dial = gtk_spin_button_get_value (GTK_SPIN_BUTTON (self->dial));
  double           next = hw_plan_next_dial (hw_workspace_peek_plan (self->workspace), setup, dial, self->seen, FALSE);
  g_autofree char *look = hw_words_look (self->seen, &setup->tension);
  g_autofree char *after = hw_words_after_test (self->seen, dial, next, FALSE);
  const char      *label = self->seen == HW_VERDICT_LOOPS_BELOW ? _("_Still there: note it") : _("_Note it");

  add_text (self->answer, look, "strong");
  add_text (self->answer, after, NULL);
  gtk_widget_add_css_class (add_button (self, buttons, label, note_seen), "main-action");
}

static void
show_answer (HwTestSeamPanel *self)
{
  const HwSetup *setup = peek_setup (self);
  GtkWidget     *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget     *motif = hw_look_motif_new (self->seen, 18, 9);

  begin_page (self, &self->answer);
  gtk_widget_set_halign (motif, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self->answer), motif);
  if (self->seen == HW_VERDICT_PUCKER_RELEASED)
    ask_of_pucker (self, buttons);
  else if (setup != NULL)
    tell_next (self, setup, buttons);
  add_button (self, buttons, _("_Back"), go_back);
  gtk_box_append (GTK_BOX (self->answer), buttons);
  finish_page (self, self->answer, "answer");
}

static void
look_pressed_cb (HwTestSeamPanel *self, GtkWidget *button)
{
  g_autofree char *wrong = hw_form_check_spin (GTK_SPIN_BUTTON (self->dial));

  gtk_label_set_text (GTK_LABEL (self->wrong), wrong != NULL ? wrong : "");
  gtk_widget_set_visible (self->wrong, wrong != NULL);
  if (wrong != NULL)
    {
      gtk_widget_grab_focus (self->dial);
      return;
    }
  self->seen = (HwVerdict) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "hw-verdict"));
  show_answer (self);
}

/* ---- first ---- */

static GtkWidget *
make_expander (const char *title, GtkWidget *child)
{
  GtkWidget *expander = gtk_expander_new (NULL);
  GtkWidget *label = hw_label_new (title, NULL);

  gtk_label_set_max_width_chars (GTK_LABEL (label), TEXT_CHARS);
  gtk_expander_set_label_widget (GTK_EXPANDER (expander), label);
  hw_control_name (expander, title);
  gtk_widget_set_margin_start (child, 16);
  gtk_expander_set_child (GTK_EXPANDER (expander), child);
  return expander;
}

static void
show_more (HwTestSeamPanel *self, const HwPlan *plan, const HwSetup *setup)
{
  GtkWidget       *past = hw_past_test_seams_new (plan, setup->machine);
  /* Translators: a machine's name */
  g_autofree char *title = g_strdup_printf (_("Test seams on %s before"), setup->machine->name);

  clear_box (self->more);
  gtk_box_append (GTK_BOX (self->more), make_expander (_("The dial on each machine"),
                                                       hw_believed_dials_new (plan, setup)));
  if (past != NULL)
    gtk_box_append (GTK_BOX (self->more), make_expander (title, past));
  gtk_box_append (GTK_BOX (self->more), make_expander (_("Bobbin drop test"), hw_drop_test_new ()));
}

/* What is good depends on the stitch. */
static void
show_good (HwTestSeamPanel *self, const HwSetup *setup)
{
  g_autofree char *look = hw_words_look (HW_VERDICT_BALANCED, &setup->tension);

  hw_look_button_set_name (self->good, look);
}

static void
show_ground (HwTestSeamPanel *self, const HwPlan *plan, const HwSetup *setup)
{
  g_autofree char *ground = hw_words_dial_ground (plan, setup);
  g_autofree char *title = hw_words_title (ground != NULL ? ground : "");

  gtk_label_set_text (GTK_LABEL (self->ground), title);
}

static void
refresh (HwTestSeamPanel *self)
{
  const HwPlan    *plan = hw_workspace_peek_plan (self->workspace);
  const HwSetup   *setup = peek_setup (self);
  g_autofree char *title = NULL;
  g_autofree char *how = NULL;

  if (setup == NULL)
    return;
  how = hw_words_test_how (setup->stitch);
  gtk_label_set_text (GTK_LABEL (self->how), how);
  /* Translators: step's number and name */
  title = g_strdup_printf (_("Test seam for step %s, %s"), setup->step->number, setup->step->name);
  gtk_label_set_text (GTK_LABEL (self->title), title);
  clear_box (self->believed_slot);
  gtk_box_append (GTK_BOX (self->believed_slot), make_believed (setup));
  show_ground (self, plan, setup);
  show_good (self, setup);
  gtk_spin_button_set_range (GTK_SPIN_BUTTON (self->dial), setup->machine->dial.low, setup->machine->dial.high);
  show_more (self, plan, setup);
}

/* Another step, or the panel opened: the dial as its set-up says. */
static void
begin (HwTestSeamPanel *self)
{
  const HwSetup *setup = peek_setup (self);

  refresh (self);
  gtk_widget_set_visible (self->wrong, FALSE);
  if (setup != NULL)
    hw_form_set_spin (GTK_SPIN_BUTTON (self->dial), setup->values[HW_FIELD_DIAL].value);
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "looks");
}

static GtkWidget *
build_dial (HwTestSeamPanel *self)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = gtk_label_new_with_mnemonic (_("Sewn _at"));

  self->dial = gtk_spin_button_new_with_range (0, 9, 0.5);
  hw_form_mark_spin (GTK_SPIN_BUTTON (self->dial));
  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (self->dial), 1);
  hw_control_name (self->dial, _("Dial the scrap was sewn at"));
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), self->dial);
  gtk_widget_set_valign (self->dial, GTK_ALIGN_CENTER);
  self->believed_slot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_set_hexpand (self->believed_slot, TRUE);
  gtk_box_append (GTK_BOX (row), self->believed_slot);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), self->dial);
  return row;
}

/* What is seen; whether a pucker goes is asked after. */
static GtkWidget *
build_looks (HwTestSeamPanel *self)
{
  static const HwVerdict order[] = { HW_VERDICT_LOOPS_BELOW, HW_VERDICT_BALANCED, HW_VERDICT_BOBBIN_ABOVE,
                                     HW_VERDICT_PUCKER_RELEASED, HW_VERDICT_SKIPPED, HW_VERDICT_THREAD_SNAPS,
                                     HW_VERDICT_WAVY };
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  for (int i = 0; i < (int) G_N_ELEMENTS (order); i++)
    {
      gboolean         pucker = order[i] == HW_VERDICT_PUCKER_RELEASED;
      g_autofree char *name = pucker ? g_strdup (_("Puckered")) : hw_words_look (order[i], NULL);
      GtkWidget       *button = hw_look_button_new (order[i], name);

      if (order[i] == HW_VERDICT_BALANCED)
        self->good = button;
      g_object_set_data (G_OBJECT (button), "hw-verdict", GINT_TO_POINTER (order[i]));
      g_signal_connect_swapped (button, "clicked", G_CALLBACK (look_pressed_cb), self);
      gtk_grid_attach (GTK_GRID (grid), button, i % COLUMNS, i / COLUMNS, 1, 1);
    }
  return grid;
}

static GtkWidget *
build_first (HwTestSeamPanel *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  self->how = hw_label_new (NULL, "mute");
  gtk_label_set_max_width_chars (GTK_LABEL (self->how), TEXT_CHARS);
  gtk_box_append (GTK_BOX (box), self->how);
  gtk_box_append (GTK_BOX (box), build_dial (self));
  self->ground = hw_label_new (NULL, "mute");
  gtk_label_set_max_width_chars (GTK_LABEL (self->ground), TEXT_CHARS);
  gtk_box_append (GTK_BOX (box), self->ground);
  self->wrong = hw_label_new (NULL, "rust");
  gtk_label_set_max_width_chars (GTK_LABEL (self->wrong), TEXT_CHARS);
  gtk_widget_set_visible (self->wrong, FALSE);
  gtk_box_append (GTK_BOX (box), self->wrong);
  add_text (box, _("How does it look?"), "heading");
  gtk_box_append (GTK_BOX (box), build_looks (self));
  self->more = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_box_append (GTK_BOX (box), self->more);
  return box;
}

/* ---- the object ---- */

static void
hw_test_seam_panel_dispose (GObject *object)
{
  HwTestSeamPanel *self = HW_TEST_SEAM_PANEL (object);

  g_clear_object (&self->workspace);
  g_clear_pointer (&self->noted_id, g_free);
  g_clear_pointer (&self->number, g_free);
  G_OBJECT_CLASS (hw_test_seam_panel_parent_class)->dispose (object);
}

static void
hw_test_seam_panel_class_init (HwTestSeamPanelClass *class)
{
  G_OBJECT_CLASS (class)->dispose = hw_test_seam_panel_dispose;
}

static void
hw_test_seam_panel_init (HwTestSeamPanel *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 8);
  gtk_widget_add_css_class (GTK_WIDGET (self), "test-seam");
}

GtkWidget *
hw_test_seam_panel_new (HwWorkspace *workspace)
{
  HwTestSeamPanel *self = g_object_new (HW_TYPE_TEST_SEAM_PANEL, NULL);

  self->workspace = g_object_ref (workspace);
  self->title = hw_label_new ("", "subtitle");
  gtk_label_set_max_width_chars (GTK_LABEL (self->title), TEXT_CHARS);
  self->stack = gtk_stack_new ();
  /* Else GTK 4.8 takes the width that each page would have at its least height: with its texts on one line. */
  gtk_stack_set_hhomogeneous (GTK_STACK (self->stack), TRUE);
  gtk_stack_set_vhomogeneous (GTK_STACK (self->stack), TRUE);
  gtk_stack_add_named (GTK_STACK (self->stack), build_first (self), "looks");
  gtk_box_append (GTK_BOX (self), self->title);
  gtk_box_append (GTK_BOX (self), self->stack);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (workspace, "selection", G_CALLBACK (begin), self, G_CONNECT_SWAPPED);
  begin (self);
  return GTK_WIDGET (self);
}

GtkWidget *
hw_test_seam_button_new (HwWorkspace *workspace)
{
  GtkWidget *button = gtk_menu_button_new ();
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *window = gtk_scrolled_window_new ();
  GtkWidget *panel = hw_test_seam_panel_new (workspace);
  GtkWidget *label;

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (window), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (window), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (window), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (window), panel);
  gtk_popover_set_child (GTK_POPOVER (popover), window);
  gtk_accessible_update_property (GTK_ACCESSIBLE (popover), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Test seam"), -1);
  g_signal_connect_object (popover, "map", G_CALLBACK (begin), panel, G_CONNECT_SWAPPED);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), popover);
  hw_popover_plain (GTK_POPOVER (popover));
  /* A label would have an arrow beside it. */
  label = gtk_label_new_with_mnemonic (_("_Test seam…"));
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), button);
  gtk_menu_button_set_child (GTK_MENU_BUTTON (button), label);
  gtk_menu_button_set_direction (GTK_MENU_BUTTON (button), GTK_ARROW_LEFT);
  gtk_widget_set_tooltip_text (button, _("Note how a scrap looked; the dial learns from it"));
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  hw_control_name (button, _("Test seam"));
  g_object_set_data (G_OBJECT (button), "hw-panel", panel);
  return button;
}

void
hw_test_seam_button_speak_of (GtkWidget  *button,
                              const char *number)
{
  HwTestSeamPanel *panel = g_object_get_data (G_OBJECT (button), "hw-panel");

  g_return_if_fail (HW_IS_TEST_SEAM_PANEL (panel));

  if (g_strcmp0 (panel->number, number) == 0)
    return;
  g_free (panel->number);
  panel->number = g_strdup (number);
  begin (panel);
}
