/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bounded store of textures by hash, a pool of two threads that makes them, and a slow walk
 * through the files. Knows no widget. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-shelf.h"

#include "office/wb-photo-pictures.h"
#include "office/wb-words.h"

/* About 60 MB of thumbnails. */
#define MAX_TEXTURES 250
#define MAX_THREADS  2
/* Files that one turn of the walk looks at. */
#define TURN         6

typedef enum { STAGE_THERE = 1, STAGE_WHOLE } Stage;

struct _WbPhotoShelf
{
  GObject       parent_instance;

  WbOffice     *office;
  GCancellable *closed;      /* cancelled when nobody needs anything any more */
  GThreadPool  *pool;
  guint         serial;
  GHashTable   *textures;    /* hash → GdkTexture */
  GQueue        order;       /* of their hashes, the last used first */
  GHashTable   *faults;      /* hash → sentence */
  GHashTable   *stages;      /* hash → Stage that was passed */
  WbJob        *waiting;     /* to be walked through */
  gboolean      walking;
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbPhotoShelf, wb_photo_shelf, G_TYPE_OBJECT)

/* --- thumbnails ------------------------------------------------------------------------------- */

typedef struct
{
  WbOffice     *office;
  WbPhoto      *photo;
  GCancellable *closed;
  guint         serial;
} Wish;

static void
wish_free (gpointer data)
{
  Wish *wish = data;

  g_object_unref (wish->office);
  g_object_unref (wish->closed);
  wb_record_unref (wish->photo);
  g_free (wish);
}

static gint
last_first (gconstpointer a,
            gconstpointer b,
            gpointer      data)
{
  const Wish *first = g_task_get_task_data (G_TASK (a));
  const Wish *second = g_task_get_task_data (G_TASK (b));

  return second->serial > first->serial ? 1 : second->serial < first->serial ? -1 : 0;
}

static void
load_in_thread (gpointer data,
                gpointer user_data)
{
  g_autoptr (GTask) task = data;
  Wish *wish = g_task_get_task_data (task);
  g_autoptr (GdkPixbuf) pixbuf = NULL;
  g_autoptr (GError) error = NULL;

  if (g_task_return_error_if_cancelled (task))
    return;
  if (g_cancellable_set_error_if_cancelled (wish->closed, &error))
    {
      g_task_return_error (task, g_steal_pointer (&error));
      return;
    }

  pixbuf = wb_office_load_thumbnail (wish->office, wish->photo, g_task_get_cancellable (task),
                                     &error);
  if (pixbuf != NULL)
    g_task_return_pointer (task, gdk_texture_new_for_pixbuf (pixbuf), g_object_unref);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_photo_shelf_load_async (WbPhotoShelf        *self,
                           const WbPhoto       *photo,
                           GCancellable        *cancellable,
                           GAsyncReadyCallback  callback,
                           gpointer             data)
{
  GTask *task = g_task_new (self, cancellable, callback, data);
  Wish *wish = g_new0 (Wish, 1);

  wish->office = g_object_ref (self->office);
  wish->closed = g_object_ref (self->closed);
  wish->photo = wb_record_ref ((gpointer) photo);
  wish->serial = ++self->serial;
  g_task_set_source_tag (task, wb_photo_shelf_load_async);
  g_task_set_task_data (task, wish, wish_free);
  g_task_set_priority (task, G_PRIORITY_DEFAULT_IDLE);
  g_thread_pool_push (self->pool, task, NULL);
}

static void
keep_texture (WbPhotoShelf *self,
              const char   *hash,
              GdkTexture   *texture)
{
  char *key;

  if (g_hash_table_contains (self->textures, hash))
    return;

  key = g_strdup (hash);
  g_queue_push_head (&self->order, key);
  g_hash_table_insert (self->textures, key, g_object_ref (texture));
  while (self->order.length > MAX_TEXTURES)
    {
      char *oldest = g_queue_pop_tail (&self->order);

      g_hash_table_remove (self->textures, oldest);
      g_free (oldest);
    }
}

GdkTexture *
wb_photo_shelf_load_finish (WbPhotoShelf  *self,
                            GAsyncResult  *result,
                            GError       **error)
{
  const Wish *wish = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) fault = NULL;
  GdkTexture *texture = g_task_propagate_pointer (G_TASK (result), &fault);

  if (texture != NULL)
    {
      keep_texture (self, wish->photo->hash, texture);
      return texture;
    }

  wb_photo_shelf_note_error (self, wish->photo, fault);
  g_propagate_error (error, g_steal_pointer (&fault));
  return NULL;
}

GdkTexture *
wb_photo_shelf_peek (WbPhotoShelf  *self,
                     const WbPhoto *photo)
{
  return photo->hash != NULL ? g_hash_table_lookup (self->textures, photo->hash) : NULL;
}

/* --- faults ----------------------------------------------------------------------------------- */

/* @words: (nullable): %NULL when the file is good */
static void
note (WbPhotoShelf *self,
      const char   *hash,
      const char   *words)
{
  if (hash == NULL || g_strcmp0 (g_hash_table_lookup (self->faults, hash), words) == 0)
    return;

  if (words != NULL)
    g_hash_table_insert (self->faults, g_strdup (hash), g_strdup (words));
  else
    g_hash_table_remove (self->faults, hash);
  g_signal_emit (self, signals[CHANGED], 0, hash);
}

void
wb_photo_shelf_note_error (WbPhotoShelf  *self,
                           const WbPhoto *photo,
                           const GError  *error)
{
  g_autofree char *words = NULL;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  words = wb_words_error (error);
  note (self, photo->hash, words);
}

const char *
wb_photo_shelf_get_fault (WbPhotoShelf  *self,
                          const WbPhoto *photo)
{
  return photo->hash != NULL ? g_hash_table_lookup (self->faults, photo->hash) : NULL;
}

guint
wb_photo_shelf_count_faults (WbPhotoShelf *self,
                             const WbJob  *job)
{
  guint n = 0;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    if (wb_photo_shelf_get_fault (self, wb_job_nth (job, WB_KIND_PHOTO, i)) != NULL)
      n++;
  return n;
}

/* --- walking through the files ---------------------------------------------------------------- */

typedef struct
{
  WbOffice   *office;
  GPtrArray  *photos;
  GPtrArray  *words;    /* one a photo; (nullable) */
  gboolean    whole;
} Turn;

static void
turn_free (gpointer data)
{
  Turn *turn = data;

  g_object_unref (turn->office);
  g_ptr_array_unref (turn->photos);
  g_ptr_array_unref (turn->words);
  g_free (turn);
}

static void
turn_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Turn *turn = data;

  for (guint i = 0; i < turn->photos->len; i++)
    {
      const WbPhoto *photo = g_ptr_array_index (turn->photos, i);
      g_autoptr (GError) error = NULL;

      if (wb_office_check_photo (turn->office, photo, turn->whole, cancellable, &error))
        {
          /* That this computer cannot show it is no fault of the file, but has to be said. */
          WbPictureFormat format = wb_picture_from_media_type (photo->media_type);

          if (format != WB_PICTURE_UNKNOWN && !wb_picture_can_decode (format))
            g_set_error_literal (&error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_NO_DECODER, "");
        }
      if (g_cancellable_is_cancelled (cancellable))
        break;
      g_ptr_array_add (turn->words, error != NULL ? wb_words_error (error) : NULL);
    }
  g_task_return_boolean (task, TRUE);
}

static void walk (WbPhotoShelf *self);

static void
turn_cb (GObject      *object,
         GAsyncResult *result,
         gpointer      data)
{
  WbPhotoShelf *self = WB_PHOTO_SHELF (object);
  const Turn *turn = g_task_get_task_data (G_TASK (result));

  self->walking = FALSE;
  if (g_cancellable_is_cancelled (self->closed))
    return;

  for (guint i = 0; i < turn->words->len; i++)
    {
      const WbPhoto *photo = g_ptr_array_index (turn->photos, i);

      note (self, photo->hash, g_ptr_array_index (turn->words, i));
      g_hash_table_insert (self->stages, g_strdup (photo->hash),
                           GINT_TO_POINTER (turn->whole ? STAGE_WHOLE : STAGE_THERE));
    }
  walk (self);
}

static GPtrArray *
next_photos (WbPhotoShelf *self,
             Stage         stage)
{
  GPtrArray *photos = g_ptr_array_new_with_free_func (wb_record_unref);
  guint most = stage == STAGE_WHOLE ? TURN : TURN * 20;

  for (guint i = 0; i < wb_job_count (self->waiting, WB_KIND_PHOTO) && photos->len < most; i++)
    {
      const WbPhoto *photo = wb_job_nth (self->waiting, WB_KIND_PHOTO, i);

      if (photo->hash != NULL &&
          GPOINTER_TO_INT (g_hash_table_lookup (self->stages, photo->hash)) < (int) stage)
        g_ptr_array_add (photos, wb_record_ref ((gpointer) photo));
    }
  return photos;
}

static void
walk (WbPhotoShelf *self)
{
  g_autoptr (GPtrArray) photos = NULL;
  g_autoptr (GTask) task = NULL;
  gboolean whole = FALSE;
  Turn *turn;

  if (self->walking || self->waiting == NULL)
    return;

  photos = next_photos (self, STAGE_THERE);
  if (photos->len == 0)
    {
      g_clear_pointer (&photos, g_ptr_array_unref);
      photos = next_photos (self, STAGE_WHOLE);
      whole = TRUE;
    }
  if (photos->len == 0)
    {
      g_clear_pointer (&self->waiting, wb_job_unref);
      g_signal_emit (self, signals[CHANGED], 0, "");
      return;
    }

  turn = g_new0 (Turn, 1);
  turn->office = g_object_ref (self->office);
  turn->photos = g_steal_pointer (&photos);
  turn->words = g_ptr_array_new_with_free_func (g_free);
  turn->whole = whole;
  self->walking = TRUE;
  task = g_task_new (self, self->closed, turn_cb, NULL);
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_priority (task, G_PRIORITY_LOW);
  g_task_set_task_data (task, turn, turn_free);
  g_task_run_in_thread (task, turn_in_thread);
}

void
wb_photo_shelf_check (WbPhotoShelf *self,
                      WbJob        *job)
{
  g_return_if_fail (WB_IS_PHOTO_SHELF (self));

  g_clear_pointer (&self->waiting, wb_job_unref);
  self->waiting = wb_job_ref (job);
  walk (self);
}

gboolean
wb_photo_shelf_is_checking (WbPhotoShelf *self)
{
  return self->waiting != NULL;
}

void
wb_photo_shelf_forget (WbPhotoShelf *self)
{
  g_hash_table_remove_all (self->stages);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_photo_shelf_dispose (GObject *object)
{
  WbPhotoShelf *self = WB_PHOTO_SHELF (object);

  g_cancellable_cancel (self->closed);

  G_OBJECT_CLASS (wb_photo_shelf_parent_class)->dispose (object);
}

static void
wb_photo_shelf_finalize (GObject *object)
{
  WbPhotoShelf *self = WB_PHOTO_SHELF (object);

  g_thread_pool_free (self->pool, FALSE, FALSE);
  g_clear_pointer (&self->waiting, wb_job_unref);
  g_hash_table_unref (self->textures);
  g_queue_clear_full (&self->order, g_free);
  g_hash_table_unref (self->faults);
  g_hash_table_unref (self->stages);
  g_object_unref (self->closed);
  g_object_unref (self->office);

  G_OBJECT_CLASS (wb_photo_shelf_parent_class)->finalize (object);
}

static void
wb_photo_shelf_class_init (WbPhotoShelfClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = wb_photo_shelf_dispose;
  object_class->finalize = wb_photo_shelf_finalize;

  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_PHOTO_SHELF, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
wb_photo_shelf_init (WbPhotoShelf *self)
{
  self->closed = g_cancellable_new ();
  self->pool = g_thread_pool_new (load_in_thread, NULL, MAX_THREADS, FALSE, NULL);
  g_thread_pool_set_sort_function (self->pool, last_first, NULL);
  self->textures = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_object_unref);
  self->faults = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->stages = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_queue_init (&self->order);
}

WbPhotoShelf *
wb_photo_shelf_new (WbOffice *office)
{
  WbPhotoShelf *self = g_object_new (WB_TYPE_PHOTO_SHELF, NULL);

  self->office = g_object_ref (office);
  return self;
}

void
wb_photo_shelf_close (WbPhotoShelf *self)
{
  g_return_if_fail (WB_IS_PHOTO_SHELF (self));

  g_cancellable_cancel (self->closed);
}

WbOffice *
wb_photo_shelf_get_office (WbPhotoShelf *self)
{
  return self->office;
}
