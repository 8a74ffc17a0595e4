/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on what waits to be published or fetched: put a job in, list the queue, work on it, and
 * say what is to become of an entry. The queue is the one that the window shows. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-queue.h"
#include "office/wb-text-table.h"
#include "office/wb-words-share.h"
#include "office/wb-words.h"

#include <glib-unix.h>
#include <glib/gi18n.h>
#include <inttypes.h>
#include <stdio.h>
#include <unistd.h>

/* --- add -------------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): id of the job that "fetch" means: one of the book, else one
 * on the server; or %NULL, with the fault told. */
static char *
find_job (WbOffice       *office,
          const WbServer *server,
          const char     *number)
{
  g_autoptr (WbJob) job = wb_office_find_job (office, number, NULL, NULL);
  g_autoptr (WbSecret) secret = NULL;

  if (job != NULL)
    return g_strdup (wb_job_get_id (job));
  return wb_tool_need_secret (server, &secret)
           ? wb_tool_find_published (office, server, secret, number) : NULL;
}

int
wb_tool_queue_add (const WbToolOptions *options)
{
  const char *number = options->arguments[2];
  g_autoptr (WbOffice) office = NULL;
  g_autoptr (WbServer) server = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *id = NULL;
  g_autoptr (GError) error = NULL;
  gint64 entry;
  int deed;

  if (!wb_enum_parse (&wb_share_deeds, options->arguments[1], &deed, &error))
    return wb_tool_fail (options->arguments[1], error);
  office = wb_tool_open (options);
  server = office != NULL ? wb_tool_find_server (office, options->arguments[3]) : NULL;
  if (server == NULL)
    return WB_TOOL_FAILED;

  if (deed == WB_SHARE_DEED_FETCH)
    id = find_job (office, server, number);
  else
    {
      job = wb_office_find_job (office, number, NULL, &error);
      if (job == NULL)
        return wb_tool_fail (NULL, error);
      id = g_strdup (wb_job_get_id (job));
    }
  if (id == NULL)
    return WB_TOOL_FAILED;

  entry = wb_office_queue_add (office, (WbShareDeed) deed, server->id, id, number, NULL, &error);
  if (entry == 0)
    return wb_tool_fail (number, error);
  /* Translators: the number of a job, the name of a server, and the number of an entry. */
  wb_tool_print_line (_("Job %s waits for “%s” as entry %" PRId64 ".\n"), number,
                      server->name, entry);
  return WB_TOOL_DONE;
}

/* --- list ------------------------------------------------------------------------------------- */

static const char *
name_of (GPtrArray  *servers,
         const char *id)
{
  for (guint i = 0; i < servers->len; i++)
    {
      const WbServer *server = g_ptr_array_index (servers, i);

      if (g_strcmp0 (server->id, id) == 0)
        return server->name;
    }
  return "";
}

/* Returns: (transfer full): UTC as it is written on servers; %NULL for a time that is not given. */
static char *
time_of (gint64 seconds)
{
  g_autoptr (GDateTime) time = seconds > 0 ? g_date_time_new_from_unix_utc (seconds) : NULL;

  return time != NULL ? g_date_time_format (time, "%Y-%m-%dT%H:%M:%SZ") : NULL;
}

static void
print_entries (GPtrArray *entries,
               GPtrArray *servers)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("rlllll");
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < entries->len; i++)
    {
      const WbShareEntry *entry = g_ptr_array_index (entries, i);
      WbProgressState state = { .done = entry->done, .all = entry->all, .seconds_left = -1 };
      g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, entry->id);
      g_autofree char *progress = wb_words_progress (&state);
      const char *fault;

      (void) wb_queue_fault_of (entry, &fault);
      wb_text_table_add_row (table, id, wb_words_enum (&wb_share_deeds, (int) entry->deed),
                             entry->title, name_of (servers, entry->server_id),
                             wb_words_enum (&wb_share_states, (int) entry->state), progress);
      if (fault != NULL)
        wb_text_table_add_note (table, 4, fault);
      if (entry->state == WB_SHARE_WAITING && entry->tries > 0)
        {
          g_autofree char *at = time_of (entry->next_try);
          g_autofree char *local = at != NULL ? wb_words_at (at) : NULL;
          g_autofree char *note = g_strdup_printf (_("It is tried again from %s on."), local);

          wb_text_table_add_note (table, 4, note);
        }
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
add_number (JsonBuilder *builder,
            const char  *key,
            gint64       number)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_int_value (builder, number);
}

static void
add_entry (JsonBuilder        *builder,
           const WbShareEntry *entry,
           GPtrArray          *servers)
{
  g_autofree char *next_try = entry->state == WB_SHARE_WAITING ? time_of (entry->next_try) : NULL;
  g_autofree char *added = time_of (entry->added);
  const char *sentence;
  WbQueueFault fault = wb_queue_fault_of (entry, &sentence);

  json_builder_begin_object (builder);
  add_number (builder, "id", entry->id);
  wb_tool_json_add_text (builder, "deed", wb_enum_nick (&wb_share_deeds, (int) entry->deed));
  wb_tool_json_add_text (builder, "job", entry->job_id);
  wb_tool_json_add_text (builder, "number", entry->title);
  wb_tool_json_add_text (builder, "server", name_of (servers, entry->server_id));
  wb_tool_json_add_text (builder, "state", wb_enum_nick (&wb_share_states, (int) entry->state));
  if (fault != WB_QUEUE_FAULT_NONE)
    wb_tool_json_add_text (builder, "fault", wb_enum_nick (&wb_queue_faults, (int) fault));
  wb_tool_json_add_text (builder, "sentence", sentence);
  add_number (builder, "tries", entry->tries);
  wb_tool_json_add_text (builder, "next_try", next_try);
  add_number (builder, "done", entry->done);
  add_number (builder, "all", entry->all);
  wb_tool_json_add_text (builder, "added", added);
  json_builder_end_object (builder);
}

int
wb_tool_queue_list (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (JsonBuilder) builder = NULL;
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GPtrArray) servers = NULL;
  g_autoptr (GError) error = NULL;

  if (office == NULL)
    return WB_TOOL_FAILED;
  entries = wb_office_queue_list (office, NULL, &error);
  servers = entries != NULL ? wb_office_list_servers (office, NULL, &error) : NULL;
  if (servers == NULL)
    return wb_tool_fail (NULL, error);
  if (!options->json)
    {
      print_entries (entries, servers);
      return WB_TOOL_DONE;
    }

  builder = json_builder_new ();
  json_builder_begin_array (builder);
  for (guint i = 0; i < entries->len; i++)
    add_entry (builder, g_ptr_array_index (entries, i), servers);
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
  return WB_TOOL_DONE;
}

/* --- what is to become of entries ------------------------------------------------------------- */

typedef gboolean (*EntryFunc) (WbOffice      *office,
                               gint64         id,
                               GCancellable  *cancellable,
                               GError       **error);

/* Does @each to every entry that is named; what cannot be done does not keep the others back. */
static int
for_entries (const WbToolOptions *options,
             EntryFunc            each)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  int status = WB_TOOL_DONE;

  if (office == NULL)
    return WB_TOOL_FAILED;
  for (guint i = 1; options->arguments[i] != NULL; i++)
    {
      const char *word = options->arguments[i];
      g_autoptr (GError) error = NULL;
      gint64 id;

      if (!g_ascii_string_to_signed (word, 10, 1, G_MAXINT64, &id, NULL))
        {
          wb_tool_complain (_("“%s” is not the number of an entry; “wainbook queue list” tells "
                              "them."), word);
          status = WB_TOOL_FAILED;
        }
      else if (!each (office, id, NULL, &error))
        status = wb_tool_fail (word, error);
    }
  return status;
}

int
wb_tool_queue_pause (const WbToolOptions *options)
{
  return for_entries (options, wb_office_queue_pause);
}

int
wb_tool_queue_resume (const WbToolOptions *options)
{
  return for_entries (options, wb_office_queue_resume);
}

int
wb_tool_queue_cancel (const WbToolOptions *options)
{
  return for_entries (options, wb_office_queue_cancel);
}

int
wb_tool_queue_clear (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GError) error = NULL;

  if (office == NULL)
    return WB_TOOL_FAILED;
  return wb_office_queue_clear (office, NULL, &error) ? WB_TOOL_DONE : wb_tool_fail (NULL, error);
}

/* --- run -------------------------------------------------------------------------------------- */

/* What is told while the queue is worked on. */
typedef struct
{
  WbQueue   *queue;
  GMainLoop *loop;
  gboolean   shown;      /* a line of progress, on a terminal */
  gboolean   failed;
  gboolean   stopped;
} Run;

/* Progress is for a person who looks on. */
static void
clear_progress (Run *run)
{
  if (run->shown)
    g_printerr ("\r\033[K");
  run->shown = FALSE;
}

static void
show_progress (WbQueueItem *item,
               GParamSpec  *pspec,
               Run         *run)
{
  WbProgressState state;
  g_autofree char *words = NULL;

  if (wb_queue_item_get_entry (item)->state != WB_SHARE_RUNNING)
    return;
  wb_queue_item_get_progress (item, &state);
  words = wb_words_progress (&state);
  g_printerr ("\r\033[K%s: %s", wb_queue_item_get_entry (item)->title, words);
  run->shown = TRUE;
}

static void
tell_item (WbQueueItem *item,
           GParamSpec  *pspec,
           Run         *run)
{
  const WbShareEntry *entry = wb_queue_item_get_entry (item);
  const char *server = wb_queue_item_get_server (item);
  const char *fault = wb_queue_item_get_fault (item);

  clear_progress (run);
  switch (entry->state)
    {
    case WB_SHARE_RUNNING:
      break;
    case WB_SHARE_DONE:
      if (entry->deed == WB_SHARE_DEED_PUBLISH)
        /* Translators: the number of a job, and the name of a server. */
        wb_tool_print_line (_("Job %s is on “%s”.\n"), entry->title, server);
      else
        wb_tool_print_line (_("Job %s is in the book as it is on “%s”.\n"), entry->title, server);
      break;
    case WB_SHARE_PAUSED:
      /* Translators: the number of a job, and the name of a server. */
      wb_tool_print_line (_("Job %s for “%s” is paused.\n"), entry->title, server);
      break;
    case WB_SHARE_FAILED:
      run->failed = TRUE;
      wb_tool_complain ("%s: %s", entry->title, fault);
      break;
    case WB_SHARE_WAITING:
      if (fault != NULL)
        /* Translators: the number of a job, and a sentence that says what went wrong. */
        wb_tool_complain (_("%s: %s It is tried again by itself."), entry->title, fault);
      break;
    }
  fflush (stdout);
}

static void
watch_items (GListModel *model,
             guint       position,
             guint       removed,
             guint       added,
             Run        *run)
{
  for (guint i = position; i < position + added; i++)
    {
      g_autoptr (WbQueueItem) item = g_list_model_get_item (model, i);

      g_signal_connect (item, "notify::state", G_CALLBACK (tell_item), run);
      if (isatty (STDERR_FILENO))
        g_signal_connect (item, "notify::done", G_CALLBACK (show_progress), run);
    }
}

/* A queue that could not be read at all: nobody knows what is left. Later it is tried again, as when
 * somebody holds the book for long. */
static void
fault_cb (Run *run)
{
  if (wb_queue_get_fault (run->queue) == NULL)
    return;
  clear_progress (run);
  wb_tool_complain ("%s", wb_queue_get_fault (run->queue));
  if (wb_queue_get_loaded (run->queue))
    return;
  run->failed = TRUE;
  g_main_loop_quit (run->loop);
}

static void
look_cb (Run *run)
{
  guint n_open;

  g_object_get (run->queue, "n-open", &n_open, NULL);
  if (wb_queue_get_loaded (run->queue) && n_open == 0)
    g_main_loop_quit (run->loop);
}

static gboolean
stop_cb (gpointer data)
{
  Run *run = data;

  run->stopped = TRUE;
  g_main_loop_quit (run->loop);
  return G_SOURCE_CONTINUE;
}

/* Asks for the secrets of all servers that something waits for and that none is kept of. */
static gboolean
ask_secrets (WbOffice *office,
             WbQueue  *queue)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) entries = wb_office_queue_list (office, NULL, &error);
  g_autoptr (GPtrArray) servers = entries != NULL ? wb_office_list_servers (office, NULL, &error)
                                                  : NULL;

  if (servers == NULL)
    {
      wb_tool_fail (NULL, error);
      return FALSE;
    }
  for (guint i = 0; i < servers->len; i++)
    {
      const WbServer *server = g_ptr_array_index (servers, i);
      gboolean wanted = FALSE;
      g_autoptr (WbSecret) secret = NULL;

      for (guint k = 0; k < entries->len && !wanted; k++)
        {
          const WbShareEntry *entry = g_ptr_array_index (entries, k);

          wanted = g_strcmp0 (entry->server_id, server->id) == 0 &&
                   (entry->state == WB_SHARE_WAITING || entry->state == WB_SHARE_RUNNING);
        }
      if (wanted && !wb_tool_need_secret (server, &secret))
        return FALSE;
      if (secret != NULL)
        wb_queue_set_secret (queue, server->id, secret);
    }
  return TRUE;
}

int
wb_tool_queue_run (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbQueue) queue = office != NULL ? wb_queue_new (office, NULL) : NULL;
  g_autoptr (GMainLoop) loop = NULL;
  Run run = { .queue = queue };
  guint interrupt, end;

  if (queue == NULL || !ask_secrets (office, queue))
    return WB_TOOL_FAILED;

  run.loop = loop = g_main_loop_new (NULL, FALSE);
  g_signal_connect (queue, "items-changed", G_CALLBACK (watch_items), &run);
  g_signal_connect_swapped (queue, "notify::fault", G_CALLBACK (fault_cb), &run);
  g_signal_connect_swapped (queue, "notify::n-open", G_CALLBACK (look_cb), &run);
  g_signal_connect_swapped (queue, "notify::loaded", G_CALLBACK (look_cb), &run);
  interrupt = g_unix_signal_add (SIGINT, stop_cb, &run);
  end = g_unix_signal_add (SIGTERM, stop_cb, &run);

  wb_queue_start (queue);
  g_main_loop_run (loop);
  g_signal_handlers_disconnect_by_data (queue, &run);
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (queue)); i++)
    {
      g_autoptr (WbQueueItem) item = g_list_model_get_item (G_LIST_MODEL (queue), i);

      g_signal_handlers_disconnect_by_data (item, &run);
    }
  wb_queue_stop (queue);
  g_source_remove (interrupt);
  g_source_remove (end);

  clear_progress (&run);
  if (run.stopped)
    wb_tool_complain (_("Stopped. What was not done waits in the queue."));
  return run.failed || run.stopped ? WB_TOOL_FAILED : WB_TOOL_DONE;
}
