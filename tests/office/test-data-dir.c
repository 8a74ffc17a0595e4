/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-data-dir.h"

static void
test_environment (void)
{
  g_autofree char *path = NULL;

  g_setenv ("WAINBOOK_DATA_DIR", "/nowhere/data", TRUE);
  path = wb_data_dir_build_path ("terms", "example.json", NULL);
  g_assert_cmpstr (path, ==, "/nowhere/data/terms/example.json");
}

static void
test_installed (void)
{
  g_autofree char *path = NULL;

  g_setenv ("WAINBOOK_DATA_DIR", "", TRUE);
  path = wb_data_dir_build_path ("terms", NULL);
  g_assert_cmpstr (path, ==, WB_PKGDATADIR "/terms");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/data-dir/environment", test_environment);
  g_test_add_func ("/office/data-dir/installed", test_installed);
  return g_test_run ();
}
