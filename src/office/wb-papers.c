/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the papers of a job, each in its file: which there are, what the files are called, and where
 * they go. What is on them stands in the files wb-paper-*.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers.h"

#include "office/wb-file.h"
#include "office/wb-letter-send.h"
#include "office/wb-office-private.h"
#include "office/wb-papers-private.h"
#include "paper/wb-pdf.h"
#include "store/wb-store.h"

#include <glib/gi18n.h>
#include <string.h>

void
wb_paper_file_free (WbPaperFile *self)
{
  if (self == NULL)
    return;
  g_free (self->name);
  g_free (self->title);
  g_clear_pointer (&self->bytes, g_bytes_unref);
  g_free (self);
}

/**
 * Press:
 * @names: (element-type utf8): those that are taken
 */
typedef struct
{
  WbOffice     *office;
  WbPaperInput  input;
  WbPageSize    size;
  GPtrArray    *files;
  GHashTable   *names;
  WbProgress   *progress;
  GCancellable *cancellable;
} Press;

/* --- names ------------------------------------------------------------------------------------ */

#define MAX_PART 60

/* Lower-case letters and figures of ASCII, with one hyphen for what lies between. */
static void
append_plain (GString    *out,
              const char *text)
{
  gsize start = out->len;

  for (const char *at = text; at != NULL && *at != '\0' && out->len - start < MAX_PART; at++)
    if (g_ascii_isalnum (*at))
      g_string_append_c (out, g_ascii_tolower (*at));
    else if (out->len > 0 && out->str[out->len - 1] != '-')
      g_string_append_c (out, '-');
  while (out->len > start && out->str[out->len - 1] == '-')
    g_string_truncate (out, out->len - 1);
}

/* Returns: (transfer full): "claim-c-2026-0017.pdf"; with a figure behind it when that is taken. */
static char *
name_file (Press      *self,
           const char *kind,
           const char *number)
{
  g_autoptr (GString) stem = g_string_new (kind);
  gsize start;

  g_string_append_c (stem, '-');
  start = stem->len;
  append_plain (stem, number);
  if (stem->len == start)
    g_string_truncate (stem, start - 1);

  for (guint n = 1; ; n++)
    {
      g_autofree char *name = n == 1 ? g_strconcat (stem->str, ".pdf", NULL)
                                     : g_strdup_printf ("%s-%u.pdf", stem->str, n);

      if (g_hash_table_add (self->names, g_strdup (name)))
        return g_steal_pointer (&name);
    }
}

/* --- one paper -------------------------------------------------------------------------------- */

static gboolean
watch_cb (guint    page,
          guint    n_pages,
          gpointer data)
{
  Press *self = data;

  return !g_cancellable_is_cancelled (self->cancellable);
}

/* Takes @document. */
static gboolean
print (Press       *self,
       const char  *kind,
       const char  *number,
       WbDocument  *document,
       GError     **error)
{
  g_autoptr (WbDocument) taken = document;
  g_autoptr (WbPaperFile) file = g_new0 (WbPaperFile, 1);

  if (g_cancellable_set_error_if_cancelled (self->cancellable, error))
    return FALSE;
  file->bytes = wb_pdf_to_bytes (taken, self->size, watch_cb, self, error);
  if (file->bytes == NULL)
    {
      if (g_cancellable_is_cancelled (self->cancellable))
        {
          g_clear_error (error);
          g_cancellable_set_error_if_cancelled (self->cancellable, error);
        }
      return FALSE;
    }
  file->name = name_file (self, kind, number);
  file->title = g_strdup (taken->title);
  g_ptr_array_add (self->files, g_steal_pointer (&file));
  return TRUE;
}

/* --- those of a claim ------------------------------------------------------------------------- */

static const char *
claim_number (const Press *self,
              const char  *id)
{
  const WbClaim *claim = wb_job_find (self->input.job, WB_KIND_CLAIM, id);

  return claim != NULL ? claim->number : NULL;
}

static gboolean
print_worksheets (Press   *self,
                  GError **error)
{
  for (guint i = 0; i < wb_job_count (self->input.job, WB_KIND_CLAIM); i++)
    {
      const WbClaim *claim = wb_job_nth (self->input.job, WB_KIND_CLAIM, i);

      if (!print (self, "claim", claim->number, wb_paper_worksheet (&self->input, claim), error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
print_letters (Press   *self,
               GError **error)
{
  for (guint i = 0; i < wb_job_count (self->input.job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (self->input.job, WB_KIND_STEP, i);
      g_autoptr (GError) fault = NULL;
      g_autofree char *text = NULL;

      if (step->letter == NULL)
        continue;
      text = wb_office_read_letter (self->office, step->letter, self->cancellable, &fault);
      if (text == NULL && g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
        continue;
      if (text == NULL)
        {
          g_propagate_error (error, g_steal_pointer (&fault));
          return FALSE;
        }
      if (!print (self, "letter", claim_number (self, step->claim),
                  wb_paper_letter (&self->input, step, text), error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
print_statements (Press   *self,
                  GError **error)
{
  for (guint i = 0; i < wb_job_count (self->input.job, WB_KIND_CHARGE); i++)
    {
      const WbHandlerCharge *charge = wb_job_nth (self->input.job, WB_KIND_CHARGE, i);

      if (charge->statement != NULL &&
          !print (self, "statement", claim_number (self, charge->claim),
                  wb_paper_statement (&self->input, charge), error))
        return FALSE;
    }
  return TRUE;
}

/* --- all of them ------------------------------------------------------------------------------ */

/* Where the dollar and the peso of North America are paid, paper is of the size that is used
 * there. */
static WbPageSize
size_for (const char *currency)
{
  static const char *const letter[] = { "USD", "CAD", "MXN", NULL };

  return g_strv_contains (letter, currency) ? WB_PAGE_LETTER : WB_PAGE_A4;
}

static gboolean
print_all (Press   *self,
           GError **error)
{
  const WbPaperInput *input = &self->input;

  return print (self, "order", NULL, wb_paper_order (input), error) &&
         print (self, "inventory", NULL, wb_paper_inventory (input), error) &&
         (wb_job_count (input->job, WB_KIND_HANDOVER) == 0 ||
          print (self, "handovers", NULL, wb_paper_handovers (input), error)) &&
         print_worksheets (self, error) &&
         print_letters (self, error) &&
         print_statements (self, error);
}

GPtrArray *
wb_office_make_papers (WbOffice      *self,
                       WbJob         *job,
                       WbProgress    *progress,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_autoptr (GPtrArray) files = NULL;
  g_autoptr (GHashTable) names = NULL;
  g_autoptr (GError) fault = NULL;
  Press press = { .office = self, .progress = progress, .cancellable = cancellable };

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (job != NULL, NULL);

  files = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_paper_file_free);
  names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  press.files = files;
  press.names = names;
  press.size = size_for (wb_job_get_currency (job));
  press.input.job = job;
  press.input.terms = wb_terms_set_find (wb_office_get_terms (self), wb_job_order (job), &fault);
  press.input.fault = fault;
  press.input.catalog = wb_office_get_catalog (self);

  wb_progress_begin (progress, N_("Making the papers…"), 0, 0);
  return print_all (&press, error) ? g_steal_pointer (&files) : NULL;
}

/* --- into a folder ---------------------------------------------------------------------------- */

char *
wb_papers_folder_name (const WbJob *job)
{
  const char *number = wb_job_order (job)->number;
  g_autofree char *plain = g_strndup (number != NULL ? number : wb_job_get_id (job), 100);

  g_strcanon (plain, G_CSET_A_2_Z G_CSET_a_2_z G_CSET_DIGITS "-_", '-');
  /* Translators: the name of a folder; %s is the number of a job. */
  return g_strdup_printf (_("%s papers"), plain);
}

/* Nothing is written while one of the files may not be. */
static gboolean
check_folder (GPtrArray   *files,
              const char  *folder,
              GError     **error)
{
  for (guint i = 0; i < files->len; i++)
    {
      const WbPaperFile *file = g_ptr_array_index (files, i);
      g_autofree char *path = g_build_filename (folder, file->name, NULL);

      if (g_file_test (path, G_FILE_TEST_EXISTS))
        {
          g_set_error (error, G_IO_ERROR, G_IO_ERROR_EXISTS, "%s is there already", path);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
make_folder (const char    *folder,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autoptr (GFile) there = g_file_new_for_path (folder);
  g_autoptr (GError) fault = NULL;

  if (g_file_test (folder, G_FILE_TEST_IS_DIR) ||
      g_file_make_directory_with_parents (there, cancellable, &fault))
    return TRUE;
  g_propagate_prefixed_error (error, g_steal_pointer (&fault), "%s: ", folder);
  return FALSE;
}

GPtrArray *
wb_office_save_papers (WbOffice      *self,
                       WbJob         *job,
                       const char    *folder,
                       gboolean       replace,
                       WbProgress    *progress,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_autoptr (GPtrArray) files = NULL;

  g_return_val_if_fail (folder != NULL, NULL);

  files = wb_office_make_papers (self, job, progress, cancellable, error);
  if (files == NULL)
    return NULL;

  wb_progress_begin (progress, N_("Writing the papers…"), 0, 0);
  if ((!replace && !check_folder (files, folder, error)) ||
      !make_folder (folder, cancellable, error))
    return NULL;
  for (guint i = 0; i < files->len; i++)
    {
      const WbPaperFile *file = g_ptr_array_index (files, i);
      g_autofree char *path = g_build_filename (folder, file->name, NULL);

      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return NULL;
      if (!wb_file_write (path, file->bytes, replace, error))
        {
          g_prefix_error (error, "%s: ", file->name);
          return NULL;
        }
    }
  return g_steal_pointer (&files);
}

typedef struct
{
  WbJob      *job;
  char       *folder;
  gboolean    replace;
  WbProgress *progress;
} Request;

static void
request_free (gpointer data)
{
  Request *request = data;

  wb_job_unref (request->job);
  g_free (request->folder);
  g_clear_pointer (&request->progress, wb_progress_unref);
  g_free (request);
}

static void
save_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Request *request = data;
  g_autoptr (GError) error = NULL;
  GPtrArray *files = wb_office_save_papers (source, request->job, request->folder,
                                            request->replace, request->progress, cancellable,
                                            &error);

  if (files != NULL)
    g_task_return_pointer (task, files, (GDestroyNotify) g_ptr_array_unref);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_office_save_papers_async (WbOffice            *self,
                             WbJob               *job,
                             const char          *folder,
                             gboolean             replace,
                             WbProgress          *progress,
                             GCancellable        *cancellable,
                             GAsyncReadyCallback  callback,
                             gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (self, cancellable, callback, data);
  Request *request = g_new0 (Request, 1);

  request->job = wb_job_ref (job);
  request->folder = g_strdup (folder);
  request->replace = replace;
  request->progress = progress != NULL ? wb_progress_ref (progress) : NULL;
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_source_tag (task, wb_office_save_papers_async);
  g_task_set_task_data (task, request, request_free);
  g_task_run_in_thread (task, save_in_thread);
}

GPtrArray *
wb_office_save_papers_finish (WbOffice      *self,
                              GAsyncResult  *result,
                              GError       **error)
{
  return wb_office_finish (self, result, wb_office_save_papers_async, error);
}
