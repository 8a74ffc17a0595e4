/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs as bundles: whatever a job holds comes out in another book as it went in, and whatever
 * stands in the way leaves both books as they were. */
#include "config.h"

#include "office/wb-bundle.h"
#include "office/wb-job-document.h"
#include "office/wb-office-private.h"
#include "office/wb-photo-import.h"
#include "random-job.h"
#include "share/wb-share.h"
#include "store/wb-photo-store.h"
#include "support/wb-test-folder.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char     *root;
  WbOffice *from;
  WbOffice *to;
} Fixture;

static char *
place (Fixture    *fixture,
       const char *name)
{
  return g_build_filename (fixture->root, name, NULL);
}

static WbOffice *
open_office (Fixture    *fixture,
             const char *name)
{
  g_autofree char *path = place (fixture, name);
  g_autoptr (GError) error = NULL;
  WbOffice *office = wb_office_open (path, WB_BOOK_CREATE, NULL, &error);

  g_assert_no_error (error);
  return office;
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->root = g_dir_make_tmp ("wainbook-XXXXXX", &error);
  g_assert_no_error (error);
  fixture->from = open_office (fixture, "from.wainbook");
  fixture->to = open_office (fixture, "to.wainbook");
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  wb_office_close (fixture->from);
  wb_office_close (fixture->to);
  g_object_unref (fixture->from);
  g_object_unref (fixture->to);
  wb_test_remove_tree (fixture->root);
  g_free (fixture->root);
}

/* --- jobs ------------------------------------------------------------------------------------- */

static void
number_claims (GPtrArray *records)
{
  for (guint i = 0; i < records->len; i++)
    {
      WbRecord *record = g_ptr_array_index (records, i);
      g_autofree char *number = g_strdup_printf ("C-%u", i);

      if (record->type->kind == WB_KIND_CLAIM)
        wb_set_text (&((WbClaim *) record)->number, number);
    }
}

/* Returns: (transfer full): @job without photos, whose files nobody has, and with a number of its
 * own for each claim, as a book asks. */
static WbJob *
without_photos (const WbJob *job)
{
  g_autoptr (WbJob) empty = wb_job_new (wb_job_get_id (job), wb_job_get_currency (job));
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (job, (WbKind) kind); i++)
      if (kind != WB_KIND_PHOTO && kind != WB_KIND_PIN)
        g_ptr_array_add (records, wb_record_copy (wb_job_nth (job, (WbKind) kind, i)));
  number_claims (records);
  return wb_job_with_many (empty, records);
}

static void
add_picture (GPtrArray  *sources,
             guint32     colour,
             const char *type)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 60, 30);
  g_autoptr (GBytes) bytes = NULL;
  char *buffer;
  gsize length;
  g_autoptr (GError) error = NULL;

  gdk_pixbuf_fill (pixbuf, colour);
  gdk_pixbuf_save_to_buffer (pixbuf, &buffer, &length, type, &error, NULL);
  g_assert_no_error (error);
  bytes = g_bytes_new_take (buffer, length);
  g_ptr_array_add (sources, wb_photo_source_new_bytes (bytes, "a picture"));
}

/* Returns: (transfer full): @job with pictures of three kinds, whose files the book has. */
static WbJob *
with_photos (WbOffice *office,
             WbJob    *job)
{
  g_autoptr (GPtrArray) sources =
    g_ptr_array_new_with_free_func ((GDestroyNotify) wb_photo_source_free);
  g_autoptr (GPtrArray) results = NULL;
  g_autoptr (GPtrArray) records = NULL;
  g_autoptr (GError) error = NULL;

  add_picture (sources, 0x336699ff, "jpeg");
  add_picture (sources, 0x993366ff, "png");
  add_picture (sources, 0x669933ff, "tiff");
  results = wb_office_take_photos (office, job, sources, NULL, NULL, &error);
  g_assert_no_error (error);
  records = wb_photo_results_records (results, NULL);
  g_assert_cmpuint (records->len, ==, 3);
  return wb_job_with_many (job, records);
}

/* Returns: (transfer full): the hash under which the book keeps @text from now on. */
static char *
keep (WbOffice   *office,
      const char *text)
{
  g_autoptr (GPtrArray) documents = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_autoptr (GPtrArray) hashes = NULL;
  g_autoptr (GError) error = NULL;

  g_ptr_array_add (documents, g_bytes_new (text, strlen (text)));
  hashes = wb_book_keep_documents (wb_office_get_book (office), documents, NULL, &error);
  g_assert_no_error (error);
  return g_strdup (g_ptr_array_index (hashes, 0));
}

/* Returns: (transfer full): @job, with a claim if it has none. */
static WbJob *
with_claim (WbJob *job)
{
  g_autoptr (WbClaim) claim = NULL;

  if (wb_job_count (job, WB_KIND_CLAIM) > 0)
    return wb_job_ref (job);
  claim = wb_record_new (WB_KIND_CLAIM, "claim-of-papers");
  wb_set_text (&claim->number, "C-OF-PAPERS");
  return wb_job_with (job, claim);
}

/* Returns: (transfer full): @job with a step of a claim that names two papers; one of these names a
 * third. */
static WbJob *
with_papers (WbOffice *office,
             WbJob    *job)
{
  g_autofree char *deep = keep (office, "kept because a paper names it");
  g_autofree char *sheet_text = g_strdup_printf ("{ \"reckoning\" : \"%s\" }", deep);
  g_autofree char *sheet = keep (office, sheet_text);
  g_autofree char *letter = keep (office, "Dear Ms Ferncastle");
  g_autofree char *alone = keep (office, "kept for another job");
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbClaimStep) step = wb_record_new (WB_KIND_STEP, id);
  g_autoptr (WbJob) claimed = with_claim (job);
  const WbClaim *claim = wb_job_nth (claimed, WB_KIND_CLAIM, 0);

  wb_set_text (&step->claim, claim->record.id);
  step->kind = WB_STEP_OTHER;
  g_date_set_dmy (&step->on, 4, 3, 2026);
  wb_set_text (&step->frozen, sheet);
  wb_set_text (&step->letter, letter);
  return wb_job_with (claimed, step);
}

static WbJob *
store (WbOffice *office,
       WbJob    *job)
{
  g_autoptr (GError) error = NULL;
  WbJob *stored = wb_office_save_job (office, NULL, job, "a test", NULL, &error);

  g_assert_no_error (error);
  return stored;
}

/* Returns: (transfer full): a job with a claim, three photos and three papers, stored. */
static WbJob *
make_job (Fixture *fixture)
{
  g_autoptr (WbJob) random = random_claim ();
  g_autoptr (WbJob) plain = without_photos (random);
  g_autoptr (WbJob) papers = with_papers (fixture->from, plain);
  g_autoptr (WbJob) photos = with_photos (fixture->from, papers);

  return store (fixture->from, photos);
}

static void
assert_same_job (WbJob *one,
                 WbJob *other)
{
  g_autofree char *first = wb_job_document_write (one);
  g_autofree char *second = wb_job_document_write (other);

  g_assert_cmpstr (first, ==, second);
}

static guint
count_jobs (WbOffice *office)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_office_list_jobs (office, NULL, 0, NULL, &error);

  g_assert_no_error (error);
  return jobs->len;
}

static gboolean
has_photo_folder (WbOffice *office)
{
  g_autofree char *folder = wb_photo_store_folder (wb_office_get_path (office));

  return g_file_test (folder, G_FILE_TEST_EXISTS);
}

/* --- there and back --------------------------------------------------------------------------- */

static void
test_random_jobs (Fixture       *fixture,
                  gconstpointer  data)
{
  static const char *const endings[] = { "", ".zip", ".tar.gz" };

  for (guint i = 0; i < 12; i++)
    {
      g_autoptr (WbJob) random = random_job (NULL, 6);
      g_autoptr (WbJob) plain = without_photos (random);
      g_autofree char *id = g_strdup_printf ("job-%u", i);
      g_autoptr (WbJob) named = wb_job_with_id (plain, id);
      g_autofree char *name = g_strconcat (id, endings[i % 3], NULL);
      g_autofree char *target = place (fixture, name);
      g_autoptr (WbBundleReport) written = NULL;
      g_autoptr (WbBundleReport) read = NULL;
      g_autoptr (GError) error = NULL;

      written = wb_office_bundle_write (fixture->from, named, target, FALSE, NULL, NULL, &error);
      g_assert_no_error (error);
      read = wb_bundle_check (target, NULL, NULL, &error);
      g_assert_no_error (error);
      assert_same_job (named, read->job);
      g_assert_cmpint (read->bytes, ==, written->bytes);
      g_assert_cmpuint (read->n_photos + read->n_papers, ==, 0);
      g_assert_cmpuint (read->n_lost_papers, ==, written->n_lost_papers);
    }
}

static void
test_everything (Fixture       *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job (fixture);
  g_autofree char *target = place (fixture, data);
  g_autofree char *folder = wb_photo_store_folder (wb_office_get_path (fixture->to));
  g_autoptr (WbProgress) progress = wb_progress_new ();
  g_autoptr (WbBundleReport) written = NULL;
  g_autoptr (WbBundleReport) read = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (GError) error = NULL;
  const WbClaimStep *step;
  WbProgressState state;

  written = wb_office_bundle_write (fixture->from, job, target, FALSE, progress, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (written->n_photos, ==, 3);
  g_assert_cmpuint (written->n_papers, ==, 3);
  g_assert_cmpuint (written->n_printed, >=, 4);
  wb_progress_get (progress, &state);
  g_assert_cmpstr (state.words, ==, "Writing the bundle…");
  g_assert_cmpint (state.done, >=, written->bytes);

  read = wb_office_bundle_read (fixture->to, target, progress, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (read->n_photos, ==, 3);
  g_assert_cmpuint (read->n_papers, ==, 3);
  g_assert_cmpuint (read->n_printed, ==, written->n_printed);
  g_assert_cmpint (wb_job_get_revision (read->job), ==, 1);
  assert_same_job (job, read->job);
  stored = wb_office_load_job (fixture->to, wb_job_get_id (job), NULL, &error);
  g_assert_no_error (error);
  assert_same_job (job, stored);

  for (guint i = 0; i < wb_job_count (stored, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (stored, WB_KIND_PHOTO, i);

      g_assert_true (wb_photo_store_check (folder, photo->hash, photo->size, TRUE, NULL, &error));
    }
  step = wb_job_nth (stored, WB_KIND_STEP, wb_job_count (stored, WB_KIND_STEP) - 1);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (GBytes) paper = wb_book_read_document (wb_office_get_book (fixture->to),
                                                        i == 0 ? step->frozen : step->letter, NULL,
                                                        &error);

      g_assert_no_error (error);
    }
}

/* A paper that the book does not have is told, and does not keep the rest back. */
static void
test_lost_paper (Fixture       *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job (fixture);
  g_autofree char *target = place (fixture, "bag.zip");
  g_autofree char *lost = g_strnfill (64, 'a');
  g_autoptr (WbBundleReport) before = NULL, after = NULL, read = NULL;
  g_autofree char *first = place (fixture, "first.zip");
  g_autoptr (WbClaimStep) step = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (GError) error = NULL;
  guint n = wb_job_count (job, WB_KIND_STEP);

  before = wb_office_bundle_write (fixture->from, job, first, FALSE, NULL, NULL, &error);
  g_assert_no_error (error);
  step = wb_record_copy (wb_job_nth (job, WB_KIND_STEP, n - 1));
  wb_set_text (&step->letter, lost);
  changed = wb_job_with (job, step);
  after = wb_office_bundle_write (fixture->from, changed, target, FALSE, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (after->n_lost_papers, ==, before->n_lost_papers + 1);
  g_assert_cmpuint (after->n_papers, ==, 2);
  read = wb_office_bundle_read (fixture->to, target, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (read->n_lost_papers, ==, after->n_lost_papers);
}

/* --- what stands in the way ------------------------------------------------------------------- */

static void
test_photo_gone (Fixture       *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job (fixture);
  const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, 1);
  g_autofree char *folder = wb_photo_store_folder (wb_office_get_path (fixture->from));
  g_autofree char *file = wb_photo_store_path (folder, photo->hash);
  g_autofree char *text = NULL;
  g_autofree char *target = place (fixture, data);
  gsize length;
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_get_contents (file, &text, &length, NULL));
  text[length / 2] ^= 1;
  g_assert_true (g_file_set_contents (file, text, (gssize) length, NULL));
  g_assert_null (wb_office_bundle_write (fixture->from, job, target, FALSE, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE);
  g_assert_nonnull (strstr (error->message, photo->hash));
  g_clear_error (&error);

  g_remove (file);
  g_assert_null (wb_office_bundle_write (fixture->from, job, target, FALSE, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE);
  g_assert_nonnull (strstr (error->message, photo->hash));
  g_assert_false (g_file_test (target, G_FILE_TEST_EXISTS));
}

static void
test_there_already (Fixture       *fixture,
                    gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job (fixture);
  g_autoptr (WbJob) plain = without_photos (job);
  g_autoptr (WbJob) stored = store (fixture->to, plain);
  g_autofree char *target = place (fixture, "bag.zip");
  g_autoptr (WbJob) after = NULL;
  g_autoptr (WbBundleReport) written = NULL;
  g_autoptr (GError) error = NULL;

  written = wb_office_bundle_write (fixture->from, job, target, FALSE, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_null (wb_office_bundle_read (fixture->to, target, NULL, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_EXISTS);
  after = wb_office_load_job (fixture->to, wb_job_get_id (job), NULL, NULL);
  assert_same_job (stored, after);
  g_assert_false (has_photo_folder (fixture->to));
}

static WbJob *
with_number (WbJob      *job,
             const char *number)
{
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));

  wb_set_text (&order->number, number);
  return wb_job_with (job, order);
}

static void
test_number_taken (Fixture       *fixture,
                   gconstpointer  data)
{
  g_autoptr (WbJob) made = make_job (fixture);
  g_autoptr (WbJob) job = with_number (made, "J-2026-0001");
  g_autoptr (WbJob) empty = wb_job_new ("other", "USD");
  g_autoptr (WbJob) numbered = with_number (empty, "j-2026-0001");
  g_autoptr (WbJob) other = store (fixture->to, numbered);
  g_autofree char *target = place (fixture, "bag.zip");
  g_autoptr (WbBundleReport) written = NULL;
  g_autoptr (GError) error = NULL;

  written = wb_office_bundle_write (fixture->from, job, target, FALSE, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_null (wb_office_bundle_read (fixture->to, target, NULL, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONSTRAINT);
  g_assert_cmpuint (count_jobs (fixture->to), ==, 1);
  g_assert_false (has_photo_folder (fixture->to));
  (void) other;
}

static void
test_cancelled (Fixture       *fixture,
                gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job (fixture);
  g_autofree char *target = place (fixture, "bag.zip");
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (WbBundleReport) written = NULL;
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_null (wb_office_bundle_write (fixture->from, job, target, FALSE, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_clear_error (&error);
  g_assert_false (g_file_test (target, G_FILE_TEST_EXISTS));

  written = wb_office_bundle_write (fixture->from, job, target, FALSE, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_null (wb_office_bundle_read (fixture->to, target, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_cmpuint (count_jobs (fixture->to), ==, 0);
  g_assert_false (has_photo_folder (fixture->to));
}

/* --- in the background ------------------------------------------------------------------------ */

static void
done_cb (GObject      *object,
         GAsyncResult *result,
         gpointer      data)
{
  *(GAsyncResult **) data = g_object_ref (result);
}

static void
wait_for (GAsyncResult **result)
{
  while (*result == NULL)
    g_main_context_iteration (NULL, TRUE);
}

static void
test_background (Fixture       *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job (fixture);
  g_autofree char *target = place (fixture, "bag.tar.gz");
  g_autoptr (GAsyncResult) written = NULL, read = NULL;
  g_autoptr (WbBundleReport) out = NULL, in = NULL;
  g_autoptr (GError) error = NULL;

  wb_office_bundle_write_async (fixture->from, job, target, FALSE, NULL, NULL, done_cb, &written);
  wait_for (&written);
  out = wb_office_bundle_write_finish (fixture->from, written, &error);
  g_assert_no_error (error);
  wb_office_bundle_read_async (fixture->to, target, NULL, NULL, done_cb, &read);
  wait_for (&read);
  in = wb_office_bundle_read_finish (fixture->to, read, &error);
  g_assert_no_error (error);
  assert_same_job (job, in->job);
}

/* --- names ------------------------------------------------------------------------------------ */

static void
test_names (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("an-id", "USD");
  g_autoptr (WbJob) numbered = with_number (empty, "J/2026 ä");
  g_autofree char *plain = wb_bundle_file_name (empty);
  g_autofree char *odd = wb_bundle_file_name (numbered);
  g_autofree char *added = wb_bundle_target ("/tmp/J-1");
  g_autofree char *zip = wb_bundle_target ("/tmp/J-1.ZIP");
  g_autofree char *tar = wb_bundle_target ("/tmp/J-1.tar.gz");

  g_assert_cmpstr (plain, ==, "an-id.zip");
  g_assert_cmpstr (odd, ==, "J-2026---.zip");
  g_assert_cmpstr (added, ==, "/tmp/J-1.zip");
  g_assert_cmpstr (zip, ==, "/tmp/J-1.ZIP");
  g_assert_cmpstr (tar, ==, "/tmp/J-1.tar.gz");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

#define CASE(name, function, data) \
  g_test_add ("/office/bundle/" name, Fixture, data, set_up, function, tear_down)
  CASE ("random-jobs", test_random_jobs, NULL);
  CASE ("everything/folder", test_everything, "bag");
  CASE ("everything/zip", test_everything, "bag.zip");
  CASE ("everything/tar", test_everything, "bag.tar.gz");
  CASE ("lost-paper", test_lost_paper, NULL);
  CASE ("photo-gone/folder", test_photo_gone, "bag");
  CASE ("photo-gone/zip", test_photo_gone, "bag.zip");
  CASE ("there-already", test_there_already, NULL);
  CASE ("number-taken", test_number_taken, NULL);
  CASE ("cancelled", test_cancelled, NULL);
  CASE ("background", test_background, NULL);
#undef CASE
  g_test_add_func ("/office/bundle/names", test_names);
  return g_test_run ();
}
