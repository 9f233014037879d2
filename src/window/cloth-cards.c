/* cloth-cards.c - the fabrics and threads of a project as cards to press
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/cloth-cards.h"

#include <glib/gi18n.h>
#include <string.h>

#include "window/controls.h"
#include "window/motif.h"
#include "window/sign.h"
#include "words/words.h"

char *
hw_cloth_words (const HwCloth *cloth)
{
  g_autofree char *mass = hw_words_number (cloth->mass_g_m2, 0);
  g_autofree char *thickness = hw_words_number (cloth->thickness_mm, 2);
  g_autofree char *stretch = hw_words_number (cloth->stretch_percent, 0);

  if (cloth->stretch_percent >= 1)
    /* Translators: mass, thickness, stretch of a fabric; what belongs together has spaces that do not break */
    return g_strdup_printf (_("%s g/m², %s mm, stretch %s %%"), mass, thickness, stretch);
  /* Translators: mass, thickness of a fabric that does not stretch */
  return g_strdup_printf (_("%s g/m², %s mm"), mass, thickness);
}

static void
make_card_button (GtkWidget  *card,
                  const char *spoken,
                  const char *action,
                  const char *id)
{
  gtk_widget_add_css_class (card, "card");
  gtk_widget_set_tooltip_text (card, spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (card), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (card), "s", id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (card), action);
}

static GtkWidget *
make_label (const char *text,
            int         most_chars)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), MIN (most_chars, (int) g_utf8_strlen (text, -1) * 3 / 4));
  gtk_label_set_max_width_chars (GTK_LABEL (label), most_chars);
  return label;
}

/* (transfer full) */
static char *
speak_fabric (const HwProjectFabric *fabric,
              const char            *figures)
{
  if (fabric->colour != NULL)
    /* Translators: a fabric's name, its colour, its figures */
    return g_strdup_printf (_("Fabric %s, %s, %s"), fabric->name, fabric->colour, figures);
  /* Translators: a fabric's name, its figures */
  return g_strdup_printf (_("Fabric %s, %s"), fabric->name, figures);
}

static GtkWidget *
make_small (const char *text)
{
  GtkWidget *label = make_label (text, 10);

  gtk_widget_add_css_class (label, "small");
  return label;
}

static GtkWidget *
make_fabric_card (HwWorkspace           *workspace,
                  const HwProjectFabric *fabric,
                  const HwCloth         *cloth)
{
  const HwHandbook     *handbook = hw_workspace_get_handbook (workspace);
  const HwConstruction *construction = cloth != NULL ? &handbook->constructions[cloth->construction] : NULL;
  GtkWidget            *card = gtk_button_new ();
  GtkWidget            *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget            *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  GtkWidget            *swatch = hw_motif_new (2.8, 2.8);
  g_autofree char      *figures = cloth != NULL ? hw_cloth_words (cloth) : g_strdup (_("not in the handbook"));
  g_autofree char      *spoken = speak_fabric (fabric, figures);
  GtkWidget            *name = make_label (fabric->name, 10);
  GtkWidget            *detail = make_small (figures);

  if (construction != NULL)
    hw_motif_show_cloth (HW_MOTIF (swatch), construction->family, construction->entry.id);
  hw_motif_set_name (HW_MOTIF (swatch), construction != NULL ? construction->entry.name : fabric->name);
  gtk_widget_add_css_class (name, "strong");
  gtk_widget_add_css_class (detail, "mute");
  gtk_label_set_wrap (GTK_LABEL (detail), TRUE);        /* the stretch goes below rather than be cut off */
  gtk_label_set_lines (GTK_LABEL (detail), 2);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (words), name);
  if (fabric->colour != NULL)
    gtk_box_append (GTK_BOX (words), make_small (fabric->colour));
  gtk_box_append (GTK_BOX (words), detail);
  gtk_box_append (GTK_BOX (box), swatch);
  gtk_box_append (GTK_BOX (box), words);
  gtk_button_set_child (GTK_BUTTON (card), box);
  make_card_button (card, spoken, "making-up.edit-fabric", fabric->id);
  return card;
}

static GtkWidget *
make_thread_card (HwWorkspace           *workspace,
                  const HwProjectThread *thread)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  int               index = hw_handbook_find_thread (handbook, thread->handbook);
  double            tex = thread->tex > 0 || index < 0 ? thread->tex : handbook->threads[index].tex;
  GtkWidget        *card = gtk_button_new ();
  GtkWidget        *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget        *spool = hw_motif_new (1.5, 1.5);
  g_autofree char  *number = hw_words_number (tex, 0);
  const char       *kind = index >= 0 ? handbook->threads[index].entry.name : _("not in the handbook");
  g_autofree char  *brief = g_strndup (kind, strcspn (kind, ","));      /* the size tells the rest */
  /* Translators: colour, size of a thread */
  g_autofree char  *name = thread->colour != NULL ? g_strdup_printf (_("%s, tex %s"), thread->colour, number)
                                                  /* Translators: a thread's kind, its size */
                                                  : g_strdup_printf (_("%s, tex %s"), brief, number);
  /* Translators: colour and size of a thread; its kind in the handbook */
  g_autofree char  *spoken = g_strdup_printf (_("Thread %s: %s"), name, kind);
  GtkWidget        *label = make_label (name, 32);

  hw_motif_show_spool (HW_MOTIF (spool));
  hw_motif_set_name (HW_MOTIF (spool), _("Spool of thread"));
  gtk_widget_set_valign (spool, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), spool);
  /* Two threads of one colour differ by what stands at the end. */
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_MIDDLE);
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (card), box);
  make_card_button (card, spoken, "making-up.edit-thread", thread->id);
  gtk_widget_add_css_class (card, "thread");
  return card;
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
make_add_button (const char *label,
                 const char *action,
                 gboolean    words)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *plus = hw_sign_new ("plus");

  gtk_box_append (GTK_BOX (box), plus);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  if (words)
    gtk_box_append (GTK_BOX (box), gtk_label_new (label));
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "add-card");
  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  return button;
}

/* Whether the cards of @wrap show these words already; else it is noted that they will. Cards are made anew only when
 * one of them would show something else: most edits are about steps. */
static gboolean
is_shown (HwWrap  *wrap,
          GString *words)
{
  const char *shown = g_object_get_data (G_OBJECT (wrap), "hw-words");

  if (g_strcmp0 (shown, words->str) == 0)
    return TRUE;
  g_object_set_data_full (G_OBJECT (wrap), "hw-words", g_strdup (words->str), g_free);
  return FALSE;
}

static gboolean
are_fabrics_shown (HwWrap          *wrap,
                   const HwProject *project,
                   const GArray    *cloths)
{
  g_autoptr (GString) words = g_string_new ("fabrics\n");

  for (guint i = 0; project != NULL && i < project->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = project->fabrics->pdata[i];
      const HwCloth         *cloth = cloths != NULL ? &g_array_index (cloths, HwCloth, i) : NULL;
      g_autofree char       *figures = cloth != NULL ? hw_cloth_words (cloth) : NULL;

      g_string_append_printf (words, "%s\n%s\n%s\n%s\n%d\n", fabric->id, fabric->name,
                              fabric->colour != NULL ? fabric->colour : "", figures != NULL ? figures : "",
                              cloth != NULL ? cloth->construction : -1);
    }
  return is_shown (wrap, words);
}

/* ---- threads that the plan takes and the project does not list ---- */

static gboolean
is_taken (const HwThreadChoice *choice,
          const HwNotion       *notion)
{
  return choice->thread == NULL && choice->entry == notion->entry && choice->tex == notion->tex;
}

/* "polyester tex 80: step 2, Topstitch the pocket" */
static void
add_wanted (const HwPlan   *plan,
            const HwNotion *notion,
            GString        *names,
            GString        *reasons)
{
  HwThreadChoice   choice = { notion->thread, notion->entry, notion->tex, 0 };
  g_autofree char *name = hw_words_thread (&choice);

  g_string_append_printf (names, "%s%s", names->len > 0 ? C_("list", ", ") : "", name);
  for (gsize i = 0; i < plan->n_steps; i++)
    {
      const HwStep *step = hw_project_get_step (plan->project, i);

      if (plan->setups[i] == NULL || (!is_taken (&plan->setups[i]->needle_thread, notion)
                                      && !is_taken (&plan->setups[i]->bobbin_thread, notion)))
        continue;
      /* Translators: a thread; the number and name of a step that takes it */
      g_string_append_printf (reasons, _("%s: step %s, %s"), name, step->number, step->name);
      g_string_append_c (reasons, '\n');
    }
}

/* *@names: "polyester tex 40, polyester tex 80", *@reasons: lines with the steps; both empty: there are none. */
static void
list_wanted (HwWorkspace *workspace,
             GString     *names,
             GString     *reasons)
{
  const HwPlan *plan = hw_workspace_peek_plan (workspace);

  for (guint i = 0; plan != NULL && i < plan->notions->len; i++)
    if (((HwNotion *) plan->notions->pdata[i])->thread == NULL)
      add_wanted (plan, plan->notions->pdata[i], names, reasons);
  if (reasons->len > 0)
    g_string_append (reasons, _("No thread of the project suits these steps as well; “Why?” at a step tells the rule. "
                                "Add one to choose its colour."));
}

static GtkWidget *
make_wanted (const char *names,
             const char *reasons)
{
  /* Translators: threads such as “polyester tex 40, polyester tex 80” */
  g_autofree char *text = g_strdup_printf (_("The plan takes these too: %s"), names);
  GtkWidget       *label = hw_label_new (text, "mute");

  gtk_widget_add_css_class (label, "small");
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  gtk_label_set_width_chars (GTK_LABEL (label), 24);
  gtk_widget_set_tooltip_text (label, reasons);
  gtk_accessible_update_property (GTK_ACCESSIBLE (label), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, reasons, -1);
  return label;
}

static gboolean
are_threads_shown (HwWrap          *wrap,
                   const HwProject *project,
                   const GString   *wanted)
{
  g_autoptr (GString) words = g_string_new ("threads\n");

  g_string_append (words, wanted->str);

  for (guint i = 0; project != NULL && i < project->threads->len; i++)
    {
      const HwProjectThread *thread = project->threads->pdata[i];

      g_string_append_printf (words, "%s\n%s\n%s\n%g\n", thread->id, thread->colour != NULL ? thread->colour : "",
                              thread->handbook != NULL ? thread->handbook : "", thread->tex);
    }
  return is_shown (wrap, words);
}

void
hw_fabric_cards_fill (HwWrap      *wrap,
                      HwWorkspace *workspace)
{
  const HwProject   *project = hw_workspace_peek_project (workspace);
  g_autoptr (GArray) cloths = project != NULL ? resolve (workspace) : NULL;

  if (are_fabrics_shown (wrap, project, cloths))
    return;
  hw_wrap_remove_all (wrap);
  for (guint i = 0; project != NULL && i < project->fabrics->len; i++)
    hw_wrap_append (wrap, make_fabric_card (workspace, project->fabrics->pdata[i],
                                            cloths != NULL ? &g_array_index (cloths, HwCloth, i) : NULL));
  hw_wrap_append (wrap, make_add_button (_("Add a fabric"), "making-up.add-fabric",
                                          project == NULL || project->fabrics->len == 0));
}

void
hw_thread_cards_fill (HwWrap      *wrap,
                      HwWorkspace *workspace)
{
  const HwProject    *project = hw_workspace_peek_project (workspace);
  g_autoptr (GString) names = g_string_new (NULL);
  g_autoptr (GString) reasons = g_string_new (NULL);

  list_wanted (workspace, names, reasons);
  if (are_threads_shown (wrap, project, reasons))
    return;
  hw_wrap_remove_all (wrap);
  for (guint i = 0; project != NULL && i < project->threads->len; i++)
    hw_wrap_append (wrap, make_thread_card (workspace, project->threads->pdata[i]));
  hw_wrap_append (wrap, make_add_button (_("Add a thread"), "making-up.add-thread",
                                          project == NULL || project->threads->len < 2));
  if (names->len > 0)
    hw_wrap_append (wrap, make_wanted (names->str, reasons->str));
}
