/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench/wb-bench.h"

#include <time.h>

/* In microseconds. */
#define WORTH_TELLING 5000

/* Weight and declared value grow with the pieces, so that a job of any size meets the same
 * rules. */
#define POUNDS_A_PIECE 95

static WbBenchTime longest_stall;
static WbBenchTime woken_at;
static GPollFunc real_poll;

/* @clock: whose work, that of a thread or of the whole process */
static WbBenchTime
read_clocks (clockid_t clock)
{
  struct timespec work;

  g_assert_cmpint (clock_gettime (clock, &work), ==, 0);
  return (WbBenchTime) { g_get_monotonic_time (),
                         (gint64) work.tv_sec * G_USEC_PER_SEC + work.tv_nsec / 1000 };
}

static int
compare_times (gconstpointer a,
               gconstpointer b)
{
  const gint64 *first = a;
  const gint64 *second = b;

  return (*first > *second) - (*first < *second);
}

WbBenchTime
wb_bench_median (guint       rounds,
                 WbBenchDeed deed,
                 gpointer    data)
{
  g_autofree gint64 *clock = g_new (gint64, rounds);
  g_autofree gint64 *work = g_new (gint64, rounds);

  deed (data);
  for (guint i = 0; i < rounds; i++)
    {
      WbBenchTime begin = read_clocks (CLOCK_PROCESS_CPUTIME_ID);
      WbBenchTime end;

      deed (data);
      end = read_clocks (CLOCK_PROCESS_CPUTIME_ID);
      clock[i] = end.clock - begin.clock;
      work[i] = end.work - begin.work;
    }
  qsort (clock, rounds, sizeof *clock, compare_times);
  qsort (work, rounds, sizeof *work, compare_times);

  return (WbBenchTime) { clock[rounds / 2], work[rounds / 2] };
}

/* A shell waits at the other end of a pipe that only this program holds. */
char *
wb_bench_make_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("wb-bench-XXXXXX", &error);
  const char *argv[] = { "/bin/sh", "-c", "trap '' INT TERM HUP; read -r end; rm -rf -- \"$1\"",
                         "sh", folder, NULL };
  int held;

  g_assert_no_error (error);
  g_spawn_async_with_pipes (NULL, (char **) argv, NULL,
                            G_SPAWN_CLOEXEC_PIPES | G_SPAWN_STDOUT_TO_DEV_NULL
                            | G_SPAWN_STDERR_TO_DEV_NULL,
                            NULL, NULL, NULL, &held, NULL, NULL, &error);
  g_assert_no_error (error);

  return folder;
}

static void
set (gpointer    record,
     const char *name,
     const char *text)
{
  const WbRecord *header = record;
  const WbField *field = wb_record_type_field (header->type, name);
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (field);
  if (!wb_record_set_text (record, field, text, "USD", &error))
    g_error ("%s: %s", name, error->message);
}

/* Adds a record with the given fields, "name", "text" pairs ended by NULL. */
static void
add (GPtrArray  *records,
     WbKind      kind,
     const char *id,
     ...)
{
  gpointer record = wb_record_new (kind, id);
  const char *name;
  va_list args;

  va_start (args, id);
  while ((name = va_arg (args, const char *)) != NULL)
    set (record, name, va_arg (args, const char *));
  va_end (args);

  g_ptr_array_add (records, record);
}

static void
add_pieces (GPtrArray *records,
            guint      n_pieces)
{
  static const char *const things[] = {
    "Oak chest of drawers", "Floor lamp", "Kitchen goods", "Bookcase, five shelves", "Bicycle",
    "Upright piano stool", "Mirror in a gilt frame", "Garden tools", "Mattress, queen", "Desk",
  };
  static const char *const rooms[] = { "Kitchen", "Bedroom", "Study", "Hall", "Garage" };

  for (guint i = 0; i < n_pieces; i++)
    {
      g_autofree char *id = g_strdup_printf ("piece-%u", i + 1);
      g_autofree char *tag = g_strdup_printf ("%u", i + 1);
      g_autofree char *weight = g_strdup_printf ("%u lb", 10 + i * 7 % 190);
      gboolean carton = i % 2 == 0;

      add (records, WB_KIND_PIECE, id,
           "lot", "lot-1",
           "tag", tag,
           "form", carton ? "carton" : "loose",
           "description", things[i % G_N_ELEMENTS (things)],
           "contents", carton ? "Plates, cups, a kettle and two pans in paper" : "",
           "carton", carton ? "book carton, 1.5 cu ft" : "",
           "marks", i % 3 == 0 ? "SC-9" : "",
           "room", rooms[i % G_N_ELEMENTS (rooms)],
           "packer", carton ? "Rufus Penhallow" : "",
           "packed_by", carton ? "CP" : "PBO",
           "weight", weight,
           NULL);
    }
}

static void
add_claim (GPtrArray *records,
           guint      n_lines)
{
  add (records, WB_KIND_CLAIM, "claim-1",
       "number", "C-2026-0001",
       "received_on", "2026-04-20",
       NULL);

  for (guint i = 0; i < n_lines; i++)
    {
      g_autofree char *id = g_strdup_printf ("line-%u", i + 1);
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      g_autofree char *piece = g_strdup_printf ("piece-%u", i + 1);
      g_autofree char *demanded = g_strdup_printf ("%u.50", 20 + i * 13 % 700);
      g_autofree char *repair = g_strdup_printf ("%u.25", 10 + i * 11 % 300);

      add (records, WB_KIND_CLAIM_LINE, id,
           "claim", "claim-1",
           "number", number,
           "piece", piece,
           "item", "As on the inventory",
           "loss", i % 3 == 0 ? "missing" : "damaged",
           "demanded", demanded,
           "replacement", demanded,
           "repair", repair,
           "ruling", "allowed",
           NULL);
    }
}

WbJob *
wb_bench_make_job (guint n_pieces,
                   guint n_lines)
{
  g_autoptr (WbJob) empty = wb_job_new ("bench-job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autofree char *last = g_strdup_printf ("%u", n_pieces);
  g_autofree char *net = g_strdup_printf ("%u lb", n_pieces * POUNDS_A_PIECE);
  g_autofree char *declared = g_strdup_printf ("%u.00", n_pieces * POUNDS_A_PIECE * 7);
  g_autoptr (GError) error = NULL;
  WbJob *job;

  add (records, WB_KIND_ORDER, "order",
       "number", "J-2026-0001",
       "move_type", "interstate",
       "pickup_from", "2026-03-02",
       "picked_up_on", "2026-03-02",
       "delivered_on", "2026-03-11",
       NULL);
  add (records, WB_KIND_VALUATION, "valuation",
       "choice", "full",
       "declared_value", declared,
       "deductible", "250.00",
       NULL);
  add (records, WB_KIND_PARTY, "party-1", "role", "shipper", "name", "Ada Quillfeather", NULL);
  add (records, WB_KIND_STOP, "stop-1", "kind", "pickup", "city", "Dayton", "region", "OH", NULL);
  add (records, WB_KIND_STOP, "stop-2", "kind", "delivery", "city", "Tulsa", "region", "OK", NULL);
  add (records, WB_KIND_WEIGHING, "weighing-1",
       "kind", "weighing",
       "net", net,
       NULL);
  add (records, WB_KIND_LOT, "lot-1",
       "colour", "green",
       "number", "4711",
       "first", "1",
       "last", last,
       NULL);
  add_pieces (records, n_pieces);
  add (records, WB_KIND_HANDOVER, "handover-1", "kind", "pickup", "on", "2026-03-02", NULL);
  add (records, WB_KIND_HANDOVER, "handover-2", "kind", "delivery", "on", "2026-03-11", NULL);
  for (guint i = 0; i < n_pieces; i += 3)
    {
      g_autofree char *id = g_strdup_printf ("finding-%u", i + 1);
      g_autofree char *piece = g_strdup_printf ("piece-%u", i + 1);

      add (records, WB_KIND_FINDING, id,
           "handover", "handover-2",
           "piece", piece,
           "found", "present",
           NULL);
    }
  if (n_lines > 0)
    add_claim (records, n_lines);

  job = wb_job_with_many (empty, records);
  if (!wb_job_check (job, &error))
    g_error ("%s", error->message);

  return job;
}

static double
milliseconds (gint64 time)
{
  return (double) time / 1000;
}

static void
tell_when (WbBenchTime now)
{
  if (now.work - woken_at.work < WORTH_TELLING || g_getenv ("WB_BENCH_WHEN") == NULL)
    return;
  g_print ("  at work %.1f ms between %.6f and %.6f s\n", milliseconds (now.work - woken_at.work),
           (double) woken_at.clock / G_USEC_PER_SEC, (double) now.clock / G_USEC_PER_SEC);
}

static int
watching_poll (GPollFD *fds,
               guint    n_fds,
               int      timeout)
{
  int result;

  if (woken_at.clock != 0)
    {
      WbBenchTime now = read_clocks (CLOCK_THREAD_CPUTIME_ID);

      tell_when (now);
      longest_stall.clock = MAX (longest_stall.clock, now.clock - woken_at.clock);
      longest_stall.work = MAX (longest_stall.work, now.work - woken_at.work);
    }
  result = real_poll (fds, n_fds, timeout);
  woken_at = read_clocks (CLOCK_THREAD_CPUTIME_ID);

  return result;
}

void
wb_bench_watch_stalls (void)
{
  g_assert_null (real_poll);
  real_poll = g_main_context_get_poll_func (NULL);
  g_main_context_set_poll_func (NULL, watching_poll);
  wb_bench_take_stall ();
}

WbBenchTime
wb_bench_take_stall (void)
{
  WbBenchTime stall = longest_stall;

  longest_stall = (WbBenchTime) { 0, 0 };
  woken_at = read_clocks (CLOCK_THREAD_CPUTIME_ID);

  return stall;
}

void
wb_bench_report_stall (const char  *what,
                       WbBenchTime  stall)
{
  g_print ("%s: longest stall %.1f ms, at work %.1f ms%s\n",
           what, milliseconds (stall.clock), milliseconds (stall.work),
           stall.work < 16000 ? "" : " (aim: under 16 ms)");
}

void
wb_bench_report (const char  *what,
                 WbBenchTime  own,
                 const char  *peer_name,
                 WbBenchTime  peer,
                 const char  *aim)
{
  g_print ("%s: %.2f ms, at work %.2f ms; "
           "peer, %s: %.2f ms, at work %.2f ms; ratio %.2f (aim: %s)\n",
           what, milliseconds (own.clock), milliseconds (own.work),
           peer_name, milliseconds (peer.clock), milliseconds (peer.work),
           peer.clock > 0 ? (double) own.clock / (double) peer.clock : 0.0, aim);
}
