/* garment-page.c - a new project from a garment: which one, and its form
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>
#include <string.h>

#include "window/controls.h"
#include "window/garment-form.h"
#include "window/motif.h"
#include "window/split.h"
#include "window/tab-stop.h"

#define INDEX_EM 22.0
#define LEAST_FORM_EM 16.0     /* its buttons and some of its fields */

typedef struct
{
  HwWorkspace *workspace;
  GtkWidget   *heading, *list, *holder;
  char        *here;                     /* the empty project that is asked for one; NULL: a new one */
  const HwGarment *shown;                /* whose form stands there */
} GarmentPage;

static void
free_page (gpointer data)
{
  GarmentPage *self = data;

  g_signal_handlers_disconnect_by_data (self->list, self);
  g_object_unref (self->list);
  g_object_unref (self->workspace);
  g_free (self->here);
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
  gtk_widget_activate_action (self->holder, "win.focus-page", NULL);
  show_form (self);
}

/* The project may have been filled, or left, since it asked. */
static gboolean
is_for_open_project (GarmentPage *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);

  return project != NULL && g_strcmp0 (self->here, hw_workspace_peek_path (self->workspace)) == 0
         && project->fabrics->len == 0 && project->steps->len == 0;
}

static void
show_heading (GarmentPage *self)
{
  const HwProject *project = is_for_open_project (self) ? hw_workspace_peek_project (self->workspace) : NULL;
  /* Translators: a project's title */
  g_autofree char *text = project != NULL ? g_strdup_printf (_("A garment for “%s”"), project->title)
                                          : g_strdup (_("New project from a garment"));

  gtk_label_set_text (GTK_LABEL (self->heading), text);
}

static void
show_form (GarmentPage *self)
{
  const HwGarment *garment = peek_garment (self);
  gboolean         here = is_for_open_project (self);
  GtkWidget       *form = garment != NULL ? hw_garment_form_new (self->workspace, garment, here) : NULL;

  self->shown = garment;
  show_heading (self);
  if (form != NULL)
    g_signal_connect_swapped (form, "closed", G_CALLBACK (closed_cb), self);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->holder), form);
}

/* Coming back to the list chooses its row again: what was typed into the form stays. */
static void
chosen_cb (GarmentPage *self)
{
  if (peek_garment (self) != self->shown)
    show_form (self);
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
  return hw_tab_stop_new (scrolled);
}

/* ---- keys ---- */

/* NULL: no garment is chosen. The scrolled window has put a viewport around it. */
static GtkWidget *
peek_form (GarmentPage *self)
{
  GtkWidget *child = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (self->holder));

  return GTK_IS_VIEWPORT (child) ? gtk_viewport_get_child (GTK_VIEWPORT (child)) : child;
}

static void
to_form_cb (GarmentPage *self)
{
  GtkWidget *form = peek_form (self);

  if (form != NULL)
    gtk_widget_child_focus (form, GTK_DIR_TAB_FORWARD);
}

/* The list is one stop on the way by Tab, however many garments it has; and what the form begins by its keys, they
 * begin from here too. */
static gboolean
leave_list_cb (GtkEventControllerKey *keys,
               guint                  key,
               guint                  code,
               GdkModifierType        modifiers,
               GarmentPage           *self)
{
  GtkWidget *form = peek_form (self);

  if (key == GDK_KEY_Return && (modifiers & GDK_CONTROL_MASK) != 0 && form != NULL)
    return gtk_widget_activate_action (form, "form.save", NULL);
  if (key != GDK_KEY_Tab || (modifiers & GDK_SHIFT_MASK) != 0)
    return FALSE;
  to_form_cb (self);
  return TRUE;
}

static void
add_keys (GarmentPage *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (leave_list_cb), self);
  gtk_widget_add_controller (self->list, keys);
  g_signal_connect_swapped (self->list, "row-activated", G_CALLBACK (to_form_cb), self);
}

GtkWidget *
hw_garment_page_new (HwWorkspace *workspace)
{
  GtkWidget   *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget   *columns = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget   *split = hw_split_new ();
  GarmentPage *self = g_new0 (GarmentPage, 1);

  self->workspace = g_object_ref (workspace);
  gtk_widget_add_css_class (columns, "page");
  self->heading = hw_label_new (NULL, "figure");
  gtk_box_append (GTK_BOX (columns), self->heading);
  hw_split_set_index (HW_SPLIT (split), INDEX_EM);
  hw_split_set_fits (HW_SPLIT (split), TRUE);
  hw_split_set_least_panel (HW_SPLIT (split), LEAST_FORM_EM);
  hw_split_append (HW_SPLIT (split), make_list (self));
  self->holder = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->holder), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (self->holder), TRUE);
  gtk_widget_add_css_class (self->holder, "sheet");
  hw_split_append (HW_SPLIT (split), self->holder);
  gtk_widget_set_vexpand (split, TRUE);
  gtk_box_append (GTK_BOX (columns), split);
  gtk_box_append (GTK_BOX (page), hw_page_scroller_new (columns));
  g_signal_connect_swapped (self->list, "selected-rows-changed", G_CALLBACK (chosen_cb), self);
  add_keys (self);
  g_object_set_data_full (G_OBJECT (page), "hw-page", self, free_page);
  show_form (self);
  return page;
}

/* A project that is called after a garment most likely is one: “Shirt for Ada”. The longest name counts, so that a
 * T-shirt is no shirt. */
static int
find_named (const HwHandbook *handbook,
            const char       *title)
{
  g_autofree char *folded = g_utf8_casefold (title, -1);
  gsize            longest = 0;
  int              found = -1;

  for (gsize i = 0; i < handbook->n_garments; i++)
    {
      g_autofree char *name = g_utf8_casefold (handbook->garments[i].entry.name, -1);

      if (strlen (name) > longest && strstr (folded, name) != NULL)
        {
          longest = strlen (name);
          found = (int) i;
        }
    }
  return found;
}

void
hw_garment_page_ask (GtkWidget *page,
                     gboolean   here)
{
  GarmentPage *self = g_object_get_data (G_OBJECT (page), "hw-page");
  GtkListBox  *list = GTK_LIST_BOX (self->list);
  int          named = -1;

  g_free (self->here);
  self->here = here ? g_strdup (hw_workspace_peek_path (self->workspace)) : NULL;
  if (is_for_open_project (self))
    named = find_named (hw_workspace_get_handbook (self->workspace),
                        hw_workspace_peek_project (self->workspace)->title);
  if (named >= 0)
    {
      gtk_list_box_select_row (list, gtk_list_box_get_row_at_index (list, named));
      hw_bring_into_sight (GTK_WIDGET (gtk_list_box_get_row_at_index (list, named)));
    }
  show_form (self);
}
