/* fabric-form.c - the form of a fabric: one of the handbook's, or an own cloth
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/forms.h"

#include <glib/gi18n.h>
#include <string.h>

#include "window/controls.h"
#include "window/tab-stop.h"
#include "window/trait-boxes.h"
#include "words/find.h"
#include "words/words.h"

#define LEAST_LETTERS 4                  /* of a word, that may still tell what was meant */
#define MOST_LETTERS 24                  /* looked at */

typedef struct
{
  HwWorkspace       *workspace;
  char              *id;                /* NULL: a new one */
  char              *last_name;         /* the name proposed for the cloth chosen last */
  GtkWidget         *search, *list, *none;
  GtkStringFilter   *filter;
  GtkSingleSelection *selection;        /* of GtkStringObject; its place in all names gives the handbook's index */
  GtkStringList     *names;             /* "own cloth", then the handbook's fabrics */
  GtkWidget         *name, *colour, *construction, *construction_row, *mass, *thickness, *stretch;
  HwTraitBoxes      *traits;
} FabricForm;

static void
free_form (gpointer data)
{
  FabricForm *self = data;

  /* The form's widgets go after this; what they still say is for nobody. */
  g_signal_handlers_disconnect_by_data (self->search, self);
  g_signal_handlers_disconnect_by_data (self->selection, self);
  g_object_unref (self->workspace);
  g_object_unref (self->filter);
  g_object_unref (self->selection);
  g_object_unref (self->names);
  hw_trait_boxes_free (self->traits);
  g_free (self->id);
  g_free (self->last_name);
  g_free (self);
}

/* ---- the cloth chosen ---- */

/* The handbook's fabric, NULL: an own cloth. *chosen is FALSE when the search leaves none. */
static const HwFabric *
peek_cloth (FabricForm *self,
            gboolean   *chosen)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  GObject          *item = gtk_single_selection_get_selected_item (self->selection);
  guint             n = g_list_model_get_n_items (G_LIST_MODEL (self->names));

  *chosen = item != NULL;
  for (guint i = 1; item != NULL && i < n; i++)
    {
      g_autoptr (GObject) name = g_list_model_get_item (G_LIST_MODEL (self->names), i);

      if (name == item)
        return &handbook->fabrics[i - 1];
    }
  return NULL;
}

static void
set_typical (GtkWidget  *entry,
             double      value,
             int         decimals)
{
  g_autofree char *number = hw_words_number (value, decimals);
  /* Translators: what the handbook has, when nothing was measured */
  g_autofree char *text = g_strdup_printf (_("%s in the handbook"), number);

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), text);
}

static void
cloth_chosen_cb (FabricForm *self)
{
  gboolean        chosen = FALSE;
  const HwFabric *cloth = peek_cloth (self, &chosen);
  const char     *name = gtk_editable_get_text (GTK_EDITABLE (self->name));

  if (!chosen)
    return;
  hw_form_clear_error (self->search);
  gtk_widget_set_visible (self->construction_row, cloth == NULL);
  if (cloth != NULL)
    {
      set_typical (self->mass, cloth->mass_g_m2.prefer, 0);
      set_typical (self->thickness, cloth->thickness_mm.prefer, 2);
      set_typical (self->stretch, cloth->stretch_percent, 0);
      /* The name follows the cloth until the person has given one. */
      if (name[0] == '\0' || g_strcmp0 (name, self->last_name) == 0)
        gtk_editable_set_text (GTK_EDITABLE (self->name), cloth->entry.name);
      g_free (self->last_name);
      self->last_name = g_strdup (cloth->entry.name);
    }
  else
    {
      gtk_entry_set_placeholder_text (GTK_ENTRY (self->mass), _("weigh 10 × 10 cm, times 100"));
      gtk_entry_set_placeholder_text (GTK_ENTRY (self->thickness), _("guessed from the mass"));
      gtk_entry_set_placeholder_text (GTK_ENTRY (self->stretch), _("0"));
    }
  hw_trait_boxes_give (self->traits, cloth);
}

/* ---- saving ---- */

static gboolean
is_fabric (gconstpointer project,
           const char   *id)
{
  return hw_project_find_fabric (project, id) != NULL;
}

static gboolean
read_fabric (FabricForm      *self,
             HwProjectFabric *fabric,
             GError         **error)
{
  gboolean         chosen = FALSE;
  const HwFabric  *cloth = peek_cloth (self, &chosen);
  g_autofree char *colour = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->colour))));

  if (!chosen)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("No cloth is chosen; choose one of the list, or “an own cloth”"));
      return FALSE;
    }
  g_clear_pointer (&fabric->handbook, g_free);
  g_clear_pointer (&fabric->construction, g_free);
  if (cloth != NULL)
    fabric->handbook = g_strdup (cloth->entry.id);
  else
    fabric->construction = g_strdup (hw_choice_peek (GTK_DROP_DOWN (self->construction)));
  g_free (fabric->colour);
  fabric->colour = colour[0] != '\0' ? g_steal_pointer (&colour) : NULL;
  g_strfreev (fabric->traits);
  fabric->traits = hw_trait_boxes_read (self->traits);
  return hw_form_get_number (self->mass, _("The mass"), 0, &fabric->mass_g_m2, error)
         && hw_form_get_number (self->thickness, _("The thickness"), 0, &fabric->thickness_mm, error)
         && hw_form_get_number (self->stretch, _("The stretch"), cloth != NULL ? -1 : 0, &fabric->stretch_percent,
                                error);
}

static gboolean
save (gpointer data,
      GError **error)
{
  FabricForm      *self = data;
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));
  g_autofree char *id = self->id != NULL ? g_strdup (self->id) : hw_form_make_id (name, is_fabric, project);
  HwProjectFabric *fabric = hw_project_fabric_new (id, name);
  HwProject       *next = NULL;
  g_autofree char *label = NULL;

  if (read_fabric (self, fabric, error))
    next = hw_edit_put_fabric (project, fabric, error);
  hw_project_fabric_unref (fabric);
  if (next == NULL)
    return FALSE;
  /* Translators: in “Undo: …”; a fabric's name */
  label = g_strdup_printf (self->id != NULL ? _("change the fabric %s") : _("add the fabric %s"), name);
  hw_workspace_edit (self->workspace, next, label, NULL, NULL);
  return TRUE;
}

/* ---- the list of cloths ---- */

/* What the longest part of the word finds: “needlecord” has cord. The first words of that cloth's name, so that its
 * kin are found too. (transfer full), NULL: no part finds any. */
static char *
find_near (FabricForm *self,
           const char *text)
{
  const HwHandbook  *handbook = hw_workspace_get_handbook (self->workspace);
  g_autoptr (HwFind) find = hw_find_new ();
  glong              letters = MIN (g_utf8_strlen (text, -1), MOST_LETTERS);

  for (gsize i = 0; i < handbook->n_fabrics; i++)
    hw_find_add (find, 0, handbook->fabrics[i].entry.name, "", NULL, handbook->fabrics[i].entry.name);
  for (glong length = letters; length >= LEAST_LETTERS; length--)
    for (glong from = letters - length; from >= 0; from--)
      {
        g_autofree char      *part = g_utf8_substring (text, from, from + length);
        g_autoptr (GPtrArray) found = hw_find_ask (find, part, 1, NULL);
        const char           *name = found->len > 0 ? ((const HwFindThing *) found->pdata[0])->name : NULL;

        if (name != NULL)
          return g_strndup (name, strcspn (name, ","));
      }
  return NULL;
}

/* Nothing is chosen then; the nearest, if any, are in the list to be. */
static void
offer_near (FabricForm *self,
            const char *text)
{
  g_autofree char *near = find_near (self, text);
  /* Translators: what was typed */
  g_autofree char *told = near != NULL ? g_strdup_printf (_("Nothing by the name “%s”. The nearest stand below."), text)
                                       : g_strdup_printf (_("Nothing by the name “%s”. Try another, or “An own "
                                                            "cloth”."), text);

  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_string_filter_set_search (self->filter, near != NULL ? near : _("An own cloth"));
  gtk_single_selection_set_selected (self->selection, GTK_INVALID_LIST_POSITION);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->name)), self->last_name) == 0)
    gtk_editable_set_text (GTK_EDITABLE (self->name), "");
  gtk_label_set_text (GTK_LABEL (self->none), told);
  gtk_widget_set_visible (self->none, TRUE);
}

static void
search_changed_cb (FabricForm *self)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->search))));

  gtk_widget_set_visible (self->none, FALSE);
  gtk_string_filter_set_search (self->filter, text);
  if (g_list_model_get_n_items (G_LIST_MODEL (self->selection)) == 0)
    offer_near (self, text);
  else
    gtk_single_selection_set_autoselect (self->selection, TRUE);
}

/* A few letters and Return are enough. */
static void
search_activated_cb (FabricForm *self)
{
  search_changed_cb (self);             /* typed faster than the entry waits */
  gtk_widget_activate_action (self->search, "form.save", NULL);
}

static void
cloth_activated_cb (GtkWidget *list)
{
  gtk_widget_activate_action (list, "form.save", NULL);
}

static GtkStringList *
list_names (const HwHandbook *handbook)
{
  GtkStringList *names = gtk_string_list_new (NULL);

  gtk_string_list_append (names, _("An own cloth"));
  for (gsize i = 0; i < handbook->n_fabrics; i++)
    gtk_string_list_append (names, handbook->fabrics[i].entry.name);
  return names;
}

static GtkWidget *
make_list (FabricForm *self)
{
  GtkExpression      *expression = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string");
  GtkFilterListModel *shown;
  GtkListItemFactory *factory = hw_string_rows_new ();
  GtkWidget          *scrolled = gtk_scrolled_window_new ();

  self->filter = gtk_string_filter_new (expression);
  gtk_string_filter_set_match_mode (self->filter, GTK_STRING_FILTER_MATCH_MODE_SUBSTRING);
  shown = gtk_filter_list_model_new (G_LIST_MODEL (g_object_ref (self->names)),
                                     GTK_FILTER (g_object_ref (self->filter)));
  self->selection = gtk_single_selection_new (G_LIST_MODEL (shown));
  self->list = gtk_list_view_new (GTK_SELECTION_MODEL (g_object_ref (self->selection)), factory);
  hw_control_name (self->list, _("Cloths of the handbook"));
  g_signal_connect (self->list, "activate", G_CALLBACK (cloth_activated_cb), NULL);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->list);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scrolled), 150);
  gtk_widget_add_css_class (scrolled, "sheet");
  return hw_tab_stop_new (scrolled);
}

static gboolean
scroll_once_cb (GtkWidget     *list,
                GdkFrameClock *clock,
                gpointer       position)
{
  if (gtk_widget_get_height (list) == 0)
    return G_SOURCE_CONTINUE;
  gtk_widget_activate_action (list, "list.scroll-to-item", "u", GPOINTER_TO_UINT (position));
  return G_SOURCE_REMOVE;
}

static void
select_cloth (FabricForm            *self,
              const HwProjectFabric *fabric)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  int               index = fabric != NULL && fabric->handbook != NULL
                              ? hw_handbook_find_fabric (handbook, fabric->handbook) : -1;
  guint             position = fabric == NULL ? 1 : (guint) (index + 1);

  gtk_single_selection_set_selected (self->selection, position);
  /* The list has no rows to scroll before its first frame. */
  gtk_widget_add_tick_callback (self->list, scroll_once_cb, GUINT_TO_POINTER (position), NULL);
}

/* ---- the form ---- */

static GtkWidget *
add_number (HwForm     *form,
            const char *label,
            double      value,
            double      unknown,
            int         decimals)
{
  g_autofree char *text = value > unknown ? hw_words_number (value, decimals) : NULL;
  GtkWidget       *entry = hw_form_entry (text, NULL);

  hw_form_add (form, label, entry);
  return entry;
}

static void
add_construction (FabricForm            *self,
                  HwForm                *form,
                  const HwProjectFabric *fabric)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  self->construction = hw_choice_new ();
  for (gsize i = 0; i < handbook->n_constructions; i++)
    hw_choice_add (GTK_DROP_DOWN (self->construction), handbook->constructions[i].entry.id,
                   handbook->constructions[i].entry.name);
  hw_choice_select (GTK_DROP_DOWN (self->construction),
                    fabric != NULL && fabric->construction != NULL ? fabric->construction : "plain");
  self->construction_row = hw_form_add (form, _("Const_ruction"), self->construction);
}

static void
add_fields (FabricForm            *self,
            HwForm                *form,
            const HwProjectFabric *fabric)
{
  self->search = gtk_search_entry_new ();
  hw_form_add (form, _("C_loth: search the handbook"), self->search);
  self->none = hw_label_new (NULL, "small");
  gtk_widget_set_visible (self->none, FALSE);
  hw_form_add_wide (form, self->none);
  hw_form_add_wide (form, make_list (self));
  add_construction (self, form, fabric);
  self->name = hw_form_entry (fabric != NULL ? fabric->name : NULL, NULL);
  hw_form_add (form, _("_Name"), self->name);
  self->colour = hw_form_entry (fabric != NULL ? fabric->colour : NULL, _("such as navy"));
  hw_form_add (form, _("C_olour"), self->colour);
  self->mass = add_number (form, _("_Mass as weighed, g/m²"), fabric != NULL ? fabric->mass_g_m2 : 0, 0, 1);
  self->thickness = add_number (form, _("Thic_kness of one layer as measured, mm"),
                                fabric != NULL ? fabric->thickness_mm : 0, 0, 3);
  self->stretch = add_number (form, _("S_tretch as pulled by hand, %"), fabric != NULL ? fabric->stretch_percent : -1,
                              -1, 1);
  self->traits = hw_trait_boxes_new (form, hw_workspace_get_handbook (self->workspace),
                                     fabric != NULL ? fabric->traits : NULL);
}

GtkWidget *
hw_fabric_form_new (HwWorkspace *workspace,
                    const char  *id)
{
  const HwProject       *project = hw_workspace_peek_project (workspace);
  const HwProjectFabric *fabric = id != NULL ? hw_project_find_fabric (project, id) : NULL;
  GtkWidget             *form = hw_form_new (fabric != NULL ? _("Change the fabric") : _("New fabric"),
                                             fabric != NULL ? _("Save the fabric") : _("Add the fabric"));
  FabricForm            *self = g_new0 (FabricForm, 1);

  self->workspace = g_object_ref (workspace);
  self->id = g_strdup (fabric != NULL ? id : NULL);
  self->names = list_names (hw_workspace_get_handbook (workspace));
  add_fields (self, HW_FORM (form), fabric);
  if (fabric != NULL)
    hw_form_add_button (HW_FORM (form), _("Remove"), "making-up.remove-fabric", id);
  hw_form_set_save (HW_FORM (form), save, self, free_form);
  select_cloth (self, fabric);
  cloth_chosen_cb (self);
  g_signal_connect_swapped (self->search, "search-changed", G_CALLBACK (search_changed_cb), self);
  g_signal_connect_swapped (self->search, "activate", G_CALLBACK (search_activated_cb), self);
  g_signal_connect_swapped (self->selection, "notify::selected-item", G_CALLBACK (cloth_chosen_cb), self);
  return form;
}
