/* quick-all.c - all that an empty field of a typed step may be, the likeliest first
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/quick-private.h"

#include <glib/gi18n.h>

/* Once each. Takes over @text. */
static void
add (GPtrArray  *offers,
     char       *text,
     const char *detail)
{
  HwQuickOffer *offer;

  for (guint i = 0; i < offers->len; i++)
    if (g_str_equal (((const HwQuickOffer *) offers->pdata[i])->text, text))
      {
        g_free (text);
        return;
      }
  offer = g_new0 (HwQuickOffer, 1);
  *offer = (HwQuickOffer) { text, g_strdup (detail != NULL ? detail : "") };
  g_ptr_array_add (offers, offer);
}

static void
add_seam (GPtrArray        *offers,
          const HwHandbook *handbook,
          int               index)
{
  if (index >= 0)
    add (offers, g_strdup (handbook->seams[index].entry.name), NULL);
}

static void
add_stitch (GPtrArray        *offers,
            const HwHandbook *handbook,
            int               index)
{
  if (index >= 0)
    add (offers, g_strdup (handbook->stitches[index].entry.name), handbook->stitches[index].iso);
}

/* What garments sew for the same purpose. */
static void
add_used (GPtrArray        *offers,
          const HwHandbook *handbook,
          int               purpose,
          gboolean          stitches)
{
  for (gsize i = 0; i < handbook->n_garments; i++)
    for (gsize n = 0; n < handbook->garments[i].n_steps; n++)
      {
        const HwGarmentStep *step = &handbook->garments[i].steps[n];

        if (step->by_hand || step->purpose != purpose)
          continue;
        if (stitches)
          add_stitch (offers, handbook, step->stitch);
        else
          add_seam (offers, handbook, step->seam);
      }
}

static void
add_seams (GPtrArray          *offers,
           const HwHandbook   *handbook,
           const HwQuickGuess *guess)
{
  if (guess->by_hand)
    add (offers, g_strdup (_("by hand")), NULL);
  else
    {
      add_seam (offers, handbook, guess->seam);
      add_seam (offers, handbook, handbook->purposes[guess->purpose].seam);
      add_used (offers, handbook, guess->purpose, FALSE);
    }
  for (gsize i = 0; i < handbook->n_seams; i++)
    add_seam (offers, handbook, (int) i);
  add (offers, g_strdup (_("by hand")), NULL);
}

static void
add_stitches (GPtrArray          *offers,
              const HwHandbook   *handbook,
              const HwQuickGuess *guess)
{
  if (!guess->by_hand)
    {
      add_stitch (offers, handbook, guess->stitch);
      add_stitch (offers, handbook, handbook->purposes[guess->purpose].stitch);
      add_used (offers, handbook, guess->purpose, TRUE);
    }
  for (gsize i = 0; i < handbook->n_stitches; i++)
    add_stitch (offers, handbook, (int) i);
}

static void
add_layers (GPtrArray          *offers,
            const HwProject    *project,
            const HwQuickGuess *guess)
{
  for (guint i = 0; i < project->fabrics->len; i++)
    /* Translators: how many layers, of which fabric */
    add (offers, g_strdup_printf (_("%d %s"), MAX (guess->layers, 1),
                                  ((const HwProjectFabric *) project->fabrics->pdata[i])->name), NULL);
}

GPtrArray *
hw_quick_all (const HwHandbook   *handbook,
              const HwProject    *project,
              const HwQuickGuess *guess,
              HwQuickField        field)
{
  GPtrArray *offers = g_ptr_array_new_with_free_func (hw_quick_offer_free);

  g_return_val_if_fail (handbook != NULL && project != NULL && guess != NULL, offers);

  if (field == HW_QUICK_SEAM)
    add_seams (offers, handbook, guess);
  if (field == HW_QUICK_STITCH)
    add_stitches (offers, handbook, guess);
  if (field == HW_QUICK_LAYERS && !guess->by_hand)
    add_layers (offers, project, guess);
  return offers;
}
