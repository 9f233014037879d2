/* words.h - what the plan says, as sentences in the person's language
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Codes and values in, text out; the card, the command and the window all speak through here.
 * Every function returns a new string (transfer full). Plain text: callers escape for markup.
 */

#pragma once
#include "plan/faults.h"
#include "plan/queue.h"
#include "plan/wish.h"
#include "trade/tension-learn.h"

G_BEGIN_DECLS

/* For hw_handbook_load_with_overlay(): what the handbook says, in the language of the process. Borrowed. */
const char *hw_words_translate (const char *context_or_null, const char *text);

/* How a person writes lengths and numbers: like the locale, settings of the process, made from the room's preferences.
 * Stitches, needles and thicknesses stay in mm, as machines and packets show them. */
typedef enum { HW_NUMBER_LOCALE, HW_NUMBER_POINT, HW_NUMBER_COMMA } HwNumberMark;
void        hw_words_set_style    (gboolean inches, HwNumberMark mark);
void        hw_words_take_style   (const HwPreferences *preferences);
gboolean    hw_words_are_inches   (void);
guint       hw_words_get_style    (void);        /* another number once words may be written otherwise */
const char *hw_words_decimal_mark (void);
/* Whether paper is Letter where the person lives, rather than A4. */
gboolean    hw_words_locale_letter (void);
/* A number as the person writes it; the point is understood too. FALSE: it is none. */
gboolean    hw_words_parse_number (const char *text, double *value);

/* Numbers and measures */
char *hw_words_number        (double value, int max_decimals); /* locale decimal mark, no trailing zeros */
char *hw_words_fixed         (double value, int decimals);    /* the same with all its zeros: "3.50" */
char *hw_words_half          (double dial);                   /* 3.5 -> "3½" */
char *hw_words_mm            (double mm);                     /* "2.5 mm" */
char *hw_words_metres        (double m);                      /* "1.4 m"; "55 in", "3.1 yd" */
char *hw_words_cm            (double cm, int max_decimals);   /* "48 cm"; "18⅞ in" */
char *hw_words_allowance     (double mm);                     /* "15 mm"; "⅝ in (15 mm)" */
char *hw_words_inches        (double mm);                     /* "18⅞ in", whatever the person's style */
char *hw_words_yards         (double m);                      /* "3.1 yd", below two yards "55 in" */
char *hw_words_minutes       (double minutes);                /* "0.5 min", "7 min", "1 h 20 min" */
char *hw_words_clock         (double minutes);                /* of a clock that runs: "4:12"; "1 h 20 min" */
char *hw_words_hours         (double hours);                  /* "6.2 h" */

/* Takes @parts (element-type utf8, transfer full); "a, b, c". */
char *hw_words_list          (GPtrArray *parts);

const char *hw_words_machine_kind (HwMachineKind kind);       /* "Overlocker". Borrowed */

/* Needles and threads */
char *hw_words_size          (int nm, double twin_mm);        /* "80/12"; twin "4.0/75" */
char *hw_words_point         (const HwPoint *point);          /* "round point (R)" */
char *hw_words_needle        (const HwHandbook *handbook, int point, int nm, double twin_mm);
                                                              /* "80/12 round point", "twin 4.0/75 stretch point" */
char *hw_words_thread        (const HwThreadChoice *thread);  /* "navy polyester tex 30" */
/* As the person wrote it; NULL none. */
const char *hw_words_thread_colour (const HwThreadChoice *thread);
char *hw_words_thread_short  (const HwThreadChoice *thread);  /* "navy, tex 30" */

/* Stitch, foot, layers */
char *hw_words_stitch        (const HwSetup *setup);          /* this machine's own number, "stitch 1", else its name */
char *hw_words_pressure      (double steps);                  /* "normal", "1 lighter", "1–2 lighter" */
/* "right sides together"; NULL for HW_TOGETHER_UNSAID */
const char *hw_words_together (HwTogether together);
char *hw_words_ends          (HwEnds ends);                   /* "3 stitches back at both ends" */
char *hw_words_needle_stands (const HwPlan *plan, const HwSetup *setup); /* "2 mm left of the centre"; NULL unsaid */
const char *hw_words_place_reason (HwNeedlePlace place);   /* why it stands there; NULL unsaid */
char *hw_words_width         (const HwSetup *setup);          /* "width 2 mm" */
char *hw_words_foot          (const HwHandbook *handbook, int foot);
char *hw_words_layers        (const HwPlan *plan, const HwStep *step); /* "2 × cotton twill + 1 × interfacing" */
char *hw_words_layer_counts  (const HwStep *step);            /* "2 + 1" */

char *hw_words_title         (const char *name);              /* of a step, as it heads a line: "Side seams" */
int   hw_words_count_zips    (const HwProject *project);      /* two sides of one are one */

char *hw_words_seam_length   (double cm);                     /* "48 cm", "125 cm", "2.4 m" */
char *hw_words_sewn_length   (const HwStep *step);            /* "48 cm", "2.4 m", "11, each 14 mm" */
/* "1.4 m, 7 min"; by hand "7 min"; of a step that is done the minutes that were noted */
char *hw_words_amount        (const HwPlan *plan, const HwPlanStep *planned);

/* One set-up */
char *hw_words_field         (HwField field);                 /* "Needle size" */
char *hw_words_field_of      (const HwSetup *setup, HwField field);   /* as it is called in a step like that */
char *hw_words_line          (HwLineFrom from, const char *distance); /* "20 mm from the fold" */
char *hw_words_value         (const HwPlan *plan, const HwSetup *setup, HwField field); /* as the side panel shows it */
/* any value or index */
char *hw_words_quantity      (const HwPlan *plan, const HwSetup *setup, HwField field, double value);
char *hw_words_band          (const HwPlan *plan, const HwSetup *setup, HwField field); /* "75/11 to 90/14" */
char *hw_words_reason        (const HwPlan *plan, const HwSetup *setup, const HwReason *reason); /* sentence */
char *hw_words_source        (const HwSource *source);        /* "common practice", "book: …" */
char *hw_words_warning       (const HwPlan *plan, const HwSetup *setup, const HwWarning *warning);

/* All of it as plain text, a line for each value, to be sent or noted; NULL for a hand step. */
char *hw_words_setup_text    (const HwPlan *plan, const HwPlanStep *step);

/* The order of work. What to alter: "Load 100/16 topstitch point, ochre tex 60, 3.5 mm, dial 3½" */
char *hw_words_change        (const HwPlan *plan, const HwPlanStep *step, const HwPlanStep *before_or_null);
/* The heading of a block: the same, and on which machine where the plan has several. */
char *hw_words_heading       (const HwPlan *plan, const HwPlanStep *step, const HwPlanStep *before_or_null);
char *hw_words_in_machine    (const HwPlan *plan, const HwPlanStep *step);  /* "In the machine now: 80/12 round, …" */
char *hw_words_sewn_with     (const HwPlan *plan, const HwPlanStep *step);  /* "Sewn with 80/12 round, …" */

/* Heads the block of steps of one set-up that @first begins: what to change for what is left of it, what stands in the
 * machine where nothing is, what it was sewn with when all is done. @before: the last step at a machine; NULL none. */
char *hw_words_block         (const HwPlan *plan, const HwPlanStep *first, const HwPlanStep *before);
gboolean hw_words_block_changes (const HwPlan *plan, const HwPlanStep *first);    /* the head asks for a change */
/* The same as hw_words_amount(), and before it what is set anew within a block: “Set 3 mm, dial 3½; 1.4 m, 7 min”.
 * @heads: the block's head has told it. */
char *hw_words_row_amount    (const HwPlan *plan, const HwPlanStep *planned, gboolean heads);
char *hw_words_totals        (const HwChangeTotals *totals);  /* "3 changes (2 needles), 5 minutes" */
/* How good the plan's order is: "no other order takes less changing"; NULL: nothing can be said. */
char *hw_words_proof         (const HwPlan *plan);
/* The plan's changes against those of the list, and of the best order with nothing shared. */
char *hw_words_compared      (const HwPlan *plan);
char *hw_words_pick          (const HwPlan *plan, const HwNeedlePick *pick);
                                                              /* "100/16 topstitch point, new", "…, to buy" */
/* Of a needle to buy: what packets may say instead, "universal point, jeans point will do too"; NULL nothing else. */
char *hw_words_pick_others   (const HwPlan *plan, const HwNeedlePick *pick);
/* The same of any needle, of those among @points that are sold so. */
char *hw_words_other_points  (const HwHandbook *handbook, HwSet points, int system, int point, int nm, double twin_mm);
char *hw_words_needle_in     (const HwHandbook *handbook, const HwNow *now);
char *hw_words_needle_now    (const HwPlan *plan, const HwNow *now); /* "80/12 round point, 6.2 of 15 h" */
char *hw_words_next          (const HwPlan *plan, const HwNow *now); /* "80/12 round point, new" */
char *hw_words_next_when     (const HwPlan *plan, const HwNow *now); /* "Load next, before step 7", "Load next" */
char *hw_words_care_due      (const HwPlan *plan, const HwNow *now); /* "Dust first: 15 h in step 7", NULL when none */

/* Stitch faults */
char *hw_words_fault_fact    (const HwHandbook *handbook, const HwFaultCheck *check);
                                                              /* "The needle has sewn 16 of its 15 h."; NULL nothing */
char *hw_words_fault_history (const HwFaultCheck *check);     /* "It was this once before …"; NULL never */
char *hw_words_fix           (const HwHandbook *handbook, const HwCause *cause, const HwFix *fix);
                                                              /* a button: "Lower the dial to 3"; NULL no fix */
char *hw_words_fix_done      (const HwHandbook *handbook, const HwFix *fix);   /* what is so then; NULL no fix */

/* Needles: whence, the hours left, where it runs out: "new", "part-worn, 8.8 h left, runs out in step 12" */
char *hw_words_pick_state    (const HwPlan *plan, const HwNeedlePick *pick);
/* Of the needle that a group's first step is sewn with; NULL: a new one that lasts, or not known */
char *hw_words_group_needle  (const HwPlan *plan, int group);
/* That a universal point passes for all steps of the group as well; NULL: not for all, or it is the group's own */
char *hw_words_group_universal (const HwPlan *plan, int group);
/* "Longer than a needle lasts: a new one at the end of row 3, row 6"; NULL when one needle does */
char *hw_words_needles_within(const HwPlan *plan, int order_index);

/* Days and times, as they are usual in the person's country */
char *hw_words_date          (const char *iso);               /* "9 May 2031" */
char *hw_words_day           (const char *iso);               /* "9 May" */
char *hw_words_day_short     (const char *iso);               /* "9 May", "9.5."; of a chart */
char *hw_words_moment        (gint64 unix_time);              /* on the person's clock: "9 May 2031, 14:03" */
char *hw_words_entry_time    (const char *iso);               /* the same of a moment in UTC, as the journal has it */
char *hw_words_entry_time_short (const char *iso);            /* "09/05/2031 14:03" */
GDateWeekday hw_words_week_start (void);                      /* the day on which a week begins */

/* Care */
char *hw_words_care_task     (const HwHandbook *handbook, int care);  /* "Dust under the needle plate" */
char *hw_words_care_clock    (const HwHandbook *handbook, const HwCareDue *due);  /* "12.4 of 15 h" */
char *hw_words_care_when     (const HwQueue *queue, const HwCareDue *due);  /* "before step 3 of Wrap skirt" */
char *hw_words_care_about    (const HwCareDue *due);          /* "in about 2 weeks" */
char *hw_words_care_dates    (const char *week);              /* what the dates count with; @week: "6 h" */
/* What stands where a care task of such a machine has no interval: "never", or as the manual says; NULL: it has one, or
 * is not for the machine. */
char *hw_words_care_without  (const HwMachine *machine, const HwCareTask *task);
char *hw_words_care_title    (const HwHandbook *handbook, const HwCareDue *due);  /* a notification's, with machine */
char *hw_words_care_notice   (const HwHandbook *handbook, const HwCareDue *due);  /* its text */
/* RFC 5545: one event for each care that has a date. @stamp: when it is made, "2031-05-09T14:03:00Z". */
char *hw_words_care_calendar (const HwHandbook *handbook, const HwRoom *room, const HwQueue *queue, const char *stamp);

/* Wishes */
char *hw_words_wish          (const HwWish *wish);            /* "4 before 2", "3, 4 and 5 together", "6 first" */
char *hw_words_wish_cost     (const HwWishAnswer *answer);    /* of a possible one: "2.5 min more changing" */
char *hw_words_wish_more     (const HwWishAnswer *answer);    /* "+2.5 min" */
/* "4 before 2: 2.5 min more changing", "3 before 1 cannot be: 3 after 2 after 1" */
char *hw_words_wish_answer   (const HwWish *wish, const HwWishAnswer *answer);

/* What came with a project from somebody else, in sentences; "" for nothing. */
char *hw_words_share_taken   (guint n_fabrics, guint n_seams, guint n_seams_left);

/* What stands on every card. Verdicts: 0 loops underneath, 1 balanced, 2 bobbin thread on top. */
char *hw_words_remedy        (int which, gboolean short_form); /* what to do about it */
char *hw_words_caution       (int which);                     /* 0 unplug, manual first; then fingers, needles, oil,
                                                               * lint, technician; NULL past the last */
char *hw_words_check         (const HwMachine *machine, int which); /* 0..5: before the first stitch */

/* A test seam: what is seen, and the one thing to do next. */
/* What to sew for it, short as on a card and as a sentence: 15 cm, but of what is one thing by itself, one. */
char *hw_words_test_piece    (const HwStitch *stitch, const char *cloth_or_null);
char *hw_words_test_how      (const HwStitch *stitch);
/* @facts_or_null: of the seam, whose stitch says what is good. "Needle thread loops underneath" */
char *hw_words_look          (HwVerdict verdict, const HwTensionFacts *facts_or_null);
/* A row of close stitches, which is to lie on top: satin stitch, buttonhole, bar tack. */
gboolean hw_words_is_close   (const HwTensionFacts *facts);
/* @noted: it counts already, so re-threading was tried. */
char *hw_words_after_test    (HwVerdict verdict, double dial, double next, gboolean noted);
/* "by the handbook’s rule, not tried on a scrap yet", "tried on a scrap, at 4: good"; NULL: no such dial */
char *hw_words_dial_ground   (const HwPlan *plan, const HwSetup *setup);
char *hw_words_drop_test     (int which);                     /* lines of the bobbin's; NULL past the last */

G_END_DECLS
