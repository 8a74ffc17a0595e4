/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the reader share. */
#pragma once

#include "share/wb-bag.h"

G_BEGIN_DECLS

/* --- the private copy ------------------------------------------------------------------------ */

/** WbBagIntake: files of a bag on their way into a private folder. There they are numbered; the
 * names that a source gives are only remembered, once they are judged safe and unlike each other. */
typedef struct _WbBagIntake WbBagIntake;

WbBagIntake *wb_bag_intake_new     (const char         *scratch,
                                    const WbBagLimits  *limits,
                                    GError            **error) G_GNUC_WARN_UNUSED_RESULT;
/** Removes the private folder, unless wb_bag_intake_steal() gave it away. */
void         wb_bag_intake_free    (WbBagIntake        *self);

/** Notes a folder that the source has. */
gboolean     wb_bag_intake_folder  (WbBagIntake        *self,
                                    const char         *path,
                                    GError            **error);

/** Begins a file; wb_bag_intake_write() adds to it, wb_bag_intake_end() ends it. */
gboolean     wb_bag_intake_begin   (WbBagIntake        *self,
                                    const char         *path,
                                    GError            **error);
gboolean     wb_bag_intake_write   (WbBagIntake        *self,
                                    gconstpointer       bytes,
                                    gsize               length,
                                    GError            **error);
gboolean     wb_bag_intake_end     (WbBagIntake        *self,
                                    GError            **error);

/** Returns: bytes taken in so far. */
gint64       wb_bag_intake_total   (const WbBagIntake  *self);

/** Gives away what was taken in. @folder: (out) (transfer full): the private folder; @files: (out)
 * (transfer full) (element-type WbBagFile); @folders: (out) (transfer full): names of folders */
void         wb_bag_intake_steal   (WbBagIntake        *self,
                                    char              **folder,
                                    GPtrArray         **files,
                                    GPtrArray         **folders);

/** Removes a private folder with the files in it. */
void         wb_bag_remove_scratch (const char         *folder);

/* --- where it comes from ---------------------------------------------------------------------- */

/** Passes everything in a folder or an archive on to @intake. Errors as of wb_bag_read(). */
gboolean     wb_bag_source_read    (const char         *path,
                                    WbBagIntake        *intake,
                                    const WbBagLimits  *limits,
                                    WbBagProgressFunc   progress,
                                    gpointer            data,
                                    GCancellable       *cancellable,
                                    GError            **error);

/** As wb_bag_source_read() for an archive that is open at its start. @size: bytes of it, for the
 * progress */
gboolean     wb_bag_archive_read   (int                 fd,
                                    gint64              size,
                                    const char         *name,
                                    WbBagIntake        *intake,
                                    const WbBagLimits  *limits,
                                    WbBagProgressFunc   progress,
                                    gpointer            data,
                                    GCancellable       *cancellable,
                                    GError            **error);

/* --- is it a good bag ------------------------------------------------------------------------- */

struct _WbBag
{
  char       *folder;      /* private */
  GPtrArray  *files;       /* WbBagFile, by name */
  GPtrArray  *folders;     /* names */
  GHashTable *by_name;     /* composed name → WbBagFile */
  GPtrArray  *payload;     /* WbBagFile, of @files */
  GPtrArray  *info;        /* (nullable) WbBagElement */
};

/** Checks that the bag is complete and valid, and reads bag-info.txt. */
gboolean     wb_bag_check          (WbBag              *self,
                                    const WbBagLimits  *limits,
                                    GCancellable       *cancellable,
                                    GError            **error);

/** Whether @head is how an archive or a compressed file begins. 262 bytes are enough to tell. */
gboolean     wb_bag_is_archive     (const guint8       *head,
                                    gsize               length);
#define WB_BAG_HEAD 262

G_END_DECLS
