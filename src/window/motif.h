/* motif.h - a widget that shows one of the drawings: seam, row, cloth, needle, dial, mark
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sized in em, so that drawings grow with the text beside them. What it shows is decoration unless
 * hw_motif_set_name() says what a person who cannot see it should hear.
 */

#pragma once
#include <gtk/gtk.h>
#include "card/drawing-fault.h"

G_BEGIN_DECLS

#define HW_TYPE_MOTIF (hw_motif_get_type ())
G_DECLARE_FINAL_TYPE (HwMotif, hw_motif, HW, MOTIF, GtkWidget)

GtkWidget *hw_motif_new               (double width_em, double height_em);
void       hw_motif_set_name          (HwMotif *self, const char *name);

/* Handbook entries are borrowed: the handbook outlives the window. */
void       hw_motif_show_nothing      (HwMotif *self);
void       hw_motif_show_seam         (HwMotif *self, const HwSeam *seam, guint layers);
void       hw_motif_show_row          (HwMotif *self, const char *mark);
void       hw_motif_show_along        (HwMotif *self, int plies, double balance);
void       hw_motif_show_edge         (HwMotif *self, int plies, double balance);
/* @view: HwFaultView, or -1 all three, one above the other. */
void       hw_motif_show_fault        (HwMotif *self, const HwLooks *looks, int view);
void       hw_motif_show_cloth        (HwMotif *self, HwFamily family, const char *construction);
void       hw_motif_show_needle       (HwMotif *self, gboolean solid);
void       hw_motif_show_cross_stitch (HwMotif *self, gboolean sewn);
void       hw_motif_show_letter       (HwMotif *self, const char *letter);
void       hw_motif_show_spool        (HwMotif *self);
void       hw_motif_show_arrow        (HwMotif *self);        /* a stitched one */
void       hw_motif_show_care         (HwMotif *self, const char *care);    /* see hw_draw_care() */
void       hw_motif_show_hatching     (HwMotif *self, gsize part);

G_END_DECLS
