/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/** Adds a member to the object being built; a text that is not given is left out. */
void wb_tool_json_add_text (JsonBuilder *builder,
                            const char  *key,
                            const char  *text);

/** Prints what was built, for another program to read. */
void wb_tool_json_print    (JsonBuilder *builder);

G_END_DECLS
