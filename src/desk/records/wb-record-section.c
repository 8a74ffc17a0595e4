/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of records of one kind, as rows that open. The rows follow the model's list. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/records/wb-record-section.h"

#include "desk/records/wb-record-draft.h"
#include "desk/records/wb-record-row.h"
#include "desk/widgets/wb-later.h"
#include "desk/widgets/wb-scroll-to.h"

struct _WbRecordSection
{
  AdwPreferencesGroup  parent_instance;

  GtkWidget           *add_button;
  GtkListBox          *list;

  WbJobModel          *model;
  char                *type_name;
  char                *add_label;
  char                *empty_label;
  gboolean             later;        /* the rows are not made yet */
};

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_RECORD_TYPE,
  PROP_ADD_LABEL,
  PROP_EMPTY_LABEL,
  PROP_LATER,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

static void later_init (WbLaterInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (WbRecordSection, wb_record_section, ADW_TYPE_PREFERENCES_GROUP,
                               G_IMPLEMENT_INTERFACE (WB_TYPE_LATER, later_init))

static gboolean
get_kind (WbRecordSection *self,
          WbKind          *kind)
{
  for (guint i = 0; i < WB_N_KINDS; i++)
    {
      if (g_strcmp0 (wb_record_type ((WbKind) i)->name, self->type_name) == 0)
        {
          *kind = (WbKind) i;
          return TRUE;
        }
    }

  return FALSE;
}

static GtkWidget *
make_row (gpointer item,
          gpointer data)
{
  return wb_record_row_new (WB_RECORD_SECTION (data)->model, item);
}

static void
bind_list (WbRecordSection *self)
{
  WbKind kind;

  if (self->model != NULL && !self->later && get_kind (self, &kind))
    gtk_list_box_bind_model (self->list, wb_job_model_get_records (self->model, kind),
                             make_row, self, NULL);
  else
    gtk_list_box_bind_model (self->list, NULL, NULL, NULL, NULL);
}

static gboolean
make_more (WbLater *later)
{
  WbRecordSection *self = WB_RECORD_SECTION (later);

  self->later = FALSE;
  bind_list (self);
  return FALSE;
}

static void
later_init (WbLaterInterface *iface)
{
  iface->make_more = make_more;
}

static WbRecordRow *
find_row (WbRecordSection *self,
          const char      *id)
{
  for (int i = 0;; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, i);
      const WbRecord *record;

      if (row == NULL)
        return NULL;

      record = wb_record_item_get_record (wb_record_row_get_item (WB_RECORD_ROW (row)));
      if (g_str_equal (record->id, id))
        return WB_RECORD_ROW (row);
    }
}

static void
add_action (GtkWidget  *widget,
            const char *name,
            GVariant   *target)
{
  wb_record_section_add (WB_RECORD_SECTION (widget));
}

static void
show_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbRecordRow *row = find_row (WB_RECORD_SECTION (widget), g_variant_get_string (target, NULL));

  if (row != NULL)
    {
      gtk_widget_child_focus (GTK_WIDGET (row), GTK_DIR_TAB_FORWARD);
      wb_scroll_to (GTK_WIDGET (row));
    }
}

static void
wb_record_section_get_property (GObject    *object,
                                guint       prop_id,
                                GValue     *value,
                                GParamSpec *pspec)
{
  WbRecordSection *self = WB_RECORD_SECTION (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    case PROP_RECORD_TYPE:
      g_value_set_string (value, self->type_name);
      break;
    case PROP_ADD_LABEL:
      g_value_set_string (value, self->add_label);
      break;
    case PROP_EMPTY_LABEL:
      g_value_set_string (value, self->empty_label);
      break;
    case PROP_LATER:
      g_value_set_boolean (value, self->later);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_record_section_set_property (GObject      *object,
                                guint         prop_id,
                                const GValue *value,
                                GParamSpec   *pspec)
{
  WbRecordSection *self = WB_RECORD_SECTION (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_set_object (&self->model, g_value_get_object (value));
      bind_list (self);
      break;
    case PROP_RECORD_TYPE:
      g_free (self->type_name);
      self->type_name = g_value_dup_string (value);
      bind_list (self);
      break;
    case PROP_ADD_LABEL:
      g_free (self->add_label);
      self->add_label = g_value_dup_string (value);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->add_button),
                                      GTK_ACCESSIBLE_PROPERTY_LABEL, self->add_label, -1);
      break;
    case PROP_EMPTY_LABEL:
      g_free (self->empty_label);
      self->empty_label = g_value_dup_string (value);
      break;
    case PROP_LATER:
      self->later = g_value_get_boolean (value);
      bind_list (self);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_record_section_dispose (GObject *object)
{
  WbRecordSection *self = WB_RECORD_SECTION (object);

  if (self->list != NULL)
    gtk_list_box_bind_model (self->list, NULL, NULL, NULL, NULL);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_RECORD_SECTION);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_record_section_parent_class)->dispose (object);
}

static void
wb_record_section_finalize (GObject *object)
{
  WbRecordSection *self = WB_RECORD_SECTION (object);

  g_clear_pointer (&self->type_name, g_free);
  g_clear_pointer (&self->add_label, g_free);
  g_clear_pointer (&self->empty_label, g_free);

  G_OBJECT_CLASS (wb_record_section_parent_class)->finalize (object);
}

static void
wb_record_section_class_init (WbRecordSectionClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = wb_record_section_get_property;
  object_class->set_property = wb_record_section_set_property;
  object_class->dispose = wb_record_section_dispose;
  object_class->finalize = wb_record_section_finalize;

  properties[PROP_MODEL] = g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL, flags);
  properties[PROP_RECORD_TYPE] = g_param_spec_string ("record-type", NULL, NULL, NULL, flags);
  properties[PROP_ADD_LABEL] = g_param_spec_string ("add-label", NULL, NULL, NULL, flags);
  properties[PROP_EMPTY_LABEL] = g_param_spec_string ("empty-label", NULL, NULL, NULL, flags);
  properties[PROP_LATER] = g_param_spec_boolean ("later", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/records/wb-record-section.ui");
  gtk_widget_class_bind_template_child (widget_class, WbRecordSection, add_button);
  gtk_widget_class_bind_template_child (widget_class, WbRecordSection, list);

  gtk_widget_class_install_action (widget_class, "section.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "section.show", "s", show_action);
}

static void
wb_record_section_init (WbRecordSection *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* The time of day of the computer, as a contact notes it. */
static char *
time_of_day (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return g_date_time_format (now, "%H:%M");
}

void
wb_record_section_add (WbRecordSection *self)
{
  g_autofree char *id = wb_office_new_id ();
  g_autofree char *at = time_of_day ();
  g_autoptr (WbJob) job = NULL;
  GDate today;
  WbKind kind;

  g_return_if_fail (WB_IS_RECORD_SECTION (self));

  if (self->model == NULL || !get_kind (self, &kind))
    return;

  wb_office_today (&today);
  job = wb_record_draft_add (wb_job_model_get_job (self->model), kind, id, &today, at);
  wb_job_model_apply (self->model, job, self->add_label);
  wb_record_row_start_editing (find_row (self, id));
}

gboolean
wb_record_section_reveal (WbRecordSection *self,
                          const char      *id,
                          const char      *field)
{
  WbRecordRow *row;

  g_return_val_if_fail (WB_IS_RECORD_SECTION (self), FALSE);

  if (id == NULL)
    {
      gtk_widget_grab_focus (self->add_button);
      wb_scroll_to (self->add_button);
      return TRUE;
    }

  row = find_row (self, id);
  if (row == NULL)
    return FALSE;

  wb_record_row_reveal (row, field);
  return TRUE;
}
