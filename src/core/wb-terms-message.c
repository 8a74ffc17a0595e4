/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The messages about a faulty terms file: where it is and what was written. */
#include "config.h"

#include "core/wb-terms-private.h"

#include "core/wb-core.h"
#include "core/wb-lines.h"

gboolean
wb_terms_fail (GError    **error,
               const char *file,
               guint       line,
               const char *format,
               ...)
{
  va_list args;

  va_start (args, format);
  wb_lines_fail_v (error, WB_CORE_ERROR_TERMS, file, line, format, args);
  va_end (args);
  return FALSE;
}
