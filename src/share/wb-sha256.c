/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SHA-256 by the instructions that x86 processors have for it. Whether there are any is asked once
 * a hash; without them, and on other processors, GLib does the work. */
#include "config.h"

#include "share/wb-sha256.h"

#include <string.h>

#define BLOCK 64

struct _WbSha256
{
  GChecksum *plain;          /* (nullable): GLib does it */
  guint32    state[8];
  guint8     block[BLOCK];   /* the beginning of the next one */
  gsize      filled;
  guint64    total;
  char       digits[65];
};

#if defined (__x86_64__)

#include <cpuid.h>
#include <immintrin.h>

/* FIPS 180-4, 4.2.2. */
static const guint32 constants[64] = {
  0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
  0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
  0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
  0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
  0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
  0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
  0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
  0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
};

static gboolean
has_instructions (void)
{
  unsigned int a, b, c, d;

  if (__get_cpuid (1, &a, &b, &c, &d) == 0 || (c & bit_SSSE3) == 0 || (c & bit_SSE4_1) == 0)
    return FALSE;
  return __get_cpuid_count (7, 0, &a, &b, &c, &d) != 0 && (b & bit_SHA) != 0;
}

/* The instructions want the eight words as A B E F and C D G H, from the highest lane down, and
 * four words of the message at a time; each of them does two rounds. */
__attribute__ ((target ("sha,sse4.1,ssse3")))
static void
add_blocks (guint32      *state,
            const guint8 *bytes,
            gsize         n_blocks)
{
  const __m128i swap = _mm_set_epi64x (0x0c0d0e0f08090a0b, 0x0405060700010203);
  __m128i low = _mm_loadu_si128 ((const __m128i *) state);          /* D C B A */
  __m128i high = _mm_loadu_si128 ((const __m128i *) (state + 4));   /* H G F E */
  __m128i cdab = _mm_shuffle_epi32 (low, 0xb1), efgh = _mm_shuffle_epi32 (high, 0x1b);
  __m128i abef = _mm_alignr_epi8 (cdab, efgh, 8), cdgh = _mm_blend_epi16 (efgh, cdab, 0xf0);

  for (; n_blocks > 0; n_blocks--, bytes += BLOCK)
    {
      const __m128i abef_before = abef, cdgh_before = cdgh;
      __m128i words[4];

#pragma GCC unroll 16
      for (int i = 0; i < 16; i++)
        {
          __m128i *now = &words[i % 4];
          __m128i sum;

          if (i < 4)
            *now = _mm_shuffle_epi8 (_mm_loadu_si128 ((const __m128i *) (bytes + 16 * i)), swap);
          else
            {
              const __m128i last = words[(i + 3) % 4];

              sum = _mm_add_epi32 (_mm_sha256msg1_epu32 (*now, words[(i + 1) % 4]),
                                   _mm_alignr_epi8 (last, words[(i + 2) % 4], 4));
              *now = _mm_sha256msg2_epu32 (sum, last);
            }
          sum = _mm_add_epi32 (*now, _mm_loadu_si128 ((const __m128i *) (constants + 4 * i)));
          cdgh = _mm_sha256rnds2_epu32 (cdgh, abef, sum);
          abef = _mm_sha256rnds2_epu32 (abef, cdgh, _mm_shuffle_epi32 (sum, 0x0e));
        }
      abef = _mm_add_epi32 (abef, abef_before);
      cdgh = _mm_add_epi32 (cdgh, cdgh_before);
    }

  low = _mm_shuffle_epi32 (abef, 0x1b);    /* F E B A */
  high = _mm_shuffle_epi32 (cdgh, 0xb1);   /* D C H G */
  _mm_storeu_si128 ((__m128i *) state, _mm_blend_epi16 (low, high, 0xf0));
  _mm_storeu_si128 ((__m128i *) (state + 4), _mm_alignr_epi8 (high, low, 8));
}

#else

static gboolean
has_instructions (void)
{
  return FALSE;
}

static void
add_blocks (guint32      *state,
            const guint8 *bytes,
            gsize         n_blocks)
{
  g_assert_not_reached ();
}

#endif

/* --- the hash --------------------------------------------------------------------------------- */

WbSha256 *
wb_sha256_new_plain (void)
{
  WbSha256 *self = g_new0 (WbSha256, 1);

  self->plain = g_checksum_new (G_CHECKSUM_SHA256);
  return self;
}

WbSha256 *
wb_sha256_new (void)
{
  /* FIPS 180-4, 5.3.3. */
  static const guint32 start[8] = {
    0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19,
  };
  WbSha256 *self;

  if (!has_instructions ())
    return wb_sha256_new_plain ();
  self = g_new0 (WbSha256, 1);
  memcpy (self->state, start, sizeof start);
  return self;
}

void
wb_sha256_free (WbSha256 *self)
{
  g_clear_pointer (&self->plain, g_checksum_free);
  g_free (self);
}

/* Adds what completes the block that was begun. Returns: how much of @length that was. */
static gsize
fill_block (WbSha256     *self,
            const guint8 *bytes,
            gsize         length)
{
  gsize part = MIN (length, BLOCK - self->filled);

  memcpy (self->block + self->filled, bytes, part);
  self->filled += part;
  if (self->filled == BLOCK)
    {
      add_blocks (self->state, self->block, 1);
      self->filled = 0;
    }
  return part;
}

void
wb_sha256_update (WbSha256     *self,
                  const guint8 *bytes,
                  gsize         length)
{
  gsize part;

  if (self->plain != NULL)
    {
      g_checksum_update (self->plain, bytes, (gssize) length);
      return;
    }
  if (length == 0)
    return;
  self->total += length;
  if (self->filled > 0)
    {
      part = fill_block (self, bytes, length);
      bytes += part;
      length -= part;
    }
  if (length >= BLOCK)
    {
      add_blocks (self->state, bytes, length / BLOCK);
      bytes += length - length % BLOCK;
      length %= BLOCK;
    }
  if (length > 0)
    fill_block (self, bytes, length);
}

/* FIPS 180-4, 5.1.1: a bit, zeros, and the number of bits at the end of a block. */
static void
pad (WbSha256 *self)
{
  static const guint8 padding[BLOCK] = { 0x80 };
  guint64 bits = GUINT64_TO_BE (self->total * 8);
  gsize end = self->filled < BLOCK - sizeof bits ? BLOCK : 2 * BLOCK;
  gsize length = end - sizeof bits - self->filled;

  wb_sha256_update (self, padding, MIN (length, BLOCK));
  if (length > BLOCK)
    wb_sha256_update (self, padding + 1, length - BLOCK);
  wb_sha256_update (self, (const guint8 *) &bits, sizeof bits);
}

const char *
wb_sha256_finish (WbSha256 *self)
{
  if (self->plain != NULL)
    return g_checksum_get_string (self->plain);
  if (*self->digits == '\0')
    {
      pad (self);
      for (gsize i = 0; i < G_N_ELEMENTS (self->state); i++)
        g_snprintf (self->digits + 8 * i, 9, "%08x", self->state[i]);
    }
  return self->digits;
}
