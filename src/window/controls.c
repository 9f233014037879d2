/* controls.c - accessible names for whole controls, a drop-down of ids, rows of text
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/controls.h"

#include <glib/gi18n.h>

static void
set_name (GtkWidget  *widget,
          const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
name_spin_parts (GtkWidget  *spin,
                 const char *name)
{
  /* Translators: the buttons of a number; the number's name */
  g_autofree char *less = g_strdup_printf (_("Less: %s"), name);
  g_autofree char *more = g_strdup_printf (_("More: %s"), name);
  gboolean         first = TRUE;

  for (GtkWidget *part = gtk_widget_get_first_child (spin); part != NULL; part = gtk_widget_get_next_sibling (part))
    if (GTK_IS_BUTTON (part))
      {
        set_name (part, first ? less : more);
        first = FALSE;
      }
    else
      {
        set_name (part, name);
      }
}

void
hw_control_name (GtkWidget  *control,
                 const char *name)
{
  /* A label with a mnemonic names it as well; a reader would hear the name twice. */
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (control), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  set_name (control, name);
  if (GTK_IS_SPIN_BUTTON (control))
    {
      name_spin_parts (control, name);
      g_object_set_data_full (G_OBJECT (control), "hw-name", g_strdup (name), g_free);
    }
  else if (GTK_IS_ENTRY (control) || GTK_IS_SEARCH_ENTRY (control))
    set_name (GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (control))), name);
  else if (GTK_IS_DROP_DOWN (control))
    set_name (gtk_widget_get_first_child (control), name);
}

const char *
hw_control_get_name (GtkWidget *spin)
{
  return g_object_get_data (G_OBJECT (spin), "hw-name");
}

void
hw_control_name_by (GtkWidget  *control,
                    const char *label)
{
  g_autoptr (GString) plain = g_string_new (NULL);

  for (const char *p = label; *p != '\0'; p++)
    if (*p != '_')
      g_string_append_c (plain, *p);
  hw_control_name (control, plain->str);
}

/* ---- a drop-down of ids ---- */

static GPtrArray *
get_ids (GtkDropDown *choice)
{
  return g_object_get_data (G_OBJECT (choice), "hw-ids");
}

static GtkStringList *
get_labels (GtkDropDown *choice)
{
  return GTK_STRING_LIST (gtk_drop_down_get_model (choice));
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *item,
          gpointer                  ellipsize)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (ellipsize != NULL)
    {
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
      hw_label_tell_whole (label);
      gtk_label_set_width_chars (GTK_LABEL (label), 8);
      gtk_label_set_max_width_chars (GTK_LABEL (label), 24);
    }
  gtk_list_item_set_child (item, label);
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *item,
         gpointer                  data)
{
  const char *text = gtk_string_object_get_string (gtk_list_item_get_item (item));
  GtkWidget  *label = gtk_list_item_get_child (item);
  GtkWidget  *row = gtk_widget_get_parent (label);

  gtk_label_set_text (GTK_LABEL (label), text);
  if (row != NULL)
    set_name (row, text);
}

static GtkListItemFactory *
make_factory (gboolean ellipsize)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), ellipsize ? factory : NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  return factory;
}

GtkWidget *
hw_choice_new (void)
{
  GtkWidget *choice = gtk_drop_down_new (G_LIST_MODEL (gtk_string_list_new (NULL)), NULL);
  g_autoptr (GtkListItemFactory) shown = make_factory (TRUE);
  g_autoptr (GtkListItemFactory) listed = make_factory (FALSE);

  gtk_drop_down_set_factory (GTK_DROP_DOWN (choice), shown);
  gtk_drop_down_set_list_factory (GTK_DROP_DOWN (choice), listed);
  g_object_set_data_full (G_OBJECT (choice), "hw-ids", g_ptr_array_new_with_free_func (g_free),
                          (GDestroyNotify) g_ptr_array_unref);
  return choice;
}

void
hw_choice_clear (GtkDropDown *choice)
{
  GtkStringList *labels = get_labels (choice);

  g_ptr_array_set_size (get_ids (choice), 0);
  gtk_string_list_splice (labels, 0, g_list_model_get_n_items (G_LIST_MODEL (labels)), NULL);
}

void
hw_choice_add (GtkDropDown *choice,
               const char  *id,
               const char  *label)
{
  g_ptr_array_add (get_ids (choice), g_strdup (id));
  gtk_string_list_append (get_labels (choice), label);
}

const char *
hw_choice_peek (GtkDropDown *choice)
{
  guint      index = gtk_drop_down_get_selected (choice);
  GPtrArray *ids = get_ids (choice);

  return index < ids->len ? g_ptr_array_index (ids, index) : NULL;
}

gboolean
hw_choice_select (GtkDropDown *choice,
                  const char  *id)
{
  GPtrArray *ids = get_ids (choice);

  for (guint i = 0; i < ids->len; i++)
    if (g_strcmp0 (g_ptr_array_index (ids, i), id) == 0)
      {
        gtk_drop_down_set_selected (choice, i);
        return TRUE;
      }
  gtk_drop_down_set_selected (choice, GTK_INVALID_LIST_POSITION);
  return FALSE;
}

/* ---- found by typing ---- */

static GtkWidget *
find_part (GtkWidget *part,
           GType      type)
{
  GtkWidget *found = G_TYPE_CHECK_INSTANCE_TYPE (part, type) ? part : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (part); found == NULL && child != NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_part (child, type);
  return found;
}

static void
grab_focus (GtkWidget *widget)
{
  gtk_widget_grab_focus (widget);
}

/* The list takes the focus as it opens. */
static void
opened_cb (GtkWidget *entry)
{
  hw_when_placed (entry, grab_focus);
}

static gboolean
begins_so (GListModel *found,
           guint       place,
           const char *typed)
{
  g_autoptr (GtkStringObject) item = g_list_model_get_item (found, place);
  g_autofree char *text = g_utf8_casefold (gtk_string_object_get_string (item), -1);
  g_autofree char *start = g_utf8_casefold (typed, -1);

  return g_str_has_prefix (text, start);
}

/* What begins with the letters goes before what has them further on. */
static void
take_best_cb (GtkWidget *list,
              GtkWidget *entry)
{
  GtkSelectionModel *found = gtk_list_view_get_model (GTK_LIST_VIEW (list));
  const char        *typed = gtk_editable_get_text (GTK_EDITABLE (entry));
  guint              n = g_list_model_get_n_items (G_LIST_MODEL (found));
  guint              place = 0;

  if (n == 0)
    return;
  while (place < n && !begins_so (G_LIST_MODEL (found), place, typed))
    place++;
  place = place < n ? place : 0;
  gtk_selection_model_select_item (found, place, TRUE);
  gtk_widget_activate_action (list, "list.activate-item", "u", place);
}

/* “flannel” is to find “Cotton flannel”. Before GTK 4.12 the list is found by the beginning alone, and only its filter
 * can be told otherwise. */
static void
search_inside (GtkDropDown *choice,
               GtkWidget   *list)
{
  GtkSelectionModel *selection = gtk_list_view_get_model (GTK_LIST_VIEW (list));
  GListModel        *model = NULL;
  GtkFilter         *filter = NULL;

  if (g_object_class_find_property (G_OBJECT_GET_CLASS (choice), "search-match-mode") != NULL)
    {
      g_object_set (choice, "search-match-mode", GTK_STRING_FILTER_MATCH_MODE_SUBSTRING, NULL);
      return;
    }
  model = GTK_IS_SINGLE_SELECTION (selection) ? gtk_single_selection_get_model (GTK_SINGLE_SELECTION (selection))
                                              : NULL;
  filter = GTK_IS_FILTER_LIST_MODEL (model) ? gtk_filter_list_model_get_filter (GTK_FILTER_LIST_MODEL (model)) : NULL;
  if (GTK_IS_STRING_FILTER (filter))
    gtk_string_filter_set_match_mode (GTK_STRING_FILTER (filter), GTK_STRING_FILTER_MATCH_MODE_SUBSTRING);
}

/* GTK's own search wants a press on its field first, and passes Return over. */
void
hw_choice_search (GtkDropDown *choice)
{
  g_autoptr (GtkExpression) text = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string");
  GtkWidget                *popover = find_part (GTK_WIDGET (choice), GTK_TYPE_POPOVER);
  GtkWidget                *entry = find_part (popover, GTK_TYPE_SEARCH_ENTRY);
  GtkWidget                *list = find_part (popover, GTK_TYPE_LIST_VIEW);

  gtk_drop_down_set_expression (choice, text);
  gtk_drop_down_set_enable_search (choice, TRUE);
  search_inside (choice, list);
  g_signal_connect_swapped (popover, "map", G_CALLBACK (opened_cb), entry);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (take_best_cb), list);
}

GtkWidget *
hw_label_new (const char *text,
              const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

typedef struct
{
  gboolean waited;
  void  (* act) (GtkWidget *widget);
} Placing;

static gboolean
placed_cb (GtkWidget     *widget,
           GdkFrameClock *clock,
           gpointer       data)
{
  Placing *self = data;

  if (!self->waited)
    {
      self->waited = TRUE;
      return G_SOURCE_CONTINUE;
    }
  self->act (widget);
  return G_SOURCE_REMOVE;
}

void
hw_when_placed (GtkWidget *widget,
                void    (* act) (GtkWidget *widget))
{
  Placing *placing = g_new (Placing, 1);

  *placing = (Placing) { FALSE, act };
  gtk_widget_add_tick_callback (widget, placed_cb, placing, g_free);
}

void
hw_scroll_to_show (GtkAdjustment *adjustment,
                   double         top,
                   double         bottom)
{
  double value = gtk_adjustment_get_value (adjustment);
  double page = gtk_adjustment_get_page_size (adjustment);

  value = MAX (value, bottom - page);
  gtk_adjustment_set_value (adjustment, MIN (value, top));
}

/* Where @widget lies in what @scrollable scrolls. A viewport may have been scrolled since its child was given its
 * place; within the child nothing has moved. */
static gboolean
find_in_scrolled (GtkWidget       *widget,
                  GtkWidget       *scrollable,
                  graphene_rect_t *place)
{
  GtkAdjustment   *adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (scrollable));
  GtkWidget       *child = GTK_IS_VIEWPORT (scrollable) ? gtk_viewport_get_child (GTK_VIEWPORT (scrollable)) : NULL;
  graphene_rect_t  whole;

  if (child != NULL)
    {
      if (!gtk_widget_compute_bounds (widget, child, place) || !gtk_widget_compute_bounds (child, child, &whole))
        return FALSE;
      place->origin.y -= whole.origin.y;
      return TRUE;
    }
  if (!gtk_widget_compute_bounds (widget, scrollable, place))
    return FALSE;
  place->origin.y += (float) gtk_adjustment_get_value (adjustment);
  return TRUE;
}

void
hw_bring_into_sight (GtkWidget *widget)
{
  GtkAdjustment *last = NULL;            /* of the list in a column view, which scrolls by the same */

  for (GtkWidget *outer = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLABLE); outer != NULL;
       outer = gtk_widget_get_ancestor (gtk_widget_get_parent (outer), GTK_TYPE_SCROLLABLE))
    {
      GtkAdjustment   *adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (outer));
      graphene_rect_t  place;

      if (adjustment != last && find_in_scrolled (widget, outer, &place))
        hw_scroll_to_show (adjustment, (double) place.origin.y, (double) (place.origin.y + place.size.height));
      last = adjustment;
    }
}

GtkWidget *
hw_page_scroller_new (GtkWidget *page)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  gtk_widget_set_focusable (scroller, FALSE);    /* what is on the page has the focus */
  gtk_widget_set_hexpand (scroller, TRUE);
  gtk_widget_set_vexpand (scroller, TRUE);
  return scroller;
}

/* Compiled once, and never freed. */
static const GRegex *
get_figures (void)
{
  static gsize regex;

  if (g_once_init_enter (&regex))
    g_once_init_leave (&regex, (gsize) g_regex_new ("(?<=[0-9½]) (?=\\pL)|(?<=\\pL) (?=[0-9½])", 0, 0, NULL));
  return (const GRegex *) regex;
}

void
hw_label_set_figures (GtkLabel   *label,
                      const char *text)
{
  g_autoptr (GMatchInfo) match = NULL;
  PangoAttrList *kept = pango_attr_list_new ();

  g_regex_match (get_figures (), text, 0, &match);
  for (; g_match_info_matches (match); g_match_info_next (match, NULL))
    {
      PangoAttribute *whole = pango_attr_allow_breaks_new (FALSE);
      int             from = 0;
      int             to = 0;

      g_match_info_fetch_pos (match, 0, &from, &to);
      whole->start_index = (guint) from;
      whole->end_index = (guint) (g_utf8_next_char (text + to) - text);     /* the sign that a line would begin with */
      pango_attr_list_insert (kept, whole);
    }
  gtk_label_set_text (label, text);
  gtk_label_set_attributes (label, kept);
  pango_attr_list_unref (kept);
}

/* ---- rows of text ---- */

static void
setup_row_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *item)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  hw_label_tell_whole (label);
  gtk_list_item_set_child (item, label);
}

static void
bind_row_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *item)
{
  const char *text = gtk_string_object_get_string (gtk_list_item_get_item (item));
  GtkWidget  *label = gtk_list_item_get_child (item);

  gtk_label_set_text (GTK_LABEL (label), text);
  if (gtk_widget_get_parent (label) != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_parent (label)), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    text, -1);
}

GtkListItemFactory *
hw_string_rows_new (void)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_row_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_row_cb), NULL);
  return factory;
}

static gboolean
query_whole_cb (GtkWidget  *label,
                int         x,
                int         y,
                gboolean    keyboard,
                GtkTooltip *tooltip)
{
  if (!pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))))
    return FALSE;
  gtk_tooltip_set_text (tooltip, gtk_label_get_text (GTK_LABEL (label)));
  return TRUE;
}

void
hw_label_tell_whole (GtkWidget *label)
{
  g_return_if_fail (GTK_IS_LABEL (label));

  gtk_widget_set_has_tooltip (label, TRUE);
  g_signal_connect (label, "query-tooltip", G_CALLBACK (query_whole_cb), NULL);
}

void
hw_control_tell (GtkWidget  *control,
                 const char *text)
{
  g_return_if_fail (GTK_IS_WIDGET (control));

  if (g_strcmp0 (gtk_widget_get_tooltip_text (control), text) != 0)
    gtk_widget_set_tooltip_text (control, text);
}

void
hw_control_only_show (GtkRange *range)
{
  GtkWidget *widget = GTK_WIDGET (range);

  g_return_if_fail (GTK_IS_RANGE (range));

  gtk_widget_set_can_target (widget, FALSE);
  gtk_widget_set_focusable (widget, FALSE);
  for (GtkWidget *part = gtk_widget_get_first_child (widget); part != NULL; part = gtk_widget_get_next_sibling (part))
    gtk_widget_set_child_visible (part, FALSE);
}

/* ---- menus ---- */

void
hw_popover_plain (GtkPopover *popover)
{
  g_return_if_fail (GTK_IS_POPOVER (popover));

  gtk_popover_set_has_arrow (popover, FALSE);
  gtk_popover_set_offset (popover, 0, 4);
}

static void
make_menu_cb (GtkMenuButton *button,
              gpointer       menu)
{
  if (gtk_menu_button_get_popover (button) != NULL)
    return;
  gtk_menu_button_set_menu_model (button, menu);
  hw_popover_plain (gtk_menu_button_get_popover (button));
}

void
hw_menu_button_set (GtkMenuButton *button,
                    GMenuModel    *menu)
{
  g_return_if_fail (GTK_IS_MENU_BUTTON (button) && G_IS_MENU_MODEL (menu));

  gtk_menu_button_set_create_popup_func (button, make_menu_cb, g_object_ref (menu), g_object_unref);
}
