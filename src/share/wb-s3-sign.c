/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The four steps of a signature, in the order of the description: the canonical request, the string
 * to sign, the signing key, the signature. */
#include "config.h"

#include "share/wb-s3-sign.h"

#include <string.h>

#define ALGORITHM "AWS4-HMAC-SHA256"
#define KEY_BYTES 32

char *
wb_s3_stamp (gint64 at)
{
  g_autoptr (GDateTime) when = g_date_time_new_from_unix_utc (at);

  return when != NULL ? g_date_time_format (when, "%Y%m%dT%H%M%SZ") : NULL;
}

char *
wb_s3_encode (const char *text,
              gboolean    keep_slashes)
{
  static const char digits[] = "0123456789ABCDEF";
  GString *encoded = g_string_new (NULL);

  for (const guint8 *byte = (const guint8 *) text; *byte != 0; byte++)
    {
      if (g_ascii_isalnum (*byte) || strchr ("-._~", *byte) != NULL ||
          (keep_slashes && *byte == '/'))
        {
          g_string_append_c (encoded, (char) *byte);
        }
      else
        {
          g_string_append_c (encoded, '%');
          g_string_append_c (encoded, digits[*byte >> 4]);
          g_string_append_c (encoded, digits[*byte & 15]);
        }
    }
  return g_string_free (encoded, FALSE);
}

/* --- the canonical request -------------------------------------------------------------------- */

/* WbS3Pair with texts of its own */
typedef struct
{
  char *name;
  char *value;
} OwnPair;

static void
own_pair_clear (gpointer data)
{
  OwnPair *pair = data;

  g_free (pair->name);
  g_free (pair->value);
}

/* For names that are alike, by value: what a query has to be sorted by. */
static int
compare_query (gconstpointer a,
               gconstpointer b)
{
  const OwnPair *left = a, *right = b;
  int order = strcmp (left->name, right->name);

  return order != 0 ? order : strcmp (left->value, right->value);
}

/* Headers that are alike keep their order; g_array_sort() is stable. */
static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  const OwnPair *left = a, *right = b;

  return strcmp (left->name, right->name);
}

static GArray *
own_pairs_new (gsize count)
{
  GArray *pairs = g_array_sized_new (FALSE, FALSE, sizeof (OwnPair), (guint) count);

  g_array_set_clear_func (pairs, own_pair_clear);
  return pairs;
}

char *
wb_s3_query (const WbS3Pair *query,
             gsize           n_query)
{
  g_autoptr (GArray) pairs = own_pairs_new (n_query);
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < n_query; i++)
    {
      OwnPair pair = { wb_s3_encode (query[i].name, FALSE), wb_s3_encode (query[i].value, FALSE) };

      g_array_append_val (pairs, pair);
    }
  g_array_sort (pairs, compare_query);
  for (guint i = 0; i < pairs->len; i++)
    {
      const OwnPair *pair = &g_array_index (pairs, OwnPair, i);

      g_string_append_printf (text, "%s%s=%s", i > 0 ? "&" : "", pair->name, pair->value);
    }
  return g_string_free (text, FALSE);
}

/* Without white space at its ends, and with one blank for several within. */
static char *
canonical_value (const char *value)
{
  g_auto (GStrv) words = g_strsplit_set (value, " \t\r\n", -1);
  GString *text = g_string_new (NULL);

  for (guint i = 0; words[i] != NULL; i++)
    {
      if (words[i][0] == '\0')
        continue;
      if (text->len > 0)
        g_string_append_c (text, ' ');
      g_string_append (text, words[i]);
    }
  return g_string_free (text, FALSE);
}

/* The headers, one a line, and their names joined by ";". */
static void
canonical_headers (const WbS3Request  *request,
                   char              **lines,
                   char              **names)
{
  g_autoptr (GArray) pairs = own_pairs_new (request->n_headers);
  GString *all = g_string_new (NULL), *signed_names = g_string_new (NULL);

  for (gsize i = 0; i < request->n_headers; i++)
    {
      OwnPair pair = { g_ascii_strdown (request->headers[i].name, -1),
                       canonical_value (request->headers[i].value) };

      g_array_append_val (pairs, pair);
    }
  g_array_sort (pairs, compare_names);
  for (guint i = 0; i < pairs->len; i++)
    {
      const OwnPair *pair = &g_array_index (pairs, OwnPair, i);

      if (i > 0 && g_str_equal (pair->name, g_array_index (pairs, OwnPair, i - 1).name))
        {
          g_string_truncate (all, all->len - 1);
          g_string_append_printf (all, ",%s\n", pair->value);
          continue;
        }
      g_string_append_printf (all, "%s:%s\n", pair->name, pair->value);
      g_string_append_printf (signed_names, "%s%s", i > 0 ? ";" : "", pair->name);
    }
  *lines = g_string_free (all, FALSE);
  *names = g_string_free (signed_names, FALSE);
}

char *
wb_s3_canonical_request (const WbS3Request *request)
{
  g_autofree char *query = wb_s3_query (request->query, request->n_query);
  g_autofree char *lines = NULL;
  g_autofree char *names = NULL;

  canonical_headers (request, &lines, &names);
  return g_strdup_printf ("%s\n%s\n%s\n%s\n%s\n%s", request->method, request->path, query, lines,
                          names, request->payload_sha256);
}

/* --- the signature ---------------------------------------------------------------------------- */

/* @key becomes the HMAC of @text under the key that it was. */
static void
derive (guint8      key[KEY_BYTES],
        const char *text)
{
  g_autoptr (GHmac) hmac = g_hmac_new (G_CHECKSUM_SHA256, key, KEY_BYTES);
  gsize length = KEY_BYTES;

  g_hmac_update (hmac, (const guchar *) text, -1);
  g_hmac_get_digest (hmac, key, &length);
}

static void
signing_key (const WbS3Signer *signer,
             const char       *day,
             guint8            key[KEY_BYTES])
{
  char *seed = g_strconcat ("AWS4", signer->secret, NULL);
  gsize length = strlen (seed);
  g_autoptr (GHmac) hmac = NULL;
  gsize digest = KEY_BYTES;

  hmac = g_hmac_new (G_CHECKSUM_SHA256, (const guchar *) seed, length);
  explicit_bzero (seed, length);
  g_free (seed);

  g_hmac_update (hmac, (const guchar *) day, -1);
  g_hmac_get_digest (hmac, key, &digest);
  derive (key, signer->region);
  derive (key, signer->service);
  derive (key, "aws4_request");
}

char *
wb_s3_authorization (const WbS3Request *request,
                     const WbS3Signer  *signer)
{
  g_autofree char *day = g_strndup (signer->stamp, 8);
  g_autofree char *scope = g_strdup_printf ("%s/%s/%s/aws4_request", day, signer->region,
                                            signer->service);
  g_autofree char *canonical = wb_s3_canonical_request (request);
  g_autofree char *hash = g_compute_checksum_for_string (G_CHECKSUM_SHA256, canonical, -1);
  g_autofree char *to_sign = g_strdup_printf (ALGORITHM "\n%s\n%s\n%s", signer->stamp, scope, hash);
  g_autofree char *lines = NULL;
  g_autofree char *names = NULL;
  g_autofree char *signature = NULL;
  guint8 key[KEY_BYTES];

  signing_key (signer, day, key);
  signature = g_compute_hmac_for_string (G_CHECKSUM_SHA256, key, KEY_BYTES, to_sign, -1);
  explicit_bzero (key, sizeof key);

  canonical_headers (request, &lines, &names);
  return g_strdup_printf (ALGORITHM " Credential=%s/%s, SignedHeaders=%s, Signature=%s",
                          signer->access_key, scope, names, signature);
}
