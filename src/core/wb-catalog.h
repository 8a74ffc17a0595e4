/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The catalogue: kinds of cartons, packing materials, articles with their usual weights, what is to
 * be seen to when a kind of carton is packed, and what age takes off the value of a kind of thing.
 * All of it comes from catalogue files, whose form data/catalogs/FORMAT.md describes; nothing of it
 * stands in the source. Which files are read, and from where, is not known here. */
#pragma once

#include <glib-object.h>

#include "core/wb-enum.h"
#include "core/wb-volume.h"
#include "core/wb-weight.h"

G_BEGIN_DECLS

/** What an entry of the catalogue is; the nicks are the headings of the files. */
typedef enum
{
  WB_CATALOG_CARTON,
  WB_CATALOG_MATERIAL,
  WB_CATALOG_ARTICLE,
  WB_CATALOG_CHECK,
  WB_CATALOG_DEPRECIATION,
} WbCatalogKind;

#define WB_N_CATALOG_KINDS 5

extern const WbEnum wb_catalog_kinds;

/** What an entry says; the nicks are the keys of the files. */
typedef enum
{
  WB_CATALOG_NICK,
  WB_CATALOG_NAME,
  WB_CATALOG_ALSO,
  WB_CATALOG_UNIT,
  WB_CATALOG_VOLUME,
  WB_CATALOG_INSIDE,
  WB_CATALOG_WEIGHT,
  WB_CATALOG_CARTONS,
  WB_CATALOG_RULE,
  WB_CATALOG_LIFE,
  WB_CATALOG_YEARLY,
  WB_CATALOG_FLAT,
  WB_CATALOG_LEAST,
  WB_CATALOG_DROPPED,
} WbCatalogKey;

#define WB_N_CATALOG_KEYS 14

extern const WbEnum wb_catalog_keys;

/** WbCatalogLength: unit of inside sizes. */
typedef enum
{
  WB_LENGTH_UNIT_NONE,
  WB_LENGTH_UNIT_IN,
  WB_LENGTH_UNIT_CM,
} WbLengthUnit;

/**
 * WbCatalogEntry: one entry; immutable
 * @nick: unique among the entries of its kind; cartons and materials have one set of nicks
 * @name: what a person reads
 * @also: (nullable): other names that people write
 * @unit: (nullable): in what a material is counted: "roll"
 * @volume: of a filled carton or of an article; unset when nobody knows
 * @inside: length, width and height inside in hundredths of @inside_unit
 * @weight: usual weight, of a carton filled; unset when nobody knows
 * @cartons: (nullable): of a check, nicks of the cartons it is for; %NULL means all
 * @rule: (nullable): of a check, what is to be seen to, as a sentence; of a depreciation, what its
 *   table says in words instead of a percentage or besides it
 * @life: average useful life in years; %WB_INTEGER_UNSET when its table has none. For a person to
 *   read: percentages are never worked out from it
 * @yearly: depreciation a year of age as printed, hundredths of a percent; %WB_INTEGER_UNSET for
 *   none, as the two below
 * @flat: depreciation whatever the age; never together with @yearly
 * @least: depreciation when age gives less
 * @dropped: takes the shipped entry of the same nick out
 * @source: (nullable): for each key, where its value comes from
 * @file: base name of the file
 * @line: of its heading
 */
typedef struct
{
  WbCatalogKind  kind;
  char          *nick;
  char          *name;
  char         **also;
  char          *unit;
  WbVolume       volume;
  gint64         inside[3];
  WbLengthUnit   inside_unit;
  WbWeight       weight;
  char         **cartons;
  char          *rule;
  gint64         life;
  gint64         yearly;
  gint64         flat;
  gint64         least;
  gboolean       dropped;
  char          *source[WB_N_CATALOG_KEYS];
  char          *file;
  guint          line;
} WbCatalogEntry;

typedef struct _WbCatalog WbCatalog;

#define WB_TYPE_CATALOG (wb_catalog_get_type ())
GType       wb_catalog_get_type  (void);

/** Returns: (transfer full): an empty catalogue. */
WbCatalog  *wb_catalog_new       (void) G_GNUC_WARN_UNUSED_RESULT;
WbCatalog  *wb_catalog_ref       (WbCatalog   *self) G_GNUC_WARN_UNUSED_RESULT;
void        wb_catalog_unref     (WbCatalog   *self);

/**
 * wb_catalog_add:
 * @self: a catalogue still private to the caller
 * @text: (nullable): @length bytes of unknown origin
 * @file: what messages call the file
 * @replace: whether its entries take the place of those of the same nick
 * @n_entries: (out) (optional): how many entries the file has
 *
 * Adds the entries of one file, all or none. %FALSE with %WB_CORE_ERROR_CATALOG and "FILE:LINE:
 * what is wrong; expected what".
 */
gboolean    wb_catalog_add       (WbCatalog   *self,
                                  const char  *text,
                                  gsize        length,
                                  const char  *file,
                                  gboolean     replace,
                                  guint       *n_entries,
                                  GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type utf8): when all files are added, a message for every
 * check that names a carton which is not there, "FILE:LINE: …". */
GPtrArray  *wb_catalog_check     (const WbCatalog *self) G_GNUC_WARN_UNUSED_RESULT;

/* Entries stand in the order of their files; what replaces an entry stands in its place. */
guint                 wb_catalog_count (const WbCatalog *self,
                                        WbCatalogKind    kind);
const WbCatalogEntry *wb_catalog_nth   (const WbCatalog *self,
                                        WbCatalogKind    kind,
                                        guint            index);
/** Returns: (nullable): the entry with exactly this nick. */
const WbCatalogEntry *wb_catalog_find  (const WbCatalog *self,
                                        WbCatalogKind    kind,
                                        const char      *nick);

/** Returns: (nullable): the entry that has @text as its nick, its name or another name of it,
 * whatever the case and the spaces; %NULL for %NULL. */
const WbCatalogEntry *wb_catalog_match (const WbCatalog *self,
                                        WbCatalogKind    kind,
                                        const char      *text);

/** Returns: (nullable): the carton or else the material that @text means, as wb_catalog_match(). */
const WbCatalogEntry *wb_catalog_match_item (const WbCatalog *self,
                                             const char      *text);

/** Returns: (nullable): the article that a description tells of: the one whose name stands in it as
 * whole words; of several the one with the longest name. */
const WbCatalogEntry *wb_catalog_match_description (const WbCatalog *self,
                                                    const char      *description);

/** Returns: (nullable): the category of depreciation that a description tells of, found in the same
 * way; a guess for a person to look at. */
const WbCatalogEntry *wb_catalog_match_depreciation (const WbCatalog *self,
                                                     const char      *description);

/** Whether @check is for cartons of the kind @carton (nullable: a kind that no entry names). */
gboolean    wb_catalog_check_is_for (const WbCatalogEntry *check,
                                     const WbCatalogEntry *carton);

/** Returns: (transfer full): "18 × 18 × 28 in"; "" when not given. */
char       *wb_catalog_inside_to_text (const WbCatalogEntry *entry) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbCatalog, wb_catalog_unref)

G_END_DECLS
