/* later.c - what can wait until the window has been drawn for the first time
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/later.h"

#include <malloc.h>

#define MOST_WAITED_MS 1000              /* a window that is not drawn: minimized, or on another desk */

typedef struct
{
  GWeakRef   object;
  HwLaterAct act;
} Act;

/* Hangs on the workspace while things wait. */
typedef struct
{
  GtkWidget   *window;                   /* NULL: it has been drawn, or has gone */
  GQueue       acts;
  guint        source;                   /* waits for the frame, or for the next turn */
} Later;

static void
free_act (gpointer data)
{
  Act *act = data;

  g_weak_ref_clear (&act->object);
  g_free (act);
}

static void
free_later (gpointer data)
{
  Later *self = data;

  g_clear_weak_pointer (&self->window);
  g_clear_handle_id (&self->source, g_source_remove);
  g_queue_clear_full (&self->acts, free_act);
  g_free (self);
}

static Later *
peek_later (HwWorkspace *workspace)
{
  return g_object_get_data (G_OBJECT (workspace), "hw-later");
}

/* The tallest monitor's, where the window will fill one. */
static int
monitor_height (GdkDisplay *display)
{
  GListModel *monitors = gdk_display_get_monitors (display);
  int height = 0;

  for (guint i = 0; i < g_list_model_get_n_items (monitors); i++)
    {
      g_autoptr (GdkMonitor) monitor = g_list_model_get_item (monitors, i);
      GdkRectangle area;

      gdk_monitor_get_geometry (monitor, &area);
      height = MAX (height, area.height);
    }
  return height;
}

/* What an act asks for comes behind all that waits. */
static gboolean
turn_cb (gpointer data)
{
  g_autoptr (HwWorkspace) workspace = g_object_ref (data);
  Later *self = peek_later (workspace);
  Act *act = g_queue_pop_head (&self->acts);

  if (act == NULL)
    {
#ifdef __GLIBC__
      malloc_trim (0);                   /* what reading and planning took is the system's again */
#endif
      self->source = 0;
      g_object_set_data (G_OBJECT (workspace), "hw-later", NULL);
      return G_SOURCE_REMOVE;
    }
  {
    g_autoptr (GObject) object = g_weak_ref_get (&act->object);

    if (object != NULL)
      act->act (object);
  }
  free_act (act);
  return G_SOURCE_CONTINUE;
}

static gboolean
begin_cb (gpointer data)
{
  Later *self = peek_later (data);

  g_clear_weak_pointer (&self->window);
  /* Below the priority of frames, so that each is drawn before the next follows. */
  self->source = g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, turn_cb, data, NULL);
  return G_SOURCE_REMOVE;
}

static void
painted_cb (GdkFrameClock *clock,
            HwWorkspace   *workspace)
{
  Later *self = peek_later (workspace);

  g_signal_handlers_disconnect_by_func (clock, painted_cb, workspace);
  if (self == NULL)
    return;                              /* it took too long, and all is done */
  g_clear_handle_id (&self->source, g_source_remove);
  begin_cb (workspace);
}

static void
realized_cb (GtkWidget   *window,
             HwWorkspace *workspace)
{
  g_signal_connect_object (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted_cb), workspace, 0);
}

void
hw_later_hold (HwWorkspace *workspace)
{
  Later *self;

  g_return_if_fail (HW_IS_WORKSPACE (workspace));

  if (peek_later (workspace) != NULL)
    return;
  self = g_new0 (Later, 1);
  g_queue_init (&self->acts);
  self->source = g_timeout_add (MOST_WAITED_MS, begin_cb, workspace);
  g_object_set_data_full (G_OBJECT (workspace), "hw-later", self, free_later);
}

void
hw_later_until (HwWorkspace *workspace,
                GtkWidget   *window)
{
  g_return_if_fail (HW_IS_WORKSPACE (workspace) && peek_later (workspace) != NULL);
  g_return_if_fail (!gtk_widget_get_realized (window));

  g_set_weak_pointer (&peek_later (workspace)->window, window);
  g_signal_connect_object (window, "realize", G_CALLBACK (realized_cb), workspace, G_CONNECT_AFTER);
}

void
hw_later (HwWorkspace *workspace,
          gpointer     object,
          HwLaterAct   act)
{
  Later *self;
  Act *waiting;

  g_return_if_fail (HW_IS_WORKSPACE (workspace) && G_IS_OBJECT (object));

  self = peek_later (workspace);
  if (self == NULL)
    {
      act (object);
      return;
    }
  waiting = g_new0 (Act, 1);
  g_weak_ref_init (&waiting->object, object);
  waiting->act = act;
  g_queue_push_tail (&self->acts, waiting);
}

int
hw_later_height (HwWorkspace *workspace)
{
  Later *self;
  int width, height;

  g_return_val_if_fail (HW_IS_WORKSPACE (workspace), 0);

  self = peek_later (workspace);
  if (self == NULL || self->window == NULL)
    return 0;
  gtk_window_get_default_size (GTK_WINDOW (self->window), &width, &height);
  return height > 0 && !gtk_window_is_maximized (GTK_WINDOW (self->window))
         ? height : monitor_height (gtk_widget_get_display (self->window));
}
