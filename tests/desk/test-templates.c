/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lets GTK make every widget that a .ui of the program describes, once and bare: a property that
 * does not exist, a child or a callback that is not bound, a wrong parent is then a warning, and
 * fatal. */
#include "config.h"

#include <adwaita.h>

#define BASE "/org/wainbook/Wainbook"

static void
on_start_element (GMarkupParseContext  *context,
                  const char           *element,
                  const char          **names,
                  const char          **values,
                  gpointer              data,
                  GError              **error)
{
  char **class_name = data;

  if (g_str_equal (element, "template"))
    {
      for (gsize i = 0; names[i] != NULL; i++)
        {
          if (g_str_equal (names[i], "class"))
            {
              g_free (*class_name);
              *class_name = g_strdup (values[i]);
            }
        }
    }
}

/* The class of the template in a .ui; NULL when it holds plain objects. */
static char *
find_template_class (const char *path)
{
  static const GMarkupParser parser = { .start_element = on_start_element };
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, &error);
  g_autoptr (GMarkupParseContext) context = NULL;
  char *class_name = NULL;
  const char *text;
  gsize length;

  g_assert_no_error (error);
  text = g_bytes_get_data (bytes, &length);
  context = g_markup_parse_context_new (&parser, 0, &class_name, NULL);
  g_markup_parse_context_parse (context, text, (gssize) length, &error);
  g_assert_no_error (error);
  g_markup_parse_context_end_parse (context, &error);
  g_assert_no_error (error);

  return class_name;
}

static void
test_make (gconstpointer data)
{
  const char *path = data;
  g_autofree char *class_name = find_template_class (path);
  g_autoptr (GtkBuilder) builder = gtk_builder_new ();
  g_autoptr (GError) error = NULL;
  GtkWidget *widget;
  GType type;

  if (class_name == NULL)
    {
      gtk_builder_add_from_resource (builder, path, &error);
      g_assert_no_error (error);
      return;
    }

  type = gtk_builder_get_type_from_name (builder, class_name);
  g_assert_cmpuint (type, !=, G_TYPE_INVALID);
  g_assert_true (g_type_is_a (type, GTK_TYPE_WIDGET));

  widget = g_object_ref_sink (g_object_new (type, NULL));
  if (GTK_IS_WINDOW (widget))
    gtk_window_destroy (GTK_WINDOW (widget));
  g_object_add_weak_pointer (G_OBJECT (widget), (gpointer *) &widget);
  g_object_unref (widget);
  while (widget != NULL && g_main_context_iteration (NULL, FALSE))
    continue;

  /* What nobody holds any more is gone: a template makes no circle of references. */
  g_assert_null (widget);
}

static guint
add_tests (const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) children = g_resources_enumerate_children (folder, G_RESOURCE_LOOKUP_FLAGS_NONE,
                                                            &error);
  guint count = 0;

  g_assert_no_error (error);
  for (gsize i = 0; children[i] != NULL; i++)
    {
      g_autofree char *path = g_strconcat (folder, "/", children[i], NULL);

      if (g_str_has_suffix (path, "/"))
        {
          path[strlen (path) - 1] = '\0';
          count += add_tests (path);
        }
      else if (g_str_has_suffix (path, ".ui"))
        {
          g_autofree char *name = g_strconcat ("/desk/templates", path + strlen (BASE), NULL);

          g_test_add_data_func_full (name, g_steal_pointer (&path), test_make, g_free);
          count++;
        }
    }

  return count;
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  g_assert_cmpuint (add_tests (BASE), >, 0);
  return g_test_run ();
}
