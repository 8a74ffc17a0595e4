/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* What an entry of the contact log has to look like beyond its single fields. */

/** Whether @text (nullable) is a time of day, "00:00" to "23:59", in four digits. */
gboolean wb_time_of_day_is_valid (const char       *text);

/** Whether the time of @contact is one, if it is given. %FALSE with %WB_CORE_ERROR_PARSE that names
 * the entry and the field. */
gboolean wb_contact_check        (const WbContact  *contact,
                                  GError          **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
