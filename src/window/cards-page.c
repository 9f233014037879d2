/* cards-page.c - the page “Setup cards”: a live preview by the same drawing code as the print
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/cards-page.h"

#include <glib/gi18n.h>

#include "card/card.h"
#include "window/cards-choice.h"
#include "window/choosers.h"
#include "window/controls.h"
#include "window/print.h"
#include "window/test-seam-panel.h"
#include "window/theme.h"
#include "window/watch.h"
#include "window/work-bar.h"
#include "window/wrap.h"

#define PREVIEW_DPI 150
#define LEAST_EM_PER_POINT 0.056    /* as tall as the preview is at least: a card's small print is half a window text */

typedef struct _Saving Saving;

struct _HwCardsPage
{
  GtkWidget     parent_instance;
  HwWorkspace  *workspace;
  HwSheets     *sheets;                 /* NULL: nothing to print yet */
  Saving       *saving;                 /* under way; NULL */
  guint         counting;               /* idle source that lays out what is not shown; 0: all pages are counted */
  HwCardsChoice *choice;
  GtkDrawingArea *preview;
  GtkLabel     *page_label;
  GtkLabel     *empty;
  GtkWidget    *sheet;
  int           page;
  char         *step;                   /* in sight: number of one that the card serves, whose test seam is noted */
  GtkWidget    *test_seam;
};

struct _Saving
{
  HwCardsPage    *page;
  HwSheets       *sheets;        /* the page's, until it has others */
  gboolean        owned;
  HwSheetsWriter *writer;
  char           *path;
};

G_DEFINE_FINAL_TYPE (HwCardsPage, hw_cards_page, GTK_TYPE_WIDGET)

static void
draw_preview_cb (GtkDrawingArea *area,
                 cairo_t        *cr,
                 int             width,
                 int             height,
                 gpointer        data)
{
  HwCardsPage *self = data;
  double       page_width;
  double       page_height;
  double       scale;

  if (self->sheets == NULL)
    return;

  hw_sheets_get_size (self->sheets, &page_width, &page_height);
  scale = MIN (width / page_width, height / page_height);
  cairo_translate (cr, (width - page_width * scale) / 2, (height - page_height * scale) / 2);
  cairo_scale (cr, scale, scale);
  /* A card is printed black on white, so the preview is white in every theme. */
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_rectangle (cr, 0, 0, page_width, page_height);
  cairo_fill (cr);
  hw_sheets_draw (self->sheets, self->page, cr);
}

/* Where little room is left, or text is large, the page scrolls rather than shrinks the card to a stamp. */
static void
keep_legible (HwCardsPage *self)
{
  double width;
  double height;

  if (self->sheets == NULL)
    return;
  hw_sheets_get_size (self->sheets, &width, &height);
  gtk_drawing_area_set_content_height (self->preview,
                                       (int) (height * LEAST_EM_PER_POINT * hw_theme_em (GTK_WIDGET (self))));
}

/* Until all pages are counted the shown one has no number: those before it may have more cards than one. */
static void
show_page (HwCardsPage *self,
           int          page)
{
  gboolean         is_counted = self->sheets != NULL && self->counting == 0;
  int              n_pages = is_counted ? hw_sheets_get_n_pages (self->sheets) : 0;
  g_autofree char *text = NULL;

  self->page = MAX (is_counted ? MIN (page, n_pages - 1) : page, 0);
  /* Translators: number of the page shown, number of pages */
  text = is_counted ? g_strdup_printf (_("%d of %d"), self->page + 1, n_pages) : g_strdup ("");
  gtk_label_set_text (self->page_label, text);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "cards.previous", self->page > 0 || self->counting > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "cards.next", self->page + 1 < n_pages || self->counting > 0);
  gtk_widget_queue_draw (GTK_WIDGET (self->preview));
}

/* The set-up of that step; -1: it has none, as when it is done by hand. */
static int
find_group (HwCardsPage *self,
            const char  *number)        /* (nullable) */
{
  const HwPlan     *plan = hw_workspace_peek_plan (self->workspace);
  const HwPlanStep *step = plan != NULL && number != NULL ? hw_plan_find_step (plan, number) : NULL;

  return step != NULL ? step->group : -1;
}

/* The page with the card of the step in sight; the one that is shown when it has none. */
static int
find_page (HwCardsPage *self)
{
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);
  int           group = find_group (self, self->step);
  int           page = -1;

  if (group >= 0 && self->sheets != NULL)
    page = hw_sheets_find_page (self->sheets, plan, group, hw_plan_find_step (plan, self->step)->step);
  return page >= 0 ? page : self->page;
}

/* Without a card in sight there is none to sew a scrap for. */
static void
show_test_seam (HwCardsPage *self)
{
  hw_test_seam_button_speak_of (self->test_seam, self->step);
  gtk_widget_set_sensitive (self->test_seam, self->sheets != NULL
                                             && hw_test_seam_is_possible (self->workspace, self->step));
}

static void
take_step (HwCardsPage *self,
           const char  *number)
{
  if (g_strcmp0 (self->step, number) != 0)
    {
      g_free (self->step);
      self->step = g_strdup (number);
    }
  show_test_seam (self);
}

/* The selected step's card comes in sight, where it has one. */
static void
take_selected (HwCardsPage *self)
{
  const char *number = hw_workspace_peek_selected (self->workspace);

  if (find_group (self, number) >= 0)
    take_step (self, number);
}

/* Of the steps on @card the next to sew, before those done; NULL: another machine's, of a handout. */
static const HwStep *
choose_step (HwCardsPage  *self,
             const HwPlan *plan,
             const HwCard *card)
{
  const GArray *steps = hw_card_get_steps (card);
  const HwStep *chosen = NULL;

  for (guint i = steps->len; i > 0; i--)
    {
      gsize             index = g_array_index (steps, gsize, i - 1);
      const HwStep     *step = hw_project_get_step (plan->project, index);
      const HwPlanStep *planned = hw_plan_find_step (plan, step->number);

      if (planned == NULL || planned->group != hw_card_get_group (card))
        continue;
      if (hw_sheets_find_page (self->sheets, plan, planned->group, index) != self->page)
        return NULL;
      if (chosen == NULL || !planned->done)
        chosen = step;
    }
  return chosen;
}

/* A step that the first card of the page serves is the one in sight. The selected step stays: who turns over cards has
 * not chosen another to sew. */
static void
take_shown (HwCardsPage *self)
{
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);
  const HwCard *card = self->sheets != NULL ? hw_sheets_get_first_on (self->sheets, self->page) : NULL;
  const HwStep *chosen = plan != NULL && card != NULL ? choose_step (self, plan, card) : NULL;

  if (chosen != NULL)
    take_step (self, chosen->number);
}

/* ---- counting pages, a set-up at a time: laying all cards out takes longer than a page may take to be turned ---- */

static void
stop_counting (HwCardsPage *self)
{
  g_clear_handle_id (&self->counting, g_source_remove);
}

static gboolean
count_cb (gpointer data)
{
  HwCardsPage *self = data;
  int          page;

  if (!hw_sheets_lay_out_next (self->sheets))
    {
      self->counting = 0;
      show_page (self, find_page (self));
      return G_SOURCE_REMOVE;
    }
  page = find_page (self);
  if (page != self->page)
    show_page (self, page);
  return G_SOURCE_CONTINUE;
}

static void
begin_counting (HwCardsPage *self)
{
  stop_counting (self);
  if (self->sheets != NULL)
    self->counting = g_idle_add (count_cb, self);
}

/* At once: a page is to be turned. */
static void
finish_counting (HwCardsPage *self)
{
  stop_counting (self);
  show_page (self, find_page (self));
}

static void update_page (GtkWidget *widget);

static void
show_selected (HwCardsPage *self)
{
  int page;

  take_selected (self);
  page = find_page (self);
  if (page != self->page)
    show_page (self, page);
}

static void
selection_cb (HwCardsPage *self)
{
  if (!hw_cards_choice_follows_selection (self->choice))
    {
      show_selected (self);
      return;
    }
  take_selected (self);
  update_page (GTK_WIDGET (self));
}

/* Begins with the selected step's card, whichever was turned to before. */
static void
hw_cards_page_map (GtkWidget *widget)
{
  HwCardsPage *self = HW_CARDS_PAGE (widget);

  GTK_WIDGET_CLASS (hw_cards_page_parent_class)->map (widget);
  show_selected (self);
}

/* Another size of text. */
static void
hw_cards_page_css_changed (GtkWidget         *widget,
                           GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (hw_cards_page_parent_class)->css_changed (widget, change);
  keep_legible (HW_CARDS_PAGE (widget));
}

/* Why there is nothing to see, or NULL. */
static const char *
find_reason (HwCardsPage  *self,
             const GError *error)
{
  const HwPlan *plan = hw_workspace_peek_plan (self->workspace);

  if (self->sheets != NULL)
    return NULL;
  if (error == NULL)
    error = hw_workspace_peek_plan_error (self->workspace);
  if (error != NULL)
    return error->message;
  if (plan != NULL && plan->groups->len > 0)
    return _("No card among these: choose others above, or another step.");
  return _("No cards yet. Add an operation on the page “Making up”; each set-up gets its card.");
}

/* Those that are being saved are the saving's from now on. */
static void
drop_sheets (HwCardsPage *self)
{
  if (self->saving != NULL && self->saving->sheets == self->sheets)
    {
      self->saving->owned = TRUE;
      self->sheets = NULL;
    }
  g_clear_pointer (&self->sheets, hw_sheets_free);
}

static void
update_page (GtkWidget *widget)
{
  HwCardsPage       *self = HW_CARDS_PAGE (widget);
  g_autoptr (GError) error = NULL;
  const char        *reason;

  stop_counting (self);
  drop_sheets (self);
  self->sheets = hw_cards_choice_make (self->choice, &error);
  begin_counting (self);
  keep_legible (self);
  reason = find_reason (self, error);
  gtk_label_set_text (self->empty, reason != NULL ? reason : "");
  gtk_widget_set_visible (GTK_WIDGET (self->empty), reason != NULL);
  gtk_widget_set_visible (self->sheet, self->sheets != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "cards.print", self->sheets != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "cards.save", self->sheets != NULL);
  if (find_group (self, self->step) < 0)
    take_selected (self);
  show_page (self, find_page (self));
  if (find_group (self, self->step) < 0)
    take_shown (self);
  show_test_seam (self);
}

static void
turn_action (GtkWidget  *widget,
             const char *action_name,
             GVariant   *parameter)
{
  HwCardsPage *self = HW_CARDS_PAGE (widget);

  if (self->counting > 0)
    finish_counting (self);
  show_page (self, self->page + (g_str_equal (action_name, "cards.next") ? 1 : -1));
  take_shown (self);
}

static GtkWindow *
get_window (HwCardsPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  return GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL;
}

static void
tell (HwCardsPage *self,
      const char  *text,
      gboolean     is_error)
{
  hw_workspace_tell (self->workspace, text, is_error);
}

gboolean
hw_cards_page_print (HwCardsPage *self,
                     const char  *export_path,
                     GError     **error)
{
  const HwProject *project = hw_workspace_peek_project (self->workspace);

  g_return_val_if_fail (HW_IS_CARDS_PAGE (self), FALSE);

  if (self->sheets == NULL)
    {
      g_set_error_literal (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING,
                           _("There is no card to print yet: add an operation first"));
      return FALSE;
    }
  return hw_print_sheets (get_window (self), self->sheets, project->title, export_path, error);
}

static HwSheetsWriter *
begin_writing (HwCardsPage *self,
               const char  *path,
               GError     **error)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char *date = g_date_time_format_iso8601 (now);

  if (self->sheets == NULL)
    {
      g_set_error_literal (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING,
                           _("There is no card to save yet: add an operation first"));
      return NULL;
    }
  return hw_sheets_writer_new (self->sheets, path, PREVIEW_DPI, date, error);
}

gboolean
hw_cards_page_save (HwCardsPage *self,
                    const char  *path,
                    GError     **error)
{
  g_autoptr (HwSheetsWriter) writer = NULL;

  g_return_val_if_fail (HW_IS_CARDS_PAGE (self), FALSE);

  writer = begin_writing (self, path, error);
  for (int n = 0; writer != NULL && n < hw_sheets_get_n_pages (self->sheets); n++)
    if (!hw_sheets_writer_draw (writer, error))
      return FALSE;
  return writer != NULL && hw_sheets_writer_save (writer, error);
}

static void
print_action (GtkWidget  *widget,
              const char *action_name,
              GVariant   *parameter)
{
  HwCardsPage *self = HW_CARDS_PAGE (widget);
  g_autoptr (GError) error = NULL;

  if (!hw_cards_page_print (self, NULL, &error))
    tell (self, error->message, TRUE);
}

/* ---- saving, a page at a time ---- */

static void
free_saving (Saving *self)
{
  if (self->page->saving == self)
    self->page->saving = NULL;
  hw_sheets_writer_free (self->writer);
  if (self->owned)
    hw_sheets_free (self->sheets);
  g_object_unref (self->page);
  g_free (self->path);
  g_free (self);
}

static gboolean
save_piece (gpointer data,
            guint    index,
            GError **error)
{
  return hw_sheets_writer_draw (((Saving *) data)->writer, error);
}

static void
saved_cb (gpointer      data,
          gboolean      cancelled,
          const GError *error)
{
  Saving            *self = data;
  g_autoptr (GError) unsaved = NULL;
  g_autofree char   *text = NULL;

  if (cancelled)
    tell (self->page, _("Cancelled; no card was saved."), FALSE);
  else if (error != NULL)
    tell (self->page, error->message, TRUE);
  else if (!hw_sheets_writer_save (self->writer, &unsaved))
    tell (self->page, unsaved->message, TRUE);
  else
    {
      /* Translators: a file name */
      text = g_strdup_printf (_("Cards saved: %s"), self->path);
      tell (self->page, text, FALSE);
    }
  free_saving (self);
}

void
hw_cards_page_begin_save (HwCardsPage *self,
                          const char  *path)
{
  HwWorkBar         *bar = hw_work_bar_of (GTK_WIDGET (self));
  g_autoptr (GError) error = NULL;
  HwSheetsWriter    *writer;
  Saving            *saving;

  g_return_if_fail (HW_IS_CARDS_PAGE (self) && path != NULL && bar != NULL);

  writer = begin_writing (self, path, &error);
  if (writer == NULL)
    {
      tell (self, error->message, TRUE);
      return;
    }
  saving = g_new0 (Saving, 1);
  saving->page = g_object_ref (self);
  saving->sheets = self->sheets;
  saving->writer = writer;
  saving->path = g_strdup (path);
  if (hw_work_bar_begin (bar, &(HwWork) { _("Saving the cards"), (guint) hw_sheets_get_n_pages (self->sheets),
                                          save_piece, saved_cb, NULL }, saving))
    {
      self->saving = saving;
      return;
    }
  free_saving (saving);
  tell (self, _("Something else is at work; wait for it, or cancel it."), TRUE);
}

static void
save_chosen_cb (const char *path,
                gpointer    data)
{
  hw_cards_page_begin_save (data, path);
}

static void
save_action (GtkWidget  *widget,
             const char *action_name,
             GVariant   *parameter)
{
  HwCardsPage     *self = HW_CARDS_PAGE (widget);
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  g_autofree char *name = g_strconcat (project->id, ".pdf", NULL);

  hw_choose_file_to_save (get_window (self), _("Save the cards (.pdf, .png or .svg)"), name, save_chosen_cb,
                          g_object_ref (self), g_object_unref);
}

static GtkWidget *
add_button (GtkWidget  *box,
            const char *label,
            const char *action)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  hw_control_name_by (button, label);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (GTK_BOX (box), button);
  return button;
}

static GtkWidget *
build_turner (HwCardsPage *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);

  self->page_label = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_width_chars (self->page_label, 8);      /* what stands beside it stays when the pages are counted */
  add_button (box, _("Pre_vious"), "cards.previous");
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->page_label));
  add_button (box, _("_Next"), "cards.next");
  return box;
}

static GtkWidget *
build_bar (HwCardsPage *self)
{
  GtkWidget *bar = hw_wrap_new (10, 8);
  GtkWidget *gap = gtk_label_new (NULL);
  GtkWidget *out = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);

  self->choice = hw_cards_choice_new (self->workspace, HW_WRAP (bar), G_CALLBACK (update_page), self);
  gtk_widget_set_hexpand (gap, TRUE);
  hw_wrap_append (HW_WRAP (bar), gap);
  hw_wrap_append (HW_WRAP (bar), build_turner (self));
  self->test_seam = hw_test_seam_button_new (self->workspace);
  hw_wrap_append (HW_WRAP (bar), self->test_seam);
  add_button (out, _("_Save as…"), "cards.save");
  gtk_widget_add_css_class (add_button (out, _("_Print…"), "cards.print"), "main-action");
  hw_wrap_append (HW_WRAP (bar), out);
  return bar;
}

static GtkWidget *
build_preview (HwCardsPage *self)
{
  self->preview = GTK_DRAWING_AREA (g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG,
                                                  NULL));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->preview), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Preview of the page as it is printed"), -1);
  gtk_drawing_area_set_draw_func (self->preview, draw_preview_cb, self, NULL);
  gtk_widget_set_hexpand (GTK_WIDGET (self->preview), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self->preview), TRUE);
  gtk_widget_set_focusable (GTK_WIDGET (self->preview), TRUE);    /* so that the keys scroll to it */
  return GTK_WIDGET (self->preview);
}

static GtkWidget *
build_empty (HwCardsPage *self)
{
  GtkWidget *label = gtk_label_new (NULL);

  self->empty = GTK_LABEL (label);
  gtk_label_set_wrap (self->empty, TRUE);
  gtk_widget_add_css_class (label, "empty");
  gtk_widget_set_vexpand (label, TRUE);
  return label;
}

static void
hw_cards_page_dispose (GObject *object)
{
  HwCardsPage *self = HW_CARDS_PAGE (object);
  GtkWidget   *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  stop_counting (self);
  g_clear_pointer (&self->sheets, hw_sheets_free);
  g_clear_pointer (&self->step, g_free);
  g_clear_object (&self->workspace);
  G_OBJECT_CLASS (hw_cards_page_parent_class)->dispose (object);
}

static void
hw_cards_page_class_init (HwCardsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hw_cards_page_dispose;
  widget_class->map = hw_cards_page_map;
  widget_class->css_changed = hw_cards_page_css_changed;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "cardspage");
  gtk_widget_class_install_action (widget_class, "cards.previous", NULL, turn_action);
  gtk_widget_class_install_action (widget_class, "cards.next", NULL, turn_action);
  gtk_widget_class_install_action (widget_class, "cards.print", NULL, print_action);
  gtk_widget_class_install_action (widget_class, "cards.save", NULL, save_action);
}

static void
hw_cards_page_init (HwCardsPage *self)
{
}

/* Before the scroller, which would scroll by them. */
static void
add_turning_keys (GtkWidget *scroller)
{
  GtkEventController    *keys = gtk_shortcut_controller_new ();
  GtkShortcutController *list = GTK_SHORTCUT_CONTROLLER (keys);

  gtk_shortcut_controller_add_shortcut (list, gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Page_Up, 0),
                                                                gtk_named_action_new ("cards.previous")));
  gtk_shortcut_controller_add_shortcut (list, gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Page_Down, 0),
                                                                gtk_named_action_new ("cards.next")));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (scroller, keys);
}

GtkWidget *
hw_cards_page_new (HwWorkspace *workspace)
{
  HwCardsPage *self = g_object_new (HW_TYPE_CARDS_PAGE, NULL);
  GtkWidget   *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget   *scroller;

  self->workspace = g_object_ref (workspace);
  gtk_widget_add_css_class (page, "page");
  gtk_box_append (GTK_BOX (page), build_bar (self));
  self->sheet = build_preview (self);
  gtk_box_append (GTK_BOX (page), self->sheet);
  gtk_box_append (GTK_BOX (page), build_empty (self));
  scroller = hw_page_scroller_new (page);
  add_turning_keys (scroller);
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));

  g_signal_connect_object (workspace, "selection", G_CALLBACK (selection_cb), self, G_CONNECT_SWAPPED);
  hw_watch (GTK_WIDGET (self), workspace, update_page);
  return GTK_WIDGET (self);
}
