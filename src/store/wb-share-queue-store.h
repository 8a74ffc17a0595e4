/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What waits to be sent to a server or fetched from one, in the book, so that it outlives the
 * program. Every function blocks, and fails as those of wb-book.h do. */
#pragma once

#include "core/wb-enum.h"
#include "store/wb-book.h"

G_BEGIN_DECLS

typedef enum
{
  WB_SHARE_DEED_PUBLISH,
  WB_SHARE_DEED_FETCH,
} WbShareDeed;

/** "publish", "fetch". */
extern const WbEnum wb_share_deeds;

/**
 * WbShareState:
 * @WB_SHARE_WAITING: for its turn, or for the time of the next try
 * @WB_SHARE_RUNNING: somebody is at work on it
 * @WB_SHARE_PAUSED: by a person, until told otherwise
 * @WB_SHARE_FAILED: by something that trying again does not mend
 * @WB_SHARE_DONE: finished; may be taken out of the list
 */
typedef enum
{
  WB_SHARE_WAITING,
  WB_SHARE_RUNNING,
  WB_SHARE_PAUSED,
  WB_SHARE_FAILED,
  WB_SHARE_DONE,
} WbShareState;

/** "waiting", "running", "paused", "failed", "done". */
extern const WbEnum wb_share_states;

/**
 * WbShareEntry: one line of the queue
 * @id: given by the book
 * @title: what a person calls the job; its number
 * @tries: that failed so far
 * @next_try: not before; seconds since 1970
 * @fault: (nullable): what went wrong at the last try, as a sentence
 * @done: bytes, of @all (0: not known)
 * @added: seconds since 1970
 */
typedef struct
{
  gint64        id;
  char         *job_id;
  char         *title;
  char         *server_id;
  WbShareDeed   deed;
  WbShareState  state;
  guint         tries;
  gint64        next_try;
  char         *fault;
  gint64        done;
  gint64        all;
  gint64        added;
} WbShareEntry;

WbShareEntry *wb_share_entry_copy       (const WbShareEntry *self) G_GNUC_WARN_UNUSED_RESULT;
void          wb_share_entry_free       (WbShareEntry       *self);

/** Returns: (transfer full) (element-type WbShareEntry): in the order in which they were added. */
GPtrArray    *wb_book_list_share_queue  (WbBook             *self,
                                         GCancellable       *cancellable,
                                         GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Adds @entry as a new one at the end; its id is not looked at. An entry for the same job, server
 * and deed that waits, is paused or failed is taken instead, and waits anew. Returns: the id, or 0
 * with @error set. */
gint64        wb_book_add_share_entry   (WbBook             *self,
                                         const WbShareEntry *entry,
                                         GCancellable       *cancellable,
                                         GError            **error);

/** Seconds. A next try that is further off was reckoned by a clock that was wrong: its time has
 * come. */
#define WB_SHARE_LONGEST_WAIT 3600

/**
 * wb_book_claim_share_entry:
 * @holder: a random name of the program that asks
 * @now: seconds since 1970
 * @patience: seconds after which one that is at work and has not said so is believed gone
 * @out: (out) (transfer full) (nullable): the entry, now running; %NULL when there is nothing to do
 *
 * Takes the next entry whose time has come, so that no other program does: waiting ones in their
 * order, and running ones whose holder is gone. Neither is kept waiting by a clock that was wrong
 * and has been put right.
 */
gboolean      wb_book_claim_share_entry (WbBook             *self,
                                         const char         *holder,
                                         gint64              now,
                                         gint64              patience,
                                         WbShareEntry      **out,
                                         GCancellable       *cancellable,
                                         GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Says that @holder is still at work on an entry, and how far. @still: (out): %FALSE when the entry
 * is its no more: paused, removed or taken over. */
gboolean      wb_book_beat_share_entry  (WbBook             *self,
                                         gint64              id,
                                         const char         *holder,
                                         gint64              now,
                                         gint64              done,
                                         gint64              all,
                                         gboolean           *still,
                                         GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Lays an entry down that @holder has been at work on: state, tries, next try, fault and bytes of
 * @entry are stored, unless it is @holder's no more. */
gboolean      wb_book_lay_share_entry   (WbBook             *self,
                                         const WbShareEntry *entry,
                                         const char         *holder,
                                         GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Pauses an entry, or lets it wait anew from now on with no failed tries; whoever is at work on it
 * finds out by its next beat. One that is done stays. %WB_STORE_ERROR_NOT_FOUND. */
gboolean      wb_book_pause_share_entry (WbBook             *self,
                                         gint64              id,
                                         gboolean            pause,
                                         GCancellable       *cancellable,
                                         GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Takes an entry out; %TRUE also when it is not there. */
gboolean      wb_book_drop_share_entry  (WbBook             *self,
                                         gint64              id,
                                         GCancellable       *cancellable,
                                         GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Takes all entries out that are done. */
gboolean      wb_book_drop_shared       (WbBook             *self,
                                         GCancellable       *cancellable,
                                         GError            **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbShareEntry, wb_share_entry_free)

G_END_DECLS
