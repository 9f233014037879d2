/* step-list.c - the steps of a project as a list model that keeps its items by number
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/step-list.h"

struct _HwStepItem
{
  GObject parent_instance;
  HwStep *step;
};

static guint changed_signal;

G_DEFINE_FINAL_TYPE (HwStepItem, hw_step_item, G_TYPE_OBJECT)

static void
hw_step_item_finalize (GObject *object)
{
  g_clear_pointer (&HW_STEP_ITEM (object)->step, hw_step_unref);
  G_OBJECT_CLASS (hw_step_item_parent_class)->finalize (object);
}

static void
hw_step_item_class_init (HwStepItemClass *class)
{
  G_OBJECT_CLASS (class)->finalize = hw_step_item_finalize;
  changed_signal = g_signal_new ("changed", HW_TYPE_STEP_ITEM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_step_item_init (HwStepItem *self)
{
}

static void
set_step (HwStepItem   *self,
          const HwStep *step)
{
  HwStep *before = self->step;

  self->step = hw_step_ref ((HwStep *) step);
  if (before != NULL)
    hw_step_unref (before);
}

const HwStep *
hw_step_item_get_step (HwStepItem *self)
{
  g_return_val_if_fail (HW_IS_STEP_ITEM (self), NULL);

  return self->step;
}

const char *
hw_step_item_get_number (HwStepItem *self)
{
  g_return_val_if_fail (HW_IS_STEP_ITEM (self), NULL);

  return self->step->number;
}

GListStore *
hw_step_list_new (void)
{
  return g_list_store_new (HW_TYPE_STEP_ITEM);
}

int
hw_step_list_find (GListModel *list,
                   const char *number)
{
  guint n = g_list_model_get_n_items (list);

  for (guint i = 0; number != NULL && i < n; i++)
    {
      g_autoptr (HwStepItem) item = g_list_model_get_item (list, i);

      if (g_str_equal (item->step->number, number))
        return (int) i;
    }
  return -1;
}

/* (element-type HwStepItem) with full references: the items that stay are those of @list. */
static GPtrArray *
gather_items (GListModel      *list,
              const HwProject *project,
              guint            most)
{
  guint n_before = g_list_model_get_n_items (list);
  guint n = project != NULL ? MIN (project->steps->len, most) : 0;
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
  GPtrArray *items = g_ptr_array_new_full (n, g_object_unref);

  for (guint i = 0; i < n_before; i++)
    {
      HwStepItem *item = g_list_model_get_item (list, i);

      g_hash_table_insert (known, g_strdup (item->step->number), item);
    }
  for (guint i = 0; i < n; i++)
    {
      const HwStep *step = hw_project_get_step (project, i);
      HwStepItem   *item = g_hash_table_lookup (known, step->number);

      item = item != NULL ? g_object_ref (item) : g_object_new (HW_TYPE_STEP_ITEM, NULL);
      set_step (item, step);
      g_ptr_array_add (items, item);
    }
  return items;
}

static gboolean
is_item (GListModel *list,
         guint       position,
         gpointer    item)
{
  g_autoptr (GObject) present = g_list_model_get_item (list, position);

  return present == item;
}

void
hw_step_list_update (GListStore      *list,
                     const HwProject *project,
                     guint            most)
{
  GListModel *model = G_LIST_MODEL (list);
  guint       n_before = g_list_model_get_n_items (model);
  g_autoptr (GPtrArray) items = gather_items (model, project, most);
  guint       start = 0;
  guint       end = 0;

  while (start < MIN (n_before, items->len) && is_item (model, start, items->pdata[start]))
    start++;
  while (end < MIN (n_before, items->len) - start
         && is_item (model, n_before - end - 1, items->pdata[items->len - end - 1]))
    end++;
  if (start + end < MAX (n_before, items->len))
    g_list_store_splice (list, start, n_before - start - end, items->pdata + start, items->len - start - end);
  for (guint i = 0; i < items->len; i++)
    g_signal_emit (items->pdata[i], changed_signal, 0);
}
