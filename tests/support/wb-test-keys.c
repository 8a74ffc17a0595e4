/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/wb-test-keys.h"

#include <gdk/x11/gdkx.h>

#include "support/wb-test-window.h"

#define LONGEST_WAIT_MS 500

static void
append_text (GString    *script,
             const char *text,
             gsize       length)
{
  /* Each character as a key of its own: the words of a script cannot hold a space. */
  for (gsize i = 0; i < length; i++)
    {
      guint keyval = gdk_unicode_to_keyval ((guchar) text[i]);

      g_assert_cmpint (text[i], >, 0);
      g_string_append_printf (script, "key --delay 0 %s\n", gdk_keyval_name (keyval));
    }
}

static char *
make_script (GtkWidget  *window,
             const char *keys)
{
  GdkSurface *surface = gtk_native_get_surface (GTK_NATIVE (window));
  GString *script = g_string_new (NULL);

  g_string_append_printf (script, "windowfocus --sync %lu\n", gdk_x11_surface_get_xid (surface));
  while (*keys != '\0')
    {
      gsize plain = strcspn (keys, "\n\t{");
      const char *end;

      append_text (script, keys, plain);
      keys += plain;
      switch (*keys)
        {
        case '\n':
          g_string_append (script, "key --delay 0 Return\n");
          keys++;
          break;
        case '\t':
          g_string_append (script, "key --delay 0 Tab\n");
          keys++;
          break;
        case '{':
          end = strchr (keys, '}');
          g_assert_nonnull (end);
          g_string_append_printf (script, "key --delay 0 %.*s\n", (int) (end - keys - 1), keys + 1);
          keys = end + 1;
          break;
        default:
          break;
        }
    }
  return g_string_free (script, FALSE);
}

typedef struct
{
  gboolean sent;
  gboolean seen;
} Typing;

static gboolean
waited_cb (gpointer data)
{
  ((Typing *) data)->seen = TRUE;
  return G_SOURCE_REMOVE;
}

static void
communicated_cb (GObject      *source,
                 GAsyncResult *result,
                 gpointer      data)
{
  Typing *typing = data;
  g_autoptr (GError) error = NULL;

  g_subprocess_communicate_utf8_finish (G_SUBPROCESS (source), result, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_successful (G_SUBPROCESS (source)));
  typing->sent = TRUE;
}

/* The last key is one that means nothing to anybody: when it has come, all before it have been
 * dealt with. */
static gboolean
key_released_cb (GtkEventController *controller,
                 guint               keyval,
                 guint               keycode,
                 GdkModifierType     state,
                 Typing             *typing)
{
  if (keyval == GDK_KEY_F12)
    typing->seen = TRUE;
  return GDK_EVENT_PROPAGATE;
}

static gboolean
is_sent (gpointer data)
{
  return ((const Typing *) data)->sent;
}

static gboolean
is_seen (gpointer data)
{
  return ((const Typing *) data)->seen;
}

void
wb_test_type (GtkWidget  *window,
              const char *keys)
{
  Typing typing = { FALSE, FALSE };
  g_autofree char *with_end = g_strconcat (keys, "{F12}", NULL);
  g_autofree char *script = make_script (window, with_end);
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_new (G_SUBPROCESS_FLAGS_STDIN_PIPE, &error,
                                                      "xdotool", "-", NULL);
  g_autoptr (GtkEventController) watch = gtk_event_controller_key_new ();
  guint timeout;

  g_assert_no_error (error);
  gtk_event_controller_set_propagation_phase (watch, GTK_PHASE_CAPTURE);
  g_signal_connect (watch, "key-released", G_CALLBACK (key_released_cb), &typing);
  gtk_widget_add_controller (window, g_object_ref (watch));

  g_subprocess_communicate_utf8_async (process, script, NULL, communicated_cb, &typing);
  wb_test_wait_until (is_sent, &typing);
  timeout = g_timeout_add (LONGEST_WAIT_MS, waited_cb, &typing);
  wb_test_wait_until (is_seen, &typing);
  if (g_main_context_find_source_by_id (NULL, timeout) != NULL)
    g_source_remove (timeout);
  /* The keys may have closed the window. */
  if (gtk_event_controller_get_widget (watch) != NULL)
    gtk_widget_remove_controller (window, watch);
  wb_test_settle ();
}
