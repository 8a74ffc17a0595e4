/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows what is due and keeps it fresh: it asks the office anew when something was stored. What is
 * due the office says. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/due/wb-due-window.h"

#include "desk/due/wb-due-model.h"
#include "desk/due/wb-due-row.h"
#include "desk/widgets/wb-text-saver.h"
#include "office/wb-due.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#include <string.h>

struct _WbDueWindow
{
  AdwWindow       parent_instance;

  AdwWindowTitle *title;
  GtkInfoBar     *fault_bar;
  GtkLabel       *fault;
  GtkStack       *stack;
  GtkListView    *list;

  GtkSliceListModel  *shown;      /* what of the entries is in the list so far */
  GtkSingleSelection *selection;  /* of the list, over @shown */
  guint               growing;    /* the frame callback, or 0 */

  WbOffice       *office;
  WbDueList      *due;           /* (nullable): what is shown */
  GCancellable   *cancellable;   /* of the list that is being made */
};

enum
{
  PROP_0,
  PROP_OFFICE,
  N_PROPS
};

enum
{
  OPEN_CLAIM,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbDueWindow, wb_due_window, ADW_TYPE_WINDOW)

/* --- what is shown ---------------------------------------------------------------------------- */

static void
show_fault (WbDueWindow *self,
            const char  *words)
{
  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_info_bar_set_revealed (self->fault_bar, words != NULL);
}

static char *
count_in_words (const WbDueList *due)
{
  guint n_overdue = 0, n_near = 0;

  for (guint i = 0; i < wb_due_list_count (due); i++)
    {
      const WbDue *entry = wb_due_list_nth (due, i);

      n_overdue += entry->group == WB_DUE_OVERDUE ? 1 : 0;
      n_near += entry->group == WB_DUE_TODAY || entry->group == WB_DUE_THIS_WEEK ? 1 : 0;
    }
  /* Translators: how many things are overdue, and how many are due today or within a week. */
  return g_strdup_printf (_("%u overdue, %u within a week"), n_overdue, n_near);
}

/* A list makes its rows, some two hundred, all at once; so it gets a few to begin with, and more with
 * every frame until it has as many as it makes. */
#define FEW_ENTRIES 8
#define MANY_ENTRIES 256

static gboolean
grow_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  WbDueWindow *self = WB_DUE_WINDOW (widget);
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

/* The entries are others now; what is chosen stays in its place. The focus is the list's the first
 * time, and then where it was. */
static void
fill_list (WbDueWindow *self,
           gboolean     first_time)
{
  guint place = first_time ? 0 : gtk_single_selection_get_selected (self->selection);
  gboolean had_focus = (gtk_widget_get_state_flags (GTK_WIDGET (self->list))
                        & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;
  g_autoptr (WbDueModel) entries = wb_due_model_new (self->due);
  guint n = wb_due_list_count (self->due);

  gtk_slice_list_model_set_model (self->shown, G_LIST_MODEL (entries));
  gtk_stack_set_visible_child_name (self->stack, n > 0 ? "list" : "none");
  if (first_time)
    self->growing = gtk_widget_add_tick_callback (GTK_WIDGET (self), grow_cb, NULL, NULL);
  n = g_list_model_get_n_items (G_LIST_MODEL (self->shown));
  if (n == 0)
    return;
  place = place != GTK_INVALID_LIST_POSITION ? MIN (place, n - 1) : 0;
  gtk_single_selection_set_selected (self->selection, place);
  if (first_time || had_focus)
    gtk_widget_child_focus (GTK_WIDGET (self->list), GTK_DIR_TAB_FORWARD);
}

static void
show_due (WbDueWindow *self,
          WbDueList   *due)
{
  g_autofree char *count = count_in_words (due);
  gboolean first_time = self->due == NULL;

  g_clear_pointer (&self->due, wb_due_list_unref);
  self->due = wb_due_list_ref (due);
  adw_window_title_set_subtitle (self->title, count);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "due.save-calendar", wb_due_list_count (due) > 0);
  fill_list (self, first_time);
}

static void
listed_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (WbDueWindow) self = WB_DUE_WINDOW (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbDueList) due = wb_office_list_due_finish (WB_OFFICE (object), result, &error);
  g_autofree char *words = NULL;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) || self->office == NULL)
    return;
  if (due != NULL)
    {
      show_fault (self, NULL);
      show_due (self, due);
      return;
    }
  words = wb_words_error (error);
  show_fault (self, words);
}

static void
refresh (WbDueWindow *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->cancellable = g_cancellable_new ();
  wb_office_list_due_async (self->office, self->cancellable, listed_cb, g_object_ref (self));
}

static void
refresh_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  refresh (WB_DUE_WINDOW (widget));
}

/* --- rows ------------------------------------------------------------------------------------- */

static void
row_setup_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *item)
{
  gtk_list_item_set_child (item, wb_due_row_new ());
}

static void
row_bind_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *item)
{
  WbDueItem *entry = gtk_list_item_get_item (item);

  wb_due_row_show (WB_DUE_ROW (gtk_list_item_get_child (item)), wb_due_item_get_due (entry),
                   wb_due_item_leads (entry));
}

static void
entry_activated_cb (WbDueWindow *self,
                    guint        place)
{
  const WbDue *due = wb_due_list_nth (self->due, place);

  g_signal_emit (self, signals[OPEN_CLAIM], 0, due->job_id);
}

/* --- the calendar ----------------------------------------------------------------------------- */

static char *
make_calendar (GtkWindow *window)
{
  WbDueWindow *self = WB_DUE_WINDOW (window);
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  return self->due != NULL ? wb_due_calendar_write (self->due, now) : NULL;
}

static void
calendar_saved (GtkWindow    *window,
                GFile        *file,
                const GError *error)
{
  g_autofree char *words = error != NULL ? wb_words_error (error) : NULL;

  if (words != NULL)
    show_fault (WB_DUE_WINDOW (window), words);
}

static void
save_calendar_action (GtkWidget  *widget,
                      const char *name,
                      GVariant   *target)
{
  /* Translators: the name proposed for a calendar file; keep the ending. */
  wb_text_save (GTK_WINDOW (widget), _("Save as a Calendar"), _("claims.ics"), make_calendar,
                calendar_saved);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_due_window_constructed (GObject *object)
{
  WbDueWindow *self = WB_DUE_WINDOW (object);

  G_OBJECT_CLASS (wb_due_window_parent_class)->constructed (object);

  if (self->office == NULL)
    return;
  g_signal_connect_object (self->office, "job-saved", G_CALLBACK (refresh), self,
                           G_CONNECT_SWAPPED);
  refresh (self);
}

static void
wb_due_window_set_property (GObject      *object,
                            guint         prop_id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_OFFICE:
      WB_DUE_WINDOW (object)->office = g_value_dup_object (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_due_window_dispose (GObject *object)
{
  WbDueWindow *self = WB_DUE_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_DUE_WINDOW);
  if (self->growing != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->growing);
  self->growing = 0;
  g_clear_object (&self->selection);
  g_clear_object (&self->shown);
  g_clear_pointer (&self->due, wb_due_list_unref);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_due_window_parent_class)->dispose (object);
}

static void
wb_due_window_class_init (WbDueWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->constructed = wb_due_window_constructed;
  object_class->set_property = wb_due_window_set_property;
  object_class->dispose = wb_due_window_dispose;

  properties[PROP_OFFICE] =
    g_param_spec_object ("office", NULL, NULL, WB_TYPE_OFFICE,
                         G_PARAM_WRITABLE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[OPEN_CLAIM] = g_signal_new ("open-claim", WB_TYPE_DUE_WINDOW, G_SIGNAL_RUN_LAST, 0,
                                      NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/due/wb-due-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbDueWindow, title);
  gtk_widget_class_bind_template_child (widget_class, WbDueWindow, fault_bar);
  gtk_widget_class_bind_template_child (widget_class, WbDueWindow, fault);
  gtk_widget_class_bind_template_child (widget_class, WbDueWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, WbDueWindow, list);
  gtk_widget_class_bind_template_callback (widget_class, entry_activated_cb);

  gtk_widget_class_install_action (widget_class, "due.refresh", NULL, refresh_action);
  gtk_widget_class_install_action (widget_class, "due.save-calendar", NULL, save_calendar_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F5, 0, "due.refresh", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_s, GDK_CONTROL_MASK,
                                       "due.save-calendar", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

static void
wb_due_window_init (WbDueWindow *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (factory, "setup", G_CALLBACK (row_setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (row_bind_cb), NULL);
  gtk_list_view_set_factory (self->list, factory);
  self->shown = gtk_slice_list_model_new (NULL, 0, FEW_ENTRIES);
  self->selection = gtk_single_selection_new (g_object_ref (G_LIST_MODEL (self->shown)));
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->selection));
}

GtkWidget *
wb_due_window_new (WbOffice *office)
{
  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);

  return g_object_new (WB_TYPE_DUE_WINDOW, "office", office, NULL);
}
