// SPDX-License-Identifier: Apache-2.0
#include "support.hpp"

using namespace store_test;

namespace {

std::string exported(Store& store) {
  std::string lines;
  store.each_leaf(0, store.head().size,
                  [&](std::int64_t, std::string_view leaf) { lines.append(leaf).push_back('\n'); });
  return lines;
}

void no_progress(std::int64_t, std::int64_t) {}

/// The lines of an export of `count` entries.
std::string export_of(const Folder& folder, std::int64_t count) {
  const auto store = created(folder.file("source" + std::to_string(count)));
  REQUIRE(append_numbers(*store, 0, count));
  return exported(*store);
}

std::vector<std::string> places(const Faults& faults) {
  std::vector<std::string> where;
  for (const Error& fault : faults) {
    CHECK(fault.code == ErrorCode::bad_import);
    CHECK_FALSE(fault.hint.empty());
    where.push_back(fault.where);
  }
  return where;
}

}  // namespace

TEST_CASE("an export taken into an empty book makes the same book, root and documents") {
  const Folder folder;
  const auto source = created(folder.file("a"));
  REQUIRE(append_numbers(*source, 0, 50));
  const auto copy = created(folder.file("b"));
  CHECK(copy->import_lines(exported(*source), "x", no_progress).value() == 50);
  CHECK(copy->head().root == source->head().root);
  CHECK(copy->head().last_received_ms == source->head().last_received_ms);
  CHECK(exported(*copy) == exported(*source));
  CHECK(copy->verify("", VerifyDepth::all, no_progress).findings.empty());
}

TEST_CASE("what is there already is passed over, and only what is new is taken") {
  const Folder folder;
  const std::string lines = export_of(folder, 30);
  const auto copy = created(folder.file("b"));
  std::size_t cut = 0;
  for (int i = 0; i < 10; ++i) cut = lines.find('\n', cut) + 1;
  CHECK(copy->import_lines(lines.substr(0, cut), "x", no_progress).value() == 10);
  CHECK(copy->import_lines(lines, "x", no_progress).value() == 20);
  CHECK(copy->import_lines(lines, "x", no_progress).value() == 0);
  CHECK(copy->import_lines("", "x", no_progress).value() == 0);
  REQUIRE(append_numbers(*copy, 30, 31));
  CHECK(copy->head().size == 31);
}

TEST_CASE("a malformed import is refused whole, each faulty line with its number") {
  const Folder folder;
  const std::string lines = export_of(folder, 4);
  const auto first = lines.substr(0, lines.find('\n') + 1);
  const auto copy = created(folder.file("b"));
  const std::string bad = first + "{\"not\":\"an entry\"}\n" + "\n" + lines.substr(first.size());
  const auto refused = copy->import_lines(bad, "x", no_progress);
  REQUIRE_FALSE(refused);
  CHECK(places(refused.error()) == std::vector<std::string>{"x:2", "x:3"});
  CHECK(copy->head().size == 0);
}

TEST_CASE("a gap, another order, another book's entry and a changed byte are refused") {
  const Folder folder;
  const std::string lines = export_of(folder, 4);
  const auto second = lines.find('\n') + 1;
  const auto copy = created(folder.file("b"));
  CHECK_FALSE(copy->import_lines(lines.substr(second), "x", no_progress));
  const auto third = lines.find('\n', second) + 1;
  CHECK_FALSE(
      copy->import_lines(lines.substr(second, third - second) + lines.substr(0, second), "x", no_progress));
  const auto other =
      create_book(address_of(folder.file("c")), "another.example/book", store_test::fold, ticking_clock());
  REQUIRE(other);
  CHECK_FALSE((*other)->import_lines(lines, "x", no_progress));
  REQUIRE(copy->import_lines(lines, "x", no_progress));
  std::string changed = lines;
  const auto digit = changed.find("\"happened\":1") + 11;
  changed[digit + 3] = changed[digit + 3] == '5' ? '6' : '5';
  const auto parted = copy->import_lines(changed, "x", no_progress);
  REQUIRE_FALSE(parted);
  CHECK(places(parted.error()).front() == "x:1");
  CHECK(copy->head().size == 4);
}
