/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looking things up in closed lists. The lists themselves stand beside the types that they
 * describe. */
#include "config.h"

#include "core/wb-enum.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-text.h"

const WbEnumValue *
wb_enum_find (const WbEnum *self,
              int           value)
{
  g_return_val_if_fail (self != NULL, NULL);

  for (gsize i = 0; i < self->n_values; i++)
    if (self->values[i].value == value)
      return &self->values[i];

  return NULL;
}

const WbEnumValue *
wb_enum_find_nick (const WbEnum *self,
                   const char   *nick)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_return_val_if_fail (nick != NULL, NULL);

  for (gsize i = 0; i < self->n_values; i++)
    if (strcmp (self->values[i].nick, nick) == 0)
      return &self->values[i];

  return NULL;
}

const char *
wb_enum_nick (const WbEnum *self,
              int           value)
{
  const WbEnumValue *row = wb_enum_find (self, value);

  g_return_val_if_fail (row != NULL, "");

  return row->nick;
}

static char *
list_nicks (const WbEnum *self)
{
  GString *list = g_string_new (NULL);

  for (gsize i = 0; i < self->n_values; i++)
    {
      if (i > 0)
        g_string_append (list, ", ");
      g_string_append (list, self->values[i].nick);
    }

  return g_string_free (list, FALSE);
}

gboolean
wb_enum_parse (const WbEnum  *self,
               const char    *text,
               int           *out,
               GError       **error)
{
  const WbEnumValue *row;

  g_return_val_if_fail (self != NULL, FALSE);
  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  row = wb_enum_find_nick (self, text);
  if (row == NULL)
    {
      g_autofree char *quoted = wb_text_quote (text, -1);
      g_autofree char *nicks = list_nicks (self);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                   "%s is not in the list “%s”; allowed are: %s", quoted, self->name, nicks);
      return FALSE;
    }

  *out = row->value;
  return TRUE;
}
