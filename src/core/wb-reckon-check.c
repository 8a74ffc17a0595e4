/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the figures that a reckoning starts from are figures at all. A job that passed
 * wb_job_check() never fails here; a caller that skipped it gets an error, not a wrong amount.
 * Texts, days and references may be as they are: a reckoning cannot be wrong about them. */
#include "core/wb-reckon-private.h"

#include <string.h>

#include "core/wb-core.h"

#define MOST_PERCENT 10000

#define MEMBER(record, field, type) (*(type const *) ((const char *) (record) + (field)->offset))

GPtrArray *
wb_run_find_figures (WbKind kind)
{
  const WbRecordType *type = wb_record_type (kind);
  GPtrArray *fields = g_ptr_array_sized_new ((guint) type->n_fields);

  for (gsize i = 0; i < type->n_fields; i++)
    switch (type->fields[i].type)
      {
      case WB_FIELD_INTEGER:
      case WB_FIELD_PERCENT:
      case WB_FIELD_ENUM:
      case WB_FIELD_MONEY:
      case WB_FIELD_WEIGHT:
      case WB_FIELD_VOLUME:
        g_ptr_array_add (fields, (gpointer) &type->fields[i]);
        break;
      case WB_FIELD_TEXT:
      case WB_FIELD_MARKS:
      case WB_FIELD_REFERENCE:
      case WB_FIELD_BOOLEAN:
      case WB_FIELD_DATE:
        break;
      }
  return fields;
}

static inline gboolean
is_within (gint64 value,
           gint64 most)
{
  return value >= 0 && value <= most;
}

/* Whether a figure is good beyond doubt. A claim has ten thousands of them, so this is quick; what
 * it does not vouch for is left to wb_record_check_field(), which also has the words. */
static gboolean
is_plainly_good (gconstpointer   record,
                 const WbField  *field,
                 const char     *currency)
{
  gboolean may_lack = (field->flags & WB_FIELD_REQUIRED) == 0;
  WbMoney money;
  gint64 number;
  int choice;

  switch (field->type)
    {
    case WB_FIELD_MONEY:
      money = MEMBER (record, field, WbMoney);
      if (!wb_money_is_set (money))
        return may_lack;
      return memcmp (money.currency, currency, sizeof money.currency) == 0 &&
             is_within (money.minor, WB_MONEY_MAX_MINOR);
    case WB_FIELD_INTEGER:
    case WB_FIELD_PERCENT:
      number = MEMBER (record, field, gint64);
      if (number == WB_INTEGER_UNSET)
        return may_lack;
      return is_within (number, field->type == WB_FIELD_PERCENT ? MOST_PERCENT : field->maximum);
    case WB_FIELD_ENUM:
      choice = MEMBER (record, field, int);
      if (choice <= 0 || (gsize) choice >= field->choices->n_values)
        return choice == 0 && may_lack;
      return field->choices->values[choice].value == choice;
    case WB_FIELD_WEIGHT:
      if (!wb_weight_is_set (MEMBER (record, field, WbWeight)))
        return may_lack;
      return is_within (MEMBER (record, field, WbWeight).grains,
                        WB_WEIGHT_MAX_LB * WB_GRAINS_PER_LB);
    case WB_FIELD_VOLUME:
      if (!wb_volume_is_set (MEMBER (record, field, WbVolume)))
        return may_lack;
      return is_within (MEMBER (record, field, WbVolume).bits,
                        WB_VOLUME_MAX_CUFT * WB_BITS_PER_CUFT);
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
    case WB_FIELD_BOOLEAN:
    case WB_FIELD_DATE:
      break;
    }
  return FALSE;
}

gboolean
wb_run_check_figures (const WbRun    *run,
                      gconstpointer   record,
                      GPtrArray      *fields,
                      GError        **error)
{
  for (guint i = 0; i < fields->len; i++)
    {
      const WbField *field = g_ptr_array_index (fields, i);

      if (!is_plainly_good (record, field, run->terms->currency) &&
          !wb_record_check_field (record, field, run->terms->currency, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_records (const WbRun  *run,
               WbKind        kind,
               GError      **error)
{
  for (guint i = 0; i < wb_job_count (run->job, kind); i++)
    if (!wb_record_check (wb_job_nth (run->job, kind, i), run->terms->currency, error))
      return FALSE;
  return TRUE;
}

gboolean
wb_run_check_input (const WbRun  *run,
                    GError      **error)
{
  if (strcmp (wb_job_get_currency (run->job), run->terms->currency) != 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "the job is kept in %s but the terms are in %s",
                   wb_job_get_currency (run->job), run->terms->currency);
      return FALSE;
    }
  return wb_record_check (run->out->claim, run->terms->currency, error) &&
         check_records (run, WB_KIND_ORDER, error) &&
         check_records (run, WB_KIND_VALUATION, error) &&
         check_records (run, WB_KIND_WEIGHING, error) &&
         check_records (run, WB_KIND_PAYMENT, error);
}
