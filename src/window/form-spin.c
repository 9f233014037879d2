/* form-spin.c - numbers with buttons for less and more, in forms and panels
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/form-spin.h"

#include <glib/gi18n.h>
#include <math.h>

#include "window/controls.h"
#include "window/form.h"
#include "words/words.h"

#define WRONG "error"                    /* the CSS class, which is also what remembers it */

static char *
write_value (GtkSpinButton *spin)
{
  return hw_words_fixed (gtk_spin_button_get_value (spin), (int) gtk_spin_button_get_digits (spin));
}

static void
set_wrong (GtkSpinButton *spin,
           gboolean       wrong)
{
  if (wrong)
    gtk_widget_add_css_class (GTK_WIDGET (spin), WRONG);
  else
    gtk_widget_remove_css_class (GTK_WIDGET (spin), WRONG);
  gtk_accessible_update_state (GTK_ACCESSIBLE (spin), GTK_ACCESSIBLE_STATE_INVALID,
                               wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

static gboolean
is_wrong (GtkSpinButton *spin)
{
  return gtk_widget_has_css_class (GTK_WIDGET (spin), WRONG);
}

static char *
say_wrong (GtkSpinButton *spin)
{
  int              digits = (int) gtk_spin_button_get_digits (spin);
  const char      *typed = gtk_editable_get_text (GTK_EDITABLE (spin));
  g_autofree char *lowest = NULL;
  g_autofree char *highest = NULL;
  double           low;
  double           high;

  gtk_spin_button_get_range (spin, &low, &high);
  lowest = hw_words_number (low, digits);
  highest = hw_words_number (high, digits);
  /* Translators: a field's name, the lowest and the highest number it takes, what was typed */
  return g_strdup_printf (_("%s must be a number from %s to %s; it is “%s”"), hw_control_get_name (GTK_WIDGET (spin)),
                          lowest, highest, typed);
}

/* The ends of the range as they are shown, rounded, are in the range. */
static gboolean
is_in_range (GtkSpinButton *spin,
             double         value)
{
  double half = 0.5 * pow (10, -(double) gtk_spin_button_get_digits (spin)) + 1e-9;
  double low;
  double high;

  gtk_spin_button_get_range (spin, &low, &high);
  return value >= low - half && value <= high + half;
}

/* What is shown rounded, and was not touched, stays as it was to the last digit. */
static int
read_cb (GtkSpinButton *spin,
         double        *value)
{
  const char      *typed = gtk_editable_get_text (GTK_EDITABLE (spin));
  HwWorkspace     *teller = g_object_get_data (G_OBJECT (spin), "hw-teller");
  g_autofree char *shown = write_value (spin);
  g_autofree char *told = NULL;

  if (!g_str_equal (typed, shown) && hw_words_parse_number (typed, value) && is_in_range (spin, *value))
    return TRUE;
  *value = gtk_spin_button_get_value (spin);
  if (g_str_equal (typed, shown))
    return TRUE;
  if (teller == NULL)
    {
      set_wrong (spin, TRUE);
      return TRUE;
    }
  told = say_wrong (spin);
  hw_workspace_tell (teller, told, TRUE);
  return TRUE;
}

static gboolean
show_cb (GtkSpinButton *spin)
{
  g_autofree char *text = write_value (spin);

  if (!is_wrong (spin) && !g_str_equal (text, gtk_editable_get_text (GTK_EDITABLE (spin))))
    gtk_editable_set_text (GTK_EDITABLE (spin), text);
  return TRUE;
}

static void
typed_cb (GtkSpinButton *spin)
{
  set_wrong (spin, FALSE);
}

/* By a button or from outside: that is a number again. */
static void
set_cb (GtkSpinButton *spin)
{
  set_wrong (spin, FALSE);
  show_cb (spin);
}

void
hw_form_mark_spin (GtkSpinButton *spin)
{
  g_signal_connect (spin, "output", G_CALLBACK (show_cb), NULL);
  g_signal_connect (spin, "input", G_CALLBACK (read_cb), NULL);
  g_signal_connect (spin, "changed", G_CALLBACK (typed_cb), NULL);
  g_signal_connect (spin, "value-changed", G_CALLBACK (set_cb), NULL);
  gtk_spin_button_set_numeric (spin, FALSE);     /* else letters vanish while they are typed, and nobody says why */
  gtk_spin_button_update (spin);
  show_cb (spin);
}

GtkWidget *
hw_form_spin (double value,
              double low,
              double high,
              double step,
              guint  digits)
{
  GtkAdjustment *adjustment = gtk_adjustment_new (value, low, high, step, step * 10, 0);
  GtkWidget     *spin = gtk_spin_button_new (adjustment, step, digits);

  hw_form_mark_spin (GTK_SPIN_BUTTON (spin));
  gtk_editable_set_width_chars (GTK_EDITABLE (spin), 6);
  hw_form_show_whole (spin);
  gtk_widget_set_halign (spin, GTK_ALIGN_START);
  return spin;
}

void
hw_form_set_spin (GtkSpinButton *spin,
                  double         value)
{
  set_wrong (spin, FALSE);
  gtk_spin_button_set_value (spin, value);
}

char *
hw_form_check_spin (GtkSpinButton *spin)
{
  gtk_spin_button_update (spin);
  return is_wrong (spin) ? say_wrong (spin) : NULL;
}

void
hw_form_tell_spin (GtkSpinButton *spin,
                   HwWorkspace   *workspace)
{
  g_object_set_data_full (G_OBJECT (spin), "hw-teller", g_object_ref (workspace), g_object_unref);
}
