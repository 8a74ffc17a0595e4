/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The claims of the open job. Chooses the claim, has it reckoned at most once a frame, and hands
 * the result to the widgets that show it. Reads and changes the job through its model only. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-page-private.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-claim-columns.h"
#include "desk/claim/wb-claim-row.h"
#include "desk/claim/wb-line-notices.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-words-quote.h"
#include "office/wb-words.h"

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_CLAIM_ID,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE_WITH_CODE (WbClaimPage, wb_claim_page, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (WB_TYPE_REVEALER,
                                                      wb_claim_page_init_revealer))

static void queue_update (WbClaimPage *self);

static const WbClaim *
get_claim (WbClaimPage *self)
{
  return wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM, self->claim_id);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
reckon (WbClaimPage *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *fault = NULL;

  g_clear_pointer (&self->reckoning, wb_reckoning_unref);
  self->reckoning = wb_office_reckon (wb_job_model_get_office (self->model),
                                      wb_job_model_get_job (self->model), self->claim_id, &error);
  if (self->reckoning == NULL)
    fault = wb_words_error (error);

  wb_reckoning_view_show (self->reckoning_view, self->reckoning, fault);
  wb_bearing_box_show (self->bearing, self->reckoning);
}

static void
show_outcome (WbClaimPage *self)
{
  WbSide applies = self->reckoning != NULL ? self->reckoning->applies : WB_SIDE_FULL;

  gtk_widget_set_visible (self->outcome, self->reckoning != NULL);
  wb_outcome_show (self->applying, self->reckoning, WB_REASON_WHOLE_CLAIM, applies);
  wb_outcome_show (self->comparing, self->reckoning, WB_REASON_WHOLE_CLAIM,
                   applies == WB_SIDE_FULL ? WB_SIDE_RELEASED : WB_SIDE_FULL);
}

/* What the figures of a line lack, and that one is another than the quote that it came from. */
static char *
say_of_line (WbClaimPage *self,
             const char  *id)
{
  g_autofree char *lacks = self->reckoning != NULL ? wb_line_notice (self->reckoning, id) : NULL;
  g_autofree char *differs = wb_words_quotes_differ (wb_job_model_get_job (self->model), id);

  if (lacks != NULL && differs != NULL)
    return g_strdup_printf ("%s %s", lacks, differs);
  return lacks != NULL ? g_steal_pointer (&lacks) : g_steal_pointer (&differs);
}

static void
show_evidence (WbClaimPage *self)
{
  WbJob *job = wb_job_model_get_job (self->model);
  const char *id = wb_record_table_get_selected_id (self->lines);
  const WbClaimLine *line = wb_job_find (job, WB_KIND_CLAIM_LINE, id);
  g_autofree char *notice = NULL;

  if (line != NULL)
    notice = say_of_line (self, id);

  gtk_widget_set_visible (GTK_WIDGET (self->evidence),
                          wb_record_table_get_n_rows (self->lines) > 0);
  wb_evidence_card_show (self->evidence, wb_job_model_get_office (self->model),
                         self->reckoning != NULL ? self->reckoning->terms : NULL, job, line,
                         notice);
  wb_evidence_card_show_reckoning (self->evidence, self->reckoning, line);
  wb_verdict_box_show (self->verdict, self->reckoning, line != NULL ? id : NULL);
  wb_quote_box_show (self->quotes, line != NULL ? id : NULL);
  wb_line_details_show (self->details, self->reckoning, line != NULL ? id : NULL);
}

/* An empty table says nothing; a sentence stands in its place. */
static void
show_or_say (WbRecordTable *table,
             GtkWidget     *sentence)
{
  gboolean has_rows = wb_record_table_get_n_rows (table) > 0;

  gtk_widget_set_visible (GTK_WIDGET (table), has_rows);
  gtk_widget_set_visible (sentence, !has_rows);
}

static void
update (WbClaimPage *self)
{
  const WbClaim *claim = get_claim (self);

  gtk_widget_set_visible (self->empty, claim == NULL);
  gtk_widget_set_visible (self->content, claim != NULL);
  gtk_widget_set_visible (self->foot, claim != NULL);
  wb_claim_page_enable_actions (self);
  if (claim == NULL)
    return;

  wb_claim_head_update (self->head);
  reckon (self);
  show_outcome (self);
  show_or_say (self->lines, self->no_lines);
  show_or_say (self->payments, self->no_payments);
  wb_claim_steps_update (self->steps);
  wb_record_table_renew_notices (self->lines);
  show_evidence (self);
  if (self->head_wanted)
    gtk_widget_child_focus (GTK_WIDGET (self->head), GTK_DIR_TAB_FORWARD);
  self->head_wanted = FALSE;
}

static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);

  self->tick = 0;
  update (self);
  return G_SOURCE_REMOVE;
}

/* However often the job changes, it is reckoned once a frame, and not at all while nobody looks. */
static void
queue_update (WbClaimPage *self)
{
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), tick_cb, NULL, NULL);
}

static void
update_now (WbClaimPage *self)
{
  if (self->tick == 0)
    return;
  gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  update (self);
}

/* --- which claim ------------------------------------------------------------------------------ */

static void
select_row (WbClaimPage *self)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->claims, i)) != NULL; i++)
    if (g_strcmp0 (wb_claim_row_get_id (WB_CLAIM_ROW (row)), self->claim_id) == 0)
      gtk_list_box_select_row (self->claims, row);
}

void
wb_claim_page_choose (WbClaimPage *self,
                      const char  *id)
{
  if (g_strcmp0 (id, self->claim_id) != 0)
    {
      g_free (self->claim_id);
      self->claim_id = g_strdup (id);
      wb_record_table_set_owner (self->lines, id);
      wb_record_table_set_owner (self->payments, id);
      wb_claim_page_show_error (self, NULL);
      g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_CLAIM_ID]);
      queue_update (self);
    }

  select_row (self);
}

void
wb_claim_page_show_now (WbClaimPage *self,
                        const char  *id)
{
  wb_claim_page_choose (self, id);
  update_now (self);
}

static void
claim_selected_cb (WbClaimPage   *self,
                   GtkListBoxRow *row)
{
  if (row != NULL)
    wb_claim_page_choose (self, wb_claim_row_get_id (WB_CLAIM_ROW (row)));
}

/* The claim that is most likely wanted: the last one still open, else the last one. */
static const char *
find_wanted_claim (const WbJob *job)
{
  const char *wanted = NULL;
  gboolean open = FALSE;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    {
      const WbClaim *claim = wb_job_nth (job, WB_KIND_CLAIM, i);
      gboolean is_open = claim->status == WB_CLAIM_OPEN || claim->status == WB_CLAIM_OFFERED;

      if (is_open || !open)
        wanted = claim->record.id;
      open = open || is_open;
    }
  return wanted;
}

/* The claim may be gone, or the first one have come. */
static void
job_changed_cb (WbClaimPage *self)
{
  if (get_claim (self) == NULL)
    wb_claim_page_choose (self, find_wanted_claim (wb_job_model_get_job (self->model)));

  queue_update (self);
}

static GtkWidget *
make_claim_row (gpointer item,
                gpointer data)
{
  return wb_claim_row_new (item);
}

/* --- tables ----------------------------------------------------------------------------------- */

static char *
notice_of_line (gconstpointer record,
                gpointer      data)
{
  WbClaimPage *self = data;

  return say_of_line (self, ((const WbRecord *) record)->id);
}

static void
line_selected_cb (WbClaimPage *self)
{
  if (self->model == NULL)
    return;

  wb_claim_page_enable_actions (self);
  show_evidence (self);
}

static void
payment_selected_cb (WbClaimPage *self)
{
  if (self->model != NULL)
    wb_claim_page_enable_actions (self);
}

static void
line_wanted_cb (WbClaimPage *self)
{
  wb_claim_page_add_line (self);
}

static void
payment_wanted_cb (WbClaimPage *self)
{
  wb_claim_page_add_payment (self);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
set_model (WbClaimPage *self,
           WbJobModel  *model)
{
  const WbTableColumn *columns;
  guint n;

  if (model == NULL)
    return;

  self->model = g_object_ref (model);
  columns = wb_claim_line_columns (&n);
  wb_record_table_set_up (self->lines, model, WB_KIND_CLAIM_LINE, _("Claimed lines"), columns, n);
  wb_record_table_set_notice (self->lines, notice_of_line, self);
  columns = wb_payment_columns (&n);
  wb_record_table_set_up (self->payments, model, WB_KIND_PAYMENT, _("Payments"), columns, n);

  gtk_list_box_bind_model (self->claims, wb_job_model_get_records (model, WB_KIND_CLAIM),
                           make_claim_row, NULL, NULL);
  g_signal_connect_object (model, "notify::job", G_CALLBACK (job_changed_cb), self,
                           G_CONNECT_SWAPPED);
  job_changed_cb (self);
}

static void
wb_claim_page_get_property (GObject    *object,
                            guint       prop_id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  WbClaimPage *self = WB_CLAIM_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    case PROP_CLAIM_ID:
      g_value_set_string (value, self->claim_id);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_claim_page_set_property (GObject      *object,
                            guint         prop_id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  WbClaimPage *self = WB_CLAIM_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (self, g_value_get_object (value));
      break;
    case PROP_CLAIM_ID:
      if (self->model != NULL)
        wb_claim_page_choose (self, g_value_get_string (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_claim_page_dispose (GObject *object)
{
  WbClaimPage *self = WB_CLAIM_PAGE (object);
  GtkWidget *child;

  g_cancellable_cancel (self->cancellable);
  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  g_clear_object (&self->model);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_CLAIM_PAGE);
  g_clear_pointer (&self->reckoning, wb_reckoning_unref);

  G_OBJECT_CLASS (wb_claim_page_parent_class)->dispose (object);
}

static void
wb_claim_page_finalize (GObject *object)
{
  WbClaimPage *self = WB_CLAIM_PAGE (object);

  g_clear_object (&self->cancellable);
  g_free (self->claim_id);

  G_OBJECT_CLASS (wb_claim_page_parent_class)->finalize (object);
}

/* The first look is at what is there already, or the focus would find nothing to go to. */
static void
wb_claim_page_map (GtkWidget *widget)
{
  update_now (WB_CLAIM_PAGE (widget));

  GTK_WIDGET_CLASS (wb_claim_page_parent_class)->map (widget);
}

/* The first place to be is the claim that is shown, where no key changes anything. */
static gboolean
wb_claim_page_grab_focus (GtkWidget *widget)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);
  GtkListBoxRow *row = gtk_list_box_get_selected_row (self->claims);

  if (!gtk_widget_get_visible (self->content))
    return gtk_widget_child_focus (self->empty, GTK_DIR_TAB_FORWARD);

  return row != NULL && gtk_widget_grab_focus (GTK_WIDGET (row));
}

static void
ensure_types (void)
{
  g_type_ensure (WB_TYPE_BEARING_BOX);
  g_type_ensure (WB_TYPE_CLAIM_HEAD);
  g_type_ensure (WB_TYPE_CLAIM_STEPS);
  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_EVIDENCE_CARD);
  g_type_ensure (WB_TYPE_FLOW_LAYOUT);
  g_type_ensure (WB_TYPE_OUTCOME);
  g_type_ensure (WB_TYPE_LINE_DETAILS);
  g_type_ensure (WB_TYPE_QUOTE_BOX);
  g_type_ensure (WB_TYPE_RECKONING_VIEW);
  g_type_ensure (WB_TYPE_RECORD_TABLE);
  g_type_ensure (WB_TYPE_VERDICT_BOX);
}

static void
wb_claim_page_class_init (WbClaimPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_claim_page_get_property;
  object_class->set_property = wb_claim_page_set_property;
  object_class->dispose = wb_claim_page_dispose;
  object_class->finalize = wb_claim_page_finalize;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_claim_page_grab_focus;
  widget_class->map = wb_claim_page_map;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  properties[PROP_CLAIM_ID] =
    g_param_spec_string ("claim-id", NULL, NULL, NULL,
                         G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  ensure_types ();
  wb_claim_page_install_actions (widget_class);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-claim-page.ui");
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, empty);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, content);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, foot);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, claims);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, fault);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, parts);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, head);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, lines);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, evidence);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, verdict);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, quotes);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, details);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, reckoning_view);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, bearing);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, payments);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, steps);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, no_lines);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, no_payments);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, outcome);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, applying);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, comparing);
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, caution);
  gtk_widget_class_bind_template_callback (widget_class, claim_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, line_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, line_wanted_cb);
  gtk_widget_class_bind_template_callback (widget_class, payment_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, payment_wanted_cb);
}

static void
wb_claim_page_init (WbClaimPage *self)
{
  g_autofree char *caution = wb_words_caution ();

  self->cancellable = g_cancellable_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_label_set_label (self->caution, caution);
  gtk_widget_set_visible (self->content, FALSE);
  gtk_widget_set_visible (self->foot, FALSE);
}

GtkWidget *
wb_claim_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_CLAIM_PAGE, "model", model, NULL);
}
