/* edit-wish.c - edits of what a person wishes of the order of work
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/edit.h"

#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

static const char * const *
words (char **steps)
{
  return (const char * const *) steps;
}

gboolean
hw_wish_is_equal (const HwWish *a,
                  const HwWish *b)
{
  return a->kind == b->kind && g_strv_equal (words (a->steps), words (b->steps));
}

/* A wish that the newer one takes the place of: the same, the two steps the other way round, and the other end of
 * the order for the same step. */
static gboolean
is_replaced (const HwWish *old,
             const HwWish *wish)
{
  gboolean old_end = old->kind == HW_WISH_FIRST || old->kind == HW_WISH_LAST;
  gboolean new_end = wish->kind == HW_WISH_FIRST || wish->kind == HW_WISH_LAST;

  if (old_end && new_end)
    return strcmp (old->steps[0], wish->steps[0]) == 0;
  if (old->kind == HW_WISH_BEFORE && wish->kind == HW_WISH_BEFORE)
    return strcmp (old->steps[0], wish->steps[1]) == 0 && strcmp (old->steps[1], wish->steps[0]) == 0;
  return FALSE;
}

/* (transfer full): @first and then @second, whose first step is the last of @first, as one. */
static HwWish *
join (const HwWish *first,
      const HwWish *second)
{
  GStrvBuilder *builder = g_strv_builder_new ();
  g_auto (GStrv) steps = NULL;

  g_strv_builder_addv (builder, (const char **) first->steps);
  g_strv_builder_addv (builder, (const char **) second->steps + 1);
  steps = g_strv_builder_end (builder);
  g_strv_builder_unref (builder);
  return hw_wish_new (HW_WISH_TOGETHER, words (steps));
}

static gboolean
meet (const HwWish *first,
      const HwWish *second)
{
  return first->kind == HW_WISH_TOGETHER && second->kind == HW_WISH_TOGETHER
         && strcmp (first->steps[g_strv_length (first->steps) - 1], second->steps[0]) == 0;
}

/* (transfer full): @wish, joined with those of @project that end or begin with its step; takes these out. */
static HwWish *
join_all (HwProject *project,
          HwWish    *wish)
{
  for (guint i = 0; i < project->wishes->len;)
    {
      const HwWish *old = g_ptr_array_index (project->wishes, i);
      HwWish *joined = meet (old, wish) ? join (old, wish) : meet (wish, old) ? join (wish, old) : NULL;

      if (joined == NULL)
        {
          i++;
          continue;
        }
      hw_wish_unref (wish);
      wish = joined;
      g_ptr_array_remove_index (project->wishes, i);
    }
  return wish;
}

HwProject *
hw_edit_add_wish (const HwProject *self,
                  const HwWish    *wish,
                  GError         **error)
{
  g_autoptr (HwProject) next = NULL;
  HwWish *added;

  g_return_val_if_fail (self != NULL && wish != NULL && wish->kind < HW_N_WISH_KINDS, NULL);

  next = hw_project_thaw (self);
  for (guint i = next->wishes->len; i-- > 0;)
    if (hw_wish_is_equal (g_ptr_array_index (next->wishes, i), wish))
      return g_steal_pointer (&next);
    else if (g_strv_length (wish->steps) > 0 && is_replaced (g_ptr_array_index (next->wishes, i), wish))
      g_ptr_array_remove_index (next->wishes, i);
  if (next->wishes->len >= HW_WISHES_MAX)
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("a project may have at most %d wishes"),
                   HW_WISHES_MAX);
      return NULL;
    }
  added = hw_wish_new (wish->kind, words (wish->steps));
  if (g_strv_length (added->steps) >= 2)
    added = join_all (next, added);
  g_ptr_array_add (next->wishes, added);
  /* The new one first, so that the chain is told for what was asked. */
  if (!hw_check_wish (next, added, error) || !hw_check_wishes (next, error))
    return NULL;
  return g_steal_pointer (&next);
}

HwProject *
hw_edit_remove_wish (const HwProject *self,
                     gsize            index,
                     GError         **error)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL, NULL);

  if (index >= self->wishes->len)
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("there is no such wish in this project"));
      return NULL;
    }
  next = hw_project_thaw (self);
  g_ptr_array_remove_index (next->wishes, (guint) index);
  return next;
}

HwProject *
hw_edit_set_gather_hand (const HwProject *self,
                         gboolean         gather)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL, NULL);

  next = hw_project_thaw (self);
  next->gather_hand = gather;
  return next;
}

/* ---- when steps change ---- */

/* (transfer full) (nullable): @wish without @number, or with @instead in its place; NULL when too little is left. */
static HwWish *
mend (const HwWish *wish,
      const char   *number,
      const char   *instead)
{
  g_autoptr (GPtrArray) steps = g_ptr_array_new ();

  for (char **word = wish->steps; *word != NULL; word++)
    if (strcmp (*word, number) != 0)
      g_ptr_array_add (steps, *word);
    else if (instead != NULL)
      g_ptr_array_add (steps, (gpointer) instead);
  if (steps->len < (wish->kind == HW_WISH_BEFORE || wish->kind == HW_WISH_TOGETHER ? 2 : 1))
    return NULL;
  g_ptr_array_add (steps, NULL);
  return hw_wish_new (wish->kind, (const char * const *) steps->pdata);
}

void
hw_mend_wishes (HwProject  *project,
                const char *number,
                const char *instead)
{
  for (guint i = project->wishes->len; i-- > 0;)
    {
      HwWish *wish = g_ptr_array_index (project->wishes, i);
      HwWish *mended;

      if (!g_strv_contains (words (wish->steps), number))
        continue;
      mended = mend (wish, number, instead);
      g_ptr_array_remove_index (project->wishes, i);
      if (mended != NULL)
        g_ptr_array_insert (project->wishes, (int) i, mended);
    }
}
