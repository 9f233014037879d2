/* test-seams.c - the journal's test seams as the tension model reads them
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/test-seams.h"

#include "model/room-private.h"

#include <string.h>

/* ---- one seam ---- */

static guint32
read_terms (const char *ids)
{
  g_auto (GStrv) words = g_strsplit (ids != NULL ? ids : "", " ", -1);
  guint32 terms = 0;

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    if (g_strv_contains ((const char * const *) words, hw_tension_term_ids[term]))
      terms |= 1u << term;
  return terms;
}

static char *
write_terms (guint32 terms)
{
  g_autoptr (GString) ids = g_string_new (NULL);

  for (int term = 0; term < HW_N_TENSION_TERMS; term++)
    if ((terms & (1u << term)) != 0)
      g_string_append_printf (ids, "%s%s", ids->len > 0 ? " " : "", hw_tension_term_ids[term]);
  return ids->len > 0 ? g_string_free (g_steal_pointer (&ids), FALSE) : NULL;
}

gboolean
hw_test_seam_read (const HwJournalEntry *entry, HwTestSeam *seam)
{
  g_return_val_if_fail (entry != NULL && seam != NULL, FALSE);

  *seam = (HwTestSeam) {
    .facts = { .needle_tex = entry->tex, .bobbin_tex = entry->bobbin_tex, .thickness_mm = entry->under_foot_mm,
               .length_mm = entry->length_mm, .width_mm = entry->width_mm, .terms = read_terms (entry->terms) },
    .dial = entry->dial,
  };
  return entry->kind == HW_ENTRY_TEST_SEAM && hw_verdict_find (entry->verdict, &seam->verdict);
}

void
hw_test_seam_write (const HwTestSeam *seam, HwJournalEntry *entry)
{
  g_return_if_fail (seam != NULL && entry != NULL && entry->kind == HW_ENTRY_TEST_SEAM);

  entry->dial = seam->dial;
  entry->tex = seam->facts.needle_tex;
  entry->bobbin_tex = seam->facts.bobbin_tex;
  entry->under_foot_mm = seam->facts.thickness_mm;
  entry->length_mm = seam->facts.length_mm;
  entry->width_mm = seam->facts.width_mm;
  g_free (entry->terms);
  entry->terms = write_terms (seam->facts.terms);
  g_free (entry->verdict);
  entry->verdict = g_strdup (hw_verdict_ids[seam->verdict]);
}

/* ---- a machine's ---- */

GPtrArray *
hw_room_list_test_seams (const HwRoom *room, const char *machine)
{
  GPtrArray *list = g_ptr_array_new ();

  g_return_val_if_fail (room != NULL && machine != NULL, list);

  for (guint i = 0; i < room->entries->len; i++)
    {
      HwJournalEntry *entry = g_ptr_array_index (room->entries, i);

      if (entry->kind == HW_ENTRY_TEST_SEAM && strcmp (entry->machine, machine) == 0
          && !g_hash_table_contains (room->cancelled, entry->id))
        g_ptr_array_add (list, entry);
    }
  return list;
}

static GArray *
list_telling (const HwRoom *room, const char *machine)
{
  g_autoptr (GPtrArray) entries = hw_room_list_test_seams (room, machine);
  GArray *seams = g_array_new (FALSE, FALSE, sizeof (HwTestSeam));

  for (guint i = 0; i < entries->len; i++)
    {
      HwTestSeam seam;

      if (hw_test_seam_read (g_ptr_array_index (entries, i), &seam) && hw_test_seam_tells (&seam))
        g_array_append_val (seams, seam);
    }
  return seams;
}

/* What the machine that @machine learned from believes, of its own seams alone, is its prior; the handbook's where it
 * learned from none, or from one that is gone or of another kind. */
static HwTensionPrior
find_prior (const HwRoom *room, const HwMachine *machine, const HwTensionPrior *prior)
{
  const HwMachine *teacher = machine->learned_from != NULL ? hw_room_find_machine (room, machine->learned_from) : NULL;
  g_autoptr (GArray) seams = NULL;
  g_autoptr (HwTensionBelief) belief = NULL;

  if (teacher == NULL || teacher->kind != machine->kind || strcmp (teacher->id, machine->id) == 0)
    return *prior;
  seams = list_telling (room, teacher->id);
  belief = hw_tension_belief_new (prior, &teacher->dial, (const HwTestSeam *) (const void *) seams->data, seams->len);
  return hw_tension_belief_hand_on (belief);
}

static HwTensionBelief *
make_belief (const HwRoom *room, const GArray *seams, const HwMachine *machine, const HwTensionPrior *prior)
{
  const HwTensionPrior own = find_prior (room, machine, prior);

  return hw_tension_belief_new (&own, &machine->dial, (const HwTestSeam *) (const void *) seams->data, seams->len);
}

HwTensionBelief *
hw_room_belief_with (const HwRoom *room, const HwMachine *machine, const HwTensionPrior *prior,
                     const HwTestSeam *seam)
{
  g_autoptr (GArray) seams = NULL;

  g_return_val_if_fail (room != NULL && machine != NULL && prior != NULL && seam != NULL, NULL);

  seams = list_telling (room, machine->id);
  g_array_append_val (seams, *seam);
  return make_belief (room, seams, machine, prior);
}

/* ---- kept with the snapshot ---- */

typedef struct
{
  char            *machine;
  HwDialScale      scale;
  HwTensionPrior   prior;
  HwTensionBelief *belief;
} Kept;

struct _HwBeliefs
{
  GMutex     mutex;
  GPtrArray *kept;
};

static void
free_kept (gpointer data)
{
  Kept *kept = data;

  g_free (kept->machine);
  hw_tension_belief_free (kept->belief);
  g_free (kept);
}

HwBeliefs *
hw_beliefs_new (void)
{
  HwBeliefs *self = g_new0 (HwBeliefs, 1);

  g_mutex_init (&self->mutex);
  self->kept = g_ptr_array_new_with_free_func (free_kept);
  return self;
}

void
hw_beliefs_free (HwBeliefs *self)
{
  g_mutex_clear (&self->mutex);
  g_ptr_array_unref (self->kept);
  g_free (self);
}

/* Numbers only, without gaps between them: compared byte for byte. */
static const HwTensionBelief *
find_kept (const HwBeliefs *self, const HwMachine *machine, const HwTensionPrior *prior)
{
  for (guint i = 0; i < self->kept->len; i++)
    {
      const Kept *kept = g_ptr_array_index (self->kept, i);

      if (strcmp (kept->machine, machine->id) == 0 && memcmp (&kept->scale, &machine->dial, sizeof kept->scale) == 0
          && memcmp (&kept->prior, prior, sizeof *prior) == 0)
        return kept->belief;
    }
  return NULL;
}

static const HwTensionBelief *
keep (HwBeliefs *self, const HwRoom *room, const HwMachine *machine, const HwTensionPrior *prior)
{
  g_autoptr (GArray) seams = list_telling (room, machine->id);
  Kept *kept = g_new0 (Kept, 1);

  kept->machine = g_strdup (machine->id);
  kept->scale = machine->dial;
  kept->prior = *prior;
  kept->belief = make_belief (room, seams, machine, prior);
  g_ptr_array_add (self->kept, kept);
  return kept->belief;
}

const HwTensionBelief *
hw_room_get_belief (const HwRoom *room, const HwMachine *machine, const HwTensionPrior *prior)
{
  const HwTensionBelief *belief;

  g_return_val_if_fail (room != NULL && machine != NULL && prior != NULL, NULL);

  g_mutex_lock (&room->beliefs->mutex);
  belief = find_kept (room->beliefs, machine, prior);
  if (belief == NULL)
    belief = keep (room->beliefs, room, machine, prior);
  g_mutex_unlock (&room->beliefs->mutex);
  return belief;
}
