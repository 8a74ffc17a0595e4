/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "core/wb-calendar.h"
#include "core/wb-enum.h"
#include "core/wb-money.h"
#include "core/wb-rate.h"

G_BEGIN_DECLS

/* A record is one entity of a job: a piece, a stop, a claim line. Every record type is a plain
 * struct that starts with WbRecord and is described by one const table of fields. The table is the
 * single place that names a field: copying, comparing, the JSON document, the book's columns,
 * history, import and forms all walk it.
 *
 * A record is written only by whoever made it, before giving it away; after that it is immutable
 * and may be shared between threads and between versions of a job. To change one, wb_record_copy()
 * it, change the copy, hand it on. */

typedef enum
{
  WB_FIELD_TEXT,       /* char *, NULL when not given (never "") */
  WB_FIELD_MARKS,      /* char *, canonical text of wb_marks_parse(), NULL when none */
  WB_FIELD_REFERENCE,  /* char *, id of a record of field->refers in the same job, NULL when none */
  WB_FIELD_BOOLEAN,    /* gboolean */
  WB_FIELD_INTEGER,    /* gint64, WB_INTEGER_UNSET when not given; 0 … field->maximum */
  WB_FIELD_PERCENT,    /* gint64 hundredths of a percent, as INTEGER; 0 … 10000 */
  WB_FIELD_ENUM,       /* int, by field->choices; 0 when not given */
  WB_FIELD_DATE,       /* GDate */
  WB_FIELD_MONEY,      /* WbMoney in the job's currency, never negative */
  WB_FIELD_WEIGHT,     /* WbWeight, never negative */
  WB_FIELD_VOLUME,     /* WbVolume, never negative */
} WbFieldType;

#define WB_INTEGER_UNSET G_MININT64

/** Largest amount (minor units), weight, volume and text length that a record takes; beyond it
 * input is absurd. */
#define WB_MONEY_MAX_MINOR G_GINT64_CONSTANT (1000000000000)
#define WB_WEIGHT_MAX_LB   G_GINT64_CONSTANT (10000000)
#define WB_VOLUME_MAX_CUFT G_GINT64_CONSTANT (1000000)
#define WB_TEXT_MAX_BYTES  10000

typedef enum
{
  WB_KIND_ORDER,
  WB_KIND_VALUATION,
  WB_KIND_PARTY,
  WB_KIND_STOP,
  WB_KIND_WEIGHING,
  WB_KIND_LOT,
  WB_KIND_PIECE,
  WB_KIND_HANDOVER,
  WB_KIND_FINDING,
  WB_KIND_CLAIM,
  WB_KIND_CLAIM_LINE,
  WB_KIND_PAYMENT,
  WB_KIND_THING,
  WB_KIND_PACKING_CHECK,
  WB_KIND_PHOTO,
  WB_KIND_PIN,
  WB_KIND_MATERIAL,
  WB_KIND_CONTACT,
  WB_KIND_PAPER,
  WB_KIND_TALLY,
  WB_KIND_STEP,
  WB_KIND_QUOTE,
  WB_KIND_SHARE,
  WB_KIND_CHARGE,
} WbKind;

#define WB_N_KINDS 24

typedef enum
{
  WB_FIELD_FLAG_NONE = 0,
  WB_FIELD_REQUIRED  = 1 << 0,  /* a record without it is refused */
  WB_FIELD_OWNER     = 1 << 1,  /* a reference to the record this one belongs to: removed with it */
  WB_FIELD_LONG      = 1 << 2,  /* text of several lines */
} WbFieldFlags;

/**
 * WbField:
 * @name: C member, JSON key and column name; lower case with underscores; never changes once
 *   released
 * @label: what a person reads, marked for translation
 */
typedef struct
{
  const char   *name;
  const char   *label;
  WbFieldType   type;
  WbFieldFlags  flags;
  gsize         offset;
  const WbEnum *choices;   /* for ENUM */
  WbKind        refers;    /* for REFERENCE */
  gint64        maximum;   /* for INTEGER */
} WbField;

/**
 * WbRecordType:
 * @name: singular, as in the book's table name ("claim_line")
 * @plural: the JSON document's array name ("claim_lines")
 * @label: what a person reads
 * @single: a job has exactly one (order, valuation); its id is @name
 */
typedef struct
{
  WbKind         kind;
  const char    *name;
  const char    *plural;
  const char    *label;
  gboolean       single;
  gsize          size;
  const WbField *fields;
  gsize          n_fields;
} WbRecordType;

/**
 * WbRecord:
 * @id: unique among the records of its kind in one job; 1 to 64 characters of [A-Za-z0-9._-]
 */
typedef struct
{
  const WbRecordType *type;
  gatomicrefcount     references;
  char               *id;
} WbRecord;

/** Returns: the description of @kind; valid for ever. */
const WbRecordType *wb_record_type        (WbKind        kind);
/** Returns: (nullable): the field called @name, or %NULL. */
const WbField      *wb_record_type_field  (const WbRecordType *type,
                                           const char   *name);

/** Whether @id is well formed (see #WbRecord). */
gboolean            wb_record_id_is_valid (const char   *id);

/** Returns: (transfer full): a new record of @kind, all fields not given. @id must be valid. */
gpointer            wb_record_new         (WbKind        kind,
                                           const char   *id) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): a private copy of @record, to be changed by its owner. */
gpointer            wb_record_copy        (gconstpointer record) G_GNUC_WARN_UNUSED_RESULT;
gpointer            wb_record_ref         (gpointer      record);
void                wb_record_unref       (gpointer      record);

/** Whether both are of one kind and hold the same id and the same values. */
gboolean            wb_record_equal       (gconstpointer a,
                                           gconstpointer b);

/** Whether field @field of both (same kind) holds the same value. */
gboolean            wb_record_field_equal (const WbField *field,
                                           gconstpointer  a,
                                           gconstpointer  b);
gboolean            wb_record_field_is_set (const WbField *field,
                                            gconstpointer  record);

/** Gives @record, still private to the caller, the value that @from, of the same kind, has in
 * @field. */
void                wb_record_copy_field  (gpointer       record,
                                           const WbField *field,
                                           gconstpointer  from);

/** Returns: (transfer full): canonical text of a value, the same in every locale: dates ISO 8601,
 * money "12.50 USD", enum nicks, booleans "yes" or "no", percent "7.5 %"; "" when not given. */
char               *wb_record_get_text    (gconstpointer  record,
                                           const WbField *field) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_record_set_text:
 * @text: (nullable): canonical text as wb_record_get_text() gives it, or what a person types for
 *   that type; surrounding white space is dropped; empty or %NULL makes the field not given
 * @currency: the job's currency, for money without a code
 *
 * Checks and sets one field of a record still private to the caller. On failure the field keeps its
 * value and @error is a %WB_CORE_ERROR whose message starts with the field's name.
 */
gboolean            wb_record_set_text    (gpointer       record,
                                           const WbField *field,
                                           const char    *text,
                                           const char    *currency,
                                           GError       **error);

/** Checks required fields, ranges and text lengths of one record. The message names kind, id and
 * field. */
gboolean            wb_record_check       (gconstpointer  record,
                                           const char    *currency,
                                           GError       **error);

/** Checks one field of a record: that it is there if it has to be, and in its range. The message
 * names kind, id and field. */
gboolean            wb_record_check_field (gconstpointer  record,
                                           const WbField *field,
                                           const char    *currency,
                                           GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Sets a text member of a record struct: frees the old one, turns "" into %NULL. */
void                wb_set_text           (char         **member,
                                           const char    *text);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbRecord, wb_record_unref)

G_END_DECLS
