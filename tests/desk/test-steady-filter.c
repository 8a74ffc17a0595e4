/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The filter list that works in small steps: what it tells of is always what it holds, and when it
 * has come to rest it holds what the filter lets through. */
#include "config.h"

#include "support/wb-test-window.h"

#include "desk/inventory/wb-steady-filter.h"

/* Items are texts; the filter lets through those that start with one of some letters. */
static gboolean
match (gpointer item,
       gpointer data)
{
  const GString *letters = data;

  return strchr (letters->str, gtk_string_object_get_string (item)[0]) != NULL;
}

typedef struct
{
  GListStore       *store;
  GString          *letters;
  GtkCustomFilter  *filter;
  WbSteadyFilter   *steady;
  GPtrArray        *mirror;      /* what somebody who only hears of changes believes is there */
} Fixture;

static void
mirror_cb (GListModel *model,
           guint       position,
           guint       removed,
           guint       added,
           GPtrArray  *mirror)
{
  g_assert_cmpuint (position + removed, <=, mirror->len);
  if (removed > 0)
    g_ptr_array_remove_range (mirror, position, removed);
  for (guint i = position; i < position + added; i++)
    g_ptr_array_insert (mirror, (int) i, g_list_model_get_item (model, i));
}

static void
assert_mirrored (Fixture *fixture)
{
  GListModel *model = G_LIST_MODEL (fixture->steady);

  g_assert_cmpuint (g_list_model_get_n_items (model), ==, fixture->mirror->len);
  for (guint i = 0; i < fixture->mirror->len; i++)
    {
      g_autoptr (GObject) item = g_list_model_get_item (model, i);

      g_assert_true (item == g_ptr_array_index (fixture->mirror, i));
    }
}

static gboolean
is_at_rest (gpointer data)
{
  return wb_steady_filter_get_pending (data) == 0;
}

/* What is shown is the source's items that match, in the source's order. */
static void
assert_filtered (Fixture *fixture)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (fixture->store));
  guint place = 0;

  wb_test_wait_until (is_at_rest, fixture->steady);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GObject) item = g_list_model_get_item (G_LIST_MODEL (fixture->store), i);

      if (!match (item, fixture->letters))
        continue;
      g_assert_cmpuint (place, <, fixture->mirror->len);
      g_assert_true (item == g_ptr_array_index (fixture->mirror, place));
      place++;
    }
  g_assert_cmpuint (place, ==, fixture->mirror->len);
  assert_mirrored (fixture);
}

static void
add (Fixture *fixture,
     guint    position,
     guint    removed,
     guint    added)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < added; i++)
    {
      char text[3] = { (char) ('a' + g_test_rand_int_range (0, 8)),
                       (char) ('a' + g_test_rand_int_range (0, 26)), 0 };

      g_ptr_array_add (items, gtk_string_object_new (text));
    }
  g_list_store_splice (fixture->store, position, removed, items->pdata, added);
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  fixture->store = g_list_store_new (GTK_TYPE_STRING_OBJECT);
  fixture->letters = g_string_new ("abcdefgh");
  fixture->filter = gtk_custom_filter_new (match, fixture->letters, NULL);
  fixture->mirror = g_ptr_array_new_with_free_func (g_object_unref);
  fixture->steady = wb_steady_filter_new (G_LIST_MODEL (fixture->store),
                                          GTK_FILTER (fixture->filter));
  g_signal_connect (fixture->steady, "items-changed", G_CALLBACK (mirror_cb), fixture->mirror);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  g_assert_finalize_object (fixture->steady);
  g_ptr_array_unref (fixture->mirror);
  g_object_unref (fixture->filter);
  g_object_unref (fixture->store);
  g_string_free (fixture->letters, TRUE);
}

static void
filter_by (Fixture         *fixture,
           const char      *letters,
           GtkFilterChange  change)
{
  g_string_assign (fixture->letters, letters);
  gtk_filter_changed (GTK_FILTER (fixture->filter), change);
}

/* A few added items are there at once; thousands come while the main loop turns. */
static void
test_add (Fixture       *fixture,
          gconstpointer  data)
{
  add (fixture, 0, 0, 5);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (fixture->steady)), ==, 5);
  g_assert_cmpuint (wb_steady_filter_get_pending (fixture->steady), ==, 0);

  add (fixture, 5, 0, 5000);
  g_assert_cmpuint (wb_steady_filter_get_pending (fixture->steady), ==, 5000);
  assert_filtered (fixture);
  g_assert_cmpuint (fixture->mirror->len, ==, 5005);

  add (fixture, 2500, 0, 1);
  g_assert_cmpuint (fixture->mirror->len, ==, 5006);
  assert_filtered (fixture);
}

static void
test_filter (Fixture       *fixture,
             gconstpointer  data)
{
  add (fixture, 0, 0, 5000);
  filter_by (fixture, "abc", GTK_FILTER_CHANGE_MORE_STRICT);
  assert_filtered (fixture);
  filter_by (fixture, "a", GTK_FILTER_CHANGE_MORE_STRICT);
  wb_steady_filter_set_centre (fixture->steady, 300);
  assert_filtered (fixture);
  filter_by (fixture, "ah", GTK_FILTER_CHANGE_LESS_STRICT);
  assert_filtered (fixture);
  filter_by (fixture, "bcd", GTK_FILTER_CHANGE_DIFFERENT);
  assert_filtered (fixture);
  filter_by (fixture, "", GTK_FILTER_CHANGE_MORE_STRICT);
  assert_filtered (fixture);
  g_assert_cmpuint (fixture->mirror->len, ==, 0);
}

/* The same items in another order stay in sight. */
static void
test_reorder (Fixture       *fixture,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  add (fixture, 0, 0, 400);
  filter_by (fixture, "abcd", GTK_FILTER_CHANGE_MORE_STRICT);
  assert_filtered (fixture);
  for (guint i = 400; i > 0; i--)
    g_ptr_array_add (items, g_list_model_get_item (G_LIST_MODEL (fixture->store), i - 1));
  g_list_store_splice (fixture->store, 0, 400, items->pdata, 400);
  g_assert_cmpuint (wb_steady_filter_get_pending (fixture->steady), ==, 0);
  assert_filtered (fixture);
}

static void
not_reached_cb (void)
{
  g_assert_not_reached ();
}

/* Collects the items of the source, and every third of them. */
static void
collect (Fixture   *fixture,
         GPtrArray *all,
         GPtrArray *some)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (fixture->store));

  for (guint i = 0; i < n; i++)
    {
      g_ptr_array_add (all, g_list_model_get_item (G_LIST_MODEL (fixture->store), i));
      if (i % 3 == 0)
        g_ptr_array_add (some, g_ptr_array_index (all, i));
    }
}

/* Many that go stay in sight until the main loop turns; a few are gone at once. */
static void
test_remove (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GPtrArray) some = g_ptr_array_new ();

  add (fixture, 0, 0, 5000);
  assert_filtered (fixture);
  collect (fixture, all, some);
  g_list_store_splice (fixture->store, 0, 5000, some->pdata, some->len);
  g_assert_cmpuint (fixture->mirror->len, ==, 5000);
  g_assert_cmpuint (wb_steady_filter_get_pending (fixture->steady), ==, 5000 - some->len);
  assert_mirrored (fixture);

  /* Meanwhile a few more go and one comes. */
  g_list_store_splice (fixture->store, 10, 5, NULL, 0);
  add (fixture, 20, 0, 1);
  g_assert_cmpuint (fixture->mirror->len, >=, 4999);
  assert_mirrored (fixture);
  assert_filtered (fixture);
  g_assert_cmpuint (fixture->mirror->len, ==, some->len - 4);

  g_list_store_remove_all (fixture->store);
  g_assert_cmpuint (fixture->mirror->len, ==, some->len - 4);
  assert_filtered (fixture);
  g_assert_cmpuint (fixture->mirror->len, ==, 0);
}

/* What was on its way out and is there again never leaves. */
static void
test_return (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GPtrArray) some = g_ptr_array_new ();

  add (fixture, 0, 0, 900);
  assert_filtered (fixture);
  collect (fixture, all, some);
  g_list_store_splice (fixture->store, 0, 900, some->pdata, some->len);
  g_list_store_splice (fixture->store, 0, some->len, all->pdata, all->len);
  g_assert_cmpuint (fixture->mirror->len, ==, 900);
  g_signal_connect (fixture->steady, "items-changed", G_CALLBACK (not_reached_cb), NULL);
  assert_filtered (fixture);
}

/* Some of the items go, others come between those that stay: what was in sight stays there, and
 * only what is new or gone is looked at. */
static void
test_exchange (Fixture       *fixture,
               gconstpointer  data)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GPtrArray) some = g_ptr_array_new ();
  guint n_shown;

  add (fixture, 0, 0, 900);
  filter_by (fixture, "abcd", GTK_FILTER_CHANGE_MORE_STRICT);
  assert_filtered (fixture);
  collect (fixture, all, some);

  g_list_store_splice (fixture->store, 0, 900, some->pdata, some->len);
  assert_filtered (fixture);
  n_shown = fixture->mirror->len;

  g_list_store_splice (fixture->store, 0, some->len, all->pdata, all->len);
  g_assert_cmpuint (wb_steady_filter_get_pending (fixture->steady), ==, 600);
  g_assert_cmpuint (fixture->mirror->len, ==, n_shown);
  assert_mirrored (fixture);
  assert_filtered (fixture);
}

/* Takes out some of the items of the source, in one change. */
static void
thin_out (Fixture *fixture,
          guint    n)
{
  g_autoptr (GPtrArray) kept = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < n; i++)
    {
      gpointer item = g_list_model_get_item (G_LIST_MODEL (fixture->store), i);

      if (g_test_rand_int_range (0, 4) > 0)
        g_ptr_array_add (kept, item);
      else
        g_object_unref (item);
    }
  g_list_store_splice (fixture->store, 0, n, kept->pdata, kept->len);
}

/* Whatever happens in whatever order, also while the work of before is not done. */
static void
test_anything (Fixture       *fixture,
               gconstpointer  data)
{
  static const char *const letters[] = { "a", "abc", "abcdefgh", "fgh", "", "bdfh" };

  for (guint round = 0; round < 300; round++)
    {
      guint n = g_list_model_get_n_items (G_LIST_MODEL (fixture->store));
      guint position = (guint) g_test_rand_int_range (0, (int) n + 1);

      switch (g_test_rand_int_range (0, 6))
        {
        case 0:
          add (fixture, position, 0, (guint) g_test_rand_int_range (0, 300));
          break;
        case 1:
          add (fixture, position, (guint) g_test_rand_int_range (0, (int) (n - position) + 1), 0);
          break;
        case 2:
          add (fixture, position, MIN (n - position, 3), 3);
          break;
        case 3:
          thin_out (fixture, n);
          break;
        case 4:
          wb_steady_filter_set_centre (fixture->steady, (guint) g_test_rand_int_range (0, 1000));
          filter_by (fixture, letters[g_test_rand_int_range (0, G_N_ELEMENTS (letters))],
                     GTK_FILTER_CHANGE_DIFFERENT);
          break;
        default:
          for (int turns = g_test_rand_int_range (0, 4); turns > 0; turns--)
            g_main_context_iteration (NULL, FALSE);
          break;
        }
      assert_mirrored (fixture);
      if (round % 20 == 19)
        assert_filtered (fixture);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) \
  g_test_add ("/desk/steady-filter/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("add", test_add);
  ADD ("filter", test_filter);
  ADD ("reorder", test_reorder);
  ADD ("remove", test_remove);
  ADD ("return", test_return);
  ADD ("exchange", test_exchange);
  ADD ("anything", test_anything);
#undef ADD
  return g_test_run ();
}
