/* wrap.c - lays children in a row and wraps to further rows when they do not fit
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/wrap.h"

struct _HwWrap
{
  GtkWidget parent_instance;
  int       spacing, row_spacing;
};

enum { PROP_0, PROP_SPACING, PROP_ROW_SPACING, N_PROPS };

static GParamSpec *properties[N_PROPS];

static void hw_wrap_buildable_init (GtkBuildableIface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (HwWrap, hw_wrap, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, hw_wrap_buildable_init))

static GtkBuildableIface *parent_buildable;

typedef struct
{
  GtkWidget *first;                     /* of the row */
  int        n, n_expand;
  int        used;                      /* natural widths and the space between */
} Row;

static int
natural_width (GtkWidget *child,
               int        width)
{
  int minimum = 0;
  int natural = 0;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &natural, NULL, NULL);
  return MAX (minimum, MIN (natural, width));
}

static GtkWidget *
skip_hidden (GtkWidget *child)
{
  while (child != NULL && !gtk_widget_should_layout (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

static GtkWidget *
next_child (GtkWidget *child)
{
  return skip_hidden (gtk_widget_get_next_sibling (child));
}

/* The row that begins with @first; *next gets the first of the row after it, or NULL. */
static Row
gather_row (HwWrap     *self,
            GtkWidget  *first,
            int         width,
            GtkWidget **next)
{
  Row        row = { .first = first };
  GtkWidget *child = first;

  for (; child != NULL; child = next_child (child))
    {
      int wanted = natural_width (child, width) + (row.n > 0 ? self->spacing : 0);

      if (row.n > 0 && row.used + wanted > width)
        break;
      row.used += wanted;
      row.n++;
      if (gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL))
        row.n_expand++;
    }
  *next = child;
  return row;
}

/* Width of the next child of @row, which takes its share of what is left over. */
static int
share_width (Row       *row,
             GtkWidget *child,
             int        width,
             int       *left)
{
  int wide = natural_width (child, width);

  if (row->n_expand > 0 && gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL))
    {
      int share = *left / row->n_expand;

      *left -= share;
      row->n_expand--;
      wide += share;
    }
  return wide;
}

static int
row_height (Row row,
            int width)
{
  GtkWidget *child = row.first;
  int        left = MAX (0, width - row.used);
  int        height = 0;

  for (int i = 0; i < row.n; i++, child = next_child (child))
    {
      int natural = 0;

      gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, share_width (&row, child, width, &left), NULL, &natural,
                          NULL, NULL);
      height = MAX (height, natural);
    }
  return height;
}

static void
place_row (HwWrap *self,
           Row     row,
           int     width,
           int     y,
           int     height)
{
  gboolean   reversed = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  GtkWidget *child = row.first;
  int        left = MAX (0, width - row.used);
  int        x = 0;

  for (int i = 0; i < row.n; i++, child = next_child (child))
    {
      int           wide = share_width (&row, child, width, &left);
      GtkAllocation place = { reversed ? width - x - wide : x, y, wide, height };

      gtk_widget_size_allocate (child, &place, -1);
      x += wide + self->spacing;
    }
}

static void
hw_wrap_size_allocate (GtkWidget *widget,
                       int        width,
                       int        height,
                       int        baseline)
{
  HwWrap    *self = HW_WRAP (widget);
  GtkWidget *child = skip_hidden (gtk_widget_get_first_child (widget));
  gboolean   single = TRUE;
  int        y = 0;

  while (child != NULL)
    {
      GtkWidget *next = NULL;
      Row        row = gather_row (self, child, width, &next);
      int        tall = row_height (row, width);

      if (single && next == NULL)
        tall = MAX (tall, height);      /* the only row may fill what it was given */
      place_row (self, row, width, y, tall);
      y += tall + self->row_spacing;
      single = FALSE;
      child = next;
    }
}

static void
measure_width (HwWrap *self,
               int    *minimum,
               int    *natural)
{
  GtkWidget *child = skip_hidden (gtk_widget_get_first_child (GTK_WIDGET (self)));

  for (gboolean first = TRUE; child != NULL; child = next_child (child), first = FALSE)
    {
      int child_minimum = 0;
      int child_natural = 0;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &child_minimum, &child_natural, NULL, NULL);
      *minimum = MAX (*minimum, child_minimum);
      *natural += child_natural + (first ? 0 : self->spacing);
    }
}

static int
height_for_width (HwWrap *self,
                  int     width)
{
  GtkWidget *child = skip_hidden (gtk_widget_get_first_child (GTK_WIDGET (self)));
  int        height = 0;

  for (gboolean first = TRUE; child != NULL; first = FALSE)
    {
      GtkWidget *next = NULL;
      Row        row = gather_row (self, child, width, &next);

      height += row_height (row, width) + (first ? 0 : self->row_spacing);
      child = next;
    }
  return height;
}

static void
hw_wrap_measure (GtkWidget      *widget,
                 GtkOrientation  orientation,
                 int             for_size,
                 int            *minimum,
                 int            *natural,
                 int            *minimum_baseline,
                 int            *natural_baseline)
{
  HwWrap *self = HW_WRAP (widget);
  int     least = 0;
  int     wanted = 0;

  measure_width (self, &least, &wanted);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = least;
      *natural = wanted;
      return;
    }
  *minimum = *natural = height_for_width (self, for_size < 0 ? wanted : MAX (for_size, least));
}

static GtkSizeRequestMode
hw_wrap_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hw_wrap_add_child (GtkBuildable *buildable,
                   GtkBuilder   *builder,
                   GObject      *child,
                   const char   *type)
{
  if (GTK_IS_WIDGET (child))
    hw_wrap_append (HW_WRAP (buildable), GTK_WIDGET (child));
  else
    parent_buildable->add_child (buildable, builder, child, type);
}

static void
hw_wrap_buildable_init (GtkBuildableIface *iface)
{
  parent_buildable = g_type_interface_peek_parent (iface);
  iface->add_child = hw_wrap_add_child;
}

static void
hw_wrap_set_property (GObject      *object,
                      guint         id,
                      const GValue *value,
                      GParamSpec   *pspec)
{
  HwWrap *self = HW_WRAP (object);

  switch (id)
    {
    case PROP_SPACING:
      self->spacing = g_value_get_int (value);
      break;
    case PROP_ROW_SPACING:
      self->row_spacing = g_value_get_int (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
hw_wrap_get_property (GObject    *object,
                      guint       id,
                      GValue     *value,
                      GParamSpec *pspec)
{
  HwWrap *self = HW_WRAP (object);

  switch (id)
    {
    case PROP_SPACING:
      g_value_set_int (value, self->spacing);
      break;
    case PROP_ROW_SPACING:
      g_value_set_int (value, self->row_spacing);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hw_wrap_dispose (GObject *object)
{
  hw_wrap_remove_all (HW_WRAP (object));
  G_OBJECT_CLASS (hw_wrap_parent_class)->dispose (object);
}

static void
hw_wrap_class_init (HwWrapClass *class)
{
  GObjectClass   *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  object_class->dispose = hw_wrap_dispose;
  object_class->set_property = hw_wrap_set_property;
  object_class->get_property = hw_wrap_get_property;
  widget_class->size_allocate = hw_wrap_size_allocate;
  widget_class->measure = hw_wrap_measure;
  widget_class->get_request_mode = hw_wrap_get_request_mode;
  properties[PROP_SPACING] = g_param_spec_int ("spacing", NULL, NULL, 0, 1000, 0,
                                               G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_ROW_SPACING] = g_param_spec_int ("row-spacing", NULL, NULL, 0, 1000, 0,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "box");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hw_wrap_init (HwWrap *self)
{
}

GtkWidget *
hw_wrap_new (int spacing,
             int row_spacing)
{
  return g_object_new (HW_TYPE_WRAP, "spacing", spacing, "row-spacing", row_spacing, NULL);
}

void
hw_wrap_append (HwWrap    *self,
                GtkWidget *child)
{
  g_return_if_fail (HW_IS_WRAP (self));

  gtk_widget_set_parent (child, GTK_WIDGET (self));
}

void
hw_wrap_remove_all (HwWrap *self)
{
  GtkWidget *child = NULL;

  g_return_if_fail (HW_IS_WRAP (self));

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
}
