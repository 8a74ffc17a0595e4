/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Items that come to a view frame by frame: at the same places as in the model, a few at once, and
 * all of them when somebody goes to one. */
#include "config.h"

#include "desk/widgets/wb-gradual-list.h"
#include "support/wb-test-window.h"

#include <adwaita.h>

#define MANY 500
#define AT_ONCE 16

typedef struct
{
  GtkStringList     *model;
  GtkSliceListModel *list;
  GtkWidget         *window;
  GtkWidget         *view;
  guint              most;    /* that came at once */
} Fixture;

static void
changed_cb (GListModel *list,
            guint       position,
            guint       removed,
            guint       added,
            Fixture    *fixture)
{
  fixture->most = MAX (fixture->most, added - MIN (added, removed));
}

static void
fill (Fixture *fixture,
      guint    position,
      guint    n)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) words = NULL;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *word = g_strdup_printf ("%u of %u", i, n);

      g_strv_builder_add (builder, word);
    }
  words = g_strv_builder_end (builder);
  gtk_string_list_splice (fixture->model, position, 0, (const char *const *) words);
}

static guint
count (Fixture *fixture)
{
  return g_list_model_get_n_items (G_LIST_MODEL (fixture->list));
}

static void
assert_same_places (Fixture *fixture)
{
  for (guint i = 0; i < count (fixture); i++)
    {
      g_autoptr (GObject) here = g_list_model_get_item (G_LIST_MODEL (fixture->list), i);
      g_autoptr (GObject) there = g_list_model_get_item (G_LIST_MODEL (fixture->model), i);

      g_assert_true (here == there);
    }
}

static gboolean
has_all (gpointer data)
{
  Fixture *fixture = data;

  return count (fixture) == g_list_model_get_n_items (G_LIST_MODEL (fixture->model));
}

static void
setup (Fixture       *fixture,
       gconstpointer  data)
{
  fixture->model = gtk_string_list_new (NULL);
  fixture->view = gtk_label_new ("A view");
  fixture->list = wb_gradual_list_new (g_object_ref (G_LIST_MODEL (fixture->model)),
                                       fixture->view);
  g_signal_connect (fixture->list, "items-changed", G_CALLBACK (changed_cb), fixture);
  fixture->window = gtk_window_new ();
  gtk_window_set_child (GTK_WINDOW (fixture->window), fixture->view);
}

static void
teardown (Fixture       *fixture,
          gconstpointer  data)
{
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  g_assert_finalize_object (fixture->list);
  g_assert_finalize_object (fixture->model);
}

static void
test_many (Fixture       *fixture,
           gconstpointer  data)
{
  fill (fixture, 0, MANY);
  g_assert_cmpuint (count (fixture), ==, AT_ONCE);
  assert_same_places (fixture);

  gtk_window_present (GTK_WINDOW (fixture->window));
  fixture->most = 0;
  wb_test_wait_until (has_all, fixture);
  assert_same_places (fixture);
  /* What a view has no cells for comes in the end. */
  g_assert_cmpuint (fixture->most, <=, MANY - 360 + AT_ONCE);
}

/* A few more among many that are there are there at once, and so is what goes. */
static void
test_few (Fixture       *fixture,
          gconstpointer  data)
{
  fill (fixture, 0, MANY);
  wb_gradual_list_finish (fixture->list);
  g_assert_cmpuint (count (fixture), ==, MANY);

  fill (fixture, 7, AT_ONCE);
  g_assert_cmpuint (count (fixture), ==, MANY + AT_ONCE);
  assert_same_places (fixture);
  gtk_string_list_splice (fixture->model, 3, 100, NULL);
  g_assert_cmpuint (count (fixture), ==, MANY + AT_ONCE - 100);
  assert_same_places (fixture);

  gtk_string_list_splice (fixture->model, 0, MANY + AT_ONCE - 100, NULL);
  g_assert_cmpuint (count (fixture), ==, 0);
  fill (fixture, 0, MANY);
  g_assert_cmpuint (count (fixture), ==, AT_ONCE);
}

/* The view goes while items are on their way. */
static void
test_view_gone (Fixture       *fixture,
                gconstpointer  data)
{
  fill (fixture, 0, MANY);
  gtk_window_set_child (GTK_WINDOW (fixture->window), NULL);
  fill (fixture, 0, MANY);
  wb_gradual_list_finish (fixture->list);
  g_assert_cmpuint (count (fixture), ==, 2 * MANY);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add ("/gradual-list/many", Fixture, NULL, setup, test_many, teardown);
  g_test_add ("/gradual-list/few", Fixture, NULL, setup, test_few, teardown);
  g_test_add ("/gradual-list/view-gone", Fixture, NULL, setup, test_view_gone, teardown);

  return g_test_run ();
}
