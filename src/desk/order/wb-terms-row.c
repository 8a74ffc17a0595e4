/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Offers the regimes that the office has. Which one governs without a choice is for core to
 * find. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/order/wb-terms-row.h"

#include "core/wb-core.h"
#include "desk/widgets/wb-row-note.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbTermsRow
{
  AdwComboRow   parent_instance;

  WbJobModel   *model;
  GSignalGroup *model_signals;
  GtkWidget    *note;      /* which terms govern */
  GPtrArray    *regimes;   /* ids, in the order of the list; the first is "" for no choice */
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbTermsRow, wb_terms_row, ADW_TYPE_COMBO_ROW)

static const WbOrder *
get_order (WbTermsRow *self)
{
  return wb_job_order (wb_job_model_get_job (self->model));
}

static WbTermsSet *
get_terms (WbTermsRow *self)
{
  return wb_office_get_terms (wb_job_model_get_office (self->model));
}

static guint
find_regime (WbTermsRow *self,
             const char *id)
{
  guint index;

  if (g_ptr_array_find_with_equal_func (self->regimes, id != NULL ? id : "", g_str_equal, &index))
    return index;

  return GTK_INVALID_LIST_POSITION;
}

static void
add_regime (WbTermsRow    *self,
            GtkStringList *words,
            const char    *id,
            const char    *title)
{
  g_ptr_array_add (self->regimes, g_strdup (id));
  gtk_string_list_append (words, title);
}

static void
make_list (WbTermsRow *self)
{
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  WbTermsSet *terms = get_terms (self);
  const char *chosen = get_order (self)->terms;

  g_ptr_array_set_size (self->regimes, 0);
  add_regime (self, words, "", _("By kind of move and date"));
  for (guint i = 0; i < wb_terms_set_count (terms); i++)
    {
      const WbTerms *edition = wb_terms_set_nth (terms, i);

      if (find_regime (self, edition->regime) == GTK_INVALID_LIST_POSITION)
        add_regime (self, words, edition->regime, edition->title);
    }
  if (chosen != NULL && find_regime (self, chosen) == GTK_INVALID_LIST_POSITION)
    add_regime (self, words, chosen, chosen);

  adw_combo_row_set_model (ADW_COMBO_ROW (self), G_LIST_MODEL (words));
}

static char *
describe_governing (WbTermsRow *self)
{
  g_autoptr (GError) error = NULL;
  const WbTerms *edition = wb_terms_set_find (get_terms (self), get_order (self), &error);
  g_autofree char *from = NULL;

  if (edition == NULL && g_error_matches (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING))
    return g_strdup (_("Give the kind of move and a day of pick-up to find the terms that "
                       "govern."));
  if (edition == NULL)
    return wb_words_error (error);

  from = wb_words_date (&edition->from);
  /* Translators: a title of terms and the date of their edition. */
  return g_strdup_printf (_("Governed by %s, edition of %s"), edition->title, from);
}

static void
show_job (WbTermsRow *self)
{
  g_autofree char *governing = describe_governing (self);
  guint position = find_regime (self, get_order (self)->terms);

  if (position == GTK_INVALID_LIST_POSITION)
    {
      make_list (self);
      position = find_regime (self, get_order (self)->terms);
    }
  adw_combo_row_set_selected (ADW_COMBO_ROW (self), position);
  wb_row_note_set (self->note, governing, WB_NOTE_HINT);
}

static void
selected_cb (WbTermsRow *self)
{
  guint selected = adw_combo_row_get_selected (ADW_COMBO_ROW (self));
  const char *id;

  if (self->model == NULL || selected >= self->regimes->len)
    return;

  id = g_ptr_array_index (self->regimes, selected);
  if (selected != find_regime (self, get_order (self)->terms))
    wb_job_model_set_field (self->model, WB_KIND_ORDER, "order", "terms", id, NULL);
}

static void
set_model (WbTermsRow *self,
           WbJobModel *model)
{
  if (!g_set_object (&self->model, model))
    return;

  if (model != NULL)
    {
      make_list (self);
      show_job (self);
    }
  g_signal_group_set_target (self->model_signals, model);
}

static void
wb_terms_row_get_property (GObject    *object,
                           guint       prop_id,
                           GValue     *value,
                           GParamSpec *pspec)
{
  WbTermsRow *self = WB_TERMS_ROW (object);

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
wb_terms_row_set_property (GObject      *object,
                           guint         prop_id,
                           const GValue *value,
                           GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (WB_TERMS_ROW (object), g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_terms_row_dispose (GObject *object)
{
  WbTermsRow *self = WB_TERMS_ROW (object);

  g_clear_object (&self->model_signals);
  g_clear_pointer (&self->note, gtk_widget_unparent);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_terms_row_parent_class)->dispose (object);
}

static void
wb_terms_row_finalize (GObject *object)
{
  WbTermsRow *self = WB_TERMS_ROW (object);

  g_clear_pointer (&self->regimes, g_ptr_array_unref);

  G_OBJECT_CLASS (wb_terms_row_parent_class)->finalize (object);
}

static void
wb_terms_row_class_init (WbTermsRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_terms_row_get_property;
  object_class->set_property = wb_terms_row_set_property;
  object_class->dispose = wb_terms_row_dispose;
  object_class->finalize = wb_terms_row_finalize;

  properties[PROP_MODEL] = g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                                                G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
wb_terms_row_init (WbTermsRow *self)
{
  const char *label = wb_words_field (wb_record_type_field (wb_record_type (WB_KIND_ORDER),
                                                            "terms"));

  self->note = wb_row_note_new (GTK_LIST_BOX_ROW (self));
  self->regimes = g_ptr_array_new_with_free_func (g_free);
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), label);
  adw_combo_row_set_use_subtitle (ADW_COMBO_ROW (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);

  self->model_signals = g_signal_group_new (WB_TYPE_JOB_MODEL);
  g_signal_group_connect_swapped (self->model_signals, "notify::job", G_CALLBACK (show_job), self);
  g_signal_connect (self, "notify::selected", G_CALLBACK (selected_cb), NULL);
}
