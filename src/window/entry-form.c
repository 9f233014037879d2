/* entry-form.c - the form that corrects a journal entry
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/room-forms.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "model/journal.h"
#include "window/controls.h"
#include "words/words-room.h"
#include "words/words.h"

typedef struct
{
  HwWorkspace *workspace;
  char        *id;
  GtkWidget   *time, *minutes, *dial, *place, *note;    /* NULL: not of this kind of entry */
  char        *shown_minutes;
} EntryForm;

static void
free_form (gpointer data)
{
  EntryForm *self = data;

  g_object_unref (self->workspace);
  g_free (self->id);
  g_free (self->shown_minutes);
  g_free (self);
}

const HwJournalEntry *
hw_shelf_find_entry (const HwRoom *room,
                     const char   *id)
{
  for (guint i = room->entries->len; i-- > 0;)
    if (strcmp (((HwJournalEntry *) room->entries->pdata[i])->id, id) == 0)
      return room->entries->pdata[i];
  return NULL;
}

static void
set_text (char      **text,
          GtkWidget  *entry)
{
  g_autofree char *typed = NULL;

  if (entry == NULL)
    return;
  typed = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));
  g_free (*text);
  *text = typed[0] != '\0' ? g_steal_pointer (&typed) : NULL;
}

/* Typed on the person's own clock. */
static gboolean
read_time (EntryForm      *self,
           HwJournalEntry *entry,
           GError        **error)
{
  g_autofree char      *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->time))));
  g_autofree char      *moment = g_strconcat (g_strdelimit (text, " ", 'T'), ":00", NULL);
  g_autoptr (GTimeZone) zone = g_time_zone_new_local ();
  g_autoptr (GDateTime) local = g_date_time_new_from_iso8601 (moment, zone);
  g_autoptr (GDateTime) utc = local != NULL ? g_date_time_to_utc (local) : NULL;

  if (utc == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("Type when it was as year-month-day and time: 2031-05-09 14:30"));
      return FALSE;
    }
  /* The seconds, which are not shown, stay as long as the minute does. */
  g_free (moment);
  moment = g_date_time_format (utc, "%Y-%m-%dT%H:%M");
  if (g_str_has_prefix (entry->time, moment))
    return TRUE;
  g_free (entry->time);
  entry->time = g_date_time_format (utc, "%Y-%m-%dT%H:%M:%SZ");
  return TRUE;
}

/* Shown by the half minute; what was not touched stays as the clock had it. */
static gboolean
read_minutes (EntryForm      *self,
              HwJournalEntry *entry,
              GError        **error)
{
  if (self->minutes == NULL
      || g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->minutes)), self->shown_minutes) == 0)
    return TRUE;
  return hw_form_get_number (self->minutes, _("The minutes"), 0, &entry->minutes, error);
}

/* Minutes taken over from the plan become the person's own, beside the plan's. */
static void
keep_planned (const HwRoom   *room,
              HwJournalEntry *entry,
              double          minutes)
{
  if (entry->step != NULL && entry->planned <= 0)
    entry->planned = minutes / (entry->purpose != NULL ? hw_journal_time_factor (room, entry->purpose) : 1);
}

static gboolean
read_entry (EntryForm      *self,
            const HwRoom   *room,
            HwJournalEntry *entry,
            GError        **error)
{
  double minutes = entry->minutes;

  if (!read_time (self, entry, error))
    return FALSE;
  if (!read_minutes (self, entry, error))
    return FALSE;
  if (minutes > 0 && entry->minutes != minutes)
    {
      entry->running *= entry->minutes / minutes;
      keep_planned (room, entry, minutes);
    }
  if (self->dial != NULL && !hw_form_get_number (self->dial, _("The dial"), 0, &entry->dial, error))
    return FALSE;
  set_text (&entry->place, self->place);
  g_free (entry->note);
  entry->note = hw_form_get_note (self->note);
  return TRUE;
}

static gboolean
save (gpointer data,
      GError **error)
{
  EntryForm            *self = data;
  const HwRoom         *room = hw_workspace_get_room (self->workspace);
  const HwJournalEntry *wrong = hw_shelf_find_entry (room, self->id);
  g_autoptr (HwJournalEntry) right = wrong != NULL ? hw_journal_entry_new_like (wrong) : NULL;
  HwRoom               *next;

  if (right == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("The entry is no longer in the journal"));
      return FALSE;
    }
  if (!read_entry (self, room, right, error))
    return FALSE;
  next = hw_journal_correct (room, self->id, right, error);
  if (!hw_form_take_room (self->workspace, next, error))
    return FALSE;
  g_free (self->id);
  self->id = g_strdup (right->id);
  hw_workspace_tell (self->workspace, _("The entry is corrected; hours, needles and care follow."), FALSE);
  return TRUE;
}

static GtkWidget *
add_number (HwForm     *form,
            const char *label,
            double      value)
{
  g_autofree char *text = hw_words_number (value, 2);
  GtkWidget       *entry = hw_form_entry (text, NULL);

  hw_form_add (form, label, entry);
  return entry;
}

/* As the journal's list has them: whole, or halves of what took less than one. */
static double
round_as_told (double minutes)
{
  return minutes >= 0.95 ? round (minutes) : round (minutes * 2) / 2;
}

GtkWidget *
hw_entry_form_new (HwWorkspace *workspace,
                   const char  *id)
{
  const HwRoom         *room = hw_workspace_get_room (workspace);
  const HwJournalEntry *entry = hw_shelf_find_entry (room, id);
  g_autoptr (GDateTime) utc = g_date_time_new_from_iso8601 (entry->time, NULL);
  g_autoptr (GDateTime) local = g_date_time_to_local (utc);
  g_autofree char      *time = g_date_time_format (local, "%Y-%m-%d %H:%M");
  g_autofree char      *words = hw_words_entry (hw_workspace_get_handbook (workspace), room, entry, NULL);
  GtkWidget            *form = hw_form_new (_("Correct the entry"), _("Save the correction"));
  EntryForm            *self = g_new0 (EntryForm, 1);

  self->workspace = g_object_ref (workspace);
  self->id = g_strdup (id);
  hw_form_add_wide (HW_FORM (form), hw_label_new (words, "strong"));
  if (entry->kind == HW_ENTRY_SEWING)
    {
      self->minutes = add_number (HW_FORM (form), _("_Minutes it took"), round_as_told (entry->minutes));
      self->shown_minutes = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->minutes)));
    }
  if (entry->kind == HW_ENTRY_TEST_SEAM)
    self->dial = add_number (HW_FORM (form), _("_Dial"), entry->dial);
  if (entry->kind == HW_ENTRY_NEEDLE)
    {
      self->place = hw_form_entry (entry->place, _("row 2, third"));
      hw_form_add (HW_FORM (form), _("_Place in the case"), self->place);
    }
  self->time = hw_form_entry (time, _("2031-05-09 14:30"));
  hw_form_add (HW_FORM (form), _("_When"), self->time);
  self->note = hw_form_note (entry->note);
  hw_form_add (HW_FORM (form), _("_Note"), self->note);
  hw_form_set_save (HW_FORM (form), save, self, free_form);
  g_object_set_data (G_OBJECT (form), "hw-entry", self);
  return form;
}

const char *
hw_entry_form_peek_id (GtkWidget *form)
{
  EntryForm *self = g_object_get_data (G_OBJECT (form), "hw-entry");

  g_return_val_if_fail (self != NULL, NULL);

  return self->id;
}
