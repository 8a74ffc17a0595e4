/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes lines of a job and shows them. A line that is a heading begins with a mark that no text of a
 * job has. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-published-look.h"

#include "core/wb-entities.h"
#include "desk/widgets/wb-one-stop.h"
#include "desk/widgets/wb-passage.h"
#include "desk/widgets/wb-row-name.h"
#include "office/wb-publish-compare.h"
#include "office/wb-words-record.h"
#include "office/wb-words-share.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <string.h>

#define HEADING '\001'

struct _WbPublishedLook
{
  AdwWindow       parent_instance;

  AdwWindowTitle *title;
  GtkLabel       *about;
  GtkSearchEntry *search;
  GtkListView    *view;

  GtkStringList  *lines;
  GtkCustomFilter *filter;
  char           *query;    /* folded */
};

G_DEFINE_FINAL_TYPE (WbPublishedLook, wb_published_look, ADW_TYPE_WINDOW)

/* --- lines ------------------------------------------------------------------------------------ */

static void
add_heading (WbPublishedLook *self,
             const char      *text)
{
  g_autofree char *line = g_strdup_printf ("%c%s", HEADING, text);

  gtk_string_list_append (self->lines, line);
}

static void
add_order (WbPublishedLook *self,
           const WbJob     *job)
{
  const WbRecordType *type = wb_record_type (WB_KIND_ORDER);
  const WbOrder *order = wb_job_order (job);

  add_heading (self, _("Order"));
  for (gsize i = 0; i < type->n_fields; i++)
    {
      const WbField *field = &type->fields[i];
      g_autofree char *given = wb_record_get_text (order, field);
      g_autofree char *value = NULL;
      g_autofree char *line = NULL;

      if (given == NULL || *given == '\0')
        continue;
      value = wb_words_value_in_job (job, order, field);
      /* Translators: a field and its value. */
      line = g_strdup_printf (_("%s: %s"), wb_words_field (field), value);
      gtk_string_list_append (self->lines, line);
    }
}

static void
add_records (WbPublishedLook *self,
             const WbJob     *job,
             WbKind           kind,
             const char      *heading)
{
  guint n = wb_job_count (job, kind);

  if (n == 0)
    return;
  add_heading (self, heading);
  for (guint i = 0; i < n; i++)
    {
      const WbRecord *record = wb_job_nth (job, kind, i);
      g_autofree char *name = wb_words_record_title (record);
      g_autofree char *rest = wb_words_record_subtitle (job, record);
      g_autofree char *line = g_strdup_printf (*rest != '\0' ? "%s · %s" : "%s", name, rest);

      gtk_string_list_append (self->lines, line);
    }
}

static void
add_part (GString    *line,
          const char *part)
{
  if (part != NULL && *part != '\0')
    g_string_append_printf (line, " · %s", part);
}

static void
add_pieces (WbPublishedLook *self,
            const WbJob     *job)
{
  guint n = wb_job_count (job, WB_KIND_PIECE);
  g_autofree char *heading = g_strdup_printf (ngettext ("%u piece", "%u pieces", n), n);

  add_heading (self, heading);
  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);
      g_autofree char *name = wb_words_record_name (job, piece);
      g_autofree char *marks = piece->marks != NULL ? wb_words_marks (piece->marks, NULL) : NULL;
      g_autoptr (GString) line = g_string_new (name);

      add_part (line, piece->room);
      add_part (line, marks != NULL ? marks : piece->marks);
      gtk_string_list_append (self->lines, line->str);
    }
}

static void
add_job (WbPublishedLook *self,
         const WbJob     *job)
{
  add_order (self, job);
  add_records (self, job, WB_KIND_PARTY, _("Parties"));
  add_records (self, job, WB_KIND_STOP, _("Stops"));
  add_pieces (self, job);
}

/* --- rows ------------------------------------------------------------------------------------- */

static void
row_setup_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *list_item)
{
  GtkWidget *line = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (line), 0);
  gtk_label_set_wrap (GTK_LABEL (line), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (line), PANGO_WRAP_WORD_CHAR);
  gtk_widget_set_margin_start (line, 6);
  gtk_widget_set_margin_end (line, 6);
  gtk_list_item_set_child (list_item, line);
}

static void
row_bind_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *list_item)
{
  const char *text = gtk_string_object_get_string (gtk_list_item_get_item (list_item));
  GtkWidget *line = gtk_list_item_get_child (list_item);
  gboolean heading = *text == HEADING;

  text += heading ? 1 : 0;
  gtk_label_set_label (GTK_LABEL (line), text);
  gtk_widget_set_margin_top (line, heading ? 12 : 0);
  if (heading)
    gtk_widget_add_css_class (line, "heading");
  else
    gtk_widget_remove_css_class (line, "heading");
  wb_row_name_set (line, text);
}

static gboolean
fits (gpointer item,
      gpointer data)
{
  WbPublishedLook *self = data;
  const char *text = gtk_string_object_get_string (item);

  if (self->query == NULL || *self->query == '\0')
    return TRUE;
  return *text != HEADING && g_str_match_string (self->query, text, TRUE);
}

static void
search_changed_cb (WbPublishedLook *self)
{
  g_free (self->query);
  self->query = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->search)));
  gtk_filter_changed (GTK_FILTER (self->filter), GTK_FILTER_CHANGE_DIFFERENT);
}

static void
search_stopped_cb (WbPublishedLook *self)
{
  if (*gtk_editable_get_text (GTK_EDITABLE (self->search)) != '\0')
    gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  else
    gtk_window_close (GTK_WINDOW (self));
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_published_look_dispose (GObject *object)
{
  WbPublishedLook *self = WB_PUBLISHED_LOOK (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_PUBLISHED_LOOK);
  if (self->filter != NULL)
    gtk_custom_filter_set_filter_func (self->filter, NULL, NULL, NULL);
  g_clear_object (&self->filter);
  g_clear_object (&self->lines);

  G_OBJECT_CLASS (wb_published_look_parent_class)->dispose (object);
}

static void
wb_published_look_finalize (GObject *object)
{
  g_free (WB_PUBLISHED_LOOK (object)->query);

  G_OBJECT_CLASS (wb_published_look_parent_class)->finalize (object);
}

/* Not earlier: a screen reader hears of a focus only once the window is there. */
static void
wb_published_look_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (wb_published_look_parent_class)->map (widget);
  gtk_widget_grab_focus (GTK_WIDGET (WB_PUBLISHED_LOOK (widget)->search));
}

static void
wb_published_look_class_init (WbPublishedLookClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_published_look_dispose;
  object_class->finalize = wb_published_look_finalize;
  widget_class->map = wb_published_look_map;

  g_type_ensure (WB_TYPE_ONE_STOP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/wb-published-look.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPublishedLook, title);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedLook, about);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedLook, search);
  gtk_widget_class_bind_template_child (widget_class, WbPublishedLook, view);
  gtk_widget_class_bind_template_callback (widget_class, search_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_stopped_cb);

  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

static void
wb_published_look_init (WbPublishedLook *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();
  GtkFilterListModel *found;

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (factory, "setup", G_CALLBACK (row_setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (row_bind_cb), NULL);
  gtk_list_view_set_factory (self->view, factory);
  self->lines = gtk_string_list_new (NULL);
  self->filter = gtk_custom_filter_new (fits, self, NULL);
  found = gtk_filter_list_model_new (g_object_ref (G_LIST_MODEL (self->lines)),
                                     g_object_ref (GTK_FILTER (self->filter)));
  gtk_list_view_set_model (self->view, GTK_SELECTION_MODEL (
                                         gtk_single_selection_new (G_LIST_MODEL (found))));
}

/* --- opening ---------------------------------------------------------------------------------- */

typedef struct
{
  WbPassage       *way;
  WbPublishedItem *item;
} Peek;

static void
show_job (Peek        *peek,
          const WbJob *job)
{
  WbPublishedLook *self = g_object_new (WB_TYPE_PUBLISHED_LOOK, NULL);
  g_autofree char *title = wb_published_item_title (peek->item);
  const WbPublishedJob *published = wb_published_item_get_job (peek->item);
  g_autofree char *words = wb_words_published_job (published);
  /* Translators: what is known of a published job. */
  g_autofree char *about = g_strdup_printf (_("%s. To be read only; it is not taken into the book."),
                                            words);

  adw_window_title_set_title (self->title, title);
  gtk_window_set_title (GTK_WINDOW (self), title);
  gtk_label_set_label (self->about, about);
  add_job (self, job);
  gtk_window_set_transient_for (GTK_WINDOW (self), wb_passage_get_window (peek->way));
  gtk_window_set_destroy_with_parent (GTK_WINDOW (self), TRUE);
  gtk_window_present (GTK_WINDOW (self));
}

static void
peeked_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autofree Peek *peek = data;
  g_autoptr (WbPassage) way = peek->way;
  g_autoptr (WbPublishedItem) item = peek->item;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_peek_published_finish (WB_OFFICE (object), result, &error);
  g_autofree char *words = NULL;
  GtkWidget *dialog;

  wb_passage_end (way);
  if (!wb_passage_has_window (way) || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  if (job != NULL)
    {
      show_job (peek, job);
      return;
    }
  words = wb_words_error (error);
  dialog = adw_message_dialog_new (wb_passage_get_window (way), _("The Job Cannot Be Read"), words);
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
  gtk_window_present (GTK_WINDOW (dialog));
}

void
wb_published_look_open (GtkWindow       *over,
                        WbOffice        *office,
                        const char      *server_id,
                        WbPublishedItem *item)
{
  g_autofree char *title = NULL;
  Peek *peek;

  g_return_if_fail (GTK_IS_WINDOW (over) && WB_IS_OFFICE (office));
  g_return_if_fail (server_id != NULL && WB_IS_PUBLISHED_ITEM (item));

  title = wb_published_item_title (item);
  peek = g_new0 (Peek, 1);
  peek->way = wb_passage_new (over, title);
  peek->item = g_object_ref (item);
  wb_office_peek_published_async (office, server_id, NULL, wb_published_item_get_job (item)->id,
                                  wb_passage_get_progress (peek->way),
                                  wb_passage_get_cancellable (peek->way), peeked_cb, peek);
}
