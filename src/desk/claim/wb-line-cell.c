/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cell that refers to a claim line. Of which claim says the record itself. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-line-cell.h"

#include <glib/gi18n.h>

struct _WbLineCell
{
  WbTextCell parent_instance;
};

G_DEFINE_FINAL_TYPE (WbLineCell, wb_line_cell, WB_TYPE_TEXT_CELL)

static WbJob *
get_job (WbTextCell *self)
{
  g_autoptr (WbJobModel) model = NULL;

  g_object_get (self, "model", &model, NULL);
  return model != NULL ? wb_job_model_get_job (model) : NULL;
}

static char *
wb_line_cell_get_value_text (WbTextCell *self)
{
  WbJob *job = get_job (self);
  g_autofree char *id = wb_field_tie_get_text (wb_cell_get_tie (WB_CELL (self)));
  const WbClaimLine *line = job != NULL && *id != '\0'
                            ? wb_job_find (job, WB_KIND_CLAIM_LINE, id) : NULL;

  return line != NULL ? g_strdup_printf ("%" G_GINT64_FORMAT, line->number) : g_strdup ("");
}

/* The claim that the record belongs to. */
static const char *
get_claim (WbTextCell *self)
{
  const WbRecord *record = wb_field_tie_get_record (wb_cell_get_tie (WB_CELL (self)));
  const WbField *field = record != NULL ? wb_record_type_field (record->type, "claim") : NULL;

  return field != NULL ? G_STRUCT_MEMBER (const char *, record, field->offset) : NULL;
}

static const WbClaimLine *
find_line (WbTextCell *self,
           const char *text)
{
  WbJob *job = get_job (self);
  const char *claim = get_claim (self);
  guint64 number;

  if (job == NULL || !g_ascii_string_to_unsigned (text, 10, 1, G_MAXINT32, &number, NULL))
    return NULL;
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (line->number == (gint64) number && g_strcmp0 (line->claim, claim) == 0)
        return line;
    }
  return NULL;
}

static gboolean
wb_line_cell_take (WbTextCell *self,
                   const char *text)
{
  g_autofree char *typed = g_strstrip (g_strdup (text));
  const WbClaimLine *line = find_line (self, typed);
  g_autofree char *fault = NULL;

  if (*typed == '\0')
    return wb_cell_commit (WB_CELL (self), "");
  if (line != NULL)
    return wb_cell_commit (WB_CELL (self), line->record.id);

  fault = g_strdup_printf (_("The claim has no line “%s”. Type the number of a line, or leave the "
                             "cell empty for the whole claim."), typed);
  wb_cell_set_fault (WB_CELL (self), fault);
  return FALSE;
}

static void
wb_line_cell_class_init (WbLineCellClass *klass)
{
  WbTextCellClass *text_class = WB_TEXT_CELL_CLASS (klass);

  text_class->get_value_text = wb_line_cell_get_value_text;
  text_class->take = wb_line_cell_take;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
wb_line_cell_init (WbLineCell *self)
{
}

GtkWidget *
wb_line_cell_new (guint chars)
{
  WbTextCell *self = g_object_new (WB_TYPE_LINE_CELL, NULL);
  GtkWidget *entry = wb_text_cell_get_entry (self);

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), (int) chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), (int) chars);
  gtk_entry_set_alignment (GTK_ENTRY (entry), 1);
  gtk_widget_add_css_class (entry, "numeric");

  return GTK_WIDGET (self);
}
