/* table.c - one table, three ways of writing it: for people, as CSV, as XML
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/table.h"

#include <math.h>
#include <string.h>

#include "files/xml.h"

#define OUTPUT_NS "urn:handwheel:output:1"

typedef struct
{
  const char *id;
  char       *heading;
  gboolean    align_right;
} Column;

typedef struct
{
  char *shown;
  char *plain;           /* what programs read; NULL: the same */
} Cell;

struct _HwTable
{
  const char *root;
  const char *row;
  GArray     *columns;
  GArray     *cells;
  GPtrArray  *facts;     /* id, value, id, value, … */
};

static void
clear_column (gpointer data)
{
  g_free (((Column *) data)->heading);
}

static void
clear_cell (gpointer data)
{
  Cell *cell = data;

  g_free (cell->shown);
  g_free (cell->plain);
}

HwTable *
hw_table_new (const char *root,
              const char *row)
{
  HwTable *self = g_new0 (HwTable, 1);

  self->root = root;
  self->row = row;
  self->columns = g_array_new (FALSE, TRUE, sizeof (Column));
  g_array_set_clear_func (self->columns, clear_column);
  self->cells = g_array_new (FALSE, TRUE, sizeof (Cell));
  g_array_set_clear_func (self->cells, clear_cell);
  self->facts = g_ptr_array_new_with_free_func (g_free);
  return self;
}

void
hw_table_free (HwTable *self)
{
  if (self == NULL)
    return;

  g_array_unref (self->columns);
  g_array_unref (self->cells);
  g_ptr_array_unref (self->facts);
  g_free (self);
}

void
hw_table_add_column (HwTable    *self,
                     const char *id,
                     const char *heading,
                     gboolean    align_right)
{
  Column column = { id, g_strdup (heading), align_right };

  g_return_if_fail (self->cells->len == 0);

  g_array_append_val (self->columns, column);
}

static void
append_cell (HwTable *self,
             char    *shown,
             char    *plain)
{
  Cell cell = { shown, plain };

  g_array_append_val (self->cells, cell);
}

void
hw_table_text (HwTable    *self,
               const char *text)
{
  append_cell (self, g_strdup (text != NULL ? text : ""), NULL);
}

void
hw_table_take (HwTable *self,
               char    *text)
{
  append_cell (self, text != NULL ? text : g_strdup (""), NULL);
}

void
hw_table_number (HwTable *self,
                 double   value,
                 char    *shown)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE] = "";

  if (isfinite (value))
    g_ascii_formatd (buffer, sizeof buffer, "%.10g", value);
  append_cell (self, shown, g_strdup (buffer));
}

void
hw_table_fact (HwTable    *self,
               const char *id,
               const char *value)
{
  g_ptr_array_add (self->facts, g_strdup (id));
  g_ptr_array_add (self->facts, g_strdup (value));
}

static const Cell *
get_cell (const HwTable *self,
          gsize          row,
          gsize          column)
{
  return &g_array_index (self->cells, Cell, row * self->columns->len + column);
}

static gsize
count_rows (const HwTable *self)
{
  return self->columns->len > 0 ? self->cells->len / self->columns->len : 0;
}

/* Columns on a terminal; combining marks take none, wide characters two. */
static gsize
measure_text (const char *text)
{
  gsize width = 0;

  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (!g_unichar_iszerowidth (c))
        width += g_unichar_iswide (c) ? 2 : 1;
    }
  return width;
}

static void
append_padded (GString    *out,
               const char *text,
               gsize       width,
               gboolean    align_right,
               gboolean    last)
{
  gsize used = measure_text (text);
  int   fill = used < width ? (int) (width - used) : 0;

  if (align_right)
    g_string_append_printf (out, "%*s", fill, "");
  g_string_append (out, text);
  if (!align_right && !last)
    g_string_append_printf (out, "%*s", fill, "");
}

static void
append_line (GString       *out,
             const HwTable *self,
             const gsize   *widths,
             gssize         row)         /* -1: the headings */
{
  gsize n = self->columns->len;

  for (gsize i = 0; i < n; i++)
    {
      const Column *column = &g_array_index (self->columns, Column, i);
      const char   *text = row < 0 ? column->heading : get_cell (self, (gsize) row, i)->shown;

      if (i > 0)
        g_string_append (out, "  ");
      append_padded (out, text, widths[i], column->align_right, i + 1 == n);
    }
  while (out->len > 0 && out->str[out->len - 1] == ' ')
    g_string_truncate (out, out->len - 1);
  g_string_append_c (out, '\n');
}

static char *
format_people (const HwTable *self)
{
  GString          *out = g_string_new (NULL);
  g_autofree gsize *widths = g_new0 (gsize, self->columns->len + 1);
  gsize             n_rows = count_rows (self);

  for (gsize i = 0; i < self->columns->len; i++)
    {
      widths[i] = measure_text (g_array_index (self->columns, Column, i).heading);
      for (gsize row = 0; row < n_rows; row++)
        widths[i] = MAX (widths[i], measure_text (get_cell (self, row, i)->shown));
    }

  append_line (out, self, widths, -1);
  for (gsize row = 0; row < n_rows; row++)
    append_line (out, self, widths, (gssize) row);
  return g_string_free (out, FALSE);
}

static const char *
get_plain (const Cell *cell)
{
  return cell->plain != NULL ? cell->plain : cell->shown;
}

static void
append_csv (GString  *out,
            const char *text,
            gboolean  is_number)
{
  gboolean formula = !is_number && text[0] != '\0' && strchr ("=+-@\t\r", text[0]) != NULL;

  if (!formula && strpbrk (text, ",\"\r\n") == NULL)
    {
      g_string_append (out, text);
      return;
    }

  g_string_append (out, formula ? "\"'" : "\"");
  for (const char *p = text; *p != '\0'; p++)
    {
      if (*p == '"')
        g_string_append_c (out, '"');
      g_string_append_c (out, *p);
    }
  g_string_append_c (out, '"');
}

static char *
format_csv (const HwTable *self)
{
  GString *out = g_string_new (NULL);
  gsize    n = self->columns->len;

  for (gsize i = 0; i < n; i++)
    {
      g_string_append (out, i > 0 ? "," : "");
      append_csv (out, g_array_index (self->columns, Column, i).id, FALSE);
    }
  g_string_append (out, "\r\n");

  for (gsize row = 0; row < count_rows (self); row++)
    {
      for (gsize i = 0; i < n; i++)
        {
          const Cell *cell = get_cell (self, row, i);

          g_string_append (out, i > 0 ? "," : "");
          append_csv (out, get_plain (cell), cell->plain != NULL);
        }
      g_string_append (out, "\r\n");
    }
  return g_string_free (out, FALSE);
}

static char *
format_xml (const HwTable *self)
{
  HwXmlWriter *writer = hw_xml_writer_new (self->root, OUTPUT_NS);

  for (gsize i = 0; i + 1 < self->facts->len; i += 2)
    hw_xml_writer_attr (writer, g_ptr_array_index (self->facts, i), g_ptr_array_index (self->facts, i + 1));

  for (gsize row = 0; row < count_rows (self); row++)
    {
      hw_xml_writer_open (writer, self->row);
      for (gsize i = 0; i < self->columns->len; i++)
        {
          const char *value = get_plain (get_cell (self, row, i));

          if (value[0] != '\0')
            hw_xml_writer_attr (writer, g_array_index (self->columns, Column, i).id, value);
        }
      hw_xml_writer_close (writer);
    }
  return hw_xml_writer_finish (writer, NULL);
}

char *
hw_table_format (const HwTable *self,
                 HwFormat       format)
{
  switch (format)
    {
    case HW_FORMAT_CSV:
      return format_csv (self);
    case HW_FORMAT_XML:
      return format_xml (self);
    case HW_FORMAT_PEOPLE:
    default:
      return format_people (self);
    }
}
