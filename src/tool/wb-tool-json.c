/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How commands write JSON. What the documents hold stands with each command. */
#include "config.h"

#include "tool/wb-tool-json.h"

#include "tool/wb-tool-private.h"

void
wb_tool_json_add_text (JsonBuilder *builder,
                       const char  *key,
                       const char  *text)
{
  if (text == NULL || *text == '\0')
    return;

  json_builder_set_member_name (builder, key);
  json_builder_add_string_value (builder, text);
}

void
wb_tool_json_print (JsonBuilder *builder)
{
  g_autoptr (JsonNode) root = json_builder_get_root (builder);
  g_autofree char *text = json_to_string (root, TRUE);

  wb_tool_print_line ("%s\n", text);
}
