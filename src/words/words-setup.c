/* words-setup.c - needles, threads, stitches and layers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "trade/needle.h"
#include "words/words-private.h"

#include <glib/gi18n.h>
#include <math.h>

#define LEAST_IN_METRES_CM 199.5        /* a hem of 125 cm stays that: "1.2 m" is not what was written */

/* ---- needles ---- */

char *
hw_words_size (int nm, double twin_mm)
{
  int us = hw_us_from_nm (nm);

  if (twin_mm > 0)
    {
      g_autofree char *spacing = hw_words_fixed (twin_mm, 1);

      /* Translators: a twin needle as packets show it: spacing in mm / size */
      return g_strdup_printf (_("%s/%d"), spacing, nm);
    }
  /* Translators: a needle's metric and US size as packets show them */
  return us > 0 ? g_strdup_printf (_("%d/%d"), nm, us) : g_strdup_printf ("%d", nm);
}

char *
hw_words_setup_size (const HwSetup *setup, double nm)
{
  const HwValue *twin = &setup->values[HW_FIELD_TWIN];

  return hw_words_size ((int) lround (nm), twin->applies ? twin->value : 0);
}

char *
hw_words_point (const HwPoint *point)
{
  g_autofree char *name = hw_words_inside (point->entry.name);

  if (point->letters == NULL || *point->letters == '\0')
    return g_steal_pointer (&name);
  /* Translators: a needle point's name and its letters on the packet: “round point (R)” */
  return g_strdup_printf (_("%s (%s)"), name, point->letters);
}

/* Packets that name no point hold this one: it is what a beginner has at hand. */
#define UNIVERSAL "universal"

static gboolean
passes_for_all (const HwPlan *plan, const HwGroup *group, gsize point)
{
  for (guint i = 0; i < group->members->len; i++)
    if ((plan->setups[g_array_index (group->members, gsize, i)]->values[HW_FIELD_POINT].accept & HW_SET (point)) == 0)
      return FALSE;
  return (int) point != group->point;
}

char *
hw_words_group_universal (const HwPlan *plan, int group)
{
  const HwGroup *self = hw_plan_get_group (plan, group);

  for (gsize i = 0; i < plan->handbook->n_points; i++)
    {
      const HwPoint *point = &plan->handbook->points[i];

      if (g_str_equal (point->entry.id, UNIVERSAL) && (point->systems & HW_SET (self->system)) != 0
          && hw_point_is_sold (point, self->size_nm, self->twin_mm) && passes_for_all (plan, self, i))
        /* Translators: under a needle's point, “round point (R)”: one with a universal point will do as well */
        return g_strdup (_("or universal"));
    }
  return NULL;
}

char *
hw_words_needle (const HwHandbook *handbook, int point, int nm, double twin_mm)
{
  g_autofree char *size = hw_words_size (nm, twin_mm);
  g_autofree char *name = NULL;

  if (point < 0)
    return g_steal_pointer (&size);
  name = hw_words_inside (handbook->points[point].entry.name);
  if (twin_mm > 0)
    /* Translators: a twin needle: spacing and size, point */
    return g_strdup_printf (_("twin %s %s"), size, name);
  /* Translators: a needle: size, point */
  return g_strdup_printf (_("%s %s"), size, name);
}

/* ---- threads ---- */

/* The handbook's words for what a thread is spun from. */
static const char * const fibres[] = {
  N_("acrylic"), N_("aramid"), N_("cotton"), N_("elastane"), N_("linen"), N_("lyocell"), N_("metal"), N_("nylon"),
  N_("polyamide"), N_("polyester"), N_("rayon"), N_("rubber"), N_("silk"), N_("viscose"), N_("wool"),
};

const char *
hw_words_fibre (const char *fibre)
{
  for (gsize i = 0; i < G_N_ELEMENTS (fibres); i++)
    if (g_str_equal (fibres[i], fibre))
      return _(fibres[i]);
  return fibre;
}

static char *
describe_fibre (const HwThreadEntry *entry)
{
  const char *fibre = hw_words_fibre (entry->fibre);

  switch (entry->form)
    {
    case HW_THREAD_CORE:
      /* Translators: a fibre, such as polyester */
      return g_strdup_printf (_("core-spun %s"), fibre);
    case HW_THREAD_MONOFILAMENT:
      /* Translators: a fibre, such as nylon */
      return g_strdup_printf (_("%s monofilament"), fibre);
    case HW_THREAD_TEXTURED:
      /* Translators: a fibre, such as polyester */
      return g_strdup_printf (_("textured %s"), fibre);
    case HW_THREAD_METALLIC:
      return g_strdup (_("metallic"));
    case HW_THREAD_ELASTIC:
      return g_strdup (_("elastic"));
    case HW_THREAD_SPUN:
    case HW_THREAD_FILAMENT:
    default:
      return g_strdup (fibre);
    }
}

const char *
hw_words_thread_colour (const HwThreadChoice *thread)
{
  const char *colour = thread->thread != NULL ? thread->thread->colour : NULL;

  return colour != NULL && *colour != '\0' ? colour : NULL;
}

char *
hw_words_thread (const HwThreadChoice *thread)
{
  g_autofree char *fibre = describe_fibre (thread->entry);
  g_autofree char *tex = hw_words_number (thread->tex, 0);

  if (hw_words_thread_colour (thread) == NULL)
    /* Translators: a thread: fibre, size */
    return g_strdup_printf (_("%s tex %s"), fibre, tex);
  /* Translators: a thread: colour, fibre, size */
  return g_strdup_printf (_("%s %s tex %s"), hw_words_thread_colour (thread), fibre, tex);
}

char *
hw_words_thread_short (const HwThreadChoice *thread)
{
  const char      *colour = hw_words_thread_colour (thread);
  g_autofree char *fibre = describe_fibre (thread->entry);
  g_autofree char *tex = hw_words_number (thread->tex, 0);

  /* Translators: a thread: colour (or fibre when no colour is noted), size */
  return g_strdup_printf (_("%s, tex %s"), colour != NULL ? colour : fibre, tex);
}

/* ---- stitch, foot, ends ---- */

static const char *
find_own_stitch (const HwSetup *setup)
{
  for (gsize i = 0; i < setup->machine->n_stitches; i++)
    if (g_str_equal (setup->machine->stitches[i].stitch, setup->stitch->entry.id))
      return setup->machine->stitches[i].own;
  return NULL;
}

char *
hw_words_stitch (const HwSetup *setup)
{
  const char *own = find_own_stitch (setup);
  g_autofree char *name = NULL;

  if (own == NULL || *own == '\0')
    return hw_words_inside (setup->stitch->entry.name);
  name = hw_words_inside (setup->stitch->entry.name);
  /* Translators: a stitch, the number or letter that this machine gives it */
  return g_strdup_printf (_("%s, no. %s"), name, own);
}

/* Of a buttonhole it is that of one of its two rows, not of the whole. */
char *
hw_words_width (const HwSetup *setup)
{
  double           value = setup->values[HW_FIELD_WIDTH].value;
  g_autofree char *mm = value > 0 ? hw_words_mm (value) : hw_words_number (0, 0);

  if (g_strcmp0 (setup->stitch->mark, "buttonhole") == 0)
    /* Translators: width of each of the two rows of a buttonhole */
    return g_strdup_printf (_("each bead %s"), mm);
  /* Translators: the stitch's width */
  return g_strdup_printf (_("width %s"), mm);
}

/* Half-way values stand for the two steps on either side of them. */
char *
hw_words_pressure (double steps)
{
  double size = ABS (steps);
  int fewer = (int) floor (size + 1e-6);
  int more = (int) ceil (size - 1e-6);

  if (more == 0)
    return g_strdup (_("normal"));
  if (fewer < more)
    /* Translators: presser-foot pressure in steps from normal, such as 1–2 */
    return g_strdup_printf (steps < 0 ? _("%d–%d lighter") : _("%d–%d heavier"), fewer, more);
  /* Translators: presser-foot pressure in steps from normal */
  return g_strdup_printf (steps < 0 ? _("%d lighter") : _("%d heavier"), more);
}

/**
 * hw_words_needle_stands:
 *
 * Returns: (transfer full) (nullable): where the needle stands in the foot; NULL where nothing is to be said
 */
char *
hw_words_needle_stands (const HwPlan *plan, const HwSetup *setup)
{
  double aside_mm = 0;
  g_autofree char *mm = NULL;

  switch (hw_setup_needle_place (plan->handbook, setup, &aside_mm))
    {
    case HW_NEEDLE_CENTRE:
      return g_strdup (_("in the centre"));
    case HW_NEEDLE_ASIDE:
      mm = hw_words_mm (aside_mm);
      /* Translators: where the needle stands in the foot, such as “2 mm left of the centre” */
      return g_strdup_printf (_("%s left of the centre"), mm);
    case HW_NEEDLE_NOTCH:
      return g_strdup (_("in the notch on the side of the teeth"));
    case HW_NEEDLE_UNSAID:
    default:
      return NULL;
    }
}

const char *
hw_words_place_reason (HwNeedlePlace place)
{
  switch (place)
    {
    case HW_NEEDLE_CENTRE:
      return _("This foot has its opening in the centre: elsewhere the needle hits it.");
    case HW_NEEDLE_ASIDE:
      return _("The blade of the foot runs along the edge, and the needle stands aside by the distance of the row. "
               "Turn by hand first: it must clear the foot.");
    case HW_NEEDLE_NOTCH:
      return _("The row runs close to the teeth. Where the needle cannot be moved, move the foot on its bar. Turn by "
               "hand first: it must clear the foot.");
    case HW_NEEDLE_UNSAID:
    default:
      return NULL;
    }
}

const char *
hw_words_together (HwTogether together)
{
  switch (together)
    {
    case HW_TOGETHER_RIGHT:
      return _("right sides together");
    case HW_TOGETHER_WRONG:
      return _("wrong sides together");
    case HW_TOGETHER_WRONG_FIRST:
      return _("first row with wrong sides together; then trim, turn, and sew the second");
    case HW_TOGETHER_UNSAID:
    default:
      return NULL;
    }
}

char *
hw_words_ends (HwEnds ends)
{
  switch (ends)
    {
    case HW_ENDS_NONE:
      return g_strdup (_("ends left as they are"));
    case HW_ENDS_BACK_TACK:
      return g_strdup (_("3 stitches back at both ends"));
    case HW_ENDS_KNOT:
      return g_strdup (_("long tails, knotted by hand"));
    case HW_ENDS_TAILS:
      return g_strdup (_("long tails left"));
    case HW_ENDS_LOCK:
      return g_strdup (_("a few stitches on the spot at both ends"));
    case HW_ENDS_CHAIN_OFF:
      return g_strdup (_("chained off at both ends"));
    case HW_N_ENDS:
    default:
      g_return_val_if_reached (g_strdup (""));
    }
}

char *
hw_words_foot (const HwHandbook *handbook, int foot)
{
  g_return_val_if_fail (foot < (int) handbook->n_feet, g_strdup (""));

  return g_strdup (foot >= 0 ? handbook->feet[foot].entry.name : _("No foot named"));
}

/* ---- layers ---- */

static const char *
find_fabric_name (const HwPlan *plan, const HwPly *ply)
{
  const HwProjectFabric *fabric = hw_project_find_fabric (plan->project, ply->fabric);

  return fabric != NULL ? fabric->name : ply->fabric;
}

char *
hw_words_layers (const HwPlan *plan, const HwStep *step)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (gsize i = 0; i < step->n_plies; i++)
    {
      g_autofree char *name = hw_words_inside (find_fabric_name (plan, &step->plies[i]));

      if (i > 0)
        g_string_append (out, " + ");
      /* Translators: how many layers, of which fabric */
      g_string_append_printf (out, _("%d × %s"), step->plies[i].count, name);
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

char *
hw_words_layer_counts (const HwStep *step)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (gsize i = 0; i < step->n_plies; i++)
    g_string_append_printf (out, i > 0 ? " + %d" : "%d", step->plies[i].count);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* Of buttonholes and bar tacks: how many, how long each; NULL: of a seam. A buttonhole's row runs along both its
 * sides. */
static char *
say_pieces (const HwStep *step)
{
  gboolean         is_buttonhole = g_strcmp0 (step->purpose, "buttonhole") == 0;
  int              pieces = MAX (step->pieces, 1);
  double           each_mm = step->length_cm * 10 / pieces / (is_buttonhole ? 2 : 1);
  g_autofree char *each = hw_words_allowance (floor (each_mm + 0.5));

  if (!is_buttonhole && g_strcmp0 (step->purpose, "bar-tack") != 0)
    return NULL;
  if (pieces == 1)
    return g_steal_pointer (&each);
  /* Translators: how many buttonholes or bar tacks, length of each: “11, each 14 mm” */
  return g_strdup_printf (_("%d, each %s"), pieces, each);
}

char *
hw_words_seam_length (double cm)
{
  return cm >= LEAST_IN_METRES_CM ? hw_words_metres (cm / 100) : hw_words_cm (cm, cm < 10 ? 1 : 0);
}

char *
hw_words_sewn_length (const HwStep *step)
{
  char *pieces = say_pieces (step);

  return pieces != NULL ? pieces : hw_words_seam_length (step->length_cm);
}

/* What was noted of a step counts for more than what was planned. */
static double
get_minutes (const HwPlan     *plan,
             const HwPlanStep *planned)
{
  const HwStep         *step = hw_project_get_step (plan->project, planned->step);
  const HwJournalEntry *noted = planned->done ? hw_room_step_done (plan->room, plan->project->id, step->number) : NULL;

  return noted != NULL && noted->minutes > 0 ? noted->minutes : planned->minutes;
}

char *
hw_words_amount (const HwPlan     *plan,
                 const HwPlanStep *planned)
{
  const HwStep    *step = hw_project_get_step (plan->project, planned->step);
  g_autofree char *minutes = hw_words_minutes (get_minutes (plan, planned));
  g_autofree char *length = NULL;

  if (step->kind == HW_STEP_HAND)
    return g_steal_pointer (&minutes);
  length = hw_words_sewn_length (step);
  /* Translators: seam length, minutes */
  return g_strdup_printf (_("%s, %s"), length, minutes);
}
