/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks the office now and then what is due and shows it. The dates are reckoned in core. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/jobs/wb-storage-banner.h"

#include <glib/gi18n.h>

#include "office/wb-storage-due.h"
#include "office/wb-words-trail.h"

/* More than these are told of by their number only. */
#define MOST_SHOWN 3

/* A sentence may be wider where there is room; the list of jobs is not made wide for it. */
#define WIDE_CHARS 24

/* A job is stored every few seconds while somebody types. */
#define REFRESH_DELAY_S 2

/* Days go by while a window stays open. */
#define REFRESH_EVERY_S 1800

struct _WbStorageBanner
{
  GtkWidget     parent_instance;

  GtkWidget    *box;

  WbOffice     *office;
  GCancellable *cancellable;   /* of the list that is being made */
  guint         timer;
  guint         every;
};

enum
{
  PROP_0,
  PROP_OFFICE,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbStorageBanner, wb_storage_banner, GTK_TYPE_WIDGET)

/* --- what is shown ---------------------------------------------------------------------------- */

static GtkWidget *
make_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), WIDE_CHARS);
  gtk_widget_add_css_class (label, "caption");
  return label;
}

static GtkWidget *
make_button (const WbStorageDue *due)
{
  const char *number = due->job_number != NULL ? due->job_number : _("A job");
  g_autofree char *what = wb_words_storage_due (&due->watch);
  /* Translators: a job number; what is due. */
  g_autofree char *text = g_strdup_printf (_("%s: %s"), number, what);
  g_autofree char *tip = wb_words_storage (&due->watch);
  GtkWidget *button = gtk_button_new ();

  gtk_button_set_child (GTK_BUTTON (button), make_label (text));
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, tip);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "jobs.open");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", due->job_id);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, text,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, tip, -1);
  return button;
}

static void
clear_box (WbStorageBanner *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->box)) != NULL)
    gtk_box_remove (GTK_BOX (self->box), child);
}

static void
show_due (WbStorageBanner *self,
          GPtrArray       *due)
{
  clear_box (self);
  for (guint i = 0; i < MIN (due->len, MOST_SHOWN); i++)
    gtk_box_append (GTK_BOX (self->box), make_button (g_ptr_array_index (due, i)));
  if (due->len > MOST_SHOWN)
    {
      guint more = due->len - MOST_SHOWN;
      g_autofree char *text = g_strdup_printf (ngettext ("Storage of %u more job is due",
                                                         "Storage of %u more jobs is due", more),
                                               more);

      gtk_box_append (GTK_BOX (self->box), make_label (text));
    }
  gtk_widget_set_visible (GTK_WIDGET (self), due->len > 0);
}

static void
listed_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (WbStorageBanner) self = WB_STORAGE_BANNER (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) due = wb_office_list_storage_due_finish (WB_OFFICE (object), result,
                                                                 &error);

  /* A book that cannot be read is told of by the list of jobs beside it. */
  if (due != NULL && self->office == WB_OFFICE (object) && self->box != NULL)
    show_due (self, due);
}

static void
ask (WbStorageBanner *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  if (self->office == NULL)
    return;

  self->cancellable = g_cancellable_new ();
  wb_office_list_storage_due_async (self->office, self->cancellable, listed_cb,
                                    g_object_ref (self));
}

static gboolean
refresh_cb (gpointer data)
{
  WbStorageBanner *self = WB_STORAGE_BANNER (data);

  self->timer = 0;
  ask (self);
  return G_SOURCE_REMOVE;
}

static gboolean
every_cb (gpointer data)
{
  ask (WB_STORAGE_BANNER (data));
  return G_SOURCE_CONTINUE;
}

void
wb_storage_banner_refresh (WbStorageBanner *self)
{
  g_return_if_fail (WB_IS_STORAGE_BANNER (self));

  if (self->timer == 0)
    self->timer = g_timeout_add_seconds (REFRESH_DELAY_S, refresh_cb, self);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_storage_banner_get_property (GObject    *object,
                                guint       prop_id,
                                GValue     *value,
                                GParamSpec *pspec)
{
  WbStorageBanner *self = WB_STORAGE_BANNER (object);

  switch (prop_id)
    {
    case PROP_OFFICE:
      g_value_set_object (value, self->office);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_storage_banner_set_property (GObject      *object,
                                guint         prop_id,
                                const GValue *value,
                                GParamSpec   *pspec)
{
  WbStorageBanner *self = WB_STORAGE_BANNER (object);

  switch (prop_id)
    {
    case PROP_OFFICE:
      if (g_set_object (&self->office, g_value_get_object (value)))
        {
          clear_box (self);
          gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
          ask (self);
        }
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_storage_banner_dispose (GObject *object)
{
  WbStorageBanner *self = WB_STORAGE_BANNER (object);

  g_clear_handle_id (&self->timer, g_source_remove);
  g_clear_handle_id (&self->every, g_source_remove);
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->office);
  g_clear_pointer (&self->box, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_storage_banner_parent_class)->dispose (object);
}

static void
wb_storage_banner_class_init (WbStorageBannerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_storage_banner_get_property;
  object_class->set_property = wb_storage_banner_set_property;
  object_class->dispose = wb_storage_banner_dispose;

  properties[PROP_OFFICE] = g_param_spec_object ("office", NULL, NULL, WB_TYPE_OFFICE,
                                                 G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
wb_storage_banner_init (WbStorageBanner *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_add_css_class (self->box, "wb-storage-due");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Storage in transit that is due"), -1);
  self->every = g_timeout_add_seconds (REFRESH_EVERY_S, every_cb, self);
}
