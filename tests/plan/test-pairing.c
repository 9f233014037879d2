/* test-pairing.c - bounds, limits, warnings, overrides, estimates and fallbacks of a pairing
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pairs with the handbook of tests/plan/small, whose rows are made up so that each answer can be worked out by hand;
 * whether the shipped handbook is good trade is for test-bands.c.
 */

#include "config.h"

#include "plan/pairing.h"
#include "plan/rules.h"
#include "workroom.h"

#include <math.h>
#include <string.h>

#define EPSILON 1e-6
#define assert_near(a, b) g_assert_cmpfloat_with_epsilon (a, b, EPSILON)

typedef struct
{
  HwHandbook *handbook;
  HwRoom     *room;
  HwProject  *project;
  GArray     *cloths;
  HwSetup    *setup;
  GError     *error;
} Pairing;

static void
clear_pairing (Pairing *self)
{
  g_clear_pointer (&self->setup, hw_setup_free);
  g_clear_pointer (&self->cloths, g_array_unref);
  g_clear_pointer (&self->project, hw_project_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_pointer (&self->handbook, hw_handbook_unref);
  g_clear_error (&self->error);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Pairing, clear_pairing)

/* Words become entries with the handbook's id as their own; what begins with "<" is XML as it stands. */
static void
add_entries (GString *xml, const char *section, const char *element, const char *words)
{
  g_auto (GStrv) ids = g_strsplit (words, " ", -1);

  g_string_append_printf (xml, "<%s>", section);
  if (words[0] == '<')
    g_string_append (xml, words);
  for (gsize i = 0; words[0] != '<' && ids[i] != NULL && ids[i][0] != '\0'; i++)
    g_string_append_printf (xml, "<%s id='%s' handbook='%s'/>", element, ids[i], ids[i]);
  g_string_append_printf (xml, "</%s>", section);
}

/* @operation: its attributes but for number, name and length; @inside: plies, crossing, overrides. */
static Pairing
pair_in (const WorkroomMachine *machine,
         const char            *overlock_system,
         const char            *fabrics,
         const char            *threads,
         const char            *operation,
         const char            *inside)
{
  g_autoptr (GString) xml = g_string_new (NULL);
  Pairing self = { 0 };

  add_entries (xml, "fabrics", "fabric", fabrics);
  add_entries (xml, "threads", "thread", threads);
  g_string_append_printf (xml, "<steps><operation number='1' name='Step' length-cm='10' %s>%s</operation></steps>",
                          operation, inside);
  self.handbook = workroom_small ();
  self.room = workroom_new (machine, overlock_system, 3);
  self.project = workroom_parse (xml->str);
  self.cloths = hw_cloths_resolve (self.handbook, self.project, &self.error);
  if (self.cloths != NULL)
    self.setup = hw_pair (self.handbook, self.project, self.cloths, self.room, hw_project_get_step (self.project, 0),
                          &self.error);
  g_assert_true ((self.setup == NULL) == (self.error != NULL));
  return self;
}

static Pairing
pair (const char *fabrics, const char *threads, const char *operation, const char *inside)
{
  return pair_in (&workroom_usual, "household", fabrics, threads, operation, inside);
}

#define TWO_COTTON "<ply fabric='cotton' count='2'/>"
#define ONE(fabric) "<ply fabric='" fabric "'/>"
#define PLIES(fabric, count) "<ply fabric='" fabric "' count='" count "'/>"
#define SET(field, value) "<set field='" field "' value='" value "'/>"
#define CHOOSE(field, choice) "<set field='" field "' choice='" choice "'/>"

/* Once more, after the handbook was altered. */
static void
pair_again (Pairing *self)
{
  g_clear_pointer (&self->setup, hw_setup_free);
  g_clear_error (&self->error);
  self->setup = hw_pair (self->handbook, self->project, self->cloths, self->room,
                         hw_project_get_step (self->project, 0), &self->error);
  g_assert_true ((self->setup == NULL) == (self->error != NULL));
}

static const HwValue *
get (const Pairing *self, HwField field)
{
  g_assert_no_error (self->error);
  return &self->setup->values[field];
}

static double
get_value (const Pairing *self, HwField field)
{
  g_assert_true (get (self, field)->applies);
  return get (self, field)->value;
}

static const HwWarning *
find_warning (const Pairing *self, HwWarningCode code)
{
  g_assert_no_error (self->error);
  for (guint i = 0; i < self->setup->warnings->len; i++)
    if (g_array_index (self->setup->warnings, HwWarning, i).code == code)
      return &g_array_index (self->setup->warnings, HwWarning, i);
  return NULL;
}

static const HwReason *
find_reason (const Pairing *self, HwField field, HwReasonCode code)
{
  g_assert_no_error (self->error);
  for (guint i = 0; i < self->setup->reasons->len; i++)
    {
      const HwReason *reason = &g_array_index (self->setup->reasons, HwReason, i);

      if (reason->field == field && reason->code == code)
        return reason;
    }
  return NULL;
}

static const char *
get_point (const Pairing *self)
{
  return self->handbook->points[(int) get_value (self, HW_FIELD_POINT)].entry.id;
}

static const char *
get_foot (const Pairing *self)
{
  return self->handbook->feet[(int) get_value (self, HW_FIELD_FOOT)].entry.id;
}

static const char *
get_plate (const Pairing *self)
{
  return self->handbook->plates[(int) get_value (self, HW_FIELD_PLATE)].entry.id;
}

static HwSet
set_of_points (const Pairing *self, const char *words)
{
  g_auto (GStrv) ids = g_strsplit (words, " ", -1);
  HwSet set = 0;

  for (gsize i = 0; ids[i] != NULL; i++)
    set |= HW_SET (hw_handbook_find_point (self->handbook, ids[i]));
  return set;
}

static void
assert_band (const Pairing *self, HwField field, double low, double value, double high)
{
  assert_near (get (self, field)->low, low);
  assert_near (get_value (self, field), value);
  assert_near (get (self, field)->high, high);
}

/* ---- rows against facts ---- */

static HwRule
open_rule (void)
{
  const HwRange any = { -INFINITY, INFINITY };

  return (HwRule) { .mass = any, .thickness = any, .stretch = any, .tex = any, .plies = any, .choice = -1 };
}

static void
test_row_ranges (void)
{
  HwFacts facts = { .mass_g_m2 = 200, .thickness_mm = 1, .stretch_percent = 10, .tex = 30, .plies = 2 };
  HwRule rule = open_rule ();

  g_assert_true (hw_rule_fits (&rule, &facts));
  rule.mass = (HwRange) { 200, 300 };
  g_assert_true (hw_rule_fits (&rule, &facts));
  rule.mass = (HwRange) { 100, 200 };
  g_assert_true (hw_rule_fits (&rule, &facts));
  facts.mass_g_m2 = 200.1;
  g_assert_false (hw_rule_fits (&rule, &facts));
  rule = open_rule ();
  rule.plies = (HwRange) { 3, INFINITY };
  g_assert_false (hw_rule_fits (&rule, &facts));
  facts.plies = 3;
  g_assert_true (hw_rule_fits (&rule, &facts));
  rule.tex = (HwRange) { -INFINITY, 29 };
  g_assert_false (hw_rule_fits (&rule, &facts));
}

static void
test_row_sets (void)
{
  const HwSet traits[] = { HW_SET (0) | HW_SET (1), HW_SET (1) };
  const HwPlySets whole = { .constructions = HW_SET (3) | HW_SET (4), .families = 3, .traits = traits, .n_plies = 2 };
  HwFacts facts = { .constructions = HW_SET (3) | HW_SET (4), .traits = HW_SET (0) | HW_SET (1), .families = 3,
                    .whole = &whole };
  HwRule rule = open_rule ();

  rule.traits = HW_SET (0) | HW_SET (9);
  g_assert_true (hw_rule_fits (&rule, &facts));          /* any member of the set, on any ply */
  rule.all = TRUE;
  g_assert_false (hw_rule_fits (&rule, &facts));         /* the second ply has neither */
  rule.traits = HW_SET (1);
  g_assert_true (hw_rule_fits (&rule, &facts));
  rule.without = HW_SET (0);
  g_assert_false (hw_rule_fits (&rule, &facts));
  rule.without = HW_SET (7);
  rule.constructions = HW_SET (3);
  g_assert_false (hw_rule_fits (&rule, &facts));         /* the other construction is not in the set */
  rule.constructions |= HW_SET (4) | HW_SET (5);
  g_assert_true (hw_rule_fits (&rule, &facts));
  rule.families = 1;
  g_assert_false (hw_rule_fits (&rule, &facts));
  rule.all = FALSE;
  g_assert_true (hw_rule_fits (&rule, &facts));
}

/* ---- cloths ---- */

static const HwCloth *
get_cloth (const Pairing *self, guint index)
{
  g_assert_cmpuint (index, <, self->cloths->len);
  return &g_array_index (self->cloths, HwCloth, index);
}

static void
test_cloth_of_handbook (void)
{
  g_auto (Pairing) p = pair ("<fabric id='a' handbook='voile'/>"
                             "<fabric id='b' handbook='voile' mass='66' thickness='0.2' stretch='3' traits='pile'/>",
                             "usual", "purpose='seam'", ONE ("a") ONE ("b"));
  int delicate = hw_handbook_find_trait (p.handbook, "delicate");
  int pile = hw_handbook_find_trait (p.handbook, "pile");

  assert_near (get_cloth (&p, 0)->mass_g_m2, 60);
  assert_near (get_cloth (&p, 0)->thickness_mm, 0.15);
  assert_near (get_cloth (&p, 0)->stretch_percent, 0);
  g_assert_cmpuint (get_cloth (&p, 0)->traits, ==, HW_SET (delicate));
  assert_near (get_cloth (&p, 1)->mass_g_m2, 66);       /* what was measured wins */
  assert_near (get_cloth (&p, 1)->thickness_mm, 0.2);
  assert_near (get_cloth (&p, 1)->stretch_percent, 3);
  g_assert_cmpuint (get_cloth (&p, 1)->traits, ==, HW_SET (delicate) | HW_SET (pile));
  g_assert_false (get_cloth (&p, 1)->thickness_estimated);
}

static void
test_cloth_of_ones_own (void)
{
  g_auto (Pairing) p = pair ("<fabric id='a' construction='single-jersey' mass='300'/>"
                             "<fabric id='b' construction='plain' mass='120' thickness='0.3'/>",
                             "usual", "purpose='seam'", ONE ("a") ONE ("b") ONE ("a"));
  guint n_estimated = 0;

  assert_near (get_cloth (&p, 0)->thickness_mm, 1.2);    /* 300 / (1000 x 0.25) */
  g_assert_true (get_cloth (&p, 0)->thickness_estimated);
  g_assert_null (get_cloth (&p, 0)->entry);
  g_assert_false (get_cloth (&p, 1)->thickness_estimated);
  for (guint i = 0; i < p.setup->warnings->len; i++)
    n_estimated += g_array_index (p.setup->warnings, HwWarning, i).code == HW_WARN_ESTIMATED;
  g_assert_cmpuint (n_estimated, ==, 1);                 /* once, though it is sewn twice */
  g_assert_true (find_warning (&p, HW_WARN_ESTIMATED)->cloth == get_cloth (&p, 0));
}

typedef struct
{
  const char *path, *fabrics, *threads, *operation, *inside;
  int         code;
  const char *named, *meant;             /* what the message must hold */
} Refusal;

static const Refusal refusals[] = {
  { "/pairing/refuses/fabric", "<fabric id='f' name='Best' handbook='cotten'/>", "usual", "purpose='seam'", ONE ("f"),
    HW_PLAN_ERROR_UNKNOWN, "Best", "cotton" },
  { "/pairing/refuses/construction", "<fabric id='f' name='Best' construction='plane' mass='9'/>", "usual",
    "purpose='seam'", ONE ("f"), HW_PLAN_ERROR_UNKNOWN, "Best", "plain" },
  { "/pairing/refuses/trait", "<fabric id='f' name='Best' handbook='cotton' traits='pyle'/>", "usual",
    "purpose='seam'", ONE ("f"), HW_PLAN_ERROR_UNKNOWN, "Best", "pile" },
  { "/pairing/refuses/thread", "cotton", "<thread id='t' handbook='usuel'/>", "purpose='seam'", ONE ("cotton"),
    HW_PLAN_ERROR_UNKNOWN, "t", "usual" },
  { "/pairing/refuses/purpose", "cotton", "usual", "purpose='seem'", ONE ("cotton"), HW_PLAN_ERROR_UNKNOWN, "1",
    "seam" },
  { "/pairing/refuses/stitch", "cotton", "usual", "purpose='seam' stitch='301-twn'", ONE ("cotton"),
    HW_PLAN_ERROR_UNKNOWN, "1", "301-twin" },
  { "/pairing/refuses/seam", "cotton", "usual", "purpose='seam' seam='plian'", ONE ("cotton"), HW_PLAN_ERROR_UNKNOWN,
    "1", "plain" },
  { "/pairing/refuses/machine", "cotton", "usual", "purpose='seam' machine='barn'", ONE ("cotton"),
    HW_PLAN_ERROR_UNKNOWN, "1", "barn" },
  { "/pairing/refuses/no-machine", "cotton", "usual", "purpose='seam' stitch='602'", ONE ("cotton"),
    HW_PLAN_ERROR_NO_MACHINE, "1", "Cover" },
  { "/pairing/refuses/wrong-machine", "cotton", "usual", "purpose='seam' stitch='504' machine='home'", ONE ("cotton"),
    HW_PLAN_ERROR_NO_MACHINE, "Home machine", "Overedge" },
  { "/pairing/refuses/kinds-of-machine", "cotton", "usual", "purpose='seam' stitch='504' machine='home'",
    ONE ("cotton"), HW_PLAN_ERROR_NO_MACHINE, "1", "an overlocker" },
  { "/pairing/refuses/overridden-point", "cotton", "usual", "purpose='seam'",
    ONE ("cotton") CHOOSE ("point", "rund"), HW_PLAN_ERROR_UNKNOWN, "1", "round" },
  { "/pairing/refuses/overridden-foot", "cotton", "usual", "purpose='seam'",
    ONE ("cotton") CHOOSE ("foot", "edg"), HW_PLAN_ERROR_UNKNOWN, "1", "edge" },
  { "/pairing/refuses/overridden-machine", "cotton", "usual", "purpose='seam'",
    ONE ("cotton") CHOOSE ("machine", "barn"), HW_PLAN_ERROR_UNKNOWN, "1", "barn" },
};

static void
test_refusal (gconstpointer data)
{
  const Refusal *refusal = data;
  g_auto (Pairing) p = pair (refusal->fabrics, refusal->threads, refusal->operation, refusal->inside);

  g_assert_error (p.error, HW_PLAN_ERROR, refusal->code);
  g_assert_nonnull (strstr (p.error->message, refusal->named));
  g_assert_nonnull (strstr (p.error->message, refusal->meant));
}

/* ---- the operation ---- */

static void
test_plies (void)
{
  g_auto (Pairing) p = pair ("cotton velvet", "usual", "purpose='seam'",
                             PLIES ("cotton", "3") PLIES ("velvet", "2")
                             "<crossing>" PLIES ("velvet", "4") "</crossing>");

  assert_near (p.setup->thickness_mm, 3 * 0.4 + 2 * 1.2);
  assert_near (p.setup->under_foot_mm, 3 * 0.4 + 2 * 1.2 * 0.5);
  assert_near (p.setup->crossing_mm, 4.8);
  g_assert_cmpstr (p.setup->seam->entry.id, ==, "plain");                /* the purpose's own */
  g_assert_cmpstr (p.setup->stitch->entry.id, ==, "301");
  g_assert_cmpstr (p.setup->machine->id, ==, "home");
}

static void
test_machine_of_the_stitch (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam' stitch='504'", TWO_COTTON);

  g_assert_cmpstr (p.setup->machine->id, ==, "overlocker");
  g_assert_false (get (&p, HW_FIELD_PLATE)->applies);
  assert_near (get (&p, HW_FIELD_PLATE)->value, -1);
  g_assert_false (get (&p, HW_FIELD_WIDTH)->applies);
  assert_band (&p, HW_FIELD_DIFFERENTIAL, 0.9, 1, 1.1);
  assert_band (&p, HW_FIELD_CUTTING_WIDTH, 4, 5, 6);
  g_assert_cmpstr (get_foot (&p), ==, "overlock");
  assert_near (get_value (&p, HW_FIELD_ENDS), HW_ENDS_CHAIN_OFF);
}

/* What goes behind a cloth is in the stack, but it does not make cotton a knit, nor a light cloth heavy. */
static void
test_backing (void)
{
  g_auto (Pairing) edge = pair ("cotton fusible", "usual", "purpose='seam' stitch='504'",
                                ONE ("cotton") ONE ("fusible"));
  g_auto (Pairing) light = pair ("voile fusible", "usual fine", "purpose='seam'", ONE ("voile") ONE ("fusible"));
  g_auto (Pairing) alone = pair ("fusible", "usual", "purpose='seam' stitch='504'", ONE ("fusible"));
  g_auto (Pairing) pile = pair ("velvet fusible", "usual", "purpose='seam'", ONE ("velvet") ONE ("fusible"));
  g_auto (Pairing) skin = pair ("leather fusible", "usual", "purpose='seam'", ONE ("leather") ONE ("fusible"));

  assert_band (&edge, HW_FIELD_DIFFERENTIAL, 0.9, 1, 1.1);
  assert_near (edge.setup->thickness_mm, 0.6);
  g_assert_cmpstr (light.setup->needle_thread.entry->entry.id, ==, "fine");
  assert_band (&alone, HW_FIELD_DIFFERENTIAL, 1.2, 1.3, 1.5);
  assert_band (&pile, HW_FIELD_PRESSURE, -2, -2, -1);    /* every ply but the backing has a pile */
  g_assert_cmpstr (get_point (&skin), !=, "leather");    /* it has yarns that a cutting point would cut */
}

static void
test_row_of_a_seam (void)
{
  g_auto (Pairing) french = pair ("cotton", "usual", "purpose='seam' seam='french'", TWO_COTTON);
  g_auto (Pairing) plain = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);

  assert_band (&french, HW_FIELD_ALLOWANCE, 5, 6, 7);
  assert_band (&plain, HW_FIELD_ALLOWANCE, 10, 15, 20);
}

static void
test_lockstitch_has_no_feed_ratio (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);

  g_assert_false (get (&p, HW_FIELD_DIFFERENTIAL)->applies);
  g_assert_false (get (&p, HW_FIELD_CUTTING_WIDTH)->applies);
  g_assert_false (get (&p, HW_FIELD_TWIN)->applies);
  assert_band (&p, HW_FIELD_ALLOWANCE, 10, 15, 20);
}

/* ---- threads ---- */

typedef struct
{
  const char *path, *fabrics, *threads, *operation, *inside;
  const char *needle, *under;            /* handbook ids */
  gboolean    needle_listed, under_listed;       /* one of the project's */
} ThreadCase;

static const ThreadCase thread_cases[] = {
  { "/pairing/thread/first-in-band", "cotton", "fine stout usual", "purpose='seam'", TWO_COTTON, "usual", "usual",
    TRUE, TRUE },
  { "/pairing/thread/none-in-band", "cotton", "rope", "purpose='seam'", TWO_COTTON, "usual", "usual", FALSE, FALSE },
  { "/pairing/thread/light-cloth", "voile", "usual", "purpose='seam'", ONE ("voile"), "fine", "fine", FALSE, FALSE },
  { "/pairing/thread/named", "cotton", "usual fine", "purpose='seam' needle-thread='fine'", TWO_COTTON, "fine", "fine",
    TRUE, TRUE },
  { "/pairing/thread/lighter-bobbin", "cotton", "stout usual", "purpose='topstitch'", TWO_COTTON, "stout", "usual",
    TRUE, TRUE },
  { "/pairing/thread/lighter-bobbin-bought", "cotton", "stout", "purpose='topstitch'", TWO_COTTON, "stout", "usual",
    TRUE, FALSE },
  { "/pairing/thread/named-bobbin", "cotton", "usual fine", "purpose='seam' bobbin-thread='fine'", TWO_COTTON, "usual",
    "fine", TRUE, TRUE },
  { "/pairing/thread/metallic-not-in-bobbin", "cotton", "glitter usual", "purpose='seam' needle-thread='glitter'",
    TWO_COTTON, "glitter", "usual", TRUE, TRUE },
  { "/pairing/thread/metallic-only-when-named", "cotton", "glitter usual", "purpose='seam'", TWO_COTTON, "usual",
    "usual", TRUE, TRUE },
  { "/pairing/thread/spun-before-silk", "cotton", "silk usual", "purpose='seam'", TWO_COTTON, "usual", "usual", TRUE,
    TRUE },
  { "/pairing/thread/silk-project", "cotton", "silk", "purpose='seam'", TWO_COTTON, "silk", "silk", TRUE, TRUE },
  { "/pairing/thread/tacking-holds-no-seam", "cotton", "tacking usual", "purpose='seam'", TWO_COTTON, "usual", "usual",
    TRUE, TRUE },
  { "/pairing/thread/silk-before-tacking", "cotton", "tacking silk", "purpose='seam'", TWO_COTTON, "silk", "silk", TRUE,
    TRUE },
  { "/pairing/thread/tacking-is-not-bought-for-a-seam", "cotton", "tacking", "purpose='seam'", TWO_COTTON, "usual",
    "usual", FALSE, FALSE },
  { "/pairing/thread/tacking-bastes", "cotton", "usual tacking", "purpose='baste'", TWO_COTTON, "tacking", "tacking",
    TRUE, TRUE },
  { "/pairing/thread/overlock", "cotton", "usual fine", "purpose='neaten'", ONE ("cotton"), "fine", "fine", TRUE,
    TRUE },
  { "/pairing/thread/not-for-this-machine", "cotton", "<thread id='a' handbook='usual' tex='25'/>"
    "<thread id='b' handbook='fine'/>", "purpose='neaten'", ONE ("cotton"), "fine", "fine", TRUE, TRUE },
  { "/pairing/thread/overlock-loopers", "cotton", "usual fluff fine",
    "purpose='neaten' needle-thread='usual'", ONE ("cotton"), "usual", "fluff", TRUE, TRUE },
};

static void
test_thread_case (gconstpointer data)
{
  const ThreadCase *c = data;
  g_auto (Pairing) p = pair (c->fabrics, c->threads, c->operation, c->inside);

  g_assert_no_error (p.error);
  g_assert_cmpstr (p.setup->needle_thread.entry->entry.id, ==, c->needle);
  g_assert_cmpstr (p.setup->bobbin_thread.entry->entry.id, ==, c->under);
  g_assert_cmpint (p.setup->needle_thread.thread != NULL, ==, c->needle_listed);
  g_assert_cmpint (p.setup->bobbin_thread.thread != NULL, ==, c->under_listed);
  assert_near (get_value (&p, HW_FIELD_NEEDLE_TEX), p.setup->needle_thread.tex);
  assert_near (get_value (&p, HW_FIELD_BOBBIN_TEX), p.setup->bobbin_thread.tex);
}

static void
test_thread_band (void)
{
  g_auto (Pairing) seam = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);
  g_auto (Pairing) named = pair ("cotton", "rope", "purpose='seam' needle-thread='rope'", TWO_COTTON);

  assert_band (&seam, HW_FIELD_NEEDLE_TEX, 24, 30, 40);
  g_assert_null (find_warning (&seam, HW_WARN_OVERRIDE_OUTSIDE));
  g_assert_nonnull (find_reason (&seam, HW_FIELD_NEEDLE_TEX, HW_REASON_CHOSEN_THREAD));
  assert_band (&named, HW_FIELD_NEEDLE_TEX, 24, 120, 40);
  assert_near (find_warning (&named, HW_WARN_OVERRIDE_OUTSIDE)->v[0], 120);
  assert_near (find_warning (&named, HW_WARN_COARSE_THREAD)->v[0], 120);
}

/* A row may speak of a form of thread: it is heard where the step names such a thread. */
static void
test_thread_band_of_its_form (void)
{
  g_auto (Pairing) p = pair ("cotton", "glitter usual", "purpose='seam' needle-thread='glitter'", TWO_COTTON);

  assert_band (&p, HW_FIELD_NEEDLE_TEX, 25, 30, 32);
}

/* No thread is taken but those that the handbook counts, though another lie next to them in memory. */
static void
test_thread_of_the_handbook (void)
{
  g_auto (Pairing) p = pair ("cotton", "fine", "purpose='seam'", TWO_COTTON);
  gsize n_threads = p.handbook->n_threads;

  g_assert_cmpstr (p.setup->needle_thread.entry->entry.id, ==, "usual");
  g_assert_cmpstr (p.handbook->threads[1].entry.id, ==, "usual");
  p.handbook->n_threads = 1;
  pair_again (&p);
  p.handbook->n_threads = n_threads;     /* they are freed with it */
  g_assert_cmpstr (p.setup->needle_thread.entry->entry.id, ==, "fine");
}

/* Sizes are nominal: 590.5 / 25 is sold, shown and judged as tex 24. */
static void
test_thread_nominal_tex (void)
{
  g_auto (Pairing) under = pair ("cotton", "<thread id='t' handbook='usual' tex='23.6'/>",
                                 "purpose='seam' needle-thread='t' bobbin-thread='t'", TWO_COTTON);
  g_auto (Pairing) chosen = pair ("cotton", "<thread id='t' handbook='usual' tex='23.6'/>", "purpose='seam'",
                                  TWO_COTTON);
  g_auto (Pairing) outside = pair ("cotton", "<thread id='t' handbook='usual' tex='23.4'/>",
                                   "purpose='seam' needle-thread='t'", TWO_COTTON);

  g_assert_null (find_warning (&under, HW_WARN_OVERRIDE_OUTSIDE));
  assert_near (get_value (&chosen, HW_FIELD_NEEDLE_TEX), 23.6);
  g_assert_nonnull (find_warning (&outside, HW_WARN_OVERRIDE_OUTSIDE));
}

static void
test_thread_measured_tex (void)
{
  g_auto (Pairing) p = pair ("cotton", "<thread id='t' handbook='usual' tex='34'/>", "purpose='seam'", TWO_COTTON);

  assert_near (get_value (&p, HW_FIELD_NEEDLE_TEX), 34);
  assert_near (p.setup->needle_thread.diameter_mm, sqrt (4e-3 * 34 / (G_PI * 1.4 * 0.6)));
}

static void
test_thread_overridden (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual stout", "purpose='seam'", TWO_COTTON SET ("needle-tex", "60"));

  assert_near (p.setup->needle_thread.tex, 60);
  g_assert_cmpstr (p.setup->needle_thread.thread->id, ==, "stout");
  g_assert_cmpint (get (&p, HW_FIELD_NEEDLE_TEX)->origin, ==, HW_ORIGIN_OVERRIDDEN);
  assert_near (find_warning (&p, HW_WARN_OVERRIDE_OUTSIDE)->v[2], 40);
  assert_near (get_value (&p, HW_FIELD_BOBBIN_TEX), 30);                 /* follows: a lighter bobbin */
  assert_near (get_value (&p, HW_FIELD_SIZE), 90);                       /* and the needle: lower bound of 60 tex */
}

/* ---- points ---- */

typedef struct
{
  const char *path, *fabrics, *threads, *operation, *inside;
  const char *point, *accept;
} PointCase;

static const PointCase point_cases[] = {
  { "/pairing/point/woven", "cotton", "usual", "purpose='seam'", TWO_COTTON, "round", "round sharp topstitch" },
  { "/pairing/point/highest-rank", "canvas voile", "usual", "purpose='seam'", ONE ("canvas") ONE ("voile"), "sharp",
    "sharp round" },
  { "/pairing/point/order-of-plies", "canvas voile", "usual", "purpose='seam'", ONE ("voile") ONE ("canvas"), "sharp",
    "sharp round" },
  { "/pairing/point/nothing-in-common", "jersey cotton", "usual", "purpose='seam'", ONE ("jersey") ONE ("cotton"),
    "ball", "ball stretch" },
  { "/pairing/point/both-accept", "jersey swim", "usual", "purpose='seam'", ONE ("jersey") ONE ("swim"), "stretch",
    "stretch" },
  { "/pairing/point/what-both-accept", "velvet cotton", "usual", "purpose='seam'", ONE ("velvet") ONE ("cotton"),
    "round", "round" },
  { "/pairing/point/what-both-accept-alike", "<fabric id='velvet' handbook='velvet'/>"
    "<fabric id='spongy' construction='plain' mass='200' thickness='0.65'/>", "usual", "purpose='seam'",
    ONE ("velvet") ONE ("spongy"), "stretch", "round stretch" },
  { "/pairing/point/skin", "leather", "usual", "purpose='seam'", PLIES ("leather", "2"), "leather", "leather sharp" },
  { "/pairing/point/skin-and-cloth", "leather cotton", "usual", "purpose='seam'", ONE ("leather") ONE ("cotton"),
    "sharp", "sharp" },
  { "/pairing/point/work-overrules", "cotton", "stout", "purpose='topstitch'", TWO_COTTON, "topstitch",
    "topstitch round" },
  { "/pairing/point/work-does-not-fit", "cotton", "usual", "purpose='topstitch' needle-thread='usual'", TWO_COTTON,
    "round", "round sharp topstitch" },
  { "/pairing/point/work-not-on-knit", "jersey", "stout", "purpose='topstitch'", PLIES ("jersey", "2"), "ball",
    "ball stretch" },
  { "/pairing/point/twin-sold", "jersey", "usual", "purpose='seam' stitch='301-twin'", PLIES ("jersey", "2"),
    "stretch", "stretch" },
};

static void
test_point_case (gconstpointer data)
{
  const PointCase *c = data;
  g_auto (Pairing) p = pair (c->fabrics, c->threads, c->operation, c->inside);

  g_assert_cmpstr (get_point (&p), ==, c->point);
  g_assert_cmphex (get (&p, HW_FIELD_POINT)->accept, ==, set_of_points (&p, c->accept));
}

static void
test_point_of_system (void)
{
  g_auto (Pairing) p = pair_in (&workroom_usual, "special", "cotton", "fine", "purpose='neaten'", ONE ("cotton"));

  g_assert_cmpstr (get_point (&p), ==, "ball");          /* the only one that system is sold with */
  g_assert_cmphex (get (&p, HW_FIELD_POINT)->accept, ==, set_of_points (&p, "ball"));
}

/* The machine that a person chose is taken, though the stitch would do on the first of its kind too. */
static void
test_chosen_machine (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON CHOOSE ("machine", "home"));

  g_assert_no_error (p.error);
  g_assert_cmpstr (p.setup->machine->id, ==, "home");
}

static void
test_point_overridden (void)
{
  g_auto (Pairing) inside = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON CHOOSE ("point", "sharp"));
  g_auto (Pairing) outside = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON CHOOSE ("point", "leather"));

  g_assert_cmpstr (get_point (&inside), ==, "sharp");
  g_assert_cmpint (get (&inside, HW_FIELD_POINT)->origin, ==, HW_ORIGIN_OVERRIDDEN);
  g_assert_null (find_warning (&inside, HW_WARN_OVERRIDE_OUTSIDE));
  g_assert_cmpstr (get_point (&outside), ==, "leather"); /* kept, marked and warned of: it would cut the cloth */
  g_assert_cmpint (find_warning (&outside, HW_WARN_OVERRIDE_OUTSIDE)->field, ==, HW_FIELD_POINT);
}

/* ---- sizes ---- */

static void
test_size_of_cloth_and_thread (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);
  const HwReason *share = find_reason (&p, HW_FIELD_SIZE, HW_REASON_THREAD_SHARE);

  assert_band (&p, HW_FIELD_SIZE, 70, 80, 90);
  assert_near (find_reason (&p, HW_FIELD_SIZE, HW_REASON_SMALLEST)->v[0], 80);
  assert_near (share->v[0], p.setup->needle_thread.diameter_mm);
  assert_near (share->v[1], 100 * p.setup->needle_thread.diameter_mm / 0.8);
  assert_near (share->v[2], 100 * p.setup->needle_thread.diameter_mm / 0.28);
}

static void
test_size_of_stack (void)
{
  g_auto (Pairing) thick = pair ("cotton", "usual", "purpose='seam'", PLIES ("cotton", "8"));
  g_auto (Pairing) thicker = pair ("canvas", "usual", "purpose='seam'", PLIES ("canvas", "6"));

  assert_near (thick.setup->thickness_mm, 3.2);
  assert_band (&thick, HW_FIELD_SIZE, 90, 90, 90);
  assert_near (get (&thicker, HW_FIELD_SIZE)->low, 100); /* every row that fits applies: the larger bound */
}

static void
test_size_held_down_by_delicate_ply (void)
{
  g_auto (Pairing) p = pair ("cotton voile", "usual", "purpose='seam' needle-thread='usual'",
                             ONE ("cotton") ONE ("voile"));

  assert_band (&p, HW_FIELD_SIZE, 70, 70, 70);           /* cotton and thread prefer 80, voile bears 70 */
  g_assert_null (find_warning (&p, HW_WARN_BOUNDS_CROSS));
  g_assert_null (find_reason (&p, HW_FIELD_SIZE, HW_REASON_SMALLEST));
}

static void
test_size_bounds_cross_by_thread (void)
{
  g_auto (Pairing) p = pair ("voile", "stout", "purpose='seam' needle-thread='stout'", PLIES ("voile", "2"));
  g_auto (Pairing) thickest = pair ("voile", "rope", "purpose='seam' needle-thread='rope'", PLIES ("voile", "2"));
  const HwWarning *warning = find_warning (&p, HW_WARN_BOUNDS_CROSS);

  assert_near (get_value (&p, HW_FIELD_SIZE), 90);
  assert_near (warning->v[0], 90);
  assert_near (warning->v[1], 70);
  assert_near (warning->v[2], 18);                       /* 30 tex goes through 70, but voile wants 24 at most */
  assert_near (find_warning (&thickest, HW_WARN_BOUNDS_CROSS)->v[2], 18);
  g_assert_cmpstr (warning->cloth->fabric->id, ==, "voile");
  {
    g_auto (Pairing) topstitch = pair ("voile", "stout", "purpose='topstitch' needle-thread='stout'",
                                       PLIES ("voile", "2"));

    /* 60 tex is what topstitching wants, and still the voile's needle does not take it: 30 goes through it */
    assert_near (find_warning (&topstitch, HW_WARN_BOUNDS_CROSS)->v[2], 30);
  }
}

static void
test_size_bounds_cross_by_cloth (void)
{
  g_auto (Pairing) p = pair ("canvas voile", "usual", "purpose='seam'", ONE ("canvas") ONE ("voile"));
  const HwWarning *warning = find_warning (&p, HW_WARN_BOUNDS_CROSS);

  assert_near (get_value (&p, HW_FIELD_SIZE), 90);
  assert_near (warning->v[2], 0);                        /* no thread helps: the canvas needs it */
}

static void
test_size_next_size_is_borne (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", PLIES ("cotton", "16"));

  assert_near (get_value (&p, HW_FIELD_SIZE), 100);      /* 6.4 mm wants 100, the cloth 90: one size, no warning */
  g_assert_null (find_warning (&p, HW_WARN_BOUNDS_CROSS));
}

static void
test_size_not_sold (void)
{
  g_auto (Pairing) p = pair ("<fabric id='f' construction='single-jersey' mass='90'/>", "fine", "purpose='seam'",
                             PLIES ("f", "2"));
  const HwWarning *warning = find_warning (&p, HW_WARN_SIZE_NOT_SOLD);

  assert_near (get_value (&p, HW_FIELD_SIZE), 80);       /* ball points are sold in 80 and 90 here */
  assert_near (warning->v[0], 60);
  assert_near (warning->v[1], 80);
}

static void
test_size_overridden (void)
{
  g_auto (Pairing) p = pair ("cotton", "stout", "purpose='topstitch'", TWO_COTTON SET ("size", "60"));

  assert_near (get_value (&p, HW_FIELD_SIZE), 60);
  assert_near (get (&p, HW_FIELD_SIZE)->prefer, 90);
  assert_near (find_warning (&p, HW_WARN_OVERRIDE_OUTSIDE)->v[0], 60);
  /* The eye of that point takes 1.25 times as much thread. */
  assert_near (find_warning (&p, HW_WARN_THREAD_LIMIT)->v[0], 100 * p.setup->needle_thread.diameter_mm / (0.6 * 1.25));
}

/* Twins, however close, are sizes of their own: a single needle comes in all sizes of its point. */
static void
test_size_of_single_needle (void)
{
  g_auto (Pairing) p = pair ("canvas", "usual", "purpose='seam'", ONE ("canvas"));
  HwPoint *round = &p.handbook->points[hw_handbook_find_point (p.handbook, "round")];

  for (double spacing_mm = 0; spacing_mm <= 2; spacing_mm += 0.5)
    {
      round->twins[0].spacing_mm = spacing_mm;
      pair_again (&p);
      assert_near (get_value (&p, HW_FIELD_SIZE), 100);
      g_assert_null (find_warning (&p, HW_WARN_SIZE_NOT_SOLD));
    }
}

/* ---- twins ---- */

static Pairing
pair_twin (double width_max, double plate_opening, const char *fabric, const char *purpose, const char *inside)
{
  WorkroomMachine machine = workroom_usual;
  g_autofree char *operation = g_strdup_printf ("purpose='%s' stitch='301-twin'", purpose);

  machine.width_max_mm = width_max;
  machine.plate_opening_mm = plate_opening;
  return pair_in (&machine, NULL, fabric, "usual", operation, inside);
}

static void
test_twin_by_purpose (void)
{
  g_auto (Pairing) close = pair_twin (7, 9, "jersey", "topstitch", PLIES ("jersey", "2"));
  g_auto (Pairing) far = pair_twin (7, 9, "jersey", "seam", PLIES ("jersey", "2"));

  assert_near (get_value (&close, HW_FIELD_TWIN), 2.5);
  assert_near (get_value (&close, HW_FIELD_SIZE), 75);
  assert_near (get_value (&far, HW_FIELD_TWIN), 4);      /* 6 is wanted, 4 is the widest that point is sold with */
  g_assert_null (find_warning (&far, HW_WARN_TWIN_WIDE));
  assert_near (get_value (&far, HW_FIELD_WIDTH), 0);
}

static void
test_twin_fits_machine (void)
{
  g_auto (Pairing) wide = pair_twin (7, 9, "cotton", "seam", TWO_COTTON);
  g_auto (Pairing) swing = pair_twin (5, 9, "cotton", "seam", TWO_COTTON);
  g_auto (Pairing) plate = pair_twin (7, 4.5, "cotton", "seam", TWO_COTTON);

  assert_near (get_value (&wide, HW_FIELD_TWIN), 6);
  assert_near (get_value (&wide, HW_FIELD_SIZE), 100);   /* the only size sold at 6 mm */
  g_assert_null (find_warning (&wide, HW_WARN_TWIN_WIDE));

  assert_near (get_value (&swing, HW_FIELD_TWIN), 4);
  g_assert_cmpint (get (&swing, HW_FIELD_TWIN)->origin, ==, HW_ORIGIN_CLAMPED);
  assert_near (find_warning (&swing, HW_WARN_TWIN_WIDE)->v[0], 6);
  assert_near (find_warning (&swing, HW_WARN_TWIN_WIDE)->v[1], 5);
  assert_near (find_warning (&swing, HW_WARN_TWIN_WIDE)->v[2], 4);

  assert_near (get_value (&plate, HW_FIELD_TWIN), 2);
  assert_near (find_warning (&plate, HW_WARN_TWIN_WIDE)->v[2], 2);       /* 3.5 would pass, 2 is sold */
}

/* Stretch twins are sold from 2.5 mm: where no more than 2 passes, none does. */
static void
test_twin_never_fits (void)
{
  g_auto (Pairing) swing = pair_twin (3, 9, "jersey", "topstitch", PLIES ("jersey", "2"));

  assert_near (find_warning (&swing, HW_WARN_TWIN_WIDE)->v[0], 2.5);
  assert_near (find_warning (&swing, HW_WARN_TWIN_WIDE)->v[1], 3);
  assert_near (find_warning (&swing, HW_WARN_TWIN_WIDE)->v[2], 0);
}

static void
test_twin_overridden (void)
{
  g_auto (Pairing) p = pair_twin (5, 9, "cotton", "topstitch", TWO_COTTON SET ("twin", "6"));

  assert_near (get_value (&p, HW_FIELD_TWIN), 6);
  assert_near (find_warning (&p, HW_WARN_TWIN_WIDE)->v[0], 6);
  g_assert_nonnull (find_warning (&p, HW_WARN_OVERRIDE_OUTSIDE));
}

/* ---- length and width ---- */

static void
test_length_clamped (void)
{
  WorkroomMachine machine = workroom_usual;
  g_auto (Pairing) free_of_limits = pair ("cotton", "usual", "purpose='baste'", TWO_COTTON);

  assert_band (&free_of_limits, HW_FIELD_LENGTH, 4, 5, 5);       /* the band is cut, the value is not */
  g_assert_null (find_warning (&free_of_limits, HW_WARN_CLAMPED));

  machine.length_max_mm = 4;
  {
    g_auto (Pairing) p = pair_in (&machine, NULL, "cotton", "usual", "purpose='baste'", TWO_COTTON);

    assert_band (&p, HW_FIELD_LENGTH, 4, 4, 4);
    g_assert_cmpint (get (&p, HW_FIELD_LENGTH)->origin, ==, HW_ORIGIN_CLAMPED);
    assert_near (find_warning (&p, HW_WARN_CLAMPED)->v[0], 5);
    assert_near (find_warning (&p, HW_WARN_CLAMPED)->v[1], 4);
    assert_near (find_reason (&p, HW_FIELD_LENGTH, HW_REASON_CLAMPED)->v[1], 4);
  }
}

static void
test_length_of_stitch (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam' stitch='304-satin'", TWO_COTTON);

  assert_near (get_value (&p, HW_FIELD_LENGTH), 0.6);    /* the row says 2.5; no satin stitch is that long */
  g_assert_null (find_warning (&p, HW_WARN_CLAMPED));    /* which is no limit of the machine */
  assert_band (&p, HW_FIELD_WIDTH, 2, 4, 6);
}

static void
test_width_clamped (void)
{
  WorkroomMachine machine = workroom_usual;
  g_auto (Pairing) swing = pair ("cotton", "usual", "purpose='topstitch' stitch='304'", TWO_COTTON);

  assert_band (&swing, HW_FIELD_WIDTH, 5, 7, 7);
  assert_near (find_warning (&swing, HW_WARN_CLAMPED)->v[0], 8);

  machine.plate_opening_mm = 5.5;
  {
    g_auto (Pairing) plate = pair_in (&machine, NULL, "cotton", "usual", "purpose='topstitch' stitch='304'",
                                      TWO_COTTON);

    assert_near (get_value (&plate, HW_FIELD_WIDTH), 5.5);
  }
}

static void
test_length_overridden (void)
{
  g_auto (Pairing) outside = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON SET ("length", "5"));
  g_auto (Pairing) inside = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON SET ("length", "3"));

  assert_near (get_value (&outside, HW_FIELD_LENGTH), 5);
  g_assert_cmpint (get (&outside, HW_FIELD_LENGTH)->origin, ==, HW_ORIGIN_OVERRIDDEN);
  assert_near (find_reason (&outside, HW_FIELD_LENGTH, HW_REASON_OVERRIDE)->v[0], 2.5);
  assert_near (find_warning (&outside, HW_WARN_OVERRIDE_OUTSIDE)->v[2], 3);
  assert_near (get_value (&outside, HW_FIELD_DIAL), 3);  /* 2.5 mm more, at -0.4 each, from the reference's 4 */
  g_assert_null (find_warning (&inside, HW_WARN_OVERRIDE_OUTSIDE));
  assert_near (get_value (&inside, HW_FIELD_DIAL), 4);   /* 3.8, printed in halves */
}

/* ---- foot, plate, pressure, ends ---- */

static Pairing
pair_with_feet (const char *feet, const char *plates, const char *fabric, const char *operation, const char *inside)
{
  WorkroomMachine machine = workroom_usual;

  machine.feet = feet;
  machine.plates = plates;
  return pair_in (&machine, NULL, fabric, "usual fine", operation, inside);
}

static void
test_foot_owned (void)
{
  g_auto (Pairing) p = pair_with_feet ("all-purpose straight edge", "zigzag single-hole", "voile", "purpose='seam'",
                                       ONE ("voile"));
  g_auto (Pairing) row = pair_with_feet ("all-purpose edge", "zigzag", "cotton", "purpose='topstitch'", TWO_COTTON);

  g_assert_cmpstr (get_foot (&p), ==, "straight");
  g_assert_cmpstr (get_plate (&p), ==, "single-hole");
  g_assert_null (find_reason (&p, HW_FIELD_FOOT, HW_REASON_OWNED));
  g_assert_cmpstr (get_foot (&row), ==, "edge");         /* not the accepted one that comes first in the table */
  g_assert_null (find_warning (&row, HW_WARN_NOT_OWNED));
}

static void
test_foot_fallback (void)
{
  g_auto (Pairing) p = pair_with_feet ("all-purpose edge", "zigzag", "voile", "purpose='seam'", ONE ("voile"));
  int straight = hw_handbook_find_foot (p.handbook, "straight");

  g_assert_cmpstr (get_foot (&p), ==, "edge");           /* its first fallback, before the all-purpose foot */
  assert_near (find_reason (&p, HW_FIELD_FOOT, HW_REASON_OWNED)->v[0], straight);
  g_assert_cmpstr (get_plate (&p), ==, "zigzag");
  g_assert_nonnull (find_reason (&p, HW_FIELD_PLATE, HW_REASON_OWNED));
  g_assert_false (hw_value_accepts (get (&p, HW_FIELD_FOOT), HW_FIELD_FOOT, straight));
}

static void
test_foot_not_owned (void)
{
  g_auto (Pairing) p = pair_with_feet ("", "", "cotton", "purpose='seam'", TWO_COTTON);

  g_assert_cmpstr (get_foot (&p), ==, "all-purpose");    /* what is wanted, with a warning each */
  g_assert_cmpint (find_warning (&p, HW_WARN_NOT_OWNED)->field, ==, HW_FIELD_FOOT);     /* the plate comes after it */
  g_assert_cmpuint (p.setup->warnings->len, ==, 2);
}

static void
test_foot_passes_swing (void)
{
  g_auto (Pairing) narrow = pair ("voile", "usual", "purpose='seam' stitch='304'", ONE ("voile"));
  g_auto (Pairing) wide = pair ("cotton", "usual", "purpose='topstitch' stitch='304'", TWO_COTTON);
  g_auto (Pairing) twin = pair ("voile", "usual", "purpose='topstitch' stitch='301-twin'", ONE ("voile"));

  g_assert_cmpstr (get_foot (&narrow), ==, "all-purpose");       /* no straight foot under a zigzag */
  g_assert_cmpstr (get_plate (&narrow), ==, "zigzag");
  g_assert_cmpstr (get_foot (&wide), ==, "all-purpose"); /* 7 mm does not pass the edge foot's 5 */
  g_assert_cmpstr (get_plate (&twin), ==, "zigzag");
  g_assert_cmpstr (get_foot (&twin), ==, "edge");        /* two needles 2 mm apart pass it */
}

/* The needle may stand beside the middle of the foot: a plate passes when its slot reaches as far to both sides, and no
 * farther. */
static void
test_plate_passes_needle_aside (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);
  HwFoot *foot = &p.handbook->feet[hw_handbook_find_foot (p.handbook, "all-purpose")];
  double aside_mm;

  foot->needle = HW_NEEDLE_NOTCH;
  foot->notch_mm = 3.5;                  /* 7 of the 9 mm of the slot */
  pair_again (&p);
  g_assert_cmpstr (get_plate (&p), ==, "zigzag");
  g_assert_nonnull (find_reason (&p, HW_FIELD_PLATE, HW_REASON_RULE));
  g_assert_cmpint (hw_setup_needle_place (p.handbook, p.setup, &aside_mm), ==, HW_NEEDLE_NOTCH);

  foot->notch_mm = 4.6;
  pair_again (&p);
  g_assert_false (get (&p, HW_FIELD_PLATE)->applies);
}

static void
test_pressure_all_or_some (void)
{
  g_auto (Pairing) all = pair ("velvet", "usual", "purpose='seam'", PLIES ("velvet", "2"));
  g_auto (Pairing) some = pair ("velvet cotton", "usual", "purpose='seam'", ONE ("velvet") ONE ("cotton"));

  assert_band (&all, HW_FIELD_PRESSURE, -2, -2, -1);
  assert_band (&some, HW_FIELD_PRESSURE, -1, -1, 0);
}

static void
test_ends (void)
{
  g_auto (Pairing) seam = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);
  g_auto (Pairing) knot = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON CHOOSE ("ends", "knot"));
  g_auto (Pairing) none = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON CHOOSE ("ends", "none"));

  assert_near (get_value (&seam, HW_FIELD_ENDS), HW_ENDS_BACK_TACK);
  assert_near (get_value (&knot, HW_FIELD_ENDS), HW_ENDS_KNOT);
  g_assert_null (find_warning (&knot, HW_WARN_OVERRIDE_OUTSIDE));
  g_assert_nonnull (find_warning (&none, HW_WARN_OVERRIDE_OUTSIDE));
}

/* A handbook that says nothing of ends: long tails, and nothing else is as good by any rule. */
static void
test_ends_without_rule (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON CHOOSE ("ends", "none"));

  gsize n_rules = p.handbook->n_rules[HW_RULES_ENDS];

  p.handbook->n_rules[HW_RULES_ENDS] = 0;
  pair_again (&p);
  p.handbook->n_rules[HW_RULES_ENDS] = n_rules;          /* they are freed with it */
  assert_near (get (&p, HW_FIELD_ENDS)->prefer, HW_ENDS_TAILS);
  g_assert_nonnull (find_reason (&p, HW_FIELD_ENDS, HW_REASON_MACHINE));
  g_assert_nonnull (find_warning (&p, HW_WARN_OVERRIDE_OUTSIDE));
}

static void
test_no_point_for_system (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);

  for (gsize i = 0; i < p.handbook->n_points; i++)
    p.handbook->points[i].systems = 0;
  pair_again (&p);
  g_assert_error (p.error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN);
  g_assert_nonnull (strstr (p.error->message, "no needle point"));
}

/* ---- the dial ---- */

static void
test_dial_reference (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);

  /* 0.8 mm, 2.5 mm, tex 30: no term but the machine's. */
  assert_band (&p, HW_FIELD_DIAL, 3.5, 4, 4);
  assert_near (find_reason (&p, HW_FIELD_DIAL, HW_REASON_DIAL_NEUTRAL)->v[0], 4);
  g_assert_null (find_reason (&p, HW_FIELD_DIAL, HW_REASON_DIAL_TERM));
  assert_near (p.setup->dial_sd, 0.75);
  assert_near (p.setup->dial_likely_low, 3);
  assert_near (p.setup->dial_likely_high, 5);
  assert_near (p.setup->window_low, 4 - 0.35 - 0.3 * 0.8);
  assert_near (p.setup->window_high, 4.5);
}

static void
test_dial_other_scale (void)
{
  WorkroomMachine machine = workroom_usual;
  g_auto (Pairing) p = { 0 };

  machine.dial_high = 18;
  machine.dial_neutral = 8;
  p = pair_in (&machine, NULL, "cotton", "usual", "purpose='baste'", TWO_COTTON);
  assert_near (get_value (&p, HW_FIELD_DIAL), 8 - 2 * 3);        /* baste -2, 5 mm long -1; the unit is 2 */
  assert_near (find_reason (&p, HW_FIELD_DIAL, HW_REASON_DIAL_TERM)->v[0], HW_TENSION_LONGER);
  assert_near (find_reason (&p, HW_FIELD_DIAL, HW_REASON_DIAL_TERM)->v[1], -2);
}

static double
get_term (const Pairing *self, HwTensionTerm term)
{
  for (guint i = 0; i < self->setup->reasons->len; i++)
    {
      const HwReason *reason = &g_array_index (self->setup->reasons, HwReason, i);

      if (reason->code == HW_REASON_DIAL_TERM && fabs (reason->v[0] - term) < EPSILON)
        return reason->v[1];
    }
  return 0;
}

static void
test_dial_terms (void)
{
  g_auto (Pairing) jersey = pair ("jersey", "usual", "purpose='seam'", PLIES ("jersey", "2"));
  g_auto (Pairing) tricot = pair ("swim", "usual", "purpose='seam'", PLIES ("swim", "2"));
  g_auto (Pairing) leather = pair ("leather", "usual", "purpose='seam'", PLIES ("leather", "2"));
  g_auto (Pairing) mixed = pair ("velvet voile", "usual", "purpose='seam'", ONE ("voile") ONE ("velvet"));
  g_auto (Pairing) silk = pair ("cotton", "silk", "purpose='seam'", TWO_COTTON);
  g_auto (Pairing) satin = pair ("cotton", "usual", "purpose='seam' stitch='304-satin'", TWO_COTTON);
  g_auto (Pairing) zigzag = pair ("cotton", "usual", "purpose='seam' stitch='304'", TWO_COTTON);
  g_auto (Pairing) heavy = pair ("cotton", "stout usual", "purpose='topstitch'", TWO_COTTON);

  assert_near (get_term (&jersey, HW_TENSION_JERSEY), -0.4);
  assert_near (get_term (&tricot, HW_TENSION_JERSEY), 0);
  assert_near (get_term (&leather, HW_TENSION_LEATHER), 0.5);
  assert_near (leather.setup->dial_likely_high - leather.setup->dial_likely_low, 3);     /* uncertain: 1½ each way */
  assert_near (get_term (&mixed, HW_TENSION_PILE) + get_term (&mixed, HW_TENSION_SHEER), -0.75);
  assert_near (get_term (&silk, HW_TENSION_FILAMENT), -0.5);
  assert_near (get_term (&satin, HW_TENSION_SATIN), -1.25);
  assert_near (get_term (&satin, HW_TENSION_ZIGZAG), 0);
  assert_near (get_term (&zigzag, HW_TENSION_ZIGZAG), -0.6);
  assert_near (get_term (&heavy, HW_TENSION_NEEDLE_HEAVIER), 0.5);
}

static void
test_dial_overlock (void)
{
  g_auto (Pairing) p = pair ("cotton", "fine", "purpose='neaten'", ONE ("cotton"));

  assert_band (&p, HW_FIELD_DIAL, 2.5, 3, 4);
  assert_near (p.setup->dial_sd, 0.75);                  /* half the band */
  g_assert_nonnull (find_reason (&p, HW_FIELD_DIAL, HW_REASON_RULE));
  {
    g_autoptr (HwRoom) room = workroom_new (&workroom_usual, "household", 4);
    HwSetup *setup = hw_pair (p.handbook, p.project, p.cloths, room, hw_project_get_step (p.project, 0), NULL);

    assert_near (setup->values[HW_FIELD_DIAL].value, 4); /* its own manual's number, the band with it */
    assert_near (setup->values[HW_FIELD_DIAL].high, 5);
    hw_setup_free (setup);
  }
}

static void
test_dial_overridden (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON SET ("dial", "6"));

  assert_near (get_value (&p, HW_FIELD_DIAL), 6);
  assert_near (get (&p, HW_FIELD_DIAL)->prefer, 4);
  assert_near (find_warning (&p, HW_WARN_OVERRIDE_OUTSIDE)->v[0], 6);
  assert_near (p.setup->window_high, 4.5);               /* the model's, whatever is set */
}

/* ---- wear and lift ---- */

static void
test_factors (void)
{
  g_auto (Pairing) plain = pair ("cotton", "usual", "purpose='seam'", TWO_COTTON);
  g_auto (Pairing) harsh = pair ("velvet canvas voile", "usual", "purpose='seam'",
                                 ONE ("velvet") ONE ("canvas") ONE ("voile"));

  assert_near (plain.setup->lint_factor, 1);
  assert_near (plain.setup->needle_life, 1);
  assert_near (harsh.setup->lint_factor, 2);
  assert_near (harsh.setup->needle_life, 0.4);
}

/* The cloth that must be sewn slowest decides. */
static void
test_speed (void)
{
  g_auto (Pairing) p = pair ("velvet canvas voile", "usual", "purpose='seam'",
                             ONE ("velvet") ONE ("canvas") ONE ("voile"));

  assert_near (p.setup->speed_factor, 1);
  for (gsize i = 0; i < p.handbook->n_traits; i++)
    p.handbook->traits[i].speed_factor = g_str_equal (p.handbook->traits[i].entry.id, "abrasive") ? 0.6 : 0.9;
  pair_again (&p);
  assert_near (p.setup->speed_factor, 0.6);
}

static void
test_foot_lift (void)
{
  g_auto (Pairing) fits = pair ("canvas", "usual", "purpose='seam'", PLIES ("canvas", "5"));
  g_auto (Pairing) stack = pair ("canvas", "usual", "purpose='seam'", PLIES ("canvas", "7"));
  g_auto (Pairing) crossing = pair ("canvas", "usual", "purpose='seam'",
                                    PLIES ("canvas", "2") "<crossing>" PLIES ("canvas", "8") "</crossing>");
  g_auto (Pairing) soft = pair ("velvet", "usual", "purpose='seam'", PLIES ("velvet", "8"));

  g_assert_null (find_warning (&fits, HW_WARN_FOOT_LIFT));
  assert_near (find_warning (&stack, HW_WARN_FOOT_LIFT)->v[0], 7);
  assert_near (find_warning (&stack, HW_WARN_FOOT_LIFT)->v[1], 6);
  assert_near (find_warning (&crossing, HW_WARN_FOOT_LIFT)->v[0], 2);
  assert_near (find_warning (&crossing, HW_WARN_FOOT_LIFT)->v[2], 8);
  assert_near (soft.setup->thickness_mm, 9.6);           /* 4.8 mm under the foot: the pile gives */
  g_assert_null (find_warning (&soft, HW_WARN_FOOT_LIFT));
}

/* ---- stitch and machine overridden ---- */

static void
test_stitch_overridden (void)
{
  g_auto (Pairing) p = pair ("cotton", "usual fine", "purpose='seam'", TWO_COTTON CHOOSE ("stitch", "504"));

  g_assert_cmpstr (p.setup->stitch->entry.id, ==, "504");
  g_assert_cmpstr (p.setup->machine->id, ==, "overlocker");
  assert_near (get_value (&p, HW_FIELD_NEEDLE_TEX), 18);
}

static void
test_accepts (void)
{
  const HwValue number = { .applies = TRUE, .low = 2, .prefer = 2.5, .high = 3, .value = 2.5 };
  const HwValue choice = { .applies = TRUE, .accept = HW_SET (3) | HW_SET (63) };
  const HwValue absent = { .low = 0, .high = 10 };

  g_assert_true (hw_value_accepts (&number, HW_FIELD_LENGTH, 2));
  g_assert_true (hw_value_accepts (&number, HW_FIELD_LENGTH, 3));
  g_assert_false (hw_value_accepts (&number, HW_FIELD_LENGTH, 3.01));
  g_assert_false (hw_value_accepts (&number, HW_FIELD_LENGTH, NAN));
  g_assert_true (hw_value_accepts (&choice, HW_FIELD_FOOT, 3));
  g_assert_true (hw_value_accepts (&choice, HW_FIELD_FOOT, 63));
  g_assert_false (hw_value_accepts (&choice, HW_FIELD_FOOT, 2));
  g_assert_false (hw_value_accepts (&choice, HW_FIELD_FOOT, -1));
  g_assert_false (hw_value_accepts (&choice, HW_FIELD_FOOT, 64));
  g_assert_false (hw_value_accepts (&absent, HW_FIELD_LENGTH, 5));
}

static const struct { const char *path; GTestFunc run; } tests[] = {
  { "/pairing/chosen-machine", test_chosen_machine },
  { "/pairing/row/ranges", test_row_ranges },
  { "/pairing/row/sets", test_row_sets },
  { "/pairing/cloth/of-the-handbook", test_cloth_of_handbook },
  { "/pairing/cloth/of-ones-own", test_cloth_of_ones_own },
  { "/pairing/operation/plies", test_plies },
  { "/pairing/operation/machine-of-the-stitch", test_machine_of_the_stitch },
  { "/pairing/operation/lockstitch-has-no-feed-ratio", test_lockstitch_has_no_feed_ratio },
  { "/pairing/operation/backing", test_backing },
  { "/pairing/operation/row-of-a-seam", test_row_of_a_seam },
  { "/pairing/operation/stitch-overridden", test_stitch_overridden },
  { "/pairing/thread/band", test_thread_band },
  { "/pairing/thread/band-of-its-form", test_thread_band_of_its_form },
  { "/pairing/thread/of-the-handbook", test_thread_of_the_handbook },
  { "/pairing/thread/nominal-tex", test_thread_nominal_tex },
  { "/pairing/thread/measured-tex", test_thread_measured_tex },
  { "/pairing/thread/overridden", test_thread_overridden },
  { "/pairing/point/of-the-system", test_point_of_system },
  { "/pairing/point/overridden", test_point_overridden },
  { "/pairing/size/of-cloth-and-thread", test_size_of_cloth_and_thread },
  { "/pairing/size/of-the-stack", test_size_of_stack },
  { "/pairing/size/held-down-by-delicate-ply", test_size_held_down_by_delicate_ply },
  { "/pairing/size/bounds-cross-by-thread", test_size_bounds_cross_by_thread },
  { "/pairing/size/bounds-cross-by-cloth", test_size_bounds_cross_by_cloth },
  { "/pairing/size/next-size-is-borne", test_size_next_size_is_borne },
  { "/pairing/size/not-sold", test_size_not_sold },
  { "/pairing/size/of-a-single-needle", test_size_of_single_needle },
  { "/pairing/size/overridden", test_size_overridden },
  { "/pairing/twin/by-purpose", test_twin_by_purpose },
  { "/pairing/twin/fits-machine", test_twin_fits_machine },
  { "/pairing/twin/never-fits", test_twin_never_fits },
  { "/pairing/twin/overridden", test_twin_overridden },
  { "/pairing/length/clamped", test_length_clamped },
  { "/pairing/length/of-the-stitch", test_length_of_stitch },
  { "/pairing/length/overridden", test_length_overridden },
  { "/pairing/width/clamped", test_width_clamped },
  { "/pairing/foot/owned", test_foot_owned },
  { "/pairing/foot/fallback", test_foot_fallback },
  { "/pairing/foot/not-owned", test_foot_not_owned },
  { "/pairing/foot/passes-the-swing", test_foot_passes_swing },
  { "/pairing/foot/plate-passes-needle-aside", test_plate_passes_needle_aside },
  { "/pairing/foot/lift", test_foot_lift },
  { "/pairing/pressure/all-or-some", test_pressure_all_or_some },
  { "/pairing/ends", test_ends },
  { "/pairing/dial/reference", test_dial_reference },
  { "/pairing/dial/other-scale", test_dial_other_scale },
  { "/pairing/dial/terms", test_dial_terms },
  { "/pairing/dial/overlock", test_dial_overlock },
  { "/pairing/dial/overridden", test_dial_overridden },
  { "/pairing/factors", test_factors },
  { "/pairing/speed", test_speed },
  { "/pairing/ends/without-rule", test_ends_without_rule },
  { "/pairing/point/none-for-system", test_no_point_for_system },
  { "/pairing/accepts", test_accepts },
};

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].run);
  for (gsize i = 0; i < G_N_ELEMENTS (refusals); i++)
    g_test_add_data_func (refusals[i].path, &refusals[i], test_refusal);
  for (gsize i = 0; i < G_N_ELEMENTS (thread_cases); i++)
    g_test_add_data_func (thread_cases[i].path, &thread_cases[i], test_thread_case);
  for (gsize i = 0; i < G_N_ELEMENTS (point_cases); i++)
    g_test_add_data_func (point_cases[i].path, &point_cases[i], test_point_case);
  return g_test_run ();
}
