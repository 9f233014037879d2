/* test-seam-looks.c - the parts of the test seam's panel that are made anew: drawn verdicts, dials, what was sewn
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/test-seam-looks.h"

#include <glib/gi18n.h>
#include <string.h>

#include "window/controls.h"
#include "window/dial.h"
#include "window/motif.h"
#include "words/words.h"

#define MOST_PAST 8
#define LINE_CHARS 16                    /* what a line asks for; it fills what the panel has */

#define LOOKS(cloth, top, section, underneath) \
  { cloth, HW_LOOKS_STRAIGHT, (char *) top, (char *) section, (char *) underneath }

/* In the letters of card/drawing-fault.h. */
static const HwLooks looks[HW_N_VERDICTS] = {
  [HW_VERDICT_LOOPS_BELOW] = LOOKS (HW_LOOKS_FLAT, "------", "vvvvvv", "oooooo"),
  [HW_VERDICT_BALANCED] = LOOKS (HW_LOOKS_FLAT, "------", "------", "------"),
  [HW_VERDICT_BOBBIN_ABOVE] = LOOKS (HW_LOOKS_FLAT, "::::::", "^^^^^^", "------"),
  [HW_VERDICT_PUCKER_RELEASED] = LOOKS (HW_LOOKS_PUCKERED, "------", "------", "------"),
  [HW_VERDICT_PUCKER_STAYS] = LOOKS (HW_LOOKS_PUCKERED, "------", "------", "------"),
  [HW_VERDICT_SKIPPED] = LOOKS (HW_LOOKS_FLAT, "--=---", "--.---", "--=---"),
  [HW_VERDICT_THREAD_SNAPS] = LOOKS (HW_LOOKS_FLAT, "-->...", "--n,,,", "------"),
  [HW_VERDICT_WAVY] = LOOKS (HW_LOOKS_WAVY, "------", "------", "------"),
};

static GtkWidget *
make_line (const char *text, const char *class)
{
  GtkWidget *label = hw_label_new (text, class);

  gtk_label_set_max_width_chars (GTK_LABEL (label), LINE_CHARS);
  gtk_widget_set_hexpand (label, TRUE);
  return label;
}

GtkWidget *
hw_look_motif_new (HwVerdict verdict, double width_em, double height_em)
{
  GtkWidget *motif = hw_motif_new (width_em, height_em);

  hw_motif_show_fault (HW_MOTIF (motif), &looks[verdict], -1);
  return motif;
}

GtkWidget *
hw_look_button_new (HwVerdict verdict, const char *name)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *label = gtk_label_new (name);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_width_chars (GTK_LABEL (label), 14);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 14);
  gtk_label_set_lines (GTK_LABEL (label), 2);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  gtk_widget_add_css_class (label, "small");
  gtk_box_append (GTK_BOX (box), hw_look_motif_new (verdict, 7.6, 5.4));
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "look");
  hw_control_name (button, name);
  return button;
}

void
hw_look_button_set_name (GtkWidget *button, const char *name)
{
  GtkWidget *box = gtk_button_get_child (GTK_BUTTON (button));

  gtk_label_set_text (GTK_LABEL (gtk_widget_get_last_child (box)), name);
  hw_control_name (button, name);
}

/* ---- dials ---- */

GtkWidget *
hw_believed_dial_new (const HwMachine *machine, double dial, double low, double high, const char *words)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *drawn = machine->dial_form == HW_DIAL_EDGE_WHEEL ? hw_dial_new (9, 2.6) : hw_dial_new (5, 5);
  GtkWidget *label = make_line (words, NULL);

  hw_dial_show (HW_DIAL (drawn), machine, dial, low, high, machine->name);
  gtk_widget_set_valign (drawn, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), drawn);
  gtk_box_append (GTK_BOX (row), label);
  return row;
}

static void
add_machine (GtkWidget *box, const HwPlan *plan, const HwSetup *setup, const HwMachine *machine)
{
  const HwTensionBelief *belief = hw_room_get_belief (plan->room, machine, &plan->handbook->tension);
  HwTensionStart start = hw_pair_dial_start (&plan->handbook->tension, belief, &machine->dial, &setup->tension);
  double dial = hw_dial_half_step (start.dial);
  double low = hw_dial_half_step (MAX (start.dial - start.sd, machine->dial.low));
  double high = hw_dial_half_step (MIN (start.dial + start.sd, machine->dial.high));
  guint n = hw_tension_belief_n_telling (belief);
  g_autofree char *at = hw_words_half (dial);
  g_autofree char *from = hw_words_half (MIN (low, dial));
  g_autofree char *to = hw_words_half (MAX (high, dial));
  g_autofree char *seams = g_strdup_printf (ngettext ("%u test seam", "%u test seams", n), n);
  /* Translators: machine's name, number on its dial, the band it lies in two times out of three, "3 test seams" */
  g_autofree char *words = g_strdup_printf (_("%s: %s, two times out of three from %s to %s; %s"), machine->name, at,
                                            from, to, seams);

  gtk_box_append (GTK_BOX (box), hw_believed_dial_new (machine, dial, MIN (low, dial), MAX (high, dial), words));
}

GtkWidget *
hw_believed_dials_new (const HwPlan *plan, const HwSetup *setup)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  for (guint i = 0; i < plan->room->machines->len; i++)
    {
      const HwMachine *machine = g_ptr_array_index (plan->room->machines, i);

      if (machine->kind == HW_MACHINE_LOCKSTITCH)
        add_machine (box, plan, setup, machine);
    }
  return box;
}

/* ---- what was sewn ---- */

static char *
say_day (const char *iso)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autoptr (GDateTime) time = g_date_time_new_from_iso8601 (iso, utc);
  g_autoptr (GDateTime) here = time != NULL ? g_date_time_to_local (time) : NULL;

  return here != NULL ? g_date_time_format (here, "%x") : g_strdup (iso);
}

static char *
say_entry (const HwJournalEntry *entry)
{
  HwTestSeam seam;
  gboolean known = hw_test_seam_read (entry, &seam);
  g_autofree char *day = say_day (entry->time);
  g_autofree char *dial = hw_words_half (entry->dial);
  g_autofree char *look = known ? hw_words_look (seam.verdict, &seam.facts) : g_strdup (entry->verdict);

  if (entry->cloth != NULL)
    /* Translators: date, cloth, number on the dial, how the seam looked */
    return g_strdup_printf (_("%s, %s at %s: %s"), day, entry->cloth, dial, look);
  /* Translators: date, number on the dial, how the seam looked */
  return g_strdup_printf (_("%s, at %s: %s"), day, dial, look);
}

GtkWidget *
hw_past_test_seams_new (const HwPlan *plan, const HwMachine *machine)
{
  g_autoptr (GPtrArray) entries = hw_room_list_test_seams (plan->room, machine->id);
  GtkWidget *box;

  if (entries->len == 0)
    return NULL;
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  for (guint i = entries->len; i > 0 && entries->len - i < MOST_PAST; i--)
    {
      g_autofree char *text = say_entry (g_ptr_array_index (entries, i - 1));

      gtk_box_append (GTK_BOX (box), make_line (text, "small"));
    }
  return box;
}

GtkWidget *
hw_drop_test_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  char *line;

  for (int i = 0; (line = hw_words_drop_test (i)) != NULL; i++)
    {
      gtk_box_append (GTK_BOX (box), make_line (line, "small"));
      g_free (line);
    }
  gtk_box_append (GTK_BOX (box), make_line (_("Common practice, no source."), "small"));
  gtk_widget_add_css_class (gtk_widget_get_last_child (box), "mute");
  return box;
}
