/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of libcurl's functions. What is asked of it stands in wb-transfer.c. */
#include "config.h"

#include "share/wb-curl.h"

static const char *const names[] = { WB_CURL_FUNCTIONS (WB_LIBRARY_NAME) };

WbCurl wb_curl;

G_STATIC_ASSERT (sizeof (WbCurl) == G_N_ELEMENTS (names) * sizeof (gpointer));

gboolean
wb_curl_open (GError **error)
{
  static WbLibrary library = { WB_SONAME_CURL, "libcurl4", names, G_N_ELEMENTS (names), &wb_curl };
  static gsize ready = 0;

  if (!wb_library_open (&library, error))
    return FALSE;
  if (g_once_init_enter (&ready))
    {
      wb_curl.curl_global_init (CURL_GLOBAL_DEFAULT);
      g_once_init_leave (&ready, 1);
    }
  return TRUE;
}
