/* replay.c - runs a fuzz target over its corpus, and over the same damage to it every time
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A fuzzer that is built with its own engine brings its own main; this one serves the ordinary tests. Every file of
 * the folder given is fed to the target as it is and with a fixed series of damages. TAP output, one case a file.
 */

#include "config.h"

#include "target.h"

#include <glib.h>
#include <stdio.h>
#include <string.h>

#define DAMAGES 150
#define SEED 20240229

static int
compare_names (const void *a,
               const void *b)
{
  return strcmp (*(const char * const *) a, *(const char * const *) b);
}

static GPtrArray *
list_corpus (const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  if (dir == NULL)
    g_error ("%s", error->message);
  while ((name = g_dir_read_name (dir)) != NULL)
    g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  return names;
}

/* What markup is made of is put in more often than chance would. */
static guint8
choose_byte (GRand *rand)
{
  static const char telling[] = "<>&\"'/=;!-[]{}0.,- \n\xff";

  if (g_rand_boolean (rand))
    return (guint8) g_rand_int_range (rand, 0, 256);
  return (guint8) telling[g_rand_int_range (rand, 0, sizeof telling)];
}

static void
damage (GByteArray *bytes,
        GRand      *rand)
{
  guint length = bytes->len > 0 ? bytes->len : 1;
  guint at = (guint) g_rand_int_range (rand, 0, (gint32) length);
  guint piece = (guint) g_rand_int_range (rand, 1, 40);
  guint8 byte = choose_byte (rand);

  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      if (at < bytes->len)
        bytes->data[at] = byte;
      break;
    case 1:
      g_byte_array_set_size (bytes, at);                         /* cut short */
      break;
    case 2:
      if (at < bytes->len)                                       /* a piece taken out */
        g_byte_array_remove_range (bytes, at, MIN (bytes->len - at, piece));
      break;
    default:
      g_byte_array_append (bytes, &byte, 1);
      if (at + 1 < bytes->len)                                   /* a byte put in */
        {
          memmove (bytes->data + at + 1, bytes->data + at, bytes->len - at - 1);
          bytes->data[at] = byte;
        }
      break;
    }
}

/* A block of exactly the size, so that a sanitizer sees a read beyond its end. */
static void
feed (const guint8 *data,
      gsize         size)
{
  g_autofree guint8 *copy = g_memdup2 (data, size);

  LLVMFuzzerTestOneInput (copy != NULL ? copy : (const guint8 *) "", size);
}

static void
replay (const char *path,
        GRand      *rand)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *data = NULL;
  gsize size = 0;

  if (!g_file_get_contents (path, &data, &size, &error))
    g_error ("%s", error->message);
  feed ((const guint8 *) data, size);
  for (int i = 0; i < DAMAGES; i++)
    {
      g_autoptr (GByteArray) bytes = g_byte_array_new ();
      int times = g_rand_int_range (rand, 1, 5);

      g_byte_array_append (bytes, (const guint8 *) data, (guint) size);
      while (times-- > 0)
        damage (bytes, rand);
      feed (bytes->data, bytes->len);
    }
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (GPtrArray) names = NULL;
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);

  if (argc != 2)
    g_error ("one argument is needed: the folder of the corpus");
  names = list_corpus (argv[1]);
  g_assert (names->len > 0);
  printf ("1..%u\n", names->len);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (argv[1], g_ptr_array_index (names, i), NULL);
      replay (path, rand);                                       /* a broken promise ends the process */
      printf ("ok %u - %s\n", i + 1, (const char *) g_ptr_array_index (names, i));
      fflush (stdout);
    }
  return 0;
}
