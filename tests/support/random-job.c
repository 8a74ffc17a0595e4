/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "random-job.h"

#include "core/wb-mark.h"

#include <string.h>

static guint
below (guint limit)
{
  return (guint) g_test_rand_int_range (0, (gint32) limit);
}

char *
random_text (void)
{
  static const char *const pieces[] = {
    "Oak table", "\"", "\"\"", ",", ";", "\n", "\n\n", "'", "''", "=1+1", "@SUM(A1)", "-2", "+3", "a", " ",
    "é", "日本", "😀", "\t", "x,y", "\\", "\\n", "{", "}", "[0]", "null", "<b>", "%s", "\u00a0", "12\" lamp",
    "\u2028", "/", ":", "#",
  };
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint n = below (5) + 1; n > 0; n--)
    g_string_append (text, pieces[below (G_N_ELEMENTS (pieces))]);
  g_strstrip (text->str);
  if (*text->str == '\0')
    return g_strdup ("plain");

  return g_strdup (text->str);
}

static char *
random_marks (void)
{
  gsize n_conditions, n_places;
  const WbMarkCode *conditions = wb_mark_conditions (&n_conditions);
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (WbMarks) marks = { 0 };
  g_autoptr (GError) error = NULL;

  wb_mark_places (&n_places);
  for (guint n = below (3) + 1; n > 0; n--)
    {
      g_string_append_printf (text, " %s", conditions[below ((guint) n_conditions)].code);
      for (guint places = below (4); places > 0; places--)
        g_string_append_printf (text, " %u", below ((guint) n_places) + 1);
    }

  if (!wb_marks_parse (text->str, &marks, &error))
    g_error ("%s", error->message);
  return wb_marks_to_text (&marks);
}

static char *
random_value (const WbJob   *job,
              const WbField *field)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
      return random_text ();

    case WB_FIELD_MARKS:
      return random_marks ();

    case WB_FIELD_REFERENCE:
      {
        guint n = wb_job_count (job, field->refers);
        const WbRecord *target = n > 0 ? wb_job_nth (job, field->refers, below (n)) : NULL;

        return g_strdup (target != NULL ? target->id : "");
      }

    case WB_FIELD_BOOLEAN:
      return g_strdup (below (2) == 0 ? "yes" : "no");

    case WB_FIELD_INTEGER:
      return g_strdup_printf ("%u", below ((guint) field->maximum + 1));

    case WB_FIELD_PERCENT:
      return g_strdup_printf ("%u.%02u", below (100), below (100));

    case WB_FIELD_ENUM:
      return g_strdup (field->choices->values[below ((guint) field->choices->n_values)].nick);

    case WB_FIELD_DATE:
      return g_strdup_printf ("%04u-%02u-%02u", 1990 + below (60), 1 + below (12), 1 + below (28));

    case WB_FIELD_MONEY:
      {
        g_autofree char *amount = wb_minor_to_text ((gint64) below (2000000000) * (1 + below (500)),
                                                    wb_job_get_currency (job));
        return g_steal_pointer (&amount);
      }

    case WB_FIELD_WEIGHT:
      return g_strdup_printf ("%u.%02u %s", below (90000), below (100),
                              below (2) == 0 ? "lb" : "kg");

    case WB_FIELD_VOLUME:
      return g_strdup_printf ("%u.%02u %s", below (9000), below (100),
                              below (2) == 0 ? "cuft" : "m3");
    }

  g_assert_not_reached ();
}

gpointer
random_record (const WbJob *job,
               WbKind       kind,
               const char  *id)
{
  const WbRecordType *type = wb_record_type (kind);
  g_autoptr (WbRecord) record = wb_record_new (kind, id);

  for (gsize i = 0; i < type->n_fields; i++)
    {
      const WbField *field = &type->fields[i];
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      if ((field->flags & WB_FIELD_REQUIRED) == 0 && below (2) == 0)
        continue;

      text = random_value (job, field);
      wb_record_set_text (record, field, text, wb_job_get_currency (job), &error);
      g_assert_no_error (error);
    }

  return g_steal_pointer (&record);
}

static void
make_photo_agree (WbPhoto *photo)
{
  g_autofree char *hash = g_compute_checksum_for_string (G_CHECKSUM_SHA256, photo->hash, -1);

  wb_set_text (&photo->hash, hash);
  photo->orientation = 1 + below (8);
  wb_set_text (&photo->taken_at, below (2) == 0 ? "2026-03-04T09:30:00" : NULL);
  wb_set_text (&photo->taken_offset, below (2) == 0 ? "-05:00" : NULL);
  wb_set_text (&photo->imported_at, below (2) == 0 ? "2026-03-05T08:00:00Z" : NULL);
}

/* What a job demands of its records beyond each field: a ticket that adds up, lines with numbers
 * of their own, photos with a hash and times that can be, conversations at a time of day. */
static void
make_agree (WbRecord *record,
            guint     index)
{
  if (record->type->kind == WB_KIND_WEIGHING)
    ((WbWeighing *) record)->net = WB_WEIGHT_UNSET;
  if (record->type->kind == WB_KIND_CLAIM_LINE)
    ((WbClaimLine *) record)->number = index + 1;
  if (record->type->kind == WB_KIND_CONTACT)
    wb_set_text (&((WbContact *) record)->at, below (2) == 0 ? "14:05" : NULL);
  if (record->type->kind == WB_KIND_PHOTO)
    make_photo_agree ((WbPhoto *) record);
}

static gboolean
can_be_made (const WbJob        *job,
             const WbRecordType *type)
{
  for (gsize i = 0; i < type->n_fields; i++)
    {
      const WbField *field = &type->fields[i];

      if (field->type == WB_FIELD_REFERENCE && (field->flags & WB_FIELD_REQUIRED) != 0 &&
          wb_job_count (job, field->refers) == 0)
        return FALSE;
    }

  return TRUE;
}

WbJob *
random_job (const char *currency,
            guint       most)
{
  static const char *const currencies[] = { "USD", "EUR", "JPY" };
  g_autofree char *id = g_strdup_printf ("job-%u", below (1000000));
  g_autoptr (WbJob) job = wb_job_new (id, currency != NULL ? currency
                                                           : currencies[below (G_N_ELEMENTS (currencies))]);
  g_autoptr (GError) error = NULL;

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);
      guint n = type->single ? 1 : below (most + 1);

      if (!can_be_made (job, type))
        continue;
      for (guint i = 0; i < n; i++)
        {
          g_autofree char *name = type->single ? g_strdup (type->name) : g_strdup_printf ("%c%u",
                                                                                          type->name[0], i);
          g_autoptr (WbRecord) record = random_record (job, (WbKind) kind, name);
          g_autoptr (WbJob) next = NULL;

          make_agree (record, i);
          next = wb_job_with (job, record);
          wb_job_unref (job);
          job = g_steal_pointer (&next);
        }
    }

  wb_job_check (job, &error);
  g_assert_no_error (error);
  return g_steal_pointer (&job);
}

WbJob *
random_claim (void)
{
  g_autoptr (WbJob) job = random_job ("USD", 14);
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_copy (wb_job_order (job));
  WbValuation *valuation = wb_record_copy (wb_job_valuation (job));

  g_ptr_array_add (records, order);
  g_ptr_array_add (records, valuation);
  if (g_test_rand_int_range (0, 2) == 0)
    {
      valuation->choice = WB_CHOICE_RELEASED;
      valuation->signed_how = WB_SIGNED_ON_PAPER;
      wb_set_text (&valuation->signed_by, "A. Shipper");
      wb_set_text (&valuation->disclosure, "booklet");
      valuation->signed_on = order->picked_up_on;
    }

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      WbClaimLine *line = wb_record_copy (wb_job_nth (job, WB_KIND_CLAIM_LINE, i));

      /* A few stay with another claim, perhaps on the same pieces. */
      if (g_test_rand_int_range (0, 4) > 0)
        wb_set_text (&line->claim, ((const WbRecord *) wb_job_nth (job, WB_KIND_CLAIM, 0))->id);
      if (g_test_rand_int_range (0, 3) > 0)
        line->loss = (WbLoss) g_test_rand_int_range (WB_LOSS_MISSING, WB_LOSS_DAMAGED + 1);
      g_ptr_array_add (records, line);
    }
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      WbPiece *piece = wb_record_copy (wb_job_nth (job, WB_KIND_PIECE, i));

      if (g_test_rand_int_range (0, 3) == 0)
        wb_set_text (&piece->article, "bed");
      g_ptr_array_add (records, piece);
    }

  return wb_job_with_many (job, records);
}
