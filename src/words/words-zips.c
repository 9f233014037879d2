/* words-zips.c - how many zips a project takes
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A zip is set in one operation, or side by side in two. Only the names tell two sides of one zip from the zips of two
 * pockets: “Zip, first side” and “Zip, second side” are the same but for which side is meant.
 */

#include "config.h"

#include "words/words.h"

#include <glib/gi18n.h>

static gboolean
is_among (const char *word, const char *list)
{
  g_auto (GStrv) those = g_str_tokenize_and_fold (list, NULL, NULL);

  return g_strv_contains ((const char * const *) those, word);
}

/* What the sides of one zip are both called; NULL where @name tells of no side. (transfer full) */
static char *
find_common (const char *name)
{
  g_auto (GStrv) words = g_str_tokenize_and_fold (name, NULL, NULL);
  g_autoptr (GStrvBuilder) common = g_strv_builder_new ();
  g_auto (GStrv) rest = NULL;
  gboolean says_side = FALSE, says_which = FALSE;

  for (char **word = words; *word != NULL; word++)
    {
      /* Translators: words for one half of a zip in the name of a step that sets it, in small letters, with blanks
       * between them: “Zip, first side” */
      gboolean side = is_among (*word, _("side edge half tape front"));
      /* Translators: words that tell one side of a zip from the other, in small letters, with blanks between them */
      gboolean which = is_among (*word, _("first second one other left right 1 2 1st 2nd"));

      says_side |= side;
      says_which |= which;
      if (!which)
        g_strv_builder_add (common, *word);
    }
  rest = g_strv_builder_end (common);
  return says_side && says_which ? g_strjoinv (" ", rest) : NULL;
}

int
hw_words_count_zips (const HwProject *project)
{
  g_autoptr (GHashTable) halves = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  int n = 0;

  for (guint i = 0; i < project->steps->len; i++)
    {
      const HwStep *step = hw_project_get_step (project, i);
      char *common;

      if (step->kind != HW_STEP_OPERATION || g_strcmp0 (step->purpose, "zip") != 0)
        continue;
      common = find_common (step->name);
      if (common == NULL)
        n++;
      else if (g_hash_table_remove (halves, common))             /* the other side of one that is counted */
        g_free (common);
      else
        {
          g_hash_table_add (halves, common);
          n++;
        }
    }
  return n;
}
