/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The faults of a table's cells. A plain list: there are few at a time. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-table-faults.h"

#include <glib/gi18n.h>

typedef struct
{
  char *id;
  guint column;
  char *text;
  char *message;
} Fault;

struct _WbTableFaults
{
  GPtrArray *list;   /* (element-type Fault) */
};

static void
fault_free (gpointer data)
{
  Fault *fault = data;

  g_free (fault->id);
  g_free (fault->text);
  g_free (fault->message);
  g_free (fault);
}

static guint
find_index (WbTableFaults *self,
            const char    *id,
            guint          column)
{
  guint i;

  for (i = 0; i < self->list->len; i++)
    {
      const Fault *fault = g_ptr_array_index (self->list, i);

      if (fault->column == column && g_strcmp0 (fault->id, id) == 0)
        break;
    }

  return i;
}

WbTableFaults *
wb_table_faults_new (void)
{
  WbTableFaults *self = g_new0 (WbTableFaults, 1);

  self->list = g_ptr_array_new_with_free_func (fault_free);
  return self;
}

void
wb_table_faults_free (WbTableFaults *self)
{
  if (self == NULL)
    return;

  g_ptr_array_unref (self->list);
  g_free (self);
}

void
wb_table_faults_set (WbTableFaults *self,
                     const char    *id,
                     guint          column,
                     const char    *text,
                     const char    *message)
{
  guint index = find_index (self, id, column);
  Fault *fault;

  if (index < self->list->len)
    g_ptr_array_remove_index (self->list, index);
  if (message == NULL)
    return;

  fault = g_new0 (Fault, 1);
  fault->id = g_strdup (id);
  fault->column = column;
  fault->text = g_strdup (text);
  fault->message = g_strdup (message);
  g_ptr_array_add (self->list, fault);
}

void
wb_table_faults_clear (WbTableFaults *self)
{
  g_ptr_array_set_size (self->list, 0);
}

gboolean
wb_table_faults_find (WbTableFaults  *self,
                      const char     *id,
                      guint           column,
                      const char    **text,
                      const char    **message)
{
  guint index = find_index (self, id, column);
  const Fault *fault;

  if (index == self->list->len)
    return FALSE;

  fault = g_ptr_array_index (self->list, index);
  *text = fault->text;
  *message = fault->message;
  return TRUE;
}

char *
wb_table_faults_words (WbTableFaults *self,
                       const char    *(*title_of) (guint    column,
                                                   gpointer data),
                       gpointer       data)
{
  GString *text;

  if (self->list->len == 0)
    return NULL;

  text = g_string_new (NULL);
  for (guint i = 0; i < self->list->len; i++)
    {
      const Fault *fault = g_ptr_array_index (self->list, i);

      if (text->len > 0)
        g_string_append_c (text, '\n');
      /* Translators: a column's heading, and what is wrong with what was typed there. */
      g_string_append_printf (text, _("%s: %s"), title_of (fault->column, data), fault->message);
    }

  return g_string_free (text, FALSE);
}
