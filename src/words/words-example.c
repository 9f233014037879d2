/* words-example.c - the project that comes with a first start, to look around in
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/words-example.h"

#include "words/words.h"

#define EXAMPLE "stage-cape"             /* in demo/projects of the data folder */
#define EXAMPLE_TITLE "Lined cape for the school play"

gboolean
hw_words_is_example (const HwProject *project)
{
  return g_str_equal (project->id, EXAMPLE)
         && (g_str_equal (project->title, EXAMPLE_TITLE)
             || g_str_equal (project->title, hw_words_translate ("demo", EXAMPLE_TITLE)));
}

static gboolean
is_work (const HwProject *project,
         const HwRoom    *room)
{
  return !hw_words_is_example (project) && hw_room_count_done (room, project) < project->steps->len;
}

GPtrArray *
hw_words_list_work (const GPtrArray *projects,
                    const HwRoom    *room)
{
  GPtrArray *work = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref);
  gboolean   own = FALSE;

  for (guint i = 0; i < projects->len; i++)
    own = own || is_work (g_ptr_array_index (projects, i), room);
  for (guint i = 0; i < projects->len; i++)
    {
      HwProject *project = g_ptr_array_index (projects, i);

      if (!own || !hw_words_is_example (project) || hw_room_count_done (room, project) > 0)
        g_ptr_array_add (work, hw_project_ref (project));
    }
  return work;
}
