// SPDX-License-Identifier: Apache-2.0
// Many entries in one transaction: rows are gathered and written together, which must not show.
#include <map>

#include "fogwright/book/document_range.hpp"
#include "support.hpp"

using namespace store_test;
using nlohmann::json;

namespace {

std::unique_ptr<Store> book_of(const std::string& path, Fold folding) {
  auto book = create_book(address_of(path), origin, folding, [] { return start_ms; });
  if (!book) throw std::runtime_error(book.error().message);
  return std::move(*book);
}

std::map<std::string, std::string> documents_of(Store& book) {
  std::map<std::string, std::string> all;
  book.read([&](const Documents& now, const Head&) {
    for (const char* kind : {"count", "last", "container"})
      for (const bool live_only : {true, false})
        now.each_text(kind, live_only, [&](std::string_view key, std::string_view body) {
          all[std::string(kind) + (live_only ? " live " : " ") + std::string(key)] = body;
        });
  });
  return all;
}

Result<std::vector<Receipt>> append_all(Store& book, const std::vector<NewEntry>& entries) {
  return book.append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> { return entries; });
}

std::vector<NewEntry> numbers(std::int64_t from, std::int64_t to) {
  std::vector<NewEntry> entries;
  for (std::int64_t n = from; n < to; ++n) entries.push_back(entry_number(n));
  return entries;
}

/// Puts one document an entry, then counts all of them in each way there is, with what was just put.
void count_all(const Entry& entry, MutableDocuments& documents) {
  documents.put("item", entry.body["container"].get<std::string>(), {{"seq", entry.seq}}, true);
  std::int64_t each = 0, each_text = 0, each_after = 0;
  documents.each("item", true, [&](const std::string& key, const json& body) {
    ++each;
    documents.put("seen", key, body, true);
  });
  documents.each_text("seen", false, [&](std::string_view, std::string_view) { ++each_text; });
  dynamic_cast<const DocumentRange&>(documents).each_after("seen", true, "",
                                                           [&](const std::string&, const json&) {
                                                             ++each_after;
                                                             return true;
                                                           });
  documents.put("total", "all", {{"each", each}, {"each_text", each_text}, {"each_after", each_after}}, true);
}

}  // namespace

TEST_CASE("a batch of any size leaves the record and the documents that its entries leave one by one") {
  for (const std::int64_t size : {1, 15, 16, 17, 63, 64, 65, 100, 300}) {
    CAPTURE(size);
    const Folder folder;
    const auto batch = book_of(folder.file("batch"), fold), one_by_one = book_of(folder.file("single"), fold);
    const auto receipts = append_all(*batch, numbers(0, size));
    REQUIRE(receipts);
    for (std::int64_t n = 0; n < size; ++n) {
      REQUIRE(append_numbers(*one_by_one, n, n + 1));
      CHECK((*receipts)[static_cast<std::size_t>(n)].seq == n);
    }
    CHECK(batch->head().root == one_by_one->head().root);
    CHECK(documents_of(*batch) == documents_of(*one_by_one));
    require_sound(*batch);
  }
}

TEST_CASE("a fault late in a batch names its entry, and nothing of the batch stays, in the book or in memory") {
  const Folder folder;
  const auto book = book_of(folder.file("book"), fold);
  REQUIRE(append_all(*book, numbers(0, 70)));
  const auto before = documents_of(*book);
  std::vector<NewEntry> bad = numbers(70, 170);
  bad[89].body["share"] = 0.5;
  const auto refused = append_all(*book, bad);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().where == "/body/share of entry 90 of 100");
  bad = numbers(70, 170);
  bad[95].id = id_number(90);  // one of this batch, not written yet when it is looked for
  const auto twice = append_all(*book, bad);
  REQUIRE_FALSE(twice);
  CHECK(twice.error().where == "id of entry 96 of 100");
  CHECK(book->head().size == 70);
  CHECK(documents_of(*book) == before);
  REQUIRE(append_all(*book, numbers(70, 75)));
  CHECK(book->head().size == 75);
  require_sound(*book);
}

TEST_CASE("entries that are there already, among many that are not, get their receipts again") {
  const Folder folder;
  const auto book = book_of(folder.file("book"), fold);
  REQUIRE(append_all(*book, numbers(40, 60)));
  const auto receipts = append_all(*book, numbers(0, 100));
  REQUIRE(receipts);
  for (std::int64_t n = 0; n < 100; ++n) {
    const Receipt& receipt = (*receipts)[static_cast<std::size_t>(n)];
    CHECK(receipt.id == id_number(n));
    CHECK(receipt.already_there == (n >= 40 && n < 60));
    CHECK(book->find(id_number(n)) == receipt.seq);
  }
  CHECK(book->head().size == 100);
  require_sound(*book);
}

TEST_CASE("folding an entry sees what the entries before it in the same batch put") {
  const Folder folder;
  const auto book = book_of(folder.file("book"), count_all);
  std::vector<NewEntry> entries;
  for (std::int64_t n = 0; n < 150; ++n) entries.push_back(entry_number(3 * n));
  REQUIRE(append_all(*book, entries));
  book->read([](const Documents& now, const Head&) {
    CHECK(now.get("total", "all") == json{{"each", 150}, {"each_text", 150}, {"each_after", 150}});
  });
}
