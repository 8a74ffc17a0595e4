/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a job was packed: its cartons by kind, the materials planned and used, what the packing
 * checks of each carton say, and what is heavy to lift. All of it is worked out from the job and
 * the catalogue; nothing of it is stored. */
#pragma once

#include "core/wb-catalog.h"
#include "core/wb-job.h"

G_BEGIN_DECLS

/** What is set when nobody set anything else: from this weight on a lift is cautioned of. No
 * regulation fixes it; it is a round figure under the 23 kg (about 51 lb) from which the revised
 * NIOSH lifting equation starts (seen: ccohs.ca, and OSHA's eTool for 51 lb). OSHA has no
 * regulation with a maximum (seen in a note of a publisher of rules). */
#define WB_PACKING_LIFT_DEFAULT_LB 50

/* --- cartons and materials -------------------------------------------------------------------- */

/**
 * WbPackingRow: one kind of carton or one material
 * @item: (not nullable): what the job calls it: the nick in the catalogue, or the job's own words
 * @entry: (nullable): the carton or material of the catalogue
 * @material: (nullable): the record that holds what was planned and typed as used; the first, when
 *   several mean the same
 * @carrier: cartons on the inventory that the carrier packed
 * @owner: that the owner packed (PBO)
 * @unknown: of which nobody knows who packed them
 * @planned: or %WB_INTEGER_UNSET
 * @used: typed, or else the cartons that the carrier packed; %WB_INTEGER_UNSET for a material of
 *   which nothing was typed
 * @counted: @used was not typed but counted from the inventory
 * @difference: @used less @planned; %WB_INTEGER_UNSET when one of them is
 */
typedef struct
{
  const char           *item;
  const WbCatalogEntry *entry;
  const WbMaterial     *material;
  guint                 carrier;
  guint                 owner;
  guint                 unknown;
  gint64                planned;
  gint64                used;
  gboolean              counted;
  gint64                difference;
} WbPackingRow;

/**
 * WbPackingTotals: what the pieces of one form come to
 * @n: how many there are
 * @n_without_volume: which neither say their volume nor are of a kind whose volume is known
 * @n_usual_weight: whose weight is the usual one of their kind
 * @n_without_weight: as @n_without_volume
 */
typedef struct
{
  guint    n;
  guint    n_without_volume;
  guint    n_usual_weight;
  guint    n_without_weight;
  WbVolume volume;
  WbWeight weight;
} WbPackingTotals;

/* --- checks ----------------------------------------------------------------------------------- */

/**
 * WbPackingState: one check of one carton
 * @rule: nick of the check
 * @check: (nullable): the check of the catalogue; %NULL when the catalogue no longer has it
 * @record: (nullable): what was noted; the last, when the job has several for one check
 */
typedef struct
{
  const char           *rule;
  const WbCatalogEntry *check;
  const WbPackingCheck *record;
  WbCheck               state;
} WbPackingState;

typedef struct
{
  guint met;
  guint unmet;
  guint open;
} WbPackingCounts;

typedef struct _WbPacking WbPacking;

/** Returns: (transfer full): the packing of @job by @catalog; it holds both. A job of 10,000 pieces
 * takes some milliseconds. */
WbPacking             *wb_packing_new    (WbCatalog        *catalog,
                                          WbJob            *job) G_GNUC_WARN_UNUSED_RESULT;
void                   wb_packing_free   (WbPacking        *self);

/** Returns: (transfer none) (element-type WbPackingRow): cartons in the order of the catalogue,
 * then materials, then what the catalogue does not know, in the order of the job. Only what the
 * inventory or a material record names. */
GPtrArray             *wb_packing_rows   (const WbPacking  *self);

/** Adds up the pieces of one form. %FALSE with %WB_CORE_ERROR_OVERFLOW. */
gboolean               wb_packing_totals (const WbPacking  *self,
                                          WbForm            form,
                                          WbPackingTotals  *out,
                                          GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type WbPackingState): the checks of @piece in the order of the
 * catalogue: those that its kind of carton has, when the carrier packed it or nobody knows who
 * did, and any of which something was noted. Empty for what is no carton and has no note. */
GPtrArray             *wb_packing_states (const WbPacking  *self,
                                          const WbPiece    *piece) G_GNUC_WARN_UNUSED_RESULT;
WbPackingCounts        wb_packing_counts (const WbPacking  *self,
                                          const WbPiece    *piece);

/** Returns: (nullable): the record of the job about @rule at the piece; the last one. */
const WbPackingCheck  *wb_packing_record (const WbPacking  *self,
                                          const char       *piece,
                                          const char       *rule);

/* --- weights ---------------------------------------------------------------------------------- */

/** Returns: (nullable): what the catalogue knows of @piece: its kind of carton, or the article that
 * its description tells of. */
const WbCatalogEntry  *wb_packing_entry  (const WbCatalog  *catalog,
                                          const WbPiece    *piece);

typedef enum
{
  WB_LIFT_NONE,          /* under the threshold, or no weight is known */
  WB_LIFT_WEIGHT,        /* the piece's own weight is at or over it */
  WB_LIFT_USUAL_WEIGHT,  /* the piece has no weight; the usual one of its kind is at or over it */
} WbLift;

/**
 * wb_packing_lift:
 * @threshold: from which weight on; unset for no caution at all
 * @weight: (out) (optional): the weight that is cautioned of
 * @entry: (out) (optional) (nullable): whose usual weight it is
 *
 * Whether lifting @piece has to be cautioned of.
 */
WbLift                 wb_packing_lift   (const WbCatalog       *catalog,
                                          const WbPiece         *piece,
                                          WbWeight               threshold,
                                          WbWeight              *weight,
                                          const WbCatalogEntry **entry);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPacking, wb_packing_free)

G_END_DECLS
