/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of libxml2's functions, and all that is called of them. */
#include "config.h"

#include "share/wb-xml.h"

#include "share/wb-library.h"

#include <libxml/parser.h>

/* What is used of it; xmlFree is a variable that holds a function. */
#define FUNCTIONS(EACH)       \
  EACH (xmlDocGetRootElement) \
  EACH (xmlFree)              \
  EACH (xmlFreeDoc)           \
  EACH (xmlNodeGetContent)    \
  EACH (xmlReadMemory)

static struct
{
  FUNCTIONS (WB_LIBRARY_POINTER)
} xml;

static const char *const names[] = { FUNCTIONS (WB_LIBRARY_NAME) };

G_STATIC_ASSERT (sizeof xml == G_N_ELEMENTS (names) * sizeof (gpointer));

gboolean
wb_xml_open (GError **error)
{
  static WbLibrary library = { WB_SONAME_XML2, "libxml2", names, G_N_ELEMENTS (names), &xml };

  return wb_library_open (&library, error);
}

xmlDoc *
wb_xml_read (const guint8 *bytes,
             gsize         length)
{
  xmlDoc *document;

  if (length == 0 || length > G_MAXINT || !wb_xml_open (NULL))
    return NULL;
  document = xml.xmlReadMemory ((const char *) bytes, (int) length, NULL, NULL,
                             XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING |
                             XML_PARSE_NOCDATA);
  if (document != NULL && (document->intSubset != NULL || wb_xml_root (document) == NULL))
    g_clear_pointer (&document, wb_xml_free);
  return document;
}

void
wb_xml_free (xmlDoc *document)
{
  xml.xmlFreeDoc (document);
}

const xmlNode *
wb_xml_root (xmlDoc *document)
{
  return xml.xmlDocGetRootElement (document);
}

char *
wb_xml_text (const xmlNode *node)
{
  xmlChar *content = node != NULL ? xml.xmlNodeGetContent (node) : NULL;
  char *text = g_strdup (content != NULL ? (const char *) content : "");

  if (content != NULL)
    (*xml.xmlFree) (content);
  return g_strstrip (text);
}
