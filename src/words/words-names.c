/* words-names.c - names from the handbook inside sentences, and lists of them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>

/* A first letter that starts a designation, such as "T-shirt" or "ISO", stays as it is. */
static gboolean
starts_a_word (const char *name)
{
  return g_unichar_islower (g_utf8_get_char (g_utf8_next_char (name)));
}

char *
hw_words_title (const char *name)
{
  g_autoptr (GString) out = NULL;
  const char *rest = *name != '\0' ? g_utf8_next_char (name) : name;

  /* “iron-on” begins small by chance, “eBook” on purpose. */
  if (!g_unichar_islower (g_utf8_get_char (name)) || g_unichar_isupper (g_utf8_get_char (rest)))
    return g_strdup (name);
  out = g_string_new (NULL);
  g_string_append_unichar (out, g_unichar_totitle (g_utf8_get_char (name)));
  g_string_append (out, rest);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/**
 * hw_words_inside:
 * @name: a name in sentence case, already in the person's language
 *
 * Returns: (transfer full): the name as it stands inside a sentence
 */
char *
hw_words_inside (const char *name)
{
  /* Translators: "lower" if a name such as "Round point" begins with a small letter inside a sentence in your
   * language; "keep" if it stays as it is. */
  gboolean lower = g_str_equal (C_("names inside a sentence", "lower"), "lower");
  g_autoptr (GString) out = NULL;

  if (!lower || *name == '\0' || !starts_a_word (name))
    return g_strdup (name);
  out = g_string_new (NULL);
  g_string_append_unichar (out, g_unichar_tolower (g_utf8_get_char (name)));
  g_string_append (out, g_utf8_next_char (name));
  return g_string_free (g_steal_pointer (&out), FALSE);
}

char *
hw_words_list (GPtrArray *parts)
{
  char *list;

  g_ptr_array_add (parts, NULL);
  /* Translators: stands between the parts of a list */
  list = g_strjoinv (C_("list", ", "), (char **) parts->pdata);
  g_ptr_array_set_size (parts, (int) parts->len - 1);
  g_ptr_array_unref (parts);
  return list;
}

char *
hw_words_cloth (const HwCloth *cloth)
{
  return cloth != NULL ? hw_words_inside (cloth->fabric->name) : g_strdup (_("the cloth"));
}

const char *
hw_words_machine_kind (HwMachineKind kind)
{
  static const char * const names[HW_N_MACHINE_KINDS] = {
    [HW_MACHINE_LOCKSTITCH] = N_("Lockstitch machine"),
    [HW_MACHINE_OVERLOCK] = N_("Overlocker"),
    [HW_MACHINE_COVERSTITCH] = N_("Coverstitch machine"),
  };

  g_return_val_if_fail ((int) kind >= 0 && kind < HW_N_MACHINE_KINDS, "");
  return _(names[kind]);
}
