/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Removing several records in one step: all go with what belongs to them, or none does. */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-job.h"

/* Pieces p0 … p9; a claim c with line l about p3; a handover h with a finding f about p5. */
static WbJob *
make_job (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("j", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_copy (wb_job_order (empty));
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "c");
  WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, "l");
  WbHandover *handover = wb_record_new (WB_KIND_HANDOVER, "h");
  WbFinding *finding = wb_record_new (WB_KIND_FINDING, "f");

  for (guint i = 0; i < 10; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", i);

      g_ptr_array_add (records, wb_record_new (WB_KIND_PIECE, id));
    }
  wb_set_text (&order->number, "J-1");
  g_ptr_array_add (records, order);
  wb_set_text (&claim->number, "C-1");
  wb_set_text (&line->claim, "c");
  wb_set_text (&line->piece, "p3");
  line->number = 1;
  wb_set_text (&finding->handover, "h");
  wb_set_text (&finding->piece, "p5");
  g_ptr_array_add (records, claim);
  g_ptr_array_add (records, line);
  g_ptr_array_add (records, handover);
  g_ptr_array_add (records, finding);
  return wb_job_with_many (empty, records);
}

static WbJob *
without (WbJob       *job,
         WbKind       kind,
         const char  *list,
         GError     **error)
{
  g_auto (GStrv) parts = g_strsplit (list, " ", -1);
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  for (guint i = 0; parts[i] != NULL; i++)
    g_ptr_array_add (ids, parts[i]);
  return wb_job_without_many (job, kind, ids, error);
}

static void
test_many (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) fewer = without (job, WB_KIND_PIECE, "p0 p9 p4", &error);

  g_assert_no_error (error);
  wb_job_check (fewer, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (fewer, WB_KIND_PIECE), ==, 7);
  g_assert_null (wb_job_find (fewer, WB_KIND_PIECE, "p4"));
  g_assert_cmpint (wb_job_index (fewer, WB_KIND_PIECE, "p1"), ==, 0);
  g_assert_cmpint (wb_job_index (fewer, WB_KIND_PIECE, "p8"), ==, 6);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_PIECE), ==, 10);
}

static void
test_refused (void)
{
  g_autoptr (WbJob) job = make_job ();
  static const struct
  {
    WbKind      kind;
    const char *ids;
    int         code;
    const char *names[2];
  } cases[] = {
    { WB_KIND_PIECE, "p1 p3 p2", WB_CORE_ERROR_RANGE, { "p3", "claim_line l" } },
    { WB_KIND_PIECE, "p5", WB_CORE_ERROR_RANGE, { "p5", "finding f" } },
    { WB_KIND_PIECE, "p1 p77", WB_CORE_ERROR_MISSING, { "p77", "piece" } },
    { WB_KIND_ORDER, "order", WB_CORE_ERROR_RANGE, { "always", "order" } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbJob) fewer = without (job, cases[i].kind, cases[i].ids, &error);

      g_assert_null (fewer);
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].names[0]));
      g_assert_nonnull (strstr (error->message, cases[i].names[1]));
    }
}

/* What belongs to a record goes with it, and then no longer holds others. */
static void
test_owned (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) no_claim = without (job, WB_KIND_CLAIM, "c", &error);
  g_autoptr (WbJob) no_handover = NULL;
  g_autoptr (WbJob) bare = NULL;

  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (no_claim, WB_KIND_CLAIM_LINE), ==, 0);
  no_handover = wb_job_without (no_claim, WB_KIND_HANDOVER, "h", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (no_handover, WB_KIND_FINDING), ==, 0);
  bare = without (no_handover, WB_KIND_PIECE, "p3 p5", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (bare, WB_KIND_PIECE), ==, 8);
}

/* What belongs to a line of a claim goes with the claim, and to a photo of a handover nothing does
 * that would stay behind. */
static void
test_owned_by_owned (void)
{
  g_autoptr (WbJob) plain = make_job ();
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbQuote *quote = wb_record_new (WB_KIND_QUOTE, "q");
  WbPhoto *photo = wb_record_new (WB_KIND_PHOTO, "f");
  WbPin *pin = wb_record_new (WB_KIND_PIN, "n");
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) no_claim = NULL;
  g_autoptr (WbJob) held = NULL;
  g_autoptr (WbJob) no_photo = NULL;

  wb_set_text (&quote->claim_line, "l");
  wb_set_text (&photo->hash, "00");
  wb_set_text (&photo->piece, "p7");
  wb_set_text (&pin->photo, "f");
  wb_set_text (&pin->piece, "p8");
  g_ptr_array_add (records, quote);
  g_ptr_array_add (records, photo);
  g_ptr_array_add (records, pin);
  job = wb_job_with_many (plain, records);

  no_claim = without (job, WB_KIND_CLAIM, "c", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (no_claim, WB_KIND_QUOTE), ==, 0);

  held = without (job, WB_KIND_PIECE, "p8", &error);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, "pin n"));
  g_assert_null (held);
  g_clear_error (&error);
  no_photo = without (job, WB_KIND_PHOTO, "f", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (no_photo, WB_KIND_PIN), ==, 0);
}

static void
test_none (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) same = wb_job_without_many (job, WB_KIND_PIECE, ids, &error);

  g_assert_no_error (error);
  g_assert_true (wb_job_equal (job, same));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/job-without/many", test_many);
  g_test_add_func ("/core/job-without/refused", test_refused);
  g_test_add_func ("/core/job-without/owned", test_owned);
  g_test_add_func ("/core/job-without/owned-by-owned", test_owned_by_owned);
  g_test_add_func ("/core/job-without/none", test_none);
  return g_test_run ();
}
