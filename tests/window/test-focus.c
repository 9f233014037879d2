/* test-focus.c - Tab goes through every page to its end and back, in reading order, and is held nowhere
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * In the real window over the demo's sewing room. The window moves the focus as it does for the key; what takes Tab for
 * itself, a text of several lines, is asked not to.
 */

#include "config.h"

#include "demo.h"
#include "model/edit.h"
#include "scene.h"
#include "walk.h"
#include "window/copies-bar.h"
#include "window/form.h"
#include "window/work-bar.h"

#define MOST_STEPS 400
#define LAST_BLOCKS 19                   /* steps of the demo in other blocks */
#define SLACK 6.0                        /* pixels by which things on one line may differ */

static gboolean
move (Demo             *demo,
      GtkDirectionType  direction)
{
  g_signal_emit_by_name (demo->window, "move-focus", direction);
  return gtk_root_get_focus (GTK_ROOT (demo->window)) != NULL;
}

static GtkWidget *
focus_of (Demo *demo)
{
  return gtk_root_get_focus (GTK_ROOT (demo->window));
}

static char *
tell (GtkWidget *widget)
{
  GString *text = g_string_new (NULL);

  for (GtkWidget *at = widget; at != NULL && text->len < 120; at = gtk_widget_get_parent (at))
    {
      GtkWidget *label = walk_find (at, GTK_TYPE_LABEL, NULL);

      if (at == widget && label != NULL)
        g_string_append_printf (text, "“%s” ", gtk_label_get_text (GTK_LABEL (label)));
      g_string_append_printf (text, "%s ", G_OBJECT_TYPE_NAME (at));
    }
  return g_string_free (text, FALSE);
}

/* Until one comes again. (element-type GtkWidget) (transfer full) */
static GPtrArray *
tab_through (Demo             *demo,
             const char       *where,
             GtkDirectionType  direction,
             GString          *faults)
{
  GPtrArray *visited = g_ptr_array_new_with_free_func (g_object_unref);

  gtk_root_set_focus (GTK_ROOT (demo->window), NULL);
  for (int i = 0; i < MOST_STEPS; i++)
    {
      GtkWidget *focus = move (demo, direction) ? focus_of (demo) : NULL;
      GtkWidget *last = visited->len > 0 ? visited->pdata[visited->len - 1] : NULL;

      if (focus == last)
        {
          g_autofree char *told = last != NULL ? tell (last) : g_strdup ("the beginning");

          g_string_append_printf (faults, "%s: %s goes no further than %s\n", where,
                                  direction == GTK_DIR_TAB_FORWARD ? "Tab" : "Shift+Tab", told);
          return visited;
        }
      if (focus == NULL || g_ptr_array_find (visited, focus, NULL))
        return visited;                  /* round; what it did not come to is told by the caller */
      if (GTK_IS_TEXT_VIEW (focus))
        g_assert_false (gtk_text_view_get_accepts_tab (GTK_TEXT_VIEW (focus)));
      g_ptr_array_add (visited, g_object_ref (focus));
    }
  g_error ("%s: Tab comes to no end", where);
}

/* Where one that has the focus is seen: what scrolls brings it inside itself. The other may lie in it too. */
static gboolean
find_place (Demo            *demo,
            GtkWidget       *widget,
            GtkWidget       *other,
            graphene_rect_t *place)
{
  if (!gtk_widget_compute_bounds (widget, demo->window, place))
    return FALSE;
  for (GtkWidget *outer = gtk_widget_get_parent (widget); outer != NULL; outer = gtk_widget_get_parent (outer))
    {
      graphene_rect_t frame;

      if (!GTK_IS_SCROLLED_WINDOW (outer) || gtk_widget_is_ancestor (other, outer)
          || !gtk_widget_compute_bounds (outer, demo->window, &frame))
        continue;
      place->origin.y = CLAMP (place->origin.y, frame.origin.y,
                               MAX (frame.origin.y, frame.origin.y + frame.size.height - place->size.height));
    }
  return TRUE;
}

/* What stands above another is read before it, unless it begins a column of its own beside it. */
static void
check_order (Demo       *demo,
             const char *where,
             GtkWidget  *before,
             GtkWidget  *after,
             GString    *faults)
{
  graphene_rect_t a, b;
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  if (!find_place (demo, before, after, &a) || !find_place (demo, after, before, &b))
    return;
  if ((double) (b.origin.y + b.size.height) > (double) a.origin.y + SLACK
      || (double) b.origin.x + SLACK > (double) (a.origin.x + a.size.width))
    return;
  first = tell (before);
  second = tell (after);
  g_string_append_printf (faults, "%s: after %s at %.0f,%.0f comes %s at %.0f,%.0f\n", where, first,
                          (double) a.origin.x, (double) a.origin.y, second, (double) b.origin.x, (double) b.origin.y);
}

/* Lists are gone through by arrows; Tab comes into them once. */
static gboolean
is_in_list (GtkWidget *widget)
{
  return gtk_widget_get_ancestor (widget, GTK_TYPE_LIST_BOX) != NULL
         || gtk_widget_get_ancestor (widget, GTK_TYPE_LIST_BASE) != NULL
         || gtk_widget_get_ancestor (widget, GTK_TYPE_COLUMN_VIEW) != NULL
         || gtk_widget_get_ancestor (widget, GTK_TYPE_FLOW_BOX) != NULL;
}

static gboolean
are_in_one_list (GtkWidget *a,
                 GtkWidget *b)
{
  GtkWidget *list = gtk_widget_get_ancestor (a, GTK_TYPE_LIST_BOX);

  return list != NULL && gtk_widget_is_ancestor (b, list);
}

static gboolean
is_reached (GtkWidget       *control,
            const GPtrArray *visited)
{
  for (guint i = 0; i < visited->len; i++)
    {
      GtkWidget *focus = visited->pdata[i];

      if (focus == control || gtk_widget_is_ancestor (focus, control) || gtk_widget_is_ancestor (control, focus)
          || are_in_one_list (control, focus))
        return TRUE;
    }
  return FALSE;
}

static void
check_reached (const char      *where,
               GtkWidget       *widget,
               const GPtrArray *visited,
               GString         *faults)
{
  if (!gtk_widget_get_mapped (widget) || !gtk_widget_is_sensitive (widget))
    return;
  if ((GTK_IS_BUTTON (widget) || GTK_IS_CHECK_BUTTON (widget) || GTK_IS_DROP_DOWN (widget) || GTK_IS_TEXT (widget))
      && !GTK_IS_WINDOW_CONTROLS (gtk_widget_get_parent (widget)) && !is_in_list (widget)
      && gtk_widget_get_ancestor (widget, GTK_TYPE_SPIN_BUTTON) == NULL && !is_reached (widget, visited))
    {
      g_autofree char *told = tell (widget);

      g_string_append_printf (faults, "%s: Tab does not come to %s\n", where, told);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (!GTK_IS_NATIVE (child))
      check_reached (where, child, visited, faults);
}

static void
check_page (Demo       *demo,
            const char *where,
            GString    *faults)
{
  g_autoptr (GPtrArray) forward = NULL;
  g_autoptr (GPtrArray) back = NULL;

  scene_settle ();
  gtk_test_widget_wait_for_draw (demo->window);
  scene_settle ();
  forward = tab_through (demo, where, GTK_DIR_TAB_FORWARD, faults);
  g_test_message ("%s: %u places", where, forward->len);
  for (guint i = 1; i < forward->len; i++)
    check_order (demo, where, forward->pdata[i - 1], forward->pdata[i], faults);
  check_reached (where, demo->window, forward, faults);
  back = tab_through (demo, where, GTK_DIR_TAB_BACKWARD, faults);
  for (guint i = 0; i < forward->len; i++)
    if (!is_reached (forward->pdata[i], back))
      {
        g_autofree char *told = tell (forward->pdata[i]);

        g_string_append_printf (faults, "%s: Shift+Tab does not come to %s\n", where, told);
      }
}

static void
judge (Demo    *demo,
       GString *faults)
{
  demo_close (demo);
  if (faults->len > 0)
    g_test_message ("%s", faults->str);
  g_assert_cmpuint (faults->len, ==, 0);
}

static void
open_demo (Demo *demo)
{
  demo_open (demo);
  gtk_window_present (GTK_WINDOW (demo->window));
  gtk_test_widget_wait_for_draw (demo->window);
}

static void
test_pages (void)
{
  static const char * const pages[] = {
    "making-up", "cards", "notions", "queue", "machines", "faults", "finish", "preferences", "needles",
    "thread", "fabrics", "order", "journal", "handbook", "garment", "guide", "versions",
  };
  Demo demo = { 0 };
  g_autoptr (GString) faults = g_string_new (NULL);

  open_demo (&demo);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_assert_true (gtk_widget_activate_action (demo.window, "win.page", "s", pages[i]));
      check_page (&demo, pages[i], faults);
    }
  judge (&demo, faults);
}

/* A page that scrolls would take the focus for itself, and a frame would stand around all of it. */
static void
test_first (void)
{
  Demo demo = { 0 };
  GtkWidget *focus;

  open_demo (&demo);
  gtk_widget_grab_focus (walk_need (demo.window, GTK_TYPE_COLUMN_VIEW, "Steps of the making up"));
  g_assert_true (gtk_widget_activate_action (demo.window, "win.preferences", NULL));
  scene_settle ();
  focus = gtk_root_get_focus (GTK_ROOT (demo.window));
  g_assert_nonnull (focus);
  g_assert_false (GTK_IS_SCROLLED_WINDOW (focus));
  g_assert_nonnull (gtk_widget_get_ancestor (focus, GTK_TYPE_DROP_DOWN));
  demo_close (&demo);
}

/* With a message to be read and undone, and work to be cancelled. */
static void
test_bars (void)
{
  Demo demo = { 0 };
  g_autoptr (GString) faults = g_string_new (NULL);

  open_demo (&demo);
  hw_workspace_tell_undoable (demo.workspace, "Something was done");
  gtk_widget_set_visible (walk_need (demo.window, HW_TYPE_WORK_BAR, NULL), TRUE);
  gtk_widget_set_visible (walk_need (demo.window, HW_TYPE_COPIES_BAR, NULL), TRUE);
  check_page (&demo, "bars", faults);
  judge (&demo, faults);
}

/* ---- in sight ---- */

static void
let_settle (Demo *demo)
{
  for (int i = 0; i < 8; i++)
    {
      gtk_test_widget_wait_for_draw (demo->window);
      scene_settle ();
    }
}

/* The chosen row of the order of work, and what heads its block. */
static void
find_rows (GtkWidget  *list,
           GtkWidget **head,
           GtkWidget **step)
{
  *head = *step = NULL;
  for (GtkWidget *row = gtk_widget_get_first_child (list); row != NULL && *step == NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      GtkWidget *box = gtk_widget_get_first_child (row);

      if (box == NULL)
        continue;
      if (gtk_widget_has_css_class (box, "block-head"))
        *head = row;
      if ((gtk_widget_get_state_flags (row) & GTK_STATE_FLAG_SELECTED) != 0)
        *step = row;
    }
  g_assert_nonnull (*step);
  g_assert_nonnull (*head);
}

static void
assert_inside (GtkWidget *widget,
               GtkWidget *outer)
{
  graphene_rect_t bounds;

  g_assert_true (gtk_widget_compute_bounds (widget, outer, &bounds));
  g_assert_cmpfloat (bounds.origin.y, >=, -1);
  g_assert_cmpfloat (bounds.origin.y + bounds.size.height, <=, gtk_widget_get_height (outer) + 1);
}

/* Whoever has done a step sees the next one with the change that it begins with. */
static void
test_head_in_sight (void)
{
  Demo demo = { 0 };
  GtkWidget *list, *head, *step;
  guint heads = 0;
  GtkWidget *before = NULL;

  open_demo (&demo);
  gtk_window_set_default_size (GTK_WINDOW (demo.window), 900, 600);
  gtk_widget_activate_action (demo.window, "win.page", "s", "order");
  let_settle (&demo);
  list = walk_need (demo.window, GTK_TYPE_LIST_VIEW, "Order of work");
  for (int i = 0; i < 12; i++)
    {
      find_rows (list, &head, &step);
      assert_inside (head, list);
      assert_inside (step, list);
      heads += head != before ? 1 : 0;
      before = head;
      gtk_widget_activate_action (gtk_stack_get_visible_child (walk_stack (demo.window, "order")),
                                  "order.mark-selected", NULL);
      let_settle (&demo);
    }
  g_assert_cmpuint (heads, >=, 4);
  demo_close (&demo);
}

/* A step that is open again goes elsewhere in the list; it is found there, chosen and focused. */
static void
test_open_again_in_sight (void)
{
  static const char * const sewn[] = { "1", "2", "5", "9", "3", "4" };
  Demo demo = { 0 };
  GtkWidget *page, *list, *head, *step;

  open_demo (&demo);
  gtk_window_set_default_size (GTK_WINDOW (demo.window), 900, 600);
  gtk_widget_activate_action (demo.window, "win.page", "s", "order");
  let_settle (&demo);
  page = gtk_stack_get_visible_child (walk_stack (demo.window, "order"));
  list = walk_need (demo.window, GTK_TYPE_LIST_VIEW, "Order of work");
  for (gsize i = 0; i < G_N_ELEMENTS (sewn); i++)
    gtk_widget_activate_action (page, "order.mark", "(sb)", sewn[i], TRUE);
  let_settle (&demo);
  for (gsize i = 0; i < G_N_ELEMENTS (sewn); i++)
    {
      gtk_widget_grab_focus (page);
      gtk_widget_activate_action (page, "order.mark", "(sb)", sewn[i], FALSE);
      let_settle (&demo);
      g_assert_cmpstr (hw_workspace_peek_selected (demo.workspace), ==, sewn[i]);
      find_rows (list, &head, &step);
      assert_inside (head, list);
      assert_inside (step, list);
      g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (demo.window)), step));
    }
  demo_close (&demo);
}

/* Presses the key on the list, as the window would hand it down. */
static void
press_key (GtkWidget       *list,
           guint            key,
           GdkModifierType  modifiers)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (list);
  guint    n = g_list_model_get_n_items (controllers);
  gboolean taken = FALSE;

  for (guint i = 0; i < n && !taken; i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", key, 0, modifiers, &taken);
    }
  g_assert_true (taken);
}

static void
open_order (Demo       *demo,
            GtkWidget **list)
{
  open_demo (demo);
  gtk_window_set_default_size (GTK_WINDOW (demo->window), 900, 600);
  gtk_widget_activate_action (demo->window, "win.page", "s", "order");
  let_settle (demo);
  *list = walk_need (demo->window, GTK_TYPE_LIST_VIEW, "Order of work");
}

static void
add_like_steps (Demo *demo,
                int   n)
{
  g_autoptr (HwProject) project = hw_project_ref ((HwProject *) hw_workspace_peek_project (demo->workspace));
  int                   first = hw_project_find_step (project, "1");
  g_autoptr (GError)    error = NULL;

  for (int i = 0; i < n; i++)
    {
      HwStep    *step = hw_step_copy (hw_project_get_step (project, (gsize) first));
      HwProject *longer;

      g_free (step->number);
      step->number = g_strdup_printf ("%d", 101 + i);
      longer = hw_edit_insert_step (project, (gsize) (first + 1 + i), step, &error);
      g_assert_no_error (error);
      hw_step_unref (step);
      hw_project_unref (project);
      project = longer;
    }
  hw_workspace_edit (demo->workspace, hw_project_ref (project), "add", NULL, NULL);
}

/* NULL: the chosen row has no place. */
static GtkWidget *
find_selected (GtkWidget *list)
{
  for (GtkWidget *row = gtk_widget_get_first_child (list); row != NULL; row = gtk_widget_get_next_sibling (row))
    if ((gtk_widget_get_state_flags (row) & GTK_STATE_FLAG_SELECTED) != 0)
      return row;
  return NULL;
}

/* A block that is longer than the view, and than what the list has places for: wherever keys lead in it, the step is in
 * sight. */
static void
test_long_block_in_sight (void)
{
  static const struct { guint key; int times; } ways[] = {
    { GDK_KEY_Home, 1 }, { GDK_KEY_Down, 12 }, { GDK_KEY_End, 1 }, { GDK_KEY_Home, 1 }, { GDK_KEY_End, 1 },
    { GDK_KEY_Up, LAST_BLOCKS + 12 },
  };
  Demo demo = { 0 };
  GtkWidget *list, *step;

  open_demo (&demo);
  add_like_steps (&demo, 260);
  gtk_window_set_default_size (GTK_WINDOW (demo.window), 900, 600);
  gtk_widget_activate_action (demo.window, "win.page", "s", "order");
  let_settle (&demo);
  list = walk_need (demo.window, GTK_TYPE_LIST_VIEW, "Order of work");
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    for (int j = 0; j < ways[i].times; j++)
      {
        press_key (list, ways[i].key, 0);
        let_settle (&demo);
        step = find_selected (list);
        g_assert_nonnull (step);
        g_assert_true (gtk_widget_get_child_visible (step));
        assert_inside (step, list);
        g_assert_true (focus_of (&demo) == step || gtk_widget_is_ancestor (focus_of (&demo), step));
      }
  demo_close (&demo);
}

/* To its first and its last step, over the head that the list begins with, and each with what heads its block. */
static void
test_order_ends (void)
{
  static const struct { guint key; GdkModifierType modifiers; gboolean last; } presses[] = {
    { GDK_KEY_End, 0, TRUE }, { GDK_KEY_Home, 0, FALSE }, { GDK_KEY_KP_End, GDK_CONTROL_MASK, TRUE },
    { GDK_KEY_Home, GDK_CONTROL_MASK, FALSE },
  };
  Demo demo = { 0 };
  GtkWidget *list, *head, *step;
  GtkAdjustment *adjustment;
  const HwPlan *plan;

  open_order (&demo, &list);
  adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (list));
  plan = hw_workspace_peek_plan (demo.workspace);
  for (gsize i = 0; i < G_N_ELEMENTS (presses); i++)
    {
      guint         place = presses[i].last ? plan->order->len - 1 : 0;
      const HwStep *wanted = hw_project_get_step (plan->project, g_array_index (plan->order, HwPlanStep, place).step);

      press_key (list, presses[i].key, presses[i].modifiers);
      let_settle (&demo);
      g_assert_cmpstr (hw_workspace_peek_selected (demo.workspace), ==, wanted->number);
      find_rows (list, &head, &step);
      assert_inside (step, list);
      g_assert_true (focus_of (&demo) == step);
      if (presses[i].last)
        g_assert_cmpfloat (gtk_adjustment_get_value (adjustment), >, 100);
      else
        g_assert_cmpfloat (gtk_adjustment_get_value (adjustment), ==, 0);
    }
  demo_close (&demo);
}

/* As if the pointer came into the list, or left it. */
static void
move_pointer (GtkWidget *list,
              gboolean   in)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (list);
  guint n = g_list_model_get_n_items (controllers);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (!GTK_IS_EVENT_CONTROLLER_MOTION (controller))
        continue;
      if (in)
        g_signal_emit_by_name (controller, "enter", 10.0, 10.0);
      else
        g_signal_emit_by_name (controller, "leave");
    }
}

/* The row of that step and how far down it is seen; NULL: it has none now. */
static GtkWidget *
see_step (GtkWidget  *list,
          const char *number,
          double     *place)
{
  for (GtkWidget *row = gtk_widget_get_first_child (list); row != NULL; row = gtk_widget_get_next_sibling (row))
    if (gtk_widget_get_child_visible (row) && walk_shows (row, number)
        && gtk_widget_has_css_class (gtk_widget_get_first_child (row), "block-step"))
      {
        gtk_widget_translate_coordinates (row, list, 0, 0, NULL, place);
        return row;
      }
  return NULL;
}

static gboolean
is_marked (GtkWidget *row)
{
  return gtk_widget_has_css_class (gtk_widget_get_first_child (row), "done");
}

/* A step marked out of its turn by the pointer stays under it, until the pointer has left the list. */
static void
test_marked_stays (void)
{
  Demo demo = { 0 };
  GtkWidget *list, *page, *row;
  GtkAdjustment *adjustment;
  double before = -1, after = -1;

  open_order (&demo, &list);
  page = gtk_stack_get_visible_child (walk_stack (demo.window, "order"));
  adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (list));
  gtk_adjustment_set_value (adjustment, gtk_adjustment_get_upper (adjustment));
  let_settle (&demo);
  g_assert_nonnull (see_step (list, "18", &before));       /* not the last: the message that comes covers that */
  move_pointer (list, TRUE);
  gtk_widget_activate_action (page, "order.mark", "(sb)", "18", TRUE);
  let_settle (&demo);
  row = see_step (list, "18", &after);
  g_assert_nonnull (row);
  g_assert_true (is_marked (row));
  g_assert_cmpfloat_with_epsilon (after, before, 1);
  gtk_widget_grab_focus (page);
  let_settle (&demo);
  move_pointer (list, FALSE);
  let_settle (&demo);
  g_assert_cmpfloat (gtk_adjustment_get_value (adjustment), ==, 0);     /* at the step that is chosen, with its head */
  row = see_step (list, "18", &after);
  g_assert_nonnull (row);                                               /* the first of those that are sewn */
  g_assert_true (is_marked (row));
  demo_close (&demo);
}

/* By key it goes to those that are sewn at once, and the list with it, so that it is seen where it was. */
static void
test_marked_in_place (void)
{
  static const char * const sewn[] = { "1", "2", "3", "4", "5", "6", "9", "10" };
  Demo demo = { 0 };
  GtkWidget *list, *page;
  GtkAdjustment *adjustment;
  double before = -1, after = -1;

  open_order (&demo, &list);
  page = gtk_stack_get_visible_child (walk_stack (demo.window, "order"));
  adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (list));
  for (gsize i = 0; i < G_N_ELEMENTS (sewn); i++)
    g_assert_true (hw_workspace_mark_done (demo.workspace, sewn[i], TRUE));
  let_settle (&demo);
  gtk_adjustment_set_value (adjustment, gtk_adjustment_get_upper (adjustment));
  let_settle (&demo);
  g_assert_nonnull (see_step (list, "18", &before));
  gtk_widget_activate_action (page, "order.mark", "(sb)", "18", TRUE);
  gtk_test_widget_wait_for_draw (demo.window);
  g_assert_nonnull (see_step (list, "18", &after));
  g_assert_cmpfloat_with_epsilon (after, before, 1);
  let_settle (&demo);
  g_assert_nonnull (see_step (list, "18", &after));
  g_assert_cmpfloat_with_epsilon (after, before, 1);
  demo_close (&demo);
}

static void
go_and_come_back (Demo       *demo,
                  const char *marked)          /* a step that is sewn meanwhile; NULL none */
{
  gtk_root_set_focus (GTK_ROOT (demo->window), NULL);
  gtk_widget_activate_action (demo->window, "win.page", "s", "machines");
  let_settle (demo);
  if (marked != NULL)
    g_assert_true (hw_workspace_mark_done (demo->workspace, marked, TRUE));
  gtk_widget_activate_action (demo->window, "win.page", "s", "order");
  let_settle (demo);
}

/* As it was left; but what comes next, where that is another step than then. */
static void
test_back_to_order (void)
{
  Demo demo = { 0 };
  GtkWidget *list, *head, *step;
  GtkAdjustment *adjustment;
  double left_at;

  open_order (&demo, &list);
  adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (list));
  g_assert_cmpstr (hw_workspace_peek_selected (demo.workspace), ==, "1");
  gtk_adjustment_set_value (adjustment, 400);
  let_settle (&demo);
  left_at = gtk_adjustment_get_value (adjustment);
  go_and_come_back (&demo, NULL);
  g_assert_cmpfloat_with_epsilon (gtk_adjustment_get_value (adjustment), left_at, 1);
  g_assert_cmpstr (hw_workspace_peek_selected (demo.workspace), ==, "1");

  go_and_come_back (&demo, "24");              /* out of its turn: what comes next is the same */
  g_assert_cmpstr (hw_workspace_peek_selected (demo.workspace), ==, "1");
  gtk_adjustment_set_value (adjustment, 400);
  let_settle (&demo);
  go_and_come_back (&demo, "1");
  g_assert_cmpstr (hw_workspace_peek_selected (demo.workspace), ==, "2");
  find_rows (list, &head, &step);
  assert_inside (step, list);
  assert_inside (head, list);
  demo_close (&demo);
}

/* ---- a message ---- */

static double
place_of (GtkWidget *widget,
          GtkWidget *window)
{
  double y = 0;

  g_assert_true (gtk_widget_translate_coordinates (widget, window, 0, 0, NULL, &y));
  return y;
}

/* It comes below the page: what is above stays, and what is worked at is not covered. */
static void
test_message_moves_nothing (void)
{
  Demo demo = { 0 };
  GtkWidget *cards, *list, *field, *stack, *undo;
  double cards_at, list_at;

  open_demo (&demo);
  gtk_window_set_default_size (GTK_WINDOW (demo.window), 900, 600);
  let_settle (&demo);
  stack = GTK_WIDGET (walk_stack (demo.window, "making-up"));
  g_assert_true (walk_shows (demo.window, "Example project: its entries are examples, to look around in"));
  cards = walk_need (demo.window, GTK_TYPE_BUTTON, "Add a fabric");
  list = walk_need (demo.window, GTK_TYPE_COLUMN_VIEW, "Steps of the making up");
  cards_at = place_of (cards, demo.window);
  list_at = place_of (list, demo.window);
  hw_workspace_tell_undoable (demo.workspace, "Something was done");
  let_settle (&demo);
  g_assert_cmpfloat_with_epsilon (place_of (cards, demo.window), cards_at, 0.5);
  g_assert_cmpfloat_with_epsilon (place_of (list, demo.window), list_at, 0.5);
  undo = walk_need (demo.window, GTK_TYPE_BUTTON, "Undo what the message tells of");
  g_assert_cmpfloat (place_of (undo, demo.window), >,
                     place_of (stack, demo.window) + gtk_widget_get_height (stack) - 1);

  gtk_widget_activate_action (demo.window, "win.hide-message", NULL);
  gtk_widget_activate_action (gtk_stack_get_visible_child (GTK_STACK (stack)), "making-up.add-step", NULL);
  let_settle (&demo);
  field = gtk_root_get_focus (GTK_ROOT (demo.window));
  g_assert_nonnull (gtk_widget_get_ancestor (field, GTK_TYPE_ENTRY));
  hw_workspace_tell_undoable (demo.workspace, "Something was done");
  let_settle (&demo);
  g_assert_true (gtk_root_get_focus (GTK_ROOT (demo.window)) == field);
  assert_inside (field, stack);
  demo_close (&demo);
}

/* F6 goes to its first button; hidden, it gives the focus back to the page. */
static void
test_message_by_keys (void)
{
  Demo demo = { 0 };
  GtkWidget *hide, *page;

  open_demo (&demo);
  gtk_widget_activate_action (demo.window, "win.page", "s", "order");
  let_settle (&demo);
  hw_workspace_tell (demo.workspace, "Something was done", FALSE);
  let_settle (&demo);
  hide = walk_need (demo.window, GTK_TYPE_BUTTON, "Hide the message");
  gtk_widget_activate_action (demo.window, "win.focus-message", NULL);
  g_assert_true (gtk_root_get_focus (GTK_ROOT (demo.window)) == hide);
  gtk_widget_activate_action (demo.window, "win.hide-message", NULL);
  scene_settle ();
  page = gtk_stack_get_visible_child (walk_stack (demo.window, "order"));
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (demo.window)), page));
  demo_close (&demo);
}

/* In the side panel of their page. */
static void
test_forms (void)
{
  static const struct { const char *page, *action; } forms[] = {
    { "making-up", "making-up.choose-all" }, { "making-up", "making-up.add-operation" },
    { "making-up", "making-up.add-hand-step" }, { "making-up", "making-up.add-fabric" },
    { "making-up", "making-up.add-thread" }, { "making-up", "making-up.edit-project" },
    { "needles", "needles.add" }, { "thread", "thread.add" }, { "fabrics", "fabrics.add" },
  };
  Demo demo = { 0 };
  g_autoptr (GString) faults = g_string_new (NULL);

  open_demo (&demo);
  for (gsize i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      GtkWidget *page;

      gtk_widget_activate_action (demo.window, "win.page", "s", forms[i].page);
      scene_settle ();
      page = gtk_stack_get_visible_child (walk_stack (demo.window, forms[i].page));
      g_assert_true (gtk_widget_activate_action (page, forms[i].action, NULL));
      scene_settle ();
      g_assert_nonnull (walk_find (page, HW_TYPE_FORM, NULL));
      check_page (&demo, forms[i].action, faults);
    }
  judge (&demo, faults);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/focus/pages", test_pages);
  g_test_add_func ("/focus/bars", test_bars);
  g_test_add_func ("/focus/first", test_first);
  g_test_add_func ("/focus/forms", test_forms);
  g_test_add_func ("/focus/head-in-sight", test_head_in_sight);
  g_test_add_func ("/focus/long-block-in-sight", test_long_block_in_sight);
  g_test_add_func ("/focus/open-again-in-sight", test_open_again_in_sight);
  g_test_add_func ("/focus/order-ends", test_order_ends);
  g_test_add_func ("/focus/back-to-order", test_back_to_order);
  g_test_add_func ("/focus/marked-stays", test_marked_stays);
  g_test_add_func ("/focus/marked-in-place", test_marked_in_place);
  g_test_add_func ("/focus/message-moves-nothing", test_message_moves_nothing);
  g_test_add_func ("/focus/message-by-keys", test_message_by_keys);
  return g_test_run ();
}
