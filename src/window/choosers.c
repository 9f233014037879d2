/* choosers.c - file choosers and what else later GTK deprecates, behind one small door
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/choosers.h"

#include <glib/gi18n.h>
#include <string.h>

/* GtkFileChooserNative is right for GTK 4.8 and deprecated from 4.10, where it still works. */
G_GNUC_BEGIN_IGNORE_DEPRECATIONS

typedef struct
{
  GtkFileChooserNative *chooser;       /* lives only while we hold it */
  gboolean              saves;
  HwFileChosenFunc      func;
  gpointer              data;
  GDestroyNotify        destroy;
} Choice;

/* A file of cards can be of three kinds. */
static gboolean
has_kind (const char *path)
{
  return g_str_has_suffix (path, ".pdf") || g_str_has_suffix (path, ".png") || g_str_has_suffix (path, ".svg");
}

char *
hw_path_once (const char *path)
{
  const char      *last = strrchr (path, '.');
  g_autofree char *once = NULL;

  if (last == NULL || last == path)
    return g_strdup (path);
  once = g_strndup (path, (gsize) (last - path));
  if (!g_str_has_suffix (once, last) && !(has_kind (path) && has_kind (once)))
    return g_strdup (path);
  return g_file_test (once, G_FILE_TEST_EXISTS) ? g_strdup (path) : g_steal_pointer (&once);
}

static void
response_cb (GtkNativeDialog *dialog,
             int              response,
             Choice          *choice)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char  *path = file != NULL ? g_file_get_path (file) : NULL;
      g_autofree char  *once = path != NULL && choice->saves ? hw_path_once (path) : g_strdup (path);

      if (once != NULL)
        choice->func (once, choice->data);
    }
  if (choice->destroy != NULL)
    choice->destroy (choice->data);
  g_object_unref (choice->chooser);
  g_free (choice);
}

static void
choose (GtkWindow            *parent,
        const char           *title,
        GtkFileChooserAction  action,
        const char           *accept,
        const char           *name,
        HwFileChosenFunc      func,
        gpointer              data,
        GDestroyNotify        destroy)
{
  Choice *choice = g_new0 (Choice, 1);

  choice->chooser = gtk_file_chooser_native_new (title, parent, action, accept, NULL);
  choice->saves = action == GTK_FILE_CHOOSER_ACTION_SAVE;
  choice->func = func;
  choice->data = data;
  choice->destroy = destroy;
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (choice->chooser), TRUE);
  if (name != NULL)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (choice->chooser), name);
  g_signal_connect (choice->chooser, "response", G_CALLBACK (response_cb), choice);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (choice->chooser));
}

void
hw_choose_file_to_open (GtkWindow        *parent,
                        const char       *title,
                        HwFileChosenFunc  func,
                        gpointer          data,
                        GDestroyNotify    destroy)
{
  choose (parent, title, GTK_FILE_CHOOSER_ACTION_OPEN, _("_Open"), NULL, func, data, destroy);
}

void
hw_choose_file_to_save (GtkWindow        *parent,
                        const char       *title,
                        const char       *name,
                        HwFileChosenFunc  func,
                        gpointer          data,
                        GDestroyNotify    destroy)
{
  choose (parent, title, GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"), name, func, data, destroy);
}

G_GNUC_END_IGNORE_DEPRECATIONS
