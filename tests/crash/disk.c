/* disk.c - what a disk may hold after the power failed
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "disk.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct
{
  GByteArray *synced, *now;
} Inode;

typedef struct
{
  char  *path;                           /* the name that changes */
  Inode *inode;                          /* what it names from then on; NULL: nothing */
  char  *gone;                           /* rename: the name that ends with it; NULL */
  Inode *in_exchange;                    /* what @gone names from then on; NULL: nothing */
  char  *folder;
} NameChange;

struct _Disk
{
  char       *root;
  GPtrArray  *inodes;
  GHashTable *names;                     /* path -> Inode, as programs see them */
  GHashTable *kept;                      /* the same on the disk */
  GPtrArray  *pending;                   /* (element-type NameChange) */
  GPtrArray  *folders;                   /* paths of folders */
};

static void
free_inode (gpointer data)
{
  Inode *inode = data;

  g_byte_array_unref (inode->synced);
  g_byte_array_unref (inode->now);
  g_free (inode);
}

static void
free_change (gpointer data)
{
  NameChange *change = data;

  g_free (change->path);
  g_free (change->gone);
  g_free (change->folder);
  g_free (change);
}

static Inode *
add_inode (Disk *self)
{
  Inode *inode = g_new0 (Inode, 1);

  inode->synced = g_byte_array_new ();
  inode->now = g_byte_array_new ();
  g_ptr_array_add (self->inodes, inode);
  return inode;
}

static void
set_bytes (GByteArray *bytes,
           const void *data,
           gsize       size)
{
  g_byte_array_set_size (bytes, 0);
  g_byte_array_append (bytes, data, (guint) size);
}

static void
read_folder (Disk       *self,
             const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  g_assert_nonnull (dir);
  g_ptr_array_add (self->folders, g_strdup (folder));
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *data = NULL;
      gsize size = 0;
      Inode *inode;

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        {
          read_folder (self, path);
          continue;
        }
      g_assert_true (g_file_get_contents (path, &data, &size, NULL));
      inode = add_inode (self);
      set_bytes (inode->synced, data, size);
      set_bytes (inode->now, data, size);
      g_hash_table_insert (self->names, g_strdup (path), inode);
      g_hash_table_insert (self->kept, g_strdup (path), inode);
    }
}

Disk *
disk_new (const char *folder)
{
  Disk *self = g_new0 (Disk, 1);

  self->root = g_strdup (folder);
  self->inodes = g_ptr_array_new_with_free_func (free_inode);
  self->names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->kept = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->pending = g_ptr_array_new_with_free_func (free_change);
  self->folders = g_ptr_array_new_with_free_func (g_free);
  read_folder (self, folder);
  return self;
}

void
disk_free (Disk *self)
{
  if (self == NULL)
    return;
  g_free (self->root);
  g_hash_table_unref (self->names);
  g_hash_table_unref (self->kept);
  g_ptr_array_unref (self->pending);
  g_ptr_array_unref (self->folders);
  g_ptr_array_unref (self->inodes);
  g_free (self);
}

static NameChange *
change_name (Disk       *self,
             const char *path,
             Inode      *inode,
             const char *gone)
{
  NameChange *change = g_new0 (NameChange, 1);

  change->path = g_strdup (path);
  change->inode = inode;
  change->gone = g_strdup (gone);
  change->folder = g_path_get_dirname (path);
  g_ptr_array_add (self->pending, change);
  return change;
}

/* A file that is written to without having been named before has just been made. */
static Inode *
need_inode (Disk       *self,
            const char *path)
{
  Inode *inode = g_hash_table_lookup (self->names, path);

  if (inode != NULL)
    return inode;
  inode = add_inode (self);
  g_hash_table_insert (self->names, g_strdup (path), inode);
  change_name (self, path, inode, NULL);
  return inode;
}

static void
play_write (Inode      *inode,
            const char *text)
{
  char *hex = NULL;
  guint at = (guint) strtoul (text, &hex, 10);
  gsize size = strlen (++hex) / 2;

  if (inode->now->len < at + size)
    g_byte_array_set_size (inode->now, (guint) (at + size));
  for (gsize i = 0; i < size; i++)
    inode->now->data[at + i] = (guint8) (g_ascii_xdigit_value (hex[2 * i]) * 16
                                         + g_ascii_xdigit_value (hex[2 * i + 1]));
}

static void
apply_change (GHashTable       *names,
              const NameChange *change)
{
  if (change->in_exchange != NULL)
    g_hash_table_insert (names, g_strdup (change->gone), change->in_exchange);
  else if (change->gone != NULL)
    g_hash_table_remove (names, change->gone);
  if (change->inode != NULL)
    g_hash_table_insert (names, g_strdup (change->path), change->inode);
  else
    g_hash_table_remove (names, change->path);
}

static void
sync_names (Disk       *self,
            const char *folder)
{
  for (guint i = 0; i < self->pending->len;)
    {
      NameChange *change = g_ptr_array_index (self->pending, i);

      if (strcmp (change->folder, folder) != 0)
        {
          i++;
          continue;
        }
      apply_change (self->kept, change);
      g_ptr_array_remove_index (self->pending, i);
    }
}

/* Two files change names, in one step. */
static void
play_exchange (Disk       *self,
               const char *from,
               const char *to)
{
  Inode *inode = need_inode (self, from);
  Inode *other = need_inode (self, to);

  g_hash_table_insert (self->names, g_strdup (to), inode);
  g_hash_table_insert (self->names, g_strdup (from), other);
  change_name (self, to, inode, from)->in_exchange = other;
}

void
disk_play (Disk       *self,
           const char *line)
{
  g_auto (GStrv) parts = g_strsplit (line, "\t", 3);
  const char *kind = parts[0];
  const char *path = parts[1];

  if (strcmp (kind, "write") == 0)
    play_write (need_inode (self, path), parts[2]);
  else if (strcmp (kind, "truncate") == 0)
    g_byte_array_set_size (need_inode (self, path)->now, (guint) atoi (parts[2]));
  else if (strcmp (kind, "sync") == 0)
    {
      Inode *inode = need_inode (self, path);
      set_bytes (inode->synced, inode->now->data, inode->now->len);
    }
  else if (strcmp (kind, "sync-folder") == 0)
    sync_names (self, path);
  else if (strcmp (kind, "mkdir") == 0)
    g_ptr_array_add (self->folders, g_strdup (path));
  else if (strcmp (kind, "unlink") == 0)
    {
      g_hash_table_remove (self->names, path);
      change_name (self, path, NULL, NULL);
    }
  else if (strcmp (kind, "exchange") == 0)
    play_exchange (self, path, parts[2]);
  else
    {
      Inode *inode = need_inode (self, path);

      g_hash_table_insert (self->names, g_strdup (parts[2]), inode);
      if (strcmp (kind, "rename") == 0)
        g_hash_table_remove (self->names, path);
      change_name (self, parts[2], inode, strcmp (kind, "rename") == 0 ? path : NULL);
    }
}

guint
disk_n_pending (const Disk *self)
{
  return self->pending->len;
}

/* ---- writing a state ---- */

/* @path of the disk's folder, in @folder instead. (transfer full) */
static char *
move_path (const Disk *self,
           const char *path,
           const char *folder)
{
  return g_strconcat (folder, path + strlen (self->root), NULL);
}

static void
empty_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        empty_folder (path);
      g_remove (path);
    }
}

static void
write_file (const char  *path,
            const Inode *inode,
            DiskBytes    bytes)
{
  const GByteArray *from = bytes == DISK_SYNCED_ONLY ? inode->synced : inode->now;
  gsize size = from->len;

  if (bytes == DISK_HALF && inode->now->len > inode->synced->len)
    size = inode->synced->len + (inode->now->len - inode->synced->len) / 2;
  g_assert_true (g_file_set_contents_full (path, (const char *) from->data, (gssize) size,
                                           G_FILE_SET_CONTENTS_NONE, 0644, NULL));
}

void
disk_write (const Disk *self,
            const char *folder,
            DiskBytes   bytes,
            guint       n_names)
{
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GHashTableIter iter;
  gpointer path;
  gpointer inode;

  empty_folder (folder);
  for (guint i = 0; i < self->folders->len; i++)
    {
      g_autofree char *moved = move_path (self, g_ptr_array_index (self->folders, i), folder);
      g_mkdir_with_parents (moved, 0755);
    }
  g_hash_table_iter_init (&iter, self->kept);
  while (g_hash_table_iter_next (&iter, &path, &inode))
    g_hash_table_insert (names, g_strdup (path), inode);
  for (guint i = 0; i < n_names; i++)
    apply_change (names, g_ptr_array_index (self->pending, i));
  g_hash_table_iter_init (&iter, names);
  while (g_hash_table_iter_next (&iter, &path, &inode))
    {
      g_autofree char *moved = move_path (self, path, folder);
      write_file (moved, inode, bytes);
    }
}
