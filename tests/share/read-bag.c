/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For tests in other languages: reads one bag after the other and prints a line for each.
 *
 *     read-bag SCRATCH SOURCE…
 *
 * "good N" with the number of payload files, then "  SHA256 SIZE PATH" for each of them; or
 * "CODE: MESSAGE", where CODE is the number of a WbShareError, "io" or "cancelled". */
#include "config.h"

#include "share/wb-bag.h"
#include "share/wb-share.h"

#include <stdio.h>

static void
print_payload (const WbBag *bag)
{
  GPtrArray *payload = wb_bag_get_payload (bag);

  printf ("good %u\n", payload->len);
  for (guint i = 0; i < payload->len; i++)
    {
      const WbBagFile *file = g_ptr_array_index (payload, i);

      printf ("  %s %" G_GINT64_FORMAT " %s\n", file->sha256, file->size, file->path);
    }
}

static void
print_fault (const GError *error)
{
  if (error->domain == WB_SHARE_ERROR)
    printf ("%d: %s\n", error->code, error->message);
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    printf ("cancelled: %s\n", error->message);
  else
    printf ("io: %s\n", error->message);
}

int
main (int    argc,
      char **argv)
{
  if (argc < 3)
    return 2;
  for (int i = 2; i < argc; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbBag) bag = wb_bag_read (argv[i], NULL, argv[1], NULL, NULL, NULL, &error);

      if (bag != NULL)
        print_payload (bag);
      else
        print_fault (error);
    }
  return 0;
}
