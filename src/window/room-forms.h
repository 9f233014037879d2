/* room-forms.h - the forms of needles, thread, fabrics and journal entries
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each returns an HwForm that writes through the workspace when it is saved.
 */

#pragma once
#include "window/form.h"
#include "window/workspace.h"

G_BEGIN_DECLS

GtkWidget *hw_packet_form_new (HwWorkspace *workspace, const char *id);        /* NULL: a new kind of needle */
GtkWidget *hw_worn_form_new   (HwWorkspace *workspace);                         /* one used before the journal began */
/* Which machine the needle goes into. Either a part-worn one or a new one of a packet. */
GtkWidget *hw_load_form_new   (HwWorkspace *workspace, const char *needle, const char *packet);
GtkWidget *hw_place_form_new  (HwWorkspace *workspace, const char *needle);    /* label of its place in the case */
GtkWidget *hw_spool_form_new  (HwWorkspace *workspace, const char *id);        /* NULL: a new thread */
GtkWidget *hw_shelf_cloth_form_new (HwWorkspace *workspace, const char *id);   /* NULL: a new fabric */
GtkWidget *hw_use_cloth_form_new (HwWorkspace *workspace, const char *id);     /* into the open project */
GtkWidget *hw_entry_form_new  (HwWorkspace *workspace, const char *id);        /* corrects a journal entry */
/* The entry it corrects; once it is saved, the one that took its place. */
const char *hw_entry_form_peek_id (GtkWidget *form);

/* Takes @next over. NULL with @error: FALSE; where another process changed the same thing, its room is shown. */
gboolean   hw_form_take_room  (HwWorkspace *workspace, HwRoom *next, GError **error);

/* Whose journal tells of the needle: the machine that it is in or was last in. Entries of one second then stay in the
 * order in which they were made. */
const char *hw_needle_machine (const HwRoom *room, const HwNeedle *needle);

/* Shared by them: things of @list (element-type struct that begins with its id). */
gpointer   hw_shelf_find      (const GPtrArray *list, const char *id);         /* NULL none */
/* (transfer container): @list with @item in the place of the one of its id, or at the end; without @without. */
GPtrArray *hw_shelf_put       (const GPtrArray *list, gpointer item, const char *without);
/* (transfer full): an id made of @name that @list does not know yet */
char      *hw_shelf_make_id   (const GPtrArray *list, const char *name);

const HwJournalEntry *hw_shelf_find_entry (const HwRoom *room, const char *id);  /* NULL none */

G_END_DECLS
