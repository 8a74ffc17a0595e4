/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The XML of PROPFIND. */
#include "config.h"

#include "share/wb-dav-answer.h"

#include "share/wb-share.h"
#include "share/wb-transfer.h"
#include "share/wb-xml.h"

#include <string.h>

#define DAV "DAV:"

typedef struct
{
  const char    *path;
  WbRemoteEntry *self;
  GPtrArray     *entries;   /* (nullable) */
} Reader;

/* --- elements --------------------------------------------------------------------------------- */

static gboolean
is_dav (const xmlNode *node,
        const char    *name)
{
  return node->type == XML_ELEMENT_NODE && node->ns != NULL &&
         strcmp ((const char *) node->ns->href, DAV) == 0 &&
         strcmp ((const char *) node->name, name) == 0;
}

static const xmlNode *
next_dav (const xmlNode *node,
          const char    *name)
{
  while (node != NULL && !is_dav (node, name))
    node = node->next;
  return node;
}

static const xmlNode *
child_dav (const xmlNode *node,
           const char    *name)
{
  return node != NULL ? next_dav (node->children, name) : NULL;
}

/* Returns: (nullable): the properties that the server has, of @response. */
static const xmlNode *
good_properties (const xmlNode *response)
{
  for (const xmlNode *propstat = child_dav (response, "propstat"); propstat != NULL;
       propstat = next_dav (propstat->next, "propstat"))
    {
      g_autofree char *status = wb_xml_text (child_dav (propstat, "status"));

      if (strstr (status, " 200") != NULL)
        return child_dav (propstat, "prop");
    }
  return NULL;
}

/* --- one response ----------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): the path of @href, unescaped, without "/" at its end; %NULL
 * if it is none. */
static char *
path_of_href (const char *href)
{
  const char *start = href;
  const char *host = strstr (href, "://");
  g_autofree char *path = NULL;
  gsize length;

  if (*href != '/' && host != NULL)
    start = strchr (host + 3, '/');
  if (start == NULL || *start != '/')
    return NULL;
  path = g_uri_unescape_string (start, NULL);
  if (path == NULL || !g_utf8_validate (path, -1, NULL))
    return NULL;
  for (length = strlen (path); length > 0 && path[length - 1] == '/'; length--)
    path[length - 1] = '\0';
  return g_steal_pointer (&path);
}

static void
read_properties (const xmlNode *prop,
                 WbRemoteEntry *entry)
{
  g_autofree char *length = wb_xml_text (child_dav (prop, "getcontentlength"));
  g_autofree char *changed = wb_xml_text (child_dav (prop, "getlastmodified"));
  guint64 size;

  entry->is_folder = child_dav (child_dav (prop, "resourcetype"), "collection") != NULL;
  entry->size = -1;
  if (!entry->is_folder && g_ascii_string_to_unsigned (length, 10, 0, G_MAXINT64, &size, NULL))
    entry->size = (gint64) size;
  entry->changed = wb_transfer_read_date (changed);
}

static gboolean
is_child (const char  *path,
          const char  *folder,
          const char **name)
{
  gsize length = strlen (folder);

  if (strncmp (path, folder, length) != 0 || path[length] != '/')
    return FALSE;
  *name = path + length + 1;
  return strchr (*name, '/') == NULL;
}

static gboolean
read_response (Reader         *reader,
               const xmlNode  *response,
               GError        **error)
{
  g_autofree char *href = wb_xml_text (child_dav (response, "href"));
  g_autofree char *path = path_of_href (href);
  const xmlNode *prop = good_properties (response);
  WbRemoteEntry found = { NULL };
  const char *name;

  if (path == NULL || prop == NULL)
    return TRUE;
  read_properties (prop, &found);
  if (strcmp (path, reader->path) == 0 && reader->self->name == NULL)
    {
      *reader->self = found;
      reader->self->name = g_path_get_basename (*path != '\0' ? path : "/");
      return TRUE;
    }
  if (reader->entries == NULL || !is_child (path, reader->path, &name))
    return TRUE;
  return wb_remote_entries_add (reader->entries, name, found.size, found.changed, found.is_folder,
                                error);
}

/* --- the whole -------------------------------------------------------------------------------- */

static gboolean
read_multistatus (Reader   *reader,
                  xmlDoc   *document,
                  GError  **error)
{
  const xmlNode *root = document != NULL ? wb_xml_root (document) : NULL;

  if (root == NULL || !is_dav (root, "multistatus"))
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, reader->path,
                            "this is no answer of a WebDAV server");
  for (const xmlNode *response = child_dav (root, "response"); response != NULL;
       response = next_dav (response->next, "response"))
    if (!read_response (reader, response, error))
      return FALSE;
  return reader->self->name != NULL ||
         wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, reader->path,
                          "the server answers of something else");
}

gboolean
wb_dav_answer_read (const guint8   *bytes,
                    gsize           length,
                    const char     *path,
                    WbRemoteEntry  *self,
                    GPtrArray      *entries,
                    GError        **error)
{
  g_auto (WbRemoteEntry) found = { NULL };
  Reader reader = { path, &found, entries };
  g_autoptr (xmlDoc) document = wb_xml_read (bytes, length);
  gboolean good = read_multistatus (&reader, document, error);

  if (good)
    {
      *self = found;
      found.name = NULL;
    }
  return good;
}
