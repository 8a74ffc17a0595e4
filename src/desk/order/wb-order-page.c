/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of the open job. Its rows set their fields themselves; the page adds what is seen only
 * when fields are looked at together: advice, the weight that governs, what is missing. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/order/wb-order-page.h"

#include "desk/order/wb-order-advice.h"
#include "desk/order/wb-record-section.h"
#include "desk/order/wb-record-words.h"
#include "desk/order/wb-terms-row.h"
#include "desk/widgets/wb-choice-row.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-switch-row.h"
#include "desk/widgets/wb-text-row.h"

#include <glib/gi18n.h>

struct _WbOrderPage
{
  GtkWidget        parent_instance;

  GtkWidget       *content;
  GtkWidget       *gaps_group;
  AdwExpanderRow  *gaps;
  AdwActionRow    *weight;
  WbRecordSection *parties;
  WbRecordSection *stops;
  WbRecordSection *weighings;
  WbFieldRow      *region;
  WbFieldRow      *pack_on;
  WbFieldRow      *pickup_to;
  WbFieldRow      *delivery_from;
  WbFieldRow      *delivery_to;
  WbFieldRow      *delivered_on;
  WbFieldRow      *storage_from;
  WbFieldRow      *storage_to;
  WbFieldRow      *estimate;

  WbJobModel      *model;
  GSignalGroup    *model_signals;
  GPtrArray       *gap_rows;       /* borrowed from the expander */
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbOrderPage, wb_order_page, GTK_TYPE_WIDGET)

/* --- advice, weight, gaps --------------------------------------------------------------------- */

static void
show_advice (WbOrderPage   *self,
             const WbOrder *order)
{
  WbFieldRow *const rows[] = {
    self->region, self->pack_on, self->pickup_to, self->delivery_from, self->delivery_to,
    self->delivered_on, self->storage_from, self->storage_to, self->estimate,
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *field = NULL;

      g_object_get (rows[i], "field", &field, NULL);
      wb_field_row_set_note (rows[i], wb_order_advice (order, field + strlen ("order.")));
    }
}

static void
show_weight (WbOrderPage *self,
             const WbJob *job)
{
  WbTermsSet *terms = wb_office_get_terms (wb_job_model_get_office (self->model));
  const WbTerms *edition = wb_terms_set_find (terms, wb_job_order (job), NULL);
  WbWeight constructive = edition != NULL ? edition->constructive_weight : WB_WEIGHT_UNSET;
  g_autofree char *words = wb_record_words_weight (job, constructive);

  adw_action_row_set_subtitle (self->weight, words);
}

static GtkWidget *
make_gap_row (const WbOrderGap *gap)
{
  GtkWidget *row = adw_action_row_new ();
  gboolean here = gap->field != NULL;

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), gap->words);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row),
                             gtk_image_new_from_icon_name ("go-next-symbolic"));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row),
                                  here ? "order.show-field" : "job.show-page");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "s", here ? gap->field : gap->page);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, gap->words,
                                  -1);
  return row;
}

/* The rows are made anew only when something else is missing than before. */
static gboolean
shows_gaps (WbOrderPage *self,
            GArray      *gaps)
{
  if (gaps->len != self->gap_rows->len)
    return FALSE;

  for (guint i = 0; i < gaps->len; i++)
    if (!g_str_equal (adw_preferences_row_get_title (g_ptr_array_index (self->gap_rows, i)),
                      g_array_index (gaps, WbOrderGap, i).words))
      return FALSE;

  return TRUE;
}

static void
show_gaps (WbOrderPage *self,
           const WbJob *job)
{
  g_autoptr (GArray) gaps = wb_order_gaps (job);
  g_autofree char *title = NULL;

  gtk_widget_set_visible (self->gaps_group, gaps->len > 0);
  if (shows_gaps (self, gaps))
    return;

  for (guint i = 0; i < self->gap_rows->len; i++)
    adw_expander_row_remove (self->gaps, g_ptr_array_index (self->gap_rows, i));
  g_ptr_array_set_size (self->gap_rows, 0);

  for (guint i = 0; i < gaps->len; i++)
    {
      GtkWidget *row = make_gap_row (&g_array_index (gaps, WbOrderGap, i));

      adw_expander_row_add_row (self->gaps, row);
      g_ptr_array_add (self->gap_rows, row);
    }

  title = g_strdup_printf (ngettext ("%u thing is missing before the truck leaves",
                                     "%u things are missing before the truck leaves", gaps->len),
                           gaps->len);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->gaps), title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->gaps), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  -1);
}

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

static void
show_job (WbOrderPage *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);

  gtk_widget_set_visible (GTK_WIDGET (self->region), concerns_state (wb_job_order (job)));
  show_advice (self, wb_job_order (job));
  show_weight (self, job);
  show_gaps (self, job);
}

/* --- actions ---------------------------------------------------------------------------------- */

static void
add_party_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_record_section_add (WB_ORDER_PAGE (widget)->parties);
}

static void
add_stop_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *target)
{
  wb_record_section_add (WB_ORDER_PAGE (widget)->stops);
}

static void
add_weighing_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *target)
{
  wb_record_section_add (WB_ORDER_PAGE (widget)->weighings);
}

/* Returns: (nullable): the row below @widget that shows @field */
static GtkWidget *
find_field (GtkWidget  *widget,
            const char *field)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found;
      g_autofree char *name = NULL;

      if (g_object_class_find_property (G_OBJECT_GET_CLASS (child), "field") != NULL)
        g_object_get (child, "field", &name, NULL);
      if (g_strcmp0 (name, field) == 0)
        return child;

      found = find_field (child, field);
      if (found != NULL)
        return found;
    }

  return NULL;
}

static void
show_field_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *target)
{
  WbOrderPage *self = WB_ORDER_PAGE (widget);
  const char *field = g_variant_get_string (target, NULL);
  GtkWidget *found;

  if (g_str_equal (field, "party"))
    found = GTK_WIDGET (self->parties);
  else if (g_str_equal (field, "stop"))
    found = GTK_WIDGET (self->stops);
  else if (g_str_equal (field, "weighing"))
    found = GTK_WIDGET (self->weighings);
  else
    found = find_field (self->content, field);

  if (found != NULL)
    gtk_widget_child_focus (found, GTK_DIR_TAB_FORWARD);
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
  WbOrderPage *self = WB_ORDER_PAGE (object);

  g_clear_pointer (&self->gap_rows, g_ptr_array_unref);

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
  g_type_ensure (WB_TYPE_CHOICE_ROW);
  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_FIELD_ROW);
  g_type_ensure (WB_TYPE_RECORD_SECTION);
  g_type_ensure (WB_TYPE_SWITCH_ROW);
  g_type_ensure (WB_TYPE_TERMS_ROW);
  g_type_ensure (WB_TYPE_TEXT_ROW);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, content);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, gaps_group);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, gaps);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, weight);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, parties);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, stops);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, weighings);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, region);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, pack_on);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, pickup_to);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, delivery_from);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, delivery_to);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, delivered_on);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, storage_from);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, storage_to);
  gtk_widget_class_bind_template_child (widget_class, WbOrderPage, estimate);
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
  gtk_widget_class_install_action (widget_class, "order.show-field", "s", show_field_action);
}

static void
wb_order_page_init (WbOrderPage *self)
{
  self->gap_rows = g_ptr_array_new ();
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
