/* cloth-cards.c - the fabrics and threads of a project as cards to press
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/cloth-cards.h"

#include <glib/gi18n.h>

#include "window/motif.h"
#include "words/words.h"

char *
hw_cloth_words (const HwCloth *cloth)
{
  g_autofree char *mass = hw_words_number (cloth->mass_g_m2, 0);
  g_autofree char *thickness = hw_words_number (cloth->thickness_mm, 2);
  g_autofree char *stretch = hw_words_number (cloth->stretch_percent, 0);

  if (cloth->stretch_percent >= 1)
    /* Translators: mass, thickness, stretch of a fabric */
    return g_strdup_printf (_("%s g/m², %s mm, stretch %s %%"), mass, thickness, stretch);
  /* Translators: mass, thickness of a fabric that does not stretch */
  return g_strdup_printf (_("%s g/m², %s mm"), mass, thickness);
}

static GtkWidget *
make_card (GtkWidget  *picture,
           const char *name,
           const char *detail,
           const char *action,
           const char *id)
{
  GtkWidget       *card = gtk_button_new ();
  GtkWidget       *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget       *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  GtkWidget       *title = gtk_label_new (name);
  GtkWidget       *more = gtk_label_new (detail);
  /* Translators: a fabric's or thread's name, its figures */
  g_autofree char *spoken = g_strdup_printf (_("%s, %s"), name, detail);

  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_label_set_ellipsize (GTK_LABEL (title), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (title, "strong");
  gtk_label_set_xalign (GTK_LABEL (more), 0);
  gtk_label_set_ellipsize (GTK_LABEL (more), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (more), 26);
  gtk_label_set_max_width_chars (GTK_LABEL (title), 24);
  gtk_widget_add_css_class (more, "small");
  gtk_widget_add_css_class (more, "mute");
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (words), title);
  gtk_box_append (GTK_BOX (words), more);
  gtk_box_append (GTK_BOX (box), picture);
  gtk_box_append (GTK_BOX (box), words);
  gtk_button_set_child (GTK_BUTTON (card), box);
  gtk_widget_add_css_class (card, "card");
  gtk_widget_set_tooltip_text (card, spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (card), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (card), "s", id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (card), action);
  return card;
}

static GtkWidget *
make_fabric_card (HwWorkspace           *workspace,
                  const HwProjectFabric *fabric,
                  const HwCloth         *cloth)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  GtkWidget        *swatch = hw_motif_new (2.9, 2.9);
  g_autofree char  *figures = cloth != NULL ? hw_cloth_words (cloth) : g_strdup (_("not in the handbook"));

  if (cloth != NULL)
    hw_motif_show_cloth (HW_MOTIF (swatch), handbook->constructions[cloth->construction].family,
                         handbook->constructions[cloth->construction].entry.id);
  hw_motif_set_name (HW_MOTIF (swatch), cloth != NULL ? _(handbook->constructions[cloth->construction].entry.name)
                                                      : fabric->name);
  return make_card (swatch, fabric->name, figures, "making-up.edit-fabric", fabric->id);
}

static GtkWidget *
make_thread_card (HwWorkspace           *workspace,
                  const HwProjectThread *thread)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  int               index = hw_handbook_find_thread (handbook, thread->handbook);
  GtkWidget        *spool = hw_motif_new (2.9, 2.9);
  double            tex = thread->tex > 0 || index < 0 ? thread->tex : handbook->threads[index].tex;
  g_autofree char  *number = hw_words_number (tex, 0);
  /* Translators: thread's kind in the handbook */
  g_autofree char  *kind = g_strdup (index >= 0 ? _(handbook->threads[index].entry.name) : _("not in the handbook"));
  /* Translators: colour, size of a thread */
  g_autofree char  *name = thread->colour != NULL ? g_strdup_printf (_("%s, tex %s"), thread->colour, number)
                                                  : g_strdup_printf (_("Thread, tex %s"), number);

  hw_motif_show_spool (HW_MOTIF (spool));
  hw_motif_set_name (HW_MOTIF (spool), _("Spool of thread"));
  return make_card (spool, name, kind, "making-up.edit-thread", thread->id);
}

/* The figures of a fabric as the plan has them; resolved anew when there is no plan. */
static GArray *
resolve (HwWorkspace *workspace)
{
  const HwPlan *plan = hw_workspace_peek_plan (workspace);

  if (plan != NULL)
    return g_array_ref (plan->cloths);
  return hw_cloths_resolve (hw_workspace_get_handbook (workspace), hw_workspace_peek_project (workspace), NULL);
}

static GtkWidget *
make_add_button (void)
{
  GtkWidget        *button = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = g_menu_new ();

  g_menu_append (menu, _("Add a _fabric"), "making-up.add-fabric");
  g_menu_append (menu, _("Add a _thread"), "making-up.add-thread");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "hw-plus-symbolic");
  gtk_widget_add_css_class (button, "add-card");
  gtk_widget_set_tooltip_text (button, _("Add a fabric or a thread"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Add a fabric or a thread"), -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (button)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("Add a fabric or a thread"), -1);
  return button;
}

void
hw_cloth_cards_fill (HwWrap      *wrap,
                     HwWorkspace *workspace)
{
  const HwProject   *project = hw_workspace_peek_project (workspace);
  g_autoptr (GArray) cloths = project != NULL ? resolve (workspace) : NULL;

  hw_wrap_remove_all (wrap);
  for (guint i = 0; project != NULL && i < project->fabrics->len; i++)
    hw_wrap_append (wrap, make_fabric_card (workspace, project->fabrics->pdata[i],
                                            cloths != NULL ? &g_array_index (cloths, HwCloth, i) : NULL));
  for (guint i = 0; project != NULL && i < project->threads->len; i++)
    hw_wrap_append (wrap, make_thread_card (workspace, project->threads->pdata[i]));
  hw_wrap_append (wrap, make_add_button ());
}
