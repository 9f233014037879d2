/* quick-after.c - what a step typed in one row comes after, where nobody says
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is pressed or trimmed is what was sewn just before. An operation follows the last step on each part of the
 * garment that it names: “Topstitch the collar” comes after “Collar, outer edge”, and not after the pockets typed in
 * between, for whatever is not bound leaves the order of work free to save changes; “Collar to neck” comes after what
 * was done to both. The lining's seams follow none of the cloth's. Where that step was pressed or turned since, the
 * operation comes after that. Words of work bind nothing: “Side seams” and “Shoulder seams” are two parts. What else
 * goes before, the handbook's garments know: the side seams before “Box the corners” and “Hem”, the shoulders before
 * “Set the sleeves”. A hem, and what nobody knows, comes after what was typed last.
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

/* Words that bind nothing. */
char **
hw_quick_work_words (void)
{
  /* Translators: words in the names of steps that say what is done or where, and no part of the garment; in small
   * letters, with blanks between them. A step typed in a row comes after the last one with another word of its name. */
  const char *working = _("seam seams row rows pass first second join joined press pressed sew sewn stitch topstitch "
                          "edgestitch staystitch neaten overlock hem set close attach finish edge edges left right "
                          "both inner outer upper lower and the with from into onto trim turn turned clip fold "
                          "folded together flat hems");

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

/* What is asked for, and which steps come before it. */
typedef struct
{
  const HwQuick         *quick;
  const HwProject       *project;
  HwQuickLayers          layers;
  gboolean              *follows;        /* one a step */
} Follow;

static gboolean
is_of_fabric (const HwStep *step,
              const char   *fabric)
{
  for (gsize i = 0; i < step->n_plies; i++)
    if (g_str_equal (step->plies[i].fabric, fabric))
      return TRUE;
  return FALSE;
}

/* “Side seams of the lining” follows no side seams of the cloth; work by hand may be on either. */
static gboolean
is_of_same_cloth (const Follow *self,
                  const HwStep *step)
{
  for (gsize i = 0; i < self->layers.n; i++)
    if (is_of_fabric (step, self->layers.fabrics[i]->id))
      return TRUE;
  return step->kind == HW_STEP_HAND || self->layers.n == 0;
}

/* Marks the last step that has each of the @parts among its words that are in @list, or (@in FALSE) are not. */
static void
mark_last (Follow             *self,
           char              **parts,
           const char * const *list,
           gboolean            in)
{
  gsize n = g_strv_length (parts);
  gsize left = n;
  g_autofree gboolean *found = g_new0 (gboolean, n + 1);

  for (guint i = self->project->steps->len; i-- > 0 && left > 0;)
    {
      const HwStep *step = hw_project_get_step (self->project, i);
      g_auto (GStrv) others = NULL;

      if (!is_of_same_cloth (self, step))
        continue;
      others = find_words (step->name, list, in);
      for (gsize p = 0; parts[p] != NULL; p++)
        if (!found[p] && has_part (others, parts[p]))
          {
            found[p] = self->follows[i] = TRUE;
            left--;
          }
    }
}

/* The last steps on the parts that @name says; where it says none, on its work: “Topstitch the hem”. */
static void
follow_parts (Follow     *self,
              const char *name,
              gboolean    is_hem)
{
  g_auto (GStrv) work = hw_quick_work_words ();
  g_auto (GStrv) worked = find_worked ();
  g_auto (GStrv) named = find_words (name, (const char * const *) work, FALSE);
  g_auto (GStrv) on = find_words (name, (const char * const *) worked, TRUE);

  if (named[0] != NULL)
    mark_last (self, named, (const char * const *) work, FALSE);
  else if (!is_hem)
    mark_last (self, on, (const char * const *) worked, TRUE);
}

/* ---- as the handbook's garments ---- */

static gboolean
are_all_among (char **parts,
               char **others)
{
  for (char **part = parts; *part != NULL; part++)
    if (!has_part (others, *part))
      return FALSE;
  return TRUE;
}

/* The same work on the same parts, and perhaps on others with them: “Side and underarm seams” for “Side seams”. */
static gboolean
is_about (const HwGarmentStep *step,
          int                  purpose,
          char               **parts,
          const char * const  *work)
{
  g_auto (GStrv) own = NULL;

  if (step->by_hand || step->purpose != purpose)
    return FALSE;
  own = find_words (step->name, work, FALSE);
  return are_all_among (parts, own) && (parts[0] != NULL || own[0] == NULL);
}

/* Marks the operations that @step of @garment comes after, those before work by hand too. */
static void
mark_before (Follow              *self,
             const HwGarment     *garment,
             const HwGarmentStep *step,
             const char * const  *work)
{
  for (gsize i = 0; i < garment->n_steps; i++)
    {
      const HwGarmentStep *before = &garment->steps[i];
      g_auto (GStrv) parts = NULL;

      if (!g_strv_contains ((const char * const *) step->after, before->number))
        continue;
      parts = find_words (before->name, work, FALSE);
      if (!before->by_hand)
        mark_last (self, parts, work, FALSE);
      else
        mark_before (self, garment, before, work);
    }
}

static void
follow_garments (Follow     *self,
                 const char *name,
                 int         purpose)
{
  const HwHandbook *handbook = self->quick->handbook;
  g_auto (GStrv) list = hw_quick_work_words ();
  const char * const *work = (const char * const *) list;
  g_auto (GStrv) parts = find_words (name, work, FALSE);

  for (gsize i = 0; i < handbook->n_garments; i++)
    for (gsize j = 0; j < handbook->garments[i].n_steps; j++)
      if (is_about (&handbook->garments[i].steps[j], purpose, parts, work))
        mark_before (self, &handbook->garments[i], &handbook->garments[i].steps[j], work);
}

/* ---- by hand since ---- */

static gboolean
comes_after (const HwStep *step,
             const char   *number)
{
  return step->after != NULL && g_strv_contains ((const char * const *) step->after, number);
}

/* “Turn it out” after “Bag to lining” goes before “Topstitch the bag”. */
static void
go_on_by_hand (Follow *self)
{
  guint n = self->project->steps->len;

  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; self->follows[i] && j < n; j++)
      {
        const HwStep *step = hw_project_get_step (self->project, j);

        if (step->kind == HW_STEP_HAND && comes_after (step, hw_project_get_step (self->project, i)->number))
          {
            self->follows[i] = FALSE;
            self->follows[j] = TRUE;
          }
      }
}

/* What is unknown is taken to be sewn in the order in which it was typed: that can be sewn, if not the quickest. */
static void
follow_last (Follow *self)
{
  guint n = self->project->steps->len;

  for (guint i = 0; i < n; i++)
    if (self->follows[i])
      return;
  self->follows[n - 1] = TRUE;
}

static void
follow (Follow             *self,
        const char         *name,
        const HwQuickGuess *guess)
{
  const char *purpose = self->quick->handbook->purposes[guess->purpose].entry.id;
  g_autofree char *rest = hw_quick_cut_fabrics (self->quick, self->project, name);
  const char *parts = rest != NULL ? rest : name;      /* a cloth is no part of the garment */

  hw_quick_usual_layers (self->quick, self->project, name, guess, &self->layers);
  if (hw_quick_closes_gap (self->quick, guess))
    {
      self->follows[self->project->steps->len - 1] = TRUE;       /* what it was left open for is done */
      return;
    }
  follow_parts (self, parts, g_str_equal (purpose, "hem"));
  if (self->layers.turned >= 0)
    self->follows[self->layers.turned] = TRUE;
  else
    follow_garments (self, parts, guess->purpose);
  if (g_str_equal (purpose, "hem") || !hw_quick_knows (self->quick, self->project, name))
    follow_last (self);
  go_on_by_hand (self);
}

char *
hw_quick_follows (const HwQuick      *quick,
                  const HwProject    *project,
                  const char         *name,
                  const HwQuickGuess *guess)
{
  g_autoptr (GString) numbers = g_string_new (NULL);
  gsize n = project != NULL ? project->steps->len : 0;
  g_autofree gboolean *follows = g_new0 (gboolean, n + 1);
  Follow self = { .quick = quick, .project = project, .follows = follows };

  if (guess->by_hand && n > 0)
    follows[n - 1] = TRUE;
  else if (n > 0)
    follow (&self, name, guess);
  for (gsize i = 0; i < n; i++)
    if (follows[i])
      g_string_append_printf (numbers, "%s%s", numbers->len > 0 ? " " : "", hw_project_get_step (project, i)->number);
  return numbers->len > 0 ? g_string_free (g_steal_pointer (&numbers), FALSE) : NULL;
}
