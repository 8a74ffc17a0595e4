/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loaded before a program, lets the n-th of its calls that change files below a folder fail, as a
 * full disk or a broken one would. Says on standard error how many calls there were.
 *
 *   WB_FAIL_FOLDER  files below it count
 *   WB_FAIL_AT      number of the call that fails, 0 for none
 *   WB_FAIL_CODE    the errno that it fails with
 *   WB_FAIL_REST    when set, every later call fails as well */
#define _GNU_SOURCE

/* Both names of a call are wanted here, the plain one and the one with 64. */
#undef _FILE_OFFSET_BITS

#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static atomic_int n_calls;

static int
is_below (const char *path)
{
  const char *folder = getenv ("WB_FAIL_FOLDER");

  return folder != NULL && strncmp (path, folder, strlen (folder)) == 0;
}

static int
is_open_below (int fd)
{
  char link[64];
  char path[PATH_MAX];
  ssize_t length;

  snprintf (link, sizeof link, "/proc/self/fd/%d", fd);
  length = readlink (link, path, sizeof path - 1);
  if (length < 0)
    return 0;
  path[length] = '\0';
  return is_below (path);
}

/* Counts a call; returns whether it has to fail, errno then being set. */
static int
has_to_fail (void)
{
  const char *at = getenv ("WB_FAIL_AT");
  const char *code = getenv ("WB_FAIL_CODE");
  int n = atomic_fetch_add (&n_calls, 1) + 1;
  int wanted = at != NULL ? atoi (at) : 0;

  if (wanted == 0 || n < wanted || (n > wanted && getenv ("WB_FAIL_REST") == NULL))
    return 0;

  errno = code != NULL ? atoi (code) : EIO;
  return 1;
}

__attribute__ ((destructor)) static void
tell (void)
{
  if (getenv ("WB_FAIL_FOLDER") != NULL)
    fprintf (stderr, "calls: %d\n", atomic_load (&n_calls));
}

#define REAL(name) \
  static __typeof__ (name) *real; \
  if (real == NULL) \
    real = (__typeof__ (name) *) dlsym (RTLD_NEXT, #name)

#define ON_OPEN_FILE(type, name, parameters, arguments) \
  type name parameters; \
  type \
  name parameters \
  { \
    REAL (name); \
    if (is_open_below (fd) && has_to_fail ()) \
      return -1; \
    return real arguments; \
  }

ON_OPEN_FILE (ssize_t, write, (int fd, const void *data, size_t size), (fd, data, size))
ON_OPEN_FILE (ssize_t, pwrite, (int fd, const void *data, size_t size, off_t at),
              (fd, data, size, at))
ON_OPEN_FILE (ssize_t, pwrite64, (int fd, const void *data, size_t size, off64_t at),
              (fd, data, size, at))
ON_OPEN_FILE (int, fsync, (int fd), (fd))
ON_OPEN_FILE (int, fdatasync, (int fd), (fd))
ON_OPEN_FILE (int, ftruncate, (int fd, off_t size), (fd, size))
ON_OPEN_FILE (int, ftruncate64, (int fd, off64_t size), (fd, size))

#define ON_TWO_NAMES(name) \
  int \
  name (const char *from, \
        const char *to) \
  { \
    REAL (name); \
    if (is_below (to) && has_to_fail ()) \
      return -1; \
    return real (from, to); \
  }

ON_TWO_NAMES (rename)
ON_TWO_NAMES (link)

int
renameat2 (int          from_folder,
           const char  *from,
           int          to_folder,
           const char  *to,
           unsigned int flags)
{
  REAL (renameat2);
  if (is_below (to) && has_to_fail ())
    return -1;
  return real (from_folder, from, to_folder, to, flags);
}

int
mkdir (const char *path,
       mode_t      mode)
{
  REAL (mkdir);
  if (is_below (path) && has_to_fail ())
    return -1;
  return real (path, mode);
}

#define ON_OPENING(name) \
  int \
  name (const char *path, \
        int         flags, \
        ...) \
  { \
    mode_t mode = 0; \
    va_list args; \
    REAL (name); \
    va_start (args, flags); \
    if ((flags & O_CREAT) != 0) \
      mode = va_arg (args, mode_t); \
    va_end (args); \
    if ((flags & O_CREAT) != 0 && is_below (path) && has_to_fail ()) \
      return -1; \
    return real (path, flags, mode); \
  }

ON_OPENING (open)
ON_OPENING (open64)
