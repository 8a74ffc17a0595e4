/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Guesses for a record just added, and moving records. Pure: from a job to a job. */
#include "config.h"

#include "desk/records/wb-record-draft.h"

#include "core/wb-checklist.h"

static gboolean
has_party (const WbJob *job,
           WbRole       role)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    if (((const WbParty *) wb_job_nth (job, WB_KIND_PARTY, i))->role == role)
      return TRUE;

  return FALSE;
}

/* Returns: place of the first stop of @kind, or -1 */
static gint
find_stop (const WbJob *job,
           WbStopKind   kind)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    if (((const WbStop *) wb_job_nth (job, WB_KIND_STOP, i))->kind == kind)
      return (gint) i;

  return -1;
}

static WbRole
guess_role (const WbJob *job)
{
  static const WbRole wanted[] = { WB_ROLE_SHIPPER, WB_ROLE_CARRIER };

  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    if (!has_party (job, wanted[i]))
      return wanted[i];

  return WB_ROLE_CONTACT;
}

static WbStopKind
guess_stop (const WbJob *job)
{
  if (find_stop (job, WB_STOP_PICKUP) < 0)
    return WB_STOP_PICKUP;
  if (find_stop (job, WB_STOP_DELIVERY) < 0)
    return WB_STOP_DELIVERY;

  return WB_STOP_EXTRA_DELIVERY;
}

static guint
guess_place (const WbJob *job,
             WbStopKind   kind)
{
  gint delivery = find_stop (job, WB_STOP_DELIVERY);

  if (kind == WB_STOP_PICKUP)
    return 0;

  return kind == WB_STOP_EXTRA_DELIVERY && delivery >= 0 ? (guint) delivery
                                                         : wb_job_count (job, WB_KIND_STOP);
}

static void
fill_contact (const WbJob *job,
              WbContact   *contact,
              const GDate *today,
              const char  *at)
{
  const WbParty *shipper = wb_job_party (job, WB_ROLE_SHIPPER);

  contact->on = *today;
  wb_set_text (&contact->at, at);
  wb_set_text (&contact->by, wb_job_order (job)->coordinator);
  if (shipper != NULL)
    wb_set_text (&contact->who, shipper->name != NULL ? shipper->name : shipper->company);
}

WbJob *
wb_record_draft_add (const WbJob *job,
                     WbKind       kind,
                     const char  *id,
                     const GDate *today,
                     const char  *at)
{
  g_autoptr (WbRecord) record = wb_record_new (kind, id);
  guint place = wb_job_count (job, kind);

  if (kind == WB_KIND_PARTY)
    {
      ((WbParty *) record)->role = guess_role (job);
    }
  else if (kind == WB_KIND_STOP)
    {
      ((WbStop *) record)->kind = guess_stop (job);
      place = guess_place (job, ((WbStop *) record)->kind);
    }
  else if (kind == WB_KIND_WEIGHING)
    {
      ((WbWeighing *) record)->kind = place == 0 ? WB_WEIGHING_FIRST : WB_WEIGHING_REWEIGH;
    }
  else if (kind == WB_KIND_CONTACT)
    {
      fill_contact (job, (WbContact *) record, today, at);
    }

  return wb_job_insert (job, record, place);
}

WbJob *
wb_record_draft_add_paper (const WbJob *job,
                           WbPaperKind  paper,
                           const char  *id)
{
  g_autoptr (WbPaper) record = wb_record_new (WB_KIND_PAPER, id);

  record->kind = paper;
  return wb_job_with (job, record);
}

WbJob *
wb_record_draft_move (const WbJob *job,
                      WbKind       kind,
                      const char  *id,
                      gint         by)
{
  gint index = wb_job_index (job, kind, id);
  gint place = index + by;
  g_autoptr (WbRecord) record = NULL;
  g_autoptr (WbJob) without = NULL;

  if (index < 0 || place < 0 || place >= (gint) wb_job_count (job, kind))
    return NULL;

  record = wb_record_ref ((gpointer) wb_job_find (job, kind, id));
  without = wb_job_without (job, kind, id, NULL);
  return without != NULL ? wb_job_insert (without, record, (guint) place) : NULL;
}
