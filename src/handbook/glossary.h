/* glossary.h - the words of the trade, explained
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "handbook/entries.h"

G_BEGIN_DECLS

/* glossary.xml: <term id name see?="ID ID" source><note>what it means</note></term>; the note must be there. */
typedef struct
{
  HwEntry entry;
  int    *see;                           /* indices of other terms */
  gsize   n_see;
} HwTerm;

G_END_DECLS
