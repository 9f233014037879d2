/* drawing-cloth.c - a square of cloth, by its construction
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wovens are drawn from their weave: a small square table of where the warp lies on top. Knits are drawn as
 * wales of stitches, pile as tufts, felts as fibres, skins as grain, nets as meshes. What looks random comes from
 * a fixed sequence, so that a cloth looks the same each time.
 */

#include "config.h"

#include "card/drawing-private.h"

#include <math.h>
#include <string.h>

typedef struct
{
  cairo_t *cr;
  double   size;
  HwInk    ground, tone, line, ink;
} Cloth;

typedef void (* ClothFunc) (const Cloth *cloth, const char *pattern);

/* A plain xorshift sequence: 0 to 1. */
static double
next_random (guint32 *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 17;
  *state ^= *state << 5;
  return (*state >> 8) / 16777216.0;
}

/* ---- wovens: rows of '#' (warp on top) and '.' parted by '/' ---- */

static void
draw_weave (const Cloth *cloth,
            const char  *pattern)
{
  int repeat = (int) (strchr (pattern, '/') - pattern);
  int across = repeat <= 2 ? 6 : 8;
  double cell = cloth->size / across;

  for (int row = 0; row < across; row++)
    for (int column = 0; column < across; column++)
      {
        gboolean warp = pattern[(row % repeat) * (repeat + 1) + column % repeat] == '#';
        double in = cell * 0.05;

        /* Each float is longer the way its yarn runs, so that plain weave is not a mere chequer. */
        hw_use_ink (cloth->cr, warp ? &cloth->line : &cloth->tone);
        if (warp)
          cairo_rectangle (cloth->cr, column * cell + in, row * cell, cell - 2 * in, cell);
        else
          cairo_rectangle (cloth->cr, column * cell, row * cell + in, cell, cell - 2 * in);
        cairo_fill (cloth->cr);
      }
}

static void
draw_gauze (const Cloth *cloth,
            const char  *pattern)
{
  double cell = cloth->size / 7;

  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_width (cloth->cr, cell * 0.22);
  for (int i = 0; i < 7; i++)
    {
      hw_line (cloth->cr, (i + 0.5) * cell, 0, (i + 0.5) * cell, cloth->size);
      hw_line (cloth->cr, 0, (i + 0.5) * cell, cloth->size, (i + 0.5) * cell);
    }
  cairo_stroke (cloth->cr);
}

/* ---- knits ---- */

/* One stitch: the two legs of a loop. */
static void
trace_stitch (const Cloth *cloth,
              double       x,
              double       y,
              double       width,
              double       height)
{
  cairo_move_to (cloth->cr, x + width * 0.14, y);
  cairo_curve_to (cloth->cr, x + width * 0.2, y + height * 0.5, x + width * 0.38, y + height * 0.6, x + width * 0.5,
                  y + height * 0.95);
  cairo_curve_to (cloth->cr, x + width * 0.62, y + height * 0.6, x + width * 0.8, y + height * 0.5, x + width * 0.86,
                  y);
}

static void
draw_wales (const Cloth *cloth,
            int          wales,
            int          courses,
            gboolean     ribbed)
{
  double width = cloth->size / wales;
  double height = cloth->size / courses;

  cairo_set_line_cap (cloth->cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cloth->cr, MIN (width, height) * 0.24);
  for (int i = 0; i < wales; i++)
    {
      if (ribbed && i % 2 == 1)
        {
          /* The wales between sit back and show as a furrow. */
          hw_use_ink (cloth->cr, &cloth->tone);
          cairo_rectangle (cloth->cr, i * width + width * 0.12, 0, width * 0.76, cloth->size);
          cairo_fill (cloth->cr);
          continue;
        }
      hw_use_ink (cloth->cr, &cloth->line);
      for (int j = -1; j < courses; j++)
        trace_stitch (cloth, i * width, (j + 0.3) * height, width, height);
      cairo_stroke (cloth->cr);
    }
}

static void
draw_jersey (const Cloth *cloth,
             const char  *pattern)
{
  draw_wales (cloth, 6, 7, FALSE);
}

static void
draw_fine_knit (const Cloth *cloth,
                const char  *pattern)
{
  draw_wales (cloth, 8, 9, FALSE);
}

static void
draw_rib (const Cloth *cloth,
          const char  *pattern)
{
  draw_wales (cloth, 7, 6, TRUE);
}

/* Warp knit: yarns that zigzag from wale to wale. */
static void
draw_warp_knit (const Cloth *cloth,
                const char  *pattern)
{
  double cell = cloth->size / 8;

  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_join (cloth->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (cloth->cr, cell * 0.26);
  for (int i = -1; i < 9; i++)
    {
      cairo_new_sub_path (cloth->cr);
      for (int j = 0; j <= 8; j++)
        cairo_line_to (cloth->cr, (i + (j % 2 == 0 ? 0.1 : 0.9)) * cell, j * cell);
    }
  cairo_stroke (cloth->cr);
}

/* ---- pile ---- */

static void
draw_tufts (const Cloth *cloth,
            const char  *pattern)
{
  guint32 state = 0x85ebca6b;
  int across = 9;
  double cell = cloth->size / across;

  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_cap (cloth->cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cloth->cr, cell * 0.28);
  for (int row = 0; row < across; row++)
    for (int column = 0; column < across; column++)
      {
        double x = (column + 0.5 + (next_random (&state) - 0.5) * 0.5) * cell;
        double y = (row + 0.5 + (next_random (&state) - 0.5) * 0.5) * cell;
        double lean = (next_random (&state) - 0.3) * cell * 0.5;

        hw_line (cloth->cr, x, y + cell * 0.3, x + lean, y - cell * 0.35);
      }
  cairo_stroke (cloth->cr);
}

/* Wales of pile with a furrow between. */
static void
draw_cords (const Cloth *cloth,
            const char  *pattern)
{
  int cords = 5;
  double width = cloth->size / cords;
  double step = cloth->size / 14;

  for (int i = 0; i < cords; i++)
    {
      hw_use_ink (cloth->cr, &cloth->tone);
      cairo_rectangle (cloth->cr, i * width + width * 0.1, 0, width * 0.72, cloth->size);
      cairo_fill (cloth->cr);
      hw_use_ink (cloth->cr, &cloth->line);
      cairo_set_line_width (cloth->cr, step * 0.42);
      for (int j = 0; j < 15; j++)
        hw_line (cloth->cr, i * width + width * 0.16, (j + 0.2) * step, i * width + width * 0.76, (j - 0.2) * step);
      cairo_stroke (cloth->cr);
    }
}

static void
draw_loops (const Cloth *cloth,
            const char  *pattern)
{
  int across = 6;
  double cell = cloth->size / across;

  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_width (cloth->cr, cell * 0.16);
  for (int row = 0; row < across; row++)
    for (int column = -1; column < across; column++)
      {
        double x = (column + 0.5 + (row % 2) * 0.5) * cell;
        double y = (row + 0.55) * cell;

        cairo_new_sub_path (cloth->cr);
        cairo_arc (cloth->cr, x, y, cell * 0.3, G_PI * 0.75, G_PI * 2.25);
      }
  cairo_stroke (cloth->cr);
}

/* ---- felts and wadding ---- */

static void
draw_fibres (const Cloth *cloth,
             const char  *pattern)
{
  guint32 state = 0x9e3779b9;

  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_cap (cloth->cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cloth->cr, cloth->size * 0.022);
  for (int i = 0; i < 90; i++)
    {
      double x = next_random (&state) * cloth->size;
      double y = next_random (&state) * cloth->size;
      double angle = next_random (&state) * 2 * G_PI;
      double length = cloth->size * (0.06 + 0.1 * next_random (&state));
      double bend = (next_random (&state) - 0.5) * length;

      cairo_move_to (cloth->cr, x, y);
      cairo_rel_curve_to (cloth->cr, length * 0.3 * cos (angle) - bend * sin (angle),
                          length * 0.3 * sin (angle) + bend * cos (angle),
                          length * 0.7 * cos (angle) - bend * sin (angle),
                          length * 0.7 * sin (angle) + bend * cos (angle),
                          length * cos (angle), length * sin (angle));
    }
  cairo_stroke (cloth->cr);
}

/* Lofty: soft waves, layer on layer. */
static void
draw_waves (const Cloth *cloth,
            const char  *pattern)
{
  int n = 5;
  double step = cloth->size / n;

  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_width (cloth->cr, cloth->size * 0.03);
  for (int row = 0; row < n; row++)
    {
      cairo_move_to (cloth->cr, -step * 0.5 * (row % 2), (row + 0.6) * step);
      for (int i = 0; i < n + 1; i++)
        cairo_rel_curve_to (cloth->cr, step * 0.2, -step * 0.7, step * 0.8, -step * 0.7, step, 0);
    }
  cairo_stroke (cloth->cr);
}

/* ---- skins, coatings, nets ---- */

/* Pebbles of grain: cells of a jittered grid with a furrow round each. */
static void
draw_grain (const Cloth *cloth,
            const char  *pattern)
{
  guint32 state = 0xc2b2ae35;
  int across = 6;
  double cell = cloth->size / across;

  hw_use_ink (cloth->cr, &cloth->tone);
  cairo_paint (cloth->cr);
  for (int row = -1; row <= across; row++)
    for (int column = -1; column <= across; column++)
      {
        double cx = (column + 0.5 + (row % 2) * 0.5 + (next_random (&state) - 0.5) * 0.3) * cell;
        double cy = (row + 0.5 + (next_random (&state) - 0.5) * 0.3) * cell;

        cairo_new_sub_path (cloth->cr);
        for (int i = 0; i < 7; i++)
          {
            double angle = i * 2 * G_PI / 7;
            double radius = cell * (0.4 + 0.14 * next_random (&state));

            cairo_line_to (cloth->cr, cx + radius * cos (angle), cy + radius * 0.85 * sin (angle));
          }
        cairo_close_path (cloth->cr);
      }
  hw_use_ink (cloth->cr, &cloth->ground);
  cairo_fill_preserve (cloth->cr);
  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_width (cloth->cr, cloth->size * 0.02);
  cairo_stroke (cloth->cr);
}

/* A closed, even face with a sheen across it. */
static void
draw_coated (const Cloth *cloth,
             const char  *pattern)
{
  double size = cloth->size;

  hw_use_ink (cloth->cr, &cloth->tone);
  cairo_paint (cloth->cr);
  hw_use_ink (cloth->cr, &cloth->ground);
  for (int i = 0; i < 3; i++)
    {
      double at = size * (0.1 + i * 0.36);
      double width = size * (0.16 - i * 0.03);

      cairo_move_to (cloth->cr, at, size);
      cairo_line_to (cloth->cr, at + width, size);
      cairo_line_to (cloth->cr, at + width + size * 0.5, 0);
      cairo_line_to (cloth->cr, at + size * 0.5, 0);
      cairo_close_path (cloth->cr);
    }
  cairo_fill (cloth->cr);
}

static void
draw_mesh (const Cloth *cloth,
           const char  *pattern)
{
  double side = cloth->size / 7.6;
  double step_x = side * sqrt (3);
  double step_y = side * 1.5;

  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_join (cloth->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (cloth->cr, cloth->size * 0.028);
  for (int row = -1; row < 7; row++)
    for (int column = -1; column < 6; column++)
      {
        double cx = column * step_x + (row % 2 == 0 ? 0 : step_x / 2);
        double cy = row * step_y + side;

        cairo_new_sub_path (cloth->cr);
        for (int i = 0; i < 6; i++)
          cairo_line_to (cloth->cr, cx + side * cos (G_PI / 6 + i * G_PI / 3),
                         cy + side * sin (G_PI / 6 + i * G_PI / 3));
        cairo_close_path (cloth->cr);
      }
  cairo_stroke (cloth->cr);
}

/* A mesh with a flower worked into it. */
static void
draw_lace (const Cloth *cloth,
           const char  *pattern)
{
  double middle = cloth->size / 2;

  draw_mesh (cloth, pattern);
  for (int i = 0; i < 6; i++)
    {
      double angle = i * G_PI / 3;

      cairo_new_sub_path (cloth->cr);
      cairo_arc (cloth->cr, middle + cloth->size * 0.2 * cos (angle), middle + cloth->size * 0.2 * sin (angle),
                 cloth->size * 0.13, 0, 2 * G_PI);
    }
  hw_use_ink (cloth->cr, &cloth->tone);
  cairo_fill_preserve (cloth->cr);
  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_width (cloth->cr, cloth->size * 0.025);
  cairo_stroke (cloth->cr);
}

/* A narrow tape with its selvedges. */
static void
draw_tape (const Cloth *cloth,
           const char  *pattern)
{
  double size = cloth->size;
  int n = 9;

  hw_use_ink (cloth->cr, &cloth->tone);
  cairo_rectangle (cloth->cr, size * 0.24, 0, size * 0.52, size);
  cairo_fill (cloth->cr);
  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_width (cloth->cr, size * 0.025);
  hw_line (cloth->cr, size * 0.24, 0, size * 0.24, size);
  hw_line (cloth->cr, size * 0.76, 0, size * 0.76, size);
  for (int i = 0; i < n; i++)
    {
      cairo_move_to (cloth->cr, size * 0.32, size * (i + 0.15) / n);
      cairo_line_to (cloth->cr, size * 0.5, size * (i + 0.75) / n);
      cairo_line_to (cloth->cr, size * 0.68, size * (i + 0.15) / n);
    }
  cairo_stroke (cloth->cr);
}

/* Cords of elastic, gathered by what covers them. */
static void
draw_elastic (const Cloth *cloth,
              const char  *pattern)
{
  int cords = 5;
  double width = cloth->size / cords;

  hw_use_ink (cloth->cr, &cloth->line);
  cairo_set_line_width (cloth->cr, cloth->size * 0.03);
  for (int i = 0; i < cords; i++)
    {
      cairo_move_to (cloth->cr, (i + 0.5) * width, 0);
      for (int j = 0; j < 7; j++)
        cairo_rel_curve_to (cloth->cr, width * 0.45 * (j % 2 == 0 ? 1 : -1), cloth->size / 21,
                            width * 0.45 * (j % 2 == 0 ? 1 : -1), cloth->size / 10.5, 0, cloth->size / 7);
    }
  cairo_stroke (cloth->cr);
}

static const struct { const char *construction; ClothFunc draw; const char *pattern; } cloths[] = {
  { "plain", draw_weave, "#./.#/" },
  { "basket", draw_weave, "##../##../..##/..##/" },
  { "crepe", draw_weave, "##.#/.##./#.#./.#.#/" },
  { "gauze", draw_gauze, NULL },
  { "twill", draw_weave, "##../#..#/..##/.##./" },
  { "satin", draw_weave, "#######./####.###/#.######/######.#/###.####/.#######/#####.##/##.#####/" },
  { "jacquard", draw_weave, "#...####/##.#..##/###...##/.###.#.#/..#.###./#...####/##.#.##./####..#./" },
  { "velvet", draw_tufts, NULL },
  { "corduroy", draw_cords, NULL },
  { "terry", draw_loops, NULL },
  { "woollen", draw_fibres, NULL },
  { "milled", draw_fibres, NULL },
  { "single-jersey", draw_jersey, NULL },
  { "rib", draw_rib, NULL },
  { "interlock", draw_fine_knit, NULL },
  { "double-knit", draw_fine_knit, NULL },
  { "sweatshirt", draw_jersey, NULL },
  { "fleece-knit", draw_tufts, NULL },
  { "pile-knit", draw_tufts, NULL },
  { "warp-knit", draw_warp_knit, NULL },
  { "mesh", draw_mesh, NULL },
  { "spacer", draw_mesh, NULL },
  { "felted-knit", draw_fibres, NULL },
  { "coated-woven", draw_coated, NULL },
  { "coated-knit", draw_coated, NULL },
  { "laminate", draw_coated, NULL },
  { "nonwoven", draw_fibres, NULL },
  { "felt", draw_fibres, NULL },
  { "suede-nonwoven", draw_tufts, NULL },
  { "leather", draw_grain, NULL },
  { "net", draw_mesh, NULL },
  { "lace", draw_lace, NULL },
  { "tape", draw_tape, NULL },
  { "elastic", draw_elastic, NULL },
  { "wadding", draw_waves, NULL },
};

/* For a construction that has no drawing of its own. */
static const struct { ClothFunc draw; const char *pattern; } families[] = {
  [HW_FAMILY_WOVEN] = { draw_weave, "#./.#/" },
  [HW_FAMILY_KNIT] = { draw_jersey, NULL },
  [HW_FAMILY_NONWOVEN] = { draw_fibres, NULL },
  [HW_FAMILY_SKIN] = { draw_grain, NULL },
  [HW_FAMILY_NET] = { draw_mesh, NULL },
};

void
hw_draw_cloth (cairo_t      *cr,
               HwFamily      family,
               const char   *construction,
               double        x,
               double        y,
               double        size,
               const HwInks *inks)
{
  Cloth cloth = { cr, size, hw_mix_ink (&inks->paper, &inks->line, 0.12), hw_mix_ink (&inks->paper, &inks->line, 0.4),
                  inks->line, inks->ink };
  ClothFunc draw = NULL;
  const char *pattern = NULL;

  g_return_if_fail ((gsize) family < G_N_ELEMENTS (families));

  draw = families[family].draw;
  pattern = families[family].pattern;
  for (gsize i = 0; i < G_N_ELEMENTS (cloths); i++)
    if (g_strcmp0 (cloths[i].construction, construction) == 0)
      {
        draw = cloths[i].draw;
        pattern = cloths[i].pattern;
      }

  cairo_save (cr);
  cairo_translate (cr, x, y);
  hw_round_rectangle (cr, 0, 0, size, size, size * 0.08);
  cairo_clip (cr);
  hw_use_ink (cr, &cloth.ground);
  cairo_paint (cr);
  cairo_new_path (cr);
  draw (&cloth, pattern);
  cairo_restore (cr);
}
