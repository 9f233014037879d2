/* test-queue-wishes.c - a project's wishes hold when its steps are mixed with another's
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/queue.h"
#include "workroom.h"

#include <string.h>

#define STEP(number, thread) \
  "<operation number='" number "' name='Seam' purpose='seam' length-cm='900' needle-thread='" thread "'>" \
  "<ply fabric='cloth' count='2'/></operation>"

/* Red, black, red, black: mixed and sewn as it is cheapest, one colour comes wholly before the other. */
static HwProject *
make_project (const char *id,
              const char *wishes)
{
  g_autofree char *xml = g_strdup_printf (
    "<project xmlns='urn:handwheel:project:1' id='%s' title='The %s'>"
    "<fabrics><fabric id='cloth' name='Cloth' handbook='cotton-twill'/></fabrics>"
    "<threads><thread id='red' handbook='polyester-30' colour='red'/>"
    "<thread id='black' handbook='polyester-30' colour='black'/></threads>"
    "<steps>" STEP ("1", "red") STEP ("2", "black") STEP ("3", "red") STEP ("4", "black") "</steps>"
    "%s</project>", id, id, wishes);
  g_autoptr (GError) error = NULL;
  HwProject *project = hw_project_parse (id, xml, strlen (xml), &error);

  g_assert_no_error (error);
  return project;
}

/* Where step @number of @project stands among all. */
static int
find_place (const HwQueue *queue,
            const char    *project,
            const char    *number)
{
  for (guint i = 0; i < queue->steps->len; i++)
    {
      const HwQueueStep *step = &g_array_index (queue->steps, HwQueueStep, i);
      const HwProject *of = g_ptr_array_index (queue->projects, (guint) step->project);

      if (g_str_equal (of->id, project) && g_str_equal (step->step, number))
        return (int) i;
    }
  g_assert_not_reached ();
}

static HwQueue *
mix (const char *wishes)
{
  g_autoptr (HwHandbook) handbook = workroom_handbook ();
  g_autoptr (HwRoom) room = workroom_new (&workroom_usual, NULL, 3);
  g_autoptr (GPtrArray) projects = g_ptr_array_new_with_free_func ((GDestroyNotify) hw_project_unref);
  HwQueue *queue;

  g_ptr_array_add (projects, make_project ("apron", wishes));
  g_ptr_array_add (projects, make_project ("bag", ""));
  queue = hw_queue_new (handbook, projects, room, "2031-05-09T10:00:00Z", HW_QUEUE_MIXED);
  g_assert_true (queue->mixed);
  g_assert_cmpuint (queue->steps->len, ==, 8);
  return queue;
}

static void
test_last (void)
{
  g_autoptr (HwQueue) queue = mix ("<wishes><wish kind='last' steps='1'/></wishes>");

  for (int other = 2; other <= 4; other++)
    {
      g_autofree char *number = g_strdup_printf ("%d", other);
      g_assert_cmpint (find_place (queue, "apron", number), <, find_place (queue, "apron", "1"));
    }
}

static void
test_first (void)
{
  g_autoptr (HwQueue) queue = mix ("<wishes><wish kind='first' steps='4'/></wishes>");

  for (int other = 1; other <= 3; other++)
    {
      g_autofree char *number = g_strdup_printf ("%d", other);
      g_assert_cmpint (find_place (queue, "apron", number), >, find_place (queue, "apron", "4"));
    }
}

/* Both ends wished for, and an arrow between two in the middle: none is lost. */
static void
test_several (void)
{
  g_autoptr (HwQueue) queue = mix ("<wishes><wish kind='first' steps='2'/><wish kind='last' steps='4'/>"
                                   "<wish kind='before' steps='3 1'/></wishes>");
  int places[5];

  for (int step = 1; step <= 4; step++)
    {
      g_autofree char *number = g_strdup_printf ("%d", step);
      places[step] = find_place (queue, "apron", number);
    }
  g_assert_cmpint (places[2], <, places[3]);
  g_assert_cmpint (places[3], <, places[1]);
  g_assert_cmpint (places[1], <, places[4]);
}

/* Steps kept together stay so: of the project's own, none comes between them. */
static void
test_together (void)
{
  g_autoptr (HwQueue) queue = mix ("<wishes><wish kind='together' steps='1 2'/></wishes>");
  int one = find_place (queue, "apron", "1");
  int two = find_place (queue, "apron", "2");

  g_assert_cmpint (ABS (one - two), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/queue-wishes/last", test_last);
  g_test_add_func ("/queue-wishes/first", test_first);
  g_test_add_func ("/queue-wishes/several", test_several);
  g_test_add_func ("/queue-wishes/together", test_together);
  return g_test_run ();
}
