/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files over SSH, by libcurl. A file is sent under another name and renamed when it is whole;
 * renaming does not overwrite in the version of SFTP that all servers speak. Listings come as
 * lines meant for a person, and are read with that in mind (wb-sftp-line.h). */
#include "config.h"

#include "share/wb-remote-private.h"

#include "share/wb-host-key.h"
#include "share/wb-sftp-line.h"
#include "share/wb-share.h"
#include "share/wb-transfer.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

typedef struct
{
  WbRemote    remote;
  WbTransfer *transfer;
  char       *base;         /* not escaped, without "/" at its end */

  /* of the request that runs */
  GError     *host_error;   /* (nullable): why the host key was refused */
  char        words[CURL_ERROR_SIZE];
} Sftp;

/* One request: what it adds to what every request of SFTP has. */
typedef struct
{
  Sftp              *sftp;
  struct curl_slist *commands;      /* (nullable) */
  gboolean           no_body;
  gint64             resume_from;
} Ask;

/* --- names ------------------------------------------------------------------------------------ */

static char *
url_of (const Sftp *self,
        const char *path)
{
  const WbRemote *remote = &self->remote;
  gboolean v6 = strchr (remote->host, ':') != NULL;

  return g_strdup_printf ("sftp://%s%s%s:%u%s/%s", v6 ? "[" : "", remote->host, v6 ? "]" : "",
                          remote->port, remote->base, path);
}

/* @path as a command of libcurl has it: in quotes, and below the home folder without its "/~/". */
static char *
command_path (const Sftp *self,
              const char *path)
{
  const char *base = self->base;
  GString *quoted = g_string_new ("\"");
  gboolean at_home = g_str_has_prefix (base, "/~/") || g_str_equal (base, "/~");

  if (at_home)
    base += base[2] == '/' ? 3 : 2;
  for (const char *c = base; *c != '\0'; c++)
    {
      if (*c == '"' || *c == '\\')
        g_string_append_c (quoted, '\\');
      g_string_append_c (quoted, *c);
    }
  if (*path != '\0' && (!at_home || *base != '\0'))
    g_string_append_c (quoted, '/');
  g_string_append (quoted, path);
  if (quoted->len == 1)
    g_string_append (quoted, at_home ? "." : "/");
  g_string_append_c (quoted, '"');
  return g_string_free (quoted, FALSE);
}

static void
add_command (const Sftp         *self,
             struct curl_slist **commands,
             const char         *word,
             const char         *path)
{
  g_autofree char *quoted = command_path (self, path);
  g_autofree char *command = g_strdup_printf ("%s %s", word, quoted);

  *commands = curl_slist_append (*commands, command);
}

/* Makes the folders above @path. One that is there already is no fault; one that cannot be made is
 * noticed by what comes after it. */
static void
add_parents (const Sftp         *self,
             struct curl_slist **commands,
             const char         *path)
{
  for (const char *slash = strchr (path, '/'); slash != NULL; slash = strchr (slash + 1, '/'))
    {
      g_autofree char *folder = g_strndup (path, (gsize) (slash - path));

      add_command (self, commands, "*mkdir", folder);
    }
}

/* --- one request ------------------------------------------------------------------------------ */

/* Called by libcurl with the key that the server shows. */
static int
host_key_cb (void       *data,
             int         kind,
             const char *key,
             size_t      length)
{
  Sftp *self = data;
  const WbRemote *remote = &self->remote;

  g_clear_error (&self->host_error);
  return wb_host_key_check (remote->known_hosts, remote->host, remote->port,
                            (const guint8 *) key, length, remote->confirmed_key, &self->host_error)
           ? CURLKHMATCH_OK : CURLKHMATCH_MISMATCH;
}

static void
set_login (Sftp *self,
           CURL *easy)
{
  const WbRemote *remote = &self->remote;
  const char *key_file = remote->server->key_file;

  if (key_file == NULL || *key_file == '\0')
    {
      curl_easy_setopt (easy, CURLOPT_SSH_AUTH_TYPES,
                        (long) (CURLSSH_AUTH_PASSWORD | CURLSSH_AUTH_KEYBOARD));
      return;
    }
  curl_easy_setopt (easy, CURLOPT_SSH_AUTH_TYPES, (long) CURLSSH_AUTH_PUBLICKEY);
  curl_easy_setopt (easy, CURLOPT_SSH_PRIVATE_KEYFILE, key_file);
  curl_easy_setopt (easy, CURLOPT_KEYPASSWD, remote->secret != NULL ? remote->secret : "");
}

static gboolean
prepare_ask (CURL      *easy,
             gpointer   data,
             GError   **error)
{
  Ask *ask = data;
  Sftp *self = ask->sftp;
  const char *known_hosts = self->remote.known_hosts;

  set_login (self, easy);
  curl_easy_setopt (easy, CURLOPT_SSH_HOSTKEYFUNCTION, host_key_cb);
  curl_easy_setopt (easy, CURLOPT_SSH_HOSTKEYDATA, self);
  /* The kind of key that is asked for is the one that was confirmed. */
  if (known_hosts != NULL && g_file_test (known_hosts, G_FILE_TEST_IS_REGULAR))
    curl_easy_setopt (easy, CURLOPT_SSH_KNOWNHOSTS, known_hosts);
  self->words[0] = '\0';
  curl_easy_setopt (easy, CURLOPT_ERRORBUFFER, self->words);
  curl_easy_setopt (easy, CURLOPT_QUOTE, ask->commands);
  curl_easy_setopt (easy, CURLOPT_NOBODY, ask->no_body ? 1L : 0L);
  curl_easy_setopt (easy, CURLOPT_FILETIME, 1L);
  curl_easy_setopt (easy, CURLOPT_RESUME_FROM_LARGE, (curl_off_t) ask->resume_from);
  return TRUE;
}

/* What a command failed with is only to be had from libcurl's words for the codes of SFTP. */
static gboolean
fail_command (const Sftp  *self,
              const char  *what,
              GError     **error)
{
  static const struct
  {
    const char   *words;
    WbShareError  code;
    const char   *why;
  } known[] = {
    { "Permission denied", WB_SHARE_ERROR_FORBIDDEN, "the server does not allow it" },
    { "No such file", WB_SHARE_ERROR_NOT_FOUND, "it is not there" },
    { "File already exists", WB_SHARE_ERROR_EXISTS, "it is there already" },
    { "File is write-only", WB_SHARE_ERROR_READ_ONLY, "nothing can be written there" },
    { "Write protected", WB_SHARE_ERROR_READ_ONLY, "nothing can be written there" },
    { "No media", WB_SHARE_ERROR_SERVER, "the server's disk is not there" },
    { "Disk full", WB_SHARE_ERROR_FULL, "there is no room left" },
    { "quota", WB_SHARE_ERROR_FULL, "there is no room left" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (known); i++)
    if (strstr (self->words, known[i].words) != NULL)
      return wb_share_refuse (error, known[i].code, what, "%s", known[i].why);
  return wb_share_refuse (error, WB_SHARE_ERROR_SERVER, what, "the server did not do it");
}

/* Runs @request with what @ask adds. */
static gboolean
run (Ask           *ask,
     WbRequest     *request,
     WbAnswer      *answer,
     GCancellable  *cancellable,
     GError       **error)
{
  Sftp *self = ask->sftp;
  g_autoptr (GError) reason = NULL;
  gboolean good;

  request->prepare = prepare_ask;
  request->prepare_data = ask;
  g_clear_error (&self->host_error);
  good = wb_transfer_run (self->transfer, request, answer, cancellable, &reason);
  if (good)
    return TRUE;
  if (self->host_error != NULL && !g_error_matches (reason, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    g_propagate_error (error, g_steal_pointer (&self->host_error));
  else if (answer->code == CURLE_QUOTE_ERROR && reason->domain == WB_SHARE_ERROR)
    fail_command (self, request->what, error);
  else
    g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* Has the server follow @commands; takes them. */
static gboolean
command (Sftp               *self,
         struct curl_slist  *commands,
         const char         *what,
         GCancellable       *cancellable,
         GError            **error)
{
  g_autofree char *url = url_of (self, "");
  g_auto (WbAnswer) answer = { 0 };
  WbRequest request = { .url = url, .what = what };
  Ask ask = { .sftp = self, .commands = commands, .no_body = TRUE };
  gboolean good = run (&ask, &request, &answer, cancellable, error);

  curl_slist_free_all (commands);
  return good;
}

/* --- looking ---------------------------------------------------------------------------------- */

static gboolean
sftp_greet (WbRemote      *remote,
            GCancellable  *cancellable,
            GError       **error)
{
  /* A folder without a body is not even opened. */
  return command ((Sftp *) remote, NULL, remote->host, cancellable, error);
}

static gboolean
keep_bytes (const guint8  *bytes,
            gsize          length,
            gpointer       data,
            GError       **error)
{
  GByteArray *kept = data;

  if (kept->len + length > WB_ANSWER_MAX_BODY)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, "", "the folder is too long to be read");
  g_byte_array_append (kept, bytes, (guint) length);
  return TRUE;
}

static gboolean
read_lines (GPtrArray   *entries,
            GByteArray  *text,
            GError     **error)
{
  const char *line = (const char *) text->data;
  const char *end = line + text->len;

  while (line < end)
    {
      const char *next = memchr (line, '\n', (gsize) (end - line));
      gsize length = (gsize) ((next != NULL ? next : end) - line);
      g_auto (WbRemoteEntry) entry = { NULL };

      if (wb_sftp_line_read (line, length, &entry) &&
          !wb_remote_entries_add (entries, entry.name, entry.size, entry.changed, entry.is_folder,
                                  error))
        return FALSE;
      line += length + 1;
    }
  return TRUE;
}

static GPtrArray *
sftp_list (WbRemote      *remote,
           const char    *folder,
           GCancellable  *cancellable,
           GError       **error)
{
  Sftp *self = (Sftp *) remote;
  g_autofree char *path = *folder != '\0' ? g_strconcat (folder, "/", NULL) : g_strdup ("");
  g_autofree char *url = url_of (self, path);
  g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
  g_autoptr (GByteArray) text = g_byte_array_new ();
  g_auto (WbAnswer) answer = { 0 };
  WbRequest request = { .url = url, .what = *folder != '\0' ? folder : remote->host,
                        .sink = keep_bytes, .sink_data = text };
  Ask ask = { .sftp = self };

  if (!run (&ask, &request, &answer, cancellable, error) || !read_lines (entries, text, error))
    return NULL;
  return g_steal_pointer (&entries);
}

/* Folders can be opened as files can; only a folder opens with "/" at its end. */
static gboolean
look_for_folder (Sftp          *self,
                 const char    *path,
                 gboolean      *is_folder,
                 GCancellable  *cancellable,
                 GError       **error)
{
  g_autoptr (GError) reason = NULL;
  g_autoptr (GPtrArray) entries = sftp_list (&self->remote, path, cancellable, &reason);

  *is_folder = entries != NULL;
  if (reason == NULL ||
      (reason->domain == WB_SHARE_ERROR && reason->code != WB_SHARE_ERROR_UNREACHABLE &&
       reason->code != WB_SHARE_ERROR_TIMEOUT))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* One byte is enough. */
static gboolean
stop_at_bytes (const guint8  *bytes,
               gsize          length,
               gpointer       data,
               GError       **error)
{
  *(gboolean *) data = TRUE;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, "there are bytes");
  return FALSE;
}

/* A file that libcurl has no size for is empty, or the server does not tell sizes. */
static gboolean
is_empty (Sftp          *self,
          const char    *url,
          const char    *path,
          GCancellable  *cancellable)
{
  g_auto (WbAnswer) answer = { 0 };
  gboolean any = FALSE;
  WbRequest request = { .url = url, .what = path, .sink = stop_at_bytes, .sink_data = &any };
  Ask ask = { .sftp = self };

  return run (&ask, &request, &answer, cancellable, NULL) && !any;
}

/* Whether anything is at @path, be it a file or a folder. @answer: has its size, if it is a file, and
 * when it changed; -1 stands for a file without bytes, too */
static gboolean
look_at (Sftp          *self,
         const char    *path,
         WbAnswer      *answer,
         GCancellable  *cancellable,
         GError       **error)
{
  g_autofree char *url = url_of (self, path);
  WbRequest request = { .url = url, .what = path };
  Ask ask = { .sftp = self, .no_body = TRUE };

  return run (&ask, &request, answer, cancellable, error);
}

static gboolean
sftp_stat (WbRemote       *remote,
           const char     *path,
           WbRemoteEntry  *entry,
           GCancellable   *cancellable,
           GError        **error)
{
  Sftp *self = (Sftp *) remote;
  g_autofree char *url = url_of (self, path);
  g_auto (WbAnswer) answer = { 0 };
  const char *slash = strrchr (path, '/');
  gboolean folder;

  if (!look_at (self, path, &answer, cancellable, error))
    return FALSE;
  if (!look_for_folder (self, path, &folder, cancellable, error))
    return FALSE;
  entry->name = g_strdup (slash != NULL ? slash + 1 : path);
  entry->is_folder = folder;
  entry->changed = answer.changed;
  entry->size = answer.size;
  if (folder)
    entry->size = -1;
  else if (answer.size <= 0)
    entry->size = is_empty (self, url, path, cancellable) ? 0 : -1;
  return TRUE;
}

/* --- reading ---------------------------------------------------------------------------------- */

/* What a file passes through on its way to the caller's sink. */
typedef struct
{
  WbRemoteSinkFunc      sink;
  gpointer              sink_data;
  WbRemoteProgressFunc  progress;
  gpointer              progress_data;
  gint64                done;
} Passage;

static gboolean
pass_bytes (const guint8  *bytes,
            gsize          length,
            gpointer       data,
            GError       **error)
{
  Passage *passage = data;

  if (!passage->sink (bytes, length, passage->sink_data, error))
    return FALSE;
  passage->done += (gint64) length;
  if (passage->progress != NULL)
    passage->progress (passage->done, -1, passage->progress_data);
  return TRUE;
}

static gboolean
sftp_get (WbRemote              *remote,
          const char            *path,
          gint64                 offset,
          WbRemoteSinkFunc       sink,
          gpointer               sink_data,
          WbRemoteProgressFunc   progress,
          gpointer               progress_data,
          GCancellable          *cancellable,
          GError               **error)
{
  Sftp *self = (Sftp *) remote;
  g_autofree char *url = url_of (self, path);
  g_auto (WbAnswer) answer = { 0 };
  g_autoptr (GError) reason = NULL;
  Passage passage = { sink, sink_data, progress, progress_data, offset };
  WbRequest request = { .url = url, .what = path, .sink = pass_bytes, .sink_data = &passage };
  Ask ask = { .sftp = self, .resume_from = offset };
  gboolean folder;

  if (run (&ask, &request, &answer, cancellable, &reason))
    return answer.size <= 0 || passage.done - offset == answer.size ||
           wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path,
                            "it has another size than the server says");
  if (answer.code == CURLE_BAD_DOWNLOAD_RESUME)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path, "it is shorter than it was");
  /* A folder opens like a file, and then cannot be read. */
  if (answer.code == CURLE_SSH && passage.done == offset &&
      look_for_folder (self, path, &folder, cancellable, NULL) && folder)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path, "it is a folder");
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* --- writing ---------------------------------------------------------------------------------- */

typedef struct
{
  Sftp                  *sftp;
  const char            *path;
  const char            *part;
  const WbRemoteSource  *source;
  WbRemoteProgressFunc   progress;
  gpointer               progress_data;
  GCancellable          *cancellable;
} Sending;

/* Nothing that goes wrong here is told: it follows something that is. */
static void
remove_part (const Sending *sending)
{
  struct curl_slist *commands = NULL;

  add_command (sending->sftp, &commands, "*rm", sending->part);
  (void) !command (sending->sftp, commands, sending->part, NULL, NULL);
}

/* Bytes of the part that are there already; 0 when there is none. */
static gboolean
find_part (const Sending  *sending,
           gint64         *size,
           GError        **error)
{
  g_auto (WbAnswer) answer = { 0 };
  g_autoptr (GError) reason = NULL;

  *size = 0;
  if (look_at (sending->sftp, sending->part, &answer, sending->cancellable, &reason))
    {
      *size = MAX (answer.size, 0);
      return TRUE;
    }
  return wb_share_is_absent (g_steal_pointer (&reason), error);
}

/* Something is not there, and @reason says no more than that. When a folder above @path could not be
 * made, why is told instead. Takes @reason. Returns: %FALSE */
static gboolean
fail_missing (const Sending  *sending,
              const char     *path,
              GError         *reason,
              GError        **error)
{
  Sftp *self = sending->sftp;
  const char *slash = strchr (path, '/');

  for (; slash != NULL && g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
       slash = strchr (slash + 1, '/'))
    {
      g_autofree char *folder = g_strndup (path, (gsize) (slash - path));
      g_autoptr (GError) why = NULL;
      struct curl_slist *commands = NULL;

      add_command (self, &commands, "mkdir", folder);
      /* One that is there is a fault that no server gives a reason for. */
      if (!command (self, commands, sending->path, sending->cancellable, &why) &&
          !g_error_matches (why, WB_SHARE_ERROR, WB_SHARE_ERROR_SERVER) &&
          !g_error_matches (why, WB_SHARE_ERROR, WB_SHARE_ERROR_EXISTS))
        {
          g_error_free (reason);
          g_propagate_error (error, g_steal_pointer (&why));
          return FALSE;
        }
    }
  g_propagate_error (error, reason);
  return FALSE;
}

/* Sends what is missing of the part. libcurl goes to @from with the reader itself. */
static gboolean
upload (const Sending   *sending,
        WbRemoteReader  *reader,
        gint64           from,
        GError         **error)
{
  Sftp *self = sending->sftp;
  g_autofree char *url = url_of (self, sending->part);
  g_auto (WbAnswer) answer = { 0 };
  struct curl_slist *commands = NULL;
  WbRequest request = { .url = url, .what = sending->path, .reader = reader,
                        .length = sending->source->size, .total = sending->source->size,
                        .progress = sending->progress, .progress_data = sending->progress_data };
  Ask ask = { .sftp = self, .resume_from = from };
  GError *reason = NULL;
  gboolean good;

  add_command (self, &commands, "*mkdir", WB_REMOTE_INCOMING);
  ask.commands = commands;
  good = run (&ask, &request, &answer, sending->cancellable, &reason);
  curl_slist_free_all (commands);
  return good || fail_missing (sending, sending->part, reason, error);
}

static gboolean
hash_bytes (const guint8  *bytes,
            gsize          length,
            gpointer       data,
            GError       **error)
{
  g_checksum_update (data, bytes, (gssize) length);
  return TRUE;
}

/* A part that was gone on with is read back: what lay there might have been anything. */
static gboolean
check_part (const Sending  *sending,
            GError        **error)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);

  if (!sftp_get (&sending->sftp->remote, sending->part, 0, hash_bytes, checksum, NULL, NULL,
                 sending->cancellable, error))
    return FALSE;
  return strcmp (g_checksum_get_string (checksum), sending->source->sha256) == 0 ||
         wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, sending->path,
                          "what was sent of it earlier is not what it was");
}

/* Makes the part whole: read once from its start to its end, whatever of it is sent. */
static gboolean
complete_part (const Sending  *sending,
               GError        **error)
{
  const WbRemoteSource *source = sending->source;
  g_autoptr (WbRemoteReader) reader = wb_remote_reader_new (source, error);
  gint64 from, size;

  if (reader == NULL || !find_part (sending, &from, error))
    return FALSE;
  if (from > source->size)
    {
      remove_part (sending);
      from = 0;
    }
  if ((from < source->size || from == 0) && !upload (sending, reader, from, error))
    return FALSE;
  if (!wb_remote_reader_seek (reader, source->size, error) ||
      !wb_remote_reader_finish (reader, error) ||
      !find_part (sending, &size, error))
    return FALSE;
  if (size != source->size)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, sending->path,
                            "it has another size there than was sent");
  return from == 0 || check_part (sending, error);
}

/* Gives the part its name. When the server does not say why it refused, what is there does. */
static gboolean
place_part (const Sending  *sending,
            GError        **error)
{
  Sftp *self = sending->sftp;
  g_autofree char *from = command_path (self, sending->part);
  g_autofree char *to = command_path (self, sending->path);
  g_autofree char *rename_command = g_strdup_printf ("rename %s %s", from, to);
  g_auto (WbAnswer) found = { 0 };
  g_autoptr (GError) reason = NULL;
  struct curl_slist *commands = NULL;

  add_parents (self, &commands, sending->path);
  commands = curl_slist_append (commands, rename_command);
  if (command (self, commands, sending->path, sending->cancellable, &reason))
    return TRUE;
  if (g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_SERVER) &&
      look_at (self, sending->path, &found, sending->cancellable, NULL))
    {
      remove_part (sending);
      return wb_transfer_fail (error, CURLE_REMOTE_FILE_EXISTS, sending->path);
    }
  return fail_missing (sending, sending->path, g_steal_pointer (&reason), error);
}

/* A part that cannot become whole is not left for the next try, which would go on with it. */
static gboolean
is_spoilt (const GError *reason)
{
  return g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE) ||
         g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_PROTOCOL);
}

static gboolean
sftp_put (WbRemote              *remote,
          const char            *path,
          const WbRemoteSource  *source,
          WbRemoteProgressFunc   progress,
          gpointer               progress_data,
          GCancellable          *cancellable,
          GError               **error)
{
  g_autofree char *part = wb_remote_part_path (source);
  Sending sending = { (Sftp *) remote, path, part, source, progress, progress_data, cancellable };
  g_auto (WbAnswer) found = { 0 };
  g_autoptr (GError) reason = NULL;

  if (look_at (sending.sftp, path, &found, cancellable, &reason))
    return wb_transfer_fail (error, CURLE_REMOTE_FILE_EXISTS, path);
  if (!wb_share_is_absent (g_steal_pointer (&reason), error))
    return FALSE;
  if (complete_part (&sending, &reason) && place_part (&sending, &reason))
    return TRUE;
  if (is_spoilt (reason))
    remove_part (&sending);
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

static gboolean
sftp_remove (WbRemote      *remote,
             const char    *path,
             GCancellable  *cancellable,
             GError       **error)
{
  Sftp *self = (Sftp *) remote;
  g_auto (WbRemoteEntry) found = { NULL };
  struct curl_slist *commands = NULL;

  if (!sftp_stat (remote, path, &found, cancellable, error))
    return FALSE;
  add_command (self, &commands, found.is_folder ? "rmdir" : "rm", path);
  return command (self, commands, path, cancellable, error);
}

static gboolean
sftp_make_base (WbRemote      *remote,
                GCancellable  *cancellable,
                GError       **error)
{
  Sftp *self = (Sftp *) remote;
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) reason = NULL;
  struct curl_slist *commands = NULL;

  entries = sftp_list (remote, "", cancellable, &reason);
  if (entries != NULL)
    return TRUE;
  if (!wb_share_is_absent (g_steal_pointer (&reason), error))
    return FALSE;
  add_command (self, &commands, "mkdir", "");
  return command (self, commands, remote->host, cancellable, error);
}

/* --- the kind --------------------------------------------------------------------------------- */

/* A key file that is not there is better known before than as a refused log-in. */
static gboolean
check_key_file (const char  *file,
                GError     **error)
{
  if (file == NULL || *file == '\0')
    return TRUE;
  if (!g_file_test (file, G_FILE_TEST_IS_REGULAR))
    return wb_share_refuse (error, WB_SHARE_ERROR_LOGIN, file, "there is no such key file");
  return g_access (file, R_OK) == 0 ||
         wb_share_refuse (error, WB_SHARE_ERROR_LOGIN, file, "%s", g_strerror (errno));
}

static gboolean
sftp_open (WbRemote  *remote,
           GError   **error)
{
  Sftp *self = (Sftp *) remote;

  self->base = g_uri_unescape_string (remote->base, "/");
  if (self->base == NULL || strpbrk (self->base, "\n\r") != NULL)
    return wb_share_refuse (error, WB_SHARE_ERROR_NAME, remote->base,
                            "this is no path on a server");
  if (!check_key_file (remote->server->key_file, error))
    return FALSE;
  self->transfer = wb_transfer_new (remote, TRUE, error);
  return self->transfer != NULL;
}

static void
sftp_close (WbRemote *remote)
{
  Sftp *self = (Sftp *) remote;

  g_clear_pointer (&self->transfer, wb_transfer_free);
  g_clear_error (&self->host_error);
  g_free (self->base);
}

const WbRemoteMethods wb_remote_sftp_methods = {
  .size = sizeof (Sftp),
  .open = sftp_open,
  .close = sftp_close,
  .greet = sftp_greet,
  .make_base = sftp_make_base,
  .list = sftp_list,
  .stat = sftp_stat,
  .get = sftp_get,
  .put = sftp_put,
  .remove = sftp_remove,
};
