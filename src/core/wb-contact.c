/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rule about the time of a conversation. Dates are checked as fields. */
#include "config.h"

#include "core/wb-contact.h"

#include "core/wb-core.h"

#include <string.h>

gboolean
wb_time_of_day_is_valid (const char *text)
{
  if (text == NULL || strlen (text) != 5 || text[2] != ':')
    return FALSE;
  if (!g_ascii_isdigit (text[0]) || !g_ascii_isdigit (text[1]) || !g_ascii_isdigit (text[3]) ||
      !g_ascii_isdigit (text[4]))
    return FALSE;

  return g_ascii_digit_value (text[0]) * 10 + g_ascii_digit_value (text[1]) < 24 && text[3] < '6';
}

gboolean
wb_contact_check (const WbContact  *contact,
                  GError          **error)
{
  if (contact->at == NULL || wb_time_of_day_is_valid (contact->at))
    return TRUE;

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
               "contact %s, at: “%s” is not a time of day such as “14:05”", contact->record.id,
               contact->at);
  return FALSE;
}
