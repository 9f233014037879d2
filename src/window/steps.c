/* steps.c - what can be done with the steps chosen in the making up
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/steps.h"

#include <glib/gi18n.h>
#include <string.h>

#include "model/clip.h"
#include "window/step-list.h"

static const char * const *
words (char **numbers)
{
  return (const char * const *) numbers;
}

static gsize
count (const char * const *numbers)
{
  return g_strv_length ((char **) numbers);
}

/* ---- which are chosen ---- */

char **
hw_steps_get_chosen (GtkSelectionModel *selection)
{
  g_autoptr (GStrvBuilder) numbers = g_strv_builder_new ();
  guint n = g_list_model_get_n_items (G_LIST_MODEL (selection));

  for (guint i = 0; i < n; i++)
    if (gtk_selection_model_is_selected (selection, i))
      {
        g_autoptr (HwStepItem) item = g_list_model_get_item (G_LIST_MODEL (selection), i);

        g_strv_builder_add (numbers, hw_step_item_get_number (item));
      }
  return g_strv_builder_end (numbers);
}

void
hw_steps_choose (GtkSelectionModel  *selection,
                 const char * const *numbers)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (selection));
  g_autoptr (GtkBitset) all = gtk_bitset_new_range (0, n);
  g_autoptr (GtkBitset) chosen = gtk_bitset_new_empty ();

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwStepItem) item = g_list_model_get_item (G_LIST_MODEL (selection), i);

      if (g_strv_contains (numbers, hw_step_item_get_number (item)))
        gtk_bitset_add (chosen, i);
    }
  gtk_selection_model_set_selection (selection, chosen, all);
}

/* ---- edits ---- */

void
hw_steps_remove (HwWorkspace        *workspace,
                 const char * const *numbers)
{
  g_autoptr (GError) error = NULL;
  g_autofree char   *label = NULL;
  HwProject         *next;
  gsize              n = count (numbers);

  if (n == 0)
    return;
  /* Translators: in “Undo: …”; a step's number */
  label = n == 1 ? g_strdup_printf (_("remove step %s"), numbers[0])
                 /* Translators: in “Undo: …” */
                 : g_strdup_printf (ngettext ("remove %d step", "remove %d steps", n), (int) n);
  next = hw_edit_remove_steps (hw_workspace_peek_project (workspace), numbers, &error);
  hw_workspace_edit (workspace, next, label, NULL, error);
}

/* Where the first (the last) of them stands; -1: there is none. */
static int
find_end (const HwProject    *project,
          const char * const *numbers,
          gboolean            last)
{
  int found = -1;

  for (gsize i = 0; numbers[i] != NULL; i++)
    {
      int place = hw_project_find_step (project, numbers[i]);

      if (place >= 0 && (found < 0 || (last ? place > found : place < found)))
        found = place;
    }
  return found;
}

gboolean
hw_steps_can_shift (HwWorkspace        *workspace,
                    const char * const *numbers,
                    gboolean            down)
{
  const HwProject *project = hw_workspace_peek_project (workspace);
  int              n = (int) count (numbers);
  int              end;

  if (project == NULL || n == 0)
    return FALSE;
  end = find_end (project, numbers, !down);
  return down ? end >= 0 && end < (int) project->steps->len - n : end >= n;
}

static void
move (HwWorkspace        *workspace,
      const char * const *numbers,
      gsize               before,
      const char         *merge)
{
  g_autoptr (GError) error = NULL;
  gsize              n = count (numbers);
  HwProject         *next = hw_edit_move_steps (hw_workspace_peek_project (workspace), numbers, before, &error);
  /* Translators: in “Undo: …”; a step's number */
  g_autofree char   *label = n == 1 ? g_strdup_printf (_("move step %s"), numbers[0])
                                    /* Translators: in “Undo: …” */
                                    : g_strdup_printf (ngettext ("move %d step", "move %d steps", n), (int) n);

  hw_workspace_edit (workspace, next, label, merge, error);
}

void
hw_steps_shift (HwWorkspace        *workspace,
                const char * const *numbers,
                gboolean            down)
{
  const HwProject *project = hw_workspace_peek_project (workspace);
  g_autofree char *joined = g_strjoinv (" ", (char **) numbers);
  g_autofree char *merge = g_strconcat ("move-", joined, NULL);

  if (!hw_steps_can_shift (workspace, numbers, down))
    return;
  move (workspace, numbers, down ? MIN ((gsize) find_end (project, numbers, TRUE) + 2, project->steps->len)
                                 : (gsize) MAX (find_end (project, numbers, FALSE) - 1, 0), merge);
}

void
hw_steps_place (HwWorkspace        *workspace,
                const char * const *numbers,
                const char         *beside,
                gboolean            after)
{
  int place = hw_project_find_step (hw_workspace_peek_project (workspace), beside);

  if (place >= 0)
    move (workspace, numbers, (gsize) place + (after ? 1 : 0), NULL);
}

/* ---- the clipboard ---- */

void
hw_steps_copy (HwWorkspace        *workspace,
               GdkClipboard       *clipboard,
               const char * const *numbers)
{
  g_autoptr (HwClip) clip = hw_clip_new (hw_workspace_peek_project (workspace), numbers);
  g_autofree char   *xml = clip != NULL ? hw_clip_to_xml (clip, NULL) : NULL;
  g_autofree char   *text = NULL;

  if (clip == NULL)
    return;
  gdk_clipboard_set_text (clipboard, xml);
  text = g_strdup_printf (ngettext ("%u step copied: paste it here or in another project",
                                    "%u steps copied: paste them here or in another project",
                                    hw_clip_n_steps (clip)), hw_clip_n_steps (clip));
  hw_workspace_tell (workspace, text, FALSE);
}

void
hw_steps_cut (HwWorkspace        *workspace,
              GdkClipboard       *clipboard,
              const char * const *numbers)
{
  hw_steps_copy (workspace, clipboard, numbers);
  hw_steps_remove (workspace, numbers);
}

char **
hw_steps_paste (HwWorkspace *workspace,
                const char  *text,
                const char  *after)
{
  const HwProject   *project = hw_workspace_peek_project (workspace);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwClip) clip = hw_clip_parse (text != NULL ? text : "", text != NULL ? strlen (text) : 0, &error);
  int                place = after != NULL ? hw_project_find_step (project, after) : -1;
  g_auto (GStrv)     numbers = NULL;
  g_autofree char   *label = NULL;
  HwProject         *next = NULL;

  if (clip != NULL)
    next = hw_edit_paste (project, place >= 0 ? (gsize) place + 1 : project->steps->len, clip, &numbers, &error);
  /* Translators: in “Undo: …” */
  label = clip != NULL ? g_strdup_printf (ngettext ("paste %u step", "paste %u steps", hw_clip_n_steps (clip)),
                                          hw_clip_n_steps (clip)) : NULL;
  if (!hw_workspace_edit (workspace, next, label, NULL, error))
    return NULL;
  hw_workspace_select (workspace, numbers[0]);
  return g_steal_pointer (&numbers);
}

/* ---- dragging ---- */

#define DRAG_PREFIX "handwheel-rows:"    /* so that text dragged in from elsewhere is no step */

static HwStepItem *
get_item (GtkWidget *row)
{
  return g_object_get_data (G_OBJECT (row), "hw-step-item");
}

void
hw_steps_set_row (GtkWidget *row,
                  gpointer   item)
{
  g_object_set_data (G_OBJECT (row), "hw-step-item", item);
}

GtkWidget *
hw_steps_find_row (GtkWidget  *view,
                   const char *number)
{
  HwStepItem *item = get_item (view);

  if (item != NULL && g_strcmp0 (hw_step_item_get_number (item), number) == 0)
    return view;
  for (GtkWidget *child = gtk_widget_get_first_child (view); item == NULL && child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *row = hw_steps_find_row (child, number);

      if (row != NULL)
        return row;
    }
  return NULL;
}

/* The numbers that go when @row is dragged. (transfer full) */
static char *
list_dragged (GtkWidget *row)
{
  GtkWidget      *view = gtk_widget_get_ancestor (row, GTK_TYPE_COLUMN_VIEW);
  const char     *number = hw_step_item_get_number (get_item (row));
  g_auto (GStrv)  chosen = hw_steps_get_chosen (gtk_column_view_get_model (GTK_COLUMN_VIEW (view)));

  return g_strv_contains (words (chosen), number) ? g_strjoinv (" ", chosen) : g_strdup (number);
}

static GdkContentProvider *
prepare_cb (GtkDragSource *source,
            double         x,
            double         y,
            GtkWidget     *row)
{
  g_autofree char *dragged = get_item (row) != NULL ? list_dragged (row) : NULL;
  g_autofree char *text = dragged != NULL ? g_strconcat (DRAG_PREFIX, dragged, NULL) : NULL;

  return text != NULL ? gdk_content_provider_new_typed (G_TYPE_STRING, text) : NULL;
}

static void
begin_cb (GtkDragSource *source,
          GdkDrag       *drag,
          GtkWidget     *row)
{
  g_autoptr (GdkPaintable) picture = gtk_widget_paintable_new (row);

  gtk_drag_source_set_icon (source, picture, 24, 12);
}

static void
show_place (GtkWidget *row,
            gboolean   before,
            gboolean   after)
{
  gtk_widget_remove_css_class (row, before ? "drop-after" : "drop-before");
  if (before || after)
    gtk_widget_add_css_class (row, before ? "drop-before" : "drop-after");
  else
    gtk_widget_remove_css_class (row, "drop-after");
}

static gboolean
is_upper (GtkWidget *row,
          double     y)
{
  return y < gtk_widget_get_height (row) / 2.0;
}

static GdkDragAction
motion_cb (GtkDropTarget *target,
           double         x,
           double         y,
           GtkWidget     *row)
{
  show_place (row, is_upper (row, y), !is_upper (row, y));
  return GDK_ACTION_MOVE;
}

static void
leave_cb (GtkDropTarget *target,
          GtkWidget     *row)
{
  show_place (row, FALSE, FALSE);
}

static gboolean
drop_cb (GtkDropTarget *target,
         const GValue  *value,
         double         x,
         double         y,
         GtkWidget     *row)
{
  const char *text = g_value_get_string (value);

  show_place (row, FALSE, FALSE);
  if (get_item (row) == NULL || text == NULL || !g_str_has_prefix (text, DRAG_PREFIX))
    return FALSE;
  return gtk_widget_activate_action (row, "making-up.place", "(ssb)", text + strlen (DRAG_PREFIX),
                                     hw_step_item_get_number (get_item (row)), !is_upper (row, y));
}

void
hw_steps_add_drag (GtkWidget *row)
{
  GtkDragSource *source = gtk_drag_source_new ();
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_STRING, GDK_ACTION_MOVE);

  gtk_drag_source_set_actions (source, GDK_ACTION_MOVE);
  g_signal_connect (source, "prepare", G_CALLBACK (prepare_cb), row);
  g_signal_connect (source, "drag-begin", G_CALLBACK (begin_cb), row);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (source));
  g_signal_connect (target, "motion", G_CALLBACK (motion_cb), row);
  g_signal_connect (target, "leave", G_CALLBACK (leave_cb), row);
  g_signal_connect (target, "drop", G_CALLBACK (drop_cb), row);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (target));
}
