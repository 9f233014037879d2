/* hours-chart.c - the hours of the last weeks, by machine or by project
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Columns by the drawing module, a key beside them, and the same figures in words for those who do not see them.
 */

#include "config.h"

#include "window/hours-chart.h"

#include <glib/gi18n.h>

#include "model/journal.h"
#include "window/controls.h"
#include "window/motif.h"
#include "window/project-list.h"
#include "window/theme.h"
#include "window/wrap.h"
#include "words/words.h"

#define N_WEEKS 12
#define MOST_PARTS 6                    /* as many hatchings as there are; the last one takes in all others */
#define HEIGHT_EM 14.0

typedef struct
{
  HwWorkspace *workspace;
  GtkWidget   *area, *key, *by, *rows;
  GPtrArray   *parts;                   /* (element-type utf8) ids of machines or projects; in the order of the key */
  char        *weeks[N_WEEKS];          /* the first days: "2031-05-05" */
  char        *labels[N_WEEKS + 1];     /* the same for people: "5 May" */
  double       hours[N_WEEKS * MOST_PARTS];
} Chart;

static void
free_chart (gpointer data)
{
  Chart *self = data;

  for (gsize i = 0; i < N_WEEKS; i++)
    {
      g_free (self->weeks[i]);
      g_free (self->labels[i]);
    }
  g_ptr_array_unref (self->parts);
  g_free (self);
}

static void
name_weeks (Chart *self)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  int                   gone = (g_date_time_get_day_of_week (now) - (int) hw_words_week_start () + 7) % 7;

  for (int i = 0; i < N_WEEKS; i++)
    {
      g_autoptr (GDateTime) day = g_date_time_add_days (now, (i - (N_WEEKS - 1)) * 7 - gone);

      g_free (self->weeks[i]);
      g_free (self->labels[i]);
      self->weeks[i] = g_date_time_format (day, "%Y-%m-%d");
      self->labels[i] = hw_words_day_short (self->weeks[i]);
    }
}

static int
find_week (const Chart *self,
           const char  *week)
{
  for (int i = 0; i < N_WEEKS; i++)
    if (g_str_equal (self->weeks[i], week))
      return i;
  return -1;
}

static gsize
find_part (Chart      *self,
           const char *id)
{
  for (guint i = 0; i < self->parts->len; i++)
    if (g_str_equal (self->parts->pdata[i], id))
      return i;
  if (self->parts->len < MOST_PARTS)
    g_ptr_array_add (self->parts, g_strdup (id));
  return self->parts->len - 1;
}

static char *
name_part (const Chart *self,
           gsize        part)
{
  const char      *id = self->parts->pdata[part];
  gboolean         by_machine = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->by)) == 0;
  const HwMachine *machine = by_machine ? hw_room_find_machine (hw_workspace_get_room (self->workspace), id) : NULL;

  if (part == MOST_PARTS - 1)
    return g_strdup (_("the others"));
  if (id[0] == '\0')
    return g_strdup (_("no project"));
  return g_strdup (machine != NULL ? machine->name : by_machine ? id : hw_workspace_name_project (self->workspace, id));
}

static void
count_hours (Chart *self)
{
  gboolean          by_machine = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->by)) == 0;
  g_autoptr (GArray) weeks = hw_journal_weeks (hw_workspace_get_room (self->workspace), hw_words_week_start (),
                                               NULL, NULL);

  g_ptr_array_set_size (self->parts, 0);
  memset (self->hours, 0, sizeof self->hours);
  for (guint i = 0; i < weeks->len; i++)
    {
      const HwWeekHours *week = &g_array_index (weeks, HwWeekHours, i);
      const char        *id = by_machine ? week->machine : week->project;
      int                column = find_week (self, week->week);

      if (column >= 0)
        self->hours[(gsize) column * MOST_PARTS + find_part (self, id != NULL ? id : "")] += week->hours;
    }
}

/* ---- showing ---- */

static void
draw_cb (GtkDrawingArea *area,
         cairo_t        *cr,
         int             width,
         int             height,
         gpointer        data)
{
  Chart                  *self = data;
  HwInks                  inks = hw_theme_inks (GTK_WIDGET (area));
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (area), NULL);
  const HwChart           chart = { N_WEEKS, MOST_PARTS, self->hours, (const char * const *) self->labels };

  hw_draw_chart (cr, layout, &chart, 0, 0, width, height, &inks);
}

static void
fill_key (Chart *self)
{
  hw_wrap_remove_all (HW_WRAP (self->key));
  for (guint i = 0; i < self->parts->len; i++)
    {
      GtkWidget       *item = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
      GtkWidget       *hatching = hw_motif_new (1.4, 1);
      g_autofree char *name = name_part (self, i);

      hw_motif_show_hatching (HW_MOTIF (hatching), i);
      hw_motif_set_name (HW_MOTIF (hatching), name);
      gtk_widget_set_valign (hatching, GTK_ALIGN_CENTER);
      gtk_box_append (GTK_BOX (item), hatching);
      gtk_box_append (GTK_BOX (item), hw_label_new (name, "small"));
      hw_wrap_append (HW_WRAP (self->key), item);
    }
}

/* The columns that have hours, in words. */
static char *
say_columns (const Chart *self)
{
  g_autoptr (GString) words = g_string_new (NULL);

  for (gsize i = 0; i < N_WEEKS; i++)
    for (guint part = 0; part < self->parts->len; part++)
      {
        g_autofree char *name = NULL;
        g_autofree char *hours = NULL;
        g_autofree char *day = NULL;

        if (!(self->hours[i * MOST_PARTS + part] > 0))
          continue;
        name = name_part (self, part);
        hours = hw_words_hours (self->hours[i * MOST_PARTS + part]);
        if (words->len > 0)
          g_string_append (words, C_("list of choices", "; "));
        day = hw_words_day (self->weeks[i]);
        /* Translators: the first day of a week, a machine or project, hours */
        g_string_append_printf (words, _("week from %s, %s: %s"), day, name, hours);
      }
  return words->len > 0 ? g_string_free (g_steal_pointer (&words), FALSE) : g_strdup (_("no hours yet"));
}

static void
fill_rows (Chart *self)
{
  const HwRoom       *room = hw_workspace_get_room (self->workspace);
  g_autoptr (GArray)  projects = hw_journal_project_hours (room);

  for (GtkWidget *row = gtk_widget_get_first_child (self->rows); row != NULL;
       row = gtk_widget_get_first_child (self->rows))
    gtk_box_remove (GTK_BOX (self->rows), row);
  for (guint i = 0; i < projects->len; i++)
    {
      const HwProjectHours *hours = &g_array_index (projects, HwProjectHours, i);
      const HwMachine      *machine = hw_room_find_machine (room, hours->machine);
      const char           *project = hw_workspace_name_project (self->workspace, hours->project);
      g_autofree char      *actual = hw_words_hours (hours->actual);
      g_autofree char      *planned = hw_words_hours (hours->planned);
      g_autofree char      *text = NULL;

      if (hours->planned > 0)
        /* Translators: a project, a machine, hours that were sewn, hours that the plan gave those steps */
        text = g_strdup_printf (_("%s, %s: %s sewn, %s planned for those steps"), project,
                                machine != NULL ? machine->name : hours->machine, actual, planned);
      else
        /* Translators: a project, a machine, hours that were sewn */
        text = g_strdup_printf (_("%s, %s: %s sewn"), project,
                                machine != NULL ? machine->name : hours->machine, actual);
      gtk_box_append (GTK_BOX (self->rows), hw_label_new (text, "small"));
    }
}

void
hw_hours_chart_refresh (GtkWidget *box)
{
  Chart           *self = g_object_get_data (G_OBJECT (box), "hw-chart");
  g_autofree char *words = NULL;
  gboolean         any;

  name_weeks (self);
  count_hours (self);
  any = self->parts->len > 0;
  words = say_columns (self);
  gtk_widget_set_visible (box, any);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->area), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
  fill_key (self);
  fill_rows (self);
  gtk_widget_queue_draw (self->area);
}

static void
style_cb (GtkWidget *area,
          gpointer   data)
{
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), (int) (HEIGHT_EM * hw_theme_em (area)));
}

static GtkWidget *
make_area (Chart *self)
{
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, NULL);

  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_cb, self, NULL);
  gtk_widget_set_hexpand (area, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Hours by week"), -1);
  g_signal_connect (area, "realize", G_CALLBACK (style_cb), NULL);
  return area;
}

static GtkWidget *
make_head (Chart *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *title = hw_label_new (_("Hours by week"), "subtitle");

  self->by = hw_choice_new ();
  hw_choice_add (GTK_DROP_DOWN (self->by), "machine", _("by machine"));
  hw_choice_add (GTK_DROP_DOWN (self->by), "project", _("by project"));
  hw_control_name (self->by, _("Parts of the columns"));
  gtk_widget_set_hexpand (title, TRUE);
  gtk_widget_set_valign (self->by, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (head), title);
  gtk_box_append (GTK_BOX (head), self->by);
  return head;
}

GtkWidget *
hw_hours_chart_new (HwWorkspace *workspace)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  Chart     *self = g_new0 (Chart, 1);

  self->workspace = workspace;          /* the window holds it */
  self->parts = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_add_css_class (box, "sheet");
  gtk_widget_add_css_class (box, "chart");
  gtk_box_append (GTK_BOX (box), make_head (self));
  self->area = make_area (self);
  self->key = hw_wrap_new (16, 6);
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_box_append (GTK_BOX (box), self->area);
  gtk_box_append (GTK_BOX (box), self->key);
  gtk_box_append (GTK_BOX (box), self->rows);
  g_object_set_data_full (G_OBJECT (box), "hw-chart", self, free_chart);
  g_signal_connect_object (self->by, "notify::selected", G_CALLBACK (hw_hours_chart_refresh), box, G_CONNECT_SWAPPED);
  hw_hours_chart_refresh (box);
  return box;
}
