/* pair-command.c - handwheel pair: one set-up with its reasons, without a project
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A project of one operation is built from the options and planned like any other.
 */

#include "config.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include <glib/gi18n.h>

#include "command/command-private.h"
#include "words/words.h"

typedef struct
{
  char  **fabrics;
  char   *construction;
  double  mass_g_m2;
  double  thickness_mm;
  double  stretch_percent;
  double  grams;                 /* of a cut of that size */
  char   *cut;
  double  ruler_mm;              /* so many layers under a ruler */
  int     ruler_plies;
  int     plies;
  char   *purpose;
  char   *seam;
  char   *stitch;
  char   *thread;
  double  length_cm;
} PairOptions;

static void
clear_options (PairOptions *options)
{
  g_strfreev (options->fabrics);
  g_free (options->construction);
  g_free (options->cut);
  g_free (options->purpose);
  g_free (options->seam);
  g_free (options->stitch);
  g_free (options->thread);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PairOptions, clear_options)

static void
add_fabric (HwProject         *project,
            HwStep            *step,
            const PairOptions *options,
            gsize              index,
            const char        *handbook_id)
{
  g_autofree char *id = g_strdup_printf ("fabric-%" G_GSIZE_FORMAT, index + 1);
  HwProjectFabric *fabric = hw_project_fabric_new (id, handbook_id != NULL ? handbook_id : _("own fabric"));

  if (handbook_id != NULL)
    fabric->handbook = g_strdup (handbook_id);
  else
    fabric->construction = g_strdup (options->construction);
  if (index == 0)      /* what was measured is the first cloth */
    {
      fabric->mass_g_m2 = options->mass_g_m2;
      fabric->thickness_mm = options->thickness_mm;
      fabric->stretch_percent = options->stretch_percent;
    }
  g_ptr_array_add (project->fabrics, fabric);
  step->plies[index].fabric = g_strdup (id);
  step->plies[index].count = options->plies;
}

static HwProject *
build_project (const PairOptions *options)
{
  HwProject *project = hw_project_new ("pair", _("One set-up"));
  HwStep    *step = hw_step_new (HW_STEP_OPERATION, "1", options->purpose);
  gsize      n_fabrics = options->fabrics != NULL ? g_strv_length (options->fabrics) : 1;

  step->purpose = g_strdup (options->purpose);
  step->seam = g_strdup (options->seam);
  step->stitch = g_strdup (options->stitch);
  step->length_cm = options->length_cm;
  step->plies = g_new0 (HwPly, n_fabrics);
  step->n_plies = n_fabrics;
  for (gsize i = 0; i < n_fabrics; i++)
    add_fabric (project, step, options, i, options->fabrics != NULL ? options->fabrics[i] : NULL);

  g_ptr_array_set_size (project->threads, 0);
  if (options->thread != NULL)
    {
      g_ptr_array_add (project->threads, hw_project_thread_new ("thread", options->thread));
      step->needle_thread = g_strdup ("thread");
    }
  g_ptr_array_add (project->steps, step);
  project->share = FALSE;               /* the handbook's answer, whatever needle is in the machine or the case */
  return project;
}

/* ---- own cloth, by kitchen scales and a ruler ---- */

#define CM2_PER_M2 10000.0

/* "10x10" in centimetres, also with the sign of multiplication; its area, or 0. */
static double
read_cut_cm2 (const char *text)
{
  char  *end = NULL;
  double width = g_ascii_strtod (text, &end);
  double height = 0;

  if (end == text)
    return 0;
  if (g_str_has_prefix (end, "×"))
    text = end + strlen ("×");
  else if (*end == 'x' || *end == 'X')
    text = end + 1;
  else
    return 0;
  height = g_ascii_strtod (text, &end);
  if (end == text || *end != '\0' || !(width >= 1 && width <= 1000 && height >= 1 && height <= 1000))
    return 0;
  return width * height;
}

/* Mass and thickness from what was weighed and laid under a ruler. FALSE: usage was wrong, and it is said. */
static gboolean
take_measured (PairOptions *options,
               const char  *command,
               int         *status)
{
  double cm2 = options->cut != NULL ? read_cut_cm2 (options->cut) : 0;

  if ((options->grams != 0 || options->cut != NULL) && !(options->grams > 0 && cm2 > 0 && options->mass_g_m2 == 0))
    *status = hw_command_usage (command, _("weigh a cut with --grams G --cut 10x10 (its sides in cm), or give --mass"));
  else if ((options->ruler_mm != 0 || options->ruler_plies != 0)
           && !(options->ruler_mm > 0 && options->ruler_plies > 0 && options->thickness_mm == 0))
    *status = hw_command_usage (command, _("measure a pile with --pile 8 --pile-mm 4 (layers, mm under a "
                                           "ruler), or give --thickness"));
  else
    {
      if (cm2 > 0)
        options->mass_g_m2 = options->grams * CM2_PER_M2 / cm2;
      if (options->ruler_plies > 0)
        options->thickness_mm = options->ruler_mm / options->ruler_plies;
      return TRUE;
    }
  return FALSE;
}

/* ---- what is printed ---- */

/* Where the needle stands: its words, its kind, how far from the middle, why, and who says so. */
typedef struct
{
  char          *stands;                 /* NULL: nothing is said */
  HwNeedlePlace  kind;
  double         aside_mm;
  const HwSource *source;
} NeedlePlace;

static void
clear_needle_place (NeedlePlace *self)
{
  g_clear_pointer (&self->stands, g_free);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (NeedlePlace, clear_needle_place)

static NeedlePlace
find_needle_place (const HwPlan  *plan,
                   const HwSetup *setup)
{
  NeedlePlace self = { .stands = hw_words_needle_stands (plan, setup) };

  self.kind = hw_setup_needle_place (plan->handbook, setup, &self.aside_mm);
  if (self.stands != NULL)
    self.source = plan->handbook->feet[(gsize) setup->values[HW_FIELD_FOOT].value].entry.source;
  return self;
}

/* No field of its own: it follows from the foot, and so has no band. */
static void
add_needle_place (HwTable       *table,
                  const HwPlan  *plan,
                  const HwSetup *setup)
{
  g_auto (NeedlePlace) place = find_needle_place (plan, setup);

  if (place.stands == NULL)
    return;
  hw_table_text (table, _("Needle position"));
  hw_table_take (table, g_steal_pointer (&place.stands));
  hw_table_text (table, NULL);
  hw_table_text (table, hw_words_place_reason (place.kind));
  hw_table_take (table, hw_words_source (place.source));
  hw_table_text (table, hw_needle_place_ids[place.kind - HW_NEEDLE_CENTRE]);
  hw_table_number (table, place.aside_mm, NULL);
}

static HwTable *
build_table (const HwPlan  *plan,
             const HwSetup *setup)
{
  HwTable *table = hw_table_new ("set-up", "value");

  hw_table_add_column (table, "field", _("Value"), FALSE);
  hw_table_add_column (table, "set", _("Set"), FALSE);
  hw_table_add_column (table, "band", _("Band"), FALSE);
  hw_table_add_column (table, "why", _("Why"), FALSE);
  hw_table_add_column (table, "source", _("Source"), FALSE);
  hw_table_add_column (table, "place", _("Needle position"), FALSE);
  hw_table_add_column (table, "aside-mm", _("mm"), TRUE);

  for (HwField field = 0; field < HW_N_FIELDS; field++)
    {
      gboolean first = TRUE;

      if (!setup->values[field].applies)
        continue;
      for (guint i = 0; i < setup->reasons->len; i++)
        {
          const HwReason *reason = &g_array_index (setup->reasons, HwReason, i);

          if (reason->field != field)
            continue;
          hw_table_take (table, first ? hw_words_field_of (setup, field) : NULL);
          hw_table_take (table, first ? hw_words_value (plan, setup, field) : NULL);
          hw_table_take (table, first ? hw_words_band (plan, setup, field) : NULL);
          hw_table_take (table, hw_words_reason (plan, setup, reason));
          hw_table_take (table, hw_words_source (reason->source));
          hw_table_text (table, NULL);
          hw_table_text (table, NULL);
          first = FALSE;
        }
      if (first)
        {
          hw_table_take (table, hw_words_field_of (setup, field));
          hw_table_take (table, hw_words_value (plan, setup, field));
          hw_table_take (table, hw_words_band (plan, setup, field));
          for (int empty = 0; empty < 4; empty++)
            hw_table_text (table, NULL);
        }
      if (field == HW_FIELD_FOOT)
        add_needle_place (table, plan, setup);
    }
  return table;
}

static void
print_needle_place (const HwPlan  *plan,
                    const HwSetup *setup)
{
  g_auto (NeedlePlace) place = find_needle_place (plan, setup);
  g_autofree char *source = NULL;

  if (place.stands == NULL)
    return;
  source = hw_words_source (place.source);
  /* Translators: where the needle stands, why, and the source */
  printf (_("Needle position: %s\n    %s [%s]\n"), place.stands, hw_words_place_reason (place.kind), source);
}

/* Readable on a terminal: value and band on a line, the reasons below it. */
static void
print_people (const HwPlan  *plan,
              const HwSetup *setup)
{
  for (HwField field = 0; field < HW_N_FIELDS; field++)
    {
      g_autofree char *name = NULL;
      g_autofree char *value = NULL;
      g_autofree char *band = NULL;

      if (!setup->values[field].applies)
        continue;
      name = hw_words_field_of (setup, field);
      value = hw_words_value (plan, setup, field);
      band = hw_words_band (plan, setup, field);
      if (band != NULL && band[0] != '\0' && !g_str_equal (band, value))
        /* Translators: a field such as “Needle size”, its value, its band */
        printf (_("%s: %s (%s)\n"), name, value, band);
      else
        /* Translators: a field such as “Needle size”, its value */
        printf (_("%s: %s\n"), name, value);

      for (guint i = 0; i < setup->reasons->len; i++)
        {
          const HwReason *reason = &g_array_index (setup->reasons, HwReason, i);

          if (reason->field == field)
            {
              g_autofree char *sentence = hw_words_reason (plan, setup, reason);
              g_autofree char *source = hw_words_source (reason->source);

              printf ("    %s [%s]\n", sentence, source);
            }
        }
      if (field == HW_FIELD_FOOT)
        print_needle_place (plan, setup);
    }
  for (guint i = 0; i < setup->warnings->len; i++)
    {
      g_autofree char *text = hw_words_warning (plan, setup, &g_array_index (setup->warnings, HwWarning, i));

      /* Translators: a warning */
      printf (_("Mind: %s\n"), text);
    }
}

static int
pair (const PairOptions *options,
      const char        *room_folder,
      HwFormat           format)
{
  g_auto (HwCommandInputs) inputs = { 0 };
  g_autoptr (GError) error = NULL;
  int status = HW_EXIT_DONE;

  inputs.handbook = hw_command_handbook_load (&status);
  if (inputs.handbook != NULL)
    inputs.room = hw_command_room_open (room_folder, &status);
  if (inputs.room == NULL)
    return status;

  inputs.project = build_project (options);
  inputs.plan = hw_plan_new (inputs.handbook, inputs.project, inputs.room, &error);
  if (inputs.plan == NULL)
    return hw_command_fail (error);

  if (format == HW_FORMAT_PEOPLE)
    {
      print_people (inputs.plan, inputs.plan->setups[0]);
    }
  else
    {
      g_autoptr (HwTable) table = build_table (inputs.plan, inputs.plan->setups[0]);
      g_autofree char *text = hw_table_format (table, format);

      hw_command_print (text);
    }
  return HW_EXIT_DONE;
}

int
hw_command_pair (int    argc,
                 char **argv)
{
  g_auto (PairOptions) options = { .stretch_percent = -1, .plies = 2, .length_cm = 100 };
  g_autofree char *format_word = NULL;
  g_autofree char *room_folder = NULL;
  HwFormat         format = HW_FORMAT_PEOPLE;
  int              status = HW_EXIT_DONE;
  const GOptionEntry entries[] = {
    { "fabric", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options.fabrics,
      N_("a fabric of the handbook; may be repeated"), N_("ID") },
    { "construction", 0, 0, G_OPTION_ARG_STRING, &options.construction,
      N_("an own fabric's construction, instead of --fabric"), N_("ID") },
    { "mass", 0, 0, G_OPTION_ARG_DOUBLE, &options.mass_g_m2, N_("its mass as weighed"), N_("G/M²") },
    { "thickness", 0, 0, G_OPTION_ARG_DOUBLE, &options.thickness_mm,
      N_("one layer's thickness as measured"), N_("MM") },
    { "grams", 0, 0, G_OPTION_ARG_DOUBLE, &options.grams, N_("instead of --mass: what a cut of it weighs"), N_("G") },
    { "cut", 0, 0, G_OPTION_ARG_STRING, &options.cut, N_("the sides of that cut in cm"), N_("10x10") },
    { "pile", 0, 0, G_OPTION_ARG_INT, &options.ruler_plies,
      N_("instead of --thickness: so many layers, pressed lightly under a ruler"), N_("N") },
    { "pile-mm", 0, 0, G_OPTION_ARG_DOUBLE, &options.ruler_mm, N_("how thick that pile is"), N_("MM") },
    { "stretch", 0, 0, G_OPTION_ARG_DOUBLE, &options.stretch_percent, N_("its stretch by hand"), "%" },
    { "plies", 0, 0, G_OPTION_ARG_INT, &options.plies, N_("layers of each fabric (2)"), N_("N") },
    { "purpose", 0, 0, G_OPTION_ARG_STRING, &options.purpose, N_("what it is sewn for (seam)"), N_("ID") },
    { "seam", 0, 0, G_OPTION_ARG_STRING, &options.seam, N_("the seam, else the purpose's own"), N_("ID") },
    { "stitch", 0, 0, G_OPTION_ARG_STRING, &options.stitch, N_("the stitch, else the purpose's own"), N_("ID") },
    { "thread", 0, 0, G_OPTION_ARG_STRING, &options.thread,
      N_("the needle thread, else as the handbook pairs it"), N_("ID") },
    { "length", 0, 0, G_OPTION_ARG_DOUBLE, &options.length_cm, N_("centimetres sewn (100)"), N_("CM") },
    { "format", 0, 0, G_OPTION_ARG_STRING, &format_word, N_("table (for people), csv or xml"), N_("FORMAT") },
    { "room", 0, 0, G_OPTION_ARG_FILENAME, &room_folder, N_("the sewing room's folder"), N_("FOLDER") },
    G_OPTION_ENTRY_NULL,
  };

  if (!hw_command_parse (&argc, &argv, "", _("The set-up for one operation, each value with its reason and source."),
                         entries, &status))
    return status;
  if (argc > 1)
    return hw_command_usage (argv[0], _("“%s” is not an option; name the cloth with --fabric"), argv[1]);
  if ((options.fabrics == NULL) == (options.construction == NULL))
    return hw_command_usage (argv[0], _("name the cloth with --fabric ID, or an own one with --construction ID "
                                        "--mass G/M²"));
  if (!take_measured (&options, argv[0], &status))
    return status;
  if (options.construction != NULL && !(options.mass_g_m2 > 0 || options.thickness_mm > 0))
    return hw_command_usage (argv[0], _("an own fabric needs its mass or its thickness: --mass G/M², --thickness MM, "
                                        "or weighed and measured with --grams, --cut, --pile and --pile-mm"));
  if (options.mass_g_m2 < 0 || options.mass_g_m2 > 5000 || options.thickness_mm < 0 || options.thickness_mm > 50)
    return hw_command_usage (argv[0], _("a cloth weighs up to 5000 g/m² and is up to 50 mm thick"));
  if (options.plies < 1 || options.plies > 64)
    return hw_command_usage (argv[0], _("--plies is 1 to 64"));
  if (!(options.length_cm >= 0.1 && options.length_cm <= 100000))
    return hw_command_usage (argv[0], _("--length is 0.1 to 100000 cm"));
  if (!hw_command_get_format (argv[0], format_word, &format))
    return HW_EXIT_USAGE;
  if (options.purpose == NULL)
    options.purpose = g_strdup ("seam");

  return pair (&options, room_folder, format);
}
