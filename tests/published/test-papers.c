/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published periods for which papers are kept, dates of storage in transit, and the codes of an
 * inventory, against what the program says of them. Each row names its source and how far that was
 * checked. */
#include "config.h"

#include <string.h>

#include "core/wb-mark.h"
#include "core/wb-retention.h"
#include "core/wb-storage-watch.h"

#define APPENDIX_A "49 CFR 379, Appendix A (2015), seen"

static GDate
date (const char *text)
{
  g_autoptr (GError) error = NULL;
  GDate out = { 0 };

  if (text != NULL && !wb_date_parse (text, &out, &error))
    g_error ("%s", error->message);
  return out;
}

static void
assert_date (const GDate *found,
             const char  *expected,
             const char  *title,
             const char  *source)
{
  g_autofree char *text = wb_date_to_text (found);

  if (!g_str_equal (text, expected))
    g_test_fail_printf ("%s: “%s”, expected “%s”; source: %s", title, text, expected, source);
}

/* --- how long papers are kept ----------------------------------------------------------------- */

static const struct
{
  WbPaperKind  kind;
  const char  *region;       /* NULL: between states */
  const char  *settled_on;   /* of a claim that the paper supports */
  const char  *until;        /* of a paper made on 4 March 2026 and signed on the 6th */
  const char  *source;
} kept[] = {
  { WB_PAPER_ESTIMATE, NULL, NULL, "2027-03-04", "49 CFR 375.403(c), 375.405(d) (2015), seen" },
  { WB_PAPER_BOOKLETS, NULL, NULL, "2027-03-06", "49 CFR 375.213 (2015), seen: signed receipt" },
  { WB_PAPER_BILL_OF_LADING, NULL, NULL, "2027-03-04", "49 CFR 375.505(d) (2015), seen" },
  { WB_PAPER_INVENTORY, NULL, NULL, "2027-03-04", "49 CFR 375.503(e), seen" },
  { WB_PAPER_INVENTORY, "PA", NULL, "2028-03-04", "52 Pa. Code 31.133, seen" },
  { WB_PAPER_DELAY_NOTICE, NULL, NULL, "2027-03-04", "49 CFR 375.605 (2015), seen" },
  { WB_PAPER_WEIGHT_TICKET, NULL, NULL, "2029-03-04", APPENDIX_A ": weighing, 3 years" },
  { WB_PAPER_FREIGHT_BILL, NULL, NULL, "2027-03-04", APPENDIX_A },
  { WB_PAPER_INVENTORY, NULL, "2026-09-30", "2027-09-30",
    APPENDIX_A ": claim registers and supporting data, 1 year after settlement" },
  { WB_PAPER_WEIGHT_TICKET, NULL, "2026-09-30", "2029-03-04", APPENDIX_A ": the later day" },
};

static void
test_kept (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kept); i++)
    {
      g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
      g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
      g_autoptr (WbJob) job = NULL;
      WbKeep keep;
      WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");
      WbPaper *paper = wb_record_new (WB_KIND_PAPER, "paper");
      g_autofree char *title = g_strdup_printf ("%s, row %" G_GSIZE_FORMAT,
                                                wb_enum_nick (&wb_paper_kinds, (int) kept[i].kind),
                                                i);

      order->move_type = kept[i].region != NULL ? WB_MOVE_INTRASTATE : WB_MOVE_INTERSTATE;
      wb_set_text (&order->region, kept[i].region);
      paper->kind = kept[i].kind;
      paper->made_on = date ("2026-03-04");
      paper->signed_on = date ("2026-03-06");
      g_ptr_array_add (records, order);
      g_ptr_array_add (records, paper);
      if (kept[i].settled_on != NULL)
        {
          WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "claim");

          claim->status = WB_CLAIM_SETTLED;
          claim->decided_on = date (kept[i].settled_on);
          g_ptr_array_add (records, claim);
        }
      job = wb_job_with_many (empty, records);
      keep = wb_keep_paper (job, paper);
      assert_date (&keep.until, kept[i].until, title, kept[i].source);
    }
}

/* --- storage in transit ----------------------------------------------------------------------- */

#define STORAGE "49 CFR 375.609 (2015), seen; days worked out"

static const struct
{
  const char *title;
  WbMoveType  move_type;
  gint64      days;
  const char *notice_on;
  const char *last_day;
  const char *notice_by;
  const char *liable_until;
  const char *claim_until;
  const char *source;
} stored[] = {
  { "90 days from 1 March 2026: notice 10 days before, nine months to claim", WB_MOVE_INTERSTATE,
    90, "2026-05-20", "2026-05-30", "2026-05-20", "2026-05-30", "2027-02-28", STORAGE },
  { "9 days: notice 1 day before", WB_MOVE_INTERSTATE, 9, NULL, "2026-03-10", "2026-03-09", "",
    "2026-12-10", STORAGE },
  { "10 days: notice 10 days before", WB_MOVE_INTERSTATE, 10, NULL, "2026-03-11", "2026-03-01", "",
    "2026-12-11", STORAGE },
  { "no notice until 2 June: liable to the end of the day after", WB_MOVE_INTERSTATE, 90,
    "2026-06-02", "2026-05-30", "2026-05-20", "2026-06-03", "2027-02-28", STORAGE },
  { "Department of Defense, nothing agreed: 90 days", WB_MOVE_MILITARY, 0, NULL, "2026-05-30",
    "2026-05-20", "", "2027-02-28", "32 CFR 842.37 (2015), seen; days worked out" },
};

static void
test_stored (void)
{
  const GDate today = date ("2026-03-02");

  for (gsize i = 0; i < G_N_ELEMENTS (stored); i++)
    {
      g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
      g_autoptr (WbOrder) order = wb_record_new (WB_KIND_ORDER, "order");
      g_autoptr (WbJob) job = NULL;
      g_autoptr (GError) error = NULL;
      WbStorageWatch watch;

      order->move_type = stored[i].move_type;
      order->storage_from = date ("2026-03-01");
      if (stored[i].days > 0)
        order->storage_days = stored[i].days;
      order->storage_notice_on = date (stored[i].notice_on);
      job = wb_job_with (empty, order);
      g_assert_true (wb_storage_watch (job, &today, &watch, &error));
      g_assert_no_error (error);
      assert_date (&watch.last_day, stored[i].last_day, stored[i].title, stored[i].source);
      assert_date (&watch.notice_by, stored[i].notice_by, stored[i].title, stored[i].source);
      assert_date (&watch.liable_until, stored[i].liable_until, stored[i].title, stored[i].source);
      assert_date (&watch.claim_until, stored[i].claim_until, stored[i].title, stored[i].source);
    }
}

/* --- codes of the inventory ------------------------------------------------------------------- */

/* DTEB reference table V_D_PPLB_HHGDI_EX_CD (seen): all 25, and no more. */
static const struct
{
  const char *code;
  const char *word;
} conditions[] = {
  { "BE", "bent" }, { "BR", "broken" }, { "BU", "burned" }, { "CH", "chipped" },
  { "CR", "crushed" }, { "CU", "contents and condition unknown" }, { "D", "dented" },
  { "F", "faded" }, { "G", "gouged" }, { "L", "loose" }, { "M", "marred" },
  { "MCU", "mechanical condition unknown" }, { "MI", "mildew" }, { "MO", "moth-eaten" },
  { "P", "peeling" }, { "R", "rubbed" }, { "RU", "rusted" }, { "S", "stretched" },
  { "SC", "scratched" }, { "SH", "short" }, { "SO", "soiled" }, { "ST", "stained" },
  { "T", "torn" }, { "W", "badly worn" }, { "Z", "cracked" },
};

/* No official table of places was found: 1 to 4 in a trade glossary (seen), the rest from
 * memory. */
static const char *const places[] = { "arm", "bottom", "corner", "front", "left", "leg", "rear",
                                      "right", "side", "top", "veneer", "edge", "center", "inside",
                                      "seat", "drawer", "door", "shelf", "hardware" };

static void
test_conditions (void)
{
  gsize n;
  const WbMarkCode *codes = wb_mark_conditions (&n);

  g_assert_cmpuint (n, ==, G_N_ELEMENTS (conditions));
  for (gsize i = 0; i < G_N_ELEMENTS (conditions); i++)
    {
      const WbMarkCode *found = NULL;

      for (gsize j = 0; j < n; j++)
        if (g_str_equal (codes[j].code, conditions[i].code))
          found = &codes[j];
      g_assert_nonnull (found);
      g_assert_cmpstr (found->word, ==, conditions[i].word);
    }
}

static void
test_places (void)
{
  gsize n;
  const WbMarkCode *codes = wb_mark_places (&n);

  g_assert_cmpuint (n, ==, G_N_ELEMENTS (places));
  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *number = g_strdup_printf ("%" G_GSIZE_FORMAT, i + 1);

      g_assert_cmpstr (codes[i].code, ==, number);
      g_assert_cmpstr (codes[i].word, ==, places[i]);
      g_assert_cmpstr (codes[i].source, ==, i < 4 ? "trade glossary" : "from memory");
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/published/papers/kept", test_kept);
  g_test_add_func ("/published/papers/stored", test_stored);
  g_test_add_func ("/published/papers/conditions", test_conditions);
  g_test_add_func ("/published/papers/places", test_places);
  return g_test_run ();
}
