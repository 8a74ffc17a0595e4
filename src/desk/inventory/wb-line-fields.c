/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fields of a line in three rows that wrap. Keeps nothing that is not in the fields themselves,
 * but where the focus was last. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-line-fields.h"

#include "desk/widgets/wb-flow-layout.h"
#include "desk/inventory/wb-line-advice.h"
#include "desk/inventory/wb-line-catalog.h"
#include "desk/inventory/wb-line-entry.h"
#include "desk/inventory/wb-lot-choice.h"

#include <glib/gi18n.h>

/* Kinds of cartons that are offered at once. */
#define MOST_CARTONS 4

struct _WbLineFields
{
  GtkWidget     parent_instance;

  WbJobModel   *model;
  GtkWidget    *rows[3];
  WbLotChoice  *lot;
  WbLineEntry  *fields[WB_LINE_N_PARTS];
  WbLinePart    focused;
  WbWeightUnit  unit;
};

enum
{
  ACTIVATE,
  LOT_CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbLineFields, wb_line_fields, GTK_TYPE_WIDGET)

static gboolean
read_field (WbLineFields *self,
            WbLinePart    part,
            WbPiece      *scratch)
{
  const WbJob *job = wb_job_model_get_job (self->model);

  return wb_line_read (scratch, part, wb_line_entry_get_text (self->fields[part]),
                       wb_job_get_currency (job),
                       self->unit, NULL);
}

static WbCatalog *
get_catalog (WbLineFields *self)
{
  return wb_office_get_catalog (wb_job_model_get_office (self->model));
}

/* What the line is, as far as it is typed, so that its usual figures can be offered. */
static void
offer_usual (WbLineFields *self,
             WbLinePart    part)
{
  g_autoptr (WbPiece) scratch = wb_record_new (WB_KIND_PIECE, "scratch");

  if (self->fields[part] == NULL)
    return;
  read_field (self, WB_LINE_FORM, scratch);
  read_field (self, WB_LINE_CARTON, scratch);
  read_field (self, WB_LINE_DESCRIPTION, scratch);
  wb_line_catalog_advise (get_catalog (self), self->fields[part], scratch, self->unit);
}

static void
offer_cartons (WbLineFields *self,
               WbLineEntry  *field)
{
  const char *typed = wb_line_entry_get_text (field);
  char **texts = wb_line_suggest (wb_job_model_get_job (self->model), WB_LINE_CARTON, typed,
                                  MOST_CARTONS);

  wb_line_entry_take_suggestions (field, wb_line_catalog_complete (get_catalog (self), texts, typed,
                                                                   MOST_CARTONS));
}

static void
advise (WbLineFields *self,
        WbLineEntry  *field,
        gboolean      final)
{
  WbLinePart part = wb_line_entry_get_part (field);

  if (self->model == NULL)
    return;

  if (part == WB_LINE_CARTON && !final)
    offer_cartons (self, field);
  else
    wb_line_advise (field, wb_job_model_get_job (self->model), self->unit, final);
  if (part == WB_LINE_WEIGHT || part == WB_LINE_VOLUME)
    offer_usual (self, part);
}

/* A loose piece has no kind of carton: the field keeps its text and is passed over. */
static void
update_carton (WbLineFields *self)
{
  g_autoptr (WbPiece) scratch = wb_record_new (WB_KIND_PIECE, "scratch");
  gboolean loose = read_field (self, WB_LINE_FORM, scratch) && scratch->form == WB_FORM_LOOSE;

  gtk_widget_set_sensitive (GTK_WIDGET (self->fields[WB_LINE_CARTON]), !loose);
}

static void
lot_changed_cb (WbLineFields *self)
{
  g_signal_emit (self, signals[LOT_CHOSEN], 0);
}

static void
field_changed_cb (WbLineFields *self,
                  WbLineEntry  *field)
{
  WbLinePart part = wb_line_entry_get_part (field);

  advise (self, field, FALSE);
  if (self->model == NULL)
    return;

  if (part == WB_LINE_FORM)
    update_carton (self);
  if (part == WB_LINE_FORM || part == WB_LINE_CARTON || part == WB_LINE_DESCRIPTION)
    {
      offer_usual (self, WB_LINE_WEIGHT);
      offer_usual (self, WB_LINE_VOLUME);
    }
}

/* The value is shown in full once the field is done with: "Loose piece" for "l", "40 lb" for
 * "40". */
static void
field_left_cb (WbLineFields *self,
               WbLineEntry  *field)
{
  WbLinePart part = wb_line_entry_get_part (field);
  g_autoptr (WbPiece) scratch = wb_record_new (WB_KIND_PIECE, "scratch");
  g_autofree char *full = NULL;

  self->focused = part;
  if (self->model == NULL)
    return;

  if (read_field (self, part, scratch))
    {
      full = wb_line_show (scratch, part);
      wb_line_entry_set_text (field, full);
    }
  if (!wb_line_entry_has_error (field))
    advise (self, field, TRUE);
}

static void
field_activate_cb (WbLineFields *self,
                   WbLineEntry  *field)
{
  self->focused = wb_line_entry_get_part (field);
  g_signal_emit (self, signals[ACTIVATE], 0);
}

static void
add_field (WbLineFields *self,
           WbLinePart    part)
{
  WbLineEntry *field = WB_LINE_ENTRY (wb_line_entry_new (part));

  g_signal_connect_swapped (field, "changed", G_CALLBACK (field_changed_cb), self);
  g_signal_connect_swapped (field, "activate", G_CALLBACK (field_activate_cb), self);
  g_signal_connect_swapped (field, "left", G_CALLBACK (field_left_cb), self);
  self->fields[part] = field;
  gtk_box_append (GTK_BOX (self->rows[wb_line_field (part)->row]), GTK_WIDGET (field));
}

static GtkWidget *
make_row (void)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_set_layout_manager (row, wb_flow_layout_new (6, 2));
  return row;
}

static void
wb_line_fields_dispose (GObject *object)
{
  WbLineFields *self = WB_LINE_FIELDS (object);

  for (gsize i = 0; i < G_N_ELEMENTS (self->rows); i++)
    g_clear_pointer (&self->rows[i], gtk_widget_unparent);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_line_fields_parent_class)->dispose (object);
}

static void
wb_line_fields_class_init (WbLineFieldsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_line_fields_dispose;

  signals[ACTIVATE] = g_signal_new ("activate", WB_TYPE_LINE_FIELDS, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL,
                                    G_TYPE_NONE, 0);
  signals[LOT_CHOSEN] = g_signal_new ("lot-chosen", WB_TYPE_LINE_FIELDS, G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL,
                                      G_TYPE_NONE, 0);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
}

static void
wb_line_fields_init (WbLineFields *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 4);
  self->focused = WB_LINE_DESCRIPTION;
  self->unit = WB_WEIGHT_UNIT_LB;

  for (gsize i = 0; i < G_N_ELEMENTS (self->rows); i++)
    {
      self->rows[i] = make_row ();
      gtk_widget_set_parent (self->rows[i], GTK_WIDGET (self));
    }

  self->lot = WB_LOT_CHOICE (wb_lot_choice_new ());
  g_signal_connect_swapped (self->lot, "changed", G_CALLBACK (lot_changed_cb), self);
  gtk_box_append (GTK_BOX (self->rows[WB_LINE_ROW_STAYS]), GTK_WIDGET (self->lot));
  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    add_field (self, (WbLinePart) i);
}

GtkWidget *
wb_line_fields_new (void)
{
  return g_object_new (WB_TYPE_LINE_FIELDS, NULL);
}

void
wb_line_fields_set_model (WbLineFields *self,
                          WbJobModel   *model)
{
  g_return_if_fail (WB_IS_LINE_FIELDS (self));
  g_return_if_fail (self->model == NULL);

  self->model = g_object_ref (model);
  g_signal_handlers_block_by_func (self->lot, lot_changed_cb, self);
  wb_lot_choice_set_model (self->lot, model);
  g_signal_handlers_unblock_by_func (self->lot, lot_changed_cb, self);
}

char **
wb_line_fields_get_texts (WbLineFields *self)
{
  char **texts = g_new0 (char *, WB_LINE_N_TEXTS + 1);
  const char *lot = wb_lot_choice_get_lot (self->lot);

  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    texts[i] = g_strdup (wb_line_entry_get_text (self->fields[i]));
  texts[WB_LINE_LOT] = g_strdup (lot != NULL ? lot : "");
  return texts;
}

void
wb_line_fields_set_texts (WbLineFields  *self,
                          char         **texts)
{
  g_signal_handlers_block_by_func (self->lot, lot_changed_cb, self);
  wb_lot_choice_set_lot (self->lot, wb_line_texts_get_lot (texts));
  g_signal_handlers_unblock_by_func (self->lot, lot_changed_cb, self);

  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    wb_line_fields_set_text (self, (WbLinePart) i, texts[i]);
  update_carton (self);
}

const char *
wb_line_fields_get_text (WbLineFields *self,
                         WbLinePart    part)
{
  return wb_line_entry_get_text (self->fields[part]);
}

void
wb_line_fields_set_text (WbLineFields *self,
                         WbLinePart    part,
                         const char   *text)
{
  wb_line_entry_set_text (self->fields[part], text);
  advise (self, self->fields[part], TRUE);
}

void
wb_line_fields_choose_lot (WbLineFields *self,
                           const char   *lot)
{
  wb_lot_choice_set_lot (self->lot, lot);
}

void
wb_line_fields_set_unit (WbLineFields *self,
                         WbWeightUnit  unit)
{
  self->unit = unit;
}

void
wb_line_fields_show_error (WbLineFields *self,
                           WbLinePart    part,
                           const char   *sentence,
                           gboolean      focus)
{
  if (wb_line_field (part)->row == WB_LINE_ROW_MORE)
    wb_line_fields_show_more (self, TRUE);
  wb_line_entry_set_error (self->fields[part], sentence);
  if (focus)
    wb_line_entry_focus_end (self->fields[part]);
}

void
wb_line_fields_show_more (WbLineFields *self,
                          gboolean      more)
{
  gtk_widget_set_visible (self->rows[WB_LINE_ROW_MORE], more);
}

void
wb_line_fields_focus (WbLineFields *self,
                      WbLinePart    part)
{
  wb_line_entry_focus (self->fields[part]);
}

void
wb_line_fields_focus_at (WbLineFields *self,
                         WbLinePart    part,
                         int           position)
{
  wb_line_entry_focus_end (self->fields[part]);
  gtk_editable_set_position (GTK_EDITABLE (wb_line_entry_get_entry (self->fields[part])), position);
}

WbLinePart
wb_line_fields_get_focused (WbLineFields *self)
{
  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    if (wb_line_entry_is_focus (self->fields[i]))
      return (WbLinePart) i;
  return self->focused;
}
