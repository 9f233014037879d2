/* cards-choice.c - which cards, on which paper, for whose machine
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/cards-choice.h"

#include <glib/gi18n.h>

#include "window/controls.h"

/* What the paper choice offers, in its order. */
static const struct
{
  const char *name;
  HwPaper     paper;
  int         per_sheet;
} layouts[] = {
  { N_("A5, one card a page"), HW_PAPER_A5, 1 },
  { N_("A6, one small card a page"), HW_PAPER_A6, 1 },
  { N_("A4, two cards a sheet"), HW_PAPER_A4, 2 },
  { N_("A4, four small cards a sheet"), HW_PAPER_A4, 4 },
  { N_("Letter, two cards a sheet"), HW_PAPER_LETTER, 2 },
  { N_("Letter, four small cards a sheet"), HW_PAPER_LETTER, 4 },
};

typedef enum { WHICH_ALL, WHICH_LEFT, WHICH_SELECTED, WHICH_HANDOUT, N_WHICH } Which;

static const char * const which_names[N_WHICH] = {
  N_("all"), N_("what is left to sew"), N_("the selected step’s"), N_("a class handout"),
};

struct _HwCardsChoice
{
  HwWorkspace *workspace;                /* the page holds it */
  GtkDropDown *layout, *which;
  GtkWidget   *machines_button, *machines_box;
  GHashTable  *left_out;                 /* ids of machines that get no handout */
  GCallback    changed;
  gpointer     data;
  HwPaper      preferred;                /* as the preferences had it when it was last taken from them */
};

static void
changed_cb (HwCardsChoice *self)
{
  ((void (*) (gpointer)) self->changed) (self->data);
}

/* The paper of the preferences; another can be taken here for once. */
static void
take_preferred (HwCardsChoice *self)
{
  guint layout = 0;

  self->preferred = hw_paper_chosen (hw_workspace_get_room (self->workspace)->preferences);
  while (layout + 1 < G_N_ELEMENTS (layouts) && layouts[layout].paper != self->preferred)
    layout++;
  g_signal_handlers_block_by_func (self->layout, changed_cb, self);
  gtk_drop_down_set_selected (self->layout, layout);
  g_signal_handlers_unblock_by_func (self->layout, changed_cb, self);
}

static void
free_choice (gpointer data)
{
  HwCardsChoice *self = data;

  g_hash_table_unref (self->left_out);
  g_free (self);
}

static Which
get_which (HwCardsChoice *self)
{
  return (Which) gtk_drop_down_get_selected (self->which);
}

/* ---- the machines of a handout ---- */

static void
toggled_cb (GtkCheckButton *check,
            HwCardsChoice  *self)
{
  const char *id = g_object_get_data (G_OBJECT (check), "hw-machine");

  if (gtk_check_button_get_active (check))
    g_hash_table_remove (self->left_out, id);
  else
    g_hash_table_add (self->left_out, g_strdup (id));
  changed_cb (self);
}

static void
add_machine (HwCardsChoice *self,
             const char    *id,
             const HwRoom  *room)
{
  const char *name = id;
  GtkWidget  *check;

  for (guint i = 0; i < room->machines->len; i++)
    if (g_str_equal (((HwMachine *) room->machines->pdata[i])->id, id))
      name = ((HwMachine *) room->machines->pdata[i])->name;
  check = gtk_check_button_new_with_label (name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), !g_hash_table_contains (self->left_out, id));
  g_object_set_data_full (G_OBJECT (check), "hw-machine", g_strdup (id), g_free);
  g_signal_connect (check, "toggled", G_CALLBACK (toggled_cb), self);
  gtk_box_append (GTK_BOX (self->machines_box), check);
}

/* Filled when it is opened: machines may have come since. */
static void
show_machines_cb (HwCardsChoice *self)
{
  const HwPlan  *plan = hw_workspace_peek_plan (self->workspace);
  g_auto (GStrv) ids = plan != NULL ? hw_handout_machines (plan) : g_new0 (char *, 1);
  GtkWidget     *child;

  while ((child = gtk_widget_get_first_child (self->machines_box)) != NULL)
    gtk_box_remove (GTK_BOX (self->machines_box), child);
  gtk_box_append (GTK_BOX (self->machines_box),
                  hw_label_new (_("Each gets its own set of cards, with its own dial:"), "mute"));
  for (char **id = ids; *id != NULL; id++)
    add_machine (self, *id, plan->room);
}

/* (transfer full) */
static char **
list_machines (HwCardsChoice *self,
               const HwPlan  *plan)
{
  g_auto (GStrv)           ids = hw_handout_machines (plan);
  g_autoptr (GStrvBuilder) chosen = g_strv_builder_new ();

  for (char **id = ids; *id != NULL; id++)
    if (!g_hash_table_contains (self->left_out, *id))
      g_strv_builder_add (chosen, *id);
  return g_strv_builder_end (chosen);
}

/* ---- the sheets ---- */

static gboolean
has_left (const HwPlan *plan,
          int           group)
{
  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *step = &g_array_index (plan->order, HwPlanStep, i);

      if (step->group == group && !step->done)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_wanted (HwCardsChoice *self,
           const HwPlan  *plan,
           int            group)
{
  const char       *number = hw_workspace_peek_selected (self->workspace);
  const HwPlanStep *step = number != NULL ? hw_plan_find_step (plan, number) : NULL;

  switch (get_which (self))
    {
    case WHICH_LEFT:
      return has_left (plan, group);
    case WHICH_SELECTED:
      return step != NULL && step->group == group;
    case WHICH_ALL:
    case WHICH_HANDOUT:
    case N_WHICH:
    default:
      return TRUE;
    }
}

HwSheets *
hw_cards_choice_make (HwCardsChoice *self,
                      GError       **error)
{
  const HwPlan      *plan = hw_workspace_peek_plan (self->workspace);
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (int));
  HwSheetOptions     options = { 0 };
  guint              layout;

  if (self->preferred != hw_paper_chosen (hw_workspace_get_room (self->workspace)->preferences))
    take_preferred (self);
  layout = gtk_drop_down_get_selected (self->layout);
  if (plan == NULL || plan->groups->len == 0 || layout >= G_N_ELEMENTS (layouts))
    return NULL;
  options.paper = layouts[layout].paper;
  options.per_sheet = layouts[layout].per_sheet;
  if (get_which (self) == WHICH_HANDOUT)
    {
      g_auto (GStrv) machines = list_machines (self, plan);

      return hw_handout_new (plan, (const char * const *) machines, &options, error);
    }
  for (int i = 0; i < (int) plan->groups->len; i++)
    if (is_wanted (self, plan, i))
      g_array_append_val (groups, i);
  options.groups = (const int *) (const void *) groups->data;
  options.n_groups = groups->len;
  return groups->len > 0 ? hw_sheets_new (plan, &options) : NULL;
}

gboolean
hw_cards_choice_follows_selection (HwCardsChoice *self)
{
  return get_which (self) == WHICH_SELECTED;
}

/* ---- the controls ---- */

static void
which_cb (HwCardsChoice *self)
{
  gtk_widget_set_visible (self->machines_button, get_which (self) == WHICH_HANDOUT);
  changed_cb (self);
}

static GtkDropDown *
add_drop_down (HwWrap     *bar,
               const char *name,
               const char *label)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *text = gtk_label_new_with_mnemonic (label);
  GtkWidget *choice = hw_choice_new ();

  gtk_label_set_mnemonic_widget (GTK_LABEL (text), choice);
  hw_control_name (choice, name);
  gtk_box_append (GTK_BOX (box), text);
  gtk_box_append (GTK_BOX (box), choice);
  hw_wrap_append (bar, box);
  return GTK_DROP_DOWN (choice);
}

static GtkWidget *
make_machines_button (HwCardsChoice *self)
{
  GtkWidget *button = gtk_menu_button_new ();
  GtkWidget *popover = gtk_popover_new ();

  self->machines_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_add_css_class (self->machines_box, "panel");
  gtk_popover_set_child (GTK_POPOVER (popover), self->machines_box);
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), _("Machines…"));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), popover);
  hw_popover_plain (GTK_POPOVER (popover));
  hw_control_name (button, _("Machines of the handout"));
  g_signal_connect_swapped (popover, "show", G_CALLBACK (show_machines_cb), self);
  gtk_widget_set_visible (button, FALSE);
  return button;
}

HwCardsChoice *
hw_cards_choice_new (HwWorkspace *workspace,
                     HwWrap      *bar,
                     GCallback    changed,
                     gpointer     data)
{
  HwCardsChoice *self = g_new0 (HwCardsChoice, 1);

  self->workspace = workspace;
  self->left_out = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->changed = changed;
  self->data = data;
  self->layout = add_drop_down (bar, _("Paper"), _("Pap_er"));
  for (gsize i = 0; i < G_N_ELEMENTS (layouts); i++)
    hw_choice_add (self->layout, NULL, _(layouts[i].name));
  self->which = add_drop_down (bar, _("Cards"), _("_Cards"));
  for (gsize i = 0; i < N_WHICH; i++)
    hw_choice_add (self->which, NULL, _(which_names[i]));
  self->machines_button = make_machines_button (self);
  hw_wrap_append (bar, self->machines_button);
  take_preferred (self);
  gtk_drop_down_set_selected (self->which, WHICH_ALL);
  g_signal_connect_swapped (self->layout, "notify::selected", G_CALLBACK (changed_cb), self);
  g_signal_connect_swapped (self->which, "notify::selected", G_CALLBACK (which_cb), self);
  g_object_set_data_full (G_OBJECT (bar), "hw-cards-choice", self, free_choice);
  return self;
}
