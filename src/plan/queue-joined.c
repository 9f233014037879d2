/* queue-joined.c - several projects as one, to be put in one order of work
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Steps and fabrics are numbered by their project: step 14 of the second is "2.14". Threads of one kind, colour and
 * size are one thread. Each step chooses among its own project's threads, as it would alone. What was done of the
 * projects is found in the journal because the joined project's room has those entries under its own numbers.
 */

#include "config.h"

#include "plan/queue-private.h"

#include "model/edit.h"

#include <string.h>

#define JOINED_ID "mixed projects"       /* no project's: an id has no space */

typedef struct
{
  const HwHandbook *handbook;
  const GPtrArray  *projects;
  const HwRoom     *room;
  const gboolean   *wait;
  HwJoined         *joined;
  gsize            *first;               /* [projects + 1] index of its first step */
} Joining;

static char *
number_of (guint project, const char *own)
{
  return g_strdup_printf ("%u.%s", project + 1, own);
}

static void
renumber (char **text, guint project)
{
  char *own = *text;

  if (own == NULL)
    return;
  *text = number_of (project, own);
  g_free (own);
}

/* ---- fabrics and threads ---- */

static void
join_fabrics (Joining *self, guint p)
{
  const HwProject *project = g_ptr_array_index (self->projects, p);

  for (guint i = 0; i < project->fabrics->len; i++)
    {
      HwProjectFabric *fabric = hw_project_fabric_copy (g_ptr_array_index (project->fabrics, i));

      renumber (&fabric->id, p);
      g_ptr_array_add (self->joined->project->fabrics, fabric);
    }
}

static double
get_tex (const Joining *self, const HwProjectThread *thread)
{
  int entry = thread->handbook != NULL ? hw_handbook_find_thread (self->handbook, thread->handbook) : -1;

  return thread->tex > 0 || entry < 0 ? thread->tex : self->handbook->threads[entry].tex;
}

static gboolean
is_same_thread (const Joining *self, const HwProjectThread *a, const HwProjectThread *b)
{
  double difference = get_tex (self, a) - get_tex (self, b);

  return g_strcmp0 (a->handbook, b->handbook) == 0 && g_strcmp0 (a->colour, b->colour) == 0 && ABS (difference) < 1e-9;
}

/* The joined project's thread for @thread of project @p; added when none is the same. Borrowed. */
static HwProjectThread *
join_thread (Joining *self, guint p, const HwProjectThread *thread)
{
  GPtrArray *threads = self->joined->project->threads;
  HwProjectThread *copy;

  for (guint i = 0; i < threads->len; i++)
    if (is_same_thread (self, g_ptr_array_index (threads, i), thread))
      return g_ptr_array_index (threads, i);
  copy = hw_project_thread_copy (thread);
  renumber (&copy->id, p);
  g_ptr_array_add (threads, copy);
  return copy;
}

/* The threads from which the steps of project @p choose, in its own order. (transfer full) */
static HwProject *
make_view (Joining *self, guint p)
{
  const HwProject *project = g_ptr_array_index (self->projects, p);
  HwProject *view = hw_project_new (JOINED_ID, project->title);

  g_ptr_array_set_size (view->threads, 0);
  for (guint i = 0; i < project->threads->len; i++)
    g_ptr_array_add (view->threads,
                     hw_project_thread_ref (join_thread (self, p, g_ptr_array_index (project->threads, i))));
  return view;
}

static void
name_thread (Joining *self, guint p, char **id)
{
  const HwProject *project = g_ptr_array_index (self->projects, p);
  const HwProjectThread *thread = *id != NULL ? hw_project_find_thread (project, *id) : NULL;

  if (thread == NULL)
    return;
  g_free (*id);
  *id = g_strdup (join_thread (self, p, thread)->id);
}

/* ---- steps and wishes ---- */

static void
join_step (Joining *self, guint p, gsize index, HwProject *view)
{
  const HwProject *project = g_ptr_array_index (self->projects, p);
  HwStep *step = hw_step_copy (hw_project_get_step (project, index));
  gsize joined = self->joined->project->steps->len;

  renumber (&step->number, p);
  for (char **after = step->after; *after != NULL; after++)
    renumber (after, p);
  for (gsize i = 0; i < step->n_plies; i++)
    renumber (&step->plies[i].fabric, p);
  for (gsize i = 0; i < step->n_crossing; i++)
    renumber (&step->crossing[i].fabric, p);
  name_thread (self, p, &step->needle_thread);
  name_thread (self, p, &step->bobbin_thread);
  step->share = step->share && project->share;
  g_ptr_array_add (self->joined->project->steps, step);
  self->joined->views[joined] = hw_project_ref (view);
  self->joined->owner[joined] = (int) p;
  self->joined->step[joined] = index;
}

/* First and last are meant among the project's own steps: before (after) each of them that lets it. (transfer full) */
static HwProject *
spell_out_ends (const HwProject *project)
{
  HwProject *spelt = hw_project_ref ((HwProject *) project);

  for (guint w = 0; w < project->wishes->len; w++)
    {
      const HwWish *wish = g_ptr_array_index (project->wishes, w);
      const char *end = wish->steps[0];

      for (guint i = 0; i < project->steps->len; i++)
        {
          const char *other = hw_project_get_step (project, i)->number;
          const char *steps[] = { wish->kind == HW_WISH_FIRST ? end : other,
                                  wish->kind == HW_WISH_FIRST ? other : end, NULL };
          g_autoptr (HwWish) arrow = hw_wish_new (HW_WISH_BEFORE, steps);
          HwProject *next;

          if ((wish->kind != HW_WISH_FIRST && wish->kind != HW_WISH_LAST) || g_str_equal (end, other))
            continue;
          next = hw_edit_add_wish (spelt, arrow, NULL);          /* refused: the making up wants it so */
          if (next == NULL)
            continue;
          hw_project_unref (spelt);
          spelt = next;
        }
    }
  return spelt;
}

static void
join_wishes (Joining *self, guint p)
{
  g_autoptr (HwProject) project = spell_out_ends (g_ptr_array_index (self->projects, p));

  for (guint i = 0; i < project->wishes->len; i++)
    {
      const HwWish *own = g_ptr_array_index (project->wishes, i);
      HwWish *wish;

      if (own->kind == HW_WISH_FIRST || own->kind == HW_WISH_LAST)
        continue;
      wish = hw_wish_new (own->kind, (const char * const *) own->steps);
      for (char **number = wish->steps; *number != NULL; number++)
        renumber (number, p);
      g_ptr_array_add (self->joined->project->wishes, wish);
    }
}

static void
join_project (Joining *self, guint p)
{
  const HwProject *project = g_ptr_array_index (self->projects, p);
  g_autoptr (HwProject) view = make_view (self, p);

  join_fabrics (self, p);
  self->first[p] = self->joined->project->steps->len;
  for (gsize i = 0; i < project->steps->len; i++)
    join_step (self, p, i, view);
  self->first[p + 1] = self->joined->project->steps->len;
  join_wishes (self, p);
  self->joined->project->gather_hand = self->joined->project->gather_hand || project->gather_hand;
}

/* ---- what waits for what ---- */

static gboolean
is_done (const Joining *self, gsize step)
{
  const HwProject *project = g_ptr_array_index (self->projects, (guint) self->joined->owner[step]);
  const HwStep *own = hw_project_get_step (project, self->joined->step[step]);

  return hw_room_step_done (self->room, project->id, own->number) != NULL;
}

static gboolean
is_waited_for (const Joining *self, guint p, const char *number)
{
  for (gsize i = self->first[p]; i < self->first[p + 1]; i++)
    {
      const HwStep *step = hw_project_get_step (self->joined->project, i);

      if (!is_done (self, i) && g_strv_contains ((const char * const *) step->after, number))
        return TRUE;
    }
  return FALSE;
}

/* The steps left of project @p that nothing else of it waits for: when these are done, so is the project. Numbers,
 * borrowed, in its own order. (transfer container) */
static GPtrArray *
list_ends (const Joining *self, guint p)
{
  GPtrArray *ends = g_ptr_array_new ();

  for (gsize i = self->first[p]; i < self->first[p + 1]; i++)
    {
      const char *number = hw_project_get_step (self->joined->project, i)->number;

      if (!is_done (self, i) && !is_waited_for (self, p, number))
        g_ptr_array_add (ends, (gpointer) number);
    }
  return ends;
}

static void
add_after (HwStep *step, const GPtrArray *ends)
{
  g_autoptr (GPtrArray) after = g_ptr_array_new ();

  for (char **number = step->after; *number != NULL; number++)
    g_ptr_array_add (after, *number);
  for (guint i = 0; i < ends->len; i++)
    g_ptr_array_add (after, g_strdup (g_ptr_array_index (ends, i)));
  g_ptr_array_add (after, NULL);
  g_free (step->after);
  step->after = (char **) g_ptr_array_free (g_steal_pointer (&after), FALSE);
}

/* All of @later waits until @earlier is finished. */
static void
put_behind (Joining *self, guint later, const GPtrArray *ends)
{
  for (gsize i = self->first[later]; i < self->first[later + 1]; i++)
    if (!is_done (self, i))
      add_after (g_ptr_array_index (self->joined->project->steps, i), ends);
}

/* One end of @later waits: it cannot be finished before, whatever comes in between. */
static void
finish_behind (Joining *self, guint later, const GPtrArray *ends, const GPtrArray *later_ends)
{
  const char *last = later_ends->len > 0 ? g_ptr_array_index (later_ends, later_ends->len - 1) : NULL;

  for (gsize i = self->first[later]; last != NULL && i < self->first[later + 1]; i++)
    if (g_str_equal (hw_project_get_step (self->joined->project, i)->number, last))
      add_after (g_ptr_array_index (self->joined->project->steps, i), ends);
}

/* A project that others wait for parts the queue: no due date draws an arrow back across it. */
static gboolean
is_parted (const Joining *self, guint a, guint b)
{
  for (guint p = MIN (a, b); p < MAX (a, b); p++)
    if (self->wait[p])
      return TRUE;
  return FALSE;
}

static void
draw_waits (Joining *self)
{
  g_autoptr (GPtrArray) ends = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);

  for (guint p = 0; p < self->projects->len; p++)
    g_ptr_array_add (ends, list_ends (self, p));
  for (guint p = 0; p < self->projects->len; p++)
    for (guint q = 0; q < self->projects->len; q++)
      {
        const char *due = ((const HwProject *) g_ptr_array_index (self->projects, p))->due;
        const char *later = ((const HwProject *) g_ptr_array_index (self->projects, q))->due;

        if (self->wait[p] && p < q)
          put_behind (self, q, g_ptr_array_index (ends, p));
        else if (p != q && !is_parted (self, p, q) && due != NULL && later != NULL && strcmp (due, later) < 0)
          finish_behind (self, q, g_ptr_array_index (ends, p), g_ptr_array_index (ends, q));
      }
}

/* ---- the whole ---- */

static gsize
count_steps (const GPtrArray *projects)
{
  gsize n = 0;

  for (guint p = 0; p < projects->len; p++)
    n += ((const HwProject *) g_ptr_array_index (projects, p))->steps->len;
  return n;
}

HwJoined *
hw_joined_new (const HwHandbook *handbook, const GPtrArray *projects, const HwRoom *room, const gboolean *wait)
{
  HwJoined *joined = g_new0 (HwJoined, 1);
  gsize n = count_steps (projects);
  g_autofree gsize *first = g_new0 (gsize, projects->len + 1);
  Joining self = { handbook, projects, room, wait, joined, first };

  joined->project = hw_project_new (JOINED_ID, JOINED_ID);
  g_ptr_array_set_size (joined->project->threads, 0);
  joined->views = g_new0 (HwProject *, n + 1);
  joined->owner = g_new0 (int, n + 1);
  joined->step = g_new0 (gsize, n + 1);
  for (guint p = 0; p < projects->len; p++)
    join_project (&self, p);
  draw_waits (&self);
  return joined;
}

void
hw_joined_free (HwJoined *self)
{
  if (self == NULL)
    return;
  for (HwProject **view = self->views; *view != NULL; view++)
    hw_project_unref (*view);
  hw_project_unref (self->project);
  g_free (self->views);
  g_free (self->owner);
  g_free (self->step);
  g_free (self);
}

static int
find_project (const GPtrArray *projects, const char *id)
{
  for (guint p = 0; id != NULL && p < projects->len; p++)
    if (strcmp (((const HwProject *) g_ptr_array_index (projects, p))->id, id) == 0)
      return (int) p;
  return -1;
}

/* (transfer full) */
static HwJournalEntry *
rename_entry (const HwJournalEntry *entry, guint project)
{
  HwJournalEntry *renamed = hw_journal_entry_copy (entry);

  g_free (renamed->project);
  renamed->project = g_strdup (JOINED_ID);
  renumber (&renamed->step, project);
  return renamed;
}

HwRoom *
hw_joined_room (const HwJoined *self, const GPtrArray *projects, const HwRoom *room)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_journal_entry_free);

  g_return_val_if_fail (self != NULL, NULL);

  for (guint i = 0; i < room->entries->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (room->entries, i);
      int project = find_project (projects, entry->project);

      g_ptr_array_add (entries, project >= 0 ? rename_entry (entry, (guint) project) : hw_journal_entry_ref (entry));
    }
  return hw_room_imagine (room, entries);
}
