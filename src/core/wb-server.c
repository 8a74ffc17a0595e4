/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the fields of a server may say. An address is judged strictly, for a password is sent to
 * wherever it names; whether anything answers there is not asked. */
#include "config.h"

#include "core/wb-server.h"

#include "core/wb-core.h"
#include "core/wb-text.h"

#include <string.h>

#define N_(text) text

#define MAX_NAME    100
#define MAX_ADDRESS 2000
#define MAX_TEXT    255

#define PORT_HTTPS 443
#define PORT_SSH   22

static const WbEnumValue kind_values[] = {
  { WB_SERVER_FOLDER, "folder", N_("Folder or mounted share") },
  { WB_SERVER_WEBDAV, "webdav", N_("WebDAV over HTTPS") },
  { WB_SERVER_SFTP, "sftp", N_("SFTP") },
  { WB_SERVER_S3, "s3", N_("S3-compatible object store") },
};

const WbEnum wb_server_kinds = { "server", kind_values, G_N_ELEMENTS (kind_values) };

static const WbEnumValue field_values[] = {
  { WB_SERVER_FIELD_NAME, "name", N_("Name") },
  { WB_SERVER_FIELD_ADDRESS, "address", N_("Address") },
  { WB_SERVER_FIELD_USER, "user", N_("User name or access key") },
  { WB_SERVER_FIELD_BUCKET, "bucket", N_("Bucket") },
  { WB_SERVER_FIELD_REGION, "region", N_("Region") },
  { WB_SERVER_FIELD_AUTHORITY, "authority", N_("Certificate authority file") },
  { WB_SERVER_FIELD_KEY_FILE, "key-file", N_("Private key file") },
};

const WbEnum wb_server_fields = { "field", field_values, G_N_ELEMENTS (field_values) };

/* Which kind has which field: needed, or may be given. */
#define BIT(field) (1u << (field))
#define ALWAYS     (BIT (WB_SERVER_FIELD_NAME) | BIT (WB_SERVER_FIELD_ADDRESS))

typedef struct
{
  guint       needs;
  guint       may;
  const char *scheme;
  guint       port;
} Kind;

static const Kind kinds[] = {
  [WB_SERVER_FOLDER] = { ALWAYS, 0, NULL, 0 },
  [WB_SERVER_WEBDAV] = { ALWAYS, BIT (WB_SERVER_FIELD_USER) | BIT (WB_SERVER_FIELD_AUTHORITY),
                         "https", PORT_HTTPS },
  [WB_SERVER_SFTP] = { ALWAYS | BIT (WB_SERVER_FIELD_USER), BIT (WB_SERVER_FIELD_KEY_FILE), "sftp",
                       PORT_SSH },
  [WB_SERVER_S3] = { ALWAYS | BIT (WB_SERVER_FIELD_USER) | BIT (WB_SERVER_FIELD_BUCKET),
                     BIT (WB_SERVER_FIELD_REGION) | BIT (WB_SERVER_FIELD_AUTHORITY), "https",
                     PORT_HTTPS },
};

G_STATIC_ASSERT (G_N_ELEMENTS (kinds) == G_N_ELEMENTS (kind_values));

WbServer *
wb_server_new (WbServerKind  kind,
               const char   *id)
{
  WbServer *self = g_new0 (WbServer, 1);

  self->kind = kind;
  self->id = g_strdup (id);
  return self;
}

void
wb_server_free (WbServer *self)
{
  if (self == NULL)
    return;

  g_free (self->id);
  g_free (self->name);
  g_free (self->address);
  g_free (self->user);
  g_free (self->bucket);
  g_free (self->region);
  g_free (self->authority);
  g_free (self->key_file);
  g_free (self);
}

static char **
field_of (WbServer      *self,
          WbServerField  field)
{
  switch (field)
    {
    case WB_SERVER_FIELD_NAME:
      return &self->name;
    case WB_SERVER_FIELD_ADDRESS:
      return &self->address;
    case WB_SERVER_FIELD_USER:
      return &self->user;
    case WB_SERVER_FIELD_BUCKET:
      return &self->bucket;
    case WB_SERVER_FIELD_REGION:
      return &self->region;
    case WB_SERVER_FIELD_AUTHORITY:
      return &self->authority;
    case WB_SERVER_FIELD_KEY_FILE:
      return &self->key_file;
    }

  g_return_val_if_reached (NULL);
}

const char *
wb_server_get (const WbServer *self,
               WbServerField   field)
{
  g_return_val_if_fail (self != NULL, NULL);

  return *field_of ((WbServer *) self, field);
}

void
wb_server_set (WbServer      *self,
               WbServerField  field,
               const char    *text)
{
  char **place;

  g_return_if_fail (self != NULL);

  place = field_of (self, field);
  g_free (*place);
  *place = text != NULL ? g_strstrip (g_strdup (text)) : NULL;
}

WbServer *
wb_server_copy (const WbServer *self)
{
  WbServer *copy;

  g_return_val_if_fail (self != NULL, NULL);

  copy = wb_server_new (self->kind, self->id);
  for (gsize i = 0; i < G_N_ELEMENTS (field_values); i++)
    *field_of (copy, field_values[i].value) =
      g_strdup (wb_server_get (self, field_values[i].value));
  return copy;
}

static gboolean
is_given (const char *text)
{
  return text != NULL && *text != '\0';
}

gboolean
wb_server_equal (const WbServer *a,
                 const WbServer *b)
{
  if (a->kind != b->kind || g_strcmp0 (a->id, b->id) != 0)
    return FALSE;

  for (gsize i = 0; i < G_N_ELEMENTS (field_values); i++)
    {
      const char *one = wb_server_get (a, field_values[i].value);
      const char *other = wb_server_get (b, field_values[i].value);

      if (strcmp (one != NULL ? one : "", other != NULL ? other : "") != 0)
        return FALSE;
    }

  return TRUE;
}

gboolean
wb_server_kind_needs (WbServerKind  kind,
                      WbServerField field)
{
  return (kinds[kind].needs & BIT (field)) != 0;
}

gboolean
wb_server_kind_has (WbServerKind  kind,
                    WbServerField field)
{
  return ((kinds[kind].needs | kinds[kind].may) & BIT (field)) != 0;
}

gboolean
wb_server_wants_secret (const WbServer *self)
{
  return self->kind != WB_SERVER_FOLDER && is_given (self->user);
}

const char *
wb_server_get_region (const WbServer *self)
{
  return is_given (self->region) ? self->region : "us-east-1";
}

G_GNUC_PRINTF (4, 5)
static gboolean
refuse (GError        **error,
        WbCoreError     code,
        WbServerField   field,
        const char     *format,
        ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, WB_CORE_ERROR, code, "%s: %s", wb_enum_nick (&wb_server_fields, (int) field),
               text);
  return FALSE;
}

/* Of any field: text that can be shown and sent in one line. */
static gboolean
check_text (const char     *text,
            WbServerField   field,
            gsize           longest,
            GError        **error)
{
  if (!g_utf8_validate (text, -1, NULL))
    return refuse (error, WB_CORE_ERROR_PARSE, field, "is not text in UTF-8");

  if (strlen (text) > longest)
    return refuse (error, WB_CORE_ERROR_RANGE, field, "is longer than %" G_GSIZE_FORMAT " bytes",
                   longest);

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    if (g_unichar_iscntrl (g_utf8_get_char (at)))
      return refuse (error, WB_CORE_ERROR_PARSE, field, "has a control character in it");

  return TRUE;
}

/* --- addresses -------------------------------------------------------------------------------- */

static gboolean
check_path (const char     *path,
            WbServerField   field,
            GError        **error)
{
  g_auto (GStrv) parts = NULL;

  if (*path != '/')
    return refuse (error, WB_CORE_ERROR_PARSE, field,
                   "has to be a whole path that begins with “/”");

  parts = g_strsplit (path, "/", -1);
  if (g_strv_contains ((const char *const *) parts, "..") ||
      g_strv_contains ((const char *const *) parts, "."))
    return refuse (error, WB_CORE_ERROR_PARSE, field, "must not have “.” or “..” as a part of it");

  return TRUE;
}

static gboolean
host_is_good (const char *host)
{
  gboolean numbers = strchr (host, ':') != NULL;

  if (*host == '\0' || *host == '-' || *host == '.' || strlen (host) > 253)
    return FALSE;

  if (numbers)
    return g_hostname_is_ip_address (host);

  for (const char *at = host; *at != '\0'; at++)
    if (!g_ascii_isalnum (*at) && strchr ("-._", *at) == NULL)
      return FALSE;

  return TRUE;
}

/* The path of an address, escaped: what it stands for must be a plain path too. */
static gboolean
check_url_path (const char  *path,
                GError     **error)
{
  g_autofree char *plain = NULL;

  if (*path == '\0')
    return TRUE;

  plain = g_uri_unescape_string (path, "/");
  if (plain == NULL || !g_utf8_validate (plain, -1, NULL))
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                   "has a “%%” in its path that does not stand for a character");

  return check_text (plain, WB_SERVER_FIELD_ADDRESS, MAX_ADDRESS, error) &&
         check_path (plain, WB_SERVER_FIELD_ADDRESS, error);
}

/* Before GLib turns them into others. */
static gboolean
check_characters_of_url (const char  *address,
                         GError     **error)
{
  for (const char *at = address; *at != '\0'; at++)
    {
      if ((guchar) *at >= 0x80)
        return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                       "has a letter that is not one of a to z; such names are written “xn--…”, "
                       "such folders with “%%” and two digits");

      if (!g_ascii_isgraph (*at) || strchr ("\"<>\\^`{|}", *at) != NULL)
        return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                       "has a character that has to be escaped; a blank is written %%20");
    }

  return TRUE;
}

static gboolean
check_scheme (const WbServer  *self,
              const char      *scheme,
              GError         **error)
{
  const char *wanted = kinds[self->kind].scheme;
  g_autofree char *quoted = NULL;

  if (g_strcmp0 (scheme, wanted) == 0)
    return TRUE;

  if (g_strcmp0 (scheme, "http") == 0 && strcmp (wanted, "https") == 0)
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                   "begins with http://, which anybody on the way can read and alter; it has to "
                   "begin with https://");

  quoted = wb_text_quote (self->address, -1);
  return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                 "%s does not begin with %s://",
                 quoted, wanted);
}

static gboolean
split_url (const WbServer  *self,
           char           **host,
           guint           *port,
           char           **path,
           GError         **error)
{
  g_autofree char *scheme = NULL;
  g_autofree char *userinfo = NULL;
  g_autofree char *name = NULL;
  g_autofree char *rest = NULL;
  g_autofree char *query = NULL;
  g_autofree char *fragment = NULL;
  g_autofree char *quoted = wb_text_quote (self->address, -1);
  int number = -1;

  if (!check_characters_of_url (self->address, error))
    return FALSE;

  if (!g_uri_split (self->address, G_URI_FLAGS_ENCODED, &scheme, &userinfo, &name, &number, &rest,
                    &query, &fragment, NULL))
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                   "%s is not an address such as %s://files.example.org", quoted,
                   kinds[self->kind].scheme);

  if (!check_scheme (self, scheme, error))
    return FALSE;

  if (userinfo != NULL)
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                   "has something before an “@”; the user name has a field of its own, and a "
                   "password is asked for");

  if (query != NULL || fragment != NULL)
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                   "must not have “?” or “#” in it");

  if (name == NULL || !host_is_good (name))
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                   "%s does not name a computer in letters, digits, “-” and “.”", quoted);

  if (number == 0)
    return refuse (error, WB_CORE_ERROR_RANGE, WB_SERVER_FIELD_ADDRESS,
                   "the port has to be from 1 to 65535");

  if (!check_url_path (rest, error))
    return FALSE;

  while (g_str_has_suffix (rest, "/"))
    rest[strlen (rest) - 1] = '\0';

  if (self->kind == WB_SERVER_S3 && *rest != '\0')
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_ADDRESS,
                   "must not have a path; the bucket has a field of its own");

  *host = g_steal_pointer (&name);
  *port = number > 0 ? (guint) number : kinds[self->kind].port;
  *path = g_steal_pointer (&rest);
  return TRUE;
}

gboolean
wb_server_split (const WbServer  *self,
                 char           **host,
                 guint           *port,
                 char           **path,
                 GError         **error)
{
  g_autofree char *folder = NULL;

  g_return_val_if_fail (self != NULL, FALSE);

  if (!is_given (self->address))
    return refuse (error, WB_CORE_ERROR_MISSING, WB_SERVER_FIELD_ADDRESS, "is not given");

  if (!check_text (self->address, WB_SERVER_FIELD_ADDRESS, MAX_ADDRESS, error))
    return FALSE;

  if (self->kind != WB_SERVER_FOLDER)
    return split_url (self, host, port, path, error);

  if (!check_path (self->address, WB_SERVER_FIELD_ADDRESS, error))
    return FALSE;

  folder = g_strdup (self->address);
  while (g_str_has_suffix (folder, "/"))
    folder[strlen (folder) - 1] = '\0';
  *host = g_strdup ("");
  *port = 0;
  *path = g_steal_pointer (&folder);
  return TRUE;
}

static gboolean
check_address (const WbServer  *self,
               GError         **error)
{
  g_autofree char *host = NULL;
  g_autofree char *path = NULL;
  guint port;

  return wb_server_split (self, &host, &port, &path, error);
}

/* --- the other fields ------------------------------------------------------------------------- */

/* RFC 7617, 2: a colon would end the user name. An access key's id stands between slashes. */
static gboolean
check_user (const WbServer  *self,
            GError         **error)
{
  if (self->kind == WB_SERVER_WEBDAV && strchr (self->user, ':') != NULL)
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_USER, "must not have “:” in it");

  if (self->kind != WB_SERVER_S3)
    return TRUE;

  for (const char *at = self->user; *at != '\0'; at++)
    if (!g_ascii_isgraph (*at) || *at == '/' || *at == ',')
      return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_USER,
                     "an access key has letters, digits and signs without “/”, “,” or blanks");

  return TRUE;
}

static gboolean
check_characters (const char     *text,
                  const char     *signs,
                  WbServerField   field,
                  GError        **error)
{
  for (const char *at = text; *at != '\0'; at++)
    if (!g_ascii_islower (*at) && !g_ascii_isdigit (*at) && strchr (signs, *at) == NULL)
      return refuse (error, WB_CORE_ERROR_PARSE, field,
                     "may have small letters a to z, digits and %s only",
                     strchr (signs, '.') != NULL ? "“-” and “.”" : "“-”");

  return TRUE;
}

/* The naming rules of buckets that every object store keeps: 3 to 63 characters, a letter or digit
 * at both ends, no two full stops in a row. */
static gboolean
check_bucket (const char  *bucket,
              GError     **error)
{
  gsize length = strlen (bucket);

  if (!check_characters (bucket, "-.", WB_SERVER_FIELD_BUCKET, error))
    return FALSE;

  if (length < 3 || length > 63)
    return refuse (error, WB_CORE_ERROR_RANGE, WB_SERVER_FIELD_BUCKET,
                   "has to have 3 to 63 characters");

  if (!g_ascii_isalnum (bucket[0]) || !g_ascii_isalnum (bucket[length - 1]) ||
      strstr (bucket, "..") != NULL)
    return refuse (error, WB_CORE_ERROR_PARSE, WB_SERVER_FIELD_BUCKET,
                   "has to begin and end with a letter or a digit, and must not have “..”");

  return TRUE;
}

static gboolean
check_given (const WbServer  *self,
             WbServerField    field,
             const char      *text,
             GError         **error)
{
  switch (field)
    {
    case WB_SERVER_FIELD_NAME:
      return TRUE;
    case WB_SERVER_FIELD_ADDRESS:
      return check_address (self, error);
    case WB_SERVER_FIELD_USER:
      return check_user (self, error);
    case WB_SERVER_FIELD_BUCKET:
      return check_bucket (text, error);
    case WB_SERVER_FIELD_REGION:
      return check_characters (text, "-", field, error);
    case WB_SERVER_FIELD_AUTHORITY:
    case WB_SERVER_FIELD_KEY_FILE:
      return check_path (text, field, error);
    }

  g_return_val_if_reached (FALSE);
}

static gsize
longest_of (WbServerField field)
{
  switch (field)
    {
    case WB_SERVER_FIELD_NAME:
      return MAX_NAME;
    case WB_SERVER_FIELD_ADDRESS:
    case WB_SERVER_FIELD_AUTHORITY:
    case WB_SERVER_FIELD_KEY_FILE:
      return MAX_ADDRESS;
    case WB_SERVER_FIELD_USER:
    case WB_SERVER_FIELD_BUCKET:
    case WB_SERVER_FIELD_REGION:
      return MAX_TEXT;
    }

  g_return_val_if_reached (0);
}

gboolean
wb_server_check_field (const WbServer  *self,
                       WbServerField    field,
                       GError         **error)
{
  const char *text;

  g_return_val_if_fail (self != NULL, FALSE);

  text = wb_server_get (self, field);
  if (!is_given (text))
    {
      if (wb_server_kind_needs (self->kind, field))
        return refuse (error, WB_CORE_ERROR_MISSING, field, "is not given");
      return TRUE;
    }

  if (!wb_server_kind_has (self->kind, field))
    return refuse (error, WB_CORE_ERROR_RANGE, field, "a server of kind “%s” has none",
                   wb_enum_nick (&wb_server_kinds, (int) self->kind));

  return check_text (text, field, longest_of (field), error) &&
         check_given (self, field, text, error);
}

/* RFC 4122, 3: 8-4-4-4-12 hexadecimal digits; small ones only, as ids become names of files. */
static gboolean
id_is_good (const char *id)
{
  static const char pattern[] = "xxxxxxxx-xxxx-xxxx-xxxx-xxxxxxxxxxxx";

  if (id == NULL || strlen (id) != strlen (pattern))
    return FALSE;

  for (gsize i = 0; pattern[i] != '\0'; i++)
    {
      if (pattern[i] == '-' ? id[i] != '-' : !g_ascii_isxdigit (id[i]) || g_ascii_isupper (id[i]))
        return FALSE;
    }

  return TRUE;
}

gboolean
wb_server_check (const WbServer  *self,
                 GError         **error)
{
  g_return_val_if_fail (self != NULL, FALSE);

  if (!id_is_good (self->id))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "id: is not a UUID in small letters");
      return FALSE;
    }

  for (gsize i = 0; i < G_N_ELEMENTS (field_values); i++)
    if (!wb_server_check_field (self, (WbServerField) field_values[i].value, error))
      return FALSE;

  return TRUE;
}
