/* journal.c - reading the journal
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/journal.h"
#include "model/room-private.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DATE_LENGTH 10                   /* "2031-05-09" */

/* ---- finding ---- */

/* @wanted is folded; most text is ASCII, and a journal is long. */
static gboolean
holds_text (const char *text,
            const char *wanted)
{
  gsize length = strlen (wanted);
  g_autofree char *folded = NULL;

  if (text == NULL)
    return FALSE;
  if (!g_str_is_ascii (text))
    {
      folded = g_utf8_casefold (text, -1);
      return strstr (folded, wanted) != NULL;
    }
  for (; *text != '\0'; text++)
    if (g_ascii_strncasecmp (text, wanted, length) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
entry_holds_text (const HwJournalEntry *entry,
                  const char           *wanted)
{
  for (gsize i = 0; i < hw_n_entry_fields; i++)
    if (hw_entry_fields[i].type == HW_ENTRY_TEXT
        && holds_text (G_STRUCT_MEMBER (char *, entry, hw_entry_fields[i].offset), wanted))
      return TRUE;
  return FALSE;
}

static gboolean
is_within (const HwJournalEntry  *entry,
           const HwJournalFilter *filter)
{
  return (filter->from == NULL || strncmp (entry->time, filter->from, DATE_LENGTH) >= 0)
         && (filter->to == NULL || strncmp (entry->time, filter->to, DATE_LENGTH) <= 0);
}

/* An entry about needles, whichever kind it is: one goes in, comes out, is thrown away. */
static gboolean
moves_needle (const HwJournalEntry *entry)
{
  return entry->kind == HW_ENTRY_NEEDLE || (entry->kind == HW_ENTRY_LOAD && (entry->needle != NULL || entry->nm > 0))
         || (entry->kind == HW_ENTRY_CARE && g_strcmp0 (entry->task, HW_NEEDLE_TASK) == 0);
}

static gboolean
is_of_kinds (const HwJournalEntry *entry,
             guint                 kinds)
{
  return (kinds >> entry->kind & 1) != 0 || ((kinds >> HW_ENTRY_NEEDLE & 1) != 0 && moves_needle (entry));
}

static gboolean
fits (const HwRoom          *room,
      const HwJournalEntry  *entry,
      const HwJournalFilter *filter,
      const char            *wanted)
{
  guint kinds = filter->kinds != 0 ? filter->kinds : ~(1u << HW_ENTRY_CANCEL);

  return is_of_kinds (entry, kinds)
         && (filter->machine == NULL || strcmp (entry->machine, filter->machine) == 0)
         && (filter->project == NULL || g_strcmp0 (entry->project, filter->project) == 0)
         && is_within (entry, filter)
         && (filter->with_cancelled || !g_hash_table_contains (room->cancelled, entry->id))
         && (wanted == NULL || entry_holds_text (entry, wanted)
             || (filter->says != NULL && filter->says (entry, wanted, filter->data)));
}

GPtrArray *
hw_journal_find (const HwRoom          *room,
                 const HwJournalFilter *filter)
{
  g_autofree char *wanted = NULL;
  GPtrArray *found;

  g_return_val_if_fail (room != NULL && filter != NULL, NULL);

  if (filter->text != NULL && *filter->text != '\0')
    wanted = g_utf8_casefold (filter->text, -1);
  found = g_ptr_array_new ();
  for (guint i = 0; i < room->entries->len; i++)
    if (fits (room, g_ptr_array_index (room->entries, i), filter, wanted))
      g_ptr_array_add (found, g_ptr_array_index (room->entries, i));
  return found;
}

/* ---- CSV ---- */

/* A spreadsheet takes a field that begins so for a formula, quoted or not. */
static gboolean
looks_like_formula (const char *text)
{
  return *text != '\0' && strchr ("=+-@\t\r", *text) != NULL;
}

static void
add_text (GString    *csv,
          const char *text)
{
  if (text == NULL)
    return;
  if (!looks_like_formula (text) && strpbrk (text, "\",\r\n") == NULL)
    {
      g_string_append (csv, text);
      return;
    }
  g_string_append (csv, looks_like_formula (text) ? "\"'" : "\"");
  for (const char *at = text; *at != '\0'; at++)
    {
      if (*at == '"')
        g_string_append_c (csv, '"');
      g_string_append_c (csv, *at);
    }
  g_string_append_c (csv, '"');
}

static void
add_field (GString              *csv,
           const HwJournalEntry *entry,
           const HwEntryField   *field)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if ((field->kinds >> entry->kind & 1) == 0)
    return;
  if (field->type == HW_ENTRY_TEXT)
    add_text (csv, G_STRUCT_MEMBER (char *, entry, field->offset));
  else if (field->type == HW_ENTRY_INT)
    g_string_append_printf (csv, "%d", G_STRUCT_MEMBER (int, entry, field->offset));
  else
    g_string_append (csv, g_ascii_formatd (number, sizeof number, "%.10g",
                                           G_STRUCT_MEMBER (double, entry, field->offset)));
}

char *
hw_journal_to_csv (const GPtrArray *entries)
{
  GString *csv = g_string_new ("time,machine,kind");

  g_return_val_if_fail (entries != NULL, NULL);

  for (gsize i = 0; i < hw_n_entry_fields; i++)
    g_string_append_printf (csv, ",%s", hw_entry_fields[i].attribute);
  g_string_append (csv, ",id\r\n");
  for (guint i = 0; i < entries->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (entries, i);

      g_string_append_printf (csv, "%s,%s,%s", entry->time, entry->machine, hw_entry_kind_ids[entry->kind]);
      for (gsize j = 0; j < hw_n_entry_fields; j++)
        {
          g_string_append_c (csv, ',');
          add_field (csv, entry, &hw_entry_fields[j]);
        }
      g_string_append_c (csv, ',');
      add_text (csv, entry->id);
      g_string_append (csv, "\r\n");
    }
  return g_string_free (csv, FALSE);
}

/* ---- correcting ---- */

HwJournalEntry *
hw_journal_entry_new_like (const HwJournalEntry *entry)
{
  HwJournalEntry *copy;

  g_return_val_if_fail (entry != NULL, NULL);

  copy = hw_journal_entry_copy (entry);
  g_free (copy->id);
  copy->id = g_uuid_string_random ();
  if (entry->kind == HW_ENTRY_LOAD && entry->needle == NULL && entry->nm > 0)
    copy->needle = g_strdup (entry->id);
  return copy;
}

HwRoom *
hw_journal_correct (const HwRoom         *room,
                    const char           *id,
                    const HwJournalEntry *entry,
                    GError              **error)
{
  g_autoptr (HwJournalEntry) cancel = NULL;
  const HwJournalEntry *both[2];

  g_return_val_if_fail (room != NULL && id != NULL && entry != NULL && entry->machine != NULL, NULL);
  g_return_val_if_fail (entry->kind != HW_ENTRY_CANCEL, NULL);

  cancel = hw_journal_entry_new_cancel (entry->machine, id);
  g_free (cancel->time);
  cancel->time = g_strdup (entry->time);
  both[0] = cancel;
  both[1] = entry;
  return hw_room_append_all (room, both, G_N_ELEMENTS (both), error);
}

/* ---- hours ---- */

static void
clear_week (gpointer data)
{
  HwWeekHours *week = data;

  g_free (week->project);
  g_free (week->machine);
}

/* The day on which the week of @time began, "2031-05-05". */
static void
name_week (const char  *time,
           GDateWeekday first,
           char         name[16])
{
  GDate date;
  int year, month, day;

  sscanf (time, "%4d-%2d-%2d", &year, &month, &day);
  g_date_clear (&date, 1);
  g_date_set_dmy (&date, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
  g_date_subtract_days (&date, (guint) (g_date_get_weekday (&date) - first + 7) % 7);
  g_snprintf (name, 16, "%04d-%02d-%02d", g_date_get_year (&date), (int) g_date_get_month (&date),
              g_date_get_day (&date));
}

static int
compare_weeks (gconstpointer a,
               gconstpointer b)
{
  const HwWeekHours *first = a;
  const HwWeekHours *second = b;
  int order = strcmp (first->week, second->week);

  if (order == 0)
    order = g_strcmp0 (first->project, second->project);
  return order != 0 ? order : strcmp (first->machine, second->machine);
}

/* @places: week, project and machine -> index + 1 */
static void
add_hours (GArray               *weeks,
           GHashTable           *places,
           const char           *week,
           const HwJournalEntry *entry)
{
  g_autofree char *key = g_strjoin ("\n", week, entry->machine, entry->project, NULL);
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (places, key));

  if (place == 0)
    {
      HwWeekHours hours = { .project = g_strdup (entry->project), .machine = g_strdup (entry->machine) };

      g_strlcpy (hours.week, week, sizeof hours.week);
      g_array_append_val (weeks, hours);
      place = weeks->len;
      g_hash_table_insert (places, g_steal_pointer (&key), GUINT_TO_POINTER (place));
    }
  g_array_index (weeks, HwWeekHours, place - 1).hours += entry->minutes / 60;
}

GArray *
hw_journal_weeks (const HwRoom *room,
                  GDateWeekday  first,
                  const char   *from,
                  const char   *to)
{
  const HwJournalFilter filter = { .kinds = 1u << HW_ENTRY_SEWING, .from = from, .to = to };
  g_autoptr (GHashTable) places = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) found = NULL;
  GArray *weeks;
  const char *day = "";
  char week[16] = "";

  g_return_val_if_fail (room != NULL && g_date_valid_weekday (first), NULL);

  weeks = g_array_new (FALSE, FALSE, sizeof (HwWeekHours));
  g_array_set_clear_func (weeks, clear_week);
  found = hw_journal_find (room, &filter);
  for (guint i = 0; i < found->len; i++)
    {
      const HwJournalEntry *entry = g_ptr_array_index (found, i);

      if (strcmp (entry->machine, HW_HAND) == 0)
        continue;
      if (strncmp (day, entry->time, DATE_LENGTH) != 0)
        name_week (entry->time, first, week);
      day = entry->time;
      add_hours (weeks, places, week, entry);
    }
  g_array_sort (weeks, compare_weeks);
  return weeks;
}

static void
clear_project_hours (gpointer data)
{
  HwProjectHours *hours = data;

  g_free (hours->project);
  g_free (hours->machine);
}

/* Where @project on @machine stands in @all; a new place at the end when it has none. */
static HwProjectHours *
find_project_hours (GArray     *all,
                    GHashTable *places,
                    const char *project,
                    const char *machine)
{
  g_autofree char *key = g_strjoin ("\n", machine, project, NULL);
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (places, key));

  if (place == 0)
    {
      HwProjectHours hours = { .project = g_strdup (project), .machine = g_strdup (machine) };

      g_array_append_val (all, hours);
      place = all->len;
      g_hash_table_insert (places, g_steal_pointer (&key), GUINT_TO_POINTER (place));
    }
  return &g_array_index (all, HwProjectHours, place - 1);
}

GArray *
hw_journal_project_hours (const HwRoom *room)
{
  const HwJournalFilter filter = { .kinds = 1u << HW_ENTRY_SEWING };
  g_autoptr (GHashTable) places = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) found = NULL;
  GArray *all;

  g_return_val_if_fail (room != NULL, NULL);

  all = g_array_new (FALSE, TRUE, sizeof (HwProjectHours));
  g_array_set_clear_func (all, clear_project_hours);
  found = hw_journal_find (room, &filter);
  for (guint i = found->len; i > 0; i--)
    {
      const HwJournalEntry *entry = g_ptr_array_index (found, i - 1);
      HwProjectHours *hours;

      if (entry->project == NULL || strcmp (entry->machine, HW_HAND) == 0)
        continue;
      hours = find_project_hours (all, places, entry->project, entry->machine);
      hours->actual += entry->minutes / 60;
      hours->planned += entry->planned / 60;
    }
  return all;
}

double
hw_journal_time_factor (const HwRoom *room,
                        const char   *purpose)
{
  const HwPaceSum *all;
  const HwPaceSum *own;
  double mean;

  g_return_val_if_fail (room != NULL, 1);

  all = &room->sums->pace;
  if (all->n < HW_TIME_LEAST_ENTRIES)
    return 1;
  own = purpose != NULL ? g_hash_table_lookup (room->sums->paces, purpose) : NULL;
  mean = all->sum / (all->n + HW_TIME_PRIOR_ENTRIES);
  if (own != NULL)
    mean = (own->sum + HW_TIME_PRIOR_ENTRIES * mean) / (own->n + HW_TIME_PRIOR_ENTRIES);
  return exp (mean);
}

gboolean
hw_journal_begins_pace (const HwRoom         *room,
                        const HwJournalEntry *entry)
{
  g_return_val_if_fail (room != NULL && entry != NULL, FALSE);

  return room->sums->pace.n == HW_TIME_LEAST_ENTRIES - 1 && hw_room_sums_tells_pace (entry);
}
