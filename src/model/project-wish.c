/* project-wish.c - what a person may wish of the order of work, and the chain that forbids a wish
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arrows run from a step to those it comes after. Steps kept together count as one: whoever reaches one of them
 * along the arrows has reached all. A wish is impossible when the arrows lead from what should come earlier back to
 * what should come later; the shortest such way is the chain.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/project.h"
#include "model/project-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define CHAIN_SHOWN_MAX 12       /* steps that a message lists */
#define NOBODY G_MAXUINT

typedef struct
{
  const HwProject *project;
  GHashTable *index;             /* number -> index + 1 */
  guint   n;
  GArray *links;                 /* Link, sorted by step */
  guint  *first;                 /* [n + 1] offsets into links */
  guint  *kept;                  /* [n] the wish that keeps it together with others; NOBODY none */
} Graph;

typedef struct { guint step, earlier; } Link;

static guint
find_index (const Graph *self,
            const char  *number)
{
  return GPOINTER_TO_UINT (g_hash_table_lookup (self->index, number)) - 1;     /* NOBODY: unknown */
}

static void
add_link (Graph *self,
          guint  step,
          guint  earlier)
{
  Link link = { step, earlier };

  if (step != NOBODY && earlier != NOBODY)
    g_array_append_val (self->links, link);
}

static void
add_wish (Graph *self,
          guint  index)
{
  const HwWish *wish = g_ptr_array_index (self->project->wishes, index);

  if (wish->kind == HW_WISH_BEFORE)
    add_link (self, find_index (self, wish->steps[1]), find_index (self, wish->steps[0]));
  if (wish->kind == HW_WISH_TOGETHER)
    for (char **number = wish->steps; *number != NULL; number++)
      if (find_index (self, *number) != NOBODY)
        self->kept[find_index (self, *number)] = index;
}

static int
compare_links_cb (gconstpointer a,
                  gconstpointer b)
{
  const Link *x = a;
  const Link *y = b;

  if (x->step != y->step)
    return x->step < y->step ? -1 : 1;
  return x->earlier < y->earlier ? -1 : x->earlier > y->earlier;
}

/* @with_wishes: those of the project, but not @except, are arrows too. */
static void
graph_init (Graph           *self,
            const HwProject *project,
            gboolean         with_wishes,
            const HwWish    *except)
{
  *self = (Graph) { project, hw_project_index_steps (project), project->steps->len,
                    g_array_new (FALSE, FALSE, sizeof (Link)), NULL, NULL };
  self->first = g_new0 (guint, self->n + 1);
  self->kept = g_new (guint, self->n + 1);
  for (guint i = 0; i < self->n; i++)
    {
      self->kept[i] = NOBODY;
      for (char **number = hw_project_get_step (project, i)->after; number != NULL && *number != NULL; number++)
        add_link (self, i, find_index (self, *number));
    }
  for (guint w = 0; with_wishes && w < project->wishes->len; w++)
    if (g_ptr_array_index (project->wishes, w) != except)
      add_wish (self, w);
  g_array_sort (self->links, compare_links_cb);
  for (guint i = 0; i < self->links->len; i++)
    self->first[g_array_index (self->links, Link, i).step + 1]++;
  for (guint i = 0; i < self->n; i++)
    self->first[i + 1] += self->first[i];
}

static void
graph_clear (Graph *self)
{
  g_hash_table_unref (self->index);
  g_array_unref (self->links);
  g_free (self->first);
  g_free (self->kept);
}

/* ---- the way back ---- */

typedef struct
{
  const Graph *graph;
  guint  *place;                 /* [n] among the steps of the wish, 1 the earliest; 0 not one of them */
  gboolean together;             /* links between the steps of the wish itself count only against their order */
  guint  *from;                  /* [n] where the way came from; NOBODY not reached, itself for a start */
  GArray *queue;                 /* guint */
  guint   goal, goal_from;       /* NOBODY: not reached */
} Way;

static gboolean
is_goal (const Way *self,
         guint      from,
         guint      to)
{
  if (!self->together)
    return self->place[to] == 2;
  return self->place[to] != 0 && (self->place[from] == 0 || self->place[to] > self->place[from]);
}

static void
reach (Way   *self,
       guint  from,
       guint  to)
{
  if (self->goal != NOBODY)
    return;
  if (is_goal (self, from, to))
    {
      self->goal = to;
      self->goal_from = from;
    }
  else if (self->from[to] == NOBODY)
    {
      self->from[to] = from;
      g_array_append_val (self->queue, to);
    }
}

static void
reach_all (Way   *self,
           guint  from)
{
  const Graph *graph = self->graph;
  const HwWish *kept = graph->kept[from] != NOBODY ? g_ptr_array_index (graph->project->wishes, graph->kept[from])
                                                   : NULL;

  for (guint i = graph->first[from]; i < graph->first[from + 1]; i++)
    reach (self, from, g_array_index (graph->links, Link, i).earlier);
  for (char **number = kept != NULL ? kept->steps : NULL; number != NULL && *number != NULL; number++)
    if (find_index (graph, *number) != NOBODY && find_index (graph, *number) != from)
      reach (self, from, find_index (graph, *number));
}

/* Goes back breadth first, so that the chain is as short as can be. */
static void
search (Way          *self,
        const HwWish *wish)
{
  for (guint i = 0; wish->steps[i] != NULL; i++)
    {
      guint start = find_index (self->graph, wish->steps[i]);

      self->place[start] = i + 1;
      if (i == 0 || self->together)
        {
          self->from[start] = start;
          g_array_append_val (self->queue, start);
        }
    }
  for (guint next = 0; next < self->queue->len && self->goal == NOBODY; next++)
    reach_all (self, g_array_index (self->queue, guint, next));
}

static char **
list_chain (const Way *self)
{
  GPtrArray *chain = g_ptr_array_new ();
  guint step = self->goal_from;

  g_ptr_array_add (chain, g_strdup (hw_project_get_step (self->graph->project, self->goal)->number));
  for (;; step = self->from[step])
    {
      g_ptr_array_insert (chain, 0, g_strdup (hw_project_get_step (self->graph->project, step)->number));
      if (self->from[step] == step)
        break;
    }
  g_ptr_array_add (chain, NULL);
  return (char **) g_ptr_array_free (chain, FALSE);
}

static char **
find_chain (const HwProject *project,
            const HwWish    *wish,
            gboolean         with_wishes)
{
  g_autofree guint *place = g_new0 (guint, project->steps->len + 1);
  g_autofree guint *from = g_new (guint, project->steps->len + 1);
  g_autoptr (GArray) queue = g_array_new (FALSE, FALSE, sizeof (guint));
  Graph graph;
  Way way = { &graph, place, wish->kind == HW_WISH_TOGETHER, from, queue, NOBODY, NOBODY };
  char **chain;

  graph_init (&graph, project, with_wishes, wish);
  for (guint i = 0; i < graph.n; i++)
    from[i] = NOBODY;
  search (&way, wish);
  chain = way.goal != NOBODY ? list_chain (&way) : NULL;
  graph_clear (&graph);
  return chain;
}

/* Within steps kept together the order is settled: TRUE when @wish is about two of them. */
static gboolean
is_settled (const HwProject *project,
            const HwWish    *wish,
            gboolean        *good)
{
  for (guint i = 0; wish->kind == HW_WISH_BEFORE && i < project->wishes->len; i++)
    {
      const HwWish *other = g_ptr_array_index (project->wishes, i);
      int places[2] = { -1, -1 };

      if (other->kind != HW_WISH_TOGETHER)
        continue;
      for (int k = 0; other->steps[k] != NULL; k++)
        for (int which = 0; which < 2; which++)
          if (strcmp (other->steps[k], wish->steps[which]) == 0)
            places[which] = k;
      *good = places[0] < places[1];
      if (places[0] >= 0 && places[1] >= 0)
        return TRUE;
    }
  return FALSE;
}

/**
 * hw_project_find_chain:
 * @wish: of steps that are in @self; one of its wishes, or another
 * @by_wishes: (out): whether other wishes of @self are links of the chain, besides the making up
 *
 * Returns: (transfer full) (nullable): the steps' numbers, each after the next; %NULL when nothing forbids @wish
 */
char **
hw_project_find_chain (const HwProject *self,
                       const HwWish    *wish,
                       gboolean        *by_wishes)
{
  char **chain;
  gboolean good = TRUE;

  g_return_val_if_fail (self != NULL && wish != NULL && by_wishes != NULL, NULL);

  *by_wishes = FALSE;
  if (wish->kind != HW_WISH_BEFORE && wish->kind != HW_WISH_TOGETHER)
    return NULL;
  chain = find_chain (self, wish, FALSE);
  if (chain != NULL)
    return chain;
  *by_wishes = TRUE;
  if (is_settled (self, wish, &good))
    return good ? NULL : g_strdupv (wish->steps);
  return find_chain (self, wish, TRUE);
}

/* ---- checks ---- */

static gboolean
refuse (GError    **error,
        int         code,
        const char *format,
        ...) G_GNUC_PRINTF (3, 4);

static gboolean
refuse (GError    **error,
        int         code,
        const char *format,
        ...)
{
  va_list arguments;

  va_start (arguments, format);
  if (error != NULL)
    *error = g_error_new_valist (HW_MODEL_ERROR, code, format, arguments);
  va_end (arguments);
  return FALSE;
}

static gboolean
check_count (const HwWish *wish,
             GError      **error)
{
  guint n = g_strv_length (wish->steps);

  switch (wish->kind)
    {
    case HW_WISH_BEFORE:
      return n == 2 || refuse (error, HW_MODEL_ERROR_INVALID,
                               _("a wish “before” names two steps, the one to come earlier in front: steps=\"4 2\""));
    case HW_WISH_TOGETHER:
      return n >= 2 || refuse (error, HW_MODEL_ERROR_INVALID,
                               _("a wish “together” names two steps or more in their order: steps=\"3 4 5\""));
    case HW_WISH_FIRST:
    case HW_WISH_LAST:
      return n == 1 || refuse (error, HW_MODEL_ERROR_INVALID, _("a wish “%s” names one step: steps=\"6\""),
                               hw_wish_kind_ids[wish->kind]);
    default:
      g_return_val_if_reached (FALSE);
    }
}

static gboolean
check_numbers (const HwProject *project,
               const HwWish    *wish,
               GError         **error)
{
  g_autoptr (GHashTable) index = hw_project_index_steps (project);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (char **number = wish->steps; *number != NULL; number++)
    {
      if (!hw_check_id (_("a step's number"), *number, error))
        return FALSE;
      if (!g_hash_table_contains (index, *number))
        return refuse (error, HW_MODEL_ERROR_UNKNOWN, _("there is no step %s to wish for; name one of the project's"),
                       *number);
      if (!g_hash_table_add (seen, *number))
        return refuse (error, HW_MODEL_ERROR_INVALID, _("step %s stands twice in one wish; name it once"), *number);
    }
  return TRUE;
}

/* A step is kept together by one wish at most. */
static gboolean
check_kept_once (const HwProject *project,
                 const HwWish    *wish,
                 GError         **error)
{
  for (guint i = 0; wish->kind == HW_WISH_TOGETHER && i < project->wishes->len; i++)
    {
      const HwWish *other = g_ptr_array_index (project->wishes, i);

      if (other == wish || other->kind != HW_WISH_TOGETHER)
        continue;
      for (char **number = wish->steps; *number != NULL; number++)
        if (g_strv_contains ((const char * const *) other->steps, *number))
          return refuse (error, HW_MODEL_ERROR_INVALID,
                         _("step %s is kept together with others by another wish; make one wish of the two"), *number);
    }
  return TRUE;
}

static char *
format_chain (char **chain)
{
  g_autofree char *text = g_strdup (chain[0]);
  guint n = g_strv_length (chain);

  for (guint i = 1; i < n; i++)
    {
      gboolean cut = i == CHAIN_SHOWN_MAX && n > CHAIN_SHOWN_MAX + 1;
      /* Translators: numbers of steps, the later in front: "4 after 3", then "4 after 3 after 2" */
      char *longer = g_strdup_printf (_("%s after %s"), text, cut ? "…" : chain[i]);

      g_free (text);
      text = longer;
      if (cut)
        i = n - 2;
    }
  return g_steal_pointer (&text);
}

static gboolean
check_chain (const HwProject *project,
             const HwWish    *wish,
             GError         **error)
{
  gboolean by_wishes = FALSE;
  g_auto (GStrv) chain = hw_project_find_chain (project, wish, &by_wishes);
  g_autofree char *text = NULL;
  g_autofree char *steps = NULL;

  if (chain == NULL)
    return TRUE;
  text = format_chain (chain);
  if (wish->kind == HW_WISH_BEFORE)
    return refuse (error, HW_MODEL_ERROR_CIRCLE,
                   by_wishes ? _("the wish for step %s before %s cannot be: %s, by other wishes too; take one out")
                             : _("the wish for step %s before %s cannot be: %s; take the wish out, or change “after”"),
                   wish->steps[0], wish->steps[1], text);
  steps = g_strjoinv (" ", wish->steps);
  return refuse (error, HW_MODEL_ERROR_CIRCLE,
                 by_wishes ? _("the wish for steps %s together cannot be: %s, by other wishes too; take one out")
                           : _("the wish for steps %s together cannot be: %s; take the wish out, or change “after”"),
                 steps, text);
}

gboolean
hw_check_wish (const HwProject *project,
               const HwWish    *wish,
               GError         **error)
{
  return check_count (wish, error) && check_numbers (project, wish, error) && check_kept_once (project, wish, error)
         && check_chain (project, wish, error);
}

gboolean
hw_check_wishes (const HwProject *project,
                 GError         **error)
{
  for (guint i = 0; i < project->wishes->len; i++)
    if (!hw_check_wish (project, g_ptr_array_index (project->wishes, i), error))
      return FALSE;
  return TRUE;
}
