/* trait-boxes.c - what a cloth is besides its measures, as boxes to tick: pile, shedding, slippery …
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/trait-boxes.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/wrap.h"

struct _HwTraitBoxes
{
  const HwHandbook *handbook;
  GPtrArray        *checks;             /* check buttons, one a trait */
  GtkWidget        *why;                /* some cannot be unticked; borrowed */
};

HwTraitBoxes *
hw_trait_boxes_new (HwForm           *form,
                    const HwHandbook *handbook,
                    char            **ticked)
{
  HwTraitBoxes *self = g_new0 (HwTraitBoxes, 1);
  GtkWidget    *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget    *heading = hw_label_new (_("Traits"), "small");
  GtkWidget    *wrap = hw_wrap_new (12, 2);

  self->handbook = handbook;
  self->checks = g_ptr_array_new ();
  for (gsize i = 0; i < handbook->n_traits; i++)
    {
      const HwEntry *entry = &handbook->traits[i].entry;
      GtkWidget     *check = gtk_check_button_new_with_label (entry->name);

      if (ticked != NULL && g_strv_contains ((const char * const *) ticked, entry->id))
        gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
      if (entry->note != NULL)
        gtk_widget_set_tooltip_text (check, entry->note);
      hw_wrap_append (HW_WRAP (wrap), check);
      g_ptr_array_add (self->checks, check);
    }
  gtk_widget_add_css_class (heading, "mute");
  gtk_box_append (GTK_BOX (box), heading);
  gtk_box_append (GTK_BOX (box), wrap);
  self->why = hw_label_new (_("Pale ticks belong to the cloth chosen above; to be without one, choose another cloth."),
                            "small");
  gtk_widget_add_css_class (self->why, "mute");
  gtk_widget_set_visible (self->why, FALSE);
  gtk_box_append (GTK_BOX (box), self->why);
  hw_form_add_wide (form, box);
  return self;
}

void
hw_trait_boxes_free (HwTraitBoxes *self)
{
  g_ptr_array_unref (self->checks);
  g_free (self);
}

void
hw_trait_boxes_give (HwTraitBoxes   *self,
                     const HwFabric *cloth)
{
  gtk_widget_set_visible (self->why, cloth != NULL && cloth->traits != 0);
  for (guint i = 0; i < self->checks->len; i++)
    {
      GtkWidget *check = self->checks->pdata[i];
      gboolean   given = cloth != NULL && (cloth->traits & HW_SET (i)) != 0;

      gtk_widget_set_sensitive (check, !given);
      if (given)
        gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
      else if (g_object_get_data (G_OBJECT (check), "hw-given") != NULL)
        gtk_check_button_set_active (GTK_CHECK_BUTTON (check), FALSE);
      g_object_set_data (G_OBJECT (check), "hw-given", given ? check : NULL);
    }
}

char **
hw_trait_boxes_read (const HwTraitBoxes *self)
{
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  for (guint i = 0; i < self->checks->len; i++)
    if (gtk_check_button_get_active (self->checks->pdata[i]) && gtk_widget_get_sensitive (self->checks->pdata[i]))
      g_strv_builder_add (ids, self->handbook->traits[i].entry.id);
  return g_strv_builder_end (ids);
}
