/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows one carton and notes its checks. Which carton that is, the page says. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/packing/wb-carton-panel.h"

#include "desk/packing/wb-check-list.h"
#include "desk/packing/wb-packing-deeds.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-flow-layout.h"
#include "office/wb-lift-setting.h"
#include "office/wb-words-packing.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbCartonPanel
{
  GtkWidget        parent_instance;

  GtkLabel        *title;
  GtkLabel        *caution;
  GtkLabel        *no_checks;
  WbCheckList     *checks;
  GtkLabel        *status;
  GtkWidget       *buttons;
  GtkEntry        *seen;
  WbFieldRow      *packer;
  WbFieldRow      *checked_by;
  WbFieldRow      *packed_on;

  WbJobModel      *model;
  const WbPacking *packing;        /* (nullable): borrowed */
  char            *piece;          /* (nullable): id of the carton */
  char            *last_checker;   /* (nullable): who looked at the carton before */
  char            *seen_rule;      /* (nullable): the check that @seen is of */
  char            *seen_base;      /* what @seen shows when nothing is typed */
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

enum
{
  APPLIED,
  GO_ON,
  LEAVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbCartonPanel, wb_carton_panel, GTK_TYPE_WIDGET)

static WbJob *
get_job (WbCartonPanel *self)
{
  return wb_job_model_get_job (self->model);
}

static const WbPiece *
get_piece (WbCartonPanel *self)
{
  return self->piece != NULL ? wb_job_find (get_job (self), WB_KIND_PIECE, self->piece) : NULL;
}

static WbCatalog *
get_catalog (WbCartonPanel *self)
{
  return wb_office_get_catalog (wb_job_model_get_office (self->model));
}

/* --- showing ---------------------------------------------------------------------------------- */

/* A label that takes no room when it says nothing. */
static void
show_label (GtkLabel   *label,
            const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL);
}

/* Why there is nothing to look at. */
static const char *
explain_no_checks (const WbPiece *piece)
{
  if (piece->packed_by == WB_PACKED_BY_OWNER)
    return _("The owner packed this carton, so nothing is asked of its packing.");
  if (piece->carton == NULL)
    return _("The kind of this carton is not given. Type it on the Inventory page.");
  return _("The catalogue has no checks for this kind of carton.");
}

static void
show_caution (WbCartonPanel *self,
              const WbPiece *piece)
{
  WbWeight threshold = wb_lift_setting_get ();
  WbWeight weight = WB_WEIGHT_UNSET;
  const WbCatalogEntry *entry = NULL;
  WbLift lift = wb_packing_lift (get_catalog (self), piece, threshold, &weight, &entry);
  g_autofree char *words = wb_words_lift (lift, weight, entry, threshold);

  show_label (self->caution, words);
}

static gboolean
is_typed (WbCartonPanel *self)
{
  return !g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->seen)),
                       self->seen_base != NULL ? self->seen_base : "");
}

/* What was seen at the selected check, as it is noted. */
static void
show_seen (WbCartonPanel *self,
           gboolean       drop_typed)
{
  const char *rule = self->piece != NULL ? wb_check_list_get_selected (self->checks) : NULL;
  const WbPackingCheck *record = rule != NULL && self->packing != NULL
    ? wb_packing_record (self->packing, self->piece, rule) : NULL;
  gboolean looked = record != NULL && record->state != WB_CHECK_OPEN;
  gboolean keep = !drop_typed && g_strcmp0 (rule, self->seen_rule) == 0 && is_typed (self);
  char *rule_copy = g_strdup (rule);

  g_free (self->seen_rule);
  self->seen_rule = rule_copy;
  g_free (self->seen_base);
  self->seen_base = g_strdup (looked && record->notes != NULL ? record->notes : "");
  if (!keep)
    gtk_editable_set_text (GTK_EDITABLE (self->seen), self->seen_base);
  gtk_widget_set_sensitive (GTK_WIDGET (self->seen), looked);
}

static void
remember_checker (WbCartonPanel *self,
                  const WbPiece *piece)
{
  if (piece->checked_by == NULL || g_strcmp0 (piece->checked_by, self->last_checker) == 0)
    return;
  g_free (self->last_checker);
  self->last_checker = g_strdup (piece->checked_by);
}

static void
show_piece (WbCartonPanel *self,
            const WbPiece *piece,
            gboolean       anew)
{
  g_autofree char *tag = wb_words_tag (get_job (self), piece);
  const char *kind = piece->carton != NULL ? piece->carton : _("kind not given");
  g_autofree char *title = g_strjoin (", ", tag, kind, NULL);
  g_autoptr (GPtrArray) states = wb_packing_states (self->packing, piece);

  gtk_label_set_label (self->title, title);
  show_caution (self, piece);
  show_label (self->no_checks, states->len == 0 ? explain_no_checks (piece) : NULL);
  gtk_widget_set_visible (self->buttons, states->len > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->seen), states->len > 0);
  wb_check_list_show (self->checks, states, anew);
  show_seen (self, FALSE);
  remember_checker (self, piece);
}

void
wb_carton_panel_show (WbCartonPanel   *self,
                      const WbPacking *packing,
                      const char      *piece)
{
  gboolean anew = g_strcmp0 (piece, self->piece) != 0;

  g_return_if_fail (WB_IS_CARTON_PANEL (self));

  self->packing = packing;
  if (anew)
    {
      g_free (self->piece);
      self->piece = g_strdup (piece);
      wb_carton_panel_say (self, NULL);
      g_object_set (self->packer, "record-id", piece, NULL);
      g_object_set (self->checked_by, "record-id", piece, NULL);
      g_object_set (self->packed_on, "record-id", piece, NULL);
      show_seen (self, TRUE);
    }

  gtk_widget_set_visible (GTK_WIDGET (self), get_piece (self) != NULL);
  if (get_piece (self) != NULL)
    show_piece (self, get_piece (self), anew);
}

/* --- noting ----------------------------------------------------------------------------------- */

static void
apply (WbCartonPanel *self,
       WbJob         *job,
       const char    *deed)
{
  wb_job_model_apply (self->model, job, deed);
  g_signal_emit (self, signals[APPLIED], 0);
}

/* Says so when nobody is named as looking. */
static void
say_who (WbCartonPanel *self)
{
  const WbPiece *piece = get_piece (self);

  wb_carton_panel_say (self, piece != NULL && piece->checked_by == NULL
                       ? _("Nobody is named as looking. Type a name at “Checked by”; the next "
                           "cartons take it over.") : NULL);
}

static void
note (WbCartonPanel *self,
      const char    *rule,
      WbCheck        state)
{
  g_autoptr (WbJob) job = NULL;
  GDate today;

  if (self->piece == NULL || self->packing == NULL || rule == NULL)
    return;

  wb_office_today (&today);
  job = wb_packing_note_check (self->packing, get_job (self), self->piece, rule, state,
                               self->last_checker, &today);
  apply (self, job, _("Note a packing check"));
  say_who (self);
  if (state != WB_CHECK_OPEN)
    wb_check_list_go_to_open (self->checks, FALSE);
}

static void
note_cb (WbCartonPanel *self,
         const char    *rule,
         int            state)
{
  note (self, rule, (WbCheck) state);
}

static void
next_cb (WbCartonPanel *self)
{
  if (!wb_check_list_go_to_open (self->checks, FALSE))
    g_signal_emit (self, signals[GO_ON], 0);
}

static void
leave_cb (WbCartonPanel *self)
{
  g_signal_emit (self, signals[LEAVE], 0);
}

static void
changed_cb (WbCartonPanel *self)
{
  show_seen (self, TRUE);
}

/* --- what was seen ---------------------------------------------------------------------------- */

static void
seen_cb (WbCartonPanel *self)
{
  if (!gtk_widget_get_sensitive (GTK_WIDGET (self->seen)))
    wb_carton_panel_say (self, _("Say first whether the check is met (M) or unmet (U)."));
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->seen));
}

static void
store_seen (WbCartonPanel *self)
{
  g_autoptr (WbJob) job = NULL;

  if (self->piece == NULL || self->packing == NULL || self->seen_rule == NULL || !is_typed (self))
    return;

  job = wb_packing_note_seen (self->packing, get_job (self), self->piece, self->seen_rule,
                              gtk_editable_get_text (GTK_EDITABLE (self->seen)));
  if (job == NULL)
    return;
  g_free (self->seen_base);
  self->seen_base = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->seen)));
  apply (self, job, _("Note what was seen"));
}

static void
seen_activate_cb (WbCartonPanel *self)
{
  store_seen (self);
  wb_check_list_focus (self->checks);
}

static gboolean
seen_escape_cb (GtkWidget *widget,
                GVariant  *args,
                gpointer   data)
{
  WbCartonPanel *self = WB_CARTON_PANEL (gtk_widget_get_ancestor (widget, WB_TYPE_CARTON_PANEL));

  show_seen (self, TRUE);
  wb_check_list_focus (self->checks);
  return TRUE;
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_carton_panel_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  WbCartonPanel *self = WB_CARTON_PANEL (object);

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
wb_carton_panel_set_property (GObject      *object,
                              guint         prop_id,
                              const GValue *value,
                              GParamSpec   *pspec)
{
  WbCartonPanel *self = WB_CARTON_PANEL (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      if (g_set_object (&self->model, g_value_get_object (value)))
        g_object_notify_by_pspec (object, pspec);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_carton_panel_dispose (GObject *object)
{
  WbCartonPanel *self = WB_CARTON_PANEL (object);
  GtkWidget *child;

  self->packing = NULL;
  if (self->checks != NULL)
    g_signal_handlers_disconnect_by_data (self->checks, self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_CARTON_PANEL);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_carton_panel_parent_class)->dispose (object);
}

static void
wb_carton_panel_finalize (GObject *object)
{
  WbCartonPanel *self = WB_CARTON_PANEL (object);

  g_free (self->piece);
  g_free (self->last_checker);
  g_free (self->seen_rule);
  g_free (self->seen_base);

  G_OBJECT_CLASS (wb_carton_panel_parent_class)->finalize (object);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/packing/wb-carton-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, title);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, caution);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, no_checks);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, checks);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, status);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, buttons);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, seen);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, packer);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, checked_by);
  gtk_widget_class_bind_template_child (widget_class, WbCartonPanel, packed_on);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, leave_cb);
  gtk_widget_class_bind_template_callback (widget_class, next_cb);
  gtk_widget_class_bind_template_callback (widget_class, note_cb);
  gtk_widget_class_bind_template_callback (widget_class, seen_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, seen_cb);
  gtk_widget_class_bind_template_callback (widget_class, store_seen);
  gtk_widget_class_bind_template_callback (widget_class, wb_carton_panel_note_all);
}

static void
wb_carton_panel_class_init (WbCartonPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);

  object_class->get_property = wb_carton_panel_get_property;
  object_class->set_property = wb_carton_panel_set_property;
  object_class->dispose = wb_carton_panel_dispose;
  object_class->finalize = wb_carton_panel_finalize;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[APPLIED] = g_signal_new ("applied", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  signals[GO_ON] = g_signal_new ("go-on", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
  signals[LEAVE] = g_signal_new ("leave", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);

  g_type_ensure (WB_TYPE_CHECK_LIST);
  g_type_ensure (WB_TYPE_FIELD_ROW);
  bind_template (widget_class);
}

static void
wb_carton_panel_init (WbCartonPanel *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();
  GtkShortcut *escape = gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                          gtk_callback_action_new (seen_escape_cb, NULL, NULL));

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->buttons, wb_flow_layout_new (6, 6));
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys), escape);
  gtk_widget_add_controller (GTK_WIDGET (self->seen), keys);
  wb_carton_panel_say (self, NULL);
}

gboolean
wb_carton_panel_has_checks (WbCartonPanel *self)
{
  g_return_val_if_fail (WB_IS_CARTON_PANEL (self), FALSE);

  return get_piece (self) != NULL && gtk_widget_get_visible (GTK_WIDGET (self->checks));
}

void
wb_carton_panel_note (WbCartonPanel *self,
                      WbCheck        state)
{
  g_return_if_fail (WB_IS_CARTON_PANEL (self));

  note (self, wb_check_list_get_selected (self->checks), state);
}

void
wb_carton_panel_note_all (WbCartonPanel *self)
{
  g_autoptr (WbJob) job = NULL;
  GDate today;

  g_return_if_fail (WB_IS_CARTON_PANEL (self));

  if (get_piece (self) == NULL)
    return;

  wb_office_today (&today);
  job = wb_packing_note_all_met (self->packing, get_job (self), self->piece, self->last_checker,
                                 &today);
  if (job == NULL)
    {
      wb_carton_panel_say (self, _("Every check of this carton has been looked at."));
      return;
    }
  apply (self, job, _("Note all packing checks"));
  say_who (self);
}

gboolean
wb_carton_panel_go_to_open (WbCartonPanel *self,
                            gboolean       from_top)
{
  g_return_val_if_fail (WB_IS_CARTON_PANEL (self), FALSE);

  return wb_check_list_go_to_open (self->checks, from_top);
}

gboolean
wb_carton_panel_focus (WbCartonPanel *self)
{
  g_return_val_if_fail (WB_IS_CARTON_PANEL (self), FALSE);

  return wb_check_list_focus (self->checks);
}

void
wb_carton_panel_say (WbCartonPanel *self,
                     const char    *sentence)
{
  g_return_if_fail (WB_IS_CARTON_PANEL (self));

  show_label (self->status, sentence);
}
