/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Entering a list of contents. The fields hold typed texts only; they become a thing when Enter is
 * pressed. How texts are read is wb-contents.c's, how the list is shown is wb-contents-list.c's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-contents-dialog.h"

#include "desk/inventory/wb-contents-list.h"
#include "desk/inventory/wb-contents.h"
#include "desk/widgets/wb-flow-layout.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbContentsDialog
{
  AdwWindow            parent_instance;

  WbJobModel          *model;
  char                *piece;
  char                *changed;     /* id of the thing under change; NULL for a new one */
  GtkSingleSelection  *things;      /* as shown */
  AdwWindowTitle      *title;
  GtkStack            *stack;
  GtkColumnView       *view;
  GtkLabel            *total;
  GtkLabel            *heading;
  GtkButton           *enter;
  GtkBox              *fields;
  GtkLabel            *fault;
  GtkEditable         *entries[WB_THING_N_PARTS];
};

G_DEFINE_FINAL_TYPE (WbContentsDialog, wb_contents_dialog, ADW_TYPE_WINDOW)

static const struct
{
  const char *caption;
  int         chars;
  gboolean    expand;
} looks[] = {
  [WB_THING_QUANTITY] = { N_ ("How _many"), 5, FALSE },
  [WB_THING_DESCRIPTION] = { N_ ("_Description"), 18, TRUE },
  [WB_THING_VALUE] = { N_ ("_Value of one"), 9, FALSE },
  [WB_THING_WEIGHT] = { N_ ("_Weight of one"), 9, FALSE },
  [WB_THING_NOTES] = { N_ ("N_otes"), 14, TRUE },
};

static WbJob *
get_job (WbContentsDialog *self)
{
  return wb_job_model_get_job (self->model);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
clear_fault (WbContentsDialog *self)
{
  gtk_label_set_text (self->fault, "");
  for (int i = 0; i < WB_THING_N_PARTS; i++)
    {
      gtk_widget_remove_css_class (GTK_WIDGET (self->entries[i]), "error");
      gtk_accessible_reset_state (GTK_ACCESSIBLE (self->entries[i]), GTK_ACCESSIBLE_STATE_INVALID);
    }
}

static void
show_fault (WbContentsDialog *self,
            WbThingPart       part,
            const char       *sentence)
{
  GtkWidget *entry = GTK_WIDGET (self->entries[part]);

  gtk_label_set_text (self->fault, sentence);
  gtk_widget_add_css_class (entry, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_STATE_INVALID,
                               GTK_ACCESSIBLE_INVALID_TRUE, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  sentence, -1);
  gtk_widget_grab_focus (entry);
}

static void
update_heading (WbContentsDialog *self)
{
  const WbThing *thing = wb_job_find (get_job (self), WB_KIND_THING, self->changed);
  g_autofree char *words = NULL;

  if (thing != NULL)
    /* Translators: %s is a thing in a carton. */
    words = g_strdup_printf (_("Change %s"), thing->description);
  gtk_label_set_text (self->heading, words != NULL ? words : _("Next thing"));
  gtk_button_set_label (self->enter, thing != NULL ? _("Store") : _("Enter"));
}

static void
update (WbContentsDialog *self)
{
  const WbPiece *piece = wb_job_find (get_job (self), WB_KIND_PIECE, self->piece);
  g_autoptr (GPtrArray) things = wb_things_of (get_job (self), self->piece);
  g_autofree char *tag = NULL;
  g_autofree char *total = wb_contents_total (things);
  g_autofree char *subtitle = NULL;

  if (piece == NULL)
    {
      gtk_window_close (GTK_WINDOW (self));
      return;
    }

  tag = wb_words_tag (get_job (self), piece);
  subtitle = piece->description != NULL || piece->carton != NULL
             ? g_strdup_printf ("%s · %s", tag,
                                piece->description != NULL ? piece->description : piece->carton)
             : g_strdup (tag);
  adw_window_title_set_subtitle (self->title, subtitle);
  gtk_label_set_text (self->total, total);
  gtk_stack_set_visible_child_name (self->stack, things->len > 0 ? "things" : "empty");
  if (self->changed != NULL && wb_job_find (get_job (self), WB_KIND_THING, self->changed) == NULL)
    g_clear_pointer (&self->changed, g_free);
  update_heading (self);
}

/* --- the fields ------------------------------------------------------------------------------- */

/* Shows @thing for changing; %NULL: empties the fields for a new one. */
static void
show_thing (WbContentsDialog *self,
            const WbThing    *thing)
{
  g_autofree char *id = thing != NULL ? g_strdup (thing->record.id) : NULL;

  g_free (self->changed);
  self->changed = g_steal_pointer (&id);
  for (int i = 0; i < WB_THING_N_PARTS; i++)
    {
      g_autofree char *text = thing != NULL ? wb_thing_show (thing, (WbThingPart) i) : NULL;

      gtk_editable_set_text (self->entries[i], text != NULL ? text : "");
    }
  clear_fault (self);
  update_heading (self);
}

static void
focus_field (WbContentsDialog *self,
             WbThingPart       part)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->entries[part]));
  gtk_editable_select_region (self->entries[part], 0, -1);
}

static gboolean
is_bare (WbContentsDialog *self)
{
  for (int i = 0; i < WB_THING_N_PARTS; i++)
    if (*gtk_editable_get_text (self->entries[i]) != '\0')
      return FALSE;
  return TRUE;
}

static gboolean
read_thing (WbContentsDialog *self,
            WbThing          *thing)
{
  const char *currency = wb_job_get_currency (get_job (self));

  for (int i = 0; i < WB_THING_N_PARTS; i++)
    {
      g_autoptr (GError) error = NULL;

      if (wb_thing_read (thing, (WbThingPart) i, gtk_editable_get_text (self->entries[i]), currency,
                         &error))
        continue;
      show_fault (self, (WbThingPart) i, error->message);
      return FALSE;
    }
  if (thing->description != NULL)
    return TRUE;
  show_fault (self, WB_THING_DESCRIPTION, _("Say what it is."));
  return FALSE;
}

/* After a change comes the next line, after the last line a new one. */
static void
go_on (WbContentsDialog *self,
       const char       *changed)
{
  const WbThing *next = NULL;

  if (changed != NULL)
    next = wb_contents_list_neighbour (G_LIST_MODEL (self->things), changed, 1);
  show_thing (self, next);
  if (next == NULL)
    focus_field (self, WB_THING_QUANTITY);
}

static void
take_cb (WbContentsDialog *self)
{
  const WbThing *before = wb_job_find (get_job (self), WB_KIND_THING, self->changed);
  g_autofree char *changed = before != NULL ? g_strdup (self->changed) : NULL;
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbThing) thing = NULL;
  g_autoptr (WbJob) job = NULL;

  clear_fault (self);
  if (before == NULL && is_bare (self))
    {
      gtk_window_close (GTK_WINDOW (self));
      return;
    }

  thing = before != NULL ? wb_record_copy (before) : wb_record_new (WB_KIND_THING, id);
  wb_set_text (&thing->piece, self->piece);
  if (!read_thing (self, thing))
    return;

  job = wb_job_with (get_job (self), thing);
  wb_job_model_apply (self->model, job, before != NULL ? _("Change contents")
                                                       : _("Enter contents"));
  wb_contents_list_select (self->view, self->things, thing->record.id);
  go_on (self, changed);
}

static void
add_field (WbContentsDialog *self,
           WbThingPart       part)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *caption = gtk_label_new_with_mnemonic (_(looks[part].caption));
  GtkWidget *entry = gtk_entry_new ();
  g_auto (GStrv) bare = g_strsplit (_(looks[part].caption), "_", -1);
  g_autofree char *name = g_strjoinv ("", bare);

  gtk_label_set_xalign (GTK_LABEL (caption), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (caption), entry);
  gtk_widget_add_css_class (caption, "caption");
  gtk_widget_add_css_class (caption, "dim-label");
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), looks[part].chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), looks[part].chars);
  gtk_widget_set_hexpand (box, looks[part].expand);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (take_cb), self);
  gtk_box_append (GTK_BOX (box), caption);
  gtk_box_append (GTK_BOX (box), entry);
  gtk_box_append (self->fields, box);
  self->entries[part] = GTK_EDITABLE (entry);
}

/* --- the things that are there ---------------------------------------------------------------- */

static void
activate_cb (WbContentsDialog *self,
             guint             position)
{
  const WbThing *thing = wb_contents_list_nth (G_LIST_MODEL (self->things), position);

  if (thing == NULL)
    return;
  show_thing (self, thing);
  focus_field (self, WB_THING_DESCRIPTION);
}

/* Ctrl+Up and Ctrl+Down: to the thing above or below; beyond the last a new one goes on. */
static gboolean
step_cb (GtkWidget *widget,
         GVariant  *args,
         gpointer   data)
{
  WbContentsDialog *self = WB_CONTENTS_DIALOG (widget);
  int step = (int) g_variant_get_int32 (args);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->things));
  const WbThing *next = NULL;

  if (self->changed != NULL)
    next = wb_contents_list_neighbour (G_LIST_MODEL (self->things), self->changed, step);
  else if (step < 0 && n > 0)
    next = wb_contents_list_nth (G_LIST_MODEL (self->things), n - 1);

  if (next == NULL && (step < 0 || self->changed == NULL))
    {
      gtk_widget_error_bell (widget);
      return TRUE;
    }
  show_thing (self, next);
  focus_field (self, next != NULL ? WB_THING_DESCRIPTION : WB_THING_QUANTITY);
  return TRUE;
}

static gboolean
is_in_view (WbContentsDialog *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->view));
}

/* Delete removes the selected thing, from the list only: in a field it is the field's. */
static gboolean
remove_cb (GtkWidget *widget,
           GVariant  *args,
           gpointer   data)
{
  WbContentsDialog *self = WB_CONTENTS_DIALOG (widget);
  guint position = gtk_single_selection_get_selected (self->things);
  const WbThing *thing = wb_contents_list_nth (G_LIST_MODEL (self->things), position);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *sentence = NULL;

  if (!is_in_view (self) || thing == NULL)
    return FALSE;

  job = wb_job_without (get_job (self), WB_KIND_THING, thing->record.id, &error);
  if (job == NULL)
    {
      sentence = wb_words_error (error);
      gtk_label_set_text (self->fault, sentence);
      return TRUE;
    }
  wb_job_model_apply (self->model, job, _("Remove contents"));
  if (g_list_model_get_n_items (G_LIST_MODEL (self->things)) == 0)
    focus_field (self, WB_THING_QUANTITY);
  return TRUE;
}

/* Escape: first what is typed goes, then the change, then the window. */
static gboolean
go_back_cb (GtkWidget *widget,
            GVariant  *args,
            gpointer   data)
{
  WbContentsDialog *self = WB_CONTENTS_DIALOG (widget);

  if (is_bare (self))
    {
      gtk_window_close (GTK_WINDOW (self));
      return TRUE;
    }
  show_thing (self, NULL);
  focus_field (self, WB_THING_QUANTITY);
  return TRUE;
}

static gboolean
undo_cb (GtkWidget *widget,
         GVariant  *args,
         gpointer   data)
{
  WbContentsDialog *self = WB_CONTENTS_DIALOG (widget);

  if (g_variant_get_int32 (args) < 0)
    wb_job_model_undo (self->model);
  else
    wb_job_model_redo (self->model);
  return TRUE;
}

/* --- object ----------------------------------------------------------------------------------- */

static void
wb_contents_dialog_dispose (GObject *object)
{
  WbContentsDialog *self = WB_CONTENTS_DIALOG (object);

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, update, self);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_CONTENTS_DIALOG);
  g_clear_object (&self->things);
  g_clear_object (&self->model);
  g_clear_pointer (&self->piece, g_free);
  g_clear_pointer (&self->changed, g_free);

  G_OBJECT_CLASS (wb_contents_dialog_parent_class)->dispose (object);
}

static void
add_keys (GtkWidgetClass *widget_class)
{
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, go_back_cb, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Delete, 0, remove_cb, NULL);
}

/* Before a field or the window takes them for itself: undo is of the job and not of a field, as in
 * the window beneath. */
static void
watch_keys (WbContentsDialog *self)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();
  static const struct
  {
    const char      *keys;
    GtkShortcutFunc  func;
    int              step;
  } keys[] = {
    { "<Control>z", undo_cb, -1 }, { "<Control><Shift>z", undo_cb, 1 },
    { "<Control>y", undo_cb, 1 },
    { "<Control>Up", step_cb, -1 }, { "<Control>Down", step_cb, 1 },
  };

  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      GtkShortcut *shortcut =
        gtk_shortcut_new (gtk_shortcut_trigger_parse_string (keys[i].keys),
                          gtk_callback_action_new (keys[i].func, NULL, NULL));

      gtk_shortcut_set_arguments (shortcut, g_variant_new_int32 (keys[i].step));
      gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller), shortcut);
    }
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

static void
wb_contents_dialog_class_init (WbContentsDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_contents_dialog_dispose;

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/inventory/wb-contents-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, WbContentsDialog, title);
  gtk_widget_class_bind_template_child (widget_class, WbContentsDialog, stack);
  gtk_widget_class_bind_template_child (widget_class, WbContentsDialog, view);
  gtk_widget_class_bind_template_child (widget_class, WbContentsDialog, total);
  gtk_widget_class_bind_template_child (widget_class, WbContentsDialog, heading);
  gtk_widget_class_bind_template_child (widget_class, WbContentsDialog, enter);
  gtk_widget_class_bind_template_child (widget_class, WbContentsDialog, fields);
  gtk_widget_class_bind_template_child (widget_class, WbContentsDialog, fault);
  gtk_widget_class_bind_template_callback (widget_class, take_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  add_keys (widget_class);
}

static void
wb_contents_dialog_init (WbContentsDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (GTK_WIDGET (self->fields), wb_flow_layout_new (6, 6));
  for (int i = 0; i < WB_THING_N_PARTS; i++)
    add_field (self, (WbThingPart) i);
  watch_keys (self);
}

WbContentsDialog *
wb_contents_dialog_new (GtkWindow  *parent,
                        WbJobModel *model,
                        const char *piece)
{
  WbContentsDialog *self;

  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);
  g_return_val_if_fail (piece != NULL, NULL);

  self = g_object_new (WB_TYPE_CONTENTS_DIALOG, "transient-for", parent, NULL);
  self->model = g_object_ref (model);
  self->piece = g_strdup (piece);
  self->things = wb_contents_list_set_up (self->view, model, piece);
  g_signal_connect_object (model, "notify::job", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  update (self);
  focus_field (self, WB_THING_QUANTITY);
  return self;
}
