/* test-sew.c - a garment sewn from the first needle to the last hem in the real window, and the record it leaves
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The journal is the only record of what was done. Here its sums are reckoned anew from the files and compared with
 * what the window and the command line say.
 */

#include <string.h>

#include <libxml/parser.h>

#include "record.h"
#include "temp-folder.h"

/* ---- the journal, read without any of the program's own code ---- */

typedef struct
{
  guint       kinds[3];         /* as in entry_names */
  GHashTable *minutes;          /* machine -> double *: at the machine, cancelled entries left out */
  GHashTable *steps;            /* "project/step" of a sewing entry that stands */
} Journal;

enum { SEWING, LOAD, CANCEL };
#define MOST_STEPS 50               /* more than the garment has */

static const char * const entry_names[] = { "sewing", "load", "cancel", NULL };

static void
clear_journal (Journal *self)
{
  g_hash_table_unref (self->minutes);
  g_hash_table_unref (self->steps);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Journal, clear_journal)

static void
add_sewing (Journal    *self,
            const char *machine,
            xmlNode    *node)
{
  g_autofree char *minutes = record_attribute (node, "minutes");
  g_autofree char *project = record_attribute (node, "project");
  g_autofree char *step = record_attribute (node, "step");
  double          *sum = g_hash_table_lookup (self->minutes, machine);

  g_assert_nonnull (minutes);
  if (sum == NULL)
    {
      sum = g_new0 (double, 1);
      g_hash_table_insert (self->minutes, g_strdup (machine), sum);
    }
  *sum += g_ascii_strtod (minutes, NULL);
  g_hash_table_add (self->steps, g_strdup_printf ("%s/%s", project, step));
}

static Journal
read_journal (const char *room)
{
  g_autoptr (GPtrArray) documents = record_documents (room);
  g_autoptr (GHashTable) cancelled = record_cancelled (documents);
  Journal self = { 0 };

  self.minutes = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self.steps = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < documents->len; i++)
    {
      xmlNode         *root = xmlDocGetRootElement (documents->pdata[i]);
      g_autofree char *machine = record_attribute (root, "machine");

      for (xmlNode *node = root->children; node != NULL; node = node->next)
        {
          g_autofree char *id = node->type == XML_ELEMENT_NODE ? record_attribute (node, "id") : NULL;

          if (id == NULL)
            continue;
          for (int kind = SEWING; entry_names[kind] != NULL; kind++)
            if (g_str_equal (node->name, entry_names[kind]))
              self.kinds[kind]++;
          if (g_str_equal (node->name, entry_names[SEWING]) && !g_hash_table_contains (cancelled, id))
            add_sewing (&self, machine, node);
        }
    }
  return self;
}

/* ---- what the window shows ---- */

/* The toggles of the list, in the order of work. (element-type utf8): names */
static GPtrArray *
list_toggles (Node    *list,
              gboolean on)
{
  g_autoptr (GPtrArray) all = bus_look (list);
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = all->pdata[i];

      if (seen->role == ATSPI_ROLE_PUSH_BUTTON && seen->on == on && g_str_has_suffix (seen->name, ": sewn"))
        g_ptr_array_add (names, g_strdup (seen->name));
    }
  return names;
}

/* ---- the strip, the command line and the page of machines agree ---- */

static void
check_all_sewn (Program    *program,
                const char *file)
{
  g_autofree char *printed = program_run (program, 0, "next", file);
  g_autoptr (Node) strip = strip_find (program);
  g_autoptr (GPtrArray) labels = strip_read (strip);

  g_assert_nonnull (strstr (printed, "Every step is sewn."));
  g_assert_cmpstr (strip_after (labels, "Load "), ==, "nothing more to load");
  strip_check (program, strip, file);
}

static double
start_hours (const Program *program,
             const char    *machine,
             char         **name)
{
  g_autofree char *file = g_strconcat (machine, ".xml", NULL);
  g_autofree char *path = g_build_filename (program->room, "machines", file, NULL);
  xmlDoc          *document = xmlReadFile (path, NULL, XML_PARSE_NONET);
  g_autofree char *hours = NULL;

  g_assert_nonnull (document);
  *name = record_attribute (xmlDocGetRootElement (document), "name");
  hours = record_attribute (xmlDocGetRootElement (document), "start-hours");
  xmlFreeDoc (document);
  return hours != NULL ? g_ascii_strtod (hours, NULL) : 0;
}

/* The label after @heading on the card of the machine @name. */
static double
shown_hours (Node       *page,
             const char *name)
{
  g_autoptr (GPtrArray) all = bus_look (page);
  gboolean on_card = FALSE;
  gboolean is_next = FALSE;

  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = all->pdata[i];

      if (seen->role != ATSPI_ROLE_LABEL)
        continue;
      if (is_next)
        {
          g_assert_true (g_str_has_suffix (seen->name, " h"));
          return g_ascii_strtod (seen->name, NULL);
        }
      on_card = on_card || g_str_equal (seen->name, name);
      is_next = on_card && g_str_equal (seen->name, "At the machine");
    }
  g_error ("no hours of “%s”", name);
}

/* Shown with one decimal. */
static void
check_hours (Program *program)
{
  g_auto (Journal) journal = read_journal (program->room);
  g_autoptr (Node) page = program_show_page (program, "Machines");
  GHashTableIter   iter;
  gpointer         machine = NULL;
  gpointer         minutes = NULL;
  guint            n = 0;

  g_hash_table_iter_init (&iter, journal.minutes);
  while (g_hash_table_iter_next (&iter, &machine, &minutes))
    {
      g_autofree char *name = NULL;
      double           reckoned;

      if (g_str_equal (machine, "hand"))
        continue;
      reckoned = start_hours (program, machine, &name) + *(double *) minutes / 60;
      g_assert_cmpfloat_with_epsilon (shown_hours (page, name), reckoned, 0.05 + 1e-6);
      n++;
    }
  g_assert_cmpuint (n, ==, 2);
}

/* ---- the whole way ---- */

/* What the strip asks to be loaded now is loaded; later loads wait for their step. */
static gboolean
load_if_asked (Program *program,
               Node    *strip)
{
  g_autoptr (GPtrArray) labels = strip_read (strip);
  guint before = record_count (program, NULL);

  if (strip_after (labels, "Load now, ") == NULL)
    return FALSE;
  strip_press_loaded (strip);
  record_wait (program, before, 1);
  return TRUE;
}

/* Each time the first that is left: a list has no more rows than are near its view. */
static guint
sew_all (Program    *program,
         const char *file)
{
  g_autoptr (Node) list = order_show (program);
  g_autoptr (Node) strip = strip_find (program);
  guint loads = 0;
  guint n;

  for (n = 0; n < MOST_STEPS; n++)
    {
      g_autoptr (GPtrArray) left = list_toggles (list, FALSE);

      if (left->len == 0)
        break;
      loads += load_if_asked (program, strip) ? 1 : 0;
      strip_check (program, strip, file);
      order_mark (program, list, left->pdata[0], TRUE);
    }
  g_assert_cmpuint (loads, >=, 2);
  return n;
}

static void
check_sewn (Program *program,
            guint    n)
{
  g_autoptr (Node) list = order_show (program);
  g_autoptr (GPtrArray) left = list_toggles (list, FALSE);
  g_autoptr (GPtrArray) sewn = list_toggles (list, TRUE);
  g_auto (Journal) journal = read_journal (program->room);
  guint noted = 0;
  GHashTableIter iter;
  gpointer key = NULL;

  g_assert_cmpuint (left->len, ==, 0);
  g_assert_cmpuint (sewn->len, >, 0);           /* those in view */
  g_assert_cmpuint (sewn->len, <=, n);
  g_hash_table_iter_init (&iter, journal.steps);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    noted += g_str_has_prefix (key, "t-shirt/") ? 1 : 0;
  g_assert_cmpuint (noted, ==, n);
}

static void
undo_and_redo (Program *program)
{
  g_autoptr (Node) list = order_show (program);
  g_auto (Journal) before = read_journal (program->room);
  const char      *hem = "Step 8, Bottom hem: sewn";

  order_mark (program, list, hem, FALSE);
  {
    g_auto (Journal) undone = read_journal (program->room);

    g_assert_cmpuint (undone.kinds[CANCEL], ==, before.kinds[CANCEL] + 1);
    g_assert_cmpuint (g_hash_table_size (undone.steps), ==, g_hash_table_size (before.steps) - 1);
    g_assert_false (g_hash_table_contains (undone.steps, "t-shirt/8"));
  }
  order_mark (program, list, hem, TRUE);
  {
    g_auto (Journal) redone = read_journal (program->room);

    g_assert_cmpuint (redone.kinds[SEWING], ==, before.kinds[SEWING] + 1);
    g_assert_true (g_hash_table_contains (redone.steps, "t-shirt/8"));
  }
}

static void
test_sew (Program      *program,
          gconstpointer furnished)
{
  g_autofree char *garment = g_test_build_filename (G_TEST_DIST, "plan", "garments", "t-shirt.handwheel", NULL);
  g_autofree char *demo = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "demo", NULL);
  g_autofree char *file = NULL;
  guint            n;

  if (furnished != NULL)
    temp_folder_copy_tree (demo, program->room);
  file = program_add_project (program, garment);
  program_start (program, file);
  n = sew_all (program, file);
  g_assert_cmpuint (n, ==, 10);                  /* eight operations and two hand steps in the file */
  undo_and_redo (program);
  check_all_sewn (program, file);
  check_hours (program);
  program_quit (program);

  program_start (program, file);
  check_sewn (program, n);
  check_all_sewn (program, file);
  check_hours (program);
  program_quit (program);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/window/sew/fresh-room", Program, NULL, program_set_up, test_sew, program_tear_down);
  g_test_add ("/window/sew/lived-in-room", Program, "demo", program_set_up, test_sew, program_tear_down);
  return g_test_run ();
}
