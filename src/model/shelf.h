/* shelf.h - what lies ready in the room besides needles: thread and fabrics
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef enum { HW_SNAP_UNTESTED, HW_SNAP_GOOD, HW_SNAP_WEAK } HwSnap;      /* a length snapped by hand */
extern const char * const hw_snap_ids[];                                   /* "untested", "good", "weak" */

/* threads.xml: <threads xmlns><thread id handbook colour tex? metres counted snap? note?/>*</threads>
 * metres: left at the time of counting; what sewing took from thread of that label since is subtracted. */
typedef struct
{
  char   *id;
  char   *handbook;                  /* thread id of the handbook */
  char   *colour;
  double  tex;                       /* 0: the handbook's */
  double  metres;                    /* all spools of this thread together, when counted */
  char   *counted;                   /* ISO 8601 UTC */
  HwSnap  snap;
  char   *note;                      /* may be NULL */
} HwSpool;

/* fabrics.xml: <fabrics xmlns><fabric id name handbook|construction mass? thickness? stretch? traits? colour?
 * metres? width-cm? note?/>*</fabrics>   mass g/m2, thickness of one ply mm, as measured; 0 (stretch -1): unknown.
 * A project that uses the cloth copies these values, so that its file can be mailed alone. */
typedef struct
{
  char   *id;
  char   *name;
  char   *handbook;                  /* NULL: an own fabric, then construction is set */
  char   *construction;
  double  mass_g_m2;
  double  thickness_mm;
  double  stretch_percent;
  char  **traits;                    /* never NULL */
  char   *colour;
  double  metres;                    /* 0 unknown */
  double  width_cm;                  /* 0 unknown */
  char   *note;
} HwShelfCloth;

/* What the journal calls a thread: "navy tex 30"; without a colour the handbook's id stands for it. (transfer full) */
char         *hw_thread_label     (const char *colour, const char *handbook, double tex);

/* Mass of a cloth by weighing a cut of it: grams over area (the principle of ISO 3801), g/m2; 0 where one is not more
 * than 0. */
double        hw_cut_mass_g_m2    (double grams, double width_cm, double length_cm);
/* Thickness of one layer from that of a pile of @layers, pressed flat by hand: common practice, no source. mm; 0 as
 * above. */
double        hw_pile_thickness_mm (double pile_mm, int layers);

HwSpool      *hw_spool_new        (const char *id, const char *handbook, const char *colour);
HwSpool      *hw_spool_copy       (const HwSpool *self);
void          hw_spool_free       (HwSpool *self);
HwShelfCloth *hw_shelf_cloth_new  (const char *id, const char *name);
HwShelfCloth *hw_shelf_cloth_copy (const HwShelfCloth *self);
void          hw_shelf_cloth_free (HwShelfCloth *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSpool, hw_spool_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwShelfCloth, hw_shelf_cloth_free)

G_END_DECLS
