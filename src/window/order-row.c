/* order-row.c - one line of the order of work, as an item of a list
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/order-row.h"

#include <glib/gi18n.h>

#include "words/words.h"

struct _HwOrderRow
{
  GObject         parent_instance;
  HwOrderRowKind  kind;
  char           *key;
  char           *letter;
  char           *number;
  char           *step;
  char           *text;
  char           *amount;
  gboolean        done;
  gboolean        first;
  gboolean        last;
  gboolean        next;
};

G_DEFINE_FINAL_TYPE (HwOrderRow, hw_order_row, G_TYPE_OBJECT)

static void
hw_order_row_finalize (GObject *object)
{
  HwOrderRow *self = HW_ORDER_ROW (object);

  g_free (self->key);
  g_free (self->letter);
  g_free (self->number);
  g_free (self->step);
  g_free (self->text);
  g_free (self->amount);
  G_OBJECT_CLASS (hw_order_row_parent_class)->finalize (object);
}

static void
hw_order_row_class_init (HwOrderRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_order_row_finalize;
}

static void
hw_order_row_init (HwOrderRow *self)
{
}

HwOrderRowKind
hw_order_row_get_kind (HwOrderRow *self)
{
  return self->kind;
}

const char *
hw_order_row_get_key (HwOrderRow *self)
{
  return self->key;
}

const char *
hw_order_row_get_letter (HwOrderRow *self)
{
  return self->letter;
}

const char *
hw_order_row_get_number (HwOrderRow *self)
{
  return self->number;
}

const char *
hw_order_row_get_step (HwOrderRow *self)
{
  return self->step;
}

const char *
hw_order_row_get_text (HwOrderRow *self)
{
  return self->text;
}

const char *
hw_order_row_get_amount (HwOrderRow *self)
{
  return self->amount;
}

gboolean
hw_order_row_get_done (HwOrderRow *self)
{
  return self->done;
}

gboolean
hw_order_row_get_first (HwOrderRow *self)
{
  return self->first;
}

gboolean
hw_order_row_get_last (HwOrderRow *self)
{
  return self->last;
}

gboolean
hw_order_row_is_next (HwOrderRow *self)
{
  return self->next;
}

gboolean
hw_order_row_equal (HwOrderRow *a,
                    HwOrderRow *b)
{
  return a->kind == b->kind && a->done == b->done && a->first == b->first && a->last == b->last && a->next == b->next
         && g_strcmp0 (a->key, b->key) == 0 && g_strcmp0 (a->letter, b->letter) == 0
         && g_strcmp0 (a->text, b->text) == 0 && g_strcmp0 (a->amount, b->amount) == 0;
}

static HwOrderRow *
add_row (GPtrArray      *rows,
         HwOrderRowKind  kind,
         const HwStep   *step,       /* it, or the one that follows */
         char           *key,        /* (transfer full) */
         char           *text)       /* (transfer full) */
{
  HwOrderRow *row = g_object_new (HW_TYPE_ORDER_ROW, NULL);

  row->kind = kind;
  row->step = g_strdup (step->number);
  row->key = key;
  row->text = text;
  g_ptr_array_add (rows, row);
  return row;
}

static void
end_block (GPtrArray *rows)
{
  if (rows->len > 0)
    ((HwOrderRow *) g_ptr_array_index (rows, rows->len - 1))->last = TRUE;
}

static int
get_place (const HwPlan     *plan,
           const HwPlanStep *planned)
{
  return (int) (planned - (const HwPlanStep *) (void *) plan->order->data);
}

static void
add_care (GPtrArray        *rows,
          const HwPlan     *plan,
          const HwPlanStep *planned,
          const HwStep     *step)
{
  g_autofree char *within = hw_words_needles_within (plan, get_place (plan, planned));
  HwOrderRow *row;

  for (gsize i = 0; i < plan->handbook->n_care; i++)
    {
      const HwCareTask *task = &plan->handbook->care[i];
      g_autofree char  *minutes = hw_words_minutes (task->minutes);

      if ((planned->care_due & ((guint64) 1 << i)) == 0)
        continue;
      end_block (rows);
      /* Translators: care task such as “Dust hook and feed dogs”, step's number, minutes */
      row = add_row (rows, HW_ORDER_ROW_CARE, step, g_strdup_printf ("care:%s:%s", step->number, task->entry.id),
                     g_strdup_printf (_("%s first: it falls due in step %s. Unplug. %s"), task->entry.name,
                                      step->number, minutes));
      row->first = row->last = TRUE;
    }
  if (planned->needle_worn)
    {
      end_block (rows);
      row = add_row (rows, HW_ORDER_ROW_CARE, step, g_strdup_printf ("worn:%s", step->number),
                     g_strdup_printf (_("New needle first: this one reaches its hours in step %s. Unplug."),
                                      step->number));
      row->first = row->last = TRUE;
    }
  if (within != NULL)
    {
      end_block (rows);
      row = add_row (rows, HW_ORDER_ROW_CARE, step, g_strconcat ("within:", step->number, NULL),
                     g_steal_pointer (&within));
      row->first = row->last = TRUE;
    }
}

/* The needle that goes in before @planned, where there is more to say of it than that it is new. (transfer full) */
static char *
describe_needle (const HwPlan     *plan,
                 const HwPlanStep *planned)
{
  for (guint i = 0; i < plan->needles->len; i++)
    {
      const HwNeedlePick *pick = g_ptr_array_index (plan->needles, i);

      if (pick->before == get_place (plan, planned) && pick->from_piece == 0 && !pick->mid_row
          && (pick->worn != NULL || pick->again >= 0 || pick->worn_before >= 0 || pick->buy))
        return hw_words_pick_state (plan, pick);
    }
  return NULL;
}

/* With the needle to take for what it asks to change. */
static char *
describe_block (const HwPlan     *plan,
                const HwPlanStep *first,
                const HwPlanStep *before)
{
  g_autofree char *head = hw_words_block (plan, first, before);
  g_autofree char *needle = hw_words_block_changes (plan, first)
                              ? describe_needle (plan, hw_plan_find_left (plan, first)) : NULL;

  if (needle == NULL)
    return g_steal_pointer (&head);
  /* Translators: what to alter; which needle to take, such as “part-worn, 8.8 h left” */
  return g_strdup_printf (_("%s. Needle: %s"), head, needle);
}

static void
add_change (GPtrArray        *rows,
            const HwPlan     *plan,
            const HwPlanStep *planned,
            const HwPlanStep *before,
            const HwStep     *step)
{
  const HwGroup *group = hw_plan_get_group (plan, planned->group);
  HwOrderRow    *row;

  end_block (rows);
  row = add_row (rows, HW_ORDER_ROW_CHANGE, step, g_strconcat ("change:", step->number, NULL),
                 group == NULL ? g_strdup (_("By hand")) : describe_block (plan, planned, before));
  row->letter = g_strdup (group != NULL ? group->letter : "");
  row->first = TRUE;
}

static void
add_step (GPtrArray        *rows,
          const HwPlan     *plan,
          const HwPlanStep *planned,
          const HwStep     *step,
          gboolean          heads)
{
  HwOrderRow *row = add_row (rows, HW_ORDER_ROW_STEP, step, g_strconcat ("step:", step->number, NULL),
                             hw_words_title (step->name));

  row->number = g_strdup (step->number);
  row->amount = hw_words_row_amount (plan, planned, heads);
  row->done = planned->done;
  row->next = plan->next == get_place (plan, planned);
}

GPtrArray *
hw_order_rows_new (const HwPlan *plan)
{
  GPtrArray        *rows = g_ptr_array_new_with_free_func (g_object_unref);
  const HwPlanStep *before = NULL;     /* the last step at a machine */
  gboolean          open = FALSE;      /* a block that the next step may join */

  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, i);
      const HwStep     *step = hw_project_get_step (plan->project, planned->step);
      guint             care_from = rows->len;
      gboolean          heads;

      add_care (rows, plan, planned, step);
      if (rows->len > care_from)
        open = FALSE;
      /* A hand step stays in the block it is done in; a machine's set-up heads a block of its own. */
      heads = !open || (planned->group >= 0 && (before == NULL || before->group != planned->group));
      if (heads)
        add_change (rows, plan, planned, before, step);
      open = TRUE;
      add_step (rows, plan, planned, step, heads);
      if (planned->group >= 0)
        before = planned;
    }
  end_block (rows);
  return rows;
}

void
hw_order_rows_apply (GListStore *store,
                     GPtrArray  *rows)
{
  guint n_old = g_list_model_get_n_items (G_LIST_MODEL (store));
  guint head = 0;
  guint tail = 0;

  while (head < MIN (n_old, rows->len))
    {
      g_autoptr (HwOrderRow) old = g_list_model_get_item (G_LIST_MODEL (store), head);

      if (!hw_order_row_equal (old, g_ptr_array_index (rows, head)))
        break;
      head++;
    }
  while (tail < MIN (n_old, rows->len) - head)
    {
      g_autoptr (HwOrderRow) old = g_list_model_get_item (G_LIST_MODEL (store), n_old - 1 - tail);

      if (!hw_order_row_equal (old, g_ptr_array_index (rows, rows->len - 1 - tail)))
        break;
      tail++;
    }
  if (n_old - head - tail > 0 || rows->len - head - tail > 0)
    g_list_store_splice (store, head, n_old - head - tail, rows->pdata + head, rows->len - head - tail);
}

static HwOrderRow *
find_step_row (GPtrArray  *rows,
               const char *number)
{
  for (guint i = 0; number != NULL && i < rows->len; i++)
    if (g_strcmp0 (((HwOrderRow *) g_ptr_array_index (rows, i))->number, number) == 0)
      return g_ptr_array_index (rows, i);
  return NULL;
}

/* The number of the next step from *@i on, which goes behind it. Borrowed; NULL: none. */
static const char *
next_number (GListModel *model,
             guint      *i)
{
  const char *number = NULL;

  while (number == NULL && *i < g_list_model_get_n_items (model))
    {
      g_autoptr (HwOrderRow) row = g_list_model_get_item (model, (*i)++);

      number = row->number;
    }
  return number;
}

gboolean
hw_order_rows_move (GListStore *store,
                    GPtrArray  *rows)
{
  guint    place = 0;
  gboolean moved = FALSE;

  for (guint i = 0; i < rows->len; i++)
    {
      const char *number = ((HwOrderRow *) g_ptr_array_index (rows, i))->number;
      const char *stood;

      if (number == NULL)
        continue;
      stood = next_number (G_LIST_MODEL (store), &place);
      if (find_step_row (rows, stood) == NULL)
        return FALSE;
      moved = moved || g_strcmp0 (stood, number) != 0;
    }
  return moved && next_number (G_LIST_MODEL (store), &place) == NULL;
}

void
hw_order_rows_mark (GListStore *store,
                    GPtrArray  *rows)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (store));

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwOrderRow) old = g_list_model_get_item (G_LIST_MODEL (store), i);
      g_autoptr (HwOrderRow) marked = g_object_new (HW_TYPE_ORDER_ROW, NULL);
      const HwOrderRow      *row = find_step_row (rows, old->number);
      gpointer               items[] = { marked };

      if (row == NULL)
        continue;
      marked->kind = old->kind;
      marked->key = g_strdup (old->key);
      marked->letter = g_strdup (old->letter);
      marked->number = g_strdup (old->number);
      marked->step = g_strdup (old->step);
      marked->text = g_strdup (row->text);
      marked->amount = g_strdup (row->amount);
      marked->done = row->done;
      marked->first = old->first;
      marked->last = old->last;
      marked->next = row->next;
      if (!hw_order_row_equal (old, marked))
        g_list_store_splice (store, i, 1, items, 1);
    }
}
