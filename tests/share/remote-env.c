/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "remote-env.h"

static const struct
{
  const char    *name;
  WbServerField  field;
} fields[] = {
  { "WB_SERVER_USER", WB_SERVER_FIELD_USER },
  { "WB_SERVER_BUCKET", WB_SERVER_FIELD_BUCKET },
  { "WB_SERVER_REGION", WB_SERVER_FIELD_REGION },
  { "WB_SERVER_AUTHORITY", WB_SERVER_FIELD_AUTHORITY },
  { "WB_SERVER_KEY_FILE", WB_SERVER_FIELD_KEY_FILE },
};

static guint
seconds_of (const char *name)
{
  const char *text = g_getenv (name);

  return text != NULL ? (guint) g_ascii_strtoull (text, NULL, 10) : 0;
}

WbRemote *
remote_from_environment (const char  *below,
                         GError     **error)
{
  g_autoptr (WbServer) server = NULL;
  g_autofree char *address = g_strconcat (g_getenv ("WB_SERVER_ADDRESS"),
                                          below != NULL ? "/" : NULL, below, NULL);
  WbRemotePlace place = {
    .known_hosts = g_getenv ("WB_SERVER_KNOWN_HOSTS"),
    .confirmed_key = g_getenv ("WB_SERVER_HOST_KEY"),
    .connect_seconds = seconds_of ("WB_SERVER_CONNECT_SECONDS"),
    .stall_seconds = seconds_of ("WB_SERVER_STALL_SECONDS"),
  };
  int kind;

  if (!wb_enum_parse (&wb_server_kinds, g_getenv ("WB_SERVER_KIND"), &kind, error))
    return NULL;
  server = wb_server_new ((WbServerKind) kind, "0f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c11");
  wb_server_set (server, WB_SERVER_FIELD_NAME, "Server of this test");
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, address);
  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    if (g_getenv (fields[i].name) != NULL)
      wb_server_set (server, fields[i].field, g_getenv (fields[i].name));
  return wb_remote_open (server, g_getenv ("WB_SERVER_SECRET"), &place, error);
}
