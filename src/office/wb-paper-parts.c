/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts that stand in several papers: who makes it out, fields in words, addresses. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers-private.h"

#include "office/wb-words.h"

#include <stdarg.h>

/* An array: a literal could be the same as somebody else's empty text. */
const char wb_paper_end[] = "";

const WbParty *
wb_paper_party (const WbJob *job,
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

const char *
wb_paper_party_name (const WbParty *party)
{
  if (party == NULL)
    return NULL;
  return party->name != NULL ? party->name : party->company;
}

WbDocument *
wb_paper_begin (const WbPaperInput *input,
                const char         *title)
{
  const WbParty *carrier = wb_paper_party (input->job, WB_ROLE_CARRIER);
  const char *number = wb_job_order (input->job)->number;
  WbDocument *self = wb_document_new (title, number != NULL ? number
                                                            : wb_job_get_id (input->job));

  /* A paper without a day of its own is of the day of the order. */
  wb_document_add_day (self, &wb_job_order (input->job)->booked_on);
  if (carrier != NULL)
    wb_document_set_author (self, carrier->company != NULL ? carrier->company : carrier->name);
  return self;
}

/* --- fields ----------------------------------------------------------------------------------- */

char *
wb_paper_value (gconstpointer  record,
                const char    *field)
{
  const WbField *described = wb_record_type_field (((const WbRecord *) record)->type, field);

  g_return_val_if_fail (described != NULL, NULL);

  return wb_record_field_is_set (described, record) ? wb_words_value (record, described)
                                                    : g_strdup ("");
}

void
wb_paper_add_fields (WbDocument    *self,
                     gconstpointer  record,
                     ...)
{
  const char *name;
  va_list names;

  va_start (names, record);
  while ((name = va_arg (names, const char *)) != NULL)
    {
      const WbField *field = wb_record_type_field (((const WbRecord *) record)->type, name);
      g_autofree char *words = wb_paper_value (record, name);

      wb_document_add_field (self, wb_words_field (field), words);
      if (field->type == WB_FIELD_DATE)
        wb_document_add_day (self, &G_STRUCT_MEMBER (GDate, record, field->offset));
    }
  va_end (names);
}

char *
wb_paper_join (const char *separator,
               ...)
{
  GString *out = g_string_new (NULL);
  const char *text;
  va_list texts;

  va_start (texts, separator);
  while ((text = va_arg (texts, const char *)) != wb_paper_end)
    {
      if (text == NULL || *text == '\0')
        continue;
      if (out->len > 0)
        g_string_append (out, separator);
      g_string_append (out, text);
    }
  va_end (texts);
  return g_string_free (out, FALSE);
}

char *
wb_paper_address (const char *street,
                  const char *city,
                  const char *region,
                  const char *postal_code,
                  const char *country)
{
  g_autofree char *state = wb_paper_join (" ", region, postal_code, wb_paper_end);

  return wb_paper_join (", ", street, city, state, country, wb_paper_end);
}

char *
wb_paper_claimed (const WbJob       *job,
                  const WbClaimLine *line)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, line->piece);
  g_autofree char *tag = piece != NULL ? wb_words_tag (job, piece) : NULL;
  const char *item = line->item != NULL ? line->item
                     : piece != NULL ? piece->description : NULL;

  return wb_paper_join (", ", item, tag, wb_paper_end);
}
