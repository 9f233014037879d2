/* shelf-forms.c - the forms of a thread and of a fabric on hand
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/room-forms.h"

#include <glib/gi18n.h>

#include "trade/units.h"
#include "window/controls.h"
#include "window/trait-boxes.h"
#include "words/words.h"

/* A length as the person measures it: shown rounded, and yet the same to the last digit when it is left alone. */
typedef struct
{
  GtkWidget *entry;
  double     unit;               /* how many of the file's go into one of the person's */
  double     before;             /* as the file has it */
  char      *shown;
} Length;

typedef struct
{
  HwWorkspace *workspace;
  char        *id;                      /* NULL: a new one */
  Length       metres, width;
  GtkWidget   *kind, *construction, *name, *colour, *tex, *snap, *note;
  GtkWidget   *mass, *thickness, *stretch, *cut_grams, *cut_width, *cut_length, *pile, *layers;
  GtkWidget   *construction_row;
  HwTraitBoxes *traits;                 /* of a fabric */
} ShelfForm;

static void
free_spool_form (gpointer data)
{
  ShelfForm *self = data;

  g_free (self->metres.shown);
  g_free (self->width.shown);
  g_object_unref (self->workspace);
  g_free (self->id);
  g_free (self);
}

static void
free_form (gpointer data)
{
  ShelfForm *self = data;

  /* The form's widgets go after this; what they still say is for nobody. */
  for (GtkWidget **widget = (GtkWidget *[]) { self->cut_grams, self->cut_width, self->cut_length, self->pile,
                                              self->layers, self->kind, NULL }; *widget != NULL; widget++)
    g_signal_handlers_disconnect_by_data (*widget, self);
  hw_trait_boxes_free (self->traits);
  free_spool_form (self);
}

/* Text without the blanks around it; NULL when nothing is left. */
static char *
get_text (GtkWidget *entry)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  return text[0] != '\0' ? g_steal_pointer (&text) : NULL;
}

static GtkWidget *
add_number (HwForm     *form,
            const char *label,
            double      value,
            int         decimals,
            const char *placeholder)
{
  g_autofree char *text = value > 0 ? hw_words_number (value, decimals) : NULL;
  GtkWidget       *entry = hw_form_entry (text, placeholder);

  hw_form_add (form, label, entry);
  return entry;
}

static double
cm_per_unit (void)
{
  return hw_words_are_inches () ? HW_MM_PER_INCH / 10 : 1;
}

static double
m_per_unit (void)
{
  return hw_words_are_inches () ? HW_MM_PER_YARD / 1000 : 1;
}

static void
add_length (Length     *self,
            HwForm     *form,
            const char *label,
            double      value,
            double      unit,
            int         decimals,
            const char *placeholder)
{
  self->entry = add_number (form, label, value / unit, decimals, placeholder);
  self->unit = unit;
  self->before = value;
  self->shown = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry)));
}

static gboolean
read_length (const Length *self,
             const char   *what,
             double       *value,
             GError      **error)
{
  if (g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->entry)), self->shown))
    {
      *value = MAX (self->before, 0);
      return TRUE;
    }
  if (!hw_form_get_number (self->entry, what, 0, value, error))
    return FALSE;
  *value *= self->unit;
  return TRUE;
}

/* ---- thread ---- */

static HwSpool *
read_spool (ShelfForm    *self,
            const HwRoom *room,
            GError      **error)
{
  g_autofree char     *colour = get_text (self->colour);
  g_autofree char     *id = NULL;
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autoptr (HwSpool)  spool = NULL;

  if (colour == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("Give the thread’s colour a name, as you call it in projects: navy"));
      return NULL;
    }
  id = self->id != NULL ? g_strdup (self->id) : hw_shelf_make_id (room->spools, colour);
  spool = hw_spool_new (id, hw_choice_peek (GTK_DROP_DOWN (self->kind)), colour);
  spool->counted = g_date_time_format (now, "%Y-%m-%dT%H:%M:%SZ");
  spool->snap = (HwSnap) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->snap));
  spool->note = hw_form_get_note (self->note);
  if (!hw_form_get_number (self->tex, _("The size in tex"), 0, &spool->tex, error)
      || !read_length (&self->metres, _("The length left"), &spool->metres, error))
    return NULL;
  return g_steal_pointer (&spool);
}

static gboolean
save_spool (gpointer data,
            GError **error)
{
  ShelfForm           *self = data;
  const HwRoom        *room = hw_workspace_get_room (self->workspace);
  g_autoptr (HwSpool)  spool = read_spool (self, room, error);
  g_autoptr (GPtrArray) spools = NULL;
  HwRoom              *next;

  if (spool == NULL)
    return FALSE;
  spools = hw_shelf_put (room->spools, spool, NULL);
  next = hw_room_with_spools (room, spools, error);
  return hw_form_take_room (self->workspace, next, error);
}

static void
add_thread_fields (ShelfForm     *self,
                   HwForm        *form,
                   const HwSpool *spool)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  const HwRoom     *room = hw_workspace_get_room (self->workspace);

  self->kind = hw_choice_new ();
  for (gsize i = 0; i < handbook->n_threads; i++)
    hw_choice_add (GTK_DROP_DOWN (self->kind), handbook->threads[i].entry.id, handbook->threads[i].entry.name);
  hw_choice_select (GTK_DROP_DOWN (self->kind), spool != NULL ? spool->handbook : handbook->threads[0].entry.id);
  hw_form_add (form, _("_Kind"), self->kind);
  self->colour = hw_form_entry (spool != NULL ? spool->colour : NULL, _("such as navy"));
  hw_form_add (form, _("C_olour"), self->colour);
  self->tex = add_number (form, _("_Tex, when the label says another"), spool != NULL ? spool->tex : 0, 2,
                          _("as in the handbook"));
  add_length (&self->metres, form, hw_words_are_inches () ? _("_Yards left, all spools of it together")
                                                          : _("_Metres left, all spools of it together"),
              spool != NULL ? hw_room_spool_left (room, spool, handbook) : 0, m_per_unit (), 0, _("200"));
  self->snap = hw_choice_new ();
  hw_choice_add (GTK_DROP_DOWN (self->snap), hw_snap_ids[HW_SNAP_UNTESTED], _("not tested yet"));
  hw_choice_add (GTK_DROP_DOWN (self->snap), hw_snap_ids[HW_SNAP_GOOD], _("good: hard to break, and with a snap"));
  hw_choice_add (GTK_DROP_DOWN (self->snap), hw_snap_ids[HW_SNAP_WEAK], _("weak: parts softly or at once"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->snap), spool != NULL ? spool->snap : HW_SNAP_UNTESTED);
  hw_form_add (form, _("_Snap test"), self->snap);
  self->note = hw_form_note (spool != NULL ? spool->note : NULL);
  hw_form_add (form, _("_Note"), self->note);
}

GtkWidget *
hw_spool_form_new (HwWorkspace *workspace,
                   const char  *id)
{
  const HwSpool *spool = hw_shelf_find (hw_workspace_get_room (workspace)->spools, id);
  GtkWidget     *form = hw_form_new (spool != NULL ? _("Change or count the thread") : _("New thread on the shelf"),
                                     spool != NULL ? _("Save the thread") : _("Add the thread"));
  ShelfForm     *self = g_new0 (ShelfForm, 1);

  self->workspace = g_object_ref (workspace);
  self->id = g_strdup (spool != NULL ? id : NULL);
  add_thread_fields (self, HW_FORM (form), spool);
  if (spool != NULL)
    hw_form_add_button (HW_FORM (form), _("Remove"), "thread.remove", id);
  hw_form_set_save (HW_FORM (form), save_spool, self, free_spool_form);
  return form;
}

/* ---- fabric ---- */

/* What is typed so far; 0 when it is no number yet. */
static double
peek_number (GtkWidget *entry)
{
  double value = 0;

  return hw_form_get_number (entry, "", 0, &value, NULL) ? value : 0;
}

static void
put_number (GtkWidget *entry,
            double     value,
            int        decimals)
{
  g_autofree char *text = hw_words_number (value, decimals);

  if (value > 0)
    gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static void
weighed_cb (ShelfForm *self)
{
  put_number (self->mass, hw_cut_mass_g_m2 (peek_number (self->cut_grams),
                                            peek_number (self->cut_width) * cm_per_unit (),
                                            peek_number (self->cut_length) * cm_per_unit ()), 1);
}

static void
piled_cb (ShelfForm *self)
{
  put_number (self->thickness, hw_pile_thickness_mm (peek_number (self->pile), (int) peek_number (self->layers)), 3);
}

static void
kind_chosen_cb (ShelfForm *self)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  const char       *kind = hw_choice_peek (GTK_DROP_DOWN (self->kind));
  int               index = kind != NULL ? hw_handbook_find_fabric (handbook, kind) : -1;

  gtk_widget_set_visible (self->construction_row, index < 0);
  hw_trait_boxes_give (self->traits, index >= 0 ? &handbook->fabrics[index] : NULL);
  if (index >= 0 && gtk_editable_get_text (GTK_EDITABLE (self->name))[0] == '\0')
    gtk_editable_set_text (GTK_EDITABLE (self->name), handbook->fabrics[index].entry.name);
}

static HwShelfCloth *
read_cloth (ShelfForm    *self,
            const HwRoom *room,
            GError      **error)
{
  const char              *kind = hw_choice_peek (GTK_DROP_DOWN (self->kind));
  g_autofree char         *name = get_text (self->name);
  g_autofree char         *id = NULL;
  g_autoptr (HwShelfCloth) cloth = NULL;

  if (name == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("Give the fabric a name"));
      return NULL;
    }
  id = self->id != NULL ? g_strdup (self->id) : hw_shelf_make_id (room->cloths, name);
  cloth = hw_shelf_cloth_new (id, name);
  g_strfreev (cloth->traits);
  cloth->traits = hw_trait_boxes_read (self->traits);
  cloth->handbook = g_strdup (kind);
  cloth->construction = kind == NULL ? g_strdup (hw_choice_peek (GTK_DROP_DOWN (self->construction))) : NULL;
  cloth->colour = get_text (self->colour);
  cloth->note = hw_form_get_note (self->note);
  if (!hw_form_get_number (self->mass, _("The mass"), 0, &cloth->mass_g_m2, error)
      || !hw_form_get_number (self->thickness, _("The thickness"), 0, &cloth->thickness_mm, error)
      || !hw_form_get_number (self->stretch, _("The stretch"), -1, &cloth->stretch_percent, error)
      || !read_length (&self->metres, _("The length on hand"), &cloth->metres, error)
      || !read_length (&self->width, _("The width"), &cloth->width_cm, error))
    return NULL;
  return g_steal_pointer (&cloth);
}

static gboolean
save_cloth (gpointer data,
            GError **error)
{
  ShelfForm               *self = data;
  const HwRoom            *room = hw_workspace_get_room (self->workspace);
  g_autoptr (HwShelfCloth) cloth = read_cloth (self, room, error);
  g_autoptr (GPtrArray)    cloths = NULL;
  HwRoom                  *next;

  if (cloth == NULL)
    return FALSE;
  cloths = hw_shelf_put (room->cloths, cloth, NULL);
  next = hw_room_with_cloths (room, cloths, error);
  return hw_form_take_room (self->workspace, next, error);
}

static void
add_kinds (ShelfForm          *self,
           HwForm             *form,
           const HwShelfCloth *cloth)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  self->kind = hw_choice_new ();
  hw_choice_add (GTK_DROP_DOWN (self->kind), NULL, _("An own cloth"));
  for (gsize i = 0; i < handbook->n_fabrics; i++)
    hw_choice_add (GTK_DROP_DOWN (self->kind), handbook->fabrics[i].entry.id, handbook->fabrics[i].entry.name);
  hw_choice_select (GTK_DROP_DOWN (self->kind), cloth != NULL ? cloth->handbook : handbook->fabrics[0].entry.id);
  hw_form_add (form, _("C_loth of the handbook that is nearest"), self->kind);
  self->construction = hw_choice_new ();
  for (gsize i = 0; i < handbook->n_constructions; i++)
    hw_choice_add (GTK_DROP_DOWN (self->construction), handbook->constructions[i].entry.id,
                   handbook->constructions[i].entry.name);
  hw_choice_select (GTK_DROP_DOWN (self->construction),
                    cloth != NULL && cloth->construction != NULL ? cloth->construction : "plain");
  self->construction_row = hw_form_add (form, _("Const_ruction"), self->construction);
}

/* A small field beside others, named for a reader and by its placeholder. */
static GtkWidget *
add_cell (GtkWidget  *line,
          const char *placeholder,
          const char *spoken)
{
  GtkWidget *entry = hw_form_entry (NULL, placeholder);

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 6);
  gtk_widget_set_hexpand (entry, TRUE);
  hw_control_name (entry, spoken);
  gtk_widget_set_tooltip_text (entry, spoken);
  gtk_box_append (GTK_BOX (line), entry);
  return entry;
}

static GtkWidget *
add_line (HwForm     *form,
          const char *text)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *label = hw_label_new (text, "small");

  gtk_widget_add_css_class (label, "mute");
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), line);
  hw_form_add_wide (form, box);
  return line;
}

static void
add_measures (ShelfForm          *self,
              HwForm             *form,
              const HwShelfCloth *cloth)
{
  GtkWidget *line = add_line (form, _("Weigh a cut of it: the mass follows"));
  gboolean   inches = hw_words_are_inches ();

  self->cut_width = add_cell (line, inches ? _("inches wide") : _("cm wide"),
                              inches ? _("Width of the cut, inches") : _("Width of the cut, cm"));
  self->cut_length = add_cell (line, inches ? _("inches long") : _("cm long"),
                               inches ? _("Length of the cut, inches") : _("Length of the cut, cm"));
  self->cut_grams = add_cell (line, _("grams"), _("What the cut weighs, grams"));
  self->mass = add_number (form, _("_Mass, g/m²"), cloth != NULL ? cloth->mass_g_m2 : 0, 1, _("as in the handbook"));
  line = add_line (form, _("Pile layers and press them flat under a ruler: the thickness follows"));
  self->layers = add_cell (line, _("layers"), _("Number of layers in the pile"));
  self->pile = add_cell (line, _("mm high"), _("Height of the pile, mm"));
  self->thickness = add_number (form, _("Thic_kness of one layer, mm"), cloth != NULL ? cloth->thickness_mm : 0, 3,
                                _("as in the handbook"));
  self->stretch = hw_form_entry (NULL, _("as in the handbook"));
  if (cloth != NULL && cloth->stretch_percent >= 0)
    {
      g_autofree char *text = hw_words_number (cloth->stretch_percent, 1);

      gtk_editable_set_text (GTK_EDITABLE (self->stretch), text);
    }
  hw_form_add (form, _("S_tretch as pulled by hand, %"), self->stretch);
}

GtkWidget *
hw_shelf_cloth_form_new (HwWorkspace *workspace,
                         const char  *id)
{
  const HwShelfCloth *cloth = hw_shelf_find (hw_workspace_get_room (workspace)->cloths, id);
  GtkWidget          *form = hw_form_new (cloth != NULL ? _("Change the fabric on hand") : _("New fabric on hand"),
                                          cloth != NULL ? _("Save the fabric") : _("Add the fabric"));
  ShelfForm          *self = g_new0 (ShelfForm, 1);

  self->workspace = g_object_ref (workspace);
  self->id = g_strdup (cloth != NULL ? id : NULL);
  add_kinds (self, HW_FORM (form), cloth);
  self->name = hw_form_entry (cloth != NULL ? cloth->name : NULL, NULL);
  hw_form_add (HW_FORM (form), _("N_ame"), self->name);
  self->colour = hw_form_entry (cloth != NULL ? cloth->colour : NULL, _("such as navy"));
  hw_form_add (HW_FORM (form), _("C_olour"), self->colour);
  add_measures (self, HW_FORM (form), cloth);
  self->traits = hw_trait_boxes_new (HW_FORM (form), hw_workspace_get_handbook (workspace),
                                     cloth != NULL ? cloth->traits : NULL);
  add_length (&self->metres, HW_FORM (form), hw_words_are_inches () ? _("Yards on _hand") : _("Metres on _hand"),
              cloth != NULL ? cloth->metres : 0, m_per_unit (), 2, NULL);
  add_length (&self->width, HW_FORM (form), hw_words_are_inches () ? _("_Width, inches") : _("_Width, cm"),
              cloth != NULL ? cloth->width_cm : 0, cm_per_unit (), hw_words_are_inches () ? 2 : 1,
              hw_words_are_inches () ? _("55") : _("140"));
  self->note = hw_form_note (cloth != NULL ? cloth->note : NULL);
  hw_form_add (HW_FORM (form), _("Not_e"), self->note);
  if (cloth != NULL)
    hw_form_add_button (HW_FORM (form), _("Remove"), "fabrics.remove", id);
  hw_form_set_save (HW_FORM (form), save_cloth, self, free_form);
  kind_chosen_cb (self);
  g_signal_connect_swapped (self->kind, "notify::selected", G_CALLBACK (kind_chosen_cb), self);
  for (GtkWidget **cell = (GtkWidget *[]) { self->cut_width, self->cut_length, self->cut_grams, NULL }; *cell != NULL;
       cell++)
    g_signal_connect_swapped (*cell, "changed", G_CALLBACK (weighed_cb), self);
  g_signal_connect_swapped (self->layers, "changed", G_CALLBACK (piled_cb), self);
  g_signal_connect_swapped (self->pile, "changed", G_CALLBACK (piled_cb), self);
  return form;
}
