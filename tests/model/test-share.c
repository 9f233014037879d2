/* test-share.c - a project as one file, and a dial's learning handed on
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <glib/gstdio.h>
#include <string.h>

#include "model/share.h"
#include "model/test-seams.h"
#include "temp-folder.h"

typedef struct
{
  char      *folder, *mine, *theirs;     /* two sewing rooms */
  HwProject *project;
  HwRoom    *room;                       /* mine */
} Rooms;

static void
note_seam (Rooms      *self,
           const char *id,
           double      dial,
           HwVerdict   verdict)
{
  const HwMachine *machine = hw_room_default_machine (self->room, HW_MACHINE_LOCKSTITCH);
  g_autoptr (HwJournalEntry) entry = hw_journal_entry_new (HW_ENTRY_TEST_SEAM, machine->id);
  g_autoptr (GError) error = NULL;
  const HwTestSeam seam = { .facts = { .needle_tex = 30, .bobbin_tex = 30, .thickness_mm = 2.4, .length_mm = 3 },
                            .dial = dial, .verdict = verdict };
  HwRoom *next;

  hw_test_seam_write (&seam, entry);
  entry->project = g_strdup (id);
  entry->step = g_strdup ("1");
  next = hw_room_append (self->room, entry, &error);
  g_assert_no_error (error);
  hw_room_unref (self->room);
  self->room = next;
}

static HwRoom *
make_room (const char *folder)
{
  g_autoptr (GError) error = NULL;
  HwRoom *room;

  hw_room_create (folder, &error);
  g_assert_no_error (error);
  room = hw_room_open (folder, &error);
  g_assert_no_error (error);
  return room;
}

static void
rooms_open (Rooms         *self,
            gconstpointer  data)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "plan", "garments", "jeans.handwheel", NULL);
  g_autoptr (GPtrArray) cloths = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  const HwProjectFabric *used;
  HwShelfCloth *cloth, *other;
  HwRoom *next;

  self->folder = temp_folder_new ();
  self->mine = g_build_filename (self->folder, "mine", NULL);
  self->theirs = g_build_filename (self->folder, "theirs", NULL);
  self->project = hw_project_read (path, &error);
  g_assert_no_error (error);
  self->room = make_room (self->mine);
  note_seam (self, self->project->id, 4, HW_VERDICT_LOOPS_BELOW);
  note_seam (self, self->project->id, 5, HW_VERDICT_LOOPS_BELOW);
  note_seam (self, "another", 4, HW_VERDICT_BALANCED);

  used = self->project->fabrics->pdata[0];
  cloth = hw_shelf_cloth_new ("from-the-loft", used->name);
  cloth->handbook = g_strdup (used->handbook);
  cloth->construction = g_strdup (used->construction);
  other = hw_shelf_cloth_new ("something-else", "Not in it");
  other->handbook = g_strdup ("denim");
  g_ptr_array_add (cloths, cloth);
  g_ptr_array_add (cloths, other);
  next = hw_room_with_cloths (self->room, cloths, &error);
  g_assert_no_error (error);
  hw_shelf_cloth_free (cloth);
  hw_shelf_cloth_free (other);
  hw_room_unref (self->room);
  self->room = next;
}

static void
rooms_close (Rooms         *self,
             gconstpointer  data)
{
  hw_project_unref (self->project);
  hw_room_unref (self->room);
  g_free (self->mine);
  g_free (self->theirs);
  temp_folder_remove (self->folder);
}

static HwShare *
share (Rooms *self)
{
  g_autofree char *path = g_build_filename (self->folder, "x.handwheel-share", NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = hw_share_to_xml (self->project, self->room, NULL, &error);
  HwShare *read;

  g_assert_no_error (error);
  temp_folder_write (self->folder, "x.handwheel-share", text, -1);
  read = hw_share_read (path, &error);
  g_assert_no_error (error);
  return read;
}

static void
test_round_trip (Rooms         *self,
                 gconstpointer  data)
{
  g_autoptr (HwShare) read = share (self);
  g_autoptr (GPtrArray) seams = NULL;

  g_assert_true (hw_project_is_equal (read->project, self->project));
  g_assert_cmpuint (read->room->cloths->len, ==, 1);
  g_assert_cmpuint (read->room->machines->len, ==, 1);
  seams = hw_room_list_test_seams (read->room, ((HwMachine *) read->room->machines->pdata[0])->id);
  g_assert_cmpuint (seams->len, ==, 2);
}

/* The other room's machine counts its dial from 0 to 18: the same place has twice the number there. */
static void
test_take_in (Rooms         *self,
              gconstpointer  data)
{
  g_autoptr (HwShare) read = share (self);
  g_autoptr (HwRoom) room = make_room (self->theirs);
  g_autoptr (HwMachine) wide = hw_machine_copy (hw_room_default_machine (room, HW_MACHINE_LOCKSTITCH));
  g_autoptr (HwRoom) before = NULL;
  g_autoptr (HwRoom) after = NULL;
  g_autoptr (HwRoom) again = NULL;
  g_autoptr (GPtrArray) seams = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) taken_in = NULL;
  const HwMachine *from = read->room->machines->pdata[0];
  HwShareTaken taken;

  wide->dial = (HwDialScale) { 2 * from->dial.low, 2 * from->dial.high, 2 * from->dial.neutral };
  before = hw_room_with_machine (room, wide, &error);
  g_assert_no_error (error);
  after = hw_share_take_in (read, before, NULL, &taken, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (taken.n_seams, ==, 2);
  g_assert_cmpuint (taken.n_fabrics, ==, 1);
  taken_in = hw_project_read (taken.path, &error);
  g_assert_no_error (error);
  g_assert_true (hw_project_is_equal (taken_in, self->project));
  seams = hw_room_list_test_seams (after, wide->id);
  g_assert_cmpfloat_with_epsilon (((HwJournalEntry *) seams->pdata[0])->dial, 8, 1e-9);
  hw_share_taken_clear (&taken);

  /* Once more: the seams and fabrics are there; the project becomes another one. */
  again = hw_share_take_in (read, after, NULL, &taken, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (taken.n_seams, ==, 0);
  g_assert_cmpuint (taken.n_fabrics, ==, 0);
  g_assert_true (g_str_has_suffix (taken.path, "-2.handwheel"));
  hw_share_taken_clear (&taken);
}

/* A file from anywhere: nothing is written outside, and the line is named. */
static void
test_refused (Rooms         *self,
              gconstpointer  data)
{
  static const struct { const char *parts; const char *told; } cases[] = {
    { "<part name=\"../out.xml\"><a/></part>", "“../out.xml” is no part" },
    { "<part name=\"machines/../../out.xml\"><a/></part>", "is no part" },
    { "<part name=\"journal/.hidden.xml\"><a/></part>", "is no part" },
    { "<part name=\"project.handwheel\"/>", "is no part" },
    { "<other/>", "nothing but <part>" },
    { "<part name=\"project.handwheel\"><project xmlns=\"urn:handwheel:project:1\" id=\"a\" title=\"\"/></part>",
      "title" },
    { "", "project.handwheel" },
  };
  g_autofree char *path = g_build_filename (self->folder, "bad.handwheel-share", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf ("<share xmlns=\"urn:handwheel:share:1\">\n%s</share>", cases[i].parts);
      g_autoptr (GError) error = NULL;

      temp_folder_write (self->folder, "bad.handwheel-share", text, -1);
      g_assert_null (hw_share_read (path, &error));
      g_assert_nonnull (error);
      if (strstr (error->message, cases[i].told) == NULL)
        g_error ("“%s” does not tell of “%s”", error->message, cases[i].told);
    }
}

/* What one machine's scraps taught moves where another of its kind begins, by less than it moved its own. */
static void
test_learned_from (Rooms         *self,
                   gconstpointer  data)
{
  g_autofree char *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autoptr (HwHandbook) handbook = hw_handbook_load (folder, NULL);
  const HwTensionFacts facts = { .needle_tex = 30, .bobbin_tex = 30, .thickness_mm = 2.4, .length_mm = 3 };
  const HwMachine *teacher = hw_room_default_machine (self->room, HW_MACHINE_LOCKSTITCH);
  g_autofree char *teacher_id = g_strdup (teacher->id);
  g_autoptr (HwMachine) pupil = hw_machine_copy (teacher);
  g_autoptr (HwRoom) alone = NULL;
  g_autoptr (HwRoom) taught = NULL;
  g_autoptr (HwRoom) reread = NULL;
  g_autoptr (GError) error = NULL;
  double start, learned, own;

  g_free (pupil->id);
  pupil->id = g_strdup ("second");
  alone = hw_room_with_machine (self->room, pupil, &error);
  g_assert_no_error (error);
  pupil->learned_from = g_strdup (teacher_id);
  taught = hw_room_with_machine (alone, pupil, &error);
  g_assert_no_error (error);
  reread = hw_room_open (self->mine, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (hw_room_find_machine (reread, "second")->learned_from, ==, teacher_id);

  own = hw_tension_belief_start (hw_room_get_belief (taught, hw_room_find_machine (taught, teacher_id),
                                                     &handbook->tension), &facts).dial;
  start = hw_tension_belief_start (hw_room_get_belief (alone, hw_room_find_machine (alone, "second"),
                                                       &handbook->tension), &facts).dial;
  learned = hw_tension_belief_start (hw_room_get_belief (taught, hw_room_find_machine (taught, "second"),
                                                         &handbook->tension), &facts).dial;
  g_test_message ("begins at %g, taught %g, the teacher's own %g", start, learned, own);
  g_assert_cmpfloat (learned, >, start);
  g_assert_cmpfloat (learned, <, own);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/share/round-trip", Rooms, NULL, rooms_open, test_round_trip, rooms_close);
  g_test_add ("/share/take-in", Rooms, NULL, rooms_open, test_take_in, rooms_close);
  g_test_add ("/share/refused", Rooms, NULL, rooms_open, test_refused, rooms_close);
  g_test_add ("/share/learned-from", Rooms, NULL, rooms_open, test_learned_from, rooms_close);
  return g_test_run ();
}
