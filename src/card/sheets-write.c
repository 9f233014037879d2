/* sheets-write.c - sheets as PDF, PNG and SVG files
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing-file.h"
#include "card/sheets-private.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

/* One entry a card, that opens at the card itself. */
static void
add_outline (const HwSheets  *self,
             cairo_surface_t *surface,
             int              page)
{
  for (int cell = 0; cell < self->per_sheet; cell++)
    {
      guint index = (guint) (page * self->per_sheet + cell);
      double x = self->is_turned ? (cell % 2) * self->card_height : 0;
      double y = self->is_turned ? (cell / 2) * self->card_width : cell * self->card_height;
      g_autofree char *link = NULL;

      if (hw_sheets_get_card (self, index) == NULL)
        return;
      /* Whole points: cairo reads fractions with the decimal mark of the locale, and refuses the others. */
      link = g_strdup_printf ("page=%d pos=[%d %d]", page + 1, (int) x, (int) y);
      cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT, ((HwCard *) self->cards->pdata[index])->heading,
                                     link, CAIRO_PDF_OUTLINE_FLAG_OPEN);
    }
}

static gboolean
write_pdf (const HwSheets  *self,
           const char      *path,
           const char      *date_iso,
           GError         **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface = hw_drawing_new_pdf (bytes, self->width, self->height, self->title, date_iso);
  cairo_t *cr = cairo_create (surface);

  for (int page = 0; page < hw_sheets_get_n_pages (self); page++)
    {
      hw_sheets_draw (self, page, cr);
      add_outline (self, surface, page);
      cairo_show_page (cr);
    }
  return hw_drawing_finish (cr, surface, path, error) && hw_drawing_save (path, bytes, error);
}

static gboolean
write_png_page (const HwSheets  *self,
                int              page,
                const char      *path,
                double           dpi,
                GError         **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  double scale = dpi / 72;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) lround (self->width * scale),
                                                         (int) lround (self->height * scale));
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  hw_sheets_draw (self, page, cr);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, hw_drawing_append, bytes);
  cairo_surface_destroy (surface);
  return hw_drawing_is_good (status, path, error) && hw_drawing_save (path, bytes, error);
}

static gboolean
write_svg_page (const HwSheets  *self,
                int              page,
                const char      *path,
                GError         **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (hw_drawing_append, bytes, self->width, self->height);
  cairo_t *cr = cairo_create (surface);

  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_PT);
  hw_sheets_draw (self, page, cr);
  return hw_drawing_finish (cr, surface, path, error) && hw_drawing_save (path, bytes, error);
}

/* "cards.png" for page 1 of several is "cards-1.png". */
static char *
number_path (const HwSheets *self,
             const char     *path,
             int             page)
{
  const char *ending = strrchr (path, '.');

  if (hw_sheets_get_n_pages (self) == 1)
    return g_strdup (path);
  return g_strdup_printf ("%.*s-%d%s", (int) (ending - path), path, page + 1, ending);
}

static gboolean
has_ending (const char *path,
            const char *ending)
{
  gsize length = strlen (path);
  gsize tail = strlen (ending);

  return length > tail && g_ascii_strcasecmp (path + length - tail, ending) == 0;
}

gboolean
hw_sheets_write (const HwSheets  *self,
                 const char      *path,
                 double           dpi,
                 const char      *date_iso,
                 GError         **error)
{
  gboolean is_png = has_ending (path, ".png");

  g_return_val_if_fail (error == NULL || *error == NULL, FALSE);

  if (self->cards->len == 0)
    {
      g_set_error_literal (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING,
                           _("There is no card to print: the project has no machine step yet"));
      return FALSE;
    }
  if (has_ending (path, ".pdf"))
    return write_pdf (self, path, date_iso, error);
  if (!is_png && !has_ending (path, ".svg"))
    {
      g_set_error (error, HW_CARD_ERROR, HW_CARD_ERROR_WRITE, _("“%s” must end in .pdf, .png or .svg"), path);
      return FALSE;
    }
  for (int page = 0; page < hw_sheets_get_n_pages (self); page++)
    {
      g_autofree char *page_path = number_path (self, path, page);

      if (is_png ? !write_png_page (self, page, page_path, dpi, error) : !write_svg_page (self, page, page_path, error))
        return FALSE;
    }
  return TRUE;
}
