/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Servers as an office knows them: added, changed, found, removed and tested. */
#include "config.h"

#include "core/wb-core.h"
#include "office/wb-server-settings.h"
#include "share-fixture.h"
#include "share/wb-share.h"

#include <glib/gstdio.h>

static WbServer *
folder_server (const char *name,
               const char *address)
{
  WbServer *server = wb_server_new (WB_SERVER_FOLDER, NULL);

  wb_server_set (server, WB_SERVER_FIELD_NAME, name);
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, address);
  return server;
}

static WbServer *
put (WbOffice   *office,
     const char *name,
     const char *address)
{
  g_autoptr (WbServer) server = folder_server (name, address);
  g_autoptr (GError) error = NULL;
  WbServer *stored = wb_office_put_server (office, server, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  return stored;
}

static void
test_find (ShareFixture  *self,
           gconstpointer  data)
{
  g_autoptr (WbServer) none = NULL;
  g_autoptr (WbServer) only = NULL;
  g_autoptr (WbServer) main_one = NULL;
  g_autoptr (WbServer) annex = NULL;
  g_autoptr (WbServer) found = NULL;
  g_autoptr (WbServer) by_id = NULL;
  g_autoptr (GError) error = NULL;

  none = wb_office_find_server (self->here, NULL, NULL, &error);
  g_assert_null (none);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  g_clear_error (&error);

  main_one = put (self->here, "Büro", "/srv/one");
  only = wb_office_find_server (self->here, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_server_equal (only, main_one));

  annex = put (self->here, "Annex", "/srv/two");
  g_clear_pointer (&only, wb_server_free);
  only = wb_office_find_server (self->here, NULL, NULL, &error);
  g_assert_null (only);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  g_clear_error (&error);
  found = wb_office_find_server (self->here, "BÜRO", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (found->id, ==, main_one->id);
  by_id = wb_office_find_server (self->here, annex->id, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (by_id->name, ==, "Annex");
}

static void
test_refused (ShareFixture  *self,
              gconstpointer  data)
{
  g_autoptr (WbServer) server = folder_server ("Main", "not/whole");
  g_autoptr (WbServer) stored = NULL;
  g_autoptr (GPtrArray) all = NULL;
  g_autoptr (GError) error = NULL;

  stored = wb_office_put_server (self->here, server, NULL, NULL, NULL, &error);
  g_assert_null (stored);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
  g_assert_true (g_str_has_prefix (error->message, "address: "));
  g_clear_error (&error);
  all = wb_office_list_servers (self->here, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (all->len, ==, 0);
}

/* Without a service the session keeps the secret; it goes with the server. */
static void
test_secret (ShareFixture  *self,
             gconstpointer  data)
{
  g_autoptr (WbServer) server = wb_server_new (WB_SERVER_SFTP, NULL);
  g_autoptr (WbServer) stored = NULL;
  g_autoptr (WbSecret) secret = wb_secret_new ("oak-27", -1);
  g_autoptr (WbSecret) kept = NULL;
  g_autoptr (WbSecret) gone = NULL;
  g_autofree char *bytes = NULL;
  gsize length;
  WbSecretPlace place = WB_SECRET_SERVICE;
  g_autoptr (GError) error = NULL;

  wb_server_set (server, WB_SERVER_FIELD_NAME, "Main");
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, "sftp://127.0.0.1:1/jobs");
  wb_server_set (server, WB_SERVER_FIELD_USER, "desk4");
  stored = wb_office_put_server (self->here, server, secret, &place, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (place, ==, WB_SECRET_SESSION);
  kept = wb_secret_find (stored->id, NULL, &error);
  g_assert_cmpstr (wb_secret_get (kept), ==, "oak-27");

  g_file_get_contents (wb_office_get_path (self->here), &bytes, &length, &error);
  g_assert_no_error (error);
  g_assert_null (g_strstr_len (bytes, (gssize) length, "oak-27"));

  g_assert_true (wb_office_remove_server (self->here, stored->id, NULL, &error));
  g_assert_no_error (error);
  gone = wb_secret_find (stored->id, NULL, &error);
  g_assert_null (gone);
}

/* --- for windows ------------------------------------------------------------------------------ */

static gboolean
is_loaded (gpointer data)
{
  return wb_server_list_get_loaded (data);
}

static gboolean
has_two (gpointer data)
{
  return g_list_model_get_n_items (data) == 2;
}

static void
changed_cb (GListModel *list,
            guint       position,
            guint       removed,
            guint       added,
            gpointer    data)
{
  guint *news = data;

  news[0] = position;
  news[1] = removed;
  news[2] = added;
}

static gboolean
has_news (gpointer data)
{
  return ((guint *) data)[1] > 0;
}

static void
test_list (ShareFixture  *self,
           gconstpointer  data)
{
  g_autoptr (WbServerList) list = wb_server_list_new (self->here);
  g_autoptr (WbServer) main_one = NULL;
  g_autoptr (WbServer) annex = NULL;
  g_autoptr (WbServer) again = NULL;
  g_autoptr (WbServerItem) item = NULL;
  guint news[3] = { 9, 0, 0 };
  g_autoptr (GError) error = NULL;

  share_fixture_wait (is_loaded, list);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (list)), ==, 0);
  main_one = put (self->here, "Main", "/srv/one");
  annex = put (self->here, "Annex", "/srv/two");
  share_fixture_wait (has_two, list);

  /* What stays is the same object. */
  item = g_list_model_get_item (G_LIST_MODEL (list), 0);
  g_signal_connect (list, "items-changed", G_CALLBACK (changed_cb), news);
  wb_server_set (annex, WB_SERVER_FIELD_ADDRESS, "/srv/three");
  again = wb_office_put_server (self->here, annex, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  share_fixture_wait (has_news, news);
  g_assert_cmpuint (news[0], ==, 1);
  g_assert_cmpuint (news[1], ==, 1);
  g_assert_cmpuint (news[2], ==, 1);
  g_assert_true (wb_server_equal (wb_server_item_get_server (item), main_one));
}

static gboolean
is_finished (gpointer data)
{
  return wb_server_probe_is_finished (data);
}

static void
test_probe (ShareFixture  *self,
            gconstpointer  data)
{
  g_autoptr (WbServer) good = folder_server ("Main", self->server_folder);
  g_autoptr (WbServer) bad = NULL;
  g_autofree char *file = g_build_filename (self->folder, "file", NULL);
  g_autoptr (WbServerProbe) probe = NULL;
  g_autoptr (WbServerProbe) failing = NULL;

  probe = wb_server_probe_start (self->here, good, NULL, NULL, NULL);
  share_fixture_wait (is_finished, probe);
  g_assert_no_error ((GError *) wb_server_probe_get_error (probe));
  for (gsize i = 0; i < wb_probe_steps.n_values; i++)
    g_assert_cmpint (wb_server_probe_get_step (probe, wb_probe_steps.values[i].value), ==,
                     WB_PROBE_DONE);

  /* A file where the folder should be. */
  g_assert_true (g_file_set_contents (file, "x", 1, NULL));
  bad = folder_server ("Main", file);
  failing = wb_server_probe_start (self->here, bad, NULL, NULL, NULL);
  share_fixture_wait (is_finished, failing);
  g_assert_nonnull (wb_server_probe_get_error (failing));
  g_assert_cmpint (wb_server_probe_get_step (failing, WB_PROBE_FOLDER), ==, WB_PROBE_FAILED);
  g_assert_cmpint (wb_server_probe_get_step (failing, WB_PROBE_WRITE), ==, WB_PROBE_WAITING);
}

static void
test_host_key (void)
{
  g_autoptr (GError) unknown = g_error_new (WB_SHARE_ERROR, WB_SHARE_ERROR_HOST_KEY_UNKNOWN,
                                            "h: its host key is SHA256:ab+/Z.");
  g_autoptr (GError) other = g_error_new (WB_SHARE_ERROR, WB_SHARE_ERROR_HOST_KEY_CHANGED,
                                          "h: its host key is SHA256:ab+/Z.");
  g_autofree char *key = wb_server_host_key_of (unknown);
  g_autofree char *none = wb_server_host_key_of (other);

  g_assert_cmpstr (key, ==, "SHA256:ab+/Z");
  g_assert_null (none);
  g_assert_true (wb_server_host_key_changed (other));
  g_assert_false (wb_server_host_key_changed (unknown));
  g_assert_false (wb_server_host_key_changed (NULL));
}

/* The keys of this server go, those of others stay; with no file there is nothing to forget. */
static void
test_forget_host_key (ShareFixture  *self,
                      gconstpointer  data)
{
  static const char before[] = "[files.example.org]:2222 ssh-ed25519 QQ==\n"
                               "other.example.org ssh-ed25519 QQ==\n";
  g_autoptr (WbServer) server = wb_server_new (WB_SERVER_SFTP, "Warehouse");
  g_autofree char *folder = g_build_filename (g_get_user_config_dir (), "wainbook", NULL);
  g_autofree char *file = g_build_filename (folder, "known_hosts", NULL);
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;

  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, "sftp://files.example.org:2222/srv/jobs");
  g_assert_true (wb_office_forget_host_key (self->here, server, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_assert_true (g_file_set_contents (file, before, -1, NULL));
  g_assert_true (wb_office_forget_host_key (self->here, server, NULL, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (file, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, "other.example.org ssh-ed25519 QQ==\n");
}

static void
remove_config (const char *config)
{
  g_autofree char *folder = g_build_filename (config, "wainbook", NULL);
  g_autofree char *file = g_build_filename (folder, "known_hosts", NULL);

  g_remove (file);
  g_rmdir (folder);
  g_rmdir (config);
}

#define ADD(path, function) \
  g_test_add ("/office/server-settings/" path, ShareFixture, NULL, share_fixture_set_up_books, \
              function, share_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_autofree char *config = g_dir_make_tmp ("wb-settings-XXXXXX", NULL);
  int failed;

  /* The file of host keys is this test's alone. */
  g_assert_nonnull (config);
  g_setenv ("XDG_CONFIG_HOME", config, TRUE);
  share_fixture_init (&argc, &argv);
  ADD ("find", test_find);
  ADD ("refused", test_refused);
  ADD ("secret", test_secret);
  ADD ("list", test_list);
  ADD ("probe", test_probe);
  ADD ("forget-host-key", test_forget_host_key);
  g_test_add_func ("/office/server-settings/host-key", test_host_key);
  failed = g_test_run ();
  remove_config (config);
  return failed;
}
