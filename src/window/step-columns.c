/* step-columns.c - the columns of the making up: number, step, fabrics, seam, layers, length, stitch, after
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/step-columns.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "window/motif.h"
#include "window/step-list.h"
#include "window/steps.h"
#include "window/stitch-mark.h"
#include "words/words.h"

#define SEWN_EM 1.1
#define ROOMY_EM 50.0                   /* until the width is known */

typedef struct
{
  const char *title;
  double      xalign;
  const char *width;                    /* the style's class that says how wide its words are at least: asking the font
                                         * for the width of its letters, cell by cell, takes longer than the words */
  gboolean    expand;
  double      from_em;                  /* shown where the list is as wide; 0 always */
  char     *(* text) (HwWorkspace *workspace, const HwStep *step);     /* NULL: nothing to say */
} Column;

/* What a bound cell needs when its item changes, and what it shows: a long list is told of every edit, and a label that
 * is given what it has already costs as much as another. There are more cells than anything else: a box is made only
 * where two things stand side by side, words only where there are some. */
typedef struct
{
  const Column *column;
  HwWorkspace  *workspace;
  GtkWidget    *child;                  /* the label, or the box it stands in */
  GtkWidget    *label;                  /* NULL in a drawn column: no words yet */
  GtkWidget    *motif;                  /* where seam or stitch is drawn; else NULL */
  HwStepItem   *item;                   /* while bound */
  gulong        handler;
  char         *text;                   /* NULL: shows nothing yet */
  char         *row_name;               /* of the name's column only */
  char         *layers;                 /* "2 Cotton poplin + 1 Interfacing", where that is told; else NULL */
  const HwEntry *drawn;                 /* seam or stitch; NULL: none */
  guint          n_layers;              /* of the step that it draws */
  gboolean      quiet;
  gboolean      done;                   /* the journal says so; of the number's and the name's column only */
  GtkWidget    *sewn;                   /* NULL until the step of a row is */
  HwStep       *step;                   /* what it was filled from, and how words were written then */
  guint         style;
} Cell;

static char *
say_number (HwWorkspace  *workspace,
            const HwStep *step)
{
  return g_strdup (step->number);
}

static char *
say_name (HwWorkspace  *workspace,
          const HwStep *step)
{
  return g_strdup (step->name);
}

static const HwSeam *
find_seam (HwWorkspace  *workspace,
           const HwStep *step)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  int purpose = step->purpose != NULL ? hw_handbook_find_purpose (handbook, step->purpose) : -1;
  int seam = -1;

  if (step->seam != NULL)
    seam = hw_handbook_find_seam (handbook, step->seam);
  else if (purpose >= 0)
    seam = handbook->purposes[purpose].seam;
  return seam >= 0 ? &handbook->seams[seam] : NULL;
}

static char *
say_seam (HwWorkspace  *workspace,
          const HwStep *step)
{
  const HwSeam *seam = step->kind == HW_STEP_OPERATION ? find_seam (workspace, step) : NULL;

  if (step->kind == HW_STEP_HAND)
    return g_strdup (_("by hand"));
  return seam != NULL ? g_strdup (seam->entry.name) : NULL;
}

static const HwStitch *
find_stitch (HwWorkspace  *workspace,
             const HwStep *step)
{
  const HwHandbook *handbook = hw_workspace_get_handbook (workspace);
  int purpose = step->purpose != NULL ? hw_handbook_find_purpose (handbook, step->purpose) : -1;
  int stitch = -1;

  if (step->stitch != NULL)
    stitch = hw_handbook_find_stitch (handbook, step->stitch);
  else if (purpose >= 0)
    stitch = handbook->purposes[purpose].stitch;
  return stitch >= 0 ? &handbook->stitches[stitch] : NULL;
}

static char *
say_stitch (HwWorkspace  *workspace,
            const HwStep *step)
{
  const HwStitch *stitch = step->kind == HW_STEP_OPERATION ? find_stitch (workspace, step) : NULL;

  return stitch != NULL ? g_strdup (stitch->entry.name) : NULL;
}

static const char *
name_fabric (HwWorkspace *workspace,
             const HwPly *ply)
{
  const HwProjectFabric *fabric = hw_project_find_fabric (hw_workspace_peek_project (workspace), ply->fabric);

  return fabric != NULL ? fabric->name : ply->fabric;
}

/* "Cotton poplin, Interfacing" */
static char *
say_fabrics (HwWorkspace  *workspace,
             const HwStep *step)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (gsize i = 0; i < step->n_plies; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? C_("list", ", ") : "", name_fabric (workspace, &step->plies[i]));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* "2 Cotton poplin + 1 Interfacing" */
static char *
say_layer_names (HwWorkspace  *workspace,
                 const HwStep *step)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (gsize i = 0; i < step->n_plies; i++)
    {
      g_string_append (text, i > 0 ? " + " : "");
      /* Translators: how many layers, of which fabric */
      g_string_append_printf (text, _("%d %s"), step->plies[i].count, name_fabric (workspace, &step->plies[i]));
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* "After 33 Turn the hem up, 28 Press the seams" */
static char *
say_after_names (HwWorkspace  *workspace,
                 const HwStep *step)
{
  const HwProject *project = hw_workspace_peek_project (workspace);
  g_autoptr (GString) names = g_string_new (NULL);

  for (char **number = step->after; *number != NULL; number++)
    {
      int place = hw_project_find_step (project, *number);

      /* Translators: a step's number and name */
      g_string_append_printf (names, _("%s  %s"), *number,
                              place >= 0 ? hw_project_get_step (project, (gsize) place)->name : "");
      if (number[1] != NULL)
        g_string_append_c (names, '\n');
    }
  /* Translators: steps, one a line, that are done before this one */
  return names->len > 0 ? g_strdup_printf (_("After these steps:\n%s"), names->str) : NULL;
}

static char *
say_layers (HwWorkspace  *workspace,
            const HwStep *step)
{
  return step->kind == HW_STEP_OPERATION ? hw_words_layer_counts (step) : NULL;
}

static char *
say_length (HwWorkspace  *workspace,
            const HwStep *step)
{
  return step->kind == HW_STEP_OPERATION ? hw_words_sewn_length (step) : hw_words_minutes (step->minutes);
}

static char *
say_after (HwWorkspace  *workspace,
           const HwStep *step)
{
  return g_strjoinv (" ", step->after);
}

static const Column columns[] = {
  { "", 1, "width-s", FALSE, 0, say_number },
  { N_("Step"), 0, "width-xl", TRUE, 0, say_name },
  { N_("Fabrics"), 0, "width-xl", FALSE, 60, say_fabrics },
  { N_("Seam"), 0, "width-l", FALSE, 0, say_seam },
  { N_("Layers"), 0, "width-m", FALSE, 0, say_layers },
  { N_("Length"), 1, "width-m", FALSE, 0, say_length },
  { N_("Stitch"), 0, "width-m", FALSE, 42, say_stitch },
  { N_("After"), 0, "width-s", FALSE, 47, say_after },
};

/* ---- cells ---- */

static gboolean
is_drawn_column (const Column *column)
{
  return column->text == say_seam || column->text == say_stitch;
}

/* The seam or the stitch that the cell draws; NULL: its words stand there. */
static const HwEntry *
find_drawn (Cell         *cell,
            const HwStep *step)
{
  const HwSeam   *seam = NULL;
  const HwStitch *stitch = NULL;

  if (!is_drawn_column (cell->column) || step->kind != HW_STEP_OPERATION)
    return NULL;
  if (cell->column->text == say_stitch)
    {
      stitch = find_stitch (cell->workspace, step);
      return stitch != NULL ? &stitch->entry : NULL;
    }
  seam = find_seam (cell->workspace, step);
  return seam != NULL && seam->n_plies > 0 ? &seam->entry : NULL;
}

/* The drawing's name is told when asked for: a tooltip that is set asks the display where the pointer is. */
static gboolean
query_drawn_cb (GtkWidget  *motif,
                int         x,
                int         y,
                gboolean    keyboard,
                GtkTooltip *tooltip,
                Cell       *cell)
{
  if (cell->drawn == NULL)
    return FALSE;
  gtk_tooltip_set_text (tooltip, cell->drawn->name);
  return TRUE;
}

static void
add_motif (Cell *cell)
{
  cell->motif = hw_motif_new (cell->column->text == say_seam ? 4 : 3.2, 1.9);
  gtk_widget_set_has_tooltip (cell->motif, TRUE);
  g_signal_connect (cell->motif, "query-tooltip", G_CALLBACK (query_drawn_cb), cell);
  gtk_box_prepend (GTK_BOX (cell->child), cell->motif);
}

static void
show_drawn (Cell          *cell,
            const HwStep  *step,
            const HwEntry *drawn)
{
  cell->drawn = drawn;
  cell->n_layers = hw_step_count_layers (step);
  if (drawn != NULL && cell->motif == NULL)
    add_motif (cell);
  if (cell->motif != NULL)
    gtk_widget_set_visible (cell->motif, drawn != NULL);
  if (drawn == NULL)
    return;
  if (cell->column->text == say_stitch)
    hw_motif_show_row (HW_MOTIF (cell->motif), ((const HwStitch *) drawn)->mark);
  else
    hw_motif_show_seam (HW_MOTIF (cell->motif), (const HwSeam *) drawn, cell->n_layers);
  hw_motif_set_name (HW_MOTIF (cell->motif), drawn->name);
}

/* The tooltip gives the whole of what is cut off. */
static GtkWidget *
make_label (const Column *column)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), (float) column->xalign);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, column->width);
  gtk_widget_set_hexpand (label, TRUE);
  hw_label_tell_whole (label);
  if (column->expand)
    {
      gtk_widget_add_css_class (label, "name");
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
      gtk_label_set_lines (GTK_LABEL (label), 2);
    }
  return label;
}

static void
show_quiet (Cell    *cell,
            gboolean quiet)
{
  cell->quiet = quiet;
  if (cell->label == NULL)
    return;
  if (quiet)
    gtk_widget_add_css_class (cell->label, "mute");
  else
    gtk_widget_remove_css_class (cell->label, "mute");
}

static void
name_cell (Cell       *cell,
           const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_parent (cell->child)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, name[0] != '\0' ? name : _("none"), -1);
}

static void
show_text (Cell *cell,
           char *text)                  /* (transfer full) */
{
  g_free (cell->text);
  cell->text = text;
  if (cell->label != NULL)
    gtk_label_set_text (GTK_LABEL (cell->label), text);
  if (cell->column->text != say_layers)
    name_cell (cell, text);
}

static void
show_words (Cell    *cell,
            gboolean shown)
{
  if (shown && cell->label == NULL)
    {
      cell->label = make_label (cell->column);
      gtk_label_set_text (GTK_LABEL (cell->label), cell->text);
      gtk_box_append (GTK_BOX (cell->child), cell->label);
      show_quiet (cell, cell->quiet);
    }
  if (cell->label != NULL)
    gtk_widget_set_visible (cell->label, shown);
}

static void
fill_cell (Cell *cell)
{
  const HwStep    *step = hw_step_item_get_step (cell->item);
  const HwEntry   *drawn = find_drawn (cell, step);
  g_autofree char *text = cell->column->text (cell->workspace, step);
  gboolean         quiet = step->kind == HW_STEP_HAND || cell->column->text == say_after
                           || cell->column->text == say_number || is_drawn_column (cell->column)
                           || cell->column->text == say_fabrics;

  if (text == NULL)
    text = g_strdup ("");
  if (drawn != cell->drawn || hw_step_count_layers (step) != cell->n_layers)
    show_drawn (cell, step, drawn);
  if (quiet != cell->quiet)
    show_quiet (cell, quiet);
  if (g_strcmp0 (text, cell->text) != 0)
    show_text (cell, g_steal_pointer (&text));
  show_words (cell, drawn == NULL && cell->text[0] != '\0');
}

/* What the few signs of a cell stand for. */
static gboolean
query_names_cb (GtkWidget  *label,
                int         x,
                int         y,
                gboolean    keyboard,
                GtkTooltip *tooltip,
                Cell       *cell)
{
  g_autofree char *names = NULL;

  if (cell->item != NULL)
    names = (cell->column->text == say_after ? say_after_names
                                             : say_layer_names) (cell->workspace, hw_step_item_get_step (cell->item));
  if (names == NULL || names[0] == '\0')
    return FALSE;
  gtk_tooltip_set_text (tooltip, names);
  return TRUE;
}

/* The list makes its own rows; a cell in it finds the one it stands in. NULL: it stands in none yet. */
static GtkWidget *
get_row (Cell *cell)
{
  return gtk_widget_get_parent (gtk_widget_get_parent (cell->child));
}

/* Rows are used again for other steps: the drag is added once, the step told each time. */
static void
prepare_row (Cell *cell)
{
  GtkWidget *row = get_row (cell);

  if (row == NULL)
    return;
  if (g_object_get_data (G_OBJECT (row), "hw-dragged") == NULL)
    {
      hw_steps_add_drag (row);
      g_object_set_data (G_OBJECT (row), "hw-dragged", row);
    }
  hw_steps_set_row (row, cell->item);
}

/* A person who hears the list hears a row as one sentence. */
static void
name_row (Cell *cell)
{
  const HwStep    *step = hw_step_item_get_step (cell->item);
  GtkWidget       *row = get_row (cell);
  g_autofree char *length = say_length (cell->workspace, step);
  g_autofree char *seam = say_seam (cell->workspace, step);
  g_autofree char *stitch = say_stitch (cell->workspace, step);
  g_autofree char *name = NULL;
  g_autofree char *open = NULL;

  if (step->kind == HW_STEP_HAND)
    /* Translators: a step's number, its name, “by hand”, its minutes */
    open = g_strdup_printf (_("Step %s: %s, %s, %s"), step->number, step->name, seam, length);
  else
    /* Translators: a step's number, its name, its seam, its layers (“2 Cotton poplin + 1 Interfacing”), its stitch, its
     * length */
    open = g_strdup_printf (_("Step %s: %s, %s, layers %s, %s, %s"), step->number, step->name,
                            seam != NULL ? seam : _("no seam"), cell->layers,
                            stitch != NULL ? stitch : _("no stitch"), length);
  /* Translators: what a row of the making up says of its step */
  name = cell->done ? g_strdup_printf (_("%s, sewn"), open) : g_strdup (open);
  if (row == NULL || g_strcmp0 (name, cell->row_name) == 0)
    return;
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_free (cell->row_name);
  cell->row_name = g_steal_pointer (&name);
}

/* Only what tells of layers; TRUE: it is another than it was. */
static gboolean
take_layers (Cell         *cell,
             const HwStep *step)
{
  g_autofree char *layers = NULL;

  if (cell->column->text != say_layers && cell->column->text != say_name)
    return FALSE;
  layers = say_layer_names (cell->workspace, step);
  if (g_strcmp0 (layers, cell->layers) == 0)
    return FALSE;
  g_free (cell->layers);
  cell->layers = g_steal_pointer (&layers);
  if (cell->column->text == say_layers)
    name_cell (cell, cell->layers);
  return TRUE;
}

/* As the order of work crosses it. TRUE: it is other than it was. */
static gboolean
take_done (Cell         *cell,
           const HwStep *step)
{
  const HwProject *project = hw_workspace_peek_project (cell->workspace);
  gboolean         done = project != NULL && (cell->column->text == say_number || cell->column->text == say_name)
                          && hw_room_step_done (hw_workspace_get_room (cell->workspace), project->id,
                                                step->number) != NULL;

  if (done == cell->done)
    return FALSE;
  cell->done = done;
  if (cell->column->text != say_number)
    return TRUE;
  if (cell->sewn == NULL)
    {
      cell->sewn = hw_motif_new (SEWN_EM, SEWN_EM);
      gtk_widget_set_valign (cell->sewn, GTK_ALIGN_CENTER);
      hw_motif_show_cross_stitch (HW_MOTIF (cell->sewn), TRUE);
      hw_motif_set_name (HW_MOTIF (cell->sewn), _("sewn"));
      gtk_widget_set_tooltip_text (cell->sewn, _("sewn"));
      gtk_box_insert_child_after (GTK_BOX (cell->child), cell->sewn, gtk_widget_get_first_child (cell->child));
    }
  gtk_widget_set_visible (cell->sewn, done);
  return TRUE;
}

/* What a cell shows follows from its step alone, an immutable one, and from how words are written; but a fabric's name
 * may be another, and the step may have been sewn. */
static void
item_changed_cb (Cell *cell)
{
  HwStep  *step = (HwStep *) hw_step_item_get_step (cell->item);
  gboolean named = cell->column->text != say_name || cell->row_name != NULL;
  gboolean other_layers = take_layers (cell, step);
  gboolean other_done = take_done (cell, step);

  if (cell->column->text != say_fabrics && step == cell->step && hw_words_get_style () == cell->style && named
      && !other_layers && !other_done)
    return;
  g_clear_pointer (&cell->step, hw_step_unref);
  cell->step = hw_step_ref (step);
  cell->style = hw_words_get_style ();
  fill_cell (cell);
  if (cell->column->text == say_name)
    name_row (cell);
}

static void
free_cell (gpointer data)
{
  Cell *cell = data;

  g_clear_pointer (&cell->step, hw_step_unref);
  g_free (cell->text);
  g_free (cell->row_name);
  g_free (cell->layers);
  g_free (cell);
}

static Cell *
get_cell (GtkListItem *item)
{
  return g_object_get_data (G_OBJECT (item), "hw-cell");
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *item,
          HwWorkspace              *workspace)
{
  const Column *column = g_object_get_data (G_OBJECT (factory), "hw-column");
  Cell         *cell = g_new0 (Cell, 1);

  cell->column = column;
  cell->workspace = workspace;
  if (column->text == say_number || is_drawn_column (column))
    cell->child = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);
  if (column->text == say_number)
    gtk_box_append (GTK_BOX (cell->child), hw_stitch_mark_new (GTK_ORIENTATION_VERTICAL));
  if (!is_drawn_column (column))
    cell->label = make_label (column);
  if (column->text == say_layers || column->text == say_after)
    g_signal_connect (cell->label, "query-tooltip", G_CALLBACK (query_names_cb), cell);
  if (cell->child == NULL)
    cell->child = cell->label;
  else if (cell->label != NULL)
    gtk_box_append (GTK_BOX (cell->child), cell->label);
  gtk_list_item_set_child (item, cell->child);
  g_object_set_data_full (G_OBJECT (item), "hw-cell", cell, free_cell);
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *item,
         HwWorkspace              *workspace)
{
  Cell *cell = get_cell (item);

  cell->item = gtk_list_item_get_item (item);
  cell->handler = g_signal_connect_swapped (cell->item, "changed", G_CALLBACK (item_changed_cb), cell);
  item_changed_cb (cell);
  if (cell->column->text == say_name)
    prepare_row (cell);
}

static void
unbind_cb (GtkSignalListItemFactory *factory,
           GtkListItem              *item,
           HwWorkspace              *workspace)
{
  Cell *cell = get_cell (item);

  g_clear_signal_handler (&cell->handler, cell->item);
  cell->item = NULL;
  if (cell->column->text == say_name && get_row (cell) != NULL)
    hw_steps_set_row (get_row (cell), NULL);
}

/* A column of figures has its title where they end. The titles are the view's own, one a column, in their order. */
static void
prepare_titles (GtkColumnView *view)
{
  GtkWidget *titles = gtk_widget_get_first_child (GTK_WIDGET (view));
  gsize      i = 0;

  for (GtkWidget *title = gtk_widget_get_first_child (titles); title != NULL && i < G_N_ELEMENTS (columns);
       title = gtk_widget_get_next_sibling (title), i++)
    {
      if (columns[i].xalign > 0 && gtk_widget_get_first_child (title) != NULL)
        gtk_widget_set_halign (gtk_widget_get_first_child (title), GTK_ALIGN_END);
      if (columns[i].text == say_layers)
        gtk_widget_set_tooltip_text (title, _("How many layers of each fabric lie under the needle"));
      else if (columns[i].text == say_after)
        gtk_widget_set_tooltip_text (title, _("The steps that must be done before"));
    }
}

/* The page that owns the view holds the workspace as long as the view is there. */
void
hw_step_columns_add (GtkColumnView *view,
                     HwWorkspace   *workspace)
{
  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    {
      GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
      g_autoptr (GtkColumnViewColumn) column = NULL;

      g_object_set_data (G_OBJECT (factory), "hw-column", (gpointer) &columns[i]);
      g_signal_connect_object (factory, "setup", G_CALLBACK (setup_cb), workspace, 0);
      g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), workspace, 0);
      g_signal_connect_object (factory, "unbind", G_CALLBACK (unbind_cb), workspace, 0);
      column = gtk_column_view_column_new (columns[i].title[0] != '\0' ? _(columns[i].title) : "", factory);
      gtk_column_view_column_set_expand (column, columns[i].expand);
      gtk_column_view_column_set_visible (column, columns[i].from_em < ROOMY_EM);
      gtk_column_view_append_column (view, column);
    }
  /* The row of the titles stands before the list of rows; it would be told by its type's name. */
  hw_control_name (gtk_widget_get_first_child (GTK_WIDGET (view)), _("Titles of the columns"));
  prepare_titles (view);
}

/* The columns that say least give way before names are cut short. */
void
hw_step_columns_fit (GtkColumnView *view,
                     double         width_em)
{
  GListModel *shown = gtk_column_view_get_columns (view);

  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (shown, i);

      gtk_column_view_column_set_visible (column, width_em >= columns[i].from_em);
    }
}
