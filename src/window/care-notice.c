/* care-notice.c - tells through the desktop what care is due now
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which was told on which day is kept beside what the window remembers, per room.
 */

#include "config.h"

#include "window/care-notice.h"

#include <glib/gi18n.h>

#include "plan/care.h"
#include "window/furnish.h"
#include "words/words.h"

typedef struct
{
  GApplication *application;             /* borrowed: it outlives the workspace's handlers */
  const HwRoom *seen;                    /* only to compare */
  GHashTable   *shown;                   /* ids of notifications out */
} Notice;

static void
free_notice (gpointer  data,
             GClosure *closure)
{
  Notice *self = data;

  g_hash_table_unref (self->shown);
  g_free (self);
}

static char *
name_notice (const HwHandbook *handbook,
             const HwCareDue  *due)
{
  const char *task = due->care == HW_CARE_NEEDLE ? HW_NEEDLE_TASK : handbook->care[due->care].entry.id;

  return g_strdup_printf ("care-%s-%s", due->machine->id, task);
}

static void
send (Notice           *self,
      const HwHandbook *handbook,
      const HwCareDue  *due,
      const char       *id)
{
  g_autofree char *title = hw_words_care_title (handbook, due);
  g_autofree char *body = hw_words_care_notice (handbook, due);
  g_autoptr (GNotification) notification = g_notification_new (title);

  g_notification_set_body (notification, body);
  g_application_send_notification (self->application, id, notification);
  g_hash_table_add (self->shown, g_strdup (id));
}

/* What was out and is no longer due. */
static void
withdraw (Notice     *self,
          GHashTable *still)
{
  GHashTableIter iter;
  gpointer       id;

  g_hash_table_iter_init (&iter, self->shown);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    if (!g_hash_table_contains (still, id))
      {
        g_application_withdraw_notification (self->application, id);
        g_hash_table_iter_remove (&iter);
      }
}

static void
changed_cb (HwWorkspace *workspace,
            Notice      *self)
{
  const HwRoom     *room = hw_workspace_get_room (workspace);
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  g_autoptr (GHashTable) still = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GDateTime) time = g_date_time_new_now_utc ();
  g_autoptr (GDateTime) here = g_date_time_to_local (time);
  g_autofree char  *now = g_date_time_format (time, "%Y-%m-%dT%H:%M:%SZ");
  g_autofree char  *today = g_date_time_format (here, "%Y-%m-%d");
  g_autoptr (GPtrArray) overdue = NULL;

  if (room == self->seen)
    return;
  self->seen = room;
  overdue = hw_care_overdue (handbook, room, now);
  for (guint i = 0; i < overdue->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (overdue, i);
      g_autofree char *id = name_notice (handbook, due);

      if (hw_remember_told (room->folder, id, today))
        send (self, handbook, due, id);
      g_hash_table_add (still, g_steal_pointer (&id));
    }
  withdraw (self, still);
}

void
hw_care_notice_attach (GApplication *application,
                       HwWorkspace  *workspace)
{
  Notice *self = g_new0 (Notice, 1);

  self->application = application;
  self->shown = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_signal_connect_data (workspace, "changed", G_CALLBACK (changed_cb), self, free_notice, 0);
  changed_cb (workspace, self);
}
