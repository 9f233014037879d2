/* faults-fix.c - what one press can do to the room against a cause
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A remedy moves one step at a time: to what the plan asks for if the machine stands otherwise, else to the next size
 * inside the band, or half a number on the dial.
 */

#include "config.h"

#include "plan/faults-private.h"

#include <math.h>
#include <string.h>

#define DIAL_STEP 0.5
#define NO_FIX ((HwFix) { .kind = HW_FIX_NONE, .system = -1, .point = -1, .care = -1 })

/* ---- needles ---- */

typedef struct { int system, point, nm; double twin_mm; } Kind;

static gboolean
is_kind (const Kind *a,
         const Kind *b)
{
  return a->system == b->system && a->point == b->point && a->nm == b->nm && fabs (a->twin_mm - b->twin_mm) < 0.005;
}

/* FALSE: nobody knows what is in it. */
static gboolean
read_loaded (const HwFaultScene *scene,
             Kind               *kind)
{
  const HwNeedle *needle = scene->state->needle;

  if (needle == NULL || needle->point == NULL)
    return FALSE;
  *kind = (Kind) { hw_handbook_find_system (scene->handbook, needle->system != NULL ? needle->system
                                            : scene->machine->system),
                   hw_handbook_find_point (scene->handbook, needle->point), needle->nm, needle->twin_mm };
  return kind->system >= 0 && kind->point >= 0 && kind->nm > 0;
}

static gboolean
read_planned (const HwFaultScene *scene,
              Kind               *kind)
{
  const HwValue *values = scene->setup != NULL ? scene->setup->values : NULL;

  if (values == NULL || !values[HW_FIELD_SIZE].applies || !values[HW_FIELD_POINT].applies)
    return FALSE;
  *kind = (Kind) { (int) values[HW_FIELD_SYSTEM].value, (int) values[HW_FIELD_POINT].value,
                   (int) values[HW_FIELD_SIZE].value,
                   values[HW_FIELD_TWIN].applies ? values[HW_FIELD_TWIN].value : 0 };
  return TRUE;
}

/* The next size that point is sold in; 0 none, or outside the plan's band. */
static int
find_next_size (const HwFaultScene *scene,
                const Kind         *kind,
                int                 direction)
{
  const HwPoint *point = &scene->handbook->points[kind->point];
  const HwValue *band = scene->setup != NULL ? &scene->setup->values[HW_FIELD_SIZE] : NULL;
  int            next = 0;

  for (gsize i = 0; i < point->n_sizes; i++)
    if (direction > 0 ? point->sizes[i] > kind->nm && next == 0 : point->sizes[i] < kind->nm)
      next = point->sizes[i];
  return band != NULL && next > 0 && !hw_value_accepts (band, HW_FIELD_SIZE, next) ? 0 : next;
}

static const HwPacket *
find_packet (const HwFaultScene *scene,
             const Kind         *kind)
{
  const HwHandbook *handbook = scene->handbook;

  for (guint i = 0; i < scene->room->packets->len; i++)
    {
      const HwPacket *packet = g_ptr_array_index (scene->room->packets, i);
      const Kind      own = { hw_handbook_find_system (handbook, packet->system),
                              hw_handbook_find_point (handbook, packet->point), packet->nm, packet->twin_mm };

      if (is_kind (&own, kind) && hw_room_new_needles (scene->room, packet) > 0)
        return packet;
    }
  return NULL;
}

static HwFix
load (const HwFaultScene *scene,
      const Kind         *kind,
      gboolean            discard)
{
  return (HwFix) {
    .kind = HW_FIX_LOAD_NEEDLE, .packet = find_packet (scene, kind), .system = kind->system, .point = kind->point,
    .size_nm = kind->nm, .twin_mm = kind->twin_mm, .discard = discard && scene->state->needle != NULL, .care = -1,
  };
}

/* What the operation asks for; a machine that sews no operation gets what it had. */
static HwFix
fix_new_needle (const HwFaultScene *scene)
{
  Kind kind;

  if (!read_planned (scene, &kind) && !read_loaded (scene, &kind))
    return NO_FIX;
  return load (scene, &kind, TRUE);
}

/* The planned needle if another is in; else one that the plan would take too and that the case has. */
static HwFix
fix_other_point (const HwFaultScene *scene)
{
  const HwValue *points = scene->setup != NULL ? &scene->setup->values[HW_FIELD_POINT] : NULL;
  Kind           planned, loaded;

  if (!read_planned (scene, &planned))
    return NO_FIX;
  if (!read_loaded (scene, &loaded) || !is_kind (&planned, &loaded))
    return load (scene, &planned, FALSE);
  for (gsize i = 0; i < scene->handbook->n_points; i++)
    {
      Kind other = { planned.system, (int) i, planned.nm, planned.twin_mm };

      if ((int) i != planned.point && hw_value_accepts (points, HW_FIELD_POINT, (double) i)
          && find_packet (scene, &other) != NULL)
        return load (scene, &other, FALSE);
    }
  return NO_FIX;
}

static HwFix
fix_size (const HwFaultScene *scene,
          int                 direction)
{
  Kind     planned, loaded;
  gboolean has_plan = read_planned (scene, &planned);
  gboolean has_load = read_loaded (scene, &loaded);

  if (has_plan && has_load && (planned.nm - loaded.nm) * direction > 0)
    return load (scene, &planned, FALSE);
  if (!has_load && !has_plan)
    return NO_FIX;
  if (!has_load)
    loaded = planned;
  loaded.nm = find_next_size (scene, &loaded, direction);
  return loaded.nm > 0 ? load (scene, &loaded, FALSE) : NO_FIX;
}

/* ---- dial and care ---- */

/* Half a number from where it stands, or to the end of the printed band when it stands further out. */
static HwFix
fix_dial (const HwFaultScene *scene,
          int                 direction)
{
  const HwDialScale *scale = &scene->machine->dial;
  const HwValue     *planned = scene->setup != NULL ? &scene->setup->values[HW_FIELD_DIAL] : NULL;
  double             now = hw_fault_dial_now (scene->room, scene->machine, scene->setup);
  double             to;
  HwFix              fix = NO_FIX;

  if (isnan (now) && planned != NULL && planned->applies)
    now = planned->value;
  if (isnan (now))
    return NO_FIX;
  to = hw_dial_half_step (now) + direction * DIAL_STEP;
  if (planned != NULL && planned->applies)
    to = direction < 0 ? MIN (to, scene->setup->dial_likely_high) : MAX (to, scene->setup->dial_likely_low);
  to = CLAMP (to, scale->low, scale->high);
  if (!(to > 0) || (to - now) * direction <= 0)
    return NO_FIX;
  fix.kind = HW_FIX_SET_DIAL;
  fix.dial = to;
  return fix;
}

static HwFix
fix_care (const HwCause *cause)
{
  HwFix fix = NO_FIX;

  fix.kind = cause->care >= 0 ? HW_FIX_CARE : HW_FIX_NONE;
  fix.care = cause->care;
  return fix;
}

HwFix
hw_fault_fix (const HwHandbook *handbook,
              const HwRoom     *room,
              const HwMachine  *machine,
              const HwSetup    *setup,
              const HwCause    *cause)
{
  const HwFaultScene scene = { handbook, room, machine, setup, hw_room_get_state (room, machine), NULL };

  g_return_val_if_fail (cause != NULL && scene.state != NULL, NO_FIX);

  switch ((int) cause->remedy)
    {
    case HW_REMEDY_NEW_NEEDLE:
      return fix_new_needle (&scene);
    case HW_REMEDY_OTHER_POINT:
      return fix_other_point (&scene);
    case HW_REMEDY_FINER_NEEDLE:
    case HW_REMEDY_THICKER_NEEDLE:
      return fix_size (&scene, hw_remedy_direction (cause->remedy));
    case HW_REMEDY_DIAL_UP:
    case HW_REMEDY_DIAL_DOWN:
      return fix_dial (&scene, hw_remedy_direction (cause->remedy));
    default:
      return fix_care (cause);
    }
}

/* ---- the journal ---- */

/* All else on the machine stays as it is. */
static HwJournalEntry *
make_load (const HwHandbook *handbook,
           const HwMachine  *machine,
           const HwFix      *fix)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_LOAD, machine->id);

  entry->needle = g_uuid_string_random ();
  entry->packet = fix->packet != NULL ? g_strdup (fix->packet->id) : NULL;
  entry->system = g_strdup (handbook->systems[fix->system].entry.id);
  entry->point = g_strdup (handbook->points[fix->point].entry.id);
  entry->nm = fix->size_nm;
  entry->twin_mm = fix->twin_mm;
  entry->verdict = fix->discard ? g_strdup ("discarded") : NULL;
  return entry;
}

HwJournalEntry *
hw_fault_fix_entry (const HwHandbook *handbook,
                    const HwRoom     *room,
                    const HwMachine  *machine,
                    const HwFix      *fix)
{
  HwJournalEntry *entry;

  if (fix->kind == HW_FIX_LOAD_NEEDLE)
    return make_load (handbook, machine, fix);
  if (fix->kind != HW_FIX_CARE)
    return NULL;
  entry = hw_journal_entry_new (HW_ENTRY_CARE, machine->id);
  entry->task = g_strdup (handbook->care[fix->care].entry.id);
  return entry;
}
