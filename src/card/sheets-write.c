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
add_outline (HwSheets        *self,
             cairo_surface_t *surface,
             int              page)
{
  for (int cell = 0; cell < self->per_sheet; cell++)
    {
      const HwCard *card = hw_sheets_get_card (self, (guint) (page * self->per_sheet + cell));
      double x, y;
      g_autofree char *link = NULL;

      if (card == NULL)
        return;
      hw_sheets_find_cell (self, cell, &x, &y);
      /* Whole points: cairo reads fractions with the decimal mark of the locale, and refuses the others. */
      link = g_strdup_printf ("page=%d pos=[%d %d]", page + 1, (int) x, (int) y);
      cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT, card->heading, link,
                                     CAIRO_PDF_OUTLINE_FLAG_OPEN);
    }
}

static gboolean
draw_png (HwSheets    *self,
          int          page,
          const char  *path,
          double       dpi,
          GByteArray  *bytes,
          GError     **error)
{
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
  return hw_drawing_is_good (status, path, error);
}

static gboolean
draw_svg (HwSheets    *self,
          int          page,
          const char  *path,
          GByteArray  *bytes,
          GError     **error)
{
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (hw_drawing_append, bytes, self->width, self->height);
  cairo_t *cr = cairo_create (surface);

  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_PT);
  hw_sheets_draw (self, page, cr);
  return hw_drawing_finish (cr, surface, path, error);
}

/* "cards.png" for page 1 of several is "cards-1.png". */
static char *
number_path (HwSheets   *self,
             const char *path,
             int         page)
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

/* ---- page by page ---- */

typedef enum { PDF, PNG, SVG } Kind;

struct _HwSheetsWriter
{
  HwSheets        *sheets;
  char            *path;
  double           dpi;
  Kind             kind;
  int              n_drawn;
  GPtrArray       *files;        /* (element-type GByteArray): what is to be written */
  cairo_surface_t *surface;      /* of the PDF */
  cairo_t         *cr;
};

static GByteArray *
add_file (HwSheetsWriter *self)
{
  GByteArray *bytes = g_byte_array_new ();

  g_ptr_array_add (self->files, bytes);
  return bytes;
}

static gboolean
check_path (const char  *path,
            Kind        *kind,
            GError     **error)
{
  static const char * const endings[] = { ".pdf", ".png", ".svg" };

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    if (has_ending (path, endings[i]))
      {
        *kind = (Kind) i;
        return TRUE;
      }
  g_set_error (error, HW_CARD_ERROR, HW_CARD_ERROR_WRITE, _("“%s” must end in .pdf, .png or .svg"), path);
  return FALSE;
}

HwSheetsWriter *
hw_sheets_writer_new (HwSheets    *sheets,
                      const char  *path,
                      double       dpi,
                      const char  *date_iso,
                      GError     **error)
{
  HwSheetsWriter *self;
  Kind kind = PDF;

  g_return_val_if_fail (sheets != NULL && path != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (sheets->entries->len == 0)
    {
      g_set_error_literal (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING,
                           _("There is no card to print: the project has no machine step yet"));
      return NULL;
    }
  if (!check_path (path, &kind, error))
    return NULL;
  self = g_new0 (HwSheetsWriter, 1);
  self->sheets = sheets;
  self->path = g_strdup (path);
  self->dpi = dpi;
  self->kind = kind;
  self->files = g_ptr_array_new_with_free_func ((GDestroyNotify) g_byte_array_unref);
  if (kind == PDF)
    {
      self->surface = hw_drawing_new_pdf (add_file (self), sheets->width, sheets->height, sheets->title, date_iso);
      self->cr = cairo_create (self->surface);
    }
  return self;
}

void
hw_sheets_writer_free (HwSheetsWriter *self)
{
  if (self == NULL)
    return;
  if (self->cr != NULL)
    cairo_destroy (self->cr);
  if (self->surface != NULL)
    cairo_surface_destroy (self->surface);
  g_ptr_array_unref (self->files);
  g_free (self->path);
  g_free (self);
}

gboolean
hw_sheets_writer_draw (HwSheetsWriter  *self,
                       GError         **error)
{
  int page;

  g_return_val_if_fail (self != NULL && self->n_drawn < hw_sheets_get_n_pages (self->sheets), FALSE);

  page = self->n_drawn++;
  switch (self->kind)
    {
    case PNG:
      return draw_png (self->sheets, page, self->path, self->dpi, add_file (self), error);
    case SVG:
      return draw_svg (self->sheets, page, self->path, add_file (self), error);
    case PDF:
    default:
      hw_sheets_draw (self->sheets, page, self->cr);
      add_outline (self->sheets, self->surface, page);
      cairo_show_page (self->cr);
      return hw_drawing_is_good (cairo_status (self->cr), self->path, error);
    }
}

int
hw_sheets_writer_get_n_drawn (const HwSheetsWriter *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->n_drawn;
}

gboolean
hw_sheets_writer_save (HwSheetsWriter  *self,
                       GError         **error)
{
  cairo_t         *cr;
  cairo_surface_t *surface;

  g_return_val_if_fail (self != NULL && self->n_drawn == hw_sheets_get_n_pages (self->sheets), FALSE);

  cr = g_steal_pointer (&self->cr);
  surface = g_steal_pointer (&self->surface);
  if (cr != NULL)
    return hw_drawing_finish (cr, surface, self->path, error)
           && hw_drawing_save (self->path, g_ptr_array_index (self->files, 0), error);
  for (guint i = 0; i < self->files->len; i++)
    {
      g_autofree char *path = number_path (self->sheets, self->path, (int) i);

      if (!hw_drawing_save (path, g_ptr_array_index (self->files, i), error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hw_sheets_write (HwSheets    *self,
                 const char  *path,
                 double       dpi,
                 const char  *date_iso,
                 GError     **error)
{
  g_autoptr (HwSheetsWriter) writer = hw_sheets_writer_new (self, path, dpi, date_iso, error);

  if (writer == NULL)
    return FALSE;
  while (writer->n_drawn < hw_sheets_get_n_pages (self))
    if (!hw_sheets_writer_draw (writer, error))
      return FALSE;
  return hw_sheets_writer_save (writer, error);
}
