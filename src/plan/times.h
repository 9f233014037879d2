/* times.h - minutes, stitches and metres of thread of one operation
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/pairing.h"

G_BEGIN_DECLS

#define HW_TAIL_M         0.20     /* each thread, each piece started: behind the foot and cut off; common practice */
#define HW_CHAIN_OFF_M    0.10     /* of chain, both ends together, each piece on an overlocker; common practice */
#define HW_RESEW_SHARE    0.05     /* sewn a second time; common practice */
#define HW_BOBBIN_BULK    0.5      /* g/cm3, as a home winder winds; model */

typedef struct
{
  double stitches;
  double running_minutes;          /* needle moving */
  double minutes;                  /* at the machine */
} HwOperationTime;

typedef struct
{
  double needle_m;                 /* all needle threads together */
  double under_m;                  /* bobbin, or all loopers together */
} HwOperationThread;

HwOperationTime   hw_operation_time   (const HwSetup *setup);
HwOperationThread hw_operation_thread (const HwSetup *setup);

G_END_DECLS
