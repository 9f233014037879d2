/* test-fault-finder.c - the order of the checks, what the room's clues do to it, and what a remedy changes
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Weights, minutes and clue factors are the handbook's (common practice, no source); what is tested is the reckoning.
 */

#include "config.h"

#include "bench.h"
#include "plan/faults.h"
#include "workroom.h"

#include <math.h>
#include <string.h>

#define NOW "2031-06-01T12:00:00Z"

/* (transfer full): to be filled in */
static HwJournalEntry *
begin (Bench *self, HwEntryKind kind)
{
  HwJournalEntry *entry = hw_journal_entry_new (kind, BENCH_MACHINE);

  bench_set_time (self, entry);
  return entry;
}

static void
sew (Bench *self, double hours)
{
  HwJournalEntry *entry = begin (self, HW_ENTRY_SEWING);

  entry->minutes = hours * 60;
  entry->running = hours * 20;
  bench_append (self, entry);
}

static void
load (Bench *self, const char *point, int nm, const char *thread, const char *foot)
{
  HwJournalEntry *entry = begin (self, HW_ENTRY_LOAD);

  entry->system = g_strdup ("household");
  entry->point = g_strdup (point);
  entry->nm = nm;
  entry->needle_thread = g_strdup (thread);
  entry->foot = g_strdup (foot);
  bench_append (self, entry);
}

static void
do_care (Bench *self, const char *task)
{
  HwJournalEntry *entry = begin (self, HW_ENTRY_CARE);

  entry->task = g_strdup (task);
  bench_append (self, entry);
}

static void
note_fault (Bench *self, const char *fault, const char *cause)
{
  HwJournalEntry *entry = begin (self, HW_ENTRY_FAULT);

  entry->fault = g_strdup (fault);
  entry->cause = g_strdup (cause);
  entry->verdict = g_strdup ("found");
  bench_append (self, entry);
}

static void
test_seam (Bench *self, double dial, double length)
{
  HwJournalEntry *entry = begin (self, HW_ENTRY_TEST_SEAM);

  entry->dial = dial;
  entry->length_mm = length;
  entry->verdict = g_strdup ("balanced");
  bench_append (self, entry);
}

static const HwFault *
find_fault (const HwHandbook *handbook, const char *id)
{
  int index = hw_handbook_find_fault (handbook, id);

  g_assert_cmpint (index, >=, 0);
  return &handbook->faults[index];
}

/* One straight seam in two layers of cotton twill. */
static const HwSetup *
plan_seam (Bench *self, const char *overrides)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *xml = g_strdup_printf (
    "<fabrics><fabric id=\"a\" name=\"Twill\" handbook=\"cotton-twill\"/></fabrics>"
    "<threads><thread id=\"t\" handbook=\"polyester-30\" colour=\"navy\"/></threads>"
    "<steps><operation number=\"1\" name=\"Seam\" purpose=\"seam\" seam=\"plain\" length-cm=\"60\" needle-thread=\"t\""
    " bobbin-thread=\"t\"><ply fabric=\"a\" count=\"2\"/>%s</operation></steps>", overrides);

  self->project = workroom_parse (xml);
  self->plan = hw_plan_new (self->handbook, self->project, self->room, &error);
  g_assert_no_error (error);
  return self->plan->setups[0];
}

static HwFaultSearch *
search (const Bench *self, const HwSetup *setup, const char *fault)
{
  return hw_fault_search_new (self->handbook, self->room, bench_machine (self), setup,
                              find_fault (self->handbook, fault), NULL, NOW);
}

static const HwFaultCheck *
get_check (const HwFaultSearch *self, const char *cause)
{
  for (guint i = 0; i < self->checks->len; i++)
    if (strcmp (g_array_index (self->checks, HwFaultCheck, i).cause->id, cause) == 0)
      return &g_array_index (self->checks, HwFaultCheck, i);
  g_assert_not_reached ();
}

static double
chance_of (const Bench *self, const HwSetup *setup, const char *fault, const char *cause)
{
  g_autoptr (HwFaultSearch) found = search (self, setup, fault);

  return get_check (found, cause)->chance;
}

static double
sum_chances (const HwFaultSearch *self)
{
  double sum = 0;

  for (guint i = 0; i < self->checks->len; i++)
    sum += g_array_index (self->checks, HwFaultCheck, i).chance;
  return sum;
}

static const HwFaultCheck *
checks_of (const HwFaultSearch *self)
{
  return (const HwFaultCheck *) (void *) self->checks->data;
}

/* ---- the order ---- */

typedef struct { const HwFaultCheck *checks; gsize n; double best; gsize tried; } Brute;

static void
try_orders (Brute *self, gsize *order, gsize place)
{
  if (place == self->n)
    {
      self->best = MIN (self->best, hw_fault_expected_minutes (self->checks, self->n, order));
      self->tried++;
      return;
    }
  for (gsize i = place; i < self->n; i++)
    {
      gsize other = order[i];

      order[i] = order[place];
      order[place] = other;
      try_orders (self, order, place + 1);
      order[place] = order[i];
      order[i] = other;
    }
}

static double
best_of_all (const HwFaultSearch *found, gsize *tried)
{
  g_autofree gsize *order = g_new (gsize, found->checks->len);
  Brute brute = { checks_of (found), found->checks->len, INFINITY, 0 };

  for (gsize i = 0; i < brute.n; i++)
    order[i] = i;
  try_orders (&brute, order, 0);
  *tried = brute.tried;
  return brute.best;
}

/* As the handbook prints them, the likeliest first. */
static double
printed_minutes (const HwFaultSearch *found)
{
  double minutes = 0;
  double expected = 0;

  for (gsize i = 0; i < found->fault->n_causes; i++)
    {
      const HwFaultCheck *check = get_check (found, found->fault->causes[i].id);

      minutes += check->minutes;
      expected += check->chance * minutes;
    }
  return expected;
}

/* Over all orders each other check comes before it half of the time. */
static double
random_minutes (const HwFaultSearch *found)
{
  double all = 0;
  double expected = 0;

  for (guint i = 0; i < found->checks->len; i++)
    all += checks_of (found)[i].minutes;
  for (guint i = 0; i < found->checks->len; i++)
    expected += checks_of (found)[i].chance * (all + checks_of (found)[i].minutes) / 2;
  return expected;
}

typedef struct { double ours, best, printed, random; double over_best, over_printed, over_random; int n; } Sums;

static HwMachineKind
first_kind (const HwFault *fault)
{
  HwMachineKind kind = HW_MACHINE_LOCKSTITCH;

  while ((fault->machines & (1u << kind)) == 0)
    kind++;
  return kind;
}

static void
compare_fault (const Bench *bench, const HwFault *fault, Sums *sums)
{
  const HwMachine *on = hw_room_default_machine (bench->room, first_kind (fault));
  g_autoptr (HwFaultSearch) found = hw_fault_search_new (bench->handbook, bench->room,
                                                         on != NULL ? on : bench_machine (bench), NULL, fault, NULL,
                                                         NOW);
  gsize  tried = 0;
  double best = best_of_all (found, &tried);
  double printed = printed_minutes (found);
  double random = random_minutes (found);

  g_assert_cmpuint (found->checks->len, <=, 7);
  g_assert_cmpfloat_with_epsilon (sum_chances (found), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (found->expected_minutes, best, 1e-9);
  g_assert_cmpfloat (found->expected_minutes, <=, printed + 1e-9);
  g_assert_cmpfloat (found->expected_minutes, <=, random + 1e-9);
  g_test_message ("%s: %.2f min, best of %" G_GSIZE_FORMAT " orders %.2f, printed %.2f, random %.2f",
                  fault->entry.id, found->expected_minutes, tried, best, printed, random);
  sums->over_best += found->expected_minutes / best;
  sums->over_printed += found->expected_minutes / printed;
  sums->over_random += found->expected_minutes / random;
  sums->ours += found->expected_minutes;
  sums->printed += printed;
  sums->random += random;
  sums->n++;
}

static void
report (const char *what, const Sums *sums)
{
  g_test_message ("%s, mean over %d faults: ours / best %.4f, ours / printed order %.3f, ours / random order %.3f; "
                  "minutes %.2f, %.2f, %.2f", what, sums->n, sums->over_best / sums->n, sums->over_printed / sums->n,
                  sums->over_random / sums->n, sums->ours / sums->n, sums->printed / sums->n, sums->random / sums->n);
}

static void
test_best_order (void)
{
  Bench bench = { 0 };
  Sums fresh = { 0 };
  Sums worn = { 0 };

  bench_open (&bench);
  for (gsize i = 0; i < bench.handbook->n_faults; i++)
    compare_fault (&bench, &bench.handbook->faults[i], &fresh);
  report ("by the handbook's weights alone", &fresh);
  g_assert_cmpfloat (fresh.over_printed / fresh.n, <, 1);
  g_assert_cmpfloat (fresh.over_random / fresh.n, <, 0.8);
  load (&bench, "universal", 80, NULL, NULL);
  sew (&bench, 20);
  for (gsize i = 0; i < bench.handbook->n_faults; i++)
    compare_fault (&bench, &bench.handbook->faults[i], &worn);
  report ("needle and dusting at 20 of 15 h", &worn);
  bench_close (&bench);
}

static void
test_expected (void)
{
  const HwFaultCheck checks[] = { { .chance = 0.5, .minutes = 2 }, { .chance = 0.3, .minutes = 1 },
                                  { .chance = 0.2, .minutes = 4 } };
  const gsize order[] = { 1, 0, 2 };

  /* by hand: 0.3 x 1 + 0.5 x 3 + 0.2 x 7 */
  g_assert_cmpfloat_with_epsilon (hw_fault_expected_minutes (checks, 3, order), 3.2, 1e-12);
  /* 0.5 x 2 + 0.3 x 3 + 0.2 x 7 */
  g_assert_cmpfloat_with_epsilon (hw_fault_expected_minutes (checks, 3, NULL), 3.3, 1e-12);
}

static void
test_ruled_out (void)
{
  static const char * const one[] = { "not-in-discs", NULL };
  static const char * const all[] = { "not-in-discs", "lever-missed", "dial-low", "lint-in-discs", "thread-thick",
                                     NULL };
  Bench bench = { 0 };
  const HwFault *fault;

  bench_open (&bench);
  fault = find_fault (bench.handbook, "loops-underneath");
  {
    g_autoptr (HwFaultSearch) whole = search (&bench, NULL, "loops-underneath");
    g_autoptr (HwFaultSearch) rest = hw_fault_search_new (bench.handbook, bench.room, bench_machine (&bench), NULL,
                                                          fault, one, NOW);

    g_assert_cmpstr (checks_of (whole)[0].cause->id, ==, "not-in-discs");
    g_assert_cmpuint (rest->checks->len, ==, whole->checks->len - 1);
    g_assert_cmpfloat_with_epsilon (sum_chances (rest), 1, 1e-12);
    /* what is left keeps its proportions */
    g_assert_cmpfloat_with_epsilon (get_check (rest, "dial-low")->chance / get_check (rest, "lever-missed")->chance,
                                    get_check (whole, "dial-low")->chance / get_check (whole, "lever-missed")->chance,
                                    1e-12);
    g_assert_cmpstr (checks_of (rest)[0].cause->id, ==, "lever-missed");     /* as likely as the dial, half the time */
  }
  g_assert_null (hw_fault_search_new (bench.handbook, bench.room, bench_machine (&bench), NULL, fault, all, NOW));
  bench_close (&bench);
}

/* The same question twice, and of a room read again from its files. */
static void
test_determinism (void)
{
  g_autoptr (GError) error = NULL;
  Bench bench = { 0 };

  bench_open (&bench);
  load (&bench, "universal", 80, NULL, NULL);
  sew (&bench, 7);
  for (gsize i = 0; i < bench.handbook->n_faults; i++)
    {
      const HwFault *fault = &bench.handbook->faults[i];
      g_autoptr (HwRoom) again = hw_room_open (bench.folder, &error);
      g_autoptr (HwFaultSearch) a = search (&bench, NULL, fault->entry.id);
      g_autoptr (HwFaultSearch) b = hw_fault_search_new (bench.handbook, again,
                                                         hw_room_find_machine (again, BENCH_MACHINE), NULL, fault,
                                                         NULL, NOW);

      g_assert_cmpuint (a->checks->len, ==, b->checks->len);
      for (guint j = 0; j < a->checks->len; j++)
        {
          g_assert_true (checks_of (a)[j].cause == checks_of (b)[j].cause);
          g_assert_cmpfloat (checks_of (a)[j].chance, ==, checks_of (b)[j].chance);
        }
    }
  bench_close (&bench);
}

/* ---- clues ---- */

static void
test_worn_needle (void)
{
  Bench bench = { 0 };
  double unknown, fresh, worn;

  bench_open (&bench);
  unknown = chance_of (&bench, NULL, "needle-cutting", "blunt");
  g_assert_cmpfloat_with_epsilon (unknown, 0.4, 1e-12);                      /* the handbook's weight */
  load (&bench, "universal", 80, NULL, NULL);
  fresh = chance_of (&bench, NULL, "needle-cutting", "blunt");
  sew (&bench, 16);
  worn = chance_of (&bench, NULL, "needle-cutting", "blunt");
  g_assert_cmpfloat (fresh, <, unknown);
  g_assert_cmpfloat (worn, >, unknown);
  {
    g_autoptr (HwFaultSearch) found = search (&bench, NULL, "needle-cutting");
    const HwFaultCheck *check = get_check (found, "blunt");

    g_assert_cmpint (check->fact, ==, HW_KNOWN_NEEDLE_HOURS);
    g_assert_cmpfloat_with_epsilon (check->clue_value, 16, 1e-9);
    g_assert_cmpfloat (check->clue_limit, ==, bench.handbook->needle_life.at_machine_hours);
  }
  bench_close (&bench);
}

/* At its limit a clue multiplies by factor-at-limit, half way by the geometric mean, never by more than the most. */
static void
test_factor (void)
{
  static const struct { double hours, share; } cases[] = { { 0, 0 }, { 7.5, 0.5 }, { 15, 1 }, { 300, 20 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Bench bench = { 0 };
      const HwClueEntry *clue = NULL;
      double expected;

      bench_open (&bench);
      for (gsize j = 0; j < bench.handbook->n_clues; j++)
        if (bench.handbook->clues[j].clue == HW_CLUE_NEEDLE_HOURS)
          clue = &bench.handbook->clues[j];
      g_assert_nonnull (clue);
      load (&bench, "universal", 80, NULL, NULL);
      if (cases[i].hours > 0)
        sew (&bench, cases[i].hours);
      expected = MIN (clue->most, clue->clear * pow (clue->at_limit / clue->clear, cases[i].share));
      {
        g_autoptr (HwFaultSearch) found = search (&bench, NULL, "noise");

        g_assert_cmpfloat_with_epsilon (get_check (found, "blunt")->clue, expected, 1e-9);
      }
      bench_close (&bench);
    }
}

static void
test_lint (void)
{
  Bench bench = { 0 };
  double before, after;

  bench_open (&bench);
  sew (&bench, 18);
  before = chance_of (&bench, NULL, "uneven-feed", "feed");
  do_care (&bench, "dust");
  after = chance_of (&bench, NULL, "uneven-feed", "feed");
  g_assert_cmpfloat (before, >, 0.36);
  g_assert_cmpfloat (after, <, 0.36);
  /* the discs have a clock of their own */
  {
    g_autoptr (HwFaultSearch) found = search (&bench, NULL, "loops-underneath");
    const HwFaultCheck *discs = get_check (found, "lint-in-discs");

    g_assert_cmpint (discs->clue_care, ==, hw_handbook_find_care (bench.handbook, "discs"));
    g_assert_cmpfloat_with_epsilon (discs->clue_value, 18, 1e-9);
  }
  bench_close (&bench);
}

static void
test_service (void)
{
  Bench bench = { 0 };
  g_autoptr (HwFaultSearch) found = NULL;

  bench_open (&bench);
  do_care (&bench, "service");                                           /* on the first of May */
  found = hw_fault_search_new (bench.handbook, bench.room, bench_machine (&bench), NULL,
                               find_fault (bench.handbook, "needle-breaks"), NULL, "2033-05-01T00:00:00Z");
  g_assert_cmpint (get_check (found, "position")->fact, ==, HW_KNOWN_CARE_MONTHS);
  g_assert_cmpfloat_with_epsilon (get_check (found, "position")->clue_value, 24, 0.1);
  g_assert_cmpfloat (get_check (found, "position")->clue, >, 1);
  bench_close (&bench);
}

/* Oil says something only where the machine's own manual gives a limit. */
static void
test_oil (void)
{
  Bench bench = { 0 };

  bench_open (&bench);
  sew (&bench, 30);
  {
    g_autoptr (HwFaultSearch) found = search (&bench, NULL, "noise");

    g_assert_cmpint (get_check (found, "dry")->fact, ==, HW_KNOWN_NONE);
    g_assert_cmpfloat (get_check (found, "dry")->clue, ==, 1);
  }
  {
    HwMachine *own = (HwMachine *) bench_machine (&bench);                     /* the test's own snapshot */

    own->n_care = 1;
    own->care = g_new0 (HwOwnCare, 1);
    own->care[0] = (HwOwnCare) { g_strdup ("oil"), 10 };
  }
  {
    g_autoptr (HwFaultSearch) found = search (&bench, NULL, "noise");

    g_assert_cmpfloat (get_check (found, "dry")->clue, >, 1);
    g_assert_cmpfloat (get_check (found, "dry")->clue_limit, ==, 10);
  }
  bench_close (&bench);
}

static void
test_needle_fit (void)
{
  static const struct { const char *point; int nm; const char *fault, *cause; gboolean likelier; } cases[] = {
    { "universal", 60, "needle-breaks", "too-fine", TRUE },
    { "universal", 120, "needle-breaks", "too-fine", FALSE },
    { "leather", 80, "needle-cutting", "wrong-point", TRUE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Bench bench = { 0 };
      const HwSetup *setup;
      double before, after;

      bench_open (&bench);
      setup = plan_seam (&bench, "");
      before = chance_of (&bench, setup, cases[i].fault, cases[i].cause);
      load (&bench, cases[i].point, cases[i].nm, NULL, NULL);
      after = chance_of (&bench, setup, cases[i].fault, cases[i].cause);
      g_test_message ("%s %d: %s %.3f -> %.3f", cases[i].point, cases[i].nm, cases[i].cause, before, after);
      if (cases[i].likelier)
        g_assert_cmpfloat (after, >, before);
      else
        g_assert_cmpfloat (after, <, before);
      bench_close (&bench);
    }
}

static void
test_dial (void)
{
  Bench bench = { 0 };
  const HwSetup *setup;
  double unknown, high, low, far;

  bench_open (&bench);
  setup = plan_seam (&bench, "");
  unknown = chance_of (&bench, setup, "bobbin-on-top", "dial-high");
  test_seam (&bench, setup->dial_likely_high + 1, 0);
  high = chance_of (&bench, setup, "bobbin-on-top", "dial-high");
  test_seam (&bench, setup->dial_likely_high + 2, 0);
  far = chance_of (&bench, setup, "bobbin-on-top", "dial-high");
  test_seam (&bench, setup->values[HW_FIELD_DIAL].prefer - 1, 0);
  low = chance_of (&bench, setup, "bobbin-on-top", "dial-high");
  g_assert_cmpfloat (high, >, unknown);
  g_assert_cmpfloat (far, >=, high);
  g_assert_cmpfloat (low, <, unknown);
  g_assert_cmpfloat (chance_of (&bench, setup, "loops-underneath", "dial-low"), >, 0.18);
  /* another load: where the dial stands nobody knows */
  load (&bench, "universal", 80, NULL, NULL);
  g_assert_true (isnan (hw_fault_dial_now (bench.room, bench_machine (&bench), setup)));
  bench_close (&bench);
}

static void
test_thread (void)
{
  Bench bench = { 0 };
  const HwSetup *setup;
  double planned, thick, fine;

  bench_open (&bench);
  setup = plan_seam (&bench, "");
  load (&bench, "universal", 80, "navy tex 30", NULL);
  planned = chance_of (&bench, setup, "loops-underneath", "thread-thick");
  load (&bench, "universal", 80, "navy tex 120", NULL);
  thick = chance_of (&bench, setup, "loops-underneath", "thread-thick");
  load (&bench, "universal", 80, "navy tex 10", NULL);
  fine = chance_of (&bench, setup, "loops-underneath", "thread-thick");
  g_assert_cmpfloat (thick, >, planned);
  g_assert_cmpfloat_with_epsilon (fine, planned, 1e-12);                 /* too fine is not too thick */
  g_assert_cmpfloat (chance_of (&bench, setup, "seam-grin", "thread"), >, 0.18);
  bench_close (&bench);
}

/* Looked up by the label on the machine; what another spool shows says nothing. */
static void
test_snap (void)
{
  static const struct { const char *colour; HwSnap snap; int sign; } cases[] = {
    { "navy", HW_SNAP_WEAK, 1 }, { "navy", HW_SNAP_GOOD, -1 }, { "navy", HW_SNAP_UNTESTED, 0 },
    { "ochre", HW_SNAP_WEAK, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Bench bench = { 0 };
      HwSpool *spool = hw_spool_new ("s", "polyester-30", cases[i].colour);
      double chance;

      spool->snap = cases[i].snap;
      bench_open (&bench);
      load (&bench, "universal", 80, "navy tex 30", NULL);
      g_ptr_array_add (bench.room->spools, spool);
      {
        g_autoptr (HwFaultSearch) found = search (&bench, NULL, "needle-thread-breaks");

        chance = get_check (found, "poor-thread")->clue;
      }
      g_assert_cmpint ((chance > 1) - (chance < 1), ==, cases[i].sign);
      bench_close (&bench);
    }
}

static void
test_stitch (void)
{
  Bench bench = { 0 };
  const HwSetup *setup;
  double planned, longer;

  bench_open (&bench);
  setup = plan_seam (&bench, "");
  test_seam (&bench, 4, setup->values[HW_FIELD_LENGTH].value);
  planned = chance_of (&bench, setup, "seam-slippage", "too-long");
  test_seam (&bench, 4, setup->values[HW_FIELD_LENGTH].high + 1);
  longer = chance_of (&bench, setup, "seam-slippage", "too-long");
  g_assert_cmpfloat (longer, >, planned);
  g_assert_cmpfloat (planned, <, 0.28);
  bench_close (&bench);
}

static void
test_foot (void)
{
  Bench bench = { 0 };
  const HwSetup *setup;
  double planned, other;

  bench_open (&bench);
  setup = plan_seam (&bench, "");
  load (&bench, "universal", 80, NULL, bench.handbook->feet[(int) setup->values[HW_FIELD_FOOT].value].entry.id);
  planned = chance_of (&bench, setup, "creep", "feed-ratio");
  load (&bench, "universal", 80, NULL, "buttonhole");
  other = chance_of (&bench, setup, "creep", "feed-ratio");
  g_assert_cmpfloat (other, >, planned);
  bench_close (&bench);
}

/* ---- history ---- */

static void
test_history (void)
{
  Bench bench = { 0 };
  double before, once, often;

  bench_open (&bench);
  before = chance_of (&bench, NULL, "nest", "drawn-in");
  note_fault (&bench, "nest", "drawn-in");
  once = chance_of (&bench, NULL, "nest", "drawn-in");
  /* the mean of the Dirichlet distribution, by hand: (10 x 0.14 + 1) / 11 */
  g_assert_cmpfloat_with_epsilon (once, 2.4 / 11, 1e-12);
  note_fault (&bench, "pucker", "needle");                               /* another fault moves nothing */
  g_assert_cmpfloat_with_epsilon (chance_of (&bench, NULL, "nest", "drawn-in"), once, 1e-12);
  for (int i = 0; i < 20; i++)
    note_fault (&bench, "nest", "drawn-in");
  often = chance_of (&bench, NULL, "nest", "drawn-in");
  g_assert_cmpfloat (before, <, once);
  g_assert_cmpfloat_with_epsilon (often, (1.4 + 21) / 31, 1e-12);
  {
    g_autoptr (HwFaultSearch) found = search (&bench, NULL, "nest");

    g_assert_cmpstr (checks_of (found)[0].cause->id, ==, "drawn-in");    /* it now comes first */
    g_assert_cmpint (checks_of (found)[0].found, ==, 21);
    g_assert_cmpfloat_with_epsilon (sum_chances (found), 1, 1e-12);
  }
  bench_close (&bench);
}

static void
test_cancelled_history (void)
{
  Bench bench = { 0 };
  HwJournalEntry *cancel;
  double before;

  bench_open (&bench);
  before = chance_of (&bench, NULL, "nest", "drawn-in");
  note_fault (&bench, "nest", "drawn-in");
  cancel = begin (&bench, HW_ENTRY_CANCEL);
  cancel->of = g_strdup (((HwJournalEntry *) g_ptr_array_index (bench.room->entries, 0))->id);
  bench_append (&bench, cancel);
  g_assert_cmpfloat_with_epsilon (chance_of (&bench, NULL, "nest", "drawn-in"), before, 1e-12);
  bench_close (&bench);
}

/* ---- remedies ---- */

static const HwCause *
find_cause (const Bench *self, const char *fault, const char *cause)
{
  const HwCause *found = hw_fault_find_cause (find_fault (self->handbook, fault), cause);

  g_assert_nonnull (found);
  return found;
}

static HwFix
fix_of (const Bench *self, const HwSetup *setup, const char *fault, const char *cause)
{
  return hw_fault_fix (self->handbook, self->room, bench_machine (self), setup, find_cause (self, fault, cause));
}

static void
do_fix (Bench *self, const HwFix *fix)
{
  HwJournalEntry *entry = hw_fault_fix_entry (self->handbook, self->room, bench_machine (self), fix);

  g_assert_nonnull (entry);
  bench_set_time (self, entry);
  bench_append (self, entry);
}

static void
test_load_new (void)
{
  Bench bench = { 0 };
  g_autofree char *old = NULL;
  const HwNeedle *needle;
  const HwPacket *packet;
  int left;
  HwFix fix;

  bench_open (&bench);
  load (&bench, "universal", 80, "navy tex 30", "walking");
  sew (&bench, 16);
  old = g_strdup (hw_room_get_state (bench.room, bench_machine (&bench))->needle->id);
  fix = fix_of (&bench, NULL, "skipped-stitches", "needle-worn");
  g_assert_cmpint (fix.kind, ==, HW_FIX_LOAD_NEEDLE);
  g_assert_cmpint (fix.size_nm, ==, 80);
  g_assert_nonnull (fix.packet);
  packet = fix.packet;
  left = hw_room_new_needles (bench.room, packet);
  do_fix (&bench, &fix);
  needle = hw_room_get_state (bench.room, bench_machine (&bench))->needle;
  g_assert_cmpstr (needle->id, !=, old);
  g_assert_cmpfloat (needle->at_machine_hours, ==, 0);
  g_assert_cmpint (hw_room_new_needles (bench.room, packet), ==, left - 1);
  for (guint i = 0; i < bench.room->needles->len; i++)
    {
      const HwNeedle *one = g_ptr_array_index (bench.room->needles, i);

      if (strcmp (one->id, old) == 0)
        g_assert_true (one->discarded);
    }
  /* all else stays on the machine */
  g_assert_cmpstr (hw_room_get_state (bench.room, bench_machine (&bench))->foot, ==, "walking");
  g_assert_cmpstr (hw_room_get_state (bench.room, bench_machine (&bench))->needle_thread, ==, "navy tex 30");
  g_assert_cmpfloat (chance_of (&bench, NULL, "skipped-stitches", "needle-worn"), <, 0.34);
  bench_close (&bench);
}

static void
test_load_planned (void)
{
  Bench bench = { 0 };
  const HwSetup *setup;
  HwFix fix;

  bench_open (&bench);
  setup = plan_seam (&bench, "");
  load (&bench, "leather", 60, NULL, NULL);
  fix = fix_of (&bench, setup, "needle-cutting", "wrong-point");
  g_assert_cmpint (fix.kind, ==, HW_FIX_LOAD_NEEDLE);
  g_assert_cmpint (fix.point, ==, (int) setup->values[HW_FIELD_POINT].value);
  g_assert_false (fix.discard);                                         /* it goes back to the case */
  fix = fix_of (&bench, setup, "needle-breaks", "too-fine");
  g_assert_cmpint (fix.size_nm, ==, (int) setup->values[HW_FIELD_SIZE].value);
  /* nothing known, nothing planned: nothing to load by one press */
  bench.n_entries = 0;
  bench_close (&bench);
  bench = (Bench) { 0 };
  bench_open (&bench);
  fix = fix_of (&bench, NULL, "needle-breaks", "too-fine");
  g_assert_cmpint (fix.kind, ==, HW_FIX_NONE);
  bench_close (&bench);
}

static void
test_set_dial (void)
{
  Bench bench = { 0 };
  const HwSetup *setup;
  double start;
  HwFix fix;

  bench_open (&bench);
  setup = plan_seam (&bench, "");
  start = setup->values[HW_FIELD_DIAL].value;
  fix = fix_of (&bench, setup, "bobbin-on-top", "dial-high");
  g_assert_cmpint (fix.kind, ==, HW_FIX_SET_DIAL);
  g_assert_cmpfloat (fix.dial, ==, start - 0.5);
  fix = fix_of (&bench, setup, "loops-underneath", "dial-low");
  g_assert_cmpfloat (fix.dial, ==, start + 0.5);
  /* far out it goes to the end of the printed band at once */
  test_seam (&bench, setup->dial_likely_high + 2, 0);
  fix = fix_of (&bench, setup, "bobbin-on-top", "dial-high");
  g_assert_cmpfloat (fix.dial, ==, setup->dial_likely_high);
  /* put down in the fault's entry, it is where the dial stands */
  {
    HwJournalEntry *entry = begin (&bench, HW_ENTRY_FAULT);

    entry->fault = g_strdup ("bobbin-on-top");
    entry->cause = g_strdup ("dial-high");
    entry->verdict = g_strdup ("found");
    entry->dial = fix.dial;
    bench_append (&bench, entry);
  }
  g_assert_cmpfloat (hw_fault_dial_now (bench.room, bench_machine (&bench), setup), ==, setup->dial_likely_high);
  fix = fix_of (&bench, setup, "bobbin-on-top", "dial-high");
  g_assert_cmpfloat (fix.dial, ==, setup->dial_likely_high - 0.5);
  g_assert_null (hw_fault_fix_entry (bench.handbook, bench.room, bench_machine (&bench), &fix));
  bench_close (&bench);
}

static void
test_dial_limit (void)
{
  Bench bench = { 0 };
  HwFix fix;

  bench_open (&bench);
  fix = fix_of (&bench, NULL, "bobbin-on-top", "dial-high");
  g_assert_cmpint (fix.kind, ==, HW_FIX_NONE);                           /* nobody knows where it stands */
  test_seam (&bench, bench_machine (&bench)->dial.high, 0);
  fix = fix_of (&bench, NULL, "loops-underneath", "dial-low");
  g_assert_cmpint (fix.kind, ==, HW_FIX_NONE);                           /* no further up */
  fix = fix_of (&bench, NULL, "bobbin-on-top", "dial-high");
  g_assert_cmpfloat (fix.dial, ==, bench_machine (&bench)->dial.high - 0.5);
  bench_close (&bench);
}

static void
test_care_done (void)
{
  Bench bench = { 0 };
  const HwCareTask *dust;
  HwFix fix;

  bench_open (&bench);
  sew (&bench, 18);
  fix = fix_of (&bench, NULL, "uneven-feed", "feed");
  g_assert_cmpint (fix.kind, ==, HW_FIX_CARE);
  dust = &bench.handbook->care[fix.care];
  g_assert_cmpstr (dust->entry.id, ==, "dust");
  g_assert_cmpfloat (hw_room_care_clock (bench.room, bench_machine (&bench), dust, NOW), >, 15);
  do_fix (&bench, &fix);
  g_assert_cmpfloat (hw_room_care_clock (bench.room, bench_machine (&bench), dust, NOW), ==, 0);
  fix = fix_of (&bench, NULL, "skipped-stitches", "timing");
  g_assert_cmpint (fix.kind, ==, HW_FIX_NONE);                           /* a technician's, not one press */
  bench_close (&bench);
}

/* What is written is read again the same. */
static void
test_entry (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwRoom) again = NULL;
  Bench bench = { 0 };
  const HwJournalEntry *read;
  HwJournalEntry *entry;

  bench_open (&bench);
  entry = hw_fault_entry (bench_machine (&bench), find_fault (bench.handbook, "bobbin-on-top"),
                          find_cause (&bench, "bobbin-on-top", "dial-high"), "apron", "3");
  entry->dial = 3.5;
  bench_append (&bench, entry);
  bench_append (&bench, hw_fault_entry (bench_machine (&bench), find_fault (bench.handbook, "nest"), NULL, NULL, NULL));
  again = hw_room_open (bench.folder, &error);
  g_assert_no_error (error);
  read = g_ptr_array_index (again->entries, 0);
  g_assert_cmpstr (read->fault, ==, "bobbin-on-top");
  g_assert_cmpstr (read->cause, ==, "dial-high");
  g_assert_cmpstr (read->verdict, ==, "found");
  g_assert_cmpstr (read->step, ==, "3");
  g_assert_cmpfloat (read->dial, ==, 3.5);
  read = g_ptr_array_index (again->entries, 1);
  g_assert_cmpstr (read->verdict, ==, "not-found");
  g_assert_null (read->cause);
  bench_close (&bench);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fault-finder/best-order", test_best_order);
  g_test_add_func ("/fault-finder/expected", test_expected);
  g_test_add_func ("/fault-finder/ruled-out", test_ruled_out);
  g_test_add_func ("/fault-finder/determinism", test_determinism);
  g_test_add_func ("/fault-finder/clue/worn-needle", test_worn_needle);
  g_test_add_func ("/fault-finder/clue/factor", test_factor);
  g_test_add_func ("/fault-finder/clue/lint", test_lint);
  g_test_add_func ("/fault-finder/clue/service", test_service);
  g_test_add_func ("/fault-finder/clue/oil", test_oil);
  g_test_add_func ("/fault-finder/clue/needle-fit", test_needle_fit);
  g_test_add_func ("/fault-finder/clue/dial", test_dial);
  g_test_add_func ("/fault-finder/clue/thread", test_thread);
  g_test_add_func ("/fault-finder/clue/snap", test_snap);
  g_test_add_func ("/fault-finder/clue/stitch", test_stitch);
  g_test_add_func ("/fault-finder/clue/foot", test_foot);
  g_test_add_func ("/fault-finder/history/found", test_history);
  g_test_add_func ("/fault-finder/history/cancelled", test_cancelled_history);
  g_test_add_func ("/fault-finder/fix/load-new", test_load_new);
  g_test_add_func ("/fault-finder/fix/load-planned", test_load_planned);
  g_test_add_func ("/fault-finder/fix/dial", test_set_dial);
  g_test_add_func ("/fault-finder/fix/dial-limit", test_dial_limit);
  g_test_add_func ("/fault-finder/fix/care", test_care_done);
  g_test_add_func ("/fault-finder/entry", test_entry);
  return g_test_run ();
}
