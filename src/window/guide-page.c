/* guide-page.c - the user guide: its chapters, and the one that is read
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/guide-page.h"

#include <glib/gi18n.h>

#include "command/command.h"
#include "handbook/guide.h"
#include "window/controls.h"
#include "window/tab-stop.h"
#include "words/words.h"
#include "words/words-picture.h"

#define LINE_CHARS 76                    /* a line of text that the eye finds back from */
#define LIST_WIDTH 230

/* Kept with the page. */
typedef struct
{
  HwHandbook *handbook;                  /* the sources of its formulas lie there */
  GPtrArray  *chapters;                  /* of HwGuideChapter */
  GtkWidget  *scroll, *text;
  int         shown;                     /* chapter; -1 none */
} Guide;

static void
free_guide (gpointer data)
{
  Guide *self = data;

  g_clear_pointer (&self->chapters, g_ptr_array_unref);
  g_clear_pointer (&self->handbook, hw_handbook_unref);
  g_free (self);
}

static GtkWidget *
add_text (GtkWidget  *box,
          const char *text,
          const char *css_class)
{
  GtkWidget *label = hw_label_new (text, css_class);

  gtk_label_set_max_width_chars (GTK_LABEL (label), LINE_CHARS);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  gtk_widget_set_can_focus (label, FALSE);              /* one that only may not have the focus holds Tab fast */
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
add_step (GtkWidget          *box,
          const HwGuideBlock *block)
{
  GtkWidget       *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  g_autofree char *number = g_strdup_printf ("%d", block->number);
  GtkWidget       *label = hw_label_new (number, "strong");

  gtk_widget_set_valign (label, GTK_ALIGN_START);
  gtk_label_set_width_chars (GTK_LABEL (label), 2);
  gtk_box_append (GTK_BOX (row), label);
  gtk_widget_set_hexpand (add_text (row, block->text, NULL), TRUE);
  gtk_box_append (GTK_BOX (box), row);
}

static void
add_picture (GtkWidget          *box,
             const HwGuideBlock *block)
{
  GtkWidget       *picture = gtk_picture_new_for_filename (block->file);
  g_autofree char *under = hw_words_picture (block->text);

  gtk_picture_set_alternative_text (GTK_PICTURE (picture), block->text);
  gtk_picture_set_can_shrink (GTK_PICTURE (picture), TRUE);
  gtk_widget_set_size_request (picture, 320, 320);
  gtk_widget_set_halign (picture, GTK_ALIGN_START);
  gtk_widget_add_css_class (picture, "sheet");
  gtk_box_append (GTK_BOX (box), picture);
  add_text (box, under, "secondary");
}

static void
add_formula (GtkWidget          *box,
             const HwGuideBlock *block)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  gtk_widget_add_css_class (sheet, "sheet");
  add_text (sheet, block->text, NULL);
  for (const HwSource **source = block->sources; *source != NULL; source++)
    {
      g_autofree char *where = hw_words_source (*source);

      add_text (sheet, where, "secondary");
    }
  gtk_box_append (GTK_BOX (box), sheet);
}

static void
add_block (GtkWidget          *box,
           const HwGuideBlock *block)
{
  switch (block->kind)
    {
    case HW_GUIDE_HEADING:
      add_text (box, block->text, "subtitle");
      return;
    case HW_GUIDE_STEP:
      add_step (box, block);
      return;
    case HW_GUIDE_EXAMPLE:
      add_text (box, block->text, "monospace");
      return;
    case HW_GUIDE_CAUTION:
      add_text (box, block->text, "strong");
      return;
    case HW_GUIDE_PICTURE:
      add_picture (box, block);
      return;
    case HW_GUIDE_FORMULA:
      add_formula (box, block);
      return;
    case HW_GUIDE_PARAGRAPH:
    default:
      add_text (box, block->text, NULL);
    }
}

static void
row_selected_cb (Guide         *self,
                 GtkListBoxRow *row)
{
  const HwGuideChapter *chapter;
  GtkWidget            *child;
  GtkWidget            *title;

  if (row == NULL || gtk_list_box_row_get_index (row) == self->shown)
    return;
  self->shown = gtk_list_box_row_get_index (row);
  while ((child = gtk_widget_get_first_child (self->text)) != NULL)
    gtk_box_remove (GTK_BOX (self->text), child);
  chapter = self->chapters->pdata[gtk_list_box_row_get_index (row)];
  title = add_text (self->text, chapter->title, "figure");
  gtk_widget_set_can_focus (title, TRUE);               /* so that Page Down can scroll the chapter */
  for (guint i = 0; i < chapter->blocks->len; i++)
    add_block (self->text, chapter->blocks->pdata[i]);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroll)), 0);
}

static GtkWidget *
build_list (Guide *self)
{
  GtkWidget *list = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_BROWSE);
  gtk_widget_add_css_class (list, "index");
  gtk_widget_set_size_request (list, LIST_WIDTH, -1);
  gtk_widget_set_valign (list, GTK_ALIGN_START);
  hw_control_name (list, _("Chapters of the guide"));
  for (guint i = 0; i < self->chapters->len; i++)
    {
      const HwGuideChapter *chapter = self->chapters->pdata[i];
      GtkWidget            *label = hw_label_new (chapter->title, NULL);
      GtkWidget            *row = gtk_list_box_row_new ();

      gtk_widget_set_margin_start (label, 10);
      gtk_widget_set_margin_end (label, 10);
      gtk_widget_set_margin_top (label, 7);
      gtk_widget_set_margin_bottom (label, 7);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
      gtk_accessible_update_relation (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_RELATION_LABELLED_BY, label, NULL, -1);
      gtk_list_box_append (GTK_LIST_BOX (list), row);
    }
  g_signal_connect_swapped (list, "row-selected", G_CALLBACK (row_selected_cb), self);
  return list;
}

static GtkWidget *
build_text (Guide *self)
{
  self->scroll = gtk_scrolled_window_new ();
  self->text = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroll), self->text);
  gtk_widget_set_hexpand (self->scroll, TRUE);
  gtk_widget_set_vexpand (self->scroll, TRUE);
  return self->scroll;
}

GtkWidget *
hw_guide_page_new (HwWorkspace *workspace)
{
  g_autofree char *data = hw_data_folder ();
  g_autofree char *folder = g_build_filename (data, "guide", NULL);
  g_autoptr (GError) error = NULL;
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  GtkWidget *chapters = gtk_scrolled_window_new ();
  Guide     *self = g_new0 (Guide, 1);
  GtkWidget *list;

  gtk_widget_add_css_class (page, "page");
  g_object_set_data_full (G_OBJECT (page), "hw-guide", self, free_guide);
  self->handbook = hw_handbook_ref ((HwHandbook *) hw_workspace_get_handbook (workspace));
  self->chapters = hw_guide_load (folder, self->handbook, hw_words_translate, &error);
  if (self->chapters == NULL)
    {
      gtk_box_append (GTK_BOX (page), hw_label_new (error->message, NULL));
      return page;
    }
  self->shown = -1;
  list = build_list (self);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (chapters), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (chapters), list);
  gtk_box_append (GTK_BOX (page), hw_tab_stop_new (chapters));
  gtk_box_append (GTK_BOX (page), build_text (self));
  gtk_list_box_select_row (GTK_LIST_BOX (list), gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), 0));
  return page;
}
