/* plain-words.c - finds what is not in the made-up language
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "plain-words.h"

/* Written so in every language; what GTK itself says, in a language of its own; months, which follow the locale of
 * dates; and what the demo's journal holds, which is a person's own. */
static const char * const everywhere[] = {
  "Handwheel", "handwheel", "ISO", "DIN", "tex", "SUK", "SES", "HAx1",
  "Ctrl", "Shift", "Alt", "Insert", "Delete", "Up", "Down",
  "div", "Search", "Clear", "entry", "None",
  "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
  "December", "Jan", "Feb", "Mar", "Apr", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
  "navy", "seat", "cushions", "choir", "shirts", NULL
};

/* What is not a word at all: a path, an option, a key=value, the name of a file, a needle system or
 * a measurement in arithmetic. */
#define NO_WORDS "\\$\\w+|(?:[a-z0-9-]*/[\\w.-]+)+|--?[\\w-]+(?:=\\S*)?|\\w*\\.(?:xml|handwheel|pdf|png|svg|ics)\\b" \
                 "|\\b[A-Z]+x\\d+\\b|\\([a-z-]+\\):|Back from the technician: .*$"

char *
plain_words_find (const char *text)
{
  g_autoptr (GRegex) no_words = g_regex_new (NO_WORDS, 0, 0, NULL);
  g_autoptr (GRegex) words = g_regex_new ("(?<!\\pL)[A-Za-z]{3,}(?!\\pL)", 0, 0, NULL);
  g_autofree char *rest = g_regex_replace_literal (no_words, text, -1, 0, " ", 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;

  for (g_regex_match (words, rest, 0, &match); g_match_info_matches (match); g_match_info_next (match, NULL))
    {
      g_autofree char *word = g_match_info_fetch (match, 0);

      if (!g_strv_contains (everywhere, word))
        return g_steal_pointer (&word);
    }
  return NULL;
}
