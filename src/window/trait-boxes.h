/* trait-boxes.h - what a cloth is besides its measures, as boxes to tick: pile, shedding, slippery …
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "handbook/handbook.h"
#include "window/form.h"

G_BEGIN_DECLS

typedef struct _HwTraitBoxes HwTraitBoxes;

/* Adds a box for each trait of the handbook to @form. @ticked: ids of the cloth's own; may be NULL. */
HwTraitBoxes *hw_trait_boxes_new  (HwForm *form, const HwHandbook *handbook, char **ticked);
void          hw_trait_boxes_free (HwTraitBoxes *self);        /* not the widgets, which the form has */
/* What @cloth (NULL: an own cloth) has by the handbook is ticked, and not to be taken away. */
void          hw_trait_boxes_give (HwTraitBoxes *self, const HwFabric *cloth);
/* (transfer full): ids of those ticked beyond what the handbook gives. */
char        **hw_trait_boxes_read (const HwTraitBoxes *self);

G_END_DECLS
