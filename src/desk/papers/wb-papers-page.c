/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job file lacks, its papers and its contact log. The checklist is worked out anew at every
 * change, once a frame; its rows are made anew only where they differ. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/papers/wb-papers-page.h"

#include "desk/papers/wb-checklist-rows.h"
#include "desk/records/wb-record-draft.h"
#include "desk/records/wb-record-section.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-focus-within.h"
#include "desk/widgets/wb-reveal.h"
#include "office/wb-words-papers.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* One list of rows: those that it shows, and what they say. */
typedef struct
{
  GPtrArray *rows;     /* borrowed from the list */
  GPtrArray *texts;    /* of wb_checklist_row_text() */
} RowGroup;

enum { NOW, LATER, THERE, NOT_NEEDED, N_GROUPS };

struct _WbPapersPage
{
  GtkWidget            parent_instance;

  GtkWidget           *content;
  AdwPreferencesGroup *now_group;
  GtkListBox          *now;
  AdwExpanderRow      *later;
  AdwExpanderRow      *there;
  AdwExpanderRow      *not_needed;
  WbRecordSection     *papers;
  WbRecordSection     *contacts;

  WbJobModel          *model;
  RowGroup             groups[N_GROUPS];
  guint                tick;
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

static void revealer_init (WbRevealerInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (WbPapersPage, wb_papers_page, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (WB_TYPE_REVEALER, revealer_init))

/* --- the checklist ---------------------------------------------------------------------------- */

static int
group_of (const WbJob            *job,
          const WbChecklistEntry *entry)
{
  switch (entry->state)
    {
    case WB_ITEM_STATE_THERE:
      return THERE;
    case WB_ITEM_STATE_MISSING:
      return wb_checklist_is_urgent (job, entry) ? NOW : LATER;
    case WB_ITEM_STATE_NOT_NEEDED:
      return NOT_NEEDED;
    }
  g_return_val_if_reached (NOT_NEEDED);
}

static AdwExpanderRow *
expander_of (WbPapersPage *self,
             int           group)
{
  return group == LATER ? self->later : group == THERE ? self->there : self->not_needed;
}

static void
remove_rows (WbPapersPage *self,
             int           group)
{
  GPtrArray *rows = self->groups[group].rows;

  for (guint i = 0; i < rows->len; i++)
    {
      if (group == NOW)
        gtk_list_box_remove (self->now, g_ptr_array_index (rows, i));
      else
        adw_expander_row_remove (expander_of (self, group), g_ptr_array_index (rows, i));
    }
  g_ptr_array_set_size (rows, 0);
}

static void
add_row (WbPapersPage *self,
         int           group,
         GtkWidget    *row)
{
  if (group == NOW)
    gtk_list_box_append (self->now, row);
  else
    adw_expander_row_add_row (expander_of (self, group), row);
  g_ptr_array_add (self->groups[group].rows, row);
}

static gboolean
same_texts (GPtrArray *a,
            GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;

  for (guint i = 0; i < a->len; i++)
    if (!g_str_equal (g_ptr_array_index (a, i), g_ptr_array_index (b, i)))
      return FALSE;

  return TRUE;
}

/* Whoever went along the rows that are made anew goes on at the first of them. */
static void
show_group (WbPapersPage *self,
            const WbJob  *job,
            GArray       *entries,
            int           group)
{
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  gboolean had_focus = gtk_widget_get_focus_child (GTK_WIDGET (self->now)) != NULL;

  for (guint i = 0; i < entries->len; i++)
    {
      const WbChecklistEntry *entry = &g_array_index (entries, WbChecklistEntry, i);

      if (group_of (job, entry) == group)
        g_ptr_array_add (texts, wb_checklist_row_text (job, entry));
    }
  if (same_texts (texts, self->groups[group].texts))
    return;

  remove_rows (self, group);
  for (guint i = 0; i < entries->len; i++)
    {
      const WbChecklistEntry *entry = &g_array_index (entries, WbChecklistEntry, i);

      if (group_of (job, entry) == group)
        add_row (self, group, wb_checklist_row_new (job, entry));
    }
  g_ptr_array_unref (self->groups[group].texts);
  self->groups[group].texts = g_steal_pointer (&texts);
  if (group == NOW && had_focus && self->groups[NOW].rows->len > 0)
    gtk_widget_grab_focus (g_ptr_array_index (self->groups[NOW].rows, 0));
}

static void
show_title (AdwExpanderRow *row,
            const char     *format,
            guint           n)
{
  GString *title = g_string_new (format);
  g_autofree char *number = g_strdup_printf ("%u", n);

  g_string_replace (title, "%u", number, 1);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title->str);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, title->str,
                                  -1);
  gtk_widget_set_visible (GTK_WIDGET (row), n > 0);
  g_string_free (title, TRUE);
}

static void
show_titles (WbPapersPage *self,
             const WbJob  *job)
{
  const WbOrder *order = wb_job_order (job);
  guint n = self->groups[NOW].rows->len;
  GString *title = g_string_new (wb_words_missing_format (n));
  g_autofree char *number = g_strdup_printf ("%u", n);
  /* Translators: how far the job is, and whose rules the list goes by. */
  g_autofree char *description = g_strdup_printf (_("Stage: %s. %s"),
                                                  wb_words_enum (&wb_stages, (int) order->stage),
                                                  wb_words_authority (wb_order_authority (order)));

  g_string_replace (title, "%u", number, 1);
  adw_preferences_group_set_title (self->now_group, title->str);
  adw_preferences_group_set_description (self->now_group, description);
  g_string_free (title, TRUE);

  n = self->groups[LATER].rows->len;
  /* Translators: %u is a number. */
  show_title (self->later, ngettext ("%u thing is missing for later stages",
                                     "%u things are missing for later stages", n), n);
  n = self->groups[THERE].rows->len;
  /* Translators: %u is a number. */
  show_title (self->there, ngettext ("%u thing is there", "%u things are there", n), n);
  n = self->groups[NOT_NEEDED].rows->len;
  /* Translators: %u is a number. */
  show_title (self->not_needed, ngettext ("%u thing is not needed", "%u things are not needed", n),
              n);
}

static void
show_job (WbPapersPage *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (GArray) entries = NULL;
  GDate today;

  wb_office_today (&today);
  entries = wb_checklist (job, &today);
  for (int group = 0; group < N_GROUPS; group++)
    show_group (self, job, entries, group);
  show_titles (self, job);
}

static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  WbPapersPage *self = WB_PAPERS_PAGE (widget);

  self->tick = 0;
  show_job (self);
  return G_SOURCE_REMOVE;
}

/* However often the job changes, and not at all while nobody looks. */
static void
queue_update (WbPapersPage *self)
{
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), tick_cb, NULL, NULL);
}

/* --- actions ---------------------------------------------------------------------------------- */

static void
add_paper_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_record_section_add (WB_PAPERS_PAGE (widget)->papers);
}

static void
add_contact_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *target)
{
  wb_record_section_add (WB_PAPERS_PAGE (widget)->contacts);
}

/* Returns: what the checklist finds lacking in the paper @id first, else the day when it was
 * made. */
static const char *
first_lacking (const WbJob *job,
               const char  *id)
{
  g_autoptr (GArray) entries = wb_checklist (job, NULL);

  for (guint i = 0; i < entries->len; i++)
    {
      const WbChecklistEntry *entry = &g_array_index (entries, WbChecklistEntry, i);

      if (entry->kind == WB_KIND_PAPER && entry->state == WB_ITEM_STATE_MISSING
          && g_strcmp0 (entry->id, id) == 0 && entry->field != NULL)
        return entry->field;
    }
  return "made_on";
}

static void
add_kind_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *target)
{
  WbPapersPage *self = WB_PAPERS_PAGE (widget);
  const WbEnumValue *kind = wb_enum_find_nick (&wb_paper_kinds,
                                               g_variant_get_string (target, NULL));
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbJob) job = NULL;
  g_autofree char *deed = NULL;

  g_return_if_fail (kind != NULL);

  job = wb_record_draft_add_paper (wb_job_model_get_job (self->model), (WbPaperKind) kind->value,
                                   id);
  /* Translators: %s is a kind of paper. */
  deed = g_strdup_printf (_("Add paper: %s"), wb_words_enum (&wb_paper_kinds, kind->value));
  wb_job_model_apply (self->model, job, deed);
  wb_record_section_reveal (self->papers, id, first_lacking (job, id));
}

static gboolean
reveal (WbRevealer *revealer,
        WbKind      kind,
        const char *id,
        const char *field)
{
  WbPapersPage *self = WB_PAPERS_PAGE (revealer);

  if (kind == WB_KIND_PAPER)
    return wb_record_section_reveal (self->papers, id, field);
  if (kind == WB_KIND_CONTACT)
    return wb_record_section_reveal (self->contacts, id, field);

  return FALSE;
}

static void
revealer_init (WbRevealerInterface *iface)
{
  iface->reveal = reveal;
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_papers_page_get_property (GObject    *object,
                             guint       prop_id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  WbPapersPage *self = WB_PAPERS_PAGE (object);

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
wb_papers_page_set_property (GObject      *object,
                             guint         prop_id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  WbPapersPage *self = WB_PAPERS_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      self->model = g_value_dup_object (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_papers_page_constructed (GObject *object)
{
  WbPapersPage *self = WB_PAPERS_PAGE (object);

  G_OBJECT_CLASS (wb_papers_page_parent_class)->constructed (object);

  if (self->model == NULL)
    return;
  g_signal_connect_object (self->model, "notify::job", G_CALLBACK (queue_update), self,
                           G_CONNECT_SWAPPED);
  show_job (self);
}

static void
wb_papers_page_dispose (GObject *object)
{
  WbPapersPage *self = WB_PAPERS_PAGE (object);

  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  g_clear_pointer (&self->content, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_PAPERS_PAGE);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_papers_page_parent_class)->dispose (object);
}

static void
wb_papers_page_finalize (GObject *object)
{
  WbPapersPage *self = WB_PAPERS_PAGE (object);

  for (int group = 0; group < N_GROUPS; group++)
    {
      g_ptr_array_unref (self->groups[group].rows);
      g_ptr_array_unref (self->groups[group].texts);
    }

  G_OBJECT_CLASS (wb_papers_page_parent_class)->finalize (object);
}

/* To the first thing that is missing, so that Enter goes there; else to the page, where the arrows
 * scroll. */
static gboolean
wb_papers_page_grab_focus (GtkWidget *widget)
{
  WbPapersPage *self = WB_PAPERS_PAGE (widget);
  GPtrArray *rows = self->groups[NOW].rows;

  return gtk_widget_grab_focus (rows->len > 0 ? g_ptr_array_index (rows, 0) : self->content);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, WbPapersPage, content);
  gtk_widget_class_bind_template_child (widget_class, WbPapersPage, now_group);
  gtk_widget_class_bind_template_child (widget_class, WbPapersPage, now);
  gtk_widget_class_bind_template_child (widget_class, WbPapersPage, later);
  gtk_widget_class_bind_template_child (widget_class, WbPapersPage, there);
  gtk_widget_class_bind_template_child (widget_class, WbPapersPage, not_needed);
  gtk_widget_class_bind_template_child (widget_class, WbPapersPage, papers);
  gtk_widget_class_bind_template_child (widget_class, WbPapersPage, contacts);
}

static void
wb_papers_page_class_init (WbPapersPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_papers_page_get_property;
  object_class->set_property = wb_papers_page_set_property;
  object_class->constructed = wb_papers_page_constructed;
  object_class->dispose = wb_papers_page_dispose;
  object_class->finalize = wb_papers_page_finalize;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_papers_page_grab_focus;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_RECORD_SECTION);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/papers/wb-papers-page.ui");
  bind_children (widget_class);

  gtk_widget_class_install_action (widget_class, "papers.add-paper", NULL, add_paper_action);
  gtk_widget_class_install_action (widget_class, "papers.add-contact", NULL, add_contact_action);
  gtk_widget_class_install_action (widget_class, "papers.add-kind", "s", add_kind_action);
}

static void
wb_papers_page_init (WbPapersPage *self)
{
  for (int group = 0; group < N_GROUPS; group++)
    {
      self->groups[group].rows = g_ptr_array_new ();
      self->groups[group].texts = g_ptr_array_new_with_free_func (g_free);
    }

  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_papers_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_PAPERS_PAGE, "model", model, NULL);
}
