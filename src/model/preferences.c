/* preferences.c - what the person chose, as a value
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/preferences.h"

#include <math.h>

#define ORDINARY_HOURS_A_WEEK 6

const char * const hw_change_part_ids[HW_N_CHANGE_PARTS + 1] = {
  "walk", "needle", "thread", "bobbin", "foot", "plate", "stitch", "soft", "overlock-thread", NULL
};

HwPreferences *
hw_preferences_new (void)
{
  HwPreferences *self = g_new0 (HwPreferences, 1);

  self->hours_a_week = ORDINARY_HOURS_A_WEEK;
  self->queue = g_new0 (char *, 1);
  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    self->change_minutes[part] = NAN;
  return self;
}

HwPreferences *
hw_preferences_copy (const HwPreferences *self)
{
  HwPreferences *copy = g_new (HwPreferences, 1);

  *copy = *self;                         /* the texts are replaced by copies below */
  copy->units = g_strdup (self->units);
  copy->paper = g_strdup (self->paper);
  copy->numbers = g_strdup (self->numbers);
  copy->queue = g_strdupv (self->queue);
  return copy;
}

void
hw_preferences_free (HwPreferences *self)
{
  if (self == NULL)
    return;
  g_free (self->units);
  g_free (self->paper);
  g_free (self->numbers);
  g_strfreev (self->queue);
  g_free (self);
}
