/* rejected.c - published figures that Handwheel is not held to, and why
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "rejected.h"

#include <string.h>

#define ROOT "/published/"

const RejectedRow rejected_rows[] = {
  /* no such figure in the program */
  { "H1", "capstan law, 20 at a friction of 0.2 over half a turn makes 37.49 (arXiv 2012.13353)",
    "Handwheel does not reckon the friction of thread guides: the starting dial is a prior that test seams correct." },
  { "H2", "ratio 14 over one and a half turns is a friction of 0.28 (igkt.net, measured)", "As for H1." },
  { "H5/forces", "67 cN and 34 cN at the balance of tex 30 (Partlan Pattern Designs, one machine)",
    "Dials are set, not forces: no value in cN is shown. The dial of that measurement is held in H5/measured-dial." },
  { "H6", "needle to bobbin tension 1.94 (Partlan Pattern Designs, one machine)", "As for H5/forces." },
  { "H10", "bobbin tension 180 to 300 mN in embroidery (embroideryhoopstore.com)",
    "No reading of a tension gauge is taken in, and the drop test is what a beginner has." },
  { "D4/wool", "density of wool 1.31 g/cm3 (Physical Properties of Textile Fibres)",
    "The handbook has no sewing thread of wool." },
  { "D14", "loop strength 1.3 of spun, 1.4 of core-spun thread, 1.5 on an average, never over 2.0 (A&E Bangladesh)",
    "A thread's loop strength is not estimated; the seam's factors 1.5 and 1.7 are D5 and D6." },
  { "K4/last-pair", "seam codes of five digits (BS 3870-2:1991)",
    "The last pair differs between summaries of ISO 4916 and is not shown; class and family are K3 and K4." },
  { "K6", "LSc for a flat-felled seam (Federal Standard 751a, garmenco.org)",
    "No codes of the US standard are shown." },
  { "F21/606", "32 metres in a metre of 606 (a Coats table)", "Four needles in flatlock: no home machine forms it." },

  /* factory work, which a home machine is not sewn by */
  { "C20/seam", "needles of 110 to 140 in heavy denim (needle-maker's sheet, Texpedia 2013)",
    "Industrial; household packets end at 110 or 120. Held to a thread-maker's 100 to 120 instead, and in topstitching"
    " to what the two ranges share." },
  { "E11/dress-shirt", "14 to 20 stitches to the inch (American & Efird)",
    "1.3 to 1.8 mm is for shirts on industrial machines. At home poplin is sewn as the bulletin has casual shirts." },
  { "E11/blind-hem", "3 to 5 stitches to the inch (American & Efird)",
    "Of the blind-stitch machine, each of whose stitches is a catch; a home machine makes several between two." },
  { "E11/swimwear", "12 to 16 stitches to the inch (American & Efird)",
    "1.6 to 2.1 mm, of industrial overlockers. The handbook has 2.2 to 3 mm, what home overlockers are usually set to"
    " (common practice, no source)." },
  { "E13", "85 to 90 stitches in a half-inch buttonhole (American & Efird)",
    "0.3 mm from stitch to stitch on a buttonhole machine. At home 0.35 to 0.5 mm: closer jams the cloth." },
  { "F30", "540 cm and 15 % of waste make 621 cm (Coats, Thread consumption methods)",
    "As for F31: no share is added; the tails of each start and end are counted. The sum is in F8/metre-with-waste." },
  { "F31", "waste 10 to 20 % (Coats, American & Efird, a shirt's reckoning)",
    "Under-bed trimmers leave two or three centimetres at an end. At home every thread of every start is drawn out"
    " 10 to 15 cm and cut off, which is more than the waste of a factory in any garment of short seams." },
  { "I6", "18 to 25 minutes for a shirt (rezaselimgarmentseducations 2024, PMTS 22.32)",
    "A skilled operator's sections on several industrial machines." },

  /* published, but at odds with what else is published */
  { "F21/101", "4 metres in a metre of 101 (a Coats table; another Coats guide has 5)",
    "The chart's formula, 3 + 2T/L, is used; two printed ratios differ by a quarter." },
  { "F21/401", "5.5 metres in a metre of 401 (a Coats table; American & Efird has 5.0)",
    "The chart's formula, 4 + 2T/L, is used, which the bulletin prints beside its ratio (F1)." },
  { "F29/t-shirt", "38 yards in a T-shirt (American & Efird, quoted by Online Clothing Study 2016)",
    "Less than the published ratios give for its own seams: 3.4 m overlocked in three threads are 48 m at 14." },
  { "F32/buttonhole", "6 inches of thread in a buttonhole (textilecalculation.blogspot.com 2015)",
    "Too little for any bead: the swings alone of 85 stitches 2 mm wide are 17 cm of needle thread, and as much below."
    " Kept as arithmetic in F32/conversion and in the sum F24." },
  { "F32/button", "5.5 inches of thread on a button (textilecalculation.blogspot.com 2015)",
    "Sewn on by a factory's machine. At home buttons are a hand step, for which no thread is counted. Kept in F24." },
  { "E3", "C: 4 stitches to the inch at 6 mm (teaching slides)", "The slide reckons with 24 mm to the inch." },
  { "C15", "C: 90 to 100 for clear nylon (household manuals in general)",
    "As often 70 to 80 is taught; no document can be named for either. The handbook has 70 to 100, 80 first." },
  { "H11", "C: start tension below a quarter of the thread's strength", "As for H5/forces; no document can be named." },
};

const gsize n_rejected_rows = G_N_ELEMENTS (rejected_rows);

const RejectedRow *
rejected_find (const char *path)
{
  g_return_val_if_fail (g_str_has_prefix (path, ROOT), NULL);

  for (gsize i = 0; i < n_rejected_rows; i++)
    {
      const char *rest = path + strlen (ROOT);
      gsize length = strlen (rejected_rows[i].row);

      if (strncmp (rest, rejected_rows[i].row, length) == 0 && (rest[length] == '\0' || rest[length] == '/'))
        return &rejected_rows[i];
    }
  return NULL;
}
