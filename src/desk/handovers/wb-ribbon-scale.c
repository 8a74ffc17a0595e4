/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shares the width of a ribbon among its parts. Knows days and pixels, no widgets. */
#include "config.h"

#include "desk/handovers/wb-ribbon-scale.h"

/* The days that count for a part; at least one, so that a day trip is seen. */
static gint64
weight_of (gint     days,
           gboolean any_known)
{
  if (!any_known)
    return 1;

  return days < 0 ? 0 : MAX (days, 1);
}

/* One round: parts that their share makes too narrow are fixed at what they need. Returns whether
 * there was one. */
static gboolean
fix_narrow (const gint64 *weights,
            const gint   *least,
            guint         n,
            gboolean     *is_fixed,
            gint64        rest,
            gint64        sum)
{
  gboolean found = FALSE;

  for (guint i = 0; i < n; i++)
    if (!is_fixed[i] && (sum == 0 || weights[i] * rest / sum < least[i]))
      {
        is_fixed[i] = TRUE;
        found = TRUE;
      }
  return found;
}

void
wb_ribbon_scale (const gint *days,
                 const gint *least,
                 guint       n,
                 gint        width,
                 gint       *out)
{
  g_autofree gint64 *weights = g_new0 (gint64, n);
  g_autofree gboolean *is_fixed = g_new0 (gboolean, n);
  gboolean any_known = FALSE;
  gint64 rest, sum;
  guint widest = 0;
  gint used = 0;

  for (guint i = 0; i < n; i++)
    any_known = any_known || days[i] >= 0;
  for (guint i = 0; i < n; i++)
    weights[i] = weight_of (days[i], any_known);

  do
    {
      rest = width;
      sum = 0;
      for (guint i = 0; i < n; i++)
        {
          rest -= is_fixed[i] ? least[i] : 0;
          sum += is_fixed[i] ? 0 : weights[i];
        }
    }
  while (fix_narrow (weights, least, n, is_fixed, rest, sum));

  for (guint i = 0; i < n; i++)
    {
      out[i] = is_fixed[i] ? least[i] : (gint) (weights[i] * rest / sum);
      used += out[i];
      if (out[i] > out[widest])
        widest = i;
    }
  if (n > 0)
    out[widest] += width - used;
}
