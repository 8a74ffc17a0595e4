/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An office book of its own for one test, with jobs in it, and waiting for what the desk does in
 * the background. */
#pragma once

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

typedef struct
{
  char     *folder;
  char     *path;
  WbOffice *office;
} WbDeskBook;

/** Makes a folder with an empty book in it. */
WbDeskBook *wb_desk_book_new        (void);
/** Closes the book and removes the folder. */
void        wb_desk_book_free       (WbDeskBook  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbDeskBook, wb_desk_book_free)

/**
 * wb_desk_book_add_job:
 * @number: job number
 * @shipper: name of the shipper
 * @from: city of the pick-up
 * @to: city of the delivery
 *
 * Stores a job with an order, a shipper (party "p1"), two stops ("s1", "s2") and @n_pieces pieces
 * ("b0" …) with tags from 1.
 * Returns: (transfer full): as stored; its id is @number in lower case.
 */
WbJob      *wb_desk_book_add_job    (WbDeskBook  *self,
                                     const char  *number,
                                     const char  *shipper,
                                     const char  *from,
                                     const char  *to,
                                     guint        n_pieces) G_GNUC_WARN_UNUSED_RESULT;

/** Stores every job of the demo office. Returns: how many. */
guint       wb_desk_book_add_demo   (WbDeskBook  *self);

/** Returns: (transfer full): the job as the book has it now. */
WbJob      *wb_desk_book_load       (WbDeskBook  *self,
                                     const char  *id) G_GNUC_WARN_UNUSED_RESULT;

/** Opens the same file once more, as another process would. Returns: (transfer full). */
WbOffice   *wb_desk_book_open_again (WbDeskBook  *self) G_GNUC_WARN_UNUSED_RESULT;

/** Turns the main loop until everything in @model is in the book; fails when that is refused. */
void        wb_test_flush           (WbJobModel  *model);

/** Turns the main loop for @milliseconds: for showing that something does not happen. */
void        wb_test_pass_time       (guint        milliseconds);

/** Sets a field that has to be taken. */
void        wb_test_set_field       (WbJobModel  *model,
                                     WbKind       kind,
                                     const char  *id,
                                     const char  *field,
                                     const char  *text);

/** Asserts the canonical text of a field. */
#define wb_test_assert_field(job, kind, id, field, expected)                            \
  G_STMT_START                                                                          \
  {                                                                                     \
    g_autofree char *wb_text_ = wb_test_get_field ((job), (kind), (id), (field));       \
    g_assert_cmpstr (wb_text_, ==, (expected));                                         \
  }                                                                                     \
  G_STMT_END

char       *wb_test_get_field       (const WbJob *job,
                                     WbKind       kind,
                                     const char  *id,
                                     const char  *field) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
