/* quick-after.c - what a step typed in one row comes after, where nobody says
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is pressed or trimmed is what was sewn just before. An operation follows the last step on each part of the
 * garment that it names: “Topstitch the collar” comes after “Collar, outer edge”, and not after the pockets typed in
 * between, for whatever is not bound leaves the order of work free to save changes; “Collar to neck” comes after what
 * was done to both. Where that step was pressed or turned since, the operation comes after that. Words of work bind
 * nothing: “Side seams” and “Shoulder seams” are two parts. Of a part that nothing was done to yet the handbook's
 * garments know what goes before: the side seams before “Box the corners”, the shoulders before “Set the sleeves in”.
 */

#include "config.h"

#include "handbook/garments.h"
#include "words/quick-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define SHORTEST 3                       /* letters: “hip”, “fly”; shorter ones are no part */
#define ENDING 2                         /* “collar” and “collars” */

gboolean
hw_quick_same_part (const char *a,
                    const char *b)
{
  gsize same = 0;

  while (a[same] != '\0' && a[same] == b[same])
    same++;
  return same >= SHORTEST && strlen (a + same) <= ENDING && strlen (b + same) <= ENDING
         && (a[same] == '\0' || b[same] == '\0');
}

static gboolean
has_part (char       **words,
          const char  *part)
{
  for (char **word = words; *word != NULL; word++)
    if (hw_quick_same_part (*word, part))
      return TRUE;
  return FALSE;
}

/* Words that bind nothing. (transfer full) */
static char **
find_work (void)
{
  /* Translators: words in the names of steps that say what is done or where, and no part of the garment; in small
   * letters, with blanks between them. A step typed in a row comes after the last one with another word of its name. */
  const char *working = _("seam seams row rows pass first second join joined press pressed sew sewn stitch topstitch "
                          "edgestitch staystitch neaten overlock hem set close attach finish edge edges left right "
                          "both inner outer upper lower and the with from into onto trim turn turned clip fold "
                          "folded together");

  return g_str_tokenize_and_fold (working, NULL, NULL);
}

/* Work that is a part of the garment too where a name says no other: “Topstitch the hem”. (transfer full) */
static char **
find_worked (void)
{
  /* Translators: of the words above those that are also a part of the garment; in small letters, with blanks between
   * them. “Topstitch the hem” comes after the last step with “hem” in its name. */
  const char *worked = _("hem edge edges");

  return g_str_tokenize_and_fold (worked, NULL, NULL);
}

/* The words of @name that are in @list, or (@in FALSE) that are not. (transfer full) */
static char **
find_words (const char         *name,
            const char * const *list,
            gboolean            in)
{
  g_auto (GStrv) words = g_str_tokenize_and_fold (name, NULL, NULL);
  g_autoptr (GStrvBuilder) found = g_strv_builder_new ();

  for (char **word = words; *word != NULL; word++)
    if (strlen (*word) >= SHORTEST && g_strv_contains (list, *word) == in)
      g_strv_builder_add (found, *word);
  return g_strv_builder_end (found);
}

/* Marks the last step on each part that @name says; whether there is one. */
static gboolean
mark_last (const HwProject *project,
           const char      *name,
           gboolean        *follows)
{
  g_auto (GStrv) work = find_work ();
  g_auto (GStrv) worked = find_worked ();
  g_auto (GStrv) named = find_words (name, (const char * const *) work, FALSE);
  gboolean is_named = named[0] != NULL;
  g_auto (GStrv) parts = is_named ? g_steal_pointer (&named)
                                  : find_words (name, (const char * const *) worked, TRUE);
  const char * const *list = (const char * const *) (is_named ? work : worked);
  gsize n = g_strv_length (parts);
  gsize left = n;
  g_autofree gboolean *found = g_new0 (gboolean, n + 1);

  for (guint i = project->steps->len; i-- > 0 && left > 0;)
    {
      g_auto (GStrv) others = find_words (hw_project_get_step (project, i)->name, list, !is_named);

      for (gsize p = 0; parts[p] != NULL; p++)
        if (!found[p] && has_part (others, parts[p]))
          {
            found[p] = follows[i] = TRUE;
            left--;
          }
    }
  return left < n;
}

/* Whether all that @name says is in the step's name, the work too: “Set the sleeves” is no “Sleeve plackets”. */
static gboolean
is_about (const HwGarmentStep *step,
          const char          *name)
{
  static const char * const none[] = { NULL };
  g_auto (GStrv) said = find_words (name, none, FALSE);
  g_auto (GStrv) words = find_words (step->name, none, FALSE);

  for (char **word = said; *word != NULL; word++)
    if (!g_str_equal (*word, "the") && !has_part (words, *word))
      return FALSE;
  return !step->by_hand && said[0] != NULL;
}

/* Marks what @step of @garment comes after; whether that was done here. */
static gboolean
mark_before (const HwProject     *project,
             const HwGarment     *garment,
             const HwGarmentStep *step,
             gboolean            *follows)
{
  gboolean marked = FALSE;

  for (gsize i = 0; i < garment->n_steps; i++)
    if (g_strv_contains ((const char * const *) step->after, garment->steps[i].number)
        && mark_last (project, garment->steps[i].name, follows))
      marked = TRUE;
  return marked;
}

static void
mark_as_garments (const HwHandbook *handbook,
                  const HwProject  *project,
                  const char       *name,
                  gboolean         *follows)
{
  for (gsize i = 0; i < handbook->n_garments; i++)
    for (gsize j = 0; j < handbook->garments[i].n_steps; j++)
      {
        const HwGarmentStep *step = &handbook->garments[i].steps[j];

        if (is_about (step, name) && mark_before (project, &handbook->garments[i], step, follows))
          return;
      }
}

static gboolean
comes_after (const HwStep *step,
             const char   *number)
{
  return step->after != NULL && g_strv_contains ((const char * const *) step->after, number);
}

/* “Turn it out” after “Bag to lining” goes before “Topstitch the bag”. */
static void
go_on_by_hand (const HwProject *project,
               gboolean        *follows)
{
  for (guint i = 0; i < project->steps->len; i++)
    for (guint j = i + 1; follows[i] && j < project->steps->len; j++)
      {
        const HwStep *step = hw_project_get_step (project, j);

        if (step->kind == HW_STEP_HAND && comes_after (step, hw_project_get_step (project, i)->number))
          {
            follows[i] = FALSE;
            follows[j] = TRUE;
          }
      }
}

char *
hw_quick_follows (const HwHandbook *handbook,
                  const HwProject  *project,
                  const char       *name,
                  gboolean          by_hand)
{
  g_autoptr (GString) numbers = g_string_new (NULL);
  g_autofree gboolean *follows = NULL;
  gsize n = project != NULL ? project->steps->len : 0;

  follows = g_new0 (gboolean, n + 1);
  if (by_hand && n > 0)
    follows[n - 1] = TRUE;
  else if (n > 0)
    {
      if (!mark_last (project, name, follows))
        mark_as_garments (handbook, project, name, follows);
      go_on_by_hand (project, follows);
    }
  for (gsize i = 0; i < n; i++)
    if (follows[i])
      g_string_append_printf (numbers, "%s%s", numbers->len > 0 ? " " : "", hw_project_get_step (project, i)->number);
  return numbers->len > 0 ? g_string_free (g_steal_pointer (&numbers), FALSE) : NULL;
}
