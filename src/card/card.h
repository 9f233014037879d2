/* card.h - setup cards: laid out as plain boxes, drawn by cairo
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hw_card_layout() decides what stands where, in points (1/72 in); hw_card_draw() paints it. Print, PDF, PNG, SVG,
 * preview and tests all call these two. One card per group of the plan.
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
  gboolean   muted;
  double     value[4];            /* dial: start, likely low, likely high; gauge: length mm; along: balance -1..1 */
  gsize      step;                /* section, along: project step index */
  int        lines;               /* text: how many it may wrap to */
  gboolean   cut;                 /* text: it did not fit and ends in "…" */
} HwBox;

typedef struct _HwCard HwCard;
HwCard       *hw_card_layout   (const HwPlan *plan, int group, HwPaper card_size,
                                PangoContext *context_or_null); /* A6 or A5 */
void          hw_card_free     (HwCard *self);
const GArray *hw_card_get_boxes (const HwCard *self);                      /* HwBox */
void          hw_card_get_size (const HwCard *self, double *width_pt, double *height_pt);
void          hw_card_draw     (const HwCard *self, cairo_t *cr);          /* at the origin, 1 unit = 1 pt */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwCard, hw_card_free)

/* Sheets: A6/A5 one card a page; A4/Letter several with cut marks. */
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
int       hw_sheets_get_n_pages (const HwSheets *self);
/* In the order printed; NULL: a place that is left empty. */
const HwCard *hw_sheets_get_card (const HwSheets *self, guint index);
void      hw_sheets_get_size    (const HwSheets *self, double *width_pt, double *height_pt);
void      hw_sheets_draw        (const HwSheets *self, int page, cairo_t *cr);
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
gboolean  hw_sheets_write       (const HwSheets *self, const char *path, double dpi, const char *date_iso,
                                 GError **error);

/* The same a page at a time, for many cards: draw as often as there are pages, then save. Until then, and when it is
 * freed before, no file is touched. @sheets must outlive it. NULL or FALSE with an error. */
typedef struct _HwSheetsWriter HwSheetsWriter;
HwSheetsWriter *hw_sheets_writer_new         (const HwSheets *sheets, const char *path, double dpi,
                                              const char *date_iso, GError **error);
void            hw_sheets_writer_free        (HwSheetsWriter *self);
gboolean        hw_sheets_writer_draw        (HwSheetsWriter *self, GError **error);
int             hw_sheets_writer_get_n_drawn (const HwSheetsWriter *self);
gboolean        hw_sheets_writer_save        (HwSheetsWriter *self, GError **error);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSheetsWriter, hw_sheets_writer_free)

G_END_DECLS
