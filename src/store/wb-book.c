/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book as an object: its threads and connections, and how long they live. What is asked of them
 * stands in wb-book-deeds.c. */
#include "config.h"

#include "store/wb-book.h"

#include "store/wb-book-guard.h"
#include "store/wb-book-private.h"

/* Readers that may be at work at the same time; others wait. */
#define MAX_READERS 4

struct _WbBook
{
  GObject      parent_instance;

  guint        version;      /* that this program knows, and the file had when it was opened */
  char        *path;         /* absolute: readers are opened later, the folder may be another */
  GThread     *writer;
  GAsyncQueue *deeds;        /* Deed, for the writer; borrowed from whoever waits for it */
  WbSqlite    *writing;      /* the writer's alone */
  WbBookGuard *guard;

  GMutex       mutex;        /* guards all below, and the state of every deed */
  GCond        changed;
  gboolean     closing;
  gboolean     closed;
  GPtrArray   *resting;      /* WbSqlite: readers not at work */
  guint        n_readers;    /* at work and resting */
  WbSqlite    *watching;     /* (nullable): never writes, so that every write is another's */
};

G_DEFINE_FINAL_TYPE (WbBook, wb_book, G_TYPE_OBJECT)

static gboolean
refuse_closed (WbBook  *self,
               GError **error)
{
  wb_store_set_error (self->path, WB_STORE_ERROR_CLOSED, error, "the book was closed");
  return FALSE;
}

/* --- one piece of work ------------------------------------------------------------------------ */

/* What is asked of a connection, with what it has to find there. */
typedef struct
{
  WbBook       *self;
  WbSqliteWork  work;
  gpointer      data;
} Task;

/* A later program may bring the book up to date while this one has it open; then nothing here may
 * touch it any more. */
static gboolean
check_and_work (WbSqlite  *book,
                gpointer   data,
                GError   **error)
{
  Task *task = data;
  gint64 version;

  if (!wb_sqlite_read_number (book, "PRAGMA user_version", &version, error))
    return FALSE;
  if (version == task->self->version)
    return task->work (book, task->data, error);
  wb_sqlite_set_error (book, WB_STORE_ERROR_NEWER, error,
                       "a later version of the program has brought the book up to date");
  return FALSE;
}

/* --- writing ---------------------------------------------------------------------------------- */

/* One thing to write, on the stack of the thread that waits for it. */
typedef struct
{
  Task         *task;         /* NULL: nothing more comes */
  GCancellable *cancellable;
  GError       *error;
  gboolean      succeeded;
  gboolean      finished;
} Deed;

static gpointer
write_deeds (gpointer data)
{
  WbBook *self = data;

  for (;;)
    {
      Deed *deed = g_async_queue_pop (self->deeds);
      gboolean last = deed->task == NULL;

      if (!last)
        deed->succeeded = wb_sqlite_transact (self->writing, TRUE, check_and_work, deed->task,
                                              deed->cancellable, &deed->error);
      g_mutex_lock (&self->mutex);
      deed->finished = TRUE;
      g_cond_broadcast (&self->changed);
      g_mutex_unlock (&self->mutex);
      if (last)
        return NULL;
    }
}

gboolean
wb_book_write (WbBook        *self,
               WbSqliteWork   work,
               gpointer       data,
               GCancellable  *cancellable,
               GError       **error)
{
  Task task = { self, work, data };
  Deed deed = { &task, cancellable, NULL, FALSE, FALSE };

  g_mutex_lock (&self->mutex);
  if (self->closing)
    {
      g_mutex_unlock (&self->mutex);
      return refuse_closed (self, error);
    }
  /* Under the lock, so that the writer's last deed cannot come before this one. */
  g_async_queue_push (self->deeds, &deed);
  while (!deed.finished)
    g_cond_wait (&self->changed, &self->mutex);
  g_mutex_unlock (&self->mutex);
  if (deed.error != NULL)
    g_propagate_error (error, deed.error);
  return deed.succeeded;
}

/* --- reading ---------------------------------------------------------------------------------- */

static WbSqlite *
borrow_reader (WbBook  *self,
               GError **error)
{
  WbSqlite *reader = NULL;

  g_mutex_lock (&self->mutex);
  while (!self->closing && self->resting->len == 0 && self->n_readers == MAX_READERS)
    g_cond_wait (&self->changed, &self->mutex);
  if (self->closing)
    {
      g_mutex_unlock (&self->mutex);
      refuse_closed (self, error);
      return NULL;
    }
  if (self->resting->len > 0)
    reader = g_ptr_array_steal_index (self->resting, self->resting->len - 1);
  else
    self->n_readers++;
  g_mutex_unlock (&self->mutex);

  return reader != NULL ? reader : wb_sqlite_open (self->path, WB_SQLITE_READ, error);
}

/* @reader is NULL when it could not be opened. */
static void
return_reader (WbBook   *self,
               WbSqlite *reader)
{
  g_mutex_lock (&self->mutex);
  if (reader != NULL)
    g_ptr_array_add (self->resting, reader);
  else
    self->n_readers--;
  g_cond_broadcast (&self->changed);
  g_mutex_unlock (&self->mutex);
}

gboolean
wb_book_read (WbBook        *self,
              WbSqliteWork   work,
              gpointer       data,
              GCancellable  *cancellable,
              GError       **error)
{
  Task task = { self, work, data };
  GError *fault = NULL;
  WbSqlite *reader = borrow_reader (self, &fault);
  gboolean succeeded;

  if (reader == NULL)
    {
      if (!g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_CLOSED))
        return_reader (self, NULL);
      g_propagate_error (error, fault);
      return FALSE;
    }
  succeeded = wb_sqlite_transact (reader, FALSE, check_and_work, &task, cancellable, error);
  return_reader (self, reader);
  return succeeded;
}

/* --- opening and closing ---------------------------------------------------------------------- */

WbBook *
wb_book_open_with (const char         *path,
                   WbBookMode          mode,
                   const char *const  *migrations,
                   GCancellable       *cancellable,
                   GError            **error)
{
  g_autofree char *absolute = g_canonicalize_filename (path, NULL);
  WbSqlite *writing = wb_book_file_open (absolute, mode, migrations, cancellable, error);
  WbBook *self;

  if (writing == NULL)
    return NULL;
  self = g_object_new (WB_TYPE_BOOK, NULL);
  self->path = g_steal_pointer (&absolute);
  self->version = g_strv_length ((char **) migrations);
  self->writing = writing;
  self->guard = wb_book_guard_new (writing);
  self->writer = g_thread_new ("book-writer", write_deeds, self);
  return self;
}

WbBook *
wb_book_open (const char    *path,
              WbBookMode     mode,
              GCancellable  *cancellable,
              GError       **error)
{
  g_return_val_if_fail (path != NULL, NULL);

  return wb_book_open_with (path, mode, wb_migrations (), cancellable, error);
}

const char *
wb_book_get_path (WbBook *self)
{
  g_return_val_if_fail (WB_IS_BOOK (self), NULL);

  return self->path;
}

/* The writer's connection goes last: it puts the log away. */
static void
close_connections (WbBook *self)
{
  Deed last = { NULL };

  g_async_queue_push (self->deeds, &last);
  while (!last.finished || self->resting->len < self->n_readers)
    g_cond_wait (&self->changed, &self->mutex);
  wb_book_guard_let_go (self->guard);
  g_ptr_array_set_size (self->resting, 0);
  self->n_readers = 0;
  g_clear_pointer (&self->watching, wb_sqlite_close);
  g_clear_pointer (&self->writing, wb_sqlite_close);
  g_clear_pointer (&self->guard, wb_book_guard_free);
}

void
wb_book_close (WbBook *self)
{
  g_return_if_fail (WB_IS_BOOK (self));

  g_mutex_lock (&self->mutex);
  if (self->closing)
    {
      while (!self->closed)
        g_cond_wait (&self->changed, &self->mutex);
      g_mutex_unlock (&self->mutex);
      return;
    }
  self->closing = TRUE;
  g_cond_broadcast (&self->changed);
  if (self->writer != NULL)
    close_connections (self);
  self->closed = TRUE;
  g_cond_broadcast (&self->changed);
  g_mutex_unlock (&self->mutex);
  if (self->writer != NULL)
    g_thread_join (self->writer);
}

static void
wb_book_dispose (GObject *object)
{
  wb_book_close (WB_BOOK (object));

  G_OBJECT_CLASS (wb_book_parent_class)->dispose (object);
}

static void
wb_book_finalize (GObject *object)
{
  WbBook *self = WB_BOOK (object);

  g_ptr_array_unref (self->resting);
  g_async_queue_unref (self->deeds);
  g_cond_clear (&self->changed);
  g_mutex_clear (&self->mutex);
  g_free (self->path);

  G_OBJECT_CLASS (wb_book_parent_class)->finalize (object);
}

static void
wb_book_class_init (WbBookClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);

  object_class->dispose = wb_book_dispose;
  object_class->finalize = wb_book_finalize;
}

static void
wb_book_init (WbBook *self)
{
  g_mutex_init (&self->mutex);
  g_cond_init (&self->changed);
  self->deeds = g_async_queue_new ();
  self->resting = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_sqlite_close);
}

gint64
wb_book_get_data_version (WbBook  *self,
                          GError **error)
{
  gint64 version = 0;

  g_return_val_if_fail (WB_IS_BOOK (self), 0);

  g_mutex_lock (&self->mutex);
  if (self->closing)
    refuse_closed (self, error);
  else
    {
      if (self->watching == NULL)
        self->watching = wb_sqlite_open (self->path, WB_SQLITE_READ, error);
      if (self->watching == NULL ||
          !wb_sqlite_read_number (self->watching, "PRAGMA data_version", &version, error))
        version = 0;
    }
  g_mutex_unlock (&self->mutex);
  return version;
}
