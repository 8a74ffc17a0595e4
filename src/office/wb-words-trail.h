/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about handovers: who held the goods when, where a piece is, what a handover lacks, how
 * the storage in transit stands. The window, the command line and the papers share them. */
#pragma once

#include "core/wb-storage-watch.h"
#include "core/wb-trail.h"
#include "office/wb-words.h"

G_BEGIN_DECLS

/** Returns: (transfer full): "Residence to vehicle, 1 Mar 2026"; without the date when it has
 * none. */
char  *wb_words_handover         (const WbHandover *handover) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "teal 3107"; "without a lot" for %NULL. */
char  *wb_words_lot              (const WbLot      *lot) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "Red Vans: on a vehicle, 12, from 1 Mar to 5 Mar 2026, 4 days". */
char  *wb_words_stretch          (const WbStretch  *stretch) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): "4 days"; %NULL when either end has no date. */
char  *wb_words_stretch_length   (const WbStretch  *stretch) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): one or two sentences that answer where a piece is now. @piece: its
 * place in the job's order. */
char  *wb_words_whereabouts      (const WbTrail    *trail,
                                  guint             piece) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what a handover says about a piece, as sentences. */
char  *wb_words_pass             (const WbTrail    *trail,
                                  guint             handover,
                                  guint             piece) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what a handover lacks or what contradicts, a sentence each. */
GStrv  wb_words_handover_faults  (const WbTrail    *trail,
                                  guint             handover) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the figures of a handover: "38 of 40 counted, 2 short, 1 over, 3 with
 * new marks". */
char  *wb_words_handover_figures (const WbHandoverFacts *facts) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @pieces (element-type WbPiece) by their tags, lot by lot: "teal 3107:
 * 7, 9-12; 2 pieces without a tag". */
char  *wb_words_pieces           (const WbJob      *job,
                                  GPtrArray        *pieces) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the tags that were counted though no piece has them: "teal 3107:
 * 57". */
char  *wb_words_strays           (GPtrArray        *strays) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): how storage in transit stands and what is to be done, with
 * what it rests on; %NULL when nothing was stored. */
char  *wb_words_storage          (const WbStorageWatch *watch) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what is due, in a few words; %NULL when nothing is. */
char  *wb_words_storage_due      (const WbStorageWatch *watch) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
