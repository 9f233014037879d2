/* garment-cloth.c - which fabric a part of a garment is made of: drawn, with its figures, to be changed
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/garment-cloth.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/motif.h"
#include "words/words.h"

typedef struct
{
  const HwHandbook *handbook;
  GtkWidget        *choice, *swatch, *figures;
} Cloth;

/* "240 g/m², 0.45 mm, stretch 2 %" */
static char *
say_figures (const HwFabric *fabric)
{
  g_autofree char *mass = hw_words_number (fabric->mass_g_m2.prefer, 0);
  g_autofree char *thickness = hw_words_number (fabric->thickness_mm.prefer, 2);
  g_autofree char *stretch = hw_words_number (fabric->stretch_percent, 0);

  if (fabric->stretch_percent >= 1)
    /* Translators: mass, thickness, stretch of a fabric; what belongs together has spaces that do not break */
    return g_strdup_printf (_("%s g/m², %s mm, stretch %s %%"), mass, thickness, stretch);
  /* Translators: mass, thickness of a fabric that does not stretch */
  return g_strdup_printf (_("%s g/m², %s mm"), mass, thickness);
}

static void
chosen_cb (Cloth *self)
{
  guint                 index = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice));
  const HwFabric       *fabric = index < self->handbook->n_fabrics ? &self->handbook->fabrics[index] : NULL;
  const HwConstruction *construction = NULL;
  g_autofree char      *figures = NULL;

  if (fabric == NULL)
    return;
  construction = &self->handbook->constructions[fabric->construction];
  figures = say_figures (fabric);
  gtk_label_set_text (GTK_LABEL (self->figures), figures);
  hw_motif_show_cloth (HW_MOTIF (self->swatch), construction->family, construction->entry.id);
  hw_motif_set_name (HW_MOTIF (self->swatch), construction->entry.name);
}

/* All fabrics of the handbook, in its order, to be found by typing. */
static GtkWidget *
make_choice (const HwHandbook *handbook,
             int               selected)
{
  GtkWidget *choice = hw_choice_new ();

  for (gsize i = 0; i < handbook->n_fabrics; i++)
    hw_choice_add (GTK_DROP_DOWN (choice), handbook->fabrics[i].entry.id, handbook->fabrics[i].entry.name);
  hw_choice_search (GTK_DROP_DOWN (choice));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), (guint) selected);
  return choice;
}

GtkWidget *
hw_garment_cloth_new (const HwHandbook *handbook,
                      const HwRole     *role)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *part = hw_label_new (role->name, "small");
  Cloth     *self = g_new0 (Cloth, 1);

  self->handbook = handbook;
  self->swatch = hw_motif_new (4, 4);
  self->figures = hw_label_new (NULL, "small");
  self->choice = make_choice (handbook, role->fabric);
  gtk_widget_set_valign (self->swatch, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (part, "mute");
  gtk_widget_add_css_class (self->figures, "mute");
  hw_control_name (self->choice, role->name);
  gtk_box_append (GTK_BOX (words), part);
  gtk_box_append (GTK_BOX (words), self->choice);
  gtk_box_append (GTK_BOX (words), self->figures);
  gtk_box_append (GTK_BOX (box), self->swatch);
  gtk_box_append (GTK_BOX (box), words);
  g_signal_connect_swapped (self->choice, "notify::selected", G_CALLBACK (chosen_cb), self);
  g_object_set_data_full (G_OBJECT (self->choice), "hw-cloth", self, g_free);
  g_object_set_data (G_OBJECT (box), "hw-choice", self->choice);
  chosen_cb (self);
  return box;
}

const char *
hw_garment_cloth_peek (GtkWidget *cloth)
{
  return hw_choice_peek (GTK_DROP_DOWN (g_object_get_data (G_OBJECT (cloth), "hw-choice")));
}
