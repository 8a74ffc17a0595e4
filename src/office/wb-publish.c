/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Publishes a job: what belongs to it is gathered as for a bundle, and put on the server as a version
 * that follows those that this book has seen. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-publish.h"

#include "office/wb-publish-private.h"
#include "share/wb-share.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

/* --- files ------------------------------------------------------------------------------------ */

void
wb_share_remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      (void) g_unlink (path);
    }
  (void) g_rmdir (folder);
}

/* Kept papers are in the book, and become files for as long as they are sent. */
static WbDepotItem *
item_of (const WbBundleItem  *item,
         const char          *folder,
         GError             **error)
{
  const char *name = item->path + strlen ("data/");
  g_autofree char *path = NULL;
  GStatBuf info;

  if (item->bytes == NULL)
    {
      if (g_stat (item->file, &info) != 0)
        {
          wb_share_refuse (error, WB_SHARE_ERROR_SOURCE, name, "its file is gone or cannot be read");
          return NULL;
        }
      return wb_depot_item_new (name, item->file, item->sha256, info.st_size);
    }

  path = g_build_filename (folder, item->sha256, NULL);
  if (!g_file_set_contents (path, g_bytes_get_data (item->bytes, NULL),
                            (gssize) g_bytes_get_size (item->bytes), error))
    return NULL;
  return wb_depot_item_new (name, path, item->sha256, (gint64) g_bytes_get_size (item->bytes));
}

/* The document is first among what is gathered, and no item. */
static GPtrArray *
items_of (GPtrArray   *gathered,
          const char  *folder,
          GError     **error)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_depot_item_free);

  for (guint i = 1; i < gathered->len; i++)
    {
      WbDepotItem *item = item_of (g_ptr_array_index (gathered, i), folder, error);

      if (item == NULL)
        return NULL;
      g_ptr_array_add (items, item);
    }
  return g_steal_pointer (&items);
}

/* --- the version ------------------------------------------------------------------------------ */

static void
add_summary (GHashTable *summary,
             const char *key,
             const char *text)
{
  char *line;
  const char *end;

  if (text == NULL || *text == '\0')
    return;
  /* A version takes lines, none of them endless; what is cut is cut between letters. */
  line = g_strndup (text, WB_VERSION_MAX_TEXT);
  if (!g_utf8_validate (line, -1, &end))
    line[end - line] = '\0';
  for (char *at = line; *at != '\0'; at++)
    if (g_ascii_iscntrl (*at))
      *at = ' ';
  g_hash_table_insert (summary, g_strdup (key), line);
}

/* What a list of published jobs shows. */
static GHashTable *
summary_of (const WbJob *job)
{
  g_autoptr (WbJobSummary) facts = wb_job_summary_new (job);
  GHashTable *summary = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autofree char *pickup = wb_date_is_set (&facts->pickup) ? wb_date_to_text (&facts->pickup) : NULL;

  add_summary (summary, "number", facts->number);
  add_summary (summary, "shipper", facts->shipper);
  add_summary (summary, "from_city", facts->from_city);
  add_summary (summary, "to_city", facts->to_city);
  add_summary (summary, "pickup", pickup);
  add_summary (summary, "claims", facts->claims);
  add_summary (summary, "stage", wb_enum_nick (&wb_stages, (int) facts->stage));
  return summary;
}

static GStrv
heads_of (const WbDepotJob *there)
{
  GPtrArray *heads = g_ptr_array_new ();

  for (guint i = 0; i < there->heads->len; i++)
    g_ptr_array_add (heads, g_strdup (((WbVersion *) g_ptr_array_index (there->heads, i))->sha256));
  g_ptr_array_add (heads, NULL);
  return (GStrv) g_ptr_array_free (heads, FALSE);
}

/* Notes that the job as it is here is what @heads are. */
static gboolean
note (WbShareLink   *link,
      GStrv          heads,
      const char    *at,
      GCancellable  *cancellable,
      GError       **error)
{
  const WbPublication publication = {
    (char *) wb_job_get_id (link->mine), link->server->id, heads, NULL, (char *) at,
  };
  g_autoptr (GBytes) document = g_bytes_new (link->document, strlen (link->document));

  return wb_book_note_publication (wb_office_get_book (link->office), &publication, document,
                                   cancellable, error);
}

static gboolean
send_version (WbShareLink   *link,
              const char    *folder,
              WbProgress    *progress,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autoptr (GPtrArray) gathered = NULL;
  g_autoptr (GPtrArray) items = NULL;
  g_autoptr (GHashTable) summary = summary_of (link->mine);
  g_auto (GStrv) parents = heads_of (link->there);
  g_autofree char *at = wb_share_link_now ();
  g_autofree char *by = g_utf8_make_valid (g_get_user_name (), -1);
  g_autofree char *desk = g_utf8_make_valid (g_get_host_name (), -1);
  g_autofree char *sha256 = NULL;
  guint n_papers, n_printed, n_lost;
  WbDepotDraft draft = { wb_job_get_id (link->mine), (const char *const *) parents, at, by, desk };

  wb_progress_begin (progress, N_("Gathering what belongs to the job…"), 0, 0);
  gathered = wb_bundle_gather (link->office, link->mine, &n_papers, &n_printed, &n_lost,
                               cancellable, error);
  items = gathered != NULL ? items_of (gathered, folder, error) : NULL;
  if (items == NULL)
    return FALSE;

  draft.document = ((const WbBundleItem *) g_ptr_array_index (gathered, 0))->bytes;
  draft.items = items;
  draft.summary = summary;
  wb_progress_begin (progress, N_("Publishing the job…"), 0, 0);
  if (!wb_depot_publish (link->depot, &draft, progress != NULL ? wb_progress_set : NULL, progress,
                         &sha256, cancellable, error))
    return FALSE;

  {
    char *heads[] = { sha256, NULL };

    return note (link, heads, at, cancellable, error);
  }
}

static gboolean
publish (WbShareLink   *link,
         WbProgress    *progress,
         GCancellable  *cancellable,
         GError       **error)
{
  g_autofree char *folder = NULL;
  g_auto (GStrv) heads = NULL;
  g_autofree char *at = NULL;
  gboolean done;

  switch (wb_share_link_state (link))
    {
    case WB_PUBLISH_SAME:
      heads = heads_of (link->there);
      at = wb_share_link_now ();
      return note (link, heads, at, cancellable, error);
    case WB_PUBLISH_CHANGED_THERE:
    case WB_PUBLISH_CHANGED_BOTH:
      return wb_share_refuse (error, WB_SHARE_ERROR_CHANGED, link->server->name,
                              "there is a version of the job that is not in this book yet");
    case WB_PUBLISH_NEVER:
    case WB_PUBLISH_CHANGED_HERE:
      break;
    }

  folder = g_dir_make_tmp ("wainbook-publish-XXXXXX", error);
  if (folder == NULL)
    return FALSE;
  done = send_version (link, folder, progress, cancellable, error);
  wb_share_remove_folder (folder);
  return done;
}

WbPublishStatus *
wb_office_publish (WbOffice      *self,
                   const char    *server_id,
                   WbSecret      *secret,
                   const char    *job_id,
                   WbProgress    *progress,
                   GCancellable  *cancellable,
                   GError       **error)
{
  g_autoptr (WbShareLink) link = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (server_id != NULL && job_id != NULL, NULL);

  wb_progress_begin (progress, N_("Asking the server…"), 0, 0);
  link = wb_share_link_open (self, server_id, secret, cancellable, error);
  if (link == NULL || !wb_share_link_look (link, job_id, cancellable, error))
    return NULL;
  if (link->mine == NULL)
    {
      g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND, "there is no job %s", job_id);
      return NULL;
    }

  if (!publish (link, progress, cancellable, error))
    return NULL;
  return wb_office_publish_status (self, server_id, secret, job_id, cancellable, error);
}
