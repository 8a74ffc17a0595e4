/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reasons of a reckoning, one behind the other in blocks of memory. A large claim has a million
 * of them, so each takes no more room than its inputs need, and none is ever moved. Blocks of large
 * claims are used again. What a reason says is no matter of this file. */
#include "core/wb-reckon-private.h"

/* With their heads. A claim of a few lines fits into the first block, a large one takes more and
 * larger ones. */
#define FIRST_SIZE 8192
#define LATER_SIZE 65536

/* What a claim of as many lines as a lot has tags takes. */
#define MOST_SPARE (48 * 1024 * 1024 / LATER_SIZE)

struct _WbReasonBlock
{
  WbReasonBlock *next;
  gsize          room_size;  /* bytes */
  gsize          used;       /* bytes of @room */
  gint32         room[];     /* WbReason, each aligned to four bytes */
};

G_STATIC_ASSERT (G_ALIGNOF (WbReason) == G_ALIGNOF (gint32));
G_STATIC_ASSERT (WB_N_TERMS_KEYS <= G_MAXINT8);   /* what a reason has for its key */

static inline gsize
size_of_reason (guint n_inputs)
{
  return sizeof (WbReason) + n_inputs * sizeof (WbFigure);
}

static inline gpointer
place_in_block (const WbReasonBlock *block,
                gsize                at)
{
  return (char *) block->room + at;
}

/* Later blocks that no reckoning holds at present. Given back to the system, their pages would have
 * to be asked for and cleared again for the next large claim, which takes longer than to reckon
 * it. */
static struct
{
  GMutex         lock;
  WbReasonBlock *first;
  guint          n_blocks;
} spare;

/* Returns: (nullable) (transfer full) */
static WbReasonBlock *
take_spare (void)
{
  WbReasonBlock *block;

  g_mutex_lock (&spare.lock);
  block = spare.first;
  if (block != NULL)
    {
      spare.first = block->next;
      spare.n_blocks--;
    }
  g_mutex_unlock (&spare.lock);
  return block;
}

/* Returns: whether it was kept */
static gboolean
keep_spare (WbReasonBlock *block)
{
  gboolean kept;

  g_mutex_lock (&spare.lock);
  kept = spare.n_blocks < MOST_SPARE;
  if (kept)
    {
      block->next = spare.first;
      spare.first = block;
      spare.n_blocks++;
    }
  g_mutex_unlock (&spare.lock);
  return kept;
}

static void
add_block (WbReasons *self)
{
  gboolean is_first = self->last == NULL;
  WbReasonBlock *block = is_first ? NULL : take_spare ();

  if (block == NULL)
    {
      gsize size = is_first ? FIRST_SIZE : LATER_SIZE;

      block = g_malloc (size);
      block->room_size = size - sizeof *block;
    }
  block->next = NULL;
  block->used = 0;
  if (is_first)
    self->first = block;
  else
    self->last->next = block;
  self->last = block;
}

WbReason *
wb_reasons_append (WbReasons *self,
                   guint      n_inputs)
{
  gsize size = size_of_reason (n_inputs);
  WbReason *reason;

  g_assert (n_inputs <= WB_REASON_MAX_INPUTS);

  if (self->last == NULL || self->last->used + size > self->last->room_size)
    add_block (self);
  reason = place_in_block (self->last, self->last->used);
  self->last->used += size;
  return reason;
}

void
wb_reasons_clear (WbReasons *self)
{
  WbReasonBlock *block = self->first;

  while (block != NULL)
    {
      WbReasonBlock *next = block->next;

      if (block == self->first || !keep_spare (block))
        g_free (block);
      block = next;
    }
  *self = (WbReasons) { NULL };
}

void
wb_reason_iter_init (WbReasonIter      *iter,
                     const WbReckoning *reckoning)
{
  *iter = (WbReasonIter) { reckoning->reasons.first, 0 };
}

const WbReason *
wb_reason_iter_next (WbReasonIter *iter)
{
  const WbReason *reason;

  if (iter->block != NULL && iter->at == iter->block->used)
    *iter = (WbReasonIter) { iter->block->next, 0 };
  if (iter->block == NULL)
    return NULL;
  reason = place_in_block (iter->block, iter->at);
  iter->at += size_of_reason (reason->n_inputs);
  return reason;
}
