/* SPDX-License-Identifier: GPL-3.0-or-later */
/* XML that a server sends, through libxml2, which is opened for the first server that sends any.
 * What is in it means nothing here. */
#pragma once

#include <glib-object.h>
#include <libxml/tree.h>

G_BEGIN_DECLS

/** Opens libxml2, once. Returns: whether XML can be read; %FALSE with %WB_SHARE_ERROR_LIBRARY */
gboolean       wb_xml_open  (GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the document in @bytes; %NULL if they are not well-formed
 * XML, or declare entities or anything else of a document type, which no server has to */
xmlDoc        *wb_xml_read  (const guint8   *bytes,
                             gsize           length) G_GNUC_WARN_UNUSED_RESULT;
void           wb_xml_free  (xmlDoc         *document);

/** Returns: (transfer none): the outermost element of a document that was read */
const xmlNode *wb_xml_root  (xmlDoc         *document);

/** @node: (nullable). Returns: (transfer full): the text in it without white space around, "" for
 * none */
char          *wb_xml_text  (const xmlNode  *node) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (xmlDoc, wb_xml_free)

G_END_DECLS
