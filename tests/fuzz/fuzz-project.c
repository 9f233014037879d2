/* fuzz-project.c - any bytes through the reader of projects
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/xml.h"
#include "model/project.h"
#include "target.h"

#include <string.h>

/* What was read can be written, and reading that gives the same project and the same bytes. */
static void
check_round_trip (const HwProject *project)
{
  g_autoptr (GError) error = NULL;
  gsize size = 0;
  g_autofree char *bytes = hw_project_to_xml (project, &size);
  g_autoptr (HwProject) again = hw_project_parse ("again", bytes, size, &error);
  g_autofree char *second = again != NULL ? hw_project_to_xml (again, NULL) : NULL;

  if (again == NULL)
    g_error ("%s in: %s", error->message, bytes);
  g_assert (hw_project_is_equal (project, again));
  g_assert_cmpstr (bytes, ==, second);
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = hw_project_parse ("input.handwheel", (const char *) data, size, &error);

  g_assert ((project == NULL) == (error != NULL));
  if (project != NULL)
    check_round_trip (project);
  else
    {
      g_assert (error->domain == HW_XML_ERROR || error->domain == HW_MODEL_ERROR);
      g_assert (g_utf8_validate (error->message, -1, NULL));
      g_assert (strchr (error->message, '\n') == NULL);
      g_assert (g_str_has_prefix (error->message, "input.handwheel:"));
    }
  return 0;
}
