/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which records of a job belong to a claim or to a line of it. A filter and, for lines, an order on
 * the job's own list. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-records.h"

#include <gtk/gtk.h>

struct _WbClaimRecords
{
  GObject        parent_instance;

  const WbField *owner_field;
  char          *owner_id;      /* (nullable) */
  GtkFilter     *filter;
  GtkSorter     *sorter;        /* (nullable) */
  GListModel    *list;
};

G_DEFINE_FINAL_TYPE (WbClaimRecords, wb_claim_records, G_TYPE_OBJECT)

static gboolean
belongs (gpointer item,
         gpointer data)
{
  WbClaimRecords *self = data;
  gconstpointer record = wb_record_item_get_record (item);
  const char *owner = G_STRUCT_MEMBER (const char *, record, self->owner_field->offset);

  return self->owner_id != NULL && g_strcmp0 (owner, self->owner_id) == 0;
}

static int
compare_numbers (gconstpointer a,
                 gconstpointer b,
                 gpointer      data)
{
  const WbClaimLine *left = wb_record_item_get_record ((gpointer) a);
  const WbClaimLine *right = wb_record_item_get_record ((gpointer) b);

  return (left->number > right->number) - (left->number < right->number);
}

static gboolean
is_in_order (WbClaimRecords *self)
{
  guint n = g_list_model_get_n_items (self->list);
  gint64 before = 0;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (self->list, i);
      const WbClaimLine *line = wb_record_item_get_record (item);

      if (line->number < before)
        return FALSE;
      before = line->number;
    }

  return TRUE;
}

/* A list does not hear of it when a line gets another number, and to sort for nothing would make
 * its rows anew. */
static void
job_changed_cb (WbClaimRecords *self)
{
  gtk_filter_changed (self->filter, GTK_FILTER_CHANGE_DIFFERENT);
  if (self->sorter != NULL && !is_in_order (self))
    gtk_sorter_changed (self->sorter, GTK_SORTER_CHANGE_DIFFERENT);
}

static void
wb_claim_records_finalize (GObject *object)
{
  WbClaimRecords *self = WB_CLAIM_RECORDS (object);

  g_clear_object (&self->list);
  g_clear_object (&self->filter);
  g_clear_object (&self->sorter);
  g_free (self->owner_id);

  G_OBJECT_CLASS (wb_claim_records_parent_class)->finalize (object);
}

static void
wb_claim_records_class_init (WbClaimRecordsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_claim_records_finalize;
}

static void
wb_claim_records_init (WbClaimRecords *self)
{
}

/* Quotes belong to a line, all else to the claim. */
static const WbField *
find_owner (WbKind kind)
{
  return wb_record_type_field (wb_record_type (kind),
                               kind == WB_KIND_QUOTE ? "claim_line" : "claim");
}

WbClaimRecords *
wb_claim_records_new (WbJobModel *model,
                      WbKind      kind)
{
  WbClaimRecords *self = g_object_new (WB_TYPE_CLAIM_RECORDS, NULL);
  GListModel *records = g_object_ref (wb_job_model_get_records (model, kind));

  self->owner_field = find_owner (kind);
  self->filter = GTK_FILTER (gtk_custom_filter_new (belongs, self, NULL));
  self->list = G_LIST_MODEL (gtk_filter_list_model_new (records, g_object_ref (self->filter)));
  if (kind == WB_KIND_CLAIM_LINE)
    {
      self->sorter = GTK_SORTER (gtk_custom_sorter_new (compare_numbers, NULL, NULL));
      self->list = G_LIST_MODEL (gtk_sort_list_model_new (self->list, g_object_ref (self->sorter)));
    }
  g_signal_connect_object (model, "notify::job", G_CALLBACK (job_changed_cb), self,
                           G_CONNECT_SWAPPED);

  return self;
}

void
wb_claim_records_set_owner (WbClaimRecords *self,
                            const char     *owner_id)
{
  g_return_if_fail (WB_IS_CLAIM_RECORDS (self));

  if (g_strcmp0 (owner_id, self->owner_id) == 0)
    return;

  g_free (self->owner_id);
  self->owner_id = g_strdup (owner_id);
  job_changed_cb (self);
}

GListModel *
wb_claim_records_get_list (WbClaimRecords *self)
{
  g_return_val_if_fail (WB_IS_CLAIM_RECORDS (self), NULL);

  return self->list;
}
