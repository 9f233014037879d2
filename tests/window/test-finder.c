/* test-finder.c - anything is found, taken and left by keys alone
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include <string.h>

#include <gdk/gdkkeysyms.h>

#include "program.h"

#define DRAWER "Find anything"

/* Waits until the one that has the keyboard is named so. */
typedef struct
{
  Node       *app;
  const char *name;
} Focus;

static gboolean
has_focus (gpointer data)
{
  Focus *focus = data;
  g_autoptr (GPtrArray) seen = bus_look (focus->app);

  for (guint i = 0; i < seen->len; i++)
    {
      const Seen *control = g_ptr_array_index (seen, i);

      if (g_strcmp0 (control->name, focus->name) == 0 && bus_has_state (control->node, ATSPI_STATE_FOCUSED))
        return TRUE;
    }
  return FALSE;
}

static void
wait_focus (Program    *program,
            const char *name)
{
  Focus focus = { program->app, name };

  bus_wait (program->app, has_focus, &focus, name);
}

/* Opens the drawer and types; the entry has the keyboard from the start. */
static Node *
find (Program    *program,
      const char *text)
{
  g_autoptr (Node) entry = NULL;

  bus_key (GDK_KEY_k, 1 << ATSPI_MODIFIER_CONTROL);
  entry = bus_find (program->app, ATSPI_ROLE_ENTRY, DRAWER);
  wait_focus (program, DRAWER);
  bus_type (text);
  bus_wait_filled (entry, text);
  return g_steal_pointer (&entry);
}

static void
wait_closed (Program *program)
{
  bus_wait_gone (program->app, ATSPI_ROLE_ENTRY, DRAWER);
}

static void
test_handbook (Program      *program,
               gconstpointer data)
{
  g_autoptr (Node) entry = NULL;
  g_autoptr (Node) page = NULL;
  g_autofree char *told = NULL;

  program_start (program, NULL);
  entry = find (program, "Schappe");
  told = bus_wait_text (program->app, "Nothing is called");
  g_assert_nonnull (strstr (told, "Schappe"));
  bus_key (GDK_KEY_a, 1 << ATSPI_MODIFIER_CONTROL);
  bus_type ("dneim");                    /* two letters changed about */
  g_object_unref (bus_find (program->app, ATSPI_ROLE_LIST_ITEM, "Denim, heavy, Fabric (Fabrics)"));
  bus_key (GDK_KEY_Return, 0);
  wait_closed (program);
  page = program_find_room_page (program, "Handbook");
  g_free (bus_wait_text (page, "Denim, heavy"));
  program_quit (program);
}

static void
test_step (Program      *program,
           gconstpointer data)
{
  g_autoptr (Node) entry = NULL;
  g_autoptr (Node) row = NULL;
  g_autoptr (Node) panel = NULL;

  program_start (program, NULL);
  entry = find (program, "side panels");
  row = bus_find_start (program->app, ATSPI_ROLE_LIST_ITEM, "Side panels to back and fronts, step 3 of");
  bus_key (GDK_KEY_Down, 0);             /* into the rows, and back by a letter */
  bus_key (GDK_KEY_BackSpace, 0);
  bus_wait_filled (entry, "side panel");
  bus_key (GDK_KEY_Return, 0);
  wait_closed (program);
  panel = program_find_panel (program);
  g_free (bus_wait_text (panel, "3  Side panels to back and fronts"));
  program_quit (program);
}

static void
test_action (Program      *program,
             gconstpointer data)
{
  g_autoptr (Node) entry = NULL;
  g_autoptr (Node) page = NULL;

  program_start (program, NULL);
  entry = find (program, "settings");    /* not its name, but a word for it */
  g_object_unref (bus_find_start (program->app, ATSPI_ROLE_LIST_ITEM, "Preferences, Ctrl+,"));
  bus_key (GDK_KEY_Return, 0);
  wait_closed (program);
  page = program_find_room_page (program, "Preferences");
  program_quit (program);
}

/* The row that stands @place-th in the drawer; NULL: fewer are there. (transfer full) */
static char *
row_name (Program *program,
          guint    place)
{
  g_autoptr (GPtrArray) seen = bus_look (program->app);
  guint                 n = 0;

  for (guint i = 0; i < seen->len; i++)
    {
      const Seen *control = g_ptr_array_index (seen, i);

      if (control->role == ATSPI_ROLE_LIST_ITEM && g_str_has_suffix (control->name, "(Fabrics)") && n++ == place)
        return g_strdup (control->name);
    }
  return NULL;
}

/* What is chosen while one types is the first; the arrow goes on from it, and Return takes what it stands on. */
static void
test_second (Program      *program,
             gconstpointer data)
{
  g_autoptr (Node) entry = NULL;
  g_autoptr (Node) page = NULL;
  g_autofree char *second = NULL;

  program_start (program, NULL);
  entry = find (program, "denim");
  g_object_unref (bus_find_start (program->app, ATSPI_ROLE_LIST_ITEM, "Denim"));
  second = row_name (program, 1);
  g_assert_nonnull (second);
  bus_key (GDK_KEY_Down, 0);
  wait_focus (program, second);
  bus_key (GDK_KEY_Return, 0);
  wait_closed (program);
  page = program_find_room_page (program, "Handbook");
  second[strcspn (second, ",")] = '\0';
  g_free (bus_wait_text (page, second));
  program_quit (program);
}

/* Escape gives the keyboard back; so does Tab, which leads on: no trap. */
static void
test_leave (Program      *program,
            gconstpointer data)
{
  g_autoptr (Node) entry = NULL;
  g_autoptr (Node) again = NULL;

  program_start (program, NULL);
  bus_key (GDK_KEY_F10, 0);
  bus_key (GDK_KEY_Escape, 0);
  wait_focus (program, "Menu");
  entry = find (program, "denim");
  bus_key (GDK_KEY_Escape, 0);
  wait_closed (program);
  wait_focus (program, "Menu");
  again = find (program, "denim");
  g_object_unref (bus_find_start (program->app, ATSPI_ROLE_LIST_ITEM, "Denim"));
  for (int i = 0; i < 3; i++)           /* the button that closes, the rows, and on */
    bus_key (GDK_KEY_Tab, 0);
  wait_closed (program);
  program_quit (program);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/window/finder/handbook", Program, NULL, program_set_up, test_handbook, program_tear_down);
  g_test_add ("/window/finder/step", Program, NULL, program_set_up, test_step, program_tear_down);
  g_test_add ("/window/finder/action", Program, NULL, program_set_up, test_action, program_tear_down);
  g_test_add ("/window/finder/second", Program, NULL, program_set_up, test_second, program_tear_down);
  g_test_add ("/window/finder/leave", Program, NULL, program_set_up, test_leave, program_tear_down);
  return g_test_run ();
}
