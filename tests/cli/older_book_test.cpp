// SPDX-License-Identifier: Apache-2.0
// A book whose documents another version of the program derived.
#include <catch2/catch.hpp>
#include <cstdlib>

#include "stock_world.hpp"

using namespace fogwright::test;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

/// A fold that knew no roles, and said that it was of this version.
template <std::int64_t version>
void fold_of(const fogwright::Entry& entry, fogwright::MutableDocuments& documents) {
  fogwright::fold(entry, documents);
  documents.put("fold", "version", {{"version", version}}, true);
  if (auto ash = documents.get("person", "ash")) {
    (*ash)["roles"] = json::array();
    documents.put("person", "ash", *ash, true);
  }
}

/// Derives the documents of the book by another fold.
void derive_by(const BookDesk& desk, fogwright::Fold fold) {
  const auto store = fogwright::open_sqlite_book(desk.file("book.db"), fold, [] { return std::int64_t{0}; });
  REQUIRE(store);
  std::vector<std::string> differing;
  REQUIRE((*store)->rebuild(differing, {}) == 2);
}

}  // namespace

TEST_CASE("documents of an earlier version are derived anew when the book is opened, once, and it is told") {
  BookDesk desk;
  desk.set_up();
  derive_by(desk, fold_of<0>);
  const Ran first = desk.done({"crew", "list"});
  CHECK_THAT(first.err, Contains("derived anew"));
  CHECK_THAT(first.out, Contains("owner"));
  const Ran second = desk.done({"crew", "list"});
  CHECK(second.err == "");
  CHECK(second.out == first.out);
  CHECK(desk.done({"book", "rebuild"}).out == "rebuilt: the documents were as the entries say\n");
  CHECK(desk.done({"book", "verify", "--json"}).json()["valid"] == true);
}

TEST_CASE(
    "a book whose documents do not say their version is of an earlier one; the answer of a program stays "
    "clean") {
  BookDesk desk;
  desk.set_up();
  const auto store = fogwright::open_sqlite_book(
      desk.file("book.db"), [](const fogwright::Entry&, fogwright::MutableDocuments&) {},
      [] { return std::int64_t{0}; });
  REQUIRE(store);
  std::vector<std::string> differing;
  REQUIRE((*store)->rebuild(differing, {}) > 5);
  const Ran list = desk.done({"crew", "list", "--json"});
  CHECK(list.err == "");
  CHECK(list.json().dump().find("owner") != std::string::npos);
}

TEST_CASE("documents of a later version are not touched") {
  BookDesk desk;
  desk.set_up();
  derive_by(desk, fold_of<fogwright::fold_version + 1>);
  const Ran refused = desk.run({"crew", "enrol", "heath", "--role", "technician", "--json"});
  CHECK(refused.status == 3);
  CHECK(refused.error()["code"] == "newer-book");
  CHECK_THAT(refused.err, Contains("use a newer version of this program"));
}

TEST_CASE("where an entry was changed the documents stay, and verify names it") {
  BookDesk desk;
  desk.set_up();
  derive_by(desk, fold_of<0>);
  const std::string change =
      "sqlite3 '" + desk.file("book.db") +
      "' \"DROP TRIGGER entry_stays; UPDATE entry SET leaf = cast(replace(leaf, 'rowan', "
      "'tansy') AS BLOB) WHERE seq = 1\"";
  REQUIRE(std::system(change.c_str()) == 0);
  const Ran verified = desk.run({"book", "verify", "--json"});
  CHECK(verified.status == 3);
  CHECK(verified.json()["valid"] == false);
  CHECK(verified.json()["findings"].dump().find("\"seq\":1") != std::string::npos);
}
