/* words-numbers.c - numbers, lengths and times as a person reads them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <math.h>
#include <string.h>

#define MINUS "\xe2\x88\x92"       /* U+2212 */

/* Takes the zeros off the end of what printf wrote, and the mark when nothing is left behind it. */
static void
drop_trailing_zeros (char *digits)
{
  const char *mark = localeconv ()->decimal_point;
  char *at = strstr (digits, mark);
  char *end = digits + strlen (digits);

  if (at == NULL)
    return;
  while (end > at + strlen (mark) && end[-1] == '0')
    end--;
  if (end == at + strlen (mark))
    end = at;
  *end = '\0';
}

/* Takes and returns digits as printf wrote them. */
static char *
mark_as_chosen (char *digits)
{
  const char *ours = hw_words_decimal_mark ();
  const char *mark = localeconv ()->decimal_point;
  char       *at = strstr (digits, mark);
  char       *chosen;

  if (at == NULL || g_str_equal (ours, mark))
    return digits;
  *at = '\0';
  chosen = g_strconcat (digits, ours, at + strlen (mark), NULL);
  g_free (digits);
  return chosen;
}

/**
 * hw_words_number:
 * @value: a finite number
 * @max_decimals: how many decimals at most, 0 to 6
 *
 * Returns: (transfer full): @value with the locale's decimal mark, no trailing
 *   zeros and a true minus sign
 */
char *
hw_words_number (double value, int max_decimals)
{
  g_autofree char *digits = NULL;

  g_return_val_if_fail (isfinite (value) && max_decimals >= 0 && max_decimals <= 6, g_strdup (""));

  digits = g_strdup_printf ("%.*f", max_decimals, fabs (value));
  drop_trailing_zeros (digits);
  digits = mark_as_chosen (g_steal_pointer (&digits));
  if (value >= 0 || g_str_equal (digits, "0"))
    return g_steal_pointer (&digits);
  return g_strconcat (MINUS, digits, NULL);
}

char *
hw_words_fixed (double value, int decimals)
{
  g_return_val_if_fail (isfinite (value) && decimals >= 0 && decimals <= 6, g_strdup (""));

  return mark_as_chosen (g_strdup_printf ("%.*f", decimals, value));
}

/**
 * hw_words_half:
 * @dial: a dial's number
 *
 * Returns: (transfer full): half-steps as printed, "3½"; any other number as
 *   it is, "3.2"
 */
char *
hw_words_half (double dial)
{
  double size = ABS (dial);
  double whole = floor (size);
  const char *sign = dial < 0 ? MINUS : "";

  if (ABS (size - whole - 0.5) > 1e-6)
    return hw_words_number (dial, 2);
  if (whole < 1)
    return g_strconcat (sign, "½", NULL);
  return g_strdup_printf ("%s%.0f½", sign, whole);
}

char *
hw_words_mm (double mm)
{
  g_autofree char *number = hw_words_number (mm, 2);

  /* Translators: a length in millimetres */
  return g_strdup_printf (_("%s mm"), number);
}

/* Tenths of a metre do for a seam; a buttonhole needs the centimetres, a whole project no fractions. */
char *
hw_words_metres (double m)
{
  g_autofree char *number = NULL;

  if (hw_words_are_inches ())
    return hw_words_yards (m);
  number = hw_words_number (m, m < 0.1 ? 2 : m < 100 ? 1 : 0);

  /* Translators: a length in metres */
  return g_strdup_printf (_("%s m"), number);
}

static char *
say_hours_and_minutes (long minutes)
{
  if (minutes % 60 == 0)
    /* Translators: whole hours */
    return g_strdup_printf (_("%ld h"), minutes / 60);
  /* Translators: hours and minutes */
  return g_strdup_printf (_("%ld h %ld min"), minutes / 60, minutes % 60);
}

/**
 * hw_words_minutes:
 * @minutes: 0 or more
 *
 * Returns: (transfer full): whole minutes, tenths below one: "0.5 min",
 *   "7 min", "1 h 20 min"
 */
char *
hw_words_minutes (double minutes)
{
  g_autofree char *number = NULL;

  g_return_val_if_fail (minutes >= 0 && minutes < 1e9, g_strdup (""));

  if (minutes >= 59.5)
    return say_hours_and_minutes (lround (minutes));
  if (minutes > 0 && minutes < 0.95)
    number = hw_words_number (MAX (minutes, 0.1), 1);
  else
    number = hw_words_number (minutes, 0);
  /* Translators: a time in minutes */
  return g_strdup_printf (_("%s min"), number);
}

char *
hw_words_clock (double minutes)
{
  int seconds;

  g_return_val_if_fail (minutes >= 0 && minutes < 1e9, g_strdup (""));

  if (minutes >= 59.5)
    return hw_words_minutes (minutes);
  seconds = (int) floor (minutes * 60 + 1e-6);
  /* Translators: a clock, minutes and seconds */
  return g_strdup_printf (_("%d:%02d"), seconds / 60, seconds % 60);
}

char *
hw_words_hours (double hours)
{
  g_autofree char *number = hw_words_number (hours, 1);

  /* Translators: a time in hours, such as a needle's wear */
  return g_strdup_printf (_("%s h"), number);
}
