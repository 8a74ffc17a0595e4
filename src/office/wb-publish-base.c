/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which version a job here and one on a server both started from. When people published at once that
 * is none of those that the book has seen last, but one before them: the nearest that both have in
 * common. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-publish-private.h"

#include "office/wb-job-document.h"

#include <string.h>

/* Adds @sha256 and all versions before it to @set. @versions: (element-type utf8 WbVersion): by
 * hash; one that is not there, since its file was damaged, is known by name alone. */
static void
add_with_parents (GHashTable *versions,
                  const char *sha256,
                  GHashTable *set)
{
  g_autoptr (GPtrArray) left = g_ptr_array_new ();

  g_ptr_array_add (left, (gpointer) sha256);
  while (left->len > 0)
    {
      const char *next = g_ptr_array_steal_index_fast (left, left->len - 1);
      const WbVersion *version = g_hash_table_lookup (versions, next);

      if (!g_hash_table_add (set, (gpointer) next) || version == NULL)
        continue;
      for (guint i = 0; version->parents != NULL && version->parents[i] != NULL; i++)
        g_ptr_array_add (left, version->parents[i]);
    }
}

static GHashTable *
versions_by_hash (const WbDepotJob *there)
{
  GHashTable *versions = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < there->versions->len; i++)
    {
      WbVersion *version = g_ptr_array_index (there->versions, i);

      g_hash_table_insert (versions, version->sha256, version);
    }
  return versions;
}

/* All versions that are in the job here: those that were seen, one that is the same as the job, and
 * what was before them. */
static GHashTable *
versions_here (const WbShareLink *link,
               GHashTable        *versions)
{
  GHashTable *here = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTableIter iter;
  gpointer version;

  for (guint i = 0; link->seen != NULL && link->seen->heads[i] != NULL; i++)
    add_with_parents (versions, link->seen->heads[i], here);
  g_hash_table_iter_init (&iter, versions);
  while (g_hash_table_iter_next (&iter, NULL, &version))
    if (g_strcmp0 (link->hash, ((WbVersion *) version)->document.sha256) == 0)
      add_with_parents (versions, ((WbVersion *) version)->sha256, here);
  return here;
}

/* Returns: (transfer none) (nullable): the version that both have and that is before no other that
 * both have; %NULL when there is none, or more than one. */
static const char *
nearest_in_common (const WbShareLink *link,
                   const WbVersion   *theirs,
                   GHashTable        *versions)
{
  g_autoptr (GHashTable) here = versions_here (link, versions);
  g_autoptr (GHashTable) there = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) before = g_hash_table_new (g_str_hash, g_str_equal);
  const char *nearest = NULL;
  GHashTableIter iter;
  gpointer hash;

  add_with_parents (versions, theirs->sha256, there);
  g_hash_table_iter_init (&iter, there);
  while (g_hash_table_iter_next (&iter, &hash, NULL))
    {
      const WbVersion *version = g_hash_table_lookup (versions, hash);

      if (!g_hash_table_contains (here, hash))
        g_hash_table_iter_remove (&iter);
      else if (version != NULL && version->parents != NULL)
        for (guint i = 0; version->parents[i] != NULL; i++)
          add_with_parents (versions, version->parents[i], before);
    }

  g_hash_table_iter_init (&iter, there);
  while (g_hash_table_iter_next (&iter, &hash, NULL))
    {
      if (g_hash_table_contains (before, hash))
        continue;
      if (nearest != NULL)
        return NULL;
      nearest = hash;
    }
  return nearest;
}

static WbJob *
read_kept (WbShareLink   *link,
           const char    *hash,
           GCancellable  *cancellable,
           GError       **error)
{
  g_autoptr (GBytes) document = wb_book_read_document (wb_office_get_book (link->office), hash,
                                                       cancellable, error);

  return document != NULL ? wb_job_document_read (g_bytes_get_data (document, NULL),
                                                  (gssize) g_bytes_get_size (document), error)
                          : NULL;
}

WbJob *
wb_share_link_load_base (WbShareLink      *link,
                         const WbVersion  *theirs,
                         GCancellable     *cancellable,
                         GError          **error)
{
  g_autoptr (GHashTable) versions = versions_by_hash (link->there);
  const char *nearest = nearest_in_common (link, theirs, versions);
  const WbVersion *version = nearest != NULL ? g_hash_table_lookup (versions, nearest) : NULL;
  g_autoptr (GError) fault = NULL;
  WbJob *base;

  if (nearest == NULL)
    return NULL;
  /* Its file is damaged there; what was noted here is its document, when nothing else was seen. */
  if (version == NULL)
    return link->seen != NULL && g_strv_length (link->seen->heads) == 1
             ? read_kept (link, link->seen->document, cancellable, error) : NULL;

  base = read_kept (link, version->document.sha256, cancellable, &fault);
  if (g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
    return wb_share_link_fetch_document (link, version, NULL, NULL, cancellable, error);
  if (base == NULL)
    g_propagate_error (error, g_steal_pointer (&fault));
  return base;
}
