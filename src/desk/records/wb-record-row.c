/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record of a list. The fields are made when the row is first opened, since a
 * job may have many rows that nobody opens. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/records/wb-record-row.h"

#include "desk/records/wb-record-draft.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-menu-later.h"
#include "desk/widgets/wb-reveal.h"
#include "desk/widgets/wb-scroll-to.h"
#include "office/wb-words-papers.h"
#include "office/wb-words-record.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#define EXPANDED_KEY "wb-record-row-expanded"

struct _WbRecordRow
{
  AdwExpanderRow  parent_instance;

  WbJobModel     *model;
  WbRecordItem   *item;
  GtkWidget      *first_field;   /* NULL until the row was opened; owned by the row */
  GtkWidget      *menu_button;
  GtkWidget      *keep_row;      /* NULL until a paper was opened; owned by the row */
};

G_DEFINE_FINAL_TYPE (WbRecordRow, wb_record_row, ADW_TYPE_EXPANDER_ROW)

static const WbRecord *
get_record (WbRecordRow *self)
{
  return wb_record_item_get_record (self->item);
}

static gboolean
is_paper (WbRecordRow *self)
{
  return get_record (self)->type->kind == WB_KIND_PAPER;
}

/* Until when a paper is kept, and why. */
static void
show_keeping (WbRecordRow *self)
{
  WbKeep keep = wb_keep_paper (wb_job_model_get_job (self->model),
                               (const WbPaper *) get_record (self));
  g_autofree char *until = wb_words_keep (&keep);
  g_autofree char *note = wb_words_keep_note (&keep);
  g_autofree char *both = g_strdup_printf ("%s, %s", until, note);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->keep_row), until);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->keep_row), note);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->keep_row), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  both, -1);
}

static void
add_keeping (WbRecordRow *self)
{
  self->keep_row = adw_action_row_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self->keep_row), FALSE);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), self->keep_row);
  show_keeping (self);
}

static void
make_fields (WbRecordRow *self)
{
  const WbRecord *record = get_record (self);

  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];
      GtkWidget *row;

      if (field->type == WB_FIELD_REFERENCE)
        continue;

      row = wb_field_widget_new (self->model, record->type->kind, record->id, field->name);
      adw_expander_row_add_row (ADW_EXPANDER_ROW (self), row);
      if (self->first_field == NULL)
        self->first_field = row;
    }
}

/* Whether a row is open belongs to the item: the row itself may be made anew. */
static void
expanded_cb (WbRecordRow *self)
{
  gboolean expanded = adw_expander_row_get_expanded (ADW_EXPANDER_ROW (self));

  g_object_set_data (G_OBJECT (self->item), EXPANDED_KEY, GINT_TO_POINTER (expanded));
  if (expanded && self->first_field == NULL)
    {
      make_fields (self);
      if (is_paper (self))
        add_keeping (self);
    }
}

static void
show_record (WbRecordRow *self)
{
  const WbRecord *record = get_record (self);
  g_autofree char *title = wb_words_record_title (record);
  g_autofree char *subtitle = wb_words_record_subtitle (wb_job_model_get_job (self->model),
                                                         record);
  /* Translators: %s is a person, a place, a weighing, a paper or a conversation. */
  g_autofree char *menu_label = g_strdup_printf (_("Move or remove %s"), title);
  g_autofree char *description = g_strdup_printf ("%s, %s", title, subtitle);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), title);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self), subtitle);
  gtk_widget_set_tooltip_text (self->menu_button, menu_label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->menu_button),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, menu_label, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, description, -1);
  if (self->keep_row != NULL)
    show_keeping (self);
}

/* How long a paper is kept hangs on other records too. The job may be without the record by now. */
static void
job_changed_cb (WbRecordRow *self)
{
  const WbRecord *record = get_record (self);

  if (wb_job_find (wb_job_model_get_job (self->model), record->type->kind, record->id) == record)
    show_record (self);
}

/* --- actions ---------------------------------------------------------------------------------- */

static void
remove_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbRecordRow *self = WB_RECORD_ROW (widget);
  const WbRecord *record = get_record (self);
  g_autofree char *deed = wb_words_record_removal (record);
  g_autofree char *title = wb_words_record_title (record);
  g_autoptr (WbJobModel) model = g_object_ref (self->model);
  GtkWidget *page = gtk_widget_get_parent (GTK_WIDGET (self));
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_job_without (wb_job_model_get_job (model),
                                          record->type->kind, record->id, &error);
  g_autofree char *words = NULL;

  if (job == NULL)
    {
      words = wb_words_error (error);
      gtk_widget_activate_action (GTK_WIDGET (self), "job.warn", "s", words);
      return;
    }

  wb_job_model_apply (model, job, deed);
  /* Translators: %s is a person, a place or a weighing. */
  words = g_strdup_printf (_("%s removed"), title);
  gtk_widget_activate_action (page, "job.tell", "s", words);
}

static void
move (WbRecordRow *self,
      gint         by)
{
  const WbRecord *record = get_record (self);
  g_autoptr (WbJobModel) model = g_object_ref (self->model);
  g_autofree char *id = g_strdup (record->id);
  g_autofree char *title = wb_words_record_title (record);
  /* Translators: %s is a person, a place or a weighing. */
  g_autofree char *deed = g_strdup_printf (_("Move %s"), title);
  GtkWidget *section = gtk_widget_get_parent (GTK_WIDGET (self));
  g_autoptr (WbJob) job = wb_record_draft_move (wb_job_model_get_job (model),
                                                record->type->kind, id, by);

  if (job == NULL)
    {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return;
    }

  wb_job_model_apply (model, job, deed);
  gtk_widget_activate_action (section, "section.show", "s", id);
}

static void
move_up_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  move (WB_RECORD_ROW (widget), -1);
}

static void
move_down_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  move (WB_RECORD_ROW (widget), 1);
}

/* --- overrides -------------------------------------------------------------------------------- */

static GMenuModel *
make_menu (void)
{
  g_autoptr (GMenu) menu = g_menu_new ();

  g_menu_append (menu, _("Move _Up"), "record.move-up");
  g_menu_append (menu, _("Move _Down"), "record.move-down");
  g_menu_append (menu, _("_Remove"), "record.remove");
  return G_MENU_MODEL (g_steal_pointer (&menu));
}

static void
add_menu (WbRecordRow *self)
{
  g_autoptr (GMenuModel) menu = make_menu ();

  self->menu_button = gtk_menu_button_new ();
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (self->menu_button), "view-more-symbolic");
  wb_menu_later (GTK_MENU_BUTTON (self->menu_button), menu);
  gtk_widget_add_css_class (self->menu_button, "flat");
  gtk_widget_set_valign (self->menu_button, GTK_ALIGN_CENTER);
  adw_expander_row_add_action (ADW_EXPANDER_ROW (self), self->menu_button);
}

static void
wb_record_row_dispose (GObject *object)
{
  WbRecordRow *self = WB_RECORD_ROW (object);

  g_clear_object (&self->item);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_record_row_parent_class)->dispose (object);
}

static void
wb_record_row_class_init (WbRecordRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_record_row_dispose;

  gtk_widget_class_install_action (widget_class, "record.remove", NULL, remove_action);
  gtk_widget_class_install_action (widget_class, "record.move-up", NULL, move_up_action);
  gtk_widget_class_install_action (widget_class, "record.move-down", NULL, move_down_action);

  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Delete, GDK_CONTROL_MASK,
                                       "record.remove", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Up, GDK_ALT_MASK,
                                       "record.move-up", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Down, GDK_ALT_MASK,
                                       "record.move-down", NULL);
}

static void
wb_record_row_init (WbRecordRow *self)
{
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);
  add_menu (self);
}

GtkWidget *
wb_record_row_new (WbJobModel   *model,
                   WbRecordItem *item)
{
  WbRecordRow *self;

  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);
  g_return_val_if_fail (WB_IS_RECORD_ITEM (item), NULL);

  self = g_object_new (WB_TYPE_RECORD_ROW, NULL);
  self->model = g_object_ref (model);
  self->item = g_object_ref (item);
  g_signal_connect (self, "notify::expanded", G_CALLBACK (expanded_cb), NULL);
  g_signal_connect_object (item, "notify::record", G_CALLBACK (show_record), self,
                           G_CONNECT_SWAPPED);
  if (is_paper (self))
    g_signal_connect_object (model, "notify::job", G_CALLBACK (job_changed_cb), self,
                             G_CONNECT_SWAPPED);
  show_record (self);
  if (g_object_get_data (G_OBJECT (item), EXPANDED_KEY) != NULL)
    adw_expander_row_set_expanded (ADW_EXPANDER_ROW (self), TRUE);

  return GTK_WIDGET (self);
}

WbRecordItem *
wb_record_row_get_item (WbRecordRow *self)
{
  g_return_val_if_fail (WB_IS_RECORD_ROW (self), NULL);

  return self->item;
}

void
wb_record_row_start_editing (WbRecordRow *self)
{
  g_return_if_fail (WB_IS_RECORD_ROW (self));

  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (self), TRUE);
  if (self->first_field != NULL)
    gtk_widget_child_focus (self->first_field, GTK_DIR_TAB_FORWARD);
  wb_scroll_to (GTK_WIDGET (self));
}

void
wb_record_row_reveal (WbRecordRow *self,
                      const char  *field)
{
  const WbRecord *record;

  g_return_if_fail (WB_IS_RECORD_ROW (self));

  record = get_record (self);
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (self), TRUE);
  if (wb_reveal_within (GTK_WIDGET (self), record->type->kind, record->id, field))
    return;

  gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD);
  wb_scroll_to (GTK_WIDGET (self));
}
