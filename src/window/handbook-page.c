/* handbook-page.c - browses the handbook: search, kinds, the entry that is shown
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Actions "handbook.show" (a topic's path) and "handbook.back". The list is filled when the page is first shown: it
 * is long, and most days nobody asks for it.
 */

#include "config.h"

#include "window/handbook-page.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/handbook-topic.h"
#include "window/split.h"
#include "window/tab-stop.h"

#define INDEX_EM 24.0

struct _HwHandbookPage
{
  GtkBox              parent_instance;
  HwWorkspace        *workspace;
  GPtrArray          *topics;           /* HwTopic; NULL until the page is shown */
  GHashTable         *mentions;
  GPtrArray          *texts;            /* what is searched, in the order of topics */
  GtkStringList      *names;            /* in the order of topics */
  GtkFilter          *filter;
  GtkSingleSelection *selection;
  GtkWidget          *columns, *search, *kinds, *view, *details;
  GPtrArray          *trail;            /* paths shown before, the last one last */
  char               *shown;            /* path */
};

G_DEFINE_FINAL_TYPE (HwHandbookPage, hw_handbook_page, GTK_TYPE_BOX)

/* ---- the entry shown ---- */

static void
show_topic (HwHandbookPage *self,
            const HwTopic  *topic)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  GtkWidget        *child = NULL;

  while ((child = gtk_widget_get_first_child (self->details)) != NULL)
    gtk_box_remove (GTK_BOX (self->details), child);
  g_clear_pointer (&self->shown, g_free);
  if (topic == NULL)
    {
      gtk_box_append (GTK_BOX (self->details), hw_label_new (_("Nothing has all these words; take one away."), "mute"));
      return;
    }
  self->shown = hw_topic_path (topic);
  gtk_box_append (GTK_BOX (self->details), hw_handbook_topic_new (handbook, topic, self->mentions,
                                                                  self->trail->len > 0));
}

static int
topic_index (GObject *name)
{
  return GPOINTER_TO_INT (g_object_get_data (name, "hw-index"));
}

static void
selected_cb (HwHandbookPage *self)
{
  GObject *selected = gtk_single_selection_get_selected_item (self->selection);

  show_topic (self, selected != NULL ? self->topics->pdata[topic_index (selected)] : NULL);
}

/* ---- what is listed ---- */

static gboolean
is_listed (gpointer item,
           gpointer data)
{
  HwHandbookPage *self = data;
  int             index = topic_index (item);
  const HwTopic  *topic = self->topics->pdata[index];
  const char     *kind = hw_choice_peek (GTK_DROP_DOWN (self->kinds));

  if (kind != NULL && !g_str_equal (kind, topic->table))
    return FALSE;
  return hw_topic_text_matches (self->texts->pdata[index], gtk_editable_get_text (GTK_EDITABLE (self->search)));
}

static void
search_changed_cb (HwHandbookPage *self)
{
  gtk_filter_changed (self->filter, GTK_FILTER_CHANGE_DIFFERENT);
}

/* A kind is listed once, where its first topic stands. */
static void
fill_kinds (HwHandbookPage *self)
{
  const char *last = NULL;

  for (guint i = 0; i < self->topics->len; i++)
    {
      const HwTopic *topic = self->topics->pdata[i];

      if (g_strcmp0 (topic->table, last) != 0)
        hw_choice_add (GTK_DROP_DOWN (self->kinds), topic->table, topic->kinds);
      last = topic->table;
    }
}

static void
add_name (HwHandbookPage *self,
          guint           index)
{
  const HwTopic      *topic = self->topics->pdata[index];
  g_autoptr (GObject) item = NULL;
  /* Translators: an entry of the handbook, its kind */
  g_autofree char    *name = g_strdup_printf (_("%s – %s"), topic->name, topic->kind);

  g_ptr_array_add (self->texts, hw_topic_text (hw_workspace_get_handbook (self->workspace), topic));
  gtk_string_list_append (self->names, name);
  item = g_list_model_get_item (G_LIST_MODEL (self->names), index);
  g_object_set_data (item, "hw-index", GINT_TO_POINTER ((int) index));
}

static void
attach_list (HwHandbookPage *self)
{
  GtkFilterListModel *listed;

  self->filter = GTK_FILTER (gtk_custom_filter_new (is_listed, self, NULL));
  listed = gtk_filter_list_model_new (G_LIST_MODEL (g_object_ref (self->names)), g_object_ref (self->filter));
  self->selection = gtk_single_selection_new (G_LIST_MODEL (listed));
  gtk_list_view_set_model (GTK_LIST_VIEW (self->view), GTK_SELECTION_MODEL (self->selection));
  g_signal_connect_object (self->search, "search-changed", G_CALLBACK (search_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->kinds, "notify::selected", G_CALLBACK (search_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (selected_cb), self,
                           G_CONNECT_SWAPPED);
  selected_cb (self);
}

static void
fill (HwHandbookPage *self)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  if (self->topics != NULL)
    return;
  self->topics = hw_topics_list (handbook);
  self->mentions = hw_topics_mentions (handbook, self->topics);
  self->texts = g_ptr_array_new_with_free_func (g_free);
  self->names = gtk_string_list_new (NULL);
  for (guint i = 0; i < self->topics->len; i++)
    add_name (self, i);
  fill_kinds (self);
  attach_list (self);
}

/* ---- from one entry to another ---- */

/* A list that has no size yet would scroll to where it shows nothing. */
static gboolean
scroll_cb (GtkWidget     *view,
           GdkFrameClock *clock,
           gpointer       index)
{
  if (gtk_widget_get_height (view) == 0)
    return G_SOURCE_CONTINUE;
  gtk_widget_activate_action (view, "list.scroll-to-item", "u", GPOINTER_TO_UINT (index));
  return G_SOURCE_REMOVE;
}

static void
select_topic (HwHandbookPage *self,
              const HwTopic  *topic)
{
  GListModel *model = G_LIST_MODEL (self->selection);

  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  hw_choice_select (GTK_DROP_DOWN (self->kinds), NULL);
  gtk_filter_changed (self->filter, GTK_FILTER_CHANGE_LESS_STRICT);      /* the search tells of itself later */
  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    {
      g_autoptr (GObject) item = g_list_model_get_item (model, i);

      if (self->topics->pdata[topic_index (item)] != (gpointer) topic)
        continue;
      gtk_single_selection_set_selected (self->selection, i);
      gtk_widget_add_tick_callback (self->view, scroll_cb, GUINT_TO_POINTER (i), NULL);
      return;
    }
}

void
hw_handbook_page_show (HwHandbookPage *self,
                       const char     *path)
{
  const HwTopic *topic;

  g_return_if_fail (HW_IS_HANDBOOK_PAGE (self) && path != NULL);

  fill (self);
  topic = hw_topics_find (self->topics, path);
  if (topic == NULL || g_strcmp0 (path, self->shown) == 0)
    return;
  if (self->shown != NULL)
    g_ptr_array_add (self->trail, g_strdup (self->shown));
  select_topic (self, topic);
}

static void
show_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  /* The button that asked goes with the entry it stands in; its string must not go before. */
  g_autofree char *path = g_variant_dup_string (parameter, NULL);

  hw_handbook_page_show (HW_HANDBOOK_PAGE (widget), path);
}

static void
back_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwHandbookPage  *self = HW_HANDBOOK_PAGE (widget);
  g_autofree char *path = self->trail->len > 0 ? g_ptr_array_steal_index (self->trail, self->trail->len - 1) : NULL;
  const HwTopic   *topic = path != NULL ? hw_topics_find (self->topics, path) : NULL;

  if (topic != NULL)
    select_topic (self, topic);
}

/* ---- the object ---- */

static void
hw_handbook_page_map (GtkWidget *widget)
{
  fill (HW_HANDBOOK_PAGE (widget));
  GTK_WIDGET_CLASS (hw_handbook_page_parent_class)->map (widget);
}

static void
hw_handbook_page_dispose (GObject *object)
{
  HwHandbookPage *self = HW_HANDBOOK_PAGE (object);

  if (self->view != NULL)
    gtk_list_view_set_model (GTK_LIST_VIEW (self->view), NULL);
  self->view = NULL;
  self->selection = NULL;
  g_clear_object (&self->filter);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_handbook_page_parent_class)->dispose (object);
}

static void
hw_handbook_page_finalize (GObject *object)
{
  HwHandbookPage *self = HW_HANDBOOK_PAGE (object);

  g_clear_pointer (&self->mentions, g_hash_table_unref);
  g_clear_pointer (&self->topics, g_ptr_array_unref);
  g_clear_pointer (&self->texts, g_ptr_array_unref);
  g_clear_object (&self->names);
  g_ptr_array_unref (self->trail);
  g_free (self->shown);
  G_OBJECT_CLASS (hw_handbook_page_parent_class)->finalize (object);
}

static void
hw_handbook_page_class_init (HwHandbookPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_handbook_page_dispose;
  G_OBJECT_CLASS (class)->finalize = hw_handbook_page_finalize;
  widget_class->map = hw_handbook_page_map;
  gtk_widget_class_install_action (widget_class, "handbook.show", "s", show_action);
  gtk_widget_class_install_action (widget_class, "handbook.back", NULL, back_action);
}

static GtkWidget *
make_left (HwHandbookPage *self)
{
  GtkWidget *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  self->search = gtk_search_entry_new ();
  hw_control_name (self->search, _("Search the handbook"));
  self->kinds = hw_choice_new ();
  hw_choice_add (GTK_DROP_DOWN (self->kinds), NULL, _("Everything"));
  hw_control_name (self->kinds, _("Kind of entry"));
  gtk_widget_set_margin_start (head, 10);
  gtk_widget_set_margin_end (head, 10);
  gtk_widget_set_margin_top (head, 10);
  gtk_widget_set_margin_bottom (head, 8);
  gtk_box_append (GTK_BOX (head), self->search);
  gtk_box_append (GTK_BOX (head), self->kinds);
  gtk_box_append (GTK_BOX (left), head);
  self->view = gtk_list_view_new (NULL, hw_string_rows_new ());
  hw_control_name (self->view, _("Entries of the handbook"));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->view);
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_box_append (GTK_BOX (left), hw_tab_stop_new (scrolled));
  gtk_widget_add_css_class (left, "sheet");
  return left;
}

static GtkWidget *
make_right (HwHandbookPage *self)
{
  GtkWidget *right = gtk_scrolled_window_new ();

  self->details = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_widget_set_margin_start (self->details, 18);
  gtk_widget_set_margin_end (self->details, 18);
  gtk_widget_set_margin_top (self->details, 14);
  gtk_widget_set_margin_bottom (self->details, 14);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (right), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (right), self->details);
  gtk_widget_add_css_class (right, "sheet");
  return right;
}

static void
hw_handbook_page_init (HwHandbookPage *self)
{
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget *split = hw_split_new ();

  self->trail = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_add_css_class (columns, "page");
  gtk_box_append (GTK_BOX (columns), hw_label_new (_("Handbook"), "figure"));
  hw_split_set_index (HW_SPLIT (split), INDEX_EM);
  hw_split_set_fits (HW_SPLIT (split), TRUE);
  hw_split_append (HW_SPLIT (split), make_left (self));
  hw_split_append (HW_SPLIT (split), make_right (self));
  gtk_widget_set_vexpand (split, TRUE);
  gtk_box_append (GTK_BOX (columns), split);
  gtk_box_append (GTK_BOX (self), hw_page_scroller_new (columns));
  self->columns = columns;
}

/* It stays as long as it is so: a person who looks for an own entry reads why it is not there. */
static void
add_notice (HwHandbookPage *self)
{
  const GError    *error = hw_workspace_peek_overlay_error (self->workspace);
  g_autofree char *text = NULL;

  if (error == NULL)
    return;
  /* Translators: a file, a line and what is wrong there */
  text = g_strdup_printf (_("Your own entries are left out until this is mended: %s"), error->message);
  gtk_box_insert_child_after (GTK_BOX (self->columns), hw_label_new (text, "rust"),
                              gtk_widget_get_first_child (self->columns));
}

GtkWidget *
hw_handbook_page_new (HwWorkspace *workspace)
{
  HwHandbookPage *self = g_object_new (HW_TYPE_HANDBOOK_PAGE, NULL);

  g_return_val_if_fail (HW_IS_WORKSPACE (workspace), GTK_WIDGET (self));

  self->workspace = g_object_ref (workspace);
  add_notice (self);
  return GTK_WIDGET (self);
}
