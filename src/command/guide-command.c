/* guide-command.c - the user guide, to read or as a PDF to print
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/command-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "card/guide-sheets.h"
#include "words/words.h"

#define COMMAND "guide"

static void
tell_block (GString            *out,
            const HwGuideBlock *block)
{
  switch (block->kind)
    {
    case HW_GUIDE_HEADING:
      g_string_append_printf (out, "\n%s\n\n", block->text);
      return;
    case HW_GUIDE_STEP:
      g_string_append_printf (out, "%3d. %s\n", block->number, block->text);
      return;
    case HW_GUIDE_EXAMPLE:
      g_string_append_printf (out, "\n    %s\n\n", block->text);
      return;
    case HW_GUIDE_CAUTION:
      g_string_append_printf (out, "\n! %s\n\n", block->text);
      return;
    case HW_GUIDE_PICTURE:
      return;                            /* nothing to see on a terminal */
    case HW_GUIDE_FORMULA:
      g_string_append_printf (out, "  %s\n", block->text);
      for (const HwSource **source = block->sources; *source != NULL; source++)
        {
          g_autofree char *where = hw_words_source (*source);

          g_string_append_printf (out, "      %s\n", where);
        }
      return;
    case HW_GUIDE_PARAGRAPH:
    default:
      g_string_append_printf (out, "%s\n\n", block->text);
    }
}

static void
tell_chapter (const HwGuideChapter *chapter)
{
  g_autoptr (GString) out = g_string_new (chapter->title);

  g_string_append (out, "\n\n");
  for (guint i = 0; i < chapter->blocks->len; i++)
    tell_block (out, chapter->blocks->pdata[i]);
  hw_command_print (out->str);
}

static void
list_chapters (const GPtrArray *chapters)
{
  for (guint i = 0; i < chapters->len; i++)
    {
      const HwGuideChapter *chapter = chapters->pdata[i];
      g_autofree char      *line = g_strdup_printf ("%-12s  %s\n", chapter->id, chapter->title);

      hw_command_print (line);
    }
}

static int
write_guide (const GPtrArray *chapters,
             const char      *paper_word,
             const char      *output)
{
  g_autofree char *date = hw_command_date ();
  g_autoptr (GError) error = NULL;
  HwPaper paper = hw_words_locale_letter () ? HW_PAPER_LETTER : HW_PAPER_A4;

  if (paper_word != NULL && !g_str_equal (paper_word, "a4") && !g_str_equal (paper_word, "letter"))
    return hw_command_usage (COMMAND, _("--paper is a4 or letter, not “%s”"), paper_word);
  if (paper_word != NULL)
    paper = g_str_equal (paper_word, "letter") ? HW_PAPER_LETTER : HW_PAPER_A4;
  if (!g_str_has_suffix (output, ".pdf"))
    return hw_command_usage (COMMAND, _("the guide is written as a PDF; “%s” does not end in .pdf"), output);
  if (!hw_guide_write (chapters, paper, output, date, &error))
    {
      hw_command_fail (error);
      return HW_EXIT_IO;
    }
  return HW_EXIT_DONE;
}

static int
show_guide (const HwHandbook *handbook,
            const char       *id,
            const char       *paper,
            const char       *output)
{
  g_autofree char *data = hw_data_folder ();
  g_autofree char *folder = g_build_filename (data, "guide", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) chapters = hw_guide_load (folder, handbook, hw_words_translate, &error);
  const HwGuideChapter *chapter;

  if (chapters == NULL)
    return hw_command_fail (error);
  if (output != NULL)
    return write_guide (chapters, paper, output);
  if (id == NULL)
    {
      list_chapters (chapters);
      return HW_EXIT_DONE;
    }
  chapter = hw_guide_find (chapters, id);
  if (chapter == NULL)
    return hw_command_usage (COMMAND, _("there is no chapter “%s”; “handwheel guide” lists them"), id);
  tell_chapter (chapter);
  return HW_EXIT_DONE;
}

int
hw_command_guide (int    argc,
                  char **argv)
{
  g_autofree char *output = NULL;
  g_autofree char *paper = NULL;
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output, N_("write the whole guide as a PDF"), N_("FILE") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &paper, N_("of that PDF: a4 (the usual) or letter"), N_("PAPER") },
    G_OPTION_ENTRY_NULL,
  };
  g_autoptr (HwHandbook) handbook = NULL;
  int status = HW_EXIT_DONE;

  if (!hw_command_parse (&argc, &argv, _("[CHAPTER]"), _("The user guide: its chapters, one of them, or all on paper."),
                         entries, &status))
    return status;
  if (argc > 2)
    return hw_command_usage (COMMAND, _("it takes one chapter at most"));
  handbook = hw_command_handbook_load (&status);
  return handbook != NULL ? show_guide (handbook, argv[1], paper, output) : status;
}
