/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Going to a handover, to a field of it, or to what was counted or found at it: the handover is
 * looked at first. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/handovers/wb-handovers-page-private.h"

#include "desk/widgets/wb-scroll-to.h"

/* Without a field, its row in the list. */
static gboolean
reveal_handover (WbHandoversPage *self,
                 const char      *id,
                 const char      *field)
{
  GtkListBoxRow *row;
  gint place = wb_job_index (wb_handovers_page_get_job (self), WB_KIND_HANDOVER, id);

  if (place < 0)
    return FALSE;

  wb_handovers_page_choose (self, id);
  if (wb_reveal_within (self->fields, WB_KIND_HANDOVER, id, field))
    return TRUE;

  row = gtk_list_box_get_row_at_index (self->rows, place);
  gtk_widget_grab_focus (GTK_WIDGET (row));
  wb_scroll_to (GTK_WIDGET (row));
  return TRUE;
}

/* What was noted of a piece at a handover stands in the path of the piece. */
static gboolean
reveal_finding (WbHandoversPage *self,
                const char      *id)
{
  WbJob *job = wb_handovers_page_get_job (self);
  const WbFinding *finding = wb_job_find (job, WB_KIND_FINDING, id);

  if (finding == NULL || wb_job_find (job, WB_KIND_HANDOVER, finding->handover) == NULL)
    return FALSE;

  wb_handovers_page_choose (self, finding->handover);
  wb_handovers_page_look_at_piece (self, finding->piece);
  if (wb_handovers_page_get_piece (self) < 0)
    return reveal_handover (self, finding->handover, NULL);

  gtk_widget_child_focus (self->piece_box, GTK_DIR_TAB_FORWARD);
  wb_scroll_to (self->piece_box);
  return TRUE;
}

/* A count goes on where its tags are typed. */
static gboolean
reveal_tally (WbHandoversPage *self,
              const char      *id)
{
  WbJob *job = wb_handovers_page_get_job (self);
  const WbTally *tally = wb_job_find (job, WB_KIND_TALLY, id);

  if (tally == NULL || wb_job_find (job, WB_KIND_HANDOVER, tally->handover) == NULL)
    return FALSE;

  wb_handovers_page_choose (self, tally->handover);
  wb_count_panel_focus_tags (self->panel);
  return TRUE;
}

static gboolean
reveal (WbRevealer *revealer,
        WbKind      kind,
        const char *id,
        const char *field)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (revealer);

  if (id == NULL)
    {
      gtk_widget_grab_focus (self->add_button);
      wb_scroll_to (self->add_button);
      return TRUE;
    }
  if (kind == WB_KIND_HANDOVER)
    return reveal_handover (self, id, field);
  if (kind == WB_KIND_FINDING)
    return reveal_finding (self, id);
  if (kind == WB_KIND_TALLY)
    return reveal_tally (self, id);

  return FALSE;
}

void
wb_handovers_page_init_revealer (WbRevealerInterface *iface)
{
  iface->reveal = reveal;
}
