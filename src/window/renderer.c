/* renderer.c - what draws the window
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A window of paper, lines and words that stands still most of the time gains nothing by a GL driver, and beginning one
 * takes a third of the start and half of the memory. GTK can be told so by its environment alone, which its manual
 * calls no stable interface: where it does not listen any more, the window is drawn as ever.
 */

#include "config.h"

#include "window/renderer.h"

#include <gtk/gtk.h>

/* The minor version of GTK since which GDK_DISABLE turns things off, and GDK_DEBUG no longer does. */
#define DISABLE_SINCE 15

static gboolean
is_unset (const char *name)
{
  const char *value = g_getenv (name);

  return value == NULL || *value == '\0';
}

void
hw_renderer_choose (void)
{
  gboolean    later = gtk_get_minor_version () >= DISABLE_SINCE;
  const char *name = later ? "GDK_DISABLE" : "GDK_DEBUG";

  if (is_unset ("GSK_RENDERER"))
    g_setenv ("GSK_RENDERER", "cairo", TRUE);
  if (g_str_equal (g_getenv ("GSK_RENDERER"), "cairo") && is_unset (name))
    g_setenv (name, later ? "gl,vulkan" : "gl-disable", TRUE);
}
