/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Notices about a claim and its lines. Reads them off the reckoning's reasons; finds nothing out
 * itself. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-line-notices.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-amount.h"
#include "office/wb-words.h"

#define N_MISSINGS (WB_MISSING_FREIGHT_CHARGE + 1)
#define BOTH_SIDES ((1 << WB_N_SIDES) - 1)

int
wb_reckoning_line (const WbReckoning *reckoning,
                   const char        *line_id)
{
  for (guint i = 0; i < reckoning->n_lines; i++)
    if (g_strcmp0 (reckoning->lines[i].line->record.id, line_id) == 0)
      return (int) i;

  return -1;
}

/* The sides, as flags, under which each figure is missing for @line. */
static void
collect_missing (const WbReckoning *reckoning,
                 int                line,
                 guint             *sides)
{
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      if (reason->rule != WB_RULE_MISSING_FIGURE || reason->line != line)
        continue;
      for (guint j = 0; j < reason->n_inputs; j++)
        if (reason->inputs[j].name == WB_FIGURE_MISSING && reason->inputs[j].value < N_MISSINGS)
          sides[reason->inputs[j].value] |= reason->scope == WB_SCOPE_GENERAL ? BOTH_SIDES
                                                                              : 1u << reason->scope;
    }
}

static guint
offered_sides (const WbReckoning *reckoning)
{
  guint sides = 0;

  for (int side = 0; side < WB_N_SIDES; side++)
    if (reckoning->side[side].offered)
      sides |= 1u << side;

  return sides;
}

/* The one side of two that @sides holds. */
static WbSide
needed_by (guint sides)
{
  return (sides & (1u << WB_SIDE_FULL)) != 0 ? WB_SIDE_FULL : WB_SIDE_RELEASED;
}

static void
append_sentence (GString    *text,
                 const char *sentence,
                 const char *between)
{
  if (text->len > 0)
    g_string_append (text, between);
  g_string_append (text, sentence);
}

static void
append_missing (GString           *text,
                const WbReckoning *reckoning,
                int                line,
                const char        *between)
{
  guint missing[N_MISSINGS] = { 0 };
  guint offered = offered_sides (reckoning);

  collect_missing (reckoning, line, missing);
  for (int what = 0; what < N_MISSINGS; what++)
    {
      g_autofree char *sentence = NULL;
      const char *name = wb_words_enum (&wb_missings, what);

      if (missing[what] == 0)
        continue;
      if ((missing[what] & offered) == offered)
        /* Translators: a figure that is not there, such as "the replacement cost". */
        sentence = g_strdup_printf (_("Missing: %s."), name);
      else
        /* Translators: a figure that is not there, and the choice of liability that needs it. */
        sentence = g_strdup_printf (_("Missing: %s (for %s)."), name,
                                    wb_side_label (needed_by (missing[what])));
      append_sentence (text, sentence, between);
    }
}

static char *
text_or_null (GString *text)
{
  gboolean empty = text->len == 0;

  return g_string_free (text, empty);
}

char *
wb_line_notice (const WbReckoning *reckoning,
                const char        *line_id)
{
  GString *text;
  int line = wb_reckoning_line (reckoning, line_id);

  if (line < 0)
    return NULL;

  text = g_string_new (NULL);
  append_missing (text, reckoning, line, " ");
  if (reckoning->lines[line].piece == NULL)
    append_sentence (text, _("Not on the inventory."), " ");
  if (reckoning->lines[line].line->ruling == WB_RULING_DENIED
      && reckoning->lines[line].line->ruling_reason == NULL)
    append_sentence (text, _("Denied without a reason."), " ");

  return text_or_null (text);
}

char *
wb_claim_notice (const WbReckoning *reckoning)
{
  GString *text = g_string_new (NULL);
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      g_autofree char *sentence = NULL;

      if (reckoning->late == WB_NOT_LATE ||
          (reason->rule != WB_RULE_FILING && reason->rule != WB_RULE_LATE))
        continue;
      sentence = wb_words_reason (reckoning, reason);
      append_sentence (text, sentence, reason->rule == WB_RULE_LATE ? " " : "\n");
    }
  append_missing (text, reckoning, WB_REASON_WHOLE_CLAIM, "\n");

  return text_or_null (text);
}
