/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Freezing a reckoning and making it again. What is kept are four documents: the job, the terms
 * file, the reckoning's canonical listing, and a sheet in JSON that names the three by their
 * hashes. What a reckoning is stands in core; where documents are kept, in the store. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-frozen-reckoning.h"

#include "core/wb-core.h"
#include "core/wb-json-check.h"
#include "office/wb-job-document.h"
#include "office/wb-office-private.h"

#include <json-glib/json-glib.h>

#include <string.h>

#define SHEET_FORMAT  "wainbook-frozen-reckoning"
#define SHEET_VERSION 1

/* --- freezing --------------------------------------------------------------------------------- */

static void
add_member (JsonBuilder *builder,
            const char  *name,
            const char  *text)
{
  json_builder_set_member_name (builder, name);
  json_builder_add_string_value (builder, text);
}

static void
add_date (JsonBuilder *builder,
          const char  *name,
          const GDate *date)
{
  g_autofree char *text = wb_date_to_text (date);

  add_member (builder, name, text);
}

/* @hashes: of the job, the terms file and the reckoning. */
static GBytes *
make_sheet (const WbReckoning *reckoning,
            const GDate       *on,
            GPtrArray         *hashes)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonNode) root = NULL;
  char *text;

  json_builder_begin_object (builder);
  add_member (builder, "format", SHEET_FORMAT);
  json_builder_set_member_name (builder, "version");
  json_builder_add_int_value (builder, SHEET_VERSION);
  add_date (builder, "on", on);
  add_member (builder, "number", reckoning->claim->number);
  add_member (builder, "claim", reckoning->claim->record.id);
  add_member (builder, "job", g_ptr_array_index (hashes, 0));
  add_member (builder, "terms", g_ptr_array_index (hashes, 1));
  add_member (builder, "terms_file", reckoning->terms->file);
  add_date (builder, "terms_from", &reckoning->terms->from);
  add_member (builder, "reckoning", g_ptr_array_index (hashes, 2));
  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  text = json_to_string (root, TRUE);
  return g_bytes_new_take (text, strlen (text));
}

static GBytes *
bytes_of (char *text)
{
  return g_bytes_new_take (text, strlen (text));
}

static char *
keep (WbOffice           *self,
      const WbReckoning  *reckoning,
      const GDate        *on,
      GCancellable       *cancellable,
      GError            **error)
{
  WbBook *book = wb_office_get_book (self);
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_autoptr (GPtrArray) sheet = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_autoptr (GPtrArray) hashes = NULL;
  g_autoptr (GPtrArray) sheet_hash = NULL;

  g_ptr_array_add (parts, bytes_of (wb_job_document_write (reckoning->job)));
  g_ptr_array_add (parts, g_bytes_ref (reckoning->terms->text));
  g_ptr_array_add (parts, bytes_of (wb_reckoning_to_text (reckoning)));
  hashes = wb_book_keep_documents (book, parts, cancellable, error);
  if (hashes == NULL)
    return NULL;
  g_ptr_array_add (sheet, make_sheet (reckoning, on, hashes));
  sheet_hash = wb_book_keep_documents (book, sheet, cancellable, error);
  return sheet_hash != NULL ? g_strdup (g_ptr_array_index (sheet_hash, 0)) : NULL;
}

char *
wb_office_freeze_reckoning (WbOffice      *self,
                            WbJob         *job,
                            const char    *claim_id,
                            const GDate   *on,
                            GCancellable  *cancellable,
                            GError       **error)
{
  g_autoptr (WbReckoning) reckoning = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (job != NULL && claim_id != NULL, NULL);
  g_return_val_if_fail (wb_date_is_set (on), NULL);

  reckoning = wb_office_reckon (self, job, claim_id, error);
  return reckoning != NULL ? keep (self, reckoning, on, cancellable, error) : NULL;
}

static gpointer
run_freeze (WbOffice      *self,
            const WbDeed  *deed,
            GCancellable  *cancellable,
            GError       **error)
{
  GDate today;

  wb_office_today (&today);
  return wb_office_freeze_reckoning (self, deed->job, deed->text, &today, cancellable, error);
}

void
wb_office_freeze_reckoning_async (WbOffice            *self,
                                  WbJob               *job,
                                  const char          *claim_id,
                                  GCancellable        *cancellable,
                                  GAsyncReadyCallback  callback,
                                  gpointer             data)
{
  WbDeed *deed;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (job != NULL && claim_id != NULL);

  deed = g_new0 (WbDeed, 1);
  deed->run = run_freeze;
  deed->free_result = g_free;
  deed->job = wb_job_ref (job);
  deed->text = g_strdup (claim_id);
  wb_office_start (self, deed, wb_office_freeze_reckoning_async, cancellable, callback, data);
}

char *
wb_office_freeze_reckoning_finish (WbOffice      *self,
                                   GAsyncResult  *result,
                                   GError       **error)
{
  return wb_office_finish (self, result, wb_office_freeze_reckoning_async, error);
}

/* --- the sheet read --------------------------------------------------------------------------- */

typedef struct
{
  JsonNode   *root;         /* holds the texts */
  GDate       on;
  const char *number;
  const char *claim;
  const char *job;
  const char *terms;
  const char *terms_file;
  GDate       terms_from;
  const char *reckoning;
} Sheet;

static void
sheet_clear (Sheet *self)
{
  g_clear_pointer (&self->root, json_node_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Sheet, sheet_clear)

static gboolean
refuse (GError     **error,
        const char  *member)
{
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
               "the sheet of a frozen reckoning cannot be read: “%s” is missing or not as expected",
               member);
  return FALSE;
}

static gboolean
read_text (JsonObject  *object,
           const char  *member,
           const char **out,
           GError     **error)
{
  JsonNode *node = json_object_get_member (object, member);

  if (node == NULL || json_node_get_value_type (node) != G_TYPE_STRING)
    return refuse (error, member);
  *out = json_node_get_string (node);
  return TRUE;
}

static gboolean
read_date (JsonObject  *object,
           const char  *member,
           GDate       *out,
           GError     **error)
{
  const char *text;

  return read_text (object, member, &text, error) &&
         (wb_date_parse (text, out, NULL) || refuse (error, member));
}

static gboolean
read_members (JsonObject  *object,
              Sheet       *out,
              GError     **error)
{
  const char *format;

  if (!read_text (object, "format", &format, error))
    return FALSE;
  if (strcmp (format, SHEET_FORMAT) != 0)
    return refuse (error, "format");
  return read_date (object, "on", &out->on, error) &&
         read_text (object, "number", &out->number, error) &&
         read_text (object, "claim", &out->claim, error) &&
         read_text (object, "job", &out->job, error) &&
         read_text (object, "terms", &out->terms, error) &&
         read_text (object, "terms_file", &out->terms_file, error) &&
         read_date (object, "terms_from", &out->terms_from, error) &&
         read_text (object, "reckoning", &out->reckoning, error);
}

static gboolean
read_sheet (GBytes  *bytes,
            Sheet   *out,
            GError **error)
{
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();

  if (!wb_json_check (text, (gssize) length, error) ||
      !json_parser_load_from_data (parser, text, (gssize) length, error))
    return FALSE;
  out->root = json_node_ref (json_parser_get_root (parser));
  if (!JSON_NODE_HOLDS_OBJECT (out->root))
    return refuse (error, "format");
  return read_members (json_node_get_object (out->root), out, error);
}

/* --- making it again -------------------------------------------------------------------------- */

/* What was kept, in bytes. */
typedef struct
{
  GBytes *job;
  GBytes *terms;
  GBytes *reckoning;
} Kept;

static void
kept_clear (Kept *self)
{
  g_clear_pointer (&self->job, g_bytes_unref);
  g_clear_pointer (&self->terms, g_bytes_unref);
  g_clear_pointer (&self->reckoning, g_bytes_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Kept, kept_clear)

static gboolean
read_kept (WbBook        *book,
           const Sheet   *sheet,
           Kept          *out,
           GCancellable  *cancellable,
           GError       **error)
{
  return (out->job = wb_book_read_document (book, sheet->job, cancellable, error)) != NULL &&
         (out->terms = wb_book_read_document (book, sheet->terms, cancellable, error)) != NULL &&
         (out->reckoning = wb_book_read_document (book, sheet->reckoning, cancellable,
                                                  error)) != NULL;
}

/* Returns: (transfer full): the edition that governed. */
static WbTerms *
read_terms (GBytes       *bytes,
            const Sheet  *sheet,
            GError      **error)
{
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);
  g_autoptr (GPtrArray) editions = wb_terms_parse (text, length, sheet->terms_file, error);

  for (guint i = 0; editions != NULL && i < editions->len; i++)
    {
      WbTerms *edition = g_ptr_array_index (editions, i);

      if (g_date_compare (&edition->from, &sheet->terms_from) == 0)
        return wb_terms_ref (edition);
    }
  if (editions != NULL)
    refuse (error, "terms_from");
  return NULL;
}

static WbReckoning *
make_again (const Kept   *kept,
            const Sheet  *sheet,
            GError      **error)
{
  gsize length;
  const char *text = g_bytes_get_data (kept->job, &length);
  g_autoptr (WbJob) job = wb_job_document_read (text, (gssize) length, error);
  g_autoptr (WbTerms) terms = job != NULL ? read_terms (kept->terms, sheet, error) : NULL;

  return terms != NULL ? wb_reckon (terms, job, sheet->claim, error) : NULL;
}

static char *
line_at (const char *text)
{
  return *text != '\0' ? g_strndup (text, strcspn (text, "\n")) : NULL;
}

/* Both texts up to the first line in which they differ. */
static void
compare (WbFrozenCheck *check,
         const char    *kept,
         const char    *made)
{
  gsize start = 0;

  for (gsize i = 0; kept[i] != '\0' && kept[i] == made[i]; i++)
    if (kept[i] == '\n')
      start = i + 1;
  check->reproduced = strcmp (kept, made) == 0;
  if (check->reproduced)
    return;
  check->kept_line = line_at (kept + start);
  check->made_line = line_at (made + start);
}

static gboolean
terms_are_changed (WbOffice      *self,
                   const WbJob   *job,
                   const WbTerms *then)
{
  const WbTerms *now = wb_terms_set_find (wb_office_get_terms (self), wb_job_order (job), NULL);

  return now == NULL || strcmp (now->digest, then->digest) != 0;
}

void
wb_frozen_check_free (WbFrozenCheck *self)
{
  if (self == NULL)
    return;
  g_free (self->number);
  g_free (self->kept_line);
  g_free (self->made_line);
  g_free (self);
}

WbFrozenCheck *
wb_office_verify_reckoning (WbOffice      *self,
                            const char    *hash,
                            GCancellable  *cancellable,
                            GError       **error)
{
  g_auto (Sheet) sheet = { NULL };
  g_auto (Kept) kept = { NULL };
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (WbReckoning) made = NULL;
  g_autoptr (WbFrozenCheck) check = g_new0 (WbFrozenCheck, 1);
  g_autofree char *made_text = NULL;
  g_autofree char *kept_text = NULL;
  gsize length;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (hash != NULL, NULL);

  bytes = wb_book_read_document (wb_office_get_book (self), hash, cancellable, error);
  if (bytes == NULL || !read_sheet (bytes, &sheet, error) ||
      !read_kept (wb_office_get_book (self), &sheet, &kept, cancellable, error))
    return NULL;
  made = make_again (&kept, &sheet, error);
  if (made == NULL)
    return NULL;

  check->on = sheet.on;
  check->number = g_strdup (sheet.number);
  check->terms_changed = terms_are_changed (self, made->job, made->terms);
  made_text = wb_reckoning_to_text (made);
  length = g_bytes_get_size (kept.reckoning);
  kept_text = g_strndup (g_bytes_get_data (kept.reckoning, NULL), length);
  compare (check, kept_text, made_text);
  return g_steal_pointer (&check);
}

static gpointer
run_verify (WbOffice      *self,
            const WbDeed  *deed,
            GCancellable  *cancellable,
            GError       **error)
{
  return wb_office_verify_reckoning (self, deed->text, cancellable, error);
}

void
wb_office_verify_reckoning_async (WbOffice            *self,
                                  const char          *hash,
                                  GCancellable        *cancellable,
                                  GAsyncReadyCallback  callback,
                                  gpointer             data)
{
  WbDeed *deed;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (hash != NULL);

  deed = g_new0 (WbDeed, 1);
  deed->run = run_verify;
  deed->free_result = (GDestroyNotify) wb_frozen_check_free;
  deed->text = g_strdup (hash);
  wb_office_start (self, deed, wb_office_verify_reckoning_async, cancellable, callback, data);
}

WbFrozenCheck *
wb_office_verify_reckoning_finish (WbOffice      *self,
                                   GAsyncResult  *result,
                                   GError       **error)
{
  return wb_office_finish (self, result, wb_office_verify_reckoning_async, error);
}
