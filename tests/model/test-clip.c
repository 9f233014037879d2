/* test-clip.c - steps copied, pasted, moved and changed several at once
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/clip.h"
#include "model/edit.h"
#include "files/xml.h"

#include <string.h>

#define HEAD "<project xmlns=\"urn:handwheel:project:1\" "

/* Two cloths, two threads; 3 is done by hand. */
static const char skirt[] =
  HEAD "id=\"skirt\" title=\"Skirt\"><fabrics><fabric id=\"shell\" handbook=\"denim\"/>"
  "<fabric id=\"lining\" handbook=\"lining\"/></fabrics>"
  "<threads><thread id=\"main\" handbook=\"polyester-100\" colour=\"navy\"/>"
  "<thread id=\"top\" handbook=\"polyester-36\"/></threads><steps>"
  "<operation number=\"1\" name=\"Darts\" purpose=\"seam\" length-cm=\"40\">"
  "<ply fabric=\"shell\" count=\"2\"/></operation>"
  "<operation number=\"2\" name=\"Sides\" after=\"1\" purpose=\"seam\" length-cm=\"130\" needle-thread=\"main\">"
  "<ply fabric=\"shell\"/><ply fabric=\"lining\"/><crossing><ply fabric=\"shell\" count=\"4\"/></crossing>"
  "<set field=\"stitch\" choice=\"stretch\"/></operation>"
  "<hand number=\"3\" name=\"Press\" after=\"2\" kind=\"press\" minutes=\"4\"/>"
  "<operation number=\"4\" name=\"Hem\" after=\"2 3\" purpose=\"hem\" length-cm=\"200\" needle-thread=\"top\">"
  "<ply fabric=\"shell\" count=\"3\"/></operation></steps></project>";

/* Its "shell" is another cloth, its thread the skirt's "main" under another name. */
static const char bag[] =
  HEAD "id=\"bag\" title=\"Bag\"><fabrics><fabric id=\"shell\" handbook=\"poplin\"/></fabrics>"
  "<threads><thread id=\"blue\" handbook=\"polyester-100\" colour=\"navy\"/></threads><steps>"
  "<operation number=\"7\" name=\"Base\" purpose=\"seam\" length-cm=\"60\">"
  "<ply fabric=\"shell\" count=\"2\"/></operation>"
  "</steps></project>";

static HwProject *
parse (const char *xml)
{
  g_autoptr (GError) error = NULL;
  HwProject *project = hw_project_parse ("test", xml, strlen (xml), &error);

  g_assert_no_error (error);
  return project;
}

static void
append_plies (GString     *text,
              const HwPly *plies,
              gsize        n_plies)
{
  for (gsize i = 0; i < n_plies; i++)
    g_string_append_printf (text, "%s%s*%d", i > 0 ? "+" : " ", plies[i].fabric, plies[i].count);
}

/* Each step as "2<1 shell*1+lining*1 x shell*4 130cm main". */
static char *
describe (const HwProject *project)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < project->steps->len; i++)
    {
      const HwStep *step = hw_project_get_step (project, i);
      g_autofree char *after = g_strjoinv (",", step->after);

      g_string_append_printf (text, "%s%s%s%s", i > 0 ? "; " : "", step->number, *after != '\0' ? "<" : "", after);
      if (step->kind == HW_STEP_HAND)
        continue;
      append_plies (text, step->plies, step->n_plies);
      if (step->n_crossing > 0)
        g_string_append (text, " x");
      append_plies (text, step->crossing, step->n_crossing);
      g_string_append_printf (text, " %gcm", step->length_cm);
      for (gsize j = 0; j < step->n_overrides; j++)
        g_string_append_printf (text, " [%s]", hw_field_ids[step->overrides[j].field]);
      g_string_append_printf (text, "%s%s", step->needle_thread != NULL ? " " : "",
                              step->needle_thread != NULL ? step->needle_thread : "");
    }
  return g_string_free (text, FALSE);
}

/* By way of the bytes, as between two programs; they are read as they were written. */
static HwClip *
copy_steps (const HwProject *project,
            const char      *words)
{
  g_auto (GStrv) numbers = g_strsplit (words, " ", -1);
  g_autoptr (HwClip) clip = hw_clip_new (project, (const char * const *) numbers);
  g_autoptr (GError) error = NULL;
  gsize size = 0;
  g_autofree char *bytes = hw_clip_to_xml (clip, &size);
  HwClip *read = hw_clip_parse (bytes, size, &error);
  g_autofree char *again = NULL;

  g_assert_no_error (error);
  again = hw_clip_to_xml (read, NULL);
  g_assert_cmpstr (again, ==, bytes);
  g_assert_cmpuint (hw_clip_n_steps (read), ==, g_strv_length (numbers));
  return read;
}

static HwProject *
paste (const HwProject *into,
       gsize            index,
       const HwClip    *clip,
       const char      *expected_numbers)
{
  g_auto (GStrv) numbers = NULL;
  g_autoptr (GError) error = NULL;
  HwProject *next = hw_edit_paste (into, index, clip, &numbers, &error);
  g_autofree char *joined = NULL;

  g_assert_no_error (error);
  joined = g_strjoinv (" ", numbers);
  g_assert_cmpstr (joined, ==, expected_numbers);
  return next;
}

static void
assert_describes (const HwProject *project,
                  const char      *expected)
{
  g_autofree char *text = describe (project);
  g_autofree char *xml = hw_project_to_xml (project, NULL);
  g_autoptr (HwProject) read = parse (xml);              /* what an edit made can be read again */

  g_assert_cmpstr (text, ==, expected);
  g_assert_true (hw_project_is_equal (project, read));
}

static void
test_paste_at_home (void)
{
  g_autoptr (HwProject) project = parse (skirt);
  g_autoptr (HwClip) clip = copy_steps (project, "2 3");
  g_autoptr (HwProject) next = paste (project, 4, clip, "5 6");

  /* a second pair of sides comes after the darts too, and its pressing after itself */
  assert_describes (next, "1 shell*2 40cm; 2<1 shell*1+lining*1 x shell*4 130cm [stitch] main; 3<2; "
                          "4<2,3 shell*3 200cm top; 5<1 shell*1+lining*1 x shell*4 130cm [stitch] main; 6<5");
  g_assert_cmpuint (next->fabrics->len, ==, 2);
  g_assert_cmpuint (next->threads->len, ==, 2);
}

static void
test_cut_and_paste_at_home (void)
{
  const char * const numbers[] = { "3", NULL };
  g_autoptr (HwProject) project = parse (skirt);
  g_autoptr (HwClip) clip = copy_steps (project, "3");
  g_autoptr (HwProject) cut = hw_edit_remove_steps (project, numbers, NULL);
  g_autoptr (HwProject) next = paste (cut, 0, clip, "3");

  assert_describes (next, "3<2; 1 shell*2 40cm; 2<1 shell*1+lining*1 x shell*4 130cm [stitch] main; "
                          "4<2 shell*3 200cm top");
}

static void
test_paste_elsewhere (void)
{
  g_autoptr (HwProject) project = parse (skirt);
  g_autoptr (HwProject) other = parse (bag);
  g_autoptr (HwClip) clip = copy_steps (project, "2 3 4");
  g_autoptr (HwProject) next = paste (other, 0, clip, "8 9 10");

  assert_describes (next, "8 shell-2*1+lining*1 x shell-2*4 130cm [stitch] blue; 9<8; 10<8,9 shell-2*3 200cm top; "
                          "7 shell*2 60cm");
  g_assert_cmpstr (hw_project_find_fabric (next, "shell-2")->handbook, ==, "denim");
  g_assert_cmpuint (next->threads->len, ==, 2);
}

/* What is used by no copied step is left behind. */
static void
test_clip_holds_what_it_needs (void)
{
  g_autoptr (HwProject) project = parse (skirt);
  g_autoptr (HwClip) clip = copy_steps (project, "4");
  g_autofree char *xml = hw_clip_to_xml (clip, NULL);
  const char * const none[] = { "9", NULL };

  g_assert_nonnull (strstr (xml, "id=\"top\""));
  g_assert_null (strstr (xml, "id=\"main\""));
  g_assert_null (strstr (xml, "lining"));
  g_assert_null (hw_clip_new (project, none));
}

static void
test_refused (void)
{
  static const struct { const char *data, *said; } cases[] = {
    { "", "no steps on the clipboard" },
    { "Buy thread, 3 spools", "no steps on the clipboard" },
    { "<p>x</p>", "no steps on the clipboard" },
    { "<clip xmlns=\"urn:handwheel:project:1\" from=\"a\"/>", "copy some first" },
    { "<clip xmlns=\"urn:handwheel:project:1\"><steps/></clip>", "“from”" },
    { "<clip xmlns=\"urn:handwheel:project:1\" from=\"a b\"><steps/></clip>", "one word" },
    { "<!DOCTYPE clip [<!ENTITY a \"b\">]><clip xmlns=\"urn:handwheel:project:1\" from=\"a\"/>", "DOCTYPE" },
    { "<clip xmlns=\"urn:handwheel:project:1\" from=\"a\"><wishes/></clip>", "wishes" },
    { "<clip xmlns=\"urn:handwheel:project:1\" from=\"a\"><steps><operation number=\"1\" name=\"A\" purpose=\"seam\" "
      "length-cm=\"-4\"><ply fabric=\"x\"/></operation></steps></clip>", "length-cm" },
    { "<clip xmlns=\"urn:handwheel:project:1\" from=\"a\"><steps><operation number=\"1\" name=\"A\" purpose=\"seam\" "
      "length-cm=\"4\"><ply fabric=\"x\"/></operation></steps></clip>", "fabric “x”" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hw_clip_parse (cases[i].data, strlen (cases[i].data), &error));
      g_assert_nonnull (error);
      if (strstr (error->message, cases[i].said) == NULL || strchr (error->message, '\n') != NULL)
        g_error ("“%s” does not say “%s”", error->message, cases[i].said);
    }
}

static void
test_too_big (void)
{
  gsize size = HW_PROJECT_MAX_BYTES + 1;
  g_autofree char *data = g_malloc (size);
  g_autoptr (GError) error = NULL;

  memset (data, ' ', size);
  g_assert_null (hw_clip_parse (data, size, &error));
  g_assert_error (error, HW_XML_ERROR, HW_XML_ERROR_TOO_BIG);
}

static void
test_move (void)
{
  static const struct { const char *numbers; gsize before; const char *order; } cases[] = {
    { "1", 0, "1 2 3 4" }, { "1", 1, "1 2 3 4" }, { "1", 2, "2 1 3 4" }, { "1", 4, "2 3 4 1" },
    { "4", 0, "4 1 2 3" }, { "4 1", 2, "2 1 4 3" }, { "1 3", 4, "2 4 1 3" }, { "2 3", 0, "2 3 1 4" },
    { "1 2 3 4", 2, "1 2 3 4" },
  };
  g_autoptr (HwProject) project = parse (skirt);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (GStrv) numbers = g_strsplit (cases[i].numbers, " ", -1);
      g_autoptr (HwProject) next = hw_edit_move_steps (project, (const char * const *) numbers, cases[i].before, NULL);
      g_autoptr (GString) order = g_string_new (NULL);

      for (guint j = 0; j < next->steps->len; j++)
        g_string_append_printf (order, "%s%s", j > 0 ? " " : "", hw_project_get_step (next, j)->number);
      g_assert_cmpstr (order->str, ==, cases[i].order);
    }
}

static void
test_change (void)
{
  static const struct { const char *numbers; HwStepChange change; const char *result; } cases[] = {
    { "1 2", { .fabric = "lining" },
      "1 lining*2 40cm; 2<1 lining*2 x lining*4 130cm [stitch] main; 3<2; 4<2,3 shell*3 200cm top" },
    { "1 2 3 4", { .fabric = "lining", .instead_of = "shell" },
      "1 lining*2 40cm; 2<1 lining*2 x lining*4 130cm [stitch] main; 3<2; 4<2,3 lining*3 200cm top" },
    { "2 4", { .needle_thread = "", .length_cm = 12.5, .stitch_length_mm = 3 },
      "1 shell*2 40cm; 2<1 shell*1+lining*1 x shell*4 12.5cm [stitch] [length]; 3<2; 4<2,3 shell*3 12.5cm [length]" },
    { "2", { .stitch = "straight" },
      "1 shell*2 40cm; 2<1 shell*1+lining*1 x shell*4 130cm main; 3<2; 4<2,3 shell*3 200cm top" },
  };
  g_autoptr (HwProject) project = parse (skirt);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (GStrv) numbers = g_strsplit (cases[i].numbers, " ", -1);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwProject) next = hw_edit_change_steps (project, (const char * const *) numbers, &cases[i].change,
                                                         &error);

      g_assert_no_error (error);
      assert_describes (next, cases[i].result);
    }
}

static void
test_change_seam (void)
{
  const char * const numbers[] = { "1", "4", NULL };
  HwStepChange set = { .seam = "flat-felled", .stitch = "straight", .machine = "old" };
  HwStepChange own = { .seam = "", .stitch = "", .machine = "" };
  g_autoptr (HwProject) project = parse (skirt);
  g_autoptr (HwProject) changed = hw_edit_change_steps (project, numbers, &set, NULL);
  g_autoptr (HwProject) back = hw_edit_change_steps (changed, numbers, &own, NULL);

  g_assert_cmpstr (hw_project_get_step (changed, 3)->seam, ==, "flat-felled");
  g_assert_cmpstr (hw_project_get_step (changed, 3)->stitch, ==, "straight");
  g_assert_cmpstr (hw_project_get_step (changed, 0)->machine, ==, "old");
  g_assert_true (hw_project_is_equal (back, project));
}

/* All or nothing. */
static void
test_change_refused (void)
{
  static const struct { const char *numbers; HwStepChange change; const char *said; } cases[] = {
    { "3", { .length_cm = 10 }, "none of these steps" },
    { "1 9", { .length_cm = 10 }, "no step 9" },
    { "1 2", { .length_cm = -1 }, "100000 cm" },
    { "1 2", { .stitch_length_mm = 40 }, "12 mm" },
    { "1 2", { .fabric = "velvet" }, "velvet" },
    { "1", { .needle_thread = "gold" }, "gold" },
  };
  g_autoptr (HwProject) project = parse (skirt);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (GStrv) numbers = g_strsplit (cases[i].numbers, " ", -1);
      g_autoptr (GError) error = NULL;

      g_assert_null (hw_edit_change_steps (project, (const char * const *) numbers, &cases[i].change, &error));
      g_assert_nonnull (error);
      if (strstr (error->message, cases[i].said) == NULL)
        g_error ("“%s” does not say “%s”", error->message, cases[i].said);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/clip/paste-at-home", test_paste_at_home);
  g_test_add_func ("/clip/cut-and-paste-at-home", test_cut_and_paste_at_home);
  g_test_add_func ("/clip/paste-elsewhere", test_paste_elsewhere);
  g_test_add_func ("/clip/holds-what-it-needs", test_clip_holds_what_it_needs);
  g_test_add_func ("/clip/refused", test_refused);
  g_test_add_func ("/clip/too-big", test_too_big);
  g_test_add_func ("/steps/move", test_move);
  g_test_add_func ("/steps/change", test_change);
  g_test_add_func ("/steps/change-seam", test_change_seam);
  g_test_add_func ("/steps/change-refused", test_change_refused);
  return g_test_run ();
}
