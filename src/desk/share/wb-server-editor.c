/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A form of rows, one a field. What a field may say core judges, the test and the storing are
 * office's, and the secret goes from its row to them and nowhere else. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-server-editor.h"

#include "desk/share/wb-path-button.h"
#include "desk/share/wb-probe-steps.h"
#include "desk/share/wb-share-questions.h"
#include "desk/widgets/wb-scroll-to.h"
#include "desk/widgets/wb-typed-row.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#include <string.h>

#define N_FIELDS (WB_SERVER_FIELD_KEY_FILE + 1)

typedef struct
{
  WbServerEditor *editor;
  WbServerField   field;
  WbTypedRow     *row;
} FieldRow;

struct _WbServerEditor
{
  AdwWindow             parent_instance;

  AdwWindowTitle       *title;
  GtkInfoBar           *fault_bar;
  GtkLabel             *fault;
  AdwPreferencesGroup  *group;
  AdwComboRow          *kind;
  GtkWidget            *folder_button;
  GtkLabel             *secret_title;
  GtkPasswordEntry     *secret;
  GtkLabel             *secret_note;
  GtkButton            *test;
  GtkLabel             *result;
  GtkWidget            *forget;
  WbProbeSteps         *steps;

  WbOffice             *office;
  WbServer             *server;        /* as it is filled in */
  FieldRow              rows[N_FIELDS];
  GCancellable         *cancellable;
  WbServerProbe        *probe;         /* (nullable): the last test */
  GCancellable         *probing;       /* (nullable): of a test that goes on */
};

enum
{
  STORED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbServerEditor, wb_server_editor, ADW_TYPE_WINDOW)

/* --- what is filled in ------------------------------------------------------------------------ */

static void
show_fault (WbServerEditor *self,
            const char     *words)
{
  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_info_bar_set_revealed (self->fault_bar, words != NULL);
}

/* The message without the field that it begins with, which the row is titled with. */
static GError *
without_field (const GError *error)
{
  const char *colon = strstr (error->message, ": ");

  return g_error_new_literal (error->domain, error->code,
                              colon != NULL ? colon + 2 : error->message);
}

static gboolean
set_field (const char  *text,
           gpointer     data,
           GError     **error)
{
  FieldRow *row = data;
  WbServerEditor *self = row->editor;
  g_autoptr (WbServer) server = NULL;
  g_autoptr (GError) fault = NULL;

  /* The focus leaves its row when the window goes, too. */
  if (self->server == NULL)
    return TRUE;

  server = wb_server_copy (self->server);
  wb_server_set (server, row->field, text);
  if (wb_server_get (server, row->field) != NULL && *wb_server_get (server, row->field) != '\0' &&
      !wb_server_check_field (server, row->field, &fault))
    {
      g_propagate_error (error, without_field (fault));
      return FALSE;
    }
  wb_server_set (self->server, row->field, text);
  text = wb_server_get (self->server, row->field);
  wb_typed_row_show (row->row, text != NULL ? text : "");
  return TRUE;
}

/* Returns: (transfer full): what is filled in, without fields that the kind has not. */
static WbServer *
get_server (WbServerEditor *self)
{
  WbServer *server = wb_server_copy (self->server);

  for (guint i = 0; i < N_FIELDS; i++)
    if (!wb_server_kind_has (server->kind, (WbServerField) i))
      wb_server_set (server, (WbServerField) i, NULL);
  return server;
}

/* What is typed in a row that has not been left is taken, too. Returns: (nullable) (transfer full):
 * the server, all fields of which are good; else the first bad one says so and has the focus. */
static WbServer *
take_server (WbServerEditor *self)
{
  g_autoptr (WbServer) server = NULL;

  for (guint i = 0; i < N_FIELDS; i++)
    wb_server_set (self->server, (WbServerField) i,
                   gtk_editable_get_text (GTK_EDITABLE (self->rows[i].row)));
  server = get_server (self);
  for (guint i = 0; i < N_FIELDS; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GError) words = NULL;

      if (!wb_server_kind_has (server->kind, (WbServerField) i) ||
          wb_server_check_field (server, (WbServerField) i, &error))
        continue;
      words = without_field (error);
      wb_typed_row_refuse (self->rows[i].row, words);
      gtk_widget_grab_focus (GTK_WIDGET (self->rows[i].row));
      return NULL;
    }
  return g_steal_pointer (&server);
}

/* Returns: (transfer full) (nullable): what was typed as a secret. */
static WbSecret *
get_secret (WbServerEditor *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->secret));

  return *text != '\0' && wb_server_wants_secret (self->server) ? wb_secret_new (text, -1) : NULL;
}

static const char *
hint_of (WbServerKind  kind,
         WbServerField field)
{
  if (field == WB_SERVER_FIELD_AUTHORITY)
    return _("Path of a PEM file, when the server's certificate is of an authority of your own");
  if (field == WB_SERVER_FIELD_KEY_FILE)
    return _("Path of a private key, when the server asks for one instead of a password");
  if (field == WB_SERVER_FIELD_REGION)
    return _("Empty for us-east-1, which stores of an office's own go by");
  if (field != WB_SERVER_FIELD_ADDRESS)
    return NULL;
  switch (kind)
    {
    case WB_SERVER_FOLDER:
      return _("The path of a folder, such as /mnt/office/jobs");
    case WB_SERVER_WEBDAV:
      return _("Such as https://files.example.org/jobs");
    case WB_SERVER_SFTP:
      return _("Such as sftp://files.example.org/srv/jobs");
    case WB_SERVER_S3:
      return _("Such as https://objects.example.org, without the bucket");
    }
  g_return_val_if_reached (NULL);
}

static const char *
secret_words (const WbServer *server)
{
  if (server->id != NULL && *server->id != '\0')
    return _("Leave it empty to go on with the one that is kept. It is never shown, and never written "
             "to the office book.");
  return _("It is kept by the desktop's secret service, or until Wainbook ends where there is none; "
           "never in the office book.");
}

static void
show_kind (WbServerEditor *self)
{
  WbServerKind kind = self->server->kind;
  gboolean asks = kind != WB_SERVER_FOLDER;

  for (guint i = 0; i < N_FIELDS; i++)
    {
      gtk_widget_set_visible (GTK_WIDGET (self->rows[i].row),
                              wb_server_kind_has (kind, (WbServerField) i));
      wb_typed_row_set_hint (self->rows[i].row, hint_of (kind, (WbServerField) i));
    }
  gtk_widget_set_visible (GTK_WIDGET (self->secret), asks);
  gtk_widget_set_visible (GTK_WIDGET (self->secret_note), asks);
  gtk_widget_set_visible (GTK_WIDGET (self->secret_title), asks);
  gtk_widget_set_visible (self->folder_button, kind == WB_SERVER_FOLDER);
  gtk_label_set_label (self->secret_title, wb_share_secret_title (self->server));
  wb_share_name_secret (GTK_WIDGET (self->secret), wb_share_secret_title (self->server));
  gtk_label_set_label (self->secret_note, secret_words (self->server));
}

static void
kind_changed_cb (WbServerEditor *self)
{
  if (self->server == NULL)
    return;
  self->server->kind = (WbServerKind) adw_combo_row_get_selected (self->kind);
  show_kind (self);
}

/* --- the test --------------------------------------------------------------------------------- */

static void start_test (WbServerEditor *self,
                        const char     *confirmed_key);

static void
show_result (WbServerEditor *self,
             const char     *words,
             gboolean        good)
{
  gtk_label_set_label (self->result, words);
  gtk_widget_remove_css_class (GTK_WIDGET (self->result), good ? "error" : "success");
  gtk_widget_add_css_class (GTK_WIDGET (self->result), good ? "success" : "error");
  gtk_widget_set_visible (GTK_WIDGET (self->result), *words != '\0');
}

/* Whether the last test was stopped by a key that is not the confirmed one. */
static gboolean
has_other_key (WbServerEditor *self)
{
  return self->probe != NULL && wb_server_host_key_changed (wb_server_probe_get_error (self->probe));
}

static void
show_testing (WbServerEditor *self)
{
  gboolean testing = self->probing != NULL;

  gtk_button_set_label (self->test, testing ? _("Stop the Test") : _("Test the Connection"));
  gtk_widget_set_visible (GTK_WIDGET (self->steps), self->probe != NULL);
  gtk_widget_set_visible (self->forget, !testing && has_other_key (self));
}

static void
key_answered_cb (WbServerEditor *self,
                 const char     *response,
                 GtkWidget      *dialog)
{
  if (g_str_equal (response, "trust"))
    start_test (self, wb_share_asked_host_key (dialog));
}

static void
ask_for_key (WbServerEditor *self,
             const char     *fingerprint)
{
  GtkWidget *dialog = wb_share_ask_host_key (GTK_WINDOW (self), fingerprint);

  g_signal_connect_object (dialog, "response", G_CALLBACK (key_answered_cb), self,
                           G_CONNECT_SWAPPED);
}

static void
tested_cb (WbServerEditor *self,
           gboolean        good)
{
  const GError *error = wb_server_probe_get_error (self->probe);
  gboolean stopped = g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_autofree char *fingerprint = error != NULL ? wb_server_host_key_of (error) : NULL;
  g_autofree char *words = error != NULL ? wb_words_error (error) : NULL;

  g_clear_object (&self->probing);
  show_testing (self);
  if (good)
    show_result (self, _("All that publishing needs works there."), TRUE);
  else
    show_result (self, stopped || words == NULL ? _("The test was stopped.") : words, FALSE);
  wb_scroll_to (GTK_WIDGET (self->result));
  if (fingerprint != NULL)
    ask_for_key (self, fingerprint);
}

static void
start_test (WbServerEditor *self,
            const char     *confirmed_key)
{
  g_autoptr (WbServer) server = take_server (self);
  g_autoptr (WbSecret) secret = get_secret (self);

  if (server == NULL)
    return;
  show_result (self, "", TRUE);
  if (self->probe != NULL)
    g_signal_handlers_disconnect_by_data (self->probe, self);
  g_clear_object (&self->probe);
  g_clear_object (&self->probing);
  self->probing = g_cancellable_new ();
  self->probe = wb_server_probe_start (self->office, server, secret, confirmed_key, self->probing);
  g_signal_connect_object (self->probe, "finished", G_CALLBACK (tested_cb), self,
                           G_CONNECT_SWAPPED);
  wb_probe_steps_follow (self->steps, self->probe);
  show_testing (self);
  wb_scroll_to (GTK_WIDGET (self->steps));
}

static void
test_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbServerEditor *self = WB_SERVER_EDITOR (widget);

  if (self->probing != NULL)
    g_cancellable_cancel (self->probing);
  else
    start_test (self, NULL);
}

/* --- another key ------------------------------------------------------------------------------ */

static void
forgotten_cb (GObject      *object,
              GAsyncResult *result,
              gpointer      data)
{
  g_autoptr (WbServerEditor) self = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  if (!wb_office_forget_host_key_finish (WB_OFFICE (object), result, &error))
    words = wb_words_error (error);
  if (self->server == NULL)
    return;
  show_fault (self, words);
  /* Which asks for the new key to be confirmed. */
  if (words == NULL && self->probing == NULL)
    start_test (self, NULL);
}

static void
forget_answered_cb (WbServerEditor *self,
                    const char     *response)
{
  g_autoptr (WbServer) server = NULL;

  if (!g_str_equal (response, "forget"))
    return;
  server = take_server (self);
  if (server != NULL)
    wb_office_forget_host_key_async (self->office, server, self->cancellable, forgotten_cb,
                                     g_object_ref (self));
}

static void
forget_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbServerEditor *self = WB_SERVER_EDITOR (widget);

  if (self->probing != NULL || !has_other_key (self))
    return;
  g_signal_connect_object (wb_share_ask_forget_key (GTK_WINDOW (self), self->server), "response",
                           G_CALLBACK (forget_answered_cb), self, G_CONNECT_SWAPPED);
}

/* --- storing ---------------------------------------------------------------------------------- */

typedef struct
{
  WbServerEditor *self;
  gboolean        with_secret;
} Storing;

static void
stored_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autofree Storing *storing = data;
  g_autoptr (WbServerEditor) self = storing->self;
  g_autoptr (GError) error = NULL;
  WbSecretPlace place = WB_SECRET_SERVICE;
  g_autoptr (WbServer) server = wb_office_put_server_finish (WB_OFFICE (object), result, &place,
                                                             &error);
  g_autofree char *words = NULL;

  if (self->server == NULL)
    return;
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "server.store", TRUE);
  if (server == NULL)
    {
      words = wb_words_error (error);
      show_fault (self, words);
      return;
    }
  g_signal_emit (self, signals[STORED], 0, storing->with_secret ? (int) place : -1);
  gtk_window_close (GTK_WINDOW (self));
}

static void
store_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbServerEditor *self = WB_SERVER_EDITOR (widget);
  g_autoptr (WbServer) server = take_server (self);
  g_autoptr (WbSecret) secret = get_secret (self);
  Storing *storing;

  show_fault (self, NULL);
  if (server == NULL)
    return;
  storing = g_new0 (Storing, 1);
  storing->self = g_object_ref (self);
  storing->with_secret = secret != NULL;
  gtk_widget_action_set_enabled (widget, "server.store", FALSE);
  wb_office_put_server_async (self->office, server, secret, self->cancellable, stored_cb, storing);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_server_editor_dispose (GObject *object)
{
  WbServerEditor *self = WB_SERVER_EDITOR (object);

  g_cancellable_cancel (self->cancellable);
  g_cancellable_cancel (self->probing);
  if (self->probe != NULL)
    g_signal_handlers_disconnect_by_data (self->probe, self);
  if (self->secret != NULL)
    {
      gtk_editable_set_text (GTK_EDITABLE (self->secret), "");
      wb_share_quiet_secret (GTK_WIDGET (self->secret));
    }
  g_clear_pointer (&self->server, wb_server_free);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_SERVER_EDITOR);
  g_clear_object (&self->probe);
  g_clear_object (&self->probing);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_server_editor_parent_class)->dispose (object);
}

/* Not earlier: a screen reader hears of a focus only once the window is there. */
static void
wb_server_editor_map (GtkWidget *widget)
{
  WbServerEditor *self = WB_SERVER_EDITOR (widget);

  GTK_WIDGET_CLASS (wb_server_editor_parent_class)->map (widget);
  gtk_widget_grab_focus (GTK_WIDGET (self->rows[WB_SERVER_FIELD_NAME].row));
}

static void
wb_server_editor_class_init (WbServerEditorClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_server_editor_dispose;
  widget_class->map = wb_server_editor_map;

  signals[STORED] = g_signal_new ("stored", WB_TYPE_SERVER_EDITOR, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_INT);

  g_type_ensure (WB_TYPE_PROBE_STEPS);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/wb-server-editor.ui");
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, title);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, fault_bar);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, fault);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, group);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, kind);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, secret_title);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, secret);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, secret_note);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, test);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, result);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, forget);
  gtk_widget_class_bind_template_child (widget_class, WbServerEditor, steps);
  gtk_widget_class_bind_template_callback (widget_class, kind_changed_cb);

  gtk_widget_class_install_action (widget_class, "server.test", NULL, test_action);
  gtk_widget_class_install_action (widget_class, "server.forget-key", NULL, forget_action);
  gtk_widget_class_install_action (widget_class, "server.store", NULL, store_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_t, GDK_CONTROL_MASK, "server.test",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_s, GDK_CONTROL_MASK, "server.store",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

/* The name comes first, for that is what a person begins to type; then the kind, which says what
 * else is asked for. */
static void
add_rows (WbServerEditor *self)
{
  g_autoptr (GtkWidget) kind = GTK_WIDGET (g_object_ref (self->kind));

  adw_preferences_group_remove (self->group, kind);
  for (guint i = 0; i < N_FIELDS; i++)
    {
      const char *title = wb_words_enum (&wb_server_fields, (int) i);

      self->rows[i].editor = self;
      self->rows[i].field = (WbServerField) i;
      self->rows[i].row = WB_TYPED_ROW (wb_typed_row_new (title, set_field, &self->rows[i]));
      adw_preferences_group_add (self->group, GTK_WIDGET (self->rows[i].row));
      if (i == WB_SERVER_FIELD_NAME)
        adw_preferences_group_add (self->group, kind);
    }
}

static void
add_choosers (WbServerEditor *self)
{
  self->folder_button =
    wb_path_button_add (ADW_ENTRY_ROW (self->rows[WB_SERVER_FIELD_ADDRESS].row),
                        _("Choose the Folder"), GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER);
  wb_path_button_add (ADW_ENTRY_ROW (self->rows[WB_SERVER_FIELD_AUTHORITY].row),
                      _("Choose the Certificate Authority File"), GTK_FILE_CHOOSER_ACTION_OPEN);
  wb_path_button_add (ADW_ENTRY_ROW (self->rows[WB_SERVER_FIELD_KEY_FILE].row),
                      _("Choose the Private Key File"), GTK_FILE_CHOOSER_ACTION_OPEN);
}

/* Returns: (nullable): the list of choices that @widget opens. */
static GtkWidget *
find_popover (GtkWidget *widget)
{
  GtkWidget *found = GTK_IS_POPOVER (widget) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_popover (child);
  return found;
}

static void
store_later_cb (gpointer data)
{
  g_autoptr (GtkWidget) widget = data;

  gtk_widget_activate_action (widget, "server.store", NULL);
}

static void
test_later_cb (gpointer data)
{
  g_autoptr (GtkWidget) widget = data;

  gtk_widget_activate_action (widget, "server.test", NULL);
}

/* The list takes the focus with it as it goes, so the deed waits until it has gone. */
static gboolean
popover_key_cb (GtkEventControllerKey *controller,
                guint                  keyval,
                guint                  keycode,
                GdkModifierType        state,
                WbServerEditor        *self)
{
  GSourceOnceFunc later = keyval == GDK_KEY_s ? store_later_cb :
                          keyval == GDK_KEY_t ? test_later_cb : NULL;
  GtkWidget *popover = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));

  if (later == NULL || (state & gtk_accelerator_get_default_mod_mask ()) != GDK_CONTROL_MASK)
    return FALSE;
  gtk_popover_popdown (GTK_POPOVER (popover));
  g_idle_add_once (later, g_object_ref (self));
  return TRUE;
}

/* While it is open the list of kinds has all keys to itself; those of the form hold there, too. */
static void
watch_kinds (WbServerEditor *self)
{
  GtkWidget *popover = find_popover (GTK_WIDGET (self->kind));
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_return_if_fail (popover != NULL);

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (popover_key_cb), self, 0);
  gtk_widget_add_controller (popover, keys);
}

static void
wb_server_editor_init (WbServerEditor *self)
{
  g_autoptr (GtkStringList) kinds = gtk_string_list_new (NULL);

  gtk_widget_init_template (GTK_WIDGET (self));
  self->cancellable = g_cancellable_new ();
  self->server = wb_server_new (WB_SERVER_WEBDAV, NULL);
  for (guint i = 0; i < wb_server_kinds.n_values; i++)
    gtk_string_list_append (kinds, wb_words_enum (&wb_server_kinds, wb_server_kinds.values[i].value));
  add_rows (self);
  add_choosers (self);
  watch_kinds (self);
  adw_combo_row_set_model (self->kind, G_LIST_MODEL (kinds));
  adw_combo_row_set_selected (self->kind, WB_SERVER_WEBDAV);
  show_kind (self);
  show_testing (self);
}

GtkWidget *
wb_server_editor_new (WbOffice       *office,
                      const WbServer *server)
{
  WbServerEditor *self;

  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);

  self = g_object_new (WB_TYPE_SERVER_EDITOR, NULL);
  self->office = g_object_ref (office);
  adw_window_title_set_title (self->title, server != NULL ? _("Change a File Server")
                                                          : _("Add a File Server"));
  gtk_window_set_title (GTK_WINDOW (self), adw_window_title_get_title (self->title));
  if (server == NULL)
    return GTK_WIDGET (self);

  wb_server_free (self->server);
  self->server = wb_server_copy (server);
  adw_combo_row_set_selected (self->kind, server->kind);
  for (guint i = 0; i < N_FIELDS; i++)
    {
      const char *text = wb_server_get (server, (WbServerField) i);

      wb_typed_row_show (self->rows[i].row, text != NULL ? text : "");
    }
  show_kind (self);
  return GTK_WIDGET (self);
}
