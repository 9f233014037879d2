/* card-checks.c - what holds for every card, whatever it says
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "card-checks.h"

#include <libintl.h>
#include <math.h>
#include <string.h>

#include "words/words.h"

/* What a learner must set: 11 pt or more on an A5, 9 pt on an A6. */
static const char * const must_set[] = {
  "needle-size", "needle-point", "needle-note", "needle-thread", "needle-thread-note", "bobbin-thread",
  "bobbin-thread-note", "both-threads-note", "stitch", "stitch-length", "stitch-width", "dial-start", "dial-likely",
  "foot", "pressure", "plate", "needle-place", "line", "ends", "together", "differential",
  "step-change", "step-edge", "then", "remedy",
};

gboolean
card_box_has_role (const HwBox *box,
                   const char  *role)
{
  return g_str_equal (box->role, role);
}

gboolean
card_check_is_set (const HwBox *box)
{
  for (gsize i = 0; i < G_N_ELEMENTS (must_set); i++)
    if (card_box_has_role (box, must_set[i]))
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
      n_cautions += card_box_has_role (box, "caution") && !box->muted && !box->cut ? 1 : 0;
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
  trimmed.height -= box->font_pt * (card_box_has_role (box, "needle-size") ? 0.25 : 0.1);
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

/* What is said elsewhere too. */
static gboolean
may_be_cut (const HwBox *box)
{
  return card_box_has_role (box, "title") || card_box_has_role (box, "machine");
}

void
card_check_uncut (const HwCard *card,
                  const char   *what)
{
  const GArray *boxes = hw_card_get_boxes (card);

  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);

      if (box->kind == HW_BOX_TEXT && box->cut && !may_be_cut (box))
        {
          g_test_message ("%s: %s “%s” is cut", what, box->role, box->text);
          g_test_fail ();
        }
    }
}

/* ---- the list of steps ---- */

HwCard *
card_first (const HwPlan *plan,
            int           group,
            HwPaper       paper,
            PangoContext *context_or_null)
{
  GPtrArray *cards = hw_card_layout (plan, group, paper, context_or_null);
  HwCard *first = g_ptr_array_steal_index (cards, 0);

  g_ptr_array_unref (cards);
  return first;
}

guint
card_count_boxes (const HwCard *card,
                  const char   *role)
{
  const GArray *boxes = hw_card_get_boxes (card);
  guint n = 0;

  for (guint i = 0; i < boxes->len; i++)
    n += card_box_has_role (&g_array_index (boxes, HwBox, i), role) ? 1 : 0;
  return n;
}

/* A hand step belongs to the operation before it, those before all operations to the first one. "6 7h 11 …" */
static char *
list_expected (const HwPlan *plan,
               int           group)
{
  g_autoptr (GString) list = g_string_new (NULL);
  int owner = -1;

  for (guint i = 0; i < plan->order->len && owner < 0; i++)
    owner = g_array_index (plan->order, HwPlanStep, i).group;
  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, i);

      owner = planned->group >= 0 ? planned->group : owner;
      if (owner == group)
        g_string_append_printf (list, "%s%s ", hw_project_get_step (plan->project, planned->step)->number,
                                planned->group < 0 ? "h" : "");
    }
  return g_string_free (g_steal_pointer (&list), FALSE);
}

/* As they are read, column after column. */
static void
append_rows (GString      *list,
             const HwCard *card)
{
  const GArray *boxes = hw_card_get_boxes (card);

  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);

      if (card_box_has_role (box, "step-number") || card_box_has_role (box, "hand-number"))
        g_string_append_printf (list, "%s%s ", box->text, card_box_has_role (box, "hand-number") ? "h" : "");
    }
}

static void
expect (guint       found,
        guint       least,
        const char *role,
        const char *what)
{
  if (found >= least)
    return;
  g_test_message ("%s: %u of “%s”, not %u", what, found, role, least);
  g_test_fail ();
}

static void
check_first (const HwCard *card,
             gboolean      is_small,
             const char   *what)
{
  static const char * const all[] = { "needle-size", "needle-thread", "stitch", "dial", "dial-start", "pressure", "pin",
                                      "letter", "test-label" };

  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    expect (card_count_boxes (card, all[i]), 1, all[i], what);
  expect (card_count_boxes (card, "remedy"), 3, "remedy", what);
  if (!is_small)
    expect (card_count_boxes (card, "along"), 1, "along", what);
}

void
card_check_list (const HwPlan    *plan,
                 int              group,
                 HwCard * const  *cards,
                 guint            n,
                 gboolean         is_small,
                 const char      *what)
{
  static const char * const again[] = { "again", "dial", "dial-start" };
  g_autofree char *expected = list_expected (plan, group);
  g_autoptr (GString) found = g_string_new (NULL);
  guint n_checks = 0;
  guint n_rulers = 0;

  for (guint i = 0; i < n; i++)
    {
      int number, n_cards;

      hw_card_get_place (cards[i], &number, &n_cards);
      g_assert_cmpint (hw_card_get_group (cards[i]), ==, group);
      g_assert_cmpint (number, ==, (int) i + 1);
      g_assert_cmpint (n_cards, ==, (int) n);
      append_rows (found, cards[i]);
      expect (card_count_boxes (cards[i], "step-length"), card_count_boxes (cards[i], "step-number"), "step-length",
              what);
      expect (card_count_boxes (cards[i], "step-name"), card_count_boxes (cards[i], "step-number"), "step-name", what);
      if (i > 0 && card_count_boxes (cards[i], "step-number") > 0)
        for (gsize j = 0; j < G_N_ELEMENTS (again); j++)
          expect (card_count_boxes (cards[i], again[j]), 1, again[j], what);
      expect (card_count_boxes (cards[i], "hand-name"), card_count_boxes (cards[i], "hand-number"), "hand-name", what);
      g_assert_cmpuint (hw_card_get_steps (cards[i])->len, ==,
                        card_count_boxes (cards[i], "step-tick") + card_count_boxes (cards[i], "hand-tick"));
      g_assert_cmpuint (card_count_boxes (cards[i], "card-place"), ==, n > 1 ? 1 : 0);
      g_assert_cmpuint (card_count_boxes (cards[i], "caution"), ==, 1);
      /* Nobody prints a card for a step or two that only follow an operation on the card before. */
      if (i > 0 && card_count_boxes (cards[i], "hand-number") > 0)
        expect (card_count_boxes (cards[i], "step-number"), 1, "step-number", what);
      n_checks += card_count_boxes (cards[i], "check");
      n_rulers += card_count_boxes (cards[i], "ruler");
    }
  g_assert_cmpuint (n_checks, ==, 6);
  g_assert_cmpuint (n_rulers, ==, 1);
  /* Only a small card may be so full that they go on the second one, and half a Letter sheet in a longer language. */
  if (!is_small && g_getenv ("NARROWEST_SHEETS") == NULL)
    expect (card_count_boxes (cards[0], "check"), 6, "check", what);
  check_first (cards[0], is_small, what);
  if (g_str_equal (found->str, expected))
    return;
  g_test_message ("%s: the list should be %s but is %s", what, expected, found->str);
  g_test_fail ();
}

/* ---- the pictures of its seams ---- */

/* What the captions of the card name; NULL: there is a picture for all of its steps. (transfer full) */
static GPtrArray *
list_pictured (const HwCard *card)
{
  const GArray *boxes = hw_card_get_boxes (card);
  GPtrArray *numbers = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < boxes->len; i++)
    {
      g_auto (GStrv) words = NULL;

      if (!card_box_has_role (&g_array_index (boxes, HwBox, i), "section-steps"))
        continue;
      words = g_strsplit (g_array_index (boxes, HwBox, i).text, " ", -1);
      for (gsize j = 1; words[j] != NULL; j++)
        g_ptr_array_add (numbers, g_strdup (words[j]));
    }
  if (card_count_boxes (card, "section") > card_count_boxes (card, "section-steps"))
    g_clear_pointer (&numbers, g_ptr_array_unref);
  return numbers;
}

/* Near enough for the seams of one set-up. */
static gboolean
has_seam_like (const HwPlan *plan,
               const HwCard *card,
               const HwSeam *seam)
{
  const GArray *steps = hw_card_get_steps (card);

  for (guint i = 0; i < steps->len; i++)
    {
      const HwSetup *setup = plan->setups[g_array_index (steps, gsize, i)];

      if (setup != NULL && setup->seam != NULL && setup->seam->n_plies == seam->n_plies
          && setup->seam->n_stitches == seam->n_stitches)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_on_card_before (const HwPlan    *plan,
                   HwCard * const  *cards,
                   guint            n_before,
                   const HwSeam    *seam)
{
  for (guint i = 0; i < n_before; i++)
    if (has_seam_like (plan, cards[i], seam))
      return TRUE;
  return FALSE;
}

/* The pictures on a card are of the steps in its list, and of no others: it may be the one by the machine. */
static void
check_seams_on (const HwPlan    *plan,
                HwCard * const  *cards,
                guint            n_cards,
                guint            which,
                const char      *what)
{
  const HwCard *card = cards[which];
  g_autoptr (GPtrArray) pictured = list_pictured (card);
  const GArray *steps = hw_card_get_steps (card);
  guint n = 0;

  if (pictured == NULL || steps->len == 0)
    return;
  for (guint i = 0; i < steps->len; i++)
    {
      gsize step = g_array_index (steps, gsize, i);
      const HwSetup *setup = plan->setups[step];
      const char *number = hw_project_get_step (plan->project, step)->number;

      if (setup == NULL || setup->seam == NULL || setup->seam->n_plies == 0)
        continue;
      if (g_ptr_array_find_with_equal_func (pictured, number, g_str_equal, NULL))
        {
          n++;
          continue;
        }
      if (n_cards == 1 || is_on_card_before (plan, cards, which, setup->seam))
        continue;
      g_test_message ("%s, card %u: the seam of step %s is not pictured", what, which + 1, number);
      g_test_fail ();
    }
  if (n == pictured->len)
    return;
  g_test_message ("%s, card %u: %u steps are pictured that are not in the list", what, which + 1, pictured->len - n);
  g_test_fail ();
}

void
card_check_seams (const HwPlan   *plan,
                  HwCard * const *cards,
                  guint           n,
                  const char     *what)
{
  for (guint i = 0; i < n; i++)
    check_seams_on (plan, cards, n, i, what);
}

/* ---- what the machine is set to ---- */

/* As the list says it: “dial 3½”, a word and its figure held together. */
typedef struct { char *length, *dial; } Said;

static Said
say (const HwSetup *setup)
{
  g_autofree char *half = hw_words_half (setup->values[HW_FIELD_DIAL].value);
  g_autofree char *mm = hw_words_mm (setup->values[HW_FIELD_LENGTH].value);
  g_autofree char *dial = g_strdup_printf (gettext ("dial %s"), half);
  g_autofree char *length = g_strdup_printf (gettext ("length %s"), mm);
  g_auto (GStrv) dial_words = g_strsplit (dial, " ", -1);
  g_auto (GStrv) length_words = g_strsplit (length, " ", -1);

  return (Said) { g_strjoinv ("\302\240", length_words), g_strjoinv ("\302\240", dial_words) };
}

static void
clear_said (gpointer data)
{
  Said *said = data;

  g_free (said->length);
  g_free (said->dial);
}

static void
replace (char       **text,
         const char  *with)
{
  g_free (*text);
  *text = g_strdup (with);
}

static void
take_all (Said       *set,
          const Said *from)
{
  replace (&set->length, from->length);
  replace (&set->dial, from->dial);
}

/* What is said anew in @change comes from the step it stands above; all else stays as it was. */
static void
take_change (Said       *set,
             const Said *wanted,
             const char *change)
{
  if (strstr (change, wanted->length) != NULL)
    replace (&set->length, wanted->length);
  if (strstr (change, wanted->dial) != NULL)
    replace (&set->dial, wanted->dial);
}

static const HwSetup *
find_setup (const HwPlan *plan,
            const char   *number)
{
  for (gsize i = 0; i < plan->order->len; i++)
    if (plan->setups[i] != NULL && g_str_equal (hw_project_get_step (plan->project, i)->number, number))
      return plan->setups[i];
  return NULL;
}

/* The large value of the dial: on a later card that of its first step. */
static void
check_dial (const HwCard  *card,
            const HwSetup *setup,
            const char    *what)
{
  const GArray *boxes = hw_card_get_boxes (card);

  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);

      if (!card_box_has_role (box, "dial") || fabs (box->value[0] - setup->values[HW_FIELD_DIAL].value) < 1e-6)
        continue;
      g_test_message ("%s: the dial shows %g, not as step %s %g", what, box->value[0], setup->step->number,
                      setup->values[HW_FIELD_DIAL].value);
      g_test_fail ();
    }
}

/* @large: what whoever comes back to the card sets first. */
static void
check_changes_on (const HwPlan *plan,
                  const HwCard *card,
                  Said         *large,
                  gboolean      is_later,
                  const char   *what)
{
  const GArray *boxes = hw_card_get_boxes (card);
  const char *change = "";
  Said set = { g_strdup (large->length), g_strdup (large->dial) };
  guint n = 0;

  for (guint i = 0; i < boxes->len; i++)
    {
      const HwBox *box = &g_array_index (boxes, HwBox, i);
      Said wanted;

      if (card_box_has_role (box, "step-change"))
        change = box->text;
      if (card_box_has_role (box, "then"))
        take_all (&set, large);
      if (!card_box_has_role (box, "step-number"))
        continue;
      wanted = say (find_setup (plan, box->text));
      take_change (&set, &wanted, change);
      if (!g_str_equal (set.length, wanted.length) || !g_str_equal (set.dial, wanted.dial))
        {
          g_test_message ("%s: step %s is sewn at %s, %s, not at %s, %s", what, box->text, set.length, set.dial,
                          wanted.length, wanted.dial);
          g_test_fail ();
        }
      if (is_later && n++ == 0)
        {
          check_dial (card, find_setup (plan, box->text), what);
          take_all (large, &wanted);
        }
      change = "";
      clear_said (&wanted);
    }
  clear_said (&set);
}

void
card_check_changes (const HwPlan    *plan,
                    int              group,
                    HwCard * const  *cards,
                    guint            n,
                    const char      *what)
{
  gsize first = g_array_index (hw_plan_get_group (plan, group)->members, gsize, 0);

  for (guint i = 0; i < n; i++)
    {
      Said large = say (plan->setups[first]);

      if (i == 0)
        check_dial (cards[i], plan->setups[first], what);
      check_changes_on (plan, cards[i], &large, i > 0, what);
      clear_said (&large);
    }
}
