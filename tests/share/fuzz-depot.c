/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the reader of a published version does with any bytes at all: it says yes or no, and what it
 * says yes to can be written and read again. With clang this is a target of libFuzzer (test-fuzz
 * builds it); linked with test-depot-mutations it runs in every build. */
#include "config.h"

#include "fuzz-depot.h"

#include "share/wb-bag-name.h"
#include "share/wb-depot-version.h"
#include "share/wb-share.h"

#include <string.h>

static void
check_file (const WbVersionFile *file,
            gboolean             named)
{
  g_assert_true (named ? wb_bag_name_check (file->name, NULL) : file->name == NULL);
  g_assert_true (wb_version_is_hash (file->sha256));
  g_assert_true (file->size >= 0 && file->size <= WB_VERSION_MAX_SIZE);
}

static void
check_version (const WbVersion *version)
{
  g_assert_true (wb_version_is_job (version->job));
  g_assert_null (strchr (version->job, '/'));
  g_assert_true (version->number >= 1 && version->number <= WB_VERSION_MAX_NUMBER);
  g_assert_cmpuint (g_strv_length (version->parents), <=, WB_VERSION_MAX_PARENTS);
  g_assert_cmpuint (version->files->len, <=, WB_VERSION_MAX_FILES);
  g_assert_cmpuint (g_hash_table_size (version->summary), <=, WB_VERSION_MAX_SUMMARY);
  g_assert_true (g_utf8_validate (version->by, -1, NULL));
  check_file (&version->document, FALSE);
  for (guint i = 0; i < version->files->len; i++)
    check_file (g_ptr_array_index (version->files, i), TRUE);
}

/* What was read, written and read is the same, byte by byte. */
static void
check_round_trip (WbVersion *version)
{
  g_autoptr (GBytes) bytes = wb_version_write (version);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbVersion) again = wb_version_read ("again", bytes, &error);
  g_autoptr (GBytes) second = NULL;

  g_assert_no_error (error);
  g_assert_cmpstr (again->sha256, ==, version->sha256);
  second = wb_version_write (again);
  g_assert_true (g_bytes_equal (bytes, second));
}

gboolean
fuzz_version (const guint8 *data,
              gsize         size)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbVersion) version = wb_version_read ("file", bytes, &error);

  if (version == NULL)
    {
      g_assert_nonnull (error);
      g_assert_true (error->domain == WB_SHARE_ERROR);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      return FALSE;
    }
  g_assert_no_error (error);
  check_version (version);
  check_round_trip (version);
  return TRUE;
}

static void
try_name (const guint8 *data,
          gsize         size)
{
  g_autofree char *name = g_strndup ((const char *) data, size);
  g_autofree char *sha256 = NULL;
  g_autofree char *again = NULL;
  gint64 number;

  if (!wb_version_file_name_read (name, &number, &sha256))
    return;
  again = wb_version_file_name (number, sha256);
  g_assert_cmpstr (again, ==, name);
}

int
LLVMFuzzerTestOneInput (const guint8 *data,
                        gsize         size)
{
  fuzz_version (data, size);
  if (size < 200)
    try_name (data, size);
  return 0;
}
