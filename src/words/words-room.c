/* words-room.c - the sewing room in words: journal entries, needles, thread and fabrics on hand
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-room.h"

#include <glib/gi18n.h>
#include <string.h>

#include "model/test-seams.h"
#include "plan/closing.h"
#include "plan/faults.h"
#include "words/words.h"

static const char * const kind_names[HW_N_ENTRY_KINDS] = {
  [HW_ENTRY_SEWING] = N_("Sewing"),
  [HW_ENTRY_LOAD] = N_("Set up"),
  [HW_ENTRY_CARE] = N_("Care"),
  [HW_ENTRY_TEST_SEAM] = N_("Test seam"),
  [HW_ENTRY_FAULT] = N_("Stitch fault"),
  [HW_ENTRY_CANCEL] = N_("Taken back"),
  [HW_ENTRY_NEEDLE] = N_("Needle"),
};

const char *
hw_words_entry_kind (HwEntryKind kind)
{
  return _(kind_names[kind]);
}

const char *
hw_words_entry_work (const HwJournalEntry *entry,
                     const HwStep         *step)
{
  if (entry->kind != HW_ENTRY_SEWING || strcmp (entry->machine, HW_HAND) != 0)
    return hw_words_entry_kind (entry->kind);
  if (step != NULL && step->kind == HW_STEP_HAND && step->hand == HW_HAND_PRESS)
    return _("Pressing");
  return _("By hand");
}

/* @name: NULL: not known */
static char *
say_step (const HwJournalEntry *entry,
          const char           *name)
{
  g_autofree char *minutes = hw_words_minutes (entry->minutes);
  g_autofree char *planned = entry->planned > 0 ? hw_words_minutes (entry->planned) : NULL;
  /* Translators: a step's number and name */
  g_autofree char *step = name != NULL ? g_strdup_printf (_("%s %s"), entry->step, name) : g_strdup (entry->step);

  if (planned == NULL)
    /* Translators: a step's number, the time it took */
    return g_strdup_printf (_("step %s, %s"), step, minutes);
  /* Translators: a step's number, the time it took, the time planned for it */
  return g_strdup_printf (_("step %s, %s (planned %s)"), step, minutes, planned);
}

static char *
say_sewing (const HwJournalEntry *entry,
            const char           *project,
            const char           *name)
{
  g_autofree char *step = NULL;

  if (entry->step == NULL)
    return hw_words_minutes (entry->minutes);
  step = say_step (entry, name);
  if (project == NULL)
    return g_steal_pointer (&step);
  /* Translators: a project's title, what was sewn of it */
  return g_strdup_printf (_("%s: %s"), project, step);
}

static char *
say_point (const HwHandbook *handbook,
           const char       *point,
           int               nm,
           double            twin_mm)
{
  int index = point != NULL ? hw_handbook_find_point (handbook, point) : -1;

  return index >= 0 ? hw_words_needle (handbook, index, nm, twin_mm) : hw_words_size (nm, twin_mm);
}

char *
hw_words_thread_label (const HwHandbook *handbook, const char *label)
{
  const char *size = strstr (label, " tex ");
  g_autofree char *id = size != NULL ? g_strndup (label, (gsize) (size - label)) : NULL;
  int thread = id != NULL ? hw_handbook_find_thread (handbook, id) : -1;
  HwThreadChoice choice = { .thread = NULL };

  if (thread < 0)
    return g_strdup (label);
  choice.entry = &handbook->threads[thread];
  choice.tex = g_ascii_strtod (size + strlen (" tex "), NULL);
  return hw_words_thread (&choice);
}

static char *
say_load (const HwHandbook     *handbook,
          const HwRoom         *room,
          const HwJournalEntry *entry)
{
  const HwNeedle *known = hw_room_find_needle (room, entry->needle);
  g_autofree char *needle = NULL;
  g_autofree char *thread = NULL;

  if (entry->nm > 0)
    needle = say_point (handbook, entry->point, entry->nm, entry->twin_mm);
  else if (known != NULL)
    needle = say_point (handbook, known->point, known->nm, known->twin_mm);
  else
    needle = g_strdup (_("the same needle"));
  if (entry->needle_thread == NULL)
    return g_steal_pointer (&needle);
  thread = hw_words_thread_label (handbook, entry->needle_thread);
  /* Translators: a needle, a thread */
  return g_strdup_printf (_("%s, %s"), needle, thread);
}

static char *
say_worn (const char *needle,
          double      hours)
{
  g_autofree char *worn = hw_words_hours (hours);

  /* Translators: a needle, hours that it has been sewn with */
  return g_strdup_printf (_("%s, worn for %s, put into the case"), needle, worn);
}

static char *
say_needle (const HwHandbook     *handbook,
            const HwRoom         *room,
            const HwJournalEntry *entry)
{
  const HwNeedle *known = hw_room_find_needle (room, entry->needle);
  g_autofree char *needle = known != NULL ? say_point (handbook, known->point, known->nm, known->twin_mm)
                                          : g_strdup (_("a needle"));

  if (strcmp (entry->verdict, "discarded") == 0)
    /* Translators: a needle */
    return g_strdup_printf (_("%s thrown away"), needle);
  if (strcmp (entry->verdict, "in") == 0)
    return say_worn (needle, entry->hours);
  if (entry->place != NULL)
    /* Translators: a needle, the label of its place in the case */
    return g_strdup_printf (_("%s put in its place, “%s”"), needle, entry->place);
  /* Translators: a needle */
  return g_strdup_printf (_("%s taken out"), needle);
}

static char *
say_care (const HwHandbook     *handbook,
          const HwJournalEntry *entry)
{
  int index = hw_handbook_find_care (handbook, entry->task);

  if (index >= 0)
    return g_strdup (handbook->care[index].entry.name);
  return g_strdup (strcmp (entry->task, HW_CLOSING_TASK) == 0 ? _("Closed for the day") : entry->task);
}

/* A verdict that is not known, of a file written by hand, is shown as it stands. */
static char *
say_test_seam (const HwJournalEntry *entry)
{
  g_autofree char *dial = hw_words_half (entry->dial);
  HwTestSeam       seam;
  g_autofree char *look = hw_test_seam_read (entry, &seam) ? hw_words_look (seam.verdict, &seam.facts)
                                                          : g_strdup (entry->verdict);

  if (entry->cloth == NULL)
    /* Translators: the number on the tension dial, what was seen */
    return g_strdup_printf (_("dial %s: %s"), dial, look);
  /* Translators: the cloth, the number on the tension dial, what was seen */
  return g_strdup_printf (_("%s, dial %s: %s"), entry->cloth, dial, look);
}

static char *
say_fault (const HwHandbook     *handbook,
           const HwJournalEntry *entry)
{
  int             index = entry->fault != NULL ? hw_handbook_find_fault (handbook, entry->fault) : -1;
  const HwFault  *fault = index >= 0 ? &handbook->faults[index] : NULL;
  const HwCause  *cause = fault != NULL && entry->cause != NULL ? hw_fault_find_cause (fault, entry->cause) : NULL;
  const char     *name = fault != NULL ? fault->entry.name : entry->fault != NULL ? entry->fault : _("Stitch fault");

  if (strcmp (entry->verdict, "found") != 0)
    /* Translators: a stitch fault */
    return g_strdup_printf (_("%s: cause not found"), name);
  if (cause == NULL)
    /* Translators: a stitch fault */
    return g_strdup_printf (_("%s: cause found"), name);
  /* Translators: a stitch fault, its cause */
  return g_strdup_printf (_("%s: %s"), name, cause->name);
}

char *
hw_words_entry (const HwHandbook     *handbook,
                const HwRoom         *room,
                const HwJournalEntry *entry,
                const char           *project)
{
  return hw_words_entry_named (handbook, room, entry, project, NULL);
}

char *
hw_words_entry_named (const HwHandbook     *handbook,
                      const HwRoom         *room,
                      const HwJournalEntry *entry,
                      const char           *project,
                      const char           *step)
{
  switch (entry->kind)
    {
    case HW_ENTRY_SEWING:
      return say_sewing (entry, project, step);
    case HW_ENTRY_LOAD:
      return say_load (handbook, room, entry);
    case HW_ENTRY_CARE:
      return say_care (handbook, entry);
    case HW_ENTRY_TEST_SEAM:
      return say_test_seam (entry);
    case HW_ENTRY_NEEDLE:
      return say_needle (handbook, room, entry);
    case HW_ENTRY_FAULT:
      return say_fault (handbook, entry);
    case HW_ENTRY_CANCEL:
    case HW_N_ENTRY_KINDS:
    default:
      /* Translators: a journal entry that cancels another one */
      return g_strdup (_("an earlier entry taken back"));
    }
}

char *
hw_words_needle_loaded (const HwHandbook     *handbook,
                        const HwJournalEntry *load)
{
  return say_point (handbook, load->point, load->nm, load->twin_mm);
}

/* The needle that something was sewn with; NULL: the entry does not say. */
static char *
say_sewn_with (const HwHandbook     *handbook,
               const HwRoom         *room,
               const HwJournalEntry *entry)
{
  const HwNeedle *known = hw_room_find_needle (room, entry->needle);

  if (entry->kind != HW_ENTRY_SEWING)
    return NULL;
  if (entry->nm > 0)
    return say_point (handbook, entry->point, entry->nm, entry->twin_mm);
  return known != NULL ? say_point (handbook, known->point, known->nm, known->twin_mm) : NULL;
}

char *
hw_words_entry_machine (const HwHandbook     *handbook,
                        const HwRoom         *room,
                        const HwJournalEntry *entry)
{
  const HwMachine *machine = hw_room_find_machine (room, entry->machine);
  const char      *name = machine != NULL ? machine->name : entry->machine;
  g_autofree char *needle = NULL;

  if (strcmp (entry->machine, HW_HAND) == 0)
    return g_strdup ("");
  needle = say_sewn_with (handbook, room, entry);
  /* Translators: a machine, the needle in it */
  return needle != NULL ? g_strdup_printf (C_("sewn with", "%s, %s"), name, needle) : g_strdup (name);
}

char *
hw_words_needle_of (const HwHandbook *handbook,
                    const HwNeedle   *needle)
{
  return say_point (handbook, needle->point, needle->nm, needle->twin_mm);
}

char *
hw_words_packet (const HwHandbook *handbook,
                 const HwPacket   *packet)
{
  g_return_val_if_fail (handbook != NULL && packet != NULL, NULL);

  return say_point (handbook, packet->point, packet->nm, packet->twin_mm);
}

char *
hw_words_needle_place (const HwRoom   *room,
                       const HwNeedle *needle)
{
  const HwMachine *machine = needle->machine != NULL ? hw_room_find_machine (room, needle->machine) : NULL;

  if (machine != NULL)
    /* Translators: the name of a machine that a needle sits in */
    return g_strdup_printf (_("in: %s"), machine->name);
  if (needle->place != NULL)
    /* Translators: the label of a needle's place in the case */
    return g_strdup_printf (_("in the case, “%s”"), needle->place);
  return g_strdup (_("in the case"));
}

char *
hw_words_spool (const HwHandbook *handbook,
                const HwSpool    *spool)
{
  int index = hw_handbook_find_thread (handbook, spool->handbook);
  double tex = spool->tex > 0 || index < 0 ? spool->tex : handbook->threads[index].tex;
  g_autofree char *number = hw_words_number (tex, 1);
  const char *kind = index >= 0 ? handbook->threads[index].entry.name : spool->handbook;

  /* Translators: a thread's colour, its kind in the handbook, its size in tex */
  return g_strdup_printf (_("%s, %s, tex %s"), spool->colour, kind, number);
}

char *
hw_words_snap (HwSnap snap)
{
  switch (snap)
    {
    case HW_SNAP_GOOD:
      return g_strdup (_("snaps well"));
    case HW_SNAP_WEAK:
      return g_strdup (_("weak: for tacking only"));
    case HW_SNAP_UNTESTED:
    default:
      return g_strdup (_("not tested yet"));
    }
}

static void
add_figure (GString    *words,
            double      value,
            int         decimals,
            const char *unit)
{
  g_autofree char *number = hw_words_number (value, decimals);

  if (value <= 0)
    return;
  if (words->len > 0)
    g_string_append (words, C_("list", ", "));
  g_string_append_printf (words, "%s %s", number, unit);
}

char *
hw_words_shelf_cloth (const HwHandbook   *handbook,
                      const HwShelfCloth *cloth)
{
  int index = cloth->handbook != NULL ? hw_handbook_find_fabric (handbook, cloth->handbook) : -1;
  const HwFabric *typical = index >= 0 ? &handbook->fabrics[index] : NULL;
  GString *words = g_string_new (NULL);

  add_figure (words, cloth->mass_g_m2 > 0 || typical == NULL ? cloth->mass_g_m2 : typical->mass_g_m2.prefer, 0, "g/m²");
  add_figure (words, cloth->thickness_mm > 0 || typical == NULL ? cloth->thickness_mm : typical->thickness_mm.prefer, 2,
              "mm");
  add_figure (words, cloth->stretch_percent >= 0 || typical == NULL ? cloth->stretch_percent : typical->stretch_percent,
              /* xgettext:no-c-format */
              0, _("% stretch"));
  return g_string_free (words, FALSE);
}

char *
hw_words_clock_behind (const char *later)
{
  g_autofree char *date = hw_words_date (later);

  /* Translators: a date */
  return g_strdup_printf (_("The computer’s clock stands before the journal’s last entry, of %s: set it right. "
                            "This was noted after that entry."), date);
}
