/* words-versions.c - earlier versions of a project in words
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-versions.h"

#include <glib/gi18n.h>

#include "words/words-private.h"

#define STEPS_NAMED 4                    /* of each kind; the others are counted */

static void
add_count (GPtrArray  *parts,
           guint       n,
           const char *format)
{
  if (n > 0)
    g_ptr_array_add (parts, g_strdup_printf (format, n));
}

static void
add_if (GPtrArray  *parts,
        gboolean    differs,
        const char *text)
{
  if (differs)
    g_ptr_array_add (parts, g_strdup (text));
}

char *
hw_words_difference (const HwDifference *difference)
{
  GPtrArray *parts;
  guint n_added, n_removed, n_changed;

  g_return_val_if_fail (difference != NULL, NULL);

  if (hw_difference_is_none (difference))
    return g_strdup (_("nothing differs"));
  n_added = difference->added->len;
  n_removed = difference->removed->len;
  n_changed = difference->changed->len;
  parts = g_ptr_array_new_with_free_func (g_free);
  add_count (parts, n_added, ngettext ("%u step added", "%u steps added", n_added));
  add_count (parts, n_removed, ngettext ("%u step removed", "%u steps removed", n_removed));
  add_count (parts, n_changed, ngettext ("%u step changed", "%u steps changed", n_changed));
  /* Translators: from here on what differs between two versions of a project, in a list */
  add_if (parts, difference->reordered, C_("differs", "order of the steps"));
  add_if (parts, difference->fabrics, C_("differs", "fabrics"));
  add_if (parts, difference->threads, C_("differs", "threads"));
  add_if (parts, difference->wishes, C_("differs", "wishes for the order"));
  add_if (parts, difference->title, C_("differs", "title"));
  add_if (parts, difference->due, C_("differs", "due date"));
  add_if (parts, difference->note, C_("differs", "note"));
  add_if (parts, difference->settings, C_("differs", "how set-ups are shared"));
  return hw_words_list (parts);
}

static char *
name_steps (const GPtrArray *steps)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  guint      more = steps->len > STEPS_NAMED ? steps->len - STEPS_NAMED : 0;

  for (guint i = 0; i < steps->len - more; i++)
    {
      const HwStep *step = g_ptr_array_index (steps, i);

      g_ptr_array_add (names, g_strdup_printf ("%s %s", step->number, step->name));
    }
  add_count (names, more, ngettext ("%u more", "%u more", more));
  return hw_words_list (names);
}

static void
add_line (GPtrArray       *lines,
          const GPtrArray *steps,
          const char      *format)
{
  g_autofree char *names = steps->len > 0 ? name_steps (steps) : NULL;

  if (names != NULL)
    g_ptr_array_add (lines, g_strdup_printf (format, names));
}

char *
hw_words_which_steps (const HwDifference *difference)
{
  g_autoptr (GPtrArray) lines = NULL;

  g_return_val_if_fail (difference != NULL, NULL);

  lines = g_ptr_array_new_with_free_func (g_free);
  /* Translators: then numbers and names of steps */
  add_line (lines, difference->added, _("Added: %s"));
  /* Translators: then numbers and names of steps */
  add_line (lines, difference->removed, _("Removed: %s"));
  /* Translators: then numbers and names of steps */
  add_line (lines, difference->changed, _("Changed: %s"));
  g_ptr_array_add (lines, NULL);
  return g_strjoinv ("\n", (char **) lines->pdata);
}
