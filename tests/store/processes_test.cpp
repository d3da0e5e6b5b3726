// SPDX-License-Identifier: Apache-2.0
// Several processes on one book, and processes that are killed.
#include <fmt/format.h>
#include <unistd.h>

#include <csignal>
#include <random>
#include <set>
#include <thread>

#include "store/lock_file.hpp"
#include "support.hpp"

using namespace store_test;
using namespace std::chrono_literals;

namespace {

// Appends from `from` on until it is killed, in batches of 1 to 4, and tells the pipe how far it was
// acknowledged.
void write_on(const std::string& path, std::int64_t from, int pipe) {
  const auto book = opened(path);
  for (std::int64_t n = from;;) {
    const std::int64_t end = n + 1 + n % 4;
    if (!append_numbers(*book, n, end)) throw std::runtime_error("append was refused");
    n = end;
    if (::write(pipe, &n, sizeof n) != sizeof n) throw std::runtime_error("nobody listens");
  }
}

// The last number that came through the pipe before its writer died.
std::int64_t last_of(int pipe, std::int64_t at_least) {
  for (std::int64_t n = 0; ::read(pipe, &n, sizeof n) == sizeof n;) at_least = n;
  return at_least;
}

// One writer, killed after a while. Returns how many entries are there; none of the acknowledged may be
// missing.
std::int64_t kill_a_writer(const std::string& path, std::int64_t from, std::chrono::microseconds after) {
  int ends[2];
  REQUIRE(::pipe(ends) == 0);
  const pid_t child = start([&] { write_on(path, from, ends[1]); });
  ::close(ends[1]);
  std::this_thread::sleep_for(after);
  ::kill(child, SIGKILL);
  const std::int64_t acknowledged = last_of(ends[0], from);
  ::close(ends[0]);
  CHECK(outcome(child) == -SIGKILL);

  const auto book = opened(path);
  const std::int64_t size = book->head().size;
  CHECK(size >= acknowledged);
  CHECK(size <= acknowledged + 4);  // at most the batch that was under way
  for (std::int64_t n = from; n < size; ++n) CHECK(book->find(id_number(n)) == n);
  return size;
}

void kill_many(int kills) {
  std::mt19937 dice(20'260'101);
  constexpr int kills_a_book = 50;
  for (int done = 0; done < kills;) {
    const Folder folder;
    const std::string path = folder.file("book");
    make_book(path, 0);
    std::int64_t size = 0;
    for (int i = 0; i < kills_a_book && done < kills; ++i, ++done) {
      CAPTURE(done);
      size = kill_a_writer(path, size, std::chrono::microseconds(dice() % 12'000));
      if (i % 10 == 9) require_sound(*opened(path));
    }
    require_sound(*opened(path));
  }
}

}  // namespace

TEST_CASE("a writer that is killed at any moment loses nothing that it acknowledged") { kill_many(100); }

TEST_CASE("a thousand killed writers", "[.soak]") { kill_many(1000); }

TEST_CASE("processes that write at once: all entries, one order, no update lost") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 0);
  constexpr std::int64_t each = 150, writers = 3;
  std::vector<pid_t> children;
  for (std::int64_t writer = 0; writer < writers; ++writer) {
    children.push_back(start([&, writer] {
      SqliteOptions options;
      options.wait = 60s;
      options.checkpoint_pages = 10;
      const auto book = opened(path, options);
      for (std::int64_t n = 0; n < each; ++n) {
        const std::int64_t number = writer * each + n;
        const auto done = append_numbers(*book, number, number + 1);
        if (!done) throw std::runtime_error(done.error().message);
        if (book->find(id_number(number)) != done->at(0).seq) throw std::runtime_error("not where it was put");
      }
    }));
  }
  for (const pid_t child : children) CHECK(outcome(child) == 0);
  const auto book = opened(path);
  CHECK(book->head().size == writers * each);
  std::set<std::int64_t> places;
  for (std::int64_t n = 0; n < writers * each; ++n) places.insert(book->find(id_number(n)).value_or(-1));
  CHECK(places.size() == writers * each);
  CHECK(*places.begin() == 0);
  require_sound(*book);  // the counts of the documents are those of a fold in that one order
}

TEST_CASE("the same entries from two processes are there once") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 0);
  std::vector<pid_t> children;
  for (int writer = 0; writer < 2; ++writer) {
    children.push_back(start([&] {
      SqliteOptions options;
      options.wait = 60s;
      const auto book = opened(path, options);
      for (std::int64_t n = 0; n < 100; ++n) {
        if (!append_numbers(*book, n, n + 1)) throw std::runtime_error("append was refused");
      }
    }));
  }
  for (const pid_t child : children) CHECK(outcome(child) == 0);
  const auto book = opened(path);
  CHECK(book->head().size == 100);
  require_sound(*book);
}

TEST_CASE("a book that another process holds too long is busy, and free again afterwards", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 1);
  SqliteOptions options;
  options.wait = 20ms;
  const auto book = opened(path, options);
  {
    LockFile other(path + ".lock");
    const auto held = other.hold(0ms);
    const auto busy = append_numbers(*book, 1, 2);
    REQUIRE_FALSE(busy);
    CHECK(busy.error().code == ErrorCode::storage_busy);
    CHECK_FALSE(busy.error().hint.empty());
    CHECK_THROWS_AS(book->add_checkpoint(0, "note"), StorageFault);
    CHECK(book->head().size == 1);  // reading goes on
  }
  CHECK(append_numbers(*book, 1, 2));
  {
    // Somebody who works on the file without our lock.
    sqlite::Connection foreign(path, sqlite::Access::read_write, {}, 0);
    const sqlite::Transaction transaction(foreign, sqlite::Transaction::Kind::write);
    const auto busy = append_numbers(*book, 2, 3);
    REQUIRE_FALSE(busy);
    CHECK(busy.error().code == ErrorCode::storage_busy);
  }
  CHECK(append_numbers(*book, 2, 3));
  require_sound(*book);
}

TEST_CASE("a lock that its holder dies with is free", "[file]") {
  const Folder folder;
  const std::string path = folder.file("lock");
  const pid_t child = start([&] {
    LockFile file(path);
    const auto held = file.hold(0ms);
    ::kill(::getpid(), SIGKILL);
  });
  CHECK(outcome(child) == -SIGKILL);
  LockFile file(path);
  const auto held = file.hold(0ms);
  const auto again = file.hold(0ms);  // within one process it nests
  LockFile second(path);
  CHECK_THROWS_AS(second.hold(0ms), StorageFault);
}
