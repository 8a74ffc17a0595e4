/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new book in a folder of its own for each test, jobs to put into it, and a look into the file
 * behind the book's back. */
#pragma once

#include <sqlite3.h>

#include "store/wb-book.h"
#include "store/wb-store.h"

G_BEGIN_DECLS

typedef struct
{
  char   *folder;
  char   *path;     /* of the book */
  WbBook *book;     /* (nullable) */
} Fixture;

/** Makes the folder and a new book in it. */
void      fixture_set_up        (Fixture       *self,
                                 gconstpointer  data);
/** Makes the folder only. */
void      fixture_set_up_folder (Fixture       *self,
                                 gconstpointer  data);
/** Closes the book, fails if it left anything of its own beside it, and removes the folder. */
void      fixture_tear_down     (Fixture       *self,
                                 gconstpointer  data);
/** Closes the book and opens it again. */
void      fixture_reopen        (Fixture       *self);
/** Returns: (transfer full): the names in the folder, in order, with blanks between. */
char     *fixture_list_folder   (Fixture       *self);
/** Returns: (transfer full): SHA-256 of a file. */
char     *digest_of             (const char    *path);

/** Sets a field from text, which must be right. */
void      set_field             (gpointer       record,
                                 const char    *name,
                                 const char    *text);
/** Returns: (transfer full): @job with the record of @kind and @id added or changed; then pairs of
 * field and text, NULL. */
WbJob    *with_record           (WbJob         *job,
                                 WbKind         kind,
                                 const char    *id,
                                 ...) G_GNUC_NULL_TERMINATED;
/** Replaces @job by one with the record added or changed. */
#define change_job(job, ...) \
  G_STMT_START { \
    WbJob *changed_ = with_record (*(job), __VA_ARGS__, NULL); \
    wb_job_unref (*(job)); \
    *(job) = changed_; \
  } G_STMT_END

/** Returns: (transfer full): a job with one record or two of every kind. */
WbJob    *make_job              (const char    *id,
                                 const char    *number);
/** Returns: (transfer full): a job with @n pieces. */
WbJob    *make_large_job        (const char    *id,
                                 const char    *number,
                                 guint          n);

/** Saves, which must work. Returns: (transfer full). */
WbJob    *save                  (WbBook        *book,
                                 WbJob         *base,
                                 WbJob         *job);
/** Loads, which must work. Returns: (transfer full). */
WbJob    *load                  (WbBook        *book,
                                 const char    *id);
/** Fails unless both hold the same and are of the same revision. */
void      assert_same_job       (WbJob         *a,
                                 WbJob         *b);
/** Fails unless the error's message has @text in it, and no word of SQL. */
void      assert_says           (const GError  *error,
                                 const char    *text);

/** Returns: the number that @sql gives, asked of the file at @path by a connection of its own. */
gint64    ask_number            (const char    *path,
                                 const char    *sql);
/** Returns: (transfer full): likewise for text. */
char     *ask_text              (const char    *path,
                                 const char    *sql);
/** Writes to the file at @path behind the book's back. */
void      tamper                (const char    *path,
                                 const char    *sql);

G_END_DECLS
