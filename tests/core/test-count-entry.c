/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-count-entry.h"

#include "core/wb-core.h"
#include "random-values.h"
#include "trail-fixture.h"

static char *
entry_to_text (const WbCountEntry *entry)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < entry->parts->len; i++)
    {
      const WbCountPart *part = g_ptr_array_index (entry->parts, i);
      g_autofree char *listed = wb_tag_ranges_to_text (part->listed);
      g_autofree char *strays = wb_tag_ranges_to_text (part->strays);

      g_string_append_printf (text, "%s%s: %s%s%s", i > 0 ? "; " : "",
                              part->lot != NULL ? part->lot->record.id : "-", listed,
                              *strays != '\0' ? " over " : "", strays);
    }
  return g_string_free (text, FALSE);
}

/* One lot of 40; the numbers need no lot. */
static const struct
{
  const char *text;
  const char *entry;
} one_lot[] = {
  { "", "" },
  { "7", "teal: 7" },
  { "1-40", "teal: 1-40" },
  { "1-3, 7, 2", "teal: 1-3, 7" },
  { "57", "teal:  over 57" },
  { "40, 41", "teal: 40 over 41" },
  { "teal 7", "teal: 7" },
  { "TEAL 7", "teal: 7" },
  { "teal/3107 7", "teal: 7" },
  { "3107-017", "teal: 17" },
  { "3107-57", "teal:  over 57" },
  { "teal 3107-017, teal 3107-018", "teal: 17-18" },
};

static void
test_one_lot (void)
{
  g_autoptr (WbJob) job = trail_job (40, 0);

  for (gsize i = 0; i < G_N_ELEMENTS (one_lot); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbCountEntry) entry = wb_count_entry_read (job, one_lot[i].text, &error);
      g_autofree char *text = NULL;

      g_assert_no_error (error);
      text = entry_to_text (entry);
      g_assert_cmpstr (text, ==, one_lot[i].entry);
    }
}

/* Teal has 1 to 40, amber 1 to 10. */
static const struct
{
  const char *text;
  const char *entry;
} two_lots[] = {
  { "11-40", "teal: 11-40" },
  { "teal 1-40; amber 7", "teal: 1-40; amber: 7" },
  { "amber 1-10, teal 2, amber 3", "amber: 1-10; teal: 2" },
  { "3108-9, 3107-9", "amber: 9; teal: 9" },
  { "amber 57", "amber:  over 57" },
  { "wainbook:tag?job=J-1&colour=amber&lot=3108&tag=7", "amber: 7" },
  { "wainbook:tag?job=J-1&lot=3107&tag=0007\n", "teal: 7" },
};

static void
test_two_lots (void)
{
  g_autoptr (WbJob) job = trail_job (40, 10);

  for (gsize i = 0; i < G_N_ELEMENTS (two_lots); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbCountEntry) entry = wb_count_entry_read (job, two_lots[i].text, &error);
      g_autofree char *text = NULL;

      g_assert_no_error (error);
      text = entry_to_text (entry);
      g_assert_cmpstr (text, ==, two_lots[i].entry);
    }
}

static const struct
{
  guint       n_teal;
  guint       n_amber;
  const char *text;
  const char *message;
} bad[] = {
  { 0, 0, "1", "The inventory has no pieces yet; enter them before counting" },
  { 40, 0, "9-3", "At character 1, the range goes down from 9 to 3; write 3-9" },
  { 40, 0, "1-41", "At character 1, 1-41 takes in numbers that no piece of teal 3107 has: 41; write "
                   "1-40, and each of the others by itself if it was there" },
  { 40, 0, "50-60", "At character 1, no piece of teal 3107 has a tag from 50 to 60; count overages "
                    "one by one" },
  { 40, 0, "blue 7", "There is no lot “blue”; the lots of the job are: teal 3107" },
  { 40, 10, "7", "At character 1, 7 may be of teal 3107 or of amber 3108; write the lot before it, "
                 "as in “teal 7”" },
  { 40, 10, "11, 5-20", "At character 5, 5 may be of teal 3107 or of amber 3108; write the lot "
                        "before it, as in “teal 5”" },
  { 40, 10, "57", "At character 1, no piece has the tag 57; to count it as an overage write its lot "
                  "before it, as in “teal 57”" },
  { 40, 0, "wainbook:tag?job=J-2&colour=teal&tag=7",
    "This tag belongs to job J-2, not to this one; it was not counted" },
  { 40, 0, "wainbook:tag?job=J-1&colour=pink&tag=7",
    "This tag is of a lot that the job does not have; its lots are: teal 3107" },
  { 40, 10, "wainbook:tag?job=J-1&tag=7",
    "At character 1, 7 may be of teal 3107 or of amber 3108; write the lot before it, as in “teal "
    "7”" },
  { 40, 10, "teal", "At character 1, no tag number stands behind “teal”" },
};

static void
test_bad (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (WbJob) job = trail_job (bad[i].n_teal, bad[i].n_amber);
      g_autoptr (GError) error = NULL;
      g_autoptr (WbCountEntry) entry = wb_count_entry_read (job, bad[i].text, &error);

      g_assert_null (entry);
      g_assert_true (error->domain == WB_CORE_ERROR);
      g_assert_cmpstr (error->message, ==, bad[i].message);
    }
}

static const struct
{
  const char *text;
  const char *piece;
  const char *marks;
} marks[] = {
  { "12 SC 4-8, BR 3", "t12", "SC 4-8, BR 3" },
  { " 12: sc4", "t12", "SC 4" },
  { "teal 7 MCU", "t7", "MCU" },
  { "teal/3107 7 MCU", "t7", "MCU" },
  { "3108-007 CH 3", "a7", "CH 3" },
  { "amber 3108-007 CH 3", "a7", "CH 3" },
};

static const struct
{
  const char *text;
  const char *message;
} bad_marks[] = {
  { "", "Write the tag number first, then the marks, as in “42 SC 4-8, BR 3”" },
  { "SC 4-8", "Write the tag number first, then the marks, as in “42 SC 4-8, BR 3”" },
  { "SC 4", "There is no lot “SC”; the lots of the job are: teal 3107, amber 3108" },
  { "12", "Write the marks behind the tag, as in “12 SC 4-8”" },
  { "12 XX", "At character 2, “XX” is not a condition code" },
  { "7 SC", "At character 1, 7 may be of teal 3107 or of amber 3108; write the lot before it, as in "
            "“teal 7”" },
  { "teal 77 SC", "No piece of the inventory has the tag 77" },
  { "0 SC", "Write the tag number first, then the marks, as in “42 SC 4-8, BR 3”" },
};

static void
test_marks (void)
{
  g_autoptr (WbJob) job = trail_job (40, 10);

  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    {
      const WbPiece *piece = NULL;
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      if (!wb_count_marks_read (job, marks[i].text, &piece, &text, &error))
        g_error ("%s", error->message);
      g_assert_cmpstr (piece->record.id, ==, marks[i].piece);
      g_assert_cmpstr (text, ==, marks[i].marks);
    }
}

static void
test_bad_marks (void)
{
  g_autoptr (WbJob) job = trail_job (40, 10);

  for (gsize i = 0; i < G_N_ELEMENTS (bad_marks); i++)
    {
      const WbPiece *piece = NULL;
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_false (wb_count_marks_read (job, bad_marks[i].text, &piece, &text, &error));
      g_assert_cmpstr (error->message, ==, bad_marks[i].message);
      g_assert_null (text);
    }
}

/* A tag on two lines is counted, but marks cannot say which is meant. */
static void
test_repeated_tag (void)
{
  g_autoptr (WbJob) job = trail_job (3, 0);
  g_autoptr (WbPiece) twin = wb_record_new (WB_KIND_PIECE, "twin");
  g_autoptr (WbJob) twins = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbCountEntry) entry = NULL;

  wb_set_text (&twin->lot, "teal");
  twin->tag = 2;
  twins = wb_job_with (job, twin);
  entry = wb_count_entry_read (twins, "2", &error);
  g_assert_no_error (error);
  g_assert_cmpint (entry->n_listed, ==, 1);
  g_assert_null (wb_count_find_piece (twins, "2", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
}

static void
test_rubbish (void)
{
  static const char *const pieces[] = { "7", "12", "40", "-", " ", ",", ";", "teal", "amber", "/",
                                        "3107", "SC", "4", "no lot", "\xff", ":", NULL };
  g_autoptr (WbJob) job = trail_job (40, 10);

  random_begin ();
  for (guint round = 0; round < 5000; round++)
    {
      g_autofree char *text = random_text (pieces, 9);
      g_autoptr (GError) error = NULL;
      g_autoptr (GError) marks_error = NULL;
      g_autoptr (WbCountEntry) entry = wb_count_entry_read (job, text, &error);
      const WbPiece *piece = NULL;
      g_autofree char *codes = NULL;
      gboolean good = wb_count_marks_read (job, text, &piece, &codes, &marks_error);

      g_assert_true ((entry != NULL) == (error == NULL));
      g_assert_true (good == (marks_error == NULL));
      g_assert_true (good == (piece != NULL && codes != NULL));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/count-entry/one-lot", test_one_lot);
  g_test_add_func ("/core/count-entry/two-lots", test_two_lots);
  g_test_add_func ("/core/count-entry/bad", test_bad);
  g_test_add_func ("/core/count-entry/marks", test_marks);
  g_test_add_func ("/core/count-entry/bad-marks", test_bad_marks);
  g_test_add_func ("/core/count-entry/repeated-tag", test_repeated_tag);
  g_test_add_func ("/core/count-entry/rubbish", test_rubbish);
  return g_test_run ();
}
