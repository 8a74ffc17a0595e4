/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on the file servers of the office: add one, list them, try one, remove one. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- add -------------------------------------------------------------------------------------- */

/* The book may be used from another folder than this command. */
static void
set_file (WbServer      *server,
          WbServerField  field,
          const char    *path)
{
  g_autofree char *absolute = path != NULL ? g_canonicalize_filename (path, NULL) : NULL;

  wb_server_set (server, field, absolute);
}

/* %NULL with the fault told. */
static WbServer *
server_of (const WbToolOptions *options)
{
  g_autoptr (WbServer) server = NULL;
  g_autoptr (GError) error = NULL;
  int kind;

  if (!wb_enum_parse (&wb_server_kinds, options->arguments[2], &kind, &error))
    {
      wb_tool_fail (options->arguments[2], error);
      return NULL;
    }
  server = wb_server_new ((WbServerKind) kind, NULL);
  wb_server_set (server, WB_SERVER_FIELD_NAME, options->arguments[1]);
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, options->arguments[3]);
  wb_server_set (server, WB_SERVER_FIELD_USER, options->user);
  wb_server_set (server, WB_SERVER_FIELD_BUCKET, options->bucket);
  wb_server_set (server, WB_SERVER_FIELD_REGION, options->region);
  set_file (server, WB_SERVER_FIELD_AUTHORITY, options->authority);
  set_file (server, WB_SERVER_FIELD_KEY_FILE, options->key_file);
  return g_steal_pointer (&server);
}

int
wb_tool_server_add (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbServer) server = office != NULL ? server_of (options) : NULL;
  g_autoptr (WbServer) stored = NULL;
  g_autoptr (WbSecret) secret = NULL;
  g_autoptr (GError) error = NULL;
  WbSecretPlace place = WB_SECRET_SERVICE;

  if (server == NULL)
    return WB_TOOL_FAILED;
  if (wb_server_wants_secret (server) && !options->ask_later)
    {
      secret = wb_tool_ask_secret (server);
      if (secret == NULL)
        return WB_TOOL_FAILED;
    }
  stored = wb_office_put_server (office, server, secret, &place, NULL, &error);
  if (stored == NULL)
    return wb_tool_fail (options->arguments[1], error);

  wb_tool_print_line (_("Added the server “%s”.\n"), stored->name);
  if (secret != NULL && place == WB_SECRET_SESSION)
    wb_tool_print_line (_("There is no secret service here to keep the password, so it will be "
                          "asked for each time.\n"));
  return WB_TOOL_DONE;
}

/* --- list ------------------------------------------------------------------------------------- */

static void
print_servers (GPtrArray *servers)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("llll");
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < servers->len; i++)
    {
      const WbServer *server = g_ptr_array_index (servers, i);

      wb_text_table_add_row (table, server->name,
                             wb_words_enum (&wb_server_kinds, (int) server->kind), server->address,
                             server->user != NULL ? server->user : "");
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
print_servers_json (GPtrArray *servers)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < servers->len; i++)
    {
      const WbServer *server = g_ptr_array_index (servers, i);

      json_builder_begin_object (builder);
      wb_tool_json_add_text (builder, "id", server->id);
      wb_tool_json_add_text (builder, "kind", wb_enum_nick (&wb_server_kinds, (int) server->kind));
      for (int field = 0; field <= WB_SERVER_FIELD_KEY_FILE; field++)
        wb_tool_json_add_text (builder, wb_enum_nick (&wb_server_fields, field),
                               wb_server_get (server, (WbServerField) field));
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

int
wb_tool_server_list (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GPtrArray) servers = NULL;
  g_autoptr (GError) error = NULL;

  if (office == NULL)
    return WB_TOOL_FAILED;
  servers = wb_office_list_servers (office, NULL, &error);
  if (servers == NULL)
    return wb_tool_fail (NULL, error);
  if (options->json)
    print_servers_json (servers);
  else
    print_servers (servers);
  return WB_TOOL_DONE;
}

/* --- test ------------------------------------------------------------------------------------- */

static void
step_done (WbProbeStep   step,
           const GError *error,
           gpointer      data)
{
  const char *label = wb_words_enum (&wb_probe_steps, (int) step);

  /* Translators: what is tried, as a statement that holds or does not. */
  wb_tool_print_line (error == NULL ? _("%s: yes\n") : _("%s: no\n"), label);
}

int
wb_tool_server_test (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbServer) server = office != NULL ? wb_tool_find_server (office, options->arguments[1])
                                               : NULL;
  g_autoptr (WbSecret) secret = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *key = NULL;

  if (server == NULL || !wb_tool_need_secret (server, &secret))
    return WB_TOOL_FAILED;
  if (wb_office_probe_server (office, server, secret, options->host_key, step_done, NULL, NULL,
                              &error))
    {
      wb_tool_print_line (_("All that publishing needs works there.\n"));
      return WB_TOOL_DONE;
    }

  wb_tool_fail (server->name, error);
  key = wb_server_host_key_of (error);
  if (key != NULL)
    wb_tool_complain (_("If whoever looks after the server says that this is its key, go on with "
                        "--host-key %s."), key);
  return WB_TOOL_FAILED;
}

/* --- forget-key ------------------------------------------------------------------------------- */

int
wb_tool_server_forget_key (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbServer) server = office != NULL ? wb_tool_find_server (office, options->arguments[1])
                                               : NULL;
  g_autoptr (GError) error = NULL;

  if (server == NULL)
    return WB_TOOL_FAILED;
  if (server->kind != WB_SERVER_SFTP)
    {
      wb_tool_complain (_("“%s” is no SFTP server, so it has no key to forget."), server->name);
      return WB_TOOL_FAILED;
    }
  if (!wb_office_forget_host_key (office, server, NULL, &error))
    return wb_tool_fail (server->name, error);
  wb_tool_print_line (_("Forgot the key of “%s”. Another computer may have taken its place: ask "
                        "whoever looks after the server why the key is another one, and for its "
                        "fingerprint, before you confirm one with “wainbook server test”.\n"),
                      server->name);
  return WB_TOOL_DONE;
}

/* --- remove ----------------------------------------------------------------------------------- */

int
wb_tool_server_remove (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbServer) server = office != NULL ? wb_tool_find_server (office, options->arguments[1])
                                               : NULL;
  g_autoptr (GError) error = NULL;

  if (server == NULL)
    return WB_TOOL_FAILED;
  if (!wb_office_remove_server (office, server->id, NULL, &error))
    return wb_tool_fail (server->name, error);
  wb_tool_print_line (_("Removed the server “%s”; what lies on it stays there.\n"), server->name);
  return WB_TOOL_DONE;
}
