/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One claim as a row; follows its record. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-row.h"

#include <glib/gi18n.h>

#include "office/wb-words.h"

struct _WbClaimRow
{
  AdwActionRow  parent_instance;

  WbRecordItem *item;
};

G_DEFINE_FINAL_TYPE (WbClaimRow, wb_claim_row, ADW_TYPE_ACTION_ROW)

static void
show_claim (WbClaimRow *self)
{
  const WbClaim *claim = wb_record_item_get_record (self->item);
  const char *status = wb_words_enum (&wb_claim_statuses, claim->status);
  g_autofree char *received = wb_words_date (&claim->received_on);
  g_autofree char *title = NULL;
  g_autofree char *subtitle = NULL;

  if (claim->claimant != NULL)
    /* Translators: the number of a claim, and who claims. */
    title = g_strdup_printf (_("%s, %s"), claim->number, claim->claimant);
  else
    title = g_strdup (claim->number);

  if (wb_date_is_set (&claim->received_on))
    /* Translators: how a claim stands, and when it was received. */
    subtitle = g_strdup_printf (_("%s, received %s"), status, received);
  else
    subtitle = g_strdup (status);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self), subtitle);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, subtitle, -1);
}

static void
wb_claim_row_dispose (GObject *object)
{
  g_clear_object (&WB_CLAIM_ROW (object)->item);

  G_OBJECT_CLASS (wb_claim_row_parent_class)->dispose (object);
}

/* The claim that has the focus is the one shown, so Tab goes to that one only; from claim to claim
 * go the arrows. */
static gboolean
wb_claim_row_focus (GtkWidget        *widget,
                    GtkDirectionType  direction)
{
  gboolean tab = direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD;

  if (tab && !gtk_list_box_row_is_selected (GTK_LIST_BOX_ROW (widget)))
    return FALSE;
  return GTK_WIDGET_CLASS (wb_claim_row_parent_class)->focus (widget, direction);
}

static void
wb_claim_row_class_init (WbClaimRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_claim_row_dispose;
  GTK_WIDGET_CLASS (klass)->focus = wb_claim_row_focus;
}

static void
wb_claim_row_init (WbClaimRow *self)
{
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);
}

GtkWidget *
wb_claim_row_new (WbRecordItem *item)
{
  WbClaimRow *self = g_object_new (WB_TYPE_CLAIM_ROW, NULL);

  self->item = g_object_ref (item);
  g_signal_connect_object (item, "notify::record", G_CALLBACK (show_claim), self,
                           G_CONNECT_SWAPPED);
  show_claim (self);

  return GTK_WIDGET (self);
}

const char *
wb_claim_row_get_id (WbClaimRow *self)
{
  g_return_val_if_fail (WB_IS_CLAIM_ROW (self), NULL);

  return ((const WbRecord *) wb_record_item_get_record (self->item))->id;
}
