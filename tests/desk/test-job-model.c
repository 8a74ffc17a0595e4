/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The open job: it stores itself, goes back and forth, tells its lists what changed, and meets the
 * changes of others. */
#include "config.h"

#include "core/wb-core.h"
#include "desk/model/wb-record-item.h"
#include "desk/support/wb-desk-book.h"
#include "store/wb-store.h"
#include "support/wb-test-window.h"

#include <signal.h>
#include <string.h>
#include <sys/resource.h>

#define ID "j-1"

typedef struct
{
  WbDeskBook *book;
  WbJobModel *model;
} Fixture;

static void
set_up (Fixture       *f,
        gconstpointer  data)
{
  g_autoptr (WbJob) job = NULL;

  f->book = wb_desk_book_new ();
  job = wb_desk_book_add_job (f->book, "J-1", "Ada Brook", "Dayton", "Tulsa",
                              GPOINTER_TO_UINT (data));
  f->model = wb_job_model_new (f->book->office, job);
}

static void
tear_down (Fixture       *f,
           gconstpointer  data)
{
  g_assert_finalize_object (f->model);
  wb_test_settle ();
  wb_desk_book_free (f->book);
}

static gboolean
is_unsaved (WbJobModel *model)
{
  gboolean unsaved;

  g_object_get (model, "unsaved", &unsaved, NULL);
  return unsaved;
}

static gboolean
is_saved (gpointer model)
{
  return !is_unsaved (model);
}

static gboolean
has_fault (gpointer model)
{
  g_autofree char *fault = NULL;

  g_object_get (model, "fault", &fault, NULL);
  return fault != NULL;
}

static const char *
phone_of (WbJobModel *model)
{
  const WbParty *party = wb_job_find (wb_job_model_get_job (model), WB_KIND_PARTY, "p1");

  return party->phone;
}

/* --- into the book ---------------------------------------------------------------------------- */

static void
test_stores_itself (Fixture       *f,
                    gconstpointer  data)
{
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (GPtrArray) history = NULL;
  g_autoptr (GError) error = NULL;
  const WbHistoryEntry *entry;

  g_assert_false (is_unsaved (f->model));
  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "937 555 0142");
  g_assert_true (is_unsaved (f->model));

  wb_test_wait_until (is_saved, f->model);
  stored = wb_desk_book_load (f->book, ID);
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "phone", "937 555 0142");

  history = wb_office_list_history (f->book->office, ID, NULL, &error);
  g_assert_no_error (error);
  entry = g_ptr_array_index (history, 0);
  g_assert_cmpstr (entry->deed, ==, "Change Telephone");
}

/* Changes that come quickly one after the other go into the book together. */
static void
test_stores_together (Fixture       *f,
                      gconstpointer  data)
{
  gint64 revision = wb_job_get_revision (wb_job_model_get_job (f->model));
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (GPtrArray) history = NULL;
  const WbHistoryEntry *entry;

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "1");
  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "2");
  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "city", "Dayton");
  wb_test_wait_until (is_saved, f->model);

  stored = wb_desk_book_load (f->book, ID);
  g_assert_cmpint (wb_job_get_revision (stored), ==, revision + 1);
  history = wb_office_list_history (f->book->office, ID, NULL, NULL);
  entry = g_ptr_array_index (history, 0);
  g_assert_cmpstr (entry->deed, ==, "Change Telephone; Change City");
}

/* A change made while a save is under way is stored after it. */
static void
test_change_during_save (Fixture       *f,
                         gconstpointer  data)
{
  g_autoptr (WbJob) stored = NULL;

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "1");
  wb_job_model_flush_async (f->model, NULL, NULL, NULL);
  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "2");
  wb_test_wait_until (is_saved, f->model);

  stored = wb_desk_book_load (f->book, ID);
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "phone", "2");
}

static void
test_flush (Fixture       *f,
            gconstpointer  data)
{
  g_autoptr (WbJob) stored = NULL;

  wb_test_flush (f->model);
  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "1");
  wb_test_flush (f->model);
  g_assert_false (is_unsaved (f->model));

  stored = wb_desk_book_load (f->book, ID);
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "phone", "1");
}

/* Nobody looks at the job any more: its last change is stored all the same. */
static void
test_let_go (Fixture       *f,
             gconstpointer  data)
{
  g_autoptr (WbJob) stored = NULL;

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "1");
  g_clear_object (&f->model);
  wb_test_pass_time (600);

  stored = wb_desk_book_load (f->book, ID);
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "phone", "1");
  f->model = wb_job_model_new (f->book->office, stored);
}

/* The disk takes nothing more for a while: the change stays, the fault is told, and once there is
 * room it is stored without anybody asking. */
static void
test_full_disk (Fixture       *f,
                gconstpointer  data)
{
  struct rlimit before, none;
  g_autofree char *fault = NULL;
  g_autoptr (WbJob) stored = NULL;

  signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (getrlimit (RLIMIT_FSIZE, &before), ==, 0);
  none = before;
  none.rlim_cur = 0;
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &none), ==, 0);

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "937 555 0142");
  wb_test_wait_until (has_fault, f->model);
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &before), ==, 0);

  g_assert_true (is_unsaved (f->model));
  g_assert_cmpstr (phone_of (f->model), ==, "937 555 0142");
  g_object_get (f->model, "fault", &fault, NULL);
  g_test_message ("%s", fault);

  wb_test_wait_until (is_saved, f->model);
  g_assert_false (has_fault (f->model));
  stored = wb_desk_book_load (f->book, ID);
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "phone", "937 555 0142");
}

static void
refused_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  g_assert_false (wb_job_model_flush_finish (WB_JOB_MODEL (object), result, data));
}

static gboolean
has_error (gpointer data)
{
  return *(GError **) data != NULL;
}

static void
test_flush_fails (Fixture       *f,
                  gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  wb_office_close (f->book->office);
  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "1");
  wb_job_model_flush_async (f->model, NULL, refused_cb, &error);
  wb_test_wait_until (has_error, &error);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CLOSED);
  g_assert_true (is_unsaved (f->model));
  g_assert_cmpstr (phone_of (f->model), ==, "1");

  /* Taken back, there is nothing left to store. */
  wb_job_model_undo (f->model);
  g_assert_false (is_unsaved (f->model));
  wb_test_pass_time (1500);
  g_assert_false (has_fault (f->model));
}

/* --- back and forth --------------------------------------------------------------------------- */

static void
test_undo (Fixture       *f,
           gconstpointer  data)
{
  gboolean can_undo, can_redo;
  g_autofree char *label = NULL;
  g_autoptr (WbJob) stored = NULL;

  g_object_get (f->model, "can-undo", &can_undo, "can-redo", &can_redo, NULL);
  g_assert_false (can_undo);
  g_assert_false (can_redo);
  wb_job_model_undo (f->model);

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "1");
  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "2");
  g_object_get (f->model, "can-undo", &can_undo, "undo-label", &label, NULL);
  g_assert_true (can_undo);
  g_assert_cmpstr (label, ==, "Change Telephone");

  wb_job_model_undo (f->model);
  g_assert_cmpstr (phone_of (f->model), ==, "1");
  wb_job_model_undo (f->model);
  g_assert_cmpstr (phone_of (f->model), ==, NULL);
  g_assert_false (is_unsaved (f->model));
  wb_job_model_redo (f->model);
  wb_job_model_redo (f->model);
  wb_job_model_redo (f->model);
  g_assert_cmpstr (phone_of (f->model), ==, "2");

  wb_test_flush (f->model);
  wb_job_model_undo (f->model);
  wb_test_wait_until (is_saved, f->model);
  stored = wb_desk_book_load (f->book, ID);
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "phone", "1");

  /* Another change closes the way forward. */
  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "3");
  g_object_get (f->model, "can-redo", &can_redo, NULL);
  g_assert_false (can_redo);
  wb_test_flush (f->model);
}

static void
test_undo_limit (Fixture       *f,
                 gconstpointer  data)
{
  gboolean can_undo = TRUE;
  guint count = 0;

  for (guint i = 1; i <= 250; i++)
    {
      g_autofree char *text = g_strdup_printf ("%u", i);

      wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", text);
    }

  for (; can_undo; count++)
    {
      wb_job_model_undo (f->model);
      g_object_get (f->model, "can-undo", &can_undo, NULL);
    }
  g_assert_cmpuint (count, ==, 200);
  g_assert_cmpstr (phone_of (f->model), ==, "50");
  wb_test_flush (f->model);
}

static void
test_bad_text (Fixture       *f,
               gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  WbJob *before = wb_job_model_get_job (f->model);
  gboolean can_undo;

  g_assert_false (wb_job_model_set_field (f->model, WB_KIND_ORDER, "order", "pickup_from",
                                          "the third of March", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
  g_clear_error (&error);

  g_assert_false (wb_job_model_check_field (f->model, WB_KIND_ORDER, "order", "estimate",
                                            "many dollars", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
  g_clear_error (&error);

  /* A job without a number would not go into the book. */
  g_assert_false (wb_job_model_set_field (f->model, WB_KIND_ORDER, "order", "number", " ", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);

  g_assert_false (wb_job_model_set_field (f->model, WB_KIND_PARTY, "nobody", "phone", "1", &error));
  g_assert_nonnull (error);

  g_assert_true (wb_job_model_get_job (f->model) == before);
  g_object_get (f->model, "can-undo", &can_undo, NULL);
  g_assert_false (can_undo);
  g_assert_false (is_unsaved (f->model));
}

/* The same value again is no change. */
static void
test_same_value (Fixture       *f,
                 gconstpointer  data)
{
  gboolean can_undo;

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "name", " Ada Brook ");
  g_object_get (f->model, "can-undo", &can_undo, NULL);
  g_assert_false (can_undo);
}

/* --- lists ------------------------------------------------------------------------------------ */

typedef struct
{
  guint n_changes;
  guint position;
  guint removed;
  guint added;
} Heard;

static void
items_changed_cb (GListModel *list,
                  guint       position,
                  guint       removed,
                  guint       added,
                  Heard      *heard)
{
  heard->n_changes++;
  heard->position = position;
  heard->removed = removed;
  heard->added = added;
}

static void
count_cb (guint *count)
{
  (*count)++;
}

/* What every list has to hold at any time. */
static void
assert_follows (WbJobModel *model,
                WbKind      kind)
{
  GListModel *list = wb_job_model_get_records (model, kind);
  const WbJob *job = wb_job_model_get_job (model);

  g_assert_cmpuint (g_list_model_get_n_items (list), ==, wb_job_count (job, kind));
  for (guint i = 0; i < wb_job_count (job, kind); i++)
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (list, i);

      g_assert_true (wb_record_item_get_record (item) == wb_job_nth (job, kind, i));
    }
}

static void
test_list_edit (Fixture       *f,
                gconstpointer  data)
{
  GListModel *pieces = wb_job_model_get_records (f->model, WB_KIND_PIECE);
  g_autoptr (WbRecordItem) item = g_list_model_get_item (pieces, 3);
  g_autoptr (WbRecordItem) other = g_list_model_get_item (pieces, 4);
  g_autoptr (WbRecordItem) after = NULL;
  Heard heard = { 0 };
  guint n_item = 0, n_other = 0;

  g_signal_connect (pieces, "items-changed", G_CALLBACK (items_changed_cb), &heard);
  g_signal_connect_swapped (item, "notify::record", G_CALLBACK (count_cb), &n_item);
  g_signal_connect_swapped (other, "notify::record", G_CALLBACK (count_cb), &n_other);

  wb_test_set_field (f->model, WB_KIND_PIECE, "b3", "room", "attic");
  g_assert_cmpuint (heard.n_changes, ==, 0);
  g_assert_cmpuint (n_item, ==, 1);
  g_assert_cmpuint (n_other, ==, 0);
  after = g_list_model_get_item (pieces, 3);
  g_assert_true (after == item);
  g_assert_cmpstr (((const WbPiece *) wb_record_item_get_record (item))->room, ==, "attic");
  assert_follows (f->model, WB_KIND_PIECE);

  wb_job_model_undo (f->model);
  g_assert_cmpuint (n_item, ==, 2);
  assert_follows (f->model, WB_KIND_PIECE);
  g_signal_handlers_disconnect_by_data (pieces, &heard);
}

static void
apply_removal (WbJobModel *model,
               const char *id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_job_without (wb_job_model_get_job (model), WB_KIND_PIECE, id, &error);

  g_assert_no_error (error);
  wb_job_model_apply (model, job, "Remove");
}

static void
test_list_splices (Fixture       *f,
                   gconstpointer  data)
{
  GListModel *pieces = wb_job_model_get_records (f->model, WB_KIND_PIECE);
  g_autoptr (WbRecordItem) last = g_list_model_get_item (pieces, 9);
  g_autoptr (WbRecordItem) last_now = NULL;
  g_autoptr (WbRecord) piece = wb_record_new (WB_KIND_PIECE, "new");
  g_autoptr (WbJob) job = NULL;
  Heard heard = { 0 };

  g_signal_connect (pieces, "items-changed", G_CALLBACK (items_changed_cb), &heard);

  apply_removal (f->model, "b4");
  g_assert_cmpuint (heard.n_changes, ==, 1);
  g_assert_cmpuint (heard.position, ==, 4);
  g_assert_cmpuint (heard.removed, ==, 1);
  g_assert_cmpuint (heard.added, ==, 0);
  assert_follows (f->model, WB_KIND_PIECE);

  job = wb_job_insert (wb_job_model_get_job (f->model), piece, 2);
  wb_job_model_apply (f->model, job, "Add");
  g_assert_cmpuint (heard.n_changes, ==, 2);
  g_assert_cmpuint (heard.position, ==, 2);
  g_assert_cmpuint (heard.removed, ==, 0);
  g_assert_cmpuint (heard.added, ==, 1);
  assert_follows (f->model, WB_KIND_PIECE);

  wb_job_model_undo (f->model);
  wb_job_model_undo (f->model);
  assert_follows (f->model, WB_KIND_PIECE);
  last_now = g_list_model_get_item (pieces, 9);
  g_assert_true (last_now == last);
  g_signal_handlers_disconnect_by_data (pieces, &heard);
  wb_test_flush (f->model);
}

/* Every third piece goes and comes back: that is told as one change, and all others keep their
 * items. */
static void
test_list_scattered (Fixture       *f,
                     gconstpointer  data)
{
  GListModel *pieces = wb_job_model_get_records (f->model, WB_KIND_PIECE);
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) fewer = NULL;
  Heard heard = { 0 };

  for (guint i = 0; i < 100; i++)
    {
      g_ptr_array_add (items, g_list_model_get_item (pieces, i));
      if (i % 3 == 1)
        g_ptr_array_add (ids, g_strdup_printf ("b%u", i));
    }
  fewer = wb_job_without_many (wb_job_model_get_job (f->model), WB_KIND_PIECE, ids, &error);
  g_assert_no_error (error);
  g_signal_connect (pieces, "items-changed", G_CALLBACK (items_changed_cb), &heard);

  wb_job_model_apply (f->model, fewer, "Remove");
  g_assert_cmpuint (heard.n_changes, ==, 1);
  g_assert_cmpuint (heard.position, ==, 1);
  g_assert_cmpuint (heard.removed, ==, 97);
  g_assert_cmpuint (heard.added, ==, 64);
  assert_follows (f->model, WB_KIND_PIECE);

  wb_job_model_undo (f->model);
  g_assert_cmpuint (heard.n_changes, ==, 2);
  g_assert_cmpuint (heard.removed, ==, 64);
  g_assert_cmpuint (heard.added, ==, 97);
  assert_follows (f->model, WB_KIND_PIECE);
  for (guint i = 0; i < 100; i++)
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (pieces, i);

      g_assert_true ((item == g_ptr_array_index (items, i)) == (i % 3 != 1));
    }
  g_signal_handlers_disconnect_by_data (pieces, &heard);
  wb_test_flush (f->model);
}

/* A moved record takes its item along. */
static void
test_list_order (Fixture       *f,
                 gconstpointer  data)
{
  GListModel *stops = wb_job_model_get_records (f->model, WB_KIND_STOP);
  g_autoptr (WbRecordItem) first = g_list_model_get_item (stops, 0);
  g_autoptr (WbRecordItem) second = NULL;
  g_autoptr (WbRecord) record = wb_record_ref ((gpointer) wb_record_item_get_record (first));
  g_autoptr (WbJob) without = wb_job_without (wb_job_model_get_job (f->model), WB_KIND_STOP, "s1",
                                              NULL);
  g_autoptr (WbJob) moved = wb_job_insert (without, record, 1);
  g_autoptr (WbJob) stored = NULL;

  wb_job_model_apply (f->model, moved, "Move");
  assert_follows (f->model, WB_KIND_STOP);
  second = g_list_model_get_item (stops, 1);
  g_assert_true (second == first);

  wb_test_flush (f->model);
  stored = wb_desk_book_load (f->book, ID);
  g_assert_cmpint (wb_job_index (stored, WB_KIND_STOP, "s1"), ==, 1);
}

/* Random edits, told and checked one by one. */
static void
test_list_random (Fixture       *f,
                  gconstpointer  data)
{
  wb_job_model_get_records (f->model, WB_KIND_PIECE);

  for (guint i = 0; i < 300; i++)
    {
      const WbJob *job = wb_job_model_get_job (f->model);
      guint count = wb_job_count (job, WB_KIND_PIECE);
      gint what = g_test_rand_int_range (0, 5);
      g_autoptr (WbJob) changed = NULL;

      if (what == 0 && count > 0)
        {
          const WbRecord *piece = wb_job_nth (job, WB_KIND_PIECE,
                                              (guint) g_test_rand_int_range (0, (gint) count));

          changed = wb_job_without (job, WB_KIND_PIECE, piece->id, NULL);
        }
      else if (what == 1 && count > 1)
        {
          const WbRecord *piece = wb_job_nth (job, WB_KIND_PIECE, 0);
          g_autoptr (WbRecord) held = wb_record_ref ((gpointer) piece);
          g_autoptr (WbJob) without = wb_job_without (job, WB_KIND_PIECE, piece->id, NULL);

          changed = wb_job_insert (without, held, (guint) g_test_rand_int_range (0, (gint) count));
        }
      else if (what == 2)
        {
          wb_job_model_undo (f->model);
        }
      else if (what == 3)
        {
          g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);

          for (guint nth = 0; nth < count; nth++)
            if (g_test_rand_bit ())
              g_ptr_array_add (ids, g_strdup (((const WbRecord *) wb_job_nth (job, WB_KIND_PIECE,
                                                                              nth))->id));
          changed = wb_job_without_many (job, WB_KIND_PIECE, ids, NULL);
        }
      else
        {
          g_autofree char *id = g_strdup_printf ("n%u", i);
          g_autoptr (WbRecord) piece = wb_record_new (WB_KIND_PIECE, id);

          changed = wb_job_insert (job, piece, (guint) g_test_rand_int_range (0, (gint) count + 1));
        }

      if (changed != NULL)
        wb_job_model_apply (f->model, changed, "Something");
      assert_follows (f->model, WB_KIND_PIECE);
    }
  wb_test_flush (f->model);
}

/* A listener that changes the job while it hears of a change. */
static void
answer_cb (WbJobModel *model)
{
  wb_test_set_field (model, WB_KIND_PIECE, "b0", "notes", "heard");
}

static void
test_list_answer (Fixture       *f,
                  gconstpointer  data)
{
  GListModel *pieces = wb_job_model_get_records (f->model, WB_KIND_PIECE);
  g_autoptr (WbRecordItem) item = g_list_model_get_item (pieces, 5);

  g_signal_connect_object (item, "notify::record", G_CALLBACK (answer_cb), f->model,
                           G_CONNECT_SWAPPED);
  wb_test_set_field (f->model, WB_KIND_PIECE, "b5", "room", "attic");
  assert_follows (f->model, WB_KIND_PIECE);
  wb_test_assert_field (wb_job_model_get_job (f->model), WB_KIND_PIECE, "b0", "notes", "heard");
  wb_test_flush (f->model);
}

/* The best of many, so that other work on the machine does not count. */
static void
test_list_speed (Fixture       *f,
                 gconstpointer  data)
{
  gint64 best = G_MAXINT64;

  wb_job_model_get_records (f->model, WB_KIND_PIECE);
  for (guint i = 0; i < 50; i++)
    {
      g_autofree char *room = g_strdup_printf ("room %u", i);
      gint64 start = g_get_monotonic_time ();

      wb_test_set_field (f->model, WB_KIND_PIECE, "b2500", "room", room);
      best = MIN (best, g_get_monotonic_time () - start);
    }

  g_test_minimized_result ((double) best, "edit of one of 5,000 pieces: %" G_GINT64_FORMAT " µs",
                           best);
  g_test_message ("edit of one of 5,000 pieces: %" G_GINT64_FORMAT " µs", best);
  g_assert_cmpint (best, <, 1000);
  wb_test_flush (f->model);
}

/* --- others ----------------------------------------------------------------------------------- */

typedef struct
{
  WbOffice   *office;
  WbJobModel *model;
  guint       n_conflicts;
} Other;

/* A window of another process, which changes the telephone and stores it. */
static void
other_changes (Fixture    *f,
               Other      *other,
               const char *field,
               const char *text)
{
  g_autoptr (WbJob) job = NULL;

  other->office = wb_desk_book_open_again (f->book);
  job = wb_office_load_job (other->office, ID, NULL, NULL);
  other->model = wb_job_model_new (other->office, job);
  wb_test_set_field (other->model, WB_KIND_PARTY, "p1", field, text);
  wb_test_flush (other->model);
}

static void
other_clear (Other *other)
{
  g_clear_object (&other->model);
  wb_test_settle ();
  wb_office_close (other->office);
  g_clear_object (&other->office);
}

static gboolean
has_conflict (gpointer data)
{
  return ((Other *) data)->n_conflicts > 0;
}

static void
clash (Fixture *f,
       Other   *other)
{
  g_signal_connect_swapped (f->model, "conflict", G_CALLBACK (count_cb), &other->n_conflicts);
  wb_test_wait_until (has_conflict, other);
  g_assert_true (is_unsaved (f->model));
  g_assert_true (has_fault (f->model));
  g_assert_false (wb_job_model_get_removed (f->model));
}

static void
test_keep_mine (Fixture       *f,
                gconstpointer  data)
{
  Other other = { 0 };
  g_autoptr (WbJob) stored = NULL;

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "city", "Xenia");
  wb_test_set_field (f->model, WB_KIND_ORDER, "order", "bill_number", "B-9");
  other_changes (f, &other, "phone", "theirs");
  clash (f, &other);

  wb_job_model_keep_mine (f->model);
  wb_test_wait_until (is_saved, f->model);
  stored = wb_desk_book_load (f->book, ID);
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "phone", "theirs");
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "city", "Xenia");
  wb_test_assert_field (stored, WB_KIND_ORDER, "order", "bill_number", "B-9");
  g_assert_cmpuint (other.n_conflicts, ==, 1);

  /* Undo takes back mine, not theirs. */
  wb_job_model_undo (f->model);
  wb_job_model_undo (f->model);
  wb_test_assert_field (wb_job_model_get_job (f->model), WB_KIND_PARTY, "p1", "city", "");
  wb_test_assert_field (wb_job_model_get_job (f->model), WB_KIND_PARTY, "p1", "phone", "theirs");
  wb_test_flush (f->model);
  other_clear (&other);
}

static void
test_take_theirs (Fixture       *f,
                  gconstpointer  data)
{
  Other other = { 0 };

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "mine");
  other_changes (f, &other, "phone", "theirs");
  clash (f, &other);

  wb_job_model_take_theirs (f->model);
  g_assert_cmpstr (phone_of (f->model), ==, "theirs");
  g_assert_false (is_unsaved (f->model));

  /* Mine is still there. */
  wb_job_model_undo (f->model);
  g_assert_cmpstr (phone_of (f->model), ==, "mine");
  wb_test_flush (f->model);
  other_clear (&other);
}

/* While nobody has chosen, nothing is stored over the other's changes. */
static void
test_unresolved (Fixture       *f,
                 gconstpointer  data)
{
  Other other = { 0 };
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (GError) error = NULL;

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "phone", "mine");
  other_changes (f, &other, "phone", "theirs");
  clash (f, &other);

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "city", "Xenia");
  wb_job_model_flush_async (f->model, NULL, refused_cb, &error);
  wb_test_wait_until (has_error, &error);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT);
  stored = wb_desk_book_load (f->book, ID);
  wb_test_assert_field (stored, WB_KIND_PARTY, "p1", "phone", "theirs");

  wb_job_model_keep_mine (f->model);
  wb_test_flush (f->model);
  g_assert_cmpstr (phone_of (f->model), ==, "mine");
  other_clear (&other);
}

static gboolean
phone_is_theirs (gpointer model)
{
  return g_strcmp0 (phone_of (model), "theirs") == 0;
}

static void
test_refresh (Fixture       *f,
              gconstpointer  data)
{
  Other other = { 0 };

  wb_test_set_field (f->model, WB_KIND_PARTY, "p1", "city", "Xenia");
  wb_test_flush (f->model);
  other_changes (f, &other, "phone", "theirs");

  wb_job_model_refresh (f->model);
  wb_test_wait_until (phone_is_theirs, f->model);
  g_assert_false (is_unsaved (f->model));

  wb_job_model_undo (f->model);
  g_assert_true (phone_is_theirs (f->model));
  wb_test_assert_field (wb_job_model_get_job (f->model), WB_KIND_PARTY, "p1", "city", "");
  wb_test_flush (f->model);
  other_clear (&other);
}

#define ADD(path, pieces, func) \
  g_test_add ("/desk/job-model/" path, Fixture, GUINT_TO_POINTER (pieces), set_up, func, tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  ADD ("stores-itself", 0, test_stores_itself);
  ADD ("stores-together", 0, test_stores_together);
  ADD ("change-during-save", 0, test_change_during_save);
  ADD ("flush", 0, test_flush);
  ADD ("let-go", 0, test_let_go);
  ADD ("full-disk", 0, test_full_disk);
  ADD ("flush-fails", 0, test_flush_fails);
  ADD ("undo", 0, test_undo);
  ADD ("undo-limit", 0, test_undo_limit);
  ADD ("bad-text", 0, test_bad_text);
  ADD ("same-value", 0, test_same_value);
  ADD ("list/edit", 10, test_list_edit);
  ADD ("list/splices", 10, test_list_splices);
  ADD ("list/scattered", 100, test_list_scattered);
  ADD ("list/order", 0, test_list_order);
  ADD ("list/random", 200, test_list_random);
  ADD ("list/answer", 10, test_list_answer);
  ADD ("list/speed", 5000, test_list_speed);
  ADD ("others/keep-mine", 0, test_keep_mine);
  ADD ("others/take-theirs", 0, test_take_theirs);
  ADD ("others/unresolved", 0, test_unresolved);
  ADD ("others/refresh", 0, test_refresh);

  return g_test_run ();
}
