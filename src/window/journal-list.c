/* journal-list.c - journal entries as a list model, each item made when it is asked for
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "window/journal-list.h"

#include <string.h>

/* ---- an item ---- */

struct _HwJournalItem
{
  GObject               parent_instance;
  HwRoom               *room;
  const HwJournalEntry *entry;           /* the room's */
};

G_DEFINE_FINAL_TYPE (HwJournalItem, hw_journal_item, G_TYPE_OBJECT)

static void
hw_journal_item_finalize (GObject *object)
{
  hw_room_unref (HW_JOURNAL_ITEM (object)->room);
  G_OBJECT_CLASS (hw_journal_item_parent_class)->finalize (object);
}

static void
hw_journal_item_class_init (HwJournalItemClass *class)
{
  G_OBJECT_CLASS (class)->finalize = hw_journal_item_finalize;
}

static void
hw_journal_item_init (HwJournalItem *self)
{
}

const HwRoom *
hw_journal_item_room (HwJournalItem *self)
{
  return self->room;
}

const HwJournalEntry *
hw_journal_item_entry (HwJournalItem *self)
{
  return self->entry;
}

/* ---- the list ---- */

struct _HwJournalList
{
  GObject    parent_instance;
  HwRoom    *room;
  GPtrArray *entries;                    /* by time */
};

static guint
get_n_items (GListModel *model)
{
  HwJournalList *self = HW_JOURNAL_LIST (model);

  return self->entries != NULL ? self->entries->len : 0;
}

static GType
get_item_type (GListModel *model)
{
  return HW_TYPE_JOURNAL_ITEM;
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  HwJournalList *self = HW_JOURNAL_LIST (model);
  guint          n = get_n_items (model);
  HwJournalItem *item;

  if (position >= n)
    return NULL;
  item = g_object_new (HW_TYPE_JOURNAL_ITEM, NULL);
  item->room = hw_room_ref (self->room);
  item->entry = self->entries->pdata[n - 1 - position];
  return item;
}

static void
init_model (GListModelInterface *iface)
{
  iface->get_n_items = get_n_items;
  iface->get_item_type = get_item_type;
  iface->get_item = get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (HwJournalList, hw_journal_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, init_model))

static void
hw_journal_list_finalize (GObject *object)
{
  HwJournalList *self = HW_JOURNAL_LIST (object);

  g_clear_pointer (&self->entries, g_ptr_array_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  G_OBJECT_CLASS (hw_journal_list_parent_class)->finalize (object);
}

static void
hw_journal_list_class_init (HwJournalListClass *class)
{
  G_OBJECT_CLASS (class)->finalize = hw_journal_list_finalize;
}

static void
hw_journal_list_init (HwJournalList *self)
{
}

HwJournalList *
hw_journal_list_new (void)
{
  return g_object_new (HW_TYPE_JOURNAL_LIST, NULL);
}

void
hw_journal_list_set (HwJournalList *self,
                     const HwRoom  *room,
                     GPtrArray     *entries)
{
  guint before = get_n_items (G_LIST_MODEL (self));

  g_clear_pointer (&self->entries, g_ptr_array_unref);
  g_clear_pointer (&self->room, hw_room_unref);
  self->entries = g_ptr_array_ref (entries);
  self->room = hw_room_ref ((HwRoom *) room);
  g_list_model_items_changed (G_LIST_MODEL (self), 0, before, entries->len);
}

int
hw_journal_list_find (HwJournalList *self,
                      const char    *id)
{
  guint n = get_n_items (G_LIST_MODEL (self));

  for (guint i = 0; id != NULL && i < n; i++)
    if (strcmp (((HwJournalEntry *) self->entries->pdata[n - 1 - i])->id, id) == 0)
      return (int) i;
  return -1;
}
