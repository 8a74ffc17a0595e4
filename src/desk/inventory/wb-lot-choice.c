/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Choosing a lot. The list is the job's own, with one line for none before it. Editing lots is the
 * lot editor's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-lot-choice.h"

#include "desk/widgets/wb-focus-within.h"
#include "desk/widgets/wb-scroll-to.h"

#include <glib/gi18n.h>

struct _WbLotChoice
{
  GtkWidget    parent_instance;

  GtkWidget   *caption;
  GtkDropDown *drop_down;
  GListModel  *lots;        /* "no lot", then the lots */
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbLotChoice, wb_lot_choice, GTK_TYPE_WIDGET)

char *
wb_lot_choice_describe (const WbLot *lot,
                        gboolean     range)
{
  g_autofree char *name = NULL;

  name = g_strjoin (lot->colour != NULL
                    && lot->number != NULL ? " " : "", lot->colour != NULL ? lot->colour : "",
                    lot->number != NULL ? lot->number : "", NULL);
  if (!range || lot->first == WB_INTEGER_UNSET || lot->last == WB_INTEGER_UNSET)
    return g_steal_pointer (&name);
  /* Translators: a lot of tags, its first and its last tag. */
  return g_strdup_printf (_("%s (%d–%d)"), name, (int) lot->first, (int) lot->last);
}

/* A lot's record, or NULL for the line that stands for no lot. */
static const WbLot *
lot_of (gpointer item)
{
  return WB_IS_RECORD_ITEM (item) ? wb_record_item_get_record (item) : NULL;
}

/* The open list says what tags a lot has; the button has no room for it. */
static void
show_lot (GtkLabel *label,
          gpointer  item)
{
  gboolean range = g_object_get_data (G_OBJECT (label), "range") != NULL;
  const WbLot *lot = lot_of (item);
  g_autofree char *text = lot != NULL
    ? wb_lot_choice_describe (lot, range) : g_strdup (_("No lot"));

  gtk_label_set_text (label, text);
}

static void
record_changed_cb (WbRecordItem *item,
                   GParamSpec   *pspec,
                   GtkLabel     *label)
{
  show_lot (label, item);
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *list_item,
          gpointer                  range)
{
  GtkWidget *label = gtk_label_new (NULL);

  g_object_set_data (G_OBJECT (label), "range", range);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 10);
  gtk_widget_add_css_class (label, "numeric");
  gtk_list_item_set_child (list_item, label);
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *list_item)
{
  GtkWidget *label = gtk_list_item_get_child (list_item);
  gpointer item = gtk_list_item_get_item (list_item);

  show_lot (GTK_LABEL (label), item);
  if (WB_IS_RECORD_ITEM (item))
    g_signal_connect_object (item, "notify::record", G_CALLBACK (record_changed_cb), label, 0);
}

static void
unbind_cb (GtkSignalListItemFactory *factory,
           GtkListItem              *list_item)
{
  gpointer item = gtk_list_item_get_item (list_item);

  if (WB_IS_RECORD_ITEM (item))
    g_signal_handlers_disconnect_by_func (item, record_changed_cb,
                                          gtk_list_item_get_child (list_item));
}

static GtkListItemFactory *
make_factory (gboolean range)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), GINT_TO_POINTER (range));
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), NULL);
  return factory;
}

static void
selected_cb (WbLotChoice *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

static gboolean
is_open (WbLotChoice *self)
{
  GtkWidget *button = gtk_widget_get_first_child (GTK_WIDGET (self->drop_down));

  return GTK_IS_TOGGLE_BUTTON (button) && gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (button));
}

/* Up and Down choose at once, without the list being opened. */
static gboolean
key_pressed_cb (WbLotChoice           *self,
                guint                  keyval,
                guint                  keycode,
                GdkModifierType        state,
                GtkEventControllerKey *controller)
{
  guint selected = gtk_drop_down_get_selected (self->drop_down);

  if ((state & gtk_accelerator_get_default_mod_mask ()) != 0 || is_open (self))
    return GDK_EVENT_PROPAGATE;

  if ((keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down)
      && selected + 1 < g_list_model_get_n_items (self->lots))
    gtk_drop_down_set_selected (self->drop_down, selected + 1);
  else if ((keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up) && selected > 0)
    gtk_drop_down_set_selected (self->drop_down, selected - 1);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

/* Alt+L takes the focus there, as it does with the fields beside it. */
static gboolean
mnemonic_cb (WbLotChoice *self)
{
  return gtk_widget_grab_focus (GTK_WIDGET (self->drop_down));
}

static void
wb_lot_choice_dispose (GObject *object)
{
  WbLotChoice *self = WB_LOT_CHOICE (object);

  g_clear_pointer (&self->caption, gtk_widget_unparent);
  if (self->drop_down != NULL)
    {
      g_signal_handlers_disconnect_by_func (self->drop_down, selected_cb, self);
      gtk_widget_unparent (GTK_WIDGET (self->drop_down));
      self->drop_down = NULL;
    }
  g_clear_object (&self->lots);

  G_OBJECT_CLASS (wb_lot_choice_parent_class)->dispose (object);
}

static gboolean
wb_lot_choice_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (WB_LOT_CHOICE (widget)->drop_down));
}

static void
wb_lot_choice_class_init (WbLotChoiceClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_lot_choice_dispose;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_lot_choice_grab_focus;

  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_LOT_CHOICE, G_SIGNAL_RUN_LAST,
                                   0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
}

static void
wb_lot_choice_init (WbLotChoice *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));
  g_autoptr (GtkListItemFactory) factory = make_factory (FALSE);
  g_autoptr (GtkListItemFactory) list_factory = make_factory (TRUE);
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkWidget *button;

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 2);

  self->drop_down = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
  gtk_drop_down_set_factory (self->drop_down, factory);
  gtk_drop_down_set_list_factory (self->drop_down, list_factory);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->drop_down), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Lot"), -1);
  /* The button inside has the focus. */
  button = gtk_widget_get_first_child (GTK_WIDGET (self->drop_down));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("Lot"), -1);
  g_signal_connect_swapped (self->drop_down, "notify::selected-item", G_CALLBACK (selected_cb),
                            self);

  g_signal_connect_swapped (self->drop_down, "mnemonic-activate", G_CALLBACK (mnemonic_cb), self);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->drop_down), keys);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (wb_scroll_to), self);
  gtk_widget_add_controller (GTK_WIDGET (self->drop_down), focus);

  self->caption = gtk_label_new_with_mnemonic (_("_Lot"));
  gtk_label_set_xalign (GTK_LABEL (self->caption), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (self->caption), GTK_WIDGET (self->drop_down));
  gtk_widget_add_css_class (self->caption, "caption");
  gtk_widget_add_css_class (self->caption, "dim-label");

  gtk_widget_set_parent (self->caption, GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->drop_down), GTK_WIDGET (self));
}

GtkWidget *
wb_lot_choice_new (void)
{
  return g_object_new (WB_TYPE_LOT_CHOICE, NULL);
}

void
wb_lot_choice_set_model (WbLotChoice *self,
                         WbJobModel  *model)
{
  const char *none[] = { "", NULL };
  GListStore *parts = g_list_store_new (G_TYPE_LIST_MODEL);
  g_autoptr (GtkStringList) first = gtk_string_list_new (none);

  g_return_if_fail (WB_IS_LOT_CHOICE (self));
  g_return_if_fail (self->lots == NULL);

  g_list_store_append (parts, first);
  g_list_store_append (parts, wb_job_model_get_records (model, WB_KIND_LOT));
  self->lots = G_LIST_MODEL (gtk_flatten_list_model_new (G_LIST_MODEL (parts)));
  gtk_drop_down_set_model (self->drop_down, self->lots);
}

const char *
wb_lot_choice_get_lot (WbLotChoice *self)
{
  const WbLot *lot = lot_of (gtk_drop_down_get_selected_item (self->drop_down));

  return lot != NULL ? lot->record.id : NULL;
}

void
wb_lot_choice_set_lot (WbLotChoice *self,
                       const char  *lot)
{
  guint n = self->lots != NULL ? g_list_model_get_n_items (self->lots) : 0;
  guint position = 0;

  for (guint i = 1; i < n && lot != NULL; i++)
    {
      g_autoptr (GObject) item = g_list_model_get_item (self->lots, i);

      if (g_str_equal (lot_of (item)->record.id, lot))
        position = i;
    }
  gtk_drop_down_set_selected (self->drop_down, position);
}
