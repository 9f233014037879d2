/* find.c - finding anything by a few letters of its words
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words are split and folded when a thing is added. A typed word is worth most where it is a word of the name, less
 * where it begins one, less again where it stands inside one, and a third of that among the other words; the sum over
 * all typed words decides. A name that begins with what was typed comes before one that has it further on, and one of
 * which every word was begun before a longer one: “machine” means the page Machines, not one of the machine's faults.
 *
 * What stands inside a word may be the part of a compound that was meant, so it is found after what begins with it;
 * three letters only where nothing begins with them: who asks for “oil” does not want voile.
 *
 * The small words of a question add to the worth of a name that has them, and are else passed over.
 */

#include "config.h"

#include "words/find.h"

#include <string.h>

#define WHOLE 60
#define BEGINNING 40
#define INSIDE 12
#define NEARLY 6                         /* but for one letter */
#define ELSEWHERE 3                      /* a word that is not of the name counts by this part */
#define FIRST_WORD 8
#define ALL_WORDS 25
#define SHORTEST_INSIDE 3                /* letters: two would be found inside half of all words */
#define INSIDE_BESIDE 4                  /* letters: fewer stand by chance inside words that mean other things */
#define SHORTEST_NEARLY 4

/* How far a word may be from what was typed; each wider than the one before, asked only where that finds nothing. */
typedef enum { REACH_CLOSE, REACH_INSIDE, REACH_NEARLY, N_REACHES } Reach;

typedef struct
{
  HwFindThing thing;
  char      **name;                      /* folded words */
  guint       n_words;                   /* of the name, without those repeated in plain letters */
  char      **others;
} Entry;

struct _HwFind
{
  GPtrArray *entries;
  char     **spare;                      /* folded; NULL: none */
};

typedef struct
{
  char    **words;                       /* folded */
  gboolean *is_spare;
} Typed;

typedef struct
{
  Entry *entry;
  int    worth;
  guint  place;
} Match;

static void
free_entry (gpointer data)
{
  Entry *entry = data;

  g_free (entry->thing.name);
  g_free (entry->thing.detail);
  g_free (entry->thing.target);
  g_strfreev (entry->name);
  g_strfreev (entry->others);
  g_free (entry);
}

/* Folded words of @text, each letter without its accents; then what a word is in plain letters where that differs, so
 * that a keyboard without them finds it. */
static char **
split (const char *text,
       guint      *n_words)             /* (optional) */
{
  g_auto (GStrv) plain = NULL;
  g_auto (GStrv) words = g_str_tokenize_and_fold (text, "C", &plain);
  g_autoptr (GStrvBuilder) all = g_strv_builder_new ();

  if (n_words != NULL)
    *n_words = g_strv_length (words);
  g_strv_builder_addv (all, (const char **) words);
  g_strv_builder_addv (all, (const char **) plain);
  return g_strv_builder_end (all);
}

HwFind *
hw_find_new (void)
{
  HwFind *self = g_new0 (HwFind, 1);

  self->entries = g_ptr_array_new_with_free_func (free_entry);
  return self;
}

void
hw_find_add (HwFind     *self,
             guint       group,
             const char *name,
             const char *detail,
             const char *words,
             const char *target)
{
  Entry           *entry = g_new0 (Entry, 1);
  g_autofree char *others = NULL;

  g_return_if_fail (self != NULL && name != NULL && target != NULL);

  others = g_strjoin (" ", detail != NULL ? detail : "", words, NULL);
  entry->thing = (HwFindThing) { group, g_strdup (name), g_strdup (detail != NULL ? detail : ""), g_strdup (target) };
  entry->name = split (name, &entry->n_words);
  entry->others = split (others, NULL);
  g_ptr_array_add (self->entries, entry);
}

void
hw_find_spare (HwFind     *self,
               const char *words)
{
  g_return_if_fail (self != NULL && words != NULL);

  g_strfreev (self->spare);
  self->spare = split (words, NULL);
}

guint
hw_find_count (const HwFind *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->entries->len;
}

/* ---- one word against another ---- */

/* Whether @b is @a but for one letter. */
static gboolean
is_nearly (const char *a,
           const char *b)
{
  gsize a_length = strlen (a);
  gsize b_length = strlen (b);
  gsize same = 0;

  if (a_length + 1 < b_length || b_length + 1 < a_length)
    return FALSE;
  while (a[same] != '\0' && a[same] == b[same])
    same++;
  a += same;
  b += same;
  if (a_length > b_length)
    return strcmp (a + 1, b) == 0;
  if (a_length < b_length)
    return strcmp (a, b + 1) == 0;
  if (a[0] == '\0' || strcmp (a + 1, b + 1) == 0)
    return TRUE;
  return a[0] == b[1] && a[1] == b[0] && strcmp (a + 2, b + 2) == 0;
}

static int
judge_word (const char *typed,
            const char *word,
            Reach       reach)
{
  gsize length = strlen (typed);
  glong letters = g_utf8_strlen (typed, -1);

  if (strncmp (word, typed, length) == 0)
    return word[length] == '\0' ? WHOLE : BEGINNING;
  if (letters >= (reach >= REACH_INSIDE ? SHORTEST_INSIDE : INSIDE_BESIDE) && strstr (word, typed) != NULL)
    return INSIDE;
  return reach == REACH_NEARLY && length >= SHORTEST_NEARLY && is_nearly (typed, word) ? NEARLY : 0;
}

static int
judge_words (const char *typed,
             char      **words,
             Reach       reach,
             gboolean   *first)
{
  int best = 0;

  for (char **word = words; *word != NULL && best < WHOLE; word++)
    {
      int worth = judge_word (typed, *word, reach);

      if (worth <= best)
        continue;
      best = worth;
      *first = word == words;
    }
  return best;
}

/* A small word is not searched for, but the last one may be the beginning of a longer one. */
static int
judge_spare (const Entry *entry,
             const char  *word,
             gboolean     is_last)
{
  gboolean first = FALSE;
  int      worth = judge_words (word, entry->name, REACH_CLOSE, &first);

  return worth >= (is_last ? BEGINNING : WHOLE) ? worth : 0;
}

/* 0: some typed word is nowhere in it. */
static int
judge_entry (const Entry *entry,
             const Typed *typed,
             Reach        reach)
{
  guint begun = 0;                      /* words typed that begin one of the name */
  guint needed = 0;
  int   sum = 0;

  for (guint i = 0; typed->words[i] != NULL; i++)
    {
      const char *word = typed->words[i];
      gboolean    first = FALSE;
      gboolean    ignored = FALSE;
      int         in_name = typed->is_spare[i] ? judge_spare (entry, word, typed->words[i + 1] == NULL)
                                               : judge_words (word, entry->name, reach, &first);
      int         elsewhere = typed->is_spare[i] ? 0 : judge_words (word, entry->others, reach, &ignored) / ELSEWHERE;

      if (in_name == 0 && elsewhere == 0 && !typed->is_spare[i])
        return 0;
      sum += MAX (in_name, elsewhere);
      begun += in_name >= BEGINNING ? 1 : 0;
      needed += typed->is_spare[i] ? 0 : 1;
      if (first && needed == 1 && in_name >= BEGINNING)
        sum += FIRST_WORD;
    }
  return begun > 0 && begun >= entry->n_words ? sum + ALL_WORDS : sum;
}

static int
compare_matches (gconstpointer a,
                 gconstpointer b)
{
  const Match *first = a;
  const Match *second = b;

  if (first->worth != second->worth)
    return second->worth - first->worth;
  if (first->entry->thing.group != second->entry->thing.group)
    return first->entry->thing.group < second->entry->thing.group ? -1 : 1;
  return first->place < second->place ? -1 : 1;
}

/* (element-type Match) */
static GArray *
match_all (const HwFind *self,
           const Typed  *typed,
           Reach         reach)
{
  GArray *matches = g_array_new (FALSE, FALSE, sizeof (Match));

  for (guint i = 0; i < self->entries->len; i++)
    {
      Match match = { g_ptr_array_index (self->entries, i), 0, i };

      match.worth = judge_entry (match.entry, typed, reach);
      if (match.worth > 0)
        g_array_append_val (matches, match);
    }
  g_array_sort (matches, compare_matches);
  return matches;
}

static guint
count_group (const GPtrArray *things,
             guint            group)
{
  guint n = 0;

  for (guint i = 0; i < things->len; i++)
    n += ((const HwFindThing *) things->pdata[i])->group == group;
  return n;
}

/* Where none but small words are typed each of them is meant. (transfer full) */
static gboolean *
mark_spare (const HwFind *self,
            char        **words)
{
  guint     n = g_strv_length (words);
  gboolean *marks = g_new0 (gboolean, n + 1);
  guint     marked = 0;

  for (guint i = 0; i < n && self->spare != NULL; i++)
    {
      marks[i] = g_strv_contains ((const char * const *) self->spare, words[i]);
      marked += marks[i] ? 1 : 0;
    }
  for (guint i = 0; i < n && marked == n; i++)
    marks[i] = FALSE;
  return marks;
}

GPtrArray *
hw_find_ask (const HwFind *self,
             const char   *text,
             guint         limit,
             guint        *n_all)
{
  GPtrArray         *found = g_ptr_array_new ();
  g_autoptr (GArray) matches = NULL;
  g_auto (GStrv)     words = NULL;
  g_autofree gboolean *is_spare = NULL;

  g_return_val_if_fail (self != NULL && text != NULL, found);

  words = g_str_tokenize_and_fold (text, "C", NULL);
  is_spare = mark_spare (self, words);
  matches = g_array_new (FALSE, FALSE, sizeof (Match));
  for (Reach reach = REACH_CLOSE; reach < N_REACHES && matches->len == 0 && words[0] != NULL; reach++)
    {
      g_array_unref (matches);
      matches = match_all (self, &(Typed) { words, is_spare }, reach);
    }
  for (guint i = 0; i < matches->len; i++)
    {
      HwFindThing *thing = &g_array_index (matches, Match, i).entry->thing;

      if (count_group (found, thing->group) < limit)
        g_ptr_array_add (found, thing);
    }
  if (n_all != NULL)
    *n_all = matches->len;
  return found;
}

GPtrArray *
hw_find_offer (const HwFind *self,
               guint         group,
               guint         limit)
{
  GPtrArray *offered = g_ptr_array_new ();

  g_return_val_if_fail (self != NULL, offered);

  for (guint i = 0; i < self->entries->len && offered->len < limit; i++)
    {
      Entry *entry = g_ptr_array_index (self->entries, i);

      if (entry->thing.group == group)
        g_ptr_array_add (offered, &entry->thing);
    }
  return offered;
}

void
hw_find_free (HwFind *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->entries);
  g_strfreev (self->spare);
  g_free (self);
}
