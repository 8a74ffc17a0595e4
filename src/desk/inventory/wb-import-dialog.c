/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report of an import. Reading and judging the rows is office's; this shows what it found and
 * hands the new job to the model when the person says so. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-import-dialog.h"

#include "office/wb-inventory-csv.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbImportDialog
{
  AdwWindow        parent_instance;

  WbJobModel      *model;
  GFile           *file;
  GCancellable    *cancellable;
  WbJob           *base;         /* the job that the report was made for */
  WbImportReport  *report;       /* (nullable) until the file was read */
  gboolean         take_at_once; /* the person has seen the report already */

  AdwWindowTitle  *title;
  GtkWidget       *none;
  GtkWidget       *take;
  GtkStack        *stack;
  AdwStatusPage   *failure;
  GtkLabel        *summary;
  GtkLabel        *details;
  GtkWidget       *scroller;
  GtkColumnView   *faults;
};

enum
{
  REPORTED,
  TAKEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbImportDialog, wb_import_dialog, ADW_TYPE_WINDOW)

/* --- the list of faults ----------------------------------------------------------------------- */

/* What a column of the list of faults shows. A fault is an item by its place in the report: the
 * item is a plain object that knows the fault. */
typedef struct
{
  const char  *title;
  gboolean     expand;
  gboolean     numeric;
  char      *(*text) (const WbImportFault *fault);
} FaultColumn;

static char *
row_text (const WbImportFault *fault)
{
  return g_strdup_printf ("%u", fault->row);
}

static char *
column_text (const WbImportFault *fault)
{
  return g_strdup (fault->column != NULL ? fault->column : "–");
}

static char *
message_text (const WbImportFault *fault)
{
  return g_strdup (fault->message);
}

static const FaultColumn fault_columns[] = {
  { N_ ("Row"), FALSE, TRUE, row_text },
  { N_ ("Column"), FALSE, FALSE, column_text },
  { N_ ("What is wrong"), TRUE, FALSE, message_text },
};

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *list_item,
          const FaultColumn        *column)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), column->numeric ? 1 : 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_selectable (GTK_LABEL (label), FALSE);
  if (column->numeric)
    gtk_widget_add_css_class (label, "numeric");
  gtk_list_item_set_child (list_item, label);
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *list_item,
         const FaultColumn        *column)
{
  const WbImportFault *fault = g_object_get_data (gtk_list_item_get_item (list_item), "fault");
  g_autofree char *text = column->text (fault);

  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (list_item)), text);
}

static void
add_fault_columns (WbImportDialog *self)
{
  for (gsize i = 0; i < G_N_ELEMENTS (fault_columns); i++)
    {
      GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
      g_autoptr (GtkColumnViewColumn) column = NULL;

      g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), (gpointer) &fault_columns[i]);
      g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), (gpointer) &fault_columns[i]);
      column = gtk_column_view_column_new (_(fault_columns[i].title), factory);
      gtk_column_view_column_set_expand (column, fault_columns[i].expand);
      gtk_column_view_append_column (self->faults, column);
    }
}

/* The faults belong to the report, which lives as long as the window. */
static void
fill_faults (WbImportDialog *self)
{
  g_autoptr (GListStore) store = g_list_store_new (G_TYPE_OBJECT);
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GtkNoSelection) selection = NULL;

  for (guint i = 0; i < self->report->faults->len; i++)
    {
      GObject *item = g_object_new (G_TYPE_OBJECT, NULL);

      g_object_set_data (item, "fault", g_ptr_array_index (self->report->faults, i));
      g_ptr_array_add (items, item);
    }
  g_list_store_splice (store, 0, 0, items->pdata, items->len);
  selection = gtk_no_selection_new (G_LIST_MODEL (g_steal_pointer (&store)));
  gtk_column_view_set_model (self->faults, GTK_SELECTION_MODEL (selection));
}

/* --- the report ------------------------------------------------------------------------------- */

static void
append_sentence (GString    *text,
                 const char *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
}

static char *
describe_details (const WbImportReport *report)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (report->ignored->len > 0)
    {
      g_autoptr (GString) names = g_string_new (NULL);
      g_autofree char *sentence = NULL;

      for (guint i = 0; i < report->ignored->len; i++)
        g_string_append_printf (names, "%s“%s”", i > 0 ? ", " : "",
                                (const char *) g_ptr_array_index (report->ignored, i));
      sentence =
        /* Translators: %s is a list of names of columns. */
        g_strdup_printf (ngettext ("This column says nothing to Wainbook and is left out: %s.",
                                   "These columns say nothing to Wainbook and are left out: %s.",
                                   report->ignored->len), names->str);
      append_sentence (text, sentence);
    }
  if (g_strcmp0 (report->encoding, "UTF-8") != 0)
    {
      g_autofree char *sentence =
        /* Translators: %s is the name of a character encoding. */
        g_strdup_printf (_("The text was read as %s; look at letters with accents."),
                         report->encoding);

      append_sentence (text, sentence);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
describe_summary (const WbImportReport *report)
{
  guint n_bad = report->n_rows - report->n_taken;

  if (report->n_rows == 0)
    return g_strdup (_("The file has headings, but no rows."));
  if (n_bad == 0)
    return g_strdup_printf (ngettext ("The row can be taken.", "All %u rows can be taken.",
                                      report->n_rows),
                            report->n_rows);
  if (report->n_taken == 0)
    return g_strdup_printf (ngettext ("The row cannot be taken.",
                                      "None of the %u rows can be taken.", report->n_rows),
                            report->n_rows);
  /* Translators: how many rows are good, and how many there are. */
  return g_strdup_printf (ngettext ("%u of %u row can be taken.", "%u of %u rows can be taken.",
                                    report->n_rows),
                          report->n_taken, report->n_rows);
}

static void
show_report (WbImportDialog *self)
{
  const WbImportReport *report = self->report;
  g_autofree char *summary = describe_summary (report);
  g_autofree char *details = describe_details (report);
  g_autofree char *take = NULL;

  gtk_label_set_text (self->summary, summary);
  gtk_label_set_text (self->details, details);
  gtk_widget_set_visible (GTK_WIDGET (self->details), *details != '\0');
  gtk_widget_set_visible (self->scroller, report->faults->len > 0);
  fill_faults (self);

  if (report->n_taken == report->n_rows)
    take = g_strdup_printf (ngettext ("_Take %u Row", "_Take %u Rows", report->n_taken),
                            report->n_taken);
  else
    take = g_strdup_printf (ngettext ("_Take %u Good Row", "_Take %u Good Rows", report->n_taken),
                            report->n_taken);
  gtk_button_set_label (GTK_BUTTON (self->take), take);
  gtk_widget_set_sensitive (self->take, report->job != NULL && report->n_taken > 0);
  gtk_widget_set_visible (self->take, report->n_taken > 0);
  if (report->n_taken == 0)
    gtk_button_set_label (GTK_BUTTON (self->none), _("_Close"));
  gtk_stack_set_visible_child_name (self->stack, "report");
  gtk_widget_grab_focus (report->n_taken > 0 ? self->take : self->none);
}

static void
show_failure (WbImportDialog *self,
              const GError   *error)
{
  g_autofree char *words = wb_words_error (error);
  g_autofree char *escaped = g_markup_escape_text (words, -1);

  adw_status_page_set_description (self->failure, escaped);
  gtk_button_set_label (GTK_BUTTON (self->none), _("_Close"));
  gtk_widget_set_visible (self->take, FALSE);
  gtk_stack_set_visible_child_name (self->stack, "failed");
}

static void
take (WbImportDialog *self)
{
  g_autofree char *sentence = NULL;

  wb_job_model_apply (self->model, self->report->job, _("Import lines"));
  sentence = g_strdup_printf (ngettext ("%u line imported", "%u lines imported",
                                        self->report->n_taken),
                              self->report->n_taken);
  g_signal_emit (self, signals[TAKEN], 0, sentence);
  gtk_window_close (GTK_WINDOW (self));
}

static void
imported_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      data)
{
  g_autoptr (WbImportDialog) self = data;
  g_autoptr (GError) error = NULL;
  WbImportReport *report = wb_inventory_csv_import_file_finish (result, &error);

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;

  if (report == NULL)
    {
      show_failure (self, error);
    }
  else
    {
      gtk_column_view_set_model (self->faults, NULL);
      g_clear_pointer (&self->report, wb_import_report_free);
      self->report = report;
      if (self->take_at_once && report->n_taken > 0)
        {
          take (self);
          return;
        }
      show_report (self);
    }
  g_signal_emit (self, signals[REPORTED], 0);
}

static void
start (WbImportDialog *self)
{
  g_clear_pointer (&self->base, wb_job_unref);
  self->base = wb_job_ref (wb_job_model_get_job (self->model));
  gtk_stack_set_visible_child_name (self->stack, "reading");
  gtk_widget_set_sensitive (self->take, FALSE);
  wb_inventory_csv_import_file_async (self->base, self->file, WB_IMPORT_GOOD_ROWS,
                                      self->cancellable,
                                      imported_cb, g_object_ref (self));
}

/* The job may have been refreshed from the book meanwhile; the rows then go on top of what it is
 * now. */
static void
take_cb (WbImportDialog *self)
{
  if (wb_job_model_get_job (self->model) == self->base)
    {
      take (self);
      return;
    }
  self->take_at_once = TRUE;
  start (self);
}

static void
wb_import_dialog_dispose (GObject *object)
{
  WbImportDialog *self = WB_IMPORT_DIALOG (object);

  g_cancellable_cancel (self->cancellable);
  if (self->faults != NULL)
    gtk_column_view_set_model (self->faults, NULL);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_IMPORT_DIALOG);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->file);
  g_clear_object (&self->model);
  g_clear_pointer (&self->report, wb_import_report_free);
  g_clear_pointer (&self->base, wb_job_unref);

  G_OBJECT_CLASS (wb_import_dialog_parent_class)->dispose (object);
}

static gboolean
wb_import_dialog_close_request (GtkWindow *window)
{
  g_cancellable_cancel (WB_IMPORT_DIALOG (window)->cancellable);

  return GTK_WINDOW_CLASS (wb_import_dialog_parent_class)->close_request (window);
}

static void
wb_import_dialog_class_init (WbImportDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_import_dialog_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = wb_import_dialog_close_request;

  signals[REPORTED] = g_signal_new ("reported", WB_TYPE_IMPORT_DIALOG, G_SIGNAL_RUN_LAST,
                                    0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[TAKEN] = g_signal_new ("taken", WB_TYPE_IMPORT_DIALOG, G_SIGNAL_RUN_LAST,
                                 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/inventory/wb-import-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, title);
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, none);
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, take);
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, stack);
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, failure);
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, summary);
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, details);
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, scroller);
  gtk_widget_class_bind_template_child (widget_class, WbImportDialog, faults);
  gtk_widget_class_bind_template_callback (widget_class, take_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
wb_import_dialog_init (WbImportDialog *self)
{
  self->cancellable = g_cancellable_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  add_fault_columns (self);
}

WbImportDialog *
wb_import_dialog_new (GtkWindow  *parent,
                      WbJobModel *model,
                      GFile      *file)
{
  WbImportDialog *self;
  g_autofree char *name = NULL;

  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);
  g_return_val_if_fail (G_IS_FILE (file), NULL);

  self = g_object_new (WB_TYPE_IMPORT_DIALOG, "transient-for", parent, NULL);
  self->model = g_object_ref (model);
  self->file = g_object_ref (file);
  name = g_file_get_basename (file);
  adw_window_title_set_subtitle (self->title, name);
  start (self);
  return self;
}
