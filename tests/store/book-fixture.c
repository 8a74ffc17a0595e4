/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "book-fixture.h"

#include "support/wb-test-folder.h"

#include <string.h>

/* --- the folder ------------------------------------------------------------------------------- */

void
fixture_set_up_folder (Fixture       *self,
                       gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  self->folder = g_dir_make_tmp ("wainbook-store-XXXXXX", &error);
  g_assert_no_error (error);
  self->path = g_build_filename (self->folder, "office.book", NULL);
}

void
fixture_set_up (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture_set_up_folder (self, data);
  self->book = wb_book_open (self->path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (self->book);
}

void
fixture_reopen (Fixture *self)
{
  g_autoptr (GError) error = NULL;

  g_clear_object (&self->book);
  self->book = wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (self->book);
}

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(char *const *) a, *(char *const *) b);
}

char *
fixture_list_folder (Fixture *self)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) folder = g_dir_open (self->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (folder)) != NULL)
    g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  g_ptr_array_add (names, NULL);
  return g_strjoinv (" ", (char **) names->pdata);
}

void
fixture_tear_down (Fixture       *self,
                   gconstpointer  data)
{
  g_autofree char *names = NULL;

  if (self->book != NULL)
    g_assert_finalize_object (self->book);
  names = fixture_list_folder (self);
  g_assert_null (strstr (names, "-wal"));
  g_assert_null (strstr (names, "-shm"));
  g_assert_null (strstr (names, "-journal"));
  g_assert_null (strstr (names, ".new-"));
  wb_test_remove_tree (self->folder);
  g_free (self->folder);
  g_free (self->path);
}

char *
digest_of (const char *path)
{
  g_autofree char *bytes = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  g_file_get_contents (path, &bytes, &length, &error);
  g_assert_no_error (error);
  return g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) bytes, length);
}

/* --- jobs ------------------------------------------------------------------------------------- */

void
set_field (gpointer    record,
           const char *name,
           const char *text)
{
  const WbField *field = wb_record_type_field (((WbRecord *) record)->type, name);
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (field);
  wb_record_set_text (record, field, text, "USD", &error);
  g_assert_no_error (error);
}

WbJob *
with_record (WbJob      *job,
             WbKind      kind,
             const char *id,
             ...)
{
  gconstpointer old = wb_job_find (job, kind, id);
  g_autoptr (WbRecord) record = old != NULL ? wb_record_copy (old) : wb_record_new (kind, id);
  const char *name;
  va_list arguments;

  va_start (arguments, id);
  while ((name = va_arg (arguments, const char *)) != NULL)
    set_field (record, name, va_arg (arguments, const char *));
  va_end (arguments);
  return wb_job_with (job, record);
}

/* The kinds of record that came with version 2 of the book. */
static void
add_evidence (WbJob **job)
{
  change_job (job, WB_KIND_THING, "thing-1", "piece", "piece-2", "description", "Soup plates",
              "quantity", "12", "value", "8.50", "weight", "1.25 lb");
  change_job (job, WB_KIND_PACKING_CHECK, "check-1", "piece", "piece-2", "rule", "gaps-filled",
              "state", "unmet", "by", "Bram Tollefsen", "on", "2026-03-02");
  change_job (job, WB_KIND_PHOTO, "photo-1", "hash",
              "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08", "name",
              "table.jpg", "media_type", "image/jpeg", "size", "2411724", "width", "4000", "height",
              "3000", "orientation", "6", "taken_at", "2026-03-03T09:12:45", "imported_at",
              "2026-03-03T18:00:01Z", "moment", "origin", "piece", "piece-1");
  change_job (job, WB_KIND_PIN, "pin-1", "photo", "photo-1", "x", "2500", "y", "6050", "marks",
              "SC 4");
  change_job (job, WB_KIND_MATERIAL, "material-1", "item", "dish-pack", "planned", "6", "used",
              "7");
  change_job (job, WB_KIND_CONTACT, "contact-1", "on", "2026-03-12", "at", "14:05", "manner",
              "call", "who", "Ada Quillfeather", "complaint", "yes", "text", "A carton is short.");
  change_job (job, WB_KIND_PAPER, "paper-1", "kind", "bill-of-lading", "number", "BL 7781",
              "signed_by", "Ada Quillfeather", "signed_on", "2026-03-03");
  change_job (job, WB_KIND_STEP, "step-1", "claim", "claim-1", "kind", "offer", "on", "2026-04-20",
              "amount", "60.00", "who", "Ada Quillfeather", "text", "Released value, 8 lb.");
  change_job (job, WB_KIND_STEP, "step-2", "claim", "claim-1", "kind", "mediation", "on",
              "2026-05-30");
  change_job (job, WB_KIND_QUOTE, "quote-1", "claim_line", "line-1", "kind", "replacement",
              "source", "Fennimore Crockery", "on", "2026-04-10", "amount", "310.00", "taken",
              "yes");
  change_job (job, WB_KIND_SHARE, "share-1", "claim_line", "line-1", "handler",
              "Marsh & Daughters Haulage", "percent", "60 %", "reason", "Short at its delivery.");
  change_job (job, WB_KIND_CHARGE, "charge-1", "claim", "claim-1", "handler",
              "Marsh & Daughters Haulage", "amount", "36.00", "stated_on", "2026-05-02", "statement",
             "Charge statement\n1. Plates: 36.00");
  change_job (job, WB_KIND_TALLY, "tally-1", "handover", "handover-1", "lot", "lot-1", "tags", "1");
}

WbJob *
make_job (const char *id,
          const char *number)
{
  g_autofree char *claim_number = g_strconcat ("C-", number, NULL);
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_job_new (id, "USD");

  change_job (&job, WB_KIND_ORDER, "order", "number", number, "bill_number", "BL 7781", "stage",
              "delivered", "move_type", "interstate", "pickup_from", "2026-03-02", "picked_up_on",
              "2026-03-03", "delivered_on", "2026-03-11", "guaranteed", "yes", "estimate",
              "4,310.50", "estimated_weight", "7,400 lb", "volume", "1,050.5 cuft", "notes",
              "Ring twice.\nDog in the yard.");
  change_job (&job, WB_KIND_VALUATION, "valuation", "choice", "full", "declared_value", "60,000",
              "deductible", "250", "signed_by", "Ada Quillfeather", "signed_on", "2026-02-20",
              "signed_how", "paper");
  change_job (&job, WB_KIND_PARTY, "party-1", "role", "shipper", "name", "Ada Quillfeather",
              "phone", "(509) 555-0147");
  change_job (&job, WB_KIND_PARTY, "party-2", "role", "hauler", "company",
              "Marsh & Daughters Haulage", "city", "Boise");
  change_job (&job, WB_KIND_STOP, "stop-1", "kind", "pickup", "city", "Dayton", "region", "OH",
              "on", "2026-03-03");
  change_job (&job, WB_KIND_STOP, "stop-2", "kind", "delivery", "city", "Spokane", "region", "WA");
  change_job (&job, WB_KIND_WEIGHING, "weighing-1", "kind", "weighing", "gross", "41,200 lb",
              "tare", "33,900 lb", "net", "7,300 lb");
  change_job (&job, WB_KIND_LOT, "lot-1", "colour", "green", "number", "4711", "first", "1", "last",
              "2");
  change_job (&job, WB_KIND_PIECE, "piece-1", "lot", "lot-1", "tag", "1", "description",
              "Oak table", "room", "Kitchen", "form", "loose", "marks", "SC 4-8, CH 3", "weight",
              "54.50 kg");
  change_job (&job, WB_KIND_PIECE, "piece-2", "lot", "lot-1", "tag", "2", "carton", "dish pack",
              "packed_by", "CP", "contents", "plates\ncups", "volume", "6.2 cuft", "listed_value",
              "0.00");
  change_job (&job, WB_KIND_HANDOVER, "handover-1", "kind", "delivery", "on", "2026-03-11",
              "to_holder", "shipper", "crew", "Ona Reedmace, Pip Larkspur");
  change_job (&job, WB_KIND_FINDING, "finding-1", "handover", "handover-1", "piece", "piece-2",
              "found", "short");
  change_job (&job, WB_KIND_CLAIM, "claim-1", "number", claim_number, "received_on", "2026-04-01",
              "asserts_liability", "yes");
  change_job (&job, WB_KIND_CLAIM_LINE, "line-1", "claim", "claim-1", "number", "1", "piece",
              "piece-2", "loss", "missing", "replacement", "310.00", "age_years", "0",
              "depreciation_yearly", "7.5 %", "depreciation_least", "10 %", "salvage_taken", "yes",
              "salvage_lot", "S-12", "salvage_sold", "4.00", "salvage_on", "2026-05-20", "set_mate",
              "yes", "cause", "packing", "defence", "inherent-vice");
  change_job (&job, WB_KIND_PAYMENT, "payment-1", "claim", "claim-1", "claim_line", "line-1", "on",
              "2026-05-01", "amount", "60.00", "freight_refund", "1.50");
  add_evidence (&job);
  wb_job_check (job, &error);
  g_assert_no_error (error);
  return job;
}

WbJob *
make_large_job (const char *id,
                const char *number,
                guint       n)
{
  g_autoptr (WbJob) job = wb_job_new (id, "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);

  change_job (&job, WB_KIND_ORDER, "order", "number", number);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *piece_id = g_strdup_printf ("piece-%u", i + 1);
      WbPiece *piece = wb_record_new (WB_KIND_PIECE, piece_id);

      piece->tag = i + 1;
      wb_set_text (&piece->description, "Carton of books");
      wb_set_text (&piece->room, "Study");
      wb_set_text (&piece->marks, "SC 4-8, CH 3");
      piece->weight = wb_weight (4000 + i, WB_WEIGHT_UNIT_LB);
      piece->volume = wb_volume (150, WB_VOLUME_UNIT_CUFT);
      piece->packed_by = WB_PACKED_BY_CARRIER;
      g_ptr_array_add (records, piece);
    }
  return wb_job_with_many (job, records);
}

WbJob *
save (WbBook *book,
      WbJob  *base,
      WbJob  *job)
{
  g_autoptr (GError) error = NULL;
  WbJob *stored = wb_book_save_job (book, base, job, "saved in a test", NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (stored);
  return stored;
}

WbJob *
load (WbBook     *book,
      const char *id)
{
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_book_load_job (book, id, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (job);
  return job;
}

void
assert_same_job (WbJob *a,
                 WbJob *b)
{
  g_autoptr (GArray) changes = wb_job_diff (a, b);

  for (guint i = 0; i < changes->len; i++)
    {
      const WbJobChange *change = &g_array_index (changes, WbJobChange, i);

      g_test_message ("%s %s differs", wb_record_type (change->kind)->name,
                      change->before != NULL ? change->before->id : change->after->id);
    }
  g_assert_true (wb_job_equal (a, b));
  g_assert_cmpint (wb_job_get_revision (a), ==, wb_job_get_revision (b));
}

void
assert_says (const GError *error,
             const char   *text)
{
  static const char *const sql[] = { "SELECT", "INSERT", "UPDATE", "DELETE", "PRAGMA", "SQL",
                                     "constraint" };

  if (strstr (error->message, text) == NULL)
    g_error ("“%s” does not say “%s”", error->message, text);
  for (gsize i = 0; i < G_N_ELEMENTS (sql); i++)
    if (strstr (error->message, sql[i]) != NULL)
      g_error ("“%s” has “%s” in it", error->message, sql[i]);
}

/* --- behind the book's back ------------------------------------------------------------------- */

static sqlite3_stmt *
ask (const char  *path,
     const char  *sql,
     sqlite3    **handle)
{
  sqlite3_stmt *statement;

  g_assert_cmpint (sqlite3_open_v2 (path, handle, SQLITE_OPEN_READWRITE, NULL), ==, SQLITE_OK);
  sqlite3_busy_timeout (*handle, 5000);
  if (sqlite3_prepare_v2 (*handle, sql, -1, &statement, NULL) != SQLITE_OK)
    g_error ("%s: %s", sql, sqlite3_errmsg (*handle));
  if (sqlite3_step (statement) != SQLITE_ROW)
    g_error ("%s: no row", sql);
  return statement;
}

gint64
ask_number (const char *path,
            const char *sql)
{
  sqlite3 *handle;
  sqlite3_stmt *statement = ask (path, sql, &handle);
  gint64 number = sqlite3_column_int64 (statement, 0);

  sqlite3_finalize (statement);
  g_assert_cmpint (sqlite3_close (handle), ==, SQLITE_OK);
  return number;
}

char *
ask_text (const char *path,
          const char *sql)
{
  sqlite3 *handle;
  sqlite3_stmt *statement = ask (path, sql, &handle);
  char *text = g_strdup ((const char *) sqlite3_column_text (statement, 0));

  sqlite3_finalize (statement);
  g_assert_cmpint (sqlite3_close (handle), ==, SQLITE_OK);
  return text;
}

void
tamper (const char *path,
        const char *sql)
{
  sqlite3 *handle;
  char *message = NULL;

  g_assert_cmpint (sqlite3_open_v2 (path, &handle, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE,
                                    NULL), ==, SQLITE_OK);
  sqlite3_busy_timeout (handle, 5000);
  if (sqlite3_exec (handle, sql, NULL, NULL, &message) != SQLITE_OK)
    g_error ("%s: %s", sql, message);
  g_assert_cmpint (sqlite3_close (handle), ==, SQLITE_OK);
}
