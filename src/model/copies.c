/* copies.c - finding conflicting copies
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/copies.h"

#include <stdio.h>
#include <string.h>

#define HEAD_BYTES 4096                  /* the root's tag ends within */

/* Where files of each kind lie, and what the file that counts is called: NULL the shortest name. */
static const struct { const char *root, *folder, *ending; } kinds[] = {
  { "project", "projects", ".handwheel" },
  { "machine", "machines", ".xml" },
  { "journal", "journal", ".xml" },
  { "needles", "", ".xml" },
  { "threads", "", ".xml" },
  { "fabrics", "", ".xml" },
  { "preferences", "", ".xml" },
};

static void
free_copy (gpointer data)
{
  HwCopy *copy = data;

  g_free (copy->folder);
  g_free (copy->root);
  g_free (copy->id);
  g_free (copy->file);
  g_free (copy->copy);
  g_free (copy);
}

/* (transfer full): the tag of the root, NULL when the file does not begin as XML does */
static char *
read_root_tag (const char *path)
{
  char head[HEAD_BYTES + 1];
  FILE *file = fopen (path, "rbe");
  gsize got = file != NULL ? fread (head, 1, HEAD_BYTES, file) : 0;
  const char *end;

  if (file != NULL)
    fclose (file);
  head[got] = '\0';
  for (const char *at = strchr (head, '<'); at != NULL; at = strchr (at + 1, '<'))
    if (g_ascii_isalpha (at[1]))
      {
        end = strchr (at, '>');
        return end != NULL ? g_strndup (at, (gsize) (end - at)) : NULL;
      }
  return NULL;
}

/* (transfer full): of an attribute whose value needs no escaping, as ids do not; NULL */
static char *
find_attribute (const char *tag,
                const char *name)
{
  g_autofree char *pattern = g_strdup_printf ("\\s%s\\s*=\\s*(?:\"([^\"]*)\"|'([^']*)')", name);
  g_autoptr (GRegex) regex = g_regex_new (pattern, G_REGEX_RAW, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autofree char *first = NULL;

  if (!g_regex_match (regex, tag, 0, &match))
    return NULL;
  first = g_match_info_fetch (match, 1);
  return *first != '\0' ? g_steal_pointer (&first) : g_match_info_fetch (match, 2);
}

static gboolean
is_root (const char *tag,
         const char *root)
{
  gsize length = strlen (root);

  return strncmp (tag + 1, root, length) == 0 && (g_ascii_isspace (tag[1 + length]) || tag[1 + length] == '\0');
}

/* (transfer full): what the file called @name is of its kind; NULL it is none */
static char *
identify (const char *folder,
          const char *name,
          const char *root)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *tag = read_root_tag (path);
  g_autofree char *id = NULL;
  g_autofree char *year = NULL;

  if (tag == NULL || !is_root (tag, root))
    return NULL;
  if (strcmp (root, "project") == 0 || strcmp (root, "machine") == 0)
    return find_attribute (tag, "id");
  if (strcmp (root, "journal") != 0)
    return g_strdup (root);
  id = find_attribute (tag, "machine");
  year = find_attribute (tag, "year");
  return id != NULL && year != NULL ? g_strconcat (id, "-", year, NULL) : NULL;
}

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  const char *first = *(const char * const *) a;
  const char *second = *(const char * const *) b;
  gsize lengths[] = { strlen (first), strlen (second) };

  return lengths[0] != lengths[1] ? (lengths[0] < lengths[1] ? -1 : 1) : strcmp (first, second);
}

/* (transfer full): the shortest first, for a copy's name is longer */
static GPtrArray *
list_names (const char *folder,
            const char *ending)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (name[0] != '.' && g_str_has_suffix (name, ending))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  return names;
}

/* Of a machine, a journal or a list the file that counts is called after its id; of a project it is the first. */
static const char *
choose_own (const GPtrArray *names,
            const char      *id,
            const char      *ending)
{
  g_autofree char *own = g_strconcat (id, ending, NULL);

  for (guint i = 0; i < names->len; i++)
    if (strcmp (names->pdata[i], own) == 0)
      return names->pdata[i];
  return names->pdata[0];
}

static void
add_copies (GPtrArray       *copies,
            const char      *room_folder,
            gsize            kind,
            const char      *id,
            const GPtrArray *names)
{
  const char *own = choose_own (names, id, kinds[kind].ending);

  for (guint i = 0; i < names->len; i++)
    {
      HwCopy *copy;

      if (names->pdata[i] == own)
        continue;
      copy = g_new0 (HwCopy, 1);
      copy->folder = g_strdup (room_folder);
      copy->root = g_strdup (kinds[kind].root);
      copy->id = g_strdup (id);
      copy->file = g_build_filename (room_folder, kinds[kind].folder, own, NULL);
      copy->copy = g_build_filename (room_folder, kinds[kind].folder, names->pdata[i], NULL);
      g_ptr_array_add (copies, copy);
    }
}

static void
find_kind (GPtrArray  *copies,
           const char *room_folder,
           gsize       kind)
{
  g_autofree char *folder = g_build_filename (room_folder, kinds[kind].folder, NULL);
  g_autoptr (GPtrArray) names = list_names (folder, kinds[kind].ending);
  g_autoptr (GHashTable) by_id = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                                        (GDestroyNotify) g_ptr_array_unref);
  GHashTableIter iter;
  gpointer id;
  gpointer same;

  for (guint i = 0; i < names->len; i++)
    {
      char *of = identify (folder, names->pdata[i], kinds[kind].root);
      GPtrArray *known = of != NULL ? g_hash_table_lookup (by_id, of) : NULL;

      if (known == NULL && of != NULL)
        g_hash_table_insert (by_id, of, known = g_ptr_array_new ());
      else
        g_free (of);
      if (known != NULL)
        g_ptr_array_add (known, names->pdata[i]);
    }
  g_hash_table_iter_init (&iter, by_id);
  while (g_hash_table_iter_next (&iter, &id, &same))
    add_copies (copies, room_folder, kind, id, same);
}

static int
compare_copies (gconstpointer a,
                gconstpointer b)
{
  return strcmp ((*(HwCopy * const *) a)->copy, (*(HwCopy * const *) b)->copy);
}

GPtrArray *
hw_copies_find (const char *room_folder)
{
  GPtrArray *copies = g_ptr_array_new_with_free_func (free_copy);

  g_return_val_if_fail (room_folder != NULL, copies);

  for (gsize kind = 0; kind < G_N_ELEMENTS (kinds); kind++)
    find_kind (copies, room_folder, kind);
  g_ptr_array_sort (copies, compare_copies);
  return copies;
}
