/* order-cases.h - ordering problems like those of real projects, and our own reckoning of what an order costs
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/order.h"

/* Owns the arrays that its problem borrows. */
typedef struct
{
  HwOrderProblem problem;
  int           *setup;
  HwOrderArrow  *arrows;
  int           *machine;
  int           *change;
  int           *entry;
  int           *walk;
  int           *ways;       /* [(n_setups + 1) x n_setups] cheapest changes, the last row from what is mounted */
  int           *walks;      /* [(n_machines + 1) x n_machines] cheapest walks, the last row from nowhere */
} OrderCase;

typedef enum
{
  ORDER_COSTS_PARTS,         /* needle, thread, foot, …: what differs is changed and costs its own time */
  ORDER_COSTS_ANY
} OrderCosts;

/* Parts that are sewn for themselves, joined two or three at a time, and worked on further as they grow. */
OrderCase *order_case_new_garment (GRand *random, gsize n_operations, gsize n_setups, gsize n_machines);

/* With the arrows given, set-ups by Zipf's law: the second half as frequent as the first, the third a third. */
OrderCase *order_case_new_graph   (GRand *random, gsize n_operations, const HwOrderArrow *arrows, gsize n_arrows,
                                   gsize n_setups, gsize n_machines, OrderCosts costs);

void       order_case_free        (OrderCase *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OrderCase, order_case_free)

/* What @order costs; -1 when it is none or breaks an arrow. */
int        order_case_cost        (const OrderCase *self, const int *order);

/* The least of all orders there are. For up to ten operations. */
int        order_case_cheapest    (const OrderCase *self);

/* The same problem with operations, set-ups and machines numbered otherwise. Writes the operations' new numbers to
 * @names [n_operations]. */
OrderCase *order_case_relabel     (const OrderCase *self, GRand *random, int *names);
