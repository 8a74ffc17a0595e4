/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "desk/support/wb-desk-dialogs.h"

#include "support/wb-test-window.h"

#include <adwaita.h>

static const char *
words_over (GtkWindow *window)
{
  if (ADW_IS_MESSAGE_DIALOG (window))
    return adw_message_dialog_get_heading (ADW_MESSAGE_DIALOG (window));
  return gtk_window_get_title (window);
}

GtkWindow *
wb_desk_dialogs_find (const char *words)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (g_strcmp0 (words_over (window), words) == 0 &&
          gtk_widget_get_mapped (GTK_WIDGET (window)))
        return window;
    }
  return NULL;
}

static gboolean
is_shown (gpointer words)
{
  return wb_desk_dialogs_find (words) != NULL;
}

static gboolean
is_gone (gpointer words)
{
  return !is_shown (words);
}

GtkWindow *
wb_desk_dialogs_wait_for (const char *words)
{
  wb_test_wait_until (is_shown, (gpointer) words);
  return wb_desk_dialogs_find (words);
}

void
wb_desk_dialogs_wait_gone (const char *words)
{
  wb_test_wait_until (is_gone, (gpointer) words);
}

const char *
wb_desk_dialogs_body_of (GtkWindow *dialog)
{
  return adw_message_dialog_get_body (ADW_MESSAGE_DIALOG (dialog));
}
