/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hashes by whatever the processor has, and beside the work, against GLib's. */
#include "config.h"

#include "share/wb-hasher.h"
#include "share/wb-sha256.h"

#include <string.h>

static void
test_known (void)
{
  /* FIPS 180-4 has them as examples. */
  static const struct { const char *text, *hash; } rows[] = {
    { "", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855" },
    { "abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" },
    { "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (WbSha256) hash = wb_sha256_new ();
      g_autoptr (WbSha256) plain = wb_sha256_new_plain ();

      wb_sha256_update (hash, (const guint8 *) rows[i].text, strlen (rows[i].text));
      wb_sha256_update (plain, (const guint8 *) rows[i].text, strlen (rows[i].text));
      g_assert_cmpstr (wb_sha256_finish (hash), ==, rows[i].hash);
      g_assert_cmpstr (wb_sha256_finish (hash), ==, rows[i].hash);
      g_assert_cmpstr (wb_sha256_finish (plain), ==, rows[i].hash);
    }
}

static guint8 *
random_bytes (gsize length)
{
  guint8 *bytes = g_malloc (length);

  for (gsize i = 0; i < length; i++)
    bytes[i] = (guint8) g_test_rand_int ();
  return bytes;
}

/* Every length over several blocks, so each way to end one. */
static void
test_every_length (void)
{
  g_autofree guint8 *bytes = random_bytes (300);

  for (gsize length = 0; length <= 300; length++)
    {
      g_autofree char *wanted = g_compute_checksum_for_data (G_CHECKSUM_SHA256, bytes, length);
      g_autoptr (WbSha256) hash = wb_sha256_new ();

      wb_sha256_update (hash, bytes, length);
      g_assert_cmpstr (wb_sha256_finish (hash), ==, wanted);
    }
}

/* The same in pieces of chance, also of none, also through a thread. */
static void
test_pieces (void)
{
  const gsize length = 3000000;
  g_autofree guint8 *bytes = random_bytes (length);
  g_autofree char *wanted = g_compute_checksum_for_data (G_CHECKSUM_SHA256, bytes, length);

  for (int round = 0; round < 20; round++)
    {
      g_autoptr (WbSha256) hash = wb_sha256_new ();
      g_autoptr (WbHasher) hasher = wb_hasher_new (round % 2 == 0 ? (gint64) length : 0);
      gint32 most = round < 10 ? 200 : 700000;

      for (gsize at = 0, piece; at < length; at += piece)
        {
          piece = (gsize) g_test_rand_int_range (0, most);
          piece = MIN (piece, length - at);
          wb_sha256_update (hash, bytes + at, piece);
          wb_hasher_update (hasher, bytes + at, piece);
        }
      g_assert_cmpstr (wb_sha256_finish (hash), ==, wanted);
      g_assert_cmpstr (wb_hasher_finish (hasher), ==, wanted);
    }
}

/* A hash that nobody asks for is given up, with the thread at any point. */
static void
test_given_up (void)
{
  g_autofree guint8 *bytes = random_bytes (2000000);

  for (int round = 0; round < 50; round++)
    {
      g_autoptr (WbHasher) hasher = wb_hasher_new (2000000);

      wb_hasher_update (hasher, bytes, (gsize) g_test_rand_int_range (0, 2000000));
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/sha256/known", test_known);
  g_test_add_func ("/share/sha256/every-length", test_every_length);
  g_test_add_func ("/share/sha256/pieces", test_pieces);
  g_test_add_func ("/share/hasher/given-up", test_given_up);
  return g_test_run ();
}
