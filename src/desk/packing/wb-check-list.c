/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list box with a row a check and the keys that keep them. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/packing/wb-check-list.h"

#include "office/wb-words-packing.h"

#include <glib/gi18n.h>

struct _WbCheckList
{
  GtkWidget   parent_instance;

  GtkListBox *box;
};

enum
{
  NOTE,
  ALL_MET,
  NEXT,
  SEEN,
  LEAVE,
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbCheckList, wb_check_list, GTK_TYPE_WIDGET)

/* --- rows ------------------------------------------------------------------------------------- */

static const char *
get_rule (GtkListBoxRow *row)
{
  return row != NULL ? g_object_get_data (G_OBJECT (row), "rule") : NULL;
}

static WbCheck
get_state (GtkListBoxRow *row)
{
  return (WbCheck) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), "state"));
}

static GtkLabel *
add_label (GtkWidget  *box,
           const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static GtkWidget *
make_row (const char *rule)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *icon = gtk_image_new ();
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  gtk_widget_set_margin_top (line, 6);
  gtk_widget_set_margin_bottom (line, 6);
  gtk_widget_set_margin_start (line, 12);
  gtk_widget_set_margin_end (line, 12);
  gtk_widget_set_hexpand (texts, TRUE);
  gtk_box_append (GTK_BOX (line), icon);
  gtk_box_append (GTK_BOX (line), texts);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), line);

  g_object_set_data_full (G_OBJECT (row), "rule", g_strdup (rule), g_free);
  g_object_set_data (G_OBJECT (row), "icon", icon);
  g_object_set_data (G_OBJECT (row), "title", add_label (texts, NULL));
  g_object_set_data (G_OBJECT (row), "words", add_label (texts, "caption"));
  g_object_set_data (G_OBJECT (row), "text", add_label (texts, "caption"));
  gtk_widget_add_css_class (g_object_get_data (G_OBJECT (row), "text"), "dim-label");
  return row;
}

static const char *
choose_icon (WbCheck state)
{
  switch (state)
    {
    case WB_CHECK_OPEN:
      return "radio-symbolic";
    case WB_CHECK_MET:
      return "emblem-ok-symbolic";
    case WB_CHECK_UNMET:
      return "dialog-warning-symbolic";
    }
  g_return_val_if_reached (NULL);
}

static void
show_row (GtkWidget            *row,
          const WbPackingState *state)
{
  GtkLabel *title = g_object_get_data (G_OBJECT (row), "title");
  GtkLabel *words = g_object_get_data (G_OBJECT (row), "words");
  GtkLabel *text = g_object_get_data (G_OBJECT (row), "text");
  g_autofree char *name = wb_words_packing_check (state);
  g_autofree char *kept = wb_words_packing_state (state);
  const char *rule = state->check != NULL ? state->check->rule : NULL;
  g_autofree char *all = g_strjoin (". ", name, kept, rule, NULL);

  g_object_set_data (G_OBJECT (row), "state", GINT_TO_POINTER ((int) state->state));
  gtk_image_set_from_icon_name (g_object_get_data (G_OBJECT (row), "icon"),
                                choose_icon (state->state));
  gtk_label_set_label (title, name);
  gtk_label_set_label (words, kept);
  if (state->state == WB_CHECK_UNMET)
    gtk_widget_add_css_class (GTK_WIDGET (words), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (words), "error");
  gtk_label_set_label (text, rule != NULL ? rule : "");
  gtk_widget_set_visible (GTK_WIDGET (text), rule != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, all, -1);
}

/* Whether the rows are of the checks, in their order. */
static gboolean
has_rows_of (WbCheckList *self,
             GPtrArray   *states)
{
  for (guint i = 0; i < states->len; i++)
    {
      const WbPackingState *state = g_ptr_array_index (states, i);
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->box, (int) i);

      if (row == NULL || !g_str_equal (get_rule (row), state->rule))
        return FALSE;
    }
  return gtk_list_box_get_row_at_index (self->box, (int) states->len) == NULL;
}

static void
make_rows (WbCheckList *self,
           GPtrArray   *states)
{
  g_autofree char *selected = g_strdup (wb_check_list_get_selected (self));
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->box, 0)) != NULL)
    gtk_list_box_remove (self->box, GTK_WIDGET (row));
  for (guint i = 0; i < states->len; i++)
    {
      const WbPackingState *state = g_ptr_array_index (states, i);
      GtkWidget *made = make_row (state->rule);

      gtk_list_box_append (self->box, made);
      if (g_strcmp0 (state->rule, selected) == 0)
        gtk_list_box_select_row (self->box, GTK_LIST_BOX_ROW (made));
    }
  if (gtk_list_box_get_selected_row (self->box) == NULL)
    gtk_list_box_select_row (self->box, gtk_list_box_get_row_at_index (self->box, 0));
}

/* --- keys ------------------------------------------------------------------------------------- */

static gboolean
note_cb (GtkWidget *widget,
         GVariant  *args,
         gpointer   data)
{
  WbCheckList *self = WB_CHECK_LIST (widget);
  const char *rule = wb_check_list_get_selected (self);

  if (rule == NULL)
    return FALSE;
  g_signal_emit (self, signals[NOTE], 0, rule, (int) g_variant_get_int32 (args));
  return TRUE;
}

static gboolean
seen_cb (GtkWidget *widget,
         GVariant  *args,
         gpointer   data)
{
  WbCheckList *self = WB_CHECK_LIST (widget);

  if (wb_check_list_get_selected (self) == NULL)
    return FALSE;
  g_signal_emit (self, signals[SEEN], 0, wb_check_list_get_selected (self));
  return TRUE;
}

static gboolean
signal_cb (GtkWidget *widget,
           GVariant  *args,
           gpointer   data)
{
  g_signal_emit (widget, signals[g_variant_get_int32 (args)], 0);
  return TRUE;
}

static void
add_key (GtkShortcutController *controller,
         const char            *trigger,
         GtkShortcutFunc        function,
         int                    value)
{
  GtkShortcut *shortcut = gtk_shortcut_new (gtk_shortcut_trigger_parse_string (trigger),
                                            gtk_callback_action_new (function, NULL, NULL));

  gtk_shortcut_set_arguments (shortcut, g_variant_new_int32 (value));
  gtk_shortcut_controller_add_shortcut (controller, shortcut);
}

/* Before the list box gets them: it would take Space and Enter for itself. */
static void
add_keys (WbCheckList *self)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();
  GtkShortcutController *keys = GTK_SHORTCUT_CONTROLLER (controller);

  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);
  add_key (keys, "space", note_cb, WB_CHECK_MET);
  add_key (keys, "m", note_cb, WB_CHECK_MET);
  add_key (keys, "u", note_cb, WB_CHECK_UNMET);
  add_key (keys, "o", note_cb, WB_CHECK_OPEN);
  add_key (keys, "BackSpace", note_cb, WB_CHECK_OPEN);
  add_key (keys, "Return|KP_Enter", seen_cb, 0);
  add_key (keys, "a", signal_cb, ALL_MET);
  add_key (keys, "n", signal_cb, NEXT);
  add_key (keys, "Escape", signal_cb, LEAVE);
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
row_selected_cb (WbCheckList *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

/* Tab goes past the checks, which the arrow keys go along. */
static gboolean
wb_check_list_move_focus (GtkWidget        *widget,
                          GtkDirectionType  direction)
{
  WbCheckList *self = WB_CHECK_LIST (widget);

  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return gtk_widget_child_focus (GTK_WIDGET (self->box), direction);
  if (gtk_widget_get_focus_child (widget) != NULL)
    return FALSE;
  return wb_check_list_focus (self);
}

static void
wb_check_list_dispose (GObject *object)
{
  WbCheckList *self = WB_CHECK_LIST (object);
  GtkWidget *child;

  if (self->box != NULL)
    g_signal_handlers_disconnect_by_func (self->box, row_selected_cb, self);
  self->box = NULL;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);

  G_OBJECT_CLASS (wb_check_list_parent_class)->dispose (object);
}

static void
wb_check_list_class_init (WbCheckListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_check_list_dispose;
  widget_class->focus = wb_check_list_move_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);

  signals[NOTE] = g_signal_new ("note", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                2, G_TYPE_STRING, G_TYPE_INT);
  signals[ALL_MET] = g_signal_new ("all-met", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  signals[NEXT] = g_signal_new ("next", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                0);
  signals[SEEN] = g_signal_new ("seen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                1, G_TYPE_STRING);
  signals[LEAVE] = g_signal_new ("leave", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                 0);
  signals[CHANGED] = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
wb_check_list_init (WbCheckList *self)
{
  GtkWidget *box = gtk_list_box_new ();

  self->box = GTK_LIST_BOX (box);
  gtk_list_box_set_selection_mode (self->box, GTK_SELECTION_BROWSE);
  gtk_widget_add_css_class (box, "boxed-list");
  gtk_widget_set_valign (box, GTK_ALIGN_START);
  gtk_accessible_update_property (GTK_ACCESSIBLE (box), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Packing checks"), -1);
  gtk_widget_set_parent (box, GTK_WIDGET (self));
  g_signal_connect_swapped (box, "row-selected", G_CALLBACK (row_selected_cb), self);
  add_keys (self);
}

void
wb_check_list_show (WbCheckList *self,
                    GPtrArray   *states,
                    gboolean     anew)
{
  g_return_if_fail (WB_IS_CHECK_LIST (self));

  if (!has_rows_of (self, states))
    make_rows (self, states);
  if (anew)
    gtk_list_box_select_row (self->box, gtk_list_box_get_row_at_index (self->box, 0));
  for (guint i = 0; i < states->len; i++)
    show_row (GTK_WIDGET (gtk_list_box_get_row_at_index (self->box, (int) i)),
              g_ptr_array_index (states, i));
  gtk_widget_set_visible (GTK_WIDGET (self), states->len > 0);
}

const char *
wb_check_list_get_selected (WbCheckList *self)
{
  g_return_val_if_fail (WB_IS_CHECK_LIST (self), NULL);

  return get_rule (gtk_list_box_get_selected_row (self->box));
}

static int
count_rows (WbCheckList *self)
{
  int n = 0;

  while (gtk_list_box_get_row_at_index (self->box, n) != NULL)
    n++;
  return n;
}

gboolean
wb_check_list_go_to_open (WbCheckList *self,
                          gboolean     from_top)
{
  GtkListBoxRow *selected;
  int n, start;

  g_return_val_if_fail (WB_IS_CHECK_LIST (self), FALSE);

  selected = gtk_list_box_get_selected_row (self->box);
  n = count_rows (self);
  start = selected != NULL && !from_top ? gtk_list_box_row_get_index (selected) : n - 1;
  for (int i = 1; i <= n; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->box, (start + i) % n);

      if (get_state (row) != WB_CHECK_OPEN)
        continue;
      gtk_list_box_select_row (self->box, row);
      gtk_widget_grab_focus (GTK_WIDGET (row));
      return TRUE;
    }
  return FALSE;
}

gboolean
wb_check_list_focus (WbCheckList *self)
{
  GtkListBoxRow *row;

  g_return_val_if_fail (WB_IS_CHECK_LIST (self), FALSE);

  row = gtk_list_box_get_selected_row (self->box);
  if (row == NULL)
    row = gtk_list_box_get_row_at_index (self->box, 0);
  return row != NULL && gtk_widget_grab_focus (GTK_WIDGET (row));
}
