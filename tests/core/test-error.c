/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-core.h"

static void
test_domain (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (g_quark_to_string (WB_CORE_ERROR), ==, "wb-core-error-quark");

  g_set_error (&error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "%s", "outside");
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_assert_false (g_error_matches (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/error/domain", test_domain);
  return g_test_run ();
}
