/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "job-fixture.h"

#include "core/wb-entities.h"

WbJob *
job_fixture_new (void)
{
  WbJob *job = wb_job_new ("job", "USD");

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "number", "J-1", NULL);
  return job;
}

void
job_fixture_put (WbJob      **job,
                 WbKind       kind,
                 const char  *id,
                 ...)
{
  const WbRecordType *type = wb_record_type (kind);
  gconstpointer before = wb_job_find (*job, kind, id != NULL ? id : type->name);
  g_autoptr (WbRecord) record = before != NULL ? wb_record_copy (before) : wb_record_new (kind, id);
  WbJob *next;
  const char *name;
  va_list arguments;

  va_start (arguments, id);
  while ((name = va_arg (arguments, const char *)) != NULL)
    {
      const WbField *field = wb_record_type_field (type, name);
      const char *text = va_arg (arguments, const char *);
      g_autoptr (GError) error = NULL;

      g_assert_nonnull (field);
      wb_record_set_text (record, field, text, wb_job_get_currency (*job), &error);
      g_assert_no_error (error);
    }
  va_end (arguments);

  next = wb_job_with (*job, record);
  wb_job_unref (*job);
  *job = next;
}
