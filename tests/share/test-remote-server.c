/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every remote does, against a real server. Run by tests/support/with-server, which says where
 * it is; each case has a folder of its own there. */
#include "config.h"

#include "remote-cases.h"

#include "share/wb-remote-private.h"

static WbServerKind kind;

static const char *
known (const char *name)
{
  g_autofree char *variable = g_strconcat ("WB_SERVER_", name, NULL);

  return g_getenv (variable);
}

static WbServer *
describe (const char *address)
{
  WbServer *server = wb_server_new (kind, "0f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c11");

  wb_server_set (server, WB_SERVER_FIELD_NAME, "Office");
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, address);
  wb_server_set (server, WB_SERVER_FIELD_USER, known ("USER"));
  wb_server_set (server, WB_SERVER_FIELD_AUTHORITY, known ("AUTHORITY"));
  wb_server_set (server, WB_SERVER_FIELD_BUCKET, known ("BUCKET"));
  wb_server_set (server, WB_SERVER_FIELD_REGION, known ("REGION"));
  return server;
}

/* An object store has no folders: there, what a case left behind is removed. */
static void
empty (WbRemote   *remote,
       const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) entries = wb_remote_list (remote, folder, NULL, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < entries->len; i++)
    {
      const WbRemoteEntry *entry = entries->pdata[i];
      g_autofree char *path = *folder != '\0' ? g_build_path ("/", folder, entry->name, NULL)
                                              : g_strdup (entry->name);

      if (entry->is_folder)
        empty (remote, path);
      else if (!wb_remote_remove (remote, path, NULL, &error))
        g_error ("%s", error->message);
    }
}

static WbRemote *
open_empty (void)
{
  static guint number = 0;
  WbRemotePlace place = { known ("KNOWN_HOSTS"), known ("HOST_KEY"), 20, 20 };
  g_autofree char *address = kind == WB_SERVER_S3
                               ? g_strdup (known ("ADDRESS"))
                               : g_strdup_printf ("%s/case-%u", known ("ADDRESS"), number++);
  g_autoptr (WbServer) server = describe (address);
  g_autoptr (GError) error = NULL;
  WbRemote *remote = wb_remote_open (server, known ("SECRET"), &place, &error);
  gboolean made;

  g_assert_no_error (error);
  made = remote->methods->make_base (remote, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (made);
  if (kind == WB_SERVER_S3)
    empty (remote, "");
  return remote;
}

int
main (int    argc,
      char **argv)
{
  const WbEnumValue *found;

  g_test_init (&argc, &argv, NULL);
  found = argc == 2 ? wb_enum_find_nick (&wb_server_kinds, argv[1]) : NULL;
  if (found == NULL)
    g_error ("which kind of server?");
  kind = (WbServerKind) found->value;
  remote_cases_add (argv[1], open_empty);
  return g_test_run ();
}
