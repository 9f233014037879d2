/* copies.h - conflicting copies: the same thing in two files
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When a file was changed on two computers before they were in touch again, a file-sync service leaves both, the second
 * under a name such as "lockstitch (conflicted copy 2031-05-09).xml". What such a name looks like does not matter here:
 * a copy is any second file in its folder of the same kind with the same id. Two are merged by id: what stands in one
 * alone is kept, and where both say something else the file's own stays, or the copy's when a person wishes so.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

/* Something that the two do not have in common; @here or @there NULL: it stands in the other one alone. */
typedef struct
{
  char *what;                            /* "operation 3", "operation 3 length-cm" */
  char *here, *there;
} HwCopyDifference;

typedef struct
{
  char      *folder;                     /* of the sewing room */
  char      *root;                       /* kind of file: "project", "machine", "needles", … */
  char      *id;                         /* of the project or machine; of a journal MACHINE-YEAR; of a list its root */
  char      *file;                       /* path of the one that counts */
  char      *copy;                       /* path of the other */
} HwCopy;

/* (transfer full) (element-type HwCopy): all in a sewing room, by path. Only the first line of each file is read. */
GPtrArray *hw_copies_find       (const char *room_folder);
/* (transfer full) (element-type HwCopyDifference); NULL with one line when either cannot be read. */
GPtrArray *hw_copy_compare      (const HwCopy *self, GError **error);
/* Puts what only the copy holds into the file, and its values where both differ when @prefer_copy; the copy's name then
 * ends with "~". FALSE with one line, and nothing changed, when the two do not go together. */
gboolean   hw_copy_merge        (const HwCopy *self, gboolean prefer_copy, GError **error);
G_END_DECLS
