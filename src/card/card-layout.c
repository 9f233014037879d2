/* card-layout.c - tries a card in smaller and smaller type until all of it fits
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The head, the set-up and the foot run down from the top; gauge, caution and what comes after are built up from
 * the bottom; steps, checks and test seam share what is left between. When they do not fit, everything is laid out
 * again one level tighter. What a learner must set stays at 11 pt or more (9 on an A6) on every level.
 */

#include "config.h"

#include "card/card-private.h"

#include <math.h>
#include <pango/pangocairo.h>

#define N_LEVELS 8

static const HwCardType widest[2] = {
  { .title = 16, .label = 8, .size = 42, .point = 16, .thread = 16, .bobbin = 15, .stitch = 14.5, .length = 14,
    .width = 13.5,
    .dial = 13, .foot = 12.5, .set = 11, .step = 11, .verdict = 9.5, .remedy = 11, .check = 9.5, .after = 10,
    .caution = 9.5, .gauge = 7.5, .leading = 0.42, .wheel = 35, .ticks = 13 },
  { .title = 11, .label = 7, .size = 29, .point = 11.5, .thread = 11.5, .bobbin = 11, .stitch = 10.5, .length = 10.5,
    .width = 10, .dial = 10, .foot = 10, .set = 9, .step = 9, .verdict = 8, .remedy = 9, .check = 8, .after = 8,
    .caution = 8, .gauge = 7, .leading = 0.3, .wheel = 26, .ticks = 10 },
};

static const HwCardType tightest[2] = {
  { .title = 13, .label = 7.5, .size = 28, .point = 12, .thread = 12, .bobbin = 12, .stitch = 12, .length = 11.5,
    .width = 11.5, .dial = 11.5, .foot = 11.5, .set = 11, .step = 8, .verdict = 8, .remedy = 11, .check = 8, .after = 8,
    .caution = 8.5, .gauge = 7, .leading = 0.02, .wheel = 29, .ticks = 10.5 },
  { .title = 9.5, .label = 7, .size = 21, .point = 9.5, .thread = 9.5, .bobbin = 9.5, .stitch = 9.5, .length = 9.5,
    .width = 9.5, .dial = 9.5, .foot = 9.5, .set = 9, .step = 7.5, .verdict = 7, .remedy = 9, .check = 7.5,
    .after = 7.5,
    .caution = 7.5, .gauge = 7, .leading = 0.02, .wheel = 22, .ticks = 9 },
};

#define N_SIZES (sizeof (HwCardType) / sizeof (double))

static HwCardType
choose_type (gboolean is_small,
             int      level)
{
  HwCardType type;
  const double *from = (const double *) &widest[is_small ? 1 : 0];
  const double *to = (const double *) &tightest[is_small ? 1 : 0];
  double share = (double) level / (N_LEVELS - 1);

  /* In half points: few sizes, so that few fonts are loaded. The leading is a share, not a size. */
  for (gsize i = 0; i < N_SIZES; i++)
    ((double *) &type)[i] = round ((from[i] + (to[i] - from[i]) * share) * 2) / 2;
  type.leading = widest[is_small ? 1 : 0].leading + (tightest[is_small ? 1 : 0].leading
                                                      - widest[is_small ? 1 : 0].leading) * share;
  return type;
}

HwCardColumn
hw_card_column (const HwCardBuilder *self,
                int                  index)
{
  static const double shares[2][4] = { { 0.265, 0.27, 0.225, 0.24 }, { 0.225, 0.31, 0.225, 0.24 } };
  const double *share = shares[self->is_small ? 1 : 0];
  double gap = self->is_small ? 9 : 14;
  double room = self->right - self->left - 3 * gap;
  HwCardColumn column = { self->left, room * share[index] };

  for (int i = 0; i < index; i++)
    column.x += room * share[i] + gap;
  return column;
}

double
hw_card_add_rule (HwCardBuilder *self,
                  const char    *role,
                  double         y,
                  gboolean       is_strong)
{
  double thickness = is_strong ? 1.4 : 0.8;
  HwBox *box = hw_card_add_box (self, HW_BOX_LINE, role, self->left, y, self->right - self->left, thickness);

  box->muted = !is_strong;
  return y + thickness + (self->is_small ? 3 : 4.5);
}

/* Where the movable parts go. */
typedef struct
{
  double   share;                 /* of the width for the steps; 1: steps over the whole card, test seam below them */
  enum { CHECKS_ACROSS, CHECKS_ABOVE, CHECKS_NONE } checks;       /* the whole width, or above the test seam */
  enum { FIGURES_BELOW, FIGURES_BESIDE, FIGURES_NONE } figures;   /* under the list of steps, beside the settings */
} Arrangement;

/* In the order tried: calm ones first, the last for cards with many steps. */
static const Arrangement arrangements[] = {
  { 0.5, CHECKS_ACROSS, FIGURES_BELOW },
  { 0.5, CHECKS_ABOVE, FIGURES_BELOW },
  { 0.5, CHECKS_ACROSS, FIGURES_BESIDE },
  { 0.5, CHECKS_ABOVE, FIGURES_BESIDE },
  { 0.58, CHECKS_ABOVE, FIGURES_BESIDE },
  { 1, CHECKS_ACROSS, FIGURES_BESIDE },
  { 0.58, CHECKS_ABOVE, FIGURES_NONE },
  { 1, CHECKS_ACROSS, FIGURES_NONE },
};

static const Arrangement bare_arrangement = { 1, CHECKS_NONE, FIGURES_NONE };

#define N_ARRANGEMENTS G_N_ELEMENTS (arrangements)
#define FIGURE_PT 36

/* Stands on @bottom: built at the top, then moved there. Returns where it begins. */
static double
stand_on (HwCardBuilder *self,
          guint          from_box,
          double         end,
          double         bottom)
{
  hw_card_move_down (self, from_box, bottom - end);
  return bottom - end;
}

static double
put_checks_across (HwCardBuilder *self,
                   double         bottom)
{
  guint before = self->card->boxes->len;
  double end = hw_card_build_checks (self, self->left, 0, self->right - self->left, 3);

  return stand_on (self, before, end, bottom) - 5;
}

/* The left half: steps, and what room they leave to the drawings. */
static gboolean
put_steps (HwCardBuilder *self,
           double         y,
           double         width,
           double         bottom,
           gboolean       figures_below)
{
  double figures = figures_below && !self->is_small ? FIGURE_PT + 18 : 0;
  double end = hw_card_build_steps (self, self->left, y, width, bottom - figures, FALSE);

  if (end > bottom - figures + 0.01)
    return FALSE;
  if (figures > 0)
    end = hw_card_build_figures (self, self->left, MIN (end + 12, bottom - figures + 4), width, FIGURE_PT, 3);
  return end <= bottom + 0.01;
}

static gboolean
put_halves (HwCardBuilder     *self,
            const Arrangement *arrangement,
            GArray            *checks,
            double             y,
            double             bottom)
{
  double gap = self->is_small ? 12 : 20;
  double left_width = (self->right - self->left - gap) * arrangement->share;
  double right_x = self->left + left_width + gap;
  gboolean fits = put_steps (self, y, left_width, bottom, arrangement->figures == FIGURES_BELOW);

  hw_card_put_boxes (self, checks);
  if (!fits)
    return FALSE;
  if (arrangement->checks == CHECKS_ABOVE && !self->is_small)
    y = hw_card_build_checks (self, right_x, y, self->right - right_x, 2) + 6;
  return hw_card_build_tests (self, right_x, y, self->right - right_x) <= bottom + 0.01;
}

static gboolean
put_bands (HwCardBuilder *self,
           GArray        *checks,
           double         y,
           double         bottom)
{
  guint before = self->card->boxes->len;
  double end = hw_card_build_tests_across (self, self->left, 0, self->right - self->left);
  GArray *tests = NULL;

  bottom = stand_on (self, before, end, bottom) - (self->is_small ? 2 : 4);
  tests = hw_card_take_boxes (self, before);
  end = hw_card_build_steps (self, self->left, y, self->right - self->left, bottom, TRUE);
  hw_card_put_boxes (self, tests);
  hw_card_put_boxes (self, checks);
  return end <= bottom + 0.01;
}

/* Read after the steps, whatever was measured first. */
static gboolean
put_lower_half (HwCardBuilder     *self,
                const Arrangement *arrangement,
                double             y,
                double             bottom)
{
  guint before = self->card->boxes->len;
  GArray *checks;
  gboolean fits;

  if (arrangement->checks == CHECKS_ACROSS && !self->is_small)
    bottom = put_checks_across (self, bottom);
  checks = hw_card_take_boxes (self, before);
  if (arrangement->share < 1)
    fits = put_halves (self, arrangement, checks, y, bottom);
  else
    fits = put_bands (self, checks, y, bottom);
  return fits;
}

/* What stands above and below the lower half at one level is the same for several arrangements, and built once. */
typedef struct
{
  int      level;                       /* -1: none yet */
  HwYield  yield;
  gboolean with_figures;
  double   y, end;                      /* what is left between */
  double   lost;
  guint    n_upper;                     /* the first boxes of the card */
  GArray  *bottom;                      /* the last ones */
} Frame;

static void
build_frame (HwCardBuilder *self,
             Frame         *frame,
             int            level,
             gboolean       with_figures,
             HwYield        yield)
{
  g_clear_pointer (&frame->bottom, g_array_unref);
  self->type = choose_type (self->is_small, level);
  self->yield = yield;
  self->lost = 0;
  g_array_set_size (self->card->boxes, 0);
  *frame = (Frame) { .level = level, .yield = yield, .with_figures = with_figures };
  frame->y = hw_card_build_head (self);
  frame->y = hw_card_build_setup (self, frame->y);
  frame->y = hw_card_build_foot (self, frame->y, with_figures);
  frame->n_upper = self->card->boxes->len;
  frame->end = hw_card_build_bottom (self);
  frame->bottom = hw_card_take_boxes (self, frame->n_upper);
  frame->lost = self->lost;
}

/* Lays everything but the frame's bottom out at one level; TRUE when it fits and nothing that must be read whole is
 * cut. */
static gboolean
try_level (HwCardBuilder     *self,
           Frame             *frame,
           int                level,
           const Arrangement *arrangement,
           HwYield            yield)
{
  gboolean with_figures = arrangement->figures == FIGURES_BESIDE;

  if (frame->level != level || frame->yield != yield || frame->with_figures != with_figures)
    build_frame (self, frame, level, with_figures, yield);
  self->without_drawings = arrangement->figures == FIGURES_NONE;
  self->lost = frame->lost;
  g_array_set_size (self->card->boxes, frame->n_upper);
  if (yield < HW_YIELD_NAMES && frame->lost > 0)
    return FALSE;
  return put_lower_half (self, arrangement, frame->y, frame->end) && (yield >= HW_YIELD_NAMES || self->lost <= 0);
}

/* A small card has neither checks nor drawings to move about: halves or bands are all its choice. */
static gboolean
is_offered (gboolean is_small,
            gsize    arrangement)
{
  return !is_small || arrangement == 0 || arrangement == N_ARRANGEMENTS - 1;
}

/* Smaller type is tried before a more crowded arrangement, and a crowded one before anything is given up. */
static const struct { gsize n_arrangements; int from_level, to_level; HwYield yield; } stages[] = {
  { 4, 0, N_LEVELS / 2, HW_YIELD_NOTHING },
  { N_ARRANGEMENTS - 2, 0, N_LEVELS - 1, HW_YIELD_NOTHING },
  { N_ARRANGEMENTS, 0, N_LEVELS - 1, HW_YIELD_NOTHING },
  { N_ARRANGEMENTS, N_LEVELS - 1, N_LEVELS - 1, HW_YIELD_SETTINGS },
};

/* A short list is not worth crowding. */
#define SHORT_LIST 5

static int
last_level (const HwCardBuilder *self,
            gsize                stage)
{
  return self->facts->steps->len <= SHORT_LIST ? N_LEVELS - 1 : stages[stage].to_level;
}

/* An earlier stage that gave up as little was at the same place. */
static gboolean
was_tried (const HwCardBuilder *self,
           gsize                stage,
           int                  level,
           gsize                arrangement)
{
  for (gsize i = 0; i < stage; i++)
    if (stages[i].yield == stages[stage].yield && arrangement < stages[i].n_arrangements
        && level >= stages[i].from_level && level <= last_level (self, i))
      return TRUE;
  return FALSE;
}

static gboolean
build_whole (HwCardBuilder *self,
             Frame         *frame)
{
  for (gsize stage = 0; stage < G_N_ELEMENTS (stages); stage++)
    for (int level = stages[stage].from_level; level <= last_level (self, stage); level++)
      for (gsize i = 0; i < stages[stage].n_arrangements; i++)
        if (is_offered (self->is_small, i) && !was_tried (self, stage, level, i)
            && try_level (self, frame, level, &arrangements[i], stages[stage].yield))
          return TRUE;
  return FALSE;
}

/* Names have to be cut: where they lose least. */
static gboolean
build_with_cut_names (HwCardBuilder *self,
                      Frame         *frame)
{
  double least = INFINITY;
  gsize best = 0;

  for (gsize i = 0; i < N_ARRANGEMENTS; i++)
    if (is_offered (self->is_small, i) && try_level (self, frame, N_LEVELS - 1, &arrangements[i], HW_YIELD_NAMES)
        && self->lost < least)
      {
        least = self->lost;
        best = i;
      }
  return !isinf (least) && try_level (self, frame, N_LEVELS - 1, &arrangements[best], HW_YIELD_NAMES);
}

/* Before a step is left out the checks go, for they are the same on every card. */
static gboolean
build_bare (HwCardBuilder *self,
            Frame         *frame)
{
  return try_level (self, frame, N_LEVELS - 1, &bare_arrangement, HW_YIELD_NAMES)
         || try_level (self, frame, N_LEVELS - 1, &bare_arrangement, HW_YIELD_STEPS);
}

static void
build_card (HwCardBuilder *self)
{
  Frame frame = { .level = -1 };

  if (!build_whole (self, &frame) && !build_with_cut_names (self, &frame) && !build_bare (self, &frame))
    g_debug ("Card %s is full to the brim", self->facts->letter);
  hw_card_put_boxes (self, g_steal_pointer (&frame.bottom));
}

HwCard *
hw_card_layout_sized (const HwPlan *plan,
                      int           group,
                      gboolean      is_small,
                      double        width,
                      double        height,
                      HwCardCache  *cache)
{
  HwCard *self = g_new0 (HwCard, 1);
  g_autoptr (HwCardFacts) facts = hw_card_facts_new (plan, group, is_small);
  double margin = is_small ? 17 : 8 * HW_PT_PER_MM;
  HwCardBuilder builder = { .card = self, .facts = facts, .is_small = is_small, .left = margin, .right = width - margin,
                            .top = is_small ? 14 : 17, .bottom = height - (is_small ? 12 : 13) };

  self->plan = hw_plan_ref ((HwPlan *) plan);
  self->group = group;
  self->width = width;
  self->height = height;
  self->figure = facts->figure;
  self->heading = g_strdup_printf ("%s  %s, %s", facts->letter, facts->size, facts->point);
  self->cache = hw_card_cache_ref (cache);
  self->boxes = g_array_new (FALSE, TRUE, sizeof (HwBox));
  build_card (&builder);
  return self;
}

HwCard *
hw_card_layout (const HwPlan *plan,
                int           group,
                HwPaper       card_size,
                PangoContext *context_or_null)
{
  HwCardCache *cache;
  HwCard *self;
  double width;
  double height;

  g_return_val_if_fail (card_size == HW_PAPER_A5 || card_size == HW_PAPER_A6, NULL);
  g_return_val_if_fail (group >= 0 && (guint) group < plan->groups->len, NULL);

  hw_paper_size (card_size, &width, &height);
  cache = hw_card_cache_new (context_or_null != NULL ? pango_context_get_font_map (context_or_null)
                                                     : pango_cairo_font_map_get_default (),
                             context_or_null != NULL ? pango_context_get_language (context_or_null) : NULL);
  self = hw_card_layout_sized (plan, group, card_size == HW_PAPER_A6, width, height, cache);
  hw_card_cache_unref (cache);
  return self;
}
