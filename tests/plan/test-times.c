/* test-times.c - stitches, minutes and metres of thread of one operation
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/times.h"

#define CM_PER_INCH 2.54

/* An operation on a machine, made by hand: no handbook, no pairing. */
typedef struct
{
  HwStep    step;
  HwMachine machine;
  HwPurpose purpose;
  HwStitch  stitch;
  HwSetup   setup;
} Work;

static void
set_value (Work *work, HwField field, double value)
{
  work->setup.values[field].applies = TRUE;
  work->setup.values[field].value = value;
}

static void
make_work (Work *work, HwThreadUseShape shape, double length_cm, int pieces, double stitch_mm)
{
  *work = (Work) {
    .step = { .length_cm = length_cm, .pieces = pieces },
    .machine = { .speed_spm = 850 },
    .purpose = { .speed_share = 0.45, .handling_minutes = 0.5, .start_stop_minutes = 0.15 },
    .stitch = { .needles = 1, .bobbin = TRUE, .shape = shape },
  };
  work->setup.step = &work->step;
  work->setup.machine = &work->machine;
  work->setup.purpose = &work->purpose;
  work->setup.stitch = &work->stitch;
  work->setup.speed_factor = 1;
  set_value (work, HW_FIELD_LENGTH, stitch_mm);
}

static void
assert_near (double found, double wanted, double within)
{
  g_assert_cmpfloat_with_epsilon (found, wanted, within);
}

/* By hand: 1360 mm / 2.5 mm = 544 stitches; 544 / (850 x 0.45) = 1.4222 min; + 2 x 0.15 + 0.5. */
static void
test_side_seams (void)
{
  Work work;
  HwOperationTime time;

  make_work (&work, HW_THREAD_USE_301, 136, 2, 2.5);
  time = hw_operation_time (&work.setup);
  assert_near (time.stitches, 544, 1e-9);
  assert_near (time.running_minutes, 1.4222, 5e-5);
  assert_near (time.minutes, 2.2222, 5e-5);
}

/* Slippery and pile cloth at three quarters of the speed (common practice, no source): the needle moves 1.4222 / 0.75
 * minutes, and the handling is as before. */
static void
test_slow_cloth (void)
{
  Work work;
  HwOperationTime time;

  make_work (&work, HW_THREAD_USE_301, 136, 2, 2.5);
  work.setup.speed_factor = 0.75;
  time = hw_operation_time (&work.setup);
  assert_near (time.running_minutes, 1.8963, 5e-5);
  assert_near (time.minutes, 2.6963, 5e-5);
}

/* American & Efird, technical bulletin "Stitches per inch": 5000 stitches a minute at 8 stitches an
 * inch sew 17.4 yards a minute, at 14 stitches an inch 9.9. Printed to three figures and to one decimal. */
static void
test_published_speed (void)
{
  static const struct { double spi, yards; } rows[] = { { 8, 17.4 }, { 14, 9.9 } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Work work;

      make_work (&work, HW_THREAD_USE_301, rows[i].yards * 91.44, 1, 25.4 / rows[i].spi);
      work.machine.speed_spm = 5000;
      work.purpose.speed_share = 1;
      assert_near (hw_operation_time (&work.setup).running_minutes, 1, 0.05 / rows[i].yards);
    }
}

/* A triple stitch takes three strokes for each stitch. */
static void
test_triple_stitch (void)
{
  Work plain, triple;

  make_work (&plain, HW_THREAD_USE_301, 100, 1, 2.5);
  make_work (&triple, HW_THREAD_USE_TRIPLE, 100, 1, 2.5);
  assert_near (hw_operation_time (&triple.setup).running_minutes,
               3 * hw_operation_time (&plain.setup).running_minutes, 1e-9);
  assert_near (hw_operation_time (&triple.setup).stitches, hw_operation_time (&plain.setup).stitches, 1e-9);
}

/* Two plies of 0.5 mm at 2.5 mm: 2 + 2 x 1/2.5 = 2.8, half each (Union Special, Thread Consumption, 1974).
 * By hand for 1 m in two pieces: 1.40 x 1.05 + 2 x 0.20 = 1.87 m each of needle and bobbin thread. */
static void
test_tails_and_resew (void)
{
  Work work;
  HwOperationThread thread;

  make_work (&work, HW_THREAD_USE_301, 100, 2, 2.5);
  work.setup.under_foot_mm = 1.0;
  thread = hw_operation_thread (&work.setup);
  assert_near (thread.needle_m, 1.87, 1e-9);
  assert_near (thread.under_m, 1.87, 1e-9);
}

/* Model, by hand: spacing 4, length 3, thickness 1: needles 2 (1 + 1/3), bobbin (4 + 5 + 2) / 3; two tails
 * above, one below. */
static void
test_twin_needle (void)
{
  Work work;
  HwOperationThread thread;

  make_work (&work, HW_THREAD_USE_TWIN, 100, 1, 3);
  work.setup.under_foot_mm = 1.0;
  work.stitch.needles = 2;
  set_value (&work, HW_FIELD_TWIN, 4);
  thread = hw_operation_thread (&work.setup);
  assert_near (thread.needle_m, 8.0 / 3 * 1.05 + 0.4, 1e-9);
  assert_near (thread.under_m, 11.0 / 3 * 1.05 + 0.2, 1e-9);
}

/* N. A. Raaz, 3-thread overlock consumption formula, textilecalculation.blogspot.com 2015/07: at 10 stitches
 * an inch, 0.050 in thick, 0.25 in wide, 15 in of thread an inch; 20 yards take 274.32 m. Ours adds re-sew
 * and 0.10 m of chain. */
static void
test_published_overlock (void)
{
  Work work;
  HwOperationThread thread;

  make_work (&work, HW_THREAD_USE_504, 20 * 91.44, 1, 2.54);
  work.stitch.bobbin = FALSE;
  work.stitch.loopers = 2;
  work.stitch.needle_share = 0.2;
  work.setup.under_foot_mm = 0.050 * 25.4;
  set_value (&work, HW_FIELD_CUTTING_WIDTH, 0.25 * 25.4);
  thread = hw_operation_thread (&work.setup);
  assert_near (thread.needle_m + thread.under_m, 274.32 * (1 + HW_RESEW_SHARE) + 15 * HW_CHAIN_OFF_M, 0.005);
  assert_near (thread.needle_m / (thread.needle_m + thread.under_m), 0.2, 1e-9);
}

/* N. A. Raaz, thread consumption of a full sleeve woven shirt, textilecalculation.blogspot.com 2015: 631 in
 * of lockstitch at 2.5 and 82 in of overlocking at 9; with 13 buttonholes of 6 in and 17 buttons of 5.5 in the
 * shirt takes 2487 in. */
static void
test_published_shirt (void)
{
  Work seams, edges;
  HwOperationThread seam_thread, edge_thread;
  double inches;

  make_work (&seams, HW_THREAD_USE_RATIO, 631 * CM_PER_INCH, 1, 2.5);
  seams.stitch.ratio = 2.5;
  seams.stitch.needle_share = 0.5;
  make_work (&edges, HW_THREAD_USE_RATIO, 82 * CM_PER_INCH, 1, 2.5);
  edges.stitch.ratio = 9;
  edges.stitch.needle_share = 0.3;
  edges.stitch.bobbin = FALSE;
  edges.stitch.loopers = 2;
  seam_thread = hw_operation_thread (&seams.setup);
  edge_thread = hw_operation_thread (&edges.setup);
  inches = seam_thread.needle_m + seam_thread.under_m - 2 * HW_TAIL_M
           + edge_thread.needle_m + edge_thread.under_m - 9 * HW_CHAIN_OFF_M;
  inches = inches / (1 + HW_RESEW_SHARE) * 100 / CM_PER_INCH + 13 * 6 + 17 * 5.5;
  assert_near (inches, 2487, 1e-6);
  assert_near (seam_thread.needle_m, seam_thread.under_m, 1e-9);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/times/side-seams", test_side_seams);
  g_test_add_func ("/times/slow-cloth", test_slow_cloth);
  g_test_add_func ("/times/published-speed", test_published_speed);
  g_test_add_func ("/times/triple-stitch", test_triple_stitch);
  g_test_add_func ("/times/tails-and-resew", test_tails_and_resew);
  g_test_add_func ("/times/twin-needle", test_twin_needle);
  g_test_add_func ("/times/published-overlock", test_published_overlock);
  g_test_add_func ("/times/published-shirt", test_published_shirt);
  return g_test_run ();
}
