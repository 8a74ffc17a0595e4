/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes charges of what handlers bear, and adds up what came of them. What they bear is the
 * apportionment's, the words of a statement are the office's. */
#include "config.h"

#include "core/wb-charge.h"

#include "core/wb-apportion-private.h"
#include "core/wb-core.h"

GPtrArray *
wb_charges_of (const WbApportionment *self,
               guint                  index)
{
  const WbJob *job = self->reckoning->job;
  GPtrArray *charges = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CHARGE); i++)
    {
      const WbHandlerCharge *charge = wb_job_nth (job, WB_KIND_CHARGE, i);

      if (g_strcmp0 (charge->claim, self->reckoning->claim->record.id) == 0
          && wb_apportionment_find (self, charge->handler) == (gint) index)
        g_ptr_array_add (charges, (gpointer) charge);
    }
  return charges;
}

gboolean
wb_charge_is_needed (const WbApportionment *self,
                     guint                  index)
{
  g_autoptr (GPtrArray) charges = NULL;

  if (index == WB_CARRIER)
    return FALSE;
  charges = wb_charges_of (self, index);
  return self->handlers[index].borne > 0 || charges->len > 0;
}

static void
take_over_notes (WbHandlerCharge       *into,
                 const WbHandlerCharge *from)
{
  g_autofree char *both = NULL;

  if (from->notes == NULL)
    return;
  both = into->notes != NULL ? g_strconcat (into->notes, "\n", from->notes, NULL)
                             : g_strdup (from->notes);
  wb_set_text (&into->notes, both);
}

static gboolean
take_over (WbHandlerCharge       *into,
           const WbHandlerCharge *from,
           GError               **error)
{
  take_over_notes (into, from);
  if (!wb_money_is_set (from->recovered))
    return TRUE;

  if (!wb_money_is_set (into->recovered))
    into->recovered = from->recovered;
  else if (!wb_money_add (into->recovered, from->recovered, &into->recovered, error))
    return FALSE;
  if (wb_date_is_set (&from->recovered_on)
      && (!wb_date_is_set (&into->recovered_on)
          || g_date_compare (&into->recovered_on, &from->recovered_on) < 0))
    into->recovered_on = from->recovered_on;
  return TRUE;
}

/* Returns: (transfer full): the charge of a handler, without the figures that are stated now. Adds
 * the ids of those that go into it. */
static WbHandlerCharge *
gather (const WbApportionment *self,
        guint                  index,
        char                *(*new_id) (void),
        GPtrArray             *gone,
        GError               **error)
{
  g_autoptr (GPtrArray) charges = wb_charges_of (self, index);
  g_autoptr (WbHandlerCharge) charge = NULL;

  if (charges->len == 0)
    {
      g_autofree char *id = new_id ();

      charge = wb_record_new (WB_KIND_CHARGE, id);
      wb_set_text (&charge->claim, self->reckoning->claim->record.id);
      wb_set_text (&charge->handler, self->handlers[index].name);
      return g_steal_pointer (&charge);
    }

  charge = wb_record_copy (g_ptr_array_index (charges, 0));
  for (guint i = 1; i < charges->len; i++)
    {
      const WbHandlerCharge *other = g_ptr_array_index (charges, i);

      if (!take_over (charge, other, error))
        return NULL;
      g_ptr_array_add (gone, other->record.id);
    }
  return g_steal_pointer (&charge);
}

WbJob *
wb_charge_state (const WbApportionment *self,
                 const char *const     *statements,
                 const GDate           *on,
                 char                *(*new_id) (void),
                 GError               **error)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (GPtrArray) gone = g_ptr_array_new ();
  g_autoptr (WbJob) fewer = NULL;

  g_return_val_if_fail (self != NULL && statements != NULL, NULL);
  g_return_val_if_fail (wb_date_is_set (on), NULL);

  for (guint i = 0; i < self->n_handlers; i++)
    {
      WbHandlerCharge *charge;

      if (!wb_charge_is_needed (self, i))
        continue;
      charge = gather (self, i, new_id, gone, error);
      if (charge == NULL)
        return NULL;
      charge->amount = wb_money (self->handlers[i].borne, self->reckoning->terms->currency);
      charge->stated_on = *on;
      wb_set_text (&charge->statement, statements[i]);
      g_ptr_array_add (records, charge);
    }
  if (records->len == 0)
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                           "nobody but the carrier bears a part of the claim, so there is nothing "
                           "to charge");
      return NULL;
    }

  /* Nothing refers to a charge. */
  fewer = gone->len > 0 ? wb_job_without_many (self->reckoning->job, WB_KIND_CHARGE, gone, NULL)
                        : wb_job_ref (self->reckoning->job);
  return wb_job_with_many (fewer, records);
}

gboolean
wb_charge_add_up (const WbApportionment  *self,
                  WbChargeSums           *out,
                  GError                **error)
{
  *out = (WbChargeSums) { 0 };
  for (guint i = 1; i < self->n_handlers; i++)
    {
      const WbHandler *handler = &self->handlers[i];

      if (__builtin_add_overflow (out->charged, handler->charged, &out->charged)
          || __builtin_add_overflow (out->recovered, handler->recovered, &out->recovered)
          || __builtin_add_overflow (out->open, MAX (handler->open, 0), &out->open)
          || __builtin_add_overflow (out->over, MAX (-handler->open, 0), &out->over))
        {
          g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                               "the charges do not add up in 64 bits");
          return FALSE;
        }
    }
  return TRUE;
}
