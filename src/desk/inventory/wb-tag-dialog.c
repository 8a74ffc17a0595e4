/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Going to a tag by hand. What a text means and which lines it finds is decided elsewhere. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-tag-dialog.h"

#include "desk/inventory/wb-inventory-find.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* Of more lines with one tag nobody reads the end. */
#define MOST_CHOICES 50

struct _WbTagDialog
{
  AdwWindow    parent_instance;

  WbJobModel  *model;
  GtkEditable *entry;
  GtkLabel    *note;
  GtkListBox  *choices;
};

enum
{
  CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbTagDialog, wb_tag_dialog, ADW_TYPE_WINDOW)

static void
choose (WbTagDialog *self,
        const char  *id)
{
  g_autofree char *held = g_strdup (id);

  gtk_window_close (GTK_WINDOW (self));
  g_signal_emit (self, signals[CHOSEN], 0, held);
}

static void
show_note (WbTagDialog *self,
           const char  *sentence,
           gboolean     is_error)
{
  gtk_label_set_text (self->note, sentence);
  if (is_error)
    {
      gtk_widget_add_css_class (GTK_WIDGET (self->note), "error");
      gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                                   GTK_ACCESSIBLE_INVALID_TRUE, -1);
    }
  else
    {
      gtk_widget_remove_css_class (GTK_WIDGET (self->note), "error");
      gtk_accessible_reset_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
}

/* --- the lines to choose from ----------------------------------------------------------------- */

static void
clear_choices (WbTagDialog *self)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->choices, 0)) != NULL)
    gtk_list_box_remove (self->choices, GTK_WIDGET (row));
  gtk_widget_set_visible (GTK_WIDGET (self->choices), FALSE);
}

static GtkWidget *
make_choice (const WbJob *job,
             const char  *id)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, id);
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *tag = wb_words_tag (job, piece);
  const char *what = piece->description != NULL ? piece->description : piece->contents;
  g_autofree char *where = g_strjoin (what != NULL && piece->room != NULL ? " · " : "",
                                      what != NULL ? what : "",
                                      piece->room != NULL ? piece->room : "", NULL);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), tag);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), where);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  g_object_set_data_full (G_OBJECT (row), "piece", g_strdup (id), g_free);
  return row;
}

static void
show_choices (WbTagDialog *self,
              GPtrArray   *found)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  g_autofree char *sentence =
    g_strdup_printf (ngettext ("%u line has this tag. Choose one.",
                               "%u lines have this tag. Choose one.", found->len), found->len);

  clear_choices (self);
  for (guint i = 0; i < MIN (found->len, MOST_CHOICES); i++)
    gtk_list_box_append (self->choices, make_choice (job, g_ptr_array_index (found, i)));
  gtk_widget_set_visible (GTK_WIDGET (self->choices), TRUE);
  show_note (self, sentence, FALSE);
}

static void
focus_first (WbTagDialog *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (self->choices, 0)));
}

static void
row_activated_cb (WbTagDialog   *self,
                  GtkListBoxRow *row)
{
  choose (self, g_object_get_data (G_OBJECT (row), "piece"));
}

/* --- the field -------------------------------------------------------------------------------- */

static void
changed_cb (WbTagDialog *self)
{
  clear_choices (self);
  show_note (self, _("Type a tag or scan it, and press Enter."), FALSE);
}

static void
refuse (WbTagDialog *self,
        const char  *sentence)
{
  show_note (self, sentence, TRUE);
  gtk_editable_select_region (self->entry, 0, -1);
}

static void
activate_cb (WbTagDialog *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  const char *text = gtk_editable_get_text (self->entry);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbTagScan) scan = wb_tag_scan_parse (text, &error);
  g_autoptr (GPtrArray) found = NULL;
  g_autofree char *sentence = NULL;

  if (scan == NULL)
    {
      /* Translators: %s is what was typed. */
      sentence = g_strdup_printf (_("“%s” is no tag. Type the number, with the lot before it when "
                                    "there are several: blue-17."), text);
      refuse (self, sentence);
      return;
    }

  found = wb_inventory_find_scan (job, scan);
  if (found->len == 1)
    {
      choose (self, g_ptr_array_index (found, 0));
    }
  else if (found->len > 1)
    {
      show_choices (self, found);
      focus_first (self);
    }
  else
    {
      sentence = wb_inventory_describe_miss (job, scan);
      refuse (self, sentence);
    }
}

/* --- object ----------------------------------------------------------------------------------- */

static void
wb_tag_dialog_dispose (GObject *object)
{
  WbTagDialog *self = WB_TAG_DIALOG (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_TAG_DIALOG);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_tag_dialog_parent_class)->dispose (object);
}

static void
wb_tag_dialog_class_init (WbTagDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_tag_dialog_dispose;

  signals[CHOSEN] = g_signal_new ("chosen", WB_TYPE_TAG_DIALOG, G_SIGNAL_RUN_LAST,
                                  0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/inventory/wb-tag-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, WbTagDialog, entry);
  gtk_widget_class_bind_template_child (widget_class, WbTagDialog, note);
  gtk_widget_class_bind_template_child (widget_class, WbTagDialog, choices);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
wb_tag_dialog_init (WbTagDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

WbTagDialog *
wb_tag_dialog_new (GtkWindow  *parent,
                   WbJobModel *model)
{
  WbTagDialog *self;

  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  self = g_object_new (WB_TYPE_TAG_DIALOG, "transient-for", parent, NULL);
  self->model = g_object_ref (model);
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
  return self;
}

void
wb_tag_dialog_look_up (WbTagDialog *self,
                       const char  *text)
{
  g_return_if_fail (WB_IS_TAG_DIALOG (self));

  gtk_editable_set_text (self->entry, text);
  activate_cb (self);
}
