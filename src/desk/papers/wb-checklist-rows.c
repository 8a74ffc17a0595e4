/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the row of one item of the checklist. Which items there are, and where they go, core
 * says. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/papers/wb-checklist-rows.h"

#include "office/wb-words-papers.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static gboolean
adds_paper (const WbChecklistEntry *entry)
{
  return entry->state == WB_ITEM_STATE_MISSING && entry->kind == WB_KIND_PAPER
         && entry->id == NULL;
}

/* When it is due and on what it rests. */
static char *
make_subtitle (const WbJob            *job,
               const WbChecklistEntry *entry)
{
  g_autofree char *note = wb_words_item_note (job, entry);

  if (entry->state != WB_ITEM_STATE_MISSING)
    return g_steal_pointer (&note);

  return g_strdup_printf ("%s · %s", wb_words_enum (&wb_dues, (int) entry->due), note);
}

static void
set_action (GtkWidget              *row,
            const WbChecklistEntry *entry)
{
  GtkActionable *actionable = GTK_ACTIONABLE (row);

  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  if (adds_paper (entry))
    {
      gtk_actionable_set_action_name (actionable, "papers.add-kind");
      gtk_actionable_set_action_target (actionable, "s",
                                        wb_enum_nick (&wb_paper_kinds, (int) entry->paper));
      return;
    }

  gtk_actionable_set_action_name (actionable, "job.reveal");
  gtk_actionable_set_action_target (actionable, "(sss)", wb_record_type (entry->kind)->name,
                                    entry->id != NULL ? entry->id : "",
                                    entry->field != NULL ? entry->field : "");
}

GtkWidget *
wb_checklist_row_new (const WbJob            *job,
                      const WbChecklistEntry *entry)
{
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *title = wb_words_item (job, entry);
  g_autofree char *subtitle = make_subtitle (job, entry);
  g_autofree char *name = g_strdup_printf ("%s, %s", title, subtitle);
  gboolean adds = adds_paper (entry);
  GtkWidget *icon = gtk_image_new_from_icon_name (adds ? "list-add-symbolic" : "go-next-symbolic");

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  gtk_widget_set_tooltip_text (icon, adds ? _("Add this paper") : _("Go to where it is entered"));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), icon);
  set_action (row, entry);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return row;
}

char *
wb_checklist_row_text (const WbJob            *job,
                       const WbChecklistEntry *entry)
{
  g_autofree char *title = wb_words_item (job, entry);
  g_autofree char *subtitle = make_subtitle (job, entry);

  return g_strdup_printf ("%s\n%s\n%d %d %s %s", title, subtitle, (int) entry->kind,
                          (int) entry->paper, entry->id != NULL ? entry->id : "",
                          entry->field != NULL ? entry->field : "");
}
