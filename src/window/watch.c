/* watch.c - keeps what a page shows in step with the workspace, at no cost while it is out of sight
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/watch.h"

typedef struct
{
  HwWatchRefresh refresh;
  gboolean       stale;
} Watch;

static void
refresh (GtkWidget *page,
         Watch     *self)
{
  self->stale = FALSE;
  self->refresh (page);
}

void
hw_watch_stir (GtkWidget *page)
{
  Watch *self = g_object_get_data (G_OBJECT (page), "hw-watch");

  g_return_if_fail (self != NULL);

  if (gtk_widget_get_mapped (page))
    refresh (page, self);
  else
    self->stale = TRUE;
}

static void
map_cb (GtkWidget *page,
        Watch     *self)
{
  if (self->stale)
    refresh (page, self);
}

void
hw_watch (GtkWidget      *page,
          HwWorkspace    *workspace,
          HwWatchRefresh  refresh_page)
{
  Watch *self = g_new0 (Watch, 1);

  g_return_if_fail (GTK_IS_WIDGET (page) && HW_IS_WORKSPACE (workspace));

  self->refresh = refresh_page;
  g_object_set_data_full (G_OBJECT (page), "hw-watch", self, g_free);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (hw_watch_stir), page, G_CONNECT_SWAPPED);
  g_signal_connect (page, "map", G_CALLBACK (map_cb), self);
  refresh (page, self);
}
