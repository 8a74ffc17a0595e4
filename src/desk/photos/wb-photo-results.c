/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See the header. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-results.h"

#include <adwaita.h>
#include <glib/gi18n.h>

static gboolean
has_more (const WbPhotoResult *result)
{
  return result->error != NULL;
}

gboolean
wb_photo_results_has_more (GPtrArray *results)
{
  for (guint i = 0; i < results->len; i++)
    if (has_more (g_ptr_array_index (results, i)))
      return TRUE;
  return FALSE;
}

static GtkWidget *
make_row (const WbPhotoResult *result)
{
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *words = wb_photo_result_words (result);
  g_autofree char *title = g_markup_escape_text (result->name, -1);
  g_autofree char *subtitle = g_markup_escape_text (words, -1);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 0);
  return row;
}

void
wb_photo_results_show (GtkWindow *parent,
                       GPtrArray *results)
{
  GtkWidget *window = adw_preferences_window_new ();
  GtkWidget *page = adw_preferences_page_new ();
  GtkWidget *group = adw_preferences_group_new ();
  g_autofree char *words = wb_photo_results_words (results);

  adw_preferences_group_set_description (ADW_PREFERENCES_GROUP (group), words);
  for (guint i = 0; i < results->len; i++)
    if (has_more (g_ptr_array_index (results, i)))
      adw_preferences_group_add (ADW_PREFERENCES_GROUP (group),
                                 make_row (g_ptr_array_index (results, i)));
  adw_preferences_page_add (ADW_PREFERENCES_PAGE (page), ADW_PREFERENCES_GROUP (group));
  adw_preferences_window_add (ADW_PREFERENCES_WINDOW (window), ADW_PREFERENCES_PAGE (page));

  gtk_window_set_title (GTK_WINDOW (window), _("What Became of the Files"));
  gtk_window_set_default_size (GTK_WINDOW (window), 560, 480);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_present (GTK_WINDOW (window));
}
