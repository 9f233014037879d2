/* test-queue.c - several projects through one room: forecast of care and needles, due dates, mixing
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The forecast is held against the journal: what a queue says is appended, entry by entry, to a room in memory, and
 * the room's own clocks are read.
 */

#include "config.h"

#include "../rounds.h"
#include "plan/calendar.h"
#include "plan/queue.h"
#include "workroom.h"

#include <math.h>
#include <string.h>

#define NOW "2031-03-10T09:00:00Z"
#define N_QUEUES 1000
#define EPSILON 1e-6

/* ---- the calendar ---- */

static const struct { double hours_a_week, hours; const char *time; } calendar_cases[] = {
  { 6, 0, "2031-03-10T09:00:00Z" },      /* two hours at a sitting: Monday, Wednesday, Friday */
  { 6, 1.5, "2031-03-10T10:30:00Z" },
  { 6, 2, "2031-03-12T09:00:00Z" },
  { 6, 5, "2031-03-14T10:00:00Z" },
  { 6, 6, "2031-03-17T09:00:00Z" },
  { 1, 0.5, "2031-03-10T09:30:00Z" },
  { 1, 3, "2031-03-31T09:00:00Z" },
  { 40, 40, "2031-03-17T09:00:00Z" },    /* more than two hours a day, every day */
};

static void
test_calendar (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (calendar_cases); i++)
    {
      gint64 seconds = hw_calendar_seconds (calendar_cases[i].hours_a_week, calendar_cases[i].hours);
      g_autofree char *time = hw_calendar_time (NOW, seconds);

      g_assert_cmpstr (time, ==, calendar_cases[i].time);
    }
  for (double week = 0.5; week < 60; week += 0.7)
    for (double hours = 0; hours < 30; hours += 0.1)
      g_assert_cmpint (hw_calendar_seconds (week, hours), <=, hw_calendar_seconds (week, hours + 0.1));
  g_assert_cmpint (hw_calendar_day (NOW, 15 * 3600) - hw_calendar_day (NOW, 0), ==, 1);
  g_assert_cmpint (hw_calendar_day (NOW, 15 * 3600 - 1), ==, hw_calendar_day (NOW, 0));
  g_assert_null (hw_calendar_time ("yesterday", 0));
}

/* ---- random rooms, projects and queues ---- */

typedef struct
{
  HwHandbook *handbook;
  HwRoom     *room;
  GPtrArray  *projects;
  GRand      *random;
} Draw;

static int
draw (Draw *self, int n)
{
  return g_rand_int_range (self->random, 0, n);
}

static double
draw_between (Draw *self, double low, double high)
{
  return low * pow (high / low, g_rand_double (self->random));
}

/* Shorter needles and other clocks than the handbook has, so that all of it happens within a small project. */
static void
alter_handbook (Draw *self)
{
  HwHandbook *handbook = self->handbook;

  handbook->needle_life.at_machine_hours = draw_between (self, 0.2, 15);
  handbook->needle_life.running_hours = handbook->needle_life.at_machine_hours * draw_between (self, 0.1, 1);
  for (gsize i = 0; i < handbook->n_care; i++)
    {
      static const HwClock clocks[] = { HW_CLOCK_RUNNING, HW_CLOCK_AT_MACHINE, HW_CLOCK_MONTHS, HW_CLOCK_SEWING_DAY };
      HwCareTask *task = &handbook->care[i];

      task->clock = clocks[draw (self, 4)];
      task->counts_lint = draw (self, 2) == 0;
      task->or_months = draw (self, 3) == 0 ? draw_between (self, 0.1, 12) : 0;
      task->limit = task->clock == HW_CLOCK_SEWING_DAY ? 1 + draw (self, 3)
                    : task->clock == HW_CLOCK_MONTHS   ? draw_between (self, 0.1, 12)
                                                       : draw_between (self, 0.2, 20);
    }
}

/* Limits by its own manual; 0: never. */
static void
give_own_limits (Draw *self, HwMachine *machine)
{
  for (gsize i = 0; i < machine->n_care; i++)
    g_free (machine->care[i].care);
  g_free (machine->care);
  machine->care = g_new0 (HwOwnCare, self->handbook->n_care);
  machine->n_care = 0;
  for (gsize i = 0; i < self->handbook->n_care; i++)
    if (draw (self, 2) == 0)
      {
        const HwCareTask *task = &self->handbook->care[i];
        double limit = draw (self, 6) == 0 ? 0 : task->clock == HW_CLOCK_SEWING_DAY ? 1 : draw_between (self, 0.3, 9);

        machine->care[machine->n_care++] = (HwOwnCare) { g_strdup (task->entry.id), limit };
      }
}

static void
add_packets (Draw *self)
{
  for (int i = draw (self, 4); i > 0; i--)
    {
      HwPacket *packet = g_new0 (HwPacket, 1);

      packet->id = g_strdup_printf ("packet-%d", i);
      packet->system = g_strdup ("household");
      packet->point = g_strdup (self->handbook->points[draw (self, (int) self->handbook->n_points)].entry.id);
      packet->nm = 70 + 10 * draw (self, 4);
      packet->count = 1 + draw (self, 5);
      g_ptr_array_add (self->room->packets, packet);
    }
}

/* What was sewn before: hours on the clocks and on a needle. */
static void
add_history (Draw *self)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);
  int n = draw (self, 8);
  HwRoom *room;

  for (int i = 0; i < n; i++)
    {
      const HwMachine *machine = g_ptr_array_index (self->room->machines, (guint) draw (self, 2));
      int kind = draw (self, 4);
      HwJournalEntry *entry = hw_journal_entry_new (kind == 0   ? HW_ENTRY_CARE
                                                    : kind == 1 ? HW_ENTRY_LOAD
                                                                : HW_ENTRY_SEWING, machine->id);

      g_free (entry->time);
      entry->time = g_strdup_printf ("2031-%02d-%02dT10:00:00Z", 1 + i / 4, 1 + 2 * i);
      entry->task = kind == 0 ? g_strdup (self->handbook->care[draw (self, (int) self->handbook->n_care)].entry.id)
                              : NULL;
      if (kind == 1)
        {
          entry->needle = g_strdup_printf ("needle-%d", draw (self, 3));
          entry->system = g_strdup ("household");
          entry->point = g_strdup (self->handbook->points[0].entry.id);
          entry->nm = 80;
        }
      entry->minutes = kind > 1 ? draw_between (self, 1, 400) : 0;
      entry->running = entry->minutes * 0.35;
      g_ptr_array_add (entries, entry);
    }
  room = hw_room_imagine (self->room, entries);
  hw_room_unref (self->room);
  self->room = room;
}

static HwStep *
draw_step (Draw *self, int number)
{
  static const char * const purposes[] = { "seam", "topstitch", "hem", "neaten", "zip", "quilt", "gather", "dart" };
  static const char * const stitches[] = { NULL, NULL, NULL, "301", "304", "504", "514" };
  g_autofree char *name = g_strdup_printf ("%d", number);
  gboolean by_hand = draw (self, 5) == 0;
  HwStep *step = hw_step_new (by_hand ? HW_STEP_HAND : HW_STEP_OPERATION, name, name);
  g_autoptr (GPtrArray) after = g_ptr_array_new ();

  for (int before = 1; before < number; before++)
    if (draw (self, 4) == 0)
      g_ptr_array_add (after, g_strdup_printf ("%d", before));
  g_ptr_array_add (after, NULL);
  g_strfreev (step->after);
  step->after = (char **) g_ptr_array_free (g_steal_pointer (&after), FALSE);
  step->minutes = by_hand ? draw_between (self, 0.5, 30) : 0;
  if (by_hand)
    return step;
  step->purpose = g_strdup (purposes[draw (self, G_N_ELEMENTS (purposes))]);
  step->stitch = g_strdup (stitches[draw (self, G_N_ELEMENTS (stitches))]);
  step->length_cm = draw_between (self, 10, 6000);
  step->pieces = 1 + draw (self, 6);
  step->n_plies = 1;
  step->plies = g_new0 (HwPly, 1);
  step->plies[0] = (HwPly) { g_strdup_printf ("f%d", draw (self, 2)), 1 + draw (self, 2) };
  return step;
}

static HwProject *
draw_project (Draw *self, int index)
{
  static const char * const cloths[] = { "cotton-twill", "denim", "velvet", "poplin", "interlock", "fleece" };
  static const char * const colours[] = { "black", "white", "red" };
  g_autofree char *id = g_strdup_printf ("p%d", index);
  HwProject *project = hw_project_new (id, id);
  int n = 1 + draw (self, 9);

  g_ptr_array_set_size (project->threads, 0);
  for (int i = 0; i < 2; i++)
    {
      g_autofree char *name = g_strdup_printf ("f%d", i);
      g_autofree char *thread = g_strdup_printf ("t%d", i);
      HwProjectFabric *fabric = hw_project_fabric_new (name, name);
      HwProjectThread *own;
      const char *wanted = cloths[draw (self, G_N_ELEMENTS (cloths))];

      if (hw_handbook_find_fabric (self->handbook, wanted) < 0)
        wanted = "cotton-twill";
      fabric->handbook = g_strdup (wanted);
      g_ptr_array_add (project->fabrics, fabric);
      own = hw_project_thread_new (thread, "polyester-30");
      own->colour = g_strdup (colours[draw (self, 3)]);
      own->tex = i == 1 ? 60 : 0;
      g_ptr_array_add (project->threads, own);
    }
  for (int i = 1; i <= n; i++)
    g_ptr_array_add (project->steps, draw_step (self, i));
  return project;
}

static char *
draw_due (Draw *self, gboolean soon)
{
  int day = draw (self, 28);

  if (draw (self, 3) == 0)
    return NULL;
  return soon ? g_strdup_printf ("2031-%02d-%02d", 3 + draw (self, 4), 1 + day)
              : g_strdup_printf ("2099-01-%02d", 1 + day);
}

static Draw
draw_queue (HwHandbook *handbook, guint32 seed, gboolean soon)
{
  Draw self = { .random = g_rand_new_with_seed (seed), .handbook = handbook,
                .room = workroom_new (&workroom_usual, "household", 3),
                .projects = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref) };

  alter_handbook (&self);
  for (guint m = 0; m < self.room->machines->len; m++)
    give_own_limits (&self, g_ptr_array_index (self.room->machines, m));
  add_packets (&self);
  self.room->preferences->hours_a_week = draw_between (&self, 0.5, 30);
  add_history (&self);
  for (int p = 1 + draw (&self, 4); p > 0; p--)
    {
      HwProject *project = draw_project (&self, p);

      project->due = draw_due (&self, soon);
      g_ptr_array_add (self.projects, project);
    }
  return self;
}

static void
draw_clear (Draw *self)
{
  g_ptr_array_unref (self->projects);
  hw_room_unref (self->room);
  g_rand_free (self->random);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Draw, draw_clear)

/* ---- the journal as the queue foretells it ---- */

typedef struct
{
  const Draw    *drawn;
  const HwQueue *queue;
  GPtrArray     *entries;
  HwRoom        *room;
  GHashTable    *needles;                /* pick -> id of its needle */
  int            n, care, worn, parts;
} Diary;

static const HwPlan *
plan_of (const HwQueue *queue, const HwQueueStep *step)
{
  return g_ptr_array_index (queue->plans, (guint) step->plan);
}

static const HwPlanStep *
planned_of (const HwQueue *queue, const HwQueueStep *step)
{
  return &g_array_index (plan_of (queue, step)->order, HwPlanStep, (guint) step->place);
}

static void
append (Diary *self, HwJournalEntry *entry, const char *time)
{
  HwRoom *next;

  g_free (entry->time);
  entry->time = g_strdup (time);
  g_ptr_array_add (self->entries, entry);
  next = hw_room_imagine (self->room, self->entries);
  hw_room_unref (self->room);
  self->room = next;
  self->n++;
}

static void
do_care (Diary *self, const HwPlanStep *planned, const HwMachine *machine, const char *time)
{
  for (gsize care = 0; care < self->drawn->handbook->n_care; care++)
    if ((planned->care_due >> care) & 1)
      {
        HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_CARE, machine->id);

        entry->task = g_strdup (self->drawn->handbook->care[care].entry.id);
        append (self, entry, time);
        self->care++;
      }
}

static const char *
find_needle (Diary *self, const HwPlan *plan, const HwNeedlePick *pick)
{
  const HwNeedlePick *first = pick->again >= 0 ? g_ptr_array_index (plan->needles, (guint) pick->again) : pick;

  if (pick->worn != NULL)
    return pick->worn->id;
  if (!g_hash_table_contains (self->needles, first))
    g_hash_table_insert (self->needles, (gpointer) first, g_uuid_string_random ());
  return g_hash_table_lookup (self->needles, first);
}

static void
load (Diary *self, const HwPlan *plan, const HwNeedlePick *pick, const HwMachine *machine, const char *time)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_LOAD, machine->id);

  entry->needle = g_strdup (find_needle (self, plan, pick));
  entry->packet = pick->packet != NULL ? g_strdup (pick->packet->id) : NULL;
  entry->nm = pick->size_nm;
  append (self, entry, time);
}

static double
clock_of (const Diary *self, const HwMachine *machine, const HwCareTask *task, const char *time)
{
  return hw_room_care_clock (self->room, machine, task, time);
}

/* Where each clock stood before the step. */
static double *
read_clocks (const Diary *self, const HwMachine *machine, const char *time)
{
  double *clocks = g_new0 (double, self->drawn->handbook->n_care);

  for (gsize i = 0; i < self->drawn->handbook->n_care; i++)
    clocks[i] = clock_of (self, machine, &self->drawn->handbook->care[i], time);
  return clocks;
}

static void
check_clocks (const Diary *self, const HwMachine *machine, const double *before, const char *time)
{
  for (gsize i = 0; i < self->drawn->handbook->n_care; i++)
    {
      const HwCareTask *task = &self->drawn->handbook->care[i];
      double limit = hw_care_limit (machine, task);
      double clock = clock_of (self, machine, task, time);

      if (!(limit > 0))
        continue;
      /* A step longer than a limit is begun right after that care. */
      if (clock > limit + EPSILON)
        g_assert_cmpfloat (before[i], ==, 0);
      if (task->clock == HW_CLOCK_MONTHS || task->clock == HW_CLOCK_SEWING_DAY)
        g_assert_cmpfloat (clock, <=, limit + EPSILON);
      else if (task->or_months > 0)
        g_assert_cmpfloat (hw_room_care_months (self->room, machine, task, time), <=, task->or_months + EPSILON);
    }
}

static void
sew (Diary *self, const HwQueueStep *step, double share, gboolean last, const char *time)
{
  const HwQueue *queue = self->queue;
  const HwPlanStep *planned = planned_of (queue, step);
  const HwProject *project = g_ptr_array_index (queue->projects, (guint) step->project);
  const HwSetup *setup = plan_of (queue, step)->setups[planned->step];
  const HwNeedleLife *life = &self->drawn->handbook->needle_life;
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_SEWING, setup != NULL ? setup->machine->id : "hand");
  const HwNeedle *needle;

  entry->project = g_strdup (project->id);
  entry->step = last ? g_strdup (step->step) : NULL;
  entry->minutes = planned->minutes * share;
  entry->running = planned->running * share;
  entry->lint = setup != NULL ? setup->lint_factor : 1;
  entry->life = setup != NULL ? setup->needle_life : 1;
  append (self, entry, time);
  needle = setup != NULL ? hw_room_get_state (self->room, setup->machine)->needle : NULL;
  if (needle == NULL)
    return;
  g_assert_cmpfloat (needle->at_machine_hours, <=, life->at_machine_hours + EPSILON);
  g_assert_cmpfloat (needle->running_hours, <=, life->running_hours + EPSILON);
}

/* The needles that @step wants, each part of it sewn with its own. */
static void
sew_with_needles (Diary *self, const HwQueueStep *step, const HwSetup *setup, const char *time)
{
  const HwPlan *plan = plan_of (self->queue, step);
  const HwPlanStep *planned = planned_of (self->queue, step);
  double sewn = 0;
  int parts = 1;

  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);

      if (pick->before != step->place)
        continue;
      if (pick->from_piece > 0 || pick->mid_row)
        {
          double share = pick->mid_row ? (double) parts / planned->needles
                                       : (double) pick->from_piece / setup->step->pieces;

          /* At the end of a row, unless a single row outlasts a needle. */
          g_assert_cmpint (pick->from_piece, <, setup->step->pieces);
          sew (self, step, share - sewn, FALSE, time);
          sewn = share;
          parts++;
          self->parts++;
        }
      load (self, plan, pick, setup->machine, time);
    }
  g_assert_cmpint (planned->needles, ==, parts);
  self->worn += planned->needle_worn ? 1 : 0;
  sew (self, step, 1 - sewn, TRUE, time);
}

static void
write_step (Diary *self, const HwQueueStep *step)
{
  const HwPlanStep *planned = planned_of (self->queue, step);
  const HwSetup *setup = plan_of (self->queue, step)->setups[planned->step];
  gint64 seconds = hw_calendar_seconds (self->room->preferences->hours_a_week, step->starts_hours);
  g_autofree char *time = hw_calendar_time (self->queue->from, seconds);
  g_autofree double *before = NULL;

  if (setup == NULL)
    {
      sew (self, step, 1, TRUE, time);
      return;
    }
  do_care (self, planned, setup->machine, time);
  before = read_clocks (self, setup->machine, time);
  sew_with_needles (self, step, setup, time);
  check_clocks (self, setup->machine, before, time);
}

/* A needle that nobody noted is in no room's books: the first that is loaded there is. */
static Diary
write_diary (const Draw *drawn, const HwQueue *queue)
{
  Diary self = { .drawn = drawn, .queue = queue, .room = hw_room_ref (drawn->room),
                 .entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free),
                 .needles = g_hash_table_new_full (NULL, NULL, NULL, g_free) };

  for (guint i = 0; i < drawn->room->entries->len; i++)
    g_ptr_array_add (self.entries, hw_journal_entry_ref (g_ptr_array_index (drawn->room->entries, i)));
  for (guint i = 0; i < queue->steps->len; i++)
    write_step (&self, &g_array_index (queue->steps, HwQueueStep, i));
  return self;
}

static void
diary_clear (Diary *self)
{
  g_ptr_array_unref (self->entries);
  g_hash_table_unref (self->needles);
  hw_room_unref (self->room);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Diary, diary_clear)

/* ---- what holds of every queue ---- */

/* Each step once, after what it comes after; each project's steps all sewn in the end. */
static void
check_steps (const Diary *self)
{
  const HwQueue *queue = self->queue;
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  double hours = 0;

  for (guint i = 0; i < queue->steps->len; i++)
    {
      const HwQueueStep *step = &g_array_index (queue->steps, HwQueueStep, i);
      const HwProject *project = g_ptr_array_index (queue->projects, (guint) step->project);
      const HwStep *own = hw_project_get_step (project, (gsize) hw_project_find_step (project, step->step));

      g_assert_cmpfloat (step->starts_hours, >=, hours - EPSILON);
      hours = step->starts_hours;
      for (char **after = own->after; *after != NULL; after++)
        {
          g_autofree char *key = g_strdup_printf ("%d/%s", step->project, *after);

          g_assert_true (g_hash_table_contains (seen, key));
        }
      g_assert_true (g_hash_table_add (seen, g_strdup_printf ("%d/%s", step->project, step->step)));
    }
  for (guint p = 0; p < self->drawn->projects->len; p++)
    {
      const HwProject *project = g_ptr_array_index (self->drawn->projects, p);

      for (gsize i = 0; i < project->steps->len; i++)
        g_assert_nonnull (hw_room_step_done (self->room, project->id, hw_project_get_step (project, i)->number));
    }
}

/* The care listed names the first step before which the plan puts it. */
static void
check_list (const HwQueue *queue)
{
  for (guint i = 0; i < queue->care->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (queue->care, i);
      gboolean found = FALSE;

      for (guint s = 0; due->care >= 0 && s < queue->steps->len && !found; s++)
        {
          const HwQueueStep *step = &g_array_index (queue->steps, HwQueueStep, s);
          const HwSetup *setup = plan_of (queue, step)->setups[planned_of (queue, step)->step];

          if (setup == NULL || setup->machine != due->machine
              || !((planned_of (queue, step)->care_due >> due->care) & 1))
            continue;
          found = TRUE;
          g_assert_cmpint (due->project, ==, step->project);
          g_assert_cmpstr (due->step, ==, step->step);
          g_assert_nonnull (due->date);
        }
      if (due->care >= 0)
        g_assert_true (found == (due->project >= 0));
      if (due->overdue)
        g_assert_true (strncmp (due->date, queue->from, strlen (due->date)) == 0);
    }
}

static char *
write_down (const HwQueue *queue)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < queue->steps->len; i++)
    {
      const HwQueueStep *step = &g_array_index (queue->steps, HwQueueStep, i);

      g_string_append_printf (text, "%d %s %a %" G_GINT64_MODIFIER "x\n", step->project, step->step, step->starts_hours,
                              planned_of (queue, step)->care_due);
    }
  for (guint p = 0; p < queue->projects->len; p++)
    g_string_append_printf (text, "%a %s %d\n", queue->hours_left[p], queue->finished[p], queue->late[p]);
  for (guint i = 0; i < queue->care->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (queue->care, i);

      g_string_append_printf (text, "%s %d %d %s %s %a %a\n", due->machine->id, due->care, due->overdue, due->step,
                              due->date, due->clock, due->limit);
    }
  g_string_append_printf (text, "%a %a %d\n", queue->change_minutes, queue->change_minutes_one_by_one, queue->mixed);
  return g_string_free (text, FALSE);
}

/* When a project's last step begins. */
static guint
find_last (const HwQueue *queue, guint project)
{
  guint last = 0;

  for (guint i = 0; i < queue->steps->len; i++)
    if (g_array_index (queue->steps, HwQueueStep, i).project == (int) project)
      last = i;
  return last;
}

/* What is due earlier is finished no later: always while nothing is late; with dates close by, save across a project
 * for whose sake the queue was parted, and that is never a later one. */
static void
check_due_dates (const HwQueue *mixed, const HwQueue *apart, gboolean soon)
{
  for (guint p = 0; p < mixed->projects->len; p++)
    {
      const char *due = ((const HwProject *) g_ptr_array_index (mixed->projects, p))->due;

      g_assert_true (!mixed->late[p] || apart->late[p]);
      for (guint q = 0; due != NULL && q < mixed->projects->len; q++)
        {
          const char *other = ((const HwProject *) g_ptr_array_index (mixed->projects, q))->due;

          if (other == NULL || strcmp (due, other) >= 0)
            continue;
          if (!soon || p < q)
            g_assert_cmpuint (find_last (mixed, p), <, find_last (mixed, q));
        }
    }
}

typedef struct { int care, worn, parts, mixed, queues, several; double saved; } Tally;

static void
check_queue (const Draw *drawn, const HwQueue *queue, Tally *tally)
{
  g_auto (Diary) diary = write_diary (drawn, queue);

  g_assert_cmpuint (queue->refused->len, ==, 0);
  check_steps (&diary);
  check_list (queue);
  tally->care += diary.care;
  tally->worn += diary.worn;
  tally->parts += diary.parts;
}

static void
check_draw (HwHandbook *handbook, guint32 seed, Tally *tally)
{
  gboolean soon = seed % 2 == 0;
  g_auto (Draw) drawn = draw_queue (handbook, seed, soon);
  g_autoptr (HwQueue) apart = hw_queue_new (drawn.handbook, drawn.projects, drawn.room, NOW, HW_QUEUE_ONE_BY_ONE);
  g_autoptr (HwQueue) mixed = hw_queue_new (drawn.handbook, drawn.projects, drawn.room, NOW, HW_QUEUE_MIXED);
  g_autoptr (HwQueue) again = hw_queue_new (drawn.handbook, drawn.projects, drawn.room, NOW, HW_QUEUE_MIXED);
  g_autofree char *first = write_down (mixed);
  g_autofree char *second = write_down (again);

  g_assert_false (apart->mixed);
  check_queue (&drawn, apart, tally);
  if (mixed->mixed)
    {
      check_queue (&drawn, mixed, tally);
      check_due_dates (mixed, apart, soon);
      tally->mixed++;
    }
  g_assert_cmpstr (first, ==, second);
  g_assert_cmpfloat (mixed->change_minutes, <=, apart->change_minutes + EPSILON);
  g_assert_cmpfloat_with_epsilon (mixed->change_minutes_one_by_one, apart->change_minutes, EPSILON);
  tally->saved += apart->change_minutes - mixed->change_minutes;
  tally->several += apart->projects->len > 1 ? 1 : 0;
  tally->queues++;
}

static void
test_random_queues (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();        /* altered anew for each queue */
  Tally tally = { 0 };

  for (guint32 seed = 1; seed <= rounds_of (N_QUEUES); seed++)
    {
      g_test_message ("seed %u", seed);
      check_draw (handbook, seed, &tally);
    }
  g_test_message ("%d queues, %d of several projects: %d care tasks, %d worn needles, %d changed within a step; "
                  "%d mixed, saving %.0f minutes", tally.queues, tally.several, tally.care, tally.worn, tally.parts,
                  tally.mixed, tally.saved);
  g_assert_cmpint (tally.care, >, (int) rounds_of (1000));
  g_assert_cmpint (tally.worn, >, (int) rounds_of (300));
  g_assert_cmpint (tally.parts, >, (int) rounds_of (50));
  g_assert_cmpint (tally.mixed, >, (int) rounds_of (100));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/queue/calendar", test_calendar);
  g_test_add_func ("/queue/random", test_random_queues);
  return g_test_run ();
}
