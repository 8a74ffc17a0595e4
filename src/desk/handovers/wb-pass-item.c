/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The texts of one line, and nothing that changes: a changed line is another item. */
#include "config.h"

#include "desk/handovers/wb-pass-item.h"

struct _WbPassItem
{
  GObject  parent_instance;

  char    *piece;
  char    *tag;
  char    *what;
  char    *state;
};

G_DEFINE_FINAL_TYPE (WbPassItem, wb_pass_item, G_TYPE_OBJECT)

static void
wb_pass_item_finalize (GObject *object)
{
  WbPassItem *self = WB_PASS_ITEM (object);

  g_free (self->piece);
  g_free (self->tag);
  g_free (self->what);
  g_free (self->state);

  G_OBJECT_CLASS (wb_pass_item_parent_class)->finalize (object);
}

static void
wb_pass_item_class_init (WbPassItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_pass_item_finalize;
}

static void
wb_pass_item_init (WbPassItem *self)
{
}

WbPassItem *
wb_pass_item_new (const char *piece,
                  const char *tag,
                  const char *what,
                  const char *state)
{
  WbPassItem *self = g_object_new (WB_TYPE_PASS_ITEM, NULL);

  self->piece = g_strdup (piece);
  self->tag = g_strdup (tag);
  self->what = g_strdup (what);
  self->state = g_strdup (state);
  return self;
}

const char *
wb_pass_item_get_piece (WbPassItem *self)
{
  g_return_val_if_fail (WB_IS_PASS_ITEM (self), NULL);

  return self->piece;
}

const char *
wb_pass_item_get_tag (WbPassItem *self)
{
  g_return_val_if_fail (WB_IS_PASS_ITEM (self), NULL);

  return self->tag;
}

const char *
wb_pass_item_get_what (WbPassItem *self)
{
  g_return_val_if_fail (WB_IS_PASS_ITEM (self), NULL);

  return self->what;
}

const char *
wb_pass_item_get_state (WbPassItem *self)
{
  g_return_val_if_fail (WB_IS_PASS_ITEM (self), NULL);

  return self->state;
}

gboolean
wb_pass_item_equal (WbPassItem *self,
                    WbPassItem *other)
{
  return g_strcmp0 (self->piece, other->piece) == 0 && g_strcmp0 (self->tag, other->tag) == 0
         && g_strcmp0 (self->what, other->what) == 0 && g_strcmp0 (self->state, other->state) == 0;
}
