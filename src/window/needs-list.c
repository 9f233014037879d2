/* needs-list.c - which new needles the planned projects still want, against those in the case
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/needs-list.h"

#include <glib/gi18n.h>

#include "plan/stock.h"
#include "window/controls.h"
#include "words/words.h"

#define TITLES_MOST 3

/* What was asked, of snapshots that do not change, and the answer. */
typedef struct
{
  gatomicrefcount ref_count;
  HwHandbook     *handbook;
  HwRoom         *room;
  HwProject      *open;                 /* NULL none */
  GPtrArray      *projects;
  GPtrArray      *needs;                /* NULL: not known yet */
  GCancellable   *gone;                 /* nobody waits for it any more */
} Needs;

static Needs *
ref_needs (Needs *self)
{
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

static void
unref_needs (gpointer data)
{
  Needs *self = data;

  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_clear_pointer (&self->needs, g_ptr_array_unref);
  g_clear_pointer (&self->open, hw_project_unref);
  g_ptr_array_unref (self->projects);
  hw_room_unref (self->room);
  hw_handbook_unref (self->handbook);
  g_object_unref (self->gone);
  g_free (self);
}

/* ---- on the thread ---- */

/* The open project's plan and those of the queue; without a queue, of every project that is not all sewn. */
static gboolean
is_planned (const Needs     *self,
            const HwProject *project)
{
  char **queue = self->room->preferences->queue;

  if (self->open != NULL && g_strcmp0 (self->open->id, project->id) == 0)
    return TRUE;
  if (queue[0] != NULL && !g_strv_contains ((const char * const *) queue, project->id))
    return FALSE;
  for (guint i = 0; i < project->steps->len; i++)
    {
      const HwStep *step = hw_project_get_step (project, i);

      if (step->kind == HW_STEP_OPERATION && hw_room_step_done (self->room, project->id, step->number) == NULL)
        return TRUE;
    }
  return FALSE;
}

static void
plan_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Needs                *self = data;
  g_autoptr (GPtrArray) plans = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_plan_unref);

  for (guint i = 0; i < self->projects->len && !g_cancellable_is_cancelled (cancellable); i++)
    {
      const HwProject *project = self->projects->pdata[i];
      /* One that cannot be planned says why on its own pages. */
      HwPlan          *plan = is_planned (self, project) ? hw_plan_new (self->handbook, project, self->room, NULL)
                                                         : NULL;

      if (plan != NULL)
        g_ptr_array_add (plans, plan);
    }
  g_task_return_pointer (task, hw_stock_needs (self->handbook, self->room, plans), (GDestroyNotify) g_ptr_array_unref);
}

/* ---- showing ---- */

static char *
say_projects (const HwStockNeed *need)
{
  g_autoptr (GString) titles = g_string_new (NULL);
  guint               n = MIN (need->projects->len, TITLES_MOST);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (titles, "%s%s", i > 0 ? C_("list", ", ") : "", (char *) need->projects->pdata[i]);
  if (need->projects->len > n)
    /* Translators: some projects' titles, how many more there are */
    return g_strdup_printf (ngettext ("%s and %u more", "%s and %u more", need->projects->len - n), titles->str,
                            need->projects->len - n);
  return g_string_free (g_steal_pointer (&titles), FALSE);
}

static void
add_need (GtkWidget         *box,
          const HwHandbook  *handbook,
          const HwStockNeed *need)
{
  g_autofree char *name = hw_words_needle (handbook, need->point, need->size_nm, need->twin_mm);
  int              missing = MAX (need->wanted - need->on_hand, 0);
  g_autofree char *buy = missing > 0
                         ? g_strdup_printf (ngettext ("buy %d", "buy %d", (gulong) missing), missing)
                         : g_strdup (_("enough"));
  /* Translators: new needles wanted, new needles on hand, “buy 2” or “enough” */
  g_autofree char *figures = g_strdup_printf (_("%d wanted, %d on hand: %s"), need->wanted, need->on_hand, buy);
  g_autofree char *titles = say_projects (need);
  g_autofree char *others = missing > 0 ? hw_words_other_points (handbook, need->points, need->system, need->point,
                                                                 need->size_nm, need->twin_mm)
                                        : NULL;
  GtkWidget       *label = hw_label_new (name, "strong");

  gtk_widget_set_margin_top (label, 8);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), hw_label_new (figures, missing > 0 ? "brass" : "sage"));
  if (others != NULL)
    gtk_box_append (GTK_BOX (box), hw_label_new (others, "mute"));
  gtk_box_append (GTK_BOX (box), hw_label_new (titles, "mute"));
}

static void
show_needs (GtkWidget   *box,
            const Needs *self)
{
  for (GtkWidget *child = gtk_widget_get_last_child (box); child != gtk_widget_get_first_child (box);
       child = gtk_widget_get_last_child (box))
    gtk_box_remove (GTK_BOX (box), child);
  for (guint i = 0; self->needs != NULL && i < self->needs->len; i++)
    add_need (box, self->handbook, self->needs->pdata[i]);
  if (self->needs == NULL)
    gtk_box_append (GTK_BOX (box), hw_label_new (_("Planning your projects…"), "mute"));
  else if (self->needs->len == 0)
    gtk_box_append (GTK_BOX (box), hw_label_new (_("No new needle is wanted by what is left to sew."), "mute"));
}

static void
planned_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      box)
{
  Needs                *self = g_task_get_task_data (G_TASK (result));
  g_autoptr (GPtrArray) needs = g_task_propagate_pointer (G_TASK (result), NULL);

  if (g_cancellable_is_cancelled (self->gone))
    return;                             /* and the box with it */
  self->needs = g_steal_pointer (&needs);
  show_needs (box, self);
}

static Needs *
ask (HwWorkspace *workspace)
{
  Needs           *self = g_new0 (Needs, 1);
  const HwProject *open = hw_workspace_peek_project (workspace);

  g_atomic_ref_count_init (&self->ref_count);
  self->handbook = hw_handbook_ref ((HwHandbook *) hw_workspace_get_handbook (workspace));
  self->room = hw_room_ref ((HwRoom *) hw_workspace_get_room (workspace));
  self->open = open != NULL ? hw_project_ref ((HwProject *) open) : NULL;
  self->projects = hw_workspace_read_projects (workspace);
  self->gone = g_cancellable_new ();
  return self;
}

static void
destroy_cb (GtkWidget *box,
            Needs     *self)
{
  g_cancellable_cancel (self->gone);
}

GtkWidget *
hw_needs_list_new (HwWorkspace *workspace,
                   GtkWidget   *before)
{
  GtkWidget        *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  const Needs      *last = before != NULL ? g_object_get_data (G_OBJECT (before), "hw-needs") : NULL;
  Needs            *self = ask (workspace);
  g_autoptr (GTask) task = g_task_new (NULL, self->gone, planned_cb, box);

  gtk_box_append (GTK_BOX (box), hw_label_new (_("What planned projects want"), "subtitle"));
  show_needs (box, last != NULL ? last : self);
  g_object_set_data_full (G_OBJECT (box), "hw-needs", self, unref_needs);
  g_signal_connect (box, "destroy", G_CALLBACK (destroy_cb), self);
  g_task_set_source_tag (task, hw_needs_list_new);
  g_task_set_task_data (task, ref_needs (self), unref_needs);
  g_task_run_in_thread (task, plan_in_thread);
  return box;
}
