/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job as a line of a list: what the book says in short. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/jobs/wb-job-item.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbJobItem
{
  GObject       parent_instance;

  WbJobSummary *summary;
};

enum
{
  PROP_0,
  PROP_SUMMARY,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbJobItem, wb_job_item, G_TYPE_OBJECT)

static gboolean
summaries_equal (const WbJobSummary *a,
                 const WbJobSummary *b)
{
  return a->revision == b->revision && a->stage == b->stage &&
         a->n_pieces == b->n_pieces && a->n_open_claims == b->n_open_claims &&
         g_strcmp0 (a->number, b->number) == 0 &&
         g_strcmp0 (a->bill_number, b->bill_number) == 0 &&
         g_strcmp0 (a->shipper, b->shipper) == 0 &&
         g_strcmp0 (a->from_city, b->from_city) == 0 &&
         g_strcmp0 (a->to_city, b->to_city) == 0 &&
         g_strcmp0 (a->claims, b->claims) == 0 &&
         wb_date_compare (&a->pickup, &b->pickup) == 0 &&
         wb_date_compare (&a->delivery, &b->delivery) == 0;
}

static void
append_part (GString    *text,
             const char *part)
{
  if (part == NULL || *part == '\0')
    return;
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, part);
}

static void
wb_job_item_get_property (GObject    *object,
                          guint       prop_id,
                          GValue     *value,
                          GParamSpec *pspec)
{
  WbJobItem *self = WB_JOB_ITEM (object);

  switch (prop_id)
    {
    case PROP_SUMMARY:
      g_value_set_pointer (value, self->summary);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_job_item_finalize (GObject *object)
{
  WbJobItem *self = WB_JOB_ITEM (object);

  g_clear_pointer (&self->summary, wb_job_summary_free);

  G_OBJECT_CLASS (wb_job_item_parent_class)->finalize (object);
}

static void
wb_job_item_class_init (WbJobItemClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_job_item_get_property;
  object_class->finalize = wb_job_item_finalize;

  properties[PROP_SUMMARY] = g_param_spec_pointer ("summary", NULL, NULL,
                                                   G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
wb_job_item_init (WbJobItem *self)
{
}

WbJobItem *
wb_job_item_new (const WbJobSummary *summary)
{
  WbJobItem *self;

  g_return_val_if_fail (summary != NULL, NULL);

  self = g_object_new (WB_TYPE_JOB_ITEM, NULL);
  self->summary = wb_job_summary_copy (summary);
  return self;
}

const WbJobSummary *
wb_job_item_get_summary (WbJobItem *self)
{
  g_return_val_if_fail (WB_IS_JOB_ITEM (self), NULL);

  return self->summary;
}

void
wb_job_item_set_summary (WbJobItem          *self,
                         const WbJobSummary *summary)
{
  WbJobSummary *old;

  g_return_if_fail (WB_IS_JOB_ITEM (self));
  g_return_if_fail (summary != NULL);

  if (summaries_equal (self->summary, summary))
    return;

  old = self->summary;
  self->summary = wb_job_summary_copy (summary);
  wb_job_summary_free (old);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SUMMARY]);
}

char *
wb_job_item_describe (WbJobItem *self)
{
  const WbJobSummary *summary;
  g_autofree char *route = NULL;
  g_autoptr (GString) text = g_string_new (NULL);

  g_return_val_if_fail (WB_IS_JOB_ITEM (self), NULL);

  summary = self->summary;
  route = wb_job_route (summary->from_city, summary->to_city);
  append_part (text, summary->shipper);
  append_part (text, summary->number);
  append_part (text, route);
  append_part (text, wb_words_enum (&wb_stages, summary->stage));
  if (wb_date_is_set (&summary->pickup))
    {
      g_autofree char *date = wb_words_date (&summary->pickup);
      /* Translators: %s is a date. */
      g_autofree char *pickup = g_strdup_printf (_("pick-up %s"), date);

      append_part (text, pickup);
    }
  if (summary->claims != NULL)
    {
      /* Translators: %s is one claim number or several. */
      g_autofree char *claims = g_strdup_printf (_("claim %s"), summary->claims);

      append_part (text, claims);
    }

  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
wb_job_route (const char *from,
              const char *to)
{
  if (from != NULL && to != NULL)
    /* Translators: from one city to another. */
    return g_strdup_printf (_("%s → %s"), from, to);
  if (from != NULL)
    /* Translators: %s is a city; where it goes is not known. */
    return g_strdup_printf (_("from %s"), from);
  if (to != NULL)
    /* Translators: %s is a city; where it comes from is not known. */
    return g_strdup_printf (_("to %s"), to);

  return NULL;
}
