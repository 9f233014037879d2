/* journal-entry.c - one record of the journal as a value
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

const char * const hw_entry_kind_ids[HW_N_ENTRY_KINDS + 1] = {
  [HW_ENTRY_SEWING] = "sewing",
  [HW_ENTRY_LOAD] = "load",
  [HW_ENTRY_CARE] = "care",
  [HW_ENTRY_TEST_SEAM] = "test-seam",
  [HW_ENTRY_FAULT] = "fault",
  [HW_ENTRY_CANCEL] = "cancel",
  [HW_ENTRY_NEEDLE] = "needle",
};

#define SEWING (1u << HW_ENTRY_SEWING)
#define LOAD (1u << HW_ENTRY_LOAD)
#define CARE (1u << HW_ENTRY_CARE)
#define TEST_SEAM (1u << HW_ENTRY_TEST_SEAM)
#define FAULT (1u << HW_ENTRY_FAULT)
#define CANCEL (1u << HW_ENTRY_CANCEL)
#define NEEDLE (1u << HW_ENTRY_NEEDLE)
#define ALL (SEWING | LOAD | CARE | TEST_SEAM | FAULT | CANCEL | NEEDLE)

#define TEXT(attribute, member, kinds, required) \
  { attribute, HW_ENTRY_TEXT, G_STRUCT_OFFSET (HwJournalEntry, member), kinds, required, 0, 0, 0 }
#define NUMBER(attribute, member, kinds, required, low, high, ordinary) \
  { attribute, HW_ENTRY_NUMBER, G_STRUCT_OFFSET (HwJournalEntry, member), kinds, required, low, high, ordinary }

const HwEntryField hw_entry_fields[] = {
  TEXT ("project", project, SEWING | TEST_SEAM | FAULT, 0),
  TEXT ("step", step, SEWING | TEST_SEAM | FAULT, 0),
  NUMBER ("minutes", minutes, SEWING, SEWING, 0, 100000, 0),
  NUMBER ("running", running, SEWING, 0, 0, 100000, 0),
  NUMBER ("lint", lint, SEWING, 0, 0.01, 100, 1),
  NUMBER ("life", life, SEWING, 0, 0.01, 100, 1),
  TEXT ("purpose", purpose, SEWING, 0),
  NUMBER ("planned", planned, SEWING, 0, 0, 100000, 0),
  TEXT ("needle", needle, SEWING | LOAD | FAULT | NEEDLE, NEEDLE),
  TEXT ("packet", packet, LOAD, 0),
  TEXT ("system", system, LOAD | SEWING | NEEDLE, 0),
  TEXT ("point", point, LOAD | SEWING | NEEDLE, 0),
  { "nm", HW_ENTRY_INT, G_STRUCT_OFFSET (HwJournalEntry, nm), LOAD | SEWING | NEEDLE, 0, 0, 250, 0 },
  NUMBER ("twin", twin_mm, LOAD | NEEDLE, 0, 0, 10, 0),
  NUMBER ("hours", hours, LOAD | NEEDLE, 0, 0, 1000, 0),
  TEXT ("needle-thread", needle_thread, LOAD | SEWING, 0),
  TEXT ("bobbin-thread", bobbin_thread, LOAD | SEWING, 0),
  NUMBER ("needle-m", needle_m, SEWING, 0, 0, 1000000, 0),
  NUMBER ("bobbin-m", bobbin_m, SEWING, 0, 0, 1000000, 0),
  TEXT ("foot", foot, LOAD | SEWING, 0),
  TEXT ("plate", plate, LOAD | SEWING, 0),
  TEXT ("stitch", stitch, LOAD, 0),
  TEXT ("task", task, CARE, CARE),
  TEXT ("of", of, CANCEL, CANCEL),
  NUMBER ("dial", dial, TEST_SEAM | FAULT | SEWING, TEST_SEAM, -20, 200, 0),
  NUMBER ("tex", tex, TEST_SEAM, 0, 0, 1000, 0),
  NUMBER ("bobbin-tex", bobbin_tex, TEST_SEAM, 0, 0, 1000, 0),
  NUMBER ("under-foot", under_foot_mm, TEST_SEAM, 0, 0, 100, 0),
  NUMBER ("length", length_mm, TEST_SEAM | SEWING, 0, 0, 20, 0),
  NUMBER ("width", width_mm, TEST_SEAM | SEWING, 0, 0, 20, 0),
  TEXT ("terms", terms, TEST_SEAM, 0),
  TEXT ("cloth", cloth, TEST_SEAM, 0),
  TEXT ("fault", fault, FAULT, 0),
  TEXT ("cause", cause, FAULT, 0),
  TEXT ("verdict", verdict, LOAD | TEST_SEAM | FAULT | NEEDLE, TEST_SEAM | FAULT | NEEDLE),
  TEXT ("place", place, NEEDLE, 0),
  TEXT ("note", note, ALL, 0),
};
const gsize hw_n_entry_fields = G_N_ELEMENTS (hw_entry_fields);

static char **
peek_text (const HwJournalEntry *self,
           const HwEntryField   *field)
{
  return (char **) G_STRUCT_MEMBER_P (self, field->offset);
}

static double
get_number (const HwJournalEntry *self,
            const HwEntryField   *field)
{
  return field->type == HW_ENTRY_INT ? G_STRUCT_MEMBER (int, self, field->offset)
                                     : G_STRUCT_MEMBER (double, self, field->offset);
}

HwJournalEntry *
hw_journal_entry_alloc (HwEntryKind kind)
{
  HwJournalEntry *self = hw_journal_entry_alloc_packed (kind, 0);

  self->packed = FALSE;
  return self;
}

/* A journal is long, and one block for an entry with all its texts is made and freed much faster than twenty. */
HwJournalEntry *
hw_journal_entry_alloc_packed (HwEntryKind kind,
                               gsize       text_size)
{
  HwJournalEntry *self = g_atomic_rc_box_alloc0 (sizeof *self + text_size);

  self->packed = TRUE;
  self->kind = kind;
  self->lint = 1;
  self->life = 1;
  return self;
}

/**
 * hw_journal_entry_new:
 * @machine: machine id, or "hand"
 *
 * Returns: (transfer full): an entry of this moment, to be filled in before it is appended
 */
HwJournalEntry *
hw_journal_entry_new (HwEntryKind kind,
                      const char *machine)
{
  HwJournalEntry *self = hw_journal_entry_alloc (kind);
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  self->id = g_uuid_string_random ();
  self->machine = g_strdup (machine);
  self->time = g_date_time_format (now, "%Y-%m-%dT%H:%M:%SZ");
  return self;
}

HwJournalEntry *
hw_journal_entry_new_cancel (const char *machine,
                             const char *id)
{
  HwJournalEntry *self = hw_journal_entry_new (HW_ENTRY_CANCEL, machine);

  self->of = g_strdup (id);
  return self;
}

HwJournalEntry *
hw_journal_entry_ref (HwJournalEntry *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
clear_entry (gpointer data)
{
  HwJournalEntry *self = data;

  if (self->packed)
    return;
  g_free (self->id);
  g_free (self->machine);
  g_free (self->time);
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    if (hw_entry_fields[i].type == HW_ENTRY_TEXT)
      g_free (*peek_text (self, &hw_entry_fields[i]));
}

void
hw_journal_entry_free (HwJournalEntry *self)
{
  if (self != NULL)
    g_atomic_rc_box_release_full (self, clear_entry);
}

HwJournalEntry *
hw_journal_entry_copy (const HwJournalEntry *self)
{
  HwJournalEntry *copy = hw_journal_entry_alloc (self->kind);

  *copy = *self;                         /* the texts are replaced by copies below */
  copy->packed = FALSE;
  copy->id = g_strdup (self->id);
  copy->machine = g_strdup (self->machine);
  copy->time = g_strdup (self->time);
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    if (hw_entry_fields[i].type == HW_ENTRY_TEXT)
      *peek_text (copy, &hw_entry_fields[i]) = g_strdup (*peek_text (self, &hw_entry_fields[i]));
  return copy;
}

gboolean
hw_journal_entry_is_equal (const HwJournalEntry *a,
                           const HwJournalEntry *b)
{
  if (a->kind != b->kind || g_strcmp0 (a->id, b->id) != 0 || g_strcmp0 (a->machine, b->machine) != 0
      || g_strcmp0 (a->time, b->time) != 0)
    return FALSE;
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    {
      const HwEntryField *field = &hw_entry_fields[i];
      if (field->type == HW_ENTRY_TEXT ? g_strcmp0 (*peek_text (a, field), *peek_text (b, field)) != 0
                                       : get_number (a, field) != get_number (b, field))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_field (const HwJournalEntry *self,
             const HwEntryField   *field,
             GError              **error)
{
  guint kind = 1u << self->kind;
  g_autofree char *what = g_strdup_printf ("“%s”", field->attribute);
  const HwLimit limit = { field->attribute, what, "", field->low, field->high };
  const char *text;

  if ((field->kinds & kind) == 0)
    return TRUE;
  if (field->type != HW_ENTRY_TEXT)
    return hw_check_limit (&limit, get_number (self, field), error);
  text = *peek_text (self, field);
  if (text == NULL && (field->required & kind) == 0)
    return TRUE;
  return strcmp (field->attribute, "note") == 0 ? hw_check_note (text, error) : hw_check_text (what, text, error);
}

/* What the reader would refuse must not be written. */
gboolean
hw_journal_entry_check (const HwJournalEntry *self,
                        GError              **error)
{
  if (!hw_check_id (_("a journal entry's id"), self->id, error))
    return FALSE;
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    if (!check_field (self, &hw_entry_fields[i], error))
      return FALSE;
  return TRUE;
}

/* How much of @text is as in @form, where "d" stands for a digit; 0 where anything differs. */
static gsize
match_form (const char *text,
            const char *form)
{
  gsize length = strlen (form);

  for (gsize i = 0; i < length; i++)
    if (form[i] == 'd' ? !g_ascii_isdigit (text[i]) : text[i] != form[i])
      return 0;
  return length;
}

/* GDateTime takes more forms of ISO 8601, such as the days of a week, than the schema of the journal does. */
static gboolean
has_form (const char *time)
{
  gsize length = match_form (time, "dddd-dd-ddTdd:dd:dd");

  if (length == 0 || time[length - 2] > '5')             /* a leap second has no place in UTC as computers keep it */
    return FALSE;
  time += length;
  if (*time == '.')
    time += 1 + strspn (time + 1, "0123456789");
  if (*time == '+' || *time == '-')
    return match_form (time + 1, "dd:dd") == strlen (time + 1);
  return strcmp (time, "Z") == 0 || *time == '\0';
}

char *
hw_time_normalise (const char *time)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autoptr (GDateTime) given = time != NULL && has_form (time) ? g_date_time_new_from_iso8601 (time, utc) : NULL;
  g_autoptr (GDateTime) moment = given != NULL ? g_date_time_to_utc (given) : NULL;

  if (moment == NULL || g_date_time_get_year (moment) < 1000)      /* four digits, to sort as text */
    return NULL;
  return g_date_time_format (moment, "%Y-%m-%dT%H:%M:%SZ");
}
