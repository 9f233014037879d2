/* test-beginner.c - a newcomer's way through the running program, by keys and clicks: from nothing to the setup cards
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include <gdk/gdkkeysyms.h>
#include <libxml/parser.h>
#include <string.h>

#include "program.h"

#define LET_GO (G_USEC_PER_SEC * 6 / 10)

static void
press (Node       *root,
       AtspiRole   role,
       const char *name)
{
  g_autoptr (Node) node = bus_find (root, role, name);

  bus_press (node);
}

/* Goes there by the Tab key and types over what stands there. */
static void
fill_in (Node       *form,
         AtspiRole   role,
         const char *name,
         const char *text)
{
  g_autoptr (Node) control = bus_find (form, role, name);

  bus_tab_to (control);
  bus_key (GDK_KEY_a, 1 << ATSPI_MODIFIER_CONTROL);
  bus_type (text);
  bus_wait_filled (control, text);
}

/* ---- the steps of the way ---- */

static void
begin_project (Program    *program,
               const char *title)
{
  g_autofree char *frame = g_strconcat (title, " – Handwheel", NULL);
  g_autoptr (Node) entry = NULL;

  press (program->app, ATSPI_ROLE_PUSH_BUTTON, "New project");
  entry = bus_find (program->app, ATSPI_ROLE_INVALID, "Title of the new project");
  bus_fill (entry, title);
  bus_key (GDK_KEY_Return, 0);
  g_object_unref (bus_find (program->app, ATSPI_ROLE_FRAME, frame));
}

/* The search leaves one cloth of the handbook; its name is proposed, and kept. */
static void
add_fabric (Program *program,
            Node    *page)
{
  g_autoptr (Node) form = NULL;
  g_autoptr (Node) name = NULL;

  press (page, ATSPI_ROLE_PUSH_BUTTON, "Add a fabric");
  form = program_find_form (program, "New fabric");
  fill_in (form, ATSPI_ROLE_ENTRY, "Cloth: search the handbook", "Cotton poplin");
  bus_wait_gone (form, ATSPI_ROLE_LIST_ITEM, "Cotton twill");
  {
    g_autoptr (Node) list = bus_find (form, ATSPI_ROLE_LIST, "Cloths of the handbook");

    bus_select (list, 0);
  }
  name = bus_find (form, ATSPI_ROLE_TEXT, "Name");
  bus_wait_filled (name, "Cotton poplin");
  fill_in (form, ATSPI_ROLE_TEXT, "Colour", "navy");
  press (form, ATSPI_ROLE_PUSH_BUTTON, "Add the fabric");
  g_object_unref (bus_find_start (page, ATSPI_ROLE_PUSH_BUTTON, "Fabric Cotton poplin"));
}

static void
add_thread (Program *program,
            Node    *page)
{
  g_autoptr (Node) form = NULL;

  press (page, ATSPI_ROLE_PUSH_BUTTON, "Add a thread");
  form = program_find_form (program, "New thread");
  fill_in (form, ATSPI_ROLE_TEXT, "Colour", "navy");
  press (form, ATSPI_ROLE_PUSH_BUTTON, "Add the thread");
  g_object_unref (bus_find_start (page, ATSPI_ROLE_PUSH_BUTTON, "Thread navy"));
}

/* In the row at the end of the list, by the keys: a name, the length, a few letters of the fabric. */
static void
type_operation (Node       *page,
                const char *name,
                const char *row)
{
  g_autoptr (Node) fields = NULL;
  g_autoptr (Node) layers = NULL;

  press (page, ATSPI_ROLE_PUSH_BUTTON, "Add the first step…");
  fields = bus_find (page, ATSPI_ROLE_FORM, "New step, typed in a row");
  bus_wait_focus (fields, ATSPI_ROLE_TEXT, "Step");
  bus_type (name);
  bus_key (GDK_KEY_Return, 0);          /* takes the focus to what is wanting */
  bus_wait_focus (fields, ATSPI_ROLE_TEXT, "Length, cm");
  bus_type ("90");
  layers = bus_find (fields, ATSPI_ROLE_TEXT, "Layers");
  fill_in (fields, ATSPI_ROLE_TEXT, "Layers", "2 pop");
  bus_key (GDK_KEY_Tab, 0);
  bus_wait_filled (layers, "2 Cotton poplin");
  bus_key (GDK_KEY_Return, 0);
  g_object_unref (bus_find_start (page, ATSPI_ROLE_TABLE_ROW, row));
  bus_wait_focus (fields, ATSPI_ROLE_TEXT, "Step");     /* ready for the next */
  bus_key (GDK_KEY_Escape, 0);
  bus_wait_focus (page, ATSPI_ROLE_TABLE_ROW, row);
}

static void
add_operation (Program    *program,
               Node       *page,
               const char *name,
               const char *purpose,
               const char *layers,
               const char *row)
{
  g_autoptr (Node) form = NULL;
  g_autofree char *told = NULL;

  press (page, ATSPI_ROLE_PUSH_BUTTON, "More to do with steps");
  press (page, ATSPI_ROLE_MENU_ITEM, "New operation with all fields…");
  form = program_find_form (program, "New operation");
  fill_in (form, ATSPI_ROLE_TEXT, "Name", name);
  bus_choose (form, "Purpose", purpose);
  press (form, ATSPI_ROLE_PUSH_BUTTON, "Add the step");
  told = bus_wait_text (form, "An operation joins layers");
  fill_in (form, ATSPI_ROLE_SPIN_BUTTON, "Layers of Cotton poplin", layers);
  press (form, ATSPI_ROLE_PUSH_BUTTON, "Add the step");
  g_object_unref (bus_find_start (page, ATSPI_ROLE_TABLE_ROW, row));
}

/* A set-up is found, so there is a page to print, and it can be turned to. */
static void
check_cards (Program *program)
{
  g_autoptr (Node) page = program_show_page (program, "Setup cards");
  g_autofree char *place = bus_wait_text (page, "1 of ");
  g_autoptr (Node) print = bus_find (page, ATSPI_ROLE_PUSH_BUTTON, "Print…");
  g_autoptr (Node) preview = bus_find_start (page, ATSPI_ROLE_IMAGE, "Preview of the page");

  g_assert_cmpint (g_ascii_strtoll (place + strlen ("1 of "), NULL, 10), >=, 1);
  g_assert_true (bus_has_state (print, ATSPI_STATE_SENSITIVE));
}

/* ---- the file it leaves, read without any of the program's own code ---- */

static int
count (xmlDoc     *document,
       const char *list,
       const char *element)
{
  int n = 0;

  for (xmlNode *node = xmlDocGetRootElement (document)->children; node != NULL; node = node->next)
    if (g_str_equal (node->name, list))
      for (xmlNode *child = node->children; child != NULL; child = child->next)
        n += g_str_equal (child->name, element) ? 1 : 0;
  return n;
}

static gboolean
has (xmlDoc     *document,
     const char *list,
     const char *name,
     const char *value)
{
  for (xmlNode *node = xmlDocGetRootElement (document)->children; node != NULL; node = node->next)
    if (g_str_equal (node->name, list))
      for (xmlNode *child = node->children; child != NULL; child = child->next)
        {
          xmlChar *found = child->type == XML_ELEMENT_NODE ? xmlGetProp (child, (const xmlChar *) name) : NULL;
          gboolean same = g_strcmp0 ((const char *) found, value) == 0;

          xmlFree (found);
          if (same)
            return TRUE;
        }
  return FALSE;
}

static void
check_file (Program    *program,
            const char *path)
{
  g_autofree char *checked = program_run (program, 0, "check", path);
  g_autofree char *planned = program_run (program, 0, "plan", path);
  xmlDoc          *document = xmlReadFile (path, NULL, XML_PARSE_NONET);

  g_assert_nonnull (document);
  g_assert_cmpint (count (document, "fabrics", "fabric"), ==, 1);
  g_assert_true (has (document, "threads", "colour", "navy"));
  g_assert_cmpint (count (document, "steps", "operation"), ==, 2);
  g_assert_true (has (document, "fabrics", "colour", "navy"));
  g_assert_true (has (document, "steps", "purpose", "seam"));
  g_assert_true (has (document, "steps", "purpose", "hem"));
  xmlFreeDoc (document);
  g_assert_nonnull (strstr (planned, "Side seams"));
  g_assert_nonnull (strstr (planned, "Lower hem"));
}

static void
test_from_nothing (Program      *program,
                   gconstpointer data)
{
  g_autofree char *file = g_build_filename (program->room, "projects", "market-bag.handwheel", NULL);

  program_start (program, NULL);
  begin_project (program, "Market bag");
  {
    g_autoptr (Node) page = program_show_page (program, "Making up");

    add_fabric (program, page);
    add_thread (program, page);
    type_operation (page, "Side seams", "Step 1: Side seams");
    add_operation (program, page, "Lower hem", "Hem", "3", "Step 2: Lower hem");
  }
  check_cards (program);
  program_quit (program);
  check_file (program, file);
}

/* What was added by mistake goes again, and comes back: by the keys, in the file too. */
static void
test_undone (Program      *program,
             gconstpointer data)
{
  g_autofree char *file = g_build_filename (program->room, "projects", "market-bag.handwheel", NULL);
  xmlDoc          *document;

  program_start (program, NULL);
  begin_project (program, "Market bag");
  {
    g_autoptr (Node) page = program_show_page (program, "Making up");

    add_thread (program, page);
    bus_key (GDK_KEY_z, 1 << ATSPI_MODIFIER_CONTROL);
    bus_wait_gone_start (page, ATSPI_ROLE_PUSH_BUTTON, "Thread navy");
    bus_key (GDK_KEY_z, (1 << ATSPI_MODIFIER_CONTROL) | (1 << ATSPI_MODIFIER_SHIFT));
    g_object_unref (bus_find_start (page, ATSPI_ROLE_PUSH_BUTTON, "Thread navy"));
  }
  program_quit (program);
  document = xmlReadFile (file, NULL, XML_PARSE_NONET);
  g_assert_nonnull (document);
  g_assert_true (has (document, "threads", "colour", "navy"));
  xmlFreeDoc (document);
}

static void
wait_focus_on_page (Program    *program,
                    AtspiRole   role,
                    const char *start)
{
  g_autoptr (Node) page = program_show_page (program, "Making up");

  bus_wait_focus (page, role, start);
}

/* No hunt for the focus: each key takes it to where the next one is wanted. */
static void
test_by_keys (Program      *program,
              gconstpointer data)
{
  program_start (program, NULL);
  {
    g_autoptr (Node) heading = bus_find (program->app, ATSPI_ROLE_LABEL, "Sewing room");

    bus_click (heading);                /* there is no window manager here: keys go to where the pointer is */
  }
  wait_focus_on_page (program, ATSPI_ROLE_TABLE_ROW, "Step 1: ");
  bus_key (GDK_KEY_n, 1 << ATSPI_MODIFIER_CONTROL);
  bus_wait_focus (program->app, ATSPI_ROLE_TEXT, "Title of the new project");
  bus_key (GDK_KEY_Escape, 0);
  wait_focus_on_page (program, ATSPI_ROLE_TABLE_ROW, "Step 1: ");
  bus_key (GDK_KEY_n, 1 << ATSPI_MODIFIER_CONTROL);
  bus_wait_focus (program->app, ATSPI_ROLE_TEXT, "Title of the new project");
  bus_type ("Shirt for Ada");
  bus_key (GDK_KEY_Return, 0);
  wait_focus_on_page (program, ATSPI_ROLE_PUSH_BUTTON, "Start from a garment…");
  g_usleep (LET_GO);                    /* what the key before pressed is let go after a quarter of a second */
  bus_key (GDK_KEY_Return, 0);
  {
    g_autoptr (Node) garments = program_find_room_page (program, "A garment for “Shirt for Ada”");

    bus_wait_focus (garments, ATSPI_ROLE_LIST_ITEM, "Shirt");
    bus_key (GDK_KEY_Tab, 0);
    bus_wait_focus (garments, ATSPI_ROLE_TEXT, "Title");
    bus_key (GDK_KEY_Return, 1 << ATSPI_MODIFIER_CONTROL);
  }
  wait_focus_on_page (program, ATSPI_ROLE_TABLE_ROW, "Step 1: Fuse collar");
  bus_key (GDK_KEY_z, 1 << ATSPI_MODIFIER_CONTROL);
  wait_focus_on_page (program, ATSPI_ROLE_PUSH_BUTTON, "Start from a garment…");
  bus_key (GDK_KEY_z, (1 << ATSPI_MODIFIER_CONTROL) | (1 << ATSPI_MODIFIER_SHIFT));
  wait_focus_on_page (program, ATSPI_ROLE_TABLE_ROW, "Step 1: Fuse collar");
  bus_key (GDK_KEY_2, 1 << ATSPI_MODIFIER_CONTROL);
  {
    g_autoptr (Node) order = program_show_page (program, "Order of work");

    bus_wait_focus (order, ATSPI_ROLE_PUSH_BUTTON, "Step 1, ");
    bus_key (GDK_KEY_Down, 0);
    bus_wait_focus (order, ATSPI_ROLE_PUSH_BUTTON, "Step 4, ");
    bus_key (GDK_KEY_Down, 0);          /* over the head of the next block */
    bus_wait_focus (order, ATSPI_ROLE_PUSH_BUTTON, "Step 6, ");
    bus_key (GDK_KEY_space, 0);
    g_object_unref (bus_find_start (order, ATSPI_ROLE_LIST_ITEM, "Step 6, Sleeve plackets, join, 60 cm, 4 min, sewn"));
    bus_wait_focus (order, ATSPI_ROLE_PUSH_BUTTON, "Step 1, ");     /* what comes next */
    bus_key (GDK_KEY_Up, 0);            /* what is sewn stands before what is not */
    bus_wait_focus (order, ATSPI_ROLE_PUSH_BUTTON, "Step 6, ");
  }
  program_quit (program);
}

/* ---- what the person has, and the cards as a file ---- */

static void
find_anything (Program    *program,
               const char *text)
{
  g_autoptr (Node) entry = NULL;

  bus_key (GDK_KEY_k, 1 << ATSPI_MODIFIER_CONTROL);
  entry = bus_find (program->app, ATSPI_ROLE_ENTRY, "Find anything");
  bus_wait_focus (program->app, ATSPI_ROLE_ENTRY, "Find anything");
  bus_type (text);
  bus_wait_filled (entry, text);
  g_object_unref (bus_find_start (program->app, ATSPI_ROLE_LIST_ITEM, text));
  bus_key (GDK_KEY_Return, 0);
}

static void
add_needles (Program *program)
{
  g_autoptr (Node) page = NULL;
  g_autofree char *shelf = NULL;

  find_anything (program, "Add needles");
  page = program_find_room_page (program, "Needles");
  bus_wait_focus (page, ATSPI_ROLE_PUSH_BUTTON, "System");
  {
    g_autoptr (Node) size = bus_find (page, ATSPI_ROLE_TEXT, "Size, the first number on the packet");

    bus_tab_to (size);
    bus_type ("120");
    bus_wait_filled (size, "120");
  }
  bus_key (GDK_KEY_Return, 0);
  bus_wait_focus (page, ATSPI_ROLE_PUSH_BUTTON, "Add needles");  /* ready for the next packet */
  shelf = program_run (program, 0, "shelf", NULL);
  g_assert_nonnull (strstr (shelf, "120/19"));
}

static void
add_machine (Program *program)
{
  g_autoptr (Node) page = NULL;
  g_autofree char *care = NULL;

  find_anything (program, "Add a lockstitch machine");
  page = program_find_room_page (program, "Machines");
  bus_wait_focus (page, ATSPI_ROLE_TEXT, "Name");
  bus_type ("Class machine 4");
  bus_key (GDK_KEY_Return, 1 << ATSPI_MODIFIER_CONTROL);
  bus_wait_focus (page, ATSPI_ROLE_PUSH_BUTTON, "Add a machine");
  care = program_run (program, 0, "care", NULL);
  g_assert_nonnull (strstr (care, "Class machine 4"));
}

static gboolean
is_there (gpointer path)
{
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static void
save_cards (Program *program)
{
  g_autofree char *path = g_build_filename (program->folder, "cards.pdf", NULL);
  g_autofree char *told = NULL;
  g_autofree char *bytes = NULL;

  bus_key (GDK_KEY_3, 1 << ATSPI_MODIFIER_CONTROL);
  {
    g_autoptr (Node) page = program_show_page (program, "Setup cards");
    g_autoptr (Node) save = bus_find (page, ATSPI_ROLE_PUSH_BUTTON, "Save as…");

    bus_tab_to (save);
    bus_key (GDK_KEY_Return, 0);
  }
  {
    g_autoptr (Node) name = bus_find_start (program->app, ATSPI_ROLE_TEXT, "Name");

    bus_fill (name, path);
    bus_key (GDK_KEY_Return, 0);
  }
  bus_wait (program->app, is_there, path, "the cards as a file");
  told = bus_wait_text (program->app, "Cards saved");
  g_assert_nonnull (strstr (told, "cards.pdf"));
  g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  g_assert_true (g_str_has_prefix (bytes, "%PDF-1."));
}

static void
test_has_and_prints (Program      *program,
                     gconstpointer data)
{
  program_start (program, NULL);
  {
    g_autoptr (Node) heading = bus_find (program->app, ATSPI_ROLE_LABEL, "Sewing room");

    bus_click (heading);
  }
  wait_focus_on_page (program, ATSPI_ROLE_TABLE_ROW, "Step 1: ");
  add_needles (program);
  add_machine (program);
  save_cards (program);
  program_quit (program);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/window/beginner/from-nothing", Program, NULL, program_set_up, test_from_nothing, program_tear_down);
  g_test_add ("/window/beginner/undone", Program, NULL, program_set_up, test_undone, program_tear_down);
  g_test_add ("/window/beginner/by-keys", Program, NULL, program_set_up, test_by_keys, program_tear_down);
  g_test_add ("/window/beginner/has-and-prints", Program, NULL, program_set_up, test_has_and_prints,
              program_tear_down);
  return g_test_run ();
}
