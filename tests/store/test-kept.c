/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Documents that the book keeps: they come back as they were, or not at all. */
#include "config.h"

#include "book-fixture.h"
#include "store/wb-book-private.h"

#include <string.h>

static GPtrArray *
documents (const char *first,
           const char *second)
{
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);

  g_ptr_array_add (list, g_bytes_new (first, strlen (first)));
  g_ptr_array_add (list, g_bytes_new (second, strlen (second)));
  return list;
}

static void
test_round_trip (Fixture       *self,
                 gconstpointer  data)
{
  g_autoptr (GPtrArray) list = documents ("abc", "");
  g_autoptr (GPtrArray) hashes = NULL;
  g_autoptr (GPtrArray) again = NULL;
  g_autoptr (GError) error = NULL;

  hashes = wb_book_keep_documents (self->book, list, NULL, &error);
  g_assert_no_error (error);
  /* FIPS 180-2, appendix B.1, and the digest of nothing. */
  g_assert_cmpstr (hashes->pdata[0], ==,
                   "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  g_assert_cmpstr (hashes->pdata[1], ==,
                   "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  again = wb_book_keep_documents (self->book, list, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM kept_document"), ==, 2);

  fixture_reopen (self);
  for (guint i = 0; i < list->len; i++)
    {
      g_autoptr (GBytes) document = wb_book_read_document (self->book, hashes->pdata[i], NULL,
                                                           &error);

      g_assert_no_error (error);
      g_assert_true (g_bytes_equal (document, list->pdata[i]));
    }
}

static void
test_absent (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_book_read_document (self->book, "../../etc/passwd", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
}

/* Somebody put another document, or no document at all, in its place. */
static void
test_tampered (Fixture       *self,
               gconstpointer  data)
{
  g_autoptr (GPtrArray) list = documents ("paid 10.00", "paid 99.00");
  g_autoptr (GPtrArray) hashes = wb_book_keep_documents (self->book, list, NULL, NULL);
  static const char *const packed[] = {
    "(SELECT packed FROM kept_document WHERE hash <> ?)",
    "x'789c030000000001'",
    "x'00'",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (packed); i++)
    {
      const char *hash = hashes->pdata[0];
      g_autoptr (GString) sql = g_string_new (NULL);
      g_autofree char *quoted = g_strdup_printf ("'%s'", hash);
      g_autoptr (GError) error = NULL;

      g_string_printf (sql, "UPDATE kept_document SET packed = %s WHERE hash = ?", packed[i]);
      g_string_replace (sql, "?", quoted, 0);
      tamper (self->path, sql->str);
      g_assert_null (wb_book_read_document (self->book, hash, NULL, &error));
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CORRUPT);
      assert_says (error, hash);
    }
}

#define ADD(path, function) \
  g_test_add ("/store/kept/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("round-trip", test_round_trip);
  ADD ("absent", test_absent);
  ADD ("tampered", test_tampered);
  return g_test_run ();
}
