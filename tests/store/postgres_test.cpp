// SPDX-License-Identifier: Apache-2.0
// What a book on a server adds: roles and rights, addresses, a server that is not to be trusted, copies both
// ways.
#include <fmt/format.h>

#include <thread>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/merkle.hpp"
#include "support.hpp"

using namespace store_test;
using namespace std::chrono_literals;
using Catch::Matchers::Contains;

namespace {

const std::string role = "book_user";

void make_role() {
  pq::Connection connection = superuser("roles");
  (void)connection.execute(
      "DO $$BEGIN IF NOT EXISTS (SELECT 1 FROM pg_roles WHERE rolname = 'book_user') THEN CREATE ROLE "
      "book_user "
      "LOGIN PASSWORD 'open-sesame-4711'; END IF; END$$");
}

/// The address of a path for another role.
std::string address_as(const std::string& path, const std::string& user) {
  std::string address = address_of(path);
  return address.replace(0, std::string("postgresql://").size(), "postgresql://" + user + "@");
}

std::unique_ptr<Store> granted_book(const std::string& path) {
  make_role();
  auto book = create_book(address_of(path), origin, store_test::fold, ticking_clock(), {role});
  REQUIRE(book);
  return std::move(*book);
}

/// A bare connection in the schema of the book.
pq::Connection connected(const std::string& path, const std::string& user) {
  const auto address = pq::read_address(address_as(path, user));
  REQUIRE(address);
  return {*address, 5s, [](pq::Connection& connection) {
            (void)connection.execute("SET search_path = " + connection.address().schema);
          }};
}

std::string refusal_of(pq::Connection& connection, const std::string& sql) {
  try {
    (void)connection.execute(sql);
  } catch (const StorageFault& fault) {
    return fault.what();
  }
  return "";
}

/// Changes a setting of the whole server, `NAME = VALUE`, and waits until new connections have it.
void configure(pq::Connection& owner, const std::string& setting) {
  (void)owner.execute("ALTER SYSTEM SET " + setting);
  (void)owner.execute("SELECT pg_reload_conf()");
  const std::string name = setting.substr(0, setting.find(' ')), value = setting.substr(setting.rfind(' ') + 1);
  for (int i = 0; i < 200 && superuser("settings").execute("SHOW " + name).text(0, 0) != value; ++i)
    std::this_thread::sleep_for(10ms);
}

const std::string entry_300 =
    "(300, '\\x00112233445566778899aabbccddeeff', decode(repeat('00', 32), 'hex'), '\\x7b7d')";

}  // namespace

TEST_CASE("a role that was granted the book can do all that the book needs, and nothing but add to the record",
          "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  (void)granted_book(path);
  const auto opened_as_user = open_book(address_as(path, role), store_test::fold, ticking_clock());
  REQUIRE(opened_as_user);
  Store& book = **opened_as_user;
  REQUIRE(append_numbers(book, 0, 300));
  keep_checkpoint(book);
  const std::string hash = to_hex(as_bytes(salted_hash(Salt{}, "a name")));
  book.keep_private(hash, as_bytes(Salt{}), "a name");
  CHECK(book.erase_private(hash));
  require_sound(book);
  pq::Connection bare = connected(path, role);
  for (const char* attack :
       {"UPDATE entry SET leaf = '\\x00'", "DELETE FROM entry", "TRUNCATE entry",
        "UPDATE node SET hash = '\\x00'", "DELETE FROM node", "UPDATE meta SET value = 'x'", "DELETE FROM meta",
        "DELETE FROM head", "INSERT INTO meta VALUES('a', 'b')", "DELETE FROM checkpoint",
        "UPDATE checkpoint SET size = 7", "UPDATE private SET bytes = '\\x00'", "DROP TABLE entry",
        "ALTER TABLE entry DISABLE TRIGGER ALL", "UPDATE version SET version = 0",
        "CREATE TABLE other(x integer)", "TRUNCATE document", "SET session_replication_role = replica"}) {
    CAPTURE(attack);
    CHECK_THAT(refusal_of(bare, attack), Contains("role may not"));
  }
  CHECK_THAT(refusal_of(bare, "UPDATE checkpoint SET note = 'x'"), Contains("may only gain signatures"));
  CHECK_THAT(refusal_of(bare, "UPDATE head SET size = 5"), Contains("must stand behind the last entry"));
  CHECK_THAT(refusal_of(bare, "INSERT INTO entry VALUES " + entry_300), Contains("head must move"));
  require_sound(book);
}

TEST_CASE("a role that was granted nothing is refused with what to do", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_role();
  make_book(path, 1);
  const auto refused = open_book(address_as(path, role), store_test::fold, ticking_clock());
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::file_fault);
  CHECK_THAT(refused.error().hint, Contains("--grant-to"));
  const auto no_role = create_book(address_of(folder.file("other")), origin, store_test::fold, ticking_clock(),
                                   {"nobody\"; --"});
  REQUIRE_FALSE(no_role);
  CHECK(open_book(address_of(folder.file("other")), store_test::fold, ticking_clock()).error().code ==
        ErrorCode::not_found);  // all or nothing
}

TEST_CASE("the triggers stop the owner's mistakes as well", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 300);
  pq::Connection owner = superuser(path);
  for (const std::string& attack : {
           std::string("UPDATE entry SET leaf = '\\x7b7d' WHERE seq = 0"),
           std::string("DELETE FROM entry WHERE seq = 299"),
           std::string("TRUNCATE entry"),
           "INSERT INTO entry VALUES " + entry_300 + " ON CONFLICT(seq) DO UPDATE SET leaf = excluded.leaf",
           "INSERT INTO entry VALUES " + entry_300,
           std::string("UPDATE head SET size = 301; INSERT INTO entry SELECT 301, "
                       "'\\x00112233445566778899aabbccddeeff', "
                       "hash, leaf FROM entry WHERE seq = 0"),
           std::string("UPDATE head SET size = 301; INSERT INTO entry SELECT 300, id, hash, leaf FROM entry "
                       "WHERE seq = 0"),
           std::string(
               "INSERT INTO entry SELECT -1, '\\x00112233445566778899aabbccddeeff', hash, leaf FROM entry "
               "WHERE seq = 0"),
           std::string("UPDATE node SET position = 7"),
           std::string("DELETE FROM node"),
           std::string("TRUNCATE node"),
           std::string(
               "INSERT INTO node SELECT * FROM node ON CONFLICT(level, position) DO UPDATE SET hash = '\\x00'"),
           std::string("UPDATE meta SET value = 'books.example/other'"),
           std::string("DELETE FROM meta"),
           std::string("DELETE FROM head"),
           std::string("UPDATE head SET size = 299"),
           std::string("TRUNCATE checkpoint"),
           std::string("UPDATE private SET bytes = '\\x00'"),
       }) {
    CAPTURE(attack);
    CHECK(refusal_of(owner, attack) != "");
  }
  require_sound(*opened(path));
}

TEST_CASE("a writer that holds the head too long is busy, and free again afterwards", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 1);
  SqliteOptions options;
  options.wait = 50ms;
  const auto book = opened(path, options);
  {
    pq::Connection other = superuser(path);
    other.begin("BEGIN; SELECT * FROM head FOR UPDATE");
    const auto busy = append_numbers(*book, 1, 2);
    REQUIRE_FALSE(busy);
    CHECK(busy.error().code == ErrorCode::storage_busy);
    CHECK_FALSE(busy.error().hint.empty());
    CHECK_THROWS_AS(book->add_checkpoint(0, "note"), StorageFault);
    CHECK(book->head().size == 1);  // reading goes on
  }
  CHECK(append_numbers(*book, 1, 2));
  require_sound(*book);
}

TEST_CASE("a server that may lose what it acknowledged is refused", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 1);
  pq::Connection owner = superuser(path);
  const auto set = [&](const std::string& setting) { configure(owner, setting); };
  for (const std::string name : {"fsync", "full_page_writes"}) {
    set(name + " = off");
    const auto refused = open_book(address_of(path), store_test::fold, ticking_clock());
    pq::Options trusting;
    trusting.demand_durable = false;
    CHECK(open_postgres_book(address_of(path), store_test::fold, ticking_clock(), trusting));
    set(name + " = on");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::storage_fault);
    CHECK_THAT(refused.error().message, Contains(name + " = off"));
    CHECK_THAT(refused.error().hint, Contains(name + " = on"));
  }
  // This one is the session's own to set, whatever the server says.
  set("synchronous_commit = off");
  const auto book = open_book(address_of(path), store_test::fold, ticking_clock());
  set("synchronous_commit = on");
  REQUIRE(book);
  REQUIRE(append_numbers(**book, 1, 2));
}

TEST_CASE("a server that came back with such a setting is refused each time, until it is put right",
          "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 1);
  const auto book = opened(path);
  REQUIRE(append_numbers(*book, 1, 2));
  pq::Connection owner = superuser(path);
  configure(owner, "fsync = off");
  (void)owner.execute(
      "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'fogwright' AND pid <> "
      "pg_backend_pid()");
  std::this_thread::sleep_for(100ms);
  for (int i = 0; i < 2; ++i) CHECK_THROWS_AS(append_numbers(*book, 2, 3), StorageFault);
  configure(owner, "fsync = on");
  CHECK(book->head().size == 2);
  REQUIRE(append_numbers(*book, 2, 3));
  require_sound(*book);
}

TEST_CASE("no error and no output shows a password", "[.server]") {
  const std::string secret = "s3cr3t-word";
  for (const std::string& address :
       {"postgresql://anna:" + secret + "@127.0.0.1:1/books",
        "postgresql:///books?host=/nowhere&password=" + secret,
        "postgresql://anna:" + secret + "@/no_such_database", "postgresql://anna:" + secret + "@ss@host/books",
        "postgresql://anna:" + secret + "@host/books?port=" + secret,
        "postgresql://anna:" + secret + "@host:" + secret + "/x",
        "postgresql://anna:" + secret + "@host/books?schema=A-B",
        "postgresql://anna:" + secret + "@[host/books"}) {
    CAPTURE(address);
    const auto refused = open_book(address, store_test::fold, ticking_clock());
    REQUIRE_FALSE(refused);
    const Error& error = refused.error();
    CHECK_THAT(error.message + error.where + error.hint + shown_address(address),
               !Contains(secret) && !Contains("ss@"));
    CHECK_FALSE(error.hint.empty());
  }
}

TEST_CASE("the same book has the same file name whoever uses it, and another book another one", "[.server]") {
  const auto name = [](const std::string& address) { return file_name_of(address).value(); };
  CHECK(name("postgresql://anna:pw@db.example:5433/tarn") == "db.example-5433-tarn-fogwright");
  CHECK(name("postgresql://bert@db.example:5433/tarn") == "db.example-5433-tarn-fogwright");
  CHECK(name("postgresql://db.example:5433/tarn?schema=vale") == "db.example-5433-tarn-vale");
  CHECK(name("postgresql:///tarn?host=/var/run/x") == "%2Fvar%2Frun%2Fx-tarn-fogwright");
  CHECK(shown_address("postgresql://anna:pw@db.example:5433/tarn?schema=vale") ==
        "postgresql://anna@db.example:5433/tarn?schema=vale");
}

TEST_CASE("where there is no book, and where there is one already", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  const auto missing = open_book(address_of(path), store_test::fold, ticking_clock());
  REQUIRE_FALSE(missing);
  CHECK(missing.error().code == ErrorCode::not_found);
  CHECK_THAT(missing.error().hint, Contains("book create"));
  make_book(path, 1);
  const auto again = create_book(address_of(path), origin, store_test::fold, ticking_clock());
  REQUIRE_FALSE(again);
  CHECK(again.error().code == ErrorCode::already_exists);
  CHECK(opened(path)->head().size == 1);
}

TEST_CASE(
    "a newer program brings the tables up to date as their owner, and the older program then refuses them",
    "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  (void)granted_book(path);
  std::vector<const char*> steps(pq::schema_steps().begin(), pq::schema_steps().end());
  steps.push_back("ALTER TABLE {s}.document ADD COLUMN remark text");
  pq::Options newer;
  newer.steps = steps;
  const auto open = [&](const std::string& address, const pq::Options& options) {
    return open_postgres_book(address, store_test::fold, ticking_clock(), options);
  };
  const auto not_the_owner = open(address_as(path, role), newer);
  REQUIRE_FALSE(not_the_owner);
  CHECK_THAT(not_the_owner.error().hint, Contains("owner"));
  {
    const auto book = open(address_of(path), newer);
    REQUIRE(book);
    REQUIRE(append_numbers(**book, 0, 5));
    require_sound(**book);
  }
  const auto older = open(address_of(path), {});
  REQUIRE_FALSE(older);
  CHECK(older.error().code == ErrorCode::newer_book);
  CHECK(open(address_as(path, role), newer));
}

TEST_CASE("a book goes from a file to the server and back, and is the same at each end", "[.server]") {
  const Folder folder;
  const std::string file = folder.file("file"), back = folder.file("back"), there = folder.file("there");
  const auto source = create_sqlite_book(file, origin, store_test::fold, ticking_clock());
  REQUIRE(source);
  for (std::int64_t n = 0; n < 3000; n += 500) REQUIRE(append_numbers(**source, n, n + 500));
  keep_checkpoint(**source);
  const std::string hash = to_hex(as_bytes(salted_hash(Salt{}, "a name")));
  (*source)->keep_private(hash, as_bytes(Salt{}), "a name");
  std::int64_t last = 0, total = 0;
  const auto progress = [&](std::int64_t done, std::int64_t of) { last = done, total = of; };

  const std::string address = address_of(there);
  const auto up = copy_book(**source, address, store_test::fold, ticking_clock(), progress);
  REQUIRE(up);
  CHECK(last == total);
  CHECK(up->head.root == (*source)->head().root);
  CHECK(up->checkpoints == 1);
  CHECK(up->private_bytes == 1);
  const auto server = open_book(address, store_test::fold, ticking_clock());
  REQUIRE(server);
  CHECK((*server)->checkpoints() == (*source)->checkpoints());
  CHECK((*server)->private_bytes(hash) == "a name");
  require_sound(**server);

  const auto down = copy_book(**server, back, store_test::fold, ticking_clock(), progress);
  REQUIRE(down);
  const auto restored = open_sqlite_book(back, store_test::fold, ticking_clock());
  REQUIRE(restored);
  CHECK((*restored)->head().root == (*source)->head().root);
  CHECK((*restored)->head().last_received_ms == (*source)->head().last_received_ms);
  CHECK((*restored)->checkpoints() == (*source)->checkpoints());
  CHECK((*restored)->private_bytes(hash) == "a name");
  require_sound(**restored);
  for (const auto& left : std::filesystem::directory_iterator(folder.path()))
    CHECK_THAT(left.path().string(), !Contains(".part"));
}

TEST_CASE("a copy overwrites nothing, and one that is broken off leaves nothing", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book"), other = folder.file("other");
  make_book(path, 600);
  const auto book = opened(path);
  make_book(other, 1);
  const auto taken = copy_book(*book, address_of(other), store_test::fold, ticking_clock(), {});
  REQUIRE_FALSE(taken);
  CHECK(taken.error().front().code == ErrorCode::already_exists);
  CHECK(opened(other)->head().size == 1);

  const std::string third = folder.file("third");
  REQUIRE(create_book(address_of(third), "books.example/else", store_test::fold, ticking_clock()));
  CHECK_FALSE(copy_book(*book, address_of(third), store_test::fold, ticking_clock(), {}));

  const auto broken_off = [&](const std::string& target) {
    CHECK_THROWS_AS(copy_book(*book, target, store_test::fold, ticking_clock(),
                              [](std::int64_t done, std::int64_t) {
                                if (done > 500) throw std::logic_error("");
                              }),
                    std::logic_error);
  };
  broken_off(folder.file("file"));
  CHECK_FALSE(std::filesystem::exists(folder.file("file")));
  const std::string fourth = address_of(folder.file("fourth"));
  broken_off(fourth);
  CHECK(open_book(fourth, store_test::fold, ticking_clock()).value()->head().size == 0);
  REQUIRE(copy_book(*book, fourth, store_test::fold, ticking_clock(), {}));

  tamper(path, "UPDATE entry SET leaf = " + sql_bytes("{}") + " WHERE seq = 17");
  const auto damaged = copy_book(*opened(path), folder.file("damaged"), store_test::fold, ticking_clock(), {});
  REQUIRE_FALSE(damaged);
  CHECK(damaged.error().front().where == "the source:18");
  CHECK_FALSE(std::filesystem::exists(folder.file("damaged")));
}

TEST_CASE("many entries are read in pieces, also while each is being used", "[.server]") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 2600);
  const auto book = opened(path);
  std::int64_t next = 0;
  book->each_leaf(10, 2590, [&](std::int64_t seq, std::string_view leaf) {
    if (next++ % 500 == 0) CHECK(hash_leaf(leaf) == book->node(0, seq));
  });
  CHECK(next == 2580);
}
