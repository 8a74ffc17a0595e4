/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Percentages as text: what is written is read again, and what is not a percentage is refused in
 * both ways of reading. */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-percent.h"

typedef struct
{
  const char *text;
  gint64      file;     /* hundredths as a file has them, REFUSED for none */
  gint64      typed;    /* and as a person types them */
} Case;

#define REFUSED (-1)

static const Case cases[] = {
  { "7.5 %", 750, 750 },
  { "7.5%", 750, 750 },
  { "0 %", 0, 0 },
  { "100 %", 10000, 10000 },
  { "33.33 %", 3333, 3333 },
  /* Only a person leaves the sign out, or is told later that it is more than the whole. */
  { "7.5", REFUSED, 750 },
  { "250 %", REFUSED, 25000 },
  { "", REFUSED, REFUSED },
  { "%", REFUSED, REFUSED },
  { "-5 %", REFUSED, REFUSED },
  { "7,5 %", REFUSED, REFUSED },
  { "7.555 %", REFUSED, REFUSED },
  { "7.5 % off", REFUSED, REFUSED },
  { "12345 %", REFUSED, REFUSED },
};

static void
check_reading (gboolean    (*read) (const char *, gint64 *, GError **),
               const char   *text,
               gint64        expected)
{
  g_autoptr (GError) error = NULL;
  gint64 value = -77;

  if (expected != REFUSED)
    {
      g_assert_true (read (text, &value, &error));
      g_assert_no_error (error);
      g_assert_cmpint (value, ==, expected);
      return;
    }

  g_assert_false (read (text, &value, &error));
  g_assert_nonnull (error);
  g_assert_true (error->domain == WB_CORE_ERROR);
  g_assert_cmpint (value, ==, -77);
}

static void
test_reading (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_test_message ("“%s”", cases[i].text);
      check_reading (wb_percent_parse, cases[i].text, cases[i].file);
      check_reading (wb_percent_parse_typed, cases[i].text, cases[i].typed);
    }
}

/* Every hundredth up to the whole. */
static void
test_both_ways (void)
{
  for (gint64 hundredths = 0; hundredths <= 10000; hundredths++)
    {
      g_autofree char *text = wb_percent_to_text (hundredths);

      check_reading (wb_percent_parse, text, hundredths);
      check_reading (wb_percent_parse_typed, text, hundredths);
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/percent/reading", test_reading);
  g_test_add_func ("/percent/both-ways", test_both_ways);

  return g_test_run ();
}
