/* quick-meaning.c - what a step typed in one row may be, by its name
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A name that one of the handbook's garments has for a step means that step. The project's own fabrics that it names
 * whole are passed over. Else the first of its words that names a purpose or a hand step decides: “press the hem” is
 * pressing, “lower hem” a hem. How many layers a purpose usually joins is the median of the garments’ own.
 */

#include "config.h"

#include "words/quick-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define SHORTEST_WORD 3
#define COUNTED_LAYERS 8
#define GAP_CLOSED "gap-closed"          /* the handbook's seam */
#define GAP_LAYERS 4                     /* two edges, each turned in */
#define LONGEST_ENDING 3                 /* letters: “topstitch-ing” */

enum { FROM_PURPOSE, FROM_HAND, FROM_GARMENT, FROM_SEAM };       /* of those that match alike the first comes first */

static const char * const hand_names[HW_N_HAND_KINDS] = {
  N_("press"), N_("trim"), N_("clip"), N_("turn"), N_("fuse"), N_("tack"), N_("hang"), N_("sew by hand"), NULL,
};

/* ---- what the handbook knows ---- */

static int
count_layers (const HwGarmentStep *step)
{
  int n = 0;

  for (gsize i = 0; i < step->n_plies; i++)
    n += step->plies[i].count;
  return n;
}

/* Half of the garments' steps of @purpose join fewer layers, half more. */
static int
find_usual_layers (const HwHandbook *handbook,
                   int               purpose)
{
  guint counts[COUNTED_LAYERS + 1] = { 0 };
  guint all = 0;
  guint n = 0;

  for (gsize i = 0; i < handbook->n_garments; i++)
    for (gsize j = 0; j < handbook->garments[i].n_steps; j++)
      {
        const HwGarmentStep *step = &handbook->garments[i].steps[j];

        if (step->by_hand || step->purpose != purpose)
          continue;
        counts[MIN (count_layers (step), COUNTED_LAYERS)]++;
        all++;
      }
  for (int layers = 1; layers <= COUNTED_LAYERS; layers++)
    {
      n += counts[layers];
      if (2 * n > all)
        return layers;
    }
  return 2;
}

static void
count_all_layers (HwQuick *self)
{
  self->layers = g_new0 (int, self->handbook->n_purposes + 1);
  for (gsize p = 0; p < self->handbook->n_purposes; p++)
    self->layers[p] = find_usual_layers (self->handbook, (int) p);
}

char *
hw_quick_describe (const HwQuick      *self,
                   const HwQuickGuess *guess)
{
  int seam = guess->seam;

  if (guess->by_hand)
    return g_strdup (_("by hand"));
  if (seam < 0)
    seam = self->handbook->purposes[guess->purpose].seam;
  return g_strdup (seam >= 0 ? self->handbook->seams[seam].entry.name
                             : self->handbook->purposes[guess->purpose].entry.name);
}

/* The first to have a name keeps it. */
static void
know (HwQuick            *self,
      guint               group,
      const char         *name,
      const HwQuickGuess *guess)
{
  g_autofree char *folded = g_utf8_casefold (name, -1);
  g_autofree char *detail = NULL;

  if (g_hash_table_contains (self->known, folded))
    return;
  detail = hw_quick_describe (self, guess);
  hw_find_add (self->steps, group, name, g_strcmp0 (detail, name) != 0 ? detail : "", NULL, name);
  g_hash_table_insert (self->known, g_steal_pointer (&folded), g_memdup2 (guess, sizeof *guess));
}

static HwHandKind
find_hand_kind (const char *id)
{
  for (int kind = 0; kind < HW_N_HAND_KINDS; kind++)
    if (g_str_equal (hw_hand_kind_ids[kind], id))
      return (HwHandKind) kind;
  return HW_HAND_OTHER;
}

static void
know_garments (HwQuick *self)
{
  const HwHandbook *handbook = self->handbook;

  for (gsize i = 0; i < handbook->n_garments; i++)
    for (gsize j = 0; j < handbook->garments[i].n_steps; j++)
      {
        const HwGarmentStep *step = &handbook->garments[i].steps[j];
        HwQuickGuess         guess = { step->by_hand, HW_HAND_OTHER, step->purpose, step->seam, step->stitch,
                                       count_layers (step) };

        if (step->by_hand)
          guess.hand = find_hand_kind (step->kind);
        know (self, FROM_GARMENT, step->name, &guess);
      }
}

static void
know_seams (HwQuick *self)
{
  const HwHandbook *handbook = self->handbook;
  int               seam = hw_handbook_find_purpose (handbook, "seam");

  for (gsize i = 0; i < handbook->n_purposes; i++)
    know (self, FROM_PURPOSE, handbook->purposes[i].entry.name,
          &(HwQuickGuess) { FALSE, HW_HAND_OTHER, (int) i, -1, -1, self->layers[i] });
  for (gsize i = 0; i < handbook->n_seams; i++)
    {
      know (self, FROM_SEAM, handbook->seams[i].entry.name,
            &(HwQuickGuess) { FALSE, HW_HAND_OTHER, MAX (seam, 0), (int) i, -1, self->layers[MAX (seam, 0)] });
      hw_find_add (self->seams, 0, handbook->seams[i].entry.name, "", NULL, handbook->seams[i].entry.id);
    }
  for (gsize i = 0; i < handbook->n_stitches; i++)
    hw_find_add (self->stitches, 0, handbook->stitches[i].entry.name, handbook->stitches[i].iso, NULL,
                 handbook->stitches[i].entry.id);
}

static void
know_hand_steps (HwQuick *self)
{
  for (int kind = 0; kind < HW_N_HAND_KINDS; kind++)
    if (hand_names[kind] != NULL)
      know (self, FROM_HAND, _(hand_names[kind]), &(HwQuickGuess) { TRUE, (HwHandKind) kind, 0, -1, -1, 0 });
  hw_find_add (self->seams, 1, _("by hand"), "", NULL, HW_QUICK_BY_HAND);
}

HwQuick *
hw_quick_new (const HwHandbook *handbook)
{
  HwQuick *self = g_new0 (HwQuick, 1);

  self->handbook = handbook;
  self->known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->steps = hw_find_new ();
  self->seams = hw_find_new ();
  self->stitches = hw_find_new ();
  count_all_layers (self);
  know_seams (self);
  know_hand_steps (self);
  know_garments (self);
  return self;
}

void
hw_quick_free (HwQuick *self)
{
  g_hash_table_unref (self->known);
  hw_find_free (self->steps);
  hw_find_free (self->seams);
  hw_find_free (self->stitches);
  g_free (self->layers);
  g_free (self);
}

/* ---- what is meant ---- */

/* “hems” and “hem”, “topstitch” and “topstitching”, “ease” and “easing” are the same word to a person; “buttons” and
 * “buttonhole” are not. */
static gboolean
is_same_word (const char *typed,
              const char *name)
{
  gsize n = 0;

  while (typed[n] != '\0' && typed[n] == name[n])
    n++;
  return n >= SHORTEST_WORD && n + 1 >= strlen (typed) && strlen (name + n) <= LONGEST_ENDING;
}

static gboolean
is_hand_word (const char *typed,
              const char *name)
{
  return g_str_has_prefix (typed, name) || (strlen (typed) >= SHORTEST_WORD && g_str_has_prefix (name, typed));
}

static char *
first_word (const char *name)
{
  g_auto (GStrv) words = g_str_tokenize_and_fold (name, "C", NULL);

  return g_strdup (words[0] != NULL ? words[0] : "");
}

static gboolean
guess_by_word (const HwQuick *self,
               const char    *typed,
               HwQuickGuess  *guess)
{
  for (int kind = 0; kind < HW_HAND_SEW; kind++)
    {
      g_autofree char *name = first_word (_(hand_names[kind]));

      if (is_hand_word (typed, name))
        {
          *guess = (HwQuickGuess) { TRUE, (HwHandKind) kind, 0, -1, -1, 0 };
          return TRUE;
        }
    }
  for (gsize i = 0; i < self->handbook->n_purposes; i++)
    {
      g_autofree char *name = first_word (self->handbook->purposes[i].entry.name);

      if (is_same_word (typed, name))
        {
          *guess = (HwQuickGuess) { FALSE, HW_HAND_OTHER, (int) i, -1, -1, self->layers[i] };
          return TRUE;
        }
    }
  return FALSE;
}

gboolean
hw_quick_has_word (char      **words,
                   const char *list)
{
  g_auto (GStrv) those = g_str_tokenize_and_fold (list, NULL, NULL);

  for (char **word = words; *word != NULL; word++)
    if (g_strv_contains ((const char * const *) those, *word))
      return TRUE;
  return FALSE;
}

/* “Close the gap in the lining”: both edges are turned in already, and sewn together along their folds. */
static gboolean
guess_gap (const HwQuick *self,
           char         **words,
           HwQuickGuess  *guess)
{
  int seam = hw_handbook_find_seam (self->handbook, GAP_CLOSED);

  /* Translators: verbs that say a gap is closed; in small letters, with blanks between them */
  if (seam < 0 || !hw_quick_has_word (words, _("close closing closed shut"))
      /* Translators: what is closed after turning the work through it; in small letters, with blanks between them */
      || !hw_quick_has_word (words, _("gap opening hole")))
    return FALSE;
  *guess = (HwQuickGuess) { FALSE, HW_HAND_OTHER, MAX (hw_handbook_find_purpose (self->handbook, "seam"), 0), seam, -1,
                            GAP_LAYERS };
  return TRUE;
}

gboolean
hw_quick_closes_gap (const HwQuick      *self,
                     const HwQuickGuess *guess)
{
  return !guess->by_hand && guess->seam >= 0
         && guess->seam == hw_handbook_find_seam (self->handbook, GAP_CLOSED);
}

/* Verbs that decide whatever else is named: “thread the elastic through”, “overlock the crotch seam”. */
static gboolean
guess_by_verb (const HwQuick *self,
               char         **words,
               HwQuickGuess  *guess)
{
  int neaten = hw_handbook_find_purpose (self->handbook, "neaten");
  int topstitch = hw_handbook_find_purpose (self->handbook, "topstitch");

  if (guess_gap (self, words, guess))
    return TRUE;
  /* Translators: verbs in a step's name that say it is done by hand, besides pressing, trimming and the like; in small
   * letters, with blanks between them */
  if (hw_quick_has_word (words, _("thread draw pull knot pin mark cut lay")))
    {
      *guess = (HwQuickGuess) { TRUE, HW_HAND_OTHER, 0, -1, -1, 0 };
      return TRUE;
    }
  /* Translators: words in a step's name that say its edges are sewn on an overlocker; in small letters, with blanks */
  if (neaten >= 0 && hw_quick_has_word (words, _("overlock overlocked overlocking serge")))
    {
      *guess = (HwQuickGuess) { FALSE, HW_HAND_OTHER, neaten, -1, hw_handbook_find_stitch (self->handbook, "504"),
                                self->layers[neaten] };
      return TRUE;
    }
  /* Translators: words in a step's name that say a row is sewn close to an edge; in small letters, with blanks */
  if (topstitch >= 0 && hw_quick_has_word (words, _("edgestitch edgestitched edgestitching")))
    {
      *guess = (HwQuickGuess) { FALSE, HW_HAND_OTHER, topstitch, -1, -1, self->layers[topstitch] };
      return TRUE;
    }
  return FALSE;
}

/* “Slipstitch the opening”, “close the opening by hand” */
static gboolean
says_by_hand (const char *folded)
{
  /* Translators: what in a step's name says that it is sewn by hand; in small letters, with “;” between them */
  g_auto (GStrv) ways = g_strsplit (_("by hand;slipstitch;slip stitch;slip-stitch;whipstitch;whip stitch;ladder "
                                      "stitch;catchstitch;catch stitch;hand-sew;hand sew;handsew"), ";", -1);

  for (char **way = ways; *way != NULL; way++)
    if (strstr (folded, *way) != NULL)
      return TRUE;
  return FALSE;
}

/* A step that has all the words typed, two of them at least: “Sew on buttons” is “Sew the buttons on”. */
static const HwQuickGuess *
find_known (const HwQuick *self,
            const char    *name,
            char         **words)
{
  g_autoptr (GPtrArray) found = g_strv_length (words) > 1 ? hw_find_ask (self->steps, name, 1, NULL) : NULL;
  g_autofree char *folded = NULL;

  if (found == NULL || found->len == 0)
    return NULL;
  folded = g_utf8_casefold (((const HwFindThing *) found->pdata[0])->target, -1);
  return g_hash_table_lookup (self->known, folded);
}

/* FALSE: it says nothing that is known; *@guess stays. A part of a name is not looked for in longer ones: “Lining to
 * the”, of what it is sewn to. */
static gboolean
guess_by_name (const HwQuick *self,
               const char    *name,
               gboolean       is_part,
               HwQuickGuess  *guess)
{
  g_autofree char    *tidy = g_strstrip (g_strdup (name));
  g_autofree char    *folded = g_utf8_casefold (tidy, -1);
  g_auto (GStrv)      words = g_str_tokenize_and_fold (tidy, "C", NULL);
  const HwQuickGuess *known = g_hash_table_lookup (self->known, folded);

  if (known == NULL && says_by_hand (folded))
    {
      *guess = (HwQuickGuess) { TRUE, HW_HAND_SEW, 0, -1, -1, 0 };
      return TRUE;
    }
  if (known == NULL && guess_by_verb (self, words, guess))
    return TRUE;
  for (char **word = words; known == NULL && *word != NULL; word++)
    if (guess_by_word (self, *word, guess))
      return TRUE;
  if (known == NULL && !is_part)
    known = find_known (self, tidy, words);
  if (known != NULL)
    *guess = *known;
  return known != NULL;
}

/* The project's own words for its fabrics are passed over, but in a name that the handbook has. */
static gboolean
guess_by_work (const HwQuick   *self,
               const HwProject *project,
               const char      *name,
               HwQuickGuess    *guess)
{
  g_autofree char *tidy = g_strstrip (g_utf8_casefold (name, -1));
  gboolean         is_whole = project == NULL || g_hash_table_contains (self->known, tidy);
  g_autofree char *rest = is_whole ? NULL : hw_quick_cut_fabrics (self, project, name);

  return guess_by_name (self, rest != NULL ? rest : name, rest != NULL, guess);
}

gboolean
hw_quick_knows (const HwQuick   *self,
                const HwProject *project,
                const char      *name)
{
  HwQuickGuess guess;

  return guess_by_work (self, project, name, &guess);
}

const char *
hw_quick_find_seam (const HwQuick *self,
                    const char    *text)
{
  g_autoptr (GPtrArray) found = hw_find_ask (self->seams, text, 1, NULL);

  return found->len > 0 ? ((const HwFindThing *) found->pdata[0])->target : NULL;
}

void
hw_quick_guess (const HwQuick   *self,
                const HwProject *project,
                const char      *name,
                const char      *seam,
                HwQuickGuess    *guess)
{
  const char  *said = hw_quick_find_seam (self, seam);
  int          plain = MAX (hw_handbook_find_purpose (self->handbook, "seam"), 0);
  HwQuickGuess operation = { FALSE, HW_HAND_OTHER, plain, -1, -1, self->layers[plain] };
  gboolean     is_blank = seam[strspn (seam, " ")] == '\0';

  *guess = operation;
  guess_by_work (self, project, name, guess);
  if (g_strcmp0 (said, HW_QUICK_BY_HAND) == 0)
    {
      if (!guess->by_hand)
        *guess = (HwQuickGuess) { TRUE, HW_HAND_SEW, 0, -1, -1, 0 };
      return;
    }
  if (!is_blank && guess->by_hand)
    *guess = operation;
  if (said != NULL)
    guess->seam = hw_handbook_find_seam (self->handbook, said);
}
