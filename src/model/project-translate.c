/* project-translate.c - a project whose words are put into another language
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/project-translate.h"

#include "model/project-private.h"

#define CONTEXT "demo"

static void
put (char       **text,
     const char  *context,
     HwTranslate  translate)
{
  char *found;

  if (*text == NULL)
    return;
  found = g_strdup (translate (context, *text));
  g_free (*text);
  *text = found;
}

HwProject *
hw_project_translate (const HwProject *self,
                      HwTranslate      translate)
{
  HwProject *next;

  g_return_val_if_fail (self != NULL && translate != NULL, NULL);

  next = hw_project_thaw (self);
  put (&next->title, CONTEXT, translate);
  put (&next->note, NULL, translate);
  for (guint i = 0; i < next->fabrics->len; i++)
    {
      HwProjectFabric *fabric = hw_project_fabric_copy (self->fabrics->pdata[i]);

      put (&fabric->name, CONTEXT, translate);
      put (&fabric->colour, CONTEXT, translate);
      hw_project_fabric_unref (next->fabrics->pdata[i]);
      next->fabrics->pdata[i] = fabric;
    }
  for (guint i = 0; i < next->threads->len; i++)
    {
      HwProjectThread *thread = hw_project_thread_copy (self->threads->pdata[i]);

      put (&thread->colour, CONTEXT, translate);
      hw_project_thread_unref (next->threads->pdata[i]);
      next->threads->pdata[i] = thread;
    }
  for (guint i = 0; i < next->steps->len; i++)
    {
      HwStep *step = hw_step_copy (self->steps->pdata[i]);

      put (&step->name, CONTEXT, translate);
      put (&step->note, NULL, translate);
      hw_step_unref (next->steps->pdata[i]);
      next->steps->pdata[i] = step;
    }
  return next;
}
