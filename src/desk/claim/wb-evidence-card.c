/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows the evidence about one piece and what its line comes to. What there is to say of the piece
 * is found in wb-evidence.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-evidence-card.h"

#include <glib/gi18n.h>
#include <inttypes.h>

#include "desk/claim/wb-evidence-photos.h"
#include "desk/claim/wb-evidence.h"
#include "desk/claim/wb-outcome.h"
#include "desk/widgets/wb-columns.h"

struct _WbEvidenceCard
{
  GtkWidget         parent_instance;

  GtkLabel         *heading;
  GtkLabel         *notice;
  GtkWidget        *outcomes;
  WbOutcome        *released;
  WbOutcome        *full;
  GtkGrid          *statements;
  WbEvidencePhotos *photos;
};

G_DEFINE_FINAL_TYPE (WbEvidenceCard, wb_evidence_card, GTK_TYPE_WIDGET)

static void
clear_statements (WbEvidenceCard *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->statements))) != NULL)
    gtk_grid_remove (self->statements, child);
}

static void
add_statement (WbEvidenceCard   *self,
               int               row,
               const WbEvidence *evidence)
{
  GtkWidget *label = gtk_label_new (evidence->label);
  GtkWidget *text = gtk_label_new (evidence->text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "dim-label");
  gtk_label_set_xalign (GTK_LABEL (text), 0);
  gtk_label_set_wrap (GTK_LABEL (text), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (text), PANGO_WRAP_WORD_CHAR);
  gtk_widget_set_hexpand (text, TRUE);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (text), GTK_ACCESSIBLE_RELATION_LABELLED_BY, label,
                                  NULL, -1);

  gtk_grid_attach (self->statements, label, 0, row, 1, 1);
  gtk_grid_attach (self->statements, text, 1, row, 1, 1);
}

static void
wb_evidence_card_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_EVIDENCE_CARD);

  G_OBJECT_CLASS (wb_evidence_card_parent_class)->dispose (object);
}

static void
wb_evidence_card_class_init (WbEvidenceCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_evidence_card_dispose;

  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_EVIDENCE_PHOTOS);
  g_type_ensure (WB_TYPE_OUTCOME);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-evidence-card.ui");
  gtk_widget_class_bind_template_child (widget_class, WbEvidenceCard, heading);
  gtk_widget_class_bind_template_child (widget_class, WbEvidenceCard, notice);
  gtk_widget_class_bind_template_child (widget_class, WbEvidenceCard, outcomes);
  gtk_widget_class_bind_template_child (widget_class, WbEvidenceCard, released);
  gtk_widget_class_bind_template_child (widget_class, WbEvidenceCard, full);
  gtk_widget_class_bind_template_child (widget_class, WbEvidenceCard, statements);
  gtk_widget_class_bind_template_child (widget_class, WbEvidenceCard, photos);
}

static void
wb_evidence_card_init (WbEvidenceCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
show_heading (WbEvidenceCard    *self,
              const WbClaimLine *line)
{
  g_autofree char *heading = NULL;

  if (line == NULL)
    heading = g_strdup (_("Choose a line to see what is known of its piece"));
  else if (line->item != NULL)
    /* Translators: the number of a claim line, and what is claimed. */
    heading = g_strdup_printf (_("Line %" PRId64 ": %s"), line->number, line->item);
  else
    heading = g_strdup_printf (_("Line %" PRId64), line->number);

  gtk_label_set_label (self->heading, heading);
}

void
wb_evidence_card_show (WbEvidenceCard    *self,
                       WbOffice          *office,
                       const WbTerms     *terms,
                       WbJob             *job,
                       const WbClaimLine *line,
                       const char        *notice)
{
  g_autoptr (GPtrArray) list = NULL;

  g_return_if_fail (WB_IS_EVIDENCE_CARD (self));

  show_heading (self, line);
  gtk_label_set_label (self->notice, notice != NULL ? notice : "");
  gtk_widget_set_visible (GTK_WIDGET (self->notice), notice != NULL);

  wb_evidence_photos_show (self->photos, office, job, line != NULL ? line->piece : NULL);
  clear_statements (self);
  if (line == NULL)
    return;

  list = wb_evidence_list (wb_office_get_catalog (office), terms, job, line);
  for (guint i = 0; i < list->len; i++)
    add_statement (self, (int) i, g_ptr_array_index (list, i));
}

/* Index into the lines of @reckoning, or -1. */
static int
find_line (const WbReckoning *reckoning,
           const WbClaimLine *line)
{
  for (guint i = 0; i < reckoning->n_lines; i++)
    if (g_str_equal (reckoning->lines[i].line->record.id, line->record.id))
      return (int) i;

  return -1;
}

void
wb_evidence_card_show_reckoning (WbEvidenceCard    *self,
                                 WbReckoning       *reckoning,
                                 const WbClaimLine *line)
{
  int index = reckoning != NULL && line != NULL ? find_line (reckoning, line) : -1;

  g_return_if_fail (WB_IS_EVIDENCE_CARD (self));

  gtk_widget_set_visible (self->outcomes, index >= 0);
  if (index < 0)
    reckoning = NULL;
  wb_outcome_show (self->released, reckoning, index, WB_SIDE_RELEASED);
  wb_outcome_show (self->full, reckoning, index, WB_SIDE_FULL);
}
