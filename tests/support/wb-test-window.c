/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/wb-test-window.h"

#include <glib/gstdio.h>

#define LIMIT_SECONDS 10

static gboolean
on_limit (gpointer data)
{
  gboolean *reached = data;

  *reached = TRUE;
  return G_SOURCE_REMOVE;
}

void
wb_test_wait_until (WbTestCondition condition,
                    gpointer        data)
{
  gboolean reached = FALSE;
  guint limit = g_timeout_add_seconds (LIMIT_SECONDS, on_limit, &reached);

  while (!reached && !condition (data))
    g_main_context_iteration (NULL, TRUE);

  if (!reached)
    g_source_remove (limit);

  g_assert_true (condition (data));
}

static gboolean
has_size (gpointer data)
{
  GtkWidget *widget = data;

  return gtk_widget_get_mapped (widget)
         && gtk_widget_get_width (widget) > 0
         && gtk_widget_get_height (widget) > 0;
}

static gboolean
on_tick (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  guint *frames = data;

  *frames += 1;
  return *frames < 2 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static gboolean
has_two_frames (gpointer data)
{
  const guint *frames = data;

  return *frames >= 2;
}

void
wb_test_wait_until_drawn (GtkWidget *widget)
{
  guint frames = 0;

  wb_test_wait_until (has_size, widget);
  gtk_widget_add_tick_callback (widget, on_tick, &frames, NULL);
  wb_test_wait_until (has_two_frames, &frames);
}

void
wb_test_settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    continue;
}

void
wb_test_save_picture (GtkWidget  *window,
                      const char *name)
{
  const char *folder = g_getenv ("WB_ARTEFACTS");
  g_autoptr (GdkPaintable) paintable = NULL;
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  g_autofree char *file = NULL;
  g_autofree char *path = NULL;
  GtkSnapshot *snapshot;

  if (folder == NULL || *folder == '\0')
    return;

  paintable = gtk_widget_paintable_new (window);
  snapshot = gtk_snapshot_new ();
  gdk_paintable_snapshot (paintable, snapshot,
                          gdk_paintable_get_intrinsic_width (paintable),
                          gdk_paintable_get_intrinsic_height (paintable));
  node = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (node);
  texture = gsk_renderer_render_texture (gtk_native_get_renderer (GTK_NATIVE (window)), node, NULL);
  g_assert_nonnull (texture);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0755), ==, 0);
  file = g_strconcat (name, ".png", NULL);
  path = g_build_filename (folder, file, NULL);
  g_assert_true (gdk_texture_save_to_png (texture, path));
  g_test_message ("picture: %s", path);
}

/* The words on the widget itself, or its accessible label; that one this GTK does not hand out, it
 * only compares. */
static gboolean
is_called (GtkWidget  *widget,
           const char *label)
{
  static const char *const properties[] = { "label", "title", "text" };
  g_autofree char *other = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (properties); i++)
    {
      GParamSpec *pspec = g_object_class_find_property (G_OBJECT_GET_CLASS (widget), properties[i]);
      g_autofree char *value = NULL;

      if (pspec == NULL || pspec->value_type != G_TYPE_STRING)
        continue;

      g_object_get (widget, properties[i], &value, NULL);
      if (g_strcmp0 (value, label) == 0)
        return TRUE;
    }

  if (!gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL))
    return FALSE;

  other = gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget),
                                              GTK_ACCESSIBLE_PROPERTY_LABEL,
                                              label);
  return other == NULL;
}

GtkWidget *
wb_test_find (GtkWidget  *root,
              GType       type,
              const char *label)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root);
       child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found;

      if (g_type_is_a (G_OBJECT_TYPE (child), type) && (label == NULL || is_called (child, label)))
        return child;

      found = wb_test_find (child, type, label);
      if (found != NULL)
        return found;
    }

  return NULL;
}

void
wb_test_load_style (void)
{
  static gboolean loaded = FALSE;
  g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();

  if (loaded)
    return;
  loaded = TRUE;
  gtk_css_provider_load_from_resource (provider, "/org/wainbook/Wainbook/style.css");
  gtk_style_context_add_provider_for_display (gdk_display_get_default (),
                                              GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}
