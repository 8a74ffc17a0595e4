/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows groups of finished claims and the claims behind a group. The office gathers once, away from
 * this thread; another grouping or period only adds up anew. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/report/wb-report-window.h"

#include "desk/report/wb-report-item.h"
#include "desk/report/wb-report-row.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-text-saver.h"
#include "office/wb-claim-report.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#include <string.h>

#define LOOK_EVERY_MS 100

struct _WbReportWindow
{
  AdwWindow           parent_instance;

  AdwWindowTitle     *title;
  GtkWidget          *back;
  GtkInfoBar         *fault_bar;
  GtkLabel           *fault;
  GtkStack           *stack;
  GtkProgressBar     *progress_bar;
  GtkLabel           *open_claims;
  GtkBox             *question;
  GtkDropDown        *by;
  GtkEntry           *from;
  GtkEntry           *to;
  GtkLabel           *summary;
  GtkStack           *groups_stack;
  GtkListView        *groups;
  GtkListView        *lines;

  GtkSingleSelection *group_selection;
  GtkSingleSelection *line_selection;

  WbOffice           *office;
  WbClaimReport      *claims;       /* (nullable): what was gathered */
  WbLossReport       *report;       /* (nullable): of @claims */
  WbReportProgress   *progress;     /* (nullable): while gathering */
  guint               look_id;
  GCancellable       *cancellable;  /* of what is being gathered */
};

enum
{
  PROP_0,
  PROP_OFFICE,
  N_PROPS
};

enum
{
  OPEN_CLAIM,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbReportWindow, wb_report_window, ADW_TYPE_WINDOW)

static void
show_fault (WbReportWindow *self,
            const char     *words)
{
  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_info_bar_set_revealed (self->fault_bar, words != NULL);
}

static void
show_error (WbReportWindow *self,
            const GError   *error)
{
  g_autofree char *words = wb_words_error (error);

  show_fault (self, words);
}

/* --- the groups ------------------------------------------------------------------------------- */

/* What the widest bar of a currency stands for. */
static gint64
scale_of (const WbLossReport *report,
          const char         *currency)
{
  gint64 scale = 0;

  for (guint i = 0; i < report->groups->len; i++)
    {
      const WbLossGroup *group = g_ptr_array_index (report->groups, i);

      if (g_str_equal (group->currency, currency))
        scale = MAX (scale, MAX (group->demanded, group->owed));
    }
  return scale;
}

static char *
summary_in_words (const WbLossReport *report)
{
  GString *out = g_string_new (NULL);
  g_autofree char *undated = wb_loss_undated_words (report);

  for (guint i = 0; i < report->totals->len; i++)
    {
      const WbLossGroup *total = g_ptr_array_index (report->totals, i);
      g_autofree char *demanded = wb_words_minor (total->demanded, total->currency);
      g_autofree char *owed = wb_words_minor (total->owed, total->currency);
      g_autofree char *paid = wb_words_minor (total->paid, total->currency);

      /* Translators: how many lines, then three amounts. */
      g_string_append_printf (out, ngettext ("%u line of finished claims: %s demanded, %s owed, "
                                             "%s paid. ",
                                             "%u lines of finished claims: %s demanded, %s owed, "
                                             "%s paid. ", total->lines->len),
                              total->lines->len, demanded, owed, paid);
    }
  if (report->by == WB_LOSS_BY_HANDLER && report->groups->len > 0)
    g_string_append (out, _("A line that several bear is counted with each. "));
  g_string_append (out, undated);
  return g_strchomp (g_string_free (out, FALSE));
}

static void
fill_groups (WbReportWindow *self)
{
  g_autoptr (GListStore) items = g_list_store_new (WB_TYPE_REPORT_ITEM);
  g_autofree char *summary = summary_in_words (self->report);

  for (guint i = 0; i < self->report->groups->len; i++)
    {
      const WbLossGroup *group = g_ptr_array_index (self->report->groups, i);
      g_autoptr (WbReportItem) item = wb_report_item_new (group, NULL,
                                                          scale_of (self->report,
                                                                    group->currency));

      g_list_store_append (items, item);
    }
  gtk_single_selection_set_model (self->group_selection, G_LIST_MODEL (items));
  gtk_label_set_label (self->summary, summary);
  gtk_widget_set_visible (GTK_WIDGET (self->summary), *summary != '\0');
  gtk_stack_set_visible_child_name (self->groups_stack,
                                    self->report->groups->len > 0 ? "groups" : "none");
}

/* Lists let their entries go before what the entries point to. */
static void
drop_report (WbReportWindow *self)
{
  if (self->group_selection != NULL)
    gtk_single_selection_set_model (self->group_selection, NULL);
  if (self->line_selection != NULL)
    gtk_single_selection_set_model (self->line_selection, NULL);
  g_clear_pointer (&self->report, wb_loss_report_free);
}

static void
go_to_groups (WbReportWindow *self)
{
  gtk_stack_set_visible_child_name (self->stack, "report");
  gtk_widget_set_visible (self->back, FALSE);
  adw_window_title_set_subtitle (self->title, "");
}

/* Adds up what was gathered, as is asked for. */
static void
add_up (WbReportWindow *self)
{
  g_autoptr (GError) error = NULL;
  GDate from, to;

  if (self->claims == NULL)
    return;
  if (!wb_loss_period_parse (gtk_editable_get_text (GTK_EDITABLE (self->from)),
                             gtk_editable_get_text (GTK_EDITABLE (self->to)), &from, &to, &error))
    {
      show_error (self, error);
      return;
    }
  drop_report (self);
  self->report = wb_loss_report (self->claims->lines, self->claims->moved,
                                 (WbLossBy) gtk_drop_down_get_selected (self->by), &from, &to,
                                 &error);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "report.save", self->report != NULL);
  if (self->report == NULL)
    {
      show_error (self, error);
      return;
    }
  show_fault (self, NULL);
  go_to_groups (self);
  fill_groups (self);
}

/* --- gathering -------------------------------------------------------------------------------- */

static void
show_open_claims (WbReportWindow *self)
{
  GString *out = g_string_new (NULL);
  g_autofree char *text = NULL;

  for (guint i = 0; i < self->claims->open->len; i++)
    {
      g_autofree char *words =
        wb_claim_totals_words (&g_array_index (self->claims->open, WbClaimTotals, i));

      g_string_append_printf (out, "%s%s", i > 0 ? "\n" : "", words);
    }
  for (guint i = 0; i < self->claims->faults->len; i++)
    {
      const char *sentence = g_ptr_array_index (self->claims->faults, i);

      g_string_append_printf (out, "\n%s", sentence);
    }
  text = g_string_free (out, FALSE);
  gtk_label_set_label (self->open_claims, *text != '\0' ? text : _("No claim is open."));
}

static gboolean
look_cb (gpointer data)
{
  WbReportWindow *self = data;
  guint n_done, n_all;

  wb_report_progress_get (self->progress, &n_done, &n_all);
  if (n_all > 0)
    {
      g_autofree char *words = g_strdup_printf (_("Job %u of %u"), n_done, n_all);

      gtk_progress_bar_set_fraction (self->progress_bar, (double) n_done / n_all);
      gtk_progress_bar_set_text (self->progress_bar, words);
    }
  return G_SOURCE_CONTINUE;
}

static void
stop_looking (WbReportWindow *self)
{
  g_clear_handle_id (&self->look_id, g_source_remove);
  g_clear_pointer (&self->progress, wb_report_progress_unref);
}

static void
show_claims (WbReportWindow *self,
             WbClaimReport  *claims)
{
  drop_report (self);
  g_clear_pointer (&self->claims, wb_claim_report_free);
  self->claims = claims;
  show_fault (self, NULL);
  show_open_claims (self);
  go_to_groups (self);
  add_up (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->by));
}

static void
gathered_cb (GObject      *object,
             GAsyncResult *result,
             gpointer      data)
{
  g_autoptr (WbReportWindow) self = WB_REPORT_WINDOW (data);
  g_autoptr (GError) error = NULL;
  WbClaimReport *claims = wb_office_claim_report_finish (WB_OFFICE (object), result, &error);

  /* Somebody asked anew meanwhile, or the window is gone. */
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) || self->office == NULL)
    {
      g_clear_pointer (&claims, wb_claim_report_free);
      return;
    }
  stop_looking (self);
  if (claims != NULL)
    {
      show_claims (self, claims);
      return;
    }
  gtk_stack_set_visible_child_name (self->stack, "stopped");
  show_error (self, error);
}

static void
refresh (WbReportWindow *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  stop_looking (self);
  self->cancellable = g_cancellable_new ();
  self->progress = wb_report_progress_new ();
  self->look_id = g_timeout_add (LOOK_EVERY_MS, look_cb, self);
  gtk_progress_bar_set_fraction (self->progress_bar, 0);
  gtk_progress_bar_set_text (self->progress_bar, _("Looking for claims"));
  gtk_stack_set_visible_child_name (self->stack, "waiting");
  gtk_widget_set_visible (self->back, FALSE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "report.save", FALSE);
  wb_office_claim_report_async (self->office, self->progress, self->cancellable, gathered_cb,
                                g_object_ref (self));
}

static void
refresh_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  refresh (WB_REPORT_WINDOW (widget));
}

static void
cancel_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbReportWindow *self = WB_REPORT_WINDOW (widget);

  g_cancellable_cancel (self->cancellable);
  stop_looking (self);
  gtk_stack_set_visible_child_name (self->stack, "stopped");
}

/* A report is of one moment; it is not made anew with every letter that is typed elsewhere. */
static void
job_saved_cb (WbReportWindow *self)
{
  if (self->claims != NULL)
    show_fault (self, _("Something was stored since. F5 looks again."));
}

/* --- the claims behind a group ---------------------------------------------------------------- */

/* To its chosen row, wherever the focus was: from within it would go on to the next. */
static void
focus_list (WbReportWindow *self,
            GtkListView    *list)
{
  gtk_window_set_focus (GTK_WINDOW (self), NULL);
  gtk_widget_child_focus (GTK_WIDGET (list), GTK_DIR_TAB_FORWARD);
}

static void
show_lines (WbReportWindow    *self,
            const WbLossGroup *group)
{
  g_autoptr (GListStore) items = g_list_store_new (WB_TYPE_REPORT_ITEM);
  g_autofree char *name = wb_loss_key_words (self->report->by, group->key,
                                             wb_office_get_catalog (self->office));

  for (guint i = 0; i < group->lines->len; i++)
    {
      g_autoptr (WbReportItem) item = wb_report_item_new (NULL,
                                                          g_ptr_array_index (group->lines, i), 0);

      g_list_store_append (items, item);
    }
  gtk_single_selection_set_model (self->line_selection, G_LIST_MODEL (items));
  gtk_stack_set_visible_child_name (self->stack, "lines");
  gtk_widget_set_visible (self->back, TRUE);
  adw_window_title_set_subtitle (self->title, name);
  focus_list (self, self->lines);
}

static void
group_activated_cb (WbReportWindow *self,
                    guint           place)
{
  const WbLossGroup *group = g_ptr_array_index (self->report->groups, place);

  if (group->lines->len > 0)
    show_lines (self, group);
}

static void
line_activated_cb (WbReportWindow *self,
                   guint           place)
{
  g_autoptr (WbReportItem) item =
    g_list_model_get_item (gtk_single_selection_get_model (self->line_selection), place);
  const WbLossLine *line = wb_report_item_get_line (item);

  g_signal_emit (self, signals[OPEN_CLAIM], 0, line->job_id, line->line_id);
}

/* One step back, and out of the window at last. */
static void
back_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbReportWindow *self = WB_REPORT_WINDOW (widget);

  if (!gtk_widget_get_visible (self->back))
    {
      gtk_window_close (GTK_WINDOW (self));
      return;
    }
  go_to_groups (self);
  focus_list (self, self->groups);
}

/* --- rows ------------------------------------------------------------------------------------- */

static void
row_setup_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *item)
{
  gtk_list_item_set_child (item, wb_report_row_new ());
}

static void
row_bind_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *item,
             WbReportWindow           *self)
{
  wb_report_row_show (WB_REPORT_ROW (gtk_list_item_get_child (item)), gtk_list_item_get_item (item),
                      self->report->by, wb_office_get_catalog (self->office));
}

static GtkSingleSelection *
set_up_list (WbReportWindow *self,
             GtkListView    *list)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();
  GtkSingleSelection *selection = gtk_single_selection_new (NULL);

  g_signal_connect (factory, "setup", G_CALLBACK (row_setup_cb), NULL);
  g_signal_connect_object (factory, "bind", G_CALLBACK (row_bind_cb), self, 0);
  gtk_list_view_set_factory (list, factory);
  gtk_list_view_set_model (list, GTK_SELECTION_MODEL (selection));
  return selection;
}

/* --- the file --------------------------------------------------------------------------------- */

static char *
make_report (GtkWindow *window)
{
  WbReportWindow *self = WB_REPORT_WINDOW (window);

  return self->report == NULL ? NULL
         : wb_loss_report_to_csv (self->report, wb_office_get_catalog (self->office));
}

static void
report_saved (GtkWindow    *window,
              GFile        *file,
              const GError *error)
{
  if (error != NULL)
    show_error (WB_REPORT_WINDOW (window), error);
}

static void
save_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  /* Translators: the name proposed for a file of comma-separated values; keep the ending. */
  wb_text_save (GTK_WINDOW (widget), _("Save for a Spreadsheet"), _("claim-report.csv"),
                make_report, report_saved);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
fill_choices (WbReportWindow *self)
{
  g_autoptr (GtkStringList) choices = gtk_string_list_new (NULL);

  for (int by = 0; by < WB_N_LOSS_BY; by++)
    gtk_string_list_append (choices, wb_words_enum (&wb_loss_by, by));
  gtk_drop_down_set_model (self->by, G_LIST_MODEL (choices));
  g_signal_connect_object (self->by, "notify::selected", G_CALLBACK (add_up), self,
                           G_CONNECT_SWAPPED);
}

static void
wb_report_window_constructed (GObject *object)
{
  WbReportWindow *self = WB_REPORT_WINDOW (object);

  G_OBJECT_CLASS (wb_report_window_parent_class)->constructed (object);

  if (self->office == NULL)
    return;
  g_signal_connect_object (self->office, "job-saved", G_CALLBACK (job_saved_cb), self,
                           G_CONNECT_SWAPPED);
  refresh (self);
}

static void
wb_report_window_set_property (GObject      *object,
                               guint         prop_id,
                               const GValue *value,
                               GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_OFFICE:
      WB_REPORT_WINDOW (object)->office = g_value_dup_object (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_report_window_dispose (GObject *object)
{
  WbReportWindow *self = WB_REPORT_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  stop_looking (self);
  drop_report (self);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_REPORT_WINDOW);
  g_clear_object (&self->group_selection);
  g_clear_object (&self->line_selection);
  g_clear_pointer (&self->claims, wb_claim_report_free);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_report_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, title);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, back);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, fault_bar);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, fault);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, progress_bar);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, open_claims);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, question);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, by);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, from);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, to);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, summary);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, groups_stack);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, groups);
  gtk_widget_class_bind_template_child (widget_class, WbReportWindow, lines);
  gtk_widget_class_bind_template_callback (widget_class, add_up);
  gtk_widget_class_bind_template_callback (widget_class, group_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, line_activated_cb);
}

static void
wb_report_window_class_init (WbReportWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->constructed = wb_report_window_constructed;
  object_class->set_property = wb_report_window_set_property;
  object_class->dispose = wb_report_window_dispose;

  properties[PROP_OFFICE] =
    g_param_spec_object ("office", NULL, NULL, WB_TYPE_OFFICE,
                         G_PARAM_WRITABLE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[OPEN_CLAIM] = g_signal_new ("open-claim", WB_TYPE_REPORT_WINDOW, G_SIGNAL_RUN_LAST, 0,
                                      NULL, NULL, NULL, G_TYPE_NONE, 2, G_TYPE_STRING,
                                      G_TYPE_STRING);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/report/wb-report-window.ui");
  bind_children (widget_class);

  gtk_widget_class_install_action (widget_class, "report.refresh", NULL, refresh_action);
  gtk_widget_class_install_action (widget_class, "report.cancel", NULL, cancel_action);
  gtk_widget_class_install_action (widget_class, "report.save", NULL, save_action);
  gtk_widget_class_install_action (widget_class, "report.back", NULL, back_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F5, 0, "report.refresh", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_s, GDK_CONTROL_MASK, "report.save",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "report.back", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Left, GDK_ALT_MASK, "report.back",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

static void
wb_report_window_init (WbReportWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (GTK_WIDGET (self->question), wb_flow_layout_new (12, 6));
  fill_choices (self);
  self->group_selection = set_up_list (self, self->groups);
  self->line_selection = set_up_list (self, self->lines);
}

GtkWidget *
wb_report_window_new (WbOffice *office)
{
  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);

  return g_object_new (WB_TYPE_REPORT_WINDOW, "office", office, NULL);
}
