/* faults-clues.c - what the sewing room knows of a fault's cause
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A clue is told as a share: 0 where it speaks against the cause, 1 at its limit. A clock's share is its hours of its
 * limit; a value's is 0 inside the plan's band and at least 1 outside it, on the side that the remedy would mend. What
 * nobody noted says nothing: a machine without a load in the journal is not taken to stand as planned.
 */

#include "config.h"

#include "plan/faults-private.h"

#include <math.h>
#include <string.h>

#include "plan/changes.h"

#define LENGTH_STEP_MM 0.5               /* outside the band, one more share for each of these */
#define WIDTH_STEP_MM 1.0
#define DIAL_STEP 0.5
#define DUST_TASK "dust"
#define OIL_TASK "oil"
#define SERVICE_TASK "service"

static HwClueFact
know_nothing (void)
{
  return (HwClueFact) { HW_KNOWN_NONE, NAN, NAN, -1, NAN };
}

static HwClueFact
know (HwFaultFact kind,
      double     value,
      double     limit,
      double     share)
{
  return (HwClueFact) { kind, value, limit, -1, share };
}

int
hw_remedy_direction (HwRemedy remedy)
{
  switch ((int) remedy)
    {
    case HW_REMEDY_FINER_NEEDLE:
    case HW_REMEDY_FINER_THREAD:
    case HW_REMEDY_DIAL_DOWN:
    case HW_REMEDY_SHORTER_STITCH:
    case HW_REMEDY_LESS_PRESSURE:
      return -1;
    case HW_REMEDY_THICKER_NEEDLE:
    case HW_REMEDY_STRONGER_THREAD:
    case HW_REMEDY_DIAL_UP:
    case HW_REMEDY_LONGER_STITCH:
    case HW_REMEDY_MORE_PRESSURE:
      return 1;
    default:
      return 0;
    }
}

gboolean
hw_fault_is_live (const HwRoom         *room,
                  const HwJournalEntry *entry)
{
  return !g_hash_table_contains (room->cancelled, entry->id);
}

/* Of @value against @band, on the side that a remedy of @direction mends: 0 inside it, 1 just outside, and one more
 * for each @step. *@edge gets the bound that was passed, or the nearer one. */
static double
measure_outside (double         value,
                 const HwValue *band,
                 int            direction,
                 double         step,
                 double        *edge)
{
  double above = value - band->high;
  double below = band->low - value;

  *edge = above > 0 || (below <= 0 && direction < 0) ? band->high : band->low;
  if (above > 1e-9 && direction <= 0)
    return 1 + above / step;
  if (below > 1e-9 && direction >= 0)
    return 1 + below / step;
  return 0;
}

/* ---- the needle ---- */

/* Both clocks of the handbook, the one that has gone further told in hours at the machine. */
static HwClueFact
read_needle_hours (const HwFaultScene *scene)
{
  const HwNeedleLife *life = &scene->handbook->needle_life;
  const HwNeedle     *needle = scene->state->needle;
  double              hours;

  if (needle == NULL)
    return know_nothing ();
  hours = MAX (needle->at_machine_hours, needle->running_hours * life->at_machine_hours / life->running_hours);
  return know (HW_KNOWN_NEEDLE_HOURS, hours, life->at_machine_hours, hours / life->at_machine_hours);
}

/* How many sizes that point is sold in lie between, at least 1 when they differ. */
static double
count_sizes (const HwHandbook *handbook,
             int               point,
             int               a,
             int               b)
{
  const HwPoint *entry = &handbook->points[point];
  int            n = 0;

  for (gsize i = 0; i < entry->n_sizes; i++)
    if (entry->sizes[i] > MIN (a, b) && entry->sizes[i] <= MAX (a, b))
      n++;
  return a == b ? 0 : MAX (n, 1);
}

static HwClueFact
read_needle_fit (const HwFaultScene *scene,
                 const HwCause      *cause)
{
  const HwNeedle *needle = scene->state->needle;
  int             direction = hw_remedy_direction (cause->remedy);
  int             point = needle != NULL && needle->point != NULL
                          ? hw_handbook_find_point (scene->handbook, needle->point) : -1;
  const HwValue  *size, *points;
  double          edge;

  if (point < 0 || scene->setup == NULL)
    return know_nothing ();
  size = &scene->setup->values[HW_FIELD_SIZE];
  points = &scene->setup->values[HW_FIELD_POINT];
  if (direction == 0 && points->applies && !hw_value_accepts (points, HW_FIELD_POINT, point))
    return know (HW_KNOWN_POINT, point, points->value, 2);
  if (!size->applies)
    return know_nothing ();
  if (measure_outside (needle->nm, size, direction, 1, &edge) > 0)
    return know (HW_KNOWN_SIZE, needle->nm, size->value,
                 count_sizes (scene->handbook, point, needle->nm, (int) edge));
  return know (HW_KNOWN_SIZE, needle->nm, size->value, 0);
}

/* ---- care ---- */

static gboolean
has_own_limit (const HwMachine  *machine,
               const HwCareTask *task)
{
  for (gsize i = 0; i < machine->n_care; i++)
    if (strcmp (machine->care[i].care, task->entry.id) == 0)
      return TRUE;
  return FALSE;
}

static HwFaultFact
get_clock_kind (HwClock clock)
{
  switch (clock)
    {
    case HW_CLOCK_MONTHS:
      return HW_KNOWN_CARE_MONTHS;
    case HW_CLOCK_SEWING_DAY:
      return HW_KNOWN_CARE_DAYS;
    case HW_CLOCK_RUNNING:
    case HW_CLOCK_AT_MACHINE:
    default:
      return HW_KNOWN_CARE_HOURS;
    }
}

/* Hours or months, whichever has gone further. Oil by the machine's own manual only: many are never oiled. */
static HwClueFact
read_care (const HwFaultScene *scene,
           int                 care)
{
  const HwCareTask *task = care >= 0 ? &scene->handbook->care[care] : NULL;
  double            limit = task != NULL ? hw_room_care_limit (scene->machine, task) : 0;
  HwClueFact        fact;
  double            months;

  if (!(limit > 0) || (task->machines & (1u << scene->machine->kind)) == 0
      || (task->only_by_manual && !has_own_limit (scene->machine, task))
      || (task->clock == HW_CLOCK_MONTHS && scene->now_iso == NULL))
    return know_nothing ();
  fact = know (get_clock_kind (task->clock), hw_room_care_clock (scene->room, scene->machine, task, scene->now_iso),
               limit, 0);
  fact.share = fact.value / limit;
  months = task->or_months > 0 && scene->now_iso != NULL
           ? hw_room_care_months (scene->room, scene->machine, task, scene->now_iso) : 0;
  if (task->or_months > 0 && months / task->or_months > fact.share)
    fact = know (HW_KNOWN_CARE_MONTHS, months, task->or_months, months / task->or_months);
  fact.care = care;
  return fact;
}

static HwClueFact
read_task (const HwFaultScene *scene,
           const HwCause      *cause,
           const char         *usual)
{
  return read_care (scene, cause->care >= 0 ? cause->care : hw_handbook_find_care (scene->handbook, usual));
}

/* ---- the dial ---- */

static gboolean
is_of_step (const HwJournalEntry *entry,
            const HwSetup        *setup)
{
  return setup == NULL || entry->step == NULL || strcmp (entry->step, setup->step->number) == 0;
}

/* Back to the last load, or to work on another step: from there on the dial may have been put anywhere. */
double
hw_fault_dial_now (const HwRoom    *room,
                   const HwMachine *machine,
                   const HwSetup   *setup)
{
  const HwValue *planned = setup != NULL ? &setup->values[HW_FIELD_DIAL] : NULL;

  for (guint i = room->entries->len; i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if (strcmp (entry->machine, machine->id) != 0 || !hw_fault_is_live (room, entry))
        continue;
      if (entry->kind == HW_ENTRY_LOAD || (entry->kind == HW_ENTRY_SEWING && !is_of_step (entry, setup)))
        break;
      if (entry->kind == HW_ENTRY_TEST_SEAM || (entry->kind == HW_ENTRY_FAULT && entry->dial > 0))
        return entry->dial;
    }
  return planned != NULL && planned->applies && planned->origin == HW_ORIGIN_OVERRIDDEN ? planned->value : NAN;
}

/* The share is that of the way from the handbook's start to the end of the band that the card prints. */
static HwClueFact
read_dial (const HwFaultScene *scene,
           gboolean            high)
{
  double         dial = hw_fault_dial_now (scene->room, scene->machine, scene->setup);
  const HwValue *planned = scene->setup != NULL ? &scene->setup->values[HW_FIELD_DIAL] : NULL;
  double         edge, way, gone;

  if (isnan (dial) || planned == NULL || !planned->applies)
    return know_nothing ();
  edge = high ? scene->setup->dial_likely_high : scene->setup->dial_likely_low;
  way = MAX (DIAL_STEP, high ? edge - planned->prefer : planned->prefer - edge);
  gone = high ? dial - planned->prefer : planned->prefer - dial;
  return know (HW_KNOWN_DIAL, dial, edge, MAX (0, gone / way));
}

/* ---- the thread ---- */

static const char *
get_loaded_label (const HwFaultScene *scene,
                  gboolean            bobbin)
{
  return bobbin ? scene->state->bobbin_thread : scene->state->needle_thread;
}

/* "navy tex 30" -> 30; NAN when it does not say. */
static double
read_label_tex (const char *label)
{
  const char *last = label != NULL ? g_strrstr (label, "tex ") : NULL;
  double      tex = last != NULL ? g_ascii_strtod (last + strlen ("tex "), NULL) : 0;

  return tex > 0 ? tex : NAN;
}

/* Twice too thick is one share more. */
static HwClueFact
read_thread (const HwFaultScene *scene,
             const HwCause      *cause)
{
  const HwValue *planned = scene->setup != NULL ? &scene->setup->values[HW_FIELD_NEEDLE_TEX] : NULL;
  double         loaded = read_label_tex (get_loaded_label (scene, FALSE));
  double         tex, edge, share;

  if (planned == NULL || !planned->applies)
    return know_nothing ();
  tex = isnan (loaded) ? planned->value : loaded;
  share = measure_outside (tex, planned, hw_remedy_direction (cause->remedy), 1, &edge);
  if (share > 0)
    share = 1 + fabs (log2 (tex / edge));
  else if (isnan (loaded))
    return know_nothing ();
  return know (HW_KNOWN_TEX, tex, edge, share);
}

static char *
make_spool_label (const HwHandbook *handbook,
                  const HwSpool    *spool)
{
  int            entry = hw_handbook_find_thread (handbook, spool->handbook);
  double         tex = spool->tex > 0 || entry < 0 ? spool->tex : handbook->threads[entry].tex;
  HwProjectThread thread = { .colour = spool->colour };
  HwThreadChoice choice = { .thread = &thread, .entry = entry >= 0 ? &handbook->threads[entry] : NULL, .tex = tex };

  return hw_thread_choice_label (&choice);
}

static const HwSpool *
find_spool (const HwFaultScene *scene,
            const char         *label)
{
  for (guint i = 0; i < scene->room->spools->len; i++)
    {
      const HwSpool   *spool = g_ptr_array_index (scene->room->spools, i);
      g_autofree char *own = make_spool_label (scene->handbook, spool);

      if (strcmp (own, label) == 0)
        return spool;
    }
  return NULL;
}

static HwClueFact
read_snap (const HwFaultScene *scene,
           gboolean            bobbin)
{
  const HwThreadChoice *planned = scene->setup == NULL ? NULL : bobbin ? &scene->setup->bobbin_thread
                                                                       : &scene->setup->needle_thread;
  g_autofree char      *label = g_strdup (get_loaded_label (scene, bobbin));
  const HwSpool        *spool;

  if (label == NULL && planned != NULL)
    label = hw_thread_choice_label (planned);
  spool = label != NULL ? find_spool (scene, label) : NULL;
  if (spool == NULL || spool->snap == HW_SNAP_UNTESTED)
    return know_nothing ();
  return know (bobbin ? HW_KNOWN_BOBBIN_SNAP : HW_KNOWN_SNAP, spool->snap, NAN, spool->snap == HW_SNAP_WEAK ? 1 : 0);
}

/* ---- stitch, foot, plate, pressure ---- */

/* The last test seam of the step says what was really set. */
static const HwJournalEntry *
find_test_seam (const HwFaultScene *scene)
{
  for (guint i = scene->room->entries->len; i-- > 0;)
    {
      const HwJournalEntry *entry = g_ptr_array_index (scene->room->entries, i);

      if (entry->kind == HW_ENTRY_TEST_SEAM && strcmp (entry->machine, scene->machine->id) == 0
          && hw_fault_is_live (scene->room, entry))
        return is_of_step (entry, scene->setup) ? entry : NULL;
    }
  return NULL;
}

/* @set: as sewn, 0 when nobody noted it; then only a plan that leaves its own band says something. */
static HwClueFact
compare_value (const HwFaultScene *scene,
               const HwCause      *cause,
               HwField             field,
               HwFaultFact          kind,
               double              set,
               double              step)
{
  const HwValue *planned = &scene->setup->values[field];
  double         edge, share;

  if (!planned->applies)
    return know_nothing ();
  share = measure_outside (set > 0 ? set : planned->value, planned, hw_remedy_direction (cause->remedy), step, &edge);
  if (share <= 0 && !(set > 0))
    return know_nothing ();
  return know (kind, set > 0 ? set : planned->value, edge, share);
}

static HwClueFact
compare_foot (const HwFaultScene *scene)
{
  const HwValue *planned = &scene->setup->values[HW_FIELD_FOOT];
  const char    *noted = scene->state->foot;
  int            foot = noted != NULL ? hw_handbook_find_foot (scene->handbook, noted) : -1;

  if (foot < 0 || !planned->applies)
    return know_nothing ();
  return know (HW_KNOWN_FOOT, foot, planned->value, hw_value_accepts (planned, HW_FIELD_FOOT, foot) ? 0 : 1);
}

static HwClueFact
compare_plate (const HwFaultScene *scene)
{
  const HwValue *planned = &scene->setup->values[HW_FIELD_PLATE];
  const char    *noted = scene->state->plate;
  int            plate = noted != NULL ? hw_handbook_find_plate (scene->handbook, noted) : -1;

  if (plate < 0 || !planned->applies)
    return know_nothing ();
  return know (HW_KNOWN_PLATE, plate, planned->value, hw_value_accepts (planned, HW_FIELD_PLATE, plate) ? 0 : 1);
}

/* A needle that strikes: first the swing, then the foot. */
static HwClueFact
read_swing (const HwFaultScene   *scene,
            const HwCause        *cause,
            const HwJournalEntry *seam)
{
  HwClueFact width = compare_value (scene, cause, HW_FIELD_WIDTH, HW_KNOWN_WIDTH, seam != NULL ? seam->width_mm : 0,
                                    WIDTH_STEP_MM);

  return width.share > 0 ? width : compare_foot (scene);
}

static HwClueFact
read_feed (const HwFaultScene   *scene,
           const HwCause        *cause,
           const HwJournalEntry *seam)
{
  HwClueFact length = compare_value (scene, cause, HW_FIELD_LENGTH, HW_KNOWN_LENGTH,
                                     seam != NULL ? seam->length_mm : 0, LENGTH_STEP_MM);

  if (length.share > 0 || !scene->setup->values[HW_FIELD_DIFFERENTIAL].applies)
    return length;
  return compare_value (scene, cause, HW_FIELD_DIFFERENTIAL, HW_KNOWN_DIFFERENTIAL, 0, 0.25);
}

static HwClueFact
read_stitch (const HwFaultScene *scene,
             const HwCause      *cause)
{
  const HwJournalEntry *seam = find_test_seam (scene);

  if (scene->setup == NULL)
    return know_nothing ();
  switch ((int) cause->remedy)
    {
    case HW_REMEDY_OTHER_FOOT:
      return read_swing (scene, cause, seam);
    case HW_REMEDY_LOOPER_TENSION:
      return compare_value (scene, cause, HW_FIELD_CUTTING_WIDTH, HW_KNOWN_CUTTING_WIDTH, 0, WIDTH_STEP_MM);
    case HW_REMEDY_FEED:
      return read_feed (scene, cause, seam);
    default:
      return compare_value (scene, cause, HW_FIELD_LENGTH, HW_KNOWN_LENGTH, seam != NULL ? seam->length_mm : 0,
                            LENGTH_STEP_MM);
    }
}

static HwClueFact
read_pressure (const HwFaultScene *scene,
               const HwCause      *cause)
{
  const HwValue *planned = scene->setup != NULL ? &scene->setup->values[HW_FIELD_PRESSURE] : NULL;
  double         edge, share;

  if (planned == NULL)
    return know_nothing ();
  share = planned->applies
          ? measure_outside (planned->value, planned, hw_remedy_direction (cause->remedy), 1, &edge) : 0;
  if (share > 0)
    return know (HW_KNOWN_PRESSURE, planned->value, edge, share);
  if (cause->remedy == HW_REMEDY_OTHER_FOOT)
    return compare_foot (scene);
  return cause->remedy == HW_REMEDY_OTHER_PLATE ? compare_plate (scene) : know_nothing ();
}

HwClueFact
hw_fault_clue_fact (const HwFaultScene *scene,
                    const HwCause      *cause)
{
  switch (cause->clue)
    {
    case HW_CLUE_NEEDLE_HOURS:
      return read_needle_hours (scene);
    case HW_CLUE_NEEDLE_FIT:
      return read_needle_fit (scene, cause);
    case HW_CLUE_LINT:
      return read_task (scene, cause, DUST_TASK);
    case HW_CLUE_OIL:
      return read_task (scene, cause, OIL_TASK);
    case HW_CLUE_SERVICE:
      return read_task (scene, cause, SERVICE_TASK);
    case HW_CLUE_DIAL_HIGH:
    case HW_CLUE_DIAL_LOW:
      return read_dial (scene, cause->clue == HW_CLUE_DIAL_HIGH);
    case HW_CLUE_THREAD:
      return read_thread (scene, cause);
    case HW_CLUE_SNAP:
    case HW_CLUE_BOBBIN_SNAP:
      return read_snap (scene, cause->clue == HW_CLUE_BOBBIN_SNAP);
    case HW_CLUE_STITCH:
      return read_stitch (scene, cause);
    case HW_CLUE_PRESSURE:
      return read_pressure (scene, cause);
    case HW_CLUE_NONE:
    case HW_N_CLUES:
    default:
      return know_nothing ();
    }
}
