/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shared by the files that read and judge terms; no other file includes it. */
#pragma once

#include "core/wb-terms.h"

G_BEGIN_DECLS

/** Where a key stands in a file: sections of general keys first, then one for each side. */
typedef enum
{
  WB_SECTION_SHIPMENT,
  WB_SECTION_ARTICLES,
  WB_SECTION_LOSS,
  WB_SECTION_FREIGHT,
  WB_SECTION_CLAIMS,
  WB_SECTION_RELEASED,
  WB_SECTION_FULL,
} WbTermsSection;

#define WB_N_TERMS_SECTIONS 7

/** The nicks are the names between brackets. */
extern const WbEnum wb_terms_sections;

WbScope     wb_terms_section_scope (WbTermsSection  section);

/** Whether @key may stand in @section. */
gboolean    wb_terms_section_has   (WbTermsSection  section,
                                    WbTermsKey      key);

/** Sets @error to %WB_CORE_ERROR_TERMS with "FILE:LINE: …". Returns: %FALSE. */
gboolean    wb_terms_fail          (GError        **error,
                                    const char     *file,
                                    guint           line,
                                    const char     *format,
                                    ...) G_GNUC_PRINTF (4, 5);

/**
 * wb_terms_read_value:
 * @self: an edition still private to the reader; its currency is known
 * @text: the value as written, without its citation
 *
 * Reads the value of one key into its member. %FALSE with a %WB_CORE_ERROR whose message repeats
 * the text and says what is wrong with it; the member is untouched then.
 */
gboolean    wb_terms_read_value    (WbTerms        *self,
                                    WbScope         scope,
                                    WbTermsKey      key,
                                    const char     *text,
                                    GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what wb_terms_read_value() takes for @key: "yes or no". */
char       *wb_terms_expected      (WbTermsKey      key) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_terms_check:
 *
 * Whether the figures of one edition go together: a figure that another one needs is there, none is
 * without effect, no minimum is over its maximum. %FALSE with %WB_CORE_ERROR_TERMS at the line of
 * the figure, or of the edition.
 */
gboolean    wb_terms_check         (const WbTerms  *self,
                                    GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_terms_days_overlap:
 *
 * Whether there is a day of pick-up that both editions govern; unset ends are open.
 */
gboolean    wb_terms_days_overlap  (const WbTerms  *a,
                                    const WbTerms  *b);

/** Returns: (transfer full): "from 2012-05-15 on" or "from 2007-10-01 until 2020-05-14". */
char       *wb_terms_days_to_text  (const WbTerms  *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
