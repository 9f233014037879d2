/* fuzz-clipboard.c - any bytes as steps on the clipboard, pasted into a project
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "files/xml.h"
#include "model/clip.h"
#include "target.h"

#include <string.h>

static const char target[] =
  "<project xmlns=\"urn:handwheel:project:1\" id=\"skirt\" title=\"Skirt\">"
  "<fabrics><fabric id=\"shell\" handbook=\"denim\"/></fabrics>"
  "<threads><thread id=\"main\" handbook=\"polyester-100\" colour=\"navy\"/></threads><steps>"
  "<operation number=\"1\" name=\"Darts\" purpose=\"seam\" length-cm=\"40\">"
  "<ply fabric=\"shell\" count=\"2\"/></operation>"
  "<hand number=\"2\" name=\"Press\" after=\"1\" kind=\"press\" minutes=\"4\"/></steps></project>";

static void
check_error (const GError *error)
{
  g_assert (error->domain == HW_XML_ERROR || error->domain == HW_MODEL_ERROR);
  g_assert (g_utf8_validate (error->message, -1, NULL));
  g_assert (strchr (error->message, '\n') == NULL);
}

/* Reading what is written gives the same bytes. */
static void
check_round_trip (const HwClip *clip)
{
  g_autoptr (GError) error = NULL;
  gsize size = 0;
  g_autofree char *bytes = hw_clip_to_xml (clip, &size);
  g_autoptr (HwClip) again = hw_clip_parse (bytes, size, &error);
  g_autofree char *second = again != NULL ? hw_clip_to_xml (again, NULL) : NULL;

  if (again == NULL)
    g_error ("%s in: %s", error->message, bytes);
  g_assert_cmpstr (bytes, ==, second);
}

/* A project with the steps in it is one that can be saved and opened. */
static void
check_paste (const HwClip *clip)
{
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) numbers = NULL;
  g_autoptr (HwProject) project = hw_project_parse ("target", target, strlen (target), NULL);
  g_autoptr (HwProject) pasted = NULL;
  g_autoptr (HwProject) again = NULL;
  g_autofree char *bytes = NULL;
  gsize size = 0;

  g_assert (project != NULL);
  pasted = hw_edit_paste (project, 1, clip, &numbers, &error);
  g_assert ((pasted == NULL) == (error != NULL));
  if (pasted == NULL)
    {
      check_error (error);
      return;
    }
  g_assert_cmpuint (pasted->steps->len, ==, project->steps->len + hw_clip_n_steps (clip));
  g_assert_cmpuint (g_strv_length (numbers), ==, hw_clip_n_steps (clip));
  bytes = hw_project_to_xml (pasted, &size);
  again = hw_project_parse ("pasted", bytes, size, &error);
  if (again == NULL)
    g_error ("%s in: %s", error->message, bytes);
  g_assert (hw_project_is_equal (pasted, again));
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwClip) clip = hw_clip_parse ((const char *) data, size, &error);

  g_assert ((clip == NULL) == (error != NULL));
  if (clip == NULL)
    {
      check_error (error);
      return 0;
    }
  check_round_trip (clip);
  check_paste (clip);
  return 0;
}
