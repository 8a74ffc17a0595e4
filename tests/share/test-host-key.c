/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which host keys are believed, and what the file of those that were confirmed looks like. Keys and
 * fingerprints were made by OpenSSH's own ssh-keygen. */
#include "config.h"

#include "share/wb-host-key.h"
#include "share/wb-share.h"

#include <glib/gstdio.h>
#include <string.h>

#define FIRST_KEY "AAAAC3NzaC1lZDI1NTE5AAAAIGn2vBjcQ+rxb1xi/6WoiniqETARwPgGqTzawI9InLJo"
#define FIRST_FINGERPRINT "SHA256:hwCGfuHe6qNLlmiKW8tF4ZDrTDCOHdSaEcKZq/T5Tw4"
#define SECOND_KEY "AAAAE2VjZHNhLXNoYTItbmlzdHAyNTYAAAAIbmlzdHAyNTYAAABBBOYmYqIMGfcCO8mhE6qd" \
  "pDH+1n4/l53YvxfpVyFDHMPt20Qz7YAMaEtdPI/GupSXRKmpphTcJa416PwexDdGFxQ="
#define SECOND_FINGERPRINT "SHA256:Icevmw7//JC2yN8AfOUp114vT9WBHKX5Ii6GiC0RtXY"

typedef struct
{
  char   *folder;
  char   *file;
  guint8 *first;
  gsize   first_length;
  guint8 *second;
  gsize   second_length;
} Fixture;

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  fixture->folder = g_dir_make_tmp ("wb-host-key-XXXXXX", NULL);
  fixture->file = g_build_filename (fixture->folder, "deep", "known_hosts", NULL);
  fixture->first = g_base64_decode (FIRST_KEY, &fixture->first_length);
  fixture->second = g_base64_decode (SECOND_KEY, &fixture->second_length);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  g_autofree char *deep = g_path_get_dirname (fixture->file);

  g_unlink (fixture->file);
  g_rmdir (deep);
  g_rmdir (fixture->folder);
  g_free (fixture->folder);
  g_free (fixture->file);
  g_free (fixture->first);
  g_free (fixture->second);
}

static void
test_fingerprint (Fixture       *fixture,
                  gconstpointer  data)
{
  g_autofree char *first = wb_host_key_fingerprint (fixture->first, fixture->first_length);
  g_autofree char *second = wb_host_key_fingerprint (fixture->second, fixture->second_length);
  g_autofree char *kind = wb_host_key_kind (fixture->second, fixture->second_length);

  g_assert_cmpstr (first, ==, FIRST_FINGERPRINT);
  g_assert_cmpstr (second, ==, SECOND_FINGERPRINT);
  g_assert_cmpstr (kind, ==, "ecdsa-sha2-nistp256");
}

/* What a server shows may be anything. */
static void
test_no_key (Fixture       *fixture,
             gconstpointer  data)
{
  static const struct { const char *bytes; gsize length; } wrong[] = {
    { "", 0 }, { "\0\0", 2 }, { "\0\0\0\0x", 5 }, { "\0\0\0\3abc", 7 }, { "\377\377\377\377abcd", 8 },
    { "\0\0\0\3a\nbX", 8 }, { "\0\0\0\3a bX", 8 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (wb_host_key_kind ((const guint8 *) wrong[i].bytes, wrong[i].length));
      g_assert_false (wb_host_key_check (fixture->file, "host", 22, (const guint8 *) wrong[i].bytes,
                                         wrong[i].length, NULL, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_PROTOCOL);
    }
  for (gsize length = 0; length < 15; length++)
    g_assert_null (wb_host_key_kind (fixture->first, length));
}

static void
test_state (Fixture       *fixture,
            gconstpointer  data)
{
  static const struct
  {
    const char     *text;
    guint           port;
    WbHostKeyState  state;
  } cases[] = {
    { "", 22, WB_HOST_KEY_UNKNOWN },
    { "files.office.example ssh-ed25519 " FIRST_KEY "\n", 22, WB_HOST_KEY_KNOWN },
    { "FILES.office.example,192.0.2.7 ssh-ed25519 " FIRST_KEY " a comment\r\n", 22, WB_HOST_KEY_KNOWN },
    { "192.0.2.7,files.office.example ssh-ed25519 " FIRST_KEY, 22, WB_HOST_KEY_KNOWN },
    { "files.office.example ssh-ed25519 " FIRST_KEY "\n", 2022, WB_HOST_KEY_UNKNOWN },
    { "[files.office.example]:2022 ssh-ed25519 " FIRST_KEY "\n", 2022, WB_HOST_KEY_KNOWN },
    { "[files.office.example]:2022 ssh-ed25519 " FIRST_KEY "\n", 22, WB_HOST_KEY_UNKNOWN },
    { "files.office.example ecdsa-sha2-nistp256 " SECOND_KEY "\n", 22, WB_HOST_KEY_CHANGED },
    { "files.office.example ecdsa-sha2-nistp256 " SECOND_KEY "\n"
      "files.office.example ssh-ed25519 " FIRST_KEY "\n", 22, WB_HOST_KEY_KNOWN },
    { "#files.office.example ssh-ed25519 " FIRST_KEY "\n", 22, WB_HOST_KEY_UNKNOWN },
    { "@revoked files.office.example ssh-ed25519 " FIRST_KEY "\n", 22, WB_HOST_KEY_UNKNOWN },
    { "files.office.example.org ssh-ed25519 " FIRST_KEY "\n", 22, WB_HOST_KEY_UNKNOWN },
    { "files.office.example ssh-ed25519\n\n \n,\n", 22, WB_HOST_KEY_UNKNOWN },
    { "files.office.example ssh-ed25519 !!!!\n", 22, WB_HOST_KEY_CHANGED },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_test_message ("case %" G_GSIZE_FORMAT, i);
      g_assert_cmpint (wb_host_key_state (cases[i].text, "files.office.example", cases[i].port,
                                          fixture->first, fixture->first_length),
                       ==, cases[i].state);
    }
}

static void
test_confirm_once (Fixture       *fixture,
                   gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  GStatBuf found;

  g_assert_false (wb_host_key_check (fixture->file, "host", 2022, fixture->first, fixture->first_length,
                                     NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_HOST_KEY_UNKNOWN);
  g_assert_true (g_str_has_suffix (error->message, FIRST_FINGERPRINT));
  g_clear_error (&error);
  g_assert_false (g_file_test (fixture->file, G_FILE_TEST_EXISTS));

  /* Confirmed was another key than the one that is there now. */
  g_assert_false (wb_host_key_check (fixture->file, "host", 2022, fixture->first, fixture->first_length,
                                     SECOND_FINGERPRINT, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_HOST_KEY_UNKNOWN);
  g_clear_error (&error);
  g_assert_false (g_file_test (fixture->file, G_FILE_TEST_EXISTS));

  g_assert_true (wb_host_key_check (fixture->file, "host", 2022, fixture->first, fixture->first_length,
                                    FIRST_FINGERPRINT, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (fixture->file, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "[host]:2022 ssh-ed25519 " FIRST_KEY "\n");
  g_assert_cmpint (g_stat (fixture->file, &found), ==, 0);
  g_assert_cmpint (found.st_mode & 0777, ==, 0600);

  g_assert_true (wb_host_key_check (fixture->file, "Host", 2022, fixture->first, fixture->first_length,
                                    NULL, &error));
  g_assert_no_error (error);
}

/* Not even a fingerprint that was just confirmed takes the place of another. */
static void
test_changed (Fixture       *fixture,
              gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  g_assert_true (wb_host_key_check (fixture->file, "host", 22, fixture->first, fixture->first_length,
                                    FIRST_FINGERPRINT, NULL));
  g_assert_true (wb_host_key_check (fixture->file, "other", 22, fixture->first, fixture->first_length,
                                    FIRST_FINGERPRINT, NULL));
  g_file_get_contents (fixture->file, &before, NULL, NULL);
  g_assert_false (wb_host_key_check (fixture->file, "host", 22, fixture->second, fixture->second_length,
                                     SECOND_FINGERPRINT, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_HOST_KEY_CHANGED);
  g_assert_true (g_str_has_suffix (error->message, SECOND_FINGERPRINT));
  g_clear_error (&error);
  g_file_get_contents (fixture->file, &after, NULL, NULL);
  g_assert_cmpstr (after, ==, before);

  g_assert_true (wb_host_key_forget (fixture->file, "HOST", 22, &error));
  g_assert_no_error (error);
  g_clear_pointer (&after, g_free);
  g_file_get_contents (fixture->file, &after, NULL, NULL);
  g_assert_cmpstr (after, ==, "other ssh-ed25519 " FIRST_KEY "\n");
  g_assert_true (wb_host_key_check (fixture->file, "host", 22, fixture->second, fixture->second_length,
                                    SECOND_FINGERPRINT, &error));
  g_assert_no_error (error);
}

static void
test_files (Fixture       *fixture,
            gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *deep = g_path_get_dirname (fixture->file);
  g_autofree char *text = NULL;

  /* There is no file, and nothing to forget. */
  g_assert_true (wb_host_key_forget (fixture->file, "host", 22, &error));
  g_assert_no_error (error);
  g_assert_false (g_file_test (deep, G_FILE_TEST_EXISTS));

  /* A last line that was not ended. */
  g_assert_cmpint (g_mkdir (deep, 0700), ==, 0);
  g_assert_true (g_file_set_contents (fixture->file, "# ours", -1, NULL));
  g_assert_true (wb_host_key_check (fixture->file, "host", 22, fixture->first, fixture->first_length,
                                    FIRST_FINGERPRINT, &error));
  g_file_get_contents (fixture->file, &text, NULL, NULL);
  g_assert_cmpstr (text, ==, "# ours\nhost ssh-ed25519 " FIRST_KEY "\n");

  /* A folder in its place is not read as an empty file. */
  g_assert_false (wb_host_key_check (deep, "host", 22, fixture->first, fixture->first_length,
                                     FIRST_FINGERPRINT, &error));
  g_assert_nonnull (error);
  g_assert_cmpstr (g_quark_to_string (error->domain), ==, g_quark_to_string (G_IO_ERROR));
  g_clear_error (&error);

  /* Without a file nothing is kept. */
  g_assert_true (wb_host_key_check (NULL, "host", 22, fixture->first, fixture->first_length,
                                    FIRST_FINGERPRINT, &error));
  g_assert_no_error (error);
}

int
main (int    argc,
      char **argv)
{
  static const struct
  {
    const char *path;
    void      (*run) (Fixture *, gconstpointer);
  } cases[] = {
    { "fingerprint", test_fingerprint }, { "no-key", test_no_key }, { "state", test_state },
    { "confirm-once", test_confirm_once }, { "changed", test_changed }, { "files", test_files },
  };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/share/host-key/", cases[i].path, NULL);

      g_test_add (path, Fixture, NULL, set_up, cases[i].run, tear_down);
    }
  return g_test_run ();
}
