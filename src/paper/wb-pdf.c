/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes a document as PDF through cairo, into a stream that somebody else has. */
#include "config.h"

#include "paper/wb-pdf.h"

#include <cairo-pdf.h>

typedef struct
{
  WbPdfSink sink;
  gpointer  data;
  gboolean  failed;
} Stream;

static cairo_status_t
write_cb (void                *closure,
          const unsigned char *bytes,
          unsigned int         length)
{
  Stream *stream = closure;

  if (stream->failed || !stream->sink (bytes, length, stream->data))
    {
      stream->failed = TRUE;
      return CAIRO_STATUS_WRITE_ERROR;
    }
  return CAIRO_STATUS_SUCCESS;
}

/* A file says on which day it was made; without one cairo would take the clock. */
static void
set_metadata (cairo_surface_t  *surface,
              const WbDocument *document)
{
  char day[32] = "1970-01-01T00:00:00Z";

  if (g_date_valid (&document->created))
    g_date_strftime (day, sizeof day, "%Y-%m-%dT00:00:00Z", &document->created);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, document->title);
  if (document->reference != NULL)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, document->reference);
  if (document->author != NULL)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, document->author);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Wainbook");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, day);
}

/* --- outline ---------------------------------------------------------------------------------- */

#define N_LEVELS 3

typedef struct
{
  cairo_surface_t *surface;
  int              parents[N_LEVELS];
} Outline;

static void
add_to_outline (const char *text,
                guint       level,
                guint       page,
                double      y,
                gpointer    data)
{
  Outline *outline = data;
  g_autofree char *line = g_strdelimit (g_strdup (text), "\n\r\t", ' ');
  g_autofree char *place = g_strdup_printf ("page=%u pos=[0 %d]", page + 1, (int) y);
  int parent = level > 0 ? outline->parents[level - 1] : CAIRO_PDF_OUTLINE_ROOT;
  int id = cairo_pdf_surface_add_outline (outline->surface, parent, line, place,
                                          level == 0 ? CAIRO_PDF_OUTLINE_FLAG_OPEN
                                                     : (cairo_pdf_outline_flags_t) 0);

  for (guint i = level; i < N_LEVELS; i++)
    outline->parents[i] = id;
}

/* --- pages ------------------------------------------------------------------------------------ */

/* @status: (out): what became of the drawing. After a fault the context draws nothing more, and the
 * surface need not know. */
static gboolean
draw (cairo_surface_t  *surface,
      WbLayout         *layout,
      WbPageWatch       watch,
      gpointer          data,
      cairo_status_t   *status,
      GError          **error)
{
  Outline outline = { surface, { CAIRO_PDF_OUTLINE_ROOT, CAIRO_PDF_OUTLINE_ROOT,
                                 CAIRO_PDF_OUTLINE_ROOT } };
  cairo_t *cr = cairo_create (surface);
  guint n = wb_layout_get_n_pages (layout);
  gboolean wanted = TRUE;

  /* Only what stands within one such tag counts as tagged. */
  cairo_tag_begin (cr, "Document", NULL);
  for (guint page = 0; wanted && page < n; page++)
    {
      wanted = watch == NULL || watch (page, n, data);
      if (wanted)
        wb_layout_draw_page (layout, page, TRUE, cr);
      if (page + 1 == n)
        cairo_tag_end (cr, "Document");
      if (wanted)
        cairo_show_page (cr);
    }
  wb_layout_each_heading (layout, add_to_outline, &outline);
  *status = cairo_status (cr);
  cairo_destroy (cr);
  if (!wanted)
    g_set_error (error, WB_PAPER_ERROR, WB_PAPER_ERROR_STOPPED, "it was not wanted any more");
  return wanted;
}

static gboolean
check (cairo_surface_t  *surface,
       cairo_status_t    drawn,
       const Stream     *stream,
       const WbDocument *document,
       GError          **error)
{
  cairo_status_t status = drawn != CAIRO_STATUS_SUCCESS ? drawn : cairo_surface_status (surface);

  if (stream->failed)
    g_set_error (error, WB_PAPER_ERROR, WB_PAPER_ERROR_WRITE, "“%s” could not be written",
                 document->title);
  else if (status != CAIRO_STATUS_SUCCESS)
    g_set_error (error, WB_PAPER_ERROR, WB_PAPER_ERROR_DRAW, "“%s” could not be drawn: %s",
                 document->title, cairo_status_to_string (status));
  return !stream->failed && status == CAIRO_STATUS_SUCCESS;
}

gboolean
wb_pdf_write (const WbDocument  *document,
              WbPageSize         size,
              WbPdfSink          sink,
              gpointer           sink_data,
              WbPageWatch        watch,
              gpointer           watch_data,
              GError           **error)
{
  g_autoptr (WbLayout) layout = NULL;
  Stream stream = { sink, sink_data, FALSE };
  cairo_surface_t *surface;
  cairo_status_t drawn;
  double width, height;
  gboolean done;

  g_return_val_if_fail (document != NULL && sink != NULL, FALSE);

  layout = wb_layout_new (document, size, watch, watch_data, error);
  if (layout == NULL)
    return FALSE;

  wb_page_size_get (size, &width, &height);
  surface = cairo_pdf_surface_create_for_stream (write_cb, &stream, width, height);
  set_metadata (surface, document);
  done = draw (surface, layout, watch, watch_data, &drawn, error);
  cairo_surface_finish (surface);
  done = done && check (surface, drawn, &stream, document, error);
  cairo_surface_destroy (surface);
  return done;
}

static gboolean
append_cb (const guint8 *bytes,
           gsize         length,
           gpointer      data)
{
  g_byte_array_append (data, bytes, (guint) length);
  return TRUE;
}

GBytes *
wb_pdf_to_bytes (const WbDocument  *document,
                 WbPageSize         size,
                 WbPageWatch        watch,
                 gpointer           watch_data,
                 GError           **error)
{
  GByteArray *out = g_byte_array_new ();

  if (!wb_pdf_write (document, size, append_cb, out, watch, watch_data, error))
    {
      g_byte_array_unref (out);
      return NULL;
    }
  return g_byte_array_free_to_bytes (out);
}
