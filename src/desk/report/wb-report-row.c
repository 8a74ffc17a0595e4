/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows one entry in words and, for a group, as a bar. Works no figure out. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/report/wb-report-row.h"

#include "desk/report/wb-loss-bar.h"
#include "desk/widgets/wb-row-name.h"
#include "office/wb-claim-report.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbReportRow
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkLabel  *name;
  GtkLabel  *owed;
  WbLossBar *bar;
  GtkLabel  *counts;
  GtkLabel  *rate;
};

G_DEFINE_FINAL_TYPE (WbReportRow, wb_report_row, GTK_TYPE_WIDGET)

/* --- words ------------------------------------------------------------------------------------ */

static char *
owed_in_words (gint64      minor,
               const char *currency)
{
  g_autofree char *amount = wb_words_minor (minor, currency);

  /* Translators: an amount that the carrier owes. */
  return g_strdup_printf (_("%s owed"), amount);
}

static char *
counts_in_words (const WbLossGroup *group)
{
  g_autofree char *lines = NULL;
  g_autofree char *claims = NULL;
  g_autofree char *demanded = NULL;
  g_autofree char *paid = NULL;

  if (group->lines->len == 0)
    return g_strdup (_("Nothing was claimed."));

  lines = g_strdup_printf (ngettext ("%u line", "%u lines", group->lines->len), group->lines->len);
  claims = g_strdup_printf (ngettext ("%u claim", "%u claims", group->n_claims), group->n_claims);
  demanded = wb_words_minor (group->demanded, group->currency);
  paid = wb_words_minor (group->paid, group->currency);
  /* Translators: "5 lines of 4 claims · $900.00 demanded · $700.00 paid". */
  return g_strdup_printf (_("%s of %s · %s demanded · %s paid"), lines, claims, demanded, paid);
}

static char *
line_counts_in_words (const WbLossLine *line)
{
  g_autofree char *on = wb_words_date (&line->closed_on);
  g_autofree char *demanded = wb_words_minor (line->demanded, line->currency);
  g_autofree char *paid = wb_words_minor (line->paid, line->currency);

  /* Translators: job number, day on which the claim was finished, then two amounts. */
  return g_strdup_printf (_("Job %s · finished %s · %s demanded · %s paid"),
                          line->job_number != NULL ? line->job_number : "–", on, demanded, paid);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
show_texts (WbReportRow *self,
            const char  *name,
            const char  *owed,
            const char  *counts,
            const char  *rate)
{
  g_autofree char *all = g_strdup_printf ("%s, %s, %s%s%s", name, owed, counts,
                                          *rate != '\0' ? ", " : "", rate);

  gtk_label_set_label (self->name, name);
  gtk_label_set_label (self->owed, owed);
  gtk_label_set_label (self->counts, counts);
  gtk_label_set_label (self->rate, rate);
  gtk_widget_set_visible (GTK_WIDGET (self->rate), *rate != '\0');
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, all, -1);
  wb_row_name_set (GTK_WIDGET (self), all);
}

static void
show_group (WbReportRow       *self,
            const WbLossGroup *group,
            gint64             scale,
            WbLossBy           by,
            const WbCatalog   *catalog)
{
  g_autofree char *name = wb_loss_key_words (by, group->key, catalog);
  g_autofree char *owed = owed_in_words (group->owed, group->currency);
  g_autofree char *counts = counts_in_words (group);
  g_autofree char *rate = wb_loss_rate_words (group);

  show_texts (self, name, owed, counts, rate);
  gtk_widget_set_visible (GTK_WIDGET (self->bar), group->demanded > 0);
  wb_loss_bar_show (self->bar, group->demanded, group->owed, scale);
}

static void
show_line (WbReportRow      *self,
           const WbLossLine *line)
{
  g_autofree char *name = g_strdup_printf ("%s · %s",
                                           line->claim_number != NULL ? line->claim_number : "–",
                                           line->item != NULL ? line->item : "–");
  g_autofree char *owed = line->reckoned ? owed_in_words (line->owed, line->currency)
                                         : g_strdup (_("Not reckoned"));
  g_autofree char *counts = line_counts_in_words (line);

  show_texts (self, name, owed, counts, "");
  gtk_widget_set_visible (GTK_WIDGET (self->bar), FALSE);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_report_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_REPORT_ROW);

  G_OBJECT_CLASS (wb_report_row_parent_class)->dispose (object);
}

static void
wb_report_row_class_init (WbReportRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_report_row_dispose;

  g_type_ensure (WB_TYPE_LOSS_BAR);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/report/wb-report-row.ui");
  gtk_widget_class_bind_template_child (widget_class, WbReportRow, box);
  gtk_widget_class_bind_template_child (widget_class, WbReportRow, name);
  gtk_widget_class_bind_template_child (widget_class, WbReportRow, owed);
  gtk_widget_class_bind_template_child (widget_class, WbReportRow, bar);
  gtk_widget_class_bind_template_child (widget_class, WbReportRow, counts);
  gtk_widget_class_bind_template_child (widget_class, WbReportRow, rate);
}

static void
wb_report_row_init (WbReportRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_report_row_new (void)
{
  return g_object_new (WB_TYPE_REPORT_ROW, NULL);
}

void
wb_report_row_show (WbReportRow     *self,
                    WbReportItem    *item,
                    WbLossBy         by,
                    const WbCatalog *catalog)
{
  g_return_if_fail (WB_IS_REPORT_ROW (self));
  g_return_if_fail (WB_IS_REPORT_ITEM (item));

  if (wb_report_item_get_group (item) != NULL)
    show_group (self, wb_report_item_get_group (item), wb_report_item_get_scale (item), by,
                catalog);
  else
    show_line (self, wb_report_item_get_line (item));
}
