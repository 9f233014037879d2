/* clip.h - steps on their way: copied from a project, to be pasted into it or into another
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A clip holds the steps with the fabrics and threads they use, and knows which project they come from. As text it is
 * XML like a project's, with a root of its own:
 *
 *   <clip xmlns="urn:handwheel:project:1" from="PROJECT-ID"><fabrics/><threads/><steps/></clip>
 *
 * Anything may lie on a clipboard: what hw_clip_parse() takes was read by the hardened reader and checked as a
 * project's file is, except that “after” may name steps that were left behind.
 */

#pragma once
#include "model/project.h"

G_BEGIN_DECLS

typedef struct _HwClip HwClip;

/* The steps @numbers (NULL-terminated) of @project, in the project's order. (transfer full); NULL when none is there */
HwClip    *hw_clip_new      (const HwProject *project, const char * const *numbers);
/* (transfer full), NULL with an HW_XML_ERROR or HW_MODEL_ERROR of one line. It holds at least one step. */
HwClip    *hw_clip_parse    (const char *data, gsize size, GError **error);
/* (transfer full): the same clip, the same bytes */
char      *hw_clip_to_xml   (const HwClip *self, gsize *size);
guint      hw_clip_n_steps  (const HwClip *self);
void       hw_clip_free     (HwClip *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwClip, hw_clip_free)

/* @project with the steps before place @index (at most the number of its steps). A fabric or thread that the project
 * has already is used, another is added. Back in the project they come from, steps keep their numbers where these are
 * free, and stay after what they came after; in another project they are numbered anew and keep the arrows among
 * themselves. *@numbers (transfer full): what they are called now. NULL with an HW_MODEL_ERROR. */
HwProject *hw_edit_paste    (const HwProject *project, gsize index, const HwClip *clip, char ***numbers,
                             GError **error);

G_END_DECLS
