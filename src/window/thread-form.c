/* thread-form.c - the forms of a thread and of the project itself
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/forms.h"

#include <glib/gi18n.h>

#include "window/controls.h"
#include "words/words.h"

char *
hw_form_make_id (const char    *name,
                 gboolean    (* taken) (gconstpointer data, const char *id),
                 gconstpointer  data)
{
  g_autofree char *folded = g_utf8_casefold (name, -1);
  g_autofree char *ascii = g_str_to_ascii (folded, "C");
  GString         *stem = g_string_new (NULL);
  char            *id;

  for (const char *p = ascii; *p != '\0' && stem->len < 40; p++)
    if (g_ascii_isalnum (*p))
      g_string_append_c (stem, *p);
    else if (stem->len > 0 && stem->str[stem->len - 1] != '-')
      g_string_append_c (stem, '-');
  while (stem->len > 0 && stem->str[stem->len - 1] == '-')
    g_string_truncate (stem, stem->len - 1);
  if (stem->len == 0)
    g_string_assign (stem, "own");
  id = g_strdup (stem->str);
  for (int i = 2; taken (data, id); i++)
    {
      g_free (id);
      id = g_strdup_printf ("%s-%d", stem->str, i);
    }
  g_string_free (stem, TRUE);
  return id;
}

/* Text without the blanks around it; NULL when nothing is left. */
static char *
get_text (GtkWidget *entry)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  return text[0] != '\0' ? g_steal_pointer (&text) : NULL;
}

/* ---- a thread ---- */

typedef struct
{
  HwWorkspace *workspace;
  char        *id;                      /* NULL: a new one */
  GtkWidget   *kind, *colour, *tex;
  GtkWidget   *instead;                 /* of the thread that nobody chose; NULL: there is none */
} ThreadForm;

static void
free_thread_form (gpointer data)
{
  ThreadForm *self = data;

  g_object_unref (self->workspace);
  g_free (self->id);
  g_free (self);
}

static gboolean
is_thread (gconstpointer project,
           const char   *id)
{
  return hw_project_find_thread (project, id) != NULL;
}

/* (transfer full): steps that name the thread which is replaced go on naming it. */
static char *
take_id (const ThreadForm *self,
         const HwProject  *project,
         const char       *name)
{
  const HwProjectThread *unchosen = hw_project_peek_unchosen_thread (project);

  if (self->id != NULL)
    return g_strdup (self->id);
  if (self->instead != NULL && unchosen != NULL && gtk_check_button_get_active (GTK_CHECK_BUTTON (self->instead)))
    return g_strdup (unchosen->id);
  return hw_form_make_id (name, is_thread, project);
}

/* Nobody chose the thread that a project begins with: the first one that is chosen takes its place, unless it is to
 * stand beside it, as one for topstitching does. */
static void
add_instead (ThreadForm            *self,
             HwForm                *form,
             const HwHandbook      *handbook,
             const HwProjectThread *unchosen)
{
  int              kind = hw_handbook_find_thread (handbook, unchosen->handbook);
  const char      *name = kind >= 0 ? handbook->threads[kind].entry.name : unchosen->handbook;
  /* Translators: a kind of thread */
  g_autofree char *text = g_strdup_printf (_("In place of the thread that the project began with: %s"), name);
  GtkWidget       *label = hw_label_new (text, NULL);

  self->instead = gtk_check_button_new ();
  gtk_check_button_set_child (GTK_CHECK_BUTTON (self->instead), label);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->instead), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->instead), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  hw_form_add_wide (form, self->instead);
}

static gboolean
save_thread (gpointer data,
             GError **error)
{
  ThreadForm      *self = data;
  const HwProject *project = hw_workspace_peek_project (self->workspace);
  const char      *kind = hw_choice_peek (GTK_DROP_DOWN (self->kind));
  g_autofree char *colour = get_text (self->colour);
  g_autofree char *id = NULL;
  HwProjectThread *thread;
  HwProject       *next;
  double           tex = 0;

  if (kind == NULL)
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("Choose a kind of thread"));
      return FALSE;
    }
  if (!hw_form_get_number (self->tex, _("The size in tex"), 0, &tex, error))
    return FALSE;
  id = take_id (self, project, colour != NULL ? colour : kind);
  thread = hw_project_thread_new (id, kind);
  thread->colour = g_steal_pointer (&colour);
  thread->tex = tex;
  next = hw_edit_put_thread (project, thread, error);
  hw_project_thread_unref (thread);
  if (next == NULL)
    return FALSE;
  hw_workspace_edit (self->workspace, next, self->id != NULL ? _("change a thread") : _("add a thread"), NULL, NULL);
  return TRUE;
}

GtkWidget *
hw_thread_form_new (HwWorkspace *workspace,
                    const char  *id)
{
  const HwProject       *project = hw_workspace_peek_project (workspace);
  const HwHandbook      *handbook = hw_workspace_get_handbook (workspace);
  const HwProjectThread *thread = id != NULL ? hw_project_find_thread (project, id) : NULL;
  GtkWidget             *form = hw_form_new (thread != NULL ? _("Change the thread") : _("New thread"),
                                             thread != NULL ? _("Save the thread") : _("Add the thread"));
  ThreadForm            *self = g_new0 (ThreadForm, 1);
  g_autofree char       *tex = thread != NULL && thread->tex > 0 ? hw_words_number (thread->tex, 2) : NULL;

  self->workspace = g_object_ref (workspace);
  self->id = g_strdup (thread != NULL ? id : NULL);
  self->kind = hw_choice_new ();
  for (gsize i = 0; i < handbook->n_threads; i++)
    hw_choice_add (GTK_DROP_DOWN (self->kind), handbook->threads[i].entry.id, handbook->threads[i].entry.name);
  hw_choice_select (GTK_DROP_DOWN (self->kind), thread != NULL ? thread->handbook : "polyester-30");
  hw_form_add (HW_FORM (form), _("_Kind"), self->kind);
  self->colour = hw_form_entry (thread != NULL ? thread->colour : NULL, _("such as navy"));
  hw_form_add (HW_FORM (form), _("C_olour"), self->colour);
  self->tex = hw_form_entry (tex, _("as in the handbook"));
  hw_form_add (HW_FORM (form), _("_Tex, when the label says another"), self->tex);
  if (thread == NULL && hw_project_peek_unchosen_thread (project) != NULL)
    add_instead (self, HW_FORM (form), handbook, hw_project_peek_unchosen_thread (project));
  if (thread != NULL)
    hw_form_add_button (HW_FORM (form), _("Remove"), "making-up.remove-thread", id);
  hw_form_set_save (HW_FORM (form), save_thread, self, free_thread_form);
  return form;
}

/* ---- the project ---- */

typedef struct
{
  HwWorkspace *workspace;
  GtkWidget   *title, *due;
} ProjectForm;

static void
free_project_form (gpointer data)
{
  ProjectForm *self = data;

  g_object_unref (self->workspace);
  g_free (self);
}

static gboolean
save_project (gpointer data,
              GError **error)
{
  ProjectForm          *self = data;
  g_autofree char      *title = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->title))));
  g_autofree char      *due = get_text (self->due);
  g_autoptr (HwProject) titled = hw_edit_set_title (hw_workspace_peek_project (self->workspace), title, error);
  HwProject            *next = titled != NULL ? hw_edit_set_due (titled, due, error) : NULL;

  if (next == NULL)
    return FALSE;
  hw_workspace_edit (self->workspace, next, _("title and due date"), NULL, NULL);
  return TRUE;
}

GtkWidget *
hw_project_form_new (HwWorkspace *workspace)
{
  const HwProject *project = hw_workspace_peek_project (workspace);
  GtkWidget       *form = hw_form_new (_("Title and due date"), _("Save"));
  ProjectForm     *self = g_new0 (ProjectForm, 1);

  self->workspace = g_object_ref (workspace);
  self->title = hw_form_entry (project->title, NULL);
  hw_form_add (HW_FORM (form), _("_Title"), self->title);
  self->due = hw_form_entry (project->due, _("none; else year-month-day: 2027-06-12"));
  hw_form_add (HW_FORM (form), _("_Due, as year-month-day"), self->due);
  hw_form_set_save (HW_FORM (form), save_project, self, free_project_form);
  return form;
}
