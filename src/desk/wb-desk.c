/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "desk/wb-desk.h"

#include "desk/wb-application.h"

int
wb_desk_run (int    argc,
             char **argv)
{
  g_autoptr (WbApplication) app = wb_application_new ();

  return g_application_run (G_APPLICATION (app), argc, argv);
}
