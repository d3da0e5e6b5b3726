// SPDX-License-Identifier: Apache-2.0
// The statements that walk around append-only triggers in SQLite unless each is thought of.
#include <fmt/format.h>

#include "store/schema.hpp"
#include "store/session.hpp"
#include "support.hpp"

using namespace store_test;

namespace {

const std::string zeros32 = "zeroblob(32)", id_of_0 = "(SELECT id FROM entry WHERE seq = 0)";

std::string refusal_of(sqlite::Connection& connection, const std::string& sql) {
  try {
    connection.execute(sql);
  } catch (const StorageFault& fault) {
    return fault.what();
  }
  return "";
}

}  // namespace

TEST_CASE("entries, nodes and what the book is can be neither changed nor deleted nor replaced", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 300);
  const Head before = opened(path)->head();
  {
    sqlite::Connection connection = open_connection(path, sqlite::Access::read_write, {});
    const auto entry = [&](const char* how, const char* seq, const std::string& id, const char* then = "") {
      return fmt::format("{} INTO entry(seq, id, hash, leaf) VALUES({}, {}, {}, x'7b7d') {}", how, seq, id,
                         zeros32, then);
    };
    const std::string fresh_id = "randomblob(16)";
    for (const std::string& attack : {
             std::string("UPDATE entry SET leaf = x'7b7d' WHERE seq = 0"),
             std::string("UPDATE OR REPLACE entry SET seq = 1 WHERE seq = 0"),
             std::string("DELETE FROM entry WHERE seq = 299"),
             std::string("DELETE FROM entry"),
             entry("INSERT OR REPLACE", "0", fresh_id),
             entry("REPLACE", "299", fresh_id),
             entry("REPLACE", "300", id_of_0),
             entry("INSERT OR REPLACE", "300", id_of_0),
             entry("INSERT", "0", fresh_id, "ON CONFLICT(seq) DO UPDATE SET leaf = excluded.leaf"),
             entry("INSERT", "300", id_of_0, "ON CONFLICT(id) DO UPDATE SET leaf = excluded.leaf"),
             entry("INSERT", "301", fresh_id),
             entry("INSERT", "-1", fresh_id),
             entry("INSERT", "NULL", fresh_id),
             std::string("UPDATE node SET hash = zeroblob(32)"),
             std::string("DELETE FROM node"),
             std::string("REPLACE INTO node VALUES(8, 0, zeroblob(32))"),
             std::string(
                 "INSERT INTO node VALUES(8, 0, zeroblob(32)) ON CONFLICT DO UPDATE SET hash = excluded.hash"),
             std::string("UPDATE meta SET value = 'books.example/other'"),
             std::string("DELETE FROM meta"),
             std::string("REPLACE INTO meta VALUES('origin', 'books.example/other')"),
             std::string("PRAGMA writable_schema=ON; DELETE FROM sqlite_schema WHERE type = 'trigger'"),
         }) {
      CAPTURE(attack);
      CHECK(refusal_of(connection, attack) != "");
    }
  }
  const auto book = opened(path);
  CHECK(book->head().root == before.root);
  require_sound(*book);
}

TEST_CASE("a checkpoint that is kept may gain signatures and nothing else", "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 2);
  const auto book = opened(path);
  book->add_checkpoint(2, "text\n\n- one\n");
  book->add_checkpoint(2, "text\n\n- one\n");
  book->add_checkpoint(2, "text\n\n- one\n- two\n");
  book->add_checkpoint(1, "older\n\n- one\n");
  using Kept = std::vector<std::pair<std::int64_t, std::string>>;
  const Kept kept{{1, "older\n\n- one\n"}, {2, "text\n\n- one\n- two\n"}};
  CHECK(book->checkpoints() == kept);
  for (const auto& [size, note] :
       Kept{{2, "text\n\n- one\n"}, {2, "other\n\n- one\n- two\n"}, {3, "x"}, {-1, "x"}}) {
    CAPTURE(size, note);
    CHECK_THROWS_AS(book->add_checkpoint(size, note), StorageFault);
  }
  CHECK(book->checkpoints() == kept);
  sqlite::Connection connection = open_connection(path, sqlite::Access::read_write, {});
  for (const char* attack : {"DELETE FROM checkpoint", "UPDATE checkpoint SET note = 'x'",
                             "UPDATE checkpoint SET size = 0", "REPLACE INTO checkpoint VALUES(2, 'x')"}) {
    CAPTURE(attack);
    CHECK(refusal_of(connection, attack) != "");
  }
}

TEST_CASE("the same attacks succeed where the pragma is missing, so the settings are what refuses them",
          "[file]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 3);
  sqlite::Connection connection(path, sqlite::Access::read_write, {}, 1000);
  connection.execute("PRAGMA recursive_triggers=OFF; DROP TRIGGER entry_next; DROP TRIGGER entry_once");
  CHECK(refusal_of(connection, "REPLACE INTO entry VALUES(0, randomblob(16), zeroblob(32), x'7b7d')") == "");
  connection.execute("PRAGMA recursive_triggers=ON");
  CHECK(refusal_of(connection, "REPLACE INTO entry VALUES(0, randomblob(16), zeroblob(32), x'7b7d')") != "");
}
