/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The details of a claim line. Its fields are tied to the record; categories and what belongs
 * together come from core and office. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-line-details.h"

#include "desk/claim/wb-claim-deeds.h"
#include "desk/widgets/wb-choice-row.h"
#include "desk/widgets/wb-columns.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-scroll-to.h"
#include "desk/widgets/wb-switch-row.h"
#include "office/wb-words-depreciation.h"
#include "office/wb-words-set.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>
#include <inttypes.h>

struct _WbLineDetails
{
  GtkWidget    parent_instance;

  GtkWidget   *box;
  GtkExpander *expander;
  GtkDropDown *category;
  GtkLabel    *category_words;
  GtkButton   *suggestion;
  GtkLabel    *together;
  GtkWidget   *mates;
  GtkWidget   *defence;
  GtkLabel    *denied;
  GtkLabel    *fault;

  WbJobModel  *model;
  char        *line_id;     /* (nullable) */
  const char  *suggested;   /* (nullable): nick, the catalogue's */
  gboolean     showing;     /* what changes is not a person's doing */
  guint        tick;
};

enum
{
  PROP_0,
  PROP_MODEL,
  PROP_LINE_ID,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbLineDetails, wb_line_details, GTK_TYPE_WIDGET)

static void
show_label (GtkLabel   *label,
            const char *words)
{
  gtk_label_set_label (label, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (label), words != NULL && *words != '\0');
}

static void
show_error (WbLineDetails *self,
            const GError  *error)
{
  g_autofree char *words = error != NULL ? wb_words_error (error) : NULL;

  show_label (self->fault, words);
}

static WbCatalog *
get_catalog (WbLineDetails *self)
{
  return wb_office_get_catalog (wb_job_model_get_office (self->model));
}

static const WbClaimLine *
get_line (WbLineDetails *self)
{
  return self->model != NULL
         ? wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM_LINE, self->line_id)
         : NULL;
}

/* --- category --------------------------------------------------------------------------------- */

/* The list: none, then the categories of the catalogue in their order. */
static void
fill_categories (WbLineDetails *self)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);
  g_autoptr (GtkExpression) name = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL,
                                                                "string");
  guint n = wb_catalog_count (get_catalog (self), WB_CATALOG_DEPRECIATION);

  gtk_string_list_append (list, _("No category"));
  for (guint i = 0; i < n; i++)
    gtk_string_list_append (list, wb_catalog_nth (get_catalog (self), WB_CATALOG_DEPRECIATION, i)
                                    ->name);
  self->showing = TRUE;
  gtk_drop_down_set_expression (self->category, name);
  gtk_drop_down_set_model (self->category, G_LIST_MODEL (list));
  self->showing = FALSE;
}

static guint
place_of (WbLineDetails *self,
          const char    *nick)
{
  guint n = wb_catalog_count (get_catalog (self), WB_CATALOG_DEPRECIATION);

  for (guint i = 0; nick != NULL && i < n; i++)
    if (g_str_equal (wb_catalog_nth (get_catalog (self), WB_CATALOG_DEPRECIATION, i)->nick, nick))
      return i + 1;
  return 0;
}

static void
set_category (WbLineDetails *self,
              const char    *nick)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job =
    wb_office_choose_depreciation (wb_job_model_get_office (self->model),
                                   wb_job_model_get_job (self->model), self->line_id, nick, &error);

  show_error (self, error);
  if (job != NULL)
    wb_job_model_apply (self->model, job, _("Choose depreciation"));
}

static void
category_chosen_cb (WbLineDetails *self)
{
  guint chosen = gtk_drop_down_get_selected (self->category);
  const WbClaimLine *line = get_line (self);

  if (self->showing || line == NULL || chosen == GTK_INVALID_LIST_POSITION
      || chosen == place_of (self, line->category))
    return;
  set_category (self, chosen == 0 ? NULL
                : wb_catalog_nth (get_catalog (self), WB_CATALOG_DEPRECIATION, chosen - 1)->nick);
}

static void
take_category_action (GtkWidget  *widget,
                      const char *name,
                      GVariant   *target)
{
  WbLineDetails *self = WB_LINE_DETAILS (widget);

  if (get_line (self) == NULL || self->suggested == NULL)
    return;
  /* The button goes away; the list is where one goes on. */
  gtk_widget_grab_focus (gtk_widget_get_first_child (GTK_WIDGET (self->category)));
  set_category (self, self->suggested);
}

/* What the words of the line or of its piece tell of. */
static const WbCatalogEntry *
guess (WbLineDetails     *self,
       const WbClaimLine *line)
{
  const WbPiece *piece = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_PIECE,
                                      line->piece);
  const WbCatalogEntry *found = NULL;

  if (line->item != NULL)
    found = wb_catalog_match_depreciation (get_catalog (self), line->item);
  if (found == NULL && piece != NULL && piece->description != NULL)
    found = wb_catalog_match_depreciation (get_catalog (self), piece->description);
  return found;
}

static void
show_suggestion (WbLineDetails     *self,
                 const WbClaimLine *line)
{
  const WbCatalogEntry *found = line->category == NULL ? guess (self, line) : NULL;
  g_autofree char *words = NULL;

  self->suggested = found != NULL ? found->nick : NULL;
  gtk_widget_set_visible (GTK_WIDGET (self->suggestion), found != NULL);
  if (found == NULL)
    return;
  /* Translators: %s is a category of depreciation that a description tells of. */
  words = g_strdup_printf (_("Take “%s”"), found->name);
  gtk_button_set_label (self->suggestion, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->suggestion), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
}

static void
show_category (WbLineDetails     *self,
               const WbClaimLine *line)
{
  const WbCatalogEntry *entry = line->category == NULL ? NULL
                                : wb_catalog_find (get_catalog (self), WB_CATALOG_DEPRECIATION,
                                                   line->category);
  const char *source = entry != NULL ? wb_words_depreciation_source (entry) : NULL;
  g_autofree char *stands = wb_words_depreciation_of_line (get_catalog (self), line);
  g_autofree char *whole = NULL;

  self->showing = TRUE;
  gtk_drop_down_set_selected (self->category, place_of (self, line->category));
  self->showing = FALSE;
  if (stands != NULL && source != NULL)
    whole = g_strdup_printf ("%s [%s]", stands, source);
  show_label (self->category_words, whole != NULL ? whole : stands);
  show_suggestion (self, line);
}

/* --- what belongs together -------------------------------------------------------------------- */

static void
add_sentence (GString *out,
              char    *sentence)
{
  if (sentence != NULL)
    g_string_append_printf (out, "%s%s", out->len > 0 ? "\n" : "", sentence);
  g_free (sentence);
}

static void
show_together (WbLineDetails     *self,
               const WbTerms     *terms,
               const WbClaimLine *line)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (GArray) mates = wb_claim_set_mates (job, line);
  g_autoptr (GString) out = g_string_new (NULL);
  gboolean unclaimed = FALSE;

  add_sentence (out, wb_words_set (job, line));
  add_sentence (out, wb_words_parts (terms, job, line));
  add_sentence (out, wb_words_carton (terms, job, line));
  add_sentence (out, wb_words_sharers (job, line));
  if (out->len == 0)
    g_string_append (out, _("The piece belongs to no set, article or carton."));
  show_label (self->together, out->str);
  for (guint i = 0; i < mates->len; i++)
    unclaimed = unclaimed || g_array_index (mates, WbMate, i).line == NULL;
  gtk_widget_set_visible (self->mates, unclaimed);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "line.claim-mates", unclaimed);
}

static void
claim_mates_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *target)
{
  WbLineDetails *self = WB_LINE_DETAILS (widget);
  g_autoptr (GError) error = NULL;

  if (get_line (self) == NULL)
    return;
  wb_claim_deeds_add_mates (self->model, self->line_id, &error);
  show_error (self, error);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
set_line (WbLineDetails *self,
          const char    *line_id)
{
  if (g_strcmp0 (line_id, self->line_id) == 0)
    return;
  g_free (self->line_id);
  self->line_id = g_strdup (line_id);
  show_label (self->fault, NULL);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_LINE_ID]);
}

void
wb_line_details_show (WbLineDetails     *self,
                      const WbReckoning *reckoning,
                      const char        *line_id)
{
  const WbClaimLine *line;
  g_autofree char *heading = NULL;
  gboolean denied;

  g_return_if_fail (WB_IS_LINE_DETAILS (self));

  /* The page may show a line before its model has come here. */
  if (self->model == NULL)
    return;
  set_line (self, line_id);
  line = get_line (self);
  gtk_widget_set_visible (GTK_WIDGET (self), line != NULL);
  if (line == NULL)
    return;

  /* Translators: the number of a claim line. */
  heading = g_strdup_printf (_("Details of Line %" PRId64), line->number);
  gtk_expander_set_label (self->expander, heading);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->expander), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  heading, -1);
  show_category (self, line);
  show_together (self, reckoning != NULL ? reckoning->terms : NULL, line);
  denied = line->ruling == WB_RULING_DENIED;
  gtk_widget_set_visible (self->defence, denied || line->defence != WB_DEFENCE_NONE);
  show_label (self->denied, denied && line->ruling_reason == NULL
              ? _("A denial has to give its reason (49 USC 14706(e)). Write it; no letter goes out "
                  "without it.") : NULL);
}

/* The details have their place only in the frame after they are opened. */
static gboolean
go_to_first_cb (GtkWidget     *widget,
                GdkFrameClock *clock,
                gpointer       data)
{
  WbLineDetails *self = WB_LINE_DETAILS (widget);

  self->tick = 0;
  gtk_widget_grab_focus (gtk_widget_get_first_child (GTK_WIDGET (self->category)));
  wb_scroll_to (widget);
  return G_SOURCE_REMOVE;
}

void
wb_line_details_open (WbLineDetails *self)
{
  g_return_if_fail (WB_IS_LINE_DETAILS (self));

  gtk_expander_set_expanded (self->expander, TRUE);
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), go_to_first_cb, NULL, NULL);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_line_details_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  WbLineDetails *self = WB_LINE_DETAILS (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    case PROP_LINE_ID:
      g_value_set_string (value, self->line_id);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_line_details_set_property (GObject      *object,
                              guint         prop_id,
                              const GValue *value,
                              GParamSpec   *pspec)
{
  WbLineDetails *self = WB_LINE_DETAILS (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      if (g_set_object (&self->model, g_value_get_object (value)) && self->model != NULL)
        fill_categories (self);
      break;
    case PROP_LINE_ID:
      set_line (self, g_value_get_string (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_line_details_dispose (GObject *object)
{
  WbLineDetails *self = WB_LINE_DETAILS (object);

  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_LINE_DETAILS);
  g_clear_object (&self->model);
  g_clear_pointer (&self->line_id, g_free);

  G_OBJECT_CLASS (wb_line_details_parent_class)->dispose (object);
}

static void
wb_line_details_class_init (WbLineDetailsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_line_details_get_property;
  object_class->set_property = wb_line_details_set_property;
  object_class->dispose = wb_line_details_dispose;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_LINE_ID] =
    g_param_spec_string ("line-id", NULL, NULL, NULL,
                         G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_CHOICE_ROW);
  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_FIELD_ROW);
  g_type_ensure (WB_TYPE_SWITCH_ROW);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-line-details.ui");
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, box);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, expander);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, category);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, category_words);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, suggestion);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, together);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, mates);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, defence);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, denied);
  gtk_widget_class_bind_template_child (widget_class, WbLineDetails, fault);
  gtk_widget_class_bind_template_callback (widget_class, category_chosen_cb);

  gtk_widget_class_install_action (widget_class, "line.take-category", NULL,
                                   take_category_action);
  gtk_widget_class_install_action (widget_class, "line.claim-mates", NULL, claim_mates_action);
}

static void
wb_line_details_init (WbLineDetails *self)
{
  GtkWidget *button;

  gtk_widget_init_template (GTK_WIDGET (self));
  /* The button in a drop-down has the focus, and takes no name from the drop-down. */
  button = gtk_widget_get_first_child (GTK_WIDGET (self->category));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Depreciation category"), -1);
}
