/* temp-folder.h - a folder of files for one test
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

char *temp_folder_new    (void);                                     /* (transfer full): its path */
void  temp_folder_write  (const char *folder, const char *name, const char *data, gssize size);
char *temp_folder_read   (const char *folder, const char *name);     /* NULL when it is not there */
void  temp_folder_copy   (const char *folder, const char *name, const char *from);     /* from a path */
void  temp_folder_copy_tree (const char *from, const char *to);      /* one folder as another, which may be there */
int   temp_folder_count  (const char *folder, const char *beginning);                  /* names that begin so */
void  temp_folder_remove (char *folder);                             /* with all in it; frees the path */
void  temp_folder_remove_tree (const char *path);                    /* any folder or file; it may be gone already */

G_END_DECLS
