/* handbook-facts.h - the handbook's entries as a list, and what each says as lines of text
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "handbook/handbook.h"

G_BEGIN_DECLS

typedef struct
{
  const char    *table;          /* "fabric", … */
  const char    *kind;           /* translated: "Fabric" */
  const HwEntry *entry;
} HwHandbookItem;

/* (element-type HwHandbookItem), table by table. */
GArray *hw_handbook_items  (const HwHandbook *handbook);
typedef void (* HwFactFunc) (const char *name, const char *value, gpointer data);
/* Calls @fact for each figure of @item, in order. */
void    hw_handbook_facts  (const HwHandbook *handbook, const HwHandbookItem *item, HwFactFunc fact, gpointer data);

G_END_DECLS
