/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps of a test of a server, each with a sign and words that are filled in as it goes on. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-server-settings.h"

G_BEGIN_DECLS

#define WB_TYPE_PROBE_STEPS (wb_probe_steps_get_type ())
G_DECLARE_FINAL_TYPE (WbProbeSteps, wb_probe_steps, WB, PROBE_STEPS, GtkWidget)

/** Has the steps follow @probe; %NULL for none, and then every step waits. */
void wb_probe_steps_follow (WbProbeSteps  *self,
                            WbServerProbe *probe);

G_END_DECLS
