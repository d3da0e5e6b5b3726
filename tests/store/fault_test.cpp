// SPDX-License-Identifier: Apache-2.0
// A full disk, an error of the disk and a sync that fails, at each write and sync in turn, once and for good.
#include <fmt/format.h>
#include <sqlite3.h>

#include "shim_vfs.hpp"
#include "support.hpp"

using namespace store_test;

namespace {

struct Fault {
  const char* name;
  int on_write;
  bool for_good;
  bool carried_out;  // what SQLite is told failed was done all the same
};

class FaultyDisk : public Disk {
 public:
  FaultyDisk(const Fault& fault, int at) : fault_(fault), at_(at) {}

  int before(const Operation& operation) override {
    ++count_;
    if (count_ < at_ || (count_ > at_ && !fault_.for_good)) return SQLITE_OK;
    hit_ = true;
    return operation.kind == Operation::Kind::sync ? SQLITE_IOERR_FSYNC : fault_.on_write;
  }
  void after(const Operation&, bool) override {}
  [[nodiscard]] bool carry_out_failed() const override { return fault_.carried_out; }
  [[nodiscard]] bool hit() const { return hit_; }

 private:
  Fault fault_;
  int at_, count_ = 0;
  bool hit_ = false;
};

constexpr std::int64_t before = 3, tried = 5;

void require_clear(ErrorCode code, const std::string& message, const std::string& hint) {
  CAPTURE(message);
  CHECK((code == ErrorCode::storage_fault || code == ErrorCode::file_fault || code == ErrorCode::bad_book));
  CHECK_FALSE(message.empty());
  CHECK_FALSE(hint.empty());
}

// What the caller was told of one entry.
struct Told {
  enum { acknowledged, not_written, in_doubt } what = not_written;
  std::int64_t seq = 0;
};

Told told_of(Store& book, std::int64_t n) {
  try {
    const auto done = append_numbers(book, n, n + 1, 600);
    REQUIRE(done);
    return {Told::acknowledged, done->at(0).seq};
  } catch (const StorageFault& fault) {
    require_clear(fault.code(), fault.what(), fault.hint());
    const bool not_written = std::string(fault.what()).find("nothing was written") != std::string::npos;
    return {not_written ? Told::not_written : Told::in_doubt, 0};
  }
}

// Appends one by one through the faults.
std::vector<Told> write_through(const std::string& path, FaultyDisk& disk) {
  const ShimVfs vfs(disk);
  SqliteOptions options;
  options.vfs = vfs.name();
  options.checkpoint_pages = 8;
  std::vector<Told> told(tried);
  const auto book = open_sqlite_book(path, fold, ticking_clock(), options);
  if (!book) {
    require_clear(book.error().code, book.error().message, book.error().hint);
    return told;
  }
  bool doubt = false;
  for (std::int64_t i = 0; i < tried; ++i) {
    Told& now = told[static_cast<std::size_t>(i)];
    now = told_of(**book, before + i);
    if (doubt) CHECK(now.what == Told::not_written);  // until the book is opened again
    doubt = doubt || now.what == Told::in_doubt;
  }
  return told;
}

void require_whole(const std::string& path, const std::vector<Told>& told) {
  const auto book = opened(path);
  require_sound(*book);
  std::int64_t there = before;
  for (std::int64_t i = 0; i < tried; ++i) {
    const auto found = book->find(id_number(before + i));
    const Told& entry = told[static_cast<std::size_t>(i)];
    if (entry.what == Told::acknowledged) CHECK(found == entry.seq);
    if (entry.what == Told::not_written) CHECK_FALSE(found);
    there += found ? 1 : 0;
  }
  CHECK(book->head().size == there);
  // The ids decide: handing all of them in again completes the book, each once.
  REQUIRE(append_numbers(*book, before, before + tried, 600));
  CHECK(book->head().size == before + tried);
  require_sound(*book);
}

int faults_until_none(const Fault& fault) {
  const Folder folder(true);
  make_book(folder.file("start"), before);
  for (int at = 1;; ++at) {
    CAPTURE(fault.name, at);
    const std::string path = folder.file(fmt::format("book-{}", at));
    std::filesystem::copy_file(folder.file("start"), path);
    FaultyDisk disk(fault, at);
    const auto told = write_through(path, disk);
    if (!disk.hit()) {
      for (const Told& entry : told) CHECK(entry.what == Told::acknowledged);
      return at - 1;
    }
    require_whole(path, told);
  }
}

}  // namespace

TEST_CASE("each write and sync that fails gives a clear error and leaves nothing half done", "[file]") {
  const Fault fault = GENERATE(Fault{"disk full, once", SQLITE_FULL, false, false},
                               Fault{"disk full, for good", SQLITE_FULL, true, false},
                               Fault{"disk error, once", SQLITE_IOERR_WRITE, false, false},
                               Fault{"disk error, for good", SQLITE_IOERR_WRITE, true, false},
                               Fault{"told of an error, but done, once", SQLITE_IOERR_WRITE, false, true},
                               Fault{"told of errors, but done, for good", SQLITE_IOERR_WRITE, true, true});
  CHECK(faults_until_none(fault) > 30);
}

TEST_CASE("what was said not to be written does not come back out of the log after a crash", "[file]") {
  const Folder folder(true);
  make_book(folder.file("start"), before);
  bool refused_once = false;
  for (int at = 1; at < 25; ++at) {
    CAPTURE(at);
    const std::string path = folder.file(fmt::format("book-{}", at)),
                      crashed = folder.file(fmt::format("crashed-{}", at));
    std::filesystem::copy_file(folder.file("start"), path);
    // Another process has the book open: what it knows of the log does not hold the commit that failed.
    const auto other = opened(path);
    CHECK(other->head().size == before);
    FaultyDisk disk({"", SQLITE_IOERR_WRITE, false, true}, at);
    const ShimVfs vfs(disk);
    SqliteOptions options;
    options.vfs = vfs.name();
    const auto book = opened(path, options);
    const Told told = told_of(*book, before);
    refused_once = refused_once || told.what == Told::not_written;
    for (const char* ending : {"", "-wal"}) std::filesystem::copy_file(path + ending, crashed + ending);
    const auto found = opened(crashed)->find(id_number(before));
    if (told.what == Told::acknowledged) CHECK(found == told.seq);
    if (told.what == Told::not_written) CHECK_FALSE(found);
  }
  CHECK(refused_once);
}

TEST_CASE("the errors name their cause", "[file]") {
  const auto message_of = [](const Fault& fault) {
    const Folder folder(true);
    make_book(folder.file("book"), before);
    FaultyDisk disk(fault, 1);
    const ShimVfs vfs(disk);
    SqliteOptions options;
    options.vfs = vfs.name();
    const auto book = open_sqlite_book(folder.file("book"), fold, ticking_clock(), options);
    REQUIRE(book);
    try {
      (void)append_numbers(**book, before, before + 1);
    } catch (const StorageFault& thrown) {
      CHECK(thrown.code() == ErrorCode::storage_fault);
      return std::string(thrown.what());
    }
    return std::string("nothing was thrown");
  };
  using Catch::Matchers::Contains;
  CHECK_THAT(message_of({"", SQLITE_FULL, true, false}), Contains("the disk is full"));
  CHECK_THAT(message_of({"", SQLITE_IOERR_WRITE, true, false}), Contains("the disk reports an error"));
}

TEST_CASE("after a fault that cannot be resolved each call says so until the book is opened again", "[file]") {
  const Folder folder(true);
  const std::string path = folder.file("book");
  make_book(path, before);
  {
    FaultyDisk disk({"", SQLITE_IOERR_WRITE, true, true}, 2);
    const ShimVfs vfs(disk);
    SqliteOptions options;
    options.vfs = vfs.name();
    const auto book = opened(path, options);
    CHECK_THROWS_AS(append_numbers(*book, before, before + 1), StorageFault);
    CHECK_THROWS_AS(append_numbers(*book, before, before + 1), StorageFault);
    CHECK_THROWS_AS(book->head(), StorageFault);
    CHECK_THROWS_AS(book->entry(0), StorageFault);
    CHECK_THROWS_AS(book->add_checkpoint(0, "note"), StorageFault);
  }
  const auto book = opened(path);
  require_sound(*book);
  REQUIRE(append_numbers(*book, before, before + 1));
}
