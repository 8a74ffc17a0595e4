/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the office share: the deeds in their blocking form and the one way in which
 * they become asynchronous. */
#pragma once

#include "office/wb-office.h"

G_BEGIN_DECLS

WbBook  *wb_office_get_book       (WbOffice            *self);

/** Tells whoever listens that a job was stored or removed; from any thread. */
void     wb_office_emit_job_saved (WbOffice            *self,
                                   const char          *job_id);

typedef struct _WbDeed WbDeed;

/** One deed in its blocking form. Returns: (transfer full): its result, or %NULL with @error
 * set. */
typedef gpointer (*WbDeedFunc)    (WbOffice            *office,
                                   const WbDeed        *deed,
                                   GCancellable        *cancellable,
                                   GError             **error);

/** WbDeed: the inputs of a deed; each deed uses those that it needs. */
struct _WbDeed
{
  WbDeedFunc      run;
  GDestroyNotify  free_result;
  char           *text;
  char           *name;
  WbJob          *base;
  WbJob          *job;
  guint           limit;
  guint           day;      /* Julian */
  guint           kind;     /* of a closed list of the deed's own */
};

/**
 * wb_office_start:
 * @deed: (transfer full): from g_new0(), its members too
 * @tag: the _async function, which wb_office_finish() checks
 *
 * Runs a deed in a worker thread.
 */
void     wb_office_start          (WbOffice            *self,
                                   WbDeed              *deed,
                                   gpointer             tag,
                                   GCancellable        *cancellable,
                                   GAsyncReadyCallback  callback,
                                   gpointer             data);
/** Returns: (transfer full) (nullable): what the deed returned. */
gpointer wb_office_finish         (WbOffice            *self,
                                   GAsyncResult        *result,
                                   gpointer             tag,
                                   GError             **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
