/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bars above the list of jobs. They tell and lead to where something can be done; they do
 * nothing themselves. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-notices.h"

#include "desk/job/wb-job-heading.h"

#include <adwaita.h>
#include <glib/gi18n.h>

struct _WbNotices
{
  GtkWidget     parent_instance;

  GtkWidget    *box;
  GtkInfoBar   *terms_bar;
  GtkLabel     *terms_label;
  GtkInfoBar   *unstored_bar;
  GtkLabel     *unstored_label;

  WbOpenJobs   *open_jobs;
  GSignalGroup *open_jobs_signals;
  WbJobModel   *shown;
};

enum
{
  PROP_0,
  PROP_OPEN_JOBS,
  PROP_SHOWN,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbNotices, wb_notices, GTK_TYPE_WIDGET)

static WbOffice *
get_office (WbNotices *self)
{
  return wb_open_jobs_get_office (self->open_jobs);
}

/* Returns: (transfer full): what is wrong with the files of terms and of the catalogue. */
static char *
describe_faults (WbNotices *self)
{
  g_autofree char *terms = g_strjoinv ("\n\n",
                                       (char **) wb_office_get_terms_faults (get_office (self)));
  const char *const *unreadable = wb_office_get_catalog_faults (get_office (self));
  g_autofree char *catalog = g_strjoinv ("\n\n", (char **) unreadable);

  return g_strconcat (terms, *terms != '\0' && *catalog != '\0' ? "\n\n" : "", catalog, NULL);
}

static void
show_terms (WbNotices *self)
{
  guint n_terms = 0, n_catalog = 0;
  g_autoptr (GString) text = g_string_new (NULL);

  if (self->open_jobs != NULL)
    {
      n_terms = g_strv_length ((char **) wb_office_get_terms_faults (get_office (self)));
      n_catalog = g_strv_length ((char **) wb_office_get_catalog_faults (get_office (self)));
    }
  if (n_terms > 0)
    g_string_append_printf (text, ngettext ("%u file of terms has a fault and was left out.",
                                            "%u files of terms have faults and were left out.",
                                            n_terms),
                            n_terms);
  if (n_terms > 0 && n_catalog > 0)
    g_string_append_c (text, ' ');
  if (n_catalog > 0)
    g_string_append_printf (text, ngettext ("%u fault stands in files of the catalogue.",
                                            "%u faults stand in files of the catalogue.",
                                            n_catalog),
                            n_catalog);

  gtk_label_set_label (self->terms_label, text->str);
  gtk_info_bar_set_revealed (self->terms_bar, n_terms + n_catalog > 0);
}

static WbJobModel *
find_unstored (WbNotices *self)
{
  return self->open_jobs != NULL ? wb_open_jobs_get_faulty (self->open_jobs, self->shown) : NULL;
}

static void
show_unstored (WbNotices *self)
{
  WbJobModel *model = find_unstored (self);

  if (model != NULL)
    {
      const WbJob *job = wb_job_model_get_job (model);
      const char *number = wb_job_order (job)->number;
      g_autofree char *shipper = wb_job_heading_title (job);
      /* Translators: a job number and the name of its shipper. */
      g_autofree char *text = g_strdup_printf (_("Changes to %s (%s) are not stored."),
                                               number != NULL ? number : _("a job"), shipper);

      gtk_label_set_label (self->unstored_label, text);
    }

  gtk_info_bar_set_revealed (self->unstored_bar, model != NULL);
}

static void
terms_answered_cb (WbNotices *self,
                   int        response)
{
  g_autofree char *text = NULL;
  GtkWidget *dialog;

  gtk_info_bar_set_revealed (self->terms_bar, FALSE);
  if (response == GTK_RESPONSE_CLOSE)
    return;

  text = describe_faults (self);
  dialog = adw_message_dialog_new (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                                   _("Files With Faults"), text);
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
unstored_answered_cb (WbNotices *self)
{
  WbJobModel *model = find_unstored (self);

  if (model != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.open-job", "s",
                                wb_job_get_id (wb_job_model_get_job (model)));
}

static void
wb_notices_get_property (GObject    *object,
                         guint       prop_id,
                         GValue     *value,
                         GParamSpec *pspec)
{
  WbNotices *self = WB_NOTICES (object);

  switch (prop_id)
    {
    case PROP_OPEN_JOBS:
      g_value_set_object (value, self->open_jobs);
      break;
    case PROP_SHOWN:
      g_value_set_object (value, self->shown);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_notices_set_property (GObject      *object,
                         guint         prop_id,
                         const GValue *value,
                         GParamSpec   *pspec)
{
  WbNotices *self = WB_NOTICES (object);

  switch (prop_id)
    {
    case PROP_OPEN_JOBS:
      g_set_object (&self->open_jobs, g_value_get_object (value));
      g_signal_group_set_target (self->open_jobs_signals, self->open_jobs);
      show_terms (self);
      show_unstored (self);
      break;
    case PROP_SHOWN:
      g_set_object (&self->shown, g_value_get_object (value));
      show_unstored (self);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_notices_dispose (GObject *object)
{
  WbNotices *self = WB_NOTICES (object);

  g_clear_object (&self->open_jobs_signals);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_NOTICES);
  g_clear_object (&self->shown);
  g_clear_object (&self->open_jobs);

  G_OBJECT_CLASS (wb_notices_parent_class)->dispose (object);
}

static void
wb_notices_class_init (WbNoticesClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = wb_notices_get_property;
  object_class->set_property = wb_notices_set_property;
  object_class->dispose = wb_notices_dispose;

  properties[PROP_OPEN_JOBS] = g_param_spec_object ("open-jobs", NULL, NULL,
                                                    WB_TYPE_OPEN_JOBS, flags);
  properties[PROP_SHOWN] = g_param_spec_object ("shown", NULL, NULL, WB_TYPE_JOB_MODEL, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/window/wb-notices.ui");
  gtk_widget_class_bind_template_child (widget_class, WbNotices, box);
  gtk_widget_class_bind_template_child (widget_class, WbNotices, terms_bar);
  gtk_widget_class_bind_template_child (widget_class, WbNotices, terms_label);
  gtk_widget_class_bind_template_child (widget_class, WbNotices, unstored_bar);
  gtk_widget_class_bind_template_child (widget_class, WbNotices, unstored_label);
  gtk_widget_class_bind_template_callback (widget_class, terms_answered_cb);
  gtk_widget_class_bind_template_callback (widget_class, unstored_answered_cb);
}

static void
wb_notices_init (WbNotices *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));

  self->open_jobs_signals = g_signal_group_new (WB_TYPE_OPEN_JOBS);
  g_signal_group_connect_swapped (self->open_jobs_signals, "faults-changed",
                                  G_CALLBACK (show_unstored), self);
}
