/* quick-cloth.c - which fabrics a step typed in one row is sewn of, by its name
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A fabric that is named whole is that fabric and no work: the side seams of “Quilting cotton” are no quilting. Else a
 * word of its name that no other fabric has names it. “Lining” names the lining even where it is called otherwise: the
 * fabric that the handbook knows as one, else the lightest. What is turned to the right side after two fabrics were
 * joined has two layers of each at its edge.
 */

#include "config.h"

#include "words/quick-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "plan/pairing.h"

/* the handbook's fabrics */
#define LINING "lining"
#define ZIP "zip-tape"

HwFind *
hw_quick_find_fabrics (const HwProject *project)
{
  HwFind *find = hw_find_new ();

  for (guint i = 0; i < project->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = project->fabrics->pdata[i];

      hw_find_add (find, 0, fabric->name, "", fabric->colour, fabric->id);
    }
  return find;
}

/* ---- kinds of fabric ---- */

/* Tape, elastic and what else goes with a cloth is none; what is not known is. */
static gboolean
is_cloth (const HwHandbook *handbook,
          const HwCloth    *cloth)
{
  int backing = hw_handbook_find_trait (handbook, "backing");

  return (backing < 0 || (cloth->traits & HW_SET (backing)) == 0)
         && cloth->construction != hw_handbook_find_construction (handbook, "tape")
         && cloth->construction != hw_handbook_find_construction (handbook, "elastic");
}

/* The project's fabrics resolved: all taken as unknown cloth where one of them cannot be. (transfer full) */
static GArray *
resolve (const HwQuick   *self,
         const HwProject *project)
{
  GArray *cloths = hw_cloths_resolve (self->handbook, project, NULL);

  if (cloths == NULL)
    cloths = g_array_sized_new (FALSE, FALSE, sizeof (HwCloth), project->fabrics->len);
  while (cloths->len < project->fabrics->len)
    {
      HwCloth unknown = { .fabric = g_ptr_array_index (project->fabrics, cloths->len), .construction = -1 };

      g_array_append_val (cloths, unknown);
    }
  return cloths;
}

static gboolean
is_lining (const HwCloth *cloth)
{
  return g_strcmp0 (cloth->fabric->handbook, LINING) == 0;
}

/* Of several the one that is a lining by its kind, else the lightest, else the later; -1: there is but one cloth. */
static int
find_lining (const HwQuick *self,
             const GArray  *cloths)
{
  guint n = 0;
  int   found = -1;

  for (guint i = 0; i < cloths->len; i++)
    {
      const HwCloth *cloth = &g_array_index (cloths, HwCloth, i);
      const HwCloth *best = found >= 0 ? &g_array_index (cloths, HwCloth, found) : NULL;

      if (!is_cloth (self->handbook, cloth))
        continue;
      n++;
      if (best == NULL || (is_lining (cloth) && !is_lining (best))
          || (is_lining (cloth) == is_lining (best) && cloth->mass_g_m2 <= best->mass_g_m2))
        found = (int) i;
    }
  return n > 1 ? found : -1;
}

/* ---- what a name names ---- */

static gboolean
is_word (const char *a,
         const char *b)
{
  return g_str_equal (a, b) || hw_quick_same_part (a, b);
}

/* Where all the words of @name stand in @words one after another, none of them @used; -1 nowhere. */
static int
find_run (char          **words,
          const gboolean *used,
          char          **name)
{
  guint n = g_strv_length (name);
  guint n_words = g_strv_length (words);

  for (guint at = 0; n > 0 && at + n <= n_words; at++)
    {
      guint same = 0;

      while (same < n && !used[at + same] && is_word (words[at + same], name[same]))
        same++;
      if (same == n)
        return (int) at;
    }
  return -1;
}

/* Marks where @words name a fabric whole, the longest names first; @fabrics, one each, is set for those named. */
static void
mark_whole (const HwProject *project,
            char           **words,
            gboolean        *used,
            gboolean        *fabrics)
{
  guint longest = g_strv_length (words);

  for (guint n = longest; n > 0; n--)
    for (guint i = 0; i < project->fabrics->len; i++)
      {
        const HwProjectFabric *fabric = g_ptr_array_index (project->fabrics, i);
        g_auto (GStrv) name = g_str_tokenize_and_fold (fabric->name, NULL, NULL);
        int at = g_strv_length (name) == n ? find_run (words, used, name) : -1;

        for (guint w = 0; at >= 0 && w < n; w++)
          used[(guint) at + w] = fabrics[i] = TRUE;
      }
}

/* The only fabric with @word in its name; -1: none, or several. */
static int
find_by_word (const HwProject *project,
              const char      *word)
{
  int found = -1;

  for (guint i = 0; i < project->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = g_ptr_array_index (project->fabrics, i);
      g_auto (GStrv) name = g_str_tokenize_and_fold (fabric->name, NULL, NULL);
      gboolean has = FALSE;

      for (char **part = name; *part != NULL && !has; part++)
        has = hw_quick_same_part (*part, word);
      if (has && found >= 0)
        return -1;
      if (has)
        found = (int) i;
    }
  return found;
}

static gboolean
begins_with_one (const char *word,
                 const char *list)
{
  g_auto (GStrv) those = g_str_tokenize_and_fold (list, NULL, NULL);

  for (char **that = those; *that != NULL; that++)
    if (g_str_has_prefix (word, *that))
      return TRUE;
  return FALSE;
}

/* What a step's name says of its fabrics, by place among them. */
typedef struct
{
  guint    n, first, second;
  gboolean as_lining;                    /* only by being the lining */
} Named;

static void
find_named (const HwQuick   *self,
            const HwProject *project,
            const GArray    *cloths,
            char           **words,
            Named           *named)
{
  guint n_fabrics = project->fabrics->len;
  g_autofree gboolean *used = g_new0 (gboolean, g_strv_length (words) + 1);
  g_autofree gboolean *fabrics = g_new0 (gboolean, n_fabrics + 1);
  g_auto (GStrv) work = hw_quick_work_words ();

  *named = (Named) { 0, 0, 0, FALSE };
  mark_whole (project, words, used, fabrics);
  for (guint w = 0; words[w] != NULL; w++)
    {
      int fabric = used[w] || g_strv_contains ((const char * const *) work, words[w])
                   ? -1 : find_by_word (project, words[w]);

      /* Translators: how words begin that name the lining of a garment, in small letters, with blanks between them */
      if (fabric < 0 && !used[w] && begins_with_one (words[w], C_("cloth", "lining"))
          && (fabric = find_lining (self, cloths)) >= 0 && !fabrics[fabric])
        named->as_lining = TRUE;
      if (fabric >= 0)
        fabrics[fabric] = TRUE;
    }
  for (guint i = n_fabrics; i-- > 0;)
    if (fabrics[i])
      {
        named->second = named->first;
        named->first = i;
        named->n++;
      }
}

char *
hw_quick_cut_fabrics (const HwQuick   *self,
                      const HwProject *project,
                      const char      *name)
{
  g_auto (GStrv) words = g_str_tokenize_and_fold (name, NULL, NULL);
  g_autoptr (GArray) cloths = resolve (self, project);
  g_autofree gboolean *used = g_new0 (gboolean, g_strv_length (words) + 1);
  g_autoptr (GStrvBuilder) left = g_strv_builder_new ();
  g_auto (GStrv) rest = NULL;
  int bind = hw_handbook_find_purpose (self->handbook, "bind");

  for (guint i = 0; i < cloths->len; i++)
    {
      const HwCloth *cloth = &g_array_index (cloths, HwCloth, i);
      g_auto (GStrv) own = g_str_tokenize_and_fold (cloth->fabric->name, NULL, NULL);
      HwQuickGuess guess;
      int at = find_run (words, used, own);

      if (at < 0 || !is_cloth (self->handbook, cloth))
        continue;
      hw_quick_guess (self, NULL, cloth->fabric->name, "", &guess);
      for (guint w = 0; (guess.by_hand || guess.purpose != bind) && own[w] != NULL; w++)
        used[(guint) at + w] = TRUE;
    }
  for (guint w = 0; words[w] != NULL; w++)
    if (!used[w])
      g_strv_builder_add (left, words[w]);
  rest = g_strv_builder_end (left);
  return rest[0] != NULL && g_strv_length (rest) < g_strv_length (words) ? g_strjoinv (" ", rest) : NULL;
}

/* ---- what was joined before ---- */

static int
find_fabric (const HwProject *project,
             const char      *id)
{
  for (guint i = 0; i < project->fabrics->len; i++)
    if (g_str_equal (((const HwProjectFabric *) g_ptr_array_index (project->fabrics, i))->id, id))
      return (int) i;
  return -1;
}

/* A layer of one cloth sewn to a layer of another, and nothing else: to be turned. */
static gboolean
joins_two (const HwQuick   *self,
           const HwProject *project,
           const GArray    *cloths,
           const HwStep    *step)
{
  if (step->kind != HW_STEP_OPERATION || step->n_plies != 2 || g_strcmp0 (step->purpose, "seam") != 0)
    return FALSE;
  for (gsize i = 0; i < step->n_plies; i++)
    {
      int fabric = find_fabric (project, step->plies[i].fabric);

      if (step->plies[i].count != 1 || fabric < 0
          || !is_cloth (self->handbook, &g_array_index (cloths, HwCloth, fabric)))
        return FALSE;
    }
  return TRUE;
}

static int
find_join (const HwQuick   *self,
           const HwProject *project,
           const GArray    *cloths)
{
  for (guint i = project->steps->len; i-- > 0;)
    if (joins_two (self, project, cloths, hw_project_get_step (project, i)))
      return (int) i;
  return -1;
}

static gboolean
is_last_operation (const HwProject *project,
                   int              step)
{
  for (guint i = (guint) step + 1; i < project->steps->len; i++)
    if (hw_project_get_step (project, i)->kind == HW_STEP_OPERATION)
      return FALSE;
  return TRUE;
}

/* Is a row of that name sewn along the edge that @step has joined? “Topstitch the top edge”, “Topstitch the bag” after
 * “Bag to lining”; not “Topstitch the pocket”. */
static gboolean
is_along (const HwProject *project,
          int              step,
          char           **words)
{
  g_auto (GStrv) work = hw_quick_work_words ();
  /* Translators: words that name the edge of something lined, in small letters, with blanks between them:
   * “Topstitch the top edge” */
  g_auto (GStrv) edges = g_str_tokenize_and_fold (_("top opening mouth edge edges rim all round around"), NULL, NULL);
  g_auto (GStrv) joined = g_str_tokenize_and_fold (hw_project_get_step (project, (guint) step)->name, NULL, NULL);
  gboolean says_where = FALSE;

  for (char **word = words; *word != NULL; word++)
    {
      gboolean is_edge = g_strv_contains ((const char * const *) edges, *word);
      gboolean is_part = !is_edge && strlen (*word) >= 3 && !g_strv_contains ((const char * const *) work, *word)
                         && !begins_with_one (*word, "topstitch");
      gboolean same = FALSE;

      for (char **other = joined; is_part && *other != NULL && !same; other++)
        same = hw_quick_same_part (*other, *word);
      if (is_part && !same)
        return FALSE;
      says_where |= is_edge || is_part;
    }
  return says_where || is_last_operation (project, step);
}

/* ---- the layers ---- */

static void
set_layers (HwQuickLayers         *layers,
            const HwProjectFabric *fabric,
            int                    count)
{
  layers->fabrics[layers->n] = fabric;
  layers->counts[layers->n++] = count;
}

/* As many of each as @step has, twice over, for all edges are turned in. */
static void
turn_layers (HwQuickLayers   *layers,
             const HwProject *project,
             int              step_index)
{
  const HwStep *step = hw_project_get_step (project, (guint) step_index);

  for (gsize i = 0; i < MIN (step->n_plies, G_N_ELEMENTS (layers->fabrics)); i++)
    set_layers (layers, hw_project_find_fabric (project, step->plies[i].fabric), 2 * step->plies[i].count);
  layers->turned = step_index;
}

/* The last seam that was left open for a while, else the lining's last, else what joins two cloths; -1: none. */
static int
find_open_seam (const HwQuick   *self,
                const HwProject *project,
                const GArray    *cloths)
{
  int join = find_join (self, project, cloths);
  int lining = join >= 0 ? find_lining (self, cloths) : -1;
  int found = join;

  for (guint i = project->steps->len; i-- > 0;)
    {
      const HwStep *step = hw_project_get_step (project, i);
      g_auto (GStrv) words = g_str_tokenize_and_fold (step->name, NULL, NULL);

      if (step->kind != HW_STEP_OPERATION || step->n_plies == 0)
        continue;
      /* Translators: words that say a seam is left open to turn the work through, in small letters, with blanks */
      if (hw_quick_has_word (words, _("gap leave leaving")))
        return (int) i;
      if (found == join && lining >= 0 && step->n_plies == 1
          && find_fabric (project, step->plies[0].fabric) == lining)
        found = (int) i;
    }
  return found;
}

/* The step whose layers lie turned in where this one is sewn; -1: none. */
static int
find_turned (const HwQuick      *self,
             const HwProject    *project,
             const GArray       *cloths,
             char              **words,
             const Named        *named,
             const HwQuickGuess *guess)
{
  int join;

  if (guess->layers < 1 || named->n > 0)
    return -1;
  if (hw_quick_closes_gap (self, guess))
    return find_open_seam (self, project, cloths);
  if (guess->purpose != hw_handbook_find_purpose (self->handbook, "topstitch") || guess->seam >= 0)
    return -1;
  join = find_join (self, project, cloths);
  return join >= 0 && is_along (project, join, words) ? join : -1;
}

/* The zip or elastic that goes with a cloth: one layer of it. -1: the work wants none, or the project has none. */
static int
find_tape (const HwQuick      *self,
           const GArray       *cloths,
           const HwQuickGuess *guess)
{
  gboolean zip = guess->purpose == hw_handbook_find_purpose (self->handbook, "zip");
  int elastic = hw_handbook_find_construction (self->handbook, "elastic");

  if (guess->layers < 2 || (!zip && guess->purpose != hw_handbook_find_purpose (self->handbook, "elastic")))
    return -1;
  for (guint i = 0; i < cloths->len; i++)
    {
      const HwCloth *cloth = &g_array_index (cloths, HwCloth, i);

      if (zip ? g_strcmp0 (cloth->fabric->handbook, ZIP) == 0 : cloth->construction == elastic)
        return (int) i;
    }
  return -1;
}

/* The first that is not @other; -1: none. */
static int
find_other (const HwProject *project,
            guint            other)
{
  for (guint i = 0; i < project->fabrics->len; i++)
    if (i != other)
      return (int) i;
  return -1;
}

/* Two that are named, or one that is joined to another; FALSE: neither. */
static gboolean
take_both (const HwProject    *project,
           char              **words,
           const Named        *named,
           const HwQuickGuess *guess,
           HwQuickLayers      *layers)
{
  int first = (int) named->first;
  int second = (int) named->second;

  if (guess->layers < 2 || guess->layers % 2 != 0 || named->n == 0 || named->n > 2)
    return FALSE;
  if (named->n == 1)
    {
      first = find_other (project, named->first);
      second = (int) named->first;
      /* Translators: words between two things that a step joins, in small letters, with blanks between them */
      if (first < 0 || guess->layers != 2 || !hw_quick_has_word (words, _("to onto and")))
        return FALSE;
    }
  set_layers (layers, g_ptr_array_index (project->fabrics, (guint) first), guess->layers / 2);
  set_layers (layers, g_ptr_array_index (project->fabrics, (guint) second), guess->layers / 2);
  return TRUE;
}

/* The tape and the cloth that it is sewn to: the one named, else the first; beside a centred zip its edge is turned
 * in. FALSE: the project has no other. */
static gboolean
take_tape (const HwQuick      *self,
           const HwProject    *project,
           guint               tape,
           const Named        *named,
           const HwQuickGuess *guess,
           HwQuickLayers      *layers)
{
  int cloth = find_other (project, tape);
  gboolean centred = guess->seam < 0 && guess->purpose == hw_handbook_find_purpose (self->handbook, "zip");

  if (cloth < 0)
    return FALSE;
  if (named->n > 0 && named->first != tape)
    cloth = (int) named->first;
  else if (named->n > 1)
    cloth = (int) named->second;
  set_layers (layers, g_ptr_array_index (project->fabrics, (guint) cloth),
              centred ? 2 : guess->layers - 1);
  set_layers (layers, g_ptr_array_index (project->fabrics, tape), 1);
  return TRUE;
}

void
hw_quick_usual_layers (const HwQuick      *self,
                       const HwProject    *project,
                       const char         *name,
                       const HwQuickGuess *guess,
                       HwQuickLayers      *layers)
{
  g_auto (GStrv) words = g_str_tokenize_and_fold (name, NULL, NULL);
  g_autoptr (GArray) cloths = NULL;
  Named named;
  int turned, tape;

  *layers = (HwQuickLayers) { .turned = -1 };
  if (project->fabrics->len == 0)
    return;
  cloths = resolve (self, project);
  find_named (self, project, cloths, words, &named);
  turned = find_turned (self, project, cloths, words, &named, guess);
  tape = find_tape (self, cloths, guess);
  if (turned >= 0)
    turn_layers (layers, project, turned);
  else if ((tape < 0 || !take_tape (self, project, (guint) tape, &named, guess, layers))
           && !take_both (project, words, &named, guess, layers))
    {
      set_layers (layers, g_ptr_array_index (project->fabrics, named.n == 1 ? named.first : 0),
                  MAX (guess->layers, 1));
      layers->as_lining = named.n == 1 && named.as_lining;
    }
}
