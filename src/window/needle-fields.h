/* needle-fields.h - which needle: fields for its kind, and the choice of the one that is in a machine now
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "window/form.h"
#include "window/workspace.h"

G_BEGIN_DECLS

typedef struct
{
  GtkWidget *system, *point, *size, *twin;
} HwNeedleFields;

typedef struct
{
  const char *system, *point;
  double      nm, twin_mm;
} HwNeedleFieldKind;

/* Filled in from @packet; NULL: from the handbook's first. */
void     hw_needle_fields_add_kind  (HwNeedleFields *self, HwForm *form, const HwHandbook *handbook,
                                     const HwPacket *packet);
void     hw_needle_fields_add_sizes (HwNeedleFields *self, HwForm *form, const HwPacket *packet);
/* FALSE with a sentence. */
gboolean hw_needle_fields_read      (const HwNeedleFields *self, HwNeedleFieldKind *kind, GError **error);

/* (transfer full): @needle, or a new one of @packet, goes into @machine; all else stays as it is. */
HwJournalEntry *hw_needle_load_entry (const HwMachine *machine, const HwNeedle *needle, const HwPacket *packet);

/* (transfer full): what the load @entry did, and what became of @old, the needle that was in before, or NULL. */
char           *hw_needle_say_load   (const HwHandbook *handbook, const HwMachine *machine, const HwNeedle *old,
                                      const HwJournalEntry *entry);

typedef struct _HwNeedleNow HwNeedleNow;

/* Rows of @form that ask which needle is in @machine now: first a new one of the kind that was in it, or what the plan
 * wants next; then the others in the case; last one from elsewhere. */
HwNeedleNow    *hw_needle_now_add   (HwForm *form, HwWorkspace *workspace, const HwMachine *machine);
/* (transfer full): the entry of its load; NULL with a sentence. */
HwJournalEntry *hw_needle_now_read  (HwNeedleNow *self, const HwRoom *room, const HwMachine *machine, GError **error);
void            hw_needle_now_free  (HwNeedleNow *self);

G_END_DECLS
