/* published.h - published instances of the sequential ordering problem, and where they are looked for
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values: "best known solutions as of 13.01.2016" in src/sop_instance.cpp of
 * github.com/RSkinderowicz/AntColonySystemSA, commit 7662189e, which cites L. M. Gambardella, R. Montemanni and
 * D. Weyland, EJOR 220 (2012) and L. Gouveia and M. Ruthmair, Computers & Operations Research 53 (2015); but ESC78, a
 * typing error there, by a second public table and our own order. Files: TSPLIB95 (G. Reinelt, ORSA Journal on
 * Computing 3, 1991) from github.com/rhgrant10/tsplib95, archives/problems/sop; SOPLIB2006 from
 * github.com/jacobnormington/PSOP_Solver, soplib. They are not kept here, but looked for in folders sop and precedence
 * of $HANDWHEEL_BENCH_DATA, else of a folder beside the source folder.
 */

#pragma once
#include <glib.h>

#define PUBLISHED_NONE "the published files are not there; set HANDWHEEL_BENCH_DATA to the folder that holds them"

typedef struct
{
  const char *name;
  int         value;        /* best known */
  gboolean    optimal;      /* listed as a single number, or proved: nothing less can be */
  gboolean    prove;        /* to be proved within a second */
} Published;

extern const Published published[];
extern const gsize n_published;

/* (transfer full): NULL when there is none. */
char *published_folder (const char *name);
