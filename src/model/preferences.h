/* preferences.h - what the person chose for the whole sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * preferences.xml: <preferences xmlns hours-a-week="6" units="mm|inch" numbers="point|comma"
 *   paper="a5" mixed="no">
 *   <change part="walk|needle|thread|bobbin|foot|plate|stitch|soft|overlock-thread" minutes="1.5"/>*
 *   <queue><project id/>*</queue></preferences>
 * A file that is not there: the defaults below.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef enum { HW_CHANGE_PART_WALK, HW_CHANGE_PART_NEEDLE, HW_CHANGE_PART_THREAD, HW_CHANGE_PART_BOBBIN,
               HW_CHANGE_PART_FOOT, HW_CHANGE_PART_PLATE, HW_CHANGE_PART_STITCH, HW_CHANGE_PART_SOFT,
               HW_CHANGE_PART_OVERLOCK_THREAD, HW_N_CHANGE_PARTS } HwChangePart;
extern const char * const hw_change_part_ids[HW_N_CHANGE_PARTS + 1];

typedef struct
{
  double   hours_a_week;                        /* at the machine; > 0, 6 when nothing was said (common practice) */
  char    *units;                               /* "mm", "inch": lengths are shown in; NULL: by the locale */
  char    *numbers;                             /* "point", "comma": the decimal mark; NULL: by the locale */
  char    *paper;                               /* "a5", "a6", "a4", "letter": for cards; NULL: by the locale */
  double   change_minutes[HW_N_CHANGE_PARTS];   /* NAN: the handbook's */
  gboolean mixed;                               /* the queue's projects are sewn mixed, not one after another */
  char   **queue;                               /* project ids, the first one first; never NULL */
} HwPreferences;

HwPreferences *hw_preferences_new  (void);                         /* the defaults */
HwPreferences *hw_preferences_copy (const HwPreferences *self);
void           hw_preferences_free (HwPreferences *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPreferences, hw_preferences_free)

G_END_DECLS
