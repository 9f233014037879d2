/* room-fixture.h - a sewing room with the one machine "m", for one test
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "model/room.h"

G_BEGIN_DECLS

#define NS "xmlns=\"urn:handwheel:room:1\""
#define MEASURES "dial-low=\"0\" dial-high=\"9\" dial-neutral=\"4\" length-max=\"5\" width-max=\"7\" " \
                 "plate-opening=\"9\" foot-lift=\"6\" speed=\"800\""
#define MACHINE "<machine " NS " id=\"m\" name=\"M\" kind=\"lockstitch\" system=\"household\" dial=\"knob\" " MEASURES \
                " start-hours=\"10\" start-running=\"3\">\n"
#define JOURNAL "<journal " NS " machine=\"m\" year=\"2031\">\n"

typedef struct
{
  char *folder;
} RoomFixture;

void    room_fixture_set_up         (RoomFixture *fixture, gconstpointer data);
void    room_fixture_tear_down      (RoomFixture *fixture, gconstpointer data);
void    room_fixture_make_folder    (const char *folder, const char *name);
HwRoom *room_fixture_open           (const char *folder);                    /* (transfer full) */
void    room_fixture_follows_schema (const char *folder, const char *name, const char *root);

#define ADD(path, function) \
  g_test_add (path, RoomFixture, NULL, room_fixture_set_up, function, room_fixture_tear_down)

G_END_DECLS
