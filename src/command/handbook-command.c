/* handbook-command.c - handwheel handbook [ENTRY]: browses the knowledge base
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <stdio.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/topics.h"
#include "words/words.h"

#define NAME_WIDTH 22
#define MOST_MENTIONS 12

static char *
say_source (const HwTopic *topic)
{
  return hw_words_source (topic->source != NULL ? topic->source : topic->whole);
}

static HwTable *
build_list (const GPtrArray *topics)
{
  HwTable *table = hw_table_new ("handbook", "entry");

  hw_table_add_column (table, "table", _("Kind"), FALSE);
  hw_table_add_column (table, "id", _("Entry"), FALSE);
  hw_table_add_column (table, "name", _("Name"), FALSE);
  hw_table_add_column (table, "source", _("Source"), FALSE);
  for (guint i = 0; i < topics->len; i++)
    {
      const HwTopic *topic = topics->pdata[i];

      hw_table_text (table, topic->table);
      hw_table_text (table, topic->id);
      hw_table_text (table, topic->name);
      hw_table_take (table, say_source (topic));
    }
  return table;
}

/* ---- one entry ---- */

static void
print_pair (const char *name,
            const char *value)
{
  glong width = g_utf8_strlen (name, -1);      /* printf would count bytes */

  printf ("  %s%*s %s", name, (int) MAX (NAME_WIDTH - width, 0), "", value);
}

static void
print_line (const HwFact *fact)
{
  if (fact->name != NULL)
    {
      /* Translators: what is told of, what is told */
      g_autofree char *line = g_strdup_printf (_("%s: %s"), fact->name, fact->value);

      printf ("  %s", line);
    }
  else
    printf ("  %s", fact->value);
  if (fact->source != NULL)
    {
      g_autofree char *source = hw_words_source (fact->source);

      printf (" [%s]", source);
    }
}

static void
print_facts (const GArray *facts)
{
  for (guint i = 0; i < facts->len; i++)
    {
      const HwFact *fact = &g_array_index (facts, HwFact, i);
      const HwFact *next = i + 1 < facts->len ? &g_array_index (facts, HwFact, i + 1) : NULL;

      if (fact->kind == HW_FACT_LINE)
        print_line (fact);
      else if (fact->name != NULL)
        print_pair (fact->name, fact->value);
      else
        printf (", %s", fact->value);
      if (next == NULL || next->kind == HW_FACT_LINE || next->name != NULL)
        printf ("\n");
    }
}

/* Several tables may have an entry of one id: a dart is a seam, a purpose and a word. */
static void
print_others (const GPtrArray *topics,
              const HwTopic   *shown)
{
  g_autoptr (GString) others = g_string_new (NULL);

  for (guint i = 0; i < topics->len; i++)
    {
      const HwTopic *topic = topics->pdata[i];

      if (topic != shown && g_str_equal (topic->id, shown->id))
        g_string_append_printf (others, "%s%s/%s", others->len > 0 ? ", " : "", topic->table, topic->id);
    }
  if (others->len == 0)
    return;
  print_pair (_("Other entries"), others->str);
  printf ("\n");
}

static void
print_mentions (const HwHandbook *handbook,
                const GPtrArray  *topics,
                const HwTopic    *shown)
{
  g_autoptr (GHashTable) mentions = hw_topics_mentions (handbook, topics);
  g_autofree char       *path = hw_topic_path (shown);
  const GPtrArray       *by = g_hash_table_lookup (mentions, path);
  g_autoptr (GString)    list = g_string_new (NULL);
  g_autofree char       *all = NULL;

  if (by == NULL)
    return;
  for (guint i = 0; i < MIN (by->len, MOST_MENTIONS); i++)
    {
      g_autofree char *one = hw_topic_path (by->pdata[i]);

      g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", one);
    }
  if (by->len > MOST_MENTIONS)
    /* Translators: a list of entries, and how many more there are */
    all = g_strdup_printf (ngettext ("%s and %u more", "%s and %u more", by->len - MOST_MENTIONS), list->str,
                           by->len - MOST_MENTIONS);
  print_pair (_("Named by"), all != NULL ? all : list->str);
  printf ("\n");
}

static int
tell_unknown (const HwHandbook *handbook,
              const char       *id)
{
  g_autofree char *nearest = hw_handbook_nearest_id (handbook, NULL, id);

  if (nearest != NULL)
    fprintf (stderr, _("The handbook has no entry “%s”; did you mean “%s”?\n"), id, nearest);
  else
    fprintf (stderr, _("The handbook has no entry “%s”; “handwheel handbook” lists them\n"), id);
  return HW_EXIT_REFUSED;
}

static int
show_topic (const HwHandbook *handbook,
            const GPtrArray  *topics,
            const char       *id)
{
  const HwTopic     *topic = hw_topics_find (topics, id);
  g_autoptr (GArray) facts = topic != NULL ? hw_topic_facts (handbook, topic) : NULL;
  g_autofree char   *source = NULL;

  if (topic == NULL)
    return tell_unknown (handbook, id);
  printf ("%s (%s/%s)\n", topic->name, topic->table, topic->id);
  print_facts (facts);
  if (topic->note != NULL)
    printf ("  %s\n", topic->note);
  if (topic->source != NULL)
    {
      source = hw_words_source (topic->source);
      print_pair (_("Source"), source);
      printf ("\n");
    }
  print_others (topics, topic);
  print_mentions (handbook, topics, topic);
  return HW_EXIT_DONE;
}

int
hw_command_handbook (int    argc,
                     char **argv)
{
  g_autoptr (HwHandbook) handbook = NULL;
  g_autoptr (GPtrArray) topics = NULL;
  g_autoptr (HwTable) table = NULL;
  g_autofree char *format_word = NULL;
  g_autofree char *text = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, _("[ENTRY]"), _("Lists the handbook's entries, or shows one with its source."),
                         entries, &status))
    return status;
  if (argc > 2)
    return hw_command_usage (argv[0], _("name at most one entry"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;

  handbook = hw_command_handbook_load (&status);
  if (handbook == NULL)
    return status;
  topics = hw_topics_list (handbook);
  if (argc == 2)
    return show_topic (handbook, topics, argv[1]);
  table = build_list (topics);
  text = hw_table_format (table, format);
  hw_command_print (text);
  return HW_EXIT_DONE;
}
