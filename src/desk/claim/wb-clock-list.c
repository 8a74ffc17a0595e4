/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows clocks that core has reckoned. A row a clock, in a list box of its own; opened, it says why. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-clock-list.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "office/wb-words-clock.h"
#include "office/wb-words.h"

struct _WbClockList
{
  GtkWidget  parent_instance;

  GtkWidget *list;
};

G_DEFINE_FINAL_TYPE (WbClockList, wb_clock_list, GTK_TYPE_WIDGET)

char *
wb_clock_words (const WbClock *clock)
{
  g_autofree char *last = wb_words_date (&clock->last_day);
  g_autofree char *done = wb_words_date (&clock->done_on);

  switch (clock->state)
    {
    case WB_CLOCK_NOT_STARTED:
      return g_strdup (_("Not running: the day from which it runs is not noted"));
    case WB_CLOCK_RUNNING:
      if (clock->days_left == 0)
        return g_strdup_printf (_("%s, today is the last day"), last);
      /* Translators: a date, and the days left until it. */
      return g_strdup_printf (ngettext ("%s, %d day left", "%s, %d days left",
                                        (gulong) clock->days_left),
                              last, clock->days_left);
    case WB_CLOCK_PAST:
      /* Translators: a date, and the days since it. */
      return g_strdup_printf (ngettext ("%s, overdue by %d day", "%s, overdue by %d days",
                                        (gulong) -clock->days_left),
                              last, -clock->days_left);
    case WB_CLOCK_MET:
      /* Translators: the last day, and the day on which it was done. */
      return g_strdup_printf (_("%s, done in time on %s"), last, done);
    case WB_CLOCK_MISSED:
      /* Translators: the last day, and the day on which it was done. */
      return g_strdup_printf (_("%s, done too late on %s"), last, done);
    }

  g_assert_not_reached ();
}

static const char *
icon_of (WbClockState state)
{
  switch (state)
    {
    case WB_CLOCK_NOT_STARTED:
      return "content-loading-symbolic";
    case WB_CLOCK_RUNNING:
      return "alarm-symbolic";
    case WB_CLOCK_MET:
      return "object-select-symbolic";
    case WB_CLOCK_PAST:
    case WB_CLOCK_MISSED:
      return "dialog-warning-symbolic";
    }

  g_assert_not_reached ();
}

/* From what day it runs and how long, then where that is written. */
static GtkWidget *
new_reason_row (const WbTerms *terms,
                const WbClock *clock)
{
  const char *citation = wb_terms_citation (terms, WB_SCOPE_GENERAL, clock->key);
  g_autofree char *why = wb_words_clock_why (clock);
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), why);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), citation != NULL ? citation : "");
  gtk_widget_add_css_class (row, "caption");
  return row;
}

static GtkWidget *
new_row (const WbTerms *terms,
         const WbClock *clock)
{
  const char *title = wb_words_enum (&wb_clock_kinds, (int) clock->kind);
  g_autofree char *words = wb_clock_words (clock);
  /* Translators: what is to be done, and by when. */
  g_autofree char *name = g_strdup_printf (_("%s: %s"), title, words);
  GtkWidget *row = adw_expander_row_new ();
  GtkWidget *icon = gtk_image_new_from_icon_name (icon_of (clock->state));

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (row), words);
  adw_expander_row_add_prefix (ADW_EXPANDER_ROW (row), icon);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (row), new_reason_row (terms, clock));
  if (clock->state == WB_CLOCK_PAST || clock->state == WB_CLOCK_MISSED)
    gtk_widget_add_css_class (icon, "error");
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);

  return row;
}

static void
wb_clock_list_dispose (GObject *object)
{
  g_clear_pointer (&WB_CLOCK_LIST (object)->list, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_clock_list_parent_class)->dispose (object);
}

static void
wb_clock_list_class_init (WbClockListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_clock_list_dispose;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
wb_clock_list_init (WbClockList *self)
{
  self->list = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (self->list, "boxed-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Legal dates"), -1);
  gtk_widget_set_valign (self->list, GTK_ALIGN_START);
  gtk_widget_set_parent (self->list, GTK_WIDGET (self));
}

void
wb_clock_list_show (WbClockList   *self,
                    const WbTerms *terms,
                    GArray        *clocks)
{
  GtkWidget *row;

  g_return_if_fail (WB_IS_CLOCK_LIST (self));

  while ((row = gtk_widget_get_first_child (self->list)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->list), row);

  for (guint i = 0; clocks != NULL && i < clocks->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (self->list),
                         new_row (terms, &g_array_index (clocks, WbClock, i)));
  gtk_widget_set_visible (GTK_WIDGET (self), clocks != NULL && clocks->len > 0);
}
