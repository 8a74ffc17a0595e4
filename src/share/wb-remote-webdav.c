/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A remote that is a folder of a WebDAV server (RFC 4918), over HTTPS. How a file gets there is in
 * wb-webdav-put.c, what the server answers is read in wb-dav-answer.c. */
#include "config.h"

#include "share/wb-remote-private.h"

#include "share/wb-dav-answer.h"
#include "share/wb-share.h"
#include "share/wb-webdav-private.h"
#include "share/wb-xml.h"

#include <string.h>

/* --- requests --------------------------------------------------------------------------------- */

char *
wb_webdav_url (const WbWebdav *self,
               const char     *path,
               gboolean        is_folder)
{
  if (*path == '\0')
    return g_strconcat (self->url, "/", NULL);
  return g_strconcat (self->url, "/", path, is_folder ? "/" : NULL, NULL);
}

/* What messages name: the address when there is no path. */
static const char *
what (const WbWebdav *self,
      const char     *path)
{
  return *path != '\0' ? path : self->url;
}

gboolean
wb_webdav_ask (WbWebdav      *self,
               const char    *method,
               const char    *path,
               gboolean       is_folder,
               const char    *header,
               WbAnswer      *answer,
               GCancellable  *cancellable,
               GError       **error)
{
  g_autofree char *url = wb_webdav_url (self, path, is_folder);
  const char *headers[] = { header, NULL };
  g_auto (WbAnswer) own = { 0 };
  WbRequest request = { .method = method, .url = url, .what = what (self, path),
                        .headers = headers };

  return wb_transfer_run (self->transfer, &request, answer != NULL ? answer : &own, cancellable,
                          error);
}

/* --- looking ---------------------------------------------------------------------------------- */

static const char propfind_body[] =
  "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
  "<propfind xmlns=\"DAV:\"><prop><resourcetype/><getcontentlength/><getlastmodified/></prop>"
  "</propfind>\n";

/* Asks for @path. @entries: (nullable): also for what lies in it */
static gboolean
find (WbWebdav       *self,
      const char     *path,
      gboolean        is_folder,
      WbRemoteEntry  *found,
      GPtrArray      *entries,
      GCancellable   *cancellable,
      GError        **error)
{
  static const char *const alone[] = { "Depth: 0", "Content-Type: application/xml", NULL };
  static const char *const with_children[] = { "Depth: 1", "Content-Type: application/xml", NULL };
  g_autofree char *url = wb_webdav_url (self, path, is_folder);
  g_autofree char *escaped = g_strconcat (self->parent.base, *path != '\0' ? "/" : "", path, NULL);
  g_autofree char *plain = g_uri_unescape_string (escaped, NULL);
  g_autoptr (GBytes) body = g_bytes_new_static (propfind_body, strlen (propfind_body));
  g_auto (WbAnswer) answer = { 0 };
  WbRequest request = { .method = "PROPFIND", .url = url, .what = what (self, path), .text = body,
                        .headers = entries != NULL ? with_children : alone };

  if (!wb_transfer_run (self->transfer, &request, &answer, cancellable, error))
    return FALSE;
  if (answer.status != 207 || plain == NULL)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, what (self, path),
                            "this is no answer of a WebDAV server");
  return wb_dav_answer_read (answer.body->data, answer.body->len, plain, found, entries, error);
}

static GPtrArray *
webdav_list (WbRemote      *remote,
             const char    *folder,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
  g_auto (WbRemoteEntry) found = { NULL };

  if (!find ((WbWebdav *) remote, folder, TRUE, &found, entries, cancellable, error))
    return NULL;
  if (!found.is_folder)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_NOT_FOUND, folder, "this is not a folder");
      return NULL;
    }
  return g_steal_pointer (&entries);
}

static gboolean
webdav_stat (WbRemote       *remote,
             const char     *path,
             WbRemoteEntry  *entry,
             GCancellable   *cancellable,
             GError        **error)
{
  return find ((WbWebdav *) remote, path, FALSE, entry, NULL, cancellable, error);
}

/* --- reading ---------------------------------------------------------------------------------- */

/* A body on its way to the sink. */
typedef struct
{
  const char           *path;
  const WbAnswer       *answer;
  gint64                offset;    /* where the sink wants to begin */
  gint64                position;  /* of the next byte, in the file */
  gint64                size;      /* of the file; -1 while it is not known */
  gboolean              begun;
  WbRemoteSinkFunc      sink;
  gpointer              sink_data;
  WbRemoteProgressFunc  progress;
  gpointer              progress_data;
} Download;

/* Returns: the number in the header @name, or -1. */
static gint64
header_number (const WbAnswer *answer,
               const char     *name)
{
  const char *text = wb_answer_get_header (answer, name);
  guint64 number;

  if (text == NULL || !g_ascii_string_to_unsigned (text, 10, 0, G_MAXINT64, &number, NULL))
    return -1;
  return (gint64) number;
}

/* RFC 9110, 14.4: `bytes FIRST-LAST/SIZE`, where SIZE may be `*`, or bytes star/SIZE when the range
 * is none of the file. @first and @size: (out): -1 for what it does not say */
static gboolean
read_content_range (const WbAnswer *answer,
                    gint64         *first,
                    gint64         *size)
{
  const char *text = wb_answer_get_header (answer, "content-range");
  g_auto (GStrv) parts = NULL;
  guint64 number;

  *first = *size = -1;
  if (text == NULL || !g_str_has_prefix (text, "bytes "))
    return FALSE;
  parts = g_strsplit_set (text + strlen ("bytes "), "-/", -1);
  if (parts[0] == NULL || parts[1] == NULL)
    return FALSE;
  if (g_ascii_string_to_unsigned (parts[0], 10, 0, G_MAXINT64, &number, NULL))
    *first = (gint64) number;
  if (g_ascii_string_to_unsigned (parts[g_strv_length (parts) - 1], 10, 0, G_MAXINT64, &number,
                                  NULL))
    *size = (gint64) number;
  return TRUE;
}

/* Once the headers are there: where in the file the body begins. */
static gboolean
begin_download (Download  *download,
                GError   **error)
{
  gint64 first, size, length = header_number (download->answer, "content-length");

  download->begun = TRUE;
  if (download->answer->status != 206)
    {
      download->position = 0;
      download->size = length;
      return TRUE;
    }
  if (!read_content_range (download->answer, &first, &size) || first != download->offset)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, download->path,
                            "the server sends another part than was asked for");
  download->position = first;
  download->size = size >= 0 || length < 0 ? size : first + length;
  return TRUE;
}

static gboolean
pass_on (const guint8  *bytes,
         gsize          length,
         gpointer       data,
         GError       **error)
{
  Download *download = data;
  gint64 before;

  if (!download->begun && !begin_download (download, error))
    return FALSE;
  if (download->size >= 0 && (gint64) length > download->size - download->position)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, download->path,
                            "more came than was announced");
  before = MAX (download->offset - download->position, 0);
  download->position += (gint64) length;
  if (before >= (gint64) length)
    return TRUE;
  if (!download->sink (bytes + before, length - (gsize) before, download->sink_data, error))
    return FALSE;
  if (download->progress != NULL)
    download->progress (download->position, download->size, download->progress_data);
  return TRUE;
}

/* Whether all of the file came. */
static gboolean
end_download (Download  *download,
              GError   **error)
{
  if (!download->begun && !begin_download (download, error))
    return FALSE;
  if (download->size >= 0 && download->position != download->size)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, download->path,
                            "less came than was announced");
  return download->position >= download->offset ||
         wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, download->path,
                          "it is shorter than it was");
}

/* 416: there is nothing from @offset on. That is right if the file ends there. */
static gboolean
is_whole (WbRemote      *remote,
          const char    *path,
          gint64         offset,
          GCancellable  *cancellable,
          GError       **error)
{
  g_auto (WbRemoteEntry) entry = { NULL };

  if (!webdav_stat (remote, path, &entry, cancellable, error))
    return FALSE;
  return entry.size == offset ||
         wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path, "it is shorter than it was");
}

static gboolean
webdav_get (WbRemote              *remote,
            const char            *path,
            gint64                 offset,
            WbRemoteSinkFunc       sink,
            gpointer               sink_data,
            WbRemoteProgressFunc   progress,
            gpointer               progress_data,
            GCancellable          *cancellable,
            GError               **error)
{
  WbWebdav *self = (WbWebdav *) remote;
  g_autofree char *url = wb_webdav_url (self, path, FALSE);
  g_autofree char *range = g_strdup_printf ("Range: bytes=%" G_GINT64_FORMAT "-", offset);
  const char *headers[] = { offset > 0 ? range : NULL, NULL };
  g_auto (WbAnswer) answer = { 0 };
  Download download = { path, &answer, offset, 0, -1, FALSE, sink, sink_data, progress,
                        progress_data };
  WbRequest request = { .method = "GET", .url = url, .what = path, .headers = headers,
                        .sink = pass_on, .sink_data = &download };
  g_autoptr (GError) reason = NULL;

  if (wb_transfer_run (self->transfer, &request, &answer, cancellable, &reason))
    return end_download (&download, error);
  if (answer.status == 416 && offset > 0)
    return is_whole (remote, path, offset, cancellable, error);
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* --- folders ---------------------------------------------------------------------------------- */

static gboolean
is_folder (WbWebdav     *self,
           const char   *folder,
           GCancellable *cancellable)
{
  g_auto (WbRemoteEntry) found = { NULL };
  g_autoptr (GError) ignored = NULL;

  return find (self, folder, TRUE, &found, NULL, cancellable, &ignored) && found.is_folder;
}

/* 201 says that it was made, 405 that there is something already (RFC 4918, 9.3.1); what servers
 * say besides is looked into. @fresh: (out): whether it was made */
static gboolean
make_folder (WbWebdav      *self,
             const char    *folder,
             gboolean      *fresh,
             GCancellable  *cancellable,
             GError       **error)
{
  g_auto (WbAnswer) answer = { 0 };
  g_autoptr (GError) reason = NULL;

  *fresh = FALSE;
  if (wb_webdav_ask (self, "MKCOL", folder, TRUE, NULL, &answer, cancellable, &reason))
    {
      *fresh = answer.status == 201;
      return TRUE;
    }
  if (answer.status == 405)
    return TRUE;
  if (answer.status >= 400 && answer.status < 500 && answer.status != 401 &&
      is_folder (self, folder, cancellable))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

gboolean
wb_webdav_make_parents (WbWebdav      *self,
                        const char    *path,
                        gboolean      *fresh,
                        GCancellable  *cancellable,
                        GError       **error)
{
  gboolean made = FALSE;

  for (const char *slash = strchr (path, '/'); slash != NULL; slash = strchr (slash + 1, '/'))
    {
      g_autofree char *folder = g_strndup (path, (gsize) (slash - path));

      made = FALSE;
      if (g_hash_table_contains (self->folders, folder))
        continue;
      if (!make_folder (self, folder, &made, cancellable, error))
        return FALSE;
      g_hash_table_add (self->folders, g_steal_pointer (&folder));
    }
  if (fresh != NULL)
    *fresh = made;
  return TRUE;
}

static gboolean
webdav_greet (WbRemote      *remote,
              GCancellable  *cancellable,
              GError       **error)
{
  WbWebdav *self = (WbWebdav *) remote;
  g_auto (WbRemoteEntry) found = { NULL };
  g_autoptr (GError) reason = NULL;

  return find (self, "", TRUE, &found, NULL, cancellable, &reason) ||
         wb_share_is_absent (g_steal_pointer (&reason), error);
}

/* The address without its last @n names, which is a folder above it. Returns: (transfer full)
 * (nullable) */
static char *
folder_above (const WbWebdav *self,
              guint           n)
{
  gsize length = strlen (self->url), least = length - strlen (self->parent.base);

  for (; n > 0 && length > least; n--)
    while (length > least && self->url[--length] != '/')
      ;
  return length > least ? g_strndup (self->url, length) : NULL;
}

static gboolean
make_absolute (WbWebdav      *self,
               const char    *folder,
               WbAnswer      *answer,
               GCancellable  *cancellable,
               GError       **error)
{
  g_autofree char *url = g_strconcat (folder, "/", NULL);
  WbRequest request = { .method = "MKCOL", .url = url, .what = folder };

  return wb_transfer_run (self->transfer, &request, answer, cancellable, error);
}

/* Makes the folder @above names above the address, and those above that as far as they are
 * missing. */
static gboolean
make_level (WbWebdav      *self,
            guint          above,
            GCancellable  *cancellable,
            GError       **error)
{
  g_autofree char *folder = folder_above (self, above);
  g_auto (WbAnswer) answer = { 0 };
  g_auto (WbAnswer) second = { 0 };
  g_autoptr (GError) reason = NULL;

  if (folder == NULL)
    return wb_transfer_fail (error, 404, self->url);
  if (make_absolute (self, folder, &answer, cancellable, &reason))
    return TRUE;
  if (answer.status == 404 || answer.status == 409)
    return make_level (self, above + 1, cancellable, error) &&
           make_absolute (self, folder, &second, cancellable, error);
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

static gboolean
webdav_make_base (WbRemote      *remote,
                  GCancellable  *cancellable,
                  GError       **error)
{
  WbWebdav *self = (WbWebdav *) remote;

  return is_folder (self, "", cancellable) || make_level (self, 0, cancellable, error);
}

/* DELETE takes a folder with all that is in it (RFC 4918, 9.6.1), which is never meant. */
static gboolean
check_removable (WbWebdav      *self,
                 const char    *path,
                 GCancellable  *cancellable,
                 GError       **error)
{
  g_auto (WbRemoteEntry) found = { NULL };
  g_auto (WbRemoteEntry) again = { NULL };
  g_autoptr (GPtrArray) entries = NULL;

  if (!find (self, path, FALSE, &found, NULL, cancellable, error))
    return FALSE;
  if (!found.is_folder)
    return TRUE;
  entries = wb_remote_entries_new ();
  if (!find (self, path, TRUE, &again, entries, cancellable, error))
    return FALSE;
  return entries->len == 0 ||
         wb_share_refuse (error, WB_SHARE_ERROR_EXISTS, path, "the folder is not empty");
}

static gboolean
webdav_remove (WbRemote      *remote,
               const char    *path,
               GCancellable  *cancellable,
               GError       **error)
{
  WbWebdav *self = (WbWebdav *) remote;

  g_hash_table_remove (self->folders, path);
  return check_removable (self, path, cancellable, error) &&
         wb_webdav_ask (self, "DELETE", path, FALSE, NULL, NULL, cancellable, error);
}

/* --- the kind --------------------------------------------------------------------------------- */

static gboolean
webdav_open (WbRemote  *remote,
             GError   **error)
{
  WbWebdav *self = (WbWebdav *) remote;
  gsize length = strlen (remote->server->address);

  while (length > 0 && remote->server->address[length - 1] == '/')
    length--;
  self->url = g_strndup (remote->server->address, length);
  self->folders = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  if (!wb_xml_open (error))
    return FALSE;
  self->transfer = wb_transfer_new (remote, TRUE, error);
  return self->transfer != NULL;
}

static void
webdav_close (WbRemote *remote)
{
  WbWebdav *self = (WbWebdav *) remote;

  g_clear_pointer (&self->transfer, wb_transfer_free);
  g_clear_pointer (&self->folders, g_hash_table_unref);
  g_clear_pointer (&self->url, g_free);
}

const WbRemoteMethods wb_remote_webdav_methods = {
  .size = sizeof (WbWebdav),
  .open = webdav_open,
  .close = webdav_close,
  .greet = webdav_greet,
  .make_base = webdav_make_base,
  .list = webdav_list,
  .stat = webdav_stat,
  .get = webdav_get,
  .put = wb_webdav_put,
  .remove = webdav_remove,
};
