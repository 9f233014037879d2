/* garment-form.c - the form that makes a project from a garment of the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A size fills the measurements; a measurement that is typed over makes them the person's own. What is wrong is said
 * beside the field, and below stands what there will be to sew.
 */

#include "config.h"

#include "window/garment-form.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "model/garment-project.h"
#include "window/controls.h"
#include "window/garment-cloth.h"
#include "window/wrap.h"
#include "words/words.h"

#define MM_PER_CM 10.0
#define MM_PER_INCH 25.4
#define CELL_EM 11

typedef struct { GtkWidget *entry, *error; } Measure;

typedef struct
{
  HwWorkspace      *workspace;
  const HwGarment  *garment;
  GtkWidget        *title, *size, *unit, *sum, *steps;
  Measure          *measures;            /* one a measurement */
  GtkWidget       **cloths;              /* one a role */
  gboolean          here;                /* into the open project, which is empty */
  gboolean          inches;
  gboolean          filling;
} GarmentForm;

static void
free_form (gpointer data)
{
  GarmentForm *self = data;

  for (gsize i = 0; i < self->garment->n_measurements; i++)
    g_signal_handlers_disconnect_by_data (self->measures[i].entry, self);
  if (self->size != NULL)
    g_signal_handlers_disconnect_by_data (self->size, self);
  g_signal_handlers_disconnect_by_data (self->unit, self);
  g_object_unref (self->workspace);
  g_free (self->measures);
  g_free (self->cloths);
  g_free (self);
}

/* ---- measurements ---- */

static double
unit_of (const GarmentForm   *self,
         const HwMeasurement *measurement)
{
  if (measurement->counts)
    return 1;
  return self->inches ? MM_PER_INCH : MM_PER_CM;
}

static char *
say_measure (const GarmentForm   *self,
             const HwMeasurement *measurement,
             double               value)
{
  return hw_words_number (value / unit_of (self, measurement), measurement->counts ? 0 : self->inches ? 2 : 1);
}

/* @text with the decimal mark in use, where another one is all that is wrong with it; else NULL. (transfer full) */
static char *
mend_mark (const char *text)
{
  const char      *ours = hw_words_decimal_mark ();
  const char      *other = g_str_equal (ours, ",") ? "." : ",";
  g_auto (GStrv)   parts = g_strsplit (text, other, 3);
  g_autofree char *mended = g_strv_length (parts) == 2 ? g_strstrip (g_strjoinv (ours, parts)) : NULL;
  double           value;

  return mended != NULL && hw_words_parse_number (mended, &value) ? g_steal_pointer (&mended) : NULL;
}

/* What is wrong with a field, on one line; NULL when nothing is. */
static char *
say_wrong (const GarmentForm   *self,
           const HwMeasurement *measurement,
           const char          *text,
           gboolean             is_number)
{
  g_autofree char *low = say_measure (self, measurement, measurement->low);
  g_autofree char *high = say_measure (self, measurement, measurement->high);

  if (measurement->counts)
    /* Translators: the least and the most */
    return g_strdup_printf (_("a whole number, %s to %s"), low, high);
  if (!is_number)
    {
      g_autofree char *mended = mend_mark (text);
      g_autofree char *written = hw_words_number (92.5, 1);

      if (mended != NULL)
        /* Translators: the person's own number, with the decimal mark in use */
        return g_strdup_printf (_("write %s"), mended);

      /* Translators: a number with the decimal mark in use */
      return g_strdup_printf (_("a number, written as %s"), written);
    }
  return self->inches ? g_strdup_printf (_("%s to %s in"), low, high) : g_strdup_printf (_("%s to %s cm"), low, high);
}

static gboolean
read_measure (GarmentForm *self,
              gsize        index,
              double      *value)
{
  const HwMeasurement *measurement = &self->garment->measurements[index];
  const Measure       *measure = &self->measures[index];
  g_autoptr (GError)   error = NULL;
  g_autofree char     *wrong = NULL;
  double               number = NAN;
  gboolean             is_number = hw_form_get_number (measure->entry, "", NAN, &number, &error) && isfinite (number);

  *value = number * unit_of (self, measurement);
  /* A bound shown with two decimals is still the bound. */
  if (is_number && *value < measurement->low && *value > measurement->low - 0.2)
    *value = measurement->low;
  if (is_number && *value > measurement->high && *value < measurement->high + 0.2)
    *value = measurement->high;
  if (!is_number || *value < measurement->low || *value > measurement->high
      || (measurement->counts && *value != floor (*value)))
    wrong = say_wrong (self, measurement, gtk_editable_get_text (GTK_EDITABLE (measure->entry)), is_number);
  gtk_label_set_text (GTK_LABEL (measure->error), wrong != NULL ? wrong : "");
  if (wrong != NULL)
    gtk_accessible_update_state (GTK_ACCESSIBLE (measure->entry), GTK_ACCESSIBLE_STATE_INVALID,
                                 GTK_ACCESSIBLE_INVALID_TRUE, -1);
  else
    gtk_accessible_reset_state (GTK_ACCESSIBLE (measure->entry), GTK_ACCESSIBLE_STATE_INVALID);
  return wrong == NULL;
}

/* (transfer full): NULL when one of them is wrong, which is then said beside it. */
static double *
read_measures (GarmentForm *self)
{
  g_autofree double *values = g_new0 (double, MAX (self->garment->n_measurements, 1));
  gboolean           good = TRUE;

  for (gsize i = 0; i < self->garment->n_measurements; i++)
    good &= read_measure (self, i, &values[i]);
  return good ? g_steal_pointer (&values) : NULL;
}

static void
fill_measures (GarmentForm  *self,
               const double *values)
{
  self->filling = TRUE;
  for (gsize i = 0; i < self->garment->n_measurements; i++)
    {
      g_autofree char *text = say_measure (self, &self->garment->measurements[i], values[i]);

      gtk_editable_set_text (GTK_EDITABLE (self->measures[i].entry), text);
    }
  self->filling = FALSE;
}

/* ---- what there will be to sew ---- */

static char *
say_step (const HwHandbook      *handbook,
          const HwGarmentStep   *step,
          const HwGarmentFigure *figure)
{
  const HwStep     sewn = {
    .purpose = step->by_hand ? NULL : handbook->purposes[step->purpose].entry.id,
    .length_cm = figure->length_mm / 10,
    .pieces = figure->pieces,
  };
  g_autofree char *length = hw_words_sewn_length (&sewn);
  g_autofree char *minutes = hw_words_minutes (figure->minutes);

  if (step->by_hand)
    /* Translators: number and name of a hand step, its minutes */
    return g_strdup_printf (_("%s  %s: by hand, %s"), step->number, step->name, minutes);
  /* Translators: number and name of a step, its length */
  return g_strdup_printf (_("%s  %s: %s"), step->number, step->name, length);
}

/* The reader's place in the handbook's file is for who wrote the garment, not for who gives measurements. */
static const char *
without_place (const char *message)
{
  const char *end = strstr (message, ".xml:");

  end = end != NULL ? strstr (end + strlen (".xml:"), ": ") : NULL;
  return end != NULL ? end + 2 : message;
}

static void
show_steps (GarmentForm           *self,
            const HwGarmentFigure *figures)
{
  g_autoptr (GString) lines = g_string_new (NULL);
  g_autofree char    *metres = NULL;
  g_autofree char    *sum = NULL;
  double              mm = 0;

  for (gsize i = 0; i < self->garment->n_steps; i++)
    {
      g_autofree char *line = say_step (hw_workspace_get_handbook (self->workspace), &self->garment->steps[i],
                                       &figures[i]);

      g_string_append_printf (lines, "%s%s", i > 0 ? "\n" : "", line);
      mm += figures[i].length_mm;
    }
  metres = hw_words_metres (mm / 1000);
  /* Translators: how many steps, metres */
  sum = g_strdup_printf (ngettext ("%u step, %s to sew", "%u steps, %s to sew", self->garment->n_steps),
                         (guint) self->garment->n_steps, metres);
  gtk_label_set_text (GTK_LABEL (self->sum), sum);
  gtk_label_set_text (GTK_LABEL (self->steps), lines->str);
}

static void
refresh (GarmentForm *self)
{
  g_autofree double          *values = read_measures (self);
  g_autoptr (GError)          error = NULL;
  g_autofree HwGarmentFigure *figures = values != NULL ? hw_garment_reckon (self->garment, values, &error) : NULL;

  if (figures != NULL)
    {
      gtk_widget_remove_css_class (self->sum, "rust");
      show_steps (self, figures);
      return;
    }
  gtk_widget_add_css_class (self->sum, "rust");     /* the steps below stay as they were: the form keeps its size */
  if (error == NULL)
    {
      gtk_label_set_text (GTK_LABEL (self->sum), _("A measurement that is marked cannot be so; what it may be stands "
                                                   "below it."));
    }
  else
    {
      /* Translators: which step cannot be reckoned, and why */
      g_autofree char *text = g_strdup_printf (_("These measurements do not go together: %s"),
                                               without_place (error->message));

      gtk_label_set_text (GTK_LABEL (self->sum), text);
    }
}

static void
measure_changed_cb (GarmentForm *self)
{
  if (self->filling)
    return;
  if (self->size != NULL)
    {
      self->filling = TRUE;
      hw_choice_select (GTK_DROP_DOWN (self->size), "");
      self->filling = FALSE;
    }
  refresh (self);
}

static void
size_chosen_cb (GarmentForm *self)
{
  const char        *name = hw_choice_peek (GTK_DROP_DOWN (self->size));
  int                size = name != NULL ? hw_garment_find_size (self->garment, name) : -1;
  g_autofree double *values = NULL;

  if (self->filling || size < 0)
    return;
  values = hw_garment_dup_values (self->garment, size);
  fill_measures (self, values);
  refresh (self);
}

static void
unit_chosen_cb (GarmentForm *self)
{
  g_autofree double *values = read_measures (self);

  self->inches = g_strcmp0 (hw_choice_peek (GTK_DROP_DOWN (self->unit)), "in") == 0;
  if (values != NULL)
    fill_measures (self, values);
  refresh (self);
}

/* ---- saving ---- */

/* What the person already said of the project stays: its place, its day. */
static gboolean
fill_project (GarmentForm         *self,
              const double        *values,
              const char * const  *fabrics,
              const char          *title,
              GError             **error)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  HwProject       *next = hw_garment_make (hw_workspace_get_handbook (self->workspace), self->garment, values, fabrics,
                                           title, project->id, error);
  /* Translators: in “Undo: …”; a garment's name */
  g_autofree char *label = g_strdup_printf (_("start from a garment: %s"), self->garment->entry.name);

  if (next == NULL)
    return FALSE;
  next->due = g_strdup (project->due);
  return hw_workspace_edit (self->workspace, next, label, NULL, NULL);
}

static gboolean
save (gpointer data,
      GError **error)
{
  GarmentForm       *self = data;
  g_autofree double *values = read_measures (self);
  g_autofree const char **fabrics = g_new0 (const char *, self->garment->n_roles + 1);
  g_autofree char   *title = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->title))));

  if (values == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("Mend the measurements that are marked, then begin."));
      return FALSE;
    }
  for (gsize i = 0; i < self->garment->n_roles; i++)
    fabrics[i] = hw_garment_cloth_peek (self->cloths[i]);
  if (self->here)
    return fill_project (self, values, fabrics, title, error);
  return hw_workspace_create_garment (self->workspace, self->garment, values, fabrics, title, error);
}

/* ---- making it ---- */

static GtkWidget *
make_sizes (GarmentForm *self)
{
  GtkWidget *size = hw_choice_new ();

  for (gsize i = 0; i < self->garment->sizes->n_sizes; i++)
    hw_choice_add (GTK_DROP_DOWN (size), self->garment->sizes->names[i], self->garment->sizes->names[i]);
  hw_choice_add (GTK_DROP_DOWN (size), "", _("own measurements"));
  hw_choice_select (GTK_DROP_DOWN (size), self->garment->sizes->names[self->garment->size]);
  return size;
}

static GtkWidget *
make_cell (const char *name,
           GtkWidget  *control)
{
  GtkWidget *cell = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *label = hw_label_new (name, "small");

  gtk_widget_add_css_class (label, "mute");
  gtk_label_set_width_chars (GTK_LABEL (label), CELL_EM);
  gtk_label_set_max_width_chars (GTK_LABEL (label), CELL_EM * 2);
  gtk_box_append (GTK_BOX (cell), label);
  gtk_box_append (GTK_BOX (cell), control);
  hw_control_name (control, name);
  return cell;
}

static GtkWidget *
make_measures (GarmentForm *self)
{
  GtkWidget *wrap = hw_wrap_new (14, 8);

  for (gsize i = 0; i < self->garment->n_measurements; i++)
    {
      Measure   *measure = &self->measures[i];
      GtkWidget *cell;

      measure->entry = hw_form_entry (NULL, NULL);
      gtk_widget_set_halign (measure->entry, GTK_ALIGN_START);
      measure->error = hw_label_new (NULL, "rust");
      gtk_widget_add_css_class (measure->error, "small");      /* empty it keeps its line, so that nothing moves */
      cell = make_cell (self->garment->measurements[i].name, measure->entry);
      gtk_box_append (GTK_BOX (cell), measure->error);
      hw_wrap_append (HW_WRAP (wrap), cell);
      g_signal_connect_swapped (measure->entry, "changed", G_CALLBACK (measure_changed_cb), self);
    }
  return wrap;
}

static GtkWidget *
make_cloths (GarmentForm *self)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  GtkWidget        *wrap = hw_wrap_new (14, 10);

  for (gsize i = 0; i < self->garment->n_roles; i++)
    {
      self->cloths[i] = hw_garment_cloth_new (handbook, &self->garment->roles[i]);
      hw_wrap_append (HW_WRAP (wrap), self->cloths[i]);
    }
  return wrap;
}

static void
add_size_and_unit (GarmentForm *self)
{
  self->unit = hw_choice_new ();
  hw_choice_add (GTK_DROP_DOWN (self->unit), "cm", _("centimetres"));
  hw_choice_add (GTK_DROP_DOWN (self->unit), "in", _("inches"));
  self->inches = hw_words_are_inches ();
  hw_choice_select (GTK_DROP_DOWN (self->unit), self->inches ? "in" : "cm");
  if (self->garment->sizes != NULL)
    self->size = make_sizes (self);
}

static gboolean
is_measured_on_the_body (const HwGarment *garment)
{
  for (gsize i = 0; i < garment->n_measurements; i++)
    if (garment->measurements[i].body >= 0)
      return TRUE;
  return FALSE;
}

static void
build (GarmentForm *self,
       HwForm      *form)
{
  GtkWidget *how = hw_wrap_new (14, 8);

  self->title = hw_form_entry (self->here ? hw_workspace_peek_project (self->workspace)->title
                                          : self->garment->entry.name, NULL);
  gtk_entry_set_max_length (GTK_ENTRY (self->title), 200);
  if (self->garment->entry.note != NULL)
    hw_form_add_wide (form, hw_label_new (self->garment->entry.note, "mute"));
  hw_form_add (form, _("_Title"), self->title);
  add_size_and_unit (self);
  if (self->size != NULL)
    hw_wrap_append (HW_WRAP (how), make_cell (_("Size"), self->size));
  hw_wrap_append (HW_WRAP (how), make_cell (_("Measured in"), self->unit));
  hw_form_add_wide (form, how);
  if (is_measured_on_the_body (self->garment))
    hw_form_add_wide (form, hw_label_new (_("Measured on the body; the seams are reckoned with the garment’s ease."),
                                          "mute"));
  hw_form_add_wide (form, make_measures (self));
  hw_form_add_wide (form, hw_label_new (_("Fabrics"), "heading"));
  hw_form_add_wide (form, make_cloths (self));
  hw_form_add_wide (form, hw_label_new (_("Is yours not among them? Take the nearest. After “Begin” its tile above the "
                                          "steps takes your own mass and thickness."), "mute"));
  self->sum = hw_label_new (NULL, "strong");
  self->steps = hw_label_new (NULL, "small");
  hw_form_add_foot (form, self->sum);
  hw_form_add_wide (form, self->steps);
}

GtkWidget *
hw_garment_form_new (HwWorkspace     *workspace,
                     const HwGarment *garment,
                     gboolean         here)
{
  GtkWidget         *form = hw_form_new (garment->entry.name, _("Begin"));
  GarmentForm       *self = g_new0 (GarmentForm, 1);
  g_autofree double *values = hw_garment_dup_values (garment, garment->size);

  self->workspace = g_object_ref (workspace);
  self->garment = garment;
  self->here = here;
  self->measures = g_new0 (Measure, MAX (garment->n_measurements, 1));
  self->cloths = g_new0 (GtkWidget *, MAX (garment->n_roles, 1));
  build (self, HW_FORM (form));
  fill_measures (self, values);
  refresh (self);
  if (self->size != NULL)
    g_signal_connect_swapped (self->size, "notify::selected", G_CALLBACK (size_chosen_cb), self);
  g_signal_connect_swapped (self->unit, "notify::selected", G_CALLBACK (unit_chosen_cb), self);
  hw_form_set_save (HW_FORM (form), save, self, free_form);
  return form;
}
