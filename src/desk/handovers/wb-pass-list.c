/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists pieces by what a handover says of them. Only lines that changed are put in anew, so that
 * the place in the list stays while a count goes on. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/handovers/wb-pass-list.h"

#include <glib/gi18n.h>

#include "desk/handovers/wb-pass-item.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-one-stop.h"
#include "desk/widgets/wb-row-name.h"
#include "office/wb-words-trail.h"

/* Which pieces are listed, in the order of the buttons. */
typedef enum
{
  LIST_LEFT,
  LIST_SHORT,
  LIST_OVER,
  LIST_MARKED,
  LIST_ALL,
} Listed;

#define N_LISTS 5

struct _WbPassList
{
  GtkWidget           parent_instance;

  GtkWidget          *box;
  GtkWidget          *choices;
  GtkLabel           *ranges;
  GtkWidget          *lines_place;
  GtkListView        *view;
  GtkWidget          *buttons[N_LISTS];

  GListStore         *lines;       /* of WbPassItem */
  GtkSingleSelection *selection;
  WbJob              *job;
  const WbTrail      *trail;       /* borrowed: the page shows another before it goes */
  guint               handover;
  WbCount             count;       /* how far the count was when last shown */
  char               *chosen;      /* id of the piece last told of */
};

enum
{
  PIECE_CHOSEN,
  PIECE_ACTIVATED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbPassList, wb_pass_list, GTK_TYPE_WIDGET)

/* --- lines ------------------------------------------------------------------------------------ */

static void
bind_row_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *list_item)
{
  WbPassItem *item = gtk_list_item_get_item (list_item);
  GtkWidget *row = gtk_list_item_get_child (list_item);
  GtkWidget *tag = gtk_widget_get_first_child (row);
  GtkWidget *what = gtk_widget_get_next_sibling (tag);
  GtkWidget *state = gtk_widget_get_next_sibling (what);
  g_autofree char *name = g_strdup_printf ("%s, %s, %s", wb_pass_item_get_tag (item),
                                           wb_pass_item_get_what (item),
                                           wb_pass_item_get_state (item));

  gtk_label_set_label (GTK_LABEL (tag), wb_pass_item_get_tag (item));
  gtk_label_set_label (GTK_LABEL (what), wb_pass_item_get_what (item));
  gtk_label_set_label (GTK_LABEL (state), wb_pass_item_get_state (item));
  gtk_widget_set_tooltip_text (row, name);
  wb_row_name_set (row, name);
}

static GtkWidget *
make_label (const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 7);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
setup_row_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *list_item)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *what = make_label (NULL);
  GtkWidget *result = make_label ("dim-label");

  gtk_label_set_xalign (GTK_LABEL (result), 1);
  gtk_widget_set_hexpand (what, TRUE);
  gtk_box_append (GTK_BOX (row), make_label ("numeric"));
  gtk_box_append (GTK_BOX (row), what);
  gtk_box_append (GTK_BOX (row), result);
  gtk_list_item_set_child (list_item, row);
}

static GPtrArray *
all_pieces (const WbJob *job)
{
  GPtrArray *pieces = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    g_ptr_array_add (pieces, (gpointer) wb_job_nth (job, WB_KIND_PIECE, i));
  return pieces;
}

static GPtrArray *
pieces_of (WbPassList *self,
           Listed      listed)
{
  const WbHandoverFacts *facts = wb_trail_handover (self->trail, self->handover);

  switch (listed)
    {
    case LIST_LEFT:
      return g_ptr_array_ref (facts->left);
    case LIST_SHORT:
      return g_ptr_array_ref (facts->shortages);
    case LIST_OVER:
      return g_ptr_array_ref (facts->overages);
    case LIST_MARKED:
      return g_ptr_array_ref (facts->marked);
    case LIST_ALL:
      return all_pieces (self->job);
    }

  g_assert_not_reached ();
}

static WbPassItem *
make_item (WbPassList    *self,
           const WbPiece *piece)
{
  gint place = wb_job_index (self->job, WB_KIND_PIECE, piece->record.id);
  g_autofree char *tag = wb_words_tag (self->job, piece);
  g_autofree char *state = wb_words_pass (self->trail, self->handover, (guint) place);
  const char *what = piece->description != NULL ? piece->description : piece->contents;

  return wb_pass_item_new (piece->record.id, tag, what != NULL ? what : _("not described"), state);
}

/* Puts @fresh in place of the lines, leaving alone what is the same at both ends. */
static void
replace_lines (WbPassList *self,
               GPtrArray  *fresh)
{
  guint n_old = g_list_model_get_n_items (G_LIST_MODEL (self->lines));
  guint head = 0, tail = 0;

  while (head < MIN (n_old, fresh->len))
    {
      g_autoptr (WbPassItem) old = g_list_model_get_item (G_LIST_MODEL (self->lines), head);

      if (!wb_pass_item_equal (old, g_ptr_array_index (fresh, head)))
        break;
      head++;
    }
  while (tail < MIN (n_old, fresh->len) - head)
    {
      g_autoptr (WbPassItem) old = g_list_model_get_item (G_LIST_MODEL (self->lines),
                                                          n_old - tail - 1);

      if (!wb_pass_item_equal (old, g_ptr_array_index (fresh, fresh->len - tail - 1)))
        break;
      tail++;
    }

  if (head + tail < MAX (n_old, fresh->len))
    g_list_store_splice (self->lines, head, n_old - head - tail,
                         fresh->pdata != NULL ? fresh->pdata + head : NULL,
                         fresh->len - head - tail);
}

/* --- what is shown ---------------------------------------------------------------------------- */

static Listed
get_listed (WbPassList *self)
{
  for (int i = 0; i < N_LISTS; i++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->buttons[i])))
      return (Listed) i;

  return LIST_ALL;
}

static guint
count_of (const WbHandoverFacts *facts,
          Listed                 listed)
{
  switch (listed)
    {
    case LIST_LEFT:
      return facts->left->len;
    case LIST_SHORT:
      return facts->shortages->len;
    case LIST_OVER:
      return facts->overages->len + (guint) facts->n_strays;
    case LIST_MARKED:
      return facts->marked->len;
    case LIST_ALL:
      return facts->n_pieces;
    }

  g_assert_not_reached ();
}

static const char *
name_of (Listed listed)
{
  switch (listed)
    {
    case LIST_LEFT:
      /* Translators: pieces that are still to be counted. */
      return _("Left");
    case LIST_SHORT:
      /* Translators: pieces that were not there at a handover. */
      return _("Short");
    case LIST_OVER:
      /* Translators: pieces that were there at a handover and should not have been. */
      return _("Over");
    case LIST_MARKED:
      return _("New Marks");
    case LIST_ALL:
      return _("All");
    }

  g_assert_not_reached ();
}

static void
show_counts (WbPassList            *self,
             const WbHandoverFacts *facts)
{
  for (int i = 0; i < N_LISTS; i++)
    {
      /* Translators: which pieces, and how many there are. */
      g_autofree char *label = g_strdup_printf (_("%s %u"), name_of ((Listed) i),
                                                count_of (facts, (Listed) i));

      gtk_button_set_label (GTK_BUTTON (self->buttons[i]), label);
    }
}

static void
show_ranges (WbPassList            *self,
             Listed                 listed,
             GPtrArray             *pieces,
             const WbHandoverFacts *facts)
{
  g_autofree char *ranges = wb_words_pieces (self->job, pieces);
  g_autofree char *strays = wb_words_strays (facts->strays);
  GString *text = g_string_new (ranges);

  if (listed == LIST_OVER && *strays != '\0')
    {
      if (text->len > 0)
        g_string_append_c (text, '\n');
      /* Translators: tags by lot. */
      g_string_append_printf (text, _("Not on the inventory: %s"), strays);
    }
  if (text->len == 0)
    g_string_append (text, _("No pieces"));

  gtk_label_set_label (self->ranges, text->str);
  g_string_free (text, TRUE);
}

static void
show_lines (WbPassList *self)
{
  const WbHandoverFacts *facts = wb_trail_handover (self->trail, self->handover);
  Listed listed = get_listed (self);
  g_autoptr (GPtrArray) pieces = pieces_of (self, listed);
  g_autoptr (GPtrArray) fresh = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < pieces->len; i++)
    g_ptr_array_add (fresh, make_item (self, g_ptr_array_index (pieces, i)));

  show_counts (self, facts);
  show_ranges (self, listed, pieces, facts);
  replace_lines (self, fresh);
  gtk_widget_set_visible (self->lines_place, pieces->len > 0);
}

static void
listed_cb (WbPassList      *self,
           GParamSpec      *pspec,
           GtkToggleButton *button)
{
  if (gtk_toggle_button_get_active (button) && self->trail != NULL)
    show_lines (self);
}

/* --- choosing --------------------------------------------------------------------------------- */

static void
selected_cb (WbPassList *self)
{
  WbPassItem *item = gtk_single_selection_get_selected_item (self->selection);
  const char *piece = item != NULL ? wb_pass_item_get_piece (item) : NULL;

  /* A line that left the list, because it was counted, is still looked at. */
  if (piece == NULL || g_strcmp0 (piece, self->chosen) == 0)
    return;

  g_free (self->chosen);
  self->chosen = g_strdup (piece);
  g_signal_emit (self, signals[PIECE_CHOSEN], 0, piece);
}

static void
activate_cb (WbPassList *self,
             guint       position)
{
  g_autoptr (WbPassItem) item = g_list_model_get_item (G_LIST_MODEL (self->lines), position);
  g_autofree char *piece = item != NULL ? g_strdup (wb_pass_item_get_piece (item)) : NULL;

  if (piece != NULL)
    g_signal_emit (self, signals[PIECE_ACTIVATED], 0, piece);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
add_buttons (WbPassList *self)
{
  for (int i = 0; i < N_LISTS; i++)
    {
      self->buttons[i] = gtk_toggle_button_new ();
      if (i > 0)
        gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (self->buttons[i]),
                                     GTK_TOGGLE_BUTTON (self->buttons[0]));
      g_signal_connect_object (self->buttons[i], "notify::active", G_CALLBACK (listed_cb), self,
                               G_CONNECT_SWAPPED);
      gtk_box_append (GTK_BOX (self->choices), self->buttons[i]);
    }
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->buttons[LIST_LEFT]), TRUE);
  gtk_widget_set_layout_manager (self->choices, wb_flow_layout_new (6, 6));
}

static void
wb_pass_list_dispose (GObject *object)
{
  WbPassList *self = WB_PASS_LIST (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_PASS_LIST);
  g_clear_object (&self->selection);
  g_clear_object (&self->lines);
  g_clear_pointer (&self->job, wb_job_unref);
  self->trail = NULL;

  G_OBJECT_CLASS (wb_pass_list_parent_class)->dispose (object);
}

static void
wb_pass_list_finalize (GObject *object)
{
  g_free (WB_PASS_LIST (object)->chosen);

  G_OBJECT_CLASS (wb_pass_list_parent_class)->finalize (object);
}

static void
wb_pass_list_class_init (WbPassListClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_pass_list_dispose;
  object_class->finalize = wb_pass_list_finalize;

  signals[PIECE_CHOSEN] = g_signal_new ("piece-chosen", G_TYPE_FROM_CLASS (klass),
                                        G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                        G_TYPE_STRING);
  signals[PIECE_ACTIVATED] = g_signal_new ("piece-activated", G_TYPE_FROM_CLASS (klass),
                                           G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                           G_TYPE_STRING);

  g_type_ensure (WB_TYPE_ONE_STOP);
  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/handovers/wb-pass-list.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPassList, box);
  gtk_widget_class_bind_template_child (widget_class, WbPassList, choices);
  gtk_widget_class_bind_template_child (widget_class, WbPassList, ranges);
  gtk_widget_class_bind_template_child (widget_class, WbPassList, lines_place);
  gtk_widget_class_bind_template_child (widget_class, WbPassList, view);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
}

static void
wb_pass_list_init (WbPassList *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (factory, "setup", G_CALLBACK (setup_row_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_row_cb), NULL);
  gtk_list_view_set_factory (self->view, factory);

  self->lines = g_list_store_new (WB_TYPE_PASS_ITEM);
  self->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->lines)));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (selected_cb),
                           self, G_CONNECT_SWAPPED);
  gtk_list_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  add_buttons (self);
}

void
wb_pass_list_show (WbPassList    *self,
                   WbJob         *job,
                   const WbTrail *trail,
                   guint          handover)
{
  const WbHandoverFacts *facts = wb_trail_handover (trail, handover);
  gboolean other = self->trail == NULL || self->handover != handover
                   || self->count != facts->handover->count;

  g_return_if_fail (WB_IS_PASS_LIST (self));

  g_clear_pointer (&self->job, wb_job_unref);
  self->job = wb_job_ref (job);
  self->trail = trail;
  self->handover = handover;
  self->count = facts->handover->count;

  /* Of another handover, or when a count begins or ends, first what there is to do or to see. */
  if (other)
    {
      Listed first = facts->left->len > 0 ? LIST_LEFT
                     : facts->shortages->len > 0 ? LIST_SHORT
                     : facts->marked->len > 0 ? LIST_MARKED : LIST_ALL;

      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->buttons[first]), TRUE);
    }
  show_lines (self);
}
