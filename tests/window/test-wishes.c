/* test-wishes.c - wishes on the page Order of work: actions, what they cost, their chain, forgetting and undoing
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <gtk/gtk.h>
#include <string.h>

#include "desk.h"
#include "walk.h"
#include "window/form.h"
#include "window/order-page.h"
#include "window/order-wish.h"
#include "window/wish-list.h"

static void
open_order (Desk *self)
{
  desk_open (self);
  desk_open_page (self, "order");
  g_assert_true (HW_IS_ORDER_PAGE (self->page));
}

static void
act (Desk       *self,
     const char *number,
     const char *action)
{
  hw_workspace_select (self->scene.workspace, number);
  scene_settle ();
  g_assert_true (gtk_widget_activate_action (self->page, action, NULL));
  scene_settle ();
}

static void
put_before (Desk       *self,
            const char *first,
            const char *second)
{
  g_assert_true (gtk_widget_activate_action (self->page, "order.before", "(sss)", first, second, first));
  scene_settle ();
}

/* "before 4 1; first 4" */
static char *
describe_wishes (const HwProject *project)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < project->wishes->len; i++)
    {
      const HwWish    *wish = g_ptr_array_index (project->wishes, i);
      g_autofree char *steps = g_strjoinv (" ", wish->steps);

      g_string_append_printf (text, "%s%s %s", i > 0 ? "; " : "", hw_wish_kind_ids[wish->kind], steps);
    }
  return g_string_free (text, FALSE);
}

/* In the open project and in its file. */
static void
assert_wishes (Desk       *self,
               const char *expected)
{
  g_autofree char      *open = describe_wishes (hw_workspace_peek_project (self->scene.workspace));
  g_autoptr (HwProject) saved = scene_read_file (&self->scene);
  g_autofree char      *file = describe_wishes (saved);

  g_assert_cmpstr (open, ==, expected);
  g_assert_cmpstr (file, ==, expected);
}

static gsize
place (Desk       *self,
       const char *number)
{
  const HwPlan *plan = hw_workspace_peek_plan (self->scene.workspace);

  return (gsize) (hw_plan_find_step (plan, number) - &g_array_index (plan->order, HwPlanStep, 0));
}

static gboolean
tells_cost (gpointer data)
{
  const char *message = hw_window_peek_message (data);

  return message != NULL && strstr (message, "more changing") != NULL;
}

static void
wait_for_cost (Desk       *self,
               const char *wish)
{
  scene_wait (tells_cost, self->window);
  g_assert_true (g_str_has_prefix (hw_window_peek_message (self->window), wish));
}

/* The text of the first visible label that holds @part. */
static const char *
walk_containing (GtkWidget  *root,
                 const char *part)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root)
      && strstr (gtk_label_get_text (GTK_LABEL (root)), part) != NULL)
    return gtk_label_get_text (GTK_LABEL (root));
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      const char *found = walk_containing (child, part);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* A step put before another: told with its cost and Undo, listed with the same cost, undone by the message's button. */
static void
test_before (void)
{
  Desk       desk;
  GtkWidget *undo;

  open_order (&desk);
  put_before (&desk, "4", "1");
  assert_wishes (&desk, "before 4 1");
  g_assert_cmpuint (place (&desk, "4"), <, place (&desk, "1"));
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "4");
  wait_for_cost (&desk, "4 before 1: ");
  g_assert_true (walk_shows (desk.page, "4 before 1"));
  walk_need (desk.page, GTK_TYPE_BUTTON, "Forget the wish: 4 before 1");

  undo = walk_need (desk.root, GTK_TYPE_BUTTON, "Undo what the message tells of");
  g_assert_true (walk_visible (undo, desk.root));
  g_signal_emit_by_name (undo, "clicked");
  scene_settle ();
  assert_wishes (&desk, "");
  g_assert_null (hw_window_peek_message (desk.window));
  g_assert_null (walk_find (desk.page, GTK_TYPE_BUTTON, "Forget the wish: 4 before 1"));
  desk_close (&desk);
}

/* The chain is told and nothing changes. */
static void
test_chain (void)
{
  Desk        desk;
  const char *message;

  open_order (&desk);
  put_before (&desk, "3", "1");
  message = hw_window_peek_message (desk.window);
  g_assert_cmpstr (message, ==, "3 before 1 cannot be: 3 after 2 after 1");
  assert_wishes (&desk, "");
  g_assert_null (hw_history_undo_label (hw_workspace_get_history (desk.scene.workspace)));
  g_assert_false (walk_visible (walk_need (desk.root, GTK_TYPE_BUTTON,
                                           "Undo what the message tells of"), desk.root));
  desk_close (&desk);
}

/* By menu and keys, on the chosen step; the choice stays. */
static void
test_chosen_step (void)
{
  Desk desk;

  open_order (&desk);
  act (&desk, "4", "order.first");
  assert_wishes (&desk, "first 4");
  g_assert_cmpuint (place (&desk, "4"), ==, 0);
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "4");
  wait_for_cost (&desk, "4 first: ");

  act (&desk, "4", "order.last");
  assert_wishes (&desk, "last 4");
  g_assert_cmpuint (place (&desk, "4"), ==, 3);
  g_assert_cmpstr (hw_workspace_peek_selected (desk.scene.workspace), ==, "4");

  act (&desk, "4", "order.forget");
  assert_wishes (&desk, "");
  act (&desk, "2", "order.keep");
  {
    g_autofree char *wishes = describe_wishes (hw_workspace_peek_project (desk.scene.workspace));

    g_assert_true (g_str_has_prefix (wishes, "together 2 "));
  }
  act (&desk, "2", "order.forget");
  act (&desk, "4", "order.last");
  act (&desk, "4", "order.forget");
  assert_wishes (&desk, "");
  desk_close (&desk);
}

/* Alt+Up and Alt+Down do these: before the step above, after the one below. */
static void
test_by_keys (void)
{
  Desk desk;

  open_order (&desk);
  act (&desk, "4", "order.first");
  act (&desk, "4", "order.earlier");
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "This is the first step still to do.");
  assert_wishes (&desk, "first 4");
  act (&desk, "4", "order.later");               /* step 1 is next, whatever the set-ups: 2 and 3 come after it */
  assert_wishes (&desk, "first 4; before 1 4");
  g_assert_cmpuint (place (&desk, "1"), ==, 0);
  g_assert_cmpuint (place (&desk, "4"), ==, 1);
  act (&desk, "4", "order.earlier");             /* the newer wish takes the place of its opposite */
  assert_wishes (&desk, "first 4; before 4 1");
  act (&desk, "4", "order.forget");
  assert_wishes (&desk, "");
  desk_close (&desk);
}

/* Each wish of the list has its own button; several costs are reckoned, and stay right when one goes. */
static void
test_list (void)
{
  Desk       desk;
  GtkWidget *forget;

  open_order (&desk);
  put_before (&desk, "4", "1");
  put_before (&desk, "4", "3");
  wait_for_cost (&desk, "4 before 3: ");
  forget = walk_need (desk.page, GTK_TYPE_BUTTON, "Forget the wish: 4 before 1");
  g_signal_emit_by_name (forget, "clicked");
  scene_settle ();
  assert_wishes (&desk, "before 4 3");
  walk_need (desk.page, GTK_TYPE_BUTTON, "Forget the wish: 4 before 3");
  gtk_widget_activate_action (desk.root, "win.undo", NULL);
  scene_settle ();
  assert_wishes (&desk, "before 4 1; before 4 3");
  desk_close (&desk);
}

/* What is sewn has its place. */
static void
test_done (void)
{
  Desk desk;

  open_order (&desk);
  g_assert_true (hw_workspace_mark_done (desk.scene.workspace, "1", TRUE));
  scene_settle ();
  put_before (&desk, "4", "1");
  g_assert_cmpstr (hw_window_peek_message (desk.window), ==, "Step 1 is done already; its place is settled.");
  assert_wishes (&desk, "");
  desk_close (&desk);
}

static void
test_gather (void)
{
  Desk       desk;
  GtkWidget *gather;

  open_order (&desk);
  gather = walk_need (desk.page, GTK_TYPE_CHECK_BUTTON, "Gather pressing");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (gather), TRUE);
  scene_settle ();
  {
    g_autoptr (HwProject) saved = scene_read_file (&desk.scene);

    g_assert_true (saved->gather_hand);
  }
  gtk_widget_activate_action (desk.root, "win.undo", NULL);
  scene_settle ();
  g_assert_false (gtk_check_button_get_active (GTK_CHECK_BUTTON (gather)));
  g_assert_false (hw_workspace_peek_project (desk.scene.workspace)->gather_hand);
  desk_close (&desk);
}

/* A step's "after" that would run in a circle is refused with the steps that form it, and so is one that a wish
 * forbids. */
static void
test_after_refused (void)
{
  static const struct { const char *after; const char *says; } cases[] = {
    { "3", "1 → 2 → 3 → 1" }, { "4", "1 after 4" },
  };
  Desk desk;

  open_order (&desk);
  put_before (&desk, "1", "4");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GtkWidget  *form;
      const char *told;

      hw_workspace_select (desk.scene.workspace, "1");
      g_assert_true (gtk_widget_activate_action (desk.root, "win.edit-step", NULL));
      scene_settle ();
      form = walk_need (desk.root, HW_TYPE_FORM, NULL);
      gtk_editable_set_text (GTK_EDITABLE (walk_need (form, GTK_TYPE_ENTRY, "Comes after steps")), cases[i].after);
      g_assert_true (gtk_widget_activate_action (form, "form.save", NULL));
      scene_settle ();
      told = walk_containing (desk.root, cases[i].says);
      g_assert_nonnull (told);
      g_assert_null (scene_step (&desk.scene, "1")->after[0]);
      assert_wishes (&desk, "before 1 4");
      g_assert_true (gtk_widget_activate_action (form, "form.cancel", NULL));
      scene_settle ();
    }
  desk_close (&desk);
}

/* The window may go while a cost is being reckoned. */
static void
test_closed_meanwhile (void)
{
  Desk desk;

  open_order (&desk);
  put_before (&desk, "4", "1");
  desk_close (&desk);
}

/* ---- what a drop would cost ---- */

/* The row in which a step's name stands. */
static GtkWidget *
find_row (GtkWidget  *root,
          const char *name)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root)
      && g_str_equal (gtk_label_get_text (GTK_LABEL (root)), name))
    return gtk_widget_get_parent (root);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_row (child, name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static gboolean
shows_minutes (gpointer row)
{
  return walk_containing (row, "more changing") != NULL;
}

/* While it hangs there: the minutes, found off the main thread, or at once the chain that forbids it. */
static void
test_hover (void)
{
  Desk desk = { 0 };
  GtkWidget *list;
  GtkWidget *press;
  GtkWidget *hem;

  open_order (&desk);
  gtk_test_widget_wait_for_draw (desk.root);
  list = walk_need (desk.page, GTK_TYPE_LIST_VIEW, "Order of work");
  press = find_row (list, "Press the pocket");
  hem = find_row (list, "Hem the pocket");
  g_assert_true (press != NULL && hem != NULL);

  hw_order_wish_hover (press, "4", TRUE);
  scene_wait (shows_minutes, press);
  hw_order_wish_hover (hem, "2", TRUE);
  g_assert_nonnull (walk_containing (hem, "2 before 1 cannot be"));
  g_assert_false (shows_minutes (press));        /* only where it hangs */
  assert_wishes (&desk, "");                     /* and nothing is wished by it */

  hw_order_wish_hover (press, "4", FALSE);       /* a page that goes meanwhile */
  desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);

  g_test_add_func ("/wishes/hover", test_hover);
  g_test_add_func ("/wishes/before", test_before);
  g_test_add_func ("/wishes/chain", test_chain);
  g_test_add_func ("/wishes/chosen-step", test_chosen_step);
  g_test_add_func ("/wishes/by-keys", test_by_keys);
  g_test_add_func ("/wishes/list", test_list);
  g_test_add_func ("/wishes/done", test_done);
  g_test_add_func ("/wishes/gather", test_gather);
  g_test_add_func ("/wishes/after-refused", test_after_refused);
  g_test_add_func ("/wishes/closed-meanwhile", test_closed_meanwhile);
  return g_test_run ();
}
