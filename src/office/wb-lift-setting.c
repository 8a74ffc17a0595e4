/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-lift-setting.h"

#include "core/wb-core.h"
#include "core/wb-packing.h"

#include <gio/gio.h>
#include <string.h>

gboolean
wb_lift_setting_parse (const char  *text,
                       WbWeight    *out,
                       GError     **error)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  WbWeight weight = WB_WEIGHT_UNSET;

  if (*stripped != '\0')
    {
      if (!wb_weight_parse (stripped, WB_WEIGHT_UNIT_LB, &weight, error))
        return FALSE;
      if (!wb_weight_is_positive (weight))
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                       "the weight is 0; type one above that, or nothing for no caution");
          return FALSE;
        }
    }

  *out = weight;
  return TRUE;
}

/* A schema that is not there would end the program. */
static GSettings *
find_settings (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema = NULL;

  if (source != NULL)
    schema = g_settings_schema_source_lookup (source, WB_APP_ID, TRUE);
  if (schema == NULL || !g_settings_schema_has_key (schema, WB_LIFT_SETTING))
    return NULL;
  return g_settings_new (WB_APP_ID);
}

WbWeight
wb_lift_setting_get (void)
{
  g_autoptr (GSettings) settings = find_settings ();
  g_autofree char *text = NULL;
  WbWeight weight;

  if (settings != NULL)
    text = g_settings_get_string (settings, WB_LIFT_SETTING);
  if (text != NULL && wb_lift_setting_parse (text, &weight, NULL))
    return weight;
  return wb_weight (WB_PACKING_LIFT_DEFAULT_LB * 100, WB_WEIGHT_UNIT_LB);
}
