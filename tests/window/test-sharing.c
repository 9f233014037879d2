/* test-sharing.c - what is handed to somebody and comes from somebody, by the menu of the running program
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A project goes into one file and comes out of it in another sewing room; a set-up goes onto the clipboard; a class
 * gets its handout; a new machine begins with what the dial of an old one learned.
 */

#include <string.h>

#include <gdk/gdkkeysyms.h>
#include <glib/gstdio.h>

#include "program.h"

static void
press (Node       *root,
       AtspiRole   role,
       const char *name)
{
  g_autoptr (Node) node = bus_find (root, role, name);

  bus_press (node);
}

static void
choose_in_menu (Program    *program,
                const char *item)
{
  press (program->app, ATSPI_ROLE_PUSH_BUTTON, "Menu");
  press (program->app, ATSPI_ROLE_MENU_ITEM, item);
}

/* Types the name of a file into GTK's own dialog and accepts it. Its buttons are named with their mnemonic. */
static void
give_file (Program    *program,
           const char *accept,
           const char *path)
{
  g_autofree char *named = g_strdup_printf ("_%s %s", accept, accept);
  g_autoptr (Node) button = bus_find (program->app, ATSPI_ROLE_PUSH_BUTTON, named);

  bus_key (GDK_KEY_a, 1 << ATSPI_MODIFIER_CONTROL);      /* the name that was proposed */
  bus_type (path);
  bus_key (GDK_KEY_Return, 0);
  bus_wait_gone (program->app, ATSPI_ROLE_PUSH_BUTTON, named);
}

static gboolean
has_content (gpointer path)
{
  GStatBuf status;

  return g_stat (path, &status) == 0 && status.st_size > 0;
}

static void
wait_for_file (Program    *program,
               const char *path,
               const char *beginning)
{
  g_autofree char *text = NULL;

  bus_wait (program->app, has_content, (gpointer) path, path);
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, beginning));
}

static char *
start_with_garment (Program *program)
{
  g_autofree char *garment = g_test_build_filename (G_TEST_DIST, "plan", "garments", "t-shirt.handwheel", NULL);
  char            *file = program_add_project (program, garment);

  program_start (program, file);
  return file;
}

static void
test_one_file (Program      *program,
               gconstpointer data)
{
  Program          other = { 0 };
  g_autofree char *file = start_with_garment (program);
  g_autofree char *shared = g_build_filename (program->folder, "to-a-friend.handwheel-share", NULL);
  g_autofree char *taken = NULL;
  g_autofree char *told = NULL;
  g_autofree char *planned = NULL;
  g_autofree char *planned_there = NULL;

  choose_in_menu (program, "Share the project…");
  give_file (program, "Save", shared);
  wait_for_file (program, shared, "<share");
  program_quit (program);
  planned = program_run (program, 0, "plan", file);

  program_set_up (&other, NULL);
  program_start (&other, NULL);
  choose_in_menu (&other, "Open…");
  give_file (&other, "Open", shared);
  told = bus_wait_text (other.app, "The project is taken in.");
  program_quit (&other);
  taken = g_build_filename (other.room, "projects", "t-shirt.handwheel", NULL);
  planned_there = program_run (&other, 0, "plan", taken);
  g_assert_nonnull (strstr (planned, "T-shirt"));
  g_assert_nonnull (strstr (planned_there, "T-shirt"));
  program_tear_down (&other, NULL);
}

/* What was copied is read where a person would paste it. */
static void
test_set_up (Program      *program,
             gconstpointer data)
{
  g_autofree char *file = start_with_garment (program);
  g_autofree char *told = NULL;
  g_autofree char *pasted = NULL;
  g_autoptr (Node) form = NULL;
  g_autoptr (Node) title = NULL;

  choose_in_menu (program, "Copy set-up as text");
  told = bus_wait_text (program->app, "The set-up is on the clipboard as text.");
  choose_in_menu (program, "Title and due date");
  form = program_find_form (program, "Title and due date");
  title = bus_find (form, ATSPI_ROLE_TEXT, "Title");
  bus_fill (title, "");
  bus_key (GDK_KEY_v, 1 << ATSPI_MODIFIER_CONTROL);
  pasted = bus_wait_text (form, "Needle");
  g_assert_nonnull (strstr (pasted, "tex "));
  program_quit (program);
}

static void
test_handout (Program      *program,
              gconstpointer data)
{
  g_autofree char *file = start_with_garment (program);
  g_autofree char *cards = g_build_filename (program->folder, "class.pdf", NULL);
  g_autoptr (Node) page = program_show_page (program, "Setup cards");

  bus_choose (page, "Cards", "a class handout");
  g_object_unref (bus_find (page, ATSPI_ROLE_INVALID, "Machines of the handout"));
  press (page, ATSPI_ROLE_PUSH_BUTTON, "Save as…");
  give_file (program, "Save", cards);
  wait_for_file (program, cards, "%PDF-");
  program_quit (program);
}

/* The page scrolls where a card is taller than the room left; by these keys it turns all the same. */
static void
test_turn_by_key (Program      *program,
                  gconstpointer data)
{
  g_autoptr (Node) page = NULL;
  g_autoptr (Node) save = NULL;

  program_start (program, NULL);
  page = program_show_page (program, "Setup cards");
  g_free (bus_wait_text (page, "1 of "));
  save = bus_find (page, ATSPI_ROLE_PUSH_BUTTON, "Save as…");
  bus_tab_to (save);
  bus_key (GDK_KEY_Page_Down, 0);
  g_free (bus_wait_text (page, "2 of "));
  bus_key (GDK_KEY_Page_Up, 0);
  g_free (bus_wait_text (page, "1 of "));
  program_quit (program);
}

static void
test_learned_dial (Program      *program,
                   gconstpointer data)
{
  g_autofree char *garment = g_test_build_filename (G_TEST_DIST, "plan", "garments", "t-shirt.handwheel", NULL);
  g_autofree char *file = program_add_project (program, garment);
  g_autofree char *machine = g_build_filename (program->room, "machines", "second.xml", NULL);
  g_autoptr (Node) page = NULL;
  g_autoptr (Node) form = NULL;
  g_autoptr (Node) name = NULL;

  program_start (program, file);
  page = program_show_page (program, "Machines");
  press (page, ATSPI_ROLE_PUSH_BUTTON, "Add a machine");
  press (page, ATSPI_ROLE_MENU_ITEM, "Lockstitch machine");
  form = bus_find (page, ATSPI_ROLE_FORM, "New machine");
  name = bus_find (form, ATSPI_ROLE_TEXT, "Name");
  bus_fill (name, "Second");
  bus_choose (form, "Its starting numbers begin with", "Lockstitch machine");
  press (form, ATSPI_ROLE_PUSH_BUTTON, "Add it");
  wait_for_file (program, machine, "learned-from=\"lockstitch\"");
  program_quit (program);
}

int
main (int    argc,
      char **argv)
{
  static const struct { const char *path; void (* test) (Program *, gconstpointer); } tests[] = {
    { "/sharing/one-file", test_one_file },
    { "/sharing/set-up", test_set_up },
    { "/sharing/handout", test_handout },
    { "/sharing/turn-by-key", test_turn_by_key },
    { "/sharing/learned-dial", test_learned_dial },
  };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Program, NULL, program_set_up, tests[i].test, program_tear_down);
  return g_test_run ();
}
