/* plain-words.h - finds what is not in the made-up language
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* The first word of @text with three letters or more and no accent that is not written so in every language: a name,
 * a unit, what is typed at the command line. (transfer full), NULL: there is none. */
char *plain_words_find (const char *text);

G_END_DECLS
