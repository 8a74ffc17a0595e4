/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words above an open job, made from its value. Says the same as the job's line in the list. */
#include "config.h"

#include "desk/job/wb-job-heading.h"

#include "desk/jobs/wb-job-item.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

char *
wb_job_heading_title (const WbJob *job)
{
  g_return_val_if_fail (job != NULL, NULL);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role != WB_ROLE_SHIPPER)
        continue;
      if (party->name != NULL)
        return g_strdup (party->name);
      if (party->company != NULL)
        return g_strdup (party->company);
    }

  return g_strdup (_("No shipper yet"));
}

/* Returns: (transfer full) (nullable): "Dayton, OH" */
static char *
place_of (const WbStop *stop)
{
  if (stop == NULL || stop->city == NULL)
    return NULL;
  if (stop->region == NULL)
    return g_strdup (stop->city);

  return g_strdup_printf ("%s, %s", stop->city, stop->region);
}

/* The first stop where goods are picked up, or the last where they are delivered. */
static const WbStop *
find_stop (const WbJob *job,
           WbStopKind   kind,
           gboolean     last)
{
  const WbStop *found = NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);

      if (stop->kind == kind && (found == NULL || last))
        found = stop;
    }

  return found;
}

char *
wb_job_heading_subtitle (const WbJob *job)
{
  const WbOrder *order;
  const char *stage;
  g_autofree char *from = NULL;
  g_autofree char *to = NULL;
  g_autofree char *route = NULL;

  g_return_val_if_fail (job != NULL, NULL);

  order = wb_job_order (job);
  stage = wb_words_enum (&wb_stages, (int) order->stage);
  from = place_of (find_stop (job, WB_STOP_PICKUP, FALSE));
  to = place_of (find_stop (job, WB_STOP_DELIVERY, TRUE));
  route = wb_job_route (from, to);
  if (route == NULL)
    /* Translators: a job number and how far the job is. */
    return g_strdup_printf (_("%s · %s"), order->number, stage);

  /* Translators: a job number, how far the job is, and a route from one city to another. */
  return g_strdup_printf (_("%s · %s · %s"), order->number, stage, route);
}
