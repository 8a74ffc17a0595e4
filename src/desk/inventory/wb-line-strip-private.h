/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-line-strip.c and wb-line-strip-repeat.c only. */
#pragma once

#include "desk/inventory/wb-line-strip.h"

#include "desk/inventory/wb-line-fields.h"
#include "desk/inventory/wb-line-texts.h"

G_BEGIN_DECLS

struct _WbLineStrip
{
  GtkWidget    parent_instance;

  WbJobModel  *model;
  GtkWidget   *heading;
  GtkWidget   *more;
  GtkWidget   *enter;
  WbLineFields *fields;

  char        *changed;        /* id of the piece under change; NULL for a new line */
  char       **base;           /* texts that Escape goes back to */
  char       **draft;          /* the new line put aside while another is changed, and its base */
  char       **draft_base;
  char       **last;           /* the line entered or stored last, for repeating it */
  char        *insisted;       /* lot and tag of which the clerk has seen the warning */
  char        *continues;      /* (nullable) id of the piece that the new line is a part more of */
  gboolean     applying;       /* the change that the model tells of is our own */
};

/** Shows the fields that few lines need when one of them has a text. */
void     wb_line_strip_update         (WbLineStrip    *self);

/** The keys that fill the strip from the line before. */
void     wb_line_strip_add_repeat_keys (GtkWidgetClass *widget_class);

G_END_DECLS
