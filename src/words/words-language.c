/* words-language.c - the handbook's text in the person's language
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words.h"
#include "words/words-picture.h"

#include <glib/gi18n.h>

/**
 * hw_words_translate:
 * @context_or_null: the element whose name @text is, as its/handwheel.its marks it for translators
 * @text: a name or a sentence of the handbook
 *
 * Returns: (transfer none): @text in the language of the process; @text itself where nobody has translated it
 */
const char *
hw_words_translate (const char *context_or_null,
                    const char *text)
{
  g_return_val_if_fail (text != NULL, NULL);

  if (*text == '\0')                     /* gettext keeps its own head under the empty text */
    return text;
  if (context_or_null == NULL)
    return gettext (text);
  return g_dpgettext2 (NULL, context_or_null, text);
}

/**
 * hw_words_picture:
 * @text: what is on a picture of the guide, in the person's language
 *
 * Returns: (transfer full): @text; in another language than that of the pictures also which one that is
 */
char *
hw_words_picture (const char *text)
{
  const char *english = N_("The picture is in English.");
  const char *remark = _(english);

  g_return_val_if_fail (text != NULL, NULL);

  return g_str_equal (remark, english) ? g_strdup (text) : g_strdup_printf ("%s %s", text, remark);
}
