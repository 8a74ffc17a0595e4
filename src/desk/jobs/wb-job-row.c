/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows a WbJobItem and follows it. Rows are used again for other items; all state is the
 * item's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/jobs/wb-job-row.h"

#include "desk/widgets/wb-row-name.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbJobRow
{
  GtkWidget     parent_instance;

  GtkWidget    *box;
  GtkLabel     *shipper;
  GtkLabel     *stage;
  GtkLabel     *route;
  GtkLabel     *facts;
  GtkLabel     *claims;

  WbJobItem    *item;
  GSignalGroup *item_signals;
};

enum
{
  PROP_0,
  PROP_ITEM,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbJobRow, wb_job_row, GTK_TYPE_WIDGET)

static void
show_text (GtkLabel   *label,
           const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static char *
make_facts (const WbJobSummary *summary)
{
  g_autofree char *date = NULL;

  if (!wb_date_is_set (&summary->pickup))
    return g_strdup (summary->number);

  date = wb_words_date (&summary->pickup);
  if (summary->number == NULL)
    /* Translators: %s is a date. */
    return g_strdup_printf (_("pick-up %s"), date);

  /* Translators: a job number and the date of pick-up. */
  return g_strdup_printf (_("%s · pick-up %s"), summary->number, date);
}

static char *
make_claims (const WbJobSummary *summary)
{
  if (summary->claims == NULL)
    return NULL;

  if (summary->n_open_claims == 0)
    /* Translators: %s is one claim number or several, all settled. */
    return g_strdup_printf (_("Claim %s, closed"), summary->claims);

  /* Translators: %s is one claim number or several. */
  return g_strdup_printf (_("Claim %s"), summary->claims);
}

static void
show_item (WbJobRow *self)
{
  const WbJobSummary *summary;
  g_autofree char *route = NULL;
  g_autofree char *facts = NULL;
  g_autofree char *claims = NULL;
  g_autofree char *description = NULL;

  if (self->item == NULL)
    return;

  summary = wb_job_item_get_summary (self->item);
  route = wb_job_route (summary->from_city, summary->to_city);
  facts = make_facts (summary);
  claims = make_claims (summary);
  description = wb_job_item_describe (self->item);

  show_text (self->shipper, summary->shipper != NULL ? summary->shipper : _("No shipper yet"));
  show_text (self->stage, wb_words_enum (&wb_stages, summary->stage));
  show_text (self->route, route);
  show_text (self->facts, facts);
  show_text (self->claims, claims);
  if (summary->n_open_claims > 0)
    gtk_widget_add_css_class (GTK_WIDGET (self->claims), "warning");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->claims), "warning");

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  description, -1);
  wb_row_name_set (GTK_WIDGET (self), description);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), description);
}

/* One click opens; the view alone would open with two. */
static void
released_cb (WbJobRow *self,
             int       n_press,
             double    x,
             double    y)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "jobs.open", "s",
                              wb_job_item_get_summary (self->item)->id);
}

static void
wb_job_row_get_property (GObject    *object,
                         guint       prop_id,
                         GValue     *value,
                         GParamSpec *pspec)
{
  WbJobRow *self = WB_JOB_ROW (object);

  switch (prop_id)
    {
    case PROP_ITEM:
      g_value_set_object (value, self->item);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_job_row_set_property (GObject      *object,
                         guint         prop_id,
                         const GValue *value,
                         GParamSpec   *pspec)
{
  WbJobRow *self = WB_JOB_ROW (object);

  switch (prop_id)
    {
    case PROP_ITEM:
      if (g_set_object (&self->item, g_value_get_object (value)))
        {
          g_signal_group_set_target (self->item_signals, self->item);
          show_item (self);
          g_object_notify_by_pspec (object, pspec);
        }
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_job_row_dispose (GObject *object)
{
  WbJobRow *self = WB_JOB_ROW (object);

  g_clear_object (&self->item_signals);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_JOB_ROW);
  g_clear_object (&self->item);

  G_OBJECT_CLASS (wb_job_row_parent_class)->dispose (object);
}

static void
wb_job_row_class_init (WbJobRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_job_row_get_property;
  object_class->set_property = wb_job_row_set_property;
  object_class->dispose = wb_job_row_dispose;

  properties[PROP_ITEM] =
    g_param_spec_object ("item", NULL, NULL, WB_TYPE_JOB_ITEM,
                         G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/jobs/wb-job-row.ui");
  gtk_widget_class_bind_template_child (widget_class, WbJobRow, box);
  gtk_widget_class_bind_template_child (widget_class, WbJobRow, shipper);
  gtk_widget_class_bind_template_child (widget_class, WbJobRow, stage);
  gtk_widget_class_bind_template_child (widget_class, WbJobRow, route);
  gtk_widget_class_bind_template_child (widget_class, WbJobRow, facts);
  gtk_widget_class_bind_template_child (widget_class, WbJobRow, claims);
}

static void
wb_job_row_init (WbJobRow *self)
{
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_widget_init_template (GTK_WIDGET (self));

  self->item_signals = g_signal_group_new (WB_TYPE_JOB_ITEM);
  g_signal_group_connect_swapped (self->item_signals, "notify::summary", G_CALLBACK (show_item),
                                  self);
  g_signal_connect_swapped (click, "released", G_CALLBACK (released_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
}
