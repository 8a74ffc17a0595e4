/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inventory as a paper: every carton and loose piece with its tag, where it stood, who packed
 * it, what was wrong with it then, and what its codes mean. 49 CFR 375.503 wants every carton and
 * every loose piece on it, with the number that it carries. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers-private.h"

#include "core/wb-mark.h"
#include "core/wb-things.h"
#include "office/wb-words-trail.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/**
 * Inventory:
 * @things: (element-type utf8 GPtrArray): what is in a piece, by its id
 * @conditions: which condition codes were met; @places: which places
 */
typedef struct
{
  const WbPaperInput *input;
  WbDocument         *document;
  GHashTable         *things;
  gboolean           *conditions;
  gboolean           *places;
  gboolean            is_packed_by[WB_PACKED_BY_OWNER + 1];
} Inventory;

/* --- head ------------------------------------------------------------------------------------- */

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

static void
add_stop (WbDocument  *self,
          const char  *label,
          const WbJob *job,
          WbStopKind   kind)
{
  const WbStop *stop = find_stop (job, kind);
  g_autofree char *address = stop != NULL
                             ? wb_paper_address (stop->street, stop->city, stop->region,
                                                 stop->postal_code, stop->country) : NULL;

  wb_document_add_field (self, label, address);
}

/* The weights that are known, together; what has none is said. */
static void
add_weight (WbDocument  *self,
            const WbJob *job)
{
  WbWeight sum = WB_WEIGHT_UNSET;
  guint n_without = 0;
  g_autofree char *words = NULL;
  g_autofree char *without = NULL;
  g_autofree char *whole = NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (!wb_weight_is_set (piece->weight))
        n_without++;
      else if (!wb_weight_is_set (sum))
        sum = piece->weight;
      else if (!wb_weight_add (sum, piece->weight, &sum, NULL))
        return;
    }
  if (!wb_weight_is_set (sum))
    return;
  words = wb_words_weight (sum);
  if (n_without > 0)
    without = g_strdup_printf (ngettext ("%u piece has no weight", "%u pieces have no weight",
                                         n_without), n_without);
  whole = wb_paper_join ("; ", words, without, wb_paper_end);
  wb_document_add_field (self, _("Weights together"), whole);
}

static void
add_head (Inventory *self)
{
  const WbJob *job = self->input->job;
  const WbOrder *order = wb_job_order (job);
  g_autofree char *n = g_strdup_printf ("%u", wb_job_count (job, WB_KIND_PIECE));

  wb_document_add_field (self->document, _("Shipper"),
                         wb_paper_party_name (wb_paper_party (job, WB_ROLE_SHIPPER)));
  wb_paper_add_fields (self->document, order, "number", "bill_number", NULL);
  add_stop (self->document, _("From"), job, WB_STOP_PICKUP);
  add_stop (self->document, _("To"), job, WB_STOP_DELIVERY);
  wb_paper_add_fields (self->document, order, "picked_up_on", "vehicle", NULL);
  wb_document_add_field (self->document, _("Cartons and pieces"), n);
  add_weight (self->document, job);
}

static void
add_lots (Inventory *self)
{
  const WbJob *job = self->input->job;
  WbBlock *table;

  if (wb_job_count (job, WB_KIND_LOT) == 0)
    return;
  wb_document_add_heading (self->document, 1, _("Lots of tags"));
  table = wb_document_add_table (self->document, "llrr", _("Colour"), _("Lot number"),
                                 _("First tag"), _("Last tag"));
  for (guint i = 0; i < wb_job_count (job, WB_KIND_LOT); i++)
    {
      const WbLot *lot = wb_job_nth (job, WB_KIND_LOT, i);
      g_autofree char *first = wb_paper_value (lot, "first");
      g_autofree char *last = wb_paper_value (lot, "last");

      wb_table_add_row (table, lot->colour, lot->number, first, last);
    }
}

/* --- pieces ----------------------------------------------------------------------------------- */

static char *
kind_of (const Inventory *self,
         const WbPiece   *piece)
{
  const WbCatalogEntry *entry = self->input->catalog != NULL
                                ? wb_catalog_match (self->input->catalog, WB_CATALOG_CARTON,
                                                    piece->carton) : NULL;

  if (entry != NULL)
    return g_strdup (entry->name);
  if (piece->carton != NULL)
    return g_strdup (piece->carton);
  return piece->form == WB_FORM_LOOSE
         ? NULL : g_strdup (wb_words_enum (&wb_forms, (int) piece->form));
}

static char *
labelled (const char *label,
          const char *text)
{
  return text != NULL && *text != '\0' ? g_strdup_printf ("%s: %s", label, text) : NULL;
}

/* What it is, with all that tells it from another. */
static char *
describe (const Inventory *self,
          const WbPiece   *piece)
{
  g_autofree char *kind = kind_of (self, piece);
  g_autofree char *what = wb_paper_join (": ", kind, piece->description, wb_paper_end);
  g_autofree char *quantity = wb_paper_value (piece, "quantity");
  g_autofree char *many = labelled (_("How many"), quantity);
  g_autofree char *serial = labelled (_("Serial number"), piece->serial_number);
  g_autofree char *article = labelled (_("Part of article"), piece->article);
  g_autofree char *set = labelled (_("Part of set"), piece->set);
  const char *apart = piece->disassembly != WB_DISASSEMBLY_NONE
                      ? wb_words_enum (&wb_disassembly, (int) piece->disassembly) : NULL;

  return wb_paper_join ("; ", what, many, serial, article, set, apart, wb_paper_end);
}

static char *
describe_thing (const WbThing *thing)
{
  g_autofree char *value = wb_money_is_set (thing->value) ? wb_words_money (thing->value) : NULL;
  g_autofree char *weight = wb_weight_is_set (thing->weight) ? wb_words_weight (thing->weight)
                                                             : NULL;
  g_autofree char *each = wb_paper_join (", ", value, weight, wb_paper_end);
  g_autofree char *of_one = *each != '\0' ? g_strdup_printf ("(%s)", each) : NULL;
  g_autofree char *many = wb_thing_count (thing) != 1
                          ? g_strdup_printf ("%" G_GINT64_FORMAT " ×", wb_thing_count (thing))
                          : NULL;

  return wb_paper_join (" ", many, thing->description, of_one, wb_paper_end);
}

/* What is inside: the text of the line, then the list. */
static char *
contents_of (const Inventory *self,
             const WbPiece   *piece)
{
  GPtrArray *things = g_hash_table_lookup (self->things, piece->record.id);
  g_autoptr (GString) out = g_string_new (piece->contents);

  for (guint i = 0; things != NULL && i < things->len; i++)
    {
      g_autofree char *thing = describe_thing (g_ptr_array_index (things, i));

      g_string_append_printf (out, "%s%s", out->len > 0 ? "; " : "", thing);
    }
  return labelled (_("Contents"), out->str);
}

static void
note_codes (Inventory     *self,
            const WbPiece *piece)
{
  g_auto (WbMarks) marks = { NULL, 0 };

  self->is_packed_by[piece->packed_by] = TRUE;
  if (piece->marks == NULL || !wb_marks_parse (piece->marks, &marks, NULL))
    return;
  for (gsize i = 0; i < marks.n_marks; i++)
    {
      self->conditions[marks.marks[i].condition] = TRUE;
      for (guint k = 0; k < marks.marks[i].n_places; k++)
        self->places[marks.marks[i].places[k] - 1] = TRUE;
    }
}

static void
add_piece (Inventory     *self,
           WbBlock       *table,
           const WbPiece *piece)
{
  g_autofree char *tag = wb_words_tag (self->input->job, piece);
  g_autofree char *what = describe (self, piece);
  const char *packed = piece->packed_by != WB_PACKED_UNKNOWN
                       ? wb_enum_nick (&wb_packed_by, (int) piece->packed_by) : NULL;
  g_autofree char *packer = wb_paper_join (", ", packed, piece->packer, wb_paper_end);
  g_autofree char *weight = wb_paper_value (piece, "weight");
  g_autofree char *contents = contents_of (self, piece);
  g_autofree char *value = wb_paper_value (piece, "listed_value");
  g_autofree char *listed = labelled (_("Listed value"), value);
  g_autofree char *notes = labelled (_("Notes"), piece->notes);
  g_autofree char *note = wb_paper_join (". ", contents, listed, notes, wb_paper_end);

  wb_table_add_row (table, tag, what, piece->room, packer, piece->marks, weight);
  wb_table_add_note (table, note);
  wb_document_add_day (self->document, &piece->packed_on);
  note_codes (self, piece);
}

static void
add_pieces (Inventory *self)
{
  const WbJob *job = self->input->job;
  WbBlock *table;

  wb_document_add_heading (self->document, 1, _("Cartons and pieces"));
  if (wb_job_count (job, WB_KIND_PIECE) == 0)
    {
      wb_document_add_text (self->document, WB_BLOCK_PARAGRAPH, _("Nothing is on the inventory."));
      return;
    }
  table = wb_document_add_table (self->document, "lllllr", _("Tag"), _("What it is"), _("Room"),
                                 _("Packed by"), _("Condition at origin"), _("Weight"));
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    add_piece (self, table, wb_job_nth (job, WB_KIND_PIECE, i));
}

/* --- codes in words --------------------------------------------------------------------------- */

static void
add_codes (WbDocument       *self,
           const char       *title,
           const WbMarkCode *codes,
           gsize             n_codes,
           const gboolean   *met)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *line = NULL;

  for (gsize i = 0; i < n_codes; i++)
    if (met[i])
      g_string_append_printf (out, "%s%s %s", out->len > 0 ? ", " : "", codes[i].code,
                              _(codes[i].word));
  line = labelled (title, out->str);
  wb_document_add_text (self, WB_BLOCK_PARAGRAPH, line);
}

static void
add_legend (Inventory *self)
{
  gsize n_conditions, n_places;
  const WbMarkCode *conditions = wb_mark_conditions (&n_conditions);
  const WbMarkCode *places = wb_mark_places (&n_places);
  g_autoptr (GString) packed = g_string_new (NULL);
  g_autofree char *line = NULL;

  if (wb_job_count (self->input->job, WB_KIND_PIECE) == 0)
    return;
  wb_document_add_heading (self->document, 1, _("What the codes mean"));
  for (int i = WB_PACKED_BY_CARRIER; i <= WB_PACKED_BY_OWNER; i++)
    if (self->is_packed_by[i])
      g_string_append_printf (packed, "%s%s %s", packed->len > 0 ? ", " : "",
                              wb_enum_nick (&wb_packed_by, i), wb_words_enum (&wb_packed_by, i));
  line = labelled (_("Packed by"), packed->str);
  wb_document_add_text (self->document, WB_BLOCK_PARAGRAPH, line);
  add_codes (self->document, _("Condition"), conditions, n_conditions, self->conditions);
  add_codes (self->document, _("Place"), places, n_places, self->places);
  wb_document_add_text (self->document, WB_BLOCK_PARAGRAPH,
                        _("The condition at origin is what was wrong with a piece before it was "
                          "carried: codes with the numbers of the places behind them. A piece "
                          "without codes was in good order as far as could be seen."));
}

/* --- signatures ------------------------------------------------------------------------------- */

static void
add_signatures (WbDocument *self)
{
  static const char *const whens[] = { N_("At origin"), N_("At destination") };
  const char *place = "______________________";
  WbBlock *table;

  wb_document_add_heading (self, 1, _("Signatures"));
  table = wb_document_add_table (self, "lllll", "", _("Shipper, or for the shipper"), _("Date"),
                                 _("For the carrier"), _("Date"));
  for (gsize i = 0; i < G_N_ELEMENTS (whens); i++)
    wb_table_add_row (table, _(whens[i]), place, "__________", place, "__________");
}

/* --- the inventory ---------------------------------------------------------------------------- */

static GHashTable *
sort_things (const WbJob *job)
{
  GHashTable *things = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                              (GDestroyNotify) g_ptr_array_unref);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_THING); i++)
    {
      const WbThing *thing = wb_job_nth (job, WB_KIND_THING, i);
      GPtrArray *list = g_hash_table_lookup (things, thing->piece);

      if (list == NULL)
        {
          list = g_ptr_array_new ();
          g_hash_table_insert (things, thing->piece, list);
        }
      g_ptr_array_add (list, (gpointer) thing);
    }
  return things;
}

WbDocument *
wb_paper_inventory (const WbPaperInput *input)
{
  gsize n_conditions, n_places;
  Inventory self = { .input = input };
  g_autofree gboolean *conditions = NULL;
  g_autofree gboolean *places = NULL;
  g_autoptr (GHashTable) things = sort_things (input->job);

  wb_mark_conditions (&n_conditions);
  wb_mark_places (&n_places);
  conditions = g_new0 (gboolean, n_conditions);
  places = g_new0 (gboolean, n_places);
  self.document = wb_paper_begin (input, _("Inventory"));
  self.things = things;
  self.conditions = conditions;
  self.places = places;

  add_head (&self);
  add_lots (&self);
  add_pieces (&self);
  add_legend (&self);
  add_signatures (self.document);
  return self.document;
}
