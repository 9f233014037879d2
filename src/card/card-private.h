/* card-private.h - what a card says, and what the parts of its layout share
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Facts are the words and values of one card, taken from the plan; the layout puts them in boxes; drawing paints
 * the boxes. Only the facts look at the plan's insides.
 */

#pragma once
#include "card/card.h"

G_BEGIN_DECLS

#define HW_CARD_FONTS "Inter, Cantarell, Noto Sans, DejaVu Sans, Sans"
#define HW_PT_PER_MM (72 / 25.4)

/* Soft parts: those that may differ from step to step of one card. */
typedef enum { HW_SOFT_LENGTH, HW_SOFT_WIDTH, HW_SOFT_PRESSURE, HW_SOFT_DIAL, HW_SOFT_LINE, HW_N_SOFT } HwSoft;

typedef struct
{
  gsize       index;                    /* of the project's steps */
  const char *number, *name, *length;
  gboolean    done;
  double      soft[HW_N_SOFT];
  const char *soft_text[HW_N_SOFT];
  const char *soft_short;               /* where it differs from the card's main values, in one line; "" nowhere */
  const char *then;                     /* letter of the set-up that comes next, when it is another; NULL */
} HwCardStep;

typedef struct { const char *role, *text; gboolean varies; } HwCardLine;   /* varies: not the same for all steps */
typedef struct { const char *steps; const char *soft_text[HW_N_SOFT]; } HwCardSoftRow;  /* steps set alike */
typedef struct { const char *seen, *remedy; double balance; gboolean drawn; } HwCardVerdict;
typedef struct { gsize step; const char *caption; } HwCardSection;

typedef enum { HW_FIGURE_ALONG, HW_FIGURE_EDGE, HW_FIGURE_ROW } HwFigure;  /* what pictures a row of this stitch */

typedef struct
{
  GPtrArray  *strings;                  /* owns every string here */
  const char *title, *machine, *letter;
  const char *size, *point, *needle_note, *needle_system;
  const char *thread, *thread_note, *bobbin, *bobbin_note;
  const char *both_note;                /* when one thread serves above and below; NULL */
  const char *stitch_label, *stitch, *length, *width;
  gboolean    soft_differs[HW_N_SOFT];
  gboolean    any_soft;
  const char *dial_label, *dial_label_short, *dial_start, *dial_likely;
  double      start, low, high;
  int         n_dials;
  const char *dial_names[4];
  const char *foot;
  GArray     *settings;                 /* HwCardLine: pressure, plate, line, ends, faces, … */
  GArray     *steps;                    /* HwCardStep */
  GArray     *soft_rows;                /* HwCardSoftRow */
  GArray     *sections;                 /* HwCardSection: one a seam, in the order first met */
  const char *test;                     /* what to sew on a scrap */
  GArray     *verdicts;                 /* HwCardVerdict */
  GPtrArray  *checks;
  const char *after, *after_short;
  GPtrArray  *warnings;
  const char *caution;
  HwFigure    figure;
  gboolean    has_row;                  /* the row is not a plain one: show it from above as well */
  gboolean    is_usual_plate;           /* nothing to change: a small card leaves it out */
  gsize       first_step;
  double      first_length_mm;
  double      start_balance;
} HwCardFacts;

/* @is_small: the line to follow is no column of the list, for a small card has no room for it. */
HwCardFacts *hw_card_facts_new  (const HwPlan *plan, int group_index, gboolean is_small);
void         hw_card_facts_free (HwCardFacts *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwCardFacts, hw_card_facts_free)

/* Which verdicts a test seam of this stitch may get, and what to do for each. */
void hw_card_facts_add_verdicts (HwCardFacts *self, const HwStitch *stitch);
void hw_card_facts_add_settings (HwCardFacts *self, const HwPlan *plan, const HwGroup *group);
void hw_card_facts_add_after    (HwCardFacts *self, const HwPlan *plan, int group_index);
void hw_card_facts_add_warnings (HwCardFacts *self, const HwPlan *plan);

/* Takes @text over and lends it back for as long as the facts live. */
const char *hw_card_facts_keep  (HwCardFacts *self, char *text);

/* Texts as they were measured and laid out before, for all cards of a set; for one thread at a time. */
typedef struct _HwCardCache HwCardCache;
/* @text: what was measured, for as long as the cache lives. */
typedef struct { const char *text; double width, height; int n_lines; gboolean is_cut; } HwCardMeasure;

HwCardCache         *hw_card_cache_new       (PangoFontMap *fonts, PangoLanguage *language);
HwCardCache         *hw_card_cache_ref       (HwCardCache *self);
void                 hw_card_cache_unref     (HwCardCache *self);
/* Both look at text, size, weight, width (NAN: a single line, however long), lines and role of @box. Borrowed. */
const HwCardMeasure *hw_card_cache_measure   (HwCardCache *self, const HwBox *box);
PangoLayout         *hw_card_cache_lay_out   (HwCardCache *self, const HwBox *box);
/* The same words, for as long as the cache lives. */
const char          *hw_card_cache_keep      (HwCardCache *self, const char *text);
/* For a drawing that writes: the family of the card, one line. Borrowed until the next call. */
PangoLayout         *hw_card_cache_get_plain (HwCardCache *self);

struct _HwCard
{
  HwPlan       *plan;
  int           group;
  double        width, height;
  HwCardCache  *cache;
  GArray       *boxes;                  /* HwBox */
  char         *heading;                /* letter and needle, for the outline */
  HwFigure      figure;
};

/* A context that measures alike on every surface: 72 dots to the inch, no hinting. (transfer full) */
PangoContext *hw_card_create_context (PangoFontMap *fonts, PangoLanguage *language);
/* Names of steps, for their ends tell them apart: "…, first pass" and "…, second pass". */
gboolean      hw_card_is_cut_in_middle (const HwBox *box);
/* Sets up @layout to write @box. */
void          hw_card_prepare_text   (PangoLayout *layout, const HwBox *box);
/* A card of any size; @small: the fields of an A6. */
HwCard       *hw_card_layout_sized   (const HwPlan *plan, int group, gboolean is_small, double width, double height,
                                      HwCardCache *cache);

/* ---- building ---- */

/* Sizes of type of one attempt at a card, in points. */
typedef struct
{
  double title, label, size, point, thread, bobbin, stitch, length, width, dial, foot, set;
  double step, verdict, remedy, check, after, caution, gauge;
  double leading;                       /* between lines of the lower half, as a share */
  double wheel, ticks;                  /* height of a dial drawn flat, and of the gauge */
} HwCardType;

/* What may be given up so that all steps fit: nothing; on a small card the settings that differ from step to step and
 * what comes next; the ends of long names; then steps ("and 3 more"). */
typedef enum { HW_YIELD_NOTHING, HW_YIELD_SETTINGS, HW_YIELD_NAMES, HW_YIELD_STEPS } HwYield;

typedef struct
{
  HwCard            *card;
  const HwCardFacts *facts;
  HwCardType         type;
  gboolean           is_small;          /* A6 */
  HwYield            yield;
  gboolean           without_drawings;  /* of seam and test seam: no room left for them */
  double             left, right, top, bottom;
  double             lost;              /* how much of the texts was cut that should be read whole, in points */
} HwCardBuilder;

/* @x: the left edge; or the right one with @from_right. Wraps within @width to @lines at most, then ends in "…".
 * Returns the height used. A @text that is NULL or empty uses none. */
typedef struct { double pt; int weight; gboolean muted; int lines; gboolean from_right; } HwTextStyle;
double hw_card_add_text    (HwCardBuilder *self, const char *role, const char *text, double x, double y, double width,
                            HwTextStyle style);
/* The size from @style.pt down to @least_pt at which @text fits without being cut. */
double hw_card_fit_text    (HwCardBuilder *self, const char *text, double width, HwTextStyle style, double least_pt);
double hw_card_text_width  (HwCardBuilder *self, const char *text, HwTextStyle style);
double hw_card_line_height (HwCardBuilder *self, double pt);
HwBox *hw_card_add_box     (HwCardBuilder *self, HwBoxKind kind, const char *role, double x, double y, double width,
                            double height);

/* A small muted word over a block; returns where the block begins. */
double hw_card_add_heading (HwCardBuilder *self, const char *role, const char *text, double x, double y, double width);
/* Boxes stand in the order in which they are read, whatever order they are measured in: takes those from @from_box on
 * away, and puts them back (freeing the array). */
GArray *hw_card_take_boxes (HwCardBuilder *self, guint from_box);
void    hw_card_put_boxes  (HwCardBuilder *self, GArray *taken);
/* For what is measured before it is known where it ends. */
void   hw_card_move_down   (HwCardBuilder *self, guint from_box, double by);

/* Seams across and the row along, side by side; @height of one drawing. Returns where it ends. */
double hw_card_build_figures (HwCardBuilder *self, double x, double y, double width, double height, guint most_seams);

/* A thin line across; returns how far to go on below it. */
double hw_card_add_rule     (HwCardBuilder *self, const char *role, double y, gboolean is_strong);

/* The parts of a card, each from @y down; returns where it ends. */
double hw_card_build_head   (HwCardBuilder *self);
double hw_card_build_setup  (HwCardBuilder *self, double y);
double hw_card_build_foot   (HwCardBuilder *self, double y, gboolean with_figures);
double hw_card_build_tests  (HwCardBuilder *self, double x, double y, double width);
double hw_card_build_tests_across (HwCardBuilder *self, double x, double y, double width);
double hw_card_build_checks (HwCardBuilder *self, double x, double y, double width, int columns);
/* Down to @bottom at most. */
double hw_card_build_steps  (HwCardBuilder *self, double x, double y, double width, double bottom, gboolean is_wide);
/* From the bottom up: gauge, ruler, caution, what comes after; returns where they begin. */
double hw_card_build_bottom (HwCardBuilder *self);

/* The four columns that needle, thread, stitch and dial stand in; what lies below keeps to them. */
typedef struct { double x, width; } HwCardColumn;
HwCardColumn hw_card_column (const HwCardBuilder *self, int index);

G_END_DECLS
