/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words and files of a report over claims: what groups are called, rates as sentences, CSV. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-claim-report.h"

#include "core/wb-core.h"
#include "office/wb-csv.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#include <string.h>

/* --- what groups are called ------------------------------------------------------------------- */

static const char *
words_for_none (WbLossBy by)
{
  switch (by)
    {
    case WB_LOSS_BY_HANDLER:
      return _("Nobody: nothing is owed");
    case WB_LOSS_BY_LANE:
      return _("A region is missing");
    case WB_LOSS_BY_CAUSE:
    case WB_LOSS_BY_CARTON:
    case WB_LOSS_BY_PACKED_BY:
    case WB_LOSS_BY_PACKER:
    case WB_LOSS_BY_CREW:
    case WB_LOSS_BY_ROOM:
    case WB_LOSS_BY_CATEGORY:
      return _("Not noted");
    }
  g_return_val_if_reached ("");
}

/* Returns: (nullable): the words for a key of ours. */
static const char *
words_for_own (const char *key)
{
  if (g_str_equal (key, WB_LOSS_KEY_LOOSE))
    return _("Loose piece");
  if (g_str_equal (key, WB_LOSS_KEY_CRATE))
    return _("Crate");
  if (g_str_equal (key, WB_LOSS_KEY_OWNER))
    return _("The owner");
  if (g_str_equal (key, WB_LOSS_KEY_CARRIER))
    return _("The carrier");
  return NULL;
}

static const char *
words_for_enum (const WbEnum *list,
                const char   *nick)
{
  const WbEnumValue *value = wb_enum_find_nick (list, nick);

  return value != NULL ? wb_words_enum (list, value->value) : nick;
}

static const char *
words_for_entry (const WbCatalog *catalog,
                 WbCatalogKind    kind,
                 const char      *nick)
{
  const WbCatalogEntry *entry = catalog != NULL ? wb_catalog_find (catalog, kind, nick) : NULL;

  return entry != NULL && entry->name != NULL ? entry->name : nick;
}

static char *
words_for_lane (const char *key)
{
  g_auto (GStrv) ends = g_strsplit (key, ">", 2);

  if (ends[0] == NULL || ends[1] == NULL)
    return g_strdup (key);
  /* Translators: a lane, from one state to another: "OH → TX". */
  return g_strdup_printf (_("%s → %s"), ends[0], ends[1]);
}

char *
wb_loss_key_words (WbLossBy         by,
                   const char      *key,
                   const WbCatalog *catalog)
{
  if (key == NULL)
    return g_strdup (words_for_none (by));
  if (words_for_own (key) != NULL)
    return g_strdup (words_for_own (key));

  switch (by)
    {
    case WB_LOSS_BY_CAUSE:
      return g_strdup (words_for_enum (&wb_causes, key));
    case WB_LOSS_BY_PACKED_BY:
      return g_strdup (words_for_enum (&wb_packed_by, key));
    case WB_LOSS_BY_CARTON:
      return g_strdup (words_for_entry (catalog, WB_CATALOG_CARTON, key));
    case WB_LOSS_BY_CATEGORY:
      return g_strdup (words_for_entry (catalog, WB_CATALOG_DEPRECIATION, key));
    case WB_LOSS_BY_LANE:
      return words_for_lane (key);
    case WB_LOSS_BY_PACKER:
    case WB_LOSS_BY_CREW:
    case WB_LOSS_BY_HANDLER:
    case WB_LOSS_BY_ROOM:
      return g_strdup (key);
    }
  g_return_val_if_reached (g_strdup (key));
}

/* --- rates ------------------------------------------------------------------------------------ */

static char *
hundredths_to_text (gint64 hundredths)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT ".%02d", hundredths / 100, (int) (hundredths % 100));
}

char *
wb_loss_rate_words (const WbLossGroup *group)
{
  g_autofree char *moved = NULL;
  g_autofree char *rate = NULL;
  g_autofree char *cost = NULL;
  gint64 hundredths, minor;

  if (group->moved == WB_INTEGER_UNSET)
    return g_strdup ("");
  moved = g_strdup_printf ("%" G_GINT64_FORMAT, group->moved);
  if (group->moved == 0)
    return g_strdup (_("None delivered in this time"));
  if (!wb_loss_group_rate (group, &hundredths) || !wb_loss_group_cost (group, &minor))
    /* Translators: pieces claimed, pieces moved. */
    return g_strdup_printf (_("%u claimed, %s moved: too few for a rate"), group->n_pieces, moved);

  rate = hundredths_to_text (hundredths);
  cost = wb_words_minor (minor, group->currency);
  /* Translators: pieces claimed, pieces moved, then how many of 100 and what is owed for 100. */
  return g_strdup_printf (_("%u claimed, %s moved: %s of 100, %s owed for 100"), group->n_pieces,
                          moved, rate, cost);
}

char *
wb_loss_undated_words (const WbLossReport *report)
{
  if (report->n_undated == 0)
    return g_strdup ("");
  return g_strdup_printf (ngettext ("%u finished claim has no date of a step, payment or decision "
                                    "and is left out of the period.",
                                    "%u finished claims have no date of a step, payment or "
                                    "decision and are left out of the period.", report->n_undated),
                          report->n_undated);
}

/* --- open claims ------------------------------------------------------------------------------ */

/* The difference as a person says it. */
static char *
difference_in_words (const WbClaimTotals *totals)
{
  gboolean short_of = totals->difference < 0;
  gint64 size = short_of && totals->difference > G_MININT64 ? -totals->difference
                                                            : totals->difference;
  g_autofree char *amount = wb_words_minor (size, totals->currency);

  return g_strdup_printf (short_of ? _("%s less than is owed") : _("%s more than is owed"), amount);
}

char *
wb_claim_totals_words (const WbClaimTotals *totals)
{
  g_autofree char *demanded = wb_words_minor (totals->demanded, totals->currency);
  g_autofree char *owed = wb_words_minor (totals->owed, totals->currency);
  g_autofree char *reserve = wb_words_minor (totals->reserve, totals->currency);
  g_autofree char *difference = difference_in_words (totals);
  g_autofree char *paid = wb_words_minor (totals->paid, totals->currency);
  g_autofree char *balance = wb_words_minor (totals->balance, totals->currency);
  g_autofree char *charged = wb_words_minor (totals->charged, totals->currency);
  g_autofree char *recovered = wb_words_minor (totals->recovered, totals->currency);
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, ngettext ("%u open claim in %s: ", "%u open claims in %s: ",
                                         totals->n_claims), totals->n_claims, totals->currency);
  /* Translators: demanded, owed, paid, still to be paid. */
  g_string_append_printf (out, _("%s demanded, %s owed, %s paid, %s still to be paid. "), demanded,
                          owed, paid, balance);
  /* Translators: set aside, then “$5.00 less than is owed”. */
  g_string_append_printf (out, _("%s set aside: %s. "), reserve, difference);
  /* Translators: charged to handlers, recovered from them. */
  g_string_append_printf (out, _("%s charged to handlers, %s of it recovered."), charged,
                          recovered);
  if (totals->n_unreserved > 0)
    g_string_append_printf (out, ngettext (" %u has nothing set aside.",
                                           " %u have nothing set aside.", totals->n_unreserved),
                            totals->n_unreserved);
  if (totals->n_unreckoned > 0)
    g_string_append_printf (out, ngettext (" %u could not be reckoned and is left out of what is "
                                           "owed.",
                                           " %u could not be reckoned and are left out of what is "
                                           "owed.", totals->n_unreckoned), totals->n_unreckoned);
  return g_string_free (out, FALSE);
}

/* --- CSV -------------------------------------------------------------------------------------- */

static void
append_cell (GString    *out,
             const char *text)
{
  g_autofree char *safe = NULL;

  if (out->len > 0 && out->str[out->len - 1] != '\n')
    g_string_append_c (out, ',');
  if (text[0] != '\0' && strchr ("=+-@\t\r", text[0]) != NULL)
    safe = g_strconcat ("'", text, NULL);
  wb_csv_append_field (out, safe != NULL ? safe : text);
}

static void
append_number (GString *out,
               gint64   number)
{
  g_string_append_printf (out, ",%" G_GINT64_FORMAT, number);
}

static void
append_amount (GString    *out,
               gint64      minor,
               const char *currency)
{
  g_autofree char *text = wb_minor_to_text (minor, currency);

  g_string_append_printf (out, ",%s", text);
}

static void
append_group (GString           *out,
              const WbLossGroup *group,
              const char        *name)
{
  gint64 hundredths, minor;

  append_cell (out, name);
  append_cell (out, group->currency);
  append_number (out, group->lines->len);
  append_number (out, group->n_claims);
  append_number (out, group->n_pieces);
  append_amount (out, group->demanded, group->currency);
  append_amount (out, group->owed, group->currency);
  append_amount (out, group->paid, group->currency);
  if (group->moved != WB_INTEGER_UNSET)
    append_number (out, group->moved);
  else
    g_string_append_c (out, ',');
  if (wb_loss_group_rate (group, &hundredths))
    {
      g_autofree char *rate = hundredths_to_text (hundredths);

      g_string_append_printf (out, ",%s", rate);
    }
  else
    g_string_append_c (out, ',');
  if (wb_loss_group_cost (group, &minor))
    append_amount (out, minor, group->currency);
  else
    g_string_append_c (out, ',');
  g_string_append (out, "\r\n");
}

char *
wb_loss_report_to_csv (const WbLossReport *report,
                       const WbCatalog    *catalog)
{
  GString *out = g_string_new (NULL);
  const char *const headings[] = {
    wb_words_enum (&wb_loss_by, (int) report->by), _("Currency"), _("Lines"), _("Claims"),
    _("Pieces claimed"), _("Demanded"), _("Owed"), _("Paid"), _("Pieces moved"),
    _("Claimed of 100 moved"), _("Owed for 100 moved"),
  };

  for (gsize i = 0; i < G_N_ELEMENTS (headings); i++)
    append_cell (out, headings[i]);
  g_string_append (out, "\r\n");
  for (guint i = 0; i < report->groups->len; i++)
    {
      const WbLossGroup *group = g_ptr_array_index (report->groups, i);
      g_autofree char *name = wb_loss_key_words (report->by, group->key, catalog);

      append_group (out, group, name);
    }
  for (guint i = 0; i < report->totals->len; i++)
    append_group (out, g_ptr_array_index (report->totals, i), _("Total"));
  return g_string_free (out, FALSE);
}

/* --- the period ------------------------------------------------------------------------------- */

gboolean
wb_loss_period_parse (const char  *from_text,
                      const char  *to_text,
                      GDate       *from,
                      GDate       *to,
                      GError     **error)
{
  g_date_clear (from, 1);
  g_date_clear (to, 1);
  if ((from_text != NULL && *from_text != '\0' && !wb_date_parse (from_text, from, error)) ||
      (to_text != NULL && *to_text != '\0' && !wb_date_parse (to_text, to, error)))
    return FALSE;
  if (wb_date_is_set (from) && wb_date_is_set (to) && wb_date_compare (to, from) < 0)
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                           _("the period ends before it begins"));
      return FALSE;
    }
  return TRUE;
}
