/* handbook-topic.c - one entry of the handbook with its figures, its source and what it leads to
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/handbook-topic.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/motif.h"
#include "window/wrap.h"
#include "words/words.h"

#define MOST_MENTIONS 10                /* of a kind; the rest is found by search */

typedef struct
{
  GtkGrid *grid;
  int      row;
} Sheet;

static GtkWidget *
make_link (const char *text,
           const char *path)
{
  GtkWidget *button = gtk_button_new ();

  gtk_button_set_child (GTK_BUTTON (button), hw_label_new (text, NULL));
  gtk_widget_add_css_class (button, "link");
  gtk_widget_add_css_class (button, "inline");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", path);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "handbook.show");
  return button;
}

/* A row with a name before it, to be filled with values. */
static HwWrap *
add_row (Sheet      *sheet,
         const char *name)
{
  GtkWidget *heading = hw_label_new (name, "mute");
  GtkWidget *values = hw_wrap_new (10, 2);

  gtk_widget_set_valign (heading, GTK_ALIGN_START);
  gtk_label_set_width_chars (GTK_LABEL (heading), 14);
  gtk_label_set_max_width_chars (GTK_LABEL (heading), 18);
  gtk_widget_set_hexpand (values, TRUE);
  gtk_grid_attach (sheet->grid, heading, 0, sheet->row, 1, 1);
  gtk_grid_attach (sheet->grid, values, 1, sheet->row++, 1, 1);
  return HW_WRAP (values);
}

static GtkWidget *
make_source (const HwSource *source)
{
  g_autofree char *says = hw_words_source (source);
  g_autofree char *path = g_strdup_printf ("source/%s", source->id);

  return make_link (says, path);
}

static void
add_line (Sheet        *sheet,
          const HwFact *fact)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (fact->value));
  /* Translators: what it is, what it says */
  g_autofree char *text = fact->name != NULL ? g_strdup_printf (_("%s: %s"), fact->name, trimmed)
                                             : g_strdup (trimmed);
  GtkWidget       *label = hw_label_new (text, fact->source != NULL ? "strong" : NULL);

  if (g_ascii_isspace (fact->value[0]))
    gtk_widget_set_margin_start (label, 18);
  gtk_grid_attach (sheet->grid, label, 0, sheet->row++, 2, 1);
  if (fact->source != NULL)
    hw_wrap_append (add_row (sheet, _("Source")), make_source (fact->source));
}

static void
add_facts (Sheet        *sheet,
           const GArray *facts)
{
  HwWrap *row = NULL;

  for (guint i = 0; i < facts->len; i++)
    {
      const HwFact *fact = &g_array_index (facts, HwFact, i);

      if (fact->kind == HW_FACT_LINE)
        {
          add_line (sheet, fact);
          continue;
        }
      if (fact->name != NULL || row == NULL)
        row = add_row (sheet, fact->name);
      hw_wrap_append (row, fact->link != NULL ? make_link (fact->value, fact->link)
                                              : hw_label_new (fact->value, NULL));
    }
}

static GtkWidget *
make_picture (const HwHandbook *handbook,
              const HwTopic    *topic)
{
  GtkWidget *picture = NULL;

  if (g_str_equal (topic->table, "seam"))
    {
      picture = hw_motif_new (16, 6);
      hw_motif_show_seam (HW_MOTIF (picture), topic->whole, 1);
    }
  else if (g_str_equal (topic->table, "stitch"))
    {
      picture = hw_motif_new (16, 3);
      hw_motif_show_row (HW_MOTIF (picture), ((const HwStitch *) topic->whole)->mark);
    }
  else if (g_str_equal (topic->table, "fabric") || g_str_equal (topic->table, "construction"))
    {
      const HwConstruction *construction = g_str_equal (topic->table, "construction")
        ? topic->whole : &handbook->constructions[((const HwFabric *) topic->whole)->construction];

      picture = hw_motif_new (6, 6);
      hw_motif_show_cloth (HW_MOTIF (picture), construction->family, construction->entry.id);
    }
  if (picture == NULL)
    return NULL;
  gtk_widget_set_halign (picture, GTK_ALIGN_START);
  hw_motif_set_name (HW_MOTIF (picture), topic->name);
  return picture;
}

/* @of: those that name it; the ones of @kind's table, in a row of links. */
static void
add_mentions_of (Sheet           *sheet,
                 const GPtrArray *of,
                 const HwTopic   *kind)
{
  HwWrap *row = add_row (sheet, kind->kinds);
  guint   n = 0;

  for (guint i = 0; i < of->len; i++)
    {
      const HwTopic   *topic = of->pdata[i];
      g_autofree char *path = hw_topic_path (topic);

      if (topic->table == kind->table && n++ < MOST_MENTIONS)
        hw_wrap_append (row, make_link (topic->name, path));
    }
  if (n > MOST_MENTIONS)
    {
      g_autofree char *more = g_strdup_printf (ngettext ("and %u more", "and %u more", n - MOST_MENTIONS),
                                               n - MOST_MENTIONS);

      hw_wrap_append (row, hw_label_new (more, "mute"));
    }
}

static void
add_mentions (Sheet           *sheet,
              const GPtrArray *of)
{
  const char *last = NULL;

  gtk_grid_attach (sheet->grid, hw_label_new (_("Named by"), "heading"), 0, sheet->row++, 2, 1);
  for (guint i = 0; i < of->len; i++)
    {
      const HwTopic *topic = of->pdata[i];

      if (topic->table != last)
        add_mentions_of (sheet, of, topic);
      last = topic->table;
    }
}

static GtkWidget *
make_head (const HwTopic *topic,
           gboolean       back)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *button = gtk_button_new_with_label (_("Back"));

  gtk_box_append (GTK_BOX (words), hw_label_new (topic->name, "subtitle"));
  gtk_box_append (GTK_BOX (words), hw_label_new (topic->kind, "mute"));
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (head), words);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_valign (button, GTK_ALIGN_START);
  gtk_widget_set_tooltip_text (button, _("Back to the entry before"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "handbook.back");
  gtk_widget_set_visible (button, back);
  gtk_box_append (GTK_BOX (head), button);
  return head;
}

GtkWidget *
hw_handbook_topic_new (const HwHandbook *handbook,
                       const HwTopic    *topic,
                       GHashTable       *mentions,
                       gboolean          back)
{
  GtkWidget         *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget         *picture = make_picture (handbook, topic);
  Sheet              sheet = { GTK_GRID (gtk_grid_new ()), 0 };
  g_autoptr (GArray) facts = hw_topic_facts (handbook, topic);
  g_autofree char   *path = hw_topic_path (topic);
  const GPtrArray   *of = g_hash_table_lookup (mentions, path);

  gtk_grid_set_row_spacing (sheet.grid, 6);
  gtk_grid_set_column_spacing (sheet.grid, 12);
  gtk_box_append (GTK_BOX (box), make_head (topic, back));
  if (picture != NULL)
    gtk_box_append (GTK_BOX (box), picture);
  if (topic->note != NULL)
    gtk_box_append (GTK_BOX (box), hw_label_new (topic->note, NULL));
  add_facts (&sheet, facts);
  if (topic->source != NULL)
    hw_wrap_append (add_row (&sheet, _("Source")), make_source (topic->source));
  if (of != NULL)
    add_mentions (&sheet, of);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (sheet.grid));
  return box;
}
