/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-server.h"

#include <string.h>

#define ID "3f2b8a52-6a0e-4c1d-9d0f-2a4b6c8d0e1f"

static WbServer *
good_server (WbServerKind kind)
{
  static const char *const addresses[] = {
    [WB_SERVER_FOLDER] = "/srv/office",
    [WB_SERVER_WEBDAV] = "https://files.example.org/jobs",
    [WB_SERVER_SFTP] = "sftp://files.example.org/srv/jobs",
    [WB_SERVER_S3] = "https://store.example.org:9000",
  };
  WbServer *self = wb_server_new (kind, ID);

  wb_server_set (self, WB_SERVER_FIELD_NAME, " Main office ");
  wb_server_set (self, WB_SERVER_FIELD_ADDRESS, addresses[kind]);
  if (wb_server_kind_needs (kind, WB_SERVER_FIELD_USER))
    wb_server_set (self, WB_SERVER_FIELD_USER, "desk4");
  if (wb_server_kind_needs (kind, WB_SERVER_FIELD_BUCKET))
    wb_server_set (self, WB_SERVER_FIELD_BUCKET, "moves.2026");
  return self;
}

typedef struct
{
  WbServerKind   kind;
  WbServerField  field;
  const char    *text;
  const char    *fault;   /* (nullable): how the message goes on after the field */
} Case;

static const Case cases[] = {
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_NAME, "", "is not given" },
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_NAME, "two\nlines", "has a control" },
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_NAME, "Büro 2", NULL },
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_ADDRESS, "", "is not given" },
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_ADDRESS, "srv/office", "has to be a whole path" },
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_ADDRESS, "/srv/../etc", "must not have" },
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_ADDRESS, "/srv/./office", "must not have" },
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_ADDRESS, "/srv/with blank/Ä/", NULL },
  { WB_SERVER_FOLDER, WB_SERVER_FIELD_USER, "desk4", "a server of kind “folder” has none" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org", NULL },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/", NULL },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://[2001:db8::1]:8443/dav/a%20b", NULL },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://192.0.2.7/dav", NULL },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "http://files.example.org/", "begins with http://" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "ftp://files.example.org/", "“ftp://files" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "files.example.org", "“files.example.org” does not" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://me:pw@files.example.org/", "has something" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/?a=1", "must not have “?”" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/#a", "must not have “?”" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https:///jobs", "“https:///jobs” does not name" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://-o.example/jobs", "“https://-o" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://büro.example/jobs", "has a letter" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org:0/", "the port" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org:99999/", "“https://files" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/a%2e%2e/b", NULL },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/%2e%2e/b", "must not have" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/a%2fb", "has a “%” in" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/a%0ab", "has a control" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/a b", "has a character" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_USER, "", NULL },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_USER, "desk:4", "must not have “:”" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_BUCKET, "moves", "a server of kind “webdav” has none" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_AUTHORITY, "office-ca.pem", "has to be a whole path" },
  { WB_SERVER_WEBDAV, WB_SERVER_FIELD_AUTHORITY, "/etc/office/ca.pem", NULL },
  { WB_SERVER_SFTP, WB_SERVER_FIELD_ADDRESS, "sftp://files.example.org:2222/", NULL },
  { WB_SERVER_SFTP, WB_SERVER_FIELD_ADDRESS, "https://files.example.org/", "“https://files" },
  { WB_SERVER_SFTP, WB_SERVER_FIELD_USER, "", "is not given" },
  { WB_SERVER_SFTP, WB_SERVER_FIELD_KEY_FILE, "/home/desk/.ssh/office", NULL },
  { WB_SERVER_SFTP, WB_SERVER_FIELD_AUTHORITY, "/etc/ca.pem", "a server of kind “sftp” has none" },
  { WB_SERVER_S3, WB_SERVER_FIELD_ADDRESS, "https://store.example.org/", NULL },
  { WB_SERVER_S3, WB_SERVER_FIELD_ADDRESS, "https://store.example.org/moves", "must not have a path" },
  { WB_SERVER_S3, WB_SERVER_FIELD_USER, "AKIA/1", "an access key has" },
  { WB_SERVER_S3, WB_SERVER_FIELD_BUCKET, "", "is not given" },
  { WB_SERVER_S3, WB_SERVER_FIELD_BUCKET, "Moves", "may have small letters" },
  { WB_SERVER_S3, WB_SERVER_FIELD_BUCKET, "mo", "has to have 3 to 63" },
  { WB_SERVER_S3, WB_SERVER_FIELD_BUCKET, "moves-", "has to begin and end" },
  { WB_SERVER_S3, WB_SERVER_FIELD_BUCKET, "mo..ves", "has to begin and end" },
  { WB_SERVER_S3, WB_SERVER_FIELD_BUCKET, "a/../b", "may have small letters" },
  { WB_SERVER_S3, WB_SERVER_FIELD_REGION, "eu-central-1", NULL },
  { WB_SERVER_S3, WB_SERVER_FIELD_REGION, "eu central", "may have small letters" },
};

/* Each text is judged by its field alone, and by the server as a whole. */
static void
test_fields (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Case *row = &cases[i];
      g_autoptr (WbServer) server = good_server (row->kind);
      g_autoptr (GError) error = NULL;
      g_autoptr (GError) whole = NULL;
      g_autofree char *begins = NULL;

      g_test_message ("%s", row->text);
      wb_server_set (server, row->field, row->text);
      if (row->fault == NULL)
        {
          g_assert_true (wb_server_check_field (server, row->field, &error));
          g_assert_no_error (error);
          g_assert_true (wb_server_check (server, &whole));
          g_assert_no_error (whole);
          continue;
        }

      begins = g_strdup_printf ("%s: %s", wb_enum_nick (&wb_server_fields, (int) row->field),
                                row->fault);
      g_assert_false (wb_server_check_field (server, row->field, &error));
      g_assert_nonnull (error);
      if (!g_str_has_prefix (error->message, begins))
        g_assert_cmpstr (error->message, ==, begins);
      g_assert_true (error->domain == WB_CORE_ERROR);
      g_assert_false (wb_server_check (server, &whole));
      g_assert_cmpstr (whole->message, ==, error->message);
    }
}

static void
test_long (void)
{
  g_autoptr (WbServer) server = good_server (WB_SERVER_FOLDER);
  g_autofree char *name = g_strnfill (101, 'a');
  g_autoptr (GError) error = NULL;

  wb_server_set (server, WB_SERVER_FIELD_NAME, name);
  g_assert_false (wb_server_check (server, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);

  wb_server_set (server, WB_SERVER_FIELD_NAME, name + 1);
  g_assert_true (wb_server_check (server, &error));
  g_assert_no_error (error);
}

static void
test_id (void)
{
  g_autoptr (WbServer) server = good_server (WB_SERVER_FOLDER);
  g_autoptr (GError) error = NULL;

  g_free (server->id);
  server->id = g_strdup ("../../etc");
  g_assert_false (wb_server_check (server, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
}

typedef struct
{
  WbServerKind  kind;
  const char   *address;
  const char   *host;
  guint         port;
  const char   *path;
} Split;

static const Split splits[] = {
  { WB_SERVER_FOLDER, "/srv/office/", "", 0, "/srv/office" },
  { WB_SERVER_FOLDER, "/", "", 0, "" },
  { WB_SERVER_WEBDAV, "https://files.example.org", "files.example.org", 443, "" },
  { WB_SERVER_WEBDAV, "https://files.example.org:8443/a%20b//", "files.example.org", 8443, "/a%20b" },
  { WB_SERVER_WEBDAV, "https://[2001:db8::1]/dav", "2001:db8::1", 443, "/dav" },
  { WB_SERVER_SFTP, "sftp://files.example.org/srv/jobs", "files.example.org", 22, "/srv/jobs" },
  { WB_SERVER_S3, "https://store.example.org:9000/", "store.example.org", 9000, "" },
};

static void
test_split (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (splits); i++)
    {
      g_autoptr (WbServer) server = good_server (splits[i].kind);
      g_autoptr (GError) error = NULL;
      g_autofree char *host = NULL;
      g_autofree char *path = NULL;
      guint port = 1;

      wb_server_set (server, WB_SERVER_FIELD_ADDRESS, splits[i].address);
      g_assert_true (wb_server_split (server, &host, &port, &path, &error));
      g_assert_no_error (error);
      g_assert_cmpstr (host, ==, splits[i].host);
      g_assert_cmpuint (port, ==, splits[i].port);
      g_assert_cmpstr (path, ==, splits[i].path);
    }
}

static void
test_copy (void)
{
  g_autoptr (WbServer) server = good_server (WB_SERVER_S3);
  g_autoptr (WbServer) copy = wb_server_copy (server);

  g_assert_cmpstr (server->name, ==, "Main office");
  g_assert_true (wb_server_equal (server, copy));
  wb_server_set (copy, WB_SERVER_FIELD_REGION, "");
  g_assert_true (wb_server_equal (server, copy));
  g_assert_cmpstr (wb_server_get_region (copy), ==, "us-east-1");

  for (gsize i = 0; i < wb_server_fields.n_values; i++)
    {
      g_autoptr (WbServer) other = wb_server_copy (server);

      wb_server_set (other, (WbServerField) wb_server_fields.values[i].value, "other");
      g_assert_false (wb_server_equal (server, other));
    }
}

static void
test_secret (void)
{
  for (gsize i = 0; i < wb_server_kinds.n_values; i++)
    {
      g_autoptr (WbServer) server = good_server ((WbServerKind) wb_server_kinds.values[i].value);

      g_assert_cmpint (wb_server_wants_secret (server), ==,
                       server->kind == WB_SERVER_SFTP || server->kind == WB_SERVER_S3);
      wb_server_set (server, WB_SERVER_FIELD_USER, "desk4");
      g_assert_cmpint (wb_server_wants_secret (server), ==, server->kind != WB_SERVER_FOLDER);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/server/fields", test_fields);
  g_test_add_func ("/core/server/long", test_long);
  g_test_add_func ("/core/server/id", test_id);
  g_test_add_func ("/core/server/split", test_split);
  g_test_add_func ("/core/server/copy", test_copy);
  g_test_add_func ("/core/server/secret", test_secret);
  return g_test_run ();
}
