/* new-command.c - handwheel new: a project from a garment of the handbook
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "model/garment-project.h"
#include "words/words.h"

#define MM_PER_CM 10.0
#define MM_PER_INCH 25.4
#define SUFFIX ".handwheel"

typedef struct
{
  char  *garment;
  char  *size;
  char **measures;               /* "waist=72", "waist=28in" */
  char **fabrics;                /* "shell=denim" */
  char  *title;
  char  *output;
} NewOptions;

static void
clear_options (NewOptions *options)
{
  g_free (options->garment);
  g_free (options->size);
  g_strfreev (options->measures);
  g_strfreev (options->fabrics);
  g_free (options->title);
  g_free (options->output);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (NewOptions, clear_options)

static gboolean
refuse (GError    **error,
        const char *format,
        ...) G_GNUC_PRINTF (2, 3);

static gboolean
refuse (GError    **error,
        const char *format,
        ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID, text);
  return FALSE;
}

/* ---- the garment and its size ---- */

static char *
list_ids (const HwGarment *garment)
{
  g_autoptr (GString) list = g_string_new (NULL);

  for (gsize i = 0; i < garment->n_measurements; i++)
    g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", garment->measurements[i].id);
  return g_string_free (g_steal_pointer (&list), FALSE);
}

static const HwGarment *
find_garment (const HwHandbook *handbook,
              const char       *id,
              GError          **error)
{
  int             index = hw_handbook_find_garment (handbook, id);
  g_autofree char *near = NULL;

  if (index >= 0)
    return &handbook->garments[index];
  near = hw_handbook_nearest_id (handbook, "garment", id);
  if (near != NULL)
    refuse (error, _("the handbook has no garment “%s”; did you mean “%s”?"), id, near);
  else
    refuse (error, _("the handbook has no garment “%s”; “handwheel handbook” lists them"), id);
  return NULL;
}

static gboolean
find_size (const HwGarment *garment,
           const char      *name,
           int             *size,
           GError         **error)
{
  g_autofree char *sizes = NULL;

  *size = garment->size;
  if (name == NULL)
    return TRUE;
  if (garment->sizes == NULL)
    return refuse (error, _("“%s” has no table of sizes; leave --size out and give its measurements with --measure"),
                   garment->entry.id);
  *size = hw_garment_find_size (garment, name);
  if (*size >= 0)
    return TRUE;
  sizes = g_strjoinv (" ", garment->sizes->names);
  return refuse (error, _("“%s” is made in the sizes %s, not “%s”"), garment->entry.id, sizes, name);
}

/* ---- measurements ---- */

/* A number, in centimetres unless "in" stands behind it; what is counted has no unit. */
static gboolean
parse_value (const HwMeasurement *measurement,
             const char          *text,
             double              *value)
{
  char *end = NULL;

  *value = g_ascii_strtod (text, &end);
  if (end == text || !isfinite (*value))
    return FALSE;
  if (measurement->counts)
    return *end == '\0' && *value == floor (*value);
  if (g_str_equal (end, "in"))
    *value *= MM_PER_INCH;
  else if (*end == '\0' || g_str_equal (end, "cm"))
    *value *= MM_PER_CM;
  else
    return FALSE;
  return TRUE;
}

static gboolean
take_measure (const HwGarment *garment,
              const char      *word,
              double          *values,
              GError         **error)
{
  const char      *equals = strchr (word, '=');
  g_autofree char *id = equals != NULL ? g_strndup (word, (gsize) (equals - word)) : g_strdup (word);
  int              index = hw_garment_find_measurement (garment, id);
  g_autofree char *ids = list_ids (garment);
  const HwMeasurement *measurement;
  double           unit;

  if (index < 0)
    return refuse (error, _("“%s” has no measurement “%s”; it has %s"), garment->entry.id, id, ids);
  measurement = &garment->measurements[index];
  unit = measurement->counts ? 1 : MM_PER_CM;
  if (equals == NULL || !parse_value (measurement, equals + 1, &values[index]))
    return measurement->counts
      ? refuse (error, _("--measure %s=N wants a whole number, not “%s”"), id, equals != NULL ? equals + 1 : "")
      : refuse (error, _("--measure %s=CM wants centimetres, or inches with “in” behind them, not “%s”"), id,
                equals != NULL ? equals + 1 : "");
  if (values[index] < measurement->low || values[index] > measurement->high)
    return measurement->counts
      ? refuse (error, _("%s is %g to %g, not %g"), id, measurement->low, measurement->high, values[index])
      : refuse (error, _("%s is %g to %g cm, not %g cm"), id, measurement->low / unit, measurement->high / unit,
                values[index] / unit);
  return TRUE;
}

/* ---- fabrics ---- */

static gboolean
take_fabric (const HwGarment *garment,
             const char      *word,
             char           **fabrics,
             GError         **error)
{
  const char         *equals = strchr (word, '=');
  g_autofree char    *id = equals != NULL ? g_strndup (word, (gsize) (equals - word)) : g_strdup (word);
  int                 index = hw_garment_find_role (garment, id);
  g_autoptr (GString) roles = g_string_new (NULL);

  if (index >= 0 && equals != NULL)
    {
      g_free (fabrics[index]);
      fabrics[index] = g_strdup (equals + 1);
      return TRUE;
    }
  for (gsize i = 0; i < garment->n_roles; i++)
    g_string_append_printf (roles, "%s%s", i > 0 ? ", " : "", garment->roles[i].id);
  return refuse (error, _("--fabric wants PART=ID; the parts of “%s” are %s, not “%s”"), garment->entry.id, roles->str,
                 id);
}

/* ---- the project ---- */

/* The file's name is the project's id where it is fit for one. */
static char *
make_id (const char *path)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autoptr (GString) id = g_string_new (NULL);

  if (g_str_has_suffix (name, SUFFIX))
    name[strlen (name) - strlen (SUFFIX)] = '\0';
  for (const char *p = name; *p != '\0' && id->len < 60; p++)
    g_string_append_c (id, g_ascii_isalnum (*p) ? g_ascii_tolower (*p) : '-');
  if (id->len == 0 || !g_ascii_isalpha (id->str[0]))
    g_string_prepend (id, "p-");
  return g_string_free (g_steal_pointer (&id), FALSE);
}

static HwProject *
make_project (const HwHandbook *handbook,
              const NewOptions *options,
              GError          **error)
{
  const HwGarment *garment = find_garment (handbook, options->garment, error);
  g_autofree double *values = NULL;
  g_auto (GStrv)   fabrics = NULL;
  g_autofree char *id = make_id (options->output);
  int              size = -1;

  if (garment == NULL || !find_size (garment, options->size, &size, error))
    return NULL;
  values = hw_garment_dup_values (garment, size);
  fabrics = g_new0 (char *, garment->n_roles + 1);
  for (gsize i = 0; i < garment->n_roles; i++)
    fabrics[i] = g_strdup (handbook->fabrics[garment->roles[i].fabric].entry.id);
  for (char **word = options->measures; word != NULL && *word != NULL; word++)
    if (!take_measure (garment, *word, values, error))
      return NULL;
  for (char **word = options->fabrics; word != NULL && *word != NULL; word++)
    if (!take_fabric (garment, *word, fabrics, error))
      return NULL;
  return hw_garment_make (handbook, garment, values, (const char * const *) fabrics, options->title, id, error);
}

static int
write_project (const HwHandbook *handbook,
               const NewOptions *options)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwProject) project = make_project (handbook, options, &error);
  g_autofree char *metres = NULL;
  g_autofree char *text = NULL;
  double           cm = 0;

  if (project == NULL)
    return hw_command_fail (error);
  if (g_file_test (options->output, G_FILE_TEST_EXISTS))
    {
      refuse (&error, _("%s: is there already; name another file, or take that one away"), options->output);
      return hw_command_fail (error);
    }
  if (!hw_project_write (project, options->output, &error))
    return hw_command_fail (error);
  for (guint i = 0; i < project->steps->len; i++)
    cm += hw_project_get_step (project, i)->length_cm;
  metres = hw_words_metres (cm / 100);
  /* Translators: a file, how many steps, metres */
  text = g_strdup_printf (ngettext ("%s: %u step, %s to sew\n", "%s: %u steps, %s to sew\n", project->steps->len),
                          options->output, project->steps->len, metres);
  hw_command_print (text);
  return HW_EXIT_DONE;
}

int
hw_command_new (int    argc,
                char **argv)
{
  g_auto (NewOptions) options = { 0 };
  g_autoptr (HwHandbook) handbook = NULL;
  int status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "garment", 0, 0, G_OPTION_ARG_STRING, &options.garment, N_("a garment of the handbook"), N_("ID") },
    { "size", 0, 0, G_OPTION_ARG_STRING, &options.size, N_("a size of its table, else its usual one"), N_("S") },
    { "measure", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options.measures,
      N_("an own measurement: waist=72 (cm) or waist=28in; may be repeated"), N_("NAME=CM") },
    { "fabric", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options.fabrics,
      N_("the fabric of a part, else the handbook's; may be repeated"), N_("PART=ID") },
    { "title", 0, 0, G_OPTION_ARG_STRING, &options.title, N_("the project's title, else the garment's name"),
      N_("TEXT") },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &options.output, N_("the project file to write"), N_("FILE") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, "", _("A project from a garment: its steps, with lengths by your measurements.\n"
                                             "“handwheel handbook garment/skirt” tells a garment's measurements and "
                                             "parts."), entries, &status))
    return status;
  if (argc > 1)
    return hw_command_usage (argv[0], _("“%s” is not an option"), argv[1]);
  if (options.garment == NULL)
    return hw_command_usage (argv[0], _("name the garment with --garment ID; “handwheel handbook” lists them"));
  if (options.output == NULL)
    return hw_command_usage (argv[0], _("name the file to write with -o FILE"));
  handbook = hw_command_handbook_load (&status);
  return handbook != NULL ? write_project (handbook, &options) : status;
}
