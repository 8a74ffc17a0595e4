/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pieces that were moved, counted in the book: always what the jobs themselves say. */
#include "config.h"

#include "book-fixture.h"

static void
append_row (const WbMovedPieces *pieces,
            gpointer             data)
{
  g_autofree char *on = wb_date_to_text (&pieces->delivered_on);

  g_string_append_printf (data, "%s %s %s %s>%s %s %s %s %s %s %" G_GINT64_FORMAT "\n",
                          pieces->currency, on, pieces->crew, pieces->from_region,
                          pieces->to_region, wb_enum_nick (&wb_forms, (int) pieces->form),
                          pieces->carton, wb_enum_nick (&wb_packed_by, (int) pieces->packed_by),
                          pieces->packer, pieces->room, pieces->n);
}

static void
assert_moved (Fixture    *self,
              const char *expected)
{
  g_autoptr (GString) rows = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_book_scan_moved_pieces (self->book, append_row, rows, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (rows->str, ==, expected);
}

/* Like ones are counted together; a job that is under way, or was removed, counts for nothing. */
static void
test_counted (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("a", "J-1");
  g_autoptr (WbJob) under_way = make_job ("b", "J-2");
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) other = NULL;
  g_autoptr (GError) error = NULL;

  change_job (&job, WB_KIND_HANDOVER, "handover-0", "kind", "pickup", "crew", " ");
  change_job (&job, WB_KIND_HANDOVER, "handover-2", "kind", "pickup", "crew", "Pip Larkspur");
  change_job (&job, WB_KIND_STOP, "stop-3", "kind", "pickup", "region", "IN");
  change_job (&job, WB_KIND_STOP, "stop-4", "kind", "delivery", "region", "OR");
  for (int i = 0; i < 2; i++)
    change_job (&job, WB_KIND_PIECE, i == 0 ? "piece-8" : "piece-9", "form", "carton", "carton",
                "dish pack", "packed_by", "CP", "packer", "Ida", "room", "Kitchen");
  change_job (&under_way, WB_KIND_ORDER, "order", "delivered_on", "");
  stored = save (self->book, NULL, job);
  other = save (self->book, NULL, under_way);

  assert_moved (self,
                "USD 2026-03-11 Pip Larkspur OH>OR carton dish pack CP (null) (null) 1\n"
                "USD 2026-03-11 Pip Larkspur OH>OR carton dish pack CP Ida Kitchen 2\n"
                "USD 2026-03-11 Pip Larkspur OH>OR loose (null) unknown (null) Kitchen 1\n");

  g_assert_true (wb_book_remove_job (self->book, "a", wb_job_get_revision (stored), NULL, &error));
  g_assert_no_error (error);
  assert_moved (self, "");
}

static void
test_cancelled (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GString) rows = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_false (wb_book_scan_moved_pieces (self->book, append_row, rows, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

/* What somebody wrote behind the book's back is said, not counted. */
static void
test_damaged (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("a", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (GString) rows = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  tamper (self->path, "PRAGMA ignore_check_constraints = 1;"
                      "UPDATE piece SET form = 'sack' WHERE form = 'loose'");
  g_assert_false (wb_book_scan_moved_pieces (self->book, append_row, rows, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CORRUPT);
  assert_says (error, "piece");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add ("/moved/counted", Fixture, NULL, fixture_set_up, test_counted, fixture_tear_down);
  g_test_add ("/moved/cancelled", Fixture, NULL, fixture_set_up, test_cancelled,
              fixture_tear_down);
  g_test_add ("/moved/damaged", Fixture, NULL, fixture_set_up, test_damaged, fixture_tear_down);

  return g_test_run ();
}
