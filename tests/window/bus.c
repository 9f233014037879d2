/* bus.c - finds controls on the accessibility bus by what they are called, and works them as a person does
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What GTK 4.8 puts on the bus: buttons have an action of their own; rows are selected through the list's Selection;
 * entries and check buttons have neither and get keys and clicks. SHOWING is told of windows alone, so a node counts as
 * shown when it and all above it are visible and it has a size.
 */

#include "bus.h"

#include <gdk/gdkkeysyms.h>
#include <string.h>

#define TIME_OUT_S 60
#define PAUSE_US 15000
#define SETTLE_US 150000              /* for the focus to move on */
#define MOST_CHILDREN 400
#define MOST_DEPTH 60

/* The library's own types have no cleanup; a later version of it may bring one, under its own names. */
typedef AtspiStateSet States;
typedef AtspiComponent Component;
typedef AtspiAction Action;
typedef AtspiSelection Selection;
typedef AtspiText Text;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (States, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Component, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Action, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Selection, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Text, g_object_unref)

/* ---- nodes ---- */

gboolean
bus_has_state (Node            *node,
               AtspiStateType   state)
{
  g_autoptr (States) states = atspi_accessible_get_state_set (node);

  return states != NULL && atspi_state_set_contains (states, state);
}

static gboolean
get_extents (Node      *node,
             AtspiRect *rect)
{
  g_autoptr (Component) component = atspi_accessible_get_component_iface (node);
  g_autofree AtspiRect *extents = component != NULL
                                  ? atspi_component_get_extents (component, ATSPI_COORD_TYPE_WINDOW, NULL) : NULL;

  if (extents == NULL)
    return FALSE;
  *rect = *extents;
  return rect->width > 0 && rect->height > 0;
}

static gboolean
is_shown (Node          *node,
          AtspiStateSet *states)
{
  AtspiRect rect = { 0 };

  if (atspi_state_set_contains (states, ATSPI_STATE_SHOWING))
    return TRUE;
  return atspi_state_set_contains (states, ATSPI_STATE_VISIBLE) && get_extents (node, &rect);
}

static void
free_seen (gpointer data)
{
  Seen *seen = data;

  g_free (seen->name);
  g_object_unref (seen->node);
  g_free (seen);
}

/* NULL: it went away meanwhile. */
static Seen *
see (Node *node,
     int   depth)
{
  g_autoptr (States) states = atspi_accessible_get_state_set (node);
  g_autofree char *name = atspi_accessible_get_name (node, NULL);
  Seen *seen;

  if (states == NULL || name == NULL)
    return NULL;
  seen = g_new0 (Seen, 1);
  seen->role = atspi_accessible_get_role (node, NULL);
  seen->name = g_steal_pointer (&name);
  seen->shown = seen->role == ATSPI_ROLE_APPLICATION || is_shown (node, states);
  seen->sensitive = atspi_state_set_contains (states, ATSPI_STATE_SENSITIVE);
  seen->on = atspi_state_set_contains (states, ATSPI_STATE_CHECKED)
             || atspi_state_set_contains (states, ATSPI_STATE_PRESSED);
  seen->node = g_object_ref (node);
  seen->depth = depth;
  return seen;
}

/* A page of a stack is no widget: it has a name and a child, but no place and no size. */
static gboolean
is_page (Node *node)
{
  g_autoptr (Component) component = atspi_accessible_get_component_iface (node);

  return component == NULL && atspi_accessible_get_role (node, NULL) == ATSPI_ROLE_PANEL;
}

typedef gboolean (* VisitFunc) (Seen *seen, gpointer data);     /* takes @seen; TRUE: enough */

static gboolean
visit (Node      *node,
       int        depth,
       gboolean   hidden_too,
       gboolean   alone,                /* the only child: as a page of a stack, it is the one shown */
       VisitFunc  func,
       gpointer   data)
{
  Seen    *seen = see (node, depth);
  gboolean shown = seen != NULL && (seen->shown || (alone && is_page (node)));
  int      n;

  if (seen == NULL)
    return FALSE;
  if (!shown && !hidden_too)
    {
      free_seen (seen);
      return FALSE;
    }
  if (func (seen, data))
    return TRUE;
  n = depth < MOST_DEPTH ? MIN (atspi_accessible_get_child_count (node, NULL), MOST_CHILDREN) : 0;
  for (int i = 0; i < n; i++)
    {
      g_autoptr (Node) child = atspi_accessible_get_child_at_index (node, i, NULL);

      if (child != NULL && visit (child, depth + 1, hidden_too, n == 1, func, data))
        return TRUE;
    }
  return FALSE;
}

static gboolean
collect (Seen     *seen,
         gpointer  list)
{
  g_ptr_array_add (list, seen);
  return FALSE;
}

GPtrArray *
bus_look (Node *root)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (free_seen);

  visit (root, 0, FALSE, FALSE, collect, list);
  return list;
}

static gboolean
print_seen (Seen    *seen,
            gpointer data)
{
  g_autofree char *role = atspi_accessible_get_role_name (seen->node, NULL);

  g_test_message ("%*s%s '%s'%s%s%s", 2 * seen->depth, "", role, seen->name, seen->on ? " [on]" : "",
                  seen->sensitive ? "" : " (disabled)", seen->shown ? "" : " (hidden)");
  free_seen (seen);
  return FALSE;
}

static void
print_tree (Node *root)
{
  visit (root, 0, TRUE, FALSE, print_seen, NULL);
}

/* No page is ever inside a row; long lists are not worth the asking. */
static gboolean
is_list (Node *node)
{
  AtspiRole role = atspi_accessible_get_role (node, NULL);

  return role == ATSPI_ROLE_LIST || role == ATSPI_ROLE_TREE_TABLE || role == ATSPI_ROLE_TABLE;
}

static void
collect_pages (Node       *node,
               const char *title,
               GPtrArray  *pages)
{
  int n = is_list (node) ? 0 : atspi_accessible_get_child_count (node, NULL);

  for (int i = 0; i < n; i++)
    {
      g_autoptr (Node) child = atspi_accessible_get_child_at_index (node, i, NULL);
      g_autofree char *name = child != NULL ? atspi_accessible_get_name (child, NULL) : NULL;

      if (name == NULL)
        continue;
      if (!is_page (child))
        collect_pages (child, title, pages);
      else if ((title == NULL || g_str_equal (name, title)) && atspi_accessible_get_child_count (child, NULL) > 0)
        g_ptr_array_add (pages, atspi_accessible_get_child_at_index (child, 0, NULL));
    }
}

GPtrArray *
bus_pages (Node       *root,
           const char *title)
{
  GPtrArray *pages = g_ptr_array_new_with_free_func (g_object_unref);

  collect_pages (root, title, pages);
  return pages;
}

/* ---- waiting ---- */

gboolean
bus_comes_true (BusCondition condition,
                gpointer     data)
{
  gint64 until = g_get_monotonic_time () + TIME_OUT_S * G_USEC_PER_SEC;

  while (!condition (data))
    {
      if (g_get_monotonic_time () > until)
        return FALSE;
      if (!g_main_context_iteration (NULL, FALSE))
        g_usleep (PAUSE_US);
    }
  return TRUE;
}

void
bus_give_up (Node       *root,
             const char *what)
{
  if (root != NULL)
    print_tree (root);
  g_test_message ("waited %d s for %s", TIME_OUT_S, what);
  g_error ("never came: %s", what);
}

void
bus_wait (Node         *root,
          BusCondition  condition,
          gpointer      data,
          const char   *what)
{
  if (!bus_comes_true (condition, data))
    bus_give_up (root, what);
}

typedef struct
{
  Node      *root;
  AtspiRole  role;
  const char *name;
  gboolean   start_only;
  Node      *found;
} Search;

static gboolean
match (Seen     *seen,
       gpointer  data)
{
  Search  *search = data;
  gboolean named = search->start_only ? g_str_has_prefix (seen->name, search->name)
                                      : g_str_equal (seen->name, search->name);

  if (named && (search->role == ATSPI_ROLE_INVALID || seen->role == search->role))
    search->found = g_object_ref (seen->node);
  free_seen (seen);
  return search->found != NULL;
}

static gboolean
is_found (gpointer data)
{
  Search *search = data;

  visit (search->root, 0, FALSE, FALSE, match, search);
  return search->found != NULL;
}

Node *
bus_peek (Node      *root,
          AtspiRole  role,
          const char *name)
{
  Search search = { root, role, name, FALSE, NULL };

  is_found (&search);
  return search.found;
}

static Node *
wait_found (Search *search)
{
  bus_wait (search->root, is_found, search, search->name);
  return search->found;
}

Node *
bus_find (Node       *root,
          AtspiRole   role,
          const char *name)
{
  return wait_found (&(Search) { root, role, name, FALSE, NULL });
}

Node *
bus_find_start (Node       *root,
                AtspiRole   role,
                const char *start)
{
  return wait_found (&(Search) { root, role, start, TRUE, NULL });
}

static gboolean
is_gone (gpointer data)
{
  Search *search = data;

  g_clear_object (&search->found);
  return !is_found (search);
}

void
bus_wait_gone_start (Node       *root,
                     AtspiRole   role,
                     const char *start)
{
  Search search = { root, role, start, TRUE, NULL };

  bus_wait (root, is_gone, &search, start);
}

void
bus_wait_gone (Node       *root,
               AtspiRole   role,
               const char *name)
{
  Search search = { root, role, name, FALSE, NULL };

  bus_wait (root, is_gone, &search, name);
}

typedef struct
{
  Node       *root;
  const char *part;
  char       *text;
} TextSearch;

static gboolean
match_text (Seen     *seen,
            gpointer  data)
{
  TextSearch      *search = data;
  g_autofree char *text = bus_text (seen->node);

  if (strstr (seen->name, search->part) != NULL)
    search->text = g_strdup (seen->name);
  else if (strstr (text, search->part) != NULL)
    search->text = g_steal_pointer (&text);
  free_seen (seen);
  return search->text != NULL;
}

static gboolean
is_told (gpointer data)
{
  TextSearch *search = data;

  visit (search->root, 0, FALSE, FALSE, match_text, search);
  return search->text != NULL;
}

char *
bus_wait_text (Node       *root,
               const char *text)
{
  TextSearch search = { root, text, NULL };

  bus_wait (root, is_told, &search, text);
  return search.text;
}

char *
bus_text (Node *node)
{
  g_autoptr (Text) text = atspi_accessible_get_text_iface (node);
  int   n = text != NULL ? atspi_text_get_character_count (text, NULL) : 0;
  char *all = n > 0 ? atspi_text_get_text (text, 0, n, NULL) : NULL;

  if (all == NULL && text == NULL)
    all = atspi_accessible_get_name (node, NULL);
  return all != NULL ? all : g_strdup ("");
}

/* ---- keys and clicks ---- */

void
bus_key (guint keyval,
         guint modifiers)
{
  g_autoptr (GError) error = NULL;

  if (modifiers != 0)
    atspi_generate_keyboard_event (modifiers, NULL, ATSPI_KEY_LOCKMODIFIERS, &error);
  g_assert_no_error (error);
  atspi_generate_keyboard_event (keyval, NULL, ATSPI_KEY_SYM, &error);
  g_assert_no_error (error);
  if (modifiers != 0)
    atspi_generate_keyboard_event (modifiers, NULL, ATSPI_KEY_UNLOCKMODIFIERS, &error);
  g_assert_no_error (error);
}

static gboolean
is_focused (gpointer data)
{
  return bus_has_state (data, ATSPI_STATE_FOCUSED);
}

void
bus_key_to (guint keyval,
            Node *control)
{
  gint64 until = g_get_monotonic_time () + TIME_OUT_S * G_USEC_PER_SEC;

  while (!is_focused (control))
    {
      gint64 settle = g_get_monotonic_time () + SETTLE_US;

      if (g_get_monotonic_time () > until)
        bus_give_up (control, "the focus by keys");
      bus_key (keyval, 0);
      while (!is_focused (control) && g_get_monotonic_time () < settle)
        g_usleep (PAUSE_US);
    }
}

void
bus_tab_to (Node *control)
{
  bus_key_to (GDK_KEY_Tab, control);
}

typedef struct
{
  Node       *root;
  AtspiRole   role;
  const char *start;
} Wanted;

static gboolean
has_focused (gpointer data)
{
  const Wanted        *wanted = data;
  g_autoptr (GPtrArray) seen = bus_look (wanted->root);

  for (guint i = 0; i < seen->len; i++)
    {
      const Seen *each = seen->pdata[i];

      if (each->role == wanted->role && g_str_has_prefix (each->name, wanted->start)
          && bus_has_state (each->node, ATSPI_STATE_FOCUSED))
        return TRUE;
    }
  return FALSE;
}

void
bus_wait_focus (Node       *root,
                AtspiRole   role,
                const char *start)
{
  Wanted wanted = { root, role, start };

  bus_wait (root, has_focused, &wanted, start);
}

void
bus_type (const char *text)
{
  g_autoptr (GError) error = NULL;

  atspi_generate_keyboard_event (0, text, ATSPI_KEY_STRING, &error);
  g_assert_no_error (error);
}

void
bus_click (Node *node)
{
  g_autoptr (GError) error = NULL;
  AtspiRect rect = { 0 };

  g_assert_true (get_extents (node, &rect));
  atspi_generate_mouse_event (rect.x + rect.width / 2, rect.y + rect.height / 2, "b1c", &error);
  g_assert_no_error (error);
}

void
bus_press (Node *node)
{
  g_autoptr (Action) action = atspi_accessible_get_action_iface (node);
  int n = action != NULL ? atspi_action_get_n_actions (action, NULL) : 0;

  for (int i = 0; i < n; i++)
    {
      g_autofree char *name = atspi_action_get_action_name (action, i, NULL);

      if (g_strcmp0 (name, "click") == 0 || g_strcmp0 (name, "activate") == 0 || g_strcmp0 (name, "toggle") == 0)
        {
          g_assert_true (atspi_action_do_action (action, i, NULL));
          return;
        }
    }
  bus_click (node);
}

void
bus_select (Node *list,
            int   place)
{
  g_autoptr (Selection) selection = atspi_accessible_get_selection_iface (list);

  g_assert_nonnull (selection);
  g_assert_true (atspi_selection_select_child (selection, place, NULL));
}

typedef struct
{
  Node       *entry;
  const char *text;
} Filled;

static gboolean
is_filled (gpointer data)
{
  const Filled    *filled = data;
  g_autofree char *text = bus_text (filled->entry);

  return g_str_equal (text, filled->text);
}

void
bus_wait_filled (Node       *entry,
                 const char *text)
{
  Filled filled = { entry, text };

  bus_wait (entry, is_filled, &filled, text);
}

void
bus_fill (Node       *entry,
          const char *text)
{
  bus_click (entry);
  bus_wait (entry, is_focused, entry, "the focus of an entry");
  bus_key (GDK_KEY_a, 1 << ATSPI_MODIFIER_CONTROL);
  bus_key (GDK_KEY_BackSpace, 0);
  bus_type (text);
  bus_wait_filled (entry, text);
}

typedef struct
{
  Node       *root;
  const char *name;
} Choice;

static gboolean
is_list_closed (gpointer data)
{
  const Choice    *choice = data;
  g_autoptr (Node) item = bus_peek (choice->root, ATSPI_ROLE_LIST_ITEM, choice->name);

  return item == NULL;
}

void
bus_choose (Node       *form,
            const char *name,
            const char *item)
{
  g_autoptr (Node) combo = bus_find (form, ATSPI_ROLE_COMBO_BOX, name);
  g_autoptr (Node) button = bus_find (combo, ATSPI_ROLE_PUSH_BUTTON, name);
  g_autoptr (Node) listed = NULL;
  Choice           choice = { combo, item };

  bus_tab_to (button);
  bus_key (GDK_KEY_space, 0);
  listed = bus_find (combo, ATSPI_ROLE_LIST_ITEM, item);
  bus_key_to (GDK_KEY_Down, listed);
  bus_key (GDK_KEY_Return, 0);
  bus_wait (form, is_list_closed, &choice, item);
}
