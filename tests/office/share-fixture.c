/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "share-fixture.h"

#include "office/wb-server-settings.h"

#include <glib/gstdio.h>

void
share_fixture_init (int    *argc,
                    char ***argv)
{
  g_setenv ("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nonexistent", TRUE);
  g_test_init (argc, argv, NULL);
}

void
share_fixture_remove (const char *path)
{
  g_autoptr (GDir) dir = NULL;
  const char *name;

  if (!g_file_test (path, G_FILE_TEST_IS_SYMLINK))
    dir = g_dir_open (path, 0, NULL);
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *inside = g_build_filename (path, name, NULL);

      share_fixture_remove (inside);
    }
  g_assert_cmpint (g_remove (path), ==, 0);
}

static WbOffice *
make_book (ShareFixture *self,
           const char   *name)
{
  g_autofree char *path = g_build_filename (self->folder, name, NULL);
  g_autoptr (GError) error = NULL;
  WbOffice *office = wb_office_open (path, WB_BOOK_CREATE, NULL, &error);

  g_assert_no_error (error);
  return office;
}

void
share_fixture_set_up_books (ShareFixture  *self,
                            gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  self->folder = g_dir_make_tmp ("wainbook-XXXXXX", &error);
  g_assert_no_error (error);
  self->server_folder = g_build_filename (self->folder, "server", NULL);
  self->here = make_book (self, "here.book");
  self->there = make_book (self, "there.book");
}

static char *
add_server (ShareFixture *self,
            WbOffice     *office)
{
  g_autoptr (WbServer) server = wb_server_new (WB_SERVER_FOLDER, NULL);
  g_autoptr (WbServer) stored = NULL;
  g_autoptr (GError) error = NULL;

  wb_server_set (server, WB_SERVER_FIELD_NAME, "Main");
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, self->server_folder);
  stored = wb_office_put_server (office, server, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  return g_strdup (stored->id);
}

void
share_fixture_set_up (ShareFixture  *self,
                      gconstpointer  data)
{
  share_fixture_set_up_books (self, data);
  g_assert_cmpint (g_mkdir (self->server_folder, 0700), ==, 0);
  self->at_here = add_server (self, self->here);
  self->at_there = add_server (self, self->there);
}

static gboolean
wake_cb (gpointer data)
{
  return G_SOURCE_CONTINUE;
}

void
share_fixture_wait (gboolean (*done) (gpointer data),
                    gpointer   data)
{
  gint64 until = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;
  guint source = g_timeout_add (20, wake_cb, NULL);

  while (!done (data) && g_get_monotonic_time () < until)
    g_main_context_iteration (NULL, TRUE);
  g_source_remove (source);
  g_assert_true (done (data));
}

void
share_fixture_ready (GObject      *source,
                     GAsyncResult *result,
                     gpointer      data)
{
  *(GAsyncResult **) data = g_object_ref (result);
}

gboolean
share_fixture_is_ready (gpointer data)
{
  return *(GAsyncResult **) data != NULL;
}

static gboolean
is_gone (gpointer data)
{
  return *(gpointer *) data == NULL;
}

/* Worker threads may hold it a moment longer. */
static void
finalize_office (WbOffice *office)
{
  gpointer left = office;

  g_object_add_weak_pointer (G_OBJECT (office), &left);
  g_object_unref (office);
  share_fixture_wait (is_gone, &left);
}

void
share_fixture_tear_down (ShareFixture  *self,
                         gconstpointer  data)
{
  finalize_office (self->here);
  finalize_office (self->there);
  share_fixture_remove (self->folder);
  g_free (self->folder);
  g_free (self->server_folder);
  g_free (self->at_here);
  g_free (self->at_there);
}
