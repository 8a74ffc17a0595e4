/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "trail-fixture.h"

#include "core/wb-calendar.h"

void
set_date (GDate      *date,
          const char *text)
{
  g_assert_true (wb_date_parse (text, date, NULL));
}

char *
trail_new_id (void)
{
  static guint last;

  return g_strdup_printf ("x-%u", ++last);
}

static void
add_lot (GPtrArray  *records,
         const char *colour,
         const char *number,
         guint       n_pieces)
{
  WbLot *lot = wb_record_new (WB_KIND_LOT, colour);

  wb_set_text (&lot->colour, colour);
  wb_set_text (&lot->number, number);
  lot->first = 1;
  lot->last = 500;
  g_ptr_array_add (records, lot);
  for (guint i = 1; i <= n_pieces; i++)
    {
      g_autofree char *id = g_strdup_printf ("%c%u", *colour, i);
      WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);

      wb_set_text (&piece->lot, colour);
      piece->tag = i;
      g_ptr_array_add (records, piece);
    }
}

WbJob *
trail_job (guint n_teal,
           guint n_amber)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");

  wb_set_text (&order->number, "J-1");
  g_ptr_array_add (records, order);
  add_lot (records, "teal", "3107", n_teal);
  if (n_amber > 0)
    add_lot (records, "amber", "3108", n_amber);
  return wb_job_with_many (empty, records);
}

static WbJob *
with (WbJob    *job,
      gpointer  record)
{
  g_autoptr (WbJob) before = job;
  WbJob *after = wb_job_with (before, record);

  wb_record_unref (record);
  return after;
}

WbJob *
trail_add_handover (WbJob          *job,
                    const char     *id,
                    WbHandoverKind  kind,
                    const char     *on,
                    const char     *from,
                    const char     *to)
{
  WbHandover *handover = wb_record_new (WB_KIND_HANDOVER, id);

  handover->kind = kind;
  if (on != NULL)
    set_date (&handover->on, on);
  wb_set_text (&handover->from_holder, from);
  wb_set_text (&handover->to_holder, to);
  return with (job, handover);
}

WbJob *
trail_add_finding (WbJob      *job,
                   const char *handover,
                   const char *piece,
                   WbFound     found,
                   const char *marks)
{
  g_autofree char *id = trail_new_id ();
  WbFinding *finding = wb_record_new (WB_KIND_FINDING, id);

  wb_set_text (&finding->handover, handover);
  wb_set_text (&finding->piece, piece);
  finding->found = found;
  wb_set_text (&finding->marks, marks);
  return with (job, finding);
}

WbJob *
trail_count (WbJob      *job,
             const char *handover,
             const char *text)
{
  g_autoptr (WbJob) before = job;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbCountEntry) entry = wb_count_entry_read (before, text, &error);
  WbJob *after;

  g_assert_no_error (error);
  after = wb_count_add (before, handover, entry, trail_new_id, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_check (after, &error));
  return after;
}

WbJob *
trail_finish (WbJob      *job,
              const char *handover)
{
  g_autoptr (WbJob) before = job;
  g_autoptr (GError) error = NULL;
  WbJob *after = wb_count_finish (before, handover, trail_new_id, &error);

  g_assert_no_error (error);
  g_assert_true (wb_job_check (after, &error));
  return after;
}
