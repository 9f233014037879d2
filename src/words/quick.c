/* quick.c - a step typed in one row: what its fields stand for, may be completed to, and make
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/quick.h"

#include <glib/gi18n.h>

#include "model/edit.h"
#include "words/quick-private.h"
#include "words/words.h"

#define USUAL_MINUTES 5.0

/* What a person says to have a step come after nothing. */
static gboolean
is_none (const char *text)
{
  g_autofree char *said = g_utf8_casefold (text, -1);
  g_autofree char *none = g_utf8_casefold (C_("comes after", "none"), -1);

  g_strstrip (said);
  return g_str_equal (said, none) || g_str_equal (said, "-") || g_str_equal (said, "–") || g_str_equal (said, "0");
}

static char **
read_after (const HwQuick      *self,
            const HwProject    *project,
            const char         *name,
            const HwQuickGuess *guess,
            const char         *text)
{
  g_auto (GStrv) numbers = hw_quick_read_numbers (text);
  g_autofree char *follows = NULL;

  if (is_none (text))
    return g_new0 (char *, 1);
  if (numbers[0] != NULL)
    return g_steal_pointer (&numbers);
  follows = hw_quick_follows (self, project, name, guess);
  return hw_quick_read_numbers (follows != NULL ? follows : "");
}

static char *
say_layers (const HwQuick      *self,
            const HwProject    *project,
            const char         *name,
            const HwQuickGuess *guess)
{
  HwQuickLayers layers;

  hw_quick_usual_layers (self, project, name, guess, &layers);
  if (layers.n == 2)
    return g_strdup_printf ("%d %s + %d %s", layers.counts[0], layers.fabrics[0]->name, layers.counts[1],
                            layers.fabrics[1]->name);
  if (layers.as_lining)
    /* Translators: how many layers, of which fabric, which is thought to be the lining */
    return g_strdup_printf (_("%d %s, as the lining"), layers.counts[0], layers.fabrics[0]->name);
  /* Translators: how many layers, of which fabric */
  return layers.n == 1 ? g_strdup_printf (_("%d %s"), layers.counts[0], layers.fabrics[0]->name) : NULL;
}

char *
hw_quick_say (const HwQuick      *self,
              const HwProject    *project,
              const char         *name,
              const HwQuickGuess *guess,
              HwQuickField        field)
{
  const HwHandbook *handbook = self->handbook;
  int               stitch = guess->stitch;
  g_autofree char  *follows = NULL;

  if (field == HW_QUICK_SEAM)
    return hw_quick_describe (self, guess);
  if (field == HW_QUICK_AFTER)
    {
      follows = hw_quick_follows (self, project, name, guess);
      return follows != NULL ? g_steal_pointer (&follows) : g_strdup (C_("comes after", "none"));
    }
  if (guess->by_hand)
    return field == HW_QUICK_LENGTH ? hw_words_minutes (USUAL_MINUTES) : NULL;
  if (stitch < 0)
    stitch = handbook->purposes[guess->purpose].stitch;
  if (field == HW_QUICK_STITCH && stitch >= 0)
    return g_strdup (handbook->stitches[stitch].entry.name);
  return field == HW_QUICK_LAYERS ? say_layers (self, project, name, guess) : NULL;
}

/* ---- completion ---- */

void
hw_quick_offer_free (gpointer data)
{
  HwQuickOffer *offer = data;

  g_free (offer->text);
  g_free (offer->detail);
  g_free (offer);
}

static void
add_offers (GPtrArray    *offers,
            const HwFind *find,
            const char   *before,
            const char   *text,
            guint         limit)
{
  g_autoptr (GPtrArray) found = hw_find_ask (find, text, limit, NULL);

  for (guint i = 0; i < found->len && offers->len < limit; i++)
    {
      const HwFindThing *thing = found->pdata[i];
      HwQuickOffer      *offer = g_new0 (HwQuickOffer, 1);

      offer->text = g_strconcat (before, thing->name, NULL);
      offer->detail = g_strdup (thing->detail);
      g_ptr_array_add (offers, offer);
    }
}

GPtrArray *
hw_quick_offer (const HwQuick   *self,
                const HwProject *project,
                HwQuickField     field,
                const char      *text,
                guint            limit)
{
  GPtrArray *offers = g_ptr_array_new_with_free_func (hw_quick_offer_free);

  if (field == HW_QUICK_STEP)
    add_offers (offers, self->steps, "", text, limit);
  if (field == HW_QUICK_SEAM)
    add_offers (offers, self->seams, "", text, limit);
  if (field == HW_QUICK_STITCH)
    add_offers (offers, self->stitches, "", text, limit);
  if (field == HW_QUICK_LAYERS)
    {
      g_autoptr (HwFind) fabrics = hw_quick_find_fabrics (project);
      gsize              at = hw_quick_last_fabric (text);
      g_autofree char   *before = g_strndup (text, at);

      add_offers (offers, fabrics, before, text + at, limit);
    }
  return offers;
}

/* ---- the step ---- */

/* The id of what @text means; NULL with @error: there is none. */
static const char *
choose (const HwFind *find,
        const char   *text,
        const char   *refused,
        GError      **error)
{
  g_autoptr (GPtrArray) found = hw_find_ask (find, text, 1, NULL);

  if (found->len > 0)
    return ((const HwFindThing *) found->pdata[0])->target;
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, refused, text);
  return NULL;
}

static const char *
name_of (const HwHandbook *handbook,
         gboolean          stitch,
         int               index)
{
  if (index < 0)
    return NULL;
  return stitch ? handbook->stitches[index].entry.id : handbook->seams[index].entry.id;
}

static gboolean
fill_operation (const HwQuick      *self,
                const HwProject    *project,
                const char * const  fields[HW_QUICK_N_FIELDS],
                const HwQuickGuess *guess,
                HwStep             *step,
                HwQuickField       *wrong,
                GError            **error)
{
  const char *seam = name_of (self->handbook, FALSE, guess->seam);
  const char *stitch = name_of (self->handbook, TRUE, guess->stitch);

  *wrong = HW_QUICK_SEAM;
  if (fields[HW_QUICK_SEAM][0] != '\0' && hw_quick_find_seam (self, fields[HW_QUICK_SEAM]) == NULL)
    {
      g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                   _("The handbook has no seam “%s”. Type a few letters of its name."), fields[HW_QUICK_SEAM]);
      return FALSE;
    }
  *wrong = HW_QUICK_LAYERS;
  if (!hw_quick_read_layers (self, project, fields[HW_QUICK_LAYERS], guess, step, error))
    return FALSE;
  *wrong = HW_QUICK_STITCH;
  if (fields[HW_QUICK_STITCH][0] != '\0'
      && (stitch = choose (self->stitches, fields[HW_QUICK_STITCH],
                           _("The handbook has no stitch “%s”. Type a few letters of its name."), error)) == NULL)
    return FALSE;
  *wrong = HW_QUICK_LENGTH;
  step->purpose = g_strdup (self->handbook->purposes[guess->purpose].entry.id);
  step->seam = g_strdup (seam);
  step->stitch = g_strdup (stitch);
  return hw_quick_read_length (fields[HW_QUICK_LENGTH], g_str_equal (step->purpose, "buttonhole"), step, error);
}

static gboolean
fill_hand_step (const char * const  fields[HW_QUICK_N_FIELDS],
                const HwQuickGuess *guess,
                HwStep             *step,
                HwQuickField       *wrong,
                GError            **error)
{
  *wrong = HW_QUICK_LENGTH;
  step->hand = guess->hand;
  step->minutes = USUAL_MINUTES;
  return fields[HW_QUICK_LENGTH][0] == '\0'
         || hw_quick_read_minutes (fields[HW_QUICK_LENGTH], &step->minutes, error);
}

HwStep *
hw_quick_read (const HwQuick     *self,
               const HwProject   *project,
               const char * const fields[HW_QUICK_N_FIELDS],
               HwQuickField      *wrong,
               GError           **error)
{
  g_autofree char *number = hw_project_free_number (project);
  g_autofree char *name = g_strstrip (g_strdup (fields[HW_QUICK_STEP]));
  HwQuickGuess     guess;
  HwStep          *step;
  gboolean         good;

  *wrong = HW_QUICK_STEP;
  if (name[0] == '\0')
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                           _("What is sewn or done in this step? Such as “side seams” or “press the collar”."));
      return NULL;
    }
  hw_quick_guess (self, project, name, fields[HW_QUICK_SEAM], &guess);
  step = hw_step_new (guess.by_hand ? HW_STEP_HAND : HW_STEP_OPERATION, number, name);
  g_strfreev (step->after);
  step->after = read_after (self, project, name, &guess, fields[HW_QUICK_AFTER]);
  good = guess.by_hand ? fill_hand_step (fields, &guess, step, wrong, error)
                       : fill_operation (self, project, fields, &guess, step, wrong, error);
  if (good)
    return step;
  hw_step_unref (step);
  return NULL;
}
