/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A flow of toggle buttons, one a page. Which page is shown is the job page's to say. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/job/wb-page-tabs.h"

#include "desk/widgets/wb-flow-layout.h"

#include <glib/gi18n.h>

#define COLUMN_SPACING 3
#define ROW_SPACING    6

struct _WbPageTabs
{
  GtkWidget        parent_instance;

  GtkToggleButton *chosen;   /* (unowned) (nullable): one of the children */
};

G_DEFINE_FINAL_TYPE (WbPageTabs, wb_page_tabs, GTK_TYPE_WIDGET)

/* --- the keyboard ----------------------------------------------------------------------------- */

static gboolean
has_focus_within (WbPageTabs *self)
{
  return (gtk_widget_get_state_flags (GTK_WIDGET (self)) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;
}

/* The neighbour of the tab with the focus, or %NULL at the end. */
static GtkWidget *
find_neighbour (WbPageTabs       *self,
                GtkDirectionType  direction)
{
  GtkWidget *tab = gtk_widget_get_focus_child (GTK_WIDGET (self));
  gboolean backward = direction == GTK_DIR_UP || direction == GTK_DIR_LEFT;

  if (tab == NULL)
    return NULL;
  if (gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL &&
      (direction == GTK_DIR_LEFT || direction == GTK_DIR_RIGHT))
    backward = !backward;
  return backward ? gtk_widget_get_prev_sibling (tab) : gtk_widget_get_next_sibling (tab);
}

static gboolean
wb_page_tabs_focus (GtkWidget        *widget,
                    GtkDirectionType  direction)
{
  WbPageTabs *self = WB_PAGE_TABS (widget);
  GtkWidget *next;

  if (!has_focus_within (self))
    return self->chosen != NULL && gtk_widget_grab_focus (GTK_WIDGET (self->chosen));
  if (direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD)
    return FALSE;
  next = find_neighbour (self, direction);
  return next != NULL && gtk_widget_grab_focus (next);
}

/* --- tabs ------------------------------------------------------------------------------------- */

static void
toggled_cb (WbPageTabs      *self,
            GtkToggleButton *tab)
{
  gboolean active = gtk_toggle_button_get_active (tab);

  gtk_accessible_update_state (GTK_ACCESSIBLE (tab), GTK_ACCESSIBLE_STATE_SELECTED, active, -1);
  if (!active)
    return;
  self->chosen = tab;
  gtk_widget_activate_action (GTK_WIDGET (self), "job.show-page", "s",
                              gtk_widget_get_name (GTK_WIDGET (tab)));
}

static GtkWidget *
make_face (const WbPageEntry *entry)
{
  GtkWidget *face = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_box_append (GTK_BOX (face), gtk_image_new_from_icon_name (entry->icon));
  gtk_box_append (GTK_BOX (face), gtk_label_new (_(entry->title)));
  return face;
}

void
wb_page_tabs_add (WbPageTabs        *self,
                  const WbPageEntry *entry)
{
  GtkWidget *tab;
  g_autofree char *tip = NULL;

  g_return_if_fail (WB_IS_PAGE_TABS (self));
  g_return_if_fail (entry != NULL);

  /* Translators: a page of a job and its key, such as “Order (Alt+1)”. */
  tip = g_strdup_printf (_("%s (Alt+%c)"), _(entry->title), entry->key);
  tab = g_object_new (GTK_TYPE_TOGGLE_BUTTON,
                      "accessible-role", GTK_ACCESSIBLE_ROLE_TAB,
                      "name", entry->name,
                      "child", make_face (entry),
                      "tooltip-text", tip,
                      NULL);
  gtk_widget_add_css_class (tab, "flat");
  gtk_accessible_update_property (GTK_ACCESSIBLE (tab), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _(entry->title), -1);
  if (self->chosen != NULL)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (tab), self->chosen);
  else
    self->chosen = GTK_TOGGLE_BUTTON (tab);
  gtk_widget_insert_before (tab, GTK_WIDGET (self), NULL);
  g_signal_connect_object (tab, "toggled", G_CALLBACK (toggled_cb), self, G_CONNECT_SWAPPED);
}

void
wb_page_tabs_choose (WbPageTabs *self,
                     const char *name)
{
  g_return_if_fail (WB_IS_PAGE_TABS (self));

  for (GtkWidget *tab = gtk_widget_get_first_child (GTK_WIDGET (self)); tab != NULL;
       tab = gtk_widget_get_next_sibling (tab))
    {
      if (g_strcmp0 (gtk_widget_get_name (tab), name) == 0)
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (tab), TRUE);
    }
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_page_tabs_dispose (GObject *object)
{
  WbPageTabs *self = WB_PAGE_TABS (object);
  GtkWidget *tab;

  self->chosen = NULL;
  while ((tab = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (tab);

  G_OBJECT_CLASS (wb_page_tabs_parent_class)->dispose (object);
}

static void
wb_page_tabs_class_init (WbPageTabsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_page_tabs_dispose;
  widget_class->focus = wb_page_tabs_focus;

  gtk_widget_class_set_css_name (widget_class, "wb-page-tabs");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_TAB_LIST);
}

static void
wb_page_tabs_init (WbPageTabs *self)
{
  gtk_widget_set_layout_manager (GTK_WIDGET (self),
                                 wb_flow_layout_new (COLUMN_SPACING, ROW_SPACING));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Pages of the job"), -1);
}
