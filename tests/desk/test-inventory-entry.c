/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Entering an inventory with the keyboard alone, through real keys.
 *
 * Two people stand in a house: one reads aloud, the clerk types and looks at the sheet, not at the
 * screen. What the reader says, and what the clerk has to do for it:
 *
 *   1. "Blue 204, from one."          Once: the lot is there, its first tag stands in the strip.
 *   2. "Living room. Loose. I         What stays from line to line is typed once: room, who packed,
 *      packed."                       form, kind of carton. Enter goes to the description when
 *                                     nothing of the line itself is typed yet.
 *   3. "One, sofa, scratched front."  Description, Enter. Tab leads on to contents, condition and
 *                                     weight; Alt and a letter leads anywhere. The codes are said
 *                                     back in words before Enter is pressed.
 *   4. (Enter)                        The line is in the list, the next tag is there, the focus is
 *                                     on the description.
 *   5. "Two, three, four: the same."  Ctrl+D, Enter. Ctrl+D, Enter. Ctrl+D, Enter.
 *   6. "Same room as before."         Nothing: it stays. Ctrl+' repeats one field.
 *   7. "Bedroom one", said before     The start of the word; Down takes what was typed earlier.
 *   8. "Twenty; seventeen is torn."   The tag is typed over; the sheet counts on from there, and
 *                                     says that 17 is missing.
 *   9. "No, the last is worn too."    Ctrl+Up, and the last line is there for changing; Enter goes
 *                                     back to the new line, and what was begun there still is.
 *  10. "Forty o pounds", a slip       It says so under the weight; what was typed stays until it is
 *                                     mended.
 *  11. "Three hundred", the roll's    It says so under the tag; Alt+L for the next lot, whose first
 *      end                            tag comes by itself.
 *  12. "Forget it."                   Escape: back to what stays. Escape again: to the list.
 */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-window.h"

#include "core/wb-tags.h"

static void
set_up (InventoryDesk *desk,
        gconstpointer  data)
{
  inventory_desk_open (desk, 0, 1180, 760);
}

static void
tear_down (InventoryDesk *desk,
           gconstpointer  data)
{
  inventory_desk_close (desk);
}

static void
assert_field (InventoryDesk *desk,
              const char    *label,
              const char    *text)
{
  g_assert_cmpstr (gtk_editable_get_text (inventory_desk_get_field (desk, label)), ==, text);
}

static guint
count (InventoryDesk *desk)
{
  return wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE);
}

static gboolean
has_error (InventoryDesk *desk,
           const char    *label)
{
  return gtk_widget_has_css_class (GTK_WIDGET (inventory_desk_get_field (desk, label)), "error");
}

/* Forty lines as a house is read: what is typed for each, and nothing else. */
static void
test_forty_lines (InventoryDesk *desk,
                  gconstpointer  data)
{
  const WbPiece *piece;
  g_autoptr (GPtrArray) sheets = NULL;

  assert_field (desk, "Tag", "1");
  g_assert_true (inventory_desk_is_focus (desk, "Description"));

  inventory_desk_type (desk, "{alt+r}Living room\tcp\tR. Osei\tl\n");
  g_assert_true (inventory_desk_is_focus (desk, "Description"));
  g_assert_cmpuint (count (desk), ==, 0);

  inventory_desk_type (desk, "sofa\t\tsc 2-4\t130\n");
  g_assert_cmpuint (count (desk), ==, 1);
  inventory_desk_type (desk, "armchair\t\tw\n");
  for (guint i = 0; i < 8; i++)
    inventory_desk_type (desk, "{ctrl+d}\n");
  g_assert_cmpuint (count (desk), ==, 10);

  inventory_desk_type (desk, "{alt+f}c\tdish pack{alt+r}Kitchen{alt+d}");
  for (guint i = 10; i < 39; i++)
    {
      g_autofree char *keys = g_strdup_printf ("plates %u\tstoneware\t\t%u\n", i, 30 + i);

      inventory_desk_type (desk, keys);
    }
  inventory_desk_type (desk, "glasses\n");
  g_assert_cmpuint (count (desk), ==, 40);

  piece = inventory_desk_get_piece (desk, 0);
  g_assert_cmpint (piece->tag, ==, 1);
  g_assert_cmpstr (piece->lot, ==, "lot");
  g_assert_cmpint (piece->form, ==, WB_FORM_LOOSE);
  g_assert_cmpint (piece->packed_by, ==, WB_PACKED_BY_CARRIER);
  g_assert_cmpstr (piece->packer, ==, "R. Osei");
  g_assert_cmpstr (piece->room, ==, "Living room");
  g_assert_cmpstr (piece->description, ==, "sofa");
  g_assert_cmpstr (piece->marks, ==, "SC 2-4");
  g_assert_true (wb_weight_equal (piece->weight, wb_weight (13000, WB_WEIGHT_UNIT_LB)));

  piece = inventory_desk_get_piece (desk, 9);
  g_assert_cmpint (piece->tag, ==, 10);
  g_assert_cmpstr (piece->description, ==, "armchair");
  g_assert_cmpstr (piece->marks, ==, "W");

  piece = inventory_desk_get_piece (desk, 20);
  g_assert_cmpint (piece->tag, ==, 21);
  g_assert_cmpint (piece->form, ==, WB_FORM_CARTON);
  g_assert_cmpstr (piece->carton, ==, "dish pack");
  g_assert_cmpstr (piece->room, ==, "Kitchen");
  g_assert_cmpstr (piece->packer, ==, "R. Osei");
  g_assert_cmpstr (piece->description, ==, "plates 20");
  g_assert_cmpstr (piece->contents, ==, "stoneware");
  g_assert_null (piece->marks);
  g_assert_true (wb_weight_equal (piece->weight, wb_weight (5000, WB_WEIGHT_UNIT_LB)));

  assert_field (desk, "Tag", "41");
  assert_field (desk, "Description", "");
  assert_field (desk, "Room", "Kitchen");
  sheets = wb_tags_check (inventory_desk_get_job (desk));
  g_assert_true (wb_tag_sheet_is_clean (g_ptr_array_index (sheets, 0)));

  inventory_desk_picture (desk, "inventory-entry-forty");
}

/* The codes are said back while they are typed, and a wrong one as soon as it is finished. */
static void
test_condition_words (InventoryDesk *desk,
                      gconstpointer  data)
{
  inventory_desk_type (desk, "chest{alt+n}b");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Condition"), ==, "…");
  inventory_desk_type (desk, "e 2");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Condition"), ==, "bent: bottom");
  inventory_desk_type (desk, ", zz");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Condition"), ==, "bent: bottom…");
  g_assert_false (has_error (desk, "Condition"));
  inventory_desk_type (desk, " ");
  g_assert_true (has_error (desk, "Condition"));
  g_assert_nonnull (strstr (inventory_desk_get_beneath (desk, "Condition"), "zz"));
  gtk_test_accessible_assert_state (inventory_desk_get_field (desk, "Condition"),
                                    GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_TRUE);
  inventory_desk_picture (desk, "inventory-entry-code");

  /* Enter takes nothing and loses nothing. */
  inventory_desk_type (desk, "\n");
  g_assert_cmpuint (count (desk), ==, 0);
  assert_field (desk, "Condition", "be 2, zz ");
  assert_field (desk, "Description", "chest");

  inventory_desk_type (desk, "{End}{BackSpace}{BackSpace}{BackSpace}{BackSpace}{BackSpace}");
  g_assert_false (has_error (desk, "Condition"));
  inventory_desk_type (desk, "\n");
  g_assert_cmpuint (count (desk), ==, 1);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->marks, ==, "BE 2");
}

/* What cannot be read is said under its field, the first such field gets the focus, and nothing is
 * lost. */
static void
test_errors (InventoryDesk *desk,
             gconstpointer  data)
{
  inventory_desk_type (desk, "piano{alt+w}4o{alt+b}someone{alt+d}\n");
  g_assert_cmpuint (count (desk), ==, 0);
  g_assert_true (has_error (desk, "Weight"));
  g_assert_true (has_error (desk, "Packed by"));
  g_assert_true (inventory_desk_is_focus (desk, "Packed by"));
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Weight"), ==,
                   "“4o” is no weight. Type it like 40, 40 lb or 18.5 kg.");
  assert_field (desk, "Weight", "4o");
  assert_field (desk, "Packed by", "someone");
  assert_field (desk, "Description", "piano");
  inventory_desk_picture (desk, "inventory-entry-errors");

  inventory_desk_type (desk, "{ctrl+a}pbo{alt+w}420\n");
  g_assert_cmpuint (count (desk), ==, 1);
  g_assert_cmpint (inventory_desk_get_piece (desk, 0)->packed_by, ==, WB_PACKED_BY_OWNER);

  /* A line that says nothing is asked about, and the focus is where the answer goes. */
  inventory_desk_type (desk, "{alt+f}l{alt+w}12\n");
  g_assert_cmpuint (count (desk), ==, 1);
  g_assert_true (inventory_desk_is_focus (desk, "Description"));
  g_assert_true (has_error (desk, "Description"));
  assert_field (desk, "Weight", "12 lb");
  inventory_desk_type (desk, "stool\n");
  g_assert_cmpuint (count (desk), ==, 2);
  g_assert_false (has_error (desk, "Description"));
}

/* A tag typed over is where counting goes on; a tag used twice, or not in the lot, is taken only on
 * a second Enter. */
static void
test_tags (InventoryDesk *desk,
           gconstpointer  data)
{
  inventory_desk_type (desk, "one\n{alt+t}4\n");
  g_assert_true (inventory_desk_is_focus (desk, "Description"));
  inventory_desk_type (desk, "four\nfive\n");
  g_assert_cmpint (inventory_desk_get_piece (desk, 1)->tag, ==, 4);
  g_assert_cmpint (inventory_desk_get_piece (desk, 2)->tag, ==, 5);

  /* Into the hole, and past what is used already. */
  inventory_desk_type (desk, "{alt+t}3\nthree\n");
  assert_field (desk, "Tag", "6");

  inventory_desk_type (desk, "{alt+t}4{alt+d}four again\n");
  g_assert_cmpuint (count (desk), ==, 4);
  g_assert_true (has_error (desk, "Tag"));
  g_assert_true (inventory_desk_is_focus (desk, "Tag"));
  inventory_desk_picture (desk, "inventory-entry-twice");
  inventory_desk_type (desk, "\n");
  g_assert_cmpuint (count (desk), ==, 5);
  g_assert_cmpint (inventory_desk_get_piece (desk, 4)->tag, ==, 4);

  inventory_desk_type (desk, "{alt+t}301{alt+d}stray\n");
  g_assert_cmpuint (count (desk), ==, 5);
  g_assert_nonnull (strstr (inventory_desk_get_beneath (desk, "Tag"), "blue 204 (1–300)"));
  inventory_desk_type (desk, "{alt+t}300\n");
  g_assert_cmpuint (count (desk), ==, 6);

  /* The roll is at its end. */
  assert_field (desk, "Tag", "");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Tag"), ==,
                   "Lot blue 204 ends with tag 300. Choose the next lot.");
  inventory_desk_picture (desk, "inventory-entry-roll-end");
}

/* The next lot is chosen with Alt+L and Down; its first tag comes by itself. */
static void
test_next_lot (InventoryDesk *desk,
               gconstpointer  data)
{
  g_autoptr (WbLot) lot = wb_record_new (WB_KIND_LOT, "second");
  g_autoptr (WbJob) job = NULL;

  wb_set_text (&lot->colour, "orange");
  wb_set_text (&lot->number, "77");
  lot->first = 501;
  lot->last = 600;
  job = wb_job_with (inventory_desk_get_job (desk), lot);
  wb_job_model_apply (desk->model, job, "Add a lot");

  inventory_desk_type (desk, "one\n");
  assert_field (desk, "Tag", "2");
  inventory_desk_type (desk, "{alt+l}{Down}");
  assert_field (desk, "Tag", "501");
  inventory_desk_type (desk, "{alt+d}first of the second\n");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 1)->lot, ==, "second");
  g_assert_cmpint (inventory_desk_get_piece (desk, 1)->tag, ==, 501);
  assert_field (desk, "Tag", "502");
}

/* The start of a word, then Down: what was typed earlier. Up is what was typed now. */
static void
test_suggestions (InventoryDesk *desk,
                  gconstpointer  data)
{
  inventory_desk_type (desk, "{alt+r}Bedroom 1{alt+d}bed\n{alt+r}Bathroom{alt+d}mirror\n{alt+r}be");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Room"), ==, "↓ Bedroom 1");
  inventory_desk_type (desk, "{Down}");
  assert_field (desk, "Room", "Bedroom 1");
  inventory_desk_type (desk, "{Up}");
  assert_field (desk, "Room", "be");
  inventory_desk_type (desk, "{Down}{alt+d}chest\n");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 2)->room, ==, "Bedroom 1");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Room"), ==, "");
}

/* Ctrl+Up goes to the line before, Enter comes back, and what was begun meanwhile is there
 * again. */
static void
test_correct_last (InventoryDesk *desk,
                   gconstpointer  data)
{
  inventory_desk_type (desk, "table\nchair\nstoo");
  inventory_desk_type (desk, "{ctrl+Up}");
  assert_field (desk, "Description", "chair");
  assert_field (desk, "Tag", "2");
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (inventory_desk_get_field (desk,
                                                                              "Serial number"))));
  inventory_desk_picture (desk, "inventory-entry-change");

  inventory_desk_type (desk, "{alt+n}w 15\n");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 1)->marks, ==, "W 15");
  g_assert_cmpuint (count (desk), ==, 2);
  assert_field (desk, "Description", "stoo");
  assert_field (desk, "Tag", "3");
  g_assert_true (inventory_desk_is_focus (desk, "Description"));
  inventory_desk_type (desk, "{End}l\n");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 2)->description, ==, "stool");
}

/* Escape goes back: what was typed, then to the list. */
static void
test_escape (InventoryDesk *desk,
             gconstpointer  data)
{
  inventory_desk_type (desk, "{alt+r}Hall{alt+d}mirror\nxyz{alt+w}9{alt+r}Attic");
  inventory_desk_type (desk, "{Escape}");
  assert_field (desk, "Description", "");
  assert_field (desk, "Weight", "");
  assert_field (desk, "Room", "Hall");
  assert_field (desk, "Tag", "2");
  g_assert_true (inventory_desk_is_focus (desk, "Description"));
  inventory_desk_type (desk, "{Escape}");
  g_assert_false (inventory_desk_is_focus (desk, "Description"));
  g_assert_cmpuint (count (desk), ==, 1);

  /* In the list, F2 puts the line into the strip; Escape gives the change up, then the line. */
  inventory_desk_type (desk, "{F2}");
  assert_field (desk, "Description", "mirror");
  inventory_desk_type (desk, "lamp{Escape}");
  assert_field (desk, "Description", "mirror");
  inventory_desk_type (desk, "{Escape}");
  assert_field (desk, "Description", "");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->description, ==, "mirror");
}

/* Weights down a column: Enter stores and goes to the next line, with the focus in the same
 * field. */
static void
test_fill_column (InventoryDesk *desk,
                  gconstpointer  data)
{
  inventory_desk_type (desk, "a\nb\nc\n{Escape}{Home}\n{alt+w}10\n");
  g_assert_true (inventory_desk_is_focus (desk, "Weight"));
  assert_field (desk, "Description", "b");
  inventory_desk_type (desk, "20 kg\n30\n");
  assert_field (desk, "Description", "");
  g_assert_true (inventory_desk_is_focus (desk, "Description"));

  g_assert_true (wb_weight_equal (inventory_desk_get_piece (desk, 0)->weight,
                                  wb_weight (1000, WB_WEIGHT_UNIT_LB)));
  g_assert_true (wb_weight_equal (inventory_desk_get_piece (desk, 1)->weight,
                                  wb_weight (2000, WB_WEIGHT_UNIT_KG)));
  /* A bare weight is in the unit of the one before. */
  g_assert_true (wb_weight_equal (inventory_desk_get_piece (desk, 2)->weight,
                                  wb_weight (3000, WB_WEIGHT_UNIT_KG)));
}

/* An undo under the clerk's hands takes the line back and the tag with it, and leaves what is being
 * typed alone. */
static void
test_undo (InventoryDesk *desk,
           gconstpointer  data)
{
  inventory_desk_type (desk, "table\nchair\n");
  wb_job_model_undo (desk->model);
  g_assert_cmpuint (count (desk), ==, 1);
  assert_field (desk, "Tag", "2");

  inventory_desk_type (desk, "half a wor");
  wb_job_model_undo (desk->model);
  g_assert_cmpuint (count (desk), ==, 0);
  assert_field (desk, "Description", "half a wor");

  wb_job_model_redo (desk->model);
  inventory_desk_type (desk, "{ctrl+Up}{alt+d}desk");
  wb_job_model_undo (desk->model);
  g_assert_cmpuint (count (desk), ==, 0);
  assert_field (desk, "Description", "desk");
  inventory_desk_type (desk, "\n");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->description, ==, "desk");
}

/* Fields that few lines need: shown on demand, all of them while a line is changed. */
static void
test_more_fields (InventoryDesk *desk,
                  gconstpointer  data)
{
  const WbPiece *piece;

  g_assert_false (gtk_widget_get_mapped (GTK_WIDGET (inventory_desk_get_field (desk, "Volume"))));
  inventory_desk_type (desk, "bed frame\n{ctrl+Up}");
  inventory_desk_type (desk, "{alt+v}12 cuft\tbed, king\tSN-77\t1250\t2\tbeds\to\t2026-03-04\t"
                             "L. Amadi\tslats in carton 9\n");
  piece = inventory_desk_get_piece (desk, 0);
  g_assert_cmpstr (piece->article, ==, "bed, king");
  g_assert_cmpstr (piece->serial_number, ==, "SN-77");
  g_assert_cmpint (piece->quantity, ==, 2);
  g_assert_cmpstr (piece->set, ==, "beds");
  g_assert_cmpint (piece->disassembly, ==, WB_DISASSEMBLY_BY_OWNER);
  g_assert_cmpstr (piece->checked_by, ==, "L. Amadi");
  g_assert_cmpint (g_date_get_day (&piece->packed_on), ==, 4);
  g_assert_cmpstr (piece->notes, ==, "slats in carton 9");
  g_assert_true (wb_money_equal (piece->listed_value, wb_money (125000, "USD")));
  g_assert_true (wb_volume_equal (piece->volume, wb_volume (1200, WB_VOLUME_UNIT_CUFT)));
}

/* Who checked it and the day of packing stay from line to line, and are seen doing so. */
static void
test_carried_more (InventoryDesk *desk,
                   gconstpointer  data)
{
  GtkToggleButton *more;

  inventory_desk_type (desk, "lamp\n{ctrl+Up}{alt+h}L. Amadi{alt+g}2026-03-04\n");
  inventory_desk_type (desk, "{alt+d}mirror\n");
  g_assert_null (inventory_desk_get_piece (desk, 1)->checked_by);
  inventory_desk_type (desk, "{ctrl+Up}{alt+h}B. Ruiz\n");
  inventory_desk_type (desk, "clock\n");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 1)->checked_by, ==, "B. Ruiz");
  g_assert_null (inventory_desk_get_piece (desk, 2)->checked_by);

  more = GTK_TOGGLE_BUTTON (wb_test_find (desk->page, GTK_TYPE_TOGGLE_BUTTON, "_More Fields"));
  inventory_desk_type (desk, "vase");
  gtk_toggle_button_set_active (more, TRUE);
  inventory_desk_type (desk, "{alt+h}B. Ruiz\njug\n");
  gtk_toggle_button_set_active (more, FALSE);
  wb_test_settle ();
  g_assert_cmpstr (inventory_desk_get_piece (desk, 4)->checked_by, ==, "B. Ruiz");
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (inventory_desk_get_field (desk,
                                                                              "Checked by"))));
}

/* A bed in three tags: the line, then one key for each part more. */
static void
test_parts (InventoryDesk *desk,
            gconstpointer  data)
{
  static const char *const descriptions[] = {
    "king bed, part 1 of 3", "king bed rails, part 2 of 3", "king bed slats, part 3 of 3",
  };

  inventory_desk_type (desk, "{alt+r}Bedroom{alt+f}l{alt+d}king bed\t\tsc 2");
  inventory_desk_type (desk, "{ctrl+shift+p}");
  g_assert_cmpuint (count (desk), ==, 1);
  assert_field (desk, "Description", "king bed, part 2 of 2");
  assert_field (desk, "Part of article", "king bed");
  assert_field (desk, "Condition", "");
  assert_field (desk, "Tag", "2");
  inventory_desk_type (desk, " rails{ctrl+shift+p} slats\n");
  g_assert_cmpuint (count (desk), ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      g_assert_cmpstr (inventory_desk_get_piece (desk, i)->description, ==, descriptions[i]);
      g_assert_cmpstr (inventory_desk_get_piece (desk, i)->article, ==, "king bed");
      g_assert_cmpstr (inventory_desk_get_piece (desk, i)->room, ==, "Bedroom");
      g_assert_cmpint (inventory_desk_get_piece (desk, i)->tag, ==, (gint64) i + 1);
    }
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->marks, ==, "SC 2");
  g_assert_null (inventory_desk_get_piece (desk, 1)->marks);
  inventory_desk_picture (desk, "inventory-entry-parts");

  /* A line by itself goes on, and the words of all parts are one step of undo. */
  inventory_desk_type (desk, "stool\n");
  g_assert_null (inventory_desk_get_piece (desk, 3)->article);
  wb_job_model_undo (desk->model);
  wb_job_model_undo (desk->model);
  g_assert_cmpuint (count (desk), ==, 2);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->description, ==, "king bed, part 1 of 2");

  /* Another bed is another article. */
  inventory_desk_type (desk, "king bed{ctrl+shift+p}\n");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 2)->article, ==, "king bed 2");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 3)->description, ==, "king bed, part 2 of 2");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->description, ==, "king bed, part 1 of 2");

  /* What cannot be taken is said, and nothing is lost. */
  inventory_desk_type (desk, "desk{alt+w}4o{ctrl+shift+p}");
  g_assert_cmpuint (count (desk), ==, 4);
  assert_field (desk, "Description", "desk");
  assert_field (desk, "Weight", "4o");
  g_assert_true (has_error (desk, "Weight"));
}

/* The catalogue completes kinds of cartons, offers the usual weight without storing it, and
 * cautions of what is heavy to lift. */
static void
test_catalogue (InventoryDesk *desk,
                gconstpointer  data)
{
  gtk_widget_grab_focus (GTK_WIDGET (inventory_desk_get_field (desk, "Carton kind")));
  inventory_desk_type (desk, "dish p");
  g_assert_nonnull (strstr (inventory_desk_get_beneath (desk, "Carton kind"), "Dish carton"));
  inventory_desk_type (desk, "{Down}");
  assert_field (desk, "Carton kind", "Dish carton");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Weight"), ==, "↓ usually 60 lb");

  /* Offered, not stored. */
  gtk_widget_grab_focus (GTK_WIDGET (inventory_desk_get_field (desk, "Description")));
  inventory_desk_type (desk, "plates\n");
  g_assert_false (wb_weight_is_set (inventory_desk_get_piece (desk, 0)->weight));
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->carton, ==, "Dish carton");

  /* Taken with Down, and cautioned of. */
  inventory_desk_type (desk, "bowls");
  gtk_widget_grab_focus (GTK_WIDGET (inventory_desk_get_field (desk, "Weight")));
  inventory_desk_type (desk, "{Down}");
  assert_field (desk, "Weight", "60 lb");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Weight"), ==, "Heavy: 60 lb");
  inventory_desk_type (desk, "{ctrl+a}49");
  g_assert_null (strstr (inventory_desk_get_beneath (desk, "Weight"), "Heavy"));
  inventory_desk_type (desk, "{ctrl+a}50\n");
  g_assert_cmpint (inventory_desk_get_piece (desk, 1)->weight.grains, ==, 50 * WB_GRAINS_PER_LB);

  /* A loose piece by its description. */
  gtk_widget_grab_focus (GTK_WIDGET (inventory_desk_get_field (desk, "Form")));
  inventory_desk_type (desk, "{ctrl+a}l");
  gtk_widget_grab_focus (GTK_WIDGET (inventory_desk_get_field (desk, "Description")));
  inventory_desk_type (desk, "Sofa, grey");
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Weight"), ==, "↓ usually 160 lb");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
#define ADD(name, function) \
  g_test_add ("/desk/inventory-entry/" name, InventoryDesk, NULL, set_up, function, tear_down)
  ADD ("forty-lines", test_forty_lines);
  ADD ("condition-words", test_condition_words);
  ADD ("errors", test_errors);
  ADD ("tags", test_tags);
  ADD ("next-lot", test_next_lot);
  ADD ("suggestions", test_suggestions);
  ADD ("correct-last", test_correct_last);
  ADD ("escape", test_escape);
  ADD ("fill-column", test_fill_column);
  ADD ("undo", test_undo);
  ADD ("more-fields", test_more_fields);
  ADD ("carried-more", test_carried_more);
  ADD ("parts", test_parts);
  ADD ("catalogue", test_catalogue);
#undef ADD
  return g_test_run ();
}
