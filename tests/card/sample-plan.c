/* sample-plan.c - a plan put together by hand, for cards that do not depend on the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An invented skirt with one set-up of every kind a card has to show. The plan is filled in field by field and
 * freed the same way: nothing of it comes from the planner.
 */

#include "config.h"

#include "sample-plan.h"

#define MAX_STEPS 48

/* Before all others, after the first step, after the overlocker. */
static const char * const hand_steps[][2] = {
  { "51", "Fuse the waistband" }, { "52", "Press the side seams open" }, { "53", "Press the edges" },
};

#define N_HAND ((int) G_N_ELEMENTS (hand_steps))

struct _Sample
{
  HwHandbook     handbook;
  HwNeedleSystem systems[2];
  HwPoint        points[6];
  HwThreadEntry  thread_entries[3];
  HwStitch       stitches[5];
  HwSeam         seams[4];
  HwFoot         feet[5];
  HwPlate        plates[2];
  HwPurpose      purpose;
  HwSource       source;
  HwRoom         room;
  HwMachine      machines[3];
  HwThreadChoice threads[4];
  HwSetup        setups[MAX_STEPS];
  HwSetup       *setup_pointers[MAX_STEPS];
  HwGroup        groups[N_SAMPLE_GROUPS];
  HwCloth        cloth;
  HwPlan         plan;
};

/* Two plies flat on each other; a seam pressed open; an edge turned twice; one ply. */
static double plain_a[] = { 10, 26, 90, 26 };
static double plain_b[] = { 10, 34, 90, 34 };
static double open_a[] = { 5, 22, 46, 22, 46, 38, 20, 38 };
static double open_b[] = { 95, 22, 54, 22, 54, 38, 80, 38 };
static double hem_a[] = { 5, 38, 90, 38, 90, 30, 30, 30, 30, 22, 80, 22 };
static double edge_a[] = { 5, 30, 80, 30 };
static HwPolyline plain_plies[] = { { plain_a, 2 }, { plain_b, 2 } };
static HwPolyline open_plies[] = { { open_a, 4 }, { open_b, 4 } };
static HwPolyline hem_plies[] = { { hem_a, 6 } };
static HwPolyline edge_plies[] = { { edge_a, 2 } };
static HwSeamStitch plain_stitches[] = { { 60, 16, 60, 44, 1 } };
static HwSeamStitch open_stitches[] = { { 38, 30, 62, 30, 1 } };
static HwSeamStitch hem_stitches[] = { { 40, 14, 40, 46, 1 } };
static HwSeamStitch edge_stitches[] = { { 70, 22, 70, 38, 1 } };

static HwEntry
make_entry (Sample     *self,
            const char *id,
            const char *name)
{
  return (HwEntry) { .id = (char *) id, .name = (char *) name, .source = &self->source };
}

static void
fill_needles_and_threads (Sample *self)
{
  static const struct { const char *id, *name, *letters; } points[6] = {
    { "round", "Round point", "R" }, { "topstitch", "Topstitch point", "N" }, { "stretch", "Stretch point", "H-S" },
    { "medium-ball", "Medium ball point", "SUK" }, { "light-ball", "Light ball point", "SES" },
    { "universal", "Universal point", "H" },            /* sold in no size */
  };
  static const struct { const char *id, *name, *fibre; double tex; HwThreadForm form; } threads[3] = {
    { "polyester-30", "Spun polyester", "polyester", 30, HW_THREAD_SPUN },
    { "polyester-60", "Topstitching polyester", "polyester", 60, HW_THREAD_SPUN },
    { "textured-27", "Textured nylon", "nylon", 27, HW_THREAD_TEXTURED },
  };

  self->systems[0].entry = make_entry (self, "household", "Household 130/705 H");
  self->systems[0].machines = 1u << HW_MACHINE_LOCKSTITCH;
  self->systems[1].entry = make_entry (self, "overlock", "Overlock ELx705");
  self->systems[1].machines = 1u << HW_MACHINE_OVERLOCK;
  for (gsize i = 0; i < G_N_ELEMENTS (points); i++)
    {
      self->points[i].entry = make_entry (self, points[i].id, points[i].name);
      self->points[i].letters = (char *) points[i].letters;
      self->points[i].eye_factor = 1;
      self->points[i].systems = 3;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      HwThreadEntry *entry = &self->thread_entries[i];

      entry->entry = make_entry (self, threads[i].id, threads[i].name);
      entry->fibre = (char *) threads[i].fibre;
      entry->form = threads[i].form;
      entry->tex = threads[i].tex;
    }
}

static void
fill_stitch (HwStitch   *stitch,
             HwEntry     entry,
             const char *mark,
             int         needles,
             int         loopers,
             gboolean    bobbin,
             int         dials)
{
  stitch->entry = entry;
  stitch->iso = entry.id;
  stitch->mark = (char *) mark;
  stitch->needles = needles;
  stitch->loopers = loopers;
  stitch->bobbin = bobbin;
  stitch->dials = dials;
  stitch->length_mm = (HwRange) { 1, 6 };
  stitch->tension_term = -1;
}

static void
fill_seam (HwSeam       *seam,
           HwEntry       entry,
           HwPolyline   *plies,
           gsize         n_plies,
           HwSeamStitch *stitches)
{
  seam->entry = entry;
  seam->iso_class = 1;
  seam->plies = plies;
  seam->n_plies = n_plies;
  seam->stitches = stitches;
  seam->n_stitches = 1;
}

static void
fill_stitches_and_seams (Sample *self)
{
  static const struct { const char *id, *name; } feet[5] = {
    { "all-purpose", "All-purpose foot" }, { "zigzag", "Zigzag foot" }, { "buttonhole", "Buttonhole foot" },
    { "overlock", "Overlock foot" }, { "coverstitch", "Coverstitch foot" },
  };

  fill_stitch (&self->stitches[0], make_entry (self, "301", "Straight stitch"), "straight", 1, 0, TRUE, 1);
  fill_stitch (&self->stitches[1], make_entry (self, "504", "Three-thread overlock"), "overlock", 1, 2, FALSE, 3);
  fill_stitch (&self->stitches[2], make_entry (self, "301-twin", "Twin-needle stitch"), "twin", 1, 0, TRUE, 1);
  fill_stitch (&self->stitches[3], make_entry (self, "304-buttonhole", "Buttonhole"), "buttonhole", 1, 0, TRUE, 1);
  fill_stitch (&self->stitches[4], make_entry (self, "406", "Coverstitch"), "cover", 2, 1, FALSE, 3);
  fill_seam (&self->seams[0], make_entry (self, "plain", "Plain seam"), plain_plies, 2, plain_stitches);
  fill_seam (&self->seams[1], make_entry (self, "open", "Seam pressed open"), open_plies, 2, open_stitches);
  fill_seam (&self->seams[2], make_entry (self, "hem-double", "Double-turned hem"), hem_plies, 1, hem_stitches);
  fill_seam (&self->seams[3], make_entry (self, "edge-finished", "Neatened edge"), edge_plies, 1, edge_stitches);
  for (gsize i = 0; i < G_N_ELEMENTS (feet); i++)
    self->feet[i].entry = make_entry (self, feet[i].id, feet[i].name);
  self->plates[0].entry = make_entry (self, "zigzag", "Zigzag plate");
  self->plates[1].entry = make_entry (self, "single-hole", "Single-hole plate");
  self->purpose.entry = make_entry (self, "seam", "Seam");
}

static void
fill_machine (HwMachine    *machine,
              const char   *id,
              const char   *name,
              HwMachineKind kind,
              HwDialForm    form)
{
  machine->id = (char *) id;
  machine->name = (char *) name;
  machine->kind = kind;
  machine->system = (char *) (kind == HW_MACHINE_OVERLOCK ? "overlock" : "household");
  machine->dial_form = form;
  machine->dial = (HwDialScale) { 0, 9, 4 };
  machine->needle_flat = (char *) "back";
  machine->width_max_mm = 7;
}

static void
fill_room (Sample              *self,
           const SampleOptions *options)
{
  fill_machine (&self->machines[0], "home",
                options->long_names ? "The old lockstitch machine that stands by the window" : "Lockstitch machine",
                HW_MACHINE_LOCKSTITCH, options->dial_form);
  fill_machine (&self->machines[1], "overlocker", "Overlocker", HW_MACHINE_OVERLOCK, options->dial_form);
  fill_machine (&self->machines[2], "cover", "Coverstitch machine", HW_MACHINE_COVERSTITCH, HW_DIAL_KNOB);
  self->room.machines = g_ptr_array_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (self->machines); i++)
    g_ptr_array_add (self->room.machines, &self->machines[i]);
  self->handbook = (HwHandbook) {
    .sources = &self->source, .n_sources = 1, .systems = self->systems, .n_systems = 2, .points = self->points,
    .n_points = 6,
    .threads = self->thread_entries, .n_threads = 3, .stitches = self->stitches, .n_stitches = 5, .seams = self->seams,
    .n_seams = 4, .feet = self->feet, .n_feet = 5, .plates = self->plates, .n_plates = 2, .purposes = &self->purpose,
    .n_purposes = 1,
  };
}

/* ---- project ---- */

static void
add_fabric_and_threads (HwProject *project,
                        gboolean   long_names)
{
  static const char * const colours[3] = { "navy", "ochre", "navy" };
  HwProjectFabric *fabric = hw_project_fabric_new ("main",
                                                   long_names ? "Organic cotton twill, stonewashed" : "Cotton twill");

  g_ptr_array_set_size (project->threads, 0);
  g_ptr_array_add (project->fabrics, fabric);
  for (gsize i = 0; i < G_N_ELEMENTS (colours); i++)
    {
      g_autofree char *id = g_strdup_printf ("thread-%d", (int) i + 1);
      HwProjectThread *thread = hw_project_thread_new (id, "polyester-30");

      thread->colour = g_strdup (long_names ? "petrol blue, from the remnant box" : colours[i]);
      g_ptr_array_add (project->threads, thread);
    }
}

static void
add_step (HwProject  *project,
          const char *number,
          const char *name,
          double      length_cm)
{
  HwStep *step = hw_step_new (HW_STEP_OPERATION, number, name);

  step->purpose = g_strdup ("seam");
  step->length_cm = length_cm;
  step->pieces = 1;
  step->n_plies = 1;
  step->plies = g_new0 (HwPly, 1);
  step->plies[0].fabric = g_strdup ("main");
  step->plies[0].count = 2;
  g_ptr_array_add (project->steps, step);
}

static void
add_hand_step (HwProject  *project,
               const char *number,
               const char *name)
{
  HwStep *step = hw_step_new (HW_STEP_HAND, number, name);

  step->hand = HW_HAND_PRESS;
  step->minutes = 5;
  g_ptr_array_add (project->steps, step);
}

static HwProject *
make_project (const SampleOptions *options)
{
  static const char * const names[] = { "Side seams", "Tie seams", "Waistband on", "Front-edge hems", "Double hem",
                                        "Darts" };
  static const char * const long_names[] = {
    "Side seams, from the hip notch down to the hem", "Set the back pockets on, two rows, corners bar-tacked later",
    "Waistband on, right sides together, matching all notches", "Front-edge hems, double-turned",
  };
  HwProject *project = hw_project_new ("sample", options->long_names
                                       ? "Market-day skirt with ties, pockets and a lined waistband for a class"
                                       : "Market-day skirt");

  add_fabric_and_threads (project, options->long_names);
  for (int i = 0; i < options->n_steps; i++)
    {
      g_autofree char *number = g_strdup_printf ("%d%s", i + 1, options->long_names && i % 3 == 2 ? "b" : "");

      add_step (project, number, options->long_names ? long_names[i % 4] : names[i % 6], 110 + 31 * i);
    }
  add_step (project, "41", "Overlock side-seam edges", 272);
  add_step (project, "42", "Topstitch ties", 620);
  add_step (project, "43", "Neck, twin rows", 55);
  add_step (project, "44", "Tie slot", 6);
  add_step (project, "45", "Cover the hem", 140);
  for (int i = 0; i < N_HAND && options->by_hand; i++)
    add_hand_step (project, hand_steps[i][0], hand_steps[i][1]);
  return project;
}

/* ---- set-ups ---- */

static void
set_value (HwSetup *setup,
           HwField  field,
           double   value)
{
  setup->values[field] = (HwValue) { .applies = TRUE, .low = value - 0.5, .prefer = value, .high = value + 0.5,
                                     .accept = ~(HwSet) 0, .value = value };
}

static void
fill_setup (Sample   *self,
            gsize     index,
            HwMachine *machine,
            HwStitch *stitch,
            HwSeam   *seam,
            double    length_mm,
            double    dial)
{
  HwSetup *setup = &self->setups[index];

  setup->step = hw_project_get_step (self->plan.project, index);
  setup->machine = machine;
  setup->purpose = &self->purpose;
  setup->stitch = stitch;
  setup->seam = seam;
  setup->needle_thread = self->threads[0];
  setup->bobbin_thread = self->threads[0];
  set_value (setup, HW_FIELD_POINT, 0);
  set_value (setup, HW_FIELD_LENGTH, length_mm);
  set_value (setup, HW_FIELD_WIDTH, 0);
  set_value (setup, HW_FIELD_PRESSURE, 0);
  set_value (setup, HW_FIELD_PLATE, 0);
  set_value (setup, HW_FIELD_ENDS, HW_ENDS_BACK_TACK);
  set_value (setup, HW_FIELD_ALLOWANCE, 15);
  set_value (setup, HW_FIELD_DIAL, dial);
  setup->dial_likely_low = MAX (0, dial - 1);
  setup->dial_likely_high = dial + 1;
  setup->window_low = dial - 0.5;
  setup->window_high = dial + 0.5;
  setup->thickness_mm = 0.9;
  setup->under_foot_mm = 0.85;
  setup->reasons = g_array_new (FALSE, TRUE, sizeof (HwReason));
  setup->warnings = g_array_new (FALSE, TRUE, sizeof (HwWarning));
}

static void
fill_setups (Sample              *self,
             const SampleOptions *options)
{
  gsize n = (gsize) options->n_steps;
  HwMachine *home = &self->machines[0];

  for (gsize i = 0; i < n; i++)
    fill_setup (self, i, home, &self->stitches[0], &self->seams[i % 3], options->soft_differs && i % 4 == 1 ? 3 : 2.5,
                options->soft_differs && i % 4 == 2 ? 3.5 : 4);

  fill_setup (self, n, &self->machines[1], &self->stitches[1], &self->seams[3], 2.5, 3);
  self->setups[n].values[HW_FIELD_PLATE].applies = FALSE;
  self->setups[n].values[HW_FIELD_WIDTH].applies = FALSE;
  self->setups[n].values[HW_FIELD_ALLOWANCE].applies = FALSE;
  set_value (&self->setups[n], HW_FIELD_CUTTING_WIDTH, 5);
  set_value (&self->setups[n], HW_FIELD_DIFFERENTIAL, 1);
  set_value (&self->setups[n], HW_FIELD_ENDS, HW_ENDS_CHAIN_OFF);

  fill_setup (self, n + 1, home, &self->stitches[0], &self->seams[2], 3.5, 3.5);
  self->setups[n + 1].needle_thread = self->threads[1];
  set_value (&self->setups[n + 1], HW_FIELD_ALLOWANCE, 6);
  fill_setup (self, n + 2, home, &self->stitches[2], &self->seams[2], 3, 2.5);
  fill_setup (self, n + 3, home, &self->stitches[3], NULL, 0.4, 3);
  set_value (&self->setups[n + 3], HW_FIELD_WIDTH, 2.5);
  fill_setup (self, n + 4, &self->machines[2], &self->stitches[4], &self->seams[2], 3, 4);
}

/* ---- groups and order ---- */

static void
fill_group (Sample     *self,
            int         index,
            HwMachine  *machine,
            HwStitch   *stitch,
            int         point,
            int         size_nm,
            double      twin_mm,
            int         thread,
            int         foot)
{
  HwGroup *group = &self->groups[index];

  *group = (HwGroup) { .machine = machine, .system = machine->kind == HW_MACHINE_OVERLOCK ? 1 : 0, .point = point,
                       .size_nm = size_nm, .twin_mm = twin_mm, .stitch = stitch,
                       .needle_thread = &self->threads[thread],
                       .bobbin_thread = &self->threads[0], .foot = foot,
                       .plate = machine->kind == HW_MACHINE_LOCKSTITCH ? 0 : -1,
                       .members = g_array_new (FALSE, FALSE, sizeof (gsize)) };
  group->letter[0] = (char) ('A' + index);
  g_ptr_array_add (self->plan.groups, group);
}

static void
add_planned (Sample *self,
             gsize   step,
             int     group)
{
  HwPlanStep planned = { .step = step, .group = group, .changes = HW_CHANGE_NEEDLE | HW_CHANGE_THREAD,
                         .change_minutes = 3,
                         .minutes = 7 };

  g_array_append_val (self->plan.order, planned);
  if (group >= 0)
    g_array_append_val (self->groups[group].members, step);
}

/* Set-up A is left after its second step, for the overlocker, and come back to. */
static void
fill_order (Sample  *self,
            gsize    n,
            gboolean by_hand)
{
  gsize hand = n + N_SAMPLE_GROUPS - 1;

  for (gsize i = 0; i < n; i++)
    {
      if (i == 0 && by_hand)
        add_planned (self, hand, -1);
      if (i == MIN (n - 1, 2))
        add_planned (self, n, SAMPLE_OVERLOCK);
      if (i == MIN (n - 1, 2) && by_hand)
        add_planned (self, hand + 2, -1);
      add_planned (self, i, SAMPLE_LOCKSTITCH);
      if (i == 0 && by_hand)
        add_planned (self, hand + 1, -1);
    }
  for (int group = SAMPLE_TOPSTITCH; group < N_SAMPLE_GROUPS; group++)
    add_planned (self, n + (gsize) group - 1, group);
}

Sample *
sample_new (const SampleOptions *options)
{
  Sample *self = g_new0 (Sample, 1);
  gsize n = (gsize) options->n_steps;

  g_assert_true (n >= 1 && n + N_SAMPLE_GROUPS <= MAX_STEPS);
  self->source = (HwSource) { .id = (char *) "sample", .kind = HW_SOURCE_COMMON_PRACTICE,
                              .title = (char *) "common practice" };
  g_atomic_ref_count_init (&self->plan.ref_count);
  self->plan.project = make_project (options);
  self->plan.handbook = &self->handbook;
  self->plan.room = &self->room;
  self->plan.groups = g_ptr_array_new ();
  self->plan.needles = g_ptr_array_new ();
  self->plan.order = g_array_new (FALSE, TRUE, sizeof (HwPlanStep));
  self->plan.cloths = g_array_new (FALSE, TRUE, sizeof (HwCloth));
  self->plan.n_steps = self->plan.project->steps->len;
  self->plan.setups = self->setup_pointers;
  for (gsize i = 0; i < self->plan.n_steps; i++)
    if (hw_project_get_step (self->plan.project, i)->kind == HW_STEP_OPERATION)
      self->setup_pointers[i] = &self->setups[i];

  fill_needles_and_threads (self);
  fill_stitches_and_seams (self);
  fill_room (self, options);
  self->room.states = g_new0 (HwMachineState, self->room.machines->len);
  for (gsize i = 0; i < 3; i++)
    {
      self->threads[i].thread = self->plan.project->threads->pdata[i];
      self->threads[i].entry = &self->thread_entries[i];
      self->threads[i].tex = self->thread_entries[i].tex;
    }
  self->cloth.fabric = self->plan.project->fabrics->pdata[0];
  g_array_append_val (self->plan.cloths, self->cloth);
  fill_setups (self, options);
  fill_group (self, SAMPLE_LOCKSTITCH, &self->machines[0], &self->stitches[0], 0, 80, 0, 0, 0);
  fill_group (self, SAMPLE_OVERLOCK, &self->machines[1], &self->stitches[1], 4, 80, 0, 0, 3);
  fill_group (self, SAMPLE_TOPSTITCH, &self->machines[0], &self->stitches[0], 1, 100, 0, 1, 0);
  fill_group (self, SAMPLE_TWIN, &self->machines[0], &self->stitches[2], 2, 75, 4, 0, 1);
  fill_group (self, SAMPLE_BUTTONHOLE, &self->machines[0], &self->stitches[3], 0, 80, 0, 0, 2);
  fill_group (self, SAMPLE_COVER, &self->machines[2], &self->stitches[4], 3, 80, 0, 0, 4);
  fill_order (self, n, options->by_hand);
  return self;
}

const HwPlan *
sample_get_plan (const Sample *self)
{
  return &self->plan;
}

HwSetup *
sample_get_setup (const Sample *self,
                  gsize         step)
{
  return self->setup_pointers[step];
}

/* Cards and sheets hold references on the plan: all must be gone by now. */
void
sample_free (Sample *self)
{
  g_assert_true (g_atomic_ref_count_compare (&self->plan.ref_count, 1));
  for (gsize i = 0; i < self->plan.n_steps; i++)
    {
      if (self->setup_pointers[i] == NULL)
        continue;
      g_array_unref (self->setups[i].reasons);
      g_array_unref (self->setups[i].warnings);
    }
  for (gsize i = 0; i < N_SAMPLE_GROUPS; i++)
    g_array_unref (self->groups[i].members);
  g_ptr_array_unref (self->plan.groups);
  g_ptr_array_unref (self->plan.needles);
  g_free (self->room.states);
  g_array_unref (self->plan.order);
  g_array_unref (self->plan.cloths);
  g_ptr_array_unref (self->room.machines);
  hw_project_unref ((HwProject *) self->plan.project);
  g_free (self);
}
