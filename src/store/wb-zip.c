/* SPDX-License-Identifier: GPL-3.0-or-later */
/* zlib through GIO's converters: what history and kept documents share. */
#include "config.h"

#include "store/wb-zip.h"

/* An import names every field of every piece: packed it takes a fifteenth of the room. */
#define PACKING_LEVEL 3

#define STEP 65536

static GInputStream *
converted (GConverter    *converter,
           gconstpointer  bytes,
           gsize          length)
{
  g_autoptr (GInputStream) source = g_memory_input_stream_new_from_data (bytes, (gssize) length,
                                                                         NULL);

  return g_converter_input_stream_new (source, converter);
}

/* Returns: NULL when the stream fails or gives more than @most. */
static GBytes *
read_whole (GInputStream *stream,
            gsize         most)
{
  g_autoptr (GByteArray) all = g_byte_array_new ();
  guint8 step[STEP];
  gssize n;

  while ((n = g_input_stream_read (stream, step, sizeof step, NULL, NULL)) > 0)
    {
      if (most - all->len < (gsize) n)
        return NULL;
      g_byte_array_append (all, step, (guint) n);
    }
  return n == 0 ? g_byte_array_free_to_bytes (g_steal_pointer (&all)) : NULL;
}

GBytes *
wb_zip_pack (GBytes *bytes)
{
  g_autoptr (GZlibCompressor) compressor = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_ZLIB,
                                                                  PACKING_LEVEL);
  gsize length;
  gconstpointer data = g_bytes_get_data (bytes, &length);
  g_autoptr (GInputStream) stream = converted (G_CONVERTER (compressor), data, length);
  GBytes *packed = read_whole (stream, G_MAXUINT);

  g_assert (packed != NULL);
  return packed;
}

GBytes *
wb_zip_unpack (gconstpointer bytes,
           gsize         length,
           gsize         most)
{
  g_autoptr (GZlibDecompressor) decompressor =
    g_zlib_decompressor_new (G_ZLIB_COMPRESSOR_FORMAT_ZLIB);
  g_autoptr (GInputStream) stream = converted (G_CONVERTER (decompressor), bytes, length);

  return read_whole (stream, most);
}
