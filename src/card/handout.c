/* handout.c - a class handout: the same project's cards for each machine of a class, each with its own dial
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A student's machine is another one of the same kind. The project is planned for it as if its owner had chosen it, so
 * that nothing on the card is told apart from a card of one's own.
 */

#include "config.h"

#include "card/sheets-private.h"
#include "model/edit.h"

#include <glib/gi18n.h>

#define HANDOUT_ID "class-handout"      /* what the teacher has sewn already a student has not */

/* The numbers of what is sewn on a machine of that kind. (transfer full) */
static char **
list_steps (const HwPlan *plan,
            HwMachineKind kind)
{
  g_autoptr (GStrvBuilder) numbers = g_strv_builder_new ();

  for (guint i = 0; i < plan->order->len; i++)
    {
      const HwPlanStep *planned = &g_array_index (plan->order, HwPlanStep, i);
      const HwGroup *group = hw_plan_get_group (plan, planned->group);

      if (group != NULL && group->machine->kind == kind)
        g_strv_builder_add (numbers, hw_project_get_step (plan->project, planned->step)->number);
    }
  return g_strv_builder_end (numbers);
}

static const HwMachine *
find_machine (const HwRoom *room,
              const char   *id)
{
  for (guint i = 0; i < room->machines->len; i++)
    if (g_str_equal (((HwMachine *) room->machines->pdata[i])->id, id))
      return room->machines->pdata[i];
  return NULL;
}

/* (transfer full): @plan's project, planned for @machine. */
static HwPlan *
plan_for (const HwPlan    *plan,
          const HwMachine *machine,
          GError         **error)
{
  HwStepChange change = { .machine = machine->id };
  g_auto (GStrv) numbers = list_steps (plan, machine->kind);
  g_autoptr (HwProject) unsewn = NULL;
  g_autoptr (HwProject) project = NULL;

  if (numbers[0] == NULL)
    {
      g_set_error (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING,
                   _("Nothing of this project is sewn on a machine such as “%s”; take it out of the handout"),
                   machine->name);
      return NULL;
    }
  unsewn = hw_edit_set_id (plan->project, HANDOUT_ID, error);
  project = unsewn != NULL ? hw_edit_change_steps (unsewn, (const char * const *) numbers, &change, error) : NULL;
  return project != NULL ? hw_plan_new (plan->handbook, project, plan->room, error) : NULL;
}

static gboolean
add_machine (HwSheets     *sheets,
             const HwPlan *plan,
             const char   *id,
             GError      **error)
{
  const HwMachine *machine = find_machine (plan->room, id);
  g_autoptr (HwPlan) own = NULL;

  if (machine == NULL)
    {
      g_set_error (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING,
                   _("There is no machine “%s” in the sewing room; add it first, or take it out of the handout"), id);
      return FALSE;
    }
  own = plan_for (plan, machine, error);
  if (own == NULL)
    return FALSE;
  hw_sheets_fill_page (sheets);
  for (guint i = 0; i < own->groups->len; i++)
    if (g_str_equal (hw_plan_get_group (own, (int) i)->machine->id, id))
      hw_sheets_add (sheets, own, (int) i);
  return TRUE;
}

HwSheets *
hw_handout_new (const HwPlan         *plan,
                const char * const   *machines,
                const HwSheetOptions *options,
                GError              **error)
{
  g_autoptr (HwSheets) sheets = NULL;

  g_return_val_if_fail (plan != NULL && machines != NULL && options != NULL, NULL);

  if (g_strv_length ((char **) machines) > HW_HANDOUT_MAX)
    {
      g_set_error (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING,
                   _("A handout is for at most %d machines; make two of it"), HW_HANDOUT_MAX);
      return NULL;
    }
  sheets = hw_sheets_new_empty (plan->project->title, options);
  for (gsize i = 0; machines[i] != NULL; i++)
    if (!add_machine (sheets, plan, machines[i], error))
      return NULL;
  if (sheets->entries->len > 0)
    return g_steal_pointer (&sheets);
  g_set_error_literal (error, HW_CARD_ERROR, HW_CARD_ERROR_NOTHING, _("Name the machines of the handout"));
  return NULL;
}

char **
hw_handout_machines (const HwPlan *plan)
{
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  g_return_val_if_fail (plan != NULL, NULL);

  for (guint i = 0; i < plan->room->machines->len; i++)
    {
      const HwMachine *machine = plan->room->machines->pdata[i];
      g_auto (GStrv) numbers = list_steps (plan, machine->kind);

      if (numbers[0] != NULL)
        g_strv_builder_add (ids, machine->id);
    }
  return g_strv_builder_end (ids);
}
