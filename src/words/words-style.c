/* words-style.c - how a person writes numbers and lengths
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Like the locale these are settings of the process: words depend on them, plans never do. A tape in inches has
 * eighths, and so has a needle plate; what is longer than two yards is said in yards, as cloth and thread are sold.
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <langinfo.h>
#include <locale.h>
#include <math.h>
#include <string.h>

#define MM_PER_INCH 25.4
#define INCHES_PER_YARD 36
#define EIGHTHS_UP_TO 40                 /* inches; a longer seam is said in whole ones */

static int style_inches;                 /* set atomically, as cards may be drawn on another thread */
static int style_mark;
static int style_number;                 /* of styles taken so far */

void
hw_words_set_style (gboolean     inches,
                    HwNumberMark mark)
{
  if (g_atomic_int_get (&style_inches) == inches && g_atomic_int_get (&style_mark) == (int) mark)
    return;
  g_atomic_int_set (&style_inches, inches);
  g_atomic_int_set (&style_mark, mark);
  g_atomic_int_inc (&style_number);
}

guint
hw_words_get_style (void)
{
  return (guint) g_atomic_int_get (&style_number);
}

/* ---- what is usual in the person's country ---- */

#define US_MEASURES 2                    /* of LC_MEASUREMENT; 1 is metric */
#define LETTER_HEIGHT_MM 279             /* of LC_PAPER; A4 has 297 */

/* The C library tells; one that does not know its locale's paper and measures leaves A4 and metric ones. */
static gboolean
measures_in_inches (void)
{
#ifdef __GLIBC__
  return *nl_langinfo (_NL_MEASUREMENT_MEASUREMENT) == US_MEASURES;
#else
  return FALSE;
#endif
}

gboolean
hw_words_locale_letter (void)
{
#ifdef __GLIBC__
  return GPOINTER_TO_INT (nl_langinfo (_NL_PAPER_HEIGHT)) == LETTER_HEIGHT_MM;
#else
  return FALSE;
#endif
}

void
hw_words_take_style (const HwPreferences *preferences)
{
  gboolean inches = preferences->units == NULL ? measures_in_inches () : g_str_equal (preferences->units, "inch");

  hw_words_set_style (inches, preferences->numbers == NULL ? HW_NUMBER_LOCALE
                                           : g_str_equal (preferences->numbers, "comma") ? HW_NUMBER_COMMA
                                                                                         : HW_NUMBER_POINT);
}

gboolean
hw_words_are_inches (void)
{
  return g_atomic_int_get (&style_inches);
}

const char *
hw_words_decimal_mark (void)
{
  switch (g_atomic_int_get (&style_mark))
    {
    case HW_NUMBER_POINT:
      return ".";
    case HW_NUMBER_COMMA:
      return ",";
    default:
      return localeconv ()->decimal_point;
    }
}

/* “1,250” may be twelve hundred and fifty; “12,5” and “0,125” are decimals. */
static gboolean
may_part_thousands (const char *text)
{
  const char *comma = strchr (text, ',');

  return comma != NULL && strspn (comma + 1, "0123456789") == 3 && text[strspn (text, " +-")] != '0'
         && comma != text;
}

gboolean
hw_words_parse_number (const char *text,
                       double     *value)
{
  const char          *mark = hw_words_decimal_mark ();
  g_autoptr (GString)  plain = g_string_new (text);
  char                *end = NULL;

  g_return_val_if_fail (text != NULL && value != NULL, FALSE);

  g_string_replace (plain, mark, ".", 1);        /* the point itself is understood everywhere */
  if (g_atomic_int_get (&style_mark) != HW_NUMBER_LOCALE || !may_part_thousands (text))
    g_string_replace (plain, ",", ".", 1);
  *value = g_ascii_strtod (plain->str, &end);
  return end != plain->str && *end == '\0' && isfinite (*value);
}

/* ---- inches ---- */

/* (transfer full): "18⅞", "⅝"; whole inches where the tape's eighths no longer tell. */
static char *
say_eighths (double inches)
{
  static const char * const parts[] = { "", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞" };
  long eighths = inches < EIGHTHS_UP_TO ? lround (inches * 8) : lround (inches) * 8;

  if (eighths == 0 && inches > 0)
    return hw_words_number (inches, 2);
  return eighths < 8 && eighths > 0 ? g_strdup (parts[eighths])
                                    : g_strdup_printf ("%ld%s", eighths / 8, parts[eighths % 8]);
}

char *
hw_words_inches (double mm)
{
  g_autofree char *number = say_eighths (mm / MM_PER_INCH);

  /* Translators: a length in inches, such as “18⅞ in” */
  return g_strdup_printf (_("%s in"), number);
}

char *
hw_words_cm (double cm,
             int    max_decimals)
{
  g_autofree char *number = NULL;

  if (hw_words_are_inches ())
    return hw_words_inches (cm * 10);
  number = hw_words_number (cm, max_decimals);
  /* Translators: a length in centimetres */
  return g_strdup_printf (_("%s cm"), number);
}

char *
hw_words_yards (double m)
{
  double           inches = m * 1000 / MM_PER_INCH;
  g_autofree char *yards = NULL;

  if (inches < 2 * INCHES_PER_YARD)
    return hw_words_inches (m * 1000);
  yards = hw_words_number (inches / INCHES_PER_YARD, inches < 100 * INCHES_PER_YARD ? 1 : 0);
  /* Translators: a length in yards */
  return g_strdup_printf (_("%s yd"), yards);
}

char *
hw_words_allowance (double mm)
{
  g_autofree char *metric = hw_words_mm (mm);
  g_autofree char *inches = NULL;

  if (!hw_words_are_inches ())
    return g_steal_pointer (&metric);
  inches = hw_words_inches (mm);
  /* Translators: a seam allowance in inches, to the nearest eighth, and in mm */
  return g_strdup_printf (_("%s (%s)"), inches, metric);
}
