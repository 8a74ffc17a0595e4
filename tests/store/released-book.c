/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "released-book.h"

#include <string.h>

#include "book-fixture.h"
#include "store/wb-publication-store.h"
#include "store/wb-server-store.h"
#include "store/wb-share-queue-store.h"

/* --- making ----------------------------------------------------------------------------------- */

/* Returns: a value for the field, another one for each @n; for a reference, the record of that
 * number. */
static char *
make_value (const WbField *field,
            guint          n)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
      return g_strdup_printf ("%s %u – “Zoë’s” 東京", field->name, n);
    case WB_FIELD_MARKS:
      return g_strdup (n % 2 == 0 ? "SC 4-8, CH 3" : "BR 2");
    case WB_FIELD_REFERENCE:
      return g_strdup_printf ("%s-%u", wb_record_type (field->refers)->name, n);
    case WB_FIELD_BOOLEAN:
      return g_strdup ("yes");
    case WB_FIELD_INTEGER:
      return g_strdup_printf ("%u", (guint) MIN (n + 1, field->maximum));
    case WB_FIELD_PERCENT:
      return g_strdup_printf ("%u.25 %%", n);
    case WB_FIELD_ENUM:
      return g_strdup (field->choices->values[n % field->choices->n_values].nick);
    case WB_FIELD_DATE:
      return g_strdup_printf ("2024-02-%02u", 20 + n % 10);
    case WB_FIELD_MONEY:
      return g_strdup_printf ("%u.%02u", n * 1000, n);
    case WB_FIELD_WEIGHT:
      return g_strdup_printf (n % 2 == 0 ? "%u.25 lb" : "%u.50 kg", n);
    case WB_FIELD_VOLUME:
      return g_strdup_printf (n % 2 == 0 ? "%u.10 cuft" : "%u m3", n);
    }
  g_assert_not_reached ();
}

/* Every kind of record, nineteen of each so that every value of every list is there, with every
 * field given. */
static WbJob *
make_full_job (const char *id)
{
  g_autoptr (WbJob) empty = wb_job_new (id, "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);

      for (guint n = 0; n < (type->single ? 1 : 19); n++)
        {
          g_autofree char *name = type->single
                                    ? g_strdup (type->name)
                                    : g_strdup_printf ("%s-%u", type->name, n);
          gpointer record = wb_record_new ((WbKind) kind, name);

          for (gsize i = 0; i < type->n_fields; i++)
            {
              g_autofree char *text = make_value (&type->fields[i], n + (type->single ? 3 : 0));

              set_field (record, type->fields[i].name, text);
            }
          if (kind == WB_KIND_WEIGHING)
            set_field (record, "net", NULL);
          g_ptr_array_add (records, record);
        }
    }
  return wb_job_with_many (empty, records);
}

/* A server of each kind, with every field whether the kind has it or not. */
static void
make_servers (WbBook *book)
{
  for (gsize kind = 0; kind < wb_server_kinds.n_values; kind++)
    {
      g_autofree char *id = g_strdup_printf ("%08u-0000-4000-8000-000000000000", (guint) kind);
      g_autoptr (WbServer) server = wb_server_new (wb_server_kinds.values[kind].value, id);
      g_autoptr (GError) error = NULL;

      for (gsize i = 0; i < wb_server_fields.n_values; i++)
        {
          g_autofree char *text = g_strdup_printf ("%s %u – Zoë", wb_server_fields.values[i].nick,
                                                   (guint) kind);

          wb_server_set (server, wb_server_fields.values[i].value, text);
        }
      g_assert_true (wb_book_put_server (book, server, NULL, &error));
      g_assert_no_error (error);
    }
}

/* What is in step with the second server, and an entry of every deed and state for the third. */
static void
make_share (WbBook *book)
{
  char *heads[] = { (char *) "aa", (char *) "bb", NULL };
  const WbPublication publication = {
    (char *) "plain", (char *) "00000001-0000-4000-8000-000000000000", heads, NULL,
    (char *) "2026-01-02T03:04:05Z",
  };
  g_autoptr (GBytes) document = g_bytes_new_static ("{}", 2);
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_book_note_publication (book, &publication, document, NULL, &error));
  g_assert_no_error (error);
  for (gsize deed = 0; deed < wb_share_deeds.n_values; deed++)
    for (gsize state = 0; state < wb_share_states.n_values; state++)
      {
        g_autofree char *job = g_strdup_printf ("job-%u", (guint) state);
        const WbShareEntry entry = {
          0, job, (char *) "J-2026-0001", (char *) "00000002-0000-4000-8000-000000000000",
          wb_share_deeds.values[deed].value, wb_share_states.values[state].value, (guint) state,
          1767323045, (char *) "Zoë does not answer.", 10, 20, 1767323000,
        };

        g_assert_cmpint (wb_book_add_share_entry (book, &entry, NULL, &error), >, 0);
        g_assert_no_error (error);
      }
}

void
released_book_make (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBook) book = wb_book_open (path, WB_BOOK_CREATE, NULL, &error);
  g_autoptr (WbJob) full = make_full_job ("full");
  g_autoptr (WbJob) plain = make_job ("plain", "J-2026-0001");
  g_autoptr (WbJob) gone = make_job ("gone", "J-2026-0002");
  g_autoptr (WbJob) little = wb_job_new ("little", "JPY");
  g_autoptr (WbJob) changed = NULL;
  WbJob *stored[5];
  g_autofree char *number = NULL;

  g_assert_no_error (error);
  /* A job without any day stands where it was first stored, which is another day whenever this is
   * made. */
  change_job (&little, WB_KIND_ORDER, "order", "survey_on", "2025-12-31");
  change_job (&plain, WB_KIND_CLAIM, "claim-1", "number", "C-2026-0001");
  stored[0] = save (book, NULL, full);
  stored[1] = save (book, NULL, plain);
  stored[2] = save (book, NULL, gone);
  stored[3] = save (book, NULL, little);
  changed = with_record (stored[1], WB_KIND_PIECE, "piece-2", "room", "Hall", "contents", NULL,
                         NULL);
  stored[4] = save (book, stored[1], changed);
  g_assert_true (wb_book_remove_job (book, "gone", 1, NULL, &error));
  g_assert_no_error (error);
  number = wb_book_next_number (book, "J-2026-", NULL, &error);
  g_assert_no_error (error);
  make_servers (book);
  make_share (book);
  for (gsize i = 0; i < G_N_ELEMENTS (stored); i++)
    wb_job_unref (stored[i]);
  g_clear_object (&book);
  /* The same whoever makes it, and when. */
  tamper (path,
          "UPDATE history SET who = 'clerk', \"when\" = '2026-01-02T03:04:05Z';"
          "UPDATE job SET first_stored = '2026-01-02'; VACUUM");
}

/* --- describing ------------------------------------------------------------------------------- */

static void
describe_record (GString        *text,
                 const WbRecord *record)
{
  g_string_append_printf (text, "  %s %s", record->type->name, record->id);
  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];
      g_autofree char *value = NULL;
      g_autofree char *escaped = NULL;

      if (!wb_record_field_is_set (field, record))
        continue;
      value = wb_record_get_text (record, field);
      escaped = g_strescape (value, NULL);
      g_string_append_printf (text, " | %s: %s", field->name, escaped);
    }
  g_string_append_c (text, '\n');
}

/* Beyond this the changes are described by their digest. */
#define LONG_CHANGES 5000

static void
describe_history (GString    *text,
                  WbBook     *book,
                  const char *id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) entries = wb_book_list_history (book, id, NULL, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < entries->len; i++)
    {
      const WbHistoryEntry *entry = g_ptr_array_index (entries, i);
      gsize length = strlen (entry->changes);
      g_autofree char *digest = g_compute_checksum_for_string (G_CHECKSUM_SHA256, entry->changes,
                                                               (gssize) length);

      g_string_append_printf (text, "  %" G_GINT64_FORMAT " %s by %s at %s\n", entry->revision,
                              entry->deed, entry->who, entry->when);
      if (length < LONG_CHANGES)
        g_string_append_printf (text, "%s\n", entry->changes);
      else
        g_string_append_printf (text, "  %" G_GSIZE_FORMAT " bytes: %s\n", length, digest);
    }
}

static void
describe_job (GString            *text,
              WbBook             *book,
              const WbJobSummary *summary)
{
  g_autoptr (WbJob) job = load (book, summary->id);
  g_autofree char *pickup = wb_date_to_text (&summary->pickup);
  g_autofree char *delivery = wb_date_to_text (&summary->delivery);

  g_string_append_printf (text,
                          "%s | %s | %s | %s | %s | %s | %s | %s | %s | %u | %s | %u |"
                          " %" G_GINT64_FORMAT "\n", summary->id, summary->number,
                          summary->bill_number, wb_enum_nick (&wb_stages, (int) summary->stage),
                          summary->shipper, summary->from_city, summary->to_city, pickup, delivery,
                          summary->n_pieces, summary->claims, summary->n_open_claims,
                          summary->revision);
  g_string_append_printf (text, "  in %s\n", wb_job_get_currency (job));
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (job, (WbKind) kind); i++)
      describe_record (text, wb_job_nth (job, (WbKind) kind, i));
  describe_history (text, book, summary->id);
}

/* Nothing for a book of before there were servers. */
static void
describe_share (GString *text,
                WbBook  *book)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) servers = wb_book_list_servers (book, NULL, &error);
  g_autoptr (GPtrArray) publications = wb_book_list_publications (book, NULL, NULL, &error);
  g_autoptr (GPtrArray) queue = wb_book_list_share_queue (book, NULL, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < servers->len; i++)
    {
      const WbServer *server = g_ptr_array_index (servers, i);

      g_string_append_printf (text, "server %s | %s", server->id,
                              wb_enum_nick (&wb_server_kinds, (int) server->kind));
      for (gsize field = 0; field < wb_server_fields.n_values; field++)
        g_string_append_printf (text, " | %s",
                                wb_server_get (server, wb_server_fields.values[field].value));
      g_string_append_c (text, '\n');
    }
  for (guint i = 0; i < publications->len; i++)
    {
      const WbPublication *publication = g_ptr_array_index (publications, i);
      g_autofree char *heads = g_strjoinv (" ", publication->heads);

      g_string_append_printf (text, "in step %s | %s | %s | %s | %s\n", publication->job_id,
                              publication->server_id, heads, publication->document,
                              publication->at);
    }
  for (guint i = 0; i < queue->len; i++)
    {
      const WbShareEntry *entry = g_ptr_array_index (queue, i);

      g_string_append_printf (text, "queue %s | %s | %s | %s | %s | %u | %s", entry->job_id,
                              entry->title, entry->server_id,
                              wb_enum_nick (&wb_share_deeds, (int) entry->deed),
                              wb_enum_nick (&wb_share_states, (int) entry->state), entry->tries,
                              entry->fault);
      g_string_append_printf (text, " | %" G_GINT64_FORMAT " | %" G_GINT64_FORMAT
                              " | %" G_GINT64_FORMAT " | %" G_GINT64_FORMAT "\n", entry->next_try,
                              entry->done, entry->all, entry->added);
    }
}

char *
released_book_describe (WbBook *book)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_book_list_jobs (book, NULL, 0, NULL, &error);
  g_autoptr (GPtrArray) found = NULL;
  GString *text = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint i = 0; i < jobs->len; i++)
    describe_job (text, book, g_ptr_array_index (jobs, i));
  g_string_append (text, "gone\n");
  describe_history (text, book, "gone");
  found = wb_book_list_jobs (book, "zoe", 0, NULL, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < found->len; i++)
    g_string_append_printf (text, "found %s\n",
                            ((const WbJobSummary *) g_ptr_array_index (found, i))->id);
  describe_share (text, book);
  return g_string_free (text, FALSE);
}
