/* garment-project.c - makes a project from a garment of the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/garment-project.h"

#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

typedef struct
{
  const HwHandbook      *handbook;
  const HwGarment       *garment;
  const HwGarmentFigure *figures;        /* one a step */
  HwProject             *project;
} Making;

/* ---- fabrics and threads ---- */

/* The index of the fabric for each role; FALSE with @error when the handbook does not know one. */
static gboolean
choose_fabrics (const HwHandbook   *handbook,
                const HwGarment    *garment,
                const char * const *fabrics,
                int                *chosen,
                GError            **error)
{
  for (gsize i = 0; i < garment->n_roles; i++)
    {
      const char *id = fabrics != NULL ? fabrics[i] : NULL;
      g_autofree char *near = NULL;

      chosen[i] = id != NULL ? hw_handbook_find_fabric (handbook, id) : garment->roles[i].fabric;
      if (chosen[i] >= 0)
        continue;
      near = hw_handbook_nearest_id (handbook, "fabric", id);
      if (near != NULL)
        g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN,
                     _("the handbook has no fabric “%s” (did you mean “%s”?)"), id, near);
      else
        g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("the handbook has no fabric “%s”"), id);
      return FALSE;
    }
  return TRUE;
}

/* Two roles of one cloth are told apart by what they are for. */
static char *
name_fabric (const Making *self,
             const int    *chosen,
             gsize         role)
{
  const char *name = self->handbook->fabrics[chosen[role]].entry.name;

  for (gsize i = 0; i < self->garment->n_roles; i++)
    if (i != role && chosen[i] == chosen[role])
      /* Translators: a fabric and what it is for: "Quilting cotton, backing" */
      return g_strdup_printf (_("%s, %s"), name, self->garment->roles[role].name);
  return g_strdup (name);
}

static void
add_fabrics (Making    *self,
             const int *chosen)
{
  for (gsize i = 0; i < self->garment->n_roles; i++)
    {
      g_autofree char *name = name_fabric (self, chosen, i);
      HwProjectFabric *fabric = hw_project_fabric_new (self->garment->roles[i].id, name);

      fabric->handbook = g_strdup (self->handbook->fabrics[chosen[i]].entry.id);
      g_ptr_array_add (self->project->fabrics, fabric);
    }
}

/* A garment that names no thread keeps the one that every new project has. */
static void
add_threads (Making *self)
{
  if (self->garment->n_threads > 0)
    g_ptr_array_set_size (self->project->threads, 0);
  for (gsize i = 0; i < self->garment->n_threads; i++)
    {
      const HwThreadRole *role = &self->garment->threads[i];
      const char *thread = self->handbook->threads[role->thread].entry.id;

      g_ptr_array_add (self->project->threads, hw_project_thread_new (role->id, thread));
    }
}

/* ---- steps ---- */

static HwPly *
make_plies (const HwGarment *garment,
            const HwRolePly *plies,
            gsize            n_plies)
{
  HwPly *made = n_plies > 0 ? g_new (HwPly, n_plies) : NULL;

  for (gsize i = 0; i < n_plies; i++)
    made[i] = (HwPly) { g_strdup (garment->roles[plies[i].role].id), plies[i].count };
  return made;
}

static void
fill_operation (const Making          *self,
                const HwGarmentStep   *from,
                const HwGarmentFigure *figure,
                HwStep                *step)
{
  const HwHandbook *handbook = self->handbook;
  const HwGarment *garment = self->garment;

  step->purpose = g_strdup (handbook->purposes[from->purpose].entry.id);
  step->seam = from->seam >= 0 ? g_strdup (handbook->seams[from->seam].entry.id) : NULL;
  step->stitch = from->stitch >= 0 ? g_strdup (handbook->stitches[from->stitch].entry.id) : NULL;
  step->needle_thread = from->needle_thread >= 0 ? g_strdup (garment->threads[from->needle_thread].id) : NULL;
  step->bobbin_thread = from->bobbin_thread >= 0 ? g_strdup (garment->threads[from->bobbin_thread].id) : NULL;
  step->length_cm = figure->length_mm / 10;
  step->pieces = figure->pieces;
  step->plies = make_plies (garment, from->plies, from->n_plies);
  step->n_plies = from->n_plies;
  step->crossing = make_plies (garment, from->crossing, from->n_crossing);
  step->n_crossing = from->n_crossing;
}

static HwHandKind
find_hand_kind (const char *id)
{
  for (int kind = 0; kind < HW_N_HAND_KINDS; kind++)
    if (strcmp (hw_hand_kind_ids[kind], id) == 0)
      return (HwHandKind) kind;
  return HW_HAND_OTHER;
}

static gboolean
add_step (Making  *self,
          gsize    index,
          GError **error)
{
  const HwGarmentStep *from = &self->garment->steps[index];
  HwStep *step = hw_step_new (from->by_hand ? HW_STEP_HAND : HW_STEP_OPERATION, from->number, from->name);

  g_ptr_array_add (self->project->steps, step);
  g_strfreev (step->after);
  step->after = g_strdupv (from->after);
  step->note = from->note != NULL ? hw_tidy_note (from->note) : NULL;
  if (from->by_hand)
    {
      step->hand = find_hand_kind (from->kind);
      step->minutes = self->figures[index].minutes;
    }
  else
    fill_operation (self, from, &self->figures[index], step);
  return hw_check_step (self->project, step, error);
}

/* ---- the whole ---- */

/* What it was made for, so that it can be made again: "Waist 72 cm, hip 98 cm". */
static char *
describe_values (const HwGarment *garment,
                 const double    *values)
{
  g_autoptr (GString) text = g_string_new (garment->entry.name);

  for (gsize i = 0; i < garment->n_measurements; i++)
    {
      const HwMeasurement *measurement = &garment->measurements[i];

      g_string_append (text, i == 0 ? ": " : ", ");
      if (measurement->counts)
        /* Translators: what is counted, how many */
        g_string_append_printf (text, _("%s %g"), measurement->name, values[i]);
      else
        /* Translators: a measurement, its length */
        g_string_append_printf (text, _("%s %g cm"), measurement->name, values[i] / 10);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static gboolean
fill (Making       *self,
      const int    *chosen,
      GError      **error)
{
  gsize at = 0;

  add_fabrics (self, chosen);
  add_threads (self);
  for (gsize i = 0; i < self->garment->n_steps; i++)
    if (!add_step (self, i, error))
      return FALSE;
  return hw_check_after (self->project, &at, error);
}

/**
 * hw_garment_make:
 *
 * Returns: (transfer full): the project, or %NULL with @error set
 */
HwProject *
hw_garment_make (const HwHandbook   *handbook,
                 const HwGarment    *garment,
                 const double       *values,
                 const char * const *fabrics,
                 const char         *title_or_null,
                 const char         *id,
                 GError            **error)
{
  g_autofree double *own = NULL;
  g_autofree int *chosen = NULL;
  g_autofree HwGarmentFigure *figures = NULL;
  g_autoptr (HwProject) project = NULL;
  const char *title = title_or_null;
  Making making;

  g_return_val_if_fail (handbook != NULL && garment != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (title == NULL)
    title = garment->entry.name;
  if (!hw_check_id (_("the project's id"), id, error) || !hw_check_text (_("the project's title"), title, error))
    return NULL;
  own = values == NULL ? hw_garment_dup_values (garment, garment->size) : NULL;
  chosen = g_new0 (int, MAX (garment->n_roles, 1));
  figures = hw_garment_reckon (garment, values != NULL ? values : own, error);
  if (figures == NULL || !choose_fabrics (handbook, garment, fabrics, chosen, error))
    return NULL;
  project = hw_project_new (id, title);
  project->note = describe_values (garment, values != NULL ? values : own);
  making = (Making) { handbook, garment, figures, project };
  return fill (&making, chosen, error) ? g_steal_pointer (&project) : NULL;
}
