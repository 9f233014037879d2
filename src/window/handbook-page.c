/* handbook-page.c - browses the handbook: every entry with its figures and its source
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/handbook-facts.h"
#include "window/motif.h"
#include "window/split.h"
#include "words/words.h"

typedef struct
{
  const HwHandbook   *handbook;         /* the workspace holds it */
  GArray             *items;            /* HwHandbookItem */
  GtkStringList      *names;            /* "Denim – fabric", in the order of items */
  GtkStringFilter    *filter;
  GtkSingleSelection *selection;
  GtkWidget          *search, *details;
} HandbookPage;

static void
free_page (gpointer data)
{
  HandbookPage *self = data;

  g_signal_handlers_disconnect_by_data (self->search, self);
  g_signal_handlers_disconnect_by_data (self->selection, self);
  g_object_unref (self->search);
  g_array_unref (self->items);
  g_object_unref (self->names);
  g_object_unref (self->filter);
  g_object_unref (self->selection);
  g_free (self);
}

/* ---- the entry shown ---- */

static void
add_fact (const char *name,
          const char *value,
          gpointer    data)
{
  HandbookPage *self = data;
  GtkWidget    *line = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget    *heading = hw_label_new (name, "small");

  gtk_widget_add_css_class (heading, "mute");
  gtk_box_append (GTK_BOX (line), heading);
  gtk_box_append (GTK_BOX (line), hw_label_new (value, NULL));
  gtk_box_append (GTK_BOX (self->details), line);
}

static void
add_picture (HandbookPage         *self,
             const HwHandbookItem *item)
{
  GtkWidget  *picture = NULL;
  const void *whole = item->entry;

  if (g_str_equal (item->table, "seam"))
    {
      picture = hw_motif_new (16, 6);
      hw_motif_show_seam (HW_MOTIF (picture), whole);
    }
  else if (g_str_equal (item->table, "stitch"))
    {
      picture = hw_motif_new (16, 3);
      hw_motif_show_row (HW_MOTIF (picture), ((const HwStitch *) whole)->mark);
    }
  else if (g_str_equal (item->table, "fabric"))
    {
      const HwConstruction *construction = &self->handbook->constructions[((const HwFabric *) whole)->construction];

      picture = hw_motif_new (6, 6);
      hw_motif_show_cloth (HW_MOTIF (picture), construction->family, construction->entry.id);
    }
  if (picture == NULL)
    return;
  gtk_widget_set_halign (picture, GTK_ALIGN_START);
  hw_motif_set_name (HW_MOTIF (picture), _(item->entry->name));
  gtk_box_append (GTK_BOX (self->details), picture);
}

static void
show_entry (HandbookPage         *self,
            const HwHandbookItem *item)
{
  g_autofree char *source = hw_words_source (item->entry->source);

  gtk_box_append (GTK_BOX (self->details), hw_label_new (_(item->entry->name), "subtitle"));
  gtk_box_append (GTK_BOX (self->details), hw_label_new (item->kind, "mute"));
  add_picture (self, item);
  hw_handbook_facts (self->handbook, item, add_fact, self);
  if (item->entry->note != NULL)
    gtk_box_append (GTK_BOX (self->details), hw_label_new (_(item->entry->note), NULL));
  add_fact (_("Source"), source, self);
}

static void
selected_cb (HandbookPage *self)
{
  GObject   *selected = gtk_single_selection_get_selected_item (self->selection);
  GtkWidget *child = NULL;

  while ((child = gtk_widget_get_first_child (self->details)) != NULL)
    gtk_box_remove (GTK_BOX (self->details), child);
  if (selected == NULL)
    {
      gtk_box_append (GTK_BOX (self->details), hw_label_new (_("Nothing of that name; try another word."), "mute"));
      return;
    }
  for (guint i = 0; i < self->items->len; i++)
    {
      g_autoptr (GObject) name = g_list_model_get_item (G_LIST_MODEL (self->names), i);

      if (name == selected)
        show_entry (self, &g_array_index (self->items, HwHandbookItem, i));
    }
}

/* ---- the list ---- */

static void
search_changed_cb (HandbookPage *self)
{
  gtk_string_filter_set_search (self->filter, gtk_editable_get_text (GTK_EDITABLE (self->search)));
}

static void
list_names (HandbookPage *self)
{
  self->items = hw_handbook_items (self->handbook);
  self->names = gtk_string_list_new (NULL);
  for (guint i = 0; i < self->items->len; i++)
    {
      const HwHandbookItem *item = &g_array_index (self->items, HwHandbookItem, i);
      /* Translators: an entry of the handbook, its kind */
      g_autofree char      *name = g_strdup_printf (_("%s – %s"), _(item->entry->name), item->kind);

      gtk_string_list_append (self->names, name);
    }
}

static GtkWidget *
make_list (HandbookPage *self)
{
  GtkExpression      *expression = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string");
  GtkFilterListModel *shown;
  GtkListItemFactory *factory = hw_string_rows_new ();
  GtkWidget          *scrolled = gtk_scrolled_window_new ();
  GtkWidget          *view;

  self->filter = gtk_string_filter_new (expression);
  gtk_string_filter_set_match_mode (self->filter, GTK_STRING_FILTER_MATCH_MODE_SUBSTRING);
  shown = gtk_filter_list_model_new (G_LIST_MODEL (g_object_ref (self->names)),
                                     GTK_FILTER (g_object_ref (self->filter)));
  self->selection = gtk_single_selection_new (G_LIST_MODEL (shown));
  view = gtk_list_view_new (GTK_SELECTION_MODEL (g_object_ref (self->selection)), factory);
  hw_control_name (view, _("Entries of the handbook"));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), view);
  gtk_widget_set_vexpand (scrolled, TRUE);
  return scrolled;
}

static GtkWidget *
make_left (HandbookPage *self)
{
  GtkWidget *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->search = g_object_ref_sink (gtk_search_entry_new ());
  hw_control_name (self->search, _("Search the handbook"));
  gtk_widget_set_margin_start (self->search, 10);
  gtk_widget_set_margin_end (self->search, 10);
  gtk_widget_set_margin_top (self->search, 10);
  gtk_widget_set_margin_bottom (self->search, 8);
  gtk_box_append (GTK_BOX (left), self->search);
  gtk_box_append (GTK_BOX (left), make_list (self));
  gtk_widget_add_css_class (left, "sheet");
  return left;
}

static GtkWidget *
make_right (HandbookPage *self)
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

GtkWidget *
hw_handbook_page_new (HwWorkspace *workspace)
{
  GtkWidget    *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget    *split = hw_split_new ();
  HandbookPage *self = g_new0 (HandbookPage, 1);

  self->handbook = hw_workspace_get_handbook (workspace);
  list_names (self);
  gtk_widget_add_css_class (page, "page");
  gtk_box_append (GTK_BOX (page), hw_label_new (_("Handbook"), "figure"));
  hw_split_append (HW_SPLIT (split), make_left (self));
  hw_split_append (HW_SPLIT (split), make_right (self));
  gtk_widget_set_vexpand (split, TRUE);
  gtk_box_append (GTK_BOX (page), split);
  g_signal_connect_swapped (self->search, "search-changed", G_CALLBACK (search_changed_cb), self);
  g_signal_connect_swapped (self->selection, "notify::selected-item", G_CALLBACK (selected_cb), self);
  g_object_set_data_full (G_OBJECT (page), "hw-page", self, free_page);
  selected_cb (self);
  return page;
}
