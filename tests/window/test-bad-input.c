/* test-bad-input.c - files that must be refused, given to the running program
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whatever is wrong with a file: the window says where, the project that is open stays as it was, the file keeps every
 * byte, and the program lives on.
 */

#include <string.h>

#include "program.h"

/* The line is where a person would look for the mistake, counted in the file. */
static const struct
{
  const char *name;
  int         line;
} refused[] = {
  { "circle", 13 },
  { "duplicate-number", 10 },
  { "long-stitch", 9 },
  { "negative-length", 7 },
  { "newer-version", 2 },
  { "not-xml", 1 },
  { "other-schema", 2 },
  { "unknown-fabric", 11 },
};

typedef struct
{
  char  *path;
  char  *contents;
  gsize  length;
} Kept;

static Kept
keep (char *path)                       /* (transfer full) */
{
  Kept kept = { path, NULL, 0 };
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &kept.contents, &kept.length, &error);
  g_assert_no_error (error);
  return kept;
}

static void
check_kept (const Kept *kept)
{
  g_autofree char *contents = NULL;
  gsize            length = 0;

  g_assert_true (g_file_get_contents (kept->path, &contents, &length, NULL));
  g_assert_cmpuint (length, ==, kept->length);
  g_assert_true (memcmp (contents, kept->contents, length) == 0);
}

static void
clear_kept (Kept *kept)
{
  g_free (kept->path);
  g_free (kept->contents);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Kept, clear_kept)

static Kept
keep_bad (gsize i)
{
  g_autofree char *name = g_strconcat (refused[i].name, ".handwheel", NULL);

  return keep (g_test_build_filename (G_TEST_DIST, "model", "bad", name, NULL));
}

static Kept
add_good (Program *program)
{
  g_autofree char *garment = g_test_build_filename (G_TEST_DIST, "plan", "garments", "t-shirt.handwheel", NULL);

  return keep (program_add_project (program, garment));
}

/* The place, and after it words for a person. */
static void
check_told (Program *program,
            gsize    i)
{
  g_autofree char *place = g_strdup_printf ("%s.handwheel:%d: ", refused[i].name, refused[i].line);
  g_autofree char *told = bus_wait_text (program->app, place);

  g_test_message ("%s", told);
  g_assert_cmpuint (strlen (strstr (told, place)), >, strlen (place) + 20);
  g_assert_true (g_utf8_validate (told, -1, NULL));
}

/* The steps of the page that are in view, as they are read out. (transfer full) */
static char *
read_steps (Program *program)
{
  g_autoptr (Node) page = program_show_page (program, "Order of work");
  g_autoptr (Node) list = bus_find (page, ATSPI_ROLE_LIST, "Order of work");
  g_autoptr (GPtrArray) all = bus_look (list);
  GString *steps = g_string_new (NULL);

  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = all->pdata[i];

      if (seen->name[0] != '\0')
        g_string_append_printf (steps, "%s\n", seen->name);
    }
  g_assert_nonnull (strstr (steps->str, "Shoulders"));
  return g_string_free (steps, FALSE);
}

static void
check_open (Program *program)
{
  g_autoptr (Node) frame = bus_find_start (program->app, ATSPI_ROLE_FRAME, "T-shirt");

  g_assert_true (program_is_alive (program));
}

static void
test_opened (Program      *program,
             gconstpointer data)
{
  g_auto (Kept)    good = add_good (program);
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  program_start (program, good.path);
  before = read_steps (program);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_auto (Kept) bad = keep_bad (i);

      program_hand_over (program, bad.path);
      check_told (program, i);
      check_open (program);
      check_kept (&bad);
    }
  after = read_steps (program);
  g_assert_cmpstr (after, ==, before);
  check_kept (&good);
  program_quit (program);
  check_kept (&good);
}

/* As the first thing at all: the room's own project is opened beside the message. */
static void
test_started (Program      *program,
              gconstpointer data)
{
  gsize         i = GPOINTER_TO_SIZE (data);
  g_auto (Kept) good = add_good (program);
  g_auto (Kept) bad = keep_bad (i);

  program_start (program, bad.path);
  check_told (program, i);
  check_open (program);
  program_quit (program);
  check_kept (&bad);
  check_kept (&good);
}

/* In the room's own folder: the sidebar lists it, and says so; to open it tells why. */
static void
test_listed (Program      *program,
             gconstpointer data)
{
  gsize            i = 0;
  g_auto (Kept)    good = add_good (program);
  g_autofree char *name = g_strconcat (refused[i].name, ".handwheel", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "model", "bad", name, NULL);
  g_auto (Kept)    bad = keep (program_add_project (program, path));
  g_autofree char *label = g_strconcat (name, ", cannot be read", NULL);

  program_start (program, good.path);
  {
    g_autoptr (Node) row = bus_find (program->app, ATSPI_ROLE_LIST_ITEM, label);

    bus_press (row);
  }
  check_told (program, i);
  check_open (program);
  program_quit (program);
  check_kept (&bad);
  check_kept (&good);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/window/bad-input/opened", Program, NULL, program_set_up, test_opened, program_tear_down);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autofree char *path = g_strconcat ("/window/bad-input/started-with/", refused[i].name, NULL);

      g_test_add (path, Program, GSIZE_TO_POINTER (i), program_set_up, test_started, program_tear_down);
    }
  g_test_add ("/window/bad-input/listed", Program, NULL, program_set_up, test_listed, program_tear_down);
  return g_test_run ();
}
