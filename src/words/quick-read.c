/* quick-read.c - reading the fields of a step typed in one row
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/quick-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "words/words.h"

#define MOST_LAYERS 64
#define CM_PER_INCH 2.54
#define MOST_PIECES 10000

/* ---- layers ---- */

static const char *
skip_times (const char *text)
{
  const char *after = g_str_has_prefix (text, "×") ? text + strlen ("×") : text;

  if (after == text && (*text == 'x' || *text == 'X') && !g_ascii_isalpha (text[1]))
    after = text + 1;
  while (*after == ' ')
    after++;
  return after;
}

/* The number that @text begins with; 0: none. *@rest: what follows. */
static int
read_count (const char  *text,
            const char **rest)
{
  char  *end = NULL;
  gint64 count = g_ascii_isdigit (*text) ? g_ascii_strtoll (text, &end, 10) : 0;

  if (end == NULL)
    {
      *rest = text;
      return 0;
    }
  while (*end == ' ')
    end++;
  *rest = skip_times (end);
  return (int) CLAMP (count, 0, MOST_LAYERS + 1);
}

gsize
hw_quick_last_fabric (const char *text)
{
  const char *plus = strrchr (text, '+');
  const char *part = plus != NULL ? plus + 1 : text;
  const char *name = NULL;

  while (*part == ' ')
    part++;
  read_count (part, &name);
  return (gsize) (name - text);
}

/* The last, where there are fewer. */
static const char *
get_fabric_name (const HwProject *project,
                 guint            place)
{
  return ((const HwProjectFabric *) project->fabrics->pdata[MIN (place, project->fabrics->len - 1)])->name;
}

static const char *
find_fabric (const HwProject *project,
             const HwFind    *find,
             const char      *name,
             guint            place,
             GError         **error)
{
  g_autoptr (GPtrArray) found = name[0] != '\0' ? hw_find_ask (find, name, 1, NULL) : NULL;

  if (found != NULL && found->len > 0)
    return ((const HwFindThing *) found->pdata[0])->target;
  if (name[0] == '\0' && place < project->fabrics->len)
    return ((const HwProjectFabric *) project->fabrics->pdata[place])->id;
  if (project->fabrics->len == 0)
    g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                         _("An operation joins layers of a fabric. Add a fabric first, then the step."));
  else if (name[0] == '\0')
    g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                         _("There are more numbers than the project has fabrics. Write a fabric’s name after its "
                           "number."));
  else
    g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID,
                 _("The project has no fabric “%s”. Type a few letters of one that stands above; two are written "
                   "“1 %s + 1 %s”."), name, get_fabric_name (project, 0), get_fabric_name (project, 1));
  return NULL;
}

static void
add_layers (HwStep     *step,
            const char *fabric,
            int         count)
{
  for (gsize i = 0; i < step->n_plies; i++)
    if (g_str_equal (step->plies[i].fabric, fabric))
      {
        step->plies[i].count += count;
        return;
      }
  step->plies = g_renew (HwPly, step->plies, step->n_plies + 1);
  step->plies[step->n_plies++] = (HwPly) { g_strdup (fabric), count };
}

/* “1 corduroy, 1 lawn” with a plus; the comma of “Lining, acetate or cupro” stays. (transfer full) */
static char *
put_plus (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at++)
    {
      gboolean between = *at == ',' && g_ascii_isdigit (at[1 + strspn (at + 1, " ")]);

      g_string_append_c (out, between ? '+' : *at);
    }
  return g_string_free (out, FALSE);
}

static void
add_usual_layers (HwStep              *step,
                  const HwQuickLayers *usual)
{
  for (gsize i = 0; i < usual->n; i++)
    add_layers (step, usual->fabrics[i]->id, usual->counts[i]);
}

gboolean
hw_quick_read_layers (const HwQuick      *self,
                      const HwProject    *project,
                      const char         *text,
                      const HwQuickGuess *guess,
                      HwStep             *step,
                      GError            **error)
{
  g_autoptr (HwFind) find = hw_quick_find_fabrics (project);
  gboolean           blank = text[strspn (text, " ")] == '\0';
  g_autofree char   *plain = put_plus (text);
  g_auto (GStrv)     parts = g_strsplit (blank ? " " : plain, "+", -1);
  HwQuickGuess       said = *guess;
  HwQuickLayers      usual;

  if (!blank)
    said.layers = 0;                     /* how many is said: the name tells of which alone */
  hw_quick_usual_layers (self, project, step->name, &said, &usual);
  if (blank && usual.n > 0)
    add_usual_layers (step, &usual);
  for (guint i = 0; (!blank || usual.n == 0) && parts[i] != NULL; i++)
    {
      const char *name = NULL;
      int         n = read_count (g_strstrip (parts[i]), &name);
      const char *fabric = parts[1] == NULL && name[0] == '\0' && usual.n == 1
                           ? usual.fabrics[0]->id
                           : find_fabric (project, find, name, i, error);

      if (fabric == NULL)
        return FALSE;
      if (n == 0)
        n = parts[1] == NULL ? MAX (guess->layers, 1) : 1;
      if (n > MOST_LAYERS)
        {
          g_set_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("At most %d layers of a fabric, please."),
                       MOST_LAYERS);
          return FALSE;
        }
      add_layers (step, fabric, n);
    }
  return TRUE;
}

/* ---- lengths, minutes, numbers ---- */

typedef struct { const char *name; double of; } Unit;

/* A number with one of @units behind it; the first of them counts where none is written. FALSE: neither. */
static gboolean
read_with_unit (const char *text,
                const Unit *units,
                gsize       n_units,
                double     *value)
{
  g_autofree char *tidy = g_strstrip (g_strdup (text));

  for (gsize i = 0; i < n_units; i++)
    if (g_str_has_suffix (tidy, units[i].name))
      {
        g_autofree char *number = g_strndup (tidy, strlen (tidy) - strlen (units[i].name));

        if (hw_words_parse_number (g_strstrip (number), value))
          {
            *value *= units[i].of;
            return *value > 0;
          }
      }
  if (!hw_words_parse_number (tidy, value))
    return FALSE;
  *value *= units[0].of;
  return *value > 0;
}

static gboolean
read_cm (const char *text,
         double     *cm)
{
  static const Unit metric[] = { { "cm", 1 }, { "mm", 0.1 }, { "m", 100 }, { "in", CM_PER_INCH },
                                 { "″", CM_PER_INCH }, { "\"", CM_PER_INCH } };
  static const Unit inches[] = { { "in", CM_PER_INCH }, { "″", CM_PER_INCH }, { "\"", CM_PER_INCH }, { "cm", 1 },
                                 { "mm", 0.1 }, { "yd", 36 * CM_PER_INCH }, { "m", 100 } };

  return hw_words_are_inches () ? read_with_unit (text, inches, G_N_ELEMENTS (inches), cm)
                                : read_with_unit (text, metric, G_N_ELEMENTS (metric), cm);
}

/* “6 × 2 cm”: six pieces of it. FALSE: not so written. */
static gboolean
read_pieces (const char *text,
             int        *pieces,
             double     *cm)
{
  g_auto (GStrv)   signs = g_strsplit (text, "×", 2);
  g_autofree char *plain = g_strdelimit (g_strjoinv ("x", signs), "X*", 'x');
  g_auto (GStrv)   parts = g_strsplit (plain, "x", 2);
  guint64          n = 0;

  if (g_strv_length (parts) != 2
      || !g_ascii_string_to_unsigned (g_strstrip (parts[0]), 10, 1, MOST_PIECES, &n, NULL) || !read_cm (parts[1], cm))
    return FALSE;
  *pieces = (int) n;
  *cm *= (double) n;
  return TRUE;
}

static const char *
ask_length (gboolean buttonholes)
{
  if (buttonholes)
    return hw_words_are_inches () ? _("How many buttonholes, and how long is each? Such as 6 × 0.75 in.")
                                  : _("How many buttonholes, and how long is each? Such as 6 × 2 cm.");
  return hw_words_are_inches () ? _("How long is the stitching, all pieces together? Such as 54 in or 2 × 27 in.")
                                : _("How long is the stitching, all pieces together? Such as 136 cm or 2 × 68 cm.");
}

gboolean
hw_quick_read_length (const char *text,
                      gboolean    buttonholes,
                      HwStep     *step,
                      GError    **error)
{
  double number;
  gboolean bare = hw_words_parse_number (text, &number);         /* of buttonholes: how many, or how long? */

  if (!read_pieces (text, &step->pieces, &step->length_cm)
      && ((buttonholes && bare) || !read_cm (text, &step->length_cm)))
    {
      g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, ask_length (buttonholes));
      return FALSE;
    }
  if (buttonholes)
    step->length_cm *= 2;                /* sewn along both sides of the opening */
  return TRUE;
}

gboolean
hw_quick_read_minutes (const char *text,
                       double     *minutes,
                       GError    **error)
{
  static const Unit units[] = { { "min", 1 }, { "h", 60 } };

  if (read_with_unit (text, units, G_N_ELEMENTS (units), minutes))
    return TRUE;
  g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, _("How many minutes does it take? Such as 5."));
  return FALSE;
}

char **
hw_quick_read_numbers (const char *text)
{
  g_autofree char         *spaced = g_strdelimit (g_strdup (text), ",;", ' ');
  g_auto (GStrv)           words = g_strsplit (spaced, " ", -1);
  g_autoptr (GStrvBuilder) numbers = g_strv_builder_new ();

  for (char **word = words; *word != NULL; word++)
    if (**word != '\0')
      g_strv_builder_add (numbers, *word);
  return g_strv_builder_end (numbers);
}
