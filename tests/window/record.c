/* record.c - the journal read from its files, without the program's own code; what the strip says, and steps marked
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "record.h"

#include <string.h>

#include <libxml/parser.h>

/* ---- the journal ---- */

char *
record_attribute (xmlNode    *node,
                  const char *name)
{
  xmlChar *value = xmlGetProp (node, (const xmlChar *) name);
  char    *copy = g_strdup ((const char *) value);

  xmlFree (value);
  return copy;
}

GPtrArray *
record_documents (const char *room)
{
  GPtrArray       *documents = g_ptr_array_new_with_free_func ((GDestroyNotify) xmlFreeDoc);
  g_autofree char *folder = g_build_filename (room, "journal", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char      *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      xmlDoc          *document = g_str_has_suffix (name, ".xml") ? xmlReadFile (path, NULL, XML_PARSE_NONET) : NULL;

      if (document != NULL)
        g_ptr_array_add (documents, document);
    }
  return documents;
}

static gboolean
is_entry (const xmlNode *node,
          const char    *kind)
{
  return node->type == XML_ELEMENT_NODE && (kind == NULL || g_str_equal (node->name, kind));
}

GHashTable *
record_cancelled (GPtrArray *documents)
{
  GHashTable *cancelled = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < documents->len; i++)
    for (xmlNode *node = xmlDocGetRootElement (documents->pdata[i])->children; node != NULL; node = node->next)
      if (is_entry (node, "cancel"))
        g_hash_table_add (cancelled, record_attribute (node, "of"));
  return cancelled;
}

static gboolean
stands (xmlNode    *node,
        GHashTable *cancelled)
{
  g_autofree char *id = record_attribute (node, "id");

  return id != NULL && !g_hash_table_contains (cancelled, id);
}

guint
record_count (const Program *program,
              const char    *kind)
{
  g_autoptr (GPtrArray)  documents = record_documents (program->room);
  g_autoptr (GHashTable) cancelled = record_cancelled (documents);
  guint n = 0;

  for (guint i = 0; i < documents->len; i++)
    for (xmlNode *node = xmlDocGetRootElement (documents->pdata[i])->children; node != NULL; node = node->next)
      n += is_entry (node, kind) && (kind == NULL || stands (node, cancelled)) ? 1 : 0;
  return n;
}

static xmlNode *
find_last (xmlNode    *journal,
           const char *kind,
           GHashTable *cancelled)
{
  xmlNode         *last = NULL;
  g_autofree char *last_time = NULL;

  for (xmlNode *node = journal->children; node != NULL; node = node->next)
    {
      g_autofree char *time = is_entry (node, kind) && stands (node, cancelled) ? record_attribute (node, "time")
                                                                               : NULL;

      if (time == NULL || g_strcmp0 (time, last_time) < 0)
        continue;
      last = node;
      g_free (last_time);
      last_time = g_steal_pointer (&time);
    }
  return last;
}

char *
record_last (const Program *program,
             const char    *machine,
             const char    *kind,
             const char    *attribute)
{
  g_autoptr (GPtrArray)  documents = record_documents (program->room);
  g_autoptr (GHashTable) cancelled = record_cancelled (documents);

  for (guint i = 0; i < documents->len; i++)
    {
      xmlNode         *root = xmlDocGetRootElement (documents->pdata[i]);
      g_autofree char *of = record_attribute (root, "machine");
      xmlNode         *last = g_str_equal (of, machine) ? find_last (root, kind, cancelled) : NULL;

      if (last != NULL)
        return record_attribute (last, attribute);
    }
  return NULL;
}

typedef struct
{
  const Program *program;
  guint          entries;
} Growth;

static gboolean
has_grown (gpointer data)
{
  const Growth *growth = data;

  return record_count (growth->program, NULL) >= growth->entries;
}

void
record_wait (const Program *program,
             guint          before,
             guint          more)
{
  Growth growth = { program, before + more };

  bus_wait (program->app, has_grown, &growth, "an entry in the journal");
  g_assert_cmpuint (record_count (program, NULL), ==, before + more);
}

/* ---- the strip ---- */

Node *
strip_find (const Program *program)
{
  return bus_find (program->app, ATSPI_ROLE_INVALID, "In the machine and to load next");
}

GPtrArray *
strip_read (Node *strip)
{
  g_autoptr (GPtrArray) all = bus_look (strip);
  GPtrArray *labels = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = all->pdata[i];

      if (seen->role == ATSPI_ROLE_LABEL)
        g_ptr_array_add (labels, g_strdup (seen->name));
    }
  return labels;
}

const char *
strip_after (const GPtrArray *labels,
             const char      *start)
{
  for (guint i = 0; i + 1 < labels->len; i++)
    if (g_str_has_prefix (labels->pdata[i], start))
      return labels->pdata[i + 1];
  return NULL;
}

/* The line of @text that begins with @start, blanks left out. (transfer full) */
static char *
find_line (const char *text,
           const char *start)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  for (char **line = lines; *line != NULL; line++)
    if (g_str_has_prefix (g_strchug (*line), start))
      return g_strdup (*line);
  g_test_message ("%s", text);
  g_error ("no line begins with “%s”", start);
}

/* While the strip is put together anew its parts cannot be read for a moment. */
static gboolean
strip_speaks (gpointer data)
{
  g_autoptr (GPtrArray) labels = strip_read (data);

  return strip_after (labels, "In the machine: ") != NULL;
}

/* The machine that the needle to load next is for, where that is another: "Then at Overlocker, before step 3".
 * (transfer full) */
static char *
other_machine (const GPtrArray *labels)
{
  for (guint i = 0; i < labels->len; i++)
    if (g_str_has_prefix (labels->pdata[i], "Then at "))
      {
        const char *name = (const char *) labels->pdata[i] + strlen ("Then at ");

        return g_strndup (name, (gsize) (strstr (name, ", before step ") - name));
      }
  return NULL;
}

static Node *
peek_loaded (Node *strip)
{
  static const char * const names[] = { "I loaded it", "Bought and loaded" };
  Node *button = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (names) && button == NULL; i++)
    button = bus_peek (strip, ATSPI_ROLE_PUSH_BUTTON, names[i]);
  return button;
}

static gboolean
has_loaded (gpointer strip)
{
  g_autoptr (Node) button = peek_loaded (strip);

  return button != NULL;
}

void
strip_press_loaded (Node *strip)
{
  g_autoptr (Node) button = NULL;

  bus_wait (strip, has_loaded, strip, "the button that notes the needle");
  button = peek_loaded (strip);
  bus_press (button);
}

#define NO_MORE "; nothing more to load"      /* behind the machine's name, where another one wants the next needle */

void
strip_check (Program    *program,
             Node       *strip,
             const char *file)
{
  g_autoptr (GPtrArray) labels = NULL;
  g_autofree char *printed = program_run (program, 0, "next", file);
  const char      *heading, *now, *next;
  g_autofree char *machine = NULL;
  g_autofree char *line = NULL;
  g_autofree char *other = NULL;

  bus_wait (strip, strip_speaks, strip, "the strip to say what is in the machine");
  labels = strip_read (strip);
  heading = labels->pdata[0];
  now = strip_after (labels, "In the machine: ");
  next = strip_after (labels, "Load ");
  if (next == NULL)
    next = strip_after (labels, "Then at ");
  g_assert_nonnull (now);
  g_assert_nonnull (next);
  machine = g_strdup (heading + strlen ("In the machine: "));
  other = other_machine (labels);
  g_assert_cmpint (g_str_has_suffix (machine, NO_MORE), ==, other != NULL);
  if (other != NULL)
    machine[strlen (machine) - strlen (NO_MORE)] = '\0';
  line = find_line (printed, machine);
  g_test_message ("strip: %s, %s; command: %s", now, next, line);
  g_assert_nonnull (strstr (line, now));
  if (other == NULL)
    {
      g_assert_nonnull (strstr (line, next));
      return;
    }
  g_assert_null (peek_loaded (strip));           /* who begins at this machine is not to take it for this one's */
  g_assert_nonnull (strstr (line, "nothing more to load"));
  g_free (line);
  line = find_line (printed, other);
  g_assert_nonnull (strstr (line, next));
}

/* ---- the order of work ---- */

typedef struct
{
  Node       *list;
  const char *name;
  gboolean    on;
} Toggled;

static gboolean
is_toggled (gpointer data)
{
  const Toggled   *toggled = data;
  g_autoptr (Node) toggle = bus_peek (toggled->list, ATSPI_ROLE_PUSH_BUTTON, toggled->name);

  return toggle != NULL && bus_has_state (toggle, ATSPI_STATE_PRESSED) == toggled->on;
}

Node *
order_show (Program *program)
{
  g_autoptr (Node) page = program_show_page (program, "Order of work");

  return bus_find (page, ATSPI_ROLE_LIST, "Order of work");
}

void
order_mark (const Program *program,
            Node          *list,
            const char    *name,
            gboolean       on)
{
  g_autoptr (Node) toggle = bus_find (list, ATSPI_ROLE_PUSH_BUTTON, name);
  Toggled          toggled = { list, name, on };
  guint            before = record_count (program, NULL);

  g_assert_true (bus_has_state (toggle, ATSPI_STATE_PRESSED) == !on);
  bus_press (toggle);
  record_wait (program, before, 1);
  bus_wait (list, is_toggled, &toggled, name);
  g_assert_cmpuint (record_count (program, NULL), ==, before + 1);
}
