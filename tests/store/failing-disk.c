/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "failing-disk.h"

#include <sqlite3.h>
#include <string.h>

/* A file as SQLite holds it, with the real one behind it in the same piece of memory. */
typedef struct
{
  sqlite3_file  base;
  sqlite3_file *real;
} File;

static sqlite3_vfs *real_disk;
static sqlite3_vfs failing_disk;

static GMutex mutex;
static gboolean armed;
static gboolean failed;
static FailingManner how;
static guint deeds_left;
static gboolean files_unshared;

void
failing_disk_fail (FailingManner manner,
                   guint         n_deeds)
{
  g_mutex_lock (&mutex);
  armed = TRUE;
  failed = FALSE;
  how = manner;
  deeds_left = n_deeds;
  g_mutex_unlock (&mutex);
}

void
failing_disk_unshare (gboolean unshared)
{
  g_atomic_int_set (&files_unshared, unshared);
}

gboolean
failing_disk_mend (void)
{
  gboolean did;

  g_mutex_lock (&mutex);
  did = failed;
  armed = FALSE;
  failed = FALSE;
  g_mutex_unlock (&mutex);
  return did;
}

/* Counts a deed. Returns: whether it is to fail. */
static gboolean
is_to_fail (void)
{
  gboolean fail = FALSE;

  g_mutex_lock (&mutex);
  if (armed)
    {
      if (deeds_left > 0)
        deeds_left--;
      else
        fail = how != FAILING_ONCE || !failed;
      failed = failed || fail;
    }
  g_mutex_unlock (&mutex);
  return fail;
}

/* Only writing needs room. */
static gboolean
is_to_fail_by_want_of_room (void)
{
  return how == FAILING_FULL && is_to_fail ();
}

static gboolean
is_to_fail_by_fault (void)
{
  return how != FAILING_FULL && is_to_fail ();
}

/* --- deeds that change something -------------------------------------------------------------- */

static int
write_file (sqlite3_file *file,
            const void   *bytes,
            int           n_bytes,
            sqlite3_int64 offset)
{
  sqlite3_file *real = ((File *) file)->real;

  if (is_to_fail_by_want_of_room ())
    return SQLITE_FULL;
  if (is_to_fail_by_fault ())
    {
      /* A write that breaks off leaves some of it. */
      real->pMethods->xWrite (real, bytes, n_bytes / 2, offset);
      return SQLITE_IOERR_WRITE;
    }
  return real->pMethods->xWrite (real, bytes, n_bytes, offset);
}

static int
truncate_file (sqlite3_file *file,
               sqlite3_int64 size)
{
  sqlite3_file *real = ((File *) file)->real;

  return is_to_fail_by_fault () ? SQLITE_IOERR_TRUNCATE : real->pMethods->xTruncate (real, size);
}

static int
sync_file (sqlite3_file *file,
           int           flags)
{
  sqlite3_file *real = ((File *) file)->real;

  return is_to_fail_by_fault () ? SQLITE_IOERR_FSYNC : real->pMethods->xSync (real, flags);
}

static int
delete_file (sqlite3_vfs *disk,
             const char  *name,
             int          sync)
{
  return is_to_fail_by_fault () ? SQLITE_IOERR_DELETE : real_disk->xDelete (real_disk, name, sync);
}

/* --- all others, handed on -------------------------------------------------------------------- */

#define REAL(file) (((File *) (file))->real)
#define PASS(name, parameters, ...) \
  static int name parameters { return REAL (file)->pMethods->__VA_ARGS__; }

PASS (read_file, (sqlite3_file *file, void *to, int n, sqlite3_int64 at),
      xRead (REAL (file), to, n, at))
PASS (get_size, (sqlite3_file *file, sqlite3_int64 *size), xFileSize (REAL (file), size))
PASS (lock_file, (sqlite3_file *file, int level), xLock (REAL (file), level))
PASS (unlock_file, (sqlite3_file *file, int level), xUnlock (REAL (file), level))
PASS (check_reserved, (sqlite3_file *file, int *result), xCheckReservedLock (REAL (file), result))
PASS (control_file, (sqlite3_file *file, int what, void *argument),
      xFileControl (REAL (file), what, argument))
PASS (get_sector_size, (sqlite3_file *file), xSectorSize (REAL (file)))
PASS (get_device, (sqlite3_file *file), xDeviceCharacteristics (REAL (file)))
PASS (map_shared, (sqlite3_file *file, int page, int size, int extend, void volatile **to),
      xShmMap (REAL (file), page, size, extend, to))
PASS (lock_shared, (sqlite3_file *file, int offset, int n, int flags),
      xShmLock (REAL (file), offset, n, flags))
PASS (unmap_shared, (sqlite3_file *file, int delete), xShmUnmap (REAL (file), delete))
PASS (fetch_page, (sqlite3_file *file, sqlite3_int64 at, int n, void **to),
      xFetch (REAL (file), at, n, to))
PASS (unfetch_page, (sqlite3_file *file, sqlite3_int64 at, void *page),
      xUnfetch (REAL (file), at, page))

static void
bar_shared (sqlite3_file *file)
{
  REAL (file)->pMethods->xShmBarrier (REAL (file));
}

static int
close_file (sqlite3_file *file)
{
  return REAL (file)->pMethods->xClose (REAL (file));
}

static const sqlite3_io_methods methods = {
  3, close_file, read_file, write_file, truncate_file, sync_file, get_size, lock_file, unlock_file,
  check_reserved, control_file, get_sector_size, get_device, map_shared, lock_shared, bar_shared,
  unmap_shared, fetch_page, unfetch_page,
};

/* The first version of these tables knows nothing of shared memory. */
static const sqlite3_io_methods unshared_methods = {
  1, close_file, read_file, write_file, truncate_file, sync_file, get_size, lock_file, unlock_file,
  check_reserved, control_file, get_sector_size, get_device,
};

static int
open_file (sqlite3_vfs  *disk,
           const char   *name,
           sqlite3_file *file,
           int           flags,
           int          *out_flags)
{
  File *self = (File *) file;
  int code;

  self->real = (sqlite3_file *) (self + 1);
  code = real_disk->xOpen (real_disk, name, self->real, flags, out_flags);
  if (self->real->pMethods != NULL)
    self->base.pMethods = g_atomic_int_get (&files_unshared) ? &unshared_methods : &methods;
  else
    self->base.pMethods = NULL;
  return code;
}

void
failing_disk_install (void)
{
  real_disk = sqlite3_vfs_find (NULL);
  memcpy (&failing_disk, real_disk, sizeof failing_disk);
  failing_disk.pNext = NULL;
  failing_disk.zName = "failing";
  failing_disk.szOsFile = (int) sizeof (File) + real_disk->szOsFile;
  failing_disk.xOpen = open_file;
  failing_disk.xDelete = delete_file;
  g_assert_cmpint (sqlite3_vfs_register (&failing_disk, 1), ==, SQLITE_OK);
}
