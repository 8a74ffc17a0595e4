/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of the open job. Its rows set their fields themselves; the page adds what is seen only
 * when fields are looked at together: advice, the weight that governs, what is missing. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/order/wb-order-page.h"

#include "core/wb-checklist.h"
#include "desk/order/wb-charges-panel.h"
#include "desk/order/wb-order-advice.h"
#include "desk/order/wb-terms-row.h"
#include "desk/records/wb-field-group.h"
#include "desk/records/wb-record-section.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-later.h"
#include "desk/widgets/wb-reveal.h"
#include "office/wb-charge-lines.h"
#include "office/wb-words-papers.h"
#include "office/wb-words-record.h"

#include <glib/gi18n.h>

struct _WbOrderPage
{
  GtkWidget        parent_instance;

  GtkWidget       *content;
  GtkWidget       *missing_group;
  AdwActionRow    *missing;
  AdwActionRow    *weight;
  WbRecordSection *parties;
  WbRecordSection *stops;
  WbRecordSection *weighings;
  GHashTable      *rows;          /* "number" → its row, as far as they are made */

  WbJobModel      *model;
  GSignalGroup    *model_signals;
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

static void revealer_init (WbRevealerInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (WbOrderPage, wb_order_page, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (WB_TYPE_REVEALER, revealer_init))

/* --- advice, weight, what is missing ---------------------------------------------------------- */

/* A state's own rules govern only moves within it; a state that was entered all the same is to be
 * seen, or it could not be taken out. */
static gboolean
concerns_state (const WbOrder *order)
{
  switch (order->move_type)
    {
    case WB_MOVE_INTRASTATE:
    case WB_MOVE_OTHER:
      return TRUE;
    case WB_MOVE_NONE:
    case WB_MOVE_INTERSTATE:
    case WB_MOVE_MILITARY:
      return order->region != NULL;
    }

  g_assert_not_reached ();
}

/* Returns: (transfer full) (nullable) */
static char *
advise (WbOrderPage *self,
        const char  *field)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  WbTermsSet *terms = wb_office_get_terms (wb_job_model_get_office (self->model));

  if (g_str_equal (field, "insurance"))
    return g_strdup (wb_order_insurance_advice (job));
  if (g_str_equal (field, "delivered_weight"))
    return wb_order_delivered_advice (job, wb_per_cuft_of (terms, job));
  return g_strdup (wb_order_advice (wb_job_order (job), field));
}

static void
show_row (WbOrderPage *self,
          const char  *field,
          GtkWidget   *row)
{
  g_autofree char *advice = advise (self, field);

  if (WB_IS_FIELD_ROW (row))
    wb_field_row_set_note (WB_FIELD_ROW (row), advice);
  if (g_str_equal (field, "region"))
    gtk_widget_set_visible (row,
                            concerns_state (wb_job_order (wb_job_model_get_job (self->model))));
}

static void
show_rows (WbOrderPage *self)
{
  GHashTableIter iter;
  gpointer field, row;

  g_hash_table_iter_init (&iter, self->rows);
  while (g_hash_table_iter_next (&iter, &field, &row))
    show_row (self, field, row);
}

static void
row_made_cb (WbOrderPage *self,
             GtkWidget   *row,
             const char  *name)
{
  const char *field = name + strlen ("order.");

  if (!g_str_has_prefix (name, "order."))
    return;
  g_hash_table_insert (self->rows, g_strdup (field), row);
  if (self->model != NULL)
    show_row (self, field, row);
}

static void
show_weight (WbOrderPage *self,
             const WbJob *job)
{
  WbTermsSet *terms = wb_office_get_terms (wb_job_model_get_office (self->model));
  g_autofree char *words = wb_words_shipment_weight (job, wb_per_cuft_of (terms, job));

  adw_action_row_set_subtitle (self->weight, words);
}

static guint
count_missing (const WbJob *job)
{
  g_autoptr (GArray) entries = NULL;
  GDate today;
  guint n = 0;

  wb_office_today (&today);
  entries = wb_checklist (job, &today);
  for (guint i = 0; i < entries->len; i++)
    if (wb_checklist_is_urgent (job, &g_array_index (entries, WbChecklistEntry, i)))
      n++;
  return n;
}

/* How much is missing; what it is stands on the page of the papers. */
static void
show_missing (WbOrderPage *self,
              const WbJob *job)
{
  guint n = count_missing (job);
  g_autofree char *number = g_strdup_printf ("%u", n);
  GString *title = g_string_new (wb_words_missing_format (n));

  g_string_replace (title, "%u", number, 1);
  gtk_widget_set_visible (self->missing_group, n > 0);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->missing), title->str);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->missing), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  title->str, -1);
  g_string_free (title, TRUE);
}

static void
show_job (WbOrderPage *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);

  show_rows (self);
  show_weight (self, job);
  show_missing (self, job);
}

/* --- actions ---------------------------------------------------------------------------------- */

static void
add_party_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_later_finish (widget);
  wb_record_section_add (WB_ORDER_PAGE (widget)->parties);
}

static void
add_stop_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *target)
{
  wb_later_finish (widget);
  wb_record_section_add (WB_ORDER_PAGE (widget)->stops);
}

static void
add_weighing_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *target)
{
  wb_later_finish (widget);
  wb_record_section_add (WB_ORDER_PAGE (widget)->weighings);
}

static gboolean
reveal (WbRevealer *revealer,
        WbKind      kind,
        const char *id,
        const char *field)
{
  WbOrderPage *self = WB_ORDER_PAGE (revealer);

  wb_later_finish (GTK_WIDGET (self));
  if (kind == WB_KIND_PARTY)
    return wb_record_section_reveal (self->parties, id, field);
  if (kind == WB_KIND_STOP)
    return wb_record_section_reveal (self->stops, id, field);
  if (kind == WB_KIND_WEIGHING)
    return wb_record_section_reveal (self->weighings, id, field);

  return FALSE;
}

static void
revealer_init (WbRevealerInterface *iface)
{
  iface->reveal = reveal;
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_order_page_get_property (GObject    *object,
                            guint       prop_id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  WbOrderPage *self = WB_ORDER_PAGE (object);

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
wb_order_page_set_property (GObject      *object,
                            guint         prop_id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  WbOrderPage *self = WB_ORDER_PAGE (object);

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
wb_order_page_constructed (GObject *object)
{
  WbOrderPage *self = WB_ORDER_PAGE (object);

  G_OBJECT_CLASS (wb_order_page_parent_class)->constructed (object);

  g_signal_group_set_target (self->model_signals, self->model);
  if (self->model != NULL)
    show_job (self);
  wb_later_start (GTK_WIDGET (self));
}

static void
wb_order_page_dispose (GObject *object)
{
  WbOrderPage *self = WB_ORDER_PAGE (object);

  g_clear_object (&self->model_signals);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_ORDER_PAGE);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_order_page_parent_class)->dispose (object);
}

static void
wb_order_page_finalize (GObject *object)
{
  g_hash_table_unref (WB_ORDER_PAGE (object)->rows);

  G_OBJECT_CLASS (wb_order_page_parent_class)->finalize (object);
}

/* Whoever comes to the page has typed nothing yet: the focus is on the page, where the arrows
 * scroll, and not in its first field, where a letter would replace the job number. */
static gboolean
wb_order_page_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (WB_ORDER_PAGE (widget)->content);
}

/* From the page itself Tab goes to its first field; a scrolled window would let it out. */
static gboolean
wb_order_page_focus (GtkWidget        *widget,
                     GtkDirectionType  direction)
{
  WbOrderPage *self = WB_ORDER_PAGE (widget);
  GtkScrolledWindow *scrolled = GTK_SCROLLED_WINDOW (self->content);

  if (gtk_widget_is_focus (self->content) && direction == GTK_DIR_TAB_FORWARD)
    return gtk_widget_child_focus (gtk_scrolled_window_get_child (scrolled), direction);
  return gtk_widget_child_focus (self->content, direction);
}

static void
ensure_types (void)
{
  g_type_ensure (WB_TYPE_CHARGES_PANEL);
  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_FIELD_GROUP);
  g_type_ensure (WB_TYPE_RECORD_SECTION);
  g_type_ensure (WB_TYPE_TERMS_ROW);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, content);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, missing_group);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, missing);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, weight);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, parties);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, stops);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, weighings);
  gtk_widget_class_bind_template_callback (widget_class, row_made_cb);
}

static void
wb_order_page_class_init (WbOrderPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_order_page_get_property;
  object_class->set_property = wb_order_page_set_property;
  object_class->constructed = wb_order_page_constructed;
  object_class->dispose = wb_order_page_dispose;
  object_class->finalize = wb_order_page_finalize;
  widget_class->focus = wb_order_page_focus;
  widget_class->grab_focus = wb_order_page_grab_focus;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  ensure_types ();
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/order/wb-order-page.ui");
  bind_children (widget_class);

  gtk_widget_class_install_action (widget_class, "order.add-party", NULL, add_party_action);
  gtk_widget_class_install_action (widget_class, "order.add-stop", NULL, add_stop_action);
  gtk_widget_class_install_action (widget_class, "order.add-weighing", NULL, add_weighing_action);
}

static void
wb_order_page_init (WbOrderPage *self)
{
  self->rows = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->model_signals = g_signal_group_new (WB_TYPE_JOB_MODEL);
  g_signal_group_connect_swapped (self->model_signals, "notify::job", G_CALLBACK (show_job), self);

  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_order_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_ORDER_PAGE, "model", model, NULL);
}
