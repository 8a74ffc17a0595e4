/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for what went wrong: a sentence that says what it is, made from the error's domain and
 * code, and one that says what to do. A message is shown only where it names a place or a value
 * that the person gave. */
#include "config.h"

#include "office/wb-words.h"

#include "core/wb-core.h"
#include "paper/wb-paper.h"
#include "share/wb-share.h"
#include "store/wb-picture.h"
#include "store/wb-store.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <string.h>

typedef struct
{
  int         code;
  gboolean    detail;   /* show the message as well */
  const char *what;     /* (nullable): the message is the sentence */
  const char *advice;   /* (nullable) */
} ErrorWords;

static const ErrorWords core_words[] = {
  { WB_CORE_ERROR_PARSE, TRUE, NULL,
    N_("Correct it and try again.") },
  { WB_CORE_ERROR_RANGE, TRUE, NULL,
    N_("Correct it and try again.") },
  { WB_CORE_ERROR_OVERFLOW, TRUE, N_("The figures are too large to be reckoned exactly."),
    N_("Look for an amount or a weight with too many digits.") },
  { WB_CORE_ERROR_CURRENCY, TRUE,
    N_("Amounts of different currencies cannot be reckoned together."),
    N_("Give every amount in the currency of the job.") },
  { WB_CORE_ERROR_TERMS, TRUE, N_("The terms of liability cannot be used."),
    N_("Check the move type, the region and the dates of the order, or the terms file that is "
       "named.") },
  { WB_CORE_ERROR_MISSING, TRUE, N_("Something that is needed was not given."),
    N_("Fill it in and try again.") },
  { WB_CORE_ERROR_CATALOG, TRUE, N_("The catalogue cannot be used."),
    N_("Mend the catalogue file that is named.") },
};

static const ErrorWords store_words[] = {
  { WB_STORE_ERROR_NOT_A_BOOK, FALSE, N_("This file is not an office book."),
    N_("Choose a file that Wainbook made, or create a new book.") },
  { WB_STORE_ERROR_NEWER, FALSE, N_("This office book was written by a newer version of Wainbook."),
    N_("Update Wainbook on this computer. The book was not changed.") },
  { WB_STORE_ERROR_CORRUPT, FALSE, N_("This office book is damaged."),
    N_("Go back to the last backup, and keep the damaged file for whoever looks after it.") },
  { WB_STORE_ERROR_BUSY, FALSE, N_("Another program is holding the office book."),
    N_("Wait a moment and try again, or close the other program.") },
  { WB_STORE_ERROR_FULL, FALSE, N_("There is no room left on the disk."),
    N_("Free some room and try again. Nothing was stored.") },
  { WB_STORE_ERROR_CONSTRAINT, TRUE, N_("This contradicts what the office book already holds."),
    N_("Give it another number and try again. Nothing was stored.") },
  { WB_STORE_ERROR_NOT_FOUND, TRUE, N_("There is no such file or entry."),
    N_("Check the number or the name.") },
  { WB_STORE_ERROR_EXISTS, TRUE, N_("There is one of that name already."),
    N_("Choose another name. Nothing was changed.") },
  { WB_STORE_ERROR_DENIED, TRUE, N_("This computer does not let you use the office book."),
    N_("Choose another place, or ask whoever looks after the computer.") },
  { WB_STORE_ERROR_CONFLICT, FALSE, N_("Somebody else has changed or removed this job meanwhile."),
    N_("Load it again and repeat your change. Nothing was stored.") },
  { WB_STORE_ERROR_CLOSED, FALSE, N_("The office book was closed."),
    N_("Open it again and repeat your change.") },
  { WB_STORE_ERROR_IO, TRUE, N_("The disk or network share with the office book does not answer "
                                "properly."),
    N_("Check its cable or connection, then try again.") },
  { WB_STORE_ERROR_INTERNAL, TRUE, N_("Wainbook made a mistake. The office book was not changed."),
    N_("Close Wainbook and open it again; if this comes back, report it with these words.") },
};

static const ErrorWords picture_words[] = {
  { WB_PICTURE_ERROR_UNKNOWN, FALSE, N_("This is not a picture that can be taken in."),
    N_("Wainbook takes JPEG, PNG, TIFF, WebP and HEIC. The file was left as it is.") },
  { WB_PICTURE_ERROR_CUT_OFF, FALSE,
    N_("The picture is damaged or ends too early, so it was not taken in."),
    N_("Copy it from the camera once more. The file was left as it is.") },
  { WB_PICTURE_ERROR_TOO_LARGE, FALSE, N_("The file is larger than 256 MB, which no photo is."),
    N_("Make a smaller picture of it. The file was left as it is.") },
  { WB_PICTURE_ERROR_TOO_WIDE, FALSE, N_("The picture has more than 120 million pixels."),
    N_("Make a smaller picture of it. The file was left as it is.") },
  { WB_PICTURE_ERROR_NOT_A_FILE, FALSE, N_("This is a device or a pipe, not a file."),
    N_("Choose a file.") },
  { WB_PICTURE_ERROR_NO_DECODER, FALSE,
    N_("The photo is kept, but this computer cannot show pictures of its kind."),
    N_("Open it in another program, or take in a JPEG of it as well.") },
  { WB_PICTURE_ERROR_MISSING, FALSE, N_("The file of this photo is gone."),
    N_("Put it back from a backup, or take the same picture in again.") },
  { WB_PICTURE_ERROR_CHANGED, FALSE,
    N_("The file of this photo is no longer what was taken in."),
    N_("Do not rely on it. Put it back from a backup, or take the same picture in again.") },
  { WB_PICTURE_ERROR_TOO_MANY, FALSE, N_("These are more files or folders than are taken in at "
                                         "once."),
    N_("Take them in by smaller folders: up to 10,000 files, up to 16 folders deep.") },
};

static const ErrorWords share_words[] = {
  { WB_SHARE_ERROR_NOT_A_BUNDLE, TRUE, N_("This is not a bundle of a job."),
    N_("Choose a folder, zip or tar.gz file that was saved as a bundle.") },
  { WB_SHARE_ERROR_VERSION, TRUE, N_("The bundle follows another version of BagIt."),
    N_("Ask the sender for one of version 1.0, as Wainbook writes it.") },
  { WB_SHARE_ERROR_ENCODING, TRUE, N_("The bundle's lists are not written in UTF-8."),
    N_("Ask the sender for a bundle as Wainbook writes it.") },
  { WB_SHARE_ERROR_TAG_FILE, TRUE, N_("One of the bundle's own lists cannot be understood."),
    N_("Ask the sender for the bundle once more. Nothing was taken from it.") },
  { WB_SHARE_ERROR_ALGORITHM, TRUE, N_("The bundle cannot prove that its files are unchanged."),
    N_("Ask the sender for one with SHA-256 checksums, as Wainbook writes it.") },
  { WB_SHARE_ERROR_INCOMPLETE, TRUE, N_("A file that has to be there is missing."),
    N_("Copy the bundle once more, or ask whoever sent or published it to do so again. Nothing was "
       "taken in.") },
  { WB_SHARE_ERROR_UNLISTED, TRUE, N_("There is more in the bundle than its list says."),
    N_("Do not rely on it; ask the sender for it once more. Nothing was taken from it.") },
  { WB_SHARE_ERROR_ALTERED, TRUE, N_("A file is not what it was when it was packed or published."),
    N_("Do not rely on it; ask whoever sent or published it to do so again. Nothing was taken "
       "in.") },
  { WB_SHARE_ERROR_OXUM, TRUE, N_("The bundle has not as many files or bytes as it says."),
    N_("Copy it once more, or ask the sender for it. Nothing was taken from it.") },
  { WB_SHARE_ERROR_FETCH, TRUE, N_("Parts of the bundle are somewhere on a network."),
    N_("Ask the sender for a whole bundle. Nothing was fetched.") },
  { WB_SHARE_ERROR_NAME, TRUE, N_("A name in the bundle, or for the server, is not safe to use."),
    N_("Do not unpack it by hand; ask the sender where it comes from. Nothing was taken from "
       "it.") },
  { WB_SHARE_ERROR_CLASH, TRUE, N_("Two files of the bundle share one name, or nearly so."),
    N_("Ask the sender for a bundle as Wainbook writes it. Nothing was taken from it.") },
  { WB_SHARE_ERROR_KIND, TRUE, N_("There is something else than files and folders in the bundle."),
    N_("Do not unpack it by hand; ask the sender where it comes from. Nothing was taken from "
       "it.") },
  { WB_SHARE_ERROR_NESTED, TRUE, N_("There is a packed file inside, which cannot be looked into."),
    N_("Ask the sender for a bundle without it. Nothing was taken from it.") },
  { WB_SHARE_ERROR_LIMIT, TRUE, N_("This is more than any job may be."),
    N_("A bundle has up to 20,000 files of up to 256 MB.") },
  { WB_SHARE_ERROR_RATIO, TRUE, N_("The bundle unpacks to far more than a job can be."),
    N_("Do not unpack it by hand; it may be made to fill the disk. Nothing was taken from it.") },
  { WB_SHARE_ERROR_DAMAGED, TRUE, N_("The bundle is damaged, cut off or encrypted."),
    N_("Copy it once more, or ask the sender for it. Nothing was taken from it.") },
  { WB_SHARE_ERROR_STRANGER, TRUE, N_("The bundle has something in it that does not belong to a "
                                      "job."),
    N_("Ask the sender for a bundle as Wainbook writes it. Nothing was taken from it.") },
  { WB_SHARE_ERROR_SOURCE, TRUE, N_("A photo of the job cannot be packed or sent."),
    N_("Put its file back from a backup, or remove the photo from the job. Then try again.") },
  { WB_SHARE_ERROR_UNREACHABLE, TRUE, N_("The server cannot be reached."),
    N_("Check the connection to the network, and the server's address in its settings.") },
  { WB_SHARE_ERROR_TIMEOUT, TRUE, N_("The server does not answer in time."),
    N_("Try again later. If this comes back, ask whoever looks after the server.") },
  { WB_SHARE_ERROR_CERTIFICATE, TRUE,
    N_("The server's certificate does not prove that it is the right server."),
    N_("Do not go on. Ask whoever looks after the server for its address and for the file of its "
       "certificate authority, and compare both with its settings. Nothing was sent.") },
  { WB_SHARE_ERROR_HOST_KEY_UNKNOWN, TRUE, N_("Nobody has confirmed the server's key yet."),
    N_("Compare its fingerprint with the one that whoever looks after the server names, then "
       "confirm it by testing the server in its settings. Nothing was sent.") },
  { WB_SHARE_ERROR_HOST_KEY_CHANGED, TRUE, N_("The server has another key than was confirmed."),
    N_("Do not go on: it may be another computer in its place. Ask whoever looks after the server "
       "whether its key was renewed. Nothing was sent.") },
  { WB_SHARE_ERROR_LOGIN, TRUE, N_("The server does not accept this user name with this password "
                                   "or key."),
    N_("Correct them in the settings of the server.") },
  { WB_SHARE_ERROR_FORBIDDEN, TRUE, N_("The server does not allow this to its user."),
    N_("Ask whoever looks after the server to let the user read and write in its folder.") },
  { WB_SHARE_ERROR_NOT_FOUND, TRUE, N_("A file or folder is not on the server."),
    N_("Check the address in the settings of the server.") },
  { WB_SHARE_ERROR_EXISTS, TRUE, N_("There is a file of that name on the server already."),
    N_("It was left as it is.") },
  { WB_SHARE_ERROR_LOCKED, TRUE, N_("Somebody else is holding the file on the server."),
    N_("Wait a moment and try again.") },
  { WB_SHARE_ERROR_FULL, TRUE, N_("There is no room left on the server."),
    N_("Ask whoever looks after the server for more room, then try again.") },
  { WB_SHARE_ERROR_READ_ONLY, TRUE, N_("Nothing can be written on the server."),
    N_("Ask whoever looks after the server, or choose another folder there.") },
  { WB_SHARE_ERROR_SERVER, TRUE, N_("The server has a fault of its own."),
    N_("Try again later. If this comes back, tell whoever looks after the server.") },
  { WB_SHARE_ERROR_PROTOCOL, TRUE, N_("The server's answer makes no sense or was cut off."),
    N_("Try again. If this comes back, check the server's kind and address in its settings.") },
  { WB_SHARE_ERROR_CHANGED, FALSE, N_("Somebody else has published this job meanwhile."),
    N_("Fetch what was published and merge it with yours, then publish again.") },
  { WB_SHARE_ERROR_FORMAT, TRUE, N_("What lies in this folder of the server was not put there by "
                                    "this version of Wainbook."),
    N_("Update Wainbook on this computer, or choose another folder. Nothing was changed there.") },
  { WB_SHARE_ERROR_CLOCK, TRUE, N_("The server refuses the log-in because its clock and that of "
                                   "this computer differ too much."),
    N_("Set date, time and time zone of this computer right, then try again.") },
  { WB_SHARE_ERROR_LIBRARY, TRUE, N_("A library that this needs is not on this computer, or "
                                     "damaged."),
    N_("Install its package, or ask whoever looks after the computer, then try again.") },
};

/* One row a code of our own domains. */
G_STATIC_ASSERT (G_N_ELEMENTS (core_words) == WB_CORE_ERROR_CATALOG + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (store_words) == WB_STORE_ERROR_INTERNAL + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (picture_words) == WB_PICTURE_ERROR_TOO_MANY + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (share_words) == WB_SHARE_ERROR_LAST + 1);

static const ErrorWords paper_words[] = {
  { WB_PAPER_ERROR_WRITE, TRUE, N_("The document was not taken."),
    N_("Look whether there is room where it should go.") },
  { WB_PAPER_ERROR_DRAW, TRUE, N_("The document cannot be made."),
    N_("Look whether this computer has any font.") },
  { WB_PAPER_ERROR_STOPPED, FALSE, N_("The document was not finished."),
    N_("Ask for it again.") },
};
G_STATIC_ASSERT (G_N_ELEMENTS (paper_words) == WB_PAPER_ERROR_LAST + 1);

static const ErrorWords io_words[] = {
  { G_IO_ERROR_CANCELLED, FALSE, N_("This was stopped before it was done."), NULL },
  { G_IO_ERROR_NOT_FOUND, TRUE, N_("The file or folder is not there."),
    N_("Check its name and place.") },
  { G_IO_ERROR_EXISTS, TRUE, N_("A file of that name is already there."),
    N_("Choose another name.") },
  { G_IO_ERROR_PERMISSION_DENIED, TRUE,
    N_("This computer does not let you use the file or folder."),
    N_("Choose another place, or ask whoever looks after the computer.") },
  { G_IO_ERROR_IS_DIRECTORY, TRUE, N_("This is a folder, not a file."),
    N_("Choose a file.") },
  { G_IO_ERROR_NOT_DIRECTORY, TRUE, N_("A part of the file's place is not a folder."),
    N_("Check its name and place.") },
  { G_IO_ERROR_NO_SPACE, FALSE, N_("There is no room left on the disk."),
    N_("Free some room and try again.") },
  { G_IO_ERROR_READ_ONLY, TRUE, N_("The disk or folder can only be read."),
    N_("Choose another place.") },
  { G_IO_ERROR_INVALID_DATA, TRUE, NULL,
    N_("Correct the file and try again. Nothing was taken from it.") },
};

static const ErrorWords file_words[] = {
  { G_FILE_ERROR_NOENT, TRUE, N_("The file or folder is not there."),
    N_("Check its name and place.") },
  { G_FILE_ERROR_EXIST, TRUE, N_("A file of that name is already there."),
    N_("Choose another name.") },
  { G_FILE_ERROR_ACCES, TRUE, N_("This computer does not let you use the file or folder."),
    N_("Choose another place, or ask whoever looks after the computer.") },
  { G_FILE_ERROR_PERM, TRUE, N_("This computer does not let you use the file or folder."),
    N_("Choose another place, or ask whoever looks after the computer.") },
  { G_FILE_ERROR_ISDIR, TRUE, N_("This is a folder, not a file."),
    N_("Choose a file.") },
  { G_FILE_ERROR_NOSPC, FALSE, N_("There is no room left on the disk."),
    N_("Free some room and try again.") },
  { G_FILE_ERROR_ROFS, TRUE, N_("The disk or folder can only be read."),
    N_("Choose another place.") },
};

static const ErrorWords *
find_words (const ErrorWords *words,
            gsize             n_words,
            int               code)
{
  for (gsize i = 0; i < n_words; i++)
    {
      if (words[i].code == code)
        return &words[i];
    }

  return NULL;
}

static const ErrorWords *
words_of (const GError *error)
{
  if (error->domain == WB_CORE_ERROR)
    return find_words (core_words, G_N_ELEMENTS (core_words), error->code);

  if (error->domain == WB_STORE_ERROR)
    return find_words (store_words, G_N_ELEMENTS (store_words), error->code);

  if (error->domain == WB_PICTURE_ERROR)
    return find_words (picture_words, G_N_ELEMENTS (picture_words), error->code);

  if (error->domain == WB_PAPER_ERROR)
    return find_words (paper_words, G_N_ELEMENTS (paper_words), error->code);

  if (error->domain == WB_SHARE_ERROR)
    return find_words (share_words, G_N_ELEMENTS (share_words), error->code);

  if (error->domain == G_IO_ERROR)
    return find_words (io_words, G_N_ELEMENTS (io_words), error->code);

  if (error->domain == G_FILE_ERROR)
    return find_words (file_words, G_N_ELEMENTS (file_words), error->code);

  return NULL;
}

/* A place is a word with a sign in it, such as "pieces[12].weight: …". */
char *
wb_words_sentence (const char *message)
{
  g_autofree char *text = g_strstrip (g_strdup (message));
  const char *space = strpbrk (text, " \t\n");
  const char *place = strpbrk (text, ":[./_");
  gunichar first = g_utf8_get_char_validated (text, -1);
  GString *out;
  gunichar last;

  if (*text == '\0' || first == (gunichar) -1 || first == (gunichar) -2)
    return g_steal_pointer (&text);

  out = g_string_new (NULL);
  if (place != NULL && (space == NULL || place < space))
    {
      g_string_append (out, text);
    }
  else
    {
      g_string_append_unichar (out, g_unichar_toupper (first));
      g_string_append (out, g_utf8_next_char (text));
    }

  last = g_utf8_get_char (g_utf8_prev_char (out->str + out->len));
  if (!g_unichar_ispunct (last) || last == ')' || last == 0x201d || last == '"' || last == '\'')
    g_string_append_c (out, '.');

  return g_string_free (out, FALSE);
}

char *
wb_words_error (const GError *error)
{
  const ErrorWords *words;
  GString *out;

  g_return_val_if_fail (error != NULL, NULL);

  words = words_of (error);
  if (words == NULL)
    return wb_words_sentence (error->message);

  out = g_string_new (NULL);
  if (words->what != NULL)
    g_string_append (out, _(words->what));

  if (words->detail)
    {
      g_autofree char *sentence = wb_words_sentence (error->message);

      if (out->len > 0 && *sentence != '\0')
        g_string_append_c (out, ' ');
      g_string_append (out, sentence);
    }

  if (words->advice != NULL)
    {
      g_string_append_c (out, ' ');
      g_string_append (out, _(words->advice));
    }

  return g_string_free (out, FALSE);
}
