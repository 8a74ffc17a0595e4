/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file server that an office publishes jobs to: what kind it is, where it is and who signs in.
 * Never a password: those are asked for, or kept by the desktop. Nothing is reached from here. */
#pragma once

#include "core/wb-enum.h"

G_BEGIN_DECLS

/**
 * WbServerKind:
 * @WB_SERVER_FOLDER: a folder of this computer, such as a network share that is mounted
 * @WB_SERVER_WEBDAV: WebDAV over HTTPS
 * @WB_SERVER_SFTP: files over SSH
 * @WB_SERVER_S3: a bucket of an S3-compatible object store, over HTTPS
 */
typedef enum
{
  WB_SERVER_FOLDER,
  WB_SERVER_WEBDAV,
  WB_SERVER_SFTP,
  WB_SERVER_S3,
} WbServerKind;

/** "folder", "webdav", "sftp", "s3". */
extern const WbEnum wb_server_kinds;

/**
 * WbServerField: the fields of a server that a person fills in, in the order in which they are judged
 */
typedef enum
{
  WB_SERVER_FIELD_NAME,
  WB_SERVER_FIELD_ADDRESS,
  WB_SERVER_FIELD_USER,
  WB_SERVER_FIELD_BUCKET,
  WB_SERVER_FIELD_REGION,
  WB_SERVER_FIELD_AUTHORITY,
  WB_SERVER_FIELD_KEY_FILE,
} WbServerField;

/** Nicks as messages and files have them: "name", "address", "user", "bucket", "region",
 * "authority", "key-file". */
extern const WbEnum wb_server_fields;

/**
 * WbServer:
 * @id: a random UUID, lower case
 * @name: what the office calls it
 * @address: "https://host[:port][/path]", "sftp://host[:port]/path", "https://host[:port]" of an
 *   object store, the absolute path of a folder
 * @user: (nullable): who signs in; the access key's id of an object store. Without one, WebDAV is
 *   used without signing in
 * @bucket: (nullable): of an object store
 * @region: (nullable): of an object store; %NULL stands for "us-east-1", which most stores of an
 *   office's own go by
 * @authority: (nullable): absolute path of a PEM file with the office's own certificate authority,
 *   trusted besides the system's
 * @key_file: (nullable): absolute path of the private key for SFTP; %NULL for a password
 *
 * A text that is not given is %NULL or "", which are the same here.
 */
typedef struct
{
  char         *id;
  char         *name;
  WbServerKind  kind;
  char         *address;
  char         *user;
  char         *bucket;
  char         *region;
  char         *authority;
  char         *key_file;
} WbServer;

/** Returns: (transfer full): a server of nothing but @kind and @id. */
WbServer   *wb_server_new         (WbServerKind     kind,
                                   const char      *id) G_GNUC_WARN_UNUSED_RESULT;
WbServer   *wb_server_copy        (const WbServer  *self) G_GNUC_WARN_UNUSED_RESULT;
void        wb_server_free        (WbServer        *self);
gboolean    wb_server_equal       (const WbServer  *a,
                                   const WbServer  *b);

/** Returns: (nullable): the text of @field. */
const char *wb_server_get         (const WbServer  *self,
                                   WbServerField    field);
/** Sets the text of @field, without the white space around it; nothing is judged. */
void        wb_server_set         (WbServer        *self,
                                   WbServerField    field,
                                   const char      *text);

/** Returns: whether servers of @kind have @field at all, and whether it has to be filled in. */
gboolean    wb_server_kind_has    (WbServerKind     kind,
                                   WbServerField    field);
gboolean    wb_server_kind_needs  (WbServerKind     kind,
                                   WbServerField    field);

/**
 * wb_server_check_field:
 *
 * Judges one field by itself.
 *
 * Returns: %TRUE; or %FALSE with %WB_CORE_ERROR_MISSING, _PARSE or _RANGE, whose message begins with
 *   the nick of the field: "address: …"
 */
gboolean    wb_server_check_field (const WbServer  *self,
                                   WbServerField    field,
                                   GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Judges the id and every field; the first fault as of wb_server_check_field(). */
gboolean    wb_server_check       (const WbServer  *self,
                                   GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: whether signing in takes a secret: a password, the secret access key, or what a private
 * key file may be locked with. For the last it may be empty. */
gboolean    wb_server_wants_secret (const WbServer *self);

/**
 * wb_server_split:
 * @host: (out) (transfer full): without the brackets of an IPv6 address; "" for a folder
 * @port: (out): 443 or 22 where the address names none; 0 for a folder
 * @path: (out) (transfer full): from the first "/", escaped as in the address, without a "/" at its
 *   end: "" for the root
 *
 * Takes the address apart. Returns: %TRUE, or %FALSE as of wb_server_check_field().
 */
gboolean    wb_server_split       (const WbServer  *self,
                                   char           **host,
                                   guint           *port,
                                   char           **path,
                                   GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: the region to sign for. */
const char *wb_server_get_region  (const WbServer  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbServer, wb_server_free)

G_END_DECLS
