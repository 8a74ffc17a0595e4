/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the lines of a finished claim for a report. Groups nothing: that is in wb-loss-report.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-core"

#include "core/wb-loss-line.h"

#include "core/wb-calendar.h"
#include "core/wb-core.h"

#include <string.h>

#define N_(text) text

static const WbEnumValue loss_by[] = {
  { WB_LOSS_BY_CAUSE,     "cause",     N_ ("Cause") },
  { WB_LOSS_BY_CARTON,    "carton",    N_ ("Kind of carton") },
  { WB_LOSS_BY_PACKED_BY, "packed-by", N_ ("Packed by carrier or owner") },
  { WB_LOSS_BY_PACKER,    "packer",    N_ ("Packer") },
  { WB_LOSS_BY_CREW,      "crew",      N_ ("Crew of the pick-up") },
  { WB_LOSS_BY_HANDLER,   "handler",   N_ ("Who bears it") },
  /* Translators: from which place to which other the goods went. */
  { WB_LOSS_BY_LANE,      "lane",      N_ ("Lane") },
  { WB_LOSS_BY_ROOM,      "room",      N_ ("Room") },
  { WB_LOSS_BY_CATEGORY,  "category",  N_ ("Category") },
};

const WbEnum wb_loss_by = { "grouping", loss_by, G_N_ELEMENTS (loss_by) };

void
wb_loss_line_free (WbLossLine *self)
{
  if (self == NULL)
    return;

  g_free (self->job_id);
  g_free (self->job_number);
  g_free (self->claim_id);
  g_free (self->claim_number);
  g_free (self->line_id);
  g_free (self->item);
  g_free (self->piece_id);
  for (int by = 0; by < WB_N_LOSS_BY; by++)
    g_free (self->keys[by]);
  for (guint i = 0; i < self->n_handlers; i++)
    g_free (self->handlers[i]);
  g_free (self->handlers);
  g_free (self->parts);
  g_free (self);
}

/* --- keys ------------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): a text that a person typed, %NULL when there is none. */
static char *
dup_typed (const char *text)
{
  g_autofree char *plain = text != NULL ? g_strstrip (g_strdup (text)) : NULL;

  return plain != NULL && *plain != '\0' ? g_steal_pointer (&plain) : NULL;
}

static char *
dup_carton (const WbCatalog *catalog,
            WbForm           form,
            const char      *carton)
{
  g_autofree char *typed = dup_typed (carton);
  const WbCatalogEntry *entry;

  switch (form)
    {
    case WB_FORM_LOOSE:
      return g_strdup (WB_LOSS_KEY_LOOSE);
    case WB_FORM_CRATE:
      return g_strdup (WB_LOSS_KEY_CRATE);
    case WB_FORM_CARTON:
      entry = typed != NULL && catalog != NULL
              ? wb_catalog_match (catalog, WB_CATALOG_CARTON, typed) : NULL;
      return entry != NULL ? g_strdup (entry->nick) : g_steal_pointer (&typed);
    }
  g_return_val_if_reached (NULL);
}

void
wb_loss_keys_of_piece (const WbCatalog  *catalog,
                       WbForm            form,
                       const char       *carton,
                       WbPackedBy        packed_by,
                       const char       *packer,
                       const char       *room,
                       char            **keys)
{
  g_return_if_fail (keys != NULL);

  keys[WB_LOSS_BY_CARTON] = dup_carton (catalog, form, carton);
  keys[WB_LOSS_BY_PACKED_BY] = packed_by != WB_PACKED_UNKNOWN
                               ? g_strdup (wb_enum_nick (&wb_packed_by, (int) packed_by)) : NULL;
  keys[WB_LOSS_BY_PACKER] = packed_by == WB_PACKED_BY_OWNER ? g_strdup (WB_LOSS_KEY_OWNER)
                                                            : dup_typed (packer);
  keys[WB_LOSS_BY_ROOM] = dup_typed (room);
}

char *
wb_loss_lane (const char *from_region,
              const char *to_region)
{
  g_autofree char *from = dup_typed (from_region);
  g_autofree char *to = dup_typed (to_region);

  return from != NULL && to != NULL ? g_strconcat (from, ">", to, NULL) : NULL;
}

static char *
dup_crew (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_HANDOVER); i++)
    {
      const WbHandover *handover = wb_job_nth (job, WB_KIND_HANDOVER, i);
      char *crew = handover->kind == WB_HANDOVER_PICKUP ? dup_typed (handover->crew) : NULL;

      if (crew != NULL)
        return crew;
    }
  return NULL;
}

/* The first stop of one kind, or the last of the other. */
static const char *
region_of (const WbJob *job,
           WbStopKind   kind)
{
  const char *region = NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);

      if (stop->kind == kind && (region == NULL || kind == WB_STOP_DELIVERY))
        region = stop->region;
    }
  return region;
}

/* --- when it was finished --------------------------------------------------------------------- */

gboolean
wb_claim_is_finished (const WbClaim *claim)
{
  switch (claim->status)
    {
    case WB_CLAIM_SETTLED:
    case WB_CLAIM_DECLINED:
    case WB_CLAIM_CLOSED:
      return TRUE;
    case WB_CLAIM_OPEN:
    case WB_CLAIM_OFFERED:
      return FALSE;
    }
  g_return_val_if_reached (FALSE);
}

static void
take_later (GDate       *latest,
            const GDate *date)
{
  if (wb_date_is_set (date) &&
      (!wb_date_is_set (latest) || wb_date_compare (date, latest) > 0))
    *latest = *date;
}

void
wb_claim_finished_on (const WbJob   *job,
                      const WbClaim *claim,
                      GDate         *out)
{
  GDate by_step, by_payment;

  g_date_clear (&by_step, 1);
  g_date_clear (&by_payment, 1);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (job, WB_KIND_STEP, i);

      if (g_strcmp0 (step->claim, claim->record.id) == 0 &&
          (step->kind == WB_STEP_CLOSED || step->kind == WB_STEP_RELEASE ||
           step->kind == WB_STEP_DENIAL))
        take_later (&by_step, &step->on);
    }
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (job, WB_KIND_PAYMENT, i);

      if (g_strcmp0 (payment->claim, claim->record.id) == 0)
        take_later (&by_payment, &payment->on);
    }
  *out = wb_date_is_set (&by_step) ? by_step
         : wb_date_is_set (&by_payment) ? by_payment : claim->decided_on;
}

/* --- what was paid ---------------------------------------------------------------------------- */

static gboolean
add (gint64  *sum,
     gint64   term,
     GError **error)
{
  if (!__builtin_add_overflow (*sum, term, sum))
    return TRUE;
  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                       "the payments add up to more than can be counted");
  return FALSE;
}

/* Puts what was paid for a line alone on it. @rest: (out): what was paid for the whole claim */
static gboolean
put_own_payments (GPtrArray      *lines,
                  guint           first,
                  const WbJob    *job,
                  const WbClaim  *claim,
                  gint64         *rest,
                  GError        **error)
{
  *rest = 0;
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (job, WB_KIND_PAYMENT, i);
      gint64 *sum = rest;

      if (g_strcmp0 (payment->claim, claim->record.id) != 0)
        continue;
      for (guint k = first; payment->claim_line != NULL && k < lines->len; k++)
        {
          WbLossLine *line = g_ptr_array_index (lines, k);

          if (g_str_equal (line->line_id, payment->claim_line))
            sum = &line->paid;
        }
      if (!add (sum, payment->amount.minor, error))
        return FALSE;
    }
  return TRUE;
}

/* Claims on what was paid for the whole, by the first measure by which there are any. */
static void
weigh_lines (GPtrArray *lines,
             guint      first,
             gint64    *weights)
{
  for (int measure = 0; measure < 4; measure++)
    {
      gboolean any = FALSE;

      for (guint k = first; k < lines->len; k++)
        {
          const WbLossLine *line = g_ptr_array_index (lines, k);
          const gint64 of_line[] = { MAX (line->owed - line->paid, 0), line->owed, line->demanded,
                                     1 };

          weights[k - first] = of_line[measure];
          any = any || of_line[measure] > 0;
        }
      if (any)
        return;
    }
}

static gboolean
put_payments (GPtrArray      *lines,
              guint           first,
              const WbJob    *job,
              const WbClaim  *claim,
              GError        **error)
{
  guint n = lines->len - first;
  g_autofree gint64 *parts = g_new0 (gint64, MAX (n, 1));
  gint64 rest;

  if (!put_own_payments (lines, first, job, claim, &rest, error))
    return FALSE;
  if (rest == 0 || n == 0)
    return TRUE;

  weigh_lines (lines, first, parts);
  if (!wb_minor_split (rest, parts, n, parts, error))
    return FALSE;
  for (guint k = 0; k < n; k++)
    {
      WbLossLine *line = g_ptr_array_index (lines, first + k);

      if (!add (&line->paid, parts[k], error))
        return FALSE;
    }
  return TRUE;
}

/* --- a line ----------------------------------------------------------------------------------- */

static void
put_shares (WbLossLine            *out,
            const WbApportionment *shares,
            const WbClaimLine     *line)
{
  const WbLineShares *of_line = NULL;

  for (guint i = 0; shares != NULL && of_line == NULL && i < shares->n_lines; i++)
    {
      if (shares->lines[i].line == line)
        of_line = &shares->lines[i];
    }
  if (of_line == NULL)
    return;

  out->reckoned = TRUE;
  out->owed = of_line->owed;
  out->handlers = g_new0 (char *, shares->n_handlers);
  out->parts = g_new0 (gint64, shares->n_handlers);
  for (guint i = 0; i < shares->n_handlers; i++)
    {
      const char *name = shares->handlers[i].name;

      if (of_line->parts[i] == 0)
        continue;
      out->parts[out->n_handlers] = of_line->parts[i];
      out->handlers[out->n_handlers++] = g_strdup (name != NULL ? name : WB_LOSS_KEY_CARRIER);
    }
}

static void
put_keys (WbLossLine        *out,
          const WbJob       *job,
          const WbClaimLine *line,
          const WbCatalog   *catalog)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, line->piece);

  if (piece != NULL)
    wb_loss_keys_of_piece (catalog, piece->form, piece->carton, piece->packed_by, piece->packer,
                           piece->room, out->keys);
  if (line->cause != WB_CAUSE_NONE)
    out->keys[WB_LOSS_BY_CAUSE] = g_strdup (wb_enum_nick (&wb_causes, (int) line->cause));
  out->keys[WB_LOSS_BY_CREW] = dup_crew (job);
  out->keys[WB_LOSS_BY_LANE] = wb_loss_lane (region_of (job, WB_STOP_PICKUP),
                                             region_of (job, WB_STOP_DELIVERY));
  out->keys[WB_LOSS_BY_CATEGORY] = dup_typed (line->category);
}

static WbLossLine *
line_new (const WbJob           *job,
          const WbClaim         *claim,
          const WbClaimLine     *line,
          const WbApportionment *shares,
          const WbCatalog       *catalog)
{
  WbLossLine *out = g_new0 (WbLossLine, 1);

  out->job_id = g_strdup (wb_job_get_id (job));
  out->job_number = g_strdup (wb_job_order (job)->number);
  out->claim_id = g_strdup (claim->record.id);
  out->claim_number = g_strdup (claim->number);
  out->line_id = g_strdup (line->record.id);
  out->item = g_strdup (line->item);
  out->piece_id = g_strdup (line->piece);
  memcpy (out->currency, wb_job_get_currency (job), sizeof out->currency);
  out->demanded = line->demanded.minor;
  wb_claim_finished_on (job, claim, &out->closed_on);
  put_keys (out, job, line, catalog);
  put_shares (out, shares, line);
  return out;
}

gboolean
wb_loss_lines_add (GPtrArray              *lines,
                   const WbJob            *job,
                   const WbClaim          *claim,
                   const WbApportionment  *shares,
                   const WbCatalog        *catalog,
                   GError                **error)
{
  guint first;

  g_return_val_if_fail (lines != NULL && job != NULL && claim != NULL, FALSE);

  first = lines->len;
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim->record.id) == 0)
        g_ptr_array_add (lines, line_new (job, claim, line, shares, catalog));
    }
  return put_payments (lines, first, job, claim, error);
}
