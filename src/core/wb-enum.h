/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * WbEnumValue:
 * @value: the C value
 * @nick: what files and the book hold; lower case, hyphens; never changes once released
 * @label: what a person reads; marked for translation, passed through gettext by office or desk
 *
 * One value of a closed list.
 */
typedef struct
{
  int         value;
  const char *nick;
  const char *label;
} WbEnumValue;

/**
 * WbEnum:
 *
 * A closed list as a const table. Value 0 is always "not given" or the ordinary case.
 */
typedef struct
{
  const char        *name;
  const WbEnumValue *values;
  gsize              n_values;
} WbEnum;

/** Returns: (nullable): the row of @value, or %NULL when the list lacks it. */
const WbEnumValue *wb_enum_find       (const WbEnum *self,
                                       int           value);

/** Returns: (nullable): the row whose nick is exactly @nick, or %NULL. */
const WbEnumValue *wb_enum_find_nick  (const WbEnum *self,
                                       const char   *nick);

/** Returns: the nick of @value; the value must be in the list. */
const char        *wb_enum_nick       (const WbEnum *self,
                                       int           value);

/**
 * wb_enum_parse:
 * @out: (out): the value found
 *
 * Reads a nick. Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE that lists what is allowed.
 */
gboolean           wb_enum_parse      (const WbEnum *self,
                                       const char   *text,
                                       int          *out,
                                       GError      **error);

G_END_DECLS
