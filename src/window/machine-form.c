/* machine-form.c - the form of a machine: what its manual says
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each field says where its value stands or how it is measured. What the form does not ask stays as it was.
 */

#include "config.h"

#include "window/forms.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"
#include "words/words.h"

typedef struct
{
  HwWorkspace   *workspace;
  char          *id;                    /* NULL: a new machine */
  HwMachineKind  kind;
  GtkWidget     *name, *system, *dial_form, *dial_low, *dial_high, *dial_neutral;
  GtkWidget     *teacher;               /* NULL: the room has no other machine of its kind */
  GtkWidget     *length, *width, *opening, *lift, *speed, *hook, *bobbin, *flat;
  GtkWidget     *hours, *running;
  GtkWidget    **own;                   /* [n_stitches] entries; NULL for those of other machines */
  GtkWidget    **feet, **plates;        /* check buttons, likewise */
  GtkWidget    **care;                  /* [n_care] entries */
} MachineForm;

static void
free_form (gpointer data)
{
  MachineForm *self = data;

  g_object_unref (self->workspace);
  g_free (self->id);
  g_free (self->own);
  g_free (self->feet);
  g_free (self->plates);
  g_free (self->care);
  g_free (self);
}

/* ---- saving ---- */

/* What nobody touched stays as it was, to the last digit that the field does not show. */
static double
spin_value (GtkWidget *spin)
{
  const double *before = g_object_get_data (G_OBJECT (spin), "hw-before");
  double        value = gtk_spin_button_get_value (GTK_SPIN_BUTTON (spin));

  return before != NULL && value == before[1] ? before[0] : value;
}

static char *
take_text (GtkWidget *entry)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  return text[0] != '\0' ? g_steal_pointer (&text) : NULL;
}

static gboolean
is_machine (gconstpointer room,
            const char   *id)
{
  return hw_room_find_machine (room, id) != NULL;
}

static void
collect_stitches (const MachineForm *self,
                  HwMachine         *machine)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  machine->stitches = g_new0 (HwOwnStitch, handbook->n_stitches + 1);
  for (gsize i = 0; i < handbook->n_stitches; i++)
    {
      g_autofree char *own = self->own[i] != NULL ? take_text (self->own[i]) : NULL;

      if (own == NULL)
        continue;
      machine->stitches[machine->n_stitches].stitch = g_strdup (handbook->stitches[i].entry.id);
      machine->stitches[machine->n_stitches++].own = g_steal_pointer (&own);
    }
}

/* (transfer full): the ids of those that are ticked. */
static char **
collect_ticked (GtkWidget    **ticks,
                const HwFoot  *table,
                gsize          n)
{
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  for (gsize i = 0; i < n; i++)
    if (ticks[i] != NULL && gtk_check_button_get_active (GTK_CHECK_BUTTON (ticks[i])))
      g_strv_builder_add (ids, table[i].entry.id);
  return g_strv_builder_end (ids);
}

static gboolean
collect_care (const MachineForm *self,
              HwMachine         *machine,
              GError           **error)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  machine->care = g_new0 (HwOwnCare, handbook->n_care + 1);
  for (gsize i = 0; i < handbook->n_care; i++)
    {
      double limit = NAN;

      if (self->care[i] == NULL)
        continue;
      if (!hw_form_get_number (self->care[i], handbook->care[i].entry.name, NAN, &limit, error))
        return FALSE;
      if (isnan (limit))
        continue;
      machine->care[machine->n_care].care = g_strdup (handbook->care[i].entry.id);
      machine->care[machine->n_care++].limit = limit;
    }
  return TRUE;
}

static void
collect_values (const MachineForm *self,
                HwMachine         *machine)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  machine->kind = self->kind;
  machine->system = g_strdup (hw_choice_peek (GTK_DROP_DOWN (self->system)));
  machine->dial_form = (HwDialForm) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->dial_form));
  machine->dial = (HwDialScale) { spin_value (self->dial_low), spin_value (self->dial_high),
                                  spin_value (self->dial_neutral) };
  machine->learned_from = self->teacher != NULL ? g_strdup (hw_choice_peek (GTK_DROP_DOWN (self->teacher))) : NULL;
  machine->length_max_mm = spin_value (self->length);
  machine->width_max_mm = spin_value (self->width);
  machine->plate_opening_mm = spin_value (self->opening);
  machine->foot_lift_mm = spin_value (self->lift);
  machine->speed_spm = spin_value (self->speed);
  if (self->bobbin != NULL)
    {
      machine->bobbin_cm3 = spin_value (self->bobbin);
      machine->hook = (HwHook) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->hook));
    }
  machine->needle_flat = g_strdup (hw_choice_peek (GTK_DROP_DOWN (self->flat)));
  machine->start_hours = spin_value (self->hours);
  machine->start_running = spin_value (self->running);
  machine->feet = collect_ticked (self->feet, handbook->feet, handbook->n_feet);
  machine->plates = collect_ticked (self->plates, handbook->plates, handbook->n_plates);
  collect_stitches (self, machine);
}

static gboolean
save_machine (gpointer data,
              GError **error)
{
  MachineForm          *self = data;
  const HwRoom         *room = hw_workspace_get_room (self->workspace);
  g_autofree char      *name = take_text (self->name);
  g_autofree char      *id = NULL;
  g_autoptr (HwMachine) machine = NULL;
  HwRoom               *next;

  if (name == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("Give the machine a name, such as “The blue one”"));
      return FALSE;
    }
  id = self->id != NULL ? g_strdup (self->id) : hw_form_make_id (name, is_machine, room);
  machine = hw_machine_new (id, name, self->kind);
  collect_values (self, machine);
  if (!collect_care (self, machine, error))
    return FALSE;
  next = hw_room_with_machine (room, machine, error);
  return next != NULL && hw_workspace_take_room (self->workspace, next, NULL);
}

/* ---- making ---- */

static void
add_spin (HwForm     *form,
          GtkWidget **spin,
          const char *label,
          const char *hint,
          double      value,
          double      low,
          double      high,
          double      step,
          guint       digits)
{
  double *before = g_new (double, 2);    /* the value, and what the field makes of it */

  *spin = hw_form_spin (value, low, high, step, digits);
  gtk_spin_button_update (GTK_SPIN_BUTTON (*spin));
  before[0] = value;
  before[1] = gtk_spin_button_get_value (GTK_SPIN_BUTTON (*spin));
  g_object_set_data_full (G_OBJECT (*spin), "hw-before", before, g_free);
  hw_form_add (form, label, *spin);
  if (hint != NULL)
    hw_form_add_hint (form, hint);
}

/* What one machine learned is a fair start for another of its kind: their dials differ less than cloths do. */
static void
add_teacher (MachineForm     *self,
             HwForm          *form,
             const HwMachine *machine)
{
  const HwRoom *room = hw_workspace_get_room (self->workspace);
  GtkWidget    *choice = hw_choice_new ();
  guint         n = 0;

  hw_choice_add (GTK_DROP_DOWN (choice), NULL, _("the handbook’s figures"));
  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *other = room->machines->pdata[i];

      if (other->kind != self->kind || g_strcmp0 (other->id, self->id) == 0)
        continue;
      hw_choice_add (GTK_DROP_DOWN (choice), other->id, other->name);
      n++;
    }
  if (n == 0)
    {
      g_object_unref (g_object_ref_sink (choice));
      return;
    }
  self->teacher = choice;
  if (self->id == NULL || !hw_choice_select (GTK_DROP_DOWN (choice), machine->learned_from))
    hw_choice_select (GTK_DROP_DOWN (choice), NULL);
  hw_form_add (form, _("Its starting numbers begin with"), choice);
  hw_form_add_hint (form, _("What test seams taught another machine of its kind, moved to the numbers of this dial. "
                            "Its own test seams teach it further."));
}

static void
add_dial (MachineForm     *self,
          HwForm          *form,
          const HwMachine *machine)
{
  static const char * const forms[] = { "edge-wheel", "knob", "number" };
  static const char * const names[] = { N_("A wheel at the edge"), N_("A round knob"), N_("A number on a display") };

  self->dial_form = hw_choice_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    hw_choice_add (GTK_DROP_DOWN (self->dial_form), forms[i], _(names[i]));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->dial_form), (guint) machine->dial_form);
  hw_form_add_heading (form, _("Tension dial"));
  hw_form_add (form, _("Form of the _dial"), self->dial_form);
  hw_form_add_hint (form, _("Cards draw it as it looks on the machine."));
  add_spin (form, &self->dial_low, _("Low_est number"), NULL, machine->dial.low, -20, 100, 1, 0);
  add_spin (form, &self->dial_high, _("_Highest number"), NULL, machine->dial.high, -20, 200, 1, 0);
  add_spin (form, &self->dial_neutral, _("Ne_utral number"),
            _("Where the manual starts an ordinary seam: often marked, or the middle of the numbers that are set off."),
            machine->dial.neutral, -20, 200, 0.5, 1);
  add_teacher (self, form, machine);
}

static void
add_hook (MachineForm     *self,
          HwForm          *form,
          const HwMachine *machine)
{
  self->hook = hw_choice_new ();
  hw_choice_add (GTK_DROP_DOWN (self->hook), "front", _("From the front or side, in a case"));
  hw_choice_add (GTK_DROP_DOWN (self->hook), "top", _("From above, dropped in"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->hook), (guint) machine->hook);
  hw_form_add (form, _("The _bobbin goes in"), self->hook);
  add_spin (form, &self->bobbin, _("_Room on the bobbin, cm³"),
            hw_words_are_inches ()
            ? _("12.87 × width inside × (full² − core²), all in inches. Most hold 2 to 3 cm³.")
            : _("0.785 × width inside × (full² − core²), all in cm. Most hold 2 to 3 cm³."),
            machine->bobbin_cm3, 0.1, 20, 0.1, 2);
}

static void
add_limits (MachineForm     *self,
            HwForm          *form,
            const HwMachine *machine)
{
  hw_form_add_heading (form, _("What it can do"));
  add_spin (form, &self->length, _("_Longest stitch, mm"), _("In the manual’s list of data."), machine->length_max_mm,
            0.5, 12, 0.5, 1);
  add_spin (form, &self->width, _("_Widest stitch, mm"), _("In the manual’s list of data; for an overlocker the "
            "widest edge."), machine->width_max_mm, 0, 12, 0.5, 1);
  add_spin (form, &self->opening, _("_Opening in the plate, mm"),
            _("Measure the slot that the needle swings in; a twin needle must fit."), machine->plate_opening_mm, 0, 15,
            0.5, 1);
  add_spin (form, &self->lift, _("Foot l_ift, mm"), _("How much cloth goes under the raised foot."),
            machine->foot_lift_mm, 1, 30, 0.5, 1);
  add_spin (form, &self->speed, _("_Top speed, stitches a minute"), _("In the manual’s list of data."),
            machine->speed_spm, 50, 6000, 50, 0);
  if (self->kind == HW_MACHINE_LOCKSTITCH)
    add_hook (self, form, machine);
}

static void
add_needle (MachineForm     *self,
            HwForm          *form,
            const HwMachine *machine)
{
  static const char * const flats[] = { "back", "right", "left", "front" };
  static const char * const names[] = { NC_("where it faces", "Back"), NC_("where it faces", "Right"),
                                        NC_("where it faces", "Left"), NC_("where it faces", "Front") };
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  self->system = hw_choice_new ();
  for (gsize i = 0; i < handbook->n_systems; i++)
    if ((handbook->systems[i].machines & (1u << self->kind)) != 0)
      hw_choice_add (GTK_DROP_DOWN (self->system), handbook->systems[i].entry.id, handbook->systems[i].entry.name);
  hw_choice_select (GTK_DROP_DOWN (self->system), machine->system);
  hw_form_add (form, _("Needle _system"), self->system);
  hw_form_add_hint (form, _("Only this system fits; the manual names it."));
  self->flat = hw_choice_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (flats); i++)
    hw_choice_add (GTK_DROP_DOWN (self->flat), flats[i], g_dpgettext2 (NULL, "where it faces", names[i]));
  hw_choice_select (GTK_DROP_DOWN (self->flat), machine->needle_flat);
  hw_form_add (form, _("The needle’s flat side _faces"), self->flat);
  hw_form_add_hint (form, _("The back on most machines; the manual decides."));
}

static const char *
find_own (const HwMachine *machine,
          const char      *stitch)
{
  for (gsize i = 0; i < machine->n_stitches; i++)
    if (g_str_equal (machine->stitches[i].stitch, stitch))
      return machine->stitches[i].own;
  return NULL;
}

static void
add_stitches (MachineForm     *self,
              HwForm          *form,
              const HwMachine *machine)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  self->own = g_new0 (GtkWidget *, handbook->n_stitches + 1);
  hw_form_add_heading (form, _("Its own numbers for the stitches"));
  for (gsize i = 0; i < handbook->n_stitches; i++)
    {
      const HwStitch *stitch = &handbook->stitches[i];

      if ((stitch->machines & (1u << self->kind)) == 0)
        continue;
      self->own[i] = hw_form_entry (find_own (machine, stitch->entry.id), _("as it is called here"));
      hw_form_add (form, stitch->entry.name, self->own[i]);
    }
}

static void
add_ticks (HwForm              *form,
           GtkWidget         ***ticks,
           const char          *heading,
           const HwFoot        *table,
           gsize                n,
           const char * const  *owned,
           HwMachineKind        kind)
{
  *ticks = g_new0 (GtkWidget *, n + 1);
  hw_form_add_heading (form, heading);
  for (gsize i = 0; i < n; i++)
    {
      if (table[i].machines != 0 && (table[i].machines & (1u << kind)) == 0)
        continue;
      (*ticks)[i] = gtk_check_button_new ();
      gtk_check_button_set_child (GTK_CHECK_BUTTON ((*ticks)[i]), hw_label_new (table[i].entry.name, NULL));
      gtk_accessible_update_property (GTK_ACCESSIBLE ((*ticks)[i]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      table[i].entry.name, -1);
      gtk_check_button_set_active (GTK_CHECK_BUTTON ((*ticks)[i]),
                                   owned != NULL && g_strv_contains (owned, table[i].entry.id));
      hw_form_add_wide (form, (*ticks)[i]);
    }
}

static void
add_feet (MachineForm     *self,
          HwForm          *form,
          const HwMachine *machine)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  add_ticks (form, &self->feet, _("Feet that came with it or were bought"), handbook->feet, handbook->n_feet,
             (const char * const *) machine->feet, self->kind);
  if (self->kind == HW_MACHINE_LOCKSTITCH)
    add_ticks (form, &self->plates, _("Needle plates"), handbook->plates, handbook->n_plates,
               (const char * const *) machine->plates, self->kind);
  else
    self->plates = g_new0 (GtkWidget *, handbook->n_plates + 1);
}

static char *
say_own_limit (const HwMachine *machine,
               const char      *care)
{
  for (gsize i = 0; i < machine->n_care; i++)
    if (g_str_equal (machine->care[i].care, care))
      return hw_words_number (machine->care[i].limit, 1);
  return NULL;
}

static const char *
unit_of (const HwCareTask *task)
{
  switch (task->clock)
    {
    case HW_CLOCK_MONTHS:
      return _("months");
    case HW_CLOCK_SEWING_DAY:
      return _("sewing days");
    case HW_CLOCK_RUNNING:
      return _("hours the needle moves");
    case HW_CLOCK_AT_MACHINE:
    default:
      return _("hours at the machine");
    }
}

static void
add_care (MachineForm     *self,
          HwForm          *form,
          const HwMachine *machine)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);

  self->care = g_new0 (GtkWidget *, handbook->n_care + 1);
  hw_form_add_heading (form, _("Care by its own manual"));
  hw_form_add_wide (form, hw_label_new (_("Left empty, the ordinary interval counts. 0: never. Oil only where the "
                                          "manual gives an interval."), "small"));
  for (gsize i = 0; i < handbook->n_care; i++)
    {
      const HwCareTask *task = &handbook->care[i];
      g_autofree char  *own = say_own_limit (machine, task->entry.id);
      g_autofree char  *ordinary = hw_words_number (task->limit, 1);
      g_autofree char  *label = NULL;

      if ((task->machines & (1u << self->kind)) == 0 || !(task->limit > 0))
        continue;
      /* Translators: a care task and the unit of its interval: “Oil: hours at the machine” */
      label = g_strdup_printf (_("%s: %s"), task->entry.name, unit_of (task));
      self->care[i] = hw_form_entry (own, task->only_by_manual ? _("as the manual says") : ordinary);
      hw_form_add (form, label, self->care[i]);
    }
}

static void
add_start (MachineForm     *self,
           HwForm          *form,
           const HwMachine *machine)
{
  hw_form_add_heading (form, _("Before this journal"));
  add_spin (form, &self->hours, _("Hours at the machine"), _("What it had been sewn with already; a guess will do."),
            machine->start_hours, 0, 100000, 1, 0);
  add_spin (form, &self->running, _("Hours the needle moved"), _("About a third of the hours at the machine."),
            machine->start_running, 0, 100000, 1, 0);
}

void
hw_machine_form_show_care (GtkWidget  *form,
                           const char *care)
{
  const MachineForm *self = g_object_get_data (G_OBJECT (form), "hw-machine-form");
  int                index = hw_handbook_find_care (hw_workspace_get_handbook (self->workspace), care);

  if (index < 0 || self->care[index] == NULL)
    return;
  gtk_widget_grab_focus (self->care[index]);
  hw_when_placed (self->care[index], hw_bring_into_sight);
}

/* What a new one of @kind is filled in with: borrowed from @example, that must outlive it. */
static const HwMachine *
find_example (const HwRoom  *example,
              HwMachineKind  kind)
{
  const HwMachine *machine = hw_room_default_machine (example, kind);

  return machine != NULL ? machine : hw_room_default_machine (example, HW_MACHINE_OVERLOCK);
}

GtkWidget *
hw_machine_form_new (HwWorkspace   *workspace,
                     const char    *id,
                     HwMachineKind  kind)
{
  const HwRoom      *room = hw_workspace_get_room (workspace);
  g_autoptr (HwRoom) example = hw_room_new_default (room->folder);
  const HwMachine   *known = id != NULL ? hw_room_find_machine (room, id) : NULL;
  const HwMachine   *machine = known != NULL ? known : find_example (example, kind);
  HwForm            *form = HW_FORM (hw_form_new (known != NULL ? _("Change the machine") : _("New machine"),
                                                  known != NULL ? _("Save") : _("Add it")));
  MachineForm       *self = g_new0 (MachineForm, 1);

  g_object_set_data (G_OBJECT (form), "hw-machine-form", self);
  self->workspace = g_object_ref (workspace);
  self->id = known != NULL ? g_strdup (id) : NULL;
  self->kind = known != NULL ? known->kind : kind;
  self->name = hw_form_entry (known != NULL ? known->name : NULL, _("What you call it"));
  hw_form_add (form, _("_Name"), self->name);
  hw_form_add_hint (form, _("Have its manual at hand: where the two differ, the manual is right."));
  add_needle (self, form, machine);
  add_dial (self, form, machine);
  add_limits (self, form, machine);
  add_stitches (self, form, machine);
  add_feet (self, form, machine);
  add_care (self, form, machine);
  add_start (self, form, machine);
  if (known != NULL)
    hw_form_add_button (form, _("Remove"), "machines.remove", id);
  hw_form_set_save (form, save_machine, self, free_form);
  return GTK_WIDGET (form);
}
