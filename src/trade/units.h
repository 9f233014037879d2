/* units.h - exact unit conversions of the sewing trade
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every factor is exact by definition (ISO 1144 for tex; the international
 * inch, yard and pound; the standard gravity). Arguments must be finite and
 * greater than zero for the indirect counts; NAN comes back otherwise.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

#define HW_MM_PER_INCH 25.4
#define HW_MM_PER_YARD 914.4
#define HW_GRAM_PER_POUND 453.59237
#define HW_CN_PER_GF 0.980665
#define HW_CN_PER_LBF 444.82216152605

/* tex = g per 1000 m. Direct systems. */
double hw_dtex_from_tex          (double tex);
double hw_tex_from_dtex          (double dtex);
double hw_denier_from_tex        (double tex);
double hw_tex_from_denier        (double denier);

/* Indirect systems: length per mass; each function is its own inverse. */
double hw_nm_from_tex            (double tex);      /* metric count, m per g */
double hw_tex_from_nm            (double nm);
double hw_ne_from_tex            (double tex);      /* English cotton count, 840 yd hanks per lb */
double hw_tex_from_ne            (double ne);
double hw_ticket_from_tex        (double tex);      /* metric ticket: 3 x resultant Nm */
double hw_tex_from_ticket        (double ticket);
double hw_cotton_ticket_from_tex (double tex);      /* 3 x resultant Ne */
double hw_tex_from_wt            (double wt);       /* "weight": m per g as printed */
double hw_resultant_nm           (double nm,
                                  int    plies);    /* Nm 80/2 -> 40 */

/* Cloth */
double hw_gsm_from_oz_yd2        (double oz_yd2);
double hw_oz_yd2_from_gsm        (double gsm);
double hw_gsm_from_momme         (double momme);
double hw_mm_from_leather_oz     (double oz);       /* 1 oz = 1/64 in */

/* Stitch density */
double hw_spi_from_length        (double length_mm);        /* stitches per inch */
double hw_length_from_spi        (double spi);
double hw_stitches_per_cm        (double length_mm);

G_END_DECLS
