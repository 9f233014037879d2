/* room-default.c - a first sewing room
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An ordinary household lockstitch machine, an ordinary overlocker and the needles that most cloth asks for: common
 * practice, to be replaced by what the person's own machines' manuals say.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/room.h"
#include "model/room-private.h"

#include "files/save.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

typedef struct
{
  const char *point;
  double      twin_mm;
  int         nm;
  int         count;
} Stock;

static const Stock stock[] = {
  { "universal", 0, 80, 5 },
  { "round", 0, 70, 5 },
  { "round", 0, 80, 5 },
  { "round", 0, 90, 5 },
  { "sharp", 0, 65, 5 },
  { "sharp", 0, 70, 5 },
  { "light-ball", 0, 75, 5 },
  { "light-ball", 0, 80, 5 },
  { "medium-ball", 0, 75, 5 },
  { "medium-ball", 0, 80, 5 },
  { "medium-ball", 0, 90, 5 },
  { "stretch", 0, 75, 5 },
  { "jeans", 0, 90, 5 },
  { "jeans", 0, 100, 5 },
  { "topstitch", 0, 90, 5 },
  { "topstitch", 0, 100, 5 },
  { "stretch", 2.5, 75, 1 },
  { "stretch", 4, 75, 1 },
};

static const char * const lockstitch_stitches[][2] = {
  { "301", "1" },
  { "301-stretch", "2" },
  { "304", "3" },
  { "308", "4" },
  { "313", "5" },
  { "304-buttonhole", "6" },
  { "304-bar-tack", "7" },
  { "304-satin", "8" },
};

static const char * const overlock_stitches[][2] = { { "504", "1" }, { "514", "2" } };

static const char * const lockstitch_feet[] = { "all-purpose", "edge", "zip", "blind-hem", "buttonhole", "walking",
                                                "overcast", "satin", "straight", NULL };
static const char * const lockstitch_plates[] = { "zigzag", "single-hole", NULL };
static const char * const overlock_feet[] = { "overlock", NULL };
static const char * const nothing[] = { NULL };

static void
add_stitches (HwMachine           *self,
              const char * const (*stitches)[2],
              gsize                n_stitches)
{
  self->n_stitches = n_stitches;
  self->stitches = g_new (HwOwnStitch, n_stitches);
  for (gsize i = 0; i < n_stitches; i++)
    self->stitches[i] = (HwOwnStitch) { g_strdup (stitches[i][0]), g_strdup (stitches[i][1]) };
}

static void
add_feet (HwMachine          *self,
          const char * const *feet,
          const char * const *plates)
{
  self->feet = g_strdupv ((char **) feet);
  self->plates = g_strdupv ((char **) plates);
}

static HwMachine *
make_lockstitch (void)
{
  HwMachine *self = hw_machine_new ("lockstitch", _("Lockstitch machine"), HW_MACHINE_LOCKSTITCH);

  self->system = g_strdup ("household");
  self->dial_form = HW_DIAL_EDGE_WHEEL;
  self->dial = (HwDialScale) { 0, 9, 4 };
  self->length_max_mm = 5;
  self->width_max_mm = 7;
  self->plate_opening_mm = 9;
  self->foot_lift_mm = 6;
  self->speed_spm = 800;
  self->bobbin_cm3 = 2.2;
  self->needle_flat = g_strdup ("back");
  add_stitches (self, lockstitch_stitches, G_N_ELEMENTS (lockstitch_stitches));
  add_feet (self, lockstitch_feet, lockstitch_plates);
  return self;
}

static HwMachine *
make_overlocker (void)
{
  HwMachine *self = hw_machine_new ("overlocker", _("Overlocker"), HW_MACHINE_OVERLOCK);

  self->system = g_strdup ("household");
  self->dial_form = HW_DIAL_KNOB;
  self->dial = (HwDialScale) { 0, 9, 3 };
  self->length_max_mm = 4;
  self->width_max_mm = 7;
  self->plate_opening_mm = 7;
  self->foot_lift_mm = 5;
  self->speed_spm = 1300;
  self->needle_flat = g_strdup ("back");
  add_stitches (self, overlock_stitches, G_N_ELEMENTS (overlock_stitches));
  add_feet (self, overlock_feet, nothing);
  return self;
}

static HwPacket *
make_packet (const Stock *from)
{
  HwPacket *packet = hw_packet_new (NULL, "household", from->point, from->nm);
  char twin[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (twin, sizeof twin, "%g", from->twin_mm);
  packet->id = from->twin_mm > 0 ? g_strdup_printf ("%s-twin-%s-%d", from->point, twin, from->nm)
                                 : g_strdup_printf ("%s-%d", from->point, from->nm);
  packet->twin_mm = from->twin_mm;
  packet->count = from->count;
  return packet;
}

HwRoom *
hw_room_new_default (const char *folder)
{
  HwRoom *self;

  g_return_val_if_fail (folder != NULL, NULL);

  self = hw_room_alloc (folder);
  g_ptr_array_add (self->machines, make_lockstitch ());
  g_ptr_array_add (self->machines, make_overlocker ());
  for (gsize i = 0; i < G_N_ELEMENTS (stock); i++)
    g_ptr_array_add (self->packets, make_packet (&stock[i]));
  hw_room_derive (self);
  return self;
}

static gboolean
make_folder (const char *folder,
             const char *name,
             GError    **error)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *shown = hw_show_path (path);
  int number;

  if (g_mkdir_with_parents (path, 0777) == 0)
    return TRUE;
  number = errno;
  g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (number), _("Could not make the folder “%s”: %s"),
               shown, g_strerror (number));
  return FALSE;
}

gboolean
hw_room_create (const char *folder,
                GError    **error)
{
  g_autoptr (HwRoom) room = NULL;
  g_autoptr (HwLock) lock = NULL;
  g_autofree char *shown = NULL;
  gboolean furnished = FALSE;

  g_return_val_if_fail (folder != NULL, FALSE);

  lock = hw_room_lock (folder, error);
  if (lock == NULL || !hw_room_has_machines (folder, &furnished, error))
    return FALSE;
  if (furnished)
    {
      shown = hw_show_path (folder);
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                   _("There is a sewing room in “%s” already; choose an empty folder"), shown);
      return FALSE;
    }
  room = hw_room_new_default (folder);
  return hw_room_furnish (room, error) && make_folder (folder, "journal", error)
         && make_folder (folder, "projects", error);
}
