/* test-fault-drawing.c - the drawings of stitch faults: each shows something, stays in its place, and differs
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card/drawing-fault.h"

#include <string.h>

#define WIDTH 240
#define HEIGHT 180
#define MARGIN 20

static HwHandbook *
load_handbook (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("HANDWHEEL_DATA_DIR"), "handbook", NULL);
  g_autoptr (GError) error = NULL;
  HwHandbook *handbook = hw_handbook_load (folder, &error);

  g_assert_no_error (error);
  return handbook;
}

typedef struct { cairo_surface_t *surface; guint inked, outside; } Picture;

static guint32
get_pixel (const Picture *self, int x, int y)
{
  const unsigned char *data = cairo_image_surface_get_data (self->surface);
  guint32 pixel;

  memcpy (&pixel, data + y * cairo_image_surface_get_stride (self->surface) + x * 4, sizeof pixel);
  return pixel;
}

/* Black ink on white; @view -1 all three. */
static Picture
draw (const HwLooks *looks, int view)
{
  Picture self = { cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT), 0, 0 };
  cairo_t *cr = cairo_create (self.surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  if (view < 0)
    hw_draw_fault (cr, looks, MARGIN, MARGIN, WIDTH - 2 * MARGIN, HEIGHT - 2 * MARGIN, &hw_inks_print);
  else
    hw_draw_fault_view (cr, looks, (HwFaultView) view, MARGIN, MARGIN, WIDTH - 2 * MARGIN, HEIGHT - 2 * MARGIN,
                        &hw_inks_print);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (self.surface);
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      if ((get_pixel (&self, x, y) & 0xffffff) != 0xffffff)
        {
          guint inside = x >= MARGIN && x < WIDTH - MARGIN && y >= MARGIN && y < HEIGHT - MARGIN ? 1 : 0;

          self.inked += inside;
          self.outside += 1 - inside;
        }
  return self;
}

static guint
count_different (const Picture *a, const Picture *b)
{
  guint n = 0;

  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      n += get_pixel (a, x, y) != get_pixel (b, x, y);
  return n;
}

static void
test_each_view (void)
{
  g_autoptr (HwHandbook) handbook = load_handbook ();

  for (gsize i = 0; i < handbook->n_faults; i++)
    for (int view = -1; view < HW_N_FAULT_VIEWS; view++)
      {
        Picture picture = draw (&handbook->faults[i].looks, view);

        g_test_message ("%s, view %d: %u pixels", handbook->faults[i].entry.id, view, picture.inked);
        g_assert_cmpuint (picture.inked, >, 300);
        g_assert_cmpuint (picture.outside, ==, 0);
        cairo_surface_destroy (picture.surface);
      }
}

/* A person tells one from the other. */
static void
test_all_differ (void)
{
  g_autoptr (HwHandbook) handbook = load_handbook ();

  for (gsize i = 0; i < handbook->n_faults; i++)
    {
      Picture one = draw (&handbook->faults[i].looks, -1);

      for (gsize j = 0; j < i; j++)
        {
          Picture other = draw (&handbook->faults[j].looks, -1);

          g_test_message ("%s, %s", handbook->faults[i].entry.id, handbook->faults[j].entry.id);
          g_assert_cmpuint (count_different (&one, &other), >, 150);
          cairo_surface_destroy (other.surface);
        }
      cairo_surface_destroy (one.surface);
    }
}

/* Every letter that the handbook may write draws something or, like “_”, leaves its place free; none fails. */
static void
test_every_letter (void)
{
  const char *letters[HW_N_FAULT_VIEWS] = { HW_LOOKS_SEEN, HW_LOOKS_SECTION, HW_LOOKS_SEEN };

  for (int cloth = 0; cloth < HW_N_LOOKS_CLOTHS; cloth++)
    for (int row = 0; row < HW_N_LOOKS_ROWS; row++)
      for (int view = 0; view < HW_N_FAULT_VIEWS; view++)
        for (const char *letter = letters[view]; *letter != '\0'; letter++)
          {
            char text[4] = { '-', *letter, '-', '\0' };
            HwLooks looks = { (HwLooksCloth) cloth, (HwLooksRow) row, text, text, text };
            Picture picture = draw (&looks, view);

            g_assert_cmpuint (picture.inked, >, 0);
            g_assert_cmpuint (picture.outside, ==, 0);
            cairo_surface_destroy (picture.surface);
          }
}

/* Too small to see is no reason to fail. */
static void
test_small (void)
{
  g_autoptr (HwHandbook) handbook = load_handbook ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 8, 8);
  cairo_t *cr = cairo_create (surface);

  for (gsize i = 0; i < handbook->n_faults; i++)
    for (int size = 0; size <= 8; size++)
      hw_draw_fault (cr, &handbook->faults[i].looks, 0, 0, size, size, &hw_inks_print);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fault-drawing/each-view", test_each_view);
  g_test_add_func ("/fault-drawing/all-differ", test_all_differ);
  g_test_add_func ("/fault-drawing/every-letter", test_every_letter);
  g_test_add_func ("/fault-drawing/small", test_small);
  return g_test_run ();
}
