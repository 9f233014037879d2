/* read-private.h - what the readers of projects, clips and rooms share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "files/xml.h"
#include "model/project-private.h"

G_BEGIN_DECLS

/* Sets an HW_MODEL_ERROR of file, line and message. Always FALSE, to be returned. */
gboolean hw_read_refuse        (const HwXml *xml, const xmlNode *node, GError **error, const char *format, ...)
                                G_GNUC_PRINTF (4, 5);
/* Puts file and line before the error of a check that failed; returns @good. */
gboolean hw_read_blame         (const HwXml *xml, const xmlNode *node, gboolean good, GError **error);
/* Refuses an element that is not in the NULL-terminated @known, naming the nearest. */
gboolean hw_read_check_element (const HwXml *xml, const xmlNode *node, const char * const *known, GError **error);
/* Refuses text directly inside an element that has none. */
gboolean hw_read_check_text    (const HwXml *xml, const xmlNode *node, GError **error);
/* An element with the attributes @known and nothing inside. */
gboolean hw_read_check_leaf    (const HwXml *xml, const xmlNode *node, const char * const *known, GError **error);
/* The <note>, into *@note, which must be NULL: a second one is refused. */
gboolean hw_read_note          (const HwXml *xml, const xmlNode *node, char **note, GError **error);
/* (transfer full): the id in @attr, which must be there and new to @seen. */
char    *hw_read_new_id        (const HwXml *xml, const xmlNode *node, const char *attr, GHashTable *seen,
                                GError **error);

/* The number in @limit's attribute, within its bounds; left out, *@value stays. */
gboolean hw_read_limit         (const HwXml *xml, const xmlNode *node, const HwLimit *limit, double *value,
                                GError **error);

/* The sections <fabrics>, <threads> and <steps> of the root into @project; "after" is not looked at. */
gboolean hw_read_parts         (const HwXml *xml, HwProject *project, GError **error);
/* Writes them. */
void     hw_write_parts        (HwXmlWriter *writer, const HwProject *self);

G_END_DECLS
