/* formula.c - arithmetic over named values, by libxml2's XPath
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * XPath can do far more than reckon, and says little when it cannot: a name without "$" is a path that finds nothing
 * and becomes NaN, an unknown variable has no name in the error, an unknown function is told on stderr. So the text is
 * held to the characters that arithmetic needs, variables and functions are looked up here, where their names can be
 * kept, and the work is bounded.
 */

#define G_LOG_DOMAIN "hw-handbook"

#include "config.h"

#include "handbook/formula.h"

#include "files/xml.h"
#include "handbook/handbook.h"

#include <glib/gi18n.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>
#include <math.h>
#include <string.h>

#define LONGEST_TEXT 400
#define LONGEST_NAME 32
#define MOST_OPERATIONS 20000            /* of libxml2; a long formula takes a few hundred */

#define NAME_LETTERS "abcdefghijklmnopqrstuvwxyz0123456789_"
#define TEXT_LETTERS NAME_LETTERS "$.+-*(),<>=! \n\t"

struct _HwFormulas
{
  GHashTable      *values;               /* name -> double */
  GHashTable      *compiled;             /* text -> xmlXPathCompExpr: most are wanted again with other values */
  xmlDoc          *doc;                  /* empty: paths have somewhere to start and nowhere to go */
  xmlXPathContext *context;
  char            *unknown_value;        /* what the last evaluation asked for in vain */
  char            *unknown_function;
};

static const char * const functions[] = { "floor", "ceiling", "round", NULL };

static xmlXPathObject *
value_wanted_cb (void          *data,
                 const xmlChar *name,
                 const xmlChar *ns_uri)
{
  HwFormulas *self = data;
  const double *value = g_hash_table_lookup (self->values, name);

  if (value != NULL)
    return xmlXPathNewFloat (*value);
  if (self->unknown_value == NULL)
    self->unknown_value = g_strdup ((const char *) name);
  return NULL;
}

static void
refuse_function_cb (xmlXPathParserContext *context,
                    int                    n_arguments)
{
  xmlXPathErr (context, XPATH_UNKNOWN_FUNC_ERROR);
}

/* NULL lets libxml2 take its own function of that name. */
static xmlXPathFunction
function_wanted_cb (void          *data,
                    const xmlChar *name,
                    const xmlChar *ns_uri)
{
  HwFormulas *self = data;

  if (g_strv_contains (functions, (const char *) name))
    return NULL;
  if (self->unknown_function == NULL)
    self->unknown_function = g_strdup ((const char *) name);
  return refuse_function_cb;
}

static void
free_compiled (gpointer compiled)
{
  xmlXPathFreeCompExpr (compiled);
}

/* What went wrong is said by the caller, who knows more. */
static void
error_cb (void     *data,
          xmlError *found)
{
}

HwFormulas *
hw_formulas_new (void)
{
  HwFormulas *self = g_new0 (HwFormulas, 1);

  self->values = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->compiled = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, free_compiled);
  self->doc = xmlNewDoc ((const xmlChar *) "1.0");
  self->context = self->doc != NULL ? xmlXPathNewContext (self->doc) : NULL;
  if (self->context == NULL)
    g_error ("out of memory");
  self->context->node = (xmlNode *) self->doc;
  self->context->error = error_cb;
  self->context->opLimit = MOST_OPERATIONS;
  xmlXPathRegisterVariableLookup (self->context, value_wanted_cb, self);
  xmlXPathRegisterFuncLookup (self->context, function_wanted_cb, self);
  return self;
}

void
hw_formulas_clear (HwFormulas *self)
{
  g_return_if_fail (self != NULL);
  g_hash_table_remove_all (self->values);
}

void
hw_formulas_free (HwFormulas *self)
{
  if (self == NULL)
    return;
  xmlXPathFreeContext (self->context);
  xmlFreeDoc (self->doc);
  g_hash_table_unref (self->compiled);
  g_hash_table_unref (self->values);
  g_free (self->unknown_value);
  g_free (self->unknown_function);
  g_free (self);
}

gboolean
hw_formula_is_name (const char *name)
{
  return g_ascii_islower (*name) && strlen (name) <= LONGEST_NAME && strspn (name, NAME_LETTERS) == strlen (name);
}

void
hw_formulas_set (HwFormulas *self,
                 const char *name,
                 double      value)
{
  g_return_if_fail (self != NULL && hw_formula_is_name (name));
  g_hash_table_replace (self->values, g_strdup (name), g_memdup2 (&value, sizeof value));
}

static gboolean
refuse (GError    **error,
        int         code,
        const char *format,
        ...) G_GNUC_PRINTF (3, 4);

static gboolean
refuse (GError    **error,
        int         code,
        const char *format,
        ...)
{
  va_list arguments;

  va_start (arguments, format);
  if (error != NULL)
    *error = g_error_new_valist (HW_HANDBOOK_ERROR, code, format, arguments);
  va_end (arguments);
  return FALSE;
}

static int
compare_names (const void *a,
               const void *b)
{
  return strcmp (*(const char * const *) a, *(const char * const *) b);
}

static gboolean
refuse_value (HwFormulas *self,
              const char *shown,
              GError    **error)
{
  g_autofree const char **known = (const char **) g_hash_table_get_keys_as_array (self->values, NULL);
  g_autofree char *name = hw_xml_quote (self->unknown_value);
  g_autofree char *all = NULL;
  const char *near;

  qsort (known, g_hash_table_size (self->values), sizeof *known, compare_names);
  near = hw_xml_nearest (self->unknown_value, known);
  if (near != NULL)
    return refuse (error, HW_HANDBOOK_ERROR_UNKNOWN, _("“%s”: there is no “$%s” (did you mean “$%s”?)"),
                   shown, name, near);
  all = g_strjoinv (", $", (char **) known);
  if (*known == NULL)
    return refuse (error, HW_HANDBOOK_ERROR_UNKNOWN, _("“%s”: there is no “$%s”, nor any other measurement"), shown,
                   name);
  return refuse (error, HW_HANDBOOK_ERROR_UNKNOWN, _("“%s”: there is no “$%s”; there is $%s"), shown, name, all);
}

static gboolean
check_text (const char *text,
            GError    **error)
{
  gsize good = strspn (text, TEXT_LETTERS);
  gboolean is_long = strlen (text) > LONGEST_TEXT;
  g_autofree char *shown = NULL;
  g_autofree char *wrong = NULL;

  if (text[strspn (text, " \n\t")] == '\0')
    return refuse (error, HW_HANDBOOK_ERROR_INVALID, _("it is empty; write a number or arithmetic such as 2 * $side"));
  if (!is_long && text[good] == '\0')
    return TRUE;
  shown = hw_xml_quote (text);
  if (is_long)
    return refuse (error, HW_HANDBOOK_ERROR_INVALID, _("“%s”: at most %d characters are read; put part of it in a "
                                                       "<let>"), shown, LONGEST_TEXT);
  wrong = g_utf8_substring (text + good, 0, 1);
  return refuse (error, HW_HANDBOOK_ERROR_INVALID,
                 _("“%s”: “%s” has no place in it; write numbers, $names, + - * div mod, floor(), ceiling(), round()"),
                 shown, wrong);
}

/* NULL when it is not arithmetic. */
static xmlXPathCompExpr *
compile (HwFormulas *self,
         const char *text)
{
  xmlXPathCompExpr *compiled = g_hash_table_lookup (self->compiled, text);

  if (compiled != NULL)
    return compiled;
  compiled = xmlXPathCtxtCompile (self->context, (const xmlChar *) text);
  if (compiled != NULL)
    g_hash_table_insert (self->compiled, g_strdup (text), compiled);
  return compiled;
}

/* NULL when it could not be evaluated. */
static xmlXPathObject *
evaluate (HwFormulas *self,
          const char *text)
{
  xmlXPathCompExpr *compiled;

  g_clear_pointer (&self->unknown_value, g_free);
  g_clear_pointer (&self->unknown_function, g_free);
  self->context->opCount = 0;            /* it counts on from one evaluation to the next */
  compiled = compile (self, text);
  return compiled != NULL ? xmlXPathCompiledEval (compiled, self->context) : NULL;
}

static gboolean
refuse_failure (HwFormulas *self,
                const char *text,
                GError    **error)
{
  g_autofree char *shown = hw_xml_quote (text);
  g_autofree char *name = self->unknown_function != NULL ? hw_xml_quote (self->unknown_function) : NULL;

  if (self->unknown_value != NULL)
    return refuse_value (self, shown, error);
  if (name != NULL)
    return refuse (error, HW_HANDBOOK_ERROR_UNKNOWN,
                   _("“%s”: there is no function “%s”; there are floor(), ceiling() and round()"), shown, name);
  return refuse (error, HW_HANDBOOK_ERROR_INVALID,
                 _("“%s” is not arithmetic that can be read; look for a missing sign, name or bracket"), shown);
}

static gboolean
refuse_result (double      value,
               const char *text,
               GError    **error)
{
  g_autofree char *shown = hw_xml_quote (text);

  if (isnan (value))
    return refuse (error, HW_HANDBOOK_ERROR_INVALID,
                   _("“%s” comes to no number; write “$” before every name, and divide nothing by zero"), shown);
  if (isinf (value))
    return refuse (error, HW_HANDBOOK_ERROR_INVALID, _("“%s” divides by zero, or grows past all numbers"), shown);
  return refuse (error, HW_HANDBOOK_ERROR_INVALID, _("“%s” comes to %g; it must be over 0"), shown, value);
}

gboolean
hw_formulas_reckon (HwFormulas *self,
                    const char *text,
                    double     *value,
                    GError    **error)
{
  xmlXPathObject *result;
  gboolean counts;

  g_return_val_if_fail (self != NULL && text != NULL && value != NULL, FALSE);

  if (!check_text (text, error))
    return FALSE;
  result = evaluate (self, text);
  if (result == NULL)
    return refuse_failure (self, text, error);
  counts = result->type == XPATH_NUMBER;
  *value = counts ? result->floatval : NAN;
  xmlXPathFreeObject (result);
  if (isfinite (*value) && *value > 0)
    return TRUE;
  return refuse_result (*value, text, error);
}
