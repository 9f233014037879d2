/* handbook-topic.h - one entry of the handbook with its figures, its source and what it leads to
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <gtk/gtk.h>
#include "words/topics.h"

G_BEGIN_DECLS

/* Its links activate "handbook.show"; with @back there is a way back, "handbook.back". */
GtkWidget *hw_handbook_topic_new (const HwHandbook *handbook, const HwTopic *topic,
                                  GHashTable *mentions, gboolean back);

G_END_DECLS
