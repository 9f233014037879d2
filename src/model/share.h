/* share.h - a project with its test seams and fabrics as one file, to hand to another sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * <share xmlns="urn:handwheel:share:1"> holds one <part name> for each file of a small sewing room: project.handwheel,
 * machines/ID.xml and journal/ID-YEAR.xml with the project's test seams, and fabrics.xml with what the project uses of
 * the fabrics on hand. Each part is the file's own XML, read by its own reader.
 */

#pragma once
#include "model/project.h"
#include "model/room.h"

G_BEGIN_DECLS

#define HW_SHARE_ENDING ".handwheel-share"

/* (transfer full): the file's text. */
char    *hw_share_to_xml (const HwProject *project, const HwRoom *room, gsize *size, GError **error);

/* What lies in such a file. */
typedef struct
{
  HwProject *project;
  HwRoom    *room;                   /* its machines, test seams and fabrics; in no folder any more */
} HwShare;
/* (transfer full): NULL with @error: "FILE:LINE: …", and nothing was changed. */
HwShare *hw_share_read   (const char *path, GError **error);
void     hw_share_free   (HwShare *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwShare, hw_share_free)

/* What taking it in came to. */
typedef struct
{
  char  *path;                       /* of the project in the room */
  guint  n_fabrics;                  /* that the room did not have */
  guint  n_seams;                    /* that its journal did not have */
  guint  n_seams_left;               /* no machine of their kind is in the room */
} HwShareTaken;
void     hw_share_taken_clear (HwShareTaken *self);

/* Puts the project beside those of @room, its fabrics among those on hand, and its test seams into the journal of the
 * machine @machine (NULL: the first of the kind), dials moved to that machine's scale. What is there already, by its
 * id, is passed over; a project whose id another one has gets one of its own. (transfer full): the new snapshot; NULL
 * with @error, and then what was taken in before it stays. */
HwRoom  *hw_share_take_in (const HwShare *self, const HwRoom *room, const char *machine, HwShareTaken *taken,
                           GError **error);

G_END_DECLS
