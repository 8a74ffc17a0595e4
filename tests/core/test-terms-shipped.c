/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The terms files that the program comes with are read as they are, and go together. Whatever
 * somebody does to one of them with an editor or a bad disk, reading it does no harm and tells
 * where it went wrong. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-terms.h"

#define FILE_NAME "shipped.terms"
#define N_MUTATIONS 4000

static GPtrArray *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *editions = wb_terms_parse (text, strlen (text), FILE_NAME, &error);

  g_assert_no_error (error);
  g_assert_nonnull (editions);
  return editions;
}

/* --- shipped files ---------------------------------------------------------------------------- */

static const char *const shipped[] = { "us-interstate", "us-military", "us-texas",
                                       "us-washington" };

static char *
read_shipped (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".terms", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "terms", file, NULL);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

/* No file lies in the folder that is not read here; all of them go together in one set. */
static void
test_shipped (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "terms", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();
  const char *name;
  guint n = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".terms") && !g_str_equal (name, "blank.terms"))
      {
        g_autofree char *stem = g_strndup (name, strlen (name) - strlen (".terms"));
        g_autofree char *text = read_shipped (stem);
        g_autoptr (GPtrArray) editions = parse (text);
        g_autoptr (GError) error = NULL;
        const WbTerms *terms = g_ptr_array_index (editions, 0);

        g_assert_true (
          g_strv_contains ((const char *const[]) { shipped[0], shipped[1], shipped[2], shipped[3],
                                                NULL },
                           stem));
        g_assert_cmpstr (terms->regime, ==, stem);
        if (!wb_terms_set_add (set, editions, FALSE, &error))
          g_error ("%s", error->message);
        n++;
      }
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (shipped));
  g_assert_cmpuint (wb_terms_set_count (set), ==, 6);
}

/* A shipped file leaves nothing that costs money to silence: each edition writes the freight,
 * the measure, the limits. */
static void
test_shipped_says_it (void)
{
  static const WbTermsKey general[] = { WB_KEY_ROUNDING,
                                        WB_KEY_WITHOUT_WAIVER,
                                        WB_KEY_CARTON,
                                        WB_KEY_PARTS,
                                        WB_KEY_SETS,
                                        WB_KEY_DEMAND,
                                        WB_KEY_SALVAGE,
                                        WB_KEY_DEPRECIATION_MAXIMUM,
                                        WB_KEY_FREIGHT_PARTIAL_LOSS,
                                        WB_KEY_FREIGHT_TOTAL_LOSS,
                                        WB_KEY_CLAIM_WITHIN,
                                        WB_KEY_LATE_CLAIM,
                                        WB_KEY_DECIDE_WITHIN };

  for (guint i = 0; i < G_N_ELEMENTS (shipped); i++)
    {
      g_autofree char *text = read_shipped (shipped[i]);
      g_autoptr (GPtrArray) editions = parse (text);

      for (guint j = 0; j < editions->len; j++)
        {
          const WbTerms *terms = g_ptr_array_index (editions, j);

          for (guint k = 0; k < G_N_ELEMENTS (general); k++)
            g_assert_true (wb_terms_is_given (terms, WB_SCOPE_GENERAL, general[k]));
          for (guint side = 0; side < WB_N_SIDES; side++)
            {
              g_assert_true (wb_terms_is_given (terms, (WbScope) side, WB_KEY_OFFERED));
              if (terms->side[side].offered)
                g_assert_true (wb_terms_is_given (terms, (WbScope) side, WB_KEY_MEASURE));
            }
        }
    }
}

/* What each regime is known to say, by date of pick-up: the figures that were found in public
 * sources, whatever else the files hold. @scope: %WB_SCOPE_GENERAL, or the side. A value of “-” is
 * known to be absent. */
static const struct
{
  const char *regime;
  const char *day;
  WbScope     scope;
  const char *key;
  const char *value;
} figures[] = {
#define GENERAL WB_SCOPE_GENERAL
#define RELEASED WB_SCOPE_RELEASED
#define FULL WB_SCOPE_FULL
  { "us-interstate", "2006-01-01", FULL, "shipment-rate", "4.00 per lb" },
  { "us-interstate", "2006-01-01", FULL, "shipment-minimum", "5000.00" },
  { "us-interstate", "2012-05-14", FULL, "shipment-rate", "4.00 per lb" },
  { "us-interstate", "2012-05-15", FULL, "shipment-rate", "6.00 per lb" },
  { "us-interstate", "2012-05-15", FULL, "shipment-minimum", "6000.00" },
  { "us-interstate", "2012-05-14", GENERAL, "fees-within", "120 days" },
  { "us-interstate", "2024-01-01", RELEASED, "article-rate", "0.60 per lb" },
  { "us-interstate", "2024-01-01", RELEASED, "extraordinary-rate", "-" },
  { "us-interstate", "2024-01-01", FULL, "extraordinary-rate", "100.00 per lb" },
  { "us-interstate", "2024-01-01", FULL, "measure", "replacement" },
  { "us-interstate", "2024-01-01", FULL, "declared-value", "yes" },
  { "us-interstate", "2024-01-01", GENERAL, "without-waiver", "full" },
  { "us-interstate", "2024-01-01", GENERAL, "constructive-weight", "7 lb" },
  { "us-interstate", "2024-01-01", GENERAL, "sets", "only-piece" },
  { "us-interstate", "2024-01-01", GENERAL, "freight-partial-loss", "by-weight" },
  { "us-interstate", "2024-01-01", GENERAL, "freight-total-loss", "all" },
  { "us-interstate", "2024-01-01", GENERAL, "claim-within", "9 months" },
  { "us-interstate", "2024-01-01", GENERAL, "suit-within", "2 years" },
  { "us-interstate", "2024-01-01", GENERAL, "acknowledge-within", "30 days" },
  { "us-interstate", "2024-01-01", GENERAL, "decide-within", "120 days" },
  { "us-interstate", "2024-01-01", GENERAL, "status-every", "60 days" },
  { "us-interstate", "2024-01-01", GENERAL, "arbitrate-within", "60 days" },
  { "us-interstate", "2024-01-01", GENERAL, "fees-within", "120 days" },
  { "us-interstate", "2024-01-01", GENERAL, "bill-within", "15 days without weekends and holidays" },
  { "us-interstate", "2024-01-01", GENERAL, "contest-bill-within", "180 days" },
  { "us-interstate", "2024-01-01", GENERAL, "transfer-after", "-" },
  { "us-military", "2007-10-01", FULL, "shipment-rate", "4.00 per lb" },
  { "us-military", "2007-10-01", FULL, "shipment-minimum", "5000.00" },
  { "us-military", "2007-10-01", FULL, "shipment-maximum", "50000.00" },
  { "us-military", "2020-05-14", FULL, "shipment-maximum", "50000.00" },
  { "us-military", "2020-05-14", GENERAL, "notice-within", "75 days" },
  { "us-military", "2020-05-15", FULL, "shipment-rate", "6.00 per lb" },
  { "us-military", "2020-05-15", FULL, "shipment-minimum", "7500.00" },
  { "us-military", "2020-05-15", FULL, "shipment-maximum", "75000.00" },
  { "us-military", "2020-05-15", FULL, "shipment-weight", "net" },
  { "us-military", "2020-05-15", RELEASED, "offered", "no" },
  { "us-military", "2020-05-15", GENERAL, "notice-within", "180 days" },
  { "us-military", "2020-05-15", GENERAL, "claim-within", "9 months" },
  { "us-military", "2020-05-15", GENERAL, "late-claim", "actual-value" },
  { "us-military", "2020-05-15", GENERAL, "late-until", "2 years" },
  { "us-military", "2010-01-01", GENERAL, "sets", "with-mates" },
  { "us-military", "2020-05-15", GENERAL, "sets", "with-mates" },
  { "us-military", "2010-01-01", GENERAL, "collect-salvage-within", "30 days" },
  { "us-military", "2020-05-15", GENERAL, "collect-salvage-within", "30 days" },
  { "us-military", "2010-01-01", GENERAL, "transfer-after", "30 days" },
  { "us-military", "2020-05-15", GENERAL, "transfer-after", "30 days" },
  { "us-military", "2020-05-15", GENERAL, "fees-within", "-" },
  { "us-military", "2020-05-15", GENERAL, "bill-within", "-" },
  { "us-texas", "2024-01-01", RELEASED, "article-rate", "0.60 per lb" },
  { "us-texas", "2024-01-01", GENERAL, "claim-within", "90 days" },
  { "us-texas", "2024-01-01", GENERAL, "acknowledge-within",
    "20 days without sundays and holidays" },
  { "us-texas", "2024-01-01", GENERAL, "decide-within", "90 days" },
  { "us-texas", "2024-01-01", GENERAL, "inspect-within", "30 days" },
  { "us-texas", "2024-01-01", GENERAL, "mediate-within", "30 days without sundays and holidays" },
  { "us-texas", "2024-01-01", GENERAL, "mediate-until", "120 days" },
  { "us-washington", "2024-01-01", RELEASED, "article-rate", "0.60 per lb" },
  { "us-washington", "2024-01-01", FULL, "shipment-rate", "5.00 per lb" },
  { "us-washington", "2024-01-01", FULL, "charge", "1.40 per 100 at 0.00, 1.10 per 100 at 300.00" },
  { "us-washington", "2024-01-01", GENERAL, "claim-within", "9 months" },
  { "us-washington", "2024-01-01", GENERAL, "decide-within", "90 days" },
  { "us-washington", "2024-01-01", GENERAL, "status-every", "30 days" },
#undef GENERAL
#undef RELEASED
#undef FULL
};

/* Returns: (transfer full): the value of a key as its line in the file has it. */
static char *
written_value (const WbTerms *terms,
               WbScope        scope,
               const char    *key)
{
  WbTermsKey number = (WbTermsKey) wb_enum_find_nick (&wb_terms_keys, key)->value;
  const WbTermsEntry *entry = &terms->entry[scope][number];
  gsize size;
  const char *bytes = g_bytes_get_data (terms->text, &size);
  g_autofree char *text = g_strndup (bytes, size);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  char *value;

  if (!entry->given)
    return g_strdup ("-");
  value = strchr (lines[entry->line - 1], '=') + 1;
  if (strchr (value, ';') != NULL)
    *strchr (value, ';') = '\0';
  return g_strdup (g_strstrip (value));
}

static void
test_shipped_figures (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (figures); i++)
    {
      g_autofree char *text = read_shipped (figures[i].regime);
      g_autoptr (GPtrArray) editions = parse (text);
      g_autoptr (WbTermsSet) set = wb_terms_set_new ();
      g_autoptr (WbOrder) order = wb_record_new (WB_KIND_ORDER, "order");
      g_autofree char *value = NULL;
      g_autoptr (GError) error = NULL;
      WbTerms *terms;

      g_assert_true (wb_terms_set_add (set, editions, FALSE, &error));
      wb_set_text (&order->terms, figures[i].regime);
      g_assert_true (wb_date_parse (figures[i].day, &order->picked_up_on, &error));
      terms = wb_terms_set_find (set, order, &error);
      g_assert_no_error (error);
      value = written_value (terms, figures[i].scope, figures[i].key);
      g_test_message ("%s %s %s", figures[i].regime, figures[i].day, figures[i].key);
      g_assert_cmpstr (value, ==, figures[i].value);
    }
}

/* The blank file is no regime as it is. Filled in as it tells to, it is one, and has every key
 * there is. */
static void
test_blank (void)
{
  g_autofree char *text = read_shipped ("blank");
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  g_autofree char *filled = NULL;
  g_autoptr (GPtrArray) editions = NULL;
  g_autoptr (GError) error = NULL;
  const WbTerms *terms;

  g_assert_null (wb_terms_parse (text, strlen (text), FILE_NAME, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);

  for (guint i = 0; lines[i] != NULL; i++)
    if (lines[i][0] == '#' && lines[i][1] != ' ' && lines[i][1] != '\0')
      memmove (lines[i], lines[i] + 1, strlen (lines[i]));
  filled = g_strjoinv ("\n", lines);
  editions = parse (filled);
  g_assert_cmpuint (editions->len, ==, 1);

  terms = g_ptr_array_index (editions, 0);
  g_assert_nonnull (terms->region);
  g_assert_cmpint (terms->move_type, !=, WB_MOVE_NONE);
  g_assert_true (wb_date_is_set (&terms->until));
  for (guint key = 0; key < WB_N_TERMS_KEYS; key++)
    for (guint scope = 0; scope < WB_N_SCOPES; scope++)
      {
        gboolean general = key < WB_KEY_OFFERED;

        g_assert_cmpint (wb_terms_is_given (terms, (WbScope) scope, (WbTermsKey) key), ==,
                         general == (scope == WB_SCOPE_GENERAL));
        if (general == (scope == WB_SCOPE_GENERAL))
          g_assert_nonnull (wb_terms_citation (terms, (WbScope) scope, (WbTermsKey) key));
      }
}

/* Every key, word and section of the format is in its description. */
static void
test_format_is_described (void)
{
  g_autofree char *path =
    g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "terms", "FORMAT.md", NULL);
  g_autofree char *text = NULL;
  const WbEnum *const lists[] = {
    &wb_terms_keys,  &wb_roundings,           &wb_measures,          &wb_carton_rules,
    &wb_parts_rules, &wb_demand_rules,        &wb_salvage_rules,     &wb_freight_rules,
    &wb_late_rules,  &wb_below_minimum_rules, &wb_deductible_orders, &wb_extraordinary_weights,
    &wb_sets_rules,
  };

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    for (gsize j = 0; j < lists[i]->n_values; j++)
      {
        g_autofree char *quoted = g_strdup_printf ("`%s`", lists[i]->values[j].nick);

        g_assert_nonnull (strstr (text, quoted));
      }
  for (gsize j = 1; j < wb_move_types.n_values; j++)
    g_assert_nonnull (strstr (text, wb_move_types.values[j].nick));
}

/* --- mutations -------------------------------------------------------------------------------- */

static guint
random_below (GRand *rand,
              gsize  end)
{
  return end < 2 ? 0 : (guint) g_rand_int_range (rand, 0, (gint32) end);
}

/* Changes @text somewhere in one of the ways in which files go wrong. */
static void
mutate (GString *text,
        GRand   *rand)
{
  static const char *const pieces[] = {
    ";",   "=",   "[",    "]",           "#",        "\n",
    " ",   "-",   ".",    "9",           "0",        "lb",
    "per", "100", "at",   "[edition]\n", "[full]\n", "until = 2012-05-15\n",
    "\r",  "\t",  "\x01", "\xff",        "€",        "99999999999999999999",
    ", "
  };
  gsize at = random_below (rand, text->len + 1);
  gsize wanted = random_below (rand, 40);
  gsize length = MIN (wanted, text->len - at);

  switch (g_rand_int_range (rand, 0, 6))
    {
    case 0:
      if (at < text->len)
        text->str[at] = (char) g_rand_int_range (rand, 0, 256);
      break;
    case 1:
      g_string_erase (text, (gssize) at, (gssize) length);
      break;
    case 2:
      g_string_insert (text, (gssize) at, pieces[random_below (rand, G_N_ELEMENTS (pieces))]);
      break;
    case 3:
      {
        g_autofree char *copy = g_strndup (text->str + at, length);

        g_string_insert (text, (gssize) random_below (rand, text->len + 1), copy);
        break;
      }
    case 4:
      g_string_truncate (text, at);
      break;
    default:
      {
        /* A line goes somewhere else. */
        const char *end = memchr (text->str + at, '\n', text->len - at);
        gsize next = end != NULL ? (gsize) (end - text->str) + 1 : text->len;
        const char *next_end = memchr (text->str + next, '\n', text->len - next);
        gsize stop = next_end != NULL ? (gsize) (next_end - text->str) + 1 : text->len;
        g_autofree char *line = g_strndup (text->str + next, stop - next);

        g_string_erase (text, (gssize) next, (gssize) (stop - next));
        g_string_insert (text, (gssize) random_below (rand, text->len + 1), line);
        break;
      }
    }
}

static void
assert_told_where (const GError *error)
{
  const char *rest = error->message + strlen (FILE_NAME ":");
  char *end;

  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
  g_assert_true (g_str_has_prefix (error->message, FILE_NAME ":"));
  g_assert_cmpuint (g_ascii_strtoull (rest, &end, 10), >, 0);
  g_assert_true (g_str_has_prefix (end, ": "));
  g_assert_nonnull (strstr (end, "; expected "));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
}

static void
test_mutations (void)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  guint n_good = 0;

  g_test_message ("seed %u", seed);
  for (guint i = 0; i < N_MUTATIONS; i++)
    {
      g_autofree char *original = read_shipped (shipped[i % G_N_ELEMENTS (shipped)]);
      g_autoptr (GString) text = g_string_new (original);
      g_autoptr (GPtrArray) editions = NULL;
      g_autoptr (GError) error = NULL;

      for (guint n = 1 + random_below (rand, 4); n > 0; n--)
        mutate (text, rand);
      editions = wb_terms_parse (text->str, text->len, FILE_NAME, &error);

      g_assert_true ((editions == NULL) == (error != NULL));
      if (error != NULL)
        assert_told_where (error);
      else
        {
          g_assert_cmpuint (editions->len, >, 0);
          n_good++;
        }
    }
  /* Both must happen, or the mutations are no test of anything. */
  g_assert_cmpuint (n_good, >, N_MUTATIONS / 20);
  g_assert_cmpuint (n_good, <, N_MUTATIONS - N_MUTATIONS / 20);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/terms/shipped/read", test_shipped);
  g_test_add_func ("/core/terms/shipped/says-it", test_shipped_says_it);
  g_test_add_func ("/core/terms/shipped/figures", test_shipped_figures);
  g_test_add_func ("/core/terms/shipped/blank", test_blank);
  g_test_add_func ("/core/terms/shipped/format", test_format_is_described);
  g_test_add_func ("/core/terms/mutations", test_mutations);

  return g_test_run ();
}
