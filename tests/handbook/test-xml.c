/* test-xml.c - reading XML from strangers, and writing it the same way every time
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/xml.h"
#include "temp-folder.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define NS "urn:handwheel:test:1"
#define ROOT "<test xmlns=\"" NS "\""

static HwXml *
read_text (const char *text,
           GError    **error)
{
  return hw_xml_read_bytes ("shirt.xml", text, strlen (text), "test", NS, error);
}

/* ---- documents that are refused ---- */

typedef struct
{
  const char *path;
  const char *text;
  HwXmlError  code;
  const char *begins;                    /* the message: place and what is wrong */
  const char *remedy;
} Refused;

static const Refused refused[] = {
  { "/xml/refused/empty", "", HW_XML_ERROR_MALFORMED, "shirt.xml:1: the file is empty", "must begin with “<test”" },
  { "/xml/refused/white-space", "  \n", HW_XML_ERROR_MALFORMED, "shirt.xml:", "“<test”" },
  { "/xml/refused/prose", "Dear all,\n", HW_XML_ERROR_MALFORMED, "shirt.xml:1: this is not an XML file",
    "must begin with “<test”" },
  { "/xml/refused/cut-short", ROOT ">\n<a>\n", HW_XML_ERROR_MALFORMED, "shirt.xml:3: this is not well-formed XML",
    "close every element" },
  { "/xml/refused/first-cause", ROOT ">\n<a>\n</b>\n</test>", HW_XML_ERROR_MALFORMED, "shirt.xml:3:",
    "close every element" },
  { "/xml/refused/bare-ampersand", ROOT ">\nred & blue</test>", HW_XML_ERROR_MALFORMED, "shirt.xml:2:",
    "write “&” as &amp;" },
  { "/xml/refused/unknown-entity", ROOT ">\n\n&what;</test>", HW_XML_ERROR_MALFORMED, "shirt.xml:3:",
    "write “&” as &amp;" },
  { "/xml/refused/unquoted", ROOT ">\n<a b=1/></test>", HW_XML_ERROR_MALFORMED, "shirt.xml:2:", "name=\"value\"" },
  { "/xml/refused/twice", ROOT " a=\"1\"\n a=\"2\"/>", HW_XML_ERROR_MALFORMED, "shirt.xml:2:", "keep only one" },
  { "/xml/refused/two-roots", ROOT "/>\n<a/>", HW_XML_ERROR_MALFORMED, "shirt.xml:2:", "the one outermost element" },
  { "/xml/refused/prefix", ROOT ">\n<p:a/></test>", HW_XML_ERROR_MALFORMED, "shirt.xml:2:", "without its prefix" },
  { "/xml/refused/control-character", ROOT ">\n\x01</test>", HW_XML_ERROR_MALFORMED, "shirt.xml:2:", "correct" },
  { "/xml/refused/latin-1", ROOT ">\n\n<a b=\"caf\xe9\"/></test>", HW_XML_ERROR_MALFORMED, "shirt.xml:3:",
    "save the file as UTF-8" },
  { "/xml/refused/surrogate", ROOT ">\xed\xa0\x80</test>", HW_XML_ERROR_MALFORMED, "shirt.xml:1:", "UTF-8" },
  { "/xml/refused/doctype", "\n<!DOCTYPE test>\n" ROOT "/>", HW_XML_ERROR_FORBIDDEN, "shirt.xml:2: a DOCTYPE",
    "take the whole" },
  { "/xml/refused/external-dtd", "<!DOCTYPE test SYSTEM \"http://localhost/x.dtd\">" ROOT "/>",
    HW_XML_ERROR_FORBIDDEN, "shirt.xml:1: a DOCTYPE", "take the whole" },
  { "/xml/refused/internal-subset", "<!DOCTYPE test [<!ELEMENT test ANY>]>" ROOT "/>", HW_XML_ERROR_FORBIDDEN,
    "shirt.xml:1: a DOCTYPE", "take the whole" },
  { "/xml/refused/external-entity", "<!DOCTYPE test [<!ENTITY e SYSTEM \"file:///etc/hostname\">]>" ROOT ">&e;</test>",
    HW_XML_ERROR_FORBIDDEN, "shirt.xml:1: a DOCTYPE", "take the whole" },
  { "/xml/refused/entity-bomb",
    "<!DOCTYPE test [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\">"
    "<!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;\"><!ENTITY d \"&c;&c;&c;&c;&c;&c;&c;&c;&c;&c;\">]>" ROOT ">&d;</test>",
    HW_XML_ERROR_FORBIDDEN, "shirt.xml:1: a DOCTYPE", "take the whole" },
  { "/xml/refused/newer-version", "<test xmlns=\"urn:handwheel:test:2\"/>", HW_XML_ERROR_NAMESPACE,
    "shirt.xml:1: this file was made by a newer version", "update Handwheel" },
  { "/xml/refused/other-kind", "<test xmlns=\"urn:handwheel:room:1\"/>", HW_XML_ERROR_NAMESPACE,
    "shirt.xml:1: this is another kind of file", NS },
  { "/xml/refused/no-namespace", "\n<test/>", HW_XML_ERROR_NAMESPACE, "shirt.xml:2: the outermost element has no",
    "write <test xmlns=\"" NS "\">" },
  { "/xml/refused/other-root", "<tset xmlns=\"" NS "\"/>", HW_XML_ERROR_NAMESPACE,
    "shirt.xml:1: the outermost element is <tset>", "must be <test>" },
};

static void
test_refused (gconstpointer data)
{
  const Refused *c = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) xml = read_text (c->text, &error);

  g_assert_null (xml);
  g_assert_error (error, HW_XML_ERROR, (int) c->code);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, c->begins));
  g_assert_nonnull (strstr (error->message, c->remedy));
  g_assert_null (strchr (error->message, '\n'));
}

static void
test_nul (void)
{
  static const char text[] = ROOT ">\na\0b</test>";
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) xml = hw_xml_read_bytes ("shirt.xml", text, sizeof text - 1, "test", NS, &error);

  g_assert_null (xml);
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED);
  g_assert_true (g_str_has_prefix (error->message, "shirt.xml:2:"));
}

static HwXml *
read_nested (int      depth,
             GError **error)
{
  g_autoptr (GString) text = g_string_new (ROOT ">");

  for (int i = 1; i < depth; i++)
    g_string_append (text, "\n<a>");
  for (int i = 1; i < depth; i++)
    g_string_append (text, "</a>");
  g_string_append (text, "</test>");
  return read_text (text->str, error);
}

static void
test_depth (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) fits = read_nested (64, &error);
  HwXml *refused_xml;

  g_assert_no_error (error);
  g_assert_nonnull (fits);
  refused_xml = read_nested (65, &error);
  g_assert_null (refused_xml);
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_FORBIDDEN);
  g_assert_true (g_str_has_prefix (error->message, "shirt.xml:65:"));
  g_clear_error (&error);
  g_assert_null (read_nested (100000, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_FORBIDDEN);
}

/* Only an unclosed element tells whether parsing really stopped at the DOCTYPE: what follows is never looked at. */
static void
test_stops_at_doctype (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (read_text ("<!DOCTYPE a [ <!ENTITY % b \"\n<<<", &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_FORBIDDEN);
}

/* ---- documents that are taken ---- */

static void
test_accepted (void)
{
  static const char * const texts[] = {
    ROOT "/>",
    "\xef\xbb\xbf" ROOT "/>",
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\r\n<!-- note -->\r\n" ROOT "></test>\r\n",
    "<t:test xmlns:t=\"" NS "\"/>",
    ROOT ">&amp;&lt;&#233;<![CDATA[<]]></test>",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HwXml) xml = read_text (texts[i], &error);
      g_assert_no_error (error);
      g_assert_cmpstr ((const char *) hw_xml_root (xml)->name, ==, "test");
      g_assert_cmpstr (hw_xml_name (xml), ==, "shirt.xml");
    }
}

/* The bytes are UTF-8; a declaration that says otherwise must not turn é into two letters. */
static void
test_declared_otherwise (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) xml = read_text ("<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>" ROOT ">é</test>", &error);
  g_autofree char *text = NULL;

  g_assert_no_error (error);
  text = hw_xml_dup_text (hw_xml_root (xml));
  g_assert_cmpstr (text, ==, "é");
}

static HwXml *
read_good (const char *text)
{
  g_autoptr (GError) error = NULL;
  HwXml *xml = read_text (text, &error);

  g_assert_no_error (error);
  return xml;
}

/* The line on which a tag begins, not the one on which it ends. */
static void
test_line_of_tag (void)
{
  g_autoptr (HwXml) xml = read_good (ROOT ">\n<a\n b=\"1\"\n\n/><b\n>\n</b>\n\n<c d='>\n'/></test>");
  const xmlNode *a = hw_xml_first (hw_xml_root (xml), "a");
  const xmlNode *b = hw_xml_next (a, "b");

  g_assert_cmpint (hw_xml_line (hw_xml_root (xml)), ==, 1);
  g_assert_cmpint (hw_xml_line (a), ==, 2);
  g_assert_cmpint (hw_xml_line (b), ==, 5);
  g_assert_cmpint (hw_xml_line (hw_xml_next (b, "c")), ==, 9);
}

static void
test_long_lines (void)
{
  g_autoptr (GString) text = g_string_new (ROOT ">");
  g_autoptr (GError) error = NULL;
  g_autoptr (HwXml) xml = NULL;

  for (int i = 0; i < 70000; i++)
    g_string_append_c (text, '\n');
  g_string_append (text, "<a>x</a></test>");
  xml = read_text (text->str, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hw_xml_line (hw_xml_first (hw_xml_root (xml), "a")), ==, 70001);
}

/* ---- files ---- */

static void
test_file (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = temp_folder_new ();
  g_autofree char *path = g_build_filename (folder, "a.xml", NULL);
  HwXml *xml;

  g_assert_null (hw_xml_read_file (path, 1000, "test", NS, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_READ);
  g_assert_nonnull (strstr (error->message, "a.xml"));
  g_clear_error (&error);

  temp_folder_write (folder, "a.xml", ROOT "/>", -1);
  xml = hw_xml_read_file (path, strlen (ROOT "/>"), "test", NS, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (hw_xml_name (xml), ==, "a.xml");
  hw_xml_free (xml);

  g_assert_null (hw_xml_read_file (path, strlen (ROOT "/>") - 1, "test", NS, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG);
  g_clear_error (&error);

  temp_folder_write (folder, "a.xml", "", 0);
  g_assert_null (hw_xml_read_file (path, 1000, "test", NS, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_MALFORMED);
  temp_folder_remove (folder);
}

/* A sparse file of 8 GB would take minutes and all memory if its size were not looked at first. */
static void
test_huge_file (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = temp_folder_new ();
  g_autofree char *path = g_build_filename (folder, "a.xml", NULL);
  gint64 start = g_get_monotonic_time ();

  temp_folder_write (folder, "a.xml", "", 0);
  if (truncate (path, 8ll << 30) != 0)
    g_test_skip ("this file system has no sparse files");
  else
    {
      g_assert_null (hw_xml_read_file (path, 1 << 20, "test", NS, &error));
      g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG);
      g_assert_cmpint (g_get_monotonic_time () - start, <, 2 * G_USEC_PER_SEC);
    }
  temp_folder_remove (folder);
}

static void
test_not_a_file (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = temp_folder_new ();
  g_autofree char *path = g_build_filename (folder, "pipe.xml", NULL);

  g_assert_null (hw_xml_read_file (folder, 1000, "test", NS, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_READ);
  g_clear_error (&error);
  g_assert_cmpint (mkfifo (path, 0600), ==, 0);
  g_assert_null (hw_xml_read_file (path, 1000, "test", NS, &error));       /* and does not wait for a writer */
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_READ);
  temp_folder_remove (folder);
}

/* ---- walking and attributes ---- */

static void
test_walking (void)
{
  g_autoptr (HwXml) xml = read_good (ROOT ">text<a/><!-- b --><b/><x:a xmlns:x=\"urn:x\"/><a n=\"2\"/></test>");
  xmlNode *root = hw_xml_root (xml);
  xmlNode *first = hw_xml_first (root, NULL);
  xmlNode *stranger = hw_xml_next (hw_xml_next (first, NULL), NULL);
  g_autofree char *n = NULL;

  g_assert_true (hw_xml_is (root, "test"));
  g_assert_true (hw_xml_is (first, "a"));
  g_assert_false (hw_xml_is (first, "b"));
  g_assert_true (hw_xml_is (hw_xml_next (first, NULL), "b"));
  g_assert_cmpstr ((const char *) stranger->name, ==, "a");
  g_assert_false (hw_xml_is (stranger, "a"));                    /* another namespace */
  g_assert_true (hw_xml_first (root, "a") == first);
  n = hw_xml_dup_attr (hw_xml_next (first, "a"), "n");
  g_assert_cmpstr (n, ==, "2");
  g_assert_null (hw_xml_next (hw_xml_next (first, "a"), NULL));
  g_assert_null (hw_xml_first (root, "c"));
  g_assert_null (hw_xml_first (first, NULL));
}

static void
test_text_and_words (void)
{
  g_autoptr (HwXml) xml = read_good (ROOT " w=\" red\n\tblue \" e=\"\">  Two \n words <!-- -->&amp; more.\n</test>");
  xmlNode *root = hw_xml_root (xml);
  g_autofree char *text = hw_xml_dup_text (root);
  g_auto (GStrv) words = hw_xml_dup_words (root, "w");
  g_auto (GStrv) empty = hw_xml_dup_words (root, "e");
  g_auto (GStrv) absent = hw_xml_dup_words (root, "absent");

  g_assert_cmpstr (text, ==, "Two words & more.");
  g_assert_cmpuint (g_strv_length (words), ==, 2);
  g_assert_cmpstr (words[0], ==, "red");
  g_assert_cmpstr (words[1], ==, "blue");
  g_assert_cmpuint (g_strv_length (empty), ==, 0);
  g_assert_cmpuint (g_strv_length (absent), ==, 0);
}

typedef struct
{
  const char *text;
  double      low, high;
  double      value;                     /* NAN: refused */
  const char *message;
} Number;

static const Number numbers[] = {
  { "2.5", 0, 10, 2.5, NULL },
  { "-4", -10, 10, -4, NULL },
  { "1e3", 0, 1000, 1000, NULL },
  { "0", 0, 0, 0, NULL },
  { ".5", 0, INFINITY, 0.5, NULL },
  { "-4", 0.1, 100000, NAN, "shirt.xml:1: “n” must be a number from 0.1 to 100000; it is “-4”" },
  { "2,5", 0, 10, NAN, "write it with a point, “2.5”" },
  { "", 0, 10, NAN, "it is “”" },
  { " 2", 0, 10, NAN, "it is “ 2”" },
  { "2 mm", 0, 10, NAN, "it is “2 mm”" },
  { "nan", 0, 10, NAN, "it is “nan”" },
  { "inf", 0, INFINITY, NAN, "a number of 0 or more" },
  { "1e999", 0, INFINITY, NAN, "a number of 0 or more" },
  { "0x10", 0, 100, NAN, "it is “0x10”" },
  { "--1", -10, 10, NAN, "it is “--1”" },
  { "1.2.3", 0, 10, NAN, "it is “1.2.3”" },
  { "x", -INFINITY, INFINITY, NAN, "must be a number; it is “x”" },
  { "9", -INFINITY, 8, NAN, "a number of 8 or less" },
};

static void
test_numbers (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      const Number *c = &numbers[i];
      g_autoptr (GError) error = NULL;
      g_autofree char *text = g_strdup_printf (ROOT " n=\"%s\"/>", c->text);
      g_autoptr (HwXml) xml = read_good (text);
      double value = 77;
      gboolean done = hw_xml_get_number (xml, hw_xml_root (xml), "n", c->low, c->high, &value, &error);

      g_assert_cmpint (done, ==, c->message == NULL);
      if (done)
        {
          g_assert_no_error (error);
          g_assert_cmpfloat (value, ==, c->value);
          continue;
        }
      g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_INVALID);
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, c->message));
      g_assert_cmpfloat (value, ==, 77);                          /* left alone */
    }
}

static void
test_missing (void)
{
  static const char * const words[] = { "round", "ball", NULL };
  g_autoptr (HwXml) xml = read_good (ROOT "/>");
  xmlNode *root = hw_xml_root (xml);
  g_autoptr (GError) error = NULL;
  double number = 7;
  int whole = 7, index = 7;

  g_assert_true (hw_xml_get_number (xml, root, "n", 0, 1, &number, &error));
  g_assert_true (hw_xml_get_int (xml, root, "n", 0, 1, &whole, &error));
  g_assert_true (hw_xml_get_word (xml, root, "n", words, &index, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (number, ==, 7);
  g_assert_cmpint (whole, ==, 7);
  g_assert_cmpint (index, ==, 7);

  g_assert_false (hw_xml_get_required_number (xml, root, "mass", 0, 10, &number, &error));
  g_assert_cmpstr (error->message, ==,
                   "shirt.xml:1: “mass” is missing; write <test mass=\"…\"> with a number from 0 to 10");
  g_clear_error (&error);
  g_assert_false (hw_xml_get_required_word (xml, root, "form", words, &index, &error));
  g_assert_nonnull (strstr (error->message, "write <test form=\"…\"> with one of round, ball"));
  g_clear_error (&error);
  g_assert_null (hw_xml_dup_required (xml, root, "id", &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_INVALID);
}

static void
test_whole_numbers (void)
{
  g_autoptr (HwXml) xml = read_good (ROOT " a=\"12\" b=\"1.5\" c=\"99999999999\"/>");
  xmlNode *root = hw_xml_root (xml);
  g_autoptr (GError) error = NULL;
  int value = 0;

  g_assert_true (hw_xml_get_int (xml, root, "a", 0, 20, &value, &error));
  g_assert_cmpint (value, ==, 12);
  g_assert_false (hw_xml_get_int (xml, root, "b", 0, 20, &value, &error));
  g_assert_nonnull (strstr (error->message, "a whole number from 0 to 20; it is “1.5”"));
  g_clear_error (&error);
  g_assert_false (hw_xml_get_int (xml, root, "c", G_MININT, G_MAXINT, &value, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_INVALID);
  g_assert_cmpint (value, ==, 12);
}

static void
test_words_of_a_list (void)
{
  static const char * const words[] = { "round", "ball", "cutting", NULL };
  g_autoptr (HwXml) xml = read_good (ROOT " a=\"ball\" b=\"cuting\" c=\"wedge&#10;shaped\"/>");
  xmlNode *root = hw_xml_root (xml);
  g_autoptr (GError) error = NULL;
  int index = -1;

  g_assert_true (hw_xml_get_word (xml, root, "a", words, &index, &error));
  g_assert_cmpint (index, ==, 1);
  g_assert_false (hw_xml_get_word (xml, root, "b", words, &index, &error));
  g_assert_cmpstr (error->message, ==, "shirt.xml:1: “b” must be one of round, ball, cutting; it is “cuting” "
                                       "(did you mean “cutting”?)");
  g_clear_error (&error);
  g_assert_false (hw_xml_get_word (xml, root, "c", words, &index, &error));
  g_assert_nonnull (strstr (error->message, "it is “wedge shaped”"));      /* on one line */
  g_assert_null (strstr (error->message, "did you mean"));
}

static void
test_unknown_attributes (void)
{
  static const char * const known[] = { "mass", "stretch", NULL };
  g_autoptr (HwXml) good = read_good (ROOT " mass=\"1\" stretch=\"2\"/>");
  g_autoptr (HwXml) slip = read_good (ROOT " mas=\"1\"/>");
  g_autoptr (HwXml) other = read_good (ROOT " colour=\"1\"/>");
  g_autoptr (HwXml) stranger = read_good (ROOT " xmlns:x=\"urn:x\" x:mass=\"1\"/>");
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_xml_check_attributes (good, hw_xml_root (good), known, &error));
  g_assert_false (hw_xml_check_attributes (slip, hw_xml_root (slip), known, &error));
  g_assert_nonnull (strstr (error->message, "<test> has no attribute “mas” (did you mean “mass”?)"));
  g_clear_error (&error);
  g_assert_false (hw_xml_check_attributes (other, hw_xml_root (other), known, &error));
  g_assert_nonnull (strstr (error->message, "it may have mass, stretch"));
  g_clear_error (&error);
  g_assert_false (hw_xml_check_attributes (stranger, hw_xml_root (stranger), known, &error));
}

static void
test_nearest (void)
{
  static const char * const known[] = { "denim", "satin", "single-jersey", "R", NULL };
  g_autofree char *endless = g_strnfill (5000, 'd');

  g_assert_cmpstr (hw_xml_nearest ("demin", known), ==, "denim");           /* two letters swapped */
  g_assert_cmpstr (hw_xml_nearest ("satn", known), ==, "satin");
  g_assert_cmpstr (hw_xml_nearest ("single_jersy", known), ==, "single-jersey");
  g_assert_null (hw_xml_nearest ("velvet", known));
  g_assert_null (hw_xml_nearest ("N", known));                              /* another letter is not a slip */
  g_assert_null (hw_xml_nearest ("", known));
  g_assert_null (hw_xml_nearest (endless, known));
}

/* ---- schema ---- */

static void
test_schema (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = temp_folder_new ();
  g_autofree char *path = g_build_filename (folder, "t.rng", NULL);
  g_autoptr (HwXml) good = read_good (ROOT "><a/></test>");
  g_autoptr (HwXml) bad = read_good (ROOT ">\n<b/>\n</test>");
  HwSchema *schema;

  temp_folder_write (folder, "t.rng", "<element name=\"x\" xmlns=\"http://relaxng.org/ns/structure/1.0\"/>", -1);
  g_assert_null (hw_schema_load (path, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_NAMESPACE);
  g_clear_error (&error);
  temp_folder_write (folder, "t.rng", "<grammar xmlns=\"http://relaxng.org/ns/structure/1.0\"><start><ref name=\"no\"/>"
                                      "</start></grammar>", -1);
  g_assert_null (hw_schema_load (path, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_INVALID);
  g_assert_nonnull (strstr (error->message, "t.rng:1: the schema itself is wrong"));
  g_clear_error (&error);
  temp_folder_write (folder, "t.rng", "<grammar xmlns=\"http://relaxng.org/ns/structure/1.0\" ns=\"" NS "\"><start>"
                                      "<element name=\"test\"><element name=\"a\"><empty/></element></element>"
                                      "</start></grammar>", -1);
  schema = hw_schema_load (path, &error);
  g_assert_no_error (error);
  g_assert_true (hw_schema_check (schema, good, &error));
  g_assert_no_error (error);
  g_assert_false (hw_schema_check (schema, bad, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_INVALID);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, "shirt.xml:2:"));
  g_assert_null (strchr (error->message, '\n'));
  g_assert_true (hw_schema_check (schema, good, NULL));                     /* may be used again */
  hw_schema_free (schema);
  temp_folder_remove (folder);
}

/* ---- writing ---- */

static void
test_writer (void)
{
  char *words[] = { (char *) "red", (char *) "blue", NULL };
  char *none[] = { NULL };
  gsize size = 0;
  HwXmlWriter *writer = hw_xml_writer_new ("test", NS);
  g_autofree char *text = NULL;

  hw_xml_writer_attr (writer, "name", "A & B <\"quoted\">\n");
  hw_xml_writer_attr (writer, "absent", NULL);
  hw_xml_writer_open (writer, "row");
  hw_xml_writer_number (writer, "n", 2.5);
  hw_xml_writer_words (writer, "w", words);
  hw_xml_writer_words (writer, "e", none);
  hw_xml_writer_close (writer);
  hw_xml_writer_open (writer, "outer");
  hw_xml_writer_open (writer, "note");
  hw_xml_writer_text (writer, "1 < 2 & \"3\"");
  hw_xml_writer_close (writer);
  text = hw_xml_writer_finish (writer, &size);
  g_assert_cmpstr (text, ==,
                   "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                   "<test xmlns=\"urn:handwheel:test:1\" name=\"A &amp; B &lt;&quot;quoted&quot;&gt;&#10;\">\n"
                   "  <row n=\"2.5\" w=\"red blue\"/>\n"
                   "  <outer>\n"
                   "    <note>1 &lt; 2 &amp; \"3\"</note>\n"
                   "  </outer>\n"
                   "</test>\n");
  g_assert_cmpuint (size, ==, strlen (text));
}

static void
test_written_numbers (void)
{
  static const struct { double value; const char *text; } cases[] = {
    { 0, "0" }, { -0.0, "0" }, { 1, "1" }, { 100000, "100000" }, { 0.1, "0.1" }, { 2.54, "2.54" },
    { 0.00001, "0.00001" }, { -12.75, "-12.75" }, { 1e-300, "1e-300" }, { 1e20, "1e+20" },
    { 1.0 / 3, "0.3333333333333333" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      HwXmlWriter *writer = hw_xml_writer_new ("test", NS);
      g_autofree char *text = NULL;
      g_autofree char *read = NULL;
      g_autoptr (HwXml) xml = NULL;

      hw_xml_writer_number (writer, "n", cases[i].value);
      text = hw_xml_writer_finish (writer, NULL);
      xml = read_good (text);
      read = hw_xml_dup_attr (hw_xml_root (xml), "n");
      if (fabs (cases[i].value) < 1e15 && fabs (cases[i].value) > 1e-16)
        g_assert_cmpstr (read, ==, cases[i].text);
      g_assert_cmpfloat (g_ascii_strtod (read, NULL), ==, cases[i].value);
    }
}

/* Whatever a person types, the file can be read again: all of Unicode's edges, through attribute and text. */
static void
test_written_anything (void)
{
  static const char * const texts[] = {
    "plain", "\ttab\nline\rreturn ", "\x01\x1f control", "bad \xff\xc3 bytes", "\xef\xbf\xbe\xef\xbf\xbf", "]]>",
    "&#10;", "“é” 日本 \xf0\x9f\xa7\xb5", "\xef\xbb\xbf" "mark",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      HwXmlWriter *writer = hw_xml_writer_new ("test", NS);
      g_autofree char *text = NULL;
      g_autofree char *attr = NULL;
      g_autoptr (HwXml) xml = NULL;

      hw_xml_writer_attr (writer, "a", texts[i]);
      hw_xml_writer_text (writer, texts[i]);
      text = hw_xml_writer_finish (writer, NULL);
      xml = read_good (text);
      attr = hw_xml_dup_attr (hw_xml_root (xml), "a");
      g_assert_nonnull (attr);
      if (i != 2 && i != 3 && i != 4)
        g_assert_cmpstr (attr, ==, texts[i]);                    /* exactly, white space too */
      else
        g_assert_nonnull (strstr (attr, "\xef\xbf\xbd"));        /* shown as replaced, not lost in silence */
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    g_test_add_data_func (refused[i].path, &refused[i], test_refused);
  g_test_add_func ("/xml/refused/nul", test_nul);
  g_test_add_func ("/xml/refused/depth", test_depth);
  g_test_add_func ("/xml/refused/stops-at-doctype", test_stops_at_doctype);
  g_test_add_func ("/xml/accepted", test_accepted);
  g_test_add_func ("/xml/declared-otherwise", test_declared_otherwise);
  g_test_add_func ("/xml/line-of-tag", test_line_of_tag);
  g_test_add_func ("/xml/line-numbers-beyond-65535", test_long_lines);
  g_test_add_func ("/xml/file", test_file);
  g_test_add_func ("/xml/huge-file", test_huge_file);
  g_test_add_func ("/xml/not-a-file", test_not_a_file);
  g_test_add_func ("/xml/walking", test_walking);
  g_test_add_func ("/xml/text-and-words", test_text_and_words);
  g_test_add_func ("/xml/numbers", test_numbers);
  g_test_add_func ("/xml/missing", test_missing);
  g_test_add_func ("/xml/whole-numbers", test_whole_numbers);
  g_test_add_func ("/xml/words-of-a-list", test_words_of_a_list);
  g_test_add_func ("/xml/unknown-attributes", test_unknown_attributes);
  g_test_add_func ("/xml/nearest", test_nearest);
  g_test_add_func ("/xml/schema", test_schema);
  g_test_add_func ("/xml/writer", test_writer);
  g_test_add_func ("/xml/written-numbers", test_written_numbers);
  g_test_add_func ("/xml/written-anything", test_written_anything);
  return g_test_run ();
}
