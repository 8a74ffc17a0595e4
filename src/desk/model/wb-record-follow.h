/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fields that go along with another one. */
#pragma once

#include "core/wb-record.h"

G_BEGIN_DECLS

/**
 * wb_record_follow:
 * @before: the record as it was
 * @after: a private copy in which @field was just set
 *
 * Sets in @after what follows from that: the net weight of a weighing stays gross less tare when it
 * was so before. Does nothing when it was not, or when the figures do not give a weight.
 */
void wb_record_follow (gconstpointer  before,
                       gpointer       after,
                       const WbField *field);

G_END_DECLS
