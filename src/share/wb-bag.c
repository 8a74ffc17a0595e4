/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bag that is open, and the deed of reading one: into the private folder, to its base, through
 * the checks. */
#include "config.h"

#include "share/wb-bag-private.h"

#include "share/wb-bag-name.h"
#include "share/wb-bag-tags.h"
#include "share/wb-share.h"

#include <string.h>

const WbBagLimits wb_bag_limits = {
  .max_files = 20000,
  .max_bytes = G_GINT64_CONSTANT (8) * 1024 * 1024 * 1024,
  .max_file_bytes = G_GINT64_CONSTANT (256) * 1024 * 1024,
  .max_tag_bytes = 16 * 1024 * 1024,
  .max_ratio = 200,
  .ratio_slack = 8 * 1024 * 1024,
};

/* --- an open bag ------------------------------------------------------------------------------ */

void
wb_bag_free (WbBag *self)
{
  if (self->folder != NULL)
    wb_bag_remove_scratch (self->folder);
  g_free (self->folder);
  g_clear_pointer (&self->payload, g_ptr_array_unref);
  g_clear_pointer (&self->by_name, g_hash_table_unref);
  g_clear_pointer (&self->files, g_ptr_array_unref);
  g_clear_pointer (&self->folders, g_ptr_array_unref);
  g_clear_pointer (&self->info, g_ptr_array_unref);
  g_free (self);
}

GPtrArray *
wb_bag_get_payload (const WbBag *self)
{
  return self->payload;
}

const WbBagFile *
wb_bag_find (const WbBag *self,
             const char  *path)
{
  g_autofree char *name = wb_bag_name_normal (path);

  return g_hash_table_lookup (self->by_name, name);
}

const char *
wb_bag_get_info (const WbBag *self,
                 const char  *label)
{
  for (guint i = 0; self->info != NULL && i < self->info->len; i++)
    {
      const WbBagElement *element = g_ptr_array_index (self->info, i);

      if (g_ascii_strcasecmp (element->label, label) == 0)
        return element->value;
    }
  return NULL;
}

/* --- its base --------------------------------------------------------------------------------- */

static gboolean
has_file (GPtrArray  *files,
          const char *path)
{
  for (guint i = 0; i < files->len; i++)
    if (strcmp (((const WbBagFile *) g_ptr_array_index (files, i))->path, path) == 0)
      return TRUE;
  return FALSE;
}

/* Returns: (transfer full) (nullable): "NAME/" of the folder that has the bag in it; "" when
 * nothing stands around it; NULL when there is none. */
static char *
find_base (GPtrArray *files)
{
  if (has_file (files, "bagit.txt"))
    return g_strdup ("");
  for (guint i = 0; i < files->len; i++)
    {
      const WbBagFile *file = g_ptr_array_index (files, i);
      const char *slash = strchr (file->path, '/');

      if (slash != NULL && strcmp (slash, "/bagit.txt") == 0)
        return g_strndup (file->path, (gsize) (slash + 1 - file->path));
    }
  return NULL;
}

/* Takes @base off the front of @path, which is changed in place. */
static gboolean
strip (char        *path,
       const char  *base,
       GError     **error)
{
  gsize skip = strlen (base);

  if (!g_str_has_prefix (path, base))
    return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, path, "it stands beside the bag");
  memmove (path, path + skip, strlen (path) - skip + 1);
  return TRUE;
}

static gboolean
settle_base (WbBag       *self,
             const char  *source,
             GError     **error)
{
  g_autofree char *base = find_base (self->files);

  if (base == NULL)
    return wb_share_refuse (error, WB_SHARE_ERROR_NOT_A_BUNDLE, source,
                            "there is no bagit.txt in it");
  for (guint i = 0; i < self->files->len; i++)
    if (!strip (((WbBagFile *) g_ptr_array_index (self->files, i))->path, base, error))
      return FALSE;
  for (guint i = 0; i < self->folders->len; i++)
    {
      char *folder = g_ptr_array_index (self->folders, i);

      /* The base itself, or what it lies beside. */
      if (strlen (folder) + 1 == strlen (base) && g_str_has_prefix (base, folder))
        *folder = '\0';
      else if (!strip (folder, base, error))
        return FALSE;
    }
  return TRUE;
}

static int
by_path (gconstpointer a,
         gconstpointer b)
{
  const WbBagFile *one = *(WbBagFile *const *) a, *other = *(WbBagFile *const *) b;

  return strcmp (one->path, other->path);
}

static void
sort_out (WbBag *self)
{
  g_ptr_array_sort (self->files, by_path);
  for (guint i = 0; i < self->files->len; i++)
    {
      WbBagFile *file = g_ptr_array_index (self->files, i);

      g_hash_table_insert (self->by_name, wb_bag_name_normal (file->path), file);
      if (g_str_has_prefix (file->path, "data/"))
        g_ptr_array_add (self->payload, file);
    }
}

/* --- reading ---------------------------------------------------------------------------------- */

WbBag *
wb_bag_read (const char         *path,
             const WbBagLimits  *limits,
             const char         *scratch,
             WbBagProgressFunc   progress,
             gpointer            data,
             GCancellable       *cancellable,
             GError            **error)
{
  WbBagIntake *intake;
  g_autoptr (WbBag) self = NULL;

  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (scratch != NULL, NULL);

  if (limits == NULL)
    limits = &wb_bag_limits;
  intake = wb_bag_intake_new (scratch, limits, error);
  if (intake == NULL)
    return NULL;
  if (wb_bag_source_read (path, intake, limits, progress, data, cancellable, error))
    {
      self = g_new0 (WbBag, 1);
      self->by_name = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
      self->payload = g_ptr_array_new ();
      wb_bag_intake_steal (intake, &self->folder, &self->files, &self->folders);
    }
  wb_bag_intake_free (intake);

  if (self == NULL || !settle_base (self, path, error))
    return NULL;
  sort_out (self);
  return wb_bag_check (self, limits, cancellable, error) ? g_steal_pointer (&self) : NULL;
}
