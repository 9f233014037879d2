/* making-up-empty.c - what stands in place of the steps while there are none: what to do first
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A garment is offered as long as there is nothing that it would take the place of.
 */

#include "config.h"

#include "window/making-up-empty.h"

#include <glib/gi18n.h>

#include "window/controls.h"

typedef struct { GtkWidget *words, *garment, *fabric, *step; } Parts;

static GtkWidget *
add_button (GtkWidget  *box,
            const char *label,
            const char *action)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (GTK_BOX (box), button);
  return button;
}

GtkWidget *
hw_making_up_empty_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  Parts     *parts = g_new0 (Parts, 1);

  gtk_widget_add_css_class (box, "empty");
  gtk_box_append (GTK_BOX (box), hw_label_new (_("Nothing to sew yet"), "title"));
  parts->words = hw_label_new (NULL, "mute");
  gtk_label_set_max_width_chars (GTK_LABEL (parts->words), 56);
  gtk_box_append (GTK_BOX (box), parts->words);
  parts->garment = add_button (box, _("Start from a garment…"), "win.garment-here");
  parts->fabric = add_button (box, _("Add the first fabric…"), "making-up.add-fabric");
  parts->step = add_button (box, _("Add the first step…"), "making-up.add-step");
  g_object_set_data_full (G_OBJECT (box), "hw-parts", parts, g_free);
  return box;
}

static void
suggest (GtkWidget *button,
         gboolean   suggested)
{
  if (suggested)
    gtk_widget_add_css_class (button, "suggested");
  else
    gtk_widget_remove_css_class (button, "suggested");
}

void
hw_making_up_empty_fill (GtkWidget       *empty,
                         const HwProject *project)
{
  Parts   *parts = g_object_get_data (G_OBJECT (empty), "hw-parts");
  gboolean bare = project != NULL && project->fabrics->len == 0;

  gtk_label_set_text (GTK_LABEL (parts->words),
                      bare ? _("A garment brings its fabrics and its steps, with their lengths. Or add your own: "
                               "first what is sewn, then what is done, one step after the other.")
                           : _("The fabrics stand above. Now add what is done with them, one step after the other; "
                               "each step’s set-up then stands beside it."));
  gtk_widget_set_visible (parts->garment, bare);
  gtk_widget_set_visible (parts->fabric, bare);
  suggest (parts->garment, bare);
  suggest (parts->step, !bare);
}
