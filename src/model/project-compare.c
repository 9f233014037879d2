/* project-compare.c - what differs between two versions of a project
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/versions.h"

#include "model/project-private.h"

static GPtrArray *
new_steps (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) hw_step_unref);
}

static void
add_step (GPtrArray    *steps,
          const HwStep *step)
{
  g_ptr_array_add (steps, hw_step_ref ((HwStep *) step));
}

/* Steps of the later one, in its order; *@place runs along the places in the earlier one of those that both have. */
static void
compare_step (HwDifference    *self,
              const HwProject *earlier,
              GHashTable      *places,
              const HwStep    *step,
              guint           *last_place)
{
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (places, step->number));

  if (place == 0)
    {
      add_step (self->added, step);
      return;
    }
  if (!hw_step_is_equal (hw_project_get_step (earlier, place - 1), step))
    add_step (self->changed, step);
  self->reordered = self->reordered || place < *last_place;
  *last_place = place;
}

static void
compare_steps (HwDifference    *self,
               const HwProject *earlier,
               const HwProject *later)
{
  g_autoptr (GHashTable) places = hw_project_index_steps (earlier);
  g_autoptr (GHashTable) later_places = hw_project_index_steps (later);
  guint last_place = 0;

  for (guint i = 0; i < later->steps->len; i++)
    compare_step (self, earlier, places, hw_project_get_step (later, i), &last_place);
  for (guint i = 0; i < earlier->steps->len; i++)
    if (!g_hash_table_contains (later_places, hw_project_get_step (earlier, i)->number))
      add_step (self->removed, hw_project_get_step (earlier, i));
}

HwDifference *
hw_project_compare (const HwProject *earlier,
                    const HwProject *later)
{
  HwDifference *self;

  g_return_val_if_fail (earlier != NULL && later != NULL, NULL);

  self = g_new0 (HwDifference, 1);
  self->added = new_steps ();
  self->removed = new_steps ();
  self->changed = new_steps ();
  compare_steps (self, earlier, later);
  self->fabrics = !hw_project_has_equal_fabrics (earlier, later);
  self->threads = !hw_project_has_equal_threads (earlier, later);
  self->wishes = !hw_project_has_equal_wishes (earlier, later);
  self->title = g_strcmp0 (earlier->title, later->title) != 0;
  self->due = g_strcmp0 (earlier->due, later->due) != 0;
  self->note = g_strcmp0 (earlier->note, later->note) != 0;
  self->settings = !earlier->share != !later->share || !earlier->gather_hand != !later->gather_hand;
  return self;
}

gboolean
hw_difference_is_none (const HwDifference *self)
{
  g_return_val_if_fail (self != NULL, TRUE);

  return self->added->len == 0 && self->removed->len == 0 && self->changed->len == 0 && !self->reordered
         && !self->fabrics && !self->threads && !self->wishes && !self->title && !self->due && !self->note
         && !self->settings;
}

void
hw_difference_free (HwDifference *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->added);
  g_ptr_array_unref (self->removed);
  g_ptr_array_unref (self->changed);
  g_free (self);
}
