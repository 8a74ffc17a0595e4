/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The packing of small jobs, counted by hand. */
#include "config.h"

#include <string.h>

#include "catalog-fixture.h"
#include "core/wb-core.h"
#include "core/wb-packing.h"

typedef struct
{
  WbCatalog *catalog;
  WbJob     *job;
} Fixture;

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  self->catalog = catalog_new_shipped ();
  self->job = wb_job_new ("j1", "USD");
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  wb_catalog_unref (self->catalog);
  wb_job_unref (self->job);
}

/* Adds or changes a record: names and texts of fields, then %NULL. */
G_GNUC_NULL_TERMINATED
static void
put (Fixture    *self,
     WbKind      kind,
     const char *id,
     ...)
{
  gconstpointer before = wb_job_find (self->job, kind, id);
  g_autoptr (WbRecord) record = before != NULL ? wb_record_copy (before) : wb_record_new (kind, id);
  WbJob *job;
  const char *name;
  va_list args;

  va_start (args, id);
  while ((name = va_arg (args, const char *)) != NULL)
    {
      g_autoptr (GError) error = NULL;

      wb_record_set_text (record, wb_record_type_field (wb_record_type (kind), name),
                          va_arg (args, const char *), "USD", &error);
      g_assert_no_error (error);
    }
  va_end (args);

  job = wb_job_with (self->job, record);
  wb_job_unref (self->job);
  self->job = job;
}

static void
put_carton (Fixture    *self,
            const char *id,
            const char *carton,
            const char *packed_by)
{
  put (self, WB_KIND_PIECE, id, "form", "carton", "carton", carton, "packed_by", packed_by, NULL);
}

static const WbPackingRow *
find_row (const WbPacking *packing,
          const char      *item)
{
  GPtrArray *rows = wb_packing_rows (packing);

  for (guint i = 0; i < rows->len; i++)
    {
      const WbPackingRow *row = g_ptr_array_index (rows, i);

      if (g_str_equal (row->item, item))
        return row;
    }
  return NULL;
}

/* --- rows ------------------------------------------------------------------------------------- */

static void
test_counts (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (WbPacking) packing = NULL;
  const WbPackingRow *row;

  put_carton (self, "a", "dish pack", "CP");
  put_carton (self, "b", "Dish-Pack", "CP");
  put_carton (self, "c", "china carton", "PBO");
  put_carton (self, "d", "small", "");
  put_carton (self, "e", "Crate of Ours", "CP");
  put_carton (self, "f", "crate of  ours", "PBO");
  put (self, WB_KIND_PIECE, "g", "form", "loose", "carton", "dish pack", NULL);
  put (self, WB_KIND_PIECE, "h", "form", "carton", NULL);
  put (self, WB_KIND_MATERIAL, "m1", "item", "dish", "planned", "5", NULL);
  put (self, WB_KIND_MATERIAL, "m2", "item", "Packing paper", "planned", "4", "used", "6", NULL);
  put (self, WB_KIND_MATERIAL, "m3", "item", "tape", "planned", "3", NULL);
  put (self, WB_KIND_MATERIAL, "m4", "item", "sawdust", "used", "2", NULL);
  put (self, WB_KIND_MATERIAL, "m5", "item", "Small carton", "planned", "2", "used", "3", NULL);
  packing = wb_packing_new (self->catalog, self->job);

  g_assert_cmpuint (wb_packing_rows (packing)->len, ==, 6);
  g_assert_cmpstr (((WbPackingRow *) g_ptr_array_index (wb_packing_rows (packing), 0))->item, ==,
                   "small");

  row = find_row (packing, "dish");
  g_assert_cmpuint (row->carrier, ==, 2);
  g_assert_cmpuint (row->owner, ==, 1);
  g_assert_cmpuint (row->unknown, ==, 0);
  g_assert_cmpint (row->planned, ==, 5);
  g_assert_cmpint (row->used, ==, 2);
  g_assert_true (row->counted);
  g_assert_cmpint (row->difference, ==, -3);

  /* What was typed goes before what was counted. */
  row = find_row (packing, "small");
  g_assert_cmpuint (row->unknown, ==, 1);
  g_assert_cmpint (row->used, ==, 3);
  g_assert_false (row->counted);
  g_assert_cmpint (row->difference, ==, 1);
  g_assert_cmpstr (row->material->record.id, ==, "m5");

  row = find_row (packing, "paper");
  g_assert_cmpint (row->difference, ==, 2);
  row = find_row (packing, "tape");
  g_assert_cmpint (row->used, ==, WB_INTEGER_UNSET);
  g_assert_cmpint (row->difference, ==, WB_INTEGER_UNSET);

  /* Words that the catalogue does not know stay, and make one kind of their own. */
  row = find_row (packing, "Crate of Ours");
  g_assert_null (row->entry);
  g_assert_cmpuint (row->carrier, ==, 1);
  g_assert_cmpuint (row->owner, ==, 1);
  g_assert_cmpint (row->used, ==, 1);
  row = find_row (packing, "sawdust");
  g_assert_cmpint (row->used, ==, 2);
  g_assert_cmpint (row->planned, ==, WB_INTEGER_UNSET);
}

static void
test_several_records (Fixture       *self,
                      gconstpointer  data)
{
  g_autoptr (WbPacking) packing = NULL;
  const WbPackingRow *row;

  put (self, WB_KIND_MATERIAL, "m1", "item", "paper", "planned", "4", NULL);
  put (self, WB_KIND_MATERIAL, "m2", "item", "newsprint", "planned", "2", "used", "1", NULL);
  packing = wb_packing_new (self->catalog, self->job);
  row = find_row (packing, "paper");
  g_assert_cmpint (row->planned, ==, 6);
  g_assert_cmpint (row->used, ==, 1);
  g_assert_cmpstr (row->material->record.id, ==, "m1");
}

static void
test_totals (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (WbPacking) packing = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *volume = NULL;
  g_autofree char *weight = NULL;
  WbPackingTotals totals;

  put_carton (self, "a", "medium", "CP");                      /* 3.0 cuft, usually 35 lb */
  put (self, WB_KIND_PIECE, "b", "form", "carton", "carton", "medium", "weight", "41.5 lb",
       "volume", "3.1 cuft", NULL);
  put_carton (self, "c", "television", "CP");                  /* no volume, usually 45 lb */
  put_carton (self, "d", "sack", "CP");
  put (self, WB_KIND_PIECE, "e", "form", "loose", "description", "Sofa, grey", NULL);
  packing = wb_packing_new (self->catalog, self->job);

  g_assert_true (wb_packing_totals (packing, WB_FORM_CARTON, &totals, &error));
  g_assert_cmpuint (totals.n, ==, 4);
  g_assert_cmpuint (totals.n_without_volume, ==, 2);
  g_assert_cmpuint (totals.n_usual_weight, ==, 2);
  g_assert_cmpuint (totals.n_without_weight, ==, 1);
  volume = wb_volume_to_text (totals.volume);
  weight = wb_weight_to_text (totals.weight);
  g_assert_cmpstr (volume, ==, "6.10 cuft");
  g_assert_cmpstr (weight, ==, "121.50 lb");

  g_assert_true (wb_packing_totals (packing, WB_FORM_LOOSE, &totals, &error));
  g_assert_cmpuint (totals.n, ==, 1);
  g_assert_cmpuint (totals.n_usual_weight, ==, 1);
  g_assert_true (wb_packing_totals (packing, WB_FORM_CRATE, &totals, &error));
  g_assert_cmpuint (totals.n, ==, 0);
  g_assert_false (wb_weight_is_set (totals.weight));
}

/* --- checks ----------------------------------------------------------------------------------- */

static void
assert_counts (WbPackingCounts counts,
               guint           met,
               guint           unmet,
               guint           open)
{
  g_assert_cmpuint (counts.met, ==, met);
  g_assert_cmpuint (counts.unmet, ==, unmet);
  g_assert_cmpuint (counts.open, ==, open);
}

static void
test_states (Fixture       *self,
             gconstpointer  data)
{
  static const char *const dish_rules[] = { "bottom-taped", "heaviest-first", "paper-between",
                                            "flat-on-edge", "glasses-rolled", "gaps-filled",
                                            "top-taped", "marked-on-side" };
  g_autoptr (WbPacking) packing = NULL;
  g_autoptr (GPtrArray) states = NULL;
  const WbPiece *piece;

  put_carton (self, "a", "dish pack", "CP");
  put (self, WB_KIND_PACKING_CHECK, "k1", "piece", "a", "rule", "bottom-taped", "state", "met",
       NULL);
  put (self, WB_KIND_PACKING_CHECK, "k2", "piece", "a", "rule", "gaps-filled", "state", "met",
       NULL);
  put (self, WB_KIND_PACKING_CHECK, "k3", "piece", "a", "rule", "gaps-filled", "state", "unmet",
       NULL);
  put (self, WB_KIND_PACKING_CHECK, "k4", "piece", "a", "rule", "own-old-rule", "state", "unmet",
       NULL);
  put (self, WB_KIND_PACKING_CHECK, "k5", "piece", "a", "rule", "opened-again", "state", "open",
       NULL);
  packing = wb_packing_new (self->catalog, self->job);
  piece = wb_job_find (self->job, WB_KIND_PIECE, "a");
  states = wb_packing_states (packing, piece);

  g_assert_cmpuint (states->len, ==, G_N_ELEMENTS (dish_rules) + 1);
  for (guint i = 0; i < G_N_ELEMENTS (dish_rules); i++)
    {
      const WbPackingState *state = g_ptr_array_index (states, i);

      g_assert_cmpstr (state->rule, ==, dish_rules[i]);
      g_assert_nonnull (state->check);
      g_assert_cmpint (state->state, ==,
                       i == 0 ? WB_CHECK_MET : i == 5 ? WB_CHECK_UNMET : WB_CHECK_OPEN);
    }
  g_assert_cmpstr (((WbPackingState *) g_ptr_array_index (states, 8))->rule, ==, "own-old-rule");
  g_assert_null (((WbPackingState *) g_ptr_array_index (states, 8))->check);
  assert_counts (wb_packing_counts (packing, piece), 1, 2, 6);
}

/* Whoever packed it says whether the checks are asked; what was noted shows in any case. */
static void
test_whose (Fixture       *self,
            gconstpointer  data)
{
  g_autoptr (WbPacking) packing = NULL;

  put_carton (self, "owner", "dish", "PBO");
  put_carton (self, "nobody", "dish", "");
  put_carton (self, "strange", "sack", "CP");
  put_carton (self, "noted", "dish", "PBO");
  put (self, WB_KIND_PIECE, "loose", "form", "loose", "description", "Sofa", NULL);
  put (self, WB_KIND_PACKING_CHECK, "k", "piece", "noted", "rule", "marked-on-side", "state",
       "unmet", NULL);
  packing = wb_packing_new (self->catalog, self->job);

  assert_counts (wb_packing_counts (packing, wb_job_find (self->job, WB_KIND_PIECE, "owner")), 0, 0,
                 0);
  assert_counts (wb_packing_counts (packing, wb_job_find (self->job, WB_KIND_PIECE, "nobody")), 0,
                 0, 8);
  assert_counts (wb_packing_counts (packing, wb_job_find (self->job, WB_KIND_PIECE, "strange")), 0,
                 0, 1);
  assert_counts (wb_packing_counts (packing, wb_job_find (self->job, WB_KIND_PIECE, "noted")), 0, 1,
                 0);
  assert_counts (wb_packing_counts (packing, wb_job_find (self->job, WB_KIND_PIECE, "loose")), 0, 0,
                 0);
}

/* --- lifting ---------------------------------------------------------------------------------- */

static void
test_lift (Fixture       *self,
           gconstpointer  data)
{
  static const struct
  {
    const char *form, *carton, *description, *weight;
    gint64      threshold;
    WbLift      lift;
    const char *said;
  } cases[] = {
    { "carton", "small", "", "49.99 lb", 50, WB_LIFT_NONE, NULL },
    { "carton", "small", "", "50 lb", 50, WB_LIFT_WEIGHT, "50 lb" },
    { "carton", "small", "", "22.67 kg", 50, WB_LIFT_NONE, NULL },
    { "carton", "small", "", "22.68 kg", 50, WB_LIFT_WEIGHT, "22.68 kg" },
    { "carton", "dish pack", "", "", 50, WB_LIFT_USUAL_WEIGHT, "60 lb" },
    { "carton", "dish pack", "", "44 lb", 50, WB_LIFT_NONE, NULL },
    { "carton", "dish pack", "", "", 61, WB_LIFT_NONE, NULL },
    { "carton", "sack", "Sofa", "", 50, WB_LIFT_NONE, NULL },
    { "loose", "", "Sofa, grey", "", 50, WB_LIFT_USUAL_WEIGHT, "160 lb" },
    { "loose", "", "Floor lamp", "", 50, WB_LIFT_NONE, NULL },
    { "crate", "", "Marble top", "210 lb", 50, WB_LIFT_WEIGHT, "210 lb" },
    { "crate", "", "Sofa", "", 50, WB_LIFT_NONE, NULL },
    { "loose", "", "Sofa", "400 lb", 0, WB_LIFT_NONE, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbCatalogEntry *entry = NULL;
      g_autofree char *said = NULL;
      WbWeight weight = WB_WEIGHT_UNSET;
      WbWeight threshold = cases[i].threshold > 0
        ? wb_weight (cases[i].threshold * 100, WB_WEIGHT_UNIT_LB) : WB_WEIGHT_UNSET;

      put (self, WB_KIND_PIECE, "p", "form", cases[i].form, "carton", cases[i].carton,
           "description", cases[i].description, "weight", cases[i].weight, NULL);
      g_assert_cmpint (wb_packing_lift (self->catalog, wb_job_find (self->job, WB_KIND_PIECE, "p"),
                                        threshold, &weight, &entry), ==, cases[i].lift);
      said = wb_weight_to_text (weight);
      g_assert_cmpstr (said, ==, cases[i].said != NULL ? cases[i].said : "");
      g_assert_true ((entry != NULL) == (cases[i].lift == WB_LIFT_USUAL_WEIGHT));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

#define ADD(name, func) g_test_add ("/core/packing/" name, Fixture, NULL, set_up, func, tear_down)
  ADD ("counts", test_counts);
  ADD ("several-records", test_several_records);
  ADD ("totals", test_totals);
  ADD ("states", test_states);
  ADD ("whose", test_whose);
  ADD ("lift", test_lift);
#undef ADD
  return g_test_run ();
}
