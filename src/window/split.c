/* split.c - a list and its side panel: side by side where there is room, else one under the other
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Widths are counted in em, so that large text stacks the two sooner.
 */

#include "config.h"

#include "window/split.h"

#include "window/theme.h"

#define GAP 18
#define STACKED_GAP 12
#define PANEL_EM 25.5
#define LIST_EM 36.0
#define STACKED_LIST_EM 17.0            /* height of each when stacked */
#define STACKED_PANEL_EM 22.0
#define LOWEST_EM 12.0
#define FITTING_EM 5.0                  /* least height of each when both scroll */

struct _HwSplit
{
  GtkWidget parent_instance;
  double    index_em;            /* width of a list that is only an index; 0: the list is what is worked on */
  gboolean  fits;                /* both scroll for themselves: it is never taller than its place */
  double    least_panel_em;      /* height of the panel below the list, then */
  gboolean  leads;               /* the panel goes before the list where there is no room for both */
};

static void hw_split_buildable_init (GtkBuildableIface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (HwSplit, hw_split, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, hw_split_buildable_init))

static GtkBuildableIface *parent_buildable;

static int
count_em (GtkWidget *widget,
          double     ems)
{
  return (int) (ems * hw_theme_em (widget));
}

static gboolean
is_stacked (GtkWidget *widget,
            int        width)
{
  double list_em = HW_SPLIT (widget)->index_em > 0 ? HW_SPLIT (widget)->index_em : LIST_EM;

  return width >= 0 && width < count_em (widget, list_em + PANEL_EM) + GAP;
}

static void
measure_child (GtkWidget     *child,
               GtkOrientation orientation,
               int            for_size,
               int           *minimum,
               int           *natural)
{
  *minimum = *natural = 0;
  if (child != NULL && gtk_widget_should_layout (child))
    gtk_widget_measure (child, orientation, for_size, minimum, natural, NULL, NULL);
}

/* Side by side. */
static void
share_width (GtkWidget *widget,
             int        width,
             int       *list_wide,
             int       *panel_wide)
{
  int spare;

  *panel_wide = count_em (widget, PANEL_EM);
  spare = width - GAP - *panel_wide - count_em (widget, LIST_EM * 1.5);
  *panel_wide += MAX (0, spare / 3);    /* a wide window gives the panel a third of what the list does not need */
  *list_wide = width - GAP - *panel_wide;
  if (HW_SPLIT (widget)->index_em > 0)
    {
      *list_wide = count_em (widget, HW_SPLIT (widget)->index_em);
      *panel_wide = width - GAP - *list_wide;
    }
}

static void
hw_split_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  GtkWidget *list = gtk_widget_get_first_child (widget);
  GtkWidget *panel = list != NULL ? gtk_widget_get_next_sibling (list) : NULL;
  int        list_minimum, list_natural, panel_minimum, panel_natural;
  int        list_wide = for_size;
  int        panel_wide = for_size;

  if (orientation == GTK_ORIENTATION_HORIZONTAL || for_size < 0)
    list_wide = panel_wide = -1;
  else if (panel != NULL && gtk_widget_should_layout (panel) && !is_stacked (widget, for_size))
    share_width (widget, for_size, &list_wide, &panel_wide);
  measure_child (list, orientation, list_wide, &list_minimum, &list_natural);
  measure_child (panel, orientation, panel_wide, &panel_minimum, &panel_natural);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = MAX (list_minimum, panel_minimum);
      *natural = MAX (count_em (widget, LIST_EM), list_natural) + GAP + count_em (widget, PANEL_EM);
    }
  else if (is_stacked (widget, for_size))
    {
      if (HW_SPLIT (widget)->fits)
        *minimum = MAX (list_minimum, count_em (widget, FITTING_EM)) + STACKED_GAP
                   + MAX (panel_minimum, count_em (widget, HW_SPLIT (widget)->least_panel_em));
      *natural = MAX (list_minimum, count_em (widget, STACKED_LIST_EM)) + STACKED_GAP
                 + MAX (panel_minimum, count_em (widget, STACKED_PANEL_EM));
      if (!HW_SPLIT (widget)->fits)
        *minimum = *natural;
    }
  else
    {
      *minimum = MAX (MAX (list_minimum, panel_minimum), count_em (widget, LOWEST_EM));
      *natural = MAX (*minimum, MAX (list_natural, panel_natural));
    }
}

/* @least: how low the list may be; @wanted: what the panel would have. */
static gboolean
is_panel_alone (GtkWidget *widget,
                int        height,
                int        least,
                int        wanted)
{
  return HW_SPLIT (widget)->leads
         && wanted + STACKED_GAP + MAX (least, count_em (widget, FITTING_EM)) > height;
}

/* A panel with little in it leaves the rest to the list. */
static void
place_stacked (GtkWidget *widget,
               GtkWidget *list,
               GtkWidget *panel,
               int        width,
               int        height)
{
  double share = STACKED_LIST_EM / (STACKED_LIST_EM + STACKED_PANEL_EM);
  int    tall = panel != NULL ? (int) ((height - STACKED_GAP) * share) : height;
  int    wanted = 0;
  int    least = 0;

  if (panel != NULL && HW_SPLIT (widget)->fits)
    {
      gtk_widget_measure (panel, GTK_ORIENTATION_VERTICAL, width, NULL, &wanted, NULL, NULL);
      gtk_widget_measure (list, GTK_ORIENTATION_VERTICAL, width, &least, NULL, NULL, NULL);
      if (is_panel_alone (widget, height, least, wanted))
        {
          gtk_widget_set_child_visible (list, FALSE);
          gtk_widget_size_allocate (panel, &(GtkAllocation) { 0, 0, width, height }, -1);
          return;
        }
      tall = MAX (MAX (tall, height - STACKED_GAP - wanted), least);
    }
  gtk_widget_set_child_visible (list, TRUE);
  gtk_widget_size_allocate (list, &(GtkAllocation) { 0, 0, width, tall }, -1);
  if (panel != NULL)
    gtk_widget_size_allocate (panel, &(GtkAllocation) { 0, tall + STACKED_GAP, width, height - tall - STACKED_GAP },
                              -1);
}

static void
place_abreast (GtkWidget *widget,
               GtkWidget *list,
               GtkWidget *panel,
               int        width,
               int        height)
{
  gboolean reversed = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int      list_wide;
  int      panel_wide;

  share_width (widget, width, &list_wide, &panel_wide);
  gtk_widget_set_child_visible (list, TRUE);
  gtk_widget_size_allocate (list, &(GtkAllocation) { reversed ? panel_wide + GAP : 0, 0, list_wide, height }, -1);
  gtk_widget_size_allocate (panel, &(GtkAllocation) { reversed ? 0 : list_wide + GAP, 0, panel_wide, height }, -1);
}

static void
hw_split_size_allocate (GtkWidget *widget,
                        int        width,
                        int        height,
                        int        baseline)
{
  GtkWidget *list = gtk_widget_get_first_child (widget);
  GtkWidget *panel = list != NULL ? gtk_widget_get_next_sibling (list) : NULL;

  if (panel != NULL && !gtk_widget_should_layout (panel))
    panel = NULL;
  if (list == NULL)
    return;
  if (panel == NULL || is_stacked (widget, width))
    place_stacked (widget, list, panel, width, height);
  else
    place_abreast (widget, list, panel, width, height);
}

static GtkSizeRequestMode
hw_split_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hw_split_add_child (GtkBuildable *buildable,
                    GtkBuilder   *builder,
                    GObject      *child,
                    const char   *type)
{
  if (GTK_IS_WIDGET (child))
    hw_split_append (HW_SPLIT (buildable), GTK_WIDGET (child));
  else
    parent_buildable->add_child (buildable, builder, child, type);
}

static void
hw_split_buildable_init (GtkBuildableIface *iface)
{
  parent_buildable = g_type_interface_peek_parent (iface);
  iface->add_child = hw_split_add_child;
}

static void
hw_split_dispose (GObject *object)
{
  GtkWidget *child = NULL;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (hw_split_parent_class)->dispose (object);
}

static void
hw_split_class_init (HwSplitClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_split_dispose;
  widget_class->measure = hw_split_measure;
  widget_class->size_allocate = hw_split_size_allocate;
  widget_class->get_request_mode = hw_split_get_request_mode;
  gtk_widget_class_set_css_name (widget_class, "box");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hw_split_init (HwSplit *self)
{
  self->least_panel_em = FITTING_EM;
}

GtkWidget *
hw_split_new (void)
{
  return g_object_new (HW_TYPE_SPLIT, NULL);
}

void
hw_split_append (HwSplit   *self,
                 GtkWidget *child)
{
  g_return_if_fail (HW_IS_SPLIT (self));

  gtk_widget_set_parent (child, GTK_WIDGET (self));
}

void
hw_split_set_index (HwSplit *self,
                    double   width_em)
{
  g_return_if_fail (HW_IS_SPLIT (self) && width_em >= 0);

  self->index_em = width_em;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
hw_split_set_fits (HwSplit *self,
                   gboolean fits)
{
  g_return_if_fail (HW_IS_SPLIT (self));

  self->fits = fits;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
hw_split_set_least_panel (HwSplit *self,
                          double   height_em)
{
  g_return_if_fail (HW_IS_SPLIT (self) && height_em > 0);

  self->least_panel_em = height_em;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
hw_split_lead_panel (HwSplit *self,
                     gboolean leads)
{
  GtkWidget *list;

  g_return_if_fail (HW_IS_SPLIT (self));

  self->leads = leads;
  list = gtk_widget_get_first_child (GTK_WIDGET (self));
  if (!leads && list != NULL)
    gtk_widget_set_child_visible (list, TRUE);          /* at once: the focus may go back to it */
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
