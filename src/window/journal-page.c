/* journal-page.c - the journal: what was done, found, exported, corrected, taken back
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>
#include <string.h>

#include "files/save.h"
#include "model/journal.h"
#include "window/choosers.h"
#include "window/controls.h"
#include "window/journal-list.h"
#include "window/journal-said.h"
#include "window/room-forms.h"
#include "window/room-page.h"
#include "window/tab-stop.h"
#include "window/wrap.h"
#include "words/words-room.h"
#include "words/words.h"

/* What the page keeps besides what every page of the room has. */
typedef struct
{
  GtkWidget          *search, *kinds, *machines, *projects, *from, *to, *view, *count;
  HwJournalList      *list;
  GtkSingleSelection *selection;
  GPtrArray          *entries;          /* shown */
  HwJournalSaid      *said;             /* what the entries say, for searching; NULL: not asked for yet */
  gboolean            filling;
} Journal;

static void
free_journal (gpointer data)
{
  Journal *self = data;

  g_clear_pointer (&self->entries, g_ptr_array_unref);
  g_clear_pointer (&self->said, hw_journal_said_free);
  g_clear_object (&self->list);
  g_free (self);
}

static Journal *
get_journal (gpointer page)
{
  return g_object_get_data (G_OBJECT (page), "hw-journal");
}

static const HwJournalEntry *
peek_selected (Journal *self)
{
  HwJournalItem *item = gtk_single_selection_get_selected_item (self->selection);

  return item != NULL ? hw_journal_item_entry (item) : NULL;
}

/* ---- what is shown ---- */

/* A date as typed; NULL when it is none (yet). */
static char *
read_date (GtkWidget *entry)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));
  g_autofree char *moment = g_strconcat (text, "T00:00:00Z", NULL);
  g_autoptr (GDateTime) time = strlen (text) == strlen ("2031-05-09") ? g_date_time_new_from_iso8601 (moment, NULL)
                                                                       : NULL;
  gboolean         wrong = text[0] != '\0' && time == NULL;

  if (wrong)
    gtk_widget_add_css_class (entry, "error");
  else
    gtk_widget_remove_css_class (entry, "error");
  return time != NULL ? g_steal_pointer (&text) : NULL;
}

static void
find_entries (HwRoomPage *page)
{
  Journal         *self = get_journal (page);
  const HwRoom    *room = hw_room_page_room (page);
  const char      *kind = hw_choice_peek (GTK_DROP_DOWN (self->kinds));
  g_autofree char *from = read_date (self->from);
  g_autofree char *to = read_date (self->to);
  g_autofree char *selected = g_strdup (peek_selected (self) != NULL ? peek_selected (self)->id : NULL);
  HwJournalFilter  filter = {
    .machine = hw_choice_peek (GTK_DROP_DOWN (self->machines)), .from = from, .to = to,
    .project = hw_choice_peek (GTK_DROP_DOWN (self->projects)),
    .text = gtk_editable_get_text (GTK_EDITABLE (self->search)), .says = hw_journal_said_holds
  };
  g_autofree char *count = NULL;
  guint            before = gtk_single_selection_get_selected (self->selection);
  int              place;

  if (self->said == NULL)
    self->said = hw_journal_said_new (hw_room_page_workspace (page));
  filter.data = self->said;
  for (int i = 0; kind != NULL && i < HW_N_ENTRY_KINDS; i++)
    if (strcmp (kind, hw_entry_kind_ids[i]) == 0)
      filter.kinds = 1u << i;
  g_clear_pointer (&self->entries, g_ptr_array_unref);
  self->entries = hw_journal_find (room, &filter);
  hw_journal_list_set (self->list, room, self->entries);
  place = hw_journal_list_find (self->list, selected);
  if (place < 0 && selected != NULL && self->entries->len > 0)  /* taken back: the next */
    place = (int) MIN (before, self->entries->len - 1);
  if (place >= 0)
    gtk_single_selection_set_selected (self->selection, (guint) place);
  if (room->entries->len == 0)
    count = g_strdup (_("Nothing is in the journal yet: mark a step as sewn, or note a needle or care."));
  else
    count = g_strdup_printf (ngettext ("%u entry", "%u entries", self->entries->len), self->entries->len);
  gtk_label_set_text (GTK_LABEL (self->count), count);
}

static void
filter_changed_cb (HwRoomPage *page)
{
  if (hw_room_page_workspace (page) == NULL || get_journal (page) == NULL || get_journal (page)->filling)
    return;
  find_entries (page);
  hw_room_page_show_aside (page);
}

static void
fill_machines (Journal      *self,
               const HwRoom *room)
{
  g_autofree char *chosen = g_strdup (hw_choice_peek (GTK_DROP_DOWN (self->machines)));

  hw_choice_clear (GTK_DROP_DOWN (self->machines));
  hw_choice_add (GTK_DROP_DOWN (self->machines), NULL, _("Every machine"));
  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *machine = room->machines->pdata[i];

      hw_choice_add (GTK_DROP_DOWN (self->machines), machine->id, machine->name);
    }
  hw_choice_add (GTK_DROP_DOWN (self->machines), HW_HAND, _("By hand"));
  if (!hw_choice_select (GTK_DROP_DOWN (self->machines), chosen))
    hw_choice_select (GTK_DROP_DOWN (self->machines), NULL);
}

static void
fill_projects (Journal      *self,
               HwWorkspace  *workspace,
               const HwRoom *room)
{
  g_autofree char *chosen = g_strdup (hw_choice_peek (GTK_DROP_DOWN (self->projects)));
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  for (guint i = 0; i < room->entries->len; i++)
    {
      const char *project = ((HwJournalEntry *) room->entries->pdata[i])->project;

      if (project != NULL && g_hash_table_add (seen, (gpointer) project))
        g_ptr_array_add (ids, (gpointer) project);
    }
  hw_choice_clear (GTK_DROP_DOWN (self->projects));
  hw_choice_add (GTK_DROP_DOWN (self->projects), NULL, _("Every project"));
  for (guint i = ids->len; i-- > 0;)
    hw_choice_add (GTK_DROP_DOWN (self->projects), ids->pdata[i],
                   hw_workspace_name_project (workspace, ids->pdata[i]));
  if (!hw_choice_select (GTK_DROP_DOWN (self->projects), chosen))
    hw_choice_select (GTK_DROP_DOWN (self->projects), NULL);
}

static void
fill (HwRoomPage *page,
      GtkWidget  *left)
{
  Journal      *self = get_journal (page);
  const HwRoom *room = hw_room_page_room (page);

  g_clear_pointer (&self->said, hw_journal_said_free);
  self->filling = TRUE;
  fill_machines (self, room);
  fill_projects (self, hw_room_page_workspace (page), room);
  self->filling = FALSE;
  find_entries (page);
}

/* ---- one entry ---- */

static void
add_fact (GtkWidget  *box,
          const char *name,
          const char *value)
{
  GtkWidget *label;

  if (value == NULL || value[0] == '\0')
    return;
  label = hw_label_new (name, "small");
  gtk_widget_add_css_class (label, "mute");
  gtk_widget_set_margin_top (label, 6);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), hw_label_new (value, NULL));
}

static void
add_thread (GtkWidget  *box,
            HwRoomPage *page,
            const char *name,
            const char *label)
{
  g_autofree char *words = label != NULL ? hw_words_thread_label (hw_room_page_handbook (page), label) : NULL;

  add_fact (box, name, words);
}

/* What the journal keeps as the bobbin's is the loopers' on a machine that has them. */
static const char *
name_lower_thread (const HwMachine *machine)
{
  return machine != NULL && machine->kind != HW_MACHINE_LOCKSTITCH ? _("Looper thread") : _("Bobbin thread");
}

static void
add_button (GtkWidget  *box,
            const char *label,
            const char *action,
            const char *target)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", target);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (GTK_BOX (box), button);
}

static GtkWidget *
make_entry_aside (HwRoomPage           *page,
                  const HwJournalEntry *entry)
{
  HwWorkspace     *workspace = hw_room_page_workspace (page);
  const HwRoom    *room = hw_room_page_room (page);
  const HwMachine *machine = hw_room_find_machine (room, entry->machine);
  GtkWidget       *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  GtkWidget       *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  const char      *work = hw_words_entry_work (entry, hw_journal_find_step (workspace, entry));
  g_autofree char *words = hw_journal_say_what (workspace, room, entry);
  g_autofree char *time = hw_words_entry_time (entry->time);

  gtk_box_append (GTK_BOX (box), hw_label_new (work, "subtitle"));
  gtk_box_append (GTK_BOX (box), hw_label_new (words, "strong"));
  add_fact (box, _("When"), time);
  add_fact (box, _("Machine"), machine != NULL ? machine->name : _("by hand"));
  add_fact (box, _("Project"), hw_workspace_name_project (workspace, entry->project));
  add_thread (box, page, _("Needle thread"), entry->needle_thread);
  add_thread (box, page, name_lower_thread (machine), entry->bobbin_thread);
  add_fact (box, _("Note"), entry->note);
  if (entry->kind == HW_ENTRY_CANCEL)
    return box;
  gtk_widget_set_margin_top (buttons, 12);
  gtk_widget_set_margin_bottom (buttons, 8);
  add_button (buttons, _("Correct…"), "journal.correct", entry->id);
  add_button (buttons, _("Take it back"), "journal.cancel", entry->id);
  gtk_box_append (GTK_BOX (box), buttons);
  gtk_box_append (GTK_BOX (box), hw_label_new (_("The journal’s file keeps everything: a wrong entry is "
                                                 "cancelled by another one, stands here no more, and every sum "
                                                 "follows."), "mute"));
  return box;
}

static GtkWidget *
make_aside (HwRoomPage *page)
{
  const HwJournalEntry *entry = peek_selected (get_journal (page));

  if (entry != NULL)
    return make_entry_aside (page, entry);
  return hw_label_new (_("Hours, needles, care and the steps that are done all follow from these entries."), "mute");
}

static void
selected_cb (HwRoomPage *page)
{
  hw_room_page_show_aside (page);
}

/* ---- what a person does ---- */

static const HwJournalEntry *
find_entry (HwRoomPage *page,
            GVariant   *parameter)
{
  return hw_shelf_find_entry (hw_room_page_room (page), g_variant_get_string (parameter, NULL));
}

static void
clear_filters (HwRoomPage *page)
{
  Journal *self = get_journal (page);

  self->filling = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  gtk_editable_set_text (GTK_EDITABLE (self->from), "");
  gtk_editable_set_text (GTK_EDITABLE (self->to), "");
  hw_choice_select (GTK_DROP_DOWN (self->kinds), NULL);
  hw_choice_select (GTK_DROP_DOWN (self->machines), NULL);
  hw_choice_select (GTK_DROP_DOWN (self->projects), NULL);
  self->filling = FALSE;
  find_entries (page);
}

static void
show_chosen (GtkWidget *view)
{
  GtkSelectionModel *selection = gtk_list_view_get_model (GTK_LIST_VIEW (view));
  guint              place = gtk_single_selection_get_selected (GTK_SINGLE_SELECTION (selection));

  if (place != GTK_INVALID_LIST_POSITION)
    gtk_widget_activate_action (view, "list.scroll-to-item", "u", place);
}

/* Whatever was listed, and wherever it had been scrolled to. */
static void
choose_entry (HwRoomPage *page,
              const char *id)
{
  Journal *self = get_journal (page);
  int      place;

  if (hw_journal_list_find (self->list, id) < 0)
    clear_filters (page);
  place = hw_journal_list_find (self->list, id);
  if (place < 0)
    return;
  gtk_single_selection_set_selected (self->selection, (guint) place);
  hw_when_placed (self->view, show_chosen);
}

/* Another entry has taken the place of the one that was wrong. */
static void
corrected_cb (HwRoomPage *page,
              GtkWidget  *form)
{
  choose_entry (page, hw_entry_form_peek_id (form));
}

/* The row is the chosen one, so that form and list speak of the same. */
static void
correct_action (GSimpleAction *action,
                GVariant      *parameter,
                gpointer       page)
{
  g_autofree char *id = g_variant_dup_string (parameter, NULL);
  GtkWidget       *form;

  if (find_entry (page, parameter) == NULL)
    return;
  choose_entry (page, id);
  form = hw_entry_form_new (hw_room_page_workspace (page), id);
  g_signal_connect_object (form, "closed", G_CALLBACK (corrected_cb), page, G_CONNECT_SWAPPED);
  hw_room_page_show_form (page, form);
}

static void
cancel_action (GSimpleAction *action,
               GVariant      *parameter,
               gpointer       page)
{
  const HwJournalEntry *wrong = find_entry (page, parameter);
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autofree char *words = NULL;
  g_autofree char *text = NULL;

  if (wrong == NULL)
    return;
  entry = hw_journal_entry_new_cancel (wrong->machine, wrong->id);
  words = hw_words_entry (hw_room_page_handbook (page), hw_room_page_room (page), wrong, NULL);
  /* Translators: “Sewing”, what was sewn */
  text = g_strdup_printf (_("%s taken back: %s."), hw_words_entry_kind (wrong->kind), words);
  hw_workspace_append (hw_room_page_workspace (page), entry, text);
}

static void
export_to (const char *path,
           gpointer    data)
{
  HwRoomPage        *page = data;
  HwWorkspace       *workspace = hw_room_page_workspace (page);
  g_autofree char   *csv = NULL;
  g_autofree char   *shown = hw_show_path (path);
  g_autofree char   *text = NULL;
  g_autoptr (GError) error = NULL;

  if (get_journal (page)->entries == NULL)
    find_entries (page);
  csv = hw_journal_to_csv (get_journal (page)->entries);
  if (!hw_save_bytes (path, csv, -1, &error))
    {
      hw_workspace_tell (workspace, error->message, TRUE);
      return;
    }
  /* Translators: a file's name */
  text = g_strdup_printf (_("The entries that are listed stand in %s."), shown);
  hw_workspace_tell (workspace, text, FALSE);
}

static void
export_action (GSimpleAction *action,
               GVariant      *parameter,
               gpointer       page)
{
  GtkRoot *root = gtk_widget_get_root (page);

  hw_choose_file_to_save (GTK_WINDOW (root), _("Export the journal"), "journal.csv", export_to, g_object_ref (page),
                          g_object_unref);
}

static void
export_to_action (GSimpleAction *action,
                  GVariant      *parameter,
                  gpointer       page)
{
  export_to (g_variant_get_string (parameter, NULL), page);
}

/* ---- the left side ---- */

static GtkWidget *
row_label (GtkWidget  *row,
           const char *class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  hw_label_tell_whole (label);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  gtk_box_append (GTK_BOX (row), label);
  return label;
}

static void
setup_row_cb (GtkListItemFactory *factory,
              GtkListItem        *item)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *time = row_label (row, "mute");
  GtkWidget *kind = row_label (row, "strong");
  GtkWidget *what = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *words = row_label (what, NULL);
  GtkWidget *where = row_label (what, "mute");

  /* What was done is read whole; a machine's or project's name may be cut. */
  gtk_label_set_ellipsize (GTK_LABEL (words), PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (words), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (words), 16);
  gtk_label_set_width_chars (GTK_LABEL (time), 16);
  gtk_label_set_width_chars (GTK_LABEL (kind), 10);
  gtk_widget_set_hexpand (what, TRUE);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_add_css_class (where, "small");
  gtk_widget_set_valign (what, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), what);
  gtk_list_item_set_child (item, row);
}

static void
bind_row_cb (GtkListItemFactory *factory,
             GtkListItem        *item,
             gpointer            page)
{
  HwWorkspace          *workspace = hw_room_page_workspace (page);
  HwJournalItem        *shown = gtk_list_item_get_item (item);
  const HwJournalEntry *entry = hw_journal_item_entry (shown);
  GtkWidget            *row = gtk_list_item_get_child (item);
  GtkWidget            *time = gtk_widget_get_first_child (row);
  GtkWidget            *kind = gtk_widget_get_next_sibling (time);
  GtkWidget            *words = gtk_widget_get_first_child (gtk_widget_get_next_sibling (kind));
  GtkWidget            *where = gtk_widget_get_next_sibling (words);
  g_autofree char      *when = hw_words_entry_time_short (entry->time);
  const char           *work = hw_words_entry_work (entry, hw_journal_find_step (workspace, entry));
  g_autofree char      *said = hw_journal_say_what (workspace, hw_journal_item_room (shown), entry);
  g_autofree char      *where_text = hw_journal_say_where (workspace, hw_journal_item_room (shown), entry);
  /* Translators: when, “Sewing”, what */
  g_autofree char      *what = g_strdup_printf (_("%s, %s: %s"), when, work, said);
  g_autofree char      *spoken = where_text[0] != '\0' ? g_strconcat (what, C_("list", ", "), where_text, NULL)
                                                       : g_strdup (what);

  gtk_label_set_text (GTK_LABEL (time), when);
  gtk_label_set_text (GTK_LABEL (kind), work);
  gtk_label_set_text (GTK_LABEL (words), said);
  gtk_label_set_text (GTK_LABEL (where), where_text);
  gtk_widget_set_visible (where, where_text[0] != '\0');
  hw_control_tell (row, entry->note);
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_parent (row)), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken,
                                  -1);
}

static GtkWidget *
make_view (HwRoomPage *page,
           Journal    *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkWidget          *scrolled = gtk_scrolled_window_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_row_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_row_cb), page);
  self->list = hw_journal_list_new ();
  self->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->list)));
  self->view = gtk_list_view_new (GTK_SELECTION_MODEL (self->selection), factory);
  hw_control_name (self->view, _("Journal entries, the last one first"));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->view);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scrolled), 130);
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_widget_add_css_class (scrolled, "sheet");
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (selected_cb), page,
                           G_CONNECT_SWAPPED);
  return hw_tab_stop_new (scrolled);
}

static GtkWidget *
make_date (HwRoomPage *page,
           const char *placeholder,
           const char *name)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), placeholder);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 12);
  hw_control_name (entry, name);
  g_signal_connect_object (entry, "changed", G_CALLBACK (filter_changed_cb), page, G_CONNECT_SWAPPED);
  return entry;
}

static GtkWidget *
make_choice (HwRoomPage *page,
             const char *name)
{
  GtkWidget *choice = hw_choice_new ();

  hw_control_name (choice, name);
  g_signal_connect_object (choice, "notify::selected", G_CALLBACK (filter_changed_cb), page, G_CONNECT_SWAPPED);
  return choice;
}

static GtkWidget *
make_filters (HwRoomPage *page,
              Journal    *self)
{
  GtkWidget *wrap = hw_wrap_new (8, 6);
  GtkWidget *export = gtk_button_new_with_label (_("Export as CSV…"));

  self->search = gtk_search_entry_new ();
  hw_control_name (self->search, _("Search the journal"));
  gtk_widget_set_hexpand (self->search, TRUE);
  g_signal_connect_object (self->search, "search-changed", G_CALLBACK (filter_changed_cb), page, G_CONNECT_SWAPPED);
  self->kinds = make_choice (page, _("Kind of entry"));
  hw_choice_add (GTK_DROP_DOWN (self->kinds), NULL, _("Everything"));
  for (int kind = 0; kind < HW_N_ENTRY_KINDS; kind++)
    hw_choice_add (GTK_DROP_DOWN (self->kinds), hw_entry_kind_ids[kind], hw_words_entry_kind (kind));
  self->machines = make_choice (page, _("On which machine"));
  self->projects = make_choice (page, _("For which project"));
  self->from = make_date (page, _("from year-month-day"), _("From this day on, as year-month-day"));
  self->to = make_date (page, _("to year-month-day"), _("Up to this day, as year-month-day"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (export), "journal.export");
  hw_wrap_append (HW_WRAP (wrap), self->search);
  hw_wrap_append (HW_WRAP (wrap), self->kinds);
  hw_wrap_append (HW_WRAP (wrap), self->machines);
  hw_wrap_append (HW_WRAP (wrap), self->projects);
  hw_wrap_append (HW_WRAP (wrap), self->from);
  hw_wrap_append (HW_WRAP (wrap), self->to);
  hw_wrap_append (HW_WRAP (wrap), export);
  return wrap;
}

static GtkWidget *
make_left (HwRoomPage *page)
{
  GtkWidget *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  Journal   *self = g_new0 (Journal, 1);

  self->filling = TRUE;
  gtk_box_append (GTK_BOX (left), make_filters (page, self));
  self->count = hw_label_new (NULL, "mute");
  gtk_box_append (GTK_BOX (left), self->count);
  gtk_box_append (GTK_BOX (left), make_view (page, self));
  g_object_set_data_full (G_OBJECT (page), "hw-journal", self, free_journal);
  return left;
}

GtkWidget *
hw_journal_page_new (HwWorkspace *workspace)
{
  static const GActionEntry actions[] = {
    { .name = "correct", .activate = correct_action, .parameter_type = "s" },
    { .name = "cancel", .activate = cancel_action, .parameter_type = "s" },
    { .name = "export", .activate = export_action },
    { .name = "export-to", .activate = export_to_action, .parameter_type = "s" },
  };
  static const HwRoomPageKind kind = {
    N_("Journal"), "journal", actions, G_N_ELEMENTS (actions), NULL, make_left, fill, make_aside
  };

  return hw_room_page_new (workspace, &kind);
}
