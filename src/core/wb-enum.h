/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed lists: what a value is called in files and what a person reads. The lists themselves are
 * const tables beside the types that they describe. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * WbEnumValue:
 * @value: the C value
 * @nick: what files and the book hold; lower case with hyphens, or a code of the trade such as
 *   "PBO"; never changes once released
 * @label: what a person reads; marked for translation, passed through gettext by office or desk. ""
 *   only for value 0 where there is nothing to say (gettext would answer that with its header)
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
 * @name: what the list is of, for messages: "stage"
 * @values: (array length=n_values): the rows; values and nicks are unique
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
 * @text: a nick, exactly
 * @out: (out): the value found; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE that lists what is allowed
 */
gboolean           wb_enum_parse      (const WbEnum *self,
                                       const char   *text,
                                       int          *out,
                                       GError      **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
