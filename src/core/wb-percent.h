/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Percentages, counted in hundredths of a percent: 750 is 7.5 %. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** Returns: (transfer full): "7.5 %" from hundredths of a percent, without needless zeros. */
char    *wb_percent_to_text     (gint64       hundredths) G_GNUC_WARN_UNUSED_RESULT;

/** Reads "75 %", "7.5%" up to 100 % as a file has it, into hundredths of a percent. %FALSE with a
 * %WB_CORE_ERROR that repeats the text; @out is untouched then. */
gboolean wb_percent_parse       (const char  *text,
                                 gint64      *out,
                                 GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/** Reads what a person types: as wb_percent_parse(), but the sign may be left out, and up to
 * 9999.99, so that who calls can say which range it is to be in. */
gboolean wb_percent_parse_typed (const char  *text,
                                 gint64      *out,
                                 GError     **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
