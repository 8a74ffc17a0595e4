/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command on letters of a claim: list those that were sent, write one, mark it as sent, show
 * one as it was sent. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-letter-send.h"
#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <string.h>

static int
list_letters (const WbJob   *job,
              const WbClaim *claim)
{
  g_autoptr (GPtrArray) steps = wb_letters_sent (job, claim->record.id);
  g_autoptr (WbTextTable) table = wb_text_table_new ("rlll");
  g_autoptr (GString) out = g_string_new (NULL);

  if (steps->len == 0)
    {
      wb_tool_print_line ("%s\n", _("No letter was sent."));
      return WB_TOOL_DONE;
    }
  wb_text_table_add_row (table, _("Letter"), _("Date"), _("Step"), _("What was said"));
  for (guint i = 0; i < steps->len; i++)
    {
      const WbClaimStep *step = g_ptr_array_index (steps, i);
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      g_autofree char *on = wb_words_date (&step->on);

      wb_text_table_add_row (table, number, on, wb_words_enum (&wb_step_kinds, (int) step->kind),
                             step->text != NULL ? step->text : "");
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
  return WB_TOOL_DONE;
}

/* The letter that was sent as number @place. */
static int
show_sent (const WbToolOptions *options,
           WbOffice            *office,
           const WbJob         *job,
           const WbClaim       *claim,
           guint64              place)
{
  g_autoptr (GPtrArray) steps = wb_letters_sent (job, claim->record.id);
  const WbClaimStep *step;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  if (place > steps->len)
    {
      wb_tool_complain (_("There is no letter “%s”; “wainbook claim letter” lists those that were "
                          "sent."), options->arguments[2]);
      return WB_TOOL_FAILED;
    }
  step = g_ptr_array_index (steps, place - 1);
  text = wb_office_read_letter (office, step->letter, NULL, &error);
  if (text == NULL)
    return wb_tool_fail (options->arguments[2], error);
  return wb_tool_deliver (options, text, strlen (text));
}

/* What keeps a letter from going out, and what to know of it, on standard error. */
static void
tell_faults (const WbLetter *letter)
{
  for (guint i = 0; i < letter->faults->len; i++)
    wb_tool_complain (_("Before it goes out: %s"),
                      (const char *) g_ptr_array_index (letter->faults, i));
  for (guint i = 0; i < letter->notes->len; i++)
    wb_tool_complain (_("To be known: %s"), (const char *) g_ptr_array_index (letter->notes, i));
}

static int
send_letter (const WbToolOptions *options,
             WbOffice            *office,
             WbJob               *job,
             const WbClaim       *claim,
             const WbLetter      *letter,
             const char          *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbKeptLetter) kept = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autofree char *id = wb_office_new_id ();

  if (letter->faults->len > 0)
    {
      wb_tool_complain (_("The letter was not marked as sent."));
      return WB_TOOL_FAILED;
    }
  kept = wb_office_keep_letter (office, job, claim->record.id, letter->kind, &letter->on, text,
                                NULL, &error);
  if (kept == NULL)
    return wb_tool_fail (claim->number, error);
  reckoning = wb_office_reckon (office, job, claim->record.id, NULL);
  changed = wb_letter_sent (job, claim->record.id, id, letter, reckoning, kept, g_get_user_name ());
  stored = wb_office_save_job (office, job, changed, letter->title, NULL, &error);
  return stored != NULL ? WB_TOOL_DONE : wb_tool_fail (claim->number, error);
}

static gboolean
read_day (const WbToolOptions *options,
          GDate               *on)
{
  g_autoptr (GError) error = NULL;

  if (options->on == NULL)
    wb_office_today (on);
  else if (!wb_date_parse (options->on, on, &error))
    wb_tool_fail ("--on", error);
  return error == NULL;
}

static int
write_letter (const WbToolOptions *options,
              WbOffice            *office,
              WbJob               *job,
              const WbClaim       *claim)
{
  g_autoptr (WbLetter) letter = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  int kind;
  GDate on;

  if (!wb_enum_parse (&wb_letter_kinds, options->arguments[2], &kind, &error))
    return wb_tool_fail (NULL, error);
  if (!read_day (options, &on))
    return WB_TOOL_FAILED;
  letter = wb_office_write_letter (office, job, claim->record.id, (WbLetterKind) kind, &on,
                                   options->remark);
  text = wb_letter_to_text (letter);
  tell_faults (letter);
  if (options->sent)
    {
      int status = send_letter (options, office, job, claim, letter, text);

      if (status != WB_TOOL_DONE)
        return status;
    }
  return wb_tool_deliver (options, text, strlen (text));
}

int
wb_tool_claim_letter (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  const WbClaim *claim = job != NULL ? wb_tool_find_claim (job, options->arguments[1]) : NULL;
  guint64 place;

  if (claim == NULL)
    return WB_TOOL_FAILED;
  if (options->arguments[2] == NULL)
    return list_letters (job, claim);
  if (g_ascii_string_to_unsigned (options->arguments[2], 10, 1, G_MAXUINT, &place, NULL))
    return show_sent (options, office, job, claim, place);
  return write_letter (options, office, job, claim);
}
