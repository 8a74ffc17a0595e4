/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drafts, readers and looks at a folder, for tests of the depot. */
#pragma once

#include "share/wb-depot.h"

G_BEGIN_DECLS

#define DEPOT_SERVER "0f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c11"

/** Returns: (transfer full): a new folder. */
char         *depot_fixture_folder  (void) G_GNUC_WARN_UNUSED_RESULT;
void          depot_fixture_remove  (const char          *folder);

/** DepotDraft: a draft with what it points to. */
typedef struct
{
  WbDepotDraft draft;
  char        *text;
  char        *at;
  GStrv        parents;
} DepotDraft;

/** Returns: (transfer full): a draft of @job with @n_files files in @folder; the same for the same
 * @seed. @parents: (nullable): heads that it replaces. */
DepotDraft   *depot_fixture_draft   (const char          *folder,
                                     const char          *job,
                                     guint                seed,
                                     guint                n_files,
                                     const WbDepotJob    *parents) G_GNUC_WARN_UNUSED_RESULT;
void          depot_fixture_free    (DepotDraft          *self);

/** Publishes by a remote that works; it has to go well. Returns: (transfer full): its hash. */
char         *depot_fixture_publish (const char          *server,
                                     const DepotDraft    *draft) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the job as a reader sees it. */
WbDepotJob   *depot_fixture_look    (const char          *server,
                                     const char          *job) G_GNUC_WARN_UNUSED_RESULT;

/** Fetches a version by a remote that works, and holds every file against its hash. */
void          depot_fixture_check   (const char          *server,
                                     const WbVersion     *version);

/** Returns: (transfer full) (element-type utf8 utf8): path → SHA-256 of all files below @folder but
 * those on their way. */
GHashTable   *depot_fixture_files   (const char          *folder) G_GNUC_WARN_UNUSED_RESULT;

/** Writes @text to @path below @folder. */
void          depot_fixture_write   (const char          *folder,
                                     const char          *path,
                                     const char          *text,
                                     gssize               length);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (DepotDraft, depot_fixture_free)

G_END_DECLS
