/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a bag is written: a folder or an archive, under another name until it is whole. Private to
 * the room. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct _WbBagTarget WbBagTarget;

/** Starts one beside @path. @base: folder inside of an archive. */
WbBagTarget *wb_bag_target_new    (const char   *path,
                                   const char   *base,
                                   GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Begins the file @path of the bag, of @size bytes. @pack: whether it is worth compressing */
gboolean     wb_bag_target_begin  (WbBagTarget  *self,
                                   const char   *path,
                                   gint64        size,
                                   gboolean      pack,
                                   GError      **error);
gboolean     wb_bag_target_write  (WbBagTarget  *self,
                                   const guint8 *bytes,
                                   gsize         length,
                                   GError      **error);
gboolean     wb_bag_target_end    (WbBagTarget  *self,
                                   GError      **error);

/** Forces all to the disk and puts it in place. @replace: an archive of that name may go */
gboolean     wb_bag_target_finish (WbBagTarget  *self,
                                   gboolean      replace,
                                   GError      **error);

/** Removes what is not in place. */
void         wb_bag_target_free   (WbBagTarget  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbBagTarget, wb_bag_target_free)

G_END_DECLS
