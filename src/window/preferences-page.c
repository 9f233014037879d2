/* preferences-page.c - what the person chooses for the whole room: lengths, numbers, paper, hours, minutes of a change
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"
#include "window/form.h"
#include "window/wrap.h"
#include "words/words.h"

#define HOURS_IN_A_WEEK 168
#define NOTE_CHARS 46

typedef struct
{
  HwWorkspace *workspace;
  GtkWidget   *units, *numbers, *paper;
  GtkLabel    *example;
  GtkWidget   *hours;
  GtkWidget   *minutes[HW_N_CHANGE_PARTS];
} Preferences;

static const char * const part_names[HW_N_CHANGE_PARTS] = {
  [HW_CHANGE_PART_WALK] = N_("To sit down at another machine"),
  [HW_CHANGE_PART_NEEDLE] = N_("To change the needle"),
  [HW_CHANGE_PART_THREAD] = N_("To thread the needle anew"),
  [HW_CHANGE_PART_BOBBIN] = N_("To change the bobbin"),
  [HW_CHANGE_PART_FOOT] = N_("To change the foot"),
  [HW_CHANGE_PART_PLATE] = N_("To change the needle plate"),
  [HW_CHANGE_PART_STITCH] = N_("To choose another stitch"),
  [HW_CHANGE_PART_SOFT] = N_("To set length, width, pressure and dial"),
  [HW_CHANGE_PART_OVERLOCK_THREAD] = N_("To thread one cone of an overlocker anew"),
};

/* What the handbook gives, to show where nothing else was chosen. */
static double
ordinary_minutes (const HwChangeCosts *costs,
                  HwChangePart         part)
{
  const double minutes[HW_N_CHANGE_PARTS] = {
    [HW_CHANGE_PART_WALK] = costs->walk,
    [HW_CHANGE_PART_NEEDLE] = costs->needle,
    [HW_CHANGE_PART_THREAD] = costs->thread,
    [HW_CHANGE_PART_BOBBIN] = costs->bobbin,
    [HW_CHANGE_PART_FOOT] = costs->foot,
    [HW_CHANGE_PART_PLATE] = costs->plate,
    [HW_CHANGE_PART_STITCH] = costs->stitch,
    [HW_CHANGE_PART_SOFT] = costs->soft,
    [HW_CHANGE_PART_OVERLOCK_THREAD] = costs->overlock_thread,
  };

  return minutes[part];
}

static void
take_word (char     **word,
           GtkWidget *choice)
{
  g_free (*word);
  *word = g_strdup (hw_choice_peek (GTK_DROP_DOWN (choice)));
}

static gboolean
save_preferences (gpointer data,
                  GError **error)
{
  Preferences                *self = data;
  const HwRoom               *room = hw_workspace_get_room (self->workspace);
  g_autoptr (HwPreferences)   next = hw_preferences_copy (room->preferences);
  HwRoom                     *changed;

  take_word (&next->units, self->units);
  take_word (&next->numbers, self->numbers);
  take_word (&next->paper, self->paper);
  next->hours_a_week = gtk_spin_button_get_value (GTK_SPIN_BUTTON (self->hours));
  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    if (!hw_form_get_number (self->minutes[part], _(part_names[part]), NAN, &next->change_minutes[part], error))
      return FALSE;
  changed = hw_room_with_preferences (room, next, error);
  if (changed == NULL || !hw_workspace_take_room (self->workspace, changed, NULL))
    return FALSE;
  hw_workspace_tell (self->workspace, _("The preferences are kept; the plan counts with them from now on."), FALSE);
  return TRUE;
}

static GtkWidget *
add_sheet (HwForm     *form,
           GtkWidget  *column,
           const char *title)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_widget_add_css_class (sheet, "preference");
  gtk_box_append (GTK_BOX (sheet), hw_label_new (title, "strong"));
  gtk_box_append (GTK_BOX (column), sheet);
  hw_form_add_into (form, sheet);
  return sheet;
}

/* No wider than its column, however long. */
static GtkLabel *
add_note (HwForm     *form,
          const char *text)
{
  GtkWidget *note = hw_label_new (text, "mute");

  gtk_label_set_max_width_chars (GTK_LABEL (note), NOTE_CHARS);
  hw_form_add_wide (form, note);
  return GTK_LABEL (note);
}

static GtkWidget *
make_choice (const char * const *ids,
             const char * const *names,
             gsize               n,
             const char         *chosen)
{
  GtkWidget *choice = hw_choice_new ();

  for (gsize i = 0; i < n; i++)
    hw_choice_add (GTK_DROP_DOWN (choice), ids[i], _(names[i]));
  hw_choice_select (GTK_DROP_DOWN (choice), chosen);
  return choice;
}

/* What the choices come to, before they are kept. */
static void
show_example (Preferences *self)
{
  const HwPreferences *kept = hw_workspace_get_room (self->workspace)->preferences;
  g_autoptr (HwPreferences) tried = hw_preferences_copy (kept);
  g_autofree char *seam = NULL;
  g_autofree char *thread = NULL;
  g_autofree char *allowance = NULL;
  g_autofree char *text = NULL;

  take_word (&tried->units, self->units);
  take_word (&tried->numbers, self->numbers);
  hw_words_take_style (tried);
  seam = hw_words_cm (47.5, 1);
  thread = hw_words_metres (6.4);
  allowance = hw_words_allowance (15);
  hw_words_take_style (kept);
  /* Translators: an example of how lengths are written: a seam, thread, an allowance */
  text = g_strdup_printf (_("A seam of %s, %s of thread, an allowance of %s."), seam, thread, allowance);
  hw_label_set_figures (self->example, text);
}

static void
add_lengths (HwForm              *form,
             GtkWidget           *column,
             Preferences         *self,
             const HwPreferences *chosen)
{
  static const char * const unit_ids[] = { NULL, "mm", "inch" };
  static const char * const unit_names[] = { N_("as on this desktop"), N_("centimetres and metres"),
                                             N_("inches and yards") };
  static const char * const number_ids[] = { NULL, "point", "comma" };
  static const char * const number_names[] = { N_("as on this desktop"), N_("with a point: 2.5"),
                                               N_("with a comma: 2,5") };

  add_sheet (form, column, _("Lengths and numbers"));
  self->units = make_choice (unit_ids, unit_names, G_N_ELEMENTS (unit_ids), chosen->units);
  self->numbers = make_choice (number_ids, number_names, G_N_ELEMENTS (number_ids), chosen->numbers);
  hw_form_add_beside (form, _("_Lengths in"), self->units);
  hw_form_add_beside (form, _("_Numbers"), self->numbers);
  self->example = add_note (form, NULL);
  add_note (form, _("Stitches, needles and thicknesses stay in mm, as machines and packets show them."));
  show_example (self);
  g_signal_connect_swapped (self->units, "notify::selected", G_CALLBACK (show_example), self);
  g_signal_connect_swapped (self->numbers, "notify::selected", G_CALLBACK (show_example), self);
}

static void
add_paper (HwForm              *form,
           GtkWidget           *column,
           Preferences         *self,
           const HwPreferences *chosen)
{
  static const char * const ids[] = { NULL, "a5", "a6", "a4", "letter" };
  static const char * const names[] = { N_("as on this desktop"), N_("A5, one card a page"),
                                        N_("A6, one small card a page"), N_("A4, two cards a sheet"),
                                        N_("Letter, two cards a sheet") };

  add_sheet (form, column, _("Setup cards"));
  self->paper = make_choice (ids, names, G_N_ELEMENTS (ids), chosen->paper);
  hw_form_add_beside (form, _("_Paper to begin with"), self->paper);
}

static void
add_week (HwForm              *form,
          GtkWidget           *column,
          Preferences         *self,
          const HwPreferences *chosen)
{
  add_sheet (form, column, _("Your week"));
  self->hours = hw_form_spin (chosen->hours_a_week, 0.5, HOURS_IN_A_WEEK, 0.5, 1);
  hw_form_add_beside (form, _("_Hours you sew in a week"), self->hours);
  add_note (form, _("From these come the dates at which care falls due and projects are done."));
}

static void
add_minutes (HwForm              *form,
             Preferences         *self,
             HwChangePart         part,
             const HwPreferences *chosen,
             const HwChangeCosts *costs)
{
  g_autofree char *ordinary = hw_words_number (ordinary_minutes (costs, part), 2);
  g_autofree char *own = isnan (chosen->change_minutes[part]) ? NULL
                                                              : hw_words_number (chosen->change_minutes[part], 2);

  self->minutes[part] = hw_form_entry (own, ordinary);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->minutes[part]), 8);
  hw_form_add_beside (form, _(part_names[part]), self->minutes[part]);
}

static void
add_changes (HwForm           *form,
             GtkWidget        *column,
             Preferences      *self,
             const HwHandbook *handbook)
{
  const HwPreferences *chosen = hw_workspace_get_room (self->workspace)->preferences;
  g_autofree char     *source = hw_words_source (handbook->changes.source);
  /* Translators: the source of the minutes */
  g_autofree char     *about = g_strdup_printf (_("The order of work is the one with the fewest of these minutes. Left "
                                                  "empty, the handbook’s count (%s)."), source);

  add_sheet (form, column, _("Minutes that a change takes you"));
  add_note (form, about);
  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    add_minutes (form, self, (HwChangePart) part, chosen, &handbook->changes);
}

/* Two columns of sheets, one under the other where there is no room. */
static GtkWidget *
make_form (HwWorkspace *workspace)
{
  const HwPreferences *chosen = hw_workspace_get_room (workspace)->preferences;
  HwForm              *form = HW_FORM (hw_form_new (_("Preferences"), _("Keep these")));
  GtkWidget           *heading = gtk_widget_get_first_child (GTK_WIDGET (form));
  Preferences         *self = g_new0 (Preferences, 1);
  GtkWidget           *columns = hw_wrap_new (18, 14);
  GtkWidget           *first = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  GtkWidget           *second = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);

  gtk_widget_remove_css_class (heading, "subtitle");
  gtk_widget_add_css_class (heading, "figure");         /* it is the page's own, not a panel's */
  self->workspace = workspace;          /* the window holds it */
  gtk_widget_add_css_class (first, "preference-column");
  gtk_widget_add_css_class (second, "preference-column");
  hw_wrap_append (HW_WRAP (columns), first);
  hw_wrap_append (HW_WRAP (columns), second);
  hw_form_add_wide (form, columns);
  add_lengths (form, first, self, chosen);
  add_paper (form, first, self, chosen);
  add_week (form, first, self, chosen);
  add_changes (form, second, self, hw_workspace_get_handbook (workspace));
  hw_form_set_save (form, save_preferences, self, g_free);
  return GTK_WIDGET (form);
}

static void fill (GtkWidget *page);

static gboolean
fill_later_cb (gpointer page)
{
  fill (page);
  return G_SOURCE_REMOVE;
}

/* The form is still inside its own action; it is made anew when that is over. */
static void
closed_cb (GtkWidget *page)
{
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, fill_later_cb, g_object_ref (page), g_object_unref);
}

static void
fill (GtkWidget *page)
{
  GtkWidget *form = make_form (g_object_get_data (G_OBJECT (page), "hw-workspace"));

  gtk_widget_add_css_class (form, "page");
  g_signal_connect_object (form, "closed", G_CALLBACK (closed_cb), page, G_CONNECT_SWAPPED);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (page), form);
}

GtkWidget *
hw_preferences_page_new (HwWorkspace *workspace)
{
  GtkWidget *page = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (page), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  g_object_set_data (G_OBJECT (page), "hw-workspace", workspace);       /* the window holds it */
  fill (page);
  return page;
}
