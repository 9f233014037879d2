/* project-private.h - what the reader, the writer and the edits of a project share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/project.h"

G_BEGIN_DECLS

#define HW_NAME_MAX 200          /* characters of a name, title or colour */
#define HW_ID_MAX 64             /* characters of an id or number */
#define HW_NOTE_MAX 4000         /* characters of a note */
#define HW_STEPS_MAX 20000
#define HW_PARTS_MAX 200         /* fabrics, threads */
#define HW_WISHES_MAX 200        /* of a project */
#define HW_PLIES_MAX 64          /* in one seam, counted one by one */

/* A number that a person gives: its attribute in the file, what it is called, where it must lie. */
typedef struct
{
  const char *attribute;
  const char *name;              /* untranslated; a noun with its article */
  const char *unit;              /* "" none */
  double      low, high;
} HwLimit;

extern const HwLimit hw_limit_mass, hw_limit_thickness, hw_limit_stretch, hw_limit_tex, hw_limit_length,
                     hw_limit_pieces, hw_limit_count, hw_limit_minutes;
extern const HwLimit hw_limit_fields[HW_N_FIELDS];     /* of overrides; unused for choices */

/* Checks for edits and readers: FALSE with an HW_MODEL_ERROR, a sentence without file or line. */
gboolean hw_check_limit     (const HwLimit *limit, double value, GError **error);
/* @what: translated, "a fabric's id" */
gboolean hw_check_id        (const char *what, const char *id, GError **error);
gboolean hw_check_text      (const char *what, const char *text, GError **error);
gboolean hw_check_note      (const char *note, GError **error);
gboolean hw_check_date      (const char *date, GError **error);
gboolean hw_check_fabric    (const HwProjectFabric *fabric, GError **error);
gboolean hw_check_thread    (const HwProjectThread *thread, GError **error);
gboolean hw_check_override  (const HwOverride *override, GError **error);
/* Adds the ply's layers to *@total. */
gboolean hw_check_ply       (const HwProject *project, const HwPly *ply, int *total, GError **error);
gboolean hw_check_step      (const HwProject *project, const HwStep *step, GError **error);   /* all but "after" */

/* Every "after" names a step that is there, and none runs in a circle. *@at is the step to blame. */
gboolean hw_check_after     (const HwProject *project, gsize *at, GError **error);

/* What one wish may say, and that neither the making up nor the other wishes forbid it. */
gboolean hw_check_wish      (const HwProject *project, const HwWish *wish, GError **error);
gboolean hw_check_wishes    (const HwProject *project, GError **error);
gboolean hw_wish_is_equal   (const HwWish *a, const HwWish *b);
/* Puts @instead in the place of step @number in every wish; NULL: takes it out, and what is no wish without it. */
void     hw_mend_wishes     (HwProject *project, const char *number, const char *instead);

/* Takes the person's own value of @field out of a step that nobody shares yet. */
void     hw_step_drop_override (HwStep *step, HwField field);

gboolean hw_project_fabric_is_equal (const HwProjectFabric *a, const HwProjectFabric *b);
gboolean hw_project_thread_is_equal (const HwProjectThread *a, const HwProjectThread *b);
gboolean hw_step_is_equal           (const HwStep *a, const HwStep *b);
gboolean hw_project_has_equal_fabrics (const HwProject *a, const HwProject *b);
gboolean hw_project_has_equal_threads (const HwProject *a, const HwProject *b);
gboolean hw_project_has_equal_wishes  (const HwProject *a, const HwProject *b);

/* (transfer full): number -> index + 1 as pointers, keys borrowed from the steps. */
GHashTable *hw_project_index_steps (const HwProject *project);

/* (transfer full): line ends made one, each line stripped, as the file keeps it; NULL when nothing is left. */
char     *hw_tidy_note      (const char *note);

/* A shallow copy to change before it is shared: its arrays are its own, their elements are not. */
HwProject *hw_project_thaw  (const HwProject *self);

G_END_DECLS
