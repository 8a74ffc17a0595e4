/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opens libraries. What their functions do, and when they are called, is not known here. */
#include "config.h"

#include "share/wb-library.h"

#include "share/wb-share.h"

#include <dlfcn.h>
#include <string.h>

G_STATIC_ASSERT (sizeof (gpointer) == sizeof (GCallback));

static gboolean
refuse (const WbLibrary  *self,
        GError          **error)
{
  return wb_share_refuse (error, WB_SHARE_ERROR_LIBRARY, self->soname,
                          "it cannot be used (%s); Debian has it in the package %s", dlerror (),
                          self->package);
}

/* POSIX has dlsym() give a pointer to an object for a function too; copying says nothing of types. */
static gboolean
fill_table (WbLibrary  *self,
            gpointer    handle,
            GError    **error)
{
  g_autofree gpointer *found = g_new (gpointer, self->n_names);

  for (gsize i = 0; i < self->n_names; i++)
    {
      found[i] = dlsym (handle, self->names[i]);
      if (found[i] == NULL)
        return refuse (self, error);
    }
  memcpy (self->table, found, self->n_names * sizeof (gpointer));
  return TRUE;
}

/* At once and not function by function, so that a library that is not whole is noticed here. None of
 * its names is seen by other libraries, and it stays: several do not bear being closed. */
static gboolean
open_library (WbLibrary  *self,
              GError    **error)
{
  gpointer handle = dlopen (self->soname, RTLD_NOW | RTLD_LOCAL | RTLD_NODELETE);
  gboolean whole;

  if (handle == NULL)
    return refuse (self, error);
  whole = fill_table (self, handle, error);
  dlclose (handle);
  return whole;
}

gboolean
wb_library_open (WbLibrary  *self,
                 GError    **error)
{
  static GMutex mutex;

  if (g_atomic_pointer_get (&self->is_open) != 0)
    return TRUE;
  g_mutex_lock (&mutex);
  if (self->is_open == 0 && open_library (self, error))
    g_atomic_pointer_set (&self->is_open, 1);
  g_mutex_unlock (&mutex);
  return g_atomic_pointer_get (&self->is_open) != 0;
}
