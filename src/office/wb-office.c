/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The office itself: a book, the terms that go with it, and the way in which a deed runs in a
 * worker thread. The deeds on jobs stand in wb-office-jobs.c, the reckoning in
 * wb-office-reckon.c, the reading of terms in wb-terms-folder.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-office.h"

#include "office/wb-office-private.h"
#include "office/wb-catalog-folder.h"
#include "office/wb-share-private.h"
#include "office/wb-terms-folder.h"

struct _WbOffice
{
  GObject       parent_instance;

  WbBook       *book;
  WbTermsSet   *terms;
  WbCatalog    *catalog;
  GStrv         catalog_faults;
  GStrv         faults;
  GMainContext *context;   /* of whoever opened the office; signals come out there */
};

G_DEFINE_FINAL_TYPE (WbOffice, wb_office, G_TYPE_OBJECT)

enum
{
  JOB_SAVED,
  SERVERS_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* --- signals ---------------------------------------------------------------------------------- */

typedef struct
{
  WbOffice *office;
  char     *job_id;
} Saved;

static void
saved_free (gpointer data)
{
  Saved *saved = data;

  g_object_unref (saved->office);
  g_free (saved->job_id);
  g_free (saved);
}

static gboolean
emit_saved_cb (gpointer data)
{
  Saved *saved = data;

  g_signal_emit (saved->office, signals[JOB_SAVED], 0, saved->job_id);
  return G_SOURCE_REMOVE;
}

void
wb_office_emit_job_saved (WbOffice   *self,
                          const char *job_id)
{
  g_autoptr (GSource) source = g_idle_source_new ();
  Saved *saved = g_new0 (Saved, 1);

  saved->office = g_object_ref (self);
  saved->job_id = g_strdup (job_id);

  /* Always by way of the loop: a worker thread must not run the listeners itself. */
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, emit_saved_cb, saved, saved_free);
  g_source_set_static_name (source, "wb-office job-saved");
  g_source_attach (source, self->context);
}

static gboolean
emit_servers_changed_cb (gpointer data)
{
  g_signal_emit (data, signals[SERVERS_CHANGED], 0);
  return G_SOURCE_REMOVE;
}

void
wb_office_emit_servers_changed (WbOffice *self)
{
  g_autoptr (GSource) source = g_idle_source_new ();

  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, emit_servers_changed_cb, g_object_ref (self), g_object_unref);
  g_source_set_static_name (source, "wb-office servers-changed");
  g_source_attach (source, self->context);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_office_dispose (GObject *object)
{
  WbOffice *self = WB_OFFICE (object);

  if (self->book != NULL)
    wb_book_close (self->book);

  G_OBJECT_CLASS (wb_office_parent_class)->dispose (object);
}

static void
wb_office_finalize (GObject *object)
{
  WbOffice *self = WB_OFFICE (object);

  g_clear_object (&self->book);
  g_clear_pointer (&self->terms, wb_terms_set_unref);
  g_clear_pointer (&self->catalog, wb_catalog_unref);
  g_clear_pointer (&self->catalog_faults, g_strfreev);
  g_clear_pointer (&self->faults, g_strfreev);
  g_clear_pointer (&self->context, g_main_context_unref);

  G_OBJECT_CLASS (wb_office_parent_class)->finalize (object);
}

static void
wb_office_class_init (WbOfficeClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = wb_office_dispose;
  object_class->finalize = wb_office_finalize;

  signals[JOB_SAVED] = g_signal_new ("job-saved",
                                     G_TYPE_FROM_CLASS (klass),
                                     G_SIGNAL_RUN_LAST,
                                     0,
                                     NULL, NULL,
                                     NULL,
                                     G_TYPE_NONE,
                                     1, G_TYPE_STRING);
  signals[SERVERS_CHANGED] = g_signal_new ("servers-changed",
                                           G_TYPE_FROM_CLASS (klass),
                                           G_SIGNAL_RUN_LAST,
                                           0,
                                           NULL, NULL,
                                           NULL,
                                           G_TYPE_NONE,
                                           0);
}

static void
wb_office_init (WbOffice *self)
{
}

/* --- opening and closing ---------------------------------------------------------------------- */

static WbOffice *
open_for_context (const char    *path,
                  WbBookMode     mode,
                  GMainContext  *context,
                  GCancellable  *cancellable,
                  GError       **error)
{
  g_autoptr (WbOffice) self = NULL;
  g_autoptr (WbBook) book = wb_book_open (path, mode, cancellable, error);

  if (book == NULL)
    return NULL;

  self = g_object_new (WB_TYPE_OFFICE, NULL);
  self->book = g_steal_pointer (&book);
  self->terms = wb_terms_folder_load_all (&self->faults);
  self->catalog = wb_catalog_folder_load_all (&self->catalog_faults);
  self->context = g_main_context_ref (context);

  return g_steal_pointer (&self);
}

WbOffice *
wb_office_open (const char    *path,
                WbBookMode     mode,
                GCancellable  *cancellable,
                GError       **error)
{
  g_autoptr (GMainContext) context = g_main_context_ref_thread_default ();

  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  return open_for_context (path, mode, context, cancellable, error);
}

typedef struct
{
  char         *path;
  WbBookMode    mode;
  GMainContext *context;
} Opening;

static void
opening_free (gpointer data)
{
  Opening *opening = data;

  g_free (opening->path);
  g_main_context_unref (opening->context);
  g_free (opening);
}

static void
open_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Opening *opening = data;
  g_autoptr (GError) error = NULL;
  WbOffice *office;

  office = open_for_context (opening->path, opening->mode, opening->context, cancellable, &error);
  if (office != NULL)
    g_task_return_pointer (task, office, g_object_unref);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_office_open_async (const char          *path,
                      WbBookMode           mode,
                      GCancellable        *cancellable,
                      GAsyncReadyCallback  callback,
                      gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, callback, data);
  Opening *opening;

  g_return_if_fail (path != NULL);

  opening = g_new0 (Opening, 1);
  opening->path = g_strdup (path);
  opening->mode = mode;
  opening->context = g_main_context_ref_thread_default ();

  g_task_set_source_tag (task, wb_office_open_async);
  g_task_set_task_data (task, opening, opening_free);
  g_task_run_in_thread (task, open_in_thread);
}

WbOffice *
wb_office_open_finish (GAsyncResult  *result,
                       GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, NULL), NULL);
  g_return_val_if_fail (g_async_result_is_tagged (result, wb_office_open_async), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}

void
wb_office_close (WbOffice *self)
{
  g_return_if_fail (WB_IS_OFFICE (self));

  wb_book_close (self->book);
}

const char *
wb_office_get_path (WbOffice *self)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return wb_book_get_path (self->book);
}

WbTermsSet *
wb_office_get_terms (WbOffice *self)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return self->terms;
}

const char *const *
wb_office_get_terms_faults (WbOffice *self)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return (const char *const *) self->faults;
}

WbCatalog *
wb_office_get_catalog (WbOffice *self)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return self->catalog;
}

const char *const *
wb_office_get_catalog_faults (WbOffice *self)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return (const char *const *) self->catalog_faults;
}

WbBook *
wb_office_get_book (WbOffice *self)
{
  return self->book;
}

/* --- deeds in a worker thread ----------------------------------------------------------------- */

static void
deed_free (gpointer data)
{
  WbDeed *deed = data;

  g_free (deed->text);
  g_free (deed->name);
  g_clear_pointer (&deed->base, wb_job_unref);
  g_clear_pointer (&deed->job, wb_job_unref);
  g_free (deed);
}

static void
run_deed_in_thread (GTask        *task,
                    gpointer      source,
                    gpointer      data,
                    GCancellable *cancellable)
{
  const WbDeed *deed = data;
  g_autoptr (GError) error = NULL;
  gpointer result = deed->run (WB_OFFICE (source), deed, cancellable, &error);

  if (result != NULL)
    g_task_return_pointer (task, result, deed->free_result);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_office_start (WbOffice            *self,
                 WbDeed              *deed,
                 gpointer             tag,
                 GCancellable        *cancellable,
                 GAsyncReadyCallback  callback,
                 gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (self, cancellable, callback, data);

  /* What was stored is stored, also when somebody cancels a moment later. */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_source_tag (task, tag);
  g_task_set_task_data (task, deed, deed_free);
  g_task_run_in_thread (task, run_deed_in_thread);
}

gpointer
wb_office_finish (WbOffice      *self,
                  GAsyncResult  *result,
                  gpointer       tag,
                  GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), NULL);
  g_return_val_if_fail (g_async_result_is_tagged (result, tag), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}
