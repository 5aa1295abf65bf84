/*
 * Preloaded into a process (LD_PRELOAD), writes down in order what it asks of the disk below one folder: what is written where,
 * what is cut off, made, renamed and removed, and what is synced. From that list the disk after a power cut can be made
 * again: see disk.ts. DISK_ROOT names the folder, DISK_LOG the list. Syncs are written down and not passed on: the list alone
 * says what would be kept.
 *
 * An entry: 56 bytes, then the path, then the bytes. All numbers little-endian, as the machine has them.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/sendfile.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

enum { OPENED = 1, WRITTEN, CUT, SYNCED, RENAMED, REMOVED, LINKED, FOLDER_MADE, FOLDER_REMOVED };

struct entry {
  int64_t kind, pid, fd, at, flags;
  int32_t path_length, unused;
  int64_t length;
};

#define MOST_FDS 65536
static struct { dev_t dev; ino_t ino; int known; } files[MOST_FDS];
static pthread_mutex_t order = PTHREAD_MUTEX_INITIALIZER;
static char root[PATH_MAX];
static int list = -1;

#define REAL(name) ((__typeof__(&name))real(#name))
static void *real(const char *name) {
  void *found = dlsym(RTLD_NEXT, name);
  if (!found) abort();
  return found;
}

static void begin(void) __attribute__((constructor));
static void begin(void) {
  const char *folder = getenv("DISK_ROOT"), *file = getenv("DISK_LOG");
  if (!folder || !file || !realpath(folder, root)) return;
  int fd = REAL(open)(file, O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC, 0600);
  /* Out of the way of the numbers that programs count on. */
  list = fcntl(fd, F_DUPFD_CLOEXEC, 900);
  REAL(close)(fd);
}

/* The path below the folder, or nothing. The last part need not be there. */
static const char *inside(const char *path, char *whole) {
  if (list < 0 || !path) return NULL;
  char copy[PATH_MAX], folder[PATH_MAX];
  if (snprintf(copy, sizeof copy, "%s", path) >= (int)sizeof copy) return NULL;
  size_t end = strlen(copy);
  while (end > 1 && copy[end - 1] == '/') copy[--end] = 0;
  if (realpath(copy, whole) == NULL) {
    char *slash = strrchr(copy, '/');
    const char *last = slash ? slash + 1 : copy;
    if (slash == copy) strcpy(folder, "/");
    else if (slash) { *slash = 0; if (!realpath(copy, folder)) return NULL; }
    else if (!realpath(".", folder)) return NULL;
    if (snprintf(whole, PATH_MAX, "%s/%s", folder, last) >= PATH_MAX) return NULL;
  }
  size_t length = strlen(root);
  if (strncmp(whole, root, length) != 0 || (whole[length] != '/' && whole[length] != 0)) return NULL;
  return whole;
}

static const char *inside_at(int dirfd, const char *path, char *whole) {
  if (!path || path[0] == '/' || dirfd == AT_FDCWD) return inside(path, whole);
  char from[64], folder[PATH_MAX], joined[PATH_MAX];
  snprintf(from, sizeof from, "/proc/self/fd/%d", dirfd);
  ssize_t length = readlink(from, folder, sizeof folder - 1);
  if (length < 0) return NULL;
  folder[length] = 0;
  if (snprintf(joined, sizeof joined, "%s/%s", folder, path) >= (int)sizeof joined) return NULL;
  return inside(joined, whole);
}

static void note(int kind, int fd, int64_t at, int64_t flags, const char *path, const void *bytes, int64_t length) {
  struct entry entry = { kind, getpid(), fd, at, flags, path ? (int32_t)strlen(path) : 0, 0, length };
  struct iovec parts[3] = { { &entry, sizeof entry }, { (void *)path, entry.path_length }, { (void *)bytes, length } };
  int64_t all = (int64_t)sizeof entry + entry.path_length + length;
  if (REAL(writev)(list, parts, 3) != all) { perror("disk-log"); abort(); }
}

static int is_ours(int fd) {
  struct stat now;
  if (list < 0 || fd < 0 || fd >= MOST_FDS || !files[fd].known || fstat(fd, &now) != 0) return 0;
  return now.st_dev == files[fd].dev && now.st_ino == files[fd].ino;
}

static void opened(int fd, const char *path, int flags) {
  if (fd < 0 || fd >= MOST_FDS) return;
  struct stat now;
  files[fd].known = path != NULL && fstat(fd, &now) == 0 && (S_ISREG(now.st_mode) || S_ISDIR(now.st_mode));
  if (!files[fd].known) return;
  files[fd].dev = now.st_dev;
  files[fd].ino = now.st_ino;
  note(OPENED, fd, S_ISDIR(now.st_mode), flags, path, NULL, 0);
}

#define IN_ORDER(result_type, call, when_done) \
  pthread_mutex_lock(&order); \
  result_type result = call; \
  int said = errno; \
  if (result >= 0) { when_done; } \
  pthread_mutex_unlock(&order); \
  errno = said; \
  return result;

static mode_t mode_of(int flags, va_list list_of) {
  return (flags & O_CREAT) || (flags & O_TMPFILE) == O_TMPFILE ? (mode_t)va_arg(list_of, int) : 0;
}

#define OPEN(name) \
  int name(const char *path, int flags, ...) { \
    va_list more; va_start(more, flags); mode_t mode = mode_of(flags, more); va_end(more); \
    char whole[PATH_MAX]; const char *ours = inside(path, whole); \
    IN_ORDER(int, REAL(name)(path, flags, mode), opened(result, ours, flags)) \
  }
OPEN(open)
OPEN(open64)

#define OPENAT(name) \
  int name(int dirfd, const char *path, int flags, ...) { \
    va_list more; va_start(more, flags); mode_t mode = mode_of(flags, more); va_end(more); \
    char whole[PATH_MAX]; const char *ours = inside_at(dirfd, path, whole); \
    IN_ORDER(int, REAL(name)(dirfd, path, flags, mode), opened(result, ours, flags)) \
  }
OPENAT(openat)
OPENAT(openat64)

int creat(const char *path, mode_t mode) { return open(path, O_CREAT | O_WRONLY | O_TRUNC, mode); }

/* Where the next plain write of this file goes. */
static int64_t place_of(int fd) {
  int flags = fcntl(fd, F_GETFL);
  struct stat now;
  if (flags >= 0 && (flags & O_APPEND) && fstat(fd, &now) == 0) return now.st_size;
  return lseek(fd, 0, SEEK_CUR);
}

ssize_t write(int fd, const void *bytes, size_t length) {
  if (!is_ours(fd)) return REAL(write)(fd, bytes, length);
  pthread_mutex_lock(&order);
  int64_t at = place_of(fd);
  ssize_t result = REAL(write)(fd, bytes, length);
  int said = errno;
  if (result > 0) note(WRITTEN, fd, at, 0, NULL, bytes, result);
  pthread_mutex_unlock(&order);
  errno = said;
  return result;
}

#define PWRITE(name, offset_type) \
  ssize_t name(int fd, const void *bytes, size_t length, offset_type at) { \
    if (!is_ours(fd)) return REAL(name)(fd, bytes, length, at); \
    IN_ORDER(ssize_t, REAL(name)(fd, bytes, length, at), if (result > 0) note(WRITTEN, fd, at, 0, NULL, bytes, result)) \
  }
PWRITE(pwrite, off_t)
PWRITE(pwrite64, off64_t)

/* One after the other, through the ways above. */
static ssize_t in_parts(int fd, const struct iovec *parts, int count, int64_t at) {
  ssize_t all = 0;
  for (int part = 0; part < count; part++) {
    ssize_t done = at < 0 ? write(fd, parts[part].iov_base, parts[part].iov_len)
                          : pwrite(fd, parts[part].iov_base, parts[part].iov_len, at + all);
    if (done < 0) return all > 0 ? all : -1;
    all += done;
    if ((size_t)done < parts[part].iov_len) break;
  }
  return all;
}
ssize_t writev(int fd, const struct iovec *parts, int count) {
  return is_ours(fd) ? in_parts(fd, parts, count, -1) : REAL(writev)(fd, parts, count);
}
ssize_t pwritev(int fd, const struct iovec *parts, int count, off_t at) {
  return is_ours(fd) ? in_parts(fd, parts, count, at) : REAL(pwritev)(fd, parts, count, at);
}
ssize_t pwritev64(int fd, const struct iovec *parts, int count, off64_t at) {
  return is_ours(fd) ? in_parts(fd, parts, count, at) : REAL(pwritev64)(fd, parts, count, at);
}

/* Copies inside the system are done by hand, so that the bytes are seen. */
static ssize_t by_hand(int out, int in, off64_t *from, size_t length) {
  static char bytes[1 << 16];
  static pthread_mutex_t one = PTHREAD_MUTEX_INITIALIZER;
  ssize_t all = 0;
  pthread_mutex_lock(&one);
  while ((size_t)all < length) {
    size_t want = length - all < sizeof bytes ? length - all : sizeof bytes;
    ssize_t got = from ? pread64(in, bytes, want, *from) : read(in, bytes, want);
    if (got <= 0) { if (all == 0) all = got; break; }
    ssize_t put = write(out, bytes, got);
    if (put < 0) { if (all == 0) all = -1; break; }
    if (from) *from += put;
    all += put;
    if (put < got) break;
  }
  pthread_mutex_unlock(&one);
  return all;
}
ssize_t sendfile(int out, int in, off_t *from, size_t length) {
  return is_ours(out) ? by_hand(out, in, (off64_t *)from, length) : REAL(sendfile)(out, in, from, length);
}
ssize_t sendfile64(int out, int in, off64_t *from, size_t length) {
  return is_ours(out) ? by_hand(out, in, from, length) : REAL(sendfile64)(out, in, from, length);
}
ssize_t copy_file_range(int in, off64_t *from, int out, off64_t *to, size_t length, unsigned flags) {
  if (!is_ours(out)) return REAL(copy_file_range)(in, from, out, to, length, flags);
  errno = ENOSYS;
  return -1;
}
long syscall(long number, ...) {
  va_list more;
  va_start(more, number);
  long a[6];
  for (int at = 0; at < 6; at++) a[at] = va_arg(more, long);
  va_end(more);
  if (number == SYS_copy_file_range && is_ours((int)a[2])) { errno = ENOSYS; return -1; }
  return REAL(syscall)(number, a[0], a[1], a[2], a[3], a[4], a[5]);
}

#define FTRUNCATE(name, offset_type) \
  int name(int fd, offset_type length) { \
    if (!is_ours(fd)) return REAL(name)(fd, length); \
    IN_ORDER(int, REAL(name)(fd, length), note(CUT, fd, length, 0, NULL, NULL, 0)) \
  }
FTRUNCATE(ftruncate, off_t)
FTRUNCATE(ftruncate64, off64_t)

#define SYNC(name) \
  int name(int fd) { \
    if (!is_ours(fd)) return REAL(name)(fd); \
    IN_ORDER(int, 0, note(SYNCED, fd, 0, 0, NULL, NULL, 0)) \
  }
SYNC(fsync)
SYNC(fdatasync)

#define ONE_PATH(name, what) \
  int name(const char *path) { \
    char whole[PATH_MAX]; const char *ours = inside(path, whole); \
    IN_ORDER(int, REAL(name)(path), if (ours) note(what, -1, 0, 0, ours, NULL, 0)) \
  }
ONE_PATH(unlink, REMOVED)
ONE_PATH(rmdir, FOLDER_REMOVED)

int unlinkat(int dirfd, const char *path, int flags) {
  char whole[PATH_MAX]; const char *ours = inside_at(dirfd, path, whole);
  IN_ORDER(int, REAL(unlinkat)(dirfd, path, flags),
    if (ours) note(flags & AT_REMOVEDIR ? FOLDER_REMOVED : REMOVED, -1, 0, 0, ours, NULL, 0))
}
int remove(const char *path) {
  struct stat now;
  return lstat(path, &now) == 0 && S_ISDIR(now.st_mode) ? rmdir(path) : unlink(path);
}
int mkdir(const char *path, mode_t mode) {
  char whole[PATH_MAX]; const char *ours = inside(path, whole);
  IN_ORDER(int, REAL(mkdir)(path, mode), if (ours) note(FOLDER_MADE, -1, 0, 0, ours, NULL, 0))
}

#define TWO_PATHS(name, what) \
  int name(const char *from, const char *to) { \
    char one[PATH_MAX], other[PATH_MAX]; \
    const char *ours = inside(from, one), *then = inside(to, other); \
    IN_ORDER(int, REAL(name)(from, to), if (ours && then) note(what, -1, 0, 0, ours, then, strlen(then))) \
  }
TWO_PATHS(rename, RENAMED)
TWO_PATHS(link, LINKED)

int renameat(int fromfd, const char *from, int tofd, const char *to) {
  if (fromfd != AT_FDCWD || tofd != AT_FDCWD) return REAL(renameat)(fromfd, from, tofd, to);
  return rename(from, to);
}
