/* fuzz-handbook.c - any bytes as a file of the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "handbook/handbook.h"
#include "target.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

static char *folder;
static char *input_path;
static char *schema_path;

static void
remove_folder_cb (void)
{
  g_unlink (input_path);
  g_unlink (schema_path);
  g_rmdir (folder);
  g_free (input_path);
  g_free (schema_path);
  g_free (folder);
}

/* A folder with the schema in it, for the whole run. */
static void
make_folder (void)
{
  g_autoptr (GError) error = NULL;
  const char *data = g_getenv ("HANDWHEEL_DATA_DIR");
  g_autofree char *from = g_build_filename (data != NULL ? data : "data", "handbook", "handbook.rng", NULL);
  g_autofree char *schema = NULL;

  folder = g_dir_make_tmp ("handwheel-fuzz-XXXXXX", &error);
  if (folder == NULL || !g_file_get_contents (from, &schema, NULL, &error))
    g_error ("%s", error->message);
  input_path = g_build_filename (folder, "input.xml", NULL);
  schema_path = g_build_filename (folder, "handbook.rng", NULL);
  if (!g_file_set_contents (schema_path, schema, -1, &error))
    g_error ("%s", error->message);
  atexit (remove_folder_cb);
}

static void
write_input (const guint8 *data,
             gsize         size)
{
  FILE *file = g_fopen (input_path, "wb");

  g_assert (file != NULL);
  g_assert (fwrite (data, 1, size, file) == size);
  g_assert (fclose (file) == 0);
}

/* A garment that loaded can be made in its usual measurements, and its plies and threads are its own. */
static void
check_garment (const HwGarment *garment)
{
  double *values = hw_garment_dup_values (garment, garment->size);
  HwGarmentFigure *figures = hw_garment_reckon (garment, values, NULL);

  g_assert (figures != NULL && garment->n_steps > 0);
  for (gsize i = 0; i < garment->n_steps; i++)
    {
      const HwGarmentStep *step = &garment->steps[i];
      g_assert (step->by_hand ? figures[i].minutes > 0 : figures[i].length_mm > 0 && figures[i].pieces > 0);
      g_assert (step->needle_thread < (int) garment->n_threads && step->after != NULL);
      for (gsize j = 0; j < step->n_plies; j++)
        g_assert (step->plies[j].role >= 0 && step->plies[j].role < (int) garment->n_roles);
    }
  g_free (figures);
  g_free (values);
}

/* What the plan takes for granted of a handbook that loaded. */
static void
check_promises (const HwHandbook *book)
{
  for (gsize i = 0; i < book->n_fabrics; i++)
    {
      const HwFabric *fabric = &book->fabrics[i];
      g_assert (fabric->entry.source != NULL && *fabric->entry.name != '\0');
      g_assert (fabric->construction >= 0 && (gsize) fabric->construction < book->n_constructions);
      g_assert (fabric->mass_g_m2.low <= fabric->mass_g_m2.prefer);
      g_assert (fabric->mass_g_m2.prefer <= fabric->mass_g_m2.high);
      g_assert (fabric->thickness_mm.prefer > 0);
    }
  for (gsize i = 0; i < book->n_points; i++)
    {
      g_assert (book->points[i].n_sizes > 0);
      for (gsize j = 1; j < book->points[i].n_sizes; j++)
        g_assert (book->points[i].sizes[j - 1] < book->points[i].sizes[j]);
    }
  for (int subject = 0; subject < HW_N_RULE_SUBJECTS; subject++)
    for (gsize i = 0; i < book->n_rules[subject]; i++)
      g_assert (book->rules[subject][i].source != NULL && *book->rules[subject][i].text != '\0');
  for (gsize i = 0; i < book->n_garments; i++)
    check_garment (&book->garments[i]);
  for (gsize i = 0; i < book->n_faults; i++)
    g_assert (book->faults[i].n_causes > 0 && book->faults[i].causes[0].source != NULL);
  for (gsize i = 0; i < book->n_terms; i++)
    g_assert (book->terms[i].entry.note != NULL);
  g_assert (book->tension_source != NULL && book->changes.source != NULL && book->running_share > 0);
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) book = NULL;

  if (folder == NULL)
    make_folder ();
  write_input (data, size);
  book = hw_handbook_load (folder, &error);
  g_assert ((book == NULL) == (error != NULL));
  if (book != NULL)
    check_promises (book);
  else
    {
      g_assert (error->domain == HW_HANDBOOK_ERROR);
      g_assert (g_utf8_validate (error->message, -1, NULL));
      g_assert (strchr (error->message, '\n') == NULL);
      g_assert (strlen (error->message) < 4096);
    }
  return 0;
}
