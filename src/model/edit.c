/* edit.c - edits of a project as pure functions
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each copies the lists of the snapshot, not their elements, changes the copy and checks what could have broken.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/edit.h"

#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

static HwProject *
refuse (GError    **error,
        int         code,
        const char *format,
        ...) G_GNUC_PRINTF (3, 4);

/* Always NULL, to be returned. */
static HwProject *
refuse (GError    **error,
        int         code,
        const char *format,
        ...)
{
  va_list arguments;

  va_start (arguments, format);
  if (error != NULL)
    *error = g_error_new_valist (HW_MODEL_ERROR, code, format, arguments);
  va_end (arguments);
  return NULL;
}

static HwProject *
refuse_step (const char *number,
             GError    **error)
{
  return refuse (error, HW_MODEL_ERROR_UNKNOWN, _("there is no step %s in this project"), number);
}

/* Takes over @part. */
static void
replace_part (GPtrArray      *parts,
              guint           index,
              gpointer        part,
              GDestroyNotify  unref)
{
  unref (parts->pdata[index]);
  parts->pdata[index] = part;
}

static void
replace_step (HwProject *project,
              guint      index,
              HwStep    *step)
{
  replace_part (project->steps, index, step, (GDestroyNotify) hw_step_unref);
}

/* (transfer full): @project when neither "after" nor a wish of it is broken; takes it over either way. */
static HwProject *
finish (HwProject *project,
        GError   **error)
{
  gsize at = 0;

  if (hw_check_after (project, &at, error) && hw_check_wishes (project, error))
    return project;
  hw_project_unref (project);
  return NULL;
}

HwProject *
hw_edit_set_title (const HwProject *self,
                   const char      *title,
                   GError         **error)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL && title != NULL, NULL);

  if (!hw_check_text (_("a project's title"), title, error))
    return NULL;
  next = hw_project_thaw (self);
  g_free (next->title);
  next->title = g_strdup (title);
  return next;
}

HwProject *
hw_edit_set_id (const HwProject *self,
                const char      *id,
                GError         **error)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  if (!hw_check_id (_("a project's id"), id, error))
    return NULL;
  next = hw_project_thaw (self);
  g_free (next->id);
  next->id = g_strdup (id);
  return next;
}

HwProject *
hw_edit_set_due (const HwProject *self,
                 const char      *iso_date_or_null,
                 GError         **error)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL, NULL);

  if (!hw_check_date (iso_date_or_null, error))
    return NULL;
  next = hw_project_thaw (self);
  g_free (next->due);
  next->due = g_strdup (iso_date_or_null);
  return next;
}

HwProject *
hw_edit_set_share (const HwProject *self, gboolean share)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL, NULL);

  next = hw_project_thaw (self);
  next->share = share;
  return next;
}

/* ---- fabrics and threads ---- */

HwProject *
hw_edit_put_fabric (const HwProject       *self,
                    const HwProjectFabric *fabric,
                    GError               **error)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL && fabric != NULL, NULL);

  if (!hw_check_fabric (fabric, error))
    return NULL;
  next = hw_project_thaw (self);
  for (guint i = 0; i < next->fabrics->len; i++)
    if (strcmp (((HwProjectFabric *) next->fabrics->pdata[i])->id, fabric->id) == 0)
      {
        replace_part (next->fabrics, i, hw_project_fabric_copy (fabric), (GDestroyNotify) hw_project_fabric_unref);
        return next;
      }
  g_ptr_array_add (next->fabrics, hw_project_fabric_copy (fabric));
  if (next->fabrics->len <= HW_PARTS_MAX)
    return next;
  hw_project_unref (next);
  return refuse (error, HW_MODEL_ERROR_INVALID, _("a project may have at most %d fabrics"), HW_PARTS_MAX);
}

static gboolean
uses_fabric (const HwStep *step,
             const char   *id)
{
  for (gsize i = 0; i < step->n_plies; i++)
    if (strcmp (step->plies[i].fabric, id) == 0)
      return TRUE;
  for (gsize i = 0; i < step->n_crossing; i++)
    if (strcmp (step->crossing[i].fabric, id) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
uses_thread (const HwStep *step,
             const char   *id)
{
  return g_strcmp0 (step->needle_thread, id) == 0 || g_strcmp0 (step->bobbin_thread, id) == 0;
}

/* The first step that uses @id, NULL none. */
static const HwStep *
find_user (const HwProject *self,
           const char      *id,
           gboolean      (* uses) (const HwStep *step, const char *id))
{
  for (guint i = 0; i < self->steps->len; i++)
    if (uses (hw_project_get_step (self, i), id))
      return hw_project_get_step (self, i);
  return NULL;
}

HwProject *
hw_edit_remove_fabric (const HwProject *self,
                       const char      *id,
                       GError         **error)
{
  const HwProjectFabric *fabric;
  const HwStep *user;
  HwProject *next;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  fabric = hw_project_find_fabric (self, id);
  if (fabric == NULL)
    return refuse (error, HW_MODEL_ERROR_UNKNOWN, _("there is no fabric “%s” in this project"), id);
  user = find_user (self, id, uses_fabric);
  if (user != NULL)
    return refuse (error, HW_MODEL_ERROR_INVALID, _("step %s, %s, is sewn in “%s”; give it another fabric first"),
                   user->number, user->name, fabric->name);
  next = hw_project_thaw (self);
  g_ptr_array_remove (next->fabrics, (gpointer) fabric);
  return next;
}

HwProject *
hw_edit_put_thread (const HwProject       *self,
                    const HwProjectThread *thread,
                    GError               **error)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL && thread != NULL, NULL);

  if (!hw_check_thread (thread, error))
    return NULL;
  next = hw_project_thaw (self);
  for (guint i = 0; i < next->threads->len; i++)
    if (strcmp (((HwProjectThread *) next->threads->pdata[i])->id, thread->id) == 0)
      {
        replace_part (next->threads, i, hw_project_thread_copy (thread), (GDestroyNotify) hw_project_thread_unref);
        return next;
      }
  g_ptr_array_add (next->threads, hw_project_thread_copy (thread));
  if (next->threads->len <= HW_PARTS_MAX)
    return next;
  hw_project_unref (next);
  return refuse (error, HW_MODEL_ERROR_INVALID, _("a project may have at most %d threads"), HW_PARTS_MAX);
}

HwProject *
hw_edit_remove_thread (const HwProject *self,
                       const char      *id,
                       GError         **error)
{
  const HwProjectThread *thread;
  const HwStep *user;
  HwProject *next;

  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  thread = hw_project_find_thread (self, id);
  if (thread == NULL)
    return refuse (error, HW_MODEL_ERROR_UNKNOWN, _("there is no thread “%s” in this project"), id);
  user = find_user (self, id, uses_thread);
  if (user != NULL)
    return refuse (error, HW_MODEL_ERROR_INVALID, _("step %s, %s, is sewn with the thread “%s”; give it another first"),
                   user->number, user->name, id);
  next = hw_project_thaw (self);
  g_ptr_array_remove (next->threads, (gpointer) thread);
  return next;
}

/* ---- steps ---- */

/* (transfer full): @step as the file would keep it. */
static HwStep *
copy_tidy (const HwStep *step)
{
  HwStep *copy = hw_step_copy (step);
  char *note = hw_tidy_note (copy->note);

  g_free (copy->note);
  copy->note = note;
  return copy;
}

HwProject *
hw_edit_put_step (const HwProject *self,
                  const HwStep    *step,
                  GError         **error)
{
  HwProject *next;
  int index;

  g_return_val_if_fail (self != NULL && step != NULL, NULL);

  if (!hw_check_step (self, step, error))
    return NULL;
  index = hw_project_find_step (self, step->number);
  if (index < 0)
    return hw_edit_insert_step (self, self->steps->len, step, error);
  next = hw_project_thaw (self);
  replace_step (next, (guint) index, copy_tidy (step));
  return finish (next, error);
}

HwProject *
hw_edit_insert_step (const HwProject *self,
                     gsize            index,
                     const HwStep    *step,
                     GError         **error)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL && step != NULL && index <= self->steps->len, NULL);

  if (!hw_check_step (self, step, error))
    return NULL;
  if (hw_project_find_step (self, step->number) >= 0)
    return refuse (error, HW_MODEL_ERROR_INVALID, _("there is a step %s already; give this one another number"),
                   step->number);
  if (self->steps->len >= HW_STEPS_MAX)
    return refuse (error, HW_MODEL_ERROR_INVALID, _("a project may have at most %d steps; make two of it"),
                   HW_STEPS_MAX);
  next = hw_project_thaw (self);
  g_ptr_array_insert (next->steps, (int) index, copy_tidy (step));
  return finish (next, error);
}

static gboolean
comes_after (const HwStep *step,
             const char   *number)
{
  return step->after != NULL && g_strv_contains ((const char * const *) step->after, number);
}

HwProject *
hw_edit_rename_step (const HwProject *self,
                     const char      *number,
                     const char      *new_number,
                     GError         **error)
{
  HwProject *next;
  int index;

  g_return_val_if_fail (self != NULL && number != NULL && new_number != NULL, NULL);

  index = hw_project_find_step (self, number);
  if (index < 0)
    return refuse_step (number, error);
  if (!hw_check_id (_("a step's number"), new_number, error))
    return NULL;
  if (strcmp (number, new_number) != 0 && hw_project_find_step (self, new_number) >= 0)
    return refuse (error, HW_MODEL_ERROR_INVALID, _("there is a step %s already; choose another number"), new_number);
  next = hw_project_thaw (self);
  for (guint i = 0; i < next->steps->len; i++)
    {
      HwStep *step;
      if (i != (guint) index && !comes_after (hw_project_get_step (self, i), number))
        continue;
      step = hw_step_copy (hw_project_get_step (self, i));
      if (i == (guint) index)
        {
          g_free (step->number);
          step->number = g_strdup (new_number);
        }
      for (char **word = step->after; *word != NULL; word++)
        if (strcmp (*word, number) == 0)
          {
            g_free (*word);
            *word = g_strdup (new_number);
          }
      replace_step (next, i, step);
    }
  hw_mend_wishes (next, number, new_number);
  return next;
}

/* (transfer full): @after with the words of @instead in the place of @number, each once. */
static char **
take_over (char      **after,
           const char *number,
           char      **instead)
{
  GPtrArray *words = g_ptr_array_new ();

  for (char **word = after; *word != NULL; word++)
    {
      char *only[] = { *word, NULL };
      for (char **added = strcmp (*word, number) == 0 ? instead : only; *added != NULL; added++)
        if (!g_ptr_array_find_with_equal_func (words, *added, g_str_equal, NULL))
          g_ptr_array_add (words, g_strdup (*added));
    }
  g_ptr_array_add (words, NULL);
  return (char **) g_ptr_array_free (words, FALSE);
}

HwProject *
hw_edit_remove_step (const HwProject *self,
                     const char      *number,
                     GError         **error)
{
  const HwStep *removed;
  HwProject *next;
  int index;

  g_return_val_if_fail (self != NULL && number != NULL, NULL);

  index = hw_project_find_step (self, number);
  if (index < 0)
    return refuse_step (number, error);
  removed = hw_project_get_step (self, (gsize) index);
  next = hw_project_thaw (self);
  for (guint i = 0; i < next->steps->len; i++)
    {
      HwStep *step;
      char **after;
      if (i == (guint) index || !comes_after (hw_project_get_step (self, i), number))
        continue;
      step = hw_step_copy (hw_project_get_step (self, i));
      after = take_over (step->after, number, removed->after);
      g_strfreev (step->after);
      step->after = after;
      replace_step (next, i, step);
    }
  hw_mend_wishes (next, number, NULL);
  g_ptr_array_remove_index (next->steps, (guint) index);
  return next;
}

HwProject *
hw_edit_move_step (const HwProject *self,
                   const char      *number,
                   gsize            new_index,
                   GError         **error)
{
  HwProject *next;
  HwStep *step;
  int index;

  g_return_val_if_fail (self != NULL && number != NULL, NULL);

  index = hw_project_find_step (self, number);
  if (index < 0)
    return refuse_step (number, error);
  if (new_index >= self->steps->len)
    return refuse (error, HW_MODEL_ERROR_INVALID, _("step %s cannot be moved past the end of the list"), number);
  next = hw_project_thaw (self);
  step = g_ptr_array_steal_index (next->steps, (guint) index);
  g_ptr_array_insert (next->steps, (int) new_index, step);
  return next;
}

/* ---- overrides ---- */

void
hw_step_drop_override (HwStep  *step,
                       HwField  field)
{
  gsize kept = 0;

  for (gsize i = 0; i < step->n_overrides; i++)
    if (step->overrides[i].field == field)
      g_free (step->overrides[i].choice);
    else
      step->overrides[kept++] = step->overrides[i];
  step->n_overrides = kept;
}

static gboolean
find_operation (const HwProject *self,
                const char      *number,
                int             *index,
                GError         **error)
{
  *index = hw_project_find_step (self, number);
  if (*index < 0)
    refuse_step (number, error);
  else if (hw_project_get_step (self, (gsize) *index)->kind == HW_STEP_HAND)
    refuse (error, HW_MODEL_ERROR_INVALID, _("step %s is done by hand and has no set-up"), number);
  else
    return TRUE;
  return FALSE;
}

/* An override that is there already keeps its place; a new one goes to the place of its field, so that the order in
 * which a person sets two values does not show in the file. */
HwProject *
hw_edit_set_override (const HwProject *self,
                      const char      *number,
                      HwField          field,
                      double           value,
                      const char      *choice,
                      GError         **error)
{
  HwOverride override = { field, hw_field_is_choice (field) ? 0 : value, (char *) choice };
  HwProject *next;
  HwStep *step;
  gsize at = 0;
  int index = -1;

  g_return_val_if_fail (self != NULL && number != NULL && field < HW_N_FIELDS, NULL);

  if (!find_operation (self, number, &index, error) || !hw_check_override (&override, error))
    return NULL;
  next = hw_project_thaw (self);
  step = hw_step_copy (hw_project_get_step (self, (gsize) index));
  while (at < step->n_overrides && step->overrides[at].field < field)
    at++;
  override.choice = g_strdup (choice);
  if (at < step->n_overrides && step->overrides[at].field == field)
    {
      g_free (step->overrides[at].choice);
    }
  else
    {
      hw_step_drop_override (step, field);       /* a file may hold them in any order */
      step->overrides = g_renew (HwOverride, step->overrides, step->n_overrides + 1);
      memmove (&step->overrides[at + 1], &step->overrides[at], (step->n_overrides - at) * sizeof (HwOverride));
      step->n_overrides++;
    }
  step->overrides[at] = override;
  replace_step (next, (guint) index, step);
  return next;
}

HwProject *
hw_edit_clear_override (const HwProject *self,
                        const char      *number,
                        HwField          field,
                        GError         **error)
{
  HwProject *next;
  HwStep *step;
  int index = -1;

  g_return_val_if_fail (self != NULL && number != NULL && field < HW_N_FIELDS, NULL);

  if (!find_operation (self, number, &index, error))
    return NULL;
  next = hw_project_thaw (self);
  step = hw_step_copy (hw_project_get_step (self, (gsize) index));
  hw_step_drop_override (step, field);
  replace_step (next, (guint) index, step);
  return next;
}

/**
 * hw_project_free_number:
 *
 * One more than the greatest number in use: a gap may be that of a step that was taken out, and the journal still
 * speaks of it.
 *
 * Returns: (transfer full): the next number
 */
char *
hw_project_free_number (const HwProject *self)
{
  guint64 greatest = 0;

  g_return_val_if_fail (self != NULL, NULL);

  for (guint i = 0; i < self->steps->len; i++)
    {
      const char *number = hw_project_get_step (self, i)->number;
      gsize digits = strspn (number, "0123456789");     /* of "12a" too */
      if (digits > 0 && digits <= 9)
        greatest = MAX (greatest, g_ascii_strtoull (number, NULL, 10));
    }
  return g_strdup_printf ("%" G_GUINT64_FORMAT, greatest + 1);
}
