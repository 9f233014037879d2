/* quick-private.h - what the files of the step typed in one row share
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#pragma once
#include "words/find.h"
#include "words/quick.h"

G_BEGIN_DECLS

struct _HwQuick
{
  const HwHandbook *handbook;
  GHashTable       *known;       /* folded name -> HwQuickGuess */
  HwFind           *steps, *stitches;
  HwFind           *seams;       /* and HW_QUICK_BY_HAND */
  int              *layers;      /* one a purpose */
};

#define HW_QUICK_BY_HAND "by hand"        /* what stands among the seams' ids: no id has a blank */

void      hw_quick_offer_free (gpointer offer);
/* Is one of the @words, folded, among those of @list, with blanks between them? */
gboolean  hw_quick_has_word   (char **words, const char *list);

/* What @text is found as: the id of a seam, or HW_QUICK_BY_HAND. NULL: nothing. */
const char *hw_quick_find_seam  (const HwQuick *self, const char *text);
/* A word or two on a guess: its seam, else its purpose, or “by hand”. (transfer full) */
char     *hw_quick_describe     (const HwQuick *self, const HwQuickGuess *guess);

/* What a step typed in one row is sewn of where nobody says. */
typedef struct
{
  const HwProjectFabric *fabrics[2];
  int      counts[2];                    /* layers of each */
  gsize    n;                            /* 0: the project has no fabric */
  gboolean as_lining;                    /* the name says “lining”, and no fabric is called so */
  int      turned;                       /* index of the step whose layers lie turned in here; -1: none */
} HwQuickLayers;

/* By the @name: the only fabric that it names, “Side seams of the lining”, else the first; of a seam that joins one to
 * another, “Bag to lining”, and of a row along what was joined so, as much of both. */
void      hw_quick_usual_layers (const HwQuick *self, const HwProject *project, const char *name,
                                 const HwQuickGuess *guess, HwQuickLayers *layers);
/* @name without the cloths that it names whole, in small letters; NULL: it names none, or nothing else. */
char     *hw_quick_cut_fabrics  (const HwQuick *self, const HwProject *project, const char *name);
gboolean  hw_quick_closes_gap   (const HwQuick *self, const HwQuickGuess *guess);
/* "2 poplin + 1 interfacing" into @step, by its name where it says no fabric. */
gboolean  hw_quick_read_layers  (const HwQuick *self, const HwProject *project, const char *text,
                                 const HwQuickGuess *guess, HwStep *step, GError **error);
/* Words that say what is done or where, and name no part of a garment. (transfer full) */
char    **hw_quick_work_words   (void);
/* Words that begin alike and differ in an ending: “collar” and “collars”. */
gboolean  hw_quick_same_part    (const char *a, const char *b);
/* The length, and how many pieces where it says so: “6 × 2 cm”. Of buttonholes a bare number is
 * neither, and each is sewn along both sides. */
gboolean  hw_quick_read_length  (const char *text, gboolean buttonholes, HwStep *step, GError **error);
gboolean  hw_quick_read_minutes (const char *text, double *minutes, GError **error);
char    **hw_quick_read_numbers (const char *text);
/* The numbers of the steps that one of that name comes after, unless something else is said; NULL none. */
char     *hw_quick_follows      (const HwQuick *quick, const HwProject *project, const char *name,
                                 const HwQuickGuess *guess);
/* The fabrics of @project, each with its id as target. */
HwFind   *hw_quick_find_fabrics (const HwProject *project);
/* The place in @text where its last fabric begins, after “+” and the number of layers. */
gsize     hw_quick_last_fabric  (const char *text);

G_END_DECLS
