/* units.c - exact unit conversions of the sewing trade
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/units.h"

#include <math.h>

#define TEX_DENIER       9.0       /* g per 9000 m */
#define TICKET_SINGLES   3.0       /* a ticket number counts as if the thread had three equal singles */
#define YARDS_PER_HANK   840.0     /* English cotton count */
#define GRAM_PER_OUNCE   (HW_GRAM_PER_POUND / 16.0)
#define SQ_M_PER_SQ_YARD (HW_MM_PER_YARD * HW_MM_PER_YARD * 1e-6)

/* An indirect count is a fixed length per mass: @constant / @count, in either direction. */
static double
invert (double constant, double count)
{
  if (!isfinite (count) || count <= 0)
    return NAN;
  return constant / count;
}

/* Metres of thread of Ne 1 in a kilogram, so that Ne x tex is this constant (590.54). */
static double
get_cotton_constant (void)
{
  return 1000.0 * HW_GRAM_PER_POUND / (YARDS_PER_HANK * HW_MM_PER_YARD * 1e-3);
}

double
hw_dtex_from_tex (double tex)
{
  return tex * 10.0;
}

double
hw_tex_from_dtex (double dtex)
{
  return dtex / 10.0;
}

double
hw_denier_from_tex (double tex)
{
  return tex * TEX_DENIER;
}

double
hw_tex_from_denier (double denier)
{
  return denier / TEX_DENIER;
}

double
hw_nm_from_tex (double tex)
{
  return invert (1000.0, tex);
}

double
hw_tex_from_nm (double nm)
{
  return invert (1000.0, nm);
}

double
hw_ne_from_tex (double tex)
{
  return invert (get_cotton_constant (), tex);
}

double
hw_tex_from_ne (double ne)
{
  return invert (get_cotton_constant (), ne);
}

double
hw_ticket_from_tex (double tex)
{
  return invert (TICKET_SINGLES * 1000.0, tex);
}

double
hw_tex_from_ticket (double ticket)
{
  return invert (TICKET_SINGLES * 1000.0, ticket);
}

double
hw_cotton_ticket_from_tex (double tex)
{
  return invert (TICKET_SINGLES * get_cotton_constant (), tex);
}

double
hw_tex_from_wt (double wt)
{
  return invert (1000.0, wt);
}

double
hw_resultant_nm (double nm, int plies)
{
  return invert (nm, plies);
}

double
hw_gsm_from_oz_yd2 (double oz_yd2)
{
  return oz_yd2 * GRAM_PER_OUNCE / SQ_M_PER_SQ_YARD;
}

double
hw_oz_yd2_from_gsm (double gsm)
{
  return gsm * SQ_M_PER_SQ_YARD / GRAM_PER_OUNCE;
}

/* A momme is the weight in pounds of silk 100 yards long and 45 inches wide. */
double
hw_gsm_from_momme (double momme)
{
  return momme * HW_GRAM_PER_POUND / (100.0 * HW_MM_PER_YARD * 45.0 * HW_MM_PER_INCH * 1e-6);
}

double
hw_mm_from_leather_oz (double oz)
{
  return oz * HW_MM_PER_INCH / 64.0;
}

double
hw_spi_from_length (double length_mm)
{
  return invert (HW_MM_PER_INCH, length_mm);
}

double
hw_length_from_spi (double spi)
{
  return invert (HW_MM_PER_INCH, spi);
}

double
hw_stitches_per_cm (double length_mm)
{
  return invert (10.0, length_mm);
}
