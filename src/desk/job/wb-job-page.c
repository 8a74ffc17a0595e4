/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame around the pages of one job. Shows what holds for the whole job and passes its actions
 * to the model; what stands on a page is the page's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/job/wb-job-page-private.h"

#include "desk/job/wb-conflict-dialog.h"
#include "desk/job/wb-job-heading.h"
#include "desk/job/wb-page-list.h"
#include "desk/widgets/wb-focus-within.h"
#include "desk/widgets/wb-reveal.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_SHOW_BACK,
  N_PROPS
};

enum
{
  LEAVE,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbJobPage, wb_job_page, GTK_TYPE_WIDGET)

/* --- what is shown ---------------------------------------------------------------------------- */

/* The same words, but where they stand on two lines the route is not broken. */
static char *
keep_route_together (const char *details)
{
  const char *route = g_strrstr (details, " · ");
  GString *text = g_string_new (details);

  if (route != NULL && strstr (route, " → ") != NULL)
    for (gsize i = (gsize) (route - details) + strlen (" · "); i < text->len; i++)
      if (text->str[i] == ' ')
        {
          g_string_erase (text, (gssize) i, 1);
          g_string_insert (text, (gssize) i, "\302\240");
        }
  return g_string_free (text, FALSE);
}

static void
show_job (WbJobPage *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  g_autofree char *heading = wb_job_heading_title (job);
  g_autofree char *details = wb_job_heading_subtitle (job);
  g_autofree char *shown = keep_route_together (details);

  gtk_label_set_label (self->title, heading);
  gtk_label_set_label (self->details, shown);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->details), details);
}

static void
show_step (WbJobPage  *self,
           GtkButton  *button,
           const char *action,
           gboolean    possible,
           const char *words)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (self), action, possible);
  gtk_widget_set_tooltip_text (GTK_WIDGET (button), words);
}

static void
show_steps (WbJobPage *self)
{
  gboolean can_undo, can_redo;
  g_autofree char *undo = NULL, *redo = NULL;
  g_autofree char *undo_words = NULL, *redo_words = NULL;

  g_object_get (self->model,
                "can-undo", &can_undo, "undo-label", &undo,
                "can-redo", &can_redo, "redo-label", &redo,
                NULL);

  /* Translators: %s is what was done, such as Change Room. */
  undo_words = can_undo ? g_strdup_printf (_("Undo: %s"), undo) : g_strdup (_("Nothing to Undo"));
  /* Translators: %s is what was done, such as Change Room. */
  redo_words = can_redo ? g_strdup_printf (_("Redo: %s"), redo) : g_strdup (_("Nothing to Redo"));

  show_step (self, self->undo_button, "job.undo", can_undo, undo_words);
  show_step (self, self->redo_button, "job.redo", can_redo, redo_words);
}

static void
show_saved (WbJobPage *self)
{
  gboolean unsaved;
  g_autofree char *fault = NULL;

  g_object_get (self->model, "unsaved", &unsaved, "fault", &fault, NULL);

  gtk_label_set_label (self->saved, fault != NULL ? _("Not stored") :
                                    unsaved ? _("Storing…") : _("Stored"));
  gtk_label_set_label (self->fault, fault != NULL ? fault : "");
  gtk_button_set_label (self->fault_button,
                        wb_job_model_in_conflict (self->model) ? _("C_hoose") : _("Try _Again"));
  gtk_info_bar_set_revealed (self->fault_bar, fault != NULL);
}

/* --- a clash with another window -------------------------------------------------------------- */

/* Asks once; a page that is not shown asks when it is. */
static void
conflict_cb (WbJobPage *self)
{
  show_saved (self);
  if (self->conflict_dialog == NULL && gtk_widget_get_mapped (GTK_WIDGET (self)) &&
      wb_job_model_in_conflict (self->model))
    g_set_weak_pointer (&self->conflict_dialog,
                        wb_conflict_dialog_show (GTK_WIDGET (self), self->model));
}

static gboolean
ask_cb (gpointer data)
{
  WbJobPage *self = WB_JOB_PAGE (data);

  if (self->model != NULL)
    conflict_cb (self);
  return G_SOURCE_REMOVE;
}

static void
wb_job_page_map (GtkWidget *widget)
{
  WbJobPage *self = WB_JOB_PAGE (widget);

  GTK_WIDGET_CLASS (wb_job_page_parent_class)->map (widget);

  /* Not from within: the window is not yet there to be asked above. */
  if (self->model != NULL && wb_job_model_in_conflict (self->model))
    g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, ask_cb, g_object_ref (self), g_object_unref);
}

static void
fault_clicked_cb (WbJobPage *self)
{
  if (wb_job_model_in_conflict (self->model))
    conflict_cb (self);
  else
    wb_job_model_flush_async (self->model, NULL, NULL, NULL);
}

/* --- the pages -------------------------------------------------------------------------------- */

/* The button of a toast undoes what it tells of, nothing later. */
static void
job_changed_cb (WbJobPage *self)
{
  if (self->toast != NULL)
    adw_toast_dismiss (self->toast);
  show_job (self);
}

static const WbPageEntry *
find_entry (const char *name)
{
  gsize n_pages;
  const WbPageEntry *pages = wb_page_list (&n_pages);

  for (gsize i = 0; i < n_pages; i++)
    if (g_strcmp0 (pages[i].name, name) == 0)
      return &pages[i];
  return NULL;
}

/* Makes the page that is to be shown, when it was not there before. */
static void
fill_bin (WbJobPage *self)
{
  AdwBin *bin = ADW_BIN (adw_view_stack_get_visible_child (self->stack));
  const WbPageEntry *entry = find_entry (adw_view_stack_get_visible_child_name (self->stack));
  GtkWidget *page;

  if (bin == NULL || entry == NULL || adw_bin_get_child (bin) != NULL)
    return;
  page = entry->make (self->model);
  g_object_set (page, "accessible-role", GTK_ACCESSIBLE_ROLE_TAB_PANEL, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (page), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _(entry->title), -1);
  adw_bin_set_child (bin, page);
}

static void
page_shown_cb (WbJobPage *self)
{
  fill_bin (self);
  wb_page_tabs_choose (self->tabs, adw_view_stack_get_visible_child_name (self->stack));
  /* What was typed on the page before is set by the focus leaving it. */
  if (gtk_widget_get_root (GTK_WIDGET (self)) != NULL && self->model != NULL)
    wb_job_page_settle (self);
}

static void
leave_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  g_signal_emit (widget, signals[LEAVE], 0);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
add_pages (WbJobPage *self)
{
  gsize n_pages;
  const WbPageEntry *pages = wb_page_list (&n_pages);

  for (gsize i = 0; i < n_pages; i++)
    wb_page_tabs_add (self->tabs, &pages[i]);
  for (gsize i = 0; i < n_pages; i++)
    adw_view_stack_add_named (self->stack, adw_bin_new (), pages[i].name);
}

static void
set_model (WbJobPage  *self,
           WbJobModel *model)
{
  if (model == NULL)
    return;

  self->model = g_object_ref (model);
  g_signal_group_set_target (self->model_signals, model);
  add_pages (self);
  show_job (self);
  show_steps (self);
  show_saved (self);
}

static void
wb_job_page_get_property (GObject    *object,
                          guint       prop_id,
                          GValue     *value,
                          GParamSpec *pspec)
{
  WbJobPage *self = WB_JOB_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    case PROP_SHOW_BACK:
      g_value_set_boolean (value, self->show_back);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_job_page_set_property (GObject      *object,
                          guint         prop_id,
                          const GValue *value,
                          GParamSpec   *pspec)
{
  WbJobPage *self = WB_JOB_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (self, g_value_get_object (value));
      break;
    case PROP_SHOW_BACK:
      self->show_back = g_value_get_boolean (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_job_page_dispose (GObject *object)
{
  WbJobPage *self = WB_JOB_PAGE (object);

  g_clear_object (&self->model_signals);
  g_clear_weak_pointer (&self->conflict_dialog);
  g_clear_weak_pointer (&self->toast);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_JOB_PAGE);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_job_page_parent_class)->dispose (object);
}

/* Where a page wants the focus to begin is for the page to say. */
static gboolean
wb_job_page_grab_focus (GtkWidget *widget)
{
  GtkWidget *page = wb_job_page_get_visible (WB_JOB_PAGE (widget));

  return page != NULL && (gtk_widget_grab_focus (page) ||
                          gtk_widget_child_focus (page, GTK_DIR_TAB_FORWARD));
}

static void
wb_job_page_class_init (WbJobPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_job_page_get_property;
  object_class->set_property = wb_job_page_set_property;
  object_class->dispose = wb_job_page_dispose;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_job_page_grab_focus;
  widget_class->map = wb_job_page_map;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  properties[PROP_SHOW_BACK] =
    g_param_spec_boolean ("show-back", NULL, NULL, FALSE,
                          G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[LEAVE] = g_signal_new ("leave", WB_TYPE_JOB_PAGE, G_SIGNAL_RUN_LAST,
                                 0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  g_type_ensure (WB_TYPE_PAGE_TABS);
  g_type_ensure (WB_TYPE_PUBLISH_STRIP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/job/wb-job-page.ui");
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, box);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, title);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, details);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, undo_button);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, redo_button);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, saved);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, fault_bar);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, fault);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, fault_button);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, toasts);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, tabs);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, publish);
  gtk_widget_class_bind_template_child (widget_class, WbJobPage, stack);
  gtk_widget_class_bind_template_callback (widget_class, fault_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, page_shown_cb);

  gtk_widget_class_install_action (widget_class, "job.leave", NULL, leave_action);
  wb_job_page_install_actions (widget_class);
}

static void
wb_job_page_init (WbJobPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));

  self->model_signals = g_signal_group_new (WB_TYPE_JOB_MODEL);
  g_signal_group_connect_swapped (self->model_signals, "notify::job", G_CALLBACK (job_changed_cb),
                                  self);
  g_signal_group_connect_swapped (self->model_signals, "notify::can-undo", G_CALLBACK (show_steps),
                                  self);
  g_signal_group_connect_swapped (self->model_signals, "notify::can-redo", G_CALLBACK (show_steps),
                                  self);
  g_signal_group_connect_swapped (self->model_signals, "notify::unsaved", G_CALLBACK (show_saved),
                                  self);
  g_signal_group_connect_swapped (self->model_signals, "notify::fault", G_CALLBACK (show_saved),
                                  self);
  g_signal_group_connect_swapped (self->model_signals, "conflict", G_CALLBACK (conflict_cb), self);
}

GtkWidget *
wb_job_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_JOB_PAGE, "model", model, NULL);
}

WbJobModel *
wb_job_page_get_model (WbJobPage *self)
{
  g_return_val_if_fail (WB_IS_JOB_PAGE (self), NULL);

  return self->model;
}

GtkWidget *
wb_job_page_get_visible (WbJobPage *self)
{
  g_return_val_if_fail (WB_IS_JOB_PAGE (self), NULL);

  return adw_bin_get_child (ADW_BIN (adw_view_stack_get_visible_child (self->stack)));
}

const char *
wb_job_page_get_visible_name (WbJobPage *self)
{
  g_return_val_if_fail (WB_IS_JOB_PAGE (self), NULL);

  return adw_view_stack_get_visible_child_name (self->stack);
}

static gboolean
is_first_visit (GtkWidget *page)
{
  gboolean first = g_object_get_data (G_OBJECT (page), "visited") == NULL;

  g_object_set_data (G_OBJECT (page), "visited", GINT_TO_POINTER (TRUE));
  return first;
}

/* Where the focus is within the page already, it stays; but what the stack chose at the first visit
 * is only the first thing there. */
static void
focus_page (WbJobPage *self)
{
  GtkWidget *page = wb_job_page_get_visible (self);
  GtkRoot *root = gtk_widget_get_root (page);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (!is_first_visit (page)
      && focus != NULL && (focus == page || gtk_widget_is_ancestor (focus, page)))
    return;

  gtk_widget_grab_focus (GTK_WIDGET (self));
}

void
wb_job_page_show (WbJobPage  *self,
                  const char *name)
{
  g_return_if_fail (WB_IS_JOB_PAGE (self));

  if (name == NULL || adw_view_stack_get_child_by_name (self->stack, name) == NULL)
    return;

  adw_view_stack_set_visible_child_name (self->stack, name);
  focus_page (self);
}

void
wb_job_page_reveal (WbJobPage  *self,
                    WbKind      kind,
                    const char *id,
                    const char *field)
{
  const WbPageEntry *entry = wb_page_list_of_kind (kind);

  g_return_if_fail (WB_IS_JOB_PAGE (self));

  if (entry == NULL)
    {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return;
    }

  wb_job_page_show (self, entry->name);
  wb_reveal (wb_job_page_get_visible (self), kind, id, field);
}

void
wb_job_page_ask_servers (WbJobPage *self)
{
  g_return_if_fail (WB_IS_JOB_PAGE (self));

  wb_publish_strip_ask (self->publish);
}

void
wb_job_page_settle (WbJobPage *self)
{
  GtkRoot *root;
  GtkWidget *focus;

  g_return_if_fail (WB_IS_JOB_PAGE (self));

  root = gtk_widget_get_root (GTK_WIDGET (self));
  focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  if (focus == NULL || !gtk_widget_is_ancestor (focus, GTK_WIDGET (self)))
    return;

  g_object_ref (focus);
  gtk_root_set_focus (root, NULL);
  if (gtk_widget_get_mapped (focus))
    gtk_root_set_focus (root, focus);
  g_object_unref (focus);
}
