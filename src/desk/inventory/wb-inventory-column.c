/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the table of pieces says, column by column. Words come from office; here is only which value
 * goes where and how it sorts. */
#include "config.h"

#include "desk/inventory/wb-inventory-column.h"

#include "desk/inventory/wb-contents.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static char *
dup_text (const char *text)
{
  return g_strdup (text != NULL ? text : "");
}

static int
compare_texts (const char *a,
               const char *b)
{
  if (a == NULL || b == NULL)
    return (a != NULL) - (b != NULL);
  return g_utf8_collate (a, b);
}

static int
compare_numbers (gint64 a,
                 gint64 b)
{
  return (a > b) - (a < b);
}

/* --- tag -------------------------------------------------------------------------------------- */

static char *
tag_text (const WbJob   *job,
          const WbPiece *piece)
{
  return wb_words_tag (job, piece);
}

/* Lots stand in the order of the job, not of their colours' names. */
static int
tag_compare (const WbJob   *job,
             const WbPiece *a,
             const WbPiece *b)
{
  int order = 0;

  if (g_strcmp0 (a->lot, b->lot) != 0)
    order = compare_numbers (a->lot != NULL ? wb_job_index (job, WB_KIND_LOT, a->lot) : -1,
                             b->lot != NULL ? wb_job_index (job, WB_KIND_LOT, b->lot) : -1);
  return order != 0 ? order : compare_numbers (a->tag, b->tag);
}

/* --- form and carton -------------------------------------------------------------------------- */

static char *
form_text (const WbJob   *job,
           const WbPiece *piece)
{
  const char *form = wb_words_enum (&wb_forms, (int) piece->form);

  if (piece->carton == NULL)
    return g_strdup (form);
  return g_strdup (piece->carton);
}

static char *
form_tooltip (const WbJob   *job,
              const WbPiece *piece)
{
  const char *form = wb_words_enum (&wb_forms, (int) piece->form);

  if (piece->carton == NULL)
    return NULL;
  /* Translators: what kind of thing and which kind of it, such as "Carton: dish pack". */
  return g_strdup_printf (_("%s: %s"), form, piece->carton);
}

static int
form_compare (const WbJob   *job,
              const WbPiece *a,
              const WbPiece *b)
{
  if (a->form != b->form)
    return compare_numbers ((gint64) a->form, (gint64) b->form);
  return compare_texts (a->carton, b->carton);
}

/* --- plain texts ------------------------------------------------------------------------------ */

#define TEXT_COLUMN(member)                                      \
  static char *                                                  \
  member##_text (const WbJob *job, const WbPiece *piece)         \
  {                                                              \
    return dup_text (piece->member);                             \
  }                                                              \
                                                                 \
  static int                                                     \
  member##_compare (const WbJob   *job,                          \
                    const WbPiece *a,                            \
                    const WbPiece *b)                            \
  {                                                              \
    return compare_texts (a->member, b->member);                 \
  }

TEXT_COLUMN (description)
TEXT_COLUMN (room)
TEXT_COLUMN (marks)

/* --- contents --------------------------------------------------------------------------------- */

/* What was written on the carton, and what its list says. */
static char *
contents_text (const WbJob   *job,
               const WbPiece *piece)
{
  g_autofree char *list = wb_contents_describe (job, piece->record.id);

  if (list == NULL || piece->contents == NULL)
    return list != NULL ? g_steal_pointer (&list) : dup_text (piece->contents);
  return g_strdup_printf ("%s · %s", piece->contents, list);
}

static char *
contents_tooltip (const WbJob   *job,
                  const WbPiece *piece)
{
  return wb_contents_spell (job, piece->record.id);
}

static int
contents_compare (const WbJob   *job,
                  const WbPiece *a,
                  const WbPiece *b)
{
  return compare_texts (a->contents, b->contents);
}

/* --- who packed it ---------------------------------------------------------------------------- */

static char *
packed_text (const WbJob   *job,
             const WbPiece *piece)
{
  const char *code = piece->packed_by == WB_PACKED_UNKNOWN
                     ? "–" : wb_enum_nick (&wb_packed_by, (int) piece->packed_by);

  if (piece->packer == NULL)
    return g_strdup (code);
  return g_strdup_printf ("%s %s", code, piece->packer);
}

static char *
packed_tooltip (const WbJob   *job,
                const WbPiece *piece)
{
  const char *words = wb_words_enum (&wb_packed_by, (int) piece->packed_by);

  if (piece->packer == NULL)
    return g_strdup (words);
  /* Translators: who answers for the packing, and the packer's name. */
  return g_strdup_printf (_("%s: %s"), words, piece->packer);
}

static int
packed_compare (const WbJob   *job,
                const WbPiece *a,
                const WbPiece *b)
{
  if (a->packed_by != b->packed_by)
    return compare_numbers ((gint64) a->packed_by, (gint64) b->packed_by);
  return compare_texts (a->packer, b->packer);
}

/* --- condition -------------------------------------------------------------------------------- */

static char *
marks_tooltip (const WbJob   *job,
               const WbPiece *piece)
{
  return piece->marks != NULL ? wb_words_marks (piece->marks, NULL) : NULL;
}

/* --- weight and value ------------------------------------------------------------------------- */

static char *
weight_text (const WbJob   *job,
             const WbPiece *piece)
{
  return wb_weight_is_set (piece->weight) ? wb_words_weight (piece->weight) : g_strdup ("");
}

static int
weight_compare (const WbJob   *job,
                const WbPiece *a,
                const WbPiece *b)
{
  return compare_numbers (wb_weight_is_set (a->weight) ? a->weight.grains : -1,
                          wb_weight_is_set (b->weight) ? b->weight.grains : -1);
}

static char *
value_text (const WbJob   *job,
            const WbPiece *piece)
{
  return wb_money_is_set (piece->listed_value)
    ? wb_words_money (piece->listed_value) : g_strdup ("");
}

static int
value_compare (const WbJob   *job,
               const WbPiece *a,
               const WbPiece *b)
{
  return compare_numbers (wb_money_is_set (a->listed_value) ? a->listed_value.minor : -1,
                          wb_money_is_set (b->listed_value) ? b->listed_value.minor : -1);
}

static const WbInventoryColumn columns[] = {
  { "tag", N_ ("Tag"), 13, 13, FALSE, FALSE, TRUE, FALSE, tag_text, NULL, tag_compare },
  /* Translators: heading of a column: carton, loose piece or crate. */
  { "form", N_ ("Form"), 9, 12, FALSE, FALSE, FALSE, FALSE, form_text, form_tooltip, form_compare },
  { "description", N_ ("Description"), 10, 24, TRUE, FALSE, FALSE, FALSE, description_text, NULL,
    description_compare },
  { "contents", N_ ("Contents"), 7, 24, TRUE, FALSE, FALSE, TRUE, contents_text,
    contents_tooltip, contents_compare },
  { "room", N_ ("Room"), 8, 11, FALSE, FALSE, FALSE, FALSE, room_text, NULL, room_compare },
  { "packed-by", N_ ("Packed by"), 6, 10, FALSE, FALSE, FALSE, FALSE, packed_text, packed_tooltip,
    packed_compare },
  { "condition", N_ ("Condition"), 7, 12, FALSE, FALSE, FALSE, FALSE, marks_text, marks_tooltip,
    marks_compare },
  { "weight", N_ ("Weight"), 6, 8, FALSE, TRUE, FALSE, FALSE, weight_text, NULL, weight_compare },
  /* Translators: heading of a narrow column: the value for which the shipper listed the piece. */
  { "value", N_ ("Listed"), 7, 9, FALSE, TRUE, FALSE, FALSE, value_text, NULL,
    value_compare },
};

const WbInventoryColumn *
wb_inventory_columns (guint *n_columns)
{
  *n_columns = G_N_ELEMENTS (columns);
  return columns;
}
