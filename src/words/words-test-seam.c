/* words-test-seam.c - how a test seam can look, what to do next, and the bobbin's drop test
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Common practice, no source, as every card says it in short.
 */

#include "config.h"

#include "words/words-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "plan/test-seam.h"

#define HALF 0.5                         /* a number on the dial: the step that cards name */

static const char * const looks[HW_N_VERDICTS] = {
  [HW_VERDICT_LOOPS_BELOW] = N_("Needle thread loops underneath"),
  [HW_VERDICT_BALANCED] = N_("Same on both sides, flat when pulled"),
  [HW_VERDICT_BOBBIN_ABOVE] = N_("Bobbin thread shows on top"),
  [HW_VERDICT_PUCKER_RELEASED] = N_("Puckered, flat once both threads are cut"),
  [HW_VERDICT_PUCKER_STAYS] = N_("Puckered, even with both threads cut"),
  [HW_VERDICT_SKIPPED] = N_("Stitches are skipped"),
  [HW_VERDICT_THREAD_SNAPS] = N_("A thread snaps when pulled"),
  [HW_VERDICT_WAVY] = N_("The seam waves"),
};

/* What lies elsewhere than in the dial. */
static const char * const cures[HW_N_VERDICTS] = {
  [HW_VERDICT_PUCKER_STAYS] = N_("Leave the dial. Take a finer needle and thread, or a longer stitch."),
  [HW_VERDICT_SKIPPED] = N_("Leave the dial. Unplug and put in a new needle, all the way up, flat side as the manual "
                            "shows."),
  [HW_VERDICT_THREAD_SNAPS] = N_("Leave the dial. Take a shorter stitch or a narrow zigzag, which give more."),
  [HW_VERDICT_WAVY] = N_("Leave the dial. Take one step less foot pressure."),
};

typedef enum { PIECE_SEAM, PIECE_BUTTONHOLE, PIECE_BAR_TACK } Piece;

/* A buttonhole or a bar tack has its length from the garment; a row of it is never sewn. */
static Piece
choose_piece (const HwStitch *stitch)
{
  if (g_strcmp0 (stitch->mark, "buttonhole") == 0)
    return PIECE_BUTTONHOLE;
  return g_strcmp0 (stitch->mark, "bar-tack") == 0 ? PIECE_BAR_TACK : PIECE_SEAM;
}

static const char *
name_test_piece (Piece piece)
{
  if (piece == PIECE_BUTTONHOLE)
    return _("First a test buttonhole, same layers, interfacing");
  if (piece == PIECE_BAR_TACK)
    return _("First a test bar tack, same cloth and layers");
  return hw_words_are_inches () ? _("First a test seam, 6 in, same cloth and layers")
                                : _("First a test seam, 15 cm, same cloth and layers");
}

/**
 * hw_words_test_piece:
 * @cloth_or_null: its layers, "2 × cotton twill"; %NULL where there is no room for them
 *
 * Returns: (transfer full): what to sew on a scrap, short
 */
char *
hw_words_test_piece (const HwStitch *stitch, const char *cloth_or_null)
{
  Piece piece;

  g_return_val_if_fail (stitch != NULL, NULL);

  piece = choose_piece (stitch);
  if (cloth_or_null == NULL)
    return g_strdup (name_test_piece (piece));
  if (piece == PIECE_BUTTONHOLE)
    /* Translators: the layers of a scrap: “2 × cotton twill”; so below */
    return g_strdup_printf (_("First a test buttonhole: %s"), cloth_or_null);
  if (piece == PIECE_BAR_TACK)
    return g_strdup_printf (_("First a test bar tack: %s"), cloth_or_null);
  return g_strdup_printf (hw_words_are_inches () ? _("First a test seam, 6 in: %s") : _("First a test seam, 15 cm: %s"),
                          cloth_or_null);
}

char *
hw_words_test_how (const HwStitch *stitch)
{
  Piece piece;

  g_return_val_if_fail (stitch != NULL, NULL);

  piece = choose_piece (stitch);
  if (piece == PIECE_BUTTONHOLE)
    return g_strdup (_("Sew one buttonhole on a scrap of the same cloth and grain, with the same layers and "
                       "interfacing. Cut it open, put the button through, look at both sides."));
  if (piece == PIECE_BAR_TACK)
    return g_strdup (_("Sew one bar tack on a scrap of the same cloth and layers. Pull at it, look at both sides."));
  if (hw_words_are_inches ())
    return g_strdup (_("Sew 6 in on a scrap of the same cloth, grain and layers. Pull it, press it, look at both "
                       "sides."));
  return g_strdup (_("Sew 15 cm on a scrap of the same cloth, grain and layers. Pull it, press it, look at both "
                     "sides."));
}

gboolean
hw_words_is_close (const HwTensionFacts *facts)
{
  return (facts->terms & (1u << HW_TENSION_SATIN | 1u << HW_TENSION_BUTTONHOLE | 1u << HW_TENSION_BAR_TACK)) != 0;
}

char *
hw_words_look (HwVerdict verdict, const HwTensionFacts *facts_or_null)
{
  g_return_val_if_fail (verdict >= 0 && verdict < HW_N_VERDICTS, g_strdup (""));

  /* Such stitches are never the same on both sides: the needle thread is drawn a little under. */
  if (verdict == HW_VERDICT_BALANCED && facts_or_null != NULL && hw_words_is_close (facts_or_null))
    return g_strdup (_("Smooth on top, a little needle thread underneath"));
  return g_strdup (_(looks[verdict]));
}

/* The card's own phrase where it is the card's own half number; where what the machine's test seams taught goes
 * further, to what number, and why. By [noted][further]. */
static const char * const ups[2][2] = {
  { N_("Re-thread with the foot up and sew again. Still there: dial up half a number, to %s."),
    N_("Re-thread with the foot up and sew again. Still there: dial up to %s; by the test seams before, half a number "
       "is too little.") },
  { N_("Dial up half a number, to %s, and sew again."),
    N_("Dial up to %s and sew again; by the test seams before, half a number is too little.") },
};
static const char * const downs[2] = {
  N_("Dial down half a number, to %s, and sew again."),
  N_("Dial down to %s and sew again; by the test seams before, half a number is too little."),
};

/**
 * hw_words_after_test:
 * @dial: where the scrap was sewn
 * @next: the half-step to try next
 * @noted: the verdict counts already
 *
 * Returns: (transfer full): the one thing to do next
 */
char *
hw_words_after_test (HwVerdict verdict, double dial, double next, gboolean noted)
{
  g_autofree char *here = hw_words_half (dial);
  g_autofree char *there = hw_words_half (next);
  int further = fabs (next - dial) > HALF ? 1 : 0;

  g_return_val_if_fail (verdict >= 0 && verdict < HW_N_VERDICTS, g_strdup (""));

  if (cures[verdict] != NULL)
    return g_strdup (_(cures[verdict]));
  if (verdict == HW_VERDICT_BALANCED)
    /* Translators: a number on the dial */
    return g_strdup_printf (_("Sew at %s."), here);
  if (next == dial)
    return g_strdup (_("The dial is at its end. See to the bobbin’s tension, by the machine’s manual first."));
  /* Translators: a number on the dial */
  return g_strdup_printf (verdict == HW_VERDICT_LOOPS_BELOW ? _(ups[noted ? 1 : 0][further]) : _(downs[further]),
                          there);
}

/* ---- what the dial's number stands on ---- */

static char *
say_tried (const HwSetup *setup, const HwTestSeam *seam)
{
  g_autofree char *at = hw_words_half (seam->dial);
  g_autofree char *look = NULL;
  g_autofree char *inside = NULL;

  if (seam->verdict == HW_VERDICT_BALANCED)
    /* Translators: a number on the dial */
    return g_strdup_printf (_("tried on a scrap, at %s: good"), at);
  look = hw_words_look (seam->verdict, &setup->tension);
  inside = hw_words_inside (look);
  /* Translators: a number on the dial; how the scrap looked, such as “needle thread loops underneath” */
  return g_strdup_printf (_("on the last scrap, at %s: %s"), at, inside);
}

/**
 * hw_words_dial_ground:
 *
 * Returns: (transfer full) (nullable): whether the dial was tried on a scrap for this step, else what it is reckoned
 *   from; %NULL where test seams teach no dial
 */
char *
hw_words_dial_ground (const HwPlan *plan, const HwSetup *setup)
{
  const HwJournalEntry *entry;
  HwTestSeam seam;

  g_return_val_if_fail (plan != NULL && setup != NULL, NULL);

  if (hw_plan_find_test_setup (plan, setup->step->number) == NULL)
    return NULL;
  entry = hw_plan_find_test_seam (plan, setup);
  if (entry != NULL && hw_test_seam_read (entry, &seam))
    return say_tried (setup, &seam);
  if (setup->values[HW_FIELD_DIAL].origin == HW_ORIGIN_OVERRIDDEN)
    return g_strdup (_("not tried on a scrap yet"));
  if (setup->n_test_seams == 0)
    return g_strdup (_("by the handbook’s rule, not tried on a scrap yet"));
  return g_strdup_printf (ngettext ("by the handbook’s rule and %u test seam on this machine; not tried on a scrap "
                                    "yet",
                                    "by the handbook’s rule and %u test seams on this machine; not tried on a scrap "
                                    "yet",
                                    setup->n_test_seams), setup->n_test_seams);
}

/* ---- the bobbin's drop test: the practitioner's form ---- */

static const char * const drop_lines[] = {
  N_("Only for a metal case that is taken out with its bobbin. Unplug first."),
  N_("Hold the case by its thread and let it down 9–12 in (23–30 cm): it should stay where you stop."),
  N_("A slight upward yank should drop it another 1–1½ in (2.5–4 cm), and no more."),
  N_("It falls by itself: the bobbin’s tension is too loose. It does not move: too tight."),
  N_("The machine’s manual first; some makers’ guarantees end when the screw is turned. Note where its slot stands, "
     "then turn it an eighth at most, right to tighten, and test again."),
};

/**
 * hw_words_drop_test:
 *
 * Returns: (transfer full) (nullable): a line of the bobbin's drop test; %NULL past the last
 */
char *
hw_words_drop_test (int which)
{
  g_return_val_if_fail (which >= 0, NULL);

  return which < (int) G_N_ELEMENTS (drop_lines) ? g_strdup (_(drop_lines[which])) : NULL;
}
