/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reasons of a reckoning, one behind the other in blocks of memory. A large claim has a million
 * of them, so each takes no more room than its inputs need, and none is ever moved. What a reason
 * says is no matter of this file. */
#include "core/wb-reckon-private.h"

/* With its head; a claim of a few lines fits into one block. */
#define BLOCK_SIZE 8192
#define BLOCK_ROOM (BLOCK_SIZE - sizeof (WbReasonBlock))

struct _WbReasonBlock
{
  WbReasonBlock *next;
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

static void
add_block (WbReasons *self)
{
  WbReasonBlock *block = g_malloc (BLOCK_SIZE);

  block->next = NULL;
  block->used = 0;
  if (self->last == NULL)
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

  if (self->last == NULL || self->last->used + size > BLOCK_ROOM)
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
