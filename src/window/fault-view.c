/* fault-view.c - a stitch fault's picture, its checks, the remedy: the parts of the page that are made anew
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/fault-view.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/motif.h"
#include "window/theme.h"
#include "window/wrap.h"
#include "words/words.h"

#define CARD_EM 11.0
#define PICTURE_EM 20.0
#define BAR_EM 7.0

/* A sentence: wraps within the place it gets, and asks for no more than a line of reading length. */
static GtkWidget *
make_text (const char *text,
           const char *class)
{
  GtkWidget *label = hw_label_new (text, class);

  gtk_label_set_width_chars (GTK_LABEL (label), 22);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 60);
  return label;
}

/* ---- gallery and picture ---- */

GtkWidget *
hw_fault_card_new (const HwFault *fault)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *motif = hw_motif_new (CARD_EM, 7.6);
  GtkWidget *label = hw_label_new (fault->entry.name, NULL);

  hw_motif_show_fault (HW_MOTIF (motif), &fault->looks, -1);
  hw_motif_set_name (HW_MOTIF (motif), fault->entry.name);
  gtk_label_set_width_chars (GTK_LABEL (label), 14);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 14);
  gtk_label_set_lines (GTK_LABEL (label), 2);
  gtk_box_append (GTK_BOX (box), motif);
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "fault-card");
  gtk_widget_set_tooltip_text (button, fault->sign);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "faults.choose");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", fault->entry.id);
  hw_control_name (button, fault->entry.name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, fault->sign, -1);
  return button;
}

static void
add_view (GtkWidget     *box,
          const HwFault *fault,
          HwFaultView    view,
          const char    *name,
          double         height_em)
{
  GtkWidget       *motif = hw_motif_new (PICTURE_EM, height_em);
  /* Translators: a fault; from which side it is drawn */
  g_autofree char *spoken = g_strdup_printf (_("%s: %s"), fault->entry.name, name);
  GtkWidget       *caption = hw_label_new (name, "small");

  hw_motif_show_fault (HW_MOTIF (motif), &fault->looks, (int) view);
  hw_motif_set_name (HW_MOTIF (motif), spoken);
  gtk_widget_set_halign (motif, GTK_ALIGN_START);
  gtk_widget_add_css_class (caption, "mute");
  gtk_box_append (GTK_BOX (box), caption);
  gtk_box_append (GTK_BOX (box), motif);
}

static gboolean
is_across (const HwFault *fault)
{
  return fault->looks.cloth == HW_LOOKS_OPEN || fault->looks.cloth == HW_LOOKS_SLIPPED
         || fault->looks.row == HW_LOOKS_OVERLOCK;
}

GtkWidget *
hw_fault_picture_new (const HwFault *fault)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *sign = hw_label_new (fault->sign, "strong");

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_widget_add_css_class (sheet, "fault-picture");
  gtk_widget_set_valign (sheet, GTK_ALIGN_START);
  add_view (sheet, fault, HW_FAULT_TOP, _("From above"), 4.2);
  add_view (sheet, fault, HW_FAULT_SECTION, is_across (fault) ? _("Cut across the seam") : _("Cut along the row"), 5.4);
  add_view (sheet, fault, HW_FAULT_UNDERNEATH, _("From underneath"), 4.2);
  gtk_label_set_max_width_chars (GTK_LABEL (sign), 30);
  gtk_widget_set_margin_top (sign, 6);
  gtk_box_append (GTK_BOX (sheet), sign);
  if (fault->entry.note != NULL)
    {
      GtkWidget *note = hw_label_new (fault->entry.note, NULL);

      gtk_label_set_max_width_chars (GTK_LABEL (note), 30);
      gtk_box_append (GTK_BOX (sheet), note);
    }
  return sheet;
}

GtkWidget *
hw_fault_cautions_new (char **cautions)
{
  GtkWidget *box;

  if (*cautions == NULL)
    return NULL;
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_add_css_class (box, "fault-caution");
  for (char **caution = cautions; *caution != NULL; caution++)
    gtk_box_append (GTK_BOX (box), make_text (_(*caution), "brass"));
  return box;
}

/* ---- one check ---- */

static void
draw_bar_cb (GtkDrawingArea *area,
             cairo_t        *cr,
             int             width,
             int             height,
             gpointer        data)
{
  HwInks inks = hw_theme_inks (GTK_WIDGET (area));
  double chance = *(double *) data;
  double y = height / 2.0;
  double thick = MAX (4, height * 0.36);
  double long_px = MAX (2, (width - 2) * chance);
  gboolean reversed = gtk_widget_get_direction (GTK_WIDGET (area)) == GTK_TEXT_DIR_RTL;

  cairo_set_source_rgb (cr, inks.line.r, inks.line.g, inks.line.b);
  cairo_set_line_width (cr, 1);
  cairo_move_to (cr, 1, y);
  cairo_line_to (cr, width - 1, y);
  cairo_stroke (cr);
  cairo_set_source_rgb (cr, inks.ink.r, inks.ink.g, inks.ink.b);
  cairo_rectangle (cr, reversed ? width - 1 - long_px : 1, y - thick / 2, long_px, thick);
  cairo_fill (cr);
}

/* Bar, number and minutes stay side by side when the row wraps. */
static GtkWidget *
make_bar (double      chance,
          const char *minutes)
{
  GtkWidget       *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget       *area = gtk_drawing_area_new ();
  /* Translators: chance in per cent */
  g_autofree char *text = g_strdup_printf (_("%.0f %%"), chance * 100);
  GtkWidget       *label = hw_label_new (text, "strong");
  GtkWidget       *time = hw_label_new (minutes, "mute");
  double          *kept = g_new (double, 1);
  /* Translators: chance in per cent, minutes such as “2 min” */
  g_autofree char *told = g_strdup_printf (_("%.0f %% likely among the causes that are left; the check takes %s"),
                                           chance * 100, minutes);

  gtk_widget_set_tooltip_text (box, told);
  gtk_accessible_update_property (GTK_ACCESSIBLE (label), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, told, -1);
  *kept = chance;
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_bar_cb, kept, g_free);
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), (int) (BAR_EM * 14));
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), 16);
  gtk_widget_set_valign (area, GTK_ALIGN_CENTER);
  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_label_set_width_chars (GTK_LABEL (label), 5);
  gtk_box_append (GTK_BOX (box), area);
  gtk_box_append (GTK_BOX (box), label);
  gtk_label_set_width_chars (GTK_LABEL (time), 8);
  gtk_label_set_xalign (GTK_LABEL (time), 1);
  gtk_box_append (GTK_BOX (box), time);
  return box;
}

static GtkWidget *
make_button (const char *label,
             const char *action,
             const char *target,
             const char *spoken)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  if (target != NULL)
    gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", target);
  if (spoken != NULL)
    hw_control_name (button, spoken);
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  return button;
}

static GtkWidget *
make_head (const HwFaultCheck *check,
           guint               place)
{
  GtkWidget       *head = hw_wrap_new (12, 2);
  /* Translators: place in the order of checks, cause */
  g_autofree char *title = g_strdup_printf (_("%u  %s"), place, check->cause->name);
  g_autofree char *minutes = hw_words_minutes (check->minutes);
  GtkWidget       *name = hw_label_new (title, "subtitle");

  gtk_widget_set_hexpand (name, TRUE);
  gtk_label_set_width_chars (GTK_LABEL (name), 18);
  hw_wrap_append (HW_WRAP (head), name);
  hw_wrap_append (HW_WRAP (head), make_bar (check->chance, minutes));
  return head;
}

static void
add_known (GtkWidget          *row,
           const HwHandbook   *handbook,
           const HwFaultCheck *check)
{
  g_autofree char *fact = hw_words_fault_fact (handbook, check);
  g_autofree char *history = hw_words_fault_history (check);

  if (fact != NULL)
    gtk_box_append (GTK_BOX (row), make_text (fact, check->clue > 1 ? "brass" : "mute"));
  if (history != NULL)
    gtk_box_append (GTK_BOX (row), make_text (history, "mute"));
}

static GtkWidget *
make_check (const HwHandbook   *handbook,
            const HwFaultCheck *check,
            guint               place)
{
  GtkWidget       *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  GtkWidget       *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  /* Translators: cause */
  g_autofree char *yes = g_strdup_printf (_("That is it: %s"), check->cause->name);
  g_autofree char *no = g_strdup_printf (_("Not that: %s"), check->cause->name);

  gtk_widget_add_css_class (row, "fault-check");
  gtk_box_append (GTK_BOX (row), make_head (check, place));
  gtk_box_append (GTK_BOX (row), make_text (check->cause->check, NULL));
  add_known (row, handbook, check);
  gtk_widget_set_margin_top (buttons, 3);
  gtk_box_append (GTK_BOX (buttons), make_button (_("That is it"), "faults.found", check->cause->id, yes));
  gtk_box_append (GTK_BOX (buttons), make_button (_("Not that"), "faults.not", check->cause->id, no));
  gtk_box_append (GTK_BOX (row), buttons);
  return row;
}

GtkWidget *
hw_fault_checks_new (const HwHandbook    *handbook,
                     const HwFaultSearch *search)
{
  GtkWidget       *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_autofree char *minutes = hw_words_number (search->expected_minutes, 1);
  /* Translators: minutes */
  g_autofree char *text = g_strdup_printf (_("Beside each cause: how likely it is among these, by what is known and "
                                             "what was ruled out, and how long its check takes. In this order the "
                                             "cause is found in %s min on average."), minutes);

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_box_append (GTK_BOX (sheet), make_text (text, "fault-note"));
  for (guint i = 0; i < search->checks->len; i++)
    gtk_box_append (GTK_BOX (sheet), make_check (handbook, &g_array_index (search->checks, HwFaultCheck, i), i + 1));
  return sheet;
}

GtkWidget *
hw_fault_ruled_out_new (const HwFault   *fault,
                        const GPtrArray *ids)
{
  GtkWidget          *box = hw_wrap_new (12, 4);
  g_autoptr (GString) names = g_string_new (NULL);
  g_autofree char    *text = NULL;
  GtkWidget          *label;

  for (guint i = 0; i < ids->len; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? C_("list of choices", "; ") : "",
                            _(hw_fault_find_cause (fault, g_ptr_array_index (ids, i))->name));
  /* Translators: causes that were ruled out */
  text = g_strdup_printf (_("Not it: %s"), names->str);
  label = hw_label_new (text, "mute");
  gtk_widget_set_hexpand (label, TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), 24);
  hw_wrap_append (HW_WRAP (box), label);
  hw_wrap_append (HW_WRAP (box), make_button (_("All once more"), "faults.again", NULL, NULL));
  return box;
}

/* ---- the remedy ---- */

static void
add_remedy_cautions (GtkWidget        *sheet,
                     const HwHandbook *handbook,
                     const HwFault    *fault,
                     const HwFix      *fix)
{
  g_autofree char *unplug = hw_words_caution (0);
  g_autofree char *tin = hw_words_caution (2);
  GtkWidget       *own = fix->kind != HW_FIX_SET_DIAL ? hw_fault_cautions_new (fault->cautions) : NULL;

  /* Nobody reaches into the machine to turn the dial. */
  if (own != NULL)
    gtk_box_append (GTK_BOX (sheet), own);
  if (fix->kind == HW_FIX_LOAD_NEEDLE)
    {
      gtk_box_append (GTK_BOX (sheet), make_text (unplug, "brass"));
      gtk_box_append (GTK_BOX (sheet), make_text (tin, "brass"));
    }
  if (fix->kind == HW_FIX_CARE)
    {
      GtkWidget *of_care = hw_fault_cautions_new (handbook->care[fix->care].cautions);

      if (of_care != NULL)
        gtk_box_append (GTK_BOX (sheet), of_care);
    }
}

GtkWidget *
hw_fault_remedy_new (const HwHandbook *handbook,
                     const HwFault    *fault,
                     const HwCause    *cause,
                     const HwFix      *fix)
{
  GtkWidget       *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget       *buttons = hw_wrap_new (8, 6);
  g_autofree char *press = hw_words_fix (handbook, cause, fix);
  GtkWidget       *first;

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_widget_add_css_class (sheet, "fault-remedy");
  gtk_box_append (GTK_BOX (sheet), make_text (cause->name, "title"));
  gtk_box_append (GTK_BOX (sheet), make_text (cause->action, NULL));
  add_remedy_cautions (sheet, handbook, fault, fix);
  if (fix->kind == HW_FIX_LOAD_NEEDLE && fix->packet == NULL)
    gtk_box_append (GTK_BOX (sheet), make_text (_("The needle case notes no new one of this kind: buy some."),
                                                "brass"));
  first = press != NULL ? make_button (press, "faults.fix", NULL, NULL)
                        : make_button (_("Done: note it"), "faults.note", NULL, NULL);
  gtk_widget_add_css_class (first, "suggested");
  hw_wrap_append (HW_WRAP (buttons), first);
  if (press != NULL)
    hw_wrap_append (HW_WRAP (buttons), make_button (_("Only note the cause"), "faults.note", NULL, NULL));
  hw_wrap_append (HW_WRAP (buttons), make_button (_("Back to the checks"), "faults.again", NULL, NULL));
  gtk_box_append (GTK_BOX (sheet), buttons);
  return sheet;
}

GtkWidget *
hw_fault_noted_new (const char *what)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *buttons = hw_wrap_new (8, 6);

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_widget_add_css_class (sheet, "fault-remedy");
  gtk_box_append (GTK_BOX (sheet), hw_label_new (_("Noted in the journal"), "title"));
  gtk_box_append (GTK_BOX (sheet), make_text (what, NULL));
  hw_wrap_append (HW_WRAP (buttons), make_button (_("Undo"), "faults.undo", NULL, _("Undo: take the note back")));
  hw_wrap_append (HW_WRAP (buttons), make_button (_("It is still there"), "faults.again", NULL, NULL));
  hw_wrap_append (HW_WRAP (buttons), make_button (_("All faults"), "faults.back", NULL, NULL));
  gtk_box_append (GTK_BOX (sheet), buttons);
  return sheet;
}

GtkWidget *
hw_fault_unknown_new (void)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *buttons = hw_wrap_new (8, 6);

  gtk_widget_add_css_class (sheet, "sheet");
  gtk_widget_add_css_class (sheet, "fault-remedy");
  gtk_box_append (GTK_BOX (sheet), make_text (_("None of the causes that the handbook knows"), "title"));
  gtk_box_append (GTK_BOX (sheet), make_text (_("Go through them once more with a new needle and fresh thread on plain "
                                                "cotton. Still there: a qualified technician."), NULL));
  hw_wrap_append (HW_WRAP (buttons), make_button (_("Note it as not found"), "faults.not-found", NULL, NULL));
  hw_wrap_append (HW_WRAP (buttons), make_button (_("All once more"), "faults.again", NULL, NULL));
  gtk_box_append (GTK_BOX (sheet), buttons);
  return sheet;
}
