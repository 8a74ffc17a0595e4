/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The valuation of the open job. Has both choices worked out at most once a frame and hands them to
 * the panels. Reads and changes the job through its model only. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/valuation/wb-valuation-page.h"

#include <glib/gi18n.h>

#include "core/wb-valuation-preview.h"
#include "desk/valuation/wb-side-panel.h"
#include "office/wb-side-statements.h"
#include "desk/widgets/wb-choice-row.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-switch-row.h"
#include "desk/widgets/wb-text-row.h"
#include "office/wb-words.h"

struct _WbValuationPage
{
  GtkWidget           parent_instance;

  GtkLabel           *verdict;
  GtkLabel           *verdict_source;
  GtkWidget          *panels;
  WbSidePanel        *released;
  WbSidePanel        *full;
  WbFieldRow         *charge;
  WbFieldRow         *signed_by;
  WbFieldRow         *signed_on;
  WbFieldRow         *disclosure;

  WbJobModel         *model;
  WbValuationPreview *preview;    /* (nullable): of the job last shown */
  guint               tick;
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbValuationPage, wb_valuation_page, GTK_TYPE_WIDGET)

/* --- showing ---------------------------------------------------------------------------------- */

static void
preview (WbValuationPage *self,
         GError         **error)
{
  WbJob *job = wb_job_model_get_job (self->model);
  WbTermsSet *set = wb_office_get_terms (wb_job_model_get_office (self->model));
  WbTerms *terms = wb_terms_set_find (set, wb_job_order (job), error);

  g_clear_pointer (&self->preview, wb_valuation_preview_free);
  if (terms != NULL)
    self->preview = wb_valuation_preview (terms, job, error);
}

static void
show_fault (WbValuationPage *self,
            const GError    *error)
{
  g_autofree char *words = wb_valuation_no_terms (wb_job_order (wb_job_model_get_job (self->model)),
                                                  error);

  gtk_label_set_label (self->verdict, words);
  gtk_widget_add_css_class (GTK_WIDGET (self->verdict), "warning");
  gtk_widget_set_visible (GTK_WIDGET (self->verdict_source), FALSE);
  gtk_widget_set_visible (self->panels, FALSE);
  wb_field_row_set_note (self->charge, NULL);
}

/* Which terms these are, and what they cite for the choice that applies. */
static char *
describe_source (const WbTerms *terms)
{
  const char *citation = wb_terms_citation (terms, WB_SCOPE_GENERAL, WB_KEY_WITHOUT_WAIVER);
  g_autofree char *from = wb_words_date (&terms->from);

  if (citation == NULL)
    /* Translators: the title of terms of liability, and the day from which they are in force. */
    return g_strdup_printf (_("By the terms “%s”, in force from %s"), terms->title, from);

  /* Translators: the title of terms of liability, the day from which they are in force, what they
   * cite. */
  return g_strdup_printf (_("By the terms “%s”, in force from %s; %s"), terms->title, from,
                          citation);
}

static void
show_preview (WbValuationPage *self)
{
  g_autofree char *verdict = wb_valuation_verdict (self->preview);
  g_autofree char *source = describe_source (self->preview->terms);
  g_autofree char *note = wb_valuation_charge_note (self->preview);
  gboolean not_as_chosen = self->preview->by_default
                           && wb_job_valuation (self->preview->job)->choice != WB_CHOICE_NONE;

  gtk_label_set_label (self->verdict, verdict);
  if (not_as_chosen)
    gtk_widget_add_css_class (GTK_WIDGET (self->verdict), "warning");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->verdict), "warning");
  gtk_label_set_label (self->verdict_source, source);
  gtk_widget_set_visible (GTK_WIDGET (self->verdict_source), TRUE);

  gtk_widget_set_visible (self->panels, TRUE);
  wb_side_panel_show (self->released, self->preview, WB_SIDE_RELEASED);
  wb_side_panel_show (self->full, self->preview, WB_SIDE_FULL);
  wb_field_row_set_note (self->charge, note);
}

/* What the waiver lacks, where it is to be filled in. */
static void
show_gaps (WbValuationPage *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);

  wb_field_row_set_note (self->signed_by, wb_valuation_gap_note (job, "signed_by"));
  wb_field_row_set_note (self->signed_on, wb_valuation_gap_note (job, "signed_on"));
  wb_field_row_set_note (self->disclosure, wb_valuation_gap_note (job, "disclosure"));
}

static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  WbValuationPage *self = WB_VALUATION_PAGE (widget);
  g_autoptr (GError) error = NULL;

  self->tick = 0;
  show_gaps (self);
  preview (self, &error);
  if (self->preview != NULL)
    show_preview (self);
  else
    show_fault (self, error);

  return G_SOURCE_REMOVE;
}

/* However often the job changes, it is worked out once a frame, and not at all while nobody
 * looks. */
static void
queue_update (WbValuationPage *self)
{
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), tick_cb, NULL, NULL);
}

/* --- actions ---------------------------------------------------------------------------------- */

static void
use_charge_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  WbValuationPage *self = WB_VALUATION_PAGE (widget);
  g_autoptr (WbValuation) valuation = NULL;
  g_autoptr (WbJob) job = NULL;
  const WbSidePreview *side;
  guint which, place;

  g_variant_get (parameter, "(uu)", &which, &place);
  if (self->preview == NULL || which >= WB_N_SIDES || place >= self->preview->side[which].n_charges)
    return;

  side = &self->preview->side[which];
  valuation = wb_record_copy (wb_job_valuation (wb_job_model_get_job (self->model)));
  valuation->deductible = side->charges[place].deductible;
  valuation->charge = side->charges[place].charge;
  job = wb_job_with (wb_job_model_get_job (self->model), valuation);
  wb_job_model_apply (self->model, job, _("Choose deductible"));
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
set_model (WbValuationPage *self,
           WbJobModel      *model)
{
  if (model == NULL)
    return;

  self->model = g_object_ref (model);
  g_signal_connect_object (model, "notify::job", G_CALLBACK (queue_update), self,
                           G_CONNECT_SWAPPED);
  queue_update (self);
}

static void
wb_valuation_page_get_property (GObject    *object,
                                guint       prop_id,
                                GValue     *value,
                                GParamSpec *pspec)
{
  WbValuationPage *self = WB_VALUATION_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_valuation_page_set_property (GObject      *object,
                                guint         prop_id,
                                const GValue *value,
                                GParamSpec   *pspec)
{
  WbValuationPage *self = WB_VALUATION_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (self, g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_valuation_page_dispose (GObject *object)
{
  WbValuationPage *self = WB_VALUATION_PAGE (object);
  GtkWidget *child;

  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  g_clear_object (&self->model);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_VALUATION_PAGE);
  g_clear_pointer (&self->preview, wb_valuation_preview_free);

  G_OBJECT_CLASS (wb_valuation_page_parent_class)->dispose (object);
}

static void
wb_valuation_page_class_init (WbValuationPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_valuation_page_get_property;
  object_class->set_property = wb_valuation_page_set_property;
  object_class->dispose = wb_valuation_page_dispose;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_CHOICE_ROW);
  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_FIELD_ROW);
  g_type_ensure (WB_TYPE_SIDE_PANEL);
  g_type_ensure (WB_TYPE_SWITCH_ROW);
  g_type_ensure (WB_TYPE_TEXT_ROW);

  gtk_widget_class_install_action (widget_class, "valuation.use-charge", "(uu)", use_charge_action);

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/valuation/wb-valuation-page.ui");
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, verdict);
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, verdict_source);
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, panels);
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, released);
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, full);
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, charge);
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, signed_by);
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, signed_on);
  gtk_widget_class_bind_template_child (widget_class, WbValuationPage, disclosure);
}

static void
wb_valuation_page_init (WbValuationPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_valuation_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_VALUATION_PAGE, "model", model, NULL);
}
