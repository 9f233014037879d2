/* window-state.c - how the window was left, in the desktop's settings
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What belongs to the sewing room stands in the room's files, which may be shared between computers; how a window was
 * left belongs to this desktop alone. Where our schema is not installed nothing is kept, and nothing is missed; where
 * the desktop has no settings service GLib keeps a key file.
 */

#include "config.h"

#include "window/window-state.h"

#include <gio/gio.h>

#define SCHEMA "net.handwheel.Handwheel.Window"
#define PATH "/net/handwheel/Handwheel/"

/* The desktop's own place for schemas, then the one beside our data, which a prefix of one's own may leave out of the
 * desktop's search. (transfer full) (nullable) */
static GSettingsSchema *
find_schema (void)
{
  GSettingsSchemaSource *desktop = g_settings_schema_source_get_default ();
  GSettingsSchema       *schema = desktop != NULL ? g_settings_schema_source_lookup (desktop, SCHEMA, TRUE) : NULL;
  g_autoptr (GSettingsSchemaSource) ours = NULL;

  if (schema != NULL)
    return schema;
  ours = g_settings_schema_source_new_from_directory (HW_SCHEMA_DIR, desktop, TRUE, NULL);
  return ours != NULL ? g_settings_schema_source_lookup (ours, SCHEMA, FALSE) : NULL;
}

/* (transfer full) (nullable): NULL without our schema. */
static GSettings *
open_settings (const char *room_folder)
{
  g_autoptr (GSettingsSchema) schema = find_schema ();
  g_autofree char            *absolute = g_canonicalize_filename (room_folder, NULL);
  g_autofree char            *key = g_compute_checksum_for_string (G_CHECKSUM_SHA1, absolute, -1);
  g_autofree char            *path = g_strconcat (PATH "window/", key, "/", NULL);

  return schema != NULL ? g_settings_new_full (schema, NULL, path) : NULL;
}

void
hw_window_state_keep (const char          *room_folder,
                      const HwWindowState *state)
{
  g_autoptr (GSettings) settings = open_settings (room_folder);

  if (settings == NULL)
    return;
  g_settings_delay (settings);           /* one write for all */
  g_settings_set_int (settings, "width", MAX (state->width, 0));
  g_settings_set_int (settings, "height", MAX (state->height, 0));
  g_settings_set_boolean (settings, "maximized", state->maximized);
  g_settings_set_string (settings, "page", state->page != NULL ? state->page : "");
  g_settings_set_string (settings, "step", state->step != NULL ? state->step : "");
  g_settings_apply (settings);
  g_settings_sync ();
}

void
hw_window_state_recall (const char    *room_folder,
                        HwWindowState *state)
{
  g_autoptr (GSettings) settings = open_settings (room_folder);

  *state = (HwWindowState) { 0 };
  if (settings == NULL)
    return;
  state->width = g_settings_get_int (settings, "width");
  state->height = g_settings_get_int (settings, "height");
  state->maximized = g_settings_get_boolean (settings, "maximized");
  state->page = g_settings_get_string (settings, "page");
  state->step = g_settings_get_string (settings, "step");
}
