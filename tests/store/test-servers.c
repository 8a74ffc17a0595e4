/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Servers, what of a job was last in step with them, and the queue: in and out of the book. */
#include "config.h"

#include "book-fixture.h"
#include "store/wb-publication-store.h"
#include "store/wb-server-store.h"
#include "store/wb-share-queue-store.h"

#include <string.h>

#define ONE   "11111111-1111-4111-8111-111111111111"
#define OTHER "22222222-2222-4222-8222-222222222222"

static WbServer *
make_server (const char *id,
             const char *name)
{
  WbServer *server = wb_server_new (WB_SERVER_S3, id);

  wb_server_set (server, WB_SERVER_FIELD_NAME, name);
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, "https://store.example.org:9000");
  wb_server_set (server, WB_SERVER_FIELD_USER, "DESK4");
  wb_server_set (server, WB_SERVER_FIELD_BUCKET, "moves");
  return server;
}

static void
put_server (WbBook     *book,
            const char *id,
            const char *name)
{
  g_autoptr (WbServer) server = make_server (id, name);
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_book_put_server (book, server, NULL, &error));
  g_assert_no_error (error);
}

static void
test_servers (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) servers = NULL;
  g_autoptr (WbServer) expected = make_server (ONE, "Main");
  g_autoptr (WbServer) changed = wb_server_new (WB_SERVER_FOLDER, ONE);
  g_autoptr (WbServer) loaded = NULL;
  g_autoptr (GError) error = NULL;

  put_server (self->book, ONE, "Main");
  put_server (self->book, OTHER, "Annex");
  fixture_reopen (self);
  servers = wb_book_list_servers (self->book, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (servers->len, ==, 2);
  g_assert_true (wb_server_equal (servers->pdata[0], expected));

  /* Another kind, and every field that it has not is gone; its place stays. */
  wb_server_set (changed, WB_SERVER_FIELD_NAME, "main");
  wb_server_set (changed, WB_SERVER_FIELD_ADDRESS, "/srv/office");
  g_assert_true (wb_book_put_server (self->book, changed, NULL, &error));
  g_assert_no_error (error);
  loaded = wb_book_load_server (self->book, ONE, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_server_equal (loaded, changed));
  g_assert_cmpint (ask_number (self->path, "SELECT position FROM server WHERE name = 'MAIN'"), ==, 0);
}

static void
test_names (Fixture       *self,
            gconstpointer  data)
{
  g_autoptr (WbServer) server = make_server (OTHER, "MAIN");
  g_autoptr (WbServer) none = NULL;
  g_autoptr (GError) error = NULL;

  put_server (self->book, ONE, "Main");
  g_assert_false (wb_book_put_server (self->book, server, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONSTRAINT);
  assert_says (error, "there is a server “MAIN” already");
  g_clear_error (&error);

  none = wb_book_load_server (self->book, OTHER, NULL, &error);
  g_assert_null (none);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_false (wb_book_remove_server (self->book, OTHER, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
}

static void
note (WbBook     *book,
      const char *job,
      const char *heads,
      const char *document)
{
  g_auto (GStrv) list = g_strsplit (heads, " ", -1);
  WbPublication publication = { (char *) job, (char *) ONE, list, NULL, (char *) "2026-05-04T03:02:01Z" };
  g_autoptr (GBytes) bytes = g_bytes_new (document, strlen (document));
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_book_note_publication (book, &publication, bytes, NULL, &error));
  g_assert_no_error (error);
}

static void
test_publication (Fixture       *self,
                  gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbPublication) found = NULL;
  g_autoptr (WbPublication) none = NULL;
  g_autoptr (GPtrArray) all = NULL;
  g_autoptr (GBytes) document = NULL;
  g_autoptr (GError) error = NULL;

  put_server (self->book, ONE, "Main");
  put_server (self->book, OTHER, "Annex");
  note (self->book, "job-1", "aa", "{1}");
  note (self->book, "job-1", "bb cc", "{2}");
  fixture_reopen (self);
  g_assert_true (wb_book_load_publication (self->book, "job-1", ONE, &found, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (g_strv_length (found->heads), ==, 2);
  g_assert_cmpstr (found->heads[1], ==, "cc");
  g_assert_cmpstr (found->at, ==, "2026-05-04T03:02:01Z");
  document = wb_book_read_document (self->book, found->document, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (g_bytes_get_data (document, NULL), g_bytes_get_size (document), "{2}", 3);

  g_assert_true (wb_book_load_publication (self->book, "job-1", OTHER, &none, NULL, &error));
  g_assert_null (none);
  all = wb_book_list_publications (self->book, "job-1", NULL, &error);
  g_assert_cmpuint (all->len, ==, 1);

  /* With the server goes what was noted of it, and nothing else. */
  g_assert_true (wb_book_remove_server (self->book, ONE, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM publication"), ==, 0);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM server"), ==, 1);
}

/* A job from a server, its papers and what is noted of it: all or nothing. */
static void
test_take (Fixture       *self,
           gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) clash = make_job ("job-2", "J-1");
  g_autoptr (GPtrArray) papers = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_autoptr (GBytes) document = g_bytes_new_static ("{}", 2);
  char *heads[] = { (char *) "aa", NULL };
  WbPublication publication = { (char *) "job-1", (char *) ONE, heads, NULL, (char *) "2026-01-01T00:00:00Z" };
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) newer = NULL;
  g_autoptr (WbJob) none = NULL;
  g_autoptr (GPtrArray) history = NULL;
  g_autoptr (GError) error = NULL;

  put_server (self->book, ONE, "Main");
  g_ptr_array_add (papers, g_bytes_new_static ("paper", 5));
  stored = wb_book_take_published (self->book, NULL, job, "fetched", papers, &publication, document,
                                   NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (wb_job_get_revision (stored), ==, 1);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM kept_document"), ==, 2);

  publication.job_id = (char *) "job-2";
  none = wb_book_take_published (self->book, NULL, clash, "fetched", NULL, &publication, document,
                                 NULL, &error);
  g_assert_null (none);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONSTRAINT);
  g_clear_error (&error);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM publication"), ==, 1);

  /* A server that was removed meanwhile: the job stays as it was. */
  publication.job_id = (char *) "job-1";
  publication.server_id = (char *) OTHER;
  changed = with_record (stored, WB_KIND_PIECE, "piece-2", "room", "Hall", NULL);
  newer = wb_book_take_published (self->book, stored, changed, "fetched", NULL, &publication,
                                  document, NULL, &error);
  g_assert_null (newer);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONSTRAINT);
  g_clear_error (&error);
  publication.server_id = (char *) ONE;
  newer = wb_book_take_published (self->book, stored, changed, "fetched", NULL, &publication,
                                  document, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (wb_job_get_revision (newer), ==, 2);
  history = wb_book_list_history (self->book, "job-1", NULL, &error);
  g_assert_cmpuint (history->len, ==, 2);
}

/* --- the queue -------------------------------------------------------------------------------- */

static gint64
add (WbBook      *book,
     const char  *job,
     WbShareDeed  deed)
{
  WbShareEntry entry = { .job_id = (char *) job, .title = (char *) "J-1", .server_id = (char *) ONE,
                         .deed = deed, .added = 1000 };
  g_autoptr (GError) error = NULL;
  gint64 id = wb_book_add_share_entry (book, &entry, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpint (id, >, 0);
  return id;
}

static WbShareEntry *
claim (WbBook     *book,
       const char *holder,
       gint64      now)
{
  WbShareEntry *entry;
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_book_claim_share_entry (book, holder, now, 60, &entry, NULL, &error));
  g_assert_no_error (error);
  return entry;
}

static gboolean
beat (WbBook     *book,
      gint64      id,
      const char *holder,
      gint64      now)
{
  g_autoptr (GError) error = NULL;
  gboolean still;

  g_assert_true (wb_book_beat_share_entry (book, id, holder, now, 5, 10, &still, &error));
  g_assert_no_error (error);
  return still;
}

static void
test_queue (Fixture       *self,
            gconstpointer  data)
{
  g_autoptr (WbShareEntry) first = NULL;
  g_autoptr (WbShareEntry) second = NULL;
  g_autoptr (WbShareEntry) third = NULL;
  g_autoptr (WbShareEntry) again = NULL;
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (GError) error = NULL;
  gint64 ids[2];

  put_server (self->book, ONE, "Main");
  ids[0] = add (self->book, "job-1", WB_SHARE_DEED_PUBLISH);
  ids[1] = add (self->book, "job-1", WB_SHARE_DEED_FETCH);
  /* The same once more is no other entry while it waits. */
  g_assert_cmpint (add (self->book, "job-1", WB_SHARE_DEED_PUBLISH), ==, ids[0]);

  first = claim (self->book, "me", 2000);
  second = claim (self->book, "you", 2000);
  third = claim (self->book, "you", 2000);
  g_assert_cmpint (first->id, ==, ids[0]);
  g_assert_cmpint (first->state, ==, WB_SHARE_RUNNING);
  g_assert_cmpint (second->id, ==, ids[1]);
  g_assert_null (third);

  /* It comes back after a pause, and not before. */
  first->state = WB_SHARE_WAITING;
  first->tries = 1;
  first->next_try = 2005;
  first->fault = g_strdup ("The server does not answer.");
  g_assert_true (wb_book_lay_share_entry (self->book, first, "me", &error));
  g_assert_no_error (error);
  third = claim (self->book, "me", 2004);
  g_assert_null (third);
  again = claim (self->book, "me", 2005);
  g_assert_cmpint (again->id, ==, ids[0]);
  g_assert_cmpuint (again->tries, ==, 1);
  g_assert_cmpstr (again->fault, ==, "The server does not answer.");

  fixture_reopen (self);
  list = wb_book_list_share_queue (self->book, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (list->len, ==, 2);
}

/* Whoever held it died: after a while it is somebody else's, and the dead cannot lay it down. */
static void
test_taken_over (Fixture       *self,
                 gconstpointer  data)
{
  g_autoptr (WbShareEntry) mine = NULL;
  g_autoptr (WbShareEntry) early = NULL;
  g_autoptr (WbShareEntry) theirs = NULL;
  g_autoptr (GError) error = NULL;
  gint64 id;

  put_server (self->book, ONE, "Main");
  id = add (self->book, "job-1", WB_SHARE_DEED_PUBLISH);
  mine = claim (self->book, "me", 2000);
  g_assert_true (beat (self->book, id, "me", 2030));
  early = claim (self->book, "you", 2089);
  g_assert_null (early);
  theirs = claim (self->book, "you", 2090);
  g_assert_cmpint (theirs->id, ==, id);
  g_assert_cmpint (theirs->done, ==, 5);
  g_assert_cmpint (theirs->all, ==, 10);
  g_assert_false (beat (self->book, id, "me", 2091));

  mine->state = WB_SHARE_DONE;
  g_assert_true (wb_book_lay_share_entry (self->book, mine, "me", &error));
  g_assert_no_error (error);
  g_assert_true (beat (self->book, id, "you", 2092));
  theirs->state = WB_SHARE_DONE;
  g_assert_true (wb_book_lay_share_entry (self->book, theirs, "you", &error));
  g_assert_true (wb_book_drop_shared (self->book, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM share_queue"), ==, 0);
}

/* The computer's clock was a year ahead, and has been put right. */
static void
test_clock_put_right (Fixture       *self,
                      gconstpointer  data)
{
  const gint64 year = 365 * 24 * 3600;
  g_autoptr (WbShareEntry) failed = NULL;
  g_autoptr (WbShareEntry) running = NULL;
  g_autoptr (WbShareEntry) none = NULL;
  g_autoptr (WbShareEntry) again = NULL;
  g_autoptr (WbShareEntry) taken = NULL;
  g_autoptr (GError) error = NULL;

  put_server (self->book, ONE, "Main");
  add (self->book, "job-1", WB_SHARE_DEED_PUBLISH);
  add (self->book, "job-2", WB_SHARE_DEED_PUBLISH);
  failed = claim (self->book, "me", 2000 + year);
  running = claim (self->book, "me", 2000 + year);
  failed->state = WB_SHARE_WAITING;
  failed->tries = 1;
  failed->next_try = 2005 + year;
  g_assert_true (wb_book_lay_share_entry (self->book, failed, "me", &error));
  g_assert_no_error (error);

  none = claim (self->book, "you", 2004 + year);
  g_assert_null (none);
  again = claim (self->book, "you", 2000);
  taken = claim (self->book, "you", 2000);
  g_assert_nonnull (again);
  g_assert_nonnull (taken);
  g_assert_cmpint (again->id + taken->id, ==, failed->id + running->id);
  g_assert_cmpint (again->id, !=, taken->id);
}

static void
test_pause (Fixture       *self,
            gconstpointer  data)
{
  g_autoptr (WbShareEntry) entry = NULL;
  g_autoptr (WbShareEntry) none = NULL;
  g_autoptr (WbShareEntry) again = NULL;
  g_autoptr (GError) error = NULL;
  gint64 id;

  put_server (self->book, ONE, "Main");
  id = add (self->book, "job-1", WB_SHARE_DEED_PUBLISH);
  entry = claim (self->book, "me", 2000);
  g_assert_true (wb_book_pause_share_entry (self->book, id, TRUE, NULL, &error));
  g_assert_no_error (error);
  g_assert_false (beat (self->book, id, "me", 2001));
  none = claim (self->book, "me", 9000);
  g_assert_null (none);
  g_assert_true (wb_book_pause_share_entry (self->book, id, FALSE, NULL, &error));
  again = claim (self->book, "me", 9000);
  g_assert_cmpint (again->id, ==, id);

  g_assert_true (wb_book_drop_share_entry (self->book, id, NULL, &error));
  g_assert_no_error (error);
  g_assert_false (beat (self->book, id, "me", 9001));
  g_assert_false (wb_book_pause_share_entry (self->book, id, TRUE, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
}

#define ADD(path, function) \
  g_test_add ("/store/servers/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("round-trip", test_servers);
  ADD ("names", test_names);
  ADD ("publication", test_publication);
  ADD ("take", test_take);
  ADD ("queue", test_queue);
  ADD ("taken-over", test_taken_over);
  ADD ("clock-put-right", test_clock_put_right);
  ADD ("pause", test_pause);
  return g_test_run ();
}
