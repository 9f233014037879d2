/* words-share.c - what came with a project from somebody else
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words.h"

#include <glib/gi18n.h>

/* Takes @sentence. */
static void
add_sentence (GString *text,
              char    *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
  g_free (sentence);
}

/**
 * hw_words_share_taken:
 * @n_fabrics: fabrics that the room did not have
 * @n_seams: test seams that count for a machine of the room now
 * @n_seams_left: test seams for which the room has no machine
 *
 * Returns: (transfer full): a sentence for each that is not 0, "" when nothing came with the project
 */
char *
hw_words_share_taken (guint n_fabrics,
                      guint n_seams,
                      guint n_seams_left)
{
  GString *text = g_string_new (NULL);

  if (n_fabrics > 0)
    add_sentence (text, g_strdup_printf (ngettext ("%u fabric came with it.", "%u fabrics came with it.", n_fabrics),
                                         n_fabrics));
  if (n_seams > 0)
    add_sentence (text, g_strdup_printf (ngettext ("%u test seam came with it; the journal can take it back.",
                                                   "%u test seams came with it; the journal can take them back.",
                                                   n_seams), n_seams));
  if (n_seams_left > 0)
    add_sentence (text, g_strdup_printf (ngettext ("%u test seam is left out: no machine here is of its kind.",
                                                   "%u test seams are left out: no machine here is of their kind.",
                                                   n_seams_left), n_seams_left));
  return g_string_free (text, FALSE);
}
