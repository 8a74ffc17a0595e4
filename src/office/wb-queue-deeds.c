/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deeds on the queue in their blocking form, what is made of a fault, and how long to wait for
 * the next try. Who does the work stands in wb-queue-work.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-queue-private.h"

#include "office/wb-office-private.h"
#include "office/wb-publish.h"
#include "office/wb-words.h"
#include "share/wb-share.h"

#include <glib/gi18n.h>
#include <string.h>

static const WbEnumValue fault_values[] = {
  { WB_QUEUE_FAULT_NONE, "none", N_("Nothing went wrong") },
  { WB_QUEUE_FAULT_PASSES, "passes", N_("It is tried again") },
  { WB_QUEUE_FAULT_SECRET, "secret", N_("The password is missing or wrong") },
  { WB_QUEUE_FAULT_CERTIFICATE, "certificate", N_("The server's certificate is not trusted") },
  { WB_QUEUE_FAULT_HOST_KEY, "host-key", N_("The server's key has to be confirmed") },
  { WB_QUEUE_FAULT_HOST_KEY_CHANGED, "host-key-changed", N_("The server has another key") },
  { WB_QUEUE_FAULT_CONFLICT, "conflict", N_("The job was changed on the server") },
  { WB_QUEUE_FAULT_OTHER, "other", N_("It cannot be done as it is") },
};

const WbEnum wb_queue_faults = { "fault", fault_values, G_N_ELEMENTS (fault_values) };

#define LONGEST_PAUSE (30 * 60)

/* --- faults ----------------------------------------------------------------------------------- */

static WbQueueFault
fault_of_share (WbShareError code)
{
  if (wb_share_error_may_pass (code))
    return WB_QUEUE_FAULT_PASSES;
  if (code == WB_SHARE_ERROR_LOGIN)
    return WB_QUEUE_FAULT_SECRET;
  if (code == WB_SHARE_ERROR_CERTIFICATE)
    return WB_QUEUE_FAULT_CERTIFICATE;
  if (code == WB_SHARE_ERROR_HOST_KEY_UNKNOWN)
    return WB_QUEUE_FAULT_HOST_KEY;
  if (code == WB_SHARE_ERROR_HOST_KEY_CHANGED)
    return WB_QUEUE_FAULT_HOST_KEY_CHANGED;
  if (code == WB_SHARE_ERROR_CHANGED)
    return WB_QUEUE_FAULT_CONFLICT;
  return WB_QUEUE_FAULT_OTHER;
}

WbQueueFault
wb_queue_fault_of_error (const GError *error)
{
  if (error->domain == WB_SHARE_ERROR)
    return fault_of_share ((WbShareError) error->code);

  /* The book or its disk: somebody stored the job just now, or holds the book, or makes room. */
  if (g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_BUSY) ||
      g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT) ||
      g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_FULL) ||
      g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_IO) ||
      g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE) ||
      g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC))
    return WB_QUEUE_FAULT_PASSES;
  return WB_QUEUE_FAULT_OTHER;
}

/* The book has one text for a fault: its kind is the first line. */
char *
wb_queue_fault_pack (const GError *error)
{
  g_autofree char *sentence = wb_words_error (error);

  return g_strconcat (wb_enum_nick (&wb_queue_faults, (int) wb_queue_fault_of_error (error)), "\n",
                      sentence, NULL);
}

WbQueueFault
wb_queue_fault_of (const WbShareEntry  *entry,
                   const char         **sentence)
{
  const char *end = entry->fault != NULL ? strchr (entry->fault, '\n') : NULL;
  g_autofree char *nick = end != NULL ? g_strndup (entry->fault, (gsize) (end - entry->fault))
                                      : NULL;
  const WbEnumValue *kind = nick != NULL ? wb_enum_find_nick (&wb_queue_faults, nick) : NULL;

  if (sentence != NULL)
    *sentence = kind != NULL ? end + 1 : entry->fault;
  if (entry->fault == NULL)
    return WB_QUEUE_FAULT_NONE;
  return kind != NULL ? (WbQueueFault) kind->value : WB_QUEUE_FAULT_OTHER;
}

gint64
wb_queue_pause_seconds (guint   tries,
                        guint32 chance)
{
  gint64 pause = 5;

  for (guint i = 1; i < tries && pause < LONGEST_PAUSE; i++)
    pause *= 3;
  pause = MIN (pause, LONGEST_PAUSE);
  return pause - (gint64) chance % (pause / 5 + 1);
}

/* --- deeds ------------------------------------------------------------------------------------ */

gint64
wb_office_queue_add (WbOffice      *self,
                     WbShareDeed    deed,
                     const char    *server_id,
                     const char    *job_id,
                     const char    *title,
                     GCancellable  *cancellable,
                     GError       **error)
{
  const WbShareEntry entry = {
    .job_id = (char *) job_id,
    .title = (char *) title,
    .server_id = (char *) server_id,
    .deed = deed,
    .state = WB_SHARE_WAITING,
    .added = g_get_real_time () / G_USEC_PER_SEC,
  };

  g_return_val_if_fail (WB_IS_OFFICE (self), 0);
  g_return_val_if_fail (server_id != NULL && job_id != NULL && title != NULL, 0);

  return wb_book_add_share_entry (wb_office_get_book (self), &entry, cancellable, error);
}

GPtrArray *
wb_office_queue_list (WbOffice      *self,
                      GCancellable  *cancellable,
                      GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return wb_book_list_share_queue (wb_office_get_book (self), cancellable, error);
}

gboolean
wb_office_queue_pause (WbOffice      *self,
                       gint64         id,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);

  return wb_book_pause_share_entry (wb_office_get_book (self), id, TRUE, cancellable, error);
}

gboolean
wb_office_queue_resume (WbOffice      *self,
                        gint64         id,
                        GCancellable  *cancellable,
                        GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);

  return wb_book_pause_share_entry (wb_office_get_book (self), id, FALSE, cancellable, error);
}

static gboolean
has_entry (GPtrArray *entries,
           gint64     id)
{
  for (guint i = 0; i < entries->len; i++)
    if (((const WbShareEntry *) g_ptr_array_index (entries, i))->id == id)
      return TRUE;
  return FALSE;
}

gboolean
wb_office_queue_cancel (WbOffice      *self,
                        gint64         id,
                        GCancellable  *cancellable,
                        GError       **error)
{
  g_autoptr (GPtrArray) entries = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);

  entries = wb_office_queue_list (self, cancellable, error);
  if (entries == NULL)
    return FALSE;
  if (!has_entry (entries, id))
    {
      g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND,
                   "the queue has no entry %" G_GINT64_FORMAT, id);
      return FALSE;
    }
  return wb_book_drop_share_entry (wb_office_get_book (self), id, cancellable, error);
}

gboolean
wb_office_queue_clear (WbOffice      *self,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);

  return wb_book_drop_shared (wb_office_get_book (self), cancellable, error);
}

/* --- an entry's turn -------------------------------------------------------------------------- */

gboolean
wb_queue_share (WbOffice            *office,
                const WbShareEntry  *entry,
                WbSecret            *secret,
                WbProgress          *progress,
                gpointer             data,
                GCancellable        *cancellable,
                GError             **error)
{
  g_autoptr (WbPublishStatus) status = NULL;
  g_autoptr (WbJob) job = NULL;

  switch (entry->deed)
    {
    case WB_SHARE_DEED_PUBLISH:
      status = wb_office_publish (office, entry->server_id, secret, entry->job_id, progress,
                                  cancellable, error);
      return status != NULL;
    case WB_SHARE_DEED_FETCH:
      job = wb_office_fetch (office, entry->server_id, secret, entry->job_id, WB_MERGE_UNDECIDED,
                             progress, cancellable, error);
      return job != NULL;
    }
  g_assert_not_reached ();
}
