/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What makes the record of a photo well formed, and which photos show a piece. */
#include "config.h"

#include "core/wb-photo.h"

#include "core/wb-core.h"

#define HASH "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"

static void
test_hash (void)
{
  static const char *const bad[] = {
    "", "9f86", "../../etc/passwd",
    "9F86D081884C7D659A2FEAA0C55AD015A3BF4F1B2B0B822CD15D6C15B0F00A08",
    "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a0",
    HASH "0", HASH "/", " " HASH,
    "../6d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08",
    "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a0g",
  };

  g_assert_true (wb_photo_hash_is_valid (HASH));
  g_assert_false (wb_photo_hash_is_valid (NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_test_message ("“%s”", bad[i]);
      g_assert_false (wb_photo_hash_is_valid (bad[i]));
    }
}

static void
test_time (void)
{
  static const char *const good[] = {
    "2026-03-04T09:30:00", "1900-01-01T00:00:00", "2024-02-29T23:59:59",
  };
  static const char *const bad[] = {
    "", "0000-00-00T00:00:00", "2023-02-30T10:00:00", "2023-02-29T10:00:00", "2023-13-01T10:00:00",
    "2026-03-04T24:00:00", "2026-03-04T09:60:00", "2026-03-04T09:30:60", "2026-03-04 09:30:00",
    "2026:03:04T09:30:00", "2026-03-04T09:30", "2026-03-04T09:30:00Z", "1899-12-31T00:00:00",
    "    -03-04T09:30:00",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autofree char *utc = g_strconcat (good[i], "Z", NULL);

      g_assert_true (wb_photo_time_is_valid (good[i], FALSE));
      g_assert_true (wb_photo_time_is_valid (utc, TRUE));
      g_assert_false (wb_photo_time_is_valid (good[i], TRUE));
    }
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_test_message ("“%s”", bad[i]);
      g_assert_false (wb_photo_time_is_valid (bad[i], FALSE));
    }
  g_assert_false (wb_photo_time_is_valid (NULL, FALSE));
}

static void
test_offset (void)
{
  static const char *const good[] = { "+00:00", "-00:00", "+02:00", "-03:30", "+14:00", "+05:45" };
  static const char *const bad[] = { "", "Z", "02:00", "+2:00", "+14:01", "+01:60", "+0200", "±01:00" };

  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    g_assert_true (wb_photo_offset_is_valid (good[i]));
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_test_message ("“%s”", bad[i]);
      g_assert_false (wb_photo_offset_is_valid (bad[i]));
    }
}

/* A job with a bad photo is refused, and the message says where it is. */
static void
test_check (void)
{
  static const struct
  {
    const char *field;
    const char *text;
  } bad[] = {
    { "hash", "../../../../../../../../../../../../../../../../../../etc/passwd" },
    { "orientation", "0" },
    { "taken_at", "2023-02-30T10:00:00" },
    { "taken_offset", "+25:00" },
    { "imported_at", "2026-03-05T08:00:00" },
  };
  g_autoptr (WbJob) empty = wb_job_new ("j", "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (empty));
  g_autoptr (WbPhoto) good = wb_record_new (WB_KIND_PHOTO, "p");
  g_autoptr (WbJob) numbered = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;

  wb_set_text (&good->hash, HASH);
  wb_set_text (&good->taken_at, "2026-03-04T09:30:00");
  wb_set_text (&good->taken_offset, "+02:00");
  wb_set_text (&good->imported_at, "2026-03-05T08:00:00Z");
  good->orientation = 6;
  wb_set_text (&order->number, "J-1");
  numbered = wb_job_with (empty, order);
  job = wb_job_with (numbered, good);
  g_assert_true (wb_job_check (job, &error));
  g_assert_no_error (error);

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (WbPhoto) photo = wb_record_copy (good);
      g_autoptr (WbJob) with = NULL;
      g_autofree char *place = g_strdup_printf ("photo p, %s: ", bad[i].field);
      const WbField *field = wb_record_type_field (wb_record_type (WB_KIND_PHOTO), bad[i].field);

      g_assert_true (wb_record_set_text (photo, field, bad[i].text, "USD", &error));
      with = wb_job_with (numbered, photo);
      g_assert_false (wb_job_check (with, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
      g_assert_true (g_str_has_prefix (error->message, place));
      g_clear_error (&error);
    }
}

static void
test_turned (void)
{
  for (gint64 orientation = 1; orientation <= 8; orientation++)
    g_assert_cmpint (wb_photo_is_turned (orientation), ==, orientation >= 5);
  g_assert_false (wb_photo_is_turned (WB_INTEGER_UNSET));
}

/* One photo of the piece itself, one where only a pin names it; two pins are still one photo. */
static void
test_of_piece (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("j", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;

  g_ptr_array_add (records, wb_record_new (WB_KIND_PIECE, "chair"));
  g_ptr_array_add (records, wb_record_new (WB_KIND_PIECE, "table"));
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *id = g_strdup_printf ("photo-%u", i);
      g_autofree char *hash = g_compute_checksum_for_string (G_CHECKSUM_SHA256, id, -1);
      WbPhoto *photo = wb_record_new (WB_KIND_PHOTO, id);

      wb_set_text (&photo->hash, hash);
      wb_set_text (&photo->piece, i == 0 ? "chair" : "table");
      g_ptr_array_add (records, photo);
    }
  for (guint i = 0; i < 2; i++)
    {
      WbPin *pin = wb_record_new (WB_KIND_PIN, i == 0 ? "pin-0" : "pin-1");

      wb_set_text (&pin->photo, "photo-1");
      wb_set_text (&pin->piece, "chair");
      g_ptr_array_add (records, pin);
    }
  job = wb_job_with_many (empty, records);

  g_assert_cmpuint (wb_photo_count_of_piece (job, "chair"), ==, 2);
  g_assert_cmpuint (wb_photo_count_of_piece (job, "table"), ==, 2);
  g_assert_true (wb_photo_shows_piece (job, wb_job_find (job, WB_KIND_PHOTO, "photo-1"), "chair"));
  g_assert_false (wb_photo_shows_piece (job, wb_job_find (job, WB_KIND_PHOTO, "photo-2"), "chair"));
  g_assert_true (wb_photo_with_hash (job, ((const WbPhoto *) wb_job_nth (job, WB_KIND_PHOTO, 2))->hash)
                 == wb_job_nth (job, WB_KIND_PHOTO, 2));
  g_assert_null (wb_photo_with_hash (job, HASH));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/photo/hash", test_hash);
  g_test_add_func ("/core/photo/time", test_time);
  g_test_add_func ("/core/photo/offset", test_offset);
  g_test_add_func ("/core/photo/check", test_check);
  g_test_add_func ("/core/photo/turned", test_turned);
  g_test_add_func ("/core/photo/of-piece", test_of_piece);

  return g_test_run ();
}
