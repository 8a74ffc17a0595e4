/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What becomes of an entry: because a person ordered it, or because the server has answered. Who
 * asks, and when, stands in wb-queue-work.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-queue-private.h"

#include <gio/gio.h>

/* --- a person --------------------------------------------------------------------------------- */

static gboolean
wants_a_person (WbQueueFault fault)
{
  return fault == WB_QUEUE_FAULT_SECRET || fault == WB_QUEUE_FAULT_CERTIFICATE ||
         fault == WB_QUEUE_FAULT_HOST_KEY || fault == WB_QUEUE_FAULT_HOST_KEY_CHANGED;
}

static gboolean
resume_server (WbOffice    *office,
               const char  *server_id,
               GError     **error)
{
  g_autoptr (GPtrArray) entries = wb_office_queue_list (office, NULL, error);

  for (guint i = 0; entries != NULL && i < entries->len; i++)
    {
      const WbShareEntry *entry = g_ptr_array_index (entries, i);
      g_autoptr (GError) fault = NULL;

      if (entry->state != WB_SHARE_FAILED || g_strcmp0 (entry->server_id, server_id) != 0 ||
          !wants_a_person (wb_queue_fault_of (entry, NULL)) ||
          wb_office_queue_resume (office, entry->id, NULL, &fault))
        continue;
      /* One that somebody has taken out meanwhile does not hold up the others. */
      if (g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
        continue;
      g_propagate_error (error, g_steal_pointer (&fault));
      return FALSE;
    }
  return entries != NULL;
}

gboolean
wb_queue_obey (WbOffice      *office,
               WbQueueOrder   what,
               gint64         id,
               const char    *server_id,
               GError       **error)
{
  switch (what)
    {
    case WB_QUEUE_ORDER_PAUSE:
      return wb_office_queue_pause (office, id, NULL, error);
    case WB_QUEUE_ORDER_RESUME:
      return wb_office_queue_resume (office, id, NULL, error);
    case WB_QUEUE_ORDER_CANCEL:
      return wb_office_queue_cancel (office, id, NULL, error);
    case WB_QUEUE_ORDER_CLEAR:
      return wb_office_queue_clear (office, NULL, error);
    case WB_QUEUE_ORDER_RESUME_SERVER:
      return resume_server (office, server_id, error);
    }
  g_assert_not_reached ();
}

/* --- a server --------------------------------------------------------------------------------- */

void
wb_queue_judge (WbShareEntry *entry,
                const GError *error,
                gint64        now,
                guint32       chance)
{
  g_clear_pointer (&entry->fault, g_free);
  entry->next_try = now;
  if (error == NULL)
    {
      entry->state = WB_SHARE_DONE;
      entry->tries = 0;
      return;
    }

  /* Nobody is to blame: the work was stopped, and goes on with whoever is next. */
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      entry->state = WB_SHARE_WAITING;
      return;
    }

  entry->fault = wb_queue_fault_pack (error);
  entry->tries++;
  if (wb_queue_fault_of_error (error) == WB_QUEUE_FAULT_PASSES)
    {
      entry->state = WB_SHARE_WAITING;
      entry->next_try += wb_queue_pause_seconds (entry->tries, chance);
    }
  else
    entry->state = WB_SHARE_FAILED;
}
