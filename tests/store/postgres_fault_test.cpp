// SPDX-License-Identifier: Apache-2.0
// Lines that are cut, servers that are killed or restarted while entries are being written.
#include <fmt/format.h>

#include <atomic>
#include <csignal>
#include <cstdlib>
#include <thread>

#include "fogwright/book/encoding.hpp"
#include "postgres_proxy.hpp"
#include "support.hpp"

using namespace store_test;
using namespace std::chrono_literals;
using Catch::Matchers::Contains;

namespace {

/// The book of a path, reached through the proxy of a folder.
std::unique_ptr<Store> opened_through(const Folder& proxy, const std::string& path) {
  const std::string own = address_of(path), query = own.substr(own.find('?') + 1);
  auto book = open_book("postgresql:///?host=" + proxy.path().string() + "&" + query, store_test::fold,
                        ticking_clock());
  if (!book) throw std::runtime_error(book.error().message);
  return std::move(*book);
}

std::string fault_of(const std::function<void()>& act) {
  try {
    act();
  } catch (const StorageFault& fault) {
    CHECK_FALSE(fault.hint().empty());
    return fault.what();
  }
  return "";
}

void control_server(const char* what) {
  const std::string command = std::string(std::getenv("FOGWRIGHT_TEST_POSTGRES")) + " " + what;
  // NOLINTNEXTLINE(cert-env33-c): a program of the tests
  if (std::system(command.c_str()) != 0) throw std::runtime_error("the server does not obey");
}

void kill_all_writers(const std::string& path) {
  pq::Connection connection = superuser(path);
  const pq::Answer pids = connection.run(
      "SELECT pid FROM pg_stat_activity WHERE application_name = 'fogwright' AND pid <> pg_backend_pid()");
  for (int row = 0; row < pids.rows(); ++row) ::kill(static_cast<pid_t>(pids.integer(row, 0)), SIGKILL);
}

// Appends one by one for as long as `disturb` takes and a while after it. What was refused is handed in again,
// by its id. Returns how often a fault was told.
int write_through(const std::string& path, const std::function<void()>& disturb) {
  const auto book = opened(path);
  std::atomic<bool> disturbed{false};
  std::thread other([&] {
    std::this_thread::sleep_for(150ms);
    disturb();
    disturbed = true;
  });
  int faults = 0;
  std::int64_t n = 0, after = 0;
  const auto end = std::chrono::steady_clock::now() + 40s;
  while (after < 20 && std::chrono::steady_clock::now() < end) {
    const std::string told = fault_of([&] {
      const auto done = append_numbers(*book, n, n + 1);
      if (!done) return;
      CHECK(done->front().seq == n);
      ++n;
      after += disturbed ? 1 : 0;
    });
    faults += told.empty() ? 0 : 1;
  }
  other.join();
  CHECK(after == 20);
  CHECK(book->head().size == n);
  for (std::int64_t i = 0; i < n; ++i) CHECK(book->find(id_number(i)) == i);
  require_sound(*book);
  return faults;
}

}  // namespace

TEST_CASE("a line that is cut before COMMIT arrives: nothing was written, and the error says so", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 3);
  Proxy proxy(folder.path().string());
  const auto book = opened_through(folder, path);
  REQUIRE(append_numbers(*book, 3, 4));
  proxy.cut_next(Proxy::Cut::before_commit);
  const std::string told = fault_of([&] { (void)append_numbers(*book, 4, 5); });
  CHECK(proxy.has_cut());
  CHECK_THAT(told, Contains("nothing was written"));
  CHECK_FALSE(opened(path)->find(id_number(4)));
  REQUIRE(append_numbers(*book, 4, 5));
  CHECK(book->head().size == 5);
  require_sound(*book);
}

TEST_CASE(
    "a line that is cut after COMMIT arrived: the ids tell that it was written, and the receipts are given",
    "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 3);
  Proxy proxy(folder.path().string());
  const auto book = opened_through(folder, path);
  proxy.cut_next(Proxy::Cut::after_commit);
  const auto done = append_numbers(*book, 3, 5);
  CHECK(proxy.has_cut());
  REQUIRE(done);
  CHECK(done->at(1).seq == 4);
  CHECK_FALSE(done->at(0).already_there);
  CHECK(opened(path)->head().size == 5);
  REQUIRE(append_numbers(*book, 5, 6));
  require_sound(*book);
}

TEST_CASE("a commit whose outcome cannot be learnt says so, and the ids decide later", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 3);
  auto proxy = std::make_unique<Proxy>(folder.path().string());
  pq::Options options;
  options.wait = 300ms;
  const std::string own = address_of(path);
  const auto book =
      open_postgres_book("postgresql:///?host=" + folder.path().string() + "&" + own.substr(own.find('?') + 1),
                         store_test::fold, ticking_clock(), options);
  REQUIRE(book);
  REQUIRE(append_numbers(**book, 3, 4));
  proxy->cut_next(Proxy::Cut::after_commit);
  std::thread gone([&] {
    while (!proxy->has_cut()) std::this_thread::sleep_for(1ms);
    proxy.reset();
    std::filesystem::remove(folder.file(".s.PGSQL.5432"));
  });
  const std::string told = fault_of([&] { (void)append_numbers(**book, 4, 5); });
  gone.join();
  CHECK_THAT(told, Contains("whether it was written shows"));
  CHECK_THAT(fault_of([&] { (void)(*book)->head(); }), Contains("does not answer"));
  proxy = std::make_unique<Proxy>(folder.path().string());
  const auto again = append_numbers(**book, 4, 6);
  REQUIRE(again);
  CHECK(again->at(0).already_there);
  CHECK((*book)->head().size == 6);
  require_sound(**book);
}

TEST_CASE("an idle connection that was lost is made anew without a word", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 3);
  const auto book = opened(path);
  REQUIRE(append_numbers(*book, 3, 4));
  CHECK(book->head().size == 4);
  control_server("restart");
  CHECK(book->head().size == 4);
  CHECK(book->entry(2));
  control_server("restart");
  REQUIRE(append_numbers(*book, 4, 5));
  CHECK(book->head().size == 5);
}

TEST_CASE("a server restarted under load: nothing acknowledged is lost, and writing goes on by itself",
          "[.server]") {
  const Folder folder;
  make_book(folder.file("book"), 0);
  (void)write_through(folder.file("book"), [] { control_server("restart"); });
}

TEST_CASE("server processes killed under load: nothing acknowledged is lost, and writing goes on by itself",
          "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 0);
  (void)write_through(path, [&] { kill_all_writers(path); });
}

TEST_CASE("a server that is down is a clear error, and its book is there again when it is up", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 2);
  pq::Options options;
  options.wait = 200ms;
  const auto book = open_postgres_book(address_of(path), store_test::fold, ticking_clock(), options);
  REQUIRE(book);
  control_server("stop");
  CHECK_THAT(fault_of([&] { (void)(*book)->head(); }), Contains("does not answer"));
  CHECK_THAT(fault_of([&] { (void)append_numbers(**book, 2, 3); }), Contains("nothing was written"));
  const auto refused = open_postgres_book(address_of(path), store_test::fold, ticking_clock(), options);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::storage_fault);
  control_server("start");
  REQUIRE(append_numbers(**book, 2, 3));
  CHECK((*book)->head().size == 3);
}
