/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers what the clocks of a claim go by, and writes it as a line of text. Which clock goes by
 * what stands in wb-clock.c. */
#include "config.h"

#include "core/wb-clock-input.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-text.h"

const GDate *
wb_order_delivery_day (const WbOrder *order)
{
  if (wb_date_is_set (&order->delivered_on))
    return &order->delivered_on;
  if (wb_date_is_set (&order->delivery_to))
    return &order->delivery_to;

  return &order->delivery_from;
}

const GDate *
wb_order_pickup_day (const WbOrder *order)
{
  return wb_date_is_set (&order->picked_up_on) ? &order->picked_up_on : &order->pickup_from;
}

/* --- dates ------------------------------------------------------------------------------------ */

static void
take_earlier (GDate       *date,
              const GDate *other)
{
  if (wb_date_is_set (other) && (!wb_date_is_set (date) || wb_date_compare (other, date) < 0))
    *date = *other;
}

static void
take_later (GDate       *date,
            const GDate *other)
{
  if (wb_date_compare (other, date) > 0)
    *date = *other;
}

/* Keeps the list in order. @unique: a day that is there is not added again. */
static void
add_day (GArray      **days,
         const GDate  *day,
         gboolean      unique)
{
  guint place;

  if (*days == NULL)
    *days = g_array_new (FALSE, FALSE, sizeof (GDate));
  place = (*days)->len;
  while (place > 0 && wb_date_compare (&g_array_index (*days, GDate, place - 1), day) > 0)
    place--;
  if (unique && place > 0
      && wb_date_compare (&g_array_index (*days, GDate, place - 1), day) == 0)
    return;
  g_array_insert_val (*days, place, *day);
}

/* --- steps ------------------------------------------------------------------------------------ */

static void
read_step (WbClockInput *self,
           WbStepKind    kind,
           const GDate  *on)
{
  switch (kind)
    {
    case WB_STEP_NOTICE:
      take_earlier (&self->noticed, on);
      break;
    case WB_STEP_ACKNOWLEDGED:
      take_earlier (&self->acknowledged, on);
      break;
    case WB_STEP_INSPECTION:
      take_earlier (&self->inspected, on);
      break;
    case WB_STEP_STATUS:
      add_day (&self->reports, on, FALSE);
      break;
    case WB_STEP_PARTIAL_DENIAL:
    case WB_STEP_DENIAL:
      add_day (&self->denials, on, TRUE);
      take_earlier (&self->answered, on);
      break;
    case WB_STEP_OFFER:
      take_earlier (&self->answered, on);
      break;
    case WB_STEP_RELEASE:
      take_earlier (&self->answered, on);
      take_earlier (&self->settled, on);
      break;
    case WB_STEP_ARBITRATION:
      take_earlier (&self->arbitrated, on);
      break;
    case WB_STEP_MEDIATION:
      take_earlier (&self->mediated, on);
      break;
    case WB_STEP_TRANSFER:
      take_earlier (&self->transferred, on);
      break;
    case WB_STEP_NONE:
    case WB_STEP_REQUEST:
    case WB_STEP_COUNTER_OFFER:
    case WB_STEP_REOPENED:
    case WB_STEP_CLOSED:
    case WB_STEP_SUIT:
    case WB_STEP_OTHER:
      break;
    }
}

/* An answer until the claimant asked for mediation, which may be unset. */
static void
read_answer_before_mediation (WbClockInput *self,
                              const GDate  *on)
{
  if (!wb_date_is_set (&self->mediated) || wb_date_compare (on, &self->mediated) <= 0)
    take_later (&self->mediate_from, on);
}

/* What needs to know of other steps: mediation and arbitration when they began. */
static void
read_step_again (WbClockInput *self,
                 WbStepKind    kind,
                 const GDate  *on)
{
  gboolean is_later = wb_date_is_set (&self->arbitrated)
                      && wb_date_compare (on, &self->arbitrated) >= 0;

  if (kind == WB_STEP_OFFER || kind == WB_STEP_PARTIAL_DENIAL || kind == WB_STEP_DENIAL)
    read_answer_before_mediation (self, on);
  if (is_later && (kind == WB_STEP_RELEASE || kind == WB_STEP_CLOSED))
    take_earlier (&self->arbitration_over, on);
}

/* @standing: the day of the last answer so far. Steps of the same day count in their order. */
static void
read_turn (WbClockInput *self,
           WbStepKind    kind,
           const GDate  *on,
           GDate        *standing)
{
  gboolean answers = kind == WB_STEP_OFFER || kind == WB_STEP_PARTIAL_DENIAL
                     || kind == WB_STEP_DENIAL || kind == WB_STEP_RELEASE;
  gboolean reopens = kind == WB_STEP_COUNTER_OFFER || kind == WB_STEP_REOPENED;

  if (answers && wb_date_compare (on, standing) >= 0)
    {
      *standing = *on;
      if (wb_date_compare (on, &self->taken_up) >= 0)
        g_date_clear (&self->taken_up, 1);
    }
  if (reopens && wb_date_is_set (standing) && wb_date_compare (on, standing) >= 0)
    take_later (&self->taken_up, on);
}

static void
read_steps (WbClockInput  *self,
            const WbJob   *job,
            const WbClaim *claim,
            void         (*read) (WbClockInput *self, WbStepKind kind, const GDate *on))
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (job, WB_KIND_STEP, i);

      if (wb_date_is_set (&step->on) && g_strcmp0 (step->claim, claim->record.id) == 0)
        read (self, step->kind, &step->on);
    }
}

/* Goes through the steps by day, then by their order in the job. */
static void
read_turns (WbClockInput  *self,
            const WbJob   *job,
            const WbClaim *claim,
            const GDate   *paid)
{
  g_autoptr (GPtrArray) steps = g_ptr_array_new ();
  GDate standing = claim->decided_on;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (job, WB_KIND_STEP, i);
      guint place = steps->len;

      if (!wb_date_is_set (&step->on) || g_strcmp0 (step->claim, claim->record.id) != 0)
        continue;
      while (place > 0
             && wb_date_compare (&((const WbClaimStep *) steps->pdata[place - 1])->on,
                                 &step->on) > 0)
        place--;
      g_ptr_array_insert (steps, (gint) place, (gpointer) step);
    }
  for (guint i = 0; i < steps->len; i++)
    {
      const WbClaimStep *step = g_ptr_array_index (steps, i);

      read_turn (self, step->kind, &step->on, &standing);
    }
  if (wb_date_is_set (paid) && wb_date_compare (paid, &self->taken_up) >= 0)
    g_date_clear (&self->taken_up, 1);
}

/* --- the rest of a claim ---------------------------------------------------------------------- */

/* Money for one line alone does not answer the claim. Returns: the last day of the others. */
static GDate
read_payments (WbClockInput  *self,
               const WbJob   *job,
               const WbClaim *claim)
{
  GDate last = { 0 };

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (job, WB_KIND_PAYMENT, i);

      if (payment->claim_line != NULL || g_strcmp0 (payment->claim, claim->record.id) != 0)
        continue;
      take_earlier (&self->answered, &payment->on);
      take_later (&last, &payment->on);
    }
  return last;
}

static gboolean
has_salvage_to_take (const WbJob   *job,
                     const WbClaim *claim)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim->record.id) == 0 && line->ruling != WB_RULING_DENIED
          && !line->salvage_taken && wb_money_is_set (line->salvage) && line->salvage.minor > 0)
        return TRUE;
    }
  return FALSE;
}

static void
read_bills (WbClockInput *self,
            const WbJob  *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAPER); i++)
    {
      const WbPaper *paper = wb_job_nth (job, WB_KIND_PAPER, i);

      if (paper->kind == WB_PAPER_FREIGHT_BILL)
        take_earlier (&self->billed, &paper->given_on);
    }
}

static void
prefer (GDate       *date,
        const GDate *noted)
{
  if (wb_date_is_set (noted))
    *date = *noted;
}

void
wb_clock_input_read (WbClockInput  *self,
                     const WbJob   *job,
                     const WbClaim *claim)
{
  const WbOrder *order;
  GDate paid;

  g_return_if_fail (self != NULL && job != NULL && claim != NULL);

  memset (self, 0, sizeof *self);
  order = wb_job_order (job);
  self->open = claim->status == WB_CLAIM_OPEN || claim->status == WB_CLAIM_OFFERED;
  self->declined = claim->status == WB_CLAIM_DECLINED;
  self->delivered = *wb_order_delivery_day (order);
  self->promised = wb_date_is_set (&order->delivery_to) ? order->delivery_to
                                                        : order->delivery_from;
  self->handed_over = order->delivered_on;
  self->received = claim->received_on;
  self->decided = claim->decided_on;

  read_steps (self, job, claim, read_step);
  paid = read_payments (self, job, claim);
  take_earlier (&self->answered, &claim->decided_on);
  prefer (&self->acknowledged, &claim->acknowledged_on);
  prefer (&self->inspected, &claim->inspected_on);
  if (wb_date_is_set (&claim->decided_on))
    read_answer_before_mediation (self, &claim->decided_on);
  read_steps (self, job, claim, read_step_again);
  read_turns (self, job, claim, &paid);
  read_bills (self, job);
  self->salvage_waits = has_salvage_to_take (job, claim);
}

void
wb_clock_input_clear (WbClockInput *self)
{
  g_clear_pointer (&self->reports, g_array_unref);
  g_clear_pointer (&self->denials, g_array_unref);
  memset (self, 0, sizeof *self);
}

/* --- text ------------------------------------------------------------------------------------- */

typedef enum { PART_FLAG, PART_DATE, PART_DATES } PartType;

typedef struct
{
  const char *name;
  PartType    type;
  gsize       offset;
} Part;

#define FLAG(member, name) { name, PART_FLAG, G_STRUCT_OFFSET (WbClockInput, member) }
#define DATE(member, name) { name, PART_DATE, G_STRUCT_OFFSET (WbClockInput, member) }
#define DATES(member, name) { name, PART_DATES, G_STRUCT_OFFSET (WbClockInput, member) }

static const Part parts[] = {
  FLAG (open, "open"),
  FLAG (declined, "declined"),
  FLAG (salvage_waits, "salvage"),
  DATE (received, "received"),
  DATE (acknowledged, "acknowledged"),
  DATE (inspected, "inspected"),
  DATE (answered, "answered"),
  DATE (decided, "decided"),
  DATE (taken_up, "taken-up"),
  DATE (settled, "settled"),
  DATE (transferred, "transferred"),
  DATES (reports, "report"),
  DATES (denials, "denial"),
  DATE (delivered, "delivered"),
  DATE (promised, "promised"),
  DATE (handed_over, "handed-over"),
  DATE (billed, "billed"),
  DATE (noticed, "noticed"),
  DATE (mediate_from, "mediate-from"),
  DATE (mediated, "mediated"),
  DATE (arbitrated, "arbitrated"),
  DATE (arbitration_over, "arbitration-over"),
};

static void
append_word (GString     *text,
             const char  *name,
             const GDate *date)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, name);
  if (date != NULL)
    {
      g_autofree char *day = wb_date_to_text (date);

      g_string_append_c (text, '=');
      g_string_append (text, day);
    }
}

static void
append_part (GString            *text,
             const WbClockInput *self,
             const Part         *part)
{
  gconstpointer member = (const char *) self + part->offset;

  switch (part->type)
    {
    case PART_FLAG:
      if (*(const gboolean *) member)
        append_word (text, part->name, NULL);
      break;
    case PART_DATE:
      if (wb_date_is_set (member))
        append_word (text, part->name, member);
      break;
    case PART_DATES:
      {
        GArray *days = *(GArray *const *) member;

        for (guint i = 0; days != NULL && i < days->len; i++)
          append_word (text, part->name, &g_array_index (days, GDate, i));
      }
      break;
    }
}

char *
wb_clock_input_to_text (const WbClockInput *self)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (self != NULL, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    append_part (text, self, &parts[i]);
  return g_string_free (text, FALSE);
}

#define LENGTH_OF_DATE 10

/* Looks from the part that was found last, for they come in order. */
static const Part *
find_part (const char *name,
           gsize       length,
           gsize      *last)
{
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      gsize place = (*last + i) % G_N_ELEMENTS (parts);

      if (strncmp (parts[place].name, name, length) == 0 && parts[place].name[length] == '\0')
        {
          *last = place;
          return &parts[place];
        }
    }
  return NULL;
}

/* One word of @length bytes at @word. Returns %FALSE when it is none of ours. */
static gboolean
read_word (WbClockInput *self,
           const char   *word,
           gsize         length,
           gsize        *last)
{
  const char *equals = memchr (word, '=', length);
  gsize name_length = equals != NULL ? (gsize) (equals - word) : length;
  const Part *part = find_part (word, name_length, last);
  gpointer member;
  char day[LENGTH_OF_DATE + 1] = "";
  GDate date;

  if (part == NULL || (part->type == PART_FLAG) != (equals == NULL))
    return FALSE;
  member = (char *) self + part->offset;
  if (part->type == PART_FLAG)
    {
      *(gboolean *) member = TRUE;
      return TRUE;
    }
  if (length - name_length - 1 != LENGTH_OF_DATE)
    return FALSE;
  memcpy (day, equals + 1, LENGTH_OF_DATE);
  if (!wb_date_parse (day, &date, NULL))
    return FALSE;
  if (part->type == PART_DATE)
    *(GDate *) member = date;
  else
    add_day (member, &date, FALSE);
  return TRUE;
}

gboolean
wb_clock_input_parse (WbClockInput  *self,
                      const char    *text,
                      GError       **error)
{
  const char *word = text;
  gsize last = 0;

  g_return_val_if_fail (self != NULL && text != NULL, FALSE);

  memset (self, 0, sizeof *self);
  while (*word != '\0')
    {
      gsize length = strcspn (word, " ");

      if (!read_word (self, word, length, &last))
        {
          g_autofree char *quoted = wb_text_quote (word, (gssize) length);

          wb_clock_input_clear (self);
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                       "%s says nothing that a clock goes by", quoted);
          return FALSE;
        }
      word += length;
      word += *word == ' ' ? 1 : 0;
    }
  return TRUE;
}
