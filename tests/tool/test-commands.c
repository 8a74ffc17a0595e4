/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/wb-tool.h"

static void
test_known (void)
{
  g_assert_true (wb_tool_is_command ("help"));
  g_assert_true (wb_tool_is_command ("version"));
  g_assert_false (wb_tool_is_command ("hel"));
  g_assert_false (wb_tool_is_command (""));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tool/commands/known", test_known);
  return g_test_run ();
}
