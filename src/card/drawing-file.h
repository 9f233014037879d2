/* drawing-file.h - drawings written as files: made in memory and put in place whole, so that a failed write leaves what
 * was there before
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

/* A cairo_write_func_t: appends to the GByteArray @bytes. */
cairo_status_t   hw_drawing_append (void *bytes, const unsigned char *data, unsigned int size);
/* A PDF that is written into @bytes; the size in points. @date_iso: NULL leaves it out. (transfer full) */
cairo_surface_t *hw_drawing_new_pdf (GByteArray *bytes, double width, double height, const char *title,
                                     const char *date_iso);
/* Ends @cr and @surface and frees both. FALSE with HW_CARD_ERROR_WRITE, which names @path, when drawing failed. */
gboolean         hw_drawing_finish (cairo_t *cr, cairo_surface_t *surface, const char *path, GError **error);
/* FALSE with the same error when @status is not success. */
gboolean         hw_drawing_is_good (cairo_status_t status, const char *path, GError **error);
/* FALSE with HW_CARD_ERROR_WRITE, which names @path. */
gboolean         hw_drawing_save (const char *path, const GByteArray *bytes, GError **error);

G_END_DECLS
