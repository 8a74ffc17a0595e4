/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the files of an import: walks folders, leaves out what is hidden, and stops at a limit.
 * Files are not opened here. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-photo-private.h"

#define ATTRIBUTES G_FILE_ATTRIBUTE_STANDARD_NAME ","                                              \
                   G_FILE_ATTRIBUTE_STANDARD_DISPLAY_NAME ","                                      \
                   G_FILE_ATTRIBUTE_STANDARD_TYPE ","                                              \
                   G_FILE_ATTRIBUTE_STANDARD_SIZE ","                                              \
                   G_FILE_ATTRIBUTE_STANDARD_IS_HIDDEN ","                                         \
                   G_FILE_ATTRIBUTE_STANDARD_IS_SYMLINK

/* --- one source ------------------------------------------------------------------------------- */

WbPhotoSource *
wb_photo_source_new_file (GFile *file)
{
  WbPhotoSource *self = g_new0 (WbPhotoSource, 1);

  self->file = g_object_ref (file);
  return self;
}

WbPhotoSource *
wb_photo_source_new_bytes (GBytes     *bytes,
                           const char *name)
{
  WbPhotoSource *self = g_new0 (WbPhotoSource, 1);

  self->bytes = g_bytes_ref (bytes);
  self->name = g_strdup (name);
  self->size = (gint64) g_bytes_get_size (bytes);
  return self;
}

void
wb_photo_source_free (WbPhotoSource *self)
{
  g_clear_object (&self->file);
  g_clear_pointer (&self->bytes, g_bytes_unref);
  g_free (self->name);
  g_free (self);
}

/* --- walking ---------------------------------------------------------------------------------- */

typedef struct
{
  GPtrArray    *found;
  GPtrArray    *results;
  GCancellable *cancellable;
} Walk;

static void
refuse (Walk       *walk,
        const char *name,
        GError     *error)
{
  WbPhotoResult *result;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      g_error_free (error);
      return;
    }
  result = wb_photo_result_new (name, WB_PHOTO_REFUSED);
  result->error = error;
  g_ptr_array_add (walk->results, result);
}

static gboolean
add (Walk       *walk,
     GFile      *file,
     GFileInfo  *info,
     gboolean    in_folder,
     GError    **error)
{
  WbPhotoSource *source;

  if (walk->found->len >= WB_PHOTO_MAX_FILES)
    {
      g_set_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_TOO_MANY,
                   "more than %d files at once", WB_PHOTO_MAX_FILES);
      return FALSE;
    }

  source = wb_photo_source_new_file (file);
  source->name = g_strdup (g_file_info_get_display_name (info));
  source->size = g_file_info_get_size (info);
  source->in_folder = in_folder;
  g_ptr_array_add (walk->found, source);
  return TRUE;
}

static gint
by_name (gconstpointer a,
         gconstpointer b)
{
  return g_strcmp0 (g_file_info_get_name (*(GFileInfo *const *) a),
                    g_file_info_get_name (*(GFileInfo *const *) b));
}

static GPtrArray *
list_folder (GFile         *folder,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GFileEnumerator) enumerator = NULL;

  enumerator = g_file_enumerate_children (folder, ATTRIBUTES, G_FILE_QUERY_INFO_NOFOLLOW_SYMLINKS,
                                          cancellable, error);
  if (enumerator == NULL)
    return NULL;

  for (;;)
    {
      GFileInfo *info;

      if (!g_file_enumerator_iterate (enumerator, &info, NULL, cancellable, error))
        return NULL;
      if (info == NULL)
        break;
      if (!g_file_info_get_is_hidden (info))
        g_ptr_array_add (entries, g_object_ref (info));
    }
  g_ptr_array_sort (entries, by_name);
  return g_steal_pointer (&entries);
}

static gboolean
walk_folder (Walk        *walk,
             GFile       *folder,
             const char  *name,
             guint        depth,
             GError     **error)
{
  g_autoptr (GPtrArray) entries = NULL;
  GError *fault = NULL;

  if (depth > WB_PHOTO_MAX_DEPTH)
    {
      g_set_error (&fault, WB_PICTURE_ERROR, WB_PICTURE_ERROR_TOO_MANY,
                   "“%s”: more than %d folders in one another", name, WB_PHOTO_MAX_DEPTH);
      refuse (walk, name, fault);
      return TRUE;
    }

  entries = list_folder (folder, walk->cancellable, &fault);
  if (entries == NULL)
    {
      refuse (walk, name, fault);
      return TRUE;
    }

  for (guint i = 0; i < entries->len; i++)
    {
      GFileInfo *info = g_ptr_array_index (entries, i);
      g_autoptr (GFile) child = g_file_get_child (folder, g_file_info_get_name (info));
      gboolean link = g_file_info_get_is_symlink (info);

      if (!link && g_file_info_get_file_type (info) == G_FILE_TYPE_DIRECTORY)
        {
          if (!walk_folder (walk, child, g_file_info_get_display_name (info), depth + 1, error))
            return FALSE;
        }
      else if (!link && g_file_info_get_file_type (info) == G_FILE_TYPE_REGULAR)
        {
          if (!add (walk, child, info, TRUE, error))
            return FALSE;
        }
      else
        {
          g_ptr_array_add (walk->results,
                           wb_photo_result_new (g_file_info_get_display_name (info),
                                                WB_PHOTO_PASSED_OVER));
        }
    }
  return TRUE;
}

static gboolean
walk_source (Walk           *walk,
             WbPhotoSource  *source,
             GError        **error)
{
  g_autoptr (GFileInfo) info = NULL;
  GError *fault = NULL;

  if (source->bytes != NULL)
    {
      g_ptr_array_add (walk->found, wb_photo_source_new_bytes (source->bytes, source->name));
      return TRUE;
    }

  info = g_file_query_info (source->file, ATTRIBUTES, G_FILE_QUERY_INFO_NONE, walk->cancellable,
                            &fault);
  if (info == NULL)
    {
      g_autofree char *name = g_file_get_basename (source->file);
      g_autofree char *display = g_filename_display_name (name);

      refuse (walk, display, fault);
      return TRUE;
    }
  if (g_file_info_get_file_type (info) == G_FILE_TYPE_DIRECTORY)
    return walk_folder (walk, source->file, g_file_info_get_display_name (info), 1, error);
  if (g_file_info_get_file_type (info) == G_FILE_TYPE_REGULAR)
    return add (walk, source->file, info, FALSE, error);

  g_set_error (&fault, WB_PICTURE_ERROR, WB_PICTURE_ERROR_NOT_A_FILE, "“%s”: not a file",
               g_file_info_get_display_name (info));
  refuse (walk, g_file_info_get_display_name (info), fault);
  return TRUE;
}

GPtrArray *
wb_photo_sources_walk (GPtrArray     *sources,
                       GPtrArray     *results,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_autoptr (GPtrArray) found = NULL;
  Walk walk = { NULL, results, cancellable };

  found = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_photo_source_free);
  walk.found = found;
  for (guint i = 0; i < sources->len; i++)
    if (!walk_source (&walk, g_ptr_array_index (sources, i), error))
      return NULL;
  return g_steal_pointer (&found);
}
