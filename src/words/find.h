/* find.h - finding anything by a few letters of its words
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A pure matcher: whatever can be found is added once with its words, then asked for by what a person types. Letters
 * match whatever their case and accents; each word typed must begin, or stand in, a word of the thing; three
 * letters stand in one only where nothing begins with them.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  guint group;                   /* the caller's; of things that match alike the lower group comes first */
  char *name;                    /* what a person calls it */
  char *detail;                  /* a few words that tell it from others of that name; may be empty */
  char *target;                  /* the caller's: what to open */
} HwFindThing;

typedef struct _HwFind HwFind;

HwFind    *hw_find_new   (void);
/* @words: others it may be found by; NULL: none. */
void       hw_find_add   (HwFind *self, guint group, const char *name, const char *detail, const char *words,
                          const char *target);
guint      hw_find_count (const HwFind *self);
/* Words that need not match where others do, as “how”, “to” and “the” in a question, with blanks between them. */
void       hw_find_spare (HwFind *self, const char *words);
/* The things that match @text, the best first, at most @limit of a group: (element-type HwFindThing) borrowed from
 * @self. (transfer container). @n_all (may be NULL): how many there are without the limit. Where nothing matches, one
 * letter of a longer word may be wrong, missing, too many or changed with its neighbour. Nothing typed: nothing. */
GPtrArray *hw_find_ask   (const HwFind *self, const char *text, guint limit, guint *n_all);
/* The first @limit things of @group, in the order in which they were added: what to offer before a word is typed. */
GPtrArray *hw_find_offer (const HwFind *self, guint group, guint limit);
void       hw_find_free  (HwFind *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwFind, hw_find_free)

G_END_DECLS
