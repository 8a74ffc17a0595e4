/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "store/wb-store.h"

static void
test_domain (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (g_quark_to_string (WB_STORE_ERROR), ==, "wb-store-error-quark");

  g_set_error (&error, WB_STORE_ERROR, WB_STORE_ERROR_FULL, "%s", "no room");
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_FULL);
  g_assert_false (g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_BUSY));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/store/error/domain", test_domain);
  return g_test_run ();
}
