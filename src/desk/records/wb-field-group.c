/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads its list of fields from the front, a row a step. What a row does is the row's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/records/wb-field-group.h"

#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-later.h"

#include <string.h>

struct _WbFieldGroup
{
  AdwPreferencesGroup  parent_instance;

  WbJobModel          *model;
  char               **fields;
  guint                n_made;
};

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_FIELDS,
  N_PROPS
};

enum
{
  ROW_MADE,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

static void later_init (WbLaterInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (WbFieldGroup, wb_field_group, ADW_TYPE_PREFERENCES_GROUP,
                               G_IMPLEMENT_INTERFACE (WB_TYPE_LATER, later_init))

/* @name: "order.number" */
static gboolean
find_kind (const char *name,
           gsize       length,
           WbKind     *kind)
{
  for (guint i = 0; i < WB_N_KINDS; i++)
    {
      const char *type = wb_record_type ((WbKind) i)->name;

      if (strlen (type) == length && strncmp (type, name, length) == 0)
        {
          *kind = (WbKind) i;
          return TRUE;
        }
    }
  return FALSE;
}

/* Returns: (nullable) */
static GtkWidget *
make_row (WbFieldGroup *self,
          const char   *name)
{
  const char *point = strchr (name, '.');
  GType class_type = point == NULL ? g_type_from_name (name) : G_TYPE_INVALID;
  WbKind kind;

  if (point != NULL && find_kind (name, (gsize) (point - name), &kind))
    return wb_field_widget_new (self->model, kind, NULL, point + 1);
  if (g_type_is_a (class_type, GTK_TYPE_LIST_BOX_ROW))
    return g_object_new (class_type, "model", self->model, NULL);

  g_critical ("There is no field and no row %s", name);
  return NULL;
}

static gboolean
has_more (WbFieldGroup *self)
{
  return self->fields != NULL && self->fields[self->n_made] != NULL;
}

static gboolean
make_more (WbLater *later)
{
  WbFieldGroup *self = WB_FIELD_GROUP (later);
  const char *name;
  GtkWidget *row;

  if (!has_more (self))
    return FALSE;

  name = self->fields[self->n_made++];
  row = make_row (self, name);
  if (row != NULL)
    {
      adw_preferences_group_add (ADW_PREFERENCES_GROUP (self), row);
      g_signal_emit (self, signals[ROW_MADE], 0, row, name);
    }
  return has_more (self);
}

static void
later_init (WbLaterInterface *iface)
{
  iface->make_more = make_more;
}

static void
wb_field_group_get_property (GObject    *object,
                             guint       prop_id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  WbFieldGroup *self = WB_FIELD_GROUP (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    case PROP_FIELDS:
      g_value_take_string (value, self->fields != NULL ? g_strjoinv (" ", self->fields) : NULL);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_field_group_set_property (GObject      *object,
                             guint         prop_id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  WbFieldGroup *self = WB_FIELD_GROUP (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_set_object (&self->model, g_value_get_object (value));
      break;
    case PROP_FIELDS:
      g_return_if_fail (self->n_made == 0);
      g_strfreev (self->fields);
      self->fields = g_strsplit (g_value_get_string (value), " ", -1);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_field_group_finalize (GObject *object)
{
  WbFieldGroup *self = WB_FIELD_GROUP (object);

  g_clear_object (&self->model);
  g_clear_pointer (&self->fields, g_strfreev);

  G_OBJECT_CLASS (wb_field_group_parent_class)->finalize (object);
}

static void
wb_field_group_class_init (WbFieldGroupClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = wb_field_group_get_property;
  object_class->set_property = wb_field_group_set_property;
  object_class->finalize = wb_field_group_finalize;

  properties[PROP_MODEL] = g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL, flags);
  properties[PROP_FIELDS] = g_param_spec_string ("fields", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[ROW_MADE] = g_signal_new ("row-made", WB_TYPE_FIELD_GROUP, G_SIGNAL_RUN_LAST,
                                    0, NULL, NULL, NULL, G_TYPE_NONE, 2, GTK_TYPE_WIDGET,
                                    G_TYPE_STRING);
}

static void
wb_field_group_init (WbFieldGroup *self)
{
}
