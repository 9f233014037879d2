/* test-command-language.c - commands and cards in a made-up language: every word translated
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include <gio/gio.h>
#include <locale.h>
#include <string.h>

#include "plain-words.h"
#include "temp-folder.h"

typedef struct
{
  char *folder;
  char *file;                            /* a project in that language */
  char *cards;
} Desk;

/* What @words prints on stdout; it must end with 0. (transfer full) */
static char *
run (const char * const *words)
{
  g_autoptr (GSubprocess) process = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  g_autofree char *told = NULL;

  process = g_subprocess_newv (words, G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_PIPE, &error);
  g_assert_no_error (error);
  g_subprocess_communicate_utf8 (process, NULL, NULL, &text, &told, &error);
  g_assert_no_error (error);
  if (g_subprocess_get_exit_status (process) != 0)
    g_error ("%s %s: %s", words[0], words[1], told);
  return g_steal_pointer (&text);
}

static void
desk_open (Desk          *self,
           gconstpointer  data)
{
  g_autofree char *room = NULL;
  g_autofree char *said = NULL;

  self->folder = temp_folder_new ();
  self->file = g_build_filename (self->folder, "skirt.handwheel", NULL);
  self->cards = g_build_filename (self->folder, "cards.pdf", NULL);
  room = g_build_filename (self->folder, "room", NULL);
  g_setenv ("HANDWHEEL_ROOM", room, TRUE);
  said = run ((const char * const []) { g_getenv ("HANDWHEEL"), "new", "--garment", "skirt", "--size", "96", "-o",
                                        self->file, NULL });
  g_assert_cmpstr (said, !=, "");
}

static void
desk_close (Desk          *self,
            gconstpointer  data)
{
  g_free (self->file);
  g_free (self->cards);
  temp_folder_remove (self->folder);
}

/* Fails for each line that holds a word no translator can reach. An id, which is typed as it stands, is a column of its
 * own. */
static void
judge (const char *text,
       const char *what)
{
  g_autoptr (GRegex) ids = g_regex_new ("(^ *|  )[a-z0-9][a-z0-9./-]*(?=  |$)", G_REGEX_MULTILINE, 0, NULL);
  g_autofree char *rest = g_regex_replace_literal (ids, text, -1, 0, "  ", 0, NULL);
  g_auto (GStrv) lines = g_strsplit (rest, "\n", -1);

  for (char **line = lines; *line != NULL; line++)
    {
      g_autofree char *word = plain_words_find (*line);

      if (word == NULL)
        continue;
      g_test_message ("%s: “%s”: %s", what, *line, word);
      g_test_fail ();
    }
}

/* Arguments with FILE where the project goes. */
static void
test_command (Desk          *self,
              gconstpointer  data)
{
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();
  g_auto (GStrv) arguments = g_strsplit (data, " ", -1);
  g_auto (GStrv) all = NULL;
  g_autofree char *text = NULL;

  g_strv_builder_add (words, g_getenv ("HANDWHEEL"));
  for (char **argument = arguments; *argument != NULL; argument++)
    g_strv_builder_add (words, g_str_equal (*argument, "FILE") ? self->file : *argument);
  all = g_strv_builder_end (words);
  text = run ((const char * const *) all);
  g_assert_cmpstr (text, !=, "");
  judge (text, data);
}

/* The heads of a help text are GLib's own, and names of options are the same in every language. */
static void
test_help (gconstpointer data)
{
  g_autofree char *help = run ((const char * const []) { g_getenv ("HANDWHEEL"), data, "--help", NULL });
  g_autoptr (GRegex) heads = g_regex_new ("^(Usage|Application Options|Help Options|Options):|\\[OPTION…\\]",
                                          G_REGEX_MULTILINE, 0, NULL);
  g_autofree char *text = g_regex_replace_literal (heads, help, -1, 0, "", 0, NULL);
  g_autoptr (GRegex) name = g_regex_new ("^ +handwheel [a-z-]+", G_REGEX_MULTILINE, 0, NULL);
  g_autofree char *own = g_regex_replace_literal (name, text, -1, 0, "", 0, NULL);

  judge (own, data);
}

static void
test_card (Desk          *self,
           gconstpointer  paper)
{
  g_autofree char *said = run ((const char * const []) { g_getenv ("HANDWHEEL"), "card", self->file, "--paper", paper,
                                                         "-o", self->cards, NULL });
  g_autofree char *reader = g_find_program_in_path ("pdftotext");
  g_autofree char *text = NULL;

  if (reader == NULL)
    {
      g_test_skip ("pdftotext is not installed");
      return;
    }
  text = run ((const char * const []) { "pdftotext", "-layout", self->cards, "-", NULL });
  g_assert_nonnull (strstr (text, "‹"));
  judge (text, paper);
}

int
main (int    argc,
      char **argv)
{
  static const char * const commands[] = {
    "plan FILE", "pair --fabric denim --plies 4", "pair --fabric single-jersey --purpose hem", "next FILE",
    "queue FILE",
    "care", "shelf", "fault skipped-stitches", "fault", "handbook", "handbook denim", "handbook fault/skipped-stitches",
    "handbook garment/shirt", "handbook care/dust", "handbook seam/plain", "check FILE", "guide", "guide numbers",
  };
  static const char * const helped[] = { "new", "plan", "card", "pair", "next", "queue", "care", "log", "fault",
                                         "test-seam", "journal", "shelf", "check", "guide", "handbook" };
  static const char * const papers[] = { "a5", "a6", "a4" };

  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      g_autofree char *name = g_strconcat ("/language/command/", commands[i], NULL);

      g_strdelimit (name + strlen ("/language/command/"), "/", ' ');
      g_test_add (name, Desk, commands[i], desk_open, test_command, desk_close);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (helped); i++)
    {
      g_autofree char *name = g_strconcat ("/language/help/", helped[i], NULL);

      g_test_add_data_func (name, helped[i], test_help);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (papers); i++)
    {
      g_autofree char *name = g_strconcat ("/language/card/", papers[i], NULL);

      g_test_add (name, Desk, papers[i], desk_open, test_card, desk_close);
    }
  return g_test_run ();
}
