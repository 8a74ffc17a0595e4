/* SPDX-License-Identifier: GPL-3.0-or-later */
/* libcurl, opened when the first server is spoken to. Its functions are called by their own names;
 * one that has no line here does not link. */
#pragma once

#include "share/wb-library.h"

#include <curl/curl.h>

G_BEGIN_DECLS

/* The functions that are used. */
#define WB_CURL_FUNCTIONS(EACH)   \
  EACH (curl_easy_cleanup)        \
  EACH (curl_easy_getinfo)        \
  EACH (curl_easy_init)           \
  EACH (curl_easy_reset)          \
  EACH (curl_easy_setopt)         \
  EACH (curl_easy_strerror)       \
  EACH (curl_getdate)             \
  EACH (curl_global_init)         \
  EACH (curl_multi_add_handle)    \
  EACH (curl_multi_cleanup)       \
  EACH (curl_multi_info_read)     \
  EACH (curl_multi_init)          \
  EACH (curl_multi_perform)       \
  EACH (curl_multi_poll)          \
  EACH (curl_multi_remove_handle) \
  EACH (curl_slist_append)        \
  EACH (curl_slist_free_all)

typedef struct
{
  WB_CURL_FUNCTIONS (WB_LIBRARY_POINTER)
} WbCurl;

extern WbCurl wb_curl;

/** Opens libcurl and gets it ready, once. Returns: whether its functions may be called; %FALSE with
 * %WB_SHARE_ERROR_LIBRARY */
gboolean wb_curl_open (GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* An option takes a long, a pointer (to data or to a function) or a curl_off_t, by its number. */
#define WB_CURL_IS(type, value) __builtin_types_compatible_p (__typeof__ (value), type)
#define WB_CURL_TAKES(option, value)                                                              \
  ((option) < CURLOPTTYPE_OBJECTPOINT ? WB_CURL_IS (long, value)                                  \
   : (option) < CURLOPTTYPE_OFF_T     ? !WB_CURL_IS (long, value) && !WB_CURL_IS (int, value)     \
                                      : WB_CURL_IS (curl_off_t, value))

/* libcurl's header has macros around these, which check more than ours but call it directly. */
#undef curl_easy_getinfo
#undef curl_easy_setopt
#define curl_easy_setopt(easy, option, value)                                                     \
  __extension__ ({                                                                                \
    G_STATIC_ASSERT (WB_CURL_TAKES (option, value));                                              \
    wb_curl.curl_easy_setopt (easy, option, value);                                               \
  })

#define curl_easy_cleanup        wb_curl.curl_easy_cleanup
#define curl_easy_getinfo        wb_curl.curl_easy_getinfo
#define curl_easy_init           wb_curl.curl_easy_init
#define curl_easy_reset          wb_curl.curl_easy_reset
#define curl_easy_strerror       wb_curl.curl_easy_strerror
#define curl_getdate             wb_curl.curl_getdate
#define curl_multi_add_handle    wb_curl.curl_multi_add_handle
#define curl_multi_cleanup       wb_curl.curl_multi_cleanup
#define curl_multi_info_read     wb_curl.curl_multi_info_read
#define curl_multi_init          wb_curl.curl_multi_init
#define curl_multi_perform       wb_curl.curl_multi_perform
#define curl_multi_poll          wb_curl.curl_multi_poll
#define curl_multi_remove_handle wb_curl.curl_multi_remove_handle
#define curl_slist_append        wb_curl.curl_slist_append
#define curl_slist_free_all      wb_curl.curl_slist_free_all

G_END_DECLS
