/* step-choices.c - what a step can be given, as choices of a drop-down
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/step-choices.h"

#include <glib/gi18n.h>

#include "window/controls.h"

static void
add_entries (GtkWidget  *choice,
             const void *entries,
             gsize       n,
             gsize       size)
{
  for (gsize i = 0; i < n; i++)
    {
      const HwEntry *entry = (const HwEntry *) ((const char *) entries + i * size);

      hw_choice_add (GTK_DROP_DOWN (choice), entry->id, entry->name);
    }
}

void
hw_choice_add_purposes (GtkWidget        *choice,
                        const HwHandbook *handbook)
{
  add_entries (choice, handbook->purposes, handbook->n_purposes, sizeof (HwPurpose));
}

void
hw_choice_add_seams (GtkWidget        *choice,
                     const HwHandbook *handbook)
{
  add_entries (choice, handbook->seams, handbook->n_seams, sizeof (HwSeam));
}

void
hw_choice_add_stitches (GtkWidget        *choice,
                        const HwHandbook *handbook)
{
  add_entries (choice, handbook->stitches, handbook->n_stitches, sizeof (HwStitch));
}

void
hw_choice_add_machines (GtkWidget    *choice,
                        const HwRoom *room)
{
  for (guint i = 0; i < room->machines->len; i++)
    {
      const HwMachine *machine = room->machines->pdata[i];

      hw_choice_add (GTK_DROP_DOWN (choice), machine->id, machine->name);
    }
}

void
hw_choice_add_fabrics (GtkWidget       *choice,
                       const HwProject *project)
{
  for (guint i = 0; i < project->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = project->fabrics->pdata[i];

      hw_choice_add (GTK_DROP_DOWN (choice), fabric->id, fabric->name);
    }
}

void
hw_choice_add_threads (GtkWidget        *choice,
                       const HwHandbook *handbook,
                       const HwProject  *project)
{
  for (guint i = 0; i < project->threads->len; i++)
    {
      const HwProjectThread *thread = project->threads->pdata[i];
      int                    index = hw_handbook_find_thread (handbook, thread->handbook);
      const char            *kind = index >= 0 ? handbook->threads[index].entry.name : thread->handbook;
      /* Translators: colour and kind of a thread */
      g_autofree char       *name = thread->colour != NULL ? g_strdup_printf (_("%s, %s"), thread->colour, kind)
                                                           : g_strdup (kind);

      hw_choice_add (GTK_DROP_DOWN (choice), thread->id, name);
    }
}
