/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads a job document: strict, so that nothing is dropped or altered in silence, and with the
 * place of a fault in every message. It walks the field tables and names no field itself. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-job-document.h"

#include "core/wb-core.h"
#include "core/wb-json-check.h"

#include <json-glib/json-glib.h>

/* --- reading values --------------------------------------------------------------------------- */

/* Every message starts with the name of a key; callers put the way to it in front. */
G_GNUC_PRINTF (4, 5) static gboolean
fail (GError      **error,
      WbCoreError   code,
      const char   *key,
      const char   *format,
      ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);

  g_set_error (error, WB_CORE_ERROR, (int) code, "%s: %s", key, what);
  return FALSE;
}

static gboolean
read_string (JsonNode    *node,
             const char  *key,
             const char **out,
             GError     **error)
{
  if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_STRING)
    return fail (error, WB_CORE_ERROR_PARSE, key, "a text in quotation marks was expected");

  *out = json_node_get_string (node);
  if (**out == '\0')
    return fail (error, WB_CORE_ERROR_PARSE, key,
                 "the text is empty; what is not given is left out");

  return TRUE;
}

static gboolean
read_boolean (WbRecord       *record,
              const WbField  *field,
              JsonNode       *node,
              GError        **error)
{
  if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_BOOLEAN)
    return fail (error, WB_CORE_ERROR_PARSE, field->name, "true or false was expected");

  G_STRUCT_MEMBER (gboolean, record, field->offset) = json_node_get_boolean (node);
  return TRUE;
}

static gboolean
read_integer (WbRecord       *record,
              const WbField  *field,
              JsonNode       *node,
              GError        **error)
{
  g_autofree char *text = NULL;

  if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_INT64)
    return fail (error, WB_CORE_ERROR_PARSE, field->name, "a whole number was expected");

  text = g_strdup_printf ("%" G_GINT64_FORMAT, json_node_get_int (node));
  return wb_record_set_text (record, field, text, NULL, error);
}

/* Any other value is a text. It is read as a person's would be and then has to be what would be
 * written: a document in which "12.5 USD" stood would come out of the book different from how it
 * went in. */
static gboolean
read_text (WbRecord       *record,
           const WbField  *field,
           JsonNode       *node,
           const char     *currency,
           GError        **error)
{
  g_autofree char *canonical = NULL;
  const char *text = NULL;

  if (!read_string (node, field->name, &text, error) ||
      !wb_record_set_text (record, field, text, currency, error))
    return FALSE;

  if (field->type == WB_FIELD_TEXT)
    {
      /* White space at the ends is part of a text that is already there. */
      wb_set_text (&G_STRUCT_MEMBER (char *, record, field->offset), text);
      return TRUE;
    }

  canonical = wb_record_get_text (record, field);
  if (g_str_equal (canonical, text))
    return TRUE;

  return fail (error, WB_CORE_ERROR_PARSE, field->name, "“%s” has to be written “%s”", text,
               canonical);
}

static gboolean
read_field (WbRecord       *record,
            const WbField  *field,
            JsonNode       *node,
            const char     *currency,
            GError        **error)
{
  switch (field->type)
    {
    case WB_FIELD_BOOLEAN:
      return read_boolean (record, field, node, error);

    case WB_FIELD_INTEGER:
      return read_integer (record, field, node, error);

    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
    case WB_FIELD_PERCENT:
    case WB_FIELD_ENUM:
    case WB_FIELD_DATE:
    case WB_FIELD_MONEY:
    case WB_FIELD_WEIGHT:
    case WB_FIELD_VOLUME:
      return read_text (record, field, node, currency, error);
    }

  g_assert_not_reached ();
}

/* --- reading records -------------------------------------------------------------------------- */

static gboolean
read_id (JsonObject   *object,
         const char  **out,
         GError      **error)
{
  JsonNode *node = json_object_get_member (object, "id");

  if (node == NULL)
    return fail (error, WB_CORE_ERROR_MISSING, "id", "it is missing");
  if (!read_string (node, "id", out, error))
    return FALSE;
  if (!wb_record_id_is_valid (*out))
    return fail (error, WB_CORE_ERROR_PARSE, "id",
                 "“%s” is no id; an id is 1 to 64 letters, digits, points, hyphens or underscores",
                 *out);

  return TRUE;
}

static gboolean
read_fields (WbRecord    *record,
             JsonObject  *object,
             const char  *currency,
             GError     **error)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;

  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    {
      const WbField *field = wb_record_type_field (record->type, key);

      if (!record->type->single && g_str_equal (key, "id"))
        continue;
      if (field == NULL)
        return fail (error, WB_CORE_ERROR_PARSE, key, "there is no such field here");
      if (!read_field (record, field, node, currency, error))
        return FALSE;
    }

  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];

      if ((field->flags & WB_FIELD_REQUIRED) != 0 && !wb_record_field_is_set (field, record))
        return fail (error, WB_CORE_ERROR_MISSING, field->name, "it is missing");
    }

  return TRUE;
}

static WbRecord *
read_record (const WbRecordType  *type,
             JsonNode            *node,
             const char          *currency,
             GError             **error)
{
  g_autoptr (WbRecord) record = NULL;
  const char *id = type->name;

  if (!JSON_NODE_HOLDS_OBJECT (node))
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                           ": an object in braces was expected");
      return NULL;
    }
  if (!type->single && !read_id (json_node_get_object (node), &id, error))
    {
      g_prefix_error (error, ".");
      return NULL;
    }

  record = wb_record_new (type->kind, id);
  if (!read_fields (record, json_node_get_object (node), currency, error))
    {
      g_prefix_error (error, ".");
      return NULL;
    }

  return g_steal_pointer (&record);
}

/* Reads the records of one kind to the end of @records. */
static gboolean
read_array (const WbRecordType  *type,
            JsonNode            *node,
            const char          *currency,
            GPtrArray           *records,
            GError             **error)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  JsonArray *array;

  if (!JSON_NODE_HOLDS_ARRAY (node))
    return fail (error, WB_CORE_ERROR_PARSE, type->plural,
                 "an array in square brackets was expected");

  array = json_node_get_array (node);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      WbRecord *record = read_record (type, json_array_get_element (array, i), currency, error);

      if (record == NULL)
        {
          g_prefix_error (error, "%s[%u]", type->plural, i);
          return FALSE;
        }

      g_ptr_array_add (records, record);
      if (!g_hash_table_add (ids, record->id))
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                       "%s[%u].id: there are two with the id “%s”",
                       type->plural, i, record->id);
          return FALSE;
        }
    }

  return TRUE;
}

static gboolean
read_kind (const WbRecordType  *type,
           JsonObject          *root,
           const char          *currency,
           GPtrArray           *records,
           GError             **error)
{
  JsonNode *node = json_object_get_member (root, type->single ? type->name : type->plural);
  WbRecord *record;

  if (node == NULL && type->single)
    return fail (error, WB_CORE_ERROR_MISSING, type->name, "it is missing");
  if (node == NULL)
    return TRUE;
  if (!type->single)
    return read_array (type, node, currency, records, error);

  record = read_record (type, node, currency, error);
  if (record == NULL)
    {
      g_prefix_error (error, "%s", type->name);
      return FALSE;
    }

  g_ptr_array_add (records, record);
  return TRUE;
}

/* --- reading the whole ------------------------------------------------------------------------ */

static gboolean
check_keys (JsonObject  *root,
            GError     **error)
{
  static const char *const own[] = { "format", "version", "id", "currency", NULL };
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);
  JsonObjectIter iter;
  const char *key;

  for (gsize i = 0; own[i] != NULL; i++)
    g_hash_table_add (known, (gpointer) own[i]);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);

      g_hash_table_add (known, (gpointer) (type->single ? type->name : type->plural));
    }

  json_object_iter_init_ordered (&iter, root);
  while (json_object_iter_next_ordered (&iter, &key, NULL))
    {
      if (!g_hash_table_contains (known, key))
        return fail (error, WB_CORE_ERROR_PARSE, key, "there is no such part of a job");
    }

  return TRUE;
}

/* What kind of document it is; said first, because for another kind or a later version every other
 * message would mislead. */
static gboolean
check_format (JsonObject  *root,
              GError     **error)
{
  JsonNode *format = json_object_get_member (root, "format");
  JsonNode *version = json_object_get_member (root, "version");
  const char *name = NULL;

  if (format == NULL)
    return fail (error, WB_CORE_ERROR_MISSING, "format",
                 "it is missing; a job document says “%s” there", WB_JOB_DOCUMENT_FORMAT);
  if (!read_string (format, "format", &name, error))
    return FALSE;
  if (!g_str_equal (name, WB_JOB_DOCUMENT_FORMAT))
    return fail (error, WB_CORE_ERROR_PARSE, "format",
                 "“%s” is not a job document; one says “%s” there", name, WB_JOB_DOCUMENT_FORMAT);
  if (version == NULL)
    return fail (error, WB_CORE_ERROR_MISSING, "version", "it is missing");
  if (!JSON_NODE_HOLDS_VALUE (version) || json_node_get_value_type (version) != G_TYPE_INT64)
    return fail (error, WB_CORE_ERROR_PARSE, "version", "a whole number was expected");
  if (json_node_get_int (version) > WB_JOB_DOCUMENT_VERSION)
    return fail (error, WB_CORE_ERROR_RANGE, "version",
                 "the document was written by a newer version of Wainbook");
  /* Each version so far only added to the one before. */
  if (json_node_get_int (version) < 1)
    return fail (error, WB_CORE_ERROR_RANGE, "version",
                 "there is no such version; expected 1 to %d", WB_JOB_DOCUMENT_VERSION);

  return TRUE;
}

static gboolean
read_currency (JsonObject   *root,
               const char  **out,
               GError      **error)
{
  JsonNode *node = json_object_get_member (root, "currency");

  if (node == NULL)
    return fail (error, WB_CORE_ERROR_MISSING, "currency", "it is missing");
  if (!read_string (node, "currency", out, error))
    return FALSE;
  if (wb_currency_digits (*out) < 0)
    return fail (error, WB_CORE_ERROR_CURRENCY, "currency", "“%s” is not a known currency code",
                 *out);

  return TRUE;
}

static gboolean
check_references_of (const WbJob         *job,
                     const WbRecordType  *type,
                     guint                index,
                     GError             **error)
{
  gconstpointer record = wb_job_nth (job, type->kind, index);

  for (gsize i = 0; i < type->n_fields; i++)
    {
      const WbField *field = &type->fields[i];
      const char *id;

      if (field->type != WB_FIELD_REFERENCE || !wb_record_field_is_set (field, record))
        continue;
      id = G_STRUCT_MEMBER (const char *, record, field->offset);
      if (wb_job_find (job, field->refers, id) != NULL)
        continue;

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "%s[%u].%s: there is no %s “%s” in this document",
                   type->plural, index, field->name, wb_record_type (field->refers)->name, id);
      return FALSE;
    }

  return TRUE;
}

static gboolean
check_references (const WbJob  *job,
                  GError      **error)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      for (guint i = 0; i < wb_job_count (job, (WbKind) kind); i++)
        {
          if (!check_references_of (job, wb_record_type ((WbKind) kind), i, error))
            return FALSE;
        }
    }

  return TRUE;
}

static WbJob *
read_job (JsonObject  *root,
          GError     **error)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) empty = NULL;
  g_autoptr (WbJob) job = NULL;
  const char *id = NULL, *currency = NULL;

  if (!check_format (root, error) || !check_keys (root, error) ||
      !read_id (root, &id, error) || !read_currency (root, &currency, error))
    return NULL;

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      if (!read_kind (wb_record_type ((WbKind) kind), root, currency, records, error))
        return NULL;
    }

  empty = wb_job_new (id, currency);
  job = wb_job_with_many (empty, records);
  if (!check_references (job, error) || !wb_job_check (job, error))
    return NULL;

  return g_steal_pointer (&job);
}

WbJob *
wb_job_document_read (const char  *text,
                      gssize       length,
                      GError     **error)
{
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  JsonNode *root;

  g_return_val_if_fail (text != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!wb_json_check (text, length, error))
    return NULL;
  if (!json_parser_load_from_data (parser, text, length, error))
    return NULL;

  root = json_parser_get_root (parser);
  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                           "the document is not an object in braces, so it is not a job");
      return NULL;
    }

  return read_job (json_node_get_object (root), error);
}
