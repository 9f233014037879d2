/* test-find.c - finding anything: what matches, in which order, and how fast
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/find.h"

#include <string.h>

static const struct { guint group; const char *name, *detail, *words, *target; } things[] = {
  { 0, "Stage cape", "project", NULL, "cape" },
  { 0, "Drapé blouse", "project", NULL, "blouse" },
  { 1, "Join side seams", "step 3 of Stage cape", "seam cotton twill", "3" },
  { 1, "Topstitch the collar", "step 9 of Stage cape", NULL, "9" },
  { 2, "Denim", "fabric", "jeans twill", "denim" },
  { 2, "Stretch denim", "fabric", NULL, "stretch-denim" },
  { 2, "Größe", "fabric", NULL, "groesse" },
  { 2, "Øresund wool", "fabric", NULL, "oresund" },
  { 3, "Topstitch needle", "80/12 to 110/18", NULL, "topstitch-needle" },
  { 3, "Tex", "unit", NULL, "tex" },
  { 3, "Textured nylon", "thread", NULL, "textured" },
  { 3, "Underdenimed", "nothing that is", NULL, "under" },
  { 4, "Print setup cards", "Ctrl+P", "paper pdf", "print" },
  { 3, "Machine stalls at thick places", "stitch fault", NULL, "stalls" },
  { 4, "Machines", "", "page care", "machines" },
  { 2, "Boiled wool", "fabric", NULL, "boiled" },
  { 2, "Voile", "fabric", NULL, "voile" },
  { 3, "Oil", "care", NULL, "oil" },
  { 4, "木綿", "fabric", NULL, "momen" },
  { 3, "Change the needle", "care", NULL, "change" },
};

static HwFind *
make (void)
{
  HwFind *find = hw_find_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (things); i++)
    hw_find_add (find, things[i].group, things[i].name, things[i].detail, things[i].words, things[i].target);
  hw_find_spare (find, "a how I my of the to when é");
  return find;
}

/* What is found, as the targets with blanks between them. */
static const struct { const char *text, *found; } asked[] = {
  { "denim", "denim stretch-denim under" },             /* whole before further on, before inside */
  { "DENIM", "denim stretch-denim under" },
  { "den", "denim stretch-denim" },                     /* three letters: not inside while some word begins so */
  { "eni", "denim stretch-denim under" },               /* none does */
  { "oil", "oil" },
  { "oile", "boiled voile" },                           /* four may be a part of a longer word */
  { "oil boiled", "boiled" },
  { "tex", "tex textured" },                            /* whole before the beginning */
  { "drape", "blouse" },                                /* accents folded */
  { "drapé", "blouse" },
  { "grosse", "groesse" },
  { "größe", "groesse" },
  { "oresund", "oresund" },
  { "stretch den", "stretch-denim" },                   /* each word must be there */
  { "den stretch", "stretch-denim" },                   /* in any order */
  { "denim pdf", "" },
  { "pdf", "print" },                                   /* by a word that is not its name */
  { "cape", "cape 3 9" },                               /* name before detail */
  { "top", "9 topstitch-needle" },                      /* alike: by group */
  { "collar 9", "9" },
  { "80/12", "topstitch-needle" },
  { "dneim", "denim stretch-denim" },                   /* two letters changed about */
  { "dennim", "denim stretch-denim" },
  { "dnim", "denim stretch-denim" },
  { "zenim", "denim stretch-denim" },
  { "de", "denim stretch-denim" },                      /* too short to be looked for inside a word */
  { "machine", "machines stalls" },                     /* all of a name before a part of a longer one */
  { "machine stalls", "stalls" },
  { "木", "momen" },
  { "", "" },
  { " / ", "" },
  { "nothing of the kind", "" },
  { "when to change a needle", "change" },              /* small words need not match */
  { "How do I change my needle?", "" },                 /* but others do */
  { "how I change é needle", "change" },                /* small with an accent, too */
  { "change e needle", "change" },
  { "the", "9 change" },                                /* unless they are all that was typed */
  { "needle to", "topstitch-needle change" },           /* the last may be unfinished */
  { "needle the", "change topstitch-needle" },          /* and who typed a name as it is has it first */
};

static void
test_ask (void)
{
  g_autoptr (HwFind) find = make ();

  g_assert_cmpuint (hw_find_count (find), ==, G_N_ELEMENTS (things));
  for (gsize i = 0; i < G_N_ELEMENTS (asked); i++)
    {
      g_autoptr (GPtrArray) found = hw_find_ask (find, asked[i].text, 40, NULL);
      g_autoptr (GString)   targets = g_string_new (NULL);

      for (guint j = 0; j < found->len; j++)
        g_string_append_printf (targets, "%s%s", j > 0 ? " " : "", ((HwFindThing *) found->pdata[j])->target);
      g_test_message ("“%s”", asked[i].text);
      g_assert_cmpstr (targets->str, ==, asked[i].found);
    }
}

static void
test_limit (void)
{
  g_autoptr (HwFind)    find = make ();
  guint                 n_all = 0;
  g_autoptr (GPtrArray) found = hw_find_ask (find, "denim", 1, &n_all);

  g_assert_cmpuint (n_all, ==, 3);
  g_assert_cmpuint (found->len, ==, 2);  /* one of the fabrics, one of the handbook */
  g_assert_cmpstr (((HwFindThing *) found->pdata[0])->name, ==, "Denim");
  g_assert_cmpstr (((HwFindThing *) found->pdata[0])->detail, ==, "fabric");
  g_assert_cmpuint (((HwFindThing *) found->pdata[0])->group, ==, 2);
  g_assert_cmpstr (((HwFindThing *) found->pdata[1])->target, ==, "under");
}

static void
test_offer (void)
{
  g_autoptr (HwFind)    find = make ();
  g_autoptr (GPtrArray) offered = hw_find_offer (find, 2, 3);

  g_assert_cmpuint (offered->len, ==, 3);
  g_assert_cmpstr (((HwFindThing *) offered->pdata[0])->target, ==, "denim");
  g_assert_cmpstr (((HwFindThing *) offered->pdata[2])->target, ==, "groesse");
}

/* A thousand projects and a thousand entries: each of them is found by its own words, in time to be typed on. A
 * busy computer may be slow; only what no load explains fails. */
static void
test_many (void)
{
  g_autoptr (HwFind) find = hw_find_new ();
  gint64             before;
  double             milliseconds;

  for (int i = 0; i < 2000; i++)
    {
      g_autofree char *name = g_strdup_printf (i < 1000 ? "Project %d of the winter class"
                                                        : "Entry %d on lockstitch", i);
      g_autofree char *target = g_strdup_printf ("%d", i);

      hw_find_add (find, i < 1000 ? 0 : 3, name, "a line that says a few more words of it", "cotton twill", target);
    }
  before = g_get_monotonic_time ();
  for (int i = 0; i < 2000; i += 10)
    {
      g_autofree char      *text = g_strdup_printf ("%d %s", i, i < 1000 ? "win" : "lock");
      g_autofree char      *target = g_strdup_printf ("%d", i);
      g_autoptr (GPtrArray) found = hw_find_ask (find, text, 40, NULL);

      g_assert_cmpuint (found->len, >, 0);
      g_assert_cmpstr (((HwFindThing *) found->pdata[0])->target, ==, target);
    }
  milliseconds = (double) (g_get_monotonic_time () - before) / 1000 / 200;
  g_test_message ("%.3f ms a question", milliseconds);
  g_assert_cmpfloat (milliseconds, <, 100);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/find/ask", test_ask);
  g_test_add_func ("/find/limit", test_limit);
  g_test_add_func ("/find/offer", test_offer);
  g_test_add_func ("/find/many", test_many);
  return g_test_run ();
}
