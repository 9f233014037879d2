/* test-time.c - days, times and weeks as they are usual in the country of the locale
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The locales are made by make-locales.sh and found by LOCPATH; the words are English in all of them, as the process
 * binds no catalogue.
 */

#include "config.h"

#include <locale.h>

#include "words/words.h"

#define TIME "2031-05-09T13:03:00Z"      /* a Friday */

typedef struct
{
  const char  *locale;
  GDateWeekday week_start;
  const char  *clock;            /* at the end of a moment */
  const char  *short_time;       /* as a whole */
} Country;

/* Weekdays: what CLDR's weekData says of these countries as well. Times of the day: common practice, no source. */
static const Country countries[] = {
  { "C", G_DATE_MONDAY, "13:03", "9 May 2031 13:03" },
  { "C.UTF-8", G_DATE_MONDAY, "13:03", "9 May 2031 13:03" },
  { "de_DE.UTF-8", G_DATE_MONDAY, "13:03", "09.05.2031 13:03" },
  { "fr_FR.UTF-8", G_DATE_MONDAY, "13:03", "09/05/2031 13:03" },
  { "es_ES.UTF-8", G_DATE_MONDAY, "13:03", "09/05/31 13:03" },
  { "en_US.UTF-8", G_DATE_SUNDAY, "1:03 PM", "05/09/2031 1:03 PM" },
  { "he_IL.UTF-8", G_DATE_SUNDAY, NULL, NULL },
  { "ar_EG.UTF-8", G_DATE_SATURDAY, NULL, NULL },
};

static void
test_country (gconstpointer data)
{
  const Country *country = data;
  g_autofree char *moment = NULL;
  g_autofree char *short_time = NULL;

  g_assert_nonnull (setlocale (LC_ALL, country->locale));
  g_assert_cmpint (hw_words_week_start (), ==, country->week_start);
  moment = hw_words_entry_time (TIME);
  short_time = hw_words_entry_time_short (TIME);
  if (country->clock != NULL)
    g_assert_true (g_str_has_suffix (moment, country->clock));
  if (country->short_time != NULL)
    g_assert_cmpstr (short_time, ==, country->short_time);
}

static void
check (char       *said,
       const char *expected)
{
  g_assert_cmpstr (said, ==, expected);
  g_free (said);
}

static void
test_order (void)
{
  setlocale (LC_ALL, "C");
  check (hw_words_date ("2031-05-09"), "9 May 2031");
  check (hw_words_day ("2031-05-09"), "9 May");
  check (hw_words_day_short ("2031-05-09"), "9 May");
  check (hw_words_entry_time (TIME), "9 May 2031, 13:03");
  g_assert_nonnull (setlocale (LC_ALL, "en_US.UTF-8"));
  check (hw_words_date ("2031-05-09"), "May 9, 2031");
  check (hw_words_day ("2031-05-09"), "May 9");
  check (hw_words_day_short ("2031-05-09"), "May 9");
  check (hw_words_entry_time (TIME), "May 9, 2031, 1:03 PM");
  check (hw_words_entry_time ("2031-05-09T00:30:00Z"), "May 9, 2031, 12:30 AM");
}

static void
test_no_date (void)
{
  setlocale (LC_ALL, "C");
  check (hw_words_date (NULL), "");
  check (hw_words_day ("soon"), "");
  check (hw_words_entry_time ("soon"), "soon");
  check (hw_words_entry_time_short ("soon"), "soon");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (countries); i++)
    {
      g_autofree char *path = g_strconcat ("/time/", countries[i].locale, NULL);

      g_test_add_data_func (path, &countries[i], test_country);
    }
  g_test_add_func ("/time/order", test_order);
  g_test_add_func ("/time/no-date", test_no_date);
  return g_test_run ();
}
