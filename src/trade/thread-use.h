/* thread-use.h - metres of thread in a seam
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shapes are the rectangular stitch of the Union Special "Thread Consumption"
 * booklet (1963/1974) and our own extensions of the same idea, marked below.
 * T is the thickness under the foot, L the stitch length, W the width, all mm.
 * Results are metres of thread per metre of seam.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  HW_THREAD_USE_RATIO,     /* published ratio and split, no geometry */
  HW_THREAD_USE_101,       /* 3 + 2T/L */
  HW_THREAD_USE_301,       /* 2 + 2T/L, half each */
  HW_THREAD_USE_304,       /* 2 (sqrt(L^2+W^2) + T) / L, half each (model) */
  HW_THREAD_USE_401,       /* 4 + 2T/L */
  HW_THREAD_USE_504,       /* 3 + 4(W+T)/L */
  HW_THREAD_USE_514,       /* 504 + 2 (model) */
  HW_THREAD_USE_TWIN,      /* needles 2(1+T/L); bobbin (s + sqrt(L^2+s^2) + 2T)/L (model); W is the spacing s */
  HW_THREAD_USE_TRIPLE,    /* 3 x 301 (model) */
} HwThreadUseShape;

typedef struct
{
  double needle;           /* all needle threads together */
  double under;            /* bobbin, or all loopers together */
} HwThreadUse;

/* @ratio and @needle_share (0..1) serve HW_THREAD_USE_RATIO; @needle_share also
 * splits 401, 504, 514. L > 0, others >= 0. */
HwThreadUse hw_thread_use_per_metre (HwThreadUseShape shape,
                                     double           thickness_mm,
                                     double           length_mm,
                                     double           width_mm,
                                     double           ratio,
                                     double           needle_share);

/* Metres that a full bobbin of @winding_cm3 holds of a thread of @tex, wound at
 * @bulk_g_cm3 (0.45 hand-wound loose .. 0.60 tight; 0.5 usual): V x bulk x 1000 / tex. Model. */
double      hw_bobbin_metres        (double winding_cm3, double bulk_g_cm3, double tex);

/* Bobbins to wind for @metres at @capacity_m each: whole bobbins. */
int         hw_bobbin_count         (double metres, double capacity_m);

G_END_DECLS
