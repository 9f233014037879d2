/* journal-plain.c - the journal from a file that is as we write it, without a tree
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Takes no more than the reader of trees does, and the same from it; where it doubts, that one reads the file again and
 * says what is wrong.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "files/xml.h"
#include "model/project-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TIME_LENGTH 20                   /* "2031-05-09T14:03:00Z" */
#define LONGEST_NUMBER 40
#define MOST_FIELDS 64                   /* bits of a set of them */

/* What stood at a place of the entry of that kind before: the file's own pointer to the attribute's name. */
typedef struct
{
  const char *name;
  int         field;                     /* -1: none, as id and time are */
} Known;

typedef struct
{
  const char *wanted;                    /* whose journal it must be; NULL any */
  GPtrArray  *entries;
  GHashTable *seen;                      /* ids, borrowed */
  char       *machine;
  guint64     required[HW_N_ENTRY_KINDS];          /* of each kind: its fields, as bits */
  Known       known[HW_N_ENTRY_KINDS][MOST_FIELDS];
} Reading;

/* Where the texts of an entry are laid. */
typedef struct
{
  HwJournalEntry *entry;
  char           *free;                  /* what is left of its block */
} Place;

static gboolean
is_called (const HwXmlValue *value,
           const char       *name)
{
  return strcmp (value->name, name) == 0;
}

static char *
lay (Place      *place,
     const char *text,
     gsize       length)
{
  char *laid = memcpy (place->free, text, length);       /* zeros follow */

  place->free += length + 1;
  return laid;
}

/* Neither blank nor with a character that is refused in texts; anything beyond ASCII is for hw_check_text(). */
static gboolean
is_plain_text (const char *text,
               gsize       length)
{
  gboolean blank = TRUE;

  for (gsize i = 0; i < length; i++)
    if (text[i] < ' ' || text[i] > '~')
      return FALSE;
    else
      blank = blank && text[i] == ' ';
  return !blank && length <= HW_NAME_MAX;
}

static gboolean
is_plain_id (const char *text,
             gsize       length)
{
  for (gsize i = 0; i < length; i++)
    if (!g_ascii_isalnum (text[i]) && text[i] != '-' && text[i] != '_' && text[i] != '.')
      return FALSE;
  return length > 0 && length <= HW_ID_MAX;
}

/* As the file keeps times; other forms of ISO 8601 are for hw_time_normalise(). */
static gboolean
is_plain_time (const char *text,
               gsize       length)
{
  static const char form[] = "dddd-dd-ddTdd:dd:ddZ";

  if (length != TIME_LENGTH)
    return FALSE;
  for (gsize i = 0; i < length; i++)
    if (form[i] == 'd' ? !g_ascii_isdigit (text[i]) : text[i] != form[i])
      return FALSE;
  return text[0] != '0' && atoi (text + 11) < 24 && atoi (text + 14) < 60 && atoi (text + 17) < 60
         && g_date_valid_dmy ((GDateDay) atoi (text + 8), (GDateMonth) atoi (text + 5), (GDateYear) atoi (text));
}

/* The writer keeps to the order of the table, so the search goes on from @from. -1: there is no such field. */
static int
find_field (const HwXmlValue *value,
            guint             kind,
            int               from)
{
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    {
      gsize place = ((gsize) from + i) % hw_n_entry_fields;

      if ((hw_entry_fields[place].kinds & kind) != 0 && is_called (value, hw_entry_fields[place].attribute))
        return (int) place;
    }
  return -1;
}

/* Most entries are like the one before. */
static int
find_field_again (Known            *known,
                  const HwXmlValue *value,
                  guint             kind,
                  int               from)
{
  if (known->name != value->name)
    *known = (Known) { value->name, find_field (value, kind, from) };
  return known->field;
}

static gboolean
take_text (Place              *place,
           const HwEntryField *field,
           const HwXmlValue   *value)
{
  char *text = lay (place, value->value, value->length);

  *(char **) G_STRUCT_MEMBER_P (place->entry, field->offset) = text;
  if (is_plain_text (text, value->length))
    return TRUE;
  return strcmp (field->attribute, "note") == 0 ? hw_check_note (text, NULL)
                                                : hw_check_text (field->attribute, text, NULL);
}

static gboolean
take_number (Place              *place,
             const HwEntryField *field,
             const HwXmlValue   *value)
{
  char text[LONGEST_NUMBER] = "";
  double number;

  if (value->length >= sizeof text)
    return FALSE;
  memcpy (text, value->value, value->length);
  if (!hw_xml_parse_number (text, &number) || number < field->low || number > field->high)
    return FALSE;
  if (field->type == HW_ENTRY_NUMBER)
    G_STRUCT_MEMBER (double, place->entry, field->offset) = number;
  else
    G_STRUCT_MEMBER (int, place->entry, field->offset) = (int) number;
  return field->type == HW_ENTRY_NUMBER || number == nearbyint (number);
}

static gboolean
take_id (Place            *place,
         const HwXmlValue *value)
{
  place->entry->id = lay (place, value->value, value->length);
  return is_plain_id (place->entry->id, value->length) || hw_check_id (value->name, place->entry->id, NULL);
}

static gboolean
take_time (Place            *place,
           const HwXmlValue *value)
{
  g_autofree char *given = NULL;
  g_autofree char *normal = NULL;

  if (!is_plain_time (value->value, value->length))
    {
      given = g_strndup (value->value, value->length);
      normal = hw_time_normalise (given);
      if (normal == NULL)
        return FALSE;
    }
  place->entry->time = lay (place, normal != NULL ? normal : value->value, TIME_LENGTH);
  return TRUE;
}

static gboolean
take_attributes (Reading        *self,
                 Place          *place,
                 const HwXmlTag *tag)
{
  HwEntryKind kind = place->entry->kind;
  guint64 required = self->required[kind];
  int last = 0;

  for (guint i = 0; i < tag->n_attributes; i++)
    {
      const HwXmlValue *value = &tag->attributes[i];
      int field = find_field_again (&self->known[kind][i % MOST_FIELDS], value, 1u << kind, last);

      if (field < 0 && (is_called (value, "id") ? take_id (place, value)
                                                : is_called (value, "time") && take_time (place, value)))
        continue;
      if (field < 0 || !(hw_entry_fields[field].type == HW_ENTRY_TEXT
                           ? take_text (place, &hw_entry_fields[field], value)
                           : take_number (place, &hw_entry_fields[field], value)))
        return FALSE;
      required &= ~((guint64) 1 << field);
      last = field;
    }
  return required == 0 && place->entry->id != NULL && place->entry->time != NULL;
}

static gboolean
take_entry (Reading        *self,
            const HwXmlTag *tag)
{
  gsize owner = strlen (self->machine);
  gsize size = owner + 1 + TIME_LENGTH + 1;
  HwEntryKind kind = HW_ENTRY_SEWING;
  Place place;

  while (kind < HW_N_ENTRY_KINDS && strcmp (tag->name, hw_entry_kind_ids[kind]) != 0)
    kind++;
  if (kind == HW_N_ENTRY_KINDS)
    return FALSE;
  for (guint i = 0; i < tag->n_attributes; i++)
    size += tag->attributes[i].length + 1;
  place.entry = hw_journal_entry_alloc_packed (kind, size);
  place.free = (char *) (place.entry + 1);
  g_ptr_array_add (self->entries, place.entry);
  place.entry->machine = lay (&place, self->machine, owner);
  return take_attributes (self, &place, tag) && g_hash_table_add (self->seen, place.entry->id);
}

static gboolean
take_journal (Reading        *self,
              const HwXmlTag *tag)
{
  double year = 1000;

  for (guint i = 0; i < tag->n_attributes; i++)
    {
      const HwXmlValue *value = &tag->attributes[i];
      g_autofree char *text = g_strndup (value->value, value->length);

      if (is_called (value, "machine"))
        self->machine = g_steal_pointer (&text);
      else if (!is_called (value, "year") || !hw_xml_parse_number (text, &year))
        return FALSE;
    }
  return self->machine != NULL && strcmp (tag->name, "journal") == 0
         && (self->wanted == NULL || strcmp (self->wanted, self->machine) == 0)
         && (strcmp (self->machine, HW_HAND) == 0 || hw_machine_check_id (self->machine, NULL))
         && year >= 1000 && year <= 9999 && year == nearbyint (year);
}

static gboolean
take_tag (const HwXmlTag *tag,
          guint           depth,
          gpointer        data)
{
  return depth == 0 ? take_journal (data, tag) : depth == 1 && take_entry (data, tag);
}

static void
find_required (Reading *self)
{
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    for (int kind = 0; kind < HW_N_ENTRY_KINDS; kind++)
      if ((hw_entry_fields[i].required & (1u << kind)) != 0)
        self->required[kind] |= (guint64) 1 << i;
}

gboolean
hw_journal_read_plain (const char *bytes,
                       gsize       size,
                       const char *machine,
                       GPtrArray  *entries)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  Reading self = { .wanted = machine, .entries = entries, .seen = seen };
  guint before = entries->len;
  gboolean plain;

  g_return_val_if_fail (hw_n_entry_fields <= MOST_FIELDS, FALSE);

  find_required (&self);
  plain = hw_xml_scan (bytes, size, HW_ROOM_NS, take_tag, &self);
  g_free (self.machine);
  if (!plain)
    g_ptr_array_set_size (entries, (int) before);        /* frees what was taken */
  return plain;
}
