/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The photos page as a person uses it, by keys: pictures come in, get a piece, are opened,
 * pinned and compared, and what happened to their files is seen. */
#include "config.h"

#include "desk/photos/wb-photos-page.h"

#include "core/wb-photo.h"
#include "desk/photos/wb-photo-canvas.h"
#include "desk/photos/wb-photo-compare.h"
#include "desk/support/desk-fixture.h"
#include "office/wb-photo-pictures.h"
#include "support/wb-test-folder.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include <adwaita.h>
#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  DeskFixture  desk;
  GtkWidget   *page;
  guint        wanted;
} Fixture;

static WbJob *
get_job (Fixture *fixture)
{
  return wb_job_model_get_job (fixture->desk.model);
}

static guint
count (Fixture *fixture,
       WbKind   kind)
{
  return wb_job_count (get_job (fixture), kind);
}

static const WbPhoto *
nth_photo (Fixture *fixture,
           guint    i)
{
  return wb_job_nth (get_job (fixture), WB_KIND_PHOTO, i);
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  desk_fixture_set_up (&fixture->desk, NULL);
  desk_fixture_add_move (&fixture->desk);
  fixture->page = wb_photos_page_new (fixture->desk.model);
  desk_fixture_present (&fixture->desk, fixture->page, 1180, 760);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  g_autofree char *photos = g_strconcat (wb_office_get_path (fixture->desk.office), ".photos", NULL);

  wb_test_remove_tree (photos);
  desk_fixture_tear_down (&fixture->desk, NULL);
}

static void
type (Fixture    *fixture,
      const char *keys)
{
  wb_test_type (fixture->desk.window, keys);
}

static void
picture (Fixture    *fixture,
         const char *name)
{
  wb_test_wait_until_drawn (fixture->page);
  wb_test_save_picture (fixture->desk.window, name);
}

/* --- pictures --------------------------------------------------------------------------------- */

/* A piece of furniture, more or less: another colour is another picture. */
static GdkPixbuf *
draw (guint32 colour)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 640, 480);
  g_autoptr (GdkPixbuf) top = gdk_pixbuf_new_subpixbuf (pixbuf, 120, 200, 400, 40);
  g_autoptr (GdkPixbuf) left = gdk_pixbuf_new_subpixbuf (pixbuf, 140, 240, 30, 180);
  g_autoptr (GdkPixbuf) right = gdk_pixbuf_new_subpixbuf (pixbuf, 470, 240, 30, 180);

  gdk_pixbuf_fill (pixbuf, 0xd8d2c4ff);
  gdk_pixbuf_fill (top, colour);
  gdk_pixbuf_fill (left, colour);
  gdk_pixbuf_fill (right, colour);
  return pixbuf;
}

static gboolean
has_photos (gpointer data)
{
  Fixture *fixture = data;

  return count (fixture, WB_KIND_PHOTO) == fixture->wanted;
}

static void
wait_for_photos (Fixture *fixture,
                 guint    wanted)
{
  fixture->wanted = wanted;
  wb_test_wait_until (has_photos, fixture);
  wb_test_settle ();
}

static void
paste_picture (Fixture *fixture,
               guint32  colour)
{
  g_autoptr (GdkPixbuf) pixbuf = draw (colour);
  g_autoptr (GdkTexture) texture = gdk_texture_new_for_pixbuf (pixbuf);
  guint n = count (fixture, WB_KIND_PHOTO);

  gdk_clipboard_set_texture (gtk_widget_get_clipboard (fixture->page), texture);
  gtk_widget_grab_focus (fixture->page);
  type (fixture, "{ctrl+v}");
  wait_for_photos (fixture, n + 1);
}

static void
paste_files (Fixture    *fixture,
             const char *first,
             ...)
{
  GSList *files = NULL;
  va_list names;

  va_start (names, first);
  for (const char *name = first; name != NULL; name = va_arg (names, const char *))
    {
      g_autofree char *path = g_build_filename (fixture->desk.folder, name, NULL);

      files = g_slist_append (files, g_file_new_for_path (path));
    }
  va_end (names);

  gdk_clipboard_set (gtk_widget_get_clipboard (fixture->page), GDK_TYPE_FILE_LIST, files);
  g_slist_free_full (files, g_object_unref);
  gtk_widget_grab_focus (fixture->page);
  type (fixture, "{ctrl+v}");
}

static void
put_file (Fixture    *fixture,
          const char *name,
          guint32     colour,
          gsize       cut)
{
  g_autoptr (GdkPixbuf) pixbuf = draw (colour);
  g_autofree char *path = g_build_filename (fixture->desk.folder, name, NULL);
  g_autofree char *buffer = NULL;
  gsize length;
  g_autoptr (GError) error = NULL;

  gdk_pixbuf_save_to_buffer (pixbuf, &buffer, &length, "jpeg", &error, NULL);
  g_assert_no_error (error);
  g_file_set_contents (path, buffer, (gssize) (length - cut), &error);
  g_assert_no_error (error);
}

static GtkWidget *
view_of (Fixture *fixture)
{
  GtkWidget *views = wb_test_find (fixture->page, GTK_TYPE_STACK, NULL);

  return gtk_stack_get_visible_child (GTK_STACK (views));
}

/* --- coming in -------------------------------------------------------------------------------- */

static void
test_empty (Fixture       *fixture,
            gconstpointer  data)
{
  g_assert_nonnull (desk_find_label (fixture->page, "No Photos Yet"));
  picture (fixture, "photos-empty");
}

static void
test_paste (Fixture       *fixture,
            gconstpointer  data)
{
  const WbPhoto *photo;

  paste_picture (fixture, 0x6b4a2bff);
  photo = nth_photo (fixture, 0);
  g_assert_true (g_str_has_prefix (photo->name, "Pasted "));
  g_assert_cmpstr (photo->media_type, ==, "image/png");
  g_assert_cmpint (photo->width, ==, 640);
  g_assert_null (photo->taken_at);
  g_assert_nonnull (desk_find_label (fixture->page, "Taken: not known"));

  wb_job_model_undo (fixture->desk.model);
  g_assert_cmpuint (count (fixture, WB_KIND_PHOTO), ==, 0);
}

/* The good ones come in, in one step; of the bad one is told in a window above. */
static void
test_files (Fixture       *fixture,
            gconstpointer  data)
{
  g_autoptr (GListModel) windows = NULL;
  gboolean told = FALSE;

  put_file (fixture, "one.jpg", 0x6b4a2bff, 0);
  put_file (fixture, "cut.jpg", 0x123456ff, 60);
  put_file (fixture, "two.jpg", 0x2b4a6bff, 0);
  paste_files (fixture, "one.jpg", "cut.jpg", "two.jpg", NULL);
  wait_for_photos (fixture, 2);
  g_assert_cmpstr (nth_photo (fixture, 0)->name, ==, "one.jpg");
  g_assert_cmpstr (nth_photo (fixture, 1)->name, ==, "two.jpg");

  windows = g_object_ref (gtk_window_get_toplevels ());
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (gtk_window_get_transient_for (window) == GTK_WINDOW (fixture->desk.window))
        {
          wb_test_wait_until_drawn (GTK_WIDGET (window));
          told = desk_find_label (GTK_WIDGET (window), "cut.jpg") != NULL;
          wb_test_save_picture (GTK_WIDGET (window), "photos-results");
          gtk_window_destroy (window);
        }
    }
  g_assert_true (told);
  wb_job_model_undo (fixture->desk.model);
  g_assert_cmpuint (count (fixture, WB_KIND_PHOTO), ==, 0);
}

static void
test_nothing_to_paste (Fixture       *fixture,
                       gconstpointer  data)
{
  gdk_clipboard_set_text (gtk_widget_get_clipboard (fixture->page), "words");
  gtk_widget_grab_focus (fixture->page);
  type (fixture, "{ctrl+v}");
  wb_test_settle ();
  g_assert_cmpuint (count (fixture, WB_KIND_PHOTO), ==, 0);
  g_assert_nonnull (desk_find_label (fixture->desk.window,
                                     "There is neither a picture nor a file to paste."));
}

/* --- assigning -------------------------------------------------------------------------------- */

static void
test_assign (Fixture       *fixture,
             gconstpointer  data)
{
  const WbPiece *piece = wb_job_nth (get_job (fixture), WB_KIND_PIECE, 1);
  g_autofree char *tag = g_strdup_printf ("%" G_GINT64_FORMAT, piece->tag);
  g_autofree char *keys = g_strconcat ("{F2}{ctrl+a}", tag, "\n", NULL);

  paste_picture (fixture, 0x6b4a2bff);
  paste_picture (fixture, 0x2b4a6bff);
  gtk_widget_grab_focus (fixture->page);
  type (fixture, "{ctrl+a}");
  picture (fixture, "photos-selected");
  type (fixture, keys);
  g_assert_cmpstr (nth_photo (fixture, 0)->piece, ==, piece->record.id);
  g_assert_cmpstr (nth_photo (fixture, 1)->piece, ==, piece->record.id);
  g_assert_cmpuint (wb_photo_count_of_piece (get_job (fixture), piece->record.id), ==, 2);

  /* A tag that no piece has stays where it was typed, with a sentence. */
  type (fixture, "{ctrl+a}99999\n");
  g_assert_cmpstr (nth_photo (fixture, 0)->piece, ==, piece->record.id);
  picture (fixture, "photos-no-such-tag");
  type (fixture, "{Escape}");

  wb_job_model_undo (fixture->desk.model);
  g_assert_null (nth_photo (fixture, 0)->piece);
  g_assert_null (nth_photo (fixture, 1)->piece);
}

static void
test_remove (Fixture       *fixture,
             gconstpointer  data)
{
  g_autofree char *path = NULL;

  paste_picture (fixture, 0x6b4a2bff);
  path = wb_office_photo_path (fixture->desk.office, nth_photo (fixture, 0));
  gtk_widget_grab_focus (fixture->page);
  type (fixture, "{ctrl+a}{Delete}");
  g_assert_cmpuint (count (fixture, WB_KIND_PHOTO), ==, 0);
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  wb_job_model_undo (fixture->desk.model);
  g_assert_cmpuint (count (fixture, WB_KIND_PHOTO), ==, 1);
}

/* What is filtered for is what new photos show. */
static void
test_filter (Fixture       *fixture,
             gconstpointer  data)
{
  const WbPiece *piece = wb_job_nth (get_job (fixture), WB_KIND_PIECE, 2);
  g_autofree char *tag = g_strdup_printf ("%" G_GINT64_FORMAT, piece->tag);
  g_autoptr (GPtrArray) cells = NULL;

  paste_picture (fixture, 0x6b4a2bff);
  wb_photos_page_show_piece (WB_PHOTOS_PAGE (fixture->page), tag);
  wb_test_settle ();
  g_assert_nonnull (desk_find_label (fixture->page, "No Photo Matches"));
  paste_picture (fixture, 0x2b4a6bff);
  g_assert_cmpstr (nth_photo (fixture, 1)->piece, ==, piece->record.id);
  g_assert_null (nth_photo (fixture, 0)->piece);
  g_assert_nonnull (desk_find_label (fixture->page, "1 of 2 photos"));
  wb_photos_page_show_piece (WB_PHOTOS_PAGE (fixture->page), NULL);
  wb_test_settle ();
  g_assert_nonnull (desk_find_label (fixture->page, "2 photos"));
}

/* --- pins ------------------------------------------------------------------------------------- */

static gboolean
picture_is_shown (gpointer data)
{
  Fixture *fixture = data;
  GtkWidget *canvas = wb_test_find (view_of (fixture), WB_TYPE_PHOTO_CANVAS, NULL);

  return canvas != NULL && gtk_widget_has_focus (canvas) && gtk_widget_get_width (canvas) > 100;
}

static void
test_pins (Fixture       *fixture,
           gconstpointer  data)
{
  const WbPin *pin;

  paste_picture (fixture, 0x6b4a2bff);
  gtk_widget_grab_focus (fixture->page);
  type (fixture, "{ctrl+a}\n");
  wb_test_wait_until (picture_is_shown, fixture);
  for (guint i = 0; i < 40; i++)
    {
      g_usleep (5000);
      wb_test_settle ();
    }

  type (fixture, "{Left}{Left}{Up}{shift+Right}\n");
  g_assert_cmpuint (count (fixture, WB_KIND_PIN), ==, 1);
  pin = wb_job_nth (get_job (fixture), WB_KIND_PIN, 0);
  g_assert_cmpint (pin->x, ==, 5000 - 2 * 250 + 25);
  g_assert_cmpint (pin->y, ==, 5000 - 250);
  g_assert_cmpstr (pin->photo, ==, nth_photo (fixture, 0)->record.id);

  /* The focus is where the marks are typed; what does not read is not taken. */
  type (fixture, "QQ 99\n");
  g_assert_null (((const WbPin *) wb_job_nth (get_job (fixture), WB_KIND_PIN, 0))->marks);
  type (fixture, "{ctrl+a}sc 4\n");
  pin = wb_job_nth (get_job (fixture), WB_KIND_PIN, 0);
  g_assert_cmpstr (pin->marks, ==, "SC 4");
  g_assert_true (picture_is_shown (fixture));

  type (fixture, "{Right}{Right}{Right}{Right}++\n");
  g_assert_cmpuint (count (fixture, WB_KIND_PIN), ==, 2);
  picture (fixture, "photos-pins");
  type (fixture, "{Escape}");
  g_assert_null (wb_test_find (view_of (fixture), WB_TYPE_PHOTO_CANVAS, NULL));
  wb_job_model_undo (fixture->desk.model);
  g_assert_cmpuint (count (fixture, WB_KIND_PIN), ==, 1);
}

/* --- origin and delivery ---------------------------------------------------------------------- */

static void
set_field (Fixture    *fixture,
           guint       i,
           const char *field,
           const char *text)
{
  g_autoptr (GError) error = NULL;

  wb_job_model_set_field (fixture->desk.model, WB_KIND_PHOTO, nth_photo (fixture, i)->record.id, field,
                          text, &error);
  g_assert_no_error (error);
}

static void
test_compare (Fixture       *fixture,
              gconstpointer  data)
{
  const WbPiece *piece = wb_job_nth (get_job (fixture), WB_KIND_PIECE, 0);
  g_autofree char *id = g_strdup (piece->record.id);

  paste_picture (fixture, 0x6b4a2bff);
  paste_picture (fixture, 0x9b4a2bff);
  gtk_widget_grab_focus (fixture->page);
  type (fixture, "{ctrl+a}c");
  g_assert_nonnull (desk_find_label (fixture->desk.window,
                                     "Select a photo of a piece first; a photo without a piece has "
                                     "nothing to be compared with."));

  for (guint i = 0; i < 2; i++)
    {
      set_field (fixture, i, "piece", id);
      set_field (fixture, i, "moment", i == 0 ? "origin" : "delivery");
      set_field (fixture, i, "caption", i == 0 ? "Table top, before" : "Table top, after");
    }
  type (fixture, "c");
  for (guint i = 0; i < 60; i++)
    {
      g_usleep (5000);
      wb_test_settle ();
    }
  g_assert_true (WB_IS_PHOTO_COMPARE (view_of (fixture)));
  g_assert_nonnull (desk_find_label (view_of (fixture), "At origin"));
  g_assert_nonnull (desk_find_label (view_of (fixture), "At delivery"));
  g_assert_null (desk_find_label (view_of (fixture), "No photo of this piece from delivery yet."));
  picture (fixture, "photos-compare");
  type (fixture, "{Escape}");
  g_assert_false (WB_IS_PHOTO_COMPARE (view_of (fixture)));
}

/* --- files that changed ----------------------------------------------------------------------- */

static gboolean
fault_is_said (gpointer data)
{
  Fixture *fixture = data;

  return desk_find_label (fixture->page,
                          "The files of 2 photos need attention; the signs at them say what is wrong.")
         != NULL;
}

static void
test_faults (Fixture       *fixture,
             gconstpointer  data)
{
  for (guint i = 0; i < 3; i++)
    paste_picture (fixture, 0x6b4a2bff + (i << 24));

  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *path = wb_office_photo_path (fixture->desk.office, nth_photo (fixture, i));
      g_autofree char *contents = NULL;
      gsize length;

      g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
      g_assert_cmpint (g_unlink (path), ==, 0);
      contents[length - 20] ^= 1;
      if (i == 1)
        g_assert_true (g_file_set_contents (path, contents, (gssize) length, NULL));
    }

  /* The page is looked at again. */
  gtk_widget_set_visible (fixture->page, FALSE);
  gtk_widget_set_visible (fixture->page, TRUE);
  wb_test_wait_until (fault_is_said, fixture);
  gtk_widget_grab_focus (fixture->page);
  type (fixture, "{ctrl+Home}{Left}");
  picture (fixture, "photos-faults");
}

static GtkWidget *
get_focus (Fixture *fixture)
{
  return gtk_root_get_focus (GTK_ROOT (fixture->desk.window));
}

/* Without a photo to assign the keyboard stays where it is, and a sentence says why. */
static void
test_assign_nothing (Fixture       *fixture,
                     gconstpointer  data)
{
  GtkWidget *grid, *focus;

  type (fixture, "{F2}");
  g_assert_nonnull (desk_find_label (fixture->page, "Select the photos that are to have a piece, "
                                                    "then press F2."));
  paste_picture (fixture, 0x6b4a2bff);
  grid = wb_test_find (fixture->page, GTK_TYPE_GRID_VIEW, NULL);
  gtk_selection_model_unselect_all (gtk_grid_view_get_model (GTK_GRID_VIEW (grid)));
  gtk_widget_grab_focus (fixture->page);
  wb_test_settle ();
  focus = get_focus (fixture);
  g_assert_nonnull (focus);
  type (fixture, "{F2}");
  g_assert_true (get_focus (fixture) == focus);

  /* With one, it goes to the tag of the piece. */
  gtk_selection_model_select_all (gtk_grid_view_get_model (GTK_GRID_VIEW (grid)));
  type (fixture, "{F2}");
  g_assert_true (GTK_IS_EDITABLE (get_focus (fixture)));
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();

#define CASE(name, function)                                                                       \
  g_test_add ("/desk/photos/" name, Fixture, NULL, set_up, function, tear_down)
  CASE ("empty", test_empty);
  CASE ("paste", test_paste);
  CASE ("files", test_files);
  CASE ("nothing-to-paste", test_nothing_to_paste);
  CASE ("assign", test_assign);
  CASE ("assign-nothing", test_assign_nothing);
  CASE ("remove", test_remove);
  CASE ("filter", test_filter);
  CASE ("pins", test_pins);
  CASE ("compare", test_compare);
  CASE ("faults", test_faults);
#undef CASE

  return g_test_run ();
}
