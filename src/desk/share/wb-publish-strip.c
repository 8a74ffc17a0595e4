/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A WbStandingRow for each server, and a WbTransferRow for each entry of the queue that is about this
 * job. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-publish-strip.h"

#include "desk/job/wb-job-page.h"
#include "desk/share/wb-desk-queue.h"
#include "desk/share/wb-standing-row.h"
#include "desk/share/wb-transfer-row.h"
#include "office/wb-server-settings.h"

#include <glib/gi18n.h>

/* Whoever comes back to the window within this time is told what was known when they left. */
#define FRESH_US (30 * G_USEC_PER_SEC)

struct _WbPublishStrip
{
  GtkWidget     parent_instance;

  GtkWidget    *box;
  GtkWidget    *standings;
  GtkWidget    *transfers;

  WbJobModel   *model;
  WbOffice     *office;
  WbServerList *servers;
  WbQueue      *queue;
  GtkWindow    *window;      /* (weak) (nullable): that it is in */
  gint64        asked;       /* when, by the monotonic clock */
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbPublishStrip, wb_publish_strip, GTK_TYPE_WIDGET)

static const char *
get_job_id (WbPublishStrip *self)
{
  return wb_job_get_id (wb_job_model_get_job (self->model));
}

static const char *
get_title (WbPublishStrip *self)
{
  const char *number = wb_job_order (wb_job_model_get_job (self->model))->number;

  return number != NULL ? number : get_job_id (self);
}

static void
for_each_standing (WbPublishStrip *self,
                   void          (*each) (WbStandingRow *row))
{
  for (GtkWidget *row = gtk_widget_get_first_child (self->standings); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    each (WB_STANDING_ROW (row));
}

void
wb_publish_strip_ask (WbPublishStrip *self)
{
  g_return_if_fail (WB_IS_PUBLISH_STRIP (self));

  self->asked = g_get_monotonic_time ();
  for_each_standing (self, wb_standing_row_ask);
}

/* --- on its way ------------------------------------------------------------------------------- */

static void
empty (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

/* Returns: (transfer none) (nullable): the row that shows @item. */
static GtkWidget *
find_transfer (WbPublishStrip *self,
               WbQueueItem    *item)
{
  for (GtkWidget *row = gtk_widget_get_first_child (self->transfers); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if (wb_transfer_row_get_item (WB_TRANSFER_ROW (row)) == item)
      return row;
  return NULL;
}

static void
merge_cb (WbPublishStrip *self,
          WbTransferRow  *row)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "win.bring-from", "s",
                              wb_queue_item_get_entry (wb_transfer_row_get_item (row))->server_id);
}

static gboolean
is_of_job (WbPublishStrip *self,
           WbQueueItem    *item)
{
  return g_strcmp0 (wb_queue_item_get_entry (item)->job_id, get_job_id (self)) == 0;
}

static gboolean
is_on_its_way (WbPublishStrip *self,
               WbQueueItem    *item)
{
  return is_of_job (self, item) && wb_queue_item_get_entry (item)->state != WB_SHARE_DONE;
}

/* Returns: whether the job is on its way to or from @server_id. */
static gboolean
has_transfer (WbPublishStrip *self,
              const char     *server_id)
{
  for (GtkWidget *row = gtk_widget_get_first_child (self->transfers); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if (g_str_equal (wb_queue_item_get_entry (wb_transfer_row_get_item (WB_TRANSFER_ROW (row)))
                       ->server_id, server_id))
      return TRUE;
  return FALSE;
}

static void
quieten (WbPublishStrip *self)
{
  for (GtkWidget *row = gtk_widget_get_first_child (self->standings); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    wb_standing_row_set_quiet (WB_STANDING_ROW (row),
                               has_transfer (self,
                                             wb_standing_row_get_server (WB_STANDING_ROW (row))));
}

static gboolean
has_focus (WbPublishStrip *self,
           GtkWidget      *row)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && gtk_widget_is_ancestor (focus, row);
}

/* The keyboard was on a row that is to go: it comes to what is next to be done, or else to the page. */
static void
hand_focus_on (WbPublishStrip *self)
{
  GtkWidget *page = gtk_widget_get_ancestor (GTK_WIDGET (self), WB_TYPE_JOB_PAGE);

  if (!gtk_widget_child_focus (self->standings, GTK_DIR_TAB_FORWARD) && page != NULL)
    gtk_widget_grab_focus (page);
}

/* Takes rows away of what is done or cancelled. Returns: whether there were any. */
static gboolean
drop_finished (WbPublishStrip *self)
{
  gboolean dropped = FALSE;
  gboolean focused = FALSE;
  GtkWidget *next;

  for (GtkWidget *row = gtk_widget_get_first_child (self->transfers); row != NULL; row = next)
    {
      WbQueueItem *item = wb_transfer_row_get_item (WB_TRANSFER_ROW (row));
      gboolean there = FALSE;

      next = gtk_widget_get_next_sibling (row);
      for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->queue)) && !there; i++)
        {
          g_autoptr (WbQueueItem) other = g_list_model_get_item (G_LIST_MODEL (self->queue), i);

          there = other == item;
        }
      if (there && is_on_its_way (self, item))
        continue;
      if (has_focus (self, row))
        focused = TRUE;
      gtk_box_remove (GTK_BOX (self->transfers), row);
      dropped = TRUE;
    }
  quieten (self);
  if (focused)
    hand_focus_on (self);
  return dropped;
}

static void
show_transfers (WbPublishStrip *self)
{
  gboolean dropped = drop_finished (self);

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->queue)); i++)
    {
      g_autoptr (WbQueueItem) item = g_list_model_get_item (G_LIST_MODEL (self->queue), i);
      GtkWidget *row;

      if (!is_on_its_way (self, item) || find_transfer (self, item) != NULL)
        continue;
      row = wb_transfer_row_new (self->office, item);
      g_signal_connect_object (row, "merge", G_CALLBACK (merge_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (GTK_BOX (self->transfers), row);
    }
  quieten (self);
  if (dropped)
    wb_publish_strip_ask (self);
}

/* --- servers ---------------------------------------------------------------------------------- */

static void
show_servers (WbPublishStrip *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->servers));

  empty (self->standings);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (WbServerItem) item = g_list_model_get_item (G_LIST_MODEL (self->servers), i);

      gtk_box_append (GTK_BOX (self->standings),
                      wb_standing_row_new (self->office, wb_server_item_get_server (item),
                                           get_job_id (self), get_title (self)));
    }
  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
  quieten (self);
  if (n > 0 && gtk_widget_get_root (GTK_WIDGET (self)) != NULL)
    wb_publish_strip_ask (self);
}

static void
job_saved_cb (WbPublishStrip *self,
              const char     *job_id)
{
  if (g_strcmp0 (job_id, get_job_id (self)) == 0)
    for_each_standing (self, wb_standing_row_job_stored);
}

static void
set_model (WbPublishStrip *self,
           WbJobModel     *model)
{
  if (model == NULL || self->model != NULL)
    return;
  self->model = g_object_ref (model);
  self->office = g_object_ref (wb_job_model_get_office (model));
  self->queue = g_object_ref (wb_desk_queue_get (self->office));
  self->servers = wb_server_list_new (self->office);
  g_signal_connect_object (self->office, "job-saved", G_CALLBACK (job_saved_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->servers, "items-changed", G_CALLBACK (show_servers), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->queue, "items-changed", G_CALLBACK (show_transfers), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->queue, "notify", G_CALLBACK (show_transfers), self,
                           G_CONNECT_SWAPPED);
  show_servers (self);
  show_transfers (self);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
active_cb (WbPublishStrip *self)
{
  if (self->window != NULL && gtk_window_is_active (self->window) &&
      gtk_widget_get_mapped (GTK_WIDGET (self)) &&
      g_get_monotonic_time () - self->asked > FRESH_US)
    wb_publish_strip_ask (self);
}

static void
wb_publish_strip_root (GtkWidget *widget)
{
  WbPublishStrip *self = WB_PUBLISH_STRIP (widget);
  GtkRoot *root;

  GTK_WIDGET_CLASS (wb_publish_strip_parent_class)->root (widget);

  root = gtk_widget_get_root (widget);
  if (GTK_IS_WINDOW (root))
    {
      g_set_weak_pointer (&self->window, GTK_WINDOW (root));
      g_signal_connect_object (root, "notify::is-active", G_CALLBACK (active_cb), self,
                               G_CONNECT_SWAPPED);
    }
  if (gtk_widget_get_visible (widget))
    wb_publish_strip_ask (self);
}

static void
forget_window (WbPublishStrip *self)
{
  if (self->window != NULL)
    g_signal_handlers_disconnect_by_data (self->window, self);
  g_clear_weak_pointer (&self->window);
}

static void
wb_publish_strip_unroot (GtkWidget *widget)
{
  forget_window (WB_PUBLISH_STRIP (widget));

  GTK_WIDGET_CLASS (wb_publish_strip_parent_class)->unroot (widget);
}

static void
wb_publish_strip_get_property (GObject    *object,
                               guint       prop_id,
                               GValue     *value,
                               GParamSpec *pspec)
{
  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, WB_PUBLISH_STRIP (object)->model);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_publish_strip_set_property (GObject      *object,
                               guint         prop_id,
                               const GValue *value,
                               GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (WB_PUBLISH_STRIP (object), g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_publish_strip_dispose (GObject *object)
{
  WbPublishStrip *self = WB_PUBLISH_STRIP (object);

  forget_window (self);
  if (self->office != NULL)
    g_signal_handlers_disconnect_by_data (self->office, self);
  if (self->queue != NULL)
    g_signal_handlers_disconnect_by_data (self->queue, self);
  if (self->servers != NULL)
    g_signal_handlers_disconnect_by_data (self->servers, self);
  g_clear_object (&self->servers);
  g_clear_object (&self->queue);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_PUBLISH_STRIP);
  g_clear_object (&self->office);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_publish_strip_parent_class)->dispose (object);
}

static void
wb_publish_strip_class_init (WbPublishStripClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_publish_strip_get_property;
  object_class->set_property = wb_publish_strip_set_property;
  object_class->dispose = wb_publish_strip_dispose;
  widget_class->root = wb_publish_strip_root;
  widget_class->unroot = wb_publish_strip_unroot;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/wb-publish-strip.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPublishStrip, box);
  gtk_widget_class_bind_template_child (widget_class, WbPublishStrip, standings);
  gtk_widget_class_bind_template_child (widget_class, WbPublishStrip, transfers);
}

static void
wb_publish_strip_init (WbPublishStrip *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
