/* entries.h - what the handbook knows, as typed tables
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every entry is read from one element of the same name in the XML of data/handbook
 * (namespace urn:handwheel:handbook:1); the comment at each struct gives the
 * element and its attributes. Strings are GLib memory owned by the handbook.
 * Sets of constructions, traits, purposes, stitches, points, feet are bit masks
 * over the index of the entry in its table (at most 64 of each).
 *
 * Text that a person reads is in English in the XML and looked up through
 * gettext when it is shown.
 *
 * A file is <handbook xmlns="urn:handwheel:handbook:1"> and may hold any of the elements below, in any
 * order; the tables follow the order of file names, then of the file. Attributes marked ? may be left out.
 * Every entry has id, name, source (one id in sources.xml) and may have one <note>. Lists are parted by
 * spaces, numbers have a decimal point. Ids are lower-case ASCII letters, digits, "-" and ".".
 */

#pragma once
#include <glib.h>
#include "trade/tension.h"
#include "trade/thread-use.h"

G_BEGIN_DECLS

typedef guint64 HwSet;                   /* 1 << index */
#define HW_SET(index) ((HwSet) 1 << (index))

typedef struct { double low, high; } HwRange;           /* both ends included; -INFINITY / INFINITY when open */
typedef struct { double low, prefer, high; } HwBand;    /* low <= prefer <= high */

typedef enum { HW_SOURCE_STANDARD, HW_SOURCE_BOOK, HW_SOURCE_PAPER, HW_SOURCE_BULLETIN,
               HW_SOURCE_COMMON_PRACTICE, HW_SOURCE_FROM_MEMORY,
               HW_SOURCE_JOURNAL   /* in no file: what the person's own test seams taught */ } HwSourceKind;

/* sources.xml: <source id kind="standard|book|paper|bulletin|common-practice|from-memory" title where?/> */
typedef struct
{
  char         *id;
  HwSourceKind  kind;
  char         *title;
  char         *where;                   /* edition, page; may be NULL */
} HwSource;

/* What every entry shares. */
typedef struct
{
  char           *id;                    /* NMTOKEN, unique in its table */
  char           *name;                  /* sentence case, of the trade */
  char           *note;                  /* child text <note>; may be NULL */
  const HwSource *source;                /* never NULL */
  char           *file;                  /* where it was read, for messages */
  int             line;
} HwEntry;

typedef enum { HW_FAMILY_WOVEN, HW_FAMILY_KNIT, HW_FAMILY_NONWOVEN, HW_FAMILY_SKIN, HW_FAMILY_NET } HwFamily;

/* fabrics.xml: <construction id name family="woven|knit|nonwoven|skin|net" bulk-density under-foot tension? source/>
 * bulk-density g/cm3 (to guess a thickness from a mass);
 * under-foot: thickness under the foot / as measured, 1 at most;
 * tension: id of the tension term that it switches on: knits of loops are soft in the stitch, knits that are locked,
 * filled, felted or full of rubber are not. */
typedef struct
{
  HwEntry  entry;
  HwFamily family;
  double   bulk_density;
  double   under_foot;
  int      tension_term;                 /* HwTensionTerm, -1 none */
} HwConstruction;

/* fabrics.xml: <trait id name lint? needle-life? speed? tension? constructions?="ID ID" mass?="- 60" thickness?
 * stretch? source/>
 * lint: factor on the dusting clock (2 = counts double); needle-life: factor on a needle's hours (0.5 = lasts
 * half); speed: share of the purpose's speed at which such cloth is sewn; all 1 when left out; tension: id of the
 * tension term it switches on, optional. constructions, and "low high" of g/m2, mm and %, either open as "-": a cloth
 * of one's own that meets them all has the trait unsaid; without constructions none has. */
typedef struct
{
  HwEntry entry;
  double  lint_factor;
  double  needle_life;
  double  speed_factor;
  int     tension_term;                  /* HwTensionTerm, -1 none */
  HwSet   constructions;
  HwRange mass_g_m2, thickness_mm, stretch_percent;
} HwTrait;

/* fabrics.xml: <fabric id name construction="ID" mass mass-low? mass-high? thickness thickness-low?
 * thickness-high? stretch? traits?="ID ID" fibre? source><note>…</note></fabric>
 * A bound left out is the typical value itself; stretch left out is 0.
 * mass g/m2 (ISO 3801), thickness mm (ISO 5084), stretch % by hand, typical values. */
typedef struct
{
  HwEntry entry;
  int     construction;
  HwBand  mass_g_m2;
  HwBand  thickness_mm;
  double  stretch_percent;
  HwSet   traits;
  char   *fibre;                         /* id-like word: cotton, silk, polyester, …; may be NULL */
} HwFabric;

typedef enum { HW_MACHINE_LOCKSTITCH, HW_MACHINE_OVERLOCK, HW_MACHINE_COVERSTITCH, HW_N_MACHINE_KINDS } HwMachineKind;

/* needles.xml: <system id name also?="15x1, HAx1" machines="lockstitch" source/> (ids: household, overlock) */
typedef struct
{
  HwEntry entry;
  char   *also;                          /* other names for the same system; may be NULL */
  guint   machines;                      /* 1u << HwMachineKind */
} HwNeedleSystem;

typedef enum { HW_POINT_ROUND, HW_POINT_BALL, HW_POINT_CUTTING } HwPointForm;

/* needles.xml: <point id name letters?="SES" form="round|ball|cutting" eye?="1" system="household ID"
 * sizes="60 65 70 75 80 90 100 110 120" twins?="2.5/75 4.0/75" source/>
 * eye: how much more thread than an ordinary one its eye takes (topstitch 1.2).
 * twins: spacing mm / Nm sold, optional. */
typedef struct { double spacing_mm; int nm; } HwTwin;
typedef struct
{
  HwEntry     entry;
  char       *letters;                   /* DIN 5330 letters or packet suffix; may be NULL */
  HwPointForm form;
  double      eye_factor;
  HwSet       systems;
  int        *sizes;                     /* Nm, ascending */
  gsize       n_sizes;
  HwTwin     *twins;
  gsize       n_twins;
} HwPoint;

typedef enum { HW_THREAD_SPUN, HW_THREAD_CORE, HW_THREAD_FILAMENT, HW_THREAD_MONOFILAMENT,
               HW_THREAD_TEXTURED, HW_THREAD_METALLIC, HW_THREAD_ELASTIC } HwThreadForm;

/* threads.xml: <thread id name fibre form="spun|core|filament|monofilament|textured|metallic|elastic" tex ticket?
 * density packing tenacity? cone?="yes|no" machines="lockstitch overlock" source/> */
typedef struct
{
  HwEntry      entry;
  char        *fibre;
  HwThreadForm form;
  double       tex;
  double       ticket;                   /* number on the label of such spools; 0: they have none */
  double       density;                  /* g/cm3 */
  double       packing;                  /* 0..1 */
  double       tenacity_cn_tex;          /* 0 unknown */
  gboolean     cone;                     /* put up for overlockers: theirs before others */
  guint        machines;
} HwThreadEntry;

#define HW_N_FALLBACK 4                   /* at most so many instead of another */

/* stitches.xml: <stitch id name iso?="301" machines="lockstitch" needles?="1" loopers?="0" bobbin="yes|no"
 * length="1 5" width?="0 0" shape="301" ratio? needle-share?="0.5" tension? mark="straight" dials?="1"
 * fallback?="ID ID" source/>
 * The values shown for optional ones are those taken when they are left out (iso "" and no ratio);
 * ratio is needed with shape "ratio", needle-share with ratio, 401, 504 and 514.
 * shape: id of HwThreadUseShape without prefix in lower case ("301", "ratio", "twin", "triple").
 * tension: tension term it switches on. mark: how a row of it is drawn:
 * fallback: the nearest, the best first, where no machine forms it.
 * straight, twin, zigzag, multi-step, blind, stretch, satin, buttonhole, bar-tack, overlock, cover, chain. */
typedef struct
{
  HwEntry          entry;
  char            *iso;                  /* ISO 4915 number; "" where none is verified */
  guint            machines;
  int              needles, loopers;
  gboolean         bobbin;
  HwRange          length_mm;            /* what the stitch allows at all */
  HwRange          width_mm;
  HwThreadUseShape shape;
  double           ratio;
  double           needle_share;
  int              tension_term;         /* -1 none */
  char            *mark;
  int              dials;                /* tension dials in use: 1, overlock 3 or 4 */
  int              fallback[HW_N_FALLBACK];     /* indices in order, -1 ends */
} HwStitch;

/* A drawing of a seam cut across, in units of its own: x to the right, y down, one ply
 * thickness about 6 units, whole drawing within 0..100 by 0..60.
 * seams.xml: <seam id name class="1" family?="1.01" verified?="yes|no" together?="right|wrong" stacked? source>
 *   together: which sides of the cloth face each other while it is sewn; left out where both ways or neither apply;
 *     "wrong-first" where one step stands for a row with wrong sides together and a second with right sides
 *   stacked: its plies are drawn once for each layer that the step sews through
 *   <ply points="0,20 60,20"/>…  a polyline, a folded ply is one polyline
 *   <stitch x1 y1 x2 y2 row?="1"/>…  where a row of stitches passes, as a short line
 * </seam> */
typedef struct { double *xy; gsize n_points; } HwPolyline;     /* 2 n_points numbers */
typedef struct { double x1, y1, x2, y2; int row; } HwSeamStitch;
typedef enum { HW_TOGETHER_UNSAID, HW_TOGETHER_RIGHT, HW_TOGETHER_WRONG,
               HW_TOGETHER_WRONG_FIRST } HwTogether;
typedef struct
{
  HwEntry       entry;
  int           iso_class;               /* ISO 4916 class 1..8 */
  char         *iso_family;              /* "1.01"; the last pair is left out: not verified */
  HwPolyline   *plies;
  gsize         n_plies;
  HwSeamStitch *stitches;
  gsize         n_stitches;
  HwTogether    together;
  gboolean      stacked;
} HwSeam;

/* purposes.xml: <purpose id name seam?="ID" stitch?="ID" speed-share handling start-stop per-metre? tension? source/>
 * seam, stitch: what is offered first. speed-share: of the top speed; handling: minutes per piece-independent
 * handling of the operation; start-stop: minutes to lay, begin, end and cut off each piece; per-metre: minutes to
 * pin, guide and turn each metre, 0 when left out; tension: baste, gather or ease term. */
typedef struct
{
  HwEntry entry;
  int     seam, stitch;                  /* indices, -1 none */
  double  speed_share;
  double  handling_minutes;
  double  start_stop_minutes;
  double  per_metre_minutes;
  int     tension_term;                  /* -1 none */
} HwPurpose;

/* Where the needle stands in a foot: in its centre; beside the blade that runs along the edge, as far as the row lies
 * from it; in the notch on the side of the teeth. */
typedef enum { HW_NEEDLE_UNSAID, HW_NEEDLE_CENTRE, HW_NEEDLE_ASIDE, HW_NEEDLE_NOTCH } HwNeedlePlace;
extern const char * const hw_needle_place_ids[];         /* from HW_NEEDLE_CENTRE on; ends with NULL */

/* feet.xml: <foot id name machines="lockstitch" slot-mm="9" fallback?="ID ID" needle?="centre|aside|notch"
 *             notch-mm? source/>
 *             slot: widest swing it passes; needle: where a single needle stands in a straight row; notch-mm: with
 *             needle="notch" alone, and then needed: from the middle of the foot to the notch on either side
 *           <plate id name slot-mm="9" fallback? source/>  slot 0: single hole, zigzag locked off
 * At most four fallbacks. A plate always belongs to lockstitch machines. */
typedef struct
{
  HwEntry entry;
  guint   machines;
  double  slot_mm;
  int     fallback[HW_N_FALLBACK];       /* indices in order, -1 ends */
  HwNeedlePlace needle;
  double  notch_mm;                      /* 0 none */
} HwFoot;
typedef HwFoot HwPlate;

typedef enum { HW_CLOCK_RUNNING, HW_CLOCK_AT_MACHINE, HW_CLOCK_MONTHS, HW_CLOCK_SEWING_DAY } HwClock;

/* The task whose clock is that of the needle in the machine: noted, it means that a new one is in. */
#define HW_NEEDLE_TASK "needle"

/* care.xml: <care id name machines clock="running|at-machine|months|sewing-day" limit or-months? lint?="no"
 * only-by-manual?="no" minutes source><step>…</step>…<caution>…</caution>…</care>
 * limit: hours (or months, or 1 a sewing day); lint=yes: the clock counts each hour x the cloth's lint factor.
 * only-by-manual=yes: not a task of a machine whose own manual gives no limit. */
typedef struct
{
  HwEntry  entry;
  guint    machines;
  HwClock  clock;
  double   limit;
  double   or_months;                    /* 0 none */
  gboolean counts_lint;
  gboolean only_by_manual;
  double   minutes;
  char   **steps;
  char   **cautions;
} HwCareTask;

/* care.xml: <closing id name machines when="always|lint|needle" source><note>…</note></closing>: one thing of the list
 * after sewing, in its order. when: lint – cloth that sheds was sewn since the last closing, or dusting is due;
 * needle – one is in the machine. */
typedef enum { HW_CLOSING_ALWAYS, HW_CLOSING_LINT, HW_CLOSING_NEEDLE } HwClosingWhen;
typedef struct
{
  HwEntry       entry;
  guint         machines;
  HwClosingWhen when;
} HwClosing;

/* care.xml: <needle-life at-machine="15" running="8" source/> and <hours running-share="0.35" source/>,
 * <changes walk needle thread bobbin foot plate stitch soft overlock-thread source/>: minutes each. Each of the three
 * exactly once. tension.xml, once: <tension reference-thickness="0.8" thickest="6" thinnest="0.4"
 * reference-length="2.5" longest="6" shortest="1" reference-tex="30" cloth-floor="-0.75" zigzag-floor="-1"
 * low-limit="1" low-limit-loose="0.5" high-limit="8" window-below="0.35" window-below-per-mm="0.3"
 * window-thickest="4" window-above="0.5" verdict-noise="0.35" source>
 * <term id="thicker" mean="-0.4" sd="0.3"/>…</tension> with every term of trade/tension.h. */
typedef struct { double at_machine_hours, running_hours; const HwSource *source; } HwNeedleLife;
typedef struct
{
  double walk;                           /* sit at another machine */
  double needle, thread, bobbin, foot, plate, stitch, soft;
  double overlock_thread;                /* each cone re-threaded */
  const HwSource *source;
} HwChangeCosts;

/* ---- pairing rules ----
 *
 * pairing.xml: <table for="SUBJECT" source?><row …>sentence</row>…</table>, each subject at most once; a row without
 * a source has its table's. Which rows apply depends on the subject:
 *   "first" subjects: the first row that fits decides;
 *   "every" subjects: all rows that fit apply and their bounds intersect.
 * Conditions, all optional, all must hold (sets: any member present):
 *   mass thickness stretch tex plies   "low high", either may be "-" for open; low <= value <= high
 *   constructions families traits purposes seams stitches machines threads   sets of ids
 *   without                            set of traits, none may be present
 *   all="yes"                          the constructions/traits condition must hold for every ply; of traits,
 *                                      for every ply that is not the backing of another
 * For ply subjects the conditions look at one ply; for operation subjects mass and stretch are those of
 * the heaviest and the stretchiest ply (families too: backings aside), thickness the sum of plies as measured, traits
 * those of any ply,
 * tex the needle thread.
 * Values: low prefer high (numbers), choice (one id), accept (ids), rank (a whole number, 0 when left out), source.
 * Subjects that choose (point, point-for-work, foot, plate, ends) need choice; the others need low, prefer and high,
 * save stack-size, which needs low alone. "threads" are forms of the needle thread (spun, core, …).
 * The element's text is the reason shown to the person; {value}, {low}, {high}, {mass}, {thickness}, {tex},
 * {plies} in it are filled in. */
typedef enum
{
  HW_RULES_THREAD,       /* "thread": first, operation: needle thread tex low/prefer/high */
  HW_RULES_BOBBIN,       /* "bobbin": first, operation: bobbin/looper thread tex low/prefer/high */
  HW_RULES_POINT,        /* "point": first per ply: choice, accept; the ply with the highest rank decides */
  HW_RULES_POINT_WORK,   /* "point-for-work": first, operation: choice, accept; overrules when it fits (topstitch) */
  HW_RULES_CLOTH_SIZE,   /* "cloth-size": first per ply: Nm low/prefer/high for that cloth */
  HW_RULES_STACK_SIZE,   /* "stack-size": every, operation: Nm low (bound against deflection), optional high */
  HW_RULES_THREAD_SIZE,  /* "thread-size": first, operation by tex: Nm low/prefer/high */
  HW_RULES_TWIN,         /* "twin": first, operation: spacing mm low/prefer/high */
  HW_RULES_LENGTH,       /* "length": first, operation: mm */
  HW_RULES_WIDTH,        /* "width": first, operation: mm */
  HW_RULES_FOOT,         /* "foot": first, operation: choice, accept */
  HW_RULES_PLATE,        /* "plate": first, operation: choice, accept */
  HW_RULES_PRESSURE,     /* "pressure": first, operation: steps from normal, low/prefer/high (-2..+1) */
  HW_RULES_ENDS,         /* "ends": first, operation: choice is a word: back-tack, knot, tails, none, chain-off, lock */
  HW_RULES_ALLOWANCE,    /* "allowance": first, operation: mm low/prefer/high, "from" what: HwLineFrom */
  HW_RULES_DIFFERENTIAL, /* "differential": first, operation, overlock/coverstitch */
  HW_RULES_CUTTING,      /* "cutting-width": first, operation, overlock */
  HW_RULES_LOOPER_DIAL,  /* "overlock-dial": first, operation: dial low/prefer/high for needles (all start the same) */
  HW_N_RULE_SUBJECTS
} HwRuleSubject;

extern const char * const hw_rule_subject_ids[HW_N_RULE_SUBJECTS + 1];      /* all such lists end with NULL */

/* What the distance of a row of stitches is measured from: the cut edge, a fold, a seam, a line marked on the cloth. */
typedef enum { HW_FROM_EDGE, HW_FROM_FOLD, HW_FROM_SEAM, HW_FROM_CENTRE_FRONT, HW_N_LINES_FROM } HwLineFrom;
extern const char * const hw_line_from_ids[HW_N_LINES_FROM + 1];

typedef struct
{
  HwRuleSubject   subject;
  int             line;
  HwRange         mass, thickness, stretch, tex, plies;
  HwSet           constructions, traits, without, purposes, seams, stitches;    /* 0: no condition */
  guint           families;              /* 1u << HwFamily */
  guint           machines;              /* 1u << HwMachineKind */
  guint           forms;                 /* "threads": 1u << HwThreadForm of the needle thread */
  gboolean        all;
  HwBand          band;                  /* NAN where absent */
  int             choice;                /* index in the subject's table (points, feet, plates, ends); -1 none */
  HwSet           accept;                /* includes choice */
  HwLineFrom      from;                  /* of an allowance */
  int             rank;
  char           *text;
  const HwSource *source;
} HwRule;

typedef enum { HW_ENDS_NONE, HW_ENDS_BACK_TACK, HW_ENDS_KNOT, HW_ENDS_TAILS, HW_ENDS_LOCK, HW_ENDS_CHAIN_OFF,
               HW_N_ENDS } HwEnds;

/* The words of the XML, in the order of their enumerations. */
extern const char * const hw_ends_ids[HW_N_ENDS + 1];
extern const char * const hw_family_ids[];
extern const char * const hw_machine_kind_ids[HW_N_MACHINE_KINDS + 1];
extern const char * const hw_thread_form_ids[];

G_END_DECLS
