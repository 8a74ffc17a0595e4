/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of keys, and what makes them work and be seen. A page that has keys adds its rows here;
 * a key that only means something inside one widget is that widget's own binding, and stands here
 * with no action, to be listed. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-accelerators.h"

#include <glib/gi18n.h>

/**
 * Accelerator:
 * @action: detailed action name, %NULL for a key that is only listed
 * @keys: accelerators with a space between
 * @group: heading in the shortcuts window; rows of one group stand together
 * @title: what it does
 */
typedef struct
{
  const char *action;
  const char *keys;
  const char *group;
  const char *title;
} Accelerator;

static const Accelerator table[] = {
  { "win.search", "<Control>f", N_("Jobs"), N_("Find a job") },
  { NULL, "Down Up", N_("Jobs"), N_("Choose among the jobs found") },
  { NULL, "Return", N_("Jobs"), N_("Open the chosen job") },
  { "win.new-job", "<Control><Shift>n", N_("Jobs"), N_("New job") },
  { "win.show-due", "<Control><Shift>d", N_("Jobs"), N_("What is due on claims") },
  { "win.show-report", "<Control><Shift>r", N_("Jobs"), N_("Report over claims") },
  { "win.save-papers", "<Control>p", N_("Jobs"), N_("Save the papers of the job as PDF") },
  { "win.save-bundle", "<Control><Shift>s", N_("Jobs"), N_("Save the job as a bundle") },
  { "win.open-bundle", "<Control><Shift>o", N_("Jobs"), N_("Open a bundle") },

  { "win.publish", "<Control><Shift>b", N_("File servers"), N_("Publish the job") },
  { "win.bring", "<Control><Shift>g", N_("File servers"),
    N_("Fetch what was changed there, or merge it") },
  { "win.show-published", "<Control><Shift>j", N_("File servers"), N_("Published jobs") },
  { "win.show-transfers", "<Control><Shift>t", N_("File servers"), N_("Transfers") },
  { NULL, "Return", N_("File servers"), N_("Look at the published job") },
  { NULL, "f", N_("File servers"), N_("Fetch the published job into the book") },
  { NULL, "c", N_("File servers"), N_("Check the published job's files on the server") },
  { NULL, "F5", N_("File servers"), N_("Ask the server again what is published") },
  { NULL, "h", N_("File servers"), N_("Of a difference, keep what is here") },
  { NULL, "t", N_("File servers"), N_("Of a difference, take what is there") },
  { NULL, "n", N_("File servers"), N_("Go to the next difference to decide") },
  { NULL, "<Control>Return", N_("File servers"), N_("Merge as it was decided") },
  { "win.show-servers", "<Control><Shift>m", N_("File servers"), N_("File servers") },
  { NULL, "<Control>n", N_("File servers"), N_("Add a file server") },
  { NULL, "F2", N_("File servers"), N_("Change or test the file server") },
  { NULL, "Delete", N_("File servers"), N_("Remove the file server") },
  { NULL, "<Control>t", N_("File servers"), N_("Test the connection") },
  { NULL, "<Control>s", N_("File servers"), N_("Store the file server") },

  { "job.show-page::order", "<Alt>1", N_("Job"), N_("Order") },
  { "job.show-page::papers", "<Alt>2", N_("Job"), N_("Papers") },
  { "job.show-page::packing", "<Alt>3", N_("Job"), N_("Packing") },
  { "job.show-page::inventory", "<Alt>4", N_("Job"), N_("Inventory") },
  { "job.show-page::photos", "<Alt>5", N_("Job"), N_("Photos") },
  { "job.show-page::handovers", "<Alt>6", N_("Job"), N_("Handovers") },
  { "job.show-page::valuation", "<Alt>7", N_("Job"), N_("Valuation") },
  { "job.show-page::claim", "<Alt>8", N_("Job"), N_("Claim") },
  { "job.undo", "<Control>z", N_("Job"), N_("Undo") },
  { "job.redo", "<Control><Shift>z <Control>y", N_("Job"), N_("Redo") },
  { "job.note-contact", "<Control><Alt>n", N_("Job"), N_("Note a conversation, dated now") },
  { "job.store", "<Control>s", N_("Job"), N_("Store at once") },

  { "order.add-party", "<Control><Alt>p", N_("Order"), N_("Add a party") },
  { "order.add-stop", "<Control><Alt>s", N_("Order"), N_("Add a stop") },
  { "order.add-weighing", "<Control><Alt>w", N_("Order"), N_("Add a weighing") },
  { NULL, "Return", N_("Order"), N_("Set the value typed") },
  { NULL, "Escape", N_("Order"), N_("Give up what is typed") },
  { NULL, "<Alt>Up <Alt>Down", N_("Order"), N_("Move the party, stop or weighing") },
  { NULL, "<Control>Delete", N_("Order"), N_("Remove the party, stop or weighing") },

  { "papers.add-paper", "<Control><Alt>f", N_("Papers"), N_("Add a paper") },
  { NULL, "Return", N_("Papers"), N_("Go to what is missing, or add the paper") },

  { "packing.cartons", "<Control><Alt>k", N_("Packing"), N_("Go to the cartons") },
  { "packing.only-open", "<Control><Alt>u", N_("Packing"),
    N_("Show only cartons with unmet or open checks") },
  { "packing.add-item", "<Control><Alt>i", N_("Packing"), N_("Plan a carton or material") },
  { NULL, "Return", N_("Packing"), N_("From a carton to its checks; write what was seen") },
  { NULL, "space m", N_("Packing"), N_("The check is met") },
  { NULL, "u", N_("Packing"), N_("The check is unmet") },
  { NULL, "o BackSpace", N_("Packing"), N_("Nobody has looked at the check") },
  { NULL, "a", N_("Packing"), N_("All open checks of the carton are met") },
  { NULL, "n", N_("Packing"), N_("Go to the next open check") },
  { NULL, "Escape", N_("Packing"), N_("Back to the cartons") },

  { "inventory.enter", "<Control>l", N_("Inventory"), N_("Enter a line") },
  { "inventory.go-to-tag", "<Control>g", N_("Inventory"), N_("Go to a tag, typed or scanned") },
  { "inventory.show-groups", "<Control><Shift>a", N_("Inventory"), N_("Articles and sets") },
  { "inventory.show-high-value", "<Control><Shift>h", N_("Inventory"),
    N_("Articles of high value") },
  { "inventory.contents", "<Control>i", N_("Inventory"), N_("List what is inside the carton") },
  { "inventory.photos", "<Control><Shift>i", N_("Inventory"), N_("Photos of the piece") },
  { "inventory.filter", "<Control><Shift>f", N_("Inventory"),
    N_("Filter the lines, or go to a tag") },
  { NULL, "Return", N_("Inventory"), N_("Take the line and go on to the next") },
  { NULL, "Escape", N_("Inventory"), N_("Take back what is typed, then go to the list") },
  { NULL, "Down Up", N_("Inventory"), N_("Take what was typed earlier") },
  { NULL, "<Control>d", N_("Inventory"), N_("The line before once more") },
  { NULL, "<Control><Shift>p", N_("Inventory"), N_("The next part of the same article") },
  { NULL, "<Control>apostrophe", N_("Inventory"), N_("One field of the line before once more") },
  { NULL, "<Control>Up <Control>Down", N_("Inventory"), N_("Change the line above or below") },
  { NULL, "F2", N_("Inventory"), N_("Change the selected lines") },
  { NULL, "Delete", N_("Inventory"), N_("Remove the selected lines") },
  { NULL, "slash", N_("Inventory"), N_("From the list to the filter") },

  { "photos.add", "<Control>o", N_("Photos"), N_("Take photos in") },
  { NULL, "<Control>v", N_("Photos"), N_("Paste a picture or files") },
  { NULL, "Return", N_("Photos"), N_("Open the photo; with the cross on it, set a pin") },
  { NULL, "F2", N_("Photos"), N_("Assign the selected photos to a piece") },
  { NULL, "c", N_("Photos"), N_("Compare origin and delivery of the piece") },
  { NULL, "Delete", N_("Photos"), N_("Remove the selected photos from the job") },
  { NULL, "slash", N_("Photos"), N_("From the photos to the filter") },
  { NULL, "Left Right Up Down", N_("Photos"), N_("Move the cross; with Shift finely") },
  { NULL, "plus minus 0", N_("Photos"), N_("Zoom in, out, and back to the whole photo") },
  { NULL, "Page_Up Page_Down", N_("Photos"), N_("Previous and next photo") },
  { NULL, "Escape", N_("Photos"), N_("Back to all photos") },
  { "handovers.count", "<Control><Alt>k", N_("Handovers"), N_("Count tags") },
  { "handovers.note", "<Control><Alt>e", N_("Handovers"), N_("Note marks") },
  { "handovers.finish", "<Control><Alt>f", N_("Handovers"), N_("Finish the count") },
  { "handovers.add", "<Control><Alt>h", N_("Handovers"), N_("Add a handover") },
  { NULL, "Return", N_("Handovers"), N_("Count what is typed, or the piece in the list") },
  { NULL, "Down Up", N_("Handovers"), N_("Show the path of a piece in the list") },
  { NULL, "<Alt>Up <Alt>Down", N_("Handovers"), N_("Move the handover") },
  { NULL, "<Control>Delete", N_("Handovers"), N_("Remove the handover") },

  { "claim.next-part", "F6", N_("Claim"), N_("Go to the next part of the page") },
  { "claim.previous-part", "<Shift>F6", N_("Claim"), N_("Go to the part before") },
  { "claim.add-claim", "<Control><Alt>c", N_("Claim"), N_("New claim") },
  { "claim.add-line", "<Control><Alt>l", N_("Claim"), N_("Add a line") },
  { "claim.remove-line", "<Control><Shift>Delete", N_("Claim"), N_("Remove the line") },
  { "claim.show-details", "<Control><Alt>d", N_("Claim"),
    N_("Details of the line: depreciation, salvage, set, cause") },
  { "claim.add-quote", "<Control><Alt>q", N_("Claim"), N_("Note a quote for the line") },
  { NULL, "<Control>Return", N_("Claim"), N_("Take the quote as the figure of the line") },
  { "claim.add-payment", "<Control><Alt>m", N_("Claim"), N_("Add a payment") },
  { "claim.accept-proposal", "<Control><Alt>a", N_("Claim"),
    N_("Make what the papers propose the verdict on the line") },
  { "claim.allow-line", "<Control><Alt>j", N_("Claim"), N_("Allow the line: it is paid") },
  { "claim.deny-line", "<Control><Alt>x", N_("Claim"), N_("Deny the line") },
  { "claim.take-step", "<Control><Alt>t", N_("Claim"),
    N_("Take a step: a letter, an offer, a release") },
  { "claim.write-letter", "<Control><Alt>o", N_("Claim"),
    N_("Letters: write one, or read what was sent") },
  { NULL, "<Control>Return", N_("Claim"), N_("In a letter: mark it as sent") },
  { "claim.what-if", "<Control><Alt>i", N_("Claim"),
    N_("See what it would come to if things were otherwise") },
  { "claim.show-reckoning", "<Control><Alt>r", N_("Claim"),
    N_("Go to what each choice would pay") },
  { "claim.show-bearing", "<Control><Alt>b", N_("Claim"), N_("Go to who bears each line") },
  { "claim.split-line", "<Control><Alt>v", N_("Claim"), N_("Split the line by hand") },
  { "claim.state-charges", "<Control><Alt>g", N_("Claim"),
    N_("Charge each handler what it bears") },
  { "claim.show-statements", "<Control><Alt>y", N_("Claim"), N_("Read the charge statements") },
  { NULL, "<Control>Return", N_("Claim"), N_("Split the line as it is typed") },
  { NULL, "Return Up Down", N_("Claim"), N_("Set the value typed and go along the column") },
  { NULL, "Escape", N_("Claim"), N_("Give up what is typed") },
  { NULL, "space", N_("Claim"), N_("Say why an amount is what it is") },
  { NULL, "<Control>c", N_("Claim"), N_("Copy the reason") },

  { "win.new-window", "<Control>n", N_("Windows"), N_("New window") },
  { "win.open-book", "<Control>o", N_("Windows"), N_("Open an office book") },
  { "win.close", "<Control>w", N_("Windows"), N_("Close the window") },
  { "win.back", "<Alt>Left", N_("Windows"), N_("Back to the list of jobs, in a narrow window") },
  { "app.quit", "<Control>q", N_("Windows"), N_("Quit") },
  { "win.help", "F1", N_("Windows"), N_("Help on what is shown") },
  { "win.show-keys", "<Control>question", N_("Windows"), N_("This list") },
};

static gboolean
is_application_action (const char *action)
{
  return g_str_has_prefix (action, "app.") || g_str_has_prefix (action, "win.");
}

void
wb_accelerators_install (GtkApplication *application)
{
  g_return_if_fail (GTK_IS_APPLICATION (application));

  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_auto (GStrv) keys = g_strsplit (table[i].keys, " ", -1);

      if (table[i].action != NULL && is_application_action (table[i].action))
        gtk_application_set_accels_for_action (application, table[i].action,
                                               (const char *const *) keys);
    }
}

typedef struct
{
  const Accelerator *row;
  WbPageFunc         get_page;
} Watch;

static gboolean
activate_from (GtkWidget         *widget,
               const Accelerator *row)
{
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;

  if (widget == NULL || !g_action_parse_detailed_name (row->action, &name, &target, NULL))
    return FALSE;

  return gtk_widget_activate_action_variant (widget, name, target);
}

static gboolean
shortcut_cb (GtkWidget *window,
             GVariant  *args,
             gpointer   data)
{
  const Watch *watch = data;

  return activate_from (gtk_root_get_focus (GTK_ROOT (window)), watch->row) ||
         activate_from (watch->get_page (window), watch->row);
}

void
wb_accelerators_watch (GtkWidget  *window,
                       WbPageFunc  get_page)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();

  g_return_if_fail (GTK_IS_WINDOW (window));

  /* Before the focus gets the key, as with the application's own. */
  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);

  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_auto (GStrv) keys = g_strsplit (table[i].keys, " ", -1);

      if (table[i].action == NULL || is_application_action (table[i].action))
        continue;

      for (gsize k = 0; keys[k] != NULL; k++)
        {
          Watch *watch = g_new (Watch, 1);
          GtkShortcutTrigger *trigger;
          GtkShortcutAction *act;

          watch->row = &table[i];
          watch->get_page = get_page;
          trigger = gtk_shortcut_trigger_parse_string (keys[k]);
          act = gtk_callback_action_new (shortcut_cb, watch, g_free);
          gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller),
                                                gtk_shortcut_new (trigger, act));
        }
    }

  gtk_widget_add_controller (window, controller);
}

static GtkWidget *
make_row (const Accelerator *accelerator)
{
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *keys = gtk_shortcut_label_new (accelerator->keys);

  gtk_widget_set_valign (keys, GTK_ALIGN_CENTER);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _(accelerator->title));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), keys);
  return row;
}

/* A list rather than the toolkit's pages of columns: it can be searched, and large text only makes
 * it longer. */
void
wb_accelerators_show (GtkWindow *window)
{
  GtkWidget *list = adw_preferences_window_new ();
  GtkWidget *page = adw_preferences_page_new ();
  GtkWidget *group = NULL;

  g_return_if_fail (GTK_IS_WINDOW (window));

  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    {
      if (i == 0 || !g_str_equal (table[i].group, table[i - 1].group))
        {
          group = adw_preferences_group_new ();
          adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), _(table[i].group));
          adw_preferences_page_add (ADW_PREFERENCES_PAGE (page), ADW_PREFERENCES_GROUP (group));
        }
      adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), make_row (&table[i]));
    }

  adw_preferences_window_add (ADW_PREFERENCES_WINDOW (list), ADW_PREFERENCES_PAGE (page));
  gtk_window_set_title (GTK_WINDOW (list), _("Keyboard Shortcuts"));
  gtk_window_set_default_size (GTK_WINDOW (list), 560, 620);
  gtk_window_set_modal (GTK_WINDOW (list), TRUE);
  gtk_window_set_transient_for (GTK_WINDOW (list), window);
  gtk_window_present (GTK_WINDOW (list));
}
