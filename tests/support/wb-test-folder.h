/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What tests do with folders of their own. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** Removes @path, and all in it if it is a folder, also what nobody may write or read; a link and not
 * what it points to. Nothing happens where nothing is. */
void wb_test_remove_tree (const char *path);

G_END_DECLS
