/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Splitting a line by hand: what is refused and why, and what stands in the job afterwards. */
#include "config.h"

#include "core/wb-hand-split.h"

static char *
make_id (void)
{
  static guint n = 0;

  return g_strdup_printf ("share-%u", n++);
}

static WbJob *
make_job (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "c");
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");

  wb_set_text (&order->number, "J-1");
  g_ptr_array_add (records, order);
  wb_set_text (&claim->number, "C-1");
  g_ptr_array_add (records, claim);
  for (guint i = 1; i <= 2; i++)
    {
      g_autofree char *id = g_strdup_printf ("l%u", i);
      WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, id);

      wb_set_text (&line->claim, "c");
      line->number = i;
      g_ptr_array_add (records, line);
    }
  return wb_job_with_many (empty, records);
}

static const struct
{
  const char      *name;
  WbHandPart       parts[3];
  const char      *reason;
  WbHandSplitFault fault;
  gint64           total;
} cases[] = {
  { "good", { { "A", 6000 }, { "B", 4000 } }, "Agreed", WB_HAND_SPLIT_GOOD, 10000 },
  { "all-on-one", { { "A", 10000 }, { "B", 0 } }, "Agreed", WB_HAND_SPLIT_GOOD, 10000 },
  { "hundredths", { { "A", 3333 }, { "B", 3333 }, { "C", 3334 } }, "Agreed", WB_HAND_SPLIT_GOOD,
    10000 },
  { "less", { { "A", 6000 }, { "B", 3999 } }, "Agreed", WB_HAND_SPLIT_NOT_WHOLE, 9999 },
  { "more", { { "A", 6000 }, { "B", 4001 } }, "Agreed", WB_HAND_SPLIT_NOT_WHOLE, 10001 },
  { "nobody", { { "A", 0 } }, "Agreed", WB_HAND_SPLIT_NOBODY, 0 },
  { "negative", { { "A", 11000 }, { "B", -1000 } }, "Agreed", WB_HAND_SPLIT_OUT_OF_RANGE, 0 },
  { "twice", { { "A", 5000 }, { "a ", 5000 } }, "Agreed", WB_HAND_SPLIT_REPEATED, 10000 },
  { "no-reason", { { "A", 5000 }, { "B", 5000 } }, NULL, WB_HAND_SPLIT_NO_REASON, 10000 },
  { "blank-reason", { { "A", 5000 }, { "B", 5000 } }, "  \n", WB_HAND_SPLIT_NO_REASON, 10000 },
};

static void
test_check (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      guint n = 0;
      gint64 total = -1;

      while (n < G_N_ELEMENTS (cases[i].parts) && cases[i].parts[n].handler != NULL)
        n++;
      g_test_message ("%s", cases[i].name);
      g_assert_cmpint (wb_hand_split_check (cases[i].parts, n, cases[i].reason, &total), ==,
                       cases[i].fault);
      g_assert_cmpint (total, ==, cases[i].total);
    }
}

static void
test_set (void)
{
  const WbHandPart first[] = { { "A", 6000 }, { "B", 4000 }, { "C", 0 } };
  const WbHandPart second[] = { { "C", 10000 } };
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (WbJob) split = wb_hand_split_set (job, "l1", first, 3, "Both signed", make_id);
  g_autoptr (WbJob) other = wb_hand_split_set (split, "l2", first, 3, "Both signed", make_id);
  g_autoptr (WbJob) again = wb_hand_split_set (other, "l1", second, 1, "C wrote", make_id);
  g_autoptr (WbJob) back = NULL;
  g_autoptr (WbJob) whole = NULL;
  const WbShare *share;
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (wb_job_count (split, WB_KIND_SHARE), ==, 2);
  share = wb_job_nth (split, WB_KIND_SHARE, 1);
  g_assert_cmpstr (share->handler, ==, "B");
  g_assert_cmpint (share->percent, ==, 4000);
  g_assert_cmpstr (wb_hand_split_reason (split, "l1"), ==, "Both signed");
  g_assert_null (wb_hand_split_reason (split, "l2"));

  /* What was there goes, and the other line keeps its own. */
  g_assert_cmpuint (wb_job_count (again, WB_KIND_SHARE), ==, 3);
  g_assert_cmpstr (wb_hand_split_reason (again, "l1"), ==, "C wrote");
  wb_job_check (again, &error);
  g_assert_no_error (error);

  back = wb_hand_split_clear (again, "l1");
  g_assert_cmpuint (wb_job_count (back, WB_KIND_SHARE), ==, 2);
  g_assert_null (wb_hand_split_reason (back, "l1"));
  whole = wb_hand_split_clear (job, "l1");
  g_assert_true (whole == job);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/hand-split/check", test_check);
  g_test_add_func ("/core/hand-split/set", test_set);

  return g_test_run ();
}
