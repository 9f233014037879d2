/* graph.c - published precedence graphs of assembly work
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "graph.h"

#include <string.h>

#define MAX_TASKS 2000

/* The next whole number in *@text, which it moves on; FALSE at the end. */
static gboolean
next_number (const char **text, gint64 *number)
{
  char *end;

  *text += strcspn (*text, "-0123456789");
  *number = g_ascii_strtoll (*text, &end, 10);
  if (end == *text)
    return FALSE;
  *text = end;
  return TRUE;
}

/* Pairs from @text on, until one that is none of two tasks. */
static void
read_pairs (Graph *self, const char *text)
{
  gint64 before, after;

  while (next_number (&text, &before) && next_number (&text, &after) && before >= 1 && after >= 1
         && before <= (gint64) self->n && after <= (gint64) self->n)
    {
      HwOrderArrow arrow = { (int) before - 1, (int) after - 1 };

      g_array_append_val (self->arrows, arrow);
    }
}

static const char *
skip_numbers (const char *text, gsize n)
{
  gint64 number;

  while (n-- > 0 && next_number (&text, &number))
    ;
  return text;
}

Graph *
graph_read (const char *path, GError **error)
{
  g_autoptr (Graph) self = g_new0 (Graph, 1);
  g_autofree char *contents = NULL;
  gboolean sections = g_str_has_suffix (path, ".alb");
  const char *text;
  gint64 n = 0;

  self->arrows = g_array_new (FALSE, FALSE, sizeof (HwOrderArrow));
  if (!g_file_get_contents (path, &contents, NULL, error))
    return NULL;
  text = contents;
  if (!next_number (&text, &n) || n < 1 || n > MAX_TASKS)
    {
      g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, "%s: no number of tasks", path);
      return NULL;
    }
  self->n = (gsize) n;
  text = sections ? strstr (text, "<precedence relations>") : skip_numbers (text, self->n);
  if (text != NULL)
    read_pairs (self, text);
  return g_steal_pointer (&self);
}

void
graph_free (Graph *self)
{
  if (self == NULL)
    return;
  if (self->arrows != NULL)
    g_array_unref (self->arrows);
  g_free (self);
}
