/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps of a reckoning on a paper: what was done, with which figures, and what the terms cite
 * for it, as the window and the command line tell them. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers-private.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <inttypes.h>

/* Returns: (transfer full): one list for each line and a last one for the whole claim. */
static GPtrArray *
sort_steps (const WbReckoning *reckoning,
            WbScope            scope)
{
  GPtrArray *lists = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);
  const WbReason *reason;
  WbReasonIter iter;

  for (guint i = 0; i <= reckoning->n_lines; i++)
    g_ptr_array_add (lists, g_ptr_array_new ());
  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      guint index = reason->line == WB_REASON_WHOLE_CLAIM ? reckoning->n_lines
                                                          : (guint) reason->line;

      if (reason->scope == (guint) scope)
        g_ptr_array_add (g_ptr_array_index (lists, index), (gpointer) reason);
    }
  return lists;
}

static void
add_list (WbBlock           *table,
          const WbReckoning *reckoning,
          const GPtrArray   *steps)
{
  for (guint i = 0; i < steps->len; i++)
    {
      const WbReason *reason = g_ptr_array_index (steps, i);
      g_autofree char *rule = wb_words_rule ((WbRule) reason->rule);
      g_autofree char *words = wb_words_reason (reckoning, reason);

      wb_table_add_row (table, rule, words, wb_words_reason_source (reckoning, reason));
    }
}

static guint
count (const GPtrArray *lists)
{
  guint n = 0;

  for (guint i = 0; i < lists->len; i++)
    n += ((const GPtrArray *) g_ptr_array_index (lists, i))->len;
  return n;
}

void
wb_paper_add_steps (WbDocument        *self,
                    const WbReckoning *reckoning,
                    WbScope            scope)
{
  g_autoptr (GPtrArray) lists = sort_steps (reckoning, scope);
  const GPtrArray *whole = g_ptr_array_index (lists, reckoning->n_lines);
  WbBlock *table;

  if (count (lists) == 0)
    return;
  table = wb_document_add_table (self, "lll", _("Step"), _("What was done"), _("Source"));
  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      const WbClaimLine *line = reckoning->lines[i].line;
      const GPtrArray *steps = g_ptr_array_index (lists, i);
      g_autofree char *item = wb_paper_claimed (reckoning->job, line);
      /* Translators: the number of a claim line, and what is claimed there. */
      g_autofree char *name = g_strdup_printf (_("Line %" PRId64 ", %s"), line->number,
                                               item);

      if (steps->len == 0)
        continue;
      wb_table_add_group (table, name);
      add_list (table, reckoning, steps);
    }
  if (whole->len > 0 && whole->len < count (lists))
    wb_table_add_group (table, _("The whole claim"));
  add_list (table, reckoning, whole);
}
