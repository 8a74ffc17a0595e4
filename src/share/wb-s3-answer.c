/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The XML of a store. Its names are taken with any namespace: stores differ in
 * that. */
#include "config.h"

#include "share/wb-s3-answer.h"

#include "share/wb-share.h"
#include "share/wb-xml.h"

#include <string.h>

/* --- elements --------------------------------------------------------------------------------- */

static gboolean
is_named (const xmlNode *node,
          const char    *name)
{
  return node->type == XML_ELEMENT_NODE && strcmp ((const char *) node->name, name) == 0;
}

static const xmlNode *
next_named (const xmlNode *node,
            const char    *name)
{
  while (node != NULL && !is_named (node, name))
    node = node->next;
  return node;
}

static const xmlNode *
child_named (const xmlNode *node,
             const char    *name)
{
  return node != NULL ? next_named (node->children, name) : NULL;
}

/* Returns: (transfer full): the text of the child @name, "" for none. */
static char *
text_in (const xmlNode *node,
         const char    *name)
{
  return wb_xml_text (child_named (node, name));
}

/* A number that is at least 0; -1 for anything else. */
static gint64
number_in (const xmlNode *node,
           const char    *name)
{
  g_autofree char *text = text_in (node, name);
  guint64 number;

  return g_ascii_string_to_unsigned (text, 10, 0, G_MAXINT64, &number, NULL) ? (gint64) number : -1;
}

/* What is handed back to the store as it came. */
static gboolean
is_token (const char *text)
{
  gsize length = strlen (text);

  if (length == 0 || length > WB_S3_MAX_TOKEN)
    return FALSE;
  for (gsize i = 0; i < length; i++)
    if (!g_ascii_isgraph (text[i]))
      return FALSE;
  return TRUE;
}

/* Returns: (transfer full) (nullable): the document in @answer, if its root is @root. */
static xmlDoc *
parse (const WbAnswer *answer,
       const char     *root)
{
  g_autoptr (xmlDoc) document = NULL;

  if (answer->body != NULL)
    document = wb_xml_read (answer->body->data, answer->body->len);
  return document != NULL && is_named (wb_xml_root (document), root) ? g_steal_pointer (&document)
                                                                      : NULL;
}

static gboolean
refuse (const char  *what,
        GError     **error)
{
  return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, what,
                          "this is no answer of an object store");
}

/* --- faults ----------------------------------------------------------------------------------- */

/* "Error responses" in the API Reference; in the order of what they mean for us. */
static const struct
{
  const char   *code;
  WbShareError  error;
  const char   *why;
} faults[] = {
  { "RequestTimeTooSkewed", WB_SHARE_ERROR_CLOCK, "the clocks here and there differ too much" },
  { "RequestExpired", WB_SHARE_ERROR_CLOCK, "the clocks here and there differ too much" },
  { "SignatureDoesNotMatch", WB_SHARE_ERROR_LOGIN, "the secret access key is wrong" },
  { "InvalidAccessKeyId", WB_SHARE_ERROR_LOGIN, "the access key is not known" },
  { "InvalidSecurity", WB_SHARE_ERROR_LOGIN, "the access key was refused" },
  { "AuthorizationHeaderMalformed", WB_SHARE_ERROR_LOGIN, "the bucket is in another region" },
  { "AccessDenied", WB_SHARE_ERROR_FORBIDDEN, "the server does not allow it" },
  { "AllAccessDisabled", WB_SHARE_ERROR_FORBIDDEN, "the server does not allow it" },
  { "AccountProblem", WB_SHARE_ERROR_FORBIDDEN, "the account may not be used" },
  { "MethodNotAllowed", WB_SHARE_ERROR_FORBIDDEN, "the server does not allow it" },
  { "NoSuchBucket", WB_SHARE_ERROR_NOT_FOUND, "there is no such bucket" },
  { "InvalidBucketName", WB_SHARE_ERROR_NOT_FOUND, "there is no such bucket" },
  { "NoSuchKey", WB_SHARE_ERROR_NOT_FOUND, "it is not there" },
  { "PreconditionFailed", WB_SHARE_ERROR_EXISTS, "it is there already" },
  { "ConditionalRequestConflict", WB_SHARE_ERROR_LOCKED, "somebody else puts it there" },
  { "OperationAborted", WB_SHARE_ERROR_LOCKED, "somebody else changes it" },
  { "EntityTooLarge", WB_SHARE_ERROR_FULL, "it is larger than the server takes" },
  { "QuotaExceeded", WB_SHARE_ERROR_FULL, "there is no room left" },
  { "InsufficientStorage", WB_SHARE_ERROR_FULL, "there is no room left" },
  { "BadDigest", WB_SHARE_ERROR_PROTOCOL, "it arrived as something else" },
  { "XAmzContentSHA256Mismatch", WB_SHARE_ERROR_PROTOCOL, "it arrived as something else" },
  { "IncompleteBody", WB_SHARE_ERROR_PROTOCOL, "less came there than was sent" },
  { "PermanentRedirect", WB_SHARE_ERROR_PROTOCOL, "the bucket has another address" },
  { "TemporaryRedirect", WB_SHARE_ERROR_SERVER, "the bucket is being moved" },
  { "RequestTimeout", WB_SHARE_ERROR_TIMEOUT, "the server did not wait for it" },
  { "SlowDown", WB_SHARE_ERROR_SERVER, "the server has too much to do" },
  { "ServiceUnavailable", WB_SHARE_ERROR_SERVER, "the server has too much to do" },
};

char *
wb_s3_fault (const WbAnswer *answer)
{
  g_autoptr (xmlDoc) document = parse (answer, "Error");

  return document != NULL ? text_in (wb_xml_root (document), "Code") : g_strdup ("");
}

gboolean
wb_s3_fail (GError         **error,
            const WbAnswer  *answer,
            const char      *what,
            GError          *reason)
{
  g_autofree char *code = NULL;

  /* Cancelled, or a fault of the source or the line: the store has no say in it. */
  if (reason->domain == WB_SHARE_ERROR && answer->status >= 200)
    code = wb_s3_fault (answer);
  for (gsize i = 0; code != NULL && i < G_N_ELEMENTS (faults); i++)
    if (strcmp (faults[i].code, code) == 0)
      {
        g_error_free (reason);
        return wb_share_refuse (error, faults[i].error, what, "%s", faults[i].why);
      }
  g_propagate_error (error, reason);
  return FALSE;
}

/* --- lists ------------------------------------------------------------------------------------ */

static gint64
time_in (const xmlNode *node,
         const char    *name)
{
  g_autofree char *text = text_in (node, name);
  g_autoptr (GDateTime) when = g_date_time_new_from_iso8601 (text, NULL);

  return when != NULL ? MAX (g_date_time_to_unix (when), 0) : 0;
}

/* A file that is listed. The folder itself is, where somebody has made it by hand. */
static gboolean
read_object (const xmlNode  *node,
             const char     *prefix,
             GPtrArray      *entries,
             GError        **error)
{
  g_autofree char *key = text_in (node, "Key");

  if (!g_str_has_prefix (key, prefix))
    return TRUE;
  return wb_remote_entries_add (entries, key + strlen (prefix), number_in (node, "Size"),
                                time_in (node, "LastModified"), FALSE, error);
}

static gboolean
read_folder (const xmlNode  *node,
             const char     *prefix,
             GPtrArray      *entries,
             GError        **error)
{
  g_autofree char *folder = text_in (node, "Prefix");

  if (!g_str_has_prefix (folder, prefix) || !g_str_has_suffix (folder, "/"))
    return TRUE;
  folder[strlen (folder) - 1] = '\0';
  if (strlen (folder) <= strlen (prefix))
    return TRUE;
  return wb_remote_entries_add (entries, folder + strlen (prefix), -1, 0, TRUE, error);
}

static gboolean
read_page (const xmlNode  *root,
           const char     *prefix,
           GPtrArray      *entries,
           gboolean       *any,
           char          **next,
           GError        **error)
{
  g_autofree char *more = text_in (root, "IsTruncated");

  for (const xmlNode *node = root->children; node != NULL; node = node->next)
    {
      gboolean object = is_named (node, "Contents"), folder = is_named (node, "CommonPrefixes");

      if ((object && !read_object (node, prefix, entries, error)) ||
          (folder && !read_folder (node, prefix, entries, error)))
        return FALSE;
      if (object || folder)
        *any = TRUE;
    }
  if (strcmp (more, "true") != 0)
    return TRUE;
  *next = text_in (root, "NextContinuationToken");
  if (is_token (*next))
    return TRUE;
  g_clear_pointer (next, g_free);
  return refuse (prefix, error);
}

gboolean
wb_s3_read_list (const WbAnswer  *answer,
                 const char      *prefix,
                 GPtrArray       *entries,
                 gboolean        *any,
                 char           **next,
                 GError         **error)
{
  g_autoptr (xmlDoc) document = parse (answer, "ListBucketResult");

  *next = NULL;
  return document != NULL ? read_page (wb_xml_root (document), prefix, entries, any, next, error)
                          : refuse (prefix, error);
}

/* --- uploads ---------------------------------------------------------------------------------- */

static void
clear_part (gpointer data)
{
  g_free (((WbS3Part *) data)->tag);
}

GArray *
wb_s3_parts_new (void)
{
  GArray *parts = g_array_new (FALSE, TRUE, sizeof (WbS3Part));

  g_array_set_clear_func (parts, clear_part);
  return parts;
}

char *
wb_s3_read_upload (const WbAnswer  *answer,
                   const char      *what,
                   GError         **error)
{
  g_autoptr (xmlDoc) document = parse (answer, "InitiateMultipartUploadResult");
  g_autofree char *id = NULL;

  if (document != NULL)
    id = text_in (wb_xml_root (document), "UploadId");
  if (id != NULL && is_token (id))
    return g_steal_pointer (&id);
  refuse (what, error);
  return NULL;
}

GPtrArray *
wb_s3_read_uploads (const WbAnswer *answer,
                    const char     *key)
{
  GPtrArray *ids = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (xmlDoc) document = parse (answer, "ListMultipartUploadsResult");

  if (document == NULL)
    return ids;
  for (const xmlNode *node = child_named (wb_xml_root (document), "Upload"); node != NULL;
       node = next_named (node->next, "Upload"))
    {
      g_autofree char *found = text_in (node, "Key");
      g_autofree char *id = text_in (node, "UploadId");

      if (strcmp (found, key) == 0 && is_token (id))
        g_ptr_array_add (ids, g_steal_pointer (&id));
    }
  return ids;
}

static void
read_part (const xmlNode *node,
           GArray        *parts)
{
  gint64 number = number_in (node, "PartNumber");
  WbS3Part part = { (guint) CLAMP (number, 0, WB_S3_MAX_PARTS), number_in (node, "Size"), NULL };

  if (number < 1 || number > WB_S3_MAX_PARTS || part.size < 0 || parts->len >= WB_S3_MAX_PARTS)
    return;
  part.tag = text_in (node, "ETag");
  if (is_token (part.tag))
    g_array_append_val (parts, part);
  else
    g_free (part.tag);
}

guint
wb_s3_read_parts (const WbAnswer *answer,
                  GArray         *parts)
{
  g_autoptr (xmlDoc) document = parse (answer, "ListPartsResult");
  const xmlNode *root;
  g_autofree char *more = NULL;
  gint64 next;

  if (document == NULL)
    return 0;
  root = wb_xml_root (document);
  for (const xmlNode *node = child_named (root, "Part"); node != NULL;
       node = next_named (node->next, "Part"))
    read_part (node, parts);
  more = text_in (root, "IsTruncated");
  next = strcmp (more, "true") == 0 ? number_in (root, "NextPartNumberMarker") : 0;
  return next > 0 && next < WB_S3_MAX_PARTS ? (guint) next : 0;
}

gboolean
wb_s3_read_completed (const WbAnswer  *answer,
                      const char      *what,
                      GError         **error)
{
  g_autoptr (xmlDoc) document = parse (answer, "CompleteMultipartUploadResult");
  GError *reason = NULL;

  if (document != NULL)
    return TRUE;
  refuse (what, &reason);
  return wb_s3_fail (error, answer, what, reason);
}
