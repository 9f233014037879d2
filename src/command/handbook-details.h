/* handbook-details.h - one entry of the handbook with its figures, for people
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "handbook/handbook.h"

G_BEGIN_DECLS

/* "  Name     value", the value taken over; an empty value prints a dash. */
void hw_details_fact    (const char *name, char *value);
/* (transfer full): "4.5 unit" with no more decimals than there are. */
char *hw_details_number (double value, int max_decimals, const char *unit);
/* (transfer full): the names of the machines in @mask, 1u << HwMachineKind */
char *hw_details_machines (guint mask);

/* What stands in the entry of @table (an element's name) beside name, note and source. */
void hw_details_print   (const HwHandbook *handbook, const char *table, const HwEntry *entry);

void hw_details_garment (const HwHandbook *handbook, const HwGarment *garment);
void hw_details_sizes   (const HwSizes *sizes);
void hw_details_fault   (const HwFault *fault);
void hw_details_term    (const HwHandbook *handbook, const HwTerm *term);

G_END_DECLS
