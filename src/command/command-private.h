/* command-private.h - what the commands share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "command/command.h"
#include "command/table.h"
#include "plan/queue.h"

G_BEGIN_DECLS

/* Each command takes its own arguments, argv[0] being its name, and returns an exit status. */
typedef int (*HwCommandFunc) (int argc, char **argv);

int hw_command_plan     (int argc, char **argv);
int hw_command_card     (int argc, char **argv);
int hw_command_pair     (int argc, char **argv);
int hw_command_new      (int argc, char **argv);
int hw_command_next     (int argc, char **argv);
int hw_command_queue    (int argc, char **argv);
int hw_command_care     (int argc, char **argv);
int hw_command_log      (int argc, char **argv);
int hw_command_test_seam (int argc, char **argv);
int hw_command_journal  (int argc, char **argv);
int hw_command_shelf    (int argc, char **argv);
int hw_command_copies   (int argc, char **argv);
int hw_command_check    (int argc, char **argv);
int hw_command_fault    (int argc, char **argv);
int hw_command_handbook (int argc, char **argv);
int hw_command_guide    (int argc, char **argv);
int hw_command_export   (int argc, char **argv);
int hw_command_import   (int argc, char **argv);
int hw_command_teach    (int argc, char **argv);
int hw_command_versions (int argc, char **argv);

/* Parses @entries out of argv. FALSE with *status set: usage was wrong (2), or --help was shown (0). */
gboolean    hw_command_parse       (int *argc, char ***argv, const char *arguments, const char *summary,
                                    const GOptionEntry *entries, int *status);
int         hw_command_usage       (const char *command, const char *format, ...) G_GNUC_PRINTF (2, 3);
/* Prints the one line of @error on stderr; 3 when something could not be read or written, else 1. */
int         hw_command_fail        (const GError *error);
gboolean    hw_command_get_format  (const char *command, const char *word, HwFormat *format);   /* NULL: for people */
void        hw_command_print       (const char *text);

/* The three inputs; NULL/FALSE with *status set and the error printed. An empty room folder gives the default room,
 * unsaved. */
HwHandbook *hw_command_handbook_load (int *status);
HwRoom     *hw_command_room_open     (const char *folder_or_null, int *status);

typedef struct
{
  HwHandbook *handbook;
  HwRoom     *room;
  HwProject  *project;
  HwPlan     *plan;
} HwCommandInputs;

gboolean    hw_command_inputs_open  (HwCommandInputs *self, const char *file, const char *room_folder, int *status);
void        hw_command_inputs_clear (HwCommandInputs *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwCommandInputs, hw_command_inputs_clear)

/* What is to be sewn: the projects named, which must all do, or (@files NULL or empty) those of the room, where one
 * that does not read or cannot be planned is told on stderr and left out. */
typedef struct
{
  HwHandbook *handbook;
  HwRoom     *room;
  GPtrArray  *projects;
  HwQueue    *queue;
  char       *now;                       /* ISO 8601 */
} HwCommandQueue;

gboolean    hw_command_queue_open   (HwCommandQueue *self, char **files, const char *room_folder, HwQueueMode mode,
                                     int *status);
void        hw_command_queue_clear  (HwCommandQueue *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwCommandQueue, hw_command_queue_clear)

/* hw_room_append_all() of entries (element-type HwJournalEntry) of one machine, with a line on stderr when the
 * computer's clock stands before the journal's last entry. */
HwRoom     *hw_command_append_all    (const HwRoom *room, const GPtrArray *entries, GError **error);
HwRoom     *hw_command_append        (const HwRoom *room, const HwJournalEntry *entry, GError **error);    /* one */
GPtrArray  *hw_command_room_projects (const HwRoom *room);      /* (element-type HwProject) by file name */
char       *hw_command_now           (void);                    /* ISO 8601 UTC */
/* The date of what is written: SOURCE_DATE_EPOCH, so that two runs write the same bytes, else now. ISO 8601. */
char       *hw_command_date          (void);

G_END_DECLS
