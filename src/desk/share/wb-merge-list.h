/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The differences of two versions of a job as a list that a view can show: first what a person has
 * to decide, each group that is chosen together as one entry; then one entry that folds and unfolds
 * what is taken without asking, and that, an object for an entry made when it is asked for. */
#pragma once

#include <gio/gio.h>

#include "office/wb-publish-compare.h"
#include "office/wb-words-merge.h"

G_BEGIN_DECLS

typedef enum
{
  WB_MERGE_ENTRY_CHOICE,
  WB_MERGE_ENTRY_FOLD,
  WB_MERGE_ENTRY_TAKEN,
} WbMergeEntryKind;

/* Signal: "changed" when it was chosen, folded or unfolded. */
#define WB_TYPE_MERGE_ENTRY (wb_merge_entry_get_type ())
G_DECLARE_FINAL_TYPE (WbMergeEntry, wb_merge_entry, WB, MERGE_ENTRY, GObject)

WbMergeEntryKind  wb_merge_entry_get_kind   (WbMergeEntry  *self);
/** Returns: of a choice, what is chosen. */
WbMergeChoice     wb_merge_entry_get_choice (WbMergeEntry  *self);
/** Chooses for all of a choice. */
void              wb_merge_entry_choose     (WbMergeEntry  *self,
                                             WbMergeChoice  choice);
/** Returns: of the fold, whether what is taken is listed. */
gboolean          wb_merge_entry_is_unfolded (WbMergeEntry *self);

/** Returns: (transfer full): the record it is at; of the fold, its sentence with the count. */
char             *wb_merge_entry_get_title  (WbMergeEntry  *self) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): what of the record differs; %NULL where the texts say it. */
char             *wb_merge_entry_get_what   (WbMergeEntry  *self) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): how it is here or there, or was, a line a difference; %NULL
 * when that is not known. */
char             *wb_merge_entry_get_text   (WbMergeEntry  *self,
                                             WbMergeChoice  whose) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): of what is taken, what comes of it: "Hall → Kitchen", "Removed". */
char             *wb_merge_entry_get_taken  (WbMergeEntry  *self) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): what becomes of what is not chosen. */
char             *wb_merge_entry_get_note   (WbMergeEntry  *self) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none): where it is taken from, or what was chosen. */
const char       *wb_merge_entry_get_side   (WbMergeEntry  *self);

/* Signal: "decided" whenever a choice was made or taken back. */
#define WB_TYPE_MERGE_LIST (wb_merge_list_get_type ())
G_DECLARE_FINAL_TYPE (WbMergeList, wb_merge_list, WB, MERGE_LIST, GObject)

/** Compares; arguments and errors as of wb_merge_new(). May be called in any thread.
 * Returns: (transfer full) (nullable): the list, folded. */
WbMergeList *wb_merge_list_new          (WbJob         *base,
                                         WbJob         *mine,
                                         WbJob         *theirs,
                                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the list of a comparison that office has made; what is chosen is chosen in
 * its merge. */
WbMergeList *wb_merge_list_new_published (WbComparison *published) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: how many choices there are, which stand at the top of the list. */
guint        wb_merge_list_n_choices    (WbMergeList   *self);
/** Returns: how many of them are open. */
guint        wb_merge_list_n_open       (WbMergeList   *self);
/** Returns: how many differences are taken without asking. */
guint        wb_merge_list_n_taken      (WbMergeList   *self);

/** Chooses the same for every choice. */
void         wb_merge_list_choose_all   (WbMergeList   *self,
                                         WbMergeChoice  choice);
/** Returns: the place of the first open choice behind @from, or before it; or
 * %G_MAXUINT when none is open. @from may be %G_MAXUINT for the first of all. */
guint        wb_merge_list_next_open    (WbMergeList   *self,
                                         guint          from);

void         wb_merge_list_set_unfolded (WbMergeList   *self,
                                         gboolean       unfolded);

/** Returns: (transfer none): the job as it is here or there. */
WbJob       *wb_merge_list_get_side     (WbMergeList   *self,
                                         WbMergeChoice  whose);

/** Returns: (transfer full) (nullable): the merged job, as of wb_merge_result(). */
WbJob       *wb_merge_list_get_result   (WbMergeList   *self,
                                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
