/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The section of the claim page for its steps. What a step does is core's, keeping a reckoning is
 * the office's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-steps.h"

#include "core/wb-claim-step.h"
#include "desk/claim/wb-record-table.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-popup.h"
#include "office/wb-frozen-reckoning.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

struct _WbClaimSteps
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkMenuButton *take;
  GtkLabel      *none;
  GtkLabel      *fault;
  WbRecordTable *table;

  WbJobModel    *model;
  char          *claim_id;     /* (nullable) */
  GCancellable  *cancellable;
};

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_CLAIM_ID,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbClaimSteps, wb_claim_steps, GTK_TYPE_WIDGET)

static const WbTableColumn columns[] = {
  { "on", N_("Date"), 11 },
  { "kind", N_("Step"), 14 },
  { "amount", N_("Amount"), 9 },
  { NULL, N_("Reckoning"), 8 },
  { "who", N_("With whom"), 14 },
  { "by", N_("For the office"), 11 },
  { "text", N_("What was said"), 24 },
};

/* --- what is shown ---------------------------------------------------------------------------- */

static void
show_fault (WbClaimSteps *self,
            const char   *words)
{
  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), words != NULL);
}

static void
show_error (WbClaimSteps *self,
            const char   *heading,
            const GError *error)
{
  g_autofree char *words = wb_words_error (error);
  g_autofree char *whole = g_strdup_printf ("%s %s", heading, words);

  show_fault (self, whole);
}

static const WbClaimStep *
get_selected (WbClaimSteps *self)
{
  return wb_job_find (wb_job_model_get_job (self->model), WB_KIND_STEP,
                      wb_record_table_get_selected_id (self->table));
}

static void
enable_actions (WbClaimSteps *self)
{
  const WbClaimStep *step = self->model != NULL ? get_selected (self) : NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "steps.take", self->claim_id != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "steps.remove", step != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "steps.verify",
                                 step != NULL && step->frozen != NULL);
}

void
wb_claim_steps_update (WbClaimSteps *self)
{
  gboolean has_rows;

  g_return_if_fail (WB_IS_CLAIM_STEPS (self));

  has_rows = wb_record_table_get_n_rows (self->table) > 0;
  gtk_widget_set_visible (GTK_WIDGET (self->table), has_rows);
  gtk_widget_set_visible (GTK_WIDGET (self->none), !has_rows);
  enable_actions (self);
}

static char *
notice_of_step (gconstpointer record,
                gpointer      data)
{
  const WbClaimStep *step = record;

  if (step->letter != NULL)
    return g_strdup (step->frozen != NULL ? _("Kept, with the letter") : _("Letter kept"));
  return step->frozen != NULL ? g_strdup (_("Kept")) : NULL;
}

/* --- taking a step ---------------------------------------------------------------------------- */

/* A step that waits for its reckoning to be kept. */
typedef struct
{
  WbClaimSteps *steps;
  char         *claim_id;
  WbStepKind    kind;
} Wish;

static void
wish_free (Wish *self)
{
  g_object_unref (self->steps);
  g_free (self->claim_id);
  g_free (self);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Wish, wish_free)

static void
take (const Wish *wish,
      const char *hash)
{
  WbClaimSteps *self = wish->steps;
  WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbJob) taken = NULL;
  g_autoptr (WbClaimStep) step = NULL;
  g_autoptr (WbJob) whole = NULL;
  g_autofree char *id = wb_office_new_id ();
  GDate today;

  /* The claim can be gone meanwhile. */
  if (wb_job_find (job, WB_KIND_CLAIM, wish->claim_id) == NULL)
    return;
  wb_office_today (&today);
  reckoning = wb_office_reckon (wb_job_model_get_office (self->model), job, wish->claim_id, NULL);
  taken = wb_claim_take_step (job, wish->claim_id, id, wish->kind, &today, reckoning);
  step = wb_record_copy (wb_job_find (taken, WB_KIND_STEP, id));
  wb_set_text (&step->frozen, hash);
  whole = wb_job_with (taken, step);
  wb_job_model_apply (self->model, whole, wb_words_enum (&wb_step_kinds, (int) wish->kind));
  wb_record_table_edit (self->table, id, "text");
}

static void
frozen_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (Wish) wish = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *hash = wb_office_freeze_reckoning_finish (WB_OFFICE (object), result, &error);

  if (wish->steps->model == NULL)
    return;
  if (hash != NULL)
    take (wish, hash);
  else if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    show_error (wish->steps, _("The step was not taken, for its reckoning cannot be kept."), error);
}

static void
take_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbClaimSteps *self = WB_CLAIM_STEPS (widget);
  g_autoptr (Wish) wish = NULL;
  int kind;

  if (!wb_enum_parse (&wb_step_kinds, g_variant_get_string (target, NULL), &kind, NULL))
    return;
  show_fault (self, NULL);
  wish = g_new0 (Wish, 1);
  wish->steps = g_object_ref (self);
  wish->claim_id = g_strdup (self->claim_id);
  wish->kind = (WbStepKind) kind;
  if (wb_step_sends_reckoning (wish->kind))
    wb_office_freeze_reckoning_async (wb_job_model_get_office (self->model),
                                      wb_job_model_get_job (self->model), self->claim_id,
                                      self->cancellable, frozen_cb, g_steal_pointer (&wish));
  else
    take (wish, NULL);
}

static void
remove_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbClaimSteps *self = WB_CLAIM_STEPS (widget);
  const WbClaimStep *step = get_selected (self);
  g_autoptr (WbJob) job = NULL;

  if (step == NULL)
    return;
  job = wb_job_without (wb_job_model_get_job (self->model), WB_KIND_STEP, step->record.id, NULL);
  if (job != NULL)
    wb_job_model_apply (self->model, job, _("Remove step"));
}

/* --- checking a kept reckoning ---------------------------------------------------------------- */

static void
tell (WbClaimSteps *self,
      const char   *heading,
      const char   *body)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *dialog = adw_message_dialog_new (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL,
                                              heading, body);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
  gtk_window_present (GTK_WINDOW (dialog));
}

static char *
difference_in_words (const WbFrozenCheck *check)
{
  const char *end = _("(nothing more)");

  /* Translators: a line of a reckoning as it was kept, and as it comes out today. */
  return g_strdup_printf (_("Kept: “%s”. Now: “%s”."),
                          check->kept_line != NULL ? check->kept_line : end,
                          check->made_line != NULL ? check->made_line : end);
}

static void
verified_cb (GObject      *object,
             GAsyncResult *result,
             gpointer      data)
{
  g_autoptr (WbClaimSteps) self = WB_CLAIM_STEPS (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbFrozenCheck) check = wb_office_verify_reckoning_finish (WB_OFFICE (object), result,
                                                                       &error);
  g_autofree char *words = NULL;

  if (self->model == NULL || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  if (check == NULL)
    {
      words = wb_words_error (error);
      tell (self, _("The Reckoning Cannot Be Made Again"), words);
    }
  else if (check->reproduced)
    {
      tell (self, _("The Reckoning Is Reproduced"),
            check->terms_changed
            ? _("Made again of what was kept, it is the same in every byte. The terms that govern "
                "the job today are others than those that were kept with it.")
            : _("Made again of what was kept, it is the same in every byte."));
    }
  else
    {
      words = difference_in_words (check);
      tell (self, _("The Reckoning Comes Out Otherwise"), words);
    }
}

static void
verify_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbClaimSteps *self = WB_CLAIM_STEPS (widget);
  const WbClaimStep *step = get_selected (self);

  if (step != NULL && step->frozen != NULL)
    wb_office_verify_reckoning_async (wb_job_model_get_office (self->model), step->frozen,
                                      self->cancellable, verified_cb, g_object_ref (self));
}

/* --- widget ----------------------------------------------------------------------------------- */

static GMenuModel *
make_menu (void)
{
  GMenu *menu = g_menu_new ();

  for (gsize i = 0; i < wb_step_kinds.n_values; i++)
    {
      const WbEnumValue *kind = &wb_step_kinds.values[i];
      g_autoptr (GMenuItem) item = NULL;

      if (kind->value == WB_STEP_NONE)
        continue;
      item = g_menu_item_new (wb_words_enum (&wb_step_kinds, kind->value), NULL);
      g_menu_item_set_action_and_target (item, "steps.take", "s", kind->nick);
      g_menu_append_item (menu, item);
    }
  return G_MENU_MODEL (menu);
}

static void
step_wanted_cb (WbClaimSteps *self)
{
  wb_claim_steps_open_menu (self);
}

static void
step_selected_cb (WbClaimSteps *self)
{
  enable_actions (self);
}

void
wb_claim_steps_open_menu (WbClaimSteps *self)
{
  g_return_if_fail (WB_IS_CLAIM_STEPS (self));

  gtk_widget_grab_focus (GTK_WIDGET (self->take));
  wb_popup (gtk_menu_button_get_popover (self->take));
}

static void
set_model (WbClaimSteps *self,
           WbJobModel   *model)
{
  if (model == NULL || !g_set_object (&self->model, model))
    return;
  wb_record_table_set_up (self->table, model, WB_KIND_STEP, _("Steps of the claim"), columns,
                          G_N_ELEMENTS (columns));
  wb_record_table_set_notice (self->table, notice_of_step, self);
}

static void
set_claim (WbClaimSteps *self,
           const char   *id)
{
  g_free (self->claim_id);
  self->claim_id = g_strdup (id);
  show_fault (self, NULL);
  if (self->model == NULL)
    return;
  wb_record_table_set_owner (self->table, id);
  wb_claim_steps_update (self);
}

static void
wb_claim_steps_set_property (GObject      *object,
                             guint         prop_id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  WbClaimSteps *self = WB_CLAIM_STEPS (object);

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

static void
wb_claim_steps_dispose (GObject *object)
{
  WbClaimSteps *self = WB_CLAIM_STEPS (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_CLAIM_STEPS);
  g_clear_object (&self->model);
  g_clear_pointer (&self->claim_id, g_free);

  G_OBJECT_CLASS (wb_claim_steps_parent_class)->dispose (object);
}

static void
wb_claim_steps_class_init (WbClaimStepsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->set_property = wb_claim_steps_set_property;
  object_class->dispose = wb_claim_steps_dispose;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_CLAIM_ID] =
    g_param_spec_string ("claim-id", NULL, NULL, NULL,
                         G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_FLOW_LAYOUT);
  g_type_ensure (WB_TYPE_RECORD_TABLE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-claim-steps.ui");
  gtk_widget_class_bind_template_child (widget_class, WbClaimSteps, box);
  gtk_widget_class_bind_template_child (widget_class, WbClaimSteps, take);
  gtk_widget_class_bind_template_child (widget_class, WbClaimSteps, none);
  gtk_widget_class_bind_template_child (widget_class, WbClaimSteps, fault);
  gtk_widget_class_bind_template_child (widget_class, WbClaimSteps, table);
  gtk_widget_class_bind_template_callback (widget_class, step_wanted_cb);
  gtk_widget_class_bind_template_callback (widget_class, step_selected_cb);

  gtk_widget_class_install_action (widget_class, "steps.take", "s", take_action);
  gtk_widget_class_install_action (widget_class, "steps.remove", NULL, remove_action);
  gtk_widget_class_install_action (widget_class, "steps.verify", NULL, verify_action);
}

static void
wb_claim_steps_init (WbClaimSteps *self)
{
  g_autoptr (GMenuModel) menu = make_menu ();

  self->cancellable = g_cancellable_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_menu_button_set_menu_model (self->take, menu);
}
