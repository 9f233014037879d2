/* room-with.c - the room with other machines, needles, thread, fabrics or preferences
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each writes the one file that changes, under the room's lock and after reading it again. What the reader would
 * refuse is refused before the old file goes.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

/* NULL with @error: nobody may write now. A room shown before it was furnished gets its files first. */
static HwLock *
begin_writing (const HwRoom *self,
               GError      **error)
{
  g_autoptr (HwLock) lock = hw_room_lock (self->folder, error);
  gboolean furnished = FALSE;

  if (lock == NULL || !hw_room_has_machines (self->folder, &furnished, error))
    return NULL;
  if (!furnished && self->machines->len > 0 && !hw_room_furnish (self, error))
    return NULL;
  return g_steal_pointer (&lock);
}

/* (transfer full): what the file is to hold */
static GPtrArray *
merge_with_file (const HwRoom     *self,
                 const HwListFile *file,
                 const GPtrArray  *before,
                 const GPtrArray  *items,
                 GError          **error)
{
  g_autoptr (GPtrArray) in_file = g_ptr_array_new_with_free_func (file->free);
  g_autoptr (GPtrArray) merged = NULL;

  if (!hw_list_read (file, self->folder, in_file, error))
    return NULL;
  merged = hw_list_merge (file, before, items, in_file, error);
  return merged != NULL ? hw_list_reread (file, merged, error) : NULL;
}

static HwRoom *
with_list (const HwRoom     *self,
           const HwListFile *file,
           gsize             offset,
           const GPtrArray  *items,
           GError          **error)
{
  g_autoptr (HwLock) lock = NULL;
  g_autoptr (GPtrArray) wanted = hw_list_reread (file, items, error);
  g_autoptr (GPtrArray) merged = NULL;
  GPtrArray **place;
  HwRoom *next;

  if (wanted == NULL)
    return NULL;
  lock = begin_writing (self, error);
  if (lock == NULL)
    {
      hw_list_rescue (file, wanted, error);
      return NULL;
    }
  merged = merge_with_file (self, file, G_STRUCT_MEMBER (GPtrArray *, self, offset), wanted, error);
  if (merged == NULL || !hw_list_save (file, self->folder, merged, error))
    return NULL;
  next = hw_room_share (self);
  place = (GPtrArray **) G_STRUCT_MEMBER_P (next, offset);
  g_ptr_array_unref (*place);
  *place = g_steal_pointer (&merged);
  return next;
}

HwRoom *
hw_room_with_packets (const HwRoom    *self,
                      const GPtrArray *packets,
                      GError         **error)
{
  g_return_val_if_fail (self != NULL && packets != NULL, NULL);

  return with_list (self, &hw_packets_file, G_STRUCT_OFFSET (HwRoom, packets), packets, error);
}

HwRoom *
hw_room_with_spools (const HwRoom    *self,
                     const GPtrArray *spools,
                     GError         **error)
{
  g_return_val_if_fail (self != NULL && spools != NULL, NULL);

  return with_list (self, &hw_spools_file, G_STRUCT_OFFSET (HwRoom, spools), spools, error);
}

HwRoom *
hw_room_with_cloths (const HwRoom    *self,
                     const GPtrArray *cloths,
                     GError         **error)
{
  g_return_val_if_fail (self != NULL && cloths != NULL, NULL);

  return with_list (self, &hw_cloths_file, G_STRUCT_OFFSET (HwRoom, cloths), cloths, error);
}

HwRoom *
hw_room_with_preferences (const HwRoom        *self,
                          const HwPreferences *preferences,
                          GError             **error)
{
  g_autoptr (HwPreferences) wanted = NULL;
  g_autoptr (HwPreferences) in_file = NULL;
  g_autoptr (HwLock) lock = NULL;
  HwRoom *next;

  g_return_val_if_fail (self != NULL && preferences != NULL, NULL);

  wanted = hw_preferences_reread (preferences, error);
  if (wanted == NULL)
    return NULL;
  lock = begin_writing (self, error);
  if (lock == NULL)
    {
      hw_preferences_rescue (wanted, error);
      return NULL;
    }
  in_file = hw_preferences_read (self->folder, error);
  if (in_file == NULL || !hw_preferences_merge (self->preferences, wanted, in_file, error)
      || !hw_preferences_save (wanted, self->folder, error))
    return NULL;
  next = hw_room_share (self);
  hw_preferences_free (next->preferences);
  next->preferences = g_steal_pointer (&wanted);
  return next;
}

/* ---- machines ---- */

static char *
machine_path (const HwRoom *self,
              const char   *id)
{
  g_autofree char *name = g_strconcat (id, ".xml", NULL);

  return g_build_filename (self->folder, "machines", name, NULL);
}

static gboolean
is_same_machine (const HwMachine *a,
                 const HwMachine *b)
{
  g_autofree char *first = a != NULL ? hw_machine_to_xml (a, NULL) : NULL;
  g_autofree char *second = b != NULL ? hw_machine_to_xml (b, NULL) : NULL;

  return g_strcmp0 (first, second) == 0;
}

/* Nobody else wrote the machine's file since @self was read. @wanted: as it is to be; NULL: gone. */
static gboolean
check_file_unchanged (const HwRoom    *self,
                      const char      *id,
                      const HwMachine *wanted,
                      GError         **error)
{
  g_autofree char *path = machine_path (self, id);
  g_autofree char *name = g_path_get_basename (path);
  g_autoptr (HwMachine) in_file = NULL;

  if (g_file_test (path, G_FILE_TEST_EXISTS))
    {
      in_file = hw_machine_read (path, error);
      if (in_file == NULL)
        return FALSE;
    }
  if (is_same_machine (in_file, hw_room_find_machine (self, id)) || is_same_machine (in_file, wanted))
    return TRUE;
  hw_room_refuse_changed (name, id, error);
  return FALSE;
}

/* (transfer full): @self with copies of its machines but that of @id, and with @machine (NULL none). */
static HwRoom *
with_machines (const HwRoom    *self,
               const char      *id,
               const HwMachine *machine)
{
  GPtrArray *machines = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_machine_free);
  HwRoom *next = hw_room_share (self);

  for (guint i = 0; i < self->machines->len; i++)
    {
      const HwMachine *other = g_ptr_array_index (self->machines, i);
      if (strcmp (other->id, id) != 0)
        g_ptr_array_add (machines, hw_machine_copy (other));
    }
  if (machine != NULL)
    g_ptr_array_add (machines, hw_machine_copy (machine));
  g_ptr_array_sort (machines, hw_machine_compare);
  g_ptr_array_unref (next->machines);
  next->machines = machines;
  hw_room_derive (next);
  return next;
}

HwRoom *
hw_room_with_machine (const HwRoom    *self,
                      const HwMachine *machine,
                      GError         **error)
{
  g_autoptr (HwLock) lock = NULL;

  g_return_val_if_fail (self != NULL && machine != NULL, NULL);

  if (!hw_machine_check (machine, error))
    return NULL;
  lock = begin_writing (self, error);
  if (lock == NULL)
    {
      hw_machine_rescue (machine, error);
      return NULL;
    }
  if (!check_file_unchanged (self, machine->id, machine, error)
      || !hw_machine_save (machine, self->folder, error))
    return NULL;
  return with_machines (self, machine->id, machine);
}

/* Its journal may have been begun by another process. */
static gboolean
has_journal (const HwRoom *self,
             const char   *id,
             gboolean     *has,
             GError      **error)
{
  g_autoptr (GPtrArray) names = hw_room_list_files (self->folder, "journal", error);
  gsize length = strlen (id);

  *has = FALSE;                          /* no machine's journal is known by a name that only begins like this one's */
  for (guint i = 0; names != NULL && i < names->len; i++)
    {
      const char *name = g_ptr_array_index (names, i);
      *has = *has || (g_str_has_prefix (name, id) && strlen (name) == length + strlen ("-2031.xml")
                      && name[length] == '-' && strspn (name + length + 1, "0123456789") == 4);
    }
  for (guint i = 0; i < self->entries->len; i++)
    *has = *has || strcmp (((HwJournalEntry *) g_ptr_array_index (self->entries, i))->machine, id) == 0;
  return names != NULL;
}

static gboolean
check_can_go (const HwRoom *self,
              const char   *id,
              GError      **error)
{
  const HwMachine *machine = hw_room_find_machine (self, id);
  gboolean named = FALSE;

  if (machine == NULL)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("there is no machine “%s” in the sewing room"), id);
  else if (self->machines->len == 1)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                 _("“%s” is the only machine of the sewing room; enter another one first"), machine->name);
  else if (!has_journal (self, id, &named, error))
    return FALSE;
  else if (named)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                 _("“%s” stays, because the journal tells of work done on it"), machine->name);
  else
    return TRUE;
  return FALSE;
}

/* Kept beside as the last good version, as every file that is replaced. */
static gboolean
put_aside (const char *path,
           GError    **error)
{
  g_autofree char *kept = g_strconcat (path, "~", NULL);
  int number;

  if (g_rename (path, kept) == 0 || errno == ENOENT)
    return TRUE;
  number = errno;
  g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (number), _("Could not remove “%s”: %s"), path,
               g_strerror (number));
  return FALSE;
}

HwRoom *
hw_room_without_machine (const HwRoom *self,
                         const char   *id,
                         GError      **error)
{
  g_autoptr (HwLock) lock = NULL;
  g_autofree char *path = NULL;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  lock = begin_writing (self, error);
  if (lock == NULL || !check_can_go (self, id, error) || !check_file_unchanged (self, id, NULL, error))
    return NULL;
  path = machine_path (self, id);
  return put_aside (path, error) ? with_machines (self, id, NULL) : NULL;
}
