/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of publications, and a job from a server put into the book together with its row. */
#include "config.h"

#include "store/wb-publication-store.h"

#include "store/wb-book-private.h"
#include "store/wb-job-store.h"
#include "store/wb-kept-document.h"

void
wb_publication_free (WbPublication *self)
{
  if (self == NULL)
    return;

  g_free (self->job_id);
  g_free (self->server_id);
  g_strfreev (self->heads);
  g_free (self->document);
  g_free (self->at);
  g_free (self);
}

/* --- reading ---------------------------------------------------------------------------------- */

typedef struct
{
  const char *job_id;
  const char *server_id;
  GPtrArray  *found;
} Search;

static WbPublication *
read_row (sqlite3_stmt *statement)
{
  WbPublication *self = g_new0 (WbPublication, 1);
  g_autofree char *heads = wb_sqlite_dup_text (statement, 2);

  self->job_id = wb_sqlite_dup_text (statement, 0);
  self->server_id = wb_sqlite_dup_text (statement, 1);
  self->heads = g_strsplit (heads, " ", -1);
  self->document = wb_sqlite_dup_text (statement, 3);
  self->at = wb_sqlite_dup_text (statement, 4);
  return self;
}

static gboolean
find_publications (WbSqlite  *book,
                   gpointer   data,
                   GError   **error)
{
  Search *search = data;
  static const char sql[] =
    "SELECT job_id, server, heads, document, \"at\" FROM"
    " publication WHERE (?1 IS NULL OR job_id = ?1) AND"
    " (?2 IS NULL OR server = ?2)"
    " ORDER BY job_id, server";
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (search->job_id),
                                                    WB_TEXT (search->server_id));
  WbStep step;

  if (statement == NULL)
    return FALSE;
  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    g_ptr_array_add (search->found, read_row (statement));
  return step == WB_STEP_END;
}

static GPtrArray *
list_publications (WbBook        *self,
                   const char    *job_id,
                   const char    *server_id,
                   GCancellable  *cancellable,
                   GError       **error)
{
  g_autoptr (GPtrArray) found =
    g_ptr_array_new_with_free_func ((GDestroyNotify) wb_publication_free);
  Search search = { job_id, server_id, found };

  return wb_book_read (self, find_publications, &search, cancellable, error)
           ? g_steal_pointer (&found) : NULL;
}

GPtrArray *
wb_book_list_publications (WbBook        *self,
                           const char    *job_id,
                           GCancellable  *cancellable,
                           GError       **error)
{
  g_return_val_if_fail (WB_IS_BOOK (self), NULL);

  return list_publications (self, job_id, NULL, cancellable, error);
}

gboolean
wb_book_load_publication (WbBook         *self,
                          const char     *job_id,
                          const char     *server_id,
                          WbPublication **out,
                          GCancellable   *cancellable,
                          GError        **error)
{
  g_autoptr (GPtrArray) found = NULL;

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (job_id != NULL && server_id != NULL && out != NULL, FALSE);

  *out = NULL;
  found = list_publications (self, job_id, server_id, cancellable, error);
  if (found == NULL)
    return FALSE;
  if (found->len > 0)
    *out = g_ptr_array_steal_index (found, 0);
  return TRUE;
}

/* --- writing ---------------------------------------------------------------------------------- */

/* @job is NULL when only the state is noted. */
typedef struct
{
  const WbPublication *publication;
  GBytes              *document;
  WbJob               *base;
  WbJob               *job;
  const char          *deed;
  GPtrArray           *papers;
  WbJob               *stored;
} Note;

static gboolean
put_row (WbSqlite             *book,
         const WbPublication  *publication,
         const char           *document,
         GError              **error)
{
  g_autofree char *heads = g_strjoinv (" ", publication->heads);
  static const char sql[] =
    "INSERT INTO publication (job_id, server, heads,"
    " document, \"at\") VALUES (?1, ?2, ?3, ?4, ?5) ON"
    " CONFLICT (job_id, server) DO UPDATE SET heads ="
    " excluded.heads, document = excluded.document,"
    " \"at\" = excluded.\"at\"";

  return wb_sqlite_run_with (book, sql, error, WB_TEXT (publication->job_id),
                             WB_TEXT (publication->server_id), WB_TEXT (heads), WB_TEXT (document),
                             WB_TEXT (publication->at));
}

static gboolean
keep_papers (WbSqlite   *book,
             GPtrArray  *papers,
             GError    **error)
{
  for (guint i = 0; papers != NULL && i < papers->len; i++)
    {
      g_autofree char *hash = wb_kept_document_enter (book, g_ptr_array_index (papers, i), error);

      if (hash == NULL)
        return FALSE;
    }
  return TRUE;
}

static gboolean
note (WbSqlite  *book,
      gpointer   data,
      GError   **error)
{
  Note *self = data;
  g_autofree char *document = NULL;

  if (self->job != NULL)
    {
      self->stored = wb_job_store_save (book, self->base, self->job, self->deed, error);
      if (self->stored == NULL || !keep_papers (book, self->papers, error))
        return FALSE;
    }
  document = wb_kept_document_enter (book, self->document, error);
  return document != NULL && put_row (book, self->publication, document, error);
}

gboolean
wb_book_note_publication (WbBook               *self,
                          const WbPublication  *publication,
                          GBytes               *document,
                          GCancellable         *cancellable,
                          GError              **error)
{
  Note data = { .publication = publication, .document = document };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (publication != NULL && document != NULL, FALSE);

  return wb_book_write (self, note, &data, cancellable, error);
}

WbJob *
wb_book_take_published (WbBook               *self,
                        WbJob                *base,
                        WbJob                *job,
                        const char           *deed,
                        GPtrArray            *papers,
                        const WbPublication  *publication,
                        GBytes               *document,
                        GCancellable         *cancellable,
                        GError              **error)
{
  Note data = { publication, document, base, job, deed, papers, NULL };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (job != NULL && deed != NULL, NULL);
  g_return_val_if_fail (publication != NULL && document != NULL, NULL);

  if (!wb_book_write (self, note, &data, cancellable, error))
    g_clear_pointer (&data.stored, wb_job_unref);
  return data.stored;
}
