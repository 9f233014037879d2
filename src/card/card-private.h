/* card-private.h - what a card says, and what the parts of its layout share
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Facts are the words and values of one card, taken from the plan; the layout puts them in boxes; drawing paints
 * the boxes. Only the facts look at the plan's insides. A set-up whose list goes on on another card has facts for each:
 * what they say of steps, they say of those on that card.
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
  const char *number, *name, *length;   /* length: "" by hand */
  gboolean    done, by_hand;            /* by hand: the soft parts are nought and what follows is NULL */
  double      soft[HW_N_SOFT];
  HwLineFrom  from;                     /* what its line is measured from */
  const char *edge;                     /* mm from it; "" nothing to say */
  const char *change, *change_with_line;                /* what is set anew before it, without and with the distance
                                                         * from the edge; NULL */
  const char *change_why, *change_why_short;            /* why the dial is another; NULL */
  const char *layers, *cloth;           /* "3 layers", "2 × poplin + 1 × lining", where steps differ; NULL */
  const char *note;                     /* the maker's, below its name; NULL */
  const char *then, *then_text;         /* the set-up for which this one is left meanwhile: letter, sentence; NULL */
} HwCardStep;

/* Of the list of a set-up, the @n rows from @from on; the first card has @n_first. */
typedef struct { guint from, n, n_first; } HwCardPart;

/* What the set-up's list holds, as indices of the plan's order (guint): its operations, and the hand steps that come
 * before the next one of another set-up. Those before the very first operation lead the list of its set-up, so that
 * every step of the plan is in one list. (transfer full) */
GArray *hw_card_list_rows (const HwPlan *plan, int group_index);

typedef struct { const char *role, *text; gboolean varies; } HwCardLine;   /* varies: not the same for all steps */
typedef struct { const char *seen, *remedy; double balance; gboolean drawn; } HwCardVerdict;
/* @step: the first of those that look like this; @steps: all of them, "steps 3 8", NULL where all on the card do;
 * @is_new: none on a card before does. */
typedef struct { gsize step; const char *caption, *steps; gboolean is_new; } HwCardSection;

#define HW_CARD_GAUGES 3
typedef struct { double mm; gboolean is_used; } HwCardGauge;      /* is_used: by a step of the set-up */

#define HW_CARD_DIAL_LABELS 3

typedef enum { HW_FIGURE_ALONG, HW_FIGURE_EDGE, HW_FIGURE_ROW } HwFigure;  /* what pictures a row of this stitch */

typedef struct
{
  GPtrArray  *strings;                  /* owns every string here */
  gboolean    is_unsewn;                /* whatever the plan says */
  gboolean    is_sewn;                  /* all of the set-up */
  const char *title, *machine, *letter;
  const char *size, *point, *needle_note, *needle_system;
  const char *needle_which;             /* of the case, where a note has room; NULL */
  const char *universal;                /* that such a point passes for all steps too; NULL */
  const char *thread, *thread_note, *bobbin, *bobbin_note;
  const char *both_note;                /* when one thread serves above and below; NULL */
  const char *stitch_label, *stitch, *length, *width;
  gboolean    soft_differs[HW_N_SOFT];  /* from the first step, whose values are the large ones */
  const char *line_label;               /* over the column of lines: “from edge”, “from fold” */
  const char *dial_labels[HW_CARD_DIAL_LABELS];         /* over the dial, the longest first */
  int         n_dial_labels;
  const char *dial_start, *dial_likely;
  double      start, low, high;         /* low to high: as printed */
  int         n_dials;
  const char *dial_names[4];
  const char *foot;
  GArray     *settings;                 /* HwCardLine: pressure, plate, line, ends, faces, … */
  HwCardStep  first;                    /* whose values are the large ones: the card's first operation that is not sewn
                                         * yet, else its first; where it has none, the set-up's likewise */
  HwCardStep  lead;                     /* whose values are the large ones of the first card */
  GArray     *rows;                     /* HwCardStep: this card's list, by machine and by hand */
  GArray     *steps;                    /* HwCardStep: the operations among them */
  GArray     *told;                     /* gsize: the project's steps of which all else on the card speaks: those of
                                         * them that are not sewn, else all; where there are none, the first one's */
  gboolean    cloth_differs;            /* from the first step's */
  guint       least_layers, most_layers;
  gboolean    has_hand;
  const char *again;                    /* on a later card: what stays in the machine */
  const char *goes_on;                  /* where the list goes on; NULL: it ends here */
  GArray     *sections;                 /* HwCardSection: one a seam of @told, in the order first met */
  const char *test, *test_short;        /* what to sew on a scrap, with its layers and without; on a later card for
                                         * whoever begins with it */
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
  HwCardGauge gauges[HW_CARD_GAUGES];   /* from the shortest on */
  int         n_gauges;
  double      start_balance;
} HwCardFacts;

/* @rows: of hw_card_list_rows(); @number: of the card, from 1; @is_unsewn: as if nothing were sewn yet. */
HwCardFacts *hw_card_facts_new  (const HwPlan *plan, int group_index, const GArray *rows, HwCardPart part,
                                 int number, gboolean is_unsewn);
void         hw_card_facts_free (HwCardFacts *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwCardFacts, hw_card_facts_free)

/* The operation at @from in the order of work, or the next one after it; NULL: only hand steps follow, or nothing. */
const HwPlanStep *hw_card_find_next_operation (const HwPlan *plan, guint from);
/* After this one of a set-up's @rows it is left for another one, or the work is done. */
gboolean hw_card_is_run_end (const GArray *rows, guint row);
void hw_card_facts_add_rows (HwCardFacts *self, const HwPlan *plan, const GArray *rows, HwCardPart part);
HwCardStep hw_card_facts_make_step (HwCardFacts *self, const HwPlan *plan, const HwPlanStep *planned);
gboolean   hw_card_steps_differ    (const HwCardStep *a, const HwCardStep *b, int soft);    /* set otherwise in it? */
/* What is set anew before which row, and the layers of each. */
void hw_card_facts_add_changes (HwCardFacts *self, const HwPlan *plan, const GArray *rows, HwCardPart part);
void hw_card_facts_add_cloths  (HwCardFacts *self, const HwPlan *plan);
/* Where the dial is likely to come out, and for which steps. */
void hw_card_facts_add_likely (HwCardFacts *self, const HwPlan *plan);
/* Which verdicts a test seam of this set-up may get, and what to do for each. */
void hw_card_facts_add_verdicts (HwCardFacts *self, const HwSetup *setup);
/* Every picture of a seam once, under the shortest name of the seams that it shows. */
void hw_card_facts_add_sections (HwCardFacts *self, const HwPlan *plan, const GArray *rows, HwCardPart part);
void hw_card_facts_add_settings (HwCardFacts *self, const HwPlan *plan, int group_index, gboolean is_later);
void hw_card_facts_add_gauges   (HwCardFacts *self, const HwPlan *plan, const HwGroup *group);
/* What follows when those of its @rows that stand on the card are done. */
void hw_card_facts_add_after    (HwCardFacts *self, const HwPlan *plan, const GArray *rows, HwCardPart part);
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
/* Both look at text, size, weight, slant, width (NAN: a single line, however long) and lines of @box. Borrowed. */
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
  int           number, n_cards;        /* of the set-up: card 1 of 2 */
  double        width, height;
  HwCardCache  *cache;
  GArray       *boxes;                  /* HwBox */
  GArray       *steps;                  /* gsize: project steps in its list */
  char         *heading;                /* letter and needle, for the outline */
  HwFigure      figure;
};

/* A context that measures alike on every surface: 72 dots to the inch, no hinting. (transfer full) */
PangoContext *hw_card_create_context (PangoFontMap *fonts, PangoLanguage *language);
/* Sets up @layout to write @box. */
void          hw_card_prepare_text   (PangoLayout *layout, const HwBox *box);
/* The cards of a set-up in any size; @is_small: the fields of an A6. (element-type HwCard) (transfer full) */
GPtrArray    *hw_card_layout_sized   (const HwPlan *plan, int group, gboolean is_small, double width, double height,
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

/* What a first card may give up rather than have no row at all: the pictures of the test seam; checks and gauge, which
 * go on the second card then. */
typedef enum { HW_CROWD_NOTHING, HW_CROWD_PICTURES, HW_CROWD_CHECKS, HW_N_CROWDINGS } HwCrowding;

/* What a later card has of what a card before has too, where there is room: the test seam in words and the seams that
 * were pictured there, these alone, nothing. */
typedef enum { HW_FULL_TESTED, HW_FULL_PICTURED, HW_FULL_BARE, HW_N_FULLNESSES } HwFullness;

typedef struct
{
  HwCard            *card;
  const GArray      *rows;              /* the whole list of the set-up */
  HwCardPart         part;              /* of it, on this card */
  HwCardFacts       *facts;             /* of this part */
  HwCardType         type;
  gboolean           is_small;          /* A6 */
  gboolean           checks_left;       /* for the second card, and the gauge */
  gboolean           is_only;           /* the set-up's list is all on this card */
  gboolean           is_unsewn;         /* as if nothing were sewn yet */
  gboolean           without_which;     /* no room to say which needle of the case */
  HwFullness         fullness;          /* of a later card */
  guint              most_seams;        /* pictured, of those above or beside the list */
  HwCrowding         crowding;
  gboolean           without_drawings;  /* of the test seam: no room for them */
  double             left, right, top, bottom;
  double             lost;              /* how much of the texts was cut that should be read whole, in points */
} HwCardBuilder;

/* @x: the left edge; or the right one with @from_right. Wraps within @width to @lines at most, then ends in "…".
 * Returns the height used. A @text that is NULL or empty uses none. */
typedef enum { HW_LOOK_PLAIN, HW_LOOK_MUTED, HW_LOOK_HAND } HwLook;        /* by hand: muted and slanted */
typedef struct { double pt; int weight; HwLook look; int lines; gboolean from_right; } HwTextStyle;
double hw_card_add_text    (HwCardBuilder *self, const char *role, const char *text, double x, double y, double width,
                            HwTextStyle style);
/* The size from @style.pt down to @least_pt at which @text fits without being cut. */
double hw_card_fit_text    (HwCardBuilder *self, const char *text, double width, HwTextStyle style, double least_pt);
double hw_card_text_width  (HwCardBuilder *self, const char *text, HwTextStyle style);
double hw_card_line_height (HwCardBuilder *self, double pt);
HwBox *hw_card_add_box     (HwCardBuilder *self, HwBoxKind kind, const char *role, double x, double y, double width,
                            double height);

/* Writes @text in place of the one line of @box, as far to the right. */
void   hw_card_set_from_right (HwCard *card, HwBox *box, const char *text);

/* A small muted word over a block, two lines at most; returns where the block begins. */
double hw_card_add_heading (HwCardBuilder *self, const char *role, const char *text, double x, double y, double width);
/* Boxes stand in the order in which they are read, whatever order they are measured in: takes those from @from_box on
 * away, and puts them back (freeing the array). */
GArray *hw_card_take_boxes (HwCardBuilder *self, guint from_box);
void    hw_card_put_boxes  (HwCardBuilder *self, GArray *taken);
/* For what is measured before it is known where it ends. */
void   hw_card_move_down   (HwCardBuilder *self, guint from_box, double by);

/* Seams across and the row along, side by side; @height of one drawing. @with_row: from above too, where that is worth
 * it. Returns where it ends. */
double hw_card_build_figures (HwCardBuilder *self, double x, double y, double width, double height, gboolean with_row);
/* Seams alone, in as many rows as it takes; @all: also those that a card before may have. */
double hw_card_build_seams   (HwCardBuilder *self, double y, double height, gboolean all);

/* "card 1 of 2". (transfer full) */
char  *hw_card_name_place   (int number, int n_cards);

/* A thin line across; returns how far to go on below it. */
double hw_card_add_rule     (HwCardBuilder *self, const char *role, double y, gboolean is_strong);

/* ---- a whole card ---- */

#define HW_CARD_LEVELS 8          /* from the widest type to the tightest */

/* An empty card in the type of @level. */
void     hw_card_take_level  (HwCardBuilder *self, int level);
/* All rows of the facts on one card, in the calmest way that there is room for; FALSE: there is none. */
gboolean hw_card_build_whole (HwCardBuilder *self);
/* The first of several cards, and a later one, in the type of @level; FALSE: not all rows of the facts fit. */
gboolean hw_card_build_first (HwCardBuilder *self, int level, HwCrowding crowding);
gboolean hw_card_build_later (HwCardBuilder *self, int level, HwFullness fullness, gboolean cuts);

/* The parts of a card, each from @y down; returns where it ends. */
double hw_card_build_head   (HwCardBuilder *self);
double hw_card_build_setup  (HwCardBuilder *self, double y);
double hw_card_build_foot   (HwCardBuilder *self, double y, gboolean with_figures);
double hw_card_build_dial   (HwCardBuilder *self, double y);
/* On a later card, in place of set-up and foot: what stays, the settings of its steps, and the dial. */
double hw_card_build_again  (HwCardBuilder *self, double y);
double hw_card_build_tests  (HwCardBuilder *self, double x, double y, double width);
double hw_card_build_tests_across (HwCardBuilder *self, double x, double y, double width);
double hw_card_build_checks (HwCardBuilder *self, double x, double y, double width, int columns);
/* Down to @bottom at most; INFINITY: the list does not fit. @cuts: a name may end in "…" where it would not fit whole
 * on two lines even of a list of a single column. */
double hw_card_build_steps  (HwCardBuilder *self, double x, double y, double width, double bottom, gboolean is_wide,
                             gboolean cuts);
/* From the bottom up: gauge, ruler, caution, what comes after; returns where they begin. */
double hw_card_build_bottom (HwCardBuilder *self);

/* The four columns that needle, thread, stitch and dial stand in; what lies below keeps to them. */
typedef struct { double x, width; } HwCardColumn;
HwCardColumn hw_card_column (const HwCardBuilder *self, int index);
/* One line of a column, shrunk a little before it wraps; returns where it ends. */
double hw_card_add_value    (HwCardBuilder *self, const char *role, const char *text, HwCardColumn column, double y,
                             double pt, int weight);

G_END_DECLS
