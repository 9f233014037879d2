/* guide-sheets.h - the user guide on paper
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A4 or Letter, text at 10.5 points, a chapter begins a new page; a block stands on one page where it can.
 */

#pragma once
#include "card/card.h"
#include "handbook/guide.h"

G_BEGIN_DECLS

/* Writes @chapters (element-type HwGuideChapter) as a PDF with an outline. @paper: HW_PAPER_A4 or HW_PAPER_LETTER.
 * @date_iso: its creation date, NULL none. FALSE with an HW_CARD_ERROR; nothing is written then. */
gboolean hw_guide_write (const GPtrArray *chapters, HwPaper paper, const char *path, const char *date_iso,
                         GError **error);

G_END_DECLS
