/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks one server for its list and searches in it here; the deeds on a job are those of
 * wb-share-deeds.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-published-window.h"

#include "desk/share/wb-published-item.h"
#include "desk/share/wb-published-look.h"
#include "desk/share/wb-share-deeds.h"
#include "desk/share/wb-share-mend.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-one-stop.h"
#include "desk/widgets/wb-row-name.h"
#include "office/wb-server-settings.h"
#include "office/wb-words-share.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbPublishedWindow
{
  AdwWindow           parent_instance;

  AdwWindowTitle     *title;
  GtkSearchEntry     *search;
  GtkDropDown        *servers;
  GtkStack           *stack;
  AdwStatusPage      *none;
  AdwStatusPage      *fault;
  GtkButton          *mend;
  GtkListView        *view;

  WbWindow           *main;         /* (weak) (nullable) */
  WbOffice           *office;
  WbServerList       *list;
  GListStore         *jobs;         /* of WbPublishedItem */
  GtkFilterListModel *found;
  GtkSingleSelection *selection;
  GtkCustomFilter    *filter;
  char               *query;
  char               *server_id;    /* (nullable): whose jobs are listed */
  GError             *error;        /* (nullable): why they are not */
  GCancellable       *cancellable;  /* (nullable): of the question that is under way */
};

G_DEFINE_FINAL_TYPE (WbPublishedWindow, wb_published_window, ADW_TYPE_WINDOW)

/* --- what is shown ---------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable) */
static WbPublishedItem *
get_chosen (WbPublishedWindow *self)
{
  WbPublishedItem *item = gtk_single_selection_get_selected_item (self->selection);

  return item != NULL ? g_object_ref (item) : NULL;
}

static void
enable_actions (WbPublishedWindow *self)
{
  g_autoptr (WbPublishedItem) item = get_chosen (self);
  gboolean good = item != NULL && wb_published_item_get_job (item)->fault == NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "published.look", good);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "published.fetch", good && self->main != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "published.verify", item != NULL);
}

static void
show_none (WbPublishedWindow *self)
{
  gboolean searched = g_list_model_get_n_items (G_LIST_MODEL (self->jobs)) > 0;

  adw_status_page_set_title (self->none, searched ? _("Nothing Found")
                                                  : _("Nothing Is Published There"));
  adw_status_page_set_description (
    self->none, searched ? _("No published job has all of these words. Fewer or shorter ones may "
                             "find more.")
                         : _("Open a job and press Ctrl+Shift+B to publish it."));
}

static void
show_list (WbPublishedWindow *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->found));
  guint n_all = g_list_model_get_n_items (G_LIST_MODEL (self->jobs));
  g_autofree char *count = n == n_all ? g_strdup_printf (ngettext ("%u job", "%u jobs", n), n)
                                      : g_strdup_printf (ngettext ("%u of %u job", "%u of %u jobs",
                                                                   n_all), n, n_all);

  if (self->error != NULL || self->cancellable != NULL)
    return;
  adw_window_title_set_subtitle (self->title, count);
  show_none (self);
  gtk_stack_set_visible_child_name (self->stack, n > 0 ? "list" : "none");
  enable_actions (self);
}

static void
show_fault (WbPublishedWindow *self)
{
  g_autofree char *words = wb_words_error (self->error);
  g_autofree char *markup = g_markup_escape_text (words, -1);

  adw_window_title_set_subtitle (self->title, "");
  adw_status_page_set_description (self->fault, markup);
  gtk_button_set_label (self->mend, wb_share_mend_label (wb_queue_fault_of_error (self->error)));
  gtk_stack_set_visible_child_name (self->stack, "fault");
  gtk_widget_grab_focus (GTK_WIDGET (self->mend));
}

/* --- asking ----------------------------------------------------------------------------------- */

/* @window: not held: one that is closed while a server is asked goes, and the question with it */
typedef struct
{
  GWeakRef      window;
  GCancellable *cancellable;
} Question;

static void
question_free (Question *self)
{
  g_weak_ref_clear (&self->window);
  g_clear_object (&self->cancellable);
  g_free (self);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Question, question_free)

static void
answered_cb (GObject      *object,
             GAsyncResult *result,
             gpointer      data)
{
  g_autoptr (Question) question = data;
  g_autoptr (WbPublishedWindow) self = g_weak_ref_get (&question->window);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_office_list_published_finish (WB_OFFICE (object), result,
                                                                &error);

  /* Another was asked meanwhile, or the window has gone. */
  if (self == NULL || self->office == NULL || self->cancellable != question->cancellable)
    return;
  g_clear_object (&self->cancellable);
  if (jobs == NULL)
    {
      self->error = g_steal_pointer (&error);
      show_fault (self);
      return;
    }
  for (guint i = 0; i < jobs->len; i++)
    {
      g_autoptr (WbPublishedItem) item =
        wb_published_item_new (g_steal_pointer (&g_ptr_array_index (jobs, i)));

      g_list_store_append (self->jobs, item);
    }
  show_list (self);
}

static void
ask (WbPublishedWindow *self)
{
  Question *question;

  if (self->server_id == NULL)
    return;
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_error (&self->error);
  g_list_store_remove_all (self->jobs);
  adw_window_title_set_subtitle (self->title, "");
  gtk_stack_set_visible_child_name (self->stack, "waiting");
  enable_actions (self);

  self->cancellable = g_cancellable_new ();
  question = g_new0 (Question, 1);
  g_weak_ref_init (&question->window, self);
  question->cancellable = g_object_ref (self->cancellable);
  wb_office_list_published_async (self->office, self->server_id, NULL, NULL, self->cancellable,
                                  answered_cb, question);
}

static void
ask_action (GtkWidget  *widget,
            const char *name,
            GVariant   *target)
{
  ask (WB_PUBLISHED_WINDOW (widget));
}

static void
mended_cb (GObject *caller)
{
  if (WB_PUBLISHED_WINDOW (caller)->office != NULL)
    ask (WB_PUBLISHED_WINDOW (caller));
}

static void
mend_cb (WbPublishedWindow *self)
{
  g_autofree char *host_key = self->error != NULL ? wb_server_host_key_of (self->error) : NULL;

  if (self->error != NULL)
    wb_share_mend (GTK_WINDOW (self), self->office, self->server_id,
                   wb_queue_fault_of_error (self->error), host_key, mended_cb, G_OBJECT (self));
}

/* --- servers ---------------------------------------------------------------------------------- */

static void
server_chosen_cb (WbPublishedWindow *self)
{
  g_autoptr (WbServerItem) item = NULL;

  if (self->list == NULL)
    return;
  item = g_list_model_get_item (G_LIST_MODEL (self->list),
                                gtk_drop_down_get_selected (self->servers));
  if (item == NULL || g_strcmp0 (wb_server_item_get_server (item)->id, self->server_id) == 0)
    return;
  g_free (self->server_id);
  self->server_id = g_strdup (wb_server_item_get_server (item)->id);
  ask (self);
}

static void
show_servers (WbPublishedWindow *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->list));
  guint chosen = 0;
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  if (!wb_server_list_get_loaded (self->list))
    return;
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (WbServerItem) item = g_list_model_get_item (G_LIST_MODEL (self->list), i);

      gtk_string_list_append (names, wb_server_item_get_server (item)->name);
      if (g_strcmp0 (wb_server_item_get_server (item)->id, self->server_id) == 0)
        chosen = i;
    }
  /* A new model chooses its first: that is nobody's choice. */
  g_signal_handlers_block_by_func (self->servers, server_chosen_cb, self);
  gtk_drop_down_set_model (self->servers, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->servers, n > 0 ? chosen : GTK_INVALID_LIST_POSITION);
  g_signal_handlers_unblock_by_func (self->servers, server_chosen_cb, self);
  gtk_widget_set_visible (GTK_WIDGET (self->servers), n > 1);
  if (n > 0)
    {
      server_chosen_cb (self);
      return;
    }
  adw_status_page_set_title (self->none, _("No File Server Yet"));
  adw_status_page_set_description (self->none, _("Press Ctrl+Shift+M in the window of the book and "
                                                 "add the file server of your office."));
  gtk_stack_set_visible_child_name (self->stack, "none");
}

/* --- searching -------------------------------------------------------------------------------- */

static gboolean
fits (gpointer item,
      gpointer data)
{
  return wb_published_job_fits (wb_published_item_get_job (item),
                                WB_PUBLISHED_WINDOW (data)->query);
}

static void
search_changed_cb (WbPublishedWindow *self)
{
  g_free (self->query);
  self->query = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->search)));
  gtk_filter_changed (GTK_FILTER (self->filter), GTK_FILTER_CHANGE_DIFFERENT);
  show_list (self);
}

static void
search_activated_cb (WbPublishedWindow *self)
{
  search_changed_cb (self);
  gtk_widget_activate_action (GTK_WIDGET (self), "published.look", NULL);
}

static void
search_stopped_cb (WbPublishedWindow *self)
{
  if (*gtk_editable_get_text (GTK_EDITABLE (self->search)) != '\0')
    gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  else
    gtk_window_close (GTK_WINDOW (self));
}

/* --- deeds on the chosen one ------------------------------------------------------------------ */

static void
look_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbPublishedWindow *self = WB_PUBLISHED_WINDOW (widget);
  g_autoptr (WbPublishedItem) item = get_chosen (self);

  if (item != NULL)
    wb_published_look_open (GTK_WINDOW (self), self->office, self->server_id, item);
}

static const char *
number_of (WbPublishedItem *item)
{
  const WbPublishedJob *job = wb_published_item_get_job (item);

  return job->number != NULL ? job->number : job->id;
}

static void
fetch_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbPublishedWindow *self = WB_PUBLISHED_WINDOW (widget);
  g_autoptr (WbPublishedItem) item = get_chosen (self);

  if (item != NULL && self->main != NULL)
    wb_share_bring (self->main, GTK_WINDOW (self), self->server_id,
                    wb_published_item_get_job (item)->id, number_of (item));
}

static void
verify_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbPublishedWindow *self = WB_PUBLISHED_WINDOW (widget);
  g_autoptr (WbPublishedItem) item = get_chosen (self);

  if (item != NULL)
    wb_share_verify (GTK_WINDOW (self), self->office, self->server_id,
                     wb_published_item_get_job (item)->id, number_of (item));
}

static void
activated_cb (WbPublishedWindow *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "published.look", NULL);
}

/* --- rows ------------------------------------------------------------------------------------- */

static GtkWidget *
add_line (GtkWidget  *box,
          const char *css_class)
{
  GtkWidget *line = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (line), 0);
  gtk_label_set_wrap (GTK_LABEL (line), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (line), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (line, css_class);
  gtk_box_append (GTK_BOX (box), line);
  return line;
}

static void
row_setup_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *list_item)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  gtk_widget_set_margin_top (box, 6);
  gtk_widget_set_margin_bottom (box, 6);
  gtk_widget_set_margin_start (box, 6);
  gtk_widget_set_margin_end (box, 6);
  add_line (box, "heading");
  add_line (box, "dim-label");
  gtk_list_item_set_child (list_item, box);
}

static void
row_bind_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *list_item)
{
  WbPublishedItem *item = gtk_list_item_get_item (list_item);
  GtkWidget *box = gtk_list_item_get_child (list_item);
  GtkWidget *first = gtk_widget_get_first_child (box);
  g_autofree char *title = wb_published_item_title (item);
  g_autofree char *words = wb_words_published_job (wb_published_item_get_job (item));
  g_autofree char *name = g_strdup_printf ("%s, %s", title, words);

  gtk_label_set_label (GTK_LABEL (first), title);
  gtk_label_set_label (GTK_LABEL (gtk_widget_get_next_sibling (first)), words);
  wb_row_name_set (box, name);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_published_window_dispose (GObject *object)
{
  WbPublishedWindow *self = WB_PUBLISHED_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  if (self->list != NULL)
    g_signal_handlers_disconnect_by_data (self->list, self);
  if (self->found != NULL)
    g_signal_handlers_disconnect_by_data (self->found, self);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  g_clear_object (&self->list);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_PUBLISHED_WINDOW);
  if (self->filter != NULL)
    gtk_custom_filter_set_filter_func (self->filter, NULL, NULL, NULL);
  g_clear_object (&self->selection);
  g_clear_object (&self->found);
  g_clear_object (&self->filter);
  g_clear_object (&self->jobs);
  g_clear_object (&self->office);
  g_clear_weak_pointer (&self->main);

  G_OBJECT_CLASS (wb_published_window_parent_class)->dispose (object);
}

static void
wb_published_window_finalize (GObject *object)
{
  WbPublishedWindow *self = WB_PUBLISHED_WINDOW (object);

  g_clear_error (&self->error);
  g_free (self->query);
  g_free (self->server_id);

  G_OBJECT_CLASS (wb_published_window_parent_class)->finalize (object);
}

/* Not earlier: a screen reader hears of a focus only once the window is there. */
static void
wb_published_window_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (wb_published_window_parent_class)->map (widget);
  gtk_widget_grab_focus (GTK_WIDGET (WB_PUBLISHED_WINDOW (widget)->search));
}

static void
wb_published_window_class_init (WbPublishedWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_published_window_dispose;
  object_class->finalize = wb_published_window_finalize;
  widget_class->map = wb_published_window_map;

  g_type_ensure (WB_TYPE_FLOW_LAYOUT);
  g_type_ensure (WB_TYPE_ONE_STOP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/"
                                               "wb-published-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPublishedWindow, title);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedWindow, search);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedWindow, servers);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedWindow, none);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedWindow, fault);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedWindow, mend);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedWindow, view);
  gtk_widget_class_bind_template_callback (widget_class, search_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_stopped_cb);
  gtk_widget_class_bind_template_callback (widget_class, server_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, mend_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);

  gtk_widget_class_install_action (widget_class, "published.ask", NULL, ask_action);
  gtk_widget_class_install_action (widget_class, "published.look", NULL, look_action);
  gtk_widget_class_install_action (widget_class, "published.fetch", NULL, fetch_action);
  gtk_widget_class_install_action (widget_class, "published.verify", NULL, verify_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F5, 0, "published.ask", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

static void
add_key (GtkEventController *controller,
         guint               key,
         const char         *action)
{
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (key, 0),
                                                          gtk_named_action_new (action)));
}

/* Letters mean something on the list, and are letters in the search. */
static void
add_list_keys (WbPublishedWindow *self)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();

  add_key (controller, GDK_KEY_f, "published.fetch");
  add_key (controller, GDK_KEY_c, "published.verify");
  gtk_widget_add_controller (GTK_WIDGET (self->view), controller);
}

static void
wb_published_window_init (WbPublishedWindow *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (factory, "setup", G_CALLBACK (row_setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (row_bind_cb), NULL);
  gtk_list_view_set_factory (self->view, factory);
  self->jobs = g_list_store_new (WB_TYPE_PUBLISHED_ITEM);
  self->filter = gtk_custom_filter_new (fits, self, NULL);
  self->found = gtk_filter_list_model_new (g_object_ref (G_LIST_MODEL (self->jobs)),
                                           g_object_ref (GTK_FILTER (self->filter)));
  self->selection = gtk_single_selection_new (g_object_ref (G_LIST_MODEL (self->found)));
  gtk_list_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (enable_actions),
                           self, G_CONNECT_SWAPPED);
  add_list_keys (self);
  enable_actions (self);
}

GtkWidget *
wb_published_window_new (WbWindow *main)
{
  WbPublishedWindow *self;

  g_return_val_if_fail (WB_IS_WINDOW (main), NULL);

  self = g_object_new (WB_TYPE_PUBLISHED_WINDOW, NULL);
  g_set_weak_pointer (&self->main, main);
  self->office = g_object_ref (wb_open_jobs_get_office (wb_window_get_open_jobs (main)));
  self->list = wb_server_list_new (self->office);
  g_signal_connect_object (self->list, "items-changed", G_CALLBACK (show_servers), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->list, "notify::loaded", G_CALLBACK (show_servers), self,
                           G_CONNECT_SWAPPED);
  show_servers (self);
  return GTK_WIDGET (self);
}
