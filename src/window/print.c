/* print.c - setup cards through the desktop's printing
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/print.h"

static void
begin_print_cb (GtkPrintOperation *operation,
                GtkPrintContext   *context,
                HwSheets          *sheets)
{
  gtk_print_operation_set_n_pages (operation, hw_sheets_get_n_pages (sheets));
}

static void
draw_page_cb (GtkPrintOperation *operation,
              GtkPrintContext   *context,
              int                page,
              HwSheets          *sheets)
{
  hw_sheets_draw (sheets, page, gtk_print_context_get_cairo_context (context));
}

/* The page is the card's own: no margins that would move the gauge or shrink it. */
static GtkPageSetup *
build_page_setup (HwSheets *sheets)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  GtkPaperSize *paper;
  double        width;
  double        height;

  hw_sheets_get_size (sheets, &width, &height);
  paper = gtk_paper_size_new_custom ("handwheel-card", "Handwheel", MIN (width, height), MAX (width, height),
                                     GTK_UNIT_POINTS);
  gtk_page_setup_set_paper_size (setup, paper);
  gtk_page_setup_set_orientation (setup, width > height ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                        : GTK_PAGE_ORIENTATION_PORTRAIT);
  gtk_page_setup_set_top_margin (setup, 0, GTK_UNIT_POINTS);
  gtk_page_setup_set_bottom_margin (setup, 0, GTK_UNIT_POINTS);
  gtk_page_setup_set_left_margin (setup, 0, GTK_UNIT_POINTS);
  gtk_page_setup_set_right_margin (setup, 0, GTK_UNIT_POINTS);
  gtk_paper_size_free (paper);
  return setup;
}

gboolean
hw_print_sheets (GtkWindow  *parent,
                 HwSheets   *sheets,
                 const char *title,
                 const char *export_path,
                 GError    **error)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = build_page_setup (sheets);
  GtkPrintOperationAction action = GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG;

  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_show_progress (operation, TRUE);        /* with a button to cancel, when it takes long */
  gtk_print_operation_set_default_page_setup (operation, setup);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_print_cb), sheets);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page_cb), sheets);

  if (export_path != NULL)
    {
      gtk_print_operation_set_export_filename (operation, export_path);
      action = GTK_PRINT_OPERATION_ACTION_EXPORT;
    }
  return gtk_print_operation_run (operation, action, parent, error) != GTK_PRINT_OPERATION_RESULT_ERROR;
}
