/* test-names.c - every control of the running program has a name to call it by, said once and as it is read
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A nameless control reports nothing, or the name of its C type; one named both by a label beside it and by itself says
 * its name twice; a mnemonic's mark must not be read out.
 */

#include <string.h>

#include <gdk/gdkkeysyms.h>

#include "program.h"

typedef struct
{
  GString *offenders;
  guint    controls;
} Tally;

static gboolean
is_control (AtspiRole role)
{
  switch ((int) role)
    {
    case ATSPI_ROLE_PUSH_BUTTON:
    case ATSPI_ROLE_TOGGLE_BUTTON:
    case ATSPI_ROLE_CHECK_BOX:
    case ATSPI_ROLE_RADIO_BUTTON:
    case ATSPI_ROLE_ENTRY:
    case ATSPI_ROLE_TEXT:
    case ATSPI_ROLE_SPIN_BUTTON:
    case ATSPI_ROLE_COMBO_BOX:
    case ATSPI_ROLE_SLIDER:
    case ATSPI_ROLE_LIST_ITEM:
    case ATSPI_ROLE_MENU_ITEM:
    case ATSPI_ROLE_PAGE_TAB:
    case ATSPI_ROLE_LINK:
    case ATSPI_ROLE_IMAGE:
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
is_type_name (const char *name)
{
  return (g_str_has_prefix (name, "Gtk") && g_ascii_isupper (name[3]))
         || (g_str_has_prefix (name, "Hw") && g_ascii_isupper (name[2]));
}

/* “Paper Paper” */
static gboolean
is_said_twice (const char *name)
{
  gsize half = strlen (name) / 2;

  return half > 0 && strlen (name) % 2 == 1 && name[half] == ' ' && strncmp (name, name + half + 1, half) == 0;
}

static const char *
find_fault (const char *name)
{
  if (name[0] == '\0')
    return "has no name";
  if (is_type_name (name))
    return "has its type's name";
  if (is_said_twice (name))
    return "is said twice";
  if (strchr (name, '_') != NULL)
    return "has the mark of a mnemonic";
  return NULL;
}

/* How many controls there are. */
static guint
look_for_any (Tally      *tally,
              Node       *root,
              const char *where)
{
  g_autoptr (GPtrArray) all = bus_look (root);
  guint n = 0;

  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = all->pdata[i];
      const char *fault = is_control (seen->role) ? find_fault (seen->name) : NULL;

      n += is_control (seen->role) ? 1 : 0;
      if (fault != NULL)
        {
          g_autofree char *role = atspi_accessible_get_role_name (seen->node, NULL);

          g_string_append_printf (tally->offenders, "%s: %s “%s” %s; ", where, role, seen->name, fault);
        }
    }
  g_test_message ("%s: %u controls", where, n);
  tally->controls += n;
  return n;
}

static void
look (Tally      *tally,
      Node       *root,
      const char *where)
{
  g_assert_cmpuint (look_for_any (tally, root, where), >, 0);
}

static void
judge (Tally *tally,
       guint  at_least)
{
  g_assert_cmpstr (tally->offenders->str, ==, "");
  g_assert_cmpuint (tally->controls, >=, at_least);
  g_string_free (tally->offenders, TRUE);
}

static void
open_garment (Program *program)
{
  g_autofree char *garment = g_test_build_filename (G_TEST_DIST, "plan", "garments", "t-shirt.handwheel", NULL);
  g_autofree char *file = program_add_project (program, garment);

  program_start (program, file);
}

static void
press (Node       *root,
       AtspiRole   role,
       const char *name)
{
  g_autoptr (Node) node = bus_find (root, role, name);

  bus_press (node);
}

static void
test_pages (Program      *program,
            gconstpointer data)
{
  static const char * const titles[] = {
    "Making up", "Order of work", "Setup cards", "Notions", "What to sew next", "Machines", "Needles", "Thread",
    "Fabrics", "Stitch faults", "Journal", "Handbook",
  };
  g_autofree char *second = g_test_build_filename (G_TEST_DIST, "plan", "garments", "jeans.handwheel", NULL);
  g_autofree char *added = program_add_project (program, second);        /* one alone cannot be moved in the queue */
  Tally tally = { g_string_new (NULL), 0 };

  open_garment (program);
  look (&tally, program->app, "around the pages");
  for (gsize i = 0; i < G_N_ELEMENTS (titles); i++)
    {
      g_autoptr (Node) page = program_show_page (program, titles[i]);

      look (&tally, page, titles[i]);
      if (g_str_equal (titles[i], "Stitch faults"))
        {
          g_autoptr (GPtrArray) inner = bus_pages (page, NULL);

          for (guint j = 0; j < inner->len; j++)
            {
              g_autoptr (Node) card = bus_peek (inner->pdata[j], ATSPI_ROLE_PUSH_BUTTON, "Skipped stitches");

              if (card != NULL)
                look (&tally, inner->pdata[j], "the gallery of faults");
            }
        }
    }
  program_quit (program);
  judge (&tally, 100);
}

static void
look_at_form (Tally      *tally,
              Program    *program,
              const char *title)
{
  g_autoptr (Node) form = program_find_form (program, title);

  look (tally, form, title);
  press (form, ATSPI_ROLE_PUSH_BUTTON, "Cancel");
}

static void
test_forms (Program      *program,
            gconstpointer data)
{
  static const struct { const char *button; const char *item; const char *title; } forms[] = {
    { "Add a fabric", NULL, "New fabric" },
    { "Add a thread", NULL, "New thread" },
    { "More to do with steps", "New operation with all fields…", "New operation" },
    { "More to do with steps", "New hand step with all fields…", "New hand step" },
    { "Change the step", NULL, "Change step 1" },
  };
  Tally tally = { g_string_new (NULL), 0 };
  g_autoptr (Node) page = NULL;

  open_garment (program);
  page = program_show_page (program, "Making up");
  press (page, ATSPI_ROLE_PUSH_BUTTON, "Add a step");
  g_object_unref (bus_find (page, ATSPI_ROLE_FORM, "New step, typed in a row"));
  look (&tally, page, "row in which steps are typed");
  press (page, ATSPI_ROLE_PUSH_BUTTON, "Done");
  for (gsize i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      g_autoptr (Node) place = i == G_N_ELEMENTS (forms) - 1 ? program_find_panel (program) : g_object_ref (page);

      press (place, ATSPI_ROLE_PUSH_BUTTON, forms[i].button);
      if (forms[i].item != NULL)
        {
          look (&tally, page, "menu of steps");
          press (page, ATSPI_ROLE_MENU_ITEM, forms[i].item);
        }
      look_at_form (&tally, program, forms[i].title);
    }
  program_quit (program);
  judge (&tally, 60);
}

static void
test_reasons (Program      *program,
              gconstpointer data)
{
  Tally tally = { g_string_new (NULL), 0 };
  g_autoptr (Node) panel = NULL;
  g_autoptr (GPtrArray) all = NULL;
  g_autofree char *told = NULL;

  open_garment (program);
  panel = program_find_panel (program);
  all = bus_look (panel);
  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = all->pdata[i];

      if (g_str_has_prefix (seen->name, "Why this: "))
        bus_press (seen->node);
    }
  told = bus_wait_text (panel, "Source: ");
  look (&tally, panel, "reasons and values of one's own");
  program_quit (program);
  judge (&tally, 20);
}

static void
test_menus (Program      *program,
            gconstpointer data)
{
  Tally tally = { g_string_new (NULL), 0 };

  open_garment (program);
  press (program->app, ATSPI_ROLE_PUSH_BUTTON, "Menu");
  {
    g_autoptr (Node) item = bus_find (program->app, ATSPI_ROLE_MENU_ITEM, "Title and due date");

    look (&tally, program->app, "menu");
    bus_press (item);
  }
  look_at_form (&tally, program, "Title and due date");
  press (program->app, ATSPI_ROLE_PUSH_BUTTON, "New project");
  {
    g_autoptr (Node) entry = bus_find (program->app, ATSPI_ROLE_INVALID, "Title of the new project");

    look (&tally, program->app, "new project");
  }
  program_quit (program);
  judge (&tally, 40);
}

/* A machine's form and a checklist of care, in the side panel of their page. */
static void
test_machines (Program      *program,
               gconstpointer data)
{
  static const struct { const char *button; const char *title; } forms[] = {
    { "Change Lockstitch machine", "Change the machine" },
    { "Dust under the needle plate on Lockstitch machine", "Dust under the needle plate" },
  };
  Tally tally = { g_string_new (NULL), 0 };
  g_autoptr (Node) page = NULL;

  open_garment (program);
  page = program_show_page (program, "Machines");
  for (gsize i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      g_autoptr (Node) form = NULL;

      press (page, ATSPI_ROLE_PUSH_BUTTON, forms[i].button);
      form = bus_find (page, ATSPI_ROLE_FORM, forms[i].title);
      look (&tally, form, forms[i].title);
      press (form, ATSPI_ROLE_PUSH_BUTTON, "Cancel");
      bus_wait_gone (page, ATSPI_ROLE_FORM, forms[i].title);
    }
  program_quit (program);
  judge (&tally, 30);
}

/* The pages that the menu alone leads to. */
static void
test_menu_pages (Program      *program,
                 gconstpointer data)
{
  static const struct { const char *item; const char *heading; const char *says; } pages[] = {
    { "New project from a garment", "New project from a garment", NULL },
    { "Preferences", "Preferences", NULL },
    { "Finish for today", "Finish for today", NULL },
    { "Earlier versions", "Earlier versions", "There are none yet." },      /* and so nothing to press */
  };
  Tally tally = { g_string_new (NULL), 0 };

  program_start (program, NULL);                 /* the demo: its machines have sewn, so there is something to close */
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autoptr (Node) page = NULL;

      press (program->app, ATSPI_ROLE_PUSH_BUTTON, "Menu");
      press (program->app, ATSPI_ROLE_MENU_ITEM, pages[i].item);
      page = program_find_room_page (program, pages[i].heading);
      if (pages[i].says != NULL)
        {
          g_autofree char *said = bus_wait_text (page, pages[i].says);

          look_for_any (&tally, page, pages[i].heading);
        }
      else
        look (&tally, page, pages[i].heading);
    }
  program_quit (program);
  judge (&tally, 40);
}

/* With several steps chosen the panel changes them all. */
static void
test_several (Program      *program,
              gconstpointer data)
{
  Tally tally = { g_string_new (NULL), 0 };
  g_autoptr (Node) page = NULL;
  g_autoptr (Node) form = NULL;

  open_garment (program);
  page = program_show_page (program, "Making up");
  press (page, ATSPI_ROLE_PUSH_BUTTON, "More to do with steps");
  press (page, ATSPI_ROLE_MENU_ITEM, "Choose all");
  form = program_find_form (program, "10 steps chosen");
  look (&tally, form, "several steps chosen");
  program_quit (program);
  judge (&tally, 8);
}

/* The menu at the row that has the keyboard. */
static void
test_context (Program      *program,
              gconstpointer data)
{
  Tally tally = { g_string_new (NULL), 0 };
  g_autoptr (Node) page = NULL;
  g_autoptr (Node) row = NULL;
  g_autoptr (Node) item = NULL;

  open_garment (program);
  page = program_show_page (program, "Making up");
  row = bus_find_start (page, ATSPI_ROLE_TABLE_ROW, "Step 1: ");
  bus_click (row);
  bus_wait_focus (page, ATSPI_ROLE_TABLE_ROW, "Step 1: ");
  bus_key (GDK_KEY_Menu, 0);
  item = bus_find (page, ATSPI_ROLE_MENU_ITEM, "Choose all");
  look (&tally, page, "menu at a step");
  program_quit (program);
  judge (&tally, 50);
}

static void
test_finder (Program      *program,
             gconstpointer data)
{
  Tally tally = { g_string_new (NULL), 0 };
  g_autoptr (Node) entry = NULL;
  g_autoptr (Node) found = NULL;

  open_garment (program);
  bus_key (GDK_KEY_k, 1 << ATSPI_MODIFIER_CONTROL);
  entry = bus_find (program->app, ATSPI_ROLE_ENTRY, "Find anything");
  bus_wait_focus (program->app, ATSPI_ROLE_ENTRY, "Find anything");
  bus_type ("denim");
  found = bus_find (program->app, ATSPI_ROLE_LIST_ITEM, "Denim, heavy, Fabric (Fabrics)");
  look (&tally, program->app, "finder");
  program_quit (program);
  judge (&tally, 30);
}

/* Which machines get a set of cards of their own. */
static void
test_handout (Program      *program,
              gconstpointer data)
{
  Tally tally = { g_string_new (NULL), 0 };
  g_autoptr (Node) page = NULL;
  g_autoptr (Node) combo = NULL;
  g_autoptr (Node) cards = NULL;
  g_autofree char *told = NULL;

  open_garment (program);
  page = program_show_page (program, "Setup cards");
  combo = bus_find (page, ATSPI_ROLE_COMBO_BOX, "Cards");
  cards = bus_find (combo, ATSPI_ROLE_PUSH_BUTTON, "Cards");
  bus_tab_to (cards);
  bus_key (GDK_KEY_space, 0);
  {
    g_autoptr (Node) listed = bus_find (page, ATSPI_ROLE_LIST_ITEM, "a class handout");

    look (&tally, page, "which cards");
    bus_key_to (GDK_KEY_Down, listed);
    bus_key (GDK_KEY_Return, 0);
  }
  press (page, ATSPI_ROLE_INVALID, "Machines of the handout");
  told = bus_wait_text (page, "Each gets its own set of cards");
  look (&tally, page, "machines of the handout");
  program_quit (program);
  judge (&tally, 20);
}

/* While a timer runs the strip tells of it, on whatever page. */
static void
test_timer (Program      *program,
            gconstpointer data)
{
  Tally tally = { g_string_new (NULL), 0 };
  g_autoptr (Node) page = NULL;
  g_autoptr (Node) start = NULL;
  g_autoptr (Node) running = NULL;

  open_garment (program);
  page = program_show_page (program, "Order of work");
  start = bus_find_start (page, ATSPI_ROLE_PUSH_BUTTON, "Start timer, step ");
  bus_press (start);
  running = bus_find_start (program->app, ATSPI_ROLE_PUSH_BUTTON, "The timer of step ");
  look (&tally, page, "running timer");
  look (&tally, program->app, "strip of a running timer");
  program_quit (program);
  judge (&tally, 60);
}

/* The bar that tells of conflicting copies. */
static void
test_copies (Program      *program,
             gconstpointer data)
{
  g_autofree char *garment = g_test_build_filename (G_TEST_DIST, "plan", "garments", "t-shirt.handwheel", NULL);
  g_autofree char *file = program_add_project (program, garment);
  g_autofree char *copy = g_strconcat (file, " (conflicted copy).handwheel", NULL);
  g_autofree char *text = NULL;
  Tally tally = { g_string_new (NULL), 0 };

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  g_assert_true (g_file_set_contents (copy, text, -1, NULL));
  program_start (program, file);
  g_object_unref (bus_find (program->app, ATSPI_ROLE_PUSH_BUTTON, "Merge"));
  look (&tally, program->app, "copies");
  program_quit (program);
  judge (&tally, 20);
}

/* ---- values ---- */

typedef AtspiValue Value;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Value, g_object_unref)

/* What shows how far something has got tells it as a number within its range, too. */
static guint
check_values (Node       *root,
              GString    *faults)
{
  g_autoptr (GPtrArray) all = bus_look (root);
  guint n = 0;

  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = all->pdata[i];
      gboolean meter = seen->role == ATSPI_ROLE_LEVEL_BAR || seen->role == ATSPI_ROLE_PROGRESS_BAR
                       || seen->role == ATSPI_ROLE_SLIDER || seen->role == ATSPI_ROLE_SPIN_BUTTON;
      g_autoptr (Value) value = meter ? atspi_accessible_get_value_iface (seen->node) : NULL;
      double low, high, now;

      if (!meter)
        continue;
      n++;
      if (value == NULL)
        {
          g_string_append_printf (faults, "“%s” has no value; ", seen->name);
          continue;
        }
      low = atspi_value_get_minimum_value (value, NULL);
      high = atspi_value_get_maximum_value (value, NULL);
      now = atspi_value_get_current_value (value, NULL);
      if (!(low < high && low <= now && now <= high))
        g_string_append_printf (faults, "“%s”: %g of %g to %g; ", seen->name, now, low, high);
    }
  return n;
}

static void
test_values (Program      *program,
             gconstpointer data)
{
  g_autoptr (GString) faults = g_string_new (NULL);
  guint n_gauges, n_dials;

  open_garment (program);
  {
    g_autoptr (Node) panel = program_find_panel (program);

    n_dials = check_values (panel, faults);
  }
  {
    g_autoptr (Node) page = program_show_page (program, "Machines");

    n_gauges = check_values (page, faults);
  }
  program_quit (program);
  g_assert_cmpstr (faults->str, ==, "");
  g_assert_cmpuint (n_gauges, >=, 4);
  g_assert_cmpuint (n_dials, >=, 1);
}

/* A room in which nothing lies yet but its folder of projects. */
static void
test_beginning (Program      *program,
                gconstpointer data)
{
  g_autofree char *projects = g_build_filename (program->room, "projects", NULL);
  Tally tally = { g_string_new (NULL), 0 };
  g_autofree char *told = NULL;

  g_assert_cmpint (g_mkdir_with_parents (projects, 0700), ==, 0);
  program_start (program, NULL);
  told = bus_wait_text (program->app, "No project is open");
  {
    g_autoptr (GPtrArray) pages = bus_pages (program->app, "Beginning");

    g_assert_cmpuint (pages->len, ==, 1);
    look (&tally, pages->pdata[0], "beginning");
    look (&tally, program->app, "around the beginning");
  }
  program_quit (program);
  judge (&tally, 10);
}

/* The very first start: a room with a demo in it. */
static void
test_first_start (Program      *program,
                  gconstpointer data)
{
  Tally tally = { g_string_new (NULL), 0 };

  program_start (program, NULL);
  {
    g_autoptr (Node) page = program_show_page (program, "Making up");

    look (&tally, program->app, "around the demo");
    look (&tally, page, "demo");
  }
  program_quit (program);
  judge (&tally, 20);
}

int
main (int    argc,
      char **argv)
{
  static const struct { const char *path; void (* test) (Program *program, gconstpointer data); } tests[] = {
    { "/window/names/pages", test_pages },
    { "/window/names/forms", test_forms },
    { "/window/names/reasons", test_reasons },
    { "/window/names/menus", test_menus },
    { "/window/names/machines", test_machines },
    { "/window/names/menu-pages", test_menu_pages },
    { "/window/names/several", test_several },
    { "/window/names/context", test_context },
    { "/window/names/finder", test_finder },
    { "/window/names/handout", test_handout },
    { "/window/names/timer", test_timer },
    { "/window/names/copies", test_copies },
    { "/window/names/values", test_values },
    { "/window/names/beginning", test_beginning },
    { "/window/names/first-start", test_first_start },
  };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Program, NULL, program_set_up, tests[i].test, program_tear_down);
  return g_test_run ();
}
