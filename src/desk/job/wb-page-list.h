/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pages of an open job, in the order in which a move goes through them. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/**
 * WbPageEntry:
 * @name: what "job.show-page" calls it; never shown
 * @title: what a person reads, marked for translation
 * @icon: name of a symbolic icon
 * @key: the digit that with Alt shows the page; pages keep theirs, so that fingers can learn it
 * @make: makes the page; it is called at the first visit and not before
 * @kinds: the kinds of record that are filled in there: a sum of 1 << #WbKind
 */
typedef struct
{
  const char *name;
  const char *title;
  const char *icon;
  char        key;
  GtkWidget *(*make) (WbJobModel *model);
  guint       kinds;
} WbPageEntry;

/** @n_pages: (out): how many there are. Returns: the pages; valid for ever. */
const WbPageEntry *wb_page_list (gsize *n_pages);

/** Returns: (nullable): the page on which records of @kind are filled in, or %NULL. */
const WbPageEntry *wb_page_list_of_kind (WbKind kind);

G_END_DECLS
