/* find-index.c - everything in the workspace that can be found, with the action that opens it
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/find-index.h"

#include <glib/gi18n.h>

#include "window/furnish.h"
#include "window/project-list.h"
#include "words/topics.h"

typedef struct
{
  const char *name;
  const char *keys;              /* as a person reads them; NULL none */
  const char *words;             /* others that it may be looked for by; NULL none */
  const char *action;            /* detailed */
  gboolean    needs_project;
} Action;

static const Action actions[] = {
  { N_("New project"), "Ctrl+N", N_("begin create make"), "win.new-project", FALSE },
  { N_("New project from a garment"), "Ctrl+Shift+N", N_("pattern size measurements begin"), "win.new-garment",
    FALSE },
  { N_("Open a project file"), "Ctrl+O", N_("load import"), "win.open", FALSE },
  { N_("Title and due date"), NULL, N_("rename name deadline"), "win.edit-project", TRUE },
  { N_("Add steps, typed in a row"), "Ctrl+Insert", N_("operation seam sew quick"),
    "win.on-page(('making-up', 'making-up.add-step'))", TRUE },
  { N_("Add an operation"), NULL, N_("step seam sew"),
    "win.on-page(('making-up', 'making-up.add-operation'))", TRUE },
  { N_("Add a hand step"), NULL, N_("press iron trim fuse"),
    "win.on-page(('making-up', 'making-up.add-hand-step'))", TRUE },
  { N_("Add a fabric"), NULL, N_("cloth material"), "win.on-page(('making-up', 'making-up.add-fabric'))", TRUE },
  { N_("Add a thread"), NULL, N_("colour tex"), "win.on-page(('making-up', 'making-up.add-thread'))", TRUE },
  { N_("Add a lockstitch machine"), NULL, N_("my own new sewing"),
    "win.on-page(('machines', 'machines.add::lockstitch'))", FALSE },
  { N_("Add an overlocker"), NULL, N_("my own new machine serger"),
    "win.on-page(('machines', 'machines.add::overlock'))", FALSE },
  { N_("Add a coverstitch machine"), NULL, N_("my own new"),
    "win.on-page(('machines', 'machines.add::coverstitch'))", FALSE },
  { N_("Add needles"), NULL, N_("packet case own new"), "win.on-page(('needles', 'needles.add'))", FALSE },
  { N_("Undo"), "Ctrl+Z", N_("take back"), "win.undo", TRUE },
  { N_("Redo"), "Ctrl+Shift+Z", NULL, "win.redo", TRUE },
  { N_("Earlier versions"), NULL, N_("history backup restore go back"), "win.page::versions", TRUE },
  { N_("Print setup cards"), "Ctrl+P", N_("paper pdf class handout students"), "win.print", TRUE },
  { N_("Copy the set-up as text"), NULL, N_("clipboard send"), "win.copy-set-up", TRUE },
  { N_("Share the project"), NULL, N_("export send mail file test seams"), "win.export", TRUE },
  { N_("Note that the next needle is loaded"), NULL, N_("I loaded it change"), "win.loaded", TRUE },
  { N_("Start or pause the step’s timer"), "Ctrl+T", N_("clock minutes stopwatch"),
    "win.on-page(('order', 'order.timer'))", TRUE },
  { N_("Making up"), "Ctrl+1", N_("page list operations"), "win.page::making-up", TRUE },
  { N_("Order of work"), "Ctrl+2", N_("page sequence timer sewn"), "win.page::order", TRUE },
  { N_("Setup cards"), "Ctrl+3", N_("page preview paper class handout"), "win.page::cards", TRUE },
  { N_("Notions"), "Ctrl+4", N_("page shopping list bobbins spools"), "win.page::notions", TRUE },
  { N_("What to sew next"), NULL, N_("page queue projects dates"), "win.page::queue", FALSE },
  { N_("Machines"), NULL, N_("page care dust oil service hours"), "win.page::machines", FALSE },
  { N_("Needles"), NULL, N_("page needle case worn"), "win.page::needles", FALSE },
  { N_("Thread"), NULL, N_("page spools shelf colour"), "win.page::thread", FALSE },
  { N_("Fabrics"), NULL, N_("page cloth on hand"), "win.page::fabrics", FALSE },
  { N_("Stitch faults"), NULL, N_("page trouble skipped loops pucker"), "win.stitch-fault", FALSE },
  { N_("Journal"), NULL, N_("page hours done history"), "win.page::journal", FALSE },
  { N_("Handbook"), NULL, N_("page reference rules sources"), "win.page::handbook", FALSE },
  { N_("Finish for today"), NULL, N_("close machine unplug clean"), "win.page::finish", FALSE },
  { N_("Preferences"), "Ctrl+,", N_("settings units inches paper"), "win.preferences", FALSE },
  { N_("Guide"), "F1", N_("help manual how to"), "win.page::guide", FALSE },
  { N_("Keys"), "Ctrl+?", N_("shortcuts keyboard help"), "win.keys", FALSE },
};

static const char * const group_names[HW_FIND_N_GROUPS] = {
  [HW_FIND_PROJECTS] = N_("Projects"),
  [HW_FIND_STEPS] = N_("Steps"),
  [HW_FIND_FABRICS] = N_("Fabrics"),
  [HW_FIND_ACTIONS] = N_("What you can do"),
  [HW_FIND_HANDBOOK] = N_("Handbook"),
};

const char *
hw_find_group_name (HwFindGroup group)
{
  g_return_val_if_fail (group < HW_FIND_N_GROUPS, "");

  return _(group_names[group]);
}

static char *
make_target (const char *action,
             GVariant   *value)           /* floating */
{
  g_autoptr (GVariant) owned = g_variant_ref_sink (value);

  return g_action_print_detailed_name (action, owned);
}

/* The fabrics and the purpose of a step are words it may be looked for by. */
static char *
step_words (const HwProject *project,
            const HwStep    *step)
{
  GString *words = g_string_new (step->purpose != NULL ? step->purpose : "");

  for (gsize i = 0; i < step->n_plies; i++)
    {
      const HwProjectFabric *fabric = hw_project_find_fabric (project, step->plies[i].fabric);

      if (fabric != NULL)
        g_string_append_printf (words, " %s", fabric->name);
    }
  return g_string_free (words, FALSE);
}

static void
add_steps (HwFind          *find,
           const HwProject *project,
           const char      *path)
{
  for (guint i = 0; i < project->steps->len; i++)
    {
      const HwStep    *step = hw_project_get_step (project, i);
      /* Translators: a step's number, the project's title */
      g_autofree char *detail = g_strdup_printf (_("step %s of %s"), step->number, project->title);
      g_autofree char *words = step_words (project, step);
      g_autofree char *target = make_target ("win.show-step", g_variant_new ("(ss)", path, step->number));

      hw_find_add (find, HW_FIND_STEPS, step->name, detail, words, target);
    }
}

static void
add_project (HwFind          *find,
             const HwProject *project,
             const char      *path)
{
  g_autofree char *steps = g_strdup_printf (ngettext ("%u step", "%u steps", project->steps->len),
                                            project->steps->len);
  g_autofree char *target = make_target ("win.open-path", g_variant_new_string (path));

  hw_find_add (find, HW_FIND_PROJECTS, project->title, steps, _("project"), target);
  add_steps (find, project, path);
}

/* Those opened last come first: they are offered before a word is typed. */
static void
add_projects (HwFind      *find,
              HwWorkspace *workspace)
{
  g_autoptr (GPtrArray)  summaries = hw_workspace_summarise_projects (workspace);
  g_auto (GStrv)         recent = hw_recall_projects (hw_workspace_get_room (workspace)->folder);
  g_autoptr (GHashTable) by_path = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < summaries->len; i++)
    {
      HwProjectSummary *summary = g_ptr_array_index (summaries, i);

      if (summary->project != NULL)
        g_hash_table_insert (by_path, summary->path, summary);
    }
  for (char **path = recent; *path != NULL; path++)
    {
      const HwProjectSummary *summary = g_hash_table_lookup (by_path, *path);

      if (summary != NULL)
        add_project (find, summary->project, summary->path);
      g_hash_table_remove (by_path, *path);
    }
  for (guint i = 0; i < summaries->len; i++)
    {
      const HwProjectSummary *summary = g_ptr_array_index (summaries, i);

      if (g_hash_table_contains (by_path, summary->path))
        add_project (find, summary->project, summary->path);
    }
}

static void
add_actions (HwFind  *find,
             gboolean open)
{
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    if (open || !actions[i].needs_project)
      hw_find_add (find, HW_FIND_ACTIONS, _(actions[i].name), actions[i].keys,
                   actions[i].words != NULL ? _(actions[i].words) : NULL, actions[i].action);
}

/* The rows of the rules are found from the entries they speak of. */
static void
add_handbook (HwFind           *find,
              const HwHandbook *handbook)
{
  g_autoptr (GPtrArray) topics = hw_topics_list (handbook);

  for (guint i = 0; i < topics->len; i++)
    {
      const HwTopic   *topic = g_ptr_array_index (topics, i);
      g_autofree char *path = hw_topic_path (topic);
      g_autofree char *target = make_target ("win.handbook-entry", g_variant_new_string (path));

      if (!g_str_equal (topic->table, "row"))
        hw_find_add (find, g_str_equal (topic->table, "fabric") ? HW_FIND_FABRICS : HW_FIND_HANDBOOK, topic->name,
                     topic->kind, topic->id, target);
    }
}

static void
add_cloths (HwFind       *find,
            const HwRoom *room)
{
  for (guint i = 0; i < room->cloths->len; i++)
    {
      const HwShelfCloth *cloth = g_ptr_array_index (room->cloths, i);

      hw_find_add (find, HW_FIND_FABRICS, cloth->name, _("on hand"), cloth->colour, "win.page::fabrics");
    }
}

HwFind *
hw_find_index_new (HwWorkspace *workspace)
{
  HwFind *find = hw_find_new ();

  /* Translators: small words of a question, with blanks between them, that need not be found where other words are;
   * any number of them, those of your language */
  hw_find_spare (find, _("a an and are can do does for from how I in is it its me my of on or should the this to what "
                         "when where which why with"));
  add_projects (find, workspace);
  add_cloths (find, hw_workspace_get_room (workspace));
  add_actions (find, hw_workspace_peek_project (workspace) != NULL);
  add_handbook (find, hw_workspace_get_handbook (workspace));
  return find;
}
