/* preferences-page.c - what the person chooses for the whole room: hours a week, minutes of a change
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"
#include "window/form.h"
#include "words/words.h"

#define HOURS_IN_A_WEEK 168

typedef struct
{
  HwWorkspace *workspace;
  GtkWidget   *hours;
  GtkWidget   *minutes[HW_N_CHANGE_PARTS];
} Preferences;

static const char * const part_names[HW_N_CHANGE_PARTS] = {
  [HW_CHANGE_PART_WALK] = N_("To sit down at another machine"),
  [HW_CHANGE_PART_NEEDLE] = N_("To change the needle"),
  [HW_CHANGE_PART_THREAD] = N_("To thread the needle anew"),
  [HW_CHANGE_PART_BOBBIN] = N_("To change the bobbin"),
  [HW_CHANGE_PART_FOOT] = N_("To change the foot"),
  [HW_CHANGE_PART_PLATE] = N_("To change the needle plate"),
  [HW_CHANGE_PART_STITCH] = N_("To choose another stitch"),
  [HW_CHANGE_PART_SOFT] = N_("To set length, width, pressure and dial"),
  [HW_CHANGE_PART_OVERLOCK_THREAD] = N_("To thread one cone of an overlocker anew"),
};

/* What the handbook gives, to show where nothing else was chosen. */
static double
ordinary_minutes (const HwChangeCosts *costs,
                  HwChangePart         part)
{
  const double minutes[HW_N_CHANGE_PARTS] = {
    [HW_CHANGE_PART_WALK] = costs->walk,
    [HW_CHANGE_PART_NEEDLE] = costs->needle,
    [HW_CHANGE_PART_THREAD] = costs->thread,
    [HW_CHANGE_PART_BOBBIN] = costs->bobbin,
    [HW_CHANGE_PART_FOOT] = costs->foot,
    [HW_CHANGE_PART_PLATE] = costs->plate,
    [HW_CHANGE_PART_STITCH] = costs->stitch,
    [HW_CHANGE_PART_SOFT] = costs->soft,
    [HW_CHANGE_PART_OVERLOCK_THREAD] = costs->overlock_thread,
  };

  return minutes[part];
}

static gboolean
save_preferences (gpointer data,
                  GError **error)
{
  Preferences                *self = data;
  const HwRoom               *room = hw_workspace_get_room (self->workspace);
  g_autoptr (HwPreferences)   next = hw_preferences_copy (room->preferences);
  HwRoom                     *changed;

  next->hours_a_week = gtk_spin_button_get_value (GTK_SPIN_BUTTON (self->hours));
  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    if (!hw_form_get_number (self->minutes[part], _(part_names[part]), NAN, &next->change_minutes[part], error))
      return FALSE;
  changed = hw_room_with_preferences (room, next, error);
  if (changed == NULL || !hw_workspace_take_room (self->workspace, changed, NULL))
    return FALSE;
  hw_workspace_tell (self->workspace, _("The preferences are kept; the plan counts with them from now on."), FALSE);
  return TRUE;
}

static void
add_minutes (HwForm              *form,
             Preferences         *self,
             HwChangePart         part,
             const HwPreferences *chosen,
             const HwChangeCosts *costs)
{
  g_autofree char *ordinary = hw_words_number (ordinary_minutes (costs, part), 2);
  g_autofree char *own = isnan (chosen->change_minutes[part]) ? NULL
                                                              : hw_words_number (chosen->change_minutes[part], 2);

  self->minutes[part] = hw_form_entry (own, ordinary);
  gtk_widget_set_halign (self->minutes[part], GTK_ALIGN_START);
  hw_form_add (form, _(part_names[part]), self->minutes[part]);
}

static GtkWidget *
make_form (HwWorkspace *workspace)
{
  const HwHandbook    *handbook = hw_workspace_get_handbook (workspace);
  const HwPreferences *chosen = hw_workspace_get_room (workspace)->preferences;
  HwForm              *form = HW_FORM (hw_form_new (_("Preferences"), _("Keep these")));
  Preferences         *self = g_new0 (Preferences, 1);
  g_autofree char     *source = hw_words_source (handbook->changes.source);
  g_autofree char     *about = NULL;

  self->workspace = workspace;          /* the window holds it */
  self->hours = hw_form_spin (chosen->hours_a_week, 0.5, HOURS_IN_A_WEEK, 0.5, 1);
  hw_form_add (form, _("_Hours you sew in a week"), self->hours);
  hw_form_add_hint (form, _("From these come the dates at which care falls due and projects are done."));
  hw_form_add_heading (form, _("Minutes that a change takes you"));
  /* Translators: the source of the minutes */
  about = g_strdup_printf (_("The order of work is the one with the fewest of these minutes. Left empty, the "
                             "handbook’s count (%s)."), source);
  hw_form_add_wide (form, hw_label_new (about, "mute"));
  for (int part = 0; part < HW_N_CHANGE_PARTS; part++)
    add_minutes (form, self, (HwChangePart) part, chosen, &handbook->changes);
  hw_form_set_save (form, save_preferences, self, g_free);
  return GTK_WIDGET (form);
}

static void fill (GtkWidget *page);

static gboolean
fill_later_cb (gpointer page)
{
  fill (page);
  return G_SOURCE_REMOVE;
}

/* The form is still inside its own action; it is made anew when that is over. */
static void
closed_cb (GtkWidget *page)
{
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, fill_later_cb, g_object_ref (page), g_object_unref);
}

static void
fill (GtkWidget *page)
{
  GtkWidget *form = make_form (g_object_get_data (G_OBJECT (page), "hw-workspace"));

  gtk_widget_add_css_class (form, "page");
  gtk_widget_add_css_class (form, "narrow");
  gtk_widget_set_halign (form, GTK_ALIGN_START);
  g_signal_connect_object (form, "closed", G_CALLBACK (closed_cb), page, G_CONNECT_SWAPPED);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (page), form);
}

GtkWidget *
hw_preferences_page_new (HwWorkspace *workspace)
{
  GtkWidget *page = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (page), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  g_object_set_data (G_OBJECT (page), "hw-workspace", workspace);       /* the window holds it */
  fill (page);
  return page;
}
