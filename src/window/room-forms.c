/* room-forms.c - the forms of the needle case
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/room-forms.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "window/controls.h"
#include "window/needle-fields.h"
#include "words/words-room.h"
#include "words/words.h"

gboolean
hw_form_take_room (HwWorkspace *workspace,
                   HwRoom      *next,
                   GError     **error)
{
  if (next != NULL)
    return hw_workspace_take_room (workspace, next, NULL);
  if (g_error_matches (*error, HW_MODEL_ERROR, HW_MODEL_ERROR_CHANGED))
    hw_workspace_take_room (workspace, NULL, *error);
  return FALSE;
}

gpointer
hw_shelf_find (const GPtrArray *list,
               const char      *id)
{
  for (guint i = 0; id != NULL && i < list->len; i++)
    if (strcmp (*(char **) list->pdata[i], id) == 0)
      return list->pdata[i];
  return NULL;
}

GPtrArray *
hw_shelf_put (const GPtrArray *list,
              gpointer         item,
              const char      *without)
{
  const char *id = item != NULL ? *(char **) item : NULL;
  GPtrArray  *next = g_ptr_array_new ();
  gboolean    put = FALSE;

  for (guint i = 0; i < list->len; i++)
    {
      const char *other = *(char **) list->pdata[i];

      if (g_strcmp0 (other, without) == 0)
        continue;
      g_ptr_array_add (next, g_strcmp0 (other, id) == 0 ? item : list->pdata[i]);
      put = put || g_strcmp0 (other, id) == 0;
    }
  if (item != NULL && !put)
    g_ptr_array_add (next, item);
  return next;
}

char *
hw_shelf_make_id (const GPtrArray *list,
                  const char      *name)
{
  g_autofree char *folded = g_utf8_casefold (name, -1);
  g_autofree char *ascii = g_str_to_ascii (folded, "C");
  GString         *stem = g_string_new (NULL);
  g_autofree char *id = NULL;

  for (const char *p = ascii; *p != '\0' && stem->len < 40; p++)
    if (g_ascii_isalnum (*p))
      g_string_append_c (stem, *p);
    else if (stem->len > 0 && stem->str[stem->len - 1] != '-')
      g_string_append_c (stem, '-');
  if (stem->len == 0 || g_ascii_isdigit (stem->str[0]))
    g_string_prepend (stem, "own-");
  while (stem->str[stem->len - 1] == '-')
    g_string_truncate (stem, stem->len - 1);
  id = g_strdup (stem->str);
  for (int i = 2; hw_shelf_find (list, id) != NULL; i++)
    {
      g_free (id);
      id = g_strdup_printf ("%s-%d", stem->str, i);
    }
  g_string_free (stem, TRUE);
  return g_steal_pointer (&id);
}

/* ---- a kind of new needles ---- */

typedef struct
{
  HwWorkspace *workspace;
  char        *id;                      /* NULL: a new one */
  char        *needle, *packet;         /* of the other two forms */
  HwNeedleFields fields;
  GtkWidget   *count, *hours, *machine, *discard, *place;
} NeedleForm;

static void
free_form (gpointer data)
{
  NeedleForm *self = data;

  g_object_unref (self->workspace);
  g_free (self->id);
  g_free (self->needle);
  g_free (self->packet);
  g_free (self);
}

static NeedleForm *
new_form (HwWorkspace *workspace)
{
  NeedleForm *self = g_new0 (NeedleForm, 1);

  self->workspace = g_object_ref (workspace);
  return self;
}

/* Those taken out of the packet already count with it. */
static int
count_taken (const HwRoom   *room,
             const HwPacket *packet)
{
  return packet->count - hw_room_new_needles (room, packet);
}

/* New needles of a kind that the case has go to those. */
static const HwPacket *
find_same_kind (const HwRoom            *room,
                const HwNeedleFieldKind *kind)
{
  for (guint i = 0; i < room->packets->len; i++)
    {
      const HwPacket *packet = g_ptr_array_index (room->packets, i);

      if (hw_packet_is_of (packet, kind->system, kind->point, (int) lround (kind->nm), kind->twin_mm))
        return packet;
    }
  return NULL;
}

static HwPacket *
read_packet (NeedleForm *self,
             GError    **error)
{
  const HwRoom   *room = hw_workspace_get_room (self->workspace);
  const HwPacket *before = hw_shelf_find (room->packets, self->id);
  const HwPacket *same;
  g_autofree char *name = NULL;
  g_autofree char *id = NULL;
  g_autoptr (HwPacket) packet = NULL;
  HwNeedleFieldKind kind;

  if (!hw_needle_fields_read (&self->fields, &kind, error))
    return NULL;
  same = before == NULL ? find_same_kind (room, &kind) : NULL;
  if (same != NULL)
    {
      packet = hw_packet_copy (same);
      packet->count += gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (self->count));
      return g_steal_pointer (&packet);
    }
  name = g_strdup_printf ("%s-%s%g", kind.point, kind.twin_mm > 0 ? "twin-" : "", kind.nm);
  id = before != NULL ? g_strdup (before->id) : hw_shelf_make_id (room->packets, name);
  packet = hw_packet_new (id, kind.system, kind.point, (int) lround (kind.nm));
  packet->twin_mm = kind.twin_mm;
  packet->count = gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (self->count))
                  + (before != NULL ? count_taken (room, before) : 0);
  return g_steal_pointer (&packet);
}

static gboolean
save_packet (gpointer data,
             GError **error)
{
  NeedleForm   *self = data;
  const HwRoom *room = hw_workspace_get_room (self->workspace);
  g_autoptr (HwPacket) packet = read_packet (self, error);
  g_autoptr (GPtrArray) packets = NULL;
  HwRoom       *next;

  if (packet == NULL)
    return FALSE;
  packets = hw_shelf_put (room->packets, packet, NULL);
  next = hw_room_with_packets (room, packets, error);
  return hw_form_take_room (self->workspace, next, error);
}

GtkWidget *
hw_packet_form_new (HwWorkspace *workspace,
                    const char  *id)
{
  const HwRoom    *room = hw_workspace_get_room (workspace);
  const HwPacket  *packet = hw_shelf_find (room->packets, id);
  GtkWidget       *form = hw_form_new (packet != NULL ? _("Change the needles") : _("New needles"),
                                       packet != NULL ? _("Save the needles") : _("Add the needles"));
  NeedleForm      *self = new_form (workspace);

  self->id = g_strdup (packet != NULL ? id : NULL);
  hw_needle_fields_add_kind (&self->fields, HW_FORM (form), hw_workspace_get_handbook (workspace), packet);
  hw_needle_fields_add_sizes (&self->fields, HW_FORM (form), packet);
  self->count = hw_form_spin (packet != NULL ? hw_room_new_needles (room, packet) : 5, 0, 999, 1, 0);
  hw_form_add (HW_FORM (form), _("New ones on _hand"), self->count);
  if (packet != NULL)
    hw_form_add_button (HW_FORM (form), _("Remove"), "needles.remove", id);
  hw_form_set_save (HW_FORM (form), save_packet, self, free_form);
  return form;
}

/* ---- one that was sewn with before the journal began ---- */

/* (transfer full): it sits in the machine that is chosen, or is in the case */
static HwJournalEntry *
read_worn (NeedleForm *self,
           GError    **error)
{
  const char *machine = hw_choice_peek (GTK_DROP_DOWN (self->machine));
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (machine != NULL ? HW_ENTRY_LOAD : HW_ENTRY_NEEDLE,
                                                           machine != NULL ? machine : HW_HAND);
  g_autofree char *place = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->place))));
  HwNeedleFieldKind kind;

  if (!hw_needle_fields_read (&self->fields, &kind, error)
      || !hw_form_get_number (self->hours, _("The hours"), 0, &entry->hours, error))
    return NULL;
  entry->system = g_strdup (kind.system);
  entry->point = g_strdup (kind.point);
  entry->nm = (int) lround (kind.nm);
  entry->twin_mm = kind.twin_mm;
  if (machine != NULL)
    return g_steal_pointer (&entry);
  entry->needle = g_uuid_string_random ();
  entry->verdict = g_strdup ("in");
  entry->place = place[0] != '\0' ? g_steal_pointer (&place) : NULL;
  return g_steal_pointer (&entry);
}

static gboolean
save_worn (gpointer data,
           GError **error)
{
  NeedleForm      *self = data;
  const HwRoom    *room = hw_workspace_get_room (self->workspace);
  g_autoptr (HwJournalEntry) entry = read_worn (self, error);
  g_autofree char *words = NULL;
  g_autofree char *text = NULL;
  HwRoom          *next;

  if (entry == NULL)
    return FALSE;
  next = hw_room_append (room, entry, error);
  if (!hw_form_take_room (self->workspace, next, error))
    return FALSE;
  words = hw_words_entry (hw_workspace_get_handbook (self->workspace), hw_workspace_get_room (self->workspace), entry,
                          NULL);
  /* Translators: a needle that was added to the case */
  text = g_strdup_printf (_("Noted: %s."), words);
  hw_workspace_tell (self->workspace, text, FALSE);
  return TRUE;
}

static void
machine_chosen_cb (NeedleForm *self)
{
  gboolean in_case = hw_choice_peek (GTK_DROP_DOWN (self->machine)) == NULL;

  gtk_widget_set_visible (gtk_widget_get_parent (self->place), in_case);
}

static void
free_worn_form (gpointer data)
{
  g_signal_handlers_disconnect_by_data (((NeedleForm *) data)->machine, data);
  free_form (data);
}

GtkWidget *
hw_worn_form_new (HwWorkspace *workspace)
{
  const HwRoom     *room = hw_workspace_get_room (workspace);
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  GtkWidget        *form = hw_form_new (_("A needle used before"), _("Add the needle"));
  NeedleForm       *self = new_form (workspace);
  g_autofree char  *life = hw_words_hours (handbook->needle_life.at_machine_hours);
  /* Translators: hours that a needle lasts */
  g_autofree char  *hint = g_strdup_printf (_("As near as you remember. A needle is good for about %s at the machine; "
                                              "if you do not know at all, throw it away."), life);

  hw_needle_fields_add_kind (&self->fields, HW_FORM (form), handbook, NULL);
  hw_needle_fields_add_sizes (&self->fields, HW_FORM (form), NULL);
  self->hours = hw_form_entry (NULL, _("4"));
  hw_form_add (HW_FORM (form), _("_Hours it has been sewn with"), self->hours);
  hw_form_add_hint (HW_FORM (form), hint);
  self->machine = hw_choice_new ();
  hw_choice_add (GTK_DROP_DOWN (self->machine), NULL, _("in the case"));
  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *machine = room->machines->pdata[i];
      /* Translators: the machine that a needle sits in */
      g_autofree char *where = g_strdup_printf (_("in: %s"), machine->name);

      hw_choice_add (GTK_DROP_DOWN (self->machine), machine->id, where);
    }
  hw_choice_select (GTK_DROP_DOWN (self->machine), NULL);
  hw_form_add (HW_FORM (form), _("_Where it is now"), self->machine);
  self->place = hw_form_entry (NULL, _("row 2, third"));
  hw_form_add (HW_FORM (form), _("What stands on its p_lace in the case"), self->place);
  hw_form_set_save (HW_FORM (form), save_worn, self, free_worn_form);
  g_signal_connect_swapped (self->machine, "notify::selected", G_CALLBACK (machine_chosen_cb), self);
  return form;
}

/* ---- into a machine ---- */

static gboolean
save_load (gpointer data,
           GError **error)
{
  NeedleForm      *self = data;
  const HwRoom    *room = hw_workspace_get_room (self->workspace);
  const char      *id = hw_choice_peek (GTK_DROP_DOWN (self->machine));
  const HwMachine *machine = id != NULL ? hw_room_find_machine (room, id) : NULL;
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autofree char *text = NULL;

  if (machine == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("No machine of the room takes needles of this system"));
      return FALSE;
    }
  entry = hw_needle_load_entry (machine, hw_room_find_needle (room, self->needle),
                                hw_shelf_find (room->packets, self->packet));
  if (gtk_check_button_get_active (GTK_CHECK_BUTTON (self->discard)))
    entry->verdict = g_strdup ("discarded");
  text = hw_needle_say_load (hw_workspace_get_handbook (self->workspace), machine,
                             hw_room_get_state (room, machine)->needle, entry);
  hw_workspace_append (self->workspace, entry, text);
  return TRUE;
}

GtkWidget *
hw_load_form_new (HwWorkspace *workspace,
                  const char  *needle,
                  const char  *packet)
{
  const HwRoom   *room = hw_workspace_get_room (workspace);
  const HwNeedle *worn = hw_room_find_needle (room, needle);
  const HwPacket *fresh = hw_shelf_find (room->packets, packet);
  const char     *system = worn != NULL ? worn->system : fresh != NULL ? fresh->system : NULL;
  GtkWidget      *form = hw_form_new (_("Load a needle"), _("It is in"));
  NeedleForm     *self = new_form (workspace);
  g_autofree char *caution = hw_words_caution (0);

  self->needle = g_strdup (needle);
  self->packet = g_strdup (packet);
  self->machine = hw_choice_new ();
  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *machine = room->machines->pdata[i];

      if (system == NULL || strcmp (machine->system, system) == 0)
        hw_choice_add (GTK_DROP_DOWN (self->machine), machine->id, machine->name);
    }
  hw_form_add_wide (HW_FORM (form), hw_label_new (caution, "mute"));
  hw_form_add (HW_FORM (form), _("Into which _machine"), self->machine);
  self->discard = gtk_check_button_new_with_label (_("The needle that comes out is thrown away"));
  hw_form_add_wide (HW_FORM (form), self->discard);
  hw_form_set_save (HW_FORM (form), save_load, self, free_form);
  return form;
}

/* ---- its place in the case ---- */

const char *
hw_needle_machine (const HwRoom   *room,
                   const HwNeedle *needle)
{
  for (guint i = room->entries->len; needle->machine == NULL && i-- > 0;)
    {
      const HwJournalEntry *entry = room->entries->pdata[i];

      if (entry->kind == HW_ENTRY_LOAD
          && strcmp (entry->needle != NULL ? entry->needle : entry->id, needle->id) == 0)
        return entry->machine;
    }
  return needle->machine != NULL ? needle->machine : HW_HAND;
}

static gboolean
save_place (gpointer data,
            GError **error)
{
  NeedleForm     *self = data;
  const HwRoom   *room = hw_workspace_get_room (self->workspace);
  const HwNeedle *needle = hw_room_find_needle (room, self->needle);
  g_autofree char *place = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->place))));
  g_autoptr (HwJournalEntry) entry = NULL;
  g_autofree char *text = NULL;

  if (place[0] == '\0' || needle == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("Type what stands on its place in the case, such as “row 2, third”"));
      return FALSE;
    }
  entry = hw_journal_entry_new (HW_ENTRY_NEEDLE, hw_needle_machine (room, needle));
  entry->needle = g_strdup (needle->id);
  entry->verdict = g_strdup ("out");
  entry->place = g_strdup (place);
  /* Translators: the label of a needle's place in the case */
  text = g_strdup_printf (_("The needle is in its place, “%s”."), place);
  hw_workspace_append (self->workspace, entry, text);
  return TRUE;
}

GtkWidget *
hw_place_form_new (HwWorkspace *workspace,
                   const char  *needle)
{
  const HwNeedle *worn = hw_room_find_needle (hw_workspace_get_room (workspace), needle);
  GtkWidget      *form = hw_form_new (_("Put the needle in its place"), _("It is there"));
  NeedleForm     *self = new_form (workspace);

  self->needle = g_strdup (needle);
  self->place = hw_form_entry (worn != NULL ? worn->place : NULL, _("row 2, third"));
  hw_form_add (HW_FORM (form), _("What stands on its _place in the case"), self->place);
  hw_form_set_save (HW_FORM (form), save_place, self, free_form);
  return form;
}
