/* machines-page.c - the machines of the room: hours, the needle in each, the care that is due
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/motif.h"
#include "window/wrap.h"
#include "words/words.h"

#define NEARLY_DUE 0.8                  /* share of the limit from which a clock is shown as due soon */

static const char * const kind_names[HW_N_MACHINE_KINDS] = {
  [HW_MACHINE_LOCKSTITCH] = N_("Lockstitch machine"),
  [HW_MACHINE_OVERLOCK] = N_("Overlocker"),
  [HW_MACHINE_COVERSTITCH] = N_("Coverstitch machine"),
};

static char *
now_iso (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  return g_date_time_format_iso8601 (now);
}

static void
add_line (GtkWidget  *box,
          const char *name,
          const char *value,
          const char *class)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *left = hw_label_new (name, "mute");
  GtkWidget *right = hw_label_new (value, class);

  gtk_widget_set_hexpand (left, TRUE);
  gtk_label_set_xalign (GTK_LABEL (right), 1);
  gtk_label_set_width_chars (GTK_LABEL (left), 10);
  gtk_box_append (GTK_BOX (line), left);
  gtk_box_append (GTK_BOX (line), right);
  gtk_box_append (GTK_BOX (box), line);
}

static char *
say_clock (const HwCareTask *task,
           double            clock,
           double            limit)
{
  g_autofree char *now = hw_words_number (clock, 1);
  g_autofree char *most = hw_words_number (limit, 1);

  switch (task->clock)
    {
    case HW_CLOCK_MONTHS:
      /* Translators: months since the care was done, months after which it is due */
      return g_strdup_printf (_("%s of %s months"), now, most);
    case HW_CLOCK_SEWING_DAY:
      return g_strdup (_("each sewing day"));
    case HW_CLOCK_RUNNING:
    case HW_CLOCK_AT_MACHINE:
    default:
      /* Translators: hours since the care was done, hours after which it is due */
      return g_strdup_printf (_("%s of %s h"), now, most);
    }
}

static void
add_clock (GtkWidget        *box,
           const HwRoom     *room,
           const HwMachine  *machine,
           const HwCareTask *task,
           const char       *now)
{
  double           limit = hw_room_care_limit (machine, task);
  double           clock = hw_room_care_clock (room, machine, task, now);
  gboolean         days = task->clock == HW_CLOCK_SEWING_DAY;
  g_autofree char *value = NULL;
  g_autofree char *words = NULL;
  const char      *class = "sage";

  if (limit <= 0)
    return;
  value = say_clock (task, clock, limit);
  if (!days && clock >= limit)
    {
      /* Translators: a clock such as “16 of 15 h” */
      words = g_strdup_printf (_("%s: due"), value);
      class = "brass";
    }
  else if (!days && clock >= limit * NEARLY_DUE)
    {
      /* Translators: a clock such as “13 of 15 h” */
      words = g_strdup_printf (_("%s: due soon"), value);
      class = "brass";
    }
  add_line (box, _(task->entry.name), words != NULL ? words : value, class);
}

static char *
say_needle (const HwHandbook     *handbook,
            const HwMachineState *state)
{
  const HwNeedle  *needle = state->needle;
  int              point = needle != NULL ? hw_handbook_find_point (handbook, needle->point) : -1;
  g_autofree char *name = NULL;
  g_autofree char *hours = NULL;

  if (point < 0)
    return g_strdup (_("none noted yet"));
  name = hw_words_needle (handbook, point, needle->nm, needle->twin_mm);
  hours = hw_words_hours (needle->at_machine_hours);
  /* Translators: a needle, the hours it has been sewn with */
  return g_strdup_printf (_("%s, %s worn"), name, hours);
}

static void
add_machine (GtkWidget        *wrap,
             const HwHandbook *handbook,
             const HwRoom     *room,
             const HwMachine  *machine,
             const char       *now)
{
  const HwMachineState *state = hw_room_get_state (room, machine);
  GtkWidget            *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_autofree char      *hours = hw_words_hours (state->at_machine_hours);
  g_autofree char      *running = hw_words_hours (state->running_hours);
  g_autofree char      *needle = say_needle (handbook, state);

  gtk_widget_add_css_class (card, "sheet");
  gtk_widget_add_css_class (card, "machine");
  gtk_widget_set_valign (card, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (card), hw_label_new (machine->name, "subtitle"));
  if (!g_str_equal (machine->name, _(kind_names[machine->kind])))
    gtk_box_append (GTK_BOX (card), hw_label_new (_(kind_names[machine->kind]), "mute"));
  add_line (card, _("Needle in it"), needle, "strong");
  add_line (card, _("At the machine"), hours, NULL);
  add_line (card, _("Needle moving"), running, NULL);
  gtk_box_append (GTK_BOX (card), hw_label_new (_("Care"), "heading"));
  for (gsize i = 0; i < handbook->n_care; i++)
    if ((handbook->care[i].machines & (1u << machine->kind)) != 0)
      add_clock (card, room, machine, &handbook->care[i], now);
  hw_wrap_append (HW_WRAP (wrap), card);
}

static void
changed_cb (GtkWidget *page)
{
  HwWorkspace     *workspace = g_object_get_data (G_OBJECT (page), "hw-workspace");
  GtkWidget       *wrap = g_object_get_data (G_OBJECT (page), "hw-wrap");
  const HwRoom    *room = hw_workspace_get_room (workspace);
  g_autofree char *now = now_iso ();

  hw_wrap_remove_all (HW_WRAP (wrap));
  for (guint i = 0; i < room->machines->len; i++)
    add_machine (wrap, hw_workspace_get_handbook (workspace), room, room->machines->pdata[i], now);
}

GtkWidget *
hw_machines_page_new (HwWorkspace *workspace)
{
  GtkWidget       *page = gtk_scrolled_window_new ();
  GtkWidget       *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget       *wrap = hw_wrap_new (12, 12);
  g_autofree char *caution = hw_words_caution (0);

  gtk_widget_add_css_class (box, "page");
  gtk_box_append (GTK_BOX (box), hw_label_new (_("Machines"), "figure"));
  gtk_box_append (GTK_BOX (box), hw_label_new (caution, "mute"));
  gtk_box_append (GTK_BOX (box), wrap);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (page), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (page), box);
  g_object_set_data (G_OBJECT (page), "hw-workspace", workspace);       /* the window holds it */
  g_object_set_data (G_OBJECT (page), "hw-wrap", wrap);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (changed_cb), page, G_CONNECT_SWAPPED);
  changed_cb (page);
  return page;
}
