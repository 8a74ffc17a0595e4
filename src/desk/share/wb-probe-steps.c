/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows the outcome of each step. The test itself is office's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-probe-steps.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

#define N_STEPS (WB_PROBE_REMOVE + 1)

struct _WbProbeSteps
{
  GtkWidget      parent_instance;

  GtkWidget     *grid;
  GtkWidget     *signs[N_STEPS];
  GtkWidget     *words[N_STEPS];
  GtkWidget     *states[N_STEPS];

  WbServerProbe *probe;           /* (nullable) */
};

G_DEFINE_FINAL_TYPE (WbProbeSteps, wb_probe_steps, GTK_TYPE_WIDGET)

static WbProbeOutcome
outcome_of (WbProbeSteps *self,
            guint         step)
{
  return self->probe != NULL ? wb_server_probe_get_step (self->probe, (WbProbeStep) step)
                             : WB_PROBE_WAITING;
}

/* The first step that is not done is under way, unless the test is over. */
static gboolean
is_under_way (WbProbeSteps *self,
              guint         step)
{
  return self->probe != NULL && !wb_server_probe_is_finished (self->probe) &&
         outcome_of (self, step) == WB_PROBE_WAITING &&
         (step == 0 || outcome_of (self, step - 1) == WB_PROBE_DONE);
}

static const char *
state_in_words (WbProbeSteps *self,
                guint         step)
{
  switch (outcome_of (self, step))
    {
    case WB_PROBE_WAITING:
      if (is_under_way (self, step))
        return _("trying");
      return self->probe != NULL && wb_server_probe_is_finished (self->probe) ? _("not tried")
                                                                              : _("waiting");
    case WB_PROBE_DONE:
      return _("yes");
    case WB_PROBE_FAILED:
      return _("no");
    }
  g_return_val_if_reached (NULL);
}

static const char *
sign_of (WbProbeSteps *self,
         guint         step)
{
  switch (outcome_of (self, step))
    {
    case WB_PROBE_WAITING:
      return is_under_way (self, step) ? "content-loading-symbolic" : "list-remove-symbolic";
    case WB_PROBE_DONE:
      return "emblem-ok-symbolic";
    case WB_PROBE_FAILED:
      return "dialog-error-symbolic";
    }
  g_return_val_if_reached (NULL);
}

static void
show_step (WbProbeSteps *self,
           guint         step)
{
  WbProbeOutcome outcome = outcome_of (self, step);

  gtk_image_set_from_icon_name (GTK_IMAGE (self->signs[step]), sign_of (self, step));
  gtk_label_set_label (GTK_LABEL (self->states[step]), state_in_words (self, step));
  gtk_widget_remove_css_class (self->signs[step], "success");
  gtk_widget_remove_css_class (self->signs[step], "error");
  gtk_widget_remove_css_class (self->states[step], "error");
  if (outcome == WB_PROBE_DONE)
    gtk_widget_add_css_class (self->signs[step], "success");
  if (outcome == WB_PROBE_FAILED)
    {
      gtk_widget_add_css_class (self->signs[step], "error");
      gtk_widget_add_css_class (self->states[step], "error");
    }
}

static void
show_steps (WbProbeSteps *self)
{
  for (guint step = 0; step < N_STEPS; step++)
    show_step (self, step);
}

static void
add_step (WbProbeSteps *self,
          guint         step)
{
  GtkWidget *sign = gtk_image_new ();
  GtkWidget *words = gtk_label_new (wb_words_enum (&wb_probe_steps, (int) step));
  GtkWidget *state = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_label_set_xalign (GTK_LABEL (state), 1);
  gtk_widget_set_valign (sign, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (state, GTK_ALIGN_START);
  gtk_grid_attach (GTK_GRID (self->grid), sign, 0, (int) step, 1, 1);
  gtk_grid_attach (GTK_GRID (self->grid), words, 1, (int) step, 1, 1);
  gtk_grid_attach (GTK_GRID (self->grid), state, 2, (int) step, 1, 1);
  self->signs[step] = sign;
  self->words[step] = words;
  self->states[step] = state;
}

static void
wb_probe_steps_dispose (GObject *object)
{
  WbProbeSteps *self = WB_PROBE_STEPS (object);

  if (self->probe != NULL)
    g_signal_handlers_disconnect_by_data (self->probe, self);
  g_clear_object (&self->probe);
  g_clear_pointer (&self->grid, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_probe_steps_parent_class)->dispose (object);
}

static void
wb_probe_steps_class_init (WbProbeStepsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_probe_steps_dispose;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
wb_probe_steps_init (WbProbeSteps *self)
{
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 6);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
  for (guint step = 0; step < N_STEPS; step++)
    add_step (self, step);
  show_steps (self);
}

void
wb_probe_steps_follow (WbProbeSteps  *self,
                       WbServerProbe *probe)
{
  g_return_if_fail (WB_IS_PROBE_STEPS (self));

  if (self->probe != NULL)
    g_signal_handlers_disconnect_by_data (self->probe, self);
  g_set_object (&self->probe, probe);
  if (probe != NULL)
    {
      g_signal_connect_object (probe, "step", G_CALLBACK (show_steps), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (probe, "finished", G_CALLBACK (show_steps), self, G_CONNECT_SWAPPED);
    }
  show_steps (self);
}
