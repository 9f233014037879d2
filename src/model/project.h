/* project.h - one thing to be made: an immutable snapshot
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A project never changes once built; an edit (model/edit.h) makes a new one that
 * shares the unchanged parts by reference count. Fields are public to read.
 */

#pragma once
#include <glib.h>

G_BEGIN_DECLS

#define HW_PROJECT_NS "urn:handwheel:project:1"
#define HW_PROJECT_MAX_BYTES (8u << 20)

#define HW_MODEL_ERROR (hw_model_error_quark ())
GQuark hw_model_error_quark (void);
typedef enum
{
  HW_MODEL_ERROR_INVALID,   /* a value out of range, a missing part */
  HW_MODEL_ERROR_UNKNOWN,   /* names a fabric, thread or step that is not there */
  HW_MODEL_ERROR_CIRCLE,    /* "after" runs in a circle; the message lists the steps */
  HW_MODEL_ERROR_CHANGED,   /* another process changed the same thing meanwhile; read it again */
} HwModelError;

/* A value of a set-up that pairing settles and a person may override. */
typedef enum
{
  HW_FIELD_MACHINE,       /* choice: machine id */
  HW_FIELD_STITCH,        /* choice: stitch id */
  HW_FIELD_SYSTEM,        /* choice: needle system id */
  HW_FIELD_POINT,         /* choice: point id */
  HW_FIELD_SIZE,          /* Nm */
  HW_FIELD_TWIN,          /* spacing mm */
  HW_FIELD_NEEDLE_TEX,    /* tex of the needle thread */
  HW_FIELD_BOBBIN_TEX,    /* tex of the bobbin or looper thread */
  HW_FIELD_LENGTH,        /* mm */
  HW_FIELD_WIDTH,         /* mm */
  HW_FIELD_FOOT,          /* choice */
  HW_FIELD_PLATE,         /* choice */
  HW_FIELD_PRESSURE,      /* steps from normal */
  HW_FIELD_DIAL,          /* on the machine's scale */
  HW_FIELD_ENDS,          /* choice word */
  HW_FIELD_ALLOWANCE,     /* mm */
  HW_FIELD_DIFFERENTIAL,
  HW_FIELD_CUTTING_WIDTH, /* mm */
  HW_N_FIELDS
} HwField;

extern const char * const hw_field_ids[HW_N_FIELDS + 1];  /* "machine", "stitch", … as in the XML */
gboolean hw_field_is_choice (HwField field);
int      hw_field_from_id   (const char *id);         /* -1 unknown */

/* <fabric id name handbook="ID" | construction="ID" mass thickness stretch traits="" colour=""/>
 * With handbook: mass, thickness and stretch measured by the person win over the typical values. */
typedef struct
{
  gatomicrefcount ref_count;
  char   *id;
  char   *name;                  /* shown; never NULL */
  char   *handbook;              /* handbook fabric id, or NULL for an own fabric */
  char   *construction;          /* own fabric only */
  double  mass_g_m2;             /* 0: the handbook's */
  double  thickness_mm;          /* 0: the handbook's, or estimated from mass */
  double  stretch_percent;       /* -1: the handbook's */
  char  **traits;                /* own fabric; added to the handbook's otherwise */
  char   *colour;                /* NULL unknown */
  int     line;                  /* in the file it was read from; 0: not from a file. Not part of the project */
} HwProjectFabric;

/* <thread id handbook="ID" colour tex=""/>  tex overrides the handbook's */
typedef struct
{
  gatomicrefcount ref_count;
  char   *id;
  char   *handbook;
  char   *colour;                /* NULL unknown */
  double  tex;                   /* 0: the handbook's */
  int     line;                  /* as for a fabric */
} HwProjectThread;

typedef struct { char *fabric; int count; } HwPly;    /* <ply fabric="ID" count="2"/> */

/* <set field="length" value="2.8"/> or choice="ID": the person's override */
typedef struct { HwField field; double value; char *choice; } HwOverride;

typedef enum { HW_STEP_OPERATION, HW_STEP_HAND } HwStepKind;
typedef enum { HW_HAND_PRESS, HW_HAND_TRIM, HW_HAND_CLIP, HW_HAND_TURN, HW_HAND_FUSE, HW_HAND_TACK,
               HW_HAND_HANG, HW_HAND_SEW, HW_HAND_OTHER, HW_N_HAND_KINDS } HwHandKind;
extern const char * const hw_hand_kind_ids[HW_N_HAND_KINDS + 1];   /* ends with NULL */

/* <operation number name after="1 2" purpose seam="" stitch="" machine="" length-cm pieces="1" needle-thread=""
 *            bobbin-thread="" share="yes">
 *   <ply…/>+ <crossing><ply…/></crossing>? <set…/>* <note>…</note>?
 * <hand number name after kind="press" minutes><note/></hand> */
typedef struct
{
  gatomicrefcount ref_count;
  HwStepKind  kind;
  char       *number;            /* NMTOKEN, unique; an operation keeps it wherever it stands */
  char       *name;
  char      **after;             /* numbers, never NULL */
  char       *note;              /* may be NULL */
  /* operation */
  char       *purpose;
  char       *seam;              /* may be NULL: the purpose's */
  char       *stitch;            /* may be NULL: the purpose's */
  char       *machine;           /* room machine id, NULL: the first of the stitch's kind */
  double      length_cm;         /* all pieces together, of a buttonhole both sides, > 0 */
  int         pieces;            /* how many times started, >= 1 */
  HwPly      *plies;             gsize n_plies;
  HwPly      *crossing;          gsize n_crossing;     /* the thickest crossing, may be empty */
  char       *needle_thread;     /* project thread id; NULL: the first thread that fits the purpose */
  char       *bobbin_thread;     /* NULL: the needle thread, or lighter where the handbook says */
  HwOverride *overrides;         gsize n_overrides;
  gboolean    share;             /* FALSE: the person refused a shared set-up */
  /* hand step */
  HwHandKind  hand;
  double      minutes;
  int         line;              /* as for a fabric */
} HwStep;

/* What the person would like of the order of work, besides what the making up forbids.
 * <wish kind="before" steps="4 2"/>   4 somewhere before 2
 * <wish kind="together" steps="3 4 5"/>  in this order with nothing else sewn or done between them
 * <wish kind="first|last" steps="6"/>  before (after) everything else that the making up and the other wishes let it */
typedef enum { HW_WISH_BEFORE, HW_WISH_TOGETHER, HW_WISH_FIRST, HW_WISH_LAST, HW_N_WISH_KINDS } HwWishKind;
extern const char * const hw_wish_kind_ids[HW_N_WISH_KINDS + 1];
typedef struct
{
  gatomicrefcount ref_count;
  HwWishKind kind;
  char     **steps;              /* numbers, never NULL */
  int        line;               /* as for a fabric */
} HwWish;

typedef struct
{
  gatomicrefcount ref_count;
  char      *id;                 /* NMTOKEN, unique in the room; from the file name when absent */
  char      *title;
  char      *due;                /* ISO 8601 date or NULL */
  char      *note;
  GPtrArray *fabrics;            /* (element-type HwProjectFabric) */
  GPtrArray *threads;            /* (element-type HwProjectThread) */
  GPtrArray *steps;              /* (element-type HwStep), in the person's order */
  GPtrArray *wishes;             /* (element-type HwWish), the older first */
  gboolean   share;              /* share="no": no set-up is shared; each operation keeps what the handbook prefers */
  gboolean   gather_hand;        /* gather-hand="yes": going to the iron counts as going to another machine */
  char      *file;               /* name of the file it was read from, for messages; NULL. Not part of the project */
} HwProject;

HwProject *hw_project_new       (const char *id, const char *title);     /* empty, one default thread */
HwProject *hw_project_ref       (HwProject *self);
void       hw_project_unref     (HwProject *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwProject, hw_project_unref)

/* One error line with file, line and remedy; checks everything that needs no handbook: ids, references,
 * ranges (length-cm 0.1..100000, an overridden length 0.2..12 mm …), circles of "after". */
HwProject *hw_project_read      (const char *path, GError **error);
HwProject *hw_project_parse     (const char *name, const char *data, gsize size, GError **error);
/* Reading what this wrote gives the same bytes. */
char      *hw_project_to_xml    (const HwProject *self, gsize *size);
gboolean   hw_project_write     (const HwProject *self, const char *path, GError **error);

/* What the file of an open project held when it was last read or written here, and the copy that was kept when it
 * could not be written. Zero: nothing is known. */
typedef struct { char *mark; char *rescued; } HwProjectPlace;
void       hw_project_place_look  (HwProjectPlace *self, const char *path);      /* before the file is read */
void       hw_project_place_clear (HwProjectPlace *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwProjectPlace, hw_project_place_clear)
/* hw_project_write(), but a file that another program changed meanwhile is left alone (HW_MODEL_ERROR_CHANGED), and
 * whenever it fails @self goes into a copy that the message names: beside the file when that was changed, else in the
 * rescue folder. The next success removes that copy. */
gboolean   hw_project_save        (const HwProject *self, const char *path, HwProjectPlace *place, GError **error);

const HwProjectFabric *hw_project_find_fabric (const HwProject *self, const char *id);
const HwProjectThread *hw_project_find_thread (const HwProject *self, const char *id);
/* The one that every new project begins with, as long as it is the only one and nobody changed it; NULL. Borrowed. */
const HwProjectThread *hw_project_peek_unchosen_thread (const HwProject *self);
int                    hw_project_find_step   (const HwProject *self, const char *number);   /* index, -1 */
const HwStep          *hw_project_get_step    (const HwProject *self, gsize index);
gboolean               hw_project_is_equal    (const HwProject *a, const HwProject *b);

HwProjectFabric *hw_project_fabric_ref   (HwProjectFabric *self);
void             hw_project_fabric_unref (HwProjectFabric *self);
HwProjectThread *hw_project_thread_ref   (HwProjectThread *self);
void             hw_project_thread_unref (HwProjectThread *self);
HwStep          *hw_step_ref             (HwStep *self);
void             hw_step_unref           (HwStep *self);

/* Mutable copies, to build a changed one from (used by edits and readers before the part is shared). */
HwProjectFabric *hw_project_fabric_new   (const char *id, const char *name);
HwProjectFabric *hw_project_fabric_copy  (const HwProjectFabric *self);
HwProjectThread *hw_project_thread_new   (const char *id, const char *handbook);
HwProjectThread *hw_project_thread_copy  (const HwProjectThread *self);
HwStep          *hw_step_new             (HwStepKind kind, const char *number, const char *name);
HwStep          *hw_step_copy            (const HwStep *self);
guint            hw_step_count_layers    (const HwStep *self);    /* of all its fabrics; 0 by hand */
HwWish          *hw_wish_new             (HwWishKind kind, const char * const *steps);
HwWish          *hw_wish_ref             (HwWish *self);
void             hw_wish_unref           (HwWish *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwWish, hw_wish_unref)

/* What forbids @wish in @self: the numbers of steps, each of which comes after the next, such as {"4", "3", "2"} for
 * the wish "4 before 2". (transfer full), NULL when nothing does. *@by_wishes: other wishes are links of it. */
char           **hw_project_find_chain   (const HwProject *self, const HwWish *wish, gboolean *by_wishes);

G_END_DECLS
