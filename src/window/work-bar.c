/* work-bar.c - long work: how far it has got, how long it will take, and Cancel
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/work-bar.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"

#define SLICE_US (8 * 1000)              /* half a frame */
#define LOOK_MS 30                       /* how often a thread is asked */
#define HIDDEN_US (300 * 1000)           /* what is done by then needs no bar */
#define KEY "hw-work-bar"

struct _HwWorkBar
{
  GtkWidget  parent_instance;
  GtkWidget *box, *label, *progress, *cancel;
  HwWork     work;
  gpointer   data;
  guint      done;
  gint64     begun;
  gint64     counted;                    /* when it had got as far as it has now */
  guint      source_id;                  /* 0: nothing is at work */
};

G_DEFINE_FINAL_TYPE (HwWorkBar, hw_work_bar, GTK_TYPE_WIDGET)

static char *
say_left (HwWorkBar *self)
{
  double elapsed = (double) (self->counted - self->begun) / G_USEC_PER_SEC;
  double since = (double) (g_get_monotonic_time () - self->counted) / G_USEC_PER_SEC;
  double left = ceil (elapsed / self->done * (self->work.n_pieces - self->done) - since);

  if (self->work.count != NULL)
    /* Translators: seconds still to go */
    return g_strdup_printf (_("about %.0f s left"), MAX (left, 1));
  /* Translators: pieces done, pieces in all, seconds still to go */
  return g_strdup_printf (_("%u of %u, about %.0f s left"), self->done, self->work.n_pieces, MAX (left, 1));
}

static void
show_state (HwWorkBar *self)
{
  g_autofree char *left = self->done > 0 ? say_left (self) : NULL;
  /* Translators: what is at work; “12 of 200, about 4 s left” */
  g_autofree char *text = left != NULL ? g_strdup_printf (_("%s: %s"), self->work.title, left)
                                       : g_strdup (self->work.title);

  gtk_label_set_text (GTK_LABEL (self->label), text);
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (self->progress), (double) self->done / self->work.n_pieces);
}

static void
finish (HwWorkBar    *self,
        gboolean      cancelled,
        const GError *error)
{
  gpointer data = g_steal_pointer (&self->data);

  g_clear_handle_id (&self->source_id, g_source_remove);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  self->work.end (data, cancelled, error);
}

static void
show_if_long (HwWorkBar *self)
{
  if (g_get_monotonic_time () - self->begun < HIDDEN_US)
    return;
  show_state (self);
  gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
}

static gboolean
work_cb (gpointer data)
{
  HwWorkBar         *self = data;
  gint64             until = g_get_monotonic_time () + SLICE_US;
  g_autoptr (GError) error = NULL;

  while (self->done < self->work.n_pieces)
    {
      if (!self->work.piece (self->data, self->done, &error))
        {
          finish (self, FALSE, error);
          return G_SOURCE_REMOVE;
        }
      self->done++;
      self->counted = g_get_monotonic_time ();
      if (self->counted >= until)
        break;
    }
  if (self->done == self->work.n_pieces)
    {
      finish (self, FALSE, NULL);
      return G_SOURCE_REMOVE;
    }
  show_if_long (self);
  return G_SOURCE_CONTINUE;
}

static gboolean
look_cb (gpointer data)
{
  HwWorkBar *self = data;
  guint      done = self->work.count (self->data);

  if (done != self->done)
    self->counted = g_get_monotonic_time ();
  self->done = done;
  if (self->done < self->work.n_pieces)
    {
      show_if_long (self);
      return G_SOURCE_CONTINUE;
    }
  finish (self, FALSE, NULL);
  return G_SOURCE_REMOVE;
}

gboolean
hw_work_bar_begin (HwWorkBar    *self,
                   const HwWork *work,
                   gpointer      data)
{
  g_return_val_if_fail (HW_IS_WORK_BAR (self) && work != NULL && work->n_pieces > 0, FALSE);

  if (self->source_id != 0)
    return FALSE;
  self->work = *work;
  self->data = data;
  self->done = 0;
  self->begun = g_get_monotonic_time ();
  self->source_id = work->count != NULL ? g_timeout_add (LOOK_MS, look_cb, self) : g_idle_add (work_cb, self);
  return TRUE;
}

gboolean
hw_work_bar_is_busy (HwWorkBar *self)
{
  g_return_val_if_fail (HW_IS_WORK_BAR (self), FALSE);

  return self->source_id != 0;
}

HwWorkBar *
hw_work_bar_of (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  return root != NULL ? g_object_get_data (G_OBJECT (root), KEY) : NULL;
}

static void
cancel_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  HwWorkBar *self = HW_WORK_BAR (widget);

  if (self->source_id != 0)
    finish (self, TRUE, NULL);
}

/* ---- the widget ---- */

/* The window is closed. */
static void
window_gone_cb (HwWorkBar *self)
{
  if (self->source_id != 0)
    finish (self, TRUE, NULL);
}

static void
hw_work_bar_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (hw_work_bar_parent_class)->root (widget);
  g_object_set_data (G_OBJECT (gtk_widget_get_root (widget)), KEY, widget);
  g_signal_connect_object (gtk_widget_get_root (widget), "unrealize", G_CALLBACK (window_gone_cb), widget,
                           G_CONNECT_SWAPPED);
}

static void
hw_work_bar_unroot (GtkWidget *widget)
{
  g_object_set_data (G_OBJECT (gtk_widget_get_root (widget)), KEY, NULL);
  GTK_WIDGET_CLASS (hw_work_bar_parent_class)->unroot (widget);
}

static void
hw_work_bar_dispose (GObject *object)
{
  HwWorkBar *self = HW_WORK_BAR (object);

  if (self->source_id != 0)
    finish (self, TRUE, NULL);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (hw_work_bar_parent_class)->dispose (object);
}

static void
hw_work_bar_class_init (HwWorkBarClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_work_bar_dispose;
  widget_class->root = hw_work_bar_root;
  widget_class->unroot = hw_work_bar_unroot;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "work.cancel", NULL, cancel_action);
}

static void
hw_work_bar_init (HwWorkBar *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_add_css_class (self->box, "message");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->label = g_object_new (GTK_TYPE_LABEL, "xalign", 0.0, "wrap", TRUE, "wrap-mode", PANGO_WRAP_WORD_CHAR,
                              "max-width-chars", 48, "accessible-role", GTK_ACCESSIBLE_ROLE_STATUS, NULL);
  self->progress = gtk_progress_bar_new ();
  gtk_widget_set_hexpand (self->progress, TRUE);
  gtk_widget_set_valign (self->progress, GTK_ALIGN_CENTER);
  hw_control_name (self->progress, _("How far the work has got"));
  self->cancel = gtk_button_new_with_label (_("Cancel"));
  gtk_widget_set_valign (self->cancel, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (self->cancel, "flat");
  gtk_widget_add_css_class (self->cancel, "tool");
  hw_control_name (self->cancel, _("Cancel the work"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->cancel), "work.cancel");
  gtk_box_append (GTK_BOX (self->box), self->label);
  gtk_box_append (GTK_BOX (self->box), self->progress);
  gtk_box_append (GTK_BOX (self->box), self->cancel);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}
