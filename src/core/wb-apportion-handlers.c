/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who can bear a part of a claim: the carrier, those who had the goods, and those that shares by
 * hand and charges name. Shares nothing out. */
#include "config.h"

#include "core/wb-apportion-private.h"

static gboolean
is_party (const WbParty *party,
          const char    *name)
{
  return wb_trail_same_holder (party->name, name) || wb_trail_same_holder (party->company, name);
}

static gboolean
is_customer (const WbJob *job,
             const char  *name)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if ((party->role == WB_ROLE_SHIPPER || party->role == WB_ROLE_CONSIGNEE)
          && is_party (party, name))
        return TRUE;
    }

  return FALSE;
}

static const WbParty *
find_party (const WbJob *job,
            const char  *name)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role != WB_ROLE_SHIPPER && party->role != WB_ROLE_CONSIGNEE
          && is_party (party, name))
        return party;
    }

  return NULL;
}

static WbHandler
make_carrier (const WbJob *job)
{
  WbHandler carrier = { NULL };

  for (guint i = 0; carrier.party == NULL && i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == WB_ROLE_CARRIER)
        carrier.party = party;
    }
  if (carrier.party != NULL)
    carrier.name = g_strdup (carrier.party->company != NULL ? carrier.party->company
                                                            : carrier.party->name);
  return carrier;
}

static gint
find_handler (const WbHandler *handlers,
              guint            n_handlers,
              const char      *name)
{
  for (guint i = 0; i < n_handlers; i++)
    if (wb_trail_same_holder (handlers[i].name, name)
        || (handlers[i].party != NULL && is_party (handlers[i].party, name)))
      return (gint) i;

  return -1;
}

gint
wb_apportionment_find (const WbApportionment *self,
                       const char            *name)
{
  return find_handler (self->handlers, self->n_handlers, name);
}

gint
wb_handlers_find (const GArray *handlers,
                  const char   *name)
{
  return find_handler ((const WbHandler *) (gpointer) handlers->data, handlers->len, name);
}

static gint
add_handler (GArray      *handlers,
             const WbJob *job,
             const char  *name)
{
  WbHandler handler = { NULL };
  gint found;

  if (name == NULL || *name == '\0')
    return -1;

  found = wb_handlers_find (handlers, name);
  if (found >= 0)
    return found;

  handler.name = g_strdup (name);
  handler.party = find_party (job, name);
  if (handler.party != NULL && wb_money_is_set (handler.party->claim_limit))
    {
      handler.has_limit = TRUE;
      handler.limit = handler.party->claim_limit.minor;
    }
  g_array_append_val (handlers, handler);
  return (gint) handlers->len - 1;
}

gboolean
wb_sharing_is_carriage (const WbStretch *stretch)
{
  switch (stretch->hold)
    {
    case WB_HOLD_VEHICLE:
    case WB_HOLD_WAREHOUSE:
    case WB_HOLD_UNKNOWN:
      return TRUE;
    case WB_HOLD_ORIGIN:
    case WB_HOLD_DESTINATION:
      break;
    }
  return FALSE;
}

gint
wb_sharing_add_holder (WbSharing  *self,
                       const char *name)
{
  return is_customer (self->job, name) ? -1 : add_handler (self->handlers, self->job, name);
}

void
wb_sharing_add_handlers (WbSharing     *self,
                         const WbClaim *claim)
{
  WbHandler carrier = make_carrier (self->job);

  g_array_append_val (self->handlers, carrier);
  for (guint i = 0; i < wb_trail_n_stretches (self->trail); i++)
    {
      const WbStretch *stretch = wb_trail_stretch (self->trail, i);

      if (!wb_sharing_is_carriage (stretch))
        continue;
      wb_sharing_add_holder (self, stretch->holder);
      wb_sharing_add_holder (self, stretch->giver);
    }
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_SHARE); i++)
    {
      const WbShare *share = wb_job_nth (self->job, WB_KIND_SHARE, i);
      const WbClaimLine *line = wb_job_find (self->job, WB_KIND_CLAIM_LINE, share->claim_line);

      if (line != NULL && g_strcmp0 (line->claim, claim->record.id) == 0)
        add_handler (self->handlers, self->job, share->handler);
    }
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_CHARGE); i++)
    {
      const WbHandlerCharge *charge = wb_job_nth (self->job, WB_KIND_CHARGE, i);

      if (g_strcmp0 (charge->claim, claim->record.id) == 0)
        add_handler (self->handlers, self->job, charge->handler);
    }
}
