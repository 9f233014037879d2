/* book-folder.h - a folder with the small handbook of the tests
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "handbook/handbook.h"

G_BEGIN_DECLS

/* (transfer full): a new folder with the schema and the first three files of "good"; temp_folder_remove() it. */
char       *book_folder_new  (void);
/* (transfer full): the text of a file of "good". */
char       *book_folder_good (const char *name);
/* Loads @folder; it must be good. (transfer full) */
HwHandbook *book_folder_load (const char *folder);

/* (transfer full): @text with the one place of @from changed to @to; @line gets the line on which it begins. */
char       *book_change      (const char *text, const char *from, const char *to, int *line);

/* Loads @folder with @text as its file @name; it must be refused with @code, the message beginning with "NAME:LINE: "
 * and holding @said. */
void        book_assert_refused (const char *name, const char *text, int line, HwHandbookError code, const char *said);

G_END_DECLS
