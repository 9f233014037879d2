/* topics-tell.c - the pieces that the facts of a topic are made of
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/topics-private.h"

#include <glib/gi18n.h>
#include <math.h>

static const char * const machine_names[HW_N_MACHINE_KINDS] = {
  N_("lockstitch machine"), N_("overlocker"), N_("coverstitch machine"),
};

static const char * const family_names[] = {
  N_("woven"), N_("knit"), N_("nonwoven"), N_("leather and other skins"), N_("net and lace"),
};

static const char * const form_names[] = {
  N_("spun"), N_("core-spun"), N_("filament"), N_("monofilament"), N_("textured"), N_("metallic"), N_("elastic"),
};

static const char * const term_names[HW_N_TENSION_TERMS] = {
  [HW_TENSION_MACHINE] = N_("The machine itself"),
  [HW_TENSION_TEX] = N_("Thicker thread, needle and bobbin"),
  [HW_TENSION_NEEDLE_HEAVIER] = N_("Needle thread thicker than the bobbin’s"),
  [HW_TENSION_FILAMENT] = N_("Smooth filament thread"),
  [HW_TENSION_MONOFILAMENT] = N_("Clear thread"),
  [HW_TENSION_METALLIC] = N_("Metallic thread"),
  [HW_TENSION_THICKER] = N_("Thicker layers"),
  [HW_TENSION_THINNER] = N_("Thinner layers"),
  [HW_TENSION_LONGER] = N_("Longer stitch"),
  [HW_TENSION_SHORTER] = N_("Shorter stitch"),
  [HW_TENSION_SHEER] = N_("Sheer cloth"),
  [HW_TENSION_SLIPPERY] = N_("Slippery cloth"),
  [HW_TENSION_JERSEY] = N_("Knits that stretch"),
  [HW_TENSION_PILE] = N_("Pile"),
  [HW_TENSION_LOFTY] = N_("Lofty layers"),
  [HW_TENSION_COATED] = N_("Coated cloth"),
  [HW_TENSION_LEATHER] = N_("Leather"),
  [HW_TENSION_ZIGZAG] = N_("Width of a zigzag"),
  [HW_TENSION_MULTISTEP] = N_("Zigzag in several steps"),
  [HW_TENSION_STRETCH_STITCH] = N_("Stretch stitch"),
  [HW_TENSION_BLIND] = N_("Blind stitch"),
  [HW_TENSION_SATIN] = N_("Satin stitch"),
  [HW_TENSION_BUTTONHOLE] = N_("Buttonhole"),
  [HW_TENSION_BAR_TACK] = N_("Bar tack"),
  [HW_TENSION_TWIN] = N_("Twin needle"),
  [HW_TENSION_BASTE] = N_("Basting"),
  [HW_TENSION_GATHER] = N_("Gathering"),
  [HW_TENSION_EASE] = N_("Easing in"),
};

const char *
hw_topic_machine (guint kind)
{
  return _(machine_names[kind]);
}

const char *
hw_topic_family (guint family)
{
  return _(family_names[family]);
}

const char *
hw_topic_form (guint form)
{
  return _(form_names[form]);
}

const char *
hw_topic_term (int term)
{
  return _(term_names[term]);
}

/* ---- one fact ---- */

static void
add_fact (HwTeller       *self,
          HwFactKind      kind,
          const char     *name,
          char           *value,
          char           *link,
          const HwSource *source)
{
  HwFact fact = { kind, g_strdup (name), value, link, source };

  if (value == NULL || *value == '\0')
    {
      g_free (value);
      fact.value = g_strdup ("–");
    }
  g_array_append_val (self->facts, fact);
}

void
hw_tell (HwTeller   *self,
         const char *name,
         char       *value)
{
  add_fact (self, HW_FACT_FIGURE, name, value, NULL, NULL);
}

void
hw_tell_linked (HwTeller   *self,
                const char *name,
                char       *value,
                char       *link)
{
  add_fact (self, HW_FACT_FIGURE, name, value, link, NULL);
}

void
hw_tell_line (HwTeller       *self,
              const char     *name_or_null,
              char           *value,
              const HwSource *source)
{
  add_fact (self, HW_FACT_LINE, name_or_null, value, NULL, source);
}

/* The name of an entry and its id, by table and index. */
static const HwEntry *
find_entry (const HwHandbook *handbook,
            const char       *table,
            gsize             index)
{
  if (g_str_equal (table, "fabric"))
    return &handbook->fabrics[index].entry;
  if (g_str_equal (table, "construction"))
    return &handbook->constructions[index].entry;
  if (g_str_equal (table, "trait"))
    return &handbook->traits[index].entry;
  if (g_str_equal (table, "system"))
    return &handbook->systems[index].entry;
  if (g_str_equal (table, "point"))
    return &handbook->points[index].entry;
  if (g_str_equal (table, "thread"))
    return &handbook->threads[index].entry;
  if (g_str_equal (table, "stitch"))
    return &handbook->stitches[index].entry;
  if (g_str_equal (table, "seam"))
    return &handbook->seams[index].entry;
  if (g_str_equal (table, "purpose"))
    return &handbook->purposes[index].entry;
  if (g_str_equal (table, "foot"))
    return &handbook->feet[index].entry;
  if (g_str_equal (table, "plate"))
    return &handbook->plates[index].entry;
  return &handbook->terms[index].entry;
}

void
hw_tell_entry (HwTeller   *self,
               const char *name,
               const char *table,
               int         index)
{
  const HwEntry *entry = index >= 0 ? find_entry (self->handbook, table, (gsize) index) : NULL;

  if (entry != NULL)
    add_fact (self, HW_FACT_FIGURE, name, g_strdup (entry->name),
              g_strdup_printf ("%s/%s", table, entry->id), NULL);
}

void
hw_tell_set (HwTeller   *self,
             const char *name,
             const char *table,
             HwSet       set)
{
  gboolean first = TRUE;

  for (int i = 0; i < 64; i++)
    if ((set & HW_SET (i)) != 0)
      {
        hw_tell_entry (self, first ? name : NULL, table, i);
        first = FALSE;
      }
}

/* ---- figures ---- */

void
hw_tell_number (HwTeller   *self,
                const char *name,
                double      value,
                int         decimals,
                const char *unit)
{
  g_autofree char *number = hw_words_number (value, decimals);

  hw_tell (self, name, *unit != '\0' ? g_strdup_printf ("%s %s", number, unit) : g_strdup (number));
}

/* Minutes as the handbook has them: rounding a part of a minute away would make another figure of it. */
void
hw_tell_minutes (HwTeller   *self,
                 const char *name,
                 double      minutes)
{
  g_autofree char *number = hw_words_number (minutes, 2);

  /* Translators: a time in minutes */
  hw_tell (self, name, g_strdup_printf (_("%s min"), number));
}

/* Numbers with their unit: "340 (280 to 400) g/m²". */
void
hw_tell_band (HwTeller     *self,
              const char   *name,
              const HwBand *band,
              const char   *unit)
{
  g_autofree char *low = hw_words_number (band->low, 2);
  g_autofree char *prefer = hw_words_number (band->prefer, 2);
  g_autofree char *high = hw_words_number (band->high, 2);

  /* Translators: typical value and its range, then the unit */
  hw_tell (self, name, g_strchomp (g_strdup_printf (_("%s (%s to %s) %s"), prefer, low, high, unit)));
}

void
hw_tell_range (HwTeller      *self,
               const char    *name,
               const HwRange *range,
               const char    *unit)
{
  g_autofree char *low = isfinite (range->low) ? hw_words_number (range->low, 2) : NULL;
  g_autofree char *high = isfinite (range->high) ? hw_words_number (range->high, 2) : NULL;
  char            *value = NULL;

  if (low != NULL && high != NULL)
    /* Translators: the lowest and the highest value, then the unit */
    value = g_strdup_printf (_("%s to %s %s"), low, high, unit);
  else if (low != NULL)
    /* Translators: the lowest value, then the unit */
    value = g_strdup_printf (_("from %s %s"), low, unit);
  else if (high != NULL)
    /* Translators: the highest value, then the unit */
    value = g_strdup_printf (_("up to %s %s"), high, unit);
  else
    return;
  hw_tell (self, name, g_strchomp (value));
}

void
hw_tell_machines (HwTeller *self,
                  guint     mask)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (g_free);

  for (guint kind = 0; kind < HW_N_MACHINE_KINDS; kind++)
    if ((mask & (1u << kind)) != 0)
      g_ptr_array_add (list, g_strdup (hw_topic_machine (kind)));
  hw_tell (self, _("Machines"), hw_words_list (list));
}

/* Which way a term of the starting tension moves the dial. */
static char *
say_term (const HwHandbook *handbook,
          int               term)
{
  g_autofree char *mean = hw_words_number (handbook->tension.terms[term].mean, 2);
  g_autofree char *spread = hw_words_number (handbook->tension.terms[term].sd, 2);

  /* Translators: numbers on a tension dial from 0 to 9 */
  return g_strdup_printf (_("%s, give or take %s, on a dial from 0 to 9"), mean, spread);
}

void
hw_tell_term (HwTeller *self,
              int       term)
{
  if (term >= 0)
    add_fact (self, HW_FACT_FIGURE, _("Moves the dial by"), say_term (self->handbook, term),
              g_strdup_printf ("tension/%s", hw_tension_term_ids[term]), NULL);
}
