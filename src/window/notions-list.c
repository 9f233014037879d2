/* notions-list.c - what to have ready as lines: for the page and the clipboard
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/notions-list.h"

#include <glib/gi18n.h>
#include <math.h>

#include "plan/stock.h"
#include "words/words-room.h"
#include "words/words.h"

#define SPOOL_M 100.0            /* what a small spool of sewing thread holds: common practice, no source */
#define ZIP_TAPE "zip-tape"      /* what is sewn of a zip, which is bought whole */

static void
free_line (gpointer data)
{
  HwNotionsLine *line = data;

  g_free (line->what);
  g_free (line->remark);
  g_free (line->amount);
  g_free (line);
}

/* Takes over the texts. */
static void
add (GPtrArray     *lines,
     HwNotionsKind  kind,
     char          *what,
     char          *remark,
     char          *amount)
{
  HwNotionsLine *line = g_new0 (HwNotionsLine, 1);

  *line = (HwNotionsLine) { kind, what, remark, amount };
  g_ptr_array_add (lines, line);
}

/* ---- thread ---- */

static char *
say_bobbins (const HwNotion *notion)
{
  g_autofree char *need = hw_words_metres (notion->bobbin_m);
  g_autofree char *capacity = hw_words_metres (notion->bobbin_capacity_m);

  if (notion->bobbins == 0)
    return NULL;
  /* Translators: number of bobbins, metres on them, metres one holds */
  return g_strdup_printf (ngettext ("%d bobbin to wind: %s needed, one holds about %s",
                                    "%d bobbins to wind: %s needed, one holds about %s", (gulong) notion->bobbins),
                          notion->bobbins, need, capacity);
}

static char *
say_on_hand (const HwPlan   *plan,
             const HwNotion *notion)
{
  double           metres = 0;
  gboolean         known = hw_stock_thread (plan->handbook, plan->room, notion, &metres);
  g_autofree char *left = hw_words_metres (metres);

  /* Translators: metres */
  return known ? g_strdup_printf (_("on hand: %s"), left) : g_strdup (_("not among the thread on hand"));
}

/* Spools for what needle and bobbin of a lockstitch machine take; NULL none. */
static char *
say_spools (const HwNotion *notion)
{
  int spools = (int) ceil ((notion->needle_m - notion->cone_m + notion->bobbin_m) / SPOOL_M);
  g_autofree char *length = hw_words_metres (SPOOL_M);

  if (spools <= 0)
    return NULL;
  /* Translators: spools of thread, metres on one */
  return g_strdup_printf (ngettext ("%d spool of %s", "%d spools of %s", (gulong) spools), spools, length);
}

/* What an overlocker takes, off several at once; NULL none. */
static char *
say_cones (const HwNotion *notion)
{
  g_autofree char *length = hw_words_metres (notion->cone_m);

  if (notion->cones == 0)
    return NULL;
  /* Translators: cones (or spools) that feed an overlocker at the same time, metres off all of them */
  return g_strdup_printf (ngettext ("%d cone for the overlocker: %s", "%d cones at once for the overlocker: %s in all",
                                    (gulong) notion->cones), notion->cones, length);
}

static void
add_part (GPtrArray *parts,
          char      *part)
{
  if (part != NULL)
    g_ptr_array_add (parts, part);
}

static char *
say_remark (const HwPlan   *plan,
            const HwNotion *notion)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);

  add_part (parts, say_spools (notion));
  add_part (parts, say_bobbins (notion));
  add_part (parts, say_cones (notion));
  add_part (parts, say_on_hand (plan, notion));
  g_ptr_array_add (parts, NULL);
  return g_strjoinv (C_("list of choices", "; "), (char **) parts->pdata);
}

static char *
say_kind (const HwNotion *notion)
{
  HwThreadChoice thread = { notion->thread, notion->entry, notion->tex, 0 };

  return hw_words_thread (&thread);
}

/* Where two lines would have the same name, what the thread is wound on tells them apart. */
static char *
say_thread (const HwPlan *plan,
            guint         index)
{
  const HwNotion  *notion = g_ptr_array_index (plan->notions, index);
  g_autofree char *name = say_kind (notion);
  gboolean         twice = FALSE;

  for (guint i = 0; i < plan->notions->len && !twice; i++)
    {
      g_autofree char *other = i != index ? say_kind (g_ptr_array_index (plan->notions, i)) : NULL;

      twice = g_strcmp0 (other, name) == 0;
    }
  if (!twice)
    return g_steal_pointer (&name);
  /* Translators: a thread */
  return notion->cones > 0 ? g_strdup_printf (_("%s, on cones"), name) : g_strdup_printf (_("%s, on spools"), name);
}

/* Not among the thread on hand, or too little of it. */
static gboolean
is_to_buy (const HwPlan   *plan,
           const HwNotion *notion)
{
  double metres = 0;

  return !hw_stock_thread (plan->handbook, plan->room, notion, &metres)
         || metres < notion->needle_m + notion->bobbin_m;
}

/* Those to be bought, or those at hand; how many. */
static guint
add_threads (GPtrArray    *lines,
             const HwPlan *plan,
             gboolean      to_buy)
{
  guint before = lines->len;

  for (guint i = 0; i < plan->notions->len; i++)
    {
      const HwNotion *notion = g_ptr_array_index (plan->notions, i);

      if (is_to_buy (plan, notion) == to_buy)
        add (lines, HW_NOTIONS_LINE, say_thread (plan, i), say_remark (plan, notion),
             hw_words_metres (notion->needle_m + notion->bobbin_m));
    }
  return lines->len - before;
}

static void
add_thread_note (GPtrArray *lines)
{
  add (lines, HW_NOTIONS_NOTE,
       /* xgettext:no-c-format */
       g_strdup (_("Computed from seam lengths, stitch and layers, with tails and 5 % for sewing again. An estimate: "
                   "wind one bobbin more for a long row. What a spool holds is common practice; look at its label.")),
       NULL, NULL);
}

static void
add_threads_at_hand (GPtrArray    *lines,
                     const HwPlan *plan)
{
  guint heading = lines->len;

  add (lines, HW_NOTIONS_HEADING, g_strdup (_("Thread at hand")), NULL, NULL);
  if (add_threads (lines, plan, FALSE) > 0)
    add_thread_note (lines);
  else
    g_ptr_array_remove_index (lines, heading);
}

/* ---- cloth and fastenings ---- */

static void
add_cloth (GPtrArray    *lines,
           const HwPlan *plan)
{
  const GPtrArray *fabrics = plan->project->fabrics;
  int              zips = hw_words_count_zips (plan->project);

  add (lines, HW_NOTIONS_HEADING, g_strdup (_("Cloth and fastenings")), NULL, NULL);
  for (guint i = 0; i < fabrics->len; i++)
    {
      const HwProjectFabric *fabric = g_ptr_array_index (fabrics, i);

      if (zips == 0 || g_strcmp0 (fabric->handbook, ZIP_TAPE) != 0)
        add (lines, HW_NOTIONS_LINE, g_strdup (fabric->name), NULL, NULL);
    }
  if (plan->buttonholes > 0)
    add (lines, HW_NOTIONS_LINE, g_strdup (_("Buttons")),
         g_strdup (_("one for each buttonhole, unless a tie or cord goes through it")),
         g_strdup_printf ("%d", plan->buttonholes));
  if (zips > 0)
    add (lines, HW_NOTIONS_LINE, g_strdup (ngettext ("Zip", "Zips", (gulong) zips)), NULL,
         g_strdup_printf ("%d", zips));
  add (lines, HW_NOTIONS_NOTE, g_strdup (_("How much cloth, and which lengths and sizes: as the pattern says.")), NULL,
       NULL);
}

/* ---- needles and time ---- */

static char *
say_place (const HwPlan       *plan,
           const HwNeedlePick *pick)
{
  const HwMachine *machine = pick->worn != NULL && pick->worn->machine != NULL
                             ? hw_room_find_machine (plan->room, pick->worn->machine) : NULL;

  if (pick->buy)
    return g_strdup (_("to buy"));
  if (machine == NULL)
    return g_strdup (_("in the case"));
  /* Translators: a machine's name: the needle sits in it now */
  return g_strdup_printf (_("in the machine: %s"), machine->name);
}

/* That it is to be bought stands at the end of its line. */
static char *
say_pick (const HwPlan       *plan,
          const HwNeedlePick *pick)
{
  return pick->buy ? hw_words_needle (plan->handbook, pick->point, pick->size_nm, pick->twin_mm)
                   : hw_words_pick (plan, pick);
}

static const HwMachine *
peek_machine (const HwPlan       *plan,
              const HwNeedlePick *pick)
{
  const HwGroup *group = hw_plan_get_group (plan, pick->group);

  return group != NULL ? group->machine : NULL;
}

/* Of the same kind, for the same machine. */
static gboolean
is_alike (const HwPlan       *plan,
          const HwNeedlePick *a,
          const HwNeedlePick *b)
{
  return a->point == b->point && a->size_nm == b->size_nm && fabs (a->twin_mm - b->twin_mm) < 1e-9
         && peek_machine (plan, a) == peek_machine (plan, b);
}

/* Needles that are one line: of the same kind, for the same machine, from the same place. One that comes back stands
 * with its first time. */
static gboolean
is_one_line (const HwPlan       *plan,
             const HwNeedlePick *a,
             const HwNeedlePick *b)
{
  while (a->again >= 0)
    a = g_ptr_array_index (plan->needles, (guint) a->again);
  while (b->again >= 0)
    b = g_ptr_array_index (plan->needles, (guint) b->again);
  return a == b || (a->worn == NULL && b->worn == NULL && a->buy == b->buy && is_alike (plan, a, b));
}

/* The letters of the set-ups that @pick's line is loaded for, and how many needles they take; NULL: it stands in the
 * line of an earlier one. (transfer full) */
static GPtrArray *
list_letters (const HwPlan       *plan,
              const HwNeedlePick *pick,
              guint              *n_needles)
{
  g_autoptr (GPtrArray) letters = g_ptr_array_new_with_free_func (g_free);
  gboolean              before = TRUE;

  *n_needles = 0;
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *other = g_ptr_array_index (plan->needles, i);
      const HwGroup      *group = hw_plan_get_group (plan, other->group);

      before = before && other != pick;
      if (!is_one_line (plan, other, pick))
        continue;
      if (before)
        return NULL;
      *n_needles += other->again < 0 ? 1 : 0;
      if (group != NULL && !g_ptr_array_find_with_equal_func (letters, group->letter, g_str_equal, NULL))
        g_ptr_array_add (letters, g_strdup (group->letter));
    }
  return g_steal_pointer (&letters);
}

static char *
say_where (const HwMachine *machine,
           GPtrArray       *letters)
{
  g_autofree char *list = NULL;

  if (letters->len == 1)
    /* Translators: set-up's letter, machine's name */
    return g_strdup_printf (_("set-up %s, %s"), (char *) letters->pdata[0], machine->name);
  list = hw_words_list (g_ptr_array_ref (letters));
  /* Translators: set-ups' letters as a list, machine's name */
  return g_strdup_printf (_("set-ups %s; %s"), list, machine->name);
}

/* (transfer full), NULL by hand */
static char *
say_use (const HwPlan       *plan,
         const HwNeedlePick *pick,
         GPtrArray          *letters)
{
  const HwMachine *machine = peek_machine (plan, pick);
  g_autofree char *others = hw_words_pick_others (plan, pick);
  g_autofree char *where = NULL;

  if (machine == NULL)
    return g_steal_pointer (&others);
  where = say_where (machine, letters);
  /* Translators: where a needle is loaded, and what may be bought in its stead */
  return others != NULL ? g_strdup_printf (_("%s; %s"), where, others) : g_steal_pointer (&where);
}

static char *
say_amount (const HwPlan       *plan,
            const HwNeedlePick *pick,
            guint               n_needles)
{
  g_autofree char *place = say_place (plan, pick);

  /* Translators: how many needles; where they are */
  return n_needles > 1 ? g_strdup_printf (_("%u, %s"), n_needles, place) : g_steal_pointer (&place);
}

/* The set-up that is sewn first with what is in @machine; NULL: a needle is loaded before, or nothing is left. */
static const HwGroup *
find_first_kept (const HwPlan    *plan,
                 const HwMachine *machine)
{
  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = &g_array_index (plan->order, HwPlanStep, i);
      const HwGroup    *group = hw_plan_get_group (plan, step->group);

      if (step->done || group == NULL || group->machine != machine)
        continue;
      for (guint n = 0; n < plan->needles->len; n++)
        if (((const HwNeedlePick *) g_ptr_array_index (plan->needles, n))->before == (int) i)
          return NULL;
      return group;
    }
  return NULL;
}

static void
add_needles_there (GPtrArray    *lines,
                   const HwPlan *plan)
{
  for (guint i = 0; i < plan->hours->len; i++)
    {
      const HwMachine *machine = g_array_index (plan->hours, HwMachineHours, i).machine;
      const HwNeedle  *needle = hw_room_get_state (plan->room, machine)->needle;
      const HwGroup   *group = needle != NULL ? find_first_kept (plan, machine) : NULL;

      if (group != NULL)
        /* Translators: set-up's letter, machine's name */
        add (lines, HW_NOTIONS_NEEDLE, hw_words_needle_of (plan->handbook, needle),
             g_strdup_printf (_("set-up %s, %s"), group->letter, machine->name), g_strdup (_("in the machine")));
    }
}

static void
add_needles (GPtrArray    *lines,
             const HwPlan *plan)
{
  guint heading = lines->len;

  add (lines, HW_NOTIONS_HEADING, g_strdup (_("Needles, in the order they are loaded")), NULL, NULL);
  add_needles_there (lines, plan);
  if (lines->len == heading + 1 && plan->needles->len == 0)
    g_ptr_array_remove_index (lines, heading);
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick   *pick = g_ptr_array_index (plan->needles, i);
      guint                 n_needles;
      g_autoptr (GPtrArray) letters = list_letters (plan, pick, &n_needles);

      if (letters != NULL)
        add (lines, pick->buy ? HW_NOTIONS_NEEDLE_TO_BUY : HW_NOTIONS_NEEDLE, say_pick (plan, pick),
             say_use (plan, pick, letters), say_amount (plan, pick, n_needles));
    }
}

static void
add_time (GPtrArray    *lines,
          const HwPlan *plan)
{
  g_autofree char *left = hw_words_minutes (plan->minutes_left);

  add (lines, HW_NOTIONS_HEADING, g_strdup (_("Time")), NULL, NULL);
  for (guint i = 0; i < plan->hours->len; i++)
    {
      const HwMachineHours *hours = &g_array_index (plan->hours, HwMachineHours, i);
      g_autofree char      *running = hw_words_minutes (hours->running_hours * 60);

      /* Translators: minutes */
      add (lines, HW_NOTIONS_LINE, g_strdup (hours->machine->name),
           g_strdup_printf (_("the needle moves for %s of it"), running),
           hw_words_minutes (hours->at_machine_hours * 60));
    }
  if (plan->hand_minutes > 0)
    add (lines, HW_NOTIONS_LINE, g_strdup (_("By hand")), NULL, hw_words_minutes (plan->hand_minutes));
  /* Translators: minutes */
  add (lines, HW_NOTIONS_LINE, g_strdup (_("In all")), g_strdup_printf (_("%s of it still to do"), left),
       hw_words_minutes (plan->minutes_total));
}

/* ---- to buy ---- */

static gboolean
is_same (const HwPlan       *plan,
         const HwNeedlePick *a,
         const HwNeedlePick *b)
{
  return a->buy && b->buy && is_alike (plan, a, b);
}

/* Once each, however often it is loaded; how many of them. */
static guint
count_same (const HwPlan       *plan,
            const HwNeedlePick *pick,
            guint               index,
            gboolean           *first)
{
  guint n = 0;

  *first = TRUE;
  for (guint i = 0; i < plan->needles->len; i++)
    {
      if (!is_same (plan, g_ptr_array_index (plan->needles, i), pick))
        continue;
      *first = *first && i >= index;
      n += ((const HwNeedlePick *) g_ptr_array_index (plan->needles, i))->again < 0 ? 1 : 0;
    }
  return n;
}

static void
add_needles_to_buy (GPtrArray    *lines,
                    const HwPlan *plan)
{
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);
      gboolean            first = FALSE;
      guint               n = pick->buy ? count_same (plan, pick, i, &first) : 0;

      const HwMachine    *machine = peek_machine (plan, pick);

      if (n > 0 && first)
        add (lines, HW_NOTIONS_NEEDLE_TO_BUY, say_pick (plan, pick), machine != NULL ? g_strdup (machine->name) : NULL,
             g_strdup_printf ("%u", n));
    }
}

/* First, so that the list can be taken to the shop. */
static void
add_to_buy (GPtrArray    *lines,
            const HwPlan *plan)
{
  guint heading = lines->len;
  guint n;

  add (lines, HW_NOTIONS_HEADING, g_strdup (_("To buy, as far as the room knows")), NULL, NULL);
  n = add_threads (lines, plan, TRUE);
  add_needles_to_buy (lines, plan);
  if (n > 0)
    add_thread_note (lines);
  if (lines->len == heading + 1)
    g_ptr_array_remove_index (lines, heading);
}

GPtrArray *
hw_notions_list (const HwPlan *plan)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (free_line);

  g_return_val_if_fail (plan != NULL, lines);

  if (plan->notions->len == 0)
    return lines;
  add_to_buy (lines, plan);
  add_threads_at_hand (lines, plan);
  add_cloth (lines, plan);
  add_needles (lines, plan);
  add_time (lines, plan);
  return lines;
}

char *
hw_notions_text (const GPtrArray *lines,
                 const char      *title)
{
  GString *text = g_string_new (title);

  g_string_append_c (text, '\n');
  for (guint i = 0; i < lines->len; i++)
    {
      const HwNotionsLine *line = g_ptr_array_index (lines, i);

      if (line->kind == HW_NOTIONS_HEADING)
        g_string_append_printf (text, "\n%s\n", line->what);
      else if (line->kind == HW_NOTIONS_NOTE)
        g_string_append_printf (text, "%s\n", line->what);
      else if (line->amount == NULL)
        g_string_append_printf (text, C_("what is needed", "- %s\n"), line->what);
      else if (line->remark == NULL)
        g_string_append_printf (text, C_("what is needed and how much", "- %s: %s\n"), line->what, line->amount);
      else
        g_string_append_printf (text, C_("what is needed and how much", "- %s: %s; %s\n"), line->what, line->amount,
                                line->remark);
    }
  return g_string_free (text, FALSE);
}
