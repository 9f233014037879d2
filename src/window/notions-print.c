/* notions-print.c - what to have ready, on paper: a list to tick off
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/notions-list.h"

#include <glib/gi18n.h>

#define BOX_PT 8.0               /* what is ticked */
#define INDENT_PT 16.0
#define GAP_PT 5.0
#define TEXT_PT 11

typedef struct
{
  const GPtrArray *lines;
  const char      *title;
  GArray          *pages;        /* guint: the first line of each page */
} Job;

static PangoLayout *
make_layout (GtkPrintContext     *context,
             const HwNotionsLine *line,
             double               width)
{
  PangoLayout          *layout = gtk_print_context_create_pango_layout (context);
  PangoFontDescription *font = pango_font_description_from_string ("Sans");
  g_autofree char      *text = NULL;

  pango_font_description_set_size (font, (line->kind == HW_NOTIONS_NOTE ? TEXT_PT - 2 : TEXT_PT) * PANGO_SCALE);
  if (line->kind == HW_NOTIONS_HEADING)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_width (layout, (int) ((width - INDENT_PT) * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  if (line->amount == NULL)
    text = g_strdup (line->what);
  else if (line->remark == NULL)
    text = g_strdup_printf (_("%s: %s"), line->what, line->amount);
  else
    text = g_strdup_printf (C_("what is needed and how much", "%s: %s\n%s"), line->what, line->amount, line->remark);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

static double
measure (PangoLayout         *layout,
         const HwNotionsLine *line)
{
  int height = 0;

  pango_layout_get_size (layout, NULL, &height);
  return (double) height / PANGO_SCALE + (line->kind == HW_NOTIONS_HEADING ? 3 : 1) * GAP_PT;
}

/* Draws the line with its top at @y when @cr is not NULL; returns how much it takes. */
static double
put_line (GtkPrintContext     *context,
          cairo_t             *cr,
          const HwNotionsLine *line,
          double               y)
{
  g_autoptr (PangoLayout) layout = make_layout (context, line, gtk_print_context_get_width (context));
  gboolean                ticked = line->kind != HW_NOTIONS_HEADING && line->kind != HW_NOTIONS_NOTE;

  if (cr == NULL)
    return measure (layout, line);
  if (line->kind == HW_NOTIONS_HEADING)
    y += 2 * GAP_PT;
  if (ticked)
    {
      cairo_rectangle (cr, 0.5, y + 3, BOX_PT, BOX_PT);
      cairo_set_line_width (cr, 0.7);
      cairo_stroke (cr);
    }
  cairo_move_to (cr, ticked ? INDENT_PT : 0, y);
  pango_cairo_show_layout (cr, layout);
  return measure (layout, line);
}

static HwNotionsLine
title_line (const Job *job)
{
  return (HwNotionsLine) { HW_NOTIONS_HEADING, (char *) job->title, NULL, NULL };
}

static void
begin_print_cb (GtkPrintOperation *operation,
                GtkPrintContext   *context,
                Job               *job)
{
  HwNotionsLine title = title_line (job);
  double        height = gtk_print_context_get_height (context);
  double        y = put_line (context, NULL, &title, 0);
  guint         first = 0;

  g_array_append_val (job->pages, first);
  for (guint i = 0; i < job->lines->len; i++)
    {
      double tall = put_line (context, NULL, g_ptr_array_index (job->lines, i), 0);

      if (y + tall > height && y > 0)
        {
          g_array_append_val (job->pages, i);
          y = 0;
        }
      y += tall;
    }
  gtk_print_operation_set_n_pages (operation, (int) job->pages->len);
}

static void
draw_page_cb (GtkPrintOperation *operation,
              GtkPrintContext   *context,
              int                page,
              Job               *job)
{
  cairo_t      *cr = gtk_print_context_get_cairo_context (context);
  guint         first = g_array_index (job->pages, guint, page);
  guint         end = (guint) page + 1 < job->pages->len ? g_array_index (job->pages, guint, page + 1)
                                                         : job->lines->len;
  HwNotionsLine title = title_line (job);
  double        y = 0;

  cairo_set_source_rgb (cr, 0, 0, 0);
  if (page == 0)
    y += put_line (context, cr, &title, y);
  for (guint i = first; i < end; i++)
    y += put_line (context, cr, g_ptr_array_index (job->lines, i), y);
}

gboolean
hw_notions_print (GtkWindow        *parent,
                  const GPtrArray  *lines,
                  const char       *title,
                  const char       *export_path,
                  GError          **error)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr (GArray) pages = g_array_new (FALSE, FALSE, sizeof (guint));
  Job job = { lines, title, pages };
  GtkPrintOperationAction action = GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG;

  g_return_val_if_fail (lines != NULL && title != NULL, FALSE);

  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_print_cb), &job);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page_cb), &job);
  if (export_path != NULL)
    {
      gtk_print_operation_set_export_filename (operation, export_path);
      action = GTK_PRINT_OPERATION_ACTION_EXPORT;
    }
  return gtk_print_operation_run (operation, action, parent, error) != GTK_PRINT_OPERATION_RESULT_ERROR;
}
