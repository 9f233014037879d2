/* notions-list.h - what to have ready as lines: for the page, the clipboard and the printer
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "plan/plan.h"

G_BEGIN_DECLS

typedef enum { HW_NOTIONS_HEADING, HW_NOTIONS_LINE, HW_NOTIONS_NEEDLE, HW_NOTIONS_NEEDLE_TO_BUY,
               HW_NOTIONS_NOTE } HwNotionsKind;

typedef struct
{
  HwNotionsKind kind;
  char *what, *remark, *amount;          /* remark and amount may be NULL */
} HwNotionsLine;

/* Thread by colour, cloth and fastenings, needles in the order loaded, time. (element-type HwNotionsLine) (transfer
 * full); empty when nothing is sewn on a machine. */
GPtrArray *hw_notions_list  (const HwPlan *plan);
/* As text to paste anywhere. (transfer full) */
char      *hw_notions_text  (const GPtrArray *lines, const char *title);
/* Opens the print dialog (or, with @export_path, writes that PDF through the same operation). FALSE with @error;
 * cancelling is no error. */
gboolean   hw_notions_print (GtkWindow *parent, const GPtrArray *lines, const char *title, const char *export_path,
                             GError **error);

G_END_DECLS
