/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Holds which handover and which piece are looked at, makes the trail anew whenever the job
 * changes, and shows it to the parts of the page. Counting is in the count panel, what a person can
 * do with a handover in wb-handovers-page-actions.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/handovers/wb-handovers-page-private.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "core/wb-storage-watch.h"
#include "core/wb-tag-scan.h"
#include "desk/handovers/wb-handover-row.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-focus-within.h"
#include "desk/widgets/wb-one-stop.h"
#include "desk/widgets/wb-scanner.h"
#include "office/wb-words-trail.h"

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE_WITH_CODE (WbHandoversPage, wb_handovers_page, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (WB_TYPE_REVEALER,
                                                      wb_handovers_page_init_revealer))

WbJob *
wb_handovers_page_get_job (WbHandoversPage *self)
{
  return wb_job_model_get_job (self->model);
}

gint
wb_handovers_page_get_handover (WbHandoversPage *self)
{
  return wb_job_index (wb_handovers_page_get_job (self), WB_KIND_HANDOVER, self->handover);
}

gint
wb_handovers_page_get_piece (WbHandoversPage *self)
{
  return wb_job_index (wb_handovers_page_get_job (self), WB_KIND_PIECE, self->piece);
}

/* --- the fields of a handover ----------------------------------------------------------------- */

static void
make_fields (WbHandoversPage *self)
{
  static const char *const names[] = {
    "kind", "on", "place", "from_holder", "from_signed", "to_holder", "to_signed", "vehicle",
    "crew", "counted_by", "notes",
  };
  GtkWidget *group = adw_preferences_group_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    adw_preferences_group_add (ADW_PREFERENCES_GROUP (group),
                               wb_field_widget_new (self->model, WB_KIND_HANDOVER, self->handover,
                                                    names[i]));
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), _("This Handover"));
  gtk_box_append (GTK_BOX (self->fields_place), group);
  self->fields = group;
}

static void
show_fields (WbHandoversPage *self)
{
  if (self->fields != NULL && g_strcmp0 (self->fields_of, self->handover) == 0)
    return;

  if (self->fields != NULL)
    gtk_box_remove (GTK_BOX (self->fields_place), self->fields);
  self->fields = NULL;
  g_free (self->fields_of);
  self->fields_of = g_strdup (self->handover);
  if (self->handover != NULL)
    make_fields (self);
}

/* --- the list --------------------------------------------------------------------------------- */

static void
show_rows (WbHandoversPage *self,
           gint             handover)
{
  guint n = wb_trail_n_handovers (self->trail);
  GtkListBoxRow *row;

  for (guint i = 0; i < n; i++)
    {
      row = gtk_list_box_get_row_at_index (self->rows, (int) i);
      if (row == NULL)
        {
          gtk_list_box_append (self->rows, wb_handover_row_new ());
          row = gtk_list_box_get_row_at_index (self->rows, (int) i);
        }
      wb_handover_row_show (WB_HANDOVER_ROW (row), self->trail, i);
    }
  while ((row = gtk_list_box_get_row_at_index (self->rows, (int) n)) != NULL)
    gtk_list_box_remove (self->rows, GTK_WIDGET (row));

  row = handover >= 0 ? gtk_list_box_get_row_at_index (self->rows, handover) : NULL;
  if (row != NULL && row != gtk_list_box_get_selected_row (self->rows))
    gtk_list_box_select_row (self->rows, row);
}

/* --- the piece looked at ---------------------------------------------------------------------- */

static char *
describe_path (WbHandoversPage *self,
               guint            piece)
{
  g_autofree char *where = wb_words_whereabouts (self->trail, piece);
  GString *text = g_string_new (where);

  for (guint i = 0; i < wb_trail_n_handovers (self->trail); i++)
    {
      const WbHandover *record = wb_trail_handover (self->trail, i)->handover;
      g_autofree char *name = wb_words_handover (record);
      g_autofree char *pass = wb_words_pass (self->trail, i, piece);

      g_string_append_c (text, '\n');
      /* Translators: a handover, and sentences about what it says of a piece. */
      g_string_append_printf (text, _("%s: %s"), name, pass);
    }
  return g_string_free (text, FALSE);
}

static void
show_piece (WbHandoversPage *self,
            gint             handover,
            gint             piece)
{
  gtk_widget_set_visible (self->piece_box, piece >= 0);
  if (piece >= 0)
    {
      WbJob *job = wb_handovers_page_get_job (self);
      const WbPiece *record = wb_job_nth (job, WB_KIND_PIECE, (guint) piece);
      const char *what = record->description != NULL ? record->description : record->contents;
      g_autofree char *tag = wb_words_tag (job, record);
      /* Translators: the tag of a piece, and what it is. */
      g_autofree char *title = g_strdup_printf (_("%s, %s"), tag,
                                                what != NULL ? what : _("not described"));
      g_autofree char *path = describe_path (self, (guint) piece);
      gboolean counted = handover >= 0
                         && wb_trail_pass (self->trail, (guint) handover, (guint) piece)->state
                            == WB_PASS_COUNTED;
      gboolean open = handover >= 0
                      && wb_trail_handover (self->trail, (guint) handover)->handover->count
                         == WB_COUNT_UNDER_WAY;

      gtk_label_set_label (self->piece_title, title);
      gtk_label_set_label (self->piece_path, path);
      gtk_button_set_label (self->piece_button, counted ? _("Take Out of the Count")
                                                        : _("Count This Piece"));
      gtk_widget_set_visible (GTK_WIDGET (self->piece_button), open);
    }
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
show_storage (WbHandoversPage *self)
{
  WbStorageWatch watch;
  GDate today;
  g_autofree char *words = NULL;
  g_autoptr (GError) error = NULL;

  wb_office_today (&today);
  if (wb_storage_watch (wb_handovers_page_get_job (self), &today, &watch, &error))
    words = wb_words_storage (&watch);
  else
    words = wb_words_error (error);

  gtk_label_set_label (self->storage, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->storage), words != NULL);
  if (error != NULL || wb_storage_watch_is_due (&watch))
    gtk_widget_add_css_class (GTK_WIDGET (self->storage), "warning");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->storage), "warning");
}

static void
show_ribbon (WbHandoversPage *self)
{
  GDate today;

  wb_office_today (&today);
  wb_trail_ribbon_show (self->ribbon, self->trail, wb_handovers_page_get_handover (self),
                        wb_handovers_page_get_piece (self), &today);
}

/* The handover looked at is still there, or the last one is looked at. */
static void
keep_handover (WbHandoversPage *self)
{
  guint n = wb_trail_n_handovers (self->trail);

  if (wb_handovers_page_get_handover (self) >= 0)
    return;

  g_free (self->handover);
  self->handover = n > 0 ? g_strdup (wb_trail_handover (self->trail, n - 1)->handover->record.id)
                         : NULL;
}

static void
show_parts (WbHandoversPage *self)
{
  gint handover, piece;

  keep_handover (self);
  handover = wb_handovers_page_get_handover (self);
  piece = wb_handovers_page_get_piece (self);

  gtk_widget_set_visible (GTK_WIDGET (self->ribbon), handover >= 0);
  gtk_widget_set_visible (GTK_WIDGET (self->panel), handover >= 0);
  gtk_widget_set_sensitive (self->menu_button, handover >= 0);
  if (handover >= 0)
    wb_count_panel_show (self->panel, self->model, self->trail, (guint) handover);
  show_ribbon (self);
  show_rows (self, handover);
  show_fields (self);
  show_piece (self, handover, piece);
}

/* At once and not in the next frame: what is typed next is read against it. */
static void
update (WbHandoversPage *self)
{
  g_autoptr (WbTrail) before = g_steal_pointer (&self->trail);

  self->trail = wb_trail_new (wb_handovers_page_get_job (self));
  show_parts (self);
  show_storage (self);
}

static void
job_changed_cb (WbHandoversPage *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    update (self);
  else
    g_object_set_data (G_OBJECT (self), "stale", GINT_TO_POINTER (TRUE));
}

static void
wb_handovers_page_map (GtkWidget *widget)
{
  if (g_object_get_data (G_OBJECT (widget), "stale") != NULL)
    {
      g_object_set_data (G_OBJECT (widget), "stale", NULL);
      update (WB_HANDOVERS_PAGE (widget));
    }

  GTK_WIDGET_CLASS (wb_handovers_page_parent_class)->map (widget);
}

/* --- choosing --------------------------------------------------------------------------------- */

void
wb_handovers_page_choose (WbHandoversPage *self,
                          const char      *id)
{
  if (g_strcmp0 (self->handover, id) == 0)
    return;

  g_free (self->handover);
  self->handover = g_strdup (id);
  show_parts (self);
}

static void
handover_chosen_cb (WbHandoversPage *self,
                    guint            place)
{
  if (place < wb_trail_n_handovers (self->trail))
    wb_handovers_page_choose (self, wb_trail_handover (self->trail, place)->handover->record.id);
}

static void
row_selected_cb (WbHandoversPage *self,
                 GtkListBoxRow   *row)
{
  if (row != NULL && self->trail != NULL)
    handover_chosen_cb (self, (guint) gtk_list_box_row_get_index (row));
}

void
wb_handovers_page_look_at_piece (WbHandoversPage *self,
                                 const char      *piece)
{
  if (g_strcmp0 (self->piece, piece) != 0)
    {
      g_free (self->piece);
      self->piece = g_strdup (piece);
    }

  show_ribbon (self);
  show_piece (self, wb_handovers_page_get_handover (self), wb_handovers_page_get_piece (self));
}

/* --- scanning --------------------------------------------------------------------------------- */

/* In a field a bare number is what the field is for; the text of a printed tag is not. */
static gboolean
is_tag (GtkWidget  *widget,
        const char *text)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  g_autoptr (WbTagScan) scan = wb_tag_scan_parse (text, NULL);

  return scan != NULL && WB_HANDOVERS_PAGE (widget)->handover != NULL
         && (scan->form == WB_TAG_SCAN_NAMED || focus == NULL || !GTK_IS_EDITABLE (focus));
}

static void
scanned (GtkWidget  *widget,
         const char *text)
{
  wb_count_panel_count (WB_HANDOVERS_PAGE (widget)->panel, text);
}

/* --- widget ----------------------------------------------------------------------------------- */

/* Whoever comes here counts; without a handover the first is to be added. */
static gboolean
wb_handovers_page_grab_focus (GtkWidget *widget)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (widget);

  if (self->handover == NULL)
    return gtk_widget_grab_focus (self->add_button);

  wb_count_panel_focus_tags (self->panel);
  return TRUE;
}

static void
set_model (WbHandoversPage *self,
           WbJobModel      *model)
{
  if (model == NULL)
    return;

  self->model = g_object_ref (model);
  g_signal_connect_object (model, "notify::job", G_CALLBACK (job_changed_cb), self,
                           G_CONNECT_SWAPPED);
  update (self);
}

static void
wb_handovers_page_get_property (GObject    *object,
                                guint       prop_id,
                                GValue     *value,
                                GParamSpec *pspec)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_handovers_page_set_property (GObject      *object,
                                guint         prop_id,
                                const GValue *value,
                                GParamSpec   *pspec)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (self, g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_handovers_page_dispose (GObject *object)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (object);

  g_clear_pointer (&self->content, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_HANDOVERS_PAGE);
  g_clear_object (&self->model);
  g_clear_pointer (&self->trail, wb_trail_free);

  G_OBJECT_CLASS (wb_handovers_page_parent_class)->dispose (object);
}

static void
wb_handovers_page_finalize (GObject *object)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (object);

  g_free (self->handover);
  g_free (self->fields_of);
  g_free (self->piece);

  G_OBJECT_CLASS (wb_handovers_page_parent_class)->finalize (object);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/handovers/wb-handovers-page.ui");
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, content);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, storage);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, ribbon);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, piece_box);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, piece_title);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, piece_button);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, piece_path);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, panel);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, add_button);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, menu_button);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, rows);
  gtk_widget_class_bind_template_child (widget_class, WbHandoversPage, fields_place);
  gtk_widget_class_bind_template_callback (widget_class, handover_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, wb_handovers_page_look_at_piece);
}

static void
wb_handovers_page_class_init (WbHandoversPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_handovers_page_get_property;
  object_class->set_property = wb_handovers_page_set_property;
  object_class->dispose = wb_handovers_page_dispose;
  object_class->finalize = wb_handovers_page_finalize;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_handovers_page_grab_focus;
  widget_class->map = wb_handovers_page_map;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_COUNT_PANEL);
  g_type_ensure (WB_TYPE_ONE_STOP);
  g_type_ensure (WB_TYPE_TRAIL_RIBBON);
  wb_handovers_page_install_actions (widget_class);
  bind_template (widget_class);
}

static void
wb_handovers_page_init (WbHandoversPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  wb_handovers_page_add_row_keys (self);
  wb_scanner_watch (GTK_WIDGET (self), is_tag, scanned);
}

GtkWidget *
wb_handovers_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_HANDOVERS_PAGE, "model", model, NULL);
}
