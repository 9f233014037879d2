/* window.c - the one window: sidebar, header, strip and pages
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Buttons, menu, keys and tests all go through the actions installed here. Widths are compared in em: with large text
 * the sidebar gives way sooner.
 */

#include "config.h"

#include "window/window.h"

#include <glib/gi18n.h>

#include "window/cards-page.h"
#include "window/choosers.h"
#include "window/controls.h"
#include "window/copies-bar.h"
#include "window/faults-page.h"
#include "window/find-drawer.h"
#include "window/furnish.h"
#include "window/guide-page.h"
#include "window/handbook-page.h"
#include "window/notions-page.h"
#include "window/opening.h"
#include "window/order-page.h"
#include "window/pages.h"
#include "window/share.h"
#include "window/sidebar.h"
#include "window/sign.h"
#include "window/stitch-mark.h"
#include "window/strip.h"
#include "window/theme.h"
#include "window/welcome.h"
#include "window/window-state.h"
#include "window/work-bar.h"
#include "window/wrap.h"

#define ROOMY_EM 76.0                   /* sidebar and a page side by side */
#define WELCOME "welcome"
#define UNDO_OFFERED_FOR (30 * G_USEC_PER_SEC)  /* though another page is shown meanwhile */
#define PLAIN_FOR 12                            /* seconds: a long line is read twice in it */
#define LOADED_TWICE G_USEC_PER_SEC     /* as long as two presses may be a double one */

struct _HwWindow
{
  GtkApplicationWindow parent_instance;
  HwWorkspace *workspace;
  HwSidebar   *sidebar;
  HwStrip     *strip;
  HwCopiesBar *copies_bar;
  GtkStack    *stack;
  HwFindDrawer *find;            /* NULL until something is looked for */
  GtkBox      *page_buttons;
  GtkMenuButton *menu_button;
  GMenuModel  *main_menu;
  GtkLabel    *title_label, *message_label;
  HwProject   *project;          /* what was shown last, to know a change by the person from one of the plan alone */
  HwRoom      *room;
  HwOpening   *opening;          /* a large project, under way; NULL */
  char        *step_wanted;      /* to be chosen when it is open; NULL */
  gboolean     opening_again;    /* it was open when the window was left */
  GtkWidget   *message_bar, *correct_button, *undo_entry_button, *message_undo;
  gint64       told_at;                 /* the message: monotonic time */
  guint        pass_id, pass_seconds;   /* after which a message with nothing to do about it goes by itself */
  guint        fresh_id;                /* until the window has had time to show it; 0: it has */
  GtkWidget   *sidebar_button, *undo_button, *print_button;
  char        *page;
  char        *project_page;     /* of the project's own pages the one shown last; NULL none */
  gint64       loaded_at;        /* monotonic: a needle was noted as loaded by the button; 0 never */
  gboolean     show_sidebar;
  gboolean     compact;
  gboolean     warned_unsaved;
  guint        resize_id;
  int          width;
};

enum { PROP_0, PROP_PAGE, PROP_SHOW_SIDEBAR, N_PROPS };

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HwWindow, hw_window, GTK_TYPE_APPLICATION_WINDOW)

typedef struct
{
  const char *name;
  const char *title;             /* of the page button; NULL: not a page of the project */
  GtkWidget *(* make) (HwWorkspace *workspace);
  const char *window_title;      /* while it is shown; NULL: the project's */
} Page;

static const Page pages[] = {
  { "making-up", N_("Making up"), hw_making_up_page_new, NULL },
  { "order", N_("Order of work"), hw_order_page_new, NULL },
  { "cards", N_("Setup cards"), hw_cards_page_new, NULL },
  { "notions", N_("Notions"), hw_notions_page_new, NULL },
  { "queue", NULL, hw_queue_page_new, N_("What to sew next – Sewing room") },
  { "machines", NULL, hw_machines_page_new, N_("Machines – Sewing room") },
  { "faults", NULL, hw_faults_page_new, N_("Stitch faults – Sewing room") },
  { "finish", NULL, hw_finish_page_new, N_("Finish for today – Sewing room") },
  { "preferences", NULL, hw_preferences_page_new, N_("Preferences") },
  { "needles", NULL, hw_needles_page_new, N_("Needles – Sewing room") },
  { "thread", NULL, hw_thread_page_new, N_("Thread – Sewing room") },
  { "fabrics", NULL, hw_fabrics_page_new, N_("Fabrics – Sewing room") },
  { "journal", NULL, hw_journal_page_new, N_("Journal – Sewing room") },
  { "handbook", NULL, hw_handbook_page_new, N_("Handbook") },
  { "garment", NULL, hw_garment_page_new, N_("Garments") },
  { "guide", NULL, hw_guide_page_new, N_("Guide") },
  { "versions", NULL, hw_versions_page_new, NULL },
};

static const Page *
find_page (const char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (pages[i].name, name) == 0)
      return &pages[i];
  return NULL;
}

/* ---- what is shown ---- */

static gboolean
has_focus_in (HwWindow  *self,
              GtkWidget *page)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (self));

  return focus != NULL && page != NULL && gtk_widget_is_ancestor (focus, page);
}

/* A page may know best where a person goes on; else it is its first control. */
static void
focus_page (HwWindow *self)
{
  GtkWidget *page = gtk_stack_get_visible_child (self->stack);

  if (GTK_IS_SCROLLED_WINDOW (page))
    page = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (page));  /* it would take the focus for itself */
  if (!gtk_widget_grab_focus (page) && !has_focus_in (self, page))
    gtk_widget_child_focus (page, GTK_DIR_TAB_FORWARD);
}

static void
hide_message (HwWindow *self)
{
  gboolean had_focus = has_focus_in (self, self->message_bar);

  g_clear_handle_id (&self->pass_id, g_source_remove);
  gtk_widget_set_visible (self->message_bar, FALSE);
  gtk_label_set_text (self->message_label, "");
  if (had_focus)
    focus_page (self);
}

static gboolean
is_undoable (HwWindow *self)
{
  return gtk_widget_get_visible (self->correct_button) || gtk_widget_get_visible (self->undo_entry_button)
         || gtk_widget_get_visible (self->message_undo);
}

/* Not while it is gone to, with F6 or Tab: then it goes a while after that. */
static gboolean
pass_by_itself_cb (gpointer data)
{
  HwWindow *self = data;

  if (has_focus_in (self, self->message_bar))
    return G_SOURCE_CONTINUE;
  self->pass_id = 0;
  hide_message (self);
  return G_SOURCE_REMOVE;
}

/* An error stays until it is put away, and what can be undone for a fair time. */
static void
pass_later (HwWindow *self)
{
  g_clear_handle_id (&self->pass_id, g_source_remove);
  if (!gtk_widget_has_css_class (self->message_bar, "error") && !is_undoable (self))
    self->pass_id = g_timeout_add_seconds (self->pass_seconds, pass_by_itself_cb, self);
}

/* What was told of another page is past. An error stays, and what can be undone for a fair time. A message that came
 * together with the page, in one act, is about to be read. */
static void
pass_message (HwWindow *self)
{
  if (!gtk_widget_get_visible (self->message_bar) || self->fresh_id != 0
      || gtk_widget_has_css_class (self->message_bar, "error")
      || (is_undoable (self) && g_get_monotonic_time () - self->told_at < UNDO_OFFERED_FOR))
    return;
  hide_message (self);
}

/* The last of several files stays open, as when the program is started with them. */
static gboolean
drop_cb (HwWindow     *self,
         const GValue *value)
{
  gboolean opened = FALSE;

  for (GSList *files = g_value_get_boxed (value); files != NULL; files = files->next)
    opened = hw_window_open_file (self, files->data);
  return opened;
}

static void
accept_files (HwWindow *self)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  g_signal_connect_swapped (target, "drop", G_CALLBACK (drop_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

/* Pages are made when they are first wanted: most starts show one of them. */
static GtkWidget *
get_page (HwWindow   *self,
          const Page *page)
{
  GtkWidget *widget = gtk_stack_get_child_by_name (self->stack, page->name);

  if (widget != NULL)
    return widget;
  widget = page->make (self->workspace);
  gtk_stack_add_titled (self->stack, widget, page->name, page->title != NULL ? _(page->title) : _("Sewing room"));
  return widget;
}

static void
show_welcome (HwWindow *self)
{
  g_autoptr (GtkWidget) welcome = NULL;

  if (gtk_stack_get_child_by_name (self->stack, WELCOME) == NULL)
    {
      welcome = hw_welcome_new ();
      gtk_stack_add_titled (self->stack, welcome, WELCOME, _("Beginning"));
    }
  gtk_stack_set_visible_child_name (self->stack, WELCOME);
}

static void
show_stack (HwWindow *self)
{
  const Page *page = find_page (self->page);
  gboolean    room_page = page->title == NULL;
  gboolean    open = hw_workspace_peek_project (self->workspace) != NULL;

  if (open || room_page)
    gtk_stack_set_visible_child (self->stack, get_page (self, page));
  else
    show_welcome (self);
  gtk_widget_set_sensitive (GTK_WIDGET (self->page_buttons), open);
}

static void
refresh_actions (HwWindow *self)
{
  HwHistory       *history = hw_workspace_get_history (self->workspace);
  const HwPlan    *plan = hw_workspace_peek_plan (self->workspace);
  const char      *undo = history != NULL ? hw_history_undo_label (history) : NULL;
  const char      *redo = history != NULL ? hw_history_redo_label (history) : NULL;
  /* Translators: what would be undone, such as “add a step” */
  g_autofree char *tip = undo != NULL ? g_strdup_printf (_("Undo: %s (Ctrl+Z)"), undo) : NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.undo", undo != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.redo", redo != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.edit-project", history != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.print", plan != NULL && plan->groups->len > 0);
  hw_control_tell (self->undo_button, tip != NULL ? tip : _("Nothing to undo"));
}

static void
refresh_title (HwWindow *self)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  const char      *shown = find_page (self->page)->window_title;
  const char      *what = shown != NULL ? _(shown) : project != NULL ? project->title : NULL;
  /* Translators: the project's title, or the page that is shown, as the window's title */
  g_autofree char *title = what != NULL ? g_strdup_printf (_("%s – Handwheel"), what) : g_strdup (_("Handwheel"));

  gtk_window_set_title (GTK_WINDOW (self), title);
  gtk_label_set_text (self->title_label, what != NULL ? what : _("No project is open"));
  hw_control_tell (GTK_WIDGET (self->title_label), what);
}

/* FALSE when only the plan is another: a proof that comes in later is nothing the person did. */
static gboolean
take_change (HwWindow *self)
{
  HwProject *project = (HwProject *) hw_workspace_peek_project (self->workspace);
  HwRoom    *room = (HwRoom *) hw_workspace_get_room (self->workspace);

  if (project == self->project && room == self->room)
    return FALSE;
  g_clear_pointer (&self->project, hw_project_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  self->project = project != NULL ? hw_project_ref (project) : NULL;
  self->room = hw_room_ref (room);
  return TRUE;
}

static void
changed_cb (HwWindow *self)
{
  const GError *error = hw_workspace_peek_plan_error (self->workspace);

  if (take_change (self) && hw_workspace_is_saved (self->workspace))
    {
      hide_message (self);              /* what it said is past; an unsaved change is not */
      self->warned_unsaved = FALSE;
    }
  refresh_title (self);
  refresh_actions (self);
  show_stack (self);
  if (error != NULL)
    hw_workspace_tell (self->workspace, error->message, TRUE);
}

/* The bar takes its room from the page's foot: what is worked at there is moved into sight, else nothing moves. */
static void
keep_focus_in_sight (GtkWidget *window)
{
  HwWindow  *self = HW_WINDOW (window);
  GtkWidget *page = gtk_stack_get_visible_child (self->stack);

  if (has_focus_in (self, page))
    hw_bring_into_sight (gtk_root_get_focus (GTK_ROOT (window)));
}

static gboolean
message_shown_cb (gpointer data)
{
  HwWindow *self = data;

  self->fresh_id = 0;
  return G_SOURCE_REMOVE;
}

static void
message_cb (HwWindow   *self,
            const char *text,
            gboolean    is_error)
{
  gboolean    comes = !gtk_widget_get_visible (self->message_bar);
  const char *action = NULL;
  const char *back = hw_workspace_peek_way_back (self->workspace, &action);

  gtk_label_set_text (self->message_label, text);
  if (is_error)
    gtk_widget_add_css_class (self->message_bar, "error");
  else
    gtk_widget_remove_css_class (self->message_bar, "error");
  gtk_widget_set_visible (self->correct_button, hw_workspace_peek_sewing_told (self->workspace) != NULL);
  gtk_widget_set_visible (self->undo_entry_button, hw_workspace_offers_undo (self->workspace));
  gtk_widget_set_visible (self->message_undo, hw_workspace_is_telling_undoable (self->workspace) || back != NULL);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->message_undo), back != NULL ? "win.way-back" : "win.undo");
  gtk_widget_set_visible (self->message_bar, TRUE);
  self->told_at = g_get_monotonic_time ();
  pass_later (self);
  if (self->fresh_id == 0)
    self->fresh_id = g_idle_add_full (G_PRIORITY_LOW, message_shown_cb, self, NULL);
  if (comes)
    hw_when_placed (GTK_WIDGET (self), keep_focus_in_sight);
}

/* ---- width ---- */

static void
set_show_sidebar (HwWindow *self,
                  gboolean  show)
{
  if (self->show_sidebar == show)
    return;
  self->show_sidebar = show;
  gtk_widget_set_visible (GTK_WIDGET (self->sidebar), show);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SHOW_SIDEBAR]);
}

static gboolean
resized_cb (gpointer data)
{
  HwWindow *self = data;
  gboolean  compact = self->width < ROOMY_EM * hw_theme_em (GTK_WIDGET (self));

  self->resize_id = 0;
  if (compact == self->compact)
    return G_SOURCE_REMOVE;
  self->compact = compact;
  gtk_widget_set_visible (self->sidebar_button, compact);
  gtk_widget_set_visible (self->print_button, !compact);        /* it is in the menu and on the cards' page */
  gtk_box_set_spacing (self->page_buttons, compact ? 4 : 14);
  set_show_sidebar (self, !compact);
  return G_SOURCE_REMOVE;
}

/* A widget must not come or go while sizes are being given out. */
static void
layout_cb (HwWindow *self,
           int       width)
{
  self->width = width;
  if (self->resize_id == 0)
    self->resize_id = g_idle_add_full (G_PRIORITY_HIGH_IDLE, resized_cb, self, NULL);
}

static void
hw_window_realize (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (hw_window_parent_class)->realize (widget);
  if (!gdk_display_is_composited (gtk_widget_get_display (widget)))
    gtk_widget_add_css_class (widget, "opaque");         /* a round corner would be black outside */
  g_signal_connect_object (gtk_native_get_surface (GTK_NATIVE (widget)), "layout", G_CALLBACK (layout_cb), widget,
                           G_CONNECT_SWAPPED);
}

/* ---- actions ---- */

static void
undo_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  hw_workspace_undo (HW_WINDOW (widget)->workspace);
}

static void
redo_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  hw_workspace_redo (HW_WINDOW (widget)->workspace);
}

static void
new_project_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *parameter)
{
  set_show_sidebar (HW_WINDOW (widget), TRUE);
  hw_sidebar_ask_title (HW_WINDOW (widget)->sidebar);
}

static void
focus_page_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  HwWindow *self = HW_WINDOW (widget);

  if (self->compact)
    set_show_sidebar (self, FALSE);
  focus_page (self);
}

static void
file_chosen_cb (const char *path,
                gpointer    data)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);

  hw_window_open_file (HW_WINDOW (data), file);
}

static void
open_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  hw_choose_file_to_open (GTK_WINDOW (widget), _("Open a project"), file_chosen_cb, g_object_ref (widget),
                          g_object_unref);
}

static void
open_path_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *parameter)
{
  HwWindow         *self = HW_WINDOW (widget);
  const char       *path = g_variant_get_string (parameter, NULL);
  g_autoptr (GFile) file = NULL;

  if (g_strcmp0 (path, hw_workspace_peek_path (self->workspace)) == 0)
    {
      hw_window_show_page (self, self->project_page != NULL ? self->project_page : pages[0].name);
      return;
    }
  file = g_file_new_for_path (path);
  hw_window_open_file (self, file);
}

static void
find_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwWindow *self = HW_WINDOW (widget);

  if (self->find == NULL)
    {
      self->find = HW_FIND_DRAWER (hw_find_drawer_new (self->workspace, GTK_WIDGET (self->stack)));
      gtk_overlay_add_overlay (GTK_OVERLAY (gtk_window_get_child (GTK_WINDOW (self))), GTK_WIDGET (self->find));
    }
  hw_find_drawer_open (self->find);
}

static gboolean open_project (HwWindow *self, const char *path, gboolean again, const char *step);

static void
show_step_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *parameter)
{
  HwWindow   *self = HW_WINDOW (widget);
  const char *path = NULL;
  const char *number = NULL;

  g_variant_get (parameter, "(&s&s)", &path, &number);
  if (g_strcmp0 (path, hw_workspace_peek_path (self->workspace)) != 0
      && (!open_project (self, path, FALSE, number) || self->opening != NULL))
    return;                              /* why it could not be opened is told; a large one is shown when it is there */
  if (!g_str_equal (self->page, "order"))
    hw_window_show_page (self, pages[0].name);
  hw_workspace_select (self->workspace, number);
}

/* An action of a page, wherever it was asked for. */
static void
on_page_action (GtkWidget  *widget,
                const char *name,
                GVariant   *parameter)
{
  HwWindow   *self = HW_WINDOW (widget);
  const char *page = NULL;
  const char *detailed = NULL;
  g_autofree char *action = NULL;
  g_autoptr (GVariant) target = NULL;

  g_variant_get (parameter, "(&s&s)", &page, &detailed);
  hw_window_show_page (self, page);
  if (g_action_parse_detailed_name (detailed, &action, &target, NULL))
    gtk_widget_activate_action_variant (get_page (self, find_page (page)), action, target);
}

/* After it the same button stands for the next needle: a second press at once is a double one, and means nothing. */
static void
loaded_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  HwWindow *self = HW_WINDOW (widget);
  gint64    now = g_get_monotonic_time ();

  if (self->loaded_at != 0 && now - self->loaded_at < LOADED_TWICE)
    return;
  if (hw_workspace_load_next (self->workspace))
    self->loaded_at = now;
}

/* Keeps the selected step. */
static void
stitch_fault_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *parameter)
{
  HwWindow *self = HW_WINDOW (widget);

  hw_window_show_page (self, "faults");
  hw_faults_page_ask (HW_FAULTS_PAGE (gtk_stack_get_child_by_name (self->stack, "faults")));
}

static void
print_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  HwWindow          *self = HW_WINDOW (widget);
  g_autoptr (GError) error = NULL;

  if (!hw_cards_page_print (HW_CARDS_PAGE (get_page (self, find_page ("cards"))), NULL, &error))
    hw_workspace_tell (self->workspace, error->message, TRUE);
}

static void
export_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  hw_share_ask_export (GTK_WINDOW (widget), HW_WINDOW (widget)->workspace);
}

static void
copy_setup_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  hw_share_copy_setup (widget, HW_WINDOW (widget)->workspace);
}

/* Forms open on the making up, wherever they were asked for. */
static void
edit_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  HwWindow   *self = HW_WINDOW (widget);
  const char *action = g_str_equal (name, "win.edit-step") ? "making-up.edit-step" : "making-up.edit-project";

  hw_window_show_page (self, pages[0].name);
  gtk_widget_activate_action (get_page (self, &pages[0]), action, NULL);
}

static void
ask_garment (HwWindow *self,
             gboolean  here)
{
  hw_garment_page_ask (get_page (self, find_page ("garment")), here);
  hw_window_show_page (self, "garment");
  focus_page (self);
}

static void
new_garment_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *parameter)
{
  ask_garment (HW_WINDOW (widget), FALSE);
}

static void
garment_here_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *parameter)
{
  ask_garment (HW_WINDOW (widget), TRUE);
}

/* Wherever a page names something that the handbook has. */
static void
handbook_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *parameter)
{
  HwWindow        *self = HW_WINDOW (widget);
  g_autofree char *path = g_variant_dup_string (parameter, NULL);

  hw_window_show_page (self, "handbook");
  hw_handbook_page_show (HW_HANDBOOK_PAGE (gtk_stack_get_child_by_name (self->stack, "handbook")), path);
}

static void
undo_entry_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  hw_workspace_undo_entry (HW_WINDOW (widget)->workspace);
}

static void
way_back_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *parameter)
{
  HwWindow   *self = HW_WINDOW (widget);
  const char *action = NULL;
  const char *page = hw_workspace_peek_way_back (self->workspace, &action);

  if (page == NULL)
    return;
  hide_message (self);
  hw_window_show_page (self, page);
  gtk_widget_activate_action (get_page (self, find_page (page)), action, NULL);
}

static void
correct_entry_action (GtkWidget  *widget,
                      const char *name,
                      GVariant   *parameter)
{
  HwWindow        *self = HW_WINDOW (widget);
  g_autofree char *id = g_strdup (hw_workspace_peek_sewing_told (self->workspace));

  if (id == NULL)
    return;
  hw_window_show_page (self, "journal");
  gtk_widget_activate_action (get_page (self, find_page ("journal")), "journal.correct", "s", id);
}

static void
focus_message_action (GtkWidget  *widget,
                      const char *name,
                      GVariant   *parameter)
{
  HwWindow *self = HW_WINDOW (widget);

  if (!gtk_widget_get_visible (self->message_bar))
    return;
  for (GtkWidget *part = gtk_widget_get_first_child (self->message_bar); part != NULL;
       part = gtk_widget_get_next_sibling (part))
    if (GTK_IS_BUTTON (part) && gtk_widget_get_visible (part) && gtk_widget_grab_focus (part))
      return;
}

static void
hide_message_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *parameter)
{
  hide_message (HW_WINDOW (widget));
}

/* As "win.page", which as a choice among pages would stand in a menu with the mark of one. */
static void
go_action (GtkWidget  *widget,
           const char *name,
           GVariant   *parameter)
{
  hw_window_show_page (HW_WINDOW (widget), g_variant_get_string (parameter, NULL));
}

static void
preferences_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *parameter)
{
  hw_window_show_page (HW_WINDOW (widget), "preferences");
}

static void
keys_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  hw_show_keys (GTK_WINDOW (widget));
}

static void
about_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  gtk_show_about_dialog (GTK_WINDOW (widget),
                         "program-name", _("Handwheel"),
                         "version", HW_VERSION,
                         "logo-icon-name", "net.handwheel.Handwheel",
                         "license-type", GTK_LICENSE_GPL_3_0,
                         "comments",
                         _("Pairs fabrics and seams with machine set-ups, orders the work, prints setup cards "
                           "and keeps needles and machines in order. The machine’s own manual comes first."),
                         NULL);
}

static void
remember (HwWindow *self)
{
  HwWindowState state = { .page = self->page, .step = (char *) hw_workspace_peek_selected (self->workspace) };

  gtk_window_get_default_size (GTK_WINDOW (self), &state.width, &state.height);
  state.maximized = gtk_window_is_maximized (GTK_WINDOW (self));
  hw_window_state_keep (hw_workspace_get_room (self->workspace)->folder, &state);
}

/* Nothing is asked: what can be saved is saved. What cannot is told once; closing again leaves without it. */
static gboolean
hw_window_close_request (GtkWindow *window)
{
  HwWindow          *self = HW_WINDOW (window);
  g_autoptr (GError) error = NULL;
  g_autofree char   *text = NULL;

  if (self->warned_unsaved || hw_workspace_is_saved (self->workspace) || hw_workspace_save (self->workspace, &error))
    {
      remember (self);
      return GTK_WINDOW_CLASS (hw_window_parent_class)->close_request (window);
    }
  /* Translators: the system's reason */
  text = g_strdup_printf (_("The last change is not saved: %s. Close again to leave without it."), error->message);
  hw_workspace_tell (self->workspace, text, TRUE);
  self->warned_unsaved = TRUE;
  return TRUE;
}

/* ---- the object ---- */

static void
hw_window_set_property (GObject      *object,
                        guint         id,
                        const GValue *value,
                        GParamSpec   *pspec)
{
  switch (id)
    {
    case PROP_PAGE:
      hw_window_show_page (HW_WINDOW (object), g_value_get_string (value));
      break;
    case PROP_SHOW_SIDEBAR:
      set_show_sidebar (HW_WINDOW (object), g_value_get_boolean (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hw_window_get_property (GObject    *object,
                        guint       id,
                        GValue     *value,
                        GParamSpec *pspec)
{
  switch (id)
    {
    case PROP_PAGE:
      g_value_set_string (value, hw_window_get_page (HW_WINDOW (object)));
      break;
    case PROP_SHOW_SIDEBAR:
      g_value_set_boolean (value, HW_WINDOW (object)->show_sidebar);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hw_window_dispose (GObject *object)
{
  HwWindow *self = HW_WINDOW (object);

  g_clear_handle_id (&self->resize_id, g_source_remove);
  g_clear_handle_id (&self->fresh_id, g_source_remove);
  g_clear_handle_id (&self->pass_id, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (self), HW_TYPE_WINDOW);
  g_clear_pointer (&self->project, hw_project_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_object (&self->workspace);
  g_clear_pointer (&self->page, g_free);
  g_clear_pointer (&self->project_page, g_free);
  g_clear_pointer (&self->step_wanted, g_free);
  G_OBJECT_CLASS (hw_window_parent_class)->dispose (object);
}

static void
install_actions (GtkWidgetClass *class)
{
  gtk_widget_class_install_action (class, "win.undo", NULL, undo_action);
  gtk_widget_class_install_action (class, "win.redo", NULL, redo_action);
  gtk_widget_class_install_action (class, "win.new-project", NULL, new_project_action);
  gtk_widget_class_install_action (class, "win.new-garment", NULL, new_garment_action);
  gtk_widget_class_install_action (class, "win.garment-here", NULL, garment_here_action);
  gtk_widget_class_install_action (class, "win.focus-page", NULL, focus_page_action);
  gtk_widget_class_install_action (class, "win.open", NULL, open_action);
  gtk_widget_class_install_action (class, "win.open-path", "s", open_path_action);
  gtk_widget_class_install_action (class, "win.find", NULL, find_action);
  gtk_widget_class_install_action (class, "win.show-step", "(ss)", show_step_action);
  gtk_widget_class_install_action (class, "win.on-page", "(ss)", on_page_action);
  gtk_widget_class_install_action (class, "win.edit-project", NULL, edit_action);
  gtk_widget_class_install_action (class, "win.edit-step", NULL, edit_action);
  gtk_widget_class_install_action (class, "win.loaded", NULL, loaded_action);
  gtk_widget_class_install_action (class, "win.stitch-fault", NULL, stitch_fault_action);
  gtk_widget_class_install_action (class, "win.print", NULL, print_action);
  gtk_widget_class_install_action (class, "win.export", NULL, export_action);
  gtk_widget_class_install_action (class, "win.copy-set-up", NULL, copy_setup_action);
  gtk_widget_class_install_action (class, "win.handbook-entry", "s", handbook_action);
  gtk_widget_class_install_action (class, "win.hide-message", NULL, hide_message_action);
  gtk_widget_class_install_action (class, "win.focus-message", NULL, focus_message_action);
  gtk_widget_class_install_action (class, "win.undo-entry", NULL, undo_entry_action);
  gtk_widget_class_install_action (class, "win.way-back", NULL, way_back_action);
  gtk_widget_class_install_action (class, "win.correct-entry", NULL, correct_entry_action);
  gtk_widget_class_install_action (class, "win.preferences", NULL, preferences_action);
  gtk_widget_class_install_action (class, "win.keys", NULL, keys_action);
  gtk_widget_class_install_action (class, "win.about", NULL, about_action);
  gtk_widget_class_install_property_action (class, "win.page", "page");
  gtk_widget_class_install_action (class, "win.go", "s", go_action);
  gtk_widget_class_install_property_action (class, "win.sidebar", "show-sidebar");
}

static void
install_keys (GtkWidgetClass *class)
{
  gtk_widget_class_add_binding_action (class, GDK_KEY_z, GDK_CONTROL_MASK, "win.undo", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "win.redo", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_n, GDK_CONTROL_MASK, "win.new-project", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_n, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "win.new-garment", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_o, GDK_CONTROL_MASK, "win.open", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_k, GDK_CONTROL_MASK, "win.find", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_p, GDK_CONTROL_MASK, "win.print", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_t, GDK_CONTROL_MASK, "win.on-page", "(ss)", "order",
                                       "order.timer");
  gtk_widget_class_add_binding_action (class, GDK_KEY_comma, GDK_CONTROL_MASK, "win.preferences", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_F6, 0, "win.focus-message", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_F9, 0, "win.sidebar", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_F1, 0, "win.go", "s", "guide");
  gtk_widget_class_add_binding_action (class, GDK_KEY_question, GDK_CONTROL_MASK, "win.keys", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_question, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "win.keys", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
  gtk_widget_class_add_binding_action (class, GDK_KEY_q, GDK_CONTROL_MASK, "window.close", NULL);
  for (guint i = 0; i < 4; i++)
    gtk_widget_class_add_binding_action (class, GDK_KEY_1 + i, GDK_CONTROL_MASK, "win.page", "s", pages[i].name);
}

static void
hw_window_class_init (HwWindowClass *class)
{
  GObjectClass   *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  object_class->dispose = hw_window_dispose;
  object_class->set_property = hw_window_set_property;
  object_class->get_property = hw_window_get_property;
  widget_class->realize = hw_window_realize;
  GTK_WINDOW_CLASS (class)->close_request = hw_window_close_request;
  properties[PROP_PAGE] = g_param_spec_string ("page", NULL, NULL, "making-up",
                                               G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  properties[PROP_SHOW_SIDEBAR] = g_param_spec_boolean ("show-sidebar", NULL, NULL, TRUE,
                                                        G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY
                                                        | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (HW_TYPE_SIDEBAR);
  g_type_ensure (HW_TYPE_SIGN);
  g_type_ensure (HW_TYPE_COPIES_BAR);
  g_type_ensure (HW_TYPE_WORK_BAR);
  g_type_ensure (HW_TYPE_STRIP);
  g_type_ensure (HW_TYPE_WRAP);
  gtk_widget_class_set_template_from_resource (widget_class, "/net/handwheel/window.ui");
  gtk_widget_class_bind_template_child (widget_class, HwWindow, sidebar);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, copies_bar);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, strip);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, page_buttons);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, main_menu);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, title_label);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, message_label);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, message_bar);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, correct_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, undo_entry_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, message_undo);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, sidebar_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, print_button);
  install_actions (widget_class);
  install_keys (widget_class);
}

static void
add_page_button (HwWindow   *self,
                 const Page *page)
{
  GtkWidget *button = gtk_toggle_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *label = gtk_label_new (_(page->title));
  GtkWidget *mark = hw_stitch_mark_new (GTK_ORIENTATION_HORIZONTAL);

  gtk_widget_set_vexpand (label, TRUE);
  gtk_widget_set_margin_bottom (mark, 2);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), mark);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, _(page->title), -1);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", page->name);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.page");
  gtk_box_append (self->page_buttons, button);
}

static void
hw_window_init (HwWindow *self)
{
  hw_theme_attach (gtk_widget_get_display (GTK_WIDGET (self)));
  self->show_sidebar = TRUE;
  self->pass_seconds = PLAIN_FOR;
  self->page = g_strdup (pages[0].name);
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_wrap_spare (self->undo_button, 1); /* it is in the menu too */
  hw_wrap_spare (GTK_WIDGET (self->title_label), 2);    /* the window is called so, and the sidebar has it */
  hw_menu_button_set (self->menu_button, self->main_menu);
  accept_files (self);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    if (pages[i].title != NULL)
      add_page_button (self, &pages[i]);
}

GtkWidget *
hw_window_new (GtkApplication *application,
               HwWorkspace    *workspace)
{
  HwWindow *self;

  g_return_val_if_fail (HW_IS_WORKSPACE (workspace), NULL);

  self = g_object_new (HW_TYPE_WINDOW, "application", application, NULL);
  self->workspace = g_object_ref (workspace);
  g_signal_connect_object (workspace, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (workspace, "message", G_CALLBACK (message_cb), self, G_CONNECT_SWAPPED);
  hw_sidebar_set_workspace (self->sidebar, workspace);
  hw_sidebar_set_page (self->sidebar, self->page);
  hw_strip_set_workspace (self->strip, workspace);
  hw_copies_bar_set_workspace (self->copies_bar, workspace);
  changed_cb (self);
  return GTK_WIDGET (self);
}

/* Among the files that the desktop offers again. */
static void
note_recent (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);
  GtkRecentData    data = { .mime_type = (char *) "application/x-handwheel+xml",
                            .app_name = (char *) g_get_prgname (), .app_exec = (char *) "handwheel %f" };

  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

static void
show_opened (HwWindow *self)
{
  g_autoptr (GFile) file = g_file_new_for_path (hw_workspace_peek_path (self->workspace));

  note_recent (file);
  if (find_page (self->page)->title == NULL)
    hw_window_show_page (self, pages[0].name);
}

static void
opening_over_cb (GtkWidget *window,
                 gboolean   opened)
{
  HwWindow        *self = HW_WINDOW (window);
  g_autofree char *step = g_steal_pointer (&self->step_wanted);

  self->opening = NULL;
  if (!opened)
    return;
  if (self->opening_again)
    hw_window_restore_step (self);
  else
    show_opened (self);
  if (step != NULL)
    hw_workspace_select (self->workspace, step);
}

/* @again: it is the one that was open when the window was left, so that page and step are as they were. @step: to be
 * chosen in it. What was to be opened before is no longer wanted. FALSE: why not has been told. */
static gboolean
open_project (HwWindow   *self,
              const char *path,
              gboolean    again,
              const char *step)
{
  g_autoptr (GError) error = NULL;

  if (self->opening != NULL)
    hw_opening_cancel (self->opening);
  if (hw_project_is_large (path))
    {
      self->opening = hw_opening_begin (GTK_WIDGET (self), self->workspace, path, opening_over_cb);
      if (self->opening == NULL)
        return FALSE;
      self->opening_again = again;
      self->step_wanted = g_strdup (step);
      return TRUE;
    }
  if (!hw_workspace_open (self->workspace, path, &error))
    {
      hw_workspace_tell (self->workspace, error->message, TRUE);
      return FALSE;
    }
  if (!again)
    show_opened (self);
  if (step != NULL)
    hw_workspace_select (self->workspace, step);
  return TRUE;
}

gboolean
hw_window_open_file (HwWindow *self,
                     GFile    *file)
{
  g_autofree char *path = NULL;

  g_return_val_if_fail (HW_IS_WINDOW (self) && G_IS_FILE (file), FALSE);

  path = g_file_get_path (file);
  if (path == NULL)
    {
      g_autofree char *uri = g_file_get_uri (file);
      g_autofree char *text = g_strdup_printf (_("%s is not on this computer; save it here first, then open it."), uri);

      hw_workspace_tell (self->workspace, text, TRUE);
      return FALSE;
    }
  if (hw_share_is_file (path))
    return hw_share_import (self->workspace, path);
  return open_project (self, path, FALSE, NULL);
}

gboolean
hw_window_open_again (HwWindow   *self,
                      const char *path)
{
  g_return_val_if_fail (HW_IS_WINDOW (self) && path != NULL, FALSE);

  return open_project (self, path, TRUE, NULL);
}

gboolean
hw_window_is_opening (HwWindow *self)
{
  g_return_val_if_fail (HW_IS_WINDOW (self), FALSE);

  return self->opening != NULL;
}

void
hw_window_show_page (HwWindow   *self,
                     const char *name)
{
  const Page *page = find_page (name);
  gboolean    on_page;

  g_return_if_fail (HW_IS_WINDOW (self));

  if (page == NULL || g_strcmp0 (self->page, name) == 0)
    return;
  on_page = has_focus_in (self, gtk_stack_get_visible_child (self->stack));
  /* @name may be one of those replaced here. */
  g_free (self->page);
  self->page = g_strdup (page->name);
  if (page->title != NULL)
    {
      g_free (self->project_page);
      self->project_page = g_strdup (page->name);
    }
  show_stack (self);
  pass_message (self);
  refresh_title (self);
  /* Else it would go to the next thing that can have it, such as “Undo” of a message. */
  if (on_page)
    focus_page (self);
  hw_sidebar_set_page (self->sidebar, page->name);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PAGE]);
}

void
hw_window_restore (HwWindow *self)
{
  HwWindowState state = { 0 };

  g_return_if_fail (HW_IS_WINDOW (self));

  hw_window_state_recall (hw_workspace_get_room (self->workspace)->folder, &state);
  if (state.width > 0 && state.height > 0)
    gtk_window_set_default_size (GTK_WINDOW (self), state.width, state.height);
  if (state.maximized)
    gtk_window_maximize (GTK_WINDOW (self));
  if (state.page != NULL && *state.page != '\0')
    hw_window_show_page (self, state.page);
  g_free (state.page);
  g_free (state.step);
}

void
hw_window_restore_step (HwWindow *self)
{
  HwWindowState    state = { 0 };
  const HwProject *project;

  g_return_if_fail (HW_IS_WINDOW (self));

  hw_window_state_recall (hw_workspace_get_room (self->workspace)->folder, &state);
  project = hw_workspace_peek_project (self->workspace);
  if (state.step != NULL && project != NULL && hw_project_find_step (project, state.step) >= 0)
    hw_workspace_select (self->workspace, state.step);
  g_free (state.page);
  g_free (state.step);
  focus_page (self);
}

const char *
hw_window_get_page (HwWindow *self)
{
  g_return_val_if_fail (HW_IS_WINDOW (self), NULL);

  return self->page;
}

void
hw_window_pass_messages_after (HwWindow *self,
                               guint     seconds)
{
  g_return_if_fail (HW_IS_WINDOW (self) && seconds > 0);

  self->pass_seconds = seconds;
}

const char *
hw_window_peek_message (HwWindow *self)
{
  g_return_val_if_fail (HW_IS_WINDOW (self), NULL);

  return gtk_widget_get_visible (self->message_bar) ? gtk_label_get_text (self->message_label) : NULL;
}
