/* sop.c - published instances of the sequential ordering problem, read and checked
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two forms: TSPLIB (header lines up to EDGE_WEIGHT_SECTION, the dimension once more, the entries, EOF; G. Reinelt,
 * ORSA Journal on Computing 3, 1991) and SOPLIB2006 (the entries alone; Montemanni, Smith, Gambardella, Computers &
 * Operations Research 35, 2008). Line ends mean nothing in either.
 */

#include "config.h"

#include "sop.h"

#include <stdlib.h>
#include <string.h>

#define SECTION "EDGE_WEIGHT_SECTION"
#define MAX_NODES 5000

/* Whole numbers until the text or the table ends; what is neither is refused. */
static GArray *
read_numbers (const char *text, const char *path, GError **error)
{
  g_autoptr (GArray) numbers = g_array_new (FALSE, FALSE, sizeof (int));

  for (;;)
    {
      char *end;
      gint64 number = g_ascii_strtoll (text, &end, 10);
      int value = (int) number;

      if (end == text)
        break;
      if (number < -1 || number > G_MAXINT32)
        {
          g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, "%s: %" G_GINT64_FORMAT " is neither -1 nor a cost"
                       " from 0 to %d", path, number, G_MAXINT32);
          return NULL;
        }
      g_array_append_val (numbers, value);
      text = end;
    }
  text += strspn (text, " \t\r\n");
  if (*text != '\0' && !g_str_has_prefix (text, "EOF"))
    {
      g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, "%s: number %u of its table is none", path,
                   numbers->len + 1);
      return NULL;
    }
  return g_steal_pointer (&numbers);
}

static gsize
whole_root (gsize square)
{
  gsize root = 0;

  while ((root + 1) * (root + 1) <= square)
    root++;
  return root * root == square ? root : 0;
}

/* Whether even the dearest order sums to an int, as the solver asks for. */
static gboolean
has_sums (const Sop *self)
{
  gint64 sum = 1;

  for (gsize row = 0; row < self->n; row++)
    {
      int dearest = 0;

      for (gsize column = 0; column < self->n; column++)
        dearest = row == column ? dearest : MAX (dearest, self->table[row * self->n + column]);
      sum += dearest;
    }
  return sum < G_MAXINT;
}

static void
list_arrows (Sop *self)
{
  self->arrows = g_array_new (FALSE, FALSE, sizeof (HwOrderArrow));
  self->cost = g_memdup2 (self->table, self->n * self->n * sizeof (int));
  for (gsize row = 0; row < self->n; row++)
    for (gsize column = 0; column < self->n; column++)
      if (row != column && self->table[row * self->n + column] == -1)
        {
          HwOrderArrow arrow = { (int) column, (int) row };

          g_array_append_val (self->arrows, arrow);
          self->cost[row * self->n + column] = HW_PATH_NEVER;
        }
}

Sop *
sop_read (const char *path, GError **error)
{
  g_autoptr (Sop) self = g_new0 (Sop, 1);
  g_autofree char *text = NULL;
  g_autoptr (GArray) numbers = NULL;
  const char *entries;
  gsize skipped = 0;

  if (!g_file_get_contents (path, &text, NULL, error))
    return NULL;
  entries = strstr (text, SECTION);
  numbers = read_numbers (entries != NULL ? entries + strlen (SECTION) : text, path, error);
  if (numbers == NULL)
    return NULL;
  if (entries != NULL && numbers->len > 0)
    {
      self->n = (gsize) g_array_index (numbers, int, 0);
      skipped = 1;
    }
  else
    self->n = whole_root (numbers->len);
  if (self->n == 0 || self->n > MAX_NODES || numbers->len != self->n * self->n + skipped)
    {
      g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, "%s: %u numbers are no square table of 1 to %d nodes", path,
                   numbers->len - (guint) skipped, MAX_NODES);
      return NULL;
    }
  self->table = g_memdup2 (&g_array_index (numbers, int, skipped), self->n * self->n * sizeof (int));
  if (!has_sums (self))
    {
      g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, "%s: the dearest entries of its rows sum to more than %d",
                   path, G_MAXINT - 1);
      return NULL;
    }
  list_arrows (self);
  return g_steal_pointer (&self);
}

void
sop_free (Sop *self)
{
  if (self == NULL)
    return;
  g_free (self->table);
  g_free (self->cost);
  if (self->arrows != NULL)
    g_array_unref (self->arrows);
  g_free (self);
}

HwPathProblem
sop_problem (const Sop *self)
{
  return (HwPathProblem) { self->n, self->cost, NULL, self->arrows->len,
                           (const HwOrderArrow *) (const void *) self->arrows->data };
}

gint64
sop_check (const Sop *self, const int *order)
{
  g_autofree gsize *place = g_new0 (gsize, self->n);
  gint64 cost = 0;

  for (gsize p = 0; p < self->n; p++)
    {
      if (order[p] < 0 || (gsize) order[p] >= self->n || place[order[p]] != 0)
        return -1;
      place[order[p]] = p + 1;
    }
  for (gsize row = 0; row < self->n; row++)
    for (gsize column = 0; column < self->n; column++)
      if (row != column && self->table[row * self->n + column] < 0 && place[column] > place[row])
        return -1;
  for (gsize p = 0; p + 1 < self->n; p++)
    {
      int entry = self->table[(gsize) order[p] * self->n + (gsize) order[p + 1]];

      if (entry < 0)
        return -1;
      cost += entry;
    }
  return cost;
}
