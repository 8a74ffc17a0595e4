/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows one entry of the list of what is due, and then another: the list takes its rows again. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/due/wb-due-row.h"

#include "office/wb-words-clock.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbDueRow
{
  GtkWidget    parent_instance;

  GtkWidget   *box;
  GtkLabel    *group;
  GtkLabel    *claim;
  GtkLabel    *what;
  GtkLabel    *left;
  GtkLabel    *last;
  GtkLabel    *why;
  GtkLevelBar *bar;
};

G_DEFINE_FINAL_TYPE (WbDueRow, wb_due_row, GTK_TYPE_WIDGET)

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
    return wb_words_clock_why (&due->clock);
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

/* The style of what was shown before goes. */
static void
show_style (WbDueRow   *self,
            WbDueGroup  group)
{
  const char *style = style_of (group);

  gtk_widget_remove_css_class (GTK_WIDGET (self->left), "error");
  gtk_widget_remove_css_class (GTK_WIDGET (self->left), "warning");
  if (style != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self->left), style);
}

static void
show_why (WbDueRow    *self,
          const WbDue *due)
{
  g_autofree char *why = due->group != WB_DUE_UNKNOWN ? wb_words_clock_why (&due->clock) : NULL;

  gtk_label_set_label (self->why, why != NULL ? why : "");
  gtk_widget_set_visible (GTK_WIDGET (self->why), why != NULL);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_due_row_dispose (GObject *object)
{
  g_clear_pointer (&WB_DUE_ROW (object)->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_DUE_ROW);

  G_OBJECT_CLASS (wb_due_row_parent_class)->dispose (object);
}

static void
wb_due_row_class_init (WbDueRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_due_row_dispose;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/due/wb-due-row.ui");
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, box);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, group);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, claim);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, what);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, left);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, last);
  gtk_widget_class_bind_template_child (widget_class, WbDueRow, why);
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
wb_due_row_new (void)
{
  return g_object_new (WB_TYPE_DUE_ROW, NULL);
}

void
wb_due_row_show (WbDueRow    *self,
                 const WbDue *due,
                 gboolean     leads)
{
  const char *what;
  g_autofree char *claim = NULL;
  g_autofree char *left = NULL;
  g_autofree char *last = NULL;
  g_autofree char *name = NULL;

  g_return_if_fail (WB_IS_DUE_ROW (self) && due != NULL);

  what = due->fault != NULL ? _("Terms")
                            : wb_words_enum (&wb_clock_kinds, (int) due->clock.kind);
  claim = claim_in_words (due);
  left = left_in_words (due);
  last = last_in_words (due);
  name = g_strdup_printf ("%s, %s, %s, %s", claim, what, left, last);
  gtk_label_set_label (self->group, wb_words_enum (&wb_due_groups, (int) due->group));
  gtk_widget_set_visible (GTK_WIDGET (self->group), leads);
  gtk_label_set_label (self->claim, claim);
  gtk_label_set_label (self->what, what);
  gtk_label_set_label (self->left, left);
  gtk_label_set_label (self->last, last);
  show_style (self, due->group);
  show_why (self, due);
  show_bar (self, due);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}
