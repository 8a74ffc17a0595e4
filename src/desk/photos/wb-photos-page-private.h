/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-photos-page.c and wb-photos-page-actions.c only. */
#pragma once

#include "desk/photos/wb-photos-page.h"

#include "desk/photos/wb-photo-compare.h"
#include "desk/photos/wb-photo-details.h"
#include "desk/photos/wb-photo-filter.h"
#include "desk/photos/wb-photo-intake-bar.h"
#include "desk/photos/wb-photo-shelf.h"
#include "desk/photos/wb-photo-viewer.h"

#include <adwaita.h>

G_BEGIN_DECLS

struct _WbPhotosPage
{
  GtkWidget           parent_instance;

  AdwToastOverlay    *toasts;
  GtkStack           *views;
  GtkBox             *bar;
  GtkLabel           *count;
  GtkLabel           *faults;
  GtkStack           *stack;
  GtkWidget          *first;        /* button while there are no photos */
  GtkWidget          *again;        /* and while none matches */
  GtkGridView        *grid;
  GtkWidget          *side_scroller;
  AdwBin             *side;
  GtkBox             *foot;

  WbPhotoFilter      *filter;
  WbPhotoDetails     *details;
  WbPhotoIntakeBar   *intake;
  WbPhotoViewer      *viewer;
  WbPhotoCompare     *compare;

  WbJobModel         *model;
  WbPhotoShelf       *shelf;
  GtkCustomFilter    *custom_filter;
  GtkFilterListModel *shown;
  GtkSliceListModel  *in_grid;      /* of @shown at the same places; after many come, not all yet */
  GtkMultiSelection  *selection;
  GSignalGroup       *model_signals;
};

/** Returns: (transfer none): the job as it stands. */
WbJob     *wb_photos_page_get_job         (WbPhotosPage   *self);
/** Returns: (transfer full) (element-type utf8): ids of the selected photos. */
GPtrArray *wb_photos_page_get_selected    (WbPhotosPage   *self) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: place of the photo with @id; %GTK_INVALID_LIST_POSITION: it is not shown. */
guint      wb_photos_page_find_shown      (WbPhotosPage   *self,
                                           const char     *id);

/** Shows @sentence for a while. */
void       wb_photos_page_say             (WbPhotosPage   *self,
                                           const char     *sentence);
/** Takes files in, as wb_photo_inputs_ask() has them: without @sources, @words say why not. */
void       wb_photos_page_take            (GtkWidget      *widget,
                                           GPtrArray      *sources,
                                           const char     *words);
/** Shows the photo with @id large. */
void       wb_photos_page_open_photo      (WbPhotosPage   *self,
                                           const char     *id);
/** Gives the focus to the grid, or to what stands there while it is empty. */
void       wb_photos_page_focus_grid      (WbPhotosPage   *self);

/* wb-photos-page-actions.c */
void       wb_photos_page_install_actions (GtkWidgetClass *widget_class);

G_END_DECLS
