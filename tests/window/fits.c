/* fits.c - whether all that a window shows has room
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "fits.h"

#define BLEED 4                  /* the ground of a link reaches so far beyond the text it lines up with */

typedef struct
{
  const char *where;
  GString    *faults;
  guint       n_labels;
} Look;

static void
blame (Look       *look,
       GtkWidget  *widget,
       const char *what)
{
  g_autoptr (GString) path = g_string_new (NULL);

  for (GtkWidget *w = widget; w != NULL && path->len < 300; w = gtk_widget_get_parent (w))
    {
      const char *id = gtk_widget_get_css_name (w);

      g_string_append_printf (path, "%s%s", path->len > 0 ? " in " : "", id);
    }
  g_string_append_printf (look->faults, "%s: %s%s%s%s %s (%s)\n", look->where, G_OBJECT_TYPE_NAME (widget),
                          GTK_IS_LABEL (widget) ? " “" : "",
                          GTK_IS_LABEL (widget) ? gtk_label_get_text (GTK_LABEL (widget)) : "",
                          GTK_IS_LABEL (widget) ? "”" : "", what, path->str);
}

/* On itself or on what it is a part of: a card, a row, a button. */
static gboolean
tells_whole (GtkWidget *label)
{
  GtkWidget *widget = label;

  for (int i = 0; widget != NULL && i < 6; i++, widget = gtk_widget_get_parent (widget))
    if (gtk_widget_get_has_tooltip (widget))
      return TRUE;
  return FALSE;
}

static void
look_at_label (Look      *look,
               GtkWidget *label)
{
  PangoLayout *layout = gtk_label_get_layout (GTK_LABEL (label));
  int          width = 0;
  int          height = 0;

  look->n_labels++;
  pango_layout_get_pixel_size (layout, &width, &height);
  if (pango_layout_is_ellipsized (layout))
    {
      if (!tells_whole (label))
        blame (look, label, "ends in “…” and nothing tells the whole of it");
      return;
    }
  /* one pixel for the rounding of text that is set in a row of its own */
  if (width > gtk_widget_get_width (label) + 1 || height > gtk_widget_get_height (label) + 1)
    {
      g_autofree char *what = g_strdup_printf ("needs %d × %d and has %d × %d", width, height,
                                               gtk_widget_get_width (label), gtk_widget_get_height (label));

      blame (look, label, what);
    }
}

/* It scrolls up and down alone: nobody can bring to sight what lies beside it. */
static gboolean
is_kept_in_width (GtkWidget *scrolled)
{
  GtkWidget     *window = gtk_widget_get_parent (scrolled);
  GtkPolicyType  across = GTK_POLICY_AUTOMATIC;

  if (GTK_IS_SCROLLED_WINDOW (window))
    gtk_scrolled_window_get_policy (GTK_SCROLLED_WINDOW (window), &across, NULL);
  return across == GTK_POLICY_NEVER;
}

/* What scrolls may go on beyond what is seen of it. */
static gboolean
may_exceed (GtkWidget      *parent,
            GtkOrientation  orientation)
{
  GtkAdjustment *adjustment;

  if (!GTK_IS_SCROLLABLE (parent) || (orientation == GTK_ORIENTATION_HORIZONTAL && is_kept_in_width (parent)))
    return FALSE;
  adjustment = orientation == GTK_ORIENTATION_HORIZONTAL ? gtk_scrollable_get_hadjustment (GTK_SCROLLABLE (parent))
                                                         : gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (parent));
  return adjustment != NULL && gtk_adjustment_get_upper (adjustment) > gtk_adjustment_get_page_size (adjustment);
}

static void
look_at_place (Look      *look,
               GtkWidget *widget,
               GtkWidget *parent)
{
  graphene_rect_t bounds;
  float width = (float) gtk_widget_get_width (parent);
  float height = (float) gtk_widget_get_height (parent);

  if (!gtk_widget_compute_bounds (widget, parent, &bounds) || bounds.size.width == 0 || bounds.size.height == 0)
    return;
  if (!may_exceed (parent, GTK_ORIENTATION_HORIZONTAL)
      && (bounds.origin.x < -BLEED || bounds.origin.x + bounds.size.width > width + BLEED))
    {
      g_autofree char *what = g_strdup_printf ("lies from %.0f to %.0f across, in %.0f", (double) bounds.origin.x,
                                               (double) (bounds.origin.x + bounds.size.width), (double) width);

      blame (look, widget, what);
    }
  if (!may_exceed (parent, GTK_ORIENTATION_VERTICAL)
      && (bounds.origin.y < -BLEED || bounds.origin.y + bounds.size.height > height + BLEED))
    {
      g_autofree char *what = g_strdup_printf ("lies from %.0f to %.0f down, in %.0f", (double) bounds.origin.y,
                                               (double) (bounds.origin.y + bounds.size.height), (double) height);

      blame (look, widget, what);
    }
}

/* GTK 4.8 remembers that a box has no use for its width from when it was empty, if it was asked out of sight and filled
 * before it was measured: then its rows keep the height of one line each. */
static void
look_at_heed (Look      *look,
              GtkWidget *widget)
{
  if (!GTK_IS_BOX_LAYOUT (gtk_widget_get_layout_manager (widget))
      || gtk_widget_get_request_mode (widget) != GTK_SIZE_REQUEST_CONSTANT_SIZE)
    return;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_get_request_mode (child) != GTK_SIZE_REQUEST_CONSTANT_SIZE)
      {
        blame (look, child, "has a height by its width, of which its box takes no heed");
        return;
      }
}

static void
look_at (Look      *look,
         GtkWidget *widget,
         GtkWidget *parent)
{
  if (!gtk_widget_get_mapped (widget) || GTK_IS_NATIVE (widget))
    return;
  /* padding and border are the parent's own, so a child may lie in them */
  look_at_place (look, widget, parent);
  look_at_heed (look, widget);
  if (GTK_IS_LABEL (widget))
    look_at_label (look, widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    look_at (look, child, widget);
}

guint
fits_look (GtkWidget  *root,
           const char *where,
           GString    *faults)
{
  Look look = { where, faults, 0 };

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    look_at (&look, child, root);
  return look.n_labels;
}
