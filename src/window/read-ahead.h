/* read-ahead.h - the room's projects, read on a thread before anybody asks for them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "window/workspace.h"

G_BEGIN_DECLS

/* A room of hundreds takes a second to read, and so does one project of thousands of steps; the sidebar, the finder and
 * the queue then have them at hand. The workspace says “projects” when they have been read. */
void hw_read_ahead (HwWorkspace *workspace);

G_END_DECLS
