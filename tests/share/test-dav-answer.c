/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a WebDAV server answers, whole and with seeded changes: it is read as it is or refused, and
 * never names anything that a path could not have. */
#include "config.h"

#include "share/wb-dav-answer.h"
#include "share/wb-share.h"

#include <string.h>

/* As a server writes it that has its own prefix, properties of its own, and a folder in the folder.
 * */
static const char good[] =
  "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
  "<x:multistatus xmlns:x=\"DAV:\" xmlns:o=\"http://server.invalid/ns\">\n"
  "<x:response><x:href>/dav/office/jobs/</x:href><x:propstat><x:prop>"
  "<x:resourcetype><x:collection/></x:resourcetype>"
  "<x:getlastmodified>Wed, 04 Mar 2026 10:20:30 GMT</x:getlastmodified>"
  "</x:prop><x:status>HTTP/1.1 200 OK</x:status></x:propstat>"
  "<x:propstat><x:prop><x:getcontentlength/></x:prop><x:status>HTTP/1.1 404 Not Found</x:status>"
  "</x:propstat></x:response>\n"
  "<x:response><x:href>https://files.invalid/dav/office/jobs/one.json</x:href><x:propstat><x:prop>"
  "<x:resourcetype/><x:getcontentlength>1234</x:getcontentlength><o:size>9</o:size>"
  "<x:getlastmodified>Thu, 05 Mar 2026 00:00:00 GMT</x:getlastmodified>"
  "</x:prop><x:status>HTTP/1.1 200 OK</x:status></x:propstat></x:response>\n"
  "<x:response><x:href>/dav/office/jobs/t%77o</x:href><x:propstat><x:prop>"
  "<x:resourcetype><x:collection/></x:resourcetype>"
  "</x:prop><x:status>HTTP/1.1 200 OK</x:status></x:propstat></x:response>\n"
  "</x:multistatus>\n";

static void
test_good (void)
{
  g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
  g_auto (WbRemoteEntry) self = { NULL };
  g_autoptr (GError) error = NULL;
  const WbRemoteEntry *entry;

  g_assert_true (wb_dav_answer_read ((const guint8 *) good, strlen (good), "/dav/office/jobs",
                                     &self, entries, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (self.name, ==, "jobs");
  g_assert_true (self.is_folder);
  g_assert_cmpint (self.changed, ==, 1772619630);
  g_assert_cmpuint (entries->len, ==, 2);

  entry = g_ptr_array_index (entries, 0);
  g_assert_cmpstr (entry->name, ==, "one.json");
  g_assert_false (entry->is_folder);
  g_assert_cmpint (entry->size, ==, 1234);
  g_assert_cmpint (entry->changed, ==, 1772668800);

  entry = g_ptr_array_index (entries, 1);
  g_assert_cmpstr (entry->name, ==, "two");
  g_assert_true (entry->is_folder);
  g_assert_cmpint (entry->size, ==, -1);
  g_assert_cmpint (entry->changed, ==, 0);
}

/* Asked about one file, what else the server tells is passed over. */
static void
test_one_file (void)
{
  g_auto (WbRemoteEntry) self = { NULL };
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_dav_answer_read ((const guint8 *) good, strlen (good),
                                     "/dav/office/jobs/one.json", &self, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (self.name, ==, "one.json");
  g_assert_cmpint (self.size, ==, 1234);
}

static void
test_something_else (void)
{
  g_auto (WbRemoteEntry) self = { NULL };
  g_autoptr (GError) error = NULL;

  g_assert_false (wb_dav_answer_read ((const guint8 *) good, strlen (good), "/dav/office", &self,
                                      NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_PROTOCOL);
  g_assert_null (self.name);
}

static void
change_bytes (GByteArray *bytes)
{
  for (gint32 n = g_test_rand_int_range (1, 6); n > 0 && bytes->len > 1; n--)
    {
      guint at = (guint) g_test_rand_int_range (0, (gint32) bytes->len);

      switch (g_test_rand_int_range (0, 3))
        {
        case 0:
          bytes->data[at] = (guint8) g_test_rand_int ();
          break;
        case 1:
          g_byte_array_set_size (bytes, MAX (at, 1));
          break;
        default:
          g_byte_array_remove_index (bytes, at);
          break;
        }
    }
}

static void
test_mutations (void)
{
  for (int round = 0; round < 5000; round++)
    {
      g_autoptr (GByteArray) bytes = g_byte_array_new ();
      g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
      g_auto (WbRemoteEntry) self = { NULL };
      g_autoptr (GError) error = NULL;

      g_byte_array_append (bytes, (const guint8 *) good, strlen (good));
      change_bytes (bytes);
      if (!wb_dav_answer_read (bytes->data, bytes->len, "/dav/office/jobs", &self, entries, &error))
        {
          g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_PROTOCOL);
          g_assert_null (self.name);
          continue;
        }
      g_assert_no_error (error);
      g_assert_nonnull (self.name);
      for (guint i = 0; i < entries->len; i++)
        {
          const WbRemoteEntry *entry = g_ptr_array_index (entries, i);

          g_assert_true (wb_remote_name_is_plain (entry->name));
          g_assert_cmpint (entry->size, >=, -1);
          g_assert_cmpint (entry->changed, >=, 0);
        }
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/dav-answer/good", test_good);
  g_test_add_func ("/share/dav-answer/one-file", test_one_file);
  g_test_add_func ("/share/dav-answer/something-else", test_something_else);
  g_test_add_func ("/share/dav-answer/mutations", test_mutations);
  return g_test_run ();
}
