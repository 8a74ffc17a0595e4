/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for one line of the table of who bears a claim, kept so that the shares themselves need not
 * be. */
#include "config.h"

#include "desk/claim/wb-bearing-row.h"

#include <glib/gi18n.h>

#include "office/wb-words-bearing.h"

struct _WbBearingRow
{
  GObject  parent_instance;

  char    *id;
  char    *name;
  char    *owed;
  char    *bearers;
  char    *ground;
  char    *why;
};

G_DEFINE_FINAL_TYPE (WbBearingRow, wb_bearing_row, G_TYPE_OBJECT)

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
clear (WbBearingRow *self)
{
  g_clear_pointer (&self->id, g_free);
  g_clear_pointer (&self->name, g_free);
  g_clear_pointer (&self->owed, g_free);
  g_clear_pointer (&self->bearers, g_free);
  g_clear_pointer (&self->ground, g_free);
  g_clear_pointer (&self->why, g_free);
}

static void
wb_bearing_row_finalize (GObject *object)
{
  clear (WB_BEARING_ROW (object));

  G_OBJECT_CLASS (wb_bearing_row_parent_class)->finalize (object);
}

static void
wb_bearing_row_class_init (WbBearingRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_bearing_row_finalize;

  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_BEARING_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
wb_bearing_row_init (WbBearingRow *self)
{
}

static void
add_paragraph (GString    *out,
               const char *text)
{
  if (text == NULL)
    return;
  if (out->len > 0)
    g_string_append_c (out, '\n');
  g_string_append (out, text);
}

static char *
explain (const WbApportionment *self,
         guint                  index)
{
  const WbLineShares *line = &self->lines[index];
  GString *out = g_string_new (NULL);
  g_autofree char *fault = wb_words_hand_fault (line);
  g_autofree char *shared = wb_words_shared (self, index);
  g_autofree char *source = wb_words_shared_source (line->why);
  g_autofree char *cut = wb_words_cut (self, index);

  add_paragraph (out, fault);
  add_paragraph (out, shared);
  add_paragraph (out, source);
  for (guint i = 0; i < self->n_handlers; i++)
    {
      g_autofree char *name = NULL;
      g_autofree char *part = NULL;
      g_autofree char *words = NULL;

      if (line->parts[i] == 0)
        continue;
      name = wb_words_handler (&self->handlers[i]);
      part = wb_words_minor (line->parts[i], self->reckoning->terms->currency);
      /* Translators: a handler and the amount that it bears. */
      words = g_strdup_printf (_("%s: %s"), name, part);
      add_paragraph (out, words);
    }
  add_paragraph (out, cut);
  return g_string_free (out, FALSE);
}

void
wb_bearing_row_read (WbBearingRow          *self,
                     const WbApportionment *apportionment,
                     guint                  line)
{
  const WbLineShares *shares = &apportionment->lines[line];
  const WbReckoning *reckoning = apportionment->reckoning;
  gboolean reckoned = reckoning->lines[line].side[reckoning->applies].complete;

  g_return_if_fail (WB_IS_BEARING_ROW (self));

  clear (self);
  self->id = g_strdup (shares->line->record.id);
  self->name = g_strdup_printf ("%" G_GINT64_FORMAT ". %s", shares->line->number,
                                shares->line->item != NULL ? shares->line->item : "–");
  self->owed = reckoned ? wb_words_minor (shares->owed, reckoning->terms->currency)
                        : g_strdup ("–");
  self->bearers = reckoned ? wb_words_bearers (apportionment, line)
                           : g_strdup (_("Not reckoned yet: a figure is missing"));
  self->ground = g_strdup (shares->hand_fault ? _("The split by hand is not whole")
                                              : wb_words_enum (&wb_shared_whys, (int) shares->why));
  self->why = explain (apportionment, line);
  g_signal_emit (self, signals[CHANGED], 0);
}

WbBearingRow *
wb_bearing_row_new (const WbApportionment *apportionment,
                    guint                  line)
{
  WbBearingRow *self = g_object_new (WB_TYPE_BEARING_ROW, NULL);

  wb_bearing_row_read (self, apportionment, line);
  return self;
}

const char *
wb_bearing_row_get_id (WbBearingRow *self)
{
  return self->id;
}

const char *
wb_bearing_row_get_name (WbBearingRow *self)
{
  return self->name;
}

const char *
wb_bearing_row_get_owed (WbBearingRow *self)
{
  return self->owed;
}

const char *
wb_bearing_row_get_bearers (WbBearingRow *self)
{
  return self->bearers;
}

const char *
wb_bearing_row_get_ground (WbBearingRow *self)
{
  return self->ground;
}

const char *
wb_bearing_row_get_why (WbBearingRow *self)
{
  return self->why;
}
