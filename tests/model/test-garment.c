/* test-garment.c - projects made from the handbook's garments
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two outside views of how much is sewn:
 * - lengths reckoned from ordinary block measurements of an adult of middle size, rows counted (own figures, ±20 %;
 *   common practice, no source);
 * - a woven shirt with full sleeves worked out line by line on a trade teaching page (thread consumption of a full
 *   sleeve woven shirt, 2015): 631 in of lockstitch, 16.03 m, and 82 in of overlock, 2.08 m, without its buttonholes.
 */

#include "config.h"

#include "model/garment-project.h"
#include "plan/plan.h"

#include <string.h>

static HwHandbook *handbook;
static HwRoom *room;

static const HwGarment *
find_garment (const char *id)
{
  int index = hw_handbook_find_garment (handbook, id);

  g_assert_cmpint (index, >=, 0);
  return &handbook->garments[index];
}

static HwProject *
make (const HwGarment    *garment,
      const double       *values,
      const char * const *fabrics)
{
  g_autoptr (GError) error = NULL;
  HwProject *project = hw_garment_make (handbook, garment, values, fabrics, NULL, "made", &error);

  g_assert_no_error (error);
  g_assert_nonnull (project);
  return project;
}

static HwProject *
make_size (const char *id,
           const char *size)
{
  const HwGarment *garment = find_garment (id);
  g_autofree double *values = hw_garment_dup_values (garment, hw_garment_find_size (garment, size));

  return make (garment, values, NULL);
}

static HwPlan *
plan (const HwProject *project)
{
  g_autoptr (GError) error = NULL;
  HwPlan *made = hw_plan_new (handbook, project, room, &error);

  g_assert_no_error (error);
  return made;
}

/* ---- how a project is made ---- */

static void
test_project (void)
{
  const HwGarment *skirt = find_garment ("skirt");
  g_autoptr (HwProject) project = make (skirt, NULL, NULL);
  const HwStep *darts = hw_project_get_step (project, (gsize) hw_project_find_step (project, "4"));
  const HwStep *fuse = hw_project_get_step (project, (gsize) hw_project_find_step (project, "1"));

  g_assert_cmpstr (project->id, ==, "made");
  g_assert_cmpstr (project->title, ==, "Straight skirt");
  g_assert_cmpstr (project->note, ==, "Straight skirt: Waist 76 cm, Hip 100 cm, Length without band 60 cm, "
                                      "Length of the zip 20 cm");
  g_assert_cmpuint (project->steps->len, ==, skirt->n_steps);
  g_assert_cmpuint (project->fabrics->len, ==, 3);
  g_assert_cmpstr (hw_project_find_fabric (project, "main")->handbook, ==, "cotton-twill");
  g_assert_cmpstr (hw_project_find_fabric (project, "main")->name, ==, "Cotton twill");
  g_assert_cmpuint (project->threads->len, ==, 3);
  g_assert_cmpstr (hw_project_find_thread (project, "seams")->handbook, ==, "polyester-30");
  g_assert_cmpint (darts->kind, ==, HW_STEP_OPERATION);
  g_assert_cmpstr (darts->purpose, ==, "dart");
  g_assert_null (darts->seam);
  g_assert_cmpfloat (darts->length_cm, ==, 48);
  g_assert_cmpint (darts->pieces, ==, 4);
  g_assert_cmpuint (darts->n_plies, ==, 1);
  g_assert_cmpstr (darts->plies[0].fabric, ==, "main");
  g_assert_cmpint (darts->plies[0].count, ==, 2);
  g_assert_cmpstr (darts->after[0], ==, "2");
  g_assert_cmpint (fuse->kind, ==, HW_STEP_HAND);
  g_assert_cmpint (fuse->hand, ==, HW_HAND_FUSE);
  g_assert_cmpfloat (fuse->minutes, ==, 5);
}

/* It can be kept: written and read again it is the same. */
static void
test_round_trip (void)
{
  for (gsize i = 0; i < handbook->n_garments; i++)
    {
      g_autoptr (HwProject) project = make (&handbook->garments[i], NULL, NULL);
      g_autoptr (HwProject) again = NULL;
      g_autoptr (GError) error = NULL;
      gsize size = 0;
      g_autofree char *xml = hw_project_to_xml (project, &size);

      again = hw_project_parse ("made.handwheel", xml, size, &error);
      g_assert_no_error (error);
      g_assert_true (hw_project_is_equal (project, again));
    }
}

static void
test_values (void)
{
  const HwGarment *skirt = find_garment ("skirt");
  g_autofree double *values = hw_garment_dup_values (skirt, -1);
  g_autoptr (HwProject) project = NULL;

  values[hw_garment_find_measurement (skirt, "hip")] = 1200;
  project = make (skirt, values, NULL);
  g_assert_cmpfloat (hw_project_get_step (project, (gsize) hw_project_find_step (project, "16"))->length_cm, ==, 124);
}

static void
test_fabrics (void)
{
  const HwGarment *skirt = find_garment ("skirt");
  const char * const fabrics[] = { "corduroy", NULL, NULL };
  g_autoptr (HwProject) project = make (skirt, NULL, fabrics);

  g_assert_cmpstr (hw_project_find_fabric (project, "main")->handbook, ==, "corduroy");
  g_assert_cmpstr (hw_project_find_fabric (project, "interfacing")->handbook, ==, "fusible-woven");
}

/* Two roles of one cloth can be told apart in the list of steps. */
static void
test_fabric_names (void)
{
  g_autoptr (HwProject) project = make (find_garment ("quilt"), NULL, NULL);

  g_assert_cmpstr (hw_project_find_fabric (project, "patches")->name, ==, "Quilting cotton, Patches");
  g_assert_cmpstr (hw_project_find_fabric (project, "backing")->name, ==, "Quilting cotton, Backing");
  g_assert_cmpstr (hw_project_find_fabric (project, "wadding")->name, ==, "Wadding");
}

static void
test_refused (void)
{
  const HwGarment *skirt = find_garment ("skirt");
  const char * const fabrics[] = { "corduro", NULL, NULL };
  g_autofree double *values = hw_garment_dup_values (skirt, -1);
  GError *error = NULL;

  g_assert_null (hw_garment_make (handbook, skirt, NULL, fabrics, NULL, "made", &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN);
  g_assert_nonnull (strstr (error->message, "(did you mean “corduroy”?)"));
  g_clear_error (&error);
  g_assert_null (hw_garment_make (handbook, skirt, NULL, NULL, NULL, "two words", &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  g_clear_error (&error);
  g_assert_null (hw_garment_make (handbook, skirt, NULL, NULL, " ", "made", &error));
  g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
  g_clear_error (&error);
  values[0] = 100;
  g_assert_null (hw_garment_make (handbook, skirt, values, NULL, NULL, "made", &error));
  g_assert_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_INVALID);
  g_assert_nonnull (strstr (error->message, "“Waist” must be from 45 to 150 cm; it is 10"));
  g_clear_error (&error);
}

/* ---- every garment can be planned ---- */

static void
assert_planned (const HwGarment *garment,
                const double    *values,
                const char      *what)
{
  g_autoptr (HwProject) project = make (garment, values, NULL);
  g_autoptr (HwPlan) made = plan (project);

  g_test_message ("%s, %s: %.0f min and %.1f of changes", garment->entry.id, what, made->minutes_total,
                  made->as_ordered.change_minutes);
  g_assert_cmpuint (made->order->len, ==, project->steps->len);
  g_assert_cmpfloat (made->minutes_total, >, 10);
}

static void
test_planned (gconstpointer data)
{
  const HwGarment *garment = data;
  gsize n_sizes = garment->sizes != NULL ? garment->sizes->n_sizes : 0;

  assert_planned (garment, NULL, "as it comes");
  for (gsize i = 0; i < n_sizes; i++)
    {
      g_autofree double *values = hw_garment_dup_values (garment, (int) i);
      assert_planned (garment, values, garment->sizes->names[i]);
    }
}

/* Thick places apart, which the default room's feet do not clear, nothing is wrong with what a garment proposes. */
static void
test_no_warnings (gconstpointer data)
{
  const HwGarment *garment = data;
  g_autoptr (HwProject) project = make (garment, NULL, NULL);
  g_autoptr (HwPlan) made = plan (project);

  for (gsize i = 0; i < made->n_steps; i++)
    for (guint j = 0; made->setups[i] != NULL && j < made->setups[i]->warnings->len; j++)
      {
        const HwWarning *warning = &g_array_index (made->setups[i]->warnings, HwWarning, j);
        if (warning->code == HW_WARN_FOOT_LIFT)
          continue;
        g_test_message ("%s, step %s: warning %d", garment->entry.id, made->setups[i]->step->number, warning->code);
        g_test_fail ();
      }
}

/* A larger size never sews less of anything. */
static void
test_grows (gconstpointer data)
{
  const HwGarment *garment = data;

  for (gsize size = 1; garment->sizes != NULL && size < garment->sizes->n_sizes; size++)
    {
      g_autofree double *small = hw_garment_dup_values (garment, (int) size - 1);
      g_autofree double *large = hw_garment_dup_values (garment, (int) size);
      g_autofree HwGarmentFigure *less = hw_garment_reckon (garment, small, NULL);
      g_autofree HwGarmentFigure *more = hw_garment_reckon (garment, large, NULL);
      double sum_less = 0;
      double sum_more = 0;

      for (gsize i = 0; i < garment->n_steps; i++)
        {
          sum_less += less[i].length_mm;
          sum_more += more[i].length_mm;
        }
      g_assert_cmpfloat (sum_more, >=, sum_less);
    }
}

/* ---- how much is sewn ---- */

typedef enum { ROWS, EDGES, ALL } Part;

typedef struct
{
  const char *garment;
  const char *size;                      /* NULL: it has none */
  Part        part;
  double      low_m, high_m;
} Length;

#define ABOUT(m) 0.8 * (m), 1.2 * (m)

/* Own figures. Where the figure is a range, 20 % at either end. The shirt's is published, see above: a collar of 16 in
 * is a size L here. A tenth is allowed, for half a size is 3 %, the published one has labels (0.23 m) that ours has
 * not, and ours a second row on the yoke (0.53 m). */
static const Length lengths[] = {
  { "t-shirt", "M", EDGES, ABOUT (3.4) },
  { "t-shirt", "M", ALL, ABOUT (5.8) },
  { "shirt", "L", ROWS, 0.9 * 16.03, 1.1 * 16.03 },
  { "shirt", "L", EDGES, 0.9 * 2.08, 1.1 * 2.08 },
  { "skirt", "92", ROWS, ABOUT (6.2) },
  { "skirt", "92", EDGES, ABOUT (2.6) },
  { "dress", "92", ROWS, ABOUT (11) },
  { "trousers", "92", ROWS, ABOUT (11) },
  { "trousers", "92", EDGES, ABOUT (6) },
  { "hoodie", "M", EDGES, ABOUT (7) },
  { "hoodie", "M", ALL, ABOUT (13) },
  { "pillowcase", "50×80", ROWS, 0.8 * 3.6, 1.2 * 6.2 },
  { "cushion-cover", "45", ALL, 0.8 * 5, 1.2 * 6 },
  { "curtains", "floor", ROWS, ABOUT (20) },
  { "tote-bag", NULL, ROWS, 0.8 * 8, 1.2 * 9 },
  { "apron", NULL, ROWS, 0.8 * 6, 1.2 * 7 },
  { "quilt", "lap", ROWS, ABOUT (120) },
  /* operations written down by a practitioner for a wrap skirt and a jacket; common practice, no source */
  { "wrap-skirt", "92", ROWS, ABOUT (18.36) },
  { "wrap-skirt", "92", EDGES, ABOUT (2.72) },
  { "jacket", "92", ROWS, ABOUT (17.6) },
};

/* Metres on a lockstitch machine, buttonholes and bar tacks left out, or on an overlocker. */
static double
measure (const HwPlan *made,
         Part          part)
{
  double metres = 0;

  for (gsize i = 0; i < made->n_steps; i++)
    {
      const HwSetup *setup = made->setups[i];
      gboolean edge = setup != NULL && setup->machine->kind == HW_MACHINE_OVERLOCK;

      if (setup == NULL || g_str_equal (setup->purpose->entry.id, "buttonhole")
          || g_str_equal (setup->purpose->entry.id, "bar-tack"))
        continue;
      if (part == ALL || (part == EDGES) == edge)
        metres += setup->step->length_cm / 100;
    }
  return metres;
}

static void
test_lengths (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (lengths); i++)
    {
      const Length *one = &lengths[i];
      g_autoptr (HwProject) project = one->size != NULL ? make_size (one->garment, one->size)
                                                        : make (find_garment (one->garment), NULL, NULL);
      g_autoptr (HwPlan) made = plan (project);
      double metres = measure (made, one->part);

      g_test_message ("%s: %.2f m, %.2f to %.2f", one->garment, metres, one->low_m, one->high_m);
      if (metres >= one->low_m && metres <= one->high_m)
        continue;
      g_test_message ("… is outside");
      g_test_fail ();
    }
}

/* The jacket has bound hems and armholes that the one written down has not, so it must come out longer, not shorter. */
static void
test_jacket (void)
{
  g_autoptr (HwProject) project = make_size ("jacket", "92");
  g_autoptr (HwPlan) made = plan (project);

  g_assert_cmpfloat (measure (made, ROWS), >, 17.6);
}

/* ---- in which order ---- */

/* Whether @before must come before @after, by way of any steps between. */
static gboolean
comes_before (const HwGarment     *garment,
              const HwGarmentStep *before,
              const HwGarmentStep *after)
{
  for (char **number = after->after; *number != NULL; number++)
    for (const HwGarmentStep *step = garment->steps; step < after; step++)
      if (strcmp (step->number, *number) == 0 && (step == before || comes_before (garment, before, step)))
        return TRUE;
  return FALSE;
}

/* "Hem" is the hem rather than "Hem the pocket". */
static const HwGarmentStep *
find_step (const HwGarment *garment,
           const char      *beginning)
{
  for (gsize i = 0; i < garment->n_steps; i++)
    if (g_str_equal (garment->steps[i].name, beginning))
      return &garment->steps[i];
  for (gsize i = 0; i < garment->n_steps; i++)
    if (g_str_has_prefix (garment->steps[i].name, beginning))
      return &garment->steps[i];
  g_error ("%s has no step “%s…”", garment->entry.id, beginning);
}

/* How sewing is taught; common practice, no source: neaten flat edges before they are joined, darts before the seams
 * that cross them, press before crossing, pockets and zips while panels are flat, small parts before they are set,
 * bands after the seams they cross, hem last, and where cloth hangs on the bias only after it has hung; buttonholes
 * after fusing and topstitching. */
static const struct { const char *garment, *before, *after; } orders[] = {
  { "skirt", "Neaten the side edges", "Left side seam" },
  { "skirt", "Staystitch", "Darts" },
  { "skirt", "Darts", "Set the waistband on" },
  { "skirt", "Press the darts", "Left side seam" },
  { "skirt", "Set the zip", "Right side seam" },
  { "skirt", "Fuse", "Set the waistband on" },
  { "skirt", "Press the side seam open", "Hem" },
  { "wrap-skirt", "Topstitch the ties", "Set the waistband on" },
  { "wrap-skirt", "Hang", "Hem" },
  { "wrap-skirt", "Hem the front edges", "Set the waistband on" },
  { "shirt", "Set the pocket", "Shoulders, join" },
  { "shirt", "Topstitch the collar", "Collar between" },
  { "shirt", "Sleeves into flat armholes", "Side and sleeve seams" },
  { "shirt", "Sleeve plackets, topstitch", "Set the cuffs" },
  { "shirt", "Shoulders, topstitch", "Stand to neck" },
  { "shirt", "Fuse", "Buttonholes" },
  { "shirt", "Close and topstitch the cuffs", "Buttonholes" },
  { "shirt", "Overlock side", "Hem" },
  { "t-shirt", "Shoulders", "Set the sleeves" },
  { "t-shirt", "Set the sleeves", "Side and underarm" },
  { "t-shirt", "Side and underarm", "Bottom hem" },
  { "trousers", "Zip to the fly", "Outseams" },
  { "trousers", "Pocket bags, second row", "Outseams" },
  { "trousers", "Inseams", "Seat seam" },
  { "trousers", "Seat seam", "Set the waistband on" },
  { "trousers", "Topstitch the waistband", "Bar tacks" },
  { "trousers", "Neaten the hem edges", "Blind hem" },
  { "dress", "Neaten skirt sides", "Side seams of the skirt" },
  { "dress", "Grade and clip", "Understitch the neck" },
  { "dress", "Understitch the armholes", "Side seams of the bodice" },
  { "dress", "Skirt to bodice", "Concealed zip" },
  { "dress", "Concealed zip", "Centre back below" },
  { "dress", "Hang", "Hem" },
  { "jacket", "Ease the sleeve heads", "Set the sleeves" },
  { "jacket", "Centre back, sides", "Set the sleeves" },
  { "jacket", "Understitch the facings", "Buttonholes" },
  { "hoodie", "Eyelets", "Casing" },
  { "hoodie", "Set the hem band", "Set the zip" },
  { "pyjama-trousers", "Inseams", "Crotch seam" },
  { "cushion-cover", "Set the zip", "Front to back" },
  { "cushion-cover", "Open the zip", "Front to back" },
  { "curtains", "Side hems", "Heading tape" },
  { "quilt", "Layer and tack", "Quilt in rows" },
  { "quilt", "Quilt in rows", "Binding on" },
};

static void
test_orders (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (orders); i++)
    {
      const HwGarment *garment = find_garment (orders[i].garment);

      if (comes_before (garment, find_step (garment, orders[i].before), find_step (garment, orders[i].after)))
        continue;
      g_test_message ("%s: “%s” does not come before “%s”", orders[i].garment, orders[i].before, orders[i].after);
      g_test_fail ();
    }
}

/* Between two rows of one cloth that cross, an iron: every seam that is pressed open is followed by pressing. */
static void
test_open_seams_are_pressed (void)
{
  int open = hw_handbook_find_seam (handbook, "plain-open");

  for (gsize i = 0; i < handbook->n_garments; i++)
    for (gsize j = 0; j < handbook->garments[i].n_steps; j++)
      {
        const HwGarment *garment = &handbook->garments[i];
        const HwGarmentStep *seam = &garment->steps[j];
        gboolean pressed = seam->by_hand || seam->seam != open;

        for (gsize k = j + 1; !pressed && k < garment->n_steps; k++)
          pressed = garment->steps[k].by_hand && comes_before (garment, seam, &garment->steps[k])
                    && strcmp (garment->steps[k].kind, "press") == 0;
        if (pressed)
          continue;
        g_test_message ("%s: step %s is never pressed", garment->entry.id, seam->number);
        g_test_fail ();
      }
}

/* What the handbook promises: a dozen garments or more, each kind of them. */
static void
test_all_there (void)
{
  static const char * const wanted[] = { "skirt", "wrap-skirt", "shirt", "t-shirt", "trousers", "dress", "jacket",
                                         "apron", "tote-bag", "curtains", "cushion-cover", "quilt", "hoodie" };

  g_assert_cmpuint (handbook->n_garments, >=, 12);
  for (gsize i = 0; i < G_N_ELEMENTS (wanted); i++)
    find_garment (wanted[i]);
  for (gsize i = 0; i < handbook->n_garments; i++)
    g_assert_cmpint (handbook->garments[i].entry.source->kind, ==, HW_SOURCE_COMMON_PRACTICE);
  for (gsize i = 0; i < handbook->n_sizes; i++)
    g_assert_cmpstr (handbook->sizes[i].entry.source->id, ==, "own-sizes");
}

/* Every word for a hand step of the handbook is one of the project's. */
static void
test_hand_words (void)
{
  for (int i = 0; hw_garment_hand_ids[i] != NULL; i++)
    g_assert_true (g_strv_contains (hw_hand_kind_ids, hw_garment_hand_ids[i]));
}

/* A seam that joins layers says which of their sides face each other; where either may (a felled seam, a placket) the
 * step's note says it, and what is lapped faces neither way. */
static void
test_sides_together (void)
{
  static const char * const lapped[] = { "lapped", "applied-band", NULL };

  for (gsize g = 0; g < handbook->n_garments; g++)
    for (gsize i = 0; i < handbook->garments[g].n_steps; i++)
      {
        const HwGarmentStep *step = &handbook->garments[g].steps[i];
        const HwSeam *seam;

        if (step->by_hand || step->purpose != hw_handbook_find_purpose (handbook, "seam"))
          continue;
        seam = &handbook->seams[step->seam >= 0 ? step->seam : handbook->purposes[step->purpose].seam];
        g_test_message ("%s: %s", handbook->garments[g].entry.id, step->name);
        g_assert_true (seam->together != HW_TOGETHER_UNSAID || step->note != NULL
                       || g_strv_contains (lapped, seam->entry.id));
      }
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  int status;

  g_test_init (&argc, &argv, NULL);
  handbook = hw_handbook_load (folder, &error);
  g_assert_no_error (error);
  room = hw_room_new_default ("/nowhere");
  g_test_add_func ("/garment/project", test_project);
  g_test_add_func ("/garment/sides-together", test_sides_together);
  g_test_add_func ("/garment/round-trip", test_round_trip);
  g_test_add_func ("/garment/values", test_values);
  g_test_add_func ("/garment/fabrics", test_fabrics);
  g_test_add_func ("/garment/fabric-names", test_fabric_names);
  g_test_add_func ("/garment/refused", test_refused);
  g_test_add_func ("/garment/all-there", test_all_there);
  g_test_add_func ("/garment/hand-words", test_hand_words);
  g_test_add_func ("/garment/lengths", test_lengths);
  g_test_add_func ("/garment/jacket", test_jacket);
  g_test_add_func ("/garment/orders", test_orders);
  g_test_add_func ("/garment/open-seams-are-pressed", test_open_seams_are_pressed);
  for (gsize i = 0; i < handbook->n_garments; i++)
    {
      const HwGarment *garment = &handbook->garments[i];
      g_autofree char *planned = g_strconcat ("/garment/planned/", garment->entry.id, NULL);
      g_autofree char *warnings = g_strconcat ("/garment/no-warnings/", garment->entry.id, NULL);
      g_autofree char *grows = g_strconcat ("/garment/grows/", garment->entry.id, NULL);

      g_test_add_data_func (planned, garment, test_planned);
      g_test_add_data_func (warnings, garment, test_no_warnings);
      g_test_add_data_func (grows, garment, test_grows);
    }
  status = g_test_run ();
  hw_room_unref (room);
  hw_handbook_unref (handbook);
  return status;
}
