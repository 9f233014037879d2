/* shop.c - the shipped handbook and an ordinary room, to be asked for set-ups
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "shop.h"

#include "trade/units.h"
#include "workroom.h"

void
shop_open (Shop *self)
{
  self->handbook = workroom_handbook ();
  self->room = workroom_new (&workroom_usual, "household", 3);
}

void
shop_close (Shop *self)
{
  g_clear_pointer (&self->room, hw_room_unref);
  g_clear_pointer (&self->handbook, hw_handbook_unref);
}

void
shop_setup_clear (ShopSetup *self)
{
  g_clear_pointer (&self->setup, hw_setup_free);
  g_clear_pointer (&self->cloths, g_array_unref);
  g_clear_pointer (&self->project, hw_project_unref);
}

static char *
write_project (const char *fabrics, const char *rest, const char *thread)
{
  g_autoptr (GString) cloths = g_string_new (NULL);
  g_autoptr (GString) plies = g_string_new (NULL);
  g_autofree char *threads = thread == NULL ? g_strdup ("<threads/>")
                             : g_strdup_printf ("<threads><thread id='thread' handbook='%s'/></threads>", thread);
  g_auto (GStrv) words = g_strsplit (fabrics, " ", -1);

  g_assert_cmpuint (g_strv_length (words) % 2, ==, 0);
  for (gsize i = 0; words[i] != NULL; i += 2)
    {
      g_string_append_printf (cloths, "<fabric id='cloth-%zu' handbook='%s'/>", i, words[i]);
      g_string_append_printf (plies, "<ply fabric='cloth-%zu' count='%s'/>", i, words[i + 1]);
    }
  return g_strdup_printf ("<fabrics>%s</fabrics>%s<steps><operation number='1' name='Step' length-cm='50' %s%s>%s"
                          "</operation></steps>", cloths->str, threads, rest,
                          thread != NULL ? " needle-thread='thread'" : "", plies->str);
}

ShopSetup
shop_pair (const Shop *self, const char *fabrics, const char *rest, const char *thread)
{
  g_autofree char *xml = write_project (fabrics, rest, thread);
  g_autoptr (GError) error = NULL;
  ShopSetup made = { .project = workroom_parse (xml) };

  made.cloths = hw_cloths_resolve (self->handbook, made.project, &error);
  g_assert_no_error (error);
  made.setup = hw_pair (self->handbook, made.project, made.cloths, self->room, hw_project_get_step (made.project, 0),
                        &error);
  g_assert_no_error (error);
  return made;
}

double
shop_ask_in (const Shop *self, const char *fabrics, const char *rest, const char *thread, HwField field)
{
  g_auto (ShopSetup) made = shop_pair (self, fabrics, rest, thread);

  g_assert_true (made.setup->values[field].applies);
  return made.setup->values[field].value;
}

double
shop_ask (const Shop *self, const char *fabrics, const char *rest, HwField field)
{
  return shop_ask_in (self, fabrics, rest, NULL, field);
}

double
shop_ask_size (const Shop *self, const char *fabric)
{
  g_autofree char *fabrics = g_strconcat (fabric, " 2", NULL);

  return shop_ask (self, fabrics, "purpose='seam'", HW_FIELD_SIZE);
}

HwPointForm
shop_ask_form (const Shop *self, const char *fabrics)
{
  return self->handbook->points[(gsize) shop_ask (self, fabrics, "purpose='seam'", HW_FIELD_POINT)].form;
}

double
shop_ask_spi (const Shop *self, const char *fabrics, const char *rest)
{
  return hw_spi_from_length (shop_ask (self, fabrics, rest, HW_FIELD_LENGTH));
}

static int
find_choice (const HwHandbook *handbook, HwField field, const char *id)
{
  switch (field)
    {
    case HW_FIELD_POINT:
      return hw_handbook_find_point (handbook, id);
    case HW_FIELD_FOOT:
      return hw_handbook_find_foot (handbook, id);
    case HW_FIELD_PLATE:
      return hw_handbook_find_plate (handbook, id);
    case HW_FIELD_STITCH:
      return hw_handbook_find_stitch (handbook, id);
    default:
      g_assert_not_reached ();
    }
}

double
shop_chooses (const Shop *self, const char *fabrics, const char *rest, HwField field, const char *id)
{
  int wanted = find_choice (self->handbook, field, id);

  g_assert_cmpint (wanted, >=, 0);
  return (int) shop_ask (self, fabrics, rest, field) == wanted ? 1 : 0;
}

double
shop_accepts_point (const Shop *self, const char *fabrics, const char *id)
{
  g_auto (ShopSetup) made = shop_pair (self, fabrics, "purpose='seam'", NULL);
  int wanted = hw_handbook_find_point (self->handbook, id);

  g_assert_cmpint (wanted, >=, 0);
  return hw_value_accepts (&made.setup->values[HW_FIELD_POINT], HW_FIELD_POINT, wanted) ? 1 : 0;
}

/* ---- entries ---- */

const HwFabric *
shop_find_fabric (const Shop *self, const char *id)
{
  int index = hw_handbook_find_fabric (self->handbook, id);

  g_assert_cmpint (index, >=, 0);
  return &self->handbook->fabrics[index];
}

const HwThreadEntry *
shop_find_thread (const Shop *self, const char *id)
{
  int index = hw_handbook_find_thread (self->handbook, id);

  g_assert_cmpint (index, >=, 0);
  return &self->handbook->threads[index];
}

const HwStitch *
shop_find_stitch (const Shop *self, const char *id)
{
  int index = hw_handbook_find_stitch (self->handbook, id);

  g_assert_cmpint (index, >=, 0);
  return &self->handbook->stitches[index];
}

const HwCareTask *
shop_find_care (const Shop *self, const char *id)
{
  int index = hw_handbook_find_care (self->handbook, id);

  g_assert_cmpint (index, >=, 0);
  return &self->handbook->care[index];
}

double
shop_has_trait (const Shop *self, const char *fabric, const char *trait)
{
  int index = hw_handbook_find_trait (self->handbook, trait);

  g_assert_cmpint (index, >=, 0);
  return (shop_find_fabric (self, fabric)->traits & HW_SET (index)) != 0 ? 1 : 0;
}
