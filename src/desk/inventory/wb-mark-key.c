/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The key to the codes: core's two tables, side by side in a popover. Only for reading. */
#include "config.h"

#include "desk/inventory/wb-mark-key.h"

#include "core/wb-mark.h"

#include <glib/gi18n.h>

#define ROWS 13

static void
attach (GtkGrid    *grid,
        const char *text,
        const char *style,
        int         column,
        int         row,
        int         width)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  gtk_grid_attach (grid, label, column, row, width, 1);
}

/* Fills columns of code and word from @column on. Returns: the next free column. */
static int
attach_codes (GtkGrid          *grid,
              const char       *title,
              const WbMarkCode *codes,
              gsize             n_codes,
              int               column)
{
  int n_columns = ((int) n_codes + ROWS - 1) / ROWS;

  attach (grid, title, "heading", column, 0, 2 * n_columns);
  for (gsize i = 0; i < n_codes; i++)
    {
      attach (grid, codes[i].code, "wb-code", column + 2 * ((int) i / ROWS), 1 + (int) i % ROWS, 1);
      attach (grid, _(codes[i].word), NULL, column + 2 * ((int) i / ROWS) + 1, 1 + (int) i % ROWS,
              1);
    }
  return column + 2 * n_columns;
}

static GtkWidget *
make_grid (void)
{
  GtkGrid *grid = GTK_GRID (gtk_grid_new ());
  gsize n_conditions, n_places;
  const WbMarkCode *conditions = wb_mark_conditions (&n_conditions);
  const WbMarkCode *places = wb_mark_places (&n_places);
  int column;

  gtk_grid_set_column_spacing (grid, 12);
  gtk_grid_set_row_spacing (grid, 2);
  column = attach_codes (grid, _("Condition"), conditions, n_conditions, 0);
  attach_codes (grid, _("Place"), places, n_places, column);
  return GTK_WIDGET (grid);
}

/* Made when first asked for: a page shows sooner without. */
static void
create_popover (GtkMenuButton *button,
                gpointer       data)
{
  GtkWidget *popover;
  GtkWidget *scroller;

  if (gtk_menu_button_get_popover (button) != NULL)
    return;

  popover = gtk_popover_new ();
  scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 480);
  gtk_scrolled_window_set_max_content_width (GTK_SCROLLED_WINDOW (scroller), 900);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), make_grid ());
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_accessible_update_property (GTK_ACCESSIBLE (popover), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Condition codes"), -1);
  gtk_menu_button_set_popover (button, popover);
}

GtkWidget *
wb_mark_key_new (void)
{
  GtkWidget *button = gtk_menu_button_new ();

  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), _("Cod_es"));
  gtk_menu_button_set_use_underline (GTK_MENU_BUTTON (button), TRUE);
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (button), FALSE);
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (button), create_popover, NULL, NULL);
  return button;
}
