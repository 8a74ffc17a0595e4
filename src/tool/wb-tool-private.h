/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the command line share: the table of commands, and how they speak and write. */
#pragma once

#include <gio/gio.h>

#include "office/wb-office.h"
#include "office/wb-server-settings.h"

G_BEGIN_DECLS

/** Exit statuses of the program. */
#define WB_TOOL_DONE   0
#define WB_TOOL_FAILED 1
#define WB_TOOL_USAGE  2

typedef enum
{
  WB_TOOL_OPTION_FIND      = 1 << 0,
  WB_TOOL_OPTION_JSON      = 1 << 1,
  WB_TOOL_OPTION_OUTPUT    = 1 << 2,   /* with "--replace" */
  WB_TOOL_OPTION_GOOD_ROWS = 1 << 3,
  WB_TOOL_OPTION_WHY       = 1 << 4,
  WB_TOOL_OPTION_VERIFY    = 1 << 5,
  WB_TOOL_OPTION_PIECE     = 1 << 6,
  WB_TOOL_OPTION_FINISH    = 1 << 7,
  WB_TOOL_OPTION_MOMENT    = 1 << 8,
  WB_TOOL_OPTION_SHARES    = 1 << 9,   /* "--equal", "--handler" */
  WB_TOOL_OPTION_QUOTE     = 1 << 10,  /* "--source", "--take" */
  WB_TOOL_OPTION_ON        = 1 << 11,
  WB_TOOL_OPTION_LETTER    = 1 << 12,  /* "--remark", "--sent" */
  WB_TOOL_OPTION_REPORT    = 1 << 13,  /* "--by", "--from", "--to", "--csv" */
  WB_TOOL_OPTION_REASON    = 1 << 14,
  WB_TOOL_OPTION_SERVER    = 1 << 15,  /* the fields of a server, "--ask-later" */
  WB_TOOL_OPTION_HOST_KEY  = 1 << 16,
  WB_TOOL_OPTION_CONFLICTS = 1 << 17,
  WB_TOOL_OPTION_REPLACE   = 1 << 18,  /* "--replace" alone */
} WbToolOptionFlags;

/** WbToolOptions: what stood behind the two words of a command. */
typedef struct
{
  char     *find;
  gboolean  json;
  char     *output;
  gboolean  replace;
  gboolean  good_rows;
  gboolean  why;
  gboolean  verify;
  gboolean  equal;
  char     *handler;
  char     *piece;
  gboolean  finish;
  char     *moment;
  char     *source;
  char     *take;
  char     *remark;
  char     *reason;
  gboolean  sent;
  char     *on;
  char     *by;
  char     *from;
  char     *to;
  gboolean  csv;
  char     *user;
  char     *bucket;
  char     *region;
  char     *authority;
  char     *key_file;
  gboolean  ask_later;
  char     *host_key;
  char     *conflicts;
  char    **arguments;     /* NULL-terminated, as many as the command asks for */
} WbToolOptions;

/**
 * WbToolCommand: one row of the table
 * @thing: first word
 * @deed: (nullable): second word
 * @arguments: how they are called in the help
 * @n_least: fewest arguments
 * @n_most: most arguments, %G_MAXUINT for any number
 * @run: Returns: an exit status
 */
typedef struct
{
  const char        *thing;
  const char        *deed;
  const char        *arguments;
  guint              n_least;
  guint              n_most;
  WbToolOptionFlags  options;
  const char        *summary;
  int              (*run) (const WbToolOptions *options);
} WbToolCommand;

/** Returns: (array length=n_commands): the table, by thing. */
const WbToolCommand *wb_tool_commands (gsize *n_commands);

/* Groups of commands, one file each. */
int       wb_tool_book_create      (const WbToolOptions *options);
int       wb_tool_book_check       (const WbToolOptions *options);
int       wb_tool_bundle_write     (const WbToolOptions *options);
int       wb_tool_bundle_read      (const WbToolOptions *options);
int       wb_tool_bundle_check     (const WbToolOptions *options);
int       wb_tool_job_list         (const WbToolOptions *options);
int       wb_tool_job_show         (const WbToolOptions *options);
int       wb_tool_job_import       (const WbToolOptions *options);
int       wb_tool_job_export       (const WbToolOptions *options);
int       wb_tool_job_check        (const WbToolOptions *options);
int       wb_tool_job_history      (const WbToolOptions *options);
int       wb_tool_job_publish      (const WbToolOptions *options);
int       wb_tool_job_status       (const WbToolOptions *options);
int       wb_tool_job_fetch        (const WbToolOptions *options);
int       wb_tool_job_verify       (const WbToolOptions *options);
int       wb_tool_job_papers       (const WbToolOptions *options);
int       wb_tool_job_compare      (const WbToolOptions *options);
int       wb_tool_inventory_import (const WbToolOptions *options);
int       wb_tool_inventory_export (const WbToolOptions *options);
int       wb_tool_handover_list    (const WbToolOptions *options);
int       wb_tool_handover_show    (const WbToolOptions *options);
int       wb_tool_handover_count   (const WbToolOptions *options);
int       wb_tool_handover_note    (const WbToolOptions *options);
int       wb_tool_claim_list       (const WbToolOptions *options);
int       wb_tool_claim_reckon     (const WbToolOptions *options);
int       wb_tool_claim_evidence   (const WbToolOptions *options);
int       wb_tool_claim_shares     (const WbToolOptions *options);
int       wb_tool_claim_charge     (const WbToolOptions *options);
int       wb_tool_claim_split      (const WbToolOptions *options);
int       wb_tool_claim_statement  (const WbToolOptions *options);
int       wb_tool_claim_freeze     (const WbToolOptions *options);
int       wb_tool_claim_quote      (const WbToolOptions *options);
int       wb_tool_claim_letter     (const WbToolOptions *options);
int       wb_tool_claim_due        (const WbToolOptions *options);
int       wb_tool_claim_calendar   (const WbToolOptions *options);
int       wb_tool_claim_report     (const WbToolOptions *options);
int       wb_tool_claim_totals     (const WbToolOptions *options);
int       wb_tool_photo_add        (const WbToolOptions *options);
int       wb_tool_photo_list       (const WbToolOptions *options);
int       wb_tool_photo_verify     (const WbToolOptions *options);
int       wb_tool_photo_unused     (const WbToolOptions *options);
int       wb_tool_packing_show     (const WbToolOptions *options);
int       wb_tool_catalog_check    (const WbToolOptions *options);
int       wb_tool_terms_list       (const WbToolOptions *options);
int       wb_tool_server_add       (const WbToolOptions *options);
int       wb_tool_server_list      (const WbToolOptions *options);
int       wb_tool_server_test      (const WbToolOptions *options);
int       wb_tool_server_jobs      (const WbToolOptions *options);
int       wb_tool_server_show      (const WbToolOptions *options);
int       wb_tool_server_remove    (const WbToolOptions *options);
int       wb_tool_server_forget_key (const WbToolOptions *options);
int       wb_tool_queue_add        (const WbToolOptions *options);
int       wb_tool_queue_list       (const WbToolOptions *options);
int       wb_tool_queue_run        (const WbToolOptions *options);
int       wb_tool_queue_pause      (const WbToolOptions *options);
int       wb_tool_queue_resume     (const WbToolOptions *options);
int       wb_tool_queue_cancel     (const WbToolOptions *options);
int       wb_tool_queue_clear      (const WbToolOptions *options);
int       wb_tool_terms_check      (const WbToolOptions *options);
int       wb_tool_mark_read        (const WbToolOptions *options);
int       wb_tool_help             (const WbToolOptions *options);
int       wb_tool_version          (const WbToolOptions *options);

/** Prints a job, or its document with "--json". */
void      wb_tool_print_job        (const WbToolOptions *options,
                                    WbOffice            *office,
                                    WbJob               *job);

/** Tells where the piece is that "--piece" names, and its path. Returns: an exit status. */
int       wb_tool_show_piece       (const WbToolOptions *options,
                                    WbJob               *job);

/* --- speaking --------------------------------------------------------------------------------- */

/** Puts @text on standard output as it is, in UTF-8. */
void      wb_tool_print            (const char          *text);
void      wb_tool_print_line       (const char          *format,
                                    ...) G_GNUC_PRINTF (1, 2);

/** Puts a sentence on standard error. */
void      wb_tool_complain         (const char          *format,
                                    ...) G_GNUC_PRINTF (1, 2);

/** Puts the words for @error on standard error, after @about and a colon when that is given.
 * Returns: %WB_TOOL_FAILED. */
int       wb_tool_fail             (const char          *about,
                                    const GError        *error);

/** Puts @text into the file that "--output" names, else on standard output. Returns: an exit
 * status. */
int       wb_tool_deliver          (const WbToolOptions *options,
                                    const char          *text,
                                    gsize                length);

/** Returns: (transfer full) (nullable): the book of the first argument, or %NULL, with the fault
 * told. */
WbOffice *wb_tool_open             (const WbToolOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the job whose number is the second argument, or %NULL,
 * with the fault told. */
WbJob    *wb_tool_find_job         (const WbToolOptions *options,
                                    WbOffice            *office) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable): the claim of that number, upper and lower case alike, or %NULL, with the
 * fault told. */
const WbClaim *wb_tool_find_claim  (const WbJob         *job,
                                    const char          *number);

/** Returns: (nullable): the line of @claim with that number, or %NULL, with the fault told. */
const WbClaimLine *wb_tool_find_line (const WbJob      *job,
                                    const WbClaim       *claim,
                                    const char          *number);

/** Returns: (transfer full) (nullable): the server called @name, the only one when that is %NULL;
 * or %NULL, with the fault told. */
WbServer *wb_tool_find_server      (WbOffice            *office,
                                    const char          *name) G_GNUC_WARN_UNUSED_RESULT;

/** WbToolPlace: a book, a server of it and what signing in there takes. */
typedef struct
{
  WbOffice *office;
  WbServer *server;
  WbSecret *secret;
} WbToolPlace;

/** Opens the book of the first argument and finds the server called @server. Returns: %FALSE with
 * the fault told; to be cleared in any case. */
gboolean  wb_tool_place_open       (WbToolPlace         *self,
                                    const WbToolOptions *options,
                                    const char          *server);
void      wb_tool_place_clear      (WbToolPlace         *self);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbToolPlace, wb_tool_place_clear)

/** Returns: what a person calls the job. */
const char *wb_tool_number_of      (const WbJob         *job);

/** Returns: (transfer full) (nullable): id of the job with that number or id on the server, or
 * %NULL, with the fault told. */
char     *wb_tool_find_published   (WbOffice            *office,
                                    const WbServer      *server,
                                    WbSecret            *secret,
                                    const char          *number) G_GNUC_WARN_UNUSED_RESULT;

/** Asks for the secret of @server: at a terminal, unseen, else from the next line of standard
 * input. Returns: (transfer full) (nullable): the secret, or %NULL, with the fault told. */
WbSecret *wb_tool_ask_secret       (const WbServer      *server);

/** Sets @secret to what signing in takes: %NULL when that is nothing, or is kept; else what
 * wb_tool_ask_secret() gives. Returns: %FALSE with the fault told. */
gboolean  wb_tool_need_secret      (const WbServer      *server,
                                    WbSecret           **secret);

/** Says that nobody called @name had the goods. Returns: %WB_TOOL_FAILED. */
int       wb_tool_no_handler       (const char          *name);

/** Makes every kept reckoning of @claim again and tells what came of it, as JSON when @json.
 * Returns: an exit status, a failure unless all were reproduced. */
int       wb_tool_claim_verify     (WbOffice            *office,
                                    WbJob               *job,
                                    const WbClaim       *claim,
                                    gboolean             json);

/* --- parts of the showing of a job ------------------------------------------------------------ */

/** Appends what may be asked for at delivery, or what is missing for it. */
void      wb_tool_append_charges   (GString             *out,
                                    WbOffice            *office,
                                    const WbJob         *job);

/** Appends until when each paper is kept; nothing when there is none. */
void      wb_tool_append_keeping   (GString             *out,
                                    const WbJob         *job);

G_END_DECLS
