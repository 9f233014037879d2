/* test-quick.c - steps typed in one row: what is guessed, offered, taken and refused
 * SPDX-License-Identifier: GPL-3.0-or-later
 */

#include "config.h"

#include "words/quick.h"

#include <string.h>

#include "model/edit.h"
#include "words/words.h"
#include "workroom.h"

typedef struct
{
  HwHandbook *handbook;
  HwQuick    *quick;
  HwProject  *project;
} Table;

static void
set_up (Table        *self,
        gconstpointer inside)
{
  self->handbook = workroom_handbook ();
  self->quick = hw_quick_new (self->handbook);
  self->project = workroom_parse (inside);
}

static void
tear_down (Table        *self,
           gconstpointer inside)
{
  hw_words_set_style (FALSE, HW_NUMBER_LOCALE);
  hw_quick_free (self->quick);
  hw_project_unref (self->project);
  hw_handbook_unref (self->handbook);
}

#define CLOTH "<fabrics><fabric id='poplin' name='Cotton poplin' handbook='poplin'/>" \
              "<fabric id='fuse' name='Woven interfacing' handbook='poplin'/></fabrics>" \
              "<threads><thread id='t' handbook='polyester-30'/></threads><steps>" \
              "<hand number='1' name='Press' kind='press' minutes='1'/></steps>"

/* ---- what is meant ---- */

static const struct { const char *name, *seam, *says; } guesses[] = {
  { "Side seams", "", "Plain seam, pressed open" },          /* a garment has it */
  { "side SEAMS", "", "Plain seam, pressed open" },
  { "seam", "", "Plain seam" },
  { "lower hem", "", "Hem, turned twice" },                  /* by a word */
  { "both hems", "", "Hem, turned twice" },
  { "topstitch the front", "", "Row of stitching" },
  { "darts of the back piece", "", "Dart" },
  { "French seam, first row", "", "French seam, first row" },/* a seam of the handbook */
  { "press the hem once more", "", "by hand" },          /* the first word that tells */
  { "trim", "", "by hand" },
  { "sew the whatnot on", "", "Plain seam" },                /* anything else is a seam */
  { "slipstitch the opening", "", "by hand" }, { "Close the gap, slip-stitch", "", "by hand" },
  { "handles", "", "Plain seam" },                           /* not “hang” */
  { "", "", "Plain seam" },
  { "hanger loop", "", "by hand" },                          /* for its first letters … */
  { "hanger loop", "plain seam", "Plain seam" },         /* … but whoever says a seam sews it */
  { "hanger loop", "felled", "Felled seam" },
  { "press the hem", "turned twice", "Hem, turned twice" },
  { "lower hem", "by hand", "by hand" },
  { "Slipstitch the opening closed by hand", "", "by hand" },
  { "Sew on buttons", "", "by hand" },                   /* not a buttonhole, but a step that has these words */
  { "buttonholes", "", "Buttonhole" },
  { "frobble the gusset", "", "Plain seam" },
  { "overlock the crotch seam", "", "Neatened edge" }, { "Thread the elastic through", "", "by hand" },
  { "Mark the buttonholes", "", "by hand" }, { "edgestitch the tab", "", "Row of stitching" },
  { "close the gap in the lining", "", "Gap closed, edges turned in" },
  { "Topstitch the opening closed", "", "Gap closed, edges turned in" },
  { "Close the opening by hand", "", "by hand" }, { "close the gap", "by hand", "by hand" },
  { "press the hem", "by h", "by hand" },
  { "press the hem", "  ", "by hand" },
};

static void
test_guess (Table        *self,
            gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (guesses); i++)
    {
      HwQuickGuess     guess;
      g_autofree char *says = NULL;

      hw_quick_guess (self->quick, self->project, guesses[i].name, guesses[i].seam, &guess);
      says = hw_quick_say (self->quick, self->project, guesses[i].name, &guess, HW_QUICK_SEAM);
      g_test_message ("“%s”, %s", guesses[i].name, guesses[i].seam);
      g_assert_cmpstr (says, ==, guesses[i].says);
    }
}

/* What an empty field stands for is the very thing it becomes. */
static void
test_says_what_it_takes (Table        *self,
                         gconstpointer data)
{
  const char      *fields[HW_QUICK_N_FIELDS] = { "hem", "", "", "", "120", "" };
  HwQuickGuess     guess;
  HwQuickField     wrong;
  HwStep          *step = hw_quick_read (self->quick, self->project, fields, &wrong, NULL);
  g_autofree char *layers = NULL;
  g_autofree char *stitch = NULL;

  hw_quick_guess (self->quick, self->project, "hem", "", &guess);
  layers = hw_quick_say (self->quick, self->project, "hem", &guess, HW_QUICK_LAYERS);
  stitch = hw_quick_say (self->quick, self->project, "hem", &guess, HW_QUICK_STITCH);
  g_assert_cmpstr (layers, ==, "3 Cotton poplin");
  g_assert_cmpstr (stitch, ==, "Straight stitch");
  g_assert_nonnull (step);
  g_assert_cmpstr (step->purpose, ==, "hem");
  g_assert_null (step->seam);            /* the purpose's own */
  g_assert_cmpuint (step->n_plies, ==, 1);
  g_assert_cmpint (step->plies[0].count, ==, 3);
  hw_step_unref (step);
}

/* ---- what is taken ---- */

static const struct { const char *text, *plies; } layers[] = {
  { "2", "2 poplin" }, { "", "2 poplin" }, { "4 pop", "4 poplin" }, { "poplin", "2 poplin" },
  { "2 poplin + 1 woven", "2 poplin, 1 fuse" }, { "2+1", "2 poplin, 1 fuse" }, { "2 x poplin", "2 poplin" },
  { "2× woven interfacing", "2 fuse" }, { "1 poplin + 1 poplin", "2 poplin" }, { "poplin + woven", "1 poplin, 1 fuse" },
  { "2 poplin, 1 woven", "2 poplin, 1 fuse" }, { "2,1", "2 poplin, 1 fuse" },
};

static char *
say_plies (const HwStep *step)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (gsize i = 0; i < step->n_plies; i++)
    g_string_append_printf (text, "%s%d %s", i > 0 ? ", " : "", step->plies[i].count, step->plies[i].fabric);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
test_layers (Table        *self,
             gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (layers); i++)
    {
      const char        *fields[HW_QUICK_N_FIELDS] = { "seam", "", layers[i].text, "", "10", "" };
      HwQuickField       wrong;
      g_autoptr (GError) error = NULL;
      HwStep            *step = hw_quick_read (self->quick, self->project, fields, &wrong, &error);
      g_autofree char   *plies = NULL;

      g_assert_no_error (error);
      plies = say_plies (step);
      g_test_message ("“%s”", layers[i].text);
      g_assert_cmpstr (plies, ==, layers[i].plies);
      hw_step_unref (step);
    }
}

static const struct { gboolean inches; const char *text; double cm; int pieces; } lengths[] = {
  { FALSE, "136", 136, 1 }, { FALSE, " 136 cm ", 136, 1 }, { FALSE, "1.4 m", 140, 1 }, { FALSE, "12 mm", 1.2, 1 },
  { FALSE, "10in", 25.4, 1 }, { FALSE, "10″", 25.4, 1 }, { TRUE, "10", 25.4, 1 }, { TRUE, "136 cm", 136, 1 },
  { TRUE, "2 yd", 182.88, 1 }, { FALSE, "2 × 68 cm", 136, 2 }, { FALSE, "6x20mm", 12, 6 }, { FALSE, "3 X 40", 120, 3 },
  { FALSE, "4 * 1.5 m", 600, 4 }, { TRUE, "6 × 0.5", 7.62, 6 },
};

static void
test_lengths (Table        *self,
              gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (lengths); i++)
    {
      const char        *fields[HW_QUICK_N_FIELDS] = { "seam", "", "", "", lengths[i].text, "1" };
      HwQuickField       wrong;
      g_autoptr (GError) error = NULL;
      HwStep            *step;

      hw_words_set_style (lengths[i].inches, HW_NUMBER_LOCALE);
      step = hw_quick_read (self->quick, self->project, fields, &wrong, &error);
      g_assert_no_error (error);
      g_assert_cmpfloat_with_epsilon (step->length_cm, lengths[i].cm, 1e-9);
      g_assert_cmpint (step->pieces, ==, lengths[i].pieces);
      g_assert_cmpstr (step->number, ==, "2");
      g_assert_cmpstr (step->after[0], ==, "1");
      hw_step_unref (step);
    }
}

static void
test_hand_step (Table        *self,
                gconstpointer data)
{
  const char       *fields[HW_QUICK_N_FIELDS] = { "clip the curve", "", "ignored", "", "1.5 min", "" };
  HwQuickField      wrong;
  HwStep           *step = hw_quick_read (self->quick, self->project, fields, &wrong, NULL);

  g_assert_cmpint (step->kind, ==, HW_STEP_HAND);
  g_assert_cmpint (step->hand, ==, HW_HAND_CLIP);
  g_assert_cmpfloat (step->minutes, ==, 1.5);
  g_assert_cmpstr (step->after[0], ==, "1");    /* what was done just before */
  hw_step_unref (step);
}

/* A name that sounds like work by hand, sewn at the machine; and the other way about. */
static void
test_seam_decides (Table        *self,
                   gconstpointer data)
{
  const char   *loop[HW_QUICK_N_FIELDS] = { "Hanger loop", "plain seam", "", "", "8", "" };
  const char   *hem[HW_QUICK_N_FIELDS] = { "Lower hem", "by hand", "", "", "20 min", "" };
  HwQuickField  wrong;
  HwStep       *sewn = hw_quick_read (self->quick, self->project, loop, &wrong, NULL);
  HwStep       *by_hand = hw_quick_read (self->quick, self->project, hem, &wrong, NULL);

  g_assert_cmpint (sewn->kind, ==, HW_STEP_OPERATION);
  g_assert_cmpstr (sewn->purpose, ==, "seam");
  g_assert_cmpfloat (sewn->length_cm, ==, 8);
  g_assert_cmpint (by_hand->kind, ==, HW_STEP_HAND);
  g_assert_cmpint (by_hand->hand, ==, HW_HAND_SEW);
  g_assert_cmpfloat (by_hand->minutes, ==, 20);
  hw_step_unref (sewn);
  hw_step_unref (by_hand);
}

/* Of buttonholes one says how many and how long the opening is; both sides are sewn. */
static void
test_buttonholes (Table        *self,
                  gconstpointer data)
{
  static const struct { const char *text; int pieces; double cm; } said[] = {
    { "6 × 2 cm", 6, 24 }, { "7 x 14 mm", 7, 19.6 }, { "2 cm", 1, 4 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (said); i++)
    {
      const char        *fields[HW_QUICK_N_FIELDS] = { "Buttonholes", "", "", "", said[i].text, "" };
      HwQuickField       wrong;
      g_autoptr (GError) error = NULL;
      HwStep            *step = hw_quick_read (self->quick, self->project, fields, &wrong, &error);

      g_assert_no_error (error);
      g_assert_cmpint (step->pieces, ==, said[i].pieces);
      g_assert_cmpfloat_with_epsilon (step->length_cm, said[i].cm, 1e-9);
      hw_step_unref (step);
    }
}

/* Whatever the handbook's garments have as a step can be typed by its name, and the project takes it. */
static void
test_all_garments (Table        *self,
                   gconstpointer data)
{
  guint n = 0;

  for (gsize i = 0; i < self->handbook->n_garments; i++)
    for (gsize j = 0; j < self->handbook->garments[i].n_steps; j++, n++)
      {
        const HwGarmentStep   *known = &self->handbook->garments[i].steps[j];
        const char            *length = known->by_hand ? "7" : "2 × 3 cm";
        const char            *fields[HW_QUICK_N_FIELDS] = { known->name, "", "", "", length, "" };
        HwQuickField           wrong;
        g_autoptr (GError)     error = NULL;
        HwStep                *step = hw_quick_read (self->quick, self->project, fields, &wrong, &error);
        g_autoptr (HwProject)  next = NULL;

        g_assert_no_error (error);
        next = hw_edit_insert_step (self->project, 1, step, &error);
        g_assert_no_error (error);
        hw_step_unref (step);
      }
  g_assert_cmpuint (n, >, 200);
}

/* ---- what is refused, and where ---- */

static const struct { const char *fields[HW_QUICK_N_FIELDS]; HwQuickField wrong; const char *says; } refused[] = {
  { { "", "", "", "", "10", "" }, HW_QUICK_STEP, "What is sewn" },
  { { "seam", "qqqq", "", "", "10", "" }, HW_QUICK_SEAM, "no seam “qqqq”" },
  { { "press", "qqqq", "", "", "10", "" }, HW_QUICK_SEAM, "no seam “qqqq”" },
  { { "seam", "", "2 velvet", "", "10", "" }, HW_QUICK_LAYERS, "no fabric “velvet”" },
  { { "seam", "", "1+1+1", "", "10", "" }, HW_QUICK_LAYERS, "more numbers than" },
  { { "seam", "", "99999999999", "", "10", "" }, HW_QUICK_LAYERS, "At most 64" },
  { { "seam", "", "", "qqqq", "10", "" }, HW_QUICK_STITCH, "no stitch “qqqq”" },
  { { "seam", "", "", "", "", "" }, HW_QUICK_LENGTH, "136 cm" },
  { { "seam", "", "", "", "0", "" }, HW_QUICK_LENGTH, "136 cm" },
  { { "seam", "", "", "", "-4 cm", "" }, HW_QUICK_LENGTH, "136 cm" },
  { { "seam", "", "", "", "long", "" }, HW_QUICK_LENGTH, "136 cm" },
  { { "Buttonholes", "", "", "", "6", "" }, HW_QUICK_LENGTH, "How many buttonholes" },
  { { "Buttonholes", "", "", "", "0 × 2 cm", "" }, HW_QUICK_LENGTH, "6 × 2 cm" },
  { { "seam", "", "", "", "2.5 × 2 cm", "" }, HW_QUICK_LENGTH, "2 × 68 cm" },
  { { "seam", "", "1 poplin, 1 velvet", "", "10", "" }, HW_QUICK_LAYERS, "“1 Cotton poplin + 1 " },
  { { "press", "", "", "", "soon", "" }, HW_QUICK_LENGTH, "minutes" },
};

static void
test_refused (Table        *self,
              gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      HwQuickField       wrong = HW_QUICK_N_FIELDS;
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", refused[i].says);
      g_assert_null (hw_quick_read (self->quick, self->project, refused[i].fields, &wrong, &error));
      g_assert_error (error, HW_MODEL_ERROR, HW_MODEL_ERROR_INVALID);
      g_assert_nonnull (strstr (error->message, refused[i].says));
      g_assert_cmpint (wrong, ==, refused[i].wrong);
    }
}

static void
test_without_fabric (Table        *self,
                     gconstpointer data)
{
  const char        *fields[HW_QUICK_N_FIELDS] = { "seam", "", "", "", "10", "" };
  HwQuickField       wrong = HW_QUICK_N_FIELDS;
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_quick_read (self->quick, self->project, fields, &wrong, &error));
  g_assert_nonnull (strstr (error->message, "Add a fabric first"));
}

/* ---- what it comes after ---- */

#define SHIRT_STEPS "<fabrics><fabric id='poplin' name='Cotton poplin' handbook='poplin'/></fabrics>" \
                    "<threads><thread id='t' handbook='polyester-30'/></threads><steps>" \
                    "<hand number='1' name='Hem the pocket mouth' kind='press' minutes='1'/>" \
                    "<hand number='2' name='Collar, outer edge' kind='press' minutes='1'/>" \
                    "<hand number='3' name='Shoulder seams' kind='press' minutes='1'/>" \
                    "<hand number='4' name='Neck, staystitch' kind='press' minutes='1'/>" \
                    "<hand number='5' name='Trim and turn the collars' kind='trim' minutes='1'/></steps>"

/* Its own part of the garment, wherever it was typed; nothing else, so that the order stays free. */
static const struct { const char *name, *typed, *after; } afters[] = {
  { "Topstitch the collar", "", "5" },
  { "Pocket, topstitch", "", "1" },
  { "Collar to neck", "", "4 5" },               /* both parts */
  { "Side seams", "", "1" },                     /* “seams” is no part; the pocket comes while all is flat */
  { "Left cuff, outer edge", "", "5" },
  { "Topstitch the hem", "", "1" },              /* the work itself, where no other part is named */
  { "Edges, overlock", "", "2" },
  { "Hem the sleeves", "", "5" },                /* nothing on them yet: after what was typed last */
  { "Set the sleeves", "", "3" },                /* as the handbook's T-shirt: after the shoulders */
  { "Topstitch the collar", "3", "3" },          /* what is said counts */
  { "Topstitch the collar", "none", "" },
  { "Topstitch the collar", " – ", "" },
  { "press the cuffs", "", "5" },                /* what was done just before */
  { "press the cuffs", "None", "" },
};

static void
test_after (Table        *self,
            gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (afters); i++)
    {
      const char      *fields[HW_QUICK_N_FIELDS] = { afters[i].name, "", "", "", "20", afters[i].typed };
      HwQuickField     wrong;
      HwQuickGuess     guess;
      HwStep          *step = hw_quick_read (self->quick, self->project, fields, &wrong, NULL);
      g_autofree char *after = NULL;
      g_autofree char *says = NULL;

      g_assert_nonnull (step);
      after = g_strjoinv (" ", step->after);
      g_test_message ("“%s” after “%s”", afters[i].name, afters[i].typed);
      g_assert_cmpstr (after, ==, afters[i].after);
      hw_quick_guess (self->quick, self->project, afters[i].name, "", &guess);
      says = hw_quick_say (self->quick, self->project, afters[i].name, &guess, HW_QUICK_AFTER);
      if (afters[i].typed[0] == '\0')    /* what stands there pale is what happens */
        g_assert_cmpstr (says, ==, after[0] != '\0' ? after : "none");
      hw_step_unref (step);
    }
}

#define TOTE "<fabrics><fabric id='canvas' name='Canvas' handbook='canvas'/>" \
             "<fabric id='lining' name='Lining, acetate or cupro' handbook='lining'/></fabrics>" \
             "<threads><thread id='t' handbook='polyester-30'/></threads><steps>" \
             "<operation number='1' name='Side seams of the bag' purpose='seam' length-cm='60'>" \
             "<ply fabric='canvas' count='2'/></operation>" \
             "<operation number='2' name='Bag to lining' after='1' purpose='seam' length-cm='60'>" \
             "<ply fabric='canvas'/><ply fabric='lining'/></operation>" \
             "<hand number='3' name='Turn it through' after='2' kind='turn' minutes='5'/>" \
             "<hand number='4' name='Press everything' after='3' kind='press' minutes='5'/></steps>"

/* The fabric that a step names; what was turned and pressed since. */
static const struct { const char *name, *layers, *fabric, *after; guint n_plies; } totes[] = {
  { "Side seams of the lining", "", "lining", "4", 1 },    /* not after those of the canvas */
  { "Linings, hem", "1", "lining", "4", 1 },
  { "Topstitch the bag", "", "canvas", "4", 2 },           /* turned out, two layers of each */
  { "Lining to the canvas", "", "canvas", "4", 2 },    /* a layer of each */
  { "Bag to lining, top edge", "", "canvas", "4", 2 },
  { "Bag to lining, top edge", "2", "lining", "4", 1 },
  { "Side seams of the lining", "1 canvas", "canvas", "4", 1 },
  { "Handles", "", "canvas", "4", 1 },
  { "Box the corners", "", "canvas", "1", 1 },         /* as the handbook's tote bag: after the side seams */
  { "Corners, box", "", "canvas", "1", 1 },
};

static void
test_tote (Table        *self,
           gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (totes); i++)
    {
      const char      *fields[HW_QUICK_N_FIELDS] = { totes[i].name, "", totes[i].layers, "", "20", "" };
      HwQuickField     wrong;
      HwStep          *step = hw_quick_read (self->quick, self->project, fields, &wrong, NULL);
      g_autofree char *after = NULL;

      g_test_message ("“%s”", totes[i].name);
      g_assert_nonnull (step);
      g_assert_cmpuint (step->n_plies, ==, totes[i].n_plies);
      g_assert_cmpstr (step->plies[0].fabric, ==, totes[i].fabric);
      g_assert_true (step->n_plies == 1 || step->plies[0].count == step->plies[1].count);
      after = g_strjoinv (" ", step->after);
      g_assert_cmpstr (after, ==, totes[i].after);
      hw_step_unref (step);
    }
}

/* ---- fabrics with names of their own ---- */

typedef struct { const char *name, *seam, *layers, *after; } Meant;

static void
check_meant (Table       *self,
             const Meant *meant,
             gsize        n)
{
  for (gsize i = 0; i < n; i++)
    {
      HwQuickGuess     guess;
      g_autofree char *seam = NULL;
      g_autofree char *plies = NULL;
      g_autofree char *after = NULL;

      g_test_message ("“%s”", meant[i].name);
      hw_quick_guess (self->quick, self->project, meant[i].name, "", &guess);
      seam = hw_quick_say (self->quick, self->project, meant[i].name, &guess, HW_QUICK_SEAM);
      plies = hw_quick_say (self->quick, self->project, meant[i].name, &guess, HW_QUICK_LAYERS);
      after = hw_quick_say (self->quick, self->project, meant[i].name, &guess, HW_QUICK_AFTER);
      g_assert_cmpstr (seam, ==, meant[i].seam);
      if (meant[i].layers != NULL)
        g_assert_cmpstr (plies, ==, meant[i].layers);
      if (meant[i].after != NULL)
        g_assert_cmpstr (after, ==, meant[i].after);
    }
}

#define OWN_NAMES "<fabrics><fabric id='d' name='Topstitch denim' handbook='denim'/>" \
                  "<fabric id='q' name='Quilting cotton' handbook='quilting-cotton'/>" \
                  "<fabric id='b' name='Bias binding' handbook='lawn'/>" \
                  "<fabric id='z' name='Zip' handbook='zip-tape'/></fabrics>" \
                  "<threads><thread id='t' handbook='polyester-30'/></threads><steps>" \
                  "<operation number='1' name='Quilting cotton yoke' purpose='seam' length-cm='60'>" \
                  "<ply fabric='q' count='2'/></operation></steps>"

/* The name of a cloth is no work, whatever it sounds like; what is called after its work is. */
static void
test_own_names (Table        *self,
                gconstpointer data)
{
  static const Meant meant[] = {
    { "quilting cotton side seams", "Plain seam, pressed open", "2 Quilting cotton", "none" },
    { "Side seams, quilting cottons", "Plain seam, pressed open", "2 Quilting cotton", "none" },
    { "topstitch denim hem", "Hem, turned twice", "3 Topstitch denim", NULL },
    { "Topstitch the denim", "Row of stitching", "4 Topstitch denim", NULL },
    { "quilt the quilting cotton", "Quilted layers", "3 Quilting cotton", NULL },
    { "topstitch denim to quilting cotton", "Plain seam", "1 Topstitch denim + 1 Quilting cotton", NULL },
    { "Bias binding to the edge", "Bound edge, binding turned under", NULL, NULL },
    { "Zip, first side", "Zip, centred", "2 Topstitch denim + 1 Zip", NULL },
    { "Zip to the quilting cotton", "Zip, centred", "2 Quilting cotton + 1 Zip", NULL },
  };

  check_meant (self, meant, G_N_ELEMENTS (meant));
}

#define LINED "<fabrics><fabric id='lawn' name='Flowered' handbook='lawn'/>" \
              "<fabric id='canvas' name='Canvas' handbook='canvas'/>" \
              "<fabric id='fuse' name='Interfacing' handbook='fusible-nonwoven'/></fabrics>" \
              "<threads><thread id='t' handbook='polyester-30'/></threads><steps>" \
              "<operation number='1' name='Pocket' purpose='seam' length-cm='60'>" \
              "<ply fabric='canvas' count='2'/></operation>" \
              "<operation number='2' name='Lining seams' purpose='seam' length-cm='60'>" \
              "<ply fabric='lawn' count='2'/></operation>" \
              "<operation number='3' name='Bag to lining' after='1 2' purpose='seam' length-cm='60'>" \
              "<ply fabric='canvas'/><ply fabric='lawn'/></operation>" \
              "<hand number='4' name='Turn it through' after='3' kind='turn' minutes='5'/></steps>"

static void
test_lined (Table        *self,
            gconstpointer data)
{
  static const Meant meant[] = {
    { "lining side seams", "Plain seam", "2 Flowered, as the lining", NULL },
    { "Side seams of the lining", "Plain seam, pressed open", "2 Flowered, as the lining", NULL },
    { "Canvas to lining", "Plain seam", "1 Flowered + 1 Canvas", NULL },
    { "Topstitch the top edge", "Row of stitching", "2 Canvas + 2 Flowered", "4" },
    { "Topstitch the opening", "Row of stitching", "2 Canvas + 2 Flowered", "4" },
    { "Topstitch the bag", "Row of stitching", "2 Canvas + 2 Flowered", NULL },
    { "Topstitch", "Row of stitching", "2 Canvas + 2 Flowered", "4" },
    { "Topstitch the canvas", "Row of stitching", "4 Canvas", NULL },
    { "Topstitch the handles", "Row of stitching", "4 Flowered", NULL },
    { "Topstitch canvas and flowered edges", "Row of stitching", "2 Flowered + 2 Canvas", NULL },
    { "close the gap in the lining", "Gap closed, edges turned in", "4 Flowered, as the lining", "4" },
    { "close the opening", "Gap closed, edges turned in", "4 Flowered", "4" },
  };
  const char  *fields[HW_QUICK_N_FIELDS] = { "lining side seams", "", "", "", "20", "" };
  HwQuickField wrong;
  HwStep      *step = hw_quick_read (self->quick, self->project, fields, &wrong, NULL);

  check_meant (self, meant, G_N_ELEMENTS (meant));
  g_assert_cmpstr (step->plies[0].fabric, ==, "lawn");
  hw_step_unref (step);
}

#define BIB "<fabrics><fabric id='front' name='Poplin' handbook='poplin'/>" \
            "<fabric id='back' name='Flannel' handbook='flannel'/></fabrics>" \
            "<threads><thread id='t' handbook='polyester-30'/></threads><steps>" \
            "<operation number='1' name='Front to back, leave a gap' purpose='seam' length-cm='60'>" \
            "<ply fabric='front'/><ply fabric='back'/></operation></steps>"

/* Where the seam that was left open joined two cloths, the gap is in both. */
static void
test_bib (Table        *self,
          gconstpointer data)
{
  static const Meant meant[] = {
    { "Close the gap", "Gap closed, edges turned in", "2 Poplin + 2 Flannel", "1" },
    { "Topstitch the edge all round", "Row of stitching", "2 Poplin + 2 Flannel", "1" },
  };

  check_meant (self, meant, G_N_ELEMENTS (meant));
}

/* A pinafore as it comes to mind: what was typed, and what it comes after. */
static const struct { const char *name, *after; } pinafore[] = {
  { "Hem the pocket mouth", "" },
  { "Press the pocket’s edges under", "1" },
  { "Set the pocket", "2" },
  { "Shoulder seams", "3" },                           /* as the handbook's shirt: flat work first */
  { "Shoulder seams of the lining", "" },
  { "Side seams", "3" },                               /* as its hooded jacket */
  { "Press the side seams", "6" },
  { "Hem", "7" },                                      /* the garment's, and not the pocket's */
  { "Topstitch the hem", "8" },
  { "Waist casing", "9" },                             /* unknown */
  { "Thread the elastic through", "10" },
  { "Overlock the crotch seam", "" },
};

static void
test_pinafore (Table        *self,
               gconstpointer data)
{
  g_autoptr (HwProject) project = workroom_parse (
    "<fabrics><fabric id='cord' name='Corduroy' handbook='corduroy'/>"
    "<fabric id='lawn' name='Lawn lining' handbook='lawn'/></fabrics>"
    "<threads><thread id='t' handbook='polyester-30'/></threads><steps/>");

  for (gsize i = 0; i < G_N_ELEMENTS (pinafore); i++)
    {
      const char      *fields[HW_QUICK_N_FIELDS] = { pinafore[i].name, "", "", "", "20", "" };
      g_autoptr (HwProject) before = g_steal_pointer (&project);
      g_autoptr (GError) error = NULL;
      HwQuickField     wrong;
      HwStep          *step = hw_quick_read (self->quick, before, fields, &wrong, &error);
      g_autofree char *after = NULL;

      g_test_message ("“%s”", pinafore[i].name);
      g_assert_no_error (error);
      after = g_strjoinv (" ", step->after);
      g_assert_cmpstr (after, ==, pinafore[i].after);
      project = hw_edit_insert_step (before, before->steps->len, step, &error);
      g_assert_no_error (error);
      hw_step_unref (step);
    }
}

/* ---- completion ---- */

static const struct { HwQuickField field; const char *text, *first; } offers[] = {
  { HW_QUICK_STEP, "hem", "Hem" }, { HW_QUICK_STEP, "sid", "Side seams" }, { HW_QUICK_SEAM, "felled", "Felled seam" },
  { HW_QUICK_SEAM, "by ha", "by hand" },
  { HW_QUICK_STITCH, "multi", "Multi-step zigzag" }, { HW_QUICK_LAYERS, "2 pop", "2 Cotton poplin" },
  { HW_QUICK_LAYERS, "2 Cotton poplin + 1 wov", "2 Cotton poplin + 1 Woven interfacing" },
  { HW_QUICK_LAYERS, "2", NULL }, { HW_QUICK_STEP, "", NULL }, { HW_QUICK_LENGTH, "1", NULL },
};

static void
test_offers (Table        *self,
             gconstpointer data)
{
  for (gsize i = 0; i < G_N_ELEMENTS (offers); i++)
    {
      g_autoptr (GPtrArray) found = hw_quick_offer (self->quick, self->project, offers[i].field, offers[i].text, 5);

      g_test_message ("“%s”", offers[i].text);
      g_assert_cmpuint (found->len, <=, 5);
      g_assert_cmpstr (found->len > 0 ? ((HwQuickOffer *) found->pdata[0])->text : NULL, ==, offers[i].first);
    }
}

static void
add (const char *name,
     const char *inside,
     void     (* func) (Table *self, gconstpointer data))
{
  g_autofree char *path = g_strconcat ("/words/quick/", name, NULL);

  g_test_add (path, Table, inside, set_up, func, tear_down);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("guess", CLOTH, test_guess);
  add ("says-what-it-takes", CLOTH, test_says_what_it_takes);
  add ("layers", CLOTH, test_layers);
  add ("lengths", CLOTH, test_lengths);
  add ("hand-step", CLOTH, test_hand_step);
  add ("seam-decides", CLOTH, test_seam_decides);
  add ("all-garments", CLOTH, test_all_garments);
  add ("refused", CLOTH, test_refused);
  add ("without-fabric", "<fabrics/><threads><thread id='t' handbook='polyester-30'/></threads><steps/>",
       test_without_fabric);
  add ("after", SHIRT_STEPS, test_after);
  add ("buttonholes", SHIRT_STEPS, test_buttonholes);
  add ("pinafore", SHIRT_STEPS, test_pinafore);
  add ("tote", TOTE, test_tote);
  add ("own-names", OWN_NAMES, test_own_names);
  add ("lined", LINED, test_lined);
  add ("bib", BIB, test_bib);
  add ("offers", CLOTH, test_offers);
  return g_test_run ();
}
