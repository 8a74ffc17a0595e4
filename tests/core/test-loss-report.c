/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Groups over the lines of finished claims: small ones by hand, and what must hold of all. */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-loss-report.h"

#include "random-values.h"

static void
set_date (GDate      *date,
          const char *text)
{
  g_assert_true (wb_date_parse (text, date, NULL));
}

/* --- by hand ---------------------------------------------------------------------------------- */

static WbLossLine *
add_line (GPtrArray  *lines,
          const char *claim,
          const char *packer,
          const char *closed_on,
          gint64      owed)
{
  WbLossLine *line = g_new0 (WbLossLine, 1);

  line->job_id = g_strconcat ("job-of-", claim, NULL);
  line->claim_id = g_strdup ("claim");
  line->claim_number = g_strdup (claim);
  line->line_id = g_strdup_printf ("line-%u", lines->len);
  line->piece_id = g_strdup ("piece");
  g_strlcpy (line->currency, "USD", sizeof line->currency);
  line->keys[WB_LOSS_BY_PACKER] = g_strdup (packer);
  if (closed_on != NULL)
    set_date (&line->closed_on, closed_on);
  line->reckoned = TRUE;
  line->owed = line->paid = owed;
  line->demanded = 2 * owed;
  g_ptr_array_add (lines, line);
  return line;
}

static void
add_moved (GPtrArray  *moved,
           const char *packer,
           const char *delivered_on,
           gint64      n)
{
  WbLossMoved *row = g_new0 (WbLossMoved, 1);

  g_strlcpy (row->currency, "USD", sizeof row->currency);
  row->keys[WB_LOSS_BY_PACKER] = g_strdup (packer);
  set_date (&row->delivered_on, delivered_on);
  row->n = n;
  g_ptr_array_add (moved, row);
}

static GPtrArray *
lines_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) wb_loss_line_free);
}

static GPtrArray *
moved_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) wb_loss_moved_free);
}

static WbLossReport *
report_of (GPtrArray  *lines,
           GPtrArray  *moved,
           WbLossBy    by,
           const char *from,
           const char *to)
{
  GDate first, last;
  g_autoptr (GError) error = NULL;
  WbLossReport *report;

  g_date_clear (&first, 1);
  g_date_clear (&last, 1);
  if (from != NULL)
    set_date (&first, from);
  if (to != NULL)
    set_date (&last, to);
  report = wb_loss_report (lines, moved, by, &first, &last, &error);
  g_assert_no_error (error);
  return report;
}

/* "KEY lines/claims/pieces owed moved", one group after another. */
static char *
groups_in_text (const WbLossReport *report)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < report->groups->len; i++)
    {
      const WbLossGroup *group = g_ptr_array_index (report->groups, i);

      g_string_append_printf (text, "%s%s %u/%u/%u %" G_GINT64_FORMAT " %" G_GINT64_FORMAT,
                              i > 0 ? "; " : "", group->key != NULL ? group->key : "-",
                              group->lines->len, group->n_claims, group->n_pieces, group->owed,
                              group->moved);
    }
  return g_string_free (text, FALSE);
}

static void
assert_groups (const WbLossReport *report,
               const char         *expected)
{
  g_autofree char *text = groups_in_text (report);

  g_assert_cmpstr (text, ==, expected);
}

/* What is written in another way is the same; what was not noted comes last; who packed without a
 * loss is there too. */
static void
test_groups (void)
{
  g_autoptr (GPtrArray) lines = lines_new ();
  g_autoptr (GPtrArray) moved = moved_new ();
  g_autoptr (WbLossReport) report = NULL;

  add_line (lines, "C-1", "Ida Holm", "2026-03-01", 100);
  add_line (lines, "C-1", "IDA  HOLM", "2026-03-01", 50);
  add_line (lines, "C-2", "ida holm.", "2026-03-02", 20);
  add_line (lines, "C-2", NULL, "2026-03-02", 900);
  add_line (lines, "C-3", "Tom Reed", "2026-03-03", 400);
  add_moved (moved, "Ida Holm", "2026-02-01", 60);
  add_moved (moved, "Una Frost", "2026-02-02", 30);

  report = report_of (lines, moved, WB_LOSS_BY_PACKER, NULL, NULL);
  assert_groups (report, "Tom Reed 1/1/1 400 0; IDA  HOLM 3/2/2 170 60; Una Frost 0/0/0 0 30; "
                         "- 1/1/1 900 0");
  g_assert_cmpuint (report->totals->len, ==, 1);
  g_assert_cmpint (((WbLossGroup *) g_ptr_array_index (report->totals, 0))->owed, ==, 1470);
}

static void
test_period (void)
{
  g_autoptr (GPtrArray) lines = lines_new ();
  g_autoptr (GPtrArray) moved = moved_new ();
  g_autoptr (WbLossReport) all = NULL;
  g_autoptr (WbLossReport) march = NULL;
  g_autoptr (WbLossReport) from_march = NULL;

  add_line (lines, "C-1", "A", "2026-02-28", 1);
  add_line (lines, "C-2", "A", "2026-03-01", 2);
  add_line (lines, "C-3", "A", "2026-03-31", 4);
  add_line (lines, "C-4", "A", "2026-04-01", 8);
  add_line (lines, "C-5", "A", NULL, 16);
  add_line (lines, "C-5", "A", NULL, 16);
  add_moved (moved, "A", "2026-03-15", 5);
  add_moved (moved, "A", "2026-04-15", 7);

  all = report_of (lines, moved, WB_LOSS_BY_PACKER, NULL, NULL);
  assert_groups (all, "A 6/5/5 47 12");
  g_assert_cmpuint (all->n_undated, ==, 0);
  march = report_of (lines, moved, WB_LOSS_BY_PACKER, "2026-03-01", "2026-03-31");
  assert_groups (march, "A 2/2/2 6 5");
  g_assert_cmpuint (march->n_undated, ==, 1);
  from_march = report_of (lines, moved, WB_LOSS_BY_PACKER, "2026-03-01", NULL);
  assert_groups (from_march, "A 3/3/3 14 12");
}

/* The owner's own sign never falls in with a name. */
static void
test_own_keys (void)
{
  g_autoptr (GPtrArray) lines = lines_new ();
  g_autoptr (GPtrArray) moved = moved_new ();
  g_autoptr (WbLossReport) report = NULL;

  add_line (lines, "C-1", WB_LOSS_KEY_OWNER, "2026-03-01", 2);
  add_line (lines, "C-2", "Owner", "2026-03-01", 1);
  report = report_of (lines, moved, WB_LOSS_BY_PACKER, NULL, NULL);
  assert_groups (report, "@owner 1/1/1 2 0; Owner 1/1/1 1 0");
}

/* A line that two bear is in the group of each, with its part. */
static void
test_handlers (void)
{
  g_autoptr (GPtrArray) lines = lines_new ();
  g_autoptr (GPtrArray) moved = moved_new ();
  g_autoptr (WbLossReport) report = NULL;
  WbLossLine *line = add_line (lines, "C-1", NULL, "2026-03-01", 100);

  line->n_handlers = 2;
  line->handlers = g_new0 (char *, 2);
  line->handlers[0] = g_strdup ("Hauler");
  line->handlers[1] = g_strdup ("Warehouse");
  line->parts = g_new0 (gint64, 2);
  line->parts[0] = 67;
  line->parts[1] = 33;
  add_line (lines, "C-2", NULL, "2026-03-01", 0);

  report = report_of (lines, moved, WB_LOSS_BY_HANDLER, NULL, NULL);
  g_assert_cmpuint (report->groups->len, ==, 3);
  g_assert_cmpint (((WbLossGroup *) g_ptr_array_index (report->groups, 0))->demanded, ==, 134);
  g_assert_cmpint (((WbLossGroup *) g_ptr_array_index (report->groups, 1))->paid, ==, 33);
  g_assert_null (((WbLossGroup *) g_ptr_array_index (report->groups, 2))->key);
  g_assert_cmpint (((WbLossGroup *) g_ptr_array_index (report->groups, 0))->moved, ==,
                   WB_INTEGER_UNSET);
}

static void
test_rates (void)
{
  WbLossGroup group = { .n_pieces = 1, .owed = 1050, .moved = 19 };
  gint64 out = -1;

  g_assert_false (wb_loss_group_rate (&group, &out));
  g_assert_false (wb_loss_group_cost (&group, &out));
  g_assert_cmpint (out, ==, -1);
  group.moved = 20;
  g_assert_true (wb_loss_group_rate (&group, &out));
  g_assert_cmpint (out, ==, 500);
  g_assert_true (wb_loss_group_cost (&group, &out));
  g_assert_cmpint (out, ==, 5250);
  group.moved = WB_INTEGER_UNSET;
  g_assert_false (wb_loss_group_rate (&group, &out));
  group.moved = 30;
  g_assert_true (wb_loss_group_rate (&group, &out));
  g_assert_cmpint (out, ==, 333);
}

static void
test_overflow (void)
{
  g_autoptr (GPtrArray) lines = lines_new ();
  g_autoptr (GPtrArray) moved = moved_new ();
  g_autoptr (GError) error = NULL;

  add_line (lines, "C-1", "A", NULL, 1)->owed = G_MAXINT64;
  add_line (lines, "C-2", "B", NULL, 1);
  g_assert_null (wb_loss_report (lines, moved, WB_LOSS_BY_PACKER, NULL, NULL, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
}

static void
test_nothing (void)
{
  g_autoptr (GPtrArray) lines = lines_new ();
  g_autoptr (GPtrArray) moved = moved_new ();
  g_autoptr (WbLossReport) report = report_of (lines, moved, WB_LOSS_BY_CAUSE, NULL, NULL);

  g_assert_cmpuint (report->groups->len, ==, 0);
  g_assert_cmpuint (report->totals->len, ==, 0);
}

/* --- keys ------------------------------------------------------------------------------------- */

static void
assert_keys (WbForm      form,
             const char *carton,
             WbPackedBy  packed_by,
             const char *packer,
             const char *expected)
{
  char *keys[WB_N_LOSS_BY] = { NULL };
  g_autofree char *text = NULL;

  wb_loss_keys_of_piece (NULL, form, carton, packed_by, packer, " Kitchen ", keys);
  g_assert_cmpstr (keys[WB_LOSS_BY_ROOM], ==, "Kitchen");
  text = g_strdup_printf ("%s %s %s",
                          keys[WB_LOSS_BY_CARTON] != NULL ? keys[WB_LOSS_BY_CARTON] : "-",
                          keys[WB_LOSS_BY_PACKED_BY] != NULL ? keys[WB_LOSS_BY_PACKED_BY] : "-",
                          keys[WB_LOSS_BY_PACKER] != NULL ? keys[WB_LOSS_BY_PACKER] : "-");
  g_assert_cmpstr (text, ==, expected);
  for (int by = 0; by < WB_N_LOSS_BY; by++)
    g_free (keys[by]);
}

static void
test_keys (void)
{
  g_autofree char *lane = wb_loss_lane ("OH ", "TX");
  const char *carrier = wb_enum_nick (&wb_packed_by, WB_PACKED_BY_CARRIER);
  const char *owner = wb_enum_nick (&wb_packed_by, WB_PACKED_BY_OWNER);
  g_autofree char *by_carrier = g_strconcat ("dish pack ", carrier, " Ida", NULL);
  g_autofree char *by_owner = g_strconcat ("@loose ", owner, " @owner", NULL);

  g_assert_cmpstr (lane, ==, "OH>TX");
  g_assert_null (wb_loss_lane ("OH", " "));
  g_assert_null (wb_loss_lane (NULL, "TX"));
  assert_keys (WB_FORM_CARTON, "dish pack", WB_PACKED_BY_CARRIER, "Ida", by_carrier);
  assert_keys (WB_FORM_LOOSE, "dish pack", WB_PACKED_BY_OWNER, "Ida", by_owner);
  assert_keys (WB_FORM_CRATE, NULL, WB_PACKED_UNKNOWN, " ", "@crate - -");
  assert_keys (WB_FORM_CARTON, "", WB_PACKED_UNKNOWN, NULL, "- - -");
}

/* --- what must hold of all -------------------------------------------------------------------- */

static char *
random_key (void)
{
  static const char *const words[] = { "Ida", "ida", "Tom", "TOM ", "@loose", "loose", "é", "É",
                                       "??", "!" };
  gint which = g_test_rand_int_range (0, (gint) G_N_ELEMENTS (words) + 2);

  return which < (gint) G_N_ELEMENTS (words) ? g_strdup (words[which]) : NULL;
}

static void
random_day (GDate *date)
{
  g_date_clear (date, 1);
  if (g_test_rand_int_range (0, 5) > 0)
    g_date_set_julian (date, (guint32) g_test_rand_int_range (739000, 739040));
}

static void
random_shares (WbLossLine *line)
{
  gint64 left = line->owed;

  line->handlers = g_new0 (char *, 3);
  line->parts = g_new0 (gint64, 3);
  while (left > 0 && line->n_handlers < 3)
    {
      gint64 part = line->n_handlers == 2 ? left : 1 + random_natural (left - 1);

      line->handlers[line->n_handlers] = g_strdup_printf ("handler %u", line->n_handlers);
      line->parts[line->n_handlers++] = part;
      left -= part;
    }
}

static GPtrArray *
random_lines (void)
{
  GPtrArray *lines = lines_new ();

  for (gint i = g_test_rand_int_range (0, 40); i > 0; i--)
    {
      g_autofree char *claim = g_strdup_printf ("C-%d", g_test_rand_int_range (0, 10));
      WbLossLine *line = add_line (lines, claim, NULL, NULL, random_natural (1000000));

      if (g_test_rand_bit ())
        g_strlcpy (line->currency, "EUR", sizeof line->currency);
      random_day (&line->closed_on);
      line->paid = random_natural (1000000);
      line->demanded = random_natural (1000000);
      g_clear_pointer (&line->keys[WB_LOSS_BY_PACKER], g_free);
      for (int by = 0; by < WB_N_LOSS_BY; by++)
        if (by != WB_LOSS_BY_HANDLER)
          line->keys[by] = random_key ();
      random_shares (line);
    }
  return lines;
}

static GPtrArray *
random_moved (void)
{
  GPtrArray *moved = moved_new ();

  for (gint i = g_test_rand_int_range (0, 20); i > 0; i--)
    {
      add_moved (moved, NULL, "2026-03-01", random_natural (1000));
      for (int by = 0; by < WB_N_LOSS_BY; by++)
        ((WbLossMoved *) g_ptr_array_index (moved, moved->len - 1))->keys[by] = random_key ();
      g_date_set_julian (&((WbLossMoved *) g_ptr_array_index (moved, moved->len - 1))->delivered_on,
                         (guint32) g_test_rand_int_range (739000, 739040));
    }
  return moved;
}

static void
shuffle (GPtrArray *array)
{
  for (guint i = array->len; i > 1; i--)
    {
      guint other = (guint) g_test_rand_int_range (0, (gint32) i);
      gpointer held = array->pdata[i - 1];

      array->pdata[i - 1] = array->pdata[other];
      array->pdata[other] = held;
    }
}

/* Groups add up to the total of their currency: money always, lines and pieces moved unless a line
 * is borne by several. */
static void
assert_adds_up (const WbLossReport *report)
{
  for (guint i = 0; i < report->totals->len; i++)
    {
      const WbLossGroup *total = g_ptr_array_index (report->totals, i);
      gint64 demanded = 0, owed = 0, paid = 0, moved = 0;
      guint n_lines = 0;

      for (guint k = 0; k < report->groups->len; k++)
        {
          const WbLossGroup *group = g_ptr_array_index (report->groups, k);

          if (!g_str_equal (group->currency, total->currency))
            continue;
          demanded += group->demanded;
          owed += group->owed;
          paid += group->paid;
          n_lines += group->lines->len;
          moved += wb_loss_by_has_moved (report->by) ? group->moved : 0;
        }
      g_assert_cmpint (demanded, ==, total->demanded);
      g_assert_cmpint (owed, ==, total->owed);
      g_assert_cmpint (paid, ==, total->paid);
      g_assert_cmpint (moved, ==, wb_loss_by_has_moved (report->by) ? total->moved : 0);
      if (report->by == WB_LOSS_BY_HANDLER)
        g_assert_cmpuint (n_lines, >=, total->lines->len);
      else
        g_assert_cmpuint (n_lines, ==, total->lines->len);
    }
}

static void
test_adds_up (void)
{
  random_begin ();
  for (int i = 0; i < 400; i++)
    {
      g_autoptr (GPtrArray) lines = random_lines ();
      g_autoptr (GPtrArray) moved = random_moved ();
      GDate from, to;

      random_day (&from);
      random_day (&to);
      for (int by = 0; by < WB_N_LOSS_BY; by++)
        {
          g_autoptr (GError) error = NULL;
          g_autoptr (WbLossReport) report = wb_loss_report (lines, moved, (WbLossBy) by, &from, &to,
                                                            &error);

          g_assert_no_error (error);
          assert_adds_up (report);
        }
    }
}

static void
test_order (void)
{
  random_begin ();
  for (int i = 0; i < 400; i++)
    {
      g_autoptr (GPtrArray) lines = random_lines ();
      g_autoptr (GPtrArray) moved = random_moved ();
      WbLossBy by = (WbLossBy) g_test_rand_int_range (0, WB_N_LOSS_BY);
      g_autoptr (WbLossReport) one = report_of (lines, moved, by, NULL, NULL);
      g_autofree char *before = groups_in_text (one);
      g_autoptr (WbLossReport) other = NULL;

      shuffle (lines);
      shuffle (moved);
      other = report_of (lines, moved, by, NULL, NULL);
      assert_groups (other, before);
      for (guint k = 0; k < one->groups->len; k++)
        {
          const WbLossGroup *a = g_ptr_array_index (one->groups, k);
          const WbLossGroup *b = g_ptr_array_index (other->groups, k);

          for (guint n = 0; n < a->lines->len; n++)
            g_assert_true (g_ptr_array_index (a->lines, n) == g_ptr_array_index (b->lines, n));
        }
    }
}

/* A period and what lies before and after it make the whole. */
static void
test_periods_add_up (void)
{
  random_begin ();
  for (int i = 0; i < 200; i++)
    {
      g_autoptr (GPtrArray) lines = random_lines ();
      g_autoptr (GPtrArray) moved = moved_new ();
      guint n_dated = 0, n = 0;
      static const char *const bounds[][2] = {
        { NULL, "2024-04-25" }, { "2024-04-26", "2024-05-05" }, { "2024-05-06", NULL } };

      for (guint k = 0; k < lines->len; k++)
        n_dated += wb_date_is_set (&((WbLossLine *) g_ptr_array_index (lines, k))->closed_on);
      for (gsize k = 0; k < G_N_ELEMENTS (bounds); k++)
        {
          g_autoptr (WbLossReport) part = report_of (lines, moved, WB_LOSS_BY_ROOM, bounds[k][0],
                                                     bounds[k][1]);

          for (guint g = 0; g < part->totals->len; g++)
            n += ((WbLossGroup *) g_ptr_array_index (part->totals, g))->lines->len;
        }
      g_assert_cmpuint (n, ==, n_dated);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/loss-report/groups", test_groups);
  g_test_add_func ("/loss-report/period", test_period);
  g_test_add_func ("/loss-report/own-keys", test_own_keys);
  g_test_add_func ("/loss-report/handlers", test_handlers);
  g_test_add_func ("/loss-report/rates", test_rates);
  g_test_add_func ("/loss-report/overflow", test_overflow);
  g_test_add_func ("/loss-report/nothing", test_nothing);
  g_test_add_func ("/loss-report/keys", test_keys);
  g_test_add_func ("/loss-report/adds-up", test_adds_up);
  g_test_add_func ("/loss-report/order", test_order);
  g_test_add_func ("/loss-report/periods-add-up", test_periods_add_up);

  return g_test_run ();
}
