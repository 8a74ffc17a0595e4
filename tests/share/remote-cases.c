/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "remote-cases.h"

#include "share/wb-share.h"
#include "support/wb-test-folder.h"

#include <glib/gstdio.h>
#include <string.h>

static RemoteCasesOpen open_remote;

/* --- sources ---------------------------------------------------------------------------------- */

RemoteText *
remote_text_new (GBytes *bytes)
{
  RemoteText *self = g_new0 (RemoteText, 1);

  self->bytes = g_bytes_ref (bytes);
  self->sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  self->source.bytes = self->bytes;
  self->source.size = (gint64) g_bytes_get_size (bytes);
  self->source.sha256 = self->sha256;
  return self;
}

void
remote_text_free (RemoteText *self)
{
  g_bytes_unref (self->bytes);
  g_free (self->sha256);
  g_free (self);
}

GBytes *
remote_random_bytes (gsize size)
{
  guint8 *bytes = g_malloc (size);
  guint32 state = (guint32) g_test_rand_int () | 1;

  for (gsize i = 0; i < size; i++)
    {
      state ^= state << 13;
      state ^= state >> 17;
      state ^= state << 5;
      bytes[i] = (guint8) state;
    }
  return g_bytes_new_take (bytes, size);
}

char *
remote_make_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("wb-remote-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

void
remote_put_text (WbRemote   *remote,
                 const char *path,
                 const char *text)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (RemoteText) source = remote_text_new (bytes);
  g_autoptr (GError) error = NULL;
  gboolean good = wb_remote_put (remote, path, &source->source, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_true (good);
}

static gboolean
append (const guint8  *bytes,
        gsize          length,
        gpointer       data,
        GError       **error)
{
  g_byte_array_append (data, bytes, (guint) length);
  return TRUE;
}

GBytes *
remote_get_bytes (WbRemote   *remote,
                  const char *path,
                  gint64      offset)
{
  g_autoptr (GByteArray) kept = g_byte_array_new ();
  g_autoptr (GError) error = NULL;
  gboolean good = wb_remote_get (remote, path, offset, append, kept, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_true (good);
  return g_byte_array_free_to_bytes (g_steal_pointer (&kept));
}

static void
assert_text (WbRemote   *remote,
             const char *path,
             const char *text)
{
  g_autoptr (GBytes) got = remote_get_bytes (remote, path, 0);

  g_assert_cmpmem (g_bytes_get_data (got, NULL), g_bytes_get_size (got), text, strlen (text));
}

/* What lies in the folder of parts. */
static guint
count_parts (WbRemote *remote)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) parts = wb_remote_list (remote, WB_REMOTE_INCOMING, NULL, &error);

  if (parts == NULL)
    g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
  return parts != NULL ? parts->len : 0;
}

/* --- cases ------------------------------------------------------------------------------------ */

typedef struct
{
  gint64 last;
  gint64 total;
  guint  calls;
} Progress;

static void
note_progress (gint64   done,
               gint64   total,
               gpointer data)
{
  Progress *progress = data;

  g_assert_cmpint (done, >=, progress->last);
  progress->last = done;
  progress->total = total;
  progress->calls++;
}

static void
test_put_and_get (void)
{
  static const gsize sizes[] = { 0, 1, 1000, 300000, 5000000 };
  g_autoptr (WbRemote) remote = open_remote ();

  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (GBytes) bytes = remote_random_bytes (sizes[i]);
      g_autoptr (RemoteText) text = remote_text_new (bytes);
      g_autofree char *path = g_strdup_printf ("objects/a%u/%s", (guint) i, text->sha256);
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) got = NULL;
      g_auto (WbRemoteEntry) entry = { NULL };
      Progress progress = { 0 };
      gboolean good = wb_remote_put (remote, path, &text->source, note_progress, &progress, NULL,
                                     &error);

      g_assert_no_error (error);
      g_assert_true (good);
      if (sizes[i] > 0)
        {
          g_assert_cmpint (progress.last, ==, (gint64) sizes[i]);
          g_assert_cmpint (progress.total, ==, (gint64) sizes[i]);
        }
      got = remote_get_bytes (remote, path, 0);
      g_assert_true (g_bytes_equal (got, bytes));

      g_assert_true (wb_remote_stat (remote, path, &entry, NULL, &error));
      g_assert_no_error (error);
      g_assert_cmpstr (entry.name, ==, text->sha256);
      g_assert_cmpint (entry.size, ==, (gint64) sizes[i]);
      g_assert_false (entry.is_folder);
    }
  g_assert_cmpuint (count_parts (remote), ==, 0);
}

static void
test_from_file (void)
{
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GBytes) bytes = remote_random_bytes (700000);
  g_autoptr (RemoteText) text = remote_text_new (bytes);
  g_autofree char *folder = remote_make_folder ();
  g_autofree char *file = g_build_filename (folder, "source.jpg", NULL);
  WbRemoteSource source = { NULL, file, 700000, text->sha256 };
  g_autoptr (GBytes) got = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (file, g_bytes_get_data (bytes, NULL), 700000, NULL));
  g_assert_true (wb_remote_put (remote, "objects/photo", &source, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  got = remote_get_bytes (remote, "objects/photo", 0);
  g_assert_true (g_bytes_equal (got, bytes));
  wb_test_remove_tree (folder);
}

/* A file that is gone, shorter or altered since its hash was taken never gets its name. */
static void
test_altered_source (void)
{
  static const struct { const char *text; gint64 size; } rows[] = {
    { NULL, 5 }, { "hell", 5 }, { "hellp", 5 }, { "hello, all", 5 },
  };
  g_autoptr (WbRemote) remote = open_remote ();
  g_autofree char *sha256 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, "hello", 5);
  g_autofree char *folder = remote_make_folder ();
  g_autofree char *file = g_build_filename (folder, "altered", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      WbRemoteSource source = { NULL, file, rows[i].size, sha256 };
      g_autoptr (GError) error = NULL;
      g_autoptr (GError) missing = NULL;

      g_remove (file);
      if (rows[i].text != NULL)
        g_assert_true (g_file_set_contents (file, rows[i].text, -1, NULL));
      g_assert_false (wb_remote_put (remote, "objects/altered", &source, NULL, NULL, NULL, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE);
      g_assert_false (wb_remote_stat (remote, "objects/altered", NULL, NULL, &missing));
      g_assert_error (missing, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
    }
  g_assert_cmpuint (count_parts (remote), ==, 0);
  wb_test_remove_tree (folder);
}

static void
test_never_overwrites (void)
{
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GBytes) bytes = g_bytes_new_static ("second", 6);
  g_autoptr (RemoteText) text = remote_text_new (bytes);
  g_autoptr (GError) error = NULL;

  remote_put_text (remote, "jobs/one.json", "first");
  g_assert_false (wb_remote_put (remote, "jobs/one.json", &text->source, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_EXISTS);
  assert_text (remote, "jobs/one.json", "first");
  g_assert_cmpuint (count_parts (remote), ==, 0);
}

static void
test_offset (void)
{
  static const gint64 offsets[] = { 0, 1, 4096, 999999, 1000000 };
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GBytes) bytes = remote_random_bytes (1000000);
  g_autoptr (RemoteText) text = remote_text_new (bytes);
  g_autoptr (GByteArray) kept = g_byte_array_new ();
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_remote_put (remote, "objects/x", &text->source, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  for (gsize i = 0; i < G_N_ELEMENTS (offsets); i++)
    {
      g_autoptr (GBytes) got = remote_get_bytes (remote, "objects/x", offsets[i]);
      g_autoptr (GBytes) wanted = g_bytes_new_from_bytes (bytes, (gsize) offsets[i],
                                                          (gsize) (1000000 - offsets[i]));

      g_assert_true (g_bytes_equal (got, wanted));
    }
  g_assert_false (wb_remote_get (remote, "objects/x", 1000001, append, kept, NULL, NULL, NULL,
                                 &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_PROTOCOL);
  g_assert_cmpuint (kept->len, ==, 0);
}

static void
test_list (void)
{
  static const char *const names[] = { "A.json", "Z_2", "a-1", "folder", "zz" };
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GPtrArray) none = NULL;
  g_autoptr (GPtrArray) base = NULL;
  g_autoptr (GError) error = NULL;
  gint64 now = g_get_real_time () / G_USEC_PER_SEC;

  remote_put_text (remote, "jobs/zz", "1");
  remote_put_text (remote, "jobs/a-1", "12");
  remote_put_text (remote, "jobs/A.json", "123");
  remote_put_text (remote, "jobs/Z_2", "");
  remote_put_text (remote, "jobs/folder/below", "1234");

  entries = wb_remote_list (remote, "jobs", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (entries->len, ==, G_N_ELEMENTS (names));
  for (guint i = 0; i < entries->len; i++)
    {
      const WbRemoteEntry *entry = g_ptr_array_index (entries, i);

      g_assert_cmpstr (entry->name, ==, names[i]);
      g_assert_cmpint (entry->is_folder, ==, g_str_equal (entry->name, "folder"));
      if (entry->changed != 0)
        g_assert_cmpint (ABS (entry->changed - now), <, 300);
    }
  g_assert_cmpint (((WbRemoteEntry *) entries->pdata[0])->size, ==, 3);
  g_assert_cmpint (((WbRemoteEntry *) entries->pdata[1])->size, ==, 0);
  g_assert_cmpint (((WbRemoteEntry *) entries->pdata[3])->size, ==, -1);

  base = wb_remote_list (remote, "", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (base->len, >=, 1);

  none = wb_remote_list (remote, "jobs/nothing", NULL, &error);
  g_assert_null (none);
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
}

static void
test_missing (void)
{
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GByteArray) kept = g_byte_array_new ();
  g_autoptr (GError) stat_error = NULL;
  g_autoptr (GError) get_error = NULL;
  g_autoptr (GError) remove_error = NULL;

  g_assert_false (wb_remote_stat (remote, "jobs/none", NULL, NULL, &stat_error));
  g_assert_error (stat_error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
  g_assert_false (wb_remote_get (remote, "jobs/none", 0, append, kept, NULL, NULL, NULL,
                                 &get_error));
  g_assert_error (get_error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
  g_assert_cmpuint (kept->len, ==, 0);
  g_assert_false (wb_remote_remove (remote, "jobs/none", NULL, &remove_error));
  g_assert_error (remove_error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
}

static void
test_remove (void)
{
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GError) error = NULL;

  remote_put_text (remote, "jobs/one", "1");
  remote_put_text (remote, "jobs/two", "2");
  g_assert_true (wb_remote_remove (remote, "jobs/one", NULL, &error));
  g_assert_no_error (error);
  assert_text (remote, "jobs/two", "2");
  g_assert_false (wb_remote_stat (remote, "jobs/one", NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
}

static void
test_names (void)
{
  static const char *const bad[] = {
    "", "/", "/jobs", "jobs/", "jobs//one", "..", "../jobs", "jobs/../../x", "jobs/./x", "a b",
    "a%2fb", "grün", "a\\b", "a\nb", "a?b", "a#b", "~",
  };
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GBytes) bytes = g_bytes_new_static ("text", 4);
  g_autoptr (RemoteText) text = remote_text_new (bytes);

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) put_error = NULL;
      g_autoptr (GError) stat_error = NULL;

      g_assert_false (wb_remote_put (remote, bad[i], &text->source, NULL, NULL, NULL, &put_error));
      g_assert_error (put_error, WB_SHARE_ERROR, WB_SHARE_ERROR_NAME);
      g_assert_false (wb_remote_stat (remote, bad[i], NULL, NULL, &stat_error));
      g_assert_error (stat_error, WB_SHARE_ERROR, WB_SHARE_ERROR_NAME);
    }
}

typedef struct
{
  GCancellable *cancellable;
  gint64        seen;
} Stop;

static void
cancel_midway (gint64   done,
               gint64   total,
               gpointer data)
{
  Stop *stop = data;

  stop->seen = done;
  if (done > 0)
    g_cancellable_cancel (stop->cancellable);
}

static gboolean
refuse_bytes (const guint8  *bytes,
              gsize          length,
              gpointer       data,
              GError       **error)
{
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE, "no");
  return FALSE;
}

/* Stopped in the middle, nothing is at the path, and the same remote does the next thing right. */
static void
test_cancel (void)
{
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GBytes) bytes = remote_random_bytes (8000000);
  g_autoptr (RemoteText) text = remote_text_new (bytes);
  g_autoptr (GBytes) got = NULL;
  g_autoptr (GByteArray) kept = g_byte_array_new ();
  g_autoptr (GError) error = NULL;
  Stop stop = { cancellable, 0 };

  g_assert_false (wb_remote_put (remote, "objects/big", &text->source, cancel_midway, &stop,
                                 cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_clear_error (&error);
  g_assert_false (wb_remote_stat (remote, "objects/big", NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
  g_clear_error (&error);

  g_assert_true (wb_remote_put (remote, "objects/big", &text->source, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  got = remote_get_bytes (remote, "objects/big", 0);
  g_assert_true (g_bytes_equal (got, bytes));

  g_cancellable_reset (cancellable);
  g_assert_false (wb_remote_get (remote, "objects/big", 0, append, kept, cancel_midway, &stop,
                                 cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_clear_error (&error);
  g_assert_cmpuint (kept->len, <, 8000000);

  g_assert_false (wb_remote_get (remote, "objects/big", 0, refuse_bytes, NULL, NULL, NULL, NULL,
                                 &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE);
  g_clear_error (&error);

  g_assert_true (g_cancellable_is_cancelled (cancellable));
  g_assert_false (wb_remote_stat (remote, "objects/big", NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

static void
note_step (WbProbeStep   step,
           const GError *error,
           gpointer      data)
{
  GString *steps = data;

  g_string_append_printf (steps, "%s%s ", error != NULL ? "!" : "",
                          wb_enum_nick (&wb_probe_steps, (int) step));
}

static void
test_probe (void)
{
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (GString) steps = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  gboolean good = wb_remote_probe (remote, note_step, steps, NULL, &error);

  g_assert_no_error (error);
  g_assert_true (good);
  g_assert_cmpstr (steps->str, ==,
                   "address connect trust login folder write read-back no-overwrite remove ");
  g_assert_cmpuint (count_parts (remote), ==, 0);
}

/* --- all of them ------------------------------------------------------------------------------ */

static const struct
{
  const char    *name;
  GTestFunc      run;
} cases[] = {
  { "put-and-get", test_put_and_get },
  { "from-file", test_from_file },
  { "altered-source", test_altered_source },
  { "never-overwrites", test_never_overwrites },
  { "offset", test_offset },
  { "list", test_list },
  { "missing", test_missing },
  { "remove", test_remove },
  { "names", test_names },
  { "cancel", test_cancel },
  { "probe", test_probe },
};

void
remote_cases_add (const char      *kind,
                  RemoteCasesOpen  open)
{
  open_remote = open;
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/share/remote/%s/%s", kind, cases[i].name);

      g_test_add_func (path, cases[i].run);
    }
}
