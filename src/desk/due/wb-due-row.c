/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows one entry of the list of what is due. It does not change; a new list makes new rows. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/due/wb-due-row.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbDueRow
{
  GtkListBoxRow  parent_instance;

  GtkLabel      *claim;
  GtkLabel      *what;
  GtkLabel      *left;
  GtkLabel      *last;
  GtkLevelBar   *bar;

  WbDueGroup     group;
  char          *job_id;
};

G_DEFINE_FINAL_TYPE (WbDueRow, wb_due_row, GTK_TYPE_LIST_BOX_ROW)

/* --- words ------------------------------------------------------------------------------------ */

static char *
days_in_words (gint days)
{
  if (days < 0)
    return g_strdup_printf (ngettext ("%d day overdue", "%d days overdue", (gulong) -days), -days);
  if (days == 0)
    return g_strdup (_("Today"));
  return g_strdup_printf (ngettext ("%d day left", "%d days left", (gulong) days), days);
}

static char *
left_in_words (const WbDue *due)
{
  if (due->fault != NULL)
    return g_strdup (_("Cannot be said"));
  if (due->group == WB_DUE_UNKNOWN)
    return g_strdup (_("Not started"));
  return days_in_words (due->clock.days_left);
}

static char *
last_in_words (const WbDue *due)
{
  g_autofree char *date = wb_words_date (&due->clock.last_day);

  if (due->fault != NULL)
    return g_strdup (due->fault);
  if (due->group == WB_DUE_UNKNOWN)
    return g_strdup (_("The day of receipt is missing."));
  if (due->citation == NULL)
    return g_strdup_printf (_("Last day %s"), date);
  /* Translators: a date, then where the rule is written, such as “49 CFR 370.5(a)”. */
  return g_strdup_printf (_("Last day %s · %s"), date, due->citation);
}

static char *
claim_in_words (const WbDue *due)
{
  return due->shipper != NULL ? g_strdup_printf ("%s · %s", due->claim_number, due->shipper)
                              : g_strdup (due->claim_number);
}

/* --- the bar ---------------------------------------------------------------------------------- */

/* How much of its time is left, in hundredths. */
static int
hundredths_left (const WbClock *clock)
{
  gint whole = wb_date_days_between (&clock->from, &clock->last_day);

  if (whole <= 0 || clock->days_left <= 0)
    return 0;
  return CLAMP (clock->days_left * 100 / whole, 0, 100);
}

static void
show_bar (WbDueRow    *self,
          const WbDue *due)
{
  gboolean runs = due->group != WB_DUE_UNKNOWN;

  gtk_widget_set_visible (GTK_WIDGET (self->bar), runs);
  if (runs)
    gtk_level_bar_set_value (self->bar, hundredths_left (&due->clock));
}

static const char *
style_of (WbDueGroup group)
{
  switch (group)
    {
    case WB_DUE_OVERDUE:
      return "error";
    case WB_DUE_TODAY:
    case WB_DUE_THIS_WEEK:
      return "warning";
    case WB_DUE_LATER:
    case WB_DUE_UNKNOWN:
      return NULL;
    }
  g_return_val_if_reached (NULL);
}

static void
show_due (WbDueRow    *self,
          const WbDue *due)
{
  const char *what = due->fault != NULL ? _("Terms") :
                     wb_words_enum (&wb_clock_kinds, (int) due->clock.kind);
  g_autofree char *claim = claim_in_words (due);
  g_autofree char *left = left_in_words (due);
  g_autofree char *last = last_in_words (due);
  g_autofree char *name = g_strdup_printf ("%s, %s, %s, %s", claim, what, left, last);

  gtk_label_set_label (self->claim, claim);
  gtk_label_set_label (self->what, what);
  gtk_label_set_label (self->left, left);
  gtk_label_set_label (self->last, last);
  if (style_of (due->group) != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self->left), style_of (due->group));
  show_bar (self, due);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_due_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_DUE_ROW);

  G_OBJECT_CLASS (wb_due_row_parent_class)->dispose (object);
}

static void
wb_due_row_finalize (GObject *object)
{
  g_free (WB_DUE_ROW (object)->job_id);

  G_OBJECT_CLASS (wb_due_row_parent_class)->finalize (object);
}

static void
wb_due_row_class_init (WbDueRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_due_row_dispose;
  object_class->finalize = wb_due_row_finalize;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/due/wb-due-row.ui");
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, claim);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, what);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, left);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, last);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, bar);
}

static void
wb_due_row_init (WbDueRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));

  /* The words beside it say how much is left; the colours of the toolkit's own marks would say it
     the other way round. */
  gtk_level_bar_remove_offset_value (self->bar, GTK_LEVEL_BAR_OFFSET_LOW);
  gtk_level_bar_remove_offset_value (self->bar, GTK_LEVEL_BAR_OFFSET_HIGH);
  gtk_level_bar_remove_offset_value (self->bar, GTK_LEVEL_BAR_OFFSET_FULL);
}

GtkWidget *
wb_due_row_new (const WbDue *due)
{
  WbDueRow *self;

  g_return_val_if_fail (due != NULL, NULL);

  self = g_object_new (WB_TYPE_DUE_ROW, NULL);
  self->group = due->group;
  self->job_id = g_strdup (due->job_id);
  show_due (self, due);
  return GTK_WIDGET (self);
}

WbDueGroup
wb_due_row_get_group (WbDueRow *self)
{
  g_return_val_if_fail (WB_IS_DUE_ROW (self), WB_DUE_UNKNOWN);

  return self->group;
}

const char *
wb_due_row_get_job_id (WbDueRow *self)
{
  g_return_val_if_fail (WB_IS_DUE_ROW (self), NULL);

  return self->job_id;
}
