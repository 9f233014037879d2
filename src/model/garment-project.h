/* garment-project.h - makes a project from a garment of the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "handbook/handbook.h"
#include "model/project.h"

G_BEGIN_DECLS

/* @values: one for each measurement of @garment, in its order (mm, or a number); NULL: those of its own size.
 * @fabrics: the id of a handbook fabric for each role, in its order; NULL, there or altogether: the role's own.
 * @title_or_null: NULL: the garment's name.
 * The project's fabrics have the ids of the roles, its threads those of the garment's threads, its steps their numbers;
 * names are in the person's language. (transfer full), or NULL: HW_HANDBOOK_ERROR, a measurement is out of its bounds
 * or does not go with the others; HW_MODEL_ERROR, the id, the title or a fabric is not fit. */
HwProject *hw_garment_make (const HwHandbook *handbook, const HwGarment *garment, const double *values,
                            const char * const *fabrics, const char *title_or_null, const char *id, GError **error);

G_END_DECLS
