/* pair-thread.c - needle thread and bobbin or looper thread
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "plan/pairing-private.h"
#include "trade/thread.h"

#include <glib/gi18n.h>
#include <math.h>

#define COARSE_TEX 90                    /* over this a home machine's eye, groove and discs are at their end */
#define USUAL_BAND ((HwBand) { 24, 30, 40 })     /* where the handbook has no row: all-purpose thread */

#define WEAK_CN_TEX  20                  /* sewing cotton has 25; tacking thread and rayon are made to give way */

/* Threads that anyone would sew a seam with come first; those for show must be named. */
#define PLAIN_FORMS    (1u << HW_THREAD_SPUN | 1u << HW_THREAD_CORE)
#define FILAMENT_FORMS (1u << HW_THREAD_FILAMENT)
#define LOOPER_FORMS   (PLAIN_FORMS | 1u << HW_THREAD_TEXTURED)
#define BOBBIN_UNFIT   (1u << HW_THREAD_MONOFILAMENT | 1u << HW_THREAD_METALLIC | 1u << HW_THREAD_ELASTIC)

static HwThreadChoice
make_choice (const HwProjectThread *thread, const HwThreadEntry *entry, double tex)
{
  return (HwThreadChoice) {
    .thread = thread, .entry = entry, .tex = tex,
    .diameter_mm = hw_thread_diameter_mm (tex, entry->density, entry->packing),
  };
}

/* FALSE with @error when the handbook does not know the thread's id. */
static gboolean
look_up (const HwPairing *self, const HwProjectThread *thread, HwThreadChoice *choice, GError **error)
{
  int index = hw_handbook_find_thread (self->handbook, thread->handbook != NULL ? thread->handbook : "");
  const HwThreadEntry *entry;

  if (index < 0)
    {
      hw_pairing_set_unknown (self->handbook, "thread", thread->handbook != NULL ? thread->handbook : "", error);
      g_prefix_error (error, _("Thread “%s”: "), thread->id);
      return FALSE;
    }
  entry = &self->handbook->threads[index];
  *choice = make_choice (thread, entry, thread->tex > 0 ? thread->tex : entry->tex);
  return TRUE;
}

static gboolean
serves (const HwPairing *self, const HwThreadEntry *entry, guint forms)
{
  return (forms & (1u << entry->form)) != 0 && (entry->machines & self->facts.machines) != 0;
}

/* A weak thread comes out again easily and holds nothing together. */
static gboolean
is_weak (const HwThreadEntry *entry)
{
  return entry->tenacity_cn_tex > 0 && entry->tenacity_cn_tex < WEAK_CN_TEX;
}

static inline gboolean
lies_between (double tex, HwBand band)
{
  return tex >= band.low && tex <= band.high;
}

/* Sizes are nominal: judged as they are shown too, in whole tex. */
static gboolean
lies_in_band (double tex, HwBand band)
{
  return lies_between (tex, band) || lies_between (round (tex), band);
}

/* An overlocker is fed from cones where the project has some. */
static gboolean
is_put_up_for (const HwPairing *self, const HwThreadEntry *entry)
{
  return entry->cone || self->setup->machine->kind == HW_MACHINE_LOCKSTITCH;
}

/* The first of the project's threads in the band, of those put up for the machine where there is one. *@choice is left
 * alone when there is none. */
static gboolean
search_project (const HwPairing *self,
                HwBand           band,
                guint            forms,
                gboolean         weak,
                HwThreadChoice  *choice,
                GError         **error)
{
  for (guint i = 0; i < self->project->threads->len; i++)
    {
      HwThreadChoice one;

      if (!look_up (self, g_ptr_array_index (self->project->threads, i), &one, error))
        return FALSE;
      if (!serves (self, one.entry, forms) || is_weak (one.entry) != weak || !lies_in_band (one.tex, band))
        continue;
      if (choice->entry == NULL || is_put_up_for (self, one.entry))
        *choice = one;
      if (is_put_up_for (self, one.entry))
        break;
    }
  return TRUE;
}

/* The handbook's thread nearest to @tex, the first of equals. */
static HwThreadChoice
search_handbook (const HwPairing *self, double tex, guint forms)
{
  const HwThreadEntry *nearest = NULL;

  for (gsize i = 0; i < self->handbook->n_threads; i++)
    {
      const HwThreadEntry *entry = &self->handbook->threads[i];

      if (serves (self, entry, forms) && !is_weak (entry)
          && (nearest == NULL || fabs (entry->tex - tex) < fabs (nearest->tex - tex)))
        nearest = entry;
    }
  if (nearest == NULL)
    nearest = &self->handbook->threads[0];
  return make_choice (NULL, nearest, nearest->tex);
}

static gboolean
choose (const HwPairing *self, HwBand band, guint forms, HwThreadChoice *choice, GError **error)
{
  gboolean bastes = self->setup->purpose->tension_term == HW_TENSION_BASTE;

  *choice = (HwThreadChoice) { 0 };
  if (bastes && !search_project (self, band, forms, TRUE, choice, error))
    return FALSE;
  if (choice->entry == NULL && !search_project (self, band, forms, FALSE, choice, error))
    return FALSE;
  if (choice->entry == NULL && !search_project (self, band, FILAMENT_FORMS, FALSE, choice, error))
    return FALSE;
  if (choice->entry == NULL)
    *choice = search_handbook (self, band.prefer, forms);
  return TRUE;
}

static gboolean
take_named (const HwPairing *self, const char *id, HwThreadChoice *choice, GError **error)
{
  const HwProjectThread *thread = hw_project_find_thread (self->project, id);

  if (thread != NULL)
    return look_up (self, thread, choice, error);
  g_set_error (error, HW_PLAN_ERROR, HW_PLAN_ERROR_UNKNOWN, _("the project has no thread “%s”"), id);
  return FALSE;
}

/* An overridden tex takes the project's thread of that tex, else the handbook's nearest at that tex. */
static gboolean
take_overridden (const HwPairing *self, double tex, guint forms, HwThreadChoice *choice, GError **error)
{
  const HwBand just_that = { tex * 0.99, tex, tex * 1.01 };

  if (!choose (self, just_that, forms, choice, error))
    return FALSE;
  *choice = make_choice (choice->thread, choice->entry, tex);
  return TRUE;
}

/* The value's band is the handbook's; what is set is the thread that was chosen. */
static void
set_tex (HwPairing *self, HwField field, const HwRule *rule, const HwThreadChoice *choice, gboolean named)
{
  HwBand band = rule != NULL ? rule->band : USUAL_BAND;
  HwValue *value = &self->setup->values[field];

  *value = (HwValue) { .applies = TRUE, .low = band.low, .prefer = band.prefer, .high = band.high,
                       .value = choice->tex };
  if (rule != NULL)
    hw_pairing_add_rule (self, field, rule, NULL);
  if (choice->thread != NULL)
    hw_pairing_add_reason (self, field, HW_REASON_CHOSEN_THREAD, self->practice, choice->tex, 0, 0);
  else if (rule == NULL)
    hw_pairing_add_reason (self, field, HW_REASON_CHOSEN_THREAD, choice->entry->entry.source, choice->tex, 0, 0);
  if (self->overrides[field] != NULL)
    hw_pairing_override_number (self, field);
  else if (named && !lies_in_band (value->value, band))
    hw_pairing_add_warning (self, field, HW_WARN_OVERRIDE_OUTSIDE, NULL, value->value, value->low, value->high);
}

static gboolean
shows (const HwPairing *self)
{
  const char *purpose = self->setup->purpose->entry.id;

  return g_str_equal (purpose, "topstitch") || g_str_equal (purpose, "hem");
}

/* A row or a hem may be meant to show; the thread of the seams holds it as well, so that nobody buys a spool and
 * changes needles for the look alone. FALSE with @error; @rule becomes the seams' where a thread of the project is in
 * its band and none in the row's own. */
static gboolean
prefer_seam_thread (HwPairing *self, const HwRule **rule, GError **error)
{
  HwFacts facts = self->facts;
  int seam = hw_handbook_find_purpose (self->handbook, "seam");
  const HwRule *plain;
  HwThreadChoice own = { 0 };
  HwThreadChoice shown = { 0 };

  if (*rule == NULL || seam < 0 || !shows (self) || self->setup->machine->kind != HW_MACHINE_LOCKSTITCH)
    return TRUE;
  facts.purposes = HW_SET (seam);
  plain = hw_rules_first (self->handbook, HW_RULES_THREAD, &facts);
  if (plain == NULL || plain == *rule)
    return TRUE;
  if (!search_project (self, (*rule)->band, PLAIN_FORMS, FALSE, &shown, error)
      || !search_project (self, plain->band, PLAIN_FORMS, FALSE, &own, error))
    return FALSE;
  if (shown.entry == NULL && own.entry != NULL && own.tex < (*rule)->band.low)
    {
      hw_pairing_add_reason (self, HW_FIELD_NEEDLE_TEX, HW_REASON_SEAM_THREAD, (*rule)->source, (*rule)->band.low,
                             (*rule)->band.high, own.tex);
      *rule = plain;
    }
  return TRUE;
}

static gboolean
settle_needle_thread (HwPairing *self, GError **error)
{
  const HwRule *rule;
  HwThreadChoice *choice = &self->setup->needle_thread;
  const HwOverride *override = self->overrides[HW_FIELD_NEEDLE_TEX];
  gboolean named = self->step->needle_thread != NULL;
  gboolean found;

  /* A thread that is named brings its form, of which rows may speak. */
  if (named && !take_named (self, self->step->needle_thread, choice, error))
    return FALSE;
  if (named && override == NULL)
    self->facts.forms = 1u << choice->entry->form;
  rule = hw_rules_first (self->handbook, HW_RULES_THREAD, &self->facts);
  if (!named && override == NULL && !prefer_seam_thread (self, &rule, error))
    return FALSE;
  found = override != NULL ? take_overridden (self, override->value, PLAIN_FORMS, choice, error)
          : named          || choose (self, rule != NULL ? rule->band : USUAL_BAND, PLAIN_FORMS, choice, error);

  if (!found)
    return FALSE;
  set_tex (self, HW_FIELD_NEEDLE_TEX, rule, choice, named);
  if (choice->tex > COARSE_TEX)
    hw_pairing_add_warning (self, HW_FIELD_NEEDLE_TEX, HW_WARN_COARSE_THREAD, NULL, choice->tex, COARSE_TEX, 0);
  return TRUE;
}

static gboolean
may_fill_bobbin (const HwThreadChoice *needle, const HwRule *rule)
{
  if (BOBBIN_UNFIT & (1u << needle->entry->form))
    return FALSE;
  return rule == NULL || lies_in_band (needle->tex, rule->band);
}

static gboolean
choose_under (HwPairing *self, const HwRule *rule, guint forms, HwThreadChoice *choice, GError **error)
{
  const HwOverride *override = self->overrides[HW_FIELD_BOBBIN_TEX];

  if (override != NULL)
    return take_overridden (self, override->value, forms, choice, error);
  if (self->step->bobbin_thread != NULL)
    return take_named (self, self->step->bobbin_thread, choice, error);
  if (!may_fill_bobbin (&self->setup->needle_thread, rule))
    return choose (self, rule != NULL ? rule->band : USUAL_BAND, forms, choice, error);

  *choice = self->setup->needle_thread;
  return TRUE;
}

static gboolean
settle_under_thread (HwPairing *self, GError **error)
{
  const HwStitch *stitch = self->setup->stitch;
  const HwRule *rule = hw_rules_first (self->handbook, HW_RULES_BOBBIN, &self->facts);
  HwThreadChoice *choice = &self->setup->bobbin_thread;

  if (!stitch->bobbin && stitch->loopers == 0)
    {
      *choice = self->setup->needle_thread;
      return TRUE;
    }
  if (!choose_under (self, rule, stitch->bobbin ? PLAIN_FORMS : LOOPER_FORMS, choice, error))
    return FALSE;
  set_tex (self, HW_FIELD_BOBBIN_TEX, rule, choice, self->step->bobbin_thread != NULL);
  return TRUE;
}

gboolean
hw_pairing_settle_threads (HwPairing *self, GError **error)
{
  if (!settle_needle_thread (self, error))
    return FALSE;

  self->facts.tex = self->setup->needle_thread.tex;
  self->facts.forms = 1u << self->setup->needle_thread.entry->form;
  for (gsize i = 0; i < self->n_plies; i++)
    {
      self->plies[i].facts.tex = self->facts.tex;
      self->plies[i].facts.forms = self->facts.forms;
    }
  return settle_under_thread (self, error);
}
