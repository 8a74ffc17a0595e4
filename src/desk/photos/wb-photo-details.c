/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows for many photos: each shows what all of them have in common, and sets it for all. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-details.h"

#include "desk/photos/wb-photo-deeds.h"
#include "desk/widgets/wb-typed-row.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-photo-pictures.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>
#include <string.h>

struct _WbPhotoDetails
{
  GtkWidget       parent_instance;

  GtkWidget      *box;
  GtkWidget      *hint;        /* while nothing is selected */
  GtkWidget      *buttons;
  GtkWidget      *group;       /* AdwPreferencesGroup */
  WbTypedRow     *piece;
  AdwComboRow    *moment;
  AdwComboRow    *handover;
  WbTypedRow     *caption;
  GtkLabel       *fault;
  GtkGrid        *facts;

  WbJobModel     *model;
  WbPhotoShelf   *shelf;
  GPtrArray      *ids;
  GPtrArray      *handovers;   /* ids of those in the list, after “none” */
};

G_DEFINE_FINAL_TYPE (WbPhotoDetails, wb_photo_details, GTK_TYPE_WIDGET)

/* --- setting ---------------------------------------------------------------------------------- */

static gboolean
set_field (WbPhotoDetails  *self,
           const char      *field,
           const char      *text,
           const char      *deed,
           GError         **error)
{
  g_autoptr (WbJob) job = wb_photos_set (wb_job_model_get_job (self->model), self->ids, field, text,
                                         error);

  if (job == NULL)
    return FALSE;
  wb_job_model_apply (self->model, job, deed);
  return TRUE;
}

static gboolean
set_piece (const char  *text,
           gpointer     data,
           GError     **error)
{
  return set_field (data, "piece", text, _("Assign piece to photos"), error);
}

static gboolean
set_caption (const char  *text,
             gpointer     data,
             GError     **error)
{
  return set_field (data, "caption", text, _("Change caption"), error);
}

static void
moment_cb (WbPhotoDetails *self)
{
  guint i = adw_combo_row_get_selected (self->moment);
  gboolean same;
  g_autofree char *held = wb_photos_get (wb_job_model_get_job (self->model), self->ids, "moment",
                                         &same);

  if (i >= wb_moments.n_values || self->ids->len == 0 ||
      (same && strcmp (held, wb_moments.values[i].nick) == 0))
    return;
  set_field (self, "moment", wb_moments.values[i].nick, _("Set moment of photos"), NULL);
}

static void
handover_cb (WbPhotoDetails *self)
{
  guint i = adw_combo_row_get_selected (self->handover);
  const char *id = i > 0 && i <= self->handovers->len ? g_ptr_array_index (self->handovers, i - 1)
                                                      : "";
  gboolean same;
  g_autofree char *held = wb_photos_get (wb_job_model_get_job (self->model), self->ids, "handover",
                                         &same);

  if (i == GTK_INVALID_LIST_POSITION || self->ids->len == 0 || (same && strcmp (held, id) == 0))
    return;
  set_field (self, "handover", id, _("Set handover of photos"), NULL);
}

/* --- showing ---------------------------------------------------------------------------------- */

static char *
handover_words (const WbHandover *handover)
{
  g_autofree char *on = wb_words_date (&handover->on);
  const char *kind = wb_words_enum (&wb_handover_kinds, (int) handover->kind);

  return wb_date_is_set (&handover->on) ? g_strdup_printf (_("%s, %s"), kind, on) : g_strdup (kind);
}

/* Made anew only when it changed, so that the list does not jump while it is open. */
static void
fill_handovers (WbPhotoDetails *self)
{
  WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  GListModel *old = adw_combo_row_get_model (self->handover);
  gboolean changed;

  gtk_string_list_append (words, _("None"));
  g_ptr_array_set_size (self->handovers, 0);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_HANDOVER); i++)
    {
      const WbHandover *handover = wb_job_nth (job, WB_KIND_HANDOVER, i);
      g_autofree char *text = handover_words (handover);

      gtk_string_list_append (words, text);
      g_ptr_array_add (self->handovers, g_strdup (handover->record.id));
    }

  changed = old == NULL || g_list_model_get_n_items (old)
                           != g_list_model_get_n_items (G_LIST_MODEL (words));
  for (guint i = 0; !changed && i < g_list_model_get_n_items (old); i++)
    changed = strcmp (gtk_string_list_get_string (GTK_STRING_LIST (old), i),
                      gtk_string_list_get_string (words, i)) != 0;
  if (!changed)
    return;

  g_signal_handlers_block_by_func (self->handover, handover_cb, self);
  adw_combo_row_set_model (self->handover, G_LIST_MODEL (words));
  g_signal_handlers_unblock_by_func (self->handover, handover_cb, self);
}

static void
select_row (WbPhotoDetails *self,
            AdwComboRow    *row,
            gpointer        callback,
            guint           position)
{
  if (adw_combo_row_get_selected (row) == position)
    return;
  g_signal_handlers_block_matched (row, G_SIGNAL_MATCH_FUNC | G_SIGNAL_MATCH_DATA, 0, 0, NULL,
                                   callback, self);
  adw_combo_row_set_selected (row, position);
  g_signal_handlers_unblock_matched (row, G_SIGNAL_MATCH_FUNC | G_SIGNAL_MATCH_DATA, 0, 0, NULL,
                                     callback, self);
}

static void
show_choices (WbPhotoDetails *self,
              WbJob          *job)
{
  gboolean same;
  g_autofree char *moment = wb_photos_get (job, self->ids, "moment", &same);
  guint position = GTK_INVALID_LIST_POSITION;
  g_autofree char *handover = NULL;

  for (guint i = 0; same && i < wb_moments.n_values; i++)
    if (strcmp (wb_moments.values[i].nick, moment) == 0)
      position = i;
  select_row (self, self->moment, moment_cb, position);

  handover = wb_photos_get (job, self->ids, "handover", &same);
  position = same ? 0 : GTK_INVALID_LIST_POSITION;
  for (guint i = 0; i < self->handovers->len; i++)
    if (strcmp (g_ptr_array_index (self->handovers, i), handover) == 0)
      position = i + 1;
  select_row (self, self->handover, handover_cb, position);
}

static void
show_typed (WbPhotoDetails *self,
            WbJob          *job,
            WbTypedRow     *row,
            const char     *field)
{
  gboolean same;
  g_autofree char *text = wb_photos_get (job, self->ids, field, &same);

  wb_typed_row_show (row, text);
  wb_typed_row_set_hint (row, same ? NULL : _("They differ; what you type is set for all."));
}

static void
add_fact (WbPhotoDetails *self,
          int            *row,
          const char     *name,
          const char     *value)
{
  GtkWidget *label, *text;

  if (value == NULL || *value == '\0')
    return;
  label = gtk_label_new (name);
  text = gtk_label_new (value);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "dim-label");
  gtk_label_set_xalign (GTK_LABEL (text), 0);
  gtk_label_set_wrap (GTK_LABEL (text), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (text), PANGO_WRAP_WORD_CHAR);
  gtk_widget_set_hexpand (text, TRUE);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (text), GTK_ACCESSIBLE_RELATION_LABELLED_BY, label,
                                  NULL, -1);
  gtk_grid_attach (self->facts, label, 0, *row, 1, 1);
  gtk_grid_attach (self->facts, text, 1, *row, 1, 1);
  *row += 1;
}

static void
show_facts (WbPhotoDetails *self,
            const WbPhoto  *photo)
{
  GtkWidget *child;
  g_autofree char *taken = NULL, *imported = NULL, *size = NULL, *bytes = NULL;
  int row = 0;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->facts))) != NULL)
    gtk_grid_remove (self->facts, child);
  if (photo == NULL)
    return;

  taken = wb_words_photo_taken (photo);
  imported = wb_words_photo_imported (photo);
  bytes = photo->size != WB_INTEGER_UNSET ? g_format_size ((guint64) photo->size) : NULL;
  if (photo->width != WB_INTEGER_UNSET && photo->height != WB_INTEGER_UNSET)
    size = g_strdup_printf ("%" G_GINT64_FORMAT " × %" G_GINT64_FORMAT, photo->width,
                            photo->height);
  add_fact (self, &row, _("File"), photo->name);
  /* Translators: when a photo was taken. */
  add_fact (self, &row, _("Taken"), taken);
  add_fact (self, &row, _("Taken in"), imported);
  add_fact (self, &row, _("Camera"), photo->camera);
  add_fact (self, &row, _("Pixels"), size);
  add_fact (self, &row, _("Size"), bytes);
}

void
wb_photo_details_show (WbPhotoDetails *self,
                       GPtrArray      *ids)
{
  WbJob *job = wb_job_model_get_job (self->model);
  const WbPhoto *only;
  const char *fault;
  g_autofree char *title = NULL, *markup = NULL;

  g_return_if_fail (WB_IS_PHOTO_DETAILS (self));

  if (ids != self->ids)
    {
      g_ptr_array_set_size (self->ids, 0);
      for (guint i = 0; i < ids->len; i++)
        g_ptr_array_add (self->ids, g_strdup (g_ptr_array_index (ids, i)));
    }

  only = self->ids->len == 1 ? wb_job_find (job, WB_KIND_PHOTO, g_ptr_array_index (self->ids, 0))
                             : NULL;
  title = only != NULL ? wb_photos_title (only)
          : g_strdup_printf (ngettext ("%u photo selected", "%u photos selected", self->ids->len),
                             self->ids->len);
  fault = only != NULL ? wb_photo_shelf_get_fault (self->shelf, only) : NULL;
  markup = g_markup_escape_text (title, -1);
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (self->group), markup);
  gtk_widget_set_visible (self->group, self->ids->len > 0);
  gtk_widget_set_visible (self->buttons, self->ids->len > 0);
  gtk_widget_set_visible (self->hint, self->ids->len == 0);
  gtk_label_set_label (self->fault, fault != NULL ? fault : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), fault != NULL);

  fill_handovers (self);
  show_typed (self, job, self->piece, "piece");
  show_typed (self, job, self->caption, "caption");
  show_choices (self, job);
  show_facts (self, only);
}

void
wb_photo_details_focus (WbPhotoDetails *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->piece));
}

/* --- making ----------------------------------------------------------------------------------- */

static void
wb_photo_details_dispose (GObject *object)
{
  WbPhotoDetails *self = WB_PHOTO_DETAILS (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->shelf);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_photo_details_parent_class)->dispose (object);
}

static void
wb_photo_details_finalize (GObject *object)
{
  WbPhotoDetails *self = WB_PHOTO_DETAILS (object);

  g_ptr_array_unref (self->ids);
  g_ptr_array_unref (self->handovers);

  G_OBJECT_CLASS (wb_photo_details_parent_class)->finalize (object);
}

static void
wb_photo_details_class_init (WbPhotoDetailsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_photo_details_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_photo_details_finalize;
  widget_class->focus = wb_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static AdwComboRow *
add_choice (WbPhotoDetails *self,
            const char     *title,
            GCallback       callback)
{
  GtkWidget *row = adw_combo_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  g_signal_connect_swapped (row, "notify::selected", callback, self);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->group), row);
  return ADW_COMBO_ROW (row);
}

static void
add_button (GtkBox     *box,
            const char *label,
            const char *action)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (box, button);
}

static void
add_rows (WbPhotoDetails *self)
{
  g_autoptr (GtkStringList) moments = gtk_string_list_new (NULL);

  for (guint i = 0; i < wb_moments.n_values; i++)
    gtk_string_list_append (moments, wb_moments.values[i].value == WB_MOMENT_NONE ? _("None")
                                     : wb_words_enum (&wb_moments, wb_moments.values[i].value));

  self->piece = WB_TYPED_ROW (wb_typed_row_new (_("Tag of the piece"), set_piece, self));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->group), GTK_WIDGET (self->piece));
  /* Translators: when in the move a photo was taken, such as “At origin”. */
  self->moment = add_choice (self, _("Moment"), G_CALLBACK (moment_cb));
  g_signal_handlers_block_by_func (self->moment, moment_cb, self);
  adw_combo_row_set_model (self->moment, G_LIST_MODEL (moments));
  g_signal_handlers_unblock_by_func (self->moment, moment_cb, self);
  self->handover = add_choice (self, _("Handover"), G_CALLBACK (handover_cb));
  self->caption = WB_TYPED_ROW (wb_typed_row_new (_("Caption"), set_caption, self));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->group), GTK_WIDGET (self->caption));
}

static void
build (WbPhotoDetails *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->hint = gtk_label_new (_("Select photos to say which piece they show, and when. Shift and "
                                "the arrow keys select several, Ctrl+A all of them."));
  gtk_label_set_wrap (GTK_LABEL (self->hint), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->hint), 0);
  gtk_widget_add_css_class (self->hint, "dim-label");
  gtk_box_append (GTK_BOX (self->box), self->hint);
  self->group = adw_preferences_group_new ();
  gtk_box_append (GTK_BOX (self->box), self->group);
  add_rows (self);

  self->fault = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (self->fault, TRUE);
  gtk_label_set_xalign (self->fault, 0);
  gtk_widget_add_css_class (GTK_WIDGET (self->fault), "warning");
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->fault));

  self->buttons = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  add_button (GTK_BOX (self->buttons), _("_Open and Pin"), "photos.open");
  add_button (GTK_BOX (self->buttons), _("Co_mpare Origin and Delivery"), "photos.compare");
  add_button (GTK_BOX (self->buttons), _("_Remove from Job"), "photos.remove");
  gtk_box_append (GTK_BOX (self->box), self->buttons);

  self->facts = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_column_spacing (self->facts, 12);
  gtk_grid_set_row_spacing (self->facts, 6);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->facts));
}

static void
wb_photo_details_init (WbPhotoDetails *self)
{
  self->ids = g_ptr_array_new_with_free_func (g_free);
  self->handovers = g_ptr_array_new_with_free_func (g_free);
}

GtkWidget *
wb_photo_details_new (WbJobModel   *model,
                      WbPhotoShelf *shelf)
{
  WbPhotoDetails *self = g_object_new (WB_TYPE_PHOTO_DETAILS, NULL);

  self->model = g_object_ref (model);
  self->shelf = g_object_ref (shelf);
  build (self);
  wb_photo_details_show (self, self->ids);
  return GTK_WIDGET (self);
}
