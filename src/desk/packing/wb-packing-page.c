/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The packing of the open job. The page has the packing worked out when the job changes and hands
 * it to its parts; what they ask for it does by the deeds of wb-packing-deeds.c. The list of
 * cartons is in wb-packing-page-cartons.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/packing/wb-packing-page-private.h"

#include "desk/packing/wb-packing-deeds.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-focus-within.h"
#include "desk/widgets/wb-one-stop.h"
#include "office/wb-lift-setting.h"
#include "office/wb-words-packing.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_ONLY_OPEN,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbPackingPage, wb_packing_page, GTK_TYPE_WIDGET)

WbCatalog *
wb_packing_page_get_catalog (WbPackingPage *self)
{
  return wb_office_get_catalog (wb_job_model_get_office (self->model));
}

/* --- showing ---------------------------------------------------------------------------------- */

gboolean
wb_packing_page_has_work (WbPackingPage *self,
                          const WbPiece *piece)
{
  WbPackingCounts counts = wb_packing_counts (self->packing, piece);

  return counts.unmet + counts.open > 0;
}

static void
show_totals (WbPackingPage *self)
{
  static const WbForm forms[] = { WB_FORM_CARTON, WB_FORM_LOOSE, WB_FORM_CRATE };
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      g_autofree char *words = NULL;
      g_autoptr (GError) error = NULL;
      WbPackingTotals totals;

      if (!wb_packing_totals (self->packing, forms[i], &totals, &error))
        words = wb_words_error (error);
      else if (totals.n > 0)
        words = wb_words_packing_totals (&totals, forms[i]);
      if (words != NULL)
        g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", words);
    }
  gtk_label_set_label (self->totals, text->len > 0 ? text->str : _("Nothing is on the inventory."));
}

static void
show_summary (WbPackingPage *self)
{
  guint n = 0, n_work = 0;
  g_autofree char *words = NULL;
  const char *child = "cartons";

  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (self->job, WB_KIND_PIECE, i);

      if (piece->form != WB_FORM_CARTON)
        continue;
      n++;
      n_work += wb_packing_page_has_work (self, piece) ? 1 : 0;
    }

  if (n == 0)
    child = "empty";
  else if (g_list_model_get_n_items (G_LIST_MODEL (self->selection)) == 0)
    child = "none";
  /* Translators: cartons with an unmet or open check, all cartons. */
  words = g_strdup_printf (ngettext ("%u of %u carton has unmet or open checks.",
                                     "%u of %u cartons have unmet or open checks.", n),
                           n_work, n);
  gtk_label_set_label (self->summary, words);
  gtk_widget_set_visible (GTK_WIDGET (self->summary), n > 0);
  gtk_stack_set_visible_child_name (self->stack, child);
}

void
wb_packing_page_show_panel (WbPackingPage *self)
{
  static const char *const actions[] = { "packing.met", "packing.unmet", "packing.reopen",
                                         "packing.all-met" };
  gboolean checks;

  wb_carton_panel_show (self->panel, self->packing, self->shown);
  checks = wb_carton_panel_has_checks (self->panel);
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), actions[i], checks);
}

static void
show_all (WbPackingPage *self)
{
  wb_item_table_show (self->items, self->packing);
  show_totals (self);
  if (self->only_open)
    gtk_filter_changed (GTK_FILTER (self->filter), GTK_FILTER_CHANGE_DIFFERENT);
  for (guint i = 0; i < self->list_items->len; i++)
    wb_packing_page_show_row (self, g_ptr_array_index (self->list_items, i));
  show_summary (self);
  wb_packing_page_show_panel (self);
}

/* Works the packing out when the job is another than before. */
static void
update (WbPackingPage *self)
{
  WbJob *job = wb_job_model_get_job (self->model);

  if (self->job == job)
    return;

  g_clear_pointer (&self->packing, wb_packing_free);
  g_clear_pointer (&self->job, wb_job_unref);
  self->job = wb_job_ref (job);
  self->packing = wb_packing_new (wb_packing_page_get_catalog (self), job);
  show_all (self);
}

static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  WbPackingPage *self = WB_PACKING_PAGE (widget);

  self->tick = 0;
  update (self);
  return G_SOURCE_REMOVE;
}

/* However often the job changes, it is worked out once a frame, and not at all while nobody
 * looks. */
static void
queue_update (WbPackingPage *self)
{
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), tick_cb, NULL, NULL);
}

/* Another weight is set in the preferences. */
static void
lift_changed_cb (WbPackingPage *self)
{
  if (self->packing != NULL)
    show_all (self);
}

static void
carton_activated_cb (WbPackingPage *self)
{
  wb_carton_panel_focus (self->panel);
}

/* --- cartons and materials -------------------------------------------------------------------- */

static gboolean
typed_cb (WbPackingPage *self,
          const char    *item,
          const char    *field,
          const char    *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *words = NULL;

  update (self);
  job = wb_packing_set_number (self->packing, self->job, item, field, text, &error);
  if (job == NULL)
    {
      words = wb_words_error (error);
      wb_item_table_show_fault (self->items, words);
      return FALSE;
    }
  /* Shown a frame later: the entry is still at work. */
  wb_job_model_apply (self->model, job, g_str_equal (field, "planned") ? _("Set planned")
                                                                       : _("Set used"));
  return TRUE;
}

static void
add_cb (WbPackingPage *self)
{
  g_autofree char *words = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->add))));
  g_autoptr (WbJob) job = NULL;
  const WbPackingRow *row;

  if (*words == '\0')
    return;

  update (self);
  job = wb_packing_add_item (wb_packing_page_get_catalog (self), self->packing, self->job, words);
  if (job != NULL)
    {
      wb_job_model_apply (self->model, job, _("Plan a carton or material"));
      update (self);
    }
  row = wb_packing_find_row (wb_packing_page_get_catalog (self), self->packing, words);
  gtk_editable_set_text (GTK_EDITABLE (self->add), "");
  if (row != NULL)
    wb_item_table_edit (self->items, row->item, "planned");
}

/* Offers the names of the catalogue while a person types. */
static void
offer_names (WbPackingPage *self)
{
  static const WbCatalogKind kinds[] = { WB_CATALOG_CARTON, WB_CATALOG_MATERIAL };
  WbCatalog *catalog = wb_packing_page_get_catalog (self);
  g_autoptr (GtkListStore) names = gtk_list_store_new (1, G_TYPE_STRING);
  g_autoptr (GtkEntryCompletion) completion = gtk_entry_completion_new ();

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (guint i = 0; i < wb_catalog_count (catalog, kinds[k]); i++)
      {
        const WbCatalogEntry *entry = wb_catalog_nth (catalog, kinds[k], i);

        gtk_list_store_insert_with_values (names, NULL, -1, 0, entry->name, -1);
      }
  gtk_entry_completion_set_model (completion, GTK_TREE_MODEL (names));
  gtk_entry_completion_set_text_column (completion, 0);
  gtk_entry_completion_set_inline_completion (completion, TRUE);
  gtk_entry_set_completion (self->add, completion);
}

/* --- actions ---------------------------------------------------------------------------------- */

static void
state_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  WbCartonPanel *panel = WB_PACKING_PAGE (widget)->panel;

  if (g_str_equal (name, "packing.reopen"))
    wb_carton_panel_note (panel, WB_CHECK_OPEN);
  else
    wb_carton_panel_note (panel, g_str_equal (name, "packing.met") ? WB_CHECK_MET
                                                                    : WB_CHECK_UNMET);
}

static void
all_met_action (GtkWidget  *widget,
                const char *name,
                GVariant   *parameter)
{
  wb_carton_panel_note_all (WB_PACKING_PAGE (widget)->panel);
}

static void
next_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  wb_packing_page_go_to_next_open (WB_PACKING_PAGE (widget));
}

static void
add_item_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *parameter)
{
  gtk_widget_grab_focus (GTK_WIDGET (WB_PACKING_PAGE (widget)->add));
}

static void
cartons_action (GtkWidget  *widget,
                const char *name,
                GVariant   *parameter)
{
  wb_packing_page_focus_cartons (WB_PACKING_PAGE (widget));
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
set_only_open (WbPackingPage *self,
               gboolean       only_open)
{
  if (self->only_open == only_open)
    return;

  self->only_open = only_open;
  gtk_filter_changed (GTK_FILTER (self->filter), GTK_FILTER_CHANGE_DIFFERENT);
  if (self->packing != NULL)
    show_summary (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_ONLY_OPEN]);
}

static void
set_model (WbPackingPage *self,
           WbJobModel    *model)
{
  if (model == NULL)
    return;

  self->model = g_object_ref (model);
  g_signal_connect_object (model, "notify::job", G_CALLBACK (queue_update), self,
                           G_CONNECT_SWAPPED);
  gtk_filter_list_model_set_model (self->filtered,
                                   wb_job_model_get_records (model, WB_KIND_PIECE));
  g_object_set (self->panel, "model", model, NULL);
  offer_names (self);
  update (self);
}

static void
wb_packing_page_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  WbPackingPage *self = WB_PACKING_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    case PROP_ONLY_OPEN:
      g_value_set_boolean (value, self->only_open);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_packing_page_set_property (GObject      *object,
                              guint         prop_id,
                              const GValue *value,
                              GParamSpec   *pspec)
{
  WbPackingPage *self = WB_PACKING_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (self, g_value_get_object (value));
      break;
    case PROP_ONLY_OPEN:
      set_only_open (self, g_value_get_boolean (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_packing_page_dispose (GObject *object)
{
  WbPackingPage *self = WB_PACKING_PAGE (object);
  GtkWidget *child;

  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_PACKING_PAGE);
  g_clear_object (&self->selection);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->packing, wb_packing_free);
  g_clear_pointer (&self->job, wb_job_unref);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_packing_page_parent_class)->dispose (object);
}

static void
wb_packing_page_finalize (GObject *object)
{
  WbPackingPage *self = WB_PACKING_PAGE (object);

  g_ptr_array_unref (self->list_items);
  g_free (self->shown);

  G_OBJECT_CLASS (wb_packing_page_parent_class)->finalize (object);
}

/* The first place to be is the list, where no key changes anything. */
static gboolean
wb_packing_page_grab_focus (GtkWidget *widget)
{
  WbPackingPage *self = WB_PACKING_PAGE (widget);

  if (g_list_model_get_n_items (G_LIST_MODEL (self->selection)) == 0)
    return gtk_widget_grab_focus (GTK_WIDGET (self->add));
  wb_packing_page_focus_cartons (self);
  return TRUE;
}

static void
install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "packing.met", NULL, state_action);
  gtk_widget_class_install_action (widget_class, "packing.unmet", NULL, state_action);
  gtk_widget_class_install_action (widget_class, "packing.reopen", NULL, state_action);
  gtk_widget_class_install_action (widget_class, "packing.all-met", NULL, all_met_action);
  gtk_widget_class_install_action (widget_class, "packing.next", NULL, next_action);
  gtk_widget_class_install_action (widget_class, "packing.add-item", NULL, add_item_action);
  gtk_widget_class_install_action (widget_class, "packing.cartons", NULL, cartons_action);
  gtk_widget_class_install_property_action (widget_class, "packing.only-open", "only-open");
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/packing/wb-packing-page.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPackingPage, totals);
  gtk_widget_class_bind_template_child (widget_class, WbPackingPage, items);
  gtk_widget_class_bind_template_child (widget_class, WbPackingPage, add);
  gtk_widget_class_bind_template_child (widget_class, WbPackingPage, summary);
  gtk_widget_class_bind_template_child (widget_class, WbPackingPage, stack);
  gtk_widget_class_bind_template_child (widget_class, WbPackingPage, list);
  gtk_widget_class_bind_template_child (widget_class, WbPackingPage, panel);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
  gtk_widget_class_bind_template_callback (widget_class, carton_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, wb_packing_page_focus_cartons);
  gtk_widget_class_bind_template_callback (widget_class, wb_packing_page_go_to_next_open);
  gtk_widget_class_bind_template_callback (widget_class, typed_cb);
  gtk_widget_class_bind_template_callback (widget_class, update);
}

static void
wb_packing_page_class_init (WbPackingPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_packing_page_get_property;
  object_class->set_property = wb_packing_page_set_property;
  object_class->dispose = wb_packing_page_dispose;
  object_class->finalize = wb_packing_page_finalize;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_packing_page_grab_focus;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  properties[PROP_ONLY_OPEN] =
    g_param_spec_boolean ("only-open", NULL, NULL, FALSE,
                          G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_CARTON_PANEL);
  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_ITEM_TABLE);
  g_type_ensure (WB_TYPE_ONE_STOP);

  install_actions (widget_class);
  bind_template (widget_class);
}

static void
wb_packing_page_init (WbPackingPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));

  wb_packing_page_make_cartons (self);
  self->settings = g_settings_new (WB_APP_ID);
  g_signal_connect_object (self->settings, "changed::" WB_LIFT_SETTING,
                           G_CALLBACK (lift_changed_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
wb_packing_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_PACKING_PAGE, "model", model, NULL);
}

const char *
wb_packing_page_get_selected (WbPackingPage *self)
{
  g_return_val_if_fail (WB_IS_PACKING_PAGE (self), NULL);

  return self->shown;
}
