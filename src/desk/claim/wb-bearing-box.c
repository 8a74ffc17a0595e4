/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Has a reckoned claim shared out and hands the shares to the widgets that show them. What each
 * bears is core's, the sentences are the office's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-bearing-box.h"

#include "desk/claim/wb-bearing-deeds.h"
#include "desk/claim/wb-bearing-handlers.h"
#include "desk/claim/wb-bearing-table.h"
#include "desk/claim/wb-claim-deeds.h"
#include "desk/claim/wb-record-table.h"
#include "desk/claim/wb-split-window.h"
#include "desk/claim/wb-statement-window.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-charge-statement.h"
#include "office/wb-words-bearing.h"

#include <glib/gi18n.h>

struct _WbBearingBox
{
  GtkWidget          parent_instance;

  GtkWidget         *box;
  GtkLabel          *fault;
  GtkWidget         *shares;
  WbBearingHandlers *handlers;
  GtkLabel          *remark;
  WbBearingTable    *lines;
  GtkLabel          *sums;
  WbRecordTable     *charges;
  GtkLabel          *differences;

  WbJobModel        *model;
  char              *claim_id;        /* (nullable) */
  WbApportionment   *apportionment;   /* (nullable) */
};

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_CLAIM_ID,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbBearingBox, wb_bearing_box, GTK_TYPE_WIDGET)

static const WbTableColumn columns[] = {
  { "handler", N_("Handler"), 24 },
  { "amount", N_("Charged"), 11 },
  { "stated_on", N_("Stated on"), 11 },
  { "recovered", N_("Came back"), 11 },
  /* Translators: heading of a column of dates: when money came back. */
  { "recovered_on", N_("On"), 11 },
  { NULL, N_("Still open"), 14, .numeric = TRUE },
  { "notes", N_("Notes"), 22 },
};

/* --- what is shown ---------------------------------------------------------------------------- */

static void
show_words (GtkLabel   *label,
            const char *words)
{
  gtk_label_set_label (label, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (label), words != NULL);
}

static void
show_error (WbBearingBox *self,
            const GError *error)
{
  g_autofree char *words = error != NULL ? wb_words_error (error) : NULL;

  show_words (self->fault, words);
}

static void
append_sentence (GString    *out,
                 const char *sentence)
{
  if (sentence == NULL)
    return;
  if (out->len > 0)
    g_string_append_c (out, ' ');
  g_string_append (out, sentence);
}

/* What nobody is shown to have had, and what comes on top. */
static void
show_remark (WbBearingBox *self)
{
  const WbApportionment *shares = self->apportionment;
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *unassigned = wb_words_unassigned (shares);

  append_sentence (out, unassigned);
  if (shares->freight_refund > 0)
    {
      g_autofree char *refund = wb_words_minor (shares->freight_refund,
                                                shares->reckoning->terms->currency);
      g_autofree char *carrier = wb_words_handler (&shares->handlers[0]);
      /* Translators: an amount, and the name of the carrier. */
      g_autofree char *words = g_strdup_printf (_("The freight that is given back, %s, is borne by "
                                                  "%s alone."), refund, carrier);

      append_sentence (out, words);
    }
  show_words (self->remark, out->len > 0 ? out->str : NULL);
}

static void
show_differences (WbBearingBox *self)
{
  const WbApportionment *shares = self->apportionment;
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < shares->n_handlers; i++)
    {
      g_autofree char *difference = wb_charge_difference (shares, i);
      g_autofree char *name = NULL;

      if (difference == NULL)
        continue;
      name = wb_words_handler (&shares->handlers[i]);
      if (out->len > 0)
        g_string_append_c (out, '\n');
      /* Translators: a handler, and how what was stated to it differs from what it bears. */
      g_string_append_printf (out, _("%s: %s"), name, difference);
    }
  show_words (self->differences, out->len > 0 ? out->str : NULL);
}

static void
enable_actions (WbBearingBox *self)
{
  gboolean shared = self->apportionment != NULL && self->apportionment->n_lines > 0;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bearing.split",
                                 shared && wb_bearing_table_get_selected_id (self->lines) != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bearing.state", shared);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bearing.statements",
                                 shared && self->apportionment->n_handlers > 1);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bearing.remove-charge",
                                 wb_record_table_get_selected_id (self->charges) != NULL);
}

static char *
notice_of_charge (gconstpointer record,
                  gpointer      data)
{
  WbBearingBox *self = data;
  const WbHandlerCharge *charge = record;
  gint64 amount = wb_money_is_set (charge->amount) ? charge->amount.minor : 0;
  gint64 recovered = wb_money_is_set (charge->recovered) ? charge->recovered.minor : 0;
  const char *currency = wb_job_get_currency (wb_job_model_get_job (self->model));
  g_autofree char *words = NULL;

  if (recovered == amount)
    return g_strdup (_("Nothing"));
  words = wb_words_minor (ABS (amount - recovered), currency);
  if (recovered < amount)
    return g_steal_pointer (&words);
  /* Translators: an amount. */
  return g_strdup_printf (_("%s too much"), words);
}

void
wb_bearing_box_show (WbBearingBox *self,
                     WbReckoning  *reckoning)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *sums = NULL;

  g_return_if_fail (WB_IS_BEARING_BOX (self));

  g_clear_pointer (&self->apportionment, wb_apportionment_free);
  if (reckoning != NULL)
    self->apportionment = wb_apportion (reckoning, WB_APPORTION_LAST, &error);
  show_error (self, error);
  gtk_widget_set_visible (self->shares, self->apportionment != NULL
                                        && self->apportionment->n_lines > 0);
  wb_bearing_handlers_show (self->handlers, self->apportionment);
  wb_bearing_table_show (self->lines, self->apportionment);
  gtk_widget_set_visible (GTK_WIDGET (self->charges),
                          wb_record_table_get_n_rows (self->charges) > 0);
  enable_actions (self);
  if (self->apportionment == NULL)
    return;

  show_remark (self);
  show_differences (self);
  sums = wb_charge_sums_in_words (self->apportionment);
  gtk_label_set_label (self->sums, sums);
  wb_record_table_renew_notices (self->charges);
}

void
wb_bearing_box_select_line (WbBearingBox *self,
                            const char   *line_id)
{
  g_return_if_fail (WB_IS_BEARING_BOX (self));

  wb_bearing_table_select (self->lines, line_id);
}

/* --- deeds ------------------------------------------------------------------------------------ */

static GtkWindow *
get_window (WbBearingBox *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  return GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL;
}

static void
split_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbBearingBox *self = WB_BEARING_BOX (widget);
  const char *line_id = wb_bearing_table_get_selected_id (self->lines);
  GtkWindow *window = get_window (self);

  if (window == NULL || line_id == NULL || self->apportionment == NULL)
    return;
  gtk_window_present (GTK_WINDOW (wb_split_window_new (window, self->model, self->apportionment,
                                                       line_id)));
}

static void
state_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbBearingBox *self = WB_BEARING_BOX (widget);
  g_autoptr (GError) error = NULL;
  GDate today;

  if (self->apportionment == NULL)
    return;
  wb_office_today (&today);
  wb_bearing_deeds_state (self->model, self->apportionment, &today, &error);
  show_error (self, error);
}

static void
statements_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *target)
{
  WbBearingBox *self = WB_BEARING_BOX (widget);
  GtkWindow *window = get_window (self);
  const WbHandlerCharge *charge = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CHARGE,
                                               wb_record_table_get_selected_id (self->charges));

  if (window == NULL || self->apportionment == NULL)
    return;
  gtk_window_present (GTK_WINDOW (wb_statement_window_new (window, self->apportionment->reckoning,
                                                           charge != NULL ? charge->handler
                                                                          : NULL)));
}

static void
remove_charge_action (GtkWidget  *widget,
                      const char *name,
                      GVariant   *target)
{
  WbBearingBox *self = WB_BEARING_BOX (widget);
  g_autofree char *id = g_strdup (wb_record_table_get_selected_id (self->charges));
  g_autoptr (GError) error = NULL;

  if (id == NULL)
    return;
  wb_claim_deeds_remove (self->model, WB_KIND_CHARGE, id, &error);
  show_error (self, error);
}

static void
selected_cb (WbBearingBox *self)
{
  enable_actions (self);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
set_model (WbBearingBox *self,
           WbJobModel   *model)
{
  if (model == NULL || !g_set_object (&self->model, model))
    return;
  wb_record_table_set_up (self->charges, model, WB_KIND_CHARGE, _("Charges to handlers"), columns,
                          G_N_ELEMENTS (columns));
  wb_record_table_set_notice (self->charges, notice_of_charge, self);
}

static void
set_claim (WbBearingBox *self,
           const char   *id)
{
  g_free (self->claim_id);
  self->claim_id = g_strdup (id);
  show_words (self->fault, NULL);
  if (self->model != NULL)
    wb_record_table_set_owner (self->charges, id);
}

static void
wb_bearing_box_set_property (GObject      *object,
                         guint         prop_id,
                         const GValue *value,
                         GParamSpec   *pspec)
{
  WbBearingBox *self = WB_BEARING_BOX (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (self, g_value_get_object (value));
      break;
    case PROP_CLAIM_ID:
      set_claim (self, g_value_get_string (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

/* The first place to be is the table of lines, past the buttons above it. */
static gboolean
wb_bearing_box_grab_focus (GtkWidget *widget)
{
  return gtk_widget_child_focus (GTK_WIDGET (WB_BEARING_BOX (widget)->lines), GTK_DIR_TAB_FORWARD);
}

static void
wb_bearing_box_dispose (GObject *object)
{
  WbBearingBox *self = WB_BEARING_BOX (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_BEARING_BOX);
  g_clear_pointer (&self->apportionment, wb_apportionment_free);
  g_clear_object (&self->model);
  g_clear_pointer (&self->claim_id, g_free);

  G_OBJECT_CLASS (wb_bearing_box_parent_class)->dispose (object);
}

static void
wb_bearing_box_class_init (WbBearingBoxClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->set_property = wb_bearing_box_set_property;
  object_class->dispose = wb_bearing_box_dispose;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_bearing_box_grab_focus;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_CLAIM_ID] =
    g_param_spec_string ("claim-id", NULL, NULL, NULL,
                         G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_BEARING_HANDLERS);
  g_type_ensure (WB_TYPE_BEARING_TABLE);
  g_type_ensure (WB_TYPE_FLOW_LAYOUT);
  g_type_ensure (WB_TYPE_RECORD_TABLE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-bearing-box.ui");
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, box);
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, fault);
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, shares);
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, handlers);
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, remark);
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, lines);
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, sums);
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, charges);
  gtk_widget_class_bind_template_child (widget_class, WbBearingBox, differences);
  gtk_widget_class_bind_template_callback (widget_class, selected_cb);

  gtk_widget_class_install_action (widget_class, "bearing.split", NULL, split_action);
  gtk_widget_class_install_action (widget_class, "bearing.state", NULL, state_action);
  gtk_widget_class_install_action (widget_class, "bearing.statements", NULL, statements_action);
  gtk_widget_class_install_action (widget_class, "bearing.remove-charge", NULL,
                                   remove_charge_action);
}

static void
wb_bearing_box_init (WbBearingBox *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
