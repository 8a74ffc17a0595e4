/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page as a person sees it, in the colours and the size of text of the session it runs in: that
 * it fits, and pictures to look at. */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-inventory-cell.h"
#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-line-entry.h"
#include "desk/inventory/wb-line-strip.h"
#include "desk/widgets/wb-fit-scroller.h"

/* Pictures of several sessions lie in one folder. */
static void
take (InventoryDesk *desk,
      const char    *name)
{
  g_autofree char *whole = g_strdup_printf ("inventory-%s-%s", name, g_getenv ("WB_LOOK"));

  inventory_desk_picture (desk, whole);
}

static void
set_field (InventoryDesk *desk,
           const char    *id,
           const char    *field,
           const char    *text)
{
  g_autoptr (GError) error = NULL;

  wb_job_model_set_field (desk->model, WB_KIND_PIECE, id, field, text, &error);
  g_assert_no_error (error);
}

/* No text on the page is cut for want of height, and no field is narrower than what it needs. */
static void
assert_fits (GtkWidget *widget)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget);
       child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int width, height;

      if (!gtk_widget_get_mapped (child))
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
      gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, gtk_widget_get_allocated_width (child),
                          &height,
                          NULL, NULL, NULL);
      if (GTK_IS_LABEL (child) || GTK_IS_ENTRY (child) || GTK_IS_BUTTON (child))
        {
          g_assert_cmpint (gtk_widget_get_allocated_width (child), >=, width);
          g_assert_cmpint (gtk_widget_get_allocated_height (child), >=, height);
        }
      assert_fits (child);
    }
}

/* What of a line of the strip belongs to the widget that has the focus. */
static GtkWidget *
get_focused_field (InventoryDesk *desk)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (desk->window));
  GtkWidget *entry = gtk_widget_get_ancestor (focus, WB_TYPE_LINE_ENTRY);

  return entry != NULL ? entry : focus;
}

static gboolean
is_seen_whole (gpointer data)
{
  InventoryDesk *desk = data;
  GtkWidget *scroller = wb_test_find (desk->page, WB_TYPE_FIT_SCROLLER, NULL);
  GtkWidget *field = get_focused_field (desk);
  graphene_rect_t place;

  return gtk_widget_compute_bounds (field, scroller, &place)
         && place.origin.y >= 0
         && place.origin.y + place.size.height <= gtk_widget_get_height (scroller);
}

/* Tab goes through all of the strip, and what it has come to is never cut. Returns how many stops
 * there were. */
static guint
tab_through_strip (InventoryDesk *desk)
{
  GtkWidget *strip = wb_test_find (desk->page, WB_TYPE_LINE_STRIP, NULL);
  guint n = 0;

  inventory_desk_type (desk, "{alt+l}");
  while (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (desk->window)), strip))
    {
      wb_test_wait_until (is_seen_whole, desk);
      g_assert_cmpuint (++n, <, 40);
      inventory_desk_type (desk, "\t");
    }
  return n;
}

/* The titles and as many lines as this are seen. */
static void
assert_lines_seen (InventoryDesk *desk,
                   guint          n)
{
  GtkWidget *list = wb_test_find (desk->page, WB_TYPE_INVENTORY_LIST, NULL);
  GtkWidget *cell = wb_test_find (list, WB_TYPE_INVENTORY_CELL, NULL);
  GtkWidget *row = gtk_widget_get_parent (gtk_widget_get_parent (cell));
  graphene_rect_t first;

  g_assert_true (gtk_widget_compute_bounds (row, list, &first));
  g_assert_cmpint (first.origin.y + n * first.size.height, <=, gtk_widget_get_height (list));
}

/* In the narrowest window of a job's page beside the list of jobs, however large the text. */
static void
test_small_window (void)
{
  InventoryDesk desk = { 0 };
  GtkWidget *strip, *more;

  inventory_desk_open (&desk, 40, 700, 580);
  strip = wb_test_find (desk.page, WB_TYPE_LINE_STRIP, NULL);
  g_assert_cmpint (gtk_widget_get_height (desk.window), <=, 580);
  g_assert_cmpuint (tab_through_strip (&desk), ==, 11);
  assert_lines_seen (&desk, 3);
  take (&desk, "small");

  more = wb_test_find (strip, GTK_TYPE_TOGGLE_BUTTON, "_More Fields");
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (more), TRUE);
  wb_test_wait_until_drawn (strip);
  g_assert_cmpuint (tab_through_strip (&desk), ==, 1 + WB_LINE_N_PARTS);
  assert_lines_seen (&desk, 3);

  /* An error makes a field higher. */
  inventory_desk_type (&desk, "{alt+d}table{alt+w}heavy\n");
  wb_test_wait_until (is_seen_whole, &desk);
  take (&desk, "small-error");

  inventory_desk_close (&desk);
}

static void
test_pictures (void)
{
  InventoryDesk desk = { 0 };
  GtkWidget *list;
  int width;

  inventory_desk_open (&desk, 40, 1180, 760);
  set_field (&desk, "p9", "tag", "19");
  set_field (&desk, "p3", "listed_value", "2400");
  set_field (&desk, "p4", "description",
             "Coats, jackets and whatever else hung on the rail by the door of the hall");

  inventory_desk_type (&desk, "armchair, leather\t\tsc 4-8, w 1");
  gtk_widget_measure (desk.page, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
  g_assert_cmpint (width, <=, gtk_widget_get_width (desk.window));
  take (&desk, "entry");
  assert_fits (desk.page);

  /* However large the text, some lines can be seen. */
  list = wb_test_find (desk.page, WB_TYPE_INVENTORY_LIST, NULL);
  g_assert_cmpint (gtk_widget_get_height (list), >=, 100);

  inventory_desk_type (&desk, "{alt+w}heavy\n");
  take (&desk, "error");
  assert_fits (desk.page);

  inventory_desk_type (&desk, "{Escape}{Escape}{Home}{Down}{Down}{Down}\n");
  take (&desk, "change");
  assert_fits (desk.page);

  inventory_desk_close (&desk);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add_func ("/desk/inventory-pictures/pages", test_pictures);
  g_test_add_func ("/desk/inventory-pictures/small-window", test_small_window);
  return g_test_run ();
}
