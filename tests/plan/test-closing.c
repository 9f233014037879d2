/* test-closing.c - the list after sewing: what stands on it when, and what its entries change
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "bench.h"
#include "plan/closing.h"

#include <string.h>

/* Takes @entry, an hour after the one before. */
static void
append (Bench *self, HwJournalEntry *entry)
{
  bench_set_time (self, entry);
  bench_append (self, entry);
}

static void
sew (Bench *self, double hours, double lint)
{
  HwJournalEntry *entry = hw_journal_entry_new (HW_ENTRY_SEWING, BENCH_MACHINE);

  entry->minutes = hours * 60;
  entry->lint = lint;
  append (self, entry);
}

static void
assert_list (const Bench *self, const char *expected)
{
  g_autoptr (GPtrArray) list = hw_closing_list (self->handbook, self->room, bench_machine (self));
  g_autoptr (GString) ids = g_string_new (NULL);

  for (guint i = 0; i < list->len; i++)
    g_string_append_printf (ids, "%s%s", i > 0 ? " " : "", ((HwClosing *) g_ptr_array_index (list, i))->entry.id);
  g_assert_cmpstr (ids->str, ==, expected);
}

static void
test_list (void)
{
  Bench bench = { 0 };
  HwJournalEntry *load;

  bench_open (&bench);
  g_assert_false (hw_closing_is_due (bench.room, bench_machine (&bench)));
  assert_list (&bench, "off cover");
  sew (&bench, 1, 1);
  g_assert_true (hw_closing_is_due (bench.room, bench_machine (&bench)));
  assert_list (&bench, "off cover");
  sew (&bench, 0.5, 2);                                   /* shedding cloth */
  assert_list (&bench, "off brush cover");
  load = hw_journal_entry_new (HW_ENTRY_LOAD, BENCH_MACHINE);
  load->point = g_strdup ("universal");
  load->nm = 80;
  append (&bench, load);
  assert_list (&bench, "off brush needle cover");
  append (&bench, hw_closing_entry (bench_machine (&bench)));
  g_assert_false (hw_closing_is_due (bench.room, bench_machine (&bench)));
  assert_list (&bench, "off needle cover");
  sew (&bench, 15, 1);                                    /* dusting is due */
  assert_list (&bench, "off brush needle cover");
  bench_close (&bench);
}

static void
test_cancelled (void)
{
  Bench bench = { 0 };
  HwJournalEntry *closing, *cancel;

  bench_open (&bench);
  sew (&bench, 1, 2);
  closing = hw_closing_entry (bench_machine (&bench));
  cancel = hw_journal_entry_new (HW_ENTRY_CANCEL, BENCH_MACHINE);
  cancel->of = g_strdup (closing->id);
  append (&bench, closing);
  g_assert_false (hw_closing_is_due (bench.room, bench_machine (&bench)));
  append (&bench, cancel);
  g_assert_true (hw_closing_is_due (bench.room, bench_machine (&bench)));
  assert_list (&bench, "off brush cover");
  bench_close (&bench);
}

static void
test_needle (void)
{
  Bench bench = { 0 };
  HwJournalEntry *load;
  const HwNeedle *needle;

  bench_open (&bench);
  g_assert_null (hw_closing_needle_entry (bench.room, bench_machine (&bench)));
  load = hw_journal_entry_new (HW_ENTRY_LOAD, BENCH_MACHINE);
  load->point = g_strdup ("universal");
  load->nm = 80;
  append (&bench, load);
  sew (&bench, 2, 1);
  append (&bench, hw_closing_needle_entry (bench.room, bench_machine (&bench)));
  g_assert_null (hw_room_get_state (bench.room, bench_machine (&bench))->needle);
  needle = g_ptr_array_index (bench.room->needles, 0);
  g_assert_false (needle->discarded);                     /* in the case, with its hours */
  g_assert_cmpfloat_with_epsilon (needle->at_machine_hours, 2, 1e-9);
  bench_close (&bench);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/closing/list", test_list);
  g_test_add_func ("/closing/cancelled", test_cancelled);
  g_test_add_func ("/closing/needle", test_needle);
  return g_test_run ();
}
