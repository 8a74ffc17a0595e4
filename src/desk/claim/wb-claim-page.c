/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The claim of the open job. Reads and changes the job through its model only. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-page.h"

struct _WbClaimPage
{
  GtkWidget   parent_instance;

  GtkWidget  *content;

  WbJobModel *model;
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbClaimPage, wb_claim_page, GTK_TYPE_WIDGET)

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
      self->model = g_value_dup_object (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_claim_page_dispose (GObject *object)
{
  WbClaimPage *self = WB_CLAIM_PAGE (object);

  g_clear_pointer (&self->content, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_CLAIM_PAGE);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_claim_page_parent_class)->dispose (object);
}

static void
wb_claim_page_class_init (WbClaimPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_claim_page_get_property;
  object_class->set_property = wb_claim_page_set_property;
  object_class->dispose = wb_claim_page_dispose;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-claim-page.ui");
  gtk_widget_class_bind_template_child (widget_class, WbClaimPage, content);
}

static void
wb_claim_page_init (WbClaimPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_claim_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_CLAIM_PAGE, "model", model, NULL);
}
