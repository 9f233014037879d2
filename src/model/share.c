/* share.c - a project with its test seams and fabrics as one file
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/share.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <libxml/tree.h>
#include <string.h>

#include "files/folder.h"
#include "files/save.h"
#include "files/xml.h"
#include "model/project-private.h"
#include "model/room-private.h"
#include "model/test-seams.h"

#define NAMESPACE "urn:handwheel:share:1"
#define MOST_BYTES (16u << 20)
#define PROJECT_PART "project.handwheel"

/* ---- writing ---- */

/* The document without its first line, which only a file of its own has. */
static void
add_part (GString    *out,
          const char *name,
          const char *document)
{
  const char *root = g_str_has_prefix (document, "<?xml") ? strchr (document, '\n') : NULL;
  g_autofree char *escaped = g_markup_escape_text (name, -1);

  g_string_append_printf (out, "<part name=\"%s\">\n%s</part>\n", escaped, root != NULL ? root + 1 : document);
}

static gboolean
is_used (const HwProject    *project,
         const HwShelfCloth *cloth)
{
  for (guint i = 0; i < project->fabrics->len; i++)
    {
      const HwProjectFabric *fabric = project->fabrics->pdata[i];

      if (strcmp (fabric->name, cloth->name) == 0 && g_strcmp0 (fabric->handbook, cloth->handbook) == 0)
        return TRUE;
    }
  return FALSE;
}

static gboolean
add_fabrics (GString          *out,
             const HwProject  *project,
             const HwRoom     *room,
             GError          **error)
{
  g_autoptr (GPtrArray) used = g_ptr_array_new ();
  g_autofree char *folder = NULL;
  g_autofree char *path = NULL;
  g_autofree char *text = NULL;
  gboolean done;

  for (guint i = 0; i < room->cloths->len; i++)
    if (is_used (project, room->cloths->pdata[i]))
      g_ptr_array_add (used, room->cloths->pdata[i]);
  if (used->len == 0)
    return TRUE;
  /* The list's own writer writes a file. */
  folder = g_dir_make_tmp ("handwheel-XXXXXX", error);
  if (folder == NULL)
    return FALSE;
  path = g_build_filename (folder, hw_cloths_file.name, NULL);
  done = hw_list_save (&hw_cloths_file, folder, used, error) && g_file_get_contents (path, &text, NULL, error);
  g_unlink (path);
  g_rmdir (folder);
  if (done)
    add_part (out, hw_cloths_file.name, text);
  return done;
}

/* The machine's test seams for the project, a part for each year, and the machine, on whose scale their dials are. */
static void
add_seams (GString         *out,
           const HwProject *project,
           const HwRoom    *room,
           const HwMachine *machine)
{
  g_autoptr (GPtrArray) all = hw_room_list_test_seams (room, machine->id);
  g_autoptr (GPtrArray) year = g_ptr_array_new ();
  gboolean named = FALSE;

  for (guint i = 0; i < all->len; i++)
    {
      const HwJournalEntry *entry = all->pdata[i];
      const HwJournalEntry *next = i + 1 < all->len ? all->pdata[i + 1] : NULL;
      g_autofree char *name = NULL;
      g_autofree char *document = NULL;

      if (g_strcmp0 (entry->project, project->id) == 0)
        g_ptr_array_add (year, (gpointer) entry);
      if (year->len == 0 || (next != NULL && strncmp (entry->time, next->time, strlen ("2031")) == 0))
        continue;
      if (!named)
        {
          g_autofree char *head = hw_machine_to_xml (machine, NULL);
          g_autofree char *file = g_strdup_printf ("machines/%s.xml", machine->id);

          add_part (out, file, head);
          named = TRUE;
        }
      name = g_strdup_printf ("journal/%s-%.4s.xml", machine->id, entry->time);
      document = hw_journal_to_xml (machine->id, atoi (entry->time), year, NULL);
      add_part (out, name, document);
      g_ptr_array_set_size (year, 0);
    }
}

char *
hw_share_to_xml (const HwProject  *project,
                 const HwRoom     *room,
                 gsize            *size,
                 GError          **error)
{
  g_autoptr (GString) out = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                                          "<share xmlns=\"" NAMESPACE "\">\n");
  g_autofree char *document = NULL;

  g_return_val_if_fail (project != NULL && room != NULL, NULL);

  document = hw_project_to_xml (project, NULL);
  add_part (out, PROJECT_PART, document);
  for (guint i = 0; i < room->machines->len; i++)
    add_seams (out, project, room, room->machines->pdata[i]);
  if (!add_fabrics (out, project, room, error))
    return NULL;
  g_string_append (out, "</share>\n");
  if (size != NULL)
    *size = out->len;
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* ---- reading ---- */

/* Only what a small sewing room has may be unpacked: nothing above the folder, nothing hidden. */
static gboolean
is_part_name (const char *name)
{
  const char *base = strrchr (name, '/');
  gsize folder = base != NULL ? (gsize) (base - name) : 0;

  base = base != NULL ? base + 1 : name;
  if (*base == '.' || *base == '\0' || strpbrk (base, "\\:") != NULL)
    return FALSE;
  if (folder == 0)
    return base == name && (strcmp (name, PROJECT_PART) == 0 || strcmp (name, hw_cloths_file.name) == 0);
  return g_str_has_suffix (base, ".xml")
         && ((folder == strlen ("machines") && strncmp (name, "machines", folder) == 0)
             || (folder == strlen ("journal") && strncmp (name, "journal", folder) == 0));
}

static gboolean
unpack_part (const HwXml   *xml,
             const xmlNode *part,
             const char    *folder,
             GError       **error)
{
  g_autofree char *name = hw_xml_dup_required (xml, part, "name", error);
  xmlNode *root = hw_xml_first (part, NULL);
  g_autofree char *path = NULL;
  xmlDoc *document;
  xmlChar *text = NULL;
  int size = 0;
  gboolean done;

  if (name == NULL)
    return FALSE;
  if (!is_part_name (name) || root == NULL)
    {
      g_autofree char *quoted = hw_xml_quote (name);

      hw_xml_set_error (xml, part, error, HW_XML_ERROR_INVALID,
                        _("“%s” is no part of a shared project; have the file made anew"), quoted);
      return FALSE;
    }
  document = xmlNewDoc (BAD_CAST "1.0");
  xmlDocSetRootElement (document, xmlDocCopyNode (root, document, 1));
  xmlDocDumpMemoryEnc (document, &text, &size, "UTF-8");
  xmlFreeDoc (document);
  path = g_build_filename (folder, name, NULL);
  done = hw_save_bytes (path, (const char *) text, size, error);
  xmlFree (text);
  return done;
}

static gboolean
unpack (const char *path,
        const char *folder,
        GError    **error)
{
  g_autoptr (HwXml) xml = hw_xml_read_file (path, MOST_BYTES, "share", NAMESPACE, error);

  if (xml == NULL)
    return FALSE;
  for (const xmlNode *part = hw_xml_first (hw_xml_root (xml), NULL); part != NULL; part = hw_xml_next (part, NULL))
    if (!hw_xml_is (part, "part"))
      {
        hw_xml_set_error (xml, part, error, HW_XML_ERROR_INVALID, _("<share> may hold nothing but <part>"));
        return FALSE;
      }
    else if (!unpack_part (xml, part, folder, error))
      return FALSE;
  return TRUE;
}

static HwShare *
open_unpacked (const char *folder,
               GError    **error)
{
  g_autofree char *project = g_build_filename (folder, PROJECT_PART, NULL);
  g_autoptr (HwShare) self = g_new0 (HwShare, 1);

  self->project = hw_project_read (project, error);
  self->room = self->project != NULL ? hw_room_open (folder, error) : NULL;
  return self->room != NULL ? g_steal_pointer (&self) : NULL;
}

HwShare *
hw_share_read (const char *path,
               GError    **error)
{
  static const char * const folders[] = { "machines", "journal" };
  g_autofree char *folder = NULL;
  HwShare *self = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  folder = g_dir_make_tmp ("handwheel-XXXXXX", error);
  if (folder == NULL)
    return NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *inner = g_build_filename (folder, folders[i], NULL);

      g_mkdir (inner, 0700);             /* what cannot be made, the next write reports */
    }
  if (unpack (path, folder, error))
    self = open_unpacked (folder, error);
  hw_folder_remove (folder);
  return self;
}

void
hw_share_free (HwShare *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->project, hw_project_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  g_free (self);
}

/* ---- taking in ---- */

void
hw_share_taken_clear (HwShareTaken *self)
{
  g_clear_pointer (&self->path, g_free);
}

/* In the room's folder, under the project's id, else that with a number behind it; *@id is what it became. */
static char *
find_path (const HwRoom *room,
           const char   *wanted,
           char        **id)
{
  for (int i = 1;; i++)
    {
      g_autofree char *name = i == 1 ? g_strdup (wanted) : g_strdup_printf ("%s-%d", wanted, i);
      g_autofree char *file = g_strconcat (name, ".handwheel", NULL);
      g_autofree char *path = g_build_filename (room->folder, "projects", file, NULL);

      if (g_file_test (path, G_FILE_TEST_EXISTS))
        continue;
      *id = g_steal_pointer (&name);
      return g_steal_pointer (&path);
    }
}

static char *
put_project (const HwShare *self,
             const HwRoom  *room,
             char         **path,
             GError       **error)
{
  g_autofree char *folder = g_build_filename (room->folder, "projects", NULL);
  g_autoptr (HwProject) project = hw_project_thaw (self->project);
  g_autofree char *id = NULL;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (errno), _("%s: %s"), folder, g_strerror (errno));
      return NULL;
    }
  *path = find_path (room, self->project->id, &id);
  g_free (project->id);
  project->id = g_strdup (id);
  return hw_project_write (project, *path, error) ? g_steal_pointer (&id) : NULL;
}

static HwRoom *
put_fabrics (const HwShare *self,
             const HwRoom  *room,
             guint         *n_fabrics,
             GError       **error)
{
  g_autoptr (GPtrArray) cloths = g_ptr_array_new ();

  for (guint i = 0; i < room->cloths->len; i++)
    g_ptr_array_add (cloths, room->cloths->pdata[i]);
  for (guint i = 0; i < self->room->cloths->len; i++)
    {
      HwShelfCloth *cloth = self->room->cloths->pdata[i];
      gboolean there = FALSE;

      for (guint j = 0; j < room->cloths->len; j++)
        there = there || strcmp (((HwShelfCloth *) room->cloths->pdata[j])->id, cloth->id) == 0;
      if (!there)
        g_ptr_array_add (cloths, cloth);
    }
  *n_fabrics = cloths->len - room->cloths->len;
  return *n_fabrics > 0 ? hw_room_with_cloths (room, cloths, error) : hw_room_ref ((HwRoom *) room);
}

/* The same place on another machine's dial: as many of its own numbers from its own neutral one. */
static double
move_dial (double             dial,
           const HwDialScale *from,
           const HwDialScale *to)
{
  double moved = to->neutral + (dial - from->neutral) * (to->high - to->low) / (from->high - from->low);

  return CLAMP (moved, to->low, to->high);
}

static gboolean
has_entry (const HwRoom *room,
           const char   *id)
{
  for (guint i = 0; i < room->entries->len; i++)
    if (strcmp (((HwJournalEntry *) room->entries->pdata[i])->id, id) == 0)
      return TRUE;
  return FALSE;
}

/* Takes over @room. */
static HwRoom *
put_seams (const HwShare   *self,
           HwRoom          *room,
           const HwMachine *from,
           const char      *wanted,
           const char      *project,
           HwShareTaken    *taken,
           GError         **error)
{
  g_autoptr (GPtrArray) seams = hw_room_list_test_seams (self->room, from->id);
  const HwMachine *to = wanted != NULL ? hw_room_find_machine (room, wanted) : NULL;
  g_autofree char *id = NULL;

  to = to != NULL && to->kind == from->kind ? to : hw_room_default_machine (room, from->kind);
  taken->n_seams_left += to == NULL ? seams->len : 0;
  id = to != NULL ? g_strdup (to->id) : NULL;
  for (guint i = 0; id != NULL && i < seams->len && room != NULL; i++)
    {
      g_autoptr (HwJournalEntry) entry = hw_journal_entry_copy (seams->pdata[i]);
      g_autoptr (HwRoom) before = room;

      if (has_entry (before, entry->id))
        {
          room = g_steal_pointer (&before);
          continue;
        }
      g_free (entry->machine);
      entry->machine = g_strdup (id);
      g_free (entry->project);
      entry->project = g_strdup (project);
      entry->dial = move_dial (entry->dial, &from->dial, &hw_room_find_machine (before, id)->dial);
      room = hw_room_append (before, entry, error);
      taken->n_seams += room != NULL ? 1 : 0;
    }
  return room;
}

HwRoom *
hw_share_take_in (const HwShare *self,
                  const HwRoom  *room,
                  const char    *machine,
                  HwShareTaken  *taken,
                  GError       **error)
{
  g_autofree char *id = NULL;
  HwRoom *next;

  g_return_val_if_fail (self != NULL && room != NULL && taken != NULL, NULL);

  *taken = (HwShareTaken) { 0 };
  if (machine != NULL && hw_room_find_machine (room, machine) == NULL)
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _("there is no machine “%s” in this sewing room"),
                   machine);
      return NULL;
    }
  id = put_project (self, room, &taken->path, error);
  next = id != NULL ? put_fabrics (self, room, &taken->n_fabrics, error) : NULL;
  for (guint i = 0; next != NULL && i < self->room->machines->len; i++)
    next = put_seams (self, next, self->room->machines->pdata[i], machine, id, taken, error);
  return next;
}
