/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder as a remote: what every remote does, and what only a disk can do wrong. */
#include "config.h"

#include "remote-cases.h"

#include "share/wb-share.h"
#include "support/wb-test-folder.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static WbRemote *
open_folder (const char *folder)
{
  g_autoptr (WbServer) server = wb_server_new (WB_SERVER_FOLDER,
                                               "0f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c11");
  g_autoptr (GError) error = NULL;
  WbRemote *remote;

  wb_server_set (server, WB_SERVER_FIELD_NAME, "Share");
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, folder);
  remote = wb_remote_open (server, NULL, NULL, &error);
  g_assert_no_error (error);
  return remote;
}

/* Folders of all cases, which are removed at the end. */
static GPtrArray *made;

static const char *
make_folder (void)
{
  g_ptr_array_add (made, remote_make_folder ());
  return g_ptr_array_index (made, made->len - 1);
}

static void
forget_folder (gpointer folder)
{
  wb_test_remove_tree (folder);
  g_free (folder);
}

static WbRemote *
open_empty (void)
{
  return open_folder (make_folder ());
}

/* Nothing outside the folder is reached through a link in it. */
static void
test_links (void)
{
  const char *folder = make_folder ();
  const char *outside = make_folder ();
  g_autofree char *secret = g_build_filename (outside, "secret", NULL);
  g_autofree char *link_to_folder = g_build_filename (folder, "jobs", NULL);
  g_autofree char *link_to_file = g_build_filename (folder, "file", NULL);
  g_autoptr (WbRemote) remote = open_folder (folder);
  g_autoptr (GBytes) bytes = g_bytes_new_static ("text", 4);
  g_autoptr (RemoteText) text = remote_text_new (bytes);
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (secret, "s", 1, NULL));
  g_assert_cmpint (symlink (outside, link_to_folder), ==, 0);
  g_assert_cmpint (symlink (secret, link_to_file), ==, 0);

  g_assert_false (wb_remote_put (remote, "jobs/new", &text->source, NULL, NULL, NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (wb_remote_stat (remote, "jobs/secret", NULL, NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (wb_remote_stat (remote, "file", NULL, NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (wb_remote_put (remote, "file", &text->source, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_EXISTS);
  g_clear_error (&error);

  entries = wb_remote_list (remote, "", NULL, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < entries->len; i++)
    g_assert_cmpstr (((WbRemoteEntry *) entries->pdata[i])->name, ==, WB_REMOTE_INCOMING);
}

/* Names that no path could have are not listed. */
static void
test_strange_names (void)
{
  const char *folder = make_folder ();
  g_autoptr (WbRemote) remote = open_folder (folder);
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  static const char *const names[] = { "good", "a b", "grün", "x~", "new\nline" };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);

      g_assert_true (g_file_set_contents (path, "1", 1, NULL));
    }
  entries = wb_remote_list (remote, "", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (entries->len, ==, 1);
  g_assert_cmpstr (((WbRemoteEntry *) entries->pdata[0])->name, ==, "good");
}

/* A share that is not mounted: nothing is put into the folder where it should be. */
static void
test_no_folder (void)
{
  const char *folder = make_folder ();
  g_autofree char *gone = g_build_filename (folder, "not", "mounted", NULL);
  g_autoptr (WbRemote) remote = open_folder (gone);
  g_autoptr (GBytes) bytes = g_bytes_new_static ("text", 4);
  g_autoptr (RemoteText) text = remote_text_new (bytes);
  g_autoptr (GError) error = NULL;

  g_assert_false (wb_remote_put (remote, "one", &text->source, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_false (wb_remote_probe (remote, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
  g_assert_false (g_file_test (gone, G_FILE_TEST_EXISTS));
}

static void
note_failed (WbProbeStep   step,
             const GError *error,
             gpointer      data)
{
  if (error != NULL)
    *(WbProbeStep *) data = step;
}

static void
test_forbidden (void)
{
  const char *folder = make_folder ();
  g_autoptr (WbRemote) remote = open_folder (folder);
  g_autoptr (GError) error = NULL;
  WbProbeStep failed = WB_PROBE_ADDRESS;

  if (geteuid () == 0)
    {
      g_test_skip ("root may write anywhere");
      return;
    }
  g_assert_cmpint (g_chmod (folder, 0500), ==, 0);
  g_assert_false (wb_remote_probe (remote, note_failed, &failed, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_FORBIDDEN);
  g_assert_cmpint (failed, ==, WB_PROBE_WRITE);
  g_chmod (folder, 0700);
}

static void
test_may_pass (void)
{
  g_assert_true (wb_share_error_may_pass (WB_SHARE_ERROR_UNREACHABLE));
  g_assert_true (wb_share_error_may_pass (WB_SHARE_ERROR_TIMEOUT));
  g_assert_true (wb_share_error_may_pass (WB_SHARE_ERROR_SERVER));
  g_assert_true (wb_share_error_may_pass (WB_SHARE_ERROR_LOCKED));
  g_assert_false (wb_share_error_may_pass (WB_SHARE_ERROR_LOGIN));
  g_assert_false (wb_share_error_may_pass (WB_SHARE_ERROR_CERTIFICATE));
  g_assert_false (wb_share_error_may_pass (WB_SHARE_ERROR_HOST_KEY_CHANGED));
  g_assert_false (wb_share_error_may_pass (WB_SHARE_ERROR_EXISTS));
  g_assert_false (wb_share_error_may_pass (WB_SHARE_ERROR_CHANGED));
  g_assert_false (wb_share_error_may_pass (WB_SHARE_ERROR_FULL));
}

int
main (int   argc,
      char *argv[])
{
  int status;

  g_test_init (&argc, &argv, NULL);
  made = g_ptr_array_new_with_free_func (forget_folder);
  remote_cases_add ("folder", open_empty);
  g_test_add_func ("/share/remote/folder/links", test_links);
  g_test_add_func ("/share/remote/folder/strange-names", test_strange_names);
  g_test_add_func ("/share/remote/folder/no-folder", test_no_folder);
  g_test_add_func ("/share/remote/folder/forbidden", test_forbidden);
  g_test_add_func ("/share/error/may-pass", test_may_pass);
  status = g_test_run ();
  g_ptr_array_unref (made);
  return status;
}
