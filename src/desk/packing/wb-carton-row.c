/* SPDX-License-Identifier: GPL-3.0-or-later */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/packing/wb-carton-row.h"

#include "desk/widgets/wb-row-name.h"
#include "office/wb-words-packing.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbCartonRow
{
  GtkWidget  parent_instance;

  GtkLabel  *title;
  GtkLabel  *people;
  GtkImage  *icon;
  GtkLabel  *checks;
  GtkLabel  *caution;
};

G_DEFINE_FINAL_TYPE (WbCartonRow, wb_carton_row, GTK_TYPE_WIDGET)

static GtkLabel *
make_label (void)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  return GTK_LABEL (label);
}

static void
wb_carton_row_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);

  G_OBJECT_CLASS (wb_carton_row_parent_class)->dispose (object);
}

static void
wb_carton_row_class_init (WbCartonRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_carton_row_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
}

static void
wb_carton_row_init (WbCartonRow *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_widget_set_margin_top (GTK_WIDGET (self), 6);
  gtk_widget_set_margin_bottom (GTK_WIDGET (self), 6);

  self->title = make_label ();
  self->people = make_label ();
  self->icon = GTK_IMAGE (gtk_image_new ());
  self->checks = make_label ();
  self->caution = make_label ();
  gtk_widget_add_css_class (GTK_WIDGET (self->people), "caption");
  gtk_widget_add_css_class (GTK_WIDGET (self->people), "dim-label");
  gtk_widget_add_css_class (GTK_WIDGET (self->checks), "caption");
  gtk_widget_add_css_class (GTK_WIDGET (self->caution), "caption");
  gtk_widget_add_css_class (GTK_WIDGET (self->caution), "warning");
  gtk_widget_set_hexpand (GTK_WIDGET (self->checks), TRUE);

  gtk_widget_set_parent (GTK_WIDGET (self->title), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->people), GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->icon));
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->checks));
  gtk_widget_set_parent (line, GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->caution), GTK_WIDGET (self));
}

static char *
describe_people (const WbPiece *piece)
{
  const char *who = piece->packer != NULL ? piece->packer
                                          : wb_words_enum (&wb_packed_by, (int) piece->packed_by);

  if (piece->packed_by == WB_PACKED_BY_OWNER)
    return g_strdup (wb_words_enum (&wb_packed_by, WB_PACKED_BY_OWNER));
  if (who == NULL || *who == '\0')
    who = _("nobody named");
  if (piece->checked_by == NULL)
    /* Translators: who packed a carton; nobody is noted who looked at the packing. */
    return g_strdup_printf (_("Packed by %s, checked by nobody"), who);
  /* Translators: who packed a carton, and who looked at the packing. */
  return g_strdup_printf (_("Packed by %s, checked by %s"), who, piece->checked_by);
}

/* A sign beside the words, never in their place. */
static const char *
choose_icon (WbPackingCounts counts)
{
  if (counts.unmet > 0)
    return "dialog-warning-symbolic";
  if (counts.open > 0)
    return "radio-symbolic";
  return counts.met > 0 ? "emblem-ok-symbolic" : NULL;
}

GtkWidget *
wb_carton_row_new (void)
{
  return g_object_new (WB_TYPE_CARTON_ROW, NULL);
}

void
wb_carton_row_show (WbCartonRow     *self,
                    const WbJob     *job,
                    const WbPacking *packing,
                    const WbPiece   *piece,
                    const char      *caution)
{
  WbPackingCounts counts = wb_packing_counts (packing, piece);
  g_autofree char *tag = wb_words_tag (job, piece);
  g_autofree char *people = describe_people (piece);
  g_autofree char *checks = wb_words_packing_counts (counts);
  g_autofree char *title = g_strjoin (", ", tag, piece->carton != NULL ? piece->carton
                                                                       : _("kind not given"),
                                      piece->room, NULL);
  g_autofree char *name = g_strjoin (". ", title, people, checks, caution, NULL);
  const char *icon = choose_icon (counts);

  g_return_if_fail (WB_IS_CARTON_ROW (self));

  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->people, people);
  gtk_label_set_label (self->checks, checks);
  gtk_image_set_from_icon_name (self->icon, icon);
  gtk_widget_set_visible (GTK_WIDGET (self->icon), icon != NULL);
  if (counts.unmet > 0)
    gtk_widget_add_css_class (GTK_WIDGET (self->checks), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->checks), "error");
  gtk_label_set_label (self->caution, caution != NULL ? caution : "");
  gtk_widget_set_visible (GTK_WIDGET (self->caution), caution != NULL);
  wb_row_name_set (GTK_WIDGET (self), name);
}
