/* read-garments.c - tables of sizes, and garments
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A garment is reckoned through when it is read: in its usual measurements, in every size, and with all measurements
 * at their lowest and at their highest. So a slip in its arithmetic is told when the handbook is loaded, and not when
 * someone has just given her measurements.
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/handbook-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define MOST_SIZES 32
#define LONGEST_MEASURE 100000           /* mm */
#define MOST_PLIES 64

const char * const hw_garment_hand_ids[] = { "press", "trim", "clip", "turn", "fuse", "tack", "hang", "sew", "other",
                                             NULL };

static const char * const nothing[] = { NULL };

/* ---- pieces of both ---- */

static gboolean
refuse_twice (HwReader      *reader,
              const xmlNode *node,
              const char    *what,
              GError       **error)
{
  g_autofree char *quoted = hw_xml_quote (what);

  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("there is already a “%s” before it; give this one another name"), quoted);
  return FALSE;
}

/* The name under which arithmetic knows a measurement. */
static gboolean
read_variable (HwReader      *reader,
               const xmlNode *node,
               char         **id,
               GError       **error)
{
  g_autofree char *quoted = NULL;

  *id = hw_xml_dup_required (reader->xml, node, "id", error);
  if (*id == NULL)
    return FALSE;
  if (hw_formula_is_name (*id))
    return TRUE;
  quoted = hw_xml_quote (*id);
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("“id” stands in arithmetic and must be lower-case letters, digits and “_”, a letter first; "
                      "it is “%s”"), quoted);
  return FALSE;
}

/* ---- sizes ---- */

static gboolean
read_size_names (HwReader      *reader,
                 const xmlNode *node,
                 HwSizes       *self,
                 GError       **error)
{
  self->names = hw_xml_dup_words (node, "names");
  self->n_sizes = g_strv_length (self->names);
  if (self->n_sizes < 1 || self->n_sizes > MOST_SIZES)
    {
      hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                        _("“names” must list the sizes, 1 to %d of them, with spaces between"), MOST_SIZES);
      return FALSE;
    }
  for (gsize i = 1; i < self->n_sizes; i++)
    for (gsize j = 0; j < i; j++)
      if (strcmp (self->names[i], self->names[j]) == 0)
        return refuse_twice (reader, node, self->names[i], error);
  return TRUE;
}

static gboolean
parse_value (const char *text,
             double     *value)
{
  char *end = NULL;

  if (*text == '\0' || strspn (text, "0123456789.") != strlen (text))
    return FALSE;
  *value = g_ascii_strtod (text, &end);
  return *end == '\0' && *value > 0 && *value <= LONGEST_MEASURE;
}

static gboolean
read_body_values (HwReader      *reader,
                  const xmlNode *node,
                  const HwSizes *sizes,
                  HwBody        *body,
                  GError       **error)
{
  g_auto (GStrv) words = hw_xml_dup_words (node, "values");
  gboolean good = g_strv_length (words) == sizes->n_sizes;

  body->values = g_new0 (double, sizes->n_sizes);
  for (gsize i = 0; good && i < sizes->n_sizes; i++)
    good = parse_value (words[i], &body->values[i]);
  if (!good)
    hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                      _("“values” must be %d numbers over 0, one for each size"), (int) sizes->n_sizes);
  return good;
}

static gboolean
read_body (HwReader      *reader,
           const xmlNode *node,
           HwSizes       *sizes,
           GError       **error)
{
  static const char * const attributes[] = { "id", "name", "values", NULL };
  HwBody *body = &sizes->bodies[sizes->n_bodies++];

  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, nothing, error)
      || !read_variable (reader, node, &body->id, error)
      || !hw_reader_title (reader, node, "measurement", &body->name, error)
      || !read_body_values (reader, node, sizes, body, error))
    return FALSE;
  for (gsize i = 0; i + 1 < sizes->n_bodies; i++)
    if (strcmp (sizes->bodies[i].id, body->id) == 0)
      return refuse_twice (reader, node, body->id, error);
  return TRUE;
}

gboolean
hw_read_sizes (HwReader      *reader,
               const xmlNode *node,
               void          *into,
               GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "names", NULL };
  static const char * const children[] = { "note", "body", NULL };
  HwSizes *self = into;

  if (!hw_reader_entry (reader, node, attributes, children, &self->entry, error)
      || !read_size_names (reader, node, self, error))
    return FALSE;
  self->bodies = g_new0 (HwBody, hw_xml_count (node, "body"));
  for (const xmlNode *child = hw_xml_first (node, "body"); child != NULL; child = hw_xml_next (child, "body"))
    if (!read_body (reader, child, self, error))
      return FALSE;
  if (self->n_bodies > 0)
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID,
                    _("there is no <body>; say what the sizes measure"));
  return FALSE;
}

void
hw_clear_sizes (void *entry)
{
  HwSizes *self = entry;

  hw_clear_entry (&self->entry);
  g_strfreev (self->names);
  for (gsize i = 0; i < self->n_bodies; i++)
    {
      g_free (self->bodies[i].id);
      g_free (self->bodies[i].name);
      g_free (self->bodies[i].values);
    }
  g_free (self->bodies);
}

/* ---- measurements ---- */

static gboolean
knows_variable (const HwGarment *self,
                const char      *id)
{
  for (gsize i = 0; i < self->n_measurements; i++)
    if (g_strcmp0 (self->measurements[i].id, id) == 0)
      return TRUE;
  for (gsize i = 0; i < self->n_lets; i++)
    if (g_strcmp0 (self->lets[i].id, id) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
find_body (HwReader        *reader,
           const xmlNode   *node,
           const HwGarment *self,
           int             *body,
           GError         **error)
{
  g_autofree char *id = hw_xml_dup_attr (node, "body");
  g_autofree char *quoted = id != NULL ? hw_xml_quote (id) : NULL;

  *body = -1;
  if (id == NULL)
    return TRUE;
  for (gsize i = 0; self->sizes != NULL && i < self->sizes->n_bodies; i++)
    if (strcmp (self->sizes->bodies[i].id, id) == 0)
      {
        *body = (int) i;
        return TRUE;
      }
  if (self->sizes != NULL)
    g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_UNKNOWN,
                 _("%s:%d: “body” names “%s”, and the sizes “%s” do not measure it"), hw_xml_name (reader->xml),
                 hw_xml_line (node), quoted, self->sizes->entry.id);
  else
    g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_UNKNOWN,
                 _("%s:%d: “body” names “%s”, and the garment has no “sizes”"), hw_xml_name (reader->xml),
                 hw_xml_line (node), quoted);
  return FALSE;
}

static gboolean
read_measurement (HwReader      *reader,
                  const xmlNode *node,
                  HwGarment     *garment,
                  GError       **error)
{
  static const char * const attributes[] = { "id", "name", "default", "low", "high", "counts", "body", NULL };
  static const HwField fields[] = {
    { "default", G_STRUCT_OFFSET (HwMeasurement, usual), 0.1, LONGEST_MEASURE, TRUE },
    { "low", G_STRUCT_OFFSET (HwMeasurement, low), 0.1, LONGEST_MEASURE, TRUE },
    { "high", G_STRUCT_OFFSET (HwMeasurement, high), 0.1, LONGEST_MEASURE, TRUE },
    { NULL, 0, 0, 0, FALSE }
  };
  HwMeasurement one = { 0 };
  HwMeasurement *self;
  HwBand band;

  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, nothing, error)
      || !read_variable (reader, node, &one.id, error))
    {
      g_free (one.id);
      return FALSE;
    }
  if (knows_variable (garment, one.id))
    {
      refuse_twice (reader, node, one.id, error);
      g_free (one.id);
      return FALSE;
    }
  self = &garment->measurements[garment->n_measurements++];
  *self = one;
  if (!hw_reader_title (reader, node, "measurement", &self->name, error)
      || !hw_reader_fields (reader, node, fields, self, error)
      || !hw_reader_flag (reader, node, "counts", &self->counts, error)
      || !find_body (reader, node, garment, &self->body, error))
    return FALSE;
  band = (HwBand) { self->low, self->usual, self->high };
  return hw_reader_band (reader, node, &band, "low, default, high", error);
}

static gboolean
read_let (HwReader      *reader,
          const xmlNode *node,
          HwGarment     *garment,
          GError       **error)
{
  static const char * const attributes[] = { "id", "value", NULL };
  g_autofree char *id = NULL;

  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, nothing, error)
      || !read_variable (reader, node, &id, error)
      || !hw_reader_required (reader, node, "value", error))
    return FALSE;
  if (knows_variable (garment, id))
    return refuse_twice (reader, node, id, error);
  garment->lets[garment->n_lets++] = (HwLet) { g_steal_pointer (&id), hw_xml_dup_attr (node, "value"),
                                               hw_xml_line (node) };
  return TRUE;
}

/* ---- roles ---- */

static gboolean
read_role (HwReader      *reader,
           const xmlNode *node,
           HwGarment     *garment,
           GError       **error)
{
  static const char * const attributes[] = { "id", "name", "fabric", NULL };
  HwRole *self = &garment->roles[garment->n_roles++];

  self->id = hw_xml_dup_required (reader->xml, node, "id", error);
  if (self->id == NULL
      || !hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, nothing, error)
      || !hw_reader_required (reader, node, "id", error)
      || !hw_reader_title (reader, node, "role", &self->name, error)
      || !hw_reader_required (reader, node, "fabric", error)
      || !hw_reader_reference (reader, node, "fabric", HW_TABLE_FABRIC, &self->fabric, error))
    return FALSE;
  return hw_garment_find_role (garment, self->id) == (int) garment->n_roles - 1
         || refuse_twice (reader, node, self->id, error);
}

static int
find_thread_role (const HwGarment *garment,
                  const char      *id)
{
  for (gsize i = 0; i < garment->n_threads; i++)
    if (g_strcmp0 (garment->threads[i].id, id) == 0)
      return (int) i;
  return -1;
}

static gboolean
read_thread_role (HwReader      *reader,
                  const xmlNode *node,
                  HwGarment     *garment,
                  GError       **error)
{
  static const char * const attributes[] = { "id", "thread", NULL };
  HwThreadRole *self = &garment->threads[garment->n_threads++];

  self->id = hw_xml_dup_required (reader->xml, node, "id", error);
  if (self->id == NULL
      || !hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, nothing, error)
      || !hw_reader_required (reader, node, "id", error)
      || !hw_reader_required (reader, node, "thread", error)
      || !hw_reader_reference (reader, node, "thread", HW_TABLE_THREAD, &self->thread, error))
    return FALSE;
  return find_thread_role (garment, self->id) == (int) garment->n_threads - 1
         || refuse_twice (reader, node, self->id, error);
}

/* ---- steps ---- */

static gboolean
refuse_unknown (HwReader      *reader,
                const xmlNode *node,
                const char    *attr,
                const char    *id,
                const char    *element,
                GError       **error)
{
  g_autofree char *quoted = hw_xml_quote (id);

  g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_UNKNOWN,
               _("%s:%d: “%s” names “%s”, and the garment has no such <%s>; add it or name one that there is"),
               hw_xml_name (reader->xml), hw_xml_line (node), attr, quoted, element);
  return FALSE;
}

static gboolean
read_plies (HwReader        *reader,
            const xmlNode   *parent,
            const HwGarment *garment,
            HwRolePly      **plies,
            gsize           *n_plies,
            GError         **error)
{
  static const char * const attributes[] = { "role", "count", NULL };

  *plies = g_new0 (HwRolePly, MAX (hw_xml_count (parent, "ply"), 1));
  for (const xmlNode *node = hw_xml_first (parent, "ply"); node != NULL; node = hw_xml_next (node, "ply"))
    {
      g_autofree char *role = hw_xml_dup_required (reader->xml, node, "role", error);
      HwRolePly *ply = &(*plies)[(*n_plies)++];

      ply->count = 1;
      if (role == NULL
          || !hw_xml_check_attributes (reader->xml, node, attributes, error)
          || !hw_reader_children (reader, node, nothing, error)
          || !hw_xml_get_int (reader->xml, node, "count", 1, MOST_PLIES, &ply->count, error))
        return FALSE;
      ply->role = hw_garment_find_role (garment, role);
      if (ply->role < 0)
        return refuse_unknown (reader, node, "role", role, "role", error);
    }
  return TRUE;
}

static gboolean
read_crossing (HwReader        *reader,
               const xmlNode   *node,
               const HwGarment *garment,
               HwGarmentStep   *step,
               GError         **error)
{
  static const char * const children[] = { "ply", NULL };
  const xmlNode *crossing = hw_xml_first (node, "crossing");

  if (crossing == NULL)
    return TRUE;
  if (hw_xml_next (crossing, "crossing") != NULL)
    return refuse_twice (reader, hw_xml_next (crossing, "crossing"), "crossing", error);
  return hw_xml_check_attributes (reader->xml, crossing, nothing, error)
         && hw_reader_children (reader, crossing, children, error)
         && read_plies (reader, crossing, garment, &step->crossing, &step->n_crossing, error);
}

/* Every step named stands before this one; so none runs in a circle. */
static gboolean
read_after (HwReader        *reader,
            const xmlNode   *node,
            const HwGarment *garment,
            HwGarmentStep   *step,
            GError         **error)
{
  step->after = hw_xml_dup_words (node, "after");
  for (char **number = step->after; *number != NULL; number++)
    {
      gboolean found = FALSE;
      g_autofree char *quoted = NULL;

      for (const HwGarmentStep *other = garment->steps; !found && other < step; other++)
        found = strcmp (other->number, *number) == 0;
      if (found)
        continue;
      quoted = hw_xml_quote (*number);
      g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_UNKNOWN,
                   _("%s:%d: “after” names step “%s”, and no step before this one has that number"),
                   hw_xml_name (reader->xml), hw_xml_line (node), quoted);
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_number (HwReader        *reader,
             const xmlNode   *node,
             const HwGarment *garment,
             HwGarmentStep   *step,
             GError         **error)
{
  step->number = hw_xml_dup_required (reader->xml, node, "number", error);
  if (step->number == NULL || !hw_reader_required (reader, node, "number", error))
    return FALSE;
  for (const HwGarmentStep *other = garment->steps; other < step; other++)
    if (strcmp (other->number, step->number) == 0)
      return refuse_twice (reader, node, step->number, error);
  return TRUE;
}

/* What both kinds of steps have. A note that is left out is none. */
static gboolean
read_common (HwReader        *reader,
             const xmlNode   *node,
             const HwGarment *garment,
             HwGarmentStep   *step,
             GError         **error)
{
  step->line = hw_xml_line (node);
  return read_number (reader, node, garment, step, error)
         && hw_reader_title (reader, node, "step", &step->name, error)
         && read_after (reader, node, garment, step, error)
         && (hw_xml_first (node, "note") == NULL
             || hw_reader_sentence (reader, node, "note", &step->note, error));
}

static gboolean
read_step_thread (HwReader        *reader,
                  const xmlNode   *node,
                  const HwGarment *garment,
                  const char      *attr,
                  int             *index,
                  GError         **error)
{
  g_autofree char *id = hw_xml_dup_attr (node, attr);

  *index = id != NULL ? find_thread_role (garment, id) : -1;
  return id == NULL || *index >= 0 || refuse_unknown (reader, node, attr, id, "thread", error);
}

static gboolean
read_operation (HwReader        *reader,
                const xmlNode   *node,
                const HwGarment *garment,
                HwGarmentStep   *step,
                GError         **error)
{
  static const char * const attributes[] = { "number", "name", "after", "purpose", "seam", "stitch", "length", "pieces",
                                             "needle-thread", "bobbin-thread", NULL };
  static const char * const children[] = { "note", "ply", "crossing", NULL };

  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, children, error)
      || !read_common (reader, node, garment, step, error)
      || !hw_reader_required (reader, node, "purpose", error)
      || !hw_reader_reference (reader, node, "purpose", HW_TABLE_PURPOSE, &step->purpose, error)
      || !hw_reader_reference (reader, node, "seam", HW_TABLE_SEAM, &step->seam, error)
      || !hw_reader_reference (reader, node, "stitch", HW_TABLE_STITCH, &step->stitch, error)
      || !hw_reader_required (reader, node, "length", error)
      || !read_step_thread (reader, node, garment, "needle-thread", &step->needle_thread, error)
      || !read_step_thread (reader, node, garment, "bobbin-thread", &step->bobbin_thread, error)
      || !read_plies (reader, node, garment, &step->plies, &step->n_plies, error)
      || !read_crossing (reader, node, garment, step, error))
    return FALSE;
  step->length = hw_xml_dup_attr (node, "length");
  step->pieces = hw_xml_dup_attr (node, "pieces");
  if (step->n_plies > 0)
    return TRUE;
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID, _("there is no <ply>; say what is sewn"));
  return FALSE;
}

static gboolean
read_hand (HwReader        *reader,
           const xmlNode   *node,
           const HwGarment *garment,
           HwGarmentStep   *step,
           GError         **error)
{
  static const char * const attributes[] = { "number", "name", "after", "kind", "minutes", NULL };
  static const char * const children[] = { "note", NULL };
  int kind = 0;

  step->by_hand = TRUE;
  step->purpose = step->seam = step->stitch = step->needle_thread = step->bobbin_thread = -1;
  if (!hw_xml_check_attributes (reader->xml, node, attributes, error)
      || !hw_reader_children (reader, node, children, error)
      || !read_common (reader, node, garment, step, error)
      || !hw_xml_get_required_word (reader->xml, node, "kind", hw_garment_hand_ids, &kind, error)
      || !hw_reader_required (reader, node, "minutes", error))
    return FALSE;
  step->kind = g_strdup (hw_garment_hand_ids[kind]);
  step->minutes = hw_xml_dup_attr (node, "minutes");
  return TRUE;
}

static gboolean
read_step (HwReader      *reader,
           const xmlNode *node,
           HwGarment     *garment,
           GError       **error)
{
  HwGarmentStep *step = &garment->steps[garment->n_steps++];

  return hw_xml_is (node, "hand") ? read_hand (reader, node, garment, step, error)
                                  : read_operation (reader, node, garment, step, error);
}

/* ---- the garment ---- */

static gboolean
read_sizes_of (HwReader      *reader,
               const xmlNode *node,
               HwGarment     *self,
               GError       **error)
{
  g_autofree char *size = hw_xml_dup_attr (node, "size");
  g_autofree char *quoted = size != NULL ? hw_xml_quote (size) : NULL;
  int index = -1;

  self->size = -1;
  if (!hw_reader_reference (reader, node, "sizes", HW_TABLE_SIZES, &index, error))
    return FALSE;
  if (index >= 0)
    {
      self->sizes = &reader->book->sizes[index];
      self->size = size != NULL ? hw_garment_find_size (self, size) : 0;
    }
  if (size == NULL || self->size >= 0)
    return TRUE;
  g_set_error (error, HW_HANDBOOK_ERROR, HW_HANDBOOK_ERROR_UNKNOWN,
               _("%s:%d: “size” is “%s”, and “sizes” names no table that has it"), hw_xml_name (reader->xml),
               hw_xml_line (node), quoted);
  return FALSE;
}

typedef gboolean (*ReadPart) (HwReader *reader, const xmlNode *node, HwGarment *self, GError **error);

static gboolean
read_parts (HwReader      *reader,
            const xmlNode *node,
            HwGarment     *self,
            GError       **error)
{
  static const struct { const char *element; ReadPart read; } parts[] = {
    { "measurement", read_measurement }, { "let", read_let }, { "role", read_role }, { "thread", read_thread_role },
    { "operation", read_step }, { "hand", read_step },
  };

  for (const xmlNode *child = hw_xml_first (node, NULL); child != NULL; child = hw_xml_next (child, NULL))
    for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
      if (hw_xml_is (child, parts[i].element) && !parts[i].read (reader, child, self, error))
        return FALSE;
  return TRUE;
}

static void
make_room (const xmlNode *node,
           HwGarment     *self)
{
  self->measurements = g_new0 (HwMeasurement, hw_xml_count (node, "measurement"));
  self->lets = g_new0 (HwLet, hw_xml_count (node, "let"));
  self->roles = g_new0 (HwRole, hw_xml_count (node, "role"));
  self->threads = g_new0 (HwThreadRole, hw_xml_count (node, "thread"));
  self->steps = g_new0 (HwGarmentStep, hw_xml_count (node, "operation") + hw_xml_count (node, "hand"));
}

/* @in: translated, where the measurements come from */
static gboolean
try_values (const HwGarment *self,
            HwFormulas      *formulas,
            const double    *values,
            const char      *in,
            GError         **error)
{
  g_autofree HwGarmentFigure *figures = hw_garment_reckon_with (self, formulas, values, error);

  if (figures != NULL)
    return TRUE;
  if (error != NULL && *error != NULL)
    {
      g_autofree char *message = g_steal_pointer (&(*error)->message);
      /* Translators: what is wrong, then in which measurements it showed */
      (*error)->message = g_strdup_printf (_("%s (in %s)"), message, in);
    }
  return FALSE;
}

static gboolean
try_extremes (const HwGarment *self,
              HwFormulas      *formulas,
              GError         **error)
{
  g_autofree double *low = hw_garment_dup_values (self, -1);
  g_autofree double *high = hw_garment_dup_values (self, -1);

  for (gsize i = 0; i < self->n_measurements; i++)
    {
      low[i] = self->measurements[i].low;
      high[i] = self->measurements[i].high;
    }
  return try_values (self, formulas, low, _("the lowest measurements"), error)
         && try_values (self, formulas, high, _("the highest measurements"), error);
}

static gboolean
try_out (const HwGarment *self,
         GError         **error)
{
  g_autoptr (HwFormulas) formulas = hw_formulas_new ();
  g_autofree double *usual = hw_garment_dup_values (self, -1);

  if (!try_values (self, formulas, usual, _("the usual measurements"), error))
    return FALSE;
  for (gsize i = 0; self->sizes != NULL && i < self->sizes->n_sizes; i++)
    {
      g_autofree double *values = hw_garment_dup_values (self, (int) i);
      /* Translators: a size such as 40 or M */
      g_autofree char *in = g_strdup_printf (_("size %s"), self->sizes->names[i]);

      if (!try_values (self, formulas, values, in, error))
        return FALSE;
    }
  return try_extremes (self, formulas, error);
}

gboolean
hw_read_garment (HwReader      *reader,
                 const xmlNode *node,
                 void          *into,
                 GError       **error)
{
  static const char * const attributes[] = { "id", "name", "source", "sizes", "size", NULL };
  static const char * const children[] = { "note", "measurement", "let", "role", "thread", "operation", "hand", NULL };
  HwGarment *self = into;

  if (!hw_reader_entry (reader, node, attributes, children, &self->entry, error)
      || !read_sizes_of (reader, node, self, error))
    return FALSE;
  make_room (node, self);
  if (!read_parts (reader, node, self, error))
    return FALSE;
  if (self->n_steps > 0)
    return try_out (self, error);
  hw_xml_set_error (reader->xml, node, error, HW_XML_ERROR_INVALID, _("there is no step; say how it is made"));
  return FALSE;
}

static void
clear_step (HwGarmentStep *step)
{
  g_free (step->number);
  g_free (step->name);
  g_strfreev (step->after);
  g_free (step->note);
  g_free (step->length);
  g_free (step->pieces);
  g_free (step->plies);
  g_free (step->crossing);
  g_free (step->kind);
  g_free (step->minutes);
}

void
hw_clear_garment (void *entry)
{
  HwGarment *self = entry;

  hw_clear_entry (&self->entry);
  for (gsize i = 0; i < self->n_measurements; i++)
    {
      g_free (self->measurements[i].id);
      g_free (self->measurements[i].name);
    }
  for (gsize i = 0; i < self->n_lets; i++)
    {
      g_free (self->lets[i].id);
      g_free (self->lets[i].value);
    }
  for (gsize i = 0; i < self->n_roles; i++)
    {
      g_free (self->roles[i].id);
      g_free (self->roles[i].name);
    }
  for (gsize i = 0; i < self->n_threads; i++)
    g_free (self->threads[i].id);
  for (gsize i = 0; i < self->n_steps; i++)
    clear_step (&self->steps[i]);
  g_free (self->measurements);
  g_free (self->lets);
  g_free (self->roles);
  g_free (self->threads);
  g_free (self->steps);
}
