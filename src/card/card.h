/* card.h - setup cards: laid out as plain boxes, drawn by cairo
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hw_card_layout() decides what stands where, in points (1/72 in); hw_card_draw() paints it. Print, PDF, PNG, SVG,
 * preview and tests all call these two.
 *
 * One rule for every paper: each group of the plan has a card from which the machine is set, with all its checks, its
 * test seam and its pictures. Its list has the group's operations in the order of work, with their lengths, and the
 * hand steps that come between them. Rows of it that do not fit go on, in their order, on a second card of the group
 * and on more, each numbered "card 2 of 2"; nothing of the list is left out, and no name in it is cut.
 */

#pragma once
#include <cairo.h>
#include <pango/pango.h>
#include "plan/plan.h"

G_BEGIN_DECLS

#define HW_CARD_ERROR (hw_card_error_quark ())
GQuark hw_card_error_quark (void);
typedef enum { HW_CARD_ERROR_WRITE, HW_CARD_ERROR_NOTHING } HwCardError;

typedef enum { HW_PAPER_A6, HW_PAPER_A5, HW_PAPER_A4, HW_PAPER_LETTER, HW_N_PAPERS } HwPaper;
extern const char * const hw_paper_ids[HW_N_PAPERS];      /* "a6", "a5", "a4", "letter" */
HwPaper hw_paper_chosen (const HwPreferences *preferences);             /* A5 where nothing was chosen */
void hw_paper_size (HwPaper paper, double *width_pt, double *height_pt);    /* A5 and A6 landscape,
A4 and Letter portrait */

/* What lies on a card, for tests and for drawing. Coordinates in points from the card's top left corner. */
typedef enum { HW_BOX_TEXT, HW_BOX_LINE, HW_BOX_DIAL, HW_BOX_SECTION, HW_BOX_ALONG, HW_BOX_GAUGE, HW_BOX_RULER,
               HW_BOX_LETTER,
               HW_BOX_TICKBOX, HW_BOX_PIN } HwBoxKind;
typedef struct
{
  HwBoxKind  kind;
  const char *role;               /* static: "needle-size", "needle-point", "needle-thread", "dial", "foot", "caution",
  … */
  double     x, y, width, height;
  const char *text;               /* HW_BOX_TEXT, HW_BOX_LETTER; lives as long as the card */
  double     font_pt;
  int        weight;              /* PangoWeight */
  gboolean   muted, slanted;      /* slanted: by hand */
  double     value[4];            /* dial: start, likely low, likely high; gauge: length mm; along: balance -1..1 */
  gsize      step;                /* section, along, tickbox: project step index */
  int        lines;               /* text: how many it may wrap to */
  gboolean   cut;                 /* text: it did not fit and ends in "…" */
} HwBox;

typedef struct _HwCard HwCard;
GPtrArray    *hw_card_layout   (const HwPlan *plan, int group, HwPaper card_size,   /* A6 or A5 */
                                PangoContext *context_or_null);     /* (element-type HwCard) (transfer full) */
void          hw_card_free     (HwCard *self);
int           hw_card_get_group (const HwCard *self);
void          hw_card_get_place (const HwCard *self, int *number, int *n_cards);    /* "card 1 of 2" of its group */
const GArray *hw_card_get_steps (const HwCard *self);       /* gsize: the project's steps in its list, in order */
const GArray *hw_card_get_boxes (const HwCard *self);                      /* HwBox */
void          hw_card_get_size (const HwCard *self, double *width_pt, double *height_pt);
void          hw_card_draw     (const HwCard *self, cairo_t *cr);          /* at the origin, 1 unit = 1 pt */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwCard, hw_card_free)

/* Sheets: A6/A5 one card a page; A4/Letter several with cut marks. Cards are laid out when they are asked for. */
typedef struct
{
  HwPaper paper;
  int     per_sheet;              /* A4, Letter: 1, 2 (A5 cards) or 4 (A6 cards); else 1 */
  const int *groups;              /* which, in order; NULL: all */
  gsize   n_groups;
} HwSheetOptions;

typedef struct _HwSheets HwSheets;
HwSheets *hw_sheets_new         (const HwPlan *plan, const HwSheetOptions *options);
void      hw_sheets_free        (HwSheets *self);
int       hw_sheets_get_n_pages (HwSheets *self);        /* lays out what is not yet */
/* In the order printed; NULL: a place that is left empty. Lays out what comes before. */
const HwCard *hw_sheets_get_card (HwSheets *self, guint index);
void      hw_sheets_get_size    (const HwSheets *self, double *width_pt, double *height_pt);

/* For a preview, that shows a page before all are laid out: a group that is not yet is taken to have one card, and
 * pages behind it may move once it is. Asked for one of these pages, only what stands on it is laid out. */
void      hw_sheets_draw        (HwSheets *self, int page, cairo_t *cr);
const HwCard *hw_sheets_get_first_on (HwSheets *self, int page);         /* NULL: there is no such page */
/* The page with the card of @group that lists @step; -1: there is none of @group. */
int       hw_sheets_find_page   (HwSheets *self, const HwPlan *plan, int group, gsize step);
/* One group more; FALSE: all are laid out, and pages stay where they are. */
gboolean  hw_sheets_lay_out_next (HwSheets *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSheets, hw_sheets_free)

/* A class handout: for each of @machines (ids, NULL-terminated, at most HW_HANDOUT_MAX) the cards of what @plan sews on
 * machines of its kind, planned for this one: its own dial, stitch numbers, feet and test seams. Cards of one machine
 * begin on a new page. NULL with an HW_CARD_ERROR or HW_MODEL_ERROR: a machine is not there, sews nothing of this
 * project, or its plan cannot be made. @options: groups are not looked at. */
#define HW_HANDOUT_MAX 100
HwSheets *hw_handout_new        (const HwPlan *plan, const char * const *machines, const HwSheetOptions *options,
                                 GError **error);
/* The machines of @plan's room for which a handout can be made: those of a kind that it sews on. (transfer full) */
char    **hw_handout_machines   (const HwPlan *plan);

/* Writes to @path by its ending: .pdf (all pages, metadata, outline), .png and .svg (page n gets "-n" before the
 * ending when there are several). @date_iso: PDF creation date, NULL none. PNG at @dpi. */
gboolean  hw_sheets_write       (HwSheets *self, const char *path, double dpi, const char *date_iso,
                                 GError **error);

/* The same a page at a time, for many cards: draw as often as there are pages, then save. Until then, and when it is
 * freed before, no file is touched. @sheets must outlive it. NULL or FALSE with an error. */
typedef struct _HwSheetsWriter HwSheetsWriter;
HwSheetsWriter *hw_sheets_writer_new         (HwSheets *sheets, const char *path, double dpi,
                                              const char *date_iso, GError **error);
void            hw_sheets_writer_free        (HwSheetsWriter *self);
gboolean        hw_sheets_writer_draw        (HwSheetsWriter *self, GError **error);
int             hw_sheets_writer_get_n_drawn (const HwSheetsWriter *self);
gboolean        hw_sheets_writer_save        (HwSheetsWriter *self, GError **error);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSheetsWriter, hw_sheets_writer_free)

G_END_DECLS
