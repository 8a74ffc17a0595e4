/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks at the order, its stops and parties, and at the handover before. */
#include "config.h"

#include "desk/handovers/wb-handover-draft.h"

static const WbStop *
find_stop (const WbJob *job,
           WbStopKind   kind)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);

      if (stop->kind == kind)
        return stop;
    }
  return NULL;
}

static const char *
find_party (const WbJob *job,
            WbRole       role)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == role)
        return party->name != NULL ? party->name : party->company;
    }
  return NULL;
}

static gboolean
will_be_stored (const WbJob *job)
{
  return wb_date_is_set (&wb_job_order (job)->storage_from)
         || find_stop (job, WB_STOP_WAREHOUSE) != NULL
         || find_party (job, WB_ROLE_WAREHOUSE) != NULL;
}

static WbHandoverKind
guess_kind (const WbJob      *job,
            const WbHandover *before)
{
  if (before == NULL)
    return WB_HANDOVER_PICKUP;

  switch (before->kind)
    {
    case WB_HANDOVER_PICKUP:
      return will_be_stored (job) ? WB_HANDOVER_INTO_STORAGE : WB_HANDOVER_DELIVERY;
    case WB_HANDOVER_INTO_STORAGE:
      return WB_HANDOVER_OUT_OF_STORAGE;
    case WB_HANDOVER_OUT_OF_STORAGE:
    case WB_HANDOVER_TRANSFER:
      return WB_HANDOVER_DELIVERY;
    case WB_HANDOVER_NONE:
    case WB_HANDOVER_DELIVERY:
      return WB_HANDOVER_NONE;
    }

  g_assert_not_reached ();
}

static const char *
guess_place (const WbJob      *job,
             WbHandoverKind    kind,
             const WbHandover *before)
{
  const WbStop *stop = NULL;

  if (kind == WB_HANDOVER_OUT_OF_STORAGE && before != NULL)
    return before->place;
  if (kind == WB_HANDOVER_PICKUP)
    stop = find_stop (job, WB_STOP_PICKUP);
  else if (kind == WB_HANDOVER_INTO_STORAGE)
    stop = find_stop (job, WB_STOP_WAREHOUSE);
  else if (kind == WB_HANDOVER_DELIVERY)
    stop = find_stop (job, WB_STOP_DELIVERY);

  return stop == NULL ? NULL : stop->city != NULL ? stop->city : stop->name;
}

static const char *
guess_receiver (const WbJob    *job,
                WbHandoverKind  kind)
{
  switch (kind)
    {
    case WB_HANDOVER_PICKUP:
    case WB_HANDOVER_OUT_OF_STORAGE:
      return find_party (job, WB_ROLE_HAULER);
    case WB_HANDOVER_INTO_STORAGE:
      return find_party (job, WB_ROLE_WAREHOUSE);
    case WB_HANDOVER_DELIVERY:
      return find_party (job, WB_ROLE_CONSIGNEE) != NULL ? find_party (job, WB_ROLE_CONSIGNEE)
                                                         : find_party (job, WB_ROLE_SHIPPER);
    case WB_HANDOVER_NONE:
    case WB_HANDOVER_TRANSFER:
      return NULL;
    }

  g_assert_not_reached ();
}

WbJob *
wb_handover_draft_add (const WbJob *job,
                       const char  *id)
{
  g_autoptr (WbHandover) handover = wb_record_new (WB_KIND_HANDOVER, id);
  guint n = wb_job_count (job, WB_KIND_HANDOVER);
  const WbHandover *before = n > 0 ? wb_job_nth (job, WB_KIND_HANDOVER, n - 1) : NULL;

  handover->kind = guess_kind (job, before);
  wb_set_text (&handover->place, guess_place (job, handover->kind, before));
  wb_set_text (&handover->from_holder,
               before != NULL ? before->to_holder : find_party (job, WB_ROLE_SHIPPER));
  wb_set_text (&handover->to_holder, guess_receiver (job, handover->kind));
  return wb_job_with (job, handover);
}
