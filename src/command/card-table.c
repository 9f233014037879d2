/* card-table.c - setup cards as rows, for other programs
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "command/card-table.h"

#include <glib/gi18n.h>

#include "words/words.h"

static HwTable *
new_table (const HwPlan *plan)
{
  HwTable *table = hw_table_new ("cards", "card");

  hw_table_fact (table, "project", plan->project->id);
  hw_table_fact (table, "title", plan->project->title);
  hw_table_add_column (table, "setup", _("Set-up"), FALSE);
  hw_table_add_column (table, "machine", _("Machine"), FALSE);
  hw_table_add_column (table, "step", _("Step"), FALSE);
  hw_table_add_column (table, "name", _("Name"), FALSE);
  hw_table_add_column (table, "point", _("Point"), FALSE);
  hw_table_add_column (table, "needle-nm", _("Needle"), TRUE);
  hw_table_add_column (table, "needle-thread", _("Needle thread"), FALSE);
  hw_table_add_column (table, "bobbin-thread", _("Bobbin thread"), FALSE);
  hw_table_add_column (table, "stitch", _("Stitch"), FALSE);
  hw_table_add_column (table, "length-mm", _("Length"), TRUE);
  hw_table_add_column (table, "width-mm", _("Width"), TRUE);
  hw_table_add_column (table, "dial", _("Dial"), TRUE);
  hw_table_add_column (table, "dial-low", _("Dial from"), TRUE);
  hw_table_add_column (table, "dial-high", _("to"), TRUE);
  hw_table_add_column (table, "foot", _("Foot"), FALSE);
  hw_table_add_column (table, "pressure", _("Pressure"), TRUE);
  hw_table_add_column (table, "sewn-cm", _("cm"), TRUE);
  return table;
}

static void
add_number (HwTable  *table,
            gboolean  applies,
            double    value)
{
  if (applies)
    hw_table_number (table, value, hw_words_number (value, 2));
  else
    hw_table_text (table, NULL);
}

static void
add_step (HwTable       *table,
          const HwPlan  *plan,
          const HwGroup *group,
          gsize          index)
{
  const HwStep  *step = hw_project_get_step (plan->project, index);
  const HwSetup *setup = plan->setups[index];
  const HwValue *dial = &setup->values[HW_FIELD_DIAL];

  hw_table_text (table, group->letter);
  hw_table_text (table, setup->machine->id);
  hw_table_text (table, step->number);
  hw_table_text (table, step->name);
  hw_table_text (table, plan->handbook->points[group->point].entry.id);
  add_number (table, TRUE, group->size_nm);
  hw_table_take (table, hw_words_thread (&setup->needle_thread));
  hw_table_take (table, hw_words_thread (&setup->bobbin_thread));
  hw_table_text (table, setup->stitch->entry.id);
  add_number (table, setup->values[HW_FIELD_LENGTH].applies, setup->values[HW_FIELD_LENGTH].value);
  add_number (table, setup->values[HW_FIELD_WIDTH].applies, setup->values[HW_FIELD_WIDTH].value);
  add_number (table, dial->applies, dial->value);
  add_number (table, dial->applies, dial->low);
  add_number (table, dial->applies, dial->high);
  hw_table_text (table, group->foot >= 0 ? plan->handbook->feet[group->foot].entry.id : NULL);
  add_number (table, setup->values[HW_FIELD_PRESSURE].applies, setup->values[HW_FIELD_PRESSURE].value);
  add_number (table, TRUE, step->length_cm);
}

char *
hw_command_format_cards (const HwPlan *plan,
                         const GArray *groups,
                         HwFormat      format)
{
  g_autoptr (HwTable) table = new_table (plan);

  for (guint i = 0; i < plan->groups->len; i++)
    {
      const HwGroup *group = plan->groups->pdata[i];
      gboolean       wanted = groups->len == 0;

      for (guint j = 0; j < groups->len; j++)
        wanted = wanted || g_array_index (groups, int, j) == (int) i;
      for (guint j = 0; wanted && j < group->members->len; j++)
        add_step (table, plan, group, g_array_index (group->members, gsize, j));
    }
  return hw_table_format (table, format);
}
