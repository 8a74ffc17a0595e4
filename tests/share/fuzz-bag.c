/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the reader of bags does with any bytes at all: it says yes or no, keeps its promises, and
 * leaves nothing behind. With clang this is a target of libFuzzer (test-fuzz builds it); linked
 * with test-mutations it runs in every build. */
#define _GNU_SOURCE   /* memfd_create () */
#include "config.h"

#include "fuzz-bag.h"

#include "share/wb-bag-name.h"
#include "share/wb-bag-tags.h"
#include "share/wb-bag.h"
#include "share/wb-share.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

static const WbBagLimits limits = {
  .max_files = 64,
  .max_bytes = 4 * 1024 * 1024,
  .max_file_bytes = 1024 * 1024,
  .max_tag_bytes = 64 * 1024,
  .max_ratio = 100,
  .ratio_slack = 64 * 1024,
};

static char *folder;

static void
remove_folder (void)
{
  g_rmdir (folder);
}

/* In memory, where there is such a place. */
static const char *
scratch_folder (void)
{
  if (folder == NULL)
    {
      g_autofree char *name = g_build_filename (g_access ("/dev/shm", W_OK) == 0 ? "/dev/shm"
                                                                                 : g_get_tmp_dir (),
                                                "wainbook-fuzz-XXXXXX", NULL);

      folder = g_strdup (g_mkdtemp (name));
      g_assert_nonnull (folder);
      atexit (remove_folder);
    }
  return folder;
}

static void
assert_empty (void)
{
  g_autoptr (GDir) dir = g_dir_open (scratch_folder (), 0, NULL);

  g_assert_true (dir == NULL || g_dir_read_name (dir) == NULL);
}

/* A fault is one of ours, in words that can be shown. */
static void
assert_fault (const GError *error)
{
  g_assert_nonnull (error);
  g_assert_true (error->domain == WB_SHARE_ERROR || error->domain == G_IO_ERROR);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
}

/* --- archives --------------------------------------------------------------------------------- */

static void
append_file (GString         *out,
             const WbBagFile *file)
{
  g_autofree char *text = NULL;
  g_autofree char *digest = NULL;
  gsize length;

  g_assert_true (wb_bag_name_check (file->path, NULL));
  g_assert_true (g_file_get_contents (file->copy, &text, &length, NULL));
  g_assert_cmpint ((gint64) length, ==, file->size);
  digest = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) text, length);
  g_assert_cmpstr (digest, ==, file->sha256);
  g_string_append_printf (out, "%s %s\n", digest, file->path);
}

char *
fuzz_payload (const guint8 *data,
              gsize         size)
{
  int fd = memfd_create ("bag", MFD_CLOEXEC);
  g_autofree char *path = g_strdup_printf ("/proc/self/fd/%d", fd);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBag) bag = NULL;
  g_autoptr (GString) out = NULL;
  GPtrArray *payload;

  g_assert_cmpint (fd, >=, 0);
  g_assert_cmpint (write (fd, data, size), ==, (gssize) size);
  bag = wb_bag_read (path, &limits, scratch_folder (), NULL, NULL, NULL, &error);
  close (fd);
  if (bag == NULL)
    {
      assert_fault (error);
      assert_empty ();
      return NULL;
    }
  out = g_string_new (NULL);
  payload = wb_bag_get_payload (bag);
  for (guint i = 0; i < payload->len; i++)
    append_file (out, g_ptr_array_index (payload, i));
  g_clear_pointer (&bag, wb_bag_free);
  assert_empty ();
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* --- texts ------------------------------------------------------------------------------------ */

static void
try_manifest (const char *text,
              gsize       length,
              gboolean    of_tags)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) lines = wb_bag_manifest_parse ("manifest-sha256.txt", text, length,
                                                       wb_bag_algorithm ("sha256"), of_tags,
                                                       &error);

  if (lines == NULL)
    {
      assert_fault (error);
      return;
    }
  for (guint i = 0; i < lines->len; i++)
    {
      const WbBagLine *line = g_ptr_array_index (lines, i);
      g_autofree char *encoded = wb_bag_name_encode (line->path);
      g_autofree char *decoded = wb_bag_name_decode (encoded);

      g_assert_true (wb_bag_name_check (line->path, NULL));
      g_assert_cmpuint (strlen (line->digest), ==, 64);
      g_assert_cmpstr (decoded, ==, line->path);
      g_assert_cmpint (g_str_has_prefix (line->path, "data/"), ==, !of_tags);
    }
}

static void
try_info (const char *text,
          gsize       length)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) elements = wb_bag_info_parse (text, length, &error);

  if (elements == NULL)
    assert_fault (error);
  for (guint i = 0; elements != NULL && i < elements->len; i++)
    {
      const WbBagElement *element = g_ptr_array_index (elements, i);
      guint64 octets, streams;

      g_assert_nonnull (element->value);
      if (wb_bag_oxum_parse (element->value, &octets, &streams))
        g_assert_true (octets <= G_MAXINT64 && streams <= G_MAXINT64);
    }
}

static void
try_name (const char *text,
          gsize       length)
{
  g_autofree char *name = g_strndup (text, length);
  g_autofree char *shown = wb_bag_name_display (name);
  g_autofree char *decoded = wb_bag_name_decode (name);
  g_autofree char *key = NULL, *again = NULL, *normal = NULL;
  g_auto (GStrv) parts = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (g_utf8_validate (shown, -1, NULL));
  if (!wb_bag_name_check (name, &error))
    {
      assert_fault (error);
      return;
    }
  parts = g_strsplit (name, "/", -1);
  g_assert_true (*name != '/' && strchr (name, '\\') == NULL);
  g_assert_false (g_strv_contains ((const char *const *) parts, ".."));
  key = wb_bag_name_key (name);
  normal = wb_bag_name_normal (name);
  again = wb_bag_name_key (normal);
  g_assert_cmpstr (key, ==, again);
}

static void
try_declaration (const char *text,
                 gsize       length)
{
  g_autoptr (GError) error = NULL;

  if (!wb_bag_declaration_check (text, length, &error))
    assert_fault (error);
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  const char *text = (const char *) data + 1;
  g_autofree char *payload = NULL;

  if (size == 0)
    return 0;
  switch (data[0] % FUZZ_N)
    {
    case FUZZ_ARCHIVE:
      payload = fuzz_payload (data + 1, size - 1);
      break;
    case FUZZ_DECLARATION:
      try_declaration (text, size - 1);
      break;
    case FUZZ_MANIFEST:
    case FUZZ_TAG_MANIFEST:
      try_manifest (text, size - 1, data[0] % FUZZ_N == FUZZ_TAG_MANIFEST);
      break;
    case FUZZ_INFO:
      try_info (text, size - 1);
      wb_bag_fetch_is_empty (text, size - 1);
      break;
    case FUZZ_NAME:
      try_name (text, size - 1);
      break;
    default:
      break;
    }
  return 0;
}
