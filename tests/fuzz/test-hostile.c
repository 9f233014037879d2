/* test-hostile.c - files made to do harm, through every reader
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/xml.h"
#include "handbook/handbook.h"
#include "model/clip.h"
#include "model/room.h"
#include "temp-folder.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <libxml/parser.h>
#include <string.h>

#define MEGABYTES_100 (100u << 20)
#define LEVELS 100000
#define MARKUP "<b onclick=\"alert(1)\">&bold; 'n' ]]> <!-- \"x\"</b>"
#define MARKUP_XML "&lt;b onclick=&quot;alert(1)&quot;&gt;&amp;bold; 'n' ]]&gt; &lt;!-- &quot;x&quot;&lt;/b&gt;"

typedef enum
{
  PROJECT, MACHINE, NEEDLES, THREADS, FABRICS, PREFERENCES, JOURNAL, OVERLAY, CLIPBOARD, N_READERS
} Reader;

static const struct
{
  const char *root, *ns, *file;          /* file: in the room; NULL elsewhere */
} readers[N_READERS] = {
  [PROJECT] = { "project", "urn:handwheel:project:1", NULL },
  [MACHINE] = { "machine", "urn:handwheel:room:1", "machines/m.xml" },
  [NEEDLES] = { "needles", "urn:handwheel:room:1", "needles.xml" },
  [THREADS] = { "threads", "urn:handwheel:room:1", "threads.xml" },
  [FABRICS] = { "fabrics", "urn:handwheel:room:1", "fabrics.xml" },
  [PREFERENCES] = { "preferences", "urn:handwheel:room:1", "preferences.xml" },
  [JOURNAL] = { "journal", "urn:handwheel:room:1", "journal/m-2031.xml" },
  [OVERLAY] = { "handbook", "urn:handwheel:handbook:1", "own.xml" },
  [CLIPBOARD] = { "clip", "urn:handwheel:project:1", NULL },
};

static char *folder;

/* (transfer full): what is said when the bytes are refused; NULL: they were taken */
static char *
offer (Reader      reader,
       const char *data,
       gsize       size)
{
  g_autofree char *path = NULL;
  g_autofree char *book = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwHandbook) handbook = NULL;
  g_autoptr (HwClip) clip = NULL;
  g_autofree char *parent = NULL;

  path = g_build_filename (folder, readers[reader].file != NULL ? readers[reader].file : "a.handwheel", NULL);
  parent = g_path_get_dirname (path);
  g_mkdir_with_parents (parent, 0755);
  g_assert_true (g_file_set_contents_full (path, data, (gssize) size, G_FILE_SET_CONTENTS_NONE, 0600, NULL));
  if (reader == PROJECT)
    project = hw_project_read (path, &error);
  else if (reader == CLIPBOARD)
    clip = hw_clip_parse (data, size, &error);
  else if (reader == OVERLAY)
    handbook = hw_handbook_load_with_overlay (book, folder, NULL, &error, NULL);
  else
    room = hw_room_open (folder, &error);
  g_unlink (path);
  if (error == NULL)
    return NULL;
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_null (strchr (error->message, '\n'));
  g_assert_cmpuint (strlen (error->message), <, 4096);
  return g_strdup (error->message);
}

static void
assert_refused (Reader      reader,
                const char *data,
                gsize       size,
                const char *says)
{
  gint64 begin = g_get_monotonic_time ();
  g_autofree char *told = offer (reader, data, size);

  if (told == NULL)
    g_error ("<%s> was taken", readers[reader].root);
  if (says != NULL && reader != CLIPBOARD && strstr (told, says) == NULL)
    g_error ("<%s>: %s", readers[reader].root, told);
  g_assert_cmpint (g_get_monotonic_time () - begin, <, 60 * G_USEC_PER_SEC);
}

/* "<ROOT xmlns…>INSIDE</ROOT>" after @before. */
static char *
make (Reader      reader,
      const char *before,
      const char *inside)
{
  return g_strdup_printf ("<?xml version=\"1.0\"?>\n%s<%s xmlns=\"%s\">%s</%s>\n", before, readers[reader].root,
                          readers[reader].ns, inside, readers[reader].root);
}

static void
test_entity_bomb (void)
{
  g_autoptr (GString) bomb = g_string_new ("<!DOCTYPE a [<!ENTITY e0 \"lol\">");

  for (int i = 1; i < 30; i++)
    g_string_append_printf (bomb, "<!ENTITY e%d \"&e%d;&e%d;&e%d;&e%d;\">", i, i - 1, i - 1, i - 1, i - 1);
  g_string_append (bomb, "]>");
  for (Reader reader = 0; reader < N_READERS; reader++)
    {
      g_autofree char *text = make (reader, bomb->str, "&e29;");
      assert_refused (reader, text, strlen (text), "DOCTYPE");
    }
}

/* Whatever points elsewhere, nobody calls there. */
static void
test_no_connection (void)
{
  g_autoptr (GSocket) listener = g_socket_new (G_SOCKET_FAMILY_IPV4, G_SOCKET_TYPE_STREAM, G_SOCKET_PROTOCOL_TCP, NULL);
  g_autoptr (GInetAddress) here = g_inet_address_new_loopback (G_SOCKET_FAMILY_IPV4);
  g_autoptr (GSocketAddress) address = g_inet_socket_address_new (here, 0);
  g_autoptr (GSocketAddress) bound = NULL;
  g_autoptr (GSocketClient) client = g_socket_client_new ();
  g_autoptr (GSocketConnection) own = NULL;
  g_autoptr (GError) error = NULL;
  static const char * const ways[] = {
    "<!DOCTYPE a SYSTEM \"http://127.0.0.1:%d/a.dtd\">",
    "<!DOCTYPE a PUBLIC \"-//A//B\" \"http://127.0.0.1:%d/a.dtd\">",
    "<!DOCTYPE a [<!ENTITY x SYSTEM \"http://127.0.0.1:%d/x\">]>", "<!DOCTYPE a [<!ENTITY %% x SYSTEM "
    "\"http://127.0.0.1:%d/x\"> %%x;]>", "<?xml-stylesheet href=\"http://127.0.0.1:%d/a.xsl\" type=\"text/xsl\"?>",
    "<?xml-model href=\"http://127.0.0.1:%d/a.rng\"?>",
  };
  int port;

  g_assert_true (g_socket_bind (listener, address, FALSE, &error));
  g_assert_true (g_socket_listen (listener, &error));
  bound = g_socket_get_local_address (listener, NULL);
  port = g_inet_socket_address_get_port (G_INET_SOCKET_ADDRESS (bound));
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    for (Reader reader = 0; reader < N_READERS; reader++)
      {
        g_auto (GStrv) parts = g_strsplit (ways[i], "%d", 2);
        g_autofree char *number = g_strdup_printf ("%d", port);
        g_autofree char *before = g_strjoinv (number, parts);
        g_autofree char *include = g_strdup_printf ("<x:include xmlns:x=\"http://www.w3.org/2001/XInclude\" "
                                                    "href=\"http://127.0.0.1:%d/i.xml\"/>&x;", port);
        g_autofree char *text = make (reader, before, include);
        g_autofree char *told = offer (reader, text, strlen (text));

        g_assert_nonnull (told);
      }
  g_assert_cmpint (g_socket_condition_check (listener, G_IO_IN), ==, 0);
  /* Had anybody called, it would have been seen. */
  own = g_socket_client_connect (client, G_SOCKET_CONNECTABLE (bound), NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (g_socket_condition_timed_wait (listener, G_IO_IN, 10 * G_USEC_PER_SEC, NULL, NULL), ==, TRUE);
}

static void
test_local_files (void)
{
  g_autofree char *secret = g_build_filename (folder, "secret", NULL);
  g_autofree char *before = g_strdup_printf ("<!DOCTYPE a [<!ENTITY x SYSTEM \"file://%s\">]>", secret);

  temp_folder_write (folder, "secret", "the password", -1);
  for (Reader reader = 0; reader < N_READERS; reader++)
    {
      g_autofree char *text = make (reader, before, "&x;");
      g_autofree char *told = offer (reader, text, strlen (text));

      g_assert_nonnull (told);
      g_assert_null (strstr (told, "password"));
    }
  g_unlink (secret);
}

static void
test_100_megabytes (void)
{
  g_autofree char *inside = g_malloc (MEGABYTES_100 + 1);
  g_autofree char *text = NULL;

  memset (inside, 'a', MEGABYTES_100);
  inside[MEGABYTES_100] = '\0';
  for (Reader reader = 0; reader < N_READERS; reader++)
    {
      g_free (text);
      text = make (reader, "", inside);
      assert_refused (reader, text, strlen (text), "too big");
    }
}

static void
test_levels (void)
{
  g_autoptr (GString) inside = g_string_new (NULL);

  for (int i = 0; i < LEVELS; i++)
    g_string_append (inside, "<a>");
  for (int i = 0; i < LEVELS; i++)
    g_string_append (inside, "</a>");
  for (Reader reader = 0; reader < N_READERS; reader++)
    {
      g_autofree char *text = make (reader, "", inside->str);
      assert_refused (reader, text, strlen (text), "deep");
    }
}

static void
test_bytes (void)
{
  static const struct { const char *inside; gsize size; const char *says; } bytes[] = {
    { "\xff\xfe", 2, "UTF-8" }, { "\xc0\xaf", 2, "UTF-8" }, { "\xed\xa0\x80", 3, "UTF-8" }, { "a\0b", 3, NULL },
    { "\xf4\x90\x80\x80", 4, "UTF-8" }, { "\x1b[2J", 4, NULL }, { "\xef\xbf\xbf", 3, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (bytes); i++)
    for (Reader reader = 0; reader < N_READERS; reader++)
      {
        g_autofree char *around = make (reader, "", "@");
        const char *at = strchr (around, '@');
        g_autoptr (GByteArray) data = g_byte_array_new ();

        g_byte_array_append (data, (const guint8 *) around, (guint) (at - around));
        g_byte_array_append (data, (const guint8 *) bytes[i].inside, (guint) bytes[i].size);
        g_byte_array_append (data, (const guint8 *) at + 1, (guint) strlen (at + 1));
        assert_refused (reader, (const char *) data->data, data->len, bytes[i].says);
      }
}

/* Every attribute that is a number, with what is none or far out of its range. */
static void
test_numbers (void)
{
  static const char * const wrong[] = { "NaN", "nan", "INF", "-inf", "1e999", "-1e999", "99999999999999999999", "0x10",
                                        "1,5", "", " ", "1e308", "-1", "1 2", "٣", "1e", "--1", "infinity" };
  static const struct { Reader reader; const char *inside; } numbers[] = {
    { PROJECT, "id=\"a\" title=\"A\"><fabrics><fabric id=\"f\" construction=\"c\" mass=\"@\"/></fabrics>" },
    { PROJECT, "id=\"a\" title=\"A\"><fabrics><fabric id=\"f\" construction=\"c\" mass=\"1\" thickness=\"@\"/>"
               "</fabrics>" },
    { PROJECT, "id=\"a\" title=\"A\"><threads><thread id=\"t\" handbook=\"h\" tex=\"@\"/></threads>" },
    { PROJECT, "id=\"a\" title=\"A\"><fabrics><fabric id=\"f\" handbook=\"h\"/></fabrics><steps>"
               "<operation number=\"1\" name=\"A\" purpose=\"seam\" length-cm=\"@\"><ply fabric=\"f\"/></operation>"
               "</steps>" },
    { PROJECT, "id=\"a\" title=\"A\"><fabrics><fabric id=\"f\" handbook=\"h\"/></fabrics><steps>"
               "<operation number=\"1\" name=\"A\" purpose=\"seam\" length-cm=\"1\" pieces=\"@\">"
               "<ply fabric=\"f\"/></operation></steps>" },
    { PROJECT, "id=\"a\" title=\"A\"><fabrics><fabric id=\"f\" handbook=\"h\"/></fabrics><steps>"
               "<operation number=\"1\" name=\"A\" purpose=\"seam\" length-cm=\"1\">"
               "<ply fabric=\"f\" count=\"@\"/></operation></steps>" },
    { PROJECT, "id=\"a\" title=\"A\"><fabrics><fabric id=\"f\" handbook=\"h\"/></fabrics><steps>"
               "<operation number=\"1\" name=\"A\" purpose=\"seam\" length-cm=\"1\"><ply fabric=\"f\"/>"
               "<set field=\"length\" value=\"@\"/>"
               "</operation></steps>" },
    { PROJECT, "id=\"a\" title=\"A\"><steps><hand number=\"1\" name=\"A\" kind=\"press\" minutes=\"@\"/></steps>" },
    { NEEDLES, "><needle id=\"a\" system=\"s\" point=\"p\" nm=\"@\"/>" },
    { NEEDLES, "><needle id=\"a\" system=\"s\" point=\"p\" nm=\"80\" count=\"@\"/>" },
    { THREADS, "><thread id=\"a\" handbook=\"h\" colour=\"c\" metres=\"@\" counted=\"2031-05-09T14:03:00Z\"/>" },
    { FABRICS, "><fabric id=\"a\" name=\"A\" handbook=\"h\" mass=\"@\"/>" },
    { FABRICS, "><fabric id=\"a\" name=\"A\" handbook=\"h\" width-cm=\"@\"/>" },
    { PREFERENCES, "hours-a-week=\"@\">" },
    { PREFERENCES, "><change part=\"walk\" minutes=\"@\"/>" },
    { JOURNAL, "machine=\"m\" year=\"2031\"><sewing id=\"a\" time=\"2031-05-09T14:00:00Z\" minutes=\"@\"/>" },
    { JOURNAL, "machine=\"m\" year=\"2031\"><sewing id=\"a\" time=\"2031-05-09T14:00:00Z\" minutes=\"1\" "
               "life=\"@\"/>" },
    { JOURNAL, "machine=\"m\" year=\"@\">" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (wrong); j++)
      {
        g_auto (GStrv) parts = g_strsplit (numbers[i].inside, "@", 2);
        g_autofree char *inside = g_strjoinv (wrong[j], parts);
        g_autofree char *text = g_strdup_printf ("<%s xmlns=\"%s\" %s</%s>\n", readers[numbers[i].reader].root,
                                                 readers[numbers[i].reader].ns, inside,
                                                 readers[numbers[i].reader].root);

        if (g_str_has_suffix (parts[0], "minutes=\"") && numbers[i].reader == PREFERENCES && strcmp (wrong[j], "") == 0)
          continue;
        assert_refused (numbers[i].reader, text, strlen (text), ":1: ");
      }
}

static void
test_10000_operations (void)
{
  g_autoptr (GString) text = g_string_new ("<project xmlns=\"urn:handwheel:project:1\" id=\"a\" title=\"A\">"
                                           "<fabrics><fabric id=\"f\" handbook=\"denim\"/></fabrics><steps>");
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = NULL;
  g_autoptr (HwProject) again = NULL;
  g_autofree char *bytes = NULL;
  gsize size = 0;

  for (int i = 1; i <= 10000; i++)
    g_string_append_printf (text, "<operation number=\"%d\" name=\"Seam\" after=\"%s\" purpose=\"seam\" "
                            "length-cm=\"10\"><ply fabric=\"f\" count=\"2\"/></operation>", i, i > 1 ? "1" : "");
  g_string_append (text, "</steps></project>");
  project = hw_project_parse ("a", text->str, text->len, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (project->steps->len, ==, 10000);
  bytes = hw_project_to_xml (project, &size);
  again = hw_project_parse ("a", bytes, size, &error);
  g_assert_no_error (error);
  g_assert_true (hw_project_is_equal (project, again));
}

/* ---- names ---- */

/* (transfer full): what the program prints; its exit status is checked. */
static char *
run_program (const char **arguments,
             int          wanted)
{
  g_autoptr (GSubprocessLauncher) launcher = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE
                                                                        | G_SUBPROCESS_FLAGS_STDERR_MERGE);
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process = NULL;
  g_autoptr (GBytes) out = NULL;
  gsize size = 0;
  const char *data;

  g_subprocess_launcher_setenv (launcher, "HANDWHEEL_ROOM", folder, TRUE);
  process = g_subprocess_launcher_spawnv (launcher, arguments, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_communicate (process, NULL, NULL, &out, NULL, &error));
  data = g_bytes_get_data (out, &size);
  if (g_subprocess_get_exit_status (process) != wanted)
    g_error ("%.*s", (int) size, data);
  return g_strndup (data, size);
}

static char *
write_project (const char *name)
{
  g_autofree char *text = g_strdup_printf (
    "<project xmlns=\"urn:handwheel:project:1\" id=\"a\" title=\"%1$s\"><note>%1$s</note><fabrics><fabric id=\"f\" "
    "name=\"%1$s\" handbook=\"denim\" colour=\"%1$s\"/></fabrics><threads><thread id=\"t\" handbook=\"polyester-27\" "
    "colour=\"%1$s\"/></threads><steps><operation number=\"1\" name=\"%1$s\" purpose=\"seam\" length-cm=\"100\">"
    "<ply fabric=\"f\" count=\"2\"/><note>%1$s</note></operation></steps></project>", name);
  char *path = g_build_filename (folder, "marked.handwheel", NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  return path;
}

static void
assert_well_formed (const char *text)
{
  xmlDoc *doc = xmlReadMemory (text, (int) strlen (text), NULL, NULL, XML_PARSE_NONET | XML_PARSE_NOERROR);

  if (doc == NULL)
    g_error ("not well-formed: %s", text);
  xmlFreeDoc (doc);
}

static void
test_markup (void)
{
  g_autofree char *path = write_project (MARKUP_XML);
  g_autofree char *svg = g_build_filename (folder, "card.svg", NULL);
  g_autofree char *card = NULL;
  const char *plan[] = { g_getenv ("HANDWHEEL"), "plan", path, "--format=xml", NULL };
  const char *people[] = { g_getenv ("HANDWHEEL"), "plan", path, NULL };
  const char *cards[] = { g_getenv ("HANDWHEEL"), "card", path, "-o", svg, NULL };
  g_autofree char *xml = run_program (plan, 0);
  g_autofree char *shown = run_program (people, 0);
  g_autofree char *told = run_program (cards, 0);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  int n = 0;

  assert_well_formed (xml);
  g_assert_nonnull (strstr (xml, "&lt;b onclick=&quot;alert(1)&quot;&gt;&amp;bold;"));
  g_assert_nonnull (strstr (shown, MARKUP));
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".svg"))
      {
        g_autofree char *drawn = temp_folder_read (folder, name);
        g_autofree char *of = g_build_filename (folder, name, NULL);

        assert_well_formed (drawn);
        g_assert_null (strstr (drawn, "onclick"));       /* text is drawn as glyphs, markup nowhere */
        g_unlink (of);
        n++;
      }
  g_assert_cmpint (n, >, 0);
  g_unlink (path);
}

static void
test_formulas (void)
{
  static const char * const formulas[] = { "=cmd|' /C calc'!A0", "+1+1", "-2+3", "@SUM(A1)",
                                           "=HYPERLINK(\"x\",\"y\")" };

  for (gsize i = 0; i < G_N_ELEMENTS (formulas); i++)
    {
      g_autofree char *escaped = g_markup_escape_text (formulas[i], -1);
      g_autofree char *path = write_project (escaped);
      const char *plan[] = { g_getenv ("HANDWHEEL"), "plan", path, "--format=csv", NULL };
      g_autofree char *csv = run_program (plan, 0);
      g_autofree char *bare = g_strdup_printf (",%s", formulas[i]);
      g_autofree char *quoted = g_strdup_printf ("\"%c", formulas[i][0]);

      g_assert_null (strstr (csv, bare));
      g_assert_null (strstr (csv, quoted));
      g_assert_nonnull (strchr (csv, formulas[i][0]));
      g_unlink (path);
    }
}

/* A name may be any bytes but "/": read, written, spoken of in one line of valid text. */
static void
test_file_names (void)
{
  static const char * const names[] = { "a b c.handwheel", "line\nbreak.handwheel", "\xff\xfe\x80.handwheel",
                                        "--help.handwheel", "-o.handwheel", "%s%n.handwheel", "<b>&amp;.handwheel",
                                        " .handwheel", "\xe2\x80\xae" "txt.handwheel", "tab\there.handwheel" };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);
      g_autoptr (HwProject) project = hw_project_new ("a", "A");
      g_autoptr (HwProject) again = NULL;
      g_autoptr (GError) error = NULL;
      const char *check[] = { g_getenv ("HANDWHEEL"), "check", path, NULL };
      g_autofree char *told = NULL;
      g_autofree char *refused = NULL;

      hw_project_write (project, path, &error);
      g_assert_no_error (error);
      again = hw_project_read (path, &error);
      g_assert_no_error (error);
      g_assert_cmpstr (again->title, ==, "A");
      told = run_program (check, 0);
      g_assert_true (g_utf8_validate (told, -1, NULL));
      temp_folder_write (folder, names[i], "<project", -1);
      refused = run_program (check, 1);
      g_assert_true (g_utf8_validate (refused, -1, NULL));
      g_assert_nonnull (strchr (refused, '\n'));
      g_assert_cmpstr (strchr (refused, '\n'), ==, "\n");
      g_unlink (path);
    }
}

int
main (int    argc,
      char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  folder = temp_folder_new ();
  g_test_add_func ("/hostile/entity-bomb", test_entity_bomb);
  g_test_add_func ("/hostile/no-connection", test_no_connection);
  g_test_add_func ("/hostile/local-files", test_local_files);
  g_test_add_func ("/hostile/100-megabytes", test_100_megabytes);
  g_test_add_func ("/hostile/100000-levels", test_levels);
  g_test_add_func ("/hostile/bytes", test_bytes);
  g_test_add_func ("/hostile/numbers", test_numbers);
  g_test_add_func ("/hostile/10000-operations", test_10000_operations);
  g_test_add_func ("/hostile/markup", test_markup);
  g_test_add_func ("/hostile/formulas", test_formulas);
  g_test_add_func ("/hostile/file-names", test_file_names);
  status = g_test_run ();
  temp_folder_remove (folder);
  return status;
}
