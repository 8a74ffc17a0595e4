/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The items of the checklist that arise on the way: weight tickets, delays, storage in transit,
 * what was found at delivery. The others stand in wb-checklist-look.c. */
#include "config.h"

#include "core/wb-checklist-private.h"
#include "core/wb-storage-watch.h"

static void
put_order (const WbItemLook *look,
           gboolean          there,
           const char       *field)
{
  wb_look_put (look, there ? WB_ITEM_STATE_THERE : WB_ITEM_STATE_MISSING, WB_ITEM_REASON_NONE,
               WB_KIND_ORDER, NULL, field);
}

static void
put_not_needed (const WbItemLook *look,
                WbItemReason      reason,
                WbKind            kind,
                const char       *field)
{
  wb_look_put (look, WB_ITEM_STATE_NOT_NEEDED, reason, kind, NULL, field);
}

/* The last paper of @kind has to be given, or filed. */
static void
put_given (const WbItemLook *look,
           WbPaperKind       kind,
           gboolean          filed)
{
  const WbPaper *paper = wb_job_paper (look->job, kind);
  gboolean there = paper != NULL && (filed ? paper->filed != NULL
                                           : wb_date_is_set (&paper->given_on));

  wb_look_put (look, there ? WB_ITEM_STATE_THERE : WB_ITEM_STATE_MISSING, WB_ITEM_REASON_NONE,
               WB_KIND_PAPER, paper != NULL ? paper->record.id : NULL,
               filed ? "filed" : "given_on");
  if (paper == NULL)
    g_array_index (look->out, WbChecklistEntry, look->out->len - 1).paper = kind;
}

/* --- weighing --------------------------------------------------------------------------------- */

static gboolean
is_ticket (const WbWeighing *weighing)
{
  return weighing->kind == WB_WEIGHING_FIRST || weighing->kind == WB_WEIGHING_REWEIGH;
}

static const WbWeighing *
last_ticket (const WbJob *job)
{
  for (guint i = wb_job_count (job, WB_KIND_WEIGHING); i-- > 0;)
    {
      const WbWeighing *weighing = wb_job_nth (job, WB_KIND_WEIGHING, i);

      if (is_ticket (weighing))
        return weighing;
    }

  return NULL;
}

/* 375.507 is about charges by weight; a binding estimate is the price, whatever it weighs. */
void
wb_look_weighing (const WbItemLook *look)
{
  const WbWeighing *ticket = last_ticket (look->job);

  if (ticket != NULL)
    wb_look_put (look, WB_ITEM_STATE_THERE, WB_ITEM_REASON_NONE, WB_KIND_WEIGHING,
                 ticket->record.id, "net");
  else if (wb_job_order (look->job)->estimate_kind == WB_ESTIMATE_BINDING)
    put_not_needed (look, WB_ITEM_REASON_BINDING, WB_KIND_WEIGHING, NULL);
  else
    wb_look_put (look, WB_ITEM_STATE_MISSING, WB_ITEM_REASON_NONE, WB_KIND_WEIGHING, NULL, NULL);
}

/* Returns: (nullable): the figure that says which weight is which. */
static const char *
lacking_weight (const WbWeighing *weighing)
{
  if (wb_weight_is_set (weighing->net))
    return NULL;
  if (!wb_weight_is_set (weighing->gross))
    return "gross";

  return wb_weight_is_set (weighing->tare) ? NULL : "tare";
}

static void
look_at_tickets (const WbItemLook *look,
                 const char       *field)
{
  gboolean any = FALSE;

  for (guint i = 0; i < wb_job_count (look->job, WB_KIND_WEIGHING); i++)
    {
      const WbWeighing *weighing = wb_job_nth (look->job, WB_KIND_WEIGHING, i);
      const char *lacking = NULL;

      if (!is_ticket (weighing))
        continue;
      any = TRUE;
      if (field == NULL)
        lacking = lacking_weight (weighing);
      else if (!wb_record_field_is_set (wb_record_type_field (weighing->record.type, field),
                                        weighing))
        lacking = field;
      wb_look_put (look, lacking == NULL ? WB_ITEM_STATE_THERE : WB_ITEM_STATE_MISSING,
                   WB_ITEM_REASON_NONE, WB_KIND_WEIGHING, weighing->record.id,
                   lacking != NULL ? lacking : field != NULL ? field : "net");
    }

  if (!any)
    put_not_needed (look, WB_ITEM_REASON_NO_TICKET, WB_KIND_WEIGHING, NULL);
}

void
wb_look_ticket (const WbItemLook *look)
{
  look_at_tickets (look, look->rule->field);
}

void
wb_look_ticket_weights (const WbItemLook *look)
{
  look_at_tickets (look, NULL);
}

void
wb_look_tickets_filed (const WbItemLook *look)
{
  if (last_ticket (look->job) != NULL)
    put_given (look, WB_PAPER_WEIGHT_TICKET, TRUE);
  else
    put_not_needed (look, WB_ITEM_REASON_NO_TICKET, WB_KIND_WEIGHING, NULL);
}

/* --- delay ------------------------------------------------------------------------------------ */

/* Whether what was agreed by @last (else @first) was done later, or was not done by @today. */
static gboolean
is_late (const GDate *first,
         const GDate *last,
         const GDate *done,
         const GDate *today)
{
  const GDate *agreed = wb_date_is_set (last) ? last : first;
  const GDate *actual = wb_date_is_set (done) ? done : today;

  return wb_date_is_set (agreed) && wb_date_is_set (actual)
         && wb_date_compare (actual, agreed) > 0;
}

static gboolean
is_under_way (WbStage stage)
{
  return stage == WB_STAGE_BOOKED || stage == WB_STAGE_PACKED || stage == WB_STAGE_ON_THE_ROAD;
}

/* Goods in storage are delivered when the shipper asks for them. */
void
wb_look_delay (const WbItemLook *look)
{
  const WbOrder *order = wb_job_order (look->job);
  const GDate *today = is_under_way (order->stage) ? look->today : NULL;
  gboolean loading = is_late (&order->pickup_from, &order->pickup_to, &order->picked_up_on, today);
  gboolean delivery = !wb_date_is_set (&order->storage_from)
                      && is_late (&order->delivery_from, &order->delivery_to, &order->delivered_on,
                                  today);

  if (!loading && !delivery)
    {
      put_not_needed (look, WB_ITEM_REASON_IN_TIME, WB_KIND_PAPER, NULL);
      return;
    }

  put_given (look, WB_PAPER_DELAY_NOTICE, FALSE);
  if (loading)
    g_array_index (look->out, WbChecklistEntry, look->out->len - 1).due = WB_DUE_LOADING;
}

/* --- storage ---------------------------------------------------------------------------------- */

/* How storage stands; without a day to look from, as on one long ago: what was done does not hang
 * on it. */
static gboolean
watch_storage (const WbItemLook *look,
               WbStorageWatch   *watch)
{
  GDate long_ago;

  g_date_clear (&long_ago, 1);
  g_date_set_dmy (&long_ago, 1, G_DATE_JANUARY, 2000);
  return wb_storage_watch (look->job, look->today != NULL ? look->today : &long_ago, watch, NULL)
         && watch->state != WB_STORAGE_NONE;
}

void
wb_look_storage_limit (const WbItemLook *look)
{
  WbStorageWatch watch;

  if (watch_storage (look, &watch))
    put_order (look, watch.limit != WB_STORAGE_LIMIT_NONE, "storage_days");
  else
    put_not_needed (look, WB_ITEM_REASON_NOT_STORED, WB_KIND_ORDER, "storage_from");
}

/* Whether the goods left before storage in transit would have ended. */
static gboolean
left_in_time (const WbStorageWatch *watch)
{
  return watch->state == WB_STORAGE_OUT
         && (!wb_date_is_set (&watch->out_on) || !wb_date_is_set (&watch->last_day)
             || wb_date_compare (&watch->out_on, &watch->last_day) <= 0);
}

void
wb_look_storage_notice (const WbItemLook *look)
{
  const WbOrder *order = wb_job_order (look->job);
  WbStorageWatch watch;

  if (!watch_storage (look, &watch))
    put_not_needed (look, WB_ITEM_REASON_NOT_STORED, WB_KIND_ORDER, "storage_from");
  else if (wb_date_is_set (&order->storage_notice_on))
    wb_look_put (look, WB_ITEM_STATE_THERE,
                 watch.notice == WB_STORAGE_NOTICE_LATE ? WB_ITEM_REASON_LATE_NOTICE
                                                        : WB_ITEM_REASON_NONE,
                 WB_KIND_ORDER, NULL, "storage_notice_on");
  else if (left_in_time (&watch))
    put_not_needed (look, WB_ITEM_REASON_LEFT_STORAGE, WB_KIND_ORDER, "storage_to");
  else
    put_order (look, FALSE, "storage_notice_on");
}

/* --- delivery --------------------------------------------------------------------------------- */

static const WbHandover *
find_delivery (const WbJob *job)
{
  for (guint i = wb_job_count (job, WB_KIND_HANDOVER); i-- > 0;)
    {
      const WbHandover *handover = wb_job_nth (job, WB_KIND_HANDOVER, i);

      if (handover->kind == WB_HANDOVER_DELIVERY)
        return handover;
    }

  return NULL;
}

void
wb_look_delivery_check (const WbItemLook *look)
{
  const WbHandover *delivery = find_delivery (look->job);

  wb_look_put (look, delivery != NULL && delivery->to_signed != NULL ? WB_ITEM_STATE_THERE
                                                                     : WB_ITEM_STATE_MISSING,
               WB_ITEM_REASON_NONE, WB_KIND_HANDOVER, delivery != NULL ? delivery->record.id : NULL,
               delivery != NULL ? "to_signed" : NULL);
}

static gboolean
is_short (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (job, WB_KIND_FINDING, i);
      const WbHandover *handover = wb_job_find (job, WB_KIND_HANDOVER, finding->handover);

      if (finding->found == WB_FOUND_SHORT && handover != NULL
          && handover->kind == WB_HANDOVER_DELIVERY)
        return TRUE;
    }

  return FALSE;
}

void
wb_look_delivered_weight (const WbItemLook *look)
{
  gboolean there = wb_weight_is_set (wb_job_order (look->job)->delivered_weight);

  if (!there && !is_short (look->job))
    put_not_needed (look, WB_ITEM_REASON_NOT_SHORT, WB_KIND_ORDER, "delivered_weight");
  else
    put_order (look, there, "delivered_weight");
}
