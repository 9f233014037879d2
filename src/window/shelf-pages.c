/* shelf-pages.c - thread and fabrics on hand
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/pages.h"

#include <glib/gi18n.h>
#include <string.h>

#include "window/controls.h"
#include "window/forms.h"
#include "window/room-forms.h"
#include "window/room-page.h"
#include "window/room-rows.h"
#include "words/words-room.h"
#include "words/words.h"

#define LITTLE_LEFT_M 30                /* from which a thread is shown as running out: common practice */

/* ---- thread ---- */

static void
add_spool_action (GSimpleAction *action,
                  GVariant      *parameter,
                  gpointer       page)
{
  hw_room_page_show_form (page, hw_spool_form_new (hw_room_page_workspace (page), NULL));
}

static void
edit_spool_action (GSimpleAction *action,
                   GVariant      *parameter,
                   gpointer       page)
{
  hw_room_page_show_form (page, hw_spool_form_new (hw_room_page_workspace (page),
                                                   g_variant_get_string (parameter, NULL)));
}

static void
remove_spool_action (GSimpleAction *action,
                     GVariant      *parameter,
                     gpointer       page)
{
  const HwRoom *room = hw_room_page_room (page);
  g_autoptr (GPtrArray) spools = hw_shelf_put (room->spools, NULL, g_variant_get_string (parameter, NULL));
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_room_with_spools (room, spools, &error);

  hw_room_page_close_form (page);
  hw_workspace_take_room (hw_room_page_workspace (page), next, error);
}

static char *
say_spool (const HwRoom     *room,
           const HwHandbook *handbook,
           const HwSpool    *spool)
{
  g_autofree char *left = hw_words_metres (hw_room_spool_left (room, spool, handbook));
  g_autofree char *counted = g_strndup (spool->counted, strlen ("2031-05-09"));
  g_autofree char *snap = hw_words_snap (spool->snap);

  /* Translators: metres of thread left, the day they were counted, “snaps well” or the like */
  return g_strdup_printf (_("%s left (counted %s), %s"), left, counted, snap);
}

static void
fill_thread (HwRoomPage *page,
             GtkWidget  *box)
{
  const HwRoom     *room = hw_room_page_room (page);
  const HwHandbook *handbook = hw_room_page_handbook (page);

  for (guint i = 0; i < room->spools->len; i++)
    {
      const HwSpool   *spool = room->spools->pdata[i];
      g_autofree char *name = hw_words_spool (handbook, spool);
      g_autofree char *detail = say_spool (room, handbook, spool);
      gboolean         wants_care = spool->snap == HW_SNAP_WEAK
                                    || hw_room_spool_left (room, spool, handbook) < LITTLE_LEFT_M;
      GtkWidget       *row = hw_room_rows_add (box, name, detail, wants_care ? "brass" : "mute");

      if (spool->note != NULL)
        gtk_widget_set_tooltip_text (row, spool->note);
      hw_room_row_add_button (row, _("Change or count…"), name, "thread.edit", spool->id);
    }
  if (room->spools->len == 0)
    hw_room_rows_add_empty (box, _("No thread is on the shelf yet. Add what you have, by colour and kind: the metres "
                                   "that steps take are then subtracted as you sew them."));
}

static GtkWidget *
make_thread_aside (HwRoomPage *page)
{
  static const char * const steps[] = {
    N_("Hold a hand’s length of it between both hands and pull, first gently, then with a jerk."),
    N_("Good thread resists and then breaks with a snap. Thread that parts softly, or at once, has aged: it snaps in "
       "the needle too. Keep it for tacking, or throw it away."),
    N_("Take the length from inside the spool: light ages the outermost turns first."),
  };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  gtk_box_append (GTK_BOX (box), hw_label_new (_("The snap test"), "subtitle"));
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    gtk_box_append (GTK_BOX (box), hw_label_new (_(steps[i]), NULL));
  gtk_box_append (GTK_BOX (box), hw_label_new (_("Common practice, no source."), "mute"));
  return box;
}

GtkWidget *
hw_thread_page_new (HwWorkspace *workspace)
{
  static const GActionEntry actions[] = {
    { .name = "add", .activate = add_spool_action },
    { .name = "edit", .activate = edit_spool_action, .parameter_type = "s" },
    { .name = "remove", .activate = remove_spool_action, .parameter_type = "s" },
  };
  static const HwRoomPageKind kind = {
    N_("Thread"), "thread", actions, G_N_ELEMENTS (actions), N_("Add thread"), NULL, fill_thread, make_thread_aside
  };

  return hw_room_page_new (workspace, &kind);
}

/* ---- fabrics ---- */

static void
add_cloth_action (GSimpleAction *action,
                  GVariant      *parameter,
                  gpointer       page)
{
  hw_room_page_show_form (page, hw_shelf_cloth_form_new (hw_room_page_workspace (page), NULL));
}

static void
edit_cloth_action (GSimpleAction *action,
                   GVariant      *parameter,
                   gpointer       page)
{
  hw_room_page_show_form (page, hw_shelf_cloth_form_new (hw_room_page_workspace (page),
                                                         g_variant_get_string (parameter, NULL)));
}

static void
remove_cloth_action (GSimpleAction *action,
                     GVariant      *parameter,
                     gpointer       page)
{
  const HwRoom *room = hw_room_page_room (page);
  g_autoptr (GPtrArray) cloths = hw_shelf_put (room->cloths, NULL, g_variant_get_string (parameter, NULL));
  g_autoptr (GError) error = NULL;
  HwRoom *next = hw_room_with_cloths (room, cloths, &error);

  hw_room_page_close_form (page);
  hw_workspace_take_room (hw_room_page_workspace (page), next, error);
}

static void
use_action (GSimpleAction *action,
            GVariant      *parameter,
            gpointer       page)
{
  HwWorkspace *workspace = hw_room_page_workspace (page);
  const char  *id = g_variant_get_string (parameter, NULL);

  if (hw_workspace_peek_project (workspace) != NULL
      && hw_shelf_find (hw_workspace_get_room (workspace)->cloths, id) != NULL)
    hw_room_page_show_form (page, hw_use_cloth_form_new (workspace, id));
}

static char *
say_cloth (const HwHandbook   *handbook,
           const HwShelfCloth *cloth)
{
  g_autofree char *figures = hw_words_shelf_cloth (handbook, cloth);
  g_autofree char *metres = cloth->metres > 0 ? hw_words_metres (cloth->metres) : NULL;
  g_autofree char *width = cloth->width_cm > 0 ? hw_words_cm (cloth->width_cm, 1) : NULL;
  const char      *measured = cloth->mass_g_m2 > 0 || cloth->thickness_mm > 0 ? _("measured") : _("as in the handbook");

  if (metres != NULL && width != NULL)
    /* Translators: mass and thickness of a fabric, “measured”, its metres, its width */
    return g_strdup_printf (_("%s (%s); %s of %s"), figures, measured, metres, width);
  if (metres != NULL)
    /* Translators: mass and thickness of a fabric, “measured”, its metres */
    return g_strdup_printf (_("%s (%s); %s"), figures, measured, metres);
  /* Translators: mass and thickness of a fabric, “measured” */
  return g_strdup_printf (_("%s (%s)"), figures, measured);
}

static void
fill_fabrics (HwRoomPage *page,
              GtkWidget  *box)
{
  const HwRoom *room = hw_room_page_room (page);
  gboolean      open = hw_workspace_peek_project (hw_room_page_workspace (page)) != NULL;

  for (guint i = 0; i < room->cloths->len; i++)
    {
      const HwShelfCloth *cloth = room->cloths->pdata[i];
      g_autofree char    *detail = say_cloth (hw_room_page_handbook (page), cloth);
      GtkWidget          *row = hw_room_rows_add (box, cloth->name, detail, "mute");

      if (cloth->note != NULL)
        gtk_widget_set_tooltip_text (row, cloth->note);
      if (open)
        hw_room_row_add_button (row, _("Use in the project…"), cloth->name, "fabrics.use", cloth->id);
      hw_room_row_add_button (row, _("Change…"), cloth->name, "fabrics.edit", cloth->id);
    }
  if (room->cloths->len == 0)
    hw_room_rows_add_empty (box, _("No fabric is on hand yet. Add one, weigh a cut of it, and use it in a project: "
                                   "its own mass and thickness then take the place of the handbook’s typical ones."));
}

static GtkWidget *
make_fabrics_aside (HwRoomPage *page)
{
  static const char * const steps[] = {
    N_("Mass: cut a piece along the threads, at least 10 × 10 cm, and weigh it on a kitchen or letter scale. The "
       "larger the piece, the less the scale’s error counts. Type width, length and grams into the fabric’s form."),
    N_("Thickness: fold or pile ten layers, lay a ruler on them, and measure the height without squeezing."),
    N_("Stretch: mark 10 cm across the cloth, pull as far as it goes easily, and read how many more per cent it is."),
  };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  gtk_box_append (GTK_BOX (box), hw_label_new (_("Measuring a fabric at home"), "subtitle"));
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    gtk_box_append (GTK_BOX (box), hw_label_new (_(steps[i]), NULL));
  gtk_box_append (GTK_BOX (box), hw_label_new (_("Mass by grams over area, as ISO 3801 has it; the rest is common "
                                                 "practice, no source."), "mute"));
  return box;
}

GtkWidget *
hw_fabrics_page_new (HwWorkspace *workspace)
{
  static const GActionEntry actions[] = {
    { .name = "add", .activate = add_cloth_action },
    { .name = "edit", .activate = edit_cloth_action, .parameter_type = "s" },
    { .name = "remove", .activate = remove_cloth_action, .parameter_type = "s" },
    { .name = "use", .activate = use_action, .parameter_type = "s" },
  };
  static const HwRoomPageKind kind = {
    N_("Fabrics"), "fabrics", actions, G_N_ELEMENTS (actions), N_("Add a fabric"), NULL, fill_fabrics,
    make_fabrics_aside
  };

  return hw_room_page_new (workspace, &kind);
}
