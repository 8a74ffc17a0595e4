/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The office book: one SQLite database that holds all jobs of an office. Every function here blocks
 * on disk and may be called from any thread except one that runs a main loop with a window; the
 * office wraps them in tasks. Writing is done by one thread that owns its connection, reading on
 * connections of its own, so a long read never holds up a save. */
#pragma once

#include <gio/gio.h>

#include "core/wb-job.h"

G_BEGIN_DECLS

#define WB_TYPE_BOOK (wb_book_get_type ())
G_DECLARE_FINAL_TYPE (WbBook, wb_book, WB, BOOK, GObject)

typedef enum
{
  WB_BOOK_OPEN,    /* must exist */
  WB_BOOK_CREATE,  /* must not exist yet */
} WbBookMode;

/**
 * wb_book_open:
 * @path: file name of the book
 *
 * Opens or makes a book, bringing an older one up to date after a copy of it beside it
 * ("NAME.before-N", or "NAME.before-N.2" and so on: no copy is overwritten). A book of up to 32 MB
 * is checked through; of a larger one the list of jobs is, and damage elsewhere shows when it is
 * read.
 * Returns: (transfer full) (nullable): or %NULL with a %WB_STORE_ERROR: _NOT_A_BOOK (some other
 * file), _NEWER (made by a later program), _CORRUPT, _BUSY, _FULL, _IO, _NOT_FOUND, _EXISTS (for
 * %WB_BOOK_CREATE, also when only the log of an earlier book of that name is there), _DENIED; the
 * file is then as it was and nothing is left beside it.
 */
WbBook       *wb_book_open          (const char    *path,
                                     WbBookMode     mode,
                                     GCancellable  *cancellable,
                                     GError       **error) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none): the book's absolute file name. */
const char   *wb_book_get_path      (WbBook        *self);

/** Finishes what is queued and closes the connections; further calls fail with
 * %WB_STORE_ERROR_CLOSED. Idempotent. Every function below can also fail with %WB_STORE_ERROR_BUSY
 * after 5 seconds, _FULL, _IO or _CORRUPT, with _NEWER when a later program has brought the book up
 * to date meanwhile, and with %G_IO_ERROR_CANCELLED; nothing is stored then. */
void          wb_book_close         (WbBook        *self);

/** WbJobSummary: what a list of jobs shows; free with wb_job_summary_free(). Texts may be %NULL. */
typedef struct
{
  char   *id;
  char   *number;
  char   *bill_number;
  WbStage stage;
  char   *shipper;        /* name, or company */
  char   *from_city;      /* of the first pick-up stop, with region: "Dayton, OH" */
  char   *to_city;        /* of the last delivery stop */
  GDate   pickup;         /* actual, else agreed first day */
  GDate   delivery;
  guint   n_pieces;
  char   *claims;         /* numbers of its claims, ", " between; NULL when none */
  guint   n_open_claims;
  gint64  revision;
} WbJobSummary;

/** Returns: (transfer full): what a list shows of @job. */
WbJobSummary *wb_job_summary_new    (const WbJob   *job) G_GNUC_WARN_UNUSED_RESULT;
WbJobSummary *wb_job_summary_copy   (const WbJobSummary *self) G_GNUC_WARN_UNUSED_RESULT;
void          wb_job_summary_free   (WbJobSummary  *self);

/**
 * wb_book_list_jobs:
 * @query: (nullable): words that must all be found, as whole words or beginnings, in any of: job
 *   number, bill number, claim number, names and companies of parties, phone digits, cities of
 *   stops and parties; no case, no accents. A telephone number is found however its digits are
 *   grouped, with or without country and area code. When nothing is found by these, words may also
 *   be in streets of stops and parties, be the colour or number of a lot, or a tag with the number
 *   of its lot before it. %NULL, or a query without a letter or digit, finds every job
 * @limit: most rows to give, 0 for all
 *
 * Returns: (transfer full) (element-type WbJobSummary): newest pick-up first. A job without one
 * stands where it was booked or surveyed, or where it was first stored.
 */
GPtrArray    *wb_book_list_jobs     (WbBook        *self,
                                     const char    *query,
                                     guint          limit,
                                     GCancellable  *cancellable,
                                     GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * WbOpenClaim:
 * @terms, @move_type, @region, @pickup: of the job: what decides which terms govern it; @pickup is the
 *   actual day, else the agreed first one, else unset
 * @input: what the claim's clocks go by, for wb_clock_input_parse(); something else when the job
 *   cannot be read
 *
 * One claim that is open or under offer. Texts may be %NULL, but for @job_id, @claim_id and @input.
 */
typedef struct
{
  const char *job_id;
  const char *job_number;
  const char *shipper;
  const char *claim_id;
  const char *claim_number;
  const char *terms;
  WbMoveType  move_type;
  const char *region;
  GDate       pickup;
  const char *input;
} WbOpenClaim;

/** Called for each claim, whose texts are gone afterwards. */
typedef void (*WbOpenClaimFunc)     (const WbOpenClaim *claim,
                                     gpointer       data);

/** Has @each called for every open claim of the book, in this thread, without loading any job. */
gboolean      wb_book_scan_open_claims (WbBook     *self,
                                     WbOpenClaimFunc each,
                                     gpointer       data,
                                     GCancellable  *cancellable,
                                     GError       **error);

/**
 * WbMovedPieces: @n pieces of one delivered job that are alike in all that is told here
 * @currency: of the job
 * @crew: (nullable): of its pick-up
 * @from_region: (nullable): of the first pick-up stop; @to_region: of the last delivery stop
 */
typedef struct
{
  const char *currency;
  GDate       delivered_on;
  const char *crew;
  const char *from_region;
  const char *to_region;
  WbForm      form;
  const char *carton;
  WbPackedBy  packed_by;
  const char *packer;
  const char *room;
  gint64      n;
} WbMovedPieces;

/** Called for each; the texts are gone afterwards. */
typedef void (*WbMovedPiecesFunc)   (const WbMovedPieces *pieces,
                                     gpointer       data);

/** Has @each called for the pieces of every job that has a day of delivery, in this thread, without
 * loading any job. */
gboolean      wb_book_scan_moved_pieces (WbBook    *self,
                                     WbMovedPiecesFunc each,
                                     gpointer       data,
                                     GCancellable  *cancellable,
                                     GError       **error);

/** Returns: (transfer full) (nullable): a whole job as last stored; %WB_STORE_ERROR_NOT_FOUND when
 * there is none. */
WbJob        *wb_book_load_job      (WbBook        *self,
                                     const char    *id,
                                     GCancellable  *cancellable,
                                     GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): id of the job with this job number, claim number or bill
 * number, in that order of preference, upper and lower case alike; %WB_STORE_ERROR_NOT_FOUND when
 * there is none. Of several jobs on one bill it is the newest. */
char         *wb_book_find_job      (WbBook        *self,
                                     const char    *number,
                                     GCancellable  *cancellable,
                                     GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_book_save_job:
 * @base: (nullable): the stored job that @job was made from; %NULL for a new job
 * @job: what to store; already checked
 * @deed: what was done, for the history ("imported 120 pieces")
 *
 * Stores the difference between @base and @job, with one history entry that holds each changed
 * field's old and new value, in one transaction. When the book's revision is no longer that of
 * @base nothing is stored and the error is %WB_STORE_ERROR_CONFLICT, likewise when the job was
 * removed; a new job whose id the book has is %WB_STORE_ERROR_EXISTS. A job or claim number already
 * taken, upper and lower case alike, gives %WB_STORE_ERROR_CONSTRAINT that names it and its holder.
 * Without any difference nothing is stored and the revision stays.
 * Returns: (transfer full) (nullable): the job with its new revision.
 */
WbJob        *wb_book_save_job      (WbBook        *self,
                                     WbJob         *base,
                                     WbJob         *job,
                                     const char    *deed,
                                     GCancellable  *cancellable,
                                     GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_book_save_job() for several new jobs in one transaction: all or none. */
gboolean      wb_book_add_jobs      (WbBook        *self,
                                     GPtrArray     *jobs,
                                     const char    *deed,
                                     GCancellable  *cancellable,
                                     GError       **error);

/** Removes a job whose revision is still @revision (else %WB_STORE_ERROR_CONFLICT). Its history
 * stays, with all that was removed in it, and goes on if a job of that id is stored anew. */
gboolean      wb_book_remove_job    (WbBook        *self,
                                     const char    *id,
                                     gint64         revision,
                                     GCancellable  *cancellable,
                                     GError       **error);

/** Returns: (transfer full) (nullable): the next free number with @prefix ("J-2026-" gives
 * "J-2026-0007"), one above the highest that anything ever had, though it be gone; for jobs and claims
 * alike. */
char         *wb_book_next_number   (WbBook        *self,
                                     const char    *prefix,
                                     GCancellable  *cancellable,
                                     GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** WbHistoryEntry: one deed in a job's history; free with wb_history_entry_free(). */
typedef struct
{
  gint64  revision;
  char   *when;           /* ISO 8601, UTC */
  char   *who;            /* login name */
  char   *deed;
  char   *changes;        /* JSON: array of {kind, id, field, old, new}; old and new are canonical
                             text, or null when not given; a record that is new or gone has one
                             more for the field "id" */
} WbHistoryEntry;

void          wb_history_entry_free (WbHistoryEntry *self);

/** Returns: (transfer full) (element-type WbHistoryEntry): newest first. */
GPtrArray    *wb_book_list_history  (WbBook        *self,
                                     const char    *job_id,
                                     GCancellable  *cancellable,
                                     GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_book_keep_documents:
 * @documents: (element-type GBytes): each of at most %WB_KEPT_DOCUMENT_MAX_BYTES
 *
 * Keeps documents for good, in one transaction; one that is kept already is left as it is. Returns:
 * (transfer full) (nullable) (element-type utf8): the SHA-256 of each, in lower-case hexadecimal
 * digits, by which it is found again.
 */
GPtrArray    *wb_book_keep_documents (WbBook       *self,
                                      GPtrArray    *documents,
                                      GCancellable *cancellable,
                                      GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the document of that hash; %WB_STORE_ERROR_NOT_FOUND when
 * the book does not have it, _CORRUPT when what it has is not what was kept. */
GBytes       *wb_book_read_document  (WbBook       *self,
                                      const char   *hash,
                                      GCancellable *cancellable,
                                      GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Largest document that is kept: a job document of the largest job is a tenth of it. */
#define WB_KEPT_DOCUMENT_MAX_BYTES ((gsize) 256 * 1024 * 1024)

/** Returns: a number that changes whenever any process has written to the book; cheap. 0 with
 * @error set on failure. */
gint64        wb_book_get_data_version (WbBook     *self,
                                        GError    **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbJobSummary, wb_job_summary_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbHistoryEntry, wb_history_entry_free)

G_END_DECLS
