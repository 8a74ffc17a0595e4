/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tag finds the photos of its piece, other words those whose caption or name has them. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-filter.h"

#include "core/wb-count-entry.h"
#include "core/wb-photo.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <string.h>

struct _WbPhotoFilter
{
  GtkWidget    parent_instance;

  GtkWidget   *box;
  GtkEditable *text;
  GtkDropDown *moment;
  GtkDropDown *handover;

  WbJobModel  *model;
  char        *words;       /* folded */
  char        *piece;       /* id */
  GPtrArray   *handovers;   /* ids */
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbPhotoFilter, wb_photo_filter, GTK_TYPE_WIDGET)

/* --- what is asked for ------------------------------------------------------------------------ */

static char *
fold (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autofree char *trimmed = g_strstrip (g_steal_pointer (&valid));

  return g_utf8_casefold (trimmed, -1);
}

static void
read_text (WbPhotoFilter *self)
{
  const char *text = gtk_editable_get_text (self->text);
  const WbPiece *piece = NULL;

  g_free (self->words);
  self->words = fold (text);
  if (*self->words != '\0')
    piece = wb_count_find_piece (wb_job_model_get_job (self->model), text, NULL);
  g_clear_pointer (&self->piece, g_free);
  self->piece = piece != NULL ? g_strdup (piece->record.id) : NULL;
}

static void
changed_cb (WbPhotoFilter *self)
{
  read_text (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

WbMoment
wb_photo_filter_get_moment (WbPhotoFilter *self)
{
  guint i = gtk_drop_down_get_selected (self->moment);

  return i > 0 && i < wb_moments.n_values ? (WbMoment) wb_moments.values[i].value : WB_MOMENT_NONE;
}

static const char *
get_handover (WbPhotoFilter *self)
{
  guint i = gtk_drop_down_get_selected (self->handover);

  return i > 0 && i <= self->handovers->len ? g_ptr_array_index (self->handovers, i - 1) : NULL;
}

const char *
wb_photo_filter_get_piece (WbPhotoFilter *self)
{
  return self->piece;
}

gboolean
wb_photo_filter_is_set (WbPhotoFilter *self)
{
  return *self->words != '\0' || wb_photo_filter_get_moment (self) != WB_MOMENT_NONE ||
         get_handover (self) != NULL;
}

static gboolean
has_words (const char *text,
           const char *words)
{
  g_autofree char *folded = text != NULL ? g_utf8_casefold (text, -1) : NULL;

  return folded != NULL && strstr (folded, words) != NULL;
}

static gboolean
matches_text (WbPhotoFilter *self,
              const WbPhoto *photo)
{
  if (*self->words == '\0')
    return TRUE;
  if (self->piece != NULL)
    return wb_photo_shows_piece (wb_job_model_get_job (self->model), photo, self->piece);
  return has_words (photo->caption, self->words) || has_words (photo->name, self->words);
}

gboolean
wb_photo_filter_matches (WbPhotoFilter *self,
                         const WbPhoto *photo)
{
  WbMoment moment = wb_photo_filter_get_moment (self);
  const char *handover = get_handover (self);

  return (moment == WB_MOMENT_NONE || photo->moment == moment) &&
         (handover == NULL || g_strcmp0 (photo->handover, handover) == 0) &&
         matches_text (self, photo);
}

void
wb_photo_filter_clear (WbPhotoFilter *self)
{
  gtk_drop_down_set_selected (self->moment, 0);
  gtk_drop_down_set_selected (self->handover, 0);
  wb_photo_filter_set_text (self, "");
}

void
wb_photo_filter_set_text (WbPhotoFilter *self,
                          const char    *text)
{
  gtk_editable_set_text (self->text, text);
  changed_cb (self);
}

/* --- the handovers there are ------------------------------------------------------------------ */

static gboolean
has_same_handovers (WbPhotoFilter *self,
                    WbJob         *job)
{
  if (self->handovers->len != wb_job_count (job, WB_KIND_HANDOVER))
    return FALSE;
  for (guint i = 0; i < self->handovers->len; i++)
    if (strcmp (g_ptr_array_index (self->handovers, i),
                ((const WbRecord *) wb_job_nth (job, WB_KIND_HANDOVER, i))->id) != 0)
      return FALSE;
  return TRUE;
}

void
wb_photo_filter_update (WbPhotoFilter *self)
{
  WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);

  read_text (self);
  if (has_same_handovers (self, job) && gtk_drop_down_get_model (self->handover) != NULL)
    return;

  gtk_string_list_append (words, _("Every handover"));
  g_ptr_array_set_size (self->handovers, 0);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_HANDOVER); i++)
    {
      const WbHandover *handover = wb_job_nth (job, WB_KIND_HANDOVER, i);

      gtk_string_list_append (words, wb_words_enum (&wb_handover_kinds, (int) handover->kind));
      g_ptr_array_add (self->handovers, g_strdup (handover->record.id));
    }
  gtk_drop_down_set_model (self->handover, G_LIST_MODEL (words));
}

/* --- making ----------------------------------------------------------------------------------- */

static gboolean
wb_photo_filter_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (WB_PHOTO_FILTER (widget)->text));
}

static void
wb_photo_filter_dispose (GObject *object)
{
  WbPhotoFilter *self = WB_PHOTO_FILTER (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_photo_filter_parent_class)->dispose (object);
}

static void
wb_photo_filter_finalize (GObject *object)
{
  WbPhotoFilter *self = WB_PHOTO_FILTER (object);

  g_free (self->words);
  g_free (self->piece);
  g_ptr_array_unref (self->handovers);

  G_OBJECT_CLASS (wb_photo_filter_parent_class)->finalize (object);
}

static void
wb_photo_filter_class_init (WbPhotoFilterClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_photo_filter_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_photo_filter_finalize;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_photo_filter_grab_focus;
  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_PHOTO_FILTER, G_SIGNAL_RUN_LAST, 0,
                                   NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static GtkDropDown *
add_choice (WbPhotoFilter *self,
            const char    *label)
{
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);

  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  /* It is the button within that has the focus. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (choice)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_widget_set_parent (choice, self->box);
  return GTK_DROP_DOWN (choice);
}

static void
wb_photo_filter_init (WbPhotoFilter *self)
{
  g_autoptr (GtkStringList) moments = gtk_string_list_new (NULL);
  GtkWidget *entry = gtk_search_entry_new ();

  self->words = g_strdup ("");
  self->handovers = g_ptr_array_new_with_free_func (g_free);
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_set_layout_manager (self->box, wb_flow_layout_new (6, 6));
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));

  self->text = GTK_EDITABLE (entry);
  g_object_set (entry, "placeholder-text", _("Tag, or words of the caption"), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Filter the photos"), -1);
  gtk_widget_set_hexpand (entry, TRUE);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 14);
  gtk_widget_set_parent (entry, self->box);

  gtk_string_list_append (moments, _("Every moment"));
  for (gsize i = 1; i < wb_moments.n_values; i++)
    gtk_string_list_append (moments, wb_words_enum (&wb_moments, wb_moments.values[i].value));
  self->moment = add_choice (self, _("Only photos of a moment"));
  gtk_drop_down_set_model (self->moment, G_LIST_MODEL (moments));
  self->handover = add_choice (self, _("Only photos of a handover"));
}

GtkWidget *
wb_photo_filter_new (WbJobModel *model)
{
  WbPhotoFilter *self = g_object_new (WB_TYPE_PHOTO_FILTER, NULL);

  self->model = g_object_ref (model);
  wb_photo_filter_update (self);
  g_signal_connect_swapped (self->text, "search-changed", G_CALLBACK (changed_cb), self);
  g_signal_connect_swapped (self->moment, "notify::selected", G_CALLBACK (changed_cb), self);
  g_signal_connect_swapped (self->handover, "notify::selected", G_CALLBACK (changed_cb), self);
  return GTK_WIDGET (self);
}
