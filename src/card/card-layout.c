/* card-layout.c - tries a card in smaller and smaller type until all of it fits
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The head, the set-up and the foot run down from the top; gauge, caution and what comes after are built up from
 * the bottom; steps, checks and test seam share what is left between. When they do not fit, everything is laid out
 * again one level tighter. What a learner must set stays at 11 pt or more (9 on an A6) on every level. A list that is
 * still too long goes on on another card (card-parts.c).
 */

#include "config.h"

#include "card/card-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <pango/pangocairo.h>

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
  double share = (double) level / (HW_CARD_LEVELS - 1);

  /* In half points: few sizes, so that few fonts are loaded. The leading is a share, not a size. */
  for (gsize i = 0; i < N_SIZES; i++)
    ((double *) &type)[i] = round ((from[i] + (to[i] - from[i]) * share) * 2) / 2;
  type.leading = widest[is_small ? 1 : 0].leading + (tightest[is_small ? 1 : 0].leading
                                                      - widest[is_small ? 1 : 0].leading) * share;
  return type;
}

void
hw_card_take_level (HwCardBuilder *self,
                    int            level)
{
  self->type = choose_type (self->is_small, level);
  self->lost = 0;
  self->without_drawings = FALSE;
  g_array_set_size (self->card->boxes, 0);
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
  enum { CHECKS_ACROSS, CHECKS_ABOVE, CHECKS_BELOW, CHECKS_LATER } checks;        /* the whole width; above the test
                                                                                   * seam; below the steps; not here */
  enum { FIGURES_BELOW, FIGURES_BESIDE, FIGURES_NONE } figures;   /* under the list of steps, beside the settings */
} Arrangement;

/* In the order tried: calm ones first, the last for cards with many steps. A small card has no room for the pictures
 * of the seams, only for those of the test seam. */
static const Arrangement large_arrangements[] = {
  { 0.5, CHECKS_ACROSS, FIGURES_BELOW },
  { 0.5, CHECKS_ABOVE, FIGURES_BELOW },
  { 0.5, CHECKS_ACROSS, FIGURES_BESIDE },
  { 0.5, CHECKS_ABOVE, FIGURES_BESIDE },
  { 0.58, CHECKS_ABOVE, FIGURES_BESIDE },
  { 1, CHECKS_ACROSS, FIGURES_BESIDE },
};
static const Arrangement small_arrangements[] = {
  { 0.5, CHECKS_ACROSS, FIGURES_NONE },
  { 0.5, CHECKS_BELOW, FIGURES_NONE },
  { 1, CHECKS_ACROSS, FIGURES_NONE },
};

/* Where there is no room for a single row: the checks go on the second card, and the gauge with them. */
static const Arrangement large_last = { 1, CHECKS_LATER, FIGURES_BESIDE };
static const Arrangement small_last = { 1, CHECKS_LATER, FIGURES_NONE };

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

  return stand_on (self, before, end, bottom) - (self->is_small ? 3 : 5);
}

/* With their captions, which may run to some lines. */
static double
measure_figures (HwCardBuilder *self,
                 double         width)
{
  guint before = self->card->boxes->len;
  double end = hw_card_build_figures (self, self->left, 0, width, FIGURE_PT, TRUE);

  g_array_set_size (self->card->boxes, before);
  return end;
}

/* The left half: steps, and what room they leave to the drawings. */
static gboolean
put_steps (HwCardBuilder *self,
           double         y,
           double         width,
           double         bottom,
           gboolean       figures_below)
{
  double figures = figures_below ? measure_figures (self, width) + 4 : 0;
  double end = hw_card_build_steps (self, self->left, y, width, bottom - figures, FALSE, FALSE);

  if (end > bottom - figures + 0.01)
    return FALSE;
  if (figures > 0)
    end = hw_card_build_figures (self, self->left, MIN (end + 12, bottom - figures + 4), width, FIGURE_PT, TRUE);
  return end <= bottom + 0.01;
}

/* The left half with the checks on its bottom. */
static gboolean
put_steps_and_checks (HwCardBuilder *self,
                      double         y,
                      double         width,
                      double         bottom)
{
  guint before = self->card->boxes->len;
  double end = hw_card_build_checks (self, self->left, 0, width, 1);
  GArray *checks;
  gboolean fits;

  bottom = stand_on (self, before, end, bottom) - 4;
  checks = hw_card_take_boxes (self, before);
  fits = bottom > y && put_steps (self, y, width, bottom, FALSE);
  hw_card_put_boxes (self, checks);
  return fits;
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
  gboolean fits;

  if (arrangement->checks == CHECKS_BELOW)
    fits = put_steps_and_checks (self, y, left_width, bottom);
  else
    fits = put_steps (self, y, left_width, bottom, arrangement->figures == FIGURES_BELOW);
  hw_card_put_boxes (self, checks);
  if (!fits)
    return FALSE;
  if (arrangement->checks == CHECKS_ABOVE)
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
  end = hw_card_build_steps (self, self->left, y, self->right - self->left, bottom, TRUE, FALSE);
  hw_card_put_boxes (self, tests);
  hw_card_put_boxes (self, checks);
  return end <= bottom + 0.01;
}

/* Where the checks stand when there is no room for them here. */
static double
put_checks_later (HwCardBuilder *self,
                  double         bottom)
{
  HwTextStyle style = { self->type.check, PANGO_WEIGHT_BOLD, HW_LOOK_PLAIN, 1, FALSE };
  guint before = self->card->boxes->len;
  const char *text = _("Before the first stitch: the checks on card 2");
  double height = hw_card_add_text (self, "checks-later", text, self->left, 0, self->right - self->left, style);

  return stand_on (self, before, height, bottom) - 2;
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

  if (arrangement->checks == CHECKS_ACROSS)
    bottom = put_checks_across (self, bottom);
  else if (arrangement->checks == CHECKS_LATER)
    bottom = put_checks_later (self, bottom);
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
             gboolean       with_figures)
{
  g_clear_pointer (&frame->bottom, g_array_unref);
  hw_card_take_level (self, level);
  *frame = (Frame) { .level = level, .with_figures = with_figures };
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
           const Arrangement *arrangement)
{
  gboolean with_figures = arrangement->figures == FIGURES_BESIDE;

  if (frame->level != level || frame->with_figures != with_figures)
    build_frame (self, frame, level, with_figures);
  self->without_drawings = arrangement->share >= 1 && (self->is_small || self->crowding >= HW_CROWD_PICTURES);
  self->lost = frame->lost;
  g_array_set_size (self->card->boxes, frame->n_upper);
  return frame->lost <= 0 && put_lower_half (self, arrangement, frame->y, frame->end) && self->lost <= 0;
}

/* Smaller type is tried before a more crowded arrangement. */
static const struct { gsize n_arrangements; int to_level; } stages[] = {
  { 4, HW_CARD_LEVELS / 2 }, { G_N_ELEMENTS (large_arrangements), HW_CARD_LEVELS - 1 },
};

/* A short list is not worth crowding. */
#define SHORT_LIST 5

static int
last_level (const HwCardBuilder *self,
            gsize                stage)
{
  return self->facts->rows->len <= SHORT_LIST ? HW_CARD_LEVELS - 1 : stages[stage].to_level;
}

static const Arrangement *
get_arrangements (gboolean  is_small,
                  gsize    *n)
{
  *n = is_small ? G_N_ELEMENTS (small_arrangements) : G_N_ELEMENTS (large_arrangements);
  return is_small ? small_arrangements : large_arrangements;
}

static gboolean
try_stage (HwCardBuilder *self,
           Frame         *frame,
           gsize          stage)
{
  gsize n;
  const Arrangement *arrangements = get_arrangements (self->is_small, &n);

  for (int level = 0; level <= last_level (self, stage); level++)
    for (gsize i = 0; i < MIN (n, stages[stage].n_arrangements); i++)
      {
        gboolean was_tried = stage > 0 && i < stages[stage - 1].n_arrangements && level <= last_level (self, stage - 1);

        if (!was_tried && try_level (self, frame, level, &arrangements[i]))
          return TRUE;
      }
  return FALSE;
}

/* For a row or two there is no second card: rather the test seam has no pictures. */
static gboolean
try_without_pictures (HwCardBuilder *self,
                      Frame         *frame)
{
  gsize n;
  const Arrangement *arrangements = get_arrangements (self->is_small, &n);
  gboolean fits = FALSE;

  if (self->is_small || self->facts->rows->len > SHORT_LIST)
    return FALSE;
  self->crowding = HW_CROWD_PICTURES;
  for (int level = HW_CARD_LEVELS / 2; level < HW_CARD_LEVELS && !fits; level++)
    fits = try_level (self, frame, level, &arrangements[n - 1]);
  return fits;
}

#define MOST_SEAMS 4              /* more would be too narrow for their captions */

static gboolean
build_whole (HwCardBuilder *self,
             guint          most_seams)
{
  Frame frame = { .level = -1 };
  gboolean fits = FALSE;

  self->crowding = HW_CROWD_NOTHING;
  self->most_seams = most_seams;
  for (gsize stage = 0; stage < G_N_ELEMENTS (stages) && !fits; stage++)
    fits = try_stage (self, &frame, stage);
  fits = fits || try_without_pictures (self, &frame);
  hw_card_put_boxes (self, g_steal_pointer (&frame.bottom));
  return fits;
}

/* Nobody is given a second card for a picture more of a seam. */
gboolean
hw_card_build_whole (HwCardBuilder *self)
{
  if (build_whole (self, MOST_SEAMS))
    return TRUE;
  return !self->is_small && self->facts->sections->len > 1 && build_whole (self, 1);
}

gboolean
hw_card_build_first (HwCardBuilder *self,
                     int            level,
                     HwCrowding     crowding)
{
  Frame frame = { .level = -1 };
  gsize n;
  const Arrangement *arrangements = get_arrangements (self->is_small, &n);
  gsize from = self->is_small ? 0 : n - 1;
  gsize to = self->is_small && crowding == HW_CROWD_NOTHING ? n - 2 : n - 1;
  gboolean fits = FALSE;

  self->crowding = crowding;
  self->most_seams = MOST_SEAMS;
  self->checks_left = crowding == HW_CROWD_CHECKS;
  for (gsize i = from; i <= to && !fits && !self->checks_left; i++)
    fits = try_level (self, &frame, level, &arrangements[i]);
  if (self->checks_left)
    fits = try_level (self, &frame, level, self->is_small ? &small_last : &large_last);
  hw_card_put_boxes (self, g_steal_pointer (&frame.bottom));
  return fits;
}

/* The pictures of the card's seams, above @bottom. Returns where they begin. */
static double
put_seams (HwCardBuilder *self,
           double         bottom)
{
  guint before = self->card->boxes->len;
  double end;

  if (self->is_small)
    return bottom;
  end = hw_card_build_seams (self, 0, FIGURE_PT, self->fullness < HW_FULL_BARE);
  return self->card->boxes->len > before ? stand_on (self, before, end, bottom) - 6 : bottom;
}

/* For whoever begins with this card; above @bottom. Returns where it begins. */
static double
put_test_again (HwCardBuilder *self,
                double         bottom)
{
  guint before = self->card->boxes->len;
  double end;

  if (self->fullness > HW_FULL_TESTED || self->facts->steps->len == 0)
    return bottom;
  self->without_drawings = TRUE;
  end = hw_card_build_tests_across (self, self->left, 0, self->right - self->left);
  return stand_on (self, before, end, bottom) - (self->is_small ? 3 : 6);
}

/* The second card where the first had no room for them. */
static double
put_checks_left (HwCardBuilder *self,
                 double         y)
{
  if (!self->checks_left || self->card->number != 2)
    return y;
  y = hw_card_build_checks (self, self->left, y, self->right - self->left, 3);
  return hw_card_add_rule (self, "checks-rule", y + 3, FALSE);
}

gboolean
hw_card_build_later (HwCardBuilder *self,
                     int            level,
                     HwFullness     fullness,
                     gboolean       cuts)
{
  guint before;
  double y, bottom;
  double end = 0;
  GArray *below, *tests, *seams;

  hw_card_take_level (self, level);
  self->fullness = fullness;
  self->type.wheel = tightest[self->is_small ? 1 : 0].wheel;
  self->type.dial = self->type.set;
  y = hw_card_build_head (self);
  if (self->facts->steps->len > 0)
    y = hw_card_build_again (self, y);
  y = put_checks_left (self, y);
  before = self->card->boxes->len;
  bottom = hw_card_build_bottom (self);
  below = hw_card_take_boxes (self, before);
  bottom = put_test_again (self, bottom);
  tests = hw_card_take_boxes (self, before);
  bottom = put_seams (self, bottom);
  seams = hw_card_take_boxes (self, before);
  if (self->facts->rows->len > 0)
    end = hw_card_build_steps (self, self->left, y, self->right - self->left, bottom, TRUE, cuts);
  hw_card_put_boxes (self, seams);
  hw_card_put_boxes (self, tests);
  hw_card_put_boxes (self, below);
  return end <= bottom + 0.01 && (cuts || self->lost <= 0);
}
