/* words-care.c - care that falls due: what, how far the clock has run, and when
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define MOST_WEEKS 8                     /* told as weeks; beyond, months are clearer */
#define WEEK_IN_MONTHS (7 / 30.4375)

char *
hw_words_care_task (const HwHandbook *handbook, int care)
{
  if (care == HW_CARE_NEEDLE)
    return g_strdup (_("Change the needle"));
  return g_strdup (handbook->care[care].entry.name);
}

static HwClock
clock_of (const HwHandbook *handbook, const HwCareDue *due)
{
  if (due->by_months)
    return HW_CLOCK_MONTHS;
  return due->care == HW_CARE_NEEDLE ? HW_CLOCK_AT_MACHINE : handbook->care[due->care].clock;
}

char *
hw_words_care_clock (const HwHandbook *handbook, const HwCareDue *due)
{
  g_autofree char *clock = hw_words_number (due->clock, 1);
  g_autofree char *limit = hw_words_number (due->limit, 1);
  gulong whole = (gulong) lround (due->limit);

  switch (clock_of (handbook, due))
    {
    case HW_CLOCK_MONTHS:
      /* Translators: months since the care was done, months after which it is due */
      return g_strdup_printf (ngettext ("%s of %s month", "%s of %s months", whole), clock, limit);
    case HW_CLOCK_SEWING_DAY:
      /* Translators: days on which was sewn since the care was done, days after which it is due */
      return g_strdup_printf (ngettext ("%s of %s sewing day", "%s of %s sewing days", whole), clock, limit);
    case HW_CLOCK_RUNNING:
      /* Translators: hours since the care was done, hours after which it is due; those in which the needle moves */
      return g_strdup_printf (_("%s of %s h of the needle moving"), clock, limit);
    case HW_CLOCK_AT_MACHINE:
    default:
      /* Translators: hours since the care was done, hours after which it is due */
      return g_strdup_printf (_("%s of %s h"), clock, limit);
    }
}

/* @step: own number; NULL: whichever comes first. */
static char *
say_before (const HwQueue *queue, const HwCareDue *due)
{
  const HwProject *project = g_ptr_array_index (queue->projects, (guint) due->project);

  /* Translators: the number of a step, a project's title */
  return g_strdup_printf (_("before step %s of %s"), due->step, project->title);
}

/* Its hours stop there, and may be sewn later: no date can be told. */
static char *
say_out (const HwQueue *queue, const HwCareDue *due)
{
  const HwProject *project = g_ptr_array_index (queue->projects, (guint) due->out_project);

  /* Translators: of the needle that is in the machine; the number of a step, a project's title */
  return g_strdup_printf (_("no date: changed before, for step %s of %s"), due->out_step, project->title);
}

char *
hw_words_care_when (const HwQueue *queue, const HwCareDue *due)
{
  g_autofree char *before = due->project >= 0 ? say_before (queue, due) : NULL;

  if (due->overdue && before != NULL)
    /* Translators: before which step */
    return g_strdup_printf (_("due now, %s"), before);
  if (due->overdue)
    return g_strdup (_("due now"));
  if (before != NULL)
    return g_steal_pointer (&before);
  if (due->about != NULL)
    return hw_words_care_about (due);
  if (due->out_step != NULL)
    return say_out (queue, due);
  return due->date != NULL ? g_strdup (_("by the calendar")) : g_strdup (_("no date in sight"));
}

char *
hw_words_care_about (const HwCareDue *due)
{
  gulong weeks = (gulong) lround (due->about_weeks);
  gulong months = (gulong) lround (due->about_weeks * WEEK_IN_MONTHS);

  if (weeks < 1)
    return g_strdup (_("in a few days"));
  if (weeks <= MOST_WEEKS)
    return g_strdup_printf (ngettext ("in about %lu week", "in about %lu weeks", weeks), weeks);
  return g_strdup_printf (ngettext ("in about %lu month", "in about %lu months", months), months);
}

char *
hw_words_care_dates (const char *week)
{
  /* Translators: hours; which of them a date counts with */
  return g_strdup_printf (_("The dates suppose %s of sewing a week: your planned projects first, then this machine "
                            "alone."), week);
}

char *
hw_words_care_without (const HwMachine *machine, const HwCareTask *task)
{
  if (!(task->machines & (1u << machine->kind)) || !(task->limit > 0) || hw_care_limit (machine, task) > 0
      || g_str_equal (task->entry.id, HW_NEEDLE_TASK))
    return NULL;
  if (hw_room_care_limit (machine, task) > 0)
    return g_strdup (_("only as its manual says; no interval set"));
  return g_strdup (_("never, as set for this machine"));
}

char *
hw_words_care_title (const HwHandbook *handbook, const HwCareDue *due)
{
  g_autofree char *task = hw_words_care_task (handbook, due->care);

  /* Translators: a machine's name, a care task such as “Dust under the needle plate” */
  return g_strdup_printf (_("%s: %s"), due->machine->name, task);
}

char *
hw_words_care_notice (const HwHandbook *handbook, const HwCareDue *due)
{
  g_autofree char *clock = hw_words_care_clock (handbook, due);

  /* Translators: how far the clock has run, such as “15.2 of 15 h” */
  return g_strdup_printf (_("Due now: %s. Switch off and unplug first; the machine’s own manual comes before all."),
                          clock);
}
