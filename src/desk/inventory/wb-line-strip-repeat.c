/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Filling the strip from the line before: all of it, one field, or the next part of the same
 * article. Nothing is entered here. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-line-strip-private.h"

#include "desk/inventory/wb-line-parts.h"

/* Ctrl+D: the line before once more. A serial number and a listed value belong to one thing
 * only. */
static gboolean
repeat_line_cb (GtkWidget *widget,
                GVariant  *args,
                gpointer   data)
{
  WbLineStrip *self = WB_LINE_STRIP (widget);

  if (self->changed != NULL || self->last == NULL)
    {
      gtk_widget_error_bell (widget);
      return TRUE;
    }

  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    if (i != WB_LINE_TAG && i != WB_LINE_SERIAL_NUMBER && i != WB_LINE_LISTED_VALUE)
      wb_line_fields_set_text (self->fields, (WbLinePart) i, self->last[i]);
  wb_line_strip_update (self);
  wb_line_fields_focus (self->fields, WB_LINE_DESCRIPTION);
  return TRUE;
}

/* Ctrl+': the same as in the line before, for the field in hand. */
static gboolean
repeat_field_cb (GtkWidget *widget,
                 GVariant  *args,
                 gpointer   data)
{
  WbLineStrip *self = WB_LINE_STRIP (widget);
  WbLinePart part = wb_line_fields_get_focused (self->fields);

  if (self->last == NULL)
    gtk_widget_error_bell (widget);
  else
    wb_line_fields_set_text (self->fields, part, self->last[part]);
  return TRUE;
}

/* Ctrl+Shift+P: the next part of the line in hand, which is taken first. The insertion point stands
 * behind the name, so that what the part is can be added. */
static gboolean
next_part_cb (GtkWidget *widget,
              GVariant  *args,
              gpointer   data)
{
  WbLineStrip *self = WB_LINE_STRIP (widget);
  g_autofree char *id = wb_line_strip_settle (self);
  g_auto (GStrv) begun = NULL;
  g_auto (GStrv) texts = NULL;
  const WbJob *job;
  int position;

  if (id != NULL)
    wb_line_strip_go_on (self);
  begun = wb_line_fields_get_texts (self->fields);
  if (id == NULL || !wb_line_texts_equal (begun, self->base))
    {
      gtk_widget_error_bell (widget);
      return TRUE;
    }

  job = wb_job_model_get_job (self->model);
  texts = wb_line_next_part (job, wb_job_find (job, WB_KIND_PIECE, id), self->base, &position);
  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    wb_line_fields_set_text (self->fields, (WbLinePart) i, texts[i]);
  g_free (self->continues);
  self->continues = g_steal_pointer (&id);
  wb_line_strip_update (self);
  wb_line_fields_focus_at (self->fields, WB_LINE_DESCRIPTION, position);
  return TRUE;
}

void
wb_line_strip_add_repeat_keys (GtkWidgetClass *widget_class)
{
  gtk_widget_class_add_binding (widget_class, GDK_KEY_d, GDK_CONTROL_MASK, repeat_line_cb, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_P, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                next_part_cb, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_apostrophe, GDK_CONTROL_MASK, repeat_field_cb,
                                NULL);
}
