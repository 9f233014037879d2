/* wrap.c - lays children in a row and wraps to further rows when they do not fit
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/wrap.h"

struct _HwWrap
{
  GtkWidget parent_instance;
  int       spacing, row_spacing;
  gboolean  shrink;                     /* children become narrower, down to their least, before the row wraps */
  int       stretch_percent;            /* how much wider than natural a child may become; 0 as much as there is */
  int       left_out;                   /* up to this rank children are left out, for the width looked at last */
};

enum { PROP_0, PROP_SPACING, PROP_ROW_SPACING, PROP_STRETCH_PERCENT, PROP_SHRINK, N_PROPS };

static GParamSpec *properties[N_PROPS];

static void hw_wrap_buildable_init (GtkBuildableIface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (HwWrap, hw_wrap, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, hw_wrap_buildable_init))

static GtkBuildableIface *parent_buildable;

/* A child in a row. */
typedef struct
{
  GtkWidget *widget;
  int        minimum, natural, width;
  gboolean   expand;
} Place;

/* The rank of a child that may be left out. */
#define SPARED "hw-wrap-spared"
#define LAST_RANK 2

/* 0: it always stays. */
static int
get_rank (GtkWidget *child)
{
  return GPOINTER_TO_INT (g_object_get_data (G_OBJECT (child), SPARED));
}

static gboolean
is_left_out (HwWrap    *self,
             GtkWidget *child)
{
  return get_rank (child) > 0 && get_rank (child) <= self->left_out;
}

static GtkWidget *
skip_hidden (HwWrap    *self,
             GtkWidget *child)
{
  while (child != NULL && (!gtk_widget_get_visible (child) || is_left_out (self, child)))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

static GtkWidget *
first_child (HwWrap *self)
{
  return skip_hidden (self, gtk_widget_get_first_child (GTK_WIDGET (self)));
}

static GtkWidget *
next_child (HwWrap    *self,
            GtkWidget *child)
{
  return skip_hidden (self, gtk_widget_get_next_sibling (child));
}

static Place
measure_place (GtkWidget *child,
               int        width)
{
  Place place = { .widget = child };

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &place.minimum, &place.natural, NULL, NULL);
  place.natural = MAX (place.minimum, MIN (place.natural, width));
  place.expand = gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
  return place;
}

/* Fills @row from @first on; returns the first child of the next row, or NULL. */
static GtkWidget *
gather_row (HwWrap    *self,
            GtkWidget *first,
            int        width,
            GArray    *row)
{
  GtkWidget *child = first;
  int        used = 0;

  g_array_set_size (row, 0);
  for (; child != NULL; child = next_child (self, child))
    {
      Place place = measure_place (child, width);
      int   wanted = (self->shrink ? place.minimum : place.natural) + (row->len > 0 ? self->spacing : 0);

      if (row->len > 0 && used + wanted > width)
        break;
      used += wanted;
      g_array_append_val (row, place);
    }
  return child;
}

static gboolean
is_one_row (HwWrap *self,
            int     width)
{
  int used = -self->spacing;

  for (GtkWidget *child = first_child (self); child != NULL; child = next_child (self, child))
    {
      Place place = measure_place (child, width);

      used += self->spacing + (self->shrink ? place.minimum : place.natural);
    }
  return used <= width;
}

/* How much has to be left out for one row to have room for the rest. */
static void
judge_width (HwWrap *self,
             int     width)
{
  self->left_out = 0;
  while (self->left_out < LAST_RANK && !is_one_row (self, width))
    self->left_out++;
}

/* Too narrow for all natural widths: each gets its least, and of the rest by its wish. */
static void
shrink_row (GArray *row,
            int     spare)
{
  g_autofree GtkRequestedSize *sizes = g_new0 (GtkRequestedSize, row->len);

  for (guint i = 0; i < row->len; i++)
    {
      sizes[i].minimum_size = g_array_index (row, Place, i).minimum;
      sizes[i].natural_size = g_array_index (row, Place, i).natural;
      spare -= sizes[i].minimum_size;
    }
  gtk_distribute_natural_allocation (MAX (spare, 0), row->len, sizes);
  for (guint i = 0; i < row->len; i++)
    g_array_index (row, Place, i).width = sizes[i].minimum_size;
}

static void
stretch_row (HwWrap *self,
             GArray *row,
             int     spare)
{
  int n_expand = 0;

  for (guint i = 0; i < row->len; i++)
    n_expand += g_array_index (row, Place, i).expand ? 1 : 0;
  for (guint i = 0; i < row->len; i++)
    {
      Place *place = &g_array_index (row, Place, i);
      int    share;

      place->width = place->natural;
      if (!place->expand)
        continue;
      share = spare / n_expand--;
      if (self->stretch_percent > 0)
        share = MIN (share, place->natural * self->stretch_percent / 100);
      place->width += share;
      spare -= share;
    }
}

/* Gives each child of @row its width; returns the height that the row then needs. */
static int
share_width (HwWrap *self,
             GArray *row,
             int     width)
{
  int spare = width - self->spacing * ((int) row->len - 1);
  int wanted = 0;
  int height = 0;

  for (guint i = 0; i < row->len; i++)
    wanted += g_array_index (row, Place, i).natural;
  if (wanted > spare)
    shrink_row (row, spare);
  else
    stretch_row (self, row, spare - wanted);
  for (guint i = 0; i < row->len; i++)
    {
      const Place *place = &g_array_index (row, Place, i);
      int          natural = 0;

      gtk_widget_measure (place->widget, GTK_ORIENTATION_VERTICAL, place->width, NULL, &natural, NULL, NULL);
      height = MAX (height, natural);
    }
  return height;
}

static void
place_row (HwWrap *self,
           GArray *row,
           int     width,
           int     y,
           int     height)
{
  gboolean reversed = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  int      x = 0;

  for (guint i = 0; i < row->len; i++)
    {
      const Place  *place = &g_array_index (row, Place, i);
      GtkAllocation where = { reversed ? width - x - place->width : x, y, place->width, height };

      gtk_widget_size_allocate (place->widget, &where, -1);
      x += place->width + self->spacing;
    }
}

static void
hw_wrap_size_allocate (GtkWidget *widget,
                       int        width,
                       int        height,
                       int        baseline)
{
  HwWrap           *self = HW_WRAP (widget);
  GtkWidget        *child;
  g_autoptr (GArray) row = g_array_new (FALSE, FALSE, sizeof (Place));

  judge_width (self, width);
  for (child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (get_rank (child) > 0)
      gtk_widget_set_child_visible (child, !is_left_out (self, child));
  child = first_child (self);
  for (int y = 0; child != NULL;)
    {
      GtkWidget *next = gather_row (self, child, width, row);
      int        tall = share_width (self, row, width);

      if (y == 0 && next == NULL)
        tall = MAX (tall, height);      /* the only row may fill what it was given */
      place_row (self, row, width, y, tall);
      y += tall + self->row_spacing;
      child = next;
    }
}

static void
measure_width (HwWrap *self,
               int    *minimum,
               int    *natural)
{
  GtkWidget *child;

  self->left_out = 0;
  child = first_child (self);
  for (gboolean first = TRUE; child != NULL; child = next_child (self, child), first = FALSE)
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
  GtkWidget         *child;
  g_autoptr (GArray) row = g_array_new (FALSE, FALSE, sizeof (Place));
  int                height = 0;

  judge_width (self, width);
  child = first_child (self);
  while (child != NULL)
    {
      child = gather_row (self, child, width, row);
      height += share_width (self, row, width) + (child != NULL ? self->row_spacing : 0);
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
    case PROP_STRETCH_PERCENT:
      self->stretch_percent = g_value_get_int (value);
      break;
    case PROP_SHRINK:
      self->shrink = g_value_get_boolean (value);
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
    case PROP_STRETCH_PERCENT:
      g_value_set_int (value, self->stretch_percent);
      break;
    case PROP_SHRINK:
      g_value_set_boolean (value, self->shrink);
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
  properties[PROP_STRETCH_PERCENT] = g_param_spec_int ("stretch-percent", NULL, NULL, 0, 1000, 0,
                                                       G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_SHRINK] = g_param_spec_boolean ("shrink", NULL, NULL, FALSE,
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
hw_wrap_spare (GtkWidget *child,
               int        rank)
{
  g_return_if_fail (GTK_IS_WIDGET (child) && rank >= 1 && rank <= LAST_RANK);

  g_object_set_data (G_OBJECT (child), SPARED, GINT_TO_POINTER (rank));
}

void
hw_wrap_remove_all (HwWrap *self)
{
  GtkWidget *child = NULL;

  g_return_if_fail (HW_IS_WRAP (self));

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
}
