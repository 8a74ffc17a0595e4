/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Three lines: which handover, between whom, and how the count stands; a fourth when something is
 * to be looked at. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/handovers/wb-handover-row.h"

#include <glib/gi18n.h>

#include "office/wb-words-trail.h"

struct _WbHandoverRow
{
  GtkListBoxRow  parent_instance;

  GtkLabel      *title;
  GtkLabel      *between;
  GtkLabel      *count;
  GtkLabel      *faults;
};

G_DEFINE_FINAL_TYPE (WbHandoverRow, wb_handover_row, GTK_TYPE_LIST_BOX_ROW)

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

static void
wb_handover_row_class_init (WbHandoverRowClass *klass)
{
}

static void
wb_handover_row_init (WbHandoverRow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  gtk_widget_set_margin_top (box, 6);
  gtk_widget_set_margin_bottom (box, 6);
  gtk_widget_set_margin_start (box, 6);
  gtk_widget_set_margin_end (box, 6);
  self->title = add_label (box, NULL);
  self->between = add_label (box, "caption");
  self->count = add_label (box, "caption");
  self->faults = add_label (box, "caption");
  gtk_widget_add_css_class (GTK_WIDGET (self->between), "dim-label");
  gtk_widget_add_css_class (GTK_WIDGET (self->faults), "warning");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), box);
}

GtkWidget *
wb_handover_row_new (void)
{
  return g_object_new (WB_TYPE_HANDOVER_ROW, NULL);
}

static char *
describe_between (const WbHandover *handover)
{
  const char *from = handover->from_holder != NULL ? handover->from_holder : "–";
  const char *to = handover->to_holder != NULL ? handover->to_holder : "–";

  if (handover->place == NULL)
    /* Translators: two parties. */
    return g_strdup_printf (_("%s → %s"), from, to);

  /* Translators: a place, two parties. */
  return g_strdup_printf (_("%s · %s → %s"), handover->place, from, to);
}

void
wb_handover_row_show (WbHandoverRow *self,
                      const WbTrail *trail,
                      guint          handover)
{
  const WbHandoverFacts *facts = wb_trail_handover (trail, handover);
  g_autofree char *name = wb_words_handover (facts->handover);
  g_autofree char *title = g_strdup_printf ("%u. %s", handover + 1, name);
  g_autofree char *between = describe_between (facts->handover);
  g_autofree char *figures = wb_words_handover_figures (facts);
  g_auto (GStrv) faults = wb_words_handover_faults (trail, handover);
  g_autofree char *warnings = g_strjoinv (" ", faults);
  g_autofree char *whole = g_strdup_printf ("%s, %s, %s. %s", title, between, figures, warnings);

  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->between, between);
  gtk_label_set_label (self->count, figures);
  gtk_label_set_label (self->faults, warnings);
  gtk_widget_set_visible (GTK_WIDGET (self->faults), *warnings != '\0');
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, whole, -1);
}
