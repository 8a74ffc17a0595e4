/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How each item of the checklist is looked for in a job, and where a person goes to fill it in.
 * Which items there are, and by when, stands in wb-checklist.c; weights, delays and storage in
 * wb-checklist-way.c. */
#include "config.h"

#include "core/wb-checklist-private.h"

/* --- putting ---------------------------------------------------------------------------------- */

void
wb_look_put (const WbItemLook *look,
             WbItemState       state,
             WbItemReason      reason,
             WbKind            kind,
             const char       *id,
             const char       *field)
{
  const WbItemRule *rule = look->rule;
  WbChecklistEntry entry = {
    .item = rule->item,
    .due = rule->due,
    .state = state,
    .reason = reason,
    .citation = rule->citation,
    .source = rule->source,
    .kind = kind,
    .id = id,
    .field = field,
    .paper = kind == WB_KIND_PAPER && id == NULL ? (WbPaperKind) rule->which : WB_PAPER_NONE,
  };

  g_array_append_val (look->out, entry);
}

static void
put (const WbItemLook *look,
     gboolean          there,
     WbKind            kind,
     const char       *id,
     const char       *field)
{
  wb_look_put (look, there ? WB_ITEM_STATE_THERE : WB_ITEM_STATE_MISSING, WB_ITEM_REASON_NONE, kind,
               id, field);
}

static void
put_order (const WbItemLook *look,
           gboolean          there,
           const char       *field)
{
  put (look, there, WB_KIND_ORDER, NULL, field);
}

static void
put_valuation (const WbItemLook *look,
               gboolean          there,
               const char       *field)
{
  put (look, there, WB_KIND_VALUATION, NULL, field);
}

static void
put_not_needed (const WbItemLook *look,
                WbItemReason      reason,
                WbKind            kind,
                const char       *field)
{
  wb_look_put (look, WB_ITEM_STATE_NOT_NEEDED, reason, kind, NULL, field);
}

static gboolean
is_set (gconstpointer  record,
        const char    *field)
{
  return wb_record_field_is_set (wb_record_type_field (((const WbRecord *) record)->type, field),
                                 record);
}

/* Returns: (nullable): the first of @fields (ended by %NULL) that @record lacks. */
static const char *
first_lacking (gconstpointer      record,
               const char *const *fields)
{
  for (; *fields != NULL; fields++)
    if (!is_set (record, *fields))
      return *fields;

  return NULL;
}

/* --- finding ---------------------------------------------------------------------------------- */

const WbParty *
wb_job_party (const WbJob *job,
              WbRole       role)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == role)
        return party;
    }

  return NULL;
}

const WbPaper *
wb_job_paper (const WbJob *job,
              WbPaperKind  kind)
{
  for (guint i = wb_job_count (job, WB_KIND_PAPER); i-- > 0;)
    {
      const WbPaper *paper = wb_job_nth (job, WB_KIND_PAPER, i);

      if (paper->kind == kind)
        return paper;
    }

  return NULL;
}

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

/* --- looks of the usual kinds ----------------------------------------------------------------- */

void
wb_look_field (const WbItemLook *look)
{
  gconstpointer record = look->rule->kind == WB_KIND_ORDER
                           ? (gconstpointer) wb_job_order (look->job)
                           : (gconstpointer) wb_job_valuation (look->job);

  put (look, is_set (record, look->rule->field), look->rule->kind, NULL, look->rule->field);
}

void
wb_look_party (const WbItemLook *look)
{
  const WbParty *party = wb_job_party (look->job, (WbRole) look->rule->which);

  put (look, party != NULL && is_set (party, look->rule->field), WB_KIND_PARTY,
       party != NULL ? party->record.id : NULL, look->rule->field);
}

void
wb_look_stop (const WbItemLook *look)
{
  static const char *const fields[] = { "street", "city", NULL };
  const WbStop *stop = find_stop (look->job, (WbStopKind) look->rule->which);
  const char *lacking = stop != NULL ? first_lacking (stop, fields) : NULL;

  put (look, stop != NULL && lacking == NULL, WB_KIND_STOP, stop != NULL ? stop->record.id : NULL,
       lacking != NULL ? lacking : fields[0]);
}

/* Returns: (nullable): what @paper does not say of itself, though @parts ask for it. */
static const char *
lacking_part (const WbPaper *paper,
              guint          parts)
{
  if ((parts & WB_PAPER_PART_MADE) != 0 && !wb_date_is_set (&paper->made_on))
    return "made_on";
  if ((parts & WB_PAPER_PART_GIVEN) != 0 && !wb_date_is_set (&paper->given_on))
    return "given_on";
  if ((parts & WB_PAPER_PART_SIGNED) != 0 && paper->signed_by == NULL)
    return "signed_by";
  if ((parts & WB_PAPER_PART_SIGNED) != 0 && !wb_date_is_set (&paper->signed_on))
    return "signed_on";
  if ((parts & WB_PAPER_PART_CARRIER_SIGNED) != 0 && paper->carrier_signed_by == NULL)
    return "carrier_signed_by";
  if ((parts & WB_PAPER_PART_FILED) != 0 && paper->filed == NULL)
    return "filed";

  return NULL;
}

static void
look_for_paper (const WbItemLook *look,
                WbPaperKind       kind,
                guint             parts)
{
  const WbPaper *paper = wb_job_paper (look->job, kind);
  const char *lacking = paper != NULL ? lacking_part (paper, parts) : NULL;

  put (look, paper != NULL && lacking == NULL, WB_KIND_PAPER,
       paper != NULL ? paper->record.id : NULL, lacking);
  if (paper == NULL)
    g_array_index (look->out, WbChecklistEntry, look->out->len - 1).paper = kind;
}

void
wb_look_paper (const WbItemLook *look)
{
  look_for_paper (look, (WbPaperKind) look->rule->which, look->rule->parts);
}

/* --- people and the move ---------------------------------------------------------------------- */

void
wb_look_region (const WbItemLook *look)
{
  const WbOrder *order = wb_job_order (look->job);

  if (order->move_type != WB_MOVE_INTRASTATE)
    put_not_needed (look, WB_ITEM_REASON_NOT_INTRASTATE, WB_KIND_ORDER, "region");
  else
    put_order (look, order->region != NULL, "region");
}

static void
look_for_name (const WbItemLook *look,
               WbRole            role,
               const char       *field)
{
  const WbParty *party = wb_job_party (look->job, role);

  put (look, party != NULL && (party->name != NULL || party->company != NULL), WB_KIND_PARTY,
       party != NULL ? party->record.id : NULL, field);
}

void
wb_look_shipper (const WbItemLook *look)
{
  look_for_name (look, WB_ROLE_SHIPPER, "name");
}

void
wb_look_carrier (const WbItemLook *look)
{
  look_for_name (look, WB_ROLE_CARRIER, "company");
}

static const char *
lacking_of_carrier (const WbParty *party)
{
  static const char *const fields[] = { "phone", "street", "dot_number", NULL };

  if (party->name == NULL && party->company == NULL)
    return "company";
  return first_lacking (party, fields);
}

/* The haulers; the first that lacks something is where to go. */
void
wb_look_other_carriers (const WbItemLook *look)
{
  const WbParty *first = NULL;

  for (guint i = 0; i < wb_job_count (look->job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (look->job, WB_KIND_PARTY, i);
      const char *lacking = NULL;

      if (party->role != WB_ROLE_HAULER)
        continue;
      lacking = lacking_of_carrier (party);
      if (lacking != NULL)
        {
          put (look, FALSE, WB_KIND_PARTY, party->record.id, lacking);
          return;
        }
      if (first == NULL)
        first = party;
    }

  if (first != NULL)
    put (look, TRUE, WB_KIND_PARTY, first->record.id, "company");
  else
    put_not_needed (look, WB_ITEM_REASON_NO_OTHER, WB_KIND_PARTY, NULL);
}

/* A person named for it, else the shipper when the shipper asked. */
void
wb_look_notify (const WbItemLook *look)
{
  const WbParty *named = wb_job_party (look->job, WB_ROLE_NOTIFY);
  const WbParty *party = named != NULL ? named : wb_job_party (look->job, WB_ROLE_SHIPPER);

  if (named == NULL && !wb_job_order (look->job)->notify_charges)
    put_not_needed (look, WB_ITEM_REASON_NOT_ASKED, WB_KIND_ORDER, "notify_charges");
  else
    put (look, party != NULL && (party->phone != NULL || party->email != NULL), WB_KIND_PARTY,
         party != NULL ? party->record.id : NULL, "phone");
}

void
wb_look_survey (const WbItemLook *look)
{
  const WbOrder *order = wb_job_order (look->job);
  gboolean made = order->survey == WB_SURVEY_ON_SITE || order->survey == WB_SURVEY_VIRTUAL;

  if (order->survey == WB_SURVEY_NONE)
    put_order (look, FALSE, "survey");
  else
    put_order (look, !made || wb_date_is_set (&order->survey_on), "survey_on");
}

void
wb_look_survey_waiver (const WbItemLook *look)
{
  if (wb_job_order (look->job)->survey == WB_SURVEY_WAIVED)
    look_for_paper (look, WB_PAPER_SURVEY_WAIVER, WB_PAPER_PART_SIGNED);
  else
    put_not_needed (look, WB_ITEM_REASON_NOT_WAIVED, WB_KIND_ORDER, "survey");
}

/* --- dates and money -------------------------------------------------------------------------- */

void
wb_look_service_dates (const WbItemLook *look)
{
  static const char *const fields[] = { "pickup_from", "delivery_from", NULL };
  const WbOrder *order = wb_job_order (look->job);
  const char *lacking = first_lacking (order, fields);

  if (order->guaranteed)
    put_not_needed (look, WB_ITEM_REASON_GUARANTEED, WB_KIND_ORDER, "guaranteed");
  else
    put_order (look, lacking == NULL, lacking != NULL ? lacking : fields[0]);
}

void
wb_look_guaranteed_dates (const WbItemLook *look)
{
  static const char *const fields[] = { "pickup_from", "pickup_to", "delivery_from", "delivery_to",
                                        "per_diem", NULL };
  const WbOrder *order = wb_job_order (look->job);
  const char *lacking = first_lacking (order, fields);

  if (!order->guaranteed)
    put_not_needed (look, WB_ITEM_REASON_NOT_GUARANTEED, WB_KIND_ORDER, "guaranteed");
  else
    put_order (look, lacking == NULL, lacking != NULL ? lacking : fields[0]);
}

void
wb_look_minimum (const WbItemLook *look)
{
  const WbOrder *order = wb_job_order (look->job);

  put_order (look, wb_money_is_set (order->minimum_charge) ||
                   wb_weight_is_set (order->minimum_weight), "minimum_charge");
}

void
wb_look_maximum (const WbItemLook *look)
{
  static const char *const fields[] = { "estimate_kind", "estimate", NULL };
  const char *lacking = first_lacking (wb_job_order (look->job), fields);

  put_order (look, lacking == NULL, lacking != NULL ? lacking : fields[1]);
}

void
wb_look_insurance (const WbItemLook *look)
{
  static const char *const fields[] = { "insurance", "insurance_premium", NULL };
  const WbOrder *order = wb_job_order (look->job);
  const char *lacking = first_lacking (order, fields);

  if (order->insurance == NULL && !wb_money_is_set (order->insurance_premium))
    put_not_needed (look, WB_ITEM_REASON_NOT_SOLD, WB_KIND_ORDER, "insurance");
  else
    put_order (look, lacking == NULL, lacking != NULL ? lacking : fields[0]);
}

void
wb_look_insurance_paper (const WbItemLook *look)
{
  const WbOrder *order = wb_job_order (look->job);

  if (order->insurance == NULL && !wb_money_is_set (order->insurance_premium))
    put_not_needed (look, WB_ITEM_REASON_NOT_SOLD, WB_KIND_ORDER, "insurance");
  else
    look_for_paper (look, WB_PAPER_INSURANCE, WB_PAPER_PART_GIVEN);
}

/* --- the choice of liability ------------------------------------------------------------------ */

void
wb_look_signature (const WbItemLook *look)
{
  static const char *const fields[] = { "signed_by", "signed_on", "signed_how", NULL };
  const WbValuation *valuation = wb_job_valuation (look->job);
  const char *lacking = first_lacking (valuation, fields);

  if (valuation->choice == WB_CHOICE_NONE)
    put_not_needed (look, WB_ITEM_REASON_NO_CHOICE, WB_KIND_VALUATION, "choice");
  else
    put_valuation (look, lacking == NULL, lacking != NULL ? lacking : fields[0]);
}

void
wb_look_disclosure (const WbItemLook *look)
{
  put_valuation (look, wb_job_valuation (look->job)->disclosure != NULL, "disclosure");
}

void
wb_look_valuation_charge (const WbItemLook *look)
{
  const WbValuation *valuation = wb_job_valuation (look->job);

  switch (valuation->choice)
    {
    case WB_CHOICE_NONE:
      put_not_needed (look, WB_ITEM_REASON_NO_CHOICE, WB_KIND_VALUATION, "choice");
      return;
    case WB_CHOICE_RELEASED:
      put_not_needed (look, WB_ITEM_REASON_RELEASED, WB_KIND_VALUATION, "charge");
      return;
    case WB_CHOICE_FULL:
      put_valuation (look, wb_money_is_set (valuation->charge), "charge");
      return;
    }
  g_return_if_reached ();
}

void
wb_look_valuation_paper (const WbItemLook *look)
{
  if (wb_job_valuation (look->job)->choice == WB_CHOICE_NONE)
    put_not_needed (look, WB_ITEM_REASON_NO_CHOICE, WB_KIND_VALUATION, "choice");
  else
    look_for_paper (look, WB_PAPER_VALUATION, WB_PAPER_PART_GIVEN | WB_PAPER_PART_SIGNED);
}

static gboolean
has_listed_piece (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    if (wb_money_is_set (((const WbPiece *) wb_job_nth (job, WB_KIND_PIECE, i))->listed_value))
      return TRUE;

  return FALSE;
}

/* 375.203(b) speaks of releases above 60 cents, so released value needs no list. */
void
wb_look_high_value (const WbItemLook *look)
{
  static const char *const fields[] = { "high_value_list", "high_value_signed_by",
                                        "high_value_signed_on", NULL };
  const WbValuation *valuation = wb_job_valuation (look->job);
  const char *lacking = first_lacking (valuation, fields);

  if (valuation->choice == WB_CHOICE_RELEASED)
    put_not_needed (look, WB_ITEM_REASON_RELEASED, WB_KIND_VALUATION, "high_value_list");
  else if (!valuation->high_value_list && !has_listed_piece (look->job))
    put_not_needed (look, WB_ITEM_REASON_NOT_LISTED, WB_KIND_VALUATION, "high_value_list");
  else
    put_valuation (look, lacking == NULL, lacking != NULL ? lacking : fields[0]);
}

/* --- papers and pieces ------------------------------------------------------------------------ */

void
wb_look_attachments (const WbItemLook *look)
{
  if (wb_job_paper (look->job, WB_PAPER_ESTIMATE) == NULL)
    look_for_paper (look, WB_PAPER_ESTIMATE, 0);
  else
    look_for_paper (look, WB_PAPER_INVENTORY, 0);
}

void
wb_look_inventory (const WbItemLook *look)
{
  put (look, wb_job_count (look->job, WB_KIND_PIECE) > 0, WB_KIND_PIECE, NULL, NULL);
}

void
wb_look_closed (const WbItemLook *look)
{
  const WbOrder *order = wb_job_order (look->job);

  if (order->stage != WB_STAGE_CLOSED && !wb_date_is_set (&order->closed_on))
    put_not_needed (look, WB_ITEM_REASON_NOT_CLOSED, WB_KIND_ORDER, "closed_on");
  else
    put_order (look, wb_date_is_set (&order->closed_on), "closed_on");
}
