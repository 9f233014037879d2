/* guide.h - the user guide: chapters of paragraphs, steps, examples, pictures and formulas
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Chapters are data/guide/NAME.xml (namespace urn:handwheel:guide:1, schema guide.rng); the window shows them and
 * card/guide-sheets.h prints them.
 */

#pragma once
#include "handbook/handbook.h"

G_BEGIN_DECLS

typedef enum
{
  HW_GUIDE_HEADING,
  HW_GUIDE_PARAGRAPH,
  HW_GUIDE_STEP,          /* one of several, numbered from 1 */
  HW_GUIDE_EXAMPLE,       /* as it stands, line by line; in no language */
  HW_GUIDE_CAUTION,
  HW_GUIDE_PICTURE,       /* of the real window; the text says what is on it */
  HW_GUIDE_FORMULA,       /* how a number is found */
} HwGuideKind;

typedef struct
{
  HwGuideKind      kind;
  char            *text;
  int              number;         /* of a step; 0 otherwise */
  char            *file;           /* path of a picture; NULL otherwise */
  const HwSource **sources;        /* of a formula: borrowed from the handbook, NULL at the end; NULL otherwise */
} HwGuideBlock;

typedef struct
{
  char      *id;
  char      *title;
  int        place;                /* 1 … : where it stands in the guide */
  GPtrArray *blocks;               /* (element-type HwGuideBlock) in the order in which they are read */
} HwGuideChapter;

/* Every chapter in @folder, by place. @handbook: where the sources of formulas are; it must outlive the chapters.
 * (transfer full) (element-type HwGuideChapter): NULL with a HW_XML_ERROR, "FILE:LINE: …". @translate may be NULL. */
GPtrArray *hw_guide_load (const char *folder, const HwHandbook *handbook, HwTranslate translate, GError **error);

/* The chapter of that id, NULL: there is none. Borrowed. */
const HwGuideChapter *hw_guide_find (const GPtrArray *chapters, const char *id);

G_END_DECLS
