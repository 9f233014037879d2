/* machine.c - a machine as a value
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

const char * const hw_hook_ids[] = { "front", "top", NULL };

const char * const hw_dial_form_ids[] = { "edge-wheel", "knob", "number", NULL };

HwMachine *
hw_machine_new (const char    *id,
                const char    *name,
                HwMachineKind  kind)
{
  HwMachine *self = g_new0 (HwMachine, 1);

  self->id = g_strdup (id);
  self->name = g_strdup (name);
  self->kind = kind;
  return self;
}

HwMachine *
hw_machine_copy (const HwMachine *self)
{
  HwMachine *copy = g_new (HwMachine, 1);

  *copy = *self;                         /* the texts are replaced by copies below */
  copy->id = g_strdup (self->id);
  copy->name = g_strdup (self->name);
  copy->system = g_strdup (self->system);
  copy->needle_flat = g_strdup (self->needle_flat);
  copy->learned_from = g_strdup (self->learned_from);
  copy->stitches = g_memdup2 (self->stitches, self->n_stitches * sizeof *self->stitches);
  for (gsize i = 0; i < self->n_stitches; i++)
    copy->stitches[i] = (HwOwnStitch) { g_strdup (self->stitches[i].stitch), g_strdup (self->stitches[i].own) };
  copy->feet = g_strdupv (self->feet);
  copy->plates = g_strdupv (self->plates);
  copy->care = g_memdup2 (self->care, self->n_care * sizeof *self->care);
  for (gsize i = 0; i < self->n_care; i++)
    copy->care[i].care = g_strdup (self->care[i].care);
  return copy;
}

void
hw_machine_free (HwMachine *self)
{
  if (self == NULL)
    return;
  for (gsize i = 0; i < self->n_stitches; i++)
    {
      g_free (self->stitches[i].stitch);
      g_free (self->stitches[i].own);
    }
  for (gsize i = 0; i < self->n_care; i++)
    g_free (self->care[i].care);
  g_free (self->id);
  g_free (self->name);
  g_free (self->system);
  g_free (self->needle_flat);
  g_free (self->learned_from);
  g_free (self->stitches);
  g_strfreev (self->feet);
  g_strfreev (self->plates);
  g_free (self->care);
  g_free (self);
}

int
hw_machine_compare (gconstpointer a,
                    gconstpointer b)
{
  const HwMachine * const *first = a;
  const HwMachine * const *second = b;

  return strcmp ((*first)->id, (*second)->id);
}

gboolean
hw_machine_check_id (const char *id,
                     GError    **error)
{
  gsize length = id != NULL ? strlen (id) : 0;

  if (length > 0 && length <= HW_ID_MAX && *id != '.' && strcmp (id, HW_HAND) != 0
      && strspn (id, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.") == length)
    return TRUE;
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
               _("a machine's id names its files: it must be 1 to %d letters without accents, digits, “-”, “_” and "
                 "“.”, not begin with “.” and not be “%s”"), HW_ID_MAX, HW_HAND);
  return FALSE;
}
