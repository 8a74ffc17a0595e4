/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text set in lines: a few faces, how wide and high a text is in one of them, and the lines of it
 * drawn. Lengths are points. Inside the room only. */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  WB_FACE_TITLE,
  WB_FACE_PART,
  WB_FACE_SUBPART,
  WB_FACE_BODY,
  WB_FACE_CAUTION,
  WB_FACE_LABEL,
  WB_FACE_CELL,
  WB_FACE_HEAD,
  WB_FACE_TOTAL,
  WB_FACE_NOTE,
  WB_FACE_TYPED,
  WB_FACE_FOOT,
} WbFace;

#define WB_N_FACES (WB_FACE_FOOT + 1)

/** WbType: what sets text. For one thread. */
typedef struct _WbType WbType;

WbType *wb_type_new      (void) G_GNUC_WARN_UNUSED_RESULT;
void    wb_type_free     (WbType     *self);

/** Returns: the width of @text when no line is broken but where it says so. */
double  wb_type_natural  (WbType     *self,
                          WbFace      face,
                          const char *text);
/** Returns: the width of the longest word of @text. */
double  wb_type_longest  (WbType     *self,
                          WbFace      face,
                          const char *text);

/**
 * WbLine: one line of a text
 * @top, @bottom: from the top of the text
 */
typedef struct
{
  double top;
  double bottom;
} WbLine;

/** Returns: (transfer full) (element-type WbLine): the lines of @text in @width; at least one. */
GArray *wb_type_lines    (WbType     *self,
                          WbFace      face,
                          const char *text,
                          double      width) G_GNUC_WARN_UNUSED_RESULT;

/** Draws the lines of @text whose bottoms lie below @after and not below @until; the top of the
 * text would be at @x, @y. @right: set to the right */
void    wb_type_draw     (WbType     *self,
                          cairo_t    *cr,
                          WbFace      face,
                          const char *text,
                          double      x,
                          double      y,
                          double      width,
                          gboolean    right,
                          double      after,
                          double      until);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbType, wb_type_free)

G_END_DECLS
