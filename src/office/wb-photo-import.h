/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking pictures in: from files, whole folders and the clipboard. What is good is kept even when
 * others are not, and of every file somebody is told what became of it. Only the files are stored
 * here; putting the records into a job is the caller's, in one step that can be undone. */
#pragma once

#include "office/wb-office.h"
#include "office/wb-progress.h"
#include "store/wb-picture.h"

G_BEGIN_DECLS

/** Files that one import takes, and how deep folders in it may lie in one another. */
#define WB_PHOTO_MAX_FILES  10000
#define WB_PHOTO_MAX_DEPTH  16

/** WbPhotoSource: one file or folder, or the bytes of a picture. */
typedef struct _WbPhotoSource WbPhotoSource;

WbPhotoSource   *wb_photo_source_new_file  (GFile         *file) G_GNUC_WARN_UNUSED_RESULT;
/** @name: what the photo is to be called; UTF-8 */
WbPhotoSource   *wb_photo_source_new_bytes (GBytes        *bytes,
                                            const char    *name) G_GNUC_WARN_UNUSED_RESULT;
void             wb_photo_source_free      (WbPhotoSource *self);

typedef enum
{
  WB_PHOTO_TAKEN,        /* @photo is new to the job; @error may say that it cannot be shown here */
  WB_PHOTO_AGAIN,        /* the job has this picture already, or it came twice */
  WB_PHOTO_REFUSED,      /* @error says why; the file itself was left as it was */
  WB_PHOTO_PASSED_OVER,  /* something else than a picture, in a folder */
  WB_PHOTO_NOT_REACHED,  /* the import was stopped before */
} WbPhotoOutcome;

/**
 * WbPhotoResult:
 * @name: of the file, for a person
 * @photo: (nullable): a record that no job has yet
 * @error: (nullable)
 */
typedef struct
{
  char           *name;
  WbPhotoOutcome  outcome;
  WbPhoto        *photo;
  GError         *error;
} WbPhotoResult;

/**
 * wb_office_take_photos:
 * @job: what the pictures are for: those that it has are not taken twice
 * @sources: (element-type WbPhotoSource)
 * @progress: (nullable)
 *
 * Stores the pictures and reads what the cameras wrote. Cancelling stops it at the next file and is
 * no failure: what was stored by then is told as taken, the rest as not reached.
 *
 * Returns: (transfer full) (element-type WbPhotoResult): one entry a file, in the order of the
 * sources and by name within folders, then what could not be looked at; %NULL with
 * %WB_PICTURE_ERROR_TOO_MANY, and nothing was stored.
 */
GPtrArray *wb_office_take_photos        (WbOffice             *self,
                                         WbJob                *job,
                                         GPtrArray            *sources,
                                         WbProgress           *progress,
                                         GCancellable         *cancellable,
                                         GError              **error) G_GNUC_WARN_UNUSED_RESULT;
void       wb_office_take_photos_async  (WbOffice             *self,
                                         WbJob                *job,
                                         GPtrArray            *sources,
                                         WbProgress           *progress,
                                         GCancellable         *cancellable,
                                         GAsyncReadyCallback   callback,
                                         gpointer              data);
GPtrArray *wb_office_take_photos_finish (WbOffice             *self,
                                         GAsyncResult         *result,
                                         GError              **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the records of the results that were taken, for wb_job_with_many().
 * @counts: (array fixed-size=5) (nullable): how often each outcome came is added to it */
GPtrArray *wb_photo_results_records     (GPtrArray            *results,
                                         guint                *counts) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what became of one file, as a sentence. */
char      *wb_photo_result_words        (const WbPhotoResult  *result) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): what became of all of them: "12 photos were taken in. 1 file was
 * refused." */
char      *wb_photo_results_words       (GPtrArray            *results) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPhotoSource, wb_photo_source_free)

G_END_DECLS
