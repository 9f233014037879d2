/* garment-page.c - a new project from a garment: which one, and its form
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/garment-form.h"
#include "window/motif.h"
#include "window/split.h"

#define INDEX_EM 22.0

typedef struct
{
  HwWorkspace *workspace;
  GtkWidget   *list, *holder;
} GarmentPage;

static void
free_page (gpointer data)
{
  GarmentPage *self = data;

  g_signal_handlers_disconnect_by_data (self->list, self);
  g_object_unref (self->list);
  g_object_unref (self->workspace);
  g_free (self);
}

static const HwGarment *
peek_garment (GarmentPage *self)
{
  GtkListBoxRow    *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (self->list));
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  return row != NULL ? &handbook->garments[gtk_list_box_row_get_index (row)] : NULL;
}

static void show_form (GarmentPage *self);

/* Saved or not, the form is done with; the making up shows what is open now. */
static void
closed_cb (GarmentPage *self)
{
  gtk_widget_activate_action (self->holder, "win.page", "s", "making-up");
  show_form (self);
}

static void
show_form (GarmentPage *self)
{
  const HwGarment *garment = peek_garment (self);
  GtkWidget       *form = garment != NULL ? hw_garment_form_new (self->workspace, garment) : NULL;

  if (form != NULL)
    {
      gtk_widget_set_margin_start (form, 18);
      gtk_widget_set_margin_end (form, 18);
      gtk_widget_set_margin_top (form, 14);
      gtk_widget_set_margin_bottom (form, 14);
      g_signal_connect_swapped (form, "closed", G_CALLBACK (closed_cb), self);
    }
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->holder), form);
}

/* A garment is known by its first cloth: jeans by their twill, a T-shirt by its knit. */
static GtkWidget *
make_row (const HwHandbook *handbook,
          const HwGarment  *garment)
{
  GtkWidget            *row = gtk_list_box_row_new ();
  GtkWidget            *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget            *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  GtkWidget            *swatch = hw_motif_new (2.8, 2.8);
  const HwFabric       *fabric = &handbook->fabrics[garment->roles[0].fabric];
  const HwConstruction *construction = &handbook->constructions[fabric->construction];
  GtkWidget            *cloth = hw_label_new (fabric->entry.name, "small");

  hw_motif_show_cloth (HW_MOTIF (swatch), construction->family, construction->entry.id);
  hw_motif_set_name (HW_MOTIF (swatch), construction->entry.name);
  gtk_widget_add_css_class (cloth, "mute");
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (words), hw_label_new (garment->entry.name, "name"));
  gtk_box_append (GTK_BOX (words), cloth);
  gtk_box_append (GTK_BOX (box), swatch);
  gtk_box_append (GTK_BOX (box), words);
  gtk_widget_set_margin_start (box, 12);
  gtk_widget_set_margin_end (box, 12);
  gtk_widget_set_margin_top (box, 6);
  gtk_widget_set_margin_bottom (box, 6);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, garment->entry.name, -1);
  return row;
}

static GtkWidget *
make_list (GarmentPage *self)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  GtkWidget        *scrolled = gtk_scrolled_window_new ();

  self->list = g_object_ref_sink (gtk_list_box_new ());
  hw_control_name (self->list, _("Garments"));
  gtk_widget_add_css_class (self->list, "index");
  for (gsize i = 0; i < handbook->n_garments; i++)
    gtk_list_box_append (GTK_LIST_BOX (self->list), make_row (handbook, &handbook->garments[i]));
  gtk_list_box_select_row (GTK_LIST_BOX (self->list), gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), 0));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->list);
  gtk_widget_add_css_class (scrolled, "sheet");
  return scrolled;
}

GtkWidget *
hw_garment_page_new (HwWorkspace *workspace)
{
  GtkWidget   *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget   *split = hw_split_new ();
  GarmentPage *self = g_new0 (GarmentPage, 1);

  self->workspace = g_object_ref (workspace);
  gtk_widget_add_css_class (page, "page");
  gtk_box_append (GTK_BOX (page), hw_label_new (_("New project from a garment"), "figure"));
  hw_split_set_index (HW_SPLIT (split), INDEX_EM);
  hw_split_append (HW_SPLIT (split), make_list (self));
  self->holder = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->holder), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_add_css_class (self->holder, "sheet");
  hw_split_append (HW_SPLIT (split), self->holder);
  gtk_widget_set_vexpand (split, TRUE);
  gtk_box_append (GTK_BOX (page), split);
  g_signal_connect_swapped (self->list, "selected-rows-changed", G_CALLBACK (show_form), self);
  g_signal_connect_object (page, "map", G_CALLBACK (gtk_widget_grab_focus), self->list, G_CONNECT_SWAPPED);
  g_object_set_data_full (G_OBJECT (page), "hw-page", self, free_page);
  show_form (self);
  return page;
}
