/* drawing-file.c - drawings written as files
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-card"

#include "config.h"

#include "card/drawing-file.h"

#include <cairo-pdf.h>
#include <glib/gi18n.h>

#include "card/card.h"

cairo_status_t
hw_drawing_append (void                *bytes,
                   const unsigned char *data,
                   unsigned int         size)
{
  g_byte_array_append (bytes, data, size);
  return CAIRO_STATUS_SUCCESS;
}

cairo_surface_t *
hw_drawing_new_pdf (GByteArray *bytes,
                    double      width,
                    double      height,
                    const char *title,
                    const char *date_iso)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (hw_drawing_append, bytes, width, height);

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Handwheel");
  if (date_iso != NULL)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, date_iso);
  return surface;
}

gboolean
hw_drawing_is_good (cairo_status_t   status,
                    const char      *path,
                    GError         **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return TRUE;
  g_set_error (error, HW_CARD_ERROR, HW_CARD_ERROR_WRITE, _("Cannot draw “%s”: %s"), path,
               cairo_status_to_string (status));
  return FALSE;
}

gboolean
hw_drawing_finish (cairo_t          *cr,
                   cairo_surface_t  *surface,
                   const char       *path,
                   GError          **error)
{
  cairo_status_t status = cairo_status (cr);

  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return hw_drawing_is_good (status, path, error);
}

gboolean
hw_drawing_save (const char        *path,
                 const GByteArray  *bytes,
                 GError           **error)
{
  g_autoptr (GError) local = NULL;

  if (g_file_set_contents_full (path, (const char *) bytes->data, (gssize) bytes->len,
                                G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666, &local))
    return TRUE;
  g_set_error (error, HW_CARD_ERROR, HW_CARD_ERROR_WRITE, _("Cannot write “%s”: %s"), path, local->message);
  return FALSE;
}
