/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows what handlers bear as bars with a key. The amounts are the apportionment's; here they are
 * only put beside each other. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-bearing-handlers.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-bearing-bar.h"
#include "desk/claim/wb-why-button.h"
#include "desk/widgets/wb-flow-layout.h"
#include "office/wb-words-bearing.h"

#define NAME_CHARS 24

/* The widgets of one handler, in two rows of the grid. */
typedef struct
{
  GtkWidget *name;
  GtkWidget *bar;
  GtkWidget *amount;
  GtkWidget *note;
} Place;

struct _WbBearingHandlers
{
  GtkWidget  parent_instance;

  GtkWidget *grid;
  GtkWidget *key;
  GtkWidget *entries[WB_N_BEARS];
  GtkWidget *limit_entry;
  GArray    *places;      /* of Place */
};

G_DEFINE_FINAL_TYPE (WbBearingHandlers, wb_bearing_handlers, GTK_TYPE_WIDGET)

/* --- figures ---------------------------------------------------------------------------------- */

static gint64
sum_of_cuts (const WbApportionment *self,
             const WbLineShares    *line)
{
  gint64 sum = 0;

  for (guint i = 0; i < self->n_handlers; i++)
    sum += line->cut[i];
  return sum;
}

/* What a handler's bar is made of. All of it was added up in core within 64 bits. */
static void
find_parts (const WbApportionment *self,
            guint                  index,
            gint64                *parts)
{
  const WbHandler *handler = &self->handlers[index];

  for (int i = 0; i < WB_N_BEARS; i++)
    parts[i] = 0;
  for (guint i = 0; i < self->n_lines; i++)
    {
      const WbLineShares *line = &self->lines[i];
      gint64 taken_over = index == 0 ? sum_of_cuts (self, line) : 0;

      parts[WB_BEARS_FOR_OTHERS] += taken_over;
      if (line->why == WB_SHARED_BY_HAND)
        parts[WB_BEARS_BY_HAND] += line->parts[index] - taken_over;
    }
  parts[WB_BEARS_CUT] = handler->excess;
  parts[WB_BEARS_BY_RULE] = handler->borne - parts[WB_BEARS_BY_HAND] - parts[WB_BEARS_FOR_OTHERS];
}

static gint64
find_scale (const WbApportionment *self)
{
  gint64 scale = 0;

  for (guint i = 0; i < self->n_handlers; i++)
    scale = MAX (scale, MAX (self->handlers[i].borne, self->handlers[i].wanted));
  return scale;
}

static gboolean
had_to_do_with_it (const WbApportionment *self,
                   guint                  index)
{
  const WbHandler *handler = &self->handlers[index];

  if (index == 0 || handler->wanted > 0 || handler->charged != 0 || handler->recovered != 0)
    return TRUE;
  for (guint i = 0; i < self->n_lines; i++)
    if (self->lines[i].could[index])
      return TRUE;
  return FALSE;
}

static char *
explain (const WbApportionment *self,
         guint                  index)
{
  const char *currency = self->reckoning->terms->currency;
  GString *out = g_string_new (NULL);
  g_autofree char *over = wb_words_over_limit (self, index);

  for (guint i = 0; i < self->n_lines; i++)
    {
      g_autofree char *line = NULL;
      g_autofree char *part = NULL;

      if (self->lines[i].parts[index] == 0)
        continue;
      line = wb_words_claim_line (self->reckoning->job, self->lines[i].line);
      part = wb_words_minor (self->lines[i].parts[index], currency);
      /* Translators: a claim line and the amount that somebody bears of it. */
      g_string_append_printf (out, _("%s: %s"), line, part);
      g_string_append_c (out, '\n');
    }
  if (out->len == 0)
    g_string_append (out, _("It bears a part of no line."));
  if (over != NULL)
    g_string_append (out, over);
  if (out->str[out->len - 1] == '\n')
    g_string_truncate (out, out->len - 1);
  return g_string_free (out, FALSE);
}

/* --- widgets ---------------------------------------------------------------------------------- */

static GtkWidget *
new_label (guint chars)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (chars > 0)
    {
      gtk_label_set_width_chars (GTK_LABEL (label), (int) chars / 2);
      gtk_label_set_max_width_chars (GTK_LABEL (label), (int) chars);
    }
  return label;
}

static void
add_place (WbBearingHandlers *self)
{
  int row = (int) self->places->len * 2;
  Place place = { new_label (NAME_CHARS), wb_bearing_bar_new (), wb_why_button_new (TRUE),
                  new_label (0) };

  gtk_widget_set_hexpand (place.bar, TRUE);
  gtk_widget_set_valign (place.bar, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (place.note, "caption");
  gtk_grid_attach (GTK_GRID (self->grid), place.name, 0, row, 1, 1);
  gtk_grid_attach (GTK_GRID (self->grid), place.bar, 1, row, 1, 1);
  gtk_grid_attach (GTK_GRID (self->grid), place.amount, 2, row, 1, 1);
  gtk_grid_attach (GTK_GRID (self->grid), place.note, 0, row + 1, 3, 1);
  g_array_append_val (self->places, place);
}

static void
show_place (const Place           *place,
            const WbApportionment *self,
            guint                  index,
            gint64                 scale,
            gboolean              *used)
{
  const WbHandler *handler = &self->handlers[index];
  g_autofree char *name = wb_words_handler (handler);
  g_autofree char *amount = wb_words_minor (handler->borne, self->reckoning->terms->currency);
  g_autofree char *over = wb_words_over_limit (self, index);
  g_autofree char *why = explain (self, index);
  /* Translators: the name of a handler, and an amount. */
  g_autofree char *heading = g_strdup_printf (_("%s bears %s"), name, amount);
  gint64 parts[WB_N_BEARS];

  find_parts (self, index, parts);
  for (int i = 0; i < WB_N_BEARS; i++)
    used[i] = used[i] || parts[i] > 0;
  gtk_label_set_label (GTK_LABEL (place->name), name);
  wb_bearing_bar_show (WB_BEARING_BAR (place->bar), parts, handler->has_limit ? handler->limit : -1,
                       scale);
  wb_why_button_show (WB_WHY_BUTTON (place->amount), amount, heading, why);
  gtk_label_set_label (GTK_LABEL (place->note), over != NULL ? over : "");
  gtk_widget_set_visible (place->name, TRUE);
  gtk_widget_set_visible (place->bar, TRUE);
  gtk_widget_set_visible (place->amount, TRUE);
  gtk_widget_set_visible (place->note, over != NULL);
}

static void
hide_place (const Place *place)
{
  gtk_widget_set_visible (place->name, FALSE);
  gtk_widget_set_visible (place->bar, FALSE);
  gtk_widget_set_visible (place->amount, FALSE);
  gtk_widget_set_visible (place->note, FALSE);
}

/* One entry of the key: a sample and what it means. */
static GtkWidget *
add_entry (WbBearingHandlers *self,
           const gint64      *parts,
           gint64             limit,
           const char        *words)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *bar = wb_bearing_bar_new ();
  GtkWidget *label = gtk_label_new (words);

  wb_bearing_bar_show (WB_BEARING_BAR (bar), parts, limit, 1000);
  gtk_widget_set_valign (bar, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (label, "caption");
  gtk_box_append (GTK_BOX (box), bar);
  gtk_box_append (GTK_BOX (box), label);
  gtk_widget_set_parent (box, self->key);
  return box;
}

static void
add_key (WbBearingHandlers *self)
{
  gint64 none[WB_N_BEARS] = { 0 };

  for (int i = 0; i < WB_N_BEARS; i++)
    {
      gint64 parts[WB_N_BEARS] = { 0 };

      parts[i] = 1000;
      self->entries[i] = add_entry (self, parts, -1, wb_bears_words ((WbBears) i));
    }
  self->limit_entry = add_entry (self, none, 500, _("Limit by agreement"));
}

void
wb_bearing_handlers_show (WbBearingHandlers     *self,
                          const WbApportionment *apportionment)
{
  gboolean used[WB_N_BEARS] = { FALSE };
  gboolean has_limit = FALSE;
  gint64 scale = apportionment != NULL ? find_scale (apportionment) : 0;
  guint n = 0;

  g_return_if_fail (WB_IS_BEARING_HANDLERS (self));

  for (guint i = 0; apportionment != NULL && i < apportionment->n_handlers; i++)
    {
      if (!had_to_do_with_it (apportionment, i))
        continue;
      if (n == self->places->len)
        add_place (self);
      show_place (&g_array_index (self->places, Place, n++), apportionment, i, scale, used);
      has_limit = has_limit || (apportionment->handlers[i].has_limit
                                && apportionment->handlers[i].limit <= scale);
    }
  for (guint i = n; i < self->places->len; i++)
    hide_place (&g_array_index (self->places, Place, i));
  for (int i = 0; i < WB_N_BEARS; i++)
    gtk_widget_set_visible (self->entries[i], used[i]);
  gtk_widget_set_visible (self->limit_entry, has_limit);
}

static void
wb_bearing_handlers_dispose (GObject *object)
{
  WbBearingHandlers *self = WB_BEARING_HANDLERS (object);
  GtkWidget *child;

  while (self->key != NULL && (child = gtk_widget_get_first_child (self->key)) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->grid, gtk_widget_unparent);
  g_clear_pointer (&self->key, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_bearing_handlers_parent_class)->dispose (object);
}

static void
wb_bearing_handlers_finalize (GObject *object)
{
  g_array_unref (WB_BEARING_HANDLERS (object)->places);

  G_OBJECT_CLASS (wb_bearing_handlers_parent_class)->finalize (object);
}

static void
wb_bearing_handlers_class_init (WbBearingHandlersClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_bearing_handlers_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_bearing_handlers_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
wb_bearing_handlers_init (WbBearingHandlers *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("What each handler bears"), -1);
  self->places = g_array_new (FALSE, FALSE, sizeof (Place));
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
  self->key = g_object_new (GTK_TYPE_BOX, "layout-manager", wb_flow_layout_new (18, 6), NULL);
  gtk_widget_set_parent (self->key, GTK_WIDGET (self));
  add_key (self);
}
