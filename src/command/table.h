/* table.h - one table, three ways of writing it: for people, as CSV, as XML
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef enum { HW_FORMAT_PEOPLE, HW_FORMAT_CSV, HW_FORMAT_XML } HwFormat;

typedef struct _HwTable HwTable;

/* @root and @row: element names of the XML (namespace urn:handwheel:output:1); static strings. */
HwTable *hw_table_new        (const char *root, const char *row);
void     hw_table_free       (HwTable *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwTable, hw_table_free)

/* @id: attribute and CSV column name, static; @heading: translated. */
void     hw_table_add_column (HwTable *self, const char *id, const char *heading, gboolean align_right);

/* Cells in column order; a row is full when every column has one. */
void     hw_table_text       (HwTable *self, const char *text);              /* NULL: empty */
void     hw_table_take       (HwTable *self, char *text);                    /* (transfer full) */
/* Programs read @value, people @shown (transfer full). */
void     hw_table_number     (HwTable *self, double value, char *shown);
void     hw_table_fact       (HwTable *self, const char *id, const char *value);  /* an attribute of the XML root */

/* (transfer full). CSV is RFC 4180; text that a spreadsheet would take for a formula gets a leading apostrophe. */
char    *hw_table_format     (const HwTable *self, HwFormat format);

G_END_DECLS
