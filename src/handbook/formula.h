/* formula.h - arithmetic over named values, by libxml2's XPath
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct _HwFormulas HwFormulas;   /* names with their values; not for two threads at once */

HwFormulas *hw_formulas_new    (void);
void        hw_formulas_free   (HwFormulas *self);
void        hw_formulas_clear  (HwFormulas *self);      /* of names; what it has read it need not read again */
void        hw_formulas_set    (HwFormulas *self, const char *name, double value);

/* What @text comes to: a finite number over 0. FALSE with a HW_HANDBOOK_ERROR, a sentence without file or line. */
gboolean    hw_formulas_reckon (HwFormulas *self, const char *text, double *value, GError **error);

/* Whether @name may stand after "$": a lower-case letter, then such letters, digits and "_". */
gboolean    hw_formula_is_name (const char *name);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwFormulas, hw_formulas_free)

G_END_DECLS
