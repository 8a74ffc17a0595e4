/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Takes the percentages and the reason of a split by hand. What is wrong with them core says, what
 * is done a deed. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-split-window.h"

#include "core/wb-percent.h"
#include "desk/claim/wb-bearing-deeds.h"
#include "desk/widgets/wb-scroll-to.h"
#include "office/wb-words-bearing.h"

#include <glib/gi18n.h>
#include <string.h>

#define WHOLE 10000

/* One who can bear a part. */
typedef struct
{
  char      *name;
  gboolean   could;
  GtkWidget *entry;
  GtkWidget *amount;
} Bearer;

struct _WbSplitWindow
{
  AdwWindow       parent_instance;

  AdwWindowTitle *title;
  GtkLabel       *why;
  GtkGrid        *grid;
  GtkLabel       *total;
  GtkEditable    *reason;
  GtkLabel       *fault;
  GtkWidget      *by_rule;

  WbJobModel     *model;
  char           *line_id;
  char           *currency;
  gint64          owed;
  GArray         *bearers;   /* of Bearer */
  gboolean        tried;     /* what is wrong is said once somebody wants to split */
  gboolean        filling;
};

G_DEFINE_FINAL_TYPE (WbSplitWindow, wb_split_window, ADW_TYPE_WINDOW)

static void
clear_bearer (gpointer data)
{
  g_free (((Bearer *) data)->name);
}

/* --- what is typed ---------------------------------------------------------------------------- */

static Bearer *
get_bearer (WbSplitWindow *self,
            guint          index)
{
  return &g_array_index (self->bearers, Bearer, index);
}

/* An empty entry is a part of 0 %. Returns: %FALSE when what is typed is no percentage. */
static gboolean
read_percent (const Bearer *bearer,
              gint64       *out)
{
  const char *typed = gtk_editable_get_text (GTK_EDITABLE (bearer->entry));
  g_autofree char *text = g_strstrip (g_strdup (typed));
  g_autofree char *with_sign = NULL;

  *out = 0;
  if (*text == '\0')
    return TRUE;
  with_sign = strchr (text, '%') != NULL ? g_strdup (text) : g_strconcat (text, " %", NULL);
  return wb_percent_parse (with_sign, out, NULL);
}

/* Returns: (transfer full): the parts; @unread: (out) (nullable): the first that does not read */
static GArray *
read_parts (WbSplitWindow  *self,
            const Bearer  **unread)
{
  GArray *parts = g_array_new (FALSE, TRUE, sizeof (WbHandPart));

  *unread = NULL;
  for (guint i = 0; i < self->bearers->len; i++)
    {
      const Bearer *bearer = get_bearer (self, i);
      WbHandPart part = { bearer->name, 0 };

      if (!read_percent (bearer, &part.percent) && *unread == NULL)
        *unread = bearer;
      g_array_append_val (parts, part);
    }
  return parts;
}

static char *
find_fault (WbSplitWindow *self)
{
  const Bearer *unread;
  g_autoptr (GArray) parts = read_parts (self, &unread);
  WbHandSplitFault fault;
  gint64 total;

  if (unread != NULL)
    /* Translators: what was typed, the name of a handler. */
    return g_strdup_printf (_("“%s” for %s is no percentage between 0 and 100; write it as in "
                              "“33.34”."), gtk_editable_get_text (GTK_EDITABLE (unread->entry)),
                            unread->name);
  fault = wb_hand_split_check ((const WbHandPart *) (gpointer) parts->data, parts->len,
                               gtk_editable_get_text (self->reason), &total);
  return wb_words_hand_split (fault, total);
}

/* --- what is shown ---------------------------------------------------------------------------- */

static void
show_fault (WbSplitWindow *self)
{
  g_autofree char *fault = self->tried ? find_fault (self) : NULL;

  gtk_label_set_label (self->fault, fault != NULL ? fault : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), fault != NULL);
}

static void
show_entry (const Bearer *bearer)
{
  gint64 percent;
  gboolean good = read_percent (bearer, &percent);

  if (good)
    gtk_widget_remove_css_class (bearer->entry, "error");
  else
    gtk_widget_add_css_class (bearer->entry, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (bearer->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               good ? GTK_ACCESSIBLE_INVALID_FALSE : GTK_ACCESSIBLE_INVALID_TRUE,
                               -1);
}

/* What each part comes to, once they are whole. */
static void
show_amounts (WbSplitWindow *self,
              const GArray  *parts,
              gint64         total)
{
  g_autofree gint64 *percents = g_new0 (gint64, parts->len);
  g_autofree gint64 *amounts = g_new0 (gint64, parts->len);
  gboolean whole = total == WHOLE;

  for (guint i = 0; i < parts->len; i++)
    percents[i] = g_array_index (parts, WbHandPart, i).percent;
  whole = whole && wb_minor_split (self->owed, percents, parts->len, amounts, NULL);
  for (guint i = 0; i < parts->len; i++)
    {
      g_autofree char *words = whole ? wb_words_minor (amounts[i], self->currency) : g_strdup ("–");

      gtk_label_set_label (GTK_LABEL (get_bearer (self, i)->amount), words);
    }
}

static void
show_all (WbSplitWindow *self)
{
  const Bearer *unread;
  g_autoptr (GArray) parts = read_parts (self, &unread);
  g_autofree char *sum = NULL;
  g_autofree char *words = NULL;
  gint64 total = 0;

  for (guint i = 0; i < self->bearers->len; i++)
    {
      total += g_array_index (parts, WbHandPart, i).percent;
      show_entry (get_bearer (self, i));
    }
  sum = wb_words_percent (total);
  /* Translators: a percentage. */
  words = g_strdup_printf (_("Together: %s of 100 %%"), sum);
  gtk_label_set_label (self->total, words);
  show_amounts (self, parts, unread == NULL ? total : 0);
  show_fault (self);
}

static void
changed_cb (WbSplitWindow *self)
{
  if (!self->filling)
    show_all (self);
}

/* --- deeds ------------------------------------------------------------------------------------ */

static gboolean
only_reason_is_missing (const GArray *parts)
{
  return wb_hand_split_check ((const WbHandPart *) (gpointer) parts->data, parts->len, NULL, NULL)
         == WB_HAND_SPLIT_NO_REASON;
}

static void
set_action (GtkWidget  *widget,
            const char *name,
            GVariant   *target)
{
  WbSplitWindow *self = WB_SPLIT_WINDOW (widget);
  const Bearer *unread;
  g_autoptr (GArray) parts = read_parts (self, &unread);
  g_autofree char *reason = NULL;
  g_autofree char *fault = NULL;

  self->tried = TRUE;
  show_all (self);
  fault = find_fault (self);
  if (fault != NULL)
    {
      gtk_widget_error_bell (widget);
      if (only_reason_is_missing (parts))
        {
          gtk_widget_grab_focus (GTK_WIDGET (self->reason));
          /* What is said of it takes some of the room. */
          wb_scroll_to (GTK_WIDGET (self->reason));
        }
      return;
    }
  /* The line can be gone meanwhile. */
  if (wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM_LINE, self->line_id) != NULL)
    {
      reason = g_strstrip (g_strdup (gtk_editable_get_text (self->reason)));
      wb_bearing_deeds_split (self->model, self->line_id,
                              (const WbHandPart *) (gpointer) parts->data, parts->len, reason);
    }
  gtk_window_close (GTK_WINDOW (self));
}

static void
by_rule_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  WbSplitWindow *self = WB_SPLIT_WINDOW (widget);

  wb_bearing_deeds_clear (self->model, self->line_id);
  gtk_window_close (GTK_WINDOW (self));
}

static void
set_percent (const Bearer *bearer,
             gint64        percent)
{
  g_autofree char *text = percent != 0 ? wb_percent_to_text (percent) : g_strdup ("");

  gtk_editable_set_text (GTK_EDITABLE (bearer->entry), text);
}

/* Equal parts for those that could have done it; what does not divide goes to the first. */
static void
equal_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbSplitWindow *self = WB_SPLIT_WINDOW (widget);
  g_autofree gint64 *could = g_new0 (gint64, self->bearers->len);
  g_autofree gint64 *parts = g_new0 (gint64, self->bearers->len);

  for (guint i = 0; i < self->bearers->len; i++)
    could[i] = get_bearer (self, i)->could ? 1 : 0;
  if (!wb_minor_split (WHOLE, could, self->bearers->len, parts, NULL))
    return;
  self->filling = TRUE;
  for (guint i = 0; i < self->bearers->len; i++)
    set_percent (get_bearer (self, i), parts[i]);
  self->filling = FALSE;
  show_all (self);
}

/* --- filling ---------------------------------------------------------------------------------- */

/* Enter goes on to the next entry, and from the last one splits. */
static void
next_cb (WbSplitWindow *self)
{
  gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD);
}

static GtkWidget *
new_name_label (const Bearer *bearer)
{
  g_autofree char *words = bearer->could
                           /* Translators: the name of a handler. */
                           ? g_strdup_printf (_("%s (could have done it)"), bearer->name)
                           : g_strdup (bearer->name);
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, TRUE);
  return label;
}

static void
add_bearer (WbSplitWindow *self,
            const char    *name,
            gboolean       could,
            gint64         percent)
{
  int row = (int) self->bearers->len;
  Bearer bearer = { g_strdup (name), could, gtk_entry_new (), gtk_label_new ("–") };
  /* Translators: the accessible name of an entry; the name of a handler. */
  g_autofree char *words = g_strdup_printf (_("Percentage of %s"), name);

  gtk_editable_set_width_chars (GTK_EDITABLE (bearer.entry), 8);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (bearer.entry), 8);
  gtk_editable_set_alignment (GTK_EDITABLE (bearer.entry), 1);
  gtk_widget_set_valign (bearer.entry, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (bearer.entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
  gtk_label_set_width_chars (GTK_LABEL (bearer.amount), 10);
  gtk_label_set_xalign (GTK_LABEL (bearer.amount), 1);
  gtk_widget_add_css_class (bearer.amount, "numeric");
  set_percent (&bearer, percent);
  gtk_grid_attach (self->grid, new_name_label (&bearer), 0, row, 1, 1);
  gtk_grid_attach (self->grid, bearer.entry, 1, row, 1, 1);
  gtk_grid_attach (self->grid, bearer.amount, 2, row, 1, 1);
  g_signal_connect_object (bearer.entry, "changed", G_CALLBACK (changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (bearer.entry, "activate", G_CALLBACK (next_cb), self, G_CONNECT_SWAPPED);
  g_array_append_val (self->bearers, bearer);
}

/* What stands there: the shares set by hand; or what the rule says, to begin from. */
static gint64
percent_now (const WbApportionment *shares,
             const WbLineShares    *line,
             guint                  handler)
{
  const WbJob *job = shares->reckoning->job;
  gint64 sum = 0;
  gboolean any = FALSE;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_SHARE); i++)
    {
      const WbShare *share = wb_job_nth (job, WB_KIND_SHARE, i);

      if (g_strcmp0 (share->claim_line, line->line->record.id) != 0)
        continue;
      any = TRUE;
      if (share->percent != WB_INTEGER_UNSET
          && wb_apportionment_find (shares, share->handler) == (gint) handler)
        sum += share->percent;
    }
  if (any)
    return sum;
  return line->owed > 0 && line->parts[handler] + line->cut[handler] == line->owed ? WHOLE : 0;
}

static gboolean
carries (const WbParty *party)
{
  switch (party->role)
    {
    case WB_ROLE_BOOKING_AGENT:
    case WB_ROLE_ORIGIN_AGENT:
    case WB_ROLE_DESTINATION_AGENT:
    case WB_ROLE_HAULER:
    case WB_ROLE_WAREHOUSE:
      return TRUE;
    case WB_ROLE_NONE:
    case WB_ROLE_SHIPPER:
    case WB_ROLE_CONSIGNEE:
    case WB_ROLE_PAYER:
    case WB_ROLE_CARRIER:
    case WB_ROLE_CONTACT:
    case WB_ROLE_NOTIFY:
      break;
    }
  return FALSE;
}

/* Those that no handover names can have had the goods all the same. */
static void
add_other_parties (WbSplitWindow         *self,
                   const WbApportionment *shares)
{
  const WbJob *job = shares->reckoning->job;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);
      const char *name = party->company != NULL ? party->company : party->name;

      if (name != NULL && carries (party) && wb_apportionment_find (shares, name) < 0)
        add_bearer (self, name, FALSE, 0);
    }
}

static void
fill (WbSplitWindow         *self,
      const WbApportionment *shares,
      guint                  index)
{
  const WbLineShares *line = &shares->lines[index];
  g_autofree char *name = wb_words_claim_line (shares->reckoning->job, line->line);
  g_autofree char *owed = wb_words_minor (line->owed, self->currency);
  g_autofree char *subtitle = g_strdup_printf ("%s: %s", name, owed);
  g_autofree char *why = wb_words_shared (shares, index);
  const char *reason = wb_hand_split_reason (shares->reckoning->job, self->line_id);

  adw_window_title_set_subtitle (self->title, subtitle);
  gtk_label_set_label (self->why, why);
  self->filling = TRUE;
  for (guint i = 0; i < shares->n_handlers; i++)
    {
      g_autofree char *handler = wb_words_handler (&shares->handlers[i]);

      /* A carrier without a name cannot be named in a share; the rule's rest is its anyway. */
      if (shares->handlers[i].name != NULL)
        add_bearer (self, handler, line->could[i], percent_now (shares, line, i));
    }
  add_other_parties (self, shares);
  gtk_editable_set_text (self->reason, reason != NULL ? reason : "");
  self->filling = FALSE;
  gtk_widget_set_visible (self->by_rule, line->why == WB_SHARED_BY_HAND || line->hand_fault);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "split.by-rule",
                                 gtk_widget_get_visible (self->by_rule));
  show_all (self);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_split_window_dispose (GObject *object)
{
  WbSplitWindow *self = WB_SPLIT_WINDOW (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_SPLIT_WINDOW);
  g_clear_object (&self->model);
  g_clear_pointer (&self->line_id, g_free);
  g_clear_pointer (&self->currency, g_free);

  G_OBJECT_CLASS (wb_split_window_parent_class)->dispose (object);
}

static void
wb_split_window_finalize (GObject *object)
{
  g_array_unref (WB_SPLIT_WINDOW (object)->bearers);

  G_OBJECT_CLASS (wb_split_window_parent_class)->finalize (object);
}

static void
wb_split_window_class_init (WbSplitWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_split_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_split_window_finalize;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-split-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbSplitWindow, title);
  gtk_widget_class_bind_template_child (widget_class, WbSplitWindow, why);
  gtk_widget_class_bind_template_child (widget_class, WbSplitWindow, grid);
  gtk_widget_class_bind_template_child (widget_class, WbSplitWindow, total);
  gtk_widget_class_bind_template_child (widget_class, WbSplitWindow, reason);
  gtk_widget_class_bind_template_child (widget_class, WbSplitWindow, fault);
  gtk_widget_class_bind_template_child (widget_class, WbSplitWindow, by_rule);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);

  gtk_widget_class_install_action (widget_class, "split.set", NULL, set_action);
  gtk_widget_class_install_action (widget_class, "split.equal", NULL, equal_action);
  gtk_widget_class_install_action (widget_class, "split.by-rule", NULL, by_rule_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, GDK_CONTROL_MASK, "split.set",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, GDK_CONTROL_MASK,
                                       "split.set", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
wb_split_window_init (WbSplitWindow *self)
{
  self->bearers = g_array_new (FALSE, TRUE, sizeof (Bearer));
  g_array_set_clear_func (self->bearers, clear_bearer);
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_split_window_new (GtkWindow             *parent,
                     WbJobModel            *model,
                     const WbApportionment *apportionment,
                     const char            *line_id)
{
  WbSplitWindow *self;

  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);
  g_return_val_if_fail (apportionment != NULL && line_id != NULL, NULL);

  self = g_object_new (WB_TYPE_SPLIT_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE,
                       "modal", TRUE, NULL);
  self->model = g_object_ref (model);
  self->line_id = g_strdup (line_id);
  self->currency = g_strdup (apportionment->reckoning->terms->currency);
  for (guint i = 0; i < apportionment->n_lines; i++)
    if (g_strcmp0 (apportionment->lines[i].line->record.id, line_id) == 0)
      {
        self->owed = apportionment->lines[i].owed;
        fill (self, apportionment, i);
      }
  if (self->bearers->len > 0)
    gtk_widget_grab_focus (get_bearer (self, 0)->entry);
  return GTK_WIDGET (self);
}
