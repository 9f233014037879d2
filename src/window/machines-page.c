/* machines-page.c - the machines of the room: hours, the needle in each, clocks of care and what is done about them
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything done here is an action "machines.…". Checklists and the machine's form open in the side panel.
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/forms.h"
#include "window/gauge.h"
#include "window/hours-chart.h"
#include "window/motif.h"
#include "window/queue-count.h"
#include "window/split.h"
#include "window/watch.h"
#include "window/wrap.h"
#include "words/words.h"

#define SCROLLBAR 10                    /* beside the cards, not on them */
#define TOLD_CHARS 40                   /* a longer line wraps, before it widens its card */
#define NEARLY_DUE 0.8                  /* share of the limit from which a clock is shown as due soon */

#define HW_TYPE_MACHINES_PAGE (hw_machines_page_get_type ())
G_DECLARE_FINAL_TYPE (HwMachinesPage, hw_machines_page, HW, MACHINES_PAGE, GtkBox)

struct _HwMachinesPage
{
  GtkBox       parent_instance;
  HwWorkspace *workspace;
  GtkWidget   *split, *wrap, *panel_window, *panel;
  GtkWidget   *form;                    /* in the panel; NULL: there is no panel */
  GtkWidget   *add_button, *chart;
  GArray      *dated;                   /* Dated: what waits for the queue to be counted */
  GCancellable *counting;               /* NULL: it was not yet */
};

/* Where the page says how a care stands, and when it falls due. */
typedef struct
{
  GtkWidget *gauge, *clock, *date;
  char      *machine;                   /* id */
  int        care;                      /* handbook index; HW_CARE_NEEDLE */
} Dated;

G_DEFINE_FINAL_TYPE (HwMachinesPage, hw_machines_page, GTK_TYPE_BOX)

static char *
now_iso (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  return g_date_time_format_iso8601 (now);
}

/* ---- the panel ---- */

static void
close_form (HwMachinesPage *self)
{
  if (self->form == NULL)
    return;
  self->form = NULL;
  hw_split_lead_panel (HW_SPLIT (self->split), FALSE);
  gtk_widget_grab_focus (self->add_button);
  gtk_widget_set_visible (self->panel_window, FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->panel_window), NULL);
}

static gboolean
close_form_later_cb (gpointer data)
{
  close_form (HW_MACHINES_PAGE (data));
  return G_SOURCE_REMOVE;
}

/* The form is still inside its own action; it goes when that is over. */
static void
form_closed_cb (HwMachinesPage *self)
{
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, close_form_later_cb, g_object_ref (self), g_object_unref);
}

static void
show_form (HwMachinesPage *self,
           GtkWidget      *form)
{
  close_form (self);
  self->form = form;
  gtk_widget_add_css_class (form, "sheet");
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->panel_window), form);
  gtk_widget_set_visible (self->panel_window, TRUE);
  hw_split_lead_panel (HW_SPLIT (self->split), TRUE);
  g_signal_connect_object (form, "closed", G_CALLBACK (form_closed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_child_focus (form, GTK_DIR_TAB_FORWARD);
  hw_when_placed (form, hw_bring_into_sight);
}

/* ---- one machine ---- */

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
say_state (const char *clock,
           double      share)
{
  if (share >= 1)
    /* Translators: a clock such as “16 of 15 h” */
    return g_strdup_printf (_("%s: due"), clock);
  if (share >= NEARLY_DUE)
    /* Translators: a clock such as “13 of 15 h” */
    return g_strdup_printf (_("%s: due soon"), clock);
  return g_strdup (clock);
}

static GtkWidget *
make_care_button (const HwMachine  *machine,
                  const HwCareTask *task)
{
  GtkWidget       *button = gtk_button_new_with_label (_("Do it…"));
  /* Translators: a care task, a machine */
  g_autofree char *name = g_strdup_printf (_("%s on %s"), task->entry.name, machine->name);

  gtk_widget_add_css_class (button, "link");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "(ss)", machine->id, task->entry.id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "machines.care");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return button;
}

/* (transfer full) */
static char *
say_last (const HwRoom     *room,
          const HwMachine  *machine,
          const HwCareTask *task)
{
  const char      *since = hw_room_care_since (room, machine, task);
  g_autofree char *day = since != NULL ? hw_words_date (since) : NULL;

  if (day == NULL)
    return g_strdup (_("not noted yet"));
  /* Translators: date on which a care was done */
  return g_strdup_printf (_("last done on %s"), day);
}

static GtkWidget *
add_told (GtkWidget  *told,
          const char *words,
          const char *class)
{
  GtkWidget *label = hw_label_new (words, class);

  gtk_widget_add_css_class (label, "small");
  gtk_label_set_max_width_chars (GTK_LABEL (label), TOLD_CHARS);
  gtk_box_append (GTK_BOX (told), label);
  return label;
}

/* No clock runs for it; what it waits for, and where that is written. */
static void
add_without (GtkWidget        *grid,
             const HwRoom     *room,
             const HwMachine  *machine,
             const HwCareTask *task,
             const char       *words,
             int               row)
{
  gboolean         never = !(hw_room_care_limit (machine, task) > 0);
  GtkWidget       *buttons = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_autofree char *last = say_last (room, machine, task);
  GtkWidget       *told = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  GtkWidget       *button = gtk_button_new_with_label (_("Set…"));
  /* Translators: a care task, a machine */
  g_autofree char *name = g_strdup_printf (_("Set the interval: %s on %s"), task->entry.name, machine->name);

  gtk_widget_set_hexpand (told, TRUE);
  gtk_box_append (GTK_BOX (told), hw_label_new (task->entry.name, NULL));
  add_told (told, words, "mute");
  if (!never)
    {
      add_told (told, last, "mute");
      gtk_box_append (GTK_BOX (buttons), make_care_button (machine, task));
    }
  gtk_widget_add_css_class (button, "link");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "(ss)", machine->id, task->entry.id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "machines.set-care");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_valign (buttons, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (buttons), button);
  gtk_grid_attach (GTK_GRID (grid), told, 0, row, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), buttons, 1, row, 1, 1);
}

static void
clear_dated_cb (gpointer data)
{
  g_free (((Dated *) data)->machine);
}

/* (transfer full): before which step of the queue, or when by the person's hours a week; NULL: due now, or not told */
static char *
say_due (const HwQueue   *queue,
         const HwCareDue *due)
{
  const char      *date = due->about != NULL ? due->about : due->date;
  g_autofree char *when = NULL;
  g_autofree char *day = NULL;

  if (due->overdue)
    return NULL;
  when = hw_words_care_when (queue, due);
  if (date == NULL)
    return g_steal_pointer (&when);
  day = hw_words_date (date);
  /* Translators: “in about 2 weeks”, “before step 7 of Apron”; a date */
  return g_strdup_printf (_("%s, %s"), when, day);
}

static const HwCareDue *
find_due (const HwQueue *queue,
          const Dated   *dated)
{
  for (guint i = 0; i < queue->care->len; i++)
    {
      const HwCareDue *due = g_ptr_array_index (queue->care, i);

      if (due->care == dated->care && g_str_equal (due->machine->id, dated->machine))
        return due;
    }
  return NULL;
}

static void
show_clock (const Dated      *dated,
            const HwHandbook *handbook,
            const HwCareDue  *due)
{
  double           share = due->clock / due->limit;
  g_autofree char *clock = hw_words_care_clock (handbook, due);
  g_autofree char *words = say_state (clock, share);

  hw_gauge_show (HW_GAUGE (dated->gauge), words, due->clock, due->limit);
  gtk_label_set_text (GTK_LABEL (dated->clock), words);
  gtk_widget_remove_css_class (dated->clock, share >= NEARLY_DUE ? "mute" : "brass");
  gtk_widget_add_css_class (dated->clock, share >= NEARLY_DUE ? "brass" : "mute");
}

/* In the labels that wait for it, so that the keyboard's place on the page stays. */
static void
counted_cb (gpointer  page,
            HwQueue  *queue)
{
  HwMachinesPage *self = HW_MACHINES_PAGE (page);

  for (guint i = 0; i < self->dated->len; i++)
    {
      const Dated     *dated = &g_array_index (self->dated, Dated, i);
      const HwCareDue *due = find_due (queue, dated);
      g_autofree char *words = due != NULL ? say_due (queue, due) : NULL;

      if (due != NULL && due->care != HW_CARE_NEEDLE)
        show_clock (dated, hw_workspace_get_handbook (self->workspace), due);   /* months may come before hours */
      gtk_label_set_text (GTK_LABEL (dated->date), words != NULL ? words : "");
      gtk_widget_set_visible (dated->date, words != NULL);
    }
}

/* As it stands before any work to come; the needle's hours run since it was changed. (transfer full) */
static HwCareDue *
stand (const HwHandbook *handbook,
       const HwRoom     *room,
       const HwMachine  *machine,
       int               care,
       const char       *now)
{
  const HwCareTask *task = &handbook->care[care];
  HwCareDue        *due = hw_care_stand (handbook, room, machine, care, now);

  if (due != NULL)
    return due;
  due = g_new0 (HwCareDue, 1);
  *due = (HwCareDue) { .machine = machine, .care = care, .clock = hw_room_care_clock (room, machine, task, now),
                       .limit = hw_room_care_limit (machine, task) };
  return due;
}

static void
add_clock (HwMachinesPage   *self,
           GtkWidget        *grid,
           int               care,
           const HwRoom     *room,
           const HwMachine  *machine,
           const char       *now)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  const HwCareTask *task = &handbook->care[care];
  gboolean          needle = g_str_equal (task->entry.id, HW_NEEDLE_TASK);
  g_autoptr (HwCareDue) due = stand (handbook, room, machine, care, now);
  g_autofree char  *last = say_last (room, machine, task);
  GtkWidget        *told = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  GtkWidget        *stands;
  Dated             dated = { .machine = g_strdup (machine->id), .care = needle ? HW_CARE_NEEDLE : care };

  dated.gauge = hw_gauge_new (task->entry.name, "", due->clock, due->limit);
  gtk_widget_set_hexpand (told, TRUE);
  gtk_box_append (GTK_BOX (told), hw_label_new (task->entry.name, NULL));
  gtk_box_append (GTK_BOX (told), dated.gauge);
  stands = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  dated.clock = add_told (stands, "", "mute");
  if (!needle)
    add_told (stands, last, "mute");
  gtk_box_append (GTK_BOX (told), stands);
  dated.date = add_told (told, "…", "mute");            /* its line is kept until the queue is counted */
  show_clock (&dated, handbook, due);
  g_array_append_val (self->dated, dated);
  gtk_grid_attach (GTK_GRID (grid), told, 0, care, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), make_care_button (machine, task), 1, care, 1, 1);
}

static gboolean
is_shown (const HwMachine  *machine,
          const HwCareTask *task)
{
  return hw_care_limit (machine, task) > 0
         || (g_str_equal (task->entry.id, HW_NEEDLE_TASK) && hw_room_care_limit (machine, task) > 0);
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

static GtkWidget *
make_head (const HwMachine *machine)
{
  GtkWidget       *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget       *name = hw_label_new (machine->name, "subtitle");
  GtkWidget       *edit = gtk_button_new_with_label (_("Change…"));
  /* Translators: a machine */
  g_autofree char *label = g_strdup_printf (_("Change %s"), machine->name);

  gtk_widget_set_hexpand (name, TRUE);
  gtk_widget_add_css_class (edit, "link");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (edit), "s", machine->id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (edit), "machines.edit");
  gtk_accessible_update_property (GTK_ACCESSIBLE (edit), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_box_append (GTK_BOX (head), name);
  gtk_box_append (GTK_BOX (head), edit);
  return head;
}

static void
add_clocks (HwMachinesPage  *self,
            GtkWidget       *card,
            const HwRoom    *room,
            const HwMachine *machine,
            const char      *now)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (self->workspace);
  GtkWidget        *grid = gtk_grid_new ();
  g_autofree char  *week = hw_words_hours (room->preferences->hours_a_week);
  g_autofree char  *dates = hw_words_care_dates (week);

  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_box_append (GTK_BOX (card), hw_label_new (_("Care"), "heading"));
  add_told (card, dates, "mute");
  for (gsize i = 0; i < handbook->n_care; i++)
    {
      g_autofree char *without = hw_words_care_without (machine, &handbook->care[i]);

      if (is_shown (machine, &handbook->care[i]))
        add_clock (self, grid, (int) i, room, machine, now);
      else if (without != NULL)
        add_without (grid, room, machine, &handbook->care[i], without, (int) i);
    }
  gtk_box_append (GTK_BOX (card), grid);
}

static GtkWidget *
add_machine (HwMachinesPage  *self,
             const HwRoom    *room,
             const HwMachine *machine,
             const char      *now)
{
  const HwHandbook     *handbook = hw_workspace_get_handbook (self->workspace);
  const HwMachineState *state = hw_room_get_state (room, machine);
  GtkWidget            *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_autofree char      *hours = hw_words_hours (state->at_machine_hours);
  g_autofree char      *running = hw_words_hours (state->running_hours);
  g_autofree char      *needle = say_needle (handbook, state);

  gtk_widget_add_css_class (card, "sheet");
  gtk_widget_add_css_class (card, "machine");
  gtk_widget_set_valign (card, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (card), make_head (machine));
  if (!g_str_equal (machine->name, hw_words_machine_kind (machine->kind)))
    gtk_box_append (GTK_BOX (card), hw_label_new (hw_words_machine_kind (machine->kind), "mute"));
  add_line (card, _("Needle in it"), needle, "strong");
  add_line (card, _("At the machine"), hours, NULL);
  add_line (card, _("Needle moving"), running, NULL);
  add_clocks (self, card, room, machine, now);
  hw_wrap_append (HW_WRAP (self->wrap), card);
  return card;
}

static void
refresh (GtkWidget *widget)
{
  HwMachinesPage  *self = HW_MACHINES_PAGE (widget);
  const HwRoom    *room = hw_workspace_get_room (self->workspace);
  g_autofree char *now = now_iso ();
  g_autoptr (GtkSizeGroup) widths = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);

  hw_wrap_remove_all (HW_WRAP (self->wrap));
  g_array_set_size (self->dated, 0);
  for (guint i = 0; i < room->machines->len; i++)
    gtk_size_group_add_widget (widths, add_machine (self, room, room->machines->pdata[i], now));
  hw_queue_count (self->workspace, self, &self->counting, counted_cb);
  hw_hours_chart_refresh (self->chart);
}

/* ---- actions ---- */

static void
add_action (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  HwMachinesPage *self = HW_MACHINES_PAGE (widget);
  const char     *kind = g_variant_get_string (parameter, NULL);

  for (int i = 0; i < HW_N_MACHINE_KINDS; i++)
    if (g_str_equal (hw_machine_kind_ids[i], kind))
      show_form (self, hw_machine_form_new (self->workspace, NULL, (HwMachineKind) i));
}

static void
edit_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwMachinesPage *self = HW_MACHINES_PAGE (widget);

  show_form (self, hw_machine_form_new (self->workspace, g_variant_get_string (parameter, NULL),
                                        HW_MACHINE_LOCKSTITCH));
}

static void
remove_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  HwMachinesPage    *self = HW_MACHINES_PAGE (widget);
  g_autoptr (GError) error = NULL;
  HwRoom            *next = hw_room_without_machine (hw_workspace_get_room (self->workspace),
                                                     g_variant_get_string (parameter, NULL), &error);

  if (hw_workspace_take_room (self->workspace, next, error))
    form_closed_cb (self);
}

static void
care_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwMachinesPage *self = HW_MACHINES_PAGE (widget);
  const char     *machine;
  const char     *care;

  g_variant_get (parameter, "(&s&s)", &machine, &care);
  show_form (self, hw_care_form_new (self->workspace, machine, care));
}

static void
set_care_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *parameter)
{
  HwMachinesPage *self = HW_MACHINES_PAGE (widget);
  const char     *machine;
  const char     *care;

  g_variant_get (parameter, "(&s&s)", &machine, &care);
  show_form (self, hw_machine_form_new (self->workspace, machine, HW_MACHINE_LOCKSTITCH));
  hw_machine_form_show_care (self->form, care);
}

/* ---- the object ---- */

static void
hw_machines_page_dispose (GObject *object)
{
  HwMachinesPage *self = HW_MACHINES_PAGE (object);

  self->form = NULL;
  hw_queue_count_cancel (&self->counting);
  g_clear_pointer (&self->dated, g_array_unref);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_machines_page_parent_class)->dispose (object);
}

static void
hw_machines_page_class_init (HwMachinesPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = hw_machines_page_dispose;
  gtk_widget_class_install_action (widget_class, "machines.add", "s", add_action);
  gtk_widget_class_install_action (widget_class, "machines.edit", "s", edit_action);
  gtk_widget_class_install_action (widget_class, "machines.remove", "s", remove_action);
  gtk_widget_class_install_action (widget_class, "machines.care", "(ss)", care_action);
  gtk_widget_class_install_action (widget_class, "machines.set-care", "(ss)", set_care_action);
}

static void
hw_machines_page_init (HwMachinesPage *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  self->dated = g_array_new (FALSE, FALSE, sizeof (Dated));
  g_array_set_clear_func (self->dated, clear_dated_cb);
}

static GtkWidget *
make_add_button (void)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  GtkWidget        *button = gtk_menu_button_new ();

  for (int i = 0; i < HW_N_MACHINE_KINDS; i++)
    {
      g_autofree char *action = g_strdup_printf ("machines.add::%s", hw_machine_kind_ids[i]);

      g_menu_append (menu, hw_words_machine_kind ((HwMachineKind) i), action);
    }
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), _("Add a machine"));
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  hw_popover_plain (gtk_menu_button_get_popover (GTK_MENU_BUTTON (button)));
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  hw_control_name (button, _("Add a machine"));
  return button;
}

static GtkWidget *
make_list (HwMachinesPage *self)
{
  GtkWidget       *scroller = gtk_scrolled_window_new ();
  GtkWidget       *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget       *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget       *title = hw_label_new (_("Machines"), "figure");
  g_autofree char *caution = hw_words_caution (0);

  self->wrap = hw_wrap_new (12, 12);
  self->add_button = make_add_button ();
  gtk_widget_set_hexpand (title, TRUE);
  gtk_box_append (GTK_BOX (head), title);
  gtk_box_append (GTK_BOX (head), self->add_button);
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), hw_label_new (caution, "mute"));
  gtk_box_append (GTK_BOX (box), self->wrap);
  self->chart = hw_hours_chart_new (self->workspace);
  gtk_box_append (GTK_BOX (box), self->chart);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_margin_end (box, SCROLLBAR);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), box);
  return scroller;
}

GtkWidget *
hw_machines_page_new (HwWorkspace *workspace)
{
  HwMachinesPage *self = g_object_new (HW_TYPE_MACHINES_PAGE, NULL);

  self->workspace = g_object_ref (workspace);
  self->split = hw_split_new ();
  hw_split_set_fits (HW_SPLIT (self->split), TRUE);
  self->panel_window = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->panel_window), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (self->panel_window), TRUE);
  gtk_widget_set_visible (self->panel_window, FALSE);
  hw_split_append (HW_SPLIT (self->split), make_list (self));
  hw_split_append (HW_SPLIT (self->split), self->panel_window);
  gtk_widget_add_css_class (self->split, "page");
  gtk_widget_set_vexpand (self->split, TRUE);
  gtk_box_append (GTK_BOX (self), self->split);
  hw_watch (GTK_WIDGET (self), workspace, refresh);
  return GTK_WIDGET (self);
}
