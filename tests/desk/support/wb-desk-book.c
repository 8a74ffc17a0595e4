/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "desk/support/wb-desk-book.h"

#include "office/wb-job-document.h"
#include "office/wb-photo-import.h"
#include "support/wb-test-folder.h"

WbDeskBook *
wb_desk_book_new (void)
{
  g_autoptr (GError) error = NULL;
  WbDeskBook *self = g_new0 (WbDeskBook, 1);

  self->folder = g_dir_make_tmp ("wb-desk-XXXXXX", &error);
  g_assert_no_error (error);
  self->path = g_build_filename (self->folder, "test.wainbook", NULL);
  self->office = wb_office_open (self->path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  return self;
}

void
wb_desk_book_free (WbDeskBook *self)
{
  wb_office_close (self->office);
  g_object_unref (self->office);
  wb_test_remove_tree (self->folder);
  g_free (self->folder);
  g_free (self->path);
  g_free (self);
}

static void
set_text (gpointer    record,
          const char *field,
          const char *text)
{
  const WbRecord *base = record;
  g_autoptr (GError) error = NULL;

  wb_record_set_text (record, wb_record_type_field (base->type, field), text, "USD", &error);
  g_assert_no_error (error);
}

static void
add (WbJob    **job,
     gpointer   record)
{
  WbJob *changed = wb_job_with (*job, record);

  wb_job_unref (*job);
  *job = changed;
  wb_record_unref (record);
}

static void
add_stop (WbJob      **job,
          const char  *id,
          const char  *kind,
          const char  *city,
          const char  *region)
{
  gpointer stop = wb_record_new (WB_KIND_STOP, id);

  set_text (stop, "kind", kind);
  set_text (stop, "city", city);
  set_text (stop, "region", region);
  add (job, stop);
}

static void
add_pieces (WbJob **job,
            guint   n_pieces)
{
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_record_unref);
  WbJob *changed;

  for (guint i = 0; i < n_pieces; i++)
    {
      g_autofree char *id = g_strdup_printf ("b%u", i);
      g_autofree char *tag = g_strdup_printf ("%u", i + 1);
      gpointer piece = wb_record_new (WB_KIND_PIECE, id);

      set_text (piece, "lot", "l1");
      set_text (piece, "tag", tag);
      set_text (piece, "room", i % 2 == 0 ? "kitchen" : "study");
      set_text (piece, "description", "box");
      g_ptr_array_add (pieces, piece);
    }

  changed = wb_job_with_many (*job, pieces);
  wb_job_unref (*job);
  *job = changed;
}

WbJob *
wb_desk_book_add_job (WbDeskBook *self,
                      const char *number,
                      const char *shipper,
                      const char *from,
                      const char *to,
                      guint       n_pieces)
{
  g_autofree char *id = g_ascii_strdown (number, -1);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_job_new (id, "USD");
  gpointer order = wb_record_copy (wb_job_order (job));
  gpointer party = wb_record_new (WB_KIND_PARTY, "p1");
  gpointer lot = wb_record_new (WB_KIND_LOT, "l1");
  WbJob *stored;

  set_text (order, "number", number);
  set_text (order, "stage", "booked");
  set_text (order, "pickup_from", "2026-03-03");
  add (&job, order);
  set_text (party, "role", "shipper");
  set_text (party, "name", shipper);
  add (&job, party);
  add_stop (&job, "s1", "pickup", from, "OH");
  add_stop (&job, "s2", "delivery", to, "OK");
  set_text (lot, "colour", "blue");
  set_text (lot, "number", "204");
  add (&job, lot);
  add_pieces (&job, n_pieces);

  stored = wb_office_save_job (self->office, NULL, job, "Open job", NULL, &error);
  g_assert_no_error (error);
  return stored;
}

/* The records of @job name the files by their hashes; these bring the files. */
static void
add_photo_files (WbDeskBook *self,
                 WbJob      *job,
                 const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "photos", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GPtrArray) sources =
    g_ptr_array_new_with_free_func ((GDestroyNotify) wb_photo_source_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) results = NULL;

  g_ptr_array_add (sources, wb_photo_source_new_file (file));
  results = wb_office_take_photos (self->office, job, sources, NULL, NULL, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < results->len; i++)
    g_assert_cmpint (((const WbPhotoResult *) g_ptr_array_index (results, i))->outcome, ==,
                     WB_PHOTO_AGAIN);
  g_assert_cmpuint (results->len, ==, wb_job_count (job, WB_KIND_PHOTO));
}

guint
wb_desk_book_add_demo (WbDeskBook *self)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "..", "examples", "demo-office",
                                                   NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  guint count = 0;

  g_assert_no_error (error);
  for (const char *name; (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *text = NULL;
      g_autoptr (WbJob) job = NULL;
      g_autoptr (WbJob) stored = NULL;
      gsize length;

      if (!g_str_has_suffix (name, ".json"))
        continue;

      g_file_get_contents (path, &text, &length, &error);
      g_assert_no_error (error);
      job = wb_job_document_read (text, (gssize) length, &error);
      g_assert_no_error (error);
      stored = wb_office_save_job (self->office, NULL, job, "Import", NULL, &error);
      g_assert_no_error (error);
      if (wb_job_count (job, WB_KIND_PHOTO) > 0)
        add_photo_files (self, job, folder);
      count++;
    }

  return count;
}

WbJob *
wb_desk_book_load (WbDeskBook *self,
                   const char *id)
{
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_office_load_job (self->office, id, NULL, &error);

  g_assert_no_error (error);
  return job;
}

WbOffice *
wb_desk_book_open_again (WbDeskBook *self)
{
  g_autoptr (GError) error = NULL;
  WbOffice *office = wb_office_open (self->path, WB_BOOK_OPEN, NULL, &error);

  g_assert_no_error (error);
  return office;
}

static void
flushed_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  gboolean *done = data;
  g_autoptr (GError) error = NULL;

  wb_job_model_flush_finish (WB_JOB_MODEL (object), result, &error);
  g_assert_no_error (error);
  *done = TRUE;
}

void
wb_test_flush (WbJobModel *model)
{
  gboolean done = FALSE;

  wb_job_model_flush_async (model, NULL, flushed_cb, &done);
  while (!done)
    g_main_context_iteration (NULL, TRUE);
}

static gboolean
passed_cb (gpointer data)
{
  gboolean *passed = data;

  *passed = TRUE;
  return G_SOURCE_REMOVE;
}

void
wb_test_pass_time (guint milliseconds)
{
  gboolean passed = FALSE;

  g_timeout_add (milliseconds, passed_cb, &passed);
  while (!passed)
    g_main_context_iteration (NULL, TRUE);
}

void
wb_test_set_field (WbJobModel *model,
                   WbKind      kind,
                   const char *id,
                   const char *field,
                   const char *text)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_job_model_set_field (model, kind, id, field, text, &error));
  g_assert_no_error (error);
}

char *
wb_test_get_field (const WbJob *job,
                   WbKind       kind,
                   const char  *id,
                   const char  *field)
{
  gconstpointer record = wb_job_find (job, kind, id);

  g_assert_nonnull (record);
  return wb_record_get_text (record, wb_record_type_field (wb_record_type (kind), field));
}
