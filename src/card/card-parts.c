/* card-parts.c - the cards of a set-up: one, or more where its list of steps is too long for one
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A list that does not fit whole is no reason to crowd the card or to leave anything out: the first card has all from
 * which the machine is set and as many rows as go with it at a readable size, and later ones have room for the rest.
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <pango/pangocairo.h>

#define CALM_LEVEL (HW_CARD_LEVELS / 2)         /* the smallest type for a list that goes on anyway */
#define WORTH_ROWS 6                            /* fewer rows than these on the first card: try smaller type */
#define WORTH_ROWS_SMALL 3
#define LONELY_ROWS 3                           /* so few are not worth a later card of their own */

char *
hw_card_name_place (int number,
                    int n_cards)
{
  /* Translators: number of a card of one set-up, how many it has */
  return g_strdup_printf (_("card %d of %d"), number, n_cards);
}

/* The facts of the part that is tried: asked for again and again while its length is found. */
static void
take_part (HwCardBuilder *self,
           guint          n)
{
  if (self->facts != NULL && self->part.n == n)
    return;
  g_clear_pointer (&self->facts, hw_card_facts_free);
  self->part.n = n;
  if (self->card->number == 1)
    self->part.n_first = n;
  self->facts = hw_card_facts_new (self->card->plan, self->card->group, self->rows, self->part, self->card->number,
                                   self->is_unsewn);
}

/* How a part is tried. */
typedef struct { int level; HwCrowding crowding; HwFullness fullness; gboolean cuts; } Attempt;

static gboolean
try_part (HwCardBuilder *self,
          Attempt        attempt,
          guint          n)
{
  take_part (self, n);
  return self->card->number == 1 ? hw_card_build_first (self, attempt.level, attempt.crowding)
                                 : hw_card_build_later (self, attempt.level, attempt.fullness, attempt.cuts);
}

/* How many rows fit, of fewer than @too_many; -1: not even none of them. */
static int
find_most (HwCardBuilder *self,
           Attempt        attempt,
           guint          too_many)
{
  int low = -1;
  int high = (int) too_many;

  while (high - low > 1)
    {
      int middle = (low + high) / 2;

      if (try_part (self, attempt, (guint) middle))
        low = middle;
      else
        high = middle;
    }
  return low;
}

static gboolean
is_operation (const HwCardBuilder *self,
              guint                row)
{
  return g_array_index (self->card->plan->order, HwPlanStep, g_array_index (self->rows, guint, row)).group >= 0;
}

/* Of @n rows that fit, those that stay: hand steps do not go on alone, the operation before them goes with them. */
static guint
hold_together (const HwCardBuilder *self,
               guint                n)
{
  guint from = self->part.from;
  guint row;

  for (row = from + n; row < self->rows->len; row++)
    if (is_operation (self, row))
      return n;
  if (from + n == self->rows->len)
    return n;
  for (row = from + n; row > from; row--)
    if (is_operation (self, row - 1))
      return row - 1 == from && self->card->number > 1 ? n : row - 1 - from;
  return n;
}

/* @n rows of the first card, in the calmest way that there is room for. */
static gboolean
try_calm (HwCardBuilder *self,
          guint          n,
          HwCrowding     most_crowded)
{
  gboolean fits = FALSE;

  for (int crowding = 0; crowding <= (int) most_crowded && !fits; crowding++)
    for (int level = CALM_LEVEL; level < HW_CARD_LEVELS && !fits; level++)
      fits = try_part (self, (Attempt) { level, (HwCrowding) crowding, HW_FULL_TESTED, FALSE }, n);
  return fits;
}

/* With which needle of the case it is, where that has room: the rows of a card do not follow from what changes with
 * each hour of sewing. */
static gboolean
place_first (HwCardBuilder *self,
             Attempt        best,
             guint          n,
             HwCrowding     most_crowded)
{
  gboolean fits = FALSE;

  for (int without = self->facts->needle_which != NULL ? 0 : 1; without < 2 && !fits; without++)
    {
      self->without_which = without > 0;
      fits = try_part (self, best, n) || try_calm (self, n, most_crowded);
    }
  self->without_which = FALSE;
  return fits;
}

/* The first of several cards: a level tighter while that brings more than a few rows, and crowded only where not one
 * row has room. */
static void
build_first (HwCardBuilder *self)
{
  int worth = self->is_small ? WORTH_ROWS_SMALL : WORTH_ROWS;
  Attempt best = { HW_CARD_LEVELS - 1, HW_CROWD_CHECKS, HW_FULL_TESTED, FALSE };
  int most = -1;

  self->is_only = FALSE;
  self->without_which = TRUE;
  for (int crowding = 0; crowding < HW_N_CROWDINGS && most < (crowding == HW_CROWD_PICTURES ? 1 : 0); crowding++)
    for (int level = CALM_LEVEL; level < HW_CARD_LEVELS && most < worth; level++)
      {
        Attempt attempt = { level, (HwCrowding) crowding, HW_FULL_TESTED, FALSE };
        int n = find_most (self, attempt, self->rows->len + (crowding == HW_CROWD_CHECKS ? 1 : 0));

        if (n <= most)
          continue;
        most = n;
        best = attempt;
      }
  if (!place_first (self, best, most > 0 ? hold_together (self, (guint) most) : 0, best.crowding))
    g_debug ("Card %s is full to the brim", self->facts->letter);
}

/* Between the next @n rows another set-up is sewn: the machine may be set anew from this card. */
static gboolean
is_come_back_to (const HwCardBuilder *self,
                 guint                n)
{
  for (guint row = self->part.from; row + 1 < self->part.from + n; row++)
    if (hw_card_is_run_end (self->rows, row))
      return TRUE;
  return FALSE;
}

/* All of what is left, in calm type; in smaller type rather than without the test seam where one comes back to it. */
static gboolean
try_rest (HwCardBuilder *self,
          guint          left,
          HwFullness     fullness)
{
  int last = fullness == HW_FULL_TESTED && is_come_back_to (self, left) ? HW_CARD_LEVELS - 1 : CALM_LEVEL;
  gboolean fits = FALSE;

  for (int level = 0; level <= last && !fits; level++)
    fits = try_part (self, (Attempt) { level, HW_CROWD_NOTHING, fullness, FALSE }, left);
  return fits;
}

/* All of what is left in smaller type, rather than a card more for a row or two. */
static gboolean
try_crowded (HwCardBuilder *self,
             guint          left)
{
  int most = find_most (self, (Attempt) { CALM_LEVEL, HW_CROWD_NOTHING, HW_FULL_BARE, FALSE }, left);
  gboolean fits = FALSE;

  for (int level = CALM_LEVEL + 1; level < HW_CARD_LEVELS && !fits && most + LONELY_ROWS >= (int) left; level++)
    fits = try_part (self, (Attempt) { level, HW_CROWD_NOTHING, HW_FULL_BARE, FALSE }, left);
  return fits;
}

static guint
count_cards (guint rows,
             int   a_card)
{
  return (rows + (guint) a_card - 1) / (guint) a_card;
}

/* How many rows of @left go on one card: as full a one as needs no card more than bare ones; 0: not one. */
static guint
find_worth (HwCardBuilder *self,
            int            level,
            guint          left)
{
  int most = find_most (self, (Attempt) { level, HW_CROWD_NOTHING, HW_FULL_BARE, FALSE }, left);

  if (most < 1)
    return 0;
  for (int fullness = 0; fullness < HW_FULL_BARE; fullness++)
    {
      Attempt full = { level, HW_CROWD_NOTHING, (HwFullness) fullness, FALSE };
      int n = find_most (self, full, (guint) most + 1);

      if (n > 0 && count_cards (left, n) == count_cards (left, most))
        return (guint) n;
    }
  return (guint) most;
}

/* @n rows, with all else that there is room for. */
static gboolean
try_full (HwCardBuilder *self,
          int            level,
          guint          n)
{
  gboolean fits = FALSE;

  for (int fullness = 0; fullness < HW_N_FULLNESSES && !fits; fullness++)
    fits = try_part (self, (Attempt) { level, HW_CROWD_NOTHING, (HwFullness) fullness, FALSE }, n);
  return fits;
}

static void
build_later (HwCardBuilder *self)
{
  guint left = self->rows->len - self->part.from;

  for (int fullness = 0; fullness < HW_N_FULLNESSES; fullness++)
    if (try_rest (self, left, (HwFullness) fullness))
      return;
  if (try_crowded (self, left))
    return;
  for (int level = CALM_LEVEL; level < HW_CARD_LEVELS; level++)
    {
      guint n = find_worth (self, level, left);

      if (n > 0 && try_full (self, level, hold_together (self, n)))
        return;
    }
  /* A name for which a whole card is too narrow. */
  try_part (self, (Attempt) { HW_CARD_LEVELS - 1, HW_CROWD_NOTHING, HW_FULL_BARE, TRUE }, 1);
}

static void
note_steps (HwCardBuilder *self)
{
  for (guint i = 0; i < self->facts->rows->len; i++)
    g_array_append_val (self->card->steps, g_array_index (self->facts->rows, HwCardStep, i).index);
}

/* All rows on one card. */
static gboolean
try_only (HwCardBuilder *self)
{
  gboolean fits;

  self->is_only = TRUE;
  take_part (self, self->rows->len);
  fits = hw_card_build_whole (self);
  if (fits || self->facts->needle_which == NULL)
    return fits;
  self->without_which = TRUE;
  fits = hw_card_build_whole (self);
  self->without_which = FALSE;
  return fits;
}

static gboolean
build_first_as_before (HwCardBuilder *self,
                       guint          n,
                       gboolean       is_only)
{
  const Attempt calm = { CALM_LEVEL, HW_CROWD_NOTHING, HW_FULL_TESTED, FALSE };

  if (is_only && try_only (self))
    return TRUE;
  self->is_only = is_only;
  take_part (self, n);
  return place_first (self, calm, n, is_only ? HW_CROWD_PICTURES : HW_CROWD_CHECKS);
}

/* As many rows as the card took when nothing was sewn yet. */
static gboolean
build_as_before (HwCardBuilder *self,
                 const GArray  *parts)
{
  guint n = g_array_index (parts, guint, self->card->number - 1);

  if (self->card->number == 1)
    return build_first_as_before (self, n, parts->len == 1);
  for (int fullness = 0; fullness < HW_N_FULLNESSES; fullness++)
    if (try_rest (self, n, (HwFullness) fullness))
      return TRUE;
  for (int level = CALM_LEVEL + 1; level < HW_CARD_LEVELS; level++)
    if (try_full (self, level, n))
      return TRUE;
  return FALSE;
}

static void
build_freely (HwCardBuilder *self)
{
  if (self->card->number > 1)
    build_later (self);
  else if (!try_only (self))
    build_first (self);
}

/* One card more, that begins with row @part.from; FALSE: it cannot hold what it should of @parts (nullable). */
static gboolean
build_card (HwCardBuilder *self,
            const GArray  *parts)
{
  gboolean fits = parts == NULL || build_as_before (self, parts);

  if (parts == NULL)
    build_freely (self);
  note_steps (self);
  self->card->figure = self->facts->figure;
  self->card->heading = g_strdup_printf ("%s  %s, %s", self->facts->letter, self->facts->size, self->facts->point);
  self->part = (HwCardPart) { self->part.from + self->facts->rows->len, 0, self->part.n_first };
  g_clear_pointer (&self->facts, hw_card_facts_free);
  return fits;
}

/* What all cards of a set-up have in common. */
typedef struct { const HwPlan *plan; int group; double width, height; HwCardCache *cache; } Set;

static HwCard *
new_card (const Set *set,
          int        number)
{
  HwCard *self = g_new0 (HwCard, 1);

  self->plan = hw_plan_ref ((HwPlan *) set->plan);
  self->group = set->group;
  self->width = set->width;
  self->height = set->height;
  self->number = number;
  self->n_cards = 1;
  self->cache = hw_card_cache_ref (set->cache);
  self->boxes = g_array_new (FALSE, TRUE, sizeof (HwBox));
  self->steps = g_array_new (FALSE, FALSE, sizeof (gsize));
  return self;
}

/* All of them, in place of those in @cards; FALSE: @parts (nullable) cannot be kept. */
static gboolean
build_cards (HwCardBuilder *self,
             const Set     *set,
             const GArray  *parts,
             GPtrArray     *cards)
{
  gboolean fits = TRUE;

  g_ptr_array_set_size (cards, 0);
  self->part = (HwCardPart) { 0 };
  self->checks_left = FALSE;
  do
    {
      self->card = new_card (set, (int) cards->len + 1);
      g_ptr_array_add (cards, self->card);
      fits = build_card (self, parts);
    }
  while (fits && (parts != NULL ? cards->len < parts->len
                                : self->part.from < self->rows->len || (self->checks_left && cards->len == 1)));
  return fits;
}

static gboolean
is_begun (const HwPlan *plan,
          const GArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    if (g_array_index (plan->order, HwPlanStep, g_array_index (rows, guint, i)).done)
      return TRUE;
  return FALSE;
}

/* How many rows each card had before any of them was sewn: a card printed again takes the place of the one that hangs
 * by the machine. (element-type guint) (transfer full) */
static GArray *
find_parts (HwCardBuilder *self,
            const Set     *set,
            GPtrArray     *cards)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (guint));

  self->is_unsewn = TRUE;
  build_cards (self, set, NULL, cards);
  self->is_unsewn = FALSE;
  for (guint i = 0; i < cards->len; i++)
    g_array_append_val (parts, ((HwCard *) cards->pdata[i])->steps->len);
  return parts;
}

/* Now that it is known how many there are. */
static void
set_place (HwCard *self,
           int     n_cards)
{
  g_autofree char *place = hw_card_name_place (self->number, n_cards);
  g_autofree char *heading = g_steal_pointer (&self->heading);

  self->n_cards = n_cards;
  self->heading = g_strdup_printf ("%s, %s", heading, place);
  for (guint i = 0; i < self->boxes->len; i++)
    {
      HwBox *box = &g_array_index (self->boxes, HwBox, i);

      if (g_strcmp0 (box->role, "card-place") != 0)
        continue;
      hw_card_set_from_right (self, box, place);
    }
}

GPtrArray *
hw_card_layout_sized (const HwPlan *plan,
                      int           group,
                      gboolean      is_small,
                      double        width,
                      double        height,
                      HwCardCache  *cache)
{
  GPtrArray *cards = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_card_free);
  g_autoptr (GArray) rows = hw_card_list_rows (plan, group);
  double margin = is_small ? 17 : 8 * HW_PT_PER_MM;
  HwCardBuilder builder = { .rows = rows, .is_small = is_small, .left = margin, .right = width - margin,
                            .top = is_small ? 14 : 17, .bottom = height - (is_small ? 12 : 13) };
  const Set set = { plan, group, width, height, cache };
  g_autoptr (GArray) parts = NULL;

  if (is_begun (plan, rows))
    parts = find_parts (&builder, &set, cards);
  if (parts == NULL || !build_cards (&builder, &set, parts, cards))
    build_cards (&builder, &set, NULL, cards);
  for (guint i = 0; i < cards->len && cards->len > 1; i++)
    set_place (cards->pdata[i], (int) cards->len);
  return cards;
}

GPtrArray *
hw_card_layout (const HwPlan *plan,
                int           group,
                HwPaper       card_size,
                PangoContext *context_or_null)
{
  HwCardCache *cache;
  GPtrArray *cards;
  double width;
  double height;

  g_return_val_if_fail (card_size == HW_PAPER_A5 || card_size == HW_PAPER_A6, NULL);
  g_return_val_if_fail (group >= 0 && (guint) group < plan->groups->len, NULL);

  hw_paper_size (card_size, &width, &height);
  cache = hw_card_cache_new (context_or_null != NULL ? pango_context_get_font_map (context_or_null)
                                                     : pango_cairo_font_map_get_default (),
                             context_or_null != NULL ? pango_context_get_language (context_or_null) : NULL);
  cards = hw_card_layout_sized (plan, group, card_size == HW_PAPER_A6, width, height, cache);
  hw_card_cache_unref (cache);
  return cards;
}
