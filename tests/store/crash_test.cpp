// SPDX-License-Identifier: Apache-2.0
// Power loss at every write, sync and unlink. That weaker settings do lose entries under the same treatment
// shows that the treatment bites.
#include <fmt/format.h>

#include <fstream>

#include "crash_disk.hpp"
#include "effort.hpp"
#include "support.hpp"

using namespace store_test;

namespace {

constexpr std::int64_t entries_before = 3;

struct Recording {
  std::string_view synchronous = "FULL";
  std::int64_t entries = 24;
  int failing_sync = 0;
};

struct Toll {
  int images = 0;
  int lost = 0;     // acknowledged entries are not there
  int corrupt = 0;  // the book does not open, or does not hold together
  std::string first;
};

std::string contents(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// Opens, appends one by one, long enough for several checkpoints, and closes. Returns the entries that were
// promised.
void write_entries(const std::string& path, CrashDisk& disk, const Recording& recording) {
  const ShimVfs vfs(disk);
  SqliteOptions options;
  options.vfs = vfs.name();
  options.synchronous = recording.synchronous;
  options.checkpoint_pages = 20;
  disk.acknowledge(entries_before);
  auto book = open_sqlite_book(path, fold, ticking_clock(), options);
  for (std::int64_t n = entries_before; book && n < entries_before + recording.entries; ++n) {
    try {
      if (append_numbers(**book, n, n + 1, 1500)) disk.acknowledge(n + 1);
    } catch (const StorageFault&) {
      // Only where a sync is made to fail: then the same entry is handed in again, as a caller would.
      REQUIRE(recording.failing_sync > 0);
      book->reset();
      book = open_sqlite_book(path, fold, ticking_clock(), options);
      if (book && append_numbers(**book, n, n + 1, 1500)) disk.acknowledge(n + 1);
    }
  }
}

// What is wrong with a book after the power came back; empty if nothing is.
std::string fault_of(const std::string& path, std::int64_t& size) {
  const auto book = open_sqlite_book(path, fold, ticking_clock());
  if (!book) return book.error().message;
  try {
    size = (*book)->head().size;
    std::string fault = joined((*book)->verify({}, VerifyDepth::all, {}).findings);
    for (std::int64_t n = 0; n < size && fault.empty(); ++n) {
      if ((*book)->find(id_number(n)) != n) fault = fmt::format("entry {} is another one", n);
    }
    if (fault.empty() && !append_numbers(**book, size, size + 1)) fault = "nothing can be appended";
    return fault;
  } catch (const StorageFault& fault) {
    return fault.what();
  }
}

Toll toll_of(const Recording& recording, unsigned seeds) {
  const Folder folder(true), after(true);
  const std::string path = folder.file("book"), found = after.file("book");
  make_book(path, entries_before);
  CrashDisk disk(Image{{path, contents(path)}});
  disk.fail_sync(recording.failing_sync);
  write_entries(path, disk, recording);
  Toll toll;
  disk.each_image(seeds, [&](const Image& image, std::int64_t acknowledged) {
    for (const auto& old : std::filesystem::directory_iterator(after.path()))
      std::filesystem::remove(old.path());
    for (const auto& [name, content] : image) {
      std::ofstream(found + name.substr(path.size()), std::ios::binary) << content;
    }
    ++toll.images;
    std::int64_t size = 0;
    const std::string fault = fault_of(found, size);
    toll.corrupt += fault.empty() ? 0 : 1;
    toll.lost += fault.empty() && size < acknowledged ? 1 : 0;
    if (toll.first.empty() && !fault.empty()) toll.first = fault;
  });
  return toll;
}

void require_no_toll(const Toll& toll) {
  CAPTURE(toll.first);
  CHECK(toll.lost == 0);
  CHECK(toll.corrupt == 0);
}

int syncs_of(const Recording& recording) {
  const Folder folder(true);
  make_book(folder.file("book"), entries_before);
  CrashDisk disk(Image{});
  write_entries(folder.file("book"), disk, recording);
  return disk.syncs();
}

}  // namespace

TEST_CASE("power loss at any write, sync or unlink loses no acknowledged entry and corrupts nothing",
          "[file]") {
  const Toll toll = toll_of({}, under_sanitizers ? 2 : 3);
  CHECK(toll.images > (under_sanitizers ? 200 : 500));
  require_no_toll(toll);
}

TEST_CASE("the same power losses do cost entries where each commit is not synced", "[file]") {
  const Toll toll = toll_of({"NORMAL", 12}, 3);
  CHECK(toll.lost > 0);
  CHECK(toll.corrupt == 0);
}

TEST_CASE("the same power losses corrupt a book where nothing is synced", "[file]") {
  const Toll toll = toll_of({"OFF", 12}, 4);
  CHECK(toll.lost > 0);
  CHECK(toll.corrupt > 0);
}

TEST_CASE("a sync that fails before the power does costs no acknowledged entry either", "[file]") {
  const int syncs = syncs_of({"FULL", 4});
  CHECK(syncs > 5);
  for (int failing = 1; failing <= syncs; failing += under_sanitizers ? 5 : 1) {
    CAPTURE(failing);
    require_no_toll(toll_of({"FULL", 4, failing}, 3));
  }
}

TEST_CASE("many power losses of a longer run", "[file][.soak]") {
  const Toll toll = toll_of({"FULL", 80}, 10);
  CHECK(toll.images > 5000);
  require_no_toll(toll);
  const int syncs = syncs_of({"FULL", 12});
  for (int failing = 1; failing <= syncs; ++failing) {
    CAPTURE(failing);
    require_no_toll(toll_of({"FULL", 12, failing}, 10));
  }
}
