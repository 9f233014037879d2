/* card-checks.c - what holds for every card, whatever it says
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card-checks.h"

/* What a learner must set: 11 pt or more on an A5, 9 pt on an A6. */
static const char * const must_set[] = {
  "needle-size", "needle-point", "needle-note", "needle-thread", "needle-thread-note", "bobbin-thread",
  "bobbin-thread-note", "both-threads-note", "stitch", "stitch-length", "stitch-width", "dial-start", "dial-likely",
  "foot", "pressure", "plate", "needle-place", "line", "ends", "together", "differential", "step-soft",
  "soft-value", "soft-steps", "remedy",
};

static gboolean
has_role (const HwBox *box,
          const char  *role)
{
  return g_str_equal (box->role, role);
}

gboolean
card_check_is_set (const HwBox *box)
{
  for (gsize i = 0; i < G_N_ELEMENTS (must_set); i++)
    if (has_role (box, must_set[i]))
      return TRUE;
  return FALSE;
}

void
card_check_sizes (const HwCard *card,
                  gboolean      is_small)
{
  const GArray *boxes = hw_card_get_boxes (card);
  guint n_cautions = 0;

  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);

      if (box->kind != HW_BOX_TEXT)
        continue;
      n_cautions += has_role (box, "caution") && !box->muted && !box->cut ? 1 : 0;
      g_assert_cmpfloat (box->font_pt, >=, 7);
      if (!card_check_is_set (box))
        continue;
      g_assert_cmpfloat (box->font_pt, >=, is_small ? 9 : 11);
      g_assert_false (box->muted);
    }
  g_assert_cmpuint (n_cautions, ==, 1);
}

/* ---- room: inside the card, and nothing on anything else ---- */

/* A line of type has air over its letters, a tenth of its size and more; big figures have it below as well. */
static HwBox
trim_air (const HwBox *box)
{
  HwBox trimmed = *box;

  if (box->kind != HW_BOX_TEXT)
    return trimmed;
  trimmed.y += box->font_pt * 0.1;
  trimmed.height -= box->font_pt * (has_role (box, "needle-size") ? 0.25 : 0.1);
  return trimmed;
}

static gboolean
is_overlapping (const HwBox *first,
                const HwBox *second)
{
  const HwBox a = trim_air (first);
  const HwBox b = trim_air (second);
  const double touch = 0.25;            /* boxes of two lines of type may meet */

  return a.x + a.width > b.x + touch && b.x + b.width > a.x + touch && a.y + a.height > b.y + touch
         && b.y + b.height > a.y + touch;
}

void
card_check_room (const HwCard *card,
                 const char   *what)
{
  const GArray *boxes = hw_card_get_boxes (card);
  double width;
  double height;

  hw_card_get_size (card, &width, &height);
  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *a = &g_array_index (boxes, HwBox, i);

      if (a->x < 8 || a->y < 2 || a->x + a->width > width - 8 || a->y + a->height > height - 8)
        {
          g_test_message ("%s: %s “%s” lies outside", what, a->role, a->text);
          g_test_fail ();
        }
      for (guint j = i + 1; j < boxes->len; j++)
        {
          const HwBox *b = &g_array_index (boxes, HwBox, j);

          if (!is_overlapping (a, b))
            continue;
          g_test_message ("%s: %s “%s” lies on %s “%s”", what, a->role, a->text, b->role, b->text);
          g_test_fail ();
        }
    }
}

static gboolean
is_heading (const HwBox *box)
{
  return has_role (box, "stitch-label") || has_role (box, "dial-label") || has_role (box, "steps-label");
}

void
card_check_uncut (const HwCard *card,
                  const char   *what)
{
  const GArray *boxes = hw_card_get_boxes (card);

  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);

      if (box->kind == HW_BOX_TEXT && box->cut
          && (card_check_is_set (box) || is_heading (box) || has_role (box, "warning") || has_role (box, "caution")))
        {
          g_test_message ("%s: %s “%s” is cut", what, box->role, box->text);
          g_test_fail ();
        }
    }
}
