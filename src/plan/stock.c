/* stock.c - needles on hand against what planned projects want
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/stock.h"

#include <math.h>
#include <string.h>

#define SAME_MM 0.005

static void
free_need (gpointer data)
{
  HwStockNeed *self = data;

  g_ptr_array_unref (self->projects);
  g_free (self);
}

int
hw_stock_count (const HwHandbook *handbook, const HwRoom *room, int system, int point, int size_nm, double twin_mm)
{
  int count = 0;

  for (guint i = 0; i < room->packets->len; i++)
    {
      const HwPacket *packet = g_ptr_array_index (room->packets, i);

      if (packet->nm == size_nm && fabs (packet->twin_mm - twin_mm) < SAME_MM
          && hw_handbook_find_system (handbook, packet->system) == system
          && hw_handbook_find_point (handbook, packet->point) == point)
        count += hw_room_new_needles (room, packet);
    }
  return count;
}

static HwStockNeed *
get_need (GPtrArray *needs, const HwNeedlePick *pick)
{
  HwStockNeed *need;

  for (guint i = 0; i < needs->len; i++)
    {
      need = g_ptr_array_index (needs, i);
      if (need->system == pick->system && need->point == pick->point && need->size_nm == pick->size_nm
          && fabs (need->twin_mm - pick->twin_mm) < SAME_MM)
        return need;
    }
  need = g_new0 (HwStockNeed, 1);
  *need = (HwStockNeed) { .system = pick->system, .point = pick->point, .size_nm = pick->size_nm,
                          .twin_mm = pick->twin_mm, .points = pick->points,
                          .projects = g_ptr_array_new_with_free_func (g_free) };
  g_ptr_array_add (needs, need);
  return need;
}

/* A pick that comes back later is the same needle. */
static void
add_plan (GPtrArray *needs, const HwPlan *plan)
{
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);
      HwStockNeed *need;

      if (pick->worn != NULL || pick->again >= 0)
        continue;
      need = get_need (needs, pick);
      need->wanted++;
      need->points &= pick->points;
      if (!g_ptr_array_find_with_equal_func (need->projects, plan->project->title, g_str_equal, NULL))
        g_ptr_array_add (need->projects, g_strdup (plan->project->title));
    }
}

static int
compare_needs (gconstpointer a, gconstpointer b)
{
  const HwStockNeed *first = *(HwStockNeed * const *) a;
  const HwStockNeed *second = *(HwStockNeed * const *) b;

  if (first->system != second->system)
    return first->system - second->system;
  if (first->point != second->point)
    return first->point - second->point;
  if (first->size_nm != second->size_nm)
    return first->size_nm - second->size_nm;
  return (first->twin_mm > second->twin_mm) - (first->twin_mm < second->twin_mm);
}

GPtrArray *
hw_stock_needs (const HwHandbook *handbook, const HwRoom *room, const GPtrArray *plans)
{
  GPtrArray *needs;

  g_return_val_if_fail (handbook != NULL && room != NULL && plans != NULL, NULL);

  needs = g_ptr_array_new_with_free_func (free_need);
  for (guint i = 0; i < plans->len; i++)
    add_plan (needs, g_ptr_array_index (plans, i));
  for (guint i = 0; i < needs->len; i++)
    {
      HwStockNeed *need = g_ptr_array_index (needs, i);

      need->on_hand = hw_stock_count (handbook, room, need->system, need->point, need->size_nm, need->twin_mm);
    }
  g_ptr_array_sort (needs, compare_needs);
  return needs;
}

static gboolean
is_spool_of (const HwSpool  *spool,
             const HwNotion *notion)
{
  double tex = spool->tex > 0 ? spool->tex : notion->entry->tex;

  return g_str_equal (spool->handbook, notion->entry->entry.id) && g_strcmp0 (spool->colour, notion->colour) == 0
         && fabs (tex - notion->tex) < 0.5;
}

gboolean
hw_stock_thread (const HwHandbook *handbook,
                 const HwRoom     *room,
                 const HwNotion   *notion,
                 double           *metres)
{
  gboolean known = FALSE;

  g_return_val_if_fail (handbook != NULL && room != NULL && notion != NULL && metres != NULL, FALSE);

  *metres = 0;
  for (guint i = 0; i < room->spools->len; i++)
    {
      const HwSpool *spool = g_ptr_array_index (room->spools, i);

      if (!is_spool_of (spool, notion))
        continue;
      known = TRUE;
      *metres += hw_room_spool_left (room, spool, handbook);
    }
  return known;
}
