/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-handovers-page.c and its parts, wb-handovers-page-*.c, only. */
#pragma once

#include "desk/handovers/wb-handovers-page.h"

#include "core/wb-trail.h"
#include "desk/handovers/wb-count-panel.h"
#include "desk/handovers/wb-trail-ribbon.h"
#include "desk/widgets/wb-reveal.h"

G_BEGIN_DECLS

struct _WbHandoversPage
{
  GtkWidget       parent_instance;

  GtkWidget      *content;
  GtkLabel       *storage;
  WbTrailRibbon  *ribbon;
  GtkWidget      *piece_box;
  GtkLabel       *piece_title;
  GtkButton      *piece_button;
  GtkLabel       *piece_path;
  WbCountPanel   *panel;
  GtkWidget      *add_button;
  GtkWidget      *menu_button;
  GtkListBox     *rows;
  GtkWidget      *fields_place;
  GtkWidget      *fields;        /* (nullable): the fields of the handover looked at */

  WbJobModel     *model;
  WbTrail        *trail;         /* (nullable): of the job last shown */
  char           *handover;      /* (nullable): id of the one looked at */
  char           *fields_of;     /* (nullable): id of the one whose fields are there */
  char           *piece;         /* (nullable): id of the one whose path is seen */
};

/** Returns: (transfer none): the job as it stands. */
WbJob *wb_handovers_page_get_job         (WbHandoversPage     *self);
/** Returns: place in the job of the handover looked at; -1: there is none. */
gint   wb_handovers_page_get_handover    (WbHandoversPage     *self);
/** Returns: place in the job of the piece whose path is seen; -1: there is none. */
gint   wb_handovers_page_get_piece       (WbHandoversPage     *self);

/** Looks at the handover with @id. */
void   wb_handovers_page_choose          (WbHandoversPage     *self,
                                          const char          *id);
/** Shows the path of @piece; %NULL: of none. */
void   wb_handovers_page_look_at_piece   (WbHandoversPage     *self,
                                          const char          *piece);

/* wb-handovers-page-actions.c */
void   wb_handovers_page_install_actions (GtkWidgetClass      *widget_class);
/** Adds the keys that mean the handover only while the list of handovers has the focus. */
void   wb_handovers_page_add_row_keys    (WbHandoversPage     *self);

/* wb-handovers-page-reveal.c */
void   wb_handovers_page_init_revealer   (WbRevealerInterface *iface);

G_END_DECLS
