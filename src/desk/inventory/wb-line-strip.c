/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Entering and changing lines. The strip holds typed texts only: they become a piece when Enter is
 * pressed, and nothing else ever changes the job. What stands in a field and beneath it is the
 * fields' own. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-line-strip-private.h"

#include "desk/inventory/wb-line-parts.h"
#include "desk/inventory/wb-mark-key.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

enum
{
  ENTERED,
  STORED,
  STEP,
  LEAVE,
  LOST,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbLineStrip, wb_line_strip, GTK_TYPE_WIDGET)

static WbJob *
get_job (WbLineStrip *self)
{
  return wb_job_model_get_job (self->model);
}

static gboolean
is_dirty (WbLineStrip *self)
{
  g_auto (GStrv) texts = wb_line_fields_get_texts (self->fields);

  return !wb_line_texts_equal (texts, self->base);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
update_heading (WbLineStrip *self)
{
  const WbPiece *piece = wb_job_find (get_job (self), WB_KIND_PIECE, self->changed);
  gboolean more = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->more));
  g_auto (GStrv) texts = wb_line_fields_get_texts (self->fields);
  g_autofree char *tag = NULL;
  g_autofree char *words = NULL;

  if (piece != NULL)
    {
      tag = wb_words_tag (get_job (self), piece);
      /* Translators: %s is a tag. */
      words = g_strdup_printf (_("Change %s"), tag);
      gtk_widget_add_css_class (GTK_WIDGET (self), "changing");
    }
  else
    {
      gtk_widget_remove_css_class (GTK_WIDGET (self), "changing");
    }

  gtk_label_set_text (GTK_LABEL (self->heading), words != NULL ? words : _("New line"));
  gtk_button_set_label (GTK_BUTTON (self->enter), piece != NULL ? _("Store") : _("Enter"));
  gtk_widget_set_sensitive (self->more, piece == NULL);
  wb_line_fields_show_more (self->fields, piece != NULL || more || wb_line_texts_have_more (texts));
}

void
wb_line_strip_update (WbLineStrip *self)
{
  update_heading (self);
}

static void
show_texts (WbLineStrip  *self,
            char        **texts)
{
  wb_line_fields_set_texts (self->fields, texts);
  g_clear_pointer (&self->insisted, g_free);
  g_clear_pointer (&self->continues, g_free);
  update_heading (self);
}

/* @texts: (transfer full): also what Escape goes back to. */
static void
show_base (WbLineStrip  *self,
           char        **texts)
{
  g_strfreev (self->base);
  self->base = texts;
  show_texts (self, texts);
}

/* Says so when the lot has no tag left. */
static void
warn_of_end (WbLineStrip *self)
{
  g_autofree char *sentence = wb_line_find_end (get_job (self), wb_line_texts_get_lot (self->base),
                                                wb_line_fields_get_text (self->fields,
                                                                         WB_LINE_TAG));

  if (sentence != NULL)
    wb_line_fields_show_error (self->fields, WB_LINE_TAG, sentence, FALSE);
}

static void
start_after (WbLineStrip   *self,
             const WbPiece *piece)
{
  g_clear_pointer (&self->changed, g_free);
  show_base (self, wb_line_texts_start (get_job (self), piece, self->last));
  warn_of_end (self);
}

/* The tag of a new line that nobody typed in follows the lot and the job. */
static void
renew_tag (WbLineStrip *self,
           const char  *lot)
{
  const WbPiece *last = wb_line_find_last (get_job (self), lot, FALSE);
  g_autofree char *tag = wb_line_next_tag (get_job (self), lot, last);

  wb_line_texts_set (self->base, WB_LINE_LOT, lot != NULL ? lot : "");
  wb_line_texts_set (self->base, WB_LINE_TAG, tag);
}

/* --- taking the line -------------------------------------------------------------------------- */

/* Bare weights are in the unit of the line before. */
static WbWeightUnit
get_unit (WbLineStrip *self)
{
  WbWeight weight;

  if (self->last != NULL
      && wb_weight_parse (self->last[WB_LINE_WEIGHT], WB_WEIGHT_UNIT_NONE, &weight, NULL))
    return weight.unit;
  return WB_WEIGHT_UNIT_LB;
}

/* Reads the fields that differ from @unless (nullable) into @piece. Marks what cannot be read, and
 * moves the focus to the first such field. */
static gboolean
read_fields (WbLineStrip  *self,
             WbPiece      *piece,
             char        **unless)
{
  g_auto (GStrv) texts = wb_line_fields_get_texts (self->fields);
  char *errors[WB_LINE_N_PARTS];
  gboolean focus = TRUE;

  if (wb_line_texts_read (texts, unless, piece, wb_job_get_currency (get_job (self)),
                          get_unit (self), errors))
    return TRUE;

  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    {
      if (errors[i] == NULL)
        continue;
      wb_line_fields_show_error (self->fields, (WbLinePart) i, errors[i], focus);
      focus = FALSE;
      g_free (errors[i]);
    }
  return FALSE;
}

/* Lets an odd tag pass only when the clerk was told and presses Enter again. */
static gboolean
accept_tag (WbLineStrip   *self,
            const WbPiece *piece)
{
  const WbPiece *before = wb_job_find (get_job (self), WB_KIND_PIECE, self->changed);
  g_autofree char *sentence = NULL;
  g_autofree char *key = NULL;

  if (before != NULL && before->tag == piece->tag && g_strcmp0 (before->lot, piece->lot) == 0)
    return TRUE;

  sentence = wb_line_find_oddity (get_job (self), piece);
  key = g_strdup_printf ("%s/%" G_GINT64_FORMAT, piece->lot != NULL ? piece->lot : "", piece->tag);
  if (sentence == NULL || g_strcmp0 (self->insisted, key) == 0)
    return TRUE;

  g_free (self->insisted);
  self->insisted = g_steal_pointer (&key);
  wb_line_fields_show_error (self->fields, WB_LINE_TAG, sentence, TRUE);
  return FALSE;
}

static gboolean
accept (WbLineStrip   *self,
        const WbPiece *piece)
{
  if (wb_line_is_described (piece))
    return accept_tag (self, piece);

  wb_line_fields_show_error (self->fields, WB_LINE_DESCRIPTION,
                             _("Say what it is, or what is in it."), TRUE);
  return FALSE;
}

static void
apply (WbLineStrip *self,
       WbJob       *job,
       const char  *deed)
{
  g_strfreev (self->last);
  self->last = wb_line_fields_get_texts (self->fields);
  wb_line_fields_set_unit (self->fields, get_unit (self));
  self->applying = TRUE;
  wb_job_model_apply (self->model, job, deed);
  self->applying = FALSE;
}

static gboolean
enter_new (WbLineStrip *self)
{
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, id);
  g_autoptr (WbJob) job = NULL;

  if (!read_fields (self, piece, NULL) || !accept (self, piece))
    return FALSE;

  job = self->continues != NULL
        ? wb_line_enter_part (get_job (self), piece, self->continues)
        : wb_job_with (get_job (self), piece);
  apply (self, job, self->continues != NULL ? _("Enter a part") : _("Enter a line"));
  start_after (self, piece);
  g_signal_emit (self, signals[ENTERED], 0, id);
  return TRUE;
}

/* Only what the clerk changed is set, so that nothing is lost that came in meanwhile. */
static gboolean
store_changed (WbLineStrip *self)
{
  gconstpointer before = wb_job_find (get_job (self), WB_KIND_PIECE, self->changed);
  g_autoptr (WbPiece) piece = wb_record_copy (before);
  g_autoptr (WbJob) job = NULL;

  if (!is_dirty (self))
    return TRUE;
  if (!read_fields (self, piece, self->base) || !accept (self, piece))
    return FALSE;

  job = wb_job_with (get_job (self), piece);
  apply (self, job, _("Change a line"));
  show_base (self, wb_line_texts_of_piece (piece));
  return TRUE;
}

static void
take_line (WbLineStrip *self)
{
  g_autofree char *id = g_strdup (self->changed);
  g_auto (GStrv) texts = wb_line_fields_get_texts (self->fields);
  WbLinePart focused = wb_line_fields_get_focused (self->fields);

  if (id != NULL)
    {
      if (store_changed (self))
        g_signal_emit (self, signals[STORED], 0, id);
    }
  else if (wb_line_texts_are_bare (texts) && wb_line_field (focused)->row == WB_LINE_ROW_STAYS)
    {
      wb_line_fields_focus (self->fields, WB_LINE_DESCRIPTION);
    }
  else if (enter_new (self))
    {
      wb_line_fields_focus (self->fields, WB_LINE_DESCRIPTION);
    }
}

/* --- keys and other signals ------------------------------------------------------------------- */

static void
lot_chosen_cb (WbLineStrip *self)
{
  g_auto (GStrv) texts = wb_line_fields_get_texts (self->fields);

  if (self->changed != NULL || self->base == NULL
      || !g_str_equal (texts[WB_LINE_TAG], self->base[WB_LINE_TAG]))
    return;

  renew_tag (self, wb_line_texts_get_lot (texts));
  wb_line_fields_set_text (self->fields, WB_LINE_TAG, self->base[WB_LINE_TAG]);
  warn_of_end (self);
}

/* Escape: first the typed texts go, then the change, then the focus. */
static gboolean
go_back_cb (GtkWidget *widget,
            GVariant  *args,
            gpointer   data)
{
  WbLineStrip *self = WB_LINE_STRIP (widget);

  if (is_dirty (self))
    {
      WbLinePart focused = wb_line_fields_get_focused (self->fields);

      show_texts (self, self->base);
      wb_line_fields_focus (self->fields, self->changed != NULL ? focused : WB_LINE_DESCRIPTION);
    }
  else if (self->changed != NULL)
    {
      wb_line_strip_go_on (self);
      wb_line_fields_focus (self->fields, WB_LINE_DESCRIPTION);
    }
  else
    {
      g_signal_emit (self, signals[LEAVE], 0);
    }
  return TRUE;
}

static gboolean
step_cb (GtkWidget *widget,
         GVariant  *args,
         gpointer   data)
{
  g_signal_emit (widget, signals[STEP], 0, (int) g_variant_get_int32 (args));
  return TRUE;
}

/* The line under change is gone: what was typed for it stays, as a new line. */
static void
lose_line (WbLineStrip *self)
{
  if (!is_dirty (self))
    {
      wb_line_strip_go_on (self);
      return;
    }

  g_clear_pointer (&self->changed, g_free);
  g_clear_pointer (&self->draft, g_strfreev);
  g_strfreev (self->base);
  self->base = g_steal_pointer (&self->draft_base);
  update_heading (self);
  g_signal_emit (self, signals[LOST], 0);
}

/* The job changed under the strip: an undo, a new lot, or another window. What the clerk typed
 * stays. */
static void
job_changed_cb (WbLineStrip *self)
{
  const WbJob *job = get_job (self);
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, self->changed);

  if (self->applying)
    return;

  if (self->changed != NULL && piece == NULL)
    {
      lose_line (self);
    }
  else if (is_dirty (self))
    {
      update_heading (self);
    }
  else if (piece != NULL)
    {
      show_base (self, wb_line_texts_of_piece (piece));
    }
  else if (wb_job_count (job, WB_KIND_PIECE) == 0)
    {
      start_after (self, NULL);
    }
  else
    {
      renew_tag (self, wb_line_texts_get_lot (self->base));
      show_texts (self, self->base);
      warn_of_end (self);
    }
}

/* --- making ----------------------------------------------------------------------------------- */

static GtkWidget *
make_head (WbLineStrip *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  self->heading = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->heading), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->heading), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (self->heading, TRUE);
  gtk_widget_add_css_class (self->heading, "heading");
  gtk_widget_add_css_class (self->heading, "numeric");

  self->more = gtk_toggle_button_new_with_mnemonic (_("_More Fields"));
  gtk_widget_add_css_class (self->more, "flat");
  g_signal_connect_swapped (self->more, "toggled", G_CALLBACK (update_heading), self);

  self->enter = gtk_button_new_with_label (_("Enter"));
  gtk_widget_add_css_class (self->enter, "suggested-action");
  g_signal_connect_swapped (self->enter, "clicked", G_CALLBACK (take_line), self);

  gtk_box_append (GTK_BOX (box), self->heading);
  gtk_box_append (GTK_BOX (box), wb_mark_key_new ());
  gtk_box_append (GTK_BOX (box), self->more);
  gtk_box_append (GTK_BOX (box), self->enter);
  return box;
}

static void
wb_line_strip_dispose (GObject *object)
{
  WbLineStrip *self = WB_LINE_STRIP (object);
  GtkWidget *child;

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, job_changed_cb, self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_line_strip_parent_class)->dispose (object);
}

static void
wb_line_strip_finalize (GObject *object)
{
  WbLineStrip *self = WB_LINE_STRIP (object);

  g_free (self->changed);
  g_free (self->insisted);
  g_free (self->continues);
  g_strfreev (self->base);
  g_strfreev (self->draft);
  g_strfreev (self->draft_base);
  g_strfreev (self->last);

  G_OBJECT_CLASS (wb_line_strip_parent_class)->finalize (object);
}

static gboolean
wb_line_strip_grab_focus (GtkWidget *widget)
{
  wb_line_strip_focus (WB_LINE_STRIP (widget));
  return TRUE;
}

static void
wb_line_strip_class_init (WbLineStripClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_line_strip_dispose;
  object_class->finalize = wb_line_strip_finalize;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_line_strip_grab_focus;

  signals[ENTERED] = g_signal_new ("entered", WB_TYPE_LINE_STRIP, G_SIGNAL_RUN_LAST,
                                   0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[STORED] = g_signal_new ("stored", WB_TYPE_LINE_STRIP, G_SIGNAL_RUN_LAST,
                                  0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[STEP] = g_signal_new ("step", WB_TYPE_LINE_STRIP, G_SIGNAL_RUN_LAST,
                                0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[LEAVE] = g_signal_new ("leave", WB_TYPE_LINE_STRIP, G_SIGNAL_RUN_LAST,
                                 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[LOST] = g_signal_new ("lost", WB_TYPE_LINE_STRIP, G_SIGNAL_RUN_LAST,
                                0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "linestrip");
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, go_back_cb, NULL);
  wb_line_strip_add_repeat_keys (widget_class);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Up, GDK_CONTROL_MASK, step_cb, "i", -1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Down, GDK_CONTROL_MASK, step_cb, "i", 1);
}

static void
wb_line_strip_init (WbLineStrip *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);

  self->fields = WB_LINE_FIELDS (wb_line_fields_new ());
  g_signal_connect_swapped (self->fields, "activate", G_CALLBACK (take_line), self);
  g_signal_connect_swapped (self->fields, "lot-chosen", G_CALLBACK (lot_chosen_cb), self);
  gtk_widget_set_parent (make_head (self), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->fields), GTK_WIDGET (self));
}

/* --- for the page ----------------------------------------------------------------------------- */

void
wb_line_strip_set_model (WbLineStrip *self,
                         WbJobModel  *model)
{
  g_return_if_fail (WB_IS_LINE_STRIP (self));
  g_return_if_fail (WB_IS_JOB_MODEL (model));
  g_return_if_fail (self->model == NULL);

  self->model = g_object_ref (model);
  wb_line_fields_set_model (self->fields, model);
  g_signal_connect_swapped (model, "notify::job", G_CALLBACK (job_changed_cb), self);
  start_after (self, wb_line_find_last (get_job (self), NULL, TRUE));
}

const char *
wb_line_strip_get_changed (WbLineStrip *self)
{
  g_return_val_if_fail (WB_IS_LINE_STRIP (self), NULL);

  return self->changed;
}

gboolean
wb_line_strip_change (WbLineStrip *self,
                      const char  *id)
{
  const WbPiece *piece;

  g_return_val_if_fail (WB_IS_LINE_STRIP (self), FALSE);

  if (self->changed != NULL && !store_changed (self))
    return FALSE;

  piece = wb_job_find (get_job (self), WB_KIND_PIECE, id);
  g_return_val_if_fail (piece != NULL, FALSE);

  if (self->changed == NULL)
    {
      g_strfreev (self->draft);
      g_strfreev (self->draft_base);
      self->draft = wb_line_fields_get_texts (self->fields);
      self->draft_base = g_steal_pointer (&self->base);
    }
  g_free (self->changed);
  self->changed = g_strdup (id);
  show_base (self, wb_line_texts_of_piece (piece));
  return TRUE;
}

void
wb_line_strip_go_on (WbLineStrip *self)
{
  g_auto (GStrv) draft = NULL;
  gboolean begun;

  g_return_if_fail (WB_IS_LINE_STRIP (self));

  if (self->changed == NULL)
    return;

  g_clear_pointer (&self->changed, g_free);
  draft = g_steal_pointer (&self->draft);
  begun = !wb_line_texts_equal (draft, self->draft_base);
  g_strfreev (self->base);
  self->base = g_steal_pointer (&self->draft_base);
  if (!begun)
    renew_tag (self, wb_line_texts_get_lot (self->base));
  show_texts (self, begun ? draft : self->base);
  warn_of_end (self);
}

void
wb_line_strip_start (WbLineStrip *self,
                     const char  *lot,
                     gint64       tag)
{
  g_autofree char *text = g_strdup_printf ("%" G_GINT64_FORMAT, tag);

  g_return_if_fail (WB_IS_LINE_STRIP (self));

  if (self->changed != NULL && !store_changed (self))
    return;

  wb_line_strip_go_on (self);
  wb_line_fields_choose_lot (self->fields, lot);
  wb_line_fields_set_text (self->fields, WB_LINE_TAG, text);
  wb_line_strip_focus (self);
}

void
wb_line_strip_focus (WbLineStrip *self)
{
  g_return_if_fail (WB_IS_LINE_STRIP (self));

  wb_line_fields_focus (self->fields,
                        self->changed != NULL
                        ? wb_line_fields_get_focused (self->fields) : WB_LINE_DESCRIPTION);
}

char *
wb_line_strip_settle (WbLineStrip *self)
{
  const WbPiece *last;

  g_return_val_if_fail (WB_IS_LINE_STRIP (self), NULL);

  if (self->changed != NULL)
    return store_changed (self) ? g_strdup (self->changed) : NULL;
  if (is_dirty (self) && !enter_new (self))
    return NULL;

  last = wb_line_find_last (get_job (self), NULL, TRUE);
  return last != NULL ? g_strdup (last->record.id) : NULL;
}
