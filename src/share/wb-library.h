/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Libraries that are opened when they are first used, and not with the program: most days no server
 * is spoken to before somebody has seen the window. Which libraries these are stands in wb-curl.h,
 * wb-xml.h, wb-archive.h and wb-secret.c; each has a table of pointers with the types of its
 * functions. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/** For a list of functions: a member that points to each, in a struct, and its name, in an array. */
#define WB_LIBRARY_POINTER(function) __typeof__ (function) *function;
#define WB_LIBRARY_NAME(function) #function,

/**
 * WbLibrary:
 * @soname: what the linker would have noted, WB_SONAME_… of config.h
 * @package: the package of Debian that has it
 * @names: the functions that are used, and
 * @n_names: their number
 * @table: a struct of as many pointers to functions, in the order of @names
 *
 * A static value; what follows is kept by wb_library_open().
 */
typedef struct
{
  const char         *soname;
  const char         *package;
  const char *const  *names;
  gsize               n_names;
  gpointer            table;

  /*< private >*/
  gsize               is_open;
} WbLibrary;

/**
 * wb_library_open:
 *
 * Opens a library and fills its table in, unless that is done already, from any thread. It stays
 * open until the program ends.
 *
 * Returns: %TRUE when every function of it can be called; %FALSE with %WB_SHARE_ERROR_LIBRARY, and
 * then it is tried again the next time
 */
gboolean wb_library_open (WbLibrary  *self,
                          GError    **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
