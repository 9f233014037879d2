/* test-edit.c - edits and the undo history, as scripts of commands
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "model/edit.h"

#include <string.h>

/* One line of a script: a command, the project after it as text, and what the history can do: "u" undo, "r" redo,
 * "s" saved, "-" in the place of each that it cannot. A command that begins with "!" must be refused with a message
 * that holds the words after "|", and change nothing. */
typedef struct
{
  const char *command;
  const char *project;           /* NULL: as before */
  const char *can;
} Line;

typedef struct
{
  const char *path;
  Line        lines[16];
} Script;

static const Script scripts[] = {
  { "/edit/script/title", {
      { "title Bag", "Bag: 1 2<1 3<2", "u--" },
      { "undo", "Cape: 1 2<1 3<2", "-rs" },
      { "redo", "Bag: 1 2<1 3<2", "u--" },
      { "save", NULL, "u-s" },
      { "undo", "Cape: 1 2<1 3<2", "-r-" },
      { "title Coat", "Coat: 1 2<1 3<2", "u--" },
      { "undo", "Cape: 1 2<1 3<2", "-r-" },              /* what was saved cannot be reached any more */
      { "redo", "Coat: 1 2<1 3<2", "u--" },
      { "save", NULL, "u-s" } } },
  { "/edit/script/nothing-to-undo", {
      { "undo", "Cape: 1 2<1 3<2", "--s" },
      { "redo", "Cape: 1 2<1 3<2", "--s" },
      { "title Cape", "Cape: 1 2<1 3<2", "--s" } } },    /* no change, no step of history */
  { "/edit/script/merge", {
      { "key", NULL, "--s" },
      { "title B", "B: 1 2<1 3<2", "u--" },
      { "title Ba", "Ba: 1 2<1 3<2", "u--" },
      { "save", NULL, "u-s" },
      { "title Bag", "Bag: 1 2<1 3<2", "u--" },          /* what was saved became something else */
      { "undo", "Cape: 1 2<1 3<2", "-r-" },
      { "redo", "Bag: 1 2<1 3<2", "u--" },
      { "title Bags", "Bags: 1 2<1 3<2", "u--" },        /* redo ended the merge */
      { "undo", "Bag: 1 2<1 3<2", "ur-" },
      { "redo", "Bags: 1 2<1 3<2", "u--" },
      { "break", NULL, "u--" },
      { "title Bagss", "Bagss: 1 2<1 3<2", "u--" },
      { "undo", "Bags: 1 2<1 3<2", "ur-" } } },
  { "/edit/script/merge-ends-at-another-key", {
      { "key", NULL, "--s" },
      { "title B", "B: 1 2<1 3<2", "u--" },
      { "nokey", NULL, "u--" },
      { "title Ba", "Ba: 1 2<1 3<2", "u--" },
      { "key", NULL, "u--" },
      { "title Bag", "Bag: 1 2<1 3<2", "u--" },
      { "undo", "Ba: 1 2<1 3<2", "ur-" },
      { "undo", "B: 1 2<1 3<2", "ur-" },
      { "undo", "Cape: 1 2<1 3<2", "-rs" } } },
  { "/edit/script/steps", {
      { "add 4 1 2", "Cape: 1 2<1 3<2 4<1,2", "u--" },
      { "insert 0 0", "Cape: 0 1 2<1 3<2 4<1,2", "u--" },
      { "put 1 0", "Cape: 0 1<0 2<1 3<2 4<1,2", "u--" },
      { "rename 1 1a", "Cape: 0 1a<0 2<1a 3<2 4<1a,2", "u--" },
      { "move 4 0", "Cape: 4<1a,2 0 1a<0 2<1a 3<2", "u--" },
      { "move 4 4", "Cape: 0 1a<0 2<1a 3<2 4<1a,2", "u--" },
      { "remove 1a", "Cape: 0 2<0 3<2 4<0,2", "u--" },   /* those after it come after what it came after */
      { "remove 0", "Cape: 2 3<2 4<2", "u--" },
      { "undo", "Cape: 0 2<0 3<2 4<0,2", "ur-" },
      { "undo", "Cape: 0 1a<0 2<1a 3<2 4<1a,2", "ur-" } } },
  { "/edit/script/remove-joins-once", {
      { "put 2", "Cape: 1 2 3<2", "u--" },
      { "put 3 1 2", "Cape: 1 2 3<1,2", "u--" },
      { "put 2 1", "Cape: 1 2<1 3<1,2", "u--" },
      { "remove 2", "Cape: 1 3<1", "u--" } } },
  { "/edit/script/refused", {
      { "! title  |title", NULL, "--s" },
      { "! due 2031-02-29|2031-02-29", NULL, "--s" },
      { "! put 1 3|1 → 2 → 3 → 1", NULL, "--s" },
      { "! add 4 5|step “5”", NULL, "--s" },
      { "! add 4 4|4 → 4", NULL, "--s" },
      { "! insert 0 2|already", NULL, "--s" },
      { "! rename 7 8|no step 7", NULL, "--s" },
      { "! rename 1 2|already", NULL, "--s" },
      { "! rename 1 a/b|one word", NULL, "--s" },
      { "! remove 7|no step 7", NULL, "--s" },
      { "! move 7 0|no step 7", NULL, "--s" },
      { "! move 1 3|end of the list", NULL, "--s" },
      { "! drop-fabric cloth|step 1", NULL, "--s" },
      { "! drop-fabric clot|no fabric “clot”", NULL, "--s" },
      { "! drop-thread main|step 1", NULL, "--s" },
      { "! drop-thread mane|no thread “mane”", NULL, "--s" } } },
  { "/edit/script/wishes", {
      { "wish first 2", "Cape: 1 2<1 3<2; first 2", "u--" },
      { "wish first 2", NULL, "u--" },                   /* the same again is no change */
      { "wish last 2", "Cape: 1 2<1 3<2; last 2", "u--" },
      { "add 4", "Cape: 1 2<1 3<2 4; last 2", "u--" },
      { "wish before 4 1", "Cape: 1 2<1 3<2 4; last 2; before 4 1", "u--" },
      { "wish before 1 4", "Cape: 1 2<1 3<2 4; last 2; before 1 4", "u--" },
      { "rename 1 7", "Cape: 7 2<7 3<2 4; last 2; before 7 4", "u--" },
      { "! put 7 4|7 after 4;", NULL, "u--" },
      { "unwish 0", "Cape: 7 2<7 3<2 4; before 7 4", "u--" },
      { "undo", "Cape: 7 2<7 3<2 4; last 2; before 7 4", "ur-" },
      { "remove 4", "Cape: 7 2<7 3<2; last 2", "u--" },
      { "remove 2", "Cape: 7 3<7", "u--" },
      { "undo", "Cape: 7 2<7 3<2; last 2", "ur-" },
      { "! unwish 1|no such wish", NULL, "ur-" } } },
  { "/edit/script/wishes-together", {
      { "add 4", "Cape: 1 2<1 3<2 4", "u--" },
      { "wish together 2 3", "Cape: 1 2<1 3<2 4; together 2 3", "u--" },
      { "wish together 1 2", "Cape: 1 2<1 3<2 4; together 1 2 3", "u--" },      /* one wish of the two */
      { "wish together 3 4", "Cape: 1 2<1 3<2 4; together 1 2 3 4", "u--" },
      { "! wish together 4 1|step 1 stands twice", NULL, "u--" },
      { "! wish before 4 2|4 after", NULL, "u--" },
      { "wish before 2 4", "Cape: 1 2<1 3<2 4; together 1 2 3 4; before 2 4", "u--" },
      { "rename 2 2a", "Cape: 1 2a<1 3<2a 4; together 1 2a 3 4; before 2a 4", "u--" },
      { "remove 3", "Cape: 1 2a<1 4; together 1 2a 4; before 2a 4", "u--" },
      { "remove 2a", "Cape: 1 4; together 1 4", "u--" },
      { "remove 4", "Cape: 1", "u--" } } },
  { "/edit/script/wishes-refused", {
      { "! wish before 3 1|3 after 2 after 1", NULL, "--s" },
      { "! wish before 1|two steps", NULL, "--s" },
      { "! wish first|one step", NULL, "--s" },
      { "! wish together 1 3|3 after 2 after 1", NULL, "--s" },
      { "! wish last 7|step 7", NULL, "--s" },
      { "add 4", "Cape: 1 2<1 3<2 4", "u--" },
      { "wish before 3 4", "Cape: 1 2<1 3<2 4; before 3 4", "u--" },
      { "! put 2 1 4|before 4 cannot be: 3 after 2 after 4", NULL, "u--" },
      { "! wish together 4 1|4 after 3 after 2 after 1, by other", NULL, "u--" } } },
  { "/edit/script/gather-hand", {
      { "gather", "Cape: 1 2<1 3<2; gather", "u--" },
      { "gather", NULL, "u--" },
      { "leave", "Cape: 1 2<1 3<2", "u--" },
      { "undo", "Cape: 1 2<1 3<2; gather", "ur-" } } },
  { "/edit/script/refused-set-ups", {
      { "! set 1 length 300|0.2 to 12 mm long", NULL, "--s" },
      { "! set 1 size 79.5|whole number", NULL, "--s" },
      { "! set 1 width 13|from 0 to 12 mm; it is 13", NULL, "--s" },
      { "! set 1 ends bow|“bow”", NULL, "--s" },
      { "! set 3 length 2|by hand", NULL, "--s" },
      { "! set 7 length 2|no step 7", NULL, "--s" },
      { "! clear 3 length|by hand", NULL, "--s" },
      { "! bad-fabric x|mass", NULL, "--s" },
      { "! bad-thread x|handbook", NULL, "--s" },
      { "! no-plies 1|layers", NULL, "--s" },
      { "! unknown-ply 1|fabric “clot”", NULL, "--s" },
      { "! unknown-thread 1|thread “mane”", NULL, "--s" } } },
  { "/edit/script/overrides", {
      { "set 1 length 2.8", "Cape: 1[length=2.8] 2<1 3<2", "u--" },
      { "set 1 point jeans", "Cape: 1[point=jeans length=2.8] 2<1 3<2", "u--" },     /* in the order of the fields */
      { "set 1 length 3", "Cape: 1[point=jeans length=3] 2<1 3<2", "u--" },
      { "set 1 ends knot", "Cape: 1[point=jeans length=3 ends=knot] 2<1 3<2", "u--" },
      { "set 1 ends knot", NULL, "u--" },
      { "clear 1 length", "Cape: 1[point=jeans ends=knot] 2<1 3<2", "u--" },
      { "clear 1 length", NULL, "u--" },
      { "clear 1 ends", "Cape: 1[point=jeans] 2<1 3<2", "u--" },
      { "clear 1 point", "Cape: 1 2<1 3<2", "u--" },
      { "undo", "Cape: 1[point=jeans] 2<1 3<2", "ur-" },
      { "undo", "Cape: 1[point=jeans ends=knot] 2<1 3<2", "ur-" } } },
  { "/edit/script/parts", {
      { "fabric lining", "Cape +lining: 1 2<1 3<2", "u--" },
      { "fabric lining", NULL, "u--" },
      { "thread gold", "Cape +lining +gold: 1 2<1 3<2", "u--" },
      { "drop-fabric lining", "Cape +gold: 1 2<1 3<2", "u--" },
      { "drop-thread gold", "Cape: 1 2<1 3<2", "u--" },
      { "undo", "Cape +gold: 1 2<1 3<2", "ur-" },
      { "due 2031-05-09", "Cape +gold @2031-05-09: 1 2<1 3<2", "u--" },
      { "due", "Cape +gold: 1 2<1 3<2", "u--" } } },
};

static HwStep *
make_operation (const char *number,
                char      **after)
{
  HwStep *step = hw_step_new (HW_STEP_OPERATION, number, "Seam");

  g_strfreev (step->after);
  step->after = g_strdupv (after);
  step->purpose = g_strdup ("seam");
  step->length_cm = 10;
  step->needle_thread = g_strdup ("main");
  step->plies = g_new0 (HwPly, 1);
  step->plies[0] = (HwPly) { g_strdup ("cloth"), 2 };
  step->n_plies = 1;
  return step;
}

/* "Cape": steps 1, 2 after 1, and the hand step 3 after 2. */
static HwProject *
make_project (void)
{
  static const char * const after[][2] = { { NULL, NULL }, { "1", NULL } };
  HwProject *project = hw_project_new ("cape", "Cape");
  HwProjectFabric *fabric = hw_project_fabric_new ("cloth", "Cloth");
  HwStep *hand = hw_step_new (HW_STEP_HAND, "3", "Press");

  fabric->handbook = g_strdup ("melton");
  g_ptr_array_add (project->fabrics, fabric);
  g_ptr_array_add (project->steps, make_operation ("1", (char **) after[0]));
  g_ptr_array_add (project->steps, make_operation ("2", (char **) after[1]));
  g_strfreev (hand->after);
  hand->after = g_strsplit ("2", " ", -1);
  g_ptr_array_add (project->steps, hand);
  return project;
}

static void
describe_overrides (GString      *text,
                    const HwStep *step)
{
  for (gsize i = 0; i < step->n_overrides; i++)
    {
      const HwOverride *set = &step->overrides[i];

      g_string_append_printf (text, "%s%s=", i == 0 ? "[" : " ", hw_field_ids[set->field]);
      if (set->choice != NULL)
        g_string_append (text, set->choice);
      else
        g_string_append_printf (text, "%g", set->value);
    }
  if (step->n_overrides > 0)
    g_string_append_c (text, ']');
}

static char *
describe (const HwProject *project)
{
  GString *text = g_string_new (project->title);

  for (guint i = 1; i < project->fabrics->len; i++)
    g_string_append_printf (text, " +%s", ((HwProjectFabric *) project->fabrics->pdata[i])->id);
  for (guint i = 1; i < project->threads->len; i++)
    g_string_append_printf (text, " +%s", ((HwProjectThread *) project->threads->pdata[i])->id);
  if (project->due != NULL)
    g_string_append_printf (text, " @%s", project->due);
  g_string_append_c (text, ':');
  for (guint i = 0; i < project->steps->len; i++)
    {
      const HwStep *step = hw_project_get_step (project, i);
      g_autofree char *after = g_strjoinv (",", step->after);

      g_string_append_printf (text, " %s", step->number);
      describe_overrides (text, step);
      if (*after != '\0')
        g_string_append_printf (text, "<%s", after);
    }
  for (guint i = 0; i < project->wishes->len; i++)
    {
      const HwWish *wish = g_ptr_array_index (project->wishes, i);
      g_autofree char *steps = g_strjoinv (" ", wish->steps);

      g_string_append_printf (text, "; %s %s", hw_wish_kind_ids[wish->kind], steps);
    }
  if (project->gather_hand)
    g_string_append (text, "; gather");
  return g_string_free (text, FALSE);
}

static HwProject *
put_spoilt_step (const HwProject *project,
                 const char      *how,
                 const char      *number,
                 GError         **error)
{
  g_auto (GStrv) none = g_new0 (char *, 1);
  g_autoptr (HwProject) holder = hw_project_new ("holder", "Holder");
  HwStep *step = make_operation (number, none);

  g_ptr_array_add (holder->steps, step);                 /* owns it */
  if (g_str_equal (how, "no-plies"))
    step->n_plies = 0;
  g_free (step->plies[0].fabric);
  step->plies[0].fabric = g_strdup (g_str_equal (how, "unknown-ply") ? "clot" : "cloth");
  g_free (step->needle_thread);
  step->needle_thread = g_strdup (g_str_equal (how, "unknown-thread") ? "mane" : "main");
  if (g_str_equal (how, "no-plies"))
    g_clear_pointer (&step->plies[0].fabric, g_free);
  return hw_edit_put_step (project, step, error);
}

static HwProject *
put_step (const HwProject *project,
          char           **words,
          GError         **error)
{
  gboolean insert = g_str_equal (words[0], "insert");    /* insert INDEX NUMBER AFTER… */
  char **rest = insert ? words + 2 : words + 1;
  HwStep *step = make_operation (rest[0], rest + 1);
  HwProject *next = insert ? hw_edit_insert_step (project, (gsize) g_ascii_strtoull (words[1], NULL, 10), step, error)
                           : hw_edit_put_step (project, step, error);

  hw_step_unref (step);
  return next;
}

static HwProject *
put_part (const HwProject *project,
          char           **words,
          GError         **error)
{
  gboolean is_bad = g_str_has_prefix (words[0], "bad-");
  HwProject *next;

  if (g_str_has_suffix (words[0], "fabric"))
    {
      HwProjectFabric *fabric = hw_project_fabric_new (words[1], words[1]);

      fabric->construction = g_strdup ("twill");
      fabric->mass_g_m2 = is_bad ? 0 : 100;
      next = hw_edit_put_fabric (project, fabric, error);
      hw_project_fabric_unref (fabric);
    }
  else
    {
      HwProjectThread *thread = hw_project_thread_new (words[1], is_bad ? NULL : "polyester-60");

      next = hw_edit_put_thread (project, thread, error);
      hw_project_thread_unref (thread);
    }
  return next;
}

/* wish KIND STEP… */
static HwProject *
add_wish (const HwProject *project,
          char           **words,
          GError         **error)
{
  HwWishKind kind = HW_WISH_BEFORE;
  g_autoptr (HwWish) wish = NULL;

  while (!g_str_equal (hw_wish_kind_ids[kind], words[1]))
    kind++;
  wish = hw_wish_new (kind, (const char * const *) words + 2);
  return hw_edit_add_wish (project, wish, error);
}

static HwProject *
set_override (const HwProject *project,
              char           **words,
              GError         **error)
{
  HwField field = (HwField) hw_field_from_id (words[2]);

  if (g_str_equal (words[0], "clear"))
    return hw_edit_clear_override (project, words[1], field, error);
  if (hw_field_is_choice (field))
    return hw_edit_set_override (project, words[1], field, 0, words[3], error);
  return hw_edit_set_override (project, words[1], field, g_ascii_strtod (words[3], NULL), NULL, error);
}

static HwProject *
edit (const HwProject *project,
      char           **words,
      GError         **error)
{
  const char *command = words[0];

  if (g_str_equal (command, "title"))
    return hw_edit_set_title (project, words[1], error);
  if (g_str_equal (command, "due"))
    return hw_edit_set_due (project, words[1], error);
  if (g_str_equal (command, "rename"))
    return hw_edit_rename_step (project, words[1], words[2], error);
  if (g_str_equal (command, "remove"))
    return hw_edit_remove_step (project, words[1], error);
  if (g_str_equal (command, "move"))
    return hw_edit_move_step (project, words[1], (gsize) g_ascii_strtoull (words[2], NULL, 10), error);
  if (g_str_equal (command, "drop-fabric"))
    return hw_edit_remove_fabric (project, words[1], error);
  if (g_str_equal (command, "drop-thread"))
    return hw_edit_remove_thread (project, words[1], error);
  if (g_str_equal (command, "wish"))
    return add_wish (project, words, error);
  if (g_str_equal (command, "unwish"))
    return hw_edit_remove_wish (project, (gsize) g_ascii_strtoull (words[1], NULL, 10), error);
  if (g_str_equal (command, "gather") || g_str_equal (command, "leave"))
    return hw_edit_set_gather_hand (project, command[0] == 'g');
  if (g_str_equal (command, "set") || g_str_equal (command, "clear"))
    return set_override (project, words, error);
  if (g_str_equal (command, "add") || g_str_equal (command, "put") || g_str_equal (command, "insert"))
    return put_step (project, words, error);
  if (g_str_has_suffix (command, "fabric") || (g_str_has_suffix (command, "thread") && command[0] != 'u'))
    return put_part (project, words, error);
  return put_spoilt_step (project, command, words[1], error);
}

static void
assert_refused (const HwProject *project,
                const char      *command)
{
  g_auto (GStrv) halves = g_strsplit (command + 2, "|", 2);
  g_auto (GStrv) words = g_strsplit (halves[0], " ", -1);
  g_autoptr (GError) error = NULL;
  g_autofree char *before = hw_project_to_xml (project, NULL);
  g_autofree char *after = NULL;
  HwProject *next = edit (project, words, &error);

  g_assert_null (next);
  g_assert_nonnull (error);
  g_assert_true (error->domain == HW_MODEL_ERROR);
  if (strstr (error->message, halves[1]) == NULL)
    g_error ("%s: “%s” is not in: %s", command, halves[1], error->message);
  after = hw_project_to_xml (project, NULL);
  g_assert_cmpstr (before, ==, after);
}

/* What an edit makes can be written and read again. */
static void
assert_valid (const HwProject *project)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *bytes = hw_project_to_xml (project, NULL);
  g_autoptr (HwProject) again = hw_project_parse ("again", bytes, strlen (bytes), &error);

  g_assert_no_error (error);
  g_assert_true (hw_project_is_equal (project, again));
}

static void
follow (HwHistory  *history,
        const char *command,
        const char **key)
{
  g_auto (GStrv) words = g_strsplit (command, " ", -1);
  g_autoptr (GError) error = NULL;

  if (g_str_equal (command, "undo"))
    hw_history_undo (history);
  else if (g_str_equal (command, "redo"))
    hw_history_redo (history);
  else if (g_str_equal (command, "save"))
    hw_history_mark_saved (history);
  else if (g_str_equal (command, "break"))
    hw_history_break_merge (history);
  else if (g_str_equal (command, "key"))
    *key = "typing";
  else if (g_str_equal (command, "nokey"))
    *key = NULL;
  else
    {
      HwProject *next = edit (hw_history_peek (history), words, &error);

      g_assert_no_error (error);
      assert_valid (next);
      hw_history_push (history, next, command, *key);
    }
}

static void
test_script (gconstpointer data)
{
  const Script *script = data;
  g_autoptr (HwHistory) history = hw_history_new (make_project (), TRUE);
  g_autofree char *expected = describe (hw_history_peek (history));
  const char *key = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (script->lines) && script->lines[i].command != NULL; i++)
    {
      const Line *line = &script->lines[i];
      g_autofree char *is = NULL;
      g_autofree char *can = NULL;

      if (line->command[0] == '!')
        assert_refused (hw_history_peek (history), line->command);
      else
        follow (history, line->command, &key);
      if (line->project != NULL)
        {
          g_free (expected);
          expected = g_strdup (line->project);
        }
      is = describe (hw_history_peek (history));
      can = g_strdup_printf ("%c%c%c", hw_history_undo_label (history) != NULL ? 'u' : '-',
                             hw_history_redo_label (history) != NULL ? 'r' : '-',
                             hw_history_is_saved (history) ? 's' : '-');
      g_test_message ("%s", line->command);
      g_assert_cmpstr (is, ==, expected);
      g_assert_cmpstr (can, ==, line->can);
    }
}

static void
test_labels (void)
{
  g_autoptr (HwHistory) history = hw_history_new (make_project (), FALSE);
  const char *key = NULL;

  g_assert_false (hw_history_is_saved (history));
  follow (history, "title Bag", &key);
  follow (history, "remove 3", &key);
  g_assert_cmpstr (hw_history_undo_label (history), ==, "remove 3");
  g_assert_null (hw_history_redo_label (history));
  g_assert_true (hw_history_undo (history));
  g_assert_cmpstr (hw_history_undo_label (history), ==, "title Bag");
  g_assert_cmpstr (hw_history_redo_label (history), ==, "remove 3");
  g_assert_true (hw_history_undo (history));
  g_assert_false (hw_history_undo (history));
  g_assert_true (hw_history_redo (history));
  g_assert_true (hw_history_redo (history));
  g_assert_false (hw_history_redo (history));
}

static void
test_share (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = hw_project_new ("shared", "Shared");
  g_autoptr (HwProject) refused = hw_edit_set_share (project, FALSE);
  g_autoptr (HwProject) read = NULL;
  gsize size;
  g_autofree char *plain = hw_project_to_xml (project, &size);
  g_autofree char *xml = hw_project_to_xml (refused, &size);

  g_assert_true (project->share);
  g_assert_false (refused->share);
  g_assert_false (hw_project_is_equal (project, refused));
  g_assert_null (strstr (plain, "share="));
  g_assert_nonnull (strstr (xml, "share=\"no\""));
  read = hw_project_parse ("shared", xml, strlen (xml), &error);
  g_assert_no_error (error);
  g_assert_true (hw_project_is_equal (read, refused));
}

/* An edit leaves the old snapshot as it was and shares what it did not touch. */
static void
test_sharing (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = make_project ();
  g_autofree char *before = hw_project_to_xml (project, NULL);
  g_autoptr (HwProject) next = hw_edit_set_override (project, "1", HW_FIELD_DIAL, 3, NULL, &error);
  g_autofree char *after = hw_project_to_xml (project, NULL);

  g_assert_no_error (error);
  g_assert_cmpstr (before, ==, after);
  g_assert_true (hw_project_get_step (project, 1) == hw_project_get_step (next, 1));
  g_assert_true (hw_project_get_step (project, 0) != hw_project_get_step (next, 0));
  g_assert_true (project->fabrics->pdata[0] == next->fabrics->pdata[0]);
}

static void
test_free_number (void)
{
  static const struct { const char *number; const char *free; } cases[] = {
    { "3", "4" }, { "12b", "13" }, { "007", "8" }, { "a9", "4" }, { "99999999999999999999", "4" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HwProject) project = make_project ();
      g_autoptr (HwProject) next = hw_edit_rename_step (project, "1", cases[i].number, &error);
      g_autofree char *number = NULL;

      if (next == NULL)                                  /* "3" is taken */
        next = hw_project_ref (project);
      number = hw_project_free_number (next);
      g_assert_cmpstr (number, ==, cases[i].free);
      g_assert_cmpint (hw_project_find_step (next, number), ==, -1);
    }
}

/* A random walk: each state is valid, undoing all leads back to the first, redoing all to the last. */
static void
test_random_walk (void)
{
  static const char * const commands[] = {
    "title A", "title B", "due 2031-01-01", "due", "add 4", "add 5 1", "put 2 1", "put 2", "rename 1 7", "rename 7 1",
    "remove 4", "remove 2", "remove 5", "move 3 0", "move 1 1", "set 1 length 2", "set 1 point jeans", "clear 1 length",
    "fabric lining", "drop-fabric lining", "thread gold", "drop-thread gold", "put 1 5", "put 5 2",
    "wish before 4 2", "wish before 2 4", "wish before 5 1", "wish first 4", "wish last 4", "wish together 1 2",
    "wish together 2 4", "wish together 5 4", "unwish 0", "unwish 1", "gather", "leave",
  };
  g_autoptr (GRand) rand = g_rand_new_with_seed (20310509);
  g_autoptr (HwHistory) history = hw_history_new (make_project (), TRUE);
  g_autofree char *first = describe (hw_history_peek (history));
  g_autofree char *last = NULL;
  g_autofree char *back = NULL;
  g_autofree char *again = NULL;
  int n_done = 0;

  for (int i = 0; i < 2000; i++)
    {
      const char *command = commands[g_rand_int_range (rand, 0, G_N_ELEMENTS (commands))];
      g_auto (GStrv) words = g_strsplit (command, " ", -1);
      g_autoptr (GError) error = NULL;
      HwProject *next = edit (hw_history_peek (history), words, &error);

      g_assert_true ((next == NULL) == (error != NULL));
      if (next == NULL)
        continue;
      assert_valid (next);
      hw_history_push (history, next, command, NULL);
      n_done++;
    }
  g_assert_cmpint (n_done, >, 300);
  last = describe (hw_history_peek (history));
  while (hw_history_undo (history))
    ;
  back = describe (hw_history_peek (history));
  g_assert_cmpstr (back, ==, first);
  g_assert_true (hw_history_is_saved (history));
  while (hw_history_redo (history))
    ;
  again = describe (hw_history_peek (history));
  g_assert_cmpstr (again, ==, last);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (scripts); i++)
    g_test_add_data_func (scripts[i].path, &scripts[i], test_script);
  g_test_add_func ("/edit/share", test_share);
  g_test_add_func ("/edit/labels", test_labels);
  g_test_add_func ("/edit/sharing", test_sharing);
  g_test_add_func ("/edit/free-number", test_free_number);
  g_test_add_func ("/edit/random-walk", test_random_walk);
  return g_test_run ();
}
