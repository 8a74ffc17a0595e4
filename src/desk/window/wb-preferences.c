/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The preferences window. Its few values go straight into the settings. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-preferences.h"

#include "core/wb-money.h"
#include "office/wb-lift-setting.h"

#include <adwaita.h>
#include <glib/gi18n.h>

static void
mark_row (GtkEditable *row,
          gboolean     bad)
{
  if (bad)
    gtk_widget_add_css_class (GTK_WIDGET (row), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (row), "error");

  gtk_accessible_update_state (GTK_ACCESSIBLE (gtk_editable_get_delegate (row)),
                               GTK_ACCESSIBLE_STATE_INVALID,
                               bad ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

/* A code that nobody knows is marked and not stored. */
static void
currency_changed_cb (GtkEditable *row,
                     GSettings   *settings)
{
  g_autofree char *code = g_ascii_strup (gtk_editable_get_text (row), -1);
  gboolean known = wb_currency_digits (g_strstrip (code)) >= 0;

  if (known)
    g_settings_set_string (settings, "currency", code);
  mark_row (row, !known);
}

static GtkWidget *
make_currency_row (void)
{
  GSettings *settings = g_settings_new (WB_APP_ID);
  GtkWidget *row = adw_entry_row_new ();
  g_autofree char *currency = g_settings_get_string (settings, "currency");

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _("Currency of new jobs"));
  gtk_editable_set_text (GTK_EDITABLE (row), currency);
  g_object_set_data_full (G_OBJECT (row), "settings", settings, g_object_unref);
  g_signal_connect (row, "changed", G_CALLBACK (currency_changed_cb), settings);
  return row;
}

/* As with the currency: what is no weight is marked and not stored. */
static void
lift_changed_cb (GtkEditable *row,
                 GSettings   *settings)
{
  const char *text = gtk_editable_get_text (row);
  WbWeight weight;
  gboolean good = wb_lift_setting_parse (text, &weight, NULL);

  if (good)
    {
      g_autofree char *canonical = wb_weight_to_text (weight);

      g_settings_set_string (settings, WB_LIFT_SETTING, canonical);
    }
  mark_row (row, !good);
}

static GtkWidget *
make_lift_row (void)
{
  GSettings *settings = g_settings_new (WB_APP_ID);
  GtkWidget *row = adw_entry_row_new ();
  g_autofree char *weight = wb_weight_to_text (wb_lift_setting_get ());

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row),
                                 _("Caution of lifting from this weight"));
  gtk_editable_set_text (GTK_EDITABLE (row), weight);
  g_object_set_data_full (G_OBJECT (row), "settings", settings, g_object_unref);
  g_signal_connect (row, "changed", G_CALLBACK (lift_changed_cb), settings);
  return row;
}

static GtkWidget *
make_lift_group (void)
{
  GtkWidget *group = adw_preferences_group_new ();

  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), _("Packing"));
  adw_preferences_group_set_description (
    ADW_PREFERENCES_GROUP (group),
    _("A weight such as 50 lb or 23 kg; leave it empty for no caution. NIOSH reckons from 51 lb in "
      "the best posture; OSHA has no rule that names a maximum."));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), make_lift_row ());
  return group;
}

void
wb_preferences_show (GtkWindow *window)
{
  GtkWidget *preferences = adw_preferences_window_new ();
  GtkWidget *page = adw_preferences_page_new ();
  GtkWidget *group = adw_preferences_group_new ();

  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), _("Jobs"));
  adw_preferences_group_set_description (ADW_PREFERENCES_GROUP (group),
                                         _("Three letters, such as USD or CAD. A job keeps the "
                                           "currency it was made with."));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), make_currency_row ());
  adw_preferences_page_add (ADW_PREFERENCES_PAGE (page), ADW_PREFERENCES_GROUP (group));
  adw_preferences_page_add (ADW_PREFERENCES_PAGE (page),
                            ADW_PREFERENCES_GROUP (make_lift_group ()));
  adw_preferences_window_add (ADW_PREFERENCES_WINDOW (preferences), ADW_PREFERENCES_PAGE (page));
  adw_preferences_window_set_search_enabled (ADW_PREFERENCES_WINDOW (preferences), FALSE);

  gtk_window_set_default_size (GTK_WINDOW (preferences), 480, 460);
  gtk_window_set_modal (GTK_WINDOW (preferences), TRUE);
  gtk_window_set_transient_for (GTK_WINDOW (preferences), window);
  gtk_window_present (GTK_WINDOW (preferences));
}
