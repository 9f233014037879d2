/* test-seams.c - test seams in the journal move the dials that are planned next
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/test-seam.h"
#include "temp-folder.h"
#include "words/words.h"
#include "workroom.h"

#include <math.h>
#include <string.h>

/* A project in a room in a folder of its own, planned anew after each entry. */
typedef struct
{
  HwHandbook *handbook;
  HwProject  *project;
  HwRoom     *room;
  HwPlan     *plan;
} Bench;

static void
plan_anew (Bench *self)
{
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&self->plan, hw_plan_unref);
  self->plan = hw_plan_new (self->handbook, self->project, self->room, &error);
  g_assert_no_error (error);
}

static void
set_up (Bench *self, gconstpointer data)
{
  self->handbook = workroom_handbook ();
  self->project = workroom_garment ("wrap-skirt");
  self->room = workroom_new (&workroom_usual, "overlock", 3);
  plan_anew (self);
}

static void
tear_down (Bench *self, gconstpointer data)
{
  char *folder = g_strdup (self->room->folder);

  hw_plan_unref (self->plan);
  hw_room_unref (self->room);
  hw_project_unref (self->project);
  hw_handbook_unref (self->handbook);
  if (g_file_test (folder, G_FILE_TEST_IS_DIR))
    temp_folder_remove (folder);
  else
    g_free (folder);
}

static void
append (Bench *self, HwJournalEntry *entry)      /* (transfer full) */
{
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_room_append (self->room, entry, &error);

  g_assert_no_error (error);
  hw_journal_entry_free (entry);
  hw_room_unref (self->room);
  self->room = next;
  plan_anew (self);
}

/* The first two operations with a needle thread dial. */
static const HwSetup *
setup_at (const Bench *self, int which)
{
  for (gsize i = 0; i < self->plan->n_steps; i++)
    {
      const HwSetup *setup = hw_plan_find_test_setup (self->plan,
                                                      hw_project_get_step (self->project, i)->number);

      if (setup != NULL && which-- == 0)
        return setup;
    }
  g_assert_not_reached ();
}

static void
sew (Bench *self, double dial, HwVerdict verdict)
{
  append (self, hw_plan_entry_for_test_seam (self->plan, setup_at (self, 0), dial, verdict));
}

static double
dial_of (const HwSetup *setup)
{
  return setup->values[HW_FIELD_DIAL].value;
}

static const HwReason *
find_reason (const HwSetup *setup, HwReasonCode code)
{
  for (guint i = 0; i < setup->reasons->len; i++)
    if (g_array_index (setup->reasons, HwReason, i).code == code)
      return &g_array_index (setup->reasons, HwReason, i);
  return NULL;
}

/* All that the model learns from is in the journal, and comes back from its file as it was. */
static void
test_round_trip (Bench *self, gconstpointer data)
{
  const HwSetup *setup = setup_at (self, 0);
  HwTensionFacts facts = setup->tension;
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (GError) error = NULL;
  HwJournalEntry *entry = hw_plan_entry_for_test_seam (self->plan, setup, 4.5, HW_VERDICT_PUCKER_RELEASED);
  HwTestSeam seam;

  facts.terms |= 1u << HW_TENSION_JERSEY | 1u << HW_TENSION_TWIN;
  hw_test_seam_write (&(HwTestSeam) { facts, 4.5, HW_VERDICT_PUCKER_RELEASED }, entry);
  g_assert_cmpstr (entry->machine, ==, "home");
  g_assert_cmpstr (entry->project, ==, self->project->id);
  g_assert_cmpstr (entry->step, ==, setup->step->number);
  g_assert_nonnull (entry->cloth);
  append (self, entry);

  again = hw_room_open (self->room->folder, &error);
  g_assert_no_error (error);
  list = hw_room_list_test_seams (again, "home");
  g_assert_cmpuint (list->len, ==, 1);
  g_assert_true (hw_test_seam_read (g_ptr_array_index (list, 0), &seam));
  g_assert_true (hw_test_seam_tells (&seam));
  g_assert_cmpint (seam.verdict, ==, HW_VERDICT_PUCKER_RELEASED);
  g_assert_cmpfloat (seam.dial, ==, 4.5);
  g_assert_cmpfloat (seam.facts.needle_tex, ==, facts.needle_tex);
  g_assert_cmpfloat (seam.facts.bobbin_tex, ==, facts.bobbin_tex);
  g_assert_cmpfloat_with_epsilon (seam.facts.thickness_mm, facts.thickness_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (seam.facts.length_mm, facts.length_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (seam.facts.width_mm, facts.width_mm, 1e-9);
  g_assert_cmpuint (seam.facts.terms, ==, facts.terms);
}

/* The dial moves for the step that was tried and for the others, with a reason that says so. */
static void
test_dial_moves (Bench *self, gconstpointer data)
{
  double before = dial_of (setup_at (self, 0));
  double other = dial_of (setup_at (self, 1));
  g_autofree char *sentence = NULL;
  g_autofree char *source = NULL;
  const HwReason *reason;

  g_assert_null (find_reason (setup_at (self, 0), HW_REASON_TEST_SEAMS));
  sew (self, before, HW_VERDICT_LOOPS_BELOW);
  sew (self, before + 0.5, HW_VERDICT_LOOPS_BELOW);

  reason = find_reason (setup_at (self, 0), HW_REASON_TEST_SEAMS);
  g_assert_nonnull (reason);
  g_assert_cmpfloat (reason->v[0], ==, 2);
  g_assert_cmpfloat (reason->v[1], >, 0.5);
  g_assert_cmpfloat (dial_of (setup_at (self, 0)), >, before + 0.5);
  g_assert_cmpfloat (dial_of (setup_at (self, 1)), >, other);
  sentence = hw_words_reason (self->plan, setup_at (self, 0), reason);
  g_assert_true (g_str_has_prefix (sentence, "Higher by "));
  g_assert_nonnull (strstr (sentence, "2 test seams on this machine say so."));
  source = hw_words_source (reason->source);
  g_assert_cmpstr (source, ==, "this machine’s test seams");
}

static void
test_cancel_restores (Bench *self, gconstpointer data)
{
  double before = dial_of (setup_at (self, 0));
  HwJournalEntry *entry = hw_plan_entry_for_test_seam (self->plan, setup_at (self, 0), before,
                                                       HW_VERDICT_BOBBIN_ABOVE);
  HwJournalEntry *cancel = hw_journal_entry_new (HW_ENTRY_CANCEL, entry->machine);
  g_autoptr (GPtrArray) list = NULL;

  cancel->of = g_strdup (entry->id);
  append (self, entry);
  g_assert_cmpfloat (dial_of (setup_at (self, 0)), <, before);
  append (self, cancel);
  g_assert_cmpfloat (dial_of (setup_at (self, 0)), ==, before);
  g_assert_cmpuint (setup_at (self, 0)->n_test_seams, ==, 0);
  list = hw_room_list_test_seams (self->room, "home");
  g_assert_cmpuint (list->len, ==, 0);
}

/* Verdicts about something else, and entries of a journal that kept no facts, change nothing. */
static void
test_says_nothing (Bench *self, gconstpointer data)
{
  static const HwVerdict silent[] = { HW_VERDICT_PUCKER_STAYS, HW_VERDICT_SKIPPED, HW_VERDICT_THREAD_SNAPS,
                                      HW_VERDICT_WAVY };
  double before = dial_of (setup_at (self, 0));
  double sd = setup_at (self, 0)->dial_sd;
  HwJournalEntry *bare = hw_journal_entry_new (HW_ENTRY_TEST_SEAM, "home");
  HwJournalEntry *unknown;

  for (gsize i = 0; i < G_N_ELEMENTS (silent); i++)
    sew (self, before, silent[i]);
  bare->dial = 2;
  bare->verdict = g_strdup ("loops-below");
  append (self, bare);
  unknown = hw_plan_entry_for_test_seam (self->plan, setup_at (self, 0), 2, HW_VERDICT_LOOPS_BELOW);
  g_free (unknown->verdict);
  unknown->verdict = g_strdup ("looked-odd");
  append (self, unknown);

  g_assert_cmpfloat (dial_of (setup_at (self, 0)), ==, before);
  g_assert_cmpfloat (setup_at (self, 0)->dial_sd, ==, sd);
  g_assert_null (find_reason (setup_at (self, 0), HW_REASON_TEST_SEAMS));
}

/* Half a number either way only after five seams that tell. */
static void
test_band_narrows (Bench *self, gconstpointer data)
{
  for (int n = 1; n <= 6; n++)
    {
      const HwSetup *setup;

      sew (self, dial_of (setup_at (self, 0)), HW_VERDICT_BALANCED);
      setup = setup_at (self, 0);
      g_assert_cmpuint (setup->n_test_seams, ==, (guint) n);
      g_assert_cmpfloat (setup->dial_likely_high - setup->dial_likely_low, ==, n < 5 ? 2 : 1);
      g_assert_cmpfloat (setup->dial_likely_low, <=, dial_of (setup));
      g_assert_cmpfloat (setup->dial_likely_high, >=, dial_of (setup));
    }
}

/* What the next half-step would be, before it is recorded, is what it is after. */
static void
test_next (Bench *self, gconstpointer data)
{
  double dial = dial_of (setup_at (self, 0));
  double up = hw_plan_next_dial (self->plan, setup_at (self, 0), dial, HW_VERDICT_LOOPS_BELOW, FALSE);
  double down = hw_plan_next_dial (self->plan, setup_at (self, 0), dial, HW_VERDICT_BOBBIN_ABOVE, FALSE);

  g_assert_cmpfloat (up, >=, dial + 0.5);
  g_assert_cmpfloat (down, <=, dial - 0.5);
  g_assert_cmpfloat (hw_plan_next_dial (self->plan, setup_at (self, 0), dial, HW_VERDICT_BALANCED, FALSE), ==, dial);
  sew (self, dial, HW_VERDICT_LOOPS_BELOW);
  g_assert_cmpfloat (hw_plan_next_dial (self->plan, setup_at (self, 0), dial, HW_VERDICT_LOOPS_BELOW, TRUE), ==, up);
}

/* The card knows nothing of scraps, and says half a number: so does the first scrap. The next ones go further where
 * they have to. */
static void
test_first_is_half (Bench *self, gconstpointer data)
{
  const HwSetup *setup = setup_at (self, 0);
  double dial = dial_of (setup);

  g_assert_cmpfloat (hw_plan_next_dial (self->plan, setup, dial, HW_VERDICT_LOOPS_BELOW, FALSE), ==, dial + 0.5);
  g_assert_cmpfloat (hw_plan_next_dial (self->plan, setup, dial, HW_VERDICT_BOBBIN_ABOVE, FALSE), ==, dial - 0.5);
  g_assert_cmpfloat (hw_plan_next_dial (self->plan, setup, dial, HW_VERDICT_PUCKER_RELEASED, FALSE), ==, dial - 0.5);
  sew (self, dial, HW_VERDICT_LOOPS_BELOW);
  g_assert_cmpfloat (hw_plan_next_dial (self->plan, setup_at (self, 0), dial, HW_VERDICT_LOOPS_BELOW, TRUE), ==,
                     dial + 0.5);
  g_assert_cmpfloat (dial_of (setup_at (self, 0)), ==, dial + 0.5);      /* the plan and its cards say the same */
  g_assert_cmpfloat (hw_plan_next_dial (self->plan, setup_at (self, 0), dial + 0.5, HW_VERDICT_LOOPS_BELOW, FALSE), >,
                     dial + 1);
  sew (self, dial + 0.5, HW_VERDICT_LOOPS_BELOW);
  g_assert_cmpfloat (dial_of (setup_at (self, 0)), >=, dial + 1);
}

/* One that was good is taken at its word, however far off it lay. */
static void
test_first_is_good (Bench *self, gconstpointer data)
{
  double dial = dial_of (setup_at (self, 0));

  sew (self, dial + 3, HW_VERDICT_BALANCED);
  g_assert_cmpfloat (dial_of (setup_at (self, 0)), ==, dial + 3);
}

/* After a fault the next scrap was good: there the step starts, and nothing moves it from there. At fault at the same
 * dial afterwards, it is not known to be good any more. */
static void
test_good_stays (Bench *self, gconstpointer data)
{
  double dial = dial_of (setup_at (self, 0));

  sew (self, dial, HW_VERDICT_LOOPS_BELOW);
  sew (self, dial + 0.5, HW_VERDICT_BALANCED);
  g_assert_cmpfloat (dial_of (setup_at (self, 0)), ==, dial + 0.5);
  g_assert_cmpfloat (setup_at (self, 0)->values[HW_FIELD_DIAL].low, ==, dial + 0.5);
  g_assert_cmpfloat (setup_at (self, 0)->values[HW_FIELD_DIAL].high, ==, dial + 0.5);
  sew (self, dial + 0.5, HW_VERDICT_LOOPS_BELOW);
  g_assert_cmpfloat (setup_at (self, 0)->values[HW_FIELD_DIAL].low, <,
                     setup_at (self, 0)->values[HW_FIELD_DIAL].high);
}

/* The belief is kept with the room's snapshot: asked again, from several threads, it is the same one. */
static gpointer
ask (gpointer data)
{
  const Bench *self = data;

  return (gpointer) hw_room_get_belief (self->room, hw_room_find_machine (self->room, "home"),
                                        &self->handbook->tension);
}

static void
test_kept (Bench *self, gconstpointer data)
{
  GThread *threads[8];
  HwTensionPrior other = self->handbook->tension;
  gconstpointer belief;

  sew (self, 4, HW_VERDICT_LOOPS_BELOW);
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("ask", ask, self);
  belief = ask (self);
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    g_assert_true (g_thread_join (threads[i]) == belief);
  other.verdict_noise *= 2;              /* another handbook, another belief */
  g_assert_true (hw_room_get_belief (self->room, hw_room_find_machine (self->room, "home"), &other) != belief);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/test-seams/round-trip", Bench, NULL, set_up, test_round_trip, tear_down);
  g_test_add ("/test-seams/dial-moves", Bench, NULL, set_up, test_dial_moves, tear_down);
  g_test_add ("/test-seams/cancel-restores", Bench, NULL, set_up, test_cancel_restores, tear_down);
  g_test_add ("/test-seams/says-nothing", Bench, NULL, set_up, test_says_nothing, tear_down);
  g_test_add ("/test-seams/band-narrows", Bench, NULL, set_up, test_band_narrows, tear_down);
  g_test_add ("/test-seams/next", Bench, NULL, set_up, test_next, tear_down);
  g_test_add ("/test-seams/first-is-half", Bench, NULL, set_up, test_first_is_half, tear_down);
  g_test_add ("/test-seams/first-is-good", Bench, NULL, set_up, test_first_is_good, tear_down);
  g_test_add ("/test-seams/good-stays", Bench, NULL, set_up, test_good_stays, tear_down);
  g_test_add ("/test-seams/kept", Bench, NULL, set_up, test_kept, tear_down);
  return g_test_run ();
}
