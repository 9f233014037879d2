/* project-check.c - what a project may hold, for reader and edits alike
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything here needs no handbook: ids of the handbook are checked when the project is planned.
 */

#define G_LOG_DOMAIN "hw-model"

#include "config.h"

#include "model/project.h"
#include "model/project-private.h"

#include "files/xml.h"
#include "handbook/entries.h"

#include <glib/gi18n.h>
#include <libxml/valid.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define SHOWN_MAX 60             /* characters of a wrong value that a message repeats */
#define LISTED_MAX 12            /* ids that a message lists */

/* Wide enough for any cloth and machine: they keep slips of the pen out, not odd work. */
const HwLimit hw_limit_mass = { "mass", N_("the mass"), "g/m²", 1, 5000 };
const HwLimit hw_limit_thickness = { "thickness", N_("the thickness"), "mm", 0.01, 50 };
const HwLimit hw_limit_stretch = { "stretch", N_("the stretch"), "%", 0, 500 };
const HwLimit hw_limit_tex = { "tex", N_("the thread's tex"), "tex", 1, 1000 };
const HwLimit hw_limit_length = { "length-cm", N_("the length sewn"), "cm", 0.1, 100000 };
const HwLimit hw_limit_pieces = { "pieces", N_("the number of pieces"), "", 1, 10000 };
const HwLimit hw_limit_count = { "count", N_("the number of layers"), "", 1, HW_PLIES_MAX };
const HwLimit hw_limit_minutes = { "minutes", N_("the time"), "min", 0, 100000 };

const HwLimit hw_limit_fields[HW_N_FIELDS] = {
  [HW_FIELD_SIZE] = { "value", N_("the needle size"), "Nm", 35, 250 },
  [HW_FIELD_TWIN] = { "value", N_("the spacing of a twin needle"), "mm", 0, 10 },
  [HW_FIELD_NEEDLE_TEX] = { "value", N_("the needle thread"), "tex", 1, 1000 },
  [HW_FIELD_BOBBIN_TEX] = { "value", N_("the bobbin thread"), "tex", 1, 1000 },
  [HW_FIELD_LENGTH] = { "value", N_("the stitch length"), "mm", 0.2, 12 },
  [HW_FIELD_WIDTH] = { "value", N_("the stitch width"), "mm", 0, 12 },
  [HW_FIELD_PRESSURE] = { "value", N_("the presser pressure"), "", -10, 10 },
  [HW_FIELD_DIAL] = { "value", N_("the tension dial"), "", -20, 200 },
  [HW_FIELD_ALLOWANCE] = { "value", N_("the seam allowance"), "mm", 0, 100 },
  [HW_FIELD_DIFFERENTIAL] = { "value", N_("the differential feed"), "", 0.3, 3 },
  [HW_FIELD_CUTTING_WIDTH] = { "value", N_("the cutting width"), "mm", 0.5, 20 },
};

/* (transfer full): @text fit for a one-line message. */
static char *
shorten (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *shown = g_string_new (NULL);
  int n = 0;

  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at), n++)
    {
      gunichar c = g_utf8_get_char (at);
      if (n == SHOWN_MAX)
        {
          g_string_append (shown, "…");
          break;
        }
      g_string_append_unichar (shown, g_unichar_iscntrl (c) ? ' ' : c);
    }
  return g_string_free (shown, FALSE);
}

static gboolean
refuse (GError    **error,
        const char *format,
        ...) G_GNUC_PRINTF (2, 3);

static gboolean
refuse (GError    **error,
        const char *format,
        ...)
{
  va_list arguments;

  va_start (arguments, format);
  if (error != NULL)
    *error = g_error_new_valist (HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, format, arguments);
  va_end (arguments);
  return FALSE;
}

static char *
format_number (double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (text, sizeof text, "%.10g", value));
}

gboolean
hw_check_limit (const HwLimit *limit,
                double         value,
                GError       **error)
{
  g_autofree char *low = NULL;
  g_autofree char *high = NULL;
  g_autofree char *given = NULL;

  if (value >= limit->low && value <= limit->high)       /* not so for NAN */
    return TRUE;
  low = format_number (limit->low);
  high = format_number (limit->high);
  given = format_number (value);
  if (*limit->unit == '\0')
    return refuse (error, _("%s must be from %s to %s; it is %s"), _(limit->name), low, high, given);
  return refuse (error, _("%s must be from %s to %s %s; it is %s"), _(limit->name), low, high, limit->unit, given);
}

gboolean
hw_check_id (const char *what,
             const char *id,
             GError    **error)
{
  g_autofree char *shown = NULL;

  if (id == NULL)
    return refuse (error, _("%s is missing"), what);
  if (g_utf8_validate (id, -1, NULL) && g_utf8_strlen (id, -1) <= HW_ID_MAX
      && xmlValidateNMToken ((const xmlChar *) id, 0) == 0)
    return TRUE;
  shown = shorten (id);
  return refuse (error, _("%s must be one word of letters, digits, “-”, “_” and “.”, at most %d of them; it is “%s”"),
                 what, HW_ID_MAX, shown);
}

static gboolean
check_optional_id (const char *what,
                   const char *id,
                   GError    **error)
{
  return id == NULL || hw_check_id (what, id, error);
}

gboolean
hw_check_text (const char *what,
               const char *text,
               GError    **error)
{
  gboolean blank = TRUE;

  if (text == NULL)
    return refuse (error, _("%s is missing"), what);
  if (!g_utf8_validate (text, -1, NULL))
    return refuse (error, _("%s must be UTF-8 text"), what);
  if (g_utf8_strlen (text, -1) > HW_NAME_MAX)
    return refuse (error, _("%s may have at most %d characters; shorten it"), what, HW_NAME_MAX);
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);
      if (g_unichar_iscntrl (c) || c == 0xfffe || c == 0xffff)
        return refuse (error, _("%s must be one line of plain text; take the line breaks and control characters out"),
                       what);
      blank = blank && g_unichar_isspace (c);
    }
  return !blank || refuse (error, _("%s is empty; write one"), what);
}

static gboolean
check_optional_text (const char *what,
                     const char *text,
                     GError    **error)
{
  return text == NULL || hw_check_text (what, text, error);
}

gboolean
hw_check_note (const char *note,
               GError    **error)
{
  if (note == NULL)
    return TRUE;
  if (!g_utf8_validate (note, -1, NULL))
    return refuse (error, _("a note must be UTF-8 text"));
  if (g_utf8_strlen (note, -1) > HW_NOTE_MAX)
    return refuse (error, _("a note may have at most %d characters; shorten it"), HW_NOTE_MAX);
  return TRUE;
}

/* GDateTime takes more forms of ISO 8601 than a date, so the shape is looked at first. */
gboolean
hw_check_date (const char *date,
               GError    **error)
{
  g_autofree char *shown = NULL;
  int year, month, day;
  gsize length;

  if (date == NULL)
    return TRUE;
  length = strspn (date, "0123456789-");
  if (length == 10 && date[10] == '\0' && date[4] == '-' && date[7] == '-' && strchr (date + 8, '-') == NULL
      && sscanf (date, "%4d-%2d-%2d", &year, &month, &day) == 3 && year >= 1 && month >= 1 && month <= 12
      && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year))
    return TRUE;
  shown = shorten (date);
  return refuse (error, _("the due date must be a day of the calendar such as 2031-05-09; it is “%s”"), shown);
}

char *
hw_tidy_note (const char *note)
{
  g_autofree char *valid = NULL;
  g_auto (GStrv) lines = NULL;
  char *text;

  if (note == NULL)
    return NULL;
  valid = g_utf8_make_valid (note, -1);
  lines = g_strsplit (valid, "\n", -1);
  for (char **line = lines; *line != NULL; line++)
    {
      g_strdelimit (*line, "\r\t\v\f", ' ');
      g_strstrip (*line);
    }
  text = g_strjoinv ("\n", lines);
  g_strstrip (text);
  if (*text == '\0')
    g_clear_pointer (&text, g_free);
  return text;
}

/* What is said of an id that the project does not have: where it has none of that kind, where one is nearly it, and
 * where it has others. Whole sentences, as the words around a noun follow its gender in many languages. */
typedef struct
{
  const char *none;
  const char *near;
  const char *others;
} HwUnknown;

/* Translators: an id, the nearest one that there is, all that there are */
static const HwUnknown unknown_fabric = {
  N_("there is no fabric “%s” in this project, and no other; add it first"),
  N_("there is no fabric “%s” in this project (did you mean “%s”?); it has %s"),
  N_("there is no fabric “%s” in this project; it has %s"),
};
static const HwUnknown unknown_thread = {
  N_("there is no thread “%s” in this project, and no other; add it first"),
  N_("there is no thread “%s” in this project (did you mean “%s”?); it has %s"),
  N_("there is no thread “%s” in this project; it has %s"),
};
static const HwUnknown unknown_step = {
  N_("there is no step “%s” in this project, and no other; add it first"),
  N_("there is no step “%s” in this project (did you mean “%s”?); it has %s"),
  N_("there is no step “%s” in this project; it has %s"),
};

/* "there is no fabric “twil” in this project (did you mean “twill”?); it has twill, lining" */
static gboolean
refuse_unknown (const HwUnknown *unknown,
                const char      *id,
                GPtrArray       *known,
                GError         **error)
{
  g_autofree char *shown = shorten (id);
  g_autofree char *all = NULL;
  const char *near;

  g_ptr_array_add (known, NULL);
  near = hw_xml_nearest (id, (const char * const *) known->pdata);
  if (known->len - 1 > LISTED_MAX)
    {
      known->pdata[LISTED_MAX] = (gpointer) "…";
      known->pdata[LISTED_MAX + 1] = NULL;
    }
  all = g_strjoinv (", ", (char **) known->pdata);
  if (known->pdata[0] == NULL)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _(unknown->none), shown);
  else if (near != NULL)
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _(unknown->near), shown, near, all);
  else
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_UNKNOWN, _(unknown->others), shown, all);
  return FALSE;
}

static gboolean
check_fabric_known (const HwProject *project,
                    const char      *id,
                    GError         **error)
{
  g_autoptr (GPtrArray) known = NULL;

  if (id == NULL)
    return refuse (error, _("a layer must name its fabric"));
  if (hw_project_find_fabric (project, id) != NULL)
    return TRUE;
  known = g_ptr_array_new ();
  for (guint i = 0; i < project->fabrics->len; i++)
    g_ptr_array_add (known, ((HwProjectFabric *) g_ptr_array_index (project->fabrics, i))->id);
  return refuse_unknown (&unknown_fabric, id, known, error);
}

static gboolean
check_thread_known (const HwProject *project,
                    const char      *id,
                    GError         **error)
{
  g_autoptr (GPtrArray) known = NULL;

  if (id == NULL || hw_project_find_thread (project, id) != NULL)
    return TRUE;
  known = g_ptr_array_new ();
  for (guint i = 0; i < project->threads->len; i++)
    g_ptr_array_add (known, ((HwProjectThread *) g_ptr_array_index (project->threads, i))->id);
  return refuse_unknown (&unknown_thread, id, known, error);
}

static gboolean
refuse_unknown_step (const HwProject *project,
                     const char      *number,
                     GError         **error)
{
  g_autoptr (GPtrArray) known = g_ptr_array_new ();

  for (guint i = 0; i < project->steps->len; i++)
    g_ptr_array_add (known, hw_project_get_step (project, i)->number);
  return refuse_unknown (&unknown_step, number, known, error);
}

static gboolean
check_own_fabric (const HwProjectFabric *fabric,
                  GError               **error)
{
  if (fabric->handbook != NULL && fabric->construction != NULL)
    return refuse (error, _("the fabric “%s” has both “handbook” and “construction”; keep one of them"), fabric->id);
  if (fabric->handbook == NULL && fabric->construction == NULL)
    return refuse (error, _("the fabric “%s” needs “handbook” (a fabric of the handbook) or “construction” (one of "
                            "your own, with its mass or thickness)"), fabric->id);
  if (fabric->construction != NULL && fabric->mass_g_m2 == 0 && fabric->thickness_mm == 0)
    return refuse (error, _("the fabric “%s” is not from the handbook and needs its “mass” or “thickness”: weigh a "
                            "piece and divide the grams by its square metres"), fabric->id);
  return TRUE;
}

gboolean
hw_check_fabric (const HwProjectFabric *fabric,
                 GError               **error)
{
  if (!hw_check_id (_("a fabric's id"), fabric->id, error)
      || !hw_check_text (_("a fabric's name"), fabric->name, error)
      || !check_optional_id (_("a fabric of the handbook"), fabric->handbook, error)
      || !check_optional_id (_("a construction"), fabric->construction, error)
      || !check_optional_text (_("a fabric's colour"), fabric->colour, error)
      || !check_own_fabric (fabric, error))
    return FALSE;
  for (char **trait = fabric->traits; trait != NULL && *trait != NULL; trait++)
    if (!hw_check_id (_("a trait"), *trait, error))
      return FALSE;
  return (fabric->mass_g_m2 == 0 || hw_check_limit (&hw_limit_mass, fabric->mass_g_m2, error))
         && (fabric->thickness_mm == 0 || hw_check_limit (&hw_limit_thickness, fabric->thickness_mm, error))
         && (fabric->stretch_percent == -1 || hw_check_limit (&hw_limit_stretch, fabric->stretch_percent, error));
}

gboolean
hw_check_thread (const HwProjectThread *thread,
                 GError               **error)
{
  return hw_check_id (_("a thread's id"), thread->id, error)
         && hw_check_id (_("a thread of the handbook"), thread->handbook, error)
         && check_optional_text (_("a thread's colour"), thread->colour, error)
         && (thread->tex == 0 || hw_check_limit (&hw_limit_tex, thread->tex, error));
}

static gboolean
check_choice (const HwOverride *override,
              GError          **error)
{
  g_autofree char *all = NULL;
  const char *near;

  if (override->choice == NULL)
    return refuse (error, _("“%s” is set by “choice”, not by “value”"), hw_field_ids[override->field]);
  if (!hw_check_id (_("a choice"), override->choice, error))
    return FALSE;
  if (override->field != HW_FIELD_ENDS || g_strv_contains (hw_ends_ids, override->choice))
    return TRUE;
  all = g_strjoinv (", ", (char **) hw_ends_ids);
  near = hw_xml_nearest (override->choice, hw_ends_ids);
  if (near != NULL)
    return refuse (error, _("the ends cannot be secured by “%s” (did you mean “%s”?); choose one of %s"),
                   override->choice, near, all);
  return refuse (error, _("the ends cannot be secured by “%s”; choose one of %s"), override->choice, all);
}

gboolean
hw_check_override (const HwOverride *override,
                   GError          **error)
{
  const HwLimit *limit;

  g_return_val_if_fail (override->field < HW_N_FIELDS, FALSE);

  limit = &hw_limit_fields[override->field];
  if (hw_field_is_choice (override->field))
    return check_choice (override, error);
  if (override->choice != NULL)
    return refuse (error, _("“%s” is set by “value”, not by “choice”"), hw_field_ids[override->field]);
  if (override->field == HW_FIELD_LENGTH && !(override->value >= limit->low && override->value <= limit->high))
    {
      g_autofree char *given = format_number (override->value);
      return refuse (error, _("a stitch is 0.2 to 12 mm long; the length is set to %s: write it in millimetres"),
                     given);
    }
  if (override->field == HW_FIELD_SIZE && override->value != nearbyint (override->value))
    return refuse (error, _("a needle size is a whole number, such as 80 for 80/12"));
  return hw_check_limit (limit, override->value, error);
}

gboolean
hw_check_ply (const HwProject *project,
              const HwPly     *ply,
              int             *total,
              GError         **error)
{
  if (!check_fabric_known (project, ply->fabric, error) || !hw_check_limit (&hw_limit_count, ply->count, error))
    return FALSE;
  *total += ply->count;
  return *total <= HW_PLIES_MAX
         || refuse (error, _("a seam may have at most %d layers; take some out"), HW_PLIES_MAX);
}

static gboolean
check_plies (const HwProject *project,
             const HwPly     *plies,
             gsize            n_plies,
             GError         **error)
{
  int total = 0;

  for (gsize i = 0; i < n_plies; i++)
    if (!hw_check_ply (project, &plies[i], &total, error))
      return FALSE;
  return TRUE;
}

static gboolean
check_overrides (const HwStep *step,
                 GError      **error)
{
  guint32 seen = 0;

  for (gsize i = 0; i < step->n_overrides; i++)
    {
      guint32 bit = 1u << step->overrides[i].field;
      if (!hw_check_override (&step->overrides[i], error))
        return FALSE;
      if (seen & bit)
        return refuse (error, _("“%s” is set twice in one step; keep one of them"),
                       hw_field_ids[step->overrides[i].field]);
      seen |= bit;
    }
  return TRUE;
}

static gboolean
check_operation (const HwProject *project,
                 const HwStep    *step,
                 GError         **error)
{
  if (step->n_plies == 0)
    return refuse (error, _("an operation needs its layers: write a <ply fabric=\"…\"> for each fabric it joins"));
  return hw_check_id (_("an operation's purpose"), step->purpose, error)
         && check_optional_id (_("an operation's seam"), step->seam, error)
         && check_optional_id (_("an operation's stitch"), step->stitch, error)
         && check_optional_id (_("an operation's machine"), step->machine, error)
         && hw_check_limit (&hw_limit_length, step->length_cm, error)
         && hw_check_limit (&hw_limit_pieces, step->pieces, error)
         && check_plies (project, step->plies, step->n_plies, error)
         && check_plies (project, step->crossing, step->n_crossing, error)
         && check_thread_known (project, step->needle_thread, error)
         && check_thread_known (project, step->bobbin_thread, error)
         && check_overrides (step, error);
}

gboolean
hw_check_step (const HwProject *project,
               const HwStep    *step,
               GError         **error)
{
  if (!hw_check_id (_("a step's number"), step->number, error)
      || !hw_check_text (_("a step's name"), step->name, error)
      || !hw_check_note (step->note, error))
    return FALSE;
  if (step->kind == HW_STEP_OPERATION)
    return check_operation (project, step, error);
  g_return_val_if_fail (step->hand < HW_N_HAND_KINDS, FALSE);
  return hw_check_limit (&hw_limit_minutes, step->minutes, error);
}

/* ---- "after" ----
 *
 * Steps whose every predecessor is taken are taken one by one, from a list and not by recursion; what cannot be
 * taken holds a circle, and walking back from it along predecessors that are left must run into one. Each arrow is
 * looked at three times at most. */

typedef struct
{
  gsize  n;
  gsize *first;                  /* n + 1 offsets into before */
  gsize *before;                 /* for each step the steps it comes after */
} Arrows;

static void
clear_arrows (Arrows *arrows)
{
  g_free (arrows->first);
  g_free (arrows->before);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Arrows, clear_arrows)

static gboolean
resolve_arrows (const HwProject *project,
                Arrows          *arrows,
                gsize           *at,
                GError         **error)
{
  g_autoptr (GHashTable) index = hw_project_index_steps (project);
  g_autoptr (GArray) before = g_array_new (FALSE, FALSE, sizeof (gsize));

  arrows->n = project->steps->len;
  arrows->first = g_new0 (gsize, arrows->n + 1);
  for (gsize i = 0; i < arrows->n; i++)
    {
      char **words = hw_project_get_step (project, i)->after;
      for (char **word = words; word != NULL && *word != NULL; word++)
        {
          gsize found = GPOINTER_TO_UINT (g_hash_table_lookup (index, *word));
          if (found == 0)
            {
              *at = i;
              return refuse_unknown_step (project, *word, error);
            }
          found--;
          g_array_append_val (before, found);
        }
      arrows->first[i + 1] = before->len;
    }
  arrows->before = (gsize *) (gpointer) g_array_free (g_steal_pointer (&before), FALSE);
  return TRUE;
}

/* (transfer full): for each step how many of those before it could not be taken; all 0 when there is no circle. */
static gsize *
take_all (const Arrows *arrows,
          gsize        *n_taken)
{
  gsize *waiting = g_new0 (gsize, arrows->n);
  g_autofree gsize *first = g_new0 (gsize, arrows->n + 2);
  g_autofree gsize *later = g_new0 (gsize, arrows->first[arrows->n] + 1);
  g_autofree gsize *taken = g_new0 (gsize, arrows->n + 1);
  gsize n = 0;

  for (gsize arrow = 0; arrow < arrows->first[arrows->n]; arrow++)
    first[arrows->before[arrow] + 2]++;
  for (gsize i = 1; i < arrows->n + 2; i++)
    first[i] += first[i - 1];
  for (gsize i = 0; i < arrows->n; i++)
    {
      waiting[i] = arrows->first[i + 1] - arrows->first[i];
      for (gsize arrow = arrows->first[i]; arrow < arrows->first[i + 1]; arrow++)
        later[first[arrows->before[arrow] + 1]++] = i;
      if (waiting[i] == 0)
        taken[n++] = i;
    }
  for (gsize done = 0; done < n; done++)
    for (gsize arrow = first[taken[done]]; arrow < first[taken[done] + 1]; arrow++)
      if (--waiting[later[arrow]] == 0)
        taken[n++] = later[arrow];
  *n_taken = n;
  return waiting;
}

static gsize
step_back (const Arrows *arrows,
           const gsize  *waiting,
           gsize         step)
{
  gsize arrow = arrows->first[step];

  while (waiting[arrows->before[arrow]] == 0)
    arrow++;
  return arrows->before[arrow];
}

/* (transfer full): the steps of one circle in the order of work, the one listed first in front. */
static GArray *
find_circle (const Arrows *arrows,
             const gsize  *waiting)
{
  GArray *circle = g_array_new (FALSE, FALSE, sizeof (gsize));
  g_autofree gboolean *seen = g_new0 (gboolean, arrows->n);
  gsize step = 0;
  gsize first;

  while (waiting[step] == 0)
    step++;
  for (; !seen[step]; step = step_back (arrows, waiting, step))
    seen[step] = TRUE;
  first = step;
  for (gsize at = step_back (arrows, waiting, step); at != step; at = step_back (arrows, waiting, at))
    first = MIN (first, at);
  step = first;
  do
    {
      step = step_back (arrows, waiting, step);
      g_array_append_val (circle, step);
    }
  while (step != first);
  for (guint i = 0, j = circle->len - 1; i < j; i++, j--)
    {
      gsize kept = g_array_index (circle, gsize, i);
      g_array_index (circle, gsize, i) = g_array_index (circle, gsize, j);
      g_array_index (circle, gsize, j) = kept;
    }
  return circle;
}

static void
report_circle (const HwProject *project,
               const GArray    *circle,
               GError         **error)
{
  GString *way = g_string_new (NULL);
  g_autofree char *text = NULL;

  for (guint i = 0; i < circle->len; i++)
    {
      if (i == LISTED_MAX && circle->len > LISTED_MAX + 1)
        {
          g_string_append (way, "… → ");
          i = circle->len - 1;
        }
      g_string_append_printf (way, "%s → ", hw_project_get_step (project, g_array_index (circle, gsize, i))->number);
    }
  g_string_append (way, hw_project_get_step (project, g_array_index (circle, gsize, 0))->number);
  text = g_string_free (way, FALSE);
  g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_CIRCLE,
               _("steps wait for one another in a circle, %s; take one of these numbers out of “after”"), text);
}

gboolean
hw_check_after (const HwProject *project,
                gsize           *at,
                GError         **error)
{
  g_auto (Arrows) arrows = { 0 };
  g_autofree gsize *waiting = NULL;
  g_autoptr (GArray) circle = NULL;
  gsize n_taken = 0;

  if (!resolve_arrows (project, &arrows, at, error))
    return FALSE;
  waiting = take_all (&arrows, &n_taken);
  if (n_taken == arrows.n)
    return TRUE;
  circle = find_circle (&arrows, waiting);
  *at = g_array_index (circle, gsize, 0);
  report_circle (project, circle, error);
  return FALSE;
}
