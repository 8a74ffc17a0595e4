/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Our signatures against those of libcurl, which signs by itself when it is told to: random
 * requests are sent to a listener of this test, and what stands in their Authorization header
 * is compared. */
#include "config.h"

#include "share/wb-s3-sign.h"

#include <curl/curl.h>
#include <gio/gio.h>
#include <string.h>

#define ROUNDS 60
#define MAX_PAIRS 6

/* --- the listener ----------------------------------------------------------------------------- */

typedef struct
{
  GSocketListener *listener;
  guint16          port;
  GString         *head;      /* of the request that came last */
} Listener;

/* Takes one request without a body and answers it. */
static gpointer
serve_one (gpointer data)
{
  static const char answer[] = "HTTP/1.1 200 OK\r\nContent-Length: 0\r\nConnection: close\r\n\r\n";
  Listener *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GSocketConnection) connection = g_socket_listener_accept (self->listener, NULL, NULL,
                                                                       &error);
  GInputStream *input = g_io_stream_get_input_stream (G_IO_STREAM (connection));
  char bytes[4096];
  gssize got;

  g_assert_no_error (error);
  g_string_truncate (self->head, 0);
  while (strstr (self->head->str, "\r\n\r\n") == NULL)
    {
      got = g_input_stream_read (input, bytes, sizeof bytes, NULL, &error);
      g_assert_no_error (error);
      g_assert_cmpint (got, >, 0);
      g_string_append_len (self->head, bytes, got);
    }
  g_output_stream_write_all (g_io_stream_get_output_stream (G_IO_STREAM (connection)), answer,
                             strlen (answer), NULL, NULL, &error);
  g_assert_no_error (error);
  return NULL;
}

/* Returns: (transfer full): the value of the header @name. */
static char *
header_of (const Listener *self,
           const char     *name)
{
  g_auto (GStrv) lines = g_strsplit (self->head->str, "\r\n", -1);

  for (gsize i = 1; lines[i] != NULL; i++)
    {
      const char *colon = strchr (lines[i], ':');

      if (colon != NULL && strlen (name) == (gsize) (colon - lines[i]) &&
          g_ascii_strncasecmp (lines[i], name, strlen (name)) == 0)
        return g_strstrip (g_strdup (colon + 1));
    }
  g_error ("no header %s in %s", name, self->head->str);
}

/* --- random requests -------------------------------------------------------------------------- */

static char *
random_text (const char *from,
             int         least,
             int         most)
{
  int length = g_test_rand_int_range (least, most + 1);
  GString *text = g_string_new (NULL);

  for (int i = 0; i < length; i++)
    g_string_append_c (text, from[g_test_rand_int_range (0, (int) strlen (from))]);
  return g_string_free (text, FALSE);
}

/* Has libcurl sign and send a request. */
static void
send_by_curl (const Listener *self,
              const char     *method,
              const char     *path,
              const char     *query,
              const char     *user,
              const char     *secret,
              const char     *sha256)
{
  g_autofree char *url = g_strdup_printf ("http://127.0.0.1:%u%s%s%s", self->port, path,
                                          *query != '\0' ? "?" : "", query);
  g_autofree char *hash = g_strconcat ("x-amz-content-sha256: ", sha256, NULL);
  struct curl_slist *headers = curl_slist_append (NULL, hash);
  CURL *easy = curl_easy_init ();

  curl_easy_setopt (easy, CURLOPT_URL, url);
  curl_easy_setopt (easy, CURLOPT_PROXY, "");
  curl_easy_setopt (easy, CURLOPT_PATH_AS_IS, 1L);
  curl_easy_setopt (easy, CURLOPT_CUSTOMREQUEST, method);
  curl_easy_setopt (easy, CURLOPT_HTTPHEADER, headers);
  curl_easy_setopt (easy, CURLOPT_AWS_SIGV4, "aws:amz:eu-north-1:s3");
  curl_easy_setopt (easy, CURLOPT_USERNAME, user);
  curl_easy_setopt (easy, CURLOPT_PASSWORD, secret);
  g_assert_cmpint (curl_easy_perform (easy), ==, CURLE_OK);
  curl_easy_cleanup (easy);
  curl_slist_free_all (headers);
}

/* Everything after the name of the algorithm, without blanks, which may differ. */
static char *
parts_of (const char *authorization)
{
  g_auto (GStrv) words = g_strsplit (authorization, " ", -1);

  return g_strjoinv ("", words);
}

static void
compare_one (Listener *self)
{
  static const char *const methods[] = { "GET", "PUT", "DELETE" };
  static const char odd[] = "abcXYZ019-._~ +&=/%?#\"'()*!$,:;@[]\303\274";
  const char *method = methods[g_test_rand_int_range (0, G_N_ELEMENTS (methods))];
  g_autofree char *key = random_text ("abcXYZ019-._~/+&=%$,", 1, 40);
  g_autofree char *plain = g_strconcat ("/", key, NULL);
  g_autofree char *path = wb_s3_encode (plain, TRUE);
  g_autofree char *user = random_text ("ABCDEFGHIJ0123456789", 16, 20);
  g_autofree char *secret = random_text ("abcXYZ019/+=", 30, 45);
  g_autofree char *body = random_text ("ab", 0, 4);
  g_autofree char *sha256 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, body, -1);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  WbS3Pair query[MAX_PAIRS];
  gsize count = (gsize) g_test_rand_int_range (0, MAX_PAIRS + 1);
  g_autofree char *sorted = NULL;
  g_autofree char *stamp = NULL;
  g_autofree char *host = NULL;
  g_autofree char *theirs = NULL;
  g_autofree char *ours = NULL;
  g_autofree char *their_parts = NULL;
  g_autofree char *our_parts = NULL;
  GThread *thread;

  for (gsize i = 0; i < count; i++)
    {
      g_ptr_array_add (texts, random_text (odd, 1, 8));
      query[i].name = texts->pdata[texts->len - 1];
      g_ptr_array_add (texts, random_text (odd, 0, 8));
      query[i].value = texts->pdata[texts->len - 1];
    }
  sorted = wb_s3_query (query, count);

  thread = g_thread_new ("listener", serve_one, self);
  send_by_curl (self, method, path, sorted, user, secret, sha256);
  g_thread_join (thread);

  stamp = header_of (self, "x-amz-date");
  host = header_of (self, "host");
  theirs = header_of (self, "authorization");
  {
    WbS3Pair headers[] = {
      { "Host", host }, { "X-Amz-Date", stamp }, { "X-Amz-Content-Sha256", sha256 },
    };
    WbS3Request request = { method, path, query, count, headers, G_N_ELEMENTS (headers), sha256 };
    WbS3Signer signer = { user, secret, "eu-north-1", "s3", stamp };

    ours = wb_s3_authorization (&request, &signer);
  }
  their_parts = parts_of (theirs);
  our_parts = parts_of (ours);
  g_test_message ("%s %s?%s", method, path, sorted);
  g_assert_cmpstr (our_parts, ==, their_parts);
}

static void
test_same_as_curl (void)
{
  Listener self = { g_socket_listener_new (), 0, g_string_new (NULL) };
  g_autoptr (GError) error = NULL;

  self.port = g_socket_listener_add_any_inet_port (self.listener, NULL, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < ROUNDS; i++)
    compare_one (&self);
  g_socket_listener_close (self.listener);
  g_object_unref (self.listener);
  g_string_free (self.head, TRUE);
}

int
main (int    argc,
      char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  curl_global_init (CURL_GLOBAL_DEFAULT);
  g_test_add_func ("/share/s3-peer/same-as-curl", test_same_as_curl);
  status = g_test_run ();
  curl_global_cleanup ();
  return status;
}
