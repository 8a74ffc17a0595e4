/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "desk/support/desk-fixture.h"

#include "desk/widgets/wb-later.h"
#include "support/wb-test-folder.h"
#include "support/wb-test-window.h"

#include <adwaita.h>

void
desk_fixture_set_up (DeskFixture   *self,
                     gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *path = NULL;

  self->folder = g_dir_make_tmp ("wb-desk-XXXXXX", &error);
  g_assert_no_error (error);
  path = g_build_filename (self->folder, "office.wainbook", NULL);
  self->office = wb_office_open (path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  job = wb_office_create_job (self->office, "USD", NULL, &error);
  g_assert_no_error (error);
  self->model = wb_job_model_new (self->office, job);
}

static void
flushed_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  DeskFixture *self = data;
  g_autoptr (GError) error = NULL;

  wb_job_model_flush_finish (self->model, result, &error);
  g_assert_no_error (error);
  self->stored = TRUE;
}

static gboolean
is_stored (gpointer data)
{
  return ((DeskFixture *) data)->stored;
}

void
desk_fixture_tear_down (DeskFixture   *self,
                        gconstpointer  data)
{
  if (self->window != NULL)
    gtk_window_destroy (GTK_WINDOW (self->window));
  wb_job_model_flush_async (self->model, NULL, flushed_cb, self);
  wb_test_wait_until (is_stored, self);
  g_clear_object (&self->model);
  wb_test_settle ();
  wb_office_close (self->office);
  g_assert_finalize_object (self->office);
  wb_test_remove_tree (self->folder);
  g_free (self->folder);
}

static gpointer
record_to_change (const WbJob *job,
                  WbKind       kind,
                  const char  *id)
{
  gconstpointer record = id != NULL ? wb_job_find (job, kind, id) : NULL;

  if (kind == WB_KIND_ORDER)
    record = wb_job_order (job);
  if (kind == WB_KIND_VALUATION)
    record = wb_job_valuation (job);

  return record != NULL ? wb_record_copy (record) : wb_record_new (kind, id);
}

void
desk_fixture_put (DeskFixture *self,
                  WbKind       kind,
                  const char  *id,
                  ...)
{
  g_autoptr (WbRecord) record = record_to_change (wb_job_model_get_job (self->model), kind, id);
  g_autoptr (WbJob) job = NULL;
  const char *name;
  va_list fields;

  va_start (fields, id);
  while ((name = va_arg (fields, const char *)) != NULL)
    {
      const WbField *field = wb_record_type_field (wb_record_type (kind), name);
      const char *text = va_arg (fields, const char *);
      g_autoptr (GError) error = NULL;

      g_assert_nonnull (field);
      wb_record_set_text (record, field, text, "USD", &error);
      g_assert_no_error (error);
    }
  va_end (fields);

  job = wb_job_with (wb_job_model_get_job (self->model), record);
  wb_job_model_apply (self->model, job, "Test");
}

void
desk_fixture_add_move (DeskFixture *self)
{
  desk_fixture_put (self, WB_KIND_ORDER, NULL, "move_type", "interstate",
                    "picked_up_on", "2026-05-04", "delivered_on", "2026-05-12",
                    "freight_charge", "4200", NULL);
  desk_fixture_put (self, WB_KIND_PARTY, "shipper", "role", "shipper", "name", "Odile Varga", NULL);
  desk_fixture_put (self, WB_KIND_WEIGHING, "w1", "kind", "weighing", "on", "2026-05-04",
                    "net", "7000 lb", NULL);
  desk_fixture_put (self, WB_KIND_LOT, "lot", "colour", "blue", "number", "204", "first", "1",
                    "last", "40", NULL);
  desk_fixture_put (self, WB_KIND_PIECE, "p1", "lot", "lot", "tag", "7", "form", "carton",
                    "description", "Dish pack", "contents", "dinner plates", "room", "Kitchen",
                    "packed_by", "CP", "packer", "Rosa Lindqvist", "weight", "62 lb", NULL);
  desk_fixture_put (self, WB_KIND_PIECE, "p2", "lot", "lot", "tag", "8", "form", "loose",
                    "description", "Oak table", "room", "Dining room", "weight", "90 lb",
                    "marks", "SC 4-8", NULL);
  desk_fixture_put (self, WB_KIND_PIECE, "p3", "lot", "lot", "tag", "9", "form", "loose",
                    "description", "Floor lamp", "room", "Study", "weight", "12 lb", NULL);
  desk_fixture_put (self, WB_KIND_PIECE, "p4", "lot", "lot", "tag", "17", "form", "carton",
                    "description", "Book carton", "contents", "atlases", "room", "Study",
                    "packed_by", "PBO", "weight", "48 lb", NULL);
  desk_fixture_put (self, WB_KIND_HANDOVER, "h1", "kind", "pickup", "on", "2026-05-04", NULL);
  desk_fixture_put (self, WB_KIND_HANDOVER, "h2", "kind", "delivery", "on", "2026-05-12", NULL);
  desk_fixture_put (self, WB_KIND_FINDING, "f1", "handover", "h2", "piece", "p2",
                    "found", "present", "marks", "BR 2", NULL);
}

void
desk_fixture_waive (DeskFixture *self)
{
  desk_fixture_put (self, WB_KIND_VALUATION, NULL, "choice", "released", "signed_by", "Odile Varga",
                    "signed_on", "2026-05-01", "signed_how", "paper",
                    "disclosure", "Both choices explained in writing", NULL);
}

void
desk_fixture_add_claim (DeskFixture *self)
{
  desk_fixture_put (self, WB_KIND_CLAIM, "c1", "number", "C-2026-0001", "claimant", "Odile Varga",
                    "received_on", "2026-06-01", "identifies_shipment", "yes",
                    "asserts_liability", "yes", "states_amount", "yes", NULL);
  desk_fixture_put (self, WB_KIND_CLAIM_LINE, "l1", "claim", "c1", "number", "1", "piece", "p1",
                    "item", "Dinner plates, 4 of 12", "loss", "destroyed", "demanded", "320",
                    "replacement", "300", "ruling", "allowed", NULL);
  desk_fixture_put (self, WB_KIND_CLAIM_LINE, "l2", "claim", "c1", "number", "2", "piece", "p2",
                    "item", "Oak table, broken leg", "loss", "damaged", "demanded", "500",
                    "repair", "240", "appearance", "60", "replacement", "900", NULL);
  desk_fixture_put (self, WB_KIND_CLAIM_LINE, "l3", "claim", "c1", "number", "3", "piece", "p3",
                    "item", "Floor lamp", "loss", "missing", "demanded", "150", NULL);
  desk_fixture_put (self, WB_KIND_CLAIM_LINE, "l4", "claim", "c1", "number", "4",
                    "item", "Garden chair", "loss", "missing", "replacement", "80",
                    "weight", "9 lb", NULL);
}

static gboolean
is_whole (gpointer page)
{
  return wb_later_is_done (page);
}

void
desk_fixture_present (DeskFixture *self,
                      GtkWidget   *page,
                      int          width,
                      int          height)
{
  wb_test_load_style ();
  self->window = adw_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (self->window), width, height);
  adw_window_set_content (ADW_WINDOW (self->window), page);
  gtk_window_present (GTK_WINDOW (self->window));
  wb_test_wait_until_drawn (page);
  wb_test_wait_until (is_whole, page);
  desk_fixture_settle (self);
}

static gboolean
count_frames_cb (GtkWidget     *widget,
                 GdkFrameClock *clock,
                 gpointer       data)
{
  guint *left = data;

  (*left)--;
  return *left > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static gboolean
is_zero (gpointer data)
{
  return *(guint *) data == 0;
}

/* A page reckons in one frame and lays out in the next. */
void
desk_fixture_settle (DeskFixture *self)
{
  guint frames = 4;

  gtk_widget_add_tick_callback (self->window, count_frames_cb, &frames, NULL);
  wb_test_wait_until (is_zero, &frames);
}

static void
collect (GtkWidget *root,
         GType      type,
         GPtrArray *found)
{
  if (!gtk_widget_get_mapped (root))
    return;
  if (g_type_is_a (G_OBJECT_TYPE (root), type))
    g_ptr_array_add (found, root);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect (child, type, found);
}

GPtrArray *
desk_find_all (GtkWidget *root,
               GType      type)
{
  GPtrArray *found = g_ptr_array_new ();

  collect (root, type, found);
  return found;
}

GtkWidget *
desk_find_label (GtkWidget  *root,
                 const char *text)
{
  g_autoptr (GPtrArray) labels = desk_find_all (root, GTK_TYPE_LABEL);

  for (guint i = 0; i < labels->len; i++)
    if (g_strcmp0 (gtk_label_get_text (g_ptr_array_index (labels, i)), text) == 0)
      return g_ptr_array_index (labels, i);

  return NULL;
}
