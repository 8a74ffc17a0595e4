/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows a proposal and takes a verdict. What is proposed core finds out, the sentences are
 * office's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-verdict-box.h"

#include "core/wb-proposal.h"
#include "desk/claim/wb-claim-deeds.h"
#include "desk/widgets/wb-choice-row.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-typed-row.h"
#include "office/wb-words-evidence.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

struct _WbVerdictBox
{
  GtkWidget     parent_instance;

  GtkWidget    *box;
  GtkLabel     *proposal;
  GtkBox       *proofs;
  GtkDropDown  *verdict;
  GtkListBox   *reason_list;
  GtkLabel     *notice;
  GtkWidget    *ruling_reason;

  WbJobModel   *model;
  char         *line_id;     /* (nullable) */
  WbProposal   *proposal_now;  /* (nullable): of that line */
  WbTypedRow   *reason;      /* (nullable): of that line, in the list */
  gboolean      showing;     /* what changes is not a person's doing */
  gboolean      waiting;     /* another verdict is chosen and lacks its reason: it does not stand */
};

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_LINE_ID,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbVerdictBox, wb_verdict_box, GTK_TYPE_WIDGET)

/* --- the proposal ----------------------------------------------------------------------------- */

static void
clear (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

static void
add_label (GtkBox     *box,
           const char *text,
           gboolean    is_source)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (is_source)
    {
      gtk_widget_add_css_class (label, "caption");
      gtk_widget_add_css_class (label, "dim-label");
      gtk_widget_set_margin_bottom (label, 6);
    }
  gtk_box_append (box, label);
}

static void
show_proofs (WbVerdictBox     *self,
             const WbProposal *proposal)
{
  clear (self->proofs);
  for (guint i = 0; i < proposal->proofs->len; i++)
    {
      const WbProof *proof = g_ptr_array_index (proposal->proofs, i);
      g_autofree char *words = wb_words_proof (proposal, proof);
      g_autofree char *source = wb_words_proof_source (proof);

      add_label (self->proofs, words, FALSE);
      if (source != NULL)
        add_label (self->proofs, source, TRUE);
    }
}

/* --- the verdict ------------------------------------------------------------------------------ */

static const WbClaimLine *
get_line (WbVerdictBox *self)
{
  return wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM_LINE, self->line_id);
}

/* What stands in the line, and what a reader should know of it. */
static void
show_notice (WbVerdictBox      *self,
             const WbClaimLine *line)
{
  const char *words = NULL;

  if (self->waiting)
    words = _("This is another verdict than the papers propose. It stands as soon as its reason is "
              "written.");
  else if (line->verdict != WB_VERDICT_NONE && line->proposed != self->proposal_now->verdict)
    words = _("The papers propose something else than when the line was judged.");
  else if (line->verdict != line->proposed && line->verdict_reason == NULL)
    words = _("The verdict differs from what the papers proposed, and no reason is written.");

  gtk_label_set_label (self->notice, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->notice), words != NULL);
}

/* What is chosen and does not stand yet is left as it is. */
static void
show_verdict (WbVerdictBox      *self,
              const WbClaimLine *line)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "verdict.accept",
                                 self->waiting || line->verdict != self->proposal_now->verdict);
  show_notice (self, line);
  wb_typed_row_show (self->reason, line->verdict_reason != NULL ? line->verdict_reason : "");
  if (self->waiting)
    return;
  self->showing = TRUE;
  gtk_drop_down_set_selected (self->verdict, (guint) line->verdict);
  self->showing = FALSE;
}

/* The one way to a verdict: core says whether it stands. */
static gboolean
judge (WbVerdictBox  *self,
       WbVerdict      verdict,
       const char    *reason,
       GError       **error)
{
  gboolean stands = wb_claim_deeds_judge (self->model, self->line_id, self->proposal_now, verdict,
                                          reason, error);

  self->waiting = !stands;
  if (get_line (self) != NULL)
    show_verdict (self, get_line (self));
  return stands;
}

static void
set_reason_text (WbVerdictBox *self,
                 const char   *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->reason), text != NULL ? text : "");
}

static void
verdict_chosen_cb (WbVerdictBox *self)
{
  guint chosen = gtk_drop_down_get_selected (self->verdict);
  const WbClaimLine *line = self->line_id != NULL ? get_line (self) : NULL;
  g_autofree char *reason = NULL;

  if (self->showing || line == NULL || chosen == GTK_INVALID_LIST_POSITION)
    return;
  /* The reason for one verdict is none for another. */
  if (line->verdict_reason != NULL && (WbVerdict) chosen != line->verdict && !self->waiting)
    set_reason_text (self, NULL);
  reason = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->reason)));
  if (!judge (self, (WbVerdict) chosen, reason, NULL))
    gtk_widget_grab_focus (GTK_WIDGET (self->reason));
}

static gboolean
take_reason (const char  *text,
             gpointer     data,
             GError     **error)
{
  WbVerdictBox *self = data;
  WbVerdict chosen = (WbVerdict) gtk_drop_down_get_selected (self->verdict);

  if (self->line_id == NULL || get_line (self) == NULL)
    return TRUE;
  if (chosen == WB_VERDICT_NONE && *text != '\0')
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                           _("Choose the verdict that this is the reason for."));
      return FALSE;
    }
  return judge (self, chosen, text, error);
}

/* Escape in the reason, where nothing is typed: the verdict that waits for it is given up. */
static gboolean
give_up_cb (GtkWidget *widget,
            GVariant  *args,
            gpointer   data)
{
  WbVerdictBox *self = WB_VERDICT_BOX (widget);
  const WbClaimLine *line = self->line_id != NULL ? get_line (self) : NULL;

  if (line == NULL || !self->waiting)
    return FALSE;
  self->waiting = FALSE;
  set_reason_text (self, line->verdict_reason);
  show_verdict (self, line);
  return TRUE;
}

static void
accept_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbVerdictBox *self = WB_VERDICT_BOX (widget);
  const WbClaimLine *line = self->line_id != NULL ? get_line (self) : NULL;
  g_autofree char *reason = NULL;

  if (line == NULL)
    return;
  if (line->verdict != WB_VERDICT_NONE || self->waiting)
    set_reason_text (self, NULL);
  reason = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->reason)));
  judge (self, self->proposal_now->verdict, reason, NULL);
}

/* The row stays while the line does, so that what is being typed into it is not lost. */
static void
take_line (WbVerdictBox *self,
           const char   *line_id)
{
  const WbField *field = wb_record_type_field (wb_record_type (WB_KIND_CLAIM_LINE),
                                               "verdict_reason");

  if (g_strcmp0 (line_id, self->line_id) == 0)
    return;
  if (self->reason != NULL)
    gtk_list_box_remove (self->reason_list, GTK_WIDGET (self->reason));
  self->reason = NULL;
  self->waiting = FALSE;
  g_free (self->line_id);
  self->line_id = g_strdup (line_id);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_LINE_ID]);
  if (line_id == NULL)
    return;
  self->reason = WB_TYPED_ROW (wb_typed_row_new (wb_words_field (field), take_reason, self));
  gtk_list_box_append (self->reason_list, GTK_WIDGET (self->reason));
}

void
wb_verdict_box_show (WbVerdictBox *self,
                     WbReckoning  *reckoning,
                     const char   *line_id)
{
  g_autofree char *words = NULL;
  const WbClaimLine *line;
  GDate today;

  g_return_if_fail (WB_IS_VERDICT_BOX (self));

  line = reckoning != NULL ? wb_job_find (reckoning->job, WB_KIND_CLAIM_LINE, line_id) : NULL;
  gtk_widget_set_visible (GTK_WIDGET (self), line != NULL);
  take_line (self, line != NULL ? line_id : NULL);
  g_clear_pointer (&self->proposal_now, wb_proposal_free);
  if (line == NULL)
    return;
  wb_office_today (&today);
  self->proposal_now = wb_propose (reckoning->terms, reckoning->job, line, &today);
  words = wb_words_proposal (self->proposal_now);
  gtk_label_set_label (self->proposal, words);
  show_proofs (self, self->proposal_now);
  show_verdict (self, get_line (self) != NULL ? get_line (self) : line);
}

/* --- the ruling ------------------------------------------------------------------------------- */

void
wb_verdict_box_rule (WbVerdictBox *self,
                     WbRuling      ruling)
{
  const WbClaimLine *line;

  g_return_if_fail (WB_IS_VERDICT_BOX (self));

  line = self->line_id != NULL ? get_line (self) : NULL;
  if (line == NULL)
    {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return;
    }
  wb_claim_deeds_rule (self->model, self->line_id, ruling);
  if (ruling == WB_RULING_DENIED && get_line (self)->ruling_reason == NULL)
    gtk_widget_grab_focus (self->ruling_reason);
}

/* --- widget ----------------------------------------------------------------------------------- */

static GListModel *
make_verdicts (void)
{
  GtkStringList *list = gtk_string_list_new (NULL);

  /* The values of the list are its places. */
  for (gsize i = 0; i < wb_verdicts.n_values; i++)
    {
      g_assert (wb_verdicts.values[i].value == (int) i);
      gtk_string_list_append (list, wb_words_enum (&wb_verdicts, (int) i));
    }
  return G_LIST_MODEL (list);
}

static void
wb_verdict_box_set_property (GObject      *object,
                             guint         prop_id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_MODEL:
      if (g_set_object (&WB_VERDICT_BOX (object)->model, g_value_get_object (value)))
        g_object_notify_by_pspec (object, pspec);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_verdict_box_get_property (GObject    *object,
                             guint       prop_id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  WbVerdictBox *self = WB_VERDICT_BOX (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    case PROP_LINE_ID:
      g_value_set_string (value, self->line_id);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_verdict_box_dispose (GObject *object)
{
  WbVerdictBox *self = WB_VERDICT_BOX (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_VERDICT_BOX);
  g_clear_object (&self->model);
  g_clear_pointer (&self->line_id, g_free);
  g_clear_pointer (&self->proposal_now, wb_proposal_free);

  G_OBJECT_CLASS (wb_verdict_box_parent_class)->dispose (object);
}

static void
wb_verdict_box_class_init (WbVerdictBoxClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_verdict_box_get_property;
  object_class->set_property = wb_verdict_box_set_property;
  object_class->dispose = wb_verdict_box_dispose;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  properties[PROP_LINE_ID] =
    g_param_spec_string ("line-id", NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_CHOICE_ROW);
  g_type_ensure (WB_TYPE_FIELD_ROW);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-verdict-box.ui");
  gtk_widget_class_bind_template_child (widget_class, WbVerdictBox, box);
  gtk_widget_class_bind_template_child (widget_class, WbVerdictBox, proposal);
  gtk_widget_class_bind_template_child (widget_class, WbVerdictBox, proofs);
  gtk_widget_class_bind_template_child (widget_class, WbVerdictBox, verdict);
  gtk_widget_class_bind_template_child (widget_class, WbVerdictBox, reason_list);
  gtk_widget_class_bind_template_child (widget_class, WbVerdictBox, notice);
  gtk_widget_class_bind_template_child (widget_class, WbVerdictBox, ruling_reason);
  gtk_widget_class_bind_template_callback (widget_class, verdict_chosen_cb);

  gtk_widget_class_install_action (widget_class, "verdict.accept", NULL, accept_action);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, give_up_cb, NULL);
}

/* The button in a drop-down has the focus, and takes no name from the drop-down. */
static void
name_verdict (WbVerdictBox *self)
{
  GtkWidget *button = gtk_widget_get_first_child (GTK_WIDGET (self->verdict));

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Verdict"), -1);
}

static void
wb_verdict_box_init (WbVerdictBox *self)
{
  g_autoptr (GListModel) verdicts = make_verdicts ();

  gtk_widget_init_template (GTK_WIDGET (self));
  name_verdict (self);
  self->showing = TRUE;
  gtk_drop_down_set_model (self->verdict, verdicts);
  self->showing = FALSE;
}
