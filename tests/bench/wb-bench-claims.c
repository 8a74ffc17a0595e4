/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "bench/wb-bench-claims.h"

#include "store/wb-book.h"

#define N_AT_ONCE 1000

static WbJob *
make_job (guint n)
{
  g_autofree char *id = g_strdup_printf ("job-%u", n);
  g_autoptr (WbJob) empty = wb_job_new (id, "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");
  WbParty *shipper = wb_record_new (WB_KIND_PARTY, "shipper");
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "claim");
  WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, "line");

  order->number = g_strdup_printf ("J-%05u", n);
  order->move_type = WB_MOVE_INTERSTATE;
  g_date_set_dmy (&order->picked_up_on, 2, G_DATE_MARCH, 2026);
  g_date_set_dmy (&order->delivered_on, 11, G_DATE_MARCH, 2026);
  shipper->role = WB_ROLE_SHIPPER;
  shipper->name = g_strdup_printf ("Ada Quillfeather %u", n);
  claim->number = g_strdup_printf ("C-%05u", n);
  g_date_set_dmy (&claim->received_on, 1, G_DATE_APRIL, 2026);
  g_date_add_days (&claim->received_on, n * 7919 % 200);
  line->number = 1;
  wb_set_text (&line->claim, "claim");
  line->loss = WB_LOSS_MISSING;
  line->replacement = wb_money (12000, "USD");

  g_ptr_array_add (records, order);
  g_ptr_array_add (records, shipper);
  g_ptr_array_add (records, claim);
  g_ptr_array_add (records, line);
  return wb_job_with_many (empty, records);
}

void
wb_bench_make_claims (const char *path)
{
  const gint64 start = g_get_monotonic_time ();
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBook) book = wb_book_open (path, WB_BOOK_CREATE, NULL, &error);

  g_assert_no_error (error);
  for (guint n = 0; n < WB_BENCH_N_CLAIMS; n += N_AT_ONCE)
    {
      g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);

      for (guint i = 0; i < N_AT_ONCE; i++)
        g_ptr_array_add (jobs, make_job (n + i));
      wb_book_add_jobs (book, jobs, "made", NULL, &error);
      g_assert_no_error (error);
    }
  wb_book_close (book);
  g_print ("a book of %d open claims was made in %.1f s\n", WB_BENCH_N_CLAIMS,
           (double) (g_get_monotonic_time () - start) / G_USEC_PER_SEC);
}
