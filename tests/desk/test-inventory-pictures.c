/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page as a person sees it, in the colours and the size of text of the session it runs in: that
 * it fits, and pictures to look at. */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-inventory-list.h"

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
  g_test_add_func ("/desk/inventory-pictures", test_pictures);
  return g_test_run ();
}
