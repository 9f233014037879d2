/* test-mnemonics.c - no two fields of a form are reached by the same letter, in the language of LANGUAGE
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Over the real forms and pages of the window, in centimetres and in inches. A letter that two fields share goes from
 * one to the other and chooses neither; rows of a list that say the same may share theirs.
 */

#include "config.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "demo.h"
#include "scene.h"
#include "walk.h"
#include "window/forms.h"
#include "window/garment-form.h"
#include "window/room-forms.h"
#include "window/test-seam-panel.h"
#include "words/words.h"

#define CLOTH "remnant"

typedef struct
{
  GHashTable *taken;             /* key value -> text of the label that took it first */
  GString    *faults;
  guint       n;
} Letters;

static void
take_letter (Letters    *self,
             const char *where,
             guint       key,
             const char *text)
{
  const char *other = g_hash_table_lookup (self->taken, GUINT_TO_POINTER (key));

  self->n++;
  if (other == NULL)
    g_hash_table_insert (self->taken, GUINT_TO_POINTER (key), (gpointer) text);
  else if (!g_str_equal (other, text))
    g_string_append_printf (self->faults, "%s: “%s” and “%s”\n", where, other, text);
}

/* What is hidden counts: it comes when its kind is chosen. */
static void
gather (Letters    *self,
        const char *where,
        GtkWidget  *widget)
{
  guint key = GTK_IS_LABEL (widget) ? gtk_label_get_mnemonic_keyval (GTK_LABEL (widget)) : 0;

  if (key != 0 && key != GDK_KEY_VoidSymbol)             /* 0: could have had one */
    take_letter (self, where, gdk_keyval_to_lower (key), gtk_label_get_label (GTK_LABEL (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    gather (self, where, child);
}

/* Returns how many letters @root has. */
static guint
look (GtkWidget  *root,
      const char *where,
      GString    *faults)
{
  g_autoptr (GHashTable) taken = g_hash_table_new (NULL, NULL);
  Letters letters = { taken, faults, 0 };

  gather (&letters, where, root);
  g_test_message ("%s: %u letters", where, letters.n);
  return letters.n;
}

/* The form is made by @make, looked at and thrown away. */
static guint
look_at_form (GtkWidget  *form,
              const char *where,
              GString    *faults)
{
  guint n;

  g_object_ref_sink (form);
  n = look (form, where, faults);
  g_object_unref (form);
  return n;
}

/* The stage of the test seam that is shown. */
static GtkWidget *
peek_stage (GtkWidget *panel)
{
  return gtk_stack_get_visible_child (GTK_STACK (walk_need (panel, GTK_TYPE_STACK, NULL)));
}

/* How the scrap looked is asked, what to do is told, and it is noted: a stage after the other. */
static guint
look_at_test_seam (HwWorkspace *workspace,
                   GString     *faults)
{
  GtkWidget *panel = g_object_ref_sink (hw_test_seam_panel_new (workspace));
  GtkWidget *grid = walk_need (panel, GTK_TYPE_GRID, NULL);
  guint      n = look (peek_stage (panel), "looks of a scrap", faults);

  for (GtkWidget *button = gtk_widget_get_first_child (grid); button != NULL;
       button = gtk_widget_get_next_sibling (button))
    {
      g_signal_emit_by_name (button, "clicked");
      n += look (peek_stage (panel), "what to do about a look", faults);
    }
  g_signal_emit_by_name (walk_need (peek_stage (panel), GTK_TYPE_BUTTON, NULL), "clicked");
  scene_settle ();
  n += look (peek_stage (panel), "test seam noted", faults);
  g_object_unref (panel);
  return n;
}

static guint
look_at_project_forms (HwWorkspace *workspace,
                       GString     *faults)
{
  const HwProject *project = hw_workspace_peek_project (workspace);
  const char      *numbers[] = { "1", "2", NULL };
  const HwProjectFabric *fabric = project->fabrics->pdata[0];
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  guint n = 0;

  n += look_at_form (hw_step_form_new (workspace, NULL, HW_STEP_OPERATION), "operation", faults);
  n += look_at_form (hw_step_form_new (workspace, NULL, HW_STEP_HAND), "hand step", faults);
  n += look_at_form (hw_steps_form_new (workspace, numbers), "several steps", faults);
  n += look_at_form (hw_fabric_form_new (workspace, NULL), "new fabric", faults);
  n += look_at_form (hw_fabric_form_new (workspace, fabric->id), "fabric", faults);
  n += look_at_form (hw_thread_form_new (workspace, NULL), "thread", faults);
  n += look_at_form (hw_project_form_new (workspace), "project", faults);
  n += look_at_test_seam (workspace, faults);
  for (gsize i = 0; i < handbook->n_garments; i++)
    n += look_at_form (hw_garment_form_new (workspace, &handbook->garments[i], i % 2 == 0),
                       handbook->garments[i].entry.id, faults);
  return n;
}

static guint
look_at_room_forms (HwWorkspace *workspace,
                    GString     *faults)
{
  const HwRoom    *room = hw_workspace_get_room (workspace);
  const HwMachine *machine = room->machines->pdata[0];
  const HwPacket  *packet = room->packets->pdata[0];
  const HwNeedle  *needle = room->needles->pdata[0];
  gboolean         seen[HW_N_ENTRY_KINDS] = { FALSE };
  guint            n = 0;

  for (int kind = 0; kind < HW_N_MACHINE_KINDS; kind++)
    n += look_at_form (hw_machine_form_new (workspace, NULL, (HwMachineKind) kind), "machine", faults);
  n += look_at_form (hw_care_form_new (workspace, machine->id, "dust"), "care", faults);
  n += look_at_form (hw_packet_form_new (workspace, NULL), "new needles", faults);
  n += look_at_form (hw_worn_form_new (workspace), "part-worn needle", faults);
  n += look_at_form (hw_load_form_new (workspace, NULL, packet->id), "load a needle", faults);
  n += look_at_form (hw_place_form_new (workspace, needle->id), "place of a needle", faults);
  n += look_at_form (hw_spool_form_new (workspace, NULL), "thread on hand", faults);
  n += look_at_form (hw_shelf_cloth_form_new (workspace, NULL), "fabric on hand", faults);
  n += look_at_form (hw_use_cloth_form_new (workspace, CLOTH), "use a fabric", faults);
  for (guint i = 0; i < room->entries->len; i++)
    {
      const HwJournalEntry *entry = room->entries->pdata[i];

      if (!seen[entry->kind])
        n += look_at_form (hw_entry_form_new (workspace, entry->id), hw_entry_kind_ids[entry->kind], faults);
      seen[entry->kind] = TRUE;
    }
  return n;
}

static guint
look_at_pages (Demo    *demo,
               GString *faults)
{
  static const char * const pages[] = {
    "making-up", "order", "cards", "notions", "queue", "machines", "faults", "finish", "preferences", "needles",
    "thread", "fabrics", "journal", "handbook", "garment", "versions", "guide",
  };
  guint n = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_assert_true (gtk_widget_activate_action (demo->window, "win.page", "s", pages[i]));
      scene_settle ();
    }
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      GtkStack *stack = walk_stack (demo->window, pages[i]);

      n += look (gtk_stack_get_child_by_name (stack, pages[i]), pages[i], faults);
    }
  return n;
}

static void
put_cloth_on_shelf (HwWorkspace *workspace)
{
  g_autoptr (GPtrArray) cloths = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_shelf_cloth_free);
  HwShelfCloth         *cloth = hw_shelf_cloth_new (CLOTH, "Remnant");
  g_autoptr (GError)    error = NULL;

  cloth->handbook = g_strdup ("denim");
  g_ptr_array_add (cloths, cloth);
  g_assert_true (hw_form_take_room (workspace, hw_room_with_cloths (hw_workspace_get_room (workspace), cloths, &error),
                                    &error));
  g_assert_no_error (error);
}

static void
test_letters (gconstpointer inches)
{
  Demo demo = { 0 };
  g_autoptr (GString) faults = g_string_new (NULL);

  demo_open (&demo);
  gtk_window_present (GTK_WINDOW (demo.window));
  put_cloth_on_shelf (demo.workspace);
  hw_workspace_select (demo.workspace, "2");
  hw_words_set_style (inches != NULL, HW_NUMBER_LOCALE);
  g_assert_cmpuint (look_at_project_forms (demo.workspace, faults), >=, 60);
  g_assert_cmpuint (look_at_room_forms (demo.workspace, faults), >=, 60);
  g_assert_cmpuint (look_at_pages (&demo, faults), >=, 8);
  demo_close (&demo);
  if (faults->len > 0)
    g_test_fail_printf ("%s", faults->str);
}

int
main (int    argc,
      char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  bindtextdomain (GETTEXT_PACKAGE, g_getenv ("HANDWHEEL_LOCALE_DIR"));
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  gtk_init ();

  g_test_add_data_func ("/mnemonics/centimetres", NULL, test_letters);
  g_test_add_data_func ("/mnemonics/inches", "inches", test_letters);
  return g_test_run ();
}
