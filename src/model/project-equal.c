/* project-equal.c - whether two projects say the same
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where they were read from does not count. Snapshots share what did not change, so most parts are the same pointer.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/project.h"
#include "model/project-private.h"

typedef gboolean (* EqualFunc) (gconstpointer a, gconstpointer b);

static gboolean
equal_texts (const char *a,
             const char *b)
{
  return g_strcmp0 (a, b) == 0;
}

static gboolean
equal_words (char **a,
             char **b)
{
  static char *none[] = { NULL };

  return g_strv_equal ((const char * const *) (a != NULL ? a : none), (const char * const *) (b != NULL ? b : none));
}

static gboolean
equal_fabrics (gconstpointer first,
               gconstpointer second)
{
  const HwProjectFabric *a = first;
  const HwProjectFabric *b = second;

  return equal_texts (a->id, b->id) && equal_texts (a->name, b->name) && equal_texts (a->handbook, b->handbook)
         && equal_texts (a->construction, b->construction) && equal_texts (a->colour, b->colour)
         && a->mass_g_m2 == b->mass_g_m2 && a->thickness_mm == b->thickness_mm
         && a->stretch_percent == b->stretch_percent && equal_words (a->traits, b->traits);
}

static gboolean
equal_threads (gconstpointer first,
               gconstpointer second)
{
  const HwProjectThread *a = first;
  const HwProjectThread *b = second;

  return equal_texts (a->id, b->id) && equal_texts (a->handbook, b->handbook) && equal_texts (a->colour, b->colour)
         && a->tex == b->tex;
}

static gboolean
equal_plies (const HwPly *a,
             gsize        n_a,
             const HwPly *b,
             gsize        n_b)
{
  if (n_a != n_b)
    return FALSE;
  for (gsize i = 0; i < n_a; i++)
    if (!equal_texts (a[i].fabric, b[i].fabric) || a[i].count != b[i].count)
      return FALSE;
  return TRUE;
}

static gboolean
equal_overrides (const HwStep *a,
                 const HwStep *b)
{
  if (a->n_overrides != b->n_overrides)
    return FALSE;
  for (gsize i = 0; i < a->n_overrides; i++)
    if (a->overrides[i].field != b->overrides[i].field || a->overrides[i].value != b->overrides[i].value
        || !equal_texts (a->overrides[i].choice, b->overrides[i].choice))
      return FALSE;
  return TRUE;
}

static gboolean
equal_operations (const HwStep *a,
                  const HwStep *b)
{
  return equal_texts (a->purpose, b->purpose) && equal_texts (a->seam, b->seam) && equal_texts (a->stitch, b->stitch)
         && equal_texts (a->machine, b->machine) && a->length_cm == b->length_cm && a->pieces == b->pieces
         && equal_plies (a->plies, a->n_plies, b->plies, b->n_plies)
         && equal_plies (a->crossing, a->n_crossing, b->crossing, b->n_crossing)
         && equal_texts (a->needle_thread, b->needle_thread) && equal_texts (a->bobbin_thread, b->bobbin_thread)
         && equal_overrides (a, b) && !a->share == !b->share;
}

static gboolean
equal_steps (gconstpointer first,
             gconstpointer second)
{
  const HwStep *a = first;
  const HwStep *b = second;

  if (a->kind != b->kind || !equal_texts (a->number, b->number) || !equal_texts (a->name, b->name)
      || !equal_words (a->after, b->after) || !equal_texts (a->note, b->note))
    return FALSE;
  return a->kind == HW_STEP_HAND ? a->hand == b->hand && a->minutes == b->minutes : equal_operations (a, b);
}

static gboolean
equal_wishes (gconstpointer first,
              gconstpointer second)
{
  return hw_wish_is_equal (first, second);
}

static gboolean
equal_parts (const GPtrArray *a,
             const GPtrArray *b,
             EqualFunc        equal)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    {
      gconstpointer first = g_ptr_array_index (a, i);
      gconstpointer second = g_ptr_array_index (b, i);
      if (first != second && !equal (first, second))
        return FALSE;
    }
  return TRUE;
}

gboolean
hw_project_is_equal (const HwProject *a,
                     const HwProject *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a == b
         || (equal_texts (a->id, b->id) && equal_texts (a->title, b->title) && equal_texts (a->due, b->due)
             && equal_texts (a->note, b->note) && hw_project_has_equal_fabrics (a, b)
             && hw_project_has_equal_threads (a, b) && equal_parts (a->steps, b->steps, equal_steps)
             && hw_project_has_equal_wishes (a, b) && !a->gather_hand == !b->gather_hand && !a->share == !b->share);
}

gboolean
hw_project_fabric_is_equal (const HwProjectFabric *a,
                            const HwProjectFabric *b)
{
  return equal_fabrics (a, b);
}

gboolean
hw_project_thread_is_equal (const HwProjectThread *a,
                            const HwProjectThread *b)
{
  return equal_threads (a, b);
}

gboolean
hw_step_is_equal (const HwStep *a,
                  const HwStep *b)
{
  return a == b || equal_steps (a, b);
}

gboolean
hw_project_has_equal_fabrics (const HwProject *a,
                              const HwProject *b)
{
  return equal_parts (a->fabrics, b->fabrics, equal_fabrics);
}

gboolean
hw_project_has_equal_threads (const HwProject *a,
                              const HwProject *b)
{
  return equal_parts (a->threads, b->threads, equal_threads);
}

gboolean
hw_project_has_equal_wishes (const HwProject *a,
                             const HwProject *b)
{
  return equal_parts (a->wishes, b->wishes, equal_wishes);
}
