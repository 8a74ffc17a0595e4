/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows quotes and lets a person take one. What taking does core says, what differs the office. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-quote-box.h"

#include "desk/claim/wb-claim-deeds.h"
#include "desk/claim/wb-record-table.h"
#include "desk/widgets/wb-flow-layout.h"
#include "office/wb-words-quote.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <inttypes.h>

struct _WbQuoteBox
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkLabel      *heading;
  GtkWidget     *none;
  GtkLabel      *differs;
  GtkLabel      *fault;
  WbRecordTable *table;

  WbJobModel    *model;
  char          *line_id;   /* (nullable) */
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbQuoteBox, wb_quote_box, GTK_TYPE_WIDGET)

static const WbTableColumn columns[] = {
  /* Translators: heading of a column: what a quote is for, such as a repair. */
  { "kind", N_("For"), 12 },
  { "source", N_("From whom"), 20 },
  { "on", N_("Date"), 11 },
  { "amount", N_("Amount"), 10 },
  { NULL, N_("Figure of the line"), 20 },
  { "notes", N_("Notes"), 24 },
};

static void
show_label (GtkLabel   *label,
            const char *words)
{
  gtk_label_set_label (label, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (label), words != NULL);
}

static void
enable_actions (WbQuoteBox *self)
{
  gboolean chosen = wb_record_table_get_selected_id (self->table) != NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "quotes.add", self->line_id != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "quotes.take", chosen);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "quotes.remove", chosen);
}

static void
show_heading (WbQuoteBox        *self,
              const WbClaimLine *line)
{
  /* Translators: the number of a claim line. */
  g_autofree char *heading = g_strdup_printf (_("Quotes for Line %" PRId64),
                                              line->number);

  gtk_label_set_label (self->heading, heading);
}

void
wb_quote_box_show (WbQuoteBox *self,
                   const char *line_id)
{
  WbJob *job;
  const WbClaimLine *line;
  g_autofree char *differs = NULL;
  gboolean has_rows;

  g_return_if_fail (WB_IS_QUOTE_BOX (self));

  /* The page may show a line before its model has come here. */
  if (self->model == NULL)
    return;
  job = wb_job_model_get_job (self->model);
  line = wb_job_find (job, WB_KIND_CLAIM_LINE, line_id);
  if (g_strcmp0 (line_id, self->line_id) != 0)
    {
      g_free (self->line_id);
      self->line_id = g_strdup (line != NULL ? line_id : NULL);
      show_label (self->fault, NULL);
      wb_record_table_set_owner (self->table, self->line_id);
    }
  gtk_widget_set_visible (GTK_WIDGET (self), line != NULL);
  enable_actions (self);
  if (line == NULL)
    return;

  show_heading (self, line);
  has_rows = wb_record_table_get_n_rows (self->table) > 0;
  gtk_widget_set_visible (GTK_WIDGET (self->table), has_rows);
  gtk_widget_set_visible (self->none, !has_rows);
  wb_record_table_renew_notices (self->table);
  differs = wb_words_quotes_differ (job, line_id);
  show_label (self->differs, differs);
}

static char *
notice_of_quote (gconstpointer record,
                 gpointer      data)
{
  return wb_words_quote_state (wb_job_model_get_job (WB_QUOTE_BOX (data)->model), record);
}

/* --- deeds ------------------------------------------------------------------------------------ */

void
wb_quote_box_add (WbQuoteBox *self)
{
  g_autofree char *id = NULL;
  GDate today;

  g_return_if_fail (WB_IS_QUOTE_BOX (self));

  if (self->line_id == NULL)
    return;
  wb_office_today (&today);
  id = wb_claim_deeds_add_quote (self->model, self->line_id, &today);
  wb_record_table_edit (self->table, id, "source");
}

static void
add_action (GtkWidget  *widget,
            const char *name,
            GVariant   *target)
{
  wb_quote_box_add (WB_QUOTE_BOX (widget));
}

static void
show_error (WbQuoteBox   *self,
            const GError *error)
{
  g_autofree char *words = error != NULL ? wb_words_error (error) : NULL;

  show_label (self->fault, words);
}

/* What is being typed counts; the focus stays where it is. */
static void
set_what_is_typed (WbQuoteBox *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = gtk_root_get_focus (root);

  if (focus == NULL || !gtk_widget_is_ancestor (focus, GTK_WIDGET (self)))
    return;
  gtk_root_set_focus (root, NULL);
  gtk_widget_grab_focus (focus);
}

static void
take_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbQuoteBox *self = WB_QUOTE_BOX (widget);
  g_autofree char *id = NULL;
  g_autoptr (GError) error = NULL;

  set_what_is_typed (self);
  id = g_strdup (wb_record_table_get_selected_id (self->table));
  if (id == NULL)
    return;
  wb_claim_deeds_take_quote (self->model, id, &error);
  show_error (self, error);
}

static void
remove_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbQuoteBox *self = WB_QUOTE_BOX (widget);
  g_autofree char *id = g_strdup (wb_record_table_get_selected_id (self->table));
  g_autoptr (GError) error = NULL;

  if (id == NULL)
    return;
  wb_claim_deeds_remove (self->model, WB_KIND_QUOTE, id, &error);
  show_error (self, error);
}

static void
quote_wanted_cb (WbQuoteBox *self)
{
  wb_quote_box_add (self);
}

static void
quote_selected_cb (WbQuoteBox *self)
{
  enable_actions (self);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
set_model (WbQuoteBox *self,
           WbJobModel *model)
{
  if (model == NULL || !g_set_object (&self->model, model))
    return;
  wb_record_table_set_up (self->table, model, WB_KIND_QUOTE, _("Quotes for the line"), columns,
                          G_N_ELEMENTS (columns));
  wb_record_table_set_notice (self->table, notice_of_quote, self);
}

static void
wb_quote_box_set_property (GObject      *object,
                           guint         prop_id,
                           const GValue *value,
                           GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (WB_QUOTE_BOX (object), g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_quote_box_dispose (GObject *object)
{
  WbQuoteBox *self = WB_QUOTE_BOX (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_QUOTE_BOX);
  g_clear_object (&self->model);
  g_clear_pointer (&self->line_id, g_free);

  G_OBJECT_CLASS (wb_quote_box_parent_class)->dispose (object);
}

static void
wb_quote_box_class_init (WbQuoteBoxClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->set_property = wb_quote_box_set_property;
  object_class->dispose = wb_quote_box_dispose;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_FLOW_LAYOUT);
  g_type_ensure (WB_TYPE_RECORD_TABLE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-quote-box.ui");
  gtk_widget_class_bind_template_child (widget_class, WbQuoteBox, box);
  gtk_widget_class_bind_template_child (widget_class, WbQuoteBox, heading);
  gtk_widget_class_bind_template_child (widget_class, WbQuoteBox, none);
  gtk_widget_class_bind_template_child (widget_class, WbQuoteBox, differs);
  gtk_widget_class_bind_template_child (widget_class, WbQuoteBox, fault);
  gtk_widget_class_bind_template_child (widget_class, WbQuoteBox, table);
  gtk_widget_class_bind_template_callback (widget_class, quote_wanted_cb);
  gtk_widget_class_bind_template_callback (widget_class, quote_selected_cb);

  gtk_widget_class_install_action (widget_class, "quotes.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "quotes.take", NULL, take_action);
  gtk_widget_class_install_action (widget_class, "quotes.remove", NULL, remove_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, GDK_CONTROL_MASK,
                                       "quotes.take", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, GDK_CONTROL_MASK,
                                       "quotes.take", NULL);
}

static void
wb_quote_box_init (WbQuoteBox *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
wb_quote_box_edit (WbQuoteBox *self,
                   const char *id,
                   const char *field)
{
  g_return_if_fail (WB_IS_QUOTE_BOX (self));
  g_return_if_fail (id != NULL);

  wb_record_table_edit (self->table, id, field != NULL ? field : "source");
}
