/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows the lines of wb_charge_lines() as rows. The rows are made anew only when a line says
 * something else. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/order/wb-charges-panel.h"

#include "desk/widgets/wb-later.h"
#include "office/wb-charge-lines.h"

struct _WbChargesPanel
{
  AdwPreferencesGroup  parent_instance;

  WbJobModel          *model;
  GSignalGroup        *model_signals;
  GPtrArray           *rows;            /* borrowed from the group */
  char                *shown;           /* what the rows say, as one text */
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

static void later_init (WbLaterInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (WbChargesPanel, wb_charges_panel, ADW_TYPE_PREFERENCES_GROUP,
                               G_IMPLEMENT_INTERFACE (WB_TYPE_LATER, later_init))

/* --- rows ------------------------------------------------------------------------------------- */

static char *
describe (const WbChargeLine *line)
{
  if (line->citation == NULL)
    return g_strdup (line->note);

  return g_strdup_printf ("%s %s", line->note, line->citation);
}

static GtkWidget *
make_amount (const WbChargeLine *line)
{
  GtkWidget *label = gtk_label_new (line->amount);

  gtk_widget_add_css_class (label, "numeric");
  if (line->kind == WB_CHARGE_LINE_TOTAL)
    gtk_widget_add_css_class (label, "heading");
  return label;
}

static void
lead_to_field (GtkWidget  *row,
               const char *field)
{
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "job.reveal");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "(sss)", "order", "", field);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row),
                             gtk_image_new_from_icon_name ("go-next-symbolic"));
}

static GtkWidget *
make_row (const WbChargeLine *line)
{
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *note = describe (line);
  g_autofree char *name = line->amount != NULL
                            ? g_strdup_printf ("%s: %s, %s", line->title, line->amount, note)
                            : g_strdup_printf ("%s, %s", line->title, note);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), line->title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), note);
  if (line->amount != NULL)
    adw_action_row_add_suffix (ADW_ACTION_ROW (row), make_amount (line));
  if (line->kind == WB_CHARGE_LINE_GAP && line->field != NULL)
    lead_to_field (row, line->field);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return row;
}

static char *
text_of (GPtrArray *lines)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < lines->len; i++)
    {
      const WbChargeLine *line = g_ptr_array_index (lines, i);

      g_string_append_printf (text, "%s\n%s\n%s\n", line->title,
                              line->amount != NULL ? line->amount : "", line->note);
    }
  return g_string_free (text, FALSE);
}

static void
show_job (WbChargesPanel *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  WbTermsSet *terms = wb_office_get_terms (wb_job_model_get_office (self->model));
  g_autoptr (GPtrArray) lines = wb_charge_lines (job, wb_per_cuft_of (terms, job));
  g_autofree char *text = text_of (lines);

  if (g_strcmp0 (text, self->shown) == 0)
    return;

  for (guint i = 0; i < self->rows->len; i++)
    adw_preferences_group_remove (ADW_PREFERENCES_GROUP (self), g_ptr_array_index (self->rows, i));
  g_ptr_array_set_size (self->rows, 0);
  for (guint i = 0; i < lines->len; i++)
    {
      GtkWidget *row = make_row (g_ptr_array_index (lines, i));

      adw_preferences_group_add (ADW_PREFERENCES_GROUP (self), row);
      g_ptr_array_add (self->rows, row);
    }
  g_free (self->shown);
  self->shown = g_steal_pointer (&text);
}

static gboolean
make_more (WbLater *later)
{
  WbChargesPanel *self = WB_CHARGES_PANEL (later);

  g_signal_group_set_target (self->model_signals, self->model);
  if (self->model != NULL)
    show_job (self);
  return FALSE;
}

static void
later_init (WbLaterInterface *iface)
{
  iface->make_more = make_more;
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_charges_panel_get_property (GObject    *object,
                               guint       prop_id,
                               GValue     *value,
                               GParamSpec *pspec)
{
  WbChargesPanel *self = WB_CHARGES_PANEL (object);

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
wb_charges_panel_set_property (GObject      *object,
                               guint         prop_id,
                               const GValue *value,
                               GParamSpec   *pspec)
{
  WbChargesPanel *self = WB_CHARGES_PANEL (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_set_object (&self->model, g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_charges_panel_dispose (GObject *object)
{
  WbChargesPanel *self = WB_CHARGES_PANEL (object);

  g_clear_object (&self->model_signals);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_charges_panel_parent_class)->dispose (object);
}

static void
wb_charges_panel_finalize (GObject *object)
{
  WbChargesPanel *self = WB_CHARGES_PANEL (object);

  g_ptr_array_unref (self->rows);
  g_free (self->shown);

  G_OBJECT_CLASS (wb_charges_panel_parent_class)->finalize (object);
}

static void
wb_charges_panel_class_init (WbChargesPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_charges_panel_get_property;
  object_class->set_property = wb_charges_panel_set_property;
  object_class->dispose = wb_charges_panel_dispose;
  object_class->finalize = wb_charges_panel_finalize;

  properties[PROP_MODEL] = g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                                                G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
wb_charges_panel_init (WbChargesPanel *self)
{
  self->rows = g_ptr_array_new ();
  self->model_signals = g_signal_group_new (WB_TYPE_JOB_MODEL);
  g_signal_group_connect_swapped (self->model_signals, "notify::job", G_CALLBACK (show_job), self);
}
