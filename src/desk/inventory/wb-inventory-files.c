/* SPDX-License-Identifier: GPL-3.0-or-later */
/* File choosers of the inventory and its export. What stands in the file is office's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-files.h"

#include "office/wb-file.h"
#include "office/wb-inventory-csv.h"

#include <glib/gi18n.h>

/* A chooser that is open, and who asked. */
typedef struct
{
  GtkFileChooserNative *chooser;
  GtkWidget            *widget;
  WbFileChosen          chosen;
} Question;

static void
response_cb (GtkNativeDialog *dialog,
             int              response,
             Question        *question)
{
  g_autoptr (GFile) file = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  if (file != NULL)
    question->chosen (question->widget, file);

  g_object_unref (question->chooser);
  g_object_unref (question->widget);
  g_free (question);
}

static void
add_filters (GtkFileChooser *chooser)
{
  g_autoptr (GtkFileFilter) lists = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_file_filter_set_name (lists, _("Lists (CSV)"));
  gtk_file_filter_add_suffix (lists, "csv");
  gtk_file_filter_add_suffix (lists, "txt");
  gtk_file_chooser_add_filter (chooser, lists);
  gtk_file_filter_set_name (all, _("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, all);
}

static void
ask (GtkWidget            *widget,
     const char           *title,
     GtkFileChooserAction  action,
     const char           *accept,
     const char           *name,
     WbFileChosen          chosen)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  Question *question = g_new0 (Question, 1);

  question->widget = g_object_ref (widget);
  question->chosen = chosen;
  question->chooser = gtk_file_chooser_native_new (title,
                                                   GTK_IS_WINDOW (root)
                                                   ? GTK_WINDOW (root) : NULL, action,
                                                   accept, _("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (question->chooser), TRUE);
  add_filters (GTK_FILE_CHOOSER (question->chooser));
  if (name != NULL)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (question->chooser), name);
  g_signal_connect (question->chooser, "response", G_CALLBACK (response_cb), question);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (question->chooser));
}

void
wb_inventory_ask_import (GtkWidget    *widget,
                         WbFileChosen  chosen)
{
  g_return_if_fail (GTK_IS_WIDGET (widget));

  ask (widget, _("Import Lines"), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Read"), NULL, chosen);
}

void
wb_inventory_ask_export (GtkWidget    *widget,
                         const char   *number,
                         WbFileChosen  chosen)
{
  g_autofree char *name = NULL;

  g_return_if_fail (GTK_IS_WIDGET (widget));

  name = number != NULL
    /* Translators: proposed name of a file; %s is the number of a job. */
    ? g_strdup_printf (_("inventory %s.csv"), number) : g_strdup (_("inventory.csv"));
  g_strdelimit (name, "/\\:", '-');
  ask (widget, _("Export Lines"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Write"), name, chosen);
}

/* A place without a path, such as a share that only GIO knows, has GIO's own way of replacing a
 * file. */
static gboolean
write_bytes (GFile         *file,
             GBytes        *bytes,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autofree char *path = g_file_get_path (file);

  if (path != NULL)
    return wb_file_write (path, bytes, TRUE, error);
  return g_file_replace_contents (file, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes),
                                  NULL, FALSE,
                                  G_FILE_CREATE_REPLACE_DESTINATION, NULL, cancellable, error);
}

static void
write_thread (GTask        *task,
              gpointer      source,
              gpointer      task_data,
              GCancellable *cancellable)
{
  const WbJob *job = task_data;
  GFile *file = g_object_get_data (G_OBJECT (task), "file");
  g_autoptr (GBytes) bytes = wb_inventory_csv_export (job);
  g_autoptr (GError) error = NULL;

  if (write_bytes (file, bytes, cancellable, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_inventory_write_async (WbJob               *job,
                          GFile               *file,
                          GCancellable        *cancellable,
                          GAsyncReadyCallback  callback,
                          gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, callback, data);

  g_return_if_fail (job != NULL);
  g_return_if_fail (G_IS_FILE (file));

  g_task_set_source_tag (task, wb_inventory_write_async);
  g_task_set_task_data (task, wb_job_ref (job), (GDestroyNotify) wb_job_unref);
  g_object_set_data_full (G_OBJECT (task), "file", g_object_ref (file), g_object_unref);
  g_task_run_in_thread (task, write_thread);
}

gboolean
wb_inventory_write_finish (GAsyncResult  *result,
                           GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, NULL), FALSE);

  return g_task_propagate_boolean (G_TASK (result), error);
}
