/* quick.h - a step typed in one row: what may be meant, and the step it makes
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A person types the name of a step as it comes to mind, and as much of the rest as is needed. What the handbook knows
 * from its garments, purposes, seams and hand steps stands in for what is left empty. Names are found by a few letters
 * of their words, as by find.h.
 */

#pragma once
#include "handbook/handbook.h"
#include "model/project.h"

G_BEGIN_DECLS

typedef enum
{
  HW_QUICK_STEP,                 /* "Side seams", "press the collar" */
  HW_QUICK_SEAM,                 /* a seam of the handbook, or "by hand"; empty: as guessed */
  HW_QUICK_LAYERS,               /* "2", "2 poplin + 1 interfacing"; without a name: the project's fabrics in order */
  HW_QUICK_STITCH,               /* a stitch of the handbook; empty: as guessed */
  HW_QUICK_LENGTH,               /* "136", "1.4 m", "54 in", "2 × 68 cm"; of buttonholes how many, "6 × 2 cm"; of a hand
                                    step its minutes: "5", "5 min" */
  HW_QUICK_AFTER,                /* numbers of steps: "2 4", or "none"; empty: the last step on the same part of the
                                    garment, of a hand step the last of all */
  HW_QUICK_N_FIELDS
} HwQuickField;

typedef struct
{
  gboolean   by_hand;
  HwHandKind hand;
  int        purpose;            /* index; of an operation never -1 */
  int        seam, stitch;       /* indices; -1: the purpose's own, or none */
  int        layers;             /* as the handbook's garments mostly have it */
} HwQuickGuess;

typedef struct { char *text, *detail; } HwQuickOffer;

typedef struct _HwQuick HwQuick;

/* @handbook is borrowed as long as it lives. */
HwQuick   *hw_quick_new   (const HwHandbook *handbook);
void       hw_quick_free  (HwQuick *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwQuick, hw_quick_free)

/* What is meant by a step of that name, with @seam written as its seam (may be empty): a seam makes it an operation,
 * “by hand” a hand step, whatever its name sounds like. Anything unknown is a seam. A fabric of the @project (may be
 * NULL) that is named whole says nothing of the work. */
void       hw_quick_guess (const HwQuick *self, const HwProject *project, const char *name, const char *seam,
                           HwQuickGuess *guess);
/* Whether the handbook knows what a step of that name is; else it is taken as a seam. */
gboolean   hw_quick_knows (const HwQuick *self, const HwProject *project, const char *name);
/* What a field left empty stands for in a step of that @name; NULL: it has to be filled in. (transfer full) */
char      *hw_quick_say   (const HwQuick *self, const HwProject *project, const char *name,
                           const HwQuickGuess *guess, HwQuickField field);
/* What the field may be completed to, the best first: (element-type HwQuickOffer) (transfer full). */
GPtrArray *hw_quick_offer (const HwQuick *self, const HwProject *project, HwQuickField field, const char *text,
                           guint limit);
/* All that an empty field may be, the likeliest first: seams and stitches that the handbook's garments have for that
 * purpose, then all others; the project's fabrics, as many layers as @guess has: (element-type HwQuickOffer)
 * (transfer full). Empty for the other fields. */
GPtrArray *hw_quick_all   (const HwHandbook *handbook, const HwProject *project, const HwQuickGuess *guess,
                           HwQuickField field);
/* The step, with the project's next free number. NULL with an HW_MODEL_ERROR and *@wrong, the field it is about. */
HwStep    *hw_quick_read  (const HwQuick *self, const HwProject *project,
                           const char * const fields[HW_QUICK_N_FIELDS], HwQuickField *wrong, GError **error);

G_END_DECLS
