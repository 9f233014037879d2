/* order-page.c - the page “Order of work”: blocks by set-up, each headed by the change to make
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/order-keys.h"
#include "window/order-page.h"

#include <glib/gi18n.h>

#include "model/edit.h"
#include "window/controls.h"
#include "window/order-row.h"
#include "window/order-sight.h"
#include "window/order-wish.h"
#include "window/motif.h"
#include "window/setup-panel.h"
#include "window/split.h"
#include "window/tab-stop.h"
#include "window/timer-bar.h"
#include "window/watch.h"
#include "window/wish-list.h"
#include "words/words.h"

#define LETTER_EM 1.7
#define CLOTH_EM 1.5

struct _HwOrderPage
{
  GtkWidget           parent_instance;
  HwWorkspace        *workspace;
  GListStore         *rows;
  GtkLabel           *totals;
  GtkLabel           *compared;
  GtkCheckButton     *share;
  GtkListView        *list;
  GtkSingleSelection *selection;
  GMenuModel         *menu;
  HwWishList         *wishes;
  HwTimerBar         *timer;
  GtkWidget          *context;          /* the menu at a step, while one is open */
  gboolean            updating;         /* the list is being changed by us, not by the person */
  gboolean            choosing;         /* a row of it is being chosen by the person */
  char               *project_seen;     /* id of the project whose order was shown last; NULL none */
  guint               n_seen;           /* its steps then */
  char               *next_known;       /* the step to sew next when the page was left, or a step was chosen since */
  gboolean            moved;            /* another step was chosen while the page was out of sight */
  gboolean            pointed;          /* the pointer is in the list */
  gboolean            marking;          /* a step is being marked there */
  gboolean            held;             /* rows wait in their old order until the pointer has left */
};

G_DEFINE_FINAL_TYPE (HwOrderPage, hw_order_page, GTK_TYPE_WIDGET)

static void open_context (HwOrderPage *self, GtkWidget *row, double x, double y, const char *number);

/* ---- one row: the widgets are made once and recycled ---- */

typedef struct
{
  HwOrderRow *row;                      /* borrowed while bound */
  GtkWidget  *letter;
  GtkWidget  *sewn;
  GtkWidget  *cloth;
  GtkLabel   *number;
  GtkLabel   *text;
  GtkLabel   *amount;
  GtkLabel   *cost;
  gulong      toggled_id;
} RowWidgets;

static void
sewn_toggled_cb (GtkToggleButton *button,
                 RowWidgets      *widgets)
{
  g_autofree char *number = NULL;

  if (widgets->row == NULL || hw_order_row_get_number (widgets->row) == NULL)
    return;

  number = g_strdup (hw_order_row_get_number (widgets->row));
  if (gtk_toggle_button_get_active (button) != hw_order_row_get_done (widgets->row))
    gtk_widget_activate_action (GTK_WIDGET (button), "order.mark", "(sb)", number,
                                gtk_toggle_button_get_active (button));
}

static HwOrderRow *
get_row_cb (gpointer data)
{
  return ((RowWidgets *) data)->row;
}

static void
pressed_cb (GtkGestureClick *gesture,
            int              n_press,
            double           x,
            double           y,
            RowWidgets      *widgets)
{
  GtkWidget *row = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture));

  if (widgets->row == NULL || hw_order_row_get_number (widgets->row) == NULL)
    return;
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  open_context (HW_ORDER_PAGE (gtk_widget_get_ancestor (row, HW_TYPE_ORDER_PAGE)), row, x, y,
                hw_order_row_get_number (widgets->row));
}

static void
add_context (GtkWidget  *row,
             RowWidgets *widgets)
{
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect (click, "pressed", G_CALLBACK (pressed_cb), widgets);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (click));
}

static GtkLabel *
add_label (GtkWidget  *box,
           const char *css_class,
           gboolean    expand)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, expand);
  if (expand)
    {
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
    }
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *item,
          gpointer                  data)
{
  GtkWidget  *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  RowWidgets *widgets = g_new0 (RowWidgets, 1);

  gtk_widget_add_css_class (box, "order-row");
  widgets->letter = hw_motif_new (LETTER_EM, LETTER_EM);
  gtk_widget_set_valign (widgets->letter, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), widgets->letter);

  widgets->sewn = gtk_toggle_button_new ();
  widgets->cloth = hw_motif_new (CLOTH_EM, CLOTH_EM);
  gtk_button_set_child (GTK_BUTTON (widgets->sewn), widgets->cloth);
  gtk_widget_add_css_class (widgets->sewn, "sewn");
  gtk_widget_set_valign (widgets->sewn, GTK_ALIGN_CENTER);
  widgets->toggled_id = g_signal_connect (widgets->sewn, "toggled", G_CALLBACK (sewn_toggled_cb), widgets);
  gtk_box_append (GTK_BOX (box), widgets->sewn);

  widgets->number = add_label (box, "step-number", FALSE);
  gtk_label_set_width_chars (widgets->number, 3);
  widgets->text = add_label (box, NULL, TRUE);
  widgets->amount = add_label (box, "secondary", FALSE);

  widgets->cost = add_label (box, "drop-cost", FALSE);
  gtk_label_set_wrap (widgets->cost, TRUE);
  gtk_label_set_max_width_chars (widgets->cost, 30);
  gtk_widget_set_visible (GTK_WIDGET (widgets->cost), FALSE);

  hw_order_wish_add_drag (box, widgets->cost, get_row_cb, widgets);
  add_context (box, widgets);
  gtk_list_item_set_child (item, box);
  g_object_set_data_full (G_OBJECT (box), "row-widgets", widgets, g_free);
}

static void
set_class (GtkWidget  *widget,
           const char *css_class,
           gboolean    on)
{
  if (on)
    gtk_widget_add_css_class (widget, css_class);
  else
    gtk_widget_remove_css_class (widget, css_class);
}

static void
style_row (GtkWidget  *box,
           HwOrderRow *row)
{
  HwOrderRowKind kind = hw_order_row_get_kind (row);

  set_class (box, "block-head", kind == HW_ORDER_ROW_CHANGE);
  set_class (box, "block-care", kind == HW_ORDER_ROW_CARE);
  set_class (box, "block-step", kind == HW_ORDER_ROW_STEP);
  set_class (box, "block-first", hw_order_row_get_first (row));
  set_class (box, "block-last", hw_order_row_get_last (row));
  set_class (box, "done", hw_order_row_get_done (row));
  set_class (box, "next", hw_order_row_is_next (row));
}

static char *
describe_row (HwOrderRow *row)
{
  if (hw_order_row_get_kind (row) != HW_ORDER_ROW_STEP)
    return g_strdup (hw_order_row_get_text (row));
  if (hw_order_row_get_done (row))
    /* Translators: step's number, name, amount such as "1.4 m, 7 min" */
    return g_strdup_printf (_("Step %s, %s, %s, sewn"), hw_order_row_get_number (row), hw_order_row_get_text (row),
                            hw_order_row_get_amount (row));
  return g_strdup_printf (_("Step %s, %s, %s"), hw_order_row_get_number (row), hw_order_row_get_text (row),
                          hw_order_row_get_amount (row));
}

static void
name_widget (GtkWidget  *widget,
             const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* The words of the row say the same to someone who cannot see them. */
static void
show_pictures (RowWidgets *widgets)
{
  const char *letter = hw_order_row_get_letter (widgets->row);

  if (letter != NULL && letter[0] != '\0')
    {
      /* Translators: the letter of a set-up */
      g_autofree char *name = g_strdup_printf (_("Set-up %s"), letter);

      hw_motif_show_letter (HW_MOTIF (widgets->letter), letter);
      hw_motif_set_name (HW_MOTIF (widgets->letter), name);
    }
  else
    {
      hw_motif_show_nothing (HW_MOTIF (widgets->letter));
      hw_motif_set_name (HW_MOTIF (widgets->letter), _("by hand"));
    }
  hw_motif_show_cross_stitch (HW_MOTIF (widgets->cloth), hw_order_row_get_done (widgets->row));
  hw_motif_set_name (HW_MOTIF (widgets->cloth), hw_order_row_get_done (widgets->row) ? _("sewn") : _("not sewn"));
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *item,
         gpointer                  data)
{
  HwOrderRow      *row = gtk_list_item_get_item (item);
  GtkWidget       *box = gtk_list_item_get_child (item);
  RowWidgets      *widgets = g_object_get_data (G_OBJECT (box), "row-widgets");
  gboolean         is_step = hw_order_row_get_kind (row) == HW_ORDER_ROW_STEP;
  g_autofree char *name = describe_row (row);

  widgets->row = row;
  hw_order_sight_note (box, row);
  gtk_list_item_set_selectable (item, is_step);
  gtk_list_item_set_activatable (item, is_step);
  style_row (box, row);

  gtk_widget_set_visible (widgets->letter, hw_order_row_get_kind (row) == HW_ORDER_ROW_CHANGE);
  gtk_widget_set_visible (widgets->sewn, is_step);
  gtk_widget_set_visible (GTK_WIDGET (widgets->number), is_step);
  gtk_widget_set_visible (GTK_WIDGET (widgets->amount), is_step);
  gtk_label_set_text (widgets->number, is_step ? hw_order_row_get_number (row) : "");
  if (is_step)
    {
      gtk_label_set_attributes (widgets->text, NULL);
      gtk_label_set_text (widgets->text, hw_order_row_get_text (row));
    }
  else
    hw_label_set_figures (widgets->text, hw_order_row_get_text (row));
  gtk_label_set_text (widgets->amount, is_step ? hw_order_row_get_amount (row) : "");

  g_signal_handler_block (widgets->sewn, widgets->toggled_id);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (widgets->sewn), hw_order_row_get_done (row));
  g_signal_handler_unblock (widgets->sewn, widgets->toggled_id);
  if (is_step)
    {
      /* Translators: what the toggle says: step's number and name */
      g_autofree char *sewn = g_strdup_printf (_("Step %s, %s: sewn"), hw_order_row_get_number (row),
                                               hw_order_row_get_text (row));

      name_widget (widgets->sewn, sewn);
    }
  if (gtk_widget_get_parent (box) != NULL)
    name_widget (gtk_widget_get_parent (box), name);
  show_pictures (widgets);
}

static void
unbind_cb (GtkSignalListItemFactory *factory,
           GtkListItem              *item,
           gpointer                  data)
{
  RowWidgets *widgets = g_object_get_data (G_OBJECT (gtk_list_item_get_child (item)), "row-widgets");

  widgets->row = NULL;
  hw_order_sight_note (gtk_list_item_get_child (item), NULL);
}

/* ---- the page ---- */

static guint
find_row (HwOrderPage *self,
          const char  *number)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->rows));

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwOrderRow) row = g_list_model_get_item (G_LIST_MODEL (self->rows), i);

      if (g_strcmp0 (hw_order_row_get_number (row), number) == 0)
        return i;
    }
  return GTK_INVALID_LIST_POSITION;
}

static void
bring_selected (GtkWidget *widget)
{
  HwOrderPage *self = HW_ORDER_PAGE (widget);

  hw_order_sight_bring (self->list, hw_workspace_peek_selected (self->workspace));
}

/* Whoever turns to the order of a project for the first time, or once steps were added, wants to know what comes next;
 * it is chosen then. TRUE: so it is now. */
static gboolean
is_new_order (HwOrderPage *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  guint            n = project != NULL ? project->steps->len : 0;
  gboolean         is_new = project != NULL && (g_strcmp0 (project->id, self->project_seen) != 0 || n > self->n_seen);

  if (project == NULL)
    return FALSE;
  g_free (self->project_seen);
  self->project_seen = g_strdup (project->id);
  self->n_seen = n;
  return is_new;
}

/* Borrowed; NULL: every step is sewn, or there is none. */
static const char *
peek_next (HwOrderPage *self)
{
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);

  if (plan == NULL || plan->next < 0)
    return NULL;
  return hw_project_get_step (plan->project, g_array_index (plan->order, HwPlanStep, plan->next).step)->number;
}

static void
choose_next (HwOrderPage *self)
{
  const char *next = peek_next (self);

  if (next != NULL)
    hw_workspace_select (self->workspace, next);
}

static void
note_next (HwOrderPage *self)
{
  g_free (self->next_known);
  self->next_known = g_strdup (peek_next (self));
}

/* What comes next is chosen where it is another step than when the page was left: steps were marked elsewhere. The
 * chosen step is in sight then, and what heads its block; else the page is as it was left. */
static void
mapped_cb (GtkWidget *widget)
{
  HwOrderPage *self = HW_ORDER_PAGE (widget);

  if (is_new_order (self) || g_strcmp0 (peek_next (self), self->next_known) != 0)
    choose_next (self);
  else if (!self->moved)
    return;
  hw_when_placed (widget, bring_selected);
}

static void
unmapped_cb (HwOrderPage *self)
{
  note_next (self);
  self->moved = FALSE;
}

static void
refresh_actions (HwOrderPage *self)
{
  static const char * const actions[] = { "order.first", "order.last", "order.earlier", "order.later", "order.keep" };
  const char *number = hw_workspace_peek_selected (self->workspace);
  gboolean    open = hw_order_can_wish (self->workspace, number);

  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), actions[i], open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "order.forget", hw_order_has_wish (self->workspace, number));
}

static void
show_selection (HwOrderPage *self)
{
  const char *number = hw_workspace_peek_selected (self->workspace);

  refresh_actions (self);
  self->updating = TRUE;
  gtk_single_selection_set_selected (self->selection,
                                     number != NULL ? find_row (self, number) : GTK_INVALID_LIST_POSITION);
  self->updating = FALSE;
}

/* The step may have been chosen elsewhere: by the finder, on another page, or as the next one. A row that the person
 * has just pressed stays under the pointer, and so do rows that wait for it to leave. */
static void
selection_cb (HwOrderPage *self)
{
  show_selection (self);
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      note_next (self);
      self->moved = TRUE;
    }
  else if (!self->choosing && !self->held)
    hw_when_placed (GTK_WIDGET (self), bring_selected);
}

static void
show_sharing (HwOrderPage *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);

  self->updating = TRUE;
  gtk_widget_set_visible (GTK_WIDGET (self->share), project != NULL && project->steps->len > 0);
  gtk_check_button_set_active (self->share, project == NULL || project->share);
  self->updating = FALSE;
}

static void
share_toggled_cb (HwOrderPage *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  gboolean         share = gtk_check_button_get_active (self->share);

  if (self->updating || project == NULL)
    return;
  hw_workspace_edit (self->workspace, hw_edit_set_share (project, share),
                     share ? _("allow shared set-ups") : _("refuse shared set-ups"), NULL, NULL);
}

/* How good the order is, as the first words of a line. (transfer full) (nullable) */
static char *
say_proof (const HwPlan *plan)
{
  g_autofree char *proof = hw_words_proof (plan);

  return proof != NULL ? hw_words_title (proof) : NULL;
}

/* (transfer full) */
static char *
say_totals (const HwChangeTotals *totals)
{
  g_autofree char *words = hw_words_totals (totals);

  if (totals->changes == 0)
    return g_steal_pointer (&words);
  /* Translators: how many changes and how long they take, as "3 changes of needle, thread, foot or stitch (2 needles),
   * 10 minutes" */
  return g_strdup_printf (_("Still to do: %s"), words);
}

static void
show_head (HwOrderPage *self,
           const char  *totals,
           const char  *compared)
{
  hw_label_set_figures (self->totals, totals);
  hw_label_set_figures (self->compared, compared);
}

static void
show_totals (HwOrderPage  *self,
             const HwPlan *plan)
{
  g_autofree char *ordered = say_totals (&plan->as_ordered);
  g_autofree char *proof = say_proof (plan);
  g_autofree char *others = hw_words_compared (plan);
  /* Translators: how good the order is, as "no other order takes less changing"; what other orders come to */
  g_autofree char *compared = proof != NULL ? g_strdup_printf (_("%s. %s"), proof, others) : g_strdup (others);

  show_head (self, ordered, compared);
}

static gboolean
is_focus_in_list (HwOrderPage *self)
{
  GtkRoot   *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->list));
}

/* A step marked out of its turn goes up to those that are sewn. It would go from under the pointer, and another would
 * stand there for the next press: so rows stay where they are until the pointer has left the list. */
static void
apply_rows (HwOrderPage *self,
            GPtrArray   *rows)
{
  gboolean moves = hw_order_rows_move (self->rows, rows);

  self->held = moves && (self->held || (self->marking && self->pointed));
  self->updating = TRUE;
  if (self->held)
    hw_order_rows_mark (self->rows, rows);
  else
    hw_order_rows_apply (self->rows, rows);
  self->updating = FALSE;
}

/* A row that is made anew loses the focus: whoever marked a step by the space bar goes on from there. */
static void
update_page (GtkWidget *widget)
{
  HwOrderPage  *self = HW_ORDER_PAGE (widget);
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);
  const GError *error = hw_workspace_peek_plan_error (self->workspace);
  gboolean      had_focus = is_focus_in_list (self);
  g_autoptr (GPtrArray) rows = plan != NULL ? hw_order_rows_new (plan)
                                            : g_ptr_array_new_with_free_func (g_object_unref);

  apply_rows (self, rows);
  if (error != NULL)
    show_head (self, _("No order can be made"), error->message);
  else if (plan == NULL || plan->n_steps == 0)
    show_head (self, _("Nothing to order yet"), _("Add steps on the page “Making up”; their order appears here."));
  else if (plan->next < 0)
    show_head (self, _("Every step is sewn"), "");
  else
    show_totals (self, plan);
  show_sharing (self);
  show_selection (self);
  if (had_focus)
    hw_order_keys_focus (self->list);
}

static void
selection_changed_cb (GtkSingleSelection *selection,
                      GParamSpec         *pspec,
                      HwOrderPage        *self)
{
  HwOrderRow *row = gtk_single_selection_get_selected_item (selection);

  if (self->updating || row == NULL || hw_order_row_get_number (row) == NULL)
    return;
  self->choosing = TRUE;
  hw_workspace_select (self->workspace, hw_order_row_get_number (row));
  self->choosing = FALSE;
}

/* Whoever has done the chosen step sees how the next is set up. A step that is open again goes back to its place among
 * those to sew, and is chosen there, so that it is found again. */
static void
mark (HwOrderPage *self,
      const char  *number,
      gboolean     done)
{
  gboolean chosen = g_strcmp0 (number, hw_workspace_peek_selected (self->workspace)) == 0;

  if (!hw_workspace_mark_done (self->workspace, number, done))
    return;
  if (!done)
    hw_workspace_select (self->workspace, number);
  if (done && chosen)
    choose_next (self);
}

static void
mark_action (GtkWidget  *widget,
             const char *action_name,
             GVariant   *parameter)
{
  HwOrderPage *self = HW_ORDER_PAGE (widget);
  const char  *number;
  gboolean     done;
  gboolean     goes_on;
  double       place;

  g_variant_get (parameter, "(&sb)", &number, &done);
  goes_on = done && g_strcmp0 (number, hw_workspace_peek_selected (self->workspace)) == 0;
  place = hw_order_sight_find (self->list, number);
  self->marking = TRUE;
  mark (self, number, done);
  self->marking = FALSE;
  update_page (widget);                  /* a refused mark puts the toggle back */
  if (goes_on && !self->held)
    hw_order_sight_bring (self->list, hw_workspace_peek_selected (self->workspace));
  else
    hw_order_sight_keep (self->list, number, place, !done);
}

static void
mark_selected_action (GtkWidget  *widget,
                      const char *action_name,
                      GVariant   *parameter)
{
  HwOrderPage      *self = HW_ORDER_PAGE (widget);
  const HwPlan     *plan = hw_workspace_peek_plan (self->workspace);
  g_autofree char  *number = g_strdup (hw_workspace_peek_selected (self->workspace));
  const HwPlanStep *planned = plan != NULL && number != NULL ? hw_plan_find_step (plan, number) : NULL;

  if (planned == NULL)
    return;
  mark (self, number, !planned->done);
  hw_order_sight_bring (self->list, hw_workspace_peek_selected (self->workspace));
}

/* ---- the timer ---- */

static void
timer_action (GtkWidget  *widget,
              const char *action_name,
              GVariant   *parameter)
{
  HwOrderPage     *self = HW_ORDER_PAGE (widget);
  HwStopwatch     *stopwatch = hw_workspace_get_stopwatch (self->workspace);
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  g_autofree char *step = g_strdup (hw_timer_bar_peek_step (self->timer));

  if (project == NULL || step == NULL)
    return;
  if (hw_stopwatch_is_running (stopwatch, project->id, step))
    hw_stopwatch_pause (stopwatch);
  else
    hw_stopwatch_start (stopwatch, project->id, step);
}

static void
timed_done_action (GtkWidget  *widget,
                   const char *action_name,
                   GVariant   *parameter)
{
  HwOrderPage     *self = HW_ORDER_PAGE (widget);
  g_autofree char *step = g_strdup (hw_timer_bar_peek_step (self->timer));

  if (step != NULL)
    mark (self, step, TRUE);
}

/* ---- wishes ---- */

static void
open_context (HwOrderPage *self,
              GtkWidget   *row,
              double       x,
              double       y,
              const char  *number)
{
  double       page_x = x;
  double       page_y = y;
  GdkRectangle place = { 0, 0, 1, 1 };

  hw_workspace_select (self->workspace, number);
  g_clear_pointer (&self->context, gtk_widget_unparent);
  gtk_widget_translate_coordinates (row, GTK_WIDGET (self), x, y, &page_x, &page_y);
  place.x = (int) page_x;
  place.y = (int) page_y;
  self->context = gtk_popover_menu_new_from_model (self->menu);
  gtk_widget_set_parent (self->context, GTK_WIDGET (self));
  gtk_popover_set_pointing_to (GTK_POPOVER (self->context), &place);
  gtk_popover_set_has_arrow (GTK_POPOVER (self->context), FALSE);
  gtk_widget_set_halign (self->context, GTK_ALIGN_START);
  name_widget (self->context, _("Wishes for the chosen step"));
  gtk_popover_popup (GTK_POPOVER (self->context));
}

static void
announce_if (HwOrderPage *self,
             gboolean     wished)
{
  if (wished)
    hw_wish_list_announce (self->wishes);
}

static void
before_action (GtkWidget  *widget,
               const char *action_name,
               GVariant   *parameter)
{
  HwOrderPage *self = HW_ORDER_PAGE (widget);
  const char  *steps[] = { NULL, NULL, NULL };
  const char  *moved;

  g_variant_get (parameter, "(&s&s&s)", &steps[0], &steps[1], &moved);
  hw_workspace_select (self->workspace, moved);
  announce_if (self, hw_order_wish (self->workspace, HW_WISH_BEFORE, steps));
}

static void
wish_action (GtkWidget  *widget,
             const char *action_name,
             GVariant   *parameter)
{
  HwOrderPage     *self = HW_ORDER_PAGE (widget);
  g_autofree char *number = g_strdup (hw_workspace_peek_selected (self->workspace));
  const char      *steps[] = { number, NULL };

  if (!hw_order_can_wish (self->workspace, number))
    return;
  if (g_str_equal (action_name, "order.first"))
    announce_if (self, hw_order_wish (self->workspace, HW_WISH_FIRST, steps));
  else if (g_str_equal (action_name, "order.last"))
    announce_if (self, hw_order_wish (self->workspace, HW_WISH_LAST, steps));
  else if (g_str_equal (action_name, "order.keep"))
    announce_if (self, hw_order_wish_keep (self->workspace, number));
  else
    announce_if (self, hw_order_wish_move (self->workspace, number, g_str_equal (action_name, "order.later")));
}

static void
forget_action (GtkWidget  *widget,
               const char *action_name,
               GVariant   *parameter)
{
  HwOrderPage     *self = HW_ORDER_PAGE (widget);
  g_autofree char *number = g_strdup (hw_workspace_peek_selected (self->workspace));

  if (number != NULL)
    hw_order_wish_forget (self->workspace, number);
}

static void
forget_wish_action (GtkWidget  *widget,
                    const char *action_name,
                    GVariant   *parameter)
{
  HwOrderPage     *self = HW_ORDER_PAGE (widget);
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  guint            index = g_variant_get_uint32 (parameter);
  g_autofree char *text = NULL;
  g_autofree char *label = NULL;

  if (project == NULL || index >= project->wishes->len)
    return;
  text = hw_words_wish (g_ptr_array_index (project->wishes, index));
  /* Translators: a wish such as “4 before 2” */
  label = g_strdup_printf (_("forget %s"), text);
  hw_workspace_edit (self->workspace, hw_edit_remove_wish (project, index, NULL), label, NULL, NULL);
}

static void
menu_action (GtkWidget  *widget,
             const char *action_name,
             GVariant   *parameter)
{
  hw_wish_list_open_menu (HW_ORDER_PAGE (widget)->wishes);
}

static GtkWidget *
build_head (HwOrderPage *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  gtk_widget_add_css_class (head, "page-head");
  self->totals = add_label (head, "page-figure", TRUE);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->totals),
                               _("For the steps not sewn yet, from what is in the machines now. In brackets: how often "
                                 "a needle goes in that is not in already. Where a step says “Set”, length, width or "
                                 "dial alone is set anew: that is in the minutes, and counts as no change."));
  self->compared = add_label (head, "secondary", TRUE);
  self->share = GTK_CHECK_BUTTON (gtk_check_button_new_with_label (_("Steps share set-ups")));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->share),
                               _("Inside their bands, steps take what others need anyway. Untick it to keep what is "
                                 "preferred for every step."));
  g_signal_connect_swapped (self->share, "toggled", G_CALLBACK (share_toggled_cb), self);
  hw_wish_list_add (self->wishes, GTK_WIDGET (self->share));
  return head;
}

static void
enter_cb (HwOrderPage *self)
{
  self->pointed = TRUE;
}

static void
leave_cb (HwOrderPage *self)
{
  self->pointed = FALSE;
  if (!self->held)
    return;
  self->held = FALSE;
  update_page (GTK_WIDGET (self));
}

static void
watch_pointer (HwOrderPage *self,
               GtkWidget   *list)
{
  GtkEventController *motion = gtk_event_controller_motion_new ();

  g_signal_connect_swapped (motion, "enter", G_CALLBACK (enter_cb), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (list, motion);
}

static gboolean
enter_list (gpointer list)
{
  return hw_order_keys_focus (list);
}

static GtkWidget *
build_list (HwOrderPage *self)
{
  GtkWidget          *stop;
  GtkWidget          *scroller = gtk_scrolled_window_new ();
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), NULL);

  self->rows = g_list_store_new (HW_TYPE_ORDER_ROW);
  self->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->rows)));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  g_signal_connect (self->selection, "notify::selected-item", G_CALLBACK (selection_changed_cb), self);
  self->list = GTK_LIST_VIEW (gtk_list_view_new (GTK_SELECTION_MODEL (g_object_ref (self->selection)), factory));
  gtk_widget_add_css_class (GTK_WIDGET (self->list), "order-list");
  name_widget (GTK_WIDGET (self->list), _("Order of work"));

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->list));
  hw_order_keys_add (self->list);
  watch_pointer (self, GTK_WIDGET (self->list));
  stop = hw_tab_stop_new (scroller);
  gtk_widget_set_hexpand (stop, TRUE);
  gtk_widget_set_vexpand (stop, TRUE);
  hw_tab_stop_set_enter (HW_TAB_STOP (stop), enter_list, self->list);
  return stop;
}

static gboolean
hw_order_page_grab_focus (GtkWidget *widget)
{
  return hw_order_keys_focus (HW_ORDER_PAGE (widget)->list);
}

/* The page is entered and left like any box: its own way of taking the focus would have Tab return to the list. */
static gboolean
hw_order_page_focus (GtkWidget        *widget,
                     GtkDirectionType  direction)
{
  GtkWidget *inside = gtk_widget_get_focus_child (widget);

  return gtk_widget_child_focus (inside != NULL ? inside : gtk_widget_get_first_child (widget), direction);
}

static void
hw_order_page_dispose (GObject *object)
{
  HwOrderPage *self = HW_ORDER_PAGE (object);
  GtkWidget   *child;

  self->held = FALSE;                    /* the list goes, and the pointer with it */
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  self->context = NULL;                  /* was a child */
  g_clear_object (&self->selection);
  g_clear_object (&self->rows);
  g_clear_object (&self->menu);
  g_clear_pointer (&self->project_seen, g_free);
  g_clear_pointer (&self->next_known, g_free);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_order_page_parent_class)->dispose (object);
}

static void
hw_order_page_class_init (HwOrderPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hw_order_page_dispose;
  widget_class->grab_focus = hw_order_page_grab_focus;
  widget_class->focus = hw_order_page_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "orderpage");
  gtk_widget_class_install_action (widget_class, "order.mark", "(sb)", mark_action);
  gtk_widget_class_install_action (widget_class, "order.mark-selected", NULL, mark_selected_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_d, GDK_CONTROL_MASK, "order.mark-selected", NULL);
  gtk_widget_class_install_action (widget_class, "order.timer", NULL, timer_action);
  gtk_widget_class_install_action (widget_class, "order.timed-done", NULL, timed_done_action);
  gtk_widget_class_install_action (widget_class, "order.before", "(sss)", before_action);
  gtk_widget_class_install_action (widget_class, "order.first", NULL, wish_action);
  gtk_widget_class_install_action (widget_class, "order.last", NULL, wish_action);
  gtk_widget_class_install_action (widget_class, "order.earlier", NULL, wish_action);
  gtk_widget_class_install_action (widget_class, "order.later", NULL, wish_action);
  gtk_widget_class_install_action (widget_class, "order.keep", NULL, wish_action);
  gtk_widget_class_install_action (widget_class, "order.forget", NULL, forget_action);
  gtk_widget_class_install_action (widget_class, "order.forget-wish", "u", forget_wish_action);
  gtk_widget_class_install_action (widget_class, "order.menu", NULL, menu_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Up, GDK_ALT_MASK, "order.earlier", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Down, GDK_ALT_MASK, "order.later", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Menu, 0, "order.menu", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F10, GDK_SHIFT_MASK, "order.menu", NULL);
}

static void
hw_order_page_init (HwOrderPage *self)
{
}

GtkWidget *
hw_order_page_new (HwWorkspace *workspace)
{
  HwOrderPage *self = g_object_new (HW_TYPE_ORDER_PAGE, NULL);
  GtkWidget   *columns = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget   *split = hw_split_new ();
  GtkWidget   *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);

  self->workspace = g_object_ref (workspace);
  self->menu = hw_order_wish_menu ();
  hw_order_wish_set_up (GTK_WIDGET (self), workspace);
  self->wishes = HW_WISH_LIST (hw_wish_list_new (workspace, self->menu));
  gtk_widget_add_css_class (columns, "page");
  self->timer = HW_TIMER_BAR (hw_timer_bar_new (workspace));
  gtk_box_append (GTK_BOX (left), build_head (self));
  gtk_box_append (GTK_BOX (left), GTK_WIDGET (self->timer));
  gtk_box_append (GTK_BOX (left), GTK_WIDGET (self->wishes));
  gtk_box_append (GTK_BOX (left), build_list (self));
  hw_split_append (HW_SPLIT (split), left);
  hw_split_append (HW_SPLIT (split), hw_setup_panel_new_scrolled (workspace));
  gtk_widget_set_vexpand (split, TRUE);
  gtk_box_append (GTK_BOX (columns), split);
  gtk_widget_set_parent (hw_page_scroller_new (columns), GTK_WIDGET (self));

  g_signal_connect_object (workspace, "selection", G_CALLBACK (selection_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "map", G_CALLBACK (mapped_cb), NULL);
  g_signal_connect (self, "unmap", G_CALLBACK (unmapped_cb), NULL);
  hw_watch (GTK_WIDGET (self), workspace, update_page);
  return GTK_WIDGET (self);
}
