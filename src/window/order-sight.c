/* order-sight.c - scrolls the order of work so that a step is seen with what heads its block
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The list scrolls to a row alone. Once that row has its place, so have the ones above it, and the list is moved by
 * what is still hidden of the head.
 */

#include "config.h"

#include "window/order-sight.h"

#include <math.h>

#include "window/controls.h"
#include "window/order-row.h"

#define WANTED "hw-order-wanted"
#define KEPT "hw-order-kept"
#define SHOWN "hw-order-shown"

static GListModel *
get_rows (GtkListView *list)
{
  return G_LIST_MODEL (gtk_list_view_get_model (list));
}

static HwOrderRowKind
get_kind (GListModel *rows,
          guint       position)
{
  g_autoptr (HwOrderRow) row = g_list_model_get_item (rows, position);

  return hw_order_row_get_kind (row);
}

static guint
find_step (GListModel *rows,
           const char *number)
{
  guint n = g_list_model_get_n_items (rows);

  for (guint i = 0; number != NULL && i < n; i++)
    {
      g_autoptr (HwOrderRow) row = g_list_model_get_item (rows, i);

      if (g_strcmp0 (hw_order_row_get_number (row), number) == 0)
        return i;
    }
  return GTK_INVALID_LIST_POSITION;
}

/* The first row of what heads the block of the step at @position. */
static guint
find_head (GListModel *rows,
           guint       position)
{
  while (position > 0 && get_kind (rows, position) == HW_ORDER_ROW_STEP)
    position--;
  while (position > 0 && get_kind (rows, position - 1) == HW_ORDER_ROW_CARE)
    position--;
  return position;
}

/* The row at @position; *@place: where it lies in the list, as that is scrolled now. NULL: it has no place. */
static GtkWidget *
find_place (GtkListView     *list,
            guint            position,
            graphene_rect_t *place)
{
  g_autoptr (GObject) item = g_list_model_get_item (get_rows (list), position);

  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (list)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      GtkWidget *box = gtk_widget_get_first_child (row);

      if (box != NULL && g_object_get_data (G_OBJECT (box), SHOWN) == item)
        return gtk_widget_get_child_visible (row) && gtk_widget_compute_bounds (row, GTK_WIDGET (list), place) ? row
                                                                                                               : NULL;
    }
  return NULL;
}

/* The page may scroll too. */
static void
show_in_page (GtkWidget *widget)
{
  GtkListView     *list = GTK_LIST_VIEW (widget);
  guint            position = find_step (get_rows (list), g_object_get_data (G_OBJECT (list), WANTED));
  graphene_rect_t  place;
  GtkWidget       *row = position != GTK_INVALID_LIST_POSITION ? find_place (list, position, &place) : NULL;

  g_object_set_data (G_OBJECT (list), WANTED, NULL);
  if (row != NULL)
    hw_bring_into_sight (row);
}

/* How a row that has moved is to be seen again. */
typedef struct
{
  double   place;                       /* from the top of what is in sight; NAN anywhere */
  gboolean head;                        /* with what heads its block */
} Kept;

static const Kept bring_whole = { NAN, TRUE };

/* Scrolls the list. FALSE: what is to be seen has no place in it yet. */
static gboolean
scroll (GtkListView *list)
{
  GtkAdjustment   *adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (list));
  guint            position = find_step (get_rows (list), g_object_get_data (G_OBJECT (list), WANTED));
  const Kept      *kept = g_object_get_data (G_OBJECT (list), KEPT);
  double           value = gtk_adjustment_get_value (adjustment);
  graphene_rect_t  step, head;

  if (kept == NULL)
    kept = &bring_whole;
  if (position == GTK_INVALID_LIST_POSITION || find_place (list, position, &step) == NULL
      || (kept->head && find_place (list, find_head (get_rows (list), position), &head) == NULL))
    return FALSE;
  if (!kept->head || step.origin.y + step.size.height - head.origin.y > gtk_adjustment_get_page_size (adjustment))
    head = step;
  if (!isnan (kept->place))
    gtk_adjustment_set_value (adjustment, value + (double) step.origin.y - kept->place);
  hw_scroll_to_show (adjustment, value + (double) head.origin.y, value + (double) (step.origin.y + step.size.height));
  return TRUE;
}

/* Whether what of the block has a place above the step at @position, its head aside, is more than the view shows. */
static gboolean
is_block_long (GtkListView *list,
               guint        position)
{
  GtkAdjustment   *adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (list));
  guint            head = find_head (get_rows (list), position);
  graphene_rect_t  step, above;
  float            top;

  if (find_place (list, position, &step) == NULL)
    return FALSE;
  top = step.origin.y;
  for (guint i = position; i-- > head && find_place (list, i, &above) != NULL; )
    top = above.origin.y;
  return step.origin.y + step.size.height - top >= gtk_adjustment_get_page_size (adjustment);
}

static void
want_row_alone (GtkListView *list)
{
  const Kept *kept = g_object_get_data (G_OBJECT (list), KEPT);
  const Kept  alone = { kept != NULL ? kept->place : NAN, FALSE };

  g_object_set_data_full (G_OBJECT (list), KEPT, g_memdup2 (&alone, sizeof alone), g_free);
}

static void
show_row_alone (GtkWidget *widget)
{
  scroll (GTK_LIST_VIEW (widget));
  hw_when_placed (widget, show_in_page);
}

/* Where the head has taken the view and its step's place is gone, the block is longer than that: the step counts. */
static void
show_again (GtkWidget *widget)
{
  GtkListView *list = GTK_LIST_VIEW (widget);
  guint        position = find_step (get_rows (list), g_object_get_data (G_OBJECT (list), WANTED));

  if (scroll (list) || position == GTK_INVALID_LIST_POSITION)
    {
      hw_when_placed (widget, show_in_page);
      return;
    }
  want_row_alone (list);
  gtk_widget_activate_action (widget, "list.scroll-to-item", "u", position);
  hw_when_placed (widget, show_row_alone);
}

/* A head that lies far above its step has its place once the list was scrolled to it. */
static void
show_head (GtkWidget *widget)
{
  GtkListView *list = GTK_LIST_VIEW (widget);
  guint        position = find_step (get_rows (list), g_object_get_data (G_OBJECT (list), WANTED));

  if (position != GTK_INVALID_LIST_POSITION && is_block_long (list, position))
    want_row_alone (list);
  if (!scroll (list) && position != GTK_INVALID_LIST_POSITION)
    {
      gtk_widget_activate_action (widget, "list.scroll-to-item", "u", find_head (get_rows (list), position));
      hw_when_placed (widget, show_again);
    }
  else
    hw_when_placed (widget, show_in_page);
}

/* Before the first frame with the changed rows is painted, so that none shows the row elsewhere. */
static void
laid_out_cb (GdkFrameClock *clock,
             GtkListView   *list)
{
  g_signal_handlers_disconnect_by_func (clock, laid_out_cb, list);
  scroll (list);
}

void
hw_order_sight_note (GtkWidget *box,
                     gpointer   item)
{
  g_object_set_data (G_OBJECT (box), SHOWN, item);
}

static void
bring (GtkListView *list,
       const char  *number,
       const Kept  *kept)
{
  guint    position = find_step (get_rows (list), number);
  gboolean waits = g_object_get_data (G_OBJECT (list), WANTED) != NULL;

  if (position == GTK_INVALID_LIST_POSITION)
    return;
  gtk_widget_activate_action (GTK_WIDGET (list), "list.scroll-to-item", "u", position);
  g_object_set_data_full (G_OBJECT (list), WANTED, g_strdup (number), g_free);
  g_object_set_data_full (G_OBJECT (list), KEPT, g_memdup2 (kept, sizeof *kept), g_free);
  if (!waits)
    hw_when_placed (GTK_WIDGET (list), show_head);
}

void
hw_order_sight_bring (GtkListView *list,
                      const char  *number)
{
  bring (list, number, &bring_whole);
}

double
hw_order_sight_find (GtkListView *list,
                     const char  *number)
{
  guint           position = find_step (get_rows (list), number);
  graphene_rect_t place;

  if (position == GTK_INVALID_LIST_POSITION || find_place (list, position, &place) == NULL || place.origin.y < 0
      || place.origin.y > (float) gtk_widget_get_height (GTK_WIDGET (list)))
    return NAN;
  return (double) place.origin.y;
}

void
hw_order_sight_keep (GtkListView *list,
                     const char  *number,
                     double       place,
                     gboolean     head)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (list));

  bring (list, number, &(Kept) { place, head });
  if (clock != NULL && !isnan (place))
    g_signal_connect_object (clock, "layout", G_CALLBACK (laid_out_cb), list, G_CONNECT_AFTER);
}
