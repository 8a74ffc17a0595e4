/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists the differences and takes the choices, by keys as well. What differs core says; the rows say
 * it in words. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-merge-window.h"

#include "desk/share/wb-merge-list.h"
#include "desk/share/wb-merge-row.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-menu-later.h"
#include "desk/widgets/wb-one-stop.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbMergeWindow
{
  AdwWindow           parent_instance;

  AdwWindowTitle     *title;
  GMenu              *whole_menu;
  GtkMenuButton      *whole_button;
  GtkStack           *stack;
  AdwStatusPage      *refused;
  GtkInfoBar         *fault_bar;
  GtkLabel           *fault;
  GtkLabel           *about;
  GtkLabel           *task;
  GtkWidget          *all;
  GtkListView        *view;

  GtkSliceListModel  *shown;        /* what of @list is in the view so far */
  GtkSingleSelection *selection;    /* over @shown */
  guint               growing;      /* the frame callback, or 0 */
  WbMergeList        *list;         /* (nullable): until it is compared */
  WbMergeChoice       whole;        /* the side that is taken as it is */
  GCancellable       *cancellable;  /* of the comparison */
  guint               focus_tick;   /* until the chosen row has the focus, or 0 */
  guint               focus_tries;
};

enum
{
  MERGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbMergeWindow, wb_merge_window, ADW_TYPE_WINDOW)

/* --- how far it is ---------------------------------------------------------------------------- */

static void
show_fault (WbMergeWindow *self,
            const GError  *error)
{
  g_autofree char *words = error != NULL ? wb_words_error (error) : NULL;

  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_info_bar_set_revealed (self->fault_bar, words != NULL);
}

static char *
state_in_words (guint n,
                guint n_open)
{
  if (n == 0)
    return g_strdup (_("Nothing has to be decided"));
  if (n_open == 0)
    return g_strdup (_("All is decided"));
  /* Translators: how many of so many choices are not made yet. */
  return g_strdup_printf (ngettext ("%u of %u to be decided", "%u of %u to be decided", n), n_open,
                          n);
}

static void
show_state (WbMergeWindow *self)
{
  guint n = wb_merge_list_n_choices (self->list);
  guint n_open = wb_merge_list_n_open (self->list);
  g_autofree char *state = state_in_words (n, n_open);

  adw_window_title_set_subtitle (self->title, state);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "merge.apply", n_open == 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "merge.next", n_open > 0);
  show_fault (self, NULL);
}

static void
show_task (WbMergeWindow *self)
{
  gboolean asks = wb_merge_list_n_choices (self->list) > 0;

  gtk_label_set_label (self->task,
                       asks ? _("Both sides changed what follows, each in another way. Choose what "
                                "is kept, with H for here and T for there.")
                            : _("The two versions go together as they are. Merge takes what "
                                "each side changed."));
  gtk_widget_set_visible (self->all, asks);
}

/* --- the list --------------------------------------------------------------------------------- */

/* Frames that a row far away may take until it is there. */
#define MOST_TRIES 20

/* Returns: (nullable): the row of the list that shows @entry. */
static GtkWidget *
find_row (WbMergeWindow *self,
          WbMergeEntry  *entry)
{
  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->view)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      GtkWidget *child = gtk_widget_get_first_child (row);

      if (WB_IS_MERGE_ROW (child) && gtk_widget_get_mapped (row) &&
          wb_merge_row_get_entry (WB_MERGE_ROW (child)) == entry)
        return row;
    }
  return NULL;
}

static void
scroll_to_chosen (WbMergeWindow *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self->view), "list.scroll-to-item", "u",
                              gtk_single_selection_get_selected (self->selection));
}

static gboolean
focus_chosen_cb (GtkWidget     *widget,
                 GdkFrameClock *clock,
                 gpointer       data)
{
  WbMergeWindow *self = WB_MERGE_WINDOW (widget);
  WbMergeEntry *entry = gtk_single_selection_get_selected_item (self->selection);
  GtkWidget *row = entry != NULL ? find_row (self, entry) : NULL;

  self->focus_tries++;
  if (row == NULL && entry != NULL && self->focus_tries < MOST_TRIES)
    {
      scroll_to_chosen (self);
      return G_SOURCE_CONTINUE;
    }
  self->focus_tick = 0;
  if (row != NULL)
    gtk_widget_grab_focus (row);
  return G_SOURCE_REMOVE;
}

/* The row gets the focus at once, or when the list has made it. */
static void
focus_place (WbMergeWindow *self,
             guint          place)
{
  g_autoptr (WbMergeEntry) entry = g_list_model_get_item (G_LIST_MODEL (self->list), place);
  GtkWidget *row = find_row (self, entry);

  if (place >= gtk_slice_list_model_get_size (self->shown))
    gtk_slice_list_model_set_size (self->shown, place + 1);
  gtk_single_selection_set_selected (self->selection, place);
  scroll_to_chosen (self);
  if (row != NULL)
    {
      gtk_widget_grab_focus (row);
      return;
    }
  self->focus_tries = 0;
  if (self->focus_tick == 0)
    self->focus_tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), focus_chosen_cb, NULL,
                                                     NULL);
}

static void
focus_next_open (WbMergeWindow *self)
{
  guint place = wb_merge_list_next_open (self->list,
                                         gtk_single_selection_get_selected (self->selection));

  if (place != G_MAXUINT)
    focus_place (self, place);
}

/* A view makes some two hundred rows all at once; so it gets a few to begin with, and more with every
 * frame until it has as many as it makes. */
#define FEW_ENTRIES 8
#define MANY_ENTRIES 256

static gboolean
grow_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  WbMergeWindow *self = WB_MERGE_WINDOW (widget);
  guint size = gtk_slice_list_model_get_size (self->shown) + FEW_ENTRIES;

  if (size < MANY_ENTRIES)
    {
      gtk_slice_list_model_set_size (self->shown, size);
      return G_SOURCE_CONTINUE;
    }
  gtk_slice_list_model_set_size (self->shown, G_MAXUINT);
  self->growing = 0;
  return G_SOURCE_REMOVE;
}

static void
show_list (WbMergeWindow *self,
           WbMergeList   *list)
{
  gboolean empty = g_list_model_get_n_items (G_LIST_MODEL (list)) == 0;

  g_set_object (&self->list, list);
  g_signal_connect_object (list, "decided", G_CALLBACK (show_state), self, G_CONNECT_SWAPPED);
  gtk_slice_list_model_set_model (self->shown, G_LIST_MODEL (list));
  self->growing = gtk_widget_add_tick_callback (GTK_WIDGET (self), grow_cb, NULL, NULL);
  gtk_stack_set_visible_child_name (self->stack, empty ? "same" : "list");
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "merge.here", !empty);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "merge.there", !empty);
  show_task (self);
  show_state (self);
  if (!empty)
    focus_place (self, 0);
}

static void
row_setup_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *item)
{
  gtk_list_item_set_child (item, wb_merge_row_new ());
}

static void
row_bind_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *item)
{
  wb_merge_row_show (WB_MERGE_ROW (gtk_list_item_get_child (item)), gtk_list_item_get_item (item));
}

static void
row_unbind_cb (GtkSignalListItemFactory *factory,
               GtkListItem              *item)
{
  wb_merge_row_show (WB_MERGE_ROW (gtk_list_item_get_child (item)), NULL);
}

static void
row_activated_cb (WbMergeWindow *self,
                  guint          place)
{
  g_autoptr (WbMergeEntry) entry = g_list_model_get_item (G_LIST_MODEL (self->list), place);

  if (wb_merge_entry_get_kind (entry) == WB_MERGE_ENTRY_FOLD)
    wb_merge_list_set_unfolded (self->list, !wb_merge_entry_is_unfolded (entry));
}

/* --- comparing -------------------------------------------------------------------------------- */

typedef struct
{
  WbJob *base;
  WbJob *mine;
  WbJob *theirs;
} Versions;

static void
versions_free (gpointer data)
{
  Versions *versions = data;

  g_clear_pointer (&versions->base, wb_job_unref);
  wb_job_unref (versions->mine);
  wb_job_unref (versions->theirs);
  g_free (versions);
}

static void
compare_in_thread (GTask        *task,
                   gpointer      source,
                   gpointer      data,
                   GCancellable *cancellable)
{
  Versions *versions = data;
  GError *error = NULL;
  WbMergeList *list = wb_merge_list_new (versions->base, versions->mine, versions->theirs, &error);

  if (list == NULL)
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, list, g_object_unref);
}

static void
compared_cb (GObject      *object,
             GAsyncResult *result,
             gpointer      data)
{
  WbMergeWindow *self = WB_MERGE_WINDOW (object);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbMergeList) list = g_task_propagate_pointer (G_TASK (result), &error);
  g_autofree char *words = NULL;
  g_autofree char *markup = NULL;

  if (self->selection == NULL || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  if (list != NULL)
    {
      show_list (self, list);
      return;
    }
  words = wb_words_error (error);
  markup = g_markup_escape_text (words, -1);
  adw_status_page_set_description (self->refused, markup);
  gtk_stack_set_visible_child_name (self->stack, "refused");
}

static void
compare (WbMergeWindow *self,
         WbJob         *base,
         WbJob         *mine,
         WbJob         *theirs)
{
  g_autoptr (GTask) task = g_task_new (self, self->cancellable, compared_cb, NULL);
  Versions *versions = g_new0 (Versions, 1);

  versions->base = base != NULL ? wb_job_ref (base) : NULL;
  versions->mine = wb_job_ref (mine);
  versions->theirs = wb_job_ref (theirs);
  g_task_set_source_tag (task, compare);
  g_task_set_task_data (task, versions, versions_free);
  g_task_run_in_thread (task, compare_in_thread);
}

/* --- actions ---------------------------------------------------------------------------------- */

static void
choose (WbMergeWindow *self,
        WbMergeChoice  choice)
{
  WbMergeEntry *entry = gtk_single_selection_get_selected_item (self->selection);

  if (entry == NULL || wb_merge_entry_get_kind (entry) != WB_MERGE_ENTRY_CHOICE)
    return;
  wb_merge_entry_choose (entry, choice);
  focus_next_open (self);
}

static void
here_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  choose (WB_MERGE_WINDOW (widget), WB_MERGE_MINE);
}

static void
there_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  choose (WB_MERGE_WINDOW (widget), WB_MERGE_THEIRS);
}

static void
next_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  focus_next_open (WB_MERGE_WINDOW (widget));
}

static void
all_action (GtkWidget  *widget,
            const char *name,
            GVariant   *target)
{
  WbMergeWindow *self = WB_MERGE_WINDOW (widget);

  if (self->list != NULL)
    wb_merge_list_choose_all (self->list, g_str_equal (name, "merge.all-here") ? WB_MERGE_MINE
                                                                               : WB_MERGE_THEIRS);
}

/* --- one side as it is ------------------------------------------------------------------------ */

static void
close_cb (gpointer data)
{
  g_autoptr (GtkWindow) window = data;

  gtk_window_close (window);
}

/* The window does not go while its dialog still answers. */
static void
whole_answered_cb (WbMergeWindow *self,
                   const char    *response,
                   GtkWidget     *dialog)
{
  g_autoptr (WbJob) job = NULL;

  if (!g_str_equal (response, "drop") || self->list == NULL)
    return;
  self->whole = (WbMergeChoice) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (dialog), "whole"));
  job = wb_job_ref (wb_merge_list_get_side (self->list, self->whole));
  g_signal_emit (self, signals[MERGED], 0, job);
  g_idle_add_once (close_cb, g_object_ref (self));
}

static void
ask_whole (WbMergeWindow *self,
           WbMergeChoice  whole)
{
  gboolean mine = whole == WB_MERGE_MINE;
  GtkWidget *dialog =
    adw_message_dialog_new (GTK_WINDOW (self),
                            mine ? _("Drop What Was Changed There?")
                                 : _("Drop What Was Changed Here?"),
                            mine ? _("The job stays as it is here, and takes the place of what is "
                                     "there. The other version stays on the server as an earlier "
                                     "one.")
                                 : _("The job becomes as it is there. What was changed here and not "
                                     "published is then only in its history."));

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "drop",
                                    _("_Drop"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "drop",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_object_set_data (G_OBJECT (dialog), "whole", GINT_TO_POINTER ((int) whole));
  g_signal_connect_object (dialog, "response", G_CALLBACK (whole_answered_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
whole_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbMergeWindow *self = WB_MERGE_WINDOW (widget);

  if (self->list != NULL)
    ask_whole (self, g_str_equal (name, "merge.only-here") ? WB_MERGE_MINE : WB_MERGE_THEIRS);
}

WbMergeChoice
wb_merge_window_get_whole (WbMergeWindow *self)
{
  g_return_val_if_fail (WB_IS_MERGE_WINDOW (self), WB_MERGE_UNDECIDED);

  return self->whole;
}

/* --- the job of both -------------------------------------------------------------------------- */

static void
apply_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbMergeWindow *self = WB_MERGE_WINDOW (widget);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_merge_list_get_result (self->list, &error);

  if (job == NULL)
    {
      show_fault (self, error);
      return;
    }
  g_signal_emit (self, signals[MERGED], 0, job);
  gtk_window_close (GTK_WINDOW (self));
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_merge_window_dispose (GObject *object)
{
  WbMergeWindow *self = WB_MERGE_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  if (self->focus_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->focus_tick);
  self->focus_tick = 0;
  if (self->growing != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->growing);
  self->growing = 0;
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_MERGE_WINDOW);
  g_clear_object (&self->selection);
  g_clear_object (&self->shown);
  g_clear_object (&self->list);
  g_clear_object (&self->cancellable);

  G_OBJECT_CLASS (wb_merge_window_parent_class)->dispose (object);
}

static void
install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "merge.here", NULL, here_action);
  gtk_widget_class_install_action (widget_class, "merge.there", NULL, there_action);
  gtk_widget_class_install_action (widget_class, "merge.next", NULL, next_action);
  gtk_widget_class_install_action (widget_class, "merge.all-here", NULL, all_action);
  gtk_widget_class_install_action (widget_class, "merge.all-there", NULL, all_action);
  gtk_widget_class_install_action (widget_class, "merge.only-here", NULL, whole_action);
  gtk_widget_class_install_action (widget_class, "merge.only-there", NULL, whole_action);
  gtk_widget_class_install_action (widget_class, "merge.apply", NULL, apply_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_h, 0, "merge.here", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_t, 0, "merge.there", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_n, 0, "merge.next", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, GDK_CONTROL_MASK,
                                       "merge.apply", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

static void
wb_merge_window_class_init (WbMergeWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_merge_window_dispose;

  signals[MERGED] = g_signal_new ("merged", WB_TYPE_MERGE_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, WB_TYPE_JOB);

  g_type_ensure (WB_TYPE_FLOW_LAYOUT);
  g_type_ensure (WB_TYPE_ONE_STOP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/wb-merge-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, title);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, whole_menu);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, whole_button);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, refused);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, fault_bar);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, fault);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, about);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, task);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, all);
  gtk_widget_class_bind_template_child (widget_class, WbMergeWindow, view);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  install_actions (widget_class);
}

static void
wb_merge_window_init (WbMergeWindow *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  wb_menu_later (self->whole_button, G_MENU_MODEL (self->whole_menu));
  self->cancellable = g_cancellable_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (row_setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (row_bind_cb), NULL);
  g_signal_connect (factory, "unbind", G_CALLBACK (row_unbind_cb), NULL);
  gtk_list_view_set_factory (self->view, factory);
  self->shown = gtk_slice_list_model_new (NULL, 0, FEW_ENTRIES);
  self->selection = gtk_single_selection_new (g_object_ref (G_LIST_MODEL (self->shown)));
  gtk_list_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "merge.here", FALSE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "merge.there", FALSE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "merge.next", FALSE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "merge.apply", FALSE);
}

static WbMergeWindow *
window_new (const char *about)
{
  WbMergeWindow *self = g_object_new (WB_TYPE_MERGE_WINDOW, NULL);

  gtk_label_set_label (self->about, about != NULL ? about : "");
  gtk_widget_set_visible (GTK_WIDGET (self->about), about != NULL);
  return self;
}

GtkWidget *
wb_merge_window_new (WbJob      *base,
                     WbJob      *mine,
                     WbJob      *theirs,
                     const char *about)
{
  WbMergeWindow *self;

  g_return_val_if_fail (mine != NULL && theirs != NULL, NULL);

  self = window_new (about);
  compare (self, base, mine, theirs);
  return GTK_WIDGET (self);
}

GtkWidget *
wb_merge_window_new_published (WbComparison *published,
                               const char   *about)
{
  g_autoptr (WbMergeList) list = NULL;
  WbMergeWindow *self;

  g_return_val_if_fail (published != NULL, NULL);

  self = window_new (about);
  list = wb_merge_list_new_published (published);
  show_list (self, list);
  return GTK_WIDGET (self);
}
