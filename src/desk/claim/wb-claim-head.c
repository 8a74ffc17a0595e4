/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The head of a claim. Its fields are tied to the record; the dates are reckoned by core. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-head.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-clock-list.h"
#include "desk/widgets/wb-choice-row.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-switch-row.h"
#include "office/wb-words-evidence.h"
#include "office/wb-words.h"

struct _WbClaimHead
{
  GtkWidget    parent_instance;

  GtkLabel    *form_notice;
  GtkWidget   *clock_group;
  WbClockList *clocks;

  WbJobModel  *model;       /* (nullable) */
  char        *claim_id;    /* (nullable) */
};

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_CLAIM_ID,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbClaimHead, wb_claim_head, GTK_TYPE_WIDGET)

static void
wb_claim_head_get_property (GObject    *object,
                            guint       prop_id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  WbClaimHead *self = WB_CLAIM_HEAD (object);

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
wb_claim_head_set_property (GObject      *object,
                            guint         prop_id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  WbClaimHead *self = WB_CLAIM_HEAD (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_set_object (&self->model, g_value_get_object (value));
      break;
    case PROP_CLAIM_ID:
      g_free (self->claim_id);
      self->claim_id = g_value_dup_string (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_claim_head_dispose (GObject *object)
{
  WbClaimHead *self = WB_CLAIM_HEAD (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_CLAIM_HEAD);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_claim_head_parent_class)->dispose (object);
}

static void
wb_claim_head_finalize (GObject *object)
{
  g_free (WB_CLAIM_HEAD (object)->claim_id);

  G_OBJECT_CLASS (wb_claim_head_parent_class)->finalize (object);
}

static void
wb_claim_head_class_init (WbClaimHeadClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_claim_head_get_property;
  object_class->set_property = wb_claim_head_set_property;
  object_class->dispose = wb_claim_head_dispose;
  object_class->finalize = wb_claim_head_finalize;

  properties[PROP_MODEL] = g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                                                G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_CLAIM_ID] = g_param_spec_string ("claim-id", NULL, NULL, NULL,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_CHOICE_ROW);
  g_type_ensure (WB_TYPE_CLOCK_LIST);
  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_FIELD_ROW);
  g_type_ensure (WB_TYPE_SWITCH_ROW);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-claim-head.ui");
  gtk_widget_class_bind_template_child (widget_class, WbClaimHead, form_notice);
  gtk_widget_class_bind_template_child (widget_class, WbClaimHead, clock_group);
  gtk_widget_class_bind_template_child (widget_class, WbClaimHead, clocks);
}

static void
wb_claim_head_init (WbClaimHead *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* --- showing ---------------------------------------------------------------------------------- */

/* Returns: (nullable): why the legal dates cannot be reckoned. */
static char *
show_clocks (WbClaimHead   *self,
             const WbClaim *claim)
{
  WbJob *job = wb_job_model_get_job (self->model);
  WbTermsSet *set = wb_office_get_terms (wb_job_model_get_office (self->model));
  const WbTerms *terms = wb_terms_set_find (set, wb_job_order (job), NULL);
  g_autoptr (GArray) clocks = NULL;
  g_autoptr (GError) error = NULL;
  GDate today;

  if (terms != NULL)
    {
      wb_office_today (&today);
      clocks = wb_claim_clocks (terms, job, claim, &today, &error);
    }

  wb_clock_list_show (self->clocks, terms, clocks);
  gtk_widget_set_visible (self->clock_group, clocks != NULL && clocks->len > 0);
  return error != NULL ? wb_words_error (error) : NULL;
}

/* Returns: (nullable): what of the paper and of other claims has to be looked at. */
static char *
notice_of (const WbJob   *job,
           const WbClaim *claim)
{
  char *lack = wb_words_intake_lack (job, claim);
  char *conflict = wb_words_conflict (job, claim);
  char *both;

  if (lack == NULL || conflict == NULL)
    return lack != NULL ? lack : conflict;
  both = g_strdup_printf ("%s\n%s", lack, conflict);
  g_free (lack);
  g_free (conflict);
  return both;
}

void
wb_claim_head_update (WbClaimHead *self)
{
  const WbClaim *claim;
  g_autofree char *form = NULL;
  g_autofree char *fault = NULL;

  g_return_if_fail (WB_IS_CLAIM_HEAD (self));

  if (self->model == NULL)
    return;

  claim = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM, self->claim_id);
  if (claim == NULL)
    return;

  fault = show_clocks (self, claim);
  form = fault != NULL ? g_steal_pointer (&fault)
         : notice_of (wb_job_model_get_job (self->model), claim);
  gtk_label_set_label (self->form_notice, form != NULL ? form : "");
  gtk_widget_set_visible (GTK_WIDGET (self->form_notice), form != NULL);
}
