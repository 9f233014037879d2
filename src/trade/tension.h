/* tension.h - the starting dial for a needle thread
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * d = N + u x sum of terms, N the machine's neutral number, u = dial range / 9.
 * The terms, their spreads and limits are the handbook's (tension.xml, common
 * practice); this file only adds them up. T is the thickness under the foot.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef enum            /* index into HwTensionPrior.terms; XML ids in hw_tension_term_ids */
{
  HW_TENSION_MACHINE,            /* "machine": mean 0, only its spread */
  HW_TENSION_TEX,                /* "both-threads": per doubling of tex over 30 */
  HW_TENSION_NEEDLE_HEAVIER,     /* "needle-heavier": per doubling of needle tex over bobbin tex */
  HW_TENSION_FILAMENT,           /* "filament" */
  HW_TENSION_MONOFILAMENT,       /* "monofilament" */
  HW_TENSION_METALLIC,           /* "metallic" */
  HW_TENSION_THICKER,            /* "thicker": per doubling of T over 0.8, to 6 mm */
  HW_TENSION_THINNER,            /* "thinner": per halving of T under 0.8, to 0.4 mm */
  HW_TENSION_LONGER,             /* "longer": per mm of length over 2.5, to 6 */
  HW_TENSION_SHORTER,            /* "shorter": per mm under 2.5, to 1 */
  HW_TENSION_SHEER,              /* "sheer" */
  HW_TENSION_SLIPPERY,           /* "slippery" */
  HW_TENSION_JERSEY,             /* "jersey" */
  HW_TENSION_PILE,               /* "pile" */
  HW_TENSION_LOFTY,              /* "lofty"; the five cloth terms together not under -0.75 */
  HW_TENSION_COATED,             /* "coated" */
  HW_TENSION_LEATHER,            /* "leather" */
  HW_TENSION_ZIGZAG,             /* "zigzag": per mm of width, to -1 in all */
  HW_TENSION_MULTISTEP,          /* "multi-step" */
  HW_TENSION_STRETCH_STITCH,     /* "stretch-stitch" */
  HW_TENSION_BLIND,              /* "blind" */
  HW_TENSION_SATIN,              /* "satin" (no length term) */
  HW_TENSION_BUTTONHOLE,         /* "buttonhole" (no length term) */
  HW_TENSION_BAR_TACK,           /* "bar-tack" (no length term) */
  HW_TENSION_TWIN,               /* "twin" */
  HW_TENSION_BASTE,              /* "baste" */
  HW_TENSION_GATHER,             /* "gather" */
  HW_TENSION_EASE,               /* "ease" */
  HW_N_TENSION_TERMS
} HwTensionTerm;

extern const char * const hw_tension_term_ids[HW_N_TENSION_TERMS];

typedef struct
{
  struct { double mean; double sd; } terms[HW_N_TENSION_TERMS];
  double reference_thickness_mm; /* 0.8 */
  double thickest_mm;            /* 6 */
  double thinnest_mm;            /* 0.4 */
  double reference_length_mm;    /* 2.5 */
  double longest_mm;             /* 6 */
  double shortest_mm;            /* 1 */
  double reference_tex;          /* 30 */
  double cloth_floor;            /* -0.75 */
  double zigzag_floor;           /* -1 */
  double low_limit;              /* 1, on the 0-9 scale */
  double low_limit_loose;        /* 0.5: basting and gathering */
  double high_limit;             /* 8 */
  double window_below;           /* 0.35 */
  double window_below_per_mm;    /* 0.30, T counted to window_thickest_mm */
  double window_thickest_mm;     /* 4 */
  double window_above;           /* 0.5 */
  double verdict_noise;          /* 0.35 */
} HwTensionPrior;

typedef struct
{
  double  needle_tex;            /* > 0 */
  double  bobbin_tex;            /* > 0 */
  double  thickness_mm;          /* under the foot, > 0 */
  double  length_mm;             /* > 0 */
  double  width_mm;              /* of a zigzag; 0 straight */
  guint32 terms;                 /* 1u << HwTensionTerm for each that is simply on (filament, sheer, satin, ...) */
} HwTensionFacts;

typedef struct
{
  double low, high, neutral;     /* the machine's own scale, e.g. 0, 9, 4 */
} HwDialScale;

typedef struct
{
  double dial;                   /* to start, on the machine's scale, unrounded */
  double sd;                     /* spread of the balanced dial on an untaught machine, same scale */
  double window_low, window_high;/* where a stitch looks balanced if @dial is its balance point */
  double terms[HW_N_TENSION_TERMS]; /* what each term added, on the 0-9 scale; 0 where it is off */
} HwTensionStart;

HwTensionStart hw_tension_start     (const HwTensionPrior *prior,
                                     const HwTensionFacts *facts,
                                     const HwDialScale    *scale);
/* Nearest printed half-step; half way between two, the lower. */
double         hw_dial_half_step    (double dial);

G_END_DECLS
