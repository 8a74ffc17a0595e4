/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person can do on the claim page: its actions, and which of them make sense at the moment.
 * The changes themselves are made in wb-claim-deeds.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-page-private.h"

#include "desk/claim/wb-claim-deeds.h"
#include "desk/claim/wb-letter-window.h"
#include "desk/claim/wb-what-if.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-words.h"

void
wb_claim_page_show_error (WbClaimPage  *self,
                          const GError *error)
{
  g_autofree char *words = error != NULL ? wb_words_error (error) : NULL;

  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), words != NULL);
}

void
wb_claim_page_add_line (WbClaimPage *self)
{
  g_autofree char *id = wb_claim_deeds_add_line (self->model, self->claim_id);

  wb_record_table_edit (self->lines, id, "item");
}

void
wb_claim_page_add_payment (WbClaimPage *self)
{
  g_autofree char *id = NULL;
  GDate today;

  wb_office_today (&today);
  id = wb_claim_deeds_add_payment (self->model, self->claim_id, &today);
  wb_record_table_edit (self->payments, id, "amount");
}

static void
number_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (WbClaimPage) self = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *number = wb_office_next_claim_number_finish (WB_OFFICE (source), result, &error);
  g_autofree char *id = NULL;
  GDate today;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) || self->model == NULL)
    return;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.add-claim", TRUE);
  wb_claim_page_show_error (self, error);
  if (number == NULL)
    return;

  wb_office_today (&today);
  id = wb_claim_deeds_add_claim (self->model, number, &today);
  wb_claim_page_choose (self, id);
  /* What came in is written down next: who claims, and since when. */
  self->head_wanted = TRUE;
}

static void
add_claim_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *parameter)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);

  gtk_widget_action_set_enabled (widget, "claim.add-claim", FALSE);
  wb_office_next_claim_number_async (wb_job_model_get_office (self->model), self->cancellable,
                                     number_cb, g_object_ref (self));
}

static void
remove_record (WbClaimPage *self,
               WbKind       kind,
               const char  *id)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *gone = g_strdup (id);

  if (gone == NULL)
    return;

  wb_claim_deeds_remove (self->model, kind, gone, &error);
  wb_claim_page_show_error (self, error);
}

static void
remove_claim_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *parameter)
{
  remove_record (WB_CLAIM_PAGE (widget), WB_KIND_CLAIM, WB_CLAIM_PAGE (widget)->claim_id);
}

static void
add_line_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *parameter)
{
  wb_claim_page_add_line (WB_CLAIM_PAGE (widget));
}

static void
remove_line_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *parameter)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);

  remove_record (self, WB_KIND_CLAIM_LINE, wb_record_table_get_selected_id (self->lines));
}

static void
add_payment_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *parameter)
{
  wb_claim_page_add_payment (WB_CLAIM_PAGE (widget));
}

static void
remove_payment_action (GtkWidget  *widget,
                       const char *name,
                       GVariant   *parameter)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);

  remove_record (self, WB_KIND_PAYMENT, wb_record_table_get_selected_id (self->payments));
}

/* A long claim has hundreds of fields; the figures are beneath them. */
static void
show_reckoning_action (GtkWidget  *widget,
                       const char *name,
                       GVariant   *parameter)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);

  gtk_widget_child_focus (GTK_WIDGET (self->reckoning_view), GTK_DIR_TAB_FORWARD);
}

static void
next_part_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *parameter)
{
  wb_focus_next_part (WB_CLAIM_PAGE (widget)->parts, g_str_equal (name, "claim.previous-part"));
}

/* The section has its own actions; a key comes to the page. */
static void
bearing_action (GtkWidget  *widget,
                const char *name,
                GVariant   *parameter)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));

  if (g_str_equal (name, "claim.show-bearing"))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->bearing));
      return;
    }
  /* Whoever works on a line means that one. */
  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->lines)))
    wb_bearing_box_select_line (self->bearing, wb_record_table_get_selected_id (self->lines));
  if (g_str_equal (name, "claim.split-line"))
    gtk_widget_activate_action (GTK_WIDGET (self->bearing), "bearing.split", NULL);
  else if (g_str_equal (name, "claim.state-charges"))
    gtk_widget_activate_action (GTK_WIDGET (self->bearing), "bearing.state", NULL);
  else
    gtk_widget_activate_action (GTK_WIDGET (self->bearing), "bearing.statements", NULL);
}

void
wb_claim_page_enable_actions (WbClaimPage *self)
{
  gboolean has_claim = self->claim_id != NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.remove-claim", has_claim);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.add-line", has_claim);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.what-if", has_claim);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.write-letter", has_claim);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.take-step", has_claim);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.add-payment", has_claim);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.remove-line",
                                 wb_record_table_get_selected_id (self->lines) != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.show-details",
                                 wb_record_table_get_selected_id (self->lines) != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.add-quote",
                                 wb_record_table_get_selected_id (self->lines) != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "claim.remove-payment",
                                 wb_record_table_get_selected_id (self->payments) != NULL);
}

static void
take_step_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_claim_steps_open_menu (WB_CLAIM_PAGE (widget)->steps);
}

static void
accept_proposal_action (GtkWidget  *widget,
                        const char *name,
                        GVariant   *target)
{
  gtk_widget_activate_action (GTK_WIDGET (WB_CLAIM_PAGE (widget)->verdict), "verdict.accept", NULL);
}

static void
allow_line_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *target)
{
  wb_verdict_box_rule (WB_CLAIM_PAGE (widget)->verdict, WB_RULING_ALLOWED);
}

static void
deny_line_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_verdict_box_rule (WB_CLAIM_PAGE (widget)->verdict, WB_RULING_DENIED);
}

static void
add_quote_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_quote_box_add (WB_CLAIM_PAGE (widget)->quotes);
}

static void
show_details_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *target)
{
  wb_line_details_open (WB_CLAIM_PAGE (widget)->details);
}

static void
what_if_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);
  GtkRoot *root = gtk_widget_get_root (widget);

  /* What is typed and not set yet counts. */
  gtk_root_set_focus (root, NULL);
  gtk_window_present (GTK_WINDOW (wb_what_if_new (GTK_WINDOW (root), self->model,
                                                  self->claim_id)));
}

static void
write_letter_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *target)
{
  WbClaimPage *self = WB_CLAIM_PAGE (widget);
  GtkRoot *root = gtk_widget_get_root (widget);

  /* What is typed and not set yet counts. */
  gtk_root_set_focus (root, NULL);
  gtk_window_present (GTK_WINDOW (wb_letter_window_new (GTK_WINDOW (root), self->model,
                                                        self->claim_id)));
}

void
wb_claim_page_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "claim.show-reckoning", NULL,
                                   show_reckoning_action);
  gtk_widget_class_install_action (widget_class, "claim.next-part", NULL, next_part_action);
  gtk_widget_class_install_action (widget_class, "claim.previous-part", NULL, next_part_action);
  gtk_widget_class_install_action (widget_class, "claim.show-bearing", NULL, bearing_action);
  gtk_widget_class_install_action (widget_class, "claim.split-line", NULL, bearing_action);
  gtk_widget_class_install_action (widget_class, "claim.state-charges", NULL, bearing_action);
  gtk_widget_class_install_action (widget_class, "claim.show-statements", NULL, bearing_action);
  gtk_widget_class_install_action (widget_class, "claim.take-step", NULL, take_step_action);
  gtk_widget_class_install_action (widget_class, "claim.accept-proposal", NULL,
                                   accept_proposal_action);
  gtk_widget_class_install_action (widget_class, "claim.allow-line", NULL, allow_line_action);
  gtk_widget_class_install_action (widget_class, "claim.deny-line", NULL, deny_line_action);
  gtk_widget_class_install_action (widget_class, "claim.what-if", NULL, what_if_action);
  gtk_widget_class_install_action (widget_class, "claim.write-letter", NULL, write_letter_action);
  gtk_widget_class_install_action (widget_class, "claim.add-claim", NULL, add_claim_action);
  gtk_widget_class_install_action (widget_class, "claim.remove-claim", NULL, remove_claim_action);
  gtk_widget_class_install_action (widget_class, "claim.add-line", NULL, add_line_action);
  gtk_widget_class_install_action (widget_class, "claim.remove-line", NULL, remove_line_action);
  gtk_widget_class_install_action (widget_class, "claim.add-quote", NULL, add_quote_action);
  gtk_widget_class_install_action (widget_class, "claim.show-details", NULL, show_details_action);
  gtk_widget_class_install_action (widget_class, "claim.add-payment", NULL, add_payment_action);
  gtk_widget_class_install_action (widget_class, "claim.remove-payment", NULL,
                                   remove_payment_action);
}
