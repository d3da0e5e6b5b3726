// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>

#include "store/schema.hpp"
#include "store/session.hpp"
#include "support.hpp"

using namespace store_test;
namespace fs = std::filesystem;
using Catch::Matchers::Contains;

namespace {

void write_file(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

// Runs `act` as a user without rights of its own, in a child process; true if it returned true.
bool as_nobody(const std::function<bool()>& act) {
  const pid_t child = ::fork();
  if (child == 0) {
    if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) ::_exit(2);
    ::_exit(act() ? 0 : 1);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

std::string synthetic_step() { return "ALTER TABLE document ADD COLUMN remark TEXT"; }

}  // namespace

TEST_CASE("what is not there or is no book is refused with what to do, and left as it is", "[file]") {
  const Folder folder;
  const Error missing = refusal(folder.file("none"));
  CHECK(missing.code == ErrorCode::not_found);
  CHECK_THAT(missing.hint, Contains("book create"));
  CHECK_FALSE(fs::exists(folder.file("none")));
  CHECK(refusal(folder.file("none") + "/deeper").code == ErrorCode::not_found);

  CHECK(refusal(folder.path().string()).code == ErrorCode::bad_book);

  const std::string text = folder.file("text"), empty = folder.file("empty"), foreign = folder.file("foreign");
  write_file(text, std::string(5000, 'x'));
  write_file(empty, "");
  write_file(foreign, "");
  sqlite::Connection(foreign, sqlite::Access::read_write, {}, 0)
      .execute("CREATE TABLE entry(seq INTEGER PRIMARY KEY)");
  for (const std::string& path : {text, empty, foreign}) {
    CAPTURE(path);
    const auto size = fs::file_size(path);
    const Error error = refusal(path);
    CHECK(error.code == ErrorCode::bad_book);
    CHECK(error.where == path);
    CHECK_FALSE(error.hint.empty());
    CHECK(fs::file_size(path) == size);
    CHECK_FALSE(fs::exists(path + ".lock"));
  }
}

TEST_CASE("a book of a newer program is refused", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 1);
  sqlite::Connection(path, sqlite::Access::read_write, {}, 0).execute("PRAGMA user_version=99");
  const Error error = refusal(path);
  CHECK(error.code == ErrorCode::newer_book);
  CHECK_THAT(error.message, Contains("99"));
  CHECK_THAT(error.hint, Contains("newer version"));
}

TEST_CASE("a symbolic link to a book is refused, one to its folder is not", "[file]") {
  const Folder folder;
  make_book(folder.file("book"), 1);
  fs::create_symlink(folder.file("book"), folder.file("link"));
  CHECK(refusal(folder.file("link")).code == ErrorCode::file_fault);
  const Folder elsewhere;
  fs::create_directory_symlink(folder.path(), elsewhere.file("folder"));
  CHECK(opened(elsewhere.file("folder/book"))->head().size == 1);
}

TEST_CASE("a folder or file that may not be written to is a clear error", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 1);
  ::chmod(path.c_str(), 0444);
  ::chmod((path + ".lock").c_str(), 0444);
  ::chmod(folder.path().c_str(), 0555);
  const auto refused = [&](ErrorCode code, const std::function<Result<std::unique_ptr<Store>>()>& act) {
    return as_nobody([&] {
      const auto book = act();
      return !book && book.error().code == code && !book.error().hint.empty();
    });
  };
  CHECK(refused(ErrorCode::file_fault, [&] { return open_sqlite_book(path, fold, ticking_clock()); }));
  CHECK(refused(ErrorCode::file_fault,
                [&] { return create_sqlite_book(folder.file("new"), origin, fold, ticking_clock()); }));
  ::chmod(folder.path().c_str(), 0777);
  CHECK(refused(ErrorCode::file_fault, [&] { return open_sqlite_book(path, fold, ticking_clock()); }));
}

TEST_CASE("a book is made only under a name that is free and in a folder that is there", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  write_file(path, "something else");
  const auto taken = create_sqlite_book(path, origin, fold, ticking_clock());
  REQUIRE_FALSE(taken);
  CHECK(taken.error().code == ErrorCode::already_exists);
  CHECK(fs::file_size(path) == 14);
  CHECK_FALSE(create_sqlite_book(folder.file("none/book"), origin, fold, ticking_clock()));
  CHECK_FALSE(create_sqlite_book(folder.file("other"), "two words", fold, ticking_clock()));
  CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("a closed book is one file beside its lock, readable by its owner only", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 5);
  CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 2);
  CHECK(fs::exists(path + ".lock"));
  CHECK((fs::status(path).permissions() & fs::perms::mask) == (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("each setting of a connection is as the program demands", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 1);
  const sqlite::Connection writer = open_connection(path, sqlite::Access::read_write, {});
  for (const auto& [pragma, value] :
       std::vector<std::pair<std::string, std::string>>{{"journal_mode", "wal"},
                                                        {"synchronous", "2"},
                                                        {"foreign_keys", "1"},
                                                        {"recursive_triggers", "1"},
                                                        {"cell_size_check", "1"},
                                                        {"trusted_schema", "0"},
                                                        {"secure_delete", "1"},
                                                        {"query_only", "0"},
                                                        {"application_id", std::to_string(book_application_id)},
                                                        {"user_version", "1"},
                                                        {"busy_timeout", "5000"}}) {
    CAPTURE(pragma);
    CHECK(writer.value("PRAGMA " + pragma) == value);
  }
  sqlite::Connection reader = open_connection(path, sqlite::Access::read_only, {});
  CHECK(reader.value("PRAGMA query_only") == "1");
  CHECK_THROWS_AS(reader.execute("DELETE FROM document"), StorageFault);
  CHECK_THROWS_AS(reader.value("SELECT load_extension('x')"), StorageFault);
  CHECK_THROWS_AS(reader.execute("ATTACH ':memory:' AS other"), StorageFault);
  sqlite::Connection other = open_connection(path, sqlite::Access::read_write, {});
  CHECK_THROWS_AS(other.set_pragma("synchronous", "NORMAL", "2"), StorageFault);
}

TEST_CASE("a program with more steps brings an older book up to date, and the older program then refuses it",
          "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 4);
  const Head before = opened(path)->head();
  std::vector<const char*> steps(schema_steps().begin(), schema_steps().end());
  const std::string step = synthetic_step();
  steps.push_back(step.c_str());
  SqliteOptions newer;
  newer.steps = steps;
  {
    const auto book = opened(path, newer);
    CHECK(book->head().root == before.root);
    REQUIRE(append_numbers(*book, 4, 5));
    require_sound(*book);
  }
  CHECK(refusal(path).code == ErrorCode::newer_book);
  CHECK(opened(path, newer)->head().size == 5);
}

TEST_CASE("a step that fails leaves the book at its old version", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 4);
  std::vector<const char*> steps(schema_steps().begin(), schema_steps().end());
  const std::string step = synthetic_step() + "; CREATE TABLE entry(x)";
  steps.push_back(step.c_str());
  SqliteOptions newer;
  newer.steps = steps;
  CHECK(refusal(path, newer).code == ErrorCode::internal_fault);
  const auto book = opened(path);
  CHECK(book->head().size == 4);
  require_sound(*book);
}

TEST_CASE("a book that version 1 of the tables wrote opens, verifies and goes on", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  fs::copy_file(FOGWRIGHT_SOURCE_DIR "/tests/data/book-version-1.sqlite", path);
  const auto book = opened(path);
  CHECK(book->origin() == origin);
  CHECK(book->head().size == 300);
  CHECK(book->find(id_number(299)) == 299);
  const auto verification = book->verify(vkey_text(book_key().verifier()), VerifyDepth::all, {});
  CHECK(joined(verification.findings) == "");
  CHECK(verification.checkpoints == std::vector<std::string>{"checkpoint 300: signature and entries hold"});
  require_sound(*book);
  REQUIRE(append_numbers(*book, 300, 303));
  require_sound(*book);
}

// Run by hand when the tables get a new version, before the step is written: store_test "[.stored]"
TEST_CASE("write the stored book of this version", "[file][.stored]") {
  const std::string path =
      fmt::format("{}/tests/data/book-version-{}.sqlite", FOGWRIGHT_SOURCE_DIR, schema_steps().size());
  make_book(path, 300);
  keep_checkpoint(*opened(path));
  fs::remove(path + ".lock");
}
