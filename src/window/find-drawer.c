/* find-drawer.c - find anything: a drawer that is pulled over the sidebar
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The words stay in the entry and the rows take the focus one by one, so that a screen reader tells each as it comes:
 * an arrow goes from the entry into the rows and back, a letter typed there goes on in the entry.
 */

#include "config.h"

#include "window/find-drawer.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/find-index.h"
#include "window/stitch-mark.h"

#define MOST_OF_A_KIND 9
#define PROJECTS_OFFERED 6

struct _HwFindDrawer
{
  GtkBox          parent_instance;
  HwWorkspace    *workspace;
  HwFind         *find;                 /* while it is open */
  GtkWidget      *entry;
  GtkLabel       *status;
  GtkListBox     *rows;
  GtkWidget      *scroller;
  GtkWidget      *page;                 /* borrowed: the window's */
  GtkWidget      *before;               /* what had the focus; weak */
  guint           leave_id;
};

G_DEFINE_FINAL_TYPE (HwFindDrawer, hw_find_drawer, GTK_TYPE_BOX)

/* ---- rows ---- */

static GtkWidget *
make_words (const HwFindThing *thing)
{
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);

  gtk_widget_set_margin_top (words, 6);
  gtk_widget_set_margin_bottom (words, 6);
  gtk_widget_set_margin_end (words, 10);
  gtk_box_append (GTK_BOX (words), hw_label_new (thing->name, "name"));
  if (thing->detail[0] != '\0')
    {
      GtkWidget *detail = hw_label_new (thing->detail, "small");

      gtk_widget_add_css_class (detail, "mute");
      gtk_box_append (GTK_BOX (words), detail);
    }
  return words;
}

static GtkWidget *
make_row (const HwFindThing *thing)
{
  GtkWidget       *row = gtk_list_box_row_new ();
  GtkWidget       *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget       *mark = hw_stitch_mark_new (GTK_ORIENTATION_VERTICAL);
  g_autofree char *name = thing->detail[0] != '\0' ? g_strdup_printf (_("%s, %s"), thing->name, thing->detail)
                                                   : g_strdup (thing->name);
  /* Translators: what was found; the kind of thing it is, such as “Fabrics” */
  g_autofree char *whole = g_strdup_printf (_("%s (%s)"), name, hw_find_group_name (thing->group));

  gtk_widget_set_margin_start (mark, 2);
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), make_words (thing));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, whole, -1);
  g_object_set_data (G_OBJECT (row), "hw-thing", (gpointer) thing);     /* as long as the index, which outlives rows */
  return row;
}

static const HwFindThing *
get_thing (GtkListBoxRow *row)
{
  return g_object_get_data (G_OBJECT (row), "hw-thing");
}

/* A heading where another kind of thing begins. */
static void
head_row (GtkListBoxRow *row,
          GtkListBoxRow *before,
          gpointer       data)
{
  guint      group = get_thing (row)->group;
  GtkWidget *heading;

  if (before != NULL && get_thing (before)->group == group)
    {
      gtk_list_box_row_set_header (row, NULL);
      return;
    }
  heading = hw_label_new (hw_find_group_name (group), "heading");
  gtk_widget_set_margin_start (heading, 20);
  gtk_widget_set_margin_top (heading, before != NULL ? 14 : 4);
  gtk_widget_set_margin_bottom (heading, 4);
  gtk_list_box_row_set_header (row, heading);
}

static void
clear_rows (HwFindDrawer *self)
{
  GtkWidget *row;

  while ((row = GTK_WIDGET (gtk_list_box_get_row_at_index (self->rows, 0))) != NULL)
    gtk_list_box_remove (self->rows, row);
}

/* Kinds stand together, the kind of the best thing first; within a kind the best first. */
static void
show_found (HwFindDrawer    *self,
            const GPtrArray *found)
{
  gboolean shown[HW_FIND_N_GROUPS] = { FALSE };

  for (guint i = 0; i < found->len; i++)
    {
      guint group = ((const HwFindThing *) found->pdata[i])->group;

      if (shown[group])
        continue;
      shown[group] = TRUE;
      for (guint j = i; j < found->len; j++)
        if (((const HwFindThing *) found->pdata[j])->group == group)
          gtk_list_box_append (self->rows, make_row (found->pdata[j]));
    }
  gtk_list_box_select_row (self->rows, gtk_list_box_get_row_at_index (self->rows, 0));
}

static void
tell_found (HwFindDrawer *self,
            const char   *text,
            guint         n,
            guint         n_all)
{
  g_autofree char *told = NULL;

  if (text[0] == '\0')
    told = g_strdup (_("Projects, steps, fabrics, the handbook, and what you can do. Type a few letters."));
  else if (n == 0)
    /* Translators: what was typed */
    told = g_strdup_printf (_("Nothing is called “%s” here. Try fewer letters, or another word for it."), text);
  else if (n < n_all)
    /* Translators: how many things are shown; how many were found */
    told = g_strdup_printf (_("The nearest %u of %u found"), n, n_all);
  else
    told = g_strdup_printf (ngettext ("%u found", "%u found", n), n);
  gtk_label_set_text (self->status, told);
}

/* Before anything is typed. (transfer container) */
static GPtrArray *
offer (HwFindDrawer *self)
{
  GPtrArray *offered = hw_find_offer (self->find, HW_FIND_PROJECTS, PROJECTS_OFFERED);

  g_ptr_array_extend_and_steal (offered, hw_find_offer (self->find, HW_FIND_ACTIONS, G_MAXUINT));
  return offered;
}

static void
search_cb (HwFindDrawer *self)
{
  g_autofree char      *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  g_autoptr (GPtrArray) found = NULL;
  guint                 n_all = 0;

  if (self->find == NULL)
    return;
  found = text[0] != '\0' ? hw_find_ask (self->find, text, MOST_OF_A_KIND, &n_all) : offer (self);
  clear_rows (self);
  show_found (self, found);
  tell_found (self, text, found->len, n_all);
  gtk_widget_set_visible (self->scroller, found->len > 0);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller)), 0);
}

/* ---- taking and leaving ---- */

static void
close_drawer (HwFindDrawer *self,
              gboolean      go_back)
{
  GtkWidget *before = self->before;

  if (!gtk_widget_get_visible (GTK_WIDGET (self)))
    return;
  g_clear_weak_pointer (&self->before);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  clear_rows (self);
  g_clear_pointer (&self->find, hw_find_free);
  if (go_back && before != NULL && gtk_widget_get_mapped (before))
    gtk_widget_grab_focus (before);
}

static void
take_cb (HwFindDrawer  *self,
         GtkListBoxRow *row)
{
  g_autofree char     *name = NULL;
  g_autoptr (GVariant) value = NULL;
  g_autoptr (GError)   error = NULL;
  GtkWidget           *window = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self)));
  GtkWidget           *before;

  if (!g_action_parse_detailed_name (get_thing (row)->target, &name, &value, &error))
    {
      hw_workspace_tell (self->workspace, error->message, TRUE);
      return;
    }
  before = self->before;
  close_drawer (self, TRUE);
  gtk_widget_activate_action_variant (window, name, value);
  if (gtk_root_get_focus (GTK_ROOT (window)) == before
      && (before == NULL || !gtk_widget_is_ancestor (before, self->page)))
    gtk_widget_child_focus (self->page, GTK_DIR_TAB_FORWARD);
}

static void
take_first_cb (HwFindDrawer *self)
{
  GtkListBoxRow *row;

  search_cb (self);                     /* typed faster than the entry waits */
  row = gtk_list_box_get_row_at_index (self->rows, 0);
  if (row != NULL)
    take_cb (self, row);
}

/* The first is chosen while one types, and Return takes it; so the arrow goes on to the second. */
static gboolean
to_rows_cb (GtkEventControllerKey *keys,
            guint                  key,
            guint                  code,
            GdkModifierType        modifiers,
            HwFindDrawer          *self)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->rows, 0);

  GtkListBoxRow *second = gtk_list_box_get_row_at_index (self->rows, 1);

  if (key != GDK_KEY_Down || row == NULL)
    return FALSE;
  if (second != NULL && gtk_list_box_row_is_selected (row))
    row = second;
  gtk_list_box_select_row (self->rows, row);
  return gtk_widget_grab_focus (GTK_WIDGET (row));
}

/* What is typed, not what moves, activates or is a shortcut. */
static gboolean
is_typing (guint           key,
           GdkModifierType modifiers)
{
  return (modifiers & (GDK_CONTROL_MASK | GDK_ALT_MASK)) == 0
         && (key == GDK_KEY_BackSpace || g_unichar_isprint (gdk_keyval_to_unicode (key)));
}

/* On from the rows, not through each of them. */
static gboolean
leave_for_page (HwFindDrawer *self)
{
  close_drawer (self, FALSE);
  gtk_widget_child_focus (self->page, GTK_DIR_TAB_FORWARD);
  return TRUE;
}

static gboolean
to_entry_cb (GtkEventControllerKey *keys,
             guint                  key,
             guint                  code,
             GdkModifierType        modifiers,
             HwFindDrawer          *self)
{
  GtkWidget *first = GTK_WIDGET (gtk_list_box_get_row_at_index (self->rows, 0));
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (self->entry)));

  if (key == GDK_KEY_Up && first != NULL && gtk_widget_has_focus (first))
    return gtk_widget_grab_focus (self->entry);
  if (key == GDK_KEY_Tab && (modifiers & GDK_SHIFT_MASK) == 0)
    return leave_for_page (self);
  if (!is_typing (key, modifiers))
    return FALSE;
  gtk_text_grab_focus_without_selecting (GTK_TEXT (text));
  return gtk_event_controller_key_forward (keys, text);
}

static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *arguments,
           gpointer   data)
{
  close_drawer (HW_FIND_DRAWER (widget), TRUE);
  return TRUE;
}

static gboolean
left_cb (gpointer data)
{
  HwFindDrawer *self = data;
  GtkWidget    *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));

  self->leave_id = 0;
  /* Another window may have the focus for a while; that is no leaving. */
  if (focus != NULL && focus != GTK_WIDGET (self) && !gtk_widget_is_ancestor (focus, GTK_WIDGET (self)))
    close_drawer (self, FALSE);
  return G_SOURCE_REMOVE;
}

static void
leave_cb (HwFindDrawer *self)
{
  if (self->leave_id == 0)
    self->leave_id = g_idle_add (left_cb, self);
}

/* ---- the drawer ---- */

static void
add_key_controller (GtkWidget    *widget,
                    GCallback     pressed,
                    HwFindDrawer *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", pressed, self);
  gtk_widget_add_controller (widget, keys);
}

static GtkWidget *
build_head (HwFindDrawer *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *close = gtk_button_new_with_label (_("Close"));

  self->entry = gtk_search_entry_new ();
  gtk_widget_set_hexpand (self->entry, TRUE);
  g_object_set (self->entry, "placeholder-text", _("Find anything"), NULL);
  gtk_search_entry_set_search_delay (GTK_SEARCH_ENTRY (self->entry), 60);
  hw_control_name (self->entry, _("Find anything"));
  g_signal_connect_swapped (self->entry, "search-changed", G_CALLBACK (search_cb), self);
  g_signal_connect_swapped (self->entry, "activate", G_CALLBACK (take_first_cb), self);
  g_signal_connect_swapped (self->entry, "stop-search", G_CALLBACK (hw_find_drawer_close), self);
  add_key_controller (self->entry, G_CALLBACK (to_rows_cb), self);
  gtk_widget_add_css_class (close, "link");
  hw_control_name (close, _("Close the finder"));
  g_signal_connect_swapped (close, "clicked", G_CALLBACK (hw_find_drawer_close), self);
  gtk_widget_add_css_class (head, "find-head");
  gtk_box_append (GTK_BOX (head), self->entry);
  gtk_box_append (GTK_BOX (head), close);
  return head;
}

static GtkWidget *
build_rows (HwFindDrawer *self)
{
  self->scroller = gtk_scrolled_window_new ();
  self->rows = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->rows, GTK_SELECTION_BROWSE);
  gtk_list_box_set_header_func (self->rows, head_row, NULL, NULL);
  gtk_widget_add_css_class (GTK_WIDGET (self->rows), "rows");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->rows), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Found"), -1);
  g_signal_connect_swapped (self->rows, "row-activated", G_CALLBACK (take_cb), self);
  add_key_controller (GTK_WIDGET (self->rows), G_CALLBACK (to_entry_cb), self);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), GTK_WIDGET (self->rows));
  gtk_widget_set_vexpand (self->scroller, TRUE);
  return self->scroller;
}

static void
hw_find_drawer_dispose (GObject *object)
{
  HwFindDrawer *self = HW_FIND_DRAWER (object);

  g_clear_handle_id (&self->leave_id, g_source_remove);
  g_clear_weak_pointer (&self->before);
  if (self->rows != NULL)
    {
      clear_rows (self);
      self->rows = NULL;
    }
  g_clear_pointer (&self->find, hw_find_free);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_find_drawer_parent_class)->dispose (object);
}

static void
hw_find_drawer_class_init (HwFindDrawerClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_find_drawer_dispose;
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SEARCH);
}

static void
hw_find_drawer_init (HwFindDrawer *self)
{
  GtkWidget          *status = hw_label_new ("", "small");
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (self), "find");
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_START);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Find anything"), -1);
  gtk_box_append (GTK_BOX (self), build_head (self));
  self->status = GTK_LABEL (status);
  gtk_widget_add_css_class (status, "mute");
  gtk_widget_add_css_class (status, "find-status");
  gtk_box_append (GTK_BOX (self), status);
  gtk_box_append (GTK_BOX (self), build_rows (self));
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}

GtkWidget *
hw_find_drawer_new (HwWorkspace *workspace,
                    GtkWidget   *page)
{
  HwFindDrawer *self = g_object_new (HW_TYPE_FIND_DRAWER, NULL);

  self->workspace = g_object_ref (workspace);
  self->page = page;
  return GTK_WIDGET (self);
}

void
hw_find_drawer_open (HwFindDrawer *self)
{
  g_return_if_fail (HW_IS_FIND_DRAWER (self));

  if (!gtk_widget_get_visible (GTK_WIDGET (self)))
    {
      self->find = hw_find_index_new (self->workspace);
      g_set_weak_pointer (&self->before, gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self))));
      gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
      gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
      gtk_widget_grab_focus (self->entry);
      search_cb (self);
    }
  gtk_widget_grab_focus (self->entry);
}

void
hw_find_drawer_close (HwFindDrawer *self)
{
  g_return_if_fail (HW_IS_FIND_DRAWER (self));

  close_drawer (self, TRUE);
}
