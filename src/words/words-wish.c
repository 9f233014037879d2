/* words-wish.c - wishes for the order of work, what they cost, and why one cannot be
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words.h"

#include <glib/gi18n.h>

#define CHAIN_SHOWN_MAX 12

static char *
say_together (char **steps)
{
  guint n = g_strv_length (steps);
  g_autofree char *all_but_last = NULL;
  g_autofree char *last = g_strdup (steps[n - 1]);
  g_auto (GStrv) others = g_new0 (char *, n);

  for (guint i = 0; i + 1 < n; i++)
    others[i] = g_strdup (steps[i]);
  all_but_last = g_strjoinv (C_("list", ", "), others);
  /* Translators: numbers of steps: "3, 4" and "5" */
  return g_strdup_printf (_("%s and %s together"), all_but_last, last);
}

char *
hw_words_wish (const HwWish *wish)
{
  switch (wish->kind)
    {
    case HW_WISH_BEFORE:
      /* Translators: numbers of two steps: the first is sewn before the second */
      return g_strdup_printf (_("%s before %s"), wish->steps[0], wish->steps[1]);
    case HW_WISH_TOGETHER:
      return say_together (wish->steps);
    case HW_WISH_FIRST:
      /* Translators: a step's number: it is sewn first */
      return g_strdup_printf (_("%s first"), wish->steps[0]);
    case HW_WISH_LAST:
      /* Translators: a step's number: it is sewn last */
      return g_strdup_printf (_("%s last"), wish->steps[0]);
    default:
      g_return_val_if_reached (NULL);
    }
}

char *
hw_words_wish_cost (const HwWishAnswer *answer)
{
  g_autofree char *number = NULL;

  if (answer->minutes <= 0)
    return g_strdup (answer->proved ? _("no more changing") : _("hardly more changing"));
  number = hw_words_number (MAX (answer->minutes, 0.1), answer->minutes < 10 ? 1 : 0);
  /* Translators: minutes that a wish costs */
  return g_strdup_printf (answer->proved ? _("%s min more changing") : _("about %s min more changing"), number);
}

char *
hw_words_wish_more (const HwWishAnswer *answer)
{
  g_autofree char *number = hw_words_number (answer->minutes > 0 ? MAX (answer->minutes, 0.1) : 0,
                                             answer->minutes < 10 ? 1 : 0);

  /* Translators: minutes of changing that a wish adds */
  return g_strdup_printf (_("+%s min"), number);
}

static char *
say_chain (char **chain)
{
  char *text = g_strdup (chain[0]);
  guint n = g_strv_length (chain);

  for (guint i = 1; i < n; i++)
    {
      gboolean cut = i == CHAIN_SHOWN_MAX && n > CHAIN_SHOWN_MAX + 1;
      char *longer = g_strdup_printf (_("%s after %s"), text, cut ? "…" : chain[i]);

      g_free (text);
      text = longer;
      if (cut)
        i = n - 2;
    }
  return text;
}

char *
hw_words_wish_answer (const HwWish *wish, const HwWishAnswer *answer)
{
  g_autofree char *what = hw_words_wish (wish);
  g_autofree char *why = NULL;

  if (answer->possible)
    {
      why = hw_words_wish_cost (answer);
      /* Translators: a wish such as “4 before 2”, what it costs */
      return g_strdup_printf (_("%s: %s"), what, why);
    }
  if (answer->chain == NULL)
    return g_strdup (answer->refusal);
  why = say_chain (answer->chain);
  /* Translators: a wish such as “4 before 2”, and the chain that forbids it, such as “4 after 3 after 2” */
  return g_strdup_printf (answer->by_wishes ? _("%s cannot be: %s, by your other wishes too") : _("%s cannot be: %s"),
                          what, why);
}
