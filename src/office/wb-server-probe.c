/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A test of a server that a window watches: it runs in a worker thread, and its steps come out on
 * the main loop. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-server-settings.h"

#include "office/wb-share-private.h"

#define N_STEPS (WB_PROBE_REMOVE + 1)

struct _WbServerProbe
{
  GObject         parent_instance;

  WbProbeOutcome  outcomes[N_STEPS];
  gboolean        finished;
  GError         *error;
  GCancellable   *cancellable;
};

G_DEFINE_FINAL_TYPE (WbServerProbe, wb_server_probe, G_TYPE_OBJECT)

enum
{
  STEP,
  FINISHED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
wb_server_probe_dispose (GObject *object)
{
  g_cancellable_cancel (WB_SERVER_PROBE (object)->cancellable);

  G_OBJECT_CLASS (wb_server_probe_parent_class)->dispose (object);
}

static void
wb_server_probe_finalize (GObject *object)
{
  WbServerProbe *self = WB_SERVER_PROBE (object);

  g_clear_error (&self->error);
  g_clear_object (&self->cancellable);

  G_OBJECT_CLASS (wb_server_probe_parent_class)->finalize (object);
}

static void
wb_server_probe_class_init (WbServerProbeClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = wb_server_probe_dispose;
  object_class->finalize = wb_server_probe_finalize;
  signals[STEP] = g_signal_new ("step", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_INT);
  signals[FINISHED] = g_signal_new ("finished", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                    NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_BOOLEAN);
}

static void
wb_server_probe_init (WbServerProbe *self)
{
  self->cancellable = g_cancellable_new ();
}

/* --- from the worker to the loop -------------------------------------------------------------- */

/* The worker holds no reference: a test that nobody watches any more is to end. */
typedef struct
{
  WbServer     *server;
  WbSecret     *secret;
  char         *confirmed_key;
  GMainContext *context;
  GWeakRef      probe;
} Request;

static void
request_free (gpointer data)
{
  Request *request = data;

  wb_server_free (request->server);
  g_clear_pointer (&request->secret, wb_secret_unref);
  g_free (request->confirmed_key);
  g_main_context_unref (request->context);
  g_weak_ref_clear (&request->probe);
  g_free (request);
}

typedef struct
{
  GWeakRef        probe;
  WbProbeStep     step;
  WbProbeOutcome  outcome;
} News;

static void
news_free (gpointer data)
{
  News *news = data;

  g_weak_ref_clear (&news->probe);
  g_free (news);
}

static gboolean
tell_step_cb (gpointer data)
{
  News *news = data;
  g_autoptr (WbServerProbe) self = g_weak_ref_get (&news->probe);

  if (self != NULL)
    {
      self->outcomes[news->step] = news->outcome;
      g_signal_emit (self, signals[STEP], 0, (int) news->step, (int) news->outcome);
    }
  return G_SOURCE_REMOVE;
}

static void
tell_step (WbProbeStep    step,
           const GError  *error,
           gpointer       data)
{
  Request *request = data;
  g_autoptr (WbServerProbe) self = g_weak_ref_get (&request->probe);
  News *news;

  if (self == NULL)
    return;
  news = g_new0 (News, 1);
  g_weak_ref_init (&news->probe, self);
  news->step = step;
  news->outcome = error == NULL ? WB_PROBE_DONE : WB_PROBE_FAILED;
  g_main_context_invoke_full (request->context, G_PRIORITY_DEFAULT, tell_step_cb, news, news_free);
}

static gpointer
run_probe (WbOffice      *office,
           gpointer       data,
           GCancellable  *cancellable,
           GError       **error)
{
  Request *request = data;

  return GINT_TO_POINTER (wb_office_probe_server (office, request->server, request->secret,
                                                  request->confirmed_key, tell_step, request,
                                                  cancellable, error));
}

static void
probed_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  GWeakRef *weak = data;
  g_autoptr (WbServerProbe) self = g_weak_ref_get (weak);
  g_autoptr (GError) error = NULL;
  gboolean good = wb_office_finish (WB_OFFICE (source), result, wb_server_probe_start,
                                    &error) != NULL;

  g_weak_ref_clear (weak);
  g_free (weak);
  if (self == NULL)
    return;
  self->finished = TRUE;
  self->error = g_steal_pointer (&error);
  g_signal_emit (self, signals[FINISHED], 0, good);
}

static void
pass_on_cb (GCancellable *outer,
            gpointer      inner)
{
  g_cancellable_cancel (inner);
}

WbServerProbe *
wb_server_probe_start (WbOffice        *office,
                       const WbServer  *server,
                       WbSecret        *secret,
                       const char      *confirmed_key,
                       GCancellable    *cancellable)
{
  WbServerProbe *self;
  Request *request;
  GWeakRef *weak;

  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);
  g_return_val_if_fail (server != NULL, NULL);

  self = g_object_new (WB_TYPE_SERVER_PROBE, NULL);
  if (cancellable != NULL)
    g_cancellable_connect (cancellable, G_CALLBACK (pass_on_cb), g_object_ref (self->cancellable),
                           g_object_unref);

  request = g_new0 (Request, 1);
  request->server = wb_server_copy (server);
  request->secret = secret != NULL ? wb_secret_ref (secret) : NULL;
  request->confirmed_key = g_strdup (confirmed_key);
  request->context = g_main_context_ref_thread_default ();
  g_weak_ref_init (&request->probe, self);
  weak = g_new0 (GWeakRef, 1);
  g_weak_ref_init (weak, self);
  wb_share_run (office, run_probe, request, request_free, NULL, wb_server_probe_start,
                self->cancellable, probed_cb, weak);
  return self;
}

WbProbeOutcome
wb_server_probe_get_step (WbServerProbe *self,
                          WbProbeStep    step)
{
  g_return_val_if_fail (WB_IS_SERVER_PROBE (self), WB_PROBE_WAITING);
  g_return_val_if_fail (step < N_STEPS, WB_PROBE_WAITING);

  return self->outcomes[step];
}

gboolean
wb_server_probe_is_finished (WbServerProbe *self)
{
  g_return_val_if_fail (WB_IS_SERVER_PROBE (self), FALSE);

  return self->finished;
}

const GError *
wb_server_probe_get_error (WbServerProbe *self)
{
  g_return_val_if_fail (WB_IS_SERVER_PROBE (self), NULL);

  return self->error;
}
