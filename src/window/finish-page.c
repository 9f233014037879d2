/* finish-page.c - after sewing: the closing list of each machine that has sewn, noted by one press
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>

#include "plan/closing.h"
#include "window/controls.h"
#include "window/watch.h"
#include "window/wrap.h"
#include "words/words-room.h"
#include "words/words.h"

/* Kept with the button. */
typedef struct
{
  HwWorkspace *workspace;               /* the window holds it */
  char        *machine;
  GtkWidget   *needle_back, *place;     /* children of the same sheet; NULL: no needle is in it */
} Finish;

typedef struct
{
  HwWorkspace *workspace;               /* the window holds it */
  GtkWidget   *today, *earlier, *earlier_box;
} FinishPage;

static void
free_finish (gpointer data)
{
  Finish *self = data;

  g_free (self->machine);
  g_free (self);
}

/* (transfer full), NULL: nothing is written on it. */
static char *
read_place (GtkWidget *entry)
{
  g_autofree char *place = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  return place[0] != '\0' ? g_steal_pointer (&place) : NULL;
}

/* The needle first: if it cannot be noted, nothing is. */
static void
done_cb (GtkWidget *button)
{
  const Finish    *self = g_object_get_data (G_OBJECT (button), "hw-finish");
  HwWorkspace     *workspace = self->workspace;
  const HwRoom    *room = hw_workspace_get_room (workspace);
  const HwMachine *machine = hw_room_find_machine (room, self->machine);
  gboolean         back = self->needle_back != NULL
                          && gtk_check_button_get_active (GTK_CHECK_BUTTON (self->needle_back));
  g_autoptr (HwJournalEntry) closing = machine != NULL ? hw_closing_entry (machine) : NULL;
  g_autoptr (HwJournalEntry) needle = machine != NULL && back ? hw_closing_needle_entry (room, machine) : NULL;
  g_autofree char *text = NULL;

  if (closing == NULL)
    return;
  if (needle != NULL)
    {
      g_free (needle->place);
      needle->place = read_place (self->place);
    }
  /* Translators: machine */
  text = g_strdup_printf (_("%s: closed for today."), machine->name);
  if (needle != NULL && !hw_workspace_append (workspace, needle, NULL))
    return;
  hw_workspace_append (workspace, closing, text);
}

static void
add_item (GtkWidget       *sheet,
          const HwClosing *closing,
          int              place)
{
  GtkWidget       *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  /* Translators: place in a list, what to do */
  g_autofree char *name = g_strdup_printf (_("%d  %s"), place, closing->entry.name);

  gtk_box_append (GTK_BOX (row), hw_label_new (name, "strong"));
  if (closing->entry.note != NULL)
    {
      GtkWidget *note = hw_label_new (closing->entry.note, "mute");

      gtk_label_set_max_width_chars (GTK_LABEL (note), 44);
      gtk_box_append (GTK_BOX (row), note);
    }
  gtk_box_append (GTK_BOX (sheet), row);
}

/* A needle that was in the case before goes back to where it lay; one that was new has a place given to it now. */
static void
add_needle (GtkWidget        *sheet,
            Finish           *finish,
            const HwHandbook *handbook,
            const HwNeedle   *needle)
{
  GtkWidget       *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget       *label = gtk_label_new_with_mnemonic (_("its _place:"));
  g_autofree char *name = hw_words_needle_of (handbook, needle);
  /* Translators: a needle such as 80/12 round point */
  g_autofree char *back = g_strdup_printf (_("I put %s back in the case; otherwise it stays in the machine"), name);

  finish->needle_back = gtk_check_button_new_with_label (back);
  gtk_label_set_wrap (GTK_LABEL (gtk_widget_get_last_child (finish->needle_back)), TRUE);
  finish->place = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (finish->place), needle->place != NULL ? needle->place : "");
  gtk_entry_set_placeholder_text (GTK_ENTRY (finish->place), _("row 2, third"));
  gtk_widget_set_hexpand (finish->place, TRUE);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), finish->place);
  hw_control_name (finish->place, _("What stands on its place in the case"));
  g_object_bind_property (finish->needle_back, "active", row, "sensitive", G_BINDING_SYNC_CREATE);
  gtk_widget_set_margin_start (row, 28);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), finish->place);
  gtk_box_append (GTK_BOX (sheet), finish->needle_back);
  gtk_box_append (GTK_BOX (sheet), row);
}

static GtkWidget *
add_machine (GtkWidget       *wrap,
             HwWorkspace     *workspace,
             const HwMachine *machine)
{
  const HwRoom         *room = hw_workspace_get_room (workspace);
  g_autoptr (GPtrArray) list = hw_closing_list (hw_workspace_get_handbook (workspace), room, machine);
  const HwNeedle       *needle = hw_room_get_state (room, machine)->needle;
  GtkWidget            *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget            *button = gtk_button_new_with_label (_("All done: note it"));
  Finish               *finish = g_new0 (Finish, 1);
  /* Translators: machine */
  g_autofree char      *spoken = g_strdup_printf (_("All done at %s: note it"), machine->name);

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_widget_add_css_class (sheet, "machine");
  gtk_widget_set_valign (sheet, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (sheet), hw_label_new (machine->name, "subtitle"));
  for (guint i = 0; i < list->len; i++)
    add_item (sheet, g_ptr_array_index (list, i), (int) i + 1);
  finish->workspace = workspace;
  finish->machine = g_strdup (machine->id);
  if (needle != NULL)
    add_needle (sheet, finish, hw_workspace_get_handbook (workspace), needle);
  gtk_widget_add_css_class (button, "suggested");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  hw_control_name (button, spoken);
  g_object_set_data_full (G_OBJECT (button), "hw-finish", finish, free_finish);
  g_signal_connect (button, "clicked", G_CALLBACK (done_cb), NULL);
  gtk_box_append (GTK_BOX (sheet), button);
  hw_wrap_append (HW_WRAP (wrap), sheet);
  return sheet;
}

/* On the day that it is now, where the person is. */
static gboolean
is_today (const char *moment)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (moment, NULL);
  g_autoptr (GDateTime) local = time != NULL ? g_date_time_to_local (time) : NULL;
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  int                   years[2], months[2], days[2];

  if (local == NULL)
    return FALSE;
  g_date_time_get_ymd (local, &years[0], &months[0], &days[0]);
  g_date_time_get_ymd (now, &years[1], &months[1], &days[1]);
  return years[0] == years[1] && months[0] == months[1] && days[0] == days[1];
}

static void
add_last_sewn (GtkWidget  *sheet,
               const char *moment)
{
  g_autofree char *time = hw_words_entry_time (moment);
  /* Translators: a date and time */
  g_autofree char *text = g_strdup_printf (_("Sewed last on %s"), time);

  gtk_box_insert_child_after (GTK_BOX (sheet), hw_label_new (text, "mute"), gtk_widget_get_first_child (sheet));
}

/* Those that sewed today, or those that sewed earlier. Returns how many. */
static guint
add_machines (GtkWidget    *wrap,
              HwWorkspace  *workspace,
              GtkSizeGroup *widths,
              gboolean      today)
{
  const HwRoom *room = hw_workspace_get_room (workspace);
  guint         n = 0;

  hw_wrap_remove_all (HW_WRAP (wrap));
  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine      *machine = g_ptr_array_index (room->machines, i);
      const HwJournalEntry *last = hw_closing_last_sewn (room, machine);
      GtkWidget            *sheet;

      if (last == NULL || is_today (last->time) != today)
        continue;
      sheet = add_machine (wrap, workspace, machine);
      gtk_size_group_add_widget (widths, sheet);
      if (!today)
        add_last_sewn (sheet, last->time);
      n++;
    }
  return n;
}

static void
refresh (GtkWidget *page)
{
  FinishPage *self = g_object_get_data (G_OBJECT (page), "hw-page");
  g_autoptr (GtkSizeGroup) widths = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  guint n_today = add_machines (self->today, self->workspace, widths, TRUE);
  guint n_earlier = add_machines (self->earlier, self->workspace, widths, FALSE);

  if (n_today == 0)
    hw_wrap_append (HW_WRAP (self->today),
                    hw_label_new (n_earlier > 0 ? _("No machine has sewn today.")
                                                : _("No machine has sewn since it was last closed."), "mute"));
  gtk_widget_set_visible (self->earlier_box, n_earlier > 0);
}

static GtkWidget *
make_earlier (FinishPage *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  self->earlier = hw_wrap_new (12, 12);
  gtk_box_append (GTK_BOX (box), hw_label_new (_("From an earlier day"), "heading"));
  gtk_box_append (GTK_BOX (box), hw_label_new (_("Not closed since they last sewed. There is no hurry: close them when "
                                                 "you are at them."), "mute"));
  gtk_box_append (GTK_BOX (box), self->earlier);
  self->earlier_box = box;
  return box;
}

GtkWidget *
hw_finish_page_new (HwWorkspace *workspace)
{
  GtkWidget  *page = gtk_scrolled_window_new ();
  GtkWidget  *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  FinishPage *self = g_new0 (FinishPage, 1);

  self->workspace = workspace;
  self->today = hw_wrap_new (12, 12);
  gtk_widget_add_css_class (box, "page");
  gtk_box_append (GTK_BOX (box), hw_label_new (_("Finish for today"), "figure"));
  gtk_box_append (GTK_BOX (box), self->today);
  gtk_box_append (GTK_BOX (box), make_earlier (self));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (page), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (page), box);
  g_object_set_data_full (G_OBJECT (page), "hw-page", self, g_free);
  hw_watch (page, workspace, refresh);
  return page;
}
