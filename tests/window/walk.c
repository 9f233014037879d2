/* walk.c - finds widgets the way a person would: by what they are and what they are called
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "walk.h"

gboolean
walk_has_name (GtkWidget  *widget,
               const char *name)
{
  g_autofree char *other = gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                                               name);

  return other == NULL;
}

GtkWidget *
walk_find (GtkWidget  *root,
           GType       type,
           const char *name)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (root, type) && (name == NULL || walk_has_name (root, name)))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = walk_find (child, type, name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

GtkWidget *
walk_need (GtkWidget  *root,
           GType       type,
           const char *name)
{
  GtkWidget *found = walk_find (root, type, name);

  if (found == NULL)
    g_error ("no %s called “%s”", g_type_name (type), name != NULL ? name : "");
  return found;
}

GtkStack *
walk_stack (GtkWidget  *root,
            const char *child_name)
{
  if (GTK_IS_STACK (root) && gtk_stack_get_child_by_name (GTK_STACK (root), child_name) != NULL)
    return GTK_STACK (root);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkStack *found = walk_stack (child, child_name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

gboolean
walk_visible (GtkWidget *widget,
              GtkWidget *root)
{
  for (; widget != NULL && widget != root; widget = gtk_widget_get_parent (widget))
    if (!gtk_widget_get_visible (widget) || !gtk_widget_get_child_visible (widget))
      return FALSE;
  return widget == root;
}

typedef gboolean (* TextTest) (const char *text, const char *wanted);

static gboolean
is_same (const char *text,
         const char *wanted)
{
  return g_str_equal (text, wanted);
}

static gboolean
begins (const char *text,
        const char *wanted)
{
  return g_str_has_prefix (text, wanted);
}

static const char *
find_text (GtkWidget  *widget,
           GtkWidget  *root,
           TextTest    test,
           const char *wanted)
{
  if (GTK_IS_LABEL (widget) && test (gtk_label_get_text (GTK_LABEL (widget)), wanted) && walk_visible (widget, root))
    return gtk_label_get_text (GTK_LABEL (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      const char *found = find_text (child, root, test, wanted);

      if (found != NULL)
        return found;
    }
  return NULL;
}

gboolean
walk_shows (GtkWidget  *root,
            const char *text)
{
  return find_text (root, root, is_same, text) != NULL;
}

const char *
walk_text (GtkWidget  *root,
           const char *beginning)
{
  return find_text (root, root, begins, beginning);
}
