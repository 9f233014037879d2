/* words-picture.h - what stands under a picture of the guide
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* (transfer full): @text; in other languages than the pictures' also which one that is. */
char *hw_words_picture (const char *text);

G_END_DECLS
