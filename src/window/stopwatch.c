/* stopwatch.c - the timer of the sewing room at this computer, kept in its file
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The file is written when a clock starts or stops, and each minute while one runs, so that a crash costs no time and
 * a clock left behind is known. A file that cannot be read is never written over; then nothing can be timed.
 */

#include "config.h"

#include "window/stopwatch.h"

#include <glib/gi18n.h>

#include "model/timer.h"
#include "words/words.h"

#define SEE_SECONDS 60

struct _HwStopwatch
{
  GObject  parent_instance;
  char    *path;
  HwTimer *timer;
  GError  *unreadable;
  char    *news;
  guint    see_id;
};

enum { CHANGED, MESSAGE, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HwStopwatch, hw_stopwatch, G_TYPE_OBJECT)

static gint64
now (void)
{
  return g_get_real_time () / G_USEC_PER_SEC;
}

static void
tell (HwStopwatch *self,
      const char  *text)
{
  g_signal_emit (self, signals[MESSAGE], 0, text, TRUE);
}

/* (transfer full): where it stands since when. */
static char *
say_left_behind (HwStopwatch *self)
{
  g_autofree char *when = hw_words_moment (hw_timer_seen (self->timer));

  /* Translators: a day and a time */
  return g_strdup_printf (_("The timer ran while Handwheel was not open; it stands still as it was on %s."), when);
}

static void
keep (HwStopwatch *self)
{
  g_autoptr (GError) error = NULL;

  if (!hw_timer_write (self->timer, self->path, &error))
    tell (self, error->message);
}

static gboolean
see_cb (gpointer data)
{
  HwStopwatch *self = data;

  if (hw_timer_see (self->timer, now ()))
    {
      g_autofree char *text = say_left_behind (self);

      self->see_id = 0;
      keep (self);
      g_signal_emit (self, signals[CHANGED], 0);
      g_signal_emit (self, signals[MESSAGE], 0, text, FALSE);
      return G_SOURCE_REMOVE;
    }
  keep (self);
  return G_SOURCE_CONTINUE;
}

static void
watch (HwStopwatch *self)
{
  gboolean runs = hw_timer_get_running (self->timer, NULL, NULL);

  if (runs && self->see_id == 0)
    self->see_id = g_timeout_add_seconds (SEE_SECONDS, see_cb, self);
  else if (!runs)
    g_clear_handle_id (&self->see_id, g_source_remove);
}

static void
changed (HwStopwatch *self)
{
  keep (self);
  watch (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
hw_stopwatch_finalize (GObject *object)
{
  HwStopwatch *self = HW_STOPWATCH (object);

  g_clear_handle_id (&self->see_id, g_source_remove);
  /* The minute that has begun counts too. */
  if (hw_timer_get_running (self->timer, NULL, NULL))
    {
      hw_timer_see (self->timer, now ());
      hw_timer_write (self->timer, self->path, NULL);   /* nobody is left to tell; the last minute's file stands */
    }
  g_clear_pointer (&self->timer, hw_timer_free);
  g_clear_error (&self->unreadable);
  g_free (self->path);
  g_free (self->news);
  G_OBJECT_CLASS (hw_stopwatch_parent_class)->finalize (object);
}

static void
hw_stopwatch_class_init (HwStopwatchClass *class)
{
  G_OBJECT_CLASS (class)->finalize = hw_stopwatch_finalize;
  signals[CHANGED] = g_signal_new ("changed", HW_TYPE_STOPWATCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  signals[MESSAGE] = g_signal_new ("message", HW_TYPE_STOPWATCH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_BOOLEAN);
}

static void
hw_stopwatch_init (HwStopwatch *self)
{
}

HwStopwatch *
hw_stopwatch_new (const char *path)
{
  HwStopwatch *self = g_object_new (HW_TYPE_STOPWATCH, NULL);

  self->path = g_strdup (path);
  self->timer = hw_timer_read (path, &self->unreadable);
  if (self->timer == NULL)
    {
      self->timer = hw_timer_new ();
      self->news = g_strdup (self->unreadable->message);
    }
  else if (hw_timer_see (self->timer, now ()))
    {
      self->news = say_left_behind (self);
      keep (self);
    }
  watch (self);
  return self;
}

char *
hw_stopwatch_steal_news (HwStopwatch *self)
{
  g_return_val_if_fail (HW_IS_STOPWATCH (self), NULL);

  return g_steal_pointer (&self->news);
}

void
hw_stopwatch_start (HwStopwatch *self,
                    const char  *project,
                    const char  *step)
{
  g_return_if_fail (HW_IS_STOPWATCH (self));

  if (self->unreadable != NULL)
    {
      tell (self, self->unreadable->message);
      return;
    }
  hw_timer_start (self->timer, project, step, now ());
  changed (self);
}

void
hw_stopwatch_pause (HwStopwatch *self)
{
  g_return_if_fail (HW_IS_STOPWATCH (self));

  if (!hw_timer_get_running (self->timer, NULL, NULL))
    return;
  hw_timer_pause (self->timer, now ());
  changed (self);
}

void
hw_stopwatch_forget (HwStopwatch *self,
                     const char  *project,
                     const char  *step)
{
  g_return_if_fail (HW_IS_STOPWATCH (self));

  if (hw_stopwatch_minutes (self, project, step) <= 0 && !hw_stopwatch_is_running (self, project, step))
    return;
  hw_timer_forget (self->timer, project, step);
  changed (self);
}

gboolean
hw_stopwatch_get_running (HwStopwatch *self,
                          const char **project,
                          const char **step)
{
  g_return_val_if_fail (HW_IS_STOPWATCH (self), FALSE);

  return hw_timer_get_running (self->timer, project, step);
}

gboolean
hw_stopwatch_is_running (HwStopwatch *self,
                         const char  *project,
                         const char  *step)
{
  g_return_val_if_fail (HW_IS_STOPWATCH (self), FALSE);

  return hw_timer_is_running (self->timer, project, step);
}

double
hw_stopwatch_minutes (HwStopwatch *self,
                      const char  *project,
                      const char  *step)
{
  g_return_val_if_fail (HW_IS_STOPWATCH (self), 0);

  return hw_timer_minutes (self->timer, project, step, now ());
}
