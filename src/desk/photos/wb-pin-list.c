/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One group of rows a pin. The rows change the job through its model, so that undo and the
 * marks' own check work here as they do everywhere. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-pin-list.h"

#include "desk/photos/wb-photo-deeds.h"
#include "desk/widgets/wb-typed-row.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-focus-within.h"

#include <glib/gi18n.h>

struct _WbPinList
{
  GtkWidget   parent_instance;

  GtkWidget  *box;
  GtkLabel   *empty;
  WbJobModel *model;
  char       *photo;
  GPtrArray  *groups;    /* of Group */
};

/** What belongs to one pin. */
typedef struct
{
  WbPinList  *list;
  char       *pin;
  GtkWidget  *group;     /* AdwPreferencesGroup */
  GtkWidget  *marks;     /* WbFieldRow */
  WbTypedRow *piece;
} Group;

enum
{
  CHOSEN,
  DONE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbPinList, wb_pin_list, GTK_TYPE_WIDGET)

/* --- one pin ---------------------------------------------------------------------------------- */

static gboolean
set_piece (const char  *text,
           gpointer     data,
           GError     **error)
{
  Group *group = data;
  WbJobModel *model = group->list->model;
  g_autoptr (WbJob) job = wb_photos_set_pin_piece (wb_job_model_get_job (model), group->pin, text,
                                                   error);

  if (job == NULL)
    return FALSE;
  wb_job_model_apply (model, job, _("Set piece of pin"));
  return TRUE;
}

static void
remove_cb (Group *group)
{
  WbJobModel *model = group->list->model;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_job_without (wb_job_model_get_job (model), WB_KIND_PIN, group->pin,
                                          &error);
  WbPinList *list = group->list;

  if (job == NULL)
    return;
  wb_job_model_apply (model, job, _("Remove pin"));
  gtk_widget_activate_action (GTK_WIDGET (list), "job.tell", "s", _("Pin removed"));
  g_signal_emit (list, signals[DONE], 0);
}

static void
focus_cb (GtkEventControllerFocus *controller,
          GParamSpec              *pspec,
          Group                   *group)
{
  if (gtk_event_controller_focus_contains_focus (controller))
    g_signal_emit (group->list, signals[CHOSEN], 0, group->pin);
}

static void
activated_cb (Group *group)
{
  gboolean invalid;

  g_object_get (group->marks, "invalid", &invalid, NULL);
  if (!invalid)
    g_signal_emit (group->list, signals[DONE], 0);
}

static void
group_free (gpointer data)
{
  Group *group = data;

  g_signal_handlers_disconnect_by_data (group->marks, group);
  gtk_box_remove (GTK_BOX (group->list->box), group->group);
  g_free (group->pin);
  g_free (group);
}

static Group *
group_new (WbPinList  *self,
           const char *pin)
{
  Group *group = g_new0 (Group, 1);
  GtkWidget *remove = gtk_button_new_from_icon_name ("user-trash-symbolic");
  GtkEventController *focus = gtk_event_controller_focus_new ();

  group->list = self;
  group->pin = g_strdup (pin);
  group->group = adw_preferences_group_new ();
  group->marks = wb_field_widget_new (self->model, WB_KIND_PIN, pin, "marks");
  group->piece = WB_TYPED_ROW (wb_typed_row_new (_("Tag of another piece"), set_piece, group));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group->group), group->marks);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group->group), GTK_WIDGET (group->piece));

  gtk_widget_add_css_class (remove, "flat");
  gtk_widget_set_tooltip_text (remove, _("Remove this pin"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Remove this pin"), -1);
  g_signal_connect_swapped (remove, "clicked", G_CALLBACK (remove_cb), group);
  adw_preferences_group_set_header_suffix (ADW_PREFERENCES_GROUP (group->group), remove);

  g_signal_connect (focus, "notify::contains-focus", G_CALLBACK (focus_cb), group);
  gtk_widget_add_controller (group->group, focus);
  g_signal_connect_data (group->marks, "entry-activated", G_CALLBACK (activated_cb), group, NULL,
                         G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  gtk_box_append (GTK_BOX (self->box), group->group);
  return group;
}

static void
group_show (Group *group,
            WbJob *job,
            guint  number)
{
  const WbPin *pin = wb_job_find (job, WB_KIND_PIN, group->pin);
  g_autofree char *title = g_strdup_printf (_("Pin %u"), number);
  g_autofree char *tag = wb_photos_tag_text (job, pin->piece);

  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group->group), title);
  wb_typed_row_show (group->piece, tag);
}

/* --- all of them ------------------------------------------------------------------------------ */

static GPtrArray *
find_pins (WbPinList *self)
{
  WbJob *job = wb_job_model_get_job (self->model);
  GPtrArray *pins = g_ptr_array_new ();

  for (guint i = 0; self->photo != NULL && i < wb_job_count (job, WB_KIND_PIN); i++)
    {
      const WbPin *pin = wb_job_nth (job, WB_KIND_PIN, i);

      if (g_strcmp0 (pin->photo, self->photo) == 0)
        g_ptr_array_add (pins, pin->record.id);
    }
  return pins;
}

static gboolean
shows_same (WbPinList *self,
            GPtrArray *pins)
{
  if (pins->len != self->groups->len)
    return FALSE;
  for (guint i = 0; i < pins->len; i++)
    if (g_strcmp0 (((Group *) g_ptr_array_index (self->groups, i))->pin,
                   g_ptr_array_index (pins, i)) != 0)
      return FALSE;
  return TRUE;
}

void
wb_pin_list_show (WbPinList  *self,
                  const char *photo)
{
  g_autofree char *held = g_strdup (photo);
  g_autoptr (GPtrArray) pins = NULL;

  g_free (self->photo);
  self->photo = g_steal_pointer (&held);
  pins = find_pins (self);
  if (!shows_same (self, pins))
    {
      g_ptr_array_set_size (self->groups, 0);
      for (guint i = 0; i < pins->len; i++)
        g_ptr_array_add (self->groups, group_new (self, g_ptr_array_index (pins, i)));
    }
  for (guint i = 0; i < self->groups->len; i++)
    group_show (g_ptr_array_index (self->groups, i), wb_job_model_get_job (self->model), i + 1);
  gtk_widget_set_visible (GTK_WIDGET (self->empty), pins->len == 0);
}

void
wb_pin_list_focus (WbPinList  *self,
                   const char *pin)
{
  for (guint i = 0; i < self->groups->len; i++)
    {
      Group *group = g_ptr_array_index (self->groups, i);

      if (g_strcmp0 (group->pin, pin) == 0)
        gtk_widget_grab_focus (group->marks);
    }
}

/* --- making ----------------------------------------------------------------------------------- */

static void
wb_pin_list_dispose (GObject *object)
{
  WbPinList *self = WB_PIN_LIST (object);

  if (self->groups != NULL)
    g_ptr_array_set_size (self->groups, 0);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_pin_list_parent_class)->dispose (object);
}

static void
wb_pin_list_finalize (GObject *object)
{
  WbPinList *self = WB_PIN_LIST (object);

  g_ptr_array_unref (self->groups);
  g_free (self->photo);

  G_OBJECT_CLASS (wb_pin_list_parent_class)->finalize (object);
}

static void
wb_pin_list_class_init (WbPinListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_pin_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_pin_list_finalize;
  widget_class->focus = wb_focus_within;

  signals[CHOSEN] = g_signal_new ("chosen", WB_TYPE_PIN_LIST, G_SIGNAL_RUN_LAST, 0,
                                  NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[DONE] = g_signal_new ("done", WB_TYPE_PIN_LIST, G_SIGNAL_RUN_LAST, 0,
                                NULL, NULL, NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
wb_pin_list_init (WbPinList *self)
{
  self->groups = g_ptr_array_new_with_free_func (group_free);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->empty = GTK_LABEL (gtk_label_new (_("No pins yet. Click at a mark on the picture, or move "
                                            "the cross there with the arrow keys and press "
                                            "Enter.")));
  gtk_label_set_wrap (self->empty, TRUE);
  gtk_label_set_xalign (self->empty, 0);
  gtk_widget_add_css_class (GTK_WIDGET (self->empty), "dim-label");
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->empty));
}

GtkWidget *
wb_pin_list_new (WbJobModel *model)
{
  WbPinList *self = g_object_new (WB_TYPE_PIN_LIST, NULL);

  self->model = g_object_ref (model);
  return GTK_WIDGET (self);
}
