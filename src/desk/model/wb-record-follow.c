/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The few fields of a record that follow another field while a person types. What must hold when a
 * record is stored is for core to say. */
#include "config.h"

#include "desk/model/wb-record-follow.h"

#include "core/wb-entities.h"

static gboolean
get_difference (const WbWeighing *weighing,
                WbWeight         *out)
{
  return wb_weight_is_set (weighing->gross) && wb_weight_is_set (weighing->tare) &&
         wb_weight_subtract (weighing->gross, weighing->tare, out, NULL) && out->grains >= 0;
}

static void
follow_weighing (const WbWeighing *before,
                 WbWeighing       *after,
                 const WbField    *field)
{
  gboolean sets_net = field->offset == G_STRUCT_OFFSET (WbWeighing, net);
  WbWeight was, is;

  if (sets_net || !wb_weight_is_set (before->net) || !get_difference (before, &was) ||
      was.grains != before->net.grains)
    return;

  if (get_difference (after, &is))
    after->net = is;
}

void
wb_record_follow (gconstpointer  before,
                  gpointer       after,
                  const WbField *field)
{
  const WbRecord *record = before;

  g_return_if_fail (before != NULL);
  g_return_if_fail (after != NULL);

  if (record->type->kind == WB_KIND_WEIGHING)
    follow_weighing (before, after, field);
}
