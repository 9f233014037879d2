/* words-faults.c - what the room knows of a fault's cause, and the remedy that one press does
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <math.h>

/* Two values in a sentence that has a place for each. (transfer full) */
static char *
say_two (const char *format,
         char       *first,             /* (transfer full) */
         char       *second)            /* (transfer full) */
{
  g_autofree char *a = first;
  g_autofree char *b = second;
  GString         *text = g_string_new (NULL);

  for (const char *p = format; *p != '\0'; p++)
    if (p[0] == '%' && p[1] == 's')
      {
        g_string_append (text, a != NULL ? a : b);
        g_clear_pointer (&a, g_free);
        p++;
      }
    else
      {
        g_string_append_c (text, *p);
      }
  return g_string_free (text, FALSE);
}

static char *
dup_name (const HwEntry *entry)
{
  return hw_words_inside (entry->name);
}

static gboolean
is_beyond (const HwFaultCheck *check)
{
  return check->clue > 1;
}

static char *
say_needle (const HwHandbook   *handbook,
            const HwFaultCheck *check)
{
  if (check->fact == HW_KNOWN_POINT)
    /* Translators: point in the machine, point planned */
    return say_two (_("In the machine is a %s; planned is a %s."),
                    dup_name (&handbook->points[(int) check->clue_value].entry),
                    dup_name (&handbook->points[(int) check->clue_limit].entry));
  if (!is_beyond (check))
    {
      g_autofree char *size = hw_words_size ((int) check->clue_value, 0);

      /* Translators: a needle's size */
      return g_strdup_printf (_("The needle in the machine, %s, is as planned."), size);
    }
  /* Translators: needle sizes */
  return say_two (_("In the machine is %s; planned is %s."), hw_words_size ((int) check->clue_value, 0),
                  hw_words_size ((int) check->clue_limit, 0));
}

static char *
say_care (const HwHandbook   *handbook,
          const HwFaultCheck *check)
{
  g_autofree char *task = dup_name (&handbook->care[check->clue_care].entry);
  g_autofree char *clock = hw_words_number (check->clue_value, 1);
  g_autofree char *limit = hw_words_number (check->clue_limit, 1);

  if (check->fact == HW_KNOWN_CARE_MONTHS)
    /* Translators: a care task inside a sentence, months since it was done, months after which it is due */
    return g_strdup_printf (_("Clock of “%s”: %s of %s months."), task, clock, limit);
  if (check->fact == HW_KNOWN_CARE_DAYS)
    /* Translators: a care task, days sewn since it was done, days after which it is due */
    return g_strdup_printf (_("Clock of “%s”: %s of %s sewing days."), task, clock, limit);
  /* Translators: a care task, hours since it was done, hours after which it is due */
  return g_strdup_printf (_("Clock of “%s”: %s of %s h."), task, clock, limit);
}

static char *
say_snap (const HwFaultCheck *check)
{
  gboolean weak = (int) check->clue_value == HW_SNAP_WEAK;

  if (check->fact == HW_KNOWN_BOBBIN_SNAP)
    return g_strdup (weak ? _("The bobbin thread’s snap test was weak.")
                          : _("The bobbin thread’s snap test was good."));
  return g_strdup (weak ? _("The needle thread’s snap test was weak.")
                        : _("The needle thread’s snap test was good."));
}

static char *
say_owned (const HwFaultCheck *check,
           const HwEntry      *there,
           const HwEntry      *planned)
{
  if (is_beyond (check))
    /* Translators: a foot or a plate on the machine, and the one planned */
    return say_two (_("On the machine: %s; planned: %s."), dup_name (there), dup_name (planned));
  /* Translators: a foot or a plate */
  return say_two (_("On the machine, as planned: %s."), dup_name (there), NULL);
}

static char *
say_measure (const HwFaultCheck *check,
             const char         *beyond,
             const char         *inside,
             char               *(* say) (double))
{
  return is_beyond (check) ? say_two (beyond, say (check->clue_value), say (check->clue_limit))
                           : say_two (inside, say (check->clue_value), NULL);
}

static char *
say_plain (double value)
{
  return hw_words_number (value, 2);
}

static char *
say_hours (const HwFaultCheck *check)
{
  g_autofree char *sewn = hw_words_number (check->clue_value, 1);
  g_autofree char *limit = hw_words_number (check->clue_limit, 1);

  /* Translators: hours sewn, hours a needle lasts */
  return g_strdup_printf (_("The needle has sewn %s of its %s h."), sewn, limit);
}

char *
hw_words_fault_fact (const HwHandbook   *handbook,
                     const HwFaultCheck *check)
{
  g_return_val_if_fail (handbook != NULL && check != NULL, NULL);

  switch (check->fact)
    {
    case HW_KNOWN_NEEDLE_HOURS:
      return say_hours (check);
    case HW_KNOWN_POINT:
    case HW_KNOWN_SIZE:
      return say_needle (handbook, check);
    case HW_KNOWN_CARE_HOURS:
    case HW_KNOWN_CARE_MONTHS:
    case HW_KNOWN_CARE_DAYS:
      return say_care (handbook, check);
    case HW_KNOWN_DIAL:
      return say_two (_("The dial stands at %s; the card’s band ends at %s."), hw_words_half (check->clue_value),
                      hw_words_half (check->clue_limit));
    case HW_KNOWN_TEX:
      return say_measure (check, _("The needle thread is tex %s; the plan’s band ends at %s."),
                          _("The needle thread, tex %s, is as planned."), say_plain);
    case HW_KNOWN_SNAP:
    case HW_KNOWN_BOBBIN_SNAP:
      return say_snap (check);
    case HW_KNOWN_LENGTH:
      return say_measure (check, _("Stitch length is %s; the plan’s band ends at %s."),
                          _("Stitch length, %s, is as planned."), hw_words_mm);
    case HW_KNOWN_WIDTH:
      return say_measure (check, _("Stitch width is %s; the plan’s band ends at %s."),
                          _("Stitch width, %s, is as planned."), hw_words_mm);
    case HW_KNOWN_CUTTING_WIDTH:
      return say_measure (check, _("Cutting width is %s; the plan’s band ends at %s."),
                          _("Cutting width, %s, is as planned."), hw_words_mm);
    case HW_KNOWN_DIFFERENTIAL:
      return say_measure (check, _("Differential feed is %s; the plan’s band ends at %s."),
                          _("Differential feed, %s, is as planned."), say_plain);
    case HW_KNOWN_PRESSURE:
      return say_measure (check, _("The foot’s pressure is set %s; the plan’s band ends at %s."),
                          _("The foot’s pressure, %s, is as planned."), hw_words_pressure);
    case HW_KNOWN_FOOT:
      return say_owned (check, &handbook->feet[(int) check->clue_value].entry,
                        &handbook->feet[(int) check->clue_limit].entry);
    case HW_KNOWN_PLATE:
      return say_owned (check, &handbook->plates[(int) check->clue_value].entry,
                        &handbook->plates[(int) check->clue_limit].entry);
    case HW_KNOWN_NONE:
    default:
      return NULL;
    }
}

char *
hw_words_fault_history (const HwFaultCheck *check)
{
  g_return_val_if_fail (check != NULL, NULL);

  if (check->found == 0)
    return NULL;
  return g_strdup_printf (ngettext ("It was this once before on this machine.",
                                    "It was this %d times before on this machine.", (gulong) check->found),
                          check->found);
}

/* ---- the remedy that one press does ---- */

static gboolean
lowers (const HwCause *cause)
{
  return cause->remedy == HW_REMEDY_DIAL_DOWN;
}

char *
hw_words_fix (const HwHandbook *handbook,
              const HwCause    *cause,
              const HwFix      *fix)
{
  g_return_val_if_fail (handbook != NULL && cause != NULL && fix != NULL, NULL);

  switch (fix->kind)
    {
    case HW_FIX_LOAD_NEEDLE:
      return fix->discard ? say_two (_("Load a new needle, %s"),
                                     hw_words_needle (handbook, fix->point, fix->size_nm, fix->twin_mm), NULL)
                          : say_two (_("Load %s"), hw_words_needle (handbook, fix->point, fix->size_nm, fix->twin_mm),
                                     NULL);
    case HW_FIX_SET_DIAL:
      /* Translators: a number on the dial */
      return say_two (lowers (cause) ? _("Lower the dial to %s") : _("Raise the dial to %s"), hw_words_half (fix->dial),
                      NULL);
    case HW_FIX_CARE:
      /* Translators: a care task, as the label of a button that notes it as done */
      return say_two (_("Done: %s"), dup_name (&handbook->care[fix->care].entry), NULL);
    case HW_FIX_NONE:
    default:
      return NULL;
    }
}

char *
hw_words_fix_done (const HwHandbook *handbook,
                   const HwFix      *fix)
{
  g_return_val_if_fail (handbook != NULL && fix != NULL, NULL);

  switch (fix->kind)
    {
    case HW_FIX_LOAD_NEEDLE:
      return say_two (_("%s is in the machine, with no hours yet."),
                      hw_words_needle (handbook, fix->point, fix->size_nm, fix->twin_mm), NULL);
    case HW_FIX_SET_DIAL:
      return say_two (_("The dial is at %s; sew a test seam."), hw_words_half (fix->dial), NULL);
    case HW_FIX_CARE:
      return say_two (_("%s: its clock begins anew."), g_strdup (handbook->care[fix->care].entry.name),
                      NULL);
    case HW_FIX_NONE:
    default:
      return NULL;
    }
}
