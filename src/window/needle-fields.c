/* needle-fields.c - which needle: fields for its kind, and the choice of the one that is in a machine now
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/needle-fields.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "plan/care.h"
#include "window/controls.h"
#include "window/room-forms.h"
#include "words/words-room.h"
#include "words/words.h"

#define ELSEWHERE "elsewhere"            /* what is chosen: this, "new ID of the packet" or "used ID of the needle" */
#define NEW "new "
#define USED "used "

struct _HwNeedleNow
{
  GtkWidget     *which, *own, *discard;
  HwNeedleFields fields;
};

/* ---- its kind ---- */

void
hw_needle_fields_add_kind (HwNeedleFields   *self,
                           HwForm           *form,
                           const HwHandbook *handbook,
                           const HwPacket   *packet)
{
  self->system = hw_choice_new ();
  for (gsize i = 0; i < handbook->n_systems; i++)
    hw_choice_add (GTK_DROP_DOWN (self->system), handbook->systems[i].entry.id, handbook->systems[i].entry.name);
  hw_choice_select (GTK_DROP_DOWN (self->system), packet != NULL ? packet->system : handbook->systems[0].entry.id);
  hw_form_add (form, _("S_ystem"), self->system);
  self->point = hw_choice_new ();
  for (gsize i = 0; i < handbook->n_points; i++)
    {
      g_autofree char *name = hw_words_point (&handbook->points[i]);

      hw_choice_add (GTK_DROP_DOWN (self->point), handbook->points[i].entry.id, name);
    }
  hw_choice_select (GTK_DROP_DOWN (self->point), packet != NULL ? packet->point : handbook->points[0].entry.id);
  hw_form_add (form, _("_Point"), self->point);
}

void
hw_needle_fields_add_sizes (HwNeedleFields *self,
                            HwForm         *form,
                            const HwPacket *packet)
{
  g_autofree char *nm = packet != NULL ? g_strdup_printf ("%d", packet->nm) : NULL;
  g_autofree char *twin = packet != NULL && packet->twin_mm > 0 ? hw_words_number (packet->twin_mm, 1) : NULL;

  self->size = hw_form_entry (nm, _("80"));
  hw_form_add (form, _("S_ize, the first number on the packet"), self->size);
  self->twin = hw_form_entry (twin, _("a single needle"));
  hw_form_add (form, _("Spacing of a _twin needle, mm"), self->twin);
}

gboolean
hw_needle_fields_read (const HwNeedleFields *self,
                       HwNeedleFieldKind    *kind,
                       GError              **error)
{
  kind->system = hw_choice_peek (GTK_DROP_DOWN (self->system));
  kind->point = hw_choice_peek (GTK_DROP_DOWN (self->point));
  if (kind->system == NULL || kind->point == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("Choose the needle’s system and point"));
      return FALSE;
    }
  return hw_form_get_number (self->size, _("The size"), 80, &kind->nm, error)
         && hw_form_get_number (self->twin, _("The spacing of a twin needle"), 0, &kind->twin_mm, error);
}

/* ---- into a machine ---- */

HwJournalEntry *
hw_needle_load_entry (const HwMachine *machine,
                      const HwNeedle  *needle,
                      const HwPacket  *packet)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_LOAD, machine->id);

  entry->needle = needle != NULL ? g_strdup (needle->id) : g_uuid_string_random ();
  entry->packet = packet != NULL ? g_strdup (packet->id) : NULL;
  entry->system = g_strdup (packet != NULL ? packet->system : needle->system);
  entry->point = g_strdup (packet != NULL ? packet->point : needle->point);
  entry->nm = packet != NULL ? packet->nm : needle->nm;
  entry->twin_mm = packet != NULL ? packet->twin_mm : needle->twin_mm;
  return entry;
}

/* What stays behind of a load: the needle that came out. */
char *
hw_needle_say_load (const HwHandbook     *handbook,
                    const HwMachine      *machine,
                    const HwNeedle       *old,
                    const HwJournalEntry *entry)
{
  g_autofree char *needle = hw_words_needle_loaded (handbook, entry);
  g_autofree char *out = old != NULL ? hw_words_needle_of (handbook, old) : NULL;

  if (old == NULL || g_strcmp0 (old->id, entry->needle) == 0)
    /* Translators: a machine's name, a needle and perhaps its thread */
    return g_strdup_printf (_("%s: %s is in."), machine->name, needle);
  if (g_strcmp0 (entry->verdict, "discarded") == 0)
    /* Translators: a machine's name, the needle that went in, the one that came out */
    return g_strdup_printf (_("%s: %s is in, %s thrown away."), machine->name, needle, out);
  /* Translators: a machine's name, the needle that went in, the one that came out */
  return g_strdup_printf (_("%s: %s is in, %s back in the case."), machine->name, needle, out);
}

/* ---- which one is in now ---- */

static void
add_new (GtkDropDown      *which,
         const HwHandbook *handbook,
         const HwPacket   *packet)
{
  g_autofree char *id = g_strconcat (NEW, packet->id, NULL);
  g_autofree char *name = hw_words_packet (handbook, packet);
  /* Translators: a needle */
  g_autofree char *label = g_strdup_printf (_("%s, new"), name);

  hw_choice_add (which, id, label);
}

static void
add_used (GtkDropDown      *which,
          const HwHandbook *handbook,
          const HwNeedle   *needle)
{
  g_autofree char *id = g_strconcat (USED, needle->id, NULL);
  g_autofree char *name = hw_words_needle_of (handbook, needle);
  g_autofree char *hours = hw_words_hours (needle->at_machine_hours);
  /* Translators: a needle, the hours that it has sewn */
  g_autofree char *label = g_strdup_printf (_("%s, used %s"), name, hours);

  hw_choice_add (which, id, label);
}

static gboolean
is_kind_of (const HwPacket *packet,
            const HwNeedle *needle)
{
  return hw_packet_is_of (packet, needle->system, needle->point, needle->nm, needle->twin_mm);
}

/* Those of the machine's system that the case has, new ones of the kind of @first before all others. */
static void
list_case (GtkDropDown      *which,
           const HwHandbook *handbook,
           const HwRoom     *room,
           const HwMachine  *machine,
           const HwNeedle   *first)
{
  for (int rest = 0; rest < 2; rest++)
    for (guint i = 0; i < room->packets->len; i++)
      {
        const HwPacket *packet = g_ptr_array_index (room->packets, i);
        gboolean        same = first != NULL && is_kind_of (packet, first);

        if (same == (rest == 0) && g_str_equal (packet->system, machine->system)
            && hw_room_new_needles (room, packet) > 0)
          add_new (which, handbook, packet);
      }
  for (guint i = 0; i < room->needles->len; i++)
    {
      const HwNeedle *needle = g_ptr_array_index (room->needles, i);

      if (!needle->discarded && needle->machine == NULL && g_strcmp0 (needle->system, machine->system) == 0)
        add_used (which, handbook, needle);
    }
}

/* What the plan wants next on that machine, as it stands in the list. (transfer full) (nullable) */
static char *
find_wanted (HwWorkspace     *workspace,
             const HwMachine *machine)
{
  const HwPlan       *plan = hw_workspace_peek_plan (workspace);
  const HwNeedlePick *pick = plan != NULL ? hw_plan_now (plan, machine).next : NULL;

  if (pick != NULL && pick->worn != NULL)
    return g_strconcat (USED, pick->worn->id, NULL);
  return pick != NULL && pick->packet != NULL ? g_strconcat (NEW, pick->packet->id, NULL) : NULL;
}

static void
select_first (HwNeedleNow     *self,
              HwWorkspace     *workspace,
              const HwMachine *machine,
              const HwNeedle  *old)
{
  GtkDropDown     *which = GTK_DROP_DOWN (self->which);
  g_autofree char *wanted = old == NULL ? find_wanted (workspace, machine) : NULL;
  const HwRoom    *room = hw_workspace_get_room (workspace);

  if (wanted != NULL && hw_choice_select (which, wanted))
    return;
  gtk_drop_down_set_selected (which, 0);
  for (guint i = 0; old != NULL && i < room->packets->len; i++)
    if (is_kind_of (room->packets->pdata[i], old) && hw_room_new_needles (room, room->packets->pdata[i]) > 0)
      return;
  if (old != NULL)
    hw_choice_select (which, ELSEWHERE);
}

static void
chosen_cb (HwNeedleNow *self)
{
  gtk_widget_set_visible (self->own, g_strcmp0 (hw_choice_peek (GTK_DROP_DOWN (self->which)), ELSEWHERE) == 0);
}

/* A kind to begin with: that of the needle that comes out. */
static void
add_own (HwNeedleNow      *self,
         HwForm           *form,
         const HwHandbook *handbook,
         const HwMachine  *machine,
         const HwNeedle   *old)
{
  g_autoptr (HwPacket) like = hw_packet_new ("like", machine->system,
                                             old != NULL ? old->point : handbook->points[0].entry.id,
                                             old != NULL ? old->nm : 80);

  like->twin_mm = old != NULL ? old->twin_mm : 0;
  self->own = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  hw_form_add_wide (form, self->own);
  hw_form_add_into (form, self->own);
  hw_needle_fields_add_kind (&self->fields, form, handbook, like);
  hw_needle_fields_add_sizes (&self->fields, form, like);
  hw_form_add_into (form, gtk_widget_get_parent (self->own));
}

static gboolean
is_worn_out (const HwHandbook *handbook,
             const HwRoom     *room,
             const HwMachine  *machine)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char      *now_iso = g_date_time_format_iso8601 (now);
  g_autoptr (HwCareDue) due = hw_care_stand (handbook, room, machine, HW_CARE_NEEDLE, now_iso);

  return due != NULL && due->overdue;
}

HwNeedleNow *
hw_needle_now_add (HwForm          *form,
                   HwWorkspace     *workspace,
                   const HwMachine *machine)
{
  HwNeedleNow      *self = g_new0 (HwNeedleNow, 1);
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  const HwRoom     *room = hw_workspace_get_room (workspace);
  const HwNeedle   *old = hw_room_get_state (room, machine)->needle;

  self->which = g_object_ref (hw_choice_new ());
  list_case (GTK_DROP_DOWN (self->which), handbook, room, machine, old);
  hw_choice_add (GTK_DROP_DOWN (self->which), ELSEWHERE, _("another, not in the case"));
  hw_form_add (form, _("_Which one is in now?"), self->which);
  add_own (self, form, handbook, machine, old);
  self->discard = gtk_check_button_new_with_label (_("The needle that comes out is thrown away"));
  /* One with hours left is not thrown away unseen. */
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->discard), is_worn_out (handbook, room, machine));
  gtk_widget_set_visible (self->discard, old != NULL);
  hw_form_add_wide (form, self->discard);
  select_first (self, workspace, machine, old);
  g_signal_connect_swapped (self->which, "notify::selected", G_CALLBACK (chosen_cb), self);
  chosen_cb (self);
  return self;
}

static HwJournalEntry *
read_elsewhere (HwNeedleNow     *self,
                const HwMachine *machine,
                GError         **error)
{
  HwNeedleFieldKind    kind;
  g_autoptr (HwPacket) own = NULL;
  HwJournalEntry      *entry;

  if (!hw_needle_fields_read (&self->fields, &kind, error))
    return NULL;
  own = hw_packet_new (ELSEWHERE, kind.system, kind.point, (int) lround (kind.nm));
  own->twin_mm = kind.twin_mm;
  entry = hw_needle_load_entry (machine, NULL, own);
  g_clear_pointer (&entry->packet, g_free);
  return entry;
}

HwJournalEntry *
hw_needle_now_read (HwNeedleNow     *self,
                    const HwRoom    *room,
                    const HwMachine *machine,
                    GError         **error)
{
  const char     *id = hw_choice_peek (GTK_DROP_DOWN (self->which));
  gboolean        is_new = g_str_has_prefix (id, NEW);
  const HwPacket *packet = is_new ? hw_shelf_find (room->packets, id + strlen (NEW)) : NULL;
  const HwNeedle *needle = g_str_has_prefix (id, USED) ? hw_room_find_needle (room, id + strlen (USED)) : NULL;
  HwJournalEntry *entry;

  if (packet == NULL && needle == NULL && !g_str_equal (id, ELSEWHERE))
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("That needle is no longer in the case"));
      return NULL;
    }
  entry = packet != NULL || needle != NULL ? hw_needle_load_entry (machine, needle, packet)
                                           : read_elsewhere (self, machine, error);
  if (entry != NULL && gtk_widget_get_visible (self->discard)
      && gtk_check_button_get_active (GTK_CHECK_BUTTON (self->discard)))
    entry->verdict = g_strdup ("discarded");
  return entry;
}

void
hw_needle_now_free (HwNeedleNow *self)
{
  if (self == NULL)
    return;
  g_signal_handlers_disconnect_by_data (self->which, self);
  g_object_unref (self->which);
  g_free (self);
}
