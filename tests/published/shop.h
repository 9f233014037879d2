/* shop.h - the shipped handbook and an ordinary room, to be asked for set-ups
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "plan/pairing.h"

G_BEGIN_DECLS

typedef struct
{
  HwHandbook *handbook;
  HwRoom     *room;                /* a household machine of the usual kind, and an overlocker */
} Shop;

void  shop_open  (Shop *self);
void  shop_close (Shop *self);

/* A set-up with what it borrows from. */
typedef struct
{
  HwProject *project;
  GArray    *cloths;
  HwSetup   *setup;
} ShopSetup;

/* One operation: @fabrics "poplin 2 fusible-woven 1", each with its number of plies; @rest: attributes of the operation
 * but for number, name and length; @thread: handbook id of the needle thread, NULL as the handbook pairs it. */
ShopSetup shop_pair       (const Shop *self, const char *fabrics, const char *rest, const char *thread);
void      shop_setup_clear (ShopSetup *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (ShopSetup, shop_setup_clear)

/* One value of it, which must apply. */
double      shop_ask       (const Shop *self, const char *fabrics, const char *rest, HwField field);
double      shop_ask_in    (const Shop *self, const char *fabrics, const char *rest, const char *thread,
                            HwField field);
double      shop_ask_size  (const Shop *self, const char *fabric);      /* two plies in a plain seam */
HwPointForm shop_ask_form  (const Shop *self, const char *fabrics);
double      shop_ask_spi   (const Shop *self, const char *fabrics, const char *rest);

/* 1 when the set-up's choice in @field is @id; 0 when it is another. */
double      shop_chooses   (const Shop *self, const char *fabrics, const char *rest, HwField field, const char *id);
/* 1 when the point @id would do, else 0. */
double      shop_accepts_point (const Shop *self, const char *fabrics, const char *id);

const HwFabric      *shop_find_fabric (const Shop *self, const char *id);
const HwThreadEntry *shop_find_thread (const Shop *self, const char *id);
const HwStitch      *shop_find_stitch (const Shop *self, const char *id);
const HwCareTask    *shop_find_care   (const Shop *self, const char *id);
double               shop_has_trait   (const Shop *self, const char *fabric, const char *trait);      /* 1 or 0 */

G_END_DECLS
