/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows charge statements. What they say is the office's; nothing is changed here. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-statement-window.h"
#include "desk/widgets/wb-text-saver.h"

#include "office/wb-charge-statement.h"
#include "office/wb-office.h"
#include "office/wb-words-bearing.h"

#include <glib/gi18n.h>
#include <string.h>

struct _WbStatementWindow
{
  AdwWindow        parent_instance;

  AdwWindowTitle  *title;
  GtkDropDown     *choice;
  GtkLabel        *remark;
  GtkTextView     *view;
  GtkLabel        *fault;

  WbApportionment *shares;
  GArray          *handlers;    /* of guint: places of those with a statement */
  char            *statement;
};

G_DEFINE_FINAL_TYPE (WbStatementWindow, wb_statement_window, ADW_TYPE_WINDOW)

/* --- what is shown ---------------------------------------------------------------------------- */

static guint
get_handler (WbStatementWindow *self)
{
  guint selected = gtk_drop_down_get_selected (self->choice);

  return selected < self->handlers->len ? g_array_index (self->handlers, guint, selected) : 0;
}

static void
show_label (GtkLabel   *label,
            const char *words)
{
  gtk_label_set_label (label, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (label), words != NULL);
}

static char *
made_out_in_words (const GDate *on)
{
  g_autofree char *date = wb_words_date (on);

  /* Translators: a date. */
  return g_strdup_printf (_("Made out on %s, and kept word for word."), date);
}

/* From its beginning, where reading begins. */
static void
show_text (WbStatementWindow *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->view);
  GtkTextIter start;

  gtk_text_buffer_set_text (buffer, self->statement, -1);
  gtk_text_buffer_get_start_iter (buffer, &start);
  gtk_text_buffer_place_cursor (buffer, &start);
}

static void
show (WbStatementWindow *self)
{
  guint handler = get_handler (self);
  g_autofree char *difference = wb_charge_difference (self->shares, handler);
  g_autofree char *words = NULL;
  const char *kept;
  GDate on, today;

  g_date_clear (&on, 1);
  kept = wb_charge_statement_kept (self->shares, handler, &on);
  wb_office_today (&today);
  g_free (self->statement);
  self->statement = kept != NULL ? g_strdup (kept)
                                 : wb_charge_statement_write (self->shares, handler, &today);
  if (kept == NULL)
    words = g_strdup (_("Nothing was stated to it yet; so it would read today."));
  else if (difference == NULL)
    words = made_out_in_words (&on);
  show_label (self->remark, words != NULL ? words : difference);
  if (words == NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self->remark), "warning");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->remark), "warning");
  show_text (self);
  show_label (self->fault, NULL);
}

static void
chosen_cb (WbStatementWindow *self)
{
  if (self->shares != NULL)
    show (self);
}

static void
fill (WbStatementWindow *self,
      const char        *wanted)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  gint first = wanted != NULL ? wb_apportionment_find (self->shares, wanted) : -1;
  guint selected = 0;

  for (guint i = 1; i < self->shares->n_handlers; i++)
    {
      g_autofree char *name = wb_words_handler (&self->shares->handlers[i]);

      if (!wb_charge_is_needed (self->shares, i))
        continue;
      if ((gint) i == first)
        selected = self->handlers->len;
      gtk_string_list_append (names, name);
      g_array_append_val (self->handlers, i);
    }
  gtk_drop_down_set_model (self->choice, G_LIST_MODEL (names));
  adw_window_title_set_subtitle (self->title, self->shares->reckoning->claim->number != NULL
                                              ? self->shares->reckoning->claim->number : "");
  if (self->handlers->len == 0)
    {
      show_label (self->remark, _("Nobody but the carrier bears a part of the claim, so there is "
                                  "nothing to state."));
      gtk_widget_set_sensitive (GTK_WIDGET (self->choice), FALSE);
      gtk_widget_action_set_enabled (GTK_WIDGET (self), "statement.copy", FALSE);
      gtk_widget_action_set_enabled (GTK_WIDGET (self), "statement.save", FALSE);
      return;
    }
  gtk_drop_down_set_selected (self->choice, selected);
  show (self);
}

/* --- deeds ------------------------------------------------------------------------------------ */

static void
step (WbStatementWindow *self,
      int                by)
{
  int n = (int) self->handlers->len;
  int now = (int) gtk_drop_down_get_selected (self->choice);

  if (n > 0)
    gtk_drop_down_set_selected (self->choice, (guint) ((now + by + n) % n));
}

static void
next_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  step (WB_STATEMENT_WINDOW (widget), 1);
}

static void
previous_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *target)
{
  step (WB_STATEMENT_WINDOW (widget), -1);
}

static void
copy_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget),
                          WB_STATEMENT_WINDOW (widget)->statement);
}

static char *
make_statement (GtkWindow *window)
{
  return g_strdup (WB_STATEMENT_WINDOW (window)->statement);
}

static void
statement_saved (GtkWindow    *window,
                 GFile        *file,
                 const GError *error)
{
  g_autofree char *words = error != NULL ? wb_words_error (error) : NULL;

  show_label (WB_STATEMENT_WINDOW (window)->fault, words);
}

static void
save_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbStatementWindow *self = WB_STATEMENT_WINDOW (widget);
  g_autofree char *proposed = wb_charge_statement_file_name (self->shares, get_handler (self));

  wb_text_save (GTK_WINDOW (widget), _("Save the Statement"), proposed, make_statement,
                statement_saved);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_statement_window_dispose (GObject *object)
{
  WbStatementWindow *self = WB_STATEMENT_WINDOW (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_STATEMENT_WINDOW);
  g_clear_pointer (&self->shares, wb_apportionment_free);

  G_OBJECT_CLASS (wb_statement_window_parent_class)->dispose (object);
}

static void
wb_statement_window_finalize (GObject *object)
{
  WbStatementWindow *self = WB_STATEMENT_WINDOW (object);

  g_array_unref (self->handlers);
  g_free (self->statement);

  G_OBJECT_CLASS (wb_statement_window_parent_class)->finalize (object);
}

static void
wb_statement_window_class_init (WbStatementWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_statement_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_statement_window_finalize;

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/claim/wb-statement-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbStatementWindow, title);
  gtk_widget_class_bind_template_child (widget_class, WbStatementWindow, choice);
  gtk_widget_class_bind_template_child (widget_class, WbStatementWindow, remark);
  gtk_widget_class_bind_template_child (widget_class, WbStatementWindow, view);
  gtk_widget_class_bind_template_child (widget_class, WbStatementWindow, fault);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);

  gtk_widget_class_install_action (widget_class, "statement.copy", NULL, copy_action);
  gtk_widget_class_install_action (widget_class, "statement.save", NULL, save_action);
  gtk_widget_class_install_action (widget_class, "statement.next", NULL, next_action);
  gtk_widget_class_install_action (widget_class, "statement.previous", NULL, previous_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_c, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                       "statement.copy", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_s, GDK_CONTROL_MASK, "statement.save",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Page_Down, GDK_CONTROL_MASK,
                                       "statement.next", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Page_Up, GDK_CONTROL_MASK,
                                       "statement.previous", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

/* The button in a drop-down has the focus, and takes no name from the drop-down. */
static void
name_choice (WbStatementWindow *self)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (
                                                    GTK_WIDGET (self->choice))),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("Handler"), -1);
}

static void
wb_statement_window_init (WbStatementWindow *self)
{
  self->handlers = g_array_new (FALSE, FALSE, sizeof (guint));
  self->statement = g_strdup ("");
  gtk_widget_init_template (GTK_WIDGET (self));
  name_choice (self);
}

GtkWidget *
wb_statement_window_new (GtkWindow   *parent,
                         WbReckoning *reckoning,
                         const char  *handler)
{
  WbStatementWindow *self;
  g_autoptr (WbApportionment) shares = NULL;

  g_return_val_if_fail (reckoning != NULL, NULL);

  shares = wb_apportion (reckoning, WB_APPORTION_LAST, NULL);
  g_return_val_if_fail (shares != NULL, NULL);

  self = g_object_new (WB_TYPE_STATEMENT_WINDOW, "transient-for", parent,
                       "destroy-with-parent", TRUE, "modal", TRUE, NULL);
  self->shares = g_steal_pointer (&shares);
  fill (self, handler);
  gtk_widget_grab_focus (GTK_WIDGET (self->view));
  return GTK_WIDGET (self);
}

const char *
wb_statement_window_get_text (WbStatementWindow *self)
{
  g_return_val_if_fail (WB_IS_STATEMENT_WINDOW (self), NULL);

  return self->statement;
}
