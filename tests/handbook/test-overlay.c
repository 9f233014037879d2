/* test-overlay.c - a person's own XML over the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "book-folder.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <string.h>

#define OPENING "<?xml version=\"1.0\"?>\n<handbook xmlns=\"urn:handwheel:handbook:1\">\n"
#define OWN_DENIM \
  "<fabric id=\"denim\" name=\"My denim\" construction=\"twill\" mass=\"410\" thickness=\"1\" source=\"mine\"/>\n"
#define OWN_SOURCE "<source id=\"mine\" kind=\"common-practice\" title=\"Weighed at home\"/>\n"

typedef struct
{
  char *folder;
  char *overlay;
} Folders;

static void
set_up (Folders       *self,
        gconstpointer  data)
{
  self->folder = book_folder_new ();
  self->overlay = temp_folder_new ();
}

static void
tear_down (Folders       *self,
           gconstpointer  data)
{
  temp_folder_remove (self->folder);
  temp_folder_remove (self->overlay);
}

static void
write_overlay (const Folders *self,
               const char    *name,
               const char    *inside)
{
  g_autofree char *text = g_strconcat (OPENING, inside, "</handbook>\n", NULL);

  temp_folder_write (self->overlay, name, text, -1);
}

/* Loads with the overlay, which must be taken. */
static HwHandbook *
load (const Folders *self)
{
  g_autoptr (GError) refused = NULL;
  g_autoptr (GError) error = NULL;
  HwHandbook *book = hw_handbook_load_with_overlay (self->folder, self->overlay, NULL, &refused, &error);

  g_assert_no_error (refused);
  g_assert_no_error (error);
  g_assert_nonnull (book);
  return book;
}

static const HwFabric *
find_fabric (const HwHandbook *book,
             const char       *id)
{
  int index = hw_handbook_find_fabric (book, id);

  return index >= 0 ? &book->fabrics[index] : NULL;
}

static void
test_replaces (Folders       *self,
               gconstpointer  data)
{
  g_autoptr (HwHandbook) plain = book_folder_load (self->folder);
  g_autoptr (HwHandbook) book = NULL;
  g_autofree char *path = g_build_filename (self->overlay, "mine.xml", NULL);

  write_overlay (self, "mine.xml", OWN_DENIM OWN_SOURCE);
  book = load (self);
  g_assert_cmpuint (book->n_fabrics, ==, plain->n_fabrics);
  g_assert_cmpint (hw_handbook_find_fabric (book, "denim"), ==, hw_handbook_find_fabric (plain, "denim"));
  g_assert_cmpstr (find_fabric (book, "denim")->entry.name, ==, "My denim");
  g_assert_cmpfloat (find_fabric (book, "denim")->mass_g_m2.prefer, ==, 410);
  g_assert_cmpuint (find_fabric (book, "denim")->traits, ==, 0);               /* nothing of the old one is left */
  g_assert_cmpstr (find_fabric (book, "denim")->entry.source->title, ==, "Weighed at home");
  g_assert_cmpstr (find_fabric (book, "denim")->entry.file, ==, path);
  g_assert_cmpint (find_fabric (book, "denim")->entry.line, ==, 3);
  g_assert_cmpstr (find_fabric (book, "jersey-light")->entry.file, ==, "a-cloth.xml");
}

static void
test_adds (Folders       *self,
           gconstpointer  data)
{
  g_autoptr (HwHandbook) book = NULL;

  write_overlay (self, "mine.xml", "<fabric id=\"drill\" name=\"Drill\" construction=\"twill\" mass=\"280\" "
                 "thickness=\"0.6\" source=\"practice\"/>");
  book = load (self);
  g_assert_cmpuint (book->n_fabrics, ==, 3);
  g_assert_cmpfloat (find_fabric (book, "drill")->mass_g_m2.prefer, ==, 280);
  g_assert_cmpstr (find_fabric (book, "denim")->entry.name, ==, "Denim");
}

/* Same id in another table is another entry. */
static void
test_by_element (Folders       *self,
                 gconstpointer  data)
{
  g_autoptr (HwHandbook) book = NULL;

  write_overlay (self, "mine.xml", "<trait id=\"denim\" name=\"Like denim\" source=\"practice\"/>");
  book = load (self);
  g_assert_cmpuint (book->n_traits, ==, 3);
  g_assert_cmpstr (find_fabric (book, "denim")->entry.name, ==, "Denim");
}

static void
test_rows_come_first (Folders       *self,
                      gconstpointer  data)
{
  g_autoptr (HwHandbook) plain = book_folder_load (self->folder);
  g_autoptr (HwHandbook) book = NULL;
  gsize n = plain->n_rules[HW_RULES_THREAD];
  const HwRule *rules;

  write_overlay (self, "mine.xml", "<table for=\"thread\" source=\"practice\">"
                 "<row mass=\"300 -\" low=\"40\" prefer=\"60\" high=\"80\">Mine.</row>"
                 "<row low=\"20\" prefer=\"24\" high=\"27\">Mine too.</row></table>");
  book = load (self);
  rules = book->rules[HW_RULES_THREAD];
  g_assert_cmpuint (book->n_rules[HW_RULES_THREAD], ==, n + 2);
  g_assert_cmpstr (rules[0].text, ==, "Mine.");
  g_assert_cmpfloat (rules[0].mass.low, ==, 300);
  g_assert_cmpstr (rules[1].text, ==, "Mine too.");
  g_assert_cmpint (rules[1].subject, ==, HW_RULES_THREAD);
  g_assert_cmpint (rules[1].choice, ==, -1);
  g_assert_cmpstr (rules[2].text, ==, plain->rules[HW_RULES_THREAD][0].text);
  g_assert_cmpuint (book->n_rules[HW_RULES_FOOT], ==, plain->n_rules[HW_RULES_FOOT]);
}

/* A subject that the handbook has no rows for. */
static void
test_new_table (Folders       *self,
                gconstpointer  data)
{
  g_autoptr (HwHandbook) book = NULL;

  write_overlay (self, "mine.xml", "<table for=\"differential\" source=\"practice\">"
                 "<row low=\"1\" prefer=\"1.2\" high=\"1.5\">Mine.</row></table>");
  book = load (self);
  g_assert_cmpuint (book->n_rules[HW_RULES_DIFFERENTIAL], ==, 1);
}

static void
test_once (Folders       *self,
           gconstpointer  data)
{
  g_autoptr (HwHandbook) book = NULL;

  write_overlay (self, "mine.xml", "<hours running-share=\"0.5\" source=\"practice\"/>");
  book = load (self);
  g_assert_cmpfloat (book->running_share, ==, 0.5);
  g_assert_cmpfloat (book->needle_life.at_machine_hours, ==, 15);
}

/* Garments, faults and words are entries like others. */
static void
test_other_entries (Folders       *self,
                    gconstpointer  data)
{
  g_autofree char *garment = book_folder_good ("d-garment.xml");
  g_autofree char *fault = book_folder_good ("e-fault.xml");
  g_autoptr (HwHandbook) book = NULL;
  g_autofree char *own = NULL;
  int line = 0;

  temp_folder_write (self->folder, "d-garment.xml", garment, -1);
  temp_folder_write (self->folder, "e-fault.xml", fault, -1);
  own = book_change (garment, "value=\"$drop + 40\"", "value=\"$drop + 60\"", &line);
  temp_folder_write (self->overlay, "d-garment.xml", own, -1);
  write_overlay (self, "words.xml", "<term id=\"dial\" name=\"Wheel\" source=\"practice\"><note>Mine.</note></term>");
  book = load (self);
  g_assert_cmpuint (book->n_garments, ==, 1);
  g_assert_cmpstr (book->garments[0].lets[0].value, ==, "$drop + 60");
  g_assert_cmpuint (book->n_terms, ==, 2);
  g_assert_cmpstr (book->terms[hw_handbook_find_term (book, "dial")].entry.name, ==, "Wheel");
}

static void
test_nothing (Folders       *self,
              gconstpointer  data)
{
  g_autofree char *absent = g_build_filename (self->overlay, "absent", NULL);
  const char * const overlays[] = { NULL, absent, self->overlay };

  temp_folder_write (self->overlay, "notes.txt", "no XML", -1);
  temp_folder_write (self->overlay, ".hidden.xml", "no XML", -1);
  for (gsize i = 0; i < G_N_ELEMENTS (overlays); i++)
    {
      g_autoptr (GError) refused = NULL;
      g_autoptr (GError) error = NULL;
      g_autoptr (HwHandbook) book = hw_handbook_load_with_overlay (self->folder, overlays[i], NULL, &refused, &error);

      g_assert_no_error (refused);
      g_assert_no_error (error);
      g_assert_cmpuint (book->n_fabrics, ==, 2);
    }
}

/* ---- what is known already ---- */

/* (transfer full): the mark; NULL: the handbook was refused. */
static char *
load_known (const Folders *self,
            const char    *known)
{
  g_autofree char *mark = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) book = hw_handbook_load_known (self->folder, self->overlay, NULL, known, &mark, NULL, &error);

  g_assert_true ((book != NULL) == (error == NULL));
  g_assert_true ((book != NULL) == (mark != NULL));
  if (book != NULL)
    g_assert_cmpuint (book->n_fabrics, >=, 2);
  return g_steal_pointer (&mark);
}

static void
test_known (Folders       *self,
            gconstpointer  data)
{
  g_autofree char *bare = load_known (self, NULL);
  g_autofree char *again = load_known (self, bare);
  g_autofree char *with_own = NULL;
  g_autofree char *refused_own = NULL;

  g_assert_cmpstr (again, ==, bare);
  write_overlay (self, "own.xml", OWN_SOURCE OWN_DENIM);
  with_own = load_known (self, bare);
  g_assert_cmpstr (with_own, !=, bare);
  write_overlay (self, "own.xml", OWN_DENIM);            /* its source is gone: left out */
  refused_own = load_known (self, with_own);
  g_assert_cmpstr (refused_own, ==, bare);
}

/* The schema counts as one of the files: what an earlier one let through is looked at again. */
static void
test_known_schema (Folders       *self,
                   gconstpointer  data)
{
  static const char schema[] = "<grammar xmlns=\"http://relaxng.org/ns/structure/1.0\">"
                               "<start><element name=\"nothing\"><empty/></element></start></grammar>";
  g_autofree char *mark = load_known (self, NULL);

  g_assert_nonnull (mark);
  temp_folder_write (self->folder, "handbook.rng", schema, -1);
  g_assert_null (load_known (self, mark));
}

/* ---- what is refused ---- */

typedef struct
{
  const char     *path;
  const char     *inside;                /* after the two lines of the opening */
  int             line;
  HwHandbookError code;
  const char     *said;
} Refused;

static const Refused refused[] = {
  { "/overlay/refused/figure", OWN_SOURCE "<fabric id=\"denim\" name=\"D\" construction=\"twill\" mass=\"-4\" "
    "thickness=\"1\" source=\"mine\"/>", 4, HW_HANDBOOK_ERROR_INVALID, "fabric “denim”: “mass” must be a number" },
  { "/overlay/refused/reference", "\n<fabric id=\"x\" name=\"X\" construction=\"twil\" mass=\"4\" thickness=\"1\" "
    "source=\"practice\"/>", 4, HW_HANDBOOK_ERROR_UNKNOWN, "(did you mean “twill”?)" },
  { "/overlay/refused/malformed", "<fabric>", 3, HW_HANDBOOK_ERROR_MALFORMED, "close every element" },
  { "/overlay/refused/element", "<fabrik id=\"x\"/>", 3, HW_HANDBOOK_ERROR_INVALID, "(did you mean <fabric>?)" },
  { "/overlay/refused/twice", OWN_SOURCE OWN_DENIM OWN_DENIM, 5, HW_HANDBOOK_ERROR_INVALID, "is already at" },
  { "/overlay/refused/table-twice", "<table for=\"thread\"/>\n<table for=\"thread\"/>", 4, HW_HANDBOOK_ERROR_INVALID,
    "the table for “thread” is already at" },
  { "/overlay/refused/row", "<table for=\"thread\" source=\"practice\">\n"
    "<row low=\"3\" prefer=\"2\" high=\"4\">M.</row></table>", 4, HW_HANDBOOK_ERROR_INVALID,
    "table “thread”, row 1: low, prefer, high" },
  { "/overlay/refused/schema", "<source id=\"s\" kind=\"book\" title=\"T\">stray words</source>", 3,
    HW_HANDBOOK_ERROR_INVALID, "does not follow the schema" },
};

/* File, line and reason; and the handbook as it is without. */
static void
test_refused (Folders       *self,
              gconstpointer  data)
{
  const Refused *one = data;
  g_autoptr (GError) reason = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHandbook) book = NULL;
  g_autofree char *place = g_strdup_printf ("%s/a-cloth.xml:%d: ", self->overlay, one->line);

  write_overlay (self, "a-cloth.xml", one->inside);            /* called like one of the handbook's own */
  write_overlay (self, "good.xml", "<hours running-share=\"0.5\" source=\"practice\"/>");
  book = hw_handbook_load_with_overlay (self->folder, self->overlay, NULL, &reason, &error);
  g_assert_no_error (error);
  g_assert_error (reason, HW_HANDBOOK_ERROR, (int) one->code);
  g_test_message ("%s", reason->message);
  g_assert_true (g_str_has_prefix (reason->message, place));
  g_assert_nonnull (strstr (reason->message, one->said));
  g_assert_nonnull (book);
  g_assert_cmpstr (find_fabric (book, "denim")->entry.name, ==, "Denim");
  g_assert_cmpfloat (book->running_share, ==, 0.35);           /* refused as a whole: the good file is left out too */
}

/* When the handbook is wrong by itself, the overlay is not to blame. */
static void
test_handbook_wrong (Folders       *self,
                     gconstpointer  data)
{
  g_autoptr (GError) reason = NULL;
  g_autoptr (GError) error = NULL;

  temp_folder_write (self->folder, "a-cloth.xml", "<handbook", -1);
  write_overlay (self, "mine.xml", "<fabrik/>");
  g_assert_null (hw_handbook_load_with_overlay (self->folder, self->overlay, NULL, &reason, &error));
  g_assert_no_error (reason);
  g_assert_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_MALFORMED);
  g_assert_true (g_str_has_prefix (error->message, "a-cloth.xml:1: "));
}

/* Callers that do not ask why get the handbook all the same. */
static void
test_unasked (Folders       *self,
              gconstpointer  data)
{
  g_autoptr (HwHandbook) book = NULL;

  write_overlay (self, "mine.xml", "<fabrik/>");
  book = hw_handbook_load_with_overlay (self->folder, self->overlay, NULL, NULL, NULL);
  g_assert_nonnull (book);
}

int
main (int    argc,
      char **argv)
{
  static const struct { const char *path; void (*test) (Folders *, gconstpointer); } tests[] = {
    { "/overlay/replaces", test_replaces },
    { "/overlay/adds", test_adds },
    { "/overlay/by-element", test_by_element },
    { "/overlay/rows-come-first", test_rows_come_first },
    { "/overlay/new-table", test_new_table },
    { "/overlay/once", test_once },
    { "/overlay/other-entries", test_other_entries },
    { "/overlay/nothing", test_nothing },
    { "/overlay/known", test_known },
    { "/overlay/known-schema", test_known_schema },
    { "/overlay/handbook-wrong", test_handbook_wrong },
    { "/overlay/unasked", test_unasked },
  };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Folders, NULL, set_up, tests[i].test, tear_down);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    g_test_add (refused[i].path, Folders, &refused[i], set_up, test_refused, tear_down);
  return g_test_run ();
}
