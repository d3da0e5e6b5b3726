// SPDX-License-Identifier: Apache-2.0
#include "shim_vfs.hpp"

#include <sqlite3.h>

#include <new>

namespace store_test {
namespace {

// The real file's own state follows this one in the space that SQLite gives.
struct ShimFile {
  sqlite3_file base;
  Disk* disk;
  std::string* path;

  [[nodiscard]] sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

ShimFile& shim(sqlite3_file* file) { return *reinterpret_cast<ShimFile*>(file); }
sqlite3_file* real(sqlite3_file* file) { return shim(file).real(); }
const sqlite3_io_methods& methods(sqlite3_file* file) { return *real(file)->pMethods; }

template <class CarryOut>
int through(Disk& disk, const Operation& operation, CarryOut carry_out) {
  const int fault = disk.before(operation);
  if (fault != SQLITE_OK && !disk.carry_out_failed()) {
    disk.after(operation, true);
    return fault;
  }
  const int code = carry_out();
  if (code == SQLITE_OK) disk.after(operation, fault != SQLITE_OK);
  return fault != SQLITE_OK ? fault : code;
}

int close_file(sqlite3_file* file) {
  const int code = methods(file).xClose(real(file));
  delete shim(file).path;
  return code;
}
int read_file(sqlite3_file* f, void* to, int count, sqlite3_int64 at) {
  return methods(f).xRead(real(f), to, count, at);
}
int write_file(sqlite3_file* f, const void* from, int count, sqlite3_int64 at) {
  const Operation operation{Operation::Kind::write, *shim(f).path, at,
                            std::string(static_cast<const char*>(from), static_cast<std::size_t>(count))};
  return through(*shim(f).disk, operation, [&] { return methods(f).xWrite(real(f), from, count, at); });
}
int truncate_file(sqlite3_file* f, sqlite3_int64 size) {
  return through(*shim(f).disk, {Operation::Kind::truncate, *shim(f).path, size},
                 [&] { return methods(f).xTruncate(real(f), size); });
}
int sync_file(sqlite3_file* f, int flags) {
  return through(*shim(f).disk, {Operation::Kind::sync, *shim(f).path},
                 [&] { return methods(f).xSync(real(f), flags); });
}
int file_size(sqlite3_file* f, sqlite3_int64* size) { return methods(f).xFileSize(real(f), size); }
int lock_file(sqlite3_file* f, int level) { return methods(f).xLock(real(f), level); }
int unlock_file(sqlite3_file* f, int level) { return methods(f).xUnlock(real(f), level); }
int check_reserved(sqlite3_file* f, int* out) { return methods(f).xCheckReservedLock(real(f), out); }
int control(sqlite3_file* f, int what, void* with) { return methods(f).xFileControl(real(f), what, with); }
int sector_size(sqlite3_file* f) { return methods(f).xSectorSize(real(f)); }
int traits(sqlite3_file* f) { return methods(f).xDeviceCharacteristics(real(f)); }
int shm_map(sqlite3_file* f, int page, int size, int extend, void volatile** at) {
  return methods(f).xShmMap(real(f), page, size, extend, at);
}
int shm_lock(sqlite3_file* f, int offset, int n, int flags) {
  return methods(f).xShmLock(real(f), offset, n, flags);
}
void shm_barrier(sqlite3_file* f) { methods(f).xShmBarrier(real(f)); }
int shm_unmap(sqlite3_file* f, int remove) { return methods(f).xShmUnmap(real(f), remove); }

const sqlite3_io_methods shim_methods = {2,           close_file,  read_file, write_file,  truncate_file,
                                         sync_file,   file_size,   lock_file, unlock_file, check_reserved,
                                         control,     sector_size, traits,    shm_map,     shm_lock,
                                         shm_barrier, shm_unmap,   nullptr,   nullptr};

sqlite3_vfs* below(sqlite3_vfs*) {
  static sqlite3_vfs* const found = sqlite3_vfs_find("unix");
  return found;
}
Disk& disk_of(sqlite3_vfs* vfs) { return *static_cast<Disk*>(vfs->pAppData); }

int open_file(sqlite3_vfs* vfs, sqlite3_filename name, sqlite3_file* file, int flags, int* out_flags) {
  auto& made = shim(file);
  made.base.pMethods = nullptr;
  int there = 0;
  if (name != nullptr) below(vfs)->xAccess(below(vfs), name, SQLITE_ACCESS_EXISTS, &there);
  const int code = below(vfs)->xOpen(below(vfs), name, made.real(), flags, out_flags);
  if (code != SQLITE_OK) return code;
  made.disk = &disk_of(vfs);
  made.path = new std::string(name != nullptr ? name : "");
  made.base.pMethods = &shim_methods;
  if (there == 0) made.disk->after({Operation::Kind::create, *made.path}, false);
  return SQLITE_OK;
}

int remove_file(sqlite3_vfs* vfs, const char* name, int folder_too) {
  return through(disk_of(vfs), {Operation::Kind::remove, name, 0, {}, folder_too != 0},
                 [&] { return below(vfs)->xDelete(below(vfs), name, folder_too); });
}

}  // namespace

struct ShimVfs::Inside {
  sqlite3_vfs vfs{};
};

ShimVfs::ShimVfs(Disk& disk) : inside_(std::make_unique<Inside>()) {
  sqlite3_vfs& vfs = inside_->vfs;
  vfs = *sqlite3_vfs_find("unix");  // time, randomness and paths stay as they are
  vfs.iVersion = 1;
  vfs.szOsFile += static_cast<int>(sizeof(ShimFile));
  vfs.pNext = nullptr;
  vfs.zName = "shim";
  vfs.pAppData = &disk;
  vfs.xOpen = open_file;
  vfs.xDelete = remove_file;
  vfs.xAccess = [](sqlite3_vfs* v, const char* name, int flags, int* out) {
    return below(v)->xAccess(below(v), name, flags, out);
  };
  vfs.xFullPathname = [](sqlite3_vfs* v, const char* name, int count, char* out) {
    return below(v)->xFullPathname(below(v), name, count, out);
  };
  sqlite3_vfs_register(&vfs, 0);
}

ShimVfs::~ShimVfs() { sqlite3_vfs_unregister(&inside_->vfs); }

}  // namespace store_test
