/* project.c - a project and its parts as values
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/project.h"
#include "model/project-private.h"

#include <string.h>

#define FIRST_THREAD "main"
#define FIRST_THREAD_KIND "polyester-30"

G_DEFINE_QUARK (hw-model-error-quark, hw_model_error)

const char * const hw_field_ids[HW_N_FIELDS + 1] = {
  [HW_FIELD_MACHINE] = "machine",
  [HW_FIELD_STITCH] = "stitch",
  [HW_FIELD_SYSTEM] = "system",
  [HW_FIELD_POINT] = "point",
  [HW_FIELD_SIZE] = "size",
  [HW_FIELD_TWIN] = "twin",
  [HW_FIELD_NEEDLE_TEX] = "needle-tex",
  [HW_FIELD_BOBBIN_TEX] = "bobbin-tex",
  [HW_FIELD_LENGTH] = "length",
  [HW_FIELD_WIDTH] = "width",
  [HW_FIELD_FOOT] = "foot",
  [HW_FIELD_PLATE] = "plate",
  [HW_FIELD_PRESSURE] = "pressure",
  [HW_FIELD_DIAL] = "dial",
  [HW_FIELD_ENDS] = "ends",
  [HW_FIELD_ALLOWANCE] = "allowance",
  [HW_FIELD_DIFFERENTIAL] = "differential",
  [HW_FIELD_CUTTING_WIDTH] = "cutting-width",
};

const char * const hw_wish_kind_ids[HW_N_WISH_KINDS + 1] = { "before", "together", "first", "last", NULL };

const char * const hw_hand_kind_ids[HW_N_HAND_KINDS + 1] = {
  [HW_HAND_PRESS] = "press",
  [HW_HAND_TRIM] = "trim",
  [HW_HAND_CLIP] = "clip",
  [HW_HAND_TURN] = "turn",
  [HW_HAND_FUSE] = "fuse",
  [HW_HAND_TACK] = "tack",
  [HW_HAND_HANG] = "hang",
  [HW_HAND_SEW] = "sew",
  [HW_HAND_OTHER] = "other",
};

gboolean
hw_field_is_choice (HwField field)
{
  switch (field)
    {
    case HW_FIELD_MACHINE:
    case HW_FIELD_STITCH:
    case HW_FIELD_SYSTEM:
    case HW_FIELD_POINT:
    case HW_FIELD_FOOT:
    case HW_FIELD_PLATE:
    case HW_FIELD_ENDS:
      return TRUE;
    default:
      return FALSE;
    }
}

int
hw_field_from_id (const char *id)
{
  g_return_val_if_fail (id != NULL, -1);

  for (int field = 0; field < HW_N_FIELDS; field++)
    if (strcmp (hw_field_ids[field], id) == 0)
      return field;
  return -1;
}

HwProjectFabric *
hw_project_fabric_new (const char *id,
                       const char *name)
{
  HwProjectFabric *self = g_new0 (HwProjectFabric, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->id = g_strdup (id);
  self->name = g_strdup (name != NULL ? name : id);
  self->stretch_percent = -1;
  self->traits = g_new0 (char *, 1);
  return self;
}

HwProjectFabric *
hw_project_fabric_copy (const HwProjectFabric *self)
{
  HwProjectFabric *copy;

  g_return_val_if_fail (self != NULL, NULL);

  copy = g_memdup2 (self, sizeof *self);
  g_atomic_ref_count_init (&copy->ref_count);
  copy->id = g_strdup (self->id);
  copy->name = g_strdup (self->name);
  copy->handbook = g_strdup (self->handbook);
  copy->construction = g_strdup (self->construction);
  copy->traits = self->traits != NULL ? g_strdupv (self->traits) : g_new0 (char *, 1);
  copy->colour = g_strdup (self->colour);
  return copy;
}

HwProjectFabric *
hw_project_fabric_ref (HwProjectFabric *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_project_fabric_unref (HwProjectFabric *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_free (self->id);
  g_free (self->name);
  g_free (self->handbook);
  g_free (self->construction);
  g_strfreev (self->traits);
  g_free (self->colour);
  g_free (self);
}

HwProjectThread *
hw_project_thread_new (const char *id,
                       const char *handbook)
{
  HwProjectThread *self = g_new0 (HwProjectThread, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->id = g_strdup (id);
  self->handbook = g_strdup (handbook);
  return self;
}

HwProjectThread *
hw_project_thread_copy (const HwProjectThread *self)
{
  HwProjectThread *copy;

  g_return_val_if_fail (self != NULL, NULL);

  copy = g_memdup2 (self, sizeof *self);
  g_atomic_ref_count_init (&copy->ref_count);
  copy->id = g_strdup (self->id);
  copy->handbook = g_strdup (self->handbook);
  copy->colour = g_strdup (self->colour);
  return copy;
}

HwProjectThread *
hw_project_thread_ref (HwProjectThread *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_project_thread_unref (HwProjectThread *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_free (self->id);
  g_free (self->handbook);
  g_free (self->colour);
  g_free (self);
}

HwStep *
hw_step_new (HwStepKind  kind,
             const char *number,
             const char *name)
{
  HwStep *self = g_new0 (HwStep, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->kind = kind;
  self->number = g_strdup (number);
  self->name = g_strdup (name);
  self->after = g_new0 (char *, 1);
  self->pieces = 1;
  self->share = TRUE;
  self->hand = HW_HAND_OTHER;
  return self;
}

static HwPly *
copy_plies (const HwPly *plies,
            gsize        n_plies)
{
  HwPly *copy = n_plies > 0 ? g_new (HwPly, n_plies) : NULL;

  for (gsize i = 0; i < n_plies; i++)
    copy[i] = (HwPly) { g_strdup (plies[i].fabric), plies[i].count };
  return copy;
}

static HwOverride *
copy_overrides (const HwOverride *overrides,
                gsize             n_overrides)
{
  HwOverride *copy = n_overrides > 0 ? g_new (HwOverride, n_overrides) : NULL;

  for (gsize i = 0; i < n_overrides; i++)
    copy[i] = (HwOverride) { overrides[i].field, overrides[i].value, g_strdup (overrides[i].choice) };
  return copy;
}

HwStep *
hw_step_copy (const HwStep *self)
{
  HwStep *copy;

  g_return_val_if_fail (self != NULL, NULL);

  copy = g_memdup2 (self, sizeof *self);
  g_atomic_ref_count_init (&copy->ref_count);
  copy->number = g_strdup (self->number);
  copy->name = g_strdup (self->name);
  copy->after = self->after != NULL ? g_strdupv (self->after) : g_new0 (char *, 1);
  copy->note = g_strdup (self->note);
  copy->purpose = g_strdup (self->purpose);
  copy->seam = g_strdup (self->seam);
  copy->stitch = g_strdup (self->stitch);
  copy->machine = g_strdup (self->machine);
  copy->plies = copy_plies (self->plies, self->n_plies);
  copy->crossing = copy_plies (self->crossing, self->n_crossing);
  copy->needle_thread = g_strdup (self->needle_thread);
  copy->bobbin_thread = g_strdup (self->bobbin_thread);
  copy->overrides = copy_overrides (self->overrides, self->n_overrides);
  return copy;
}

HwStep *
hw_step_ref (HwStep *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

static void
free_plies (HwPly *plies,
            gsize  n_plies)
{
  for (gsize i = 0; i < n_plies; i++)
    g_free (plies[i].fabric);
  g_free (plies);
}

guint
hw_step_count_layers (const HwStep *self)
{
  guint n = 0;

  for (gsize i = 0; i < self->n_plies; i++)
    n += (guint) self->plies[i].count;
  return n;
}

void
hw_step_unref (HwStep *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_free (self->number);
  g_free (self->name);
  g_strfreev (self->after);
  g_free (self->note);
  g_free (self->purpose);
  g_free (self->seam);
  g_free (self->stitch);
  g_free (self->machine);
  free_plies (self->plies, self->n_plies);
  free_plies (self->crossing, self->n_crossing);
  g_free (self->needle_thread);
  g_free (self->bobbin_thread);
  for (gsize i = 0; i < self->n_overrides; i++)
    g_free (self->overrides[i].choice);
  g_free (self->overrides);
  g_free (self);
}

HwWish *
hw_wish_new (HwWishKind          kind,
             const char * const *steps)
{
  HwWish *self = g_new0 (HwWish, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->kind = kind;
  self->steps = g_strdupv ((char **) steps);
  return self;
}

HwWish *
hw_wish_ref (HwWish *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_wish_unref (HwWish *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_strfreev (self->steps);
  g_free (self);
}

const HwProjectThread *
hw_project_peek_unchosen_thread (const HwProject *self)
{
  const HwProjectThread *thread = self->threads->len == 1 ? g_ptr_array_index (self->threads, 0) : NULL;

  return thread != NULL && strcmp (thread->id, FIRST_THREAD) == 0 && strcmp (thread->handbook, FIRST_THREAD_KIND) == 0
         && thread->colour == NULL && !(thread->tex > 0) ? thread : NULL;
}

/**
 * hw_project_new:
 *
 * Returns: (transfer full): a project without fabrics and steps, and with one thread, the all-purpose one that
 *   most seams in ordinary cloth are sewn with (common practice)
 */
HwProject *
hw_project_new (const char *id,
                const char *title)
{
  HwProject *self = g_new0 (HwProject, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->id = g_strdup (id);
  self->title = g_strdup (title);
  self->fabrics = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_fabric_unref);
  self->threads = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_thread_unref);
  self->steps = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_step_unref);
  self->wishes = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_wish_unref);
  self->share = TRUE;
  g_ptr_array_add (self->threads, hw_project_thread_new (FIRST_THREAD, FIRST_THREAD_KIND));
  return self;
}

static gpointer
ref_fabric (gconstpointer fabric,
            gpointer      data)
{
  return hw_project_fabric_ref ((HwProjectFabric *) fabric);
}

static gpointer
ref_thread (gconstpointer thread,
            gpointer      data)
{
  return hw_project_thread_ref ((HwProjectThread *) thread);
}

static gpointer
ref_wish (gconstpointer wish,
          gpointer      data)
{
  return hw_wish_ref ((HwWish *) wish);
}

static gpointer
ref_step (gconstpointer step,
          gpointer      data)
{
  return hw_step_ref ((HwStep *) step);
}

/* Shares @part (an array) element by element into @copy, which holds nothing yet. */
static void
share (GPtrArray *copy,
       GPtrArray *part,
       GCopyFunc  ref)
{
  g_ptr_array_set_size (copy, 0);
  g_ptr_array_extend (copy, part, ref, NULL);
}

HwProject *
hw_project_thaw (const HwProject *self)
{
  HwProject *copy = hw_project_new (self->id, self->title);

  copy->due = g_strdup (self->due);
  copy->note = g_strdup (self->note);
  copy->file = g_strdup (self->file);
  share (copy->fabrics, self->fabrics, ref_fabric);
  copy->share = self->share;
  copy->gather_hand = self->gather_hand;
  share (copy->wishes, self->wishes, ref_wish);
  share (copy->threads, self->threads, ref_thread);
  share (copy->steps, self->steps, ref_step);
  return copy;
}

HwProject *
hw_project_ref (HwProject *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
hw_project_unref (HwProject *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_free (self->id);
  g_free (self->title);
  g_free (self->due);
  g_free (self->note);
  g_free (self->file);
  g_ptr_array_unref (self->fabrics);
  g_ptr_array_unref (self->threads);
  g_ptr_array_unref (self->wishes);
  g_ptr_array_unref (self->steps);
  g_free (self);
}

const HwProjectFabric *
hw_project_find_fabric (const HwProject *self,
                        const char      *id)
{
  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  for (guint i = 0; i < self->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = g_ptr_array_index (self->fabrics, i);
      if (strcmp (fabric->id, id) == 0)
        return fabric;
    }
  return NULL;
}

const HwProjectThread *
hw_project_find_thread (const HwProject *self,
                        const char      *id)
{
  g_return_val_if_fail (self != NULL && id != NULL, NULL);

  for (guint i = 0; i < self->threads->len; i++)
    {
      const HwProjectThread *thread = g_ptr_array_index (self->threads, i);
      if (strcmp (thread->id, id) == 0)
        return thread;
    }
  return NULL;
}

int
hw_project_find_step (const HwProject *self,
                      const char      *number)
{
  g_return_val_if_fail (self != NULL && number != NULL, -1);

  for (guint i = 0; i < self->steps->len; i++)
    if (strcmp (hw_project_get_step (self, i)->number, number) == 0)
      return (int) i;
  return -1;
}

const HwStep *
hw_project_get_step (const HwProject *self,
                     gsize            index)
{
  g_return_val_if_fail (self != NULL && index < self->steps->len, NULL);
  return g_ptr_array_index (self->steps, index);
}

GHashTable *
hw_project_index_steps (const HwProject *project)
{
  GHashTable *index = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < project->steps->len; i++)
    g_hash_table_insert (index, hw_project_get_step (project, i)->number, GUINT_TO_POINTER (i + 1));
  return index;
}
