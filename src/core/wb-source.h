/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* How far the words that a rule rests on were checked. A rule names its citation and one of
 * these. */

typedef enum
{
  WB_SOURCE_SEEN,        /* the words in force were read where they are published */
  WB_SOURCE_SEEN_2015,   /* read in the annual edition of 2015; may have been amended */
  WB_SOURCE_SEEN_COPY,   /* read in somebody else's copy of the official text */
  WB_SOURCE_MEMORY,      /* known, and not seen */
  WB_SOURCE_PRACTICE,    /* no rule: common practice of an office */
} WbSource;

G_END_DECLS
