/* edit-steps.c - edits of several steps at once
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/edit.h"

#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

static HwProject *
refuse (GError    **error,
        const char *text)
{
  g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, text);
  return NULL;
}

static gboolean
check_numbers (const HwProject    *self,
               const char * const *numbers,
               GError            **error)
{
  for (gsize i = 0; numbers[i] != NULL; i++)
    if (hw_project_find_step (self, numbers[i]) < 0)
      {
        g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("there is no step %s in this project"),
                     numbers[i]);
        return FALSE;
      }
  return TRUE;
}

HwProject *
hw_edit_remove_steps (const HwProject    *self,
                      const char * const *numbers,
                      GError            **error)
{
  g_autoptr (HwProject) next = NULL;

  g_return_val_if_fail (self != NULL && numbers != NULL, NULL);

  if (!check_numbers (self, numbers, error))
    return NULL;
  next = hw_project_ref ((HwProject *) self);
  for (gsize i = 0; numbers[i] != NULL; i++)
    if (hw_project_find_step (next, numbers[i]) >= 0)    /* a number may stand twice among @numbers */
      {
        HwProject *fewer = hw_edit_remove_step (next, numbers[i], error);

        hw_project_unref (next);
        next = fewer;
        if (next == NULL)
          return NULL;
      }
  return g_steal_pointer (&next);
}

HwProject *
hw_edit_move_steps (const HwProject    *self,
                    const char * const *numbers,
                    gsize               before,
                    GError            **error)
{
  HwProject *next;
  guint at = 0;

  g_return_val_if_fail (self != NULL && numbers != NULL && before <= self->steps->len, NULL);

  if (!check_numbers (self, numbers, error))
    return NULL;
  next = hw_project_thaw (self);
  g_ptr_array_set_size (next->steps, 0);
  for (guint i = 0; i < self->steps->len; i++)
    if (!g_strv_contains (numbers, hw_project_get_step (self, i)->number))
      {
        at += i < before;
        g_ptr_array_add (next->steps, hw_step_ref (self->steps->pdata[i]));
      }
  for (guint i = 0; i < self->steps->len; i++)
    if (g_strv_contains (numbers, hw_project_get_step (self, i)->number))
      g_ptr_array_insert (next->steps, (int) at++, hw_step_ref (self->steps->pdata[i]));
  return next;
}

/* ---- the same in several ---- */

static void
set_word (char      **word,
          const char *value)
{
  if (value == NULL)
    return;
  g_free (*word);
  *word = value[0] != '\0' ? g_strdup (value) : NULL;
}

/* The plies of one fabric are one <ply>, at the place of the first. */
static void
join_plies (HwPly *plies,
            gsize *n_plies)
{
  gsize kept = 0;

  for (gsize i = 0; i < *n_plies; i++)
    {
      gsize same = 0;

      while (same < kept && strcmp (plies[same].fabric, plies[i].fabric) != 0)
        same++;
      if (same == kept)
        {
          plies[kept++] = plies[i];
          continue;
        }
      plies[same].count += plies[i].count;
      g_free (plies[i].fabric);
    }
  *n_plies = kept;
}

static void
change_plies (HwPly              *plies,
              gsize              *n_plies,
              const HwStepChange *change)
{
  gboolean changed = FALSE;

  for (gsize i = 0; i < *n_plies; i++)
    if (change->instead_of == NULL || strcmp (plies[i].fabric, change->instead_of) == 0)
      {
        g_free (plies[i].fabric);
        plies[i].fabric = g_strdup (change->fabric);
        changed = TRUE;
      }
  if (changed)
    join_plies (plies, n_plies);
}

/* What the step itself says would be of no effect under the person's own value of the same. */
static void
drop_own (HwStep     *step,
          HwField     field,
          const char *value)
{
  if (value != NULL)
    hw_step_drop_override (step, field);
}

static void
change_step (HwStep             *step,
             const HwStepChange *change)
{
  if (change->fabric != NULL)
    {
      change_plies (step->plies, &step->n_plies, change);
      change_plies (step->crossing, &step->n_crossing, change);
    }
  set_word (&step->seam, change->seam);
  set_word (&step->stitch, change->stitch);
  drop_own (step, HW_FIELD_STITCH, change->stitch);
  set_word (&step->machine, change->machine);
  drop_own (step, HW_FIELD_MACHINE, change->machine);
  set_word (&step->needle_thread, change->needle_thread);
  if (change->length_cm != 0)
    step->length_cm = change->length_cm;
}

/* (transfer full): @self with the step changed, NULL with @error. */
static HwProject *
put_changed (const HwProject    *self,
             const char         *number,
             const HwStepChange *change,
             GError            **error)
{
  HwStep *step = hw_step_copy (hw_project_get_step (self, (gsize) hw_project_find_step (self, number)));
  g_autoptr (HwProject) next = NULL;

  change_step (step, change);
  next = hw_edit_put_step (self, step, error);
  hw_step_unref (step);
  if (next == NULL || change->stitch_length_mm == 0)
    return g_steal_pointer (&next);
  return hw_edit_set_override (next, number, HW_FIELD_LENGTH, change->stitch_length_mm, NULL, error);
}

HwProject *
hw_edit_change_steps (const HwProject    *self,
                      const char * const *numbers,
                      const HwStepChange *change,
                      GError            **error)
{
  g_autoptr (HwProject) next = NULL;
  guint n_changed = 0;

  g_return_val_if_fail (self != NULL && numbers != NULL && change != NULL, NULL);

  if (!check_numbers (self, numbers, error))
    return NULL;
  next = hw_project_ref ((HwProject *) self);
  for (gsize i = 0; numbers[i] != NULL; i++)
    {
      HwProject *changed;

      if (hw_project_get_step (next, (gsize) hw_project_find_step (next, numbers[i]))->kind == HW_STEP_HAND)
        continue;
      n_changed++;
      changed = put_changed (next, numbers[i], change, error);
      hw_project_unref (next);
      next = changed;
      if (next == NULL)
        return NULL;
    }
  if (n_changed == 0)
    return refuse (error, _("none of these steps is sewn on a machine; choose some that are"));
  return g_steal_pointer (&next);
}
