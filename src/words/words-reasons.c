/* words-reasons.c - why a value is what it is, and where that is written
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/needle.h"
#include "words/words-rules.h"

#include <glib/gi18n.h>
#include <math.h>

/* ---- the dial's terms ---- */

static const char * const term_causes[HW_N_TENSION_TERMS] = {
  [HW_TENSION_MACHINE] = N_("this machine itself"),
  [HW_TENSION_TEX] = N_("the size of both threads"),
  [HW_TENSION_NEEDLE_HEAVIER] = N_("the needle thread is heavier than the bobbin thread"),
  [HW_TENSION_FILAMENT] = N_("filament thread is smooth"),
  [HW_TENSION_MONOFILAMENT] = N_("monofilament thread stretches and springs back"),
  [HW_TENSION_METALLIC] = N_("metallic thread breaks under a tight dial"),
  [HW_TENSION_THICKER] = N_("the layers are thicker than two of medium cotton"),
  [HW_TENSION_THINNER] = N_("the layers are thinner than two of medium cotton"),
  [HW_TENSION_LONGER] = N_("the stitch is longer than 2.5 mm"),
  [HW_TENSION_SHORTER] = N_("the stitch is shorter than 2.5 mm"),
  [HW_TENSION_SHEER] = N_("sheer cloth puckers"),
  [HW_TENSION_SLIPPERY] = N_("slippery cloth puckers"),
  [HW_TENSION_JERSEY] = N_("jersey gives and comes back"),
  [HW_TENSION_PILE] = N_("pile gives way under the stitch"),
  [HW_TENSION_LOFTY] = N_("lofty cloth gives way under the stitch"),
  [HW_TENSION_COATED] = N_("coated cloth holds the thread"),
  [HW_TENSION_LEATHER] = N_("leather holds the thread"),
  [HW_TENSION_ZIGZAG] = N_("a zigzag swings, and a wide one pulls its edges together"),
  [HW_TENSION_MULTISTEP] = N_("a multi-step zigzag is to lie flat and stretch"),
  [HW_TENSION_STRETCH_STITCH] = N_("a stretch stitch is to give"),
  [HW_TENSION_BLIND] = N_("a blind stitch is to lie loose"),
  [HW_TENSION_SATIN] = N_("a satin stitch is to lie on top"),
  [HW_TENSION_BUTTONHOLE] = N_("a buttonhole bead is to lie on top"),
  [HW_TENSION_BAR_TACK] = N_("a bar tack is to lie on top"),
  [HW_TENSION_TWIN] = N_("a twin needle ridges when it is tight"),
  [HW_TENSION_BASTE] = N_("basting is to come out again"),
  [HW_TENSION_GATHER] = N_("the bobbin threads are to be pulled up"),
  [HW_TENSION_EASE] = N_("the row is to draw the cloth in a little"),
};

static char *
say_dial_term (const HwReason *reason)
{
  int term = (int) reason->v[0];
  g_autofree char *amount = hw_words_number (ABS (reason->v[1]), 1);

  g_return_val_if_fail (term >= 0 && term < HW_N_TENSION_TERMS, g_strdup (""));

  if (ABS (reason->v[1]) < 0.05)
    /* Translators: the cause why the dial is set a very little lower or higher */
    return g_strdup_printf (reason->v[1] < 0 ? _("A shade lower: %s.") : _("A shade higher: %s."),
                            _(term_causes[term]));
  /* Translators: numbers on the dial, the cause */
  return g_strdup_printf (reason->v[1] < 0 ? _("Lower by %s: %s.") : _("Higher by %s: %s."), amount,
                          _(term_causes[term]));
}

static char *
say_neutral (const HwSetup *setup, const HwReason *reason)
{
  g_autofree char *neutral = hw_words_half (reason->v[0]);

  if (setup->machine->kind != HW_MACHINE_LOCKSTITCH)
    /* Translators: a number on the dials of an overlocker or coverstitch machine */
    return g_strdup_printf (_("This machine’s own manual starts its dials at %s."), neutral);
  /* Translators: the dial's number */
  return g_strdup_printf (_("This machine’s neutral number is %s: two layers of medium cotton balance there."),
                          neutral);
}

static char *
say_seam_thread (const HwReason *reason)
{
  g_autofree char *low = hw_words_number (reason->v[0], 0);
  g_autofree char *high = hw_words_number (reason->v[1], 0);
  g_autofree char *own = hw_words_number (reason->v[2], 0);

  /* Translators: sizes of threads in tex */
  return g_strdup_printf (_("Tex %s to %s would show better; the project’s tex %s holds as well: no spool to buy, no "
                            "needle to change."), low, high, own);
}

static char *
say_test_seams (const HwReason *reason)
{
  guint n = (guint) reason->v[0];
  g_autofree char *amount = hw_words_number (ABS (reason->v[1]), 1);

  if (ABS (reason->v[1]) < 0.05)
    return g_strdup_printf (ngettext ("%u test seam on this machine agrees with the handbook.",
                                      "%u test seams on this machine agree with the handbook.", n), n);
  if (reason->v[1] < 0)
    /* Translators: how many test seams, numbers on the dial */
    return g_strdup_printf (ngettext ("Lower by %2$s: %1$u test seam on this machine says so.",
                                      "Lower by %2$s: %1$u test seams on this machine say so.", n), n, amount);
  /* Translators: how many test seams, numbers on the dial */
  return g_strdup_printf (ngettext ("Higher by %2$s: %1$u test seam on this machine says so.",
                                    "Higher by %2$s: %1$u test seams on this machine say so.", n), n, amount);
}

/* ---- the needle's size ---- */

static char *
say_thread_share (const HwSetup *setup, const HwReason *reason)
{
  g_autofree char *diameter = hw_words_number (reason->v[0], 2);
  g_autofree char *share = hw_words_number (reason->v[1], 0);
  g_autofree char *rule = hw_words_number (HW_NEEDLE_THREAD_SHARE * 100, 0);
  g_autofree char *limit = hw_words_number (HW_NEEDLE_THREAD_SHARE_LIMIT * 100, 0);
  g_autofree char *tex = hw_words_number (setup->needle_thread.tex, 0);

  /* Translators: thread size, thread diameter in mm, share of the needle's blade; the usual share, the most */
  return g_strdup_printf (_("Tex %s thread is %s mm thick, %s %% of this blade; about %s %% is right, %s %% the most."),
                          tex, diameter, share, rule, limit);
}

static char *
say_smallest (const HwSetup *setup, const HwReason *reason)
{
  g_autofree char *size = hw_words_setup_size (setup, reason->v[0]);

  /* Translators: a needle's size */
  return g_strdup_printf (_("%s is the smallest that serves the thread and every layer."), size);
}

/* ---- what the machine decides ---- */

static char *
say_stitch_limit (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  g_autofree char *wanted = hw_words_quantity (plan, setup, reason->field, reason->v[0]);
  g_autofree char *taken = hw_words_quantity (plan, setup, reason->field, reason->v[1]);

  if (ABS (reason->v[0] - reason->v[1]) > 1e-6)
    /* Translators: a length or width wanted, the one the stitch takes */
    return g_strdup_printf (_("%s is wanted; this stitch stops at %s."), wanted, taken);
  /* Translators: a length or width */
  return g_strdup_printf (_("No rule speaks of this: the stitch’s usual %s."), taken);
}

static char *
say_machine (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  switch ((int) reason->field)
    {
    case HW_FIELD_MACHINE:
      /* Translators: a machine's name */
      return g_strdup_printf (_("“%s” forms this stitch."), setup->machine->name);
    case HW_FIELD_STITCH:
      return g_strdup (setup->step->stitch != NULL ? _("The stitch named for this step.")
                                                   : _("The usual stitch for this kind of step."));
    case HW_FIELD_SYSTEM:
      return g_strdup (_("The needle system is this machine’s own; no other is safe in it."));
    case HW_FIELD_POINT:
      return g_strdup (_("The nearest point sold for this machine’s needle system."));
    case HW_FIELD_TWIN:
      return g_strdup (_("No rule speaks of this: a usual spacing."));
    case HW_FIELD_LENGTH:
    case HW_FIELD_WIDTH:
      return say_stitch_limit (plan, setup, reason);
    case HW_FIELD_FOOT:
      return g_strdup (_("No rule speaks of this: the first of this machine’s feet that passes the stitch."));
    case HW_FIELD_PLATE:
      return g_strdup (_("No rule speaks of this: the first of this machine’s plates that passes the stitch."));
    case HW_FIELD_PRESSURE:
      return g_strdup (_("No rule speaks of this: normal pressure."));
    case HW_FIELD_ENDS:
      return g_strdup (_("No rule speaks of this: long tails can be secured either way."));
    default:
      return g_strdup (_("This machine decides it."));
    }
}

static char *
say_clamped (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  g_autofree char *wanted = hw_words_quantity (plan, setup, reason->field, reason->v[0]);
  g_autofree char *limit = hw_words_quantity (plan, setup, reason->field, reason->v[1]);

  /* Translators: a value wanted, the one this machine reaches */
  return g_strdup_printf (_("%s is wanted; this machine reaches %s."), wanted, limit);
}

static char *
say_owned (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  g_autofree char *wanted = hw_words_quantity (plan, setup, reason->field, reason->v[0]);

  /* Translators: a foot or plate */
  return g_strdup_printf (_("Best is: %s. This machine has none, so the next best takes its place."), wanted);
}

static char *
say_at_hand (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  g_autofree char *preferred = hw_words_quantity (plan, setup, reason->field, reason->v[0]);
  g_autofree char *taken = hw_words_quantity (plan, setup, reason->field, setup->values[reason->field].value);

  /* Translators: needle sizes or points: the one preferred, the one taken */
  return g_strdup_printf (_("Best here is %s, but no such needle is in the case or the machine. One of %s is, and "
                            "passes too: nothing to buy."), preferred, taken);
}

/* ---- what a person or the other steps decide ---- */

static char *
say_chosen_thread (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  gboolean bobbin = reason->field == HW_FIELD_BOBBIN_TEX;
  const HwThreadChoice *choice = bobbin ? &setup->bobbin_thread : &setup->needle_thread;
  const char *named = bobbin ? setup->step->bobbin_thread : setup->step->needle_thread;
  g_autofree char *thread = hw_words_thread (choice);

  if (choice->thread == NULL)
    /* Translators: a thread */
    return g_strdup_printf (_("The project lists no thread that fits, so the handbook’s: %s."), thread);
  if (named != NULL)
    /* Translators: a thread */
    return g_strdup_printf (_("You named this thread for the step: %s."), thread);
  /* Translators: a thread */
  return g_strdup_printf (_("From the project’s own threads: %s."), thread);
}

static char *
say_override (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  g_autofree char *preferred = hw_words_quantity (plan, setup, reason->field, reason->v[0]);

  /* Translators: the value that the handbook prefers */
  return g_strdup_printf (_("Yours; %s is usual."), preferred);
}

static const HwGroup *
find_group (const HwPlan *plan, const HwStep *step)
{
  for (guint i = 0; i < plan->groups->len; i++)
    {
      const HwGroup *group = g_ptr_array_index (plan->groups, i);

      for (guint k = 0; k < group->members->len; k++)
        if (hw_project_get_step (plan->project, g_array_index (group->members, gsize, k)) == step)
          return group;
    }
  return NULL;
}

/* The numbers of the steps that @step shares its set-up with. */
static GPtrArray *
list_shared (const HwPlan *plan, const HwStep *step)
{
  const HwGroup *group = find_group (plan, step);
  GPtrArray *numbers = g_ptr_array_new_with_free_func (g_free);

  for (guint k = 0; group != NULL && k < group->members->len; k++)
    {
      const HwStep *other = hw_project_get_step (plan->project, g_array_index (group->members, gsize, k));

      if (other != step)
        g_ptr_array_add (numbers, g_strdup (other->number));
    }
  return numbers;
}

static char *
say_agreed (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  const HwValue *value = &setup->values[reason->field];
  g_autofree char *preferred = hw_words_quantity (plan, setup, reason->field, reason->v[0]);
  g_autofree char *taken = hw_words_quantity (plan, setup, reason->field, value->value);
  g_autoptr (GPtrArray) shared = list_shared (plan, setup->step);
  guint n_shared = shared->len;
  g_autofree char *numbers = hw_words_list (g_steal_pointer (&shared));

  if (n_shared == 0)
    /* Translators: the value taken, the value preferred */
    return g_strdup_printf (_("Moved to %s, which passes too and saves a change; preferred here: %s."), taken,
                            preferred);
  /* Translators: the value taken, the value preferred, the numbers of the other steps */
  return g_strdup_printf (ngettext ("Moved to %s, which passes too and saves a change; preferred here: %s. One set-up "
                                    "with step %s.",
                                    "Moved to %s, which passes too and saves a change; preferred here: %s. One set-up "
                                    "with steps %s.", n_shared), taken, preferred, numbers);
}

/**
 * hw_words_reason:
 *
 * Returns: (transfer full): why the value of one field is what it is, as a
 *   sentence
 */
char *
hw_words_reason (const HwPlan *plan, const HwSetup *setup, const HwReason *reason)
{
  switch (reason->code)
    {
    case HW_REASON_RULE:
      return hw_words_rule (plan, setup, reason);
    case HW_REASON_THREAD_SHARE:
      return say_thread_share (setup, reason);
    case HW_REASON_SMALLEST:
      return say_smallest (setup, reason);
    case HW_REASON_SEAM_THREAD:
      return say_seam_thread (reason);
    case HW_REASON_CHOSEN_THREAD:
      return say_chosen_thread (plan, setup, reason);
    case HW_REASON_MACHINE:
      return say_machine (plan, setup, reason);
    case HW_REASON_DIAL_NEUTRAL:
      return say_neutral (setup, reason);
    case HW_REASON_DIAL_TERM:
      return say_dial_term (reason);
    case HW_REASON_TEST_SEAMS:
      return say_test_seams (reason);
    case HW_REASON_CLAMPED:
      return say_clamped (plan, setup, reason);
    case HW_REASON_OVERRIDE:
      return say_override (plan, setup, reason);
    case HW_REASON_AGREED:
      return say_agreed (plan, setup, reason);
    case HW_REASON_AT_HAND:
      return say_at_hand (plan, setup, reason);
    case HW_REASON_OWNED:
      return say_owned (plan, setup, reason);
    default:
      g_return_val_if_reached (g_strdup (""));
    }
}

/* ---- sources ---- */

static char *
say_title (const HwSource *source)
{
  if (source->where == NULL || *source->where == '\0')
    return g_strdup (source->title);
  /* Translators: a document's title, edition or page */
  return g_strdup_printf (_("%s, %s"), source->title, source->where);
}

/**
 * hw_words_source:
 *
 * Returns: (transfer full): what kind of source it is and which: "book: …";
 *   plain "common practice" where no document is
 */
char *
hw_words_source (const HwSource *source)
{
  g_autofree char *title = source->kind != HW_SOURCE_JOURNAL ? say_title (source) : NULL;

  switch (source->kind)
    {
    case HW_SOURCE_STANDARD:
      /* Translators: a document's title */
      return g_strdup_printf (_("standard: %s"), title);
    case HW_SOURCE_BOOK:
      /* Translators: a document's title */
      return g_strdup_printf (_("book: %s"), title);
    case HW_SOURCE_PAPER:
      /* Translators: a document's title */
      return g_strdup_printf (_("paper: %s"), title);
    case HW_SOURCE_BULLETIN:
      /* Translators: a document's title */
      return g_strdup_printf (_("bulletin: %s"), title);
    case HW_SOURCE_FROM_MEMORY:
      /* Translators: a document's title */
      return g_strdup_printf (_("from memory: %s"), title);
    case HW_SOURCE_JOURNAL:
      return g_strdup (_("this machine’s test seams"));
    case HW_SOURCE_COMMON_PRACTICE:
    default:
      return g_strdup (_("common practice"));
    }
}
