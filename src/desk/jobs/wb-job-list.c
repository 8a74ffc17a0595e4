/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds and lists jobs. The book is asked in the background at each change of the search; what
 * comes back is merged into the list, so that lines that stay keep their place and selection. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/jobs/wb-job-list.h"

#include "desk/jobs/wb-job-item.h"
#include "desk/jobs/wb-job-row.h"
#include "desk/jobs/wb-storage-banner.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

/* More lines than anybody reads; whoever has more jobs searches. */
#define LIMIT 1000

/* Several changes in a row are one reason to look again. */
#define REFRESH_DELAY_MS 150

struct _WbJobList
{
  GtkWidget           parent_instance;

  GtkWidget          *box;
  WbStorageBanner    *storage;
  GtkSearchEntry     *search;
  GtkStack           *stack;
  GtkListView        *view;
  GtkSingleSelection *selection;
  GListStore         *store;
  AdwStatusPage      *fault;
  GtkLabel           *count;

  WbOffice           *office;
  GSignalGroup       *office_signals;
  GCancellable       *cancellable;   /* of the question that is being asked */
  guint               refresh_timer;
  char               *shown_id;      /* the job beside the list */
  char               *asked_query;   /* what the book was asked last */
  char               *listed_query;  /* what the list answers */
  gboolean            open_first;    /* Enter came before the answer */
};

enum
{
  PROP_0,
  PROP_OFFICE,
  N_PROPS
};

enum
{
  OPEN_JOB,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbJobList, wb_job_list, GTK_TYPE_WIDGET)

static const char *
get_query (WbJobList *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->search));
}

static const char *
item_id (gpointer item)
{
  return wb_job_item_get_summary (item)->id;
}

/* --- what the book answered ------------------------------------------------------------------- */

static guint
count_items (WbJobList *self)
{
  return g_list_model_get_n_items (G_LIST_MODEL (self->store));
}

static gboolean
is_job_at (WbJobList  *self,
           guint       position,
           const char *id)
{
  g_autoptr (WbJobItem) item = g_list_model_get_item (G_LIST_MODEL (self->store), position);

  return item != NULL && g_str_equal (item_id (item), id);
}

/* Returns: (transfer full) (element-type WbJobItem): items for @summaries, those of before used
 * again. */
static GPtrArray *
make_items (WbJobList *self,
            GPtrArray *summaries)
{
  g_autoptr (GHashTable) before = g_hash_table_new (g_str_hash, g_str_equal);
  GPtrArray *items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < count_items (self); i++)
    {
      g_autoptr (WbJobItem) item = g_list_model_get_item (G_LIST_MODEL (self->store), i);

      g_hash_table_insert (before, (char *) item_id (item), item);
    }

  for (guint i = 0; i < summaries->len; i++)
    {
      const WbJobSummary *summary = g_ptr_array_index (summaries, i);
      WbJobItem *item = g_hash_table_lookup (before, summary->id);

      g_ptr_array_add (items, item != NULL ? g_object_ref (item) : wb_job_item_new (summary));
    }

  return items;
}

/* Exchanges only the part between the common start and the common end. */
static void
merge_items (WbJobList *self,
             GPtrArray *items)
{
  guint start = 0, old_end = count_items (self), new_end = items->len;

  while (start < old_end && start < new_end &&
         is_job_at (self, start, item_id (g_ptr_array_index (items, start))))
    start++;
  while (old_end > start && new_end > start &&
         is_job_at (self, old_end - 1, item_id (g_ptr_array_index (items, new_end - 1))))
    {
      old_end--;
      new_end--;
    }

  if (start < old_end || start < new_end)
    g_list_store_splice (self->store, start, old_end - start,
                         items->pdata + start, new_end - start);
}

static gboolean
select_job (WbJobList  *self,
            const char *id)
{
  for (guint i = 0; id != NULL && i < count_items (self); i++)
    {
      if (is_job_at (self, i, id))
        {
          gtk_single_selection_set_selected (self->selection, i);
          return TRUE;
        }
    }

  return FALSE;
}

/* A new question starts at its first answer; the same question again keeps the choice. */
static void
choose (WbJobList  *self,
        const char *chosen)
{
  const char *query = get_query (self);
  gboolean same = g_strcmp0 (query, self->listed_query) == 0;

  g_free (self->listed_query);
  self->listed_query = g_strdup (query);

  if (same && select_job (self, chosen))
    return;

  gtk_single_selection_set_selected (self->selection, GTK_INVALID_LIST_POSITION);
  if (*query != '\0')
    gtk_single_selection_set_selected (self->selection, 0);
  else
    select_job (self, self->shown_id);
}

static void
show_count (WbJobList *self,
            guint      n_jobs)
{
  g_autofree char *text = NULL;

  if (n_jobs >= LIMIT)
    text = g_strdup_printf (_("The first %d jobs; search to see others"), LIMIT);
  else
    text = g_strdup_printf (ngettext ("%u job", "%u jobs", n_jobs), n_jobs);

  gtk_label_set_label (self->count, text);
  gtk_widget_set_visible (GTK_WIDGET (self->count), n_jobs > 0);
}

static void
show_jobs (WbJobList *self,
           GPtrArray *summaries)
{
  gboolean searching = *get_query (self) != '\0';
  WbJobItem *selected = gtk_single_selection_get_selected_item (self->selection);
  g_autofree char *chosen = selected != NULL ? g_strdup (item_id (selected)) : NULL;
  g_autoptr (GPtrArray) items = make_items (self, summaries);

  merge_items (self, items);
  for (guint i = 0; i < summaries->len; i++)
    wb_job_item_set_summary (g_ptr_array_index (items, i), g_ptr_array_index (summaries, i));

  show_count (self, summaries->len);
  gtk_stack_set_visible_child_name (self->stack, summaries->len > 0 ? "list"
                                                 : searching ? "nothing" : "empty");
  choose (self, chosen);
}

static void open_selected (WbJobList *self);

static void
listed_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (WbJobList) self = WB_JOB_LIST (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) summaries = wb_office_list_jobs_finish (WB_OFFICE (object), result, &error);

  /* Only the last question counts. */
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) ||
      WB_OFFICE (object) != self->office)
    return;

  if (summaries == NULL)
    {
      g_autofree char *words = wb_words_error (error);
      g_autofree char *markup = g_markup_escape_text (words, -1);

      /* Nothing is opened unasked by an answer that comes much later. */
      self->open_first = FALSE;
      adw_status_page_set_description (self->fault, markup);
      gtk_stack_set_visible_child_name (self->stack, "fault");
      gtk_widget_hide (GTK_WIDGET (self->count));
      return;
    }

  show_jobs (self, summaries);
  g_clear_object (&self->cancellable);
  if (self->open_first)
    open_selected (self);
}

static void
ask (WbJobList *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_handle_id (&self->refresh_timer, g_source_remove);

  if (self->office == NULL)
    return;

  g_free (self->asked_query);
  self->asked_query = g_strdup (get_query (self));
  self->cancellable = g_cancellable_new ();
  wb_office_list_jobs_async (self->office, get_query (self), LIMIT, self->cancellable,
                             listed_cb, g_object_ref (self));
}

/* --- what the person does --------------------------------------------------------------------- */

static void
open_selected (WbJobList *self)
{
  WbJobItem *item = gtk_single_selection_get_selected_item (self->selection);

  self->open_first = FALSE;
  if (item != NULL)
    g_signal_emit (self, signals[OPEN_JOB], 0, item_id (item));
}

/* Comes a moment after the last letter; Enter may have asked already. */
static void
query_changed_cb (WbJobList *self)
{
  if (g_strcmp0 (self->asked_query, get_query (self)) == 0)
    return;

  self->open_first = FALSE;
  ask (self);
}

/* Enter may be quicker than the answer, or than the pause after the last letter; it then opens what
 * the answer brings. */
static void
search_activated_cb (WbJobList *self)
{
  if (g_strcmp0 (self->listed_query, get_query (self)) == 0)
    {
      open_selected (self);
    }
  else
    {
      ask (self);
      self->open_first = TRUE;
    }
}

/* Up and down choose without leaving the search. */
static gboolean
search_key_cb (WbJobList       *self,
               guint            keyval,
               guint            keycode,
               GdkModifierType  state)
{
  guint selected = gtk_single_selection_get_selected (self->selection);
  guint count = count_items (self);
  guint next;

  if (count == 0 || (state & gtk_accelerator_get_default_mod_mask ()) != 0)
    return FALSE;

  if (keyval == GDK_KEY_Down)
    next = selected == GTK_INVALID_LIST_POSITION ? 0 : MIN (selected + 1, count - 1);
  else if (keyval == GDK_KEY_Up)
    next = selected == GTK_INVALID_LIST_POSITION || selected == 0 ? 0 : selected - 1;
  else
    return FALSE;

  gtk_single_selection_set_selected (self->selection, next);
  gtk_widget_activate_action (GTK_WIDGET (self->view), "list.scroll-to-item", "u", next);
  return TRUE;
}

static void
row_activated_cb (WbJobList *self,
                  guint      position)
{
  g_autoptr (WbJobItem) item = g_list_model_get_item (G_LIST_MODEL (self->store), position);

  if (item != NULL)
    g_signal_emit (self, signals[OPEN_JOB], 0, item_id (item));
}

static void
open_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  g_signal_emit (widget, signals[OPEN_JOB], 0, g_variant_get_string (target, NULL));
}

/* --- what the book does ----------------------------------------------------------------------- */

static gboolean
refresh_cb (gpointer data)
{
  WbJobList *self = WB_JOB_LIST (data);

  self->refresh_timer = 0;
  ask (self);
  return G_SOURCE_REMOVE;
}

static void
job_saved_cb (WbJobList *self)
{
  wb_storage_banner_refresh (self->storage);
  if (self->refresh_timer == 0)
    self->refresh_timer = g_timeout_add (REFRESH_DELAY_MS, refresh_cb, self);
}

static void
set_office (WbJobList *self,
            WbOffice  *office)
{
  if (!g_set_object (&self->office, office))
    return;

  g_signal_group_set_target (self->office_signals, office);
  g_list_store_remove_all (self->store);
  ask (self);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_job_list_get_property (GObject    *object,
                          guint       prop_id,
                          GValue     *value,
                          GParamSpec *pspec)
{
  WbJobList *self = WB_JOB_LIST (object);

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
wb_job_list_set_property (GObject      *object,
                          guint         prop_id,
                          const GValue *value,
                          GParamSpec   *pspec)
{
  WbJobList *self = WB_JOB_LIST (object);

  switch (prop_id)
    {
    case PROP_OFFICE:
      set_office (self, g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_job_list_dispose (GObject *object)
{
  WbJobList *self = WB_JOB_LIST (object);

  g_clear_handle_id (&self->refresh_timer, g_source_remove);
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->office_signals);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_JOB_LIST);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_job_list_parent_class)->dispose (object);
}

static void
wb_job_list_finalize (GObject *object)
{
  WbJobList *self = WB_JOB_LIST (object);

  g_clear_pointer (&self->shown_id, g_free);
  g_clear_pointer (&self->asked_query, g_free);
  g_clear_pointer (&self->listed_query, g_free);

  G_OBJECT_CLASS (wb_job_list_parent_class)->finalize (object);
}

/* Tab goes to the search, to the job chosen and past all the others; from job to job go the
 * arrows. */
static gboolean
wb_job_list_focus (GtkWidget        *widget,
                   GtkDirectionType  direction)
{
  WbJobList *self = WB_JOB_LIST (widget);
  GtkWidget *view = GTK_WIDGET (self->view);
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  gboolean in_view = focus != NULL && gtk_widget_is_ancestor (focus, view);
  gboolean in_search = focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->search));
  gboolean from_above = direction == GTK_DIR_TAB_FORWARD && in_search;
  gboolean in_storage = focus != NULL
                        && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->storage));
  gboolean from_below = direction == GTK_DIR_TAB_BACKWARD && !in_search && !in_view && !in_storage;

  if (direction == GTK_DIR_TAB_FORWARD && in_view)
    return FALSE;
  if (direction == GTK_DIR_TAB_BACKWARD && in_view)
    return gtk_widget_grab_focus (GTK_WIDGET (self->search));
  if ((from_above || from_below) && gtk_widget_get_mapped (view) && count_items (self) > 0)
    return gtk_widget_grab_focus (view);
  return gtk_widget_child_focus (self->box, direction);
}

static void
wb_job_list_class_init (WbJobListClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_job_list_get_property;
  object_class->set_property = wb_job_list_set_property;
  object_class->dispose = wb_job_list_dispose;
  object_class->finalize = wb_job_list_finalize;
  widget_class->focus = wb_job_list_focus;

  properties[PROP_OFFICE] = g_param_spec_object ("office", NULL, NULL, WB_TYPE_OFFICE,
                                                 G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[OPEN_JOB] = g_signal_new ("open-job", WB_TYPE_JOB_LIST, G_SIGNAL_RUN_LAST,
                                    0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);

  g_type_ensure (WB_TYPE_JOB_ITEM);
  g_type_ensure (WB_TYPE_JOB_ROW);
  g_type_ensure (WB_TYPE_STORAGE_BANNER);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/jobs/wb-job-list.ui");
  gtk_widget_class_bind_template_child (widget_class, WbJobList, box);
  gtk_widget_class_bind_template_child (widget_class, WbJobList, storage);
  gtk_widget_class_bind_template_child (widget_class, WbJobList, search);
  gtk_widget_class_bind_template_child (widget_class, WbJobList, stack);
  gtk_widget_class_bind_template_child (widget_class, WbJobList, view);
  gtk_widget_class_bind_template_child (widget_class, WbJobList, selection);
  gtk_widget_class_bind_template_child (widget_class, WbJobList, store);
  gtk_widget_class_bind_template_child (widget_class, WbJobList, fault);
  gtk_widget_class_bind_template_child (widget_class, WbJobList, count);
  gtk_widget_class_bind_template_callback (widget_class, query_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, wb_job_list_end_search);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, wb_job_list_refresh);

  gtk_widget_class_install_action (widget_class, "jobs.open", "s", open_action);
}

static void
wb_job_list_init (WbJobList *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));

  self->office_signals = g_signal_group_new (WB_TYPE_OFFICE);
  g_signal_group_connect_swapped (self->office_signals, "job-saved", G_CALLBACK (job_saved_cb),
                                  self);

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (search_key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->search), keys);
}

void
wb_job_list_start_search (WbJobList *self)
{
  g_return_if_fail (WB_IS_JOB_LIST (self));

  gtk_widget_grab_focus (GTK_WIDGET (self->search));
  gtk_editable_select_region (GTK_EDITABLE (self->search), 0, -1);
}

void
wb_job_list_end_search (WbJobList *self)
{
  g_return_if_fail (WB_IS_JOB_LIST (self));

  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
}

void
wb_job_list_refresh (WbJobList *self)
{
  g_return_if_fail (WB_IS_JOB_LIST (self));

  ask (self);
}

void
wb_job_list_select (WbJobList  *self,
                    const char *id)
{
  g_return_if_fail (WB_IS_JOB_LIST (self));

  g_free (self->shown_id);
  self->shown_id = g_strdup (id);
  select_job (self, id);
}
