/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Secrets in pages of their own, and in the desktop's secret service by libsecret. Copies that
 * libsecret, GLib and libcurl make on the way are theirs: they are kept out of core dumps, since none
 * is made, but cannot be wiped from here. */
#include "config.h"

#define G_LOG_DOMAIN "wb-share"

#include "share/wb-secret.h"

#include "share/wb-library.h"

#include <libsecret/secret.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <unistd.h>

/* --- in memory -------------------------------------------------------------------------------- */

struct _WbSecret
{
  gatomicrefcount  references;
  char            *pages;
  gsize            size;      /* of the pages */
};

static GMutex held_mutex;
static guint  n_held;
static int    dumpable_before;

/* core(5): a process that is not dumpable makes no core dump, and no other process of the user may
 * read its memory. */
static void
hold (void)
{
  g_mutex_lock (&held_mutex);
  if (n_held++ == 0)
    {
      dumpable_before = prctl (PR_GET_DUMPABLE);
      (void) prctl (PR_SET_DUMPABLE, 0);
    }
  g_mutex_unlock (&held_mutex);
}

static void
let_go (void)
{
  g_mutex_lock (&held_mutex);
  if (--n_held == 0 && dumpable_before == 1)
    (void) prctl (PR_SET_DUMPABLE, 1);
  g_mutex_unlock (&held_mutex);
}

void
wb_secret_wipe (char  *text,
                gsize  length)
{
  if (text != NULL)
    explicit_bzero (text, length);
}

WbSecret *
wb_secret_new (const char *text,
               gssize      length)
{
  WbSecret *self;
  gsize page = (gsize) sysconf (_SC_PAGESIZE);
  gsize n;

  g_return_val_if_fail (text != NULL, NULL);

  n = length < 0 ? strlen (text) : (gsize) length;
  self = g_new0 (WbSecret, 1);
  g_atomic_ref_count_init (&self->references);
  self->size = (n / page + 1) * page;
  self->pages = mmap (NULL, self->size, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  if (self->pages == MAP_FAILED)
    g_error ("no memory for a password");

  /* A limit on locked memory is no reason to refuse a person's password. */
  (void) mlock (self->pages, self->size);
  (void) madvise (self->pages, self->size, MADV_DONTDUMP);
  (void) madvise (self->pages, self->size, MADV_WIPEONFORK);
  hold ();
  memcpy (self->pages, text, n);
  return self;
}

WbSecret *
wb_secret_ref (WbSecret *self)
{
  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_secret_unref (WbSecret *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->references))
    return;

  explicit_bzero (self->pages, self->size);
  (void) munmap (self->pages, self->size);
  g_free (self);
  let_go ();
}

const char *
wb_secret_get (WbSecret *self)
{
  return self != NULL ? self->pages : NULL;
}

/* --- for this session only -------------------------------------------------------------------- */

static GMutex      session_mutex;
static GHashTable *session;         /* server id → WbSecret */

static void
remember (const char *server_id,
          WbSecret   *secret)
{
  g_mutex_lock (&session_mutex);
  if (session == NULL)
    session = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                     (GDestroyNotify) wb_secret_unref);
  if (secret != NULL)
    g_hash_table_insert (session, g_strdup (server_id), wb_secret_ref (secret));
  else
    g_hash_table_remove (session, server_id);
  g_mutex_unlock (&session_mutex);
}

static WbSecret *
recall (const char *server_id)
{
  WbSecret *secret;

  g_mutex_lock (&session_mutex);
  secret = session != NULL ? g_hash_table_lookup (session, server_id) : NULL;
  if (secret != NULL)
    wb_secret_ref (secret);
  g_mutex_unlock (&session_mutex);
  return secret;
}

/* --- in the service --------------------------------------------------------------------------- */

/* What is used of libsecret. */
#define FUNCTIONS(EACH)                          \
  EACH (secret_password_clear_sync)              \
  EACH (secret_password_free)                    \
  EACH (secret_password_lookup_nonpageable_sync) \
  EACH (secret_password_store_sync)

static struct
{
  FUNCTIONS (WB_LIBRARY_POINTER)
} service;

static const char *const names[] = { FUNCTIONS (WB_LIBRARY_NAME) };

G_STATIC_ASSERT (sizeof service == G_N_ELEMENTS (names) * sizeof (gpointer));

static gboolean
open_service (GError **error)
{
  static WbLibrary library = {
    WB_SONAME_SECRET, "libsecret-1-0", names, G_N_ELEMENTS (names), &service
  };

  return wb_library_open (&library, error);
}

static const SecretSchema schema = {
  .name = "org.wainbook.Server",
  .flags = SECRET_SCHEMA_NONE,
  .attributes = {
    { "server", SECRET_SCHEMA_ATTRIBUTE_STRING },
    { NULL, 0 },
  },
};

/* Whether @fault is that somebody stopped it; what else goes wrong there is told in a log only. */
static gboolean
is_cancelled (GError  *fault,
              GError **error)
{
  if (g_error_matches (fault, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      g_propagate_error (error, fault);
      return TRUE;
    }
  g_debug ("the secret service: %s", fault->message);
  g_error_free (fault);
  return FALSE;
}

gboolean
wb_secret_keep (const char     *server_id,
                const char     *label,
                WbSecret       *secret,
                WbSecretPlace  *place,
                GCancellable   *cancellable,
                GError        **error)
{
  GError *fault = NULL;
  WbSecretPlace where = WB_SECRET_SERVICE;

  g_return_val_if_fail (server_id != NULL && label != NULL && secret != NULL, FALSE);

  if (!open_service (&fault) ||
      !service.secret_password_store_sync (&schema, SECRET_COLLECTION_DEFAULT, label,
                                           wb_secret_get (secret), cancellable, &fault, "server",
                                           server_id, NULL))
    {
      if (fault != NULL && is_cancelled (fault, error))
        return FALSE;
      where = WB_SECRET_SESSION;
    }

  remember (server_id, where == WB_SECRET_SESSION ? secret : NULL);
  if (place != NULL)
    *place = where;
  return TRUE;
}

WbSecret *
wb_secret_find (const char    *server_id,
                GCancellable  *cancellable,
                GError       **error)
{
  WbSecret *secret;
  GError *fault = NULL;
  char *text = NULL;

  g_return_val_if_fail (server_id != NULL, NULL);

  secret = recall (server_id);
  if (secret != NULL)
    return secret;

  if (open_service (&fault))
    text = service.secret_password_lookup_nonpageable_sync (&schema, cancellable, &fault, "server",
                                                            server_id, NULL);
  if (fault != NULL)
    (void) is_cancelled (fault, error);
  if (text == NULL)
    return NULL;
  secret = wb_secret_new (text, -1);
  service.secret_password_free (text);
  return secret;
}

gboolean
wb_secret_forget (const char    *server_id,
                  GCancellable  *cancellable,
                  GError       **error)
{
  g_autoptr (WbSecret) kept = NULL;
  GError *fault = NULL;

  g_return_val_if_fail (server_id != NULL, FALSE);

  remember (server_id, NULL);
  kept = wb_secret_find (server_id, cancellable, &fault);
  if (fault != NULL)
    {
      g_propagate_error (error, fault);
      return FALSE;
    }

  /* Without a service, or with nothing in it, there is nothing to let go of. */
  if (kept == NULL || !open_service (NULL))
    return TRUE;
  (void) service.secret_password_clear_sync (&schema, cancellable, &fault, "server", server_id, NULL);
  if (fault == NULL)
    return TRUE;
  g_propagate_error (error, fault);
  return FALSE;
}
