/* override-editor.c - sets one value of a set-up by hand
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A number has a spin button, a choice a drop-down. A needle's size and the gap of a twin are numbers that come in the
 * sizes sold, so they are chosen too. What lies outside the band can be set as well; it is said beside it.
 */

#include "config.h"

#include "window/override-editor.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/form.h"
#include "words/words.h"

struct _HwOverrideEditor
{
  GtkBox       parent_instance;
  HwWorkspace *workspace;
  HwField      field;
  GtkWidget   *heading;
  GtkWidget   *control;                 /* spin button or drop-down */
  GtkWidget   *band, *reset;
  double       top;                     /* of the control in the scrolled window, before it was changed */
  gboolean     moving;                  /* until it is back there */
  GPtrArray   *labels;                  /* of the drop-down as filled last */
  char        *number;                  /* the step shown */
  gboolean     showing;                 /* our own changes are not the person's */
};

G_DEFINE_FINAL_TYPE (HwOverrideEditor, hw_override_editor, GTK_TYPE_BOX)

/* low, high, step, decimals of the spin button; no step: a choice */
static const struct { double low, high, step; guint digits; } spins[HW_N_FIELDS] = {
  [HW_FIELD_NEEDLE_TEX] = { 5, 300, 1, 0 },
  [HW_FIELD_BOBBIN_TEX] = { 5, 300, 1, 0 },
  [HW_FIELD_LENGTH] = { 0.2, 12, 0.1, 2 },
  [HW_FIELD_WIDTH] = { 0, 12, 0.5, 2 },
  [HW_FIELD_PRESSURE] = { -3, 3, 1, 0 },
  [HW_FIELD_DIAL] = { 0, 20, 0.5, 1 },
  [HW_FIELD_ALLOWANCE] = { 0, 100, 1, 1 },
  [HW_FIELD_DIFFERENTIAL] = { 0.5, 3, 0.1, 1 },
  [HW_FIELD_CUTTING_WIDTH] = { 1, 12, 0.5, 1 },
};

static gboolean
is_spin (HwField field)
{
  return spins[field].step > 0;
}

/* ---- in its place ---- */

static double
find_top (HwOverrideEditor *self,
          GtkWidget        *scrolled)
{
  double x = 0;
  double top = 0;

  gtk_widget_translate_coordinates (self->control, scrolled, 0, 0, &x, &top);
  return top;
}

/* What was said above it may have grown by a line. */
static void
put_back (GtkWidget *widget)
{
  HwOverrideEditor *self = HW_OVERRIDE_EDITOR (widget);
  GtkWidget        *scrolled = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment    *sight;

  self->moving = FALSE;
  if (scrolled == NULL)
    return;
  sight = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));
  gtk_adjustment_set_value (sight, gtk_adjustment_get_value (sight) + find_top (self, scrolled) - self->top);
}

/* The button under the pointer stays under it, for the next press. */
static void
keep_place (HwOverrideEditor *self)
{
  GtkWidget *scrolled = gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_SCROLLED_WINDOW);

  if (scrolled == NULL || self->moving || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  self->top = find_top (self, scrolled);
  self->moving = TRUE;
  hw_when_placed (GTK_WIDGET (self), put_back);
}

/* ---- writing ---- */

static void
set_override (HwOverrideEditor *self,
              double            value,
              const char       *choice)
{
  const HwProject   *project = hw_workspace_peek_project (self->workspace);
  g_autofree char   *name = hw_words_field (self->field);
  /* Translators: in “Undo: …”; the value's name and the step's number */
  g_autofree char   *label = g_strdup_printf (_("%s of step %s"), name, self->number);
  g_autofree char   *merge = g_strdup_printf ("set-%s-%s", hw_field_ids[self->field], self->number);
  g_autoptr (GError) error = NULL;
  HwProject         *next = hw_edit_set_override (project, self->number, self->field, value, choice, &error);

  keep_place (self);
  hw_workspace_edit (self->workspace, next, label, is_spin (self->field) ? merge : NULL, error);
}

static void
spun_cb (HwOverrideEditor *self)
{
  if (!self->showing)
    set_override (self, gtk_spin_button_get_value (GTK_SPIN_BUTTON (self->control)), NULL);
}

static void
chosen_cb (HwOverrideEditor *self)
{
  const char *id = hw_choice_peek (GTK_DROP_DOWN (self->control));

  if (self->showing || id == NULL)
    return;
  if (hw_field_is_choice (self->field))
    set_override (self, 0, id);
  else
    set_override (self, g_ascii_strtod (id, NULL), NULL);
}

static void
reset_cb (HwOverrideEditor *self)
{
  const HwProject   *project = hw_workspace_peek_project (self->workspace);
  g_autofree char   *name = hw_words_field (self->field);
  /* Translators: in “Undo: …”; the value's name and the step's number */
  g_autofree char   *label = g_strdup_printf (_("the handbook’s value again: %s of step %s"), name, self->number);
  g_autoptr (GError) error = NULL;
  HwProject         *next = hw_edit_clear_override (project, self->number, self->field, &error);

  gtk_widget_grab_focus (self->control);        /* the button is about to go */
  hw_workspace_edit (self->workspace, next, label, NULL, error);
}

/* ---- showing ---- */

typedef struct
{
  const HwPlan  *plan;
  const HwSetup *setup;
  HwField        field;
  GPtrArray     *ids, *labels;
} Options;

static void
add_option (Options    *options,
            const char *id,
            double      value)
{
  const HwValue   *present = &options->setup->values[options->field];
  g_autofree char *words = hw_words_quantity (options->plan, options->setup, options->field, value);
  gboolean         outside = options->field != HW_FIELD_MACHINE && options->field != HW_FIELD_STITCH
                             && options->field != HW_FIELD_SYSTEM
                             && !hw_value_accepts (present, options->field, value);

  g_ptr_array_add (options->ids, g_strdup (id));
  /* Translators: a choice that does not pass for this operation */
  g_ptr_array_add (options->labels, outside ? g_strdup_printf (_("%s – outside the band"), words)
                                            : g_steal_pointer (&words));
}

static void
add_machines (Options *options)
{
  const HwRoom *room = options->plan->room;

  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *machine = g_ptr_array_index (room->machines, i);

      if ((options->setup->stitch->machines & (1u << machine->kind)) != 0)
        add_option (options, machine->id, i);
    }
}

static void
add_stitches (Options *options)
{
  const HwHandbook *handbook = options->plan->handbook;

  for (gsize i = 0; i < handbook->n_stitches; i++)
    if ((handbook->stitches[i].machines & (1u << options->setup->machine->kind)) != 0)
      add_option (options, handbook->stitches[i].entry.id, (double) i);
}

static void
add_systems (Options *options)
{
  const HwHandbook *handbook = options->plan->handbook;

  for (gsize i = 0; i < handbook->n_systems; i++)
    if ((handbook->systems[i].machines & (1u << options->setup->machine->kind)) != 0)
      add_option (options, handbook->systems[i].entry.id, (double) i);
}

static void
add_points (Options *options)
{
  const HwHandbook *handbook = options->plan->handbook;
  int               system = (int) options->setup->values[HW_FIELD_SYSTEM].value;

  for (gsize i = 0; i < handbook->n_points; i++)
    if (system < 0 || (handbook->points[i].systems & HW_SET (system)) != 0)
      add_option (options, handbook->points[i].entry.id, (double) i);
}

static const HwPoint *
get_point (const Options *options)
{
  int index = (int) options->setup->values[HW_FIELD_POINT].value;

  return index >= 0 ? &options->plan->handbook->points[index] : NULL;
}

static void
add_number (Options *options,
            double   value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  add_option (options, g_ascii_dtostr (text, sizeof text, value), value);
}

static void
add_sizes (Options *options)
{
  const HwPoint *point = get_point (options);

  for (gsize i = 0; point != NULL && i < point->n_sizes; i++)
    add_number (options, point->sizes[i]);
}

static void
add_twins (Options *options)
{
  const HwPoint *point = get_point (options);

  for (gsize i = 0; point != NULL && i < point->n_twins; i++)
    {
      gboolean again = FALSE;

      for (gsize j = 0; j < i; j++)
        again = again || G_APPROX_VALUE (point->twins[j].spacing_mm, point->twins[i].spacing_mm, 0.001);
      if (!again)
        add_number (options, point->twins[i].spacing_mm);
    }
}

static void
add_owned (Options  *options,
           char    **owned,
           int    (* find) (const HwHandbook *handbook, const char *id))
{
  for (char **id = owned; id != NULL && *id != NULL; id++)
    {
      int index = find (options->plan->handbook, *id);

      if (index >= 0)
        add_option (options, *id, index);
    }
}

static void
add_ends (Options *options)
{
  for (int i = 0; i < HW_N_ENDS; i++)
    add_option (options, hw_ends_ids[i], i);
}

static void
gather_options (Options *options)
{
  switch ((int) options->field)
    {
    case HW_FIELD_MACHINE:
      add_machines (options);
      break;
    case HW_FIELD_STITCH:
      add_stitches (options);
      break;
    case HW_FIELD_SYSTEM:
      add_systems (options);
      break;
    case HW_FIELD_POINT:
      add_points (options);
      break;
    case HW_FIELD_SIZE:
      add_sizes (options);
      break;
    case HW_FIELD_TWIN:
      add_twins (options);
      break;
    case HW_FIELD_FOOT:
      add_owned (options, options->setup->machine->feet, hw_handbook_find_foot);
      break;
    case HW_FIELD_PLATE:
      add_owned (options, options->setup->machine->plates, hw_handbook_find_plate);
      break;
    case HW_FIELD_ENDS:
      add_ends (options);
      break;
    default:
      g_assert_not_reached ();
    }
}

static gboolean
same_labels (const GPtrArray *a,
             const GPtrArray *b)
{
  if (a == NULL || a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!g_str_equal (a->pdata[i], b->pdata[i]))
      return FALSE;
  return TRUE;
}

/* The id of what is set now. */
static char *
present_id (const Options *options)
{
  const HwHandbook *handbook = options->plan->handbook;
  double            value = options->setup->values[options->field].value;
  char              text[G_ASCII_DTOSTR_BUF_SIZE];

  switch ((int) options->field)
    {
    case HW_FIELD_MACHINE:
      return g_strdup (options->setup->machine->id);
    case HW_FIELD_STITCH:
      return g_strdup (options->setup->stitch->entry.id);
    case HW_FIELD_SYSTEM:
      return value >= 0 ? g_strdup (handbook->systems[(gsize) value].entry.id) : NULL;
    case HW_FIELD_POINT:
      return value >= 0 ? g_strdup (handbook->points[(gsize) value].entry.id) : NULL;
    case HW_FIELD_FOOT:
      return value >= 0 ? g_strdup (handbook->feet[(gsize) value].entry.id) : NULL;
    case HW_FIELD_PLATE:
      return value >= 0 ? g_strdup (handbook->plates[(gsize) value].entry.id) : NULL;
    case HW_FIELD_ENDS:
      return g_strdup (hw_ends_ids[(gsize) value]);
    default:
      return g_strdup (g_ascii_dtostr (text, sizeof text, value));
    }
}

static void
show_choice (HwOverrideEditor *self,
             const HwPlan     *plan,
             const HwSetup    *setup)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) labels = g_ptr_array_new_with_free_func (g_free);
  Options          options = { plan, setup, self->field, ids, labels };
  GtkDropDown     *choice = GTK_DROP_DOWN (self->control);
  g_autofree char *id = present_id (&options);

  gather_options (&options);
  if (!same_labels (self->labels, labels))
    {
      hw_choice_clear (choice);
      for (guint i = 0; i < ids->len; i++)
        hw_choice_add (choice, ids->pdata[i], labels->pdata[i]);
      g_clear_pointer (&self->labels, g_ptr_array_unref);
      self->labels = g_steal_pointer (&labels);
    }
  hw_choice_select (choice, id);
}

/* What is good by the handbook's rules, and whether the value that is set now lies outside of it; the dial only begins
 * there. (transfer full) */
static char *
say_band (HwField     field,
          const char *band,
          gboolean    outside)
{
  if (field == HW_FIELD_DIAL)
    /* Translators: numbers on the dial, such as “4 to 4½” */
    return g_strdup_printf (outside ? _("Outside what is good to start with: %s. The scrap decides.")
                                    : _("Good to start with: %s. The scrap decides."), band);
  /* Translators: the band of a value, such as “2 to 3 mm” */
  return g_strdup_printf (outside ? _("Outside what is good by the handbook’s rule: %s")
                                  : _("Good by the handbook’s rule: %s"), band);
}

static void
show_band (HwOverrideEditor *self,
           const HwPlan     *plan,
           const HwSetup    *setup)
{
  const HwValue   *value = &setup->values[self->field];
  const char      *classes[] = { "small", "mute", NULL };
  gboolean         outside = value->applies && is_spin (self->field)
                             && !hw_value_accepts (value, self->field, value->value);
  g_autofree char *band = hw_words_band (plan, setup, self->field);
  g_autofree char *text = say_band (self->field, band, outside);

  if (outside)
    classes[1] = "brass";
  hw_label_set_figures (GTK_LABEL (self->band), text);
  gtk_widget_set_css_classes (self->band, classes);
  gtk_widget_set_visible (self->band, band[0] != '\0');
}

static void
show_name (HwOverrideEditor *self,
           const char       *name)
{
  g_autofree char *own = NULL;

  if (g_str_equal (name, gtk_label_get_text (GTK_LABEL (self->heading))))
    return;
  /* Translators: the name of a value */
  own = g_strdup_printf (_("Your own: %s"), name);
  gtk_label_set_text (GTK_LABEL (self->heading), name);
  hw_control_name (self->control, own);
}

void
hw_override_editor_show (HwOverrideEditor *self,
                         const HwPlan     *plan,
                         const HwSetup    *setup)
{
  const HwValue   *value = &setup->values[self->field];
  gboolean         always = self->field == HW_FIELD_MACHINE || self->field == HW_FIELD_STITCH;
  g_autofree char *name = NULL;

  g_return_if_fail (HW_IS_OVERRIDE_EDITOR (self));

  gtk_widget_set_visible (GTK_WIDGET (self), value->applies || always);
  if (!value->applies && !always)
    return;
  g_free (self->number);
  self->number = g_strdup (setup->step->number);
  name = hw_words_field_of (setup, self->field);
  show_name (self, name);
  self->showing = TRUE;
  if (is_spin (self->field))
    gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->control), value->value);
  else
    show_choice (self, plan, setup);
  self->showing = FALSE;
  show_band (self, plan, setup);
  gtk_widget_set_visible (self->reset, value->origin == HW_ORIGIN_OVERRIDDEN);
}

/* ---- the object ---- */

static void
hw_override_editor_dispose (GObject *object)
{
  HwOverrideEditor *self = HW_OVERRIDE_EDITOR (object);

  g_clear_object (&self->workspace);
  g_clear_pointer (&self->labels, g_ptr_array_unref);
  g_clear_pointer (&self->number, g_free);
  G_OBJECT_CLASS (hw_override_editor_parent_class)->dispose (object);
}

static void
hw_override_editor_class_init (HwOverrideEditorClass *class)
{
  G_OBJECT_CLASS (class)->dispose = hw_override_editor_dispose;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hw_override_editor_init (HwOverrideEditor *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 2);
}

static GtkWidget *
make_control (HwOverrideEditor *self)
{
  GtkWidget *control;

  if (is_spin (self->field))
    {
      control = hw_form_spin (spins[self->field].low, spins[self->field].low, spins[self->field].high,
                              spins[self->field].step, spins[self->field].digits);
      hw_form_tell_spin (GTK_SPIN_BUTTON (control), self->workspace);
      g_signal_connect_swapped (control, "value-changed", G_CALLBACK (spun_cb), self);
      return control;
    }
  control = hw_choice_new ();
  gtk_widget_set_hexpand (control, TRUE);
  g_signal_connect_swapped (control, "notify::selected", G_CALLBACK (chosen_cb), self);
  return control;
}

GtkWidget *
hw_override_editor_new (HwWorkspace *workspace,
                        HwField      field)
{
  HwOverrideEditor *self = g_object_new (HW_TYPE_OVERRIDE_EDITOR, NULL);
  GtkWidget        *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autofree char  *name = hw_words_field (field);
  g_autofree char  *back = g_strdup_printf (_("The handbook’s value again: %s"), name);

  self->heading = hw_label_new (NULL, "small");
  self->workspace = g_object_ref (workspace);
  self->field = field;
  gtk_widget_add_css_class (self->heading, "mute");
  gtk_box_append (GTK_BOX (self), self->heading);
  self->control = make_control (self);
  show_name (self, name);
  self->band = hw_label_new (NULL, "small");
  gtk_widget_add_css_class (self->band, "mute");
  self->reset = gtk_button_new_with_label (_("Take it back"));
  gtk_widget_add_css_class (self->reset, "link");
  gtk_widget_set_tooltip_text (self->reset, back);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->reset), GTK_ACCESSIBLE_PROPERTY_LABEL, back, -1);
  g_signal_connect_swapped (self->reset, "clicked", G_CALLBACK (reset_cb), self);
  gtk_box_append (GTK_BOX (line), self->control);
  gtk_box_append (GTK_BOX (line), self->reset);
  gtk_box_append (GTK_BOX (self), line);
  gtk_box_append (GTK_BOX (self), self->band);
  return GTK_WIDGET (self);
}
