/* test-words-room.c - the sewing room in words: journal, needles, thread, fabrics, and what is known of a fault
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Names are the shipped handbook's; figures are those written here.
 */

#include "config.h"

#include "plan/care.h"
#include "plan/stock.h"
#include "temp-folder.h"
#include "words/topics.h"
#include "words/words-room.h"
#include "words/words.h"
#include "workroom.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define NS "xmlns=\"urn:handwheel:room:1\""
#define MACHINE "<machine " NS " id=\"lockstitch\" name=\"The old machine\" kind=\"lockstitch\" system=\"household\" " \
                "dial=\"edge-wheel\" dial-low=\"0\" dial-high=\"9\" dial-neutral=\"4\" length-max=\"5\" " \
                "width-max=\"7\" plate-opening=\"9\" foot-lift=\"6\" speed=\"800\" bobbin-cm3=\"2.2\" " \
                "needle-flat=\"back\">" \
                "<foot id=\"all-purpose\"/><plate id=\"zigzag\"/></machine>"
#define AT(day) " id=\"e" day "\" time=\"2031-05-" day "T10:00:00Z\" "

/* Takes @text. */
static void
assert_words (char       *text,
              const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

static HwRoom *
open_room (const char *journal,
           const char *file,
           const char *text)
{
  static const char * const inside[] = { "machines", "journal" };
  char *folder = temp_folder_new ();
  g_autoptr (GError) error = NULL;
  HwRoom *room;

  for (gsize i = 0; i < G_N_ELEMENTS (inside); i++)
    {
      g_autofree char *path = g_build_filename (folder, inside[i], NULL);
      g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
    }
  temp_folder_write (folder, "machines/lockstitch.xml", MACHINE, -1);
  if (journal != NULL)
    {
      g_autofree char *whole = g_strconcat ("<journal " NS " machine=\"lockstitch\" year=\"2031\">", journal,
                                            "</journal>", NULL);
      temp_folder_write (folder, "journal/lockstitch-2031.xml", whole, -1);
    }
  if (file != NULL)
    temp_folder_write (folder, file, text, -1);
  room = hw_room_open (folder, &error);
  g_assert_no_error (error);
  temp_folder_remove (folder);
  return room;
}

/* ---- the journal ---- */

/* Each kind of entry, with and without what may be left out; in the order of their days. */
static const struct { const char *entry, *project, *words; } entries[] = {
  { "<load" AT ("01") "system=\"household\" point=\"universal\" nm=\"80\"/>", NULL, "80/12 universal point" },
  { "<load" AT ("02") "needle-thread=\"navy tex 30\"/>", NULL, "the same needle, navy tex 30" },
  { "<load" AT ("03") "needle=\"e01\" needle-thread=\"navy tex 30\"/>", NULL, "80/12 universal point, navy tex 30" },
  { "<load" AT ("04") "system=\"household\" point=\"never-heard-of\" nm=\"90\"/>", NULL, "90/14" },
  { "<needle" AT ("05") "needle=\"e01\" place=\"Tin 2\" verdict=\"out\"/>", NULL,
    "80/12 universal point put in its place, “Tin 2”" },
  { "<needle" AT ("06") "needle=\"e04\" verdict=\"out\"/>", NULL, "90/14 taken out" },
  { "<needle" AT ("07") "needle=\"e04\" verdict=\"discarded\"/>", NULL, "90/14 thrown away" },
  { "<needle" AT ("08") "needle=\"n1\" system=\"household\" point=\"jeans\" nm=\"100\" hours=\"2.5\" verdict=\"in\"/>",
    NULL, "100/16 jeans point, worn for 2.5 h, put into the case" },
  { "<sewing" AT ("09") "minutes=\"30\"/>", "The cape", "30 min" },
  { "<sewing" AT ("10") "project=\"cape\" step=\"3\" minutes=\"30\"/>", NULL, "step 3, 30 min" },
  { "<sewing" AT ("11") "project=\"cape\" step=\"3\" minutes=\"30\" planned=\"24\"/>", "The cape",
    "The cape: step 3, 30 min (planned 24 min)" },
  { "<care" AT ("12") "task=\"dust\"/>", NULL, "Dust under the needle plate" },
  { "<care" AT ("13") "task=\"closing\"/>", NULL, "Closed for the day" },
  { "<care" AT ("14") "task=\"polish\"/>", NULL, "polish" },
  { "<test-seam" AT ("15") "dial=\"4.5\" verdict=\"balanced\"/>", NULL,
    "dial 4½: Same on both sides, flat when pulled" },
  { "<test-seam" AT ("16") "dial=\"4\" verdict=\"loops-below\" cloth=\"denim\"/>", NULL,
    "denim, dial 4: Needle thread loops underneath" },
  { "<fault" AT ("17") "fault=\"skipped-stitches\" cause=\"needle-worn\" verdict=\"found\"/>", NULL,
    "Skipped stitches: Needle bent, blunt or not fully up" },
  { "<fault" AT ("18") "fault=\"skipped-stitches\" cause=\"gremlins\" verdict=\"found\"/>", NULL,
    "Skipped stitches: cause found" },
  { "<fault" AT ("19") "fault=\"it-sings\" verdict=\"not-found\"/>", NULL, "it-sings: cause not found" },
  { "<fault" AT ("20") "verdict=\"found\"/>", NULL, "Stitch fault: cause found" },
  { "<cancel" AT ("21") "of=\"e20\"/>", NULL, "an earlier entry taken back" },
};

static void
test_entries (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (GString) journal = g_string_new (NULL);
  g_autoptr (HwRoom) room = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    g_string_append (journal, entries[i].entry);
  room = open_room (journal->str, NULL, NULL);
  g_assert_cmpuint (room->entries->len, ==, G_N_ELEMENTS (entries));
  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      g_autofree char *told = hw_words_entry (handbook, room, room->entries->pdata[i], entries[i].project);

      g_assert_cmpstr (told, ==, entries[i].words);
    }
}

static void
test_kinds (void)
{
  static const char * const names[] = {
    "Sewing", "Set up", "Care", "Test seam", "Stitch fault", "Taken back", "Needle",
  };

  for (int kind = 0; kind < HW_N_ENTRY_KINDS; kind++)
    g_assert_cmpstr (hw_words_entry_kind ((HwEntryKind) kind), ==, names[kind]);
  assert_words (hw_words_clock_behind ("2031-05-09T10:00:00Z"),
                "The computer’s clock stands before the journal’s last entry, of 9 May 2031: set it right. "
                "This was noted after that entry.");
}

/* ---- what is on hand ---- */

static void
test_needles (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = open_room (
    "<load" AT ("01") "system=\"household\" point=\"universal\" nm=\"80\"/>"
    "<needle" AT ("02") "needle=\"e01\" place=\"Tin 2\" verdict=\"out\"/>"
    "<load" AT ("03") "system=\"household\" point=\"jeans\" nm=\"100\"/>"
    "<load" AT ("04") "system=\"household\" point=\"stretch\" nm=\"75\" twin=\"4\"/>",
    "needles.xml", "<needles " NS "><needle id=\"r\" system=\"household\" point=\"round\" nm=\"70\" count=\"5\"/>"
    "</needles>");
  static const char * const words[] = { "80/12 universal point", "100/16 jeans point", "twin 4.0/75 stretch point" };
  static const char * const places[] = { "in the case, “Tin 2”", "in the case", "in: The old machine" };

  g_assert_cmpuint (room->needles->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      assert_words (hw_words_needle_of (handbook, room->needles->pdata[i]), words[i]);
      assert_words (hw_words_needle_place (room, room->needles->pdata[i]), places[i]);
    }
  assert_words (hw_words_packet (handbook, room->packets->pdata[0]), "70/10 round point");
}

static void
test_threads (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = open_room (NULL, "threads.xml",
    "<threads " NS "><thread id=\"a\" handbook=\"polyester-27\" colour=\"navy\" metres=\"820\" snap=\"good\""
    " counted=\"2031-05-09T14:03:00Z\"/><thread id=\"b\" handbook=\"polyester-27\" colour=\"navy\" tex=\"30\""
    " metres=\"100\" snap=\"weak\" counted=\"2031-05-09T14:03:00Z\"/><thread id=\"c\" handbook=\"from-a-market\""
    " colour=\"red\" metres=\"50\" counted=\"2031-05-09T14:03:00Z\"/></threads>");
  const HwThreadEntry *thread = &handbook->threads[hw_handbook_find_thread (handbook, "polyester-27")];
  HwNotion notion = { 0 };
  double metres = -1;

  assert_words (hw_words_spool (handbook, room->spools->pdata[0]), "navy, Polyester, all-purpose, tex 27");
  assert_words (hw_words_spool (handbook, room->spools->pdata[1]), "navy, Polyester, all-purpose, tex 30");
  assert_words (hw_words_spool (handbook, room->spools->pdata[2]), "red, from-a-market, tex 0");
  assert_words (hw_words_snap (HW_SNAP_GOOD), "snaps well");
  assert_words (hw_words_snap (HW_SNAP_WEAK), "weak: for tacking only");
  assert_words (hw_words_snap (HW_SNAP_UNTESTED), "not tested yet");
  notion.entry = thread;
  notion.colour = (char *) "navy";
  notion.tex = 27;
  g_assert_true (hw_stock_thread (handbook, room, &notion, &metres));
  g_assert_cmpfloat (metres, ==, 820);
  notion.tex = 30;
  g_assert_true (hw_stock_thread (handbook, room, &notion, &metres));
  g_assert_cmpfloat (metres, ==, 100);
  notion.colour = (char *) "red";
  g_assert_false (hw_stock_thread (handbook, room, &notion, &metres));
  g_assert_cmpfloat (metres, ==, 0);
}

static void
test_cloths (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = open_room (NULL, "fabrics.xml",
    "<fabrics " NS "><fabric id=\"drill\" name=\"Drill\" construction=\"twill\" mass=\"280\" thickness=\"0.6\""
    " stretch=\"2\"/><fabric id=\"odd\" name=\"Odd\" construction=\"twill\" thickness=\"0.5\"/>"
    "<fabric id=\"own\" name=\"Own\" handbook=\"denim\" mass=\"401\" thickness=\"0.91\" stretch=\"3\"/>"
    "<fabric id=\"plain\" name=\"Plain\" handbook=\"denim\"/></fabrics>");
  const HwFabric *denim = &handbook->fabrics[hw_handbook_find_fabric (handbook, "denim")];
  g_autofree char *typical = g_strdup_printf ("%g g/m², %g mm", denim->mass_g_m2.prefer, denim->thickness_mm.prefer);
  g_autofree char *told = hw_words_shelf_cloth (handbook, room->cloths->pdata[3]);

  assert_words (hw_words_shelf_cloth (handbook, room->cloths->pdata[0]), "280 g/m², 0.6 mm, 2 % stretch");
  assert_words (hw_words_shelf_cloth (handbook, room->cloths->pdata[1]), "0.5 mm");
  assert_words (hw_words_shelf_cloth (handbook, room->cloths->pdata[2]), "401 g/m², 0.91 mm, 3 % stretch");
  g_assert_true (g_str_has_prefix (told, typical));
}

/* Care that is overdue by a clock of hours, and of the calendar; what was done lately is not. */
static void
test_overdue (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = open_room (
    "<care" AT ("01") "task=\"dust\"/><care" AT ("02") "task=\"service\"/>"
    "<sewing" AT ("03") "minutes=\"6000\" running=\"2000\"/><care" AT ("04") "task=\"oil\"/>", NULL, NULL);
  g_autoptr (GPtrArray) soon = hw_care_overdue (handbook, room, "2031-05-05T00:00:00Z");
  g_autoptr (GPtrArray) late = hw_care_overdue (handbook, room, "2035-05-05T00:00:00Z");
  gboolean dust = FALSE;
  gboolean service = FALSE;

  for (guint i = 0; i < soon->len; i++)
    {
      const char *task = handbook->care[((HwCareDue *) soon->pdata[i])->care].entry.id;
      dust |= g_str_equal (task, "dust");
      g_assert_cmpstr (task, !=, "oil");
      g_assert_cmpstr (task, !=, "service");
    }
  for (guint i = 0; i < late->len; i++)
    service |= g_str_equal (handbook->care[((HwCareDue *) late->pdata[i])->care].entry.id, "service");
  g_assert_true (dust);
  g_assert_true (service);
}

/* ---- what is known of a fault's cause ---- */

static const struct
{
  HwFaultFact fact;
  double      value, limit;
  const char *beyond, *inside;           /* the sentence when it tells for the cause, and when not */
} facts[] = {
  { HW_KNOWN_NONE, 0, 0, NULL, NULL },
  { HW_KNOWN_NEEDLE_HOURS, 16, 15, "The needle has sewn 16 of its 15 h.", "The needle has sewn 16 of its 15 h." },
  { HW_KNOWN_SIZE, 70, 90, "In the machine is 70/10; planned is 90/14.",
    "The needle in the machine, 70/10, is as planned." },
  { HW_KNOWN_DIAL, 2.5, 3.5, "The dial stands at 2½; the card’s band ends at 3½.",
    "The dial stands at 2½; the card’s band ends at 3½." },
  { HW_KNOWN_TEX, 60, 40, "The needle thread is tex 60; the plan’s band ends at 40.",
    "The needle thread, tex 60, is as planned." },
  { HW_KNOWN_SNAP, HW_SNAP_WEAK, NAN, "The needle thread’s snap test was weak.",
    "The needle thread’s snap test was weak." },
  { HW_KNOWN_SNAP, HW_SNAP_GOOD, NAN, "The needle thread’s snap test was good.",
    "The needle thread’s snap test was good." },
  { HW_KNOWN_BOBBIN_SNAP, HW_SNAP_WEAK, NAN, "The bobbin thread’s snap test was weak.",
    "The bobbin thread’s snap test was weak." },
  { HW_KNOWN_BOBBIN_SNAP, HW_SNAP_GOOD, NAN, "The bobbin thread’s snap test was good.",
    "The bobbin thread’s snap test was good." },
  { HW_KNOWN_LENGTH, 1.5, 2, "Stitch length is 1.5 mm; the plan’s band ends at 2 mm.",
    "Stitch length, 1.5 mm, is as planned." },
  { HW_KNOWN_WIDTH, 5, 4, "Stitch width is 5 mm; the plan’s band ends at 4 mm.",
    "Stitch width, 5 mm, is as planned." },
  { HW_KNOWN_CUTTING_WIDTH, 7, 6, "Cutting width is 7 mm; the plan’s band ends at 6 mm.",
    "Cutting width, 7 mm, is as planned." },
  { HW_KNOWN_DIFFERENTIAL, 1.5, 1.25, "Differential feed is 1.5; the plan’s band ends at 1.25.",
    "Differential feed, 1.5, is as planned." },
  { HW_KNOWN_PRESSURE, 0, -1, "The foot’s pressure is set normal; the plan’s band ends at 1 lighter.",
    "The foot’s pressure, normal, is as planned." },
};

static void
test_facts (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();

  for (gsize i = 0; i < G_N_ELEMENTS (facts); i++)
    {
      HwFaultCheck check = { .fact = facts[i].fact, .clue_value = facts[i].value, .clue_limit = facts[i].limit,
                             .clue = 3, .clue_care = -1 };

      assert_words (hw_words_fault_fact (handbook, &check), facts[i].beyond);
      check.clue = 0.5;
      assert_words (hw_words_fault_fact (handbook, &check), facts[i].inside);
    }
}

/* Facts that name an entry of the handbook. */
static void
test_named_facts (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  HwFaultCheck check = { .fact = HW_KNOWN_POINT, .clue = 3, .clue_value = hw_handbook_find_point (handbook, "jeans"),
                         .clue_limit = hw_handbook_find_point (handbook, "stretch") };

  assert_words (hw_words_fault_fact (handbook, &check), "In the machine is a jeans point; planned is a stretch point.");
  check.fact = HW_KNOWN_FOOT;
  check.clue_value = hw_handbook_find_foot (handbook, "zip");
  check.clue_limit = hw_handbook_find_foot (handbook, "walking");
  assert_words (hw_words_fault_fact (handbook, &check), "On the machine: zip foot; planned: walking foot.");
  check.clue = 1;
  assert_words (hw_words_fault_fact (handbook, &check), "On the machine, as planned: zip foot.");
  check.fact = HW_KNOWN_PLATE;
  check.clue_value = hw_handbook_find_plate (handbook, "single-hole");
  assert_words (hw_words_fault_fact (handbook, &check), "On the machine, as planned: single-hole plate.");
  check.fact = HW_KNOWN_CARE_HOURS;
  check.clue_care = hw_handbook_find_care (handbook, "dust");
  check.clue_value = 12;
  check.clue_limit = 8;
  assert_words (hw_words_fault_fact (handbook, &check), "Clock of “dust under the needle plate”: 12 of 8 h.");
  check.fact = HW_KNOWN_CARE_MONTHS;
  assert_words (hw_words_fault_fact (handbook, &check), "Clock of “dust under the needle plate”: 12 of 8 months.");
  check.fact = HW_KNOWN_CARE_DAYS;
  assert_words (hw_words_fault_fact (handbook, &check), "Clock of “dust under the needle plate”: 12 of 8 sewing days.");
}

static void
test_history (void)
{
  HwFaultCheck check = { .found = 0 };

  assert_words (hw_words_fault_history (&check), NULL);
  check.found = 1;
  assert_words (hw_words_fault_history (&check), "It was this once before on this machine.");
  check.found = 4;
  assert_words (hw_words_fault_history (&check), "It was this 4 times before on this machine.");
}

/* ---- searching the handbook ---- */

/* Name, id, kind, facts and source of an entry are found, whatever the case, by all words together only. */
static void
test_topic_text (void)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (GPtrArray) topics = hw_topics_list (handbook);
  g_autofree char *denim = hw_topic_text (handbook, hw_topics_find (topics, "fabric/denim"));
  g_autofree char *fault = hw_topic_text (handbook, hw_topics_find (topics, "skipped-stitches"));

  g_assert_true (hw_topic_text_matches (denim, "DENIM fabric"));
  g_assert_true (hw_topic_text_matches (denim, "twill\tg/m²"));
  g_assert_true (hw_topic_text_matches (denim, ""));
  g_assert_false (hw_topic_text_matches (denim, "denim silk-charmeuse"));
  g_assert_true (hw_topic_text_matches (fault, "needle bent"));
  g_assert_false (hw_topic_text_matches (fault, "twill"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words-room/entries", test_entries);
  g_test_add_func ("/words-room/kinds", test_kinds);
  g_test_add_func ("/words-room/needles", test_needles);
  g_test_add_func ("/words-room/threads", test_threads);
  g_test_add_func ("/words-room/cloths", test_cloths);
  g_test_add_func ("/words-room/overdue", test_overdue);
  g_test_add_func ("/words-room/faults/facts", test_facts);
  g_test_add_func ("/words-room/faults/named-facts", test_named_facts);
  g_test_add_func ("/words-room/faults/history", test_history);
  g_test_add_func ("/words-room/topic-text", test_topic_text);
  return g_test_run ();
}
